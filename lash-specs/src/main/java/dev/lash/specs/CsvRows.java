package dev.lash.specs;

import dev.lash.check.ImportCode;
import dev.lash.check.ImportFinding;
import dev.lash.check.ImportFinding.Standing;
import dev.lash.check.ReadingRecord;
import dev.lash.check.RecordLayout;
import dev.lash.measure.RejectedValueException;
import java.io.IOException;
import java.io.Reader;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.function.Consumer;
import tools.jackson.core.FormatSchema;
import tools.jackson.core.JacksonException;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.core.ObjectReadContext;
import tools.jackson.dataformat.csv.CsvFactory;
import tools.jackson.dataformat.csv.CsvReadFeature;
import tools.jackson.dataformat.csv.CsvSchema;

/** Reads delimited text with a header: each record becomes a row, its number counted from the header, which is 1. */
final class CsvRows {
    private static final CsvFactory FACTORY =
            CsvFactory.builder().disable(CsvReadFeature.SKIP_EMPTY_LINES).build();

    private final String source;
    private final ImportMapping mapping;

    CsvRows(String source, ImportMapping mapping) {
        this.source = source;
        this.mapping = mapping;
    }

    /** The schema travels in the context. */
    private static final class Context extends ObjectReadContext.Base {
        private final CsvSchema schema;

        Context(char delimiter) {
            this.schema = CsvSchema.builder()
                    .setColumnSeparator(delimiter)
                    .setQuoteChar('"')
                    .setUseHeader(false)
                    .build();
        }

        @Override
        public FormatSchema getSchema() {
            return schema;
        }
    }

    /** Reads everything; the header is told before the first row. */
    void read(Reader text, Consumer<RecordLayout> header, ReadingSink sink) throws IOException {
        RecordFramer framer = new RecordFramer(text, mapping.delimiter());
        RecordLayout layout = null;
        String[] cells = new String[0];
        long row = 0;
        Context context = new Context(mapping.delimiter());
        JsonParser parser = null;
        try {
            while (framer.advance()) {
                row++;
                RecordFramer.Broken broken = framer.broken();
                if (broken != null) {
                    if (layout == null) {
                        throw header(broken.problem(), broken.expected(), broken.mend());
                    }
                    sink.broken(
                            broken.text(),
                            finding(row, broken.text(), broken.problem(), broken.expected(), broken.mend()));
                } else if (layout != null && !framer.hasQuotes() && framer.cells() == cells.length) {
                    if (cells.length > 1 || !framer.isEmpty()) {
                        for (int i = 0; i < cells.length; i++) {
                            cells[i] = framer.cell(i);
                        }
                        sink.row(ReadingRecord.of(layout, row, cells));
                    }
                } else {
                    List<String> all;
                    if (framer.hasQuotes()) {
                        parser = parser == null ? FACTORY.createParser(context, framer.stretch()) : parser;
                        all = quoted(parser);
                        if (framer.isStretchOver()) {
                            parser.close();
                            parser = null;
                        }
                    } else {
                        all = plain(framer);
                    }
                    boolean blank = all.size() == 1 && all.get(0).isEmpty();
                    if (layout == null && !blank) {
                        layout = layout(all);
                        header.accept(layout);
                        cells = new String[all.size()];
                    } else if (layout != null && all.size() == cells.length) {
                        sink.row(ReadingRecord.of(layout, row, all.toArray(cells)));
                    } else if (layout != null && !blank) {
                        tooManyOrFew(row, all, cells.length, sink);
                    }
                }
            }
        } catch (JacksonException unexpected) {
            throw new DocumentException(
                    source,
                    (int) Math.min(row, Integer.MAX_VALUE),
                    1,
                    "",
                    "",
                    "cannot be parted into columns",
                    "rows of columns with one character between them",
                    "check that this is the right file and the right delimiter");
        }
        if (layout == null) {
            throw header("the file has no header", "the names of the columns in the first row", "add them");
        }
    }

    private void tooManyOrFew(long row, List<String> cells, int wanted, ReadingSink sink) {
        String line = CsvText.line(cells, mapping.delimiter());
        sink.broken(
                line,
                finding(
                        row,
                        line,
                        "has " + cells.size() + " columns",
                        wanted + " columns, as the header has",
                        "complete the row, or put quotation marks around a text that holds the delimiter"));
    }

    private static List<String> plain(RecordFramer framer) {
        List<String> cells = new ArrayList<>(framer.cells());
        for (int i = 0; i < framer.cells(); i++) {
            cells.add(framer.cell(i));
        }
        return cells;
    }

    /** The cells of a record with quotation marks, which the parser reads from the framer. */
    private static List<String> quoted(JsonParser parser) {
        List<String> cells = new ArrayList<>();
        JsonToken token = parser.nextToken();
        while (token != null && token != JsonToken.END_ARRAY) {
            if (token == JsonToken.VALUE_STRING) {
                cells.add(parser.getString());
            }
            token = parser.nextToken();
        }
        return cells;
    }

    private RecordLayout layout(List<String> names) {
        Set<String> known = mapping.onlyNames();
        // where no name is known, or near one, it is another file, another delimiter, or no header: that is said
        // elsewhere
        if (names.stream().anyMatch(name -> isKnown(name, known))) {
            for (String name : names) {
                if (!known.contains(name)) {
                    throw unknown(name, known);
                }
            }
        }
        try {
            return mapping.layout(names);
        } catch (RejectedValueException refused) {
            throw new DocumentException(
                    source, 1, 1, "", refused.value(), refused.problem(), refused.expected(), refused.mend());
        }
    }

    private static boolean isKnown(String name, Set<String> known) {
        return known.contains(name) || !Spelling.nearest(name.strip(), known).isEmpty();
    }

    private DocumentException unknown(String name, Set<String> known) {
        return header(
                name,
                name.isBlank() ? "is a column without a name" : "is not the name of a column",
                "one of " + String.join(", ", known),
                Spelling.hint(Spelling.nearest(name.strip(), known))
                        + "rename the column, remove it, or say in a mapping which columns count");
    }

    private DocumentException header(String problem, String expected, String mend) {
        return header("", problem, expected, mend);
    }

    private DocumentException header(String name, String problem, String expected, String mend) {
        return new DocumentException(source, 1, 1, "", name, problem, expected, mend);
    }

    static ImportFinding finding(long row, String text, String problem, String expected, String mend) {
        return finding(row, "", text, problem, expected, mend);
    }

    static ImportFinding finding(long row, String column, String text, String problem, String expected, String mend) {
        return new ImportFinding(
                ImportCode.BROKEN_ROW,
                row,
                column,
                text.length() > 200 ? text.substring(0, 200) : text,
                problem,
                expected,
                mend,
                null,
                Standing.OPEN);
    }
}
