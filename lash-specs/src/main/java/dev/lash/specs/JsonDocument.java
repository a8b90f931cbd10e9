package dev.lash.specs;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.RejectedValueException;
import dev.lash.specs.DocumentException.Fault;
import dev.lash.specs.Json.Kind;
import java.io.IOException;
import java.io.InputStream;
import java.math.BigDecimal;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JacksonException;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.core.ObjectReadContext;
import tools.jackson.core.StreamReadConstraints;
import tools.jackson.core.TokenStreamLocation;
import tools.jackson.core.exc.StreamConstraintsException;
import tools.jackson.core.exc.UnexpectedEndOfInputException;
import tools.jackson.core.json.JsonFactory;

/**
 * A document read whole, every value with its pointer, line and column, so that whatever turns out wrong with it later can be
 * shown in its place.
 */
final class JsonDocument {
    static final int MOST_BYTES = 8 * 1024 * 1024;
    private static final int MOST_DEPTH = 40;
    private static final int MOST_CHARACTERS = 10_000;
    private static final int MOST_NAME = 200;
    private static final int MOST_DIGITS = 60;
    private static final int MOST_SCALE = 40;

    /** So many faults of one document are told; nobody reads more, and they would fill the memory. */
    static final int MOST_FAULTS = 1_000;

    /** What breaks a line, or makes a terminal do something, and what does not. */
    private static final String BREAKS = "\\x00-\\x1f\\x7f-\\x9f\\u2028\\u2029";

    private static final Pattern LINE = Pattern.compile("[^" + BREAKS + "]*");
    private static final Pattern NO_LINE = Pattern.compile("[" + BREAKS + "]");

    private static final BigDecimal LARGEST_WHOLE = BigDecimal.valueOf(Long.MAX_VALUE / 2);
    private static final JsonFactory FACTORY = JsonFactory.builder()
            .streamReadConstraints(StreamReadConstraints.builder()
                    .maxDocumentLength(MOST_BYTES)
                    .maxNestingDepth(MOST_DEPTH)
                    .maxStringLength(MOST_CHARACTERS)
                    .maxNameLength(MOST_NAME)
                    .maxNumberLength(MOST_DIGITS)
                    .build())
            .build();

    private final String source;
    private final Json root;
    private final @Nullable Map<String, DocumentException> faults;
    private final boolean linewise;
    private boolean overfull;

    private JsonDocument(String source, Json root, @Nullable Map<String, DocumentException> faults, boolean linewise) {
        this.source = source;
        this.root = root;
        this.faults = faults;
        this.linewise = linewise;
    }

    /** A part of a document as it was read, or the fault that kept it from being read, which has been told then. */
    static final class Part<T> {
        private final @Nullable T value;
        private final @Nullable DocumentException fault;

        private Part(@Nullable T value, @Nullable DocumentException fault) {
            this.value = value;
            this.fault = fault;
        }

        /** The part; whoever needs one that could not be read cannot be read either, and adds nothing to what was told. */
        T get() {
            if (fault != null) {
                throw fault;
            }
            return requireNonNull(value);
        }
    }

    /** Reads a document from a file of UTF-8, of which no more is read than a document may hold. */
    static JsonDocument read(Path file) throws IOException {
        try (InputStream stream = Files.newInputStream(file)) {
            return parse(file.toString(), stream.readNBytes(MOST_BYTES + 1));
        }
    }

    /** Reads a document from UTF-8. */
    static JsonDocument parse(String source, byte[] utf8) {
        if (utf8.length > MOST_BYTES) {
            throw tooLarge(source, utf8.length + " bytes");
        }
        try {
            return parse(
                    source,
                    StandardCharsets.UTF_8
                            .newDecoder()
                            .decode(ByteBuffer.wrap(utf8))
                            .toString());
        } catch (CharacterCodingException notUtf8) {
            throw new DocumentException(
                    Fault.TEXT, source, 1, 1, "", "", "is not UTF-8", "a text file in UTF-8", "save the file as UTF-8");
        }
    }

    private static DocumentException tooLarge(String source, String size) {
        return new DocumentException(
                Fault.TEXT,
                source,
                1,
                1,
                "",
                "",
                "is too large: " + size,
                "at most " + MOST_BYTES + " bytes",
                "split the document, one per check");
    }

    /** Reads a document from text. */
    static JsonDocument parse(String source, String text) {
        if (text.length() > MOST_BYTES) {
            throw tooLarge(source, text.length() + " characters");
        }
        String json = text.startsWith("\uFEFF") ? text.substring(1) : text;
        try (JsonParser parser = FACTORY.createParser(ObjectReadContext.empty(), json)) {
            try {
                if (parser.nextToken() == null) {
                    throw new DocumentException(
                            Fault.TEXT,
                            source,
                            1,
                            1,
                            "",
                            "",
                            "the file is empty",
                            "a JSON document",
                            "check the file name");
                }
                JsonDocument document = new JsonDocument(source, read(source, parser, ""), null, false);
                if (parser.nextToken() != null) {
                    TokenStreamLocation place = parser.currentTokenLocation();
                    throw new DocumentException(
                            Fault.TEXT,
                            source,
                            place.getLineNr(),
                            place.getColumnNr(),
                            "",
                            "",
                            "something stands after the end of the document",
                            "one document",
                            "remove what follows");
                }
                return document;
            } catch (JacksonException broken) {
                throw translated(source, parser, broken);
            }
        }
    }

    private static DocumentException translated(String source, JsonParser parser, JacksonException broken) {
        TokenStreamLocation place = broken.getLocation() == null ? parser.currentLocation() : broken.getLocation();
        String pointer = parser.streamReadContext() == null
                ? ""
                : parser.streamReadContext().pathAsPointer().toString();
        String problem;
        String expected = "a JSON document";
        String mend = "correct the place named here";
        if (broken instanceof StreamConstraintsException) {
            problem = "a value here is larger than is ever needed";
            expected = "texts of at most " + MOST_CHARACTERS + " characters, numbers of at most " + MOST_DIGITS
                    + " digits, at most " + MOST_DEPTH + " levels";
            mend = "check that this is the right file";
        } else if (broken instanceof UnexpectedEndOfInputException
                || broken.getOriginalMessage().startsWith("Unexpected end-of-input")) {
            problem = "the document ends too early";
            expected = "closing quotation marks, brackets and braces";
            mend = "the file was cut short: copy it again, or close what is open";
        } else {
            problem = "is not JSON: " + plain(broken.getOriginalMessage());
        }
        return new DocumentException(
                Fault.TEXT,
                source,
                Math.max(1, place.getLineNr()),
                Math.max(1, place.getColumnNr()),
                pointer,
                "",
                problem,
                expected,
                mend);
    }

    /** The parser's own words, without its hints for programmers. */
    private static String plain(String message) {
        String firstLine = message.lines().findFirst().orElse("");
        return firstLine
                .replaceAll("\\s*\\(for \\w+ starting at .*", "")
                .replaceAll(": enable `[^`]*` to allow", "")
                .replaceAll("\\s*[(\\[][^()\\[\\]]*(Source|Feature|marker)[^\\])]*[\\])]*", "")
                .strip();
    }

    private static Json read(String source, JsonParser parser, String pointer) {
        TokenStreamLocation place = parser.currentTokenLocation();
        JsonToken token = parser.currentToken();
        Kind kind = switch (token) {
            case START_OBJECT -> Kind.OBJECT;
            case START_ARRAY -> Kind.ARRAY;
            case VALUE_STRING -> Kind.TEXT;
            case VALUE_NUMBER_INT, VALUE_NUMBER_FLOAT -> Kind.NUMBER;
            case VALUE_TRUE, VALUE_FALSE -> Kind.TRUTH;
            default -> Kind.NULL;
        };
        List<Json> items = kind == Kind.ARRAY ? new ArrayList<>() : List.of();
        Map<String, Json> members = kind == Kind.OBJECT ? new LinkedHashMap<>() : Map.of();
        String text = kind == Kind.OBJECT || kind == Kind.ARRAY ? "" : parser.getString();
        if (kind == Kind.ARRAY) {
            while (parser.nextToken() != JsonToken.END_ARRAY) {
                items.add(read(source, parser, pointer + "/" + items.size()));
            }
        }
        if (kind == Kind.OBJECT) {
            while (parser.nextToken() != JsonToken.END_OBJECT) {
                String name = parser.currentName();
                TokenStreamLocation at = parser.currentTokenLocation();
                String child = pointer + step(name);
                parser.nextToken();
                if (members.put(name, read(source, parser, child)) != null) {
                    throw new DocumentException(
                            Fault.TEXT,
                            source,
                            at.getLineNr(),
                            at.getColumnNr(),
                            child,
                            name,
                            "is given twice in one object",
                            "each key once",
                            "remove one of the two");
                }
            }
        }
        return new Json(kind, text, List.copyOf(items), members, pointer, place.getLineNr(), place.getColumnNr());
    }

    /** The step of a pointer to a member of that name (RFC 6901). */
    static String step(String name) {
        return "/" + name.replace("~", "~0").replace("/", "~1");
    }

    /** The same document, read to the end whatever is wrong with it: see {@link #part} and {@link #faults}. */
    JsonDocument tellingAll() {
        return new JsonDocument(source, root, new LinkedHashMap<>(), linewise);
    }

    /** The same document with other content. */
    JsonDocument with(Json content) {
        return new JsonDocument(source, content, faults, linewise);
    }

    /** The same document, of which each text must be one line: an index, a list and a data sheet are written line by line. */
    JsonDocument linewise() {
        return linewise ? this : new JsonDocument(source, root, faults, true);
    }

    /**
     * Reads a part that others do not hang on. A fault in it is thrown, as that of any document is; in one that {@linkplain #tellingAll
     * tells all} it is kept, and thrown again by whoever asks for the part.
     */
    <T> Part<T> part(Supplier<T> read) {
        try {
            return new Part<>(read.get(), null);
        } catch (DocumentException broken) {
            if (faults == null) {
                throw broken;
            }
            tell(broken);
            return new Part<>(null, broken);
        }
    }

    /** Reads parts of one kind, each apart from the others. */
    <T> Part<List<T>> parts(Part<List<Json>> values, Function<Json, T> read) {
        return part(() -> {
            List<Part<T>> parts = new ArrayList<>();
            for (Json value : values.get()) {
                parts.add(part(() -> read.apply(value)));
            }
            List<T> all = new ArrayList<>();
            parts.forEach(part -> all.add(part.get()));
            return List.copyOf(all);
        });
    }

    /** The same of values that are there. */
    <T> List<T> each(List<Json> values, Function<Json, T> read) {
        return parts(part(() -> values), read).get();
    }

    /** Tells a fault: throws it, or keeps it beside the others where all are told. */
    void tell(DocumentException broken) {
        if (faults == null) {
            throw broken;
        }
        String message = String.valueOf(broken.getMessage());
        if (faults.size() < MOST_FAULTS) {
            faults.putIfAbsent(message, broken);
        } else if (!faults.containsKey(message)) {
            overfull = true;
        }
    }

    /** Whether there are more faults than are told. */
    boolean isOverfull() {
        return overfull;
    }

    /** All faults that were told, in the order of the file. */
    List<DocumentException> faults() {
        return faults == null
                ? List.of()
                : faults.values().stream()
                        .sorted(Comparator.comparingInt(DocumentException::line)
                                .thenComparingInt(DocumentException::column))
                        .toList();
    }

    /** Whether a field of the object at a pointer is missing, or one is there that nobody knows: its fields are in doubt then. */
    boolean isMisspelt(String object) {
        return faults().stream()
                .anyMatch(fault ->
                        (fault.fault() == Fault.MISSING_FIELD && fault.pointer().equals(object))
                                || (fault.fault() == Fault.UNKNOWN_FIELD
                                        && fault.pointer()
                                                .substring(0, fault.pointer().lastIndexOf('/'))
                                                .equals(object)));
    }

    /** The whole document. */
    Json root() {
        return root;
    }

    /** The value at a pointer. */
    Optional<Json> find(String pointer) {
        Json value = root;
        for (String step :
                pointer.isEmpty() ? new String[0] : pointer.substring(1).split("/", -1)) {
            String name = step.replace("~1", "/").replace("~0", "~");
            Json next = value.members().get(name);
            if (value.kind() == Kind.ARRAY
                    && name.matches("[0-9]{1,6}")
                    && Integer.parseInt(name) < value.items().size()) {
                next = value.items().get(Integer.parseInt(name));
            }
            if (next == null) {
                return Optional.empty();
            }
            value = next;
        }
        return Optional.of(value);
    }

    /** The name of the file or stream. */
    String source() {
        return source;
    }

    /** The fields of the whole document, of which {@code format} must be the given one. */
    JsonFields fields(String format, String title) {
        JsonFields fields = fields(root);
        Json value = fields.get("format");
        String given = text(value, "the format of a " + title + ", \"" + format + "\"");
        if (!given.equals(format)) {
            throw error(
                    value,
                    "is not a format that this version reads",
                    "\"" + format + "\"",
                    "check that this is a " + title + ", and that the program is new enough for it");
        }
        return fields;
    }

    /** The fields of an object. */
    JsonFields fields(Json value) {
        if (value.kind() != Kind.OBJECT) {
            throw error(value, "is not an object", Kind.OBJECT.words(), "write the fields in braces");
        }
        return new JsonFields(this, value);
    }

    /** The items of a list. */
    List<Json> items(Json value) {
        if (value.kind() != Kind.ARRAY) {
            throw error(value, "is not a list", Kind.ARRAY.words(), "write the items in square brackets");
        }
        return value.items();
    }

    /** A text. */
    String text(Json value, String expected) {
        if (value.kind() == Kind.NUMBER) {
            throw error(
                    value,
                    "is a bare number",
                    expected,
                    "write it in quotation marks with what it needs, such as a unit");
        }
        if (value.kind() != Kind.TEXT) {
            throw error(value, "is not a text", expected, "write it in quotation marks");
        }
        if (linewise) {
            refuseBreaks(value, value.text());
        }
        return value.text();
    }

    /** Refuses a text, of a value or of the name of one, that is not one line. */
    void refuseBreaks(Json value, String text) {
        if (LINE.matcher(text).matches()) {
            return;
        }
        throw new DocumentException(
                source,
                value.line(),
                value.column(),
                value.pointer(),
                NO_LINE.matcher(text)
                        .replaceAll(found -> Matcher.quoteReplacement(String.format(
                                Locale.ROOT, "\\u%04x", (int) found.group().charAt(0)))),
                "holds a tab, a line break or another control character",
                "one line of plain text",
                "write a space in its place, or begin another text");
    }

    /** A text read by a {@code parse} method. */
    <T> T read(Json value, String expected, Function<String, T> parse) {
        String text = text(value, expected);
        return at(value, () -> parse.apply(text));
    }

    /** A number by its value, of a size that calculations can bear. */
    BigDecimal number(Json value, String expected) {
        if (value.kind() != Kind.NUMBER) {
            throw error(value, "is not a number", expected, "write the number without quotation marks");
        }
        BigDecimal exact;
        try {
            exact = new BigDecimal(value.text());
        } catch (NumberFormatException exponentOutOfRange) {
            throw error(value, "is out of range", expected, "check the number");
        }
        if (Math.abs((long) exact.scale()) > MOST_SCALE) {
            throw error(value, "is out of range", expected, "check the number");
        }
        return exact;
    }

    /** A whole number. */
    int wholeNumber(Json value, int least, int most) {
        String expected = "a whole number from " + least + " to " + most;
        long number = whole(value, expected);
        if (number < least || number > most) {
            throw error(value, "is out of range", expected, "check the number");
        }
        return (int) number;
    }

    /** A whole number, or what is nearest to it in an {@code int}: for a reader whose value refuses what is far too large by itself. */
    int nearestInt(Json value) {
        return (int) Math.max(Integer.MIN_VALUE, Math.min(Integer.MAX_VALUE, whole(value, "a whole number")));
    }

    private long whole(Json value, String expected) {
        if (value.kind() != Kind.NUMBER) {
            throw error(value, "is not a whole number", expected, "write the number without quotation marks");
        }
        BigDecimal exact = number(value, expected);
        if (exact.stripTrailingZeros().scale() > 0) {
            throw error(
                    value, "is not a whole number", expected, "write the number without quotation marks and decimals");
        }
        BigDecimal limit = exact.abs().compareTo(LARGEST_WHOLE) > 0 ? LARGEST_WHOLE : exact.abs();
        return exact.signum() * limit.longValue();
    }

    /** Makes something from a value; what is refused is shown in the value's place. */
    <T> T at(Json value, Supplier<T> made) {
        try {
            return made.get();
        } catch (RejectedValueException refused) {
            throw new DocumentException(
                    source,
                    value.line(),
                    value.column(),
                    value.pointer(),
                    // as it stands in the document, not as it was understood
                    value.kind() == Kind.TEXT && !value.text().contains(refused.value())
                            ? value.text()
                            : refused.value(),
                    refused.problem(),
                    refused.expected(),
                    refused.mend());
        }
    }

    /** Makes something from the fields of an object; what is refused is shown at the field that its name stands for, if it is there. */
    <T> T at(JsonFields fields, Map<String, String> names, Supplier<T> made) {
        try {
            return made.get();
        } catch (RejectedValueException refused) {
            Json place = fields.object();
            for (String step : names.getOrDefault(refused.what(), "").split("/", -1)) {
                place = Optional.ofNullable(place.members().get(step)).orElse(place);
            }
            return at(place, () -> {
                throw refused;
            });
        }
    }

    /** An error in the place of a value. */
    DocumentException error(Json value, String problem, String expected, String mend) {
        return new DocumentException(
                source, value.line(), value.column(), value.pointer(), value.shown(), problem, expected, mend);
    }
}
