package dev.lash.measure;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.TextParseException.Reason;
import java.io.Serializable;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * A set of lengths between two ends, each of which is included, excluded or missing. Never empty.
 *
 * <table>
 * <caption>Text and meaning</caption>
 * <tr><th>text</th><th>meaning</th><th>factory</th></tr>
 * <tr><td>{@code (0.12, 0.15) mm}</td><td>0.12 mm &lt; x &lt; 0.15 mm</td><td>{@link #open}</td></tr>
 * <tr><td>{@code [0.12, 0.15] mm}</td><td>0.12 mm &lt;= x &lt;= 0.15 mm</td><td>{@link #closed}</td></tr>
 * <tr><td>{@code (0.12, 0.15] mm}</td><td>0.12 mm &lt; x &lt;= 0.15 mm</td><td>{@link #of}</td></tr>
 * <tr><td>{@code [0.15, 0.15] mm}</td><td>x = 0.15 mm</td><td>{@link #point}</td></tr>
 * <tr><td>{@code < 0.03 mm}, {@code <= 0.03 mm}</td><td>no lower end</td><td>{@link #below}, {@link #atMost}</td></tr>
 * <tr><td>{@code > 0.50 mm}, {@code >= 0.50 mm}</td><td>no upper end</td><td>{@link #above}, {@link #atLeast}</td></tr>
 * <tr><td>{@code any}</td><td>no ends at all</td><td>{@link #any}</td></tr>
 * </table>
 *
 * <p>Not {@code Comparable}: intervals that overlap have no order. Compare with {@link #liesBelow}, {@link #liesAbove}
 * and {@link #encloses}.
 */
public final class LengthInterval implements Serializable {
    private static final long serialVersionUID = 1L;

    private static final LengthInterval ANY = new LengthInterval(null, false, null, false);
    private static final String FORM =
            "an interval such as \"(0.12, 0.15] mm\", \"[0.15, 0.15] mm\", \"< 0.03 mm\" or \"> 0.50 mm\"";

    private final @Nullable Length lower;
    private final boolean lowerIncluded;
    private final @Nullable Length upper;
    private final boolean upperIncluded;

    private LengthInterval(
            @Nullable Length lower, boolean lowerIncluded, @Nullable Length upper, boolean upperIncluded) {
        this.lower = lower;
        this.lowerIncluded = lowerIncluded;
        this.upper = upper;
        this.upperIncluded = upperIncluded;
    }

    /**
     * An interval with two ends.
     *
     * @param lower the lower end
     * @param lowerIncluded whether the lower end belongs to it
     * @param upper the upper end
     * @param upperIncluded whether the upper end belongs to it
     * @return the interval
     * @throws RejectedValueException if no length lies between the ends
     */
    public static LengthInterval of(Length lower, boolean lowerIncluded, Length upper, boolean upperIncluded) {
        requireNonNull(lower, "lower");
        requireNonNull(upper, "upper");
        LengthInterval made = new LengthInterval(lower, lowerIncluded, upper, upperIncluded);
        if (made.isEmpty()) {
            throw new RejectedValueException(
                    "interval",
                    made.toString(),
                    "holds no length",
                    "a lower end below the upper end, or equal ends that are both included",
                    "swap the ends, or include both");
        }
        return made;
    }

    /**
     * The interval from a to b, both included.
     *
     * @param lower the lower end
     * @param upper the upper end
     * @return the interval
     * @throws RejectedValueException if lower is above upper
     */
    public static LengthInterval closed(Length lower, Length upper) {
        return of(lower, true, upper, true);
    }

    /**
     * The interval from a to b, neither included.
     *
     * @param lower the lower end
     * @param upper the upper end
     * @return the interval
     * @throws RejectedValueException if lower is not below upper
     */
    public static LengthInterval open(Length lower, Length upper) {
        return of(lower, false, upper, false);
    }

    /**
     * One length alone.
     *
     * @param length the length
     * @return the interval that holds just this length
     */
    public static LengthInterval point(Length length) {
        return of(length, true, length, true);
    }

    /**
     * Everything above a length.
     *
     * @param lower the lower end, not included
     * @return the interval
     */
    public static LengthInterval above(Length lower) {
        return new LengthInterval(requireNonNull(lower, "lower"), false, null, false);
    }

    /**
     * Everything from a length up.
     *
     * @param lower the lower end, included
     * @return the interval
     */
    public static LengthInterval atLeast(Length lower) {
        return new LengthInterval(requireNonNull(lower, "lower"), true, null, false);
    }

    /**
     * Everything below a length.
     *
     * @param upper the upper end, not included
     * @return the interval
     */
    public static LengthInterval below(Length upper) {
        return new LengthInterval(null, false, requireNonNull(upper, "upper"), false);
    }

    /**
     * Everything up to a length.
     *
     * @param upper the upper end, included
     * @return the interval
     */
    public static LengthInterval atMost(Length upper) {
        return new LengthInterval(null, false, requireNonNull(upper, "upper"), true);
    }

    /** {@return the interval without ends: nothing is known} */
    public static LengthInterval any() {
        return ANY;
    }

    /**
     * Reads what {@link #toString()} writes, and the same in the other units of length.
     *
     * @param text the text
     * @return the interval
     * @throws TextParseException if the text is anything else
     */
    public static LengthInterval parse(String text) {
        requireNonNull(text, "text");
        String s = text.strip();
        if (s.equals("any")) {
            return ANY;
        }
        if (s.startsWith("<=")) {
            return atMost(Length.parse(s.substring(2)));
        }
        if (s.startsWith(">=")) {
            return atLeast(Length.parse(s.substring(2)));
        }
        if (s.startsWith("<")) {
            return below(Length.parse(s.substring(1)));
        }
        if (s.startsWith(">")) {
            return above(Length.parse(s.substring(1)));
        }
        int comma = s.indexOf(',');
        int close = Math.max(s.indexOf(')'), s.indexOf(']'));
        if (s.isEmpty() || "([".indexOf(s.charAt(0)) < 0 || comma < 0 || close < comma) {
            throw new TextParseException(
                    Reason.WRONG_FORM,
                    "interval",
                    text,
                    0,
                    "is not an interval",
                    FORM,
                    "write it in one of these forms");
        }
        if (s.indexOf('.') < 0 && comma + 1 < s.length() && Character.isDigit(s.charAt(comma + 1))) {
            throw new TextParseException(
                    Reason.DECIMAL_COMMA,
                    "interval",
                    text,
                    text.indexOf(','),
                    "has a comma that may be a decimal comma",
                    FORM,
                    "write decimal points, and a space after the comma between the ends");
        }
        String unit = s.substring(close + 1);
        Length lower = Length.parse(s.substring(1, comma) + unit);
        Length upper = Length.parse(s.substring(comma + 1, close) + unit);
        LengthInterval made = new LengthInterval(lower, s.charAt(0) == '[', upper, s.charAt(close) == ']');
        if (made.isEmpty()) {
            throw new TextParseException(
                    Reason.WRONG_ORDER,
                    "interval",
                    text,
                    0,
                    "holds no length",
                    "a lower end below the upper end, or equal ends that are both included",
                    "swap the ends, or write square brackets");
        }
        return made;
    }

    private boolean isEmpty() {
        if (lower == null || upper == null) {
            return false;
        }
        int order = lower.compareTo(upper);
        return order > 0 || (order == 0 && !(lowerIncluded && upperIncluded));
    }

    /** {@return the lower end, or empty when there is none} */
    public Optional<Length> lower() {
        return Optional.ofNullable(lower);
    }

    /** {@return whether there is a lower end and it belongs to the interval} */
    public boolean lowerIncluded() {
        return lowerIncluded;
    }

    /** {@return the upper end, or empty when there is none} */
    public Optional<Length> upper() {
        return Optional.ofNullable(upper);
    }

    /** {@return whether there is an upper end and it belongs to the interval} */
    public boolean upperIncluded() {
        return upperIncluded;
    }

    /** {@return whether both ends are there} */
    public boolean isBounded() {
        return lower != null && upper != null;
    }

    /** {@return whether it holds exactly one length} */
    public boolean isPoint() {
        return lower != null && lower.equals(upper);
    }

    /** {@return upper end minus lower end, or empty when an end is missing} */
    public Optional<Length> width() {
        return lower == null || upper == null ? Optional.empty() : Optional.of(upper.minus(lower));
    }

    /**
     * Whether a length belongs to the interval.
     *
     * @param length the length
     * @return whether it does
     */
    public boolean contains(Length length) {
        return intersects(point(length));
    }

    /**
     * Whether every length of another interval belongs to this one: {@code hull(other)} equals this.
     *
     * @param other the other interval
     * @return whether it does
     */
    public boolean encloses(LengthInterval other) {
        return hull(other).equals(this);
    }

    /**
     * Whether the two have a length in common: {@link #intersection} is not empty.
     *
     * @param other the other interval
     * @return whether they have
     */
    public boolean intersects(LengthInterval other) {
        return intersection(other).isPresent();
    }

    /**
     * Whether every length of this lies below every length of the other.
     *
     * @param other the other interval
     * @return whether it does
     */
    public boolean liesBelow(LengthInterval other) {
        requireNonNull(other, "other");
        if (upper == null || other.lower == null) {
            return false;
        }
        int order = upper.compareTo(other.lower);
        return order < 0 || (order == 0 && !(upperIncluded && other.lowerIncluded));
    }

    /**
     * Whether every length of this lies above every length of the other: {@code other.liesBelow(this)}.
     *
     * @param other the other interval
     * @return whether it does
     */
    public boolean liesAbove(LengthInterval other) {
        return other.liesBelow(this);
    }

    /**
     * The lengths that belong to both.
     *
     * @param other the other interval
     * @return the intersection, or empty when they have no length in common
     */
    public Optional<LengthInterval> intersection(LengthInterval other) {
        LengthInterval low = compareLower(this, other) >= 0 ? this : other;
        LengthInterval high = compareUpper(this, other) <= 0 ? this : other;
        LengthInterval both = new LengthInterval(low.lower, low.lowerIncluded, high.upper, high.upperIncluded);
        return both.isEmpty() ? Optional.empty() : Optional.of(both);
    }

    /**
     * The smallest interval that holds both.
     *
     * @param other the other interval
     * @return the hull
     */
    public LengthInterval hull(LengthInterval other) {
        LengthInterval low = compareLower(this, other) <= 0 ? this : other;
        LengthInterval high = compareUpper(this, other) >= 0 ? this : other;
        return new LengthInterval(low.lower, low.lowerIncluded, high.upper, high.upperIncluded);
    }

    /**
     * The interval moved up (or down, for a negative length).
     *
     * @param by how far
     * @return the moved interval
     * @throws RejectedValueException if an end would leave the range of {@link Length}
     */
    public LengthInterval plus(Length by) {
        return plus(point(by));
    }

    /**
     * The sum of two intervals: every length of this plus every length of the other.
     *
     * @param other the other interval
     * @return the sum
     * @throws RejectedValueException if an end would leave the range of {@link Length}
     */
    public LengthInterval plus(LengthInterval other) {
        requireNonNull(other, "other");
        return new LengthInterval(
                lower == null || other.lower == null ? null : lower.plus(other.lower),
                lowerIncluded && other.lowerIncluded,
                upper == null || other.upper == null ? null : upper.plus(other.upper),
                upperIncluded && other.upperIncluded);
    }

    /** {@return the interval of the same lengths with the other sign} */
    public LengthInterval negated() {
        return new LengthInterval(
                upper == null ? null : upper.negated(),
                upperIncluded,
                lower == null ? null : lower.negated(),
                lowerIncluded);
    }

    /**
     * Every length of the interval times a ratio, the ends rounded outward to whole nanometres. A negative ratio turns the ends
     * round.
     *
     * @param ratio the ratio
     * @return the interval
     * @throws RejectedValueException if an end would leave the range of {@link Length}
     */
    public LengthInterval times(Ratio ratio) {
        if (ratio.signum() < 0) {
            return negated().times(Ratio.ZERO.minus(ratio));
        }
        if (ratio.signum() == 0) {
            return point(Length.ZERO);
        }
        Ratio low = lower == null ? Ratio.ZERO : Ratio.nanometresOf(lower).times(ratio);
        Ratio high = upper == null ? Ratio.ZERO : Ratio.nanometresOf(upper).times(ratio);
        boolean exactLow = low.denominator().bitLength() == 1;
        boolean exactHigh = high.denominator().bitLength() == 1;
        return new LengthInterval(
                lower == null ? null : low.floorNanometres(),
                lower != null && lowerIncluded && exactLow,
                upper == null ? null : high.ceilingNanometres(),
                upper != null && upperIncluded && exactHigh);
    }

    /**
     * Compares two lower ends: how strong a lower bound each is. A missing end is the weakest; of equal ends the excluded
     * one is the stronger.
     *
     * @param a an interval
     * @param b an interval
     * @return negative, zero or positive as the lower end of a is weaker than, as strong as or stronger than that of b
     */
    public static int compareLower(LengthInterval a, LengthInterval b) {
        if (a.lower == null || b.lower == null) {
            return Boolean.compare(a.lower != null, b.lower != null);
        }
        int order = a.lower.compareTo(b.lower);
        return order != 0 ? order : Boolean.compare(b.lowerIncluded, a.lowerIncluded);
    }

    /**
     * Compares two upper ends by where they lie. A missing end lies highest; of equal ends the excluded one lies lower.
     *
     * @param a an interval
     * @param b an interval
     * @return negative, zero or positive as the upper end of a lies below, at or above that of b
     */
    public static int compareUpper(LengthInterval a, LengthInterval b) {
        if (a.upper == null || b.upper == null) {
            return Boolean.compare(a.upper == null, b.upper == null);
        }
        int order = a.upper.compareTo(b.upper);
        return order != 0 ? order : Boolean.compare(a.upperIncluded, b.upperIncluded);
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof LengthInterval i
                && Objects.equals(i.lower, lower)
                && i.lowerIncluded == lowerIncluded
                && Objects.equals(i.upper, upper)
                && i.upperIncluded == upperIncluded;
    }

    @Override
    public int hashCode() {
        return Objects.hash(lower, lowerIncluded, upper, upperIncluded);
    }

    /** {@return the interval in millimetres, exact, in one of the forms above} */
    @Override
    public String toString() {
        return toString(LengthUnit.MILLIMETRE);
    }

    /**
     * The interval in a unit, exact; in millimetres when an end has no finite decimal form in that unit.
     *
     * @param unit the unit wished for
     * @return the interval with its unit
     */
    public String toString(LengthUnit unit) {
        requireNonNull(unit, "unit");
        if (lower == null) {
            return upper == null ? "any" : (upperIncluded ? "<= " : "< ") + upper.toString(unit);
        }
        if (upper == null) {
            return (lowerIncluded ? ">= " : "> ") + lower.toString(unit);
        }
        Optional<String> low = lower.numberIn(unit);
        Optional<String> high = upper.numberIn(unit);
        if (low.isEmpty() || high.isEmpty()) {
            return toString(LengthUnit.MILLIMETRE);
        }
        return (lowerIncluded ? "[" : "(") + low.get() + ", " + high.get() + (upperIncluded ? "] " : ") ")
                + unit.symbol();
    }
}
