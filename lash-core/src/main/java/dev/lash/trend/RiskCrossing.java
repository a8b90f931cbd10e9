package dev.lash.trend;

import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;

/** Where a probability that never falls passes a risk. */
final class RiskCrossing {
    private static final double FIRST = 0.05;
    private static final double CLOSE = 0.002;
    private static final int MOST = 60;

    private RiskCrossing() {}

    /**
     * The largest use with at most the risk, a little short of it.
     *
     * @param left the probability of having left after so much use
     * @param risk the risk, below 1
     * @param horizon how far to look
     * @return the use; 0 where the risk is passed at once; empty where it is not passed by the horizon
     */
    static OptionalDouble of(DoubleUnaryOperator left, double risk, double horizon) {
        double low = 0;
        double belowRisk = left.applyAsDouble(0) - risk;
        if (belowRisk > 0) {
            return OptionalDouble.of(0);
        }
        double high = Math.min(FIRST, horizon);
        double aboveRisk = left.applyAsDouble(high) - risk;
        while (aboveRisk <= 0) {
            if (high >= horizon) {
                return OptionalDouble.empty();
            }
            low = high;
            belowRisk = aboveRisk;
            high = Math.min(2 * high, horizon);
            aboveRisk = left.applyAsDouble(high) - risk;
        }
        boolean lowMoved = true;
        for (int i = 0; i < MOST && high - low > CLOSE * high; i++) {
            double next = (low + high) / 2;
            if (i % 3 != 2) {
                // the secant, a little to the side of the end that has not moved, so that both close in
                double margin = 0.4 * CLOSE * high;
                double secant = low + (high - low) * -belowRisk / (aboveRisk - belowRisk);
                next = Math.max(low + margin, Math.min(high - margin, secant + (lowMoved ? margin : -margin)));
            }
            double off = left.applyAsDouble(next) - risk;
            lowMoved = off <= 0;
            if (lowMoved) {
                low = next;
                belowRisk = off;
            } else {
                high = next;
                aboveRisk = off;
            }
        }
        return OptionalDouble.of(low);
    }
}
