package dev.lash.trend;

import java.util.function.DoubleUnaryOperator;
import java.util.function.Supplier;

/**
 * One gap: the probability that it stays for so much use, and what is told of it, worked out when it is asked for.
 *
 * @param task the gap
 * @param byLines whether all is straight lines, which know no probability
 * @param staying the probability that it stays
 * @param told what is told of it
 */
record GapTrend(TrendTask task, boolean byLines, DoubleUnaryOperator staying, Supplier<ValveTrend> told) {
    double stays(double ahead) {
        return staying.applyAsDouble(ahead);
    }

    double left(double ahead) {
        return 1 - stays(ahead);
    }

    ValveTrend valveTrend() {
        return told.get();
    }
}
