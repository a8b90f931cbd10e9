package dev.lash.adjust;

import static dev.lash.testing.Readings.interval;
import static dev.lash.testing.Readings.leaves;
import static dev.lash.testing.Readings.mm;
import static dev.lash.testing.Readings.read;
import static dev.lash.testing.Tasks.follower;
import static dev.lash.testing.Tasks.shims;
import static dev.lash.testing.Tasks.task;
import static dev.lash.testing.Tasks.withShim;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.Adjustment.FitShim;
import dev.lash.adjust.Adjustment.Inspect;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import dev.lash.testing.Contracts;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a shop's way of rounding fits, beside the best certain size, on worked examples from service manuals. */
class PublishedShimRoundingTest {
    private static FitShim fit(AdjustmentTask task, ShimRounding rounding) {
        Adjustment advice = Adjuster.withDefaults().withRounding(rounding).advise(task);
        if (advice instanceof Inspect inspect) {
            advice = inspect.findThen().orElseThrow();
        }
        assertThat(advice).isInstanceOf(FitShim.class);
        return (FitShim) advice;
    }

    private static RoundingHabit habit(String code) {
        return List.of(RoundingHabit.values()).stream()
                .filter(h -> h.code().equals(code))
                .findFirst()
                .orElseThrow();
    }

    /**
     * Old, measured, specified as a point of the window, ideal and fitted, in:
     *
     * <ul>
     *   <li>KLE650 service manual, table of 21 shims: 2.95, 0.47, fitted 3.15 (the window is ours, its middle the 0.27 that follows);
     *   <li>Groundsmaster 455-D service manual, p. 3-58: 2.425, 0.25, 0.15, ideal 2.525, fitted 2.50, which leaves 0.175 (the upper end
     *       of the window is ours);
     *   <li>RM1046E engine repair manual, p. 14-19: 2.80, 0.45, 0.25, fitted 3.00;
     *   <li>an overhead-cam marine engine's service manual, p. 44: 3.80, 0.30, 0.40, fitted 3.70 (the kit is ours);
     *   <li>instruction sheet of kit 5919140, p. 10: 1.55, 0.30, the upper limit of 0.15 to 0.22, ideal 1.63, fitted 1.65, which leaves
     *       0.20;
     *   <li>SH300i service manual, p. 4-10: A = (B - C) + D in sizes by 0.025 (the figures are ours);
     *   <li>240SX 1994 service manual: N = R + (M - 0.37) in 37 sizes 1.96 to 2.68 (the figures are ours);
     *   <li>a repair manual's N = T + (A - V) in 17 sizes 2.50 to 3.30 (the figures are ours);
     *   <li>Mystique 1998 service manual: 0.15 in a window of 0.11 to 0.18, 0.30 in one of 0.27 to 0.34 (old and measured are ours);
     *   <li>Vibe 2006 service manual: 35 buckets 5.060 to 5.740 (the figures are ours);
     *   <li>Lancer 2009 service manual: A = B + (C - 0.22) in 31 sizes 2.70 to 3.30 (old and measured are ours);
     *   <li>Mariner 2008 service manual: the middle of 0.22 to 0.28 (kit, base and measured are ours).
     * </ul>
     */
    @ParameterizedTest
    @CsvSource({
        "nearest, 1/2, 2.50..3.50 mm step 0.05 mm, 0.25..0.29 mm, 2.95, 0.47, 3.15, 3.15, 0.27",
        "next-below, 0, 2.40..2.60 mm step 0.05 mm, 0.15..0.20 mm, 2.425, 0.25, 2.525, 2.50, 0.175",
        "nearest, 1/2, 2.50..3.30 mm step 0.05 mm, 0.25..0.25 mm, 2.80, 0.45, 3.00, 3.00, 0.25",
        "nearest, 1/2, 3.00..4.50 mm step 0.05 mm, 0.40..0.40 mm, 3.80, 0.30, 3.70, 3.70, 0.40",
        "last-digit-3-to-6, 1, 1.20..2.00 mm step 0.05 mm, 0.15..0.22 mm, 1.55, 0.30, 1.63, 1.65, 0.20",
        "nearest, 1/2, 1.200..2.900 mm step 0.025 mm, 0.12..0.16 mm, 2.000, 0.20, 2.06, 2.05, 0.15",
        "nearest, 1/2, 1.96..2.68 mm step 0.02 mm, 0.34..0.40 mm, 2.20, 0.45, 2.28, 2.28, 0.37",
        "nearest, 1/2, 2.50..3.30 mm step 0.05 mm, 0.20..0.30 mm, 2.80, 0.42, 2.97, 2.95, 0.27",
        "nearest, 4/7, 2.00..3.00 mm step 0.05 mm, 0.11..0.18 mm, 2.50, 0.21, 2.56, 2.55, 0.16",
        "nearest, 3/7, 2.00..3.00 mm step 0.05 mm, 0.27..0.34 mm, 2.50, 0.41, 2.61, 2.60, 0.31",
        "nearest, 1/2, 5.060..5.740 mm step 0.020 mm, 0.15..0.25 mm, 5.400, 0.29, 5.49, 5.48, 0.21",
        "nearest, 1/2, 2.70..3.30 mm step 0.02 mm, 0.20..0.24 mm, 2.90, 0.27, 2.95, 2.94, 0.23",
        "nearest, 1/2, 3.400..3.900 mm step 0.025 mm, 0.22..0.28 mm, 3.650, 0.16, 3.56, 3.55, 0.26",
    })
    void asPublished(
            String code,
            String specified,
            String sizes,
            String windowText,
            String old,
            String measured,
            String ideal,
            String fitted,
            String left) {
        AdjustmentTask task =
                withShim(task(shims(sizes), windowText, leaves("0.05"), read(measured + " mm drags")), old);
        ShimRounding rounding = new ShimRounding(habit(code), Ratio.parse(specified));
        HabitShim habit = fit(task, rounding).findByHabit().orElseThrow();
        assertThat(habit.rounding()).isEqualTo(rounding);
        assertThat(habit.ideal()).isEqualTo(mm(ideal));
        assertThat(habit.findSize()).contains(mm(fitted));
        assertThat(habit.findResulting()).contains(LengthInterval.point(mm(left)));
        assertThat(habit.certain()).isTrue();
    }

    /** The habit looks at the middle of the reading only: its size may be one that is not certain, and is not the one advised. */
    @Test
    void theHabitIsShownBesideAndNeverAdvised() {
        AdjustmentTask task = withShim(
                task(
                        shims("2.00..3.00 mm step 0.05 mm"),
                        "0.16..0.22 mm",
                        leaves("0.10", "0.15"),
                        read("0.11 mm goes", "0.14 mm refuses")),
                "2.50");
        FitShim plain = (FitShim) Adjuster.withDefaults().advise(task);
        assertThat(plain.findByHabit()).as("none is stated").isEmpty();
        FitShim fit = fit(task, new ShimRounding(RoundingHabit.NEXT_BELOW, Ratio.ONE));
        assertThat(fit.shim()).isEqualTo(plain.shim()).isEqualTo(mm("2.45"));
        HabitShim habit = fit.findByHabit().orElseThrow();
        // 2.50 + 0.125 - 0.22 = 2.405, so 2.40, which leaves 0.21 to 0.24
        assertThat(habit.ideal()).isEqualTo(mm("2.405"));
        assertThat(habit.findSize()).contains(mm("2.40"));
        assertThat(habit.findResulting()).contains(interval("(0.21, 0.24) mm"));
        assertThat(habit.certain()).isFalse();
    }

    @Test
    void aFollowersRatioCounts() {
        // 0.25 - 0.19 = 0.06 more than specified, over 1.5: 0.04 of shim
        AdjustmentTask task = withShim(
                task(
                        follower("2.00..3.00 mm step 0.05 mm", "1.5"),
                        "0.15..0.23 mm",
                        leaves("0.05"),
                        read("0.25 mm drags")),
                "2.50");
        HabitShim habit = fit(task, ShimRounding.toMiddle(RoundingHabit.NEAREST))
                .findByHabit()
                .orElseThrow();
        assertThat(habit.ideal()).isEqualTo(mm("2.54"));
        assertThat(habit.findSize()).contains(mm("2.55"));
        assertThat(habit.findResulting()).contains(LengthInterval.point(mm("0.175")));
    }

    @Test
    void aTableThatLeadsToNoSizeSaysNone() {
        // 2.50 + 0.25 - 0.19 = 2.56, so 2.55, which this kit by 0.04 does not have
        AdjustmentTask task = withShim(
                task(shims("2.02..2.98 mm step 0.04 mm"), "0.16..0.22 mm", leaves("0.05"), read("0.25 mm drags")),
                "2.50");
        HabitShim habit = fit(task, ShimRounding.toMiddle(RoundingHabit.LAST_DIGIT_3_TO_6))
                .findByHabit()
                .orElseThrow();
        assertThat(habit.ideal()).isEqualTo(mm("2.56"));
        assertThat(habit.findSize()).isEmpty();
        assertThat(habit.findResulting()).isEmpty();
        assertThat(habit.certain()).isFalse();
    }

    @Test
    void valuesKeepTheirContracts() {
        ShimRounding rounding = ShimRounding.toMiddle(RoundingHabit.NEAREST);
        assertThat(rounding.specified()).isEqualTo(Ratio.of(1, 2));
        Contracts.serialises(rounding);
        Contracts.serialises(new HabitShim(rounding, mm("2.41"), null, null, false));
        Contracts.refuses(
                () -> new ShimRounding(RoundingHabit.NEAREST, Ratio.parse("1.1")),
                "specified clearance",
                "1.1",
                "0 to 1",
                "fraction of the window");
        Contracts.refuseNull(
                () -> new ShimRounding(null, Ratio.ONE),
                () -> new ShimRounding(RoundingHabit.NEAREST, null),
                () -> new HabitShim(null, mm("2.41"), null, null, false),
                () -> new HabitShim(rounding, null, null, null, false),
                () -> Adjuster.withDefaults().withRounding(null));
        assertThat(Adjuster.withDefaults().withRounding(rounding))
                .isEqualTo(Adjuster.withDefaults().withRounding(rounding))
                .hasSameHashCodeAs(Adjuster.withDefaults().withRounding(rounding))
                .isNotEqualTo(Adjuster.withDefaults());
        Adjuster all = Adjuster.withDefaults()
                .withRounding(rounding)
                .withAim(Ratio.ONE)
                .withFarTooLoose(Ratio.of(3, 1))
                .withMostTries(5);
        assertThat(all)
                .as("kept by the other settings")
                .isNotEqualTo(Adjuster.withDefaults()
                        .withAim(Ratio.ONE)
                        .withFarTooLoose(Ratio.of(3, 1))
                        .withMostTries(5));
    }
}
