package dev.lash.trend;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.engine.WearPrior;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.Usage;
import java.util.Comparator;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** The time to check at several risks from one fit. */
class CheckByRisksTest {
    private static final Usage NOW = Usage.parse("18000 km");

    private static TrendTask task(String valve, String... readings) {
        ClearanceHistory.Builder history = ClearanceHistory.builder(ValveId.parse(valve), Gap.ONLY);
        for (int i = 0; i < readings.length; i++) {
            history.read(Usage.parse(i * 6000 + " km"), LengthInterval.parse(readings[i] + " mm"));
        }
        return new TrendTask(history.build(), ClearanceSpec.typical(ClearanceWindow.parse("0.10..0.20 mm")));
    }

    /** The second closes up the fastest; the third is threaded by no line, so that its likelihood has a maximum. */
    private static final List<TrendTask> TASKS = List.of(
            task("1-in-1", "(0.14, 0.16)", "(0.14, 0.16)", "(0.14, 0.16)", "(0.14, 0.16)"),
            task("1-in-2", "(0.16, 0.18)", "(0.14, 0.16)", "(0.14, 0.16)", "(0.12, 0.14)"),
            task("1-ex-1", "(0.15, 0.16)", "(0.14, 0.15)", "(0.15, 0.16)", "(0.14, 0.15)"));

    @ParameterizedTest
    @EnumSource(TrendMethod.class)
    void isThatOfAFitAtEachRisk(TrendMethod method) {
        double[] risks = {0.01, 0.05, 0.2, 0.001};
        WearTrendFitter fitter = WearTrendFitter.withDefaults().withMethod(method);

        List<CheckBy> found = fitter.checkBy(TASKS, WearPrior.BY_DISTANCE, NOW, risks);

        assertThat(found).hasSize(risks.length);
        for (int k = 0; k < risks.length; k++) {
            assertThat(found.get(k))
                    .isEqualTo(fitter.withRisk(risks[k])
                            .fit(TASKS, WearPrior.BY_DISTANCE, NOW)
                            .checkBy());
        }
    }

    @ParameterizedTest
    // by the prior alone each gap may be out now
    @EnumSource(mode = EnumSource.Mode.EXCLUDE, names = "PRIOR_ONLY")
    void namesTheGapThatLeavesFirst(TrendMethod method) {
        EngineTrend trend = WearTrendFitter.withDefaults().withMethod(method).fit(TASKS, WearPrior.BY_DISTANCE, NOW);
        ValveTrend first = trend.valves().stream()
                .filter(valve -> valve.forecast().findEarliest().isPresent())
                .min(Comparator.comparing(v -> v.forecast().findEarliest().orElseThrow(), Usage::compareAmount))
                .orElseThrow();

        assertThat(trend.checkBy().reason()).isEqualTo(CheckBy.Reason.VALVE);
        assertThat(trend.checkBy().findValve()).contains(first.task().history().valve());
    }

    @Test
    void namesTheLikeliestOfThoseThatMayBeOutNow() {
        List<TrendTask> tasks = List.of(TASKS.get(0), task("1-in-3", "(0.08, 0.12)"), task("1-ex-2", "(0.06, 0.08)"));

        CheckBy found = WearTrendFitter.withDefaults()
                .fit(tasks, WearPrior.BY_DISTANCE, NOW)
                .checkBy();

        assertThat(found.reason()).isEqualTo(CheckBy.Reason.NOW);
        assertThat(found.findValve()).contains(ValveId.parse("1-ex-2"));
    }

    @Test
    void moreRiskIsLater() {
        List<CheckBy> found =
                WearTrendFitter.withDefaults().checkBy(TASKS, WearPrior.BY_DISTANCE, NOW, 0.01, 0.05, 0.2);

        assertThat(found.get(0).usage().compareAmount(found.get(1).usage())).isNegative();
        assertThat(found.get(1).usage().compareAmount(found.get(2).usage())).isNegative();
    }

    @Test
    void refusesARiskOutOfRange() {
        assertThatThrownBy(() -> WearTrendFitter.withDefaults().checkBy(TASKS, WearPrior.BY_DISTANCE, NOW, 0.05, 0.7))
                .isInstanceOf(RejectedValueException.class)
                .hasMessageContaining("0.7");
    }
}
