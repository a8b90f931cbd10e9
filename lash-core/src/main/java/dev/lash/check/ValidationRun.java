package dev.lash.check;

import static java.util.Objects.requireNonNull;

import dev.lash.check.ImportFinding.Standing;
import dev.lash.check.RowOutcome.Fate;
import dev.lash.engine.Gap;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/**
 * One import: takes rows one by one and tells what became of each. Used by one thread; made by {@link ReadingValidator#begin}.
 *
 * <p>Which of two visits that exclude each other is the wrong one, only others can tell: the {@link ReadingValidator} says how that is
 * decided, and how long rows are held for it.
 */
public final class ValidationRun {
    private static final int MOST_NAME = 200;
    private static final int MOST_CORRECTIONS = 8;

    /** How many characters the rows on hold may have together: long remarks are not to fill the memory. */
    private static final long MOST_HELD_TEXT = 1 << 24;

    private final Function<String, Optional<ImportedMachine>> machines;
    private final ValidationProfile profile;
    private final Consumer<RowOutcome> outcomes;
    private final RowJudge judge;
    private final Set<ImportCode> corrections;
    private final Map<String, MachineState> states = new HashMap<>();
    private final Map<ImportedMachine, EngineView> views = new HashMap<>();
    private final Left.Pool pool = new Left.Pool();
    private final RowBefore before = new RowBefore();

    /** What the row before was about: rows mostly come machine by machine. */
    private static final class RowBefore {
        private @Nullable EngineView view;
        private @Nullable MachineState machine;

        /** Counts the files: rows of one file have places of their own. */
        private int part;
    }

    /** Machines whose visit is open, the one opened first in front. */
    private final LinkedHashSet<MachineState> open = new LinkedHashSet<>();

    /** Machines with rows on hold, the one that was quiet for longest in front. */
    private final LinkedHashMap<MachineState, Boolean> holding = new LinkedHashMap<>(16, 0.75f, true);

    private final Untold untold = new Untold();

    /** The rows that were taken and not told. */
    private static final class Untold {
        private long characters;
    }

    ValidationRun(
            Function<String, Optional<ImportedMachine>> machines,
            ValidationProfile profile,
            LocalDate today,
            Consumer<RowOutcome> outcomes) {
        this.machines = machines;
        this.profile = profile;
        this.outcomes = requireNonNull(outcomes, "outcomes");
        this.judge = new RowJudge(profile, today);
        judge.begin("");
        this.corrections = profile.correctionSet();
    }

    /**
     * Says where the rows come from that follow until the next {@link #finish()}. A finding names a visit of the same file by its row,
     * such as {@code row 5}, and one of an earlier file by this text and the row.
     *
     * @param place what to write before the number of a row, such as {@code "store.jsonl, line"}; empty where nothing can be said
     */
    public void from(String place) {
        judge.place(requireNonNull(place, "place"));
    }

    /**
     * Takes a row.
     *
     * @param record the row
     */
    public void accept(ReadingRecord record) {
        untold.characters += record.length();
        take(record, record, List.of(), 0);
        if (untold.characters > MOST_HELD_TEXT) {
            bound();
        }
    }

    /** Tells rows early where those that are held have too many characters, of the machine first that was quiet for longest. */
    private void bound() {
        while (untold.characters > MOST_HELD_TEXT && !(holding.isEmpty() && open.isEmpty())) {
            if (holding.isEmpty()) {
                close(open.iterator().next());
            } else {
                release(holding.keySet().iterator().next());
            }
        }
    }

    private void take(ReadingRecord record, ReadingRecord original, List<ImportFinding> dealtWith, int times) {
        String name = record.text(ReadingField.MACHINE).strip();
        MachineState machine = before.machine;
        if (machine == null || !machine.name.equals(name)) {
            machine = states.get(name);
            if (machine == null) {
                machine = open(name);
                if (machine == null) {
                    noMachine(record, name);
                    return;
                }
            }
            before.machine = machine;
            machine.begin(before.part);
        }
        RowReading row = new RowReading(record, original, machine);
        row.addAll(dealtWith);
        boolean dated = judge.date(row);
        if (dated && !machine.open.isEmpty() && machine.openDay != row.day) {
            // what is held against the visit before needs that visit complete
            close(machine);
            settle(machine);
        }
        judge.judge(row, dated);
        if (row.hasError()) {
            if (!corrections.isEmpty() && times < MOST_CORRECTIONS) {
                ImportFinding mended = firstToCorrect(row);
                if (mended != null) {
                    Correction correction = requireNonNull(mended.correction());
                    List<ImportFinding> all = new ArrayList<>(dealtWith);
                    all.add(mended.with(Standing.CORRECTED));
                    take(record.with(correction.field(), correction.text()), original, all, times + 1);
                    return;
                }
            }
            rejected(row);
            return;
        }
        if (row.duplicate) {
            tell(row);
            return;
        }
        for (RowReading other : machine.open) {
            if (other.slot == row.slot) {
                judge.repeated(row, other);
                if (row.hasError()) {
                    rejected(row);
                } else {
                    tell(row);
                }
                return;
            }
        }
        if (machine.open.isEmpty()) {
            machine.openDay = row.day;
            open.add(machine);
        }
        machine.open = MachineState.with(machine.open, row);
        if (machine.open.size() == machine.view.slots()) {
            close(machine);
            settle(machine);
        } else if (open.size() > profile.mostOpenVisits()) {
            close(open.iterator().next());
        }
    }

    /** Holds a rejected row that other rows may yet prove right, and tells any other. */
    private void rejected(RowReading row) {
        reject(row);
        if (row.isOnlyOutOfOrder()) {
            standAgainst(row.machine, row);
        } else if (row.isOnlyUnlikeOthers()) {
            keepLate(row);
            hold(row.machine);
        } else {
            tell(row);
        }
    }

    /** Counts a machine among those with rows on hold; the one that was quiet for longest may have to tell them. */
    private void hold(MachineState machine) {
        // put in order of access: it moves to the end
        holding.put(machine, true);
        if (holding.size() > profile.mostOpenVisits()) {
            release(holding.keySet().iterator().next());
        }
    }

    /** Tells the rows that were held: they stand. Those of an open visit are not among them. */
    private void release(MachineState machine) {
        holding.remove(machine);
        machine.takeAgainst().forEach(this::tell);
        machine.takeLate().forEach(this::tell);
        machine.takeHeld().forEach(visit -> visit.forEach(this::tell));
        machine.trim();
    }

    /** Keeps a row that is rejected for what it stood against, until that is rejected itself; only the last such rows. */
    private void keepLate(RowReading row) {
        MachineState machine = row.machine;
        machine.late = MachineState.with(machine.late, row);
        if (machine.late.size() > MachineState.MOST_HELD * machine.view.slots()) {
            tell(machine.late.remove(0));
        }
    }

    /**
     * Judges such rows anew where something that rows may have stood against was rejected since, and closes their visits; to be called
     * only while no visit of the machine is open, of which rows may follow. A row that is judged anew leads here again: the loop that
     * is at work goes on then.
     */
    private void settle(MachineState machine) {
        if (machine.isSettling) {
            return;
        }
        machine.isSettling = true;
        while (machine.isLateDue) {
            machine.isLateDue = false;
            anew(machine.takeLate());
            if (!machine.open.isEmpty()) {
                close(machine);
            }
        }
        machine.isSettling = false;
    }

    /** Judges rejected rows as if they came now. */
    private void anew(List<RowReading> rows) {
        for (RowReading row : rows) {
            row.machine.takeRejectionBack(row);
            List<ImportFinding> dealtWith = row.dealtWith();
            take(row.record, row.original, dealtWith, dealtWith.size());
        }
    }

    /** Holds a row that only its date or usage speaks against, until the next visit has spoken. */
    private void standAgainst(MachineState machine, RowReading row) {
        RowReading one = null;
        for (RowReading other : machine.against) {
            boolean agrees = other.day != row.day && other.opponent == row.opponent && !other.isAgainst(row);
            if (agrees && (one == null || one.day != other.day)) {
                one = other;
            }
        }
        machine.against = MachineState.with(machine.against, row);
        boolean odd = one != null
                ? !machine.isSuspect(row.opponent) && isOddOneOut(machine, one, row)
                : isOddInItsVisit(machine, row);
        if (odd) {
            // judged anew: without the visit that they stood against, or with that visit named
            anew(machine.takeAgainst());
            return;
        }
        List<RowReading> against = machine.against;
        int mostRows = 2 * machine.view.slots();
        while (against.size() > mostRows || isThirdDay(against)) {
            keepLate(against.remove(0));
        }
        hold(machine);
    }

    /** Whether the rows are of more than two days: two are enough to tell which visit is wrong. */
    private static boolean isThirdDay(List<RowReading> rows) {
        int first = rows.get(0).day;
        int last = rows.get(rows.size() - 1).day;
        return rows.stream().anyMatch(row -> row.day != first && row.day != last);
    }

    /** The first finding whose correction is asked for, where there is one for every error. */
    private @Nullable ImportFinding firstToCorrect(RowReading row) {
        ImportFinding first = null;
        for (ImportFinding finding : row.findings()) {
            if (finding.severity() == Severity.ERROR) {
                if (finding.correction() == null || !corrections.contains(finding.code())) {
                    return null;
                }
                first = first == null ? finding : first;
            }
        }
        return first;
    }

    private @Nullable MachineState open(String name) {
        if (name.isBlank() || name.length() > MOST_NAME) {
            return null;
        }
        ImportedMachine machine = machines.apply(name).orElse(null);
        if (machine == null) {
            return null;
        }
        EngineView view = view(machine);
        MachineState state = new MachineState(name, view, pool);
        states.put(name, state);
        return state;
    }

    @SuppressWarnings("ReferenceEquality") // the same object is found without going through a whole engine
    private EngineView view(ImportedMachine machine) {
        EngineView view = before.view;
        if (view == null || view.machine != machine) {
            view = views.computeIfAbsent(machine, EngineView::new);
            before.view = view;
        }
        return view;
    }

    private void noMachine(ReadingRecord record, String name) {
        boolean missing = name.isBlank();
        untold.characters -= record.length();
        outcomes.accept(new RowOutcome(
                record,
                Fate.REJECTED,
                null,
                List.of(new ImportFinding(
                        missing ? ImportCode.MISSING_VALUE : ImportCode.UNKNOWN_MACHINE,
                        record.row(),
                        record.layout().name(ReadingField.MACHINE),
                        name,
                        missing ? "nothing is written here" : "is not a machine whose engine is known",
                        missing ? "the machine of the reading" : "a machine with a spec",
                        missing ? "fill it in" : "correct the name, or give the engine of this machine",
                        null,
                        Standing.OPEN))));
    }

    /** Judges the visits that are still open and tells all rows that were held. Rows may follow, of another file. */
    public void finish() {
        while (!open.isEmpty()) {
            close(open.iterator().next());
        }
        List.copyOf(holding.keySet()).forEach(this::settle);
        while (!holding.isEmpty()) {
            release(holding.keySet().iterator().next());
        }
        before.part++;
        before.machine = null;
        judge.begin("");
    }

    /**
     * Judges the open visit of a machine, tells its rows that were held, and forgets the machine: for rows that are sorted by machine, so
     * that the memory needed does not grow with their number.
     *
     * @param machine the name of the machine
     */
    public void forget(String machine) {
        String name = requireNonNull(machine, "machine").strip();
        MachineState state = states.get(name);
        if (state != null) {
            if (!state.open.isEmpty()) {
                close(state);
            }
            settle(state);
            release(state);
            states.remove(name);
        }
        before.machine = null;
    }

    private void close(MachineState machine) {
        open.remove(machine);
        List<RowReading> visit = machine.takeOpen();
        if (visit.size() > 1 && swapped(visit) && corrections.contains(ImportCode.ROLES_SWAPPED)) {
            visit = corrected(visit);
        }
        apart(visit);
        missingValves(machine, visit);
        boolean any = false;
        for (RowReading row : visit) {
            if (row.hasError()) {
                reject(row);
            } else {
                machine.remember(row, profile.mostVisits());
                any = true;
            }
        }
        if (any) {
            // a visit that agrees with what is remembered decides against those that do not
            machine.takeAgainst().forEach(this::keepLate);
        }
        machine.held = MachineState.with(machine.held, visit);
        if (machine.held.size() > MachineState.MOST_HELD) {
            machine.held.remove(0).forEach(this::tell);
        }
        hold(machine);
    }

    /** Doubts the rows whose counter is more than a day's use away from that of half the rows of the visit. */
    private void apart(List<RowReading> visit) {
        long usage = visit.get(0).usageKey;
        if (visit.stream().allMatch(row -> row.usageKey == usage)) {
            return;
        }
        List<RowReading> apart = visit.stream()
                .filter(row ->
                        2 * visit.stream().filter(other -> isNear(row, other)).count() <= visit.size())
                .toList();
        for (RowReading row : apart) {
            RowReading other = visit.stream()
                    .filter(o -> !isNear(row, o))
                    .max(Comparator.comparing(o -> !apart.contains(o)))
                    .orElseThrow();
            judge.apart(row, other.usageKey, "row " + other.record.row());
        }
    }

    private boolean isNear(RowReading row, RowReading other) {
        return Math.abs(row.usageKey - other.usageKey) <= judge.mostPerDay(row);
    }

    /** Says which pairs of readings fit much better the other way round. */
    private boolean swapped(List<RowReading> visit) {
        boolean any = false;
        for (RowReading a : visit) {
            int opposite = a.machine.view.opposite(a.slot);
            if (opposite <= a.slot || a.machine.view.gap(a.slot) == Gap.CLOSER) {
                continue;
            }
            for (RowReading b : visit) {
                if (b.slot == opposite && !isUsual(a, b)) {
                    double odds = judge.plausibility().swapOdds(a, b);
                    if (odds >= profile.swapOdds()) {
                        swapped(a, b, odds);
                        swapped(b, a, odds);
                        any = true;
                    }
                }
            }
        }
        return any;
    }

    private boolean isUsual(RowReading a, RowReading b) {
        EngineView view = a.machine.view;
        return inside(view, a.slot, a.found.middle()) && inside(view, b.slot, b.found.middle());
    }

    private static boolean inside(EngineView view, int slot, long nanometres) {
        return nanometres >= view.low(slot) && nanometres <= view.high(slot);
    }

    private void swapped(RowReading row, RowReading other, double odds) {
        // held against the other valve's past, which says nothing
        row.drop(ImportCode.SHIM_NOT_AS_RECORDED);
        String name = other.machine.view.valve(other.slot).toString();
        judge.add(
                row,
                ImportCode.ROLES_SWAPPED,
                ReadingField.VALVE,
                row.record.text(ReadingField.VALVE),
                "reads " + row.found.interval() + " and " + name + " " + other.found.interval()
                        + ": the other way round they fit far better",
                "near " + EngineView.text(row.machine.view.low(row.slot)) + " to "
                        + EngineView.text(row.machine.view.high(row.slot)),
                "look up which valve is which",
                new Correction(
                        ReadingField.VALVE,
                        other.record.text(ReadingField.VALVE),
                        "the two readings of the visit fit " + Math.round(Math.min(odds, 1e9))
                                + " times better the other way round",
                        odds));
    }

    /** The visit with the names of swapped valves changed over. */
    private List<RowReading> corrected(List<RowReading> visit) {
        List<RowReading> mended = new ArrayList<>();
        for (RowReading row : visit) {
            Optional<ImportFinding> swap = row.findings().stream()
                    .filter(f -> f.code() == ImportCode.ROLES_SWAPPED && f.severity() == Severity.ERROR)
                    .findFirst();
            if (swap.isEmpty()) {
                mended.add(row);
                continue;
            }
            Correction correction = requireNonNull(swap.get().correction());
            RowReading again =
                    new RowReading(row.record.with(correction.field(), correction.text()), row.original, row.machine);
            again.add(swap.get().with(Standing.CORRECTED));
            judge.judge(again, judge.date(again));
            mended.add(again);
        }
        return mended;
    }

    private void missingValves(MachineState machine, List<RowReading> visit) {
        int slots = machine.view.slots();
        if (visit.isEmpty() || visit.size() >= slots) {
            return;
        }
        List<String> missing = new ArrayList<>();
        for (int slot = 0; slot < slots; slot++) {
            int wanted = slot;
            if (visit.stream().noneMatch(r -> r.slot == wanted)
                    && machine.print(visit.get(0).day, slot) == MachineState.UNREAD) {
                missing.add(ValveReading.name(machine.view.valve(slot), machine.view.gap(slot)));
            }
        }
        if (!missing.isEmpty()) {
            RowReading last = visit.get(visit.size() - 1);
            judge.add(
                    last,
                    ImportCode.VALVES_NOT_READ,
                    null,
                    String.join(", ", missing),
                    missing.size() == 1 ? "has no accepted row in this visit" : "have no accepted row in this visit",
                    "each valve of the engine, its rows next to each other",
                    "nothing to do, unless rows were lost or rejected",
                    null);
        }
    }

    /** Keeps what a row that is rejected says was done. */
    private void reject(RowReading row) {
        boolean swapped = row.findings().stream().anyMatch(f -> f.code() == ImportCode.ROLES_SWAPPED);
        row.machine.reject(swapped ? row.machine.view.opposite(row.slot) : row.slot, row);
    }

    private void tell(RowReading row) {
        untold.characters -= row.original.length();
        Fate fate = row.hasError() ? Fate.REJECTED : row.duplicate ? Fate.DUPLICATE : Fate.ACCEPTED;
        outcomes.accept(new RowOutcome(
                row.original, fate, fate == Fate.ACCEPTED ? new ImportedReading(row) : null, row.findings()));
    }

    /**
     * Whether two visits stand against one before them that nothing else speaks for: without it they fit all that is remembered. Where
     * that one is on hold it is rejected; else it is named as the suspect.
     */
    private boolean isOddOneOut(MachineState machine, RowReading one, RowReading other) {
        int day = one.opponent;
        List<RowReading> odd = held(machine, row -> row.day == day && row.isAgainst(one) && row.isAgainst(other));
        if (isRejected(machine, odd, one, other)) {
            return true;
        }
        MachineState.Memory memory = machine.memory();
        machine.forgetDay(day);
        boolean suspect = fit(one) && fit(other);
        machine.restore(memory);
        if (suspect) {
            machine.suspect(day);
        }
        return suspect;
    }

    /**
     * Whether one visit alone stands against rows on hold that have not both the date and the usage of the other rows of their visit,
     * and these rows go with that visit. The rows on hold are then rejected.
     */
    private boolean isOddInItsVisit(MachineState machine, RowReading row) {
        List<RowReading> odd = held(machine, r -> r.day == row.opponent && r.isAgainst(row));
        if (odd.isEmpty()) {
            return false;
        }
        RowReading first = odd.get(0);
        List<RowReading> rest = held(
                machine,
                r -> (r.day == first.day) != (r.usageKey == first.usageKey)
                        && !r.isAgainst(row)
                        && odd.stream().noneMatch(o -> o.slot == r.slot));
        return rest.size() >= odd.size() && isRejected(machine, odd, rest.get(0), row);
    }

    private static List<RowReading> held(MachineState machine, Predicate<RowReading> which) {
        List<RowReading> rows = new ArrayList<>();
        for (List<RowReading> visit : machine.held) {
            for (RowReading row : visit) {
                if (!row.hasError() && which.test(row)) {
                    rows.add(row);
                }
            }
        }
        return rows;
    }

    /** Rejects rows on hold if without them the two others fit all that is remembered. */
    private boolean isRejected(MachineState machine, List<RowReading> odd, RowReading one, RowReading other) {
        if (odd.isEmpty()) {
            return false;
        }
        machine.takeBack(odd, profile.mostVisits());
        if (!fit(one) || !fit(other)) {
            machine.putBack(odd, profile.mostVisits());
            return false;
        }
        machine.held.forEach(visit -> visit.removeAll(odd));
        machine.isLateDue = !machine.late.isEmpty();
        for (RowReading row : odd) {
            judge.oddOneOut(row, one, other);
            reject(row);
            tell(row);
        }
        return true;
    }

    private boolean fit(RowReading row) {
        RowReading again = new RowReading(row.record, row.original, row.machine);
        judge.judge(again, judge.date(again));
        return !again.hasError();
    }
}
