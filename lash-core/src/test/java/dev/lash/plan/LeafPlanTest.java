package dev.lash.plan;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.engine.ClearanceWindow;
import dev.lash.gauge.Fit;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.ReadingRule;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.testing.Contracts;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class LeafPlanTest {
    private static final LeafPlanner PLANNER = LeafPlanner.withDefaults();
    private static final PlanGoal VERDICT = PlanGoal.verdict(ClearanceWindow.parse("0.11..0.16 mm"));
    private static final GaugeSet BOTH_LIMITS =
            GaugeSet.of(LengthUnit.MILLIMETRE, "0.05", "0.10", "0.11", "0.15", "0.16", "0.20");
    private static final GaugeSet ONE_LIMIT =
            GaugeSet.of(LengthUnit.MILLIMETRE, "0.05", "0.10", "0.12", "0.15", "0.16", "0.20");

    private static LeafPlan certain() {
        return PLANNER.plan(BOTH_LIMITS, ReadingRule.simple(), VERDICT);
    }

    private static LeafPlan outOfReach() {
        return PLANNER.plan(ONE_LIMIT, ReadingRule.simple(), VERDICT);
    }

    // The tree

    @Test
    void eachAnswerLeadsOn() {
        LeafPlan plan = certain();
        assertThat(plan.goal()).isEqualTo(VERDICT);
        assertThat(plan.clearances()).isEqualTo(LengthInterval.any());
        assertThat(plan.isReached()).isFalse();
        assertThat(plan.next()).contains(LeafStack.parse("0.16 mm"));
        LeafPlan goes = plan.after(Fit.GOES).orElseThrow();
        assertThat(goes.clearances()).hasToString("> 0.16 mm");
        assertThat(goes.isReached()).isTrue();
        assertThat(goes.next()).isEmpty();
        assertThat(plan.after(Fit.DRAGS).orElseThrow().clearances()).hasToString("[0.16, 0.16] mm");
        LeafPlan refuses = plan.after(Fit.REFUSES).orElseThrow();
        assertThat(refuses.clearances()).hasToString("< 0.16 mm");
        assertThat(refuses.next()).contains(LeafStack.parse("0.11 mm"));
    }

    @Test
    void aForcedLeafAnswersAsOneThatRefuses() {
        LeafPlan plan = certain();
        assertThat(plan.after(Fit.FORCED)).isPresent().isEqualTo(plan.after(Fit.REFUSES));
    }

    @Test
    void whereNothingIsOfferedNothingFollows() {
        LeafPlan end = certain().after(Fit.GOES).orElseThrow();
        for (Fit fit : Fit.values()) {
            assertThat(end.after(fit)).isEmpty();
        }
    }

    @Test
    void anAnswerThatContradictsWhatIsKnownLeadsNowhere() {
        LeafPlan plan =
                PLANNER.plan(BOTH_LIMITS, LengthInterval.parse("(0.10, 0.11] mm"), ReadingRule.simple(), VERDICT);
        assertThat(plan.next()).contains(LeafStack.parse("0.11 mm"));
        assertThat(plan.after(Fit.GOES)).isEmpty();
        assertThat(plan.after(Fit.DRAGS)).isPresent();
        assertThat(plan.after(Fit.REFUSES)).isPresent();
    }

    // Outside

    @Test
    void aPlanThatIsCertainEndsNowhereOutside() {
        assertThat(certain().outside()).isEmpty();
        assertThat(certain().figures().certain()).isTrue();
        assertThat(certain().figures().probabilityOutside()).isZero();
    }

    @Test
    void intervalsOutOfReachAreNamedFromTheSmallestUp() {
        assertThat(outOfReach().outside()).containsExactly(LengthInterval.parse("(0.10, 0.12) mm"));
        assertThat(outOfReach().figures().certain()).isFalse();
        LeafPlan width = PLANNER.plan(BOTH_LIMITS, ReadingRule.simple(), PlanGoal.width(Length.parse("0.04 mm")));
        assertThat(width.outside())
                .containsExactly(LengthInterval.parse("< 0.10 mm"), LengthInterval.parse("> 0.20 mm"));
        assertThat(width.after(Fit.GOES).orElseThrow().outside()).containsExactly(LengthInterval.parse("> 0.20 mm"));
    }

    @Test
    void aPlanWithoutAStrokeIsOutsideAsAWhole() {
        LeafPlan plan = PLANNER.plan(
                GaugeSet.of(LengthUnit.MILLIMETRE, "0.50"),
                LengthInterval.parse("(0.10, 0.12) mm"),
                ReadingRule.simple(),
                VERDICT);
        assertThat(plan.next()).isEmpty();
        assertThat(plan.isReached()).isFalse();
        assertThat(plan.outside()).containsExactly(LengthInterval.parse("(0.10, 0.12) mm"));
        assertThat(plan.figures()).isEqualTo(new LeafPlan.Figures(0, 0, 0, 0, 1, false));
    }

    @Test
    void theSameEndIsNamedOnce() {
        // the guarded rule reaches the same bracket by several ways
        LeafPlan plan = PLANNER.plan(
                BOTH_LIMITS.withStacksOf(2),
                ReadingRule.guarded(Length.parse("0.003 mm"), Length.parse("0.005 mm")),
                PlanGoal.width(Length.parse("0.02 mm")));
        assertThat(plan.outside()).isNotEmpty().doesNotHaveDuplicates();
    }

    // Text

    @Test
    void text() {
        assertThat(certain().text(LengthUnit.MILLIMETRE)).isEqualTo("""
                offer 0.16 mm
                  goes: loose, > 0.16 mm
                  drags: within, [0.16, 0.16] mm
                  refuses: offer 0.11 mm
                    goes: within, (0.11, 0.16) mm
                    drags: within, [0.11, 0.11] mm
                    refuses: tight, < 0.11 mm
                """);
    }

    @Test
    void textOfAPlanThatMayFail() {
        assertThat(outOfReach().text(LengthUnit.MILLIMETRE)).isEqualTo("""
                offer 0.16 mm
                  goes: loose, > 0.16 mm
                  drags: within, [0.16, 0.16] mm
                  refuses: offer 0.10 mm
                    goes: offer 0.12 mm
                      goes: within, (0.12, 0.16) mm
                      drags: within, [0.12, 0.12] mm
                      refuses: no leaf helps: undecided, (0.10, 0.12) mm
                    drags: tight, [0.10, 0.10] mm
                    refuses: tight, < 0.10 mm
                """);
    }

    @Test
    void textSaysWhereStacksWereLeftOut() {
        List<Leaf> leaves = IntStream.rangeClosed(1, 30)
                .mapToObj(i -> new Leaf(Length.ofNanometres(1_000L * i * i + 100_000L)))
                .toList();
        GaugeSet many = new GaugeSet(leaves, 2, Length.ZERO, Length.ZERO, LengthUnit.MILLIMETRE);
        LeafPlan plan =
                PLANNER.plan(many, LengthInterval.parse("(0.101, 0.125) mm"), ReadingRule.simple(), PlanGoal.size());
        assertThat(plan.text(LengthUnit.MILLIMETRE)).endsWith("refuses: (0.101, 0.104) mm\n");
        LeafPlan cut = PLANNER.plan(many, ReadingRule.simple(), PlanGoal.size());
        assertThat(cut.text(LengthUnit.MILLIMETRE))
                .contains(
                        "refuses: no leaf considered helps, plan anew: (0.244, 0.269) mm\n", "goes: (0.181, 0.20) mm\n")
                .endsWith("\ntoo many leaves and stacks to consider all: this is the best of those considered\n");
        assertThat(cut.outside()).contains(LengthInterval.parse("(0.244, 0.269) mm"));
    }

    @Test
    void textWithStacksInAnotherUnit() {
        GaugeSet inch = GaugeSet.of(LengthUnit.THOU, "2", "3", "4", "6", "8").withStacksOf(2);
        LeafPlan plan =
                PLANNER.plan(inch, ReadingRule.simple(), PlanGoal.verdict(ClearanceWindow.parse("0.005..0.007 in")));
        assertThat(plan.text(LengthUnit.THOU)).isEqualTo("""
                offer 8 thou
                  goes: loose, > 8 thou
                  drags: loose, [8, 8] thou
                  refuses: offer 2 thou + 3 thou
                    goes: offer 3 thou + 4 thou
                      goes: loose, (7, 8) thou
                      drags: within, [7, 7] thou
                      refuses: within, (5, 7) thou
                    drags: within, [5, 5] thou
                    refuses: tight, < 5 thou
                """);
    }

    @Test
    void textOfASizeNamesTheBrackets() {
        GaugeSet two = GaugeSet.of(LengthUnit.MILLIMETRE, "0.10", "0.20");
        assertThat(PLANNER.plan(two, ReadingRule.simple(), PlanGoal.size()).text(LengthUnit.MILLIMETRE))
                .isEqualTo("""
                offer 0.10 mm
                  goes: offer 0.20 mm
                    goes: > 0.20 mm
                    drags: [0.20, 0.20] mm
                    refuses: (0.10, 0.20) mm
                  drags: [0.10, 0.10] mm
                  refuses: < 0.10 mm
                """);
    }

    @Test
    void toStringIsForALog() {
        assertThat(certain())
                .hasToString("offer 0.16 mm, any, Figures[expectedInsertions=1.5, expectedCost=1.5,"
                        + " worstInsertions=2, worstCost=2.0, probabilityOutside=0.0, certain=true]");
        assertThat(certain().after(Fit.GOES).orElseThrow().toString()).startsWith("reached, > 0.16 mm, ");
        assertThat(outOfReach()
                        .after(Fit.REFUSES)
                        .flatMap(p -> p.after(Fit.GOES))
                        .flatMap(p -> p.after(Fit.REFUSES))
                        .map(LeafPlan::toString)
                        .orElseThrow())
                .startsWith("no leaf helps, (0.10, 0.12) mm, ");
    }

    // Value

    @Test
    void equality() {
        LeafPlan otherGoal = PLANNER.plan(BOTH_LIMITS, ReadingRule.simple(), PlanGoal.size());
        LeafPlan otherCost = PLANNER.withCost(new StrokeCost(2, 2, 2)).plan(BOTH_LIMITS, ReadingRule.simple(), VERDICT);
        LeafPlan otherBracket =
                PLANNER.plan(BOTH_LIMITS, LengthInterval.parse("> 0.05 mm"), ReadingRule.simple(), VERDICT);
        Contracts.equality(
                certain(),
                certain(),
                List.of(
                        outOfReach(),
                        otherGoal,
                        otherCost,
                        otherBracket,
                        certain().after(Fit.GOES).orElseThrow()));
    }

    @Test
    void serialises() {
        Contracts.serialises(certain());
        Contracts.serialises(outOfReach());
        LeafPlan guarded = PLANNER.plan(
                BOTH_LIMITS.withStacksOf(2),
                ReadingRule.guarded(Length.parse("0.003 mm"), Length.parse("0.005 mm")),
                PlanGoal.size());
        Contracts.serialises(guarded);
        assertThat(Contracts.copied(guarded).text(LengthUnit.MILLIMETRE))
                .isEqualTo(guarded.text(LengthUnit.MILLIMETRE));
    }

    @Test
    void whatItHandsOutCannotChangeIt() {
        LeafPlan plan = outOfReach();
        assertThat(plan.outside()).isUnmodifiable();
        assertThat(plan.next().map(LeafStack::leaves).orElse(List.of())).isUnmodifiable();
        Optional<LeafPlan> after = plan.after(Fit.REFUSES);
        assertThat(plan.after(Fit.REFUSES)).containsSame(after.orElseThrow());
    }

    @Test
    @SuppressWarnings("NullAway") // on purpose
    void refusesNull() {
        Contracts.refuseNull(
                () -> certain().after(null),
                () -> certain().text(null),
                () -> certain().after(Fit.GOES).orElseThrow().text(null));
    }
}
