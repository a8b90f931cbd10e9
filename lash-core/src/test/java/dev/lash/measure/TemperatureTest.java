package dev.lash.measure;

import static dev.lash.measure.TextParseException.Reason.DECIMAL_COMMA;
import static dev.lash.measure.TextParseException.Reason.EMPTY;
import static dev.lash.measure.TextParseException.Reason.NOT_A_NUMBER;
import static dev.lash.measure.TextParseException.Reason.NO_UNIT;
import static dev.lash.measure.TextParseException.Reason.OUT_OF_RANGE;
import static dev.lash.measure.TextParseException.Reason.UNKNOWN_UNIT;
import static org.assertj.core.api.Assertions.assertThat;

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

class TemperatureTest {
    private static final Temperature COLD = Temperature.ofCelsius(20);

    // Factories

    @ParameterizedTest
    @ValueSource(ints = {-100, -1, 0, 20, 1000})
    void takesDegreesCelsius(int degrees) {
        assertThat(Temperature.ofCelsius(degrees).celsius()).isEqualTo(Ratio.of(degrees, 1));
    }

    @ParameterizedTest
    @ValueSource(ints = {-101, 1001, Integer.MIN_VALUE, Integer.MAX_VALUE})
    void refusesTemperaturesThatNoEngineHas(int degrees) {
        Contracts.refuses(
                () -> Temperature.ofCelsius(degrees),
                "temperature",
                degrees + " °C",
                "out of range",
                "-100 °C to 1000 °C",
                "check the number and its scale");
    }

    // Parsing

    @ParameterizedTest
    @CsvSource({
        "22 °C, 22, 1",
        "22°C, 22, 1",
        "22 C, 22, 1",
        "' 22.5  C ', 45, 2",
        "-0 °C, 0, 1",
        "32 °F, 0, 1",
        "212 F, 100, 1",
        "-40 °F, -40, 1",
        "100 °F, 340, 9",
        "-100 °C, -100, 1",
        "-148 °F, -100, 1",
        "1000 °C, 1000, 1",
        "1832 °F, 1000, 1"
    })
    void readsBothScales(String text, long above, long below) {
        assertThat(Temperature.parse(text).celsius()).isEqualTo(Ratio.of(above, below));
    }

    static Stream<Arguments> badTexts() {
        return Stream.of(
                Arguments.of("", EMPTY, 0),
                Arguments.of("22", NO_UNIT, 2),
                Arguments.of("22 ", NO_UNIT, 3),
                Arguments.of("22 K", UNKNOWN_UNIT, 3),
                Arguments.of("22 c", UNKNOWN_UNIT, 3),
                Arguments.of("22 °C cold", UNKNOWN_UNIT, 3),
                Arguments.of("22,5 °C", DECIMAL_COMMA, 2),
                Arguments.of("cold", NOT_A_NUMBER, 0),
                Arguments.of("-100.1 °C", OUT_OF_RANGE, 0),
                Arguments.of("1000.1 °C", OUT_OF_RANGE, 0),
                Arguments.of("-148.1 °F", OUT_OF_RANGE, 0),
                Arguments.of("1832.1 °F", OUT_OF_RANGE, 0));
    }

    @ParameterizedTest
    @MethodSource("badTexts")
    void refusesOtherTexts(String text, Reason reason, int position) {
        assertThat(Contracts.refusesText(Temperature::parse, text, reason, position))
                .hasMessageStartingWith("temperature \"" + text + "\": ")
                .hasMessageContaining("°C");
    }

    @Test
    void saysWhatScalesThereAre() {
        assertThat(Contracts.refusesText(Temperature::parse, "22", NO_UNIT, 2))
                .hasMessageContainingAll("has no scale", "°C or °F", "add the scale of the thermometer");
        assertThat(Contracts.refusesText(Temperature::parse, "295 K", UNKNOWN_UNIT, 4))
                .hasMessageContainingAll("\"K\" is not a scale of temperature", "°C or °F");
        assertThat(Contracts.refusesText(Temperature::parse, "2000 °F", OUT_OF_RANGE, 0))
                .hasMessageContainingAll("-100 °C to 1000 °C", "check the number and its scale");
    }

    // Operations

    @Test
    void comparesScalesExactly() {
        assertThat(Temperature.parse("68 °F").isAbove(COLD)).isFalse();
        assertThat(COLD.isAbove(Temperature.parse("68 °F"))).isFalse();
        assertThat(Temperature.parse("68.1 °F").isAbove(COLD)).isTrue();
        assertThat(COLD.isAbove(Temperature.parse("67.9 °F"))).isTrue();
        // A cold limit in print is 38 °C (service manual, Civic 1993); 100 °F is a little less.
        assertThat(Temperature.ofCelsius(38).isAbove(Temperature.parse("100 °F")))
                .isTrue();
    }

    @Test
    void isOrderedByTemperatureThenScale() {
        Contracts.order(List.of(
                Temperature.parse("-40 °C"),
                Temperature.parse("-40 °F"),
                Temperature.parse("0 °F"),
                Temperature.parse("0 °C"),
                Temperature.parse("32 °F"),
                Temperature.parse("33 °F"),
                Temperature.parse("1 °C")));
    }

    // Equality, text, serialisation, nulls

    @Test
    void isEqualByNumberAndScale() {
        Contracts.equality(
                COLD,
                Temperature.parse("20.00 C"),
                List.of(Temperature.parse("68 °F"), Temperature.parse("20 °F"), Temperature.ofCelsius(-20)));
    }

    @ParameterizedTest
    @CsvSource({"22.50 C, 22.5 °C", "100 F, 100 °F", "-0.0 C, 0 °C", "007 °C, 7 °C"})
    void writesNumberAndScale(String text, String written) {
        assertThat(Temperature.parse(text)).hasToString(written);
    }

    @ParameterizedTest
    @ValueSource(strings = {".1234567890123456789012345 °C", "-.000000000000000000000001 °F"})
    void readsBackManyDigits(String text) {
        Contracts.roundTrip(Temperature.parse(text), Temperature::parse);
    }

    @Test
    void serialises() {
        Contracts.serialises(COLD);
        Contracts.serialises(Temperature.parse("71.6 °F"));
    }

    @Test
    void refusesNull() {
        Contracts.refuseNull(() -> Temperature.parse(null), () -> COLD.isAbove(null), () -> COLD.compareTo(null));
    }
}
