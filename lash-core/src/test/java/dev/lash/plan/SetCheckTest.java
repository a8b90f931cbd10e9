package dev.lash.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.Pitch;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.ReadingRule;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.plan.SetCheck.Use;
import dev.lash.plan.SetCheck.WindowCheck;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The yard generator of the riding school. */
class SetCheckTest {
    private static final EngineSpec GENERATOR = EngineSpec.builder("generator", "Yard generator")
            .valves("1-in-1", "1-ex-1", "2-in-1", "2-ex-1")
            .train(ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm")))
            .window(ValveRole.INTAKE, ClearanceWindow.parse("0.05..0.09 mm"))
            .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.12..0.18 mm"))
            .build();
    private static final GaugeSet LEAVES =
            GaugeSet.of(LengthUnit.MILLIMETRE, "0.03", "0.05", "0.07", "0.09", "0.12", "0.15", "0.20", "0.25");
    private static final LeafPlanner PLANNER = LeafPlanner.withDefaults();

    private static WindowCheck only(SetCheck check, ValveRole role, ReadingRule rule) {
        return check.windows().stream()
                .filter(w -> w.role() == role && w.rule().equals(rule))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void leavesAtBothLimitsDecide() {
        WindowCheck intake = only(SetCheck.of(GENERATOR, LEAVES, PLANNER), ValveRole.INTAKE, ReadingRule.simple());
        assertThat(intake.decides()).isTrue();
        assertThat(intake.undecided()).isEmpty();
        assertThat(intake.toAdd()).isEmpty();
        assertThat(intake.plan().figures().worstInsertions()).isEqualTo(2);
    }

    @Test
    void missingLimitIsNamedAndMended() {
        SetCheck check = SetCheck.of(GENERATOR, LEAVES, PLANNER);
        WindowCheck exhaust = only(check, ValveRole.EXHAUST, ReadingRule.simple());
        assertThat(check.decidesAll()).isFalse();
        assertThat(exhaust.decides()).isFalse();
        assertThat(exhaust.undecided()).containsExactly(LengthInterval.parse("(0.15, 0.20) mm"));
        assertThat(exhaust.toAdd()).containsExactly(Leaf.parse("0.18 mm"));
        assertThat(exhaust.withAdded().figures().certain()).isTrue();
    }

    @Test
    void stacksCountWhereTheyAreAllowed() {
        // 0.03 + 0.15 = 0.18
        assertThat(SetCheck.of(GENERATOR, LEAVES.withStacksOf(2), PLANNER).decidesAll())
                .isTrue();
    }

    @Test
    void guardedRuleIsCheckedWhereThereIsATolerance() {
        GaugeSet guarded = LEAVES.withTolerance(Length.parse("0.003 mm"), Length.ZERO);
        SetCheck check = SetCheck.of(GENERATOR, guarded, PLANNER);
        assertThat(check.windows()).hasSize(4);
        WindowCheck intake = only(check, ValveRole.INTAKE, guarded.guardedRule());
        assertThat(intake.decides()).isFalse();
        assertThat(intake.toAdd()).isNotEmpty();
        assertThat(intake.withAdded().figures().probabilityOutside())
                .isLessThan(intake.plan().figures().probabilityOutside());
        // whatever is added, a bracket around each limit stays
        assertThat(intake.withAdded().figures().certain()).isFalse();
    }

    @Test
    void aStackIsNamedWhereNoSingleLeafDecides() {
        // no leaf of half a thou beyond 1.5 can be had; 1.5 + 5 is 6.5
        EngineSpec mower = EngineSpec.builder("mower", "Meadow mower")
                .valves("1-in-1")
                .train(ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm")))
                .window(ValveRole.INTAKE, ClearanceWindow.parse("0.004..0.0065 in"))
                .build();
        GaugeSet inch = GaugeSet.of(LengthUnit.INCH, "0.0015", "0.004", "0.005", "0.006", "0.007");
        WindowCheck intake = only(SetCheck.of(mower, inch, PLANNER), ValveRole.INTAKE, ReadingRule.simple());
        assertThat(intake.decides()).isFalse();
        OutOfReach stack = intake.findStack().orElseThrow();
        assertThat(stack.toAdd()).isEmpty();
        assertThat(stack.stacks()).containsExactly(LeafStack.parse("0.0015 in + 0.005 in"));
        assertThat(stack.then().figures().certain()).isTrue();
        // the lower limit needs a leaf as well
        GaugeSet less = GaugeSet.of(LengthUnit.INCH, "0.0015", "0.003", "0.005", "0.006", "0.007");
        WindowCheck both = only(SetCheck.of(mower, less, PLANNER), ValveRole.INTAKE, ReadingRule.simple());
        assertThat(both.toAdd()).contains(Leaf.parse("0.004 in"));
        assertThat(both.findStack().orElseThrow().bringsWithinReach()).isTrue();
        // where single leaves do, no stack is named
        assertThat(SetCheck.of(GENERATOR, LEAVES, PLANNER).windows())
                .allMatch(w -> w.findStack().isEmpty());
    }

    @Test
    void withoutClearanceThereIsNothingToDecide() {
        EngineSpec hydraulic = EngineSpec.builder("quad", "Quad with hydraulic lifters")
                .valves("1-in-1")
                .train(new ValveTrain.Hydraulic())
                .build();
        assertThat(SetCheck.of(hydraulic, LEAVES, PLANNER).windows()).isEmpty();
    }

    @Test
    void onlyRolesThatTheEngineHas() {
        EngineSpec intakeOnly = EngineSpec.builder("half", "Only an intake valve named")
                .valves("1-in-1")
                .train(new ValveTrain.Fixed())
                .window(ValveRole.INTAKE, ClearanceWindow.parse("0.05..0.09 mm"))
                .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.12..0.18 mm"))
                .build();
        assertThat(SetCheck.of(intakeOnly, LEAVES, PLANNER).windows())
                .extracting(WindowCheck::role)
                .containsExactly(ValveRole.INTAKE);
    }

    /** A document may give windows to a hydraulic train; they are no reason to lay out leaves. */
    @Test
    void hydraulicLiftersHaveNothingToDecideThoughWindowsAreGiven() {
        EngineSpec hydraulic =
                GENERATOR.toBuilder().train(new ValveTrain.Hydraulic()).build();
        assertThat(SetCheck.of(hydraulic, LEAVES, PLANNER)).isEqualTo(new SetCheck(List.of(), List.of()));
    }

    @Test
    void windowToSetToIsCheckedTooWhereItDiffers() {
        EngineSpec engine = EngineSpec.builder("trainer", "Road trainer")
                .valves("1-in-1", "1-ex-1")
                .train(GENERATOR.train())
                .clearance(
                        ValveRole.INTAKE,
                        new ClearanceSpec(
                                ClearanceWindow.parse("0.30..0.40 mm"), ClearanceWindow.parse("0.35..0.40 mm"), ""))
                .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.30..0.40 mm"))
                .build();
        SetCheck check = SetCheck.of(engine, GaugeSet.of(LengthUnit.MILLIMETRE, "0.30", "0.40"), PLANNER);
        assertThat(check.windows())
                .extracting(WindowCheck::role, WindowCheck::use, WindowCheck::decides)
                .containsExactly(
                        tuple(ValveRole.INTAKE, Use.CHECK, true),
                        tuple(ValveRole.INTAKE, Use.SET, false),
                        tuple(ValveRole.EXHAUST, Use.CHECK, true));
        assertThat(check.windows().get(1).toAdd()).containsExactly(Leaf.parse("0.35 mm"));
        assertThat(check.decidesAll()).isFalse();
    }

    /** No thou lies at 0.08 or 0.13 mm; a leaf of that size in millimetres can be had. */
    @Test
    void leavesOfTheOtherSystemAreOfferedWhereOnlyTheyDecide() {
        EngineSpec metric = EngineSpec.builder("mower", "Meadow mower")
                .valves("1-in-1")
                .train(GENERATOR.train())
                .window(ValveRole.INTAKE, ClearanceWindow.parse("0.08..0.13 mm"))
                .build();
        GaugeSet inch = GaugeSet.of(LengthUnit.INCH, "0.002", "0.003", "0.004", "0.005", "0.006");
        WindowCheck intake = only(SetCheck.of(metric, inch, PLANNER), ValveRole.INTAKE, ReadingRule.simple());
        assertThat(intake.decides()).isFalse();
        assertThat(intake.toAdd()).contains(Leaf.parse("0.08 mm"), Leaf.parse("0.13 mm"));
        assertThat(intake.withAdded().figures().certain()).isTrue();
        assertThat(intake.findStack()).isEmpty();
    }

    private static SetCheck desmodromic(String... leaves) {
        ShimRange shims = ShimRange.parse("1.80..4.50 mm step 0.05 mm");
        EngineSpec engine = EngineSpec.builder("twin", "Hill twin, positively closed")
                .valves("1-in-1", "1-ex-1")
                .train(new ValveTrain.Desmodromic(shims, shims))
                .window(ValveRole.INTAKE, ClearanceWindow.parse("0.10..0.15 mm"))
                .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.10..0.15 mm"))
                .closerClearance(ValveRole.INTAKE, ClearanceSpec.typical(ClearanceWindow.parse("0.00..0.05 mm")))
                .build();
        return SetCheck.of(engine, GaugeSet.of(LengthUnit.MILLIMETRE, leaves), PLANNER);
    }

    /** Up to 0.15 the widest step is 0.05 (0 to 0.05, 0.10 to 0.15), up to 0.20 it is 0.05 too: a difference within 0.10. */
    @Test
    void closerIsADifferenceOfTwoReadings() {
        SetCheck check = desmodromic("0.05", "0.08", "0.10", "0.15", "0.20", "0.50");
        assertThat(check.windows()).extracting(WindowCheck::gap).containsOnly(Gap.OPENER);
        assertThat(check.closers())
                .containsExactly(new SetCheck.CloserCheck(
                        ValveRole.INTAKE, Use.CHECK, ClearanceWindow.parse("0.00..0.05 mm"), Length.parse("0.10 mm")));
        // no leaf for the loaded reading: 0.15 and 0.05 may have to be read together
        assertThat(desmodromic("0.05", "0.10", "0.15").closers().get(0).findWidest())
                .isEmpty();
    }
}
