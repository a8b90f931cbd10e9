package dev.lash.gauge;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.TextParseException.Reason;
import dev.lash.testing.Contracts;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class FitTest {
    @Test
    void hasFourWords() {
        assertThat(List.of(Fit.values())).extracting(Fit::word).containsExactly("goes", "drags", "forced", "refuses");
    }

    @ParameterizedTest
    @EnumSource
    void isReadFromItsWord(Fit fit) {
        assertThat(fit).hasToString(fit.word());
        Contracts.roundTrip(fit, Fit::parse);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", " goes", "Goes", "GOES", "go", "tight", "no-go"})
    void refusesOtherWords(String text) {
        assertThat(Contracts.refusesText(Fit::parse, text, Reason.UNKNOWN_WORD, 0))
                .hasMessageContainingAll(
                        "fit \"" + text + "\"", "goes, drags, forced or refuses", "write what the hand felt");
    }

    @Test
    void refusesNull() {
        Contracts.refuseNull(() -> Fit.parse(null));
    }
}
