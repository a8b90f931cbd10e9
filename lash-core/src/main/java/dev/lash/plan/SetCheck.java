package dev.lash.plan;

import static java.util.Objects.requireNonNull;

import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.ValveRole;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.StandardGaugeSet;
import dev.lash.measure.LengthInterval;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Before work starts: which windows of an engine a gauge set can decide, and what to add to it.
 *
 * <p>Under the guarded rule no set decides a clearance that lies within twice the leaf tolerance of a limit; there "what to add"
 * is what makes the undecided part smallest.
 *
 * @param windows the windows of the engine, each under each rule
 */
public record SetCheck(List<WindowCheck> windows) implements Serializable {
    private static final int MOST_ADDED = 4;

    /**
     * Creates a check.
     *
     * @param windows the windows of the engine, each under each rule
     */
    public SetCheck {
        windows = List.copyOf(windows);
    }

    /**
     * One window under one rule.
     *
     * @param role the role of the valves
     * @param window the window to check against
     * @param rule how trials are read
     * @param plan the plan from nothing known to a verdict, with the set as it is
     * @param toAdd the leaves to add, in the order of what each does most; empty when nothing is missing or nothing helps
     * @param withAdded the plan with these leaves added
     * @param stack a stack that lets the set, as it is or with the leaves added, decide every clearance where single leaves do not;
     *     null where there is none, or no need
     */
    public record WindowCheck(
            ValveRole role,
            ClearanceWindow window,
            ReadingRule rule,
            LeafPlan plan,
            List<Leaf> toAdd,
            LeafPlan withAdded,
            @Nullable OutOfReach stack)
            implements Serializable {
        /**
         * Creates a check.
         *
         * @param role the role of the valves
         * @param window the window to check against
         * @param rule how trials are read
         * @param plan the plan from nothing known to a verdict, with the set as it is
         * @param toAdd the leaves to add, in the order of what each does most; empty when nothing is missing or nothing helps
         * @param withAdded the plan with these leaves added
         * @param stack a stack that lets the set decide every clearance where single leaves do not; null where there is none, or no
         *     need
         */
        public WindowCheck {
            requireNonNull(role, "role");
            requireNonNull(window, "window");
            requireNonNull(rule, "rule");
            requireNonNull(plan, "plan");
            toAdd = List.copyOf(toAdd);
            requireNonNull(withAdded, "withAdded");
        }

        /** {@return whether the set, as it is, decides every clearance} */
        public boolean decides() {
            return plan.figures().certain();
        }

        /** {@return the brackets in which a valve may stay undecided with the set as it is} */
        public List<LengthInterval> undecided() {
            return plan.outside();
        }

        /** {@return a stack that lets the set decide every clearance where single leaves do not} */
        public Optional<OutOfReach> findStack() {
            return Optional.ofNullable(stack);
        }
    }

    /**
     * Checks a gauge set against an engine, under the simple rule and, where the set has a tolerance or a drag allowance, under the
     * guarded rule.
     *
     * @param engine the engine
     * @param gauges the leaves that are owned
     * @param planner how trials are planned
     * @return the check; without windows for a train that has no clearance
     */
    public static SetCheck of(EngineSpec engine, GaugeSet gauges, LeafPlanner planner) {
        List<ReadingRule> rules = new ArrayList<>(List.of(ReadingRule.simple()));
        if (gauges.tolerance().signum() > 0 || gauges.dragAllowance().signum() > 0) {
            rules.add(gauges.guardedRule());
        }
        List<WindowCheck> windows = new ArrayList<>();
        for (ValveRole role : ValveRole.values()) {
            boolean used = engine.valves().stream().anyMatch(v -> v.role() == role);
            engine.findClearance(role)
                    .filter(c -> used)
                    .ifPresent(clearance ->
                            rules.forEach(rule -> windows.add(check(role, clearance.check(), rule, gauges, planner))));
        }
        return new SetCheck(windows);
    }

    private static WindowCheck check(
            ValveRole role, ClearanceWindow window, ReadingRule rule, GaugeSet gauges, LeafPlanner planner) {
        PlanGoal goal = PlanGoal.verdict(window);
        List<Leaf> onOffer = StandardGaugeSet.looseLeaves(gauges.unit());
        List<Leaf> added = new ArrayList<>();
        GaugeSet with = gauges;
        for (int i = 0; i < MOST_ADDED; i++) {
            Optional<Leaf> leaf = planner.remedy(with, LengthInterval.any(), rule, goal, onOffer);
            if (leaf.isEmpty()) {
                break;
            }
            added.add(leaf.get());
            with = with.withLeaf(leaf.get());
        }
        GaugeSet withLeaves = with;
        LeafPlan withAdded = planner.plan(withLeaves, rule, goal);
        // the guarded rule is never certain about a limit: there is no stack to look for
        boolean lacks = !withAdded.figures().certain() && rule.equals(ReadingRule.simple());
        OutOfReach stack = lacks
                ? stack(gauges, rule, goal, planner)
                        .or(() -> stack(withLeaves, rule, goal, planner))
                        .orElse(null)
                : null;
        return new WindowCheck(role, window, rule, planner.plan(gauges, rule, goal), added, withAdded, stack);
    }

    private static Optional<OutOfReach> stack(GaugeSet gauges, ReadingRule rule, PlanGoal goal, LeafPlanner planner) {
        return planner.outOfReach(gauges, LengthInterval.any(), rule, goal, StandardGaugeSet.looseLeaves(gauges.unit()))
                .filter(OutOfReach::bringsWithinReach);
    }

    /** {@return whether the set decides every window under the simple rule} */
    public boolean decidesAll() {
        return windows.stream()
                .filter(w -> w.rule().equals(ReadingRule.simple()))
                .allMatch(WindowCheck::decides);
    }
}
