package dev.lash.plan;

import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;

/**
 * Ends of intervals as whole numbers that compare as the ends do. A lower end at x nanometres is 2x when x is included and 2x + 1
 * when not; an upper end is 2x when included and 2x - 1 when not. An interval holds a length when its lower number is not above its
 * upper one. A clearance is never below 0, so a missing lower end is 0 included.
 */
final class Bounds {
    /** No upper end. */
    static final long NONE = Long.MAX_VALUE / 4;

    private Bounds() {}

    static long lower(LengthInterval interval) {
        return Math.max(
                0,
                interval.lower()
                        .map(l -> 2 * l.nanometres() + (interval.lowerIncluded() ? 0 : 1))
                        .orElse(0L));
    }

    static long upper(LengthInterval interval) {
        return interval.upper()
                .map(u -> 2 * u.nanometres() - (interval.upperIncluded() ? 0 : 1))
                .orElse(NONE);
    }

    /** Where a lower end lies, in nanometres. */
    static long endOfLower(long lower) {
        return Math.floorDiv(lower, 2L);
    }

    /** Where an upper end lies, in nanometres; {@link #NONE} for none. */
    static long endOfUpper(long upper) {
        return upper >= NONE ? NONE : Math.floorDiv(upper + 1, 2L);
    }

    /** The interval between two ends; a lower end of 0 included is none at all. */
    static LengthInterval interval(long lower, long upper) {
        boolean hasLower = lower > 0;
        boolean hasUpper = upper < NONE;
        Length low = Length.ofNanometres(endOfLower(lower));
        boolean lowIncluded = Math.floorMod(lower, 2L) == 0;
        if (!hasUpper) {
            if (!hasLower) {
                return LengthInterval.any();
            }
            return lowIncluded ? LengthInterval.atLeast(low) : LengthInterval.above(low);
        }
        Length high = Length.ofNanometres(endOfUpper(upper));
        boolean highIncluded = Math.floorMod(upper, 2L) == 0;
        if (!hasLower) {
            return highIncluded ? LengthInterval.atMost(high) : LengthInterval.below(high);
        }
        return LengthInterval.of(low, lowIncluded, high, highIncluded);
    }
}
