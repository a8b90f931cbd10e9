package dev.lash.engine;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.Temperature;
import dev.lash.measure.Usage;
import dev.lash.testing.Contracts;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class EngineSpecTest {
    private static final ClearanceWindow INTAKE = ClearanceWindow.parse("0.11..0.16 mm");
    private static final ClearanceWindow EXHAUST = ClearanceWindow.parse("0.16..0.21 mm");
    private static final ValveTrain SCREW = ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm"));

    /** The riding school's training bike: one cylinder, two valves. */
    private static EngineSpec.Builder single() {
        return EngineSpec.builder("school-single", "Training bike")
                .valves("1-in-1", "1-ex-1")
                .train(SCREW)
                .window(ValveRole.INTAKE, INTAKE)
                .window(ValveRole.EXHAUST, EXHAUST);
    }

    private static EngineSpec.Builder full() {
        return single().firingOrder(FiringOrder.even(1))
                .coldest(Temperature.ofCelsius(5))
                .warmest(Temperature.ofCelsius(35))
                .checkInterval(Usage.parse("6000 km"))
                .camTiming(CamTiming.GENERIC)
                .template("screw-single, revision 1")
                .cautions(List.of("The decompressor holds the exhaust valve."));
    }

    // Factories

    @Test
    void needsOnlyValvesTrainAndWindows() {
        EngineSpec spec = single().build();
        assertThat(spec.id()).isEqualTo("school-single");
        assertThat(spec.title()).isEqualTo("Training bike");
        assertThat(spec.valves()).hasToString("[1-in-1, 1-ex-1]").isUnmodifiable();
        assertThat(spec.train()).isEqualTo(SCREW);
        assertThat(spec.findClearance(ValveRole.INTAKE)).contains(ClearanceSpec.typical(INTAKE));
        assertThat(spec.findClearance(ValveRole.EXHAUST)).contains(ClearanceSpec.typical(EXHAUST));
        assertThat(spec.firingOrder()).isEqualTo(FiringOrder.even(1));
        assertThat(spec.coldest()).isEmpty();
        assertThat(spec.warmest()).isEmpty();
        assertThat(spec.checkInterval()).isEmpty();
        assertThat(spec.camTiming()).isEmpty();
        assertThat(spec.template()).isEmpty();
        assertThat(spec.cautions()).isEmpty();
    }

    @Test
    void keepsEverythingElseThatIsGiven() {
        EngineSpec spec = full().build();
        assertThat(spec.coldest()).contains(Temperature.ofCelsius(5));
        assertThat(spec.warmest()).contains(Temperature.ofCelsius(35));
        assertThat(spec.checkInterval()).contains(Usage.parse("6000 km"));
        assertThat(spec.camTiming()).contains(CamTiming.GENERIC);
        assertThat(spec.template()).contains("screw-single, revision 1");
        assertThat(spec.cautions())
                .containsExactly("The decompressor holds the exhaust valve.")
                .isUnmodifiable();
    }

    @Test
    void keepsTheOrderOfTheValves() {
        assertThat(single().valves("1-ex-1", "1-in-1").build().valves()).hasToString("[1-ex-1, 1-in-1]");
    }

    @Test
    void withoutAFiringOrderCylindersFireByNumber() {
        EngineSpec spec = single().valves("1-in-1", "3-ex-1").build();
        assertThat(spec.firingOrder()).isEqualTo(FiringOrder.even(1, 2, 3));
    }

    @Test
    void aRoleWithoutValvesNeedsNoWindow() {
        EngineSpec spec = EngineSpec.builder("pump", "Intake side only")
                .valves("1-in-1")
                .train(SCREW)
                .window(ValveRole.INTAKE, INTAKE)
                .build();
        assertThat(spec.findClearance(ValveRole.EXHAUST)).isEmpty();
    }

    @Test
    void hydraulicLiftersNeedNoWindow() {
        EngineSpec spec = EngineSpec.builder("generator", "Generator")
                .valves("1-in-1", "1-ex-1")
                .train(new ValveTrain.Hydraulic())
                .build();
        assertThat(spec.findClearance(ValveRole.INTAKE)).isEmpty();
    }

    // Gaps

    private static final ShimRange SIZES = ShimRange.parse("1.80..3.50 mm step 0.05 mm");
    private static final ClearanceSpec CLOSER = ClearanceSpec.typical(ClearanceWindow.parse("0.00..0.05 mm"));

    private static EngineSpec.Builder desmodromic() {
        return single().train(new ValveTrain.Desmodromic(SIZES, SIZES))
                .closerClearance(ValveRole.INTAKE, CLOSER)
                .closerClearance(ValveRole.EXHAUST, ClearanceSpec.typical(ClearanceWindow.parse("0.01..0.06 mm")));
    }

    @Test
    void aDesmodromicValveHasTwoGapsAnyOtherOne() {
        assertThat(single().build().gaps()).containsExactly(Gap.ONLY);
        assertThat(single().train(new ValveTrain.Fixed()).build().gaps()).containsExactly(Gap.ONLY);
        assertThat(desmodromic().build().gaps()).containsExactly(Gap.OPENER, Gap.CLOSER);
    }

    @Test
    void eachGapHasItsWindows() {
        EngineSpec spec = desmodromic().build();
        assertThat(spec.findClearance(ValveRole.INTAKE)).contains(ClearanceSpec.typical(INTAKE));
        assertThat(spec.findClearance(ValveRole.INTAKE, Gap.OPENER)).contains(ClearanceSpec.typical(INTAKE));
        assertThat(spec.findClearance(ValveRole.INTAKE, Gap.CLOSER)).contains(CLOSER);
        assertThat(spec.findClearance(ValveRole.EXHAUST, Gap.CLOSER).map(ClearanceSpec::check))
                .contains(ClearanceWindow.parse("0.01..0.06 mm"));
        EngineSpec screw = single().build();
        assertThat(screw.findClearance(ValveRole.INTAKE, Gap.ONLY)).contains(ClearanceSpec.typical(INTAKE));
        assertThat(screw.findClearance(ValveRole.INTAKE, Gap.CLOSER)).isEmpty();
    }

    @Test
    void aCloserWindowIsNeverSupposed() {
        EngineSpec opener =
                single().train(new ValveTrain.Desmodromic(SIZES, SIZES)).build();
        assertThat(opener.findClearance(ValveRole.INTAKE, Gap.OPENER)).isPresent();
        assertThat(opener.findClearance(ValveRole.INTAKE, Gap.CLOSER)).isEmpty();
    }

    @Test
    void refusesCloserClearancesOfAnotherTrain() {
        refuses(
                single().closerClearance(ValveRole.INTAKE, CLOSER),
                "closer clearances",
                "0.00..0.05 mm",
                "are given for a rocker-screw train",
                "for a desmodromic train only",
                "complete the engine school-single");
    }

    @Test
    void closerClearancesArePartOfTheEngine() {
        assertThat(desmodromic().build().toBuilder().build())
                .isEqualTo(desmodromic().build());
        Contracts.equality(
                desmodromic().build(),
                desmodromic().build(),
                List.of(
                        desmodromic()
                                .closerClearance(
                                        ValveRole.INTAKE, ClearanceSpec.typical(ClearanceWindow.parse("0.00..0.06 mm")))
                                .build(),
                        single().train(new ValveTrain.Desmodromic(SIZES, SIZES)).build()));
        Contracts.serialises(desmodromic().build());
    }

    @Test
    void aClearanceMayBeConfirmedAndNarrowerToSetTo() {
        ClearanceSpec clearance =
                new ClearanceSpec(INTAKE, ClearanceWindow.parse("0.12..0.15 mm"), "shop manual, p. 12");
        assertThat(single().clearance(ValveRole.INTAKE, clearance).build().findClearance(ValveRole.INTAKE))
                .contains(clearance);
    }

    @Test
    void doesNotChangeWithItsBuilder() {
        List<ValveId> valves = new ArrayList<>(List.of(ValveId.parse("1-in-1"), ValveId.parse("1-ex-1")));
        EngineSpec.Builder builder = single().valves(valves);
        EngineSpec spec = builder.build();
        valves.clear();
        builder.window(ValveRole.INTAKE, EXHAUST).template("other");
        assertThat(spec).isEqualTo(single().build());
    }

    @Test
    void aBuilderOfAnEngineMakesTheSameEngine() {
        EngineSpec spec = full().build();
        assertThat(spec.toBuilder().build()).isEqualTo(spec);
        EngineSpec changed = spec.toBuilder().window(ValveRole.INTAKE, EXHAUST).build();
        assertThat(changed.findClearance(ValveRole.INTAKE)).contains(ClearanceSpec.typical(EXHAUST));
        assertThat(changed.cautions()).isEqualTo(spec.cautions());
        assertThat(spec.findClearance(ValveRole.INTAKE)).contains(ClearanceSpec.typical(INTAKE));
    }

    @Test
    void theExampleOfThePackageComment() {
        EngineSpec spec = EngineSpec.builder("training-single", "Training single, screw rockers")
                .valves("1-in-1", "1-ex-1")
                .train(ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm")))
                .window(ValveRole.INTAKE, ClearanceWindow.parse("0.08..0.13 mm"))
                .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.17..0.22 mm"))
                .build();
        assertThat(spec.findClearance(ValveRole.EXHAUST).map(ClearanceSpec::check))
                .contains(ClearanceWindow.parse("0.17..0.22 mm"));
    }

    // What does not fit

    private static RejectedValueException refuses(EngineSpec.Builder builder, String... parts) {
        return Contracts.refuses(builder::build, parts);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "-bike", "Bike", "bike 1", "bike_1", "b\u00efke"})
    void refusesOtherNames(String id) {
        refuses(
                EngineSpec.builder(id, "A bike").valves("1-in-1").train(SCREW).window(ValveRole.INTAKE, INTAKE),
                "id \"" + id + "\"",
                "lower-case letters, digits and hyphens, at most 64",
                "complete the engine");
    }

    @Test
    void aNameHasAtMost64Characters() {
        UnaryOperator<String> id = name -> EngineSpec.builder(name, "A bike")
                .valves("1-in-1")
                .train(SCREW)
                .window(ValveRole.INTAKE, INTAKE)
                .build()
                .id();
        assertThat(id.apply("a".repeat(64))).hasSize(64);
        Contracts.refuses(() -> id.apply("a".repeat(65)), "at most 64");
    }

    @ParameterizedTest
    @ValueSource(strings = {"", " ", "   "})
    void refusesABlankTitle(String title) {
        refuses(
                EngineSpec.builder("bike", title).valves("1-in-1").train(SCREW).window(ValveRole.INTAKE, INTAKE),
                "title \"" + title + "\"",
                "is empty",
                "what a person calls the engine",
                "complete the engine bike");
    }

    @Test
    void refusesMissingParts() {
        refuses(
                EngineSpec.builder("bike", "A bike").valves("1-in-1").window(ValveRole.INTAKE, INTAKE),
                "train \"(missing)\"",
                "is missing",
                "complete the engine bike");
        refuses(single().valves(List.of()), "valves \"[]\"", "missing or named twice", "each valve once");
        refuses(single().valves("1-in-1", "1-in-1"), "valves \"[1-in-1, 1-in-1]\"", "each valve once");
        refuses(
                EngineSpec.builder("bike", "A bike")
                        .valves("1-in-1", "1-ex-1")
                        .train(SCREW)
                        .window(ValveRole.INTAKE, INTAKE),
                "clearances \"(no window for ex)\"",
                "are missing for exhaust valves",
                "a window for each role");
    }

    @Test
    void refusesValvesOnCylindersThatTheEngineDoesNotHave() {
        refuses(
                single().valves("1-in-1", "3-ex-1").firingOrder(FiringOrder.even(1, 2)),
                "valve \"3-ex-1\"",
                "on a cylinder that the engine does not have",
                "cylinders 1 to 2");
        refuses(single().valves("1-in-1", "19-ex-1"), "firing order", "at most 18");
    }

    @Test
    void refusesAConditionThatIsReversed() {
        refuses(
                single().coldest(Temperature.ofCelsius(36)).warmest(Temperature.ofCelsius(35)),
                "condition \"36 °C to 35 °C\"",
                "is reversed",
                "a lowest temperature that is not above the highest");
        assertThat(single().coldest(Temperature.ofCelsius(35))
                        .warmest(Temperature.parse("95 °F"))
                        .build()
                        .warmest())
                .isPresent();
    }

    @Test
    void refusesNamesOfValvesThatAreNone() {
        Contracts.refuses(() -> single().valves("1-in-1", "inlet"), "valve \"inlet\"", "1-in-1");
    }

    // Equality, text, serialisation, nulls

    @Test
    void isEqualByItsParts() {
        Contracts.equality(
                full().build(),
                full().build(),
                List.of(
                        single().build(),
                        full().valves("1-ex-1", "1-in-1").build(),
                        full().train(ValveTrain.Screw.atValveTip(Pitch.parse("1 mm")))
                                .build(),
                        full().window(ValveRole.EXHAUST, INTAKE).build(),
                        full().firingOrder(FiringOrder.even(1, 2)).build(),
                        full().coldest(Temperature.ofCelsius(6)).build(),
                        full().warmest(Temperature.ofCelsius(36)).build(),
                        full().checkInterval(Usage.parse("6001 km")).build(),
                        full().camTiming(new CamTiming(
                                        CamTiming.GENERIC.intakeOpens(),
                                        CamTiming.GENERIC.intakeCloses(),
                                        CamTiming.GENERIC.exhaustOpens(),
                                        CamTiming.GENERIC.exhaustCloses(),
                                        Ratio.ZERO))
                                .build(),
                        full().template("screw-single, revision 2").build(),
                        full().cautions(List.of("Another.")).build()));
    }

    @Test
    void writesWhatALogNeeds() {
        assertThat(single().build().toString())
                .contains("school-single", "Training bike", "rocker-screw", "0.11..0.16 mm", "0.16..0.21 mm");
    }

    @Test
    void serialises() {
        Contracts.serialises(full().build());
        Contracts.serialises(single().build());
    }

    @Test
    void refusesNull() {
        EngineSpec.Builder builder = single();
        Contracts.refuseNull(
                () -> EngineSpec.builder(null, "A bike"),
                () -> EngineSpec.builder("bike", null),
                () -> builder.valves((List<ValveId>) null),
                () -> builder.valves(Arrays.asList(ValveId.parse("1-in-1"), null)),
                () -> builder.valves("1-in-1", null),
                () -> builder.firingOrder(null),
                () -> builder.train(null),
                () -> builder.window(null, INTAKE),
                () -> builder.window(ValveRole.INTAKE, null),
                () -> builder.clearance(null, ClearanceSpec.typical(INTAKE)),
                () -> builder.clearance(ValveRole.INTAKE, null),
                () -> builder.coldest(null),
                () -> builder.warmest(null),
                () -> builder.checkInterval(null),
                () -> builder.camTiming(null),
                () -> builder.template(null),
                () -> builder.cautions(null),
                () -> builder.closerClearance(null, CLOSER),
                () -> builder.closerClearance(ValveRole.INTAKE, null),
                () -> single().build().findClearance(null),
                () -> single().build().findClearance(null, Gap.ONLY),
                () -> single().build().findClearance(null, Gap.CLOSER),
                () -> single().build().findClearance(ValveRole.INTAKE, null));
    }
}
