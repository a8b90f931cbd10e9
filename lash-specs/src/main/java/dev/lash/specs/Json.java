package dev.lash.specs;

import java.util.List;
import java.util.Map;

/** One value of a document, with its place in it. */
record Json(Kind kind, String text, List<Json> items, Map<String, Json> members, String pointer, int line, int column) {
    /** The kinds of JSON value. */
    enum Kind {
        OBJECT("an object in braces"),
        ARRAY("a list in square brackets"),
        TEXT("a text in quotation marks"),
        NUMBER("a number"),
        TRUTH("true or false"),
        NULL("null");

        private final String words;

        Kind(String words) {
            this.words = words;
        }

        /** The kind as a message names it. */
        String words() {
            return words;
        }
    }

    /** What a message shows of the value. */
    String shown() {
        return switch (kind) {
            case OBJECT -> "{…}";
            case ARRAY -> "[…]";
            case TEXT, NUMBER, TRUTH, NULL -> text;
        };
    }
}
