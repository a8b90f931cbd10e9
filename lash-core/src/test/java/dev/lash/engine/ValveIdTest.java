package dev.lash.engine;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.TextParseException.Reason;
import dev.lash.testing.Contracts;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ValveIdTest {
    // Factories

    @ParameterizedTest
    @CsvSource({"1, INTAKE, 1, 1-in-1", "99, EXHAUST, 9, 99-ex-9"})
    void isCylinderRoleAndPlace(int cylinder, ValveRole role, int place, String text) {
        ValveId valve = new ValveId(cylinder, role, place);
        assertThat(valve.cylinder()).isEqualTo(cylinder);
        assertThat(valve.role()).isEqualTo(role);
        assertThat(valve.place()).isEqualTo(place);
        assertThat(valve).hasToString(text);
    }

    @ParameterizedTest
    @CsvSource({"0, 1", "-1, 1", "100, 1", "1, 0", "1, -1", "1, 10"})
    void refusesNumbersOutOfRange(int cylinder, int place) {
        Contracts.refuses(
                () -> new ValveId(cylinder, ValveRole.INTAKE, place),
                "valve \"" + cylinder + "-in-" + place + "\"",
                "cylinder 1 to 99 and place 1 to 9",
                "the maker's cylinder number");
    }

    // Parsing

    @ParameterizedTest
    @CsvSource({"1-in-1, 1, INTAKE, 1", "12-ex-2, 12, EXHAUST, 2", "99-in-9, 99, INTAKE, 9"})
    void isReadFromItsName(String text, int cylinder, ValveRole role, int place) {
        assertThat(ValveId.parse(text)).isEqualTo(new ValveId(cylinder, role, place));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                " ",
                "1-in",
                "1-in-",
                "in-1",
                "0-in-1",
                "01-in-1",
                "100-in-1",
                "1-in-0",
                "1-in-10",
                "1-IN-1",
                "1-int-1",
                "1 in 1",
                " 1-in-1",
                "1-in-1 ",
                "1-in-1\n",
                "-1-in-1",
                "١-in-1",
                "1–in–1"
            })
    void refusesOtherNames(String text) {
        assertThat(Contracts.refusesText(ValveId::parse, text, Reason.WRONG_FORM, 0))
                .hasMessageContainingAll("is not the name of a valve", "\"1-in-1\" or \"2-ex-1\"", "cylinder-in-place");
    }

    // Order, equality, serialisation, nulls

    @Test
    void isOrderedByCylinderRoleAndPlace() {
        Contracts.order(Stream.of("1-in-1", "1-in-2", "1-ex-1", "1-ex-2", "2-in-1", "10-in-1", "10-ex-9")
                .map(ValveId::parse)
                .toList());
    }

    @Test
    void isEqualByItsParts() {
        Contracts.equality(
                ValveId.parse("1-in-2"),
                new ValveId(1, ValveRole.INTAKE, 2),
                List.of(ValveId.parse("2-in-2"), ValveId.parse("1-ex-2"), ValveId.parse("1-in-1")));
    }

    @Test
    void serialises() {
        Contracts.serialises(ValveId.parse("3-ex-1"));
    }

    @Test
    void refusesNull() {
        Contracts.refuseNull(
                () -> new ValveId(1, null, 1),
                () -> ValveId.parse(null),
                () -> ValveId.parse("1-in-1").compareTo(null));
    }
}
