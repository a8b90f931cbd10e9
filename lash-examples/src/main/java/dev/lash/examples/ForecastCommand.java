package dev.lash.examples;

import dev.lash.check.CheckReport;
import dev.lash.check.Finding;
import dev.lash.check.FindingCode;
import dev.lash.examples.CheckCommand.Format;
import dev.lash.examples.Main.Bench;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.Usage;
import dev.lash.specs.TrendForms;
import dev.lash.trend.EngineTrend;
import dev.lash.trend.TrendMethod;
import dev.lash.trend.ValveTrend;
import dev.lash.trend.WearTrendFitter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code lash forecast}: how fast each valve closes up, and when the engine must come back. */
@Command(
        name = "forecast",
        description = {
            "Forecasts from a sheet and its history when each valve leaves its window, and when to check again.",
            "Exit code: 0 done, 1 a finding is an error, 2 the sheet or a folder cannot be read."
        },
        mixinStandardHelpOptions = true)
final class ForecastCommand implements Callable<Integer> {
    private static final Set<FindingCode> SIGNS = Set.of(
            FindingCode.CLOSED_UP_FAST,
            FindingCode.OPENED_UP,
            FindingCode.RECORD_MISSING,
            FindingCode.SHIM_NOT_AS_RECORDED,
            FindingCode.SHIM_NEAR_THIN_END,
            FindingCode.VISIT_NOT_USED,
            FindingCode.RECHECK_MISSING,
            FindingCode.DECOMPRESSOR_HOLDS,
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
            description = "the risk that a valve has left by the time to check; 0.05 (default), or 5%%")
    private String share = "0.05";

    @Mixin
    private final Folders folders = new Folders();

    ForecastCommand(Bench bench) {
        this.bench = bench;
    }

    @Override
    public Integer call() {
        WearTrendFitter fitter;
        try {
            fitter = fitter();
        } catch (RejectedValueException e) {
            bench.err().println(e.getMessage());
            return Main.UNUSABLE;
        }
        return SheetFiles.read(sheet, folders, bench)
                .map(CheckReport::of)
                .map(report -> report(report, fitter))
                .orElse(Main.UNUSABLE);
    }

    /** The settings that were asked for; the risk is a share, or a percentage with its sign. */
    private WearTrendFitter fitter() {
        WearTrendFitter fitter = WearTrendFitter.withDefaults().withMethod(method());
        boolean inHundredths = share.endsWith("%");
        String number = inHundredths ? share.substring(0, share.length() - 1).strip() : share;
        try {
            return fitter.withRisk(Double.parseDouble(number) / (inHundredths ? 100 : 1));
        } catch (NumberFormatException e) {
            throw risk("is not a number", "0.0001 to 0.5");
        } catch (RejectedValueException e) {
            throw risk(e.problem(), e.expected());
        }
    }

    private RejectedValueException risk(String problem, String expected) {
        return new RejectedValueException("risk", share, problem, expected, "give a share, such as 0.05, or 5%");
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
        if (format == Format.JSON) {
            bench.out().println(TrendForms.write(report, trend.get()));
        } else {
            bench.out().print(text(report, trend.get(), fitter));
        }
        return report.hasErrors() ? Main.FINDINGS : Main.DONE;
    }

    private String text(CheckReport report, EngineTrend trend, WearTrendFitter fitter) {
        LengthUnit unit = report.sheet().gauges().unit();
        StringBuilder out = new StringBuilder();
        String machine = report.sheet().machine();
        TextTable.paragraph(
                "Forecast: " + (machine.isEmpty() ? report.sheet().engine().title() : machine), "", out);
        TextTable.paragraph("at " + report.sheet().usage().orElseThrow() + ", method " + method, "", out);
        out.append('\n');
        CheckByText.write(report, trend, out);
        new ForecastTable(trend, fitter, unit).write(out);
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
        TextTable.paragraph(
                TrendPlot.LEGEND + (WalkWords.hasShims(report.sheet().engine().train()) ? TrendPlot.SHIM_LEGEND : ""),
                "",
                out);
        TextReport.overridden(report.sheet().engine(), unit, out);
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
                        .map(wear -> valve.name() + " " + moved(wear.fall(), unit) + " since " + wear.since()))
                .collect(Collectors.joining("; "));
        if (!fell.isEmpty()) {
            TextTable.paragraph(
                    "Moved in all, adjustments taken out, as far as the readings are certain: " + fell + ".", "", out);
        }
    }

    /** How far a clearance fell, or grew, or which of both is not certain. */
    private static String moved(LengthInterval fall, LengthUnit unit) {
        Length least = fall.lower().orElseThrow();
        Length most = fall.upper().orElseThrow();
        if (least.signum() >= 0) {
            return "fell by " + least.toString(unit) + " to " + most.toString(unit);
        }
        return most.signum() <= 0
                ? "grew by " + most.negated().toString(unit) + " to "
                        + least.negated().toString(unit)
                : "fell by at most " + most.toString(unit) + " or grew by at most "
                        + least.negated().toString(unit);
    }

    /** What the figures assume: what is true of all valves once, the rest with the valves that it is about. */
    private static void assumptions(EngineTrend trend, StringBuilder out) {
        Map<String, List<String>> notes = new LinkedHashMap<>();
        for (ValveTrend valve : trend.valves()) {
            for (String note : valve.trend().note().split("; ", -1)) {
                notes.computeIfAbsent(note, n -> new ArrayList<>()).add(valve.name());
            }
        }
        notes.remove("");
        int all = trend.valves().size();
        notes.entrySet().stream()
                .sorted(Comparator.comparing(note -> note.getValue().size() < all))
                .forEach(note -> {
                    List<String> valves = note.getValue();
                    boolean named = valves.size() == all || valves.stream().anyMatch(note.getKey()::startsWith);
                    TextTable.paragraph(
                            "Note: " + (named ? "" : String.join(", ", valves) + ": ") + note.getKey() + ".", "", out);
                });
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
