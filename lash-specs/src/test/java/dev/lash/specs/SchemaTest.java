package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowable;

import dev.lash.adjust.Adjustment;
import dev.lash.adjust.Adjustment.TurnFrom;
import dev.lash.check.CheckReport;
import dev.lash.check.FindingCode;
import dev.lash.check.Severity;
import dev.lash.engine.ScrewHead;
import dev.lash.engine.ValveTrain.ScrewPlace;
import dev.lash.engine.ValveTrain.ShimPlace;
import dev.lash.gauge.Fit;
import dev.lash.gauge.ReadingRule;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.RejectedValueException;
import dev.lash.specs.Template.SourceKind;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.FieldSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

class SchemaTest {
    private static final Path MAIN = Path.of("src", "main", "resources", "dev", "lash", "specs");

    static final List<String> FILES = Schemas.FILES;

    private static List<String> jsonFiles(Path folder) throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            return files.map(file -> file.getFileName().toString())
                    .filter(name -> name.endsWith(".json"))
                    .sorted()
                    .toList();
        }
    }

    // The schemas themselves

    @Test
    void thereIsOneForEachKindOfDocument() throws IOException {
        assertThat(jsonFiles(MAIN.resolve("schema"))).containsExactlyElementsOf(FILES);
    }

    @ParameterizedTest
    @FieldSource("FILES")
    void isAValidSchema(String file) {
        String schema = Fixtures.resource("schema/" + file);

        assertThat(Schemas.errorsOfSchema(schema)).isEmpty();
        assertThat(Trees.tree(schema).get("$schema").stringValue())
                .isEqualTo("https://json-schema.org/draft/2020-12/schema");
        assertThat(Trees.tree(schema).get("$id").stringValue())
                .isEqualTo(file.replaceFirst("lash-([a-z]+)-([0-9]+)\\.schema\\.json", "urn:lash:schema:$1:$2"));
        assertThat(Trees.tree(schema).at("/properties/format/const").stringValue())
                .isEqualTo(file.replaceFirst("(lash-[a-z]+)-([0-9]+)\\.schema\\.json", "$1/$2"));
    }

    @Test
    void theCheckOfSchemasFindsFaults() {
        String schema = Fixtures.resource("schema/lash-pack-1.schema.json");

        assertThat(Schemas.errorsOfSchema(Trees.with(schema, "/type", "\"text\"")))
                .isNotEmpty();
        assertThat(Schemas.errorsOfSchema(Trees.with(schema, "/properties/templates/items", "7")))
                .isNotEmpty();
    }

    /** A reference that leads nowhere would only be found when it is used. */
    @ParameterizedTest
    @FieldSource("FILES")
    void refersOnlyToPartsThatItHas(String file) {
        JsonNode schema = Trees.tree(Fixtures.resource("schema/" + file));
        for (String pointer : Trees.pointers(schema)) {
            if (pointer.endsWith("/$ref")) {
                String reference = schema.at(pointer).stringValue();
                assertThat(reference).startsWith("#/$defs/");
                assertThat(schema.at(reference.substring(1)).isMissingNode())
                        .as("%s at %s", reference, pointer)
                        .isFalse();
            }
        }
        for (String name : schema.get("$defs").propertyNames()) {
            assertThat(schema.toString()).as("use of %s", name).contains("\"$ref\":\"#/$defs/" + name + "\"");
        }
    }

    @Test
    void sheetAndTemplateShareTheirPartsOfAnEngine() {
        JsonNode sheet = Schemas.SHEET.tree().get("$defs");
        JsonNode template = Schemas.TEMPLATE.tree().get("$defs");
        List<String> shared =
                sheet.propertyNames().stream().filter(template::has).toList();

        assertThat(shared).contains("train", "windows", "camTiming", "condition", "shims", "ratio", "valve", "id");
        for (String name : shared) {
            assertThat(template.get(name)).as(name).isEqualTo(sheet.get(name));
        }
    }

    @ParameterizedTest
    @FieldSource("FILES")
    void isStrictAndExplainsEachField(String file) {
        JsonNode schema = Trees.tree(Fixtures.resource("schema/" + file));
        List<String> parts = Trees.pointers(schema).stream()
                .filter(pointer -> pointer.matches("|/\\$defs/[A-Za-z]+"))
                .filter(pointer -> schema.at(pointer).has("properties"))
                .toList();
        assertThat(parts).contains("");
        for (String pointer : parts) {
            JsonNode part = schema.at(pointer);
            assertThat(part.has("additionalProperties"))
                    .as("strict at %s", pointer)
                    .isTrue();
            for (String name : part.get("properties").propertyNames()) {
                JsonNode property = part.get("properties").get(name);
                assertThat(property.has("description") || property.has("$ref"))
                        .as("description of %s at %s", name, pointer)
                        .isTrue();
            }
        }
    }

    static Stream<Arguments> schemas() {
        return Stream.of(
                Arguments.of("import", Schemas.IMPORT),
                Arguments.of("mapping", Schemas.MAPPING),
                Arguments.of("pack", Schemas.PACK),
                Arguments.of("profile", Schemas.PROFILE),
                Arguments.of("report", Schemas.REPORT),
                Arguments.of("sheet", Schemas.SHEET),
                Arguments.of("template", Schemas.TEMPLATE));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("schemas")
    void itsExamplesAreValid(String name, Schemas schema) {
        JsonNode tree = schema.tree();
        assertThat(tree.get("examples")).as(name).isNotEmpty();
        for (JsonNode example : tree.get("examples")) {
            assertThat(schema.errors(example.toString())).as(name).isEmpty();
        }
        for (String part : tree.get("$defs").propertyNames()) {
            JsonNode examples = tree.get("$defs").get(part).get("examples");
            for (int i = 0; examples != null && i < examples.size(); i++) {
                assertThat(schema.part(part).errors(examples.get(i).toString()))
                        .as("%s: %s", part, examples.get(i))
                        .isEmpty();
            }
        }
    }

    // Documents

    @Test
    void theExamplesOfTheSheetSchemaAreRead() {
        for (JsonNode example : Schemas.SHEET.tree().get("examples")) {
            assertThat(Fixtures.read(example.toString())).isNotNull();
        }
    }

    @Test
    void theExamplesOfTheTemplateSchemaAreRead() {
        for (JsonNode example : Schemas.TEMPLATE.tree().get("examples")) {
            assertThat(new TemplateReader(JsonDocument.parse("example", example.toString())).read())
                    .isNotNull();
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {Fixtures.FULL, Fixtures.OVERLAY, Fixtures.INCH})
    void theSheetsOfTheTestsAreValid(String resource) {
        assertThat(Schemas.SHEET.errors(Fixtures.resource(resource))).isEmpty();
    }

    @Test
    void theTemplateOfTheTestsIsValid() {
        assertThat(Schemas.TEMPLATE.errors(Fixtures.resource(Fixtures.TEMPLATE)))
                .isEmpty();
    }

    @Test
    void theExampleSheetsAreValidAndRead() throws IOException {
        Path folder = Path.of("..", "lash-examples", "sheets");
        List<String> names = jsonFiles(folder);
        assertThat(names).isNotEmpty();
        for (String name : names) {
            String json = Files.readString(folder.resolve(name));
            assertThat(Schemas.SHEET.errors(json)).as(name).isEmpty();
            String report = ReportWriter.pretty().write(CheckReport.of(Fixtures.read(json)));
            assertThat(Schemas.REPORT.errors(report)).as("report of %s", name).isEmpty();
        }
    }

    @Test
    void packAndTemplatesAreValid() throws IOException {
        assertThat(Schemas.PACK.errors(Fixtures.resource("pack/pack.json"))).isEmpty();
        for (String file : jsonFiles(MAIN.resolve("pack"))) {
            Schemas schema = file.equals("pack.json") ? Schemas.PACK : Schemas.TEMPLATE;
            assertThat(schema.errors(Fixtures.resource("pack/" + file)))
                    .as(file)
                    .isEmpty();
        }
    }

    @Test
    void theGoldenReportIsValid() {
        assertThat(Schemas.REPORT.errors(Fixtures.resource("full-sheet.report.json")))
                .isEmpty();
    }

    // What is refused

    /** What only the reader can see: sums, orders, ranges across units, and how fields fit together. */
    private static final Set<String> BEYOND_THE_SCHEMA = Set.of(
            "too fine",
            "temperature out of range",
            "leaf out of range",
            "drag allowance out of range",
            "a valve that the engine does not have",
            "valve twice",
            "shim out of range",
            "tolerance of a shim out of range",
            "an interval that holds nothing",
            "reversed window",
            "window out of range",
            "no window for a role",
            "window to set to outside the check window",
            "step that does not divide the range",
            "ratio out of range",
            "cylinders against firing order",
            "intervals that do not add up to 720",
            "fewer intervals than cylinders",
            "a valve of a cylinder that the engine does not have",
            "a valve of an earlier check that the engine does not have",
            "reversed condition",
            "event out of range",
            "margin out of range");

    static Stream<BadInput> badSheets() {
        return Stream.of(
                        SheetReaderBadInputTest.unknownFields(),
                        SheetReaderBadInputTest.missingFields(),
                        SheetReaderBadInputTest.badQuantities(),
                        SheetReaderBadInputTest.badValues(),
                        SheetReaderBadInputTest.badEngines())
                .flatMap(s -> s);
    }

    @ParameterizedTest
    @MethodSource("badSheets")
    void theSheetSchemaRefusesWhatTheReaderRefuses(BadInput bad) {
        List<String> errors = Schemas.SHEET.errors(bad.in(SheetReaderBadInputTest.SOUND));

        assertThat(errors.isEmpty()).as("valid by the schema").isEqualTo(BEYOND_THE_SCHEMA.contains(bad.name()));
    }

    @Test
    void theSoundSheetIsValidAndEveryExceptionIsTested() {
        assertThat(Schemas.SHEET.errors(SheetReaderBadInputTest.SOUND)).isEmpty();
        assertThat(badSheets().map(BadInput::name)).containsAll(BEYOND_THE_SCHEMA);
    }

    /** A template without what it must have is refused by the schema as by the reader. */
    @Test
    void theTemplateSchemaRefusesAMissingSource() {
        String full = Fixtures.resource(Fixtures.TEMPLATE);
        for (String figure : Trees.tree(full).get("provenance").propertyNames()) {
            String json = Trees.without(full, "/provenance/" + figure.replace("/", "~1"));
            assertThat(Schemas.TEMPLATE.errors(json)).as(figure).isNotEmpty();
        }
    }

    /** Texts that neither schema nor library reads. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '~',
            value = {
                "size | 0 mm; 0.000 mm; -2.40 mm; 2,40 mm; 2.40; 2.40 cm; 2.40 m m; 24e-1 mm; .mm; mm; 2.4.0 mm; 1 240 mm; EMPTY",
                "allowance | -0.003 mm; 0,003 mm; 0.003; 3 nm; um",
                "thickness | 0 mm; -0.10 mm; 0.10; 0.10 metres; ten; 1e-1 mm; 0x1 mm; 1_0 mm",
                "stack | 0 mm; 0.10; 0.10 mm goes; 0.06 mm and 0.15 mm",
                "window | 0.11 mm; 0.11-0.16 mm; 0.11..0.16; 0.11.. mm; ..0.16 mm; -0.11..0.16 mm; 0.11..0.16..0.20 mm; 0,11..0,16 mm; (0.11, 0.16) mm; 0.11 mm..0.16",
                "reading | (0.12, 0.15); (0.12; (0.12, 0.15 mm; 0.12, 0.15 mm; {0.12, 0.15} mm; 0.12..0.15 mm; = 0.15 mm; < 0.03; <> 0.03 mm; Any; 0.15 mm; (, 0.15) mm; (0.12,) mm",
                "usage | -1 km; 18450; 18 450 km; 18'450 km; 18450 kms; 18450 m; km; 1e3 km",
                "checkInterval | 6000; -1 h; 6,000 km; weekly",
                "temperature | 19; 19 °; 19 K; °C; 19 ° C; warm; 19 c; 1e1 °C",
                "date | 2031-4-2; 02.04.2031; 2031-02-29; 2031-13-01; 2031-04-31; 2031-00-01; 31-04-02; 2031-04-02T10:00; 20310402; EMPTY",
                "valve | 0-in-1; 1-in-0; 100-in-1; 1-in-10; 1-IN-1; 1-inlet-1; in-1; 1in1; 1-in-1a; 01-in-1; 1-in-01; a1-in-1",
                "id | Ridge; ridge quad; -ridge; ridge_quad; ridge/quad; rídge; EMPTY",
                "ratio | 0; -1; 1:2; 1.5x; 3/0; 0/3; 3/2/1; 1,5; one; 1.5 mm; 1e1; 3.5/2",
                "shims | 1.20..3.50 mm; 1.20..3.50 step 0.05; 1.20..3.50 mm step; 1.20..3.50 mm by 0.05 mm; step 0.05 mm; 1.20 mm step 0.05 mm; 1.20..3.50 mmstep0.05 mm; 1.20..3.50 mm step -0.05 mm",
                "pitch | 0 mm; 0.75; tpi; 0 tpi; -26 tpi; 26 tpx; M6; 26 t p i; 0/26 tpi; 26/0 tpi",
                "eccentricity | 0 mm; 1.5; -1 mm",
                "opens | 15 deg; 15 BTDC; 15deg BTDC; -15 deg BTDC; 15 deg TDC; 15 deg before TDC; BTDC; 15 degrees BTDC; 15/0 deg BTDC; 15 deg BTDC.",
                "closes | 50 deg; 50 ABDC; 50° ABDC",
                "margin | 15; 15 degrees; deg; 15°; 15/0 deg; 15 rad",
                "turned | a quarter; deg; 15 degrees; 15°; 15/0 deg; -; 1e1 deg"
            })
    void bothRefuse(String form, String texts) {
        for (String text : texts.split("; ", -1)) {
            String bad = text.equals("EMPTY") ? "" : text;
            assertThat(SchemaForm.of(form).schemaAccepts(bad))
                    .as("schema accepts %s", bad)
                    .isFalse();
            Throwable refused = catchThrowable(() -> SchemaForm.of(form).read(bad));
            assertThat(refused)
                    .as("%s as %s", bad, form)
                    .isInstanceOfAny(RejectedValueException.class, DateTimeException.class);
        }
    }

    /** Ranges are the reader's alone. */
    @ParameterizedTest
    @CsvSource({
        "thickness, 5.000001 mm",
        "size, 20.01 mm",
        "allowance, 0.11 mm",
        "window, 0.16..0.11 mm",
        "usage, 100000001 km",
        "temperature, 1001 °C",
        "ratio, 0.09",
        "pitch, 5.01 mm",
        "opens, 181 deg BTDC"
    })
    void theReaderAloneSeesRanges(String form, String text) {
        Throwable refused = catchThrowable(() -> SchemaForm.of(form).read(text));

        assertThat(SchemaForm.of(form).schemaAccepts(text)).isTrue();
        assertThat(refused).isInstanceOf(RejectedValueException.class);
    }

    // Words

    private static List<String> words(Schemas schema, String pointer) {
        JsonNode list = schema.tree().at(pointer);
        assertThat(list.isArray()).as(pointer).isTrue();
        return list.valueStream().map(JsonNode::stringValue).toList();
    }

    @Test
    void knowsTheKindsOfTrain() {
        List<String> kinds = Stream.of(
                        Arrays.stream(ScrewPlace.values()).map(ScrewPlace::kind),
                        Arrays.stream(ShimPlace.values()).map(ShimPlace::kind),
                        Stream.of("eccentric", "desmodromic", "fixed", "hydraulic"))
                .flatMap(s -> s)
                .toList();

        for (List<String> words : List.of(
                words(Schemas.SHEET, "/$defs/train/properties/kind/enum"),
                words(Schemas.TEMPLATE, "/$defs/train/properties/kind/enum"),
                words(Schemas.REPORT, "/$defs/engine/properties/train/enum"))) {
            assertThat(words).containsExactlyInAnyOrderElementsOf(kinds);
        }
    }

    @Test
    void knowsTheWordsOfTheGauges() {
        List<String> fits = Arrays.stream(Fit.values()).map(Fit::word).toList();
        List<String> rules = List.of(
                ReadingRule.simple().name(),
                ReadingRule.guarded(Length.ZERO, Length.ZERO).name());

        assertThat(words(Schemas.SHEET, "/$defs/fit/enum")).containsExactlyElementsOf(fits);
        assertThat(words(Schemas.REPORT, "/$defs/fit/enum")).containsExactlyElementsOf(fits);
        assertThat(words(Schemas.SHEET, "/properties/rule/enum")).containsExactlyElementsOf(rules);
        assertThat(words(Schemas.REPORT, "/properties/rule/enum")).containsExactlyElementsOf(rules);
    }

    @Test
    void knowsTheHeads() {
        List<String> heads =
                Arrays.stream(ScrewHead.values()).map(ScrewHead::word).toList();

        assertThat(words(Schemas.SHEET, "/$defs/train/properties/head/enum")).containsExactlyElementsOf(heads);
        assertThat(words(Schemas.TEMPLATE, "/$defs/train/properties/head/enum")).containsExactlyElementsOf(heads);
    }

    @Test
    void knowsTheWordsOfReports() {
        assertThat(words(Schemas.REPORT, "/$defs/verdict/enum"))
                .containsExactlyInAnyOrderElementsOf(
                        Arrays.stream(Verdict.values()).map(Verdict::word).toList());
        assertThat(words(Schemas.REPORT, "/$defs/finding/properties/severity/enum"))
                .containsExactlyInAnyOrderElementsOf(
                        Arrays.stream(Severity.values()).map(Severity::word).toList());
        assertThat(words(Schemas.REPORT, "/$defs/adjustment/properties/from/enum"))
                .containsExactlyInAnyOrderElementsOf(
                        Arrays.stream(TurnFrom.values()).map(TurnFrom::word).toList());
        Schemas.Part code = Schemas.REPORT.part("code", "#/$defs/finding/properties/code");
        assertThat(Arrays.stream(FindingCode.values()).map(FindingCode::code)).allMatch(code::accepts);
    }

    /** The name of a kind is that of its class with hyphens: SetToLeaf, set-to-leaf. */
    @Test
    void knowsTheKindsOfAdjustment() {
        List<String> kinds = Arrays.stream(Adjustment.class.getPermittedSubclasses())
                .map(type -> type.getSimpleName().replaceAll("([a-z])([A-Z])", "$1-$2"))
                .map(name -> name.toLowerCase(Locale.ROOT))
                .toList();

        assertThat(words(Schemas.REPORT, "/$defs/adjustment/properties/kind/enum"))
                .containsExactlyInAnyOrderElementsOf(kinds);
        assertThat(new Adjustment.Machine("grind", null).kind()).isIn(kinds);
    }

    @Test
    void knowsTheKindsOfSource() {
        assertThat(words(Schemas.TEMPLATE, "/$defs/source/properties/kind/enum"))
                .containsExactlyElementsOf(
                        Arrays.stream(SourceKind.values()).map(SourceKind::word).toList());
    }
}
