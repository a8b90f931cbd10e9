package dev.lash.examples;

import dev.lash.check.CheckReport;
import dev.lash.check.Finding;
import dev.lash.check.FindingCode;
import dev.lash.engine.Gap;
import dev.lash.examples.CheckCommand.Format;
import dev.lash.examples.Main.Bench;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.Usage;
import dev.lash.specs.TrendForms;
import dev.lash.trend.CheckBy;
import dev.lash.trend.EngineTrend;
import dev.lash.trend.Forecast;
import dev.lash.trend.TrendMethod;
import dev.lash.trend.ValveTrend;
import dev.lash.trend.WearTrend;
import dev.lash.trend.WearTrendFitter;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code lash forecast}: how fast each valve closes up, and when the engine must come back. */
@Command(
        name = "forecast",
        description = {
            "Forecasts from a sheet and its history when each valve leaves its window, and when to check again.",
            "Exit code: 0 done, 1 a finding is an error, 2 the sheet cannot be read."
        },
        mixinStandardHelpOptions = true)
final class ForecastCommand implements Callable<Integer> {
    private static final int FEW_CHECKS = 5;
    private static final Set<FindingCode> SIGNS = Set.of(
            FindingCode.CLOSED_UP_FAST,
            FindingCode.OPENED_UP,
            FindingCode.RECORD_MISSING,
            FindingCode.SHIM_NOT_AS_RECORDED,
            FindingCode.SHIM_NEAR_THIN_END,
            FindingCode.VISIT_NOT_USED,
            FindingCode.SYMPTOM,
            FindingCode.CONTRADICTION);

    private final Bench bench;

    @Parameters(paramLabel = "SHEET", description = "a check sheet; - reads standard input")
    private String sheet = "";

    @Option(names = "--format", paramLabel = "FORMAT", defaultValue = "text", description = "text (default) or json")
    private Format format = Format.TEXT;

    @Option(
            names = "--method",
            paramLabel = "NAME",
            defaultValue = "with-priors",
            description = "with-priors (default), maximum-likelihood or feasible-lines")
    private String method = "with-priors";

    @Option(
            names = "--risk",
            paramLabel = "SHARE",
            defaultValue = "0.05",
            description = "the risk that a valve has left by the time to check; 0.05 (default)")
    private double risk = 0.05;

    ForecastCommand(Bench bench) {
        this.bench = bench;
    }

    @Override
    public Integer call() {
        WearTrendFitter fitter;
        try {
            fitter = WearTrendFitter.withDefaults().withMethod(method()).withRisk(risk);
        } catch (RejectedValueException e) {
            bench.err().println(e.getMessage());
            return Main.UNUSABLE;
        }
        return SheetFiles.read(sheet, bench)
                .map(CheckReport::of)
                .map(report -> report(report, fitter))
                .orElse(Main.UNUSABLE);
    }

    private TrendMethod method() {
        List<TrendMethod> methods =
                List.of(TrendMethod.WITH_PRIORS, TrendMethod.MAXIMUM_LIKELIHOOD, TrendMethod.FEASIBLE_LINES);
        return methods.stream()
                .filter(m -> m.word().equals(method))
                .findFirst()
                .orElseThrow(() -> new RejectedValueException(
                        "method",
                        method,
                        "is not known",
                        methods.stream().map(TrendMethod::word).collect(Collectors.joining(", ")),
                        "take one of these"));
    }

    private int report(CheckReport report, WearTrendFitter fitter) {
        Optional<EngineTrend> trend = report.trend(fitter);
        if (trend.isEmpty()) {
            bench.err()
                    .println(sheet + ": there is nothing to forecast: "
                            + (report.sheet().usage().isEmpty()
                                    ? "the sheet does not say what the counter shows (\"usage\")"
                                    : "no valve of this train has a clearance"));
            return Main.UNUSABLE;
        }
        LengthUnit unit = report.sheet().gauges().unit();
        if (format == Format.JSON) {
            bench.out().println(TrendForms.write(trend.get(), unit, report.unconfirmedOfTrend(trend.get())));
        } else {
            bench.out().print(text(report, trend.get(), unit));
        }
        return report.hasErrors() ? Main.FINDINGS : Main.DONE;
    }

    private String text(CheckReport report, EngineTrend trend, LengthUnit unit) {
        StringBuilder out = new StringBuilder();
        String machine = report.sheet().machine();
        TextTable.paragraph(
                "Forecast: " + (machine.isEmpty() ? report.sheet().engine().title() : machine), "", out);
        TextTable.paragraph("at " + report.sheet().usage().orElseThrow() + ", method " + method, "", out);
        out.append('\n');
        TextTable.paragraph(checkBy(trend.checkBy()), "", out);
        out.append('\n').append(table(trend, unit)).append('\n');
        TextTable.paragraph(
                times() + ": the usage by which the valve has left its window with that probability; > beyond what the "
                        + "forecast looks ahead. Side: where it leaves, and the probability that it is outside now, if more "
                        + "than the risk. Drift: negative as the clearance closes up, +- one standard deviation.",
                "",
                out);
        wear(trend, unit, out);
        assumptions(trend, out);
        report.findings().stream()
                .filter(f -> SIGNS.contains(f.code()))
                .map(Finding::toString)
                .forEach(line -> TextTable.paragraph(line, "- ", out));
        Usage last = end(trend);
        for (ValveTrend valve : trend.valves()) {
            if (!valve.task().history().readings().isEmpty()) {
                out.append('\n').append(name(valve)).append('\n').append(TrendPlot.of(valve, last, unit));
            }
        }
        TextTable.paragraph(TrendPlot.LEGEND, "", out);
        TextReport.unconfirmed(report.unconfirmedOfTrend(trend), out);
        out.append("\nCautions\n");
        report.cautions().forEach(caution -> TextTable.paragraph(caution, "- ", out));
        return out.toString();
    }

    /** What wear took off in all, where readings on both ends tell. */
    private static void wear(EngineTrend trend, LengthUnit unit, StringBuilder out) {
        String fell = trend.valves().stream()
                .flatMap(valve -> valve.task().history().wear().stream()
                        .filter(wear -> wear.fall().isBounded())
                        .map(wear -> name(valve) + " by "
                                + wear.fall().lower().orElseThrow().toString(unit) + " to "
                                + wear.fall().upper().orElseThrow().toString(unit) + " since " + wear.since()))
                .collect(Collectors.joining("; "));
        if (!fell.isEmpty()) {
            TextTable.paragraph(
                    "Fallen by wear, adjustments taken out, as far as the readings are certain: " + fell + ".",
                    "",
                    out);
        }
    }

    /** What the figures assume, and where they are weak. */
    private static void assumptions(EngineTrend trend, StringBuilder out) {
        trend.valves().stream()
                .map(v -> v.trend().note().replace("no reading of this valve; ", ""))
                .filter(note -> !note.isEmpty())
                .distinct()
                .forEach(note -> TextTable.paragraph("Note: " + note + ".", "", out));
        int checks = trend.valves().stream()
                .mapToInt(v -> v.task().history().checks())
                .min()
                .orElse(0);
        if (checks < FEW_CHECKS) {
            TextTable.paragraph(
                    (checks == 0
                                    ? "A valve was never read"
                                    : "Only " + checks + (checks == 1 ? " check" : " checks") + " of some valve")
                            + ": the forecast leans on the prior. "
                            + "Where the wear of this engine is unlike it, the true risk may be more than stated.",
                    "",
                    out);
        }
    }

    static String checkBy(CheckBy by) {
        String at = "Check by " + by.usage();
        String risk = by.risk() == 0 ? "" : " (risk " + percent(by.risk()) + ")";
        return switch (by.reason()) {
            case NOW ->
                "Check now: "
                        + by.findValve().map(Object::toString).orElse("a valve")
                        + by.findGap()
                                .filter(g -> g != Gap.ONLY)
                                .map(g -> " " + g)
                                .orElse("")
                        + " may be outside its window already" + risk
                        + "; narrow its reading, or set it and check again.";
            case VALVE -> at + risk + ": " + TrendForms.because(by) + " may leave its window first.";
            case MAKERS_INTERVAL -> at + ": the maker's interval" + risk + ".";
            case NO_LIMIT ->
                "No valve is likely to leave its window up to " + by.usage() + risk + "; keep to the maker's interval.";
        };
    }

    private String times() {
        String shares = percent(risk) + ", 50 %, " + percent(1 - risk);
        return method() == TrendMethod.FEASIBLE_LINES
                ? "Earliest, latest: over all straight lines through the readings. Where no line goes through them all, "
                        + shares
                : shares;
    }

    private String table(EngineTrend trend, LengthUnit unit) {
        TextTable table = new TextTable(TextReport.WIDTH);
        boolean lines = method() == TrendMethod.FEASIBLE_LINES;
        List<String> times =
                lines ? List.of("Earliest", "-", "Latest") : List.of(percent(risk), "50 %", percent(1 - risk));
        table.row(Stream.of(List.of("Valve", "Checks", "Now", "Drift"), times, List.of("Side"))
                .flatMap(List::stream)
                .map(List::of)
                .toList());
        for (ValveTrend valve : trend.valves()) {
            WearTrend t = valve.trend();
            Forecast f = valve.forecast();
            boolean known = Double.isFinite(t.driftError());
            table.row(Arrays.asList(
                            name(valve),
                            String.valueOf(t.checks()),
                            length(t.clearance(), unit),
                            known ? length(t.drift(), unit) + " +- " + length(t.driftError(), unit) : "not bounded",
                            usage(f.findEarliest()),
                            usage(f.findMedian()),
                            usage(f.findLatest()),
                            f.side().name().toLowerCase(Locale.ROOT)
                                    + (f.leftNow() > risk ? ", " + percent(f.leftNow()) + " now" : ""))
                    .stream()
                    .map(List::of)
                    .toList());
        }
        return table.write() + "Drift in " + (unit.isInch() ? "in" : "mm") + " per "
                + trend.valves().get(0).trend().per() + ".\n";
    }

    private static String usage(Optional<Usage> usage) {
        return usage.map(u -> u.amount().toPlainString()).orElse(">");
    }

    private static String length(double millimetres, LengthUnit unit) {
        return unit.isInch()
                ? String.format(Locale.ROOT, "%.4f", millimetres / 25.4)
                : String.format(Locale.ROOT, "%.3f", millimetres);
    }

    private static String percent(double share) {
        double hundredth = 100 * share;
        return hundredth >= 1 || hundredth == 0
                ? String.format(Locale.ROOT, "%.0f %%", hundredth)
                : String.format(Locale.ROOT, "%.2g %%", hundredth);
    }

    private static String name(ValveTrend valve) {
        Gap gap = valve.task().history().gap();
        return valve.task().history().valve() + (gap == Gap.ONLY ? "" : " " + gap);
    }

    /** How far the plots go: past the time to check, and to half of the medians. */
    private static Usage end(EngineTrend trend) {
        return trend.valves().stream()
                .flatMap(v -> v.forecast().findMedian().stream())
                .reduce((a, b) -> a.compareAmount(b) <= 0 ? a : b)
                .filter(median -> median.compareAmount(trend.checkBy().usage()) > 0)
                .orElse(trend.checkBy().usage());
    }
}
