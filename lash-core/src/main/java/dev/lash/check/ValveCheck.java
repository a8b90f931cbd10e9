package dev.lash.check;

import static java.util.Objects.requireNonNull;

import dev.lash.adjust.Adjuster;
import dev.lash.adjust.Adjustment;
import dev.lash.adjust.AdjustmentTask;
import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.adjust.LockShift;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.Bracket;
import dev.lash.gauge.Contradiction;
import dev.lash.gauge.Evidence;
import dev.lash.gauge.Trial;
import dev.lash.judge.Judgement;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.plan.LeafPlanner;
import dev.lash.plan.NextLeaf;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * Everything said about one valve: trials, bracket, verdict, what to do, and the recheck beside it.
 */
public final class ValveCheck implements Serializable {
    private static final long serialVersionUID = 1L;
    private static final double LEAST_SHARE = 1e-6;

    private final ValveReading reading;
    private final @Nullable ClearanceSpec clearance;
    private final Evidence evidence;
    private final @Nullable Judgement judgement;
    private final @Nullable Adjustment adjustment;
    private final @Nullable NextLeaf nextLeaf;
    private final boolean leafByForecast;
    private final boolean aimByForecast;
    private final @Nullable List<Length> certainShims;
    private final @Nullable LengthInterval reachable;
    private final @Nullable Evidence recheck;
    private final @Nullable Adjustment again;
    private final List<Finding> findings;

    private ValveCheck(
            ValveReading reading,
            @Nullable ClearanceSpec clearance,
            Evidence evidence,
            @Nullable Judgement judgement,
            @Nullable Adjustment adjustment,
            @Nullable NextLeaf nextLeaf,
            boolean leafByForecast,
            boolean aimByForecast,
            @Nullable List<Length> certainShims,
            @Nullable LengthInterval reachable,
            @Nullable Evidence recheck,
            @Nullable Adjustment again,
            List<Finding> findings) {
        this.reading = reading;
        this.clearance = clearance;
        this.evidence = evidence;
        this.judgement = judgement;
        this.adjustment = adjustment;
        this.nextLeaf = nextLeaf;
        this.leafByForecast = leafByForecast;
        this.aimByForecast = aimByForecast;
        this.certainShims = certainShims;
        this.reachable = reachable;
        this.recheck = recheck;
        this.again = again;
        this.findings = List.copyOf(findings);
    }

    /**
     * Works out one valve: its trials become a bracket, the bracket a verdict against the window, the verdict an adjustment;
     * trials made after an adjustment are judged in the same way.
     *
     * @param sheet the sheet
     * @param reading the valve's reading on it
     * @param adjuster how adjustments are worked out
     * @return the result
     */
    public static ValveCheck of(CheckSheet sheet, ValveReading reading, Adjuster adjuster) {
        return of(sheet, reading, adjuster, LeafPlanner.withDefaults());
    }

    /**
     * The same, with the next leaf for the valve as found planned otherwise; what is offered after an adjustment is planned with the
     * defaults, since the clearance is another then.
     *
     * @param sheet the sheet
     * @param reading the valve's reading on it
     * @param adjuster how adjustments are worked out
     * @param leaves how the next leaf is planned; its prior, where it has one, is what a forecast expects of the reading
     * @return the result
     * @see ExpectedReadings
     */
    public static ValveCheck of(CheckSheet sheet, ValveReading reading, Adjuster adjuster, LeafPlanner leaves) {
        return of(sheet, reading, adjuster, leaves, false);
    }

    /** The same, with an adjuster whose aim a trend chose. */
    static ValveCheck of(
            CheckSheet sheet, ValveReading reading, Adjuster adjuster, LeafPlanner leaves, boolean aimByForecast) {
        requireNonNull(adjuster, "adjuster");
        requireNonNull(leaves, "leaves");
        Optional<ClearanceSpec> clearance = sheet.engine()
                .findClearance(reading.valve().role(), reading.gap())
                .filter(c -> !(sheet.engine().train() instanceof ValveTrain.Hydraulic));
        Evidence evidence = evidence(sheet, reading);
        Optional<Judgement> judgement = judged(Optional.of(evidence), clearance);
        Optional<AdjustmentTask> task =
                judgement.flatMap(judged -> clearance.map(c -> task(sheet, reading, c, judged)));
        boolean leavesHelp = reading.pad() == Pad.SOUND && reading.gap() != Gap.CLOSER;
        Optional<Judgement> readable = judgement.filter(j -> leavesHelp);
        Optional<NextLeaf> forecast = readable.flatMap(j -> byForecast(j, sheet, leaves));
        Optional<NextLeaf> nextLeaf = forecast.or(
                () -> readable.flatMap(j -> NextLeaf.towardsVerdict(j.bracket(), j.window(), sheet.gauges())));
        Optional<Adjustment> adjustment = clearance.isEmpty()
                ? evidence.bracket().map(b -> withoutWindow(sheet, reading))
                : task.map(t -> reading.findDone().isPresent() ? t : t.afterTries(lockShift(sheet), 0))
                        .map(t -> nextLeaf.map(next -> adjuster.advise(t, next)).orElseGet(() -> adjuster.advise(t)));
        Evidence recheck = reading.recheck().isEmpty() ? null : Evidence.of(reading.recheck(), sheet.rule());
        Optional<Judgement> after = judged(Optional.ofNullable(recheck), clearance);
        Optional<Adjustment> again = after.filter(j -> reading.pad() == Pad.SOUND && j.verdict() != Verdict.WITHIN)
                .flatMap(j -> clearance.map(c -> again(sheet, reading, c, j)))
                .map(adjuster::advise);

        List<Finding> findings = new ArrayList<>();
        ValveFindings finder = new ValveFindings(sheet, reading, findings);
        finder.evidence(evidence);
        finder.decompressor(Stream.concat(judgement.stream(), after.stream()).toList());
        judgement.ifPresent(judged -> finder.inspectFirst(judged, adjuster));
        finder.shim();
        finder.done(evidence, Optional.ofNullable(recheck), clearance);
        return new ValveCheck(
                reading,
                clearance.orElse(null),
                evidence,
                judgement.orElse(null),
                adjustment.orElse(null),
                nextLeaf.orElse(null),
                forecast.isPresent(),
                aimByForecast,
                task.flatMap(adjuster::certainShims).orElse(null),
                task.flatMap(adjuster::reachable).orElse(null),
                recheck,
                again.orElse(null),
                findings);
    }

    /** The first leaf of a plan whose prior allows of the reading so far; one that rules it out has nothing to say. */
    private static Optional<NextLeaf> byForecast(Judgement judged, CheckSheet sheet, LeafPlanner leaves) {
        return leaves.prior()
                .filter(prior -> prior.probabilityOf(judged.bracket().interval()) > LEAST_SHARE)
                .flatMap(prior -> NextLeaf.planned(judged.bracket(), judged.window(), sheet.gauges(), leaves));
    }

    private static Optional<Judgement> judged(Optional<Evidence> evidence, Optional<ClearanceSpec> clearance) {
        return evidence.flatMap(Evidence::bracket)
                .flatMap(bracket -> clearance.map(c -> Judgement.of(bracket, c.check())));
    }

    /** No verdict: the train has no clearance, or nobody has said how large that of this gap may be. */
    private static Adjustment withoutWindow(CheckSheet sheet, ValveReading reading) {
        return sheet.engine().train() instanceof ValveTrain.Hydraulic
                ? Adjuster.notApplicable()
                : new Adjustment.Inspect(
                        "no window is given for the " + reading.gap()
                                + ": look it up in the service manual and enter it",
                        null);
    }

    /** The closer's gap is a difference of two opener readings, which may stand with the opener on the sheet. */
    private static Evidence evidence(CheckSheet sheet, ValveReading reading) {
        if (reading.gap() != Gap.CLOSER) {
            return Evidence.of(reading.trials(), sheet.rule());
        }
        Optional<ValveReading> opener = sheet.find(reading.valve(), Gap.OPENER);
        List<Trial> unloaded =
                reading.trials().isEmpty() ? opener.map(ValveReading::trials).orElse(List.of()) : reading.trials();
        List<Trial> loaded = reading.loadedTrials().isEmpty()
                ? opener.map(ValveReading::loadedTrials).orElse(List.of())
                : reading.loadedTrials();
        return Evidence.closer(loaded, unloaded, sheet.rule(), reading.turnsFree());
    }

    private static AdjustmentTask task(
            CheckSheet sheet, ValveReading reading, ClearanceSpec clearance, Judgement judged) {
        return AdjustmentTask.of(sheet.engine().train(), clearance, judged, sheet.gauges())
                .withGap(reading.gap())
                .withShims(reading.shim(), reading.findDone().isPresent() ? sheet.shimBox() : sheet.shimBoxNow())
                .withPad(reading.pad())
                .withEccentricAngle(reading.eccentricAngle());
    }

    /** The same after what was done: another shim is in, and the lock nut has shown what it does. */
    private static AdjustmentTask again(
            CheckSheet sheet, ValveReading reading, ClearanceSpec clearance, Judgement after) {
        AdjustmentTask task = task(sheet, reading, clearance, after).afterTries(lockShift(sheet), reading.tries());
        return reading.findDone().orElse(null) instanceof Done.Fitted
                ? task.withShims(reading.findShimNow().orElse(null), sheet.shimBoxNow())
                : task.withEccentricAngle(null);
    }

    /**
     * What the lock nuts of this engine were seen to do, from every valve that was set to a leaf and read again. Where the pad is
     * dished the leaf bridges the hollow, so such a reading tells of the hollow, not of the nut; where a decompressor may have held the
     * valve, a reading below the leaf may tell of that. A recheck that is not what the leaf
     * lets expect does count: a nut that shifts the screw shows in nothing else.
     */
    private static LockShift lockShift(CheckSheet sheet) {
        List<LockShift.Sample> samples = new ArrayList<>();
        for (ValveReading reading : sheet.valves()) {
            if (reading.findDone().orElse(null) instanceof Done.SetWith set
                    && reading.pad() == Pad.SOUND
                    && !reading.recheck().isEmpty()) {
                Evidence.of(reading.recheck(), sheet.rule())
                        .bracket()
                        .filter(b -> ValveFindings.device(sheet, reading).isEmpty()
                                || b.interval()
                                        .lower()
                                        .filter(low ->
                                                !low.isLessThan(set.leaf().thickness()))
                                        .isPresent())
                        .ifPresent(
                                b -> samples.add(new LockShift.Sample(set.leaf().thickness(), b.interval())));
            }
        }
        return LockShift.learn(samples);
    }

    /** {@return the reading that this is about} */
    public ValveReading reading() {
        return reading;
    }

    /** {@return the windows of this valve, or empty where the train has no clearance} */
    public Optional<ClearanceSpec> clearance() {
        return Optional.ofNullable(clearance);
    }

    /** {@return what the trials say together} */
    public Evidence evidence() {
        return evidence;
    }

    /** {@return the reading, or empty when the trials contradict each other} */
    public Optional<Bracket> bracket() {
        return evidence.bracket();
    }

    /** {@return the two trials that cannot both be true, or empty when all agree} */
    public Optional<Contradiction> contradiction() {
        return evidence.match(bracket -> Optional.empty(), Optional::of);
    }

    private boolean isReadingUsed() {
        return reading.pad() == Pad.SOUND;
    }

    /**
     * The verdict.
     *
     * @return the verdict; undecided when the pad is dished, since such a reading is not used; empty when the trials contradict
     *     each other or the train has no clearance
     */
    public Optional<Verdict> verdict() {
        return verdict(judgement);
    }

    private Optional<Verdict> verdict(@Nullable Judgement judged) {
        return Optional.ofNullable(judged).map(j -> isReadingUsed() ? j.verdict() : Verdict.UNDECIDED);
    }

    /** {@return the verdicts that are still possible; one of them when the verdict is certain, none when there is no verdict} */
    public List<Verdict> possible() {
        return possible(judgement);
    }

    private List<Verdict> possible(@Nullable Judgement judged) {
        if (judged == null) {
            return List.of();
        }
        return isReadingUsed() ? judged.possible() : List.of(Verdict.TIGHT, Verdict.WITHIN, Verdict.LOOSE);
    }

    /** {@return the reading judged against its window, or empty when there is no bracket or no window, or it is not used} */
    public Optional<Judgement> judgement() {
        return Optional.ofNullable(judgement).filter(j -> isReadingUsed());
    }

    /** {@return what to do, or empty when the trials contradict each other} */
    public Optional<Adjustment> adjustment() {
        return Optional.ofNullable(adjustment);
    }

    /** {@return the leaf that would settle an undecided verdict soonest, or empty when it is decided or none would} */
    public Optional<NextLeaf> nextLeaf() {
        return Optional.ofNullable(nextLeaf);
    }

    /** {@return whether what the earlier checks let expect chose the next leaf; else it was planned as if nothing were known} */
    public boolean isLeafByForecast() {
        return leafByForecast;
    }

    /** {@return whether the valve's own trend chose where in the window to set it, so that it lasts; else it is the adjuster's aim} */
    public boolean isAimByForecast() {
        return aimByForecast;
    }

    /** {@return every shim size that is certain, thinnest first; empty when the train has none or the reading lacks an end} */
    public Optional<List<Length>> certainShims() {
        return Optional.ofNullable(certainShims);
    }

    /** {@return the clearances that the sizes at hand reach; empty when the train has none or the reading lacks an end} */
    public Optional<LengthInterval> reachable() {
        return Optional.ofNullable(reachable);
    }

    /** {@return what the trials after the adjustment say together, or empty when there are none} */
    public Optional<Evidence> recheck() {
        return Optional.ofNullable(recheck);
    }

    /**
     * The verdict on the trials after the adjustment.
     *
     * @return the verdict; undecided when the pad is dished; empty when there are no such trials, or no verdict
     */
    public Optional<Verdict> recheckVerdict() {
        return verdict(recheckJudged().orElse(null));
    }

    /** {@return the verdicts that the trials after the adjustment leave open; none when there is no such verdict} */
    public List<Verdict> recheckPossible() {
        return possible(recheckJudged().orElse(null));
    }

    private Optional<Judgement> recheckJudged() {
        return judged(recheck(), clearance());
    }

    /** {@return what to do after the recheck, or empty when there is none or it is within} */
    public Optional<Adjustment> again() {
        return Optional.ofNullable(again);
    }

    /** {@return what the mechanic should know about this valve} */
    public List<Finding> findings() {
        return findings;
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof ValveCheck check && check.parts().equals(parts());
    }

    @Override
    public int hashCode() {
        return parts().hashCode();
    }

    private List<Object> parts() {
        return List.of(
                reading,
                clearance(),
                evidence,
                judgement(),
                adjustment(),
                nextLeaf(),
                leafByForecast,
                aimByForecast,
                certainShims(),
                reachable(),
                recheck(),
                again(),
                findings);
    }

    /** {@return valve and verdict, for a log} */
    @Override
    public String toString() {
        return reading.name() + " " + verdict().map(Verdict::word).orElse("without verdict");
    }
}
