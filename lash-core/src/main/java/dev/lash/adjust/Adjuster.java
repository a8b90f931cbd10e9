package dev.lash.adjust;

import dev.lash.adjust.Adjustment.FitShim;
import dev.lash.adjust.Adjustment.Inspect;
import dev.lash.adjust.Adjustment.Later;
import dev.lash.adjust.Adjustment.Leave;
import dev.lash.adjust.Adjustment.MeasureFurther;
import dev.lash.adjust.Adjustment.NotApplicable;
import dev.lash.adjust.Adjustment.SetToLeaf;
import dev.lash.adjust.Adjustment.Turn;
import dev.lash.adjust.Adjustment.TurnFrom;
import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.ValveTrain.ScrewPlace;
import dev.lash.engine.ValveTrain.ShimPlace;
import dev.lash.gauge.Bracket;
import dev.lash.gauge.Fit;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.Trial;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import dev.lash.plan.NextLeaf;
import java.io.Serializable;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;

/**
 * Works out what to do about a judged reading. Immutable; every setting has a default.
 *
 * <table>
 * <caption>Settings</caption>
 * <tr><th>setting</th><th>default</th><th>meaning</th></tr>
 * <tr><td>aim</td><td>0.75</td><td>where in the window to set: 0 its lower end, 1 its upper end. Clearances mostly close up,
 * and in doubt a loose valve ticks where a tight one burns, so the default aims at the loose part (common practice; the
 * figure is this library's choice)</td></tr>
 * <tr><td>far too loose</td><td>2</td><td>a reading wholly above this many times the upper limit is inspected before it is
 * adjusted (a figure of this library's choosing; no maker's)</td></tr>
 * </table>
 *
 * <p>A screw at the valve tip changes the clearance by its own movement: dc = pitch x degrees / 360. A shim over or under a
 * bucket, or a graded bucket: dc = -(new size - old size). Turns are rounded outward to tenths of a degree; certainty is
 * decided in whole nanometres.
 */
public final class Adjuster implements Serializable {
    private static final long serialVersionUID = 1L;
    private static final Adjuster DEFAULTS = new Adjuster(Ratio.of(3, 4), Ratio.of(2, 1));
    private static final Length MEASURING_SHIM_LEAST = Length.ofMillimetres("0.2");
    private static final Length MEASURING_SHIM_MOST = Length.ofMillimetres("0.3");

    private final Ratio aim;
    private final Ratio farTooLoose;

    private Adjuster(Ratio aim, Ratio farTooLoose) {
        this.aim = aim;
        this.farTooLoose = farTooLoose;
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
        return new Adjuster(fraction, farTooLoose);
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
        return new Adjuster(aim, multiple);
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
     * Whether an interval may mean that there is no clearance at all, where the trials behind it are not at hand: right for
     * the simple rule only, whose upper end is the leaf that refused.
     *
     * @param clearances the reading
     * @param gauges the leaves that are owned
     * @return whether it may
     */
    public static boolean mayHaveNoClearance(LengthInterval clearances, GaugeSet gauges) {
        return clearances.lower().isEmpty()
                && clearances
                        .upper()
                        .filter(upper -> !gauges.thinnest().thickness().isLessThan(upper))
                        .isPresent();
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
                return train.place() == ScrewPlace.ROCKER_TIP ? adviseScrew(train, task) : later(train);
            }

            @Override
            public Adjustment eccentric(ValveTrain.Eccentric train) {
                return later(train);
            }

            @Override
            public Adjustment shim(ValveTrain.Shim train) {
                return train.place() == ShimPlace.FOLLOWER ? later(train) : adviseShim(train, task);
            }

            @Override
            public Adjustment desmodromic(ValveTrain.Desmodromic train) {
                return later(train);
            }

            @Override
            public Adjustment fixed(ValveTrain.Fixed train) {
                return later(train);
            }

            @Override
            public Adjustment hydraulic(ValveTrain.Hydraulic train) {
                return notApplicable();
            }
        });
    }

    /**
     * Every size that is certain to keep the clearance in the window to set to, of the range, the box and the installed one.
     *
     * @param task the reading and all that the adjustment depends on
     * @return the sizes, thinnest first, maybe none; or empty when the train has no shims that this version works out, the
     *     reading lacks an end, the pad is dished, or the installed size is not known
     */
    public Optional<List<Length>> certainShims(AdjustmentTask task) {
        LengthInterval clearances = task.judgement().bracket().interval();
        if (task.train() instanceof ValveTrain.Shim train
                && train.place() != ShimPlace.FOLLOWER
                && task.pad() == Pad.SOUND
                && clearances.isBounded()) {
            return choice(train, task).map(choice -> choice.certain(clearances));
        }
        return Optional.empty();
    }

    /** {@return what is said of hydraulic lifters} */
    public static Adjustment notApplicable() {
        return new NotApplicable(
                "hydraulic lifters take up the clearance themselves: there is none to measure or to set");
    }

    private static Adjustment later(ValveTrain train) {
        return new Later("this version does not work out the adjustment of a " + train.kind()
                + " train: follow the service manual, then recheck");
    }

    private Ratio aimOf(ClearanceWindow window) {
        return Ratio.nanometresOf(window.lower())
                .plus(Ratio.nanometresOf(window.width()).times(aim));
    }

    /** A leaf bridges the hollow, so nothing is drawn from the reading. */
    private static Adjustment dished(AdjustmentTask task) {
        String why =
                "the pad or valve tip is dished: a leaf bridges the hollow and reads too small, so the reading is not used; "
                        + "dress or renew the part if the manual allows";
        return task.train() instanceof ValveTrain.Screw screw && screw.place() == ScrewPlace.ROCKER_TIP
                ? new Inspect(why + ", else count turns from no play", turnFromNoPlay(screw, task))
                : new Inspect(why + ", then measure again", null);
    }

    // ---- screw at the valve tip ------------------------------------------------------------------------------------

    private Adjustment adviseScrew(ValveTrain.Screw train, AdjustmentTask task) {
        return advise(
                task, () -> setToLeaf(train, task), "look at rocker pad, valve tip and adjuster before adjusting");
    }

    private Adjustment setToLeaf(ValveTrain.Screw train, AdjustmentTask task) {
        return settingLeaf(task)
                .<Adjustment>map(leaf -> {
                    LengthInterval after = drag(leaf, task);
                    return new SetToLeaf(leaf, turn(task, after, train).orElse(null), after);
                })
                .orElseGet(() -> turnToAim(train, task));
    }

    /** The owned leaf whose drag lies in the window to set to, nearest to the aim; of two the thicker; single leaves first. */
    private Optional<LeafStack> settingLeaf(AdjustmentTask task) {
        LengthInterval allowed = task.clearance().setTo().interval();
        Ratio target = aimOf(task.clearance().setTo());
        Comparator<LeafStack> nearest = Comparator.comparingInt((LeafStack s) -> Math.min(s.size(), 2))
                .thenComparing((LeafStack s) -> distance(s.thickness(), target))
                .thenComparing(Comparator.comparing(LeafStack::thickness).reversed())
                .thenComparing(Comparator.naturalOrder());
        return task.gauges().stacks().stream()
                .filter(stack -> allowed.encloses(drag(stack, task)))
                .min(nearest);
    }

    private static Ratio distance(Length length, Ratio target) {
        Ratio difference = Ratio.nanometresOf(length).minus(target);
        return difference.signum() < 0 ? Ratio.ZERO.minus(difference) : difference;
    }

    private static LengthInterval drag(LeafStack leaf, AdjustmentTask task) {
        ReadingRule rule = task.judgement().bracket().rule();
        return rule.claim(new Trial(leaf, Fit.DRAGS));
    }

    private static Optional<TurnRange> turn(AdjustmentTask task, LengthInterval after, ValveTrain.Screw train) {
        LengthInterval now = task.judgement().bracket().interval();
        if (!now.isBounded()) {
            return Optional.empty();
        }
        return Optional.of(TurnRange.outward(
                degrees(after.lower().orElseThrow().minus(now.upper().orElseThrow()), train),
                degrees(after.upper().orElseThrow().minus(now.lower().orElseThrow()), train)));
    }

    private static Ratio degrees(Length change, ValveTrain.Screw train) {
        return TurnRange.degrees(Ratio.nanometresOf(change), train.pitch().nanometresPerTurn());
    }

    private Adjustment turnToAim(ValveTrain.Screw train, AdjustmentTask task) {
        LengthInterval now = task.judgement().bracket().interval();
        ClearanceWindow window = task.clearance().setTo();
        if (!now.isBounded()) {
            return turnFromNoPlay(train, task);
        }
        Ratio low = Ratio.nanometresOf(now.lower().orElseThrow());
        Ratio high = Ratio.nanometresOf(now.upper().orElseThrow());
        Ratio pitch = train.pitch().nanometresPerTurn();
        TurnRange toAim = TurnRange.outward(
                TurnRange.degrees(aimOf(window).minus(high), pitch),
                TurnRange.degrees(aimOf(window).minus(low), pitch));
        Optional<TurnRange> certain = TurnRange.inward(
                TurnRange.degrees(Ratio.nanometresOf(window.lower()).minus(low), pitch),
                TurnRange.degrees(Ratio.nanometresOf(window.upper()).minus(high), pitch));
        return new Turn(
                TurnFrom.PRESENT_SETTING,
                toAim,
                certain.orElse(null),
                toAim.flats(train.head()).orElse(null),
                direction(toAim));
    }

    private static Adjustment turnFromNoPlay(ValveTrain.Screw train, AdjustmentTask task) {
        ClearanceWindow window = task.clearance().setTo();
        Ratio from = degrees(window.lower(), train);
        Ratio to = degrees(window.upper(), train);
        TurnRange range = TurnRange.inward(from, to).orElseGet(() -> TurnRange.outward(from, to));
        return new Turn(TurnFrom.NO_PLAY, range, null, range.flats(train.head()).orElse(null), direction(range));
    }

    private static String direction(TurnRange turn) {
        if (turn.from().signum() >= 0) {
            return "screw out, the clearance grows (anticlockwise where the thread is right-handed)";
        }
        if (turn.to().signum() <= 0) {
            return "screw in, the clearance shrinks (clockwise where the thread is right-handed)";
        }
        return "positive: screw out, the clearance grows (anticlockwise where the thread is right-handed); negative: screw in";
    }

    // ---- shim over or under a bucket, graded bucket
    // ------------------------------------------------------------------

    private Adjustment adviseShim(ValveTrain.Shim train, AdjustmentTask task) {
        return advise(
                task, () -> fitShim(train, task), "look at cam lobe, bucket and shim before fitting another shim");
    }

    private static Optional<ShimChoice> choice(ValveTrain.Shim train, AdjustmentTask task) {
        return task.findShim()
                .flatMap(shim -> shim.size()
                        .map(nominal -> new ShimChoice(
                                train.sizes(),
                                task.box().sizesFor(shim),
                                nominal,
                                shim.possibleSizes().orElseThrow(),
                                task.clearance().setTo())));
    }

    private Adjustment fitShim(ValveTrain.Shim train, AdjustmentTask task) {
        LengthUnit unit = task.gauges().unit();
        LengthInterval now = task.judgement().bracket().interval();
        Optional<ShimChoice> known = choice(train, task);
        if (known.isEmpty()) {
            return new MeasureFurther(null, null, "read or measure the installed shim with a micrometer");
        }
        if (now.upper().isEmpty()) {
            return new MeasureFurther(
                    null,
                    null,
                    "try thicker leaves until one does not go: the reading has no upper end, so no shim is certain");
        }
        ShimChoice choice = known.get();
        Optional<Length> best = choice.nearest(now, aimOf(task.clearance().setTo()));
        if (best.isPresent()) {
            Length size = best.get();
            return new FitShim(
                    size,
                    choice.certain(now),
                    choice.resulting(now, size),
                    task.findShim()
                            .filter(shim -> task.box().sizesFor(shim).contains(size))
                            .isPresent());
        }
        if (choice.needsThinner(now) || choice.needsThicker(now)) {
            return new Inspect(
                    "the sizes that are made reach clearances of "
                            + choice.reachable(now).toString(unit)
                            + " only, outside the window of "
                            + task.clearance().setTo().toString(unit)
                            + (choice.needsThinner(now)
                                    ? ": valve or seat may be finished; have them looked at before a thinner shim is sought"
                                    : ": cam, bucket or shim seat may be worn; have them looked at before a thicker shim is sought"),
                    null);
        }
        return NextLeaf.towards(
                        task.judgement().bracket(), i -> !choice.certain(i).isEmpty(), task.gauges())
                .<Adjustment>map(next -> new MeasureFurther(
                        next,
                        null,
                        "no size is certain for a reading as wide as this: offer "
                                + next.leaf().toString(unit) + " to narrow it"))
                .orElseGet(() -> new Inspect(
                        "no size that is made is certain for this reading, and no leaf would make one so: the window of "
                                + task.clearance().setTo().toString(unit)
                                + " is narrow for sizes that step by "
                                + train.sizes().step().toString(unit)
                                + "; look for sizes in between",
                        null));
    }

    // ---- what screws and shims share
    // ---------------------------------------------------------------------------------

    /** What comes before an adjustment: nothing to do, not enough known, or something to look at first. */
    private Adjustment advise(AdjustmentTask task, Supplier<Adjustment> adjustment, String lookAt) {
        Bracket bracket = task.judgement().bracket();
        LengthInterval now = bracket.interval();
        LengthUnit unit = task.gauges().unit();
        Verdict verdict = task.judgement().verdict();
        if (verdict == Verdict.WITHIN) {
            return new Leave();
        }
        if (verdict == Verdict.UNDECIDED) {
            return NextLeaf.towardsVerdict(bracket, task.clearance().check(), task.gauges())
                    .map(next -> new MeasureFurther(next, null, whyNext(next, unit)))
                    .orElseGet(() -> new MeasureFurther(
                            null,
                            null,
                            "no leaf settles this under the " + bracket.rule().name() + " rule"));
        }
        if (now.lower().isEmpty()) {
            return thinnerLeaf(bracket, task.gauges())
                    .<Adjustment>map(next -> new MeasureFurther(
                            next,
                            null,
                            "no leaf went in: offer " + next.leaf().toString(unit)
                                    + ", the thinnest, to tell little clearance from none"))
                    .orElseGet(() -> noClearance(task, adjustment));
        }
        if (isFarTooLoose(now, task.clearance().check())) {
            return new Inspect("far too loose: " + lookAt, adjustment.get());
        }
        return adjustment.get();
    }

    private static String whyNext(NextLeaf next, LengthUnit unit) {
        return next.owned()
                ? "offer " + next.leaf().toString(unit)
                : "no owned leaf narrows this: borrow " + next.leaf().toString(unit);
    }

    private static Adjustment noClearance(AdjustmentTask task, Supplier<Adjustment> adjustment) {
        String why =
                "may have no clearance at all: make sure that the piston is at compression TDC and the follower on the base "
                        + "circle; if it is, look for wear or damage of valve, seat and train, do not merely adjust";
        if (!(task.train() instanceof ValveTrain.Shim)) {
            return new Inspect(why, adjustment.get());
        }
        Optional<LengthInterval> thinner = task.findShim()
                .flatMap(InstalledShim::size)
                .filter(size -> size.isMoreThan(MEASURING_SHIM_MOST))
                .map(size -> LengthInterval.closed(size.minus(MEASURING_SHIM_MOST), size.minus(MEASURING_SHIM_LEAST)));
        return new Inspect(
                why,
                new MeasureFurther(
                        null,
                        thinner.orElse(null),
                        "fit a shim 0.2 to 0.3 mm thinner only to measure, never to run the engine; measure, then compute"));
    }
}
