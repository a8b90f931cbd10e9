package dev.lash.plan;

import dev.lash.gauge.Fit;
import dev.lash.gauge.GaugeSet;
import dev.lash.measure.Length;
import dev.lash.measure.LengthDistribution;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.RejectedValueException;
import dev.lash.plan.LeafPlan.Figures;
import dev.lash.plan.LeafPlanner.Objective;
import dev.lash.plan.Strokes.Choice;
import dev.lash.plan.Strokes.LeftOut;
import dev.lash.plan.Strokes.Stroke;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.LongStream;
import org.jspecify.annotations.Nullable;

/**
 * Finds the best plan over the states that can be reached. Used once, by one thread.
 *
 * <p>A state is four places: the ends of the bracket among the bounds of the strokes, and the ends of what is believed among the
 * ends of their bands. Without tolerance and band the second pair follows from the first.
 */
final class PlanSearch {
    /** Differences below this are rounding; so is a probability. */
    static final double ROUNDING = 1e-12;

    static final int LEAST_LIMIT = 10_000;

    private final GaugeSet gauges;
    private final Stroke[] strokes;
    private final LeftOut leftOut;
    private final PlanGoal goal;
    private final Objective objective;
    private final long[] lows;
    private final long[] highs;
    private final int[] endOfLow;
    private final int[] endOfHigh;
    private final int[] goesAt;
    private final int[] dragLowAt;
    private final int[] dragHighAt;
    private final int[] refusesAt;
    private final int[] bandLowAt;
    private final int[] bandHighAt;
    private final double[] upToByPrior;
    private final double[] upToByDefault;
    private final Table known = new Table();
    private final int mostStates;
    private boolean coarse;
    private final Map<Node, LeafPlan> plans = new HashMap<>();

    /** A state, and the best from it on. */
    private static final class Node {
        final int low;
        final int high;
        final int from;
        final int to;
        boolean reached;
        int stroke = -1;
        double outside;
        double cost;
        double insertions;
        double worstCost;
        int worstInsertions;
        boolean certain;

        Node(int low, int high, int from, int to) {
            this.low = low;
            this.high = high;
            this.from = from;
            this.to = to;
        }
    }

    PlanSearch(
            GaugeSet gauges,
            Choice choice,
            LengthInterval present,
            PlanGoal goal,
            LengthDistribution prior,
            LengthDistribution byDefault,
            Length dragBand,
            Objective objective) {
        this.gauges = gauges;
        List<Stroke> strokes = choice.strokes();
        this.strokes = strokes.toArray(Stroke[]::new);
        this.leftOut = choice.leftOut();
        this.goal = goal;
        this.objective = objective;
        long low = Bounds.lower(present);
        long high = Bounds.upper(present);
        this.lows = LongStream.concat(
                        LongStream.of(low), strokes.stream().flatMapToLong(s -> LongStream.of(s.goes(), s.dragLow())))
                .filter(b -> b >= low)
                .sorted()
                .distinct()
                .toArray();
        this.highs = LongStream.concat(
                        LongStream.of(high),
                        strokes.stream().flatMapToLong(s -> LongStream.of(s.refuses(), s.dragHigh())))
                .filter(b -> b <= high)
                .sorted()
                .distinct()
                .toArray();
        long band = dragBand.nanometres();
        long[] ends = LongStream.concat(
                        LongStream.concat(
                                Arrays.stream(lows).map(Bounds::endOfLower),
                                Arrays.stream(highs).map(Bounds::endOfUpper)),
                        strokes.stream().flatMapToLong(s -> LongStream.of(s.thickness() - band, s.thickness() + band)))
                .sorted()
                .distinct()
                .toArray();
        this.endOfLow = Arrays.stream(lows)
                .mapToInt(b -> place(ends, Bounds.endOfLower(b)))
                .toArray();
        this.endOfHigh = Arrays.stream(highs)
                .mapToInt(b -> place(ends, Bounds.endOfUpper(b)))
                .toArray();
        this.upToByPrior = upTo(prior, ends);
        this.upToByDefault = upTo(byDefault, ends);
        int n = this.strokes.length;
        this.mostStates = Math.max(LEAST_LIMIT, n * n);
        this.goesAt = new int[n];
        this.dragLowAt = new int[n];
        this.dragHighAt = new int[n];
        this.refusesAt = new int[n];
        this.bandLowAt = new int[n];
        this.bandHighAt = new int[n];
        for (int i = 0; i < n; i++) {
            Stroke s = this.strokes[i];
            goesAt[i] = place(lows, Math.max(low, s.goes()));
            dragLowAt[i] = place(lows, Math.max(low, s.dragLow()));
            dragHighAt[i] = place(highs, Math.min(high, s.dragHigh()));
            refusesAt[i] = place(highs, Math.min(high, s.refuses()));
            bandLowAt[i] = place(ends, s.thickness() - band);
            bandHighAt[i] = place(ends, s.thickness() + band);
        }
    }

    /** The probability up to each end, or up to 0: a prior may reach below 0, where no clearance can be. */
    private static double[] upTo(LengthDistribution distribution, long[] ends) {
        double[] upTo = new double[ends.length];
        double before = 0;
        for (int i = 0; i < ends.length; i++) {
            if (ends[i] >= Bounds.NONE) {
                upTo[i] = 1;
                continue;
            }
            Length end = Length.ofNanometres(Math.max(0, ends[i]));
            double probability = distribution.probabilityUpTo(end);
            // written so that NaN is refused too
            if (!(probability >= -ROUNDING && probability <= 1 + ROUNDING)) {
                throw refused(probability + " up to " + end, "is not a probability");
            }
            if (probability < before - ROUNDING) {
                throw refused(probability + " up to " + end, "falls below the " + before + " of a smaller length");
            }
            before = Math.max(before, Math.min(1, probability));
            upTo[i] = before;
        }
        return upTo;
    }

    private static RejectedValueException refused(String value, String problem) {
        return new RejectedValueException(
                "prior", value, problem, "0 to 1, never falling as the length grows", "mend the cumulative function");
    }

    private static int place(long[] sorted, long value) {
        return Arrays.binarySearch(sorted, value);
    }

    LeafPlan plan() {
        return tree(solve(0, highs.length - 1, endOfLow[0], endOfHigh[highs.length - 1]));
    }

    /** How many states were looked at. */
    int states() {
        return known.size;
    }

    /**
     * The best from a bracket on, of which so much is believed; where that has no probability, all of the bracket is. So too once
     * there are too many states: brackets alone are at most as many as pairs of bounds.
     */
    private Node solve(int low, int high, int believedFrom, int believedTo) {
        int from = Math.max(believedFrom, endOfLow[low]);
        int to = Math.min(believedTo, endOfHigh[high]);
        double[] upTo = upTo(low, high);
        if (upTo == null || upTo[to] - upTo[from] <= ROUNDING) {
            from = endOfLow[low];
            to = endOfHigh[high];
        }
        Node node = known.get(key(low, high, from, to));
        if (node == null && known.size >= mostStates && (from != endOfLow[low] || to != endOfHigh[high])) {
            coarse = true;
            from = endOfLow[low];
            to = endOfHigh[high];
            node = known.get(key(low, high, from, to));
        }
        if (node == null) {
            node = best(new Node(low, high, from, to), upTo);
            known.put(key(low, high, from, to), node);
        }
        return node;
    }

    private long key(int low, int high, int from, int to) {
        return (((long) low * highs.length + high) * upToByPrior.length + from) * upToByPrior.length + to;
    }

    /** The cumulative probabilities of the prior, or of the default where the prior rules the bracket out, or none. */
    private double @Nullable [] upTo(int low, int high) {
        if (upToByPrior[endOfHigh[high]] - upToByPrior[endOfLow[low]] > ROUNDING) {
            return upToByPrior;
        }
        return upToByDefault[endOfHigh[high]] - upToByDefault[endOfLow[low]] > ROUNDING ? upToByDefault : null;
    }

    private Node best(Node state, double @Nullable [] upTo) {
        if (goal.isReachedBy(Bounds.interval(lows[state.low], highs[state.high]))) {
            return end(state, true);
        }
        // two nodes change places: a state tries many strokes
        Node best = new Node(state.low, state.high, state.from, state.to);
        Node tried = state;
        for (int i = 0; i < strokes.length; i++) {
            if (isOffered(i, state.low, state.high)) {
                offer(i, tried, upTo);
                if (isOfUse(tried) && (best.stroke < 0 || isBetter(tried, best))) {
                    Node free = best;
                    best = tried;
                    tried = free;
                }
            }
        }
        return best.stroke < 0 ? end(best, goal instanceof PlanGoal.OfSize && !leavesOut(best)) : best;
    }

    /** Whether a stroke that is not searched might go on from here. */
    private boolean leavesOut(Node state) {
        return leftOut.narrows(lows[state.low], highs[state.high]);
    }

    /** Narrowing is all that the goal of size wants; for the others a stroke that cannot lead to the goal is not made. */
    private boolean isOfUse(Node tried) {
        return goal instanceof PlanGoal.OfSize || tried.outside < 1 - ROUNDING;
    }

    private static Node end(Node node, boolean reached) {
        node.reached = reached;
        node.certain = reached;
        node.outside = reached ? 0 : 1;
        return node;
    }

    private boolean canGo(int i, int high) {
        return lows[goesAt[i]] <= highs[high];
    }

    private boolean canRefuse(int i, int low) {
        return lows[low] <= highs[refusesAt[i]];
    }

    private boolean canDrag(int i, int low, int high) {
        return lows[Math.max(low, dragLowAt[i])] <= highs[Math.min(high, dragHighAt[i])];
    }

    /** Each answer that the bracket allows narrows it. */
    private boolean isOffered(int i, int low, int high) {
        return (!canGo(i, high) || goesAt[i] > low)
                && (!canRefuse(i, low) || refusesAt[i] < high)
                && (!canDrag(i, low, high) || dragLowAt[i] > low || dragHighAt[i] < high);
    }

    private Node afterGoing(int i, Node state) {
        return solve(goesAt[i], state.high, Math.max(state.from, bandHighAt[i]), state.to);
    }

    private Node afterDragging(int i, Node state) {
        return solve(
                Math.max(state.low, dragLowAt[i]),
                Math.min(state.high, dragHighAt[i]),
                Math.max(state.from, bandLowAt[i]),
                Math.min(state.to, bandHighAt[i]));
    }

    private Node afterRefusing(int i, Node state) {
        return solve(state.low, refusesAt[i], state.from, Math.min(state.to, bandLowAt[i]));
    }

    /** Writes into the node, which holds its state already, what follows from a stroke. */
    private void offer(int i, Node node, double @Nullable [] upTo) {
        node.stroke = i;
        node.certain = true;
        node.outside = 0;
        node.cost = strokes[i].cost();
        node.insertions = 1;
        node.worstCost = 0;
        node.worstInsertions = 0;
        boolean go = canGo(i, node.high);
        boolean drag = canDrag(i, node.low, node.high);
        boolean refuse = canRefuse(i, node.low);
        double goes;
        double drags;
        double refuses;
        if (upTo == null) {
            // nothing is known of this bracket: every answer is as likely as another
            goes = drags = refuses = 1.0 / ((go ? 1 : 0) + (drag ? 1 : 0) + (refuse ? 1 : 0));
        } else {
            double from = upTo[node.from];
            double to = upTo[node.to];
            double bandFrom = Math.max(from, Math.min(to, upTo[bandLowAt[i]]));
            double bandTo = Math.max(from, Math.min(to, upTo[bandHighAt[i]]));
            goes = (to - bandTo) / (to - from);
            drags = (bandTo - bandFrom) / (to - from);
            refuses = (bandFrom - from) / (to - from);
        }
        if (go) {
            add(node, afterGoing(i, node), goes);
        }
        if (drag) {
            add(node, afterDragging(i, node), drags);
        }
        if (refuse) {
            add(node, afterRefusing(i, node), refuses);
        }
        node.worstCost += strokes[i].cost();
        node.worstInsertions += 1;
    }

    private static void add(Node node, Node answer, double probability) {
        node.outside += probability * answer.outside;
        node.cost += probability * answer.cost;
        node.insertions += probability * answer.insertions;
        node.worstCost = Math.max(node.worstCost, answer.worstCost);
        node.worstInsertions = Math.max(node.worstInsertions, answer.worstInsertions);
        node.certain &= answer.certain;
    }

    /** Strictly better; of equals the earlier stands, so that ties go to fewer leaves, then to the thinner stack. */
    private boolean isBetter(Node a, Node b) {
        boolean mean = objective == Objective.EXPECTED;
        int order = compare(a.outside, b.outside);
        if (order == 0) {
            order = mean ? compare(a.cost, b.cost) : compare(a.worstCost, b.worstCost);
        }
        if (order == 0) {
            order = mean ? compare(a.worstCost, b.worstCost) : compare(a.cost, b.cost);
        }
        if (order == 0) {
            order = Integer.compare(strokes[a.stroke].size(), strokes[b.stroke].size());
        }
        return order < 0;
    }

    private static int compare(double a, double b) {
        double difference = a - b;
        return Math.abs(difference) <= ROUNDING * (1 + Math.abs(b)) ? 0 : (int) Math.signum(difference);
    }

    private LeafPlan tree(Node node) {
        LeafPlan made = plans.get(node);
        if (made != null) {
            return made;
        }
        Map<Fit, LeafPlan> answers = new EnumMap<>(Fit.class);
        int i = node.stroke;
        if (i >= 0) {
            if (canGo(i, node.high)) {
                answers.put(Fit.GOES, tree(afterGoing(i, node)));
            }
            if (canDrag(i, node.low, node.high)) {
                answers.put(Fit.DRAGS, tree(afterDragging(i, node)));
            }
            if (canRefuse(i, node.low)) {
                answers.put(Fit.REFUSES, tree(afterRefusing(i, node)));
            }
        }
        LeafPlan plan = new LeafPlan(
                Bounds.interval(lows[node.low], highs[node.high]),
                goal,
                node.reached,
                !coarse && !leavesOut(node),
                i < 0 ? null : strokes[i].stack(gauges),
                answers,
                new Figures(
                        node.insertions, node.cost, node.worstInsertions, node.worstCost, node.outside, node.certain));
        plans.put(node, plan);
        return plan;
    }

    /** From the key of a state to its best, without an object for each key: a plan may look up a million states. */
    private static final class Table {
        private long[] keys = new long[64];
        private @Nullable Node[] nodes = new Node[keys.length];
        private int size;

        @Nullable
        Node get(long key) {
            return nodes[slot(key)];
        }

        void put(long key, Node node) {
            if (2 * size >= keys.length) {
                grow();
            }
            int slot = slot(key);
            keys[slot] = key;
            nodes[slot] = node;
            size++;
        }

        /** Where the key is, or where it would go: the table is never more than half full. */
        private int slot(long key) {
            long mixed = key * 0x9E3779B97F4A7C15L;
            int slot = (int) (mixed >>> 32) & (keys.length - 1);
            while (nodes[slot] != null && keys[slot] != key) {
                slot = (slot + 1) & (keys.length - 1);
            }
            return slot;
        }

        private void grow() {
            long[] oldKeys = keys;
            @Nullable Node[] oldNodes = nodes;
            keys = new long[2 * oldKeys.length];
            nodes = new Node[keys.length];
            for (int i = 0; i < oldKeys.length; i++) {
                Node node = oldNodes[i];
                if (node != null) {
                    int slot = slot(oldKeys[i]);
                    keys[slot] = oldKeys[i];
                    nodes[slot] = node;
                }
            }
        }
    }
}
