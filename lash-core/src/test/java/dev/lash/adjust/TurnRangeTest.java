package dev.lash.adjust;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.TurnRange.FlatRange;
import dev.lash.engine.ScrewHead;
import dev.lash.measure.Ratio;
import dev.lash.testing.Contracts;
import java.math.BigDecimal;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TurnRangeTest {
    private static TurnRange range(String from, String to) {
        return new TurnRange(new BigDecimal(from), new BigDecimal(to));
    }

    // ---- factories

    @Test
    void zerosAtTheEndDoNotMatter() {
        TurnRange range = range("14.40", "360.0");
        assertThat(range.from()).isEqualTo(new BigDecimal("14.4"));
        assertThat(range.to()).isEqualTo(new BigDecimal("360"));
        assertThat(range("0.00", "0")).isEqualTo(range("0", "0.0"));
    }

    @Test
    void reversedIsRefused() {
        Contracts.refuses(() -> range("24", "14.4"), "24 to 14.4 degrees", "reversed", "least first", "swap");
        assertThat(range("14.4", "14.4").from())
                .isEqualTo(range("14.4", "14.40").to());
    }

    @ParameterizedTest
    @CsvSource({
        "144/10,    24,        14.4,  24",
        "1441/100,  1449/100,  14.4,  14.5",
        "-24,       -1441/100, -24,   -14.4",
        "-1441/100, -14,       -14.5, -14",
        "1/3,       2/3,       0.3,   0.7",
        "-2/3,      -1/3,      -0.7,  -0.3",
    })
    void outwardHoldsBothExactEnds(String from, String to, String least, String most) {
        assertThat(TurnRange.outward(Ratio.parse(from), Ratio.parse(to))).isEqualTo(range(least, most));
    }

    @Test
    void inwardLiesBetweenTheExactEnds() {
        assertThat(TurnRange.inward(Ratio.parse("1/3"), Ratio.parse("2/3"))).contains(range("0.4", "0.6"));
        assertThat(TurnRange.inward(Ratio.parse("-2/3"), Ratio.parse("-1/3"))).contains(range("-0.6", "-0.4"));
        assertThat(TurnRange.inward(Ratio.parse("14.4"), Ratio.parse("14.4"))).contains(range("14.4", "14.4"));
        assertThat(TurnRange.inward(Ratio.parse("14.41"), Ratio.parse("14.49"))).isEmpty();
        assertThat(TurnRange.inward(Ratio.parse("24"), Ratio.parse("14.4"))).isEmpty();
    }

    @Test
    void countedTheOtherWayRoundTheLeastComesFirst() {
        assertThat(range("-24", "-14.4").reversed()).isEqualTo(range("14.4", "24"));
        assertThat(range("-5", "10").reversed()).isEqualTo(range("-10", "5"));
        assertThat(range("-24", "-14.4").flats(ScrewHead.HEXAGON).orElseThrow().reversed())
                .hasToString("0.24 to 0.4 flats");
    }

    // ---- flats

    @ParameterizedTest
    @CsvSource({
        "HEXAGON, 60,    120,   1,     2",
        "HEXAGON, 14.4,  24,    0.24,  0.4",
        "HEXAGON, -48,   -24,   -0.8,  -0.4",
        "SQUARE,  45,    90,    0.5,   1",
        "SQUARE,  15.6,  25.2,  0.17,  0.28",
        "SQUARE,  -25.2, -15.6, -0.28, -0.17",
    })
    void flatsAreCountedOutward(ScrewHead head, String from, String to, String fromFlats, String toFlats) {
        assertThat(range(from, to).flats(head))
                .contains(new FlatRange(new BigDecimal(fromFlats), new BigDecimal(toFlats)));
    }

    @Test
    void aSlotHasNoFlats() {
        assertThat(range("14.4", "24").flats(ScrewHead.SLOT)).isEmpty();
        assertThat(range("14.4", "24").flats(ScrewHead.NOT_STATED)).isEmpty();
    }

    // ---- equality, text, serialisation, nulls

    @Test
    void equality() {
        Contracts.equality(
                range("14.4", "24"), range("14.40", "24.0"), List.of(range("14.4", "25"), range("14", "24")));
        Contracts.equality(
                new FlatRange(new BigDecimal("0.5"), new BigDecimal("1")),
                new FlatRange(new BigDecimal("0.50"), new BigDecimal("1.00")),
                List.of(new FlatRange(new BigDecimal("0.5"), new BigDecimal("2"))));
    }

    @Test
    void textIsPlain() {
        assertThat(range("14.4", "24.0")).hasToString("14.4 to 24 degrees");
        assertThat(range("360", "720")).hasToString("360 to 720 degrees");
        assertThat(range("-24", "-24")).hasToString("-24 degrees");
        assertThat(range("14.4", "24").flats(ScrewHead.HEXAGON).orElseThrow()).hasToString("0.24 to 0.4 flats");
    }

    @Test
    void survivesSerialisation() {
        Contracts.serialises(range("14.4", "24"));
        Contracts.serialises(new FlatRange(BigDecimal.ZERO, BigDecimal.ONE));
    }

    @Test
    void nullIsRefused() {
        Contracts.refuseNull(
                () -> new TurnRange(null, BigDecimal.ONE),
                () -> new TurnRange(BigDecimal.ONE, null),
                () -> range("1", "2").flats(null),
                () -> new FlatRange(null, BigDecimal.ONE));
    }
}
