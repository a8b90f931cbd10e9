package dev.lash.engine;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.TextParseException;
import dev.lash.measure.TextParseException.Reason;

/** Which gap of a valve is meant. Only a desmodromic valve has more than one. */
public enum Gap {
    /** The only gap of an ordinary valve. */
    ONLY("only"),
    /** The gap between opener and valve of a desmodromic valve. */
    OPENER("opener"),
    /** The gap between closer and valve of a desmodromic valve, read as loaded minus unloaded opener reading. */
    CLOSER("closer");

    private final String word;

    Gap(String word) {
        this.word = word;
    }

    /** {@return the word in documents} */
    public String word() {
        return word;
    }

    /**
     * A name with the gap behind it, as reports write it.
     *
     * @param name a name of what has the gap, such as {@code "1-in-1"} or {@code "intake"}
     * @return the name and {@code " opener"} or {@code " closer"}; the name alone where there is but one gap
     */
    public String behind(String name) {
        requireNonNull(name, "name");
        return this == ONLY ? name : name + " " + word;
    }

    /**
     * Reads a gap of a desmodromic valve.
     *
     * @param text {@code "opener"} or {@code "closer"}
     * @return the gap
     * @throws TextParseException if the text is anything else
     */
    public static Gap parse(String text) {
        return switch (requireNonNull(text, "text")) {
            case "opener" -> OPENER;
            case "closer" -> CLOSER;
            default ->
                throw new TextParseException(
                        Reason.UNKNOWN_WORD,
                        "gap",
                        text,
                        0,
                        "is not a gap",
                        "opener or closer",
                        "write one of these for a desmodromic valve, else leave it out");
        };
    }

    /** {@return {@link #word()}} */
    @Override
    public String toString() {
        return word;
    }
}
