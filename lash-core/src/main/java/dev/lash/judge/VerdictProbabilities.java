package dev.lash.judge;

import dev.lash.measure.RejectedValueException;
import java.io.Serializable;

/**
 * How probable each verdict is; together 1 but for rounding.
 *
 * @param tight the probability that the clearance lies below the window
 * @param within the probability that it lies in the window
 * @param loose the probability that it lies above the window
 */
public record VerdictProbabilities(double tight, double within, double loose) implements Serializable {
    private static final double ROUNDING = 1e-9;

    /**
     * Creates the probabilities.
     *
     * @param tight the probability that the clearance lies below the window
     * @param within the probability that it lies in the window
     * @param loose the probability that it lies above the window
     * @throws RejectedValueException if one is outside 0 to 1 or not a number, or they do not add up to 1
     */
    public VerdictProbabilities {
        tight = clean(tight);
        within = clean(within);
        loose = clean(loose);
        if (Math.abs(tight + within + loose - 1) > ROUNDING) {
            throw new RejectedValueException(
                    "verdict probabilities",
                    tight + ", " + within + ", " + loose,
                    "do not add up to 1",
                    "three probabilities that add up to 1",
                    "check the cumulative function they came from");
        }
    }

    private static double clean(double probability) {
        if (!(probability >= 0 && probability <= 1 + ROUNDING)) {
            throw new RejectedValueException(
                    "probability",
                    String.valueOf(probability),
                    "is out of range",
                    "0 to 1",
                    "check the cumulative function it came from");
        }
        return Math.min(probability, 1) + 0.0;
    }

    static VerdictProbabilities certain(Verdict verdict) {
        return new VerdictProbabilities(
                verdict == Verdict.TIGHT ? 1 : 0, verdict == Verdict.WITHIN ? 1 : 0, verdict == Verdict.LOOSE ? 1 : 0);
    }
}
