package dev.lash.check;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What an import remembers of a machine: of each visit its day, the counter and a fingerprint of each slot's reading, and of each slot
 * what was left last. Bounded by the profile's number of visits.
 */
final class MachineState {
    /** No reading of that slot. */
    static final int UNREAD = 0;

    final String name;
    final EngineView view;

    /** The rows of the visit that is still open, and its day. */
    List<RowReading> open = new ArrayList<>(2);

    int openDay;

    /** Visits in the order of their days. */
    private int visits;

    private int[] days;
    private long[] usages;
    private int[] prints;

    /** By slot: the day of the last reading, and what it left. */
    final int[] lastDay;

    final long[] lastLow;
    final long[] lastHigh;
    final long[] lastShim;

    /** By slot: the shim that a row says was fitted which was rejected since the last accepted one; made with the first of them. */
    private long @Nullable [] rejectedShim;

    /** By slot: whether such a row says that the clearance was adjusted. */
    private boolean @Nullable [] rejectedAdjustment;

    MachineState(String name, EngineView view) {
        this.name = name;
        this.view = view;
        int slots = view.slots();
        this.days = new int[2];
        this.usages = new long[2];
        this.prints = new int[2 * slots];
        this.lastDay = new int[slots];
        this.lastLow = new long[slots];
        this.lastHigh = new long[slots];
        this.lastShim = new long[slots];
        Arrays.fill(lastDay, Integer.MIN_VALUE);
        Arrays.fill(lastLow, Span.NO_LOW);
        Arrays.fill(lastHigh, Span.NO_HIGH);
    }

    /** The rows of the open visit, which is then no longer open. */
    List<RowReading> takeOpen() {
        List<RowReading> taken = open;
        open = new ArrayList<>(2);
        return taken;
    }

    /** Keeps what a rejected row says was done: what follows from it is no fault of the rows after it. */
    void reject(int slot, RowReading row) {
        if (slot < 0 || !row.adjusted) {
            return;
        }
        if (rejectedShim == null || rejectedAdjustment == null) {
            rejectedShim = new long[view.slots()];
            rejectedAdjustment = new boolean[view.slots()];
        }
        rejectedShim[slot] = row.fitted;
        rejectedAdjustment[slot] = true;
    }

    /** Whether a row that was rejected since the last accepted one says that this shim was fitted. */
    boolean isFittedByRejected(int slot, long shim) {
        return rejectedShim != null && rejectedShim[slot] == shim;
    }

    /** Whether a row that was rejected since the last accepted one says that the clearance was adjusted. */
    boolean isAdjustedByRejected(int slot) {
        return rejectedAdjustment != null && rejectedAdjustment[slot];
    }

    /** How many remembered visits are before a day. */
    int before(int day) {
        int i = visits;
        while (i > 0 && days[i - 1] >= day) {
            i--;
        }
        return i;
    }

    int visits() {
        return visits;
    }

    int day(int visit) {
        return days[visit];
    }

    long usage(int visit) {
        return usages[visit];
    }

    /** The fingerprint of what was read of a slot on a day, or {@link #UNREAD}. */
    int print(int day, int slot) {
        int visit = before(day);
        return visit < visits && days[visit] == day ? prints[visit * view.slots() + slot] : UNREAD;
    }

    /** Remembers an accepted reading. */
    void remember(RowReading row, int mostVisits) {
        int slots = view.slots();
        int visit = before(row.day);
        if (visit == visits || days[visit] != row.day) {
            if (visits >= mostVisits) {
                if (visit == 0) {
                    return;
                }
                System.arraycopy(days, 1, days, 0, visits - 1);
                System.arraycopy(usages, 1, usages, 0, visits - 1);
                System.arraycopy(prints, slots, prints, 0, (visits - 1) * slots);
                visits--;
                visit--;
            }
            if (visits == days.length) {
                int more = Math.min(mostVisits, visits + Math.max(2, visits / 2));
                days = Arrays.copyOf(days, more);
                usages = Arrays.copyOf(usages, more);
                prints = Arrays.copyOf(prints, more * slots);
            }
            System.arraycopy(days, visit, days, visit + 1, visits - visit);
            System.arraycopy(usages, visit, usages, visit + 1, visits - visit);
            System.arraycopy(prints, visit * slots, prints, (visit + 1) * slots, (visits - visit) * slots);
            Arrays.fill(prints, visit * slots, (visit + 1) * slots, UNREAD);
            days[visit] = row.day;
            usages[visit] = row.usageKey;
            visits++;
        }
        usages[visit] = Math.max(usages[visit], row.usageKey);
        prints[visit * slots + row.slot] = row.print();
        if (row.day >= lastDay[row.slot]) {
            Span left = row.adjusted ? row.left : row.found;
            lastDay[row.slot] = row.day;
            if (rejectedShim != null && rejectedAdjustment != null) {
                rejectedShim[row.slot] = 0;
                rejectedAdjustment[row.slot] = false;
            }
            lastLow[row.slot] = left.low();
            lastHigh[row.slot] = left.high();
            lastShim[row.slot] = row.adjusted ? row.fitted : row.shim > 0 ? row.shim : lastShim[row.slot];
        }
    }
}
