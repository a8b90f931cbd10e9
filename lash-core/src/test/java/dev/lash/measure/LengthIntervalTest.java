package dev.lash.measure;

import static dev.lash.measure.TextParseException.Reason.DECIMAL_COMMA;
import static dev.lash.measure.TextParseException.Reason.EMPTY;
import static dev.lash.measure.TextParseException.Reason.NOT_A_NUMBER;
import static dev.lash.measure.TextParseException.Reason.NO_UNIT;
import static dev.lash.measure.TextParseException.Reason.UNKNOWN_UNIT;
import static dev.lash.measure.TextParseException.Reason.WRONG_FORM;
import static dev.lash.measure.TextParseException.Reason.WRONG_ORDER;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.TextParseException.Reason;
import dev.lash.testing.Contracts;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class LengthIntervalTest {
    private static final Length LOW = Length.parse("0.12 mm");
    private static final Length HIGH = Length.parse("0.15 mm");

    // Factories

    static Stream<Arguments> madeByFactories() {
        return Stream.of(
                Arguments.of(LengthInterval.open(LOW, HIGH), "(0.12, 0.15) mm"),
                Arguments.of(LengthInterval.closed(LOW, HIGH), "[0.12, 0.15] mm"),
                Arguments.of(LengthInterval.of(LOW, false, HIGH, true), "(0.12, 0.15] mm"),
                Arguments.of(LengthInterval.of(LOW, true, HIGH, false), "[0.12, 0.15) mm"),
                Arguments.of(LengthInterval.point(HIGH), "[0.15, 0.15] mm"),
                Arguments.of(LengthInterval.closed(HIGH, HIGH), "[0.15, 0.15] mm"),
                Arguments.of(LengthInterval.above(LOW), "> 0.12 mm"),
                Arguments.of(LengthInterval.atLeast(LOW), ">= 0.12 mm"),
                Arguments.of(LengthInterval.below(HIGH), "< 0.15 mm"),
                Arguments.of(LengthInterval.atMost(HIGH), "<= 0.15 mm"),
                Arguments.of(LengthInterval.any(), "any"));
    }

    @ParameterizedTest
    @MethodSource("madeByFactories")
    void writesAndReadsEveryForm(LengthInterval interval, String text) {
        assertThat(interval).hasToString(text);
        assertThat(LengthInterval.parse(text)).isEqualTo(interval);
    }

    @Test
    void refusesToBeEmpty() {
        String expected = "a lower end below the upper end";
        Contracts.refuses(
                () -> LengthInterval.closed(HIGH, LOW), "interval", "[0.15, 0.12] mm", "holds no length", expected);
        Contracts.refuses(() -> LengthInterval.open(LOW, LOW), "(0.12, 0.12) mm", "holds no length", expected);
        Contracts.refuses(() -> LengthInterval.of(LOW, true, LOW, false), "[0.12, 0.12) mm", "include both");
        Contracts.refuses(() -> LengthInterval.of(LOW, false, LOW, true), "(0.12, 0.12] mm", "swap the ends");
    }

    // Parsing

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "(0.12,0.15]mm | (0.12, 0.15] mm",
                "' ( 0.12 , 0.15 ] mm ' | (0.12, 0.15] mm",
                "(12, 15] hundredths | (0.12, 0.15] mm",
                "[0.004, 0.006) in | [0.1016, 0.1524) mm",
                "[0.10 mm, 4 thou] | [0.10, 0.1016] mm",
                "(-0.01, 0.00) mm | (-0.01, 0.00) mm",
                "<0.03mm | < 0.03 mm",
                "<=3 hundredths | <= 0.03 mm",
                ">= 4 thou | >= 0.1016 mm",
                "' any ' | any"
            })
    void readsOtherSpellings(String text, String written) {
        assertThat(LengthInterval.parse(text)).hasToString(written);
    }

    static Stream<Arguments> badTexts() {
        return Stream.of(
                Arguments.of("", WRONG_FORM, 0),
                Arguments.of("0.12 mm", WRONG_FORM, 0),
                Arguments.of("0.11..0.16 mm", WRONG_FORM, 0),
                Arguments.of("(", WRONG_FORM, 0),
                Arguments.of("(0.12 mm)", WRONG_FORM, 0),
                Arguments.of("(0.12; 0.15) mm", WRONG_FORM, 0),
                Arguments.of("(0,12) mm", DECIMAL_COMMA, 2),
                Arguments.of("(0.12, 0.15 mm", WRONG_FORM, 0),
                Arguments.of("0.12, 0.15] mm", WRONG_FORM, 0),
                Arguments.of("(0.12) 0.15, mm", WRONG_FORM, 0),
                Arguments.of("Any", WRONG_FORM, 0),
                Arguments.of("(0.15, 0.12) mm", WRONG_ORDER, 0),
                Arguments.of("(0.12, 0.12) mm", WRONG_ORDER, 0),
                Arguments.of("[0.12, 0.12) mm", WRONG_ORDER, 0),
                Arguments.of("(0.12, 0.15)", NO_UNIT, 4),
                Arguments.of("< 0.03", NO_UNIT, 5),
                Arguments.of("(0.12, 0.15) cm", UNKNOWN_UNIT, 5),
                Arguments.of("(0.12, 0.15) mm)", UNKNOWN_UNIT, 5),
                Arguments.of("(0,12, 0,15) mm", DECIMAL_COMMA, 2),
                Arguments.of("(,) mm", NOT_A_NUMBER, 1),
                Arguments.of("(a, b) mm", NOT_A_NUMBER, 0),
                Arguments.of(">", EMPTY, 0),
                Arguments.of("=< 0.03 mm", WRONG_FORM, 0));
    }

    @ParameterizedTest
    @MethodSource("badTexts")
    void refusesOtherTexts(String text, Reason reason, int position) {
        Contracts.refusesText(LengthInterval::parse, text, reason, position);
    }

    @Test
    void saysWhichFormsThereAre() {
        assertThat(Contracts.refusesText(LengthInterval::parse, "0.12-0.15 mm", WRONG_FORM, 0))
                .hasMessageContainingAll(
                        "interval \"0.12-0.15 mm\"", "(0.12, 0.15] mm", "[0.15, 0.15] mm", "< 0.03 mm");
        assertThat(Contracts.refusesText(LengthInterval::parse, "(0.15, 0.12) mm", WRONG_ORDER, 0))
                .hasMessageContainingAll("\"(0.15, 0.12) mm\"", "a lower end below the upper end", "swap the ends");
    }

    // Ends

    @Test
    void givesItsEnds() {
        LengthInterval half = LengthInterval.of(LOW, false, HIGH, true);
        assertThat(half.lower()).contains(LOW);
        assertThat(half.lowerIncluded()).isFalse();
        assertThat(half.upper()).contains(HIGH);
        assertThat(half.upperIncluded()).isTrue();
        assertThat(half.isBounded()).isTrue();
        assertThat(half.isPoint()).isFalse();
        assertThat(half.width()).contains(Length.parse("0.03 mm"));
    }

    @Test
    void aMissingEndIsNeverIncluded() {
        for (LengthInterval i : List.of(LengthInterval.any(), LengthInterval.above(LOW), LengthInterval.below(LOW))) {
            assertThat(i.lowerIncluded()).isFalse();
            assertThat(i.upperIncluded()).isFalse();
            assertThat(i.isBounded()).isFalse();
            assertThat(i.isPoint()).isFalse();
            assertThat(i.width()).isEmpty();
        }
        assertThat(LengthInterval.atMost(LOW).upperIncluded()).isTrue();
        assertThat(LengthInterval.atMost(LOW).lower()).isEmpty();
        assertThat(LengthInterval.atLeast(LOW).lowerIncluded()).isTrue();
        assertThat(LengthInterval.atLeast(LOW).upper()).isEmpty();
    }

    @Test
    void aPointHasNoWidth() {
        assertThat(LengthInterval.point(LOW).isPoint()).isTrue();
        assertThat(LengthInterval.point(LOW).width()).contains(Length.ZERO);
    }

    // Relations, against the sets of points of every interval on a small grid. Ends are even numbers of nanometres, so
    // that
    // the odd ones stand for the lengths between two ends, and the outermost for those beyond all ends.

    private static final int STEP = 2;
    private static final int BEYOND = 2 * STEP + 1;

    private record Ends(
            @Nullable Integer low, boolean lowIn, @Nullable Integer high, boolean highIn) {
        boolean has(int point) {
            boolean over = low == null || point > low || (lowIn && point == low);
            boolean under = high == null || point < high || (highIn && point == high);
            return over && under;
        }

        LengthInterval interval() {
            if (low == null) {
                if (high == null) {
                    return LengthInterval.any();
                }
                return highIn ? LengthInterval.atMost(nm(high)) : LengthInterval.below(nm(high));
            }
            if (high == null) {
                return lowIn ? LengthInterval.atLeast(nm(low)) : LengthInterval.above(nm(low));
            }
            return LengthInterval.of(nm(low), lowIn, nm(high), highIn);
        }

        Set<Integer> points() {
            return IntStream.rangeClosed(-1, BEYOND)
                    .filter(this::has)
                    .boxed()
                    .collect(Collectors.toCollection(TreeSet::new));
        }
    }

    private static Length nm(int nanometres) {
        return Length.ofNanometres(nanometres);
    }

    private static final List<Ends> GRID = grid();

    private static List<Ends> grid() {
        List<Integer> ends = new ArrayList<>();
        ends.add(null);
        ends.addAll(List.of(0, STEP, 2 * STEP));
        List<Ends> all = new ArrayList<>();
        for (Integer low : ends) {
            for (Integer high : ends) {
                for (boolean lowIn : low == null ? new boolean[] {false} : new boolean[] {false, true}) {
                    for (boolean highIn : high == null ? new boolean[] {false} : new boolean[] {false, true}) {
                        Ends made = new Ends(low, lowIn, high, highIn);
                        if (!made.points().isEmpty()) {
                            all.add(made);
                        }
                    }
                }
            }
        }
        return List.copyOf(all);
    }

    private static Set<Integer> pointsOf(LengthInterval interval) {
        return IntStream.rangeClosed(-1, BEYOND)
                .filter(p -> interval.contains(nm(p)))
                .boxed()
                .collect(Collectors.toCollection(TreeSet::new));
    }

    private interface PairCheck {
        void of(Ends a, Ends b);
    }

    private static void forAllPairs(PairCheck check) {
        assertThat(GRID).hasSize(28);
        for (Ends a : GRID) {
            for (Ends b : GRID) {
                check.of(a, b);
            }
        }
    }

    @Test
    void containsItsPointsAndNoOthers() {
        for (Ends a : GRID) {
            assertThat(pointsOf(a.interval())).as("%s", a).isEqualTo(a.points());
        }
    }

    @Test
    void equalIntervalsAreEqualSets() {
        forAllPairs((a, b) -> assertThat(a.interval().equals(b.interval()))
                .as("%s = %s", a.interval(), b.interval())
                .isEqualTo(a.points().equals(b.points())));
    }

    @Test
    void theIntersectionHasThePointsOfBoth() {
        forAllPairs((a, b) -> {
            Set<Integer> both = new TreeSet<>(a.points());
            both.retainAll(b.points());
            assertThat(a.interval()
                            .intersection(b.interval())
                            .map(LengthIntervalTest::pointsOf)
                            .orElse(Set.of()))
                    .as("%s and %s", a.interval(), b.interval())
                    .isEqualTo(both);
            assertThat(a.interval().intersects(b.interval())).isEqualTo(!both.isEmpty());
        });
    }

    @Test
    void theHullIsTheSmallestIntervalThatHoldsBoth() {
        forAllPairs((a, b) -> {
            Set<Integer> either = new TreeSet<>(a.points());
            either.addAll(b.points());
            Set<Integer> hull = pointsOf(a.interval().hull(b.interval()));
            assertThat(hull).as("hull of %s and %s", a.interval(), b.interval()).containsAll(either);
            assertThat(GRID)
                    .filteredOn(larger -> larger.points().containsAll(either))
                    .allMatch(larger -> larger.points().containsAll(hull));
        });
    }

    @Test
    void anIntervalEnclosesItsSubsets() {
        forAllPairs((a, b) -> assertThat(a.interval().encloses(b.interval()))
                .as("%s encloses %s", a.interval(), b.interval())
                .isEqualTo(a.points().containsAll(b.points())));
    }

    @Test
    void liesBelowWhenEveryPointDoes() {
        forAllPairs((a, b) -> {
            boolean below =
                    a.points().stream().allMatch(x -> b.points().stream().allMatch(y -> x < y));
            assertThat(a.interval().liesBelow(b.interval()))
                    .as("%s lies below %s", a.interval(), b.interval())
                    .isEqualTo(below);
            assertThat(b.interval().liesAbove(a.interval())).isEqualTo(below);
        });
    }

    @Test
    void aStrongerLowerEndLetsFewerPointsThrough() {
        forAllPairs((a, b) -> {
            long byA = IntStream.rangeClosed(-1, BEYOND)
                    .filter(new Ends(a.low(), a.lowIn(), null, false)::has)
                    .count();
            long byB = IntStream.rangeClosed(-1, BEYOND)
                    .filter(new Ends(b.low(), b.lowIn(), null, false)::has)
                    .count();
            assertThat(Integer.signum(LengthInterval.compareLower(a.interval(), b.interval())))
                    .as("lower ends of %s and %s", a.interval(), b.interval())
                    .isEqualTo(Long.compare(byB, byA));
        });
    }

    @Test
    void aHigherUpperEndLetsMorePointsThrough() {
        forAllPairs((a, b) -> {
            long byA = IntStream.rangeClosed(-1, BEYOND)
                    .filter(new Ends(null, false, a.high(), a.highIn())::has)
                    .count();
            long byB = IntStream.rangeClosed(-1, BEYOND)
                    .filter(new Ends(null, false, b.high(), b.highIn())::has)
                    .count();
            assertThat(Integer.signum(LengthInterval.compareUpper(a.interval(), b.interval())))
                    .as("upper ends of %s and %s", a.interval(), b.interval())
                    .isEqualTo(Long.compare(byA, byB));
        });
    }

    /** Points on a doubled grid, so that two open ends that meet leave a sum on it: 0 + 0 excluded, 1 + 1 = 2 included. */
    @Test
    void theSumHasTheSumsOfPoints() {
        forAllPairs((a, b) -> {
            Ends twiceA = doubled(a);
            Ends twiceB = doubled(b);
            LengthInterval sum = twiceA.interval().plus(twiceB.interval());
            for (int p = -4; p <= 20; p += 2) {
                int point = p;
                boolean reached = IntStream.rangeClosed(-30, 40).anyMatch(x -> twiceA.has(x) && twiceB.has(point - x));
                assertThat(sum.contains(nm(point)))
                        .as("%d in %s + %s", point, twiceA.interval(), twiceB.interval())
                        .isEqualTo(reached);
            }
        });
    }

    private static Ends doubled(Ends e) {
        return new Ends(
                e.low() == null ? null : 2 * e.low(), e.lowIn(), e.high() == null ? null : 2 * e.high(), e.highIn());
    }

    /**
     * The states of two closed intervals in IEEE Std 1788-2015 (overlap of intervals), as far as the relations here express
     * them: for each state whether a lies below b, meets it in a length, encloses it, is enclosed, and how the ends compare.
     */
    @ParameterizedTest
    @CsvSource({
        "before,       '[1, 2] mm', '[3, 4] mm', true,  false, false, false, -1, -1",
        "meets,        '[1, 2] mm', '[2, 3] mm', false, true,  false, false, -1, -1",
        "overlaps,     '[1, 3] mm', '[2, 4] mm', false, true,  false, false, -1, -1",
        "starts,       '[1, 2] mm', '[1, 4] mm', false, true,  false, true,   0, -1",
        "starts,       '[1, 1] mm', '[1, 4] mm', false, true,  false, true,   0, -1",
        "containedBy,  '[2, 3] mm', '[1, 4] mm', false, true,  false, true,   1, -1",
        "finishes,     '[3, 4] mm', '[1, 4] mm', false, true,  false, true,   1,  0",
        "equals,       '[1, 4] mm', '[1, 4] mm', false, true,  true,  true,   0,  0",
        "finishedBy,   '[1, 4] mm', '[3, 4] mm', false, true,  true,  false, -1,  0",
        "contains,     '[1, 4] mm', '[2, 3] mm', false, true,  true,  false, -1,  1",
        "startedBy,    '[1, 4] mm', '[1, 2] mm', false, true,  true,  false,  0,  1",
        "overlappedBy, '[2, 4] mm', '[1, 3] mm', false, true,  false, false,  1,  1",
        "metBy,        '[2, 3] mm', '[1, 2] mm', false, true,  false, false,  1,  1",
        "after,        '[3, 4] mm', '[1, 2] mm', false, false, false, false,  1,  1"
    })
    void agreesWithTheStatesOfIeee1788(
            String state,
            String first,
            String second,
            boolean liesBelow,
            boolean intersects,
            boolean encloses,
            boolean enclosed,
            int lowerEnds,
            int upperEnds) {
        LengthInterval a = LengthInterval.parse(first);
        LengthInterval b = LengthInterval.parse(second);
        assertThat(a.liesBelow(b)).as(state).isEqualTo(liesBelow);
        assertThat(a.liesAbove(b)).as(state).isEqualTo(state.equals("after"));
        assertThat(a.intersects(b)).as(state).isEqualTo(intersects);
        assertThat(a.encloses(b)).as(state).isEqualTo(encloses);
        assertThat(b.encloses(a)).as(state).isEqualTo(enclosed);
        assertThat(Integer.signum(LengthInterval.compareLower(a, b))).as(state).isEqualTo(lowerEnds);
        assertThat(Integer.signum(LengthInterval.compareUpper(a, b))).as(state).isEqualTo(upperEnds);
    }

    /** A leaf at the upper limit that goes means loose; the same leaf that drags means exactly at the limit, so within. */
    @Test
    void openAndClosedEndsDecideAtALimit() {
        LengthInterval window = LengthInterval.closed(LOW, HIGH);
        assertThat(LengthInterval.above(HIGH).liesAbove(window)).isTrue();
        assertThat(window.encloses(LengthInterval.point(HIGH))).isTrue();
        assertThat(LengthInterval.atLeast(HIGH).liesAbove(window)).isFalse();
        assertThat(LengthInterval.below(LOW).liesBelow(window)).isTrue();
    }

    // Moving

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "(0.12, 0.15] mm | 0.05 mm  | (0.17, 0.20] mm",
                "(0.12, 0.15] mm | -0.12 mm | (0.00, 0.03] mm",
                "< 0.03 mm       | 4 thou   | < 0.1316 mm",
                ">= 0.50 mm      | -1 mm    | >= -0.50 mm",
                "any             | 1 mm     | any"
            })
    void movesBothEnds(String interval, String by, String moved) {
        assertThat(LengthInterval.parse(interval).plus(Length.parse(by))).hasToString(moved);
    }

    @Test
    void doesNotMoveBeyondAMetre() {
        Contracts.refuses(
                () -> LengthInterval.above(Length.parse("999.99 mm")).plus(Length.parse("0.02 mm")),
                "1000010000 nm",
                "-1000 mm to 1000 mm");
    }

    // The other sign, and times a ratio

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "(0.12, 0.15] mm  | [-0.15, -0.12) mm",
                "[-0.02, 0.05) mm | (-0.05, 0.02] mm",
                "[0.15, 0.15] mm  | [-0.15, -0.15] mm",
                "< 0.03 mm        | > -0.03 mm",
                ">= 0.50 mm       | <= -0.50 mm",
                "any              | any"
            })
    void negatedSwapsTheEnds(String interval, String negated) {
        assertThat(LengthInterval.parse(interval).negated()).hasToString(negated);
        assertThat(LengthInterval.parse(negated).negated()).hasToString(interval);
    }

    /** What does not come out whole is rounded outward, and an end that was moved is no longer included. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "(0.12, 0.15] mm  | 1.5  | (0.18, 0.225] mm",
                "(0.12, 0.15] mm  | 1    | (0.12, 0.15] mm",
                "(0.12, 0.15] mm  | -2   | [-0.30, -0.24) mm",
                "[0.10, 0.20] mm  | 1/3  | (0.033333, 0.066667) mm",
                "[-0.10, 0.05] mm | 1/3  | (-0.033334, 0.016667) mm",
                "[0.10, 0.21] mm  | 1/3  | (0.033333, 0.07] mm",
                "[0.10, 0.10] mm  | -1/3 | (-0.033334, -0.033333) mm",
                "< 0.03 mm        | 2    | < 0.06 mm",
                ">= 0.50 mm       | 0.1  | >= 0.05 mm",
                "<= 0.10 mm       | 1/3  | < 0.033334 mm",
                ">= 0.50 mm       | -2   | <= -1.00 mm",
                "any              | 1.5  | any",
                "any              | -1.5 | any",
                "(0.12, 0.15] mm  | 0    | [0.00, 0.00] mm",
                "any              | 0    | [0.00, 0.00] mm"
            })
    void timesARatio(String interval, String ratio, String product) {
        assertThat(LengthInterval.parse(interval).times(Ratio.parse(ratio))).hasToString(product);
    }

    @Test
    void doesNotGrowBeyondAMetre() {
        Contracts.refuses(
                () -> LengthInterval.below(Length.parse("600 mm")).times(Ratio.parse("1.7")),
                "1020000000 nm",
                "-1000 mm to 1000 mm");
    }

    // Equality, text, serialisation, nulls

    @Test
    void isEqualByEnds() {
        Contracts.equality(
                LengthInterval.of(LOW, false, HIGH, true),
                LengthInterval.parse("(120, 150] um"),
                List.of(
                        LengthInterval.open(LOW, HIGH),
                        LengthInterval.closed(LOW, HIGH),
                        LengthInterval.of(LOW, false, Length.parse("0.16 mm"), true),
                        LengthInterval.of(Length.parse("0.11 mm"), false, HIGH, true),
                        LengthInterval.above(LOW),
                        LengthInterval.atMost(HIGH),
                        LengthInterval.any()));
    }

    @Test
    void withoutEndsThereIsOneAny() {
        LengthInterval any = LengthInterval.below(LOW).hull(LengthInterval.above(HIGH));
        assertThat(any).isEqualTo(LengthInterval.any()).hasToString("any");
        assertThat(any.plus(LengthInterval.point(LOW))).isEqualTo(LengthInterval.any());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "(4, 6] thou     | INCH       | (0.004, 0.006] in",
                "(4, 6] thou     | THOU       | (4, 6] thou",
                "(12, 15] hundredths | HUNDREDTH | (12, 15] hundredths",
                "(0.10 mm, 4 thou] | THOU     | (0.10, 0.1016] mm",
                "< 4 thou        | INCH       | < 0.004 in",
                ">= 0.05 mm      | INCH       | >= 0.05 mm",
                "any             | INCH       | any"
            })
    void writesItselfInAUnit(String text, LengthUnit unit, String written) {
        LengthInterval interval = LengthInterval.parse(text);
        assertThat(interval.toString(unit)).isEqualTo(written);
        assertThat(LengthInterval.parse(written)).isEqualTo(interval);
    }

    @ParameterizedTest
    @ValueSource(strings = {"(0.12, 0.15] mm", "< 0.03 mm", "any", "[0.15, 0.15] mm"})
    void serialises(String text) {
        Contracts.serialises(LengthInterval.parse(text));
    }

    @Test
    void refusesNull() {
        LengthInterval any = LengthInterval.any();
        LengthInterval up = LengthInterval.above(LOW);
        LengthInterval down = LengthInterval.below(LOW);
        Contracts.refuseNull(
                () -> LengthInterval.of(null, true, HIGH, true),
                () -> LengthInterval.of(LOW, true, null, true),
                () -> LengthInterval.closed(null, HIGH),
                () -> LengthInterval.open(LOW, null),
                () -> LengthInterval.point(null),
                () -> LengthInterval.above(null),
                () -> LengthInterval.atLeast(null),
                () -> LengthInterval.below(null),
                () -> LengthInterval.atMost(null),
                () -> LengthInterval.parse(null),
                () -> any.contains(null),
                () -> any.encloses(null),
                () -> any.intersects(null),
                () -> any.intersection(null),
                () -> any.hull(null),
                () -> any.liesBelow(null),
                () -> up.liesBelow(null),
                () -> down.liesBelow(null),
                () -> up.liesAbove(null),
                () -> any.plus((Length) null),
                () -> any.plus((LengthInterval) null),
                () -> up.plus((LengthInterval) null),
                () -> any.times(null),
                () -> LengthInterval.compareLower(any, null),
                () -> LengthInterval.compareLower(null, any),
                () -> LengthInterval.compareUpper(any, null),
                () -> LengthInterval.compareUpper(null, any),
                () -> any.toString(null),
                () -> up.toString(null));
    }
}
