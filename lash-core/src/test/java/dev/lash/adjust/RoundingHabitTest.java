package dev.lash.adjust;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lash.engine.ShimRange;
import dev.lash.measure.Length;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** Published shim arithmetic: new = old + measured - specified, and what manuals make of it. Lengths in millimetres. */
class RoundingHabitTest {
    private static Length mm(String number) {
        return Length.ofMillimetres(number);
    }

    // ---- the arithmetic ---------------------------------------------------------------------------------------------

    @ParameterizedTest
    @CsvSource({
        // motorcycle twin owner's manual (KLE650), shim table: 2.95 with 0.47 measured is 3.15; the specified 0.27 is
        // derived
        "2.95, 0.47, 0.27, 3.15",
        // Groundsmaster 455-D service manual, page 3-58
        "2.425, 0.25, 0.15, 2.525",
        // repair manual RM1046E, page 14-19, intake
        "2.80, 0.45, 0.25, 3.00",
        // a marine OHC engine's manual, page 44, metric copy
        "3.80, 0.30, 0.40, 3.70",
        // the same page, inch copy, 0.150 in less 0.004 in
        "3.81, 0, 0.1016, 3.7084",
        // instruction sheet of kit 5919140, page 10: the excess is taken over the upper limit of 0.15 to 0.22
        "1.55, 0.30, 0.22, 1.63",
        // Civic service manual, a camshaft thrust shim: 1.93 less the middle of the standard, 0.14
        "0, 1.93, 0.14, 1.79",
        // a desmodromic train's manual: closer gap 0.152 loaded less 0.101 unloaded; to 0.02 the closer shim grows by
        // 0.031
        "3.000, 0.051, 0.02, 3.031",
        // the same: opener 0.101 to 0.075, opener shim +0.026
        "3.000, 0.101, 0.075, 3.026",
        // service manual of a V6 (Mystique 1998): the specified 0.15 is not the middle of the window 0.11 to 0.18
        "2.30, 0.09, 0.15, 2.24",
        // 240SX service manual 1994: N = R + (M - 0.37)
        "2.30, 0.41, 0.37, 2.34",
        // Lancer service manual 2009, exhaust: A = B + (C - 0.30)
        "2.90, 0.36, 0.30, 2.96"
    })
    void idealIsOldPlusMeasuredMinusSpecified(String old, String measured, String specified, String ideal) {
        assertThat(RoundingHabit.ideal(mm(old), mm(measured), mm(specified))).isEqualTo(mm(ideal));
    }

    /** Kits as published, with the number of sizes that their manuals give or that follows. */
    @ParameterizedTest
    @CsvSource({
        // motorcycle twin owner's manual (KLE650)
        "2.50..3.50 mm step 0.05 mm, 21",
        // repair manual RM1046E, page 14-19, and a handbook of car repair
        "2.50..3.30 mm step 0.05 mm, 17",
        // SH300i service manual, page 4-10
        "1.200..2.900 mm step 0.025 mm, 69",
        // 240SX service manual 1994
        "1.96..2.68 mm step 0.02 mm, 37",
        // Vibe service manual 2006, lifters as shims
        "5.060..5.740 mm step 0.020 mm, 35",
        // Volvo 940 service manual 1995
        "3.30..4.50 mm step 0.05 mm, 25",
        // Lancer service manual 2009, graded tappets
        "2.70..3.30 mm step 0.02 mm, 31"
    })
    void kitsHaveAsManySizesAsPublished(String range, int sizes) {
        assertThat(ShimRange.parse(range).sizes()).hasSize(sizes);
    }

    // ---- habits -----------------------------------------------------------------------------------------------------

    @ParameterizedTest
    @CsvSource({
        // repair manual RM1046E, page 14-19: number 21, 3.00
        "NEAREST, 3.00, 2.50..3.30 mm step 0.05 mm, 3.00",
        // Civic service manual, camshaft thrust shim: nearest to the middle of the standard
        "NEAREST, 1.79, 1.60..2.00 mm step 0.05 mm, 1.80",
        // Groundsmaster 455-D service manual, page 3-58
        "NEXT_BELOW, 2.525, 2.00..3.00 mm step 0.05 mm, 2.50",
        // instruction sheet of kit 5919140, page 10
        "LAST_DIGIT_3_TO_6, 1.63, 1.20..2.00 mm step 0.05 mm, 1.65",
        // where the two 0.05 tables part: 7 goes up in that sheet, down in service manual LIT-11616-12-01, page 197
        "LAST_DIGIT_3_TO_6, 1.67, 1.20..2.00 mm step 0.05 mm, 1.70",
        "LAST_DIGIT_3_TO_7, 1.67, 1.20..2.00 mm step 0.05 mm, 1.65",
        "LAST_DIGIT_3_TO_7, 1.68, 1.20..2.00 mm step 0.05 mm, 1.70",
        // in kits by 0.02 an odd hundredth goes to 0.01 less
        "NEXT_BELOW, 2.83, 2.70..3.30 mm step 0.02 mm, 2.82"
    })
    void fitsAsPublished(RoundingHabit habit, String ideal, String range, String fitted) {
        assertThat(habit.fit(mm(ideal), ShimRange.parse(range))).contains(mm(fitted));
    }

    /** The clearance that comes out where the kit is coarse: Groundsmaster 455-D service manual, page 3-58, prints 0.175. */
    @Test
    void clearanceObtainedIsAsPublished() {
        Length fitted = RoundingHabit.NEXT_BELOW
                .fit(
                        RoundingHabit.ideal(mm("2.425"), mm("0.25"), mm("0.15")),
                        ShimRange.parse("2.00..3.00 mm step 0.05 mm"))
                .orElseThrow();
        assertThat(mm("0.25").plus(mm("2.425")).minus(fitted)).isEqualTo(mm("0.175"));
    }

    @ParameterizedTest
    @CsvSource({
        "LAST_DIGIT_3_TO_6, 0 0 0 5 5 5 5 10 10 10",
        "LAST_DIGIT_3_TO_7, 0 0 0 5 5 5 5 5 10 10",
        "LAST_DIGIT_0_3_5_8, 0 0 3 3 5 5 5 8 8 10"
    })
    void tablesAreAsPublished(RoundingHabit habit, String digits) {
        List<Length> hundredths = IntStream.rangeClosed(200, 320)
                .mapToObj(i -> Length.ofNanometres(i * 10_000L))
                .toList();
        List<String> found = new ArrayList<>();
        for (int digit = 0; digit < 10; digit++) {
            Length size = habit.fit(Length.ofNanometres((250 + digit) * 10_000L), hundredths)
                    .orElseThrow();
            found.add(String.valueOf(size.minus(mm("2.50")).nanometres() / 10_000));
        }
        assertThat(String.join(" ", found)).isEqualTo(digits);
    }

    @Test
    void tablesReadHundredthsAndGoToTheThinnerFromTheMiddle() {
        ShimRange range = ShimRange.parse("2.00..3.00 mm step 0.05 mm");
        assertThat(RoundingHabit.LAST_DIGIT_3_TO_6.fit(mm("2.525"), range)).contains(mm("2.50"));
        assertThat(RoundingHabit.LAST_DIGIT_3_TO_6.fit(mm("2.525001"), range)).contains(mm("2.55"));
    }

    @Test
    void nearestTakesTheThinnerOfTwo() {
        ShimRange range = ShimRange.parse("2.50..2.60 mm step 0.05 mm");
        assertThat(RoundingHabit.NEAREST.fit(mm("2.525"), range)).contains(mm("2.50"));
        assertThat(RoundingHabit.NEAREST.fit(mm("2.525001"), range)).contains(mm("2.55"));
    }

    /** SH300i service manual, page 4-10: over the thickest shim the seat is refaced, no other shim sought. */
    @Test
    void beyondTheSizesNoneFollows() {
        ShimRange range = ShimRange.parse("1.200..2.900 mm step 0.025 mm");
        for (RoundingHabit habit : List.of(RoundingHabit.NEAREST, RoundingHabit.NEXT_BELOW)) {
            assertThat(habit.fit(mm("2.900"), range)).contains(mm("2.900"));
            assertThat(habit.fit(mm("2.901"), range)).isEmpty();
            assertThat(habit.fit(mm("1.199"), range)).isEmpty();
        }
        assertThat(RoundingHabit.LAST_DIGIT_3_TO_6.fit(mm("2.99"), range)).isEmpty();
    }

    @Test
    void tableThatLeadsToNoSizeGivesNone() {
        assertThat(RoundingHabit.LAST_DIGIT_0_3_5_8.fit(mm("2.53"), ShimRange.parse("2.50..2.60 mm step 0.05 mm")))
                .isEmpty();
        assertThat(RoundingHabit.LAST_DIGIT_0_3_5_8.fit(mm("2.53"), List.of(mm("2.50"), mm("2.53"), mm("2.55"))))
                .contains(mm("2.53"));
    }

    @ParameterizedTest
    @EnumSource
    void noHabitNeedsSizes(RoundingHabit habit) {
        assertThat(habit.fit(mm("2.50"), List.of())).isEmpty();
        assertThatThrownBy(() -> habit.fit(null, List.of())).isInstanceOf(NullPointerException.class);
    }

    @Test
    void codesAreStable() {
        assertThat(RoundingHabit.values())
                .extracting(RoundingHabit::toString)
                .containsExactly(
                        "nearest", "next-below", "last-digit-3-to-6", "last-digit-3-to-7", "last-digit-0-3-5-8");
    }
}
