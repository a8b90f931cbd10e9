package dev.lash.specs;

import static java.util.Objects.requireNonNull;

import dev.lash.check.CheckSheet;
import dev.lash.check.ImportCode;
import dev.lash.check.ImportFinding;
import dev.lash.check.ImportedReading;
import dev.lash.check.ReadingField;
import dev.lash.check.ReadingRecord;
import dev.lash.check.ReadingValidator;
import dev.lash.check.RowOutcome;
import dev.lash.check.RowOutcome.Fate;
import dev.lash.check.Severity;
import dev.lash.check.ValidationRun;
import dev.lash.engine.Gap;
import dev.lash.measure.Length;
import java.io.IOException;
import java.io.InputStream;
import java.io.PushbackInputStream;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.LongConsumer;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * An import of files of readings: every row is accepted, rejected or a duplicate, and the {@link ImportSummary} adds up. Rejected rows
 * go to a side file in the input's own form; once mended, that file is imported as any other.
 *
 * <p>Bad rows stop nothing. A file that cannot be read at all, for want of a header or for not being UTF-8, is refused with a {@link
 * DocumentException}. Rows longer than 65 536 characters are not read: the side file holds their first 65 536 characters, and the
 * finding says so and names the row. Used by one thread.
 */
public final class ImportSession {
    private static final String ALL_CONFIRMED = Arrays.stream(ImportCode.values())
            .filter(ImportCode::isConfirmable)
            .map(ImportCode::code)
            .collect(Collectors.joining(" "));

    private final Work work;

    /**
     * Starts a session.
     *
     * @param validator what the rows are held against
     * @param accepted is given each accepted reading, some visits later than it was read, or at the end of its file
     * @param progress is told now and then how many rows were read
     */
    public ImportSession(ReadingValidator validator, Consumer<ImportedReading> accepted, LongConsumer progress) {
        this.work = new Work(
                requireNonNull(accepted, "accepted"),
                requireNonNull(progress, "progress"),
                requireNonNull(validator, "validator"));
    }

    /** Where rejected rows and all findings of one file go. */
    public interface Output {
        /**
         * The header of the side file, in delimited text; once, before all rows.
         *
         * @param text the line, without its end
         * @throws IOException if it cannot be written
         */
        void header(String text) throws IOException;

        /**
         * A line of the side file. A row that was held comes after later ones, so that they have to be put in order where that matters.
         *
         * @param row the row, as findings count rows
         * @param text the line, without its end; may hold line ends within quotation marks
         * @throws IOException if it cannot be written
         */
        void rejected(long row, String text) throws IOException;

        /**
         * A finding.
         *
         * @param finding the finding
         * @param fate what became of the row
         * @throws IOException if it cannot be written
         */
        void finding(ImportFinding finding, Fate fate) throws IOException;
    }

    /**
     * Takes readings that were accepted in an earlier session, so that they are known: lines as {@link #line} writes them. They are
     * not counted.
     *
     * @param source the name to use in errors
     * @param stored the lines in UTF-8; not closed
     * @throws IOException if they cannot be read
     * @throws DocumentException if a line is not one that was written here
     */
    public void known(String source, InputStream stored) throws IOException {
        work.known(source, stored);
    }

    /**
     * Imports delimited text.
     *
     * @param source the name to use in errors
     * @param text the file in UTF-8; not closed
     * @param mapping what its columns hold
     * @param output where rejected rows and findings go
     * @throws IOException if it cannot be read or written
     * @throws DocumentException if it is not delimited text with the mapping's columns, or has one that lash does not know where the
     *     mapping is {@linkplain ImportMapping#own lash's own form}
     */
    public void csv(String source, InputStream text, ImportMapping mapping, Output output) throws IOException {
        CsvRows rows = new CsvRows(source, mapping);
        work.begin(source + ", row", output, record -> CsvText.line(record.cells(), mapping.delimiter()));
        try {
            rows.read(
                    utf8(source, text),
                    layout -> {
                        if (layout.findColumn(ReadingField.MACHINE).isEmpty()) {
                            throw new DocumentException(
                                    source,
                                    1,
                                    1,
                                    "",
                                    String.join(" ", layout.columns()),
                                    "names no column of the mapping",
                                    "a header with the column "
                                            + mapping.column(ReadingField.MACHINE)
                                                    .orElse("machine"),
                                    "correct the mapping, its delimiter first");
                        }
                        work.header(CsvText.line(layout.columns(), mapping.delimiter()));
                    },
                    work);
        } catch (UncheckedIOException failed) {
            throw requireNonNull(failed.getCause());
        }
        work.end();
    }

    /**
     * Imports JSON Lines. Where the mapping is {@linkplain ImportMapping#own lash's own form}, a line with a key that lash does not
     * know is rejected.
     *
     * @param source the name to use in errors
     * @param text the file in UTF-8; not closed
     * @param mapping what its keys hold
     * @param output where rejected rows and findings go
     * @throws IOException if it cannot be read or written
     * @throws DocumentException if it is not UTF-8
     */
    public void jsonLines(String source, InputStream text, ImportMapping mapping, Output output) throws IOException {
        work.begin(
                source + ", line",
                output,
                record -> record.cells().get(record.cells().size() - 1));
        try {
            new JsonLineRows(mapping).read(utf8(source, text), work);
        } catch (UncheckedIOException failed) {
            throw requireNonNull(failed.getCause());
        }
        work.end();
    }

    /**
     * Imports the readings of a check sheet, its own and those of its earlier checks. The side file is a sheet with the rejected
     * valves.
     *
     * @param sheet the sheet
     * @param output where rejected rows and findings go
     * @throws IOException if they cannot be written
     */
    public void sheet(CheckSheet sheet, Output output) throws IOException {
        SheetRows rows = new SheetRows(sheet);
        Set<Long> rejected = new HashSet<>();
        work.begin("", output, record -> {
            rejected.add(record.row());
            return "";
        });
        rows.rows().forEach(work::row);
        work.end();
        if (!rejected.isEmpty()) {
            output.rejected(1, SheetWriter.write(rows.only(rejected)));
        }
    }

    /** {@return what was read so far} */
    public ImportSummary summary() {
        return work.tally.summary();
    }

    /**
     * A reading as a line of JSON, in lash's own form, without its end; {@link #known} and {@link #jsonLines} with {@link
     * ImportMapping#own()} read it.
     *
     * @param reading the reading
     * @return the line
     */
    public static String line(ImportedReading reading) {
        JsonText.Fields fields = new JsonText.Fields()
                .put(ReadingField.MACHINE.word(), reading.machine())
                .put(ReadingField.DATE.word(), reading.date().toString())
                .put(ReadingField.USAGE.word(), reading.usage().toString())
                .put(ReadingField.VALVE.word(), reading.valve().toString())
                .putText(
                        ReadingField.GAP.word(),
                        reading.gap() == Gap.ONLY ? "" : reading.gap().word())
                .put(ReadingField.CLEARANCE.word(), reading.found().toString());
        if (reading.isAdjusted()) {
            fields.put(ReadingField.ADJUSTED.word(), "yes");
            if (reading.left().lower().isPresent() || reading.left().upper().isPresent()) {
                fields.put(ReadingField.LEFT.word(), reading.left().toString());
            }
        }
        fields.put(ReadingField.SHIM.word(), reading.shim().map(Length::toString));
        fields.put(ReadingField.FITTED.word(), reading.fitted().map(Length::toString));
        return JsonText.write(fields.map(), false);
    }

    /** Reads UTF-8, with or without a byte order mark; bytes that are none become U+FFFD, which the framers refuse row by row. */
    private static Reader utf8(String source, InputStream stream) throws IOException {
        PushbackInputStream pushback = new PushbackInputStream(stream, 3);
        byte[] mark = pushback.readNBytes(3);
        boolean utf16 = mark.length >= 2
                && ((mark[0] == (byte) 0xFE && mark[1] == (byte) 0xFF)
                        || (mark[0] == (byte) 0xFF && mark[1] == (byte) 0xFE));
        if (utf16) {
            throw new DocumentException(
                    source, 1, 1, "", "", "is not UTF-8", "a text file in UTF-8", "save the file as UTF-8");
        }
        boolean bom = mark.length == 3 && mark[0] == (byte) 0xEF && mark[1] == (byte) 0xBB && mark[2] == (byte) 0xBF;
        if (!bom) {
            pushback.unread(mark);
        }
        return new Utf8Reader(pushback);
    }

    /**
     * Imports one document that cannot be read as a check sheet: it is one rejected row, whose line in the side file is the
     * document. Bytes of it that are no UTF-8 are lost in that line: where they count, copy the document instead.
     *
     * @param document the document
     * @param why why it cannot be read
     * @param output where it goes
     * @throws IOException if it cannot be written
     */
    public void brokenSheet(byte[] document, DocumentException why, Output output) throws IOException {
        work.begin("", output, record -> "");
        try {
            work.broken(
                    new String(document, StandardCharsets.UTF_8),
                    CsvRows.finding(1, why.value(), why.problem(), why.expected(), why.mend()));
        } catch (UncheckedIOException failed) {
            throw requireNonNull(failed.getCause());
        }
    }

    /** Turns a row into a line of the side file. */
    private interface Form {
        String of(ReadingRecord record);
    }

    /** What changes while a session goes on. */
    private static final class Work implements ReadingSink {
        private static final long TELL = 1 << 14;

        final ImportTally tally = new ImportTally();
        private final Consumer<ImportedReading> accepted;
        private final LongConsumer progress;
        private final ValidationRun run;
        private @Nullable Output output;
        private Form form = record -> "";
        private boolean knowing;
        private @Nullable RowOutcome refused;

        Work(Consumer<ImportedReading> accepted, LongConsumer progress, ReadingValidator validator) {
            this.accepted = accepted;
            this.progress = progress;
            this.run = validator.begin(this::outcome);
        }

        void begin(String place, Output to, Form in) {
            run.from(place);
            output = requireNonNull(to, "output");
            form = in;
        }

        void end() {
            run.finish();
            progress.accept(tally.read());
        }

        void known(String source, InputStream stored) throws IOException {
            knowing = true;
            refused = null;
            run.from(source + ", line");
            new JsonLineRows(ImportMapping.own()).read(utf8(source, stored), new ReadingSink() {
                @Override
                public void row(ReadingRecord record) {
                    run.accept(record.with(ReadingField.CONFIRMED, ALL_CONFIRMED));
                }

                @Override
                public void broken(String text, ImportFinding finding) {
                    throw unknown(source, finding);
                }
            });
            run.finish();
            knowing = false;
            RowOutcome first = refused;
            if (first != null) {
                throw unknown(
                        source,
                        first.findings().stream()
                                .filter(finding -> finding.severity() == Severity.ERROR)
                                .findFirst()
                                .orElse(first.findings().get(0)));
            }
        }

        private static DocumentException unknown(String source, ImportFinding finding) {
            return new DocumentException(
                    source,
                    (int) Math.min(finding.row(), Integer.MAX_VALUE),
                    1,
                    "/" + finding.column(),
                    finding.value(),
                    finding.problem(),
                    finding.expected(),
                    finding.code() == ImportCode.UNKNOWN_MACHINE
                            ? "give the sheet of every machine in the file of accepted readings, or keep one for each"
                            : "the file of accepted readings was changed or is of other engines: " + finding.mend());
        }

        @Override
        public void row(ReadingRecord record) {
            if ((tally.countRead() & (TELL - 1)) == 0) {
                progress.accept(tally.read());
            }
            run.accept(record);
        }

        @Override
        public void broken(String text, ImportFinding finding) {
            tally.countRead();
            tally.count(Fate.REJECTED);
            tally.count(finding);
            side(finding.row(), text);
            tell(finding, Fate.REJECTED);
        }

        void header(String line) {
            try {
                requireNonNull(output).header(line);
            } catch (IOException failed) {
                throw new UncheckedIOException(failed);
            }
        }

        private void side(long row, String line) {
            try {
                requireNonNull(output).rejected(row, line);
            } catch (IOException failed) {
                throw new UncheckedIOException(failed);
            }
        }

        private void tell(ImportFinding finding, Fate fate) {
            try {
                requireNonNull(output).finding(finding, fate);
            } catch (IOException failed) {
                throw new UncheckedIOException(failed);
            }
        }

        private void outcome(RowOutcome outcome) {
            if (knowing) {
                if (outcome.fate() == Fate.REJECTED && refused == null) {
                    refused = outcome;
                }
                return;
            }
            tally.count(outcome.fate());
            List<ImportFinding> findings = outcome.findings();
            for (ImportFinding finding : findings) {
                tally.count(finding);
                tell(finding, outcome.fate());
            }
            if (outcome.fate() == Fate.REJECTED) {
                String line = form.of(outcome.record());
                if (!line.isEmpty()) {
                    side(outcome.record().row(), line);
                }
            }
            outcome.findReading().ifPresent(accepted);
        }
    }
}
