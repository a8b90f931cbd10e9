package dev.lash.examples.sim;

import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;

/**
 * Leaves of a full grid: every whole multiple of the step up to the thickest. A check offers as many as it takes, so a reading is
 * the space between two neighbours, without a lower end below the thinnest and without an upper end above the thickest.
 *
 * @param step the thinnest leaf, and how much the next one is thicker
 * @param count how many leaves
 */
record LeafSteps(Length step, int count) {
    private static final double PER_MILLIMETRE = 1e6;

    /** The leaves up to 0.40 mm. */
    static LeafSteps of(Length step) {
        return new LeafSteps(step, (int) (Length.ofMillimetres("0.40").nanometres() / step.nanometres()));
    }

    /** How many leaves go into a clearance in millimetres. */
    int going(double clearance) {
        double leaves = Math.floor(clearance * PER_MILLIMETRE / step.nanometres());
        return (int) Math.max(0, Math.min(count, leaves));
    }

    /** What is read when so many leaves go. */
    LengthInterval reading(int going) {
        if (going == 0) {
            return LengthInterval.below(step);
        }
        Length last = step.times(going);
        return going == count ? LengthInterval.above(last) : LengthInterval.open(last, last.plus(step));
    }
}
