package dev.lash.trend;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lash.trend.IntervalFit.Maximum;
import dev.lash.trend.IntervalFit.NoMaximum;
import dev.lash.trend.IntervalFit.Reason;
import java.util.Arrays;
import java.util.Optional;
import java.util.Random;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.ShrinkingMode;
import net.jqwik.api.statistics.Statistics;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.MatrixUtils;

/** Laws of the likelihood and of its maximum. */
class IntervalRegressionProperties {
    /** A straight line through brackets of every kind, on few or many places; often one that has no maximum. */
    static final class Data {
        private final double[][] arrays;

        Data(double[][] arrays) {
            this.arrays = arrays;
        }

        double[] usage() {
            return arrays[0];
        }

        double[] lower() {
            return arrays[1];
        }

        double[] upper() {
            return arrays[2];
        }

        @Override
        public String toString() {
            return Arrays.deepToString(arrays);
        }

        IntervalRegression model() {
            return IntervalRegression.line(usage(), lower(), upper());
        }
    }

    @Provide
    Arbitrary<Data> data() {
        return Arbitraries.randomValue(IntervalRegressionProperties::make);
    }

    private static Data make(Random random) {
        int rows = 3 + random.nextInt(12);
        double[][] made = new double[3][rows];
        double grid = random.nextInt(3);
        double spread = new double[] {0.1, 1, 4}[random.nextInt(3)];
        int single = random.nextInt(5);
        for (int i = 0; i < rows; i++) {
            made[0][i] = random.nextInt(9);
            double y = 5 - made[0][i] + spread * random.nextGaussian();
            double low = grid == 0 ? Math.round(1e3 * (y - random.nextDouble())) / 1e3 : grid * Math.floor(y / grid);
            double high = random.nextInt(6) == 0 ? low : low + (grid == 0 ? 1 : grid);
            boolean one = random.nextInt(5) < single;
            boolean first = random.nextBoolean();
            made[1][i] = one && first ? Double.NEGATIVE_INFINITY : low;
            made[2][i] = one && !first ? Double.POSITIVE_INFINITY : high;
        }
        return new Data(made);
    }

    private static double at(IntervalRegression model, double[] p) {
        return model.logLikelihood(new double[] {p[0], p[1]}, Math.exp(p[2]));
    }

    /** Slopes of 0 and the observed information, by differences of the likelihood that is written down plainly. */
    @Property(tries = 1000, shrinking = ShrinkingMode.OFF)
    void theMaximumIsFlatAndItsCovarianceInvertsTheCurvature(@ForAll("data") Data data) {
        IntervalFit fit = data.model().fit();
        fit.match(new IntervalFit.Cases<Void>() {
            @Override
            public Void maximum(Maximum m) {
                Statistics.collect("maximum");
                return null;
            }

            @Override
            public Void noMaximum(NoMaximum none) {
                Statistics.collect(none.reason());
                return null;
            }
        });
        if (fit.maximum().isEmpty()) {
            return;
        }
        Maximum found = fit.maximum().get();
        if (found.standardError(0) > 3 * found.scale() || found.standardError(1) > 3 * found.scale()) {
            // too far from a parabola for differences
            return;
        }
        double[] p = {found.coefficient(0), found.coefficient(1), Math.log(found.scale())};
        // along the columns of the covariance's root the curvature is 1 and crosswise 0, however correlated the
        // parameters are
        double[][] root = new CholeskyDecomposition(MatrixUtils.createRealMatrix(found.covariance()), 1e-12, 1e-300)
                .getL()
                .transpose()
                .getData();
        double h = 2e-4;
        for (int j = 0; j < 3; j++) {
            double[] along = root[j];
            double near = at(data.model(), moved(p, h, along)) - at(data.model(), moved(p, -h, along));
            double far = at(data.model(), moved(p, 2 * h, along)) - at(data.model(), moved(p, -2 * h, along));
            // by the rule of five points
            assertThat((8 * near - far) / (12 * h)).as("slope %d", j).isCloseTo(0, within(1e-6));
            for (int k = 0; k < 3; k++) {
                double curvature =
                        (4 * curvature(data, p, h, along, root[k]) - curvature(data, p, 2 * h, along, root[k])) / 3;
                assertThat(curvature).as("%d, %d", j, k).isCloseTo(j == k ? 1 : 0, within(1e-3));
            }
        }
        assertThat(at(data.model(), p))
                .isCloseTo(found.logLikelihood(), within(1e-9 * (1 + Math.abs(found.logLikelihood()))));
    }

    /** Minus the second difference along one direction and another. */
    private static double curvature(Data data, double[] p, double h, double[] one, double[] other) {
        double[] up = moved(p, h, one);
        double[] down = moved(p, -h, one);
        return -(at(data.model(), moved(up, h, other))
                        - at(data.model(), moved(up, -h, other))
                        - at(data.model(), moved(down, h, other))
                        + at(data.model(), moved(down, -h, other)))
                / (4 * h * h);
    }

    private static double[] moved(double[] p, double by, double[] along) {
        double[] made = p.clone();
        for (int i = 0; i < made.length; i++) {
            made[i] += by * along[i];
        }
        return made;
    }

    @Property(tries = 1000, shrinking = ShrinkingMode.OFF)
    void concaveInCoefficientsOverScaleAndOneOverScale(@ForAll("data") Data data, @ForAll Random random) {
        double[][] ends = new double[2][];
        Arrays.setAll(
                ends, i -> new double[] {
                    5 + 5 * random.nextGaussian(), 2 * random.nextGaussian(), Math.exp(random.nextGaussian())
                });
        double[] middle = new double[3];
        Arrays.setAll(middle, j -> 0.5 * (ends[0][j] + ends[1][j]));
        double mean = 0.5 * (inThose(data.model(), ends[0]) + inThose(data.model(), ends[1]));
        assertThat(inThose(data.model(), middle)).isGreaterThanOrEqualTo(mean - 1e-10 * Math.abs(mean));
    }

    private static double inThose(IntervalRegression model, double[] theta) {
        return model.logLikelihood(new double[] {theta[0] / theta[2], theta[1] / theta[2]}, 1 / theta[2]);
    }

    /** Whatever the data: a maximum that no nearby or far line beats, or a reason. */
    @Property(tries = 1000, shrinking = ShrinkingMode.OFF)
    void nothingBeatsTheMaximum(@ForAll("data") Data data, @ForAll Random random) {
        Optional<Maximum> fit = data.model().fit().maximum();
        for (int i = 0; fit.isPresent() && i < 20; i++) {
            double reach = Math.pow(10, -random.nextInt(4));
            double other = data.model()
                    .logLikelihood(
                            new double[] {
                                fit.get().coefficient(0) + reach * random.nextGaussian(),
                                fit.get().coefficient(1) + reach * random.nextGaussian()
                            },
                            fit.get().scale() * Math.exp(reach * random.nextGaussian()));
            assertThat(other).isLessThanOrEqualTo(fit.get().logLikelihood() + 1e-9);
        }
    }

    @Property(tries = 1000, shrinking = ShrinkingMode.OFF)
    void movesWithShiftAndScale(@ForAll("data") Data data, @ForAll Random random) {
        double unit = Math.pow(10, random.nextInt(13) - 6);
        double usageUnit = Math.pow(10, random.nextInt(13) - 6);
        double shift = random.nextInt(100);
        double tilt = random.nextInt(7) - 3;
        double[] usage = data.usage();
        IntervalRegression moved = IntervalRegression.line(
                Arrays.stream(usage).map(u -> u * usageUnit).toArray(),
                moved(data.lower(), usage, unit, shift, tilt),
                moved(data.upper(), usage, unit, shift, tilt));
        IntervalFit plain = data.model().fit();
        IntervalFit other = moved.fit();
        if (isFlat(plain) || isFlat(other)) {
            // rounding decides between flat and next to flat
            IntervalFit steep = isFlat(plain) ? other : plain;
            double width = isFlat(plain) ? 10 * usageUnit : 10;
            steep.maximum()
                    .ifPresent(m -> assertThat(m.standardError(0) + width * m.standardError(1))
                            .isGreaterThan(1e5 * m.scale()));
            assertThat(steep.maximum().isPresent() || isFlat(steep)).isTrue();
            return;
        }
        if (plain instanceof NoMaximum) {
            assertThat(other).isEqualTo(plain);
            return;
        }
        Maximum a = plain.maximum().orElseThrow();
        Maximum b = other.maximum().orElseThrow();
        // the ends are rounded where they are moved to, which counts the more the flatter the top is
        double rounding = 1e-12 * Math.pow((a.standardError(0) + 10 * a.standardError(1)) / a.scale(), 2);
        assertThat(b.scale() / unit).isCloseTo(a.scale(), within((1e-7 + rounding) * a.scale()));
        assertThat(b.coefficient(0) / unit)
                .isCloseTo(a.coefficient(0) + shift, within((1e-7 + rounding) * a.standardError(0) + 1e-9));
        assertThat(b.coefficient(1) * usageUnit / unit)
                .isCloseTo(a.coefficient(1) + tilt, within((1e-7 + rounding) * a.standardError(1) + 1e-9));
        assertThat(b.standardError(1) * usageUnit / unit)
                .isCloseTo(a.standardError(1), within((1e-6 + rounding) * a.standardError(1)));
    }

    private static boolean isFlat(IntervalFit fit) {
        return fit instanceof NoMaximum none && none.reason() == Reason.FLAT;
    }

    private static double[] moved(double[] ends, double[] usage, double unit, double shift, double tilt) {
        double[] made = new double[ends.length];
        Arrays.setAll(made, i -> (ends[i] + shift + tilt * usage[i]) * unit);
        return made;
    }

    /** A power of two is no rounding: every digit stays. */
    @Property(tries = 300, shrinking = ShrinkingMode.OFF)
    void powersOfTwoChangeNoDigit(@ForAll("data") Data data) {
        IntervalRegression scaled = IntervalRegression.line(
                Arrays.stream(data.usage()).map(u -> u * 0x1p40).toArray(),
                Arrays.stream(data.lower()).map(u -> u * 0x1p-30).toArray(),
                Arrays.stream(data.upper()).map(u -> u * 0x1p-30).toArray());
        IntervalFit plain = data.model().fit();
        IntervalFit other = scaled.fit();
        assertThat(other.maximum().isPresent()).isEqualTo(plain.maximum().isPresent());
        plain.maximum().ifPresent(a -> {
            Maximum b = other.maximum().orElseThrow();
            assertThat(b.scale() * 0x1p30).isEqualTo(a.scale());
            assertThat(b.coefficient(1) * 0x1p70).isEqualTo(a.coefficient(1));
        });
    }

    /** The exact lines and the likelihood agree on whether brackets are threaded. */
    @Property(tries = 1000, shrinking = ShrinkingMode.OFF)
    void threadedJustWhenAnExactLineExists(@ForAll("data") Data data) {
        IntervalFit fit = data.model().fit();
        if (fit instanceof NoMaximum none && (none.reason() == Reason.RANK || none.reason() == Reason.ONE_SIDED)) {
            return;
        }
        FeasibleLines lines = ExactLines.of(data.usage(), data.lower(), data.upper());
        Statistics.collect(!lines.exist() ? "no line" : lines.haveRoom() ? "room" : "edge");
        if (lines.exist()) {
            assertThat(fit).isInstanceOf(NoMaximum.class);
            assertThat(((NoMaximum) fit).reason())
                    .isEqualTo(lines.haveRoom() ? Reason.THREADED_WITH_ROOM : Reason.THREADED_AT_EDGE);
        } else {
            Optional<Reason> reason = fit instanceof NoMaximum none ? Optional.of(none.reason()) : Optional.empty();
            assertThat(reason).isIn(Optional.empty(), Optional.of(Reason.SCALE_UNBOUNDED), Optional.of(Reason.FLAT));
        }
    }
}
