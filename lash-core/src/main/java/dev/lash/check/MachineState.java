package dev.lash.check;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What an import remembers of a machine: of each visit its day, the counter, the place of a row, and of each slot's reading a
 * fingerprint and what it left. Bounded by the profile's number of visits. Beside that, the rows that are not told yet:
 * those of the open visit, of the {@value #MOST_HELD} visits before it, and as many that stand or stood against one of these.
 */
final class MachineState {
    /** No reading of that slot. */
    static final int UNREAD = 0;

    /** How many accepted visits are on hold: a row that is a visit of its own, as its date is wrong, may part its visit in two. */
    static final int MOST_HELD = 3;

    /** No day. */
    static final int NO_DAY = Integer.MIN_VALUE;

    final String name;
    final EngineView view;

    /** The rows of the visit that is still open, and its day. */
    List<RowReading> open = List.of();

    int openDay;

    /** Visits that are judged and remembered and may yet be taken back, the oldest in front. */
    List<List<RowReading>> held = List.of();

    /** Rows that stand against the order of what is remembered, and nothing else: the next visit may prove them right. */
    List<RowReading> against = List.of();

    /** Rows that stood against the order of what is remembered, and are rejected unless that is rejected itself. */
    List<RowReading> late = List.of();

    /** Whether something was rejected that these may have stood against. */
    boolean isLateDue;

    /** Whether they are being judged anew. */
    boolean isSettling;

    /** The days of visits that were told already, and that two later ones which agree stand against; made with the first of them. */
    private @Nullable Set<Integer> suspects;

    /** Which part of the import the rows are of. */
    private int part;

    /** The part that the places of rows are of, where they are all of one. */
    private int partOfAll;

    /** By visit: the part that its place is of; made with the first visit of another part. */
    private int @Nullable [] parts;

    /** Visits in the order of their days. */
    private int visits;

    /** Whether older ones were forgotten. */
    private boolean forgetful;

    /** The counter of a remembered reading: all of them are of its kind. */
    private @Nullable Counter counter;

    private int[] days;
    private long[] usages;

    /** The least that the counter showed at each visit; made with the first visit whose rows do not show the same. */
    private long @Nullable [] least;

    private int[] places;
    private int[] prints;

    /** By visit and slot, as the fingerprints are: what was left, or {@code null} where it was not read. */
    private @Nullable Left[] lefts;

    private final Left.Pool pool;

    /** By slot: the shim that a row says was fitted which was rejected since the last accepted one; made with the first of them. */
    private long @Nullable [] rejectedShim;

    /** By slot: whether such a row says that the clearance was adjusted. */
    private boolean @Nullable [] rejectedAdjustment;

    /** By slot: the day of that row, or {@link #NO_DAY} where it is not to be trusted. */
    private int @Nullable [] rejectedDay;

    MachineState(String name, EngineView view, Left.Pool pool) {
        this.name = name;
        this.view = view;
        this.pool = pool;
        int slots = view.slots();
        this.days = new int[2];
        this.usages = new long[2];
        this.places = new int[2];
        this.prints = new int[2 * slots];
        this.lefts = new Left[2 * slots];
    }

    /** The rows of the open visit, which is then no longer open. */
    List<RowReading> takeOpen() {
        List<RowReading> taken = open;
        open = List.of();
        return taken;
    }

    /** The rows that stand against what is remembered, which are then no longer held. */
    List<RowReading> takeAgainst() {
        List<RowReading> taken = against;
        against = List.of();
        return taken;
    }

    /** The rows that were rejected for what they stood against, which are then no longer held. */
    List<RowReading> takeLate() {
        List<RowReading> taken = late;
        late = List.of();
        return taken;
    }

    /** The visits on hold, which are then no longer held. */
    List<List<RowReading>> takeHeld() {
        List<List<RowReading>> taken = held;
        held = List.of();
        return taken;
    }

    /** Adds to a list that is made with its first element: most machines of an import have nothing open and nothing on hold. */
    static <T> List<T> with(List<T> list, T element) {
        List<T> longer = list.isEmpty() ? new ArrayList<>(2) : list;
        longer.add(element);
        return longer;
    }

    /** Says which part of the import the rows that follow are of. */
    void begin(int ofPart) {
        part = ofPart;
    }

    boolean isSuspect(int day) {
        return suspects != null && suspects.contains(day);
    }

    /** Suspects a visit until it is forgotten: never twice, so that rows which stand against several are not judged anew for ever. */
    void suspect(int day) {
        if (suspects == null) {
            suspects = new HashSet<>();
        }
        suspects.removeIf(other -> !isDay(before(other), other));
        suspects.add(day);
    }

    /** Whether a visit of this day would be older than all that are remembered, and others were forgotten. */
    boolean isForgotten(int day) {
        return forgetful && visits > 0 && day < days[0];
    }

    private boolean isDay(int visit, int day) {
        return visit < visits && days[visit] == day;
    }

    /**
     * Keeps what a rejected row says was done: what follows from it is no fault of the rows after it. Where the row's date is to be
     * trusted it explains only what was found from that day on, and nothing once a later reading is accepted.
     */
    void reject(int slot, RowReading row) {
        int day = row.isDateTrusted() ? row.day : NO_DAY;
        if (slot < 0 || !row.adjusted || (day != NO_DAY && day < lastDay(slot))) {
            return;
        }
        if (rejectedShim == null || rejectedAdjustment == null || rejectedDay == null) {
            rejectedShim = new long[view.slots()];
            rejectedAdjustment = new boolean[view.slots()];
            rejectedDay = new int[view.slots()];
        }
        rejectedShim[slot] = row.fitted;
        rejectedAdjustment[slot] = true;
        rejectedDay[slot] = day;
    }

    /** Forgets what a row that is to be judged anew says was done. */
    void takeRejectionBack(RowReading row) {
        if (row.adjusted && rejectedShim != null && rejectedAdjustment != null) {
            rejectedShim[row.slot] = 0;
            rejectedAdjustment[row.slot] = false;
        }
    }

    /** Whether a row that was rejected since the last accepted one says that this shim was fitted, up to a day. */
    boolean isFittedByRejected(int slot, long shim, int day) {
        return rejectedShim != null && rejectedDay != null && rejectedShim[slot] == shim && rejectedDay[slot] <= day;
    }

    /** Whether a row that was rejected since the last accepted one says that the clearance was adjusted, up to a day. */
    boolean isAdjustedByRejected(int slot, int day) {
        return rejectedAdjustment != null
                && rejectedDay != null
                && rejectedAdjustment[slot]
                && rejectedDay[slot] <= day;
    }

    /** How many remembered visits are before a day. */
    int before(int day) {
        if (visits == 0 || days[visits - 1] < day) {
            return visits;
        }
        int place = Arrays.binarySearch(days, 0, visits, day);
        return place < 0 ? -place - 1 : place;
    }

    int visits() {
        return visits;
    }

    int day(int visit) {
        return days[visit];
    }

    /** A counter of the kind that the machine has, or {@code null} while no reading of it is accepted. */
    @Nullable
    Counter counter() {
        if (visits > 0) {
            return counter;
        }
        return open.isEmpty() ? null : open.get(0).counter;
    }

    /** The most that the counter showed at a visit. */
    long usage(int visit) {
        return usages[visit];
    }

    /** The least that the counter showed at a visit. */
    long leastUsage(int visit) {
        return least == null ? usages[visit] : least[visit];
    }

    private void setLeast(int visit, long usage) {
        if (least == null && usage != usages[visit]) {
            least = usages.clone();
        }
        if (least != null) {
            least[visit] = usage;
        }
    }

    /** The place of a row of a visit, in the {@linkplain #partOf part} that it is of. */
    int place(int visit) {
        return places[visit];
    }

    /** The part of the import that the place of a visit is of. */
    int partOf(int visit) {
        return parts == null ? partOfAll : parts[visit];
    }

    /** Whether the place of a visit is of the part that is read now. */
    boolean isOfThisPart(int visit) {
        return partOf(visit) == part;
    }

    private void setPlace(int visit, int place, int ofPart) {
        places[visit] = place;
        if (parts == null && visits == 1) {
            partOfAll = ofPart;
        } else if (parts == null && ofPart != partOfAll) {
            parts = new int[days.length];
            Arrays.fill(parts, partOfAll);
        }
        if (parts != null) {
            parts[visit] = ofPart;
        }
    }

    /** The fingerprint of what was read of a slot on a day, or {@link #UNREAD}. */
    int print(int day, int slot) {
        int visit = before(day);
        return isDay(visit, day) ? prints[visit * view.slots() + slot] : UNREAD;
    }

    /** Remembers an accepted reading. */
    void remember(RowReading row, int mostVisits) {
        put(row, mostVisits);
        if (rejectedShim != null
                && rejectedAdjustment != null
                && rejectedDay != null
                && row.day >= rejectedDay[row.slot]
                && row.day >= lastDay(row.slot)) {
            rejectedShim[row.slot] = 0;
            rejectedAdjustment[row.slot] = false;
        }
    }

    private void put(RowReading row, int mostVisits) {
        int slots = view.slots();
        counter = row.counter;
        int visit = before(row.day);
        boolean fresh = !isDay(visit, row.day);
        row.usageBefore = fresh ? RowReading.NONE : usages[visit];
        row.placeBefore = fresh ? 0 : places[visit];
        row.partBefore = fresh ? 0 : partOf(visit);
        row.leastBefore = fresh ? Long.MAX_VALUE : leastUsage(visit);
        if (fresh) {
            if (visits >= mostVisits) {
                forgetful = true;
                if (visit == 0) {
                    return;
                }
                cut(0);
                visit--;
            }
            if (visits == days.length) {
                size(Math.min(mostVisits, visits + Math.max(2, visits / 2)));
            }
            int later = visits - visit;
            System.arraycopy(days, visit, days, visit + 1, later);
            System.arraycopy(usages, visit, usages, visit + 1, later);
            if (least != null) {
                System.arraycopy(least, visit, least, visit + 1, later);
                least[visit] = row.usageKey;
            }
            System.arraycopy(places, visit, places, visit + 1, later);
            if (parts != null) {
                System.arraycopy(parts, visit, parts, visit + 1, later);
            }
            System.arraycopy(prints, visit * slots, prints, (visit + 1) * slots, later * slots);
            Arrays.fill(prints, visit * slots, (visit + 1) * slots, UNREAD);
            System.arraycopy(lefts, visit * slots, lefts, (visit + 1) * slots, later * slots);
            Arrays.fill(lefts, visit * slots, (visit + 1) * slots, null);
            days[visit] = row.day;
            usages[visit] = row.usageKey;
            visits++;
        }
        long lowest = Math.min(row.leastBefore, row.usageKey);
        if (fresh || row.usageKey > usages[visit]) {
            usages[visit] = row.usageKey;
            setPlace(visit, (int) Math.min(row.record.row(), Integer.MAX_VALUE), part);
        }
        setLeast(visit, lowest);
        prints[visit * slots + row.slot] = row.print();
        lefts[visit * slots + row.slot] = pool.one(Left.of(row));
    }

    /** Makes room for so many visits. */
    private void size(int most) {
        days = Arrays.copyOf(days, most);
        usages = Arrays.copyOf(usages, most);
        least = least == null ? null : Arrays.copyOf(least, most);
        places = Arrays.copyOf(places, most);
        parts = parts == null ? null : Arrays.copyOf(parts, most);
        prints = Arrays.copyOf(prints, most * view.slots());
        lefts = Arrays.copyOf(lefts, most * view.slots());
    }

    /** Gives room back that is not used: most machines of an import have no more rows once they were quiet for long. */
    void trim() {
        if (days.length > visits) {
            size(visits);
        }
    }

    /** What a slot was left with at the last visit before a day at which it was read, or {@code null}. */
    @Nullable
    Left leftBefore(int day, int slot) {
        int visit = readBefore(before(day), slot);
        return visit < 0 ? null : lefts[visit * view.slots() + slot];
    }

    /** The shim that was in after the last visit before a day that says something of it; 0 where it is not known. */
    long shimBefore(int day, int slot) {
        for (int i = readBefore(before(day), slot); i >= 0; i = readBefore(i, slot)) {
            Left left = lefts[i * view.slots() + slot];
            if (left != null && left.shim() != Left.SHIM_NOT_SAID) {
                return left.shim();
            }
        }
        return 0;
    }

    /** The last of the first visits at which a slot was read, or -1. */
    private int readBefore(int visit, int slot) {
        int i = visit - 1;
        while (i >= 0 && lefts[i * view.slots() + slot] == null) {
            i--;
        }
        return i;
    }

    /** The day of the last reading of a slot, or {@link #NO_DAY}. */
    private int lastDay(int slot) {
        int visit = readBefore(visits, slot);
        return visit < 0 ? NO_DAY : days[visit];
    }

    /** Takes a visit out of what is remembered. */
    private void cut(int visit) {
        int slots = view.slots();
        int later = visits - visit - 1;
        System.arraycopy(days, visit + 1, days, visit, later);
        System.arraycopy(usages, visit + 1, usages, visit, later);
        if (least != null) {
            System.arraycopy(least, visit + 1, least, visit, later);
        }
        System.arraycopy(places, visit + 1, places, visit, later);
        if (parts != null) {
            System.arraycopy(parts, visit + 1, parts, visit, later);
        }
        System.arraycopy(prints, (visit + 1) * slots, prints, visit * slots, later * slots);
        System.arraycopy(lefts, (visit + 1) * slots, lefts, visit * slots, later * slots);
        visits--;
    }

    /** What is remembered, so that it can be as it was. */
    Memory memory() {
        return new Memory(
                visits,
                days.clone(),
                usages.clone(),
                least == null ? null : least.clone(),
                places.clone(),
                partOfAll,
                parts == null ? null : parts.clone(),
                prints.clone(),
                lefts.clone());
    }

    /** Remembers what was remembered then. */
    void restore(Memory memory) {
        visits = memory.visits;
        days = memory.days;
        usages = memory.usages;
        least = memory.least;
        places = memory.places;
        partOfAll = memory.partOfAll;
        parts = memory.parts;
        prints = memory.prints;
        lefts = memory.lefts;
    }

    /** A copy of what is remembered; not a record, which would be equal by arrays that are the same. */
    static final class Memory {
        private final int visits;
        private final int[] days;
        private final long[] usages;
        private final long @Nullable [] least;
        private final int[] places;
        private final int partOfAll;
        private final int @Nullable [] parts;
        private final int[] prints;
        private final @Nullable Left[] lefts;

        private Memory(
                int visits,
                int[] days,
                long[] usages,
                long @Nullable [] least,
                int[] places,
                int partOfAll,
                int @Nullable [] parts,
                int[] prints,
                @Nullable Left[] lefts) {
            this.visits = visits;
            this.days = days;
            this.usages = usages;
            this.least = least;
            this.places = places;
            this.partOfAll = partOfAll;
            this.parts = parts;
            this.prints = prints;
            this.lefts = lefts;
        }
    }

    /** Takes a whole day out of what is remembered. */
    void forgetDay(int day) {
        int visit = before(day);
        if (isDay(visit, day)) {
            cut(visit);
        }
    }

    /** Takes rows on hold back, as if they had never been accepted. */
    void takeBack(List<RowReading> rows, int mostVisits) {
        again(List.of(), rows, mostVisits);
    }

    /** Accepts rows on hold that were taken back, as if they never had been. */
    void putBack(List<RowReading> rows, int mostVisits) {
        again(rows, List.of(), mostVisits);
    }

    /** Undoes what is remembered of the rows on hold, and remembers them again in their order. */
    private void again(List<RowReading> unknown, List<RowReading> without, int mostVisits) {
        List<RowReading> rows = new ArrayList<>();
        held.forEach(visit -> visit.stream().filter(row -> !row.hasError()).forEach(rows::add));
        for (int i = rows.size() - 1; i >= 0; i--) {
            if (!unknown.contains(rows.get(i))) {
                undo(rows.get(i));
            }
        }
        for (RowReading row : rows) {
            if (!without.contains(row)) {
                put(row, mostVisits);
            }
        }
    }

    /** Takes back what was remembered last. */
    private void undo(RowReading row) {
        int visit = before(row.day);
        if (!isDay(visit, row.day)) {
            // too old to be remembered
            return;
        }
        if (row.usageBefore == RowReading.NONE) {
            cut(visit);
        } else {
            usages[visit] = row.usageBefore;
            setLeast(visit, row.leastBefore);
            setPlace(visit, row.placeBefore, row.partBefore);
            prints[visit * view.slots() + row.slot] = UNREAD;
            lefts[visit * view.slots() + row.slot] = null;
        }
    }
}
