package dev.lash.trend;

import static java.util.Objects.requireNonNull;

import java.io.Serializable;

/**
 * Trend and forecast of one gap.
 *
 * @param task what was forecast
 * @param trend how its clearance moves
 * @param forecast when it leaves its window
 */
public record ValveTrend(TrendTask task, WearTrend trend, Forecast forecast) implements Serializable {
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
}
