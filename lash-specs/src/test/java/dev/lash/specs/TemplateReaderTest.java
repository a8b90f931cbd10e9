package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.engine.CamTiming;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.FiringOrder;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.ValveTrain.ShimPlace;
import dev.lash.measure.Ratio;
import dev.lash.measure.Temperature;
import dev.lash.measure.Usage;
import dev.lash.specs.Template.Source;
import dev.lash.specs.Template.SourceKind;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class TemplateReaderTest {
    private static final String FULL = Fixtures.resource(Fixtures.TEMPLATE);

    private static Template read(String json) {
        return new TemplateReader(JsonDocument.parse("template.json", json)).read();
    }

    private static DocumentException refused(String json) {
        return BadInput.refuses(() -> read(json), json);
    }

    private static ClearanceSpec typical(String check, String setTo) {
        return new ClearanceSpec(ClearanceWindow.parse(check), ClearanceWindow.parse(setTo), "");
    }

    @Test
    void readsTheEngine() {
        EngineSpec expected = EngineSpec.builder("test-twin", "Twin of the tests, finger followers")
                .firingOrder(FiringOrder.parse("1-2 (180, 540)"))
                .valves("1-in-1", "1-ex-1", "2-in-1", "2-ex-1")
                .train(new ValveTrain.Shim(
                        ShimPlace.FOLLOWER, ShimRange.parse("1.20..2.90 mm step 0.025 mm"), Ratio.of(4, 5)))
                .clearance(ValveRole.INTAKE, typical("0.10..0.15 mm", "0.11..0.14 mm"))
                .clearance(ValveRole.EXHAUST, typical("0.15..0.20 mm", "0.16..0.19 mm"))
                .coldest(Temperature.ofCelsius(5))
                .warmest(Temperature.ofCelsius(35))
                .checkInterval(Usage.parse("5000 km"))
                .camTiming(new CamTiming(
                        CamTiming.Event.parse("25 deg BTDC"),
                        CamTiming.Event.parse("60 deg ABDC"),
                        CamTiming.Event.parse("61 deg BBDC"),
                        CamTiming.Event.parse("26 deg ATDC"),
                        Ratio.of(20, 1)))
                .cautions(List.of("A caution."))
                .template("test-twin, revision 3")
                .build();

        assertThat(read(FULL).spec().toBuilder().origins(Map.of()).build()).isEqualTo(expected);
    }

    @Test
    void readsWhereTheFiguresComeFrom() {
        Template template = read(FULL);

        assertThat(template.id()).isEqualTo("test-twin");
        assertThat(template.revision()).isEqualTo(3);
        assertThat(template.notes()).containsExactly("A note.", "Another.");
        assertThat(template.sources())
                .isEqualTo(Map.of(
                        "memory",
                        new Source(
                                SourceKind.FROM_MEMORY,
                                "Twins",
                                0,
                                Map.of("reliability", "low: recalled, not checked")),
                        "practice",
                        new Source(
                                SourceKind.COMMON_PRACTICE,
                                "",
                                0,
                                Map.of(
                                        "reliability",
                                        "fair: a habit of the trade",
                                        "note",
                                        "Both crank pins are opposite.")),
                        "book",
                        new Source(
                                SourceKind.PUBLISHED,
                                "A book on twins",
                                1999,
                                Map.of(
                                        "publisher",
                                        "A press",
                                        "edition",
                                        "2nd",
                                        "locator",
                                        "page 9",
                                        "reliability",
                                        "high: the maker's own")),
                        "own",
                        new Source(SourceKind.SHOP, "", 0, Map.of("reliability", "fair: measured on one engine"))));
        assertThat(template.provenance())
                .hasSize(12)
                .containsEntry("/train/shims", "book")
                .containsEntry("/train/ratio", "own")
                .containsEntry("/camTiming", "memory");
    }

    @ParameterizedTest
    @ValueSource(strings = {"active", "deprecated", "withdrawn"})
    void readsEachStatus(String status) {
        assertThat(read(Trees.with(FULL, "/status", Trees.quoted(status))).id()).isEqualTo("test-twin");
    }

    // Every figure names its source

    static Stream<Arguments> figures() {
        Stream<String> shipped = SpecPack.bundled().ids().stream().map(id -> Fixtures.resource("pack/" + id + ".json"));
        return Stream.concat(Stream.of(FULL), shipped)
                .flatMap(json -> Trees.tree(json).get("provenance").propertyNames().stream()
                        .map(figure -> Arguments.of(Trees.tree(json).get("id").stringValue(), figure, json)));
    }

    @ParameterizedTest(name = "{0} {1}")
    @MethodSource("figures")
    void refusesAFigureWithoutASource(String id, String figure, String json) {
        String entry = "/provenance/" + figure.replace("/", "~1");
        DocumentException refused = refused(Trees.without(json, entry));

        assertThat(refused.pointer()).isEqualTo("/provenance");
        assertThat(refused.problem()).isEqualTo("leaves figures without a source: [" + figure + "]");
        assertThat(refused.expected()).isEqualTo("a source for each figure");
        assertThat(refused.mend()).isEqualTo("say where each comes from");
        assertThat(read(json).provenance()).as(id).containsKey(figure);
    }

    @Test
    void listsAllFiguresWithoutASource() {
        DocumentException refused = refused(Trees.with(FULL, "/provenance", "{ \"/camTiming\": \"memory\" }"));

        assertThat(refused.problem())
                .isEqualTo("leaves figures without a source: [/checkInterval, /clearances/ex, /clearances/in, "
                        + "/condition/maxTemperature, /condition/minTemperature, /firingIntervals, /firingOrder, "
                        + "/setTo/ex, /setTo/in, /train/ratio, /train/shims]");
    }

    @Test
    void asksNoSourceOfWhatIsNoFigure() {
        for (String field : List.of("/id", "/title", "/train/kind", "/cautions", "/valves", "/cylinders")) {
            String entry = "/provenance/" + field.replace("/", "~1");
            DocumentException refused = refused(Trees.with(FULL, entry, "\"memory\""));

            assertThat(refused.pointer()).isEqualTo(entry);
            assertThat(refused.problem())
                    .isEqualTo("is the source of " + field + ", which is no figure of this template");
            assertThat(refused.expected()).contains("/clearances/in", "/train/ratio");
            assertThat(refused.mend()).isEqualTo("correct the pointer");
        }
    }

    @Test
    void refusesTheSourceOfAFigureThatIsLeftOut() {
        DocumentException refused = refused(Trees.without(FULL, "/camTiming"));

        assertThat(refused.pointer()).isEqualTo("/provenance/~1camTiming");
        assertThat(refused.problem()).contains("/camTiming, which is no figure of this template");
    }

    @Test
    void refusesASourceThatIsNotThere() {
        DocumentException refused = refused(Trees.with(FULL, "/provenance/~1camTiming", "\"hearsay\""));

        assertThat(refused.pointer()).isEqualTo("/provenance/~1camTiming");
        assertThat(refused.value()).isEqualTo("hearsay");
        assertThat(refused.problem()).isEqualTo("is not a source of this template");
        assertThat(refused.expected()).contains("memory", "practice", "book", "own");
        assertThat(refused.mend()).isEqualTo("add it to the sources");
    }

    // What else is refused

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "/format | \"lash-template/2\" | is not a format that this version reads | \"lash-template/1\"",
                "/format | \"lash-sheet/1\" | is not a format that this version reads | \"lash-template/1\"",
                "/revision | 0 | is out of range | a whole number from 1 to 100000",
                "/revision | \"1\" | is not a whole number | a whole number from 1 to 100000",
                "/status | \"new\" | is not a status | active, deprecated, withdrawn",
                "/addedIn | 1 | is a bare number | a version",
                "/id | 7 | is a bare number | a short name",
                "/notes | \"A note.\" | is not a list | a list in square brackets",
                "/notes/0 | 1 | is a bare number | a text",
                "/sources | [] | is not an object | an object in braces",
                "/sources/memory | \"memory\" | is not an object | an object in braces",
                "/sources/memory/kind | \"hearsay\" | is not a kind of source | common-practice, from-memory, published, shop",
                "/sources/book/year | 1799 | is out of range | a whole number from 1800 to 2200",
                "/sources/book/year | \"1999\" | is not a whole number | a whole number from 1800 to 2200",
                "/clearances/in | \"0.15..0.10 mm\" | is reversed | such as",
                "/provenance | [] | is not an object | an object in braces",
                "/provenance/~1camTiming | 1 | is a bare number | the short name of a source",
            })
    void refusesAWrongValue(String pointer, String value, String problem, String expected) {
        DocumentException refused = refused(Trees.with(FULL, pointer, value));

        assertThat(refused.pointer()).isEqualTo(pointer);
        assertThat(refused.problem()).contains(problem);
        assertThat(refused.expected()).contains(expected);
    }

    @ParameterizedTest
    @ValueSource(strings = {"title", "year"})
    void refusesAPublicationWithoutTitleOrYear(String field) {
        DocumentException refused = refused(Trees.without(FULL, "/sources/book/" + field));

        assertThat(refused.pointer()).isEqualTo("/sources/book");
        assertThat(refused.problem()).isEqualTo("is published without title and year");
        assertThat(refused.mend()).isEqualTo("name the publication");
    }

    @ParameterizedTest
    @ValueSource(strings = {"/madeUp", "/sources/memory/madeUp", "/train/madeUp", "/condition/madeUp"})
    void refusesAnUnknownField(String pointer) {
        DocumentException refused = refused(Trees.with(FULL, pointer, "\"x\""));

        assertThat(refused.pointer()).isEqualTo(pointer);
        assertThat(refused.value()).isEqualTo("madeUp");
        assertThat(refused.problem()).isEqualTo("is an unknown field");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "format",
                "id",
                "title",
                "revision",
                "status",
                "addedIn",
                "cylinders",
                "valves",
                "train",
                "sources",
                "provenance"
            })
    void refusesAMissingField(String field) {
        DocumentException refused = refused(Trees.without(FULL, "/" + field));

        assertThat(refused.pointer()).isEmpty();
        assertThat(refused.problem()).isEqualTo("has no field \"" + field + "\"");
    }

    @Test
    void refusesNullInPlaceOfAnyValue() {
        for (String pointer : Trees.pointers(Trees.tree(FULL))) {
            assertThat(refused(Trees.with(FULL, pointer, "null")).pointer()).isEqualTo(pointer);
        }
    }

    @Test
    void showsThePlaceInTheFile() {
        DocumentException refused = refused(FULL.replace("\"deprecated\"", "\"old\""));

        assertThat(refused.source()).isEqualTo("template.json");
        assertThat(refused.line()).isEqualTo(6);
        assertThat(refused.column()).isEqualTo(13);
    }
}
