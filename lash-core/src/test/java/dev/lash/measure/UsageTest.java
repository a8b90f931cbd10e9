package dev.lash.measure;

import static dev.lash.measure.TextParseException.Reason.DECIMAL_COMMA;
import static dev.lash.measure.TextParseException.Reason.EMPTY;
import static dev.lash.measure.TextParseException.Reason.NOT_A_NUMBER;
import static dev.lash.measure.TextParseException.Reason.NO_UNIT;
import static dev.lash.measure.TextParseException.Reason.OUT_OF_RANGE;
import static dev.lash.measure.TextParseException.Reason.UNKNOWN_UNIT;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.TextParseException.Reason;
import dev.lash.measure.Usage.Unit;
import dev.lash.testing.Contracts;
import java.math.BigDecimal;
import java.util.EnumSet;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class UsageTest {
    private static final Usage KILOMETRES = Usage.parse("18450 km");

    // Factories

    @Test
    void keepsAmountAndUnit() {
        Usage usage = Usage.of(new BigDecimal("640.50"), Unit.HOUR);
        assertThat(usage.amount()).isEqualByComparingTo("640.5");
        assertThat(usage.unit()).isEqualTo(Unit.HOUR);
        assertThat(Usage.of(new BigDecimal("100000000"), Unit.MILE)).hasToString("100000000 mi");
        assertThat(Usage.of(new BigDecimal("0E+3"), Unit.MILE)).hasToString("0 mi");
        String longest = "12345678.12345678901234567";
        assertThat(Usage.of(new BigDecimal(longest), Unit.HOUR)).hasToString(longest + " h");
    }

    @ParameterizedTest
    @ValueSource(strings = {"-0.1", "100000000.1"})
    void refusesWhatNoCounterShows(String amount) {
        Contracts.refuses(
                () -> Usage.of(new BigDecimal(amount), Unit.KILOMETRE),
                "usage",
                amount + " km",
                "is out of range",
                "0 to 100000000 km",
                "write what the counter shows");
    }

    @ParameterizedTest
    @ValueSource(strings = {"0.00000000000000000000000001", "1E-999999999", "12345678.123456789012345678"})
    void refusesFinerThanItCouldReadBack(String amount) {
        RejectedValueException refused = Contracts.refuses(
                () -> Usage.of(new BigDecimal(amount), Unit.HOUR), "usage", amount + " h", "at most 25 digits");
        assertThat(refused.value()).hasSizeLessThan(60);
    }

    @Test
    void refusesAnExtremeExponentInAShortMessage() {
        RejectedValueException refused = Contracts.refuses(
                () -> Usage.of(new BigDecimal("1E+999999999"), Unit.HOUR), "1E+999999999 h", "0 to 100000000 h");
        assertThat(refused.value()).hasSizeLessThan(40);
    }

    // Units

    @Test
    void unitsCountDistanceOrTime() {
        assertThat(EnumSet.allOf(Unit.class)).filteredOn(Unit::isDistance).containsExactly(Unit.KILOMETRE, Unit.MILE);
        assertThat(EnumSet.allOf(Unit.class)).extracting(Unit::symbol).containsExactly("km", "mi", "h");
    }

    // Parsing

    @ParameterizedTest
    @CsvSource({
        "18450 km, 18450, KILOMETRE",
        "18450km, 18450, KILOMETRE",
        "' 18450 KM ', 18450, KILOMETRE",
        "11464 mi, 11464, MILE",
        "640.5 h, 640.5, HOUR",
        "640.5 H, 640.5, HOUR",
        "0 h, 0, HOUR",
        "-0 h, 0, HOUR",
        "100000000 km, 100000000, KILOMETRE"
    })
    void readsCounters(String text, BigDecimal amount, Unit unit) {
        assertThat(Usage.parse(text)).isEqualTo(Usage.of(amount, unit));
    }

    static Stream<Arguments> badTexts() {
        return Stream.of(
                Arguments.of(" ", EMPTY, 0),
                Arguments.of("18450", NO_UNIT, 5),
                Arguments.of("18450 k", UNKNOWN_UNIT, 6),
                Arguments.of("18450 km/h", UNKNOWN_UNIT, 6),
                Arguments.of("18 450 km", UNKNOWN_UNIT, 3),
                Arguments.of("18,450 km", DECIMAL_COMMA, 2),
                Arguments.of("km", NOT_A_NUMBER, 0),
                Arguments.of("1e5 km", NOT_A_NUMBER, 1),
                Arguments.of("-1 km", OUT_OF_RANGE, 0),
                Arguments.of("100000000.1 h", OUT_OF_RANGE, 0));
    }

    @ParameterizedTest
    @MethodSource("badTexts")
    void refusesOtherTexts(String text, Reason reason, int position) {
        assertThat(Contracts.refusesText(Usage::parse, text, reason, position))
                .hasMessageStartingWith("usage \"" + text + "\": ");
    }

    @Test
    void saysWhatUnitsThereAre() {
        assertThat(Contracts.refusesText(Usage::parse, "5 min", UNKNOWN_UNIT, 2))
                .hasMessageContainingAll("\"min\" is not a unit of usage", "km, mi or h", "add the unit");
        assertThat(Contracts.refusesText(Usage::parse, "-5 h", OUT_OF_RANGE, 0))
                .hasMessageContainingAll("0 to 100000000 h", "write what the counter shows");
    }

    // Operations

    @Test
    void comparesMilesAndKilometresExactly() {
        // 1 mi = 1.609344 km (international yard and pound agreement, 1959).
        Usage mile = Usage.parse("1 mi");
        assertThat(mile.compareAmount(Usage.parse("1.609344 km"))).isZero();
        assertThat(mile.compareAmount(Usage.parse("1.6093439 km"))).isPositive();
        assertThat(mile.compareAmount(Usage.parse("1.6093441 km"))).isNegative();
        assertThat(Usage.parse("1.609344 km").compareAmount(mile)).isZero();
        assertThat(Usage.parse("119 h").compareAmount(Usage.parse("120 h"))).isNegative();
    }

    @Test
    void doesNotCompareHoursWithDistance() {
        Usage hours = Usage.parse("120 h");
        assertThat(KILOMETRES.isSameKind(Usage.parse("1 mi"))).isTrue();
        assertThat(KILOMETRES.isSameKind(hours)).isFalse();
        Contracts.refuses(
                () -> KILOMETRES.compareAmount(hours),
                "18450 km and 120 h",
                "cannot be compared",
                "two distances or two running times");
    }

    // Equality, text, serialisation, nulls

    @Test
    void isEqualByNumberAndUnit() {
        Contracts.equality(
                KILOMETRES,
                Usage.of(new BigDecimal("1.8450E+4"), Unit.KILOMETRE),
                List.of(Usage.parse("18450 mi"), Usage.parse("18450 h"), Usage.parse("18450.5 km")));
        assertThat(Usage.parse("1 mi")).isNotEqualTo(Usage.parse("1.609344 km"));
    }

    @ParameterizedTest
    @CsvSource({"18450.0 km, 18450 km", "1000 h, 1000 h", "0.50 mi, 0.5 mi", "00012 H, 12 h"})
    void writesNumberAndUnit(String text, String written) {
        assertThat(Usage.parse(text)).hasToString(written);
    }

    @ParameterizedTest
    @ValueSource(strings = {".1234567890123456789012345 km", "12345678.12345678901234567 h"})
    void readsBackManyDigits(String text) {
        Contracts.roundTrip(Usage.parse(text), Usage::parse);
    }

    @Test
    void serialises() {
        Contracts.serialises(Usage.parse("640.5 h"));
    }

    @Test
    void refusesNull() {
        Contracts.refuseNull(
                () -> Usage.of(null, Unit.HOUR),
                () -> Usage.of(BigDecimal.ONE, null),
                () -> Usage.parse(null),
                () -> KILOMETRES.isSameKind(null),
                () -> KILOMETRES.compareAmount(null));
    }
}
