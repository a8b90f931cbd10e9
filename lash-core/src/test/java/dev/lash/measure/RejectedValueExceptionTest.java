package dev.lash.measure;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.testing.Contracts;
import org.junit.jupiter.api.Test;

class RejectedValueExceptionTest {
    private final RejectedValueException rejected = new RejectedValueException(
            "leaf", "6.00 mm", "is out of range", "at most 5.00 mm", "check the number and its unit");

    @Test
    void joinsItsPartsIntoOneSentence() {
        assertThat(rejected)
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage(
                        "leaf \"6.00 mm\": is out of range; expected at most 5.00 mm; check the number and its unit");
    }

    @Test
    void givesItsPartsOneByOne() {
        assertThat(rejected.what()).isEqualTo("leaf");
        assertThat(rejected.value()).isEqualTo("6.00 mm");
        assertThat(rejected.problem()).isEqualTo("is out of range");
        assertThat(rejected.expected()).isEqualTo("at most 5.00 mm");
        assertThat(rejected.mend()).isEqualTo("check the number and its unit");
        Contracts.isComplete(rejected);
    }

    // Quoting

    @Test
    void quotesAShortValueWhole() {
        assertThat(RejectedValueException.quote("")).isEqualTo("\"\"");
        assertThat(RejectedValueException.quote("22 °C")).isEqualTo("\"22 °C\"");
        assertThat(RejectedValueException.quote("x".repeat(60))).isEqualTo("\"" + "x".repeat(60) + "\"");
    }

    @Test
    void cutsALongValue() {
        assertThat(RejectedValueException.quote("x".repeat(61))).isEqualTo("\"" + "x".repeat(60) + "…\"");
        assertThat(RejectedValueException.quote("x".repeat(100_000))).hasSize(63);
    }

    @Test
    void doesNotCutACharacterInTwo() {
        String wrench = "\uD83D\uDD27";
        assertThat(RejectedValueException.quote("x".repeat(59) + wrench + "y"))
                .isEqualTo("\"" + "x".repeat(59) + "…\"");
        assertThat(RejectedValueException.quote("x".repeat(58) + wrench))
                .isEqualTo("\"" + "x".repeat(58) + wrench + "\"");
    }

    @Test
    void replacesControlCharacters() {
        assertThat(RejectedValueException.quote("a\nb\u001b[2Jc\u0085\u0000")).isEqualTo("\"a?b?[2Jc??\"");
    }

    @Test
    void keepsTheValueItselfWhole() {
        String text = "x".repeat(200) + "\n";
        RejectedValueException longOne = new RejectedValueException("a", text, "b", "c", "d");
        assertThat(longOne.value()).isEqualTo(text);
        Contracts.isComplete(longOne);
    }

    // Serialisation, nulls

    @Test
    void serialises() {
        RejectedValueException copy = Contracts.copied(rejected);
        assertThat(copy).hasMessage(rejected.getMessage());
        assertThat(copy.mend()).isEqualTo(rejected.mend());
    }

    @Test
    void refusesNull() {
        Contracts.refuseNull(
                () -> new RejectedValueException(null, "b", "c", "d", "e"),
                () -> new RejectedValueException("a", null, "c", "d", "e"),
                () -> new RejectedValueException("a", "b", null, "d", "e"),
                () -> new RejectedValueException("a", "b", "c", null, "e"),
                () -> new RejectedValueException("a", "b", "c", "d", null),
                () -> RejectedValueException.quote(null));
    }
}
