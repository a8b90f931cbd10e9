package dev.lash.adjust;

import static dev.lash.testing.Readings.leaves;
import static dev.lash.testing.Readings.mm;
import static dev.lash.testing.Readings.read;
import static dev.lash.testing.Tasks.task;
import static dev.lash.testing.Tasks.withPad;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.Adjustment.Inspect;
import dev.lash.adjust.Adjustment.Leave;
import dev.lash.adjust.Adjustment.MeasureFurther;
import dev.lash.adjust.Adjustment.Turn;
import dev.lash.adjust.Adjustment.TurnFrom;
import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.LeafStack;
import dev.lash.measure.Ratio;
import dev.lash.plan.NextLeaf;
import java.math.BigDecimal;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A wedge screw that moves the clearance by 0.06 mm in a whole turn, and stands in whole turns only. */
class WedgeWorkTest {
    private static final ValveTrain WEDGE = new ValveTrain.Wedge(mm("0.06"));
    private static final GaugeSet GAUGES = leaves("0.02", "0.08", "0.14", "0.40");

    private static AdjustmentTask reading(String windowText, String... trials) {
        return task(WEDGE, windowText, GAUGES, read(trials));
    }

    private static Turn turn(AdjustmentTask task, String aim) {
        Adjustment advice = Adjuster.withDefaults().withAim(Ratio.parse(aim)).advise(task);
        assertThat(advice).isInstanceOf(Turn.class);
        return (Turn) advice;
    }

    private static TurnRange turns(int from, int to) {
        return new TurnRange(BigDecimal.valueOf(360L * from), BigDecimal.valueOf(360L * to));
    }

    /** Certain: at least (0.20 - lower end) / 0.06 turns, rounded up; at most (0.30 - upper end) / 0.06, rounded down. */
    @ParameterizedTest
    @CsvSource({
        // reading, aim, turns, certain from, certain to
        // 1.67 to 3; aim 0.275 is 2.75 turns from the middle
        "0.10 mm goes / 0.12 mm refuses, 0.75, 3,  2,  3",
        // aim 0.20 is 1.5 turns from the middle: 2 is the looser of the two beside it
        "0.10 mm goes / 0.12 mm refuses, 0,    2,  2,  3",
        // 2.33 to 3; aim 0.30 is 3.5 turns from the middle, but 4 are not certain
        "0.06 mm goes / 0.12 mm refuses, 1,    3,  3,  3",
        // -3.33 to -2; aim 0.275 is -2.25 turns from the middle
        "0.40 mm goes / 0.42 mm refuses, 0.75, -2, -3, -2",
        "0.40 mm goes / 0.42 mm refuses, 0,    -3, -3, -2",
        // two and three turns leave 0.22 and 0.28, as near to 0.25: the looser
        "0.10 mm drags / 0.10 mm drags,  0.5,  3,  2,  3",
        // one turn leaves 0.20, the limit itself
        "0.14 mm drags / 0.14 mm drags,  0,    1,  1,  2",
    })
    void wholeTurnsOnlyTheCertainOneNearestTheAim(String trials, String aim, int turns, int from, int to) {
        Turn turn = turn(reading("0.20..0.30 mm", trials.split(" / ", -1)), aim);
        assertThat(turn.from()).isEqualTo(TurnFrom.PRESENT_SETTING);
        assertThat(turn.degrees()).isEqualTo(turns(turns, turns));
        assertThat(turn.findCertain()).contains(turns(from, to));
        assertThat(turn.findFlats()).isEmpty();
        assertThat(turn.first()).isEmpty();
        assertThat(turn.direction()).contains("whole turns only", "positive: the clearance grows");
    }

    @Test
    void theWindowToSetToCounts() {
        // Set to 0.26 to 0.30: 2.67 to 3 turns.
        AdjustmentTask task =
                task(WEDGE, "0.20..0.30 mm", "0.26..0.30 mm", GAUGES, read("0.10 mm goes", "0.12 mm refuses"));
        assertThat(turn(task, "0").findCertain()).contains(turns(3, 3));
        assertThat(turn(task, "0").degrees()).isEqualTo(turns(3, 3));
    }

    @Test
    void aReadingTooWideForAnyTurnIsNarrowed() {
        // (0.02, 0.14) needs at least 3 and at most 2 turns; above 0.08 two are certain.
        Adjustment advice = Adjuster.withDefaults().advise(reading("0.20..0.30 mm", "0.02 mm goes", "0.14 mm refuses"));
        assertThat(advice).isInstanceOfSatisfying(MeasureFurther.class, further -> {
            assertThat(further.findLeaf()).contains(new NextLeaf(LeafStack.parse("0.08 mm"), true));
            assertThat(further.why()).contains("whole turns", "narrow it");
        });
        assertThat(Adjuster.withDefaults()
                        .advise(task(
                                WEDGE,
                                "0.20..0.30 mm",
                                leaves("0.02", "0.14"),
                                read("0.02 mm goes", "0.14 mm refuses"))))
                .isInstanceOfSatisfying(
                        MeasureFurther.class,
                        further -> assertThat(further.findLeaf())
                                .hasValueSatisfying(
                                        leaf -> assertThat(leaf.owned()).isFalse()));
    }

    @Test
    void aStepTooCoarseForTheWindowIsSaid() {
        // From 0.13: 0.19 and 0.25, on either side of 0.20 to 0.24.
        assertThat(Adjuster.withDefaults().advise(reading("0.20..0.24 mm", "0.13 mm drags")))
                .isInstanceOfSatisfying(Inspect.class, inspect -> {
                    assertThat(inspect.why()).contains("step of 0.06 mm", "coarse", "0.20..0.24 mm", "manual");
                    assertThat(inspect.findThen()).isEmpty();
                });
    }

    @Test
    void withoutBothEndsNoTurnIsCertain() {
        assertThat(Adjuster.withDefaults().advise(reading("0.20..0.30 mm", "0.40 mm goes")))
                .isInstanceOfSatisfying(MeasureFurther.class, further -> {
                    assertThat(further.findLeaf()).isEmpty();
                    assertThat(further.why()).contains("missing end");
                });
        assertThat(Adjuster.withDefaults().advise(reading("0.20..0.30 mm", "0.02 mm refuses")))
                .isInstanceOfSatisfying(Inspect.class, inspect -> {
                    assertThat(inspect.why()).contains("may have no clearance");
                    assertThat(inspect.findThen())
                            .hasValueSatisfying(then -> assertThat(then).isInstanceOf(MeasureFurther.class));
                });
    }

    @Test
    void withinIsLeftAndFarTooLooseIsLookedAt() {
        assertThat(Adjuster.withDefaults().advise(reading("0.20..0.30 mm", "0.22 mm drags")))
                .isEqualTo(new Leave());
        assertThat(Adjuster.withDefaults().advise(reading("0.20..0.30 mm", "0.60 mm goes", "0.62 mm refuses")))
                .isInstanceOfSatisfying(Inspect.class, inspect -> {
                    assertThat(inspect.why()).contains("far too loose", "tappet, cam and wedge screw");
                    // -6.67 to -5.33
                    assertThat(inspect.findThen())
                            .hasValueSatisfying(then ->
                                    assertThat(((Turn) then).findCertain()).contains(turns(-6, -6)));
                });
    }

    @Test
    void aDishedReadingIsNotUsed() {
        assertThat(Adjuster.withDefaults().advise(withPad(reading("0.20..0.30 mm", "0.10 mm drags"), Pad.DISHED)))
                .isInstanceOfSatisfying(Inspect.class, inspect -> {
                    assertThat(inspect.why()).contains("dished", "measure again");
                    assertThat(inspect.findThen()).isEmpty();
                });
    }
}
