package dev.lash.examples.sim;

import dev.lash.engine.WearPrior;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.trend.ClearanceHistory;
import dev.lash.trend.TrendTask;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.QRDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
import org.apache.commons.math3.linear.SingularMatrixException;
import org.apache.commons.numbers.gamma.Erfc;

/**
 * What is often done instead: a straight line by least squares through the middles of the readings of each valve, one level for
 * each segment, with the normal limits that the residuals give; valves taken to be independent. A reading without an end is taken
 * at its other end.
 */
final class MidpointLines {
    private static final int NODES = 48;
    private static final double REACH = 6;
    private static final double HORIZON = 30;
    private static final double FIRST = 0.05;
    private static final double CLOSE = 0.002;

    private MidpointLines() {}

    /**
     * A line with its uncertainty.
     *
     * @param level the level now
     * @param drift the drift per unit of the prior
     * @param driftError its standard error
     * @param levelPerDrift how much the level moves with the drift
     * @param levelError the standard error of the level, the drift given
     * @param low the lower end of the window
     * @param high the upper end of the window
     */
    record Line(
            double level,
            double drift,
            double driftError,
            double levelPerDrift,
            double levelError,
            double low,
            double high) {
        /** The probability of no exit between now and so much use later. */
        double stays(double ahead) {
            double sum = 0;
            double weights = 0;
            for (int i = -NODES; i <= NODES; i++) {
                double z = REACH * i / NODES;
                double weight = Math.exp(-z * z / 2);
                double move = z * driftError;
                double moved = (drift + move) * ahead;
                double mean = level + levelPerDrift * move;
                sum += weight
                        * Math.max(
                                0, upTo(Math.min(high, high - moved) - mean) - upTo(Math.max(low, low - moved) - mean));
                weights += weight;
            }
            return sum / weights;
        }

        private double upTo(double length) {
            return levelError > 0
                    ? 0.5 * Erfc.value(-length / (levelError * Math.sqrt(2)))
                    : length > 0 ? 1 : length < 0 ? 0 : 0.5;
        }
    }

    /** The line of one gap; empty where there are no more readings than coefficients, so that nothing tells the scatter. */
    static Optional<Line> fit(TrendTask task, WearPrior prior) {
        int rows = task.history().readings().size();
        int columns = task.history().segments().size() + 1;
        if (rows <= columns) {
            return Optional.empty();
        }
        double[] middles = task.history().readings().stream()
                .mapToDouble(reading -> middle(reading.clearance()))
                .toArray();
        RealMatrix x = new Array2DRowRealMatrix(design(task.history(), prior));
        RealVector y = new ArrayRealVector(middles);
        try {
            RealVector coefficients = new QRDecomposition(x).getSolver().solve(y);
            RealMatrix inverse = new QRDecomposition(x.transpose().multiply(x), 1e-12)
                    .getSolver()
                    .getInverse();
            double residual = y.subtract(x.operate(coefficients)).getNorm();
            // rounding leaves something of a residual where the middles lie on a line
            double variance = residual < 1e-12 ? 0 : residual * residual / (rows - columns);
            int last = columns - 1;
            double ofDrift = variance * inverse.getEntry(last, last);
            double both = inverse.getEntry(last - 1, last);
            double perDrift = both / inverse.getEntry(last, last);
            double ofLevel = variance * Math.max(0, inverse.getEntry(last - 1, last - 1) - perDrift * both);
            return Optional.of(new Line(
                    coefficients.getEntry(last - 1),
                    coefficients.getEntry(last),
                    Math.sqrt(ofDrift),
                    perDrift,
                    Math.sqrt(ofLevel),
                    millimetres(task.clearance().check().lower()),
                    millimetres(task.clearance().check().upper())));
        } catch (SingularMatrixException e) {
            return Optional.empty();
        }
    }

    /** A row for each reading: a column for the level of each segment, and one for the usage, counted from the last reading. */
    static double[][] design(ClearanceHistory history, WearPrior prior) {
        List<ClearanceHistory.Segment> segments = history.segments();
        BigDecimal last = history.last().orElseThrow().usage().amount();
        List<double[]> rows = new ArrayList<>();
        for (int k = 0; k < segments.size(); k++) {
            for (ClearanceHistory.Reading reading : segments.get(k).readings()) {
                double[] row = new double[segments.size() + 1];
                row[k] = 1;
                row[segments.size()] = reading.usage().amount().subtract(last).doubleValue()
                        / prior.per().amount().doubleValue();
                rows.add(row);
            }
        }
        return rows.toArray(double[][]::new);
    }

    private static double middle(LengthInterval reading) {
        Length low = reading.lower().or(reading::upper).orElseThrow();
        Length high = reading.upper().or(reading::lower).orElseThrow();
        return (millimetres(low) + millimetres(high)) / 2;
    }

    static double millimetres(Length length) {
        return length.nanometres() / 1e6;
    }

    private static double left(List<Line> lines, double ahead) {
        return 1 - lines.stream().mapToDouble(line -> line.stays(ahead)).reduce(1, (a, b) -> a * b);
    }

    /** How much use until any has left with the risk; 0 where that is so now, empty where it is not within the horizon. */
    static OptionalDouble ahead(List<Line> lines, double risk) {
        if (left(lines, 0) > risk) {
            return OptionalDouble.of(0);
        }
        double low = 0;
        double high = FIRST;
        while (left(lines, high) <= risk) {
            if (high >= HORIZON) {
                return OptionalDouble.empty();
            }
            low = high;
            high = Math.min(HORIZON, 2 * high);
        }
        while (high - low > CLOSE * high) {
            double middle = (low + high) / 2;
            if (left(lines, middle) > risk) {
                high = middle;
            } else {
                low = middle;
            }
        }
        return OptionalDouble.of(low);
    }
}
