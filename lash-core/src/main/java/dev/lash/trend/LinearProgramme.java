package dev.lash.trend;

import java.util.Optional;

/**
 * The largest last variable under linear inequalities: max y[k-1] subject to rows[i] . y &lt;= bounds[i], where bounds[0]
 * caps the last variable alone and the other rows span the other variables. The simplex method on the dual, whose basis
 * has only k columns, so that thousands of rows stay cheap; seen from here, a vertex y moves to satisfy a violated row.
 * The most violated row first, after a while the first one (Bland 1977), which cannot cycle.
 */
final class LinearProgramme {
    private static final double VIOLATED = 1e-13;
    private static final double RATE = 1e-11;
    private static final int PATIENCE = 40;

    private final double[][] rows;
    private final double[] bounds;
    private final int size;
    private final int[] basis;

    private LinearProgramme(double[][] rows, double[] bounds) {
        this.rows = rows;
        this.bounds = bounds;
        this.size = rows[0].length;
        this.basis = new int[size];
    }

    /**
     * Solves.
     *
     * @param rows the left sides; the first is (0, ..., 0, 1)
     * @param bounds the right sides
     * @return the point, or empty when no point satisfies all inequalities
     */
    static Optional<double[]> solve(double[][] rows, double[] bounds) {
        return new LinearProgramme(rows, bounds).solve();
    }

    private Optional<double[]> solve() {
        pickIndependentRows();
        double[] y = new double[size];
        int most = PATIENCE * (size + rows.length);
        for (int step = 0; step < most; step++) {
            double[][] inverse = inverseOfBasis();
            for (int j = 0; j < size; j++) {
                y[j] = 0;
                for (int r = 0; r < size; r++) {
                    y[j] += inverse[j][r] * bounds[basis[r]];
                }
            }
            int entering = violated(y, step > PATIENCE);
            if (entering < 0) {
                return Optional.of(y);
            }
            int leaving = leaving(inverse, rows[entering]);
            if (leaving < 0) {
                return Optional.empty();
            }
            basis[leaving] = entering;
        }
        return Optional.of(y);
    }

    private int violated(double[] y, boolean first) {
        int found = -1;
        double most = VIOLATED;
        for (int i = 0; i < rows.length; i++) {
            double excess = -bounds[i];
            for (int j = 0; j < size; j++) {
                excess += rows[i][j] * y[j];
            }
            if (excess > most) {
                found = i;
                if (first) {
                    break;
                }
                most = excess;
            }
        }
        return found;
    }

    /** The row whose multiplier falls to 0 first as that of the entering row grows; -1 when none does. */
    private int leaving(double[][] inverse, double[] entering) {
        int leaving = -1;
        double least = Double.POSITIVE_INFINITY;
        for (int r = 0; r < size; r++) {
            double rate = 0;
            for (int j = 0; j < size; j++) {
                rate += inverse[j][r] * entering[j];
            }
            if (rate > RATE) {
                double ratio = Math.max(0, inverse[size - 1][r]) / rate;
                if (ratio < least || (ratio == least && basis[r] < basis[leaving])) {
                    least = ratio;
                    leaving = r;
                }
            }
        }
        return leaving;
    }

    /** The cap, and rows as independent as can be had: by what is left of them after projection, largest first. */
    private void pickIndependentRows() {
        double[][] left = new double[rows.length][];
        for (int i = 0; i < rows.length; i++) {
            left[i] = rows[i].clone();
            left[i][size - 1] = 0;
        }
        basis[0] = 0;
        for (int k = 1; k < size; k++) {
            int largest = 0;
            double most = 0;
            for (int i = 1; i < rows.length; i++) {
                double norm = product(left[i], left[i]);
                if (norm > most) {
                    most = norm;
                    largest = i;
                }
            }
            basis[k] = largest;
            double[] direction = left[largest].clone();
            for (double[] row : left) {
                double share = most == 0 ? 0 : product(row, direction) / most;
                for (int j = 0; j < size; j++) {
                    row[j] -= share * direction[j];
                }
            }
        }
    }

    private double product(double[] a, double[] b) {
        double sum = 0;
        for (int j = 0; j < size; j++) {
            sum += a[j] * b[j];
        }
        return sum;
    }

    /** Gauss and Jordan with row pivoting. */
    private double[][] inverseOfBasis() {
        double[][] work = new double[size][2 * size];
        for (int r = 0; r < size; r++) {
            System.arraycopy(rows[basis[r]], 0, work[r], 0, size);
            work[r][size + r] = 1;
        }
        for (int k = 0; k < size; k++) {
            int pivot = k;
            for (int r = k + 1; r < size; r++) {
                if (Math.abs(work[r][k]) > Math.abs(work[pivot][k])) {
                    pivot = r;
                }
            }
            double[] top = work[pivot];
            work[pivot] = work[k];
            work[k] = top;
            double divisor = top[k];
            for (int j = 0; j < 2 * size; j++) {
                top[j] /= divisor;
            }
            for (int r = 0; r < size; r++) {
                double factor = work[r][k];
                if (r != k && factor != 0) {
                    for (int j = 0; j < 2 * size; j++) {
                        work[r][j] -= factor * top[j];
                    }
                }
            }
        }
        double[][] inverse = new double[size][size];
        for (int r = 0; r < size; r++) {
            System.arraycopy(work[r], size, inverse[r], 0, size);
        }
        return inverse;
    }
}
