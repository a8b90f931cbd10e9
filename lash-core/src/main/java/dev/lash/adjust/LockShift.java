package dev.lash.adjust;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.util.List;

/**
 * How far the clearance moves when the lock nut is tightened, learnt from what was read after setting: the nut pulls the screw by
 * the thread's slack (published example: about 0.001 in more, "Setting valve lash", circle-track engine series, 2010).
 *
 * <p>The estimate is statistics, not certainty: normal with a prior about zero, so that it is shrunk towards zero while the evidence
 * is small. Assumptions of this library: the shift of an engine's screws has a standard deviation of 0.02 mm about zero over engines,
 * and 0.01 mm from one tightening to the next; a reading of width w counts as its middle with the variance w squared / 12 besides.
 *
 * @param mean the estimated shift in millimetres, positive as the clearance grows
 * @param standardError its standard error in millimetres
 * @param count how many readings it rests on
 */
public record LockShift(double mean, double standardError, int count) implements Serializable {
    private static final double OVER_ENGINES = 0.02;
    private static final double OVER_TIGHTENINGS = 0.01;
    private static final double NANOMETRES = 1e6;
    /** Standard errors either way that are called likely. */
    static final int LIKELY = 2;

    /**
     * Creates an estimate.
     *
     * @param mean the estimated shift in millimetres, positive as the clearance grows
     * @param standardError its standard error in millimetres
     * @param count how many readings it rests on
     * @throws RejectedValueException if a figure is not finite or the standard error is negative
     */
    public LockShift {
        if (!(Math.abs(mean) <= 10 && standardError >= 0 && standardError <= 10) || count < 0) {
            throw new RejectedValueException(
                    "lock shift",
                    mean + " mm, standard error " + standardError + " mm, " + count + " readings",
                    "is out of range",
                    "a shift within 10 mm and a standard error of 0 to 10 mm",
                    "learn it from readings");
        }
        // no negative zero
        mean += 0.0;
        standardError += 0.0;
    }

    /**
     * One setting that was checked again.
     *
     * @param set the leaf it was set with, in thickness
     * @param read the clearance read after locking
     */
    public record Sample(Length set, LengthInterval read) implements Serializable {
        /**
         * Creates a sample.
         *
         * @param set the leaf it was set with, in thickness
         * @param read the clearance read after locking
         */
        public Sample {
            requireNonNull(set, "set");
            requireNonNull(read, "read");
        }
    }

    /**
     * Learns from settings that were checked again. Readings that lack an end are passed over: they say little of the shift.
     *
     * @param samples the settings of one engine
     * @return the estimate; of mean 0 when there is no usable reading
     */
    public static LockShift learn(List<Sample> samples) {
        double precision = 1 / (OVER_ENGINES * OVER_ENGINES);
        double weighted = 0;
        int used = 0;
        for (Sample sample : samples) {
            if (sample.read().isBounded()) {
                double low = sample.read().lower().orElseThrow().nanometres();
                double high = sample.read().upper().orElseThrow().nanometres();
                double width = (high - low) / NANOMETRES;
                double shift = ((low + high) / 2 - sample.set().nanometres()) / NANOMETRES;
                double weight = 1 / (OVER_TIGHTENINGS * OVER_TIGHTENINGS + width * width / 12);
                precision += weight;
                weighted += weight * shift;
                used++;
            }
        }
        return new LockShift(weighted / precision, 1 / Math.sqrt(precision), used);
    }

    /** {@return whether the estimate rests on no reading} */
    public boolean isUnknown() {
        return count == 0;
    }

    /** {@return the estimated shift, to the nanometre} */
    public Length estimate() {
        return Length.ofNanometres(Math.round(mean * NANOMETRES));
    }

    /** {@return the estimate and twice its standard error either way: about 95 % of what it may be} */
    public LengthInterval likely() {
        return within(LIKELY);
    }

    /** The estimate and so many of its standard errors either way. */
    LengthInterval within(int standardErrors) {
        long away = (long) Math.ceil(standardErrors * standardError * NANOMETRES);
        return LengthInterval.closed(
                Length.ofNanometres(estimate().nanometres() - away),
                Length.ofNanometres(estimate().nanometres() + away));
    }
}
