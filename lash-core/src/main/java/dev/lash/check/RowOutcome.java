package dev.lash.check;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What became of a row.
 *
 * @param record the row as it was handed over
 * @param fate whether it was accepted
 * @param reading what was read, of an accepted row; else {@code null}
 * @param findings what is to be said about it
 */
public record RowOutcome(
        ReadingRecord record, Fate fate, @Nullable ImportedReading reading, List<ImportFinding> findings)
        implements Serializable {
    /** What can become of a row. */
    public enum Fate {
        /** It is a reading. */
        ACCEPTED,
        /** It has a finding that is an error. */
        REJECTED,
        /** It is there already. */
        DUPLICATE;

        /** {@return the word in documents, such as {@code "accepted"}} */
        public String word() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /**
     * Creates an outcome.
     *
     * @param record the row as it was handed over
     * @param fate whether it was accepted
     * @param reading what was read, of an accepted row; else {@code null}
     * @param findings what is to be said about it
     * @throws RejectedValueException if an accepted row has no reading, or another one has
     */
    public RowOutcome {
        requireNonNull(record, "record");
        requireNonNull(fate, "fate");
        findings = List.copyOf(findings);
        if ((reading != null) != (fate == Fate.ACCEPTED)) {
            throw new RejectedValueException(
                    "outcome",
                    fate.word(),
                    reading == null ? "has no reading" : "has a reading",
                    "a reading for an accepted row, and for no other",
                    "give the reading with the fate accepted");
        }
    }

    /** {@return what was read, or empty where the row was not accepted} */
    public Optional<ImportedReading> findReading() {
        return Optional.ofNullable(reading);
    }
}
