package dev.lash.plan;

import static java.util.Objects.requireNonNull;

import dev.lash.gauge.Bracket;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.ReadingRule;
import dev.lash.measure.Length;
import dev.lash.measure.LengthDistribution;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.RejectedValueException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Plans which leaf to offer next. Immutable and thread-safe; every setting has a default.
 *
 * <table>
 * <caption>Settings</caption>
 * <tr><th>setting</th><th>default</th><th>meaning</th></tr>
 * <tr><td>objective</td><td>{@link Objective#EXPECTED}</td><td>least expected cost, or least worst case</td></tr>
 * <tr><td>prior</td><td>uniform</td><td>what is thought of the clearance before the first trial. Without one: uniform from 0 to
 * twice the upper end of the window (goal verdict), or to 1.25 times the thickest leaf (an assumption of this library)</td></tr>
 * <tr><td>drag band</td><td>0</td><td>a leaf is felt to drag when the clearance is this near to it, either way; without a band a
 * drag has no probability, though the plan still says what to do after one</td></tr>
 * <tr><td>stroke cost</td><td>{@link StrokeCost#USUAL}</td><td>what a stroke with one, two or three leaves costs</td></tr>
 * </table>
 *
 * <p><b>Model.</b> A state is the bracket: its strongest lower and its strongest upper bound. A trial may be offered when each
 * answer that the bracket allows narrows it. What is believed in a state is the prior cut to the bracket; a leaf of thickness t
 * goes when the clearance is above t + band, drags within the band, and does not go below it; the answer then narrows the bracket
 * by the reading rule, so that under the guarded rule the brackets after different answers overlap. The plan minimises first the
 * probability of ending outside the goal with no leaf left that helps, then the cost; ties go to the other cost, then to fewer
 * leaves, then to the thinner stack. A stroke that cannot lead to the goal is not made.
 *
 * <p><b>Method.</b> Dynamic programming over the pairs of distinct bounds: for n leaves or stacks in the bracket, at most of order
 * n squared states and n cubed steps (goals size and width). Under the simple rule with single leaves, equal costs and the goal
 * size this is the optimal binary search tree (Knuth 1971, "Optimum binary search trees", Acta Informatica 1). For the goal
 * verdict only the leaves and stacks nearest to each limit of the window matter, for each number of leaves and each kind of
 * bound: a trial further off can be replaced by one of them at the same cost without loss. They are found in one pass, so the
 * cost grows with the number of combinations only. For size and width, where more than {@value #MOST_TRIALS} combinations lie in
 * the bracket, stacks of more leaves are left out first.
 */
public final class LeafPlanner {
    static final int MOST_TRIALS = 400;
    private static final LeafPlanner DEFAULTS =
            new LeafPlanner(Objective.EXPECTED, null, Length.ZERO, StrokeCost.USUAL);

    private final Objective objective;
    private final @Nullable LengthDistribution prior;
    private final Length dragBand;
    private final StrokeCost cost;

    /** What a plan minimises, once the probability of ending outside the goal is least. */
    public enum Objective {
        /** The mean cost. */
        EXPECTED,
        /** The largest cost. */
        WORST_CASE
    }

    private LeafPlanner(Objective objective, @Nullable LengthDistribution prior, Length dragBand, StrokeCost cost) {
        this.objective = objective;
        this.prior = prior;
        this.dragBand = dragBand;
        this.cost = cost;
    }

    /** {@return the planner with the defaults above} */
    public static LeafPlanner withDefaults() {
        return DEFAULTS;
    }

    /**
     * The same with another objective.
     *
     * @param what what to minimise
     * @return the planner
     */
    public LeafPlanner withObjective(Objective what) {
        return new LeafPlanner(requireNonNull(what, "what"), prior, dragBand, cost);
    }

    /**
     * The same with a prior.
     *
     * @param distribution what is thought of the clearance before the first trial
     * @return the planner
     */
    public LeafPlanner withPrior(LengthDistribution distribution) {
        return new LeafPlanner(objective, requireNonNull(distribution, "distribution"), dragBand, cost);
    }

    /**
     * The same with another drag band.
     *
     * @param halfWidth how near to a leaf the clearance is when the leaf drags, either way; 0 to 0.1 mm
     * @return the planner
     * @throws RejectedValueException if it is outside the range
     */
    public LeafPlanner withDragBand(Length halfWidth) {
        if (halfWidth.signum() < 0 || halfWidth.isMoreThan(Length.ofMillimetres("0.1"))) {
            throw new RejectedValueException(
                    "drag band",
                    halfWidth.toString(),
                    "is out of range",
                    "0 mm to 0.1 mm",
                    "check the figure and its unit");
        }
        return new LeafPlanner(objective, prior, halfWidth, cost);
    }

    /**
     * The same with other costs.
     *
     * @param strokes what a stroke costs
     * @return the planner
     */
    public LeafPlanner withCost(StrokeCost strokes) {
        return new LeafPlanner(objective, prior, dragBand, requireNonNull(strokes, "strokes"));
    }

    /**
     * Plans from nothing known.
     *
     * @param gauges the leaves that are owned, and how many may be stacked
     * @param rule how trials are read
     * @param goal when to stop
     * @return the plan
     */
    public LeafPlan plan(GaugeSet gauges, ReadingRule rule, PlanGoal goal) {
        return plan(gauges, LengthInterval.any(), rule, goal);
    }

    /**
     * Plans from a reading.
     *
     * @param gauges the leaves that are owned, and how many may be stacked
     * @param present the reading so far, with its rule
     * @param goal when to stop
     * @return the plan
     */
    public LeafPlan plan(GaugeSet gauges, Bracket present, PlanGoal goal) {
        return plan(gauges, present.interval(), present.rule(), goal);
    }

    /**
     * Plans from an interval of clearances.
     *
     * @param gauges the leaves that are owned, and how many may be stacked
     * @param present the clearances that are possible
     * @param rule how trials are read
     * @param goal when to stop
     * @return the plan
     */
    public LeafPlan plan(GaugeSet gauges, LengthInterval present, ReadingRule rule, PlanGoal goal) {
        requireNonNull(rule, "rule");
        LengthDistribution belief = prior == null ? defaultPrior(gauges, goal) : prior;
        Strokes all = new Strokes(gauges, rule, cost);
        // with a drag band a leaf in the middle of the window can prove "within" by dragging, so then every leaf counts
        List<Strokes.Stroke> strokes = goal instanceof PlanGoal.OfVerdict verdict && dragBand.signum() == 0
                ? all.nearest(present, verdict.window())
                : all.inside(present);
        return new PlanSearch(gauges, strokes, present, goal, belief, dragBand, objective).plan();
    }

    private static LengthDistribution defaultPrior(GaugeSet gauges, PlanGoal goal) {
        double top = goal instanceof PlanGoal.OfVerdict verdict
                ? 2.0 * verdict.window().upper().nanometres()
                : 1.25
                        * gauges.leaves()
                                .get(gauges.leaves().size() - 1)
                                .thickness()
                                .nanometres();
        return length -> Math.max(0.0, Math.min(1.0, length.nanometres() / Math.max(top, 1.0)));
    }

    /**
     * The one leaf, of those on offer, that would do most to bring a goal within reach: with which the probability of ending
     * outside is least, and least what can end outside; of several the thinnest.
     *
     * @param gauges the leaves that are owned
     * @param present the clearances that are possible
     * @param rule how trials are read
     * @param goal when to stop
     * @param onOffer leaves that could be borrowed or bought, of a standard set for instance
     * @return the leaf, or empty when the goal is within reach already or no leaf helps
     */
    public Optional<Leaf> remedy(
            GaugeSet gauges, LengthInterval present, ReadingRule rule, PlanGoal goal, List<Leaf> onOffer) {
        LeafPlan best = plan(gauges, present, rule, goal);
        Optional<Leaf> remedy = Optional.empty();
        if (best.figures().certain()) {
            return remedy;
        }
        List<Leaf> sorted = new ArrayList<>(onOffer);
        Collections.sort(sorted);
        for (Leaf leaf : sorted) {
            if (gauges.leaves().contains(leaf) || gauges.leaves().size() >= GaugeSet.MOST_LEAVES) {
                continue;
            }
            LeafPlan plan = plan(gauges.withLeaf(leaf), present, rule, goal);
            if (isNearer(plan, best)) {
                best = plan;
                remedy = Optional.of(leaf);
            }
        }
        return remedy;
    }

    private static boolean isNearer(LeafPlan plan, LeafPlan than) {
        if (plan.figures().certain() != than.figures().certain()) {
            return plan.figures().certain();
        }
        double difference = plan.figures().probabilityOutside() - than.figures().probabilityOutside();
        return difference < -PlanSearch.ROUNDING;
    }
}
