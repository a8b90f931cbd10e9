package dev.lash.engine;

import dev.lash.measure.Ratio;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * The smallest set of stops that reaches every valve that any stop reaches: iterative deepening on the number of stops, branching on
 * the valve that fewest stops reach. Exact; the first depth that has a cover is searched for the best one: least turning, then most
 * stops at a TDC, then the smaller angles.
 */
final class StopCover {
    /** A stop on offer. */
    private record Candidate(Ratio angle, BitSet valves, boolean atTdc) {
        /** Whether this stop, the earlier one, can stand in for another without loss, by any of the tie-breaks. */
        boolean replaces(Candidate later) {
            return (atTdc || !later.atTdc) && containsAll(valves, later.valves);
        }
    }

    private final List<Candidate> candidates = new ArrayList<>();
    private final Map<ValveId, Integer> numbers = new HashMap<>();

    StopCover(SortedMap<Ratio, List<ValveId>> reached, Set<Ratio> tdcs) {
        reached.forEach((angle, valves) -> {
            Candidate next = new Candidate(angle, numbered(valves), tdcs.contains(angle));
            if (candidates.stream().noneMatch(earlier -> earlier.replaces(next))) {
                candidates.add(next);
            }
        });
    }

    private BitSet numbered(List<ValveId> valves) {
        BitSet set = new BitSet();
        valves.forEach(valve -> set.set(numbers.computeIfAbsent(valve, first -> numbers.size())));
        return set;
    }

    /** The best smallest set of stops, by angle. */
    List<Ratio> smallest() {
        Search search = new Search(stopsForEachValve());
        int stops = 0;
        while (search.best == null) {
            search.cover(new BitSet(), stops);
            stops++;
        }
        return search.best.stream().mapToObj(i -> candidates.get(i).angle).toList();
    }

    /** The stops that reach each valve, fewest first; valves that are reached whenever another one is are left out. */
    private List<BitSet> stopsForEachValve() {
        List<BitSet> all = IntStream.range(0, numbers.size())
                .mapToObj(this::stopsFor)
                .sorted(Comparator.comparingInt(BitSet::cardinality))
                .toList();
        List<BitSet> needed = new ArrayList<>();
        for (BitSet stops : all) {
            if (needed.stream().noneMatch(fewer -> containsAll(stops, fewer))) {
                needed.add(stops);
            }
        }
        return needed;
    }

    private BitSet stopsFor(int valve) {
        BitSet stops = new BitSet();
        for (int i = 0; i < candidates.size(); i++) {
            stops.set(i, candidates.get(i).valves.get(valve));
        }
        return stops;
    }

    private static boolean containsAll(BitSet set, BitSet part) {
        BitSet rest = (BitSet) part.clone();
        rest.andNot(set);
        return rest.isEmpty();
    }

    /** Least turning, then most stops at a TDC, then the smaller angles; candidates are numbered by angle. */
    private int compare(BitSet a, BitSet b) {
        return Comparator.comparingInt(BitSet::length)
                .thenComparing(this::stopsAtTdc, Comparator.reverseOrder())
                .thenComparing(set -> set.stream().toArray(), Arrays::compare)
                .compare(a, b);
    }

    private long stopsAtTdc(BitSet stops) {
        return stops.stream().filter(i -> candidates.get(i).atTdc).count();
    }

    private final class Search {
        private final List<BitSet> stopsFor;
        private @Nullable BitSet best;

        Search(List<BitSet> stopsFor) {
            this.stopsFor = stopsFor;
        }

        void cover(BitSet chosen, int left) {
            List<BitSet> open =
                    stopsFor.stream().filter(stops -> !stops.intersects(chosen)).toList();
            if (open.isEmpty()) {
                keep(chosen);
            } else if (atLeast(open) <= left && !turnsFurther(chosen)) {
                BitSet fewest = open.get(0);
                for (int i = fewest.nextSetBit(0); i >= 0; i = fewest.nextSetBit(i + 1)) {
                    chosen.set(i);
                    cover(chosen, left - 1);
                    chosen.clear(i);
                }
            }
        }

        private void keep(BitSet chosen) {
            if (best == null || compare(chosen, best) < 0) {
                best = (BitSet) chosen.clone();
            }
        }

        /** Valves of which no two share a stop need a stop each. */
        private int atLeast(List<BitSet> open) {
            BitSet used = new BitSet();
            int count = 0;
            for (BitSet stops : open) {
                if (!stops.intersects(used)) {
                    used.or(stops);
                    count++;
                }
            }
            return count;
        }

        /** Further stops never lessen the turning. */
        private boolean turnsFurther(BitSet chosen) {
            return best != null && chosen.length() > best.length();
        }
    }
}
