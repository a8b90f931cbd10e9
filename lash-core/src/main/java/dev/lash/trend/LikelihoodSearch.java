package dev.lash.trend;

import dev.lash.trend.IntervalFit.Convergence;
import dev.lash.trend.IntervalFit.Maximum;
import dev.lash.trend.IntervalFit.NoMaximum;
import dev.lash.trend.IntervalFit.Reason;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * One maximisation of the likelihood of an {@link IntervalRegression}; used once, by one thread.
 *
 * <p>Scaled first: columns orthogonal, with mean square 1; ends relative to the least-squares line through middles and
 * single ends, over the root mean square of what is left. The parameters of the search are theta = (coefficients of that
 * design / scale, 1/scale), the start is that line with scale 1.
 */
final class LikelihoodSearch {
    private static final double SPANNED = 1e-12;
    private static final double FLAT = 1e-13;
    private static final double SMALL_STEP = 1e-8;
    private static final double SURE_STEP = 1e-4;
    private static final double SMALL_PIVOT = 1e-13;
    private static final double SMALL_GAIN = 1e-13;
    private static final int PATIENCE = 25;
    private static final int MOST_STEPS = 200;
    private static final int MOST_HALVINGS = 30;

    private static final byte POINT = 0;
    private static final byte BRACKET = 1;
    private static final byte LOW_END = 2;
    private static final byte HIGH_END = 3;

    private final int columns;
    private final int size;
    private final int rows;
    private final byte[] kind;
    /** Row by row, orthogonal. */
    private final double[] design;
    /** Middle of a bracket, or its only end. */
    private final double[] middle;

    private final double[] width;
    private final double[] weight;
    private final double meanWeight;

    /** The columns as they were, over 2 to the power of columnExponent, are design x triangle. */
    private final double[][] triangle;

    private final int[] columnExponent;
    private final double[] line;
    private int endExponent;
    private double unit;
    private double tolerance;

    private final NormalLaw law = new NormalLaw();
    private final double[] theta;
    private final double[] trial;
    private final double[] step;
    private double value;
    private final double[] slope;
    /** Minus the second derivatives, then their Cholesky factor below and on the diagonal. */
    private final double[][] information;

    private final double[][] factor;
    private boolean inside;

    LikelihoodSearch(double[][] given, double[] lower, double[] upper, double[] weights) {
        columns = given[0].length;
        size = columns + 1;
        int most = given.length;
        kind = new byte[most];
        design = new double[most * columns];
        middle = new double[most];
        width = new double[most];
        weight = new double[most];
        int used = 0;
        double sum = 0;
        for (int i = 0; i < most; i++) {
            boolean hasLower = lower[i] != Double.NEGATIVE_INFINITY;
            boolean hasUpper = upper[i] != Double.POSITIVE_INFINITY;
            if (!hasLower && !hasUpper) {
                continue;
            }
            System.arraycopy(given[i], 0, design, used * columns, columns);
            weight[used] = weights[i];
            sum += weights[i];
            if (hasLower && hasUpper) {
                width[used] = upper[i] - lower[i];
                middle[used] = lower[i] + 0.5 * width[used];
                kind[used] = width[used] > 0 ? BRACKET : POINT;
            } else {
                middle[used] = hasLower ? lower[i] : upper[i];
                kind[used] = hasLower ? LOW_END : HIGH_END;
            }
            used++;
        }
        rows = used;
        meanWeight = sum / Math.max(1, rows);
        for (int i = 0; i < rows; i++) {
            weight[i] /= meanWeight;
        }
        triangle = new double[columns][columns];
        columnExponent = new int[columns];
        line = new double[columns];
        theta = new double[size];
        trial = new double[size];
        step = new double[size];
        slope = new double[size];
        information = new double[size][size];
        factor = new double[size][size];
    }

    IntervalFit run() {
        if (!orthogonalise()) {
            return none(Reason.RANK);
        }
        centre();
        boolean isOneSided = !twoEndedRowsSpan() && someCoefficientsRunOff();
        if (isOneSided) {
            return none(Reason.ONE_SIDED);
        }
        if (unit == 0) {
            return flat();
        }
        if (!hasTwoEndedRows() && scaleRunsOff()) {
            return none(Reason.SCALE_UNBOUNDED);
        }
        return maximise();
    }

    private static IntervalFit none(Reason reason) {
        return new NoMaximum(reason, false);
    }

    // ---- scaling

    /** Modified Gram and Schmidt, each column twice. Whether the rows span all columns. */
    private boolean orthogonalise() {
        if (rows < columns) {
            return false;
        }
        for (int j = 0; j < columns; j++) {
            double largest = 0;
            for (int i = 0; i < rows; i++) {
                largest = Math.max(largest, Math.abs(design[i * columns + j]));
            }
            if (largest == 0) {
                return false;
            }
            columnExponent[j] = Math.getExponent(largest);
            double square = 0;
            for (int i = j; i < rows * columns; i += columns) {
                design[i] = Math.scalb(design[i], -columnExponent[j]);
                square += design[i] * design[i];
            }
            double before = Math.sqrt(square / rows);
            for (int pass = 0; pass < 2; pass++) {
                for (int k = 0; k < j; k++) {
                    double share = 0;
                    for (int i = 0; i < rows * columns; i += columns) {
                        share += design[i + k] * design[i + j];
                    }
                    share /= rows;
                    for (int i = 0; i < rows * columns; i += columns) {
                        design[i + j] -= share * design[i + k];
                    }
                    triangle[k][j] += share;
                }
            }
            square = 0;
            for (int i = j; i < rows * columns; i += columns) {
                square += design[i] * design[i];
            }
            double after = Math.sqrt(square / rows);
            if (after <= SPANNED * before) {
                return false;
            }
            triangle[j][j] = after;
            for (int i = j; i < rows * columns; i += columns) {
                design[i] /= after;
            }
        }
        return true;
    }

    /** Takes the ends relative to the least-squares line, over the root mean square of what is left. */
    private void centre() {
        double largest = 0;
        for (int i = 0; i < rows; i++) {
            largest = Math.max(largest, Math.max(Math.abs(middle[i]), width[i]));
        }
        endExponent = largest == 0 ? 0 : Math.getExponent(largest);
        for (int i = 0; i < rows; i++) {
            middle[i] = Math.scalb(middle[i], -endExponent);
            width[i] = Math.scalb(width[i], -endExponent);
        }
        for (int pass = 0; pass < 2; pass++) {
            for (int j = 0; j < columns; j++) {
                double share = 0;
                for (int i = 0; i < rows; i++) {
                    share += design[i * columns + j] * middle[i];
                }
                share /= rows;
                line[j] += share;
                for (int i = 0; i < rows; i++) {
                    middle[i] -= share * design[i * columns + j];
                }
            }
        }
        double sum = 0;
        for (int i = 0; i < rows; i++) {
            sum += middle[i] * middle[i] + width[i] * width[i] / 12;
        }
        unit = Math.sqrt(sum / rows);
        if (unit <= FLAT) {
            unit = 0;
            return;
        }
        tolerance = 1e-11 + 4e-15 / unit;
        for (int i = 0; i < rows; i++) {
            middle[i] /= unit;
            width[i] /= unit;
        }
    }

    // ---- is there a maximum?

    /** All points and single ends lie on one line, to rounding. */
    private IntervalFit flat() {
        boolean points = false;
        boolean single = false;
        for (int i = 0; i < rows; i++) {
            points |= kind[i] == POINT;
            single |= kind[i] == LOW_END || kind[i] == HIGH_END;
        }
        if (!hasTwoEndedRows()) {
            return none(Reason.RANK);
        }
        return new NoMaximum(single ? Reason.THREADED_AT_EDGE : Reason.THREADED_WITH_ROOM, points);
    }

    private boolean hasTwoEndedRows() {
        for (int i = 0; i < rows; i++) {
            if (kind[i] <= BRACKET) {
                return true;
            }
        }
        return false;
    }

    private boolean twoEndedRowsSpan() {
        boolean all = true;
        double[][] products = new double[columns][columns];
        for (int i = 0; i < rows; i++) {
            if (kind[i] > BRACKET) {
                all = false;
            } else {
                for (int j = 0; j < columns; j++) {
                    for (int k = 0; k <= j; k++) {
                        products[j][k] += design[i * columns + j] * design[i * columns + k] / rows;
                    }
                }
            }
        }
        return all || Cholesky.factor(products, products, columns, SPANNED);
    }

    /**
     * Whether a direction of coefficients leaves every two-ended row alone, moves no row with one end towards that end, and
     * some of them away. A linear programme: the sum of those moves, capped at 1.
     */
    private boolean someCoefficientsRunOff() {
        List<double[]> left = new ArrayList<>();
        double[] cap = new double[size];
        cap[columns] = 1;
        double[] sum = new double[size];
        sum[columns] = 1;
        left.add(cap);
        left.add(sum);
        for (int i = 0; i < rows; i++) {
            double[] towardsLow = signed(i, 1, 0);
            double[] towardsHigh = signed(i, -1, 0);
            if (kind[i] != HIGH_END) {
                left.add(towardsHigh);
            }
            if (kind[i] != LOW_END) {
                left.add(towardsLow);
            }
            if (kind[i] > BRACKET) {
                double[] away = kind[i] == LOW_END ? towardsHigh : towardsLow;
                for (int j = 0; j < columns; j++) {
                    sum[j] += away[j];
                }
            }
        }
        double[] right = new double[left.size()];
        right[0] = 1;
        Optional<double[]> best = LinearProgramme.solve(left.toArray(double[][]::new), right);
        return best.filter(y -> y[columns] > 0.5).isPresent();
    }

    private double[] signed(int row, double sign, double last) {
        double[] made = new double[size];
        for (int j = 0; j < columns; j++) {
            made[j] = sign * design[row * columns + j];
        }
        made[columns] = last;
        return made;
    }

    /** With single ends only: whether the likelihood falls as 1/scale leaves 0. */
    private boolean scaleRunsOff() {
        for (int i = 0; i < MOST_STEPS; i++) {
            evaluate(theta);
            Cholesky.factor(information, factor, columns, 0);
            double gain = Cholesky.solve(factor, slope, step, columns);
            double length = backtrack(gain, columns);
            double largest = 0;
            for (int j = 0; j < columns; j++) {
                largest = Math.max(largest, Math.abs(step[j]) / (1 + Math.abs(theta[j])));
            }
            if (length == 0 || largest < SMALL_STEP) {
                break;
            }
        }
        evaluate(theta);
        return slope[columns] <= SMALL_STEP;
    }

    /** Asks the linear programme of the widest margin; empty when no line threads all brackets. */
    private Optional<NoMaximum> threaded() {
        List<double[]> left = new ArrayList<>();
        List<Double> right = new ArrayList<>();
        double[] cap = new double[size];
        cap[columns] = 1;
        left.add(cap);
        right.add(1.0);
        boolean points = false;
        for (int i = 0; i < rows; i++) {
            // far less for a point than is asked of a margin, or the line could tilt about it to make one
            double slack = kind[i] == POINT ? 0.01 * tolerance : 0.5 * width[i];
            double margin = kind[i] == POINT ? 0 : 1;
            points |= kind[i] == POINT;
            if (kind[i] != LOW_END) {
                left.add(signed(i, 1, margin));
                right.add(middle[i] + slack);
            }
            if (kind[i] != HIGH_END) {
                left.add(signed(i, -1, margin));
                right.add(slack - middle[i]);
            }
        }
        double[] bounds = right.stream().mapToDouble(Double::doubleValue).toArray();
        Optional<double[]> best = LinearProgramme.solve(left.toArray(double[][]::new), bounds);
        if (best.isEmpty()) {
            return Optional.empty();
        }
        double margin = marginOf(best.get());
        if (margin < -2 * tolerance) {
            return Optional.empty();
        }
        return Optional.of(
                new NoMaximum(margin > 2 * tolerance ? Reason.THREADED_WITH_ROOM : Reason.THREADED_AT_EDGE, points));
    }

    /** How far inside the narrowest place a line runs; a point counts only when it is missed. */
    private double marginOf(double[] y) {
        double margin = 1;
        for (int i = 0; i < rows; i++) {
            double above = -middle[i];
            for (int j = 0; j < columns; j++) {
                above += design[i * columns + j] * y[j];
            }
            double room = switch (kind[i]) {
                case POINT -> Math.abs(above) <= 2 * tolerance ? 1 : -Math.abs(above);
                case BRACKET -> 0.5 * width[i] - Math.abs(above);
                case LOW_END -> above;
                default -> -above;
            };
            margin = Math.min(margin, room);
        }
        return margin;
    }

    // ---- the search

    private IntervalFit maximise() {
        theta[columns] = 1;
        evaluate(theta);
        boolean asked = false;
        for (int i = 1; i <= MOST_STEPS; i++) {
            if (inside) {
                return none(Reason.THREADED_WITH_ROOM);
            }
            boolean sound = Cholesky.factor(information, factor, size, SMALL_PIVOT);
            double gain = Cholesky.solve(factor, slope, step, size);
            double largest = 0;
            for (int j = 0; j < size; j++) {
                largest = Math.max(largest, Math.abs(step[j]) / (1 + Math.abs(theta[j])));
            }
            if (sound && largest <= SMALL_STEP) {
                return found(i, gain);
            }
            if (sound && largest <= SURE_STEP && gain <= SMALL_GAIN * (1 + Math.abs(value))) {
                // so near that rounding hides the gain: the line search would see noise
                for (int j = 0; j < size; j++) {
                    theta[j] += step[j];
                }
                evaluate(theta);
                continue;
            }
            boolean stalled = backtrack(gain, size) == 0;
            if (stalled || !sound || i == PATIENCE) {
                if (!asked) {
                    asked = true;
                    Optional<NoMaximum> none = threaded();
                    if (none.isPresent()) {
                        return none.get();
                    }
                }
                if (stalled) {
                    return sound && gain <= SMALL_GAIN * (1 + Math.abs(value)) ? found(i, gain) : none(Reason.FLAT);
                }
            }
        }
        return none(Reason.FLAT);
    }

    /**
     * Moves theta along the step, shortened until the likelihood gains enough (Armijo) and 1/scale stays positive, and
     * evaluates there. The share of the step taken; 0, and no move, when none gains.
     */
    private double backtrack(double gain, int free) {
        double share = 1;
        if (free == size && step[columns] < 0) {
            share = Math.min(1, -0.9 * theta[columns] / step[columns]);
        }
        double before = value;
        for (int h = 0; h < MOST_HALVINGS; h++) {
            for (int j = 0; j < size; j++) {
                trial[j] = theta[j] + (j < free ? share * step[j] : 0);
            }
            evaluate(trial);
            if (value >= before + 1e-4 * share * gain) {
                System.arraycopy(trial, 0, theta, 0, size);
                return share;
            }
            share *= 0.5;
        }
        evaluate(theta);
        return 0;
    }

    /** Sets value, slope, information and inside. */
    private void evaluate(double[] at) {
        double inverseScale = at[columns];
        double scale = inverseScale > 0 ? 1 / inverseScale : 0;
        double logInverseScale = inverseScale > 0 ? Math.log(inverseScale) : 0;
        double room = tolerance * inverseScale;
        for (int j = 0; j < size; j++) {
            slope[j] = 0;
            for (int k = 0; k <= j; k++) {
                information[j][k] = 0;
            }
        }
        boolean allInside = true;
        double sum = 0;
        for (int i = 0; i < rows; i++) {
            int row = i * columns;
            double m = inverseScale * middle[i];
            for (int j = 0; j < columns; j++) {
                m -= design[row + j] * at[j];
            }
            double log;
            switch (kind[i]) {
                case POINT -> {
                    law.point(m);
                    log = law.log + logInverseScale;
                    allInside = false;
                }
                case BRACKET -> {
                    double w = inverseScale * width[i];
                    law.between(m, w);
                    log = law.log;
                    allInside &= 0.5 * w - Math.abs(m) > room;
                }
                case LOW_END -> {
                    law.above(m);
                    log = law.log;
                    allInside &= -m > room;
                }
                default -> {
                    law.below(m);
                    log = law.log;
                    allInside &= m > room;
                }
            }
            double by = weight[i];
            sum += by * log;
            double dm = by * law.dm;
            double dmm = by * law.dmm;
            double c = middle[i];
            double mixed = c * dmm + by * law.wdmw * scale;
            for (int j = 0; j < columns; j++) {
                double x = design[row + j];
                slope[j] -= x * dm;
                for (int k = 0; k <= j; k++) {
                    information[j][k] -= x * design[row + k] * dmm;
                }
                information[columns][j] += x * mixed;
            }
            slope[columns] += c * dm + by * law.wdw * scale;
            information[columns][columns] -= c * c * dmm + by * scale * (2 * c * law.wdmw + scale * law.wwdww);
        }
        value = Double.isNaN(sum) ? Double.NEGATIVE_INFINITY : sum;
        inside = allInside;
    }

    // ---- the result, in the units given

    private IntervalFit found(int iterations, double gain) {
        double gradient = 0;
        for (int j = 0; j < size; j++) {
            theta[j] += step[j];
            gradient = Math.max(gradient, Math.abs(slope[j]));
        }
        double inverseScale = theta[columns];
        double[][] covariance = Cholesky.inverse(factor, size);

        // from theta to (height in the scaled design, log scale)
        double[][] jacobian = new double[size][size];
        double[] height = new double[columns];
        for (int j = 0; j < columns; j++) {
            height[j] = line[j] + unit * theta[j] / inverseScale;
            jacobian[j][j] = unit / inverseScale;
            jacobian[j][columns] = -unit * theta[j] / (inverseScale * inverseScale);
        }
        jacobian[columns][columns] = -1 / inverseScale;
        // and on to the columns as given
        for (int j = columns - 1; j >= 0; j--) {
            for (int k = j + 1; k < columns; k++) {
                height[j] -= triangle[j][k] * height[k];
                for (int l = 0; l < size; l++) {
                    jacobian[j][l] -= triangle[j][k] * jacobian[k][l];
                }
            }
            height[j] /= triangle[j][j];
            for (int l = 0; l < size; l++) {
                jacobian[j][l] /= triangle[j][j];
            }
        }
        double[] coefficients = new double[columns];
        for (int j = 0; j < columns; j++) {
            int exponent = endExponent - columnExponent[j];
            coefficients[j] = Math.scalb(height[j], exponent);
            for (int l = 0; l < size; l++) {
                jacobian[j][l] = Math.scalb(jacobian[j][l], exponent);
            }
        }
        double pointWeight = 0;
        for (int i = 0; i < rows; i++) {
            pointWeight += kind[i] == POINT ? weight[i] : 0;
        }
        double logUnit = Math.log(unit) + endExponent * Math.log(2);
        return new Maximum(
                coefficients,
                Math.scalb(unit / inverseScale, endExponent),
                transformed(covariance, jacobian),
                meanWeight * (value + 0.5 * gain - pointWeight * logUnit),
                new Convergence(iterations, gradient));
    }

    private double[][] transformed(double[][] covariance, double[][] jacobian) {
        double[][] made = new double[size][size];
        double[] half = new double[size];
        for (int j = 0; j < size; j++) {
            for (int l = 0; l < size; l++) {
                half[l] = 0;
                for (int k = 0; k < size; k++) {
                    half[l] += jacobian[j][k] * covariance[k][l];
                }
            }
            for (int k = 0; k <= j; k++) {
                double sum = 0;
                for (int l = 0; l < size; l++) {
                    sum += half[l] * jacobian[k][l];
                }
                made[j][k] = sum / meanWeight;
                made[k][j] = made[j][k];
            }
        }
        return made;
    }
}
