package dev.lash.adjust;

import static dev.lash.testing.Readings.judged;
import static dev.lash.testing.Readings.leaves;
import static dev.lash.testing.Readings.mm;
import static dev.lash.testing.Readings.window;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.Pitch;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.GaugeSet;
import dev.lash.judge.Judgement;
import dev.lash.measure.Ratio;
import dev.lash.testing.Contracts;
import java.util.List;
import org.junit.jupiter.api.Test;

class AdjustmentTaskTest {
    private static final ValveTrain SCREW = ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm"));
    private static final ClearanceSpec CLEARANCE = ClearanceSpec.typical(window("0.05..0.09 mm"));
    private static final Judgement TIGHT = judged("0.05..0.09 mm", "0.03 mm goes", "0.05 mm refuses");
    private static final GaugeSet GAUGES = leaves("0.03", "0.05", "0.07");
    private static final InstalledShim SHIM = InstalledShim.marked(mm("2.45"));

    private static AdjustmentTask task() {
        return AdjustmentTask.of(SCREW, CLEARANCE, TIGHT, GAUGES);
    }

    @Test
    void aTaskHasASoundPadAndNoShims() {
        assertThat(task().pad()).isEqualTo(Pad.SOUND);
        assertThat(task().findShim()).isEmpty();
        assertThat(task().box()).isEqualTo(ShimBox.empty());
    }

    @Test
    void shimsAreAdded() {
        ShimBox box = new ShimBox(List.of(new ShimBox.Lot(mm("2.40"), 1, "")));
        AdjustmentTask task = task().withShims(SHIM, box);
        assertThat(task.findShim()).contains(SHIM);
        assertThat(task.box()).isEqualTo(box);
        assertThat(task.judgement()).isEqualTo(TIGHT);
        assertThat(task.gauges()).isEqualTo(GAUGES);
    }

    @Test
    void aTaskIsOfTheOnlyGapAndTheFirstTry() {
        assertThat(task().gap()).isEqualTo(Gap.ONLY);
        assertThat(task().tries()).isZero();
        assertThat(task().findEccentricAngle()).isEmpty();
        assertThat(task().findLockShift()).isEmpty();
    }

    @Test
    void eachWitherChangesItsOwnPart() {
        LockShift shift = new LockShift(0.02, 0.005, 3);
        ShimBox box = new ShimBox(List.of(new ShimBox.Lot(mm("2.40"), 1, "")));
        AdjustmentTask all = task().withShims(SHIM, box)
                .withPad(Pad.DISHED)
                .withGap(Gap.OPENER)
                .withEccentricAngle(Ratio.parse("30"))
                .afterTries(shift, 2);
        assertThat(all.findShim()).contains(SHIM);
        assertThat(all.box()).isEqualTo(box);
        assertThat(all.pad()).isEqualTo(Pad.DISHED);
        assertThat(all.gap()).isEqualTo(Gap.OPENER);
        assertThat(all.findEccentricAngle()).contains(Ratio.parse("30"));
        assertThat(all.findLockShift()).contains(shift);
        assertThat(all.tries()).isEqualTo(2);
        assertThat(task().afterTries(shift, 2)
                        .withEccentricAngle(Ratio.parse("30"))
                        .withGap(Gap.OPENER)
                        .withPad(Pad.DISHED)
                        .withShims(SHIM, box))
                .as("in any order")
                .isEqualTo(all);
        assertThat(all.withShims(null, ShimBox.empty()).findShim()).isEmpty();
        assertThat(all.withEccentricAngle(null).findEccentricAngle()).isEmpty();
    }

    @Test
    void aShiftThatRestsOnNoReadingIsNone() {
        assertThat(task().afterTries(LockShift.learn(List.of()), 1).findLockShift())
                .isEmpty();
    }

    @Test
    void triesAreCountedFromNone() {
        LockShift none = LockShift.learn(List.of());
        Contracts.refuses(() -> task().afterTries(none, -1), "tries \"-1\"", "is negative", "0 or more");
    }

    @Test
    void equalityAndSerialisation() {
        Contracts.equality(
                task(),
                task(),
                List.of(
                        task().withShims(SHIM, ShimBox.empty()),
                        task().withGap(Gap.CLOSER),
                        task().withEccentricAngle(Ratio.ZERO),
                        task().afterTries(LockShift.learn(List.of()), 1)));
        Contracts.serialises(task());
        Contracts.serialises(task().withShims(SHIM, ShimBox.empty()));
    }

    @Test
    void nullIsRefused() {
        Contracts.refuseNull(
                () -> AdjustmentTask.of(null, CLEARANCE, TIGHT, GAUGES),
                () -> AdjustmentTask.of(SCREW, null, TIGHT, GAUGES),
                () -> AdjustmentTask.of(SCREW, CLEARANCE, null, GAUGES),
                () -> AdjustmentTask.of(SCREW, CLEARANCE, TIGHT, null),
                () -> task().withShims(SHIM, null),
                () -> task().withPad(null),
                () -> task().withGap(null),
                () -> task().afterTries(null, 1));
    }
}
