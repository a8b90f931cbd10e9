package dev.lash.gauge;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.Length;
import dev.lash.testing.Contracts;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class EvidenceTest {
    private static final ReadingRule SIMPLE = ReadingRule.simple();
    private static final ReadingRule GUARDED = ReadingRule.guarded(Length.parse("0.003 mm"), Length.parse("0.002 mm"));

    private static List<Trial> trials(String text) {
        return text.isBlank()
                ? List.of()
                : Arrays.stream(text.split(";", -1)).map(Trial::parse).toList();
    }

    private static String outcome(Evidence evidence) {
        return evidence.match(
                bracket -> bracket.interval().toString(),
                contradiction -> contradiction.first() + " / " + contradiction.second());
    }

    // What the trials of one gap say together

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                // Nothing tried, nothing known.
                "''                                            | any",
                "0.10 mm goes                                  | > 0.10 mm",
                "0.10 mm goes; 0.13 mm forced                  | (0.10, 0.13) mm",
                "0.10 mm goes; 0.13 mm refuses; 0.12 mm goes   | (0.12, 0.13) mm",
                "0.10 mm goes; 0.13 mm refuses; 0.12 mm drags  | [0.12, 0.12] mm",
                "0.12 mm drags                                 | [0.12, 0.12] mm",
                // The thinnest leaf refuses: no lower end, never zero.
                "0.03 mm refuses                               | < 0.03 mm",
                // A forced leaf is a no-go.
                "0.15 mm forced                                | < 0.15 mm",
                // The same trial again says nothing new.
                "0.10 mm goes; 0.10 mm goes                    | > 0.10 mm",
                "0.12 mm drags; 0.12 mm drags                  | [0.12, 0.12] mm",
                // Neighbouring leaves that both drag: the hull of their claims.
                "0.10 mm drags; 0.11 mm drags                  | [0.10, 0.11] mm",
                "0.11 mm drags; 0.10 mm drags; 0.12 mm drags   | [0.10, 0.12] mm",
                "0.10 mm drags; 0.12 mm drags; 0.09 mm goes    | [0.10, 0.12] mm",
                "0.10 mm drags; 0.12 mm drags; 0.13 mm refuses | [0.10, 0.12] mm",
                // One leaf refuses and is forced: both are a no-go.
                "0.10 mm refuses; 0.10 mm forced               | < 0.10 mm",
                // A stack and a leaf; both systems of units.
                "0.06 mm + 0.15 mm goes; 0.25 mm refuses       | (0.21, 0.25) mm",
                "4 thou goes; 0.13 mm refuses                  | (0.1016, 0.13) mm",
                // Contradictions: the trial that claims most, the trial that claims least.
                "0.14 mm goes; 0.11 mm refuses                 | 0.14 mm goes / 0.11 mm refuses",
                "0.10 mm goes; 0.10 mm refuses                 | 0.10 mm goes / 0.10 mm refuses",
                "0.10 mm goes; 0.10 mm forced                  | 0.10 mm goes / 0.10 mm forced",
                "0.10 mm goes; 0.10 mm drags                   | 0.10 mm goes / 0.10 mm drags",
                "0.10 mm drags; 0.10 mm refuses                | 0.10 mm drags / 0.10 mm refuses",
                // Another drag does not bridge what a drag and a go or no-go deny each other.
                "0.10 mm drags; 0.11 mm drags; 0.10 mm goes    | 0.10 mm goes / 0.10 mm drags",
                "0.10 mm drags; 0.11 mm drags; 0.11 mm refuses | 0.11 mm drags / 0.11 mm refuses",
                "0.10 mm drags; 0.12 mm drags; 0.11 mm goes    | 0.11 mm goes / 0.10 mm drags",
                "0.10 mm drags; 0.12 mm drags; 0.11 mm refuses | 0.12 mm drags / 0.11 mm refuses",
                "0.15 mm drags; 0.14 mm goes; 0.11 mm refuses  | 0.15 mm drags / 0.11 mm refuses",
                "0.10 mm goes; 0.14 mm goes; 0.13 mm refuses; 0.11 mm refuses | 0.14 mm goes / 0.11 mm refuses",
                // Of several drags that deny one trial the one furthest from it is named.
                "0.11 mm drags; 0.12 mm drags; 0.13 mm goes    | 0.13 mm goes / 0.11 mm drags",
                "0.11 mm drags; 0.12 mm drags; 0.10 mm refuses | 0.12 mm drags / 0.10 mm refuses"
            })
    void bySimpleRule(String trials, String outcome) {
        assertThat(outcome(Evidence.of(trials(trials), SIMPLE))).isEqualTo(outcome);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "0.10 mm goes; 0.13 mm forced       | (0.097, 0.133) mm",
                "0.12 mm drags                      | [0.115, 0.125] mm",
                "0.12 mm drags; 0.119 mm goes       | (0.116, 0.125] mm",
                "0.10 mm drags; 0.11 mm drags       | [0.095, 0.115] mm",
                "0.03 mm refuses                    | < 0.033 mm",
                // What goes or refuses cuts the hull of the drags.
                "0.10 mm drags; 0.11 mm drags; 0.099 mm goes    | (0.096, 0.115] mm",
                "0.10 mm drags; 0.11 mm drags; 0.111 mm refuses | [0.095, 0.114) mm",
                // Within the tolerances these agree: a leaf and a stack have each their own true thickness.
                "0.05 mm + 0.05 mm goes; 0.10 mm refuses | (0.094, 0.103) mm",
                // One leaf has one true thickness, so no tolerance lets it fit in two ways.
                "0.12 mm drags; 0.12 mm goes        | 0.12 mm goes / 0.12 mm drags",
                "0.12 mm drags; 0.12 mm forced      | 0.12 mm drags / 0.12 mm forced",
                "0.10 mm goes; 0.10 mm refuses      | 0.10 mm goes / 0.10 mm refuses",
                "0.05 mm + 0.15 mm goes; 0.15 mm + 0.05 mm drags | 0.05 mm + 0.15 mm goes / 0.05 mm + 0.15 mm drags",
                "0.10 mm refuses; 0.10 mm forced    | < 0.103 mm",
                "0.14 mm goes; 0.135 mm refuses     | (0.137, 0.138) mm",
                // Beyond them they do not; open ends that meet hold nothing.
                "0.14 mm goes; 0.134 mm refuses     | 0.14 mm goes / 0.134 mm refuses",
                "0.14 mm goes; 0.11 mm refuses      | 0.14 mm goes / 0.11 mm refuses",
                // A stack has twice the tolerance, so it claims less from below than the thinner leaf.
                "0.05 mm + 0.15 mm goes; 0.198 mm goes | > 0.195 mm",
                "0.05 mm + 0.15 mm goes             | > 0.194 mm"
            })
    void byGuardedRule(String trials, String outcome) {
        assertThat(outcome(Evidence.of(trials(trials), GUARDED))).isEqualTo(outcome);
    }

    @Test
    void keepsTheTrialsInTheirOrderAndTheRule() {
        List<Trial> made = trials("0.13 mm refuses; 0.10 mm goes; 0.10 mm goes");
        Evidence bracket = Evidence.of(made, GUARDED);
        assertThat(bracket).isInstanceOf(Bracket.class);
        assertThat(bracket.trials()).isEqualTo(made).isUnmodifiable();
        assertThat(bracket.rule()).isEqualTo(GUARDED);
        List<Trial> odd = trials("0.10 mm refuses; 0.10 mm goes; 0.05 mm goes");
        Evidence contradiction = Evidence.of(odd, SIMPLE);
        assertThat(contradiction).isInstanceOf(Contradiction.class);
        assertThat(contradiction.trials()).isEqualTo(odd).isUnmodifiable();
        assertThat(contradiction.rule()).isEqualTo(SIMPLE);
    }

    @Test
    void matchCallsTheFunctionOfTheOutcome() {
        Evidence bracket = Evidence.of(trials("0.10 mm goes"), SIMPLE);
        Evidence contradiction = Evidence.of(trials("0.14 mm goes; 0.11 mm refuses"), SIMPLE);
        assertThat(bracket.<Evidence>match(b -> b, c -> c)).isSameAs(bracket);
        assertThat(contradiction.<Evidence>match(b -> b, c -> c)).isSameAs(contradiction);
        assertThat(bracket.<String>match(b -> "bracket", c -> "contradiction")).isEqualTo("bracket");
        assertThat(contradiction.<String>match(b -> "bracket", c -> "contradiction"))
                .isEqualTo("contradiction");
        assertThat(bracket.bracket()).containsSame((Bracket) bracket);
        assertThat(contradiction.bracket()).isEmpty();
    }

    // The closer of a desmodromic valve: loaded minus unloaded

    private static Evidence closer(String loaded, String unloaded, boolean turnsFree) {
        return Evidence.closer(trials(loaded), trials(unloaded), SIMPLE, turnsFree);
    }

    /** [a2 - b1, b2 - a1], ends excluded where either is; by hand. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "0.15 mm drags                  | 0.10 mm drags                  | [0.05, 0.05] mm",
                "0.15 mm goes; 0.16 mm refuses  | 0.10 mm goes; 0.11 mm refuses  | (0.04, 0.06) mm",
                "0.15 mm goes; 0.16 mm refuses  | 0.10 mm drags                  | (0.05, 0.06) mm",
                "0.14 mm drags; 0.15 mm drags   | 0.10 mm drags                  | [0.04, 0.05] mm",
                "0.10 mm goes; 0.12 mm refuses  | 0.09 mm goes; 0.12 mm refuses  | (-0.02, 0.03) mm",
                "0.15 mm goes                   | 0.10 mm goes; 0.11 mm refuses  | > 0.04 mm",
                "0.15 mm refuses                | 0.10 mm goes; 0.11 mm refuses  | < 0.05 mm",
                "0.15 mm goes; 0.16 mm refuses  | 0.11 mm refuses                | > 0.04 mm",
                "0.15 mm goes; 0.16 mm refuses  | 0.10 mm goes                   | < 0.06 mm",
                "0.15 mm goes                   | 0.10 mm goes                   | any",
                // One set alone says nothing of the closer.
                "''                             | 0.10 mm drags                  | any",
                "0.15 mm drags                  | ''                             | any",
                "''                             | ''                             | any"
            })
    void theCloserIsLoadedMinusUnloaded(String loaded, String unloaded, String gap) {
        assertThat(outcome(closer(loaded, unloaded, false))).isEqualTo(gap);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "0.10 mm goes; 0.12 mm refuses  | 0.09 mm goes; 0.12 mm refuses  | [0.00, 0.03) mm",
                "0.15 mm refuses                | 0.10 mm goes; 0.11 mm refuses  | [0.00, 0.05) mm",
                "0.10 mm drags                  | 0.10 mm drags                  | [0.00, 0.00] mm",
                "0.15 mm drags                  | 0.10 mm drags                  | [0.05, 0.05] mm",
                "0.15 mm goes                   | 0.10 mm goes                   | >= 0.00 mm"
            })
    void aCloserThatTurnsFreeByHandIsNotBelowZero(String loaded, String unloaded, String gap) {
        assertThat(outcome(closer(loaded, unloaded, true))).isEqualTo(gap);
    }

    /** The valve cannot have less room when it is pushed away from the opener: one trial of each set is named. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "0.09 mm drags                 | 0.10 mm drags                | 0.10 mm drags / 0.09 mm drags",
                "0.08 mm goes; 0.10 mm refuses | 0.09 mm goes; 0.10 mm goes   | 0.10 mm goes / 0.10 mm refuses",
                "0.09 mm refuses               | 0.10 mm goes; 0.12 mm refuses | 0.10 mm goes / 0.09 mm refuses",
                "0.09 mm drags; 0.08 mm drags  | 0.10 mm drags; 0.11 mm drags | 0.11 mm drags / 0.08 mm drags"
            })
    void loadedSmallerThanUnloadedIsAContradiction(String loaded, String unloaded, String pair) {
        Evidence evidence = closer(loaded, unloaded, true);
        assertThat(outcome(evidence)).isEqualTo(pair);
        List<Trial> all = new ArrayList<>(trials(unloaded));
        all.addAll(trials(loaded));
        assertThat(evidence.trials()).isEqualTo(all);
    }

    /** Before it is known to turn free the closer may hold the valve with force, and read as less than nothing. */
    @Test
    void withoutTheHandsWordAGapBelowZeroIsPossible() {
        assertThat(outcome(closer("0.09 mm drags", "0.10 mm drags", false))).isEqualTo("[-0.01, -0.01] mm");
    }

    /** Whichever set is at odds with itself is named, also where the other one is missing. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "0.16 mm goes; 0.15 mm refuses | 0.10 mm drags                 | 0.16 mm goes / 0.15 mm refuses",
                "0.15 mm drags                 | 0.11 mm goes; 0.10 mm refuses | 0.11 mm goes / 0.10 mm refuses",
                "0.16 mm goes; 0.15 mm refuses | ''                            | 0.16 mm goes / 0.15 mm refuses",
                "''                            | 0.11 mm goes; 0.10 mm refuses | 0.11 mm goes / 0.10 mm refuses"
            })
    void aSetAtOddsWithItselfIsNamed(String loaded, String unloaded, String pair) {
        for (boolean turnsFree : new boolean[] {true, false}) {
            assertThat(outcome(closer(loaded, unloaded, turnsFree))).isEqualTo(pair);
        }
    }

    @Test
    void theGuardedRuleCountsBothReadings() {
        // Each drag is known within 0.005 either way, so their difference within 0.01.
        assertThat(outcome(Evidence.closer(trials("0.15 mm drags"), trials("0.10 mm drags"), GUARDED, false)))
                .isEqualTo("[0.04, 0.06] mm");
    }

    @Test
    void theExampleOfThePackageComment() {
        Evidence evidence =
                Evidence.of(List.of(Trial.parse("0.10 mm goes"), Trial.parse("0.13 mm forced")), ReadingRule.simple());
        String text =
                evidence.match(bracket -> bracket.interval().toString(), contradiction -> contradiction.toString());
        assertThat(text).isEqualTo("(0.10, 0.13) mm");
    }

    @Test
    void refusesNull() {
        Contracts.refuseNull(
                () -> Evidence.of(null, SIMPLE),
                () -> Evidence.of(List.of(), null),
                () -> Evidence.of(Arrays.asList(Trial.parse("0.10 mm goes"), null), SIMPLE),
                () -> Evidence.closer(null, List.of(), SIMPLE, false),
                () -> Evidence.closer(List.of(), null, SIMPLE, false),
                () -> Evidence.closer(List.of(), List.of(), null, false));
    }
}
