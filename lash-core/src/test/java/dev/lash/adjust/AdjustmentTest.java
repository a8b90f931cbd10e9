package dev.lash.adjust;

import static dev.lash.testing.Readings.interval;
import static dev.lash.testing.Readings.mm;
import static dev.lash.testing.Readings.mms;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.Adjustment.Cases;
import dev.lash.adjust.Adjustment.FitShim;
import dev.lash.adjust.Adjustment.Inspect;
import dev.lash.adjust.Adjustment.Leave;
import dev.lash.adjust.Adjustment.Machine;
import dev.lash.adjust.Adjustment.MeasureFurther;
import dev.lash.adjust.Adjustment.NotApplicable;
import dev.lash.adjust.Adjustment.SetToLeaf;
import dev.lash.adjust.Adjustment.Turn;
import dev.lash.adjust.Adjustment.TurnFrom;
import dev.lash.engine.ScrewHead;
import dev.lash.gauge.LeafStack;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.plan.NextLeaf;
import dev.lash.testing.Contracts;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class AdjustmentTest {
    private static final LeafStack LEAF = LeafStack.parse("0.07 mm");
    private static final LengthInterval RESULT = interval("[0.07, 0.07] mm");
    private static final TurnRange TURN = new TurnRange(new BigDecimal("14.4"), new BigDecimal("24"));

    private static final EccentricTurn ECCENTRIC = new EccentricTurn(
            EccentricTurn.Sense.LARGER, TURN, new TurnRange(new BigDecimal("194.4"), new BigDecimal("204")));
    private static final HabitShim HABIT =
            new HabitShim(ShimRounding.toMiddle(RoundingHabit.NEAREST), mm("2.41"), mm("2.40"), RESULT, true);
    private static final LockShift SHIFT = new LockShift(0.02, 0.005, 3);

    /** One of each kind, with the name of the function of {@link Cases} that it must call. */
    static Stream<Arguments> kinds() {
        return Stream.of(
                Arguments.of(new Leave(), "leave", "leave"),
                Arguments.of(
                        new SetToLeaf(LEAF, TURN, List.of(ECCENTRIC), RESULT, SHIFT, "set the bridge"),
                        "set-to-leaf",
                        "setToLeaf"),
                Arguments.of(
                        new Turn(
                                TurnFrom.NO_PLAY,
                                TURN,
                                TURN,
                                TURN.flats(ScrewHead.HEXAGON).orElseThrow(),
                                "screw out",
                                SHIFT,
                                "set the bridge"),
                        "turn",
                        "turn"),
                Arguments.of(new FitShim(mm("2.40"), mms("2.40"), RESULT, true, HABIT), "fit-shim", "fitShim"),
                Arguments.of(new Machine("grind the stem tip", interval("[0.02, 0.04] mm")), "machine", "machine"),
                Arguments.of(
                        new MeasureFurther(new NextLeaf(LEAF, true), interval("[2.20, 2.30] mm"), "no leaf went in"),
                        "measure-further",
                        "measureFurther"),
                Arguments.of(new Inspect("far too loose", new Leave()), "inspect", "inspect"),
                Arguments.of(new NotApplicable("hydraulic"), "not-applicable", "notApplicable"));
    }

    /** Names the function that was called, and hands its argument on. */
    private record Called(String function, Adjustment with) {}

    private static final Cases<Called> NAMES = new Cases<>() {
        @Override
        public Called leave(Leave adjustment) {
            return new Called("leave", adjustment);
        }

        @Override
        public Called setToLeaf(SetToLeaf adjustment) {
            return new Called("setToLeaf", adjustment);
        }

        @Override
        public Called turn(Turn adjustment) {
            return new Called("turn", adjustment);
        }

        @Override
        public Called fitShim(FitShim adjustment) {
            return new Called("fitShim", adjustment);
        }

        @Override
        public Called machine(Machine adjustment) {
            return new Called("machine", adjustment);
        }

        @Override
        public Called measureFurther(MeasureFurther adjustment) {
            return new Called("measureFurther", adjustment);
        }

        @Override
        public Called inspect(Inspect adjustment) {
            return new Called("inspect", adjustment);
        }

        @Override
        public Called notApplicable(NotApplicable adjustment) {
            return new Called("notApplicable", adjustment);
        }
    };

    @ParameterizedTest
    @MethodSource("kinds")
    void eachKindHasItsNameAndCallsItsOwnFunction(Adjustment adjustment, String kind, String function) {
        assertThat(adjustment.kind()).isEqualTo(kind);
        assertThat(adjustment.match(NAMES)).isEqualTo(new Called(function, adjustment));
    }

    @ParameterizedTest
    @MethodSource("kinds")
    void eachKindSurvivesSerialisation(Adjustment adjustment, String kind, String function) {
        Contracts.serialises(adjustment);
    }

    @Test
    void everyKindIsThere() {
        assertThat(kinds().map(arguments -> arguments.get()[0].getClass().getName()))
                .containsExactlyInAnyOrderElementsOf(Stream.of(Adjustment.class.getPermittedSubclasses())
                        .map(Class::getName)
                        .toList());
    }

    @Test
    void whereATurnIsCountedFromHasAWord() {
        assertThat(TurnFrom.PRESENT_SETTING.word()).isEqualTo("present-setting");
        assertThat(TurnFrom.NO_PLAY.word()).isEqualTo("no-play");
    }

    @Test
    void whatIsNotKnownIsEmpty() {
        assertThat(new SetToLeaf(LEAF, null, List.of(), RESULT, null, "").findTurn())
                .isEmpty();
        assertThat(new SetToLeaf(LEAF, TURN, List.of(), RESULT, null, "").findLockShift())
                .isEmpty();
        assertThat(new Machine("grind", null).findAmount()).isEmpty();
        assertThat(new Turn(TurnFrom.NO_PLAY, TURN, null, null, "out", null, "").findCertain())
                .isEmpty();
        assertThat(new Turn(TurnFrom.NO_PLAY, TURN, null, null, "out", null, "").findLockShift())
                .isEmpty();
        assertThat(new Turn(TurnFrom.NO_PLAY, TURN, null, null, "out", null, "").findFlats())
                .isEmpty();
        assertThat(new MeasureFurther(null, null, "why").findLeaf()).isEmpty();
        assertThat(new MeasureFurther(null, null, "why").findMeasuringShim()).isEmpty();
        assertThat(new Inspect("why", null).findThen()).isEmpty();
    }

    @Test
    void whatIsKnownIsThere() {
        SetToLeaf set = new SetToLeaf(LEAF, TURN, List.of(ECCENTRIC), RESULT, SHIFT, "set the bridge");
        assertThat(set.findTurn()).contains(TURN);
        assertThat(set.eccentric()).containsExactly(ECCENTRIC);
        assertThat(set.findLockShift()).contains(SHIFT);
        assertThat(new Machine("grind", RESULT).findAmount()).contains(RESULT);
    }

    @Test
    void certainSizesCannotBeChanged() {
        List<Length> sizes = new ArrayList<>(mms("2.40", "2.45"));
        FitShim fit = new FitShim(mm("2.40"), sizes, RESULT, false, null);
        sizes.clear();
        assertThat(fit.certain()).isEqualTo(mms("2.40", "2.45")).isUnmodifiable();
    }

    @Test
    void nullIsRefused() {
        Contracts.refuseNull(
                () -> new SetToLeaf(null, TURN, List.of(), RESULT, null, ""),
                () -> new SetToLeaf(LEAF, TURN, null, RESULT, null, ""),
                () -> new SetToLeaf(LEAF, TURN, List.of(), null, null, ""),
                () -> new SetToLeaf(LEAF, TURN, List.of(), RESULT, null, null),
                () -> new Turn(null, TURN, null, null, "out", null, ""),
                () -> new Turn(TurnFrom.NO_PLAY, null, null, null, "out", null, ""),
                () -> new Turn(TurnFrom.NO_PLAY, TURN, null, null, null, null, ""),
                () -> new Turn(TurnFrom.NO_PLAY, TURN, null, null, "out", null, null),
                () -> new FitShim(null, mms("2.40"), RESULT, false, null),
                () -> new FitShim(mm("2.40"), null, RESULT, false, null),
                () -> new FitShim(mm("2.40"), mms("2.40"), null, false, null),
                () -> new Machine(null, RESULT),
                () -> new MeasureFurther(null, null, null),
                () -> new Inspect(null, null),
                () -> new NotApplicable(null));
    }
}
