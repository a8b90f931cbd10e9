package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatNullPointerException;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lash.engine.EngineSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.Pitch;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.Trial;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import dev.lash.specs.TemplateExample.Difference;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class TemplateExampleTest {
    private static final SpecPack PACK = SpecPack.bundled();
    private static final EngineSpec SCREW = PACK.get("screw-single").spec();
    private static final EngineSpec BUCKET = PACK.get("vtwin-90-bucket").spec();
    private static final EngineSpec DESMO = PACK.get("vtwin-90-desmodromic").spec();

    /** Window 0.08 to 0.13 mm. The leaf to set to is the one owned that is nearest its middle. */
    private static TemplateExample tight(String bracket, Verdict verdict, Map<String, String> adjustment) {
        return new TemplateExample(
                ValveId.parse("1-in-1"),
                Gap.ONLY,
                List.of(Trial.parse("0.07 mm goes"), Trial.parse("0.08 mm refuses")),
                List.of(),
                null,
                List.of(Length.parse("0.12 mm")),
                LengthInterval.parse(bracket),
                verdict,
                adjustment,
                "/examples/0");
    }

    private static final Map<String, String> SET = Map.of("kind", "set-to-leaf", "leaf", "0.12 mm");

    static Stream<String> ids() {
        return PACK.search(t -> !t.spec().train().kind().equals("hydraulic")).stream()
                .map(Template::id);
    }

    @ParameterizedTest
    @MethodSource("ids")
    void everyExampleOfThePackComesOutAsItSays(String id) {
        Template template = PACK.get(id);

        assertThat(template.examples()).hasSizeGreaterThanOrEqualTo(2);
        assertThat(template.examples())
                .allSatisfy(example -> assertThat(example.run(template.spec())).isEmpty());
        assertThat(template.examples())
                .extracting(TemplateExample::verdict)
                .as("one that must not come out within")
                .anyMatch(verdict -> verdict != Verdict.WITHIN);
    }

    @Test
    void agreesWhereAllIsRight() {
        assertThat(tight("(0.07, 0.08) mm", Verdict.TIGHT, SET).run(SCREW)).isEmpty();
    }

    @Test
    void findsAWrongBracketVerdictAndAdjustment() {
        assertThat(tight("(0.07, 0.08] mm", Verdict.TIGHT, SET).run(SCREW))
                .containsExactly(new Difference("bracket", "(0.07, 0.08] mm", "(0.07, 0.08) mm"));
        assertThat(tight("(0.07, 0.08) mm", Verdict.LOOSE, SET).run(SCREW))
                .containsExactly(new Difference("verdict", "loose", "tight"));
        assertThat(tight("(0.07, 0.08) mm", Verdict.TIGHT, Map.of("kind", "leave"))
                        .run(SCREW))
                .containsExactly(new Difference("adjustment/kind", "leave", "set-to-leaf"));
        assertThat(tight("(0.07, 0.08) mm", Verdict.TIGHT, Map.of("kind", "set-to-leaf", "leaf", "0.11 mm"))
                        .run(SCREW))
                .containsExactly(new Difference("adjustment/leaf", "0.11 mm", "0.12 mm"));
    }

    @Test
    void findsAllOfThemAtOnce() {
        assertThat(tight("(0.06, 0.08) mm", Verdict.WITHIN, Map.of("kind", "leave"))
                        .run(SCREW))
                .extracting(Difference::field)
                .containsExactly("bracket", "verdict", "adjustment/kind");
    }

    @Test
    void findsAFieldThatTheAdjustmentDoesNotHave() {
        assertThat(tight("(0.07, 0.08) mm", Verdict.TIGHT, Map.of("kind", "set-to-leaf", "shim", "2.45 mm"))
                        .run(SCREW))
                .containsExactly(new Difference("adjustment/shim", "2.45 mm", "none"));
    }

    @Test
    void takesLengthsForWhatTheyAre() {
        assertThat(tight("(0.07, 0.08) mm", Verdict.TIGHT, Map.of("kind", "set-to-leaf", "leaf", "120 um"))
                        .run(SCREW))
                .isEmpty();
    }

    // Turns

    private static TemplateExample example(String id, int index) {
        return PACK.get(id).examples().get(index);
    }

    private static List<Difference> runWith(String id, ValveTrain train) {
        EngineSpec other = PACK.get(id).spec().toBuilder().train(train).build();
        return PACK.get(id).examples().stream()
                .flatMap(example -> example.run(other).stream())
                .toList();
    }

    /** The trains of the pack, each with one of its figures changed. */
    static Stream<Arguments> otherTrains() {
        List<Arguments> others = new ArrayList<>();
        for (String id : PACK.ids()) {
            Template template = PACK.get(id);
            boolean ratio = template.provenance().containsKey("/train/ratio");
            ValveTrain train = template.spec().train();
            if (train instanceof ValveTrain.Screw screw) {
                Pitch pitch = Pitch.parse(screw.pitch().equals(Pitch.parse("0.8 mm")) ? "0.7 mm" : "0.8 mm");
                others.add(Arguments.of(
                        id, "pitch", new ValveTrain.Screw(screw.place(), pitch, screw.ratio(), screw.head())));
                if (ratio) {
                    Ratio more = screw.ratio().plus(Ratio.of(1, 10));
                    others.add(Arguments.of(
                            id, "ratio", new ValveTrain.Screw(screw.place(), screw.pitch(), more, screw.head())));
                }
            } else if (train instanceof ValveTrain.Wedge) {
                others.add(Arguments.of(id, "step", new ValveTrain.Wedge(Length.parse("0.08 mm"))));
            } else if (train instanceof ValveTrain.Eccentric eccentric) {
                others.add(Arguments.of(
                        id,
                        "eccentricity",
                        new ValveTrain.Eccentric(
                                eccentric.eccentricity().plus(Length.parse("0.05 mm")), eccentric.multiplier())));
                others.add(Arguments.of(
                        id,
                        "multiplier",
                        new ValveTrain.Eccentric(
                                eccentric.eccentricity(), eccentric.multiplier().plus(Ratio.of(1, 5)))));
            }
        }
        return others.stream();
    }

    /** A figure that no example rests on is checked by nobody. */
    @ParameterizedTest(name = "{0}: {1}")
    @MethodSource("otherTrains")
    void anExampleOfThePackNoticesAnotherFigureOfATrainThatIsTurned(String id, String figure, ValveTrain other) {
        assertThat(runWith(id, other))
                .as(figure)
                .extracting(Difference::field)
                .containsAnyOf("adjustment/turn", "adjustment/certainTurn");
    }

    @Test
    void anExampleNoticesAnotherRatioOfAFollower() {
        ValveTrain.Shim train =
                (ValveTrain.Shim) PACK.get("follower-single").spec().train();

        assertThat(runWith("follower-single", new ValveTrain.Shim(train.place(), train.sizes(), Ratio.ONE)))
                .extracting(Difference::field)
                .contains("adjustment/shim");
    }

    @Test
    void findsAWrongTurn() {
        assertThat(tight("(0.07, 0.08) mm", Verdict.TIGHT, Map.of("kind", "set-to-leaf", "turn", "28.80..36.0 deg"))
                        .run(SCREW))
                .isEmpty();
        assertThat(tight("(0.07, 0.08) mm", Verdict.TIGHT, Map.of("kind", "set-to-leaf", "turn", "75 deg"))
                        .run(SCREW))
                .containsExactly(new Difference("adjustment/turn", "75 deg", "28.8..36 deg"));
    }

    /** A leaf is dragged, not counted: nothing of it is certain, and a shim is not turned at all. */
    @Test
    void findsATurnWhereThereIsNone() {
        assertThat(tight("(0.07, 0.08) mm", Verdict.TIGHT, Map.of("kind", "set-to-leaf", "certainTurn", "30 deg"))
                        .run(SCREW))
                .containsExactly(new Difference("adjustment/certainTurn", "30 deg", "none"));
        TemplateExample fit = example("vtwin-90-bucket", 1);
        TemplateExample turned = new TemplateExample(
                fit.valve(),
                fit.gap(),
                fit.trials(),
                List.of(),
                fit.shim(),
                List.of(),
                fit.bracket(),
                fit.verdict(),
                Map.of("kind", "fit-shim", "turn", "75 deg"),
                fit.pointer());

        assertThat(turned.run(BUCKET)).containsExactly(new Difference("adjustment/turn", "75 deg", "none"));
    }

    @Test
    void turnsAnEccentricOnlyFromAKnownAngle() {
        TemplateExample known = example("inline-four-eccentric", 3);
        TemplateExample unknown = new TemplateExample(
                known.valve(),
                known.gap(),
                known.trials(),
                List.of(),
                null,
                known.leaves(),
                known.bracket(),
                known.verdict(),
                known.adjustment(),
                known.pointer());
        EngineSpec engine = PACK.get("inline-four-eccentric").spec();

        assertThat(known.eccentricAngle()).isEqualTo(Ratio.ZERO);
        assertThat(known.note()).isNotBlank();
        assertThat(known.run(engine)).isEmpty();
        assertThat(unknown.eccentricAngle()).isNull();
        assertThat(unknown.note()).isEmpty();
        assertThat(unknown.run(engine))
                .containsExactly(new Difference("adjustment/turn", "1.8..2.8 deg towards smaller angles", "none"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"28.8 to 36", "36", "deg", "0.05 mm", "1..2..3 deg", "5 deg towards nothing"})
    void aTurnThatIsNoneIsRefusedWhereItStands(String turn) {
        String text = Trees.with(PackFiles.template("screw-single"), "/examples/1/adjustment/turn", "\"" + turn + "\"");
        byte[] bytes = text.getBytes(StandardCharsets.UTF_8);

        assertThatThrownBy(() -> new TemplateReader(JsonDocument.parse("screw-single.json", bytes)).read())
                .isInstanceOf(DocumentException.class)
                .hasMessageContaining("at /examples/1/adjustment/turn")
                .hasMessageContaining("is not a turn")
                .hasMessageContaining("such as \"28.8..36 deg\"")
                .hasMessageContaining("write degrees, from the least to the most");
        assertThat(Schemas.TEMPLATE.errors(text)).isNotEmpty();
    }

    @Test
    void aTurnTheWrongWayRoundIsRefused() {
        byte[] bytes = Trees.with(PackFiles.template("screw-single"), "/examples/1/adjustment/turn", "\"36..28.8 deg\"")
                .getBytes(StandardCharsets.UTF_8);

        assertThatThrownBy(() -> new TemplateReader(JsonDocument.parse("screw-single.json", bytes)).read())
                .hasMessageContaining("at /examples/1/adjustment/turn")
                .hasMessageContaining("swap the two");
    }

    @Test
    void turnsAreReadAndWritten() {
        for (String text : List.of(
                "28.8..36 deg",
                "-360 deg",
                "-16.7..-8.3 deg",
                "0 deg",
                "7.4..9.2 deg towards smaller angles",
                "1.6..1.7 deg towards larger angles")) {
            assertThat(ExampleTurn.parse(text)).hasToString(text);
        }
        assertThat(ExampleTurn.parse(" +28.80..36.0  deg ")).hasToString("28.8..36 deg");
    }

    @Test
    void findsThatTheTrialsContradictEachOther() {
        TemplateExample example = new TemplateExample(
                ValveId.parse("1-in-1"),
                Gap.ONLY,
                List.of(Trial.parse("0.08 mm refuses"), Trial.parse("0.10 mm goes")),
                List.of(),
                null,
                List.of(),
                LengthInterval.parse("(0.08, 0.10) mm"),
                Verdict.WITHIN,
                Map.of("kind", "leave"),
                "/examples/0");

        assertThat(example.run(SCREW))
                .contains(
                        new Difference("bracket", "(0.08, 0.10) mm", "none"),
                        new Difference("verdict", "within", "none"));
    }

    @Test
    void findsAValveThatTheEngineDoesNotHave() {
        TemplateExample example = PACK.get("vtwin-90-bucket").examples().get(0);
        TemplateExample other = new TemplateExample(
                ValveId.parse("3-in-1"),
                example.gap(),
                example.trials(),
                List.of(),
                null,
                List.of(),
                example.bracket(),
                example.verdict(),
                example.adjustment(),
                example.pointer());

        assertThat(other.run(BUCKET)).singleElement().satisfies(difference -> {
            assertThat(difference.field()).isEqualTo("valve");
            assertThat(difference.expected()).isEqualTo("a reading of this engine");
        });
    }

    @Test
    void isOfNoUseToAnotherEngine() {
        PACK.get("vtwin-90-bucket")
                .examples()
                .forEach(example -> assertThat(example.run(SCREW)).isNotEmpty());
        PACK.get("vtwin-90-desmodromic")
                .examples()
                .forEach(example -> assertThat(example.run(BUCKET)).isNotEmpty());
    }

    @Test
    void readsTheGapsOfADesmodromicValve() {
        TemplateExample opener = PACK.get("vtwin-90-desmodromic").examples().get(0);

        assertThat(opener.gap()).isEqualTo(Gap.OPENER);
        assertThat(opener.run(DESMO)).isEmpty();
        assertThat(PACK.get("vtwin-90-desmodromic").examples())
                .filteredOn(example -> example.gap() == Gap.CLOSER)
                .extracting(TemplateExample::verdict)
                .containsExactly(Verdict.WITHIN, Verdict.LOOSE);
    }

    @Test
    void keepsItsOwnCopiesAndRefusesNull() {
        TemplateExample example = tight("(0.07, 0.08) mm", Verdict.TIGHT, SET);

        assertThat(example.trials()).isUnmodifiable();
        assertThat(example.adjustment()).isUnmodifiable();
        assertThatNullPointerException().isThrownBy(() -> tight("(0.07, 0.08) mm", null, SET));
        assertThatNullPointerException().isThrownBy(() -> tight("(0.07, 0.08) mm", Verdict.TIGHT, null));
        assertThatNullPointerException()
                .isThrownBy(() -> new TemplateExample(
                        example.valve(),
                        example.gap(),
                        example.trials(),
                        List.of(),
                        null,
                        null,
                        List.of(),
                        example.bracket(),
                        example.verdict(),
                        example.adjustment(),
                        null,
                        ""));
        assertThatNullPointerException().isThrownBy(() -> new Difference(null, "", ""));
        assertThatNullPointerException().isThrownBy(() -> new Difference("", null, ""));
        assertThatNullPointerException().isThrownBy(() -> new Difference("", "", null));
    }

    @Test
    void serialises() throws IOException, ClassNotFoundException {
        for (TemplateExample example : List.of(example("vtwin-90-bucket", 1), example("inline-four-eccentric", 4))) {
            assertThat(TemplateTest.copied(example)).isEqualTo(example).hasSameHashCodeAs(example);
        }
    }
}
