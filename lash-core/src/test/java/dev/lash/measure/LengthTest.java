package dev.lash.measure;

import static dev.lash.measure.TextParseException.Reason.DECIMAL_COMMA;
import static dev.lash.measure.TextParseException.Reason.EMPTY;
import static dev.lash.measure.TextParseException.Reason.NOT_A_NUMBER;
import static dev.lash.measure.TextParseException.Reason.NO_UNIT;
import static dev.lash.measure.TextParseException.Reason.OUT_OF_RANGE;
import static dev.lash.measure.TextParseException.Reason.TOO_FINE;
import static dev.lash.measure.TextParseException.Reason.TOO_LONG;
import static dev.lash.measure.TextParseException.Reason.UNKNOWN_UNIT;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.TextParseException.Reason;
import dev.lash.testing.Contracts;
import java.math.BigDecimal;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class LengthTest {
    private static final Length TEN_HUNDREDTHS = Length.ofNanometres(100_000);

    // Factories

    @ParameterizedTest
    @ValueSource(longs = {0, 1, -1, 25_400, 1_000_000_000, -1_000_000_000})
    void keepsItsNanometres(long nanometres) {
        assertThat(Length.ofNanometres(nanometres).nanometres()).isEqualTo(nanometres);
    }

    @ParameterizedTest
    @ValueSource(longs = {1_000_000_001, -1_000_000_001, Long.MAX_VALUE, Long.MIN_VALUE})
    void refusesMoreThanAMetre(long nanometres) {
        Contracts.refuses(
                () -> Length.ofNanometres(nanometres),
                "length",
                nanometres + " nm",
                "is out of range",
                "-1000 mm to 1000 mm",
                "check the number and its unit");
    }

    @Test
    void zeroIsOne() {
        assertThat(Length.ZERO.nanometres()).isZero();
        assertThat(Length.ofNanometres(0)).isSameAs(Length.ZERO);
        assertThat(Length.ofMillimetres("-0.00")).isSameAs(Length.ZERO);
    }

    @ParameterizedTest
    @CsvSource({
        "0.10, MILLIMETRE, 100000",
        "1E-1, MILLIMETRE, 100000",
        "1E+2, MILLIMETRE, 100000000",
        "100, MICROMETRE, 100000",
        "10, HUNDREDTH, 100000",
        "0.004, INCH, 101600",
        "4, THOU, 101600",
        "-4, THOU, -101600",
        "0.000005, INCH, 127",
        "0.000001, MILLIMETRE, 1",
        "1000, MILLIMETRE, 1000000000"
    })
    void takesADecimalOfAUnitExactly(BigDecimal number, LengthUnit unit, long nanometres) {
        assertThat(Length.of(number, unit).nanometres()).isEqualTo(nanometres);
    }

    @ParameterizedTest
    @CsvSource({
        "0.0000001, MILLIMETRE, 0.0000001 mm, whole number of nanometres",
        "0.000001, INCH, 0.000001 in, whole number of nanometres",
        "1000.000001, MILLIMETRE, 1000.000001 mm, 1000 mm",
        "40, INCH, 40 in, 1000 mm",
        "1E+20, THOU, 100000000000000000000 thou, 1000 mm",
        "1E-20, MILLIMETRE, 0.00000000000000000001 mm, whole number of nanometres"
    })
    void refusesADecimalThatDoesNotFit(BigDecimal number, LengthUnit unit, String value, String bound) {
        Contracts.refuses(() -> Length.of(number, unit), value, bound);
    }

    @ParameterizedTest
    @ValueSource(strings = {"1E+999999999", "-1E+999999999", "1E-999999999"})
    void refusesAnExtremeExponentInAShortMessage(String number) {
        RejectedValueException refused =
                Contracts.refuses(() -> Length.of(new BigDecimal(number), LengthUnit.MILLIMETRE), number + " mm");
        assertThat(refused.value()).hasSizeLessThan(40);
    }

    @Test
    void readsBareNumbersOfADeclaredUnit() {
        assertThat(Length.ofMillimetres("0.10")).isEqualTo(TEN_HUNDREDTHS);
        assertThat(Length.ofInches("0.004")).isEqualTo(Length.ofNanometres(101_600));
    }

    // Parsing

    @ParameterizedTest
    @CsvSource(
            quoteCharacter = '\'',
            value = {
                "0.10 mm, 100000",
                "0.1mm, 100000",
                "'  0.10   mm  ', 100000",
                "+0.10 mm, 100000",
                "-0.10 mm, -100000",
                ".1 mm, 100000",
                "1. mm, 1000000",
                "0.10 MM, 100000",
                "000000.1000000 mm, 100000",
                "00000000000000000000000000000000000000000000000000000000000000000000001000000 um, 1000000000",
                "100 um, 100000",
                "100 µm, 100000",
                "100 μm, 100000",
                "10 hundredths, 100000",
                "1 hundredth, 10000",
                "0.004 in, 101600",
                "0.004 inch, 101600",
                "'.004\"', 101600",
                "'.004 ″', 101600",
                "4 thou, 101600",
                "1000 mm, 1000000000",
                "-1000 mm, -1000000000"
            })
    void readsWhatShopsWrite(String text, long nanometres) {
        assertThat(Length.parse(text)).isEqualTo(Length.ofNanometres(nanometres));
    }

    @Test
    void readsTextsOfUpTo80Characters() {
        assertThat(Length.parse(" ".repeat(76) + "1 mm")).isEqualTo(Length.parse("1 mm"));
    }

    @Test
    void aUnitInTheTextWinsOverTheDeclaredOne() {
        assertThat(Length.parse("4", LengthUnit.THOU)).isEqualTo(Length.ofNanometres(101_600));
        assertThat(Length.parse("0.10", LengthUnit.MILLIMETRE)).isEqualTo(TEN_HUNDREDTHS);
        assertThat(Length.parse("0.10 mm", LengthUnit.INCH)).isEqualTo(TEN_HUNDREDTHS);
        assertThat(Length.ofInches("0.10 mm")).isEqualTo(TEN_HUNDREDTHS);
    }

    static Stream<Arguments> badTexts() {
        return Stream.of(
                Arguments.of("", EMPTY, 0, "write the value"),
                Arguments.of(" \t ", EMPTY, 0, "write the value"),
                Arguments.of("0.10", NO_UNIT, 4, "0.10 mm, 0.10 in or 0.10 thou"),
                Arguments.of("-5 ", NO_UNIT, 3, "-5 mm, -5 in or -5 thou"),
                Arguments.of("0.10 cm", UNKNOWN_UNIT, 5, "mm, um, hundredths, in or thou"),
                Arguments.of("0.10 mm x", UNKNOWN_UNIT, 5, "\"mm x\" is not a unit of length"),
                Arguments.of("0.10mmm", UNKNOWN_UNIT, 4, "\"mmm\""),
                Arguments.of("1.2.3 mm", UNKNOWN_UNIT, 3, "\".3 mm\""),
                Arguments.of("5e", UNKNOWN_UNIT, 1, "\"e\""),
                Arguments.of("5em", UNKNOWN_UNIT, 1, "\"em\""),
                Arguments.of("0,10 mm", DECIMAL_COMMA, 1, "write a decimal point"),
                Arguments.of(",5 mm", DECIMAL_COMMA, 0, "write a decimal point"),
                Arguments.of("1,000.5 mm", DECIMAL_COMMA, 1, "no grouping"),
                Arguments.of("mm", NOT_A_NUMBER, 0, "write the number first"),
                Arguments.of("  ten mm", NOT_A_NUMBER, 2, "write the number first"),
                Arguments.of("- 5 mm", NOT_A_NUMBER, 0, "write the number first"),
                Arguments.of("--5 mm", NOT_A_NUMBER, 0, "write the number first"),
                Arguments.of(".", NOT_A_NUMBER, 0, "write the number first"),
                Arguments.of("\t5 mm", NOT_A_NUMBER, 0, "write the number first"),
                Arguments.of("\u0661 mm", NOT_A_NUMBER, 0, "write the number first"),
                Arguments.of("NaN mm", NOT_A_NUMBER, 0, "write the number first"),
                Arguments.of("1e-1 mm", NOT_A_NUMBER, 1, "write the number out"),
                Arguments.of("1E5", NOT_A_NUMBER, 1, "has an exponent"),
                Arguments.of("0.0000001 mm", TOO_FINE, 0, "at most 6 decimals"),
                Arguments.of("0.0001 thou", TOO_FINE, 0, "write fewer digits"),
                Arguments.of("1000.000001 mm", OUT_OF_RANGE, 0, "-1000 mm to 1000 mm"),
                Arguments.of("-39.5 in", OUT_OF_RANGE, 0, "-1000 mm to 1000 mm"),
                Arguments.of("9".repeat(25) + " mm", OUT_OF_RANGE, 0, "-1000 mm to 1000 mm"),
                Arguments.of("9".repeat(26) + " mm", TOO_LONG, 0, "at most 25 digits"),
                Arguments.of("000" + "9".repeat(26) + " mm", TOO_LONG, 0, "the number has 26 digits"),
                Arguments.of("e5 mm", NOT_A_NUMBER, 0, "does not begin with a number"),
                Arguments.of("1 mm" + " ".repeat(77), TOO_LONG, 80, "81 characters"));
    }

    @ParameterizedTest
    @MethodSource("badTexts")
    void refusesOtherTexts(String text, Reason reason, int position, String part) {
        TextParseException refused = Contracts.refusesText(Length::parse, text, reason, position);
        assertThat(refused).hasMessageStartingWith("length " + RejectedValueException.quote(text));
        assertThat(refused).hasMessageContaining(part);
        assertThat(refused.value()).isEqualTo(text);
    }

    @Test
    void refusesTheSameTextsWithADeclaredUnitButForTheMissingOne() {
        badTexts().forEach(row -> {
            Reason reason = (Reason) row.get()[1];
            String text = (String) row.get()[0];
            if (reason != NO_UNIT && !text.equals("1E5")) {
                Contracts.refusesText(
                        t -> Length.parse(t, LengthUnit.MILLIMETRE), text, reason, (Integer) row.get()[2]);
            }
        });
    }

    // The inch: 25.4 mm exactly (international yard and pound agreement, 1959)

    @ParameterizedTest
    @CsvSource({
        "1 in, 25.40 mm",
        "1 thou, 0.0254 mm",
        "0.001 in, 0.0254 mm",
        // The agreement's figures. Two manuals have a misprint: 0.03 mm for the first (Westerbeke manual, p. 45), 0.028
        // and
        // 0.058 mm for the others (TM 10-4320-307, p. 2-223).
        "0.012 in, 0.3048 mm",
        "0.011 in, 0.2794 mm",
        "0.023 in, 0.5842 mm",
        "0.004 in, 0.1016 mm",
        "0.0015 in, 0.0381 mm"
    })
    void anInchIs25Point4Millimetres(String inches, String millimetres) {
        assertThat(Length.parse(inches)).isEqualTo(Length.parse(millimetres)).hasToString(millimetres);
    }

    // Operations

    @Test
    void addsAndTakesAwayExactly() {
        Length thou = Length.parse("1 thou");
        assertThat(TEN_HUNDREDTHS.plus(thou)).isEqualTo(Length.ofNanometres(125_400));
        assertThat(TEN_HUNDREDTHS.minus(thou)).isEqualTo(Length.ofNanometres(74_600));
        assertThat(thou.minus(TEN_HUNDREDTHS)).isEqualTo(Length.ofNanometres(-74_600));
        assertThat(thou.times(-3)).isEqualTo(Length.ofNanometres(-76_200));
        assertThat(thou.times(0)).isEqualTo(Length.ZERO);
        // What doubles get wrong: ten times 0.1 is 1.
        assertThat(Length.ofMillimetres("0.1").times(10)).isEqualTo(Length.ofMillimetres("1"));
    }

    /** A worked stack-up in print: ten leaves of 0.010 in at the upper limit of 0.00035 in each are 0.0035 in too thick. */
    @Test
    void tenLeafTolerancesAddUpAsPrinted() {
        // Feeler gage accumulation and tolerance stack-ups (a gage maker's technical note).
        assertThat(Length.ofInches("0.00035").times(10)).isEqualTo(Length.ofInches("0.0035"));
        assertThat(Length.ofInches("0.010").plus(Length.ofInches("0.00035")).times(10))
                .isEqualTo(Length.ofInches("0.1035"));
    }

    @Test
    void refusesResultsBeyondAMetre() {
        Length metre = Length.ofMillimetres("1000");
        Length nanometre = Length.ofNanometres(1);
        Contracts.refuses(() -> metre.plus(nanometre), "1000000001 nm", "-1000 mm to 1000 mm");
        Contracts.refuses(() -> metre.negated().minus(nanometre), "-1000000001 nm", "-1000 mm to 1000 mm");
        Contracts.refuses(() -> metre.times(2), "2000000000 nm", "-1000 mm to 1000 mm");
        Contracts.refuses(() -> metre.times(Integer.MIN_VALUE), "-2147483648000000000 nm", "-1000 mm to 1000 mm");
    }

    @Test
    void knowsItsSign() {
        Length less = Length.parse("-0.02 mm");
        assertThat(less.signum()).isEqualTo(-1);
        assertThat(Length.ZERO.signum()).isZero();
        assertThat(TEN_HUNDREDTHS.signum()).isOne();
        assertThat(less.abs()).isEqualTo(Length.parse("0.02 mm"));
        assertThat(less.negated()).isEqualTo(Length.parse("0.02 mm"));
        assertThat(TEN_HUNDREDTHS.abs()).isEqualTo(TEN_HUNDREDTHS);
        assertThat(Length.ZERO.negated()).isSameAs(Length.ZERO);
    }

    @Test
    void comparesAcrossUnits() {
        Length fourThou = Length.parse("4 thou");
        Contracts.order(List.of(
                Length.parse("-1 mm"),
                Length.ZERO,
                Length.ofNanometres(1),
                Length.parse("0.10 mm"),
                fourThou,
                Length.parse("0.11 mm")));
        assertThat(TEN_HUNDREDTHS.isLessThan(fourThou)).isTrue();
        assertThat(fourThou.isLessThan(fourThou)).isFalse();
        assertThat(fourThou.isMoreThan(TEN_HUNDREDTHS)).isTrue();
        assertThat(fourThou.isMoreThan(fourThou)).isFalse();
        assertThat(Length.min(fourThou, TEN_HUNDREDTHS)).isEqualTo(TEN_HUNDREDTHS);
        assertThat(Length.min(TEN_HUNDREDTHS, fourThou)).isEqualTo(TEN_HUNDREDTHS);
        assertThat(Length.max(fourThou, TEN_HUNDREDTHS)).isEqualTo(fourThou);
        assertThat(Length.max(TEN_HUNDREDTHS, fourThou)).isEqualTo(fourThou);
    }

    @Test
    void givesItsMillimetresExactly() {
        assertThat(Length.parse("1 thou").millimetres()).isEqualByComparingTo("0.0254");
        assertThat(Length.parse("-1000 mm").millimetres()).isEqualByComparingTo("-1000");
    }

    @Test
    void theExampleOfThePackageComment() {
        Length leaf = Length.parse("0.004 in");
        assertThat(leaf.toString()).isEqualTo("0.1016 mm");
        assertThat(leaf.toString(LengthUnit.INCH)).isEqualTo("0.004 in");
        assertThat(LengthInterval.parse("(0.12, 0.15] mm").contains(Length.parse("0.15 mm")))
                .isTrue();
    }

    // Equality, text, serialisation, nulls

    @Test
    void isEqualByValueWhateverTheUnitItWasWrittenIn() {
        Contracts.equality(
                Length.parse("0.0254 mm"),
                Length.parse("1 thou"),
                List.of(Length.ofNanometres(25_401), Length.ofNanometres(-25_400), Length.ZERO));
    }

    @ParameterizedTest
    @CsvSource({
        "0, MILLIMETRE, 0.00 mm",
        "0, INCH, 0.000 in",
        "0, THOU, 0 thou",
        "100000, MILLIMETRE, 0.10 mm",
        "100000, MICROMETRE, 100 um",
        "100000, HUNDREDTH, 10 hundredths",
        "101600, INCH, 0.004 in",
        "101600, THOU, 4 thou",
        "101600, MILLIMETRE, 0.1016 mm",
        "38100, THOU, 1.5 thou",
        "-25400000, INCH, -1.000 in",
        "1, MILLIMETRE, 0.000001 mm",
        "1, MICROMETRE, 0.001 um",
        "127, INCH, 0.000005 in",
        "127, THOU, 0.005 thou",
        "1000000000, MILLIMETRE, 1000.00 mm",
        "-1000000000, MICROMETRE, -1000000 um"
    })
    void writesItselfInAUnit(long nanometres, LengthUnit unit, String text) {
        Length length = Length.ofNanometres(nanometres);
        assertThat(length.toString(unit)).isEqualTo(text);
        assertThat(length.numberIn(unit)).contains(text.substring(0, text.indexOf(' ')));
    }

    @ParameterizedTest
    @CsvSource({"50000, INCH, 0.05 mm", "1, THOU, 0.000001 mm", "128, INCH, 0.000128 mm"})
    void writesMillimetresWhereAUnitHasNoFiniteDecimal(long nanometres, LengthUnit unit, String text) {
        Length length = Length.ofNanometres(nanometres);
        assertThat(length.toString(unit)).isEqualTo(text);
        assertThat(length.numberIn(unit)).isEmpty();
    }

    @Test
    void writesMillimetresWithTwoDecimalsAtLeast() {
        assertThat(Length.parse("5 mm")).hasToString("5.00 mm");
        assertThat(Length.parse("2.425 mm")).hasToString("2.425 mm");
    }

    @Test
    void serialises() {
        Contracts.serialises(Length.parse("-4 thou"));
        Contracts.serialises(Length.ZERO);
    }

    @Test
    void refusesNull() {
        Contracts.refuseNull(
                () -> Length.of(null, LengthUnit.MILLIMETRE),
                () -> Length.of(BigDecimal.ONE, null),
                () -> Length.ofMillimetres(null),
                () -> Length.ofInches(null),
                () -> Length.parse(null),
                () -> Length.parse(null, LengthUnit.INCH),
                () -> Length.parse("1 mm", null),
                () -> Length.ZERO.plus(null),
                () -> Length.ZERO.minus(null),
                () -> Length.ZERO.isLessThan(null),
                () -> Length.ZERO.isMoreThan(null),
                () -> Length.ZERO.compareTo(null),
                () -> Length.min(null, Length.ZERO),
                () -> Length.min(Length.ZERO, null),
                () -> Length.max(null, Length.ZERO),
                () -> Length.max(Length.ZERO, null),
                () -> Length.ZERO.toString(null),
                () -> Length.ZERO.numberIn(null));
    }
}
