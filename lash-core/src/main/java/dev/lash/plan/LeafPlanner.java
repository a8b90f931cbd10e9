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
 * <p><b>Model.</b> A state is the bracket, its strongest lower and its strongest upper bound, and what is believed within it. A
 * trial may be offered when each answer that the bracket allows narrows it. Before the first trial the prior is believed, cut to
 * the bracket and to clearances of 0 or more. A leaf of thickness t goes when the clearance is above t + band, drags within the
 * band, and does not go below it; the belief is cut to that, and the bracket is narrowed by the reading rule. So under the guarded
 * rule the brackets after different answers overlap, while the probabilities stay those of one clearance under one hand. When what
 * was felt had no probability (a drag without a band), the prior cut to the bracket is believed again; where the prior rules the
 * bracket out, the default prior; where that does too, each answer is as likely as another. In every state the plan minimises
 * first the probability of ending outside the goal with no leaf left that helps, then the cost; ties go to the other cost, then to
 * fewer leaves, then to the thinner stack. A stroke that cannot lead to the goal is not made. A lower end of 0 counts as none. A
 * second drag is taken to narrow the bracket like the first, whereas {@link dev.lash.gauge.Evidence} takes several drags together
 * as doubtful: plan anew after one.
 *
 * <p><b>Method.</b> Dynamic programming over the states: for n leaves or stacks in the bracket, of order n squared states and n
 * cubed steps (goals size and width). Under the simple rule with single leaves, equal costs and the goal size this is the optimal
 * binary search tree (Knuth 1971, "Optimum binary search trees", Acta Informatica 1).
 *
 * <p>For the goal verdict without a drag band the strokes nearest to each limit of the window are found in one pass, for each
 * number of leaves and each way to prove a side of the limit, so that the cost grows with the number of combinations only. One of
 * each suffices while the rule has no drag allowance and, if it has a tolerance, no stack costs more than a leaf: a trial
 * further off can be exchanged for one of them without loss. Otherwise it may be of use: a leaf that drags may leave the nearest
 * one nothing to tell, and a single leaf may tell which stack is worth its cost.
 *
 * <p><b>What is left out.</b> So long as {@link LeafPlan#isBestOfAll()} holds, no other plan is better. It does not where the work
 * was cut short, and the plan is then the best among the strokes considered:
 * <ul>
 * <li>For the goals size and width, and for a verdict with a drag band, at most {@value #MOST_TRIALS} leaves and stacks are searched.
 * Where more lie in the bracket, first stacks go that are as thick as fewer leaves, then stacks of more leaves. A size counts as
 * reached only where no stack that was left out could narrow the bracket.
 * <li>For a verdict under a drag allowance, or under a tolerance with dearer stacks, all strokes are searched up to {@value
 * #FEW_TRIALS}; where there are more, the {@value #NEAREST_TRIALS} nearest of each kind. With a drag band these are searched
 * together with those that the other goals would search.
 * <li>Where tolerances, stacks and a band let the states become more than the larger of 10&nbsp;000 and n squared, the belief in
 * further ones is the prior cut to the bracket.
 * </ul>
 */
public final class LeafPlanner {
    static final int MOST_TRIALS = 200;
    static final int FEW_TRIALS = 100;
    static final int NEAREST_TRIALS = 12;
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
     * The same with a prior. A plan refuses it, with a {@link RejectedValueException}, where it comes upon a probability that is not
     * within 0 to 1 or that falls as the length grows.
     *
     * @param distribution what is thought of the clearance before the first trial
     * @return the planner
     */
    public LeafPlanner withPrior(LengthDistribution distribution) {
        return new LeafPlanner(objective, requireNonNull(distribution, "distribution"), dragBand, cost);
    }

    /** {@return what is thought of the clearance before the first trial, or empty where the plan takes its uniform default} */
    public Optional<LengthDistribution> prior() {
        return Optional.ofNullable(prior);
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
     * @throws RejectedValueException if the prior has a value that no cumulative probability can have
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
     * @throws RejectedValueException if the prior has a value that no cumulative probability can have
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
     * @throws RejectedValueException if the prior has a value that no cumulative probability can have
     */
    public LeafPlan plan(GaugeSet gauges, LengthInterval present, ReadingRule rule, PlanGoal goal) {
        requireNonNull(gauges, "gauges");
        requireNonNull(present, "present");
        requireNonNull(rule, "rule");
        requireNonNull(goal, "goal");
        LengthDistribution byDefault = defaultPrior(gauges, goal);
        return new PlanSearch(
                        gauges,
                        new Strokes(gauges, rule, cost).choose(present, goal, dragBand.signum() > 0),
                        present,
                        goal,
                        prior == null ? byDefault : prior,
                        byDefault,
                        dragBand,
                        objective)
                .plan();
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
     * The one leaf, of those on offer, that would do most to bring a goal within reach: with which it is certain to be reached, or
     * else the probability of ending outside is least; of several the thinnest.
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
        List<Leaf> sorted = onOffer.stream().sorted().toList();
        LeafPlan plan = plan(gauges, present, rule, goal);
        return plan.figures().certain()
                ? Optional.empty()
                : new OutOfReach.Search(this, gauges, present, rule, plan)
                        .leaf(sorted).best().toAdd().stream().findFirst();
    }

    /**
     * Why a goal is out of reach, and the single leaf or stack that would bring it within reach, or nearer. Looked for in this
     * order, until the goal is certain to be reached: one leaf on offer; two leaves of the set laid together, where it has no
     * stacks; a stack of two with one leaf on offer, then with two. Where nothing makes it certain, the first that makes the
     * probability of ending outside least.
     *
     * @param gauges the leaves that are owned
     * @param present the clearances that are possible
     * @param rule how trials are read
     * @param goal when to stop
     * @param onOffer leaves that could be borrowed or bought: those of {@link dev.lash.gauge.StandardGaugeSet}, for instance
     * @return why and what to add, or empty when the goal is within reach
     */
    public Optional<OutOfReach> outOfReach(
            GaugeSet gauges, LengthInterval present, ReadingRule rule, PlanGoal goal, List<Leaf> onOffer) {
        List<Leaf> sorted = onOffer.stream().sorted().distinct().toList();
        LeafPlan plan = plan(gauges, present, rule, goal);
        return plan.figures().certain()
                ? Optional.empty()
                : Optional.of(new OutOfReach.Search(this, gauges, present, rule, plan)
                        .leaf(sorted)
                        .stacks(sorted)
                        .best());
    }
}
