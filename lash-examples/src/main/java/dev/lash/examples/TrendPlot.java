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
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** One valve's readings, line, window and crossing, drawn with characters. */
final class TrendPlot {
    static final String LEGEND =
            "| reading, from end to end; = drag; v, ^ an end that is not known; . line; - limit of the "
                    + "window; : now; X the line leaves the window";
    private static final int COLUMNS = 60;
    private static final int ROWS = 13;
    private static final double MILLIMETRES_PER_INCH = 25.4;

    private final char[][] field = new char[ROWS][COLUMNS];
    private final ValveTrend valve;
    private final LengthUnit unit;
    private final double from;
    private final double to;
    private final double bottom;
    private final double top;

    private TrendPlot(ValveTrend valve, Usage last, LengthUnit unit) {
        this.valve = valve;
        this.unit = unit;
        List<Reading> readings = valve.task().history().readings();
        Usage now = valve.forecast().now();
        this.from = readings.stream().mapToDouble(r -> usage(r.usage())).min().orElse(usage(now));
        this.to = Math.max(from + 1e-9, usage(last));
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

    private static double usage(Usage usage) {
        return usage.amount().doubleValue();
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
            put(column(usage(valve.forecast().now())), row, ':');
        }
        line(window);
        valve.task().history().readings().forEach(this::reading);
    }

    /** The line of the last segment, from its first reading on. */
    private void line(ClearanceWindow window) {
        WearTrend trend = valve.trend();
        if (!Double.isFinite(trend.driftError())) {
            return;
        }
        List<Segment> segments = valve.task().history().segments();
        double now = usage(valve.forecast().now());
        double start = segments.isEmpty()
                ? now
                : usage(segments.get(segments.size() - 1).readings().get(0).usage());
        double per = usage(trend.per());
        for (int column = 0; column < COLUMNS; column++) {
            double at = from + (to - from) * column / (COLUMNS - 1);
            double clearance = trend.clearance() + trend.drift() * (at - now) / per;
            boolean inside = clearance >= millimetres(window.lower()) && clearance <= millimetres(window.upper());
            if (at >= start && (inside || at <= now)) {
                put(column, row(clearance), '.');
            }
        }
        Optional.ofNullable(valve.forecast().median())
                .filter(median -> usage(median) > now)
                .ifPresent(median -> put(
                        column(usage(median)),
                        row(trend.clearance() + trend.drift() * (usage(median) - now) / per),
                        'X'));
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
        return unit.isInch()
                ? String.format(Locale.ROOT, "%.4f", millimetres / MILLIMETRES_PER_INCH)
                : String.format(Locale.ROOT, "%.2f", millimetres);
    }
}
