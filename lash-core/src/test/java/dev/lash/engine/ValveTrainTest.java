package dev.lash.engine;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.engine.ValveTrain.Desmodromic;
import dev.lash.engine.ValveTrain.Eccentric;
import dev.lash.engine.ValveTrain.Fixed;
import dev.lash.engine.ValveTrain.Hydraulic;
import dev.lash.engine.ValveTrain.Screw;
import dev.lash.engine.ValveTrain.ScrewPlace;
import dev.lash.engine.ValveTrain.Shim;
import dev.lash.engine.ValveTrain.ShimPlace;
import dev.lash.engine.ValveTrain.Wedge;
import dev.lash.measure.Length;
import dev.lash.measure.Ratio;
import dev.lash.testing.Contracts;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class ValveTrainTest {
    private static final Pitch PITCH = Pitch.parse("0.75 mm");
    private static final Ratio RATIO = Ratio.parse("1.5");
    private static final ShimRange SIZES = ShimRange.parse("1.20..3.50 mm step 0.05 mm");
    private static final Length CENTRES = Length.parse("1.5 mm");
    private static final Length STEP = Length.parse("0.06 mm");

    private static Screw screw(ScrewPlace place) {
        return new Screw(place, PITCH, place.needsRatio() ? RATIO : Ratio.ONE, ScrewHead.HEXAGON);
    }

    private static Shim shim(ShimPlace place) {
        return new Shim(place, SIZES, place == ShimPlace.FOLLOWER ? RATIO : Ratio.ONE);
    }

    static Stream<ValveTrain> trains() {
        return Stream.of(
                        Stream.of(ScrewPlace.values()).map(ValveTrainTest::screw),
                        Stream.of(ShimPlace.values()).map(ValveTrainTest::shim),
                        Stream.of(
                                new Wedge(STEP),
                                new Eccentric(CENTRES, RATIO),
                                new Desmodromic(SIZES, SIZES),
                                new Fixed(),
                                new Hydraulic()))
                .flatMap(trains -> trains);
    }

    // Shims

    @Test
    void shimsAreThoseOfTheGap() {
        ShimRange other = ShimRange.parse("4.50..8.00 mm step 0.05 mm");
        Desmodromic both = new Desmodromic(SIZES, other);
        assertThat(both.shims(Gap.OPENER)).contains(SIZES);
        assertThat(both.shims(Gap.CLOSER)).contains(other);
        assertThat(both.shimRatio()).contains(Ratio.ONE);
        Shim follower = shim(ShimPlace.FOLLOWER);
        assertThat(follower.shims(Gap.ONLY)).contains(SIZES);
        assertThat(follower.shimRatio()).contains(RATIO);
    }

    @Test
    void onlyShimTrainsHaveShims() {
        assertThat(trains().filter(train -> !(train instanceof Shim || train instanceof Desmodromic)))
                .isNotEmpty()
                .allSatisfy(train -> {
                    assertThat(train.shims(Gap.ONLY)).isEmpty();
                    assertThat(train.shimRatio()).isEmpty();
                });
    }

    // Kinds and cases

    @Test
    void everyTrainHasAKind() {
        assertThat(trains().map(ValveTrain::kind))
                .containsExactly(
                        "rocker-screw",
                        "pushrod-screw",
                        "pushrod-threaded",
                        "stud-nut",
                        "tappet-screw",
                        "rocker-forked",
                        "bridge",
                        "bucket-shim-over",
                        "bucket-shim-under",
                        "bucket-graded",
                        "follower-shim",
                        "tappet-screw",
                        "eccentric",
                        "desmodromic",
                        "fixed",
                        "hydraulic");
        assertThat(ScrewPlace.BRIDGE.kind()).isEqualTo("bridge");
        assertThat(ShimPlace.FOLLOWER.kind()).isEqualTo("follower-shim");
    }

    @ParameterizedTest
    @MethodSource("trains")
    void matchCallsTheFunctionOfTheCase(ValveTrain train) {
        ValveTrain.Cases<String> cases = new ValveTrain.Cases<>() {
            @Override
            public String screw(Screw screw) {
                return "Screw" + screw.place();
            }

            @Override
            public String wedge(Wedge wedge) {
                return "Wedge" + wedge.step();
            }

            @Override
            public String eccentric(Eccentric eccentric) {
                return "Eccentric" + eccentric.eccentricity();
            }

            @Override
            public String shim(Shim shim) {
                return "Shim" + shim.place();
            }

            @Override
            public String desmodromic(Desmodromic desmodromic) {
                return "Desmodromic" + desmodromic.opener();
            }

            @Override
            public String fixed(Fixed fixed) {
                return "Fixed" + fixed.kind();
            }

            @Override
            public String hydraulic(Hydraulic hydraulic) {
                return "Hydraulic" + hydraulic.kind();
            }
        };
        assertThat(train.match(cases)).startsWith(train.getClass().getSimpleName());
    }

    // Screws

    @Test
    void theCommonestScrewIsAtTheValveTip() {
        Screw screw = Screw.atValveTip(PITCH);
        assertThat(screw).isEqualTo(new Screw(ScrewPlace.ROCKER_TIP, PITCH, Ratio.ONE, ScrewHead.NOT_STATED));
        assertThat(screw.pitch()).isEqualTo(PITCH);
        assertThat(screw.head()).isEqualTo(ScrewHead.NOT_STATED);
    }

    @Test
    void aRatioIsNeededWhereTheScrewIsNotAtTheValve() {
        assertThat(Stream.of(ScrewPlace.values()).filter(ScrewPlace::needsRatio))
                .containsExactly(ScrewPlace.PUSHROD_END, ScrewPlace.THREADED_PUSHROD, ScrewPlace.FULCRUM_NUT);
    }

    @ParameterizedTest
    @EnumSource(names = {"ROCKER_TIP", "TAPPET", "FORKED_ROCKER", "BRIDGE"})
    void aScrewAtTheValveHasNoRatio(ScrewPlace place) {
        Contracts.refuses(
                () -> new Screw(place, PITCH, RATIO, ScrewHead.HEXAGON),
                "rocker ratio \"1.5\"",
                "does not apply to " + place.kind(),
                "leave it out");
    }

    @ParameterizedTest
    @ValueSource(strings = {"0", "-1.5", "0.09", "10.01"})
    void refusesRatiosOutOfRange(String ratio) {
        Ratio wrong = Ratio.parse(ratio);
        Contracts.refuses(
                () -> new Screw(ScrewPlace.PUSHROD_END, PITCH, wrong, ScrewHead.HEXAGON),
                "rocker ratio \"" + ratio + "\"",
                "0.1 to 10",
                "check the two lever arms");
        Contracts.refuses(
                () -> new Shim(ShimPlace.FOLLOWER, SIZES, wrong), "follower ratio \"" + ratio + "\"", "0.1 to 10");
        Contracts.refuses(() -> new Eccentric(CENTRES, wrong), "multiplier \"" + ratio + "\"", "0.1 to 10");
    }

    @ParameterizedTest
    @ValueSource(strings = {"0.1", "10", "1.6"})
    void takesRatiosInRange(String ratio) {
        Ratio right = Ratio.parse(ratio);
        assertThat(new Screw(ScrewPlace.FULCRUM_NUT, PITCH, right, ScrewHead.SQUARE).ratio())
                .isEqualTo(right);
        assertThat(new Shim(ShimPlace.FOLLOWER, SIZES, right).ratio()).isEqualTo(right);
        assertThat(new Eccentric(CENTRES, right).multiplier()).isEqualTo(right);
    }

    /** The lever: at the valve 1, at the pushrod the ratio, at a fulcrum that moves 1 + ratio (derived). */
    @ParameterizedTest
    @CsvSource({
        "ROCKER_TIP,       1,   1",
        "TAPPET,           1,   1",
        "FORKED_ROCKER,    1,   1",
        "BRIDGE,           1,   1",
        "PUSHROD_END,      1.5, 1.5",
        "PUSHROD_END,      1.6, 1.6",
        "THREADED_PUSHROD, 1.5, 1.5",
        "THREADED_PUSHROD, 0.8, 0.8",
        "FULCRUM_NUT,      1.5, 2.5",
        "FULCRUM_NUT,      1.6, 2.6",
        "FULCRUM_NUT,      1,   2",
    })
    void theGainFollowsFromThePlace(ScrewPlace place, String ratio, String gain) {
        Screw screw = new Screw(place, PITCH, Ratio.parse(ratio), ScrewHead.SQUARE);
        assertThat(screw.gain()).isEqualTo(Ratio.parse(gain));
        assertThat(screw.nanometresPerTurn()).isEqualTo(Ratio.parse(gain).times(Ratio.of(750_000, 1)));
    }

    @Test
    void aTurnIsExactWithThreadsAnInch() {
        // 24 threads an inch: 25.4 / 24 mm in a turn is no whole number of nanometres; times 2.5.
        Screw nut = new Screw(ScrewPlace.FULCRUM_NUT, Pitch.parse("24 tpi"), RATIO, ScrewHead.HEXAGON);
        assertThat(nut.nanometresPerTurn()).isEqualTo(Ratio.of(25_400_000, 24).times(Ratio.parse("2.5")));
    }

    /** Which way the clearance grows and shrinks: a screw or nut that comes out gives room, but for the tappet's. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            ROCKER_TIP       | screw out (anticlockwise        | screw in (clockwise
            PUSHROD_END      | screw out (anticlockwise        | screw in (clockwise
            FORKED_ROCKER    | screw out (anticlockwise        | screw in (clockwise
            FULCRUM_NUT      | nut up the stud (anticlockwise  | nut down the stud (clockwise
            THREADED_PUSHROD | make the pushrod shorter        | make the pushrod longer
            TAPPET           | make the tappet shorter         | make the tappet longer
            BRIDGE           | rocker screw out (anticlockwise | rocker screw in (clockwise
            """)
    void thePlaceSaysWhichWayTheSpannerGoes(ScrewPlace place, String growing, String shrinking) {
        assertThat(place.growing()).startsWith(growing);
        assertThat(place.shrinking()).startsWith(shrinking);
        assertThat(place.growing().contains("right-handed"))
                .as("a way round is right for one hand of thread only")
                .isEqualTo(place.growing().contains("clockwise"));
    }

    @Test
    void onlyAWedgeSharesItsKindWithAnotherTrain() {
        assertThat(trains().filter(train -> !(train instanceof Wedge)).map(ValveTrain::kind))
                .doesNotHaveDuplicates();
        assertThat(new Wedge(STEP).kind())
                .as("both are screws in a tappet")
                .isEqualTo(screw(ScrewPlace.TAPPET).kind());
    }

    // Wedges

    @ParameterizedTest
    @CsvSource({"0 mm, 0.00 mm", "-0.06 mm, -0.06 mm", "1.01 mm, 1.01 mm"})
    void refusesStepsOutOfRange(String step, String value) {
        Contracts.refuses(
                () -> new Wedge(Length.parse(step)),
                "step of a wedge screw \"" + value + "\"",
                "above 0 mm and at most 1.00 mm",
                "check the figure and its unit");
    }

    @Test
    void takesStepsAtTheEnds() {
        assertThat(new Wedge(Length.ofNanometres(1)).step()).isEqualTo(Length.ofNanometres(1));
        assertThat(new Wedge(Length.parse("1 mm")).step()).hasToString("1.00 mm");
        Contracts.equality(new Wedge(STEP), new Wedge(STEP), List.of(new Wedge(CENTRES.minus(Length.parse("1 mm")))));
    }

    // Eccentrics

    @ParameterizedTest
    @CsvSource({"0 mm, 0.00 mm", "-1 mm, -1.00 mm", "10.01 mm, 10.01 mm"})
    void refusesEccentricitiesOutOfRange(String eccentricity, String value) {
        Contracts.refuses(
                () -> new Eccentric(Length.parse(eccentricity), Ratio.ONE),
                "eccentricity \"" + value + "\"",
                "above 0 mm and at most 10.00 mm",
                "check the figure and its unit");
    }

    @Test
    void takesEccentricitiesAtTheEnds() {
        assertThat(new Eccentric(Length.ofNanometres(1), Ratio.ONE).eccentricity())
                .isEqualTo(Length.ofNanometres(1));
        assertThat(new Eccentric(Length.parse("10 mm"), Ratio.ONE).eccentricity())
                .hasToString("10.00 mm");
    }

    // Shims

    @ParameterizedTest
    @EnumSource(names = {"OVER_BUCKET", "UNDER_BUCKET", "GRADED_BUCKET"})
    void aBucketHasNoRatio(ShimPlace place) {
        assertThat(Shim.bucket(place, SIZES)).isEqualTo(new Shim(place, SIZES, Ratio.ONE));
        assertThat(Shim.bucket(place, SIZES).sizes()).isEqualTo(SIZES);
        Contracts.refuses(
                () -> new Shim(place, SIZES, RATIO),
                "follower ratio \"1.5\"",
                "does not apply to " + place.kind(),
                "leave it out");
    }

    // Equality, serialisation, nulls

    @Test
    void isEqualByItsParts() {
        Contracts.equality(
                screw(ScrewPlace.PUSHROD_END),
                screw(ScrewPlace.PUSHROD_END),
                List.of(
                        screw(ScrewPlace.FULCRUM_NUT),
                        new Screw(ScrewPlace.PUSHROD_END, Pitch.parse("1 mm"), RATIO, ScrewHead.HEXAGON),
                        new Screw(ScrewPlace.PUSHROD_END, PITCH, Ratio.parse("1.6"), ScrewHead.HEXAGON),
                        new Screw(ScrewPlace.PUSHROD_END, PITCH, RATIO, ScrewHead.SQUARE)));
        assertThat(trains().toList()).doesNotHaveDuplicates();
    }

    @ParameterizedTest
    @MethodSource("trains")
    void serialises(ValveTrain train) {
        Contracts.serialises(train);
    }

    @Test
    void refusesNull() {
        Contracts.refuseNull(
                () -> new Screw(null, PITCH, Ratio.ONE, ScrewHead.SLOT),
                () -> new Screw(ScrewPlace.TAPPET, null, Ratio.ONE, ScrewHead.SLOT),
                () -> new Screw(ScrewPlace.TAPPET, PITCH, null, ScrewHead.SLOT),
                () -> new Screw(ScrewPlace.TAPPET, PITCH, Ratio.ONE, null),
                () -> Screw.atValveTip(null),
                () -> new Wedge(null),
                () -> new Eccentric(null, Ratio.ONE),
                () -> new Eccentric(CENTRES, null),
                () -> new Shim(null, SIZES, Ratio.ONE),
                () -> new Shim(ShimPlace.FOLLOWER, null, Ratio.ONE),
                () -> new Shim(ShimPlace.FOLLOWER, SIZES, null),
                () -> Shim.bucket(null, SIZES),
                () -> new Desmodromic(null, SIZES),
                () -> new Desmodromic(SIZES, null),
                () -> new Fixed().match(null));
    }
}
