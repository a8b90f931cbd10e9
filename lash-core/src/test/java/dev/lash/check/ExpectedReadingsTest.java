package dev.lash.check;

import static dev.lash.testing.Readings.leaves;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.Adjuster;
import dev.lash.adjust.Adjustment;
import dev.lash.engine.CrankPlanner;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.gauge.LeafStack;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Usage;
import dev.lash.plan.LeafPlanner;
import dev.lash.plan.NextLeaf;
import dev.lash.testing.Contracts;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The forecast as the prior of the leaf plan: in reports, on the pre-job card, and what it does not touch. */
class ExpectedReadingsTest {
    private static final EngineSpec ENGINE = School.hillSingle();
    private static final ValveId INTAKE = ValveId.parse("1-in-1");
    private static final ValveId EXHAUST = ValveId.parse("1-ex-1");
    private static final LeafStack LOW = LeafStack.parse("0.10 mm");
    private static final LeafStack HIGH = LeafStack.parse("0.20 mm");

    private static PastVisit visit(int month, String usage, String intake) {
        return new PastVisit(
                LocalDate.of(2030, month, 11),
                Usage.parse(usage),
                List.of(new PastVisit.PastReading(
                        INTAKE, LengthInterval.parse(intake), LengthInterval.parse(intake), null)));
    }

    /** The intake closes up and must be near 0.10 mm by now; of the exhaust nothing is known. */
    private static CheckSheet.Builder sheet() {
        return CheckSheet.builder(ENGINE, leaves("0.05", "0.10", "0.12", "0.14", "0.16", "0.18", "0.20", "0.25"))
                .usage(Usage.parse("18000 km"))
                .history(List.of(
                        visit(1, "0 km", "(0.16, 0.18) mm"),
                        visit(2, "6000 km", "(0.14, 0.16) mm"),
                        visit(3, "12000 km", "(0.12, 0.14) mm")))
                .valve(ValveReading.of("1-in-1"))
                .valve(ValveReading.of("1-ex-1"));
    }

    @Test
    void theForecastChangesTheLeafThatAReportOffersFirst() {
        CheckReport report = CheckReport.of(sheet().build());
        ValveCheck intake = report.valves().get(0);
        ValveCheck exhaust = report.valves().get(1);

        assertThat(exhaust.nextLeaf()).contains(new NextLeaf(HIGH, true));
        assertThat(exhaust.isLeafByForecast()).isFalse();
        assertThat(intake.nextLeaf()).contains(new NextLeaf(LOW, true));
        assertThat(intake.isLeafByForecast()).isTrue();
        assertThat(intake.adjustment().orElseThrow())
                .isEqualTo(new Adjustment.MeasureFurther(new NextLeaf(LOW, true), null, "offer 0.10 mm"));
    }

    @Test
    void soDoesTheCard() {
        CheckPlan card = CheckPlan.of(sheet().build(), LeafPlanner.withDefaults(), CrankPlanner.atTdcMarks());

        assertThat(card.firstLeaves())
                .containsExactly(
                        new CheckPlan.FirstLeaf(INTAKE, Gap.ONLY, LOW, true),
                        new CheckPlan.FirstLeaf(EXHAUST, Gap.ONLY, HIGH, false));
        assertThat(card.layOut()).contains(LOW, HIGH);
        assertThat(CheckPlan.of(ENGINE, sheet().build().gauges(), LeafPlanner.withDefaults(), CrankPlanner.atTdcMarks())
                        .firstLeaves())
                .extracting(CheckPlan.FirstLeaf::leaf)
                .containsExactly(HIGH, HIGH);
    }

    @Test
    void oneEarlierCheckExpectsNothing() {
        CheckSheet once = sheet().history(List.of(visit(3, "12000 km", "(0.12, 0.14) mm")))
                .build();

        assertThat(ExpectedReadings.of(once).find(INTAKE, Gap.ONLY)).isEmpty();
        assertThat(CheckReport.of(once).valves().get(0).nextLeaf()).contains(new NextLeaf(HIGH, true));
        assertThat(ExpectedReadings.of(sheet().history(List.of()).build()).find(INTAKE, Gap.ONLY))
                .isEmpty();
    }

    @Test
    void aReadingThatTheForecastRulesOutIsPlannedAsIfNothingWereKnown() {
        CheckSheet sheet = sheet().build();
        ValveReading far = ValveReading.of("1-in-1", "0.16 mm goes", "0.25 mm refuses");
        LeafPlanner tight =
                LeafPlanner.withDefaults().withPrior(length -> length.isLessThan(Length.ofMillimetres("0.05")) ? 0 : 1);

        ValveCheck check = ValveCheck.of(sheet, far, Adjuster.withDefaults(), tight);

        assertThat(check.isLeafByForecast()).isFalse();
        assertThat(check).isEqualTo(ValveCheck.of(sheet, far, Adjuster.withDefaults()));
    }

    @Test
    void aValveThatWasSetIsCheckedAgainWithoutTheForecast() {
        ExpectedReadings expected = ExpectedReadings.of(sheet().build());
        ValveReading set = ValveReading.of("1-in-1", "0.05 mm goes", "0.10 mm refuses")
                .withDone(new Done.SetWith(LeafStack.parse("0.16 mm")), List.of());
        CheckSheet sheet = sheet().build();

        assertThat(ValveCheck.of(
                        sheet,
                        set,
                        Adjuster.withDefaults(),
                        expected.planner(LeafPlanner.withDefaults(), INTAKE, Gap.ONLY)))
                .isEqualTo(ValveCheck.of(sheet, set, Adjuster.withDefaults()));
    }

    @Test
    void refusesNull() {
        ExpectedReadings none = ExpectedReadings.none();
        Contracts.refuseNull(
                () -> ExpectedReadings.of(null),
                () -> none.find(null, Gap.ONLY),
                () -> none.find(INTAKE, null),
                () -> none.planner(null, INTAKE, Gap.ONLY));
    }
}
