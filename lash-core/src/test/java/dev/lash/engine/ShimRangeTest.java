package dev.lash.engine;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.Length;
import dev.lash.measure.TextParseException.Reason;
import dev.lash.testing.Contracts;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class ShimRangeTest {
    private static final ShimRange RANGE = ShimRange.parse("1.20..3.50 mm step 0.05 mm");

    private static ShimRange of(String thinnest, String thickest, String step) {
        return new ShimRange(
                Length.ofMillimetres(thinnest), Length.ofMillimetres(thickest), Length.ofMillimetres(step));
    }

    // Factories

    @Test
    void keepsItsParts() {
        assertThat(RANGE.thinnest()).isEqualTo(Length.parse("1.2 mm"));
        assertThat(RANGE.thickest()).isEqualTo(Length.parse("3.5 mm"));
        assertThat(RANGE.step()).isEqualTo(Length.parse("0.05 mm"));
    }

    @ParameterizedTest
    @CsvSource({
        "0, 3.5, 0.05, 0.00 mm to 3.50 mm step 0.05 mm",
        "-1, 3.5, 0.05, -1.00 mm to 3.50 mm step 0.05 mm",
        "3.5, 1.2, 0.05, 3.50 mm to 1.20 mm step 0.05 mm",
        "1.2, 20.05, 0.05, 1.20 mm to 20.05 mm step 0.05 mm"
    })
    void refusesSizesOutOfRange(String thinnest, String thickest, String step, String value) {
        Contracts.refuses(
                () -> of(thinnest, thickest, step),
                "shim range \"" + value + "\"",
                "a thinnest size above 0 mm",
                "to 20.00 mm",
                "check the sizes and their unit");
    }

    @ParameterizedTest
    @CsvSource({
        "1.2, 3.5, 0.06, 1.20 mm to 3.50 mm step 0.06 mm",
        "1.2, 3.5, 0, 1.20 mm to 3.50 mm step 0.00 mm",
        "1.2, 3.5, -0.05, 1.20 mm to 3.50 mm step -0.05 mm",
        "1.2, 3.5, 3, 1.20 mm to 3.50 mm step 3.00 mm",
        "1, 11, 0.01, 1.00 mm to 11.00 mm step 0.01 mm"
    })
    void refusesAStepThatDoesNotFit(String thinnest, String thickest, String step, String value) {
        Contracts.refuses(
                () -> of(thinnest, thickest, step),
                "shim range \"" + value + "\"",
                "a step that divides the range into at most 1000 sizes",
                "check the step against the kit");
    }

    @Test
    void takesOneSizeAndAThousand() {
        assertThat(of("2.5", "2.5", "0.05").sizes()).hasToString("[2.50 mm]");
        assertThat(of("1", "10.99", "0.01").count()).isEqualTo(1000);
        assertThat(of("0.000001", "20", "19.999999").count()).isEqualTo(2);
    }

    // Parsing

    @ParameterizedTest
    @CsvSource({
        "1.20..3.50 mm step 0.05 mm, 1.20..3.50 mm step 0.05 mm",
        "1.2 .. 3.5mm step  50 um, 1.20..3.50 mm step 0.05 mm",
        "1.20 mm..3.50 mm step 5 hundredths, 1.20..3.50 mm step 0.05 mm",
        "0.085..0.110 in step 1 thou, 2.159..2.794 mm step 0.0254 mm"
    })
    void readsSizesAndStep(String text, String written) {
        assertThat(ShimRange.parse(text)).hasToString(written);
    }

    static Stream<Arguments> badTexts() {
        return Stream.of(
                Arguments.of("", Reason.WRONG_FORM, 0),
                Arguments.of("1.20..3.50 mm", Reason.WRONG_FORM, 0),
                Arguments.of("1.20..3.50 mm by 0.05 mm", Reason.WRONG_FORM, 0),
                Arguments.of("1.20-3.50 mm step 0.05 mm", Reason.WRONG_FORM, 0),
                Arguments.of("1.20..3.50 mm step 0.05", Reason.NO_UNIT, 4),
                Arguments.of("1.20..3.50 step 0.05 mm", Reason.NO_UNIT, 4),
                Arguments.of("1.20..3.50 mm step ", Reason.EMPTY, 0),
                Arguments.of("1.20..3.50 mm step 0.05 mm step 0.05 mm", Reason.UNKNOWN_UNIT, 5));
    }

    @ParameterizedTest
    @MethodSource("badTexts")
    void refusesOtherTexts(String text, Reason reason, int position) {
        Contracts.refusesText(ShimRange::parse, text, reason, position);
    }

    @Test
    void saysWhatARangeLooksLike() {
        assertThat(Contracts.refusesText(ShimRange::parse, "1.20..3.50 mm", Reason.WRONG_FORM, 0))
                .hasMessageContainingAll(
                        "shim range \"1.20..3.50 mm\"", "names no step", "\"1.20..3.50 mm step 0.05 mm\"");
        assertThat(Contracts.refusesText(ShimRange::parse, "1.20 mm step 0.05 mm", Reason.WRONG_FORM, 0))
                .hasMessageContainingAll("shim range", "has no \"..\"", "both figures and the unit");
    }

    // Sizes

    /** Kits in print, with how many sizes each has there. */
    @ParameterizedTest
    @CsvSource({
        "1.200, 2.900, 0.025, 69, 'scooter service manual SH300i (2006), p. 4-10'",
        "5.060, 5.740, 0.020, 35, 'car service manual, Vibe (2006), lifters in sizes'",
        "2.70, 3.30, 0.02, 31, 'workshop manual, Lancer (2009), tappets in sizes'",
        "2.50, 3.30, 0.05, 17, 'engine repair manual RM1046E, p. 14-19'",
        "1.96, 2.68, 0.02, 37, 'service manual, 240SX (1994)'",
        "3.30, 4.50, 0.05, 25, 'service manual, 940 (1995)'",
        "2.50, 3.50, 0.05, 21, 'owner and service manual, KLE650'"
    })
    void kitsHaveAsManySizesAsPrinted(String thinnest, String thickest, String step, int count, String source) {
        ShimRange kit = of(thinnest, thickest, step);
        assertThat(kit.count()).as(source).isEqualTo(count);
        assertThat(kit.sizes())
                .as(source)
                .hasSize(count)
                .doesNotHaveDuplicates()
                .allMatch(kit::contains);
        assertThat(kit.sizes().get(0)).isEqualTo(Length.ofMillimetres(thinnest));
        assertThat(kit.sizes().get(count - 1)).isEqualTo(Length.ofMillimetres(thickest));
    }

    @Test
    void listsItsSizesThinnestFirst() {
        assertThat(of("2.50", "2.60", "0.025").sizes())
                .hasToString("[2.50 mm, 2.525 mm, 2.55 mm, 2.575 mm, 2.60 mm]")
                .isUnmodifiable();
    }

    @ParameterizedTest
    @CsvSource({
        "1.20, true",
        "3.50, true",
        "2.45, true",
        "2.46, false",
        "2.475, false",
        "1.15, false",
        "3.55, false",
        "1.200001, false",
        "-1.20, false"
    })
    void containsTheSizesThatAreMade(String size, boolean made) {
        assertThat(RANGE.contains(Length.ofMillimetres(size))).isEqualTo(made);
    }

    // Equality, text, serialisation, nulls

    @Test
    void isEqualByItsParts() {
        Contracts.equality(
                RANGE,
                of("1.2", "3.5", "0.05"),
                List.of(of("1.2", "3.5", "0.025"), of("1.25", "3.5", "0.05"), of("1.2", "3.45", "0.05")));
    }

    @Test
    void serialises() {
        Contracts.serialises(RANGE);
    }

    @Test
    void refusesNull() {
        Length one = Length.parse("1 mm");
        Contracts.refuseNull(
                () -> new ShimRange(null, one, one),
                () -> new ShimRange(one, null, one),
                () -> new ShimRange(one, one, null),
                () -> ShimRange.parse(null),
                () -> RANGE.contains(null));
    }
}
