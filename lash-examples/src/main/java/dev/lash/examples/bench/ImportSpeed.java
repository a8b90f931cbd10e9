package dev.lash.examples.bench;

import dev.lash.check.ImportFinding;
import dev.lash.check.RowOutcome.Fate;
import dev.lash.examples.sim.ImportCorpus;
import dev.lash.specs.ImportSession;
import java.io.BufferedInputStream;
import java.io.BufferedReader;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import tools.jackson.core.FormatSchema;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.core.ObjectReadContext;
import tools.jackson.dataformat.csv.CsvFactory;
import tools.jackson.dataformat.csv.CsvSchema;

/** Rows a second of an import from a file, against merely parsing the same file with the same CSV library. Counted in
 * processor time of the one thread that works. Run by hand. */
public final class ImportSpeed {
    private static final int MACHINES = 1500;

    private ImportSpeed() {}

    /**
     * Writes a file of the corpus over and over, with other machines each time, and reads it several times.
     *
     * @param args the number of rows, and the number of rounds
     * @throws IOException if the file cannot be written or read
     */
    public static void main(String[] args) throws IOException {
        long rows = args.length > 0 ? Long.parseLong(args[0]) : 1_000_000;
        int rounds = args.length > 1 ? Integer.parseInt(args[1]) : 3;
        Path file = Files.createTempFile("lash-import", ".csv");
        try {
            write(file, rows);
            for (int i = 0; i < rounds; i++) {
                long parse = parse(file);
                long read = read(file);
                report("parse ", rows, parse);
                report("import", rows, read);
                ratio(parse, read);
            }
            Runtime runtime = Runtime.getRuntime();
            System.out.println("heap limit " + runtime.maxMemory() / (1 << 20) + " MiB");
        } finally {
            Files.delete(file);
        }
    }

    private static void ratio(long parse, long read) {
        System.out.println("import takes " + Math.round(100.0 * read / parse) / 100.0 + " times the time of parsing");
    }

    private static void report(String what, long rows, long nanoseconds) {
        System.out.println(what + " " + rows + " rows, " + rows * 1_000_000_000L / nanoseconds + " a second");
    }

    /** The processor time of this thread: a wall clock would count what else the machine does. */
    private static long cpu() {
        return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    }

    private static void write(Path file, long rows) throws IOException {
        String text = new ImportCorpus(1, MACHINES, 0.01).text();
        String header = text.substring(0, text.indexOf('\n') + 1);
        String[] lines = text.substring(header.length()).split("\n", -1);
        try (BufferedWriter out = Files.newBufferedWriter(file)) {
            out.write(header);
            long written = 0;
            for (int round = 0; written < rows; round++) {
                for (int i = 0; i < lines.length - 1 && written < rows; i++) {
                    out.write("Trainer " + round + "/" + lines[i].replace("Trainer ", ""));
                    out.write('\n');
                    written++;
                }
            }
        }
    }

    private static long parse(Path file) throws IOException {
        long start = cpu();
        try (InputStream stream = Files.newInputStream(file)) {
            if (cells(stream) == 0) {
                throw new IllegalStateException("nothing was parsed");
            }
        }
        return cpu() - start;
    }

    /** Parses delimited text with the CSV library and counts the cells that hold something. */
    static long cells(InputStream text) throws IOException {
        long cells = 0;
        CsvFactory factory = CsvFactory.builder().build();
        try (BufferedReader reader = new BufferedReader(new InputStreamReader(text, StandardCharsets.UTF_8));
                JsonParser parser = factory.createParser(
                        new ObjectReadContext.Base() {
                            @Override
                            public FormatSchema getSchema() {
                                return CsvSchema.builder()
                                        .setColumnSeparator(';')
                                        .build();
                            }
                        },
                        reader)) {
            for (JsonToken token = parser.nextToken(); token != null; token = parser.nextToken()) {
                if (token == JsonToken.VALUE_STRING) {
                    cells += parser.getString().length() > 0 ? 1 : 0;
                }
            }
        }
        return cells;
    }

    private static long read(Path file) throws IOException {
        long start = cpu();
        long[] findings = new long[1];
        ImportSession session = new ImportSession(ImportCorpus.validator(), reading -> findings[0]++, count -> {});
        try (InputStream stream = new BufferedInputStream(Files.newInputStream(file), 1 << 16)) {
            session.csv(file.toString(), stream, ImportCorpus.mapping(), new ImportSession.Output() {
                @Override
                public void header(String text) {
                    findings[0]++;
                }

                @Override
                public void rejected(long row, String text) {
                    findings[0]++;
                }

                @Override
                public void finding(ImportFinding finding, Fate fate) {
                    findings[0]++;
                }
            });
        }
        System.out.println(session.summary().accepted() + " accepted");
        return cpu() - start;
    }
}
