package dev.lash.trend;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.RejectedValueException;
import dev.lash.measure.Usage;
import java.io.Serializable;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * When one gap leaves its window. A gap has left when its line, without the scatter of a reading, lies outside anywhere between now
 * and then.
 *
 * @param now the usage that the forecast starts from
 * @param risk the risk that {@code earliest} and {@code latest} are stated at
 * @param leftNow the probability that it has left already
 * @param earliest the usage by which it has left with the probability of the risk; {@code null} beyond the horizon
 * @param median the usage by which it has left as likely as not; {@code null} beyond the horizon
 * @param latest the usage by which it has left with all but the risk; {@code null} beyond the horizon
 * @param side the side on which it is more likely to leave
 * @param curve the probabilities at some usages, first now; empty where the method knows none
 */
public record Forecast(
        Usage now,
        double risk,
        double leftNow,
        @Nullable Usage earliest,
        @Nullable Usage median,
        @Nullable Usage latest,
        Side side,
        List<Point> curve)
        implements Serializable {
    /** The side of the window. */
    public enum Side {
        /** Below the window. */
        TIGHT,
        /** Above the window. */
        LOOSE
    }

    /**
     * The probabilities at one usage.
     *
     * @param usage the usage
     * @param tight the probability that the gap has left on the tight side by then
     * @param loose the probability that it has left on the loose side by then
     */
    public record Point(Usage usage, double tight, double loose) implements Serializable {
        /**
         * Creates a point.
         *
         * @param usage the usage
         * @param tight the probability that the gap has left on the tight side by then
         * @param loose the probability that it has left on the loose side by then
         * @throws RejectedValueException if one is no probability
         */
        public Point {
            requireNonNull(usage, "usage");
            Figures.probability("tight", tight);
            Figures.probability("loose", loose);
        }
    }

    /**
     * Creates a forecast.
     *
     * @param now the usage that the forecast starts from
     * @param risk the risk that {@code earliest} and {@code latest} are stated at
     * @param leftNow the probability that it has left already
     * @param earliest the usage by which it has left with the probability of the risk; {@code null} beyond the horizon
     * @param median the usage by which it has left as likely as not; {@code null} beyond the horizon
     * @param latest the usage by which it has left with all but the risk; {@code null} beyond the horizon
     * @param side the side on which it is more likely to leave
     * @param curve the probabilities at some usages, first now; empty where the method knows none
     * @throws RejectedValueException if the risk or {@code leftNow} is no probability
     */
    public Forecast {
        requireNonNull(now, "now");
        requireNonNull(side, "side");
        Figures.probability("risk", risk);
        Figures.probability("left now", leftNow);
        curve = List.copyOf(curve);
    }

    /** {@return the usage by which it has left with the probability of the risk, or empty beyond the horizon} */
    public Optional<Usage> findEarliest() {
        return Optional.ofNullable(earliest);
    }

    /** {@return the usage by which it has left as likely as not, or empty beyond the horizon} */
    public Optional<Usage> findMedian() {
        return Optional.ofNullable(median);
    }

    /** {@return the usage by which it has left with all but the risk, or empty beyond the horizon} */
    public Optional<Usage> findLatest() {
        return Optional.ofNullable(latest);
    }
}
