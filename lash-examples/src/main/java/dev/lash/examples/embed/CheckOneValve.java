package dev.lash.examples.embed;

import dev.lash.check.*;
import dev.lash.engine.*;
import dev.lash.gauge.GaugeSet;
import dev.lash.measure.LengthUnit;

/** From two trials to a verdict and what to do: prints "1-ex-1 tight: set-to-leaf". */
public final class CheckOneValve {
    public static void main(String[] args) {
        EngineSpec engine = EngineSpec.builder("hill-bike", "Hill bike, training single")
                .valves("1-in-1", "1-ex-1")
                .train(ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm")))
                .window(ValveRole.INTAKE, ClearanceWindow.parse("0.08..0.13 mm"))
                .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.17..0.22 mm"))
                .build();
        GaugeSet leaves = GaugeSet.of(LengthUnit.MILLIMETRE, "0.08", "0.10", "0.13", "0.15", "0.20");
        ValveReading reading = ValveReading.of("1-ex-1", "0.13 mm goes", "0.15 mm refuses");
        CheckSheet sheet = CheckSheet.builder(engine, leaves).valve(reading).build();
        for (ValveCheck valve : CheckReport.of(sheet).valves()) {
            String what = valve.adjustment().map(a -> a.kind()).orElse("repeat the trials");
            System.out.println(valve + ": " + what);
        }
    }
}
