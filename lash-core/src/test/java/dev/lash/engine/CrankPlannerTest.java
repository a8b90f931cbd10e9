package dev.lash.engine;

import static dev.lash.engine.CrankEngines.angles;
import static dev.lash.engine.CrankEngines.deg;
import static dev.lash.engine.CrankEngines.engine;
import static dev.lash.engine.CrankEngines.valves;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.engine.CrankEngines.Cam;
import dev.lash.measure.Ratio;
import dev.lash.testing.Contracts;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Plans worked out by hand; the tables in print are in {@link PublishedCrankTablesTest}. */
class CrankPlannerTest {
    private static final EngineSpec SINGLE = engine("1");
    private static final EngineSpec FOUR = engine("1-3-4-2");

    // Modes

    static Stream<Arguments> modes() {
        return Stream.of(
                Arguments.of(CrankPlanner.atTdcMarks(), "0, 360"),
                Arguments.of(CrankPlanner.atOwnCompressionTdc(), "0, 180, 360, 540"),
                // of what 0 leaves over, 3-in rests from 65 on, 4-in from 245, 2-ex from 210 and 4-ex from 30
                Arguments.of(CrankPlanner.atAnyAngle(), "0, 245"),
                Arguments.of(CrankPlanner.atMarks(List.of(deg(90))), "90, 450"),
                Arguments.of(CrankPlanner.atMarks(List.of(deg(0), deg(90), deg(180))), "0, 360"));
    }

    @ParameterizedTest
    @MethodSource("modes")
    void fourInLine(CrankPlanner planner, String angles) {
        CrankPlan plan = planner.plan(FOUR);
        assertThat(angles(plan))
                .containsExactlyElementsOf(
                        Stream.of(angles.split(", ", -1)).map(Ratio::parse).toList());
        assertThat(plan.isComplete()).isTrue();
        assertThat(plan.timingAssumed()).isTrue();
    }

    @Test
    void fourInLineAtTdcMarks() {
        List<CrankPlan.Stop> stops = CrankPlanner.atTdcMarks().plan(FOUR).stops();
        assertThat(stops.get(0).turn()).isEqualTo(Ratio.ZERO);
        assertThat(stops.get(0).valves()).isEqualTo(valves("1-in-1", "1-ex-1", "2-in-1", "3-ex-1"));
        assertThat(stops.get(1).turn()).isEqualTo(deg(360));
        assertThat(stops.get(1).valves()).isEqualTo(valves("2-ex-1", "3-in-1", "4-in-1", "4-ex-1"));
    }

    /** A valve that rests at both stops is measured at the first, and still named as possible at the second. */
    @Test
    void measuresEachValveOnce() {
        CrankPlan plan = CrankPlanner.atTdcMarks().plan(engine("1-3-2"));
        List<CrankPlan.Stop> stops = plan.stops();
        assertThat(stops.stream().flatMap(stop -> stop.valves().stream())).doesNotHaveDuplicates();
        assertThat(stops.get(1).possible())
                .containsAll(stops.get(1).valves())
                .hasSizeGreaterThan(stops.get(1).valves().size());
        assertThat(plan.stopFor(ValveId.parse("1-in-1"))).contains(stops.get(0));
    }

    /** Opens 20 after TDC and closes 20 before BDC: both valves of both cylinders rest at either TDC. */
    @Test
    void oneStopIsEnoughForAShortLift() {
        EngineSpec twin = CrankEngines.engine(FiringOrder.even(1, 2))
                .camTiming(new Cam(-20, -20, -20, -20, 0).timing())
                .build();
        assertThat(angles(CrankPlanner.atTdcMarks().plan(twin))).containsExactly(deg(0));
    }

    @Test
    void marksCountOnceAndInAnyOrder() {
        CrankPlanner planner = CrankPlanner.atMarks(List.of(deg(90), deg(0), deg(90)));
        Contracts.equality(
                planner,
                CrankPlanner.atMarks(List.of(deg(0), deg(90))),
                List.of(
                        CrankPlanner.atMarks(List.of(deg(0))),
                        CrankPlanner.atTdcMarks(),
                        CrankPlanner.atAnyAngle(),
                        CrankPlanner.atOwnCompressionTdc()));
    }

    @ParameterizedTest
    @ValueSource(strings = {"-1", "360", "360.5", "1000"})
    void refusesMarksOutOfRange(String mark) {
        Contracts.refuses(
                () -> CrankPlanner.atMarks(List.of(deg(0), Ratio.parse(mark))),
                "mark \"" + mark + " deg\"",
                "0 to below 360 deg",
                "count from number 1's TDC mark");
    }

    @Test
    void refusesNoMarks() {
        Contracts.refuses(() -> CrankPlanner.atMarks(List.of()), "marks \"none\"", "at least one mark");
    }

    // Layouts

    /**
     * By hand: at 0 an intake valve may not be measured in a phase above 330 and below 605, an exhaust valve above 115 and below 390;
     * the second stop is the first TDC by which all of these have moved out.
     */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "1 | 0",
                // parallel twins with crank pins at 360, 180 and 270
                "1-2 | 0, 360",
                "1-2 (180, 540) | 0, 180",
                "1-2 (270, 450) | 0, 270",
                "1-3-2 | 0, 240",
                "1-2-4-5-3 | 0, 288",
                "1-5-3-6-2-4 | 0, 360",
                "1-8-4-3-6-5-7-2 | 0, 270",
                "1-10-9-6-5-12-11-4-3-8-7-2 | 0, 300"
            })
    void fewestTdcStops(String order, String angles) {
        CrankPlan plan = CrankPlanner.atTdcMarks().plan(engine(order));
        assertThat(plan.isComplete()).isTrue();
        assertThat(angles(plan)).extracting(Ratio::toString).containsExactly(angles.split(", ", -1));
    }

    /** Long lifts on eighteen cylinders: many stops, and many ways to choose them. */
    @ParameterizedTest
    @ValueSource(ints = {0, 45, 90})
    void eighteenCylindersWithLongLifts(int margin) {
        List<Integer> order = new ArrayList<>();
        for (int i = 0; i < 18; i++) {
            order.add(i * 7 % 18 + 1);
        }
        EngineSpec engine = CrankEngines.engine(FiringOrder.even(order))
                .camTiming(new Cam(100, 110, 120, 105, margin).timing())
                .build();
        CrankPlan any = CrankPlanner.atAnyAngle().plan(engine);
        assertThat(any.isComplete()).isTrue();
        assertThat(any.timingAssumed()).isFalse();
        // an exhaust valve rests for 720 - 405 degrees less its ramps, and they fire 40 apart
        int atOnce = (315 - 2 * margin) / 40 + 1;
        assertThat(any.stops()).hasSizeGreaterThanOrEqualTo((18 + atOnce - 1) / atOnce);
        assertThat(CrankPlanner.atTdcMarks().plan(engine).stops())
                .hasSizeGreaterThanOrEqualTo(any.stops().size());
    }

    @Test
    void fourValvesACylinderMoveInPairs() {
        EngineSpec engine = SINGLE.toBuilder()
                .valves("1-in-1", "1-in-2", "1-ex-1", "1-ex-2")
                .build();
        assertThat(CrankPlanner.measurableAt(engine, deg(0))).isEqualTo(engine.valves());
        assertThat(CrankPlanner.measurableAt(engine, deg(200))).isEqualTo(valves("1-in-1", "1-in-2"));
    }

    @Test
    void hydraulicTrainHasNoStops() {
        EngineSpec engine = SINGLE.toBuilder().train(new ValveTrain.Hydraulic()).build();
        CrankPlan plan = CrankPlanner.atTdcMarks().plan(engine);
        assertThat(plan.stops()).isEmpty();
        assertThat(plan.isComplete()).isTrue();
    }

    // Positions

    /** The generic cam by hand: the intake lifts between 330 and 605, the exhaust between 115 and 390; the ends are at rest. */
    @ParameterizedTest
    @CsvSource({
        "0, 1-in-1 1-ex-1",
        "115, 1-in-1 1-ex-1",
        "115.1, 1-in-1",
        "330, 1-in-1",
        "330.1, ''",
        "389.9, ''",
        "390, 1-ex-1",
        "604.9, 1-ex-1",
        "605, 1-in-1 1-ex-1",
        "719.9, 1-in-1 1-ex-1",
        "720, 1-in-1 1-ex-1",
        "-60, 1-in-1 1-ex-1",
        "1050.1, ''"
    })
    void measurableOnTheBaseCircle(String angle, String valves) {
        assertThat(CrankPlanner.measurableAt(SINGLE, Ratio.parse(angle)))
                .extracting(ValveId::toString)
                .containsExactly(valves.isEmpty() ? new String[0] : valves.split(" ", -1));
    }

    @ParameterizedTest
    @CsvSource({"1, 0, 0", "3, 0, 540", "3, 180, 0", "2, 0, 180", "4, 719, 359", "1, -1, 719", "1, 1440, 0"})
    void phaseIsCountedFromTheCylindersOwnTdc(int cylinder, long angle, long phase) {
        assertThat(CrankPlanner.phase(FOUR, cylinder, deg(angle))).isEqualTo(deg(phase));
    }

    @Test
    void refusesACylinderThatIsNotThere() {
        Contracts.refuses(() -> CrankPlanner.phase(FOUR, 5, deg(0)), "cylinder \"5\"", "1-3-4-2");
    }

    /** The numbers are the maker's: number 1 need not come first in the firing order. */
    @Test
    void angleZeroIsNumberOnesWhereverItStands() {
        assertThat(angles(CrankPlanner.atOwnCompressionTdc().plan(engine("3-1-2"))))
                .containsExactly(deg(0), deg(240), deg(480));
        assertThat(CrankPlanner.phase(engine("3-1-2"), 2, deg(240))).isEqualTo(Ratio.ZERO);
    }

    // Recognising a stop

    static Stream<Arguments> signs() {
        return Stream.of(
                Arguments.of(
                        FOUR,
                        CrankPlanner.atTdcMarks(),
                        1,
                        "TDC mark of number 4, on compression: its followers are slack; number 1, on overlap: its followers both move"
                                + " as the crank is turned on through TDC"),
                Arguments.of(
                        SINGLE,
                        CrankPlanner.atTdcMarks(),
                        0,
                        "TDC mark of number 1, on compression: its followers are slack"),
                Arguments.of(
                        engine("1-2 (180, 540)"),
                        CrankPlanner.atMarks(List.of(deg(0), deg(130))),
                        1,
                        "130 degrees after number 1's compression TDC, by degree wheel or mark; the followers of number 2 are slack"),
                Arguments.of(
                        SINGLE,
                        CrankPlanner.atMarks(List.of(deg(200))),
                        1,
                        "200 degrees after number 1's overlap TDC, by degree wheel or mark"),
                Arguments.of(
                        engine("1-2-3-4-5-6-7"),
                        CrankPlanner.atOwnCompressionTdc(),
                        1,
                        "TDC mark of number 2, on compression: its followers are slack"));
    }

    @ParameterizedTest
    @MethodSource("signs")
    void saysHowToKnowAStop(EngineSpec engine, CrankPlanner planner, int stop, String sign) {
        assertThat(planner.plan(engine).stops().get(stop).sign()).isEqualTo(sign);
    }

    @Test
    void namesEveryCylinderAtItsTdc() {
        EngineSpec paired = CrankEngines.engine(
                        new FiringOrder(List.of(1, 2, 3, 4), List.of(deg(90), deg(270), deg(90), deg(270))))
                .build();
        assertThat(CrankPlanner.atOwnCompressionTdc()
                        .plan(paired)
                        .stops()
                        .get(1)
                        .sign())
                .startsWith("TDC mark of number 2, on compression")
                .endsWith("number 4, on overlap: its followers both move as the crank is turned on through TDC");
    }

    /** Opening after TDC and closing before it, with short ramps: nothing moves at overlap TDC. */
    @Test
    void doesNotPromiseMovementWithoutOverlap() {
        EngineSpec engine = CrankEngines.engine(FiringOrder.even(1, 2))
                .camTiming(new Cam(-20, 30, 30, -20, 10).timing())
                .build();
        assertThat(CrankPlanner.atOwnCompressionTdc()
                        .plan(engine)
                        .stops()
                        .get(0)
                        .sign())
                .endsWith("number 2, on overlap: its exhaust valve closes and its intake valve opens about here");
    }

    /** Ramps of 90 degrees about a long cam: 80 and 90 reach past TDC from one side, 120 and 90 from the other. */
    @Test
    void doesNotPromiseSlackWhereTheCamGivesNone() {
        EngineSpec none = CrankEngines.engine(FiringOrder.even(1))
                .camTiming(new Cam(80, 120, 120, 80, 90).timing())
                .build();
        assertThat(CrankPlanner.findNumber1(none))
                .isEqualTo(
                        "Find number 1's compression TDC: TDC comes round twice, on compression by this cam timing its followers"
                                + " are not slack, on overlap its followers both move as the crank is turned on through TDC.");
        assertThat(CrankPlanner.atTdcMarks().plan(none).stops()).isEmpty();
        EngineSpec intakeOnly = CrankEngines.engine(FiringOrder.even(1))
                .camTiming(new Cam(15, 50, 120, 15, 61).timing())
                .build();
        assertThat(CrankPlanner.atTdcMarks().plan(intakeOnly).stops().get(0).sign())
                .isEqualTo(
                        "TDC mark of number 1, on compression: by this cam timing only its intake followers are slack");
    }

    @Test
    void saysHowNumber1IsFound() {
        assertThat(CrankPlanner.findNumber1(FOUR))
                .isEqualTo(
                        "Find number 1's compression TDC: TDC comes round twice, on compression its followers are slack, on"
                                + " overlap its followers both move as the crank is turned on through TDC.");
        assertThat(CrankPlanner.findNumber1(held(SINGLE, "1-ex-1", 60, 30)))
                .contains("on compression its followers are slack, but the decompressor holds 1-ex-1, on overlap");
        Contracts.refuseNull(() -> CrankPlanner.findNumber1(null));
    }

    // Decompressors

    private static EngineSpec held(EngineSpec engine, String valve, int before, int after) {
        return engine.toBuilder()
                .decompressor(new Decompressor(ValveId.parse(valve), deg(before), deg(after)))
                .build();
    }

    /** Held until 30 after TDC; at the overlap TDC the exhaust is open. */
    @Test
    void decompressorLeavesItsValveOverAtTdcMarks() {
        CrankPlan plan = CrankPlanner.atTdcMarks().plan(held(SINGLE, "1-ex-1", 60, 30));
        assertThat(plan.stops().get(0).valves()).isEqualTo(valves("1-in-1"));
        assertThat(plan.leftOver()).containsOnlyKeys(valves("1-ex-1")).containsValue(deg(31));
        assertThat(plan.isComplete()).isFalse();
        assertThat(plan.stops().get(0).sign())
                .isEqualTo(
                        "TDC mark of number 1, on compression: its followers are slack, but the decompressor holds 1-ex-1");
    }

    @Test
    void decompressorIsMeasuredPastItsEnd() {
        CrankPlan plan = CrankPlanner.atAnyAngle().plan(held(SINGLE, "1-ex-1", 60, 30));
        assertThat(angles(plan)).containsExactly(deg(31));
        assertThat(plan.stops().get(0).valves()).isEqualTo(valves("1-in-1", "1-ex-1"));
        assertThat(plan.stops().get(0).sign())
                .isEqualTo(
                        "31 degrees after number 1's compression TDC, by degree wheel or mark; the followers of number 1 are"
                                + " slack");
    }

    /** Counted from the valve's own TDC: 31 past it, or for one held to 340 past it at the first place where the cam lets go too. */
    @Test
    void placesAValveClearOfItsDecompressor() {
        ValveId exhaust = ValveId.parse("1-ex-1");
        assertThat(CrankPlanner.placeToMeasure(SINGLE, exhaust)).contains("compression TDC");
        assertThat(CrankPlanner.placeToMeasure(held(SINGLE, "1-ex-1", 60, 30), exhaust))
                .contains("31 degrees after compression TDC");
        assertThat(CrankPlanner.placeToMeasure(held(SINGLE, "1-ex-1", 60, 30), ValveId.parse("1-in-1")))
                .contains("compression TDC");
        assertThat(CrankPlanner.placeToMeasure(held(FOUR, "4-ex-1", 60, 30), ValveId.parse("4-ex-1")))
                .contains("31 degrees after compression TDC");
        // the exhaust follower rests again 390 past compression TDC
        assertThat(CrankPlanner.placeToMeasure(held(SINGLE, "1-ex-1", 60, 200), exhaust))
                .contains("30 degrees after overlap TDC");
        assertThat(CrankPlanner.placeToMeasure(held(SINGLE, "1-ex-1", 360, 360), exhaust))
                .isEmpty();
        Contracts.refuseNull(
                () -> CrankPlanner.placeToMeasure(null, exhaust), () -> CrankPlanner.placeToMeasure(SINGLE, null));
    }

    @Test
    void decompressorOfUnknownAnglesIsNamedNotPlannedAround() {
        EngineSpec engine = SINGLE.toBuilder()
                .decompressor(Decompressor.ofUnknownAngles(ValveId.parse("1-ex-1")))
                .build();
        CrankPlan plan = CrankPlanner.atTdcMarks().plan(engine);
        assertThat(plan.isComplete()).isTrue();
        assertThat(plan.stops().get(0).sign())
                .endsWith("but a decompressor may hold 1-ex-1 (its angles are not known: see the manual)");
        assertThat(CrankPlanner.atAnyAngle().plan(engine).isComplete()).isTrue();
    }

    /** On a four the valve that is held at its own TDC rests at a companion's. */
    @Test
    void decompressorIsMeasuredAtAnotherTdc() {
        CrankPlan plan = CrankPlanner.atTdcMarks().plan(held(FOUR, "1-in-1", 60, 30));
        assertThat(plan.isComplete()).isTrue();
        assertThat(plan.stopFor(ValveId.parse("1-in-1")).orElseThrow().angle()).isEqualTo(deg(180));
    }

    @ParameterizedTest
    @CsvSource({
        // the exhaust lifts between 115 and 390; what is left of its rest is held
        "330, 115",
        "360, 360"
    })
    void decompressorThatHoldsThroughTheRestCannotBeMeasured(int before, int after) {
        CrankPlan plan = CrankPlanner.atAnyAngle().plan(held(SINGLE, "1-ex-1", before, after));
        assertThat(plan.unreachable()).isEqualTo(valves("1-ex-1"));
        assertThat(plan.leftOver()).isEmpty();
        assertThat(plan.isComplete()).isFalse();
    }

    /** A short lift, and held but for the degree from 359 to 360, where an intake valve that opens late still rests. */
    @Test
    void decompressorThatLetsGoForADegree() {
        EngineSpec late = SINGLE.toBuilder()
                .camTiming(new Cam(-20, 30, 30, -20, 10).timing())
                .build();
        CrankPlan plan = CrankPlanner.atAnyAngle().plan(held(late, "1-in-1", 360, 359));
        assertThat(plan.stopFor(ValveId.parse("1-in-1")).orElseThrow().angle()).isEqualTo(Ratio.parse("359.5"));
    }

    // Left over

    /** At 350 the exhaust still lifts, and the intake does; at 710 both rest, but the exhaust is held. */
    @Test
    void saysWhichValvesTheMarksLeaveOver() {
        CrankPlan plan = CrankPlanner.atMarks(List.of(deg(350))).plan(held(SINGLE, "1-ex-1", 60, 30));
        assertThat(angles(plan)).containsExactly(deg(710));
        assertThat(plan.leftOver()).containsOnlyKeys(valves("1-ex-1")).containsValue(deg(31));
        assertThat(plan.unreachable()).isEmpty();
    }

    @Test
    void refusesNull() {
        Contracts.refuseNull(
                () -> CrankPlanner.atMarks(null),
                () -> CrankPlanner.atMarks(Collections.singletonList(null)),
                () -> CrankPlanner.atTdcMarks().plan(null),
                () -> CrankPlanner.measurableAt(null, deg(0)),
                () -> CrankPlanner.measurableAt(SINGLE, null),
                () -> CrankPlanner.phase(null, 1, deg(0)),
                () -> CrankPlanner.phase(SINGLE, 1, null));
    }
}
