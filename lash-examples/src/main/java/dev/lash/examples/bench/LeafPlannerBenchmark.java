package dev.lash.examples.bench;

import dev.lash.engine.ClearanceWindow;
import dev.lash.gauge.Bracket;
import dev.lash.gauge.Evidence;
import dev.lash.gauge.Fit;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.StandardGaugeSet;
import dev.lash.gauge.Trial;
import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.plan.LeafPlan;
import dev.lash.plan.LeafPlanner;
import dev.lash.plan.PlanGoal;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** How long a single call of the planner takes; "Speed" in DEVELOPERS.md says how to run it, and what came out. */
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(2)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
public class LeafPlannerBenchmark {
    private static final LeafPlanner PLANNER = LeafPlanner.withDefaults();
    private static final ClearanceWindow WINDOW = ClearanceWindow.parse("0.18..0.24 mm");

    /** The 32 leaves to 1.00 mm of the leaf grid of JIS B 7524:2008: with stacks of two, 528 single leaves and pairs. */
    @State(Scope.Benchmark)
    public static class GridSet {
        /** The rule; the figures of the guarded ones are assumed. */
        @Param({
            "simple",
            "guarded, tolerance 0.003 mm, drag allowance 0.00 mm",
            "guarded, tolerance 0.003 mm, drag allowance 0.005 mm"
        })
        public String rule = "simple";

        private GaugeSet gauges = grid();
        private ReadingRule reading = ReadingRule.simple();
        private Bracket answered = afterTheFirstAnswer();

        /** Reads the rule, and a first leaf that does not go, so that the verdict stays open. */
        @Setup
        public void read() {
            reading = ReadingRule.parse(rule);
            answered = afterTheFirstAnswer();
        }

        private static GaugeSet grid() {
            List<Leaf> leaves = StandardGaugeSet.METRIC_GRID.gauges().leaves().stream()
                    .filter(leaf -> !leaf.thickness().isMoreThan(Length.ofMillimetres("1")))
                    .toList();
            if (leaves.size() != 32) {
                throw new IllegalStateException(leaves.size() + " leaves instead of 32");
            }
            return new GaugeSet(leaves, 2, Length.ZERO, Length.ZERO, LengthUnit.MILLIMETRE);
        }

        private Bracket afterTheFirstAnswer() {
            LeafPlan plan = PLANNER.plan(gauges, reading, PlanGoal.verdict(WINDOW));
            Trial trial = new Trial(plan.next().orElseThrow(), Fit.REFUSES);
            return Evidence.of(List.of(trial), reading).bracket().orElseThrow();
        }
    }

    /** An assumed set: 0.03 mm and up by 0.01 mm. */
    @State(Scope.Benchmark)
    public static class Growing {
        /** How many leaves. */
        @Param({"8", "16", "32", "64"})
        public int leaves = 8;

        private GaugeSet gauges = of(8);

        /** Makes the set. */
        @Setup
        public void make() {
            gauges = of(leaves);
        }

        private static GaugeSet of(int leaves) {
            return new GaugeSet(
                    IntStream.range(0, leaves)
                            .mapToObj(i -> new Leaf(Length.ofNanometres(30_000L + 10_000L * i)))
                            .toList(),
                    1,
                    Length.ZERO,
                    Length.ZERO,
                    LengthUnit.MILLIMETRE);
        }
    }

    /**
     * The first plan for a verdict, from nothing known.
     *
     * @param set the leaves and the rule
     * @return the plan
     */
    @Benchmark
    public LeafPlan firstPlanForAVerdict(GridSet set) {
        return PLANNER.plan(set.gauges, set.reading, PlanGoal.verdict(WINDOW));
    }

    /**
     * The plan after one answer.
     *
     * @param set the leaves and the reading
     * @return the plan
     */
    @Benchmark
    public LeafPlan replanAfterAnAnswer(GridSet set) {
        return PLANNER.plan(set.gauges, set.answered, PlanGoal.verdict(WINDOW));
    }

    /**
     * A verdict with stacks of two, by the number of leaves.
     *
     * @param set the leaves
     * @return the plan
     */
    @Benchmark
    public LeafPlan verdictWithPairs(Growing set) {
        return PLANNER.plan(set.gauges.withStacksOf(2), ReadingRule.simple(), PlanGoal.verdict(WINDOW));
    }

    /**
     * A size with single leaves, by the number of leaves.
     *
     * @param set the leaves
     * @return the plan
     */
    @Benchmark
    public LeafPlan sizeWithSingleLeaves(Growing set) {
        return PLANNER.plan(set.gauges, ReadingRule.simple(), PlanGoal.size());
    }
}
