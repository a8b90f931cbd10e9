package dev.lash.plan;

import dev.lash.gauge.Fit;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.Trial;
import dev.lash.measure.Length;
import dev.lash.measure.LengthDistribution;
import dev.lash.measure.LengthInterval;
import dev.lash.plan.LeafPlanner.Objective;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The model of {@link LeafPlanner} written down a second time, without any of its shortcuts: every stack of the set is tried in
 * every state, states are intervals, and what a trial tells is asked of the {@link ReadingRule} itself.
 */
final class ExhaustivePlan {
    private static final double NOTHING = 1e-12;

    /**
     * What there is to plan with.
     *
     * @param prior where a clearance is thought to lie
     * @param byDefault what takes its place where it rules a bracket out
     */
    record Setting(
            GaugeSet gauges,
            ReadingRule rule,
            PlanGoal goal,
            LengthDistribution prior,
            LengthDistribution byDefault,
            Length band,
            StrokeCost cost,
            Objective objective) {}

    /**
     * The figures of the best plan from a state on.
     *
     * @param outside the probability of ending outside the goal
     * @param cost the mean cost
     * @param worst the largest cost
     */
    record Best(double outside, double cost, double worst) {}

    private record State(LengthInterval bracket, LengthInterval believed) {}

    private final Setting setting;
    private final List<LeafStack> stacks;
    private final Map<State, Best> known = new HashMap<>();

    ExhaustivePlan(Setting setting) {
        this.setting = setting;
        this.stacks = setting.gauges().stacks();
    }

    Best from(LengthInterval present) {
        LengthInterval start = asBracket(present).orElseThrow();
        return best(state(start, Optional.of(start)));
    }

    int states() {
        return known.size();
    }

    /** A clearance is never below 0, and "at least 0" says nothing. */
    private static Optional<LengthInterval> asBracket(LengthInterval interval) {
        return interval.intersection(LengthInterval.atLeast(Length.ZERO)).map(cut -> {
            boolean hasLower = cut.lower().orElseThrow().signum() > 0 || !cut.lowerIncluded();
            if (hasLower) {
                return cut;
            }
            return cut.upper()
                    .map(upper -> cut.upperIncluded() ? LengthInterval.atMost(upper) : LengthInterval.below(upper))
                    .orElse(LengthInterval.any());
        });
    }

    private static double mass(LengthDistribution of, LengthInterval in) {
        return in.intersection(LengthInterval.atLeast(Length.ZERO))
                .map(of::probabilityOf)
                .orElse(0.0);
    }

    /** The prior where it has anything to say, else the default, else nothing. */
    private Optional<LengthDistribution> measure(LengthInterval bracket) {
        return List.of(setting.prior(), setting.byDefault()).stream()
                .filter(distribution -> mass(distribution, bracket) > NOTHING)
                .findFirst();
    }

    private State state(LengthInterval bracket, Optional<LengthInterval> told) {
        return new State(
                bracket,
                told.flatMap(bracket::intersection)
                        .filter(believed -> measure(bracket)
                                .filter(m -> mass(m, believed) > NOTHING)
                                .isPresent())
                        .orElse(bracket));
    }

    private Best best(State state) {
        Best best = known.get(state);
        if (best == null) {
            best = search(state);
            known.put(state, best);
        }
        return best;
    }

    private Best search(State state) {
        if (setting.goal().isReachedBy(state.bracket())) {
            return new Best(0, 0, 0);
        }
        boolean sizeWanted = setting.goal() instanceof PlanGoal.OfSize;
        List<Best> tried = new ArrayList<>();
        for (LeafStack stack : stacks) {
            Map<Fit, LengthInterval> answers = answers(state.bracket(), stack);
            if (answers.values().stream().noneMatch(state.bracket()::equals)) {
                tried.add(offer(state, stack, answers));
            }
        }
        return tried.stream()
                .filter(best -> sizeWanted || best.outside() < 1 - NOTHING)
                .reduce((a, b) -> isBetter(b, a) ? b : a)
                .orElse(new Best(sizeWanted ? 0 : 1, 0, 0));
    }

    private Map<Fit, LengthInterval> answers(LengthInterval bracket, LeafStack stack) {
        Map<Fit, LengthInterval> answers = new EnumMap<>(Fit.class);
        for (Fit fit : List.of(Fit.GOES, Fit.DRAGS, Fit.REFUSES)) {
            bracket.intersection(setting.rule().claim(new Trial(stack, fit)))
                    .flatMap(ExhaustivePlan::asBracket)
                    .ifPresent(after -> answers.put(fit, after));
        }
        return answers;
    }

    private Best offer(State state, LeafStack stack, Map<Fit, LengthInterval> answers) {
        Length low = stack.thickness().minus(setting.band());
        Length high = stack.thickness().plus(setting.band());
        Map<Fit, LengthInterval> felt = Map.of(
                Fit.GOES, LengthInterval.above(high),
                Fit.DRAGS, LengthInterval.closed(low, high),
                Fit.REFUSES, LengthInterval.below(low));
        Optional<LengthDistribution> measure = measure(state.bracket());
        double outside = 0;
        double cost = 0;
        double worst = 0;
        for (Map.Entry<Fit, LengthInterval> answer : answers.entrySet()) {
            Optional<LengthInterval> told = felt.get(answer.getKey()).intersection(state.believed());
            double probability = measure.map(m -> told.map(t -> mass(m, t)).orElse(0.0) / mass(m, state.believed()))
                    .orElse(1.0 / answers.size());
            Best after = best(state(answer.getValue(), told));
            outside += probability * after.outside();
            cost += probability * after.cost();
            worst = Math.max(worst, after.worst());
        }
        double stroke = costOf(stack);
        return new Best(outside, cost + stroke, worst + stroke);
    }

    private double costOf(LeafStack stack) {
        StrokeCost cost = setting.cost();
        return List.of(cost.one(), cost.two(), cost.three()).get(stack.size() - 1);
    }

    private boolean isBetter(Best a, Best b) {
        Comparator<Best> byOutside = (x, y) -> compare(x.outside(), y.outside());
        Comparator<Best> byCost = (x, y) -> compare(x.cost(), y.cost());
        Comparator<Best> byWorst = (x, y) -> compare(x.worst(), y.worst());
        boolean mean = setting.objective() == Objective.EXPECTED;
        return byOutside
                        .thenComparing(mean ? byCost : byWorst)
                        .thenComparing(mean ? byWorst : byCost)
                        .compare(a, b)
                < 0;
    }

    private static int compare(double a, double b) {
        return Math.abs(a - b) <= NOTHING * (1 + Math.abs(b)) ? 0 : Double.compare(a, b);
    }
}
