package dev.lash.engine;

import static java.util.Objects.requireNonNull;

import java.io.Serializable;
import java.util.Locale;

/**
 * Where a figure of an engine came from.
 *
 * @param kind what kind of source it has
 * @param title the title of the source, with its year where it has one; empty where it has none
 * @param place the place in it, such as a page; empty where it is not known
 * @param template the template that handed the figure on, with its revision; empty where none did
 */
public record Origin(Kind kind, String title, String place, String template) implements Serializable {
    /** The figure was stated together with the engine: on the sheet, or by the program that made it. */
    public static final Origin STATED = new Origin(Kind.STATED, "", "", "");

    /**
     * Creates an origin.
     *
     * @param kind what kind of source it has
     * @param title the title of the source, with its year where it has one; empty where it has none
     * @param place the place in it, such as a page; empty where it is not known
     * @param template the template that handed the figure on, with its revision; empty where none did
     */
    public Origin {
        requireNonNull(kind, "kind");
        requireNonNull(title, "title");
        requireNonNull(place, "place");
        requireNonNull(template, "template");
    }

    /** What kind of source a figure has. */
    public enum Kind {
        /** Stated together with the engine, by the shop. */
        STATED,
        /** A habit of the trade. */
        COMMON_PRACTICE,
        /** Recalled, not checked. */
        FROM_MEMORY,
        /** Read in a publication. */
        PUBLISHED,
        /** A shop's own template. */
        SHOP;

        /** {@return the word in documents, such as {@code "from-memory"}} */
        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }

        /** {@return the word for a person, such as {@code "from memory"}} */
        @Override
        public String toString() {
            return word().replace('-', ' ');
        }
    }

    /** {@return the origin for a person, such as {@code from memory: "Small singles" (template screw-single, revision 2)}} */
    @Override
    public String toString() {
        StringBuilder text = new StringBuilder(kind.toString());
        if (!title.isEmpty()) {
            text.append(": \"").append(title).append('"');
        }
        if (!place.isEmpty()) {
            text.append(", ").append(place);
        }
        if (!template.isEmpty()) {
            text.append(" (template ").append(template).append(')');
        }
        return text.toString();
    }
}
