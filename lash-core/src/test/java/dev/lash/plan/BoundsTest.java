package dev.lash.plan;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.testing.Generators;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Ends as whole numbers, against what intervals say of themselves. */
class BoundsTest {
    private static final LengthInterval CLEARANCES = LengthInterval.atLeast(Length.ZERO);

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "[0.000005, 0.000007] mm | 10 | 14",
                "(0.000005, 0.000007) mm | 11 | 13",
                "[0.000005, 0.000005] mm | 10 | 10",
                "(0.00, 0.000001) mm     |  1 |  1",
                "< 0.000007 mm           |  0 | 13",
                "<= 0.00 mm              |  0 |  0",
                "[-0.000003, 0.000007) mm|  0 | 13"
            })
    void numbersByHand(String interval, long lower, long upper) {
        assertThat(Bounds.lower(LengthInterval.parse(interval))).isEqualTo(lower);
        assertThat(Bounds.upper(LengthInterval.parse(interval))).isEqualTo(upper);
    }

    @Test
    void missingEnds() {
        assertThat(Bounds.lower(LengthInterval.any())).isZero();
        assertThat(Bounds.upper(LengthInterval.any())).isEqualTo(Bounds.NONE);
        assertThat(Bounds.interval(0, Bounds.NONE)).isEqualTo(LengthInterval.any());
        assertThat(Bounds.endOfUpper(Bounds.NONE)).isEqualTo(Bounds.NONE);
    }

    @Provide
    Arbitrary<LengthInterval> intervals() {
        Arbitrary<Length> few = Arbitraries.longs().between(-3, 12).map(Length::ofNanometres);
        return Arbitraries.oneOf(Generators.intervals(), Generators.intervals(few));
    }

    @Provide
    Arbitrary<Length> clearances() {
        return Arbitraries.oneOf(
                Generators.nanometres(0, 1_000_000_000L),
                Arbitraries.longs().between(0, 14).map(Length::ofNanometres));
    }

    @Property(edgeCases = EdgeCasesMode.NONE)
    void aClearanceLiesBetweenTheNumbersWhenItLiesInTheInterval(
            @ForAll("intervals") LengthInterval interval, @ForAll("clearances") Length clearance) {
        long number = 2 * clearance.nanometres();
        assertThat(Bounds.lower(interval) <= number && number <= Bounds.upper(interval))
                .isEqualTo(interval.contains(clearance));
    }

    /** Between two whole nanometres too: an odd number stands for all that lies there. */
    @Property(edgeCases = EdgeCasesMode.NONE)
    void anIntervalHoldsAClearanceWhenItsLowerNumberIsNotAboveItsUpper(@ForAll("intervals") LengthInterval interval) {
        assertThat(Bounds.lower(interval) <= Bounds.upper(interval)).isEqualTo(interval.intersects(CLEARANCES));
    }

    @Property(edgeCases = EdgeCasesMode.NONE)
    void numbersCompareAsEndsDo(@ForAll("intervals") LengthInterval a, @ForAll("intervals") LengthInterval b) {
        assertThat(Integer.signum(Long.compare(Bounds.upper(a), Bounds.upper(b))))
                .isEqualTo(Integer.signum(LengthInterval.compareUpper(a, b)));
        // of lower ends only what a clearance can tell: 0 and more
        if (a.intersects(CLEARANCES) && b.intersects(CLEARANCES)) {
            LengthInterval x = a.intersection(CLEARANCES).orElseThrow();
            LengthInterval y = b.intersection(CLEARANCES).orElseThrow();
            assertThat(Integer.signum(Long.compare(Bounds.lower(a), Bounds.lower(b))))
                    .isEqualTo(Integer.signum(LengthInterval.compareLower(x, y)));
        }
    }

    @Property(edgeCases = EdgeCasesMode.NONE)
    void anIntervalComesBackFromItsNumbers(@ForAll("intervals") LengthInterval interval) {
        if (!interval.intersects(CLEARANCES)) {
            return;
        }
        LengthInterval back = Bounds.interval(Bounds.lower(interval), Bounds.upper(interval));
        // the same clearances; "at least 0" is dropped
        assertThat(back.intersection(CLEARANCES)).isEqualTo(interval.intersection(CLEARANCES));
        assertThat(back.lower().map(l -> l.signum() > 0 || !back.lowerIncluded()))
                .as("a lower end of %s says something", back)
                .isIn(List.of(java.util.Optional.empty(), java.util.Optional.of(true)));
        assertThat(Bounds.lower(back)).isEqualTo(Bounds.lower(interval));
        assertThat(Bounds.upper(back)).isEqualTo(Bounds.upper(interval));
    }

    @Property(edgeCases = EdgeCasesMode.NONE)
    void endsLieWhereTheIntervalSays(@ForAll("intervals") LengthInterval interval) {
        assertThat(Bounds.endOfLower(Bounds.lower(interval)))
                .isEqualTo(
                        interval.lower().map(l -> Math.max(0, l.nanometres())).orElse(0L));
        assertThat(Bounds.endOfUpper(Bounds.upper(interval)))
                .isEqualTo(interval.upper().map(Length::nanometres).orElse(Bounds.NONE));
    }
}
