package dev.lash.gauge;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.TextParseException;
import dev.lash.measure.TextParseException.Reason;
import java.util.Arrays;

/** What the hand felt when a leaf was offered to a gap. */
public enum Fit {
    /** The leaf slides with no drag: the clearance is larger than the leaf. */
    GOES("goes"),
    /** The leaf slides with a light, even drag: the clearance is the leaf. */
    DRAGS("drags"),
    /**
     * The leaf enters only when pushed hard. A no-go: springs and oil film let a leaf be pushed into a gap smaller than
     * itself (common practice).
     */
    FORCED("forced"),
    /** The leaf will not enter: the clearance is smaller than the leaf. */
    REFUSES("refuses");

    private final String word;

    Fit(String word) {
        this.word = word;
    }

    /**
     * What the fit says of a go/no-go leaf: forced and refused are the same answer.
     *
     * @return {@link #GOES}, {@link #DRAGS} or {@link #REFUSES}
     */
    public Fit answer() {
        return this == FORCED ? REFUSES : this;
    }

    /** {@return the word for this fit, such as {@code "goes"}} */
    public String word() {
        return word;
    }

    /**
     * Reads a fit.
     *
     * @param text {@code "goes"}, {@code "drags"}, {@code "forced"} or {@code "refuses"}
     * @return the fit
     * @throws TextParseException if the text is anything else
     */
    public static Fit parse(String text) {
        requireNonNull(text, "text");
        return Arrays.stream(values())
                .filter(f -> f.word.equals(text))
                .findFirst()
                .orElseThrow(() -> new TextParseException(
                        Reason.UNKNOWN_WORD,
                        "fit",
                        text,
                        0,
                        "is not a fit",
                        "goes, drags, forced or refuses",
                        "write what the hand felt in one of these words"));
    }

    /** {@return {@link #word()}} */
    @Override
    public String toString() {
        return word;
    }
}
