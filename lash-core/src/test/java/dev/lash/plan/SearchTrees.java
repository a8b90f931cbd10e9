package dev.lash.plan;

import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.ReadingRule;
import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.plan.LeafPlanner.Objective;
import java.util.List;
import java.util.stream.IntStream;

/** Search trees over keys and gaps, set up as leaves: a leaf drags when the key is it, and the gaps lie between the leaves. */
final class SearchTrees {
    private static final long STEP = 100_000;
    private static final long BAND = 10_000;

    private SearchTrees() {}

    /**
     * Keys and gaps with their weights.
     *
     * @param keys the weight of each key
     * @param gaps the weight of each gap, one more than there are keys
     */
    @SuppressWarnings("ArrayRecordComponent") // never compared
    record Tree(int[] keys, int[] gaps) {
        LeafPlan plan(Objective objective) {
            List<Leaf> leaves = IntStream.rangeClosed(1, keys.length)
                    .mapToObj(i -> new Leaf(Length.ofNanometres(i * STEP)))
                    .toList();
            return LeafPlanner.withDefaults()
                    .withCost(StrokeCost.EQUAL)
                    .withObjective(objective)
                    .withDragBand(Length.ofNanometres(BAND))
                    .withPrior(this::upTo)
                    .plan(
                            new GaugeSet(leaves, 1, Length.ZERO, Length.ZERO, LengthUnit.MILLIMETRE),
                            ReadingRule.simple(),
                            PlanGoal.size());
        }

        /** The weight of a key is spread over its band, that of a gap from band to band. */
        private double upTo(Length length) {
            long x = length.nanometres();
            double below = 0;
            double all = 0;
            for (int i = 0; i <= keys.length; i++) {
                long from = i == 0 ? 0 : i * STEP + BAND;
                long to = (i + 1) * STEP - BAND;
                below += gaps[i] * share(x, from, to);
                all += gaps[i];
                if (i < keys.length) {
                    below += keys[i] * share(x, to, to + 2 * BAND);
                    all += keys[i];
                }
            }
            return below / all;
        }

        private static double share(long x, long from, long to) {
            return Math.max(0, Math.min(1, (double) (x - from) / (to - from)));
        }
    }

    /** The least weighted number of comparisons, by the cubic recurrence of Knuth 1971. */
    static double optimum(int[] keys, int[] gaps) {
        int n = keys.length;
        double[][] cost = new double[n + 2][n + 1];
        for (int length = 1; length <= n; length++) {
            for (int first = 1; first + length - 1 <= n; first++) {
                int last = first + length - 1;
                double weight = gaps[first - 1];
                for (int i = first; i <= last; i++) {
                    weight += keys[i - 1] + gaps[i];
                }
                double least = Double.MAX_VALUE;
                for (int root = first; root <= last; root++) {
                    least = Math.min(least, cost[first][root - 1] + cost[root + 1][last]);
                }
                cost[first][last] = weight + least;
            }
        }
        return cost[1][n];
    }
}
