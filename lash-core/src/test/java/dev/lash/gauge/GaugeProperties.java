package dev.lash.gauge;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.LengthUnit;
import dev.lash.testing.Contracts;
import dev.lash.testing.Generators;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.domains.Domain;
import net.jqwik.api.domains.DomainContext;

/** Laws that leaves, stacks, trials, rules and sets keep. */
@Domain(Generators.Trade.class)
@Domain(DomainContext.Global.class)
class GaugeProperties {
    // Written and read back

    @Property
    void leaves(@ForAll Leaf leaf, @ForAll LengthUnit unit) {
        Contracts.roundTrip(leaf, Leaf::parse);
        assertThat(Leaf.parse(leaf.toString(unit))).isEqualTo(leaf);
        Contracts.serialises(leaf);
    }

    @Property
    void stacks(@ForAll LeafStack stack, @ForAll LengthUnit unit) {
        Contracts.roundTrip(stack, LeafStack::parse);
        assertThat(LeafStack.parse(stack.toString(unit))).isEqualTo(stack);
        Contracts.serialises(stack);
    }

    @Property
    void trials(@ForAll Trial trial, @ForAll LengthUnit unit) {
        Contracts.roundTrip(trial, Trial::parse);
        assertThat(Trial.parse(trial.toString(unit))).isEqualTo(trial);
        Contracts.serialises(trial);
    }

    @Property
    void rules(@ForAll ReadingRule rule, @ForAll LengthUnit unit) {
        Contracts.roundTrip(rule, ReadingRule::parse);
        assertThat(ReadingRule.parse(rule.toString(unit))).isEqualTo(rule);
        Contracts.serialises(rule);
    }

    @Property(tries = 100)
    void sets(@ForAll GaugeSet set) {
        Contracts.serialises(set);
        String[] marks = set.leaves().stream().map(Leaf::toString).toArray(String[]::new);
        assertThat(GaugeSet.of(set.unit(), marks)
                        .withStacksOf(set.mostStacked())
                        .withTolerance(set.tolerance(), set.dragAllowance()))
                .isEqualTo(set);
    }

    // Whatever the text, a parse method gives a value or a complete refusal

    private static final Map<String, Function<String, ?>> PARSERS = Map.of(
            "leaf", Leaf::parse,
            "stack", LeafStack::parse,
            "fit", Fit::parse,
            "trial", Trial::parse,
            "rule", ReadingRule::parse);

    @Property
    void anyText(@ForAll("parsers") String parser, @ForAll("texts") String text) {
        Contracts.parsesOrRefuses(PARSERS.get(parser), text);
    }

    @Property(tries = 3000)
    void almostRightTexts(@ForAll("parsers") String parser, @ForAll("almost") String text) {
        Contracts.parsesOrRefuses(PARSERS.get(parser), text);
    }

    @Property(tries = 50)
    void longTexts(@ForAll("parsers") String parser, @ForAll("pieces") String piece) {
        Contracts.parsesOrRefuses(PARSERS.get(parser), piece.repeat(20_000));
        Contracts.parsesOrRefuses(PARSERS.get(parser), "1 mm" + piece.repeat(20_000) + "1 mm goes");
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
                Generators.stacks().map(LeafStack::toString),
                Generators.trials().map(Trial::toString),
                Generators.rules().map(ReadingRule::toString)));
    }

    @Provide
    Arbitrary<String> pieces() {
        return Arbitraries.of("9", " ", "+", "1 mm+", ", ", "goes ", "\u0000", "\uD83D\uDD27");
    }

    // Stacks

    @Property
    void theOrderOfStacksAgreesWithEquals(@ForAll LeafStack a, @ForAll LeafStack b) {
        assertThat(a.compareTo(b) == 0).isEqualTo(a.equals(b));
        assertThat(Integer.signum(a.compareTo(b))).isEqualTo(-Integer.signum(b.compareTo(a)));
    }

    /** Against all choices of leaves by their places in the set. */
    @Property(tries = 200)
    void aSetOffersEveryStackThatItOwns(@ForAll GaugeSet set) {
        Set<LeafStack> expected = new TreeSet<>();
        int n = set.leaves().size();
        for (int choice = 1; choice < 1 << n; choice++) {
            List<Leaf> chosen = new ArrayList<>();
            for (int i = 0; i < n; i++) {
                if ((choice >> i & 1) == 1) {
                    chosen.add(set.leaves().get(i));
                }
            }
            if (chosen.size() <= set.mostStacked()) {
                expected.add(new LeafStack(chosen));
            }
        }
        assertThat(set.stacks()).containsExactlyElementsOf(expected).isSortedAccordingTo(Comparator.naturalOrder());
        assertThat(set.stacks()).allMatch(set::owns).allMatch(stack -> stack.size() <= set.mostStacked());
    }
}
