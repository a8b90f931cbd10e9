package dev.lash.gauge;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.TextParseException.Reason;
import dev.lash.testing.Contracts;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class GaugeSetTest {
    private static final GaugeSet THREE = GaugeSet.of(LengthUnit.MILLIMETRE, "0.15", "0.07", "0.12");

    // Factories

    @Test
    void keepsItsLeavesThinnestFirst() {
        assertThat(THREE.leaves()).hasToString("[0.07 mm, 0.12 mm, 0.15 mm]").isUnmodifiable();
        assertThat(THREE.thinnest()).isEqualTo(Leaf.parse("0.07 mm"));
        assertThat(THREE.mostStacked()).isOne();
        assertThat(THREE.tolerance()).isEqualTo(Length.ZERO);
        assertThat(THREE.dragAllowance()).isEqualTo(Length.ZERO);
        assertThat(THREE.unit()).isEqualTo(LengthUnit.MILLIMETRE);
    }

    @Test
    void readsMarksInItsUnitOrTheirOwn() {
        assertThat(GaugeSet.of(LengthUnit.THOU, "4", "0.006 in", "0.10 mm").leaves())
                .hasToString("[0.10 mm, 0.1016 mm, 0.1524 mm]");
        Contracts.refusesText(t -> GaugeSet.of(LengthUnit.THOU, "4", t), "six", Reason.NOT_A_NUMBER, 0);
        Contracts.refuses(
                () -> GaugeSet.of(LengthUnit.MILLIMETRE, "0.05", "15"), "leaf \"15.00 mm\"", "at most 5.00 mm");
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 201})
    void refusesNoLeavesAndMoreThanTwoHundred(int count) {
        Contracts.refuses(
                () -> new GaugeSet(
                        Collections.nCopies(count, Leaf.parse("1 mm")),
                        1,
                        Length.ZERO,
                        Length.ZERO,
                        LengthUnit.MILLIMETRE),
                "gauge set \"" + count + " leaves\"",
                "1 to 200 leaves",
                "list the leaves");
    }

    @Test
    void takesTwoHundredLeaves() {
        assertThat(new GaugeSet(
                                Collections.nCopies(200, Leaf.parse("1 mm")),
                                1,
                                Length.ZERO,
                                Length.ZERO,
                                LengthUnit.MILLIMETRE)
                        .leaves())
                .hasSize(200);
    }

    @ParameterizedTest
    @ValueSource(ints = {0, -1, 4, Integer.MAX_VALUE})
    void refusesStacksOfNoneAndOfMoreThanThree(int most) {
        Contracts.refuses(() -> THREE.withStacksOf(most), "stack \"" + most + "\"", "1 to 3", "traps oil");
    }

    @Test
    void refusesAToleranceThatMakesALeafNothing() {
        Contracts.refuses(
                () -> THREE.withTolerance(Length.parse("0.07 mm"), Length.ZERO),
                "leaf tolerance \"0.07 mm\"",
                "less than 0.07 mm",
                "check the tolerance and its unit");
        Contracts.refuses(
                () -> THREE.withTolerance(Length.parse("3 mm"), Length.ZERO), "\"3.00 mm\"", "0 mm to 0.10 mm");
        Contracts.refuses(
                () -> THREE.withTolerance(Length.ZERO, Length.parse("-3 um")),
                "drag allowance \"-0.003 mm\"",
                "0 mm to");
        assertThat(THREE.withTolerance(Length.parse("0.069999 mm"), Length.ZERO).tolerance())
                .hasToString("0.069999 mm");
    }

    @Test
    void withersChangeOnePartEach() {
        GaugeSet set = THREE.withStacksOf(2).withTolerance(Length.parse("3 um"), Length.parse("2 um"));
        assertThat(set.leaves()).isEqualTo(THREE.leaves());
        assertThat(set.mostStacked()).isEqualTo(2);
        assertThat(set.tolerance()).isEqualTo(Length.parse("3 um"));
        assertThat(set.dragAllowance()).isEqualTo(Length.parse("2 um"));
        assertThat(set.guardedRule()).hasToString("guarded, tolerance 0.003 mm, drag allowance 0.002 mm");
        assertThat(THREE.guardedRule()).isEqualTo(ReadingRule.guarded(Length.ZERO, Length.ZERO));
    }

    @Test
    void aLeafMoreTakesItsPlace() {
        assertThat(THREE.withStacksOf(2).withLeaf(Leaf.parse("0.10 mm")))
                .isEqualTo(GaugeSet.of(LengthUnit.MILLIMETRE, "0.07", "0.10", "0.12", "0.15")
                        .withStacksOf(2));
        assertThat(THREE.withLeaf(Leaf.parse("0.12 mm")).leaves()).hasSize(4);
        GaugeSet tolerant = THREE.withTolerance(Length.parse("3 um"), Length.ZERO);
        Contracts.refuses(() -> tolerant.withLeaf(Leaf.parse("0.003 mm")), "leaf tolerance", "less than 0.003 mm");
    }

    // What can be offered

    @ParameterizedTest
    @CsvSource({
        "0.12 mm, true",
        "0.10 mm, false",
        "0.07 mm + 0.15 mm, true",
        "0.07 mm + 0.12 mm + 0.15 mm, true",
        "0.12 mm + 0.12 mm, false",
        "0.12 mm + 0.10 mm, false"
    })
    void ownsWhatCanBeLaidTogether(String stack, boolean owned) {
        assertThat(THREE.owns(LeafStack.parse(stack))).isEqualTo(owned);
    }

    @Test
    void ownsALeafTwiceOnlyWhenItIsListedTwice() {
        GaugeSet twice = GaugeSet.of(LengthUnit.MILLIMETRE, "0.12", "0.12");
        assertThat(twice.owns(LeafStack.parse("0.12 mm + 0.12 mm"))).isTrue();
        assertThat(twice.owns(LeafStack.parse("0.12 mm + 0.12 mm + 0.12 mm"))).isFalse();
        assertThat(twice.stacks()).hasToString("[0.12 mm]");
        assertThat(twice.withStacksOf(2).stacks()).hasToString("[0.12 mm, 0.12 mm + 0.12 mm]");
    }

    @Test
    void stacksUpToWhatIsAllowed() {
        assertThat(THREE.stacks()).hasToString("[0.07 mm, 0.12 mm, 0.15 mm]");
        assertThat(THREE.withStacksOf(2).stacks())
                .hasToString(
                        "[0.07 mm, 0.12 mm, 0.15 mm, " + "0.07 mm + 0.12 mm, 0.07 mm + 0.15 mm, 0.12 mm + 0.15 mm]");
        assertThat(THREE.withStacksOf(3).stacks()).hasSize(7).last().hasToString("0.07 mm + 0.12 mm + 0.15 mm");
    }

    @Test
    void ofOneThicknessFewerLeavesComeFirst() {
        assertThat(GaugeSet.of(LengthUnit.MILLIMETRE, "0.05", "0.10", "0.15", "0.20")
                        .withStacksOf(2)
                        .stacks())
                .hasToString("[0.05 mm, 0.10 mm, 0.15 mm, 0.05 mm + 0.10 mm, 0.20 mm, 0.05 mm + 0.15 mm, "
                        + "0.05 mm + 0.20 mm, 0.10 mm + 0.15 mm, 0.10 mm + 0.20 mm, 0.15 mm + 0.20 mm]");
    }

    // Sets in print

    private static GaugeSet hundredths(IntStream marks) {
        return GaugeSet.of(LengthUnit.HUNDREDTH, marks.mapToObj(String::valueOf).toArray(String[]::new));
    }

    /**
     * JIS B 7524:2008: leaves of 0.01 to 0.15 mm by 0.01, to 1.00 by 0.05, to 3.0 by 0.1; tolerances of 0.003 to 0.010 mm by
     * thickness.
     */
    @Test
    void theLeafGridOfJisB7524() {
        GaugeSet grid = hundredths(Stream.of(
                        IntStream.rangeClosed(1, 15),
                        IntStream.rangeClosed(4, 20).map(i -> i * 5),
                        IntStream.rangeClosed(11, 30).map(i -> i * 10))
                .flatMapToInt(marks -> marks));
        assertThat(grid.leaves()).hasSize(15 + 17 + 20).doesNotHaveDuplicates();
        assertThat(grid.thinnest()).hasToString("0.01 mm");
        assertThat(grid.leaves()).last().hasToString("3.00 mm");
        assertThat(grid.withTolerance(Length.parse("0.003 mm"), Length.ZERO).tolerance())
                .isEqualTo(Length.parse("3 um"));
        // The wide end of the band is for thick leaves: it would make the thinnest nothing.
        Contracts.refuses(
                () -> grid.withTolerance(Length.parse("0.010 mm"), Length.ZERO), "\"0.01 mm\"", "less than 0.01 mm");
    }

    /** A catalogue's 25-leaf metric set begins with 0.03 to 0.15 mm by 0.01: 13 leaves. The rest of its list was not seen. */
    @Test
    void theThinHalfOfACommonMetricSet() {
        GaugeSet thin = hundredths(IntStream.rangeClosed(3, 15));
        assertThat(thin.leaves()).hasSize(13);
        // Two leaves reach every hundredth from 0.06, as 0.03 + 0.04 for 0.07, to 0.15 + 0.14.
        assertThat(thin.withStacksOf(2).stacks().stream().map(LeafStack::thickness))
                .containsAll(IntStream.rangeClosed(3, 29)
                        .mapToObj(i -> Length.ofNanometres(i * 10_000L))
                        .toList());
    }

    /** Inch blades of BS 957:2008 run from 0.0015 to 0.025 in. */
    @Test
    void theEndsOfTheInchBlades() {
        GaugeSet inch = GaugeSet.of(LengthUnit.INCH, "0.0015", "0.025");
        assertThat(inch.leaves()).hasToString("[0.0381 mm, 0.635 mm]");
        assertThat(inch.thinnest().toString(inch.unit())).isEqualTo("0.0015 in");
    }

    // Equality, serialisation, nulls

    @Test
    void isEqualByItsParts() {
        Contracts.equality(
                THREE,
                GaugeSet.of(LengthUnit.MILLIMETRE, "0.07", "0.12 mm", "150 um"),
                List.of(
                        GaugeSet.of(LengthUnit.MILLIMETRE, "0.07", "0.12"),
                        GaugeSet.of(LengthUnit.MILLIMETRE, "0.07", "0.12", "0.15", "0.15"),
                        GaugeSet.of(LengthUnit.INCH, "0.07 mm", "0.12 mm", "0.15 mm"),
                        THREE.withStacksOf(2),
                        THREE.withTolerance(Length.parse("3 um"), Length.ZERO),
                        THREE.withTolerance(Length.ZERO, Length.parse("3 um"))));
    }

    /** A set counts in one of the two systems; the finer units are only ways to write its marks. */
    @ParameterizedTest
    @CsvSource({
        "INCH, INCH, 0.003",
        "THOU, INCH, 3",
        "MILLIMETRE, MILLIMETRE, 0.07",
        "HUNDREDTH, MILLIMETRE, 7",
        "MICROMETRE, MILLIMETRE, 70"
    })
    void itsUnitIsTheInchOrTheMillimetre(LengthUnit given, LengthUnit kept, String mark) {
        GaugeSet set = GaugeSet.of(given, mark);
        assertThat(set.unit()).isEqualTo(kept);
        assertThat(set).isEqualTo(new GaugeSet(set.leaves(), 1, Length.ZERO, Length.ZERO, kept));
        assertThat(new GaugeSet(set.leaves(), 1, Length.ZERO, Length.ZERO, given))
                .isEqualTo(set);
    }

    @Test
    void serialises() {
        Contracts.serialises(THREE.withStacksOf(3));
    }

    @Test
    void refusesNull() {
        List<Leaf> leaves = THREE.leaves();
        Contracts.refuseNull(
                () -> new GaugeSet(null, 1, Length.ZERO, Length.ZERO, LengthUnit.INCH),
                () -> new GaugeSet(Collections.singletonList(null), 1, Length.ZERO, Length.ZERO, LengthUnit.INCH),
                () -> new GaugeSet(Arrays.asList(leaves.get(0), null), 1, Length.ZERO, Length.ZERO, LengthUnit.INCH),
                () -> new GaugeSet(leaves, 1, null, Length.ZERO, LengthUnit.INCH),
                () -> new GaugeSet(leaves, 1, Length.ZERO, null, LengthUnit.INCH),
                () -> new GaugeSet(leaves, 1, Length.ZERO, Length.ZERO, null),
                () -> GaugeSet.of(null, "1"),
                () -> GaugeSet.of(LengthUnit.INCH, "0.010", null),
                () -> THREE.withTolerance(null, Length.ZERO),
                () -> THREE.withLeaf(null),
                () -> THREE.owns(null));
    }
}
