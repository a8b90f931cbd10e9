package dev.lash.trend;

import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveRole;
import dev.lash.engine.WearPrior;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import dev.lash.measure.Usage;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * One gap in bare numbers: lengths in millimetres, usage in units of the prior. Levels count from the middle of the window to set
 * to, with the first shim of a segment in place; usages of a segment count from its first reading, that of the last from now.
 */
final class LineData {
    private static final double LEAST_DEVIATION = 0.01;
    private static final double FAR = 3;
    private static final double WIDER = 10;

    final Family family;
    final Part[] parts;
    final double windowLow;
    final double windowHigh;
    final double middle;
    final double deviation;

    /**
     * Valves that learn from each other.
     *
     * @param role their role
     * @param gap which gap
     */
    record Family(ValveRole role, Gap gap) {}

    /** The informative readings of one segment. */
    static final class Part {
        /** Where its level has the prior's probability; counted as the usages are. */
        final double start;

        /** The usages, from the first reading or, for the last segment, from now. */
        final double[] at;

        /** The lower ends of the levels. */
        final double[] low;

        /** The upper ends of the levels. */
        final double[] high;

        Part(double start, double[] at, double[] low, double[] high) {
            this.start = start;
            this.at = at;
            this.low = low;
            this.high = high;
        }

        int size() {
            return at.length;
        }

        /** How many deviations the first reading lies off the prior at the least; 0 where that is not far. */
        double tail(double deviation) {
            if (at.length == 0) {
                return 0;
            }
            double off = Math.max(0, Math.max(low[0], -high[0])) / deviation;
            return off > FAR ? off : 0;
        }
    }

    private LineData(
            Family family, Part[] parts, double windowLow, double windowHigh, double middle, double deviation) {
        this.family = family;
        this.parts = parts;
        this.windowLow = windowLow;
        this.windowHigh = windowHigh;
        this.middle = middle;
        this.deviation = deviation;
    }

    static LineData of(TrendTask task, Usage now, WearPrior prior) {
        ClearanceHistory history = task.history();
        ClearanceWindow set = task.clearance().setTo();
        double middle = (millimetres(set.lower()) + millimetres(set.upper())) / 2;
        double deviation = Math.max((millimetres(set.upper()) - millimetres(set.lower())) / 2, LEAST_DEVIATION);
        List<Part> parts = new ArrayList<>();
        double shift = 0;
        for (int k = 0; k < history.segments().size(); k++) {
            boolean last = k == history.segments().size() - 1;
            List<ClearanceHistory.Reading> readings = history.segments().get(k).readings();
            double first = middleOf(readings.get(0).offset());
            parts.add(
                    part(readings, first + middle, last ? now : readings.get(0).usage(), prior.per()));
            shift = middleOf(readings.get(readings.size() - 1).offset()) - first;
        }
        if (parts.isEmpty()) {
            parts.add(new Part(0, new double[0], new double[0], new double[0]));
        }
        ClearanceWindow check = task.clearance().check();
        return new LineData(
                new Family(history.valve().role(), history.gap()),
                parts.toArray(Part[]::new),
                millimetres(check.lower()) - middle + shift,
                millimetres(check.upper()) - middle + shift,
                middle - shift,
                deviation);
    }

    private static Part part(List<ClearanceHistory.Reading> readings, double origin, Usage from, Usage per) {
        List<ClearanceHistory.Reading> telling = readings.stream()
                .filter(ClearanceHistory.Reading::isInformative)
                .toList();
        return new Part(
                units(readings.get(0).usage(), from, per),
                telling.stream().mapToDouble(r -> units(r.usage(), from, per)).toArray(),
                telling.stream()
                        .mapToDouble(r ->
                                r.level().lower().map(LineData::millimetres).orElse(Double.NEGATIVE_INFINITY) - origin)
                        .toArray(),
                telling.stream()
                        .mapToDouble(r ->
                                r.level().upper().map(LineData::millimetres).orElse(Double.POSITIVE_INFINITY) - origin)
                        .toArray());
    }

    /** How far a usage lies beyond another, in units of the prior. */
    static double units(Usage usage, Usage from, Usage per) {
        return value(usage.dividedBy(per).minus(from.dividedBy(per)));
    }

    static double value(Ratio ratio) {
        return new BigDecimal(ratio.numerator())
                .divide(new BigDecimal(ratio.denominator()), MathContext.DECIMAL64)
                .doubleValue();
    }

    static double millimetres(Length length) {
        return length.nanometres() / 1e6;
    }

    /** Of a drift in nanometres. */
    static double millimetres(Ratio nanometres) {
        return value(nanometres) / 1e6;
    }

    private static double middleOf(LengthInterval interval) {
        return (millimetres(interval.lower().orElseThrow())
                        + millimetres(interval.upper().orElseThrow()))
                / 2;
    }

    Part last() {
        return parts[parts.length - 1];
    }

    /** Whether a first reading lies far from where its level was set to. */
    boolean isFar() {
        return Arrays.stream(parts).anyMatch(part -> part.tail(deviation) > 0);
    }

    /** The logarithm of what the likelihoods of levels far out in the tail of the prior were multiplied with. */
    double logScale() {
        double sum = 0;
        for (Part part : parts) {
            double tail = part.tail(deviation);
            sum -= tail == 0 ? 0 : tail * tail / 2 + Math.log(2 * Math.PI) / 2;
        }
        return sum;
    }

    /** The same readings where it is next to unknown what a level was set to: as far off as they are, and ten times the usual. */
    LineData withWideLevels() {
        double wide = WIDER * deviation;
        for (Part part : parts) {
            wide = Math.max(wide, part.tail(deviation) * deviation);
        }
        return new LineData(family, parts, windowLow, windowHigh, middle, wide);
    }

    /** How many readings say something. */
    int readings() {
        int n = 0;
        for (Part part : parts) {
            n += part.size();
        }
        return n;
    }

    /** The level of a clearance in millimetres, with the present shim. */
    double levelOf(double clearance) {
        return clearance - middle;
    }
}
