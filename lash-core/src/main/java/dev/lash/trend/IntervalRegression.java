package dev.lash.trend;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * A normal linear model whose responses are known as brackets only: response = row . coefficients + scale x standard
 * normal scatter, and of each response a lower and an upper end.
 *
 * <p>The log-likelihood is the sum over rows of weight x log( Phi((upper - mu)/scale) - Phi((lower - mu)/scale) ), with the
 * log density log( phi((y - mu)/scale) / scale ) where the ends are equal. An end may be infinite; a row without ends
 * carries no information and is legal. {@link #fit()} maximises it over coefficients and scale by damped Newton steps in
 * (coefficients/scale, 1/scale), where it is concave (Olsen 1978, "Note on the uniqueness of the maximum likelihood
 * estimator for the Tobit model", Econometrica 46; Burridge 1981, "A note on maximum likelihood estimation for regression
 * models using grouped data", J. R. Statist. Soc. B 43). So a maximum that exists is the only one, and is found.
 *
 * <p>It exists unless the likelihood never falls along some ray. With few and coarse brackets that is the normal case; {@link
 * IntervalFit.Reason} names the ways. How they are told, in this order:
 *
 * <table>
 * <caption>Whether there is a maximum</caption>
 * <tr><th>question</th><th>how it is answered</th></tr>
 * <tr><td>rank</td><td>orthogonalisation of the columns, over rows with an end; what is left of a column must exceed 1e-12
 * of it</td></tr>
 * <tr><td>one-sided</td><td>where rows with two ends do not span the coefficients: a linear programme on the signs of the
 * rest</td></tr>
 * <tr><td>scale unbounded</td><td>where no row has two ends: the slope by 1/scale at the best point of 1/scale = 0</td></tr>
 * <tr><td>threaded with room</td><td>any step of the search whose line lies inside every bracket proves it; points that lie
 * on one line are noticed at the start; else the linear programme of the widest margin, asked when the information matrix
 * turns singular or steps do not end</td></tr>
 * <tr><td>threaded at the edge</td><td>a margin of 0 in the same programme, to about 1e-11 of the spread of the
 * ends</td></tr>
 * <tr><td>flat</td><td>no line threads, yet steps run off along one direction in which the information stays
 * singular</td></tr>
 * </table>
 *
 * <p>Columns are orthogonalised and the ends taken relative to a least-squares line and its spread before the search, so
 * that units and offsets make no difference: multiplying all ends or a column by a power of two changes no digit. Standard
 * errors are those of the observed information. Memory and time per step grow with rows x columns<sup>2</sup>.
 *
 * <p>Immutable and thread-safe.
 */
public final class IntervalRegression implements Serializable {
    private static final long serialVersionUID = 1L;

    private static final double LARGEST = 1e150;
    private static final double WEIGHT_SPAN = 1e9;

    private final double[][] design;
    private final double[] lower;
    private final double[] upper;
    private final double[] weights;

    private IntervalRegression(double[][] design, double[] lower, double[] upper, double[] weights) {
        this.design = design;
        this.lower = lower;
        this.upper = upper;
        this.weights = weights;
    }

    /**
     * A model by its design matrix; an intercept is a column of ones.
     *
     * @param design one row per response, one column per coefficient; numbers up to 1e150 in size
     * @param lower the lower ends, {@link Double#NEGATIVE_INFINITY} where there is none
     * @param upper the upper ends, {@link Double#POSITIVE_INFINITY} where there is none; equal to the lower end for a point
     * @return the model, each row of weight 1
     * @throws RejectedValueException if sizes differ, there is no column, a number is NaN or out of range, or a lower end
     *     is above its upper end
     */
    public static IntervalRegression of(double[][] design, double[] lower, double[] upper) {
        requireNonNull(design, "design");
        double[] low = requireNonNull(lower, "lower").clone();
        double[] high = requireNonNull(upper, "upper").clone();
        double[][] rows = new double[design.length][];
        for (int i = 0; i < rows.length; i++) {
            rows[i] = requireNonNull(design[i], "row of the design").clone();
        }
        sameSize("lower ends", low.length, rows.length);
        sameSize("upper ends", high.length, rows.length);
        if (rows.length == 0 || rows[0].length == 0) {
            throw new RejectedValueException(
                    "design",
                    rows.length + " rows",
                    "has no coefficient",
                    "at least one row and one column",
                    "give a column of ones for a mean alone");
        }
        for (int i = 0; i < rows.length; i++) {
            if (rows[i].length != rows[0].length) {
                throw new RejectedValueException(
                        "design row " + i,
                        rows[i].length + " values",
                        "has another length than the first",
                        rows[0].length + " values",
                        "give one value per coefficient");
            }
            for (double value : rows[i]) {
                if (!(Math.abs(value) <= LARGEST)) {
                    throw outOfRange("design row " + i, value);
                }
            }
            checkEnds(i, low[i], high[i]);
        }
        double[] ones = new double[rows.length];
        Arrays.fill(ones, 1);
        return new IntervalRegression(rows, low, high, ones);
    }

    /**
     * A straight line: intercept and slope.
     *
     * @param usage where each bracket was taken
     * @param lower the lower ends, as in {@link #of}
     * @param upper the upper ends, as in {@link #of}
     * @return the model; coefficient 0 is the height at usage 0, coefficient 1 the slope
     * @throws RejectedValueException as {@link #of} does
     */
    public static IntervalRegression line(double[] usage, double[] lower, double[] upper) {
        double[][] rows = new double[usage.length][];
        for (int i = 0; i < rows.length; i++) {
            rows[i] = new double[] {1, usage[i]};
        }
        return of(rows, lower, upper);
    }

    private static void sameSize(String what, int size, int rows) {
        if (size != rows) {
            throw new RejectedValueException(
                    what,
                    Integer.toString(size),
                    "are not as many as the rows of the design",
                    Integer.toString(rows),
                    "give one per row");
        }
    }

    private static void checkEnds(int row, double low, double high) {
        if (!(low <= high) || low == Double.POSITIVE_INFINITY || high == Double.NEGATIVE_INFINITY) {
            throw new RejectedValueException(
                    "bracket of row " + row,
                    low + " to " + high,
                    "holds no number",
                    "a lower end not above the upper end",
                    "swap the ends; a missing lower end is -Infinity, a missing upper end Infinity");
        }
        if (low != Double.NEGATIVE_INFINITY && Math.abs(low) > LARGEST) {
            throw outOfRange("lower end of row " + row, low);
        }
        if (high != Double.POSITIVE_INFINITY && Math.abs(high) > LARGEST) {
            throw outOfRange("upper end of row " + row, high);
        }
    }

    private static RejectedValueException outOfRange(String what, double value) {
        return new RejectedValueException(
                what,
                Double.toString(value),
                "is out of range",
                "a number from -" + LARGEST + " to " + LARGEST,
                "choose a unit that keeps numbers moderate");
    }

    /**
     * This model with weights, each the number of times its row counts.
     *
     * @param weights one positive weight per row, the largest at most 1e9 times the smallest: beyond, the light rows would
     *     be lost in rounding
     * @return the weighted model
     * @throws RejectedValueException if there is another number of weights, one is not positive, or they span too much
     */
    public IntervalRegression withWeights(double... weights) {
        double[] copy = requireNonNull(weights, "weights").clone();
        sameSize("weights", copy.length, design.length);
        double least = Double.POSITIVE_INFINITY;
        double most = 0;
        for (double weight : copy) {
            if (!(weight > 0) || weight > LARGEST) {
                throw new RejectedValueException(
                        "weight",
                        Double.toString(weight),
                        "is not a positive number",
                        "more than 0, at most " + LARGEST,
                        "leave out rows that should not count");
            }
            least = Math.min(least, weight);
            most = Math.max(most, weight);
        }
        if (most / least > WEIGHT_SPAN) {
            throw new RejectedValueException(
                    "weights",
                    least + " to " + most,
                    "span too much",
                    "the largest at most " + WEIGHT_SPAN + " times the smallest",
                    "leave out rows that hardly count");
        }
        return new IntervalRegression(design, lower, upper, copy);
    }

    /** {@return the number of rows} */
    public int rows() {
        return design.length;
    }

    /** {@return the number of coefficients} */
    public int columns() {
        return design[0].length;
    }

    /**
     * Maximises the likelihood.
     *
     * @return the maximum, or why there is none
     */
    public IntervalFit fit() {
        return new LikelihoodSearch(design, lower, upper, weights).run();
    }

    /**
     * The log-likelihood at any line and scale.
     *
     * @param coefficients one number per column
     * @param scale the scale, positive
     * @return the weighted sum of log probabilities and log densities; -infinity where a row is impossible in double
     *     precision
     * @throws RejectedValueException if there is another number of coefficients, one is not finite, or the scale is not
     *     positive and finite
     */
    public double logLikelihood(double[] coefficients, double scale) {
        sameCount(coefficients);
        if (!(scale > 0) || scale == Double.POSITIVE_INFINITY) {
            throw new RejectedValueException(
                    "scale", Double.toString(scale), "is not a positive number", "more than 0", "give another scale");
        }
        NormalLaw law = new NormalLaw();
        double sum = 0;
        for (int i = 0; i < design.length; i++) {
            double mean = 0;
            for (int j = 0; j < coefficients.length; j++) {
                mean += design[i][j] * coefficients[j];
            }
            boolean hasLower = lower[i] != Double.NEGATIVE_INFINITY;
            boolean hasUpper = upper[i] != Double.POSITIVE_INFINITY;
            if (hasLower && hasUpper) {
                double width = upper[i] - lower[i];
                double middle = (lower[i] + 0.5 * width - mean) / scale;
                if (width == 0) {
                    law.point(middle);
                    law.log -= Math.log(scale);
                } else {
                    law.between(middle, width / scale);
                }
            } else if (hasLower) {
                law.above((lower[i] - mean) / scale);
            } else if (hasUpper) {
                law.below((upper[i] - mean) / scale);
            } else {
                continue;
            }
            sum += weights[i] * law.log;
        }
        return sum;
    }

    private void sameCount(double[] coefficients) {
        if (requireNonNull(coefficients, "coefficients").length != columns()) {
            throw new RejectedValueException(
                    "coefficients",
                    Arrays.toString(coefficients),
                    "are not as many as the columns",
                    Integer.toString(columns()),
                    "give one per column of the design");
        }
        for (double coefficient : coefficients) {
            if (!(Math.abs(coefficient) <= Double.MAX_VALUE)) {
                throw outOfRange("coefficient", coefficient);
            }
        }
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof IntervalRegression model
                && Arrays.deepEquals(model.design, design)
                && Arrays.equals(model.lower, lower)
                && Arrays.equals(model.upper, upper)
                && Arrays.equals(model.weights, weights);
    }

    @Override
    public int hashCode() {
        return 31 * Arrays.deepHashCode(design) + Arrays.hashCode(lower);
    }

    /** {@return the size of the model, for a log} */
    @Override
    public String toString() {
        return rows() + " rows, " + columns() + " coefficients";
    }
}
