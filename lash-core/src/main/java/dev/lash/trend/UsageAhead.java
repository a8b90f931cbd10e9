package dev.lash.trend;

import dev.lash.measure.Ratio;
import dev.lash.measure.Usage;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/**
 * Turns how far ahead something lies into what the counter will show.
 *
 * @param per the usage that is counted as one
 * @param now what the counter shows now
 */
record UsageAhead(Usage per, Usage now) {
    private static final double LEAST_HORIZON = 30;
    private static final Usage LONG_DISTANCE = Usage.of(BigDecimal.valueOf(300_000), Usage.Unit.KILOMETRE);
    private static final Usage LONG_TIME = Usage.of(BigDecimal.valueOf(7_500), Usage.Unit.HOUR);

    /** How far a forecast looks: 30 of the units that the prior counts, and no less than a long life, however small those are. */
    double horizon() {
        return Math.max(LEAST_HORIZON, units(per.unit().isDistance() ? LONG_DISTANCE : LONG_TIME));
    }

    /** Rounded down to what a counter shows: whole distances, tenths of an hour. */
    Usage after(double ahead) {
        Usage more =
                Usage.of(per.amount().multiply(BigDecimal.valueOf(ahead)).setScale(3, RoundingMode.FLOOR), per.unit());
        Usage then = now.plus(more);
        BigDecimal shown = then.amount().setScale(then.unit().isDistance() ? 0 : 1, RoundingMode.FLOOR);
        return shown.compareTo(now.amount()) < 0 ? now : Usage.of(shown, then.unit());
    }

    @Nullable
    Usage afterOrNull(OptionalDouble ahead) {
        return ahead.isPresent() ? after(ahead.getAsDouble()) : null;
    }

    /** {@code null} for what lies beyond the horizon. */
    @Nullable
    Usage withinHorizon(double ahead) {
        return ahead > horizon() ? null : after(ahead);
    }

    /** How many units a usage is. */
    double units(Usage usage) {
        return LineData.value(usage.dividedBy(per));
    }

    /** How far ahead a crossing lies, 0 for one that has happened, infinite for one that never does. */
    double of(Crossing crossing) {
        return crossing.match(new Crossing.Cases<>() {
            @Override
            public Double alreadyLeft() {
                return 0.0;
            }

            @Override
            public Double at(Ratio usage) {
                return Math.max(0, LineData.value(usage) - units(now));
            }

            @Override
            public Double never() {
                return Double.POSITIVE_INFINITY;
            }
        });
    }
}
