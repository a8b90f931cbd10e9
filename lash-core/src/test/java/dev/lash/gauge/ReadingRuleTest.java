package dev.lash.gauge;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.TextParseException.Reason;
import dev.lash.testing.Contracts;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class ReadingRuleTest {
    private static final ReadingRule SIMPLE = ReadingRule.simple();
    private static final ReadingRule GUARDED = ReadingRule.guarded(Length.parse("0.003 mm"), Length.parse("0.002 mm"));

    // What each fit claims

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                // The leaf taken for its mark: simple acceptance in the sense of JCGM 106:2012.
                "simple | 0.10 mm goes    | > 0.10 mm",
                "simple | 0.10 mm drags   | [0.10, 0.10] mm",
                "simple | 0.10 mm forced  | < 0.10 mm",
                "simple | 0.10 mm refuses | < 0.10 mm",
                "simple | 0.06 mm + 0.15 mm goes | > 0.21 mm",
                // Tolerance d = 0.003 mm and drag allowance f = 0.002 mm counted, in the manner of ISO 14253-1.
                "guarded | 0.10 mm goes    | > 0.097 mm",
                "guarded | 0.10 mm drags   | [0.095, 0.105] mm",
                "guarded | 0.10 mm forced  | < 0.103 mm",
                "guarded | 0.10 mm refuses | < 0.103 mm",
                // A stack adds the tolerance of each leaf, but it is felt by one hand: the drag allowance counts once.
                "guarded | 0.06 mm + 0.15 mm goes    | > 0.204 mm",
                "guarded | 0.06 mm + 0.15 mm drags   | [0.202, 0.218] mm",
                "guarded | 0.06 mm + 0.15 mm refuses | < 0.216 mm",
                "guarded | 0.05 mm + 0.05 mm + 0.05 mm goes | > 0.141 mm"
            })
    void claimsClearances(String rule, String trial, String claim) {
        ReadingRule reading = rule.equals("simple") ? SIMPLE : GUARDED;
        assertThat(reading.claim(Trial.parse(trial))).hasToString(claim);
    }

    @Test
    void aToleranceMayReachBelowZero() {
        ReadingRule coarse = ReadingRule.guarded(Length.parse("0.05 mm"), Length.ZERO);
        assertThat(coarse.claim(Trial.parse("0.03 mm goes"))).hasToString("> -0.02 mm");
    }

    /**
     * The printed stack-up takes ten leaves of 0.010 in at +0.00035 in each, 0.0035 in together (Feeler gage accumulation and
     * tolerance stack-ups, a gage maker's technical note). Three are the most here: 0.00105 in by the same sum.
     */
    @Test
    void stackedTolerancesAddUpAsPrinted() {
        ReadingRule rule = ReadingRule.guarded(Length.ofInches("0.00035"), Length.ZERO);
        LeafStack three = LeafStack.parse("0.010 in + 0.010 in + 0.010 in");
        assertThat(rule.claim(new Trial(three, Fit.REFUSES)).toString(LengthUnit.INCH))
                .isEqualTo("< 0.03105 in");
        assertThat(rule.claim(new Trial(three, Fit.GOES)).toString(LengthUnit.INCH))
                .isEqualTo("> 0.02895 in");
        assertThat(rule.claim(new Trial(three, Fit.DRAGS)).toString(LengthUnit.INCH))
                .isEqualTo("[0.02895, 0.03105] in");
    }

    // Factories

    @Test
    void thereIsOneSimpleRule() {
        assertThat(ReadingRule.simple()).isSameAs(SIMPLE);
        assertThat(ReadingRule.parse("simple")).isSameAs(SIMPLE);
        assertThat(Contracts.copied(SIMPLE)).isSameAs(SIMPLE);
    }

    @ParameterizedTest
    @CsvSource({
        "-0.001 mm, 0 mm, leaf tolerance \"-0.001 mm\"",
        "0.100001 mm, 0 mm, leaf tolerance \"0.100001 mm\"",
        "0 mm, -0.001 mm, drag allowance \"-0.001 mm\"",
        "0 mm, 0.100001 mm, drag allowance \"0.100001 mm\""
    })
    void refusesFiguresOutOfRange(String tolerance, String dragAllowance, String what) {
        Contracts.refuses(
                () -> ReadingRule.guarded(Length.parse(tolerance), Length.parse(dragAllowance)),
                what,
                "0 mm to 0.10 mm",
                "JIS B 7524");
    }

    @Test
    void takesFiguresAtTheEnds() {
        Length most = Length.parse("0.10 mm");
        assertThat(ReadingRule.guarded(most, most)).hasToString("guarded, tolerance 0.10 mm, drag allowance 0.10 mm");
        assertThat(ReadingRule.guarded(Length.ZERO, Length.ZERO))
                .hasToString("guarded, tolerance 0.00 mm, drag allowance 0.00 mm");
    }

    // Parsing

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "guarded, tolerance 0.003 mm, drag allowance 0.002 mm",
                "guarded, tolerance 3 um, drag allowance 2um",
                "guarded, tolerance 0.3 hundredths, drag allowance 0.0020 mm"
            })
    void readsTheGuardedRule(String text) {
        assertThat(ReadingRule.parse(text)).isEqualTo(GUARDED);
    }

    static Stream<Arguments> badTexts() {
        return Stream.of(
                Arguments.of("", Reason.WRONG_FORM, 0),
                Arguments.of("Simple", Reason.WRONG_FORM, 0),
                Arguments.of("guarded", Reason.WRONG_FORM, 0),
                Arguments.of("guarded, tolerance 0.003 mm", Reason.WRONG_FORM, 0),
                Arguments.of("guarded,tolerance 0.003 mm,drag allowance 0 mm", Reason.WRONG_FORM, 0),
                Arguments.of("guarded, drag allowance 0 mm, tolerance 0 mm", Reason.WRONG_FORM, 0),
                Arguments.of("simple, tolerance 0 mm, drag allowance 0 mm", Reason.WRONG_FORM, 0),
                Arguments.of("guarded, tolerance 0.003, drag allowance 0 mm", Reason.NO_UNIT, 5),
                Arguments.of("guarded, tolerance , drag allowance 0 mm", Reason.EMPTY, 0),
                Arguments.of("guarded, tolerance x, drag allowance 0 mm", Reason.NOT_A_NUMBER, 0));
    }

    @ParameterizedTest
    @MethodSource("badTexts")
    void refusesOtherTexts(String text, Reason reason, int position) {
        Contracts.refusesText(ReadingRule::parse, text, reason, position);
    }

    @Test
    void saysWhichFormsThereAre() {
        assertThat(Contracts.refusesText(ReadingRule::parse, "strict", Reason.WRONG_FORM, 0))
                .hasMessageContainingAll("reading rule \"strict\"", "simple", "guarded, tolerance 0.003 mm");
        Contracts.refuses(
                () -> ReadingRule.parse("guarded, tolerance 1 mm, drag allowance 0 mm"),
                "leaf tolerance \"1.00 mm\"",
                "0 mm to 0.10 mm");
    }

    // Equality, text, serialisation, nulls

    @Test
    void isEqualByItsFigures() {
        Contracts.equality(
                GUARDED,
                ReadingRule.guarded(Length.parse("3 um"), Length.parse("2 um")),
                List.of(
                        SIMPLE,
                        ReadingRule.guarded(Length.parse("3 um"), Length.parse("3 um")),
                        ReadingRule.guarded(Length.parse("2 um"), Length.parse("2 um"))));
    }

    @Test
    void hasANameAndAText() {
        assertThat(SIMPLE.name()).isEqualTo("simple");
        assertThat(SIMPLE).hasToString("simple");
        assertThat(SIMPLE.toString(LengthUnit.INCH)).isEqualTo("simple");
        assertThat(GUARDED.name()).isEqualTo("guarded");
        assertThat(GUARDED).hasToString("guarded, tolerance 0.003 mm, drag allowance 0.002 mm");
        assertThat(ReadingRule.guarded(Length.ofInches("0.00035"), Length.ZERO).toString(LengthUnit.INCH))
                .isEqualTo("guarded, tolerance 0.00035 in, drag allowance 0.000 in");
    }

    @Test
    void serialises() {
        Contracts.serialises(SIMPLE);
        Contracts.serialises(GUARDED);
    }

    @ParameterizedTest
    @ValueSource(strings = {"simple", "guarded, tolerance 0.003 mm, drag allowance 0.002 mm"})
    void refusesNull(String rule) {
        ReadingRule reading = ReadingRule.parse(rule);
        Contracts.refuseNull(
                () -> reading.claim(null),
                () -> reading.toString(null),
                () -> ReadingRule.guarded(null, Length.ZERO),
                () -> ReadingRule.guarded(Length.ZERO, null),
                () -> ReadingRule.parse(null));
    }
}
