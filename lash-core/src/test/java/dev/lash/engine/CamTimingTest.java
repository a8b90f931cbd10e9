package dev.lash.engine;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.engine.CamTiming.Event;
import dev.lash.engine.CamTiming.Mark;
import dev.lash.measure.Ratio;
import dev.lash.measure.TextParseException.Reason;
import dev.lash.testing.Contracts;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class CamTimingTest {
    private static final Event BEFORE = Event.parse("15 deg BTDC");
    private static final Event AFTER = Event.parse("50 deg ABDC");
    private static final Ratio MARGIN = Ratio.of(15, 1);

    // Timing

    @Test
    void keepsItsEventsAndMargin() {
        CamTiming timing = new CamTiming(BEFORE, AFTER, Event.parse("55 deg BBDC"), Event.parse("10 deg ATDC"), MARGIN);
        assertThat(timing.intakeOpens()).isEqualTo(BEFORE);
        assertThat(timing.intakeCloses()).isEqualTo(AFTER);
        assertThat(timing.exhaustOpens()).hasToString("55 deg BBDC");
        assertThat(timing.exhaustCloses()).hasToString("10 deg ATDC");
        assertThat(timing.margin()).isEqualTo(MARGIN);
    }

    /** A mild road cam, seat to seat, and 15 degrees of ramp (from memory). */
    @Test
    void assumesAMildRoadCam() {
        assertThat(CamTiming.GENERIC)
                .isEqualTo(new CamTiming(
                        BEFORE, AFTER, Event.parse("50 deg BBDC"), Event.parse("15 deg ATDC"), Ratio.of(15, 1)));
    }

    @ParameterizedTest
    @ValueSource(strings = {"-0.1", "90.1", "-15"})
    void refusesMarginsOutOfRange(String margin) {
        Contracts.refuses(
                () -> new CamTiming(BEFORE, AFTER, BEFORE, AFTER, Ratio.parse(margin)),
                "ramp margin \"" + margin + " deg\"",
                "0 to 90 deg",
                "the length of the ramps");
    }

    @ParameterizedTest
    @ValueSource(strings = {"0", "90", "12.5"})
    void takesMarginsInRange(String margin) {
        assertThat(new CamTiming(
                                BEFORE,
                                AFTER,
                                Event.parse("50 deg BBDC"),
                                Event.parse("15 deg ATDC"),
                                Ratio.parse(margin))
                        .margin())
                .hasToString(margin);
    }

    /** By hand: the intake's opening is counted from 360 or 540, its closing from 720 or 540; the exhaust's from 0 or 180, and 360 or 900. */
    @ParameterizedTest
    @CsvSource({
        // 360 to 900 with 90 of ramp on each side is the whole cycle.
        "0 deg BTDC, 180 deg ATDC, 50 deg BBDC, 15 deg ATDC, 90, intake, 540",
        "50 deg ABDC, 50 deg ABDC, 50 deg BBDC, 15 deg ATDC, 15, intake, 0",
        "50 deg ABDC, 50 deg BBDC, 50 deg BBDC, 15 deg ATDC, 15, intake, -100",
        "15 deg BTDC, 50 deg ABDC, 0 deg ATDC, 180 deg ATDC, 90, exhaust, 540",
        "15 deg BTDC, 50 deg ABDC, 50 deg BBDC, 50 deg BBDC, 0, exhaust, 720",
        "15 deg BTDC, 50 deg ABDC, 180 deg ABDC, 0 deg ATDC, 15, exhaust, 0"
    })
    void refusesAValveThatNeverClosesOrNeverOpens(
            String opens, String closes, String exOpens, String exCloses, String margin, String role, String lift) {
        Contracts.refuses(
                () -> new CamTiming(
                        Event.parse(opens),
                        Event.parse(closes),
                        Event.parse(exOpens),
                        Event.parse(exCloses),
                        Ratio.parse(margin)),
                role + " timing",
                "open for " + lift + " crank degrees",
                "less than 720 deg",
                "check the marks");
    }

    @Test
    void takesALiftThatJustFits() {
        Ratio most = Ratio.parse("89.9");
        assertThat(new CamTiming(
                                Event.parse("0 deg BTDC"),
                                Event.parse("180 deg ATDC"),
                                Event.parse("0 deg ATDC"),
                                Event.parse("180 deg ATDC"),
                                most)
                        .margin())
                .isEqualTo(most);
    }

    // On the base circle

    /** By hand: the lift may begin before compression TDC or end after the next one; its ends, ramps included, are at rest. */
    @ParameterizedTest
    @CsvSource({
        // exhaust from 180 - 94 - 88 = -2 to 360 + 15 + 88 = 463
        "94, 15, 88, exhaust, 717, true",
        "94, 15, 88, exhaust, 718, true",
        "94, 15, 88, exhaust, 718.1, false",
        "94, 15, 88, exhaust, 719, false",
        "94, 15, 88, exhaust, 0, false",
        "94, 15, 88, exhaust, 462.9, false",
        "94, 15, 88, exhaust, 463, true",
        // intake from 360 - 15 - 88 = 257 to 540 + 110 + 88 = 738, which is 18
        "94, 110, 88, intake, 257, true",
        "94, 110, 88, intake, 257.1, false",
        "94, 110, 88, intake, 719.9, false",
        "94, 110, 88, intake, 0, false",
        "94, 110, 88, intake, 17.9, false",
        "94, 110, 88, intake, 18, true"
    })
    void restsOutsideTheLiftOfEveryCycle(
            int exhaustOpens, int intakeCloses, int margin, String role, String phase, boolean rests) {
        CamTiming timing = new CamTiming(
                BEFORE,
                Event.parse(intakeCloses + " deg ABDC"),
                Event.parse(exhaustOpens + " deg BBDC"),
                Event.parse("15 deg ATDC"),
                Ratio.of(margin, 1));
        ValveRole valve = role.equals("intake") ? ValveRole.INTAKE : ValveRole.EXHAUST;
        assertThat(timing.isOnBaseCircle(valve, Ratio.parse(phase))).isEqualTo(rests);
    }

    // Events

    @ParameterizedTest
    @CsvSource({
        "15 deg BTDC, 15, 1, BTDC, 15 deg BTDC",
        "' 15  deg  btdc ', 15, 1, BTDC, 15 deg BTDC",
        "0 deg ATDC, 0, 1, ATDC, 0 deg ATDC",
        "180 deg BBDC, 180, 1, BBDC, 180 deg BBDC",
        "12.5 deg ABDC, 25, 2, ABDC, 12.5 deg ABDC",
        "100/3 deg Abdc, 100, 3, ABDC, 100/3 deg ABDC"
    })
    void readsAnEvent(String text, long above, long below, Mark mark, String written) {
        Event event = Event.parse(text);
        assertThat(event.degrees()).isEqualTo(Ratio.of(above, below));
        assertThat(event.mark()).isEqualTo(mark);
        assertThat(event).hasToString(written);
        Contracts.roundTrip(event, Event::parse);
    }

    static Stream<Arguments> badEvents() {
        return Stream.of(
                Arguments.of("", Reason.WRONG_FORM, 0),
                Arguments.of("15 BTDC", Reason.WRONG_FORM, 0),
                Arguments.of("15 deg", Reason.WRONG_FORM, 0),
                Arguments.of("15° BTDC", Reason.WRONG_FORM, 0),
                Arguments.of("15 degrees BTDC", Reason.WRONG_FORM, 0),
                Arguments.of("15deg BTDC", Reason.WRONG_FORM, 0),
                Arguments.of("15 deg TDC", Reason.WRONG_FORM, 0),
                Arguments.of("15 deg BTDC cold", Reason.WRONG_FORM, 0),
                Arguments.of("15\tdeg\tBTDC", Reason.WRONG_FORM, 0),
                Arguments.of("x deg BTDC", Reason.NOT_A_NUMBER, 0),
                Arguments.of("12,5 deg BTDC", Reason.DECIMAL_COMMA, 2));
    }

    @ParameterizedTest
    @MethodSource("badEvents")
    void refusesOtherTexts(String text, Reason reason, int position) {
        Contracts.refusesText(Event::parse, text, reason, position);
    }

    @Test
    void saysWhatAnEventLooksLike() {
        assertThat(Contracts.refusesText(Event::parse, "15 BTDC", Reason.WRONG_FORM, 0))
                .hasMessageContainingAll("valve event \"15 BTDC\"", "\"15 deg BTDC\"", "write it in this form");
    }

    @ParameterizedTest
    @ValueSource(strings = {"-1 deg BTDC", "180.1 deg ATDC"})
    void refusesEventsOutOfRange(String text) {
        Contracts.refuses(
                () -> Event.parse(text), "valve event \"" + text + "\"", "0 to 180 deg", "check the timing figure");
    }

    // Angles

    @ParameterizedTest
    @CsvSource({"15 deg, 15, 1", "15deg, 15, 1", "' -7.5 deg ', -15, 2", "720/7 deg, 720, 7", "1000 deg, 1000, 1"})
    void readsAnAngle(String text, long above, long below) {
        assertThat(CamTiming.parseDegrees(text)).isEqualTo(Ratio.of(above, below));
    }

    static Stream<Arguments> badAngles() {
        return Stream.of(
                Arguments.of("", Reason.NO_UNIT, 0),
                Arguments.of("15", Reason.NO_UNIT, 2),
                Arguments.of("15°", Reason.NO_UNIT, 3),
                Arguments.of("15 DEG", Reason.NO_UNIT, 6),
                Arguments.of("deg", Reason.EMPTY, 0),
                Arguments.of("x deg", Reason.NOT_A_NUMBER, 0),
                Arguments.of("15 deg deg", Reason.WRONG_FORM, 3));
    }

    @ParameterizedTest
    @MethodSource("badAngles")
    void refusesOtherAngles(String text, Reason reason, int position) {
        Contracts.refusesText(CamTiming::parseDegrees, text, reason, position);
    }

    @Test
    void saysHowToWriteAnAngle() {
        assertThat(Contracts.refusesText(CamTiming::parseDegrees, "15", Reason.NO_UNIT, 2))
                .hasMessageContainingAll("angle \"15\"", "a number and deg, such as \"15 deg\"", "add deg");
    }

    // Equality, serialisation, nulls

    @Test
    void isEqualByItsParts() {
        Contracts.equality(
                new CamTiming(BEFORE, AFTER, AFTER, BEFORE, MARGIN),
                new CamTiming(Event.parse("15.0 deg btdc"), AFTER, AFTER, BEFORE, MARGIN),
                List.of(
                        new CamTiming(Event.parse("14 deg BTDC"), AFTER, AFTER, BEFORE, MARGIN),
                        new CamTiming(BEFORE, BEFORE, AFTER, BEFORE, MARGIN),
                        new CamTiming(BEFORE, AFTER, BEFORE, BEFORE, MARGIN),
                        new CamTiming(BEFORE, AFTER, AFTER, Event.parse("14 deg BTDC"), MARGIN),
                        new CamTiming(BEFORE, AFTER, AFTER, BEFORE, Ratio.ZERO)));
    }

    @Test
    void serialises() {
        Contracts.serialises(CamTiming.GENERIC);
        Contracts.serialises(BEFORE);
    }

    @Test
    void refusesNull() {
        Contracts.refuseNull(
                () -> new CamTiming(null, AFTER, BEFORE, AFTER, MARGIN),
                () -> new CamTiming(BEFORE, null, BEFORE, AFTER, MARGIN),
                () -> new CamTiming(BEFORE, AFTER, null, AFTER, MARGIN),
                () -> new CamTiming(BEFORE, AFTER, BEFORE, null, MARGIN),
                () -> new CamTiming(BEFORE, AFTER, BEFORE, AFTER, null),
                () -> new Event(null, Mark.ATDC),
                () -> new Event(MARGIN, null),
                () -> Event.parse(null),
                () -> CamTiming.parseDegrees(null));
    }
}
