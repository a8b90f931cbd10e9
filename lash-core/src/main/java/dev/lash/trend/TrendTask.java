package dev.lash.trend;

import static java.util.Objects.requireNonNull;

import dev.lash.engine.ClearanceSpec;
import java.io.Serializable;

/**
 * One gap to forecast.
 *
 * @param history what was read of it
 * @param clearance the windows it is held against
 */
public record TrendTask(ClearanceHistory history, ClearanceSpec clearance) implements Serializable {
    /**
     * Creates a task.
     *
     * @param history what was read of it
     * @param clearance the windows it is held against
     */
    public TrendTask {
        requireNonNull(history, "history");
        requireNonNull(clearance, "clearance");
    }

    /** The valve, with its gap where it has more than one. */
    String name() {
        return history.gap().behind(history.valve().toString());
    }
}
