package dev.lash.specs;

import dev.lash.check.ImportCode;
import dev.lash.check.ImportFinding;
import dev.lash.check.RowOutcome.Fate;
import java.util.EnumMap;
import java.util.Map;

/** Counts rows and findings. Used by one thread. */
final class ImportTally {
    private long read;
    private long accepted;
    private long rejected;
    private long duplicates;
    private final Map<ImportCode, Long> counts = new EnumMap<>(ImportCode.class);
    private final Map<ImportCode, ImportFinding> first = new EnumMap<>(ImportCode.class);

    long countRead() {
        return ++read;
    }

    long read() {
        return read;
    }

    void count(Fate fate) {
        switch (fate) {
            case ACCEPTED -> accepted++;
            case REJECTED -> rejected++;
            case DUPLICATE -> duplicates++;
        }
    }

    void count(ImportFinding finding) {
        counts.merge(finding.code(), 1L, Long::sum);
        first.putIfAbsent(finding.code(), finding);
    }

    ImportSummary summary() {
        return new ImportSummary(read, accepted, rejected, duplicates, counts, first);
    }
}
