package dev.lash.adjust;

import dev.lash.adjust.Adjustment.FitShim;
import dev.lash.adjust.Adjustment.Inspect;
import dev.lash.adjust.Adjustment.MeasureFurther;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.Gap;
import dev.lash.engine.ShimRange;
import dev.lash.gauge.LeafStack;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import dev.lash.plan.NextLeaf;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * A shim: over or under a bucket, a graded bucket, under a finger follower, or at opener or closer of a desmodromic valve. A
 * thicker shim makes the gap smaller in each of them.
 *
 * @param sizes the sizes that are made
 * @param ratio what the clearance, where the leaf goes, changes by for a unit of shim
 * @param task the reading and all that the adjustment depends on
 * @param aim where to set, in nanometres
 * @param rounding the shop's way of rounding; {@code null} where it states none
 */
record ShimWork(
        ShimRange sizes,
        Ratio ratio,
        AdjustmentTask task,
        Ratio aim,
        @Nullable ShimRounding rounding) {
    private static final Length MEASURING_SHIM_LEAST = Length.ofMillimetres("0.2");
    private static final Length MEASURING_SHIM_MOST = Length.ofMillimetres("0.3");

    private Optional<ShimChoice> choice() {
        return task.findShim()
                .filter(shim -> shim.size().isPresent())
                .map(shim -> new ShimChoice(
                        sizes, ratio, task.box(), shim, task.clearance().setTo()));
    }

    /** The certain sizes, or empty when the reading lacks an end or the installed size is not known. */
    Optional<List<Length>> certain() {
        LengthInterval now = task.judgement().bracket().interval();
        return now.isBounded() && task.pad() == AdjustmentTask.Pad.SOUND
                ? choice().map(c -> c.certain(now))
                : Optional.empty();
    }

    /** The clearances that the sizes reach, or empty where {@link #certain} is. */
    Optional<LengthInterval> reachable() {
        LengthInterval now = task.judgement().bracket().interval();
        return certain().isPresent() ? choice().map(c -> c.reachable(now)) : Optional.empty();
    }

    Adjustment adjustment() {
        LengthInterval now = task.judgement().bracket().interval();
        Optional<ShimChoice> known = choice();
        if (known.isEmpty()) {
            return new MeasureFurther(null, null, "read or measure the installed shim with a micrometer");
        }
        if (now.upper().isEmpty()) {
            Length low = now.lower().orElse(Length.ZERO);
            return new MeasureFurther(
                    task.gauges().leaves().stream()
                            .filter(leaf -> leaf.thickness().isMoreThan(low))
                            .findFirst()
                            .map(leaf -> new NextLeaf(LeafStack.of(leaf), true))
                            .orElse(null),
                    null,
                    "try thicker leaves until one does not go: the reading has no upper end, so no shim is certain");
        }
        ShimChoice choice = known.get();
        Optional<Length> best = choice.nearest(now, aim);
        if (best.isPresent()) {
            Length size = best.get();
            return new FitShim(
                    size,
                    choice.certain(now),
                    choice.resulting(now, size),
                    task.findShim()
                            .filter(shim -> task.box().sizesFor(shim).contains(size))
                            .isPresent(),
                    rounding == null ? null : byHabit(choice, rounding));
        }
        return choice.needsThinner(now) || choice.needsThicker(now) ? sizesRunOut(choice) : narrow(choice);
    }

    /** Old + (measured - specified) / r, with the middle of the reading as what was measured, rounded as the shop does. */
    private HabitShim byHabit(ShimChoice choice, ShimRounding way) {
        LengthInterval now = task.judgement().bracket().interval();
        ClearanceWindow window = task.clearance().setTo();
        Ratio measured = Ratio.nanometresOf(
                        now.lower().orElseThrow().plus(now.upper().orElseThrow()))
                .times(Ratio.of(1, 2));
        Ratio specified = Ratio.nanometresOf(window.lower())
                .plus(Ratio.nanometresOf(window.width()).times(way.specified()));
        Length old = task.findShim().flatMap(InstalledShim::size).orElseThrow();
        Length ideal = RoundingHabit.ideal(
                old, measured.minus(specified).dividedBy(ratio).floorNanometres(), Length.ZERO);
        Optional<Length> size = way.habit().fit(ideal, sizes);
        return new HabitShim(
                way,
                ideal,
                size.orElse(null),
                size.map(s -> choice.resulting(now, s)).orElse(null),
                size.filter(choice.certain(now)::contains).isPresent());
    }

    private Adjustment sizesRunOut(ShimChoice choice) {
        LengthUnit unit = task.gauges().unit();
        LengthInterval now = task.judgement().bracket().interval();
        boolean thinner = choice.needsThinner(now);
        // a valve that sinks into its seat closes the gap, but opens that of a closer
        String worn = thinner != (task.gap() == Gap.CLOSER)
                ? "valve or seat may be finished"
                : "cam, bucket or shim seat may be worn";
        return new Inspect(
                "the sizes that are made reach clearances of "
                        + choice.reachable(now).toString(unit)
                        + " only, outside the window of "
                        + task.clearance().setTo().toString(unit)
                        + ": " + worn + "; have them looked at before a " + (thinner ? "thinner" : "thicker")
                        + " shim is sought",
                null);
    }

    private Adjustment narrow(ShimChoice choice) {
        LengthUnit unit = task.gauges().unit();
        if (task.gap() == Gap.CLOSER) {
            return new MeasureFurther(
                    null,
                    null,
                    "no size is certain for a reading as wide as this: read the opener more finely, loaded and unloaded");
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
                                + sizes.step().toString(unit)
                                + "; look for sizes in between",
                        null));
    }

    /** What to do where no leaf goes in. */
    Adjustment measureWithThinnerShim() {
        Optional<LengthInterval> thinner = task.findShim()
                .flatMap(InstalledShim::size)
                .filter(size -> size.isMoreThan(MEASURING_SHIM_MOST))
                .map(size -> LengthInterval.closed(size.minus(MEASURING_SHIM_MOST), size.minus(MEASURING_SHIM_LEAST)));
        return new MeasureFurther(
                null,
                thinner.orElse(null),
                "fit a shim 0.2 to 0.3 mm thinner only to measure, never to run the engine; measure, then compute");
    }
}
