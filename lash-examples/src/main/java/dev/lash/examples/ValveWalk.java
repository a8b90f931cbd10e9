package dev.lash.examples;

import dev.lash.adjust.Adjuster;
import dev.lash.adjust.Adjustment;
import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.check.CheckSheet;
import dev.lash.check.Done;
import dev.lash.check.ExpectedReadings;
import dev.lash.check.ValveCheck;
import dev.lash.check.ValveReading;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.Bracket;
import dev.lash.gauge.Fit;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.Trial;
import dev.lash.judge.Judgement;
import dev.lash.judge.Verdict;
import dev.lash.measure.LengthInterval;
import dev.lash.plan.LeafPlanner;
import dev.lash.plan.NextLeaf;
import dev.lash.plan.PlanGoal;
import java.util.List;
import java.util.Optional;

/**
 * One valve of a sheet, as a walk sees it: what is known of it as it stands now, and what to ask next. Worked out from the sheet
 * alone, so that a walk that broke off goes on from the sheet.
 *
 * <p>After an adjustment the trials of the recheck are taken as a check of their own, of a valve with the shim that was fitted.
 */
final class ValveWalk {
    private final CheckSheet sheet;
    private final ValveReading reading;
    private final ValveCheck check;
    private final WalkStep step;

    /** For what does not hang on which leaf comes next. */
    ValveWalk(CheckSheet sheet, ValveReading reading) {
        this(sheet, reading, ExpectedReadings.none());
    }

    /** @param expected what the earlier checks let expect of the valve as found; after an adjustment it does not count */
    ValveWalk(CheckSheet sheet, ValveReading reading, ExpectedReadings expected) {
        this.sheet = sheet;
        this.reading = reading;
        LeafPlanner usual = LeafPlanner.withDefaults();
        this.check = ValveCheck.of(
                sheet,
                asItStands(reading),
                Adjuster.withDefaults(),
                reading.findDone().isPresent() ? usual : expected.planner(usual, reading.valve(), reading.gap()));
        this.step = work();
    }

    private static ValveReading asItStands(ValveReading reading) {
        if (reading.findDone().isEmpty()) {
            return reading;
        }
        return new ValveReading(
                reading.valve(),
                reading.gap(),
                reading.recheck(),
                List.of(),
                reading.turnsFree(),
                reading.findShimNow().orElse(null),
                reading.pad(),
                null,
                reading.stop(),
                null,
                0,
                List.of());
    }

    ValveReading reading() {
        return reading;
    }

    /** The valve as it stands now: as found, or after the adjustment. */
    ValveCheck check() {
        return check;
    }

    WalkStep step() {
        return step;
    }

    boolean isFinished() {
        return step instanceof WalkStep.Finished;
    }

    /** Whether the trials asked for are those after an adjustment. */
    boolean isRecheck() {
        return reading.findDone().isPresent();
    }

    /** The trials that the next answer is added to. */
    List<Trial> trials() {
        return isRecheck() ? reading.recheck() : reading.trials();
    }

    private WalkStep work() {
        if (reading.pad() == Pad.DISHED) {
            return dished();
        }
        Optional<Clash> clash = Clash.in(trials(), sheet.rule());
        if (clash.isPresent()) {
            Clash found = clash.get();
            return new WalkStep.Repeat(
                    found.toRepeat(trials()).orElse(trials().get(found.first()).leaf()), found.pair());
        }
        Judgement judged = check.judgement().orElseThrow();
        return switch (judged.verdict()) {
            case WITHIN -> new WalkStep.Finished();
            case UNDECIDED -> undecided(judged);
            case TIGHT, LOOSE -> decided(judged.bracket());
        };
    }

    /** No leaf tells anything of a dished pad, so there is nothing to walk but the adjustment. */
    private WalkStep dished() {
        return isRecheck()
                ? new WalkStep.Finished()
                : new WalkStep.AskDone(check.adjustment().orElseThrow());
    }

    private WalkStep undecided(Judgement judged) {
        if (reading.findDone().orElse(null) instanceof Done.SetWith set
                && judged.bracket().trials().isEmpty()
                && settles(set.leaf(), judged.window())) {
            return new WalkStep.Offer(set.leaf(), true);
        }
        return check.nextLeaf()
                .<WalkStep>map(next -> new WalkStep.Offer(next.leaf(), next.owned()))
                .orElseGet(() -> new WalkStep.Stuck(
                        "No leaf settles this under the " + sheet.rule().name() + " rule: the valve stays undecided."));
    }

    /** Whether the setting leaf, should it still drag, shows that all is well; then it is the first to try after locking. */
    private boolean settles(LeafStack leaf, ClearanceWindow window) {
        LengthInterval drag = sheet.rule().claim(new Trial(leaf, Fit.DRAGS));
        return sheet.gauges().owns(leaf) && Verdict.of(drag, window) == Verdict.WITHIN;
    }

    /** What to do as the valve stands; after an adjustment the shifts of lock nuts and the tries made count. */
    private Adjustment advice() {
        Optional<Adjustment> again = isRecheck()
                ? ValveCheck.of(sheet, reading, Adjuster.withDefaults()).again()
                : Optional.empty();
        return again.or(check::adjustment).orElseThrow();
    }

    private WalkStep decided(Bracket bracket) {
        Adjustment advice = advice();
        if (advice instanceof Adjustment.MeasureFurther further) {
            Optional<NextLeaf> next = further.findLeaf();
            if (next.isPresent()) {
                return new WalkStep.Offer(next.get().leaf(), next.get().owned());
            }
            if (needsShim()) {
                return new WalkStep.AskShim();
            }
            if (bracket.interval().upper().isEmpty() && needsBothEnds()) {
                Optional<LeafStack> thicker = LeafPlanner.withDefaults()
                        .plan(sheet.gauges(), bracket, PlanGoal.size())
                        .next();
                if (thicker.isPresent()) {
                    return new WalkStep.Offer(thicker.get(), true);
                }
            }
        }
        return needsShim() && advice instanceof Adjustment.Inspect
                ? new WalkStep.AskShim()
                : new WalkStep.AskDone(advice);
    }

    private boolean needsBothEnds() {
        return WalkWords.hasShims(sheet.engine().train()) || sheet.engine().train() instanceof ValveTrain.Wedge;
    }

    /** A shim that was asked for and is not known is on the sheet without a size, so it is not asked for twice. */
    private boolean needsShim() {
        return WalkWords.hasShims(sheet.engine().train())
                && check.reading().findShim().isEmpty();
    }
}
