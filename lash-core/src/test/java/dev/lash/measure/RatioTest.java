package dev.lash.measure;

import static dev.lash.measure.TextParseException.Reason.DECIMAL_COMMA;
import static dev.lash.measure.TextParseException.Reason.EMPTY;
import static dev.lash.measure.TextParseException.Reason.NOT_A_NUMBER;
import static dev.lash.measure.TextParseException.Reason.TOO_LONG;
import static dev.lash.measure.TextParseException.Reason.WRONG_FORM;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.TextParseException.Reason;
import dev.lash.testing.Contracts;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class RatioTest {
    private static final Ratio HALF = Ratio.of(1, 2);
    private static final Ratio THIRD = Ratio.of(1, 3);

    // Factories

    @ParameterizedTest
    @CsvSource({
        "6, 4, 3, 2",
        "-6, 4, -3, 2",
        "6, -4, -3, 2",
        "-6, -4, 3, 2",
        "0, -7, 0, 1",
        "25400000, 26, 12700000, 13",
        "-9223372036854775808, -1, 9223372036854775808, 1"
    })
    void isKeptInLowestTerms(long above, long below, BigInteger numerator, BigInteger denominator) {
        Ratio ratio = Ratio.of(above, below);
        assertThat(ratio.numerator()).isEqualTo(numerator);
        assertThat(ratio.denominator()).isEqualTo(denominator);
    }

    @Test
    void refusesToDivideByZero() {
        Contracts.refuses(() -> Ratio.of(3, 0), "ratio", "3/0", "divides by zero", "a denominator other than 0");
        Contracts.refuses(() -> HALF.dividedBy(Ratio.ZERO), "divides by zero", "a denominator other than 0");
    }

    @ParameterizedTest
    @CsvSource({"1.5, 3, 2", "1.50, 3, 2", "-0.125, -1, 8", "1E+3, 1000, 1", "0E-5, 0, 1", "42, 42, 1"})
    void takesADecimalExactly(BigDecimal number, long above, long below) {
        assertThat(Ratio.of(number)).isEqualTo(Ratio.of(above, below));
    }

    @Test
    void takesALengthAsItsNanometres() {
        assertThat(Ratio.nanometresOf(Length.parse("-1 thou"))).isEqualTo(Ratio.of(-25_400, 1));
    }

    // Parsing

    @ParameterizedTest
    @CsvSource({
        "1.5, 3, 2",
        "3/2, 3, 2",
        "' 3 / 2 ', 3, 2",
        "-3/2, -3, 2",
        "3/-2, -3, 2",
        "+.5, 1, 2",
        "25400000/26, 25400000, 26",
        "0/5, 0, 1"
    })
    void readsDecimalsAndFractions(String text, long above, long below) {
        assertThat(Ratio.parse(text)).isEqualTo(Ratio.of(above, below));
    }

    static Stream<Arguments> badTexts() {
        return Stream.of(
                Arguments.of("", EMPTY, 0),
                Arguments.of("3/", EMPTY, 0),
                Arguments.of("/2", EMPTY, 0),
                Arguments.of("one", NOT_A_NUMBER, 0),
                Arguments.of("1e3", NOT_A_NUMBER, 1),
                Arguments.of("1,5", DECIMAL_COMMA, 1),
                Arguments.of("1.5 mm", WRONG_FORM, 4),
                Arguments.of("1.5.2", WRONG_FORM, 3),
                Arguments.of("3/2/1", WRONG_FORM, 3),
                Arguments.of("1.5/2", WRONG_FORM, 3),
                Arguments.of("3/0", WRONG_FORM, 1),
                Arguments.of("9".repeat(26), TOO_LONG, 0),
                Arguments.of(" ".repeat(81) + "1", TOO_LONG, 80));
    }

    @ParameterizedTest
    @MethodSource("badTexts")
    void refusesOtherTexts(String text, Reason reason, int position) {
        assertThat(Contracts.refusesText(Ratio::parse, text, reason, position))
                .hasMessageStartingWith("ratio ")
                .hasMessageContaining("1.5");
    }

    // Operations

    @Test
    void calculatesExactly() {
        assertThat(HALF.plus(THIRD)).isEqualTo(Ratio.of(5, 6));
        assertThat(HALF.minus(THIRD)).isEqualTo(Ratio.of(1, 6));
        assertThat(THIRD.minus(HALF)).isEqualTo(Ratio.of(-1, 6));
        assertThat(HALF.times(THIRD)).isEqualTo(Ratio.of(1, 6));
        assertThat(HALF.dividedBy(THIRD)).isEqualTo(Ratio.of(3, 2));
        assertThat(HALF.dividedBy(Ratio.of(-1, 3))).isEqualTo(Ratio.of(-3, 2));
        assertThat(THIRD.plus(THIRD).plus(THIRD)).isEqualTo(Ratio.ONE);
        assertThat(HALF.minus(HALF)).isEqualTo(Ratio.ZERO);
    }

    @Test
    void knowsItsSign() {
        assertThat(THIRD.signum()).isOne();
        assertThat(Ratio.ZERO.signum()).isZero();
        assertThat(Ratio.of(1, -3).signum()).isEqualTo(-1);
    }

    @ParameterizedTest
    @CsvSource({
        "1, 3, 2, 0.33, 0.34",
        "-1, 3, 2, -0.34, -0.33",
        "1, 4, 2, 0.25, 0.25",
        "7, 2, 0, 3, 4",
        "-7, 2, 0, -4, -3",
        "0, 1, 3, 0.000, 0.000"
    })
    void roundsTheWayThatIsAsked(long above, long below, int decimals, BigDecimal floor, BigDecimal ceiling) {
        assertThat(Ratio.of(above, below).floor(decimals)).isEqualTo(floor);
        assertThat(Ratio.of(above, below).ceiling(decimals)).isEqualTo(ceiling);
    }

    @Test
    void roundsToNanometres() {
        Ratio pitch = Ratio.of(25_400_000, 26);
        assertThat(pitch.floorNanometres()).isEqualTo(Length.ofNanometres(976_923));
        assertThat(pitch.ceilingNanometres()).isEqualTo(Length.ofNanometres(976_924));
        assertThat(Ratio.of(-7, 2).floorNanometres()).isEqualTo(Length.ofNanometres(-4));
        assertThat(Ratio.of(-7, 2).ceilingNanometres()).isEqualTo(Length.ofNanometres(-3));
        assertThat(Ratio.of(25_400, 1).floorNanometres()).isEqualTo(Length.parse("1 thou"));
        assertThat(Ratio.of(25_400, 1).ceilingNanometres()).isEqualTo(Length.parse("1 thou"));
    }

    @ParameterizedTest
    @CsvSource({
        "1000000001, 1000000001 nm",
        "-999999999999999999, -999999999999999999 nm",
        "9223372036854775808, 9223372036854.775808 mm",
        "-100000000000000000000, -100000000000000 mm"
    })
    void refusesALengthBeyondAMetre(String nanometres, String value) {
        Ratio ratio = Ratio.parse(nanometres);
        Contracts.refuses(ratio::floorNanometres, value, "-1000 mm to 1000 mm");
        Contracts.refuses(ratio::ceilingNanometres, value, "-1000 mm to 1000 mm");
    }

    @Test
    void isOrderedByValue() {
        Contracts.order(
                List.of(Ratio.of(-3, 2), Ratio.ZERO, Ratio.of(333_333, 1_000_000), THIRD, HALF, Ratio.of(2, 3)));
    }

    // Equality, text, serialisation, nulls

    @Test
    void isEqualByValue() {
        Contracts.equality(Ratio.of(2, 4), Ratio.parse("0.50"), List.of(Ratio.of(-1, 2), Ratio.of(2, 1), THIRD));
    }

    @ParameterizedTest
    @CsvSource({
        "3, 2, 1.5",
        "-1, 8, -0.125",
        "1, 3, 1/3",
        "-25400000, 26, -12700000/13",
        "0, 5, 0",
        "1000, 1, 1000",
        "720, 7, 720/7"
    })
    void writesADecimalWhereThereIsAFiniteOne(long above, long below, String text) {
        assertThat(Ratio.of(above, below)).hasToString(text);
    }

    static Stream<Ratio> ratiosWithManyDigits() {
        Ratio tiny = Ratio.parse("1/1208925819614629174706176");
        return Stream.of(
                Ratio.parse(".1234567890123456789012345"),
                Ratio.parse("0.1234567890123456789012345"),
                Ratio.parse("1234567890123456789012345"),
                tiny,
                tiny.times(tiny),
                tiny.dividedBy(THIRD),
                Ratio.ONE.dividedBy(tiny).dividedBy(tiny),
                Ratio.of(Long.MAX_VALUE, 1).times(Ratio.of(Long.MIN_VALUE, 7)),
                Ratio.of(new BigDecimal("1E+40")),
                Ratio.of(new BigDecimal("-1E-40")));
    }

    @ParameterizedTest
    @MethodSource("ratiosWithManyDigits")
    void readsBackWhatItWroteHoweverManyDigits(Ratio ratio) {
        Contracts.roundTrip(ratio, Ratio::parse);
    }

    @Test
    void serialises() {
        Contracts.serialises(THIRD);
        Contracts.serialises(Ratio.of(Long.MIN_VALUE, 3).times(Ratio.of(Long.MAX_VALUE, 5)));
    }

    @Test
    void refusesNull() {
        Contracts.refuseNull(
                () -> Ratio.of((BigDecimal) null),
                () -> Ratio.nanometresOf(null),
                () -> Ratio.parse(null),
                () -> HALF.plus(null),
                () -> HALF.minus(null),
                () -> HALF.times(null),
                () -> HALF.dividedBy(null),
                () -> HALF.compareTo(null));
    }
}
