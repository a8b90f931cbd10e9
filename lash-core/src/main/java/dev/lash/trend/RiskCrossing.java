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
        if (left.applyAsDouble(0) > risk) {
            return OptionalDouble.of(0);
        }
        double low = 0;
        double below = left.applyAsDouble(0);
        double high = Math.min(FIRST, horizon);
        double above = left.applyAsDouble(high);
        while (above <= risk) {
            if (high >= horizon) {
                return OptionalDouble.empty();
            }
            low = high;
            below = above;
            high = Math.min(4 * high, horizon);
            above = left.applyAsDouble(high);
        }
        // where a straight line between the ends passes, a little towards the middle so that both ends close in; else
        // the middle
        boolean straight = true;
        for (int i = 0; i < MOST && high - low > CLOSE * high; i++) {
            double width = high - low;
            double at = low + width / 2;
            if (straight) {
                double passes = low + width * (risk - below) / (above - below);
                at = passes + Math.copySign(Math.min(CLOSE * high / 3, Math.abs(at - passes)), at - passes);
            }
            double value = left.applyAsDouble(at);
            if (value > risk) {
                high = at;
                above = value;
            } else {
                low = at;
                below = value;
            }
            straight = high - low < 0.6 * width;
        }
        return OptionalDouble.of(low);
    }
}
