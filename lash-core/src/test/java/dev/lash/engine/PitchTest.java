package dev.lash.engine;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.Length;
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

class PitchTest {
    private static final Pitch CYCLE_THREAD = Pitch.parse("26 tpi");

    // Factories

    @ParameterizedTest
    @CsvSource({"100000, 1", "5000000, 1", "12700000, 13"})
    void keepsItsMovement(long above, long below) {
        assertThat(new Pitch(Ratio.of(above, below)).nanometresPerTurn()).isEqualTo(Ratio.of(above, below));
    }

    @ParameterizedTest
    @CsvSource({"99999, 1", "5000001, 1", "15000001, 3", "0, 1", "-750000, 1"})
    void refusesWhatIsNoPitch(long above, long below) {
        Ratio movement = Ratio.of(above, below);
        Contracts.refuses(
                () -> new Pitch(movement),
                "pitch \"" + movement + " nm per turn\"",
                "is out of range",
                "0.1 mm to 5 mm per turn",
                "\"0.75 mm\" or \"26 tpi\"");
    }

    // Parsing

    /** Threads an inch by arithmetic from 1 in = 25.4 mm; metric pitches of the ISO 261 fine series (from memory). */
    @ParameterizedTest
    @CsvSource({
        "26 tpi, 25400000, 26, 26 tpi",
        "24 tpi, 25400000, 24, 24 tpi",
        "20 tpi, 1270000, 1, 1.27 mm",
        "32 tpi, 793750, 1, 0.79375 mm",
        "28 tpi, 25400000, 28, 28 tpi",
        "25 tpi, 1016000, 1, 1.016 mm",
        "26tpi, 25400000, 26, 26 tpi",
        "' 26  tpi ', 25400000, 26, 26 tpi",
        "11.5 tpi, 254000000, 115, 11.5 tpi",
        "0.5 mm, 500000, 1, 0.50 mm",
        "0.75 mm, 750000, 1, 0.75 mm",
        "1 mm, 1000000, 1, 1.00 mm",
        "0.05 in, 1270000, 1, 1.27 mm",
        "50 thou, 1270000, 1, 1.27 mm",
        "5.08 tpi, 5000000, 1, 5.00 mm",
        "254 tpi, 100000, 1, 0.10 mm"
    })
    void readsPitchesAndThreadsAnInch(String text, long above, long below, String written) {
        Pitch pitch = Pitch.parse(text);
        assertThat(pitch.nanometresPerTurn()).isEqualTo(Ratio.of(above, below));
        assertThat(pitch).hasToString(written);
        Contracts.roundTrip(pitch, Pitch::parse);
    }

    /** The same worked out apart in decimals, rounded to the last digit given. */
    @ParameterizedTest
    @CsvSource({"24, 1.05833", "20, 1.27", "32, 0.79375", "28, 0.907143", "26, 0.97692"})
    void agreesWithDecimals(int threads, String millimetres) {
        Ratio exact = Pitch.parse(threads + " tpi").nanometresPerTurn();
        Ratio rounded = Ratio.nanometresOf(Length.ofMillimetres(millimetres));
        Ratio error = exact.minus(rounded);
        assertThat(error).isBetween(Ratio.of(-5, 1), Ratio.of(5, 1));
    }

    /** One turn of 26 threads is taken for 0.040 in in print (Valve Adjustment, a workshop article); that is 4 % too much. */
    @Test
    void theRuleOfThumbFor26ThreadsIsFourPercentOff() {
        Ratio thumb = Ratio.nanometresOf(Length.ofInches("0.040"));
        assertThat(thumb.dividedBy(CYCLE_THREAD.nanometresPerTurn())).isEqualTo(Ratio.of(104, 100));
    }

    static Stream<Arguments> badTexts() {
        return Stream.of(
                Arguments.of("", Reason.EMPTY, 0),
                Arguments.of("tpi", Reason.EMPTY, 0),
                Arguments.of("26", Reason.NO_UNIT, 2),
                Arguments.of("26 TPI", Reason.UNKNOWN_UNIT, 3),
                Arguments.of("0.75 mm/turn", Reason.UNKNOWN_UNIT, 5),
                Arguments.of("0,75 mm", Reason.DECIMAL_COMMA, 1),
                Arguments.of("26/0 tpi", Reason.WRONG_FORM, 2),
                Arguments.of("26 mm tpi", Reason.WRONG_FORM, 3),
                Arguments.of("fine", Reason.NOT_A_NUMBER, 0));
    }

    @ParameterizedTest
    @MethodSource("badTexts")
    void refusesOtherTexts(String text, Reason reason, int position) {
        Contracts.refusesText(Pitch::parse, text, reason, position);
    }

    @Test
    void saysHowAPitchIsWritten() {
        Contracts.refuses(() -> Pitch.parse("28 tip"), "pitch \"28 tip\"", "threads an inch", "\"26 tpi\"");
    }

    @ParameterizedTest
    @ValueSource(strings = {"0 tpi", "-26 tpi"})
    void refusesNoThreads(String text) {
        Contracts.refuses(
                () -> Pitch.parse(text), "pitch \"" + text + "\"", "a positive number of threads an inch", "26 tpi");
    }

    @ParameterizedTest
    @ValueSource(strings = {"0.09 mm", "5.1 mm", "255 tpi", "5 tpi", "-1 mm", "0 mm"})
    void refusesPitchesOutOfRange(String text) {
        Contracts.refuses(() -> Pitch.parse(text), "nm per turn", "0.1 mm to 5 mm per turn");
    }

    // Equality, text, serialisation, nulls

    @Test
    void isEqualByItsMovement() {
        Contracts.equality(
                CYCLE_THREAD,
                new Pitch(Ratio.of(12_700_000, 13)),
                List.of(Pitch.parse("0.976923 mm"), Pitch.parse("25 tpi")));
        assertThat(Pitch.parse("20 tpi")).isEqualTo(Pitch.parse("1.27 mm"));
    }

    @Test
    void writesAFractionOfAThreadExactly() {
        Pitch pitch = new Pitch(Ratio.of(1_000_001, 3));
        assertThat(pitch).hasToString("76200000/1000001 tpi");
        Contracts.roundTrip(pitch, Pitch::parse);
    }

    @Test
    void serialises() {
        Contracts.serialises(CYCLE_THREAD);
    }

    @Test
    void refusesNull() {
        Contracts.refuseNull(() -> new Pitch(null), () -> Pitch.parse(null));
    }
}
