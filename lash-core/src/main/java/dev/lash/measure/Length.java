package dev.lash.measure;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.TextParseException.Reason;
import java.io.Serializable;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * A length, exact to the nanometre.
 *
 * <p>Held as a whole number of nanometres: 0.01 mm is 10&nbsp;000 nm and 0.001 in is 25&nbsp;400 nm, so that leaves, shims
 * and windows of both systems add and compare without rounding, which neither {@code double} nor a decimal number of
 * millimetres with a fixed scale would promise. A length does not remember the unit it was written in. Differences may be
 * negative. Range: -1 m to +1 m.
 *
 * <p>Text: a plain decimal number and a unit ({@code mm}, {@code um}, {@code in}, {@code thou}, {@code hundredths}), such
 * as {@code "0.10 mm"} or {@code ".004 in"}; {@link #toString()} writes millimetres.
 */
public final class Length implements Comparable<Length>, Serializable {
    private static final long serialVersionUID = 1L;

    private static final long LARGEST = 1_000_000_000L;
    private static final int MOST_DECIMALS = 9;
    private static final String EXAMPLE = "0.10 mm";
    private static final String RANGE = "a length from -1000 mm to 1000 mm";

    /** No length. */
    public static final Length ZERO = new Length(0);

    private final long nanometres;

    private Length(long nanometres) {
        this.nanometres = nanometres;
    }

    /**
     * A length in nanometres.
     *
     * @param nanometres nanometres, from -1&nbsp;000&nbsp;000&nbsp;000 to 1&nbsp;000&nbsp;000&nbsp;000
     * @return the length
     * @throws RejectedValueException if it is outside the range
     */
    public static Length ofNanometres(long nanometres) {
        if (nanometres > LARGEST || nanometres < -LARGEST) {
            throw new RejectedValueException(
                    "length", nanometres + " nm", "is out of range", RANGE, "check the number and its unit");
        }
        return nanometres == 0 ? ZERO : new Length(nanometres);
    }

    /**
     * A length from a decimal number of a unit, exactly.
     *
     * @param number the number
     * @param unit its unit
     * @return the length
     * @throws RejectedValueException if it is outside -1 m to 1 m or not a whole number of nanometres
     */
    public static Length of(BigDecimal number, LengthUnit unit) {
        return of(number, unit, QuantityText.plain(number) + " " + unit.symbol(), 0);
    }

    /**
     * A length in millimetres, given as text so that no binary rounding can creep in.
     *
     * @param millimetres a plain decimal number, such as {@code "0.10"}
     * @return the length
     * @throws TextParseException if the text is no such number
     */
    public static Length ofMillimetres(String millimetres) {
        return parse(millimetres, LengthUnit.MILLIMETRE);
    }

    /**
     * A length in inches, given as text so that no binary rounding can creep in.
     *
     * @param inches a plain decimal number, such as {@code "0.004"}
     * @return the length
     * @throws TextParseException if the text is no such number
     */
    public static Length ofInches(String inches) {
        return parse(inches, LengthUnit.INCH);
    }

    /**
     * Reads a length with its unit, such as {@code "0.10 mm"}, {@code ".004\""}, {@code "4 thou"}.
     *
     * @param text the text
     * @return the length
     * @throws TextParseException if the text is anything else, a number without a unit included
     */
    public static Length parse(String text) {
        return read(requireNonNull(text, "text"), Optional.empty());
    }

    /**
     * Reads a length, taking a bare number to be in the declared unit; a unit in the text wins.
     *
     * @param text the text, such as {@code "0.10"} or {@code "0.10 mm"}
     * @param declared the unit of a bare number
     * @return the length
     * @throws TextParseException if the text is no length
     */
    public static Length parse(String text, LengthUnit declared) {
        return read(requireNonNull(text, "text"), Optional.of(declared));
    }

    private static Length read(String text, Optional<LengthUnit> declared) {
        QuantityText parts = QuantityText.split("length", text, EXAMPLE);
        if (parts.unit().isEmpty()) {
            LengthUnit unit = declared.orElseThrow(() -> new TextParseException(
                    Reason.NO_UNIT,
                    "length",
                    text,
                    text.length(),
                    "has no unit",
                    "a number with its unit, such as \"" + EXAMPLE + "\"",
                    "add the unit: " + text.strip() + " mm, " + text.strip() + " in or " + text.strip() + " thou"));
            return of(parts.number(), unit, text, 0);
        }
        LengthUnit unit = LengthUnit.find(parts.unit())
                .orElseThrow(() -> new TextParseException(
                        Reason.UNKNOWN_UNIT,
                        "length",
                        text,
                        parts.unitPosition(),
                        RejectedValueException.quote(parts.unit()) + " is not a unit of length",
                        "mm, um, hundredths, in or thou",
                        "write the value as \"" + EXAMPLE + "\" or \"0.004 in\""));
        return of(parts.number(), unit, text, 0);
    }

    private static Length of(BigDecimal number, LengthUnit unit, String text, int position) {
        BigDecimal nanometres = number.multiply(BigDecimal.valueOf(unit.nanometres()));
        if (nanometres.abs().compareTo(BigDecimal.valueOf(LARGEST)) > 0) {
            throw new TextParseException(
                    Reason.OUT_OF_RANGE,
                    "length",
                    text,
                    position,
                    "is out of range",
                    RANGE,
                    "check the number and its unit");
        }
        if (nanometres.stripTrailingZeros().scale() > 0) {
            throw new TextParseException(
                    Reason.TOO_FINE,
                    "length",
                    text,
                    position,
                    "is not a whole number of nanometres",
                    "at most 6 decimals of a millimetre, or 6 of an inch ending in a multiple of 0.000005",
                    "write fewer digits");
        }
        return ofNanometres(nanometres.longValueExact());
    }

    /** {@return the length in nanometres} */
    public long nanometres() {
        return nanometres;
    }

    /** {@return the length in millimetres, exactly} */
    public BigDecimal millimetres() {
        return BigDecimal.valueOf(nanometres, 6);
    }

    /**
     * The sum.
     *
     * @param other what is added
     * @return this + other
     * @throws RejectedValueException if the sum is outside -1 m to 1 m
     */
    public Length plus(Length other) {
        return ofNanometres(nanometres + other.nanometres);
    }

    /**
     * The difference.
     *
     * @param other what is taken away
     * @return this - other
     * @throws RejectedValueException if the difference is outside -1 m to 1 m
     */
    public Length minus(Length other) {
        return ofNanometres(nanometres - other.nanometres);
    }

    /**
     * The product with a whole number.
     *
     * @param factor the number
     * @return this x factor
     * @throws RejectedValueException if the product is outside -1 m to 1 m
     */
    public Length times(int factor) {
        return ofNanometres(nanometres * factor);
    }

    /** {@return this with the other sign} */
    public Length negated() {
        return ofNanometres(-nanometres);
    }

    /** {@return this without its sign} */
    public Length abs() {
        return nanometres < 0 ? negated() : this;
    }

    /** {@return -1, 0 or 1 as the length is negative, zero or positive} */
    public int signum() {
        return Long.signum(nanometres);
    }

    /**
     * Whether this is smaller than another length.
     *
     * @param other the other length
     * @return whether this is smaller
     */
    public boolean isLessThan(Length other) {
        return nanometres < other.nanometres;
    }

    /**
     * Whether this is larger than another length.
     *
     * @param other the other length
     * @return whether this is larger
     */
    public boolean isMoreThan(Length other) {
        return nanometres > other.nanometres;
    }

    /**
     * The smaller of two lengths.
     *
     * @param a a length
     * @param b a length
     * @return the smaller
     */
    public static Length min(Length a, Length b) {
        return b.isLessThan(a) ? b : a;
    }

    /**
     * The larger of two lengths.
     *
     * @param a a length
     * @param b a length
     * @return the larger
     */
    public static Length max(Length a, Length b) {
        return b.isMoreThan(a) ? b : a;
    }

    @Override
    public int compareTo(Length other) {
        return Long.compare(nanometres, other.nanometres);
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Length length && length.nanometres == nanometres;
    }

    @Override
    public int hashCode() {
        return Long.hashCode(nanometres);
    }

    /** {@return the length in millimetres with its unit, exact, at least two decimals, such as {@code "0.10 mm"}} */
    @Override
    public String toString() {
        return toString(LengthUnit.MILLIMETRE);
    }

    /**
     * The length in a unit, exact. A length that has no finite decimal form in that unit (0.05 mm in inches) is written in
     * millimetres instead, never rounded.
     *
     * @param unit the unit wished for
     * @return the length with its unit
     */
    public String toString(LengthUnit unit) {
        return numberIn(unit)
                .map(number -> number + " " + unit.symbol())
                .orElseGet(() -> numberIn(LengthUnit.MILLIMETRE).orElseThrow() + " " + LengthUnit.MILLIMETRE.symbol());
    }

    /**
     * The number alone, in a unit, exact.
     *
     * @param unit the unit
     * @return the number with the unit's usual decimals at least, or empty when it has no finite decimal form there
     */
    public Optional<String> numberIn(LengthUnit unit) {
        BigDecimal[] parts = BigDecimal.valueOf(nanometres)
                .movePointRight(MOST_DECIMALS)
                .divideAndRemainder(BigDecimal.valueOf(unit.nanometres()));
        if (parts[1].signum() != 0) {
            return Optional.empty();
        }
        BigDecimal number = parts[0].movePointLeft(MOST_DECIMALS).stripTrailingZeros();
        int scale = Math.max(number.scale(), unit.usualDecimals());
        return Optional.of(number.setScale(scale, RoundingMode.UNNECESSARY).toPlainString());
    }
}
