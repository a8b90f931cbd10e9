package dev.lash.plan;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.engine.ClearanceWindow;
import dev.lash.gauge.Bracket;
import dev.lash.gauge.Evidence;
import dev.lash.gauge.Fit;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.Trial;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.Combinators;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;

/** The leaf that is proposed, against every other that could have been. Small numbers, so that leaves and limits meet. */
class NextLeafProperties {
    private static Length steps(int steps) {
        return Length.ofNanometres(10_000L * steps);
    }

    @Provide
    Arbitrary<GaugeSet> gauges() {
        return Combinators.combine(
                        Arbitraries.integers()
                                .between(1, 14)
                                .map(i -> new Leaf(steps(i)))
                                .list()
                                .ofMinSize(1)
                                .ofMaxSize(5),
                        Arbitraries.integers().between(1, 3))
                .as((leaves, most) -> new GaugeSet(leaves, most, Length.ZERO, Length.ZERO, LengthUnit.MILLIMETRE));
    }

    @Provide
    Arbitrary<List<Trial>> trials() {
        return Combinators.combine(Arbitraries.integers().between(1, 14), Arbitraries.of(Fit.class))
                .as((i, fit) -> Trial.of(new Leaf(steps(i)), fit))
                .list()
                .ofMaxSize(4);
    }

    @Provide
    Arbitrary<ReadingRule> rules() {
        Arbitrary<Length> figures = Arbitraries.of(0, 3, 5, 10, 20).map(i -> Length.ofNanometres(1_000L * i));
        return Arbitraries.oneOf(
                Arbitraries.just(ReadingRule.simple()),
                Combinators.combine(figures, figures).as(ReadingRule::guarded));
    }

    @Provide
    Arbitrary<ClearanceWindow> windows() {
        return Combinators.combine(
                        Arbitraries.integers().between(0, 12),
                        Arbitraries.integers().between(0, 6))
                .as((low, width) -> new ClearanceWindow(steps(low), steps(low + width)));
    }

    private static Stream<LengthInterval> outcomes(Bracket bracket, LeafStack leaf) {
        return Stream.of(Fit.values())
                .map(fit -> bracket.with(new Trial(leaf, fit)))
                .flatMap(evidence -> evidence.bracket().stream())
                .map(Bracket::interval)
                .distinct();
    }

    private static boolean canNarrow(Bracket bracket, LeafStack leaf) {
        return outcomes(bracket, leaf)
                .anyMatch(after -> bracket.interval().encloses(after) && !after.equals(bracket.interval()));
    }

    private static Predicate<LeafStack> untried(Bracket bracket) {
        Set<LeafStack> tried = bracket.trials().stream().map(Trial::leaf).collect(Collectors.toSet());
        return leaf -> !tried.contains(leaf);
    }

    /** A stack as thick as a leaf that was tried tells no more than that leaf. */
    private static Predicate<LeafStack> ofNewThickness(Bracket bracket) {
        Set<Length> tried =
                bracket.trials().stream().map(t -> t.leaf().thickness()).collect(Collectors.toSet());
        return leaf -> !tried.contains(leaf.thickness());
    }

    private static Bracket undecided(List<Trial> trials, ReadingRule rule, ClearanceWindow window) {
        Optional<Bracket> bracket = Evidence.of(trials, rule).bracket();
        Assume.that(bracket.filter(b -> Verdict.of(b.interval(), window) == Verdict.UNDECIDED)
                .isPresent());
        return bracket.orElseThrow();
    }

    @Property(tries = 300, edgeCases = EdgeCasesMode.NONE)
    void aProposedLeafIsNewAndCanNarrow(
            @ForAll("trials") List<Trial> trials,
            @ForAll("rules") ReadingRule rule,
            @ForAll("windows") ClearanceWindow window,
            @ForAll("gauges") GaugeSet gauges) {
        Bracket bracket = undecided(trials, rule, window);
        NextLeaf.towardsVerdict(bracket, window, gauges).ifPresent(next -> {
            assertThat(next.leaf()).matches(untried(bracket), "not tried");
            assertThat(canNarrow(bracket, next.leaf())).as("narrows").isTrue();
            assertThat(next.owned()).isEqualTo(gauges.stacks().contains(next.leaf()));
        });
    }

    @Property(tries = 300, edgeCases = EdgeCasesMode.NONE)
    void aLeafIsBorrowedOnlyWhenNoOwnedOneMaySettleTheVerdict(
            @ForAll("trials") List<Trial> trials,
            @ForAll("rules") ReadingRule rule,
            @ForAll("windows") ClearanceWindow window,
            @ForAll("gauges") GaugeSet gauges) {
        Bracket bracket = undecided(trials, rule, window);
        Optional<NextLeaf> next = NextLeaf.towardsVerdict(bracket, window, gauges);
        if (next.filter(NextLeaf::owned).isEmpty()) {
            assertThat(gauges.stacks().stream()
                            .filter(ofNewThickness(bracket))
                            .filter(leaf -> narrowsOnGoingOrNot(bracket, leaf))
                            .filter(leaf -> outcomes(bracket, leaf)
                                    .anyMatch(after -> Verdict.of(after, window) != Verdict.UNDECIDED)))
                    .isEmpty();
        }
        next.filter(n -> !n.owned())
                .ifPresent(n -> assertThat(outcomes(bracket, n.leaf())
                                .anyMatch(after -> Verdict.of(after, window) != Verdict.UNDECIDED))
                        .isTrue());
    }

    private static boolean narrowsOnGoingOrNot(Bracket bracket, LeafStack leaf) {
        return Stream.of(Fit.GOES, Fit.REFUSES)
                .map(fit -> bracket.with(new Trial(leaf, fit)))
                .flatMap(evidence -> evidence.bracket().stream())
                .anyMatch(after -> !after.interval().equals(bracket.interval()));
    }

    /** What the hand feels of leaves that are as far off as the rule allows, of a clearance in steps of 1 um. */
    private static Fit felt(LeafStack leaf, int micrometres, ReadingRule rule, int error) {
        int tolerance =
                rule instanceof ReadingRule.Guarded g ? (int) (g.tolerance().nanometres() / 1_000) : 0;
        int allowance =
                rule instanceof ReadingRule.Guarded g ? (int) (g.dragAllowance().nanometres() / 1_000) : 0;
        long thickness = leaf.thickness().nanometres() / 1_000 + (long) tolerance * leaf.size() * error;
        long room = micrometres - thickness;
        return Math.abs(room) <= allowance ? Fit.DRAGS : room > 0 ? Fit.GOES : Fit.REFUSES;
    }

    /** The whole walk: each leaf offered once, and no verdict at the end that the true clearance denies. */
    @Property(tries = 150, edgeCases = EdgeCasesMode.NONE)
    void followedToTheEndTheAdviceEndsAndTellsTheTruth(
            @ForAll @IntRange(min = 0, max = 200) int micrometres,
            @ForAll("rules") ReadingRule rule,
            @ForAll @IntRange(min = -1, max = 1) int error,
            @ForAll("windows") ClearanceWindow window,
            @ForAll("gauges") GaugeSet gauges) {
        List<Trial> trials = new ArrayList<>();
        Bracket bracket = Evidence.of(trials, rule).bracket().orElseThrow();
        Optional<NextLeaf> next = NextLeaf.towardsVerdict(bracket, window, gauges);
        while (next.isPresent()) {
            LeafStack leaf = next.get().leaf();
            assertThat(leaf).matches(untried(bracket), "not tried");
            trials.add(new Trial(leaf, felt(leaf, micrometres, rule, error)));
            bracket = Evidence.of(trials, rule).bracket().orElseThrow();
            next = NextLeaf.towardsVerdict(bracket, window, gauges);
        }
        LengthInterval end = bracket.interval();
        Verdict truth = Verdict.of(Length.ofNanometres(1_000L * micrometres), window);
        assertThat(Verdict.possible(end, window)).contains(truth);
        if (rule.equals(ReadingRule.simple()) && !noLeafIsThinEnough(end, window)) {
            assertThat(Verdict.of(end, window)).isEqualTo(truth);
        }
    }

    /** Where 0 is a limit and the thinnest leaf that can be had did not go, none tells a little clearance from none. */
    private static boolean noLeafIsThinEnough(LengthInterval clearances, ClearanceWindow window) {
        return window.lower().signum() == 0
                && clearances.lower().isEmpty()
                && LengthInterval.below(steps(1)).encloses(clearances);
    }

    /** Under the simple rule a leaf of the limit's own thickness leaves nothing open at that limit. */
    @Property(tries = 300, edgeCases = EdgeCasesMode.NONE)
    void aLeafOfTheLimitSettlesThatLimitUnderTheSimpleRule(
            @ForAll("trials") List<Trial> trials,
            @ForAll("windows") ClearanceWindow window,
            @ForAll @IntRange(min = 0, max = 1) int upper) {
        Assume.that(trials.stream().noneMatch(t -> t.fit() == Fit.DRAGS));
        Length limit = upper == 1 ? window.upper() : window.lower();
        Assume.that(limit.signum() > 0);
        Bracket bracket = undecided(trials, ReadingRule.simple(), window);
        Verdict beyond = upper == 1 ? Verdict.LOOSE : Verdict.TIGHT;
        assertThat(outcomes(bracket, LeafStack.of(new Leaf(limit)))
                        .map(after -> Verdict.possible(after, window))
                        .filter(open -> open.contains(beyond) && open.size() > 1))
                .isEmpty();
    }

    /** The simple rule is at a loss exactly where no leaf is thin enough. */
    @Property(tries = 300, edgeCases = EdgeCasesMode.NONE)
    void theSimpleRuleIsNeverAtALossAfterLeavesThatDoNotDrag(
            @ForAll("trials") List<Trial> trials,
            @ForAll("windows") ClearanceWindow window,
            @ForAll("gauges") GaugeSet gauges) {
        Assume.that(trials.stream().noneMatch(t -> t.fit() == Fit.DRAGS));
        Bracket bracket = undecided(trials, ReadingRule.simple(), window);
        assertThat(NextLeaf.towardsVerdict(bracket, window, gauges).isEmpty())
                .isEqualTo(noLeafIsThinEnough(bracket.interval(), window));
    }

    @Provide
    Arbitrary<List<Trial>> twoEnds() {
        return Combinators.combine(
                        Arbitraries.integers().between(1, 10),
                        Arbitraries.integers().between(1, 10),
                        Arbitraries.of(Fit.GOES, Fit.DRAGS),
                        Arbitraries.of(Fit.REFUSES, Fit.DRAGS))
                .as((low, more, lowFit, highFit) -> List.of(
                        Trial.of(new Leaf(steps(low)), lowFit), Trial.of(new Leaf(steps(low + more)), highFit)));
    }

    @Property(tries = 150, edgeCases = EdgeCasesMode.NONE)
    void aLeafTowardsAGoalMayReachIt(
            @ForAll("twoEnds") List<Trial> trials,
            @ForAll("rules") ReadingRule rule,
            @ForAll @IntRange(min = 0, max = 6) int width,
            @ForAll("gauges") GaugeSet gauges) {
        Optional<Bracket> read = Evidence.of(trials, rule).bracket();
        Assume.that(read.filter(b -> b.interval().isBounded()).isPresent());
        Bracket bracket = read.orElseThrow();
        Predicate<LengthInterval> reached = i -> i.width().orElseThrow().compareTo(steps(width)) <= 0;
        Assume.that(!reached.test(bracket.interval()));
        Predicate<LeafStack> mayReach = leaf -> outcomes(bracket, leaf).anyMatch(reached) && canNarrow(bracket, leaf);
        Optional<NextLeaf> next = NextLeaf.towards(bracket, reached, gauges);
        if (next.filter(NextLeaf::owned).isEmpty()) {
            assertThat(gauges.stacks().stream()
                            .filter(ofNewThickness(bracket))
                            .filter(leaf -> narrowsOnGoingOrNot(bracket, leaf))
                            .filter(mayReach))
                    .isEmpty();
        }
        next.ifPresent(n -> assertThat(n.owned()).isEqualTo(gauges.owns(n.leaf())));
        next.ifPresent(n -> assertThat(n.leaf()).matches(mayReach, "may reach the goal"));
        if (next.isEmpty()) {
            for (int i = 1; i <= 20; i++) {
                LeafStack leaf = LeafStack.of(new Leaf(steps(i)));
                assertThat(bracket.interval().contains(leaf.thickness())
                                && untried(bracket).test(leaf)
                                && mayReach.test(leaf))
                        .as("%s would help", leaf)
                        .isFalse();
            }
        }
    }
}
