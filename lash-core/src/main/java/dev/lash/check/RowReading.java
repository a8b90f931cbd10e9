package dev.lash.check;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** A row while it is looked at. Used by one thread. */
final class RowReading {
    /** The row as it is read, which is the original with corrections where they are asked for. */
    final ReadingRecord record;

    final ReadingRecord original;
    final MachineState machine;
    int day;

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

    /** Tells readings of one slot and day apart; never {@link MachineState#UNREAD}. */
    int print() {
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
        hash = mix(hash, usageKey);
        int folded = (int) (hash ^ (hash >>> 32));
        return folded == MachineState.UNREAD ? 1 : folded;
    }

    private static long mix(long hash, long value) {
        long h = (hash ^ value) * 0x9E3779B97F4A7C15L;
        return h ^ (h >>> 29);
    }
}
