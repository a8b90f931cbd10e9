package dev.lash.measure;

import static java.util.Objects.requireNonNull;

/**
 * A value that cannot be used: thrown for a caller's mistake or for bad input, never for a decision that came out
 * unfavourably.
 *
 * <p>The parts of the message are also there one by one, so that a program can show them in its own layout: {@link
 * #what()} the thing, {@link #value()} the offending value with its unit, {@link #problem()}, {@link #expected()} the
 * allowed range or form, and {@link #mend()} how to put it right.
 */
public class RejectedValueException extends IllegalArgumentException {
    private static final long serialVersionUID = 1L;
    private static final int LONGEST_QUOTE = 60;

    private final String what;
    private final String value;
    private final String problem;
    private final String expected;
    private final String mend;

    /**
     * Creates the exception.
     *
     * @param what the thing that has the value, such as {@code "leaf"}
     * @param value the offending value, with its unit
     * @param problem what is wrong with it
     * @param expected the allowed range or form
     * @param mend how to put it right
     */
    public RejectedValueException(String what, String value, String problem, String expected, String mend) {
        super(requireNonNull(what, "what") + " " + quote(value) + ": " + problem + "; expected " + expected + "; "
                + mend);
        this.what = what;
        this.value = value;
        this.problem = requireNonNull(problem, "problem");
        this.expected = requireNonNull(expected, "expected");
        this.mend = requireNonNull(mend, "mend");
    }

    /**
     * A value in quotation marks, cut to a length that a message can bear, control characters replaced.
     *
     * @param value any text
     * @return the text as a message shows it
     */
    public static String quote(String value) {
        StringBuilder out = new StringBuilder("\"");
        int shown = Math.min(value.length(), LONGEST_QUOTE);
        if (shown < value.length() && Character.isHighSurrogate(value.charAt(shown - 1))) {
            shown--;
        }
        for (int i = 0; i < shown; i++) {
            char c = value.charAt(i);
            out.append(Character.isISOControl(c) ? '?' : c);
        }
        return out.append(value.length() > shown ? "…" : "").append('"').toString();
    }

    /** {@return the thing that has the value} */
    public final String what() {
        return what;
    }

    /** {@return the offending value, with its unit where it had one} */
    public final String value() {
        return value;
    }

    /** {@return what is wrong with the value} */
    public final String problem() {
        return problem;
    }

    /** {@return the allowed range or form} */
    public final String expected() {
        return expected;
    }

    /** {@return how to put the value right} */
    public final String mend() {
        return mend;
    }
}
