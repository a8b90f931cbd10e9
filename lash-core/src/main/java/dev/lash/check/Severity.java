package dev.lash.check;

import java.util.Locale;

/** How much a finding matters. */
public enum Severity {
    /** What was read cannot be used. */
    ERROR,
    /** What was read is used, with this doubt. */
    DOUBT,
    /** Something to know. */
    NOTE;

    /** {@return the word in documents, such as {@code "doubt"}} */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** {@return {@link #word()}} */
    @Override
    public String toString() {
        return word();
    }
}
