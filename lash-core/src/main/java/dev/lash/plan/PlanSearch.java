package dev.lash.plan;

import dev.lash.gauge.Fit;
import dev.lash.gauge.GaugeSet;
import dev.lash.measure.Length;
import dev.lash.measure.LengthDistribution;
import dev.lash.measure.LengthInterval;
import dev.lash.plan.LeafPlan.Figures;
import dev.lash.plan.LeafPlanner.Objective;
import dev.lash.plan.Strokes.Stroke;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.LongStream;
import org.jspecify.annotations.Nullable;

/** Finds the best plan over the brackets that can be reached. Used once, by one thread. */
final class PlanSearch {
    /** Differences below this are rounding. */
    static final double ROUNDING = 1e-12;

    private final GaugeSet gauges;
    private final Stroke[] strokes;
    private final PlanGoal goal;
    private final Objective objective;
    private final long[] lows;
    private final long[] highs;
    private final double[] upToLow;
    private final double[] upToHigh;
    private final double[] upToBandLow;
    private final double[] upToBandHigh;
    private final int[] goesAt;
    private final int[] dragLowAt;
    private final int[] dragHighAt;
    private final int[] refusesAt;
    private final @Nullable Node[] nodes;
    private final Map<Node, LeafPlan> plans = new HashMap<>();

    /** The best from one bracket on. */
    private static final class Node {
        final int low;
        final int high;
        boolean reached;
        int stroke = -1;
        double outside;
        double cost;
        double insertions;
        double worstCost;
        int worstInsertions;
        boolean certain;

        Node(int low, int high) {
            this.low = low;
            this.high = high;
        }
    }

    PlanSearch(
            GaugeSet gauges,
            List<Stroke> strokes,
            LengthInterval present,
            PlanGoal goal,
            LengthDistribution belief,
            Length dragBand,
            Objective objective) {
        this.gauges = gauges;
        this.strokes = strokes.toArray(Stroke[]::new);
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
        this.upToLow = Arrays.stream(lows)
                .mapToDouble(b -> b <= 0 ? 0 : upTo(belief, Math.floorDiv(b, 2L)))
                .toArray();
        this.upToHigh = Arrays.stream(highs)
                .mapToDouble(b -> b >= Bounds.NONE ? 1 : upTo(belief, Math.floorDiv(b + 1, 2L)))
                .toArray();
        long band = dragBand.nanometres();
        int n = this.strokes.length;
        this.upToBandLow = new double[n];
        this.upToBandHigh = new double[n];
        this.goesAt = new int[n];
        this.dragLowAt = new int[n];
        this.dragHighAt = new int[n];
        this.refusesAt = new int[n];
        for (int i = 0; i < n; i++) {
            Stroke s = this.strokes[i];
            upToBandLow[i] = upTo(belief, s.thickness() - band);
            upToBandHigh[i] = band == 0 ? upToBandLow[i] : upTo(belief, s.thickness() + band);
            goesAt[i] = place(lows, Math.max(low, s.goes()));
            dragLowAt[i] = place(lows, Math.max(low, s.dragLow()));
            dragHighAt[i] = place(highs, Math.min(high, s.dragHigh()));
            refusesAt[i] = place(highs, Math.min(high, s.refuses()));
        }
        this.nodes = new Node[lows.length * highs.length];
    }

    private static double upTo(LengthDistribution belief, long nanometres) {
        return belief.probabilityUpTo(Length.ofNanometres(nanometres));
    }

    private static int place(long[] sorted, long bound) {
        return Arrays.binarySearch(sorted, bound);
    }

    LeafPlan plan() {
        return tree(solve(0, highs.length - 1));
    }

    private Node solve(int low, int high) {
        int at = low * highs.length + high;
        Node known = nodes[at];
        if (known != null) {
            return known;
        }
        Node node = new Node(low, high);
        nodes[at] = node;
        if (goal.isReachedBy(Bounds.interval(lows[low], highs[high]))) {
            end(node, true);
            return node;
        }
        Node best = null;
        for (int i = 0; i < strokes.length; i++) {
            if (isOffered(i, low, high)) {
                Node tried = offer(i, low, high);
                if (isOfUse(tried) && (best == null || isBetter(tried, best))) {
                    best = tried;
                }
            }
        }
        if (best == null) {
            end(node, goal instanceof PlanGoal.OfSize);
            return node;
        }
        nodes[at] = best;
        return best;
    }

    /** Narrowing is all that the goal of size wants; for the others a stroke that cannot lead to the goal is not made. */
    private boolean isOfUse(Node tried) {
        return goal instanceof PlanGoal.OfSize || tried.outside < 1 - ROUNDING;
    }

    private static void end(Node node, boolean reached) {
        node.reached = reached;
        node.certain = reached;
        node.outside = reached ? 0 : 1;
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

    private Node offer(int i, int low, int high) {
        Node node = new Node(low, high);
        node.stroke = i;
        node.certain = true;
        boolean go = canGo(i, high);
        boolean drag = canDrag(i, low, high);
        boolean refuse = canRefuse(i, low);
        double from = upToLow[low];
        double to = upToHigh[high];
        double goes = go ? to - Math.min(to, Math.max(from, upToBandHigh[i])) : 0;
        double refuses = refuse ? Math.max(from, Math.min(to, upToBandLow[i])) - from : 0;
        double drags = drag ? Math.max(0, to - from - goes - refuses) : 0;
        double mass = goes + drags + refuses;
        if (mass > 0) {
            goes /= mass;
            drags /= mass;
            refuses /= mass;
        } else {
            // the prior rules this bracket out: every answer is as good as another
            double each = 1.0 / ((go ? 1 : 0) + (drag ? 1 : 0) + (refuse ? 1 : 0));
            goes = go ? each : 0;
            drags = drag ? each : 0;
            refuses = refuse ? each : 0;
        }
        if (go) {
            add(node, solve(goesAt[i], high), goes);
        }
        if (drag) {
            add(node, solve(Math.max(low, dragLowAt[i]), Math.min(high, dragHighAt[i])), drags);
        }
        if (refuse) {
            add(node, solve(low, refusesAt[i]), refuses);
        }
        node.cost += strokes[i].cost();
        node.insertions += 1;
        node.worstCost += strokes[i].cost();
        node.worstInsertions += 1;
        return node;
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
        double[] first = order(a);
        double[] second = order(b);
        for (int k = 0; k < first.length; k++) {
            double difference = first[k] - second[k];
            if (Math.abs(difference) > ROUNDING * (1 + Math.abs(second[k]))) {
                return difference < 0;
            }
        }
        return false;
    }

    private double[] order(Node node) {
        boolean mean = objective == Objective.EXPECTED;
        return new double[] {
            node.outside,
            mean ? node.cost : node.worstCost,
            mean ? node.worstCost : node.cost,
            strokes[node.stroke].size(),
            strokes[node.stroke].thickness()
        };
    }

    private LeafPlan tree(Node node) {
        LeafPlan known = plans.get(node);
        if (known != null) {
            return known;
        }
        Map<Fit, LeafPlan> answers = new EnumMap<>(Fit.class);
        int i = node.stroke;
        if (i >= 0) {
            if (canGo(i, node.high)) {
                answers.put(Fit.GOES, tree(solve(goesAt[i], node.high)));
            }
            if (canDrag(i, node.low, node.high)) {
                answers.put(
                        Fit.DRAGS, tree(solve(Math.max(node.low, dragLowAt[i]), Math.min(node.high, dragHighAt[i]))));
            }
            if (canRefuse(i, node.low)) {
                answers.put(Fit.REFUSES, tree(solve(node.low, refusesAt[i])));
            }
        }
        LeafPlan plan = new LeafPlan(
                Bounds.interval(lows[node.low], highs[node.high]),
                goal,
                node.reached,
                i < 0 ? null : strokes[i].stack(gauges),
                answers,
                new Figures(
                        node.insertions, node.cost, node.worstInsertions, node.worstCost, node.outside, node.certain));
        plans.put(node, plan);
        return plan;
    }
}
