package dev.lash.trend;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.Usage;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ClearanceHistoryTest {
    private static final Usage NEW = Usage.parse("0 km");

    /** The falls within the segments, each as sure as its two readings. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            value = {
                "0 km (0.15, 0.17) mm; 12000 km (0.12, 0.14) mm # (0.01, 0.05) mm",
                "0 km [0.15, 0.15] mm; 12000 km [0.12, 0.12] mm # [0.03, 0.03] mm",
                "0 km (0.15, 0.17) mm; 9000 km (0.08, 0.1) mm | 9000 km (0.15, 0.17) mm; 12000 km (0.14, 0.16) mm "
                        + "# (0.04, 0.12) mm",
                "0 km (0.15, 0.17) mm; 9000 km (0.13, 0.14) mm | 9000 km (0.15, 0.17) mm # (0.01, 0.04) mm",
                "0 km (0.12, 0.14) mm; 12000 km (0.15, 0.17) mm # (-0.05, -0.01) mm",
                "0 km (0.15, 0.17) mm; 6000 km (0.1, 0.2) mm; 12000 km < 0.14 mm # > 0.01 mm"
            })
    void addsUpWhatWearTook(String readings, String fall) {
        assertThat(WearTrendFitterTest.history("1-in-1", readings).wear())
                .contains(new ClearanceHistory.Wear(NEW, LengthInterval.parse(fall)));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "0 km (0.15, 0.17) mm",
                "0 km (0.15, 0.17) mm | 0 km (0.12, 0.14) mm",
                "0 km (0.15, 0.17) mm; 6000 km (0.13, 0.15) mm | 12000 km (0.12, 0.14) mm",
                "0 km < 0.17 mm; 12000 km < 0.14 mm; 12000 km any"
            })
    void doesNotSayWhatTheReadingsDoNotTell(String readings) {
        assertThat(WearTrendFitterTest.history("1-in-1", readings).wear()).isEmpty();
    }

    /** In a shim train the swap is in the level: 2.50 with 0.10 to 0.12, then 2.40 with 0.15 to 0.17, is 0.03 to 0.07 gone. */
    @Test
    void countsOnThroughAShimSwap() {
        ClearanceHistory history = ClearanceHistory.builder(ValveId.parse("1-in-1"), Gap.ONLY)
                .shim(Length.ofMillimetres("2.50"), Length.ZERO, Ratio.ONE)
                .read(NEW, LengthInterval.parse("(0.10, 0.12) mm"))
                .shim(Length.ofMillimetres("2.40"), Length.ZERO, Ratio.ONE)
                .read(Usage.parse("12000 km"), LengthInterval.parse("(0.15, 0.17) mm"))
                .build();

        assertThat(history.wear()).contains(new ClearanceHistory.Wear(NEW, LengthInterval.parse("(0.03, 0.07) mm")));
    }

    private static LengthInterval fall(LengthInterval before, @Nullable LengthInterval fitted, LengthInterval after) {
        ClearanceHistory.Builder history = ClearanceHistory.builder(ValveId.parse("1-in-1"), Gap.ONLY)
                .shim(before, Ratio.ONE)
                .read(NEW, LengthInterval.parse("(0.10, 0.12) mm"));
        if (fitted != null) {
            history.fitted(fitted, Ratio.ONE);
        }
        return history.shim(after, Ratio.ONE)
                .read(Usage.parse("12000 km"), LengthInterval.parse("(0.05, 0.07) mm"))
                .build()
                .wear()
                .orElseThrow()
                .fall();
    }

    /** While a shim stays in, its size error is in both readings alike; after a swap each of the two errors counts once. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "[2.48, 2.52] mm |                 | [2.48, 2.52] mm | (0.03, 0.07) mm",
                "[2.48, 2.52] mm |                 | [2.5, 2.5] mm   | (0.03, 0.07) mm",
                "[2.48, 2.52] mm | [2.48, 2.52] mm | [2.48, 2.52] mm | (-0.01, 0.11) mm",
                "[2.48, 2.52] mm | [2.49, 2.51] mm | [2.49, 2.51] mm | (0, 0.1) mm",
                "[2.48, 2.52] mm | [2.5, 2.5] mm   | [2.5, 2.5] mm   | (0.01, 0.09) mm",
                "[2.5, 2.5] mm   | [2.4, 2.4] mm   | [2.4, 2.4] mm   | (0.13, 0.17) mm",
                "[2.48, 2.52] mm |                 | [2.39, 2.41] mm | (0.1, 0.2) mm"
            })
    void aShimWhoseSizeIsNotSureWidensOnlyWhatASwapParts(
            String before, @Nullable String fitted, String after, String expected) {
        assertThat(fall(
                        LengthInterval.parse(before),
                        fitted == null ? null : LengthInterval.parse(fitted),
                        LengthInterval.parse(after)))
                .isEqualTo(LengthInterval.parse(expected));
    }

    /** What is measured later holds for the readings before: it is the same shim. */
    @Test
    void aShimMeasuredLaterWasOfThatSizeBefore() {
        ClearanceHistory history = ClearanceHistory.builder(ValveId.parse("1-in-1"), Gap.ONLY)
                .shim(LengthInterval.parse("[2.48, 2.52] mm"), Ratio.ONE)
                .read(NEW, LengthInterval.parse("(0.10, 0.12) mm"))
                .shim(LengthInterval.parse("[2.51, 2.51] mm"), Ratio.ONE)
                .read(NEW, LengthInterval.parse("(0.10, 0.12) mm"))
                .build();

        assertThat(history.segments()).hasSize(1);
        assertThat(history.readings())
                .extracting(ClearanceHistory.Reading::offset)
                .containsOnly(LengthInterval.parse("[2.51, 2.51] mm"));
    }

    @Test
    void refusesAShimWithoutAnEnd() {
        ClearanceHistory.Builder history = ClearanceHistory.builder(ValveId.parse("1-in-1"), Gap.ONLY);
        LengthInterval open = LengthInterval.parse("> 2.40 mm");

        assertThatThrownBy(() -> history.shim(open, Ratio.ONE))
                .isInstanceOf(RejectedValueException.class)
                .hasMessageContaining("2.4")
                .hasMessageContaining("measure the shim");
        assertThatThrownBy(() -> history.fitted(open, Ratio.ONE)).isInstanceOf(RejectedValueException.class);
    }

    @Test
    void refusesUsagesThatFall() {
        assertThatThrownBy(() -> WearTrendFitterTest.history("1-in-1", "6000 km any; 0 km any"))
                .isInstanceOf(RejectedValueException.class)
                .hasMessageContaining("6000 km");
    }
}
