package dev.lash.adjust;

import static java.util.Objects.requireNonNull;

import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.GaugeSet;
import dev.lash.judge.Judgement;
import java.io.Serializable;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * All that an adjustment depends on.
 *
 * @param train what moves the valve
 * @param clearance the windows to check against and to set to
 * @param judgement the reading, judged against the window to check against
 * @param gauges the leaves that are owned
 * @param shim the installed shim; {@code null} where none is known
 * @param box the spare shims
 * @param pad the state of rocker pad and valve tip
 */
public record AdjustmentTask(
        ValveTrain train,
        ClearanceSpec clearance,
        Judgement judgement,
        GaugeSet gauges,
        @Nullable InstalledShim shim,
        ShimBox box,
        Pad pad)
        implements Serializable {
    /**
     * Creates a task.
     *
     * @param train what moves the valve
     * @param clearance the windows to check against and to set to
     * @param judgement the reading, judged against the window to check against
     * @param gauges the leaves that are owned
     * @param shim the installed shim; {@code null} where none is known
     * @param box the spare shims
     * @param pad the state of rocker pad and valve tip
     */
    public AdjustmentTask {
        requireNonNull(train, "train");
        requireNonNull(clearance, "clearance");
        requireNonNull(judgement, "judgement");
        requireNonNull(gauges, "gauges");
        requireNonNull(box, "box");
        requireNonNull(pad, "pad");
    }

    /**
     * A task with a sound pad and no shims.
     *
     * @param train what moves the valve
     * @param clearance the windows
     * @param judgement the judged reading
     * @param gauges the leaves that are owned
     * @return the task
     */
    public static AdjustmentTask of(ValveTrain train, ClearanceSpec clearance, Judgement judgement, GaugeSet gauges) {
        return new AdjustmentTask(train, clearance, judgement, gauges, null, ShimBox.empty(), Pad.SOUND);
    }

    /**
     * The same with shims.
     *
     * @param installed the installed shim
     * @param spares the spare shims
     * @return the task
     */
    public AdjustmentTask withShims(InstalledShim installed, ShimBox spares) {
        return new AdjustmentTask(
                train, clearance, judgement, gauges, requireNonNull(installed, "installed"), spares, pad);
    }

    /** {@return the installed shim, or empty where none is known} */
    public Optional<InstalledShim> findShim() {
        return Optional.ofNullable(shim);
    }

    /** The state of rocker pad and valve tip. */
    public enum Pad {
        /** Flat: a leaf reads true. */
        SOUND,
        /** Hollow: a leaf bridges the hollow and reads too small. */
        DISHED
    }
}
