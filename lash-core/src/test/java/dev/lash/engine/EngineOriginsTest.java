package dev.lash.engine;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.engine.Origin.Kind;
import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import dev.lash.measure.Temperature;
import dev.lash.measure.Usage;
import dev.lash.testing.Contracts;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** What an engine remembers of its figures: where each came from, and where the shop read it. */
class EngineOriginsTest {
    private static final Origin MEMORY = new Origin(Kind.FROM_MEMORY, "Small singles", "", "screw-single, revision 2");
    private static final ClearanceWindow WINDOW = ClearanceWindow.parse("0.11..0.16 mm");
    private static final ShimRange SIZES = ShimRange.parse("1.20..3.50 mm step 0.05 mm");
    private static final ShimRange OTHERS = ShimRange.parse("2.00..4.50 mm step 0.05 mm");

    private static EngineSpec.Builder twin(ValveTrain train) {
        return EngineSpec.builder("ridge-twin", "Ridge twin")
                .valves("1-in-1", "1-ex-1", "2-in-1", "2-ex-1")
                .firingOrder(new FiringOrder(List.of(1, 2), List.of(Ratio.of(270, 1), Ratio.of(450, 1))))
                .train(train)
                .window(ValveRole.INTAKE, WINDOW)
                .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.16..0.21 mm"))
                .coldest(Temperature.ofCelsius(5))
                .warmest(Temperature.ofCelsius(35))
                .checkInterval(Usage.parse("6000 km"))
                .wearPrior(WearPrior.BY_DISTANCE)
                .camTiming(CamTiming.GENERIC)
                .decompressor(new Decompressor(ValveId.parse("1-ex-1"), Ratio.of(60, 1), Ratio.of(20, 1)))
                .camshafts(new Camshafts(Camshafts.PerBank.ONE_PER_ROLE, List.of(List.of(1), List.of(2))));
    }

    private static EngineSpec.Builder screws() {
        return twin(new ValveTrain.Screw(
                ValveTrain.ScrewPlace.PUSHROD_END, Pitch.parse("0.75 mm"), Ratio.of(7, 5), ScrewHead.SLOT));
    }

    /** Every figure that the engine has, from memory. */
    private static EngineSpec remembered(EngineSpec.Builder builder) {
        EngineSpec engine = builder.build();
        EngineSpec.Builder told = engine.toBuilder();
        Arrays.stream(Figure.values())
                .filter(f -> engine.findFigure(f, LengthUnit.MILLIMETRE).isPresent())
                .forEach(f -> told.origin(f, MEMORY));
        return told.build();
    }

    @Test
    void showsEachFigureAsAText() {
        EngineSpec engine = screws().build();
        assertThat(engine.findFigure(Figure.FIRING_ORDER, LengthUnit.MILLIMETRE))
                .contains("1-2");
        assertThat(engine.findFigure(Figure.FIRING_INTERVALS, LengthUnit.MILLIMETRE))
                .contains("270, 450 deg");
        assertThat(engine.findFigure(Figure.PITCH, LengthUnit.MILLIMETRE)).contains("0.75 mm");
        assertThat(engine.findFigure(Figure.RATIO, LengthUnit.MILLIMETRE)).contains("1.4");
        assertThat(engine.findFigure(Figure.HEAD, LengthUnit.MILLIMETRE)).contains("slot");
        assertThat(engine.findFigure(Figure.SHIMS, LengthUnit.MILLIMETRE)).isEmpty();
        assertThat(engine.findFigure(Figure.INTAKE_WINDOW, LengthUnit.MILLIMETRE))
                .contains("0.11..0.16 mm");
        assertThat(engine.findFigure(Figure.INTAKE_CLOSER_WINDOW, LengthUnit.MILLIMETRE))
                .isEmpty();
        assertThat(engine.findFigure(Figure.WARMEST, LengthUnit.MILLIMETRE)).contains("35 °C");
        assertThat(engine.findFigure(Figure.CHECK_INTERVAL, LengthUnit.MILLIMETRE))
                .contains("6000 km");
        assertThat(engine.findFigure(Figure.WEAR_PRIOR, LengthUnit.MILLIMETRE))
                .contains("-0.01 mm +- 0.02 mm in 10000 km");
        assertThat(engine.findFigure(Figure.DECOMPRESSOR, LengthUnit.MILLIMETRE))
                .contains("1-ex-1 from 60 deg before to 20 deg after compression TDC");
        assertThat(engine.findFigure(Figure.CAMSHAFTS, LengthUnit.MILLIMETRE))
                .contains("one for each role in each bank: cylinders 1, 2");
        assertThat(screws().camshafts(new Camshafts(Camshafts.PerBank.ONE, List.of()))
                        .build()
                        .findFigure(Figure.CAMSHAFTS, LengthUnit.MILLIMETRE))
                .contains("one");
        assertThat(screws().camshafts(Camshafts.ONE_PER_ROLE)
                        .build()
                        .findFigure(Figure.CAMSHAFTS, LengthUnit.MILLIMETRE))
                .as("what goes without saying is no figure")
                .isEmpty();
    }

    static Stream<Arguments> trains() {
        return Stream.of(
                Arguments.of(ValveTrain.Screw.atValveTip(Pitch.parse("1 mm")), Map.of(Figure.PITCH, "1.00 mm")),
                Arguments.of(new ValveTrain.Wedge(Length.ofMillimetres("0.05")), Map.of(Figure.STEP, "0.05 mm")),
                Arguments.of(
                        new ValveTrain.Eccentric(Length.ofMillimetres("1.5"), Ratio.of(6, 5)),
                        Map.of(Figure.ECCENTRICITY, "1.50 mm", Figure.MULTIPLIER, "1.2")),
                Arguments.of(
                        new ValveTrain.Shim(ValveTrain.ShimPlace.FOLLOWER, SIZES, Ratio.of(3, 2)),
                        Map.of(Figure.SHIMS, SIZES.toString(), Figure.RATIO, "1.5")),
                Arguments.of(
                        new ValveTrain.Shim(ValveTrain.ShimPlace.UNDER_BUCKET, SIZES, Ratio.ONE),
                        Map.of(Figure.SHIMS, SIZES.toString())),
                Arguments.of(
                        new ValveTrain.Desmodromic(SIZES, OTHERS),
                        Map.of(Figure.OPENER_SHIMS, SIZES.toString(), Figure.CLOSER_SHIMS, OTHERS.toString())),
                Arguments.of(new ValveTrain.Fixed(), Map.of()),
                Arguments.of(new ValveTrain.Hydraulic(), Map.of()));
    }

    @ParameterizedTest
    @MethodSource("trains")
    void aTrainHasItsOwnFiguresOnly(ValveTrain train, Map<Figure, String> figures) {
        EngineSpec engine = twin(train).build();
        for (Figure figure : Figure.values()) {
            if (figure.isOfTrain()) {
                assertThat(engine.findFigure(figure, LengthUnit.MILLIMETRE).orElse(null))
                        .as(figure.words())
                        .isEqualTo(figures.get(figure));
            }
        }
    }

    @Test
    void whatNobodyToldIsStated() {
        EngineSpec engine = screws().build();
        assertThat(engine.origin(Figure.PITCH)).isEqualTo(Origin.STATED);
        assertThat(engine.origins()).isEmpty();
        assertThat(engine.isConfirmed(Figure.PITCH)).isTrue();
        assertThat(engine.isConfirmed(Figure.INTAKE_WINDOW))
                .as("a window wants the place in the manual")
                .isFalse();
        assertThat(engine.isConfirmed(Figure.INTAKE_CLOSER_WINDOW))
                .as("there is none")
                .isTrue();
    }

    @Test
    void remembersWhereAFigureCameFromAndWhereTheShopReadIt() {
        EngineSpec engine = remembered(screws());
        assertThat(engine.origin(Figure.PITCH)).isEqualTo(MEMORY);
        assertThat(engine.isConfirmed(Figure.PITCH)).isFalse();
        assertThat(engine.origins())
                .containsOnlyKeys(Arrays.stream(Figure.values())
                        .filter(f -> engine.findFigure(f, LengthUnit.MILLIMETRE).isPresent())
                        .toList())
                .isUnmodifiable();

        EngineSpec confirmed = engine.toBuilder()
                .confirmed(Figure.PITCH, "page 9")
                .confirmed(Figure.EXHAUST_SETTING, "page 7")
                .build();

        assertThat(confirmed.findConfirmation(Figure.PITCH)).contains("page 9");
        assertThat(confirmed.isConfirmed(Figure.PITCH)).isTrue();
        assertThat(confirmed.findConfirmation(Figure.EXHAUST_WINDOW))
                .as("confirmed with the window to set to")
                .contains("page 7");
        assertThat(confirmed.findConfirmation(Figure.INTAKE_WINDOW)).isEmpty();
        assertThat(confirmed.origin(Figure.PITCH)).isEqualTo(MEMORY);
        assertThat(confirmed.toBuilder().build()).isEqualTo(confirmed);
        assertThat(confirmed.toBuilder().confirmed(Figure.PITCH, " ").build().isConfirmed(Figure.PITCH))
                .isFalse();
        Contracts.equality(
                confirmed,
                confirmed.toBuilder().build(),
                List.of(engine, confirmed.toBuilder().origins(Map.of()).build()));
        Contracts.serialises(confirmed);
    }

    static Stream<Arguments> newFigures() {
        return Stream.of(
                changed(b -> b.checkInterval(Usage.parse("5000 km")), Figure.CHECK_INTERVAL),
                changed(b -> b.coldest(Temperature.ofCelsius(6)), Figure.COLDEST),
                changed(b -> b.warmest(Temperature.ofCelsius(30)), Figure.WARMEST),
                changed(b -> b.wearPrior(WearPrior.BY_HOURS), Figure.WEAR_PRIOR),
                changed(b -> b.firingOrder(FiringOrder.even(1, 2)), Figure.FIRING_INTERVALS),
                changed(
                        b -> b.decompressor(
                                new Decompressor(ValveId.parse("1-ex-1"), Ratio.of(50, 1), Ratio.of(20, 1))),
                        Figure.DECOMPRESSOR),
                changed(
                        b -> b.camshafts(new Camshafts(Camshafts.PerBank.ONE, List.of(List.of(1), List.of(2)))),
                        Figure.CAMSHAFTS),
                changed(
                        b -> b.camTiming(new CamTiming(
                                CamTiming.Event.parse("10 deg BTDC"),
                                CamTiming.Event.parse("40 deg ABDC"),
                                CamTiming.Event.parse("40 deg BBDC"),
                                CamTiming.Event.parse("10 deg ATDC"),
                                Ratio.of(15, 1))),
                        Figure.CAM_TIMING),
                changed(
                        b -> b.train(ValveTrain.Screw.atValveTip(Pitch.parse("0.5 mm"))),
                        Figure.PITCH,
                        Figure.RATIO,
                        Figure.HEAD),
                changed(
                        b -> b.clearance(
                                ValveRole.INTAKE,
                                new ClearanceSpec(WINDOW, ClearanceWindow.parse("0.12..0.15 mm"), "page 7")),
                        Figure.INTAKE_SETTING),
                changed(
                        b -> b.window(ValveRole.INTAKE, ClearanceWindow.parse("0.12..0.15 mm")),
                        Figure.INTAKE_WINDOW,
                        Figure.INTAKE_SETTING));
    }

    private interface Change {
        EngineSpec.Builder in(EngineSpec.Builder builder);
    }

    private static Arguments changed(Change change, Figure... figures) {
        return Arguments.of(change, List.of(figures));
    }

    /** A figure of another value no longer has the origin of the old one. */
    @ParameterizedTest
    @MethodSource("newFigures")
    void aNewFigureIsStated(Change change, List<Figure> figures) {
        EngineSpec before = remembered(screws());
        EngineSpec.Builder builder = before.toBuilder();
        figures.stream()
                .filter(f -> f != Figure.WEAR_PRIOR && !f.isWindow())
                .forEach(f -> builder.confirmed(f, "page 9"));

        EngineSpec after = change.in(builder).build();

        for (Figure figure : before.origins().keySet()) {
            boolean anew = figures.contains(figure);
            assertThat(after.origin(figure)).as(figure.words()).isEqualTo(anew ? Origin.STATED : MEMORY);
            if (anew && !figure.isWindow()) {
                assertThat(after.findConfirmation(figure)).as(figure.words()).isEmpty();
            }
        }
    }

    @Test
    void theSameFigureSetAgainKeepsItsOrigin() {
        EngineSpec before = remembered(screws());
        EngineSpec after = before.toBuilder()
                .checkInterval(Usage.parse("6000 km"))
                .train(before.train())
                .firingOrder(before.firingOrder())
                .clearance(ValveRole.INTAKE, new ClearanceSpec(WINDOW, WINDOW, "page 3"))
                .build();
        assertThat(after.origins()).isEqualTo(before.origins());
        assertThat(after.isConfirmed(Figure.INTAKE_WINDOW)).isTrue();
    }

    @Test
    void closersHaveOriginsOfTheirOwn() {
        EngineSpec.Builder builder = twin(new ValveTrain.Desmodromic(SIZES, OTHERS))
                .closerClearance(ValveRole.EXHAUST, ClearanceSpec.typical(ClearanceWindow.parse("0.00..0.05 mm")))
                .origin(Figure.EXHAUST_CLOSER_WINDOW, MEMORY)
                .confirmed(Figure.EXHAUST_CLOSER_WINDOW, "page 5");
        EngineSpec engine = builder.build();
        assertThat(engine.origin(Figure.EXHAUST_CLOSER_WINDOW)).isEqualTo(MEMORY);
        assertThat(engine.origin(Figure.EXHAUST_WINDOW)).isEqualTo(Origin.STATED);
        assertThat(engine.isConfirmed(Figure.EXHAUST_CLOSER_WINDOW)).isTrue();
        assertThat(engine.isConfirmed(Figure.EXHAUST_WINDOW)).isFalse();
    }

    @Test
    void refusesAnOriginOfAFigureThatIsNotThere() {
        Contracts.refuses(
                screws().origin(Figure.SHIMS, MEMORY)::build,
                "origin \"shim sizes\"",
                "is told of a figure that the engine does not have",
                "one of firing order, firing intervals, pitch, ratio, screw head, intake window",
                "set the figure first");
        Contracts.refuses(screws().confirmed(Figure.STEP, "page 2")::build, "origin \"step of a turn\"");
        assertThat(screws().origin(Figure.SHIMS, MEMORY)
                        .origin(Figure.SHIMS, Origin.STATED)
                        .build()
                        .origins())
                .isEmpty();
    }

    @Test
    void refusesToConfirmAWearPrior() {
        Contracts.refuses(
                () -> screws().confirmed(Figure.WEAR_PRIOR, "page 2"),
                "no wear rate of valve clearances is published",
                "give the shop's own wear prior instead");
    }

    @Test
    void refusesNull() {
        EngineSpec engine = screws().build();
        Contracts.refuseNull(
                () -> screws().origin(null, MEMORY),
                () -> screws().origin(Figure.PITCH, null),
                () -> screws().origins(null),
                () -> screws().confirmed(null, ""),
                () -> screws().confirmed(Figure.PITCH, null),
                () -> engine.origin(null),
                () -> engine.isConfirmed(null),
                () -> engine.findConfirmation(null),
                () -> engine.findFigure(null, LengthUnit.INCH),
                () -> engine.findFigure(Figure.PITCH, null));
    }
}
