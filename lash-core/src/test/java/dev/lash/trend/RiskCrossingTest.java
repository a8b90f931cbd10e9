package dev.lash.trend;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class RiskCrossingTest {
    /** Found a little short of the place, in few evaluations, for smooth curves, kinks and steps. */
    @ParameterizedTest
    @ValueSource(doubles = {0.01, 0.05, 0.07, 0.6, 1, 4.9, 29.9})
    void endsALittleShort(double place) {
        for (DoubleUnaryOperator left : new DoubleUnaryOperator[] {
            a -> 1 - Math.exp(-a / place * Math.log(1 / 0.95)),
            a -> Math.min(1, 0.05 * Math.pow(a / place, 6)),
            a -> a > place ? 1 : 0,
            a -> 0.049 + 0.001 * a / place
        }) {
            AtomicInteger calls = new AtomicInteger();
            double found = RiskCrossing.of(
                            a -> {
                                calls.incrementAndGet();
                                return left.applyAsDouble(a);
                            },
                            0.05,
                            30)
                    .orElseThrow();
            assertThat(found).isBetween(0.9979 * place, place * (1 + 1e-9));
            assertThat(calls).hasValueLessThan(30);
        }
    }

    @Test
    void isNowOrNever() {
        assertThat(RiskCrossing.of(a -> 0.06, 0.05, 30)).hasValue(0);
        assertThat(RiskCrossing.of(a -> 0.05, 0.05, 30)).isEmpty();
        assertThat(RiskCrossing.of(a -> a / 30 * 0.05, 0.05, 30)).isEmpty();
    }
}
