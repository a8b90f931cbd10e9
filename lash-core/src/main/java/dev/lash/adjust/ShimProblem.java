package dev.lash.adjust;

import static dev.lash.adjust.ShimEffect.CERTAIN;
import static dev.lash.adjust.ShimEffect.NONE;

import dev.lash.adjust.ShimOptions.Purchase;
import dev.lash.adjust.ShimOptions.Supply;
import dev.lash.measure.Length;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.ToLongFunction;
import java.util.stream.DoubleStream;
import org.jspecify.annotations.Nullable;

/**
 * The choice of a shim for every slot, in numbers, and its solution.
 *
 * <p>For one set of lifted camshafts it is an assignment of the slots that can be reached to shims. Bought shims are unlimited, so
 * each slot needs only its best purchase, in a column of its own. The ranks of the objective are the digits of one whole number.
 * With n slots and D one more than the sum of the largest distances: a shim that is moved counts 1, half a nanometre off the aim
 * n + 1, a changed size (n + 1) D, a bought shim n + 1 times that, a valve that is not certain n + 1 times that again. Each
 * digit's sum stays below the next digit's weight, so sums compare as the ranks do. With at most {@value ShimPlanner#MOST_SLOTS}
 * slots, and distances of at most 60 million half nanometres since readings lie within 25 mm of 0 and windows within 5 mm, the
 * largest cost is below 1.7e16, which {@link Assignment#largestCost} allows for so many rows.
 *
 * <p>Sets of lifted camshafts are tried with the fewest first, until one leaves as few valves uncertain as lifting all does.
 */
final class ShimProblem {
    final List<Supply> supplies;
    final ShimOptions[] options;
    /** By slot and supply, {@link Assignment#FORBIDDEN} where it may not be fitted. */
    final long[][] cost;
    /** By slot and purchase. */
    final long[][] purchaseCost;

    private final int slots;
    private final int[] camshaftOf;
    private final int camshafts;
    private final Weights weights;
    private final @Nullable Scores scores;

    /** What one unit of each rank costs. */
    private record Weights(long aim, long change, long buy, long uncertain) {
        static Weights of(ShimOptions[] options) {
            long digit = options.length + 1L;
            long distances = 1;
            for (ShimOptions o : options) {
                distances += o.mostTwiceOffAim();
            }
            long change = digit * distances;
            return new Weights(digit, change, change * digit, change * digit * digit);
        }
    }

    /** A score for each supply and purchase of each slot, the more the better; plus infinity where it does not count. */
    static final class Scores {
        final double[][] supply;
        final double[][] purchase;

        Scores(double[][] supply, double[][] purchase) {
            this.supply = supply;
            this.purchase = purchase;
        }
    }

    /** What the ranks of a plan come to; the number of lifted camshafts is not among them. */
    record Digits(int uncertain, int bought, int changed, long twiceOffAim) {}

    ShimProblem(
            List<Supply> supplies, ShimOptions[] options, int[] camshaftOf, int camshafts, @Nullable Scores scores) {
        this(supplies, options, camshaftOf, camshafts, scores, Weights.of(options));
    }

    private ShimProblem(
            List<Supply> supplies,
            ShimOptions[] options,
            int[] camshaftOf,
            int camshafts,
            @Nullable Scores scores,
            Weights weights) {
        this.supplies = supplies;
        this.options = options;
        this.slots = options.length;
        this.camshaftOf = camshaftOf;
        this.camshafts = camshafts;
        this.scores = scores;
        this.weights = weights;
        this.cost = new long[slots][];
        this.purchaseCost = new long[slots][];
        for (int i = 0; i < slots; i++) {
            price(i);
        }
    }

    /** The same problem with other options in one slot, whose distances are no larger, and without scores. */
    ShimProblem with(int slot, ShimOptions other) {
        ShimOptions[] changed = options.clone();
        changed[slot] = other;
        return new ShimProblem(supplies, changed, camshaftOf, camshafts, null, weights);
    }

    private void price(int slot) {
        ShimOptions o = options[slot];
        Length old = supplies.get(slot).size();
        long[] row = new long[supplies.size()];
        for (int s = 0; s < row.length; s++) {
            row[s] = o.status[s] == NONE
                    ? Assignment.FORBIDDEN
                    : price(o.status[s], o.twiceOffAim[s])
                            + (s == slot ? 0 : 1 + changeOf(old, supplies.get(s).size()));
        }
        long[] bought = new long[o.purchases.size()];
        for (int p = 0; p < bought.length; p++) {
            Purchase purchase = o.purchases.get(p);
            bought[p] =
                    price(purchase.status(), purchase.twiceOffAim()) + 1 + changeOf(old, purchase.size()) + weights.buy;
        }
        cost[slot] = row;
        purchaseCost[slot] = bought;
    }

    private long price(int status, long twiceOffAim) {
        return (status == CERTAIN ? 0 : weights.uncertain) + twiceOffAim * weights.aim;
    }

    private long changeOf(@Nullable Length old, @Nullable Length size) {
        return size != null && size.equals(old) ? 0 : weights.change;
    }

    /** Whether a slot keeps its shim when these camshafts are lifted, one bit each. */
    boolean isFrozen(int slot, int lifted) {
        return options[slot].stuck || (camshaftOf[slot] >= 0 && (lifted >> camshaftOf[slot] & 1) == 0);
    }

    /** Whether a supply scores enough in a slot. */
    boolean scoresEnough(int slot, int supply, double least) {
        return scores == null || scores.supply[slot][supply] >= least;
    }

    /** The best purchase for a slot that scores enough, of several the thinnest; -1 when there is none. */
    int purchase(int slot, double least) {
        int best = -1;
        for (int p = 0; p < purchaseCost[slot].length; p++) {
            if ((scores == null || scores.purchase[slot][p] >= least)
                    && (best < 0 || purchaseCost[slot][p] < purchaseCost[slot][best])) {
                best = p;
            }
        }
        return best;
    }

    Digits digits(long total) {
        return new Digits(
                (int) (total / weights.uncertain),
                (int) (total % weights.uncertain / weights.buy),
                (int) (total % weights.buy / weights.change),
                total % weights.change / weights.aim);
    }

    /** The best plans for each of the smallest sets of camshafts that leave as few valves uncertain as lifting all does. */
    List<ShimMatching> withFewestLifted() {
        int all = (1 << camshafts) - 1;
        ShimMatching full = solve(all, Double.NEGATIVE_INFINITY).orElseThrow();
        long uncertain = full.total() / weights.uncertain;
        List<ShimMatching> found = new ArrayList<>();
        for (int number = 0; found.isEmpty(); number++) {
            for (int lifted = 0; lifted <= all; lifted++) {
                if (Integer.bitCount(lifted) == number && leastUncertain(lifted) <= uncertain) {
                    ShimMatching plan = lifted == all
                            ? full
                            : solve(lifted, Double.NEGATIVE_INFINITY).orElseThrow();
                    if (plan.total() / weights.uncertain == uncertain) {
                        found.add(plan);
                    }
                }
            }
        }
        return found;
    }

    /** How many valves stay uncertain at least: those that keep their shim and are so, and those that no shim helps. */
    private long leastUncertain(int lifted) {
        long sum = 0;
        for (int i = 0; i < slots; i++) {
            boolean certain = isFrozen(i, lifted) ? options[i].status[i] == CERTAIN : options[i].canBeCertain;
            sum += certain ? 0 : 1;
        }
        return sum;
    }

    private Optional<ShimMatching> solve(int lifted, double least) {
        return ShimMatching.solve(this, lifted, least);
    }

    /** The one plan that is best in every rank, ties included. */
    ShimMatching best() {
        List<ShimMatching> plans = least(withFewestLifted(), plan -> plan.total() / weights.change);
        if (scores != null) {
            plans = withBestScore(plans, scores);
        }
        plans = least(plans, ShimMatching::total);
        plans.forEach(ShimMatching::settleTies);
        return plans.stream().min(ShimMatching.byChoice()).orElseThrow();
    }

    private static List<ShimMatching> least(List<ShimMatching> plans, ToLongFunction<ShimMatching> rank) {
        long best = plans.stream().mapToLong(rank).min().orElseThrow();
        return plans.stream().filter(plan -> rank.applyAsLong(plan) == best).toList();
    }

    /**
     * Threshold search: the largest score that all slots can reach without loss in the ranks before, for each plan's camshafts.
     * The more is asked, the fewer plans are left, so halving finds it.
     */
    private List<ShimMatching> withBestScore(List<ShimMatching> plans, Scores given) {
        double[] thresholds = DoubleStream.concat(
                        Arrays.stream(given.supply).flatMapToDouble(Arrays::stream),
                        Arrays.stream(given.purchase).flatMapToDouble(Arrays::stream))
                .sorted()
                .distinct()
                .toArray();
        List<ShimMatching> best = plans;
        int reached = -1;
        for (ShimMatching plan : plans) {
            // all thresholds below low are reached, none from high on is
            int low = 0;
            int high = thresholds.length;
            Optional<ShimMatching> found = Optional.empty();
            while (low < high) {
                int middle = (low + high) >>> 1;
                Optional<ShimMatching> there = solve(plan.lifted(), thresholds[middle])
                        .filter(p -> p.total() / weights.change == plan.total() / weights.change);
                if (there.isPresent()) {
                    found = there;
                    low = middle + 1;
                } else {
                    high = middle;
                }
            }
            if (low > reached) {
                reached = low;
                best = new ArrayList<>();
            }
            if (low == reached) {
                best.add(found.orElse(plan));
            }
        }
        return best;
    }
}
