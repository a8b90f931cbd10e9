package dev.lash.examples;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.check.CheckSheet;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.GaugeSet;
import dev.lash.measure.LengthUnit;
import dev.lash.specs.SpecPack;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Runs {@code lash plan} as the shell would; what it refuses is with {@code crank} in {@link CrankCommandTest}. */
class PlanCommandTest {
    private static final CheckSheet TWIN = WalkRun.twin(WalkRun.LEAVES);

    private static String flowing(ProgramRun run) {
        return run.out().replaceAll("\\s+", " ");
    }

    @Test
    void cardHasItsSectionsInTheOrderOfTheJob() {
        ProgramRun run = ProgramRun.of(TWIN, "plan", "-");
        assertThat(run.code()).isZero();
        assertThat(run.err()).isEmpty();
        assertThat(run.out())
                .startsWith("Pre-job card: Hill riding school, practice bike 2, ")
                .containsSubsequence(
                        "intake window 0.08..0.13 mm, from the school's workshop manual, page 3-8",
                        "exhaust window 0.17..0.22 mm",
                        "\nCautions\n- ",
                        "\nAt hand\n- ",
                        "\nLeaves to lay out\n- ",
                        "\nWhat the leaves can decide\n- ",
                        "\nOrder of work\n1. ",
                        "\nWrite down\n- ");
    }

    @Test
    void cardTellsTheLeavesAndWhatTheyDecide() {
        String card = ProgramRun.of(TWIN, "plan", "-").out();
        assertThat(card)
                .contains("Leaves to lay out\n- 0.08, 0.10, 0.12, 0.13, 0.17, 0.20, 0.22 (mm)\n")
                .contains("- intake, simple rule: every clearance\n")
                .contains("- exhaust, simple rule: every clearance\n");
        CheckSheet lacking = WalkRun.twin(GaugeSet.of(LengthUnit.MILLIMETRE, "0.08", "0.13", "0.17", "0.25"));
        assertThat(ProgramRun.of(lacking, "plan", "-").out()).contains("- exhaust, simple rule: not all; ", "add 0.22");
        CheckSheet useless = WalkRun.twin(GaugeSet.of(LengthUnit.MILLIMETRE, "2.00"));
        assertThat(ProgramRun.of(useless, "plan", "-").out()).contains("Leaves to lay out\n- none of this set helps");
    }

    @Test
    void cardGoesFromStopToStop() {
        assertThat(flowing(ProgramRun.of(TWIN, "plan", "-")))
                .containsSubsequence(
                        "3. Find number 1's compression TDC: TDC comes round twice, on compression its followers are slack,",
                        "4. Stop 1. Stay with number 1 on compression. TDC mark of number 1, on compression: its followers are"
                                + " slack; number 2, on overlap: its followers both move as the crank is turned on through TDC.",
                        "See each follower slack, the lobe pointing away, then measure 1-in-1, 1-ex-1.",
                        "5. Stop 2. From number 1 on compression, turn on 360 degrees. ",
                        "then measure 2-in-1, 2-ex-1.",
                        "6. The engine's cam timing is not given: a mild road cam is assumed.",
                        "7. Turn by hand, in the maker's direction. Past a stop go round again, never back",
                        "8. Measure every valve before anything is adjusted",
                        "9. Turn the engine over by hand twice and measure again",
                        "10. Nothing left inside; gaskets, covers and torque by the manual");
    }

    @Test
    void cardTakesTheStopsThatCrankTakes() {
        String card = flowing(ProgramRun.of(TWIN, "plan", "--at", "any", "-"));
        assertThat(card).contains("turn on 245 degrees. 245 degrees after number 1's compression TDC, by degree wheel");
        assertThat(flowing(ProgramRun.of(TWIN, "plan", "--at", "tdc", "-")))
                .isEqualTo(flowing(ProgramRun.of(TWIN, "plan", "-")));
    }

    @Test
    void typicalWindowsAreCalledTypical() {
        CheckSheet sheet = CheckSheet.builder(
                        SpecPack.bundled().get("screw-twin").spec(), WalkRun.LEAVES)
                .build();
        assertThat(flowing(ProgramRun.of(sheet, "plan", "-")))
                .contains("where the manual gives the windows: those here are typical values, not confirmed")
                .contains("Leans on typical figures, not confirmed from the manual - ")
                .contains("pitch 0.75 mm, ")
                .contains("(template screw-twin, revision "
                        + SpecPack.bundled().get("screw-twin").revision() + ")");
    }

    static Stream<CheckSheet> everyTemplate() {
        SpecPack pack = SpecPack.bundled();
        return pack.ids().stream()
                .map(pack::get)
                .map(template -> CheckSheet.builder(template.spec(), WalkRun.LEAVES)
                        .machine("Hill riding school, " + template.id())
                        .build());
    }

    @ParameterizedTest
    @MethodSource("everyTemplate")
    void cardOfEveryTemplateIsOnePlainPage(CheckSheet sheet) {
        ProgramRun run = ProgramRun.of(sheet, "plan", "-");
        assertThat(run.code()).isZero();
        assertThat(run.out().lines())
                .hasSizeLessThanOrEqualTo(110)
                .allMatch(line -> line.length() <= 80)
                .noneMatch(line -> line.endsWith(" "));
        if (sheet.engine().train() instanceof ValveTrain.Hydraulic) {
            assertThat(run.out()).contains("hydraulic").doesNotContain("window ");
            return;
        }
        assertThat(sheet.engine().valves())
                .allSatisfy(valve -> assertThat(run.out()).contains(valve.toString()));
        String gap = sheet.engine().train() instanceof ValveTrain.Desmodromic ? " opener" : "";
        assertThat(List.of(ValveRole.values()))
                .allSatisfy(role -> assertThat(run.out()).contains(role.word() + gap + " window "));
    }
}
