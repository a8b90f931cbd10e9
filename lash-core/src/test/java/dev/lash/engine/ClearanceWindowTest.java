package dev.lash.engine;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.TextParseException;
import dev.lash.measure.TextParseException.Reason;
import dev.lash.testing.Contracts;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class ClearanceWindowTest {
    private static final Length LOW = Length.parse("0.11 mm");
    private static final Length HIGH = Length.parse("0.16 mm");
    private static final ClearanceWindow WINDOW = new ClearanceWindow(LOW, HIGH);

    // Factories

    @Test
    void keepsItsEnds() {
        assertThat(WINDOW.lower()).isEqualTo(LOW);
        assertThat(WINDOW.upper()).isEqualTo(HIGH);
        assertThat(WINDOW.width()).isEqualTo(Length.parse("0.05 mm"));
        assertThat(new ClearanceWindow(LOW, LOW).width()).isEqualTo(Length.ZERO);
        assertThat(new ClearanceWindow(Length.ZERO, Length.parse("5 mm"))).hasToString("0.00..5.00 mm");
    }

    @Test
    void bothEndsBelongToIt() {
        assertThat(WINDOW.interval()).isEqualTo(LengthInterval.closed(LOW, HIGH));
        assertThat(new ClearanceWindow(LOW, LOW).interval()).isEqualTo(LengthInterval.point(LOW));
    }

    @Test
    void refusesEndsOutOfOrderOrOutOfRange() {
        Contracts.refuses(
                () -> new ClearanceWindow(HIGH, LOW),
                "clearance window \"0.16..0.11 mm\"",
                "is reversed",
                "the least and the largest clearance, such as \"0.11..0.16 mm\"",
                "swap the two figures");
        Contracts.refuses(
                () -> new ClearanceWindow(Length.parse("-0.01 mm"), HIGH),
                "clearance window \"-0.01..0.16 mm\"",
                "is out of range",
                "clearances from 0 mm to 5.00 mm",
                "check the figures and their unit");
        Contracts.refuses(() -> new ClearanceWindow(LOW, Length.parse("5.01 mm")), "0.11..5.01 mm", "0 mm to 5.00 mm");
    }

    // Parsing

    @ParameterizedTest
    @CsvSource({
        "0.11..0.16 mm, 0.11..0.16 mm",
        "0.11 .. 0.16mm, 0.11..0.16 mm",
        "0.11 mm..0.16 mm, 0.11..0.16 mm",
        "' 0.11..0.16 mm ', 0.11..0.16 mm",
        "11..16 hundredths, 0.11..0.16 mm",
        "0.003..0.005 in, 0.0762..0.127 mm",
        ".003..0.005 in, 0.0762..0.127 mm",
        "4 thou..0.16 mm, 0.1016..0.16 mm",
        "0..0.05 mm, 0.00..0.05 mm",
        "0.15..0.15 mm, 0.15..0.15 mm"
    })
    void readsTwoFiguresAndAUnit(String text, String written) {
        assertThat(ClearanceWindow.parse(text)).hasToString(written);
    }

    static Stream<Arguments> badTexts() {
        return Stream.of(
                Arguments.of("", Reason.WRONG_FORM, 0),
                Arguments.of("0.11 mm", Reason.WRONG_FORM, 0),
                Arguments.of("0.11-0.16 mm", Reason.WRONG_FORM, 0),
                Arguments.of("[0.11, 0.16] mm", Reason.WRONG_FORM, 0),
                // An ellipsis, or two dots and a figure that begins with one: neither is guessed.
                Arguments.of("..", Reason.EMPTY, 0),
                Arguments.of("..0.16 mm", Reason.EMPTY, 0),
                Arguments.of("0.11 mm..", Reason.EMPTY, 0),
                Arguments.of("0.11..0.16", Reason.NO_UNIT, 4),
                Arguments.of("0.11 mm..0.16", Reason.NO_UNIT, 4),
                Arguments.of("0.11..0.16 cm", Reason.UNKNOWN_UNIT, 5),
                Arguments.of("0.11..0.16..0.18 mm", Reason.UNKNOWN_UNIT, 4),
                Arguments.of("0,11..0.16 mm", Reason.DECIMAL_COMMA, 1),
                Arguments.of("a..b mm", Reason.NOT_A_NUMBER, 0));
    }

    @ParameterizedTest
    @MethodSource("badTexts")
    void refusesOtherTexts(String text, Reason reason, int position) {
        Contracts.refusesText(ClearanceWindow::parse, text, reason, position);
    }

    @Test
    void saysWhatAWindowLooksLike() {
        assertThat(Contracts.refusesText(ClearanceWindow::parse, "0.11-0.16 mm", Reason.WRONG_FORM, 0))
                .hasMessageContainingAll(
                        "clearance window \"0.11-0.16 mm\"", "such as \"0.11..0.16 mm\"", "both figures and the unit");
        Contracts.refuses(() -> ClearanceWindow.parse("0.16..0.11 mm"), "0.16..0.11 mm", "swap the two figures");
        // A window in inches whose unit was written as millimetres is no window of an engine.
        Contracts.refuses(() -> ClearanceWindow.parse("4..6 mm"), "4.00..6.00 mm", "0 mm to 5.00 mm", "their unit");
    }

    /** The unit of the upper end is the lower one's too, yet what is quoted is what was written. */
    @ParameterizedTest
    @CsvSource({
        "'0,08..0,13 mm', '0,13 mm', 1",
        "'0,08..0.13 mm', '0,08', 1",
        "0.08..0.13 cm, 0.13 cm, 5",
        "0.08..0.13, 0.13, 4"
    })
    void quotesWhatWasWritten(String text, String quoted, int position) {
        assertThatThrownBy(() -> ClearanceWindow.parse(text))
                .isInstanceOfSatisfying(TextParseException.class, broken -> {
                    assertThat(broken.value()).isEqualTo(quoted);
                    assertThat(broken.position()).isEqualTo(position);
                });
    }

    // Equality, text, serialisation, nulls

    @Test
    void isEqualByItsEnds() {
        Contracts.equality(
                WINDOW,
                ClearanceWindow.parse("110..160 um"),
                List.of(ClearanceWindow.parse("0.11..0.17 mm"), ClearanceWindow.parse("0.10..0.16 mm")));
    }

    @ParameterizedTest
    @CsvSource({
        "0.003..0.005 in, INCH, 0.003..0.005 in",
        "0.003..0.005 in, THOU, 3..5 thou",
        "0.11..0.16 mm, HUNDREDTH, 11..16 hundredths",
        "0.11..0.16 mm, INCH, 0.11..0.16 mm",
        "4 thou..0.16 mm, INCH, 0.1016..0.16 mm"
    })
    void writesItselfInAUnit(String text, LengthUnit unit, String written) {
        ClearanceWindow window = ClearanceWindow.parse(text);
        assertThat(window.toString(unit)).isEqualTo(written);
        assertThat(ClearanceWindow.parse(written)).isEqualTo(window);
    }

    @ParameterizedTest
    @CsvSource({
        "0.10..0.20 mm, 0.10..0.20 mm, false",
        "0.10..0.20 mm, 0.50..0.99 mm, false",
        "0.10..0.20 mm, 0.50..1.00 mm, true",
        "0.10..0.20 mm, 0.010..0.020 mm, true",
        "0.004..0.008 in, 0.004..0.008 mm, true",
        "0..0 mm, 0..0 mm, false",
        "0..0 mm, 0..0.05 mm, true"
    })
    void knowsAWindowFiveTimesOff(String one, String other, boolean unlike) {
        assertThat(ClearanceWindow.parse(one).isUnlike(ClearanceWindow.parse(other)))
                .isEqualTo(unlike);
        assertThat(ClearanceWindow.parse(other).isUnlike(ClearanceWindow.parse(one)))
                .isEqualTo(unlike);
    }

    @ParameterizedTest
    @CsvSource({
        "0.05..0.15 mm, false",
        "0.03..0.18 mm, false",
        "0.03..0.19 mm, true",
        "0.00..0.20 mm, false",
        "0.003..0.020 in, true"
    })
    void knowsEndsMoreThanSixTimesApart(String window, boolean apart) {
        assertThat(ClearanceWindow.parse(window).hasEndsApart()).isEqualTo(apart);
    }

    @Test
    void serialises() {
        Contracts.serialises(WINDOW);
    }

    @Test
    void refusesNull() {
        Contracts.refuseNull(
                () -> new ClearanceWindow(null, HIGH),
                () -> new ClearanceWindow(LOW, null),
                () -> ClearanceWindow.parse(null),
                () -> WINDOW.toString(null),
                () -> WINDOW.isUnlike(null));
    }
}
