package dev.lash.measure;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.testing.Generators;
import java.util.Optional;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.domains.Domain;

/** The algebra of intervals over the whole range; {@link LengthIntervalTest} has it point by point on a small grid. */
@Domain(Generators.Trade.class)
class LengthIntervalProperties {
    @Property
    void intersectionIsWhatBothContain(@ForAll LengthInterval a, @ForAll LengthInterval b, @ForAll Length x) {
        boolean both = a.contains(x) && b.contains(x);
        assertThat(a.intersection(b).filter(common -> common.contains(x)).isPresent())
                .isEqualTo(both);
        assertThat(a.intersection(b)).isEqualTo(b.intersection(a));
        assertThat(a.intersection(a)).contains(a);
        assertThat(a.intersection(LengthInterval.any())).contains(a);
    }

    @Property
    void intersectionIsAssociative(@ForAll LengthInterval a, @ForAll LengthInterval b, @ForAll LengthInterval c) {
        Optional<LengthInterval> left = a.intersection(b).flatMap(ab -> ab.intersection(c));
        Optional<LengthInterval> right = b.intersection(c).flatMap(a::intersection);
        assertThat(left).isEqualTo(right);
    }

    @Property
    void hullIsTheLeastThatEnclosesBoth(@ForAll LengthInterval a, @ForAll LengthInterval b, @ForAll LengthInterval c) {
        LengthInterval hull = a.hull(b);
        assertThat(hull).isEqualTo(b.hull(a));
        assertThat(hull.encloses(a)).isTrue();
        assertThat(hull.encloses(b)).isTrue();
        assertThat(c.encloses(hull)).isEqualTo(c.encloses(a) && c.encloses(b));
        assertThat(hull.hull(c)).isEqualTo(a.hull(b.hull(c)));
    }

    @Property
    void enclosingIsAPartialOrder(@ForAll LengthInterval a, @ForAll LengthInterval b, @ForAll Length x) {
        assertThat(a.encloses(a)).isTrue();
        assertThat(a.encloses(b) && b.encloses(a)).isEqualTo(a.equals(b));
        assertThat(a.encloses(b)).isEqualTo(a.intersection(b).equals(Optional.of(b)));
        assertThat(a.contains(x)).isEqualTo(a.encloses(LengthInterval.point(x)));
        assertThat(!a.encloses(b) || !b.contains(x) || a.contains(x)).isTrue();
    }

    @Property
    void ofTwoIntervalsOneLiesBelowOrTheyMeet(@ForAll LengthInterval a, @ForAll LengthInterval b) {
        int cases = (a.liesBelow(b) ? 1 : 0) + (a.liesAbove(b) ? 1 : 0) + (a.intersects(b) ? 1 : 0);
        assertThat(cases).isOne();
    }

    @Property
    void everyLengthLiesBelowInOrAbove(@ForAll LengthInterval a, @ForAll Length x) {
        LengthInterval point = LengthInterval.point(x);
        int cases = (a.liesBelow(point) ? 1 : 0) + (a.liesAbove(point) ? 1 : 0) + (a.contains(x) ? 1 : 0);
        assertThat(cases).isOne();
    }

    @Property
    void equalEndsAreEqualIntervals(@ForAll LengthInterval a, @ForAll LengthInterval b) {
        boolean sameEnds = LengthInterval.compareLower(a, b) == 0 && LengthInterval.compareUpper(a, b) == 0;
        assertThat(sameEnds).isEqualTo(a.equals(b));
    }

    @Property
    void movingThereAndBackChangesNothing(@ForAll("small") LengthInterval a, @ForAll("smallLengths") Length by) {
        assertThat(a.plus(by).plus(by.negated())).isEqualTo(a);
        assertThat(a.plus(by).width()).isEqualTo(a.width());
        assertThat(a.plus(LengthInterval.point(by))).isEqualTo(a.plus(by));
    }

    @Property
    void sumsHoldTheSumsOfTheirLengths(
            @ForAll("small") LengthInterval a,
            @ForAll("small") LengthInterval b,
            @ForAll("smallLengths") Length x,
            @ForAll("smallLengths") Length y) {
        assertThat(a.plus(b)).isEqualTo(b.plus(a));
        assertThat(!a.contains(x) || !b.contains(y) || a.plus(b).contains(x.plus(y)))
                .isTrue();
    }

    // The other sign, and times a ratio

    @Property
    void negatedHoldsTheSameLengthsWithTheOtherSign(@ForAll LengthInterval a, @ForAll Length x) {
        assertThat(a.negated().contains(x.negated())).isEqualTo(a.contains(x));
        assertThat(a.negated().negated()).isEqualTo(a);
    }

    @Property
    void aDifferenceOfAnIntervalWithItselfHoldsZero(@ForAll("small") LengthInterval a) {
        assertThat(a.negated().width()).isEqualTo(a.width());
        assertThat(a.plus(a.negated()).contains(Length.ZERO)).isTrue();
        assertThat(a.plus(a.negated()).negated()).isEqualTo(a.plus(a.negated()));
    }

    /** Against fractions: never too narrow, and at no end wider than a nanometre. */
    @Property
    void timesHoldsTheExactProductsAndIsRoundedByLessThanANanometre(
            @ForAll("small") LengthInterval a, @ForAll("factors") Ratio ratio, @ForAll("smallLengths") Length x) {
        LengthInterval product = a.times(ratio);
        assertThat(!a.contains(x) || holds(product, Ratio.nanometresOf(x).times(ratio)))
                .isTrue();
        Assume.that(ratio.signum() != 0);
        LengthInterval turned = ratio.signum() > 0 ? a : a.negated();
        Ratio size = ratio.signum() > 0 ? ratio : Ratio.ZERO.minus(ratio);
        assertThat(product.lower().isPresent()).isEqualTo(turned.lower().isPresent());
        assertThat(product.upper().isPresent()).isEqualTo(turned.upper().isPresent());
        turned.lower().ifPresent(low -> {
            Ratio exact = Ratio.nanometresOf(low).times(size);
            Ratio rounded = Ratio.nanometresOf(product.lower().orElseThrow());
            assertThat(exact.minus(rounded)).isBetween(Ratio.ZERO, Ratio.of(999_999, 1_000_000));
            assertThat(product.lowerIncluded()).isEqualTo(turned.lowerIncluded() && exact.equals(rounded));
        });
        turned.upper().ifPresent(high -> {
            Ratio exact = Ratio.nanometresOf(high).times(size);
            Ratio rounded = Ratio.nanometresOf(product.upper().orElseThrow());
            assertThat(rounded.minus(exact)).isBetween(Ratio.ZERO, Ratio.of(999_999, 1_000_000));
            assertThat(product.upperIncluded()).isEqualTo(turned.upperIncluded() && exact.equals(rounded));
        });
    }

    private static boolean holds(LengthInterval interval, Ratio nanometres) {
        int low = interval.lower()
                .map(l -> nanometres.compareTo(Ratio.nanometresOf(l)))
                .orElse(1);
        int high = interval.upper()
                .map(h -> nanometres.compareTo(Ratio.nanometresOf(h)))
                .orElse(-1);
        boolean above = low > 0 || (low == 0 && interval.lowerIncluded());
        boolean below = high < 0 || (high == 0 && interval.upperIncluded());
        return above && below;
    }

    @Property
    void timesKeepsWhatEnclosesWhat(
            @ForAll("small") LengthInterval a, @ForAll("small") LengthInterval b, @ForAll("factors") Ratio ratio) {
        assertThat(a.hull(b).times(ratio).encloses(a.times(ratio))).isTrue();
    }

    @Property
    void timesWholeNumbersIsAdding(@ForAll("small") LengthInterval a) {
        assertThat(a.times(Ratio.ONE)).isEqualTo(a);
        assertThat(a.times(Ratio.of(-1, 1))).isEqualTo(a.negated());
        assertThat(a.times(Ratio.of(3, 1))).isEqualTo(a.plus(a).plus(a));
        assertThat(a.times(Ratio.of(3, 1)).times(Ratio.of(1, 3))).isEqualTo(a);
    }

    @Provide
    Arbitrary<Ratio> factors() {
        return Generators.ratios(-9, 9);
    }

    @Provide
    Arbitrary<LengthInterval> small() {
        return Generators.intervals(smallLengths());
    }

    @Provide
    Arbitrary<Length> smallLengths() {
        return Generators.nanometres(-100_000_000, 100_000_000);
    }
}
