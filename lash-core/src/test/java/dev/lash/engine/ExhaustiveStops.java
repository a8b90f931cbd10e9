package dev.lash.engine;

import static dev.lash.engine.CrankEngines.deg;

import dev.lash.engine.CrankEngines.Cam;
import dev.lash.measure.Ratio;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * Crank stops by trying every set, in whole degrees: for an engine whose firing angles, cam and decompressor are whole degrees. Shares
 * nothing with the planner but the names of the valves.
 */
final class ExhaustiveStops {
    private static final int CYCLE = 720;

    /** The generic cam, written once more. */
    static final Cam GENERIC = new Cam(15, 50, 50, 15, 15);

    /**
     * An engine in whole degrees.
     *
     * @param fires where each cylinder fires; number 1 at 0
     * @param cam the cam, or empty for the generic one
     * @param held the decompressor, or empty for none
     */
    record Engine(List<Integer> fires, Optional<Cam> cam, Optional<Held> held) {
        EngineSpec spec() {
            List<Integer> order = new ArrayList<>();
            List<Integer> angles = fires.stream().sorted().toList();
            angles.forEach(angle -> order.add(fires.indexOf(angle) + 1));
            List<Ratio> intervals = new ArrayList<>();
            for (int i = 0; i < angles.size(); i++) {
                int next = i + 1 < angles.size() ? angles.get(i + 1) : CYCLE;
                intervals.add(deg(next - angles.get(i)));
            }
            EngineSpec.Builder builder = CrankEngines.engine(new FiringOrder(order, intervals));
            cam.map(Cam::timing).ifPresent(builder::camTiming);
            held.ifPresent(h -> builder.decompressor(new Decompressor(h.valve, deg(h.before), deg(h.after))));
            return builder.build();
        }

        /** Whether a valve may be measured at a whole degree, by walking over the degrees of its lift. */
        boolean mayMeasure(ValveId valve, int angle) {
            int fires = this.fires.get(valve.cylinder() - 1);
            Cam c = cam.orElse(GENERIC);
            boolean intake = valve.role() == ValveRole.INTAKE;
            int opens = intake ? 360 - c.intakeOpens() : 180 - c.exhaustOpens();
            int closes = intake ? 540 + c.intakeCloses() : 360 + c.exhaustCloses();
            // the ends of the ramps are at rest
            if (passes(fires + opens - c.margin() + 1, fires + closes + c.margin() - 1, angle)) {
                return false;
            }
            return held.filter(h -> h.valve.equals(valve) && passes(fires - h.before, fires + h.after, angle))
                    .isEmpty();
        }

        private static boolean passes(int from, int to, int angle) {
            for (int degree = from; degree <= to; degree++) {
                if (Math.floorMod(degree, CYCLE) == angle) {
                    return true;
                }
            }
            return false;
        }

        Set<Integer> tdcs() {
            Set<Integer> tdcs = new TreeSet<>();
            fires.forEach(angle -> tdcs.addAll(List.of(angle, (angle + 360) % CYCLE)));
            return tdcs;
        }
    }

    /** A decompressor in whole degrees. */
    record Held(ValveId valve, int before, int after) {}

    /** An angle on offer, the valves that it reaches as bits, and whether it is a TDC. */
    private record Offered(int angle, int valves, boolean tdc) {}

    private final Engine engine;
    private final List<Offered> offered = new ArrayList<>();
    private int reachable;
    private @Nullable List<Offered> best;

    private ExhaustiveStops(Engine engine) {
        this.engine = engine;
    }

    /** The best smallest set of the given angles. */
    static List<Integer> best(Engine engine, Iterable<Integer> angles, boolean ownTdcOnly) {
        ExhaustiveStops search = new ExhaustiveStops(engine);
        angles.forEach(angle -> search.offer(angle, ownTdcOnly));
        search.dropRepeats();
        for (int size = 0; search.best == null; size++) {
            search.tryAll(0, size, 0, new ArrayList<>());
        }
        return search.best.stream().map(Offered::angle).toList();
    }

    private void offer(int angle, boolean ownTdcOnly) {
        List<ValveId> all = engine.spec().valves();
        int valves = 0;
        for (int v = 0; v < all.size(); v++) {
            boolean own = engine.fires.get(all.get(v).cylinder() - 1) == angle;
            if ((own || !ownTdcOnly) && engine.mayMeasure(all.get(v), angle)) {
                valves |= 1 << v;
            }
        }
        reachable |= valves;
        offered.add(new Offered(angle, valves, engine.tdcs().contains(angle)));
    }

    /** Of the angles that reach the same valves only the first can be best, or the first TDC: the whole circle is too much to try. */
    private void dropRepeats() {
        offered.sort(Comparator.comparingInt(Offered::angle));
        Set<List<Object>> seen = new HashSet<>();
        offered.removeIf(o -> o.valves == 0 || !seen.add(List.of(o.valves, o.tdc)));
    }

    private void tryAll(int from, int left, int covered, List<Offered> chosen) {
        if (left == 0) {
            if (covered == reachable && (best == null || ORDER.compare(chosen, best) < 0)) {
                best = List.copyOf(chosen);
            }
            return;
        }
        for (int i = from; i <= offered.size() - left; i++) {
            chosen.add(offered.get(i));
            tryAll(i + 1, left - 1, covered | offered.get(i).valves, chosen);
            chosen.remove(chosen.size() - 1);
        }
    }

    /** Of sets of the same size: less turning, then more stops at a TDC, then smaller angles. */
    private static final Comparator<List<Offered>> ORDER = Comparator.comparingInt(
                    (List<Offered> stops) -> stops.isEmpty() ? 0 : stops.get(stops.size() - 1).angle)
            .thenComparing(stops -> -stops.stream().filter(Offered::tdc).count())
            .thenComparing(stops -> stops.stream().mapToInt(Offered::angle).toArray(), Arrays::compare);
}
