package dev.lash.check;

import dev.lash.adjust.Adjuster;
import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.adjust.InstalledShim;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.CrankPlanner;
import dev.lash.engine.Decompressor;
import dev.lash.engine.Gap;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.Bracket;
import dev.lash.gauge.Contradiction;
import dev.lash.gauge.Evidence;
import dev.lash.gauge.Fit;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.Trial;
import dev.lash.judge.Judgement;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;

/** Looks for what the mechanic should know about one valve, and adds it to a list. */
final class ValveFindings {
    private final CheckSheet sheet;
    private final ValveReading reading;
    private final LengthUnit unit;
    private final List<Finding> findings;

    ValveFindings(CheckSheet sheet, ValveReading reading, List<Finding> findings) {
        this.sheet = sheet;
        this.reading = reading;
        this.unit = sheet.gauges().unit();
        this.findings = findings;
    }

    private void add(FindingCode code, String problem, String value, String expected, String mend) {
        findings.add(new Finding(code, reading.name(), problem, value, expected, mend));
    }

    /** The trials against each other and against the gauge set. */
    void evidence(Evidence evidence) {
        leaves(reading.trials());
        leaves(reading.loadedTrials());
        leaves(reading.recheck());
        if (evidence.trials().isEmpty() && !(sheet.engine().train() instanceof ValveTrain.Hydraulic)) {
            add(FindingCode.NOT_MEASURED, "no trials", "", "at least one trial", "offer a leaf");
        }
        evidence.match(
                bracket -> {
                    doubts(bracket);
                    return bracket;
                },
                contradiction -> {
                    contradiction(FindingCode.CONTRADICTION, contradiction);
                    return contradiction;
                });
    }

    private void contradiction(FindingCode code, Contradiction contradiction) {
        String pair = contradiction.first().toString(unit) + " and "
                + contradiction.second().toString(unit);
        add(
                code,
                pair + " cannot both be true",
                pair,
                "trials that agree",
                "repeat both; until then there is no verdict");
    }

    private void doubts(Bracket bracket) {
        bracket.severalDrags().forEach(drags -> {
            String pair =
                    drags.thinnest().toString(unit) + " and " + drags.thickest().toString(unit);
            add(
                    FindingCode.SEVERAL_DRAGS,
                    pair + ": the clearance is taken to lie between them",
                    pair,
                    "one leaf that drags",
                    "repeat if they are not neighbours");
        });
    }

    private void leaves(List<Trial> trials) {
        TreeSet<LeafStack> stacks = new TreeSet<>();
        trials.forEach(t -> stacks.add(t.leaf()));
        for (LeafStack stack : stacks) {
            String text = stack.toString(unit);
            if (!sheet.gauges().owns(stack)) {
                add(
                        FindingCode.LEAF_NOT_OWNED,
                        text + " is not in the gauge set",
                        text,
                        "leaves of the set",
                        "correct the leaf, or add it to the set");
            }
            if (stack.size() > sheet.gauges().mostStacked()) {
                add(
                        FindingCode.STACK_TOO_HIGH,
                        text + " stacks " + stack.size() + " leaves",
                        text,
                        "at most " + sheet.gauges().mostStacked(),
                        "use fewer, thicker leaves: a stack traps oil and adds errors");
            }
        }
    }

    /** A valve that a decompressor holds shows less gap than it has, whatever the leaves say. */
    void decompressor(List<Judgement> judged) {
        Optional<Decompressor> device = device(sheet, reading);
        if (device.isEmpty() || (reading.trials().isEmpty() && reading.recheck().isEmpty())) {
            return;
        }
        String stop = reading.stop().isEmpty() ? "no stop is recorded" : "the stop is \"" + reading.stop() + "\"";
        if (device.get().isKnown()) {
            add(
                    FindingCode.DECOMPRESSOR_HOLDS,
                    "the decompressor holds this valve from "
                            + device.get().findBefore().orElseThrow() + " degrees before compression TDC to "
                            + device.get().findAfter().orElseThrow() + " after, so the gap may read too small; " + stop,
                    reading.stop(),
                    "a stop clear of the decompressor"
                            + clearPlace().map(p -> ": " + p).orElse(""),
                    "measure again" + clearPlace().map(p -> " " + p).orElse(" where the manual says")
                            + " and write the stop down; adjust nothing by this reading");
        } else if (judged.stream()
                .anyMatch(j ->
                        j.verdict() == Verdict.TIGHT || Adjuster.mayHaveNoClearance(j.bracket(), sheet.gauges()))) {
            add(
                    FindingCode.DECOMPRESSOR_HOLDS,
                    "a decompressor may hold this valve near compression TDC (its angles are not known), so the gap may read"
                            + " too small; " + stop,
                    reading.stop(),
                    "a stop clear of the decompressor",
                    "turn on to where the manual says that it lets go and measure again before adjusting; then write"
                            + " \"clear of the decompressor\" as the stop");
        }
    }

    /** The decompressor that may hold a valve where it was read. */
    static Optional<Decompressor> device(CheckSheet sheet, ValveReading reading) {
        return fitted(sheet, reading).filter(d -> !isClear(sheet, reading, d));
    }

    private static Optional<Decompressor> fitted(CheckSheet sheet, ValveReading reading) {
        return sheet.engine().decompressor().filter(d -> d.valve().equals(reading.valve()));
    }

    /** By the angle where that is told and the device is known; else by what the stop says outright. */
    private static boolean isClear(CheckSheet sheet, ValveReading reading, Decompressor device) {
        Optional<Ratio> phase = device.isKnown()
                ? StopText.phase(sheet.engine(), reading.valve().cylinder(), reading.stop())
                : Optional.empty();
        return phase.map(p -> !device.holdsAt(p)).orElseGet(() -> StopText.saysClear(reading.stop()));
    }

    private Optional<String> clearPlace() {
        return CrankPlanner.placeToMeasure(sheet.engine(), reading.valve())
                .map(place -> place + " of cylinder " + reading.valve().cylinder());
    }

    /** What must be looked at before anything is adjusted. */
    void inspectFirst(Judgement judged, Adjuster adjuster) {
        LengthInterval clearances = judged.bracket().interval();
        if (reading.pad() == Pad.DISHED) {
            add(
                    FindingCode.DISHED_PAD,
                    "dished pad or tip: a leaf bridges the hollow and reads too small, so the reading is not used",
                    clearances.toString(unit),
                    "a flat pad and tip",
                    sheet.engine().train() instanceof ValveTrain.Screw
                            ? "dress or renew the part if the manual allows, else count turns from no play"
                            : "dress or renew the part if the manual allows, then measure again");
        }
        if (reading.gap() != Gap.CLOSER && Adjuster.mayHaveNoClearance(judged.bracket(), sheet.gauges())) {
            add(
                    FindingCode.MAY_HAVE_NO_CLEARANCE,
                    "no leaf goes in, not even the thinnest: may have no clearance",
                    clearances.toString(unit),
                    "a clearance that some leaf enters",
                    fitted(sheet, reading).isPresent()
                            ? "make sure that the decompressor does not hold the valve; then inspect for wear or damage before"
                                    + " adjusting"
                            : "make sure of compression TDC; then inspect for wear or damage before adjusting");
        }
        if (adjuster.isFarTooLoose(clearances, judged.window())) {
            add(
                    FindingCode.FAR_TOO_LOOSE,
                    "far too loose: " + clearances.toString(unit) + " against "
                            + judged.window().toString(unit),
                    clearances.toString(unit),
                    judged.window().toString(unit),
                    sizes().isPresent()
                            ? "look at cam lobe, bucket and shim first"
                            : "look at rocker pad, valve tip and adjuster first");
        }
    }

    /** The installed shim. */
    void shim() {
        reading.findShim().ifPresent(shim -> {
            if (shim.size().isEmpty()) {
                add(FindingCode.SHIM_UNREADABLE, "the shim has no size", "", "a mark or a measured size", "measure it");
            }
            shim.findMarked()
                    .ifPresent(marked -> shim.findMeasured().ifPresent(measured -> {
                        if (measured.minus(marked).abs().isMoreThan(shim.tolerance())) {
                            add(
                                    FindingCode.SHIM_NOT_AS_MARKED,
                                    "the shim is marked " + marked + " and measures " + measured
                                            + "; the measured size is used",
                                    measured.toString(),
                                    marked.toString(),
                                    "a worn shim or a false mark: measure again, and renew it if worn");
                        }
                    }));
            inRange(shim);
        });
    }

    private void inRange(InstalledShim shim) {
        sizes().ifPresent(sizes -> shim.findMarked()
                .filter(size -> !sizes.contains(size))
                .ifPresent(size -> add(
                        FindingCode.SHIM_NOT_IN_RANGE,
                        "a shim of " + size + " is not made for this engine",
                        size.toString(),
                        sizes.toString(),
                        "read the mark again, or measure it")));
    }

    /** The sizes that are made for this gap, where it has shims. */
    private Optional<ShimRange> sizes() {
        return sheet.engine().train().shims(reading.gap());
    }

    /** What was done, against what the trials after it say. */
    void done(Evidence before, Optional<Evidence> after, Optional<ClearanceSpec> clearance) {
        reading.findDone()
                .filter(what -> !fitsTrain(what))
                .ifPresent(what -> add(
                        FindingCode.DONE_DOES_NOT_FIT,
                        what.toString(unit) + ", but this is a "
                                + sheet.engine().train().kind() + " train",
                        what.toString(unit),
                        sizes().isPresent() ? "a shim fitted" : "a leaf set or a turn counted",
                        "correct what was done, or the engine"));
        if (reading.findDone().isPresent() && after.isEmpty() && reading.gap() != Gap.CLOSER) {
            add(
                    FindingCode.RECHECK_MISSING,
                    reading.findDone().orElseThrow().toString(unit) + ", and not checked again",
                    "",
                    "trials after the adjustment",
                    "turn the engine over by hand twice and check again");
        }
        after.ifPresent(evidence -> evidence.match(
                bracket -> {
                    doubts(bracket);
                    leftBehind(bracket, clearance);
                    expected(before, bracket);
                    return bracket;
                },
                contradiction -> {
                    contradiction(FindingCode.RECHECK_CONTRADICTION, contradiction);
                    return contradiction;
                }));
    }

    private void leftBehind(Bracket after, Optional<ClearanceSpec> clearance) {
        if (reading.pad() == Pad.DISHED) {
            return;
        }
        clearance.ifPresent(c -> {
            Verdict verdict = Verdict.of(after.interval(), c.check());
            String text = after.interval().toString(unit);
            if (verdict != Verdict.WITHIN) {
                add(
                        FindingCode.RECHECK_NOT_WITHIN,
                        "after the adjustment " + verdict + ": " + text + " against "
                                + c.check().toString(unit),
                        text,
                        c.check().toString(unit),
                        verdict == Verdict.UNDECIDED ? "try further leaves" : "adjust again");
            } else if (!c.setTo().interval().encloses(after.interval())) {
                add(
                        FindingCode.RECHECK_OUTSIDE_SETTING,
                        "after the adjustment within the window to check against, not shown to be in the one to set to: "
                                + text + " against " + c.setTo().toString(unit),
                        text,
                        c.setTo().toString(unit),
                        "set again, or try further leaves");
            }
        });
    }

    private void expected(Evidence before, Bracket after) {
        predicted(before)
                .filter(p -> !p.intersects(after.interval()))
                .ifPresent(p -> add(
                        FindingCode.RECHECK_UNEXPECTED,
                        reading.findDone().orElseThrow().toString(unit) + " should have given " + p.toString(unit)
                                + ", but " + after.interval().toString(unit) + " was read",
                        after.interval().toString(unit),
                        p.toString(unit),
                        reading.findDone().orElseThrow() instanceof Done.Fitted
                                ? "check both shims with a micrometer, and that the right one went to the right valve"
                                : "locking may have pulled the screw: check again"));
    }

    /** What the clearance should be after what was done, where that can be told. */
    private Optional<LengthInterval> predicted(Evidence before) {
        Done done = reading.findDone().orElse(null);
        if (done instanceof Done.SetWith set) {
            return Optional.of(sheet.rule().claim(new Trial(set.leaf(), Fit.DRAGS)));
        }
        if (done instanceof Done.Turned turned && sheet.engine().train() instanceof ValveTrain.Screw screw) {
            Ratio change = turned.degrees().times(screw.nanometresPerTurn()).dividedBy(Ratio.of(360, 1));
            LengthInterval moved = LengthInterval.closed(change.floorNanometres(), change.ceilingNanometres());
            return before.bracket().map(b -> b.interval().plus(moved));
        }
        if (done instanceof Done.Fitted fitted && sizes().isPresent()) {
            Length size = fitted.shim();
            return before.bracket()
                    .map(Bracket::interval)
                    .flatMap(interval -> reading.findShim()
                            .flatMap(InstalledShim::possibleSizes)
                            .map(sizes ->
                                    interval.plus(sizes.plus(size.negated()).times(ratio()))));
        }
        return Optional.empty();
    }

    private boolean fitsTrain(Done what) {
        return what instanceof Done.Fitted == sizes().isPresent();
    }

    private Ratio ratio() {
        return sheet.engine().train() instanceof ValveTrain.Shim train ? train.ratio() : Ratio.ONE;
    }
}
