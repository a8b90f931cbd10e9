package dev.lash.adjust;

import static java.util.Objects.requireNonNull;

import dev.lash.engine.ScrewHead;
import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.math.BigDecimal;
import java.util.Optional;

/**
 * A turn or an angle in degrees, from a least to a most, kept in tenths of a degree. A turn of a screw is positive as the clearance
 * grows; for an eccentric, where no sign would say that, see {@link EccentricTurn}.
 *
 * @param from the least, in degrees
 * @param to the most, in degrees
 */
public record TurnRange(BigDecimal from, BigDecimal to) implements Serializable {
    private static final int DECIMALS = 1;
    private static final Ratio FULL_TURN = Ratio.of(360, 1);

    /**
     * Creates a range.
     *
     * @param from the least, in degrees
     * @param to the most, in degrees
     * @throws RejectedValueException if the least is above the most
     */
    public TurnRange {
        from = tidy(from);
        to = tidy(to);
        if (from.compareTo(to) > 0) {
            throw new RejectedValueException(
                    "turn", from + " to " + to + " degrees", "is reversed", "the least first", "swap the two");
        }
    }

    private static BigDecimal tidy(BigDecimal degrees) {
        BigDecimal stripped = degrees.stripTrailingZeros();
        return stripped.scale() < 0 ? stripped.setScale(0) : stripped;
    }

    /** The range that holds both exact ends, rounded outward to tenths. */
    static TurnRange outward(Ratio from, Ratio to) {
        return new TurnRange(from.floor(DECIMALS), to.ceiling(DECIMALS));
    }

    /** The range that lies between both exact ends, rounded inward to tenths, or empty when there is none. */
    static Optional<TurnRange> inward(Ratio from, Ratio to) {
        BigDecimal least = from.ceiling(DECIMALS);
        BigDecimal most = to.floor(DECIMALS);
        return least.compareTo(most) > 0 ? Optional.empty() : Optional.of(new TurnRange(least, most));
    }

    /** Degrees of turn for a change of clearance: change / (movement per turn x k) x 360. */
    static Ratio degrees(Ratio changeInNanometres, Ratio nanometresPerTurn) {
        return changeInNanometres.dividedBy(nanometresPerTurn).times(FULL_TURN);
    }

    /**
     * The range counted in flats of a screw head, rounded outward to hundredths of a flat.
     *
     * @param head the shape that is turned
     * @return the range in flats, or empty where the head has no flats to count
     */
    public Optional<FlatRange> flats(ScrewHead head) {
        requireNonNull(head, "head");
        return head.degreesPerFlat()
                .map(each -> new FlatRange(
                        Ratio.of(from).dividedBy(each).floor(2),
                        Ratio.of(to).dividedBy(each).ceiling(2)));
    }

    /** The range counted in flats, rounded inward to hundredths of a flat; empty where there are no flats or nothing is left. */
    Optional<FlatRange> flatsWithin(ScrewHead head) {
        return head.degreesPerFlat()
                .map(each -> new FlatRange(
                        Ratio.of(from).dividedBy(each).ceiling(2),
                        Ratio.of(to).dividedBy(each).floor(2)))
                .filter(flats -> flats.from().compareTo(flats.to()) <= 0);
    }

    /** {@return the same turn counted the other way round: -24 to -14.4 degrees as 14.4 to 24} */
    public TurnRange reversed() {
        return new TurnRange(to.negate(), from.negate());
    }

    /** {@return the range, such as {@code "14.4 to 24 degrees"}} */
    @Override
    public String toString() {
        return from.compareTo(to) == 0
                ? from.toPlainString() + " degrees"
                : from.toPlainString() + " to " + to.toPlainString() + " degrees";
    }

    /**
     * A turn counted in flats.
     *
     * @param from the least
     * @param to the most
     */
    public record FlatRange(BigDecimal from, BigDecimal to) implements Serializable {
        /**
         * Creates a range.
         *
         * @param from the least
         * @param to the most
         */
        public FlatRange {
            from = tidy(from);
            to = tidy(to);
        }

        /** {@return the same turn counted the other way round} */
        public FlatRange reversed() {
            return new FlatRange(to.negate(), from.negate());
        }

        /** {@return the range, such as {@code "0.24 to 0.4 flats"}} */
        @Override
        public String toString() {
            return from.toPlainString() + " to " + to.toPlainString() + " flats";
        }
    }
}
