package dev.lash.trend;

import dev.lash.trend.Forecast.Side;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.jspecify.annotations.Nullable;

/**
 * The ways to draw the trend of one gap; one that has no answer falls back on the prior, and says why.
 *
 * @param task the gap
 * @param data its readings in numbers
 * @param withPriors what is thought of it with priors
 * @param alone whether its law rests on its own readings only
 * @param basis what the prior rests on
 * @param ahead usages from now on
 * @param risk the stated risk
 */
record GapTrends(
        TrendTask task, LineData data, LineLaw withPriors, boolean alone, String basis, UsageAhead ahead, double risk) {
    private static final int CURVE = 12;

    GapTrend by(TrendMethod method) {
        return switch (method) {
            case MAXIMUM_LIKELIHOOD -> byLikelihood();
            case FEASIBLE_LINES -> byLines();
            case WITH_PRIORS, PRIOR_ONLY -> byPrior("");
        };
    }

    private GapTrend byPrior(String why) {
        boolean unread = data.readings() == 0;
        String note = why + (unread ? "no reading of this valve; " : "") + "prior: " + basis;
        TrendMethod method = unread ? TrendMethod.PRIOR_ONLY : TrendMethod.WITH_PRIORS;
        return byLaw(withPriors, method, null, note);
    }

    private GapTrend byLikelihood() {
        IntervalFit fit = WaldLaw.fit(data);
        return fit.maximum()
                .flatMap(maximum -> WaldLaw.of(data, maximum))
                .map(law -> byLaw(
                        law,
                        TrendMethod.MAXIMUM_LIKELIHOOD,
                        law.logLikelihood(),
                        "normal limits, too certain with few checks"))
                .orElseGet(() -> byPrior(whyNot(fit)));
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

    private GapTrend byLaw(LineLaw law, TrendMethod method, @Nullable Double logLikelihood, String note) {
        // the search for the whole engine and the forecast of the gap ask at the same places
        DoubleUnaryOperator stays = RiskCrossing.remembered(law::stays);
        return new GapTrend(task, false, stays, () -> {
            WearTrend trend = new WearTrend(
                    method,
                    task.history().checks(),
                    ahead.per(),
                    law.clearance(),
                    law.drift(),
                    law.driftError(),
                    law.scatter(),
                    logLikelihood,
                    alone && method == TrendMethod.WITH_PRIORS,
                    note);
            return new ValveTrend(task, trend, forecast(law, stays));
        });
    }

    private Forecast forecast(LineLaw law, DoubleUnaryOperator stays) {
        DoubleUnaryOperator left = use -> Math.max(0, 1 - stays.applyAsDouble(use));
        OptionalDouble latest = RiskCrossing.of(left, 1 - risk, ahead.horizon());
        double lookAhead = Math.max(latest.orElse(ahead.horizon()), 1);
        List<Forecast.Point> curve = new ArrayList<>(CURVE + 1);
        for (int i = 0; i <= CURVE; i++) {
            double use = lookAhead * i / CURVE;
            double gone = left.applyAsDouble(use);
            double tight = Math.min(gone, law.isBelow(use));
            curve.add(new Forecast.Point(ahead.after(use), tight, gone - tight));
        }
        // a valve that is more likely out than not has its side already
        Forecast.Point telling = curve.get(left.applyAsDouble(0) > 0.5 ? 0 : CURVE);
        return new Forecast(
                ahead.now(),
                risk,
                left.applyAsDouble(0),
                ahead.afterOrNull(RiskCrossing.of(left, risk, ahead.horizon())),
                ahead.afterOrNull(RiskCrossing.of(left, 0.5, ahead.horizon())),
                ahead.afterOrNull(latest),
                telling.tight() >= telling.loose() ? Side.TIGHT : Side.LOOSE,
                curve);
    }

    private GapTrend byLines() {
        Optional<StraightLines> found = StraightLines.of(task, ahead.now(), ahead.per());
        if (found.isEmpty()) {
            return byPrior(
                    data.readings() == 0
                            ? "no lines without a reading, so the prior; "
                            : "no straight line goes through every reading, so with priors; ");
        }
        StraightLines lines = found.get();
        double earliest = ahead.of(lines.earliest());
        // a step: no line has left before the earliest, one may have after it
        return new GapTrend(
                task, true, use -> earliest == 0 || use > earliest ? 0 : 1, () -> trendByLines(lines, earliest));
    }

    private ValveTrend trendByLines(StraightLines lines, double earliest) {
        double least = lines.lines().leastSlope().map(LineData::millimetres).orElse(Double.NEGATIVE_INFINITY);
        double greatest =
                lines.lines().greatestSlope().map(LineData::millimetres).orElse(Double.POSITIVE_INFINITY);
        boolean bounded = Double.isFinite(least) && Double.isFinite(greatest);
        WearTrend trend = new WearTrend(
                TrendMethod.FEASIBLE_LINES,
                task.history().checks(),
                ahead.per(),
                lines.clearance(),
                bounded ? (least + greatest) / 2 : 0,
                bounded ? (greatest - least) / 2 : Double.POSITIVE_INFINITY,
                null,
                null,
                false,
                bounded
                        ? "assumes straight wear"
                        : "assumes straight wear; the readings bound the drift on one side at most");
        Forecast forecast = new Forecast(
                ahead.now(),
                0,
                // some lines may be out where others are not: certain only when all are
                ahead.of(lines.latest()) == 0 ? 1 : 0,
                ahead.withinHorizon(earliest),
                null,
                ahead.withinHorizon(ahead.of(lines.latest())),
                lines.tightFirst() ? Side.TIGHT : Side.LOOSE,
                List.of());
        return new ValveTrend(task, trend, forecast);
    }
}
