package dev.lash.plan;

import static java.util.Objects.requireNonNull;

import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.ReadingRule;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Why a goal is out of reach of a gauge set, and what would bring it within reach, or nearer. Made by {@link
 * LeafPlanner#outOfReach}.
 *
 * @param plan the plan with the set as it is
 * @param rule how trials are read
 * @param toAdd the leaf to add, or the two to add for a stack; empty where laying owned leaves together helps, or nothing does
 * @param mostStacked how many leaves may be laid together then
 * @param then the plan then; the same as {@code plan} where nothing helps
 */
public record OutOfReach(LeafPlan plan, ReadingRule rule, List<Leaf> toAdd, int mostStacked, LeafPlan then)
        implements Serializable {
    /**
     * Creates the answer.
     *
     * @param plan the plan with the set as it is
     * @param rule how trials are read
     * @param toAdd the leaf to add, or the two to add for a stack; empty where laying owned leaves together helps, or nothing does
     * @param mostStacked how many leaves may be laid together then
     * @param then the plan then; the same as {@code plan} where nothing helps
     */
    public OutOfReach {
        requireNonNull(plan, "plan");
        requireNonNull(rule, "rule");
        toAdd = List.copyOf(toAdd);
        requireNonNull(then, "then");
    }

    /** {@return whether anything helps} */
    public boolean helps() {
        return !then.equals(plan);
    }

    /** {@return whether the goal is certain to be reached then} */
    public boolean bringsWithinReach() {
        return then.figures().certain();
    }

    /** {@return the stacks that the plan may offer then and could not before, thinnest first} */
    public List<LeafStack> stacks() {
        List<LeafStack> before = plan.offers();
        return then.offers().stream()
                .filter(offer -> offer.size() > 1 && !before.contains(offer))
                .toList();
    }

    /**
     * Why the goal is out of reach: where a plan may end, and what no leaf can do there.
     *
     * @param unit the unit of lengths
     * @return a clause or more, without a full stop
     */
    public String why(LengthUnit unit) {
        requireNonNull(unit, "unit");
        String reasons = plan.outside().stream().map(end -> reason(end, unit)).collect(Collectors.joining("; "));
        if (rule instanceof ReadingRule.Guarded guarded
                && guarded.tolerance().signum() > 0
                && plan.goal() instanceof PlanGoal.OfVerdict) {
            reasons +=
                    "; no leaf of " + guarded.tolerance().toString(unit) + " tolerance decides every clearance within "
                            + guarded.tolerance().times(2).toString(unit) + " of a limit";
        }
        return plan.isBestOfAll() ? reasons : reasons + "; not every stack was considered";
    }

    private String reason(LengthInterval end, LengthUnit unit) {
        String where = end.toString(unit);
        if (plan.goal() instanceof PlanGoal.OfVerdict verdict) {
            List<String> open = Verdict.possible(end, verdict.window()).stream()
                    .map(Verdict::word)
                    .toList();
            int last = open.size() - 1;
            return "in " + where + " no leaf tells " + String.join(", ", open.subList(0, last)) + " and "
                    + open.get(last) + " apart";
        }
        if (plan.goal() instanceof PlanGoal.OfWidth width) {
            return "no leaf narrows " + where + " to " + width.most().toString(unit);
        }
        return "a stack that was left out may narrow " + where;
    }

    /**
     * What to do about it.
     *
     * @param unit the unit of lengths
     * @return a clause, without a full stop
     */
    public String remedy(LengthUnit unit) {
        requireNonNull(unit, "unit");
        if (!helps()) {
            return "no leaf or stack on offer would help";
        }
        List<String> steps = new ArrayList<>();
        if (!toAdd.isEmpty()) {
            steps.add("add " + toAdd.stream().map(leaf -> leaf.toString(unit)).collect(Collectors.joining(" and ")));
        }
        if (!stacks().isEmpty()) {
            steps.add("lay together "
                    + stacks().stream().map(stack -> stack.toString(unit)).collect(Collectors.joining(", ")));
        }
        return String.join(" and ", steps) + ": "
                + (bringsWithinReach() ? "then it is within reach" : "then it is nearer, but not within reach");
    }

    /** Looks for what helps; keeps the best so far. */
    static final class Search {
        /** Enough for every hundredth of a millimetre across a bracket of 3 mm. */
        private static final int MOST_PAIRS = 300;

        private final LeafPlanner planner;
        private final GaugeSet gauges;
        private final LengthInterval present;
        private final ReadingRule rule;
        private final PlanGoal goal;
        private OutOfReach best;

        Search(LeafPlanner planner, GaugeSet gauges, LengthInterval present, ReadingRule rule, LeafPlan plan) {
            this.planner = planner;
            this.gauges = gauges;
            this.present = present;
            this.rule = rule;
            this.goal = plan.goal();
            this.best = new OutOfReach(plan, rule, List.of(), gauges.mostStacked(), plan);
        }

        OutOfReach best() {
            return best;
        }

        Search leaf(List<Leaf> onOffer) {
            for (Leaf leaf : onOffer) {
                if (!best.bringsWithinReach() && !gauges.leaves().contains(leaf)) {
                    tryWith(List.of(leaf), 1);
                }
            }
            return this;
        }

        /** Pairs of owned leaves, where none could be laid together, then pairs with leaves on offer. */
        Search stacks(List<Leaf> onOffer) {
            if (best.bringsWithinReach()) {
                return this;
            }
            if (gauges.mostStacked() < 2) {
                tryWith(List.of(), 2);
            }
            for (List<Leaf> missing : missingOfPairs(onOffer)) {
                if (best.bringsWithinReach()) {
                    break;
                }
                tryWith(missing, 2);
            }
            return this;
        }

        /** What to add for a stack that is about as thick as a bracket in which the plan ends, of each thickness the least. */
        private List<List<Leaf>> missingOfPairs(List<Leaf> onOffer) {
            List<Leaf> all = Stream.concat(gauges.leaves().stream(), onOffer.stream())
                    .distinct()
                    .sorted()
                    .toList();
            Set<Length> single = all.stream().map(Leaf::thickness).collect(Collectors.toSet());
            Predicate<Length> isOfUse = nearEnds();
            Map<Length, List<Leaf>> byThickness = new TreeMap<>();
            for (int i = 0; i < all.size(); i++) {
                for (int j = i + 1; j < all.size(); j++) {
                    Length thickness = all.get(i).thickness().plus(all.get(j).thickness());
                    List<Leaf> missing = Stream.of(all.get(i), all.get(j))
                            .filter(leaf -> !gauges.leaves().contains(leaf))
                            .toList();
                    if (!missing.isEmpty() && isOfUse.test(thickness) && !single.contains(thickness)) {
                        byThickness.merge(thickness, missing, (a, b) -> b.size() < a.size() ? b : a);
                    }
                }
            }
            return byThickness.values().stream()
                    .sorted(Comparator.comparingInt(List::size))
                    .limit(MOST_PAIRS)
                    .toList();
        }

        private Predicate<Length> nearEnds() {
            Length reach = rule instanceof ReadingRule.Guarded g
                    ? g.tolerance().times(2).plus(g.dragAllowance())
                    : Length.ZERO;
            List<LengthInterval> wider = best.plan().outside().stream()
                    .map(end -> end.plus(LengthInterval.closed(reach.negated(), reach)))
                    .toList();
            return thickness -> wider.stream().anyMatch(end -> end.contains(thickness));
        }

        private void tryWith(List<Leaf> added, int stacked) {
            if (gauges.leaves().size() + added.size() > GaugeSet.MOST_LEAVES) {
                return;
            }
            GaugeSet with = gauges.withStacksOf(Math.max(stacked, gauges.mostStacked()));
            for (Leaf leaf : added) {
                with = with.withLeaf(leaf);
            }
            LeafPlan then = planner.plan(with, present, rule, goal);
            if (isNearer(then.figures(), best.then().figures())) {
                best = new OutOfReach(best.plan(), rule, added, with.mostStacked(), then);
            }
        }

        private static boolean isNearer(LeafPlan.Figures a, LeafPlan.Figures than) {
            if (a.certain() != than.certain()) {
                return a.certain();
            }
            return a.probabilityOutside() < than.probabilityOutside() - PlanSearch.ROUNDING;
        }
    }
}
