package dev.lash.gauge;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.testing.Contracts;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class BracketTest {
    private static final ReadingRule SIMPLE = ReadingRule.simple();
    private static final Trial GOES = Trial.parse("0.10 mm goes");
    private static final Trial REFUSES = Trial.parse("0.13 mm refuses");
    private static final LengthInterval INTERVAL = LengthInterval.parse("(0.10, 0.13) mm");

    private static Bracket bracket(String... trials) {
        return Evidence.of(Arrays.stream(trials).map(Trial::parse).toList(), SIMPLE)
                .bracket()
                .orElseThrow();
    }

    // Factories

    @Test
    void keepsWhatItIsMadeOf() {
        Bracket bracket = new Bracket(INTERVAL, List.of(GOES, REFUSES), SIMPLE);
        assertThat(bracket.interval()).isEqualTo(INTERVAL);
        assertThat(bracket.trials()).containsExactly(GOES, REFUSES).isUnmodifiable();
        assertThat(bracket.rule()).isEqualTo(SIMPLE);
    }

    @Test
    void refusesAnIntervalThatDoesNotFollowFromItsTrials() {
        Contracts.refuses(
                () -> new Bracket(LengthInterval.parse("(0.10, 0.13] mm"), List.of(GOES, REFUSES), SIMPLE),
                "bracket \"(0.10, 0.13] mm\"",
                "does not follow from its trials",
                "expected (0.10, 0.13) mm",
                "Evidence.of");
        Contracts.refuses(
                () -> new Bracket(INTERVAL, List.of(REFUSES, Trial.parse("0.14 mm goes")), SIMPLE),
                "(0.10, 0.13) mm",
                "a contradiction");
        Contracts.refuses(() -> new Bracket(INTERVAL, List.of(), SIMPLE), "expected any");
    }

    // One more trial

    @Test
    void aTrialMoreNarrows() {
        assertThat(bracket("0.10 mm goes").with(REFUSES)).isEqualTo(bracket("0.10 mm goes", "0.13 mm refuses"));
        assertThat(bracket().with(GOES)).isEqualTo(bracket("0.10 mm goes"));
        assertThat(bracket("0.10 mm goes").with(REFUSES).trials()).containsExactly(GOES, REFUSES);
    }

    @Test
    void aTrialMoreMayContradict() {
        assertThat(bracket("0.10 mm goes").with(Trial.parse("0.10 mm drags")).bracket())
                .isEmpty();
    }

    @Test
    void aSecondDragWidens() {
        assertThat(bracket("0.10 mm drags")
                        .with(Trial.parse("0.12 mm drags"))
                        .bracket()
                        .map(Bracket::interval))
                .contains(LengthInterval.parse("[0.10, 0.12] mm"));
    }

    // Doubts

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "''                                                          | []",
                "0.10 mm goes; 0.13 mm refuses                               | []",
                "0.12 mm drags                                               | []",
                "0.12 mm drags; 0.12 mm drags                                | []",
                "0.11 mm drags; 0.10 mm drags                                | [0.10 mm drags / 0.11 mm drags / true]",
                "0.11 mm drags; 0.12 mm drags; 0.10 mm drags                 | [0.10 mm drags / 0.12 mm drags / true]",
                "0.10 mm drags; 0.11 mm drags; 0.10 mm goes                  "
                        + "| [0.10 mm drags / 0.11 mm drags / true, 0.10 mm drags / 0.10 mm goes / false]",
                "0.10 mm drags; 0.12 mm drags; 0.11 mm forced; 0.11 mm refuses "
                        + "| [0.10 mm drags / 0.12 mm drags / true, 0.12 mm drags / 0.11 mm forced / false]"
            })
    void namesTrialsThatHadToBeReconciled(String trials, String doubts) {
        Bracket bracket = trials.isBlank() ? bracket() : bracket(trials.split(";", -1));
        assertThat(bracket.doubts().stream()
                        .map(d -> d.first() + " / " + d.second() + " / " + d.isSeveralDrags())
                        .toList())
                .hasToString(doubts);
        assertThat(bracket.doubts()).isUnmodifiable();
    }

    @Test
    void aGuardedDragThatAnotherTrialHalfExcludesIsNoDoubt() {
        ReadingRule guarded = ReadingRule.guarded(Length.parse("0.003 mm"), Length.parse("0.002 mm"));
        Optional<Bracket> bracket = Evidence.of(
                        List.of(Trial.parse("0.12 mm drags"), Trial.parse("0.12 mm goes")), guarded)
                .bracket();
        assertThat(bracket.map(Bracket::doubts)).contains(List.of());
    }

    @Test
    void aDoubtIsAPairOfTrials() {
        Trial drag = Trial.parse("0.10 mm drags");
        Bracket.Doubt doubt = new Bracket.Doubt(drag, GOES);
        Contracts.equality(
                doubt,
                new Bracket.Doubt(drag, GOES),
                List.of(new Bracket.Doubt(GOES, drag), new Bracket.Doubt(drag, drag)));
        assertThat(doubt.isSeveralDrags()).isFalse();
        assertThat(new Bracket.Doubt(GOES, drag).isSeveralDrags()).isFalse();
        Contracts.serialises(doubt);
        Contracts.refuseNull(() -> new Bracket.Doubt(null, GOES), () -> new Bracket.Doubt(GOES, null));
    }

    // Equality, serialisation, nulls

    @Test
    void isEqualByTrialsInOrderAndRule() {
        Contracts.equality(
                bracket("0.10 mm goes", "0.13 mm refuses"),
                new Bracket(INTERVAL, List.of(GOES, REFUSES), SIMPLE),
                List.of(
                        bracket("0.13 mm refuses", "0.10 mm goes"),
                        bracket("0.10 mm goes", "0.13 mm forced"),
                        bracket("0.10 mm goes"),
                        Evidence.of(List.of(GOES, REFUSES), ReadingRule.guarded(Length.ZERO, Length.ZERO))));
    }

    @Test
    void serialises() {
        Contracts.serialises(bracket("0.10 mm goes", "0.13 mm refuses"));
    }

    @Test
    void refusesNull() {
        Bracket bracket = bracket("0.10 mm goes");
        Contracts.refuseNull(
                () -> new Bracket(null, List.of(GOES, REFUSES), SIMPLE),
                () -> new Bracket(INTERVAL, null, SIMPLE),
                () -> new Bracket(INTERVAL, List.of(GOES, REFUSES), null),
                () -> bracket.with(null),
                () -> bracket.match(null, c -> c));
    }
}
