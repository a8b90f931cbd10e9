package dev.lash.adjust;

import static java.util.Objects.requireNonNull;

import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveId;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * A place in the engine that takes one shim, with what is known of its clearance: what a {@link ShimPlanner} plans with.
 *
 * @param valve the valve
 * @param gap which gap of the valve, free text; empty where it has only one
 * @param bracket the clearances that are possible; an end may be missing, and ends lie within 25 mm of 0
 * @param clearance the windows to check against and to set to
 * @param installed the shim that is in it; its size may be unknown
 * @param sizes the sizes that are made, to buy
 * @param ratio what the clearance, where the leaf goes, changes by for a unit of shim; 0.1 to 10
 * @param camshaft the name of the camshaft that must be lifted to reach the shim; empty when it is reached with the cam in place
 * @param aim where in the window to set, 0 its lower end, 1 its upper end; {@code null} for the planner's
 * @param unread why there is no reading and what to do about it, for a person; empty where nothing is known of that
 */
public record ShimSlot(
        ValveId valve,
        String gap,
        LengthInterval bracket,
        ClearanceSpec clearance,
        InstalledShim installed,
        ShimRange sizes,
        Ratio ratio,
        String camshaft,
        @Nullable Ratio aim,
        String unread)
        implements Serializable {
    private static final Length FURTHEST = Length.ofMillimetres("25");
    private static final Ratio LEAST_RATIO = Ratio.of(1, 10);
    private static final Ratio LARGEST_RATIO = Ratio.of(10, 1);

    /**
     * Creates a slot.
     *
     * @param valve the valve
     * @param gap which gap of the valve, free text; empty where it has only one
     * @param bracket the clearances that are possible; an end may be missing, and ends lie within 25 mm of 0
     * @param clearance the windows to check against and to set to
     * @param installed the shim that is in it; its size may be unknown
     * @param sizes the sizes that are made, to buy
     * @param ratio what the clearance, where the leaf goes, changes by for a unit of shim; 0.1 to 10
     * @param camshaft the name of the camshaft that must be lifted to reach the shim; empty when it is reached with the cam in
     *     place
     * @param aim where in the window to set, 0 its lower end, 1 its upper end; {@code null} for the planner's
     * @param unread why there is no reading and what to do about it, for a person; empty where nothing is known of that
     * @throws RejectedValueException if an end of the bracket, the ratio or the aim is out of range
     */
    public ShimSlot {
        requireNonNull(valve, "valve");
        requireNonNull(gap, "gap");
        requireNonNull(bracket, "bracket");
        requireNonNull(clearance, "clearance");
        requireNonNull(installed, "installed");
        requireNonNull(sizes, "sizes");
        requireNonNull(ratio, "ratio");
        requireNonNull(camshaft, "camshaft");
        requireNonNull(unread, "unread");
        if (isFar(bracket.lower()) || isFar(bracket.upper())) {
            throw new RejectedValueException(
                    "clearance of " + valve,
                    bracket.toString(),
                    "is out of range",
                    "ends within " + FURTHEST + " of 0",
                    "check the reading and its unit");
        }
        if (ratio.compareTo(LEAST_RATIO) < 0 || ratio.compareTo(LARGEST_RATIO) > 0) {
            throw new RejectedValueException(
                    "follower ratio",
                    ratio.toString(),
                    "is out of range",
                    LEAST_RATIO + " to " + LARGEST_RATIO,
                    "check the two lever arms");
        }
        if (aim != null) {
            checkAim(aim);
        }
    }

    private static boolean isFar(Optional<Length> end) {
        return end.filter(e -> e.abs().isMoreThan(FURTHEST)).isPresent();
    }

    /** Refuses what is no fraction of a window. */
    static Ratio checkAim(Ratio fraction) {
        return checkFraction("aim", fraction);
    }

    static Ratio checkFraction(String what, Ratio fraction) {
        if (fraction.signum() < 0 || fraction.compareTo(Ratio.ONE) > 0) {
            throw new RejectedValueException(
                    what, fraction.toString(), "is out of range", "0 to 1", "give a fraction of the window");
        }
        return fraction;
    }

    /**
     * A shim at a bucket, reached with the cam in place.
     *
     * @param valve the valve
     * @param bracket the clearances that are possible
     * @param clearance the windows to check against and to set to
     * @param installed the shim that is in it
     * @param sizes the sizes that are made
     * @return the slot, with ratio 1 and the planner's aim
     */
    public static ShimSlot of(
            ValveId valve, LengthInterval bracket, ClearanceSpec clearance, InstalledShim installed, ShimRange sizes) {
        return new ShimSlot(valve, "", bracket, clearance, installed, sizes, Ratio.ONE, "", null, "");
    }

    /**
     * The same under a camshaft that must be lifted to reach the shim.
     *
     * @param name the camshaft, such as {@code "intake"}
     * @return the slot
     */
    public ShimSlot withCamshaft(String name) {
        return new ShimSlot(valve, gap, bracket, clearance, installed, sizes, ratio, name, aim, unread);
    }

    /**
     * The same for one gap of a valve that has several.
     *
     * @param label which gap, such as {@code "opener"}
     * @return the slot
     */
    public ShimSlot withGap(String label) {
        return new ShimSlot(valve, label, bracket, clearance, installed, sizes, ratio, camshaft, aim, unread);
    }

    /**
     * The same with another follower ratio.
     *
     * @param changePerUnit what the clearance changes by for a unit of shim
     * @return the slot
     */
    public ShimSlot withRatio(Ratio changePerUnit) {
        return new ShimSlot(valve, gap, bracket, clearance, installed, sizes, changePerUnit, camshaft, aim, unread);
    }

    /**
     * The same with an aim of its own.
     *
     * @param fraction where in the window to set, 0 its lower end, 1 its upper end
     * @return the slot
     */
    public ShimSlot withAim(Ratio fraction) {
        return new ShimSlot(
                valve,
                gap,
                bracket,
                clearance,
                installed,
                sizes,
                ratio,
                camshaft,
                requireNonNull(fraction, "fraction"),
                unread);
    }

    /**
     * The same with another reading.
     *
     * @param clearances the clearances that are possible
     * @return the slot
     */
    public ShimSlot withBracket(LengthInterval clearances) {
        return new ShimSlot(valve, gap, clearances, clearance, installed, sizes, ratio, camshaft, aim, "");
    }

    /**
     * The same without a reading, and why.
     *
     * @param why why there is none and what to do about it, such as {@code "not checked again since its shim was fitted: measure"}
     * @return the slot
     */
    public ShimSlot withoutReading(String why) {
        return new ShimSlot(
                valve,
                gap,
                LengthInterval.any(),
                clearance,
                installed,
                sizes,
                ratio,
                camshaft,
                aim,
                requireNonNull(why, "why"));
    }

    /** {@return diameter or pattern of its shims, free text; shims of different types are never swapped} */
    public String type() {
        return installed.type();
    }

    /** {@return where in the window to set, or empty for the planner's aim} */
    public Optional<Ratio> findAim() {
        return Optional.ofNullable(aim);
    }

    /** {@return the place for a person, such as {@code "1-in-1"} or {@code "1-in-1 opener"}} */
    public String place() {
        return gap.isEmpty() ? valve.toString() : valve + " " + gap;
    }
}
