package dev.lash.adjust;

import dev.lash.adjust.Adjustment.Inspect;
import dev.lash.adjust.Adjustment.MeasureFurther;
import dev.lash.adjust.Adjustment.Turn;
import dev.lash.adjust.Adjustment.TurnFrom;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.ValveTrain;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import dev.lash.plan.NextLeaf;
import java.math.BigDecimal;

/**
 * A wedge screw that may stand in whole turns only: dc = step x turns.
 *
 * @param train the train
 * @param task the reading and all that the adjustment depends on
 * @param aim where to set, in nanometres
 */
record WedgeWork(ValveTrain.Wedge train, AdjustmentTask task, Ratio aim) {
    private static final BigDecimal FULL_TURN = BigDecimal.valueOf(360);

    Adjustment adjustment() {
        LengthInterval now = task.judgement().bracket().interval();
        if (!now.isBounded()) {
            return new MeasureFurther(
                    null, null, "find the missing end of the reading: without it no number of turns is certain");
        }
        Turns turns = turns(now);
        if (!turns.isEmpty()) {
            BigDecimal degrees = turns.nearest().multiply(FULL_TURN);
            return new Turn(
                    TurnFrom.PRESENT_SETTING,
                    new TurnRange(degrees, degrees),
                    new TurnRange(turns.least.multiply(FULL_TURN), turns.most.multiply(FULL_TURN)),
                    null,
                    "whole turns only; positive: the clearance grows",
                    null,
                    "");
        }
        return NextLeaf.towards(task.judgement().bracket(), i -> !turns(i).isEmpty(), task.gauges())
                .<Adjustment>map(next -> new MeasureFurther(
                        next, null, "no number of whole turns is certain for a reading as wide as this: narrow it"))
                .orElseGet(() -> new Inspect(
                        "no number of whole turns ends in the window for certain: the step of "
                                + train.step().toString(task.gauges().unit()) + " is coarse for "
                                + task.clearance()
                                        .setTo()
                                        .toString(task.gauges().unit())
                                + "; see the manual for another way",
                        null));
    }

    private Turns turns(LengthInterval now) {
        if (!now.isBounded()) {
            return new Turns(BigDecimal.ONE, BigDecimal.ZERO, BigDecimal.ZERO);
        }
        ClearanceWindow window = task.clearance().setTo();
        Ratio step = Ratio.nanometresOf(train.step());
        Ratio low = Ratio.nanometresOf(now.lower().orElseThrow());
        Ratio high = Ratio.nanometresOf(now.upper().orElseThrow());
        Ratio toAim =
                aim.minus(low.plus(high).times(Ratio.of(1, 2))).dividedBy(step).plus(Ratio.of(1, 2));
        return new Turns(
                Ratio.nanometresOf(window.lower()).minus(low).dividedBy(step).ceiling(0),
                Ratio.nanometresOf(window.upper()).minus(high).dividedBy(step).floor(0),
                toAim.floor(0));
    }

    /** Whole turns that are certain, and the number nearest to the aim. */
    private record Turns(BigDecimal least, BigDecimal most, BigDecimal toAim) {
        boolean isEmpty() {
            return least.compareTo(most) > 0;
        }

        BigDecimal nearest() {
            return toAim.max(least).min(most);
        }
    }
}
