package dev.lash.trend;

import static java.lang.Double.NEGATIVE_INFINITY;
import static java.lang.Double.POSITIVE_INFINITY;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lash.testing.Contracts;
import dev.lash.trend.IntervalFit.Maximum;
import dev.lash.trend.IntervalFit.NoMaximum;
import dev.lash.trend.IntervalFit.Reason;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class IntervalRegressionTest {
    private static final double[] USAGE = {0, 1, 2, 3};

    private static double[] all(double value) {
        double[] made = new double[USAGE.length];
        Arrays.fill(made, value);
        return made;
    }

    private static double[] of(double... values) {
        return values;
    }

    private static IntervalRegression mean(double[] lower, double[] upper) {
        double[][] ones = new double[lower.length][];
        Arrays.setAll(ones, i -> of(1));
        return IntervalRegression.of(ones, lower, upper);
    }

    private static void hasNone(IntervalRegression model, Reason reason, boolean throughPoints) {
        assertThat(model.fit()).isEqualTo(new NoMaximum(reason, throughPoints));
        assertThat(model.fit().maximum()).isEmpty();
    }

    // ---- no maximum, each kind

    @Test
    void allBracketsEqual() {
        hasNone(IntervalRegression.line(USAGE, all(1), all(2)), Reason.THREADED_WITH_ROOM, false);
    }

    @Test
    void oneCheck() {
        hasNone(IntervalRegression.line(of(5), of(1), of(2)), Reason.RANK, false);
        hasNone(mean(of(1), of(2)), Reason.THREADED_WITH_ROOM, false);
        hasNone(mean(of(1), of(1)), Reason.THREADED_WITH_ROOM, true);
    }

    @Test
    void identicalUsages() {
        hasNone(IntervalRegression.line(all(7), of(1, 2, 3, 1), of(2, 3, 4, 1)), Reason.RANK, false);
    }

    @Test
    void noEndsAtAll() {
        hasNone(IntervalRegression.line(USAGE, all(NEGATIVE_INFINITY), all(POSITIVE_INFINITY)), Reason.RANK, false);
    }

    @Test
    void rowsWithoutEndsDoNotSpan() {
        double[] lower = of(1, NEGATIVE_INFINITY, NEGATIVE_INFINITY, NEGATIVE_INFINITY);
        double[] upper = of(2, POSITIVE_INFINITY, POSITIVE_INFINITY, POSITIVE_INFINITY);
        hasNone(IntervalRegression.line(USAGE, lower, upper), Reason.RANK, false);
    }

    @Test
    void aColumnOfZerosDoesNotSpan() {
        hasNone(IntervalRegression.of(new double[][] {{0}, {0}}, of(1, 2), of(2, 3)), Reason.RANK, false);
    }

    @Test
    void pointsOnALineOnly() {
        hasNone(
                IntervalRegression.line(USAGE, of(.1, .2, .3, .4), of(.1, .2, .3, .4)),
                Reason.THREADED_WITH_ROOM,
                true);
        assertThat(new NoMaximum(Reason.THREADED_WITH_ROOM, true).supremum()).hasValue(POSITIVE_INFINITY);
        assertThat(new NoMaximum(Reason.THREADED_WITH_ROOM, false).supremum()).hasValue(0);
        assertThat(new NoMaximum(Reason.THREADED_AT_EDGE, false).supremum()).isEmpty();
    }

    @Test
    void pointsAndBracketsOnALine() {
        hasNone(IntervalRegression.line(USAGE, of(.1, .2, .2, .4), of(.1, .2, .4, .6)), Reason.THREADED_AT_EDGE, true);
        hasNone(
                IntervalRegression.line(USAGE, of(.1, .2, .2, .3), of(.1, .2, .4, .6)),
                Reason.THREADED_WITH_ROOM,
                true);
    }

    @Test
    void threadedAtTheEdge() {
        hasNone(mean(of(0, 1), of(1, 2)), Reason.THREADED_AT_EDGE, false);
        hasNone(IntervalRegression.line(USAGE, of(0, 1, 0, 0), of(1, 2, 1, 3)), Reason.THREADED_AT_EDGE, false);
    }

    @Test
    void endsOnOneSide() {
        hasNone(IntervalRegression.line(USAGE, of(0, 1, 0, 0), all(POSITIVE_INFINITY)), Reason.ONE_SIDED, false);
        hasNone(IntervalRegression.line(USAGE, all(NEGATIVE_INFINITY), of(0, 1, 0, 0)), Reason.ONE_SIDED, false);
    }

    /** The level of a segment with nothing but lower ends runs off, whatever the other segment says. */
    @Test
    void aSegmentWithEndsOnOneSide() {
        double[][] design = {{1, 0, 0}, {1, 0, 1}, {1, 0, 2}, {1, 0, 3}, {0, 1, 4}, {0, 1, 5}};
        hasNone(
                IntervalRegression.of(
                        design, of(1, 3, 1, 2, 1, 2), of(2, 4, 2, 4, POSITIVE_INFINITY, POSITIVE_INFINITY)),
                Reason.ONE_SIDED,
                false);
    }

    @Test
    void completeSeparationThreads() {
        hasNone(
                mean(of(1, 2, NEGATIVE_INFINITY, NEGATIVE_INFINITY), of(POSITIVE_INFINITY, POSITIVE_INFINITY, 3, 4)),
                Reason.THREADED_WITH_ROOM,
                false);
    }

    @Test
    void responsesTheWrongWayRound() {
        hasNone(
                mean(of(3, 4, NEGATIVE_INFINITY, NEGATIVE_INFINITY), of(POSITIVE_INFINITY, POSITIVE_INFINITY, 1, 2)),
                Reason.SCALE_UNBOUNDED,
                false);
    }

    @Test
    void singleEndsOnALineSayNothingOfTheScale() {
        hasNone(mean(of(1, 1, NEGATIVE_INFINITY), of(POSITIVE_INFINITY, POSITIVE_INFINITY, 1)), Reason.RANK, false);
    }

    /** A point and a bracket at one usage miss each other by 0.026; beside that the bracket elsewhere is 1 wide. */
    @Test
    void aSmallScaleAndAWideBracketLeaveTheSlopeFlat() {
        hasNone(
                IntervalRegression.line(
                        of(5, 5, 0, 3), of(-.649, -1.675, 6.155, 1.308), of(-.649, -.675, 7.155, POSITIVE_INFINITY)),
                Reason.FLAT,
                false);
    }

    // ---- a maximum, in odd places

    /** A miss by 1e-9 has its maximum where the gain at the far ends balances the loss at the near ones: not at scale 0. */
    @Test
    void aLineThatMissesByLittle() {
        IntervalRegression model = mean(of(0, 1 + 1e-9), of(1, 2));
        Maximum fit = model.fit().maximum().orElseThrow();
        assertThat(fit.scale()).isBetween(0.1, 0.2);
        for (double factor : of(0.95, 1.05)) {
            assertThat(model.logLikelihood(fit.coefficients(), fit.scale() * factor))
                    .isLessThan(fit.logLikelihood());
        }
    }

    /** Once lost: so near the maximum, rounding hid the gain of the last step from the line search. */
    @Test
    void theLastStepGainsLessThanRounding() {
        double[] usage = of(0, 0, 6, 3, 8, 5);
        for (double shift : of(0, 0.01, 1, 7)) {
            Maximum fit = IntervalRegression.line(
                            usage,
                            of(shift, shift + 1, NEGATIVE_INFINITY, shift - 3, shift - 4, shift + 1),
                            of(shift + 1, shift + 1, shift - 1, shift - 2, POSITIVE_INFINITY, shift + 2))
                    .fit()
                    .maximum()
                    .orElseThrow();
            assertThat(fit.scale()).isCloseTo(1.54088312712755, within(1e-12));
        }
    }

    @Test
    void bracketsWithoutEndsChangeNothing() {
        Maximum alone = IntervalRegression.line(of(0, 1, 2, 4), of(1, 3, 1, 2), of(2, 4, 2, 4))
                .fit()
                .maximum()
                .orElseThrow();
        Maximum with = IntervalRegression.line(
                        of(0, 3, 1, 2, 4), of(1, NEGATIVE_INFINITY, 3, 1, 2), of(2, POSITIVE_INFINITY, 4, 2, 4))
                .fit()
                .maximum()
                .orElseThrow();
        assertThat(with).isEqualTo(alone);
    }

    @Test
    void weightsCountAsRepeats() {
        Maximum weighted = IntervalRegression.line(of(0, 1, 2, 4), of(1, 3, 1, 2), of(2, 4, 2, 4))
                .withWeights(2, 1, 3, 1)
                .fit()
                .maximum()
                .orElseThrow();
        Maximum repeated = IntervalRegression.line(
                        of(0, 0, 1, 2, 2, 2, 4), of(1, 1, 3, 1, 1, 1, 2), of(2, 2, 4, 2, 2, 2, 4))
                .fit()
                .maximum()
                .orElseThrow();
        for (int j = 0; j < 2; j++) {
            assertThat(weighted.coefficient(j)).isCloseTo(repeated.coefficient(j), within(1e-12));
            assertThat(weighted.standardError(j)).isCloseTo(repeated.standardError(j), within(1e-8));
        }
        assertThat(weighted.scale()).isCloseTo(repeated.scale(), within(1e-12));
        assertThat(weighted.logLikelihood()).isCloseTo(repeated.logLikelihood(), within(1e-12));
    }

    /** Weights a thousand million apart: the heavy rows decide, and the answer is still a maximum. */
    @Test
    void extremeWeights() {
        IntervalRegression model = IntervalRegression.line(of(0, 1, 2, 4, 5), of(1, 3, 1, 2, 9), of(2, 4, 2, 4, 9.5))
                .withWeights(1e9, 1e9, 1e9, 1e9, 1);
        Maximum fit = model.fit().maximum().orElseThrow();
        Maximum heavy = IntervalRegression.line(of(0, 1, 2, 4), of(1, 3, 1, 2), of(2, 4, 2, 4))
                .fit()
                .maximum()
                .orElseThrow();
        assertThat(fit.coefficient(1)).isCloseTo(heavy.coefficient(1), within(1e-6));
        assertThat(fit.scale()).isCloseTo(heavy.scale(), within(1e-6));
        assertThat(fit.standardError(1) * Math.sqrt(1e9)).isCloseTo(heavy.standardError(1), within(1e-6));
    }

    @Test
    void thousandsOfRows() {
        Random random = new Random(1);
        int rows = 5000;
        double[] usage = new double[rows];
        double[] lower = new double[rows];
        double[] upper = new double[rows];
        for (int i = 0; i < rows; i++) {
            usage[i] = i;
            lower[i] = Math.floor(200 - 0.02 * i + 10 * random.nextGaussian());
            upper[i] = lower[i] + 1 + i % 7;
        }
        Maximum fit =
                IntervalRegression.line(usage, lower, upper).fit().maximum().orElseThrow();
        assertThat(fit.coefficient(1)).isCloseTo(-0.02, within(4 * fit.standardError(1)));
        assertThat(fit.convergence().iterations()).isLessThan(10);
        // one row of width 0.5 in the way of a line is enough for thousands that are threaded
        Arrays.setAll(lower, i -> 199 - 0.02 * i);
        Arrays.setAll(upper, i -> 201 - 0.02 * i);
        hasNone(IntervalRegression.line(usage, lower, upper), Reason.THREADED_WITH_ROOM, false);
    }

    @ParameterizedTest
    @ValueSource(doubles = {1e-140, 1e-30, 1e-9, 1, 1e9, 1e30, 1e140})
    void hugeAndTinyUnits(double unit) {
        double[] lower = of(1, 3, 1, 2);
        double[] upper = of(2, 4, 2, 4);
        Maximum plain = IntervalRegression.line(of(0, 1, 2, 4), lower, upper)
                .fit()
                .maximum()
                .orElseThrow();
        Maximum scaled = IntervalRegression.line(
                        of(0, unit, 2 * unit, 4 * unit),
                        Arrays.stream(lower).map(v -> v / unit).toArray(),
                        Arrays.stream(upper).map(v -> v / unit).toArray())
                .fit()
                .maximum()
                .orElseThrow();
        close(scaled.coefficient(0) * unit, plain.coefficient(0));
        close(scaled.coefficient(1) * unit * unit, plain.coefficient(1));
        close(scaled.scale() * unit, plain.scale());
        close(scaled.logLikelihood(), plain.logLikelihood());
        close(scaled.standardErrorOfLogScale(), plain.standardErrorOfLogScale());
        hasNone(
                IntervalRegression.line(
                        of(0, unit, 2 * unit, 3 * unit),
                        of(0, 1 / unit, 0, 0),
                        of(1 / unit, 2 / unit, 1 / unit, 3 / unit)),
                Reason.THREADED_AT_EDGE,
                false);
    }

    private static void close(double actual, double expected) {
        assertThat(actual).isCloseTo(expected, within(1e-11 * Math.abs(expected)));
    }

    // ---- refusals, values

    @Test
    void refusals() {
        double[][] ones = {{1}, {1}};
        Contracts.refuses(() -> IntervalRegression.of(ones, of(1), of(2, 3)), "lower ends", "\"1\"", "2");
        Contracts.refuses(() -> IntervalRegression.of(ones, of(1, 2), of(2)), "upper ends", "\"1\"", "2");
        Contracts.refuses(() -> IntervalRegression.of(new double[0][], of(), of()), "design", "0 rows");
        Contracts.refuses(
                () -> IntervalRegression.of(new double[][] {{1}, {1, 2}}, of(1, 2), of(2, 3)), "row 1", "1 values");
        Contracts.refuses(() -> IntervalRegression.of(new double[][] {{1}, {Double.NaN}}, of(1, 2), of(2, 3)), "NaN");
        Contracts.refuses(() -> IntervalRegression.of(ones, of(1, 3), of(2, 2)), "row 1", "3.0 to 2.0");
        Contracts.refuses(() -> IntervalRegression.of(ones, of(1, Double.NaN), of(2, 2)), "row 1", "NaN");
        Contracts.refuses(() -> IntervalRegression.of(ones, of(1, 2), of(1, 1e200)), "upper end of row 1", "1.0E200");
        Contracts.refuses(() -> IntervalRegression.of(ones, of(1, -1e200), of(1, 1)), "lower end of row 1", "-1.0E200");
        Contracts.refuses(
                () -> IntervalRegression.of(ones, of(1, POSITIVE_INFINITY), of(1, POSITIVE_INFINITY)), "row 1");
        IntervalRegression model = IntervalRegression.of(ones, of(1, 3), of(2, 4));
        Contracts.refuses(() -> model.withWeights(1, 0), "weight", "0.0");
        Contracts.refuses(() -> model.withWeights(1), "weights", "\"1\"", "2");
        Contracts.refuses(() -> model.withWeights(1, 1e10), "span", "1.0E10");
        Contracts.refuses(() -> model.logLikelihood(of(1, 2), 1), "coefficients", "1");
        Contracts.refuses(() -> model.logLikelihood(of(Double.NaN), 1), "coefficient", "NaN");
        Contracts.refuses(() -> model.logLikelihood(of(1), 0), "scale", "0.0");
        Maximum fit = model.fit().maximum().orElseThrow();
        Contracts.refuses(() -> fit.standardError(1), "column", "\"1\"", "0 to 0");
        Contracts.refuses(() -> fit.coefficient(-1), "column", "\"-1\"", "0 to 0");
        Contracts.refuses(() -> fit.valueAt(1, 2), "row", "2 values");
        Contracts.refuseNull(
                () -> IntervalRegression.of(null, of(1), of(1)),
                () -> IntervalRegression.of(ones, null, of(1, 1)),
                () -> IntervalRegression.of(ones, of(1, 1), null),
                () -> model.withWeights((double[]) null),
                () -> model.logLikelihood(null, 1),
                () -> new NoMaximum(null, false));
    }

    @Test
    void values() {
        IntervalRegression model = mean(of(1, 3), of(2, 4));
        Contracts.equality(
                model,
                mean(of(1, 3), of(2, 4)),
                List.of(mean(of(1, 2), of(2, 4)), mean(of(1, 3), of(2, 5)), model.withWeights(1, 2)));
        Contracts.serialises(model);
        Maximum fit = model.fit().maximum().orElseThrow();
        Contracts.equality(
                fit,
                mean(of(1, 3), of(2, 4)).fit(),
                List.of(mean(of(1, 4), of(2, 6)).fit()));
        Contracts.serialises(fit);
        Contracts.serialises(new NoMaximum(Reason.RANK, false));
        assertThat(model).hasToString("2 rows, 1 coefficients");
        assertThat(fit.coefficient(0)).isCloseTo(2.5, within(1e-12));
        assertThat(fit.standardErrorAt(2)).isCloseTo(2 * fit.standardError(0), within(1e-12));
    }

    @Test
    void whatIsHandedInOrOutCanBeChangedWithoutHarm() {
        double[] lower = of(1, 3);
        IntervalRegression model = mean(lower, of(2, 4));
        lower[0] = 2;
        assertThat(model).isEqualTo(mean(of(1, 3), of(2, 4)));
        Maximum fit = model.fit().maximum().orElseThrow();
        fit.coefficients()[0] = 9;
        fit.covariance()[0][0] = 9;
        assertThat(fit).isEqualTo(model.fit());
    }

    @Test
    void cases() {
        IntervalFit.Cases<String> names = new IntervalFit.Cases<>() {
            @Override
            public String maximum(Maximum fit) {
                return "maximum";
            }

            @Override
            public String noMaximum(NoMaximum fit) {
                return fit.reason().name();
            }
        };
        assertThat(mean(of(1, 3), of(2, 4)).fit().match(names)).isEqualTo("maximum");
        assertThat(mean(of(1, 1), of(2, 2)).fit().match(names)).isEqualTo("THREADED_WITH_ROOM");
    }
}
