package dev.lash.trend;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.engine.WearPrior;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Usage;
import dev.lash.trend.CheckBy.Reason;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Gaps that are not what the prior expects of any. */
class OddGapsTest {
    private static final WearTrendFitter FITTER = WearTrendFitter.withDefaults();
    private static final WearPrior PRIOR = WearPrior.BY_DISTANCE;
    private static final String ALONE = "only its own readings count";

    /** Falls by 0.07 to 0.11 mm in every 1000 km and is set anew each time. */
    private static final String FAST = "0 km (0.16, 0.18) mm; 1000 km (0.07, 0.09) mm | 1000 km (0.16, 0.18) mm;"
            + "2000 km (0.07, 0.09) mm | 2000 km (0.16, 0.18) mm; 3000 km (0.07, 0.09) mm | 3000 km (0.16, 0.18) mm";

    private static final String STEADY = "0 km (0.15, 0.17) mm; 1000 km (0.15, 0.17) mm; 3000 km (0.14, 0.16) mm";

    private static EngineTrend fit(WearPrior prior, String now, TrendTask... tasks) {
        return FITTER.fit(List.of(tasks), prior, Usage.parse(now));
    }

    private static ValveTrend only(EngineTrend trend) {
        assertThat(trend.valves()).hasSize(1);
        return trend.valves().get(0);
    }

    private static TrendTask task(String valve, String window, String readings) {
        return new TrendTask(
                WearTrendFitterTest.history(valve, readings), ClearanceSpec.typical(ClearanceWindow.parse(window)));
    }

    /** All straight lines through the readings leave between 3545 and 4142 km; held to the prior it would be 9962 km. */
    @Test
    void aValveThatWearsManyTimesAsFastIsForecastByItsOwnReadings() {
        EngineTrend trend = fit(PRIOR, "3000 km", WearTrendFitterTest.task("1-in-1", FAST));

        assertThat(only(trend).trend().note()).contains(ALONE);
        assertThat(only(trend).trend().alone()).isTrue();
        // what is assumed of wear is just what does not count here
        assertThat(only(trend).caveat().orElseThrow())
                .contains("only 4 checks of 1-in-1, and only they count")
                .doesNotContain("what is assumed;");
        assertThat(only(trend).trend().drift()).isCloseTo(-0.9, within(0.15));
        assertThat(trend.checkBy().usage().amount().intValue()).isBetween(3200, 3900);
        assertThat(trend.checkBy().reason()).isEqualTo(Reason.VALVE);
    }

    @Test
    void itsNeighboursAreNotHeldToIt() {
        ValveTrend without = only(fit(PRIOR, "3000 km", WearTrendFitterTest.task("2-in-1", STEADY)));
        EngineTrend both = fit(
                PRIOR, "3000 km", WearTrendFitterTest.task("1-in-1", FAST), WearTrendFitterTest.task("2-in-1", STEADY));

        assertThat(both.valves().get(1)).isEqualTo(without);
        assertThat(without.trend().alone()).isFalse();
        assertThat(without.caveat().orElseThrow()).contains("much rests on what is assumed;");
        assertThat(both.checkBy().findValve()).contains(ValveId.parse("1-in-1"));
    }

    /** Wears 0.5 mm in 10000 km, with leaves every 0.02 mm: true leaving after 8 checks at 7400 km. */
    @ParameterizedTest
    @CsvSource({"3, 3400", "5, 5400", "8, 7400"})
    void aFastValveIsAskedBackInTime(int checks, int leaves) {
        ClearanceHistory.Builder history = ClearanceHistory.builder(ValveId.parse("1-ex-1"), Gap.ONLY);
        double clearance = 0.17;
        for (int i = 0; i < checks; i++) {
            clearance -= i == 0 ? 0 : 0.05;
            history.read(Usage.parse(1000 * i + " km"), read(clearance, 0.02));
            if (clearance < 0.119) {
                history.adjusted();
                clearance = 0.17;
                history.read(Usage.parse(1000 * i + " km"), read(clearance, 0.02));
            }
        }
        EngineTrend trend = FITTER.fit(
                List.of(new TrendTask(history.build(), ClearanceSpec.typical(ClearanceWindow.parse("0.10..0.20 mm")))),
                PRIOR,
                Usage.parse(1000 * (checks - 1) + " km"));
        assertThat(trend.checkBy().usage().amount().intValue()).isBetween(leaves - 500, leaves);
    }

    private static LengthInterval read(double clearance, double step) {
        long below = (long) Math.floor(clearance / step);
        return LengthInterval.open(
                Length.ofNanometres(Math.round(below * step * 1e6)),
                Length.ofNanometres(Math.round((below + 1) * step * 1e6)));
    }

    @ParameterizedTest
    @ValueSource(strings = {"(0.30, 0.32)", "(0.38, 0.40)", "(0.70, 0.72)", "(2.00, 2.02)", "(4.00, 4.02)"})
    void aValveFarFromItsWindowIsWhereItWasRead(String reading) {
        LengthInterval read = LengthInterval.parse(reading + " mm");
        double low = LineData.millimetres(read.lower().orElseThrow());
        for (int checks = 1; checks <= 3; checks++) {
            StringBuilder readings = new StringBuilder();
            for (int i = 0; i < checks; i++) {
                readings.append(6000 * i).append(" km ").append(read).append(';');
            }
            String now = 6000 * (checks - 1) + " km";
            WearTrend trend = only(fit(PRIOR, now, task("1-in-1", "0.08..0.10 mm", readings.toString())))
                    .trend();
            assertThat(trend.clearance()).isBetween(low - 0.01, low + 0.03);
            assertThat(trend.drift()).isBetween(-0.03, 0.01);
            assertThat(trend.scatter()).isBetween(0.005, 0.008);
            assertThat(trend.note()).contains("far from the window to set to");
        }
    }

    @Test
    void itsNeighboursKeepTheirScatter() {
        String near = "0 km (0.08, 0.10) mm; 6000 km (0.08, 0.10) mm; 12000 km (0.08, 0.10) mm";
        TrendTask neighbour = task("2-in-1", "0.08..0.10 mm", near);
        ValveTrend without = only(fit(PRIOR, "12000 km", neighbour));
        EngineTrend both = fit(
                PRIOR,
                "12000 km",
                task("1-in-1", "0.08..0.10 mm", near.replace("(0.08, 0.10)", "(0.38, 0.40)")),
                neighbour);

        assertThat(both.valves().get(1).forecast().leftNow())
                .isCloseTo(without.forecast().leftNow(), within(0.05));
    }

    /** What happened between the two checks was not wear: of what comes next nothing is claimed. */
    @Test
    void readingsThatNothingExplainsClaimNoWear() {
        EngineTrend trend = fit(
                PRIOR,
                "12000 km",
                WearTrendFitterTest.task(
                        "1-in-1", "0 km (90, 91) mm; 6000 km (0.14, 0.16) mm; 12000 km (0.14, 0.16) mm"));

        assertThat(only(trend).trend().note()).contains("next to nothing is known of its wear");
        assertThat(only(trend).trend().driftError()).isGreaterThan(0.5);
        assertThat(trend.checkBy().usage().amount().intValue()).isBetween(12_000, 12_500);
    }

    /** By Markov's inequality fewer than one gap in a thousand that is what the prior says seems odd. */
    @Test
    void whatThePriorSaysIsHardlyEverOdd() {
        Random random = new Random(20_310_518);
        int odd = 0;
        for (int n = 0; n < 400; n++) {
            double scatter = 0.006 * Math.pow(1.5, random.nextGaussian());
            double drift = -0.01
                    + 0.02 * random.nextGaussian()
                    + 0.01 * Math.pow(1.5, random.nextGaussian()) * random.nextGaussian();
            double level = 0.15 + 0.05 * random.nextGaussian();
            ClearanceHistory.Builder history = ClearanceHistory.builder(ValveId.parse("1-in-1"), Gap.ONLY);
            for (int i = 0; i < 5; i++) {
                history.read(
                        Usage.parse(6000 * i + " km"),
                        read(level + 0.6 * i * drift + scatter * random.nextGaussian(), 0.02));
            }
            EngineTrend trend = FITTER.fit(
                    List.of(new TrendTask(
                            history.build(), ClearanceSpec.typical(ClearanceWindow.parse("0.10..0.20 mm")))),
                    PRIOR,
                    Usage.parse("24000 km"));
            String note = only(trend).trend().note();
            odd += note.contains("unlike") || note.contains("far from") ? 1 : 0;
        }
        assertThat(odd).isLessThanOrEqualTo(2);
    }

    // ---- the maker's interval and the horizon

    @Test
    void theMakersIntervalCountsFromTheLastCheck() {
        WearTrendFitter fitter = FITTER.withInterval(Usage.parse("6000 km"));
        List<TrendTask> tasks = List.of(
                WearTrendFitterTest.task("1-in-1", "0 km (0.14, 0.16) mm; 18000 km (0.14, 0.16) mm"),
                WearTrendFitterTest.task("1-in-2", "0 km (0.14, 0.16) mm; 16000 km (0.14, 0.16) mm"),
                WearTrendFitterTest.task("1-in-3", ""));

        CheckBy before =
                fitter.withRisk(0.5).fit(tasks, PRIOR, Usage.parse("19000 km")).checkBy();
        assertThat(before.reason()).isEqualTo(Reason.MAKERS_INTERVAL);
        assertThat(before.usage()).isEqualTo(Usage.parse("22000 km"));
        CheckBy after =
                fitter.withRisk(0.5).fit(tasks, PRIOR, Usage.parse("23000 km")).checkBy();
        assertThat(after.reason()).isEqualTo(Reason.MAKERS_INTERVAL);
        assertThat(after.usage()).isEqualTo(Usage.parse("23000 km"));
    }

    /** The same prior, by 100 km and by 10000 km. */
    @Test
    void theUnitOfThePriorDoesNotSetTheLimit() {
        WearPrior small = new WearPrior(
                Usage.parse("100 km"),
                Length.ofMillimetres("-0.0001"),
                Length.ofMillimetres("0.0002"),
                Length.ofMillimetres("0.0001"),
                PRIOR.scatter(),
                PRIOR.factor(),
                "made up");
        List<EngineTrend> trends = new ArrayList<>();
        for (WearPrior prior : List.of(small, PRIOR)) {
            trends.add(fit(prior, "3000 km", WearTrendFitterTest.task("2-in-1", STEADY)));
            assertThat(trends.get(0).checkBy().reason()).isEqualTo(Reason.VALVE);
        }
        assertThat(trends.get(0).checkBy().usage().amount().doubleValue())
                .isCloseTo(trends.get(1).checkBy().usage().amount().doubleValue(), within(50.0));
    }

    // ---- straight lines

    @Test
    void aRiskIsStatedWhereOneGapHasNoLines() {
        WearTrendFitter lines = FITTER.withMethod(TrendMethod.FEASIBLE_LINES);
        TrendTask threaded = WearTrendFitterTest.task("1-in-1", STEADY);
        TrendTask none = WearTrendFitterTest.task(
                "1-in-2", "0 km (0.15, 0.16) mm; 1000 km (0.11, 0.12) mm;" + "2000 km (0.15, 0.16) mm");
        Usage now = Usage.parse("3000 km");

        assertThat(lines.fit(List.of(threaded), PRIOR, now).checkBy().risk()).isZero();
        assertThat(lines.withInterval(Usage.parse("1 km"))
                        .fit(List.of(threaded), PRIOR, now)
                        .checkBy()
                        .risk())
                .isZero();
        assertThat(lines.fit(List.of(threaded, none), PRIOR, now).checkBy().risk())
                .isEqualTo(0.05);
    }

    @Test
    void linesThatDoNotBoundTheClearanceClaimNone() {
        TrendTask set = WearTrendFitterTest.task("1-in-1", "0 km (0.10, 0.12) mm | 1000 km any");
        WearTrend trend = FITTER.withMethod(TrendMethod.FEASIBLE_LINES)
                .fit(List.of(set), PRIOR, Usage.parse("1000 km"))
                .valves()
                .get(0)
                .trend();
        assertThat(trend.method()).isEqualTo(TrendMethod.FEASIBLE_LINES);
        assertThat(trend.clearance()).isInfinite();
    }
}
