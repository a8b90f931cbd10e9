package dev.lash.examples;

import dev.lash.check.CheckReport;
import dev.lash.check.CheckSheet;
import dev.lash.examples.Main.Bench;
import dev.lash.specs.DocumentException;
import dev.lash.specs.ReportWriter;
import dev.lash.specs.SheetReader;
import dev.lash.specs.SpecPack;
import java.io.IOException;
import java.nio.file.InvalidPathException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code lash check}: a report on each check sheet. */
@Command(
        name = "check",
        description = {
            "Judges check sheets and says what to do about each valve.",
            "Exit code: 0 done, 1 a finding is an error, 2 a sheet cannot be read."
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

    CheckCommand(Bench bench) {
        this.bench = bench;
    }

    @Override
    public Integer call() {
        SheetReader reader = new SheetReader(SpecPack.bundled());
        int worst = Main.DONE;
        boolean first = true;
        for (String sheet : sheets) {
            try {
                CheckReport report = CheckReport.of(read(reader, sheet));
                write(report, first);
                first = false;
                worst = Math.max(worst, report.hasErrors() ? Main.FINDINGS : Main.DONE);
            } catch (DocumentException broken) {
                Problems.print(broken, bench.err());
                worst = Main.UNUSABLE;
            } catch (NoSuchFileException | InvalidPathException missing) {
                Problems.print(
                        "cannot read " + sheet + ": there is no such file; check the name and the folder", bench.err());
                worst = Main.UNUSABLE;
            } catch (IOException unreadable) {
                Problems.print(
                        "cannot read " + sheet + ": it is a folder or may not be read; name a readable file",
                        bench.err());
                worst = Main.UNUSABLE;
            }
        }
        return worst;
    }

    private CheckSheet read(SheetReader reader, String sheet) throws IOException {
        return sheet.equals("-") ? reader.read("standard input", bench.in()) : reader.read(Path.of(sheet));
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
