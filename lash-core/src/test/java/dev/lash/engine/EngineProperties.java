package dev.lash.engine;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.engine.CamTiming.Event;
import dev.lash.engine.CamTiming.Mark;
import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import dev.lash.testing.Contracts;
import dev.lash.testing.Generators;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.domains.Domain;
import net.jqwik.api.domains.DomainContext;

/** Laws that the parts of an engine keep. */
@Domain(Generators.Trade.class)
@Domain(DomainContext.Global.class)
class EngineProperties {
    // Written and read back

    @Property
    void valves(@ForAll ValveId valve) {
        Contracts.roundTrip(valve, ValveId::parse);
        Contracts.serialises(valve);
    }

    @Property
    void windows(@ForAll ClearanceWindow window, @ForAll LengthUnit unit) {
        Contracts.roundTrip(window, ClearanceWindow::parse);
        assertThat(ClearanceWindow.parse(window.toString(unit))).isEqualTo(window);
        Contracts.serialises(window);
    }

    @Property
    void pitches(@ForAll Pitch pitch) {
        Contracts.roundTrip(pitch, Pitch::parse);
        Contracts.serialises(pitch);
    }

    @Property
    void shimRanges(@ForAll ShimRange range) {
        Contracts.roundTrip(range, ShimRange::parse);
        Contracts.serialises(range);
    }

    @Property
    void firingOrders(@ForAll FiringOrder order) {
        Contracts.roundTrip(order, FiringOrder::parse);
        Contracts.serialises(order);
    }

    @Property
    void events(@ForAll("degrees") Ratio degrees, @ForAll Mark mark) {
        Event event = new Event(degrees, mark);
        Contracts.roundTrip(event, Event::parse);
        assertThat(CamTiming.parseDegrees(degrees + " deg")).isEqualTo(degrees);
        Contracts.serialises(event);
    }

    @Provide
    Arbitrary<Ratio> degrees() {
        return Generators.ratios(0, 180);
    }

    // Whatever the text, a parse method gives a value or a complete refusal

    private static final Map<String, Function<String, ?>> PARSERS = Map.of(
            "valve", ValveId::parse,
            "role", ValveRole::parse,
            "window", ClearanceWindow::parse,
            "pitch", Pitch::parse,
            "head", ScrewHead::parse,
            "shim range", ShimRange::parse,
            "firing order", FiringOrder::parse,
            "event", Event::parse,
            "degrees", CamTiming::parseDegrees);

    @Property
    void anyText(@ForAll("parsers") String parser, @ForAll("texts") String text) {
        Contracts.parsesOrRefuses(PARSERS.get(parser), text);
    }

    @Property(tries = 4000)
    void almostRightTexts(@ForAll("parsers") String parser, @ForAll("almost") String text) {
        Contracts.parsesOrRefuses(PARSERS.get(parser), text);
    }

    @Property(tries = 60)
    void longTexts(@ForAll("parsers") String parser, @ForAll("pieces") String piece) {
        Contracts.parsesOrRefuses(PARSERS.get(parser), "1" + piece.repeat(20_000));
        Contracts.parsesOrRefuses(PARSERS.get(parser), "1-2 (1" + piece.repeat(20_000) + ")");
        Contracts.parsesOrRefuses(PARSERS.get(parser), piece.repeat(20_000) + " mm step 1 mm");
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
                Generators.valveIds().map(ValveId::toString),
                Generators.windows().map(ClearanceWindow::toString),
                Generators.pitches().map(Pitch::toString),
                Generators.shimRanges().map(ShimRange::toString),
                Generators.firingOrders().map(FiringOrder::toString),
                Combinators.combine(degrees(), Arbitraries.of(Mark.class))
                        .as((degrees, mark) -> new Event(degrees, mark).toString())));
    }

    @Provide
    Arbitrary<String> pieces() {
        return Arbitraries.of("9", "-1", " ", "1,", "..", "-", " deg", "\u0000", "\uD83D\uDD27");
    }

    // Order, sizes, intervals

    @Property
    void theOrderOfValvesAgreesWithEquals(@ForAll ValveId a, @ForAll ValveId b) {
        assertThat(a.compareTo(b) == 0).isEqualTo(a.equals(b));
        assertThat(Integer.signum(a.compareTo(b))).isEqualTo(-Integer.signum(b.compareTo(a)));
        if (a.cylinder() != b.cylinder()) {
            assertThat(a.compareTo(b) < 0).isEqualTo(a.cylinder() < b.cylinder());
        }
    }

    @Property(tries = 200)
    void aRangeContainsItsSizesAndNoOthers(@ForAll ShimRange range) {
        Set<Length> sizes = new HashSet<>(range.sizes());
        assertThat(sizes).hasSize(range.count());
        Length below = range.thinnest().minus(range.step());
        Length nanometre = Length.ofNanometres(1);
        for (int i = 0; i <= range.count() + 1; i++) {
            Length size = below.plus(range.step().times(i));
            assertThat(range.contains(size)).isEqualTo(sizes.contains(size));
            assertThat(range.contains(size.plus(nanometre))).isFalse();
            assertThat(range.contains(size.minus(nanometre))).isFalse();
        }
    }

    @Property
    void aWindowHoldsTheLengthsBetweenItsFigures(@ForAll ClearanceWindow window, @ForAll("near") Length length) {
        boolean inside = !length.isLessThan(window.lower()) && !length.isMoreThan(window.upper());
        assertThat(window.interval().contains(length)).isEqualTo(inside);
        assertThat(window.interval().width()).contains(window.width());
    }

    @Provide
    Arbitrary<Length> near() {
        return Generators.marks();
    }

    @Property
    void firingIntervalsMakeOneCycle(@ForAll FiringOrder order) {
        assertThat(order.intervals().stream().reduce(Ratio.ZERO, Ratio::plus)).isEqualTo(Ratio.of(720, 1));
        assertThat(order.order()).hasSize(order.cylinders()).doesNotHaveDuplicates();
        assertThat(order.isEven()).isEqualTo(order.equals(FiringOrder.even(order.order())));
    }
}
