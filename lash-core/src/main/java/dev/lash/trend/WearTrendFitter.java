package dev.lash.trend;

import static java.util.Objects.requireNonNull;

import dev.lash.engine.WearPrior;
import dev.lash.measure.LengthDistribution;
import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.Usage;
import dev.lash.trend.Forecast.Side;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import java.util.function.Supplier;
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
    private static final int CURVE = 12;

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
        Model model = model(tasks, prior, now);
        List<Drawn> drawn = draw(model, tasks, prior, now);
        List<ValveTrend> valves = drawn.stream().map(d -> d.trend.get()).toList();
        return new EngineTrend(valves, checkBy(drawn, left(model, drawn), risk, prior, now));
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
        Model model = model(tasks, prior, now);
        List<Drawn> drawn = draw(model, tasks, prior, now);
        DoubleUnaryOperator each = left(model, drawn);
        DoubleUnaryOperator left = remembered(each);
        return Arrays.stream(risks)
                .mapToObj(one -> checkBy(drawn, left, one, prior, now))
                .toList();
    }

    /** The same function, asked once for each use: searches begin at the same places. */
    private static DoubleUnaryOperator remembered(DoubleUnaryOperator function) {
        Map<Double, Double> known = new HashMap<>();
        return ahead -> known.computeIfAbsent(ahead, function::applyAsDouble);
    }

    /** A gap: the probability that it stays for so much use, and what is told of it. */
    private record Drawn(TrendTask task, DoubleUnaryOperator stays, Supplier<ValveTrend> trend) {}

    private List<Drawn> draw(Model model, List<TrendTask> tasks, WearPrior prior, Usage now) {
        List<Drawn> drawn = new ArrayList<>();
        for (int v = 0; v < tasks.size(); v++) {
            TrendTask task = tasks.get(v);
            LineData data = model.data.get(v);
            LineLaw withPriors = model.law(v);
            drawn.add(
                    switch (method) {
                        case MAXIMUM_LIKELIHOOD -> byLikelihood(task, data, withPriors, prior, now);
                        case FEASIBLE_LINES -> byLines(task, data, withPriors, prior, now);
                        case WITH_PRIORS, PRIOR_ONLY -> byPrior(task, data, withPriors, prior, now, "");
                    });
        }
        return drawn;
    }

    private DoubleUnaryOperator left(Model model, List<Drawn> drawn) {
        return method == TrendMethod.WITH_PRIORS || method == TrendMethod.PRIOR_ONLY
                ? ahead -> Math.max(0, 1 - model.posterior.allStay(ahead))
                : ahead -> 1
                        - drawn.stream()
                                .mapToDouble(d -> d.stays.applyAsDouble(ahead))
                                .reduce(1, (a, b) -> a * b);
    }

    private Drawn byPrior(TrendTask task, LineData data, LineLaw law, WearPrior prior, Usage now, String why) {
        return new Drawn(task, law::stays, () -> trendByPrior(task, data, law, prior, now, why));
    }

    private ValveTrend trendByPrior(
            TrendTask task, LineData data, LineLaw law, WearPrior prior, Usage now, String why) {
        boolean unread = data.readings() == 0;
        WearTrend trend = new WearTrend(
                unread ? TrendMethod.PRIOR_ONLY : TrendMethod.WITH_PRIORS,
                task.history().checks(),
                prior.per(),
                law.clearance(),
                law.drift(),
                law.driftError(),
                law.scatter(),
                null,
                why + (unread ? "no reading of this valve; " : "") + "prior: " + prior.basis());
        return new ValveTrend(task, trend, forecast(law, prior, now));
    }

    private Drawn byLikelihood(TrendTask task, LineData data, LineLaw withPriors, WearPrior prior, Usage now) {
        IntervalFit fit = WaldLaw.fit(data);
        return fit.maximum()
                .flatMap(maximum -> WaldLaw.of(data, maximum))
                .map(law -> new Drawn(task, law::stays, () -> trendByLikelihood(task, law, prior, now)))
                .orElseGet(() -> byPrior(task, data, withPriors, prior, now, whyNot(fit)));
    }

    private ValveTrend trendByLikelihood(TrendTask task, WaldLaw found, WearPrior prior, Usage now) {
        WearTrend trend = new WearTrend(
                TrendMethod.MAXIMUM_LIKELIHOOD,
                task.history().checks(),
                prior.per(),
                found.clearance(),
                found.drift(),
                found.driftError(),
                found.scatter(),
                found.logLikelihood(),
                "normal limits, too certain with few checks");
        return new ValveTrend(task, trend, forecast(found, prior, now));
    }

    private static String whyNot(IntervalFit fit) {
        return "no maximum of the likelihood ("
                + (fit instanceof IntervalFit.NoMaximum none
                        ? switch (none.reason()) {
                            case RANK -> "the readings do not span a line";
                            case ONE_SIDED -> "the ends that count are all on one side";
                            case THREADED_WITH_ROOM -> "a straight line goes through every reading";
                            case THREADED_AT_EDGE -> "a straight line just touches every reading";
                            case SCALE_UNBOUNDED -> "the readings have an end on one side only";
                            case FLAT -> "the readings hardly tell one line from another";
                        }
                        : "nothing was read since the last adjustment")
                + "), so with priors; ";
    }

    private Drawn byLines(TrendTask task, LineData data, LineLaw withPriors, WearPrior prior, Usage now) {
        Optional<StraightLines> found = StraightLines.of(task, now, prior.per());
        if (found.isEmpty()) {
            String why = data.readings() == 0
                    ? "no lines without a reading, so the prior; "
                    : "no straight line goes through every reading, so with priors; ";
            return byPrior(task, data, withPriors, prior, now, why);
        }
        StraightLines lines = found.get();
        double from = LineData.value(now.dividedBy(prior.per()));
        double earliest = ahead(lines.earliest(), from);
        // a step: no line has left before the earliest, one may have after it
        return new Drawn(
                task,
                ahead -> earliest == 0 || ahead > earliest ? 0 : 1,
                () -> trendByLines(task, lines, from, earliest, prior, now));
    }

    private static ValveTrend trendByLines(
            TrendTask task, StraightLines lines, double from, double earliest, WearPrior prior, Usage now) {
        double least =
                lines.lines().leastSlope().map(WearTrendFitter::millimetres).orElse(Double.NEGATIVE_INFINITY);
        double greatest =
                lines.lines().greatestSlope().map(WearTrendFitter::millimetres).orElse(Double.POSITIVE_INFINITY);
        boolean bounded = Double.isFinite(least) && Double.isFinite(greatest);
        WearTrend trend = new WearTrend(
                TrendMethod.FEASIBLE_LINES,
                task.history().checks(),
                prior.per(),
                lines.clearance(),
                bounded ? (least + greatest) / 2 : 0,
                bounded ? (greatest - least) / 2 : Double.POSITIVE_INFINITY,
                null,
                null,
                bounded
                        ? "assumes straight wear"
                        : "assumes straight wear; the readings bound the drift on one side at most");
        Forecast forecast = new Forecast(
                now,
                0,
                earliest == 0 ? 1 : 0,
                usage(earliest, prior, now),
                null,
                usage(ahead(lines.latest(), from), prior, now),
                lines.tightFirst() ? Side.TIGHT : Side.LOOSE,
                List.of());
        return new ValveTrend(task, trend, forecast);
    }

    private static double millimetres(Ratio nanometres) {
        return LineData.value(nanometres) / 1e6;
    }

    /** How far ahead a crossing lies, 0 for one that has happened, infinite for one that never does. */
    private static double ahead(Crossing crossing, double from) {
        return crossing.match(new Crossing.Cases<>() {
            @Override
            public Double alreadyLeft() {
                return 0.0;
            }

            @Override
            public Double at(Ratio usage) {
                return Math.max(0, LineData.value(usage) - from);
            }

            @Override
            public Double never() {
                return Double.POSITIVE_INFINITY;
            }
        });
    }

    private static @Nullable Usage usage(double ahead, WearPrior prior, Usage now) {
        return ahead > HORIZON ? null : after(now, prior, ahead);
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
        Model model = model(tasks, prior, now);
        return IntStream.range(0, tasks.size())
                .mapToObj(model::law)
                .<LengthDistribution>map(law -> {
                    double[] range = law.readingRange();
                    return TabledDistribution.of(range[0], range[1], law.readingUpTo());
                })
                .toList();
    }

    /** The gaps in numbers, and what is thought of them. */
    private record Model(List<LineData> data, EnginePosterior posterior) {
        Model(List<LineData> data, WearPrior prior) {
            this(data, new EnginePosterior(data, prior));
        }

        LineLaw law(int v) {
            return new PosteriorLaw(posterior, v, data.get(v));
        }
    }

    /**
     * The model of all readings; where no line comes near those of a gap, however fast the wear and large the scatter, something
     * else happened than wear, and of that gap only the last reading counts.
     */
    private static Model model(List<TrendTask> tasks, WearPrior prior, Usage now) {
        Model model =
                new Model(tasks.stream().map(t -> LineData.of(t, now, prior)).toList(), prior);
        return model.posterior.isPossible()
                ? model
                : new Model(tasks.stream().map(t -> agreeing(t, prior, now)).toList(), prior);
    }

    private static LineData agreeing(TrendTask task, WearPrior prior, Usage now) {
        LineData all = LineData.of(task, now, prior);
        return new EnginePosterior(List.of(all), prior).isPossible() ? all : LineData.of(lastOnly(task), now, prior);
    }

    private static TrendTask lastOnly(TrendTask task) {
        ClearanceHistory history = task.history();
        List<ClearanceHistory.Segment> last = history.last().map(r -> new ClearanceHistory.Segment(List.of(r))).stream()
                .toList();
        return new TrendTask(new ClearanceHistory(history.valve(), history.gap(), last), task.clearance());
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
        DoubleUnaryOperator left = remembered(ahead -> Math.max(0, 1 - law.stays(ahead)));
        OptionalDouble latest = RiskCrossing.of(left, 1 - risk, HORIZON);
        double lookAhead = Math.max(latest.orElse(HORIZON), 1);
        List<Forecast.Point> curve = new ArrayList<>(CURVE + 1);
        for (int i = 0; i <= CURVE; i++) {
            double ahead = lookAhead * i / CURVE;
            double gone = left.applyAsDouble(ahead);
            double tight = Math.min(gone, law.isBelow(ahead));
            curve.add(new Forecast.Point(after(now, prior, ahead), tight, gone - tight));
        }
        Forecast.Point last = curve.get(CURVE);
        return new Forecast(
                now,
                risk,
                left.applyAsDouble(0),
                usage(RiskCrossing.of(left, risk, HORIZON), prior, now),
                usage(RiskCrossing.of(left, 0.5, HORIZON), prior, now),
                usage(latest, prior, now),
                last.tight() >= last.loose() ? Side.TIGHT : Side.LOOSE,
                curve);
    }

    private CheckBy checkBy(List<Drawn> gaps, DoubleUnaryOperator left, double risk, WearPrior prior, Usage now) {
        double most = HORIZON;
        Usage cap = null;
        if (interval != null) {
            cap = now.plus(interval);
            most = Math.min(most, LineData.value(interval.dividedBy(prior.per())));
        }
        OptionalDouble by = anyLeaves(gaps, left, risk, most);
        if (by.isEmpty()) {
            return cap != null
                    ? new CheckBy(cap, risk, CheckBy.Reason.MAKERS_INTERVAL, null, null)
                    : new CheckBy(after(now, prior, HORIZON), risk, CheckBy.Reason.NO_LIMIT, null, null);
        }
        double ahead = by.getAsDouble();
        ClearanceHistory first = soonest(gaps, risk).task.history();
        return new CheckBy(
                after(now, prior, ahead),
                method == TrendMethod.FEASIBLE_LINES ? 0 : risk,
                ahead == 0 ? CheckBy.Reason.NOW : CheckBy.Reason.VALVE,
                first.valve(),
                first.gap());
    }

    /** Begins where the sum of the probabilities of single gaps passes the risk, which is a little before any of them has. */
    private static OptionalDouble anyLeaves(List<Drawn> gaps, DoubleUnaryOperator left, double risk, double most) {
        if (gaps.size() == 1) {
            return RiskCrossing.of(left, risk, most);
        }
        OptionalDouble sum = RiskCrossing.of(
                ahead -> gaps.stream()
                        .mapToDouble(gap -> 1 - gap.stays.applyAsDouble(ahead))
                        .sum(),
                risk,
                most);
        return sum.isPresent() && sum.getAsDouble() > 0
                ? RiskCrossing.near(left, risk, most, sum.getAsDouble())
                : RiskCrossing.of(left, risk, most);
    }

    /** The gap that leaves first; of those already more likely out than the risk, the likeliest. */
    private static Drawn soonest(List<Drawn> gaps, double risk) {
        Drawn likeliest = Collections.max(gaps, Comparator.comparingDouble(gap -> 1 - gap.stays.applyAsDouble(0)));
        if (1 - likeliest.stays.applyAsDouble(0) > risk) {
            return likeliest;
        }
        Drawn first = gaps.get(0);
        double soonest = HORIZON;
        for (Drawn gap : gaps) {
            // empty for all that leave later than the first so far
            OptionalDouble leaves = RiskCrossing.of(ahead -> 1 - gap.stays.applyAsDouble(ahead), risk, soonest);
            if (leaves.isPresent()) {
                first = gap;
                soonest = leaves.getAsDouble();
            }
        }
        return first;
    }

    private static @Nullable Usage usage(OptionalDouble ahead, WearPrior prior, Usage now) {
        return ahead.isPresent() ? after(now, prior, ahead.getAsDouble()) : null;
    }

    /** Rounded down to what a counter shows: whole distances, tenths of an hour. */
    private static Usage after(Usage now, WearPrior prior, double ahead) {
        Usage more = Usage.of(
                prior.per().amount().multiply(BigDecimal.valueOf(ahead)).setScale(3, RoundingMode.FLOOR),
                prior.per().unit());
        Usage then = now.plus(more);
        BigDecimal shown = then.amount().setScale(then.unit().isDistance() ? 0 : 1, RoundingMode.FLOOR);
        return shown.compareTo(now.amount()) < 0 ? now : Usage.of(shown, then.unit());
    }
}
