package dev.lash.check;

import static dev.lash.testing.Readings.leaves;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.engine.CamTiming;
import dev.lash.engine.CrankPlanner;
import dev.lash.engine.Decompressor;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.ReadingRule;
import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import dev.lash.measure.Temperature;
import dev.lash.plan.LeafPlanner;
import dev.lash.plan.PlanGoal;
import dev.lash.plan.SetCheck;
import dev.lash.testing.Contracts;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class CheckPlanTest {
    private static final EngineSpec GENERATOR = School.generatorEngine().build();
    private static final CheckPlan CARD = card(GENERATOR);

    private static CheckPlan card(EngineSpec engine) {
        return card(engine, CrankPlanner.atTdcMarks());
    }

    private static CheckPlan card(EngineSpec engine, CrankPlanner crank) {
        return CheckPlan.of(engine, School.GENERATOR_LEAVES, LeafPlanner.withDefaults(), crank);
    }

    private static String stepWith(CheckPlan card, String words) {
        return card.steps().stream()
                .filter(step -> step.contains(words))
                .findFirst()
                .orElseThrow();
    }

    // Parts

    @Test
    void holdsWhatItWasMadeFrom() {
        assertThat(CARD.engine()).isEqualTo(GENERATOR);
        assertThat(CARD.gauges()).isEqualTo(School.GENERATOR_LEAVES);
        assertThat(CARD.crank()).isEqualTo(CrankPlanner.atTdcMarks().plan(GENERATOR));
        assertThat(CARD.setCheck())
                .isEqualTo(SetCheck.of(GENERATOR, School.GENERATOR_LEAVES, LeafPlanner.withDefaults()));
        assertThat(CARD.cautions()).isEqualTo(Cautions.of(GENERATOR)).isNotEmpty();
    }

    // Leaves

    /** To measure what the plans of trials may offer, to set every leaf inside a window. */
    @Test
    void laysOutTheLeavesToMeasureAndToSetWith() {
        assertThat(CARD.layOut())
                .isSorted()
                .doesNotHaveDuplicates()
                .containsAll(List.of(LeafStack.parse("0.07 mm"), LeafStack.parse("0.15 mm")))
                .doesNotContain(LeafStack.parse("0.30 mm"));
        assertThat(CARD.setCheck().windows())
                .allSatisfy(window ->
                        assertThat(CARD.layOut()).containsAll(window.plan().offers()));
    }

    /** Allowances move what a leaf decides: what is laid out must suffice by the rule that the sheet is read by. */
    @Test
    void laysOutWhatTheRuleOfTheSheetAsksFor() {
        ReadingRule rule = ReadingRule.guarded(Length.ofMillimetres("0.002"), Length.ofMillimetres("0.012"));
        GaugeSet leaves = GaugeSet.of(
                LengthUnit.MILLIMETRE,
                IntStream.rangeClosed(13, 34).mapToObj(i -> "0." + i).toArray(String[]::new));
        EngineSpec trainer = School.roadTrainerEngine();
        CheckSheet sheet = CheckSheet.builder(trainer, leaves).rule(rule).build();

        CheckPlan card = CheckPlan.of(sheet, LeafPlanner.withDefaults(), CrankPlanner.atTdcMarks());

        List<LeafStack> asked = Stream.of(ValveRole.values())
                .map(role -> PlanGoal.verdict(
                        trainer.findClearance(role).orElseThrow().check()))
                .flatMap(goal -> LeafPlanner.withDefaults().plan(leaves, rule, goal).offers().stream())
                .distinct()
                .toList();
        assertThat(card.layOut()).containsAll(asked);
        // the card's check of the set counts no hand
        assertThat(card.setCheck().windows().stream().flatMap(window -> window.plan().offers().stream()))
                .matches(offers -> !offers.containsAll(asked));
    }

    @Test
    void laysOutNoSettingLeavesForShims() {
        CheckPlan card = card(School.roadTrainerEngine());
        List<LeafStack> offers = card.setCheck().windows().stream()
                .flatMap(window -> window.plan().offers().stream())
                .distinct()
                .sorted()
                .toList();
        assertThat(card.layOut()).isEqualTo(offers);
    }

    @Test
    void laysOutNothingThatDoesNotHelp() {
        CheckPlan card = CheckPlan.of(GENERATOR, leaves("1.00"), LeafPlanner.withDefaults(), CrankPlanner.atTdcMarks());
        assertThat(card.setCheck().windows()).noneMatch(SetCheck.WindowCheck::decides);
        assertThat(card.layOut())
                .isEqualTo(card.setCheck().windows().stream()
                        .flatMap(window -> window.plan().offers().stream())
                        .distinct()
                        .toList());
    }

    // Tools

    @Test
    void namesToolsAndThoseOfTheEngine() {
        EngineSpec engine = School.generatorEngine()
                .tools(List.of("8 mm spanner", "cover gasket"))
                .build();
        assertThat(card(engine).tools())
                .contains("torque wrench", "clean, lightly oiled leaves")
                .endsWith("8 mm spanner", "cover gasket")
                .noneMatch(tool -> tool.contains("micrometer"));
        assertThat(card(School.roadTrainerEngine()).tools()).anyMatch(tool -> tool.contains("micrometer"));
    }

    // Steps

    @Test
    void worksFromTheConditionThroughTheStopsToTheRecheck() {
        assertThat(CARD.steps())
                .satisfiesExactly(
                        step -> assertThat(step).contains("condition: at most 30 °C", "Write down its temperature"),
                        step -> assertThat(step).startsWith("Isolate, support and clean"),
                        step -> assertThat(step)
                                .isEqualTo(
                                        "Find number 1's compression TDC: TDC comes round twice, on compression its followers"
                                                + " are slack, on overlap its followers both move as the crank is turned on"
                                                + " through TDC."),
                        step -> assertThat(step)
                                .startsWith("Stop 1. Stay with number 1 on compression. ")
                                .contains("lobe pointing away")
                                .endsWith("then measure 1-in-1, 1-ex-1."),
                        step -> assertThat(step)
                                .startsWith("Stop 2. From number 1 on compression, turn on 360 degrees. ")
                                .contains("TDC mark of number 2, on compression")
                                .endsWith("then measure 2-in-1, 2-ex-1."),
                        step -> assertThat(step).contains("mild road cam is assumed"),
                        step -> assertThat(step).contains("never back"),
                        step -> assertThat(step).startsWith("Measure every valve before anything is adjusted"),
                        step -> assertThat(step).contains("twice and measure again"),
                        step -> assertThat(step).startsWith("Nothing left inside"));
    }

    @Test
    void assumesNoTimingThatIsGiven() {
        EngineSpec engine =
                School.generatorEngine().camTiming(CamTiming.GENERIC).build();
        assertThat(card(engine).steps()).noneMatch(step -> step.contains("assumed"));
    }

    @Test
    void saysTheConditionThatTheMakerWants() {
        EngineSpec between =
                School.generatorEngine().coldest(Temperature.ofCelsius(15)).build();
        assertThat(card(between).steps().get(0)).contains("condition: at least 15 °C at most 30 °C.");
        EngineSpec none = EngineSpec.builder("bare", "Bare single")
                .valves("1-in-1")
                .train(GENERATOR.train())
                .clearance(
                        ValveRole.INTAKE,
                        GENERATOR.findClearance(ValveRole.INTAKE).orElseThrow())
                .build();
        assertThat(card(none).steps().get(0)).contains("condition (cold, unless the manual says otherwise)");
    }

    /** On a twin that fires every turn the exhaust is open at the only other mark. */
    @Test
    void saysWhatTheStopsLeaveOver() {
        ValveId exhaust = ValveId.parse("1-ex-1");
        EngineSpec held = School.generatorEngine()
                .decompressor(new Decompressor(exhaust, Ratio.of(60, 1), Ratio.of(30, 1)))
                .build();
        assertThat(stepWith(card(held), "No stop on offer reaches 1-ex-1"))
                .endsWith("it could be measured 31 degrees after number 1's compression TDC.");
        assertThat(stepWith(card(held), "Stop 1.")).contains("but the decompressor holds 1-ex-1");
        EngineSpec always = School.generatorEngine()
                .decompressor(new Decompressor(exhaust, Ratio.of(360, 1), Ratio.of(360, 1)))
                .build();
        assertThat(stepWith(card(always, CrankPlanner.atAnyAngle()), "1-ex-1 can be measured at no angle"))
                .endsWith("see the manual.");
    }

    @Test
    void camshaftsStayUntilTheShimsArePlanned() {
        assertThat(card(School.roadTrainerEngine()).steps())
                .anyMatch(step -> step.startsWith("Lift a camshaft only when all its valves are measured"));
        assertThat(CARD.steps()).noneMatch(step -> step.contains("camshaft"));
    }

    @Test
    void closersAreReadLoadedAndWrittenDown() {
        ShimRange shims = ShimRange.parse("1.80..4.50 mm step 0.05 mm");
        EngineSpec engine = School.generatorEngine()
                .train(new ValveTrain.Desmodromic(shims, shims))
                .closerClearance(
                        ValveRole.INTAKE,
                        GENERATOR.findClearance(ValveRole.INTAKE).orElseThrow())
                .build();
        assertThat(stepWith(card(engine), "(loaded)")).contains("loaded less unloaded is the closer gap");
        assertThat(card(engine).writeDown()).anyMatch(line -> line.contains("tried loaded"));
        assertThat(card(engine).setCheck().closers()).hasSize(1);
        // 0.09 of the opener and 0.09 of the closer: 0.20 is the first leaf that is no thinner than both
        assertThat(card(engine).layOut())
                .contains(LeafStack.parse("0.20 mm"))
                .doesNotContain(LeafStack.parse("0.25 mm"));
        assertThat(CARD.steps()).noneMatch(step -> step.contains("loaded"));
    }

    @Test
    void hydraulicLiftersNeedNoWork() {
        EngineSpec engine = EngineSpec.builder("school-mower", "Mower with hydraulic lifters")
                .valves("1-in-1", "1-ex-1")
                .train(new ValveTrain.Hydraulic())
                .build();
        CheckPlan card = card(engine);
        assertThat(card.steps()).containsExactly("Hydraulic lifters: there is no clearance to measure or to set.");
        assertThat(card.layOut()).isEmpty();
        assertThat(card.crank().stops()).isEmpty();
    }

    // What to write down

    @Test
    void saysWhatToWriteDown() {
        assertThat(CARD.writeDown())
                .anyMatch(line -> line.contains("counter reading"))
                .anyMatch(line -> line.contains("as found"))
                .noneMatch(line -> line.contains("shim"))
                .noneMatch(line -> line.contains("not confirmed"));
        assertThat(card(School.roadTrainerEngine()).writeDown()).anyMatch(line -> line.contains("each shim"));
    }

    @Test
    void asksForTheSourceOfWindowsThatAreTypical() {
        EngineSpec typical = School.generatorEngine()
                .window(
                        ValveRole.INTAKE,
                        GENERATOR.findClearance(ValveRole.INTAKE).orElseThrow().check())
                .build();
        assertThat(card(typical).writeDown())
                .last()
                .asString()
                .contains("where the manual gives the windows", "not confirmed");
    }

    // Equality, serialisation, nulls

    @Test
    void isEqualByItsParts() {
        Contracts.equality(
                CARD,
                card(School.generatorEngine().build()),
                List.of(card(School.roadTrainerEngine()), card(GENERATOR, CrankPlanner.atAnyAngle())));
    }

    @Test
    void serialises() {
        Contracts.serialises(CARD);
    }

    @Test
    void refusesNull() {
        GaugeSet gauges = School.GENERATOR_LEAVES;
        LeafPlanner leaves = LeafPlanner.withDefaults();
        Contracts.refuseNull(
                () -> CheckPlan.of(null, gauges, leaves, CrankPlanner.atTdcMarks()),
                () -> CheckPlan.of(GENERATOR, null, leaves, CrankPlanner.atTdcMarks()),
                () -> CheckPlan.of(GENERATOR, gauges, null, CrankPlanner.atTdcMarks()),
                () -> CheckPlan.of(GENERATOR, gauges, leaves, null),
                () -> CheckPlan.of(null, leaves, CrankPlanner.atTdcMarks()),
                () -> new CheckPlan(
                        GENERATOR,
                        gauges,
                        CARD.setCheck(),
                        null,
                        List.of(),
                        CARD.crank(),
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of()),
                () -> new CheckPlan(
                        GENERATOR,
                        gauges,
                        CARD.setCheck(),
                        List.of(),
                        List.of(),
                        null,
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of()));
    }
}
