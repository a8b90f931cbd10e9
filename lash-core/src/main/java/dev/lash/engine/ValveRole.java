package dev.lash.engine;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.TextParseException;
import dev.lash.measure.TextParseException.Reason;

/** What a valve lets pass. */
public enum ValveRole {
    /** An intake valve, {@code in}. */
    INTAKE("in", "intake"),
    /** An exhaust valve, {@code ex}. */
    EXHAUST("ex", "exhaust");

    private final String code;
    private final String word;

    ValveRole(String code, String word) {
        this.code = code;
        this.word = word;
    }

    /** {@return the short form used in valve names, {@code "in"} or {@code "ex"}} */
    public String code() {
        return code;
    }

    /** {@return the word for a person, {@code "intake"} or {@code "exhaust"}} */
    public String word() {
        return word;
    }

    /**
     * Reads the short form.
     *
     * @param text {@code "in"} or {@code "ex"}
     * @return the role
     * @throws TextParseException if the text is anything else
     */
    public static ValveRole parse(String text) {
        return switch (requireNonNull(text, "text")) {
            case "in" -> INTAKE;
            case "ex" -> EXHAUST;
            default ->
                throw new TextParseException(
                        Reason.UNKNOWN_WORD,
                        "valve role",
                        text,
                        0,
                        "is not a role",
                        "in or ex",
                        "write in for intake, ex for exhaust");
        };
    }

    /** {@return {@link #code()}} */
    @Override
    public String toString() {
        return code;
    }
}
