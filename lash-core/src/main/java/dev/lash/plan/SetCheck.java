package dev.lash.plan;

import static java.util.Objects.requireNonNull;

import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.StandardGaugeSet;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * Before work starts: which windows of an engine a gauge set can decide, and what to add to it.
 *
 * <p>Under the guarded rule no set decides a clearance that lies within twice the leaf tolerance of a limit; there "what to add"
 * is what makes the undecided part smallest.
 *
 * <p>The closer gap of a desmodromic valve is a difference of two readings of its opener, so no plan of single trials decides it;
 * {@link #closers} says how fine the difference can be.
 *
 * @param windows the windows of the engine that are read directly, each under each rule
 * @param closers the closer windows of a desmodromic engine; else empty
 */
public record SetCheck(List<WindowCheck> windows, List<CloserCheck> closers) implements Serializable {
    private static final int MOST_ADDED = 4;

    /**
     * Creates a check.
     *
     * @param windows the windows of the engine that are read directly, each under each rule
     * @param closers the closer windows of a desmodromic engine; else empty
     */
    public SetCheck {
        windows = List.copyOf(windows);
        closers = List.copyOf(closers);
    }

    /** What a window is for. */
    public enum Use {
        /** To check against. */
        CHECK("to check"),
        /** To set to, where that window is narrower. */
        SET("to set to");

        private final String word;

        Use(String word) {
            this.word = word;
        }

        /** {@return the words for a person} */
        public String word() {
            return word;
        }
    }

    /**
     * The closer gap of a desmodromic valve, which is read as the difference of the opener's loaded and unloaded readings. Its trials
     * are not planned.
     *
     * @param role the role of the valves
     * @param use what the window is for
     * @param window the window of the closer
     * @param widest how wide the bracket of the difference can come out by the simple rule where both readings go to neighbouring
     *     leaves; {@code null} where the leaves end below the largest opening that may have to be read
     */
    public record CloserCheck(
            ValveRole role,
            Use use,
            ClearanceWindow window,
            @Nullable Length widest) implements Serializable {
        /**
         * Creates a check.
         *
         * @param role the role of the valves
         * @param use what the window is for
         * @param window the window of the closer
         * @param widest how wide the bracket of the difference can come out; {@code null} where the leaves end too early
         */
        public CloserCheck {
            requireNonNull(role, "role");
            requireNonNull(use, "use");
            requireNonNull(window, "window");
        }

        /** {@return how wide the bracket of the difference can come out, or empty where the leaves end too early for that} */
        public Optional<Length> findWidest() {
            return Optional.ofNullable(widest);
        }
    }

    /**
     * One window under one rule.
     *
     * @param role the role of the valves
     * @param gap which gap of the valves
     * @param use what the window is for
     * @param window the window
     * @param rule how trials are read
     * @param plan the plan from nothing known to a verdict, with the set as it is
     * @param toAdd the leaves to add, in the order of what each does most; empty when nothing is missing or nothing helps
     * @param withAdded the plan with these leaves added
     * @param stack a stack that lets the set, as it is or with the leaves added, decide every clearance where single leaves do not;
     *     null where there is none, or no need
     */
    public record WindowCheck(
            ValveRole role,
            Gap gap,
            Use use,
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
         * @param gap which gap of the valves
         * @param use what the window is for
         * @param window the window
         * @param rule how trials are read
         * @param plan the plan from nothing known to a verdict, with the set as it is
         * @param toAdd the leaves to add, in the order of what each does most; empty when nothing is missing or nothing helps
         * @param withAdded the plan with these leaves added
         * @param stack a stack that lets the set decide every clearance where single leaves do not; null where there is none, or no
         *     need
         */
        public WindowCheck {
            requireNonNull(role, "role");
            requireNonNull(gap, "gap");
            requireNonNull(use, "use");
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
        requireNonNull(planner, "planner");
        List<ReadingRule> rules = new ArrayList<>(List.of(ReadingRule.simple()));
        if (gauges.tolerance().signum() > 0 || gauges.dragAllowance().signum() > 0) {
            rules.add(gauges.guardedRule());
        }
        List<WindowCheck> windows = new ArrayList<>();
        List<CloserCheck> closers = new ArrayList<>();
        if (engine.train() instanceof ValveTrain.Hydraulic) {
            return new SetCheck(windows, closers);
        }
        for (ValveRole role : ValveRole.values()) {
            if (engine.valves().stream().noneMatch(v -> v.role() == role)) {
                continue;
            }
            for (Gap gap : engine.gaps()) {
                List<Target> targets =
                        engine.findClearance(role, gap).map(SetCheck::targets).orElse(List.of());
                for (Target target : targets) {
                    if (gap == Gap.CLOSER) {
                        closers.add(closer(engine, role, target, gauges));
                    } else {
                        rules.forEach(rule -> windows.add(check(role, gap, target, rule, gauges, planner)));
                    }
                }
            }
        }
        return new SetCheck(windows, closers);
    }

    /** A window and what it is for. */
    private record Target(Use use, ClearanceWindow window) {}

    private static List<Target> targets(ClearanceSpec clearance) {
        Target check = new Target(Use.CHECK, clearance.check());
        return clearance.setTo().equals(clearance.check())
                ? List.of(check)
                : List.of(check, new Target(Use.SET, clearance.setTo()));
    }

    /** Each of the two readings lies between neighbouring leaves, so their difference is no wider than both steps together. */
    private static CloserCheck closer(EngineSpec engine, ValveRole role, Target target, GaugeSet gauges) {
        Optional<Length> opener =
                engine.findClearance(role, Gap.OPENER).map(c -> c.check().upper());
        Optional<Length> widest = opener.flatMap(upper -> widestStep(gauges, upper)
                .flatMap(unloaded ->
                        widestStep(gauges, upper.plus(target.window().upper())).map(unloaded::plus)));
        return new CloserCheck(role, target.use(), target.window(), widest.orElse(null));
    }

    /** The widest step between neighbouring leaves from 0 to a length; empty where no leaf is as thick as that. */
    private static Optional<Length> widestStep(GaugeSet gauges, Length most) {
        Length widest = Length.ZERO;
        Length below = Length.ZERO;
        for (Leaf leaf : new TreeSet<>(gauges.leaves())) {
            Length step = leaf.thickness().minus(below);
            widest = step.isMoreThan(widest) ? step : widest;
            below = leaf.thickness();
            if (!below.isLessThan(most)) {
                return Optional.of(widest);
            }
        }
        return Optional.empty();
    }

    private static WindowCheck check(
            ValveRole role, Gap gap, Target target, ReadingRule rule, GaugeSet gauges, LeafPlanner planner) {
        PlanGoal goal = PlanGoal.verdict(target.window());
        List<Leaf> sameSystem = StandardGaugeSet.looseLeaves(gauges.unit());
        List<Leaf> added = toAdd(gauges, rule, goal, planner, sameSystem);
        LeafPlan withAdded = planner.plan(with(gauges, added), rule, goal);
        boolean lacks = !withAdded.figures().certain() && rule.equals(ReadingRule.simple());
        if (lacks || (added.isEmpty() && !withAdded.figures().certain())) {
            // a window of the other system may lie between the marks of this one
            TreeSet<Leaf> both = new TreeSet<>(sameSystem);
            both.addAll(StandardGaugeSet.looseLeaves(LengthUnit.MILLIMETRE));
            both.addAll(StandardGaugeSet.looseLeaves(LengthUnit.INCH));
            List<Leaf> ofBoth = toAdd(gauges, rule, goal, planner, List.copyOf(both));
            LeafPlan withBoth = planner.plan(with(gauges, ofBoth), rule, goal);
            if (withBoth.figures().certain()
                    || (added.isEmpty()
                            && withBoth.figures().probabilityOutside()
                                    < withAdded.figures().probabilityOutside())) {
                added = ofBoth;
                withAdded = withBoth;
            }
        }
        // the guarded rule is never certain about a limit: there is no stack to look for
        boolean stillLacks = !withAdded.figures().certain() && rule.equals(ReadingRule.simple());
        GaugeSet withLeaves = with(gauges, added);
        OutOfReach stack = stillLacks
                ? stack(gauges, rule, goal, planner)
                        .or(() -> stack(withLeaves, rule, goal, planner))
                        .orElse(null)
                : null;
        return new WindowCheck(
                role,
                gap,
                target.use(),
                target.window(),
                rule,
                planner.plan(gauges, rule, goal),
                added,
                withAdded,
                stack);
    }

    private static List<Leaf> toAdd(
            GaugeSet gauges, ReadingRule rule, PlanGoal goal, LeafPlanner planner, List<Leaf> onOffer) {
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
        return added;
    }

    private static GaugeSet with(GaugeSet gauges, List<Leaf> added) {
        GaugeSet with = gauges;
        for (Leaf leaf : added) {
            with = with.withLeaf(leaf);
        }
        return with;
    }

    private static Optional<OutOfReach> stack(GaugeSet gauges, ReadingRule rule, PlanGoal goal, LeafPlanner planner) {
        return planner.outOfReach(gauges, LengthInterval.any(), rule, goal, StandardGaugeSet.looseLeaves(gauges.unit()))
                .filter(OutOfReach::bringsWithinReach);
    }

    /** {@return whether the set decides every window that is read directly under the simple rule, those to set to as well} */
    public boolean decidesAll() {
        return windows.stream()
                .filter(w -> w.rule().equals(ReadingRule.simple()))
                .allMatch(WindowCheck::decides);
    }
}
