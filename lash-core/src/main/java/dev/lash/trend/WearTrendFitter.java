package dev.lash.trend;

import static java.util.Objects.requireNonNull;

import dev.lash.engine.WearPrior;
import dev.lash.measure.LengthDistribution;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.Usage;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
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
 * has no answer or a far too certain one; with many the prior hardly matters. By the prior alone no reading counts, and each gap is
 * thought to be set anew now</td></tr>
 * <tr><td>risk</td><td>0.05</td><td>the probability that any valve may have left by the time to check</td></tr>
 * <tr><td>maker's interval</td><td>none</td><td>never later than this after the last check</td></tr>
 * </table>
 */
public final class WearTrendFitter {
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

    /** {@return the settings in words, such as {@code "with-priors, risk 0.05, no maker's interval"}} */
    @Override
    public String toString() {
        return method.word() + ", risk " + risk + ", " + (interval == null ? "no" : interval + " as the")
                + " maker's interval";
    }

    /**
     * Fits all gaps of an engine.
     *
     * @param tasks the gaps
     * @param prior what is thought of the wear beforehand
     * @param now what the counter shows now, not less than at any reading
     * @return trends, forecasts and the time to check
     * @throws RejectedValueException if there is no gap, one is given twice, or a usage is of another kind than the prior or later than
     *     now
     */
    public EngineTrend fit(List<TrendTask> tasks, WearPrior prior, Usage now) {
        check(tasks, prior, now);
        List<TrendTask> counted = counted(tasks);
        EngineModel model = EngineModel.of(counted, prior, now);
        List<GapTrend> gaps = gaps(model, counted, prior, now);
        List<ValveTrend> valves = gaps.stream().map(GapTrend::valveTrend).toList();
        return new EngineTrend(valves, search(model, gaps, prior, now).at(risk));
    }

    /**
     * The times to check at several risks, from one fit and without the trends and forecasts of single gaps; each is that of
     * {@link #fit} at that risk. The fitter's own risk does not count.
     *
     * @param tasks the gaps
     * @param prior what is thought of the wear beforehand
     * @param now what the counter shows now, not less than at any reading
     * @param risks the risks, each 0.0001 to 0.5
     * @return the time to check for each risk, in their order
     * @throws RejectedValueException as {@link #fit} and {@link #withRisk}
     */
    public List<CheckBy> checkBy(List<TrendTask> tasks, WearPrior prior, Usage now, double... risks) {
        for (double one : risks) {
            withRisk(one);
        }
        check(tasks, prior, now);
        List<TrendTask> counted = counted(tasks);
        EngineModel model = EngineModel.of(counted, prior, now);
        CheckBySearch search = search(model, gaps(model, counted, prior, now), prior, now);
        return Arrays.stream(risks).mapToObj(search::at).toList();
    }

    /** The gaps with the readings that count: by the prior alone, none does. */
    private List<TrendTask> counted(List<TrendTask> tasks) {
        return method != TrendMethod.PRIOR_ONLY
                ? tasks
                : tasks.stream()
                        .map(task -> new TrendTask(
                                new ClearanceHistory(
                                        task.history().valve(), task.history().gap(), List.of()),
                                task.clearance()))
                        .toList();
    }

    private List<GapTrend> gaps(EngineModel model, List<TrendTask> tasks, WearPrior prior, Usage now) {
        UsageAhead ahead = new UsageAhead(prior.per(), now);
        List<GapTrend> gaps = new ArrayList<>();
        for (int v = 0; v < tasks.size(); v++) {
            gaps.add(new GapTrends(
                            tasks.get(v),
                            model.data(v),
                            model.law(v),
                            model.isAlone(v),
                            prior.basis() + model.note(v),
                            ahead,
                            risk)
                    .by(method));
        }
        return gaps;
    }

    private CheckBySearch search(EngineModel model, List<GapTrend> gaps, WearPrior prior, Usage now) {
        DoubleUnaryOperator left = method == TrendMethod.WITH_PRIORS || method == TrendMethod.PRIOR_ONLY
                ? ahead -> 1 - model.allStay(ahead)
                : ahead ->
                        1 - gaps.stream().mapToDouble(gap -> gap.stays(ahead)).reduce(1, (a, b) -> a * b);
        return new CheckBySearch(gaps, left, new UsageAhead(prior.per(), now), interval);
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
        EngineModel model = EngineModel.of(counted(tasks), prior, now);
        return IntStream.range(0, tasks.size())
                .mapToObj(model::law)
                .<LengthDistribution>map(law -> {
                    double[] range = law.readingRange();
                    return TabledDistribution.of(range[0], range[1], law.readingUpTo());
                })
                .toList();
    }

    private static void check(List<TrendTask> tasks, WearPrior prior, Usage now) {
        requireNonNull(tasks, "tasks");
        requireNonNull(prior, "prior");
        requireNonNull(now, "now");
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
        Set<String> gaps = new HashSet<>();
        for (TrendTask task : tasks) {
            requireNonNull(task, "task");
            String gap = task.name();
            if (!gaps.add(gap)) {
                throw new RejectedValueException(
                        "tasks", gap, "is given twice", "each gap once", "put all its readings in one history");
            }
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
}
