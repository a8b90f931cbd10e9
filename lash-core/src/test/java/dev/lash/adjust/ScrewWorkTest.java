package dev.lash.adjust;

import static dev.lash.testing.Readings.interval;
import static dev.lash.testing.Readings.leaves;
import static dev.lash.testing.Readings.mm;
import static dev.lash.testing.Readings.read;
import static dev.lash.testing.Tasks.screw;
import static dev.lash.testing.Tasks.task;
import static dev.lash.testing.Tasks.withPad;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.Adjustment.Inspect;
import dev.lash.adjust.Adjustment.Leave;
import dev.lash.adjust.Adjustment.MeasureFurther;
import dev.lash.adjust.Adjustment.SetToLeaf;
import dev.lash.adjust.Adjustment.Turn;
import dev.lash.adjust.Adjustment.TurnFrom;
import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.ValveTrain.ScrewPlace;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.LeafStack;
import dev.lash.measure.Ratio;
import dev.lash.testing.Contracts;
import java.math.BigDecimal;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.EnumSource.Mode;

/** What a screw or nut does where it sits; the screw at the valve tip is in {@link AdjusterTest}. */
class ScrewWorkTest {
    private static final GaugeSet GAUGES = leaves("0.10", "0.12", "0.18", "0.30", "0.32");

    /** A pitch of 1 mm and a ratio of 1.5 where one applies. */
    private static ValveTrain.Screw at(ScrewPlace place) {
        return screw(place, "1 mm", place.needsRatio() ? "1.5" : "1");
    }

    private static TurnRange degrees(String from, String to) {
        return new TurnRange(new BigDecimal(from), new BigDecimal(to));
    }

    private static AdjustmentTask tight(ValveTrain train) {
        return task(train, "0.15..0.20 mm", GAUGES, read("0.10 mm goes", "0.12 mm refuses"));
    }

    private static AdjustmentTask loose(ValveTrain train) {
        return task(train, "0.15..0.20 mm", GAUGES, read("0.30 mm goes", "0.32 mm refuses"));
    }

    private static <T extends Adjustment> T advised(AdjustmentTask task, Class<T> kind) {
        return as(Adjuster.withDefaults().advise(task), kind);
    }

    private static <T extends Adjustment> T as(Adjustment adjustment, Class<T> kind) {
        assertThat(adjustment).isInstanceOf(kind);
        return kind.cast(adjustment);
    }

    // ---- what a turn does

    /** From (0.10, 0.12) to a leaf of 0.18: 0.06 to 0.08 mm, over k x 1 mm a turn. From (0.30, 0.32): 0.14 to 0.12 back. */
    @ParameterizedTest
    @CsvSource({
        // 0.06 and 0.08 of a turn
        "ROCKER_TIP,       21.6, 28.8, -50.4, -43.2",
        "TAPPET,           21.6, 28.8, -50.4, -43.2",
        "FORKED_ROCKER,    21.6, 28.8, -50.4, -43.2",
        "BRIDGE,           21.6, 28.8, -50.4, -43.2",
        // over 1.5: 0.04 and 0.0533 of a turn
        "PUSHROD_END,      14.4, 19.2, -33.6, -28.8",
        "THREADED_PUSHROD, 14.4, 19.2, -33.6, -28.8",
        // over 2.5: 8.64 and 11.52 degrees, outward to tenths
        "FULCRUM_NUT,      8.6,  11.6, -20.2, -17.2",
    })
    void theTurnToTheLeafFollowsTheGain(ScrewPlace place, String from, String to, String backFrom, String backTo) {
        SetToLeaf set = advised(tight(at(place)), SetToLeaf.class);
        assertThat(set.leaf()).isEqualTo(LeafStack.parse("0.18 mm"));
        assertThat(set.resulting()).isEqualTo(interval("[0.18, 0.18] mm"));
        assertThat(set.findTurn()).contains(degrees(from, to));
        assertThat(set.eccentric()).isEmpty();
        assertThat(advised(loose(at(place)), SetToLeaf.class).findTurn()).contains(degrees(backFrom, backTo));
    }

    /** Without a leaf for the window: aim 0.1875 from (0.10, 0.12); certain from 0.15 - 0.10 to 0.20 - 0.12. */
    @ParameterizedTest
    @CsvSource({
        "TAPPET,           24.3, 31.5, 18,   28.8, 0.4,  0.53",
        "PUSHROD_END,      16.2, 21,   12,   19.2, 0.27, 0.35",
        "THREADED_PUSHROD, 16.2, 21,   12,   19.2, 0.27, 0.35",
        "FULCRUM_NUT,      9.7,  12.6, 7.2,  11.5, 0.16, 0.21",
    })
    void theCountedTurnFollowsTheGain(
            ScrewPlace place,
            String from,
            String to,
            String certainFrom,
            String certainTo,
            String flatsFrom,
            String flatsTo) {
        GaugeSet none = leaves("0.10", "0.12");
        Turn turn =
                advised(task(at(place), "0.15..0.20 mm", none, read("0.10 mm goes", "0.12 mm refuses")), Turn.class);
        assertThat(turn.from()).isEqualTo(TurnFrom.PRESENT_SETTING);
        assertThat(turn.degrees()).isEqualTo(degrees(from, to));
        assertThat(turn.findCertain()).contains(degrees(certainFrom, certainTo));
        assertThat(turn.findFlats())
                .contains(new TurnRange.FlatRange(new BigDecimal(flatsFrom), new BigDecimal(flatsTo)));
        assertThat(turn.direction()).isEqualTo(place.growing());
    }

    /** A dished pad: 0.15 to 0.20 mm from no play, whatever was read, in tenths and flats that stay inside. */
    @ParameterizedTest
    @CsvSource({
        "TAPPET,           54,   72,   0.9,  1.2",
        "PUSHROD_END,      36,   48,   0.6,  0.8",
        "FULCRUM_NUT,      21.6, 28.8, 0.36, 0.48",
    })
    void fromNoPlayTheWindowFollowsTheGain(ScrewPlace place, String from, String to, String flatsFrom, String flatsTo) {
        Inspect inspect = advised(withPad(tight(at(place)), Pad.DISHED), Inspect.class);
        Turn turn = as(inspect.findThen().orElseThrow(), Turn.class);
        assertThat(turn.from()).isEqualTo(TurnFrom.NO_PLAY);
        assertThat(turn.degrees()).isEqualTo(degrees(from, to));
        assertThat(turn.findFlats())
                .contains(new TurnRange.FlatRange(new BigDecimal(flatsFrom), new BigDecimal(flatsTo)));
    }

    @Test
    void flatsFromNoPlayStayInsideTheWindow() {
        // 0.16 to 0.17 mm at 1 mm a turn is 57.6 to 61.2 degrees, 0.96 to 1.02 flats exactly; 26 threads an inch:
        // 58.96... to 62.64..., 59 to 62.6 degrees, 0.9833 to 1.0433 flats, so 0.99 to 1.04.
        Turn turn = as(
                advised(
                                withPad(
                                        task(
                                                screw(ScrewPlace.TAPPET, "26 tpi", "1"),
                                                "0.16..0.17 mm",
                                                GAUGES,
                                                read("0.12 mm drags")),
                                        Pad.DISHED),
                                Inspect.class)
                        .findThen()
                        .orElseThrow(),
                Turn.class);
        assertThat(turn.degrees()).isEqualTo(degrees("59", "62.6"));
        assertThat(turn.findFlats()).contains(new TurnRange.FlatRange(new BigDecimal("0.99"), new BigDecimal("1.04")));
    }

    @ParameterizedTest
    @EnumSource(ScrewPlace.class)
    void aTurnSaysWhichWayTheSpannerGoes(ScrewPlace place) {
        GaugeSet none = leaves("0.10", "0.12", "0.30", "0.32");
        Turn in = advised(task(at(place), "0.15..0.20 mm", none, read("0.30 mm goes", "0.32 mm refuses")), Turn.class);
        assertThat(in.direction()).isEqualTo(place.shrinking());
        Turn out = advised(task(at(place), "0.15..0.20 mm", none, read("0.10 mm goes", "0.12 mm refuses")), Turn.class);
        assertThat(out.direction()).isEqualTo(place.growing());
    }

    // ---- the bridge

    @Test
    void aBridgeIsSetBeforeTheRocker() {
        assertThat(advised(tight(at(ScrewPlace.BRIDGE)), SetToLeaf.class).first())
                .contains("bridge", "both valve stems", "then the rocker");
        GaugeSet none = leaves("0.10", "0.12");
        AdjustmentTask counted =
                task(at(ScrewPlace.BRIDGE), "0.15..0.20 mm", none, read("0.10 mm goes", "0.12 mm refuses"));
        assertThat(advised(counted, Turn.class).first()).contains("bridge", "then the rocker");
        Inspect dished = advised(withPad(counted, Pad.DISHED), Inspect.class);
        assertThat(as(dished.findThen().orElseThrow(), Turn.class).first()).contains("bridge");
    }

    @ParameterizedTest
    @EnumSource(value = ScrewPlace.class, mode = Mode.EXCLUDE, names = "BRIDGE")
    void nothingComesBeforeAnyOtherScrew(ScrewPlace place) {
        assertThat(advised(tight(at(place)), SetToLeaf.class).first()).isEmpty();
        Inspect dished = advised(withPad(tight(at(place)), Pad.DISHED), Inspect.class);
        assertThat(as(dished.findThen().orElseThrow(), Turn.class).first()).isEmpty();
    }

    // ---- a stop after some tries

    private static final LockShift NOTHING = LockShift.learn(List.of());

    @ParameterizedTest
    @EnumSource(ScrewPlace.class)
    void afterThreeTriesSomethingIsLookedAt(ScrewPlace place) {
        for (int tries = 0; tries < 3; tries++) {
            assertThat(advised(tight(at(place)).afterTries(NOTHING, tries), SetToLeaf.class)
                            .leaf())
                    .isEqualTo(LeafStack.parse("0.18 mm"));
        }
        for (int tries : new int[] {3, 4, 1000}) {
            Inspect inspect = advised(tight(at(place)).afterTries(NOTHING, tries), Inspect.class);
            assertThat(inspect.why()).contains("adjusted " + tries + " times", "worn pad or tip", "stretched thread");
            assertThat(inspect.findThen()).as("no further try").isEmpty();
        }
    }

    @Test
    void theNumberOfTriesIsASetting() {
        AdjustmentTask once = tight(at(ScrewPlace.TAPPET)).afterTries(NOTHING, 1);
        assertThat(Adjuster.withDefaults().withMostTries(1).advise(once)).isInstanceOf(Inspect.class);
        assertThat(Adjuster.withDefaults().withMostTries(2).advise(once)).isInstanceOf(SetToLeaf.class);
        Adjuster five =
                Adjuster.withDefaults().withMostTries(5).withAim(Ratio.ZERO).withFarTooLoose(Ratio.of(3, 1));
        assertThat(five.advise(tight(at(ScrewPlace.TAPPET)).afterTries(NOTHING, 4)))
                .as("kept by the other settings")
                .isInstanceOf(SetToLeaf.class);
        assertThat(five.advise(tight(at(ScrewPlace.TAPPET)).afterTries(NOTHING, 5)))
                .isInstanceOf(Inspect.class);
        assertThat(Contracts.copied(five).advise(tight(at(ScrewPlace.TAPPET)).afterTries(NOTHING, 5)))
                .isInstanceOf(Inspect.class);
        Contracts.refuses(() -> Adjuster.withDefaults().withMostTries(0), "most tries \"0\"", "1 or more");
    }

    @Test
    void triesDoNotMatterWhereNothingIsAdjusted() {
        ValveTrain train = at(ScrewPlace.TAPPET);
        assertThat(Adjuster.withDefaults()
                        .advise(task(train, "0.15..0.20 mm", GAUGES, read("0.18 mm drags"))
                                .afterTries(NOTHING, 9)))
                .isEqualTo(new Leave());
        assertThat(Adjuster.withDefaults()
                        .advise(task(train, "0.15..0.20 mm", GAUGES, read("0.12 mm goes", "0.30 mm refuses"))
                                .afterTries(NOTHING, 9)))
                .isInstanceOf(MeasureFurther.class);
    }

    // ---- the lock nut

    @Test
    void aLearntShiftIsMadeUpForByTheLeaf() {
        // Aim 0.1875. Without a shift 0.19 is nearest; with 0.03 more on locking 0.16, which then stands at 0.19.
        GaugeSet gauges = leaves("0.10", "0.12", "0.16", "0.19");
        AdjustmentTask task =
                task(at(ScrewPlace.TAPPET), "0.15..0.20 mm", gauges, read("0.10 mm goes", "0.12 mm refuses"));
        LockShift shift = new LockShift(0.03, 0.005, 4);
        SetToLeaf plain = advised(task, SetToLeaf.class);
        assertThat(plain.leaf()).isEqualTo(LeafStack.parse("0.19 mm"));
        assertThat(plain.findLockShift()).isEmpty();
        SetToLeaf set = advised(task.afterTries(shift, 1), SetToLeaf.class);
        assertThat(set.leaf()).isEqualTo(LeafStack.parse("0.16 mm"));
        assertThat(set.resulting()).isEqualTo(interval("[0.18, 0.20] mm"));
        assertThat(set.findLockShift()).contains(shift);
        // The screw turns to the drag, the nut does the rest: 0.04 to 0.06 mm.
        assertThat(set.findTurn()).contains(degrees("14.4", "21.6"));
    }

    /** One recheck: 0.15 was set, 0.175 dragged. 0.13 would then land on the upper end of 0.10 to 0.15, 0.08 on the lower. */
    @Test
    void whereNoLeafIsLikelyToEndInTheWindowATurnIsCounted() {
        GaugeSet gauges = leaves("0.05", "0.08", "0.13", "0.15", "0.175");
        LockShift shift = LockShift.learn(List.of(new LockShift.Sample(mm("0.15"), interval("[0.175, 0.175] mm"))));
        assertThat(shift.estimate()).isEqualTo(mm("0.02"));
        AdjustmentTask task = task(
                        at(ScrewPlace.TAPPET), "0.10..0.15 mm", gauges, read("0.05 mm goes", "0.08 mm refuses"))
                .afterTries(shift, 0);
        Turn turn = advised(task, Turn.class);
        assertThat(turn.from()).isEqualTo(TurnFrom.PRESENT_SETTING);
        // to the aim, 0.1375, less 0.02: 0.0375 to 0.0675 of a turn
        assertThat(turn.degrees()).isEqualTo(degrees("13.5", "24.3"));
        assertThat(turn.findLockShift()).contains(shift);
        assertThat(turn.findCertain()).as("an estimate makes nothing certain").isEmpty();
        AdjustmentTask plain =
                task(at(ScrewPlace.TAPPET), "0.10..0.15 mm", leaves("0.05"), read("0.05 mm goes", "0.08 mm refuses"));
        assertThat(advised(plain, Turn.class).findLockShift()).isEmpty();
        assertThat(advised(plain, Turn.class).findCertain()).isPresent();
    }
}
