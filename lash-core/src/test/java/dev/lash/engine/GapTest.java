package dev.lash.engine;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.TextParseException.Reason;
import dev.lash.testing.Contracts;
import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class GapTest {
    @Test
    void wordsAreThoseOfTheDocuments() {
        assertThat(Arrays.stream(Gap.values()).map(Gap::word)).containsExactly("only", "opener", "closer");
        assertThat(Gap.CLOSER).hasToString("closer");
    }

    @Test
    void standsBehindANameWhereThereIsMoreThanOne() {
        assertThat(Gap.ONLY.behind("1-in-1")).isEqualTo("1-in-1");
        assertThat(Gap.OPENER.behind("1-in-1")).isEqualTo("1-in-1 opener");
        assertThat(Gap.CLOSER.behind("exhaust")).isEqualTo("exhaust closer");
    }

    @ParameterizedTest
    @EnumSource(names = {"OPENER", "CLOSER"})
    void theGapsOfADesmodromicValveAreReadBack(Gap gap) {
        Contracts.roundTrip(gap, Gap::parse);
    }

    /** The only gap is not named: a document that does is about another train than its writer thinks. */
    @ParameterizedTest
    @ValueSource(strings = {"only", "", "Opener", "CLOSER", "closer ", "closing"})
    void otherWordsAreRefused(String text) {
        assertThat(Contracts.refusesText(Gap::parse, text, Reason.UNKNOWN_WORD, 0))
                .hasMessageContainingAll("gap \"" + text + "\"", "opener or closer", "desmodromic");
    }

    @Test
    void nullIsRefused() {
        Contracts.refuseNull(() -> Gap.parse(null), () -> Gap.ONLY.behind(null), () -> Gap.CLOSER.behind(null));
    }
}
