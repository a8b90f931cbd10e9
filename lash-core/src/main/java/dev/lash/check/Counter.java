package dev.lash.check;

import dev.lash.measure.Usage;
import java.io.Serializable;
import java.math.BigDecimal;

/**
 * A usage in millionths of its unit, for the quick path of an import.
 *
 * @param millionths what the counter showed, in millionths of the unit
 * @param unit the unit
 */
record Counter(long millionths, Usage.Unit unit) implements Serializable {
    private static final long MILE_IN_MILLIMETRES = 1_609_344;
    private static final int DECIMALS = 6;

    /** For comparing: millimetres, rounded down, or millionths of an hour. */
    long key() {
        return unit == Usage.Unit.MILE
                ? millionths / 1_000_000 * MILE_IN_MILLIMETRES
                        + millionths % 1_000_000 * MILE_IN_MILLIMETRES / 1_000_000
                : millionths;
    }

    /** A usage of the same unit by its key; miles to a tenth. */
    Counter ofKey(long key) {
        long tenths = Math.round(key * 10.0 / MILE_IN_MILLIMETRES);
        return new Counter(unit == Usage.Unit.MILE ? tenths * 100_000 : key, unit);
    }

    Usage usage() {
        return Usage.of(BigDecimal.valueOf(millionths, DECIMALS), unit);
    }
}
