package dev.lash.examples;

import dev.lash.check.CheckSheet;
import dev.lash.check.ImportCode;
import dev.lash.check.ImportFinding;
import dev.lash.check.ImportedMachine;
import dev.lash.check.ReadingValidator;
import dev.lash.check.Severity;
import dev.lash.check.ValidationProfile;
import dev.lash.examples.Main.Bench;
import dev.lash.measure.RejectedValueException;
import dev.lash.specs.DocumentException;
import dev.lash.specs.ImportMapping;
import dev.lash.specs.ImportSession;
import dev.lash.specs.ImportSummary;
import dev.lash.specs.ProfileReader;
import dev.lash.specs.SheetReader;
import dev.lash.specs.SpecPack;
import java.io.BufferedInputStream;
import java.io.BufferedWriter;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.RandomAccessFile;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Clock;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code lash import}: validates readings of other systems. */
@Command(
        name = "import",
        description = {
            "Validates readings that another system hands over: delimited text, JSON Lines (.jsonl) or check sheets (.json).",
            "Rejected rows go to a file beside FILE, named .rejected and in its form; mend them there and import that file.",
            "Exit code: 0 done, 1 rows were rejected, 2 a file or folder cannot be read."
        },
        mixinStandardHelpOptions = true)
final class ImportCommand implements Callable<Integer> {
    /** More than a line of a store has. */
    private static final int MOST_LINE = 1 << 20;

    /** How a line of a store begins. */
    private static final String LINE_START = "{\"machine\":";

    private static final int MOST_SHEET = 8 * 1024 * 1024;

    private final Bench bench;
    private final Clock clock;

    @Parameters(paramLabel = "FILE", arity = "1..*", description = "files of readings; the ending tells the form")
    private List<String> files = List.of();

    @Option(
            names = "--mapping",
            paramLabel = "MAPPING",
            description = "what the columns hold (lash-mapping/1); without it columns are named as lash names them")
    private @Nullable String mapping;

    @Option(
            names = "--profile",
            paramLabel = "PROFILE",
            description =
                    "the thresholds (lash-profile/1); what it leaves out, and without it all, stands at its default")
    private @Nullable String profile;

    @Option(
            names = "--sheet",
            paramLabel = "SHEET",
            description =
                    "a check sheet, which may be without valves: engine, leaves and rule of the machine that it names, or of"
                            + " every machine where it names none; may be repeated")
    private List<String> sheets = List.of();

    @Option(
            names = "--into",
            paramLabel = "STORE",
            description =
                    "the file of accepted readings, JSON Lines: what it holds is known, what is accepted is added")
    private @Nullable String store;

    @Option(
            names = "--today",
            paramLabel = "DATE",
            description = "the day of the import, such as 2031-06-01; default: today")
    private @Nullable String today;

    @Option(
            names = "--correct",
            paramLabel = "CODE",
            split = ",",
            description = "apply the likely corrections of these codes, such as other-unit")
    private List<String> correct = List.of();

    @Option(
            names = "--format",
            paramLabel = "FORMAT",
            defaultValue = "text",
            description = "text for a person (default), or json")
    private CheckCommand.Format format = CheckCommand.Format.TEXT;

    /** What to say of the files that were written. */
    private final List<String> written = new ArrayList<>();

    @Mixin
    private final Folders folders = new Folders();

    ImportCommand(Bench bench, Clock clock) {
        this.bench = bench;
        this.clock = clock;
    }

    @Override
    public Integer call() {
        try {
            return run();
        } catch (DocumentException broken) {
            Problems.print(broken, bench.err());
        } catch (RejectedValueException refused) {
            StringBuilder message = new StringBuilder();
            String said = refused.getMessage() == null ? "a value is refused" : refused.getMessage();
            TextTable.paragraph("lash: " + said, "", message);
            bench.err().print(message);
        } catch (InvalidPathException odd) {
            Problems.print("cannot read " + odd.getInput() + ": it is no file name", bench.err());
        } catch (IOException unreadable) {
            Problems.print(
                    "cannot read or write " + unreadable.getMessage()
                            + ": name files in folders that exist and may be written",
                    bench.err());
        }
        return Main.UNUSABLE;
    }

    private int run() throws IOException {
        Optional<SpecPack> pack = folders.pack(bench);
        if (pack.isEmpty()) {
            return Main.UNUSABLE;
        }
        SheetReader reader = new SheetReader(pack.get());
        Map<String, ImportedMachine> machines = new HashMap<>();
        for (String sheet : sheets) {
            Optional<CheckSheet> read = SheetFiles.read(sheet, folders, bench);
            if (read.isEmpty()) {
                return Main.UNUSABLE;
            }
            machines.put(read.get().machine().strip(), machine(read.get()));
        }
        ImportMapping columns = mapping == null ? ImportMapping.own() : ImportMapping.read(Path.of(mapping));
        ValidationProfile thresholds =
                profile == null ? ValidationProfile.defaults() : ProfileReader.read(Path.of(profile));
        Set<ImportCode> corrections = EnumSet.noneOf(ImportCode.class);
        corrections.addAll(thresholds.corrections());
        correct.forEach(code -> corrections.add(ImportCode.parse(code)));
        @Nullable ImportedMachine every = machines.get("");
        ReadingValidator validator = ReadingValidator.of(
                name -> Optional.ofNullable(machines.getOrDefault(name, every)),
                thresholds.withCorrections(corrections),
                day());
        Progress progress = new Progress(bench, clock);
        Set<Path> inputs = new HashSet<>();
        for (String file : files) {
            Path path = Path.of(file);
            if (!Files.isReadable(path) || Files.isDirectory(path)) {
                throw new NoSuchFileException(file);
            }
            inputs.add(path.toAbsolutePath());
        }
        Path into = store == null ? null : Path.of(store);
        if (into != null) {
            endLastLine(into);
        }
        try (BufferedWriter accepted = into == null
                ? null
                : Files.newBufferedWriter(into, StandardOpenOption.CREATE, StandardOpenOption.APPEND)) {
            ImportSession session = new ImportSession(
                    validator,
                    reading -> {
                        if (accepted != null) {
                            line(accepted, ImportSession.line(reading));
                        }
                    },
                    progress::rows);
            if (into != null) {
                try (InputStream stored = new BufferedInputStream(Files.newInputStream(into))) {
                    session.known(into.toString(), stored);
                }
            }
            try {
                for (String file : files) {
                    if (file.toLowerCase(Locale.ROOT).endsWith(".json")) {
                        sheetFirst(file, reader, machines);
                    }
                    one(file, inputs, reader, columns, session);
                }
            } catch (DocumentException | IOException broken) {
                progress.end();
                if (session.summary().read() > 0) {
                    // what came before is done, and stays so
                    report(session.summary());
                }
                throw broken;
            }
            progress.end();
            return report(session.summary());
        } catch (UncheckedIOException failed) {
            throw failed.getCause();
        }
    }

    /**
     * Ends the last line of a store. An import that was broken off may have left half a line: that is taken out and told, and its row is
     * imported again with its file.
     */
    private void endLastLine(Path into) throws IOException {
        if (!Files.isRegularFile(into)) {
            return;
        }
        try (RandomAccessFile stored = new RandomAccessFile(into.toFile(), "rw")) {
            long size = stored.length();
            String last = lastLine(stored, size);
            boolean isOurs = !last.isEmpty() && (last.startsWith(LINE_START) || LINE_START.startsWith(last));
            if (!isOurs) {
                // whole already, or no store: reading it will say so
                return;
            }
            if (last.stripTrailing().endsWith("}")) {
                stored.seek(size);
                stored.write('\n');
                return;
            }
            stored.setLength(size - last.length());
            Problems.print(
                    "the last line of " + into
                            + " was cut off, as by an import that was broken off; it is taken out, and its row "
                            + "comes in again with the file that it is of: "
                            + new String(last.getBytes(StandardCharsets.ISO_8859_1), StandardCharsets.UTF_8),
                    bench.err());
        }
    }

    /** What stands after the last line end, a character for each byte; nothing where all lines are whole. */
    private static String lastLine(RandomAccessFile stored, long size) throws IOException {
        stored.seek(Math.max(0, size - 1));
        if (size == 0 || stored.read() == '\n') {
            return "";
        }
        byte[] tail = new byte[(int) Math.min(size, MOST_LINE)];
        stored.seek(size - tail.length);
        stored.readFully(tail);
        String text = new String(tail, StandardCharsets.ISO_8859_1);
        return text.substring(text.lastIndexOf('\n') + 1);
    }

    private LocalDate day() {
        if (today == null) {
            return LocalDate.now(clock);
        }
        try {
            return LocalDate.parse(today);
        } catch (DateTimeException noDate) {
            throw new RejectedValueException(
                    "--today", today, "is not a date", "a date such as 2031-06-01", "write year, month and day");
        }
    }

    private static ImportedMachine machine(CheckSheet sheet) {
        return new ImportedMachine(sheet.engine(), sheet.gauges(), sheet.rule());
    }

    private static void line(BufferedWriter writer, String text) {
        try {
            writer.write(text);
            writer.newLine();
        } catch (IOException failed) {
            throw new UncheckedIOException(failed);
        }
    }

    /** A check sheet tells the engine of its machine, unless that was given. */
    private static void sheetFirst(String file, SheetReader reader, Map<String, ImportedMachine> machines)
            throws IOException {
        try {
            CheckSheet sheet = reader.read(Path.of(file));
            machines.putIfAbsent(sheet.machine().strip(), machine(sheet));
        } catch (DocumentException said) {
            // it becomes a rejected row when its turn comes
        }
    }

    private void one(String file, Set<Path> inputs, SheetReader reader, ImportMapping columns, ImportSession session)
            throws IOException {
        Path path = Path.of(file);
        String ending = file.toLowerCase(Locale.ROOT);
        try (SideFiles side = new SideFiles(path, inputs);
                InputStream stream = new BufferedInputStream(Files.newInputStream(path), 1 << 16)) {
            if (ending.endsWith(".json")) {
                side.keepWhole();
                byte[] document = stream.readNBytes(MOST_SHEET + 1);
                try {
                    session.sheet(reader.read(file, new ByteArrayInputStream(document)), side);
                } catch (DocumentException broken) {
                    session.brokenSheet(document, broken, side);
                }
            } else if (!SideFiles.isDelimited(file)) {
                session.jsonLines(file, stream, columns, side);
            } else {
                session.csv(file, stream, columns, side);
            }
            side.finish();
            tellOf(side);
        }
    }

    /** Says where to look for what was written beside a file. */
    private void tellOf(SideFiles side) {
        Path rejected = side.rejectedPath();
        if (rejected != null) {
            written.add("\nRejected rows: " + rejected + "\n  "
                    + (side.isAsBefore() ? "They are the same as before. Mend" : "Mend")
                    + " them there, and import that file.\n");
        }
        Path findings = side.findingsPath();
        if (findings != null) {
            written.add((rejected == null ? "\n" : "") + "All findings: " + findings + "\n");
        }
    }

    private int report(ImportSummary summary) {
        if (format == CheckCommand.Format.JSON) {
            bench.out().println(summary.json());
        } else {
            bench.out().print(text(summary));
            written.forEach(bench.out()::print);
        }
        return summary.rejected() > 0 ? Main.FINDINGS : Main.DONE;
    }

    private static String text(ImportSummary summary) {
        StringBuilder out = new StringBuilder();
        out.append(summary.read()).append(summary.read() == 1 ? " row read: " : " rows read: ");
        out.append(summary.accepted()).append(" accepted, ");
        out.append(summary.rejected()).append(" rejected, ");
        out.append(summary.duplicates()).append(" there already\n");
        for (Severity severity : Severity.values()) {
            summary.counts().forEach((code, count) -> {
                if (code.severity() == severity) {
                    out.append('\n').append(severity.word().toUpperCase(Locale.ROOT));
                    out.append(' ').append(code).append(": ").append(count).append('\n');
                    ImportFinding first = summary.first().get(code);
                    if (first != null) {
                        TextTable.paragraph(first.toString(), "  first: ", out);
                    }
                }
            });
        }
        return out.toString();
    }

    /** Rows and rate on a terminal; elsewhere nothing. */
    private static final class Progress {
        private final Bench bench;
        private final Clock clock;
        private final long start;
        private long last;
        private boolean told;

        Progress(Bench bench, Clock clock) {
            this.bench = bench;
            this.clock = clock;
            this.start = clock.millis();
            this.last = start;
        }

        void rows(long rows) {
            long now = clock.millis();
            if (bench.colour() && now - last >= 500) {
                last = now;
                told = true;
                bench.err().print("\r" + rows + " rows, " + rows * 1000 / Math.max(1, now - start) + " a second ");
                bench.err().flush();
            }
        }

        void end() {
            if (told) {
                bench.err().println();
            }
        }
    }
}
