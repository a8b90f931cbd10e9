package dev.lash.adjust;

import dev.lash.adjust.Adjustment.Inspect;
import dev.lash.adjust.Adjustment.MeasureFurther;
import dev.lash.adjust.Adjustment.SetToLeaf;
import dev.lash.engine.ValveTrain;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Optional;

/**
 * An eccentric: dc = m e (sin a0 - sin a). A turn of d degrees takes it from a0 to a = a0 - d, so that a positive turn makes the
 * clearance grow while it stands within a quarter turn of where it works fastest. Each clearance is reached in two positions.
 *
 * <p>The sine is a {@code double}; turns are widened by {@value #MARGIN} degrees before they are rounded outward.
 *
 * @param train the train
 * @param task the reading and all that the adjustment depends on
 * @param aim where to set, in nanometres
 */
record EccentricWork(ValveTrain.Eccentric train, AdjustmentTask task, Ratio aim) {
    private static final double MARGIN = 1e-5;
    private static final double ROUNDING = 1e-12;
    private static final Ratio FULL_TURN = Ratio.of(360, 1);

    Adjustment adjustment() {
        Optional<String> beyond = beyondReach();
        if (beyond.isPresent()) {
            return new Inspect(beyond.get(), null);
        }
        SettingLeaf leaves = new SettingLeaf(task, aim);
        return leaves.find(choice -> turn(choice.drag(), false).isPresent())
                .or(leaves::find)
                .<Adjustment>map(choice -> new SetToLeaf(
                        choice.leaf(),
                        turn(choice.drag(), false).orElse(null),
                        turn(choice.drag(), true).orElse(null),
                        choice.resulting(),
                        task.findLockShift().orElse(null),
                        ""))
                .orElseGet(() -> new MeasureFurther(
                        null,
                        null,
                        "no owned leaf lies in the window to set to: get one; an eccentric is set to a leaf"));
    }

    /** What the clearance changes by at most, m e, in nanometres. */
    private double amplitude() {
        return train.eccentricity().nanometres() * value(train.multiplier());
    }

    private static double value(Ratio ratio) {
        return new BigDecimal(ratio.numerator())
                .divide(new BigDecimal(ratio.denominator()), MathContext.DECIMAL64)
                .doubleValue();
    }

    /** Where the eccentric stands, from 0 to below 360 degrees: whole turns are taken off while the figure is exact. */
    private Optional<Double> start() {
        return task.findEccentricAngle().map(angle -> {
            Ratio turns = Ratio.of(angle.dividedBy(FULL_TURN).floor(0));
            return value(angle.minus(turns.times(FULL_TURN)));
        });
    }

    /** Why the window cannot be reached, where that is so whatever clearance of the reading is the true one. */
    private Optional<String> beyondReach() {
        LengthInterval now = task.judgement().bracket().interval();
        if (start().isEmpty() || !now.isBounded()) {
            return Optional.empty();
        }
        double sine = sine(start().orElseThrow());
        Length most = Length.ofNanometres((long) Math.ceil(amplitude() * (sine + 1) + MARGIN));
        Length least = Length.ofNanometres((long) Math.floor(amplitude() * (sine - 1) - MARGIN));
        LengthInterval reach = now.plus(LengthInterval.closed(least, most));
        LengthUnit unit = task.gauges().unit();
        return reach.intersects(task.clearance().setTo().interval())
                ? Optional.empty()
                : Optional.of(
                        "the eccentric reaches clearances of " + reach.toString(unit) + " only, not the window of "
                                + task.clearance().setTo().toString(unit)
                                + ": look for wear of shaft, rocker and valve, and whether the eccentric is the right one");
    }

    private static double sine(double degrees) {
        return StrictMath.sin(StrictMath.toRadians(degrees));
    }

    /** The turns that bring every clearance of the reading to the drag of the leaf, by the nearer position or the other. */
    private Optional<TurnRange> turn(LengthInterval after, boolean other) {
        LengthInterval now = task.judgement().bracket().interval();
        if (start().isEmpty() || !now.isBounded()) {
            return Optional.empty();
        }
        double start = start().orElseThrow();
        double least =
                after.lower().orElseThrow().minus(now.upper().orElseThrow()).nanometres();
        double most =
                after.upper().orElseThrow().minus(now.lower().orElseThrow()).nanometres();
        double a = turnFor(start, least, other);
        double b = turnFor(start, most, other);
        if (Double.isNaN(a) || Double.isNaN(b)) {
            return Optional.empty();
        }
        // whole turns come off both ends alike: the range must stay in one piece
        double whole = 360 * Math.rint((a + b) / 720);
        return Optional.of(new TurnRange(
                BigDecimal.valueOf(Math.min(a, b) - whole - MARGIN).setScale(1, RoundingMode.FLOOR),
                BigDecimal.valueOf(Math.max(a, b) - whole + MARGIN).setScale(1, RoundingMode.CEILING)));
    }

    /** The turn for a change of clearance in nanometres, give or take whole turns; not a number where it is out of reach. */
    private double turnFor(double start, double change, boolean other) {
        double wanted = sine(start) - change / amplitude();
        if (Math.abs(wanted) > 1 + ROUNDING) {
            return Double.NaN;
        }
        double principal = StrictMath.toDegrees(StrictMath.asin(Math.max(-1, Math.min(1, wanted))));
        boolean principalIsNearer = StrictMath.cos(StrictMath.toRadians(start)) >= 0;
        return principalIsNearer != other ? start - principal : start - 180 + principal;
    }
}
