package dev.lash.engine;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.Ratio;
import dev.lash.measure.TextParseException.Reason;
import dev.lash.testing.Contracts;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class ScrewHeadTest {
    @Test
    void countsItsFlats() {
        assertThat(ScrewHead.HEXAGON.degreesPerFlat()).contains(Ratio.of(60, 1));
        assertThat(ScrewHead.SQUARE.degreesPerFlat()).contains(Ratio.of(90, 1));
        assertThat(ScrewHead.SLOT.degreesPerFlat()).isEmpty();
        assertThat(ScrewHead.NOT_STATED.degreesPerFlat()).isEmpty();
    }

    @Test
    void hasFourWords() {
        assertThat(List.of(ScrewHead.values()))
                .extracting(ScrewHead::word)
                .containsExactly("hexagon", "square", "slot", "not-stated");
    }

    @ParameterizedTest
    @EnumSource
    void isReadFromItsWord(ScrewHead head) {
        assertThat(head).hasToString(head.word());
        Contracts.roundTrip(head, ScrewHead::parse);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "Hexagon", "hex", " slot", "not stated"})
    void refusesOtherWords(String text) {
        assertThat(Contracts.refusesText(ScrewHead::parse, text, Reason.UNKNOWN_WORD, 0))
                .hasMessageContainingAll(
                        "screw head \"" + text + "\"", "hexagon, square, slot or not-stated", "write the shape");
    }

    @Test
    void refusesNull() {
        Contracts.refuseNull(() -> ScrewHead.parse(null));
    }
}
