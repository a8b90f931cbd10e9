package dev.lash.check;

import static java.util.Objects.requireNonNull;

import dev.lash.adjust.Adjuster;
import dev.lash.adjust.Adjustment;
import dev.lash.adjust.AdjustmentTask;
import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.Bracket;
import dev.lash.gauge.Contradiction;
import dev.lash.gauge.Evidence;
import dev.lash.judge.Judgement;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.plan.NextLeaf;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Everything said about one valve: trials, bracket, verdict, what to do, and the recheck beside it.
 */
public final class ValveCheck implements Serializable {
    private static final long serialVersionUID = 1L;

    private final ValveReading reading;
    private final @Nullable ClearanceSpec clearance;
    private final Evidence evidence;
    private final @Nullable Judgement judgement;
    private final @Nullable Adjustment adjustment;
    private final @Nullable NextLeaf nextLeaf;
    private final @Nullable List<Length> certainShims;
    private final @Nullable Evidence recheck;
    private final List<Finding> findings;

    private ValveCheck(
            ValveReading reading,
            @Nullable ClearanceSpec clearance,
            Evidence evidence,
            @Nullable Judgement judgement,
            @Nullable Adjustment adjustment,
            @Nullable NextLeaf nextLeaf,
            @Nullable List<Length> certainShims,
            @Nullable Evidence recheck,
            List<Finding> findings) {
        this.reading = reading;
        this.clearance = clearance;
        this.evidence = evidence;
        this.judgement = judgement;
        this.adjustment = adjustment;
        this.nextLeaf = nextLeaf;
        this.certainShims = certainShims;
        this.recheck = recheck;
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
        requireNonNull(adjuster, "adjuster");
        Optional<ClearanceSpec> clearance = sheet.engine()
                .findClearance(reading.valve().role())
                .filter(c -> !(sheet.engine().train() instanceof ValveTrain.Hydraulic));
        Evidence evidence = Evidence.of(reading.trials(), sheet.rule());
        Optional<Judgement> judgement =
                evidence.bracket().flatMap(bracket -> clearance.map(c -> Judgement.of(bracket, c.check())));
        Optional<AdjustmentTask> task = judgement.flatMap(judged -> clearance.map(c -> new AdjustmentTask(
                sheet.engine().train(), c, judged, sheet.gauges(), reading.shim(), sheet.shimBox(), reading.pad())));
        Optional<Adjustment> adjustment = clearance.isEmpty()
                ? evidence.bracket().map(b -> Adjuster.notApplicable())
                : task.map(adjuster::advise);
        Optional<NextLeaf> nextLeaf = reading.pad() == Pad.SOUND
                ? judgement.flatMap(j -> NextLeaf.towardsVerdict(j.bracket(), j.window(), sheet.gauges()))
                : Optional.empty();
        Evidence recheck = reading.recheck().isEmpty() ? null : Evidence.of(reading.recheck(), sheet.rule());

        List<Finding> findings = new ArrayList<>();
        ValveFindings finder = new ValveFindings(sheet, reading, findings);
        finder.evidence(evidence);
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
                task.flatMap(adjuster::certainShims).orElse(null),
                recheck,
                findings);
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
        return Optional.ofNullable(judgement).map(j -> isReadingUsed() ? j.verdict() : Verdict.UNDECIDED);
    }

    /** {@return the verdicts that are still possible; one of them when the verdict is certain, none when there is no verdict} */
    public List<Verdict> possible() {
        if (judgement == null) {
            return List.of();
        }
        return isReadingUsed() ? judgement.possible() : List.of(Verdict.TIGHT, Verdict.WITHIN, Verdict.LOOSE);
    }

    /** {@return the reading judged against its window, or empty when there is no bracket or no window} */
    public Optional<Judgement> judgement() {
        return Optional.ofNullable(judgement);
    }

    /** {@return what to do, or empty when the trials contradict each other} */
    public Optional<Adjustment> adjustment() {
        return Optional.ofNullable(adjustment);
    }

    /** {@return the leaf that would settle an undecided verdict soonest, or empty when it is decided or none would} */
    public Optional<NextLeaf> nextLeaf() {
        return Optional.ofNullable(nextLeaf);
    }

    /** {@return every shim size that is certain, thinnest first; empty when the train has none or the reading lacks an end} */
    public Optional<List<Length>> certainShims() {
        return Optional.ofNullable(certainShims);
    }

    /** {@return what the trials after the adjustment say together, or empty when there are none} */
    public Optional<Evidence> recheck() {
        return Optional.ofNullable(recheck);
    }

    /** {@return the trials after the adjustment, judged; empty when there are none, or no verdict} */
    public Optional<Judgement> recheckJudgement() {
        return recheck()
                .flatMap(Evidence::bracket)
                .flatMap(bracket -> clearance().map(c -> Judgement.of(bracket, c.check())));
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
                certainShims(),
                recheck(),
                findings);
    }

    /** {@return valve and verdict, for a log} */
    @Override
    public String toString() {
        return reading.valve() + " " + verdict().map(Verdict::word).orElse("without verdict");
    }
}
