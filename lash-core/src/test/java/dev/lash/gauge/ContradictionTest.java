package dev.lash.gauge;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.Length;
import dev.lash.testing.Contracts;
import java.util.List;
import org.junit.jupiter.api.Test;

class ContradictionTest {
    private static final ReadingRule SIMPLE = ReadingRule.simple();
    private static final Trial THICK_GOES = Trial.parse("0.14 mm goes");
    private static final Trial THIN_REFUSES = Trial.parse("0.11 mm refuses");
    private static final List<Trial> TRIALS = List.of(Trial.parse("0.08 mm goes"), THIN_REFUSES, THICK_GOES);

    private static Contradiction contradiction() {
        return (Contradiction) Evidence.of(TRIALS, SIMPLE);
    }

    @Test
    void namesThePairToRepeatAndKeepsAllTrials() {
        assertThat(contradiction().first()).isEqualTo(THICK_GOES);
        assertThat(contradiction().second()).isEqualTo(THIN_REFUSES);
        assertThat(contradiction().trials()).isEqualTo(TRIALS).isUnmodifiable();
        assertThat(contradiction().rule()).isEqualTo(SIMPLE);
    }

    @Test
    void ofEqualClaimsNamesTheTrialMadeFirst() {
        Trial forced = Trial.parse("0.11 mm forced");
        Contradiction made = (Contradiction) Evidence.of(List.of(forced, THIN_REFUSES, THICK_GOES), SIMPLE);
        assertThat(made.second()).isEqualTo(forced);
    }

    @Test
    void isEqualByPairTrialsAndRule() {
        ReadingRule guarded = ReadingRule.guarded(Length.ZERO, Length.ZERO);
        Contracts.equality(
                contradiction(),
                new Contradiction(THICK_GOES, THIN_REFUSES, TRIALS, SIMPLE),
                List.of(
                        Evidence.of(TRIALS, guarded),
                        Evidence.of(List.of(THICK_GOES, THIN_REFUSES), SIMPLE),
                        new Contradiction(THIN_REFUSES, THICK_GOES, TRIALS, SIMPLE)));
    }

    @Test
    void serialises() {
        Contracts.serialises(contradiction());
    }

    @Test
    void refusesNull() {
        Contracts.refuseNull(
                () -> new Contradiction(null, THIN_REFUSES, TRIALS, SIMPLE),
                () -> new Contradiction(THICK_GOES, null, TRIALS, SIMPLE),
                () -> new Contradiction(THICK_GOES, THIN_REFUSES, null, SIMPLE),
                () -> new Contradiction(THICK_GOES, THIN_REFUSES, TRIALS, null),
                () -> contradiction().match(b -> b, null));
    }
}
