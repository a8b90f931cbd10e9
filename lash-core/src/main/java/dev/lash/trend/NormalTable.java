package dev.lash.trend;

import org.apache.commons.numbers.gamma.Erfc;

/**
 * The standard normal distribution from a table, for loops that ask for it a million times: cubic Hermite interpolation, relative
 * error below 1e-6 up to 9 standard deviations.
 */
final class NormalTable {
    private static final int STEPS = 64;
    private static final int END = 9;
    private static final double ROOT_TWO = Math.sqrt(2);
    private static final double ROOT_TWO_PI = Math.sqrt(2 * Math.PI);

    private final double[] tail = new double[END * STEPS + 1];
    private final double[] density = new double[END * STEPS + 1];

    /** One for all: it never changes. */
    static final NormalTable SHARED = new NormalTable();

    private NormalTable() {
        for (int i = 0; i < tail.length; i++) {
            double z = (double) i / STEPS;
            tail[i] = Erfc.value(z / ROOT_TWO) / 2;
            density[i] = Math.exp(-z * z / 2) / ROOT_TWO_PI;
        }
    }

    /** The probability above z, for z of 0 or more. */
    private double above(double z) {
        if (z >= END) {
            return 0;
        }
        double at = z * STEPS;
        int i = (int) at;
        return hermite(at - i, 1.0 / STEPS, tail[i], -density[i], tail[i + 1], -density[i + 1]);
    }

    /** A cubic between two nodes: at the share t of the way, with the values at the nodes and the slopes there. */
    static double hermite(double t, double step, double left, double leftSlope, double right, double rightSlope) {
        double rest = 1 - t;
        return rest * rest * ((1 + 2 * t) * left + t * step * leftSlope)
                + t * t * ((3 - 2 * t) * right - rest * step * rightSlope);
    }

    /** The probability up to z. */
    double upTo(double z) {
        return z >= 0 ? 1 - above(z) : above(-z);
    }

    /** The probability between two places, the first not above the second; either may be infinite. */
    double between(double low, double high) {
        if (low >= 0) {
            return above(low) - above(high);
        }
        if (high <= 0) {
            return above(-high) - above(-low);
        }
        return 1 - above(-low) - above(high);
    }

    /** The density at z. */
    double density(double z) {
        double size = Math.abs(z);
        if (size >= END) {
            return 0;
        }
        double at = size * STEPS;
        int i = (int) at;
        double left = -((double) i / STEPS) * density[i];
        double right = -((double) (i + 1) / STEPS) * density[i + 1];
        return hermite(at - i, 1.0 / STEPS, density[i], left, density[i + 1], right);
    }
}
