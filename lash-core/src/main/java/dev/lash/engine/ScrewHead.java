package dev.lash.engine;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Ratio;
import dev.lash.measure.TextParseException;
import dev.lash.measure.TextParseException.Reason;
import java.util.Arrays;
import java.util.Optional;

/** The shape by which an adjusting screw is turned; its flats are what a hand counts. */
public enum ScrewHead {
    /** Six flats, 60 degrees each. */
    HEXAGON("hexagon", 6),
    /** Four flats, 90 degrees each. */
    SQUARE("square", 4),
    /** A slot or a socket: no flats to count. */
    SLOT("slot", 0),
    /** The shape is not stated: turns are given in degrees only. */
    NOT_STATED("not-stated", 0);

    private final String word;
    private final int flats;

    ScrewHead(String word, int flats) {
        this.word = word;
        this.flats = flats;
    }

    /** {@return the word for this shape, such as {@code "hexagon"}} */
    public String word() {
        return word;
    }

    /** {@return the degrees from one flat to the next, or empty where there are no flats to count} */
    public Optional<Ratio> degreesPerFlat() {
        return flats == 0 ? Optional.empty() : Optional.of(Ratio.of(360, flats));
    }

    /**
     * Reads a shape.
     *
     * @param text {@code "hexagon"}, {@code "square"}, {@code "slot"} or {@code "not-stated"}
     * @return the shape
     * @throws TextParseException if the text is anything else
     */
    public static ScrewHead parse(String text) {
        requireNonNull(text, "text");
        return Arrays.stream(values())
                .filter(h -> h.word.equals(text))
                .findFirst()
                .orElseThrow(() -> new TextParseException(
                        Reason.UNKNOWN_WORD,
                        "screw head",
                        text,
                        0,
                        "is not a shape of head",
                        "hexagon, square, slot or not-stated",
                        "write the shape that is turned"));
    }

    /** {@return {@link #word()}} */
    @Override
    public String toString() {
        return word;
    }
}
