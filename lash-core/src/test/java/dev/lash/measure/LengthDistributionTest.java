package dev.lash.measure;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LengthDistributionTest {
    /** Evenly spread from 0 to 1 mm. */
    private static final LengthDistribution EVEN =
            length -> Math.min(1, Math.max(0, length.nanometres() / 1_000_000.0));

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "(0.25, 0.75] mm | 0.5",
                "[0.25, 0.75) mm | 0.5",
                "[0.25, 0.25] mm | 0",
                "< 0.25 mm       | 0.25",
                ">= 0.25 mm      | 0.75",
                "any             | 1",
                "(-5, 0) mm      | 0",
                "(-5, 5) mm      | 1"
            })
    void anIntervalHasTheProbabilityBetweenItsEnds(String interval, double probability) {
        assertThat(EVEN.probabilityOf(LengthInterval.parse(interval))).isEqualTo(probability);
    }

    @Test
    void roundingNeverMakesItNegative() {
        LengthDistribution wavering = length -> length.signum() > 0 ? 0.3 : 0.3000000000000001;
        assertThat(wavering.probabilityOf(LengthInterval.parse("(0, 1) mm"))).isZero();
    }
}
