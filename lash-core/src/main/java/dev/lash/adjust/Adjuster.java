package dev.lash.adjust;

import static java.util.Objects.requireNonNull;

import dev.lash.adjust.Adjustment.Inspect;
import dev.lash.adjust.Adjustment.Leave;
import dev.lash.adjust.Adjustment.MeasureFurther;
import dev.lash.adjust.Adjustment.NotApplicable;
import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.Bracket;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.LeafStack;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import dev.lash.plan.NextLeaf;
import java.io.Serializable;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/**
 * Works out what to do about a judged reading. Immutable; every setting has a default.
 *
 * <table>
 * <caption>Settings</caption>
 * <tr><th>setting</th><th>default</th><th>meaning</th></tr>
 * <tr><td>aim</td><td>0.75</td><td>where in the window to set: 0 its lower end, 1 its upper end. Clearances mostly close up,
 * and in doubt a loose valve ticks where a tight one burns, so the default aims at the loose part (common practice; the
 * figure is this library's choice). The closer of a desmodromic valve opens up as the seat wears, so there the aim is counted
 * from the upper end</td></tr>
 * <tr><td>far too loose</td><td>2</td><td>a reading wholly above this many times the upper limit is inspected before it is
 * adjusted (a figure of this library's choosing; no maker's)</td></tr>
 * <tr><td>most tries</td><td>3</td><td>after how many adjustments of a screw at one visit something is looked at instead</td></tr>
 * <tr><td>rounding</td><td>none</td><td>the shop's way of rounding a shim, whose size is shown beside the certain one</td></tr>
 * </table>
 *
 * <table>
 * <caption>What an adjustment does to the clearance c</caption>
 * <tr><th>train</th><th>change</th></tr>
 * <tr><td>screw or nut</td><td>dc = k x pitch x degrees / 360; k = 1 at the valve tip, in a tappet, on a forked rocker and above a
 * bridge; the rocker ratio at the pushrod; 1 + ratio for a nut on the fulcrum</td></tr>
 * <tr><td>wedge screw</td><td>dc = step x whole turns</td></tr>
 * <tr><td>eccentric</td><td>dc = m e (sin a0 - sin a)</td></tr>
 * <tr><td>shims, graded buckets</td><td>dc = -r (new size - old size); r = 1 but for a finger follower</td></tr>
 * <tr><td>fixed</td><td>what is ground off the tip, or cut from seat or face</td></tr>
 * </table>
 *
 * <p>Turns to an aim are rounded outward, turns that are certain inward, to tenths of a degree; certainty is decided in fractions and
 * whole nanometres. A shim to be fitted is taken for its mark: measure it.
 */
public final class Adjuster implements Serializable {
    private static final long serialVersionUID = 1L;
    private static final int MOST_TRIES = 3;
    private static final Adjuster DEFAULTS = new Adjuster(Ratio.of(3, 4), false, Ratio.of(2, 1), MOST_TRIES, null);
    private static final String NO_CLEARANCE =
            "may have no clearance at all: make sure that the follower is on the base circle and that no decompressor holds "
                    + "the valve (some hold one near compression TDC); if so, look for wear or damage of valve, seat and train, do not merely adjust";

    private final Ratio aim;
    private final boolean lasting;
    private final Ratio farTooLoose;
    private final int mostTries;
    private final @Nullable ShimRounding rounding;

    private Adjuster(Ratio aim, boolean lasting, Ratio farTooLoose, int mostTries, @Nullable ShimRounding rounding) {
        this.aim = aim;
        this.lasting = lasting;
        this.farTooLoose = farTooLoose;
        this.mostTries = mostTries;
        this.rounding = rounding;
    }

    /** {@return the adjuster with the defaults above} */
    public static Adjuster withDefaults() {
        return DEFAULTS;
    }

    /**
     * The same with another aim.
     *
     * @param fraction where in the window to set, 0 (lower end) to 1 (upper end)
     * @return the adjuster
     * @throws RejectedValueException if the fraction is outside 0 to 1
     */
    public Adjuster withAim(Ratio fraction) {
        if (fraction.signum() < 0 || fraction.compareTo(Ratio.ONE) > 0) {
            throw new RejectedValueException(
                    "aim", fraction.toString(), "is out of range", "0 to 1", "give a fraction of the window");
        }
        return new Adjuster(fraction, false, farTooLoose, mostTries, rounding);
    }

    /**
     * The same with an aim that divides the window as the speeds at which the gap may close and open up. What is set with a leaf off
     * the aim then lasts the longer the smaller its share of the way from the aim to the limit, so the leaf is chosen by that share and
     * one on the limit itself comes last. With {@link #withAim} it is the leaf nearest to the aim.
     *
     * @param fraction where in the window to set, 0 (lower end) to 1 (upper end)
     * @return the adjuster
     * @throws RejectedValueException if the fraction is outside 0 to 1
     * @see dev.lash.trend.LastingAim
     */
    public Adjuster withLastingAim(Ratio fraction) {
        return new Adjuster(withAim(fraction).aim, true, farTooLoose, mostTries, rounding);
    }

    /**
     * The same with the shop's way of rounding shims. The size to fit stays the best certain one; what the shop would fit is shown
     * beside it, in {@link Adjustment.FitShim#byHabit}.
     *
     * @param way the shop's way
     * @return the adjuster
     */
    public Adjuster withRounding(ShimRounding way) {
        return new Adjuster(aim, lasting, farTooLoose, mostTries, requireNonNull(way, "way"));
    }

    /**
     * The same with another limit for what is inspected before it is adjusted.
     *
     * @param multiple how many times the upper limit, 1 or more
     * @return the adjuster
     * @throws RejectedValueException if the multiple is below 1
     */
    public Adjuster withFarTooLoose(Ratio multiple) {
        if (multiple.compareTo(Ratio.ONE) < 0) {
            throw new RejectedValueException(
                    "far too loose",
                    multiple.toString(),
                    "is out of range",
                    "1 or more",
                    "give a multiple of the upper limit");
        }
        return new Adjuster(aim, lasting, multiple, mostTries, rounding);
    }

    /**
     * The same with another number of tries.
     *
     * @param tries after how many adjustments of a screw at one visit something is looked at instead, 1 or more
     * @return the adjuster
     * @throws RejectedValueException if it is below 1
     */
    public Adjuster withMostTries(int tries) {
        if (tries < 1) {
            throw new RejectedValueException(
                    "most tries", String.valueOf(tries), "is out of range", "1 or more", "allow one try at least");
        }
        return new Adjuster(aim, lasting, farTooLoose, tries, rounding);
    }

    /** {@return where in the window to set, 0 its lower end, 1 its upper end} */
    public Ratio aim() {
        return aim;
    }

    /**
     * Whether a reading is so loose that rocker pads, tips, cam and buckets are looked at first.
     *
     * @param clearances the reading
     * @param window the window
     * @return whether every clearance of the reading lies above the limit
     */
    public boolean isFarTooLoose(LengthInterval clearances, ClearanceWindow window) {
        Ratio limit = Ratio.nanometresOf(window.upper()).times(farTooLoose);
        return window.upper().signum() > 0
                && clearances
                        .lower()
                        .filter(low -> Ratio.nanometresOf(low).compareTo(limit) >= 0)
                        .isPresent();
    }

    /**
     * Whether a reading may mean that there is no clearance at all: no leaf went, and none is owned that is thinner than
     * those that did not go.
     *
     * @param bracket the reading
     * @param gauges the leaves that are owned
     * @return whether it may
     */
    public static boolean mayHaveNoClearance(Bracket bracket, GaugeSet gauges) {
        return bracket.interval().lower().isEmpty()
                && bracket.interval().upper().isPresent()
                && thinnerLeaf(bracket, gauges).isEmpty();
    }

    /**
     * Compared with the leaves that were tried, not with the upper end: under the guarded rule that lies above the leaf that
     * refused.
     */
    private static Optional<NextLeaf> thinnerLeaf(Bracket bracket, GaugeSet gauges) {
        Leaf thinnest = gauges.thinnest();
        return bracket.trials().stream()
                        .map(trial -> trial.leaf().thickness())
                        .allMatch(thinnest.thickness()::isLessThan)
                ? Optional.of(new NextLeaf(LeafStack.of(thinnest), true))
                : Optional.empty();
    }

    /**
     * Works out what to do.
     *
     * @param task the reading and all that the adjustment depends on
     * @return the adjustment
     */
    public Adjustment advise(AdjustmentTask task) {
        if (task.pad() == Pad.DISHED) {
            return dished(task);
        }
        return task.train().match(new ValveTrain.Cases<>() {
            @Override
            public Adjustment screw(ValveTrain.Screw train) {
                ScrewWork work = new ScrewWork(train, task, aimOf(task), lasting, mostTries);
                return look(task, work::adjustment, "look at rocker pad, valve tip and adjuster before adjusting");
            }

            @Override
            public Adjustment wedge(ValveTrain.Wedge train) {
                WedgeWork work = new WedgeWork(train, task, aimOf(task));
                return look(task, work::adjustment, "look at tappet, cam and wedge screw before adjusting");
            }

            @Override
            public Adjustment eccentric(ValveTrain.Eccentric train) {
                EccentricWork work = new EccentricWork(train, task, aimOf(task), lasting);
                return look(task, work::adjustment, "look at rocker pad, valve tip and eccentric before adjusting");
            }

            @Override
            public Adjustment shim(ValveTrain.Shim train) {
                return shims(task);
            }

            @Override
            public Adjustment desmodromic(ValveTrain.Desmodromic train) {
                return shims(task);
            }

            @Override
            public Adjustment fixed(ValveTrain.Fixed train) {
                MachineWork work = new MachineWork(task);
                return look(task, work::adjustment, "look at cam, tappet and stem tip before any machine work");
            }

            @Override
            public Adjustment hydraulic(ValveTrain.Hydraulic train) {
                return notApplicable();
            }
        });
    }

    /**
     * The same where the leaf to offer next to an undecided reading is known already, planned from a forecast for instance.
     *
     * @param task the reading and all that the adjustment depends on
     * @param next the leaf to offer while the verdict is undecided; not used otherwise, nor for a closer or a dished pad, where no
     *     leaf helps
     * @return the adjustment
     */
    public Adjustment advise(AdjustmentTask task, NextLeaf next) {
        requireNonNull(next, "next");
        return task.judgement().verdict() == Verdict.UNDECIDED
                        && task.pad() == Pad.SOUND
                        && task.gap() != Gap.CLOSER
                        && !(task.train() instanceof ValveTrain.Hydraulic)
                ? offer(task, next)
                : advise(task);
    }

    private static Adjustment offer(AdjustmentTask task, NextLeaf next) {
        return new MeasureFurther(
                next,
                null,
                (next.owned() ? "offer " : "no owned leaf narrows this: borrow ")
                        + next.leaf().toString(task.gauges().unit()));
    }

    private Adjustment shims(AdjustmentTask task) {
        ShimWork work = shimWork(task).orElseThrow();
        return look(
                task,
                work::adjustment,
                work::measureWithThinnerShim,
                "look at cam lobe, bucket or follower, and shim before fitting another shim");
    }

    /**
     * Every size that is certain to keep the clearance in the window to set to, of the range, the box and the installed one.
     *
     * @param task the reading and all that the adjustment depends on
     * @return the sizes, thinnest first, maybe none; or empty when the train has no shims, the reading lacks an end, the pad is
     *     dished, or the installed size is not known
     */
    public Optional<List<Length>> certainShims(AdjustmentTask task) {
        return shimWork(task).flatMap(ShimWork::certain);
    }

    /**
     * The clearances that can be reached with the sizes of the range, the box and the installed one, from the thickest to the
     * thinnest.
     *
     * @param task the reading and all that the adjustment depends on
     * @return the clearances; or empty where {@link #certainShims} is
     */
    public Optional<LengthInterval> reachable(AdjustmentTask task) {
        return shimWork(task).flatMap(ShimWork::reachable);
    }

    private Optional<ShimWork> shimWork(AdjustmentTask task) {
        ValveTrain train = task.train();
        return train.shims(task.gap())
                .flatMap(sizes ->
                        train.shimRatio().map(ratio -> new ShimWork(sizes, ratio, task, aimOf(task), rounding)));
    }

    /** {@return what is said of hydraulic lifters} */
    public static Adjustment notApplicable() {
        return new NotApplicable(
                "hydraulic lifters take up the clearance themselves: there is none to measure or to set");
    }

    private Ratio aimOf(AdjustmentTask task) {
        ClearanceWindow window = task.clearance().setTo();
        Ratio fraction = task.gap() == Gap.CLOSER ? Ratio.ONE.minus(aim) : aim;
        return Ratio.nanometresOf(window.lower())
                .plus(Ratio.nanometresOf(window.width()).times(fraction));
    }

    /** A leaf bridges the hollow, so nothing is drawn from the reading. */
    private Adjustment dished(AdjustmentTask task) {
        String why =
                "the pad or valve tip is dished: a leaf bridges the hollow and reads too small, so the reading is not used; "
                        + "dress or renew the part if the manual allows";
        return task.train() instanceof ValveTrain.Screw screw
                ? new Inspect(
                        why + ", else count turns from no play",
                        new ScrewWork(screw, task, aimOf(task), lasting, mostTries).turnFromNoPlay())
                : new Inspect(why + ", then measure again", null);
    }

    private Adjustment look(AdjustmentTask task, Supplier<Adjustment> adjustment, String lookAt) {
        return look(task, adjustment, adjustment, lookAt);
    }

    /** What comes before an adjustment: nothing to do, not enough known, or something to look at first. */
    private Adjustment look(
            AdjustmentTask task,
            Supplier<Adjustment> adjustment,
            Supplier<Adjustment> withoutClearance,
            String lookAt) {
        LengthInterval now = task.judgement().bracket().interval();
        LengthUnit unit = task.gauges().unit();
        Verdict verdict = task.judgement().verdict();
        if (verdict == Verdict.WITHIN) {
            return new Leave();
        }
        if (verdict == Verdict.UNDECIDED) {
            return undecided(task);
        }
        if (now.lower().isEmpty() && task.gap() != Gap.CLOSER) {
            return thinnerLeaf(task.judgement().bracket(), task.gauges())
                    .<Adjustment>map(next -> new MeasureFurther(
                            next,
                            null,
                            "no leaf went in: offer " + next.leaf().toString(unit)
                                    + ", the thinnest, to tell little clearance from none"))
                    .orElseGet(() -> new Inspect(NO_CLEARANCE, withoutClearance.get()));
        }
        if (isFarTooLoose(now, task.clearance().check())) {
            return new Inspect("far too loose: " + lookAt, adjustment.get());
        }
        return adjustment.get();
    }

    private static Adjustment undecided(AdjustmentTask task) {
        Bracket bracket = task.judgement().bracket();
        if (task.gap() == Gap.CLOSER) {
            return new MeasureFurther(
                    null, null, "read the opener more finely, loaded and unloaded, and turn the closer by hand");
        }
        return NextLeaf.towardsVerdict(bracket, task.clearance().check(), task.gauges())
                .map(next -> offer(task, next))
                .orElseGet(() -> new MeasureFurther(
                        null,
                        null,
                        "no leaf settles this under the " + bracket.rule().name() + " rule"));
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Adjuster a
                && a.aim.equals(aim)
                && a.lasting == lasting
                && a.farTooLoose.equals(farTooLoose)
                && a.mostTries == mostTries
                && Objects.equals(a.rounding, rounding);
    }

    @Override
    public int hashCode() {
        return Objects.hash(aim, lasting, farTooLoose, mostTries, rounding);
    }
}
