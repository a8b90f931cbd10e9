package dev.lash.trend;

import dev.lash.measure.RejectedValueException;

/** Refuses figures that no trend has. */
final class Figures {
    /** How far a sum of probabilities may pass its range by rounding. */
    private static final double ROUNDING = 1e-9;

    private static final String MEND = "give the figure of the fit; leave the trend out where it has none";

    private Figures() {}

    /** A probability, NaN refused. */
    static double probability(String what, double value) {
        if (!(value >= -ROUNDING && value <= 1 + ROUNDING)) {
            throw new RejectedValueException(what, String.valueOf(value), "is no probability", "0 to 1", MEND);
        }
        return value;
    }

    /** A number that is neither NaN nor infinite. */
    static double finite(String what, double value) {
        if (!Double.isFinite(value)) {
            throw new RejectedValueException(what, String.valueOf(value), "is no number", "a finite number", MEND);
        }
        return value;
    }

    /** 0 or more, infinite too. */
    static double notNegative(String what, double value) {
        if (!(value >= 0)) {
            throw new RejectedValueException(
                    what, String.valueOf(value), "is out of range", "0 or more, or infinite", MEND);
        }
        return value;
    }
}
