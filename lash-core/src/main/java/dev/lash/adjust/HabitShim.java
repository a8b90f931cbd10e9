package dev.lash.adjust;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import java.io.Serializable;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What a shop's way of rounding fits, to be held against the size that is certain.
 *
 * @param rounding the shop's way
 * @param ideal the ideal thickness for the middle of the reading, to the nanometre
 * @param size the size; {@code null} when none that is made follows from the habit
 * @param resulting the clearance with that size; {@code null} when there is none
 * @param certain whether the size is certain to end in the window
 */
public record HabitShim(
        ShimRounding rounding,
        Length ideal,
        @Nullable Length size,
        @Nullable LengthInterval resulting,
        boolean certain) implements Serializable {
    /**
     * Creates the result.
     *
     * @param rounding the shop's way
     * @param ideal the ideal thickness for the middle of the reading, to the nanometre
     * @param size the size; {@code null} when none that is made follows from the habit
     * @param resulting the clearance with that size; {@code null} when there is none
     * @param certain whether the size is certain to end in the window
     */
    public HabitShim {
        requireNonNull(rounding, "rounding");
        requireNonNull(ideal, "ideal");
    }

    /** {@return the size, or empty when none that is made follows from the habit} */
    public Optional<Length> findSize() {
        return Optional.ofNullable(size);
    }

    /** {@return the clearance with that size, or empty when there is none} */
    public Optional<LengthInterval> findResulting() {
        return Optional.ofNullable(resulting);
    }
}
