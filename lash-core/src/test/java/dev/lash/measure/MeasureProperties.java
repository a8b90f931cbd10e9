package dev.lash.measure;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.testing.Contracts;
import dev.lash.testing.Generators;
import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.domains.Domain;
import net.jqwik.api.domains.DomainContext;

/** Laws that every measure keeps. */
@Domain(Generators.Trade.class)
@Domain(DomainContext.Global.class)
class MeasureProperties {
    // Written and read back

    @Property
    void lengths(@ForAll Length length) {
        Contracts.roundTrip(length, Length::parse);
        Contracts.serialises(length);
    }

    @Property
    void lengthsInEveryUnit(@ForAll Length length, @ForAll LengthUnit unit) {
        assertThat(Length.parse(length.toString(unit))).isEqualTo(length);
        length.numberIn(unit)
                .ifPresent(number -> assertThat(Length.parse(number, unit)).isEqualTo(length));
    }

    @Property
    void aWholeNumberOfAUnitIsWrittenInIt(@ForAll LengthUnit unit, @ForAll("smallNumbers") int number) {
        Length length = Length.ofNanometres(unit.nanometres() * number);
        assertThat(length.numberIn(unit)).isPresent();
        assertThat(length.toString(unit)).endsWith(" " + unit.symbol());
        assertThat(Length.of(BigDecimal.valueOf(number), unit)).isEqualTo(length);
    }

    @Provide
    Arbitrary<Integer> smallNumbers() {
        return Arbitraries.integers().between(-39, 39);
    }

    @Property
    void intervals(@ForAll LengthInterval interval, @ForAll LengthUnit unit) {
        Contracts.roundTrip(interval, LengthInterval::parse);
        assertThat(LengthInterval.parse(interval.toString(unit))).isEqualTo(interval);
        Contracts.serialises(interval);
    }

    @Property
    void ratios(@ForAll Ratio ratio) {
        Contracts.roundTrip(ratio, Ratio::parse);
        Contracts.serialises(ratio);
    }

    @Property
    void resultsOfRatioArithmetic(@ForAll Ratio a, @ForAll Ratio b, @ForAll Ratio c) {
        Contracts.roundTrip(a.times(b).plus(c), Ratio::parse);
        Contracts.roundTrip(a.minus(b).times(c).times(c), Ratio::parse);
    }

    @Property
    void usages(@ForAll Usage usage) {
        Contracts.roundTrip(usage, Usage::parse);
        Contracts.serialises(usage);
    }

    @Property
    void temperatures(@ForAll Temperature temperature) {
        Contracts.roundTrip(temperature, Temperature::parse);
        Contracts.serialises(temperature);
    }

    // Whatever the text, a parse method gives a value or a parse exception

    private static final Map<String, Function<String, ?>> PARSERS = Map.of(
            "length", Length::parse,
            "length in thou", text -> Length.parse(text, LengthUnit.THOU),
            "millimetres", Length::ofMillimetres,
            "inches", Length::ofInches,
            "interval", LengthInterval::parse,
            "ratio", Ratio::parse,
            "usage", Usage::parse,
            "temperature", Temperature::parse);

    private static void parsesOrRefuses(String parser, String text) {
        Contracts.parsesOrRefuses(
                t -> {
                    try {
                        return PARSERS.get(parser).apply(t);
                    } catch (RejectedValueException e) {
                        assertThat(e).as("the only exception of these parsers").isInstanceOf(TextParseException.class);
                        throw e;
                    }
                },
                text);
    }

    @Property
    void anyText(@ForAll("parsers") String parser, @ForAll("texts") String text) {
        parsesOrRefuses(parser, text);
    }

    @Property(tries = 3000)
    void almostRightTexts(@ForAll("parsers") String parser, @ForAll("almost") String text) {
        parsesOrRefuses(parser, text);
    }

    @Property(tries = 100)
    void longTexts(@ForAll("parsers") String parser, @ForAll("pieces") String piece) {
        parsesOrRefuses(parser, piece.repeat(50_000));
        parsesOrRefuses(parser, "1" + piece.repeat(50_000) + "mm");
    }

    @Provide
    Arbitrary<String> parsers() {
        return Arbitraries.of(List.copyOf(PARSERS.keySet()));
    }

    @Provide
    Arbitrary<String> texts() {
        return Generators.texts();
    }

    @Provide
    Arbitrary<String> almost() {
        return Generators.almost(Arbitraries.oneOf(
                Combinators.combine(Generators.lengths(), Arbitraries.of(LengthUnit.class))
                        .as(Length::toString),
                Generators.intervals().map(LengthInterval::toString),
                Generators.ratios().map(Ratio::toString),
                Generators.usages().map(Usage::toString),
                Generators.temperatures().map(Temperature::toString)));
    }

    @Provide
    Arbitrary<String> pieces() {
        return Arbitraries.of("9", "0", " ", ".", "-", "/", "1/", "(", ",", "1,", "<", "mm", "\u0000", "\uD83D\uDD27");
    }

    // Order and arithmetic

    @Property
    void differencesUndoSums(@ForAll("half") Length a, @ForAll("half") Length b) {
        assertThat(a.plus(b).minus(b)).isEqualTo(a);
        assertThat(a.plus(b)).isEqualTo(b.plus(a));
        assertThat(a.minus(b)).isEqualTo(b.minus(a).negated());
        assertThat(a.plus(a)).isEqualTo(a.times(2));
    }

    @Provide
    Arbitrary<Length> half() {
        return Generators.nanometres(-500_000_000, 500_000_000);
    }

    @Property
    void theOrderOfLengthsIsThatOfTheirDifference(@ForAll("half") Length a, @ForAll("half") Length b) {
        int sign = a.minus(b).signum();
        assertThat(Integer.signum(a.compareTo(b))).isEqualTo(sign);
        assertThat(a.isLessThan(b)).isEqualTo(sign < 0);
        assertThat(a.isMoreThan(b)).isEqualTo(sign > 0);
        assertThat(a.equals(b)).isEqualTo(sign == 0);
        assertThat(a.millimetres().compareTo(b.millimetres())).isEqualTo(sign);
        assertThat(Length.min(a, b)).isLessThanOrEqualTo(Length.max(a, b));
        assertThat(List.of(a, b)).contains(Length.min(a, b), Length.max(a, b));
    }

    @Property
    void ratiosFormAField(@ForAll Ratio a, @ForAll Ratio b, @ForAll Ratio c) {
        assertThat(a.plus(b)).isEqualTo(b.plus(a));
        assertThat(a.plus(b).minus(b)).isEqualTo(a);
        assertThat(a.times(b)).isEqualTo(b.times(a));
        assertThat(a.times(b.plus(c))).isEqualTo(a.times(b).plus(a.times(c)));
        if (b.signum() != 0) {
            assertThat(a.dividedBy(b).times(b)).isEqualTo(a);
        }
        assertThat(Integer.signum(a.compareTo(b))).isEqualTo(a.minus(b).signum());
    }

    @Property
    void roundingStaysOnItsSideAndWithinOneStep(@ForAll Ratio ratio, @ForAll @IntRange(max = 9) int decimals) {
        Ratio floor = Ratio.of(ratio.floor(decimals));
        Ratio ceiling = Ratio.of(ratio.ceiling(decimals));
        Ratio step = Ratio.of(BigDecimal.ONE.movePointLeft(decimals));
        assertThat(floor).isLessThanOrEqualTo(ratio);
        assertThat(ceiling).isGreaterThanOrEqualTo(ratio);
        assertThat(ratio.minus(floor)).isLessThan(step);
        assertThat(ceiling.minus(ratio)).isLessThan(step);
    }

    @Property
    void temperaturesAreOrderedByWhatTheyAre(@ForAll Temperature a, @ForAll Temperature b) {
        assertThat(a.isAbove(b)).isEqualTo(a.celsius().compareTo(b.celsius()) > 0);
        assertThat(a.compareTo(b) == 0).isEqualTo(a.equals(b));
        assertThat(Integer.signum(a.compareTo(b))).isEqualTo(-Integer.signum(b.compareTo(a)));
    }
}
