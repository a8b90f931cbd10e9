package dev.lash.trend;

import dev.lash.measure.Usage;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.jspecify.annotations.Nullable;

/** Looks for the time to check of a whole engine, at one risk or several. Used by one thread. */
final class CheckBySearch {
    private final List<GapTrend> gaps;
    private final DoubleUnaryOperator left;
    private final UsageAhead ahead;
    private final @Nullable Usage interval;

    /** @param left the probability that any gap has left its window by so much use */
    CheckBySearch(List<GapTrend> gaps, DoubleUnaryOperator left, UsageAhead ahead, @Nullable Usage interval) {
        this.gaps = gaps;
        this.left = RiskCrossing.remembered(use -> Math.max(0, left.applyAsDouble(use)));
        this.ahead = ahead;
        this.interval = interval;
    }

    CheckBy at(double risk) {
        double stated = gaps.stream().allMatch(GapTrend::byLines) ? 0 : risk;
        Usage due = interval == null ? null : due(interval);
        double most = due == null ? ahead.horizon() : Math.max(0, ahead.units(due) - ahead.units(ahead.now()));
        OptionalDouble by = anyLeaves(risk, most);
        if (by.isEmpty()) {
            return due == null
                    ? new CheckBy(ahead.after(most), stated, CheckBy.Reason.NO_LIMIT, null, null)
                    : new CheckBy(
                            due.compareAmount(ahead.now()) < 0 ? ahead.now() : due,
                            stated,
                            CheckBy.Reason.MAKERS_INTERVAL,
                            null,
                            null);
        }
        double use = by.getAsDouble();
        ClearanceHistory first = soonest(risk, use).task().history();
        return new CheckBy(
                ahead.after(use),
                stated,
                use == 0 ? CheckBy.Reason.NOW : CheckBy.Reason.VALVE,
                first.valve(),
                first.gap());
    }

    /** The maker's interval counts from the check, that of the gap that was not read for longest; where none was, from now. */
    private Usage due(Usage from) {
        return gaps.stream()
                .flatMap(gap -> gap.task().history().last().stream())
                .map(ClearanceHistory.Reading::usage)
                .min(Usage::compareAmount)
                .orElse(ahead.now())
                .plus(from);
    }

    /** Begins where the sum of the probabilities of single gaps passes the risk, which is a little before any of them has. */
    private OptionalDouble anyLeaves(double risk, double most) {
        OptionalDouble sum = gaps.size() == 1
                ? OptionalDouble.empty()
                : RiskCrossing.of(
                        use -> gaps.stream().mapToDouble(gap -> gap.left(use)).sum(), risk, most);
        return sum.isPresent() && sum.getAsDouble() > 0
                ? RiskCrossing.near(left, risk, most, sum.getAsDouble())
                : RiskCrossing.of(left, risk, most);
    }

    /** The gap that leaves first; of those already more likely out than the risk, and where none reaches it alone, the likeliest. */
    private GapTrend soonest(double risk, double by) {
        GapTrend likeliest = likeliest(0);
        if (likeliest.left(0) > risk) {
            return likeliest;
        }
        GapTrend first = null;
        double soonest = ahead.horizon();
        for (GapTrend gap : gaps) {
            // empty for all that leave later than the first so far
            OptionalDouble leaves = RiskCrossing.of(gap::left, risk, soonest);
            if (leaves.isPresent()) {
                first = gap;
                soonest = leaves.getAsDouble();
            }
        }
        return first == null ? likeliest(by) : first;
    }

    private GapTrend likeliest(double by) {
        return Collections.max(gaps, Comparator.comparingDouble(gap -> gap.left(by)));
    }
}
