package dev.lash.trend;

import static java.util.Objects.requireNonNull;

import dev.lash.engine.WearPrior;
import dev.lash.measure.LengthDistribution;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.Usage;
import dev.lash.trend.Forecast.Side;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * Fits the wear of an engine's valves and forecasts when they leave their windows. Immutable and thread-safe.
 *
 * <table>
 * <caption>Settings</caption>
 * <tr><th>setting</th><th>default</th><th>meaning</th></tr>
 * <tr><td>method</td><td>with priors</td><td>how trends are drawn. With few readings, which is the normal case, maximum likelihood
 * has no answer or a far too certain one; with many the prior hardly matters</td></tr>
 * <tr><td>risk</td><td>0.05</td><td>the probability that any valve may have left by the time to check</td></tr>
 * <tr><td>maker's interval</td><td>none</td><td>never later than this after now</td></tr>
 * </table>
 */
public final class WearTrendFitter {
    private static final double HORIZON = 30;
    private static final int CURVE = 24;

    private final TrendMethod method;
    private final double risk;
    private final @Nullable Usage interval;

    private WearTrendFitter(TrendMethod method, double risk, @Nullable Usage interval) {
        this.method = method;
        this.risk = risk;
        this.interval = interval;
    }

    /** {@return a fitter with the defaults of the table} */
    public static WearTrendFitter withDefaults() {
        return new WearTrendFitter(TrendMethod.WITH_PRIORS, 0.05, null);
    }

    /**
     * The same with another method.
     *
     * @param other the method
     * @return the fitter
     */
    public WearTrendFitter withMethod(TrendMethod other) {
        return new WearTrendFitter(requireNonNull(other, "other"), risk, interval);
    }

    /**
     * The same with another risk.
     *
     * @param other the risk, 0.0001 to 0.5
     * @return the fitter
     * @throws RejectedValueException if it is out of range
     */
    public WearTrendFitter withRisk(double other) {
        if (!(other >= 0.0001 && other <= 0.5)) {
            throw new RejectedValueException(
                    "risk", String.valueOf(other), "is out of range", "0.0001 to 0.5", "give a share, such as 0.05");
        }
        return new WearTrendFitter(method, other, interval);
    }

    /**
     * The same with the maker's interval.
     *
     * @param other the usage from one check to the next; {@code null} for none
     * @return the fitter
     */
    public WearTrendFitter withInterval(@Nullable Usage other) {
        return new WearTrendFitter(method, risk, other);
    }

    /** {@return how trends are drawn} */
    public TrendMethod method() {
        return method;
    }

    /** {@return the stated risk} */
    public double risk() {
        return risk;
    }

    /**
     * Fits all gaps of an engine.
     *
     * @param tasks the gaps
     * @param prior what is thought of the wear beforehand
     * @param now what the counter shows now, not less than at any reading
     * @return trends, forecasts and the time to check
     * @throws RejectedValueException if there is no gap, or a usage is of another kind than the prior or later than now
     */
    public EngineTrend fit(List<TrendTask> tasks, WearPrior prior, Usage now) {
        check(tasks, prior, now);
        List<LineData> data =
                tasks.stream().map(t -> LineData.of(t, now, prior)).toList();
        EnginePosterior posterior = new EnginePosterior(data, prior);
        List<ValveTrend> valves = new ArrayList<>();
        for (int v = 0; v < tasks.size(); v++) {
            PosteriorLaw law = new PosteriorLaw(posterior, v, data.get(v));
            TrendMethod drawn = data.get(v).readings() == 0 ? TrendMethod.PRIOR_ONLY : TrendMethod.WITH_PRIORS;
            WearTrend trend = new WearTrend(
                    drawn,
                    tasks.get(v).history().checks(),
                    prior.per(),
                    law.drift(),
                    law.driftError(),
                    law.scatter(),
                    null,
                    drawn == TrendMethod.PRIOR_ONLY ? "no reading of this valve: " + prior.basis() : prior.basis());
            valves.add(new ValveTrend(tasks.get(v), trend, forecast(law, prior, now)));
        }
        return new EngineTrend(valves, checkBy(valves, ahead -> 1 - posterior.allStay(ahead), prior, now));
    }

    /**
     * What the next reading of each gap is expected to be: a prior for {@link dev.lash.plan.LeafPlanner} and for the probabilities of
     * a verdict, from a history that ends before that reading.
     *
     * @param tasks the gaps
     * @param prior what is thought of the wear beforehand
     * @param now what the counter shows at the next reading
     * @return a distribution of the clearance read for each gap, in their order
     * @throws RejectedValueException as {@link #fit}
     */
    public List<LengthDistribution> expectedReadings(List<TrendTask> tasks, WearPrior prior, Usage now) {
        check(tasks, prior, now);
        List<LineData> data =
                tasks.stream().map(t -> LineData.of(t, now, prior)).toList();
        EnginePosterior posterior = new EnginePosterior(data, prior);
        return IntStream.range(0, data.size())
                .mapToObj(v -> new PosteriorLaw(posterior, v, data.get(v)))
                .<LengthDistribution>map(law -> {
                    double[] range = law.readingRange();
                    return TabledDistribution.of(range[0], range[1], law::readingUpTo);
                })
                .toList();
    }

    private static void check(List<TrendTask> tasks, WearPrior prior, Usage now) {
        if (tasks.isEmpty()) {
            throw new RejectedValueException("tasks", "none", "is empty", "at least one gap", "name the valves");
        }
        if (!prior.per().isSameKind(now)) {
            throw new RejectedValueException(
                    "wear prior",
                    prior.per().toString(),
                    "does not count what the counter does",
                    "a prior for " + (now.unit().isDistance() ? "a distance" : "running hours"),
                    "take a prior for the same kind of counter");
        }
        for (TrendTask task : tasks) {
            task.history()
                    .last()
                    .filter(last -> last.usage().compareAmount(now) > 0)
                    .ifPresent(last -> {
                        throw new RejectedValueException(
                                "usage",
                                now.toString(),
                                "is less than that of a reading, " + last.usage(),
                                "at least " + last.usage(),
                                "give what the counter shows now");
                    });
        }
    }

    private Forecast forecast(LineLaw law, WearPrior prior, Usage now) {
        DoubleUnaryOperator left = ahead -> 1 - law.stays(ahead);
        double end = RiskCrossing.of(left, 1 - risk, HORIZON).orElse(HORIZON);
        double lookAhead = Math.max(end, 1);
        List<Forecast.Point> curve = new ArrayList<>(CURVE + 1);
        for (int i = 0; i <= CURVE; i++) {
            double ahead = lookAhead * i / CURVE;
            double tight = law.isBelow(ahead);
            curve.add(new Forecast.Point(after(now, prior, ahead), tight, Math.max(0, 1 - law.stays(ahead) - tight)));
        }
        Forecast.Point last = curve.get(CURVE);
        return new Forecast(
                now,
                risk,
                left.applyAsDouble(0),
                usage(RiskCrossing.of(left, risk, HORIZON), prior, now),
                usage(RiskCrossing.of(left, 0.5, HORIZON), prior, now),
                usage(RiskCrossing.of(left, 1 - risk, HORIZON), prior, now),
                last.tight() >= last.loose() ? Side.TIGHT : Side.LOOSE,
                curve);
    }

    private CheckBy checkBy(List<ValveTrend> valves, DoubleUnaryOperator left, WearPrior prior, Usage now) {
        double most = HORIZON;
        Usage cap = null;
        if (interval != null) {
            cap = now.plus(interval);
            most = Math.min(most, LineData.value(interval.dividedBy(prior.per())));
        }
        OptionalDouble by = RiskCrossing.of(left, risk, most);
        if (by.isEmpty()) {
            return cap != null
                    ? new CheckBy(cap, risk, CheckBy.Reason.MAKERS_INTERVAL, null, null)
                    : new CheckBy(after(now, prior, HORIZON), risk, CheckBy.Reason.NO_LIMIT, null, null);
        }
        double ahead = by.getAsDouble();
        ClearanceHistory first = soonest(valves);
        return new CheckBy(
                after(now, prior, ahead),
                risk,
                ahead == 0 ? CheckBy.Reason.NOW : CheckBy.Reason.VALVE,
                first.valve(),
                first.gap());
    }

    /** The gap that leaves first; of those already more likely out than the risk, the likeliest. */
    private static ClearanceHistory soonest(List<ValveTrend> valves) {
        ValveTrend first = valves.get(0);
        for (ValveTrend valve : valves) {
            if (isSooner(valve.forecast(), first.forecast())) {
                first = valve;
            }
        }
        return first.task().history();
    }

    private static boolean isSooner(Forecast a, Forecast b) {
        Usage x = a.earliest();
        Usage y = b.earliest();
        int order = x == null || y == null ? (x == null ? 1 : 0) - (y == null ? 1 : 0) : x.compareAmount(y);
        return order < 0 || (order == 0 && a.leftNow() > b.leftNow());
    }

    private static @Nullable Usage usage(OptionalDouble ahead, WearPrior prior, Usage now) {
        return ahead.isPresent() ? after(now, prior, ahead.getAsDouble()) : null;
    }

    /** Rounded down to what a counter shows: whole distances, tenths of an hour. */
    private static Usage after(Usage now, WearPrior prior, double ahead) {
        Usage more = Usage.of(
                prior.per().amount().multiply(BigDecimal.valueOf(ahead), MathContext.DECIMAL64),
                prior.per().unit());
        Usage then = now.plus(more);
        BigDecimal shown = then.amount().setScale(then.unit().isDistance() ? 0 : 1, RoundingMode.FLOOR);
        return shown.compareTo(now.amount()) < 0 ? now : Usage.of(shown, then.unit());
    }
}
