package dev.lash.measure;

/**
 * A continuous distribution of lengths, known by its cumulative function: what is thought of a clearance before today's
 * reading. Statistics only; nothing certain is ever drawn from it.
 */
@FunctionalInterface
public interface LengthDistribution {
    /**
     * The probability that the length is at most {@code length}.
     *
     * @param length a length
     * @return the probability, 0 to 1, never falling as the length grows
     */
    double probabilityUpTo(Length length);

    /**
     * The probability that the length lies in an interval.
     *
     * @param interval the interval; a missing end stands for the whole of that side
     * @return the probability, 0 to 1
     */
    default double probabilityOf(LengthInterval interval) {
        double high = interval.upper().map(this::probabilityUpTo).orElse(1.0);
        double low = interval.lower().map(this::probabilityUpTo).orElse(0.0);
        return Math.max(0.0, high - low);
    }
}
