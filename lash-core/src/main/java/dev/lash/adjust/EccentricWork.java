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
import java.util.List;
import java.util.Optional;

/**
 * An eccentric: dc = m e (sin a0 - sin a) for a turn from a0 to a. Each clearance is reached in two positions.
 *
 * <p>The sine is a {@code double}; turns are widened by {@value #MARGIN} degrees before they are rounded outward.
 *
 * @param train the train
 * @param task the reading and all that the adjustment depends on
 * @param aim where to set, in nanometres
 * @param lasting whether the aim is where a setting lasts longest
 */
record EccentricWork(ValveTrain.Eccentric train, AdjustmentTask task, Ratio aim, boolean lasting) {
    private static final double MARGIN = 1e-5;
    private static final double ROUNDING = 1e-12;
    private static final Ratio FULL_TURN = Ratio.of(360, 1);

    Adjustment adjustment() {
        Optional<String> beyond = beyondReach();
        if (beyond.isPresent()) {
            return new Inspect(beyond.get(), null);
        }
        SettingLeaf leaves = new SettingLeaf(task, aim, lasting);
        return leaves.find(choice -> !turns(choice.drag()).isEmpty())
                .or(leaves::find)
                .<Adjustment>map(choice -> new SetToLeaf(
                        choice.leaf(),
                        null,
                        turns(choice.drag()),
                        choice.resulting(),
                        task.findLockShift().orElse(null),
                        ""))
                .orElseGet(() -> new MeasureFurther(
                        null,
                        null,
                        "no owned leaf "
                                + (task.findLockShift().isEmpty()
                                        ? "lies in the window to set to"
                                        : "is likely to end in the window to set to with what the nut adds")
                                + ": get one; an eccentric is set to a leaf"));
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

    /** The turns that bring every clearance of the reading to the drag of the leaf, the shorter first; none or both. */
    private List<EccentricTurn> turns(LengthInterval after) {
        Optional<EccentricTurn> nearer = turn(after, false);
        Optional<EccentricTurn> other = turn(after, true);
        return nearer.isPresent() && other.isPresent() ? List.of(nearer.get(), other.get()) : List.of();
    }

    private Optional<EccentricTurn> turn(LengthInterval after, boolean other) {
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
        double low = Math.min(a, b) - whole;
        double high = Math.max(a, b) - whole;
        boolean smaller = low + high >= 0;
        double end = start - high - 360 * Math.floor((start - high - MARGIN) / 360);
        return Optional.of(new EccentricTurn(
                smaller ? EccentricTurn.Sense.SMALLER : EccentricTurn.Sense.LARGER,
                smaller ? outward(Math.max(MARGIN, low), high) : outward(Math.max(MARGIN, -high), -low),
                outward(end, end + high - low)));
    }

    /** To tenths, with room for the rounding of the sine. */
    private static TurnRange outward(double least, double most) {
        return new TurnRange(
                BigDecimal.valueOf(least - MARGIN).setScale(1, RoundingMode.FLOOR),
                BigDecimal.valueOf(most + MARGIN).setScale(1, RoundingMode.CEILING));
    }

    /**
     * The turn for a change of clearance in nanometres, give or take whole turns, positive towards smaller angles; not a number where
     * it is out of reach.
     */
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
