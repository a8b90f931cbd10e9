package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowable;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.regex.Pattern;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;

/**
 * One document that must be refused: a sound one with changes, in which {@code ¦} marks the place that the error must name.
 *
 * @param name what is wrong, for the name of the test
 * @param changes the changes, one of them with the mark
 * @param pointer the pointer that the error must give
 * @param value the value that it must give
 * @param problem a part of the problem
 * @param expected a part of what was expected
 * @param mend a part of how to mend it
 */
record BadInput(
        String name, List<Change> changes, String pointer, String value, String problem, String expected, String mend) {
    private static final String MARK = "¦";
    private static final Pattern PROGRAMMERS_WORDS = Pattern.compile(
            "(?i:jackson|exception)|\\b(java|tools|dev\\.lash)\\.|Feature|[a-z]Json|Json[A-Z]|\\[Source");
    private static final String CONTROL_CHARACTERS = "[\\x00-\\x1f\\x7f-\\x9f]";

    /**
     * A text in place of another.
     *
     * @param from a text that stands once in the document
     * @param to what replaces it
     */
    record Change(String from, String to) {
        String in(String document) {
            assertThat(document.split(Pattern.quote(from), -1))
                    .as("parts of the document around %s", from)
                    .hasSize(2);
            return document.replace(from, to);
        }
    }

    private String marked(String sound) {
        String marked = sound;
        for (Change change : changes) {
            marked = change.in(marked);
        }
        assertThat(marked.split(MARK, -1)).as("parts around the mark").hasSize(2);
        return marked;
    }

    /** The changed document. */
    String in(String sound) {
        return marked(sound).replace(MARK, "");
    }

    /** Whether the changed document is refused, with everything that the error must say. */
    void isRefused(String sound, ThrowingCallable read) {
        String before = marked(sound).substring(0, marked(sound).indexOf(MARK));
        DocumentException refused = refuses(read, in(sound));
        assertThat(refused.pointer()).as("pointer").isEqualTo(pointer);
        assertThat(refused.value()).as("value").isEqualTo(value);
        assertThat(refused.problem()).as("problem").contains(problem);
        assertThat(refused.expected()).as("expected").contains(expected);
        assertThat(refused.mend()).as("mend").contains(mend);
        assertThat(refused.line()).as("line in %s", refused).isEqualTo((int)
                (before.chars().filter(c -> c == '\n').count() + 1));
        assertThat(refused.column()).as("column in %s", refused).isEqualTo(before.length() - before.lastIndexOf('\n'));
    }

    /** The call is refused with an error that is complete and that a mechanic can read. */
    static DocumentException refuses(ThrowingCallable read, String json) {
        Throwable thrown = catchThrowable(read);
        assertThat(thrown).as("what was thrown for %s", json).isInstanceOf(DocumentException.class);
        DocumentException refused = (DocumentException) thrown;
        isReadable(refused, json);
        return refused;
    }

    /** The parts of an error are there, its message shows them on one line, and its place lies in the document. */
    static void isReadable(DocumentException refused, String json) {
        assertThat(List.of(refused.source(), refused.problem(), refused.expected(), refused.mend()))
                .noneMatch(String::isBlank);
        assertThat(refused.getMessage())
                .startsWith(refused.source() + ", line " + refused.line() + ", column " + refused.column() + ", at ")
                .endsWith("; " + refused.mend().replaceAll(CONTROL_CHARACTERS, "?"))
                .contains(": ", "; expected ")
                .doesNotContainPattern(PROGRAMMERS_WORDS);
        assertThat(refused.getMessage().chars()).as("control characters").noneMatch(Character::isISOControl);
        assertThat(refused.pointer()).matches("(?s)(/.*)?");
        List<String> lines = List.of(json.split("\r\n?|\n", -1));
        assertThat(refused.line()).isBetween(1, lines.size());
        assertThat(refused.column()).isBetween(1, lines.get(refused.line() - 1).length() + 1);
    }

    /** The text as a file holds it. */
    static byte[] utf8(String json) {
        return json.getBytes(StandardCharsets.UTF_8);
    }

    @Override
    public String toString() {
        return name;
    }
}
