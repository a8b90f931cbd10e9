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
    private final boolean statesRisk;

    /** @param left the probability that any gap has left its window by so much use */
    CheckBySearch(
            List<GapTrend> gaps,
            DoubleUnaryOperator left,
            UsageAhead ahead,
            @Nullable Usage interval,
            boolean statesRisk) {
        this.gaps = gaps;
        this.left = RiskCrossing.remembered(use -> Math.max(0, left.applyAsDouble(use)));
        this.ahead = ahead;
        this.interval = interval;
        this.statesRisk = statesRisk;
    }

    CheckBy at(double risk) {
        double most = interval == null ? UsageAhead.HORIZON : Math.min(UsageAhead.HORIZON, ahead.units(interval));
        OptionalDouble by = anyLeaves(risk, most);
        if (by.isEmpty()) {
            return interval == null
                    ? new CheckBy(ahead.after(UsageAhead.HORIZON), risk, CheckBy.Reason.NO_LIMIT, null, null)
                    : new CheckBy(ahead.now().plus(interval), risk, CheckBy.Reason.MAKERS_INTERVAL, null, null);
        }
        double use = by.getAsDouble();
        ClearanceHistory first = soonest(risk).task().history();
        return new CheckBy(
                ahead.after(use),
                statesRisk ? risk : 0,
                use == 0 ? CheckBy.Reason.NOW : CheckBy.Reason.VALVE,
                first.valve(),
                first.gap());
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

    /** The gap that leaves first; of those already more likely out than the risk, the likeliest. */
    private GapTrend soonest(double risk) {
        GapTrend likeliest = Collections.max(gaps, Comparator.comparingDouble(gap -> gap.left(0)));
        if (likeliest.left(0) > risk) {
            return likeliest;
        }
        GapTrend first = gaps.get(0);
        double soonest = UsageAhead.HORIZON;
        for (GapTrend gap : gaps) {
            // empty for all that leave later than the first so far
            OptionalDouble leaves = RiskCrossing.of(gap::left, risk, soonest);
            if (leaves.isPresent()) {
                first = gap;
                soonest = leaves.getAsDouble();
            }
        }
        return first;
    }
}
