package dev.lash.trend;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;

class NormalTableTest {
    private static final NormalDistribution NORMAL = new NormalDistribution(null, 0, 1);
    private static final NormalTable TABLE = NormalTable.SHARED;

    @Test
    void isTheNormalDistributionToItsStatedError() {
        Random random = new Random(20_310_402);
        for (int i = 0; i < 20_000; i++) {
            double z = 17 * random.nextDouble() - 8.5;
            assertThat(TABLE.upTo(z))
                    .isCloseTo(NORMAL.cumulativeProbability(z), within(1e-6 * NORMAL.cumulativeProbability(z)));
            assertThat(TABLE.density(z)).isCloseTo(NORMAL.density(z), within(1e-6 * NORMAL.density(z)));
            double other = 17 * random.nextDouble() - 8.5;
            double low = Math.min(z, other);
            double high = Math.max(z, other);
            double wanted = low > 0
                    ? NORMAL.cumulativeProbability(-low) - NORMAL.cumulativeProbability(-high)
                    : NORMAL.cumulativeProbability(high) - NORMAL.cumulativeProbability(low);
            assertThat(TABLE.between(low, high))
                    .isCloseTo(
                            wanted,
                            within(2e-6 * NORMAL.cumulativeProbability(low > 0 ? -low : Math.min(high, 0)) + 1e-15));
        }
    }

    @Test
    void hasBothEndsAndTheMiddle() {
        assertThat(TABLE.upTo(0)).isEqualTo(0.5);
        assertThat(TABLE.between(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY))
                .isEqualTo(1);
        assertThat(TABLE.upTo(Double.NEGATIVE_INFINITY)).isZero();
        assertThat(TABLE.upTo(40)).isEqualTo(1);
        assertThat(TABLE.density(40)).isZero();
        assertThat(TABLE.between(12, 14)).isZero();
        assertThat(TABLE.between(0.3, 0.3)).isZero();
    }
}
