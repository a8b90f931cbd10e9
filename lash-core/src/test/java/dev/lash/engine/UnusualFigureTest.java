package dev.lash.engine;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.Ratio;
import dev.lash.measure.Temperature;
import dev.lash.measure.Usage;
import java.util.List;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;

class UnusualFigureTest {
    private static final EngineSpec USUAL = EngineSpec.builder("yard-pump", "Yard pump, twin")
            .valves("1-in-1", "1-ex-1", "2-in-1", "2-ex-1")
            .train(ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm")))
            .window(ValveRole.INTAKE, ClearanceWindow.parse("0.08..0.12 mm"))
            .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.13..0.18 mm"))
            .warmest(Temperature.ofCelsius(35))
            .checkInterval(Usage.parse("100 h"))
            .camTiming(CamTiming.GENERIC)
            .build();

    private static List<UnusualFigure> of(UnaryOperator<EngineSpec.Builder> change) {
        return UnusualFigure.of(change.apply(USUAL.toBuilder()).build());
    }

    private static UnusualFigure only(UnaryOperator<EngineSpec.Builder> change) {
        assertThat(of(change)).hasSize(1);
        return of(change).get(0);
    }

    @Test
    void usualFiguresAreNotNamed() {
        assertThat(of(engine -> engine)).isEmpty();
        assertThat(of(engine -> engine.checkInterval(Usage.parse("20 h")))).isEmpty();
        assertThat(of(engine -> engine.coldest(Temperature.ofCelsius(80)).warmest(Temperature.ofCelsius(150))))
                .isEmpty();
    }

    @Test
    void aPitchThatNoFineThreadHas() {
        UnusualFigure odd = only(engine -> engine.train(ValveTrain.Screw.atValveTip(Pitch.parse("5 mm"))));
        assertThat(odd.figure()).isEqualTo(Figure.PITCH);
        assertThat(odd).hasToString("pitch 5.00 mm is not the pitch of a standard thread");
        assertThat(odd.expected()).startsWith("one of 0.5 mm, ");
    }

    @Test
    void temperaturesAndAnInterval() {
        assertThat(only(engine -> engine.warmest(Temperature.ofCelsius(61))).figure())
                .isEqualTo(Figure.WARMEST);
        assertThat(of(engine -> engine.coldest(Temperature.ofCelsius(151)).warmest(Temperature.ofCelsius(350))))
                .extracting(UnusualFigure::figure)
                .containsExactly(Figure.COLDEST, Figure.WARMEST);
        UnusualFigure interval = only(engine -> engine.checkInterval(Usage.parse("30000 h")));
        assertThat(interval.value()).isEqualTo("30000 h");
        assertThat(interval.expected()).isEqualTo("20 h to 1000 h");
    }

    @Test
    void anIntervalBetweenFiringsIsNamedByItsPlace() {
        UnusualFigure odd = only(engine ->
                engine.firingOrder(new FiringOrder(List.of(1, 2), List.of(Ratio.parse("716"), Ratio.parse("4")))));
        assertThat(odd.figure()).isEqualTo(Figure.FIRING_INTERVALS);
        assertThat(odd.part()).isEqualTo("1");
        assertThat(odd.value()).isEqualTo("4 deg");
    }

    @Test
    void aCamIsNamedByItsRole() {
        UnusualFigure odd = only(engine -> engine.camTiming(new CamTiming(
                CamTiming.Event.parse("80 deg BTDC"),
                CamTiming.Event.parse("90 deg ABDC"),
                CamTiming.GENERIC.exhaustOpens(),
                CamTiming.GENERIC.exhaustCloses(),
                Ratio.parse("10"))));
        assertThat(odd.figure()).isEqualTo(Figure.CAM_TIMING);
        assertThat(odd.part()).isEqualTo("in");
        assertThat(odd.problem()).isEqualTo("lifts the valve for 350 crank degrees, which no usual cam does");
    }

    @Test
    void sizesOfShimsOpenersAndClosers() {
        ShimRange sizes = ShimRange.parse("0.5..3 mm step 0.05 mm");
        EngineSpec engine = USUAL.toBuilder()
                .checkInterval(Usage.parse("20000 km"))
                .train(ValveTrain.Shim.bucket(ValveTrain.ShimPlace.OVER_BUCKET, sizes))
                .build();
        UnusualFigure odd = UnusualFigure.of(engine).get(0);
        assertThat(odd.figure()).isEqualTo(Figure.SHIMS);
        assertThat(odd.value()).isEqualTo("0.50..3.00 mm step 0.05 mm");
        assertThat(odd.expected()).isEqualTo("0.80 mm to 8.00 mm");
        EngineSpec desmodromic = USUAL.toBuilder()
                .train(new ValveTrain.Desmodromic(ShimRange.parse("1.8..10 mm step 0.05 mm"), sizes))
                .closerClearance(ValveRole.INTAKE, ClearanceSpec.typical(ClearanceWindow.parse("0.00..0.05 mm")))
                .closerClearance(ValveRole.EXHAUST, ClearanceSpec.typical(ClearanceWindow.parse("0.00..0.05 mm")))
                .build();
        assertThat(UnusualFigure.of(desmodromic))
                .extracting(UnusualFigure::figure)
                .containsExactly(Figure.OPENER_SHIMS, Figure.CLOSER_SHIMS);
    }
}
