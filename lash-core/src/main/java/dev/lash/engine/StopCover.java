package dev.lash.engine;

import dev.lash.measure.Ratio;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The smallest set of stops that reaches given valves: iterative deepening on the number of stops, branching on the valve that fewest
 * stops reach. Exact; the first depth that has a cover is searched whole, so that ties are broken as promised.
 */
final class StopCover {
    private final List<Ratio> angles;
    private final List<Set<ValveId>> reached = new ArrayList<>();
    private final Set<Ratio> tdcs;

    StopCover(Map<Ratio, List<ValveId>> reachedAt, Set<Ratio> tdcs) {
        this.angles = List.copyOf(reachedAt.keySet());
        this.tdcs = tdcs;
        reachedAt.values().forEach(valves -> reached.add(Set.copyOf(valves)));
    }

    /** The best smallest set of stops, by angle. */
    List<Ratio> smallest(Set<ValveId> wanted) {
        List<ValveId> valves = List.copyOf(wanted);
        List<BitSet> stopsFor = new ArrayList<>();
        for (ValveId valve : valves) {
            BitSet stops = new BitSet(angles.size());
            for (int i = 0; i < angles.size(); i++) {
                stops.set(i, reached.get(i).contains(valve));
            }
            stopsFor.add(stops);
        }
        for (int depth = 0; depth <= valves.size(); depth++) {
            Search search = new Search(stopsFor);
            search.cover(new BitSet(angles.size()), depth);
            if (search.best != null) {
                return search.best.stream().mapToObj(angles::get).toList();
            }
        }
        return List.of();
    }

    /** Least turning, then most stops at a TDC, then the smaller angles. */
    private int compare(BitSet a, BitSet b) {
        Comparator<BitSet> order = Comparator.comparingInt(BitSet::length)
                .thenComparing(set ->
                        -set.stream().filter(i -> tdcs.contains(angles.get(i))).count());
        int first = order.compare(a, b);
        if (first != 0) {
            return first;
        }
        int[] left = a.stream().toArray();
        int[] right = b.stream().toArray();
        return Arrays.compare(left, right);
    }

    private final class Search {
        private final List<BitSet> stopsFor;
        private @Nullable BitSet best;

        Search(List<BitSet> stopsFor) {
            this.stopsFor = stopsFor;
        }

        void cover(BitSet chosen, int left) {
            BitSet fewest = null;
            for (BitSet stops : stopsFor) {
                if (!stops.intersects(chosen) && (fewest == null || stops.cardinality() < fewest.cardinality())) {
                    fewest = stops;
                }
            }
            if (fewest == null) {
                if (best == null || compare(chosen, best) < 0) {
                    best = (BitSet) chosen.clone();
                }
                return;
            }
            if (left == 0) {
                return;
            }
            for (int i = fewest.nextSetBit(0); i >= 0; i = fewest.nextSetBit(i + 1)) {
                chosen.set(i);
                cover(chosen, left - 1);
                chosen.clear(i);
            }
        }
    }
}
