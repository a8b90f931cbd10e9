package dev.lash.adjust;

import static java.util.Objects.requireNonNull;

import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.GaugeSet;
import dev.lash.judge.Judgement;
import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * All that an adjustment depends on.
 *
 * @param train what moves the valve
 * @param gap which gap of the valve is meant
 * @param clearance the windows to check against and to set to
 * @param judgement the reading, judged against the window to check against
 * @param gauges the leaves that are owned
 * @param shim the installed shim; {@code null} where none is known
 * @param box the spare shims
 * @param pad the state of rocker pad and valve tip
 * @param eccentricAngle where the eccentric stands, in degrees; {@code null} where there is none or it is not known
 * @param lockShift what the lock nut does to the clearance; {@code null} where nothing was learnt
 * @param tries how often this valve was adjusted already at this visit, 0 or more
 */
public record AdjustmentTask(
        ValveTrain train,
        Gap gap,
        ClearanceSpec clearance,
        Judgement judgement,
        GaugeSet gauges,
        @Nullable InstalledShim shim,
        ShimBox box,
        Pad pad,
        @Nullable Ratio eccentricAngle,
        @Nullable LockShift lockShift,
        int tries)
        implements Serializable {
    /**
     * Creates a task.
     *
     * @param train what moves the valve
     * @param gap which gap of the valve is meant
     * @param clearance the windows to check against and to set to
     * @param judgement the reading, judged against the window to check against
     * @param gauges the leaves that are owned
     * @param shim the installed shim; {@code null} where none is known
     * @param box the spare shims
     * @param pad the state of rocker pad and valve tip
     * @param eccentricAngle where the eccentric stands, in degrees; {@code null} where there is none or it is not known
     * @param lockShift what the lock nut does to the clearance; {@code null} where nothing was learnt
     * @param tries how often this valve was adjusted already at this visit, 0 or more
     * @throws RejectedValueException if the tries are negative
     */
    public AdjustmentTask {
        requireNonNull(train, "train");
        requireNonNull(gap, "gap");
        requireNonNull(clearance, "clearance");
        requireNonNull(judgement, "judgement");
        requireNonNull(gauges, "gauges");
        requireNonNull(box, "box");
        requireNonNull(pad, "pad");
        if (tries < 0) {
            throw new RejectedValueException(
                    "tries",
                    String.valueOf(tries),
                    "is negative",
                    "0 or more",
                    "count the adjustments made at this visit");
        }
    }

    /**
     * A task with a sound pad, no shims, and nothing tried yet.
     *
     * @param train what moves the valve
     * @param clearance the windows
     * @param judgement the judged reading
     * @param gauges the leaves that are owned
     * @return the task
     */
    public static AdjustmentTask of(ValveTrain train, ClearanceSpec clearance, Judgement judgement, GaugeSet gauges) {
        return new AdjustmentTask(
                train, Gap.ONLY, clearance, judgement, gauges, null, ShimBox.empty(), Pad.SOUND, null, null, 0);
    }

    /**
     * The same for one gap of a desmodromic valve.
     *
     * @param which the gap
     * @return the task
     */
    public AdjustmentTask withGap(Gap which) {
        return new AdjustmentTask(
                train, which, clearance, judgement, gauges, shim, box, pad, eccentricAngle, lockShift, tries);
    }

    /**
     * The same with shims.
     *
     * @param installed the installed shim; {@code null} where none is known
     * @param spares the spare shims
     * @return the task
     */
    public AdjustmentTask withShims(@Nullable InstalledShim installed, ShimBox spares) {
        return new AdjustmentTask(
                train, gap, clearance, judgement, gauges, installed, spares, pad, eccentricAngle, lockShift, tries);
    }

    /**
     * The same with another state of pad and tip.
     *
     * @param state the state
     * @return the task
     */
    public AdjustmentTask withPad(Pad state) {
        return new AdjustmentTask(
                train, gap, clearance, judgement, gauges, shim, box, state, eccentricAngle, lockShift, tries);
    }

    /**
     * The same with an eccentric whose position is known.
     *
     * @param degrees where the eccentric stands, in degrees; {@code null} when it is not known
     * @return the task
     */
    public AdjustmentTask withEccentricAngle(@Nullable Ratio degrees) {
        return new AdjustmentTask(train, gap, clearance, judgement, gauges, shim, box, pad, degrees, lockShift, tries);
    }

    /**
     * The same for a further adjustment at the same visit.
     *
     * @param shift what the lock nut does to the clearance
     * @param made how often this valve was adjusted already at this visit
     * @return the task
     */
    public AdjustmentTask afterTries(LockShift shift, int made) {
        return new AdjustmentTask(
                train,
                gap,
                clearance,
                judgement,
                gauges,
                shim,
                box,
                pad,
                eccentricAngle,
                requireNonNull(shift, "shift"),
                made);
    }

    /** {@return the installed shim, or empty where none is known} */
    public Optional<InstalledShim> findShim() {
        return Optional.ofNullable(shim);
    }

    /** {@return where the eccentric stands in degrees, or empty where there is none or it is not known} */
    public Optional<Ratio> findEccentricAngle() {
        return Optional.ofNullable(eccentricAngle);
    }

    /** {@return what the lock nut does to the clearance, or empty where nothing was learnt, or no more than its standard error} */
    public Optional<LockShift> findLockShift() {
        return Optional.ofNullable(lockShift)
                .filter(shift -> !shift.isUnknown() && Math.abs(shift.mean()) > shift.standardError());
    }

    /** The state of rocker pad and valve tip. */
    public enum Pad {
        /** Flat: a leaf reads true. */
        SOUND,
        /** Hollow: a leaf bridges the hollow and reads too small. */
        DISHED
    }
}
