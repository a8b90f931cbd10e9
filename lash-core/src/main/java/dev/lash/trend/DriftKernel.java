package dev.lash.trend;

/** The normal density of a valve's drift about that of its family, at whole multiples of the step of drifts, times that step. */
final class DriftKernel {
    private static final double REACH = 5.5;

    private final double[] half;

    DriftKernel(double spread, double step) {
        int reach = (int) Math.ceil(REACH * spread / step);
        half = new double[reach + 1];
        double sum = 0;
        for (int i = 0; i <= reach; i++) {
            double z = i * step / spread;
            half[i] = Math.exp(-z * z / 2);
            sum += i == 0 ? half[i] : 2 * half[i];
        }
        for (int i = 0; i <= reach; i++) {
            half[i] /= sum;
        }
    }

    /** How many steps off the middle it reaches. */
    int reach() {
        return half.length - 1;
    }

    /** The likelihood of a family's drift by one valve: over the drifts of the valve, times a share of each. */
    double smoothed(LineGrid grid, double[] values, int at) {
        int middle = at - grid.first;
        int from = Math.max(0, middle - reach());
        int to = Math.min(values.length, middle + half.length);
        double sum = 0;
        int j = from;
        for (; j < Math.min(to, middle); j++) {
            sum += values[j] * half[middle - j];
        }
        for (; j < to; j++) {
            sum += values[j] * half[j - middle];
        }
        return sum;
    }

    /** Adds to each drift of a valve a weight times its likelihood times its share of the family's drift. */
    void spread(LineGrid grid, int at, double weight, double[] shares) {
        int middle = at - grid.first;
        int from = Math.max(0, middle - reach());
        int to = Math.min(shares.length, middle + half.length);
        for (int j = from; j < to; j++) {
            shares[j] += weight * grid.likelihood[j] * half[Math.abs(j - middle)];
        }
    }
}
