package dev.lash.examples;

import dev.lash.adjust.Adjuster;
import dev.lash.adjust.RoundingHabit;
import dev.lash.adjust.ShimRounding;
import dev.lash.check.CheckReport;
import dev.lash.examples.Main.Bench;
import dev.lash.measure.Ratio;
import dev.lash.specs.ReportWriter;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code lash check}: a report on each check sheet. */
@Command(
        name = "check",
        description = {
            "Judges check sheets and says what to do about each valve.",
            "Exit code: 0 done, 1 a finding is an error, 2 a sheet or a folder cannot be read."
        },
        mixinStandardHelpOptions = true)
final class CheckCommand implements Callable<Integer> {
    /** How a report is written. */
    enum Format {
        TEXT,
        JSON;

        @Override
        public String toString() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    private final Bench bench;

    @Parameters(paramLabel = "SHEET", arity = "1..*", description = "check sheets; - reads standard input")
    private List<String> sheets = List.of();

    @Option(
            names = "--format",
            paramLabel = "FORMAT",
            defaultValue = "text",
            description = "text for a person (default), or json: one report, or one a line for several sheets")
    private Format format = Format.TEXT;

    @Option(
            names = "--rounding",
            paramLabel = "HABIT",
            description = {
                "shows beside each shim what the shop's habit of rounding fits: ${COMPLETION-CANDIDATES}",
                "(none by default: the best size that is certain)"
            })
    private @Nullable RoundingHabit rounding;

    @Option(
            names = "--specified",
            paramLabel = "FRACTION",
            defaultValue = "0.5",
            description =
                    "with --rounding: where in the window the specified clearance lies, from 0, its lower end, to 1, "
                            + "its upper end; 0.5 by default, the middle")
    private Ratio specified = Ratio.of(1, 2);

    @Mixin
    private final Folders folders = new Folders();

    CheckCommand(Bench bench) {
        this.bench = bench;
    }

    @Override
    public Integer call() {
        Adjuster adjuster = rounding == null
                ? Adjuster.withDefaults()
                : Adjuster.withDefaults().withRounding(new ShimRounding(rounding, specified));
        int worst = Main.DONE;
        boolean first = true;
        for (String sheet : sheets) {
            Optional<CheckReport> report =
                    SheetFiles.read(sheet, folders, bench).map(read -> CheckReport.of(read, adjuster));
            if (report.isEmpty()) {
                worst = Main.UNUSABLE;
                continue;
            }
            write(report.get(), first);
            first = false;
            worst = Math.max(worst, report.get().hasErrors() ? Main.FINDINGS : Main.DONE);
        }
        return worst;
    }

    private void write(CheckReport report, boolean first) {
        switch (format) {
            case TEXT -> bench.out().print((first ? "" : "\n\n") + new TextReport(bench.colour()).write(report));
            case JSON ->
                bench.out()
                        .println((sheets.size() == 1 ? ReportWriter.pretty() : ReportWriter.oneLine()).write(report));
        }
    }
}
