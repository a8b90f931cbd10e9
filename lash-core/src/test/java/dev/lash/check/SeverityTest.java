package dev.lash.check;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

class SeverityTest {
    @Test
    void wordsAreThoseOfTheDocumentsWorstFirst() {
        assertThat(Arrays.stream(Severity.values()).map(Severity::word)).containsExactly("error", "doubt", "note");
        assertThat(Severity.DOUBT).hasToString("doubt");
    }
}
