package dev.lash.adjust;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Ratio;
import java.io.Serializable;

/**
 * How a shop, or the manual it works by, comes to a size of shim: the clearance it specifies, and how it rounds the ideal thickness.
 *
 * @param habit how the ideal thickness becomes a size that is made
 * @param specified where in the window to set to the specified clearance lies, 0 its lower end, 1 its upper end; manuals take the
 *     middle, another point, or a limit
 */
public record ShimRounding(RoundingHabit habit, Ratio specified) implements Serializable {
    /**
     * Creates a way of rounding.
     *
     * @param habit how the ideal thickness becomes a size that is made
     * @param specified where in the window to set to the specified clearance lies, 0 its lower end, 1 its upper end; manuals take the
     *     middle, another point, or a limit
     * @throws dev.lash.measure.RejectedValueException if the fraction is outside 0 to 1
     */
    public ShimRounding {
        requireNonNull(habit, "habit");
        ShimSlot.checkFraction("specified clearance", specified);
    }

    /**
     * A habit that aims at the middle of the window.
     *
     * @param habit how the ideal thickness becomes a size that is made
     * @return the way of rounding
     */
    public static ShimRounding toMiddle(RoundingHabit habit) {
        return new ShimRounding(habit, Ratio.of(1, 2));
    }
}
