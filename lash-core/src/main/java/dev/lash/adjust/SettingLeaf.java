package dev.lash.adjust;

import dev.lash.gauge.Fit;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.Trial;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;

/**
 * The leaf to set with: of those whose drag lies in the window to set to, with the allowances of the gauge set and what the lock nut
 * is expected to add, the one nearest to the aim; where the aim is the place that lasts longest, nearest as a share of the way from
 * there to the limit, so that a leaf on the limit itself comes last. Of two the thicker; single leaves before stacks.
 *
 * <p>What the nut adds is an estimate. A leaf comes first for which all that is likely of it ends in the window; then one for which
 * a standard error either way does, so that the window is more likely hit than missed; a leaf that would land on the edge is none.
 *
 * @param task the reading and all that the adjustment depends on
 * @param aim where to set, in nanometres
 * @param lasting whether the aim is where a setting lasts longest
 */
record SettingLeaf(AdjustmentTask task, Ratio aim, boolean lasting) {
    /** Of the way to a limit that is the aim itself: there is none to go. */
    private static final Ratio BEYOND = Ratio.of(1000, 1);

    /**
     * A leaf to set with.
     *
     * @param leaf the leaf
     * @param drag the clearance while it drags
     * @param resulting the clearance once the nut is tight; with a learnt shift all that is likely, which is not certain
     */
    record Choice(LeafStack leaf, LengthInterval drag, LengthInterval resulting) {}

    Optional<Choice> find() {
        return find(choice -> true);
    }

    /** The same among the leaves that suit. */
    Optional<Choice> find(Predicate<Choice> suits) {
        List<LeafStack> singles =
                task.gauges().leaves().stream().map(LeafStack::of).distinct().toList();
        return find(singles, shift(LockShift.LIKELY), suits)
                .or(() -> task.findLockShift().isPresent() ? find(singles, shift(1), suits) : Optional.empty());
    }

    private Optional<Choice> find(List<LeafStack> singles, LengthInterval added, Predicate<Choice> suits) {
        ReadingRule read = task.judgement().bracket().rule();
        ReadingRule allowing = task.gauges().guardedRule();
        // a leaf of a rule wider than the set's allowances must hold under the rule too, or its own result would leave
        // the window
        return among(singles, List.of(allowing, read), added, suits)
                .or(() -> among(singles, List.of(read), added, suits))
                .or(() -> among(stacks(), List.of(allowing, read), added, suits))
                .or(() -> among(stacks(), List.of(read), added, suits));
    }

    /** What the nut adds: nothing where nothing was learnt, else the estimate and some of its standard errors either way. */
    private LengthInterval shift(int standardErrors) {
        return task.findLockShift()
                .map(shift -> shift.within(standardErrors))
                .orElse(LengthInterval.point(Length.ZERO));
    }

    private List<LeafStack> stacks() {
        return task.gauges().stacks(task.clearance().setTo().interval());
    }

    /** The best of some leaves whose drag, with the allowances of each of some rules, lies in the window to set to. */
    private Optional<Choice> among(
            List<LeafStack> leaves, List<ReadingRule> rules, LengthInterval added, Predicate<Choice> suits) {
        LengthInterval allowed = task.clearance().setTo().interval();
        Length shift = task.findLockShift().map(LockShift::estimate).orElse(Length.ZERO);
        Comparator<Choice> nearest = Comparator.comparingInt((Choice c) -> Math.min(c.leaf.size(), 2))
                .thenComparing((Choice c) -> distance(c.leaf.thickness().plus(shift)))
                .thenComparing(
                        Comparator.comparing((Choice c) -> c.leaf.thickness()).reversed())
                .thenComparing(Choice::leaf);
        ReadingRule read = task.judgement().bracket().rule();
        return leaves.stream()
                .filter(leaf -> rules.stream()
                        .map(rule -> rule.claim(new Trial(leaf, Fit.DRAGS)).plus(added))
                        .allMatch(allowed::encloses))
                .map(leaf -> {
                    LengthInterval drag = read.claim(new Trial(leaf, Fit.DRAGS));
                    return new Choice(leaf, drag, drag.plus(shift(LockShift.LIKELY)));
                })
                .filter(suits)
                .min(nearest);
    }

    /** How far off the aim; where that lasts longest, of the way to the limit on that side. */
    private Ratio distance(Length length) {
        Ratio off = Ratio.nanometresOf(length).minus(aim);
        if (!lasting) {
            return off.signum() < 0 ? Ratio.ZERO.minus(off) : off;
        }
        Length limit = off.signum() < 0
                ? task.clearance().setTo().lower()
                : task.clearance().setTo().upper();
        Ratio whole = Ratio.nanometresOf(limit).minus(aim);
        return off.signum() == 0 ? Ratio.ZERO : whole.signum() == 0 ? BEYOND : off.dividedBy(whole);
    }
}
