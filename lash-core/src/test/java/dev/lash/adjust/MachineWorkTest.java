package dev.lash.adjust;

import static dev.lash.testing.Readings.interval;
import static dev.lash.testing.Readings.leaves;
import static dev.lash.testing.Readings.read;
import static dev.lash.testing.Tasks.task;
import static dev.lash.testing.Tasks.withPad;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.Adjustment.Inspect;
import dev.lash.adjust.Adjustment.Leave;
import dev.lash.adjust.Adjustment.Machine;
import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.GaugeSet;
import dev.lash.measure.LengthUnit;
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
            # wider: what may help, from 0.25 - 0.17 to 0.20 - 0.10
            0.10 mm goes / 0.17 mm refuses | [0.08, 0.10] mm
            # loose: negative, to be cut
            0.30 mm goes / 0.32 mm refuses | [-0.10, -0.07] mm
            0.30 mm drags / 0.30 mm drags  | [-0.10, -0.05] mm
            0.26 mm goes / 0.36 mm refuses | [-0.11, -0.06] mm
            """)
    void howMuch(String trials, String amount) {
        assertThat(machine(task(FIXED, "0.20..0.25 mm", GAUGES, read(trials.split(" / ", -1))))
                        .findAmount())
                .contains(interval(amount));
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
        assertThat(then.work()).contains("grind the stem tip; take off little");
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
