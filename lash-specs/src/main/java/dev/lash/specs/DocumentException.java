package dev.lash.specs;

import dev.lash.measure.RejectedValueException;

/** A document that cannot be read: where, what, and how to mend it. */
public final class DocumentException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    private final String source;
    private final int line;
    private final int column;
    private final String pointer;
    private final String value;
    private final String problem;
    private final String expected;
    private final String mend;
    private final Fault fault;

    /** What kind of thing is wrong. */
    enum Fault {
        /** The text is no document at all. */
        TEXT,
        /** A field that nobody asked for. */
        UNKNOWN_FIELD,
        /** A field that must be there is not. */
        MISSING_FIELD,
        /** A value is not what it should be. */
        VALUE
    }

    DocumentException(
            String source,
            int line,
            int column,
            String pointer,
            String value,
            String problem,
            String expected,
            String mend) {
        this(Fault.VALUE, source, line, column, pointer, value, problem, expected, mend);
    }

    DocumentException(
            Fault fault,
            String source,
            int line,
            int column,
            String pointer,
            String value,
            String problem,
            String expected,
            String mend) {
        super(onOneLine(source
                + (line == 0
                        ? ""
                        : ", line " + line + ", column " + column + ", at " + (pointer.isEmpty() ? "the top" : pointer))
                + ": "
                + (value.isEmpty() ? "" : RejectedValueException.quote(value) + " ")
                + problem + "; expected " + expected + "; " + mend));
        this.fault = fault;
        this.source = source;
        this.line = line;
        this.column = column;
        this.pointer = pointer;
        this.value = value;
        this.problem = problem;
        this.expected = expected;
        this.mend = mend;
    }

    /** A key, and so the pointer, may hold any character; a message holds no control characters. */
    static String onOneLine(String message) {
        return message.replaceAll("[\\x00-\\x1f\\x7f-\\x9f]", "?");
    }

    /** What kind of thing is wrong. */
    Fault fault() {
        return fault;
    }

    /** {@return the name of the file or stream} */
    public String source() {
        return source;
    }

    /** {@return the line, from 1; 0 where the source has no lines, as a folder} */
    public int line() {
        return line;
    }

    /** {@return the column, from 1; 0 where the source has no lines} */
    public int column() {
        return column;
    }

    /** {@return the JSON pointer (RFC 6901) to the place; empty for the whole document} */
    public String pointer() {
        return pointer;
    }

    /** {@return the offending value; empty where there is none} */
    public String value() {
        return value;
    }

    /** {@return what is wrong} */
    public String problem() {
        return problem;
    }

    /** {@return what was expected} */
    public String expected() {
        return expected;
    }

    /** {@return how to mend it} */
    public String mend() {
        return mend;
    }
}
