package dev.lash.adjust;

import static dev.lash.testing.Readings.guarded;
import static dev.lash.testing.Readings.interval;
import static dev.lash.testing.Readings.leaves;
import static dev.lash.testing.Readings.read;
import static dev.lash.testing.Tasks.task;
import static dev.lash.testing.Tasks.withPad;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.Adjustment.Inspect;
import dev.lash.adjust.Adjustment.Leave;
import dev.lash.adjust.Adjustment.Machine;
import dev.lash.adjust.Adjustment.MeasureFurther;
import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.LeafStack;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import dev.lash.plan.NextLeaf;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A side valve without an adjuster: the tip is ground to loosen, seat or face are cut to tighten. */
class MachineWorkTest {
    private static final ValveTrain FIXED = new ValveTrain.Fixed();
    private static final GaugeSet GAUGES = leaves("0.05", "0.10", "0.30");

    private static Machine machine(AdjustmentTask task) {
        return as(Adjuster.withDefaults().advise(task), Machine.class);
    }

    private static <T extends Adjustment> T as(Adjustment adjustment, Class<T> kind) {
        assertThat(adjustment).isInstanceOf(kind);
        return kind.cast(adjustment);
    }

    /** From the window's ends: lower end less lower end, upper end less upper end. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            0.10 mm goes / 0.12 mm refuses | [0.10, 0.13] mm
            0.10 mm drags / 0.10 mm drags  | [0.10, 0.15] mm
            # as wide as the window: one figure
            0.10 mm goes / 0.15 mm refuses | [0.10, 0.10] mm
            # loose: negative, to be cut
            0.30 mm goes / 0.32 mm refuses | [-0.10, -0.07] mm
            0.30 mm drags / 0.30 mm drags  | [-0.10, -0.05] mm
            """)
    void howMuch(String trials, String amount) {
        assertThat(machine(task(FIXED, "0.20..0.25 mm", GAUGES, read(trials.split(" / ", -1))))
                        .findAmount())
                .contains(interval(amount));
    }

    /**
     * A reading wider than the window of 0.05: at least 0.20 - 0.10 and at most 0.25 - 0.17 is no amount, nor are the two swapped.
     * What is cut cannot be put back, so it is measured first.
     */
    @Test
    void aReadingTooWideForAnyAmountIsNarrowedFirst() {
        GaugeSet finer = leaves("0.05", "0.10", "0.12", "0.15", "0.17");
        MeasureFurther further = as(
                Adjuster.withDefaults()
                        .advise(task(FIXED, "0.20..0.25 mm", finer, read("0.10 mm goes", "0.17 mm refuses"))),
                MeasureFurther.class);
        // (0.10, 0.12) or (0.12, 0.17), each no wider than the window
        assertThat(further.findLeaf()).contains(new NextLeaf(LeafStack.parse("0.12 mm"), true));
        assertThat(further.why()).contains("no amount is certain", "cannot be put back", "offer 0.12 mm");
        MeasureFurther borrow = as(
                Adjuster.withDefaults()
                        .advise(task(FIXED, "0.20..0.25 mm", GAUGES, read("0.10 mm goes", "0.17 mm refuses"))),
                MeasureFurther.class);
        assertThat(borrow.findLeaf().filter(next -> !next.owned())).isPresent();
        assertThat(borrow.why()).contains("borrow ");
    }

    /** (0.20, 0.50) against 0.10 to 0.15: to cut by 0.10 to 0.35 would be a guess of 0.25. */
    @Test
    void aLooseReadingIsNarrowedBeforeSeatOrFaceAreCut() {
        GaugeSet few = leaves("0.10", "0.20", "0.30", "0.50");
        Inspect far = as(
                Adjuster.withDefaults()
                        .withFarTooLoose(Ratio.ONE)
                        .advise(task(FIXED, "0.10..0.15 mm", few, read("0.20 mm goes", "0.50 mm refuses"))),
                Inspect.class);
        assertThat(as(far.findThen().orElseThrow(), MeasureFurther.class).why()).contains("no amount is certain");
        MeasureFurther open = as(
                Adjuster.withDefaults().advise(task(FIXED, "0.10..0.15 mm", few, read("0.20 mm goes"))),
                MeasureFurther.class);
        assertThat(open.findLeaf()).contains(new NextLeaf(LeafStack.parse("0.30 mm"), true));
        assertThat(open.why()).contains("no upper end", "cannot be put back");
    }

    /** A window of one figure, and no leaf that could drag there: what is not known is said. */
    @Test
    void whereNoLeafMakesAnAmountCertainThatIsSaid() {
        Machine tight = machine(task(
                FIXED,
                "0.20..0.20 mm",
                leaves("0.05"),
                read(guarded("0.01", "0.01"), "0.10 mm goes", "0.12 mm refuses")));
        assertThat(tight.findAmount()).isEmpty();
        assertThat(tight.work()).contains("no amount is certain", "no leaf would make one so", "little at a time");
        Machine loose = machine(task(
                FIXED,
                "0.20..0.20 mm",
                leaves("0.05"),
                read(guarded("0.01", "0.01"), "0.30 mm goes", "0.32 mm refuses")));
        assertThat(loose.findAmount()).isEmpty();
        assertThat(loose.work()).contains("no amount is certain").doesNotContain("by 0");
    }

    @Test
    void seatFirstThenTip() {
        Machine tight = machine(task(FIXED, "0.20..0.25 mm", GAUGES, read("0.10 mm goes", "0.12 mm refuses")));
        assertThat(tight.work())
                .containsSubsequence("seat and face first", "tightens", "grind the stem tip", "little at a time")
                .contains("grows by 0.10 mm to 0.13 mm");
        Machine loose = machine(task(FIXED, "0.20..0.25 mm", GAUGES, read("0.30 mm goes", "0.32 mm refuses")));
        assertThat(loose.work())
                .containsSubsequence("cut seat or face", "or renew valve or tappet", "grind the stem tip")
                .contains("shrinks by 0.07 mm to 0.10 mm")
                .doesNotContain("-");
    }

    @Test
    void theWindowToSetToCounts() {
        assertThat(machine(task(
                                FIXED,
                                "0.20..0.25 mm",
                                "0.22..0.25 mm",
                                GAUGES,
                                read("0.10 mm goes", "0.12 mm refuses")))
                        .findAmount())
                .contains(interval("[0.12, 0.13] mm"));
    }

    @Test
    void wordsAreInTheUnitOfTheLeaves() {
        GaugeSet inch = GaugeSet.of(LengthUnit.INCH, "0.004", "0.006");
        Machine machine = machine(task(FIXED, "0.008..0.010 in", inch, read("0.004 in goes", "0.006 in refuses")));
        assertThat(machine.work()).contains("0.004 in").doesNotContain("mm");
    }

    @Test
    void withoutBothEndsTheAmountIsNotKnown() {
        Machine loose = machine(task(FIXED, "0.20..0.25 mm", GAUGES, read("0.30 mm goes")));
        assertThat(loose.findAmount()).isEmpty();
        assertThat(loose.work()).contains("shrinks, or renew");
        Inspect none = as(
                Adjuster.withDefaults().advise(task(FIXED, "0.20..0.25 mm", GAUGES, read("0.05 mm refuses"))),
                Inspect.class);
        assertThat(none.why()).contains("may have no clearance");
        Machine then = as(none.findThen().orElseThrow(), Machine.class);
        assertThat(then.findAmount()).isEmpty();
        assertThat(then.work()).contains("grind the stem tip; how much cannot be told", "take off little");
    }

    @Test
    void withinIsLeftAndDoubtIsLookedAtFirst() {
        Adjuster adjuster = Adjuster.withDefaults();
        assertThat(adjuster.advise(task(FIXED, "0.20..0.25 mm", GAUGES, read("0.22 mm drags"))))
                .isEqualTo(new Leave());
        Inspect far = as(adjuster.advise(task(FIXED, "0.20..0.25 mm", GAUGES, read("0.50 mm drags"))), Inspect.class);
        assertThat(far.why()).contains("far too loose", "before any machine work");
        assertThat(as(far.findThen().orElseThrow(), Machine.class).findAmount())
                .contains(interval("[-0.30, -0.25] mm"));
        Inspect dished = as(
                adjuster.advise(withPad(task(FIXED, "0.20..0.25 mm", GAUGES, read("0.10 mm drags")), Pad.DISHED)),
                Inspect.class);
        assertThat(dished.findThen())
                .as("nothing is ground on a reading that is not used")
                .isEmpty();
    }
}
