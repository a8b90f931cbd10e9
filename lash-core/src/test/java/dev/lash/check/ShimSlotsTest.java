package dev.lash.check;

import static dev.lash.testing.Readings.interval;
import static dev.lash.testing.Readings.leaves;
import static dev.lash.testing.Readings.mm;
import static dev.lash.testing.Readings.trials;
import static dev.lash.testing.Readings.window;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.Adjustment.FitShim;
import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.adjust.InstalledShim;
import dev.lash.adjust.ShimBox;
import dev.lash.adjust.ShimPlan;
import dev.lash.adjust.ShimPlan.Move;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.ValveTrain.ShimPlace;
import dev.lash.gauge.LeafStack;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.testing.Tasks;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The shim plan of a sheet goes on from what has been done: windows 0.10 to 0.15, sizes by 0.05, one 2.40 in the box. */
class ShimSlotsTest {
    private static final ValveReading TIGHT =
            ValveReading.of("1-in-1", "0.05 mm goes", "0.10 mm refuses").withShim(School.marked("2.45"));
    private static final ValveReading FITTED = TIGHT.withDone(new Done.Fitted(mm("2.40")), List.of());

    private static CheckSheet sheet(ValveReading... readings) {
        EngineSpec engine = EngineSpec.builder("school-trail", "Trail bike, bucket single")
                .valves("1-in-1", "1-in-2", "1-ex-1")
                .train(ValveTrain.Shim.bucket(ShimPlace.UNDER_BUCKET, ShimRange.parse("1.20..3.50 mm step 0.05 mm")))
                .window(ValveRole.INTAKE, window("0.10..0.15 mm"))
                .window(ValveRole.EXHAUST, window("0.10..0.15 mm"))
                .build();
        CheckSheet.Builder sheet = CheckSheet.builder(engine, leaves("0.05", "0.08", "0.10", "0.15", "0.20"))
                .shimBox(Tasks.box("2.40"));
        for (ValveReading reading : readings) {
            sheet.valve(reading);
        }
        return sheet.build();
    }

    private static ShimPlan plan(CheckSheet sheet) {
        return CheckReport.of(sheet).shimPlan().orElseThrow();
    }

    @Test
    void whatWasFittedAndCheckedAgainStays() {
        CheckSheet sheet =
                sheet(TIGHT.withDone(new Done.Fitted(mm("2.40")), trials("0.10 mm goes", "0.15 mm refuses")));
        ShimPlan plan = plan(sheet);
        Move move = plan.moves().get(0);
        assertThat(move.findShim()).contains(mm("2.40"));
        assertThat(move.stays()).isTrue();
        assertThat(move.resulting()).isEqualTo(interval("(0.10, 0.15) mm"));
        assertThat(move.verdict()).isEqualTo(Verdict.WITHIN);
        assertThat(plan.steps()).isEmpty();
        assertThat(sheet.shimBox()).as("as at the start").isEqualTo(Tasks.box("2.40"));
        assertThat(sheet.shimBoxNow().sizes()).containsExactly(mm("2.45"));
    }

    @Test
    void whatWasFittedAndNotCheckedAgainIsToBeMeasured() {
        Move move = plan(sheet(FITTED)).moves().get(0);
        assertThat(move.findShim()).contains(mm("2.40"));
        assertThat(move.stays()).isTrue();
        assertThat(move.resulting()).isEqualTo(LengthInterval.any());
        assertThat(move.why()).contains("fitted shim 2.40 mm, and not checked again", "then measure");
        assertThat(plan(sheet(FITTED)).findings().get(0).text()).contains("1-in-1: fitted shim 2.40 mm, and not");
    }

    @Test
    void aRecheckThatIsNotWithinIsPlannedFrom() {
        Move move = plan(sheet(TIGHT.withDone(new Done.Fitted(mm("2.40")), trials("0.05 mm goes", "0.08 mm refuses"))))
                .moves()
                .get(0);
        // (0.05, 0.08) with 2.40 in: 2.35 leaves (0.10, 0.13)
        assertThat(move.findShim()).contains(mm("2.35"));
        assertThat(move.resulting()).isEqualTo(interval("(0.10, 0.13) mm"));
        Move torn = plan(sheet(TIGHT.withDone(new Done.Fitted(mm("2.40")), trials("0.15 mm goes", "0.10 mm refuses"))))
                .moves()
                .get(0);
        assertThat(torn.why()).isEqualTo("its trials contradict each other: repeat them; the shim stays");
    }

    @Test
    void aShimThatWasTakenOutIsThereForAnother() {
        // 2.45 came out of 1-in-1; 1-in-2 has 2.50 and (0.05, 0.10), so it wants just that
        ValveReading other =
                ValveReading.of("1-in-2", "0.05 mm goes", "0.10 mm refuses").withShim(School.marked("2.50"));
        CheckSheet sheet =
                sheet(TIGHT.withDone(new Done.Fitted(mm("2.40")), trials("0.10 mm goes", "0.15 mm refuses")), other);
        ShimPlan plan = plan(sheet);
        assertThat(plan.moves().get(1).findShim()).contains(mm("2.45"));
        assertThat(plan.moves().get(1).source()).hasToString("box");
        assertThat(plan.buy()).isEmpty();
        FitShim advice =
                (FitShim) CheckReport.of(sheet).valves().get(1).adjustment().orElseThrow();
        assertThat(advice.shim()).isEqualTo(mm("2.45"));
        assertThat(advice.inBox()).isTrue();
        FitShim asFound =
                (FitShim) CheckReport.of(sheet).valves().get(0).adjustment().orElseThrow();
        assertThat(asFound.inBox()).as("what was advised of it was in the box").isTrue();
    }

    @Test
    void aShimThatWasFittedIsGone() {
        ValveReading same =
                ValveReading.of("1-in-2", "0.05 mm goes", "0.10 mm refuses").withShim(School.marked("2.45"));
        FitShim advice = (FitShim)
                CheckReport.of(sheet(FITTED, same)).valves().get(1).adjustment().orElseThrow();
        assertThat(advice.shim()).isEqualTo(mm("2.40"));
        assertThat(advice.inBox()).isFalse();
        assertThat(sheet(TIGHT, same).shimBoxNow()).isEqualTo(Tasks.box("2.40"));
    }

    @Test
    void theBoxKeepsTypesApartAndOrderDoesNotMatter() {
        InstalledShim typed = new InstalledShim(mm("2.45"), null, Length.ZERO, "9.48");
        CheckSheet sheet = sheet(
                // fitted from 1-in-2, which is worked later
                ValveReading.of("1-in-1", "0.05 mm goes")
                        .withShim(typed)
                        .withDone(new Done.Fitted(mm("2.50")), List.of()),
                ValveReading.of("1-in-2", "0.05 mm goes")
                        .withShim(new InstalledShim(mm("2.50"), null, Length.ZERO, "9.48"))
                        .withDone(new Done.Fitted(mm("2.40")), List.of()));
        ShimBox now = sheet.shimBoxNow();
        assertThat(now.count(mm("2.50"), typed)).isZero();
        assertThat(now.count(mm("2.45"), typed)).isOne();
        assertThat(now.count(mm("2.40"), typed)).isZero();
        assertThat(sheet.valves().get(0).findShimNow())
                .contains(new InstalledShim(mm("2.50"), null, Length.ZERO, "9.48"));
        assertThat(TIGHT.findShimNow()).contains(School.marked("2.45"));
    }

    @Test
    void aDishedPadIsNamed() {
        ShimPlan plan = plan(sheet(TIGHT.withPad(Pad.DISHED)));
        assertThat(plan.moves().get(0).why())
                .contains("dished", "the shim stays")
                .doesNotContain("not measured");
        assertThat(plan.findings().get(0).text())
                .contains("dished", "then measure")
                .doesNotContain("better than");
    }

    /** A leaf that is said to have been set in a shim train: whatever was done, the reading as found no longer holds. */
    @Test
    void whatWasDoneToAnotherTrainEndsTheReadingToo() {
        Move move = plan(sheet(TIGHT.withDone(new Done.SetWith(LeafStack.parse("0.10 mm")), List.of())))
                .moves()
                .get(0);
        assertThat(move.resulting()).isEqualTo(LengthInterval.any());
        assertThat(move.findShim()).contains(mm("2.45"));
    }
}
