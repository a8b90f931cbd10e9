package dev.lash.trend;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.util.Arrays;
import java.util.Optional;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/**
 * What came of maximising the likelihood of an {@link IntervalRegression}. A closed choice; {@link Cases} has one function
 * per case.
 */
public sealed interface IntervalFit extends Serializable {
    /**
     * Calls the function of this case.
     *
     * @param cases one function per case
     * @param <R> what the functions return
     * @return what the function of this case returned
     */
    <R> R match(Cases<R> cases);

    /** {@return the maximum, or empty when there is none} */
    Optional<Maximum> maximum();

    /**
     * One function per case.
     *
     * @param <R> what the functions return
     */
    interface Cases<R> {
        /**
         * For a maximum.
         *
         * @param fit the maximum
         * @return the result
         */
        R maximum(Maximum fit);

        /**
         * For a likelihood without a maximum.
         *
         * @param fit why there is none
         * @return the result
         */
        R noMaximum(NoMaximum fit);
    }

    /** Why the likelihood has no single maximum. The first of these that holds is given. */
    enum Reason {
        /**
         * The rows with an end do not span the coefficients: too few of them, or identical usages. Also where nothing but
         * one-sided brackets lie with all their ends on one line, so that the scale cannot be told.
         */
        RANK,

        /**
         * Some combination of coefficients can grow without end while every bracket is served ever better or not touched:
         * the ends that could hold it back are all on one side. The scale stays open too.
         */
        ONE_SIDED,

        /** A line lies strictly inside every bracket, and on every point: the scale shrinks to 0. */
        THREADED_WITH_ROOM,

        /**
         * A line passes through every bracket, but only over the end of at least one: the likelihood rises towards scale 0
         * and gets nowhere. Told to about 1e-11 of the spread of the ends.
         */
        THREADED_AT_EDGE,

        /**
         * Only one-sided brackets, and the likelihood rises as the scale grows without end: low ends lie where high ends
         * should, as if the response ran the wrong way.
         */
        SCALE_UNBOUNDED,

        /**
         * No line threads all brackets, so that a maximum exists on paper; but around it the likelihood is level to double
         * precision along some direction. Readings at one place that differ by little fix a small scale, beside which the
         * brackets elsewhere are so wide that any line inside them is as likely as another.
         */
        FLAT
    }

    /**
     * How the search ended.
     *
     * @param iterations the number of Newton steps
     * @param gradient the largest slope left of the log-likelihood, by weight, in the scaled parameters of the search
     */
    record Convergence(int iterations, double gradient) implements Serializable {}

    /** The maximum of the likelihood. */
    final class Maximum implements IntervalFit {
        private static final long serialVersionUID = 1L;

        private final double[] coefficients;
        private final double scale;
        private final double[][] covariance;
        private final double logLikelihood;
        private final Convergence convergence;

        Maximum(
                double[] coefficients,
                double scale,
                double[][] covariance,
                double logLikelihood,
                Convergence convergence) {
            this.coefficients = coefficients;
            this.scale = scale;
            this.covariance = covariance;
            this.logLikelihood = logLikelihood;
            this.convergence = convergence;
        }

        /** {@return the coefficients, one per column of the design} */
        public double[] coefficients() {
            return coefficients.clone();
        }

        /**
         * A coefficient.
         *
         * @param column the column of the design, from 0
         * @return its coefficient
         */
        public double coefficient(int column) {
            return coefficients[checked(column)];
        }

        /**
         * The scale, that is the standard deviation of the scatter. Maximum likelihood divides by n: with all brackets
         * points it is sqrt((n - p)/n) times the residual standard deviation of least squares.
         *
         * @return the scale, in the unit of the ends
         */
        public double scale() {
            return scale;
        }

        /**
         * The covariance of the coefficients and, last, of the natural logarithm of the scale: the inverse of the observed
         * information.
         *
         * @return a matrix with one row more than there are coefficients
         */
        public double[][] covariance() {
            return Arrays.stream(covariance).map(double[]::clone).toArray(double[][]::new);
        }

        /**
         * The standard error of a coefficient.
         *
         * @param column the column of the design, from 0
         * @return its standard error, from the observed information
         */
        public double standardError(int column) {
            return Math.sqrt(covariance[checked(column)][column]);
        }

        /** {@return the standard error of the natural logarithm of the scale} */
        public double standardErrorOfLogScale() {
            int last = coefficients.length;
            return Math.sqrt(covariance[last][last]);
        }

        /**
         * The weighted sum of log(Phi(b) - Phi(a)) over brackets and of the log density over points, as the
         * {@code survreg} of R counts it.
         *
         * @return the log-likelihood
         */
        public double logLikelihood() {
            return logLikelihood;
        }

        /** {@return how the search ended} */
        public Convergence convergence() {
            return convergence;
        }

        /**
         * The height of the fitted line at a row of the design.
         *
         * @param row a row, one value per coefficient
         * @return the sum of value x coefficient
         */
        public double valueAt(double... row) {
            checkLength(row);
            double sum = 0;
            for (int j = 0; j < row.length; j++) {
                sum += row[j] * coefficients[j];
            }
            return sum;
        }

        /**
         * The standard error of {@link #valueAt}.
         *
         * @param row a row, one value per coefficient
         * @return the standard error of the height of the line there
         */
        public double standardErrorAt(double... row) {
            checkLength(row);
            double sum = 0;
            for (int j = 0; j < row.length; j++) {
                for (int k = 0; k < row.length; k++) {
                    sum += row[j] * covariance[j][k] * row[k];
                }
            }
            return Math.sqrt(Math.max(0, sum));
        }

        private void checkLength(double[] row) {
            if (row.length != coefficients.length) {
                throw new RejectedValueException(
                        "row",
                        Arrays.toString(row),
                        "has " + row.length + " values",
                        coefficients.length + " values",
                        "give one value per coefficient");
            }
        }

        private int checked(int column) {
            if (column < 0 || column >= coefficients.length) {
                throw new RejectedValueException(
                        "column",
                        Integer.toString(column),
                        "is not a column of the design",
                        "0 to " + (coefficients.length - 1),
                        "give the position of a coefficient");
            }
            return column;
        }

        @Override
        public <R> R match(Cases<R> cases) {
            return cases.maximum(this);
        }

        @Override
        public Optional<Maximum> maximum() {
            return Optional.of(this);
        }

        @Override
        public boolean equals(@Nullable Object other) {
            return other instanceof Maximum fit
                    && Arrays.equals(fit.coefficients, coefficients)
                    && fit.scale == scale
                    && Arrays.deepEquals(fit.covariance, covariance)
                    && fit.logLikelihood == logLikelihood
                    && fit.convergence.equals(convergence);
        }

        @Override
        public int hashCode() {
            return 31 * Arrays.hashCode(coefficients) + Double.hashCode(scale);
        }

        /** {@return coefficients, scale and log-likelihood, for a log} */
        @Override
        public String toString() {
            return "coefficients " + Arrays.toString(coefficients) + ", scale " + scale + ", log-likelihood "
                    + logLikelihood + ", " + convergence.iterations + " iterations";
        }
    }

    /**
     * There is no single maximum.
     *
     * @param reason why
     * @param throughPoints whether a line threads all brackets and some of them are points: then the likelihood itself
     *     grows without end
     */
    record NoMaximum(Reason reason, boolean throughPoints) implements IntervalFit {
        /**
         * Checks the parts.
         *
         * @param reason why
         * @param throughPoints whether a threading line passes through points
         */
        public NoMaximum {
            requireNonNull(reason, "reason");
        }

        /**
         * What the log-likelihood tends to, where that is plain: 0 when threaded with room, infinity when the threading
         * line passes through points.
         *
         * @return the supremum, or empty where it is some number below 0 or is reached along a whole line
         */
        public OptionalDouble supremum() {
            if (throughPoints) {
                return OptionalDouble.of(Double.POSITIVE_INFINITY);
            }
            return reason == Reason.THREADED_WITH_ROOM ? OptionalDouble.of(0) : OptionalDouble.empty();
        }

        @Override
        public <R> R match(Cases<R> cases) {
            return cases.noMaximum(this);
        }

        @Override
        public Optional<Maximum> maximum() {
            return Optional.empty();
        }
    }
}
