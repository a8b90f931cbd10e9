package dev.lash.plan;

import dev.lash.engine.ClearanceWindow;
import dev.lash.gauge.Fit;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.Trial;
import dev.lash.measure.Length;
import dev.lash.measure.LengthDistribution;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.plan.LeafPlanner.Objective;
import java.util.List;
import java.util.function.BiFunction;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.Tuple;

/** Random planning problems, small enough to be searched exhaustively. Leaves and limits often meet. */
final class PlanCases {
    private PlanCases() {}

    /** A cumulative function that is linear between knots 10 um apart, the first of them below 0; some steps may be empty. */
    record Piecewise(List<Integer> weights) implements LengthDistribution {
        private static final int KNOT = 10_000;
        private static final int FIRST = -1;

        @Override
        public double probabilityUpTo(Length length) {
            double all = 0;
            double below = 0;
            for (int i = 0; i < weights.size(); i++) {
                double share = ((double) length.nanometres() / KNOT) - FIRST - i;
                all += weights.get(i);
                below += weights.get(i) * Math.max(0, Math.min(1, share));
            }
            return below / all;
        }
    }

    /**
     * One problem.
     *
     * @param gauges the leaves
     * @param rule how trials are read
     * @param goal when to stop
     * @param prior what is thought of the clearance
     * @param band the drag band
     * @param cost what strokes cost
     * @param objective what is minimised
     * @param present the clearances that are possible
     */
    record PlanCase(
            GaugeSet gauges,
            ReadingRule rule,
            PlanGoal goal,
            Piecewise prior,
            Length band,
            StrokeCost cost,
            Objective objective,
            LengthInterval present) {
        LeafPlan plan() {
            return LeafPlanner.withDefaults()
                    .withPrior(prior)
                    .withDragBand(band)
                    .withCost(cost)
                    .withObjective(objective)
                    .plan(gauges, present, rule, goal);
        }

        ExhaustivePlan exhaustive() {
            return new ExhaustivePlan(
                    new ExhaustivePlan.Setting(gauges, rule, goal, prior, this::uniform, band, cost, objective));
        }

        /** The default prior, as the planner documents it. */
        double uniform(Length length) {
            double thickest =
                    gauges.leaves().get(gauges.leaves().size() - 1).thickness().nanometres();
            double top = goal instanceof PlanGoal.OfVerdict verdict
                    ? 2.0 * verdict.window().upper().nanometres()
                    : 1.25 * thickest;
            return Math.max(0, Math.min(1, length.nanometres() / Math.max(1, top)));
        }
    }

    static Length micrometres(int micrometres) {
        return Length.ofNanometres(1_000L * micrometres);
    }

    private static GaugeSet set(List<Leaf> leaves, int stacked) {
        return new GaugeSet(leaves, stacked, Length.ZERO, Length.ZERO, LengthUnit.MILLIMETRE);
    }

    /** Up to {@code single} leaves without stacks, fewer with. */
    static Arbitrary<GaugeSet> gauges(int single, int pairs, int triples) {
        return Arbitraries.integers().between(1, 3).flatMap(stacked -> {
            int most = List.of(single, pairs, triples).get(stacked - 1);
            return Arbitraries.of(5, 10)
                    .flatMap(step -> Arbitraries.integers()
                            .between(2, 16)
                            .map(i -> new Leaf(micrometres(i * step)))
                            .list()
                            .uniqueElements()
                            .ofMinSize(1)
                            .ofMaxSize(most)
                            .map(leaves -> set(leaves, stacked)));
        });
    }

    /** Windows with each limit where a stroke can prove its side, on a grid, or anywhere. */
    static Arbitrary<PlanGoal> verdicts(GaugeSet gauges, ReadingRule rule) {
        Arbitrary<Integer> anywhere = Arbitraries.integers().between(0, 150);
        Arbitrary<Length> onLeaves = Combinators.combine(
                        Arbitraries.of(gauges.stacks()), Arbitraries.of(Fit.GOES, Fit.DRAGS, Fit.REFUSES))
                .as((stack, fit) -> rule.claim(new Trial(stack, fit)))
                .map(claim -> claim.lower().or(claim::upper).orElseThrow())
                .map(limit -> Length.max(limit, Length.ZERO));
        Arbitrary<Length> limits = Arbitraries.frequencyOf(
                Tuple.of(4, onLeaves),
                Tuple.of(1, anywhere.map(PlanCases::micrometres)),
                Tuple.of(1, anywhere.map(i -> micrometres(i / 5 * 5))));
        return Combinators.combine(limits, limits)
                .as((a, b) -> PlanGoal.verdict(new ClearanceWindow(Length.min(a, b), Length.max(a, b))));
    }

    static Arbitrary<ReadingRule> rules() {
        Arbitrary<Length> tolerances = Arbitraries.frequencyOf(
                        Tuple.of(1, Arbitraries.just(0)),
                        Tuple.of(2, Arbitraries.integers().between(1, 6)))
                .map(PlanCases::micrometres);
        Arbitrary<Length> allowances = Arbitraries.frequencyOf(
                        Tuple.of(1, Arbitraries.just(0)),
                        Tuple.of(2, Arbitraries.integers().between(1, 10)))
                .map(PlanCases::micrometres);
        return Arbitraries.frequencyOf(
                Tuple.of(1, Arbitraries.just(ReadingRule.simple())),
                Tuple.of(3, Combinators.combine(tolerances, allowances).as(ReadingRule::guarded)));
    }

    /** Priors of 200 um and more, a third of them with holes. */
    static Arbitrary<Piecewise> priors() {
        Arbitrary<Integer> full = Arbitraries.integers().between(1, 20);
        Arbitrary<Integer> holed = Arbitraries.frequencyOf(Tuple.of(1, Arbitraries.just(0)), Tuple.of(1, full));
        return Arbitraries.frequencyOf(Tuple.of(2, full), Tuple.of(1, holed))
                .list()
                .ofSize(22)
                .map(Piecewise::new);
    }

    static Arbitrary<StrokeCost> costs() {
        Arbitrary<Integer> more = Arbitraries.integers().between(0, 4);
        return Arbitraries.oneOf(
                Arbitraries.of(StrokeCost.EQUAL, StrokeCost.USUAL),
                Combinators.combine(more, more, more)
                        .as((a, b, c) -> new StrokeCost(1 + a, 1 + a + b, 1.0 + a + b + c)));
    }

    /** Nothing known, any interval, and what a leaf that drags leaves. */
    private static Arbitrary<LengthInterval> presents(GaugeSet gauges, ReadingRule rule) {
        Arbitrary<Length> ends = Arbitraries.integers().between(0, 60).map(i -> micrometres(5 * i));
        Arbitrary<LengthInterval> bounded = Combinators.combine(
                        ends, ends, Arbitraries.of(true, false), Arbitraries.of(true, false))
                .as((a, b, lowerIncluded, upperIncluded) -> a.equals(b)
                        ? LengthInterval.point(a)
                        : LengthInterval.of(Length.min(a, b), lowerIncluded, Length.max(a, b), upperIncluded));
        return Arbitraries.oneOf(
                Arbitraries.just(LengthInterval.any()),
                Arbitraries.just(LengthInterval.any()),
                bounded,
                ends.map(LengthInterval::above),
                ends.map(end -> LengthInterval.below(end.plus(micrometres(5)))),
                Arbitraries.of(gauges.leaves()).map(leaf -> rule.claim(Trial.of(leaf, Fit.DRAGS))));
    }

    /** Whole problems for one kind of goal. */
    static Arbitrary<PlanCase> cases(
            Arbitrary<GaugeSet> sets, BiFunction<GaugeSet, ReadingRule, Arbitrary<PlanGoal>> goals) {
        Arbitrary<Length> bands = Arbitraries.oneOf(
                        Arbitraries.just(0), Arbitraries.integers().between(1, 6))
                .map(PlanCases::micrometres);
        return Combinators.combine(sets, rules())
                .flatAs((gauges, rule) -> Combinators.combine(
                                goals.apply(gauges, rule),
                                priors(),
                                bands,
                                costs(),
                                Arbitraries.of(Objective.class),
                                presents(gauges, rule))
                        .as((goal, prior, band, cost, objective, present) ->
                                new PlanCase(gauges, rule, goal, prior, band, cost, objective, present)));
    }
}
