package dev.lash.check;

import static dev.lash.testing.Readings.guarded;
import static dev.lash.testing.Readings.leaves;
import static dev.lash.testing.Readings.mm;
import static dev.lash.testing.Readings.window;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.Adjuster;
import dev.lash.adjust.Adjustment.SetToLeaf;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Pitch;
import dev.lash.engine.ScrewHead;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.ValveTrain.ScrewPlace;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.ReadingRule;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.Ratio;
import dev.lash.measure.Temperature;
import dev.lash.measure.Usage;
import dev.lash.testing.Contracts;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class CheckReportTest {
    private static List<FindingCode> codes(CheckSheet sheet) {
        return CheckReport.of(sheet).findings().stream().map(Finding::code).toList();
    }

    private static Finding only(CheckSheet sheet, FindingCode code) {
        List<Finding> found = CheckReport.of(sheet).findings().stream()
                .filter(f -> f.code() == code)
                .toList();
        assertThat(found).hasSize(1);
        assertThat(List.of(found.get(0).problem(), found.get(0).mend())).noneMatch(String::isBlank);
        return found.get(0);
    }

    private static CheckSheet.Builder sheet(EngineSpec engine) {
        return CheckSheet.builder(engine, School.GENERATOR_LEAVES)
                .valve(ValveReading.of("1-in-1", "0.07 mm drags"))
                .valve(ValveReading.of("1-ex-1", "0.15 mm drags"))
                .valve(ValveReading.of("2-in-1", "0.07 mm drags"))
                .valve(ValveReading.of("2-ex-1", "0.15 mm drags"));
    }

    private static CheckSheet.Builder sheet() {
        return sheet(School.generatorEngine().build()).engineTemperature(Temperature.ofCelsius(14));
    }

    // ---- the whole

    @Test
    void everyValveOfTheSheetInItsOrder() {
        CheckReport report = CheckReport.of(School.roadTrainer());
        assertThat(report.valves())
                .extracting(ValveCheck::reading)
                .containsExactlyElementsOf(School.roadTrainer().valves());
        assertThat(report.valves()).isUnmodifiable();
        assertThat(report.findings()).isUnmodifiable();
        assertThat(report.cautions()).isUnmodifiable();
    }

    @Test
    void theCallersAdjusterIsUsed() {
        CheckReport report =
                CheckReport.of(School.generator(), Adjuster.withDefaults().withAim(Ratio.ZERO));
        assertThat(report.valves().get(0).adjustment())
                .hasValueSatisfying(a -> assertThat(((SetToLeaf) a).leaf()).isEqualTo(LeafStack.parse("0.05 mm")));
    }

    @Test
    void aSheetWithoutReadingsIsForPlanning() {
        CheckReport report = CheckReport.of(School.generatorSheet().build());
        assertThat(report.valves()).isEmpty();
        assertThat(report.findings()).isEmpty();
        assertThat(report.cautions()).isNotEmpty();
    }

    @Test
    void oneContradictionDoesNotStopTheOthers() {
        CheckReport report = CheckReport.of(School.generatorSheet()
                .valve(ValveReading.of("1-in-1", "0.07 mm goes", "0.05 mm refuses"))
                .valve(ValveReading.of("1-ex-1", "0.15 mm drags"))
                .valve(ValveReading.of("2-in-1", "0.03 mm goes", "0.05 mm refuses"))
                .valve(ValveReading.of("2-ex-1", "0.20 mm goes", "0.25 mm refuses"))
                .build());
        assertThat(report.valves())
                .extracting(v -> v.verdict().map(Verdict::word).orElse("none"))
                .containsExactly("none", "within", "tight", "loose");
        assertThat(report.hasErrors()).isTrue();
        assertThat(report.findings()).hasSize(1);
    }

    @Test
    void doubtsAndVerdictsAreNoErrors() {
        CheckReport report = CheckReport.of(
                sheet().engineTemperature(Temperature.ofCelsius(31)).build());
        assertThat(report.findings()).isNotEmpty();
        assertThat(report.hasErrors()).isFalse();
        assertThat(CheckReport.of(School.generator()).hasErrors()).isFalse();
    }

    @Test
    void findingsOfTheEngineComeFirstThenValveByValve() {
        CheckReport report = CheckReport.of(School.generatorSheet()
                .engineTemperature(Temperature.ofCelsius(31))
                .valve(ValveReading.of("2-in-1", "0.03 mm refuses"))
                .valve(ValveReading.of("1-in-1", "0.08 mm drags"))
                .build());
        assertThat(report.findings())
                .extracting(Finding::place)
                .containsExactly("engine", "engine", "2-in-1", "1-in-1");
    }

    // ---- the engine's temperature

    @ParameterizedTest
    @CsvSource({
        "30, ",
        "31, ENGINE_TOO_WARM",
        "10, ",
        "9,  ENGINE_TOO_COLD",
    })
    void theConditionHasBothItsEnds(int celsius, FindingCode expected) {
        EngineSpec engine =
                School.generatorEngine().coldest(Temperature.ofCelsius(10)).build();
        assertThat(codes(sheet(engine)
                        .engineTemperature(Temperature.ofCelsius(celsius))
                        .build()))
                .isEqualTo(expected == null ? List.of() : List.of(expected));
    }

    @Test
    void aWarmEngineIsJudgedWithThatDoubtSaid() {
        CheckSheet warm = sheet().engineTemperature(Temperature.ofCelsius(41)).build();
        Finding finding = only(warm, FindingCode.ENGINE_TOO_WARM);
        assertThat(finding.severity()).isEqualTo(Severity.DOUBT);
        assertThat(finding.place()).isEqualTo("engine");
        assertThat(finding.problem()).contains("41 °C", "at most 30 °C");
        assertThat(finding.mend()).contains("in doubt");
        assertThat(CheckReport.of(warm).valves())
                .allSatisfy(v -> assertThat(v.verdict()).contains(Verdict.WITHIN));
    }

    @Test
    void scalesAreCompared() {
        assertThat(codes(sheet().engineTemperature(Temperature.parse("86 °F")).build()))
                .isEmpty();
        assertThat(only(sheet().engineTemperature(Temperature.parse("86.1 °F")).build(), FindingCode.ENGINE_TOO_WARM)
                        .value())
                .isEqualTo("86.1 °F");
    }

    @Test
    void aMissingTemperatureIsADoubtOnlyWhereTheMakerGivesOne() {
        Finding finding = only(sheet(School.generatorEngine().build()).build(), FindingCode.TEMPERATURE_NOT_RECORDED);
        assertThat(finding.severity()).isEqualTo(Severity.DOUBT);
        assertThat(finding.expected()).isEqualTo("at most 30 °C");
        assertThat(only(
                                sheet(School.generatorEngine()
                                                .coldest(Temperature.ofCelsius(10))
                                                .build())
                                        .build(),
                                FindingCode.TEMPERATURE_NOT_RECORDED)
                        .expected())
                .isEqualTo("at least 10 °C, at most 30 °C");
        EngineSpec any = EngineSpec.builder("school-any", "Any temperature")
                .valves("1-in-1")
                .train(new ValveTrain.Fixed())
                .clearance(
                        ValveRole.INTAKE, new ClearanceSpec(window("0.05..0.09 mm"), window("0.05..0.09 mm"), "manual"))
                .build();
        assertThat(codes(CheckSheet.builder(any, School.GENERATOR_LEAVES)
                        .valve(ValveReading.of("1-in-1", "0.07 mm drags"))
                        .build()))
                .isEmpty();
    }

    // ---- rule, windows, missing valves

    @Test
    void aGuardedRuleThatGuardsNothingIsSaid() {
        assertThat(only(sheet().rule(guarded("0.00", "0.00")).build(), FindingCode.NOTHING_GUARDED)
                        .place())
                .isEqualTo("gauges");
        assertThat(codes(sheet().rule(guarded("0.003", "0.00")).build())).isEmpty();
        assertThat(codes(sheet().rule(guarded("0.00", "0.002")).build())).isEmpty();
        assertThat(codes(sheet().rule(ReadingRule.simple()).build())).isEmpty();
    }

    /** JIS B 7524:2008, as quoted: leaves within 0.003 to 0.010 mm, by thickness. */
    @ParameterizedTest
    @CsvSource({"0.000, false", "0.002, true", "0.003, false", "0.010, false", "0.011, true"})
    void aToleranceThatNoLeafHasIsSaid(String tolerance, boolean unusual) {
        CheckSheet sheet = CheckSheet.builder(
                        School.generatorEngine().build(),
                        School.GENERATOR_LEAVES.withTolerance(mm(tolerance), Length.ZERO))
                .engineTemperature(Temperature.ofCelsius(14))
                .build();
        assertThat(codes(sheet)).isEqualTo(unusual ? List.of(FindingCode.TOLERANCE_UNUSUAL) : List.of());
        if (unusual) {
            Finding finding = only(sheet, FindingCode.TOLERANCE_UNUSUAL);
            assertThat(finding.place()).isEqualTo("gauges");
            assertThat(finding.value()).isEqualTo(mm(tolerance).toString());
        }
    }

    /** Windows of the pack's templates are all usual; these have slipped. */
    @ParameterizedTest
    @CsvSource({
        "1.0..2.0 mm, no usual clearance",
        "0.010..0.020 mm, no usual clearance",
        "0.02..0.18 mm, ends more than 6 times apart",
        "0.33..0.38 mm, five times or more off",
        "0.60..0.80 mm, five times or more off"
    })
    void aWindowInWhichADecimalMayHaveSlippedIsSaid(String exhaust, String why) {
        EngineSpec engine = School.generatorEngine()
                .window(ValveRole.EXHAUST, window(exhaust))
                .build();
        Finding finding =
                CheckReport.of(sheet(engine)
                                .engineTemperature(Temperature.ofCelsius(14))
                                .build())
                        .findings()
                        .stream()
                        .filter(f -> f.code() == FindingCode.WINDOW_UNUSUAL)
                        .findFirst()
                        .orElseThrow();
        assertThat(finding.severity()).isEqualTo(Severity.DOUBT);
        assertThat(finding.problem()).contains("exhaust window").contains(why);
        assertThat(finding.value()).isEqualTo(window(exhaust).toString());
    }

    /** The generator's intake has 0.05..0.09 mm. */
    @ParameterizedTest
    @CsvSource({
        "0.04..0.08 mm, true",
        "0.04..0.12 mm, true",
        "0.06..0.08 mm, true",
        "0.05..0.09 mm, false",
        "0.06..0.10 mm, false"
    })
    void anExhaustWindowTighterThanTheIntakesIsSaidUnlessBothWereReadInTheManual(String exhaust, boolean said) {
        CheckSheet typical = sheet(School.generatorEngine()
                        .clearance(
                                ValveRole.INTAKE,
                                new ClearanceSpec(window("0.05..0.09 mm"), window("0.05..0.09 mm"), "page 3"))
                        .window(ValveRole.EXHAUST, window(exhaust))
                        .build())
                .engineTemperature(Temperature.ofCelsius(14))
                .build();
        CheckSheet read = sheet(School.generatorEngine()
                        .clearance(
                                ValveRole.INTAKE,
                                new ClearanceSpec(window("0.05..0.09 mm"), window("0.05..0.09 mm"), "page 3"))
                        .clearance(ValveRole.EXHAUST, new ClearanceSpec(window(exhaust), window(exhaust), "page 3"))
                        .build())
                .engineTemperature(Temperature.ofCelsius(14))
                .build();

        assertThat(codes(typical).contains(FindingCode.WINDOW_UNUSUAL)).isEqualTo(said);
        assertThat(codes(read)).doesNotContain(FindingCode.WINDOW_UNUSUAL);
        if (said) {
            assertThat(CheckReport.of(typical).findings())
                    .filteredOn(f -> f.code() == FindingCode.WINDOW_UNUSUAL)
                    .singleElement()
                    .satisfies(
                            f -> assertThat(f.problem()).contains("tighter than the intake's", "sides may be swapped"));
        }
    }

    @Test
    void eachFigureThatNoMakerGivesIsADoubt() {
        EngineSpec engine = School.generatorEngine()
                .train(new ValveTrain.Screw(
                        ScrewPlace.PUSHROD_END, Pitch.parse("5 mm"), Ratio.parse("9"), ScrewHead.SQUARE))
                .warmest(Temperature.ofCelsius(350))
                .checkInterval(Usage.parse("30000 h"))
                .build();
        List<Finding> odd =
                CheckReport.of(sheet(engine)
                                .engineTemperature(Temperature.ofCelsius(14))
                                .build())
                        .findings()
                        .stream()
                        .filter(f -> f.code() == FindingCode.FIGURE_UNUSUAL)
                        .toList();
        assertThat(odd).extracting(Finding::value).containsExactly("5.00 mm", "9", "350 °C", "30000 h");
        assertThat(odd)
                .allMatch(f -> f.severity() == Severity.DOUBT && f.place().equals("engine"));
        assertThat(odd.get(0).problem())
                .isEqualTo(
                        "pitch 5.00 mm is not the pitch of a standard thread: a decimal or the unit may have slipped");
        assertThat(odd.get(0).mend()).contains("check the thread", "manual");
    }

    @Test
    void windowsThatTheShopHasNotConfirmedAreNoted() {
        EngineSpec engine = School.generatorEngine()
                .window(ValveRole.EXHAUST, window("0.12..0.18 mm"))
                .build();
        Finding finding = only(
                sheet(engine).engineTemperature(Temperature.ofCelsius(14)).build(), FindingCode.WINDOW_NOT_CONFIRMED);
        assertThat(finding.severity()).isEqualTo(Severity.NOTE);
        assertThat(finding.problem()).contains("exhaust", "0.12..0.18 mm", "typical");
    }

    @Test
    void aWindowThatNoValveUsesIsNotNoted() {
        EngineSpec engine = EngineSpec.builder("school-half", "Intake only")
                .valves("1-in-1")
                .train(new ValveTrain.Fixed())
                .clearance(
                        ValveRole.INTAKE, new ClearanceSpec(window("0.05..0.09 mm"), window("0.05..0.09 mm"), "manual"))
                .window(ValveRole.EXHAUST, window("0.12..0.18 mm"))
                .build();
        assertThat(codes(CheckSheet.builder(engine, School.GENERATOR_LEAVES).build()))
                .isEmpty();
    }

    @Test
    void valvesThatAreNotOnTheSheetAreNamed() {
        CheckSheet half = School.generatorSheet()
                .valve(ValveReading.of("2-in-1", "0.07 mm drags"))
                .valve(ValveReading.of("1-in-1", "0.07 mm drags"))
                .build();
        Finding finding = only(half, FindingCode.NOT_MEASURED);
        assertThat(finding.place()).isEqualTo("engine");
        assertThat(finding.value()).isEqualTo("1-ex-1, 2-ex-1");
        assertThat(finding.severity()).isEqualTo(Severity.NOTE);
    }

    // ---- a forked rocker: one arm over two valves

    private static EngineSpec forked(ScrewPlace place) {
        return School.generatorEngine()
                .valves("1-in-1", "1-in-2", "1-ex-1", "1-ex-2", "2-in-1", "2-in-2")
                .train(new ValveTrain.Screw(place, Pitch.parse("0.75 mm"), Ratio.ONE, ScrewHead.NOT_STATED))
                .build();
    }

    private static List<Finding> carried(ScrewPlace place, ValveReading... readings) {
        CheckSheet.Builder sheet =
                CheckSheet.builder(forked(place), School.GENERATOR_LEAVES).engineTemperature(Temperature.ofCelsius(14));
        for (ValveReading reading : readings) {
            sheet.valve(reading);
        }
        return CheckReport.of(sheet.build()).findings().stream()
                .filter(f -> f.code() == FindingCode.FORKED_ROCKER)
                .toList();
    }

    @Test
    void theLooserOfTwoValvesOnOneArmIsSuspect() {
        List<Finding> found = carried(
                ScrewPlace.FORKED_ROCKER,
                ValveReading.of("1-in-1", "0.05 mm goes", "0.07 mm refuses"),
                ValveReading.of("1-in-2", "0.09 mm goes", "0.12 mm refuses"));
        assertThat(found).singleElement().satisfies(f -> {
            assertThat(f.place()).isEqualTo("1-in-2");
            assertThat(f.severity()).isEqualTo(Severity.DOUBT);
            assertThat(f.problem()).contains("tighter", "carries the arm", "(0.09, 0.12) mm");
            assertThat(f.mend()).containsSubsequence("set the tighter valve first", "read both again");
        });
        assertThat(carried(
                        ScrewPlace.FORKED_ROCKER,
                        ValveReading.of("1-ex-2", "0.15 mm drags"),
                        ValveReading.of("1-ex-1", "0.16 mm drags")))
                .extracting(Finding::place)
                .containsExactly("1-ex-1");
    }

    @Test
    void aValveWithoutClearanceCarriesTheArmToo() {
        assertThat(carried(
                        ScrewPlace.FORKED_ROCKER,
                        ValveReading.of("1-in-1", "0.03 mm refuses"),
                        ValveReading.of("1-in-2", "0.05 mm goes", "0.07 mm refuses")))
                .extracting(Finding::place)
                .containsExactly("1-in-2");
    }

    @Test
    void valvesThatMayBeAlikeAreNotSuspect() {
        assertThat(carried(
                        ScrewPlace.FORKED_ROCKER,
                        ValveReading.of("1-in-1", "0.05 mm goes", "0.09 mm refuses"),
                        ValveReading.of("1-in-2", "0.07 mm goes", "0.12 mm refuses")))
                .as("(0.05, 0.09) and (0.07, 0.12) overlap")
                .isEmpty();
        assertThat(carried(
                        ScrewPlace.FORKED_ROCKER,
                        ValveReading.of("1-in-1", "0.07 mm drags"),
                        ValveReading.of("1-in-2", "0.07 mm drags")))
                .isEmpty();
    }

    @Test
    void onlyValvesOfOneRoleAndCylinderShareAnArm() {
        assertThat(carried(
                        ScrewPlace.FORKED_ROCKER,
                        ValveReading.of("1-in-1", "0.05 mm drags"),
                        ValveReading.of("1-ex-1", "0.15 mm drags"),
                        ValveReading.of("2-in-1", "0.09 mm drags")))
                .isEmpty();
        assertThat(carried(
                        ScrewPlace.FORKED_ROCKER,
                        ValveReading.of("1-in-1", "0.05 mm goes", "0.04 mm refuses"),
                        ValveReading.of("1-in-2", "0.09 mm drags")))
                .as("a contradiction says nothing of its neighbour")
                .isEmpty();
    }

    @ParameterizedTest
    @EnumSource(
            value = ScrewPlace.class,
            names = {"ROCKER_TIP", "TAPPET", "BRIDGE"})
    void otherScrewsAreReadEachForItself(ScrewPlace place) {
        assertThat(carried(
                        place, ValveReading.of("1-in-1", "0.05 mm drags"), ValveReading.of("1-in-2", "0.09 mm drags")))
                .isEmpty();
    }

    // ---- two gaps a valve

    private static EngineSpec.Builder twoGaps() {
        ShimRange sizes = ShimRange.parse("2.40..2.60 mm step 0.01 mm");
        return EngineSpec.builder("school-hill", "Hill bike, opened and closed by cams")
                .valves("1-in-1", "1-ex-1")
                .train(new ValveTrain.Desmodromic(sizes, sizes))
                .window(ValveRole.INTAKE, window("0.05..0.12 mm"))
                .window(ValveRole.EXHAUST, window("0.05..0.15 mm"));
    }

    @Test
    void everyGapIsMissedThatIsNotOnTheSheet() {
        CheckSheet sheet = CheckSheet.builder(twoGaps().build(), leaves("0.10"))
                .valve(ValveReading.of("1-in-1", "0.10 mm drags").asOpener(List.of()))
                .build();
        assertThat(only(sheet, FindingCode.NOT_MEASURED).value())
                .isEqualTo("1-in-1 closer, 1-ex-1 opener, 1-ex-1 closer");
    }

    @Test
    void everyWindowOfAGapIsNotedUntilItIsConfirmed() {
        EngineSpec engine = twoGaps()
                .closerClearance(
                        ValveRole.INTAKE, new ClearanceSpec(window("0.00..0.05 mm"), window("0.00..0.05 mm"), "manual"))
                .closerClearance(ValveRole.EXHAUST, ClearanceSpec.typical(window("0.00..0.06 mm")))
                .build();
        assertThat(CheckReport.of(CheckSheet.builder(engine, leaves("0.10")).build())
                        .findings())
                .extracting(Finding::problem)
                .satisfiesExactly(
                        p -> assertThat(p).startsWith("intake opener window 0.05..0.12 mm"),
                        p -> assertThat(p).startsWith("exhaust opener window 0.05..0.15 mm"),
                        p -> assertThat(p).startsWith("exhaust closer window 0.00..0.06 mm"));
    }

    // ---- hydraulic

    private static EngineSpec hydraulic() {
        return EngineSpec.builder("school-van", "Horse van")
                .valves("1-in-1", "1-ex-1")
                .train(new ValveTrain.Hydraulic())
                .build();
    }

    @Test
    void leavesOfferedToHydraulicLiftersAreADoubt() {
        GaugeSet gauges = leaves("0.05");
        CheckSheet offered = CheckSheet.builder(hydraulic(), gauges)
                .valve(ValveReading.of("1-in-1", "0.05 mm goes"))
                .build();
        assertThat(codes(offered)).containsExactly(FindingCode.NO_CLEARANCE_IN_THIS_TRAIN);
        assertThat(only(offered, FindingCode.NO_CLEARANCE_IN_THIS_TRAIN).problem())
                .contains("hydraulic", "no clearance");
        assertThat(codes(CheckSheet.builder(hydraulic(), gauges)
                        .valve(ValveReading.of("1-in-1"))
                        .build()))
                .isEmpty();
    }

    // ---- cautions

    @Test
    void shimsOfEitherGapAreMeasuredToo() {
        assertThat(CheckReport.of(CheckSheet.builder(twoGaps().build(), leaves("0.10"))
                                .build())
                        .cautions())
                .anyMatch(c -> c.contains("micrometer"))
                .noneMatch(c -> c.contains("Hold the screw"));
    }

    @Test
    void cautionsFollowTheTrainAndTheEnginesOwnComeLast() {
        List<String> screw = CheckReport.of(School.generator()).cautions();
        List<String> shim = CheckReport.of(School.roadTrainer()).cautions();
        assertThat(screw).anyMatch(c -> c.contains("Hold the screw")).noneMatch(c -> c.contains("micrometer"));
        assertThat(shim)
                .anyMatch(c -> c.contains("micrometer") && c.contains("eye protection"))
                .noneMatch(c -> c.contains("Hold the screw"));
        EngineSpec own = School.generatorEngine()
                .cautions(List.of("Chock the generator's trailer."))
                .build();
        assertThat(CheckReport.of(sheet(own).build()).cautions()).endsWith("Chock the generator's trailer.");
    }

    // ---- serialisation, nulls

    @Test
    void survivesSerialisation() {
        CheckReport report = CheckReport.of(School.hillBike());
        Contracts.serialises(report);
        assertThat(Contracts.copied(report).hasErrors()).isTrue();
    }

    @Test
    void theSameSheetGivesTheSameReport() {
        Contracts.equality(
                CheckReport.of(School.generator()),
                CheckReport.of(School.generator()),
                List.of(
                        CheckReport.of(
                                School.generator(), Adjuster.withDefaults().withAim(Ratio.ZERO)),
                        CheckReport.of(School.roadTrainer())));
    }

    @Test
    void nullIsRefused() {
        Contracts.refuseNull(
                () -> CheckReport.of(null),
                () -> CheckReport.of(null, Adjuster.withDefaults()),
                () -> CheckReport.of(School.generator(), null),
                () -> new CheckReport(School.generator(), null, List.of(), List.of(), null, Map.of()),
                () -> new CheckReport(School.generator(), List.of(), null, List.of(), null, Map.of()),
                () -> new CheckReport(School.generator(), List.of(), List.of(), null, null, Map.of()),
                () -> new CheckReport(null, List.of(), List.of(), List.of(), null, Map.of()));
    }
}
