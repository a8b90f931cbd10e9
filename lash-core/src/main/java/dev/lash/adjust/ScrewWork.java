package dev.lash.adjust;

import dev.lash.adjust.Adjustment.Inspect;
import dev.lash.adjust.Adjustment.SetToLeaf;
import dev.lash.adjust.Adjustment.Turn;
import dev.lash.adjust.Adjustment.TurnFrom;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.ValveTrain.ScrewPlace;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import java.util.List;
import java.util.Optional;

/**
 * A screw or nut: dc = k x pitch x degrees / 360, with k from where it sits ({@link ValveTrain.Screw#gain}).
 *
 * @param train the train
 * @param task the reading and all that the adjustment depends on
 * @param aim where to set, in nanometres
 * @param lasting whether the aim is where a setting lasts longest
 * @param mostTries after how many adjustments without success something is looked at instead
 */
record ScrewWork(ValveTrain.Screw train, AdjustmentTask task, Ratio aim, boolean lasting, int mostTries) {
    private static final String BRIDGE_FIRST =
            "set the bridge so that it rests on both valve stems without play, and lock it; then the rocker";

    Adjustment adjustment() {
        if (task.tries() >= mostTries) {
            return new Inspect(
                    "adjusted " + task.tries()
                            + " times without success: look for a worn pad or tip, a stretched thread, a nut that "
                            + "does not hold, before another try",
                    null);
        }
        return new SettingLeaf(task, aim, lasting)
                .find()
                .<Adjustment>map(choice -> new SetToLeaf(
                        choice.leaf(),
                        turnTo(choice.drag()).orElse(null),
                        List.of(),
                        choice.resulting(),
                        task.findLockShift().orElse(null),
                        first()))
                .orElseGet(this::turnToAim);
    }

    private String first() {
        return train.place() == ScrewPlace.BRIDGE ? BRIDGE_FIRST : "";
    }

    private Optional<TurnRange> turnTo(LengthInterval after) {
        LengthInterval now = task.judgement().bracket().interval();
        if (!now.isBounded()) {
            return Optional.empty();
        }
        return Optional.of(TurnRange.outward(
                degrees(Ratio.nanometresOf(
                        after.lower().orElseThrow().minus(now.upper().orElseThrow()))),
                degrees(Ratio.nanometresOf(
                        after.upper().orElseThrow().minus(now.lower().orElseThrow())))));
    }

    private Ratio degrees(Ratio change) {
        return TurnRange.degrees(change, train.nanometresPerTurn());
    }

    /**
     * Counted from where the screw stands: to the aim from both ends of the reading, less what the nut is expected to add; and what is
     * certain to end in the window, which nothing is where that rests on an estimate.
     */
    private Adjustment turnToAim() {
        LengthInterval now = task.judgement().bracket().interval();
        ClearanceWindow window = task.clearance().setTo();
        if (!now.isBounded()) {
            return turnFromNoPlay();
        }
        Optional<LockShift> shift = task.findLockShift();
        Ratio low = Ratio.nanometresOf(now.lower().orElseThrow());
        Ratio high = Ratio.nanometresOf(now.upper().orElseThrow());
        Ratio added = Ratio.nanometresOf(shift.map(LockShift::estimate).orElse(Length.ZERO));
        TurnRange toAim = TurnRange.outward(
                degrees(aim.minus(high).minus(added)), degrees(aim.minus(low).minus(added)));
        Optional<TurnRange> certain = shift.isPresent()
                ? Optional.empty()
                : TurnRange.inward(
                        degrees(Ratio.nanometresOf(window.lower()).minus(low)),
                        degrees(Ratio.nanometresOf(window.upper()).minus(high)));
        return turn(TurnFrom.PRESENT_SETTING, toAim, certain, shift);
    }

    /** Counted from no play, where a reading is not to be trusted or lacks an end. */
    Adjustment turnFromNoPlay() {
        Ratio from = degrees(Ratio.nanometresOf(task.clearance().setTo().lower()));
        Ratio to = degrees(Ratio.nanometresOf(task.clearance().setTo().upper()));
        return turn(
                TurnFrom.NO_PLAY,
                TurnRange.inward(from, to).orElseGet(() -> TurnRange.outward(from, to)),
                Optional.empty(),
                Optional.empty());
    }

    private Turn turn(TurnFrom from, TurnRange range, Optional<TurnRange> certain, Optional<LockShift> shift) {
        // from no play the range is the window's: flats must not reach beyond it
        Optional<TurnRange.FlatRange> flats =
                from == TurnFrom.NO_PLAY ? range.flatsWithin(train.head()) : range.flats(train.head());
        return new Turn(
                from, range, certain.orElse(null), flats.orElse(null), direction(range), shift.orElse(null), first());
    }

    private String direction(TurnRange turn) {
        if (turn.from().signum() >= 0) {
            return train.place().growing();
        }
        if (turn.to().signum() <= 0) {
            return train.place().shrinking();
        }
        return "positive: " + train.place().growing() + "; negative: "
                + train.place().shrinking();
    }
}
