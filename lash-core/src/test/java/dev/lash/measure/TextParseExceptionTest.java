package dev.lash.measure;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.TextParseException.Reason;
import dev.lash.testing.Contracts;
import org.junit.jupiter.api.Test;

class TextParseExceptionTest {
    private final TextParseException refused = new TextParseException(
            Reason.NO_UNIT, "length", "0.10", 4, "has no unit", "a number with its unit", "add the unit");

    @Test
    void saysWhyAndWhere() {
        assertThat(refused)
                .isInstanceOf(RejectedValueException.class)
                .hasMessage("length \"0.10\": has no unit; expected a number with its unit; add the unit");
        assertThat(refused.reason()).isEqualTo(Reason.NO_UNIT);
        assertThat(refused.position()).isEqualTo(4);
    }

    @Test
    void serialises() {
        TextParseException copy = Contracts.copied(refused);
        assertThat(copy).hasMessage(refused.getMessage());
        assertThat(copy.reason()).isEqualTo(Reason.NO_UNIT);
        assertThat(copy.position()).isEqualTo(4);
    }

    @Test
    void refusesNull() {
        Contracts.refuseNull(
                () -> new TextParseException(null, "a", "b", 0, "c", "d", "e"),
                () -> new TextParseException(Reason.EMPTY, "a", null, 0, "c", "d", "e"));
    }
}
