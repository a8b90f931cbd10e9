package dev.lash.trend;

import java.util.function.DoubleUnaryOperator;
import java.util.function.Supplier;

/** One gap: the probability that it stays for so much use, and what is told of it, worked out when it is asked for. */
record GapTrend(TrendTask task, DoubleUnaryOperator staying, Supplier<ValveTrend> told) {
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
