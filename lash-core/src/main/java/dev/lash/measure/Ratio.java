package dev.lash.measure;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.TextParseException.Reason;
import java.io.Serializable;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.RoundingMode;
import org.jspecify.annotations.Nullable;

/**
 * An exact dimensionless number, a fraction in lowest terms: rocker ratios, nanometres per turn, degrees of turn. Sums and
 * products never round; {@link #floor} and {@link #ceiling} say which way they do.
 *
 * <p>Text: a plain decimal ({@code "1.5"}) or a fraction of whole numbers ({@code "25400000/26"}); {@link #toString()}
 * writes a decimal when the fraction has a finite one of at most 25 digits. A fraction is read with up to 1000 digits on
 * each side.
 */
public final class Ratio implements Comparable<Ratio>, Serializable {
    private static final long serialVersionUID = 1L;

    private static final String EXAMPLE = "1.5";

    /** 0. */
    public static final Ratio ZERO = of(0, 1);

    /** 1. */
    public static final Ratio ONE = of(1, 1);

    private static final int MOST_DIGITS = 1000;

    private final BigInteger numerator;
    private final BigInteger denominator;

    private Ratio(BigInteger numerator, BigInteger denominator) {
        BigInteger divisor = numerator.gcd(denominator);
        if (denominator.signum() < 0) {
            divisor = divisor.negate();
        }
        this.numerator = numerator.divide(divisor);
        this.denominator = denominator.divide(divisor);
    }

    /**
     * The fraction of two whole numbers.
     *
     * @param numerator the number above the line
     * @param denominator the number below the line, not 0
     * @return the fraction
     * @throws RejectedValueException if the denominator is 0
     */
    public static Ratio of(long numerator, long denominator) {
        return of(BigInteger.valueOf(numerator), BigInteger.valueOf(denominator));
    }

    private static Ratio of(BigInteger numerator, BigInteger denominator) {
        if (denominator.signum() == 0) {
            throw new RejectedValueException(
                    "ratio",
                    numerator + "/0",
                    "divides by zero",
                    "a denominator other than 0",
                    "check the number below the line");
        }
        return new Ratio(numerator, denominator);
    }

    /**
     * A decimal number, exactly.
     *
     * @param number the number
     * @return the ratio
     */
    public static Ratio of(BigDecimal number) {
        return number.scale() <= 0
                ? new Ratio(number.toBigIntegerExact(), BigInteger.ONE)
                : new Ratio(number.unscaledValue(), BigInteger.TEN.pow(number.scale()));
    }

    /**
     * A length as its number of nanometres.
     *
     * @param length the length
     * @return the number of nanometres
     */
    public static Ratio nanometresOf(Length length) {
        return of(length.nanometres(), 1);
    }

    /**
     * Reads a ratio.
     *
     * @param text the text, such as {@code "1.5"} or {@code "3/2"}
     * @return the ratio
     * @throws TextParseException if the text is anything else
     */
    public static Ratio parse(String text) {
        int slash = requireNonNull(text, "text").indexOf('/');
        if (slash < 0) {
            return of(number(QuantityText.split("ratio", text, EXAMPLE), text));
        }
        BigDecimal above = number(QuantityText.split("ratio", text.substring(0, slash), EXAMPLE, MOST_DIGITS), text);
        BigDecimal below = number(QuantityText.split("ratio", text.substring(slash + 1), EXAMPLE, MOST_DIGITS), text);
        if (above.scale() > 0 || below.scale() > 0 || below.signum() == 0) {
            throw wrongForm(text, slash);
        }
        return of(above.toBigIntegerExact(), below.toBigIntegerExact());
    }

    private static BigDecimal number(QuantityText parts, String text) {
        if (!parts.unit().isEmpty()) {
            throw wrongForm(text, text.indexOf(parts.unit()));
        }
        return parts.number();
    }

    private static TextParseException wrongForm(String text, int position) {
        return new TextParseException(
                Reason.WRONG_FORM,
                "ratio",
                text,
                Math.max(position, 0),
                "is not a plain number",
                "a number without a unit, such as \"1.5\" or \"3/2\"",
                "write the number alone");
    }

    /** {@return the number above the line, in lowest terms} */
    public BigInteger numerator() {
        return numerator;
    }

    /** {@return the number below the line, in lowest terms, positive} */
    public BigInteger denominator() {
        return denominator;
    }

    /**
     * The sum.
     *
     * @param other what is added
     * @return this + other
     */
    public Ratio plus(Ratio other) {
        return new Ratio(
                numerator.multiply(other.denominator).add(other.numerator.multiply(denominator)),
                denominator.multiply(other.denominator));
    }

    /**
     * The difference.
     *
     * @param other what is taken away
     * @return this - other
     */
    public Ratio minus(Ratio other) {
        return plus(new Ratio(other.numerator.negate(), other.denominator));
    }

    /**
     * The product.
     *
     * @param other the other factor
     * @return this x other
     */
    public Ratio times(Ratio other) {
        return new Ratio(numerator.multiply(other.numerator), denominator.multiply(other.denominator));
    }

    /**
     * The quotient.
     *
     * @param other the divisor
     * @return this / other
     * @throws RejectedValueException if the divisor is 0
     */
    public Ratio dividedBy(Ratio other) {
        return of(numerator.multiply(other.denominator), denominator.multiply(other.numerator));
    }

    /** {@return -1, 0 or 1 as the number is negative, zero or positive} */
    public int signum() {
        return numerator.signum();
    }

    /**
     * The number rounded down (towards negative infinity).
     *
     * @param decimals how many decimals to keep
     * @return the largest decimal of that many places that is not above this
     */
    public BigDecimal floor(int decimals) {
        return rounded(decimals, RoundingMode.FLOOR);
    }

    /**
     * The number rounded up (towards positive infinity).
     *
     * @param decimals how many decimals to keep
     * @return the smallest decimal of that many places that is not below this
     */
    public BigDecimal ceiling(int decimals) {
        return rounded(decimals, RoundingMode.CEILING);
    }

    private BigDecimal rounded(int decimals, RoundingMode mode) {
        return new BigDecimal(numerator).divide(new BigDecimal(denominator), decimals, mode);
    }

    /**
     * Rounded down, as a length.
     *
     * @return the number of whole nanometres not above this
     * @throws RejectedValueException if that is outside -1 m to 1 m
     */
    public Length floorNanometres() {
        return length(floor(0));
    }

    /**
     * Rounded up, as a length.
     *
     * @return the number of whole nanometres not below this
     * @throws RejectedValueException if that is outside -1 m to 1 m
     */
    public Length ceilingNanometres() {
        return length(ceiling(0));
    }

    private static Length length(BigDecimal nanometres) {
        return nanometres.precision() <= 18
                ? Length.ofNanometres(nanometres.longValueExact())
                : Length.of(nanometres.movePointLeft(6), LengthUnit.MILLIMETRE);
    }

    @Override
    public int compareTo(Ratio other) {
        return numerator.multiply(other.denominator).compareTo(other.numerator.multiply(denominator));
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Ratio ratio
                && ratio.numerator.equals(numerator)
                && ratio.denominator.equals(denominator);
    }

    @Override
    public int hashCode() {
        return 31 * numerator.hashCode() + denominator.hashCode();
    }

    /** {@return the number as a decimal where it has a finite one of at most 25 digits, else as a fraction} */
    @Override
    public String toString() {
        String fraction = numerator + "/" + denominator;
        try {
            BigDecimal decimal = new BigDecimal(numerator).divide(new BigDecimal(denominator));
            return QuantityText.isReadable(decimal) ? QuantityText.plain(decimal) : fraction;
        } catch (ArithmeticException noFiniteDecimal) {
            return fraction;
        }
    }
}
