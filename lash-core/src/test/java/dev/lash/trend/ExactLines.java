package dev.lash.trend;

import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import dev.lash.trend.FeasibleLines.Check;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;

/** Feasible lines of brackets given as doubles, an end of 1 being a millimetre, rounded to nanometres. */
final class ExactLines {
    private ExactLines() {}

    static FeasibleLines of(double[] usage, double[] lower, double[] upper) {
        List<Check> checks = new ArrayList<>();
        for (int i = 0; i < usage.length; i++) {
            checks.add(new Check(Ratio.of(BigDecimal.valueOf(usage[i])), bracket(lower[i], upper[i])));
        }
        return FeasibleLines.through(List.of(checks));
    }

    private static LengthInterval bracket(double low, double high) {
        if (low == Double.NEGATIVE_INFINITY) {
            return high == Double.POSITIVE_INFINITY ? LengthInterval.any() : LengthInterval.atMost(length(high));
        }
        return high == Double.POSITIVE_INFINITY
                ? LengthInterval.above(length(low))
                : LengthInterval.closed(length(low), length(high));
    }

    private static Length length(double millimetres) {
        return Length.ofNanometres(Math.round(millimetres * 1e6));
    }
}
