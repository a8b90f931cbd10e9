package dev.lash.engine;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.RejectedValueException;
import java.io.Serializable;

/**
 * The clearances that a maker allows, both ends included.
 *
 * <p>Text: {@code "0.11..0.16 mm"}.
 *
 * @param lower the least clearance allowed, 0 or more
 * @param upper the largest clearance allowed, at most 5 mm; may equal the least where the maker gives one figure
 */
public record ClearanceWindow(Length lower, Length upper) implements Serializable {
    private static final Length LARGEST = Length.ofMillimetres("5");
    private static final int UNLIKE = 5;

    /** The least upper end of a window that makers give, with room: common practice. */
    public static final Length LEAST_USUAL = Length.ofMillimetres("0.03");

    /** The largest upper end of a window that makers give, with room: common practice. */
    public static final Length MOST_USUAL = Length.ofMillimetres("0.8");

    /** How many times its lower end the upper end of a usual window is at most: common practice. */
    public static final int MOST_ENDS_APART = 6;

    private static final String FORM = "the least and the largest clearance, such as \"0.11..0.16 mm\"";

    /**
     * Creates a window.
     *
     * @param lower the least clearance allowed, 0 or more
     * @param upper the largest clearance allowed, at most 5 mm; may equal the least where the maker gives one figure
     * @throws RejectedValueException if the ends are out of order or outside 0 to 5 mm
     */
    public ClearanceWindow {
        requireNonNull(lower, "lower");
        requireNonNull(upper, "upper");
        if (lower.isMoreThan(upper)) {
            throw new RejectedValueException(
                    "clearance window",
                    new LengthPair(lower, upper).toString(LengthUnit.MILLIMETRE),
                    "is reversed: its lower end lies above its upper end",
                    FORM,
                    "swap the two figures");
        }
        if (lower.signum() < 0 || upper.isMoreThan(LARGEST)) {
            throw new RejectedValueException(
                    "clearance window",
                    new LengthPair(lower, upper).toString(LengthUnit.MILLIMETRE),
                    "is out of range",
                    "clearances from 0 mm to " + LARGEST,
                    "check the figures and their unit");
        }
    }

    /**
     * Reads a window.
     *
     * @param text the window, such as {@code "0.11..0.16 mm"} or {@code "0.003..0.005 in"}
     * @return the window
     * @throws RejectedValueException if the text is anything else
     */
    public static ClearanceWindow parse(String text) {
        LengthPair pair = LengthPair.parse("clearance window", requireNonNull(text, "text"), FORM);
        return new ClearanceWindow(pair.low(), pair.high());
    }

    /** {@return the window as an interval with both ends included} */
    public LengthInterval interval() {
        return LengthInterval.closed(lower, upper);
    }

    /** {@return upper end minus lower end} */
    public Length width() {
        return upper.minus(lower);
    }

    /** {@return whether the upper end is more than {@value #MOST_ENDS_APART} times the lower one, which is not 0: a decimal may have
     * slipped in one} */
    public boolean hasEndsApart() {
        return lower.signum() > 0 && upper.isMoreThan(lower.times(MOST_ENDS_APART));
    }

    /**
     * Whether an end of this window lies below that of another: of a window for the exhaust a sign that the sides are swapped.
     *
     * @param other the other window
     * @return whether it is tighter at either end
     */
    public boolean isTighterThan(ClearanceWindow other) {
        return lower.isLessThan(other.lower) || upper.isLessThan(other.upper);
    }

    /**
     * Whether the middles of two windows lie five times apart or more. Windows of like valves never do, but a slip of the decimal or
     * a wrong unit makes them (factor 10, 25.4 or more; common practice).
     *
     * @param other the other window
     * @return whether they do
     */
    public boolean isUnlike(ClearanceWindow other) {
        long here = lower.nanometres() + upper.nanometres();
        long there = other.lower.nanometres() + other.upper.nanometres();
        return Math.max(here, there) >= UNLIKE * Math.min(here, there) && here != there;
    }

    /** {@return the window in millimetres, such as {@code "0.11..0.16 mm"}} */
    @Override
    public String toString() {
        return toString(LengthUnit.MILLIMETRE);
    }

    /**
     * The window in a unit, exact; in millimetres when an end has no finite decimal form in that unit.
     *
     * @param unit the unit wished for
     * @return the text
     */
    public String toString(LengthUnit unit) {
        return new LengthPair(lower, upper).toString(unit);
    }
}
