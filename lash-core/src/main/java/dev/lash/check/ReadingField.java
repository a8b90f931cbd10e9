package dev.lash.check;

import dev.lash.measure.TextParseException;
import dev.lash.measure.TextParseException.Reason;
import java.util.Arrays;
import java.util.Locale;
import java.util.Objects;

/** What a column of imported readings can hold. One row is one gap of one valve at one visit. */
public enum ReadingField {
    /** Which machine. Needed. */
    MACHINE(false),
    /** When. Needed. */
    DATE(false),
    /** What the counter showed. Needed: without it a reading has no place in a wear trend. */
    USAGE(false),
    /** How warm the engine was. */
    TEMPERATURE(false),
    /** Which valve. Needed. */
    VALVE(false),
    /** Which gap of a desmodromic valve. */
    GAP(false),
    /** Trials such as {@code "0.10 mm goes; 0.13 mm refuses"}. */
    TRIALS(true),
    /** The thickest leaf that goes. */
    GOES(true),
    /** The leaf that drags. */
    DRAGS(true),
    /** The thinnest leaf that does not go. */
    REFUSES(true),
    /** The clearance: an interval such as {@code "(0.10, 0.13) mm"}, or one size, read as a leaf that drags. */
    CLEARANCE(true),
    /** Whether the clearance was adjusted: {@code yes} or {@code no}. */
    ADJUSTED(false),
    /** The clearance after the adjustment, as {@link #CLEARANCE}. */
    LEFT(true),
    /** The shim that was found in place. */
    SHIM(true),
    /** The shim that was fitted instead. */
    FITTED(true),
    /** Codes of findings that somebody looked up and stands by, with spaces between. */
    CONFIRMED(false);

    private final boolean length;

    ReadingField(boolean length) {
        this.length = length;
    }

    /** Its place among all fields, within one run of the program only. */
    @SuppressWarnings("EnumOrdinal") // an index into an array, asked for every cell of an import; it is never kept
    int place() {
        return ordinal();
    }

    /** {@return whether it holds lengths} */
    public boolean isLength() {
        return length;
    }

    /** {@return the name in documents, such as {@code "machine"}} */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /**
     * Reads the name in documents.
     *
     * @param text the name, such as {@code "machine"}
     * @return the field
     * @throws TextParseException if the text is none of the names
     */
    public static ReadingField parse(String text) {
        Objects.requireNonNull(text, "text");
        return Arrays.stream(values())
                .filter(f -> f.word().equals(text))
                .findFirst()
                .orElseThrow(() -> new TextParseException(
                        Reason.UNKNOWN_WORD,
                        "field",
                        text,
                        0,
                        "is not a field of a reading",
                        "one of " + Arrays.toString(values()),
                        "write one of these"));
    }

    /** {@return {@link #word()}} */
    @Override
    public String toString() {
        return word();
    }
}
