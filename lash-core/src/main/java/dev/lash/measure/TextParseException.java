package dev.lash.measure;

import static java.util.Objects.requireNonNull;

/**
 * A text that is not what a {@code parse} method reads. A {@code parse} method throws nothing else for a text that is not {@code
 * null}, but a plain {@link RejectedValueException} where the text can be read and its value is out of range.
 */
public final class TextParseException extends RejectedValueException {
    private static final long serialVersionUID = 1L;

    /** Why a text was refused; each constant names its exact trigger. */
    public enum Reason {
        /** The text is empty or blank. */
        EMPTY,
        /** The text is longer than any sensible value of its kind. */
        TOO_LONG,
        /** The place of a number holds something else. */
        NOT_A_NUMBER,
        /** The number is written with a decimal comma. */
        DECIMAL_COMMA,
        /** A number stands alone where a unit is needed. */
        NO_UNIT,
        /** The text after the number is no unit of this kind. */
        UNKNOWN_UNIT,
        /** The number is finer than the type can hold exactly. */
        TOO_FINE,
        /** The number is outside the type's range. */
        OUT_OF_RANGE,
        /** The parts are there but not in the form that was expected. */
        WRONG_FORM,
        /** The lower end lies above the upper end. */
        WRONG_ORDER,
        /** A word is none of a closed list. */
        UNKNOWN_WORD
    }

    private final Reason reason;
    private final int position;

    /**
     * Creates the exception.
     *
     * @param reason why the text was refused
     * @param what the kind of value that was to be read, such as {@code "length"}
     * @param text the text
     * @param position where in the text the trouble starts, from 0
     * @param problem what is wrong
     * @param expected the form or range that was expected
     * @param mend how to put it right
     */
    public TextParseException(
            Reason reason, String what, String text, int position, String problem, String expected, String mend) {
        super(what, text, problem, expected, mend);
        this.reason = requireNonNull(reason, "reason");
        this.position = position;
    }

    /** {@return why the text was refused} */
    public Reason reason() {
        return reason;
    }

    /** {@return where in the text the trouble starts, from 0} */
    public int position() {
        return position;
    }
}
