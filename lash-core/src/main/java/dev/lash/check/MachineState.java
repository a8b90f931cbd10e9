package dev.lash.check;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

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
    final List<RowReading> open = new ArrayList<>(2);

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
            lastLow[row.slot] = left.low();
            lastHigh[row.slot] = left.high();
            lastShim[row.slot] = row.adjusted ? row.fitted : row.shim > 0 ? row.shim : lastShim[row.slot];
        }
    }
}
