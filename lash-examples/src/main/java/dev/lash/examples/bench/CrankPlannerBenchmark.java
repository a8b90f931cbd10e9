package dev.lash.examples.bench;

import dev.lash.engine.CamTiming;
import dev.lash.engine.CamTiming.Event;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.CrankPlan;
import dev.lash.engine.CrankPlanner;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.FiringOrder;
import dev.lash.engine.Pitch;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.measure.Ratio;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.LongStream;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** How long a single crank plan takes; "Speed" in DEVELOPERS.md says how to run it, and what came out. */
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(2)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
public class CrankPlannerBenchmark {
    /** Twelve cylinders, in the firing order of SENR9773, table 1. */
    @State(Scope.Benchmark)
    public static class Twelve {
        private static final FiringOrder EVEN = FiringOrder.parse("1-10-9-6-5-12-11-4-3-8-7-2");

        /** The cam: the generic one, or an assumed long one whose rests are short, so that it needs more stops. */
        @Param({"generic", "long"})
        public String cam = "generic";

        /** How many valves of each role a cylinder has. */
        @Param({"1", "2"})
        public int pairs = 1;

        private EngineSpec engine = make();

        /** Makes the engine. */
        @Setup
        public void read() {
            engine = make();
        }

        private EngineSpec make() {
            List<ValveId> valves = new ArrayList<>();
            for (int cylinder = 1; cylinder <= EVEN.cylinders(); cylinder++) {
                for (ValveRole role : ValveRole.values()) {
                    for (int place = 1; place <= pairs; place++) {
                        valves.add(new ValveId(cylinder, role, place));
                    }
                }
            }
            EngineSpec.Builder builder = EngineSpec.builder("training-twelve", "Training twelve")
                    .valves(valves)
                    .firingOrder(EVEN)
                    .train(ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm")))
                    .window(ValveRole.INTAKE, ClearanceWindow.parse("0.08..0.13 mm"))
                    .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.17..0.22 mm"));
            if (cam.equals("long")) {
                builder.camTiming(new CamTiming(
                        Event.parse("90 deg BTDC"),
                        Event.parse("100 deg ABDC"),
                        Event.parse("100 deg BBDC"),
                        Event.parse("90 deg ATDC"),
                        Ratio.of(60, 1)));
            }
            return builder.build();
        }
    }

    private static final CrankPlanner EVERY_TEN_DEGREES = CrankPlanner.atMarks(
            LongStream.range(0, 36).mapToObj(i -> Ratio.of(10 * i, 1)).toList());

    /**
     * The TDC marks only.
     *
     * @param engine the engine
     * @return the plan
     */
    @Benchmark
    public CrankPlan tdcMarks(Twelve engine) {
        return CrankPlanner.atTdcMarks().plan(engine.engine);
    }

    /**
     * A flywheel with a mark every ten degrees.
     *
     * @param engine the engine
     * @return the plan
     */
    @Benchmark
    public CrankPlan listedMarks(Twelve engine) {
        return EVERY_TEN_DEGREES.plan(engine.engine);
    }

    /**
     * Any angle.
     *
     * @param engine the engine
     * @return the plan
     */
    @Benchmark
    public CrankPlan anyAngle(Twelve engine) {
        return CrankPlanner.atAnyAngle().plan(engine.engine);
    }
}
