package dev.lash.trend;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;

/**
 * The probability of one bracket by how far the true level lies from its middle, for one scatter: a table that fills as it is asked,
 * with cubic Hermite interpolation between its nodes. Brackets of one width share it. Used by one thread.
 */
abstract sealed class BracketTable {
    private static final int STEPS = 64;
    private static final int END = 9;

    /** The place that distances count from: the middle of a bracket, its only end, or the point. */
    final double middle;

    private BracketTable(double middle) {
        this.middle = middle;
    }

    /** The probability, or density for a point, where the level lies so far above the middle. */
    abstract double at(double above);

    /** The tables of one scatter, for all the readings that are asked about it. */
    static final class Tables {
        private static final double NANOMETRES = 1e6;

        final double scatter;
        private final Map<Long, double[]> cells = new HashMap<>();

        Tables(double scatter) {
            this.scatter = scatter;
        }

        /** A table for each reading of a part. */
        BracketTable[] of(LineData.Part part) {
            BracketTable[] tables = new BracketTable[part.size()];
            for (int i = 0; i < tables.length; i++) {
                double low = part.low[i];
                double high = part.high[i];
                if (low == high) {
                    tables[i] = new Point(low, scatter);
                } else if (Double.isInfinite(high - low)) {
                    tables[i] = new OneEnd(low, high, scatter);
                } else {
                    double half = (high - low) / scatter / 2;
                    tables[i] = new TwoEnds((low + high) / 2, half, cells(high - low, half), scatter);
                }
            }
            return tables;
        }

        private double[] cells(double width, double half) {
            return cells.computeIfAbsent(Math.round(width * NANOMETRES), w -> {
                double[] made = new double[4 * ((int) Math.ceil(STEPS * (END + half)) + 1)];
                Arrays.fill(made, Double.NaN);
                return made;
            });
        }
    }

    private static final class Point extends BracketTable {
        private final double inverse;

        Point(double at, double scatter) {
            super(at);
            this.inverse = 1 / scatter;
        }

        @Override
        double at(double above) {
            return NormalTable.SHARED.density(above * inverse) * inverse;
        }
    }

    private static final class OneEnd extends BracketTable {
        private final double inverse;

        OneEnd(double low, double high, double scatter) {
            super(Double.isInfinite(low) ? high : low);
            this.inverse = (Double.isInfinite(low) ? -1 : 1) / scatter;
        }

        @Override
        double at(double above) {
            return NormalTable.SHARED.upTo(above * inverse);
        }
    }

    private static final class TwoEnds extends BracketTable {
        private final double inverse;
        private final double half;

        /** The four coefficients of each cell, NaN where nobody asked. */
        private final double[] cells;

        TwoEnds(double middle, double half, double[] cells, double scatter) {
            super(middle);
            this.inverse = STEPS / scatter;
            this.half = half;
            this.cells = cells;
        }

        @Override
        double at(double above) {
            double at = Math.abs(above) * inverse;
            int cell = (int) at;
            int i = 4 * cell;
            if (i >= cells.length) {
                return 0;
            }
            double start = cells[i];
            if (Double.isNaN(start)) {
                start = fill(cell);
            }
            double t = at - cell;
            return start + t * (cells[i + 1] + t * (cells[i + 2] + t * cells[i + 3]));
        }

        private double fill(int cell) {
            double left = value(cell);
            double leftSlope = slope(cell);
            double rise = value(cell + 1) - left;
            double rightSlope = slope(cell + 1);
            cells[4 * cell] = left;
            cells[4 * cell + 1] = leftSlope;
            cells[4 * cell + 2] = 3 * rise - 2 * leftSlope - rightSlope;
            cells[4 * cell + 3] = leftSlope + rightSlope - 2 * rise;
            return left;
        }

        private double value(int node) {
            double z = node / (double) STEPS;
            return NormalTable.SHARED.between(-half - z, half - z);
        }

        /** Over one cell. */
        private double slope(int node) {
            double z = node / (double) STEPS;
            return (NormalTable.SHARED.density(half + z) - NormalTable.SHARED.density(half - z)) / STEPS;
        }
    }
}
