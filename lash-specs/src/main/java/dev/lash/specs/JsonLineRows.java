package dev.lash.specs;

import dev.lash.check.ReadingField;
import dev.lash.check.ReadingRecord;
import dev.lash.check.RecordLayout;
import java.io.IOException;
import java.io.Reader;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import tools.jackson.core.JacksonException;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.core.ObjectReadContext;
import tools.jackson.core.StreamReadConstraints;
import tools.jackson.core.StreamReadFeature;
import tools.jackson.core.json.JsonFactory;

/** Reads JSON Lines: one object a line; its keys are the columns that the mapping names; others are left alone, or refused in lash's own form. */
final class JsonLineRows {
    /** The column that keeps the line as it was. */
    static final String LINE = "(line)";

    private static final int MOST_DEPTH = 6;
    private static final int MOST_DIGITS = 60;
    private static final JsonFactory FACTORY = JsonFactory.builder()
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .streamReadConstraints(StreamReadConstraints.builder()
                    .maxNestingDepth(MOST_DEPTH)
                    .maxNumberLength(MOST_DIGITS)
                    .build())
            .build();

    private final RecordLayout layout;
    private final Map<String, Integer> columns = new HashMap<>();
    private final String trials;

    /** The keys that a line may have; none where any may stand beside those of the mapping. */
    private final Set<String> only;

    JsonLineRows(ImportMapping mapping) {
        List<String> names = new ArrayList<>();
        for (ReadingField field : ReadingField.values()) {
            mapping.column(field).filter(c -> !names.contains(c)).ifPresent(names::add);
        }
        names.add(LINE);
        this.layout = mapping.layout(names);
        this.trials = mapping.column(ReadingField.TRIALS).orElse("");
        this.only = mapping.onlyNames();
        for (int i = 0; i < names.size() - 1; i++) {
            columns.put(names.get(i), i);
        }
    }

    RecordLayout layout() {
        return layout;
    }

    /** Reads everything; lines are counted from 1, blank ones too. */
    void read(Reader text, ReadingSink sink) throws IOException {
        LineFramer lines = new LineFramer(text);
        while (lines.next()) {
            String line = lines.line();
            if (lines.isTooLong()) {
                broken(
                        sink,
                        lines.number(),
                        line,
                        "is too long",
                        "a line of at most " + LineFramer.LONGEST + " characters",
                        "correct the line" + RecordFramer.CUT);
            } else if (line.indexOf('\uFFFD') >= 0 || line.indexOf('\0') >= 0) {
                broken(sink, lines.number(), line, "holds characters that are no text", "text in UTF-8");
            } else if (!line.isBlank()) {
                row(sink, lines.number(), line);
            }
        }
    }

    private static void broken(ReadingSink sink, long number, String line, String problem, String expected) {
        broken(sink, number, line, problem, expected, "correct the line");
    }

    private static void broken(
            ReadingSink sink, long number, String line, String problem, String expected, String mend) {
        sink.broken(line, CsvRows.finding(number, line, problem, expected, mend));
    }

    private void row(ReadingSink sink, long number, String line) {
        String[] cells = new String[columns.size() + 1];
        Arrays.fill(cells, "");
        cells[columns.size()] = line;
        String expected = "one JSON object whose values are texts and numbers";
        try (JsonParser parser = FACTORY.createParser(ObjectReadContext.empty(), line)) {
            if (parser.nextToken() != JsonToken.START_OBJECT) {
                broken(sink, number, line, "is no JSON object", expected);
                return;
            }
            while (parser.nextToken() == JsonToken.PROPERTY_NAME) {
                String name = parser.currentName();
                Integer column = columns.get(name);
                JsonToken token = parser.nextToken();
                if (column == null && !only.isEmpty()) {
                    unknown(sink, number, line, name);
                    return;
                } else if (column == null) {
                    parser.skipChildren();
                } else if (token == JsonToken.START_ARRAY && name.equals(trials)) {
                    cells[column] = trials(parser);
                } else if (token == JsonToken.START_ARRAY || token == JsonToken.START_OBJECT) {
                    broken(sink, number, line, "has a list or an object for \"" + name + "\"", expected);
                    return;
                } else {
                    cells[column] = scalar(parser, token);
                }
            }
            if (parser.nextToken() != null) {
                broken(sink, number, line, "goes on after its object", expected);
                return;
            }
        } catch (JacksonException notJson) {
            broken(
                    sink,
                    number,
                    line,
                    "is not JSON, has a key twice, lists " + MOST_DEPTH + " deep, or a number of over " + MOST_DIGITS
                            + " digits",
                    expected);
            return;
        }
        sink.row(ReadingRecord.of(layout, number, cells));
    }

    private void unknown(ReadingSink sink, long number, String line, String name) {
        sink.broken(
                line,
                CsvRows.finding(
                        number,
                        name,
                        name,
                        "is not a key that is known",
                        "one of " + String.join(", ", only),
                        Spelling.hint(Spelling.nearest(name.strip(), only))
                                + "rename the key, remove it, or say in a mapping which keys count"));
    }

    private static String scalar(JsonParser parser, JsonToken token) {
        return switch (token) {
            case VALUE_NULL -> "";
            case VALUE_TRUE -> "yes";
            case VALUE_FALSE -> "no";
            default -> parser.getString();
        };
    }

    /** Trials as texts, or as objects with a leaf and a fit as in a check sheet; what is else is no trial, and is said to be none. */
    private static String trials(JsonParser parser) {
        List<String> all = new ArrayList<>();
        JsonToken token = parser.nextToken();
        while (token != JsonToken.END_ARRAY && token != null) {
            if (token == JsonToken.START_OBJECT) {
                String leaf = "";
                String fit = "";
                while (parser.nextToken() == JsonToken.PROPERTY_NAME) {
                    boolean isLeaf = parser.currentName().equals("leaf");
                    JsonToken value = parser.nextToken();
                    String text;
                    if (value == JsonToken.START_ARRAY) {
                        List<String> stack = new ArrayList<>();
                        while (parser.nextToken() == JsonToken.VALUE_STRING) {
                            stack.add(parser.getString());
                        }
                        text = String.join(" + ", stack);
                        while (parser.currentToken() != JsonToken.END_ARRAY && parser.currentToken() != null) {
                            parser.skipChildren();
                            parser.nextToken();
                            text = "?";
                        }
                    } else {
                        parser.skipChildren();
                        text = value == JsonToken.VALUE_STRING ? parser.getString() : "?";
                    }
                    leaf = isLeaf ? text : leaf;
                    fit = isLeaf ? fit : text;
                }
                all.add(leaf + " " + fit);
            } else {
                parser.skipChildren();
                all.add(token == JsonToken.VALUE_STRING ? parser.getString() : "?");
            }
            token = parser.nextToken();
        }
        return all.isEmpty() ? "" : String.join("; ", all);
    }
}
