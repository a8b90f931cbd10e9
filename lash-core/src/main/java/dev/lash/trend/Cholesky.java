package dev.lash.trend;

/** Symmetric positive matrices of a few rows, lower triangles, by Cholesky's method. */
final class Cholesky {
    private Cholesky() {}

    /**
     * Factors a matrix. A pivot that is not more than a share of its diagonal is replaced by that diagonal, so that the
     * factor is always usable as a damped one.
     *
     * @param matrix the lower triangle
     * @param factor where the factor goes; may be the matrix itself
     * @param size how many rows
     * @param least the smallest sound share
     * @return whether all pivots were sound
     */
    static boolean factor(double[][] matrix, double[][] factor, int size, double least) {
        boolean sound = true;
        for (int j = 0; j < size; j++) {
            double diagonal = matrix[j][j];
            double pivot = diagonal;
            for (int k = 0; k < j; k++) {
                pivot -= factor[j][k] * factor[j][k];
            }
            if (!(pivot > least * diagonal)) {
                sound = false;
                pivot = diagonal > 0 ? diagonal : 1;
            }
            double root = Math.sqrt(pivot);
            factor[j][j] = root;
            for (int i = j + 1; i < size; i++) {
                double sum = matrix[i][j];
                for (int k = 0; k < j; k++) {
                    sum -= factor[i][k] * factor[j][k];
                }
                factor[i][j] = sum / root;
            }
        }
        return sound;
    }

    /** Solves for the right side; returns right side x solution. */
    static double solve(double[][] factor, double[] right, double[] solution, int size) {
        double product = 0;
        for (int i = 0; i < size; i++) {
            double sum = right[i];
            for (int k = 0; k < i; k++) {
                sum -= factor[i][k] * solution[k];
            }
            solution[i] = sum / factor[i][i];
            product += solution[i] * solution[i];
        }
        for (int i = size - 1; i >= 0; i--) {
            double sum = solution[i];
            for (int k = i + 1; k < size; k++) {
                sum -= factor[k][i] * solution[k];
            }
            solution[i] = sum / factor[i][i];
        }
        return product;
    }

    /** The inverse of the matrix whose factor this is. */
    static double[][] inverse(double[][] factor, int size) {
        double[][] inverse = new double[size][size];
        double[] unit = new double[size];
        for (int j = 0; j < size; j++) {
            unit[j] = 1;
            solve(factor, unit, inverse[j], size);
            unit[j] = 0;
        }
        return inverse;
    }
}
