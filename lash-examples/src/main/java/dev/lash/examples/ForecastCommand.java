package dev.lash.examples;

import dev.lash.check.CheckNow;
import dev.lash.check.CheckReport;
import dev.lash.check.Finding;
import dev.lash.check.FindingCode;
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
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
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
    private static final double MILLIMETRES_PER_INCH = 25.4;

    /** Decimals of a length in millimetres, and in inches. */
    private static final int DECIMALS = 3;

    private static final int INCH_DECIMALS = 4;
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
            bench.out().println(TrendForms.write(report, trend.get()));
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
        checkBy(report, trend, out);
        out.append('\n').append(table(trend, unit)).append('\n');
        TextTable.paragraph(
                times() + ": the usage by which the valve has left its window with that probability; > beyond what the "
                        + "forecast looks ahead. Side: where it leaves, and the probability that it is outside now, if more "
                        + "than the risk. Drift: negative as the clearance closes up, "
                        + (method() == TrendMethod.FEASIBLE_LINES
                                ? "least and greatest of the lines, else +- one standard deviation."
                                : "+- one standard deviation."),
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
                out.append('\n').append(valve.name()).append('\n').append(TrendPlot.of(valve, last, unit));
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
                        .map(wear -> valve.name() + " by "
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

    /** What the figures assume. */
    private static void assumptions(EngineTrend trend, StringBuilder out) {
        trend.valves().stream()
                .map(v -> v.trend().note().replace("no reading of this valve; ", ""))
                .filter(note -> !note.isEmpty())
                .distinct()
                .forEach(note -> TextTable.paragraph("Note: " + note + ".", "", out));
    }

    /** The time to check as every report gives it: how many checks it rests on, and what it lacks where they are few. */
    static void checkBy(CheckReport report, EngineTrend trend, StringBuilder out) {
        CheckBy by = trend.checkBy();
        String at = "Check by " + by.usage();
        String risk = by.risk() == 0 ? "" : " (risk " + percent(by.risk()) + ")";
        TextTable.paragraph(
                switch (by.reason()) {
                    case NOW -> "Check now" + risk + ": " + now(report.checkNow(trend)) + ".";
                    case VALVE ->
                        at + risk + ": " + TrendForms.because(by) + " may leave its window first, from "
                                + checks(trend.checks()) + " of it.";
                    case MAKERS_INTERVAL -> at + ": the maker's interval" + risk + ", from " + ofEach(trend) + ".";
                    case NO_LIMIT ->
                        "No valve is likely to leave its window up to " + by.usage() + risk + ", from " + ofEach(trend)
                                + "; keep to the maker's interval.";
                },
                "",
                out);
        trend.caveat()
                .ifPresent(caveat -> TextTable.paragraph(
                        caveat.substring(0, 1).toUpperCase(Locale.ROOT) + caveat.substring(1) + ".", "", out));
    }

    private static String ofEach(EngineTrend trend) {
        return checks(trend.checks()) + " of the valve that has the fewest";
    }

    private static String checks(int checks) {
        return checks == 0 ? "no check" : checks == 1 ? "1 check" : checks + " checks";
    }

    private static String now(List<CheckNow> all) {
        Map<CheckNow.Work, String> valves = new EnumMap<>(all.stream()
                .collect(Collectors.groupingBy(
                        CheckNow::work, Collectors.mapping(CheckNow::name, Collectors.joining(", ")))));
        String outside = Optional.ofNullable(valves.remove(CheckNow.Work.SET))
                .map(names -> "outside the window, must be set: " + names)
                .orElse("");
        String others = valves.entrySet().stream()
                .map(e -> e.getValue() + " (" + doing(e.getKey()) + ")")
                .collect(Collectors.joining(", "));
        return outside
                + (outside.isEmpty() || others.isEmpty() ? "" : "; ")
                + (others.isEmpty() ? "" : "may be outside the window already: " + others);
    }

    private static String doing(CheckNow.Work work) {
        return switch (work) {
            case SET -> "set it";
            case RECHECK -> "set and not read since: recheck it";
            case READ -> "not read at this check: read it";
            case REPEAT -> "trials contradict each other: repeat them";
            case NARROW -> "undecided: narrow its reading, or set and recheck it";
            case DISHED -> "pad or tip dished: no leaf tells";
            case WITHIN -> "read within, but its trend does not rule it out: set it, or check again soon";
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
            table.row(Arrays.asList(
                            valve.name(),
                            String.valueOf(t.checks()),
                            valve.findClearance().map(c -> length(c, unit)).orElse("-"),
                            drift(t, unit),
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
        return number(millimetres, unit, unit.isInch() ? INCH_DECIMALS : DECIMALS);
    }

    private static String number(double millimetres, LengthUnit unit, int decimals) {
        String text = String.format(
                Locale.ROOT, "%." + decimals + "f", unit.isInch() ? millimetres / MILLIMETRES_PER_INCH : millimetres);
        return text.matches("-[0.]+") ? text.substring(1) : text;
    }

    /** With as many decimals as its uncertainty needs, or the drift itself where there is none: some priors count few kilometres. */
    private static String drift(WearTrend trend, LengthUnit unit) {
        double error = trend.driftError();
        if (!Double.isFinite(error)) {
            return "not bounded";
        }
        int usual = unit.isInch() ? INCH_DECIMALS : DECIMALS;
        double least = (error > 0 ? error : Math.abs(trend.drift())) / (unit.isInch() ? MILLIMETRES_PER_INCH : 1);
        int decimals =
                least == 0 || least >= 2 * Math.pow(10, -usual) ? usual : 1 - (int) Math.floor(Math.log10(least));
        return trend.method() == TrendMethod.FEASIBLE_LINES
                ? "from " + number(trend.drift() - error, unit, decimals) + " to "
                        + number(trend.drift() + error, unit, decimals)
                : number(trend.drift(), unit, decimals) + " +- " + number(error, unit, decimals);
    }

    private static String percent(double share) {
        double hundredth = 100 * share;
        return hundredth >= 1 || hundredth == 0
                ? String.format(Locale.ROOT, "%.0f %%", hundredth)
                : String.format(Locale.ROOT, "%.2g %%", hundredth);
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
