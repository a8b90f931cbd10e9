package dev.lash.trend;

import static java.util.Objects.requireNonNull;

import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.Usage;
import java.io.Serializable;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * When the engine must come back: the largest usage up to which the probability that any valve has left its window is at most the
 * risk, never later than the maker's interval counted from the last check, never before now.
 *
 * @param usage what the counter will show
 * @param risk the stated risk, 0 to 1; 0 where every gap's trend is all straight lines, which know no probability
 * @param reason what sets the limit
 * @param valve the valve most likely to leave first, where a valve sets the limit; {@code null} otherwise
 * @param gap its gap; {@code null} as for the valve
 */
public record CheckBy(
        Usage usage,
        double risk,
        Reason reason,
        @Nullable ValveId valve,
        @Nullable Gap gap) implements Serializable {
    /** What sets the limit. */
    public enum Reason {
        /** A valve may have left by then. */
        VALVE,
        /** The maker's interval ends before any valve is likely to have left; it may have ended already, and the usage is that of now. */
        MAKERS_INTERVAL,
        /** A valve may have left already: now. */
        NOW,
        /** Nothing sets a limit within the use that a forecast looks ahead. */
        NO_LIMIT
    }

    /**
     * Creates the answer.
     *
     * @param usage what the counter will show
     * @param risk the stated risk, 0 to 1; 0 where every gap's trend is all straight lines, which know no probability
     * @param reason what sets the limit
     * @param valve the valve most likely to leave first, where a valve sets the limit; {@code null} otherwise
     * @param gap its gap; {@code null} as for the valve
     * @throws RejectedValueException if the risk is no probability, or a valve sets the limit and is not named with its gap
     */
    public CheckBy {
        requireNonNull(usage, "usage");
        requireNonNull(reason, "reason");
        Figures.probability("risk", risk);
        if (reason == Reason.VALVE && (valve == null || gap == null)) {
            throw new RejectedValueException(
                    "check by",
                    "reason VALVE, valve " + valve + ", gap " + gap,
                    "does not say which valve sets the limit",
                    "a valve and its gap",
                    "name the valve and the gap that leave first");
        }
    }

    /** {@return the valve most likely to leave first, or empty where no valve sets the limit} */
    public Optional<ValveId> findValve() {
        return Optional.ofNullable(valve);
    }

    /** {@return the gap of that valve, or empty where no valve sets the limit} */
    public Optional<Gap> findGap() {
        return Optional.ofNullable(gap);
    }
}
