package dev.lash.gauge;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.TextParseException.Reason;
import dev.lash.testing.Contracts;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class TrialTest {
    private static final Leaf NOSE = Leaf.parse("0.10 mm");
    private static final Leaf BODY = Leaf.parse("0.15 mm");

    // Factories

    @Test
    void isALeafAndAFit() {
        Trial trial = Trial.of(NOSE, Fit.GOES);
        assertThat(trial.leaf()).isEqualTo(LeafStack.of(NOSE));
        assertThat(trial.fit()).isEqualTo(Fit.GOES);
    }

    @Test
    void aSteppedLeafGivesTwoTrialsInOneStroke() {
        List<Trial> trials = Trial.stepped(NOSE, Fit.GOES, BODY, Fit.REFUSES);
        assertThat(trials).hasToString("[0.10 mm goes, 0.15 mm refuses]");
        assertThat(Evidence.of(trials, ReadingRule.simple()).bracket())
                .map(Bracket::interval)
                .contains(LengthInterval.parse("(0.10, 0.15) mm"));
    }

    @Test
    void refusesASteppedLeafHeldTheWrongWay() {
        Contracts.refuses(
                () -> Trial.stepped(BODY, Fit.GOES, NOSE, Fit.REFUSES),
                "stepped leaf \"0.15 mm nose, 0.10 mm body\"",
                "a nose thinner than the body",
                "swap nose and body");
        Contracts.refuses(() -> Trial.stepped(NOSE, Fit.GOES, NOSE, Fit.GOES), "a nose thinner than the body");
    }

    // Parsing

    @ParameterizedTest
    @CsvSource({
        "0.10 mm goes, 0.10 mm goes",
        "' 0.10 mm   goes ', 0.10 mm goes",
        "0.10mm goes, 0.10 mm goes",
        "4 thou drags, 0.1016 mm drags",
        "0.15 mm + 0.06 mm refuses, 0.06 mm + 0.15 mm refuses",
        "0.06mm+0.15mm forced, 0.06 mm + 0.15 mm forced"
    })
    void readsLeafAndFit(String text, String written) {
        assertThat(Trial.parse(text)).hasToString(written);
    }

    static Stream<Arguments> badTexts() {
        return Stream.of(
                Arguments.of("", Reason.UNKNOWN_WORD, "goes, drags, forced or refuses"),
                Arguments.of("0.10 mm", Reason.UNKNOWN_WORD, "fit \"mm\""),
                Arguments.of("0.10 mm loose", Reason.UNKNOWN_WORD, "fit \"loose\""),
                Arguments.of("0.10 mmgoes", Reason.UNKNOWN_WORD, "fit \"mmgoes\""),
                Arguments.of("goes", Reason.EMPTY, "a plain number and a unit"),
                Arguments.of("0.10 goes", Reason.NO_UNIT, "0.10 mm, 0.10 in or 0.10 thou"),
                Arguments.of("0.10 mm goes goes", Reason.UNKNOWN_UNIT, "\"mm goes\""),
                Arguments.of("goes 0.10 mm", Reason.UNKNOWN_WORD, "fit \"mm\""));
    }

    @ParameterizedTest
    @MethodSource("badTexts")
    void refusesOtherTexts(String text, Reason reason, String part) {
        int position = reason == Reason.NO_UNIT ? 4 : reason == Reason.UNKNOWN_UNIT ? 5 : 0;
        assertThat(Contracts.refusesText(Trial::parse, text, reason, position)).hasMessageContaining(part);
    }

    @Test
    void refusesALeafOutOfRange() {
        Contracts.refuses(() -> Trial.parse("0 mm goes"), "leaf \"0.00 mm\"", "above 0 mm");
    }

    // Equality, text, serialisation, nulls

    @Test
    void isEqualByLeafAndFit() {
        Contracts.equality(
                Trial.of(NOSE, Fit.GOES),
                Trial.parse("100 um goes"),
                List.of(
                        Trial.of(NOSE, Fit.DRAGS),
                        Trial.of(BODY, Fit.GOES),
                        Trial.of(NOSE, Fit.FORCED),
                        Trial.of(NOSE, Fit.REFUSES)));
    }

    @Test
    void writesItselfInAUnit() {
        assertThat(Trial.parse("4 thou + 6 thou goes").toString(LengthUnit.INCH))
                .isEqualTo("0.004 in + 0.006 in goes");
    }

    @Test
    void serialises() {
        Contracts.serialises(Trial.of(NOSE, Fit.FORCED));
    }

    @Test
    void refusesNull() {
        Contracts.refuseNull(
                () -> new Trial(null, Fit.GOES),
                () -> new Trial(LeafStack.of(NOSE), null),
                () -> Trial.of(null, Fit.GOES),
                () -> Trial.of(NOSE, null),
                () -> Trial.stepped(null, Fit.GOES, BODY, Fit.GOES),
                () -> Trial.stepped(NOSE, null, BODY, Fit.GOES),
                () -> Trial.stepped(NOSE, Fit.GOES, null, Fit.GOES),
                () -> Trial.stepped(NOSE, Fit.GOES, BODY, null),
                () -> Trial.parse(null),
                () -> Trial.of(NOSE, Fit.GOES).toString(null));
    }
}
