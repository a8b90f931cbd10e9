package dev.lash.check;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/** A row while it is looked at. Used by one thread. */
final class RowReading {
    /** The row as it is read, which is the original with corrections where they are asked for. */
    final ReadingRecord record;

    /** No usage. */
    static final long NONE = -1;

    final ReadingRecord original;
    final MachineState machine;
    int day;
    boolean dated;

    @Nullable
    Counter counter;

    long usageKey;
    int slot = -1;
    Span found = Span.ANY;
    boolean adjusted;
    Span left = Span.ANY;
    long shim;
    long fitted;
    boolean duplicate;

    /** The visit that the row stands against by its date or usage. */
    int opponent = MachineState.NO_DAY;

    /** What was remembered before this row was, so that it can be taken back. */
    long usageBefore = NONE;

    long leastBefore;
    int placeBefore;
    int partBefore;

    private boolean error;
    private List<ImportFinding> findings = List.of();

    RowReading(ReadingRecord record, ReadingRecord original, MachineState machine) {
        this.record = record;
        this.original = original;
        this.machine = machine;
    }

    void add(ImportFinding finding) {
        if (findings.isEmpty()) {
            findings = new ArrayList<>(2);
        }
        findings.add(finding);
        error |= finding.severity() == Severity.ERROR;
    }

    /** Takes the doubts of a kind back. */
    void drop(ImportCode doubt) {
        if (!findings.isEmpty()) {
            findings.removeIf(finding -> finding.code() == doubt);
        }
    }

    void addAll(List<ImportFinding> more) {
        for (ImportFinding finding : more) {
            add(finding);
        }
    }

    List<ImportFinding> findings() {
        return findings;
    }

    boolean hasError() {
        return error;
    }

    /** The findings that were dealt with by a correction, for reading the row anew. */
    List<ImportFinding> dealtWith() {
        return findings.stream()
                .filter(finding -> finding.standing() == ImportFinding.Standing.CORRECTED)
                .toList();
    }

    /** Whether nothing is wrong with the row but that its date and usage do not fit another visit. */
    boolean isOnlyOutOfOrder() {
        return opponent != MachineState.NO_DAY && errorsAre(RowReading::isOfOrder);
    }

    /** Whether nothing is wrong with the row but what it is held against in other rows: one of these may turn out to be the wrong one. */
    boolean isOnlyUnlikeOthers() {
        return errorsAre(
                code -> isOfOrder(code) || code == ImportCode.USAGE_JUMP || code == ImportCode.DUPLICATE_DIFFERS);
    }

    private boolean errorsAre(Predicate<ImportCode> these) {
        return findings.stream()
                .filter(finding -> finding.severity() == Severity.ERROR)
                .map(ImportFinding::code)
                .allMatch(these);
    }

    private static boolean isOfOrder(ImportCode code) {
        return code == ImportCode.DATE_OUT_OF_ORDER || code == ImportCode.USAGE_BACKWARDS;
    }

    /** Whether the row has a date that nothing speaks against. */
    boolean isDateTrusted() {
        return dated && findings.stream().noneMatch(finding -> isOfOrder(finding.code()));
    }

    /** What the slot was left with before this row; where the row has no date, what it was left with last. */
    @Nullable
    Left leftBefore() {
        return machine.leftBefore(dated ? day : Integer.MAX_VALUE, slot);
    }

    /** Whether another row has the later date and less on the counter, or the other way round. */
    boolean isAgainst(RowReading other) {
        return (day < other.day && usageKey > other.usageKey) || (day > other.day && usageKey < other.usageKey);
    }

    /** The day and the place of the row. */
    String visit() {
        return LocalDate.ofEpochDay(day) + " (row " + record.row() + ")";
    }

    /** Tells readings of one slot and day apart; never {@link MachineState#UNREAD}. */
    int print() {
        return print(usageKey);
    }

    /** As {@link #print()}, if the counter had shown another usage. */
    int print(long usage) {
        long hash = 17;
        hash = mix(hash, found.low());
        hash = mix(hash, found.high());
        hash = mix(hash, (found.lowIncluded() ? 1 : 0) + (found.highIncluded() ? 2 : 0) + (adjusted ? 4 : 0));
        if (adjusted) {
            hash = mix(hash, left.low());
            hash = mix(hash, left.high());
        }
        hash = mix(hash, shim);
        hash = mix(hash, fitted);
        hash = mix(hash, usage);
        int folded = (int) (hash ^ (hash >>> 32));
        return folded == MachineState.UNREAD ? 1 : folded;
    }

    private static long mix(long hash, long value) {
        long h = (hash ^ value) * 0x9E3779B97F4A7C15L;
        return h ^ (h >>> 29);
    }
}
