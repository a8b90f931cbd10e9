package dev.lash.examples.bench;

import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.WearPrior;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Usage;
import dev.lash.trend.ClearanceHistory;
import dev.lash.trend.EngineTrend;
import dev.lash.trend.IntervalFit;
import dev.lash.trend.IntervalRegression;
import dev.lash.trend.TrendTask;
import dev.lash.trend.WearTrendFitter;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.apache.commons.math3.optim.InitialGuess;
import org.apache.commons.math3.optim.MaxEval;
import org.apache.commons.math3.optim.PointValuePair;
import org.apache.commons.math3.optim.SimpleBounds;
import org.apache.commons.math3.optim.SimpleValueChecker;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;
import org.apache.commons.math3.optim.nonlinear.scalar.ObjectiveFunction;
import org.apache.commons.math3.optim.nonlinear.scalar.noderiv.BOBYQAOptimizer;
import org.apache.commons.math3.optim.nonlinear.scalar.noderiv.NelderMeadSimplex;
import org.apache.commons.math3.optim.nonlinear.scalar.noderiv.SimplexOptimizer;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * How long one maximum-likelihood fit takes, and how long general optimisers need for the same likelihood; "Speed" in
 * DEVELOPERS.md says how to run it.
 */
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(2)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
public class TrendBenchmark {
    /** Twelve checks of one valve, made up; a line does not thread them. Usage in thousands of km, clearances in mm. */
    @State(Scope.Benchmark)
    public static class Checks {
        private final double[] usage = {0, 4, 8, 12, 16, 20, 24, 28, 32, 36, 40, 44};
        private final double[] lower = {.20, .20, .18, .20, .15, .18, .15, .15, .13, .15, .10, .10};
        private final double[] upper = {.23, .22, .20, .23, .18, .20, .18, .18, .15, .18, .13, .12};
        private final double[] wideLower = {.15, .15, .18, .15, .15, .15, .15, .15, .13, .13, .10, .10};
        private final double[] wideUpper = {.23, .25, .22, .23, .20, .20, .20, .18, .18, .18, .15, .13};

        private IntervalRegression model = IntervalRegression.line(usage, lower, upper);
        private double[] start = {0};

        /** Checks that both ways lead to the same place, and takes the general optimisers' start from the middles. */
        @Setup
        public void prepare() {
            double meanUsage = 0;
            double meanMiddle = 0;
            for (int i = 0; i < usage.length; i++) {
                meanUsage += usage[i] / usage.length;
                meanMiddle += 0.5 * (lower[i] + upper[i]) / usage.length;
            }
            double sxx = 0;
            double sxy = 0;
            for (int i = 0; i < usage.length; i++) {
                sxx += Math.pow(usage[i] - meanUsage, 2);
                sxy += (usage[i] - meanUsage) * (0.5 * (lower[i] + upper[i]) - meanMiddle);
            }
            double slope = sxy / sxx;
            start = new double[] {10 * (meanMiddle - slope * meanUsage), 1000 * slope, Math.log(0.02)};
            double best = model.fit().maximum().orElseThrow().logLikelihood();
            for (PointValuePair found :
                    new PointValuePair[] {new TrendBenchmark().nelderMead(this), new TrendBenchmark().bobyqa(this)}) {
                if (!(Math.abs(found.getValue() - best) < 1e-6)) {
                    throw new IllegalStateException(found.getValue() + " instead of " + best);
                }
            }
        }

        /** The likelihood by intercept x 10, slope x 1000 and log(scale), so that all three are of like size. */
        private ObjectiveFunction likelihood() {
            return new ObjectiveFunction(p ->
                    model.logLikelihood(new double[] {p[0] / 10, p[1] / 1000}, Math.exp(p[2])));
        }
    }

    /** A made-up engine of four cylinders with four valves each, checked eight times. */
    @State(Scope.Benchmark)
    public static class Engine {
        private static final int CHECKS = 8;
        private static final int STEP = 20_000;

        private final Usage now = Usage.parse("60000 km");
        private final List<TrendTask> tasks = new ArrayList<>();

        /** Clearances that close up by 0.001 to 0.003 mm in 10000 km, read between leaves that are 0.02 mm apart. */
        public Engine() {
            Random random = new Random(20_310_402);
            for (int cylinder = 1; cylinder <= 4; cylinder++) {
                for (String role : List.of("in-1", "in-2", "ex-1", "ex-2")) {
                    tasks.add(task(ValveId.parse(cylinder + "-" + role), random));
                }
            }
        }

        private static TrendTask task(ValveId valve, Random random) {
            double middle = valve.role() == ValveRole.INTAKE ? 0.17 : 0.24;
            double level = middle + 0.01 * random.nextGaussian();
            double drift = -0.002 + 0.0007 * random.nextGaussian();
            ClearanceHistory.Builder history = ClearanceHistory.builder(valve, Gap.ONLY);
            for (int i = 0; i < CHECKS; i++) {
                int usage = i * 60_000 / (CHECKS - 1);
                double read = level + drift * usage / 10_000 + 0.005 * random.nextGaussian();
                long below = (long) Math.floor(read * 1e6 / STEP) * STEP;
                history.read(
                        Usage.parse(usage + " km"),
                        LengthInterval.open(Length.ofNanometres(below), Length.ofNanometres(below + STEP)));
            }
            return new TrendTask(
                    history.build(),
                    ClearanceSpec.typical(ClearanceWindow.parse(
                            valve.role() == ValveRole.INTAKE ? "0.12..0.22 mm" : "0.19..0.29 mm")));
        }
    }

    /**
     * Trends, forecasts and the time to check of a whole engine with 16 valves and 8 checks, with priors.
     *
     * @param engine the engine
     * @return the trends
     */
    @Benchmark
    public EngineTrend wholeEngine(Engine engine) {
        return WearTrendFitter.withDefaults().fit(engine.tasks, WearPrior.BY_DISTANCE, engine.now);
    }

    /**
     * The fit.
     *
     * @param checks the checks
     * @return the fit
     */
    @Benchmark
    public IntervalFit fit(Checks checks) {
        return checks.model.fit();
    }

    /**
     * The model made anew and the fit.
     *
     * @param checks the checks
     * @return the fit
     */
    @Benchmark
    public IntervalFit makeAndFit(Checks checks) {
        return IntervalRegression.line(checks.usage, checks.lower, checks.upper).fit();
    }

    /**
     * Brackets that a line threads, so that there is no maximum.
     *
     * @param checks the checks
     * @return why there is none
     */
    @Benchmark
    public IntervalFit threaded(Checks checks) {
        return IntervalRegression.line(checks.usage, checks.wideLower, checks.wideUpper)
                .fit();
    }

    /**
     * The same likelihood, by the simplex of Nelder and Mead of Commons Math.
     *
     * @param checks the checks
     * @return the maximum
     */
    @Benchmark
    public PointValuePair nelderMead(Checks checks) {
        return new SimplexOptimizer(new SimpleValueChecker(1e-10, 1e-10))
                .optimize(
                        new MaxEval(10_000),
                        checks.likelihood(),
                        GoalType.MAXIMIZE,
                        new InitialGuess(checks.start),
                        new NelderMeadSimplex(new double[] {0.1, 0.1, 0.2}));
    }

    /**
     * The same likelihood, by Powell's BOBYQA of Commons Math.
     *
     * @param checks the checks
     * @return the maximum
     */
    @Benchmark
    public PointValuePair bobyqa(Checks checks) {
        return new BOBYQAOptimizer(7, 0.2, 1e-6)
                .optimize(
                        new MaxEval(10_000),
                        checks.likelihood(),
                        GoalType.MAXIMIZE,
                        new InitialGuess(checks.start),
                        new SimpleBounds(new double[] {-100, -1000, -20}, new double[] {100, 1000, 5}));
    }
}
