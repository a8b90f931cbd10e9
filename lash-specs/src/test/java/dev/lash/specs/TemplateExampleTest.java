package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatNullPointerException;

import dev.lash.engine.EngineSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.gauge.Trial;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.specs.TemplateExample.Difference;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

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
    }

    @Test
    void keepsItsOwnCopiesAndRefusesNull() {
        TemplateExample example = tight("(0.07, 0.08) mm", Verdict.TIGHT, SET);

        assertThat(example.trials()).isUnmodifiable();
        assertThat(example.adjustment()).isUnmodifiable();
        assertThatNullPointerException().isThrownBy(() -> tight("(0.07, 0.08) mm", null, SET));
        assertThatNullPointerException().isThrownBy(() -> tight("(0.07, 0.08) mm", Verdict.TIGHT, null));
        assertThatNullPointerException().isThrownBy(() -> new Difference(null, "", ""));
        assertThatNullPointerException().isThrownBy(() -> new Difference("", null, ""));
        assertThatNullPointerException().isThrownBy(() -> new Difference("", "", null));
    }

    @Test
    void serialises() throws IOException, ClassNotFoundException {
        TemplateExample example = PACK.get("vtwin-90-bucket").examples().get(1);

        assertThat(TemplateTest.copied(example)).isEqualTo(example).hasSameHashCodeAs(example);
    }
}
