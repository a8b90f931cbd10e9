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
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.LeafStack;
import dev.lash.measure.Length;
import dev.lash.measure.Ratio;
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

    /** 0.10 is read, 0.35 wanted: half of m e more. Both turns are exact and widened by a tenth. */
    @ParameterizedTest
    @CsvSource({
        // sin a = sin a0 - 1/2: from 0 to -30 or to -150
        "0,    29.9,  30.1,  149.9,  150.1",
        // from 90 to 30 or to 150
        "90,   59.9,  60.1,  -60.1,  -59.9",
        // from 30 to 0 or to 180
        "30,   29.9,  30.1,  -150.1, -149.9",
        // from -30 to -90 both
        "-30,  59.9,  60.1,  59.9,   60.1",
        // from 180 to -150 or to -30: here a turn that makes the clearance grow is negative
        "180,  -30.1, -29.9, -150.1, -149.9",
        // from 150 to 180 or to 0
        "150,  -30.1, -29.9, 149.9,  150.1",
        // whole turns of the shaft say nothing
        "360,  29.9,  30.1,  149.9,  150.1",
        "-330, 29.9,  30.1,  -150.1, -149.9",
        "36000000000000000180, -30.1, -29.9, -150.1, -149.9",
    })
    void bothTurnsToTheLeaf(String angle, String from, String to, String otherFrom, String otherTo) {
        SetToLeaf set = set(at(HALF, angle, "0.30..0.40 mm", "0.35", "0.10 mm drags"));
        assertThat(set.leaf()).isEqualTo(LeafStack.parse("0.35 mm"));
        assertThat(set.resulting()).isEqualTo(interval("[0.35, 0.35] mm"));
        assertThat(set.findTurn()).contains(degrees(from, to));
        assertThat(set.findOtherTurn()).contains(degrees(otherFrom, otherTo));
        assertThat(set.first()).isEmpty();
    }

    /** A fulcrum in the middle: 1 + ratio. 0.2 mm times 2.5 is half a millimetre again. */
    @Test
    void theMultiplierCounts() {
        ValveTrain centre = new ValveTrain.Eccentric(mm("0.2"), Ratio.parse("2.5"));
        AdjustmentTask task = at(centre, "0", "0.30..0.40 mm", "0.35", "0.10 mm drags");
        assertThat(set(task).findTurn()).contains(degrees("29.9", "30.1"));
        ValveTrain third = new ValveTrain.Eccentric(mm("0.75"), Ratio.of(2, 3));
        assertThat(set(at(third, "0", "0.30..0.40 mm", "0.35", "0.10 mm drags")).findTurn())
                .contains(degrees("29.9", "30.1"));
    }

    @Test
    void aLooseReadingIsTurnedTheOtherWay() {
        // 0.60 to 0.35: sin a = 0 + 1/2.
        SetToLeaf set = set(at(HALF, "0", "0.30..0.40 mm", "0.35", "0.60 mm drags"));
        assertThat(set.findTurn()).contains(degrees("-30.1", "-29.9"));
        assertThat(set.findOtherTurn()).contains(degrees("-150.1", "-149.9"));
    }

    @Test
    void aWideReadingGivesARange() {
        // (0.10, 0.12): 0.25 and 0.23 more, arcsin of 0.5 and 0.46 is 30 and 27.387...
        SetToLeaf set = set(at(HALF, "0", "0.30..0.40 mm", "0.35", "0.10 mm goes", "0.12 mm refuses"));
        assertThat(set.findTurn()).contains(degrees("27.3", "30.1"));
        assertThat(set.findOtherTurn()).contains(degrees("149.9", "152.7"));
    }

    @Test
    void underTheGuardedRuleTheDragHasAWidth() {
        // Drag 0.34 to 0.36 from a reading of [0.09, 0.11]: 0.23 to 0.27 more; arcsin 0.46 = 27.387, 0.54 = 32.684.
        AdjustmentTask task = task(
                        HALF, "0.30..0.40 mm", leaves("0.35"), read(guarded("0.005", "0.005"), "0.10 mm drags"))
                .withEccentricAngle(Ratio.ZERO);
        assertThat(set(task).resulting()).isEqualTo(interval("[0.34, 0.36] mm"));
        assertThat(set(task).findTurn()).contains(degrees("27.3", "32.7"));
    }

    /** A range that goes past half a turn stays in one piece: it is not everything but what is meant. */
    @Test
    void aRangeAcrossHalfATurnStaysInOnePiece() {
        // From 170 degrees, 0.13 to 0.22 more: arcsin(sin 170 - 0.26) = -4.953..., arcsin(sin 170 - 0.44) = -15.447...
        SetToLeaf set = set(at(HALF, "170", "0.30..0.34 mm", "0.32", "0.10 mm goes", "0.19 mm refuses"));
        assertThat(set.findTurn()).contains(degrees("-25.5", "-14.9"));
        // to 175 and 185 on, which is as well 185 and 175 back
        assertThat(set.findOtherTurn()).contains(degrees("-185.1", "-174.5"));
    }

    @Test
    void whereTheEccentricStandsMayNotBeKnown() {
        AdjustmentTask task =
                at(HALF, "0", "0.30..0.40 mm", "0.35", "0.10 mm drags").withEccentricAngle(null);
        assertThat(set(task).leaf()).isEqualTo(LeafStack.parse("0.35 mm"));
        assertThat(set(task).findTurn()).isEmpty();
        assertThat(set(task).findOtherTurn()).isEmpty();
        SetToLeaf open = set(at(HALF, "0", "0.30..0.40 mm", "0.35", "0.50 mm goes"));
        assertThat(open.findTurn()).as("no turn from an unknown upper end").isEmpty();
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
        assertThat(set.findTurn()).isEmpty();
        assertThat(set.findOtherTurn()).isEmpty();
    }

    @Test
    void aLeafThatIsReachedComesBeforeOneNearerToTheAim() {
        // Aim 0.2625. 0.28 is 0.18 away, out of the reach of 0.10; 0.16 is 0.06 away: arcsin 0.6 = 36.869...
        ValveTrain small = new ValveTrain.Eccentric(mm("0.1"), Ratio.ONE);
        AdjustmentTask task = task(small, "0.15..0.30 mm", leaves("0.16", "0.28"), read("0.10 mm drags"));
        SetToLeaf set = set(task.withEccentricAngle(Ratio.ZERO));
        assertThat(set.leaf()).isEqualTo(LeafStack.parse("0.16 mm"));
        assertThat(set.findTurn()).contains(degrees("36.8", "36.9"));
        assertThat(set(task).leaf()).as("angle not known").isEqualTo(LeafStack.parse("0.28 mm"));
    }

    @Test
    void aFullStrokeIsReachedExactly() {
        // From 90 to -90: all of 2 m e.
        SetToLeaf set = set(at(HALF, "90", "1.10..1.10 mm", "1.10", "0.10 mm drags"));
        assertThat(set.findTurn()).contains(degrees("179.9", "180.1"));
        for (String angle : new String[] {"1", "37", "91", "203", "359"}) {
            // as far as it goes to the nanometre, from any angle
            double most = 500_000 * (1 + Math.sin(Math.toRadians(Integer.parseInt(angle))));
            Length leaf = mm("0.10").plus(Length.ofNanometres((long) most));
            String text = leaf.millimetres().toPlainString();
            assertThat(set(at(HALF, angle, text + ".." + text + " mm", text, "0.10 mm drags"))
                            .findTurn())
                    .isPresent();
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
        assertThat(set.findTurn()).isEmpty();
    }

    @Test
    void aMultiplierOfManyDigitsIsReckonedWith() {
        // 1 + 10^-400: neither side of the fraction is a number that a double can hold
        Ratio many = Ratio.parse("1" + "0".repeat(399) + "1/1" + "0".repeat(400));
        AdjustmentTask task =
                at(new ValveTrain.Eccentric(mm("0.5"), many), "0", "0.30..0.40 mm", "0.35", "0.10 mm drags");
        assertThat(set(task).findTurn()).contains(degrees("29.9", "30.1"));
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
        assertThat(as(far.findThen().orElseThrow(), SetToLeaf.class).findTurn()).isPresent();
        Inspect dished = as(
                adjuster.advise(withPad(at(HALF, "0", "0.30..0.40 mm", "0.35", "0.10 mm drags"), Pad.DISHED)),
                Inspect.class);
        assertThat(dished.why()).contains("dished", "measure again");
        assertThat(dished.findThen()).isEqualTo(Optional.empty());
    }

    @Test
    void aLearntShiftIsMadeUpFor() {
        // 0.05 more on locking: 0.30 drags and 0.35 stands; 0.20 more is arcsin 0.4 = 23.578...
        AdjustmentTask task = task(HALF, "0.33..0.36 mm", leaves("0.30", "0.40"), read("0.10 mm drags"))
                .withEccentricAngle(Ratio.ZERO)
                .afterTries(new LockShift(0.05, 0.01, 3), 1);
        SetToLeaf set = set(task);
        assertThat(set.leaf()).isEqualTo(LeafStack.parse("0.30 mm"));
        assertThat(set.resulting()).isEqualTo(interval("[0.35, 0.35] mm"));
        assertThat(set.findTurn()).contains(degrees("23.5", "23.6"));
    }
}
