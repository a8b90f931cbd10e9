package dev.lash.engine;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Length;
import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.TextParseException;
import java.io.Serializable;

/**
 * How far a screw moves in one turn, exact: 26 threads an inch are 25.4/26 mm, which no decimal number is. The workshop rule of thumb
 * for 26 threads, 0.040 in a turn and 0.010 in for a quarter ("Valve Adjustment", a workshop note on such adjusters), is 4 % too much:
 * half a turn, taken for 0.020 in, is 0.0192 in.
 *
 * <p>Text: {@code "0.75 mm"}, {@code "26 tpi"}, {@code "0.05 in"}.
 *
 * @param nanometresPerTurn the movement in one turn, in nanometres; from 0.1 mm to 5 mm
 */
public record Pitch(Ratio nanometresPerTurn) implements Serializable {
    private static final Ratio INCH = Ratio.of(25_400_000, 1);
    private static final Ratio FINEST = Ratio.of(100_000, 1);
    private static final Ratio COARSEST = Ratio.of(5_000_000, 1);
    private static final String TPI = "tpi";

    /**
     * Creates a pitch.
     *
     * @param nanometresPerTurn the movement in one turn, in nanometres; from 0.1 mm to 5 mm
     * @throws RejectedValueException if it is outside 0.1 mm to 5 mm
     */
    public Pitch {
        requireNonNull(nanometresPerTurn, "nanometresPerTurn");
        if (nanometresPerTurn.compareTo(FINEST) < 0 || nanometresPerTurn.compareTo(COARSEST) > 0) {
            throw new RejectedValueException(
                    "pitch",
                    nanometresPerTurn + " nm per turn",
                    "is out of range",
                    "0.1 mm to 5 mm per turn",
                    "check the figure and its unit, such as \"0.75 mm\" or \"26 tpi\"");
        }
    }

    /**
     * Reads a pitch.
     *
     * @param text a length per turn, or threads an inch with {@code tpi}
     * @return the pitch
     * @throws RejectedValueException if the text is anything else or out of range
     */
    public static Pitch parse(String text) {
        String s = requireNonNull(text, "text").strip();
        if (!s.endsWith(TPI)) {
            return new Pitch(Ratio.nanometresOf(perTurn(s)));
        }
        Ratio threads = Ratio.parse(s.substring(0, s.length() - TPI.length()).strip());
        if (threads.signum() <= 0) {
            throw new RejectedValueException(
                    "pitch", s, "is out of range", "a positive number of threads an inch", "write such as \"26 tpi\"");
        }
        return new Pitch(INCH.dividedBy(threads));
    }

    private static Length perTurn(String text) {
        try {
            return Length.parse(text);
        } catch (TextParseException noLength) {
            throw new TextParseException(
                    noLength.reason(),
                    "pitch",
                    text,
                    noLength.position(),
                    noLength.problem(),
                    "a length per turn or threads an inch",
                    "write such as \"0.75 mm\" or \"26 tpi\"");
        }
    }

    /** {@return the pitch as a length where that is a whole number of nanometres, else in threads an inch} */
    @Override
    public String toString() {
        return nanometresPerTurn.denominator().bitLength() == 1
                ? nanometresPerTurn.floorNanometres().toString()
                : INCH.dividedBy(nanometresPerTurn) + " " + TPI;
    }
}
