package dev.lash.plan;

import static java.util.Objects.requireNonNull;

import dev.lash.engine.ClearanceWindow;
import dev.lash.gauge.Bracket;
import dev.lash.gauge.Fit;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.StandardGaugeSet;
import dev.lash.gauge.Trial;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Stream;

/**
 * The leaf or stack to offer next.
 *
 * @param leaf what to offer
 * @param owned whether the gauge set has it; if not, it is what to borrow or buy
 */
public record NextLeaf(LeafStack leaf, boolean owned) implements Serializable {

    /**
     * Creates the proposal.
     *
     * @param leaf what to offer
     * @param owned whether the gauge set has it; if not, it is what to borrow or buy
     */
    public NextLeaf {
        requireNonNull(leaf, "leaf");
    }

    /**
     * What to offer next to an undecided reading: the first stroke of {@link LeafPlanner}'s plan, with its defaults. Where no owned
     * leaf leads on whatever it answers, an owned one that may settle the verdict: the one that would leave the least of the
     * bracket's clearances undecided (without a largest one, of those to twice the upper limit), then with the fewest answers
     * that would still be undecided, then of the fewest leaves, then nearest to a limit of the window; where there is none, the
     * leaf to borrow.
     *
     * @param bracket the reading so far
     * @param window the window it is held against
     * @param gauges the leaves that are owned
     * @return the proposal, or empty when the verdict is certain or no leaf helps
     */
    public static Optional<NextLeaf> towardsVerdict(Bracket bracket, ClearanceWindow window, GaugeSet gauges) {
        return planned(bracket, window, gauges, LeafPlanner.withDefaults())
                .or(() -> Verdict.of(bracket.interval(), window) == Verdict.UNDECIDED
                        ? lookAhead(bracket, window, gauges)
                        : Optional.empty());
    }

    /**
     * The first stroke of a plan towards the verdict. A planner with a prior, such as what a forecast expects of the reading, may
     * begin elsewhere than one without.
     *
     * @param bracket the reading so far
     * @param window the window it is held against
     * @param gauges the leaves that are owned
     * @param planner how the strokes are planned
     * @return an owned leaf, or empty when the verdict is certain or no plan leads to it whatever the leaf answers
     * @throws dev.lash.measure.RejectedValueException if the planner's prior has a value that no cumulative probability can have
     */
    public static Optional<NextLeaf> planned(
            Bracket bracket, ClearanceWindow window, GaugeSet gauges, LeafPlanner planner) {
        requireNonNull(planner, "planner");
        if (Verdict.of(bracket.interval(), window) != Verdict.UNDECIDED) {
            return Optional.empty();
        }
        return planner.plan(gauges, bracket, PlanGoal.verdict(window))
                .next()
                .filter(leaf -> !isTried(bracket, leaf) && mayNarrow(bracket, leaf))
                .map(leaf -> new NextLeaf(leaf, true));
    }

    /** The planner knows the interval only: beside leaves that drag, an answer that would narrow it may contradict them. */
    private static boolean mayNarrow(Bracket bracket, LeafStack leaf) {
        return outcomes(bracket, leaf).stream()
                .anyMatch(after -> bracket.interval().encloses(after) && !after.equals(bracket.interval()));
    }

    /** The planner takes a drag for a narrower bracket; where several leaves drag it is none, and the same leaf would come again. */
    private static boolean isTried(Bracket bracket, LeafStack leaf) {
        return bracket.trials().stream().anyMatch(trial -> trial.leaf().equals(leaf));
    }

    private static Optional<NextLeaf> lookAhead(Bracket bracket, ClearanceWindow window, GaugeSet gauges) {
        Predicate<LengthInterval> decided = i -> Verdict.of(i, window) != Verdict.UNDECIDED;
        Function<LeafStack, Length> toLimit = leaf -> Length.min(
                leaf.thickness().minus(window.lower()).abs(),
                leaf.thickness().minus(window.upper()).abs());
        Length top = window.upper().times(2);
        // a leaf that can be had; where none helps, the limit itself, to be made up of leaves of the other system
        return best(bracket, gauges, loose(gauges), decided, top, toLimit)
                .or(() -> best(bracket, gauges, limits(window), decided, top, toLimit));
    }

    private static List<LeafStack> limits(ClearanceWindow window) {
        return Stream.of(window.lower(), window.upper())
                .filter(limit -> limit.signum() > 0)
                .map(limit -> LeafStack.of(new Leaf(limit)))
                .toList();
    }

    /**
     * The leaf that brings a reading nearest to some goal on its interval, such as "a shim is certain", in one trial: that after
     * which the fewest of its clearances would miss the goal.
     *
     * @param bracket the reading so far, with both ends
     * @param reached whether an interval has reached the goal
     * @param gauges the leaves that are owned
     * @return the proposal, or empty when no leaf would reach the goal on any outcome
     */
    public static Optional<NextLeaf> towards(Bracket bracket, Predicate<LengthInterval> reached, GaugeSet gauges) {
        LengthInterval interval = bracket.interval();
        if (!interval.isBounded()) {
            return Optional.empty();
        }
        Length low = interval.lower().orElseThrow();
        Length high = interval.upper().orElseThrow();
        Length middle = Length.ofNanometres((low.nanometres() + high.nanometres()) / 2);
        return best(
                bracket,
                gauges,
                loose(gauges),
                reached,
                high,
                leaf -> leaf.thickness().minus(middle).abs());
    }

    /** What can be borrowed or bought one by one. */
    private static List<LeafStack> loose(GaugeSet gauges) {
        return StandardGaugeSet.looseLeaves(gauges.unit()).stream()
                .map(LeafStack::of)
                .toList();
    }

    private static Optional<NextLeaf> best(
            Bracket bracket,
            GaugeSet gauges,
            List<LeafStack> others,
            Predicate<LengthInterval> reached,
            Length top,
            Function<LeafStack, Length> distance) {
        Comparator<LeafStack> order = Comparator.<LeafStack>comparingLong(leaf -> missed(bracket, leaf, reached, top))
                .thenComparingLong(leaf -> outcomes(bracket, leaf).stream()
                        .filter(reached.negate())
                        .count())
                .thenComparingInt(LeafStack::size)
                .thenComparing(distance)
                .thenComparing(Comparator.naturalOrder());
        Predicate<LeafStack> mayReach = leaf ->
                !isTried(bracket, leaf) && outcomes(bracket, leaf).stream().anyMatch(reached);
        Optional<NextLeaf> owned = new Strokes(gauges, bracket.rule(), StrokeCost.USUAL)
                .touching(bracket.interval()).stream()
                        .map(stroke -> stroke.stack(gauges))
                        .filter(mayReach)
                        .min(order)
                        .map(leaf -> new NextLeaf(leaf, true));
        return owned.or(
                () -> others.stream().filter(mayReach).min(order).map(leaf -> new NextLeaf(leaf, gauges.owns(leaf))));
    }

    /**
     * How many nanometres of the bracket, up to its end or to {@code top}, lie where the leaf goes though that misses the goal, or
     * does not go though that does. Counting answers alone would favour a leaf at an end of the bracket, whose one answer that
     * reaches the goal hardly any clearance gives.
     */
    private static long missed(Bracket bracket, LeafStack leaf, Predicate<LengthInterval> reached, Length top) {
        long low = bracket.interval().lower().map(Length::nanometres).orElse(0L);
        long high = Math.max(low, bracket.interval().upper().orElse(top).nanometres());
        long at = Math.max(low, Math.min(high, leaf.thickness().nanometres()));
        return (misses(bracket, leaf, Fit.GOES, reached) ? high - at : 0)
                + (misses(bracket, leaf, Fit.REFUSES, reached) ? at - low : 0);
    }

    private static boolean misses(Bracket bracket, LeafStack leaf, Fit fit, Predicate<LengthInterval> reached) {
        return bracket.with(new Trial(leaf, fit))
                .bracket()
                .filter(after -> !reached.test(after.interval()))
                .isPresent();
    }

    /** The intervals that a trial of this leaf may leave; a forced leaf reads as one that refuses. */
    private static List<LengthInterval> outcomes(Bracket bracket, LeafStack leaf) {
        List<LengthInterval> possible = new ArrayList<>(3);
        for (Fit fit : List.of(Fit.GOES, Fit.DRAGS, Fit.REFUSES)) {
            bracket.with(new Trial(leaf, fit)).bracket().ifPresent(b -> possible.add(b.interval()));
        }
        return possible;
    }
}
