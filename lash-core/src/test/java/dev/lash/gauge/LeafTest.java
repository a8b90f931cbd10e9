package dev.lash.gauge;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.TextParseException.Reason;
import dev.lash.testing.Contracts;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class LeafTest {
    private static final Leaf LEAF = Leaf.parse("0.10 mm");

    // Factories

    @ParameterizedTest
    @ValueSource(longs = {1, 100_000, 5_000_000})
    void isItsMarkedThickness(long nanometres) {
        assertThat(new Leaf(Length.ofNanometres(nanometres)).thickness()).isEqualTo(Length.ofNanometres(nanometres));
    }

    @ParameterizedTest
    @CsvSource({"0.00 mm", "-0.10 mm", "5.000001 mm", "10.00 mm"})
    void refusesWhatIsNoLeaf(String thickness) {
        Contracts.refuses(
                () -> new Leaf(Length.parse(thickness)),
                "leaf \"" + thickness + "\"",
                "is out of range",
                "above 0 mm and at most 5.00 mm",
                "check the number and its unit");
        Contracts.refuses(() -> Leaf.parse(thickness), "leaf", thickness, "at most 5.00 mm");
    }

    // Parsing

    @ParameterizedTest
    @CsvSource({"0.10 mm, 100000", "4 thou, 101600", ".004 in, 101600", "10 hundredths, 100000", "100um, 100000"})
    void readsItsMark(String text, long nanometres) {
        assertThat(Leaf.parse(text).thickness().nanometres()).isEqualTo(nanometres);
    }

    @Test
    void refusesTextsThatAreNoLength() {
        assertThat(Contracts.refusesText(Leaf::parse, "0.10", Reason.NO_UNIT, 4))
                .hasMessageContainingAll("\"0.10\"", "0.10 mm, 0.10 in or 0.10 thou");
        Contracts.refusesText(Leaf::parse, "", Reason.EMPTY, 0);
        Contracts.refusesText(Leaf::parse, "brass", Reason.NOT_A_NUMBER, 0);
    }

    // Order, equality, text, serialisation, nulls

    @Test
    void isOrderedByThickness() {
        Contracts.order(
                List.of(Leaf.parse("0.05 mm"), LEAF, Leaf.parse("4 thou"), Leaf.parse("0.11 mm"), Leaf.parse("3 mm")));
    }

    @Test
    void isEqualByThickness() {
        Contracts.equality(LEAF, Leaf.parse("100 um"), List.of(Leaf.parse("0.11 mm"), Leaf.parse("4 thou")));
    }

    @Test
    void writesItsMark() {
        assertThat(LEAF).hasToString("0.10 mm");
        assertThat(Leaf.parse("4 thou").toString(LengthUnit.INCH)).isEqualTo("0.004 in");
        assertThat(Leaf.parse("4 thou").toString(LengthUnit.THOU)).isEqualTo("4 thou");
        assertThat(LEAF.toString(LengthUnit.INCH)).isEqualTo("0.10 mm");
    }

    @Test
    void serialises() {
        Contracts.serialises(LEAF);
    }

    @Test
    void refusesNull() {
        Contracts.refuseNull(
                () -> new Leaf(null), () -> Leaf.parse(null), () -> LEAF.compareTo(null), () -> LEAF.toString(null));
    }
}
