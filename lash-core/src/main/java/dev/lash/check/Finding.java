package dev.lash.check;

import static java.util.Objects.requireNonNull;

import java.io.Serializable;

/**
 * Something about the readings that the mechanic should know.
 *
 * @param code the kind of finding
 * @param place where: a valve such as {@code "1-in-1"}, or {@code "engine"}, {@code "gauges"}
 * @param problem what is the matter, with the values
 * @param value the value in question
 * @param expected what was expected
 * @param mend what to do about it
 */
public record Finding(FindingCode code, String place, String problem, String value, String expected, String mend)
        implements Serializable {
    /**
     * Creates a finding.
     *
     * @param code the kind of finding
     * @param place where: a valve such as {@code "1-in-1"}, or {@code "engine"}, {@code "gauges"}
     * @param problem what is the matter, with the values
     * @param value the value in question
     * @param expected what was expected
     * @param mend what to do about it
     */
    public Finding {
        requireNonNull(code, "code");
        requireNonNull(place, "place");
        requireNonNull(problem, "problem");
        requireNonNull(value, "value");
        requireNonNull(expected, "expected");
        requireNonNull(mend, "mend");
    }

    /** {@return how much it matters} */
    public Severity severity() {
        return code.severity();
    }

    /** {@return the finding in one line for a person} */
    @Override
    public String toString() {
        return place + ": " + problem + "; " + mend;
    }
}
