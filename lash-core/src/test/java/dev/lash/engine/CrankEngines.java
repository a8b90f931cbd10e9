package dev.lash.engine;

import dev.lash.engine.CamTiming.Event;
import dev.lash.measure.Ratio;
import java.util.ArrayList;
import java.util.List;

/** Engines and angles for the tests of crank stops. */
final class CrankEngines {
    private CrankEngines() {}

    /** An engine with an intake and an exhaust valve on each cylinder. */
    static EngineSpec.Builder engine(FiringOrder order) {
        List<ValveId> valves = new ArrayList<>();
        for (int cylinder = 1; cylinder <= order.cylinders(); cylinder++) {
            valves.add(new ValveId(cylinder, ValveRole.INTAKE, 1));
            valves.add(new ValveId(cylinder, ValveRole.EXHAUST, 1));
        }
        return EngineSpec.builder("training-engine", "Training engine")
                .valves(valves)
                .firingOrder(order)
                .train(ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm")))
                .window(ValveRole.INTAKE, ClearanceWindow.parse("0.08..0.13 mm"))
                .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.17..0.22 mm"));
    }

    static EngineSpec engine(String order) {
        return engine(FiringOrder.parse(order)).build();
    }

    static Ratio deg(long degrees) {
        return Ratio.of(degrees, 1);
    }

    static List<Ratio> angles(CrankPlan plan) {
        return plan.stops().stream().map(CrankPlan.Stop::angle).toList();
    }

    static List<ValveId> valves(String... names) {
        return List.of(names).stream().map(ValveId::parse).toList();
    }

    /**
     * A cam in whole degrees, seat to seat.
     *
     * @param intakeOpens before overlap TDC, after it when negative
     * @param intakeCloses after BDC, before it when negative
     * @param exhaustOpens before BDC, after it when negative
     * @param exhaustCloses after overlap TDC, before it when negative
     * @param margin of ramp on each side
     */
    record Cam(int intakeOpens, int intakeCloses, int exhaustOpens, int exhaustCloses, int margin) {
        CamTiming timing() {
            return new CamTiming(
                    event(intakeOpens, "BTDC", "ATDC"),
                    event(intakeCloses, "ABDC", "BBDC"),
                    event(exhaustOpens, "BBDC", "ABDC"),
                    event(exhaustCloses, "ATDC", "BTDC"),
                    deg(margin));
        }

        private static Event event(int degrees, String mark, String ifNegative) {
            return Event.parse(Math.abs(degrees) + " deg " + (degrees < 0 ? ifNegative : mark));
        }
    }
}
