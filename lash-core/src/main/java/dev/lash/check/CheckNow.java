package dev.lash.check;

import static java.util.Objects.requireNonNull;

import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.gauge.Bracket;
import dev.lash.gauge.Evidence;
import dev.lash.judge.Verdict;
import dev.lash.measure.LengthInterval;
import java.io.Serializable;
import java.util.Optional;

/**
 * Why a gap calls for work at once, where the time to check is now.
 *
 * @param valve the valve
 * @param gap its gap
 * @param work what to do
 */
public record CheckNow(ValveId valve, Gap gap, Work work) implements Serializable {
    /** What to do. */
    public enum Work {
        /** It was read and lies outside its window: set it. */
        SET("set"),
        /** It was set and not read since: read it again. */
        RECHECK("recheck"),
        /** It was not read at this check: read it. */
        READ("read"),
        /** Its trials contradict each other: repeat them. */
        REPEAT("repeat"),
        /** Its reading is in doubt, since a decompressor may have held the valve: read it again first. */
        IN_DOUBT("in-doubt"),
        /** Its reading leaves the verdict open: narrow it, or set the valve. */
        NARROW("narrow"),
        /** Its pad or tip is dished, so that no leaf tells: mend that, or set it by counted turns. */
        DISHED("dished"),
        /**
         * It was read within its window, but near a limit or with so little known of its drift that no time is left by the forecast:
         * leave it and check again soon, or set it now.
         */
        WITHIN("within");

        private final String word;

        Work(String word) {
            this.word = word;
        }

        /** {@return the word in documents} */
        public String word() {
            return word;
        }
    }

    /**
     * Creates it.
     *
     * @param valve the valve
     * @param gap its gap
     * @param work what to do
     */
    public CheckNow {
        requireNonNull(valve, "valve");
        requireNonNull(gap, "gap");
        requireNonNull(work, "work");
    }

    /** {@return the valve, and its gap where it has more than one, as reports name them} */
    public String name() {
        return ValveReading.name(valve, gap);
    }

    /** What a gap calls for, by its reading on the sheet. */
    static Work work(ValveCheck check) {
        boolean set = check.reading().findDone().isPresent();
        if (set && check.recheck().isEmpty()) {
            return Work.RECHECK;
        }
        if (check.reading().pad() == Pad.DISHED) {
            return Work.DISHED;
        }
        Optional<Bracket> bracket = set ? check.recheck().flatMap(Evidence::bracket) : check.bracket();
        if (bracket.isEmpty()) {
            return Work.REPEAT;
        }
        if (bracket.get().interval().equals(LengthInterval.any())) {
            return Work.READ;
        }
        if (!set && check.findings().stream().anyMatch(f -> f.code() == FindingCode.DECOMPRESSOR_HOLDS)) {
            return Work.IN_DOUBT;
        }
        return switch ((set ? check.recheckVerdict() : check.verdict()).orElse(Verdict.UNDECIDED)) {
            case TIGHT, LOOSE -> Work.SET;
            case WITHIN -> Work.WITHIN;
            case UNDECIDED -> Work.NARROW;
        };
    }
}
