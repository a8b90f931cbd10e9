package dev.lash.plan;

import dev.lash.engine.ClearanceWindow;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.ReadingRule;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.LongSummaryStatistics;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.LongConsumer;
import java.util.function.LongPredicate;
import java.util.function.Predicate;
import java.util.stream.LongStream;
import java.util.stream.Stream;

/**
 * Every leaf and stack of a set that can be offered, as far as it can matter. Works on bare numbers: a set of 32 leaves has 528
 * single leaves and pairs, one of 64 over 40&nbsp;000 with stacks of three.
 */
final class Strokes {
    private static final Comparator<Stroke> BY_THICKNESS =
            Comparator.comparingLong(Stroke::thickness).thenComparingInt(Stroke::size);

    private final GaugeSet gauges;
    private final StrokeCost cost;
    private final long[] leaves;
    private final long tolerance;
    private final long allowance;

    /**
     * One leaf or stack, with the bounds that each answer gives; see {@link Bounds}.
     *
     * @param places the places of its leaves in the set
     * @param thickness the sum of its marks in nanometres
     * @param cost what the stroke costs
     * @param goes the lower end after it goes
     * @param dragLow the lower end after it drags
     * @param dragHigh the upper end after it drags
     * @param refuses the upper end after it does not go
     */
    record Stroke(
            List<Integer> places, long thickness, double cost, long goes, long dragLow, long dragHigh, long refuses) {
        int size() {
            return places.size();
        }

        /** The stack of this stroke. */
        LeafStack stack(GaugeSet gauges) {
            return new LeafStack(places.stream().map(gauges.leaves()::get).toList());
        }
    }

    Strokes(GaugeSet gauges, ReadingRule rule, StrokeCost cost) {
        this.gauges = gauges;
        this.cost = cost;
        this.leaves = gauges.leaves().stream()
                .map(Leaf::thickness)
                .mapToLong(Length::nanometres)
                .toArray();
        this.tolerance = rule instanceof ReadingRule.Guarded g ? g.tolerance().nanometres() : 0;
        this.allowance =
                rule instanceof ReadingRule.Guarded g ? g.dragAllowance().nanometres() : 0;
    }

    /**
     * The strokes to search, and what was left out of them.
     *
     * @param strokes the strokes, by thickness
     * @param leftOut those that might have made a better plan
     */
    record Choice(List<Stroke> strokes, LeftOut leftOut) {}

    /** Strokes that are not searched, by their thickness alone: a set may have a million. */
    static final class LeftOut {
        static final LeftOut NONE = new LeftOut(0, 0, new long[0][]);

        private final long tolerance;
        private final long allowance;
        private final long[][] bySize;

        /** By number of leaves, from 1 up, the thicknesses in rising order. */
        private LeftOut(long tolerance, long allowance, long[][] bySize) {
            this.tolerance = tolerance;
            this.allowance = allowance;
            this.bySize = bySize;
        }

        boolean isEmpty() {
            return Arrays.stream(bySize).allMatch(thicknesses -> thicknesses.length == 0);
        }

        /** Whether one of them narrows the bracket whatever it answers. */
        boolean narrows(long low, long high) {
            for (int size = 1; size <= bySize.length; size++) {
                long[] thicknesses = bySize[size - 1];
                long d = tolerance * size;
                int first = firstWhere(thicknesses, t -> goes(t, d) > low);
                int end = firstWhere(thicknesses, t -> refuses(t, d) >= high);
                // of those between, a drag narrows most from below with the thickest, from above with the thinnest
                if (first < end
                        && (dragNarrows(thicknesses[first], d + allowance, low, high)
                                || dragNarrows(thicknesses[end - 1], d + allowance, low, high))) {
                    return true;
                }
            }
            return false;
        }

        private static boolean dragNarrows(long thickness, long reach, long low, long high) {
            long from = dragLow(thickness, reach);
            long to = dragHigh(thickness, reach);
            return from > low || to < high || Math.max(low, from) > Math.min(high, to);
        }

        private static int firstWhere(long[] sorted, LongPredicate fromHereOn) {
            int low = 0;
            int high = sorted.length;
            while (low < high) {
                int middle = (low + high) >>> 1;
                if (fromHereOn.test(sorted[middle])) {
                    high = middle;
                } else {
                    low = middle + 1;
                }
            }
            return low;
        }
    }

    /** The strokes to plan with. */
    Choice choose(LengthInterval present, PlanGoal goal, boolean dragsAreLikely) {
        if (!(goal instanceof PlanGoal.OfVerdict verdict)) {
            List<Stroke> inside = inside(present);
            return new Choice(inside, leftOut(present, inside));
        }
        List<Stroke> chosen = forVerdict(present, verdict.window(), dragsAreLikely);
        return new Choice(chosen, oneSuffices(dragsAreLikely) ? LeftOut.NONE : leftOut(present, chosen));
    }

    private LeftOut leftOut(LengthInterval present, List<Stroke> chosen) {
        long low = Bounds.lower(present);
        long high = Bounds.upper(present);
        long[][] bySize = new long[gauges.mostStacked()][];
        boolean any = false;
        for (int size = 1; size <= bySize.length; size++) {
            int leavesLaid = size;
            long d = tolerance * size;
            long[] searched = chosen.stream()
                    .filter(stroke -> tolerance == 0 || stroke.size() == leavesLaid)
                    .mapToLong(Stroke::thickness)
                    .toArray();
            LongStream.Builder found = LongStream.builder();
            combine(new int[size], 0, 0, 0, thickness -> {
                if (goes(thickness, d) > low && refuses(thickness, d) < high) {
                    found.accept(thickness);
                }
            });
            bySize[size - 1] = found.build()
                    .sorted()
                    .distinct()
                    .filter(thickness -> Arrays.binarySearch(searched, thickness) < 0)
                    .toArray();
            any |= bySize[size - 1].length > 0;
        }
        return any ? new LeftOut(tolerance, allowance, bySize) : LeftOut.NONE;
    }

    /**
     * The strokes that narrow the bracket whether the leaf goes or not, by thickness. Of strokes that tell the same, being equally
     * thick and without a tolerance, the one of fewest leaves. A stack under a tolerance is not needless beside an equally thick
     * leaf: it tells less, but the wider bracket that it leaves may let further strokes narrow it. Where there are more than the
     * planner takes, such stacks are left out, then stacks of more leaves.
     */
    List<Stroke> inside(LengthInterval present) {
        long low = Bounds.lower(present);
        long high = Bounds.upper(present);
        return all(stroke -> stroke.goes > low && stroke.refuses < high);
    }

    /** The strokes that may narrow the bracket on some answer, otherwise as {@link #inside}. */
    List<Stroke> touching(LengthInterval present) {
        long low = Bounds.lower(present);
        long high = Bounds.upper(present);
        return all(stroke ->
                (stroke.goes > low && stroke.goes <= high) || (stroke.refuses < high && stroke.refuses >= low));
    }

    private List<Stroke> all(Predicate<Stroke> wanted) {
        return all(wanted, tolerance > 0);
    }

    private List<Stroke> all(Predicate<Stroke> wanted, boolean ofEachSize) {
        List<Stroke> kept = new ArrayList<>();
        Set<Long> thicknesses = new HashSet<>();
        for (int size = 1; size <= gauges.mostStacked(); size++) {
            Map<Long, Stroke> ofSize = new HashMap<>();
            int[] places = new int[size];
            combine(places, 0, 0, 0, thickness -> {
                if ((ofEachSize || !thicknesses.contains(thickness)) && !ofSize.containsKey(thickness)) {
                    Stroke stroke = stroke(places, thickness);
                    if (wanted.test(stroke)) {
                        ofSize.put(thickness, stroke);
                    }
                }
            });
            if (ofEachSize && kept.size() + ofSize.size() > LeafPlanner.MOST_TRIALS) {
                return all(wanted, false);
            }
            if (size > 1 && kept.size() + ofSize.size() > LeafPlanner.MOST_TRIALS) {
                break;
            }
            kept.addAll(ofSize.values());
            thicknesses.addAll(ofSize.keySet());
        }
        kept.sort(BY_THICKNESS);
        return kept;
    }

    private boolean oneSuffices(boolean dragsAreLikely) {
        return !dragsAreLikely && allowance == 0 && (tolerance == 0 || cost.of(1) == cost.of(gauges.mostStacked()));
    }

    /**
     * The strokes to plan a verdict with, by thickness. While a drag has no probability and no allowance, and a larger tolerance
     * comes with no other cost, the {@link #nearest} one suffices. Otherwise all strokes inside the bracket; where those are many,
     * the nearest few, and of the others as many as {@link #inside} takes if a drag has a probability.
     */
    List<Stroke> forVerdict(LengthInterval present, ClearanceWindow window, boolean dragsAreLikely) {
        if (oneSuffices(dragsAreLikely)) {
            return nearest(present, window, 1);
        }
        if (count(present) <= LeafPlanner.FEW_TRIALS) {
            return inside(present);
        }
        List<Stroke> others = dragsAreLikely ? inside(present) : List.of();
        return distinct(Stream.concat(others.stream(), nearest(present, window, LeafPlanner.NEAREST_TRIALS).stream()));
    }

    private long count(LengthInterval present) {
        long low = Bounds.lower(present);
        long high = Bounds.upper(present);
        LongSummaryStatistics found = new LongSummaryStatistics();
        for (int size = 1; size <= gauges.mostStacked(); size++) {
            long d = tolerance * size;
            combine(new int[size], 0, 0, 0, thickness -> {
                if (goes(thickness, d) > low && refuses(thickness, d) < high) {
                    found.accept(thickness);
                }
            });
        }
        return found.getCount();
    }

    /** Of strokes that tell the same the one of fewest leaves, by thickness. */
    private List<Stroke> distinct(Stream<Stroke> strokes) {
        List<Stroke> kept = new ArrayList<>();
        strokes.sorted(BY_THICKNESS).forEach(stroke -> {
            Stroke last = kept.isEmpty() ? null : kept.get(kept.size() - 1);
            if (last == null || last.thickness != stroke.thickness || (tolerance > 0 && last.size() != stroke.size())) {
                kept.add(stroke);
            }
        });
        return List.copyOf(kept);
    }

    /**
     * For each number of leaves and each way to prove a side of a limit of the window, the strokes nearest to the limit that narrow
     * the bracket whether the leaf goes or not, by thickness.
     *
     * @param many how many of each
     */
    List<Stroke> nearest(LengthInterval present, ClearanceWindow window, int many) {
        long low = Bounds.lower(present);
        long high = Bounds.upper(present);
        long least = 2 * window.lower().nanometres();
        long most = 2 * window.upper().nanometres();
        List<Stroke> kept = new ArrayList<>();
        for (int size = 1; size <= gauges.mostStacked(); size++) {
            long d = tolerance * size;
            // thicknesses from which on upward, or downward, each answer proves a side of a limit
            long[] upward = {
                atLeast(least, 2 * -d + 1), atLeast(most + 1, 2 * -d + 1),
                atLeast(least, 2 * -(d + allowance)), atLeast(most + 1, 2 * -(d + allowance))
            };
            long[] downward = {
                atMost(most, 2 * d - 1), atMost(least - 1, 2 * d - 1),
                atMost(most, 2 * (d + allowance)), atMost(least - 1, 2 * (d + allowance))
            };
            Nearest search = new Nearest(upward, downward, many, size);
            int[] places = new int[size];
            combine(places, 0, 0, 0, thickness -> {
                if (goes(thickness, d) > low && refuses(thickness, d) < high) {
                    search.offer(places, thickness);
                }
            });
            search.found(found -> kept.add(stroke(found, thickness(found))));
        }
        return distinct(kept.stream());
    }

    private static long goes(long thickness, long tolerance) {
        return Math.max(0, 2 * (thickness - tolerance) + 1);
    }

    private static long refuses(long thickness, long tolerance) {
        return 2 * (thickness + tolerance) - 1;
    }

    private static long dragLow(long thickness, long reach) {
        return Math.max(0, 2 * (thickness - reach));
    }

    private static long dragHigh(long thickness, long reach) {
        return 2 * (thickness + reach);
    }

    /** The least thickness t with 2t + shift at least the bound. */
    private static long atLeast(long bound, long shift) {
        return -Math.floorDiv(-(bound - shift), 2L);
    }

    /** The largest thickness t with 2t + shift at most the bound. */
    private static long atMost(long bound, long shift) {
        return Math.floorDiv(bound - shift, 2L);
    }

    private long thickness(int[] places) {
        long sum = 0;
        for (int place : places) {
            sum += leaves[place];
        }
        return sum;
    }

    private Stroke stroke(int[] places, long thickness) {
        long d = tolerance * places.length;
        long reach = d + allowance;
        List<Integer> kept = new ArrayList<>(places.length);
        for (int place : places) {
            kept.add(place);
        }
        return new Stroke(
                List.copyOf(kept),
                thickness,
                cost.of(places.length),
                goes(thickness, d),
                dragLow(thickness, reach),
                dragHigh(thickness, reach),
                refuses(thickness, d));
    }

    /** Calls {@code each} for every combination of as many leaves as {@code places} holds, each leaf at most once. */
    private void combine(int[] places, int depth, int from, long thickness, LongConsumer each) {
        for (int i = from; i < leaves.length; i++) {
            places[depth] = i;
            if (depth + 1 == places.length) {
                each.accept(thickness + leaves[i]);
            } else {
                combine(places, depth + 1, i + 1, thickness + leaves[i], each);
            }
        }
    }

    /** Keeps, for each threshold, the combinations nearest to it on its side, of each thickness one. */
    private static final class Nearest {
        private final long[] upward;
        private final long[] downward;
        private final int many;
        private final long[] best;
        private final int[][] places;

        Nearest(long[] upward, long[] downward, int many, int size) {
            this.upward = upward;
            this.downward = downward;
            this.many = many;
            this.best = new long[(upward.length + downward.length) * many];
            this.places = new int[best.length][size];
            Arrays.fill(best, Long.MAX_VALUE);
        }

        void offer(int[] combination, long thickness) {
            for (int i = 0; i < upward.length; i++) {
                keep(i, thickness - upward[i], combination);
            }
            for (int i = 0; i < downward.length; i++) {
                keep(upward.length + i, downward[i] - thickness, combination);
            }
        }

        /** Puts the combination in its place among the best of a threshold, which stand by distance. */
        private void keep(int threshold, long distance, int[] combination) {
            int first = threshold * many;
            int place = first + many;
            while (place > first && distance < best[place - 1]) {
                place--;
            }
            if (distance < 0 || place == first + many || (place > first && distance == best[place - 1])) {
                return;
            }
            int[] freed = places[first + many - 1];
            for (int i = first + many - 1; i > place; i--) {
                best[i] = best[i - 1];
                places[i] = places[i - 1];
            }
            best[place] = distance;
            places[place] = freed;
            System.arraycopy(combination, 0, freed, 0, combination.length);
        }

        void found(Consumer<int[]> each) {
            for (int i = 0; i < best.length; i++) {
                if (best[i] != Long.MAX_VALUE) {
                    each.accept(places[i]);
                }
            }
        }
    }
}
