package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.check.ImportFinding;
import dev.lash.check.ReadingRecord;
import java.io.IOException;
import java.io.Reader;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.From;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.Tuple;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;

/** Rows with and without quotation marks are parted in two ways, which must agree wherever a block of text ends. */
class CsvRowsProperties {
    private static final String HEADER = "machine;date;valve";

    @Provide
    Arbitrary<String> cell() {
        Arbitrary<String> few = Arbitraries.of(
                "",
                "a",
                "ab",
                "ba",
                "1-in-1",
                "2031-04-02",
                "(0.10, 0.13) mm",
                "seventeen letters",
                "12 °C",
                "\u0100x",
                "b;c",
                "say \"so\"",
                "\"",
                "in\"side",
                "two\nlines",
                "two\r\nlines",
                " x ",
                "\r");
        Arbitrary<String> any =
                Arbitraries.strings().withChars("ab;\" \n\r°é\u2713").ofMaxLength(20);
        Arbitrary<String> wide = Arbitraries.integers().between(5000, 15_000).map("w"::repeat);
        return Arbitraries.frequencyOf(Tuple.of(20, few), Tuple.of(10, any), Tuple.of(1, wide));
    }

    private record Row(long number, List<String> cells) {}

    private static List<Row> read(Reader text) throws IOException {
        List<Row> rows = new ArrayList<>();
        new CsvRows("file", ImportMapping.read("mapping", """
                { "format": "lash-mapping/1", "delimiter": ";",
                  "columns": { "machine": "machine", "date": "date", "valve": "valve" } }
                """)).read(text, layout -> {}, new ReadingSink() {
            @Override
            public void row(ReadingRecord record) {
                rows.add(new Row(record.row(), record.cells()));
            }

            @Override
            public void broken(String line, ImportFinding finding) {
                rows.add(new Row(finding.row(), List.of("broken: " + finding.problem())));
            }
        });
        return rows;
    }

    /** Hands out a few characters at a time. */
    private static Reader slow(String text, int most) {
        return new Reader() {
            private final StringReader all = new StringReader(text);

            @Override
            public int read(char[] out, int offset, int length) throws IOException {
                return all.read(out, offset, Math.min(length, most));
            }

            @Override
            public void close() {
                throw new AssertionError("closed by one who did not open it");
            }
        };
    }

    @Property(tries = 300)
    void cellsAreThoseThatWereWritten(
            @ForAll @Size(min = 1, max = 40) List<@Size(3) List<@From("cell") String>> rows,
            @ForAll @IntRange(min = 1, max = 70_000) int most,
            @ForAll boolean returns)
            throws IOException {
        StringBuilder text = new StringBuilder(HEADER);
        List<Row> expected = new ArrayList<>();
        for (List<String> row : rows) {
            text.append(returns ? "\r\n" : "\n").append(CsvText.line(row, ';'));
            expected.add(new Row(expected.size() + 2L, row));
        }
        assertThat(read(slow(text.toString(), most))).isEqualTo(expected);
    }

    /** Broken rows, blank lines and rows of another length stand between rows of either kind, and cost none of them. */
    @Property(tries = 300)
    void nothingElseIsTaken(
            @ForAll @Size(min = 1, max = 30) List<@IntRange(max = 6) Integer> kinds,
            @ForAll @IntRange(min = 1, max = 70_000) int most)
            throws IOException {
        StringBuilder text = new StringBuilder(HEADER).append('\n');
        List<Row> expected = new ArrayList<>();
        long number = 1;
        for (int kind : kinds) {
            number++;
            switch (kind) {
                case 0 -> {
                    text.append("a;b;c\n");
                    expected.add(new Row(number, List.of("a", "b", "c")));
                }
                case 1 -> {
                    text.append("a;\"b;\n\";c\r\n");
                    expected.add(new Row(number, List.of("a", "b;\n", "c")));
                }
                case 2 -> text.append('\n');
                case 3 -> {
                    text.append("a;b\n");
                    expected.add(new Row(number, List.of("broken: has 2 columns")));
                }
                case 4 -> {
                    text.append("\"a\";b;c;\"d\"\n");
                    expected.add(new Row(number, List.of("broken: has 4 columns")));
                }
                case 5 -> {
                    text.append("a;\"b\" x;c\r\n");
                    expected.add(new Row(number, List.of("broken: has text after a closing quotation mark")));
                }
                default -> {
                    text.append("y".repeat(RecordFramer.LONGEST * 5)).append("\r\n");
                    expected.add(new Row(number, List.of("broken: is too long")));
                }
            }
        }
        assertThat(read(slow(text.toString(), most))).isEqualTo(expected);
    }
}
