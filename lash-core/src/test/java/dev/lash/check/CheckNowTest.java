package dev.lash.check;

import static dev.lash.testing.Readings.leaves;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.check.CheckNow.Work;
import dev.lash.engine.Decompressor;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.gauge.LeafStack;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import dev.lash.measure.Usage;
import dev.lash.testing.Contracts;
import dev.lash.trend.EngineTrend;
import dev.lash.trend.TrendMethod;
import dev.lash.trend.WearTrendFitter;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What a time to check rests on, and what "now" asks of each valve. */
class CheckNowTest {
    private static final EngineSpec ENGINE = School.hillSingle();
    private static final String[] MIDDLE = {"0.14 mm goes", "0.16 mm refuses"};

    private static PastVisit visit(int number, String... readings) {
        List<PastVisit.PastReading> all = new ArrayList<>();
        for (int i = 0; i < readings.length; i += 2) {
            LengthInterval found = LengthInterval.parse(readings[i + 1]);
            all.add(new PastVisit.PastReading(ValveId.parse(readings[i]), found, found, null));
        }
        return new PastVisit(LocalDate.of(2030, number, 11), Usage.parse(6000 * number + " km"), all);
    }

    private static CheckSheet.Builder sheet(int visits) {
        List<PastVisit> history = new ArrayList<>();
        for (int i = 1; i <= visits; i++) {
            history.add(visit(i, "1-in-1", "(0.14, 0.16) mm", "1-ex-1", "(0.14, 0.16) mm"));
        }
        return CheckSheet.builder(
                        ENGINE, leaves("0.03", "0.05", "0.10", "0.12", "0.14", "0.16", "0.18", "0.20", "0.25", "0.30"))
                .usage(Usage.parse("60000 km"))
                .history(history);
    }

    private static List<CheckNow> now(ValveReading intake) {
        CheckReport report = CheckReport.of(
                sheet(6).valve(intake).valve(ValveReading.of("1-ex-1", MIDDLE)).build());
        return report.checkNow(report.findTrend().orElseThrow());
    }

    private static CheckNow intake(Work work) {
        return new CheckNow(ValveId.parse("1-in-1"), Gap.ONLY, work);
    }

    @Test
    void whatWasReadOutsideIsToBeSet() {
        assertThat(now(ValveReading.of("1-in-1", "0.05 mm goes", "0.10 mm refuses")))
                .containsExactly(intake(Work.SET));
        assertThat(now(ValveReading.of("1-in-1", "0.25 mm goes", "0.30 mm refuses")))
                .containsExactly(intake(Work.SET));
    }

    @Test
    void onlyAnUndecidedReadingIsToBeNarrowed() {
        ValveReading undecided = ValveReading.of("1-in-1", "0.05 mm goes", "0.12 mm refuses");

        assertThat(CheckNow.work(CheckReport.of(sheet(0).valve(undecided).build())
                        .valves()
                        .get(0)))
                .isEqualTo(Work.NARROW);
    }

    @Test
    void whatWasSetAndNotReadSinceIsToBeRechecked() {
        ValveReading found = ValveReading.of("1-in-1", "0.05 mm goes", "0.10 mm refuses");
        LeafStack leaf = LeafStack.parse("0.16 mm");

        assertThat(now(found.withDone(new Done.SetWith(leaf), List.of()))).containsExactly(intake(Work.RECHECK));
    }

    /** What a decompressor may have held open reads tight: that is no reason to set it. */
    @Test
    void aReadingThatADecompressorPutsInDoubtIsReadAgain() {
        EngineSpec held = School.generatorEngine()
                .decompressor(new Decompressor(ValveId.parse("1-ex-1"), Ratio.of(60, 1), Ratio.of(30, 1)))
                .build();
        ValveReading tight = ValveReading.of("1-ex-1", "0.07 mm goes", "0.09 mm refuses");
        CheckSheet sheet =
                CheckSheet.builder(held, School.GENERATOR_LEAVES).valve(tight).build();
        CheckSheet clear = CheckSheet.builder(held, School.GENERATOR_LEAVES)
                .valve(tight.withStop("clear of the decompressor"))
                .build();

        assertThat(CheckNow.work(CheckReport.of(sheet).valves().get(0))).isEqualTo(Work.IN_DOUBT);
        assertThat(CheckNow.work(CheckReport.of(clear).valves().get(0))).isEqualTo(Work.SET);
    }

    @Test
    void aDishedPadAndContradictingTrialsAreSaid() {
        ValveReading dished =
                ValveReading.of("1-in-1", "0.05 mm goes", "0.10 mm refuses").withPad(Pad.DISHED);

        assertThat(CheckNow.work(
                        CheckReport.of(sheet(0).valve(dished).build()).valves().get(0)))
                .isEqualTo(Work.DISHED);
        assertThat(CheckNow.work(
                        CheckReport.of(sheet(0).valve(ValveReading.of("1-in-1", "0.12 mm goes", "0.10 mm refuses"))
                                        .build())
                                .valves()
                                .get(0)))
                .isEqualTo(Work.REPEAT);
        assertThat(CheckNow.work(
                        CheckReport.of(sheet(0).valve(ValveReading.of("1-in-1")).build())
                                .valves()
                                .get(0)))
                .isEqualTo(Work.READ);
        assertThat(CheckNow.work(CheckReport.of(sheet(0).valve(ValveReading.of("1-in-1", MIDDLE))
                                .build())
                        .valves()
                        .get(0)))
                .isEqualTo(Work.WITHIN);
    }

    @Test
    void aValveThatWasNeverReadIsToBeReadAndTheTimeSaysThatItRestsOnNothing() {
        CheckReport report = CheckReport.of(sheet(0).history(List.of(visit(1, "1-in-1", "(0.14, 0.16) mm")))
                .valve(ValveReading.of("1-in-1", MIDDLE))
                .build());
        EngineTrend trend = report.findTrend().orElseThrow();

        assertThat(report.checkNow(trend)).containsExactly(new CheckNow(ValveId.parse("1-ex-1"), Gap.ONLY, Work.READ));
        assertThat(trend.limiting().orElseThrow().name()).isEqualTo("1-ex-1");
        assertThat(trend.checks()).isZero();
        assertThat(trend.caveat().orElseThrow()).contains("no check of 1-ex-1", "rests on what is assumed");
    }

    /** Four checks and the fifth of today are enough, three and today's are not. */
    @Test
    void fewChecksAreSaidAndManyAreNot() {
        for (int visits = 1; visits <= 6; visits++) {
            CheckReport report = CheckReport.of(sheet(visits)
                    .valve(ValveReading.of("1-in-1", MIDDLE))
                    .valve(ValveReading.of("1-ex-1", MIDDLE))
                    .build());
            EngineTrend trend = report.findTrend().orElseThrow();

            assertThat(trend.checks()).isEqualTo(visits + 1);
            assertThat(trend.caveat().isPresent()).as("%s visits", visits).isEqualTo(visits < 4);
            assertThat(report.checkNow(trend)).isEmpty();
        }
    }

    @Test
    void eachMethodHasItsOwnWords() {
        CheckReport report = CheckReport.of(sheet(2).valve(ValveReading.of("1-in-1", "0.12 mm goes", "0.14 mm refuses"))
                .valve(ValveReading.of("1-ex-1", MIDDLE))
                .build());

        assertThat(report.trend(WearTrendFitter.withDefaults().withMethod(TrendMethod.FEASIBLE_LINES))
                        .orElseThrow()
                        .caveat())
                .isEmpty();
        assertThat(report.findTrend().orElseThrow().caveat().orElseThrow()).startsWith("only 3 checks of ");
    }

    @Test
    void serialisesAndRefusesNull() {
        Contracts.serialises(intake(Work.SET));
        assertThat(intake(Work.SET).name()).isEqualTo("1-in-1");
        Contracts.refuseNull(
                () -> new CheckNow(null, Gap.ONLY, Work.SET),
                () -> new CheckNow(ValveId.parse("1-in-1"), null, Work.SET),
                () -> new CheckNow(ValveId.parse("1-in-1"), Gap.ONLY, null),
                () -> CheckReport.of(sheet(0).build()).checkNow(null));
    }
}
