package dev.lash.check;

import static java.util.Objects.requireNonNull;

import java.io.Serializable;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Something about an imported row.
 *
 * @param code the kind of finding
 * @param row the row, from 1, as the reader counts rows
 * @param column the column by its own name; empty where the whole row is meant
 * @param value the text in question
 * @param problem what is the matter with it
 * @param expected what was expected
 * @param mend what to do about it
 * @param correction what was likely meant; {@code null} where nothing is likely
 * @param standing whether somebody has dealt with it already
 */
public record ImportFinding(
        ImportCode code,
        long row,
        String column,
        String value,
        String problem,
        String expected,
        String mend,
        @Nullable Correction correction,
        Standing standing)
        implements Serializable {
    /** Whether somebody has dealt with a finding. */
    public enum Standing {
        /** Nobody has. */
        OPEN,
        /** The row says that somebody looked it up and stands by the value. */
        CONFIRMED,
        /** The likely correction was asked for, and the row was read with it. */
        CORRECTED;

        /** {@return the word in documents, such as {@code "open"}} */
        public String word() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /**
     * Creates a finding.
     *
     * @param code the kind of finding
     * @param row the row, from 1, as the reader counts rows
     * @param column the column by its own name; empty where the whole row is meant
     * @param value the text in question
     * @param problem what is the matter with it
     * @param expected what was expected
     * @param mend what to do about it
     * @param correction what was likely meant; {@code null} where nothing is likely
     * @param standing whether somebody has dealt with it already
     */
    public ImportFinding {
        requireNonNull(code, "code");
        requireNonNull(column, "column");
        requireNonNull(value, "value");
        requireNonNull(problem, "problem");
        requireNonNull(expected, "expected");
        requireNonNull(mend, "mend");
        requireNonNull(standing, "standing");
    }

    /** {@return how much it matters; a note once somebody has dealt with it} */
    public Severity severity() {
        return standing == Standing.OPEN ? code.severity() : Severity.NOTE;
    }

    /** {@return what was likely meant, or empty where nothing is likely} */
    public Optional<Correction> findCorrection() {
        return Optional.ofNullable(correction);
    }

    ImportFinding with(Standing other) {
        return new ImportFinding(code, row, column, value, problem, expected, mend, correction, other);
    }

    /** {@return the finding in one line for a person} */
    @Override
    public String toString() {
        return "row " + row + (column.isEmpty() ? "" : ", " + column) + ": "
                + (value.isEmpty() ? "" : dev.lash.measure.RejectedValueException.quote(value) + " ") + problem
                + "; expected " + expected + "; " + mend + (correction == null ? "" : " (" + correction + ")");
    }
}
