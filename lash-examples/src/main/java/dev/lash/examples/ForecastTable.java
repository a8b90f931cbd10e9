package dev.lash.examples;

import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import dev.lash.measure.Usage;
import dev.lash.trend.EngineTrend;
import dev.lash.trend.Forecast;
import dev.lash.trend.TrendMethod;
import dev.lash.trend.ValveTrend;
import dev.lash.trend.WearTrend;
import dev.lash.trend.WearTrendFitter;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** The figures of a forecast: a table for each method that answered, since their columns do not say the same. */
final class ForecastTable {
    private static final double MILLIMETRES_PER_INCH = 25.4;

    /** Decimals of a length in millimetres, and in inches. */
    private static final int DECIMALS = 3;

    private static final int INCH_DECIMALS = 4;

    /** A side that is less likely is not worth a word. */
    private static final double LEAST_TOLD = 0.005;

    private final EngineTrend trend;
    private final TrendMethod asked;
    private final double risk;
    private final LengthUnit unit;

    /** @param fitter what the trends were asked of */
    ForecastTable(EngineTrend trend, WearTrendFitter fitter, LengthUnit unit) {
        this.trend = trend;
        this.asked = fitter.method();
        this.risk = fitter.risk();
        this.unit = unit;
    }

    void write(StringBuilder out) {
        Map<TrendMethod, List<ValveTrend>> byMethod = trend.valves().stream()
                .collect(Collectors.groupingBy(
                        v -> method(v.trend()), () -> new EnumMap<>(TrendMethod.class), Collectors.toList()));
        byMethod.forEach((method, valves) -> {
            out.append('\n');
            if (method != asked) {
                TextTable.paragraph(
                        "By the method " + method.word() + ", as " + asked.word() + " has no answer there:", "", out);
            }
            out.append(table(method, valves));
        });
        ValveTrend any = trend.valves().get(0);
        TextTable.paragraph(
                "Drift in " + (unit.isInch() ? "in" : "mm") + " per " + per(any)
                        + ", negative as the clearance closes up.",
                "",
                out);
        out.append('\n');
        byMethod.keySet().stream().map(this::meaning).distinct().forEach(text -> TextTable.paragraph(text, "", out));
        TextTable.paragraph(
                "> later than the forecast looks ahead. Side: where the valve leaves"
                        + (asked == TrendMethod.FEASIBLE_LINES
                                ? "."
                                : "; now: how likely its line, about which a reading scatters, is outside already, if more than "
                                        + "the risk."),
                "",
                out);
        if (isShared()) {
            TextTable.paragraph(
                    "The engine must come back before any of its valves alone reaches " + percent(risk)
                            + ": it is enough that one of them has left.",
                    "",
                    out);
        }
    }

    /** A gap without a reading is told by the prior alone, in the same columns. */
    private static TrendMethod method(WearTrend of) {
        return of.method() == TrendMethod.PRIOR_ONLY ? TrendMethod.WITH_PRIORS : of.method();
    }

    /** Whether no valve by itself explains the time to check. */
    private boolean isShared() {
        return trend.checkBy().risk() > 0
                && trend.limiting().isPresent()
                && trend.valves().stream()
                        .flatMap(valve -> valve.forecast().findEarliest().stream())
                        .allMatch(alone -> alone.compareAmount(trend.checkBy().usage()) > 0);
    }

    private String meaning(TrendMethod method) {
        return method == TrendMethod.FEASIBLE_LINES
                ? "Earliest, Latest: when the first and the last of all straight lines through the readings leaves the window. "
                        + "Drift: the least and the greatest of these lines. They know no probability, so a risk does not count."
                : shares() + ": the usage by which the valve has left its window with that probability. Drift: +- one "
                        + "standard deviation.";
    }

    private String shares() {
        return percent(risk) + ", 50 %, " + percent(1 - risk);
    }

    private String table(TrendMethod method, List<ValveTrend> valves) {
        boolean lines = method == TrendMethod.FEASIBLE_LINES;
        TextTable table = new TextTable(TextReport.WIDTH);
        List<String> heading = new ArrayList<>(List.of("Valve", "Checks", "Now", "Drift"));
        heading.addAll(lines ? List.of("Earliest", "Latest") : List.of(percent(risk), "50 %", percent(1 - risk)));
        heading.add("Side");
        table.row(heading.stream().map(List::of).toList());
        for (ValveTrend valve : valves) {
            WearTrend t = valve.trend();
            Forecast f = valve.forecast();
            List<String> row = new ArrayList<>(List.of(
                    valve.name(),
                    String.valueOf(t.checks()),
                    valve.findClearance().map(this::length).orElse("-"),
                    drift(valve),
                    usage(f, f.findEarliest())));
            if (!lines) {
                row.add(usage(f, f.findMedian()));
            }
            row.add(usage(f, f.findLatest()));
            row.add(f.side().name().toLowerCase(Locale.ROOT) + now(f));
            table.row(row.stream().map(List::of).toList());
        }
        return table.write();
    }

    /** How likely a gap is outside already, on which side; nothing where that is no more than the risk. */
    private String now(Forecast f) {
        if (f.leftNow() <= risk) {
            return "";
        }
        String sides = f.curve().stream()
                .findFirst()
                .map(point -> Stream.of(Map.entry("tight", point.tight()), Map.entry("loose", point.loose()))
                        .filter(side -> side.getValue() >= LEAST_TOLD)
                        .map(side -> percent(side.getValue()) + " " + side.getKey())
                        .collect(Collectors.joining(", ")))
                .orElse("outside");
        return "; now " + sides;
    }

    private static String usage(Forecast forecast, Optional<Usage> usage) {
        return usage.map(u -> u.compareAmount(forecast.now()) <= 0
                        ? "now"
                        : u.amount().toPlainString())
                .orElse(">");
    }

    private String length(double millimetres) {
        return number(millimetres, usualDecimals());
    }

    private int usualDecimals() {
        return unit.isInch() ? INCH_DECIMALS : DECIMALS;
    }

    /** A length in millimetres as a number of a unit's kind: inches or millimetres. */
    static double inUnit(double millimetres, LengthUnit unit) {
        return unit.isInch() ? millimetres / MILLIMETRES_PER_INCH : millimetres;
    }

    private String number(double millimetres, int decimals) {
        String text = String.format(Locale.ROOT, "%." + decimals + "f", inUnit(millimetres, unit));
        return text.matches("-[0.]+") ? text.substring(1) : text;
    }

    /** The use that drifts are told for: as many as the trend counts, of what the engine's counter counts. */
    private static Usage per(ValveTrend valve) {
        return Usage.of(valve.trend().per().amount(), valve.forecast().now().unit());
    }

    /** How many times one usage goes into another, be they counted in different units. */
    static double times(Usage whole, Usage part) {
        Ratio ratio = whole.dividedBy(part);
        return ratio.numerator().doubleValue() / ratio.denominator().doubleValue();
    }

    /** With as many decimals as its uncertainty needs, or the drift itself where there is none: some priors count few kilometres. */
    private String drift(ValveTrend valve) {
        WearTrend of = valve.trend();
        if (!Double.isFinite(of.driftError())) {
            return "not bounded";
        }
        double scale = times(per(valve), of.per());
        double drift = scale * of.drift();
        double error = scale * of.driftError();
        int usual = usualDecimals();
        double least = inUnit(error > 0 ? error : Math.abs(drift), unit);
        int decimals =
                least == 0 || least >= 2 * Math.pow(10, -usual) ? usual : 1 - (int) Math.floor(Math.log10(least));
        return of.method() == TrendMethod.FEASIBLE_LINES
                ? "from " + number(drift - error, decimals) + " to " + number(drift + error, decimals)
                : number(drift, decimals) + " +- " + number(error, decimals);
    }

    static String percent(double share) {
        double hundredth = 100 * share;
        return hundredth >= 1 || hundredth == 0
                ? String.format(Locale.ROOT, "%.0f %%", hundredth)
                : String.format(Locale.ROOT, "%.2g %%", hundredth);
    }
}
