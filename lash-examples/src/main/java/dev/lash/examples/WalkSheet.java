package dev.lash.examples;

import dev.lash.adjust.InstalledShim;
import dev.lash.check.CheckSheet;
import dev.lash.check.Done;
import dev.lash.check.ValveReading;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.Trial;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The check sheet as the whole state of a walk: pure functions from sheet to sheet.
 *
 * <p>The readings stand in the order in which the valves were reached, so the last one is where the walk is. A valve that was
 * left unfinished is followed by the next one, though that has no trials yet.
 */
final class WalkSheet {
    private WalkSheet() {}

    /**
     * The valve to ask about: the last on the sheet if it is not finished, else the first that is not on the sheet, else the
     * first on it that is not finished.
     *
     * @param left the valves that were left as they are, which do not come round again by themselves
     */
    static Optional<ValveId> current(CheckSheet sheet, Set<ValveId> left) {
        if (WalkWords.liftsCamshaft(sheet.engine().train())) {
            return currentByRound(sheet, left);
        }
        List<ValveReading> valves = walked(sheet);
        if (!valves.isEmpty() && isOpen(sheet, valves.get(valves.size() - 1), left)) {
            return Optional.of(valves.get(valves.size() - 1).valve());
        }
        return sheet.engine().valves().stream()
                .filter(v -> find(sheet, v).isEmpty())
                .findFirst()
                .or(() -> valves.stream()
                        .filter(reading -> isOpen(sheet, reading, left))
                        .map(ValveReading::valve)
                        .findFirst());
    }

    /** Rounds of a walk where a camshaft comes out: it is lifted once, so each round goes through all valves before the next. */
    private enum Round {
        READ,
        ADJUST,
        RECHECK
    }

    private static Round round(CheckSheet sheet, ValveReading reading) {
        if (reading.findDone().isPresent()) {
            return Round.RECHECK;
        }
        return new ValveWalk(sheet, reading).step() instanceof WalkStep.AskDone ? Round.ADJUST : Round.READ;
    }

    /** The valve that is being read, then the next that is not on the sheet; when all are read those to adjust; then the rechecks. */
    private static Optional<ValveId> currentByRound(CheckSheet sheet, Set<ValveId> left) {
        List<ValveReading> valves = walked(sheet);
        List<ValveReading> open =
                valves.stream().filter(r -> isOpen(sheet, r, left)).toList();
        Optional<ValveReading> last = valves.isEmpty()
                ? Optional.empty()
                : Optional.of(valves.get(valves.size() - 1)).filter(open::contains);
        if (last.filter(r -> round(sheet, r) == Round.READ).isPresent()) {
            return last.map(ValveReading::valve);
        }
        Optional<ValveId> unread = sheet.engine().valves().stream()
                .filter(v -> find(sheet, v).isEmpty())
                .findFirst();
        if (unread.isPresent()) {
            return unread;
        }
        for (Round round : Round.values()) {
            List<ValveId> here = open.stream()
                    .filter(r -> round(sheet, r) == round)
                    .map(ValveReading::valve)
                    .toList();
            if (!here.isEmpty()) {
                // a recheck that is begun goes on; else in the order of the engine
                return last.filter(r -> round == Round.RECHECK && !r.recheck().isEmpty())
                        .map(ValveReading::valve)
                        .or(() -> sheet.engine().valves().stream()
                                .filter(here::contains)
                                .findFirst());
            }
        }
        return Optional.empty();
    }

    /** Whether nothing more is asked of a valve for the time being, though nobody left it. */
    private static boolean isSettled(CheckSheet sheet, ValveReading reading) {
        return new ValveWalk(sheet, reading).isFinished()
                || (WalkWords.liftsCamshaft(sheet.engine().train()) && round(sheet, reading) != Round.READ);
    }

    private static boolean isOpen(CheckSheet sheet, ValveReading reading, Set<ValveId> left) {
        return !left.contains(reading.valve()) && !new ValveWalk(sheet, reading).isFinished();
    }

    /** The gap that a walk asks about: the opener of a desmodromic valve, the only one of any other. */
    static Gap gap(CheckSheet sheet) {
        return sheet.engine().gaps().get(0);
    }

    /** The readings that belong to the walk, in the order in which the valves were reached. */
    static List<ValveReading> walked(CheckSheet sheet) {
        return sheet.valves().stream().filter(r -> r.gap() == gap(sheet)).toList();
    }

    private static Optional<ValveReading> find(CheckSheet sheet, ValveId valve) {
        return sheet.find(valve, gap(sheet));
    }

    private static ValveReading untouched(CheckSheet sheet, ValveId valve) {
        ValveReading reading = ValveReading.of(valve, List.of());
        // the walk names a place clear of the device, so the answers are readings of that place
        if (sheet.engine()
                .decompressor()
                .filter(d -> d.isKnown() && d.valve().equals(valve))
                .isPresent()) {
            reading = reading.withStop(WalkWords.place(sheet.engine(), valve));
        }
        return gap(sheet) == Gap.OPENER ? reading.asOpener(List.of()) : reading;
    }

    /** A valve's reading; one without trials where the sheet has none yet. */
    static ValveReading reading(CheckSheet sheet, ValveId valve) {
        return find(sheet, valve).orElseGet(() -> untouched(sheet, valve));
    }

    /** One more trial, as found or after the adjustment; contradicting pairs that have been repeated go. */
    static CheckSheet withTrial(CheckSheet sheet, ValveId valve, Trial trial) {
        CheckSheet with = withLeaves(sheet, trial.leaf());
        ValveReading r = reading(with, valve);
        return r.findDone().isPresent()
                ? reached(with, copy(r, r.trials(), r.shim(), r.done(), more(r.recheck(), trial, with.rule())))
                : reached(with, r.withTrials(more(r.trials(), trial, with.rule())));
    }

    private static List<Trial> more(List<Trial> trials, Trial trial, ReadingRule rule) {
        List<Trial> more = new ArrayList<>(trials);
        more.add(trial);
        return Clash.settled(more, rule);
    }

    /** The leaves of a borrowed stack belong to the set from now on. */
    private static CheckSheet withLeaves(CheckSheet sheet, LeafStack stack) {
        GaugeSet gauges = sheet.gauges();
        for (int i = 0; i < stack.size() && !gauges.owns(stack); i++) {
            if (!gauges.owns(new LeafStack(stack.leaves().subList(0, i + 1)))) {
                gauges = gauges.withLeaf(stack.leaves().get(i));
            }
        }
        return gauges.equals(sheet.gauges()) ? sheet : copy(sheet, gauges, sheet.valves());
    }

    /** The installed shim; one without a size where it is not known. */
    static CheckSheet withShim(CheckSheet sheet, ValveId valve, InstalledShim shim) {
        ValveReading r = reading(sheet, valve);
        return reached(sheet, copy(r, r.trials(), shim, r.done(), r.recheck()));
    }

    /** What was done. Turns add up, since they are counted from the setting as found; of all else the last counts. */
    static CheckSheet withDone(CheckSheet sheet, ValveId valve, Done done) {
        ValveReading r = reading(sheet, valve);
        Done total = done instanceof Done.Turned now && r.done() instanceof Done.Turned before
                ? new Done.Turned(before.degrees().plus(now.degrees()))
                : done;
        return reached(sheet, r.withDone(total, List.of()));
    }

    /** The sheet once the valve is left as it is: it is on the sheet, and a next one that is new there follows it. */
    static CheckSheet leaving(CheckSheet sheet, ValveId valve, Set<ValveId> left) {
        CheckSheet with = withReading(sheet, valve);
        return current(with, left).map(next -> withReading(with, next)).orElse(with);
    }

    private static CheckSheet withReading(CheckSheet sheet, ValveId valve) {
        return find(sheet, valve).isPresent() ? sheet : reached(sheet, untouched(sheet, valve));
    }

    /**
     * The sheet without its last answer. What the sheet does not tell cannot come back: what was done in an earlier round, a pair
     * of contradicting trials that was taken out.
     *
     * @return the sheet, or empty when there is no answer on it
     */
    static Optional<CheckSheet> withoutLast(CheckSheet sheet) {
        List<ValveReading> valves = walked(sheet);
        if (valves.isEmpty()) {
            return Optional.empty();
        }
        ValveReading last = valves.get(valves.size() - 1);
        if (!isUntouched(last)) {
            return Optional.of(trimmed(reached(sheet, withoutLast(sheet, last))));
        }
        CheckSheet before = without(sheet, last);
        if (valves.size() == 1) {
            return Optional.of(before);
        }
        ValveReading previous = valves.get(valves.size() - 2);
        // an unfinished valve was left by an answer of its own, which is now taken back; a finished one by its last
        // trial
        return isSettled(before, previous) ? withoutLast(before) : Optional.of(trimmed(before));
    }

    private static ValveReading withoutLast(CheckSheet sheet, ValveReading r) {
        if (!r.recheck().isEmpty()) {
            return copy(r, r.trials(), r.shim(), r.done(), butLast(r.recheck()));
        }
        if (r.findDone().isPresent()) {
            return copy(r, r.trials(), r.shim(), null, List.of());
        }
        if (r.findShim().isPresent() && !isTrialAfterShim(sheet, r)) {
            return copy(r, r.trials(), null, null, List.of());
        }
        return copy(r, butLast(r.trials()), r.shim(), null, List.of());
    }

    /** Whether the shim had been asked for before the last trial was made. */
    private static boolean isTrialAfterShim(CheckSheet sheet, ValveReading r) {
        return !r.trials().isEmpty()
                && new ValveWalk(sheet, copy(r, butLast(r.trials()), null, null, List.of())).step()
                        instanceof WalkStep.AskShim;
    }

    /** A valve without an answer stays only where it marks that the one before was left. */
    private static CheckSheet trimmed(CheckSheet sheet) {
        List<ValveReading> valves = walked(sheet);
        int last = valves.size() - 1;
        boolean marks = last > 0 && !isSettled(sheet, valves.get(last - 1));
        return !isUntouched(valves.get(last)) || marks ? sheet : without(sheet, valves.get(last));
    }

    private static boolean isUntouched(ValveReading r) {
        return r.trials().isEmpty()
                && r.recheck().isEmpty()
                && r.findShim().isEmpty()
                && r.findDone().isEmpty();
    }

    private static CheckSheet without(CheckSheet sheet, ValveReading reading) {
        List<ValveReading> valves = new ArrayList<>(sheet.valves());
        valves.removeIf(r -> r.name().equals(reading.name()));
        return copy(sheet, sheet.gauges(), valves);
    }

    private static <T> List<T> butLast(List<T> list) {
        return list.isEmpty() ? list : list.subList(0, list.size() - 1);
    }

    /** The sheet with a reading in the last place. */
    private static CheckSheet reached(CheckSheet sheet, ValveReading reading) {
        CheckSheet others = without(sheet, reading);
        List<ValveReading> valves = new ArrayList<>(others.valves());
        valves.add(reading);
        return copy(sheet, sheet.gauges(), valves);
    }

    /** The sheet with its readings in the order of the engine's valves, for the report. */
    static CheckSheet inEngineOrder(CheckSheet sheet) {
        List<ValveReading> valves = new ArrayList<>();
        for (ValveId valve : sheet.engine().valves()) {
            sheet.engine().gaps().forEach(gap -> sheet.find(valve, gap).ifPresent(valves::add));
        }
        return copy(sheet, sheet.gauges(), valves);
    }

    private static ValveReading copy(
            ValveReading r,
            List<Trial> trials,
            @Nullable InstalledShim shim,
            @Nullable Done done,
            List<Trial> recheck) {
        return new ValveReading(
                r.valve(),
                r.gap(),
                trials,
                r.loadedTrials(),
                r.turnsFree(),
                shim,
                r.pad(),
                r.eccentricAngle(),
                r.stop(),
                done,
                done == null ? 0 : r.tries(),
                recheck);
    }

    private static CheckSheet copy(CheckSheet sheet, GaugeSet gauges, List<ValveReading> valves) {
        CheckSheet.Builder copy = CheckSheet.builder(sheet.engine(), gauges)
                .rule(sheet.rule())
                .machine(sheet.machine())
                .shimBox(sheet.shimBox())
                .history(sheet.history());
        sheet.date().ifPresent(copy::date);
        sheet.usage().ifPresent(copy::usage);
        sheet.engineTemperature().ifPresent(copy::engineTemperature);
        valves.forEach(copy::valve);
        return copy.build();
    }
}
