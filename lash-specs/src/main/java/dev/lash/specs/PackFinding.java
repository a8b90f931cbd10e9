package dev.lash.specs;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.nio.file.Path;

/**
 * Something wrong with a template: the rule that it breaks, where, and how to mend it.
 *
 * @param rule the rule
 * @param file the file
 * @param line the line, from 1
 * @param pointer the JSON pointer of the value
 * @param value the value, shortened; empty where something is missing
 * @param problem what is wrong
 * @param expected what was expected
 * @param mend how to mend it
 */
public record PackFinding(
        PackRule rule,
        String file,
        int line,
        String pointer,
        String value,
        String problem,
        String expected,
        String mend)
        implements Serializable {
    /**
     * Creates a finding.
     *
     * @param rule the rule
     * @param file the file
     * @param line the line, from 1
     * @param pointer the JSON pointer of the value
     * @param value the value, shortened; empty where something is missing
     * @param problem what is wrong
     * @param expected what was expected
     * @param mend how to mend it
     */
    public PackFinding {
        requireNonNull(rule, "rule");
        requireNonNull(file, "file");
        requireNonNull(pointer, "pointer");
        requireNonNull(value, "value");
        requireNonNull(problem, "problem");
        requireNonNull(expected, "expected");
        requireNonNull(mend, "mend");
    }

    static PackFinding of(DocumentException broken) {
        return new PackFinding(
                PackRule.of(broken),
                broken.source(),
                broken.line(),
                broken.pointer(),
                broken.value(),
                broken.problem(),
                broken.expected(),
                broken.mend());
    }

    /** The same as a refusal of its folder. */
    DocumentException inFolder(Path folder) {
        return new DocumentException(folder + "/" + file, line, 1, pointer, value, problem, expected, mend);
    }

    /** {@return all of it in one line} */
    @Override
    public String toString() {
        return DocumentException.onOneLine(file + ", line " + line + ", at "
                + (pointer.isEmpty() ? "the top" : pointer) + ", rule " + rule + ": "
                + (value.isEmpty() ? "" : RejectedValueException.quote(value) + " ")
                + problem + "; expected " + expected + "; " + mend);
    }
}
