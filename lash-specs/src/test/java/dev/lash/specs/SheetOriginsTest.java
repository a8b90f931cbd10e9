package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.check.CheckReport;
import dev.lash.check.CheckSheet;
import dev.lash.check.Unconfirmed;
import dev.lash.engine.CrankPlanner;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Figure;
import dev.lash.engine.Origin;
import dev.lash.engine.Origin.Kind;
import dev.lash.measure.LengthUnit;
import dev.lash.trend.WearTrendFitter;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;

/** A template with figures of the sheet over it: where each figure came from, what the shop confirmed, and what reports say. */
class SheetOriginsTest {
    private static final String TWIN = "screw-twin";
    private static final String SOUND = sheet("\"template\": \"screw-twin\"");

    private static String sheet(String engine) {
        return """
                {
                  "format": "lash-sheet/1",
                  "engine": { ENGINE },
                  "usage": "18450 km",
                  "gauges": { "leaves": ["0.05 mm", "0.10 mm", "0.15 mm"] },
                  "valves": [{ "valve": "1-in-1", "trials": [{ "leaf": "0.10 mm", "fit": "refuses" }] }]
                }
                """.replace("ENGINE", engine);
    }

    /** The same without readings. */
    private static String blank(String engine) {
        return sheet(engine).replaceAll("\"valves\": .*\n}", "\"valves\": []\n}");
    }

    private static EngineSpec engine(String engine) {
        String json = blank(engine);
        assertThat(Schemas.SHEET.errors(json)).isEmpty();
        return Fixtures.read(json).engine();
    }

    private static List<Figure> unconfirmed(EngineSpec engine) {
        return Unconfirmed.of(engine, LengthUnit.MILLIMETRE, Set.of(Unconfirmed.Use.values())).stream()
                .map(Unconfirmed::figure)
                .toList();
    }

    @Test
    void everyFigureOfEveryTemplateKeepsItsSource() {
        SpecPack pack = SpecPack.bundled();
        for (String id : pack.ids()) {
            Template template = pack.get(id);
            EngineSpec engine = template.spec();
            assertThat(engine.origins().keySet().stream().map(FigureForms::pointer))
                    .as(id)
                    .containsExactlyInAnyOrderElementsOf(template.provenance().keySet());
            template.provenance().forEach((pointer, source) -> {
                Origin origin = engine.origin(FigureForms.at(pointer).orElseThrow());
                assertThat(origin.kind().word())
                        .isEqualTo(template.sources().get(source).kind().word());
                assertThat(origin.title())
                        .startsWith(template.sources().get(source).title());
                assertThat(origin.template()).isEqualTo(id + ", revision " + template.revision());
            });
        }
    }

    @Test
    void aPublishedFigureKeepsYearAndPlace() {
        Origin origin = SpecPack.bundled().get("inline-four-car-graded").spec().origin(Figure.SHIMS);

        assertThat(origin.kind()).isEqualTo(Kind.PUBLISHED);
        assertThat(origin.title()).matches(".+ \\([0-9]{4}\\)");
        assertThat(origin.place()).isNotEmpty();
    }

    @Test
    void aFigureOfTheSheetIsTheShopsOwn() {
        EngineSpec engine = engine("""
                "template": "screw-twin", "clearances": { "in": "0.09..0.14 mm" }, "checkInterval": "5000 km"
                """);

        assertThat(engine.origin(Figure.CHECK_INTERVAL)).isEqualTo(Origin.STATED);
        assertThat(engine.isConfirmed(Figure.CHECK_INTERVAL)).isTrue();
        assertThat(engine.origin(Figure.INTAKE_WINDOW)).isEqualTo(Origin.STATED);
        assertThat(engine.isConfirmed(Figure.INTAKE_WINDOW))
                .as("a window wants its page")
                .isFalse();
        assertThat(engine.origin(Figure.EXHAUST_WINDOW).kind()).isEqualTo(Kind.FROM_MEMORY);
        assertThat(engine.origin(Figure.PITCH).template()).startsWith("screw-twin, revision ");
        assertThat(unconfirmed(engine)).contains(Figure.PITCH).doesNotContain(Figure.CHECK_INTERVAL);
    }

    @Test
    void theSameFigureStatedAgainCanBeConfirmed() {
        String interval = SpecPack.bundled()
                .get(TWIN)
                .spec()
                .checkInterval()
                .orElseThrow()
                .toString();
        EngineSpec engine = engine("\"template\": \"screw-twin\", \"checkInterval\": \"" + interval
                + "\", \"confirmedFrom\": { \"checkInterval\": \"page 2-3\" }");

        assertThat(engine.isConfirmed(Figure.CHECK_INTERVAL)).isTrue();
        assertThat(engine.findConfirmation(Figure.CHECK_INTERVAL)).contains("page 2-3");
    }

    @Test
    void aTextConfirmsTheWindowsAlone() {
        EngineSpec engine = engine("\"template\": \"screw-twin\", \"confirmedFrom\": \"page 3-8\"");

        assertThat(engine.findConfirmation(Figure.EXHAUST_WINDOW)).contains("page 3-8");
        assertThat(engine.isConfirmed(Figure.PITCH)).isFalse();
    }

    @Test
    void figuresAreConfirmedOneByOne() {
        EngineSpec engine = engine("""
                "template": "screw-twin",
                "confirmedFrom": { "in": "page 3-8", "pitch": "page 9", "maxTemperature": "page 1", "firingOrder": "page 2" }
                """);

        assertThat(engine.findConfirmation(Figure.PITCH)).contains("page 9");
        assertThat(engine.findConfirmation(Figure.WARMEST)).contains("page 1");
        assertThat(engine.isConfirmed(Figure.INTAKE_WINDOW)).isTrue();
        assertThat(unconfirmed(engine))
                .contains(Figure.EXHAUST_WINDOW, Figure.CHECK_INTERVAL)
                .doesNotContain(Figure.PITCH, Figure.WARMEST, Figure.FIRING_ORDER, Figure.INTAKE_WINDOW);
    }

    @Test
    void allConfirmsWhatIsNotNamedButNeverTheWearPrior() {
        EngineSpec engine = engine("""
                "template": "screw-twin", "confirmedFrom": { "all": "manual, read on 2031-03-30", "ex": "", "pitch": "page 9" }
                """);

        assertThat(unconfirmed(engine)).containsExactly(Figure.EXHAUST_WINDOW, Figure.WEAR_PRIOR);
        assertThat(engine.findConfirmation(Figure.INTAKE_WINDOW)).contains("manual, read on 2031-03-30");
        assertThat(engine.findConfirmation(Figure.PITCH)).contains("page 9");
    }

    @Test
    void allConfirmsBothGapsOfADesmodromicValve() {
        EngineSpec engine = engine("""
                "template": "vtwin-90-desmodromic", "confirmedFrom": { "all": "manual" }
                """);

        assertThat(unconfirmed(engine)).containsExactly(Figure.WEAR_PRIOR);
        assertThat(engine.findConfirmation(Figure.EXHAUST_CLOSER_WINDOW)).contains("manual");
    }

    // Round trip

    static Stream<String> engines() {
        return Stream.concat(
                SpecPack.bundled().ids().stream().map(id -> "\"template\": \"" + id + "\""),
                Stream.of(
                        "\"template\": \"screw-twin\", \"confirmedFrom\": \"page 3-8\"",
                        "\"template\": \"screw-twin\", \"confirmedFrom\": { \"all\": \"manual\", \"ex\": \"\" }",
                        "\"template\": \"screw-twin\", \"confirmedFrom\": { \"pitch\": \"page 9\" }",
                        "\"template\": \"vtwin-90-desmodromic\", \"confirmedFrom\": { \"all\": \"manual\" }"));
    }

    /** Also a sheet that was written out whole knows which of its figures are only typical. */
    @ParameterizedTest
    @MethodSource("engines")
    void aSheetWrittenAndReadAgainRemembers(String engine) {
        CheckSheet sheet = new SheetReader(SpecPack.bundled()).read("sheet.json", blank(engine));
        String written = SheetWriter.write(sheet);

        assertThat(Schemas.SHEET.errors(written)).isEmpty();
        assertThat(Fixtures.read(written).engine()).isEqualTo(sheet.engine());
        assertThat(Fixtures.read(written).engine().origins())
                .isEqualTo(sheet.engine().origins());
    }

    @Test
    void aTemplateOfAFolderSaysWhichFileGaveTheFigure(@TempDir Path folder) throws IOException {
        PackFiles.write(folder, Trees.with(PackFiles.template(TWIN), "/checkInterval", "\"4000 km\""));
        EngineSpec engine = new SheetReader(SpecPack.bundled().withFolder(folder))
                .read("sheet.json", SOUND)
                .engine();

        assertThat(engine.origin(Figure.CHECK_INTERVAL).template())
                .matches("screw-twin, revision [0-9]+, the shop's own, .+/screw-twin\\.json")
                .contains(folder + "/screw-twin.json");
        assertThat(engine.isConfirmed(Figure.CHECK_INTERVAL)).isFalse();
    }

    // Reports

    @Test
    void theReportListsWhatItLeansOn() {
        CheckReport report = CheckReport.of(Fixtures.read(SOUND));
        String json = ReportWriter.pretty().write(report);
        assertThat(Schemas.REPORT.errors(json)).isEmpty();

        JsonNode listed = Trees.tree(json).get("unconfirmed");

        assertThat(listed.valueStream().map(f -> f.get("figure").stringValue()))
                .contains(
                        "/firingOrder", "/train/pitch", "/clearances/in", "/clearances/ex", "/condition/maxTemperature")
                .doesNotContain("/wearPrior", "/checkInterval");
        JsonNode pitch = listed.valueStream()
                .filter(f -> f.get("figure").stringValue().equals("/train/pitch"))
                .findFirst()
                .orElseThrow();
        assertThat(pitch.get("words").stringValue()).isEqualTo("pitch");
        assertThat(pitch.get("value").stringValue()).isEqualTo("0.75 mm");
        assertThat(pitch.get("template").stringValue()).startsWith("screw-twin, revision ");
    }

    @Test
    void aReportOfConfirmedFiguresListsNone() {
        String json = ReportWriter.pretty()
                .write(CheckReport.of(Fixtures.read(
                        sheet("\"template\": \"screw-twin\", \"confirmedFrom\": { \"all\": \"manual\" }"))));

        assertThat(Trees.tree(json).has("unconfirmed")).isFalse();
        assertThat(Schemas.REPORT.errors(json)).isEmpty();
    }

    @Test
    void crankShimsAndForecastListWhatTheyLeanOn() {
        CheckReport twin = CheckReport.of(Fixtures.read(SOUND));
        EngineSpec engine = twin.sheet().engine();
        assertThat(listed(CrankForms.write(CrankPlanner.atTdcMarks().plan(engine), engine, LengthUnit.MILLIMETRE)))
                .contains("/firingOrder");
        assertThat(listed(TrendForms.write(
                        twin, twin.trend(WearTrendFitter.withDefaults()).orElseThrow())))
                .containsExactly("/clearances/in", "/clearances/ex", "/checkInterval", "/wearPrior");

        CheckReport buckets = CheckReport.of(Fixtures.read(sheet("\"template\": \"under-bucket-twin\"")));
        String plan = ShimPlanForms.write(
                buckets.shimPlan().orElseThrow(), LengthUnit.MILLIMETRE, buckets.unconfirmedOfShims());
        assertThat(listed(plan)).containsExactly("/train/shims", "/clearances/in", "/clearances/ex");
        assertThat(Trees.tree(ShimPlanForms.write(buckets.shimPlan().orElseThrow(), LengthUnit.MILLIMETRE, List.of()))
                        .has("unconfirmed"))
                .isFalse();
    }

    /** Stops rest on the timing, crossings on the windows: what the sheet replaced is told there as in the report. */
    @Test
    void crankAndForecastTellWhatTheSheetReplaced() {
        CheckReport twin = CheckReport.of(Fixtures.read(sheet("\"template\": \"screw-twin\", \"camTiming\": "
                + "{ \"in\": { \"opens\": \"20 deg BTDC\", \"closes\": \"55 deg ABDC\" }, "
                + "\"ex\": { \"opens\": \"50 deg BBDC\", \"closes\": \"15 deg ATDC\" } }")));
        EngineSpec engine = twin.sheet().engine();
        JsonNode report = Trees.tree(ReportWriter.pretty().write(twin)).get("overridden");

        assertThat(report.get(0).get("figure").stringValue()).isEqualTo("/camTiming");
        assertThat(Trees.tree(CrankForms.write(CrankPlanner.atTdcMarks().plan(engine), engine, LengthUnit.MILLIMETRE))
                        .get("overridden"))
                .isEqualTo(report);
        assertThat(Trees.tree(TrendForms.write(
                                twin, twin.trend(WearTrendFitter.withDefaults()).orElseThrow()))
                        .get("overridden"))
                .isEqualTo(report);
    }

    private static List<String> listed(String json) {
        return Trees.tree(json)
                .get("unconfirmed")
                .valueStream()
                .map(f -> f.get("figure").stringValue())
                .toList();
    }

    // What is refused

    private static BadInput bad(
            String engine, String pointer, String value, String problem, String expected, String mend) {
        return new BadInput(
                engine,
                List.of(new BadInput.Change("\"template\": \"screw-twin\"", engine)),
                pointer,
                value,
                problem,
                expected,
                mend);
    }

    private static BadInput inline(
            String origins, String pointer, String value, String problem, String expected, String mend) {
        return bad("""
                "inline": { "id": "yard-pump", "title": "Yard pump", "cylinders": 1, "valves": ["1-in-1"],
                    "train": { "kind": "rocker-screw", "pitch": "0.75 mm" }, "clearances": { "in": "0.10..0.15 mm" } },
                "origins": [ORIGINS]
                """.replace("ORIGINS", origins), "/engine/origins/" + pointer, value, problem, expected, mend);
    }

    static Stream<BadInput> refused() {
        String template = "\"template\": \"screw-twin\", \"confirmedFrom\": ";
        return Stream.of(
                bad(
                        template + "{ \"shims\": ¦\"page 9\" }",
                        "/engine/confirmedFrom/shims",
                        "page 9",
                        "confirms a figure that the engine does not have",
                        "one of in, ex, all, firingOrder",
                        "remove it, or give the figure"),
                bad(
                        template + "{ \"wearPrior\": ¦\"page 9\" }",
                        "/engine/confirmedFrom/wearPrior",
                        "page 9",
                        "no wear rate of valve clearances is published",
                        "a manual gives",
                        "give the shop's own wearPrior"),
                bad(
                        template + "{ \"interval\": ¦\"page 9\" }",
                        "/engine/confirmedFrom/interval",
                        "interval",
                        "is an unknown field",
                        "checkInterval",
                        "correct its spelling"),
                bad(
                        template + "{ \"pitch\": ¦9 }",
                        "/engine/confirmedFrom/pitch",
                        "9",
                        "is a bare number",
                        "the manual and page",
                        "quotation marks"),
                bad(
                        "\"template\": \"screw-twin\", \"origins\": ¦[]",
                        "/engine/origins",
                        "origins",
                        "is an unknown field",
                        "confirmedFrom",
                        "remove it"),
                inline(
                        "{ \"kind\": \"from-memory\", \"figures\": [¦\"/train/shims\"] }",
                        "0/figures/0",
                        "/train/shims",
                        "is not the place of a figure that the engine has",
                        "/train/pitch",
                        "remove it, or give the figure"),
                inline(
                        "{ \"kind\": \"from-memory\", \"figures\": [\"/train/pitch\", ¦\"/train/pitch\"] }",
                        "0/figures/1",
                        "/train/pitch",
                        "is given a second origin",
                        "each figure once",
                        "remove one of the two"),
                inline(
                        "{ \"kind\": ¦\"stated\", \"figures\": [\"/train/pitch\"] }",
                        "0/kind",
                        "stated",
                        "is not a kind of source",
                        "from-memory",
                        "leave the figure out where the shop stated it"),
                inline("¦{ \"kind\": \"shop\" }", "0", "", "has no field \"figures\"", "figures", "add it"));
    }

    @ParameterizedTest
    @MethodSource("refused")
    void refuses(BadInput bad) {
        bad.isRefused(SOUND, () -> Fixtures.read(bad.in(SOUND)));
    }

    @Test
    void everyFigureHasAPointerOfItsOwn() {
        assertThat(Arrays.stream(Figure.values()).map(FigureForms::pointer)).doesNotHaveDuplicates();
        for (Figure figure : Figure.values()) {
            assertThat(FigureForms.at(FigureForms.pointer(figure))).contains(figure);
        }
        assertThat(FigureForms.at("/title")).isEmpty();
        assertThat(FigureForms.confirmable().stream().map(FigureForms::name)).doesNotHaveDuplicates();
    }

    /** The schemas list the same pointers and names as the code. */
    @Test
    void theSchemasKnowTheFigures() {
        List<String> pointers =
                Arrays.stream(Figure.values()).map(FigureForms::pointer).toList();
        JsonNode provenance = Schemas.TEMPLATE.tree().at("/properties/provenance/propertyNames/enum");
        JsonNode origins = Schemas.SHEET.tree().at("/$defs/origin/properties/figures/items/enum");
        JsonNode unconfirmed = Schemas.REPORT.tree().at("/$defs/unconfirmed/properties/figure/enum");
        for (JsonNode listed : List.of(provenance, origins, unconfirmed)) {
            assertThat(listed.valueStream().map(JsonNode::stringValue)).containsExactlyInAnyOrderElementsOf(pointers);
        }
        JsonNode confirmed = Schemas.SHEET.tree().at("/$defs/engine/properties/confirmedFrom/properties");
        assertThat(confirmed.propertyNames())
                .containsExactlyInAnyOrderElementsOf(Stream.concat(
                                Stream.of("in", "ex", "all"),
                                FigureForms.confirmable().stream().map(FigureForms::name))
                        .toList());
    }
}
