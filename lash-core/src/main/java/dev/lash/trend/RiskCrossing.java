package dev.lash.trend;

import java.util.HashMap;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.numbers.gamma.InverseErfc;

/** Where a probability that never falls passes a risk. */
final class RiskCrossing {
    private static final double FIRST = 0.05;
    private static final double GROWTH = 4;
    private static final double CLOSE = 0.002;
    private static final int MOST = 60;
    private static final double LEAST = 1e-12;

    private RiskCrossing() {}

    /** The same function, asked once for each use: searches begin at the same places. */
    static DoubleUnaryOperator remembered(DoubleUnaryOperator function) {
        Map<Double, Double> known = new HashMap<>();
        return use -> known.computeIfAbsent(use, function::applyAsDouble);
    }

    /**
     * The largest use with at most the risk, a little short of it.
     *
     * @param left the probability of having left after so much use
     * @param risk the risk, below 1
     * @param horizon how far to look
     * @return the use; 0 where the risk is passed at once; empty where it is not passed by the horizon
     */
    static OptionalDouble of(DoubleUnaryOperator left, double risk, double horizon) {
        return of(left, risk, horizon, FIRST, GROWTH);
    }

    /**
     * The same, from where it is thought to be.
     *
     * @param left the probability of having left after so much use
     * @param risk the risk, below 1
     * @param horizon how far to look
     * @param guess a use at which the risk is hardly passed yet, more than 0
     * @return the use; 0 where the risk is passed at once; empty where it is not passed by the horizon
     */
    static OptionalDouble near(DoubleUnaryOperator left, double risk, double horizon, double guess) {
        return of(left, risk, horizon, guess, 1.1);
    }

    private static OptionalDouble of(
            DoubleUnaryOperator left, double risk, double horizon, double first, double firstGrowth) {
        double below = left.applyAsDouble(0);
        if (below > risk) {
            return OptionalDouble.of(0);
        }
        double low = 0;
        double high = Math.min(first, horizon);
        double above = left.applyAsDouble(high);
        double growth = firstGrowth;
        while (above <= risk) {
            if (high >= horizon) {
                return OptionalDouble.empty();
            }
            low = high;
            below = above;
            high = Math.min(growth * high, horizon);
            growth = Math.min(GROWTH, growth * growth);
            above = left.applyAsDouble(high);
        }
        boolean curved = low > 0;
        for (int i = 0; i < MOST && high - low > CLOSE * high; i++) {
            double width = high - low;
            double middle = low + width / 2;
            double at = middle;
            if (curved) {
                // a little towards the middle, so that both ends close in
                double passes = passes(low, below, high, above, risk);
                at = passes + Math.copySign(Math.min(CLOSE * high / 3, Math.abs(middle - passes)), middle - passes);
            }
            double value = left.applyAsDouble(at);
            if (value > risk) {
                high = at;
                above = value;
            } else {
                low = at;
                below = value;
            }
            curved = low > 0 && high - low < 0.6 * width;
        }
        return OptionalDouble.of(low);
    }

    /**
     * Where the risk is passed between two uses. Of a level on a line of unknown slope, with normal errors, the normal deviate is
     * straight in one over the use.
     */
    private static double passes(double low, double below, double high, double above, double risk) {
        double from = deviate(below);
        double to = deviate(above);
        double share = to > from ? (deviate(risk) - from) / (to - from) : 0.5;
        return 1 / (1 / low + share * (1 / high - 1 / low));
    }

    private static double deviate(double probability) {
        double p = Math.min(1 - LEAST, Math.max(LEAST, probability));
        return -Math.sqrt(2) * InverseErfc.value(2 * p);
    }
}
