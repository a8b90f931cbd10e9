package dev.lash.examples;

import dev.lash.engine.ClearanceWindow;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Usage;
import dev.lash.trend.ClearanceHistory.Reading;
import dev.lash.trend.ClearanceHistory.Segment;
import dev.lash.trend.ValveTrend;
import dev.lash.trend.WearTrend;
import java.math.BigDecimal;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

/** One valve's readings, line, window and crossing, drawn with characters. */
final class TrendPlot {
    static final String LEGEND =
            "| reading, from end to end; = drag; v, ^ an end that is not known; . line; - limit of the "
                    + "window; : now; X the line leaves the window";
    static final String SHIM_LEGEND = "; no line where a shim changed between two checks";
    private static final int COLUMNS = 60;
    private static final int ROWS = 13;

    private final char[][] field = new char[ROWS][COLUMNS];
    private final ValveTrend valve;
    private final LengthUnit unit;
    private final Usage one;
    private final double now;
    private final double from;
    private final double to;
    private final double bottom;
    private final double top;

    private TrendPlot(ValveTrend valve, Usage last, LengthUnit unit) {
        this.valve = valve;
        this.unit = unit;
        List<Reading> readings = valve.task().history().readings();
        this.one = Usage.of(BigDecimal.ONE, valve.forecast().now().unit());
        this.now = usage(valve.forecast().now());
        this.from = readings.stream().mapToDouble(r -> usage(r.usage())).min().orElse(now);
        this.to = Math.max(from + 1e-9, Math.max(now, usage(last)));
        ClearanceWindow window = valve.task().clearance().check();
        double low = millimetres(window.lower());
        double high = millimetres(window.upper());
        for (Reading reading : readings) {
            low = Math.min(
                    low, reading.clearance().lower().map(TrendPlot::millimetres).orElse(low));
            high = Math.max(
                    high,
                    reading.clearance().upper().map(TrendPlot::millimetres).orElse(high));
        }
        double margin = Math.max(0.01, (high - low) / 8);
        this.bottom = low - margin;
        this.top = high + margin;
        for (char[] row : field) {
            Arrays.fill(row, ' ');
        }
    }

    /** The plot, from the first reading to a usage; every line with its end. */
    static String of(ValveTrend valve, Usage last, LengthUnit unit) {
        TrendPlot plot = new TrendPlot(valve, last, unit);
        plot.draw();
        return plot.text();
    }

    /** In the unit of the counter now: a prior, or an earlier check, may count miles where that counts kilometres. */
    private double usage(Usage usage) {
        return ForecastTable.times(usage, one);
    }

    private static double millimetres(Length length) {
        return length.nanometres() / 1e6;
    }

    private int column(double usage) {
        return (int) Math.round((usage - from) / (to - from) * (COLUMNS - 1));
    }

    private int row(double clearance) {
        return ROWS - 1 - (int) Math.round((clearance - bottom) / (top - bottom) * (ROWS - 1));
    }

    private void put(int column, int row, char mark) {
        if (column >= 0 && column < COLUMNS && row >= 0 && row < ROWS) {
            field[row][column] = mark;
        }
    }

    private void draw() {
        ClearanceWindow window = valve.task().clearance().check();
        for (int column = 0; column < COLUMNS; column++) {
            put(column, row(millimetres(window.lower())), '-');
            put(column, row(millimetres(window.upper())), '-');
        }
        for (int row = 0; row < ROWS; row++) {
            put(column(now), row, ':');
        }
        line(window);
        valve.task().history().readings().forEach(this::reading);
    }

    /**
     * The line of the last segment, from its first reading on. Where a shim was swapped at a check it goes on from another clearance;
     * where another was found at the next one, nobody knows when it changed, and nothing is drawn between.
     */
    private void line(ClearanceWindow window) {
        WearTrend trend = valve.trend();
        if (!Double.isFinite(trend.driftError()) || valve.findClearance().isEmpty()) {
            return;
        }
        List<Segment> segments = valve.task().history().segments();
        List<Reading> readings = segments.isEmpty()
                ? List.of()
                : segments.get(segments.size() - 1).readings();
        double start = readings.isEmpty() ? now : usage(readings.get(0).usage());
        for (int column = column(start); column < COLUMNS; column++) {
            // a column stands for all usages near it: none of them may lie before the line begins
            double at = Math.max(start, from + (to - from) * column / (COLUMNS - 1));
            OptionalDouble since = shimSince(at, readings);
            double clearance = onLine(at) + since.orElse(0);
            boolean inside = clearance >= millimetres(window.lower()) && clearance <= millimetres(window.upper());
            if (since.isPresent() && (inside || at <= now)) {
                put(column, row(clearance), '.');
            }
        }
        Optional.ofNullable(valve.forecast().median())
                .map(this::usage)
                .filter(median -> median > now)
                .ifPresent(median -> put(column(median), row(onLine(median)), 'X'));
    }

    /** The clearance with the shim that is in now. */
    private double onLine(double at) {
        return valve.trend().clearance()
                + valve.trend().drift() * (at - now) / usage(valve.trend().per());
    }

    /** How much more clearance the shim left that was in at a usage than the one that is in now; empty where none is known. */
    private OptionalDouble shimSince(double at, List<Reading> readings) {
        if (readings.isEmpty()) {
            return OptionalDouble.of(0);
        }
        Reading last = readings.get(readings.size() - 1);
        int then = (int) readings.stream()
                .filter(reading -> usage(reading.usage()) <= at)
                .count();
        if (then < readings.size()
                && usage(readings.get(then - 1).usage()) < at
                && offset(readings.get(then)) != offset(readings.get(then - 1))) {
            return OptionalDouble.empty();
        }
        return OptionalDouble.of(offset(last) - offset(readings.get(then - 1)));
    }

    private static double offset(Reading reading) {
        return (millimetres(reading.offset().lower().orElseThrow())
                        + millimetres(reading.offset().upper().orElseThrow()))
                / 2;
    }

    private void reading(Reading reading) {
        LengthInterval clearance = reading.clearance();
        if (!reading.isInformative()) {
            return;
        }
        int column = column(usage(reading.usage()));
        int low = clearance.lower().map(l -> row(millimetres(l))).orElse(ROWS - 1);
        int high = clearance.upper().map(u -> row(millimetres(u))).orElse(0);
        for (int row = high; row <= low; row++) {
            put(column, row, clearance.isPoint() ? '=' : '|');
        }
        if (clearance.lower().isEmpty()) {
            put(column, low, 'v');
        }
        if (clearance.upper().isEmpty()) {
            put(column, high, '^');
        }
    }

    private String text() {
        StringBuilder out = new StringBuilder();
        ClearanceWindow window = valve.task().clearance().check();
        for (int row = 0; row < ROWS; row++) {
            String label = row == row(millimetres(window.upper()))
                    ? number(millimetres(window.upper()))
                    : row == row(millimetres(window.lower())) ? number(millimetres(window.lower())) : "";
            out.append(String.format(Locale.ROOT, "%8s ", label))
                    .append(new String(field[row]).stripTrailing())
                    .append('\n');
        }
        String first = String.format(Locale.ROOT, "%.0f", from);
        String last = String.format(Locale.ROOT, "%.0f", to);
        String symbol = valve.forecast().now().unit().symbol();
        return out.append(" ".repeat(9))
                .append(first)
                .append(" ".repeat(Math.max(1, COLUMNS - first.length() - last.length() - symbol.length() - 1)))
                .append(last)
                .append(' ')
                .append(symbol)
                .append('\n')
                .toString();
    }

    private String number(double millimetres) {
        return String.format(Locale.ROOT, unit.isInch() ? "%.4f" : "%.2f", ForecastTable.inUnit(millimetres, unit));
    }
}
