package dev.lash.examples.sim;

import java.util.SplittableRandom;

/** Draws that are the same with every Java version: only {@link SplittableRandom} and {@link StrictMath}. */
final class Draws {
    private final SplittableRandom random;
    private double spare = Double.NaN;

    Draws(long seed) {
        this.random = new SplittableRandom(seed);
    }

    /** A standard normal deviate, by the polar method of Marsaglia and Bray (1964). */
    double normal() {
        if (!Double.isNaN(spare)) {
            double kept = spare;
            spare = Double.NaN;
            return kept;
        }
        double x;
        double y;
        double square;
        do {
            x = 2 * random.nextDouble() - 1;
            y = 2 * random.nextDouble() - 1;
            square = x * x + y * y;
        } while (square >= 1 || square == 0);
        double factor = StrictMath.sqrt(-2 * StrictMath.log(square) / square);
        spare = factor * y;
        return factor * x;
    }

    double normal(double mean, double deviation) {
        return mean + deviation * normal();
    }

    double logNormal(double median, double factor) {
        return median * StrictMath.pow(factor, normal());
    }
}
