package dev.lash.engine;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import java.io.Serializable;

/**
 * An automatic decompressor: it holds a valve off its seat near its cylinder's compression TDC, so that the valve shows no gap
 * there although its follower is on the base circle.
 *
 * @param valve the valve that it holds
 * @param before crank degrees before compression TDC from which it holds, 0 to 360
 * @param after crank degrees after compression TDC until which it holds, 0 to 360
 */
public record Decompressor(ValveId valve, Ratio before, Ratio after) implements Serializable {
    private static final Ratio MOST = Ratio.of(360, 1);
    private static final Ratio CYCLE = Ratio.of(720, 1);

    /**
     * Creates a decompressor.
     *
     * @param valve the valve that it holds
     * @param before crank degrees before compression TDC from which it holds, 0 to 360
     * @param after crank degrees after compression TDC until which it holds, 0 to 360
     * @throws RejectedValueException if an angle is outside its range
     */
    public Decompressor {
        requireNonNull(valve, "valve");
        check(requireNonNull(before, "before"));
        check(requireNonNull(after, "after"));
    }

    private static void check(Ratio degrees) {
        if (degrees.signum() < 0 || degrees.compareTo(MOST) > 0) {
            throw new RejectedValueException(
                    "decompressor",
                    degrees + " deg",
                    "is out of range",
                    "0 to 360 deg",
                    "give the degrees before and after TDC");
        }
    }

    /**
     * Whether it holds the valve.
     *
     * @param phase crank degrees after the cylinder's compression TDC, from 0 to below 720
     * @return whether it does
     */
    public boolean holdsAt(Ratio phase) {
        return phase.compareTo(after) <= 0 || phase.compareTo(CYCLE.minus(before)) >= 0;
    }
}
