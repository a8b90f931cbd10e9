package dev.lash.examples;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.check.CheckSheet;
import dev.lash.engine.CamTiming;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.Decompressor;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.FiringOrder;
import dev.lash.engine.Pitch;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.measure.Ratio;
import dev.lash.specs.SpecPack;
import dev.lash.specs.TemplateOverrides;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Runs {@code lash crank} as the shell would. */
class CrankCommandTest {
    private static final String DEMO = "sheets/practice-bike.json";

    private static EngineSpec.Builder engine(String title, String order) {
        FiringOrder firingOrder = FiringOrder.parse(order);
        List<ValveId> valves = new ArrayList<>();
        for (int cylinder = 1; cylinder <= firingOrder.cylinders(); cylinder++) {
            valves.add(new ValveId(cylinder, ValveRole.INTAKE, 1));
            valves.add(new ValveId(cylinder, ValveRole.EXHAUST, 1));
        }
        return EngineSpec.builder("school-engine", title)
                .valves(valves)
                .firingOrder(firingOrder)
                .train(ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm")))
                .window(ValveRole.INTAKE, ClearanceWindow.parse("0.08..0.13 mm"))
                .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.17..0.22 mm"));
    }

    private static EngineSpec.Builder held(int before, int after) {
        return engine("Quad, single with decompressor", "1")
                .decompressor(new Decompressor(ValveId.parse("1-ex-1"), Ratio.of(before, 1), Ratio.of(after, 1)));
    }

    private static ProgramRun crank(EngineSpec engine, String... options) {
        List<String> args = new ArrayList<>(List.of("crank", "-"));
        args.addAll(List.of(options));
        return ProgramRun.of(CheckSheet.builder(engine, WalkRun.LEAVES).build(), args.toArray(String[]::new));
    }

    /** A text without its line breaks. */
    private static String flowing(ProgramRun run) {
        return run.out().replaceAll("\\s+", " ");
    }

    // The text

    /** The stops rest on the timing: what the sheet laid over the template is told as on the card. */
    @Test
    void tellsWhichFiguresTheSheetReplaced() {
        EngineSpec engine = SpecPack.bundled().resolve("screw-twin", TemplateOverrides.parse("manual", """
                { "camTiming": { "in": { "opens": "20 deg BTDC", "closes": "55 deg ABDC" },
                                 "ex": { "opens": "50 deg BBDC", "closes": "15 deg ATDC" } } }
                """));

        assertThat(crank(engine).out())
                .contains("\nFigures of the shop in place of the template's\n- cam timing ")
                .contains("\nLeans on typical figures");
        assertThat(crank(engine, "--format=json").out()).contains("\"overridden\"", "\"/camTiming\"");
        assertThat(crank(SpecPack.bundled().get("screw-twin").spec()).out()).doesNotContain("in place of");
    }

    @Test
    void fourReadsAsAMechanicWorks() {
        ProgramRun run = crank(engine("School bus, four", "1-3-4-2").build());
        assertThat(run.code()).isZero();
        assertThat(run.err()).isEmpty();
        assertThat(run.out()).isEqualTo("""
                        Crank stops of School bus, four, firing order 1-3-4-2

                        Find number 1's compression TDC: TDC comes round twice, on compression its
                        followers are slack, on overlap its followers both move as the crank is turned
                        on through TDC.
                        1. Stay with number 1 on compression. TDC mark of number 1, on compression: its
                           followers are slack; number 4, on overlap: its followers both move as the
                           crank is turned on through TDC. See each follower slack, the lobe pointing
                           away, then measure 1-in-1, 1-ex-1, 2-in-1, 3-ex-1.
                        2. From number 1 on compression, turn on 360 degrees. TDC mark of number 4, on
                           compression: its followers are slack; number 1, on overlap: its followers
                           both move as the crank is turned on through TDC. See each follower slack, the
                           lobe pointing away, then measure 2-ex-1, 3-in-1, 4-in-1, 4-ex-1.

                        - The engine's cam timing is not given: a mild road cam is assumed. The follower
                          decides, not the plan.
                        - Turn by hand, in the maker's direction. Past a stop go round again, never
                          back: a decompressor or chain tensioner may object.

                        Degrees after number 1's compression TDC; a column is 12 degrees.
                        . may be measured   # may not   | stop   M measured at this stop
                                0              180            360            540            720
                        1-in-1  M...........................##|####################.........
                        1-ex-1  M.........####################|##...........................
                        2-in-1  M............#################|#####........................
                        2-ex-1  |#################............M........................#####
                        3-in-1  |#####........................M............#################
                        3-ex-1  M........................#####|#################............
                        4-in-1  |####################.........M...........................##
                        4-ex-1  |##...........................M.........####################
                        """);
    }

    @Test
    void marksOfTheUserAreKept() {
        ProgramRun run = crank(engine("School bus, four", "1-3-4-2").build(), "--at", "90, 200.5");
        assertThat(run.code()).isZero();
        assertThat(flowing(run))
                .contains(
                        "1. From number 1 on compression, turn on 90 degrees. 90 degrees after number 1's compression TDC, by"
                                + " degree wheel or mark")
                .contains(
                        "2. From there, turn on 360 degrees. 90 degrees after number 1's overlap TDC, by degree wheel or mark");
    }

    @Test
    void ownCompressionTdcTakesEachCylinderInTurn() {
        assertThat(flowing(crank(engine("School bus, four", "1-3-4-2").build(), "--at", "own")))
                .containsSubsequence(
                        "measure 1-in-1, 1-ex-1.",
                        "2. From number 1 on compression, turn on 180 degrees.",
                        "measure 3-in-1, 3-ex-1.",
                        "3. From there, turn on 180 degrees.",
                        "measure 4-in-1, 4-ex-1.",
                        "4. From there, turn on 180 degrees.",
                        "measure 2-in-1, 2-ex-1.");
    }

    @Test
    void anyAngleNeedsADegreeWheel() {
        assertThat(flowing(crank(engine("School bus, four", "1-3-4-2").build(), "--at", "any")))
                .contains("turn on 245 degrees. 245 degrees after number 1's compression TDC, by degree wheel or mark");
    }

    @Test
    void tdcIsTheDefault() {
        assertThat(ProgramRun.of("", "crank", "--at", "tdc", DEMO)).isEqualTo(ProgramRun.of("", "crank", DEMO));
    }

    @Test
    void timingThatIsGivenIsNotAssumed() {
        ProgramRun run = crank(engine("Mower", "1").camTiming(CamTiming.GENERIC).build());
        assertThat(run.out()).doesNotContain("assumed").contains("never\n  back");
    }

    @Test
    void valveThatNoStopReachesIsNamedWithItsAngle() {
        ProgramRun run = crank(held(60, 30).build());
        assertThat(run.code()).isZero();
        assertThat(flowing(run))
                .contains("its followers are slack, but the decompressor holds 1-ex-1.")
                .contains(
                        "- No stop on offer reaches 1-ex-1: it could be measured 31 degrees after number 1's compression TDC.");
        assertThat(flowing(crank(held(60, 30).build(), "--at", "any")))
                .contains("turn on 31 degrees")
                .contains("measure 1-in-1, 1-ex-1.")
                .doesNotContain("No stop");
    }

    @Test
    void reportNamesWhatTheMarksDoNotReach() {
        CheckSheet sheet =
                CheckSheet.builder(held(60, 30).build(), WalkRun.LEAVES).build();
        assertThat(flowing(ProgramRun.of(sheet, "check", "-")))
                .contains(
                        "Not reached at the TDC marks - No stop on offer reaches 1-ex-1: it could be measured 31 degrees");
        CheckSheet free =
                CheckSheet.builder(engine("Mower", "1").build(), WalkRun.LEAVES).build();
        assertThat(ProgramRun.of(free, "check", "-").out()).doesNotContain("Not reached");
    }

    @Test
    void valveThatCannotBeMeasuredIsNamed() {
        assertThat(flowing(crank(held(360, 360).build(), "--at", "any")))
                .contains("- 1-ex-1 can be measured at no angle: see the manual.");
    }

    @Test
    void engineWithoutClearanceHasNoStops() {
        ProgramRun run = crank(EngineSpec.builder("school-mower", "Mower, hydraulic lifters")
                .valves("1-in-1", "1-ex-1")
                .train(new ValveTrain.Hydraulic())
                .build());
        assertThat(run.code()).isZero();
        assertThat(run.out()).endsWith("\nThis engine has no clearance to measure.\n");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "1-10-9-6-5-12-11-4-3-8-7-2 | tdc",
                "1-10-9-6-5-12-11-4-3-8-7-2 | own",
                "1-2-3-4-5-6-7 | any",
                "1-11-3-13-5-15-7-17-9-18-10-2-12-4-14-6-16-8 | own"
            })
    void textFitsEightyColumnsAndIsPlain(String order, String at) {
        ProgramRun run = crank(
                engine("Generator of the upper yard, with a rather long name of many words", order)
                        .build(),
                "--at",
                at);
        assertThat(run.code()).isZero();
        assertThat(run.out().lines()).allMatch(line -> line.length() <= 80).noneMatch(line -> line.endsWith(" "));
        assertThat(run.out()).doesNotContain("\r").endsWith("\n");
        assertThat(flowing(run)).doesNotContainPattern("turn on [0-9]+/");
    }

    // The diagram

    /** The generic cam by hand: the intake may not be measured between 330 and 605, the exhaust between 115 and 390. */
    @Test
    void diagramShowsWhereEachValveMayBeMeasured() {
        assertThat(crank(engine("Mower", "1").build(), "--at", "200").out()).endsWith("""
                        Degrees after number 1's compression TDC; a column is 12 degrees.
                        . may be measured   # may not   | stop   M measured at this stop
                                0              180            360            540            720
                        1-in-1  ................M...........##################|####.........
                        1-ex-1  ..........######|################.............M.............
                        """);
    }

    // JSON

    @Test
    void jsonTellsStopsAndWhatIsLeftOver() {
        ProgramRun run = crank(held(60, 30).build(), "--format", "json");
        assertThat(run.code()).isZero();
        assertThat(run.out()).isEqualTo("""
                        {
                          "crankStops" : [ {
                            "angle" : "0 deg",
                            "turn" : "0 deg",
                            "valves" : [ "1-in-1" ],
                            "sign" : "TDC mark of number 1, on compression: its followers are slack, but the decompressor holds 1-ex-1"
                          } ],
                          "leftOver" : [ {
                            "valve" : "1-ex-1",
                            "angle" : "31 deg"
                          } ],
                          "unreachable" : [ ],
                          "timingAssumed" : true
                        }
                        """);
    }

    // Bad input

    @ParameterizedTest
    @ValueSource(strings = {"x", "", ",", "0,", "0,x", "TDC", "0;120", "1/0", "10 deg", "wheel"})
    void refusesOtherPlaces(String at) {
        for (String command : List.of("crank", "plan")) {
            ProgramRun run = ProgramRun.of("", command, "--at", at, DEMO);
            assertThat(run.code()).isEqualTo(2);
            assertThat(run.out()).isEmpty();
            assertThat(run.err())
                    .isEqualTo("lash: --at \"" + at
                            + "\": does not say where the engine may be stopped; expected tdc, own, any, or degrees after number 1's"
                            + " TDC such as 0,120,240; name one of them\n");
        }
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {"360 | 360", "0,400 | 400", "-1 | -1"})
    void refusesMarksOutOfRange(String at, String mark) {
        for (String command : List.of("crank", "plan")) {
            ProgramRun run = ProgramRun.of("", command, "--at=" + at, DEMO);
            assertThat(run.code()).isEqualTo(2);
            assertThat(run.out()).isEmpty();
            assertThat(run.err())
                    .isEqualTo("lash: mark \"" + mark
                            + " deg\": is out of range; expected 0 to below 360 deg; count from number 1's TDC mark\n");
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"crank", "plan"})
    void refusesSheetsThatCannotBeRead(String command) {
        ProgramRun broken = ProgramRun.of("{", command, "-");
        assertThat(broken.code()).isEqualTo(2);
        assertThat(broken.out()).isEmpty();
        assertThat(broken.err())
                .startsWith("lash: cannot read standard input\n")
                .contains("mend")
                .doesNotContain("\tat ");
        ProgramRun missing = ProgramRun.of("", command, "no-such.json");
        assertThat(missing.code()).isEqualTo(2);
        assertThat(missing.err()).contains("no-such.json", "no such file");
        assertThat(ProgramRun.of("", command).code()).isEqualTo(2);
    }

    @Test
    void refusesOtherFormats() {
        ProgramRun run = ProgramRun.of("", "crank", "--format", "xml", DEMO);
        assertThat(run.code()).isEqualTo(2);
        assertThat(run.err()).contains("xml").doesNotContain("Exception");
    }
}
