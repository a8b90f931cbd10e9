package dev.lash.measure;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.TextParseException.Reason;
import java.io.Serializable;
import java.math.BigDecimal;
import java.util.Comparator;
import org.jspecify.annotations.Nullable;

/**
 * The temperature of an engine, in degrees Celsius or Fahrenheit as it was written; the two compare exactly. Text: {@code
 * "22 °C"}, {@code "72 °F"} (also read: {@code "22 C"}). Range: -100 to 1000 °C.
 *
 * <p>The order is by temperature, then by unit, so that it agrees with {@link #equals}; to ask whether an engine is too
 * warm use {@link #isAbove}.
 */
public final class Temperature implements Comparable<Temperature>, Serializable {
    private static final long serialVersionUID = 1L;
    private static final Ratio LOWEST = Ratio.of(-100, 1);
    private static final Ratio HIGHEST = Ratio.of(1000, 1);

    /** The two scales. */
    public enum Scale {
        /** Degrees Celsius. */
        CELSIUS("°C"),
        /** Degrees Fahrenheit. */
        FAHRENHEIT("°F");

        private final String symbol;

        Scale(String symbol) {
            this.symbol = symbol;
        }
    }

    private final BigDecimal degrees;
    private final Scale scale;

    private Temperature(BigDecimal degrees, Scale scale) {
        this.degrees = degrees.signum() == 0 ? BigDecimal.ZERO : degrees.stripTrailingZeros();
        this.scale = scale;
    }

    /**
     * A temperature in degrees Celsius.
     *
     * @param degrees degrees Celsius, -100 to 1000
     * @return the temperature
     * @throws RejectedValueException if it is outside the range
     */
    public static Temperature ofCelsius(int degrees) {
        Temperature made = new Temperature(BigDecimal.valueOf(degrees), Scale.CELSIUS);
        if (made.isOutOfRange()) {
            throw new RejectedValueException(
                    "temperature",
                    made.toString(),
                    "is out of range",
                    "-100 °C to 1000 °C",
                    "check the number and its scale");
        }
        return made;
    }

    /**
     * Reads a temperature.
     *
     * @param text the text, such as {@code "22 °C"}
     * @return the temperature
     * @throws TextParseException if the text is anything else
     */
    public static Temperature parse(String text) {
        QuantityText parts = QuantityText.split("temperature", requireNonNull(text, "text"), "22 °C");
        Scale scale = switch (parts.unit()) {
            case "°C", "C" -> Scale.CELSIUS;
            case "°F", "F" -> Scale.FAHRENHEIT;
            default ->
                throw new TextParseException(
                        parts.unit().isEmpty() ? Reason.NO_UNIT : Reason.UNKNOWN_UNIT,
                        "temperature",
                        text,
                        parts.unitPosition(),
                        parts.unit().isEmpty()
                                ? "has no scale"
                                : RejectedValueException.quote(parts.unit()) + " is not a scale of temperature",
                        "a number with °C or °F, such as \"22 °C\"",
                        "add the scale of the thermometer");
        };
        Temperature made = new Temperature(parts.number(), scale);
        if (made.isOutOfRange()) {
            throw new TextParseException(
                    Reason.OUT_OF_RANGE,
                    "temperature",
                    text,
                    0,
                    "is out of range",
                    "-100 °C to 1000 °C",
                    "check the number and its scale");
        }
        return made;
    }

    private boolean isOutOfRange() {
        return celsius().compareTo(LOWEST) < 0 || celsius().compareTo(HIGHEST) > 0;
    }

    /** {@return the temperature in degrees Celsius, exactly} */
    public Ratio celsius() {
        Ratio number = Ratio.of(degrees);
        return scale == Scale.CELSIUS ? number : number.minus(Ratio.of(32, 1)).times(Ratio.of(5, 9));
    }

    /**
     * Whether this is warmer than another temperature.
     *
     * @param other the other temperature
     * @return whether this is warmer
     */
    public boolean isAbove(Temperature other) {
        return celsius().compareTo(other.celsius()) > 0;
    }

    @Override
    public int compareTo(Temperature other) {
        return Comparator.comparing(Temperature::celsius)
                .thenComparing(t -> t.scale)
                .compare(this, other);
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Temperature t && t.scale == scale && t.degrees.equals(degrees);
    }

    @Override
    public int hashCode() {
        return 31 * degrees.hashCode() + scale.name().hashCode();
    }

    /** {@return the number and its scale, such as {@code "22 °C"}} */
    @Override
    public String toString() {
        return QuantityText.plain(degrees) + " " + scale.symbol;
    }
}
