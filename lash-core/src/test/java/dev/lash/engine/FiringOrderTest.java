package dev.lash.engine;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.TextParseException;
import dev.lash.testing.Contracts;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class FiringOrderTest {
    private static final FiringOrder FOUR = FiringOrder.even(1, 3, 4, 2);
    private static final FiringOrder TWIN = new FiringOrder(List.of(1, 2), List.of(Ratio.of(180, 1), Ratio.of(540, 1)));

    // Factories

    @Test
    void evenFiringsShareTheCycle() {
        assertThat(FOUR.order()).containsExactly(1, 3, 4, 2).isUnmodifiable();
        assertThat(FOUR.intervals()).containsOnly(Ratio.of(180, 1)).hasSize(4).isUnmodifiable();
        assertThat(FOUR.cylinders()).isEqualTo(4);
        assertThat(FOUR.isEven()).isTrue();
        assertThat(FiringOrder.even(List.of(1, 3, 4, 2))).isEqualTo(FOUR);
        assertThat(FiringOrder.even(1).intervals()).containsExactly(Ratio.of(720, 1));
        assertThat(FiringOrder.even(1, 2, 3, 4, 5, 6, 7).intervals()).containsOnly(Ratio.of(720, 7));
    }

    @Test
    void unevenFiringsKeepTheirIntervals() {
        assertThat(TWIN.intervals()).containsExactly(Ratio.of(180, 1), Ratio.of(540, 1));
        assertThat(TWIN.isEven()).isFalse();
        assertThat(new FiringOrder(List.of(1, 2), Collections.nCopies(2, Ratio.of(360, 1))))
                .isEqualTo(FiringOrder.even(1, 2));
    }

    @Test
    void refusesAnOrderThatDoesNotNameEachCylinderOnce() {
        for (List<Integer> order : List.of(
                List.<Integer>of(),
                List.of(0),
                List.of(2),
                List.of(1, 1),
                List.of(1, 3),
                List.of(1, 2, 4),
                List.of(-1, 1))) {
            RejectedValueException refused = Contracts.refuses(
                    () -> FiringOrder.even(order),
                    "firing order",
                    "does not name each cylinder once",
                    "the numbers 1 to the count of cylinders once, at most 18",
                    "copy the firing order from the manual");
            assertThat(refused.value())
                    .isEqualTo(
                            String.join("-", order.stream().map(String::valueOf).toList()));
        }
        List<Integer> nineteen = IntStream.rangeClosed(1, 19).boxed().toList();
        Contracts.refuses(() -> FiringOrder.even(nineteen), "1-2-3-4", "at most 18");
        assertThat(FiringOrder.even(nineteen.subList(0, 18)).cylinders()).isEqualTo(18);
    }

    @ParameterizedTest
    @ValueSource(strings = {"180, 180", "720", "240, 240, 240", "0, 720", "-180, 900", "180.1, 540"})
    void refusesIntervalsThatDoNotMakeACycle(String intervals) {
        List<Ratio> degrees =
                Arrays.stream(intervals.split(", ", -1)).map(Ratio::parse).toList();
        Contracts.refuses(
                () -> new FiringOrder(List.of(1, 2), degrees),
                "firing intervals \"[" + intervals + "]\"",
                "2 positive numbers of crank degrees that add up to 720",
                "from each firing to the next");
    }

    // Parsing

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "1 | 1",
                "1-3-4-2 | 1-3-4-2",
                "' 1-3-4-2 ' | 1-3-4-2",
                "01-02 | 1-2",
                "1-5-3-6-2-4 | 1-5-3-6-2-4",
                "1-10-9-6-5-12-11-4-3-8-7-2 | 1-10-9-6-5-12-11-4-3-8-7-2",
                "1-2 (180, 540) | 1-2 (180, 540)",
                "1-2(180,540) | 1-2 (180, 540)",
                "1-2 (360, 360) | 1-2",
                "1-2 ( 270 , 450 ) | 1-2 (270, 450)",
                "1-2-3 (720/7, 1440/7, 2880/7) | 1-2-3 (720/7, 1440/7, 2880/7)",
                "1-2 (180.5, 539.5) | 1-2 (180.5, 539.5)"
            })
    void readsOrdersAndIntervals(String text, String written) {
        assertThat(FiringOrder.parse(text)).hasToString(written);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                " ",
                "one",
                "1,3,4,2",
                "1 3 4 2",
                "1-",
                "-1",
                "1--2",
                "1-2 180, 540",
                "1-2 (180, 540",
                "1-2 )",
                "(720)",
                "100-1",
                "1-2 (180, 540) x",
                "1-\u0662"
            })
    void refusesOtherTexts(String text) {
        Contracts.refuses(
                () -> FiringOrder.parse(text),
                "firing order \"" + text + "\"",
                "is not a firing order",
                "\"1-3-4-2\" or \"1-2 (180, 540)\"",
                "write it in this form");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {"1-2 (180, )     | 0", "1-2 (180, x)    | 0", "1-2 ()          | 0", "1-2 (180, 540°) | 3"})
    void refusesIntervalsThatAreNoNumbers(String text, int position) {
        assertThat(Contracts.refuses(() -> FiringOrder.parse(text), "ratio"))
                .isInstanceOfSatisfying(
                        TextParseException.class, e -> assertThat(e.position()).isEqualTo(position));
    }

    @Test
    void refusesTextsOfTheRightFormThatDoNotFit() {
        Contracts.refuses(
                () -> FiringOrder.parse("1-3-4"), "firing order \"1-3-4\"", "does not name each cylinder once");
        Contracts.refuses(() -> FiringOrder.parse("1-2 (180, 180)"), "[180, 180]", "add up to 720");
        Contracts.refuses(() -> FiringOrder.parse("1-2 (180, 270, 270)"), "2 positive numbers");
    }

    @Test
    void refusesAVeryLongText() {
        Contracts.refuses(() -> FiringOrder.parse("1" + "-1".repeat(20_000)), "firing order");
        Contracts.refuses(() -> FiringOrder.parse("1-2 (" + "1,".repeat(20_000) + "1)"), "firing");
    }

    // Equality, text, serialisation, nulls

    @Test
    void isEqualByOrderAndIntervals() {
        Contracts.equality(
                FOUR,
                FiringOrder.parse("1-3-4-2"),
                List.of(
                        FiringOrder.even(1, 2, 4, 3),
                        FiringOrder.even(1, 3, 2),
                        FiringOrder.parse("1-3-4-2 (90, 270, 90, 270)")));
    }

    @Test
    void serialises() {
        Contracts.serialises(FOUR);
        Contracts.serialises(TWIN);
    }

    @Test
    void refusesNull() {
        Contracts.refuseNull(
                () -> new FiringOrder(null, List.of()),
                () -> new FiringOrder(List.of(1), null),
                () -> new FiringOrder(Collections.singletonList(null), List.of(Ratio.of(720, 1))),
                () -> new FiringOrder(List.of(1), Collections.singletonList(null)),
                () -> FiringOrder.even((List<Integer>) null),
                () -> FiringOrder.even(1, null),
                () -> FiringOrder.parse(null));
    }
}
