package dev.lash.adjust;

import static dev.lash.testing.Readings.guarded;
import static dev.lash.testing.Readings.interval;
import static dev.lash.testing.Readings.leaves;
import static dev.lash.testing.Readings.mm;
import static dev.lash.testing.Readings.mms;
import static dev.lash.testing.Readings.read;
import static dev.lash.testing.Readings.window;
import static dev.lash.testing.Tasks.box;
import static dev.lash.testing.Tasks.screw;
import static dev.lash.testing.Tasks.shims;
import static dev.lash.testing.Tasks.task;
import static dev.lash.testing.Tasks.withPad;
import static dev.lash.testing.Tasks.withShim;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.Adjustment.FitShim;
import dev.lash.adjust.Adjustment.Inspect;
import dev.lash.adjust.Adjustment.Leave;
import dev.lash.adjust.Adjustment.MeasureFurther;
import dev.lash.adjust.Adjustment.NotApplicable;
import dev.lash.adjust.Adjustment.SetToLeaf;
import dev.lash.adjust.Adjustment.Turn;
import dev.lash.adjust.Adjustment.TurnFrom;
import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.adjust.TurnRange.FlatRange;
import dev.lash.engine.Pitch;
import dev.lash.engine.ScrewHead;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.ValveTrain.ScrewPlace;
import dev.lash.engine.ValveTrain.ShimPlace;
import dev.lash.gauge.Evidence;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.ReadingRule;
import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import dev.lash.plan.NextLeaf;
import dev.lash.testing.Contracts;
import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class AdjusterTest {
    private static final GaugeSet GENERATOR =
            leaves("0.03", "0.04", "0.05", "0.06", "0.07", "0.09", "0.12", "0.15", "0.20", "0.25", "0.30");
    private static final ValveTrain SCREW = screw("0.75 mm", ScrewHead.NOT_STATED);
    private static final ValveTrain HEXAGON = screw("0.75 mm", ScrewHead.HEXAGON);
    private static final ValveTrain SQUARE = screw("0.75 mm", ScrewHead.SQUARE);

    private static Adjustment advise(AdjustmentTask task) {
        return Adjuster.withDefaults().advise(task);
    }

    private static <T extends Adjustment> T advised(AdjustmentTask task, Class<T> kind) {
        return as(advise(task), kind);
    }

    private static <T extends Adjustment> T as(Adjustment adjustment, Class<T> kind) {
        assertThat(adjustment).isInstanceOf(kind);
        return kind.cast(adjustment);
    }

    private static TurnRange degrees(String from, String to) {
        return new TurnRange(new BigDecimal(from), new BigDecimal(to));
    }

    private static FlatRange flats(String from, String to) {
        return new FlatRange(new BigDecimal(from), new BigDecimal(to));
    }

    private static NextLeaf owned(String leaf) {
        return new NextLeaf(LeafStack.parse(leaf), true);
    }

    @Nested
    class Settings {
        @Test
        void defaults() {
            assertThat(Adjuster.withDefaults().aim()).isEqualTo(Ratio.parse("0.75"));
        }

        @Test
        void aimIsAFractionOfTheWindow() {
            for (String ok : List.of("0", "0.5", "1")) {
                assertThat(Adjuster.withDefaults().withAim(Ratio.parse(ok)).aim())
                        .isEqualTo(Ratio.parse(ok));
            }
            for (String bad : List.of("-0.01", "1.01", "75")) {
                Contracts.refuses(
                        () -> Adjuster.withDefaults().withAim(Ratio.parse(bad)),
                        bad,
                        "0 to 1",
                        "fraction of the window");
            }
            assertThat(Adjuster.withDefaults().aim()).isEqualTo(Ratio.parse("0.75"));
        }

        @Test
        void farTooLooseIsAMultipleOfTheUpperLimit() {
            assertThat(Adjuster.withDefaults()
                            .withFarTooLoose(Ratio.ONE)
                            .isFarTooLoose(interval("(0.18, 0.20) mm"), window("0.12..0.18 mm")))
                    .isTrue();
            Contracts.refuses(
                    () -> Adjuster.withDefaults().withFarTooLoose(Ratio.parse("0.99")),
                    "0.99",
                    "1 or more",
                    "multiple of the upper limit");
        }

        @Test
        void oneSettingLeavesTheOther() {
            Adjuster both = Adjuster.withDefaults().withFarTooLoose(Ratio.ONE).withAim(Ratio.ZERO);
            assertThat(both.aim()).isEqualTo(Ratio.ZERO);
            assertThat(both.isFarTooLoose(interval("(0.18, 0.20) mm"), window("0.12..0.18 mm")))
                    .isTrue();
            assertThat(Adjuster.withDefaults()
                            .withAim(Ratio.ZERO)
                            .withFarTooLoose(Ratio.ONE)
                            .aim())
                    .isEqualTo(Ratio.ZERO);
        }

        @ParameterizedTest
        @CsvSource(delimiter = '|', textBlock = """
                > 0.35 mm       | 0.12..0.18 mm | false
                > 0.36 mm       | 0.12..0.18 mm | true
                (0.36, 0.40) mm | 0.12..0.18 mm | true
                (0.35, 0.40) mm | 0.12..0.18 mm | false
                [0.50, 0.50] mm | 0.12..0.18 mm | true
                < 0.50 mm       | 0.12..0.18 mm | false
                any             | 0.12..0.18 mm | false
                > 0.10 mm       | 0.00..0.00 mm | false
                """)
        void farTooLooseIsWhollyAboveTheMultiple(String clearances, String windowText, boolean expected) {
            assertThat(Adjuster.withDefaults().isFarTooLoose(interval(clearances), window(windowText)))
                    .isEqualTo(expected);
        }

        @Test
        void settingsSurviveSerialisation() {
            Adjuster copy = Contracts.copied(
                    Adjuster.withDefaults().withAim(Ratio.parse("0.5")).withFarTooLoose(Ratio.parse("3")));
            assertThat(copy.aim()).isEqualTo(Ratio.parse("0.5"));
            assertThat(copy.isFarTooLoose(interval("> 0.40 mm"), window("0.12..0.18 mm")))
                    .isFalse();
            assertThat(copy.isFarTooLoose(interval("> 0.54 mm"), window("0.12..0.18 mm")))
                    .isTrue();
        }

        @Test
        void nullIsRefused() {
            Contracts.refuseNull(
                    () -> Adjuster.withDefaults().withAim(null),
                    () -> Adjuster.withDefaults().withFarTooLoose(null),
                    () -> Adjuster.withDefaults().advise(null),
                    () -> Adjuster.withDefaults().certainShims(null),
                    () -> Adjuster.withDefaults().isFarTooLoose(null, window("0.1..0.2 mm")),
                    () -> Adjuster.withDefaults().isFarTooLoose(interval("> 0.1 mm"), null));
        }
    }

    @Nested
    class MayHaveNoClearance {
        @ParameterizedTest
        @CsvSource(delimiter = '|', textBlock = """
                0.03 mm refuses                   | true
                0.03 mm forced                    | true
                0.05 mm refuses, 0.03 mm refuses  | true
                0.02 mm refuses                   | true
                0.05 mm refuses                   | false
                0.04 mm refuses                   | false
                0.01 mm goes, 0.03 mm refuses     | false
                0.05 mm refuses, 0.03 mm goes     | false
                0.03 mm drags                     | false
                0.30 mm goes                      | false
                """)
        void whenNotEvenTheThinnestLeafWent(String trials, boolean expected) {
            String[] texts = trials.split(", ", -1);
            assertThat(Adjuster.mayHaveNoClearance(read(texts), GENERATOR)).isEqualTo(expected);
            assertThat(Adjuster.mayHaveNoClearance(read(guarded("0.003", "0.002"), texts), GENERATOR))
                    .isEqualTo(expected);
        }

        @Test
        void notWhenNothingWasTried() {
            assertThat(Adjuster.mayHaveNoClearance(
                            Evidence.of(List.of(), ReadingRule.simple())
                                    .bracket()
                                    .orElseThrow(),
                            GENERATOR))
                    .isFalse();
        }
    }

    @Nested
    class ScrewAtTheValveTip {
        @Test
        void withinIsLeft() {
            // Common practice: 0.13 enters only when forced, 0.10 goes; both windows and the exhaust side likewise.
            GaugeSet gauges = leaves("0.10", "0.13", "0.17", "0.20");
            assertThat(advise(task(SCREW, "0.08..0.13 mm", gauges, read("0.13 mm forced", "0.10 mm goes"))))
                    .isEqualTo(new Leave());
            assertThat(advise(task(SCREW, "0.17..0.22 mm", gauges, read("0.20 mm forced", "0.17 mm goes"))))
                    .isEqualTo(new Leave());
        }

        @Test
        void tightIsSetToTheLeafNearestTheAim() {
            // Aim 0.05 + 0.75 x 0.04 = 0.08: 0.07 and 0.09 are as near, and the thicker is taken.
            SetToLeaf set = advised(
                    task(SCREW, "0.05..0.09 mm", GENERATOR, read("0.03 mm goes", "0.05 mm refuses")), SetToLeaf.class);
            assertThat(set.leaf()).isEqualTo(LeafStack.parse("0.09 mm"));
            assertThat(set.resulting()).isEqualTo(interval("[0.09, 0.09] mm"));
            // 0.04 / 0.75 and 0.06 / 0.75 of a turn.
            assertThat(set.findTurn()).contains(degrees("19.2", "28.8"));
        }

        @Test
        void looseIsSetTowardsTheOtherSide() {
            // Aim 0.12 + 0.75 x 0.06 = 0.165: 0.15 is nearer than 0.12. Screw in by 0.05 to 0.10 mm.
            SetToLeaf set = advised(
                    task(SCREW, "0.12..0.18 mm", GENERATOR, read("0.20 mm goes", "0.25 mm refuses")), SetToLeaf.class);
            assertThat(set.leaf()).isEqualTo(LeafStack.parse("0.15 mm"));
            assertThat(set.findTurn()).contains(degrees("-48", "-24"));
        }

        @Test
        void theAimIsASetting() {
            AdjustmentTask task = task(SCREW, "0.05..0.09 mm", GENERATOR, read("0.03 mm goes", "0.05 mm refuses"));
            for (String[] aimAndLeaf : new String[][] {{"0", "0.05 mm"}, {"0.25", "0.06 mm"}, {"0.5", "0.07 mm"}}) {
                Adjustment adjustment = Adjuster.withDefaults()
                        .withAim(Ratio.parse(aimAndLeaf[0]))
                        .advise(task);
                assertThat(as(adjustment, SetToLeaf.class).leaf()).isEqualTo(LeafStack.parse(aimAndLeaf[1]));
            }
        }

        @Test
        void aSingleLeafIsPreferredToANearerStack() {
            GaugeSet gauges = leaves("0.03", "0.05", "0.06").withStacksOf(2);
            assertThat(advised(
                                    task(SCREW, "0.05..0.09 mm", gauges, read("0.03 mm goes", "0.05 mm refuses")),
                                    SetToLeaf.class)
                            .leaf())
                    .isEqualTo(LeafStack.parse("0.06 mm"));
            GaugeSet thin = leaves("0.03", "0.04", "0.05").withStacksOf(2);
            assertThat(advised(
                                    task(SCREW, "0.06..0.09 mm", thin, read("0.03 mm goes", "0.05 mm refuses")),
                                    SetToLeaf.class)
                            .leaf())
                    .isEqualTo(LeafStack.parse("0.03 mm + 0.05 mm"));
        }

        @Test
        void underTheGuardedRuleTheWholeDragMustLieInTheWindow() {
            // 0.09 at the limit may read 0.085 to 0.095 with these allowances; 0.07 reads 0.065 to 0.075.
            AdjustmentTask task = task(
                    SCREW,
                    "0.05..0.09 mm",
                    GENERATOR,
                    read(guarded("0.003", "0.002"), "0.03 mm goes", "0.045 mm refuses"));
            SetToLeaf set = advised(task, SetToLeaf.class);
            assertThat(set.leaf()).isEqualTo(LeafStack.parse("0.07 mm"));
            assertThat(set.resulting()).isEqualTo(interval("[0.065, 0.075] mm"));
            // From (0.027, 0.048): 0.017 to 0.048 mm, 8.16 to 23.04 degrees.
            assertThat(set.findTurn()).contains(degrees("8.1", "23.1"));
        }

        @Test
        void theWindowToSetToIsTheNarrowerOne() {
            // Check 0.30 to 0.40, set 0.35 to 0.40: 0.33 would pass the check, but is not set to.
            GaugeSet gauges = leaves("0.20", "0.25", "0.33", "0.36");
            SetToLeaf set = advised(
                    task(SCREW, "0.30..0.40 mm", "0.35..0.40 mm", gauges, read("0.20 mm goes", "0.25 mm refuses")),
                    SetToLeaf.class);
            assertThat(set.leaf()).isEqualTo(LeafStack.parse("0.36 mm"));
            // A reading between the two windows is within, and is left.
            assertThat(advise(task(
                            SCREW, "0.30..0.40 mm", "0.35..0.40 mm", gauges, read("0.30 mm goes", "0.33 mm forced"))))
                    .isEqualTo(new Leave());
        }

        @Test
        void undecidedIsMeasuredFurther() {
            MeasureFurther further = advised(
                    task(SCREW, "0.12..0.18 mm", GENERATOR, read("0.15 mm goes", "0.20 mm forced")),
                    MeasureFurther.class);
            assertThat(further.findLeaf()).contains(new NextLeaf(LeafStack.parse("0.18 mm"), false));
            assertThat(further.why()).contains("borrow 0.18 mm");
            MeasureFurther own = advised(
                    task(
                            SCREW,
                            "0.12..0.18 mm",
                            leaves("0.15", "0.18", "0.20"),
                            read("0.15 mm goes", "0.20 mm forced")),
                    MeasureFurther.class);
            assertThat(own.findLeaf()).contains(owned("0.18 mm"));
            assertThat(own.why()).isEqualTo("offer 0.18 mm");
        }

        @Test
        void lengthsInWordsAreInTheUnitOfTheLeaves() {
            GaugeSet inch = GaugeSet.of(LengthUnit.INCH, "0.006", "0.008");
            MeasureFurther further = advised(
                    task(SCREW, "0.005..0.007 in", inch, read("0.006 in goes", "0.008 in forced")),
                    MeasureFurther.class);
            assertThat(further.why()).contains("borrow 0.007 in").doesNotContain("mm");
        }

        @Test
        void whenNoLeafHelpsThatIsSaid() {
            // Both drag, so between them; 0.13 is the limit itself, and was tried.
            AdjustmentTask task =
                    task(SCREW, "0.13..0.20 mm", leaves("0.10", "0.13"), read("0.10 mm drags", "0.13 mm drags"));
            MeasureFurther further = advised(task, MeasureFurther.class);
            assertThat(further.findLeaf()).isEmpty();
            assertThat(further.why()).contains("no leaf").contains("simple rule");
        }

        @Test
        void aThinnerLeafIsTriedBeforeNoClearanceIsSupposed() {
            MeasureFurther further =
                    advised(task(SCREW, "0.05..0.09 mm", GENERATOR, read("0.05 mm refuses")), MeasureFurther.class);
            assertThat(further.findLeaf()).contains(owned("0.03 mm"));
        }

        @ParameterizedTest
        @ValueSource(strings = {"simple", "guarded, tolerance 0.003 mm, drag allowance 0.002 mm"})
        void whenTheThinnestLeafRefusesLookFirst(String rule) {
            Inspect inspect = advised(
                    task(SCREW, "0.05..0.09 mm", GENERATOR, read(ReadingRule.parse(rule), "0.03 mm refuses")),
                    Inspect.class);
            assertThat(inspect.why()).contains("may have no clearance", "compression TDC", "wear or damage");
            SetToLeaf then = as(inspect.findThen().orElseThrow(), SetToLeaf.class);
            assertThat(then.findTurn()).as("no turn from an unknown lower end").isEmpty();
        }

        @Test
        void farTooLooseIsLookedAtFirst() {
            Inspect inspect = advised(
                    task(
                            SCREW,
                            "0.12..0.18 mm",
                            leaves("0.15", "0.36", "0.40"),
                            read("0.36 mm goes", "0.40 mm refuses")),
                    Inspect.class);
            assertThat(inspect.why()).contains("far too loose", "rocker pad", "valve tip");
            assertThat(as(inspect.findThen().orElseThrow(), SetToLeaf.class).leaf())
                    .isEqualTo(LeafStack.parse("0.15 mm"));
            assertThat(advise(task(
                            SCREW, "0.12..0.18 mm", leaves("0.15", "0.35"), read("0.35 mm goes", "0.40 mm refuses"))))
                    .isInstanceOf(SetToLeaf.class);
        }

        @Test
        void withoutALeafForTheWindowTurnsAreCounted() {
            // Aim 0.06 + 0.75 x 0.03 = 0.0825 from (0.03, 0.05): 0.0325 to 0.0525 mm.
            // Certain to end in the window: at least 0.06 - 0.03, at most 0.09 - 0.05.
            GaugeSet gauges = leaves("0.03", "0.05", "0.12");
            Turn turn = advised(
                    task(HEXAGON, "0.06..0.09 mm", gauges, read("0.03 mm goes", "0.05 mm refuses")), Turn.class);
            assertThat(turn.from()).isEqualTo(TurnFrom.PRESENT_SETTING);
            assertThat(turn.degrees()).isEqualTo(degrees("15.6", "25.2"));
            assertThat(turn.findCertain()).contains(degrees("14.4", "19.2"));
            assertThat(turn.findFlats()).contains(flats("0.26", "0.42"));
            assertThat(turn.direction()).startsWith("screw out").contains("anticlockwise");
            assertThat(advised(
                                    task(SQUARE, "0.06..0.09 mm", gauges, read("0.03 mm goes", "0.05 mm refuses")),
                                    Turn.class)
                            .findFlats())
                    .contains(flats("0.17", "0.28"));
            assertThat(advised(
                                    task(SCREW, "0.06..0.09 mm", gauges, read("0.03 mm goes", "0.05 mm refuses")),
                                    Turn.class)
                            .findFlats())
                    .isEmpty();
        }

        @Test
        void aCountedTurnInwardIsNegative() {
            // Aim 0.0825 from (0.10, 0.12): screw in by 0.0175 to 0.0375 mm.
            Turn turn = advised(
                    task(HEXAGON, "0.06..0.09 mm", leaves("0.10", "0.12"), read("0.10 mm goes", "0.12 mm refuses")),
                    Turn.class);
            assertThat(turn.degrees()).isEqualTo(degrees("-18", "-8.4"));
            assertThat(turn.findCertain()).contains(degrees("-19.2", "-14.4"));
            assertThat(turn.findFlats()).contains(flats("-0.3", "-0.14"));
            assertThat(turn.direction()).startsWith("screw in").contains("clockwise");
        }

        @Test
        void aTurnThatMayBeNoneStillHasItsDirection() {
            // Aim 1 is the upper limit, where the reading begins: in by 0 to 0.02 mm, 9.6 degrees.
            Turn in = as(
                    Adjuster.withDefaults()
                            .withAim(Ratio.ONE)
                            .advise(task(
                                    SCREW,
                                    "0.06..0.09 mm",
                                    leaves("0.095", "0.11"),
                                    read("0.09 mm goes", "0.11 mm refuses"))),
                    Turn.class);
            assertThat(in.degrees()).isEqualTo(degrees("-9.6", "0"));
            assertThat(in.direction()).startsWith("screw in");
            Turn out = as(
                    Adjuster.withDefaults()
                            .withAim(Ratio.ZERO)
                            .advise(task(
                                    SCREW,
                                    "0.06..0.09 mm",
                                    leaves("0.04", "0.10"),
                                    read("0.04 mm goes", "0.06 mm refuses"))),
                    Turn.class);
            assertThat(out.degrees()).isEqualTo(degrees("0", "9.6"));
            assertThat(out.direction()).startsWith("screw out");
        }

        @Test
        void noTurnIsCertainFromAReadingWiderThanTheWindow() {
            Turn turn = advised(
                    task(SCREW, "0.10..0.11 mm", leaves("0.03", "0.08"), read("0.03 mm goes", "0.08 mm refuses")),
                    Turn.class);
            assertThat(turn.findCertain()).isEmpty();
        }

        @Test
        void withoutAnUpperEndTurnsAreCountedFromNoPlay() {
            // 0.12 / 0.75 and 0.18 / 0.75 of a turn out from where the play is just taken up.
            Turn turn =
                    advised(task(HEXAGON, "0.12..0.18 mm", leaves("0.05", "0.30"), read("0.30 mm goes")), Turn.class);
            assertThat(turn.from()).isEqualTo(TurnFrom.NO_PLAY);
            assertThat(turn.degrees()).isEqualTo(degrees("57.6", "86.4"));
            assertThat(turn.findFlats()).contains(flats("0.96", "1.44"));
            assertThat(turn.findCertain()).isEmpty();
        }

        @Test
        void aDishedPadIsNotReadButCountedFromNoPlay() {
            for (String reading : List.of("0.15 mm drags", "0.03 mm refuses", "0.30 mm goes")) {
                Inspect inspect = advised(
                        withPad(task(SQUARE, "0.12..0.18 mm", GENERATOR, read(reading)), Pad.DISHED), Inspect.class);
                assertThat(inspect.why()).contains("dished", "too small", "not used");
                Turn turn = as(inspect.findThen().orElseThrow(), Turn.class);
                assertThat(turn.from()).isEqualTo(TurnFrom.NO_PLAY);
                assertThat(turn.degrees()).isEqualTo(degrees("57.6", "86.4"));
                assertThat(turn.findFlats()).contains(flats("0.64", "0.96"));
            }
        }

        @Test
        void turnsFromNoPlayStayInsideTheWindow() {
            // 26 threads an inch: 0.12 mm is 44.22 degrees, 0.18 mm is 66.33.
            Inspect inspect = advised(
                    withPad(
                            task(
                                    screw("26 tpi", ScrewHead.NOT_STATED),
                                    "0.12..0.18 mm",
                                    GENERATOR,
                                    read("0.15 mm drags")),
                            Pad.DISHED),
                    Inspect.class);
            assertThat(as(inspect.findThen().orElseThrow(), Turn.class).degrees())
                    .isEqualTo(degrees("44.3", "66.3"));
        }

        @Test
        void itHasNoShims() {
            AdjustmentTask task = task(SCREW, "0.05..0.09 mm", GENERATOR, read("0.03 mm goes", "0.05 mm refuses"));
            assertThat(Adjuster.withDefaults().certainShims(withShim(task, "2.45")))
                    .isEmpty();
        }
    }

    @Nested
    class BucketWithShims {
        private static final ValveTrain SHIMS = shims("1.20..3.50 mm step 0.05 mm");
        private static final GaugeSet GAUGES =
                leaves("0.04", "0.08", "0.12", "0.15", "0.16", "0.18", "0.20", "0.22", "0.25", "0.28", "0.33");

        private AdjustmentTask tight(String shim) {
            return withShim(task(SHIMS, "0.16..0.22 mm", GAUGES, read("0.12 mm goes", "0.15 mm refuses")), shim);
        }

        @ParameterizedTest
        @EnumSource(
                value = ShimPlace.class,
                names = {"OVER_BUCKET", "UNDER_BUCKET", "GRADED_BUCKET"})
        void theCertainSizeNearestTheAimIsFitted(ShimPlace place) {
            // 0.16 <= 0.12 + 2.65 - s and 0.15 + 2.65 - s <= 0.22, so s from 2.58 to 2.61: 2.60, leaving (0.17, 0.20).
            ValveTrain train = ValveTrain.Shim.bucket(place, ShimRange.parse("1.20..3.50 mm step 0.05 mm"));
            FitShim fit = advised(
                    withShim(task(train, "0.16..0.22 mm", GAUGES, read("0.12 mm goes", "0.15 mm refuses")), "2.65"),
                    FitShim.class);
            assertThat(fit.shim()).isEqualTo(mm("2.60"));
            assertThat(fit.certain()).isEqualTo(mms("2.60"));
            assertThat(fit.resulting()).isEqualTo(interval("(0.17, 0.20) mm"));
            assertThat(fit.inBox()).isFalse();
        }

        @Test
        void aTightValveGetsAThinnerShimAndALooseOneAThicker() {
            assertThat(advised(tight("2.65"), FitShim.class).shim()).isLessThan(mm("2.65"));
            // 0.27 + 2.65 - s <= 0.22 and 0.25 + 2.65 - s >= 0.16, so s from 2.70 to 2.74.
            FitShim fit = advised(
                    withShim(task(SHIMS, "0.16..0.22 mm", GAUGES, read("0.25 mm goes", "0.27 mm refuses")), "2.65"),
                    FitShim.class);
            assertThat(fit.certain()).isEqualTo(mms("2.70"));
            assertThat(fit.resulting()).isEqualTo(interval("(0.20, 0.22) mm"));
        }

        @Test
        void sizesInTheBoxAndBetweenTheStepsCount() {
            // s from 2.58 to 2.61 again: the box adds 2.58 and 2.61; 2.62 is not certain.
            AdjustmentTask task =
                    tight("2.65").withShims(InstalledShim.marked(mm("2.65")), box("2.58", "2.61", "2.62"));
            FitShim fit = advised(task, FitShim.class);
            assertThat(fit.certain()).isEqualTo(mms("2.58", "2.60", "2.61"));
            // Aim 0.205; middles 0.205, 0.185 and 0.175.
            assertThat(fit.shim()).isEqualTo(mm("2.58"));
            assertThat(fit.inBox()).isTrue();
            assertThat(fit.resulting()).isEqualTo(interval("(0.19, 0.22) mm"));
        }

        @Test
        void ofTwoAsNearTheThinnerIsTaken() {
            // Aim 0.5: 0.19; middle 0.135 + 2.65 - s is 0.185 for 2.60 and 0.195 for 2.59.
            AdjustmentTask task = tight("2.65").withShims(InstalledShim.marked(mm("2.65")), box("2.59"));
            Adjustment adjustment =
                    Adjuster.withDefaults().withAim(Ratio.parse("0.5")).advise(task);
            assertThat(as(adjustment, FitShim.class).shim()).isEqualTo(mm("2.59"));
        }

        @Test
        void shimsOfAnotherTypeInTheBoxAreNotAtHand() {
            ShimBox mixed = new ShimBox(List.of(
                    new ShimBox.Lot(mm("2.58"), 1, "7.48"),
                    new ShimBox.Lot(mm("2.60"), 1, "7.48"),
                    new ShimBox.Lot(mm("2.61"), 1, "9.48")));
            AdjustmentTask task =
                    tight("2.65").withShims(new InstalledShim(mm("2.65"), null, Length.ZERO, "9.48"), mixed);
            FitShim fit = advised(task, FitShim.class);
            assertThat(fit.certain()).isEqualTo(mms("2.60", "2.61"));
            assertThat(fit.shim()).isEqualTo(mm("2.60"));
            assertThat(fit.inBox()).as("2.60 in the box is of the other type").isFalse();
        }

        @Test
        void theToleranceOfTheInstalledShimCounts() {
            // Installed 2.64 to 2.66: s from 2.59 to 2.60, so 2.60 still; with 0.012 no size by 0.05 is left.
            AdjustmentTask exact = tight("2.65");
            assertThat(certain(exact.withShims(
                            new InstalledShim(mm("2.65"), null, mm("0.01"), ""), box("2.585", "2.59", "2.605"))))
                    .isEqualTo(mms("2.59", "2.60"));
            assertThat(certain(exact.withShims(
                            new InstalledShim(mm("2.65"), null, mm("0.012"), ""), box("2.585", "2.605"))))
                    .isEmpty();
        }

        private List<Length> certain(AdjustmentTask task) {
            return Adjuster.withDefaults().certainShims(task).orElseThrow();
        }

        @Test
        void leavingTheInstalledShimInIsNotTouchedByItsSizeError() {
            AdjustmentTask task = task(SHIMS, "0.16..0.22 mm", GAUGES, read("0.16 mm goes", "0.22 mm refuses"))
                    .withShims(new InstalledShim(mm("2.50"), null, mm("0.02"), ""), ShimBox.empty());
            assertThat(advise(task)).isEqualTo(new Leave());
            assertThat(certain(task)).isEqualTo(mms("2.50"));
        }

        @Test
        void aMeasuredSizeIsReckonedWith() {
            // Marked 2.65, measures 2.63: s from 2.56 to 2.59: none by 0.05.
            AdjustmentTask task =
                    tight("2.65").withShims(new InstalledShim(mm("2.65"), mm("2.63"), Length.ZERO, ""), box("2.57"));
            assertThat(certain(task)).isEqualTo(mms("2.57"));
        }

        @Test
        void theWindowToSetToIsTheNarrowerOne() {
            // Set to 0.19 to 0.22: s from 2.58 to 2.58.
            AdjustmentTask task = withShim(
                            task(
                                    SHIMS,
                                    "0.16..0.22 mm",
                                    "0.19..0.22 mm",
                                    GAUGES,
                                    read("0.12 mm goes", "0.15 mm refuses")),
                            "2.65")
                    .withShims(InstalledShim.marked(mm("2.65")), box("2.58", "2.59"));
            assertThat(certain(task)).isEqualTo(mms("2.58"));
            assertThat(advised(task, FitShim.class).shim()).isEqualTo(mm("2.58"));
        }

        @Test
        void certainSizesNeedBothEndsAndAKnownShim() {
            AdjustmentTask bounded = task(SHIMS, "0.16..0.22 mm", GAUGES, read("0.12 mm goes", "0.15 mm refuses"));
            Adjuster adjuster = Adjuster.withDefaults();
            assertThat(adjuster.certainShims(bounded)).as("shim not known").isEmpty();
            assertThat(adjuster.certainShims(
                            withShim(task(SHIMS, "0.16..0.22 mm", GAUGES, read("0.25 mm goes")), "2.65")))
                    .as("no upper end")
                    .isEmpty();
            assertThat(adjuster.certainShims(
                            withShim(task(SHIMS, "0.16..0.22 mm", GAUGES, read("0.04 mm refuses")), "2.65")))
                    .as("no lower end")
                    .isEmpty();
        }

        @Test
        void anUnknownShimIsMeasuredFirst() {
            AdjustmentTask task = task(SHIMS, "0.16..0.22 mm", GAUGES, read("0.12 mm goes", "0.15 mm refuses"));
            for (AdjustmentTask unknown :
                    List.of(task, task.withShims(new InstalledShim(null, null, Length.ZERO, ""), ShimBox.empty()))) {
                MeasureFurther further = advised(unknown, MeasureFurther.class);
                assertThat(further.findLeaf()).isEmpty();
                assertThat(further.why()).contains("installed shim", "micrometer");
            }
        }

        @Test
        void withoutAnUpperEndThickerLeavesComeFirst() {
            MeasureFurther further = advised(
                    withShim(task(SHIMS, "0.16..0.22 mm", GAUGES, read("0.33 mm goes")), "2.65"), MeasureFurther.class);
            assertThat(further.why()).contains("thicker leaves", "no upper end");
        }

        @Test
        void aThinnerLeafIsTriedBeforeNoClearanceIsSupposed() {
            assertThat(advised(
                                    withShim(task(SHIMS, "0.16..0.22 mm", GAUGES, read("0.08 mm refuses")), "2.65"),
                                    MeasureFurther.class)
                            .findLeaf())
                    .contains(owned("0.04 mm"));
        }

        @ParameterizedTest
        @ValueSource(strings = {"simple", "guarded, tolerance 0.003 mm, drag allowance 0.002 mm"})
        void withNoClearanceAThinnerShimIsFittedOnlyToMeasure(String rule) {
            AdjustmentTask task =
                    task(SHIMS, "0.16..0.22 mm", GAUGES, read(ReadingRule.parse(rule), "0.04 mm refuses"));
            Inspect inspect = advised(withShim(task, "2.65"), Inspect.class);
            assertThat(inspect.why()).contains("may have no clearance", "wear or damage");
            MeasureFurther then = as(inspect.findThen().orElseThrow(), MeasureFurther.class);
            assertThat(then.findMeasuringShim()).contains(interval("[2.35, 2.45] mm"));
            assertThat(then.why()).contains("only to measure", "never to run");
            MeasureFurther unknown = as(advised(task, Inspect.class).findThen().orElseThrow(), MeasureFurther.class);
            assertThat(unknown.findMeasuringShim()).isEmpty();
        }

        @Test
        void aThinShimHasNoThinnerOneToMeasureWith() {
            for (String[] shimAndRange : new String[][] {{"0.30", null}, {"0.35", "[0.05, 0.15] mm"}}) {
                AdjustmentTask task = withShim(
                        task(shims("0.10..1.00 mm step 0.05 mm"), "0.16..0.22 mm", GAUGES, read("0.04 mm refuses")),
                        shimAndRange[0]);
                MeasureFurther then = as(advised(task, Inspect.class).findThen().orElseThrow(), MeasureFurther.class);
                assertThat(then.findMeasuringShim().map(Object::toString))
                        .isEqualTo(Optional.ofNullable(shimAndRange[1]));
            }
        }

        @Test
        void farTooLooseIsLookedAtFirst() {
            GaugeSet gauges = leaves("0.44", "0.45");
            Inspect inspect = advised(
                    withShim(task(SHIMS, "0.16..0.22 mm", gauges, read("0.44 mm goes", "0.45 mm refuses")), "2.65"),
                    Inspect.class);
            assertThat(inspect.why()).contains("far too loose", "cam lobe", "bucket");
            // 0.45 + 2.65 - s <= 0.22 and 0.44 + 2.65 - s >= 0.16: s from 2.88 to 2.93.
            assertThat(as(inspect.findThen().orElseThrow(), FitShim.class).shim())
                    .isEqualTo(mm("2.90"));
        }

        @Test
        void whenTheSizesRunOutTheValveIsLookedAt() {
            Inspect thinner = advised(
                    withShim(
                            task(
                                    shims("2.60..3.50 mm step 0.05 mm"),
                                    "0.16..0.22 mm",
                                    GAUGES,
                                    read("0.08 mm goes", "0.12 mm refuses")),
                            "2.60"),
                    Inspect.class);
            assertThat(thinner.why()).contains("valve or seat may be finished");
            assertThat(thinner.findThen()).isEmpty();
            Inspect thicker = advised(
                    withShim(
                            task(
                                    shims("2.00..2.60 mm step 0.05 mm"),
                                    "0.16..0.22 mm",
                                    GAUGES,
                                    read("0.25 mm goes", "0.28 mm refuses")),
                            "2.60"),
                    Inspect.class);
            assertThat(thicker.why()).contains("0.22 mm", "worn", "thicker shim");
        }

        @Test
        void aReadingTooWideForAnySizeIsNarrowed() {
            // (0.08, 0.15) is wider than the window: a leaf between makes some size certain.
            MeasureFurther further = advised(
                    withShim(task(SHIMS, "0.16..0.22 mm", GAUGES, read("0.08 mm goes", "0.15 mm refuses")), "2.65"),
                    MeasureFurther.class);
            assertThat(further.findLeaf()).contains(owned("0.12 mm"));
            assertThat(further.why()).contains("no size is certain", "0.12 mm");
            AdjustmentTask none = withShim(
                    task(SHIMS, "0.16..0.22 mm", leaves("0.08", "0.15"), read("0.08 mm goes", "0.15 mm refuses")),
                    "2.65");
            assertThat(advised(none, MeasureFurther.class).findLeaf())
                    .hasValueSatisfying(next -> assertThat(next.owned()).isFalse());
        }

        @Test
        void aStepTooCoarseForTheWindowIsSaid() {
            // Sizes by 0.10 into a window of 0.03: no reading of (0.10, 0.11) becomes certain, however narrow.
            Inspect inspect = advised(
                    withShim(
                            task(
                                    shims("1.20..3.50 mm step 0.10 mm"),
                                    "0.14..0.17 mm",
                                    leaves("0.10", "0.11"),
                                    read("0.10 mm goes", "0.11 mm refuses")),
                            "2.60"),
                    Inspect.class);
            assertThat(inspect.why()).contains("step by 0.10 mm", "0.14..0.17 mm", "sizes in between");
            assertThat(inspect.findThen()).isEmpty();
        }

        @Test
        void aDishedReadingIsNotUsed() {
            AdjustmentTask dished = withPad(tight("2.65"), Pad.DISHED);
            Inspect inspect = advised(dished, Inspect.class);
            assertThat(inspect.why()).contains("dished", "not used");
            assertThat(inspect.findThen()).isEmpty();
            assertThat(Adjuster.withDefaults().certainShims(dished)).isEmpty();
        }
    }

    // ---- what all trains share

    static Stream<ValveTrain> trains() {
        Pitch pitch = Pitch.parse("1 mm");
        ShimRange sizes = ShimRange.parse("1.20..3.50 mm step 0.05 mm");
        return Stream.concat(
                Stream.of(ScrewPlace.values())
                        .map(place -> new ValveTrain.Screw(
                                place,
                                pitch,
                                place.needsRatio() ? Ratio.parse("1.5") : Ratio.ONE,
                                ScrewHead.NOT_STATED)),
                Stream.of(
                        new ValveTrain.Wedge(mm("0.06")),
                        new ValveTrain.Eccentric(mm("1"), Ratio.ONE),
                        ValveTrain.Shim.bucket(ShimPlace.OVER_BUCKET, sizes),
                        new ValveTrain.Shim(ShimPlace.FOLLOWER, sizes, Ratio.parse("1.5")),
                        new ValveTrain.Desmodromic(sizes, sizes),
                        new ValveTrain.Fixed()));
    }

    @ParameterizedTest
    @MethodSource("trains")
    void whateverTheTrainSomeReadingsAreNotSimplyAdjusted(ValveTrain train) {
        assertThat(advise(reading(train, "0.07 mm drags"))).isEqualTo(new Leave());
        assertThat(advised(reading(train, "0.03 mm refuses"), Inspect.class).why())
                .contains("may have no clearance", "compression TDC");
        assertThat(advised(reading(train, "0.30 mm goes"), Inspect.class).why()).contains("far too loose: look at");
        assertThat(advised(reading(train, "0.05 mm refuses"), MeasureFurther.class)
                        .findLeaf())
                .contains(owned("0.03 mm"));
        assertThat(advised(reading(train, "0.06 mm goes", "0.12 mm refuses"), MeasureFurther.class)
                        .findLeaf())
                .contains(owned("0.09 mm"));
        assertThat(advised(withPad(reading(train, "0.07 mm drags"), Pad.DISHED), Inspect.class)
                        .why())
                .contains("dished", "not used");
    }

    @ParameterizedTest
    @MethodSource("trains")
    void whateverTheTrainATightReadingHasItsAdjustment(ValveTrain train) {
        String expected = train.match(new ValveTrain.Cases<>() {
            @Override
            public String screw(ValveTrain.Screw screw) {
                return "set-to-leaf";
            }

            @Override
            public String wedge(ValveTrain.Wedge wedge) {
                return "turn";
            }

            @Override
            public String eccentric(ValveTrain.Eccentric eccentric) {
                return "set-to-leaf";
            }

            @Override
            public String shim(ValveTrain.Shim shim) {
                return "fit-shim";
            }

            @Override
            public String desmodromic(ValveTrain.Desmodromic desmodromic) {
                return "fit-shim";
            }

            @Override
            public String fixed(ValveTrain.Fixed fixed) {
                return "machine";
            }

            @Override
            public String hydraulic(ValveTrain.Hydraulic hydraulic) {
                throw new AssertionError("there is nothing to adjust");
            }
        });
        AdjustmentTask tight =
                withShim(task(train, "0.10..0.20 mm", GENERATOR, read("0.03 mm goes", "0.05 mm refuses")), "2.45");
        assertThat(advise(tight).kind()).isEqualTo(expected);
    }

    @ParameterizedTest
    @MethodSource("trains")
    void onlyTrainsWithShimsHaveCertainSizes(ValveTrain train) {
        boolean hasShims = train instanceof ValveTrain.Shim || train instanceof ValveTrain.Desmodromic;
        assertThat(Adjuster.withDefaults().certainShims(reading(train, "0.07 mm drags")))
                .isEqualTo(hasShims ? Optional.of(mms("2.45")) : Optional.empty());
    }

    private static AdjustmentTask reading(ValveTrain train, String... trials) {
        return withShim(task(train, "0.05..0.09 mm", GENERATOR, read(trials)), "2.45");
    }

    @Test
    void hydraulicLiftersHaveNoAdjustment() {
        Adjustment adjustment =
                advise(task(new ValveTrain.Hydraulic(), "0.05..0.09 mm", GENERATOR, read("0.07 mm drags")));
        assertThat(as(adjustment, NotApplicable.class).why()).contains("hydraulic");
        assertThat(adjustment).isEqualTo(Adjuster.notApplicable());
    }
}
