package dev.lash.check;

import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import java.io.Serializable;

/** An interval in whole nanometres, for the quick path of an import; a missing end is the extreme value. */
record Span(long low, boolean lowIncluded, long high, boolean highIncluded) implements Serializable {
    static final long NO_LOW = Long.MIN_VALUE;
    static final long NO_HIGH = Long.MAX_VALUE;
    static final Span ANY = new Span(NO_LOW, false, NO_HIGH, false);

    static Span of(LengthInterval interval) {
        return new Span(
                interval.lower().map(Length::nanometres).orElse(NO_LOW),
                interval.lowerIncluded(),
                interval.upper().map(Length::nanometres).orElse(NO_HIGH),
                interval.upperIncluded());
    }

    boolean hasLow() {
        return low != NO_LOW;
    }

    boolean hasHigh() {
        return high != NO_HIGH;
    }

    boolean isEmpty() {
        return low > high || (low == high && !(lowIncluded && highIncluded));
    }

    /** Its middle, or the one end that it has; to be asked only where it has one. */
    long middle() {
        if (!hasLow()) {
            return high;
        }
        return hasHigh() ? low + (high - low) / 2 : low;
    }

    LengthInterval interval() {
        if (hasLow() && hasHigh()) {
            return LengthInterval.of(Length.ofNanometres(low), lowIncluded, Length.ofNanometres(high), highIncluded);
        }
        if (hasLow()) {
            Length end = Length.ofNanometres(low);
            return lowIncluded ? LengthInterval.atLeast(end) : LengthInterval.above(end);
        }
        if (hasHigh()) {
            Length end = Length.ofNanometres(high);
            return highIncluded ? LengthInterval.atMost(end) : LengthInterval.below(end);
        }
        return LengthInterval.any();
    }
}
