package dev.lash.trend;

import static java.util.Objects.requireNonNull;

import java.io.Serializable;
import java.util.Optional;

/**
 * Trend and forecast of one gap.
 *
 * @param task what was forecast
 * @param trend how its clearance moves
 * @param forecast when it leaves its window
 */
public record ValveTrend(TrendTask task, WearTrend trend, Forecast forecast) implements Serializable {
    /** With fewer checks than these a time to check leans on what was assumed rather than on this gap. */
    public static final int FEW_CHECKS = 5;

    /**
     * Creates the pair.
     *
     * @param task what was forecast
     * @param trend how its clearance moves
     * @param forecast when it leaves its window
     */
    public ValveTrend {
        requireNonNull(task, "task");
        requireNonNull(trend, "trend");
        requireNonNull(forecast, "forecast");
    }

    /** {@return the valve, and its gap where it has more than one, as reports name them} */
    public String name() {
        return task.name();
    }

    /**
     * What the figures of this gap lack where it has fewer than {@value #FEW_CHECKS} checks. A simulation of engines that wear
     * otherwise than the prior assumes has the true risk above the stated one with two or three checks.
     *
     * @return a clause for a person; empty where there are checks enough, or where all straight lines are told, which assume no wear
     */
    public Optional<String> caveat() {
        int checks = trend.checks();
        if (checks >= FEW_CHECKS) {
            return Optional.empty();
        }
        String few = checks == 0
                ? "no check of " + name() + " yet"
                : "only " + checks + (checks == 1 ? " check of " : " checks of ") + name();
        return switch (trend.method()) {
            case WITH_PRIORS, PRIOR_ONLY ->
                Optional.of(
                        trend.alone()
                                ? few
                                        + ", and only they count, since it wears unlike what is assumed: so few tell its wear roughly, "
                                        + "and the true risk may be more than stated"
                                : few + ": with fewer than " + FEW_CHECKS
                                        + " much rests on what is assumed; where this engine wears otherwise, the true risk may be more than "
                                        + "stated");
            case MAXIMUM_LIKELIHOOD ->
                Optional.of(few + ": with fewer than " + FEW_CHECKS + " normal limits are too certain");
            case FEASIBLE_LINES -> Optional.empty();
        };
    }

    /**
     * The clearance on the line now.
     *
     * @return the clearance in millimetres; empty where straight lines are told and nothing bounds them now on both sides, as after
     *     an adjustment that was not read again
     */
    public Optional<Double> findClearance() {
        return Optional.of(trend.clearance()).filter(Double::isFinite);
    }
}
