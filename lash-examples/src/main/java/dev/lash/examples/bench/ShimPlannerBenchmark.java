package dev.lash.examples.bench;

import dev.lash.adjust.Assignment;
import dev.lash.adjust.InstalledShim;
import dev.lash.adjust.ShimBox;
import dev.lash.adjust.ShimPlan;
import dev.lash.adjust.ShimPlanner;
import dev.lash.adjust.ShimSlot;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import org.jgrapht.Graph;
import org.jgrapht.alg.matching.KuhnMunkresMinimalWeightBipartitePerfectMatching;
import org.jgrapht.graph.DefaultWeightedEdge;
import org.jgrapht.graph.SimpleWeightedGraph;
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

/**
 * Planning the shims of an engine, and the assignment underneath on its own, beside JGraphT's.
 *
 * <p>JGraphT works on a graph: it is built beforehand and not timed, and its answer is checked against ours in the set-up.
 */
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(2)
public class ShimPlannerBenchmark {
    /** 24 valves under four camshafts, sizes 1.20 to 2.925 mm by 0.025 mm, 200 spare shims; several engines in turn. */
    @State(Scope.Benchmark)
    public static class Engines {
        private static final int DIFFERENT = 32;

        /** How wide readings are, in hundredths of a millimetre: narrow ones leave sizes certain, wide ones leave doubts to look into. */
        @Param({"2", "5"})
        int widest;

        private final List<List<ShimSlot>> engines = new ArrayList<>();
        private ShimBox box = ShimBox.empty();
        private int next;

        /** Makes the engines. */
        @Setup
        public void make() {
            Random random = new Random(24_070);
            ShimRange range = ShimRange.parse("1.200..2.925 mm step 0.025 mm");
            List<ShimBox.Lot> lots = new ArrayList<>();
            for (int i = 0; i < 200; i++) {
                lots.add(new ShimBox.Lot(range.sizes().get(random.nextInt(range.count())), 1, ""));
            }
            box = new ShimBox(lots);
            for (int e = 0; e < DIFFERENT; e++) {
                List<ShimSlot> slots = new ArrayList<>();
                for (int cylinder = 1; cylinder <= 6; cylinder++) {
                    for (ValveRole role : ValveRole.values()) {
                        for (int place = 1; place <= 2; place++) {
                            slots.add(slot(random, new ValveId(cylinder, role, place), range));
                        }
                    }
                }
                engines.add(slots);
            }
        }

        private ShimSlot slot(Random random, ValveId valve, ShimRange range) {
            int low = (valve.role() == ValveRole.INTAKE ? 12 : 21) + random.nextInt(9);
            String window = valve.role() == ValveRole.INTAKE ? "0.16..0.22 mm" : "0.25..0.31 mm";
            return ShimSlot.of(
                            valve,
                            LengthInterval.open(hundredths(low), hundredths(low + 1 + random.nextInt(widest))),
                            ClearanceSpec.typical(ClearanceWindow.parse(window)),
                            InstalledShim.marked(range.sizes().get(30 + random.nextInt(20))),
                            range)
                    .withCamshaft(valve.role().word() + (valve.cylinder() <= 3 ? " left" : " right"));
        }

        private static Length hundredths(int number) {
            return Length.ofNanometres(number * 10_000L);
        }

        List<ShimSlot> nextEngine() {
            next = (next + 1) % DIFFERENT;
            return engines.get(next);
        }
    }

    /** Square matrices of even random costs below a million. */
    @State(Scope.Benchmark)
    public static class Matrices {
        /** Rows and columns. */
        @Param({"125", "250", "500", "1000"})
        int size;

        private long[][] costs = new long[0][0];
        private Graph<Integer, DefaultWeightedEdge> graph = new SimpleWeightedGraph<>(DefaultWeightedEdge.class);
        private final Set<Integer> rows = new LinkedHashSet<>();
        private final Set<Integer> columns = new LinkedHashSet<>();

        /** Makes the matrix, and the same as a graph; makes sure that both solvers agree. */
        @Setup
        public void make() {
            Random random = new Random(size);
            costs = new long[size][size];
            for (int i = 0; i < size; i++) {
                rows.add(i);
                columns.add(size + i);
                graph.addVertex(i);
                graph.addVertex(size + i);
            }
            for (int i = 0; i < size; i++) {
                for (int j = 0; j < size; j++) {
                    costs[i][j] = random.nextInt(1_000_000);
                    graph.setEdgeWeight(graph.addEdge(i, size + j), (double) costs[i][j]);
                }
            }
            long ours = Assignment.solve(costs).orElseThrow().cost();
            double theirs = theirs();
            if (ours != theirs) {
                throw new IllegalStateException("ours " + ours + ", JGraphT's " + theirs);
            }
        }

        double theirs() {
            return new KuhnMunkresMinimalWeightBipartitePerfectMatching<>(graph, rows, columns)
                    .getMatching()
                    .getWeight();
        }
    }

    /**
     * The whole plan: moves, steps and findings.
     *
     * @param engines the engines
     * @return the plan
     */
    @Benchmark
    public ShimPlan plan(Engines engines) {
        return ShimPlanner.withDefaults().plan(engines.nextEngine(), engines.box);
    }

    /**
     * Our assignment.
     *
     * @param matrices the matrix
     * @return its cost
     */
    @Benchmark
    public long assignment(Matrices matrices) {
        return Assignment.solve(matrices.costs).orElseThrow().cost();
    }

    /**
     * JGraphT's assignment.
     *
     * @param matrices the matrix
     * @return its cost
     */
    @Benchmark
    public double assignmentOfJGraphT(Matrices matrices) {
        return matrices.theirs();
    }
}
