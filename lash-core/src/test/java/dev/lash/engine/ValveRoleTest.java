package dev.lash.engine;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.TextParseException.Reason;
import dev.lash.testing.Contracts;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ValveRoleTest {
    @ParameterizedTest
    @CsvSource({"INTAKE, in, intake", "EXHAUST, ex, exhaust"})
    void hasACodeAndAWord(ValveRole role, String code, String word) {
        assertThat(role.code()).isEqualTo(code);
        assertThat(role.word()).isEqualTo(word);
        assertThat(role).hasToString(code);
        Contracts.roundTrip(role, ValveRole::parse);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "IN", "intake", "inlet", "ex ", "exhaust"})
    void refusesOtherWords(String text) {
        assertThat(Contracts.refusesText(ValveRole::parse, text, Reason.UNKNOWN_WORD, 0))
                .hasMessageContainingAll("valve role \"" + text + "\"", "in or ex", "write in for intake");
    }

    @Test
    void refusesNull() {
        Contracts.refuseNull(() -> ValveRole.parse(null));
    }
}
