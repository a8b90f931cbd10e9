package dev.lash.engine;

import static dev.lash.engine.CrankEngines.deg;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.Ratio;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;

class StopCoverTest {
    /** Each stop's valves as bits, by cylinder from 1; stop i is at i times ten degrees. */
    private static SortedMap<Ratio, List<ValveId>> reached(List<Integer> stops) {
        SortedMap<Ratio, List<ValveId>> reached = new TreeMap<>();
        for (int i = 0; i < stops.size(); i++) {
            int bits = stops.get(i);
            reached.put(
                    deg(10L * i),
                    IntStream.range(0, 9)
                            .filter(v -> (bits & 1 << v) != 0)
                            .mapToObj(v -> new ValveId(v + 1, ValveRole.INTAKE, 1))
                            .toList());
        }
        return reached;
    }

    private static Set<Ratio> tdcs(Set<Integer> stops) {
        return stops.stream().map(i -> deg(10L * i)).collect(Collectors.toSet());
    }

    private static List<Ratio> smallest(Set<Integer> tdcs, Integer... stops) {
        return new StopCover(reached(List.of(stops)), tdcs(tdcs)).smallest();
    }

    @Example
    void nothingToReachNeedsNoStop() {
        assertThat(smallest(Set.of())).isEmpty();
        assertThat(smallest(Set.of(0), 0)).isEmpty();
    }

    @Example
    void fewestStopsComeFirst() {
        // the third stop alone would turn further, but two stops are more than one
        assertThat(smallest(Set.of(0, 1), 0b001, 0b110, 0b111)).containsExactly(deg(20));
    }

    @Example
    void thenLeastTurning() {
        assertThat(smallest(Set.of(0, 3), 0b011, 0b110, 0b101, 0b100)).containsExactly(deg(0), deg(10));
    }

    @Example
    void thenMostStopsAtATdc() {
        assertThat(smallest(Set.of(1), 0b01, 0b01, 0b10)).containsExactly(deg(10), deg(20));
        assertThat(smallest(Set.of(), 0b01, 0b01, 0b10)).containsExactly(deg(0), deg(20));
    }

    @Example
    void thenTheSmallerAngles() {
        assertThat(smallest(Set.of(), 0b0011, 0b0101, 0b1010, 0b1100)).containsExactly(deg(10), deg(20));
        assertThat(smallest(Set.of(), 0b001, 0b011, 0b010, 0b110)).containsExactly(deg(0), deg(30));
    }

    /** Against all subsets, for stops that reach any valves at all, as no engine would have them. */
    @Property(tries = 2000)
    void bestOfAllSubsets(
            @ForAll @Size(max = 10) List<@IntRange(max = 511) Integer> stops,
            @ForAll @Size(max = 5) Set<@IntRange(max = 9) Integer> tdcs) {
        int wanted = stops.stream().reduce(0, (a, b) -> a | b);
        List<List<Integer>> covers = new ArrayList<>();
        for (int subset = 0; subset < 1 << stops.size(); subset++) {
            int chosen = subset;
            List<Integer> cover = IntStream.range(0, stops.size())
                    .filter(i -> (chosen & 1 << i) != 0)
                    .boxed()
                    .toList();
            if (cover.stream().map(stops::get).reduce(0, (a, b) -> a | b) == wanted) {
                covers.add(cover);
            }
        }
        Comparator<List<Integer>> order = Comparator.<List<Integer>>comparingInt(List::size)
                .thenComparing(cover -> cover.isEmpty() ? -1 : cover.get(cover.size() - 1))
                .thenComparing(cover -> -cover.stream().filter(tdcs::contains).count())
                .thenComparing(cover -> cover.stream().mapToInt(i -> i).toArray(), Arrays::compare);
        List<Integer> best = covers.stream().min(order).orElseThrow();
        assertThat(new StopCover(reached(stops), tdcs(tdcs)).smallest())
                .isEqualTo(best.stream().map(i -> deg(10L * i)).toList());
    }
}
