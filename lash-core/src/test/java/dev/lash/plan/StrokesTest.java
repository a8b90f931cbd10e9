package dev.lash.plan;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.engine.ClearanceWindow;
import dev.lash.gauge.Fit;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.Trial;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.plan.Strokes.Stroke;
import dev.lash.testing.Generators;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.api.Test;

class StrokesTest {
    private static final ClearanceWindow WINDOW = ClearanceWindow.parse("0.11..0.16 mm");
    private static final Length NONE = Length.ZERO;

    private static Length um(int micrometres) {
        return Length.ofNanometres(1_000L * micrometres);
    }

    private static GaugeSet set(int stacked, int... micrometres) {
        return new GaugeSet(
                IntStream.of(micrometres).mapToObj(i -> new Leaf(um(i))).toList(),
                stacked,
                NONE,
                NONE,
                LengthUnit.MILLIMETRE);
    }

    private static Strokes strokes(GaugeSet gauges, ReadingRule rule) {
        return new Strokes(gauges, rule, StrokeCost.USUAL);
    }

    private static List<String> texts(List<Stroke> strokes, GaugeSet gauges) {
        return strokes.stream().map(s -> s.stack(gauges).toString()).toList();
    }

    @Provide
    Arbitrary<GaugeSet> gauges() {
        return Generators.gaugeSets();
    }

    @Provide
    Arbitrary<ReadingRule> rules() {
        return Generators.rules();
    }

    @Provide
    Arbitrary<LengthInterval> intervals() {
        return Generators.intervals(Generators.marks());
    }

    /** The bounds of each stroke are those that the rule claims. */
    @Property(tries = 300, edgeCases = EdgeCasesMode.NONE)
    void boundsAreTheClaimsOfTheRule(@ForAll("gauges") GaugeSet gauges, @ForAll("rules") ReadingRule rule) {
        for (Stroke stroke : strokes(gauges, rule).inside(LengthInterval.any())) {
            LeafStack stack = stroke.stack(gauges);
            assertThat(stroke.thickness()).isEqualTo(stack.thickness().nanometres());
            assertThat(stroke.size()).isEqualTo(stack.size());
            assertThat(stroke.cost()).isEqualTo(StrokeCost.USUAL.of(stack.size()));
            assertThat(stroke.goes()).isEqualTo(Bounds.lower(rule.claim(new Trial(stack, Fit.GOES))));
            assertThat(stroke.refuses()).isEqualTo(Bounds.upper(rule.claim(new Trial(stack, Fit.REFUSES))));
            LengthInterval drag = rule.claim(new Trial(stack, Fit.DRAGS));
            assertThat(stroke.dragLow()).isEqualTo(Bounds.lower(drag));
            assertThat(stroke.dragHigh()).isEqualTo(Bounds.upper(drag));
        }
    }

    /** Every stack of the set that narrows the bracket whether it goes or not, without those that tell the same as a smaller one. */
    @Property(tries = 300, edgeCases = EdgeCasesMode.NONE)
    void insideAreThoseThatNarrowWhetherTheyGoOrNot(
            @ForAll("gauges") GaugeSet gauges,
            @ForAll("rules") ReadingRule rule,
            @ForAll("intervals") LengthInterval present) {
        boolean tolerant =
                rule instanceof ReadingRule.Guarded g && g.tolerance().signum() > 0;
        Map<Length, Set<Integer>> expected = new HashMap<>();
        for (LeafStack stack : gauges.stacks()) {
            boolean narrows = List.of(Fit.GOES, Fit.REFUSES).stream().allMatch(fit -> {
                LengthInterval claim = rule.claim(new Trial(stack, fit));
                return fit == Fit.GOES
                        ? Bounds.lower(claim) > Bounds.lower(present)
                        : Bounds.upper(claim) < Bounds.upper(present);
            });
            if (narrows) {
                expected.computeIfAbsent(stack.thickness(), t -> new TreeSet<>())
                        .add(stack.size());
            }
        }
        if (!tolerant) {
            expected.replaceAll((thickness, sizes) -> Set.of(Collections.min(sizes)));
        }
        Map<Length, Set<Integer>> found = new HashMap<>();
        List<Stroke> inside = strokes(gauges, rule).inside(present);
        inside.forEach(s -> found.computeIfAbsent(Length.ofNanometres(s.thickness()), t -> new TreeSet<>())
                .add(s.size()));
        assertThat(found).isEqualTo(expected);
        assertThat(inside).isSortedAccordingTo(Comparator.comparingLong(Stroke::thickness));
    }

    @Test
    void touchingMayNarrowOnOneAnswerOnly() {
        GaugeSet gauges = set(1, 50, 100, 110, 118, 200);
        Strokes strokes = strokes(gauges, ReadingRule.guarded(um(5), NONE));
        LengthInterval present = LengthInterval.parse("(0.10, 0.115] mm");
        // of 0.10 mm only refusing tells something new, of 0.118 mm only going
        assertThat(texts(strokes.touching(present), gauges)).containsExactly("0.10 mm", "0.11 mm", "0.118 mm");
        assertThat(texts(strokes.inside(present), gauges)).containsExactly("0.11 mm");
        // neither list wants an answer that the bracket denies
        assertThat(texts(strokes.touching(LengthInterval.parse("> 0.20 mm")), gauges))
                .containsExactly("0.20 mm");
    }

    @Test
    void underAToleranceAStackAsThickAsALeafIsAnotherStroke() {
        GaugeSet gauges = set(2, 50, 60, 110);
        ReadingRule rule = ReadingRule.guarded(um(2), NONE);
        assertThat(texts(strokes(gauges, rule).inside(LengthInterval.any()), gauges))
                .containsExactly(
                        "0.05 mm", "0.06 mm", "0.11 mm", "0.05 mm + 0.06 mm", "0.05 mm + 0.11 mm", "0.06 mm + 0.11 mm");
        // where there are many, it is the first to go, and is known to be left out
        GaugeSet many = set(2, IntStream.rangeClosed(1, 80).map(i -> 10 * i).toArray());
        Strokes.Choice choice = strokes(many, rule).choose(LengthInterval.any(), PlanGoal.size(), false);
        assertThat(choice.strokes()).hasSize(159).extracting(Stroke::thickness).doesNotHaveDuplicates();
        assertThat(choice.leftOut().isEmpty()).isFalse();
        assertThat(strokes(many, ReadingRule.simple())
                        .choose(LengthInterval.any(), PlanGoal.size(), false)
                        .leftOut()
                        .isEmpty())
                .isTrue();
    }

    /** What is left out is told to narrow exactly those brackets that it can, whatever it answers. */
    @Property(tries = 300, edgeCases = EdgeCasesMode.NONE)
    void whatIsLeftOutNarrowsWhatItCan(@ForAll("rules") ReadingRule rule, @ForAll("intervals") LengthInterval bracket) {
        Assume.that(Bounds.lower(bracket) <= Bounds.upper(bracket));
        GaugeSet gauges =
                set(2, IntStream.rangeClosed(1, 30).map(i -> 100 + i * i).toArray());
        Strokes.Choice choice = strokes(gauges, rule).choose(LengthInterval.any(), PlanGoal.size(), false);
        Set<LeafStack> searched =
                choice.strokes().stream().map(s -> s.stack(gauges)).collect(Collectors.toSet());
        Set<Length> thicknesses = searched.stream().map(LeafStack::thickness).collect(Collectors.toSet());
        boolean tolerant =
                rule instanceof ReadingRule.Guarded g && g.tolerance().signum() > 0;
        assertThat(choice.leftOut().isEmpty()).isFalse();
        assertThat(choice.leftOut().narrows(Bounds.lower(bracket), Bounds.upper(bracket)))
                .isEqualTo(gauges.stacks().stream()
                        .filter(stack -> !searched.contains(stack))
                        .filter(stack -> tolerant || !thicknesses.contains(stack.thickness()))
                        .anyMatch(stack -> narrows(rule, bracket, stack)));
    }

    private static boolean narrows(ReadingRule rule, LengthInterval bracket, LeafStack stack) {
        long low = Bounds.lower(bracket);
        long high = Bounds.upper(bracket);
        return List.of(Fit.GOES, Fit.DRAGS, Fit.REFUSES).stream().allMatch(fit -> {
            LengthInterval claim = rule.claim(new Trial(stack, fit));
            long from = Math.max(low, Bounds.lower(claim));
            long to = Math.min(high, Bounds.upper(claim));
            return from > to || from > low || to < high;
        });
    }

    @Test
    void aThicknessIsMadeOfTheFewestLeaves() {
        GaugeSet gauges = set(3, 50, 60, 110);
        assertThat(texts(strokes(gauges, ReadingRule.simple()).inside(LengthInterval.any()), gauges))
                .containsExactly(
                        "0.05 mm",
                        "0.06 mm",
                        "0.11 mm",
                        "0.05 mm + 0.11 mm",
                        "0.06 mm + 0.11 mm",
                        "0.05 mm + 0.06 mm + 0.11 mm");
    }

    @Test
    void aLeafIsStackedOnlyAsOftenAsItIsOwned() {
        assertThat(texts(strokes(set(2, 50), ReadingRule.simple()).inside(LengthInterval.any()), set(2, 50)))
                .containsExactly("0.05 mm");
        GaugeSet twice = set(2, 50, 50);
        assertThat(texts(strokes(twice, ReadingRule.simple()).inside(LengthInterval.any()), twice))
                .containsExactly("0.05 mm", "0.05 mm + 0.05 mm");
    }

    // For a verdict

    @Test
    void withoutAllowanceTheNearestToEachLimitSuffice() {
        GaugeSet gauges = set(1, 50, 80, 100, 120, 130, 150, 170, 200);
        assertThat(texts(strokes(gauges, ReadingRule.simple()).forVerdict(LengthInterval.any(), WINDOW, false), gauges))
                .containsExactly("0.10 mm", "0.12 mm", "0.15 mm", "0.17 mm");
        // a leaf of the limit itself tells both sides apart; 0.08 and 0.20 mm are the nearest whose drag does
        GaugeSet exact = set(1, 50, 80, 110, 130, 160, 200);
        assertThat(texts(strokes(exact, ReadingRule.simple()).forVerdict(LengthInterval.any(), WINDOW, false), exact))
                .containsExactly("0.08 mm", "0.11 mm", "0.16 mm", "0.20 mm");
    }

    @Test
    void ofEachNumberOfLeavesTheNearestIsKept() {
        GaugeSet gauges = set(2, 40, 60, 75, 90);
        assertThat(texts(
                        strokes(gauges, ReadingRule.simple())
                                .nearest(LengthInterval.any(), ClearanceWindow.parse("0.11..0.12 mm"), 1),
                        gauges))
                .containsExactly(
                        "0.09 mm", // the thickest single leaf below
                        "0.04 mm + 0.06 mm", // the thickest pair below 0.11 mm
                        "0.04 mm + 0.075 mm", // inside
                        "0.04 mm + 0.09 mm"); // the thinnest pair above 0.12 mm
    }

    @Test
    void strokesOutsideTheBracketAreNoUse() {
        GaugeSet gauges = set(1, 50, 80, 100, 120, 130, 150, 170, 200);
        assertThat(texts(
                        strokes(gauges, ReadingRule.simple())
                                .forVerdict(LengthInterval.parse("(0.12, 0.20) mm"), WINDOW, false),
                        gauges))
                .containsExactly("0.13 mm", "0.15 mm", "0.17 mm");
    }

    @Test
    void nearestTakesAsManyAsAskedForOnEachSide() {
        GaugeSet gauges = set(1, 70, 80, 90, 100, 120, 130, 140, 150, 170, 180, 190, 200);
        Strokes strokes = strokes(gauges, ReadingRule.simple());
        assertThat(texts(strokes.nearest(LengthInterval.any(), WINDOW, 2), gauges))
                .containsExactly(
                        "0.09 mm", "0.10 mm", "0.12 mm", "0.13 mm", "0.14 mm", "0.15 mm", "0.17 mm", "0.18 mm");
        assertThat(strokes.nearest(LengthInterval.any(), WINDOW, 12)).hasSize(12);
    }

    @Test
    void withAnAllowanceEveryStrokeCountsWhileTheyAreFew() {
        GaugeSet gauges = set(1, 50, 80, 100, 120, 130, 150, 170, 200);
        ReadingRule rule = ReadingRule.guarded(NONE, um(2));
        assertThat(strokes(gauges, rule).forVerdict(LengthInterval.any(), WINDOW, false))
                .hasSize(8);
    }

    @Test
    void whereATolerantStackCostsMoreEveryStrokeCounts() {
        GaugeSet gauges = set(2, 40, 60, 75, 90, 120, 150);
        ReadingRule rule = ReadingRule.guarded(um(2), NONE);
        int all = strokes(gauges, rule).inside(LengthInterval.any()).size();
        assertThat(strokes(gauges, rule).forVerdict(LengthInterval.any(), WINDOW, false))
                .hasSize(all);
        assertThat(new Strokes(gauges, rule, StrokeCost.EQUAL).forVerdict(LengthInterval.any(), WINDOW, false))
                .hasSizeLessThan(all);
    }

    @Test
    void withADragBandEveryStrokeCounts() {
        GaugeSet gauges = set(1, 50, 80, 100, 120, 130, 150, 170, 200);
        assertThat(strokes(gauges, ReadingRule.simple()).forVerdict(LengthInterval.any(), WINDOW, true))
                .hasSize(8);
    }

    // Bounds on the work

    private static GaugeSet of(int leaves, int stacked) {
        return set(
                stacked,
                IntStream.range(0, leaves).map(i -> 20 + 7 * i + i * i % 5).toArray());
    }

    @Test
    void stacksAreLeftOutWhereThereAreTooMany() {
        GaugeSet gauges = of(64, 3);
        List<Stroke> strokes = strokes(gauges, ReadingRule.simple()).inside(LengthInterval.any());
        assertThat(strokes).hasSize(64).allMatch(s -> s.size() == 1);
        // inside a narrow bracket they are back
        assertThat(strokes(gauges, ReadingRule.simple()).inside(LengthInterval.parse("(0.10, 0.15) mm")))
                .anyMatch(s -> s.size() == 2);
    }

    @Test
    void aHugeSetIsCutToFewStrokesForAVerdict() {
        GaugeSet gauges = of(64, 3);
        ReadingRule guarded = ReadingRule.guarded(um(3), um(3));
        int kinds = 8 * 3;
        assertThat(strokes(gauges, ReadingRule.simple()).forVerdict(LengthInterval.any(), WINDOW, false))
                .hasSizeBetween(1, kinds);
        assertThat(strokes(gauges, guarded).forVerdict(LengthInterval.any(), WINDOW, false))
                .hasSizeBetween(kinds, kinds * LeafPlanner.NEAREST_TRIALS)
                .extracting(s -> List.of(s.thickness(), (long) s.size()))
                .doesNotHaveDuplicates();
        assertThat(strokes(gauges, guarded).forVerdict(LengthInterval.any(), WINDOW, true))
                .hasSizeBetween(64, LeafPlanner.MOST_TRIALS + kinds * LeafPlanner.NEAREST_TRIALS)
                .anyMatch(s -> s.size() == 2);
    }
}
