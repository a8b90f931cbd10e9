package dev.lash.adjust;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.RejectedValueException;
import java.io.Serializable;

/**
 * One of the two ways of turning an eccentric to a clearance. The angle is the one of {@link
 * dev.lash.engine.ValveTrain.Eccentric}, so that the clearance changes by m e (sin a0 - sin a). Which way round makes the clearance
 * grow depends on where the eccentric stands, so the sense is named and the degrees have no sign.
 *
 * @param sense towards which angles it is turned
 * @param degrees how far, from the least to the most that the clearances of the reading need; 0 or more
 * @param to the angle at which it then stands, from the least to the most; the least from 0 to below 360, the most beyond 360 where
 *     the range holds 0
 */
public record EccentricTurn(Sense sense, TurnRange degrees, TurnRange to) implements Serializable {
    /**
     * Creates a turn.
     *
     * @param sense towards which angles it is turned
     * @param degrees how far, from the least to the most that the clearances of the reading need; 0 or more
     * @param to the angle at which it then stands, from the least to the most; the least from 0 to below 360, the most beyond 360
     *     where the range holds 0
     * @throws RejectedValueException if the degrees are negative
     */
    public EccentricTurn {
        requireNonNull(sense, "sense");
        requireNonNull(degrees, "degrees");
        requireNonNull(to, "to");
        if (degrees.from().signum() < 0) {
            throw new RejectedValueException(
                    "turn of an eccentric", degrees.toString(), "is negative", "0 degrees or more", "name the sense");
        }
    }

    /** {@return the turn for a person, such as {@code "29.9 to 30.1 degrees towards smaller angles, to 329.9 to 330.1 degrees"}} */
    @Override
    public String toString() {
        return degrees + " towards " + sense.word() + " angles, to " + to;
    }

    /** Which way round an eccentric is turned. */
    public enum Sense {
        /** So that its angle grows. */
        LARGER("larger"),
        /** So that its angle becomes less. */
        SMALLER("smaller");

        private final String word;

        Sense(String word) {
            this.word = word;
        }

        /** {@return the word in documents, such as {@code "larger"}} */
        public String word() {
            return word;
        }
    }
}
