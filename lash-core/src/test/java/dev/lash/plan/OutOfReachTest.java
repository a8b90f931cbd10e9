package dev.lash.plan;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.engine.ClearanceWindow;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.StandardGaugeSet;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.testing.Contracts;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;

class OutOfReachTest {
    private static final LeafPlanner PLANNER = LeafPlanner.withDefaults();
    private static final ReadingRule SIMPLE = ReadingRule.simple();
    private static final LengthUnit MM = LengthUnit.MILLIMETRE;
    private static final LengthUnit INCH = LengthUnit.INCH;

    private static OutOfReach of(GaugeSet gauges, ReadingRule rule, PlanGoal goal) {
        return PLANNER.outOfReach(gauges, LengthInterval.any(), rule, goal, StandardGaugeSet.looseLeaves(gauges.unit()))
                .orElseThrow();
    }

    private static PlanGoal verdict(String window) {
        return PlanGoal.verdict(ClearanceWindow.parse(window));
    }

    @Test
    void withinReachThereIsNothingToSay() {
        GaugeSet gauges = GaugeSet.of(MM, "0.11", "0.16");
        for (PlanGoal goal : List.of(verdict("0.11..0.16 mm"), PlanGoal.size())) {
            assertThat(PLANNER.outOfReach(gauges, LengthInterval.any(), SIMPLE, goal, gauges.leaves()))
                    .isEmpty();
        }
    }

    @Test
    void aSingleLeafComesFirst() {
        // 0.05 + 0.06 mm would do as well
        OutOfReach out = of(GaugeSet.of(MM, "0.05", "0.06", "0.10", "0.12", "0.16"), SIMPLE, verdict("0.11..0.16 mm"));
        assertThat(out.toAdd()).containsExactly(Leaf.parse("0.11 mm"));
        assertThat(out.mostStacked()).isEqualTo(1);
        assertThat(out.bringsWithinReach()).isTrue();
        assertThat(out.helps()).isTrue();
        assertThat(out.stacks()).isEmpty();
        assertThat(out.why(MM)).isEqualTo("in (0.10, 0.12) mm no leaf tells tight and within apart");
        assertThat(out.remedy(MM)).isEqualTo("add 0.11 mm: then it is within reach");
    }

    @Test
    void ownedLeavesLaidTogether() {
        OutOfReach out = of(
                GaugeSet.of(INCH, "0.0015", "0.004", "0.005", "0.006", "0.007"), SIMPLE, verdict("0.004..0.0065 in"));
        assertThat(out.toAdd()).isEmpty();
        assertThat(out.mostStacked()).isEqualTo(2);
        assertThat(out.stacks()).containsExactly(LeafStack.parse("0.0015 in + 0.005 in"));
        assertThat(out.why(INCH)).isEqualTo("in (0.006, 0.007) in no leaf tells within and loose apart");
        assertThat(out.remedy(INCH)).isEqualTo("lay together 0.0015 in + 0.005 in: then it is within reach");
    }

    @Test
    void aLeafToAddForAStack() {
        OutOfReach out = of(GaugeSet.of(INCH, "0.004", "0.006", "0.007"), SIMPLE, verdict("0.004..0.0075 in"));
        assertThat(out.toAdd()).containsExactly(Leaf.parse("0.0015 in"));
        assertThat(out.stacks()).containsExactly(LeafStack.parse("0.0015 in + 0.006 in"));
        assertThat(out.remedy(INCH))
                .isEqualTo("add 0.0015 in and lay together 0.0015 in + 0.006 in: then it is within reach");
    }

    @Test
    void aWholeStackToAdd() {
        OutOfReach out = of(GaugeSet.of(INCH, "0.004", "0.007"), SIMPLE, verdict("0.004..0.0125 in"));
        assertThat(out.toAdd()).containsExactly(Leaf.parse("0.0015 in"), Leaf.parse("0.011 in"));
        assertThat(out.stacks()).containsExactly(LeafStack.parse("0.0015 in + 0.011 in"));
        assertThat(out.bringsWithinReach()).isTrue();
    }

    @Test
    void whereNothingHelpsItSaysSo() {
        GaugeSet gauges = GaugeSet.of(MM, "0.10", "0.16");
        OutOfReach out = PLANNER.outOfReach(
                        gauges, LengthInterval.any(), SIMPLE, verdict("0.11..0.16 mm"), List.of(Leaf.parse("0.50 mm")))
                .orElseThrow();
        assertThat(out.helps()).isFalse();
        assertThat(out.bringsWithinReach()).isFalse();
        assertThat(out.toAdd()).isEmpty();
        assertThat(out.then()).isEqualTo(out.plan());
        assertThat(out.remedy(MM)).isEqualTo("no leaf or stack on offer would help");
    }

    @Test
    void underTheGuardedRuleNearerIsAllThereIs() {
        GaugeSet gauges = GaugeSet.of(MM, "0.05", "0.10", "0.15", "0.20");
        ReadingRule guarded = ReadingRule.guarded(Length.parse("0.003 mm"), Length.ZERO);
        OutOfReach out = of(gauges, guarded, verdict("0.11..0.16 mm"));
        assertThat(out.helps()).isTrue();
        assertThat(out.bringsWithinReach()).isFalse();
        assertThat(out.then().figures().probabilityOutside())
                .isLessThan(out.plan().figures().probabilityOutside());
        assertThat(out.why(MM))
                .startsWith("in (0.097, 0.203) mm no leaf tells tight, within and loose apart; ")
                .endsWith("; no leaf of 0.003 mm tolerance decides every clearance within 0.006 mm of a limit");
        assertThat(out.remedy(MM)).endsWith(": then it is nearer, but not within reach");
    }

    @Test
    void aWidth() {
        GaugeSet gauges = GaugeSet.of(MM, "0.10", "0.12", "0.16");
        LengthInterval present = LengthInterval.parse("(0.10, 0.16) mm");
        OutOfReach out = PLANNER.outOfReach(
                        gauges,
                        present,
                        SIMPLE,
                        PlanGoal.width(Length.parse("0.02 mm")),
                        StandardGaugeSet.looseLeaves(MM))
                .orElseThrow();
        assertThat(out.why(MM)).isEqualTo("no leaf narrows (0.12, 0.16) mm to 0.02 mm");
        assertThat(out.toAdd()).containsExactly(Leaf.parse("0.14 mm"));
    }

    @Test
    void aFullSetTakesNoMore() {
        GaugeSet full = new GaugeSet(
                Collections.nCopies(GaugeSet.MOST_LEAVES, Leaf.parse("0.50 mm")), 2, Length.ZERO, Length.ZERO, MM);
        assertThat(of(full, SIMPLE, verdict("0.11..0.16 mm")).helps()).isFalse();
    }

    @Test
    void valuesAndNulls() {
        OutOfReach out = of(GaugeSet.of(MM, "0.10", "0.16"), SIMPLE, verdict("0.11..0.16 mm"));
        Contracts.serialises(out);
        Contracts.refuseNull(
                () -> out.why(null),
                () -> out.remedy(null),
                () -> new OutOfReach(null, SIMPLE, List.of(), 1, out.then()),
                () -> new OutOfReach(out.plan(), null, List.of(), 1, out.then()),
                () -> new OutOfReach(out.plan(), SIMPLE, null, 1, out.then()),
                () -> new OutOfReach(out.plan(), SIMPLE, List.of(), 1, null));
    }
}
