package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.assertThatNullPointerException;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lash.check.CheckReport;
import dev.lash.check.Unconfirmed;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Figure;
import dev.lash.engine.FiringOrder;
import dev.lash.engine.Origin;
import dev.lash.engine.Overridden;
import dev.lash.engine.ValveTrain;
import dev.lash.measure.LengthUnit;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;

/** Any figure of a template may be replaced by the one of the shop's manual, and what was there before is remembered. */
class TemplateOverridesTest {
    private static final SpecPack PACK = SpecPack.bundled();
    private static final LengthUnit MM = LengthUnit.MILLIMETRE;
    private static final String PRIOR = """
            { "per": "10000 km", "drift": "-0.020 mm", "driftDeviation": "0.020 mm", "spread": "0.010 mm",
              "scatter": "0.006 mm", "factor": "1.5", "basis": "the shop's own fleet" }
            """;
    private static final String TIMING = """
            { "in": { "opens": "11 deg BTDC", "closes": "44 deg ABDC" },
              "ex": { "opens": "44 deg BBDC", "closes": "11 deg ATDC" } }
            """;

    private static String sheet(String id, String overrides) {
        return """
                {
                  "format": "lash-sheet/1",
                  "engine": { "template": "ID"FIGURES },
                  "gauges": { "leaves": ["0.05 mm", "0.10 mm", "0.15 mm"] },
                  "valves": []
                }
                """.replace("\"ID\"", "\"" + id + "\"").replace("FIGURES", overrides.isEmpty() ? "" : ", " + overrides);
    }

    /** Read as a sheet, which is sound by its schema, and by the call: both must be the same engine. */
    private static EngineSpec engine(String id, String overrides) {
        String json = sheet(id, overrides);
        assertThat(Schemas.SHEET.errors(json)).as(overrides).isEmpty();
        EngineSpec engine = Fixtures.read(json).engine();
        assertThat(PACK.resolve(id, TemplateOverrides.parse("manual", "{ " + overrides + " }")))
                .isEqualTo(engine);
        return engine;
    }

    /** A figure of each kind with its template, the text that replaces it, and what it is then. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "PITCH | screw-twin | \"train\": { \"pitch\": \"1 mm\" } | 1.00 mm",
                "HEAD | screw-twin | \"train\": { \"head\": \"hexagon\" } | hexagon",
                "RATIO | generator-ohv-single | \"train\": { \"ratio\": \"1.7\" } | 1.7",
                "SHIMS | vtwin-90-bucket | \"train\": { \"shims\": \"2.00..3.20 mm step 0.025 mm\" } | 2.00..3.20 mm step 0.025 mm",
                "RATIO | follower-single | \"train\": { \"ratio\": \"1.23\" } | 1.23",
                "ECCENTRICITY | inline-four-eccentric | \"train\": { \"eccentricity\": \"1.1 mm\" } | 1.10 mm",
                "MULTIPLIER | inline-four-eccentric | \"train\": { \"multiplier\": \"2.6\" } | 2.6",
                "STEP | wedge-twin | \"train\": { \"step\": \"0.06 mm\" } | 0.06 mm",
                "OPENER_SHIMS | vtwin-90-desmodromic | \"train\": { \"openerShims\": \"1.80..4.20 mm step 0.05 mm\" } | 1.80..4.20 mm step 0.05 mm",
                "CLOSER_SHIMS | vtwin-90-desmodromic | \"train\": { \"closerShims\": \"5.10..8.40 mm step 0.05 mm\" } | 5.10..8.40 mm step 0.05 mm",
                "FIRING_ORDER | inline-four-screw-four-valve | \"firingOrder\": [1, 3, 4, 2] | 1-3-4-2",
                "FIRING_INTERVALS | screw-twin | \"firingIntervals\": [315, 405] | 315, 405 deg",
                "INTAKE_WINDOW | screw-twin | \"clearances\": { \"in\": \"0.07..0.12 mm\" } | 0.07..0.12 mm",
                "INTAKE_CLOSER_WINDOW | vtwin-90-desmodromic | \"closerClearances\": { \"in\": \"0.01..0.06 mm\" } | 0.01..0.06 mm",
                "WARMEST | screw-twin | \"condition\": { \"maxTemperature\": \"25 °C\" } | 25 °C",
                "COLDEST | screw-twin | \"condition\": { \"minTemperature\": \"11 °C\" } | 11 °C",
                "CHECK_INTERVAL | screw-twin | \"checkInterval\": \"7700 km\" | 7700 km",
                "DECOMPRESSOR | screw-single | \"decompressor\": { \"valve\": \"1-ex-1\", \"before\": \"44 deg\", \"after\": \"11 deg\" } | 1-ex-1 from 44 deg before to 11 deg after compression TDC"
            })
    void aFigureOfTheSheetReplacesThatOfTheTemplate(Figure figure, String id, String overrides, String now) {
        EngineSpec typical = PACK.get(id).spec();
        Optional<String> was = typical.findFigure(figure, MM);
        assertThat(was).as("the figure of the template").isNotEqualTo(Optional.of(now));

        EngineSpec engine = engine(id, overrides);

        assertThat(engine.findFigure(figure, MM)).contains(now);
        assertThat(engine.origin(figure)).isEqualTo(Origin.STATED);
        assertThat(engine.overridden())
                .filteredOn(o -> o.figure() == figure)
                .containsExactly(new Overridden(figure, was.orElse(""), typical.origin(figure)));
        for (Figure other : Figure.values()) {
            boolean alone = !other.isSetting() && engine.overridden().stream().noneMatch(o -> o.figure() == other);
            if (alone) {
                assertThat(engine.origin(other)).as("origin of %s", other).isEqualTo(typical.origin(other));
                assertThat(engine.findFigure(other, MM)).isEqualTo(typical.findFigure(other, MM));
            }
        }
        assertThat(engine.isConfirmed(figure)).isEqualTo(!figure.isWindow());
    }

    @Test
    void timingPriorSettingAndCamshaftsTheSame() {
        EngineSpec engine = engine(
                "vtwin-90-bucket",
                "\"camTiming\": " + TIMING + ", \"wearPrior\": " + PRIOR
                        + ", \"setTo\": { \"ex\": \"0.22..0.24 mm\" }, \"camshafts\": { \"perBank\": \"one\", \"banks\": [[1], [2]] }");

        assertThat(engine.findFigure(Figure.CAM_TIMING, MM))
                .hasValueSatisfying(t -> assertThat(t).contains("11 deg BTDC"));
        assertThat(engine.wearPrior().orElseThrow().basis()).isEqualTo("the shop's own fleet");
        assertThat(engine.findFigure(Figure.EXHAUST_SETTING, MM)).contains("0.22..0.24 mm");
        assertThat(engine.camshafts().perBank().word()).isEqualTo("one");
        assertThat(engine.overridden())
                .extracting(Overridden::figure)
                .containsExactly(Figure.EXHAUST_SETTING, Figure.WEAR_PRIOR, Figure.CAM_TIMING, Figure.CAMSHAFTS);
        assertThat(engine.overridden().get(2).was())
                .as("no template gives that")
                .isEmpty();
    }

    @Test
    void anEngineMayHaveNoDecompressor() {
        EngineSpec engine = engine("screw-single", "\"decompressor\": \"none\"");

        assertThat(engine.decompressor()).isEmpty();
        assertThat(Overridden.texts(engine, MM))
                .containsExactly("decompressor none in place of 1-ex-1, angles not known (from memory)");
    }

    @Test
    void aTrainOfAnotherKindTakesNothingOver() {
        EngineSpec engine = engine(
                "vtwin-90-bucket",
                "\"train\": { \"kind\": \"rocker-screw\", \"pitch\": \"0.75 mm\", \"head\": \"slot\" }");

        assertThat(engine.train()).isInstanceOf(ValveTrain.Screw.class);
        assertThat(engine.overridden())
                .extracting(Overridden::figure)
                .containsExactly(Figure.PITCH, Figure.HEAD, Figure.SHIMS);
        assertThat(Overridden.texts(engine, MM).get(2)).startsWith("shim sizes none in place of ");
        assertThat(engine.origins()).doesNotContainKeys(Figure.PITCH, Figure.SHIMS);
    }

    @Test
    void aWedgeTakesThePlaceOfATappetsPitchAndTheOtherWayRound() {
        assertThat(engine("side-valve-single", "\"train\": { \"step\": \"0.05 mm\" }")
                        .train())
                .isInstanceOf(ValveTrain.Wedge.class);
        assertThat(engine("wedge-twin", "\"train\": { \"pitch\": \"1 mm\" }").train())
                .isInstanceOf(ValveTrain.Screw.class);
    }

    @Test
    void theSameFigureIsTheShopsOnceTheSheetStatesIt() {
        EngineSpec typical = PACK.get("screw-twin").spec();
        EngineSpec engine = engine(
                "screw-twin",
                "\"train\": { \"pitch\": \""
                        + typical.findFigure(Figure.PITCH, MM).orElseThrow() + "\" }, \"firingOrder\": "
                        + typical.firingOrder().order());

        assertThat(engine.origin(Figure.PITCH)).isEqualTo(Origin.STATED);
        assertThat(engine.isConfirmed(Figure.FIRING_ORDER)).isTrue();
        assertThat(engine.firingOrder()).isEqualTo(typical.firingOrder());
        assertThat(engine.overridden()).as("nothing is replaced").isEmpty();
    }

    @Test
    void aFigureThatIsLaidOverCanBeConfirmed() {
        EngineSpec engine = engine(
                "screw-twin",
                "\"train\": { \"pitch\": \"1 mm\" }, \"clearances\": { \"in\": \"0.07..0.12 mm\" }, "
                        + "\"confirmedFrom\": { \"pitch\": \"page 3-2\", \"in\": \"page 3-8\", \"ex\": \"page 3-8\" }");

        assertThat(engine.findConfirmation(Figure.PITCH)).contains("page 3-2");
        assertThat(engine.findConfirmation(Figure.INTAKE_WINDOW)).contains("page 3-8");
        assertThat(engine.findConfirmation(Figure.EXHAUST_WINDOW))
                .as("named, though the template's")
                .contains("page 3-8");
    }

    @Test
    void evenFiringFollowsTheOrder() {
        assertThat(engine("inline-four-screw-four-valve", "\"firingOrder\": [1, 2, 4, 3]")
                        .firingOrder())
                .isEqualTo(FiringOrder.even(1, 2, 4, 3));
        assertThat(engine("screw-twin", "\"firingOrder\": [2, 1], \"firingIntervals\": [300, 420]")
                        .firingOrder()
                        .toString())
                .isEqualTo("2-1 (300, 420)");
    }

    // Reports and sheets

    @Test
    void theReportTellsWhatWasReplaced() {
        String json = sheet(
                "screw-twin", "\"train\": { \"pitch\": \"1 mm\" }, \"clearances\": { \"in\": \"0.07..0.12 mm\" }");
        CheckReport report = CheckReport.of(Fixtures.read(json));
        String written = ReportWriter.pretty().write(report);

        assertThat(Schemas.REPORT.errors(written)).isEmpty();
        List<JsonNode> told =
                Trees.tree(written).get("overridden").valueStream().toList();
        assertThat(told).hasSize(2);
        assertThat(told.get(0).get("figure").stringValue()).isEqualTo("/train/pitch");
        assertThat(told.get(0).get("value").stringValue()).isEqualTo("1.00 mm");
        assertThat(told.get(0).get("was").stringValue()).isEqualTo("0.75 mm");
        assertThat(told.get(0).get("template").stringValue()).startsWith("screw-twin, revision ");
        assertThat(Unconfirmed.of(report.sheet().engine(), MM, Set.of(Unconfirmed.Use.VERDICTS)))
                .as("a window wants its page")
                .extracting(Unconfirmed::figure)
                .contains(Figure.INTAKE_WINDOW);
        assertThat(Trees.tree(ReportWriter.pretty().write(CheckReport.of(Fixtures.read(sheet("screw-twin", "")))))
                        .has("overridden"))
                .isFalse();
    }

    @ParameterizedTest
    @MethodSource("changes")
    void aSheetWrittenAndReadAgainRemembers(String id, String overrides) {
        EngineSpec engine = engine(id, overrides);
        String written = SheetWriter.write(Fixtures.read(sheet(id, overrides)));

        assertThat(Schemas.SHEET.errors(written)).isEmpty();
        assertThat(Fixtures.read(written).engine()).isEqualTo(engine);
        assertThat(Fixtures.read(written).engine().overridden())
                .isEqualTo(engine.overridden())
                .isNotEmpty();
    }

    static Stream<Arguments> changes() {
        return Stream.of(
                Arguments.of("vtwin-90-bucket", "\"train\": { \"kind\": \"rocker-screw\", \"pitch\": \"26 tpi\" }"),
                Arguments.of("screw-single", "\"decompressor\": \"none\""),
                Arguments.of("screw-twin", "\"camTiming\": " + TIMING + ", \"wearPrior\": " + PRIOR),
                Arguments.of(
                        "screw-twin",
                        "\"clearances\": { \"in\": \"0.003..0.005 in\" }, \"train\": { \"head\": \"slot\" }"),
                Arguments.of(
                        "vtwin-90-desmodromic",
                        "\"closerClearances\": { \"ex\": \"0.02..0.06 mm\" }, \"firingIntervals\": [300, 420]"));
    }

    // What is refused

    private static BadInput bad(
            String template,
            String overrides,
            String pointer,
            String value,
            String problem,
            String expected,
            String mend) {
        return new BadInput(
                template + ": " + overrides,
                List.of(new BadInput.Change(
                        "\"template\": \"ID\"", "\"template\": \"" + template + "\", " + overrides)),
                "/engine" + pointer,
                value,
                problem,
                expected,
                mend);
    }

    static Stream<BadInput> refused() {
        return Stream.of(
                bad(
                        "vtwin-90-bucket",
                        "\"train\": ¦{ \"kind\": \"rocker-screw\" }",
                        "/train",
                        "{…}",
                        "has no pitch, and the template's train is of another kind, bucket-shim-under",
                        "every figure of a train of the kind rocker-screw",
                        "of another kind of train nothing is taken over"),
                bad(
                        "vtwin-90-bucket",
                        "\"train\": ¦{ \"kind\": \"follower-shim\", \"ratio\": \"1.2\" }",
                        "/train",
                        "{…}",
                        "has no shims",
                        "shims, ratio",
                        "add what is missing"),
                bad(
                        "vtwin-90-bucket",
                        "\"train\": { \"kind\": \"rocker-screw\", \"pitch\": \"1 mm\", \"shims\": ¦\"1.20..3.50 mm step 0.05 mm\" }",
                        "/train/shims",
                        "1.20..3.50 mm step 0.05 mm",
                        "is a figure that a train of the kind rocker-screw does not have",
                        "one of pitch, head",
                        "remove it"),
                bad(
                        "screw-twin",
                        "\"train\": { \"ratio\": ¦\"1.4\" }",
                        "/train/ratio",
                        "1.4",
                        "a train of the kind rocker-screw does not have",
                        "one of pitch, head",
                        "give its \"kind\" and all its figures"),
                bad("screw-twin", "\"train\": { \"pitch\": ¦\"9 mm\" }", "/train/pitch", "9 mm", "", "", ""),
                bad(
                        "screw-twin",
                        "\"train\": { \"pich\": ¦\"1 mm\" }",
                        "/train/pich",
                        "pich",
                        "is an unknown field",
                        "pitch",
                        "correct its spelling"),
                bad(
                        "screw-twin",
                        "\"train\": { \"kind\": ¦\"rocker\" }",
                        "/train/kind",
                        "rocker",
                        "is not a kind of valve train",
                        "rocker-screw",
                        "write one of these kinds"),
                bad(
                        "screw-twin",
                        "\"train\": { \"kind\": ¦\"hydraulic\" }",
                        "/train/kind",
                        "hydraulic",
                        "has other gaps than the template's rocker-screw train",
                        "a train with the gaps of rocker-screw",
                        "choose a template of that train"),
                bad(
                        "vtwin-90-desmodromic",
                        "\"train\": { \"kind\": ¦\"rocker-screw\", \"pitch\": \"1 mm\" }",
                        "/train/kind",
                        "rocker-screw",
                        "has other gaps",
                        "desmodromic",
                        "inline"),
                bad(
                        "screw-twin",
                        "\"valves\": ¦[\"1-in-1\"]",
                        "/valves",
                        "[…]",
                        "is not laid over a template",
                        "1-in-1, ",
                        "choose another template"),
                bad(
                        "screw-twin",
                        "\"cylinders\": ¦3",
                        "/cylinders",
                        "3",
                        "is for one layout alone",
                        "screw-twin",
                        "inline"),
                bad(
                        "screw-twin",
                        "\"firingOrder\": ¦[1, 3, 2]",
                        "/firingOrder",
                        "[…]",
                        "is of 3 cylinders",
                        "the 2 of the template",
                        "choose a template with as many cylinders"),
                bad(
                        "screw-twin",
                        "\"firingOrder\": ¦[1, 1]",
                        "/firingOrder",
                        "1-1",
                        "does not name each cylinder once",
                        "1 to the count",
                        "from the manual"),
                bad(
                        "parallel-twin-270-screw",
                        "\"firingOrder\": ¦[2, 1]",
                        "/firingOrder",
                        "[…]",
                        "is another order than the template's 1-2 (",
                        "\"firingIntervals\" beside it",
                        "in this order"),
                bad(
                        "screw-twin",
                        "\"firingIntervals\": ¦[300, 300]",
                        "/firingIntervals",
                        "[300, 300]",
                        "do not fit the firing order",
                        "add up to 720",
                        "from each firing to the next"),
                bad(
                        "screw-twin",
                        "\"condition\": { \"minTemperature\": ¦\"90 °C\" }",
                        "/condition/minTemperature",
                        "90 °C",
                        "lies above the template's maxTemperature, 35 °C",
                        "or a maxTemperature of the sheet's own beside it",
                        "give \"maxTemperature\" too"),
                bad(
                        "screw-twin",
                        "\"condition\": ¦{ \"minTemperature\": \"90 °C\", \"maxTemperature\": \"80 °C\" }",
                        "/condition",
                        "90 °C to 80 °C",
                        "is reversed",
                        "not above the highest",
                        ""),
                bad("screw-twin", "\"setTo\": { \"in\": ¦\"0.50..0.60 mm\" }", "/setTo/in", "", "", "", ""),
                bad(
                        "screw-twin",
                        "\"decompressor\": { \"valve\": ¦\"3-ex-1\" }",
                        "/decompressor/valve",
                        "3-ex-1",
                        "holds a valve that the engine does not have",
                        "one of",
                        ""),
                bad(
                        "screw-twin",
                        "\"decompressor\": ¦\"no\"",
                        "/decompressor",
                        "no",
                        "is no decompressor",
                        "\"none\"",
                        "write \"none\""),
                bad(
                        "vtwin-90-bucket",
                        "\"camshafts\": ¦{ \"banks\": [[1], [3]] }",
                        "/camshafts",
                        "",
                        "have banks",
                        "cylinders 1 to 2",
                        ""),
                bad(
                        "screw-twin",
                        "\"closerClearances\": ¦{ \"in\": \"0.01..0.05 mm\" }",
                        "/closerClearances",
                        "{…}",
                        "is given for a train without closers, rocker-screw",
                        "the gaps",
                        "desmodromic template"),
                bad("screw-twin", "\"overridden\": ¦[]", "/overridden", "overridden", "is an unknown field", "", ""));
    }

    @ParameterizedTest
    @MethodSource("refused")
    void refuses(BadInput bad) {
        String sound = sheet("ID", "");
        BadInput exact = bad.value().isEmpty()
                ? new BadInput(
                        bad.name(),
                        bad.changes(),
                        bad.pointer(),
                        BadInput.refuses(() -> Fixtures.read(bad.in(sound)), bad.in(sound))
                                .value(),
                        bad.problem(),
                        bad.expected(),
                        bad.mend())
                : bad;
        exact.isRefused(sound, () -> Fixtures.read(bad.in(sound)));
    }

    @Test
    void refusesAnOverriddenFigureThatIsNone() {
        String written =
                SheetWriter.write(Fixtures.read(sheet("screw-twin", "\"clearances\": { \"in\": \"0.07..0.12 mm\" }")));
        assertThatThrownBy(() ->
                        Fixtures.read(written.replace("\"figure\" : \"/clearances/in\"", "\"figure\" : \"/title\"")))
                .hasMessageContaining("/engine/overridden/0/figure: \"/title\" is not the place of a figure");
        String was = PACK.get("screw-twin")
                .spec()
                .findFigure(Figure.INTAKE_WINDOW, MM)
                .orElseThrow();
        assertThatThrownBy(() -> Fixtures.read(written.replace("\"was\" : \"" + was + "\"", "\"was\" : \"wide\"")))
                .hasMessageContaining("/engine/overridden/0/was: \"wide\"");
    }

    // The call

    @Test
    void noFiguresLeaveTheTemplate() {
        for (String id : PACK.ids()) {
            assertThat(PACK.resolve(id, TemplateOverrides.none()))
                    .isEqualTo(PACK.get(id).spec());
        }
    }

    /** What every template has can be given as its own override, which changes nothing but whose figures they are. */
    @Test
    void everyTemplateTakesItsOwnFigures() {
        List<String> fields = List.of(
                "train",
                "clearances",
                "setTo",
                "closerClearances",
                "closerSetTo",
                "condition",
                "checkInterval",
                "camTiming",
                "decompressor",
                "camshafts",
                "wearPrior",
                "firingOrder",
                "firingIntervals");
        for (String id : PACK.ids()) {
            JsonNode tree = Trees.tree(PackFiles.template(id));
            String own = fields.stream()
                    .filter(tree::has)
                    .map(name -> "\"" + name + "\": " + tree.get(name))
                    .collect(Collectors.joining(", "));

            EngineSpec engine = engine(id, own);

            assertThat(engine.origins()).as(id).isEmpty();
            assertThat(engine.overridden()).as(id).isEmpty();
            assertThat(Arrays.stream(Figure.values()).map(f -> engine.findFigure(f, MM)))
                    .as(id)
                    .containsExactlyElementsOf(Arrays.stream(Figure.values())
                            .map(f -> PACK.get(id).spec().findFigure(f, MM))
                            .toList());
        }
    }

    @Test
    void readsAFileAndNamesItInErrors(@TempDir Path folder) throws IOException {
        Path file = Files.writeString(folder.resolve("manual.json"), "{ \"train\": { \"pitch\": 1 } }");

        assertThatThrownBy(() -> PACK.get("screw-twin").resolve(TemplateOverrides.read(file)))
                .isInstanceOf(DocumentException.class)
                .hasMessage(
                        file + ", line 1, column 23, at /train/pitch: \"1\" is a bare number; expected a pitch such as "
                                + "\"0.75 mm\" or \"26 tpi\"; write it in quotation marks with what it needs, such as a unit");
        assertThatThrownBy(() -> TemplateOverrides.parse("manual", "[]")).hasMessageContaining("is not an object");
        assertThatThrownBy(() -> PACK.resolve(
                        "screw-twin", TemplateOverrides.parse("manual", "{ \"template\": \"screw-twin\" }")))
                .hasMessageContaining("at /template: \"template\" is an unknown field");
        assertThatIllegalArgumentException().isThrownBy(() -> PACK.resolve("ridge-twin", TemplateOverrides.none()));
    }

    @Test
    void refusesNull() {
        assertThatNullPointerException().isThrownBy(() -> PACK.resolve(null, TemplateOverrides.none()));
        assertThatNullPointerException().isThrownBy(() -> PACK.resolve("screw-twin", null));
        assertThatNullPointerException().isThrownBy(() -> PACK.get("screw-twin").resolve(null));
        assertThatNullPointerException().isThrownBy(() -> TemplateOverrides.parse(null, "{}"));
        assertThatNullPointerException().isThrownBy(() -> TemplateOverrides.parse("manual", null));
        assertThatNullPointerException().isThrownBy(() -> TemplateOverrides.read(null));
    }
}
