package dev.lash.trend;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import dev.lash.testing.Contracts;
import dev.lash.trend.FeasibleLines.Check;
import dev.lash.trend.FeasibleLines.Crossings;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class FeasibleLinesTest {
    private static final Crossing ALREADY = new Crossing.AlreadyLeft();
    private static final Crossing NEVER = new Crossing.Never();
    private static final Length LOW = Length.ofMillimetres("0.10");
    private static final Length HIGH = Length.ofMillimetres("0.30");

    private static Check check(int usage, String bracket) {
        return new Check(Ratio.of(usage, 1), LengthInterval.parse(bracket));
    }

    private static FeasibleLines lines(Check... checks) {
        return FeasibleLines.through(List.of(List.of(checks)));
    }

    private static Crossing at(long numerator, long denominator) {
        return new Crossing.At(Ratio.of(numerator, denominator));
    }

    private static Crossings crossings(FeasibleLines lines, int now) {
        return lines.crossings(LOW, HIGH, Ratio.of(now, 1)).orElseThrow();
    }

    private static FeasibleLines caseD() {
        return lines(
                check(0, "(0.24, 0.26] mm"),
                check(12, "(0.22, 0.25] mm"),
                check(24, "(0.21, 0.23] mm"),
                check(36, "(0.20, 0.21] mm"),
                check(48, "(0.18, 0.20] mm"),
                check(60, "(0.15, 0.18] mm"));
    }

    /** Wear case D, made up; slopes from -1/600 to -1/1000 mm by a linear programme of SciPy, here in nanometres. */
    @Test
    void wearCaseD() {
        FeasibleLines lines = caseD();
        assertThat(lines.exist()).isTrue();
        assertThat(lines.haveRoom()).isTrue();
        assertThat(lines.leastSlope()).contains(Ratio.of(-1_000_000, 600));
        assertThat(lines.greatestSlope()).contains(Ratio.of(-1_000_000, 1000));
        // steepest: 0.26 mm at 0, 0.20 mm at 36; flattest: 0.24 mm at 0, 0.18 mm at 60
        assertThat(crossings(lines, 60))
                .isEqualTo(new Crossings(at(96, 1), at(140, 1), NEVER, NEVER, at(96, 1), at(140, 1)));
        assertThat(lines.lowestAt(Ratio.of(36, 1))).contains(Ratio.of(200_000, 1));
        assertThat(lines.highestAt(Ratio.of(140, 1))).contains(Ratio.of(100_000, 1));
        assertThat(lines).hasToString("slopes from -5000/3 to -1000");
    }

    @Test
    void oneCheckAllowsEverything() {
        FeasibleLines lines = lines(check(10, "(0.15, 0.20] mm"));
        assertThat(lines.haveRoom()).isTrue();
        assertThat(lines.leastSlope()).isEmpty();
        assertThat(lines.greatestSlope()).isEmpty();
        assertThat(crossings(lines, 10)).isEqualTo(new Crossings(at(10, 1), NEVER, at(10, 1), NEVER, at(10, 1), NEVER));
        assertThat(crossings(lines, 11)).isEqualTo(new Crossings(ALREADY, NEVER, ALREADY, NEVER, ALREADY, NEVER));
        assertThat(lines.lowestAt(Ratio.of(10, 1))).contains(Ratio.of(150_000, 1));
        assertThat(lines.lowestAt(Ratio.of(11, 1))).isEmpty();
        assertThat(lines.highestAt(Ratio.of(9, 1))).isEmpty();
        assertThat(lines).hasToString("slopes from any to any");
    }

    @Test
    void noCheckInTheLastSegment() {
        FeasibleLines lines = FeasibleLines.through(
                List.of(List.of(check(0, "[0.20, 0.20] mm"), check(10, "[0.19, 0.19] mm")), List.of()));
        assertThat(lines.lowestAt(Ratio.of(10, 1))).isEmpty();
        // falling 0.001 mm a unit, from at most 0.30 mm
        assertThat(crossings(lines, 10)).isEqualTo(new Crossings(ALREADY, NEVER, ALREADY, NEVER, ALREADY, at(210, 1)));
    }

    /** The slope is the valve's own; two segments of two checks each narrow it together. */
    @Test
    void segmentsShareTheSlope() {
        FeasibleLines lines = FeasibleLines.through(List.of(
                List.of(check(0, "[0.20, 0.22] mm"), check(10, "[0.18, 0.20] mm")),
                List.of(check(10, "[0.25, 0.26] mm"), check(20, "[0.25, 0.26] mm"))));
        assertThat(lines.leastSlope()).contains(Ratio.of(-1000, 1));
        assertThat(lines.greatestSlope()).contains(Ratio.of(0, 1));
        assertThat(crossings(lines, 20)).isEqualTo(new Crossings(at(170, 1), NEVER, NEVER, NEVER, at(170, 1), NEVER));
    }

    @Test
    void noLine() {
        FeasibleLines lines =
                lines(check(0, "[0.10, 0.11] mm"), check(1, "[0.20, 0.21] mm"), check(2, "[0.10, 0.11] mm"));
        assertThat(lines.exist()).isFalse();
        assertThat(lines.haveRoom()).isFalse();
        assertThat(lines.crossings(LOW, HIGH, Ratio.of(2, 1))).isEqualTo(Optional.empty());
        assertThat(lines.lowestAt(Ratio.ZERO)).isEmpty();
        assertThat(lines.highestAt(Ratio.ZERO)).isEmpty();
        assertThat(lines).hasToString("no line");
        assertThat(lines(check(1, "<= 0.10 mm"), check(1, ">= 0.11 mm")).exist())
                .isFalse();
    }

    @Test
    void edgeOnly() {
        FeasibleLines lines =
                lines(check(0, "[0.10, 0.12] mm"), check(1, "[0.12, 0.14] mm"), check(2, "[0.10, 0.12] mm"));
        assertThat(lines.exist()).isTrue();
        assertThat(lines.haveRoom()).isFalse();
        assertThat(lines).hasToString("slopes from 0 to 0, no room");
        // open ends count as their closure
        assertThat(lines(check(0, "(0.10, 0.12) mm"), check(0, "(0.12, 0.14) mm"))
                        .exist())
                .isTrue();
    }

    @Test
    void bracketsWithoutEnds() {
        FeasibleLines lines = lines(check(0, "any"), check(1, "any"));
        assertThat(lines.haveRoom()).isTrue();
        assertThat(crossings(lines, 1)).isEqualTo(new Crossings(ALREADY, NEVER, ALREADY, NEVER, ALREADY, NEVER));
    }

    @Test
    void allLinesHaveLeft() {
        FeasibleLines lines = lines(check(0, "[0.05, 0.06] mm"), check(10, "[0.05, 0.06] mm"));
        assertThat(crossings(lines, 10))
                .isEqualTo(new Crossings(ALREADY, ALREADY, at(250, 1), NEVER, ALREADY, ALREADY));
    }

    @Test
    void manyChecks() {
        List<Check> checks = new ArrayList<>();
        for (int i = 0; i < 300; i++) {
            checks.add(new Check(
                    Ratio.of(i, 1),
                    LengthInterval.closed(
                            Length.ofNanometres(200_000 - 10L * i - i % 7), Length.ofNanometres(200_100 - 10L * i))));
        }
        FeasibleLines lines = FeasibleLines.through(List.of(checks));
        assertThat(lines.haveRoom()).isTrue();
        assertThat(crossings(lines, 299).latestBelow().usage()).isPresent();
    }

    @Test
    void refusals() {
        Contracts.refuses(() -> FeasibleLines.through(List.of()), "segments", "at least one");
        Contracts.refuses(() -> caseD().crossings(HIGH, LOW, Ratio.of(60, 1)), "0.30 mm to 0.10 mm", "upside down");
        Contracts.refuses(() -> caseD().crossings(LOW, HIGH, Ratio.of(59, 1)), "59", "60 or more");
        Contracts.refuseNull(
                () -> FeasibleLines.through(null),
                () -> new Check(null, LengthInterval.any()),
                () -> new Check(Ratio.ONE, null),
                () -> caseD().crossings(null, HIGH, Ratio.ONE),
                () -> caseD().crossings(LOW, null, Ratio.ONE),
                () -> caseD().crossings(LOW, HIGH, null),
                () -> caseD().lowestAt(null),
                () -> caseD().highestAt(null),
                () -> new Crossing.At(null));
    }

    @Test
    void values() {
        Contracts.equality(caseD(), caseD(), List.of(lines(), lines(check(0, "any"))));
        Contracts.serialises(caseD());
        Contracts.serialises(crossings(caseD(), 60));
        Contracts.order(List.of(ALREADY, at(1, 2), at(2, 3), NEVER));
        assertThat(List.of(ALREADY, at(1, 2), NEVER))
                .extracting(Crossing::toString)
                .containsExactly("already left", "at 0.5", "never");
        assertThat(NEVER.usage()).isEmpty();
        assertThat(at(1, 2).usage()).contains(Ratio.of(1, 2));
    }
}
