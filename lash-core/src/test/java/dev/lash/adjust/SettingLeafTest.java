package dev.lash.adjust;

import static dev.lash.testing.Readings.guarded;
import static dev.lash.testing.Readings.interval;
import static dev.lash.testing.Readings.leaves;
import static dev.lash.testing.Readings.mm;
import static dev.lash.testing.Readings.read;
import static dev.lash.testing.Tasks.screw;
import static dev.lash.testing.Tasks.task;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.SettingLeaf.Choice;
import dev.lash.engine.ScrewHead;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.ReadingRule;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Which leaf to set with; the aim is 0.1875 in a window of 0.15 to 0.20 throughout. */
class SettingLeafTest {
    private static final ValveTrain SCREW = screw("1 mm", ScrewHead.NOT_STATED);
    private static final Ratio AIM = Ratio.nanometresOf(mm("0.1875"));

    private static AdjustmentTask tight(ReadingRule rule, GaugeSet gauges) {
        return task(SCREW, "0.15..0.20 mm", gauges, read(rule, "0.10 mm drags"));
    }

    private static Optional<Choice> find(AdjustmentTask task) {
        return new SettingLeaf(task, AIM, false).find();
    }

    private static Optional<LeafStack> leaf(AdjustmentTask task) {
        return find(task).map(Choice::leaf);
    }

    @ParameterizedTest
    @CsvSource({
        // both ends belong to the window
        "0.20 0.25, 0.20 mm",
        "0.10 0.15, 0.15 mm",
        // the nearest to the aim, the thicker of two as near: 0.0175 either way
        "0.15 0.18 0.20, 0.18 mm",
        "0.17 0.20, 0.20 mm",
        "0.18 0.195, 0.195 mm",
    })
    void theNearestToTheAimInTheWindow(String owned, String chosen) {
        assertThat(leaf(tight(ReadingRule.simple(), leaves(owned.split(" ", -1)))))
                .contains(LeafStack.parse(chosen));
    }

    /** Where the aim is the place that lasts longest, a leaf on the limit comes last: what is set with it may leave at once. */
    @ParameterizedTest
    @CsvSource({
        "0.20 0.25, 0.20 mm",
        "0.15 0.18 0.20, 0.18 mm",
        "0.17 0.20, 0.17 mm",
        "0.15 0.20, 0.20 mm",
        // 0.0115 of 0.0375 down, 0.0075 of 0.0125 up
        "0.176 0.195, 0.176 mm",
        "0.165 0.19, 0.19 mm",
    })
    void theOneThatLastsLongest(String owned, String chosen) {
        AdjustmentTask task = tight(ReadingRule.simple(), leaves(owned.split(" ", -1)));

        assertThat(new SettingLeaf(task, AIM, true).find().map(Choice::leaf)).contains(LeafStack.parse(chosen));
    }

    @Test
    void anAimOnALimitIsMetOnlyThere() {
        AdjustmentTask task = tight(ReadingRule.simple(), leaves("0.16", "0.19", "0.20"));

        assertThat(new SettingLeaf(task, Ratio.nanometresOf(mm("0.20")), true)
                        .find()
                        .map(Choice::leaf))
                .contains(LeafStack.parse("0.20 mm"));
        assertThat(new SettingLeaf(task, Ratio.nanometresOf(mm("0.15")), true)
                        .find()
                        .map(Choice::leaf))
                .contains(LeafStack.parse("0.16 mm"));
    }

    @Test
    void noneInTheWindowIsNone() {
        assertThat(leaf(tight(ReadingRule.simple(), leaves("0.10", "0.14", "0.21"))))
                .isEmpty();
    }

    @Test
    void stacksOnlyWhereNoSingleLeafServes() {
        GaugeSet both = leaves("0.05", "0.14", "0.15").withStacksOf(2);
        assertThat(leaf(tight(ReadingRule.simple(), both))).contains(LeafStack.parse("0.15 mm"));
        GaugeSet stacks = leaves("0.05", "0.13", "0.14").withStacksOf(2);
        assertThat(leaf(tight(ReadingRule.simple(), stacks))).contains(LeafStack.parse("0.05 mm + 0.14 mm"));
        assertThat(leaf(tight(ReadingRule.simple(), stacks.withStacksOf(1)))).isEmpty();
    }

    @Test
    void theDragIsThatOfTheRule() {
        // 0.19 may drag from 0.18 to 0.20; 0.195 up to 0.205, outside.
        Choice choice = find(tight(guarded("0.006", "0.004"), leaves("0.17", "0.19", "0.195")))
                .orElseThrow();
        assertThat(choice.leaf()).isEqualTo(LeafStack.parse("0.19 mm"));
        assertThat(choice.drag()).isEqualTo(interval("[0.18, 0.20] mm"));
        assertThat(choice.resulting()).isEqualTo(choice.drag());
    }

    /** With a shift the leaf is chosen for what it leaves behind, and it is that which must lie in the window. */
    @ParameterizedTest
    @CsvSource({
        // mean shift, leaf, what stands after locking
        "0.01,  0.18 mm, 0.19",
        "0.03,  0.16 mm, 0.19",
        "-0.03, 0.21 mm, 0.18",
        "0.07,  0.12 mm, 0.19",
    })
    void theShiftOfTheNutIsMadeUpFor(double shift, String leaf, String resulting) {
        AdjustmentTask task = tight(
                        ReadingRule.simple(), leaves("0.12", "0.15", "0.16", "0.17", "0.18", "0.19", "0.20", "0.21"))
                .afterTries(new LockShift(shift, 0.005, 3), 1);
        Choice choice = find(task).orElseThrow();
        assertThat(choice.leaf()).isEqualTo(LeafStack.parse(leaf));
        assertThat(choice.drag())
                .isEqualTo(LengthInterval.point(LeafStack.parse(leaf).thickness()));
        Length twice = mm("0.01");
        assertThat(choice.resulting())
                .isEqualTo(LengthInterval.closed(
                        mm(resulting).minus(twice), mm(resulting).plus(twice)));
    }

    /** Nearest to the aim counts only among those for which all that is likely of the shift stays in the window. */
    @ParameterizedTest
    @CsvSource({
        // 0.155 would stand at 0.185 +- 0.02 and leave the window at 0.205; 0.15 at 0.18 +- 0.02 just does not
        "0.150 0.155, 0.010, 0.150 mm",
        // no leaf is as safe: 0.16 at 0.19 +- 0.01 for one standard error
        "0.13 0.16 0.165, 0.010, 0.16 mm",
        "0.12 0.13 0.165, 0.010, 0.13 mm",
        // on an edge the shift decides, not the leaf: none
        "0.12 0.17, 0.010, ''",
        "0.16, 0.011, ''",
    })
    void whatIsLikelyOfTheShiftStaysInTheWindow(String owned, double standardError, String leaf) {
        AdjustmentTask task = tight(ReadingRule.simple(), leaves(owned.split(" ", -1)))
                .afterTries(new LockShift(0.03, standardError, 1), 1);
        assertThat(leaf(task)).isEqualTo(leaf.isEmpty() ? Optional.empty() : Optional.of(LeafStack.parse(leaf)));
    }

    @Test
    void aShiftThatMayAsWellBeNoneIsNotMadeUpFor() {
        AdjustmentTask task =
                tight(ReadingRule.simple(), leaves("0.16", "0.19")).afterTries(new LockShift(0.01, 0.01, 1), 1);
        assertThat(task.findLockShift()).isEmpty();
        assertThat(find(task).orElseThrow().resulting()).isEqualTo(interval("[0.19, 0.19] mm"));
        AdjustmentTask told =
                tight(ReadingRule.simple(), leaves("0.16", "0.19")).afterTries(new LockShift(-0.011, 0.01, 1), 1);
        assertThat(told.findLockShift()).isPresent();
    }

    @Test
    void aShiftThatRestsOnNothingIsNotCounted() {
        AdjustmentTask task =
                tight(ReadingRule.simple(), leaves("0.16", "0.19")).afterTries(new LockShift(0.03, 0.02, 0), 1);
        assertThat(task.findLockShift()).isEmpty();
        assertThat(leaf(task)).contains(LeafStack.parse("0.19 mm"));
    }

    @Test
    void onlyLeavesThatSuit() {
        AdjustmentTask task = tight(ReadingRule.simple(), leaves("0.16", "0.19"));
        assertThat(new SettingLeaf(task, AIM, false)
                        .find(c -> !c.leaf().equals(LeafStack.parse("0.19 mm")))
                        .map(Choice::leaf))
                .contains(LeafStack.parse("0.16 mm"));
        assertThat(new SettingLeaf(task, AIM, false).find(c -> false)).isEmpty();
    }
}
