package dev.lash.engine;

import static dev.lash.engine.CrankEngines.deg;
import static dev.lash.engine.CrankEngines.engine;
import static dev.lash.engine.CrankEngines.valves;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.engine.CrankPlan.Stop;
import dev.lash.measure.Ratio;
import dev.lash.testing.Contracts;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CrankPlanTest {
    private static final Stop FIRST = new Stop(deg(0), deg(0), valves("1-in-1"), valves("1-in-1"), "mark T");
    private static final Stop SECOND =
            new Stop(deg(360), deg(360), valves("2-in-1"), valves("1-in-1", "2-in-1"), "mark T again");

    private static CrankPlan plan(Stop... stops) {
        return new CrankPlan(List.of(stops), Map.of(), List.of(), false);
    }

    // Parts

    @Test
    void isCompleteWhenEveryValveHasAStop() {
        assertThat(plan(FIRST).isComplete()).isTrue();
        assertThat(new CrankPlan(List.of(FIRST), Map.of(ValveId.parse("1-ex-1"), deg(31)), List.of(), true)
                        .isComplete())
                .isFalse();
        assertThat(new CrankPlan(List.of(FIRST), Map.of(), valves("1-ex-1"), true).isComplete())
                .isFalse();
    }

    @Test
    void findsTheStopOfAValve() {
        assertThat(plan(FIRST, SECOND).stopFor(ValveId.parse("2-in-1"))).contains(SECOND);
        assertThat(plan(FIRST, SECOND).stopFor(ValveId.parse("1-in-1"))).contains(FIRST);
        assertThat(plan(FIRST).stopFor(ValveId.parse("2-in-1"))).isEmpty();
    }

    /** The order must not change from run to run, as that of an immutable map does. */
    @Test
    void keepsTheOrderOfWhatIsLeftOver() {
        Map<ValveId, Ratio> leftOver = new LinkedHashMap<>();
        List<ValveId> order = valves("7-in-1", "2-ex-1", "9-in-1", "1-in-1", "5-ex-1", "3-in-1");
        order.forEach(valve -> leftOver.put(valve, deg(31)));
        CrankPlan plan = new CrankPlan(List.of(), leftOver, List.of(), false);
        leftOver.clear();
        assertThat(plan.leftOver().keySet()).containsExactlyElementsOf(order);
        assertThat(plan.leftOver()).isUnmodifiable();
    }

    // Texts

    @Test
    void readsAsAMechanicWorks() {
        assertThat(CrankPlanner.atTdcMarks().plan(engine("1-3-4-2")).steps())
                .containsExactly(
                        "Stay with number 1 on compression. TDC mark of number 1, on compression: its followers are slack;"
                                + " number 4, on overlap: its followers both move as the crank is turned on through TDC. See each follower slack,"
                                + " the lobe pointing away, then measure 1-in-1, 1-ex-1, 2-in-1, 3-ex-1.",
                        "From number 1 on compression, turn on 360 degrees. TDC mark of number 4, on compression: its followers"
                                + " are slack; number 1, on overlap: its followers both move as the crank is turned on through TDC. See each"
                                + " follower slack, the lobe pointing away, then measure 2-ex-1, 3-in-1, 4-in-1, 4-ex-1.");
    }

    @Test
    void countsFromTheLastStop() {
        assertThat(CrankPlanner.atOwnCompressionTdc().plan(engine("1-3-2")).steps())
                .satisfiesExactly(
                        step -> assertThat(step).startsWith("Stay with number 1 on compression. "),
                        step -> assertThat(step).startsWith("From number 1 on compression, turn on 240 degrees. "),
                        step -> assertThat(step).startsWith("From there, turn on 240 degrees. "));
    }

    @Test
    void countsFromNumber1ToAFirstStopElsewhere() {
        Stop elsewhere = new Stop(deg(31), deg(31), valves("1-ex-1"), valves("1-ex-1"), "");
        assertThat(plan(elsewhere, SECOND).steps())
                .satisfiesExactly(
                        step -> assertThat(step).startsWith("From number 1 on compression, turn on 31 degrees. "),
                        step -> assertThat(step).startsWith("From there, turn on 360 degrees. "));
    }

    @ParameterizedTest
    @CsvSource({"720/7, 102.9", "22.5, 22.5", "11.25, 11.25", "40, 40", "1/3, 0.3", "899/9, 99.9", "8999/90, 100"})
    void degreesAreThoseOfAWheel(String exact, String shown) {
        Stop stop = new Stop(Ratio.parse(exact), Ratio.parse(exact), valves("1-in-1"), valves("1-in-1"), "mark");
        assertThat(plan(stop).steps().get(0)).contains("turn on " + shown + " degrees.");
    }

    @Test
    void notesTellWhatIsLeftAssumedAndToBeMinded() {
        Map<ValveId, Ratio> leftOver = new LinkedHashMap<>();
        leftOver.put(ValveId.parse("1-ex-1"), deg(31));
        leftOver.put(ValveId.parse("2-ex-1"), deg(391));
        assertThat(new CrankPlan(List.of(FIRST), leftOver, valves("1-in-2"), true).notes())
                .containsExactly(
                        "No stop on offer reaches 1-ex-1: it could be measured 31 degrees after number 1's compression TDC.",
                        "No stop on offer reaches 2-ex-1: it could be measured 31 degrees after number 1's overlap TDC.",
                        "1-in-2 can be measured at no angle: see the manual.",
                        "The engine's cam timing is not given: a mild road cam is assumed. The follower decides, not the plan.",
                        "Turn by hand, in the maker's direction. Past a stop go round again, never back: a decompressor or chain"
                                + " tensioner may object.");
        assertThat(plan(FIRST).notes()).hasSize(1).first().asString().contains("never back");
        assertThat(new CrankPlan(List.of(), Map.of(), List.of(), true).notes()).isEmpty();
    }

    // Equality, serialisation, nulls

    @Test
    void isEqualByItsParts() {
        Contracts.equality(
                plan(FIRST, SECOND),
                plan(FIRST, SECOND),
                List.of(
                        plan(FIRST),
                        plan(),
                        new CrankPlan(List.of(FIRST, SECOND), Map.of(), List.of(), true),
                        new CrankPlan(List.of(FIRST, SECOND), Map.of(), valves("1-ex-1"), false),
                        new CrankPlan(
                                List.of(FIRST, SECOND), Map.of(ValveId.parse("1-ex-1"), deg(31)), List.of(), false)));
    }

    @Test
    void serialises() {
        Contracts.serialises(
                new CrankPlan(List.of(FIRST), Map.of(ValveId.parse("1-ex-1"), deg(31)), valves("1-in-2"), true));
    }

    @Test
    void refusesNull() {
        Contracts.refuseNull(
                () -> new CrankPlan(null, Map.of(), List.of(), false),
                () -> new CrankPlan(List.of(), null, List.of(), false),
                () -> new CrankPlan(
                        List.of(), Collections.singletonMap(ValveId.parse("1-in-1"), null), List.of(), false),
                () -> new CrankPlan(List.of(), Collections.singletonMap(null, deg(0)), List.of(), false),
                () -> new CrankPlan(List.of(), Map.of(), null, false),
                () -> plan(FIRST).stopFor(null),
                () -> new Stop(null, deg(0), List.of(), List.of(), ""),
                () -> new Stop(deg(0), null, List.of(), List.of(), ""),
                () -> new Stop(deg(0), deg(0), null, List.of(), ""),
                () -> new Stop(deg(0), deg(0), List.of(), null, ""),
                () -> new Stop(deg(0), deg(0), List.of(), List.of(), null));
    }
}
