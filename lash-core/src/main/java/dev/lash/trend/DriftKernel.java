package dev.lash.trend;

/** The normal density of a valve's drift about that of its family, at whole multiples of the step of drifts, times that step. */
final class DriftKernel {
    private static final double REACH = 5.5;

    private final int reach;

    /** The density from {@code -reach} to {@code reach} steps. */
    private final double[] share;

    DriftKernel(double spread, double step) {
        reach = (int) Math.ceil(REACH * spread / step);
        share = new double[2 * reach + 1];
        double sum = 0;
        for (int i = 0; i <= reach; i++) {
            double z = i * step / spread;
            double density = Math.exp(-z * z / 2);
            share[reach - i] = density;
            share[reach + i] = density;
            sum += i == 0 ? density : 2 * density;
        }
        for (int i = 0; i < share.length; i++) {
            share[i] /= sum;
        }
    }

    /** How many steps off the middle it reaches. */
    int reach() {
        return reach;
    }

    /**
     * The likelihood of a family's drift by one valve: over the drifts of the valve, times a share of each.
     *
     * @param values for each drift of the valve
     * @param from the first of them that is not 0
     * @param to one beyond the last of them
     * @param middle the drift of the family, as an index of the values
     */
    double smoothed(double[] values, int from, int to, int middle) {
        int shift = reach - middle;
        int j = Math.max(from, -shift);
        int end = Math.min(to, share.length - shift);
        // four sums, lest each product wait for the sum before it
        double first = 0;
        double second = 0;
        double third = 0;
        double fourth = 0;
        for (; j + 3 < end; j += 4) {
            first += values[j] * share[j + shift];
            second += values[j + 1] * share[j + 1 + shift];
            third += values[j + 2] * share[j + 2 + shift];
            fourth += values[j + 3] * share[j + 3 + shift];
        }
        for (; j < end; j++) {
            first += values[j] * share[j + shift];
        }
        return first + second + (third + fourth);
    }

    /** Adds to each drift of a valve a weight times its likelihood times its share of the family's drift. */
    void spread(LineGrid grid, int at, double weight, double[] shares) {
        int shift = reach - (at - grid.first);
        int end = Math.min(shares.length, share.length - shift);
        for (int j = Math.max(0, -shift); j < end; j++) {
            shares[j] += weight * grid.likelihood[j] * share[j + shift];
        }
    }
}
