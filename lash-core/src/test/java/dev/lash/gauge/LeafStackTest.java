package dev.lash.gauge;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.TextParseException.Reason;
import dev.lash.testing.Contracts;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class LeafStackTest {
    private static final Leaf THIN = Leaf.parse("0.06 mm");
    private static final Leaf THICK = Leaf.parse("0.15 mm");

    // Factories

    @Test
    void keepsItsLeavesThinnestFirst() {
        LeafStack stack = new LeafStack(List.of(THICK, THIN, THICK));
        assertThat(stack.leaves()).containsExactly(THIN, THICK, THICK);
        assertThat(stack.size()).isEqualTo(3);
        assertThat(LeafStack.of(THIN).leaves()).containsExactly(THIN);
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 4, 5})
    void refusesNoneAndMoreThanThree(int count) {
        Contracts.refuses(
                () -> new LeafStack(Collections.nCopies(count, THIN)),
                "leaf stack",
                count + " leaves",
                "1 to 3 leaves",
                "use fewer, thicker leaves");
    }

    @Test
    void doesNotChangeWithTheListItCameFrom() {
        Leaf[] given = {THIN, THICK};
        LeafStack stack = new LeafStack(Arrays.asList(given));
        given[0] = THICK;
        assertThat(stack.leaves()).containsExactly(THIN, THICK);
        assertThat(stack.leaves()).isUnmodifiable();
    }

    // Parsing

    @ParameterizedTest
    @CsvSource({
        "0.10 mm, 0.10 mm",
        "0.15 mm + 0.06 mm, 0.06 mm + 0.15 mm",
        "0.06mm+0.15mm, 0.06 mm + 0.15 mm",
        "4 thou + 0.10 mm, 0.10 mm + 0.1016 mm",
        "0.06 mm + 0.06 mm + 0.06 mm, 0.06 mm + 0.06 mm + 0.06 mm"
    })
    void readsLeavesJoinedByPlus(String text, String written) {
        assertThat(LeafStack.parse(text)).hasToString(written);
    }

    static Stream<Arguments> badTexts() {
        return Stream.of(
                Arguments.of("", Reason.EMPTY, 0),
                Arguments.of("0.06 mm +", Reason.EMPTY, 0),
                Arguments.of("+ 0.06 mm", Reason.EMPTY, 0),
                Arguments.of("0.06 + 0.15 mm", Reason.NO_UNIT, 4),
                Arguments.of("0.06 mm and 0.15 mm", Reason.UNKNOWN_UNIT, 5),
                Arguments.of("0,06 mm + 0.15 mm", Reason.DECIMAL_COMMA, 1));
    }

    @ParameterizedTest
    @MethodSource("badTexts")
    void refusesOtherTexts(String text, Reason reason, int position) {
        Contracts.refusesText(LeafStack::parse, text, reason, position);
    }

    @Test
    void refusesTextsOfFourLeaves() {
        Contracts.refuses(() -> LeafStack.parse("1 mm + 1 mm + 1 mm + 1 mm"), "4 leaves", "1 to 3 leaves");
        Contracts.refuses(() -> LeafStack.parse("1 mm + 0 mm"), "leaf \"0.00 mm\"", "above 0 mm");
    }

    // Thickness

    @ParameterizedTest
    @CsvSource({
        "0.06 mm + 0.15 mm, 0.21 mm",
        "0.03 mm + 0.04 mm, 0.07 mm",
        "0.010 in + 0.010 in + 0.010 in, 0.030 in",
        "4 thou + 0.10 mm, 0.2016 mm",
        "5 mm + 5 mm + 5 mm, 15 mm"
    })
    void isAsThickAsItsLeavesTogether(String text, String thickness) {
        assertThat(LeafStack.parse(text).thickness()).isEqualTo(Length.parse(thickness));
    }

    // Order, equality, text, serialisation, nulls

    @Test
    void isOrderedByThicknessThenFewerLeavesThenLeafByLeaf() {
        Contracts.order(Stream.of(
                        "0.19 mm",
                        "0.20 mm",
                        "0.01 mm + 0.19 mm",
                        "0.05 mm + 0.15 mm",
                        "0.10 mm + 0.10 mm",
                        "0.01 mm + 0.02 mm + 0.17 mm",
                        "0.01 mm + 0.03 mm + 0.16 mm",
                        "0.02 mm + 0.02 mm + 0.16 mm",
                        "0.21 mm")
                .map(LeafStack::parse)
                .toList());
    }

    @Test
    void isEqualWhateverTheOrderOfItsLeaves() {
        Contracts.equality(
                new LeafStack(List.of(THIN, THICK)),
                new LeafStack(List.of(THICK, THIN)),
                List.of(LeafStack.of(THIN), LeafStack.parse("0.21 mm"), LeafStack.parse("0.10 mm + 0.11 mm")));
    }

    @Test
    void writesItsLeavesInAUnit() {
        LeafStack stack = LeafStack.parse("4 thou + 6 thou");
        assertThat(stack.toString(LengthUnit.INCH)).isEqualTo("0.004 in + 0.006 in");
        assertThat(stack.toString(LengthUnit.THOU)).isEqualTo("4 thou + 6 thou");
        // Each leaf by itself: one that has no decimal form in inches is written in millimetres.
        assertThat(LeafStack.parse("4 thou + 0.10 mm").toString(LengthUnit.INCH))
                .isEqualTo("0.10 mm + 0.004 in");
    }

    @Test
    void serialises() {
        Contracts.serialises(new LeafStack(List.of(THIN, THICK)));
    }

    @Test
    void refusesNull() {
        Contracts.refuseNull(
                () -> new LeafStack(null),
                () -> new LeafStack(Collections.singletonList(null)),
                () -> new LeafStack(Arrays.asList(THIN, null)),
                () -> LeafStack.of(null),
                () -> LeafStack.parse(null),
                () -> LeafStack.of(THIN).compareTo(null),
                () -> LeafStack.of(THIN).toString(null));
    }
}
