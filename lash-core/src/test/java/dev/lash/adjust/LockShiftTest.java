package dev.lash.adjust;

import static dev.lash.testing.Readings.interval;
import static dev.lash.testing.Readings.mm;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lash.adjust.LockShift.Sample;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.testing.Contracts;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class LockShiftTest {
    private static final Offset<Double> EXACT = within(1e-12);

    private static Sample sample(String set, String read) {
        return new Sample(mm(set), interval(read));
    }

    // ---- learning, by hand: prior variance 0.02 squared, so precision 2500; a point reading 10000

    @Test
    void withoutEvidenceNothingIsExpected() {
        LockShift none = LockShift.learn(List.of());
        assertThat(none.mean()).isZero();
        assertThat(none.standardError()).isCloseTo(0.02, EXACT);
        assertThat(none.count()).isZero();
        assertThat(none.isUnknown()).isTrue();
        assertThat(none.estimate()).isEqualTo(Length.ZERO);
        assertThat(none.likely()).isEqualTo(interval("[-0.04, 0.04] mm"));
    }

    @Test
    void oneReadingIsBelievedFourParts() {
        // 10000 x 0.03 / (2500 + 10000)
        LockShift one = LockShift.learn(List.of(sample("0.10", "[0.13, 0.13] mm")));
        assertThat(one.mean()).isCloseTo(0.024, EXACT);
        assertThat(one.standardError()).isCloseTo(1 / Math.sqrt(12_500), EXACT);
        assertThat(one.count()).isOne();
        assertThat(one.isUnknown()).isFalse();
        assertThat(one.estimate()).isEqualTo(mm("0.024"));
    }

    @Test
    void aWideReadingIsBelievedLess() {
        // Variance 0.0001 + 0.02 squared / 12, so precision 7500: 7500 x 0.03 / 10000.
        LockShift one = LockShift.learn(List.of(sample("0.10", "(0.12, 0.14) mm")));
        assertThat(one.mean()).isCloseTo(0.0225, EXACT);
        assertThat(one.standardError()).isCloseTo(0.01, EXACT);
    }

    @Test
    void aScrewThatIsPulledInIsNegative() {
        LockShift one = LockShift.learn(List.of(sample("0.10", "[0.08, 0.08] mm")));
        assertThat(one.mean()).isCloseTo(-0.016, EXACT);
        assertThat(one.estimate()).isEqualTo(mm("-0.016"));
    }

    @Test
    void theMoreReadingsTheLessItIsShrunk() {
        double before = 0;
        for (int n = 1; n <= 64; n *= 2) {
            LockShift shift = LockShift.learn(Collections.nCopies(n, sample("0.10", "[0.13, 0.13] mm")));
            // n x 10000 x 0.03 / (2500 + n x 10000)
            assertThat(shift.mean()).isCloseTo(0.03 * n / (n + 0.25), EXACT).isBetween(before, 0.03);
            assertThat(shift.count()).isEqualTo(n);
            before = shift.mean();
        }
        assertThat(before).isCloseTo(0.03, within(0.0002));
    }

    @Test
    void readingsAtOddsAreAveraged() {
        LockShift shift =
                LockShift.learn(List.of(sample("0.10", "[0.13, 0.13] mm"), sample("0.20", "[0.19, 0.19] mm")));
        // 10000 x (0.03 - 0.01) / 22500
        assertThat(shift.mean()).isCloseTo(2.0 / 225, EXACT);
    }

    /** "Setting valve lash", circle-track engine series, 2010: locking adds about 0.001 in. Six such readings come close to it. */
    @Test
    void aboutAThousandthOfAnInch() {
        LengthInterval read = LengthInterval.point(Length.ofInches("0.019"));
        LockShift shift = LockShift.learn(Collections.nCopies(6, new Sample(Length.ofInches("0.018"), read)));
        assertThat(shift.mean()).isCloseTo(0.0254 * 24 / 25, EXACT);
        assertThat(shift.likely().contains(Length.ofInches("0.001"))).isTrue();
    }

    @ParameterizedTest
    @ValueSource(strings = {"> 0.13 mm", "< 0.13 mm", ">= 0.13 mm", "any"})
    void aReadingThatLacksAnEndIsPassedOver(String read) {
        assertThat(LockShift.learn(List.of(sample("0.10", read)))).isEqualTo(LockShift.learn(List.of()));
        Sample good = sample("0.10", "[0.13, 0.13] mm");
        assertThat(LockShift.learn(List.of(sample("0.10", read), good))).isEqualTo(LockShift.learn(List.of(good)));
    }

    // ---- the estimate

    @Test
    void theEstimateIsToTheNanometreAndItsRangeOutward() {
        LockShift shift = new LockShift(0.0123456789, 0.0011111111, 2);
        assertThat(shift.estimate()).isEqualTo(Length.ofNanometres(12_346));
        // twice 1111.1111 nm, up
        assertThat(shift.likely())
                .isEqualTo(LengthInterval.closed(
                        Length.ofNanometres(12_346 - 2_223), Length.ofNanometres(12_346 + 2_223)));
    }

    @ParameterizedTest
    @CsvSource({
        "10.1,  0.01,  1",
        "-10.1, 0.01,  1",
        "NaN,   0.01,  1",
        "0.01,  -0.01, 1",
        "0.01,  NaN,   1",
        "0.01,  10.1,  1",
        "0.01,  0.01,  -1",
        "-Infinity, 0.01, 1",
        "0.01,  Infinity, 1",
    })
    void figuresThatAreNoneAreRefused(double mean, double standardError, int count) {
        Contracts.refuses(
                () -> new LockShift(mean, standardError, count),
                mean + " mm, standard error " + standardError + " mm, " + count + " readings",
                "within 10 mm",
                "0 to 10 mm",
                "learn it from readings");
    }

    // ---- equality, serialisation, nulls

    @Test
    void equalityAndSerialisation() {
        Contracts.equality(
                new LockShift(0.02, 0.005, 3),
                new LockShift(0.02, 0.005, 3),
                List.of(new LockShift(0.03, 0.005, 3), new LockShift(0.02, 0.006, 3), new LockShift(0.02, 0.005, 4)));
        Contracts.serialises(new LockShift(0.02, 0.005, 3));
        assertThat(new LockShift(-0.0, -0.0, 0)).isEqualTo(new LockShift(0.0, 0.0, 0));
        Contracts.serialises(sample("0.10", "(0.12, 0.14) mm"));
    }

    @Test
    void nullIsRefused() {
        Contracts.refuseNull(
                () -> LockShift.learn(null),
                () -> LockShift.learn(Arrays.asList(sample("0.10", "[0.13, 0.13] mm"), null)),
                () -> new Sample(null, interval("[0.13, 0.13] mm")),
                () -> new Sample(mm("0.10"), null));
    }
}
