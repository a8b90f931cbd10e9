package dev.lash.specs;

import dev.lash.check.CheckReport;
import dev.lash.engine.Gap;
import dev.lash.judge.VerdictProbabilities;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Usage;
import dev.lash.specs.JsonText.Fields;
import dev.lash.trend.CheckBy;
import dev.lash.trend.ClearanceHistory;
import dev.lash.trend.EngineTrend;
import dev.lash.trend.Forecast;
import dev.lash.trend.TrendMethod;
import dev.lash.trend.ValveTrend;
import dev.lash.trend.WearTrend;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/** Trends and forecasts as they stand in documents. Statistics: four digits are plenty. */
public final class TrendForms {
    private static final MathContext DIGITS = new MathContext(4, RoundingMode.HALF_EVEN);
    private static final double MILLIMETRES_PER_INCH = 25.4;

    private TrendForms() {}

    /**
     * Writes trends by themselves, in the unit of the sheet's gauges, with the figures that the shop laid over a template, and those that
     * the trends lean on and that it has not confirmed.
     *
     * @param report the report that they belong to
     * @param trend the trends
     * @return the document, without a line end
     */
    public static String write(CheckReport report, EngineTrend trend) {
        LengthUnit unit = report.sheet().gauges().unit();
        List<Map<String, Object>> valves = trend.valves().stream()
                .map(v -> {
                    Fields fields = new Fields()
                            .put("valve", v.task().history().valve().toString())
                            .put("gap", gap(v.task().history().gap()));
                    put(fields, v, unit);
                    return fields.map();
                })
                .toList();
        return JsonText.write(
                new Fields()
                        .put("valves", valves)
                        .put("checkBy", checkBy(report, trend))
                        .putList(
                                "overridden",
                                FigureForms.overridden(report.sheet().engine(), unit))
                        .putList("unconfirmed", FigureForms.unconfirmed(report.unconfirmedOfTrend(trend)))
                        .map(),
                true);
    }

    private static Optional<String> gap(Gap gap) {
        return Optional.of(gap).filter(g -> g != Gap.ONLY).map(Gap::word);
    }

    /** Adds trend and forecast to a valve. */
    static void put(Fields fields, ValveTrend valve, LengthUnit unit) {
        WearTrend trend = valve.trend();
        Fields form = new Fields().put("method", trend.method().word());
        if (Double.isFinite(trend.driftError())) {
            String per = " / " + trend.per();
            form.put("slope", length(trend.drift(), unit) + per);
            if (trend.method() == TrendMethod.FEASIBLE_LINES) {
                // for all straight lines the error is half the range that they span
                form.put(
                        "slopeRange",
                        List.of(
                                length(trend.drift() - trend.driftError(), unit) + per,
                                length(trend.drift() + trend.driftError(), unit) + per));
            } else {
                form.put("slopeStandardError", length(trend.driftError(), unit) + per);
            }
        }
        form.put("scatter", trend.findScatter().map(s -> length(s, unit)))
                .put("logLikelihood", trend.findLogLikelihood().map(l -> number(l)))
                .put("checks", trend.checks())
                .put("wear", valve.task().history().wear().map(w -> wear(w, unit)))
                .putText("note", trend.note());
        fields.put("trend", form.map());
        Forecast forecast = valve.forecast();
        Optional<Forecast.Point> now = forecast.curve().stream().findFirst();
        fields.put(
                "leavesWindow",
                new Fields()
                        .put("earliest", forecast.findEarliest().map(Usage::toString))
                        .put("median", forecast.findMedian().map(Usage::toString))
                        .put("latest", forecast.findLatest().map(Usage::toString))
                        .put("side", forecast.side().name().toLowerCase(Locale.ROOT))
                        .put("outsideNow", number(forecast.leftNow()))
                        .put("tightNow", now.map(point -> number(point.tight())))
                        .put("looseNow", now.map(point -> number(point.loose())))
                        .map());
    }

    private static Map<String, Object> wear(ClearanceHistory.Wear wear, LengthUnit unit) {
        return new Fields()
                .put("since", wear.since().toString())
                .put("fallLeast", wear.fall().lower().map(l -> l.toString(unit)))
                .put("fallMost", wear.fall().upper().map(l -> l.toString(unit)))
                .map();
    }

    static Map<String, Object> checkBy(CheckReport report, EngineTrend trend) {
        CheckBy by = trend.checkBy();
        return new Fields()
                .put("usage", by.usage().toString())
                .put("risk", number(by.risk()))
                .put("because", because(by))
                .put("checks", trend.checks())
                .putText("caveat", trend.caveat().orElse(""))
                .putList(
                        "now",
                        report.checkNow(trend).stream()
                                .map(now -> new Fields()
                                        .put("valve", now.valve().toString())
                                        .put("gap", gap(now.gap()))
                                        .put("do", now.work().word())
                                        .map())
                                .toList())
                .map();
    }

    /**
     * What sets the time to check, in words.
     *
     * @param by the time to check
     * @return a valve, "maker's interval", "now" or "no limit"
     */
    public static String because(CheckBy by) {
        return switch (by.reason()) {
            case VALVE ->
                by.findValve().orElseThrow()
                        + by.findGap()
                                .flatMap(TrendForms::gap)
                                .map(g -> " " + g)
                                .orElse("");
            case MAKERS_INTERVAL -> "maker's interval";
            case NOW -> "now";
            case NO_LIMIT -> "no limit";
        };
    }

    static Map<String, Object> probabilities(VerdictProbabilities odds) {
        return new Fields()
                .put("tight", number(odds.tight()))
                .put("within", number(odds.within()))
                .put("loose", number(odds.loose()))
                .map();
    }

    private static BigDecimal number(double value) {
        BigDecimal rounded = BigDecimal.valueOf(value).round(DIGITS).stripTrailingZeros();
        return rounded.abs().compareTo(new BigDecimal("1e-9")) < 0
                ? BigDecimal.ZERO
                : new BigDecimal(rounded.toPlainString());
    }

    /** A length that is a statistic: rounded. */
    private static String length(double millimetres, LengthUnit unit) {
        double inUnit = unit.isInch() ? millimetres / MILLIMETRES_PER_INCH : millimetres;
        return number(inUnit).toPlainString() + " " + unit.symbol();
    }
}
