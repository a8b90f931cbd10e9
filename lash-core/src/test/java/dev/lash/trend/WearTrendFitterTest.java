package dev.lash.trend;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatNullPointerException;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.engine.WearPrior;
import dev.lash.measure.Length;
import dev.lash.measure.LengthDistribution;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.Usage;
import dev.lash.trend.CheckBy.Reason;
import java.math.BigDecimal;
import java.util.List;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class WearTrendFitterTest {
    private static final WearTrendFitter FITTER = WearTrendFitter.withDefaults();
    private static final WearPrior PRIOR = WearPrior.BY_DISTANCE;
    private static final Usage NOW = Usage.parse("24000 km");

    /** {@code "0 km (0.12, 0.15) mm; 12000 km any"}; a bar instead of the semicolon is an adjustment. */
    static ClearanceHistory history(String valve, String readings) {
        ClearanceHistory.Builder history = ClearanceHistory.builder(ValveId.parse(valve), Gap.ONLY);
        for (String segment : readings.split("\\|", -1)) {
            for (String reading : segment.split(";", -1)) {
                if (!reading.isBlank()) {
                    String[] part = reading.strip().split(" ", 3);
                    history.read(Usage.parse(part[0] + " " + part[1]), LengthInterval.parse(part[2]));
                }
            }
            history.adjusted();
        }
        return history.build();
    }

    static TrendTask task(String valve, String readings) {
        return new TrendTask(history(valve, readings), ClearanceSpec.typical(ClearanceWindow.parse("0.10..0.20 mm")));
    }

    private static EngineTrend fit(WearTrendFitter fitter, String... readings) {
        List<TrendTask> tasks = IntStream.range(0, readings.length)
                .mapToObj(v -> task((v + 1) + "-in-1", readings[v]))
                .toList();
        return fitter.fit(tasks, PRIOR, NOW);
    }

    private static final String WEARING = "0 km (0.15, 0.17) mm; 12000 km (0.13, 0.15) mm; 24000 km (0.12, 0.14) mm";
    private static final String SCATTERED =
            "0 km [0.170, 0.170] mm; 6000 km [0.158, 0.158] mm; 12000 km [0.152, 0.152] mm;"
                    + "18000 km [0.138, 0.138] mm; 24000 km [0.134, 0.134] mm";

    // ---- settings

    @Test
    void hasTheDefaultsOfItsTable() {
        assertThat(FITTER.method()).isEqualTo(TrendMethod.WITH_PRIORS);
        assertThat(FITTER.risk()).isEqualTo(0.05);
        assertThat(FITTER.withRisk(0.2).withMethod(TrendMethod.FEASIBLE_LINES).risk())
                .isEqualTo(0.2);
    }

    @Test
    void showsItsSettings() {
        assertThat(FITTER).hasToString("with-priors, risk 0.05, no maker's interval");
        assertThat(FITTER.withMethod(TrendMethod.FEASIBLE_LINES).withInterval(Usage.parse("6000 km")))
                .hasToString("feasible-lines, risk 0.05, 6000 km as the maker's interval");
    }

    @Test
    void refusesAGapGivenTwice() {
        List<TrendTask> twice = List.of(task("1-in-1", WEARING), task("2-in-1", WEARING), task("1-in-1", ""));

        assertThatThrownBy(() -> FITTER.fit(twice, PRIOR, NOW))
                .isInstanceOf(RejectedValueException.class)
                .hasMessageContaining("1-in-1")
                .hasMessageContaining("given twice");
        assertThatThrownBy(() -> FITTER.checkBy(twice, PRIOR, NOW, 0.05)).isInstanceOf(RejectedValueException.class);
        assertThatThrownBy(() -> FITTER.expectedReadings(twice, PRIOR, NOW)).isInstanceOf(RejectedValueException.class);
    }

    @Test
    @SuppressWarnings("NullAway")
    void namesAnArgumentThatIsNull() {
        List<TrendTask> tasks = List.of(task("1-in-1", WEARING));

        assertThatNullPointerException()
                .isThrownBy(() -> FITTER.fit(null, PRIOR, NOW))
                .withMessage("tasks");
        assertThatNullPointerException()
                .isThrownBy(() -> FITTER.fit(tasks, null, NOW))
                .withMessage("prior");
        assertThatNullPointerException()
                .isThrownBy(() -> FITTER.fit(tasks, PRIOR, null))
                .withMessage("now");
    }

    @Test
    void byThePriorAloneNoReadingCounts() {
        WearTrendFitter alone = FITTER.withMethod(TrendMethod.PRIOR_ONLY);
        EngineTrend read = fit(alone, "0 km [0.19, 0.19] mm; 24000 km [0.11, 0.11] mm");
        EngineTrend unread = fit(alone, "");

        assertThat(read).isEqualTo(unread);
        assertThat(read.valves().get(0).trend().method()).isEqualTo(TrendMethod.PRIOR_ONLY);
        assertThat(read.valves().get(0).trend().checks()).isZero();
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, 0.00009, 0.51, 1, -0.05, Double.NaN, Double.POSITIVE_INFINITY})
    void refusesARiskOutOfRange(double risk) {
        assertThatThrownBy(() -> FITTER.withRisk(risk))
                .isInstanceOf(RejectedValueException.class)
                .hasMessageContaining(String.valueOf(risk))
                .hasMessageContaining("0.0001 to 0.5");
    }

    @Test
    void refusesNoGapAPriorOfAnotherCounterAndReadingsOfTheFuture() {
        assertThatThrownBy(() -> FITTER.fit(List.of(), PRIOR, NOW))
                .isInstanceOf(RejectedValueException.class)
                .hasMessageContaining("at least one gap");
        assertThatThrownBy(() -> FITTER.fit(List.of(task("1-in-1", "")), WearPrior.BY_HOURS, NOW))
                .isInstanceOf(RejectedValueException.class)
                .hasMessageContaining("a prior for a distance");
        assertThatThrownBy(() -> fit(FITTER, "24001 km (0.12, 0.15) mm"))
                .isInstanceOf(RejectedValueException.class)
                .hasMessageContaining("24001 km");
    }

    // ---- methods

    @Test
    void worksFromNoReadingAndSaysSo() {
        ValveTrend valve = fit(FITTER, "").valves().get(0);

        assertThat(valve.trend().method()).isEqualTo(TrendMethod.PRIOR_ONLY);
        assertThat(valve.trend().checks()).isZero();
        assertThat(valve.trend().note())
                .startsWith("no reading of this valve; prior: ")
                .contains("assumption");
        assertThat(valve.trend().drift()).isCloseTo(-0.01, within(0.0002));
        // the level is one deviation from either end of the window
        assertThat(valve.forecast().leftNow()).isCloseTo(0.3173, within(0.003));
    }

    @Test
    void readingsOutweighThePrior() {
        WearTrend trend = fit(FITTER, SCATTERED).valves().get(0).trend();

        assertThat(trend.method()).isEqualTo(TrendMethod.WITH_PRIORS);
        assertThat(trend.checks()).isEqualTo(5);
        // least squares: -0.0153 mm in 10000 km, pulled a little towards -0.010
        assertThat(trend.drift()).isBetween(-0.0155, -0.0145);
        assertThat(trend.findLogLikelihood()).isEmpty();
        assertThat(trend.note()).startsWith("prior: ");
    }

    @Test
    void maximumLikelihoodIsTheLineOfLeastSquaresWhereReadingsArePoints() {
        WearTrend trend = fit(FITTER.withMethod(TrendMethod.MAXIMUM_LIKELIHOOD), SCATTERED)
                .valves()
                .get(0)
                .trend();

        // by hand: mean 0.1504 mm at 12000 km; slope -(2 x 0.036 + 0.020) / 10 in 6000 km
        assertThat(trend.method()).isEqualTo(TrendMethod.MAXIMUM_LIKELIHOOD);
        assertThat(trend.drift()).isCloseTo(-0.0092 / 0.6, within(1e-9));
        assertThat(trend.clearance()).isCloseTo(0.1504 - 2 * 0.0092, within(1e-9));
        assertThat(trend.findLogLikelihood()).isPresent();
        assertThat(trend.note()).contains("too certain with few checks");
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "24000 km (0.12, 0.15) mm", WEARING, "0 km < 0.15 mm; 24000 km < 0.14 mm"})
    void maximumLikelihoodFallsBackAndSaysWhy(String readings) {
        WearTrend trend = fit(FITTER.withMethod(TrendMethod.MAXIMUM_LIKELIHOOD), readings)
                .valves()
                .get(0)
                .trend();

        assertThat(trend.method()).isIn(TrendMethod.WITH_PRIORS, TrendMethod.PRIOR_ONLY);
        assertThat(trend.note()).startsWith("no maximum of the likelihood (").contains("prior: ");
    }

    /**
     * With points the maximum is the line of least squares, with the covariance RSS/n (X'X)^-1; the probability of having left is that
     * of a normal pair (clearance now, drift), summed here over squares.
     */
    @Test
    void maximumLikelihoodForecastsByANormalPair() {
        double[] x = {-2.4, -1.8, -1.2, -0.6, 0};
        double[] y = {0.170, 0.158, 0.152, 0.138, 0.134};
        double n = x.length;
        double meanX = DoubleStream.of(x).sum() / n;
        double meanY = DoubleStream.of(y).sum() / n;
        double sxx = IntStream.range(0, 5)
                .mapToDouble(i -> Math.pow(x[i] - meanX, 2))
                .sum();
        double slope = IntStream.range(0, 5)
                        .mapToDouble(i -> (x[i] - meanX) * (y[i] - meanY))
                        .sum()
                / sxx;
        double now = meanY - slope * meanX;
        double variance = IntStream.range(0, 5)
                        .mapToDouble(i -> Math.pow(y[i] - now - slope * x[i], 2))
                        .sum()
                / n;
        double slopeError = Math.sqrt(variance / sxx);
        double meanError = Math.sqrt(variance / n);

        Forecast forecast = fit(FITTER.withMethod(TrendMethod.MAXIMUM_LIKELIHOOD), SCATTERED)
                .valves()
                .get(0)
                .forecast();
        for (Forecast.Point point : forecast.curve()) {
            double ahead = (point.usage().amount().doubleValue() - 24_000) / 10_000;
            double left = 0;
            double cell = 0.02;
            for (double u = -7; u < 7; u += cell) {
                for (double v = -7; v < 7; v += cell) {
                    double drift = slope + slopeError * u;
                    // the mean level and the slope are independent
                    double level = meanY + meanError * v - drift * meanX;
                    double then = level + drift * ahead;
                    if (Math.min(level, then) < 0.10 || Math.max(level, then) > 0.20) {
                        left += Math.exp(-(u * u + v * v) / 2) / (2 * Math.PI) * cell * cell;
                    }
                }
            }
            assertThat(point.tight() + point.loose()).as("%s", point.usage()).isCloseTo(left, within(0.01));
        }
    }

    @Test
    void feasibleLinesComeBackAtTheEarliestCrossing() {
        EngineTrend trend =
                fit(FITTER.withMethod(TrendMethod.FEASIBLE_LINES), WEARING, SCATTERED.replace("0.138", "0.140"));
        ValveTrend valve = trend.valves().get(0);

        // steepest: from 0.17 mm when new to 0.12 mm at 24000 km, so 0.10 mm 9600 km later
        assertThat(valve.trend().method()).isEqualTo(TrendMethod.FEASIBLE_LINES);
        assertThat(valve.forecast().findEarliest()).contains(Usage.parse("33600 km"));
        assertThat(valve.trend().findScatter()).isEmpty();
        assertThat(trend.valves().get(1).trend().note()).startsWith("no straight line goes through every reading");
        CheckBy by = fit(FITTER.withMethod(TrendMethod.FEASIBLE_LINES), WEARING).checkBy();
        assertThat(by.usage().amount().intValue()).isBetween(33_550, 33_600);
        assertThat(by.risk()).isZero();
    }

    // ---- when to come back

    @Test
    void comesBackNoLaterThanTheMakersInterval() {
        CheckBy by = fit(FITTER.withInterval(Usage.parse("100 km")), WEARING).checkBy();

        assertThat(by.usage()).isEqualTo(Usage.parse("24100 km"));
        assertThat(by.reason()).isEqualTo(Reason.MAKERS_INTERVAL);
        assertThat(by.findValve()).isEmpty();
    }

    @Test
    void aValveThatMayHaveLeftIsDueNow() {
        CheckBy by = fit(FITTER, WEARING, "0 km (0.12, 0.15) mm; 24000 km (0.05, 0.08) mm")
                .checkBy();

        assertThat(by.usage()).isEqualTo(NOW);
        assertThat(by.reason()).isEqualTo(Reason.NOW);
        assertThat(by.findValve()).contains(ValveId.parse("2-in-1"));
    }

    @Test
    void aHigherRiskComesBackLater() {
        Usage before = NOW;
        for (double risk : new double[] {0.005, 0.02, 0.1, 0.3, 0.5}) {
            Usage by = fit(FITTER.withRisk(risk), WEARING, SCATTERED).checkBy().usage();
            assertThat(by.compareAmount(before)).isNotNegative();
            before = by;
        }
        assertThat(before).isNotEqualTo(NOW);
    }

    @Test
    void theEngineComesBackNoLaterThanItsFirstValve() {
        EngineTrend trend = fit(FITTER, WEARING, SCATTERED, "24000 km (0.15, 0.16) mm");
        Usage first = trend.valves().stream()
                .map(v -> v.forecast().findEarliest().orElseThrow())
                .min(Usage::compareAmount)
                .orElseThrow();

        assertThat(trend.checkBy().usage().compareAmount(first)).isNotPositive();
        assertThat(trend.checkBy().reason()).isEqualTo(Reason.VALVE);
    }

    // ---- laws

    private static void sound(EngineTrend trend) {
        for (ValveTrend valve : trend.valves()) {
            // straight lines may leave it open where the clearance is
            assertThat(valve.trend().clearance())
                    .satisfies(c -> assertThat(Double.isFinite(c)
                                    || (c > 0 && valve.trend().method() == TrendMethod.FEASIBLE_LINES))
                            .isTrue());
            assertThat(valve.trend().drift()).isFinite();
            assertThat(valve.trend().driftError()).isNotNaN().isNotNegative();
            Forecast forecast = valve.forecast();
            assertThat(forecast.leftNow()).isBetween(0.0, 1.0);
            double tight = 0;
            double left = 0;
            for (Forecast.Point point : forecast.curve()) {
                assertThat(point.tight()).isBetween(tight - 1e-6, 1.0);
                assertThat(point.tight() + point.loose()).isBetween(left - 1e-4, 1.0 + 1e-9);
                tight = point.tight();
                left = point.tight() + point.loose();
            }
        }
        assertThat(trend.checkBy().usage().compareAmount(NOW)).isNotNegative();
    }

    @ParameterizedTest
    @EnumSource(TrendMethod.class)
    void hasASoundAnswerToOddData(TrendMethod method) {
        StringBuilder hundreds = new StringBuilder();
        for (int i = 0; i < 300; i++) {
            hundreds.append(80 * i).append(" km (0.12, 0.15) mm;");
        }
        for (String readings : List.of(
                "0 km any; 24000 km any",
                "24000 km (0.12, 0.15) mm",
                "24000 km (0.12, 0.15) mm; 24000 km (0.13, 0.16) mm; 24000 km [0.14, 0.14] mm",
                "0 km (0.12, 0.15) mm; 8000 km (0.12, 0.15) mm; 16000 km (0.12, 0.15) mm; 24000 km (0.12, 0.15) mm",
                "0 km [0.12, 0.12] mm; 12000 km [0.12, 0.12] mm; 24000 km [0.12, 0.12] mm",
                "0 km (0.12, 0.15) mm; 24000 km (900, 901) mm",
                "0 km (0.12, 0.15) mm; 1 km (0.42, 0.45) mm; 24000 km (0.12, 0.15) mm",
                "0 km > 0.10 mm; 24000 km < 0.30 mm",
                "0 km (0.120000, 0.120001) mm; 24000 km (0.110000, 0.110001) mm",
                hundreds.toString())) {
            sound(fit(FITTER.withMethod(method), readings));
            sound(fit(FITTER.withMethod(method), readings, WEARING));
        }
    }

    @Test
    void doesNotDependOnUnits() {
        WearTrend metric = fit(FITTER, WEARING).valves().get(0).trend();
        WearPrior miles = new WearPrior(
                Usage.of(new BigDecimal("5000"), Usage.Unit.MILE),
                Length.ofNanometres(Math.round(-10_000 * 0.804672)),
                Length.ofNanometres(Math.round(20_000 * 0.804672)),
                Length.ofNanometres(Math.round(10_000 * 0.804672)),
                PRIOR.scatter(),
                PRIOR.factor(),
                "in miles");
        WearTrend imperial = FITTER.fit(List.of(task("1-in-1", WEARING)), miles, NOW)
                .valves()
                .get(0)
                .trend();

        assertThat(imperial.drift()).isCloseTo(0.804672 * metric.drift(), within(0.0001));
        assertThat(imperial.clearance()).isCloseTo(metric.clearance(), within(0.0001));
        assertThat(imperial.scatter()).isCloseTo(metric.findScatter().orElseThrow(), within(0.0001));
    }

    @Test
    void doesNotDependOnTheOrderOfValves() {
        EngineTrend one = FITTER.fit(List.of(task("1-in-1", WEARING), task("2-in-1", SCATTERED)), PRIOR, NOW);
        EngineTrend other = FITTER.fit(List.of(task("2-in-1", SCATTERED), task("1-in-1", WEARING)), PRIOR, NOW);

        assertThat(other.checkBy()).isEqualTo(one.checkBy());
        assertThat(other.find(ValveId.parse("1-in-1"), Gap.ONLY)
                        .orElseThrow()
                        .trend()
                        .drift())
                .isCloseTo(one.valves().get(0).trend().drift(), within(1e-9));
    }

    @Test
    void aNeighbourTellsAValveThatWasNotRead() {
        String fast = "0 km [0.20, 0.20] mm; 12000 km [0.16, 0.16] mm; 24000 km [0.12, 0.12] mm";
        double alone = fit(FITTER, "").valves().get(0).trend().drift();

        assertThat(fit(FITTER, "", fast).valves().get(0).trend().drift()).isLessThan(alone - 0.005);
    }

    @Test
    void expectsReadingsAboutTheLine() {
        LengthDistribution expected = FITTER.expectedReadings(List.of(task("1-in-1", WEARING)), PRIOR, NOW)
                .get(0);
        double before = 0;
        for (int micrometres = 0; micrometres <= 300; micrometres += 5) {
            double share = expected.probabilityUpTo(Length.ofNanometres(1_000L * micrometres));
            assertThat(share).isBetween(before, 1.0);
            before = share;
        }
        double mean = fit(FITTER, WEARING).valves().get(0).trend().clearance();
        assertThat(expected.probabilityUpTo(Length.ofNanometres(Math.round(mean * 1e6))))
                .isCloseTo(0.5, within(0.03));
        assertThat(before).isCloseTo(1, within(1e-9));
    }

    // ---- where to set a gap

    @Test
    void aimsSoThatBothWaysLastAsLong() {
        WearTrend trend = fit(FITTER, SCATTERED).valves().get(0).trend();
        Ratio aim = LastingAim.of(trend);
        double best = -1;
        double at = 0;
        for (int percent = 10; percent <= 90; percent++) {
            double lasts = LastingAim.survival(
                    trend,
                    LengthInterval.point(Length.ofNanometres(100_000 + 1_000L * percent)),
                    ClearanceWindow.parse("0.10..0.20 mm"));
            if (lasts > best) {
                best = lasts;
                at = percent / 100.0;
            }
        }

        assertThat(LineData.value(aim)).isCloseTo(at, within(0.0101));
        assertThat(LastingAim.survival(
                        trend, LengthInterval.parse("(0.09, 0.12) mm"), ClearanceWindow.parse("0.10..0.20 mm")))
                .as("may be outside")
                .isZero();
        assertThat(LastingAim.survival(
                        trend, LengthInterval.parse("> 0.12 mm"), ClearanceWindow.parse("0.10..0.20 mm")))
                .as("lacks an end")
                .isZero();
    }
}
