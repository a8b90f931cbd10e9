package dev.lash.check;

import dev.lash.measure.TextParseException;
import dev.lash.measure.TextParseException.Reason;
import java.util.Arrays;
import java.util.Locale;
import java.util.Objects;

/**
 * The kinds of finding about an imported row; their names in documents are stable.
 *
 * <table>
 * <caption>What each means and what to do</caption>
 * <tr><th>severity</th><th>what happens to the row</th></tr>
 * <tr><td>error</td><td>it is rejected: into the side file, with the finding; mend it there and import that file</td></tr>
 * <tr><td>doubt</td><td>it is accepted, and somebody should look at it</td></tr>
 * <tr><td>note</td><td>it is accepted, or it was there already</td></tr>
 * </table>
 *
 * <p>An error about a value that can be read and is only unlikely {@linkplain #isConfirmable() can be confirmed}: whoever looked it
 * up writes the code into the row's {@linkplain ReadingField#CONFIRMED confirmed} column, and the row is accepted.
 */
public enum ImportCode {
    /** The row is not in the form of the file: too long, a quotation mark left open, broken characters. Mend the text. */
    BROKEN_ROW(Severity.ERROR, false),
    /** A column that each reading needs is empty: machine, date, usage, valve, or anything that was read of the gap. */
    MISSING_VALUE(Severity.ERROR, false),
    /** The text of a column is no value of its kind. */
    UNPARSABLE(Severity.ERROR, false),
    /** A number stands alone, and the mapping declares no unit for it. Nothing is guessed: add the unit or declare it. */
    NO_UNIT(Severity.ERROR, false),
    /** The decimal sign is not the declared one: a comma for a point, or a point for a comma. */
    DECIMAL_COMMA(Severity.ERROR, false),
    /** The number fits the engine as inches where it was taken for millimetres, or the other way round. */
    OTHER_UNIT(Severity.ERROR, true),
    /** The number fits the engine as whole hundredths of a millimetre, micrometres or thousandths of an inch. */
    WHOLE_HUNDREDTHS(Severity.ERROR, true),
    /** The trials exclude each other: no clearance agrees with them all. */
    CONTRADICTION(Severity.ERROR, false),
    /** No engine is known for the machine. */
    UNKNOWN_MACHINE(Severity.ERROR, false),
    /** The engine of the machine has no such valve, or no such gap. */
    UNKNOWN_VALVE(Severity.ERROR, false),
    /** The same reading is there already; it is left out and counted as a duplicate. */
    DUPLICATE(Severity.NOTE, false),
    /** The valve was read on that day already, with another result. */
    DUPLICATE_DIFFERS(Severity.ERROR, false),
    /** The intake and the exhaust reading of the visit fit much better the other way round. */
    ROLES_SWAPPED(Severity.ERROR, true),
    /** The counter shows less than at an earlier visit. Where a counter was replaced, count on. */
    USAGE_BACKWARDS(Severity.ERROR, false),
    /** The counter shows more than the machine can have done since the visit before. */
    USAGE_JUMP(Severity.ERROR, true),
    /** The date is after the day of the import. */
    DATE_IN_FUTURE(Severity.ERROR, false),
    /** The date is before that of a visit at which the counter showed less. */
    DATE_OUT_OF_ORDER(Severity.ERROR, false),
    /** The clearance is below 0, or larger than any clearance. */
    IMPOSSIBLE_CLEARANCE(Severity.ERROR, true),
    /** The train of the engine has no clearance to read. */
    NO_CLEARANCE_IN_THIS_TRAIN(Severity.ERROR, false),
    /** A leaf was used that is not in the gauge set. */
    LEAF_NOT_OWNED(Severity.DOUBT, true),
    /** The engine was warmer than the maker's condition. */
    ENGINE_TOO_WARM(Severity.DOUBT, true),
    /** The size of the shim is not one that is made for the engine. */
    SHIM_NOT_IN_RANGE(Severity.DOUBT, true),
    /** The shim found is not the one that the visit before left in. */
    SHIM_NOT_AS_RECORDED(Severity.DOUBT, true),
    /** The clearance did not change by what the shims say it should. */
    SHIM_ARITHMETIC(Severity.DOUBT, true),
    /** The clearance grew since the visit before, and no adjustment is recorded. */
    LOOSENED(Severity.DOUBT, true),
    /** Valves of the engine have no row in this visit. */
    VALVES_NOT_READ(Severity.NOTE, false),
    /** The visit is older than one that was imported before it, and fits in. */
    EARLIER_VISIT(Severity.NOTE, false);

    private final Severity severity;
    private final boolean confirmable;

    ImportCode(Severity severity, boolean confirmable) {
        this.severity = severity;
        this.confirmable = confirmable;
    }

    /** {@return how much findings of this kind matter} */
    public Severity severity() {
        return severity;
    }

    /** {@return whether a person may stand by the value: it can be read and is only unlikely} */
    public boolean isConfirmable() {
        return confirmable;
    }

    /** {@return the name in documents, such as {@code "other-unit"}} */
    public String code() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /**
     * Reads the name in documents.
     *
     * @param text the name, such as {@code "other-unit"}
     * @return the code
     * @throws TextParseException if the text is none of the names
     */
    public static ImportCode parse(String text) {
        Objects.requireNonNull(text, "text");
        return Arrays.stream(values())
                .filter(c -> c.code().equals(text))
                .findFirst()
                .orElseThrow(() -> new TextParseException(
                        Reason.UNKNOWN_WORD,
                        "import code",
                        text,
                        0,
                        "is not a code of an import finding",
                        "one of " + Arrays.toString(values()),
                        "copy the code from a finding"));
    }

    /** {@return {@link #code()}} */
    @Override
    public String toString() {
        return code();
    }
}
