package dev.lash.engine;

import static dev.lash.engine.CrankEngines.angles;
import static dev.lash.engine.CrankEngines.deg;
import static dev.lash.engine.CrankEngines.engine;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.Ratio;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Published tables of crank stops against the generic cam: whatever a table allows the model allows, and the plan needs no more stops.
 * All angles are counted from number 1's compression TDC.
 */
class PublishedCrankTablesTest {
    /** A table: at each angle the cylinders whose intake and whose exhaust valves are measured. */
    private record Table(String source, String order, Map<Ratio, List<ValveId>> stops) {
        /** A stop is written {@code "360: I 3,4 E 2,4"}. */
        static Table of(String source, String order, String... stops) {
            Map<Ratio, List<ValveId>> read = new LinkedHashMap<>();
            for (String stop : stops) {
                String[] parts = stop.split(": I | E ", -1);
                List<ValveId> valves = new ArrayList<>(valves(parts[1], ValveRole.INTAKE));
                valves.addAll(valves(parts[2], ValveRole.EXHAUST));
                read.put(Ratio.parse(parts[0]), valves);
            }
            return new Table(source, order, read);
        }

        private static List<ValveId> valves(String cylinders, ValveRole role) {
            return Arrays.stream(cylinders.split(",", -1))
                    .map(cylinder -> new ValveId(Integer.parseInt(cylinder), role, 1))
                    .toList();
        }

        EngineSpec spec() {
            return engine(order);
        }

        @Override
        public String toString() {
            return order + ", " + source;
        }
    }

    static Stream<Table> tables() {
        return Stream.concat(
                Stream.of(
                        Table.of(
                                "KENR6741 table 1; also TM 5-3805-258-24-1 page 4-28 and TM 9-6115-670-14P paragraph 5.37",
                                "1-3-4-2",
                                "0: I 1,2 E 1,3",
                                "360: I 3,4 E 2,4"),
                        Table.of(
                                "KENR6741 table 2; also OMCB10004, valve clearance",
                                "1-5-3-6-2-4",
                                "0: I 1,2,4 E 1,3,5",
                                "360: I 3,5,6 E 2,4,6"),
                        Table.of(
                                "2TNV70 service manual page 6-32: four valves, then two; which four is derived",
                                "1-3-2",
                                "0: I 1,2 E 1,3",
                                "360: I 3 E 2"),
                        Table.of(
                                "a V6 clearance section, stops of 240; firing order from memory, third stop derived",
                                "1-2-3-4-5-6",
                                "0: I 1,6 E 2,3",
                                "240: I 2,3 E 4,5",
                                "480: I 4,5 E 1,6"),
                        Table.of(
                                "V8 workshop manuals of 2002 and 2005, rocker tightening on the base circle",
                                "1-8-7-2-6-5-4-3",
                                "0: I 1,3,4,5 E 1,2,7,8",
                                "360: I 2,6,7,8 E 3,4,5,6"),
                        Table.of(
                                "a V8 workshop manual of 1990, stops 0, 360 and 90 more",
                                "1-3-7-2-6-5-4-8",
                                "0: I 1,4,8 E 1,3,7",
                                "360: I 3,7 E 2,6",
                                "450: I 2,5,6 E 4,5,8"),
                        Table.of(
                                "TM 5-3825-226-24, four stops of 180; firing order from memory",
                                "1-2-7-3-4-5-6-8",
                                "0: I 1,2 E 1,2",
                                "180: I 3,7 E 3,7",
                                "360: I 4,5 E 4,5",
                                "540: I 6,8 E 6,8"),
                        Table.of(
                                "SENR9773 table 1",
                                "1-10-9-6-5-12-11-4-3-8-7-2",
                                "0: I 1,2,3,7,8,10 E 1,2,5,6,9,10",
                                "360: I 4,5,6,9,11,12 E 3,4,7,8,11,12"),
                        Table.of(
                                "a published V8 firing order; table from memory",
                                "1-8-4-3-6-5-7-2",
                                "0: I 1,2,5,7 E 1,3,4,8",
                                "360: I 3,4,6,8 E 2,5,6,7"),
                        Table.of(
                                "the mirror of the first table (derived)",
                                "1-2-4-3",
                                "0: I 1,3 E 1,2",
                                "360: I 2,4 E 3,4"),
                        Table.of(
                                "a shop manual as quoted by its users: valves 1, 2, 3, 5, then 4, 6, 7, 8 of an E I I E E I I E head",
                                "1-3-4-2",
                                "0: I 1,2 E 1,3",
                                "360: I 3,4 E 2,4")),
                oneCylinderAtAStop());
    }

    /** Tables that measure each cylinder at its own compression TDC. */
    static Stream<Table> oneCylinderAtAStop() {
        return Stream.of(
                Table.of(
                        "2TNV70 service manual page 6-32: number 2 is 180 after number 1, then 540",
                        "1-2 (180, 540)",
                        "0: I 1 E 1",
                        "180: I 2 E 2"),
                Table.of(
                        "a V-twin manual as quoted by its users: number 2 is 270 after number 1",
                        "1-2 (270, 450)",
                        "0: I 1 E 1",
                        "270: I 2 E 2"),
                Table.of(
                        "a flat four's service manual of 2009, each cylinder half a turn on",
                        "1-3-2-4",
                        "0: I 1 E 1",
                        "180: I 3 E 3",
                        "360: I 2 E 2",
                        "540: I 4 E 4"),
                Table.of(
                        "a 2.2 litre four's workshop manual of 1996, each cylinder half a turn on",
                        "1-3-4-2",
                        "0: I 1 E 1",
                        "180: I 3 E 3",
                        "360: I 4 E 4",
                        "540: I 2 E 2"),
                Table.of(
                        "a four's workshop manual page 957, by the pair that rocks: 7 and 8, 5 and 6, 1 and 2, 3 and 4",
                        "1-2-4-3",
                        "0: I 1 E 1",
                        "180: I 2 E 2",
                        "360: I 4 E 4",
                        "540: I 3 E 3"));
    }

    /** Guards the copying: a published table measures each valve once. */
    @ParameterizedTest
    @MethodSource("tables")
    void tableNamesEachValveOnce(Table table) {
        assertThat(table.stops().values().stream().flatMap(List::stream))
                .containsExactlyInAnyOrderElementsOf(table.spec().valves());
    }

    @ParameterizedTest
    @MethodSource("tables")
    void modelAllowsWhatIsPublished(Table table) {
        table.stops()
                .forEach((angle, published) -> assertThat(CrankPlanner.measurableAt(table.spec(), angle))
                        .as("at %s", angle)
                        .containsAll(published));
    }

    @ParameterizedTest
    @MethodSource("tables")
    void planNeedsNoMoreStops(Table table) {
        CrankPlan plan = CrankPlanner.atTdcMarks().plan(table.spec());
        assertThat(plan.isComplete()).isTrue();
        assertThat(plan.stops()).hasSizeLessThanOrEqualTo(table.stops().size());
    }

    @ParameterizedTest
    @MethodSource("oneCylinderAtAStop")
    void ownCompressionTdcGivesThePublishedStops(Table table) {
        CrankPlan plan = CrankPlanner.atOwnCompressionTdc().plan(table.spec());
        Map<Ratio, List<ValveId>> stops = new LinkedHashMap<>();
        plan.stops().forEach(stop -> stops.put(stop.angle(), stop.valves()));
        assertThat(stops).isEqualTo(table.stops());
    }

    static Stream<Table> twoStopsATurnApart() {
        return tables().filter(table -> table.stops().keySet().equals(Set.of(deg(0), deg(360))));
    }

    /** The plan finds the published stops of all such tables itself, and is free to measure more at the first. */
    @ParameterizedTest
    @MethodSource("twoStopsATurnApart")
    void planFindsThePublishedStops(Table table) {
        CrankPlan plan = CrankPlanner.atMarks(List.of(deg(0))).plan(table.spec());
        assertThat(angles(plan)).containsExactly(deg(0), deg(360));
        assertThat(plan.stops().get(0).valves())
                .containsAll(Objects.requireNonNull(table.stops().get(deg(0))));
    }

    /**
     * A V8 manual of 2006: 1-8-7-3-6-5-4-2 stops at number 1's TDC, 270 on at number 3's, 90 on at number 6's. It does not say which
     * valves are measured where.
     */
    @Test
    void threeStopsOfAV8() {
        EngineSpec engine = engine("1-8-7-3-6-5-4-2");
        assertThat(engine.firingOrder().firingAngle(3)).isEqualTo(deg(270));
        assertThat(engine.firingOrder().firingAngle(6)).isEqualTo(deg(360));
        assertThat(angles(CrankPlanner.atTdcMarks().plan(engine))).hasSizeLessThanOrEqualTo(3);
    }

    /** The pair that rocks in the four's manual, page 957: the companion of the cylinder that is measured is on overlap. */
    @ParameterizedTest
    @CsvSource({"1, 4", "2, 3", "4, 1", "3, 2"})
    void companionRocks(int measured, int rocks) {
        EngineSpec engine = engine("1-2-4-3");
        CrankPlan.Stop stop = CrankPlanner.atOwnCompressionTdc()
                .plan(engine)
                .stopFor(new ValveId(measured, ValveRole.INTAKE, 1))
                .orElseThrow();
        assertThat(stop.sign())
                .isEqualTo("TDC mark of number " + measured + ", on compression: its followers are slack; number "
                        + rocks + ", on overlap: its followers both move as the crank is turned on through TDC");
    }

    /**
     * M015700/06E page 74 for a V12, A1 at firing TDC. Cylinder numbers run A1 to A6, then B1 to B6; the firing order is not given,
     * so one that suits the grid is assumed. At overlap TDC the manual gives the exact complement.
     */
    @Test
    void twoPositionGridAndItsComplement() {
        EngineSpec engine = engine("1-12-9-5-3-8-6-10-4-2-7-11");
        List<ValveId> firing = new ArrayList<>(Table.valves("1,2,4,7,10,11", ValveRole.INTAKE));
        firing.addAll(Table.valves("1,3,5,9,11,12", ValveRole.EXHAUST));
        List<ValveId> overlap = new ArrayList<>(engine.valves());
        overlap.removeAll(firing);
        assertThat(CrankPlanner.measurableAt(engine, deg(0))).containsAll(firing);
        assertThat(CrankPlanner.measurableAt(engine, deg(360))).containsAll(overlap);
    }
}
