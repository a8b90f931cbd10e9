package dev.lash.check;

import static java.util.Objects.requireNonNull;

import dev.lash.check.ImportFinding.Standing;
import dev.lash.check.RowOutcome.Fate;
import dev.lash.engine.Gap;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/** One import: takes rows one by one and tells what became of each. Used by one thread; made by {@link ReadingValidator#begin}. */
public final class ValidationRun {
    private static final int MOST_NAME = 200;
    private static final int MOST_CORRECTIONS = 8;

    private final Function<String, Optional<ImportedMachine>> machines;
    private final ValidationProfile profile;
    private final Consumer<RowOutcome> outcomes;
    private final RowJudge judge;
    private final Set<ImportCode> corrections;
    private final Map<String, MachineState> states = new HashMap<>();
    private final Map<ImportedMachine, EngineView> views = new HashMap<>();
    private final RowBefore before = new RowBefore();

    /** What the row before was about: rows mostly come machine by machine. */
    private static final class RowBefore {
        private @Nullable EngineView view;
        private @Nullable MachineState machine;
    }

    /** Machines whose visit is open, the one opened first in front. */
    private final LinkedHashSet<MachineState> open = new LinkedHashSet<>();

    ValidationRun(
            Function<String, Optional<ImportedMachine>> machines,
            ValidationProfile profile,
            LocalDate today,
            Consumer<RowOutcome> outcomes) {
        this.machines = machines;
        this.profile = profile;
        this.outcomes = requireNonNull(outcomes, "outcomes");
        this.judge = new RowJudge(profile, today);
        this.corrections = profile.correctionSet();
    }

    /**
     * Takes a row.
     *
     * @param record the row
     */
    public void accept(ReadingRecord record) {
        take(record, record, List.of(), 0);
    }

    private void take(ReadingRecord record, ReadingRecord original, List<ImportFinding> dealtWith, int times) {
        String name = record.text(ReadingField.MACHINE);
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
        }
        RowReading row = new RowReading(record, original, machine);
        row.addAll(dealtWith);
        boolean dated = judge.date(row);
        if (dated && !machine.open.isEmpty() && machine.openDay != row.day) {
            // what is held against the visit before needs that visit complete
            close(machine);
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
            tell(row);
            return;
        }
        if (row.duplicate) {
            tell(row);
            return;
        }
        for (RowReading other : machine.open) {
            if (other.slot == row.slot) {
                judge.repeated(row, other.print() == row.print());
                tell(row);
                return;
            }
        }
        if (machine.open.isEmpty()) {
            machine.openDay = row.day;
            open.add(machine);
        }
        machine.open.add(row);
        if (machine.open.size() == machine.view.slots()) {
            close(machine);
        } else if (open.size() > profile.mostOpenVisits()) {
            close(open.iterator().next());
        }
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
        MachineState state = new MachineState(name, view);
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

    /** Judges the visits that are still open. Rows may follow. */
    public void finish() {
        while (!open.isEmpty()) {
            close(open.iterator().next());
        }
    }

    /**
     * Judges the open visit of a machine and forgets the machine: for rows that are sorted by machine, so that the memory needed does
     * not grow with their number.
     *
     * @param machine the name of the machine
     */
    public void forget(String machine) {
        MachineState state = states.remove(requireNonNull(machine, "machine"));
        before.machine = null;
        if (state != null && !state.open.isEmpty()) {
            close(state);
        }
    }

    private void close(MachineState machine) {
        open.remove(machine);
        List<RowReading> visit = machine.takeOpen();
        if (visit.size() > 1 && swapped(visit) && corrections.contains(ImportCode.ROLES_SWAPPED)) {
            visit = corrected(visit);
        }
        missingValves(machine, visit);
        for (RowReading row : visit) {
            if (!row.hasError()) {
                machine.remember(row, profile.mostVisits());
            }
        }
        visit.forEach(this::tell);
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
                    double odds = judge.plausibility().swapOdds(a.machine, a, b);
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
                    missing.size() == 1 ? "has no row in this visit" : "have no row in this visit",
                    "each valve of the engine",
                    "nothing to do, unless rows were lost",
                    null);
        }
    }

    private void tell(RowReading row) {
        Fate fate = row.hasError() ? Fate.REJECTED : row.duplicate ? Fate.DUPLICATE : Fate.ACCEPTED;
        if (fate == Fate.REJECTED) {
            boolean swapped = row.findings().stream().anyMatch(f -> f.code() == ImportCode.ROLES_SWAPPED);
            row.machine.reject(swapped ? row.machine.view.opposite(row.slot) : row.slot, row);
        }
        outcomes.accept(new RowOutcome(
                row.original, fate, fate == Fate.ACCEPTED ? new ImportedReading(row) : null, row.findings()));
    }
}
