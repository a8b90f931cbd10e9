package dev.lash.trend;

import dev.lash.measure.Length;
import dev.lash.measure.LengthDistribution;
import java.io.Serializable;
import java.util.function.DoubleUnaryOperator;

/** A distribution of lengths known at evenly spaced places and interpolated between them, so that it never falls. */
final class TabledDistribution implements LengthDistribution, Serializable {
    private static final long serialVersionUID = 1L;
    private static final int STEPS = 256;

    private final double first;
    private final double step;
    private final double[] upTo;

    private TabledDistribution(double first, double step, double[] upTo) {
        this.first = first;
        this.step = step;
        this.upTo = upTo;
    }

    static TabledDistribution of(double low, double high, DoubleUnaryOperator upTo) {
        double[] table = new double[STEPS + 1];
        double step = (high - low) / STEPS;
        double before = 0;
        for (int i = 0; i <= STEPS; i++) {
            table[i] = Math.max(before, Math.min(1, Math.max(0, upTo.applyAsDouble(low + i * step))));
            before = table[i];
        }
        return new TabledDistribution(low, step, table);
    }

    @Override
    public double probabilityUpTo(Length length) {
        double at = (LineData.millimetres(length) - first) / step;
        if (at <= 0) {
            return at < 0 ? 0 : upTo[0];
        }
        if (at >= STEPS) {
            return 1;
        }
        int i = (int) at;
        return upTo[i] + (at - i) * (upTo[i + 1] - upTo[i]);
    }
}
