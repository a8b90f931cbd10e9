package dev.lash.engine;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * An automatic decompressor: it holds a valve off its seat near its cylinder's compression TDC, so that the valve shows no gap
 * there although its follower is on the base circle. Its angles may be unknown: then nothing is planned around it, but what reads it is
 * told that it may hold.
 *
 * @param valve the valve that it holds
 * @param before crank degrees before compression TDC from which it holds, 0 to 360; {@code null} with {@code after} where not known
 * @param after crank degrees after compression TDC until which it holds, 0 to 360; {@code null} with {@code before} where not known
 */
public record Decompressor(
        ValveId valve, @Nullable Ratio before, @Nullable Ratio after) implements Serializable {
    private static final Ratio MOST = Ratio.of(360, 1);
    private static final Ratio CYCLE = Ratio.of(720, 1);

    /**
     * Creates a decompressor.
     *
     * @param valve the valve that it holds
     * @param before crank degrees before compression TDC from which it holds, 0 to 360; {@code null} where not known
     * @param after crank degrees after compression TDC until which it holds, 0 to 360; {@code null} where not known
     * @throws RejectedValueException if an angle is outside its range, or only one is given
     */
    public Decompressor {
        requireNonNull(valve, "valve");
        if ((before == null) != (after == null)) {
            throw new RejectedValueException(
                    "decompressor",
                    (before == null ? after : before) + " deg",
                    "stands alone",
                    "the degrees before and after TDC, or neither",
                    "give the other, or leave both out where they are not known");
        }
        check(before);
        check(after);
    }

    /**
     * A decompressor whose angles are not known.
     *
     * @param valve the valve that it holds
     * @return the decompressor
     */
    public static Decompressor ofUnknownAngles(ValveId valve) {
        return new Decompressor(valve, null, null);
    }

    private static void check(@Nullable Ratio degrees) {
        if (degrees == null) {
            return;
        }
        if (degrees.signum() < 0 || degrees.compareTo(MOST) > 0) {
            throw new RejectedValueException(
                    "decompressor",
                    degrees + " deg",
                    "is out of range",
                    "0 to 360 deg",
                    "give the degrees before and after TDC");
        }
    }

    /** {@return crank degrees before compression TDC from which it holds, or empty where not known} */
    public Optional<Ratio> findBefore() {
        return Optional.ofNullable(before);
    }

    /** {@return crank degrees after compression TDC until which it holds, or empty where not known} */
    public Optional<Ratio> findAfter() {
        return Optional.ofNullable(after);
    }

    /** {@return whether its angles are known} */
    public boolean isKnown() {
        return before != null;
    }

    /**
     * Whether it is known to hold the valve.
     *
     * @param phase crank degrees after the cylinder's compression TDC, from 0 to below 720
     * @return whether it does; false where its angles are not known
     */
    public boolean holdsAt(Ratio phase) {
        requireNonNull(phase, "phase");
        return before != null
                && after != null
                && (phase.compareTo(after) <= 0 || phase.compareTo(CYCLE.minus(before)) >= 0);
    }
}
