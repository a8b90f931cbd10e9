package dev.lash.judge;

import static dev.lash.testing.Readings.interval;
import static dev.lash.testing.Readings.mm;
import static dev.lash.testing.Readings.window;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.engine.ClearanceWindow;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.testing.Contracts;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class VerdictTest {
    // ---- words

    @Test
    void wordsAreThoseOfTheDocuments() {
        assertThat(Arrays.stream(Verdict.values()).map(Verdict::word))
                .containsExactly("within", "tight", "loose", "undecided");
        assertThat(Verdict.TIGHT).hasToString("tight");
    }

    // ---- an interval against a window

    /**
     * Derived from the definition of conformance with a two-sided tolerance interval whose limits belong to it (JCGM 106:2012,
     * simple acceptance; ISO 14253-1 for "proved in" and "proved out").
     */
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            [0.16, 0.18] mm | within    | within
            [0.22, 0.25] mm | loose     | loose
            [0.10, 0.14] mm | tight     | tight
            [0.13, 0.16] mm | undecided | tight within
            [0.20, 0.22] mm | undecided | within loose
            [0.14, 0.22] mm | undecided | tight within loose
            [0.15, 0.21] mm | within    | within
            """)
    void intervalAgainstTheWindowFromFifteenToTwentyOne(String clearances, String verdict, String possible) {
        ClearanceWindow window = window("0.15..0.21 mm");
        assertThat(Verdict.of(interval(clearances), window)).hasToString(verdict);
        assertThat(Verdict.possible(interval(clearances), window))
                .extracting(Verdict::word)
                .containsExactly(possible.split(" ", -1));
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            # ends: a leaf at the upper limit that goes means loose, one that drags means just within
            > 0.21 mm        | loose
            [0.21, 0.21] mm  | within
            >= 0.21 mm       | within loose
            < 0.15 mm        | tight
            [0.15, 0.15] mm  | within
            <= 0.15 mm       | tight within
            (0.10, 0.15) mm  | tight
            (0.10, 0.15] mm  | tight within
            (0.21, 0.25) mm  | loose
            [0.21, 0.25) mm  | within loose
            (0.15, 0.21) mm  | within
            # missing ends
            < 0.21 mm        | tight within
            < 0.22 mm        | tight within loose
            > 0.15 mm        | within loose
            > 0.14 mm        | tight within loose
            any              | tight within loose
            """)
    void openAndMissingEnds(String clearances, String possible) {
        assertThat(Verdict.possible(interval(clearances), window("0.15..0.21 mm")))
                .extracting(Verdict::word)
                .containsExactly(possible.split(" ", -1));
    }

    /** Without a lower end the valve may be held off its seat. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            < 0.03 mm       | tight within
            < 0.06 mm       | tight within loose
            any             | tight within loose
            # with a lower end from 0 nothing is below the window
            [0.00, 0.03) mm | within
            >= 0.00 mm      | within loose
            > 0.00 mm       | within loose
            [0.00, 0.00] mm | within
            [0.05, 0.05] mm | within
            (0.05, 0.06) mm | loose
            """)
    void againstAWindowThatBeginsAtZeroTightNeedsAClearanceBelowZero(String clearances, String possible) {
        assertThat(Verdict.possible(interval(clearances), window("0.00..0.05 mm")))
                .extracting(Verdict::word)
                .containsExactly(possible.split(" ", -1));
    }

    /** The gap of a closer may lie below 0, where it holds the valve with force; its window may begin at 0. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            [-0.01, -0.01] mm | tight
            (-0.01, 0.00) mm  | tight
            (-0.01, 0.00] mm  | tight within
            [-0.02, 0.05] mm  | tight within
            (-0.02, 0.06) mm  | tight within loose
            [0.00, 0.05] mm   | within
            (0.00, 0.06) mm   | within loose
            > -0.01 mm        | tight within loose
            # at or below 0, whatever its lower end
            < 0.00 mm         | tight
            <= 0.00 mm        | tight within
            < -0.01 mm        | tight
            """)
    void belowZeroIsTightWhereAReadingSaysSo(String clearances, String possible) {
        assertThat(Verdict.possible(interval(clearances), window("0.00..0.05 mm")))
                .extracting(Verdict::word)
                .containsExactly(possible.split(" ", -1));
    }

    @Test
    void aLengthBelowZeroIsTight() {
        assertThat(Verdict.of(mm("-0.000001"), window("0.00..0.05 mm"))).isEqualTo(Verdict.TIGHT);
        assertThat(Verdict.of(mm("0"), window("0.00..0.05 mm"))).isEqualTo(Verdict.WITHIN);
        assertThat(Verdict.of(mm("-0.01"), window("0.15..0.21 mm"))).isEqualTo(Verdict.TIGHT);
    }

    @Test
    void aWindowOfOneFigureIsMetByThatFigureOnly() {
        ClearanceWindow one = window("0.10..0.10 mm");
        assertThat(Verdict.of(mm("0.10"), one)).isEqualTo(Verdict.WITHIN);
        assertThat(Verdict.of(mm("0.099999"), one)).isEqualTo(Verdict.TIGHT);
        assertThat(Verdict.of(mm("0.100001"), one)).isEqualTo(Verdict.LOOSE);
        assertThat(Verdict.of(interval("(0.09, 0.11) mm"), one)).isEqualTo(Verdict.UNDECIDED);
    }

    @Test
    void possibleCannotBeChanged() {
        List<Verdict> open = Verdict.possible(LengthInterval.any(), window("0.15..0.21 mm"));
        assertThat(open).isUnmodifiable();
    }

    // ---- nulls

    @Test
    void nullIsRefused() {
        Contracts.refuseNull(
                () -> Verdict.of((LengthInterval) null, window("0.1..0.2 mm")),
                () -> Verdict.of((Length) null, window("0.1..0.2 mm")),
                () -> Verdict.of(LengthInterval.any(), null),
                () -> Verdict.possible(LengthInterval.any(), null));
    }
}
