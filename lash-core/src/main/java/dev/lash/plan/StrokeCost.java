package dev.lash.plan;

import dev.lash.measure.RejectedValueException;
import java.io.Serializable;

/**
 * What one stroke costs, by how many leaves are laid together; the unit is the stroke of one leaf where that is 1.
 *
 * @param one the cost with one leaf, above 0
 * @param two the cost with two leaves, not less than with one
 * @param three the cost with three leaves, not less than with two
 */
public record StrokeCost(double one, double two, double three) implements Serializable {
    /** Every stroke costs the same. */
    public static final StrokeCost EQUAL = new StrokeCost(1, 1, 1);

    /** A stack costs half a stroke more for each further leaf (this library's choice). */
    public static final StrokeCost USUAL = new StrokeCost(1, 1.5, 2);

    /**
     * Creates the costs.
     *
     * @param one the cost with one leaf, above 0
     * @param two the cost with two leaves, not less than with one
     * @param three the cost with three leaves, not less than with two
     * @throws RejectedValueException if a cost is not a positive finite number, or more leaves cost less
     */
    public StrokeCost {
        if (!(one > 0 && two >= one && three >= two && three <= Double.MAX_VALUE)) {
            throw new RejectedValueException(
                    "stroke cost",
                    one + ", " + two + ", " + three,
                    "is not in order",
                    "positive costs that do not fall with more leaves",
                    "give the cost with one, two and three leaves");
        }
    }

    /** The cost of a stroke with this many leaves. */
    double of(int leaves) {
        return switch (leaves) {
            case 1 -> one;
            case 2 -> two;
            default -> three;
        };
    }
}
