package dev.lash.adjust;

import dev.lash.adjust.Adjustment.Machine;
import dev.lash.engine.ClearanceWindow;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import java.util.Optional;

/**
 * A valve that only machine work adjusts: grinding the stem tip makes the clearance grow by what is ground off, cutting seat or face
 * lets the valve in deeper and makes it shrink. Seat first, then tip, since the tip can be ground to the last hundredth.
 *
 * @param task the reading and all that the adjustment depends on
 */
record MachineWork(AdjustmentTask task) {
    Adjustment adjustment() {
        LengthUnit unit = task.gauges().unit();
        boolean tight = task.judgement().verdict() == Verdict.TIGHT;
        String order = "seat and face first if they need work, as cutting them tightens; then grind the stem tip";
        Optional<LengthInterval> amount = amount();
        if (tight) {
            return new Machine(
                    order
                            + amount.map(a -> " so that the clearance grows by " + words(a, unit))
                                    .orElse("") + "; take off little at a time and measure",
                    amount.orElse(null));
        }
        return new Machine(
                "cut seat or face so that the clearance shrinks"
                        + amount.map(a -> " by " + words(a.negated(), unit)).orElse("")
                        + ", or renew valve or tappet; if it then is tight, grind the stem tip; measure between cuts",
                amount.orElse(null));
    }

    /** The changes that end in the window for every clearance of the reading; where there are none, those that may. */
    private Optional<LengthInterval> amount() {
        LengthInterval now = task.judgement().bracket().interval();
        if (!now.isBounded()) {
            return Optional.empty();
        }
        ClearanceWindow window = task.clearance().setTo();
        Length fromLow = window.lower().minus(now.lower().orElseThrow());
        Length fromHigh = window.upper().minus(now.upper().orElseThrow());
        return Optional.of(LengthInterval.closed(Length.min(fromLow, fromHigh), Length.max(fromLow, fromHigh)));
    }

    private static String words(LengthInterval amount, LengthUnit unit) {
        return amount.lower().orElseThrow().toString(unit) + " to "
                + amount.upper().orElseThrow().toString(unit);
    }
}
