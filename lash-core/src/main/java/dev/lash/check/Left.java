package dev.lash.check;

import java.util.HashMap;
import java.util.Map;

/**
 * What a reading left its slot with, in nanometres.
 *
 * @param low the lower end of the clearance, or {@link Span#NO_LOW}
 * @param high the upper end, or {@link Span#NO_HIGH}
 * @param shim the shim that is in; 0 where it was changed for an unknown one, {@link #SHIM_NOT_SAID} where nothing is said of it
 */
record Left(long low, long high, long shim) {
    static final long SHIM_NOT_SAID = -1;

    static Left of(RowReading row) {
        Span left = row.adjusted ? row.left : row.found;
        return new Left(left.low(), left.high(), row.adjusted ? row.fitted : row.shim > 0 ? row.shim : SHIM_NOT_SAID);
    }

    /** Whether both ends are known. */
    boolean isBetween() {
        return low != Span.NO_LOW && high != Span.NO_HIGH;
    }

    /** Keeps one of each that is equal: an import of millions of rows has few that differ. Used by one thread. */
    static final class Pool {
        private static final int MOST = 100_000;

        private final Map<Left, Left> known = new HashMap<>();

        /** An equal one that is kept, unless too many differ. */
        Left one(Left left) {
            Left same = known.get(left);
            if (same == null && known.size() < MOST) {
                known.put(left, left);
            }
            return same == null ? left : same;
        }
    }
}
