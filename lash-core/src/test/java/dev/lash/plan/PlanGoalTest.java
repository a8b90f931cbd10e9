package dev.lash.plan;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.engine.ClearanceWindow;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.testing.Contracts;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class PlanGoalTest {
    private static final ClearanceWindow WINDOW = ClearanceWindow.parse("0.11..0.16 mm");

    // Verdict

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "[0.11, 0.16] mm | true",
                "(0.11, 0.12) mm | true",
                "< 0.11 mm       | true",
                "<= 0.11 mm      | false",
                "> 0.16 mm       | true",
                ">= 0.16 mm      | false",
                "(0.10, 0.12) mm | false",
                "any             | false"
            })
    void aVerdictIsReachedWhenItIsTheOnlyOne(String interval, boolean reached) {
        assertThat(PlanGoal.verdict(WINDOW).isReachedBy(LengthInterval.parse(interval)))
                .isEqualTo(reached);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "[0.11, 0.16] mm | within, [0.11, 0.16] mm",
                "< 0.11 mm       | tight, < 0.11 mm",
                "> 0.16 mm       | loose, > 0.16 mm",
                "(0.10, 0.12) mm | undecided, (0.10, 0.12) mm"
            })
    void aVerdictIsDescribedWithItsInterval(String interval, String words) {
        assertThat(PlanGoal.verdict(WINDOW).describe(LengthInterval.parse(interval), LengthUnit.MILLIMETRE))
                .isEqualTo(words);
    }

    // Size

    @Test
    void sizeIsReachedByAPointWhateverTheLeaves() {
        assertThat(PlanGoal.size().isReachedBy(LengthInterval.parse("[0.11, 0.11] mm")))
                .isTrue();
        assertThat(PlanGoal.size().isReachedBy(LengthInterval.parse("(0.11, 0.12) mm")))
                .isFalse();
        assertThat(PlanGoal.size().isReachedBy(LengthInterval.any())).isFalse();
    }

    @Test
    void sizeAndWidthAreDescribedByTheIntervalInTheUnitAskedFor() {
        LengthInterval interval = LengthInterval.parse("(0.004, 0.005) in");
        assertThat(PlanGoal.size().describe(interval, LengthUnit.INCH)).isEqualTo("(0.004, 0.005) in");
        assertThat(PlanGoal.width(Length.parse("0.001 in")).describe(interval, LengthUnit.INCH))
                .isEqualTo("(0.004, 0.005) in");
    }

    // Width

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "(0.11, 0.12) mm  | true",
                "[0.11, 0.12] mm  | true",
                "(0.11, 0.121) mm | false",
                "[0.11, 0.11] mm  | true",
                "< 0.01 mm        | false",
                "> 0.11 mm        | false",
                "any              | false"
            })
    void aWidthIsReachedByAnIntervalNoWider(String interval, boolean reached) {
        assertThat(PlanGoal.width(Length.parse("0.01 mm")).isReachedBy(LengthInterval.parse(interval)))
                .isEqualTo(reached);
    }

    @ParameterizedTest
    @ValueSource(strings = {"-0.01 mm", "-0.000001 mm"})
    void refusesANegativeWidth(String width) {
        Contracts.refuses(
                () -> PlanGoal.width(Length.parse(width)),
                "width",
                width,
                "is negative",
                "0 mm or more",
                "give the widest bracket that will do");
    }

    @Test
    void aWidthOfNothingWantsAPoint() {
        assertThat(PlanGoal.width(Length.ZERO).isReachedBy(LengthInterval.parse("[0.11, 0.11] mm")))
                .isTrue();
        assertThat(PlanGoal.width(Length.ZERO).isReachedBy(LengthInterval.parse("(0.11, 0.110001) mm")))
                .isFalse();
    }

    // All

    @Test
    void equality() {
        Contracts.equality(
                PlanGoal.verdict(WINDOW),
                PlanGoal.verdict(ClearanceWindow.parse("0.11..0.16 mm")),
                List.of(
                        PlanGoal.verdict(ClearanceWindow.parse("0.11..0.17 mm")),
                        PlanGoal.size(),
                        PlanGoal.width(Length.ZERO),
                        PlanGoal.width(Length.parse("0.01 mm"))));
        assertThat(PlanGoal.size()).isEqualTo(PlanGoal.size());
    }

    @Test
    void serialises() {
        Contracts.serialises(PlanGoal.verdict(WINDOW));
        Contracts.serialises(PlanGoal.size());
        Contracts.serialises(PlanGoal.width(Length.parse("0.01 mm")));
    }

    @Test
    @SuppressWarnings("NullAway") // on purpose
    void refusesNull() {
        Contracts.refuseNull(
                () -> PlanGoal.verdict(null),
                () -> PlanGoal.width(null),
                () -> PlanGoal.verdict(WINDOW).isReachedBy(null),
                () -> PlanGoal.size().isReachedBy(null),
                () -> PlanGoal.width(Length.ZERO).isReachedBy(null));
    }
}
