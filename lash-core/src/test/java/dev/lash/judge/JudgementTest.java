package dev.lash.judge;

import static dev.lash.testing.Readings.guarded;
import static dev.lash.testing.Readings.interval;
import static dev.lash.testing.Readings.judged;
import static dev.lash.testing.Readings.mm;
import static dev.lash.testing.Readings.read;
import static dev.lash.testing.Readings.trials;
import static dev.lash.testing.Readings.window;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatNullPointerException;
import static org.assertj.core.api.Assertions.within;

import dev.lash.gauge.Bracket;
import dev.lash.gauge.Evidence;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.Trial;
import dev.lash.measure.LengthDistribution;
import dev.lash.testing.Contracts;
import java.util.List;
import org.apache.commons.numbers.gamma.Erfc;
import org.junit.jupiter.api.Test;

class JudgementTest {
    // ---- factories

    @Test
    void keepsWhatItWasDrawnFrom() {
        Bracket bracket = read("0.10 mm goes", "0.13 mm forced");
        Judgement judgement = Judgement.of(bracket, window("0.08..0.13 mm"));
        assertThat(judgement.bracket()).isEqualTo(bracket);
        assertThat(judgement.bracket().trials()).hasSize(2);
        assertThat(judgement.window()).isEqualTo(window("0.08..0.13 mm"));
        assertThat(judgement).isEqualTo(new Judgement(bracket, window("0.08..0.13 mm")));
    }

    // ---- verdict

    @Test
    void forcedAtTheUpperLimitAndGoingBelowItIsWithin() {
        // Common practice: a leaf that enters only when forced is a no-go, so 0.13 forced and 0.10 goes is between.
        Judgement judgement = judged("0.08..0.13 mm", "0.13 mm forced", "0.10 mm goes");
        assertThat(judgement.bracket().interval()).isEqualTo(interval("(0.10, 0.13) mm"));
        assertThat(judgement.verdict()).isEqualTo(Verdict.WITHIN);
        assertThat(judgement.possible()).containsExactly(Verdict.WITHIN);
    }

    @Test
    void undecidedNamesWhatIsStillPossible() {
        Judgement judgement = judged("0.12..0.18 mm", "0.15 mm goes", "0.20 mm forced");
        assertThat(judgement.verdict()).isEqualTo(Verdict.UNDECIDED);
        assertThat(judgement.possible()).containsExactly(Verdict.WITHIN, Verdict.LOOSE);
    }

    @Test
    void noTrialsLeaveEverythingOpen() {
        Bracket nothing = Evidence.of(List.of(), ReadingRule.simple()).bracket().orElseThrow();
        assertThat(Judgement.of(nothing, window("0.12..0.18 mm")).possible())
                .containsExactly(Verdict.TIGHT, Verdict.WITHIN, Verdict.LOOSE);
    }

    @Test
    void theGuardedRuleProvesLess() {
        // 0.18 goes: simple says above 0.18; a leaf that may be 0.003 thinner than its mark proves 0.177 only.
        Bracket bracket = read(guarded("0.003", "0.002"), "0.18 mm goes");
        assertThat(judged("0.12..0.18 mm", "0.18 mm goes").verdict()).isEqualTo(Verdict.LOOSE);
        assertThat(Judgement.of(bracket, window("0.12..0.18 mm")).possible())
                .containsExactly(Verdict.WITHIN, Verdict.LOOSE);
        assertThat(Judgement.of(bracket, window("0.12..0.177 mm")).verdict()).isEqualTo(Verdict.LOOSE);
    }

    // ---- the closer of a desmodromic valve

    private static Judgement closer(String windowText, List<Trial> loaded, List<Trial> unloaded, boolean turnsFree) {
        Bracket bracket = Evidence.closer(loaded, unloaded, ReadingRule.simple(), turnsFree)
                .bracket()
                .orElseThrow();
        return Judgement.of(bracket, window(windowText));
    }

    @Test
    void aCloserWindowFromZeroNeedsTheHandsWord() {
        // Loaded and unloaded both between 0.09 and 0.12: (-0.03, 0.03).
        List<Trial> same = trials("0.09 mm goes", "0.12 mm refuses");
        assertThat(closer("0.00..0.05 mm", same, same, false).possible())
                .containsExactly(Verdict.TIGHT, Verdict.WITHIN);
        assertThat(closer("0.00..0.05 mm", same, same, true).verdict()).isEqualTo(Verdict.WITHIN);
    }

    /** A closer may hold its valve with force, and an ordinary valve may be held off its seat: only a lower end excludes either. */
    @Test
    void aReadingWithoutALowerEndMayBeBelowZero() {
        // Loaded below 0.12, unloaded (0.09, 0.10): below 0.03.
        List<Trial> loaded = trials("0.12 mm refuses");
        List<Trial> unloaded = trials("0.09 mm goes", "0.10 mm refuses");
        Judgement unknown = closer("0.00..0.05 mm", loaded, unloaded, false);
        assertThat(unknown.bracket().interval()).isEqualTo(interval("< 0.03 mm"));
        assertThat(unknown.verdict()).isEqualTo(Verdict.UNDECIDED);
        assertThat(unknown.possible()).containsExactly(Verdict.TIGHT, Verdict.WITHIN);
        assertThat(closer("0.00..0.05 mm", loaded, unloaded, true).verdict()).isEqualTo(Verdict.WITHIN);
        assertThat(judged("0.00..0.05 mm", "0.03 mm refuses").possible())
                .as("an ordinary valve")
                .containsExactly(Verdict.TIGHT, Verdict.WITHIN);
        assertThat(judged("0.00..0.05 mm", "0.03 mm refuses", "0.02 mm goes").verdict())
                .as("an ordinary valve with a gap")
                .isEqualTo(Verdict.WITHIN);
        assertThat(closer("0.04..0.05 mm", loaded, unloaded, false).verdict()).isEqualTo(Verdict.TIGHT);
    }

    @Test
    void aPriorOfACloserMayReachBelowZero() {
        // Evenly spread from -0.02 to 0.02, read as (-0.02, 0.02): half of it is below a window from 0.
        LengthDistribution even = length -> Math.min(1, Math.max(0, (length.nanometres() + 20_000) / 40_000.0));
        VerdictProbabilities p = closer(
                        "0.00..0.05 mm",
                        trials("0.10 mm goes", "0.12 mm refuses"),
                        trials("0.10 mm goes", "0.12 mm refuses"),
                        false)
                .probabilities(even)
                .orElseThrow();
        assertThat(p.tight()).isCloseTo(0.5, within(1e-12));
        assertThat(p.within()).isCloseTo(0.5, within(1e-12));
    }

    // ---- probabilities

    private static LengthDistribution normal(String mean, String deviation) {
        double m = mm(mean).nanometres();
        double s = mm(deviation).nanometres();
        return length -> 0.5 * Erfc.value((m - length.nanometres()) / (s * Math.sqrt(2)));
    }

    private static Judgement unread(String windowText) {
        Bracket nothing = Evidence.of(List.of(), ReadingRule.simple()).bracket().orElseThrow();
        return Judgement.of(nothing, window(windowText));
    }

    /**
     * The conformance probability of JCGM 106:2012, clause 7.4: estimate 13.6, standard uncertainty 1.8, limits 12.5 and 16.3.
     * The expected figure is the clause's formula worked out with SciPy 1.17.1 (its two parts with Python's erfc). All four numbers are divided by ten here, since
     * clearances end at 5 mm; that is a change of unit and leaves the probability as it is.
     */
    @Test
    void twoSidedConformanceProbability() {
        VerdictProbabilities p =
                unread("1.25..1.63 mm").probabilities(normal("1.36", "0.18")).orElseThrow();
        assertThat(p.within()).isCloseTo(0.66262978649531, within(1e-13));
        assertThat(p.tight()).isCloseTo(0.27056301223583, within(1e-13));
        assertThat(p.loose()).isCloseTo(1 - 0.93319279873114, within(1e-13));
    }

    /**
     * The upper limit of JCGM 106:2012, clause 7.3 (inputs from memory): at most -5.40 V, estimate -5.47 V, standard uncertainty
     * 0.05 V; expected figure from SciPy 1.17.1. Volts are counted from -7.40 V and written as millimetres; the window's lower
     * end, which the example does not have, then lies 38 standard uncertainties below the estimate.
     */
    @Test
    void upperLimitConformanceProbability() {
        VerdictProbabilities p =
                unread("0.00..2.00 mm").probabilities(normal("1.93", "0.05")).orElseThrow();
        assertThat(p.within()).isCloseTo(0.9192433408, within(1e-10));
        assertThat(p.tight()).isZero();
    }

    /**
     * The lower limit of JCGM 106:2012, clause 7.3 (inputs from memory): at least 490 kPa, estimate 507 kPa, standard uncertainty
     * 8 kPa; expected figure from SciPy 1.17.1. All are divided by 200; the window's upper end, which the example does not have,
     * lies 61 standard uncertainties above the estimate.
     */
    @Test
    void lowerLimitConformanceProbability() {
        VerdictProbabilities p =
                unread("2.45..5.00 mm").probabilities(normal("2.535", "0.04")).orElseThrow();
        assertThat(p.within()).isCloseTo(0.9832066936, within(1e-10));
        assertThat(p.loose()).isZero();
    }

    @Test
    void aReadingLeavesOnlyItsShareOfThePrior() {
        // Evenly spread from 0.10 to 0.20, read as (0.15, 0.20): 0.15 to 0.18 is three fifths of what is left.
        LengthDistribution even = length -> Math.min(1, Math.max(0, (length.nanometres() - 100_000) / 100_000.0));
        VerdictProbabilities p = judged("0.12..0.18 mm", "0.15 mm goes", "0.20 mm forced")
                .probabilities(even)
                .orElseThrow();
        assertThat(p.tight()).isZero();
        assertThat(p.within()).isCloseTo(0.6, within(1e-12));
        assertThat(p.loose()).isCloseTo(0.4, within(1e-12));
    }

    @Test
    void allThreeSharesAreOfWhatIsLeft() {
        // Evenly spread from 0.00 to 0.20, read as (0.10, 0.20): 0.10 to 0.12, to 0.18, to 0.20.
        LengthDistribution even = length -> Math.min(1, Math.max(0, length.nanometres() / 200_000.0));
        VerdictProbabilities p = judged("0.12..0.18 mm", "0.10 mm goes", "0.20 mm forced")
                .probabilities(even)
                .orElseThrow();
        assertThat(p.tight()).isCloseTo(0.2, within(1e-12));
        assertThat(p.within()).isCloseTo(0.6, within(1e-12));
        assertThat(p.loose()).isCloseTo(0.2, within(1e-12));
    }

    @Test
    void aDecidedReadingNeedsNoPrior() {
        LengthDistribution elsewhere = normal("4.00", "0.001");
        assertThat(judged("0.12..0.18 mm", "0.15 mm drags").probabilities(elsewhere))
                .contains(new VerdictProbabilities(0, 1, 0));
        assertThat(judged("0.12..0.18 mm", "0.10 mm refuses").probabilities(elsewhere))
                .contains(new VerdictProbabilities(1, 0, 0));
        assertThat(judged("0.12..0.18 mm", "0.20 mm goes").probabilities(elsewhere))
                .contains(new VerdictProbabilities(0, 0, 1));
    }

    @Test
    void aPriorThatExcludesTheReadingGivesNoProbabilities() {
        Judgement judgement = judged("0.12..0.18 mm", "0.15 mm goes", "0.20 mm forced");
        assertThat(judgement.probabilities(length -> length.isLessThan(mm("0.10")) ? 0.0 : 1.0))
                .isEmpty();
        assertThat(judgement.probabilities(length -> Double.NaN)).isEmpty();
    }

    @Test
    void aVerdictThatIsNotPossibleHasNoProbability() {
        // A normal prior reaches below 0; a closer that turns free does not: [0.00, 0.03), so nothing is tight.
        Judgement judgement =
                closer("0.00..0.02 mm", trials("0.12 mm refuses"), trials("0.09 mm goes", "0.10 mm refuses"), true);
        assertThat(judgement.possible()).containsExactly(Verdict.WITHIN, Verdict.LOOSE);
        VerdictProbabilities p = judgement.probabilities(normal("0.02", "0.02")).orElseThrow();
        assertThat(p.tight()).isZero();
        // From -1 to 0 deviations of what lies from -1 to 0.5, by the table of the normal distribution.
        assertThat(p.within()).isCloseTo(0.34134474606854 / (0.69146246127401 - 0.15865525393146), within(1e-12));
        assertThat(p.within() + p.loose()).isCloseTo(1, within(1e-12));
    }

    /** The prior of an ordinary valve counts from 0 only, also where the reading itself leaves tight open. */
    @Test
    void whatAPriorHoldsBelowZeroIsLeftOutForAnOrdinaryValve() {
        Judgement judgement = judged("0.00..0.05 mm", "0.10 mm refuses");
        assertThat(judgement.possible()).containsExactly(Verdict.TIGHT, Verdict.WITHIN, Verdict.LOOSE);
        VerdictProbabilities p = judgement.probabilities(normal("0.02", "0.02")).orElseThrow();
        // 0, 0.05 and 0.10 mm lie -1, 1.5 and 4 deviations from the mean, by the table of the normal distribution.
        double left = 0.99996832875817 - 0.15865525393146;
        assertThat(p.tight()).isZero();
        assertThat(p.within()).isCloseTo((0.93319279873114 - 0.15865525393146) / left, within(1e-12));
        assertThat(p.loose()).isCloseTo((0.99996832875817 - 0.93319279873114) / left, within(1e-12));
    }

    // ---- serialisation, nulls

    @Test
    void survivesSerialisation() {
        Judgement judgement = judged("0.12..0.18 mm", "0.15 mm goes", "0.20 mm forced");
        Contracts.serialises(judgement);
    }

    @Test
    void nullIsRefusedByName() {
        Bracket bracket = read("0.10 mm goes");
        assertThatNullPointerException()
                .isThrownBy(() -> Judgement.of(null, window("0.1..0.2 mm")))
                .withMessage("bracket");
        assertThatNullPointerException()
                .isThrownBy(() -> Judgement.of(bracket, null))
                .withMessage("window");
        assertThatNullPointerException()
                .isThrownBy(() -> unread("0.10..0.20 mm").probabilities(null));
    }
}
