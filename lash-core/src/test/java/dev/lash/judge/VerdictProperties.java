package dev.lash.judge;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.engine.ClearanceWindow;
import dev.lash.gauge.Evidence;
import dev.lash.gauge.Fit;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.Trial;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.Combinators;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;

/** The verdict against a count of points; every end lies on whole steps, so points at half steps see open ends too. */
class VerdictProperties {
    private static final long HALF_STEP = 5_000;
    private static final int FAR = 60;

    /** Small numbers, so that ends of bracket and window often coincide. */
    @Provide
    Arbitrary<LengthInterval> clearances() {
        Arbitrary<Optional<Integer>> end =
                Arbitraries.integers().between(-2, 14).optional(0.8);
        Arbitrary<Boolean> included = Arbitraries.of(true, false);
        return Combinators.combine(end, included, end, included)
                .as(VerdictProperties::made)
                .filter(Optional::isPresent)
                .map(Optional::get);
    }

    private static Optional<LengthInterval> made(
            Optional<Integer> low, boolean lowIn, Optional<Integer> high, boolean highIn) {
        LengthInterval lower = low.map(VerdictProperties::steps)
                .map(l -> lowIn ? LengthInterval.atLeast(l) : LengthInterval.above(l))
                .orElse(LengthInterval.any());
        LengthInterval upper = high.map(VerdictProperties::steps)
                .map(h -> highIn ? LengthInterval.atMost(h) : LengthInterval.below(h))
                .orElse(LengthInterval.any());
        return lower.intersection(upper);
    }

    private static Length steps(int steps) {
        return Length.ofNanometres(2 * HALF_STEP * steps);
    }

    private static boolean holds(LengthInterval i, long nanometres) {
        boolean above = i.lower()
                .map(low -> i.lowerIncluded() ? nanometres >= low.nanometres() : nanometres > low.nanometres())
                .orElse(true);
        boolean below = i.upper()
                .map(high -> i.upperIncluded() ? nanometres <= high.nanometres() : nanometres < high.nanometres())
                .orElse(true);
        return above && below;
    }

    @Property(tries = 1000, edgeCases = EdgeCasesMode.NONE)
    void possibleVerdictsAreThoseOfThePointsOfTheBracket(
            @ForAll("clearances") LengthInterval clearances,
            @ForAll @IntRange(min = 0, max = 12) int lower,
            @ForAll @IntRange(min = 0, max = 4) int width) {
        ClearanceWindow window = new ClearanceWindow(steps(lower), steps(lower + width));
        EnumSet<Verdict> seen = EnumSet.noneOf(Verdict.class);
        // below 0 the valve is held off its seat, which is tight too
        for (int i = -FAR; i <= FAR; i++) {
            long point = i * HALF_STEP;
            if (holds(clearances, point)) {
                seen.add(
                        point < window.lower().nanometres()
                                ? Verdict.TIGHT
                                : point > window.upper().nanometres() ? Verdict.LOOSE : Verdict.WITHIN);
            }
        }
        assertThat(Verdict.possible(clearances, window)).containsExactlyInAnyOrderElementsOf(seen);
        assertThat(Verdict.of(clearances, window))
                .isEqualTo(seen.size() == 1 ? seen.iterator().next() : Verdict.UNDECIDED);
    }

    @Property(tries = 300, edgeCases = EdgeCasesMode.NONE)
    void narrowingABracketNeverOpensAVerdict(
            @ForAll("clearances") LengthInterval clearances,
            @ForAll("clearances") LengthInterval other,
            @ForAll @IntRange(min = 0, max = 12) int lower,
            @ForAll @IntRange(min = 0, max = 4) int width) {
        ClearanceWindow window = new ClearanceWindow(steps(lower), steps(lower + width));
        Optional<LengthInterval> narrower = clearances.intersection(other);
        Assume.that(narrower.isPresent());
        assertThat(Verdict.possible(clearances, window)).containsAll(Verdict.possible(narrower.orElseThrow(), window));
    }

    @Provide
    Arbitrary<List<Trial>> trials() {
        return Combinators.combine(Arbitraries.integers().between(1, 12), Arbitraries.of(Fit.class))
                .as((steps, fit) -> Trial.of(new Leaf(steps(steps)), fit))
                .list()
                .ofMinSize(1)
                .ofMaxSize(5);
    }

    /** What is proved with the allowances counted is never denied by the rule that leaves them out. */
    @Property(tries = 1000, edgeCases = EdgeCasesMode.NONE)
    void aGuardedVerdictIsTheSimpleVerdict(
            @ForAll("trials") List<Trial> trials,
            @ForAll @IntRange(min = 0, max = 30) int tolerance,
            @ForAll @IntRange(min = 0, max = 30) int dragAllowance,
            @ForAll @IntRange(min = 0, max = 12) int lower,
            @ForAll @IntRange(min = 0, max = 8) int width) {
        ReadingRule guarded =
                ReadingRule.guarded(Length.ofNanometres(1000L * tolerance), Length.ofNanometres(1000L * dragAllowance));
        ClearanceWindow window = new ClearanceWindow(steps(lower), steps(lower + width));
        List<Verdict> verdicts = new ArrayList<>();
        for (ReadingRule rule : List.of(ReadingRule.simple(), guarded)) {
            Evidence.of(trials, rule)
                    .bracket()
                    .map(bracket -> Judgement.of(bracket, window).verdict())
                    .ifPresent(verdicts::add);
        }
        Assume.that(verdicts.size() == 2);
        if (verdicts.get(1) != Verdict.UNDECIDED) {
            assertThat(verdicts.get(0)).isEqualTo(verdicts.get(1));
        }
    }
}
