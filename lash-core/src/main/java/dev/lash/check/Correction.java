package dev.lash.check;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.RejectedValueException;
import java.io.Serializable;

/**
 * What a column was likely meant to say. Offered only; a run applies it where the {@linkplain ValidationProfile#corrections()
 * profile} asks for it.
 *
 * @param field which field
 * @param text the text that the column should have
 * @param reason why this is likely
 * @param odds how many times likelier it is than the text as it stands, with how rare such slips are counted in; infinite where the
 *     text as it stands has no meaning at all
 */
public record Correction(ReadingField field, String text, String reason, double odds) implements Serializable {
    /**
     * Creates a correction.
     *
     * @param field which field
     * @param text the text that the column should have
     * @param reason why this is likely
     * @param odds how many times likelier it is than the text as it stands; above 0, may be infinite
     * @throws RejectedValueException if the odds are not above 0
     */
    public Correction {
        requireNonNull(field, "field");
        requireNonNull(text, "text");
        requireNonNull(reason, "reason");
        if (!(odds > 0)) {
            throw new RejectedValueException(
                    "odds",
                    Double.toString(odds),
                    "is out of range",
                    "a number above 0",
                    "offer likely corrections only");
        }
    }

    /** {@return the correction for a person} */
    @Override
    public String toString() {
        return "likely " + RejectedValueException.quote(text) + ": " + reason;
    }
}
