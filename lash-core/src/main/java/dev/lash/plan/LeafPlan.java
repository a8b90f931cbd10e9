package dev.lash.plan;

import static java.util.Objects.requireNonNull;

import dev.lash.gauge.Fit;
import dev.lash.gauge.LeafStack;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * Which leaf to offer next, and what to offer after each answer: a tree. Made by {@link LeafPlanner}; immutable.
 *
 * <p>The figures are those of this plan from here on. They rest on the prior that the planner was given, or on its default.
 *
 * <p>The plan knows the interval only, not the trials behind it. So it takes a second drag to narrow the bracket as the first did,
 * while {@link dev.lash.gauge.Evidence} doubts both: the figures and the branch after a further drag are then too hopeful. Plan
 * anew from the reading after each drag, as {@link NextLeaf} does.
 */
public final class LeafPlan implements Serializable {
    private static final long serialVersionUID = 1L;

    private final LengthInterval clearances;
    private final PlanGoal goal;
    private final boolean reached;
    private final boolean bestOfAll;
    private final @Nullable LeafStack next;
    private final EnumMap<Fit, LeafPlan> answers;
    private final Figures figures;

    /**
     * What a plan is expected to need.
     *
     * @param expectedInsertions the mean number of strokes
     * @param expectedCost the mean cost, in the unit of the stroke costs
     * @param worstInsertions the largest number of strokes
     * @param worstCost the largest cost
     * @param probabilityOutside the probability to end outside the goal with no leaf left that helps, of those considered
     * @param certain whether every answer that is possible leads to the goal
     */
    public record Figures(
            double expectedInsertions,
            double expectedCost,
            int worstInsertions,
            double worstCost,
            double probabilityOutside,
            boolean certain)
            implements Serializable {}

    LeafPlan(
            LengthInterval clearances,
            PlanGoal goal,
            boolean reached,
            boolean bestOfAll,
            @Nullable LeafStack next,
            Map<Fit, LeafPlan> answers,
            Figures figures) {
        this.clearances = requireNonNull(clearances, "clearances");
        this.goal = goal;
        this.reached = reached;
        this.bestOfAll = bestOfAll;
        this.next = next;
        this.answers = new EnumMap<>(Fit.class);
        this.answers.putAll(answers);
        this.figures = figures;
    }

    /** {@return the clearances that are possible here} */
    public LengthInterval clearances() {
        return clearances;
    }

    /** {@return the goal of the plan} */
    public PlanGoal goal() {
        return goal;
    }

    /**
     * Whether this is the best of all plans from here on. If not, there were too many leaves and stacks, or too many states, to
     * search them all (see {@link LeafPlanner}): the plan is the best among the strokes that were considered, another may need
     * less, and where it ends outside the goal a stack that was left out may lead on. Plan anew from there.
     *
     * @return whether no other plan could be better
     */
    public boolean isBestOfAll() {
        return bestOfAll;
    }

    /** {@return whether the goal is reached here; that of size only where no stack that was left out could narrow further} */
    public boolean isReached() {
        return reached;
    }

    /** {@return what to offer next; empty when the goal is reached, or when no leaf helps} */
    public Optional<LeafStack> next() {
        return Optional.ofNullable(next);
    }

    /** {@return what the plan is expected to need from here on} */
    public Figures figures() {
        return figures;
    }

    /**
     * The rest of the plan after an answer; a forced leaf answers as one that refuses.
     *
     * @param answer what the hand felt of {@link #next()}
     * @return the rest of the plan, or empty when nothing is offered here or the answer would contradict what is known
     */
    public Optional<LeafPlan> after(Fit answer) {
        return Optional.ofNullable(answers.get(answer == Fit.FORCED ? Fit.REFUSES : requireNonNull(answer, "answer")));
    }

    /** {@return the intervals in which the plan may end without having reached the goal, from the smallest clearance up} */
    public List<LengthInterval> outside() {
        Set<LengthInterval> ends = new LinkedHashSet<>();
        collectOutside(ends);
        List<LengthInterval> sorted = new ArrayList<>(ends);
        sorted.sort((a, b) -> {
            int order = LengthInterval.compareLower(a, b);
            return order != 0 ? order : LengthInterval.compareUpper(a, b);
        });
        return List.copyOf(sorted);
    }

    /** {@return every leaf or stack that the plan may offer, thinnest first} */
    public List<LeafStack> offers() {
        TreeSet<LeafStack> all = new TreeSet<>();
        collectOffers(all);
        return List.copyOf(all);
    }

    private void collectOffers(Set<LeafStack> all) {
        next().ifPresent(all::add);
        answers.values().forEach(plan -> plan.collectOffers(all));
    }

    private void collectOutside(Set<LengthInterval> ends) {
        if (next == null && !reached) {
            ends.add(clearances);
        }
        answers.values().stream().filter(plan -> !plan.figures.certain).forEach(plan -> plan.collectOutside(ends));
    }

    /**
     * The whole tree as text, an answer a line, indented by depth. A last line says if not every stroke was considered.
     *
     * @param unit the unit of lengths
     * @return the text, every line with its end
     */
    public String text(LengthUnit unit) {
        StringBuilder out = new StringBuilder();
        write(out, "", "", requireNonNull(unit, "unit"));
        if (!bestOfAll) {
            out.append("too many leaves and stacks to consider all: this is the best of those considered\n");
        }
        return out.toString();
    }

    private void write(StringBuilder out, String indent, String answer, LengthUnit unit) {
        out.append(indent).append(answer);
        if (next == null) {
            out.append(end())
                    .append(reached ? "" : ": ")
                    .append(goal.describe(clearances, unit))
                    .append('\n');
            return;
        }
        out.append("offer ").append(next.toString(unit)).append('\n');
        answers.forEach((fit, plan) -> plan.write(out, indent + "  ", fit + ": ", unit));
    }

    private String end() {
        if (reached) {
            return "";
        }
        return bestOfAll ? "no leaf helps" : "no leaf considered helps, plan anew";
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof LeafPlan plan
                && plan.clearances.equals(clearances)
                && plan.goal.equals(goal)
                && plan.reached == reached
                && plan.bestOfAll == bestOfAll
                && plan.next().equals(next())
                && plan.figures.equals(figures)
                && plan.answers.equals(answers);
    }

    @Override
    public int hashCode() {
        return 31 * clearances.hashCode() + next().hashCode();
    }

    /** {@return what to offer and what the plan is expected to need, for a log} */
    @Override
    public String toString() {
        return next().map(n -> "offer " + n).orElse(reached ? "reached" : end()) + ", " + clearances + ", " + figures;
    }
}
