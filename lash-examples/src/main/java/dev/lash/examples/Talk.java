package dev.lash.examples;

import java.util.List;
import java.util.Optional;

/**
 * A talk with the mechanic: text goes out, keys and lines come in. The dialogue knows nothing of terminals; the two
 * implementations know nothing of valves.
 */
interface Talk extends AutoCloseable {
    /** The widest line. */
    int WIDTH = TextReport.WIDTH;

    /** Text as it stands, with its line ends. */
    void print(String text);

    /**
     * Asks for one key. White space is no key.
     *
     * @return the key in lower case, or empty at the end of the input, or when the mechanic breaks off
     */
    Optional<Character> key(String prompt);

    /**
     * Asks for a line of text.
     *
     * @return the line without white space around it, maybe blank; empty at the end of the input, or when the mechanic breaks off
     */
    Optional<String> line(String prompt);

    @Override
    void close();

    /** A paragraph, wrapped to the width. */
    default void say(String text) {
        say("", text);
    }

    /** A paragraph, wrapped to the width and indented. */
    default void say(String indent, String text) {
        StringBuilder out = new StringBuilder();
        for (String line : TextTable.wrap(text, WIDTH - indent.length())) {
            out.append(indent).append(line).append('\n');
        }
        print(out.toString());
    }

    /** A prompt for a key, that leaves room for it on its line; what does not fit goes on lines of its own before. */
    static String forKey(String prompt) {
        return wrapped(prompt) + " ";
    }

    /** A prompt for a line, that leaves the next line for it. */
    static String forLine(String prompt) {
        String indent = " ".repeat(prompt.length() - prompt.stripLeading().length());
        return wrapped(prompt) + "\n" + indent + "> ";
    }

    private static String wrapped(String prompt) {
        String indent = " ".repeat(prompt.length() - prompt.stripLeading().length());
        // the key for help and its word, and the mark that asks, stay together on the last line
        List<String> lines = TextTable.wrap(
                prompt.strip().replace("? help", "?\u00a0help").replace("help >", "help\u00a0>"),
                WIDTH - 4 - indent.length());
        return indent + String.join("\n" + indent, lines).replace('\u00a0', ' ');
    }
}
