package dev.lash.gauge;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.testing.Contracts;
import java.util.Arrays;
import java.util.List;
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
        Bracket bracket = new Bracket(INTERVAL, List.of(GOES, REFUSES), SIMPLE, List.of());
        assertThat(bracket.interval()).isEqualTo(INTERVAL);
        assertThat(bracket.trials()).containsExactly(GOES, REFUSES).isUnmodifiable();
        assertThat(bracket.rule()).isEqualTo(SIMPLE);
    }

    @Test
    void refusesAnIntervalThatDoesNotFollowFromItsTrials() {
        Contracts.refuses(
                () -> new Bracket(LengthInterval.parse("(0.10, 0.13] mm"), List.of(GOES, REFUSES), SIMPLE, List.of()),
                "bracket \"(0.10, 0.13] mm\"",
                "does not follow from its trials",
                "expected (0.10, 0.13) mm",
                "Evidence.of");
        Contracts.refuses(
                () -> new Bracket(INTERVAL, List.of(REFUSES, Trial.parse("0.14 mm goes")), SIMPLE, List.of()),
                "(0.10, 0.13) mm",
                "a contradiction");
        Contracts.refuses(() -> new Bracket(INTERVAL, List.of(), SIMPLE, List.of()), "expected any");
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
                "0.11 mm drags; 0.10 mm drags                                | [0.10 mm drags / 0.11 mm drags]",
                "0.11 mm drags; 0.12 mm drags; 0.10 mm drags                 | [0.10 mm drags / 0.12 mm drags]",
            })
    void namesTrialsThatHadToBeReconciled(String trials, String doubts) {
        Bracket bracket = trials.isBlank() ? bracket() : bracket(trials.split(";", -1));
        assertThat(bracket.severalDrags().stream()
                        .map(d -> d.thinnest() + " / " + d.thickest())
                        .toList())
                .hasToString(doubts);
        assertThat(bracket.severalDrags()).isUnmodifiable();
    }

    @Test
    void severalDragsAreAPairOfTrials() {
        Trial thin = Trial.parse("0.10 mm drags");
        Trial thick = Trial.parse("0.11 mm drags");
        Bracket.SeveralDrags pair = new Bracket.SeveralDrags(thin, thick);
        Contracts.equality(pair, new Bracket.SeveralDrags(thin, thick), List.of(new Bracket.SeveralDrags(thin, thin)));
        Contracts.serialises(pair);
        Contracts.refuseNull(() -> new Bracket.SeveralDrags(null, thin), () -> new Bracket.SeveralDrags(thin, null));
    }

    // The closer of a desmodromic valve

    private static final List<Trial> UNLOADED = List.of(Trial.parse("0.10 mm goes"), Trial.parse("0.12 mm refuses"));

    private static Bracket closer(boolean turnsFree, String... loaded) {
        List<Trial> trials = Arrays.stream(loaded).map(Trial::parse).toList();
        return Evidence.closer(trials, UNLOADED, SIMPLE, turnsFree).bracket().orElseThrow();
    }

    @Test
    void aCloserKeepsBothSetsOfTrials() {
        Bracket bracket = closer(true, "0.11 mm goes", "0.13 mm refuses");
        assertThat(bracket.trials()).containsExactly(Trial.parse("0.11 mm goes"), REFUSES);
        assertThat(bracket.unloaded()).isEqualTo(UNLOADED).isUnmodifiable();
        assertThat(bracket("0.10 mm goes").unloaded()).isEmpty();
    }

    @Test
    void aCloserMustFollowFromItsTrialsToo() {
        List<Trial> loaded = List.of(Trial.parse("0.11 mm goes"), REFUSES);
        for (String right : List.of("(-0.01, 0.03) mm", "[0.00, 0.03) mm")) {
            LengthInterval interval = LengthInterval.parse(right);
            assertThat(new Bracket(interval, loaded, SIMPLE, UNLOADED).interval())
                    .isEqualTo(interval);
        }
        for (String wrong : List.of("(0.00, 0.03) mm", "[0.01, 0.02] mm", "(-0.02, 0.03) mm", "any")) {
            Contracts.refuses(
                    () -> new Bracket(LengthInterval.parse(wrong), loaded, SIMPLE, UNLOADED),
                    "bracket \"" + wrong + "\"",
                    "does not follow from its trials",
                    "expected (-0.01, 0.03) mm");
        }
        Contracts.refuses(
                () -> new Bracket(INTERVAL, loaded, SIMPLE, List.of(Trial.parse("0.10 mm refuses"), GOES)),
                "a contradiction");
    }

    @Test
    void aTrialMoreOfACloserIsALoadedOne() {
        Bracket bracket = closer(false, "0.11 mm goes");
        assertThat(bracket.interval()).isEqualTo(LengthInterval.parse("> -0.01 mm"));
        assertThat(bracket.with(REFUSES)).isEqualTo(closer(false, "0.11 mm goes", "0.13 mm refuses"));
        assertThat(closer(true, "0.11 mm goes").with(REFUSES))
                .isEqualTo(closer(true, "0.11 mm goes", "0.13 mm refuses"));
    }

    @Test
    void thatACloserTurnsFreeIsNotSupposedFromItsReading() {
        // (0.14, 0.14) minus (0.10, 0.12) is above 0 by itself; a second drag at 0.11 widens it below 0.
        Bracket above = closer(false, "0.14 mm drags");
        assertThat(above.interval()).isEqualTo(LengthInterval.parse("(0.02, 0.04) mm"));
        assertThat(above.with(Trial.parse("0.11 mm drags")).bracket().map(Bracket::interval))
                .contains(LengthInterval.parse("(-0.01, 0.04) mm"));
    }

    @Test
    void eachReadingOfACloserHasItsOwnDoubts() {
        List<Trial> loaded = List.of(Trial.parse("0.15 mm drags"), Trial.parse("0.16 mm drags"));
        List<Trial> unloaded = List.of(Trial.parse("0.10 mm drags"), Trial.parse("0.11 mm drags"));
        assertThat(Evidence.closer(loaded, unloaded, SIMPLE, false)
                        .bracket()
                        .orElseThrow()
                        .severalDrags())
                .containsExactly(
                        new Bracket.SeveralDrags(unloaded.get(0), unloaded.get(1)),
                        new Bracket.SeveralDrags(loaded.get(0), loaded.get(1)));
        assertThat(closer(false, "0.15 mm drags").severalDrags())
                .as("a loaded drag is not at odds with an unloaded refusal")
                .isEmpty();
    }

    // Equality, serialisation, nulls

    @Test
    void isEqualByTrialsInOrderAndRule() {
        Contracts.equality(
                bracket("0.10 mm goes", "0.13 mm refuses"),
                new Bracket(INTERVAL, List.of(GOES, REFUSES), SIMPLE, List.of()),
                List.of(
                        bracket("0.13 mm refuses", "0.10 mm goes"),
                        bracket("0.10 mm goes", "0.13 mm forced"),
                        bracket("0.10 mm goes"),
                        Evidence.of(List.of(GOES, REFUSES), ReadingRule.guarded(Length.ZERO, Length.ZERO))));
    }

    @Test
    void serialises() {
        Contracts.serialises(bracket("0.10 mm goes", "0.13 mm refuses"));
        Contracts.serialises(closer(true, "0.11 mm goes"));
    }

    @Test
    void refusesNull() {
        Bracket bracket = bracket("0.10 mm goes");
        Contracts.refuseNull(
                () -> new Bracket(null, List.of(GOES, REFUSES), SIMPLE, List.of()),
                () -> new Bracket(INTERVAL, null, SIMPLE, List.of()),
                () -> new Bracket(INTERVAL, List.of(GOES, REFUSES), null, List.of()),
                () -> new Bracket(INTERVAL, List.of(GOES, REFUSES), SIMPLE, null),
                () -> bracket.with(null),
                () -> bracket.match(null, c -> c));
    }
}
