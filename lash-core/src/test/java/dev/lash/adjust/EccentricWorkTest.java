package dev.lash.adjust;

import static dev.lash.testing.Readings.guarded;
import static dev.lash.testing.Readings.interval;
import static dev.lash.testing.Readings.leaves;
import static dev.lash.testing.Readings.mm;
import static dev.lash.testing.Readings.read;
import static dev.lash.testing.Tasks.task;
import static dev.lash.testing.Tasks.withPad;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.Adjustment.Inspect;
import dev.lash.adjust.Adjustment.Leave;
import dev.lash.adjust.Adjustment.MeasureFurther;
import dev.lash.adjust.Adjustment.SetToLeaf;
import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.adjust.EccentricTurn.Sense;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.LeafStack;
import dev.lash.measure.Length;
import dev.lash.measure.Ratio;
import dev.lash.testing.Contracts;
import java.math.BigDecimal;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** An eccentric shaft: dc = m e (sin a0 - sin(a0 - d)) for a turn of d degrees; angles whose sines are known by heart. */
class EccentricWorkTest {
    /** Half a millimetre at the valve either way. */
    private static final ValveTrain HALF = new ValveTrain.Eccentric(mm("0.5"), Ratio.ONE);

    private static TurnRange degrees(String from, String to) {
        return new TurnRange(new BigDecimal(from), new BigDecimal(to));
    }

    private static AdjustmentTask at(ValveTrain train, String angle, String windowText, String leaf, String... trials) {
        return task(train, windowText, leaves(leaf, "2.00"), read(trials)).withEccentricAngle(Ratio.parse(angle));
    }

    private static SetToLeaf set(AdjustmentTask task) {
        return as(Adjuster.withDefaults().advise(task), SetToLeaf.class);
    }

    private static <T extends Adjustment> T as(Adjustment adjustment, Class<T> kind) {
        assertThat(adjustment).isInstanceOf(kind);
        return kind.cast(adjustment);
    }

    private static EccentricTurn turn(Sense sense, String from, String to, String endFrom, String endTo) {
        return new EccentricTurn(sense, degrees(from, to), degrees(endFrom, endTo));
    }

    private static EccentricTurn near(AdjustmentTask task) {
        return set(task).eccentric().get(0);
    }

    /**
     * 0.10 is read, 0.35 wanted: half of m e more, which takes an angle whose sine is less by a half. Both ends are exact and widened by
     * a tenth. The clearance grows by each of these turns, whichever way round it goes.
     */
    @ParameterizedTest
    @CsvSource({
        // from 0 to -30 or to -150
        "0,    SMALLER, 30, 330,   SMALLER, 150, 210",
        // from 90 to 30 or to 150
        "90,   SMALLER, 60, 30,    LARGER,  60,  150",
        // from 30 to 0 or to 180
        "30,   SMALLER, 30, 360,   LARGER,  150, 180",
        // from -30 to -90 both
        "-30,  SMALLER, 60, 270,   SMALLER, 60,  270",
        // from 180 to 210 or to 330: on this side a larger angle makes the clearance grow
        "180,  LARGER,  30, 210,   LARGER,  150, 330",
        // from 150 to 180 or to 0
        "150,  LARGER,  30, 180,   SMALLER, 150, 360",
        // whole turns of the shaft say nothing
        "360,  SMALLER, 30, 330,   SMALLER, 150, 210",
        "-330, SMALLER, 30, 360,   LARGER,  150, 180",
        "36000000000000000180, LARGER, 30, 210, LARGER, 150, 330",
    })
    void bothTurnsToTheLeaf(String angle, Sense sense, int by, int end, Sense otherSense, int otherBy, int otherEnd) {
        SetToLeaf set = set(at(HALF, angle, "0.30..0.40 mm", "0.35", "0.10 mm drags"));
        assertThat(set.leaf()).isEqualTo(LeafStack.parse("0.35 mm"));
        assertThat(set.resulting()).isEqualTo(interval("[0.35, 0.35] mm"));
        assertThat(set.findTurn()).as("no screw").isEmpty();
        assertThat(set.eccentric()).containsExactly(exactly(sense, by, end), exactly(otherSense, otherBy, otherEnd));
        assertThat(set.first()).isEmpty();
    }

    private static EccentricTurn exactly(Sense sense, int by, int end) {
        return turn(sense, (by - 1) + ".9", by + ".1", (end - 1) + ".9", end + ".1");
    }

    /** 0.09 read, 0.15 wanted, m e = 1.25 mm, standing at 180 degrees: to 180 + 2.75, so the angle grows as the clearance does. */
    @Test
    void onTheFarSideTheClearanceGrowsWithTheAngle() {
        ValveTrain train = new ValveTrain.Eccentric(mm("0.5"), Ratio.parse("2.5"));
        AdjustmentTask task = at(train, "180", "0.13..0.17 mm", "0.15", "0.08 mm goes", "0.10 mm refuses");
        // 0.05 to 0.07 of 1.25: arcsin 0.04 = 2.292..., 0.056 = 3.210...
        assertThat(near(task)).isEqualTo(turn(Sense.LARGER, "2.2", "3.3", "182.2", "183.3"));
        assertThat(set(task).eccentric().get(1)).isEqualTo(turn(Sense.LARGER, "176.7", "177.8", "356.7", "357.8"));
        assertThat(near(task)).hasToString("2.2 to 3.3 degrees towards larger angles, to 182.2 to 183.3 degrees");
    }

    /** A reading that ends a nanometre short of the leaf: a hair of a turn, not one that goes back. */
    @Test
    void hardlyAnyTurnIsNotBackwards() {
        SetToLeaf set = set(at(HALF, "0", "0.35..0.40 mm", "0.35", "0.349999 mm drags"));
        assertThat(set.eccentric().get(0)).isEqualTo(turn(Sense.SMALLER, "0", "0.1", "359.9", "360"));
        Contracts.refuses(
                () -> turn(Sense.SMALLER, "-0.1", "0.1", "0", "0.1"),
                "-0.1 to 0.1 degrees",
                "is negative",
                "the sense");
        assertThat(Sense.LARGER.word()).isEqualTo("larger");
    }

    /** A fulcrum in the middle: 1 + ratio. 0.2 mm times 2.5 is half a millimetre again. */
    @Test
    void theMultiplierCounts() {
        ValveTrain centre = new ValveTrain.Eccentric(mm("0.2"), Ratio.parse("2.5"));
        AdjustmentTask task = at(centre, "0", "0.30..0.40 mm", "0.35", "0.10 mm drags");
        assertThat(near(task).degrees()).isEqualTo(degrees("29.9", "30.1"));
        ValveTrain third = new ValveTrain.Eccentric(mm("0.75"), Ratio.of(2, 3));
        assertThat(near(at(third, "0", "0.30..0.40 mm", "0.35", "0.10 mm drags"))
                        .degrees())
                .isEqualTo(degrees("29.9", "30.1"));
    }

    @Test
    void aLooseReadingIsTurnedTheOtherWay() {
        // 0.60 to 0.35: sin a = 0 + 1/2.
        SetToLeaf set = set(at(HALF, "0", "0.30..0.40 mm", "0.35", "0.60 mm drags"));
        assertThat(set.eccentric()).containsExactly(exactly(Sense.LARGER, 30, 30), exactly(Sense.LARGER, 150, 150));
    }

    @Test
    void aWideReadingGivesARange() {
        // (0.10, 0.12): 0.25 and 0.23 more, arcsin of 0.5 and 0.46 is 30 and 27.387...
        SetToLeaf set = set(at(HALF, "0", "0.30..0.40 mm", "0.35", "0.10 mm goes", "0.12 mm refuses"));
        assertThat(set.eccentric())
                .containsExactly(
                        turn(Sense.SMALLER, "27.3", "30.1", "329.9", "332.7"),
                        turn(Sense.SMALLER, "149.9", "152.7", "207.3", "210.1"));
    }

    @Test
    void underTheGuardedRuleTheDragHasAWidth() {
        // Drag 0.34 to 0.36 from a reading of [0.09, 0.11]: 0.23 to 0.27 more; arcsin 0.46 = 27.387, 0.54 = 32.684.
        AdjustmentTask task = task(
                        HALF, "0.30..0.40 mm", leaves("0.35"), read(guarded("0.005", "0.005"), "0.10 mm drags"))
                .withEccentricAngle(Ratio.ZERO);
        assertThat(set(task).resulting()).isEqualTo(interval("[0.34, 0.36] mm"));
        assertThat(near(task).degrees()).isEqualTo(degrees("27.3", "32.7"));
    }

    /** A range that goes past half a turn stays in one piece: it is not everything but what is meant. */
    @Test
    void aRangeAcrossHalfATurnStaysInOnePiece() {
        // From 170 degrees, 0.13 to 0.22 more: arcsin(sin 170 - 0.26) = -4.953..., arcsin(sin 170 - 0.44) = -15.447...
        SetToLeaf set = set(at(HALF, "170", "0.30..0.34 mm", "0.32", "0.10 mm goes", "0.19 mm refuses"));
        // to 175 and 185 on, which is as well 185 and 175 back
        assertThat(set.eccentric())
                .containsExactly(
                        turn(Sense.LARGER, "14.9", "25.5", "184.9", "195.5"),
                        turn(Sense.LARGER, "174.5", "185.1", "344.5", "355.1"));
    }

    @Test
    void whereTheEccentricStandsMayNotBeKnown() {
        AdjustmentTask task =
                at(HALF, "0", "0.30..0.40 mm", "0.35", "0.10 mm drags").withEccentricAngle(null);
        assertThat(set(task).leaf()).isEqualTo(LeafStack.parse("0.35 mm"));
        assertThat(set(task).eccentric()).isEmpty();
        SetToLeaf open = set(at(HALF, "0", "0.30..0.40 mm", "0.35", "0.50 mm goes"));
        assertThat(open.eccentric()).as("no turn from an unknown upper end").isEmpty();
    }

    /** Reach at a0: m e (sin a0 - 1) to m e (sin a0 + 1). */
    @ParameterizedTest
    @CsvSource({
        // 0.05 either way
        "0,   '[0.049999, 0.150001] mm'",
        // all of 0.10 more, nothing less
        "90,  '[0.099999, 0.200001] mm'",
        "-90, '[-0.000001, 0.100001] mm'",
        // half as much more as less
        "-30, '[0.024999, 0.125001] mm'",
    })
    void outOfReachIsSaid(String angle, String reach) {
        ValveTrain small = new ValveTrain.Eccentric(mm("0.05"), Ratio.ONE);
        Inspect inspect = as(
                Adjuster.withDefaults().advise(at(small, angle, "0.30..0.40 mm", "0.35", "0.10 mm drags")),
                Inspect.class);
        assertThat(inspect.why()).contains("reaches clearances of " + reach + " only", "0.30..0.40 mm", "right one");
        assertThat(inspect.findThen()).isEmpty();
    }

    @Test
    void whatSomeClearanceOfTheReadingReachesIsNotOutOfReach() {
        // From (0.10, 0.20) with 0.12 either way: 0.30 is reached from above 0.18 only, so there is no turn for all.
        ValveTrain small = new ValveTrain.Eccentric(mm("0.12"), Ratio.ONE);
        SetToLeaf set = set(at(small, "0", "0.30..0.40 mm", "0.30", "0.10 mm goes", "0.20 mm refuses"));
        assertThat(set.leaf()).isEqualTo(LeafStack.parse("0.30 mm"));
        assertThat(set.eccentric()).isEmpty();
    }

    @Test
    void aLeafThatIsReachedComesBeforeOneNearerToTheAim() {
        // Aim 0.2625. 0.28 is 0.18 away, out of the reach of 0.10; 0.16 is 0.06 away: arcsin 0.6 = 36.869...
        ValveTrain small = new ValveTrain.Eccentric(mm("0.1"), Ratio.ONE);
        AdjustmentTask task = task(small, "0.15..0.30 mm", leaves("0.16", "0.28"), read("0.10 mm drags"));
        SetToLeaf set = set(task.withEccentricAngle(Ratio.ZERO));
        assertThat(set.leaf()).isEqualTo(LeafStack.parse("0.16 mm"));
        assertThat(set.eccentric().get(0).degrees()).isEqualTo(degrees("36.8", "36.9"));
        assertThat(set(task).leaf()).as("angle not known").isEqualTo(LeafStack.parse("0.28 mm"));
    }

    @Test
    void aFullStrokeIsReachedExactly() {
        // From 90 to -90: all of 2 m e.
        SetToLeaf set = set(at(HALF, "90", "1.10..1.10 mm", "1.10", "0.10 mm drags"));
        assertThat(set.eccentric().get(0).degrees()).isEqualTo(degrees("179.9", "180.1"));
        for (String angle : new String[] {"1", "37", "91", "203", "359"}) {
            // as far as it goes to the nanometre, from any angle
            double most = 500_000 * (1 + Math.sin(Math.toRadians(Integer.parseInt(angle))));
            Length leaf = mm("0.10").plus(Length.ofNanometres((long) most));
            String text = leaf.millimetres().toPlainString();
            assertThat(set(at(HALF, angle, text + ".." + text + " mm", text, "0.10 mm drags"))
                            .eccentric())
                    .hasSize(2);
        }
    }

    /** The least eccentric that there is does next to nothing: said, not divided by. */
    @ParameterizedTest
    @ValueSource(strings = {"0", "90", "-90"})
    void anEccentricThatHardlyMovesIsOutOfReach(String angle) {
        ValveTrain none = new ValveTrain.Eccentric(Length.ofNanometres(1), Ratio.parse("0.1"));
        assertThat(Adjuster.withDefaults().advise(at(none, angle, "0.30..0.40 mm", "0.35", "0.10 mm drags")))
                .isInstanceOf(Inspect.class);
        SetToLeaf set = set(at(none, angle, "0.30..0.40 mm", "0.35", "0.299999 mm drags"));
        assertThat(set.eccentric()).isEmpty();
    }

    @Test
    void aMultiplierOfManyDigitsIsReckonedWith() {
        // 1 + 10^-400: neither side of the fraction is a number that a double can hold
        Ratio many = Ratio.parse("1" + "0".repeat(399) + "1/1" + "0".repeat(400));
        AdjustmentTask task =
                at(new ValveTrain.Eccentric(mm("0.5"), many), "0", "0.30..0.40 mm", "0.35", "0.10 mm drags");
        assertThat(near(task).degrees()).isEqualTo(degrees("29.9", "30.1"));
    }

    @Test
    void withoutALeafInTheWindowOneIsGot() {
        MeasureFurther further = as(
                Adjuster.withDefaults().advise(at(HALF, "0", "0.30..0.40 mm", "0.45", "0.10 mm drags")),
                MeasureFurther.class);
        assertThat(further.why()).contains("no owned leaf lies in the window", "set to a leaf");
        assertThat(further.findLeaf()).isEmpty();
    }

    @Test
    void withinIsLeftAndDoubtIsLookedAtFirst() {
        Adjuster adjuster = Adjuster.withDefaults();
        assertThat(adjuster.advise(at(HALF, "0", "0.30..0.40 mm", "0.35", "0.32 mm drags")))
                .isEqualTo(new Leave());
        Inspect far = as(adjuster.advise(at(HALF, "0", "0.30..0.40 mm", "0.35", "0.80 mm drags")), Inspect.class);
        assertThat(far.why()).contains("far too loose", "eccentric");
        assertThat(as(far.findThen().orElseThrow(), SetToLeaf.class).eccentric())
                .hasSize(2);
        Inspect dished = as(
                adjuster.advise(withPad(at(HALF, "0", "0.30..0.40 mm", "0.35", "0.10 mm drags"), Pad.DISHED)),
                Inspect.class);
        assertThat(dished.why()).contains("dished", "measure again");
        assertThat(dished.findThen()).isEqualTo(Optional.empty());
    }

    @Test
    void aLearntShiftIsMadeUpFor() {
        // 0.05 more on locking, give or take 0.01: 0.30 drags and 0.34 to 0.36 stands; 0.20 more is arcsin 0.4 =
        // 23.578...
        AdjustmentTask task = task(HALF, "0.33..0.36 mm", leaves("0.30", "0.40"), read("0.10 mm drags"))
                .withEccentricAngle(Ratio.ZERO)
                .afterTries(new LockShift(0.05, 0.005, 3), 1);
        SetToLeaf set = set(task);
        assertThat(set.leaf()).isEqualTo(LeafStack.parse("0.30 mm"));
        assertThat(set.resulting()).isEqualTo(interval("[0.34, 0.36] mm"));
        assertThat(set.eccentric().get(0).degrees()).isEqualTo(degrees("23.5", "23.6"));
        MeasureFurther none = as(
                Adjuster.withDefaults()
                        .advise(task(HALF, "0.33..0.36 mm", leaves("0.35"), read("0.10 mm drags"))
                                .afterTries(new LockShift(0.05, 0.005, 3), 1)),
                MeasureFurther.class);
        assertThat(none.why()).contains("no owned leaf is likely to end in the window", "what the nut adds");
    }
}
