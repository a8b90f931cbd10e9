package dev.lash.adjust;

import dev.lash.adjust.Adjustment.Machine;
import dev.lash.adjust.Adjustment.MeasureFurther;
import dev.lash.engine.ClearanceWindow;
import dev.lash.gauge.LeafStack;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.plan.NextLeaf;
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
        LengthInterval now = task.judgement().bracket().interval();
        boolean tight = task.judgement().verdict() == Verdict.TIGHT;
        Optional<LengthInterval> amount = amount(now);
        // what is taken off cannot be put back, so the reading is narrowed before a tool is taken up
        Optional<Adjustment> narrow = amount.isPresent() ? Optional.empty() : narrow(now);
        if (narrow.isPresent()) {
            return narrow.get();
        }
        String unknown = now.isBounded()
                ? "; no amount is certain for this reading, and no leaf would make one so: take off little at a time and measure"
                : "; how much cannot be told from this reading: take off little at a time and measure";
        if (tight) {
            return new Machine(
                    "seat and face first if they need work, as cutting them tightens; then grind the stem tip"
                            + amount.map(a -> " so that the clearance grows by " + words(a, unit)
                                            + "; take off little at a time and measure")
                                    .orElse(unknown),
                    amount.orElse(null));
        }
        return new Machine(
                "cut seat or face so that the clearance shrinks"
                        + amount.map(a -> " by " + words(a.negated(), unit)).orElse("")
                        + ", or renew valve or tappet; if it then is tight, grind the stem tip"
                        + (amount.isPresent() ? "; measure between cuts" : unknown),
                amount.orElse(null));
    }

    /** The leaf that may make an amount certain, or that may give a reading its upper end. */
    private Optional<Adjustment> narrow(LengthInterval now) {
        if (now.lower().isPresent() && now.upper().isEmpty()) {
            Length low = now.lower().get();
            return task.gauges().leaves().stream()
                    .filter(leaf -> leaf.thickness().isMoreThan(low))
                    .findFirst()
                    .map(leaf -> new MeasureFurther(
                            new NextLeaf(LeafStack.of(leaf), true),
                            null,
                            "try thicker leaves until one does not go: the reading has no upper end, so no amount is "
                                    + "certain, and what is cut off cannot be put back"));
        }
        return NextLeaf.towards(task.judgement().bracket(), i -> amount(i).isPresent(), task.gauges())
                .map(next -> new MeasureFurther(
                        next,
                        null,
                        "no amount is certain for a reading as wide as this, and what is cut off cannot be put back: "
                                + (next.owned() ? "offer " : "borrow ")
                                + next.leaf().toString(task.gauges().unit()) + " to narrow it"));
    }

    /** The changes that end in the window for every clearance of the reading; empty where there are none. */
    private Optional<LengthInterval> amount(LengthInterval now) {
        if (!now.isBounded()) {
            return Optional.empty();
        }
        ClearanceWindow window = task.clearance().setTo();
        Length least = window.lower().minus(now.lower().orElseThrow());
        Length most = window.upper().minus(now.upper().orElseThrow());
        return least.isMoreThan(most) ? Optional.empty() : Optional.of(LengthInterval.closed(least, most));
    }

    private static String words(LengthInterval amount, LengthUnit unit) {
        return amount.lower().orElseThrow().toString(unit) + " to "
                + amount.upper().orElseThrow().toString(unit);
    }
}
