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
 * <p>Each kind says what it is seen from, with an example, how to mend it, and when it is wrong. How often each is found, and how
 * often it is wrong, was tried on a generated corpus, whose table is in {@code lash-examples/IMPORT.md}.
 *
 * <p>An error about a value that can be read and is only unlikely {@linkplain #isConfirmable() can be confirmed}: whoever looked it
 * up writes the code into the row's {@linkplain ReadingField#CONFIRMED confirmed} column, and the row is accepted.
 */
public enum ImportCode {
    /**
     * The row is not in the form of the file.
     *
     * <p>Seen from: the text alone: too long, a quotation mark left open or followed by text, too many or too few columns, characters that are no text, JSON that is none, or that has a key which no mapping names and lash does not know.
     *
     * <p>Example: {@code Hill bike 5;2.4.2031;"open} has a quotation mark that is not closed.
     *
     * <p>Mend: the text of the row. The rows after it are read.
     *
     * <p>False alarms: A file with another delimiter than declared breaks every row: look at the mapping first.
     */
    BROKEN_ROW(Severity.ERROR, false),
    /**
     * A column that each reading needs is empty.
     *
     * <p>Seen from: the row: machine, date, usage, valve, or all columns of what was read of the gap.
     *
     * <p>Example: a row without a date.
     *
     * <p>Mend: fill it in.
     *
     * <p>False alarms: None are known. A gap that was not measured needs no row.
     */
    MISSING_VALUE(Severity.ERROR, false),
    /**
     * The text of a column is no value of its kind.
     *
     * <p>Seen from: the text and the mapping.
     *
     * <p>Example: {@code O.10}, with the letter O, for a leaf; {@code 2.4.2031} where year, month and day are declared.
     *
     * <p>Mend: write the value in the form that the finding names.
     *
     * <p>False alarms: Where whole columns are named, the mapping declares another form than the file has.
     */
    UNPARSABLE(Severity.ERROR, false),
    /**
     * A number stands alone, and no unit is declared for its column. Nothing is guessed.
     *
     * <p>Seen from: the text and the mapping; window and history of the valve for the likely unit.
     *
     * <p>Example: {@code 0.10} for a leaf, with no unit in the mapping.
     *
     * <p>Mend: add the unit, or declare it in the mapping.
     *
     * <p>False alarms: None: the unit is truly not known.
     */
    NO_UNIT(Severity.ERROR, false),
    /**
     * The decimal sign is not the declared one.
     *
     * <p>Seen from: the text and the mapping.
     *
     * <p>Example: {@code 0,10} where a decimal point is declared, with {@code 0.10} as the likely text.
     *
     * <p>Mend: write the declared sign, or declare the other one.
     *
     * <p>False alarms: {@code 9,120 km} may have a comma between thousands. Of a usage with three digits after the sign both readings are said, and no likely text is offered.
     */
    DECIMAL_COMMA(Severity.ERROR, false),
    /**
     * The number fits the valve as inches where it was taken for millimetres, or the other way round.
     *
     * <p>Seen from: how likely the number is in each unit, by the window of the valve, by what the visit before left, and by the leaves that are owned; the odds are given.
     *
     * <p>Example: {@code 0.004} mm for a window of 0.08 to 0.13 mm, which 0.004 in would fit.
     *
     * <p>Mend: look up which unit was meant, and write it behind the number.
     *
     * <p>False alarms: A true reading near 0.004 mm, of a valve that is nearly closed up; confirm it.
     */
    OTHER_UNIT(Severity.ERROR, true),
    /**
     * The number fits the valve as whole hundredths of a millimetre, micrometres or thousandths of an inch.
     *
     * <p>Seen from: as for {@link #OTHER_UNIT}.
     *
     * <p>Example: {@code 10} mm, which 10 hundredths would fit.
     *
     * <p>Mend: write the unit behind the number.
     *
     * <p>False alarms: A true reading of many millimetres does not occur in a running engine.
     */
    WHOLE_HUNDREDTHS(Severity.ERROR, true),
    /**
     * The trials of the row exclude each other: no clearance agrees with them all.
     *
     * <p>Seen from: the trials, with leaf tolerance and drag allowance where the rule has them.
     *
     * <p>Example: 0.20 mm goes, 0.17 mm refuses.
     *
     * <p>Mend: repeat the two trials; where the columns were mixed up, change them over.
     *
     * <p>False alarms: A worn or bent leaf does this; the guarded rule allows for its tolerance.
     */
    CONTRADICTION(Severity.ERROR, false),
    /**
     * No engine is known for the machine.
     *
     * <p>Seen from: the name, letter for letter; blanks around it do not count.
     *
     * <p>Example: {@code Hill Bike 5} where {@code Hill bike 5} is known.
     *
     * <p>Mend: correct the name, or give the engine of the machine.
     *
     * <p>False alarms: None: without an engine nothing can be judged.
     */
    UNKNOWN_MACHINE(Severity.ERROR, false),
    /**
     * The engine of the machine has no such valve, or no such gap.
     *
     * <p>Seen from: the name, the names that the mapping declares, and the engine.
     *
     * <p>Example: {@code EX RIGHT} without an entry in {@code valveNames}.
     *
     * <p>Mend: correct the name, or declare it in the mapping.
     *
     * <p>False alarms: Where all rows of a machine are named, its engine is the wrong one.
     */
    UNKNOWN_VALVE(Severity.ERROR, false),
    /**
     * The same reading is there already; it is left out and counted as a duplicate.
     *
     * <p>Seen from: machine, day, gap, and a fingerprint of the reading.
     *
     * <p>Example: a file that is imported twice.
     *
     * <p>Mend: nothing.
     *
     * <p>False alarms: Two readings that differ have one fingerprint about once in four thousand million times.
     */
    DUPLICATE(Severity.NOTE, false),
    /**
     * The gap was read on that day already, with another result or another usage.
     *
     * <p>Seen from: machine, day, gap, and a fingerprint of the reading.
     *
     * <p>Example: 0.10 to 0.13 mm, and in a later row of the same day 0.13 to 0.15 mm.
     *
     * <p>Mend: keep the right one of the two rows.
     *
     * <p>False alarms: A recheck after an adjustment, written as a row of its own: it belongs into the column for what was left.
     */
    DUPLICATE_DIFFERS(Severity.ERROR, false),
    /**
     * The intake and the exhaust reading of the visit fit much better the other way round.
     *
     * <p>Seen from: both readings, by the windows of both valves and what the visit before left of each; the odds are given.
     *
     * <p>Example: intake 0.20 mm and exhaust 0.10 mm, where the windows are the other way round.
     *
     * <p>Mend: look up which valve is which, and change the names over.
     *
     * <p>False alarms: Both valves truly far off, one loose and one tight; confirm both rows. Where the windows overlap, few swaps can be seen.
     */
    ROLES_SWAPPED(Severity.ERROR, true),
    /**
     * The counter shows less than at an earlier visit, or more than at two later ones that agree.
     *
     * <p>Seen from: the accepted visits of the machine, and the two that follow; {@link ReadingValidator} says which visit is blamed.
     *
     * <p>Example: 640 h in April, 620 h in May.
     *
     * <p>Mend: correct the usage; where the counter was replaced, count on.
     *
     * <p>False alarms: Where no third visit decides, the earlier one may be the wrong one: it is named by date and row, look at both.
     */
    USAGE_BACKWARDS(Severity.ERROR, false),
    /**
     * The counter shows more than the machine can have done since the visit before.
     *
     * <p>Seen from: the days between, the most in a day, and from a year and three visits on the machine's own average, since its first visit or its second, whichever is more.
     *
     * <p>Example: 9120 km, and 91200 km a month later.
     *
     * <p>Mend: look for a digit too many.
     *
     * <p>False alarms: A machine that stood for years and is now used daily; confirm it.
     */
    USAGE_JUMP(Severity.ERROR, true),
    /**
     * The rows of one day show counters that are more than a day's use apart.
     *
     * <p>Seen from: the rows of the visit, and the most in a day: a row is named that half the rows of its visit or more are away from.
     *
     * <p>Example: the intake valve at 9120 km, and the exhaust valve on the same day at 19120 km.
     *
     * <p>Mend: look up what the counter showed, and correct the wrong one; where the rows are of two visits, correct the date.
     *
     * <p>False alarms: The one that is right, where as many rows show the one as the other: both are named.
     */
    USAGE_DIFFERS(Severity.DOUBT, true),
    /**
     * The usage counts distance where the machine is counted in time, or the other way round; the two cannot be compared.
     *
     * <p>Seen from: the unit of the usage, and that of the accepted visits of the machine.
     *
     * <p>Example: 100 h in March, 120 km in April.
     *
     * <p>Mend: write what the machine's own counter shows, or correct the name of the machine.
     *
     * <p>False alarms: The first visit decides: where that one has the wrong unit, all later ones are named until it is corrected.
     */
    OTHER_COUNTER(Severity.ERROR, false),
    /**
     * The date is after the day of the import.
     *
     * <p>Seen from: the day that the import was given.
     *
     * <p>Example: 2131-04-02.
     *
     * <p>Mend: correct the date.
     *
     * <p>False alarms: A computer whose clock is behind.
     */
    DATE_IN_FUTURE(Severity.ERROR, false),
    /**
     * The date is before that of a visit at which the counter showed less, or after those of two that agree at which it showed more.
     *
     * <p>Seen from: the accepted visits of the machine, and the two that follow; {@link ReadingValidator} says which visit is blamed.
     *
     * <p>Example: 650 h in March after 640 h in April.
     *
     * <p>Mend: correct the date or the usage, of this row or of the visit that is named.
     *
     * <p>False alarms: Where no third visit decides, the visit that is named may be the one with the wrong date. One of an earlier file stays, and shuts out all visits until their dates have caught up; from the second on their findings say that it is likely the wrong one, with its place and what would mend it.
     */
    DATE_OUT_OF_ORDER(Severity.ERROR, false),
    /**
     * The clearance is below 0, or larger than any clearance.
     *
     * <p>Seen from: the reading and the largest clearance of the profile.
     *
     * <p>Example: 2.75 mm goes.
     *
     * <p>Mend: look it up, and correct it.
     *
     * <p>False alarms: The closer of a desmodromic valve may be below 0, and is not named.
     */
    IMPOSSIBLE_CLEARANCE(Severity.ERROR, true),
    /**
     * The train of the engine has no clearance to read.
     *
     * <p>Seen from: the engine.
     *
     * <p>Example: a reading of an engine with hydraulic lifters.
     *
     * <p>Mend: check which machine was meant, or its spec.
     *
     * <p>False alarms: None, if the spec is right.
     */
    NO_CLEARANCE_IN_THIS_TRAIN(Severity.ERROR, false),
    /**
     * The whole reading lies many times above or below the window, as a decimal sign in the wrong place makes it.
     *
     * <p>Seen from: the reading, the window of the valve, and the window factor of the profile; a reading without a lower end is never too small.
     *
     * <p>Example: 1.0 mm goes and 1.3 mm refuses, where the window is 0.08 to 0.13 mm.
     *
     * <p>Mend: look for a decimal sign in the wrong place; where it is none, see to the valve before the engine runs.
     *
     * <p>False alarms: A screw that fell off, or a valve that is nearly closed up: the reading counts all the same. Not said where somebody stands by an {@link #IMPOSSIBLE_CLEARANCE} or by the unit.
     */
    FAR_FROM_WINDOW(Severity.DOUBT, true),
    /**
     * A leaf was used that is not in the gauge set.
     *
     * <p>Seen from: the set, where one is given.
     *
     * <p>Example: 0.135 mm in a set of whole hundredths.
     *
     * <p>Mend: correct the leaf, or add it to the set.
     *
     * <p>False alarms: A borrowed leaf; the reading counts all the same. Not said where the reading is an {@link #IMPOSSIBLE_CLEARANCE} that nobody stands by.
     */
    LEAF_NOT_OWNED(Severity.DOUBT, true),
    /**
     * The engine was warmer than the maker's condition.
     *
     * <p>Seen from: the temperature of the row and the engine's spec.
     *
     * <p>Example: 60 °C where at most 35 °C is asked for.
     *
     * <p>Mend: read it again with the engine cold.
     *
     * <p>False alarms: A thermometer near the exhaust.
     */
    ENGINE_TOO_WARM(Severity.DOUBT, true),
    /**
     * The size of the shim is not one that is made for the engine, or the train has no shims.
     *
     * <p>Seen from: the sizes of the spec.
     *
     * <p>Example: 2.43 mm where sizes go by 0.05 mm.
     *
     * <p>Mend: measure the shim, or correct the row.
     *
     * <p>False alarms: A worn shim that was measured, or one that was ground; the reading counts all the same.
     */
    SHIM_NOT_IN_RANGE(Severity.DOUBT, true),
    /**
     * The shim found is not the one that the visit before left in.
     *
     * <p>Seen from: the last accepted reading of the gap; a rejected row that names the gap and the shim explains it, if its date is not before that reading, and nothing is said.
     *
     * <p>Example: 2.40 mm left in, 2.35 mm found.
     *
     * <p>Mend: measure it; a swap may be missing from the records.
     *
     * <p>False alarms: The row with the swap was rejected for its machine or valve; import that first. Not said where the shim that was left is no size that is made, which was doubted then, or where {@link #ROLES_SWAPPED} stands against the row.
     */
    SHIM_NOT_AS_RECORDED(Severity.DOUBT, true),
    /**
     * The clearance did not change by what the shims say it should.
     *
     * <p>Seen from: found and left clearance, the two shims, the ratio of the train, and the shim tolerance of the profile.
     *
     * <p>Example: a shim that is 0.10 mm thinner, and a clearance that is the same.
     *
     * <p>Mend: measure the shim and the clearance again.
     *
     * <p>False alarms: A shim that does not seat yet.
     */
    SHIM_ARITHMETIC(Severity.DOUBT, true),
    /**
     * The clearance grew since the visit before, and no adjustment is recorded.
     *
     * <p>Seen from: what the visit before left, and how much the profile lets it grow; a rejected row with an adjustment explains it, if its date is not before that visit, and nothing is said.
     *
     * <p>Example: 0.10 to 0.13 mm left, 0.20 to 0.22 mm found.
     *
     * <p>Mend: ask who worked on it and enter the adjustment.
     *
     * <p>False alarms: A screw that came loose, a worn lobe: then the reading is right, and the engine is what needs looking at.
     */
    LOOSENED(Severity.DOUBT, true),
    /**
     * Gaps of the engine have no accepted row in this visit.
     *
     * <p>Seen from: the engine and the rows of the visit.
     *
     * <p>Example: three of four valves.
     *
     * <p>Mend: nothing, unless rows were lost or rejected.
     *
     * <p>False alarms: Rows of a visit that do not stand next to each other in the rows of their machine are taken for several visits.
     */
    VALVES_NOT_READ(Severity.NOTE, false),
    /**
     * The visit is older than all that are remembered of the machine, and others were forgotten: it may have been imported already.
     *
     * <p>Seen from: the accepted visits of the machine, of which a {@linkplain ValidationProfile#mostVisits() bounded number} is remembered.
     *
     * <p>Example: a file of decades of daily readings that is imported again.
     *
     * <p>Mend: raise mostVisits in the profile.
     *
     * <p>False alarms: A visit that never was imported; confirm it.
     */
    BEFORE_MEMORY(Severity.ERROR, true),
    /**
     * The visit is older than one that was imported before it, and fits in.
     *
     * <p>Seen from: the accepted visits of the machine.
     *
     * <p>Example: 2029 after 2031, with less on the counter.
     *
     * <p>Mend: nothing.
     *
     * <p>False alarms: None.
     */
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
