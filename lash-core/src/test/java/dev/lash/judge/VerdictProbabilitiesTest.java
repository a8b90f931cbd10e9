package dev.lash.judge;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.testing.Contracts;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class VerdictProbabilitiesTest {
    @Test
    void keepsThreeNumbersThatAddUpToOne() {
        VerdictProbabilities p = new VerdictProbabilities(0.25, 0.5, 0.25);
        assertThat(p.tight()).isEqualTo(0.25);
        assertThat(p.within()).isEqualTo(0.5);
        assertThat(p.loose()).isEqualTo(0.25);
        assertThat(p).isEqualTo(new VerdictProbabilities(0.25, 0.5, 0.25));
    }

    @Test
    void roundingIsForgiven() {
        assertThat(new VerdictProbabilities(0.1, 0.2, 0.7 + 1e-12).loose()).isEqualTo(0.7 + 1e-12);
        assertThat(new VerdictProbabilities(0, 1 + 1e-12, 0).within()).isEqualTo(1.0);
    }

    @Test
    void zeroHasOneSign() {
        assertThat(new VerdictProbabilities(-0.0, 1, -0.0)).isEqualTo(new VerdictProbabilities(0.0, 1, 0.0));
    }

    @ParameterizedTest
    @CsvSource({
        "-0.1, 0.6, 0.5, -0.1",
        "0.5, 1.2, -0.7, 1.2",
        "NaN, 0.5, 0.5, NaN",
        "Infinity, 0, 0, Infinity",
        "0.2, 0.2, 0.2, 0.2",
        "0.5, 0.5, 0.5, 0.5",
    })
    void badNumbersAreRefused(double tight, double within, double loose, String named) {
        Contracts.refuses(() -> new VerdictProbabilities(tight, within, loose), named, "1", "cumulative function");
    }

    @Test
    void survivesSerialisation() {
        VerdictProbabilities p = new VerdictProbabilities(0.25, 0.5, 0.25);
        Contracts.serialises(p);
    }
}
