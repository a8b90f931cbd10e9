package dev.lash.measure;

import static java.util.Objects.requireNonNull;

import java.util.Locale;
import java.util.Optional;

/** The units in which lengths are written in the trade; each is a whole number of nanometres. */
public enum LengthUnit {
    /** Millimetre, {@code mm}. */
    MILLIMETRE(1_000_000, 2, "mm"),
    /** Micrometre, {@code um} (also read: {@code µm}). */
    MICROMETRE(1_000, 0, "um"),
    /** Hundredth of a millimetre, {@code hundredths}: shops say "ten" for 0.10 mm (common practice). */
    HUNDREDTH(10_000, 0, "hundredths"),
    /** Inch, {@code in} (also read: {@code inch} and the double prime), 25.4 mm exactly. */
    INCH(25_400_000, 3, "in"),
    /** Thousandth of an inch, {@code thou}. */
    THOU(25_400, 0, "thou");

    private final long nanometres;
    private final int usualDecimals;
    private final String symbol;

    LengthUnit(long nanometres, int usualDecimals, String symbol) {
        this.nanometres = nanometres;
        this.usualDecimals = usualDecimals;
        this.symbol = symbol;
    }

    /** {@return the size of the unit in nanometres} */
    public long nanometres() {
        return nanometres;
    }

    /** {@return the symbol that {@code toString} methods write, such as {@code "mm"}} */
    public String symbol() {
        return symbol;
    }

    /** {@return whether the unit belongs to the inch system} */
    public boolean isInch() {
        return this == INCH || this == THOU;
    }

    int usualDecimals() {
        return usualDecimals;
    }

    /**
     * Finds a unit by one of its symbols, without regard to case.
     *
     * @param symbol the symbol
     * @return the unit, or empty when no unit has that symbol
     */
    public static Optional<LengthUnit> find(String symbol) {
        return switch (requireNonNull(symbol, "symbol").toLowerCase(Locale.ROOT)) {
            case "mm" -> Optional.of(MILLIMETRE);
            case "um", "\u00b5m", "\u03bcm" -> Optional.of(MICROMETRE);
            case "hundredths", "hundredth" -> Optional.of(HUNDREDTH);
            case "in", "inch", "\"", "\u2033" -> Optional.of(INCH);
            case "thou" -> Optional.of(THOU);
            default -> Optional.empty();
        };
    }
}
