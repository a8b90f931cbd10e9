package dev.lash.measure;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.TextParseException.Reason;
import java.io.Serializable;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Arrays;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * How much a machine has been used: a distance or running hours, as its counter shows it.
 *
 * <p>A usage keeps the unit it was written in, and two usages are equal when number and unit are. Text: {@code "18450 km"},
 * {@code "11464 mi"}, {@code "640.5 h"}. Range: 0 to 100&nbsp;000&nbsp;000 of its unit.
 *
 * <p>Not {@code Comparable}, since hours and kilometres have no order; see {@link #compareAmount}.
 */
public final class Usage implements Serializable {
    private static final long serialVersionUID = 1L;
    private static final BigDecimal LARGEST = BigDecimal.valueOf(100_000_000);

    /** What a counter counts. */
    public enum Unit {
        /** Kilometres. */
        KILOMETRE("1", true, "km"),
        /** Miles of 1.609344 km exactly (international yard and pound agreement, 1959). */
        MILE("1.609344", true, "mi"),
        /** Running hours. */
        HOUR("1", false, "h");

        private final BigDecimal size;
        private final boolean distance;
        private final String symbol;

        Unit(String size, boolean distance, String symbol) {
            this.size = new BigDecimal(size);
            this.distance = distance;
            this.symbol = symbol;
        }

        /** {@return the symbol, such as {@code "km"}} */
        public String symbol() {
            return symbol;
        }

        /** {@return whether the unit counts a distance, not time} */
        public boolean isDistance() {
            return distance;
        }
    }

    private final BigDecimal amount;
    private final Unit unit;

    private Usage(BigDecimal amount, Unit unit) {
        this.amount = amount.signum() == 0 ? BigDecimal.ZERO : amount.stripTrailingZeros();
        this.unit = unit;
    }

    /**
     * A usage.
     *
     * @param amount what the counter shows, from 0 to 100&nbsp;000&nbsp;000
     * @param unit what it counts
     * @return the usage
     * @throws RejectedValueException if the amount is outside the range or has more than 25 digits
     */
    public static Usage of(BigDecimal amount, Unit unit) {
        requireNonNull(unit, "unit");
        if (amount.signum() < 0 || amount.compareTo(LARGEST) > 0) {
            throw new RejectedValueException(
                    "usage",
                    QuantityText.plain(amount) + " " + unit.symbol(),
                    "is out of range",
                    "0 to " + LARGEST.toPlainString() + " " + unit.symbol(),
                    "write what the counter shows");
        }
        if (!QuantityText.isReadable(amount)) {
            throw new RejectedValueException(
                    "usage",
                    QuantityText.plain(amount) + " " + unit.symbol(),
                    "has too many digits",
                    "at most 25 digits",
                    "write what the counter shows");
        }
        return new Usage(amount, unit);
    }

    /**
     * Reads a usage.
     *
     * @param text the text, such as {@code "18450 km"}
     * @return the usage
     * @throws TextParseException if the text is anything else
     */
    public static Usage parse(String text) {
        QuantityText parts = QuantityText.split("usage", requireNonNull(text, "text"), "18450 km");
        String symbol = parts.unit().toLowerCase(Locale.ROOT);
        Unit unit = Arrays.stream(Unit.values())
                .filter(u -> u.symbol.equals(symbol))
                .findFirst()
                .orElseThrow(() -> new TextParseException(
                        symbol.isEmpty() ? Reason.NO_UNIT : Reason.UNKNOWN_UNIT,
                        "usage",
                        text,
                        parts.unitPosition(),
                        symbol.isEmpty()
                                ? "has no unit"
                                : RejectedValueException.quote(parts.unit()) + " is not a unit of usage",
                        "a number with km, mi or h, such as \"18450 km\" or \"120 h\"",
                        "add the unit that the counter counts"));
        if (parts.number().signum() < 0 || parts.number().compareTo(LARGEST) > 0) {
            throw new TextParseException(
                    Reason.OUT_OF_RANGE,
                    "usage",
                    text,
                    0,
                    "is out of range",
                    "0 to " + LARGEST.toPlainString() + " " + unit.symbol(),
                    "write what the counter shows");
        }
        return new Usage(parts.number(), unit);
    }

    /** {@return what the counter shows} */
    public BigDecimal amount() {
        return amount;
    }

    /** {@return what it counts} */
    public Unit unit() {
        return unit;
    }

    /**
     * Whether this and another usage count the same kind of thing, distance or time.
     *
     * @param other the other usage
     * @return whether they do
     */
    public boolean isSameKind(Usage other) {
        return unit.distance == other.unit.distance;
    }

    /**
     * Compares the amounts of two usages of one kind; miles and kilometres compare exactly.
     *
     * @param other the other usage
     * @return negative, zero or positive as this is less than, equal to or more than the other
     * @throws RejectedValueException if one is a distance and the other running hours
     */
    public int compareAmount(Usage other) {
        if (!isSameKind(other)) {
            throw new RejectedValueException(
                    "usage",
                    this + " and " + other,
                    "cannot be compared",
                    "two distances or two running times",
                    "give both as the same counter shows them");
        }
        return amount.multiply(unit.size).compareTo(other.amount.multiply(other.unit.size));
    }

    /**
     * How many times another usage goes into this one, exactly.
     *
     * @param other the other usage, more than 0
     * @return the quotient
     * @throws RejectedValueException if the other is 0, or one is a distance and the other running hours
     */
    public Ratio dividedBy(Usage other) {
        compareAmount(other);
        return Ratio.of(amount.multiply(unit.size)).dividedBy(Ratio.of(other.amount.multiply(other.unit.size)));
    }

    /**
     * This and as much again as another usage, in the unit of this; what is given in another unit is added rounded down to a
     * thousandth of this one's.
     *
     * @param other the other usage
     * @return the sum
     * @throws RejectedValueException if one is a distance and the other running hours, or the sum is out of range
     */
    public Usage plus(Usage other) {
        if (other.unit == unit) {
            return of(amount.add(other.amount), unit);
        }
        compareAmount(other);
        BigDecimal added = other.amount.multiply(other.unit.size).divide(unit.size, 3, RoundingMode.FLOOR);
        return of(amount.add(added), unit);
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Usage usage && usage.unit == unit && usage.amount.equals(amount);
    }

    @Override
    public int hashCode() {
        return 31 * amount.hashCode() + unit.name().hashCode();
    }

    /** {@return the number and its unit, such as {@code "18450 km"}} */
    @Override
    public String toString() {
        return QuantityText.plain(amount) + " " + unit.symbol();
    }
}
