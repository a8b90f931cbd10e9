package dev.lash.trend;

import static java.lang.Double.NEGATIVE_INFINITY;
import static java.lang.Double.POSITIVE_INFINITY;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lash.trend.IntervalFit.Maximum;
import dev.lash.trend.IntervalFit.NoMaximum;
import dev.lash.trend.IntervalFit.Reason;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.numbers.gamma.Erfc;
import org.junit.jupiter.api.Test;

/** Published data, and wear cases of our own, with what R 4.2 and survival 3.5 make of them where no paper prints it. */
class PublishedRegressionsTest {
    private static void close(double actual, double expected) {
        assertThat(actual).isCloseTo(expected, within(1e-8 * Math.abs(expected)));
    }

    /** Where a value is recorded to ten digits or fewer. */
    private static void near(double actual, double expected) {
        assertThat(actual).isCloseTo(expected, within(2e-7 * Math.abs(expected)));
    }

    private static Maximum fit(IntervalRegression model) {
        return model.fit().maximum().orElseThrow();
    }

    private static double[][] mean(int rows) {
        double[][] ones = new double[rows][];
        Arrays.setAll(ones, i -> new double[] {1});
        return ones;
    }

    /** J. Tobin 1958, "Estimation of relationships for limited dependent variables", Econometrica 26; data set tobin of R. */
    @Test
    void tobin() {
        double[][] data = {
            {0, 57.7, 236}, {0.7, 50.9, 283}, {0, 48.5, 207}, {0, 41.7, 220}, {0, 47.7, 238},
            {0, 59.8, 216}, {0, 44.3, 284}, {3.7, 45.1, 221}, {0, 51.7, 275}, {3.0, 50.0, 269},
            {10.4, 46.8, 207}, {0, 58.0, 249}, {0, 58.9, 246}, {0, 40.0, 277}, {1.5, 34.1, 231},
            {0, 39.9, 219}, {0, 33.4, 240}, {3.5, 48.1, 266}, {6.1, 46.6, 214}, {0, 53.1, 251}
        };
        double[] lower = new double[data.length];
        double[] upper = new double[data.length];
        double[][] design = new double[data.length][];
        for (int i = 0; i < data.length; i++) {
            upper[i] = data[i][0];
            lower[i] = data[i][0] == 0 ? NEGATIVE_INFINITY : data[i][0];
            design[i] = new double[] {1, data[i][1], data[i][2]};
        }
        Maximum fit = fit(IntervalRegression.of(design, lower, upper));
        close(fit.coefficient(0), 15.1448663606815);
        close(fit.coefficient(1), -0.129059284097);
        close(fit.coefficient(2), -0.0455416629543);
        close(fit.scale(), 5.57253976309);
        near(fit.standardError(0), 16.079453195);
        near(fit.standardError(1), 0.218583597);
        near(fit.standardError(2), 0.058254115);
        near(fit.standardErrorOfLogScale(), 0.310322720);
        close(fit.logLikelihood(), -28.9401331997);
        close(fit(IntervalRegression.of(mean(data.length), lower, upper)).logLikelihood(), -29.4921995482);
    }

    /** Pass or fail at a threshold, as a go/no-go leaf does it. */
    private static IntervalRegression status(double[] threshold, int[] looked, int[] found) {
        List<Double> lower = new ArrayList<>();
        List<Double> upper = new ArrayList<>();
        List<Double> weights = new ArrayList<>();
        for (int i = 0; i < threshold.length; i++) {
            if (found[i] > 0) {
                lower.add(NEGATIVE_INFINITY);
                upper.add(threshold[i]);
                weights.add((double) found[i]);
            }
            if (looked[i] > found[i]) {
                lower.add(threshold[i]);
                upper.add(POSITIVE_INFINITY);
                weights.add((double) looked[i] - found[i]);
            }
        }
        return IntervalRegression.of(mean(lower.size()), array(lower), array(upper))
                .withWeights(array(weights));
    }

    private static double[] array(List<Double> list) {
        return list.stream().mapToDouble(Double::doubleValue).toArray();
    }

    private static final double[] DOSE = {1.6907, 1.7242, 1.7552, 1.7842, 1.8113, 1.8369, 1.8610, 1.8839};
    private static final int[] TREATED = {59, 60, 62, 56, 63, 59, 62, 60};
    private static final int[] KILLED = {6, 13, 18, 28, 52, 53, 61, 60};

    /**
     * C. I. Bliss 1935, "The calculation of the dosage-mortality curve", Annals of Applied Biology 22; data from memory, as
     * Dobson's textbook on generalised linear models prints them. Probit coefficients by glm of R.
     */
    @Test
    void beetles() {
        Maximum fit = fit(status(DOSE, TREATED, KILLED));
        close(fit.coefficient(0), 1.770852362);
        close(fit.scale(), 0.05068954455);
        close(fit.logLikelihood(), -185.6791668);
        close(fit.standardError(0), 0.003777768407);
        close(fit.standardErrorOfLogScale(), 0.075226240470);
        // the probit fit: a + b x dose, so mean = -a/b and scale = 1/b
        close(-fit.coefficient(0) / fit.scale(), -34.93525890);
        close(1 / fit.scale(), 19.72793421);
    }

    /** The probit equations themselves, without R: both weighted sums of residuals vanish. */
    @Test
    void beetlesSolveTheProbitEquations() {
        Maximum fit = fit(status(DOSE, TREATED, KILLED));
        double level = 0;
        double slope = 0;
        for (int i = 0; i < DOSE.length; i++) {
            double z = (DOSE[i] - fit.coefficient(0)) / fit.scale();
            double p = 0.5 * Erfc.value(-z / Math.sqrt(2));
            double residual = (KILLED[i] - TREATED[i] * p) * Math.exp(-0.5 * z * z) / (p * (1 - p));
            level += residual;
            slope += residual * z;
        }
        assertThat(level).isCloseTo(0, within(1e-9));
        assertThat(slope).isCloseTo(0, within(1e-9));
    }

    /** W. Nelson 1982, "Applied Life Data Analysis", p. 415: cracked parts by common inspection times, in months. */
    @Test
    void partCracking() {
        double[] lower = {NEGATIVE_INFINITY, 6.12, 19.92, 29.64, 35.40, 39.72, 45.24, 52.32, 63.48};
        double[] upper = {6.12, 19.92, 29.64, 35.40, 39.72, 45.24, 52.32, 63.48, POSITIVE_INFINITY};
        Maximum fit = fit(IntervalRegression.of(mean(9), lower, upper).withWeights(5, 16, 12, 18, 18, 2, 6, 17, 73));
        close(fit.coefficient(0), 56.4381492634);
        close(fit.standardError(0), 2.864486448584);
        close(fit.scale(), 31.9220289083);
        close(fit.logLikelihood(), -314.895696337);
    }

    /** The same with the logarithm of time, which makes it the lognormal fit. */
    @Test
    void partCrackingByLogTime() {
        double[] ends = {6.12, 19.92, 29.64, 35.40, 39.72, 45.24, 52.32, 63.48};
        double[] lower = new double[9];
        double[] upper = new double[9];
        lower[0] = NEGATIVE_INFINITY;
        upper[8] = POSITIVE_INFINITY;
        for (int i = 0; i < 8; i++) {
            upper[i] = Math.log(ends[i]);
            lower[i + 1] = upper[i];
        }
        Maximum fit = fit(IntervalRegression.of(mean(9), lower, upper).withWeights(5, 16, 12, 18, 18, 2, 6, 17, 73));
        close(fit.coefficient(0), 4.02685363327);
        close(fit.scale(), 0.998525122185);
        close(fit.logLikelihood(), -311.914784437);
    }

    /** Nelson's turbine wheels, each looked at once, in hundreds of hours; data set turbine of the R package survival. */
    @Test
    void turbineWheels() {
        double[] hours = {4, 10, 14, 18, 22, 26, 30, 34, 38, 42, 46};
        int[] looked = {39, 53, 33, 73, 30, 39, 42, 13, 34, 40, 36};
        int[] cracked = {0, 4, 2, 7, 5, 9, 9, 6, 22, 21, 21};
        Maximum fit = fit(status(hours, looked, cracked));
        close(fit.coefficient(0), 39.3519709128);
        close(fit.scale(), 17.2914323813);
        close(fit.logLikelihood(), -189.279157868);
        Maximum byLog = fit(status(Arrays.stream(hours).map(Math::log).toArray(), looked, cracked));
        close(byLog.coefficient(0), 3.69990766941);
        close(byLog.scale(), 0.719885721305);
        close(byLog.logLikelihood(), -190.731549491);
    }

    /** Wear case A, made up; solved by survreg of R and by an optimiser of SciPy. */
    @Test
    void wearCaseA() {
        double[] usage = {0, 12, 24, 36, 48, 60, 72};
        double[] lower = {.22, .25, .20, .20, .15, .18, .13};
        double[] upper = {.24, .28, .22, .22, .18, .20, .15};
        Maximum fit = fit(IntervalRegression.line(usage, lower, upper));
        close(fit.coefficient(0), 0.25010425159024);
        close(fit.standardError(0), 0.01234757899);
        close(fit.coefficient(1), -0.0013555343581636);
        close(fit.standardError(1), 0.00028475323);
        close(fit.scale(), 0.016996543284311);
        close(fit.standardErrorOfLogScale(), 0.31960895329);
        close(fit.logLikelihood(), -8.6255617082302);
        close(fit.covariance()[0][1], -2.92121050676e-06);
        close((0.10 - fit.coefficient(0)) / fit.coefficient(1), 110.734376216);
        close(fit.valueAt(1, 110.734376216), 0.10);
        close(fit(IntervalRegression.of(mean(7), lower, upper)).logLikelihood(), -13.634023973828);
    }

    /** Wear case B, made up; as case A. */
    @Test
    void wearCaseB() {
        double[] usage = {0, 10, 20, 30, 40, 50, 60, 70};
        double[] lower = {.20, .20, .20, .15, .18, .13, .15, NEGATIVE_INFINITY};
        double[] upper = {.22, .23, .22, .18, .20, .15, .18, .13};
        Maximum fit = fit(IntervalRegression.line(usage, lower, upper));
        close(fit.coefficient(0), 0.22222817639455);
        close(fit.standardError(0), 0.01045381435);
        close(fit.coefficient(1), -0.0013130224676612);
        near(fit.standardError(1), 0.00025634669);
        close(fit.scale(), 0.014397582571535);
        close(fit.standardErrorOfLogScale(), 0.34242545465);
        close(fit.logLikelihood(), -7.9507657148126);
        close((0.10 - fit.coefficient(0)) / fit.coefficient(1), 93.0891735709);
        close(fit(IntervalRegression.of(mean(8), lower, upper)).logLikelihood(), -13.825508955029);
    }

    /** Wear case C, made up, with a point; as case A. */
    @Test
    void wearCaseC() {
        double[] usage = {0, 10, 20, 30, 40, 50, 60, 70};
        double[] lower = {.20, .20, .18, .18, .15, .15, .13, NEGATIVE_INFINITY};
        double[] upper = {.22, .20, .20, .18, .18, .15, .15, .10};
        Maximum fit = fit(IntervalRegression.line(usage, lower, upper));
        close(fit.coefficient(0), 0.218835577466);
        close(fit.coefficient(1), -0.00151970490112);
        close(fit.scale(), 0.0087880306011);
        close(fit.logLikelihood(), 6.10884209544);
    }

    /** Wear case D, made up: a line threads all brackets; the optimiser of R runs out of iterations on it. */
    @Test
    void wearCaseD() {
        double[] usage = {0, 12, 24, 36, 48, 60};
        double[] lower = {.24, .22, .21, .20, .18, .15};
        double[] upper = {.26, .25, .23, .21, .20, .18};
        assertThat(IntervalRegression.line(usage, lower, upper).fit())
                .isEqualTo(new NoMaximum(Reason.THREADED_WITH_ROOM, false));
    }

    // NIST Statistical Reference Datasets, linear regression; certified values. "Standard deviations" divide by n - p
    // there.

    private static void certified(double[][] yx, boolean intercept, double[] b, double[] sd, double residual) {
        int n = yx.length;
        double[] y = new double[n];
        double[][] design = new double[n][];
        for (int i = 0; i < n; i++) {
            y[i] = yx[i][0];
            design[i] = intercept ? new double[] {1, yx[i][1]} : new double[] {yx[i][1]};
        }
        Maximum fit = fit(IntervalRegression.of(design, y, y));
        double factor = Math.sqrt(n / (double) (n - b.length));
        for (int j = 0; j < b.length; j++) {
            assertThat(fit.coefficient(j)).isCloseTo(b[j], within(1e-12 * Math.abs(b[j])));
            assertThat(fit.standardError(j) * factor).isCloseTo(sd[j], within(1e-12 * sd[j]));
        }
        assertThat(fit.scale() * factor).isCloseTo(residual, within(1e-12 * residual));
        close(fit.standardErrorOfLogScale(), 1 / Math.sqrt(2.0 * n));
    }

    @Test
    void norris() {
        double[][] yx = {
            {.1, .2}, {338.8, 337.4}, {118.1, 118.2}, {888, 884.6}, {9.2, 10.1}, {228.1, 226.5}, {668.5, 666.3},
            {998.5, 996.3}, {449.1, 448.6}, {778.9, 777}, {559.2, 558.2}, {.3, .4}, {.1, .6}, {778.1, 775.5},
            {668.8, 666.9}, {339.3, 338}, {448.9, 447.5}, {10.8, 11.6}, {557.7, 556}, {228.3, 228.1}, {998, 995.8},
            {888.8, 887.6}, {119.6, 120.2}, {.3, .3}, {.6, .3}, {557.6, 556.8}, {339.3, 339.1}, {888, 887.2},
            {998.5, 999}, {778.9, 779}, {10.2, 11.1}, {117.6, 118.3}, {228.9, 229.2}, {668.4, 669.1}, {449.2, 448.9},
            {.2, .5}
        };
        certified(
                yx,
                true,
                new double[] {-0.262323073774029, 1.00211681802045},
                new double[] {0.232818234301152, 0.000429796848199937},
                0.884796396144373);
    }

    @Test
    void noIntercept1() {
        double[][] yx = new double[11][];
        Arrays.setAll(yx, i -> new double[] {130 + i, 60 + i});
        certified(yx, false, new double[] {2.07438016528926}, new double[] {0.0165289256198347}, 3.56753034006338);
    }

    @Test
    void noIntercept2() {
        certified(
                new double[][] {{3, 4}, {4, 5}, {4, 6}},
                false,
                new double[] {0.727272727272727},
                new double[] {0.0420827318078432},
                Math.sqrt(0.136363636363636));
    }
}
