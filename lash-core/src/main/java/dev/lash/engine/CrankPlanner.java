package dev.lash.engine;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * Finds the fewest crank stops at which every valve can be measured. Immutable and thread-safe.
 *
 * <p>A valve may be measured where its follower is on the base circle ({@link CamTiming#isOnBaseCircle}) and no decompressor holds it.
 * A cylinder's phase at crank angle a is a minus its firing angle, within 720 degrees; angle 0 is number 1's compression TDC and angles
 * run in the maker's direction. The stops are an exact smallest set cover over the angles on offer; of several smallest sets the one that
 * needs least turning from number 1's compression TDC, then the one with most stops at a TDC, then the one with the smaller angles.
 *
 * <p>Where the engine's timing is not given the generic cam is assumed, and the plan says so. Published two-position tables name fewer
 * valves at a stop than the model allows where the table's engine has a longer cam.
 */
public final class CrankPlanner {
    private static final Ratio TURN = Ratio.of(360, 1);
    private static final Ratio CYCLE = Ratio.of(720, 1);
    private static final CrankPlanner TDC_MARKS = new CrankPlanner(Offer.TDC_MARKS, List.of());

    /** Which angles are on offer. */
    private enum Offer {
        TDC_MARKS,
        OWN_COMPRESSION_TDC,
        MARKS,
        ANY_ANGLE
    }

    private final Offer offer;
    private final List<Ratio> marks;

    private CrankPlanner(Offer offer, List<Ratio> marks) {
        this.offer = offer;
        this.marks = marks;
    }

    /** {@return the planner that stops at the TDC marks of the cylinders only, on either turn} */
    public static CrankPlanner atTdcMarks() {
        return TDC_MARKS;
    }

    /** {@return the planner that measures each valve at its own cylinder's compression TDC only} */
    public static CrankPlanner atOwnCompressionTdc() {
        return new CrankPlanner(Offer.OWN_COMPRESSION_TDC, List.of());
    }

    /** {@return the planner for a degree wheel: any angle} */
    public static CrankPlanner atAnyAngle() {
        return new CrankPlanner(Offer.ANY_ANGLE, List.of());
    }

    /**
     * The planner that stops at the marks of a flywheel only, on either turn.
     *
     * @param degrees the marks, in crank degrees after number 1's TDC, each from 0 to below 360
     * @return the planner
     * @throws RejectedValueException if there are none or one is out of range
     */
    public static CrankPlanner atMarks(Collection<Ratio> degrees) {
        for (Ratio mark : degrees) {
            if (mark.signum() < 0 || mark.compareTo(TURN) >= 0) {
                throw new RejectedValueException(
                        "mark",
                        mark + " deg",
                        "is out of range",
                        "0 to below 360 deg",
                        "count from number 1's TDC mark");
            }
        }
        if (degrees.isEmpty()) {
            throw new RejectedValueException("marks", "none", "are missing", "at least one mark", "list the marks");
        }
        return new CrankPlanner(Offer.MARKS, List.copyOf(degrees));
    }

    /**
     * Plans the stops for an engine.
     *
     * @param engine the engine
     * @return the plan; without stops for a train that has no clearance
     */
    public CrankPlan plan(EngineSpec engine) {
        boolean assumed = engine.camTiming().isEmpty();
        if (engine.train() instanceof ValveTrain.Hydraulic) {
            return new CrankPlan(List.of(), Map.of(), List.of(), assumed);
        }
        Map<Ratio, List<ValveId>> reached = new TreeMap<>();
        for (Ratio angle : candidates(engine)) {
            List<ValveId> here = offer == Offer.OWN_COMPRESSION_TDC
                    ? measurableAt(engine, angle).stream()
                            .filter(v -> phase(engine, v.cylinder(), angle).signum() == 0)
                            .toList()
                    : measurableAt(engine, angle);
            if (!here.isEmpty()) {
                reached.put(angle, here);
            }
        }
        TreeSet<ValveId> reachable = new TreeSet<>();
        reached.values().forEach(reachable::addAll);
        List<Ratio> chosen = new StopCover(reached, tdcs(engine)).smallest(reachable);
        Map<ValveId, Ratio> leftOver = new LinkedHashMap<>();
        List<ValveId> unreachable = new ArrayList<>();
        for (ValveId valve : engine.valves()) {
            if (!reachable.contains(valve)) {
                Optional<Ratio> angle = angleFor(engine, valve);
                angle.ifPresentOrElse(a -> leftOver.put(valve, a), () -> unreachable.add(valve));
            }
        }
        return new CrankPlan(stops(engine, chosen, reached), leftOver, unreachable, assumed);
    }

    /**
     * Every valve that can be measured at an angle.
     *
     * @param engine the engine
     * @param angle crank degrees after number 1's compression TDC
     * @return the valves, in the order of the spec
     */
    public static List<ValveId> measurableAt(EngineSpec engine, Ratio angle) {
        CamTiming timing = engine.camTiming().orElse(CamTiming.GENERIC);
        return engine.valves().stream()
                .filter(valve -> {
                    Ratio phase = phase(engine, valve.cylinder(), angle);
                    boolean held = engine.decompressor()
                            .filter(d -> d.valve().equals(valve) && d.holdsAt(phase))
                            .isPresent();
                    return !held && timing.isOnBaseCircle(valve.role(), phase);
                })
                .toList();
    }

    /**
     * The phase of a cylinder: crank degrees after its compression TDC.
     *
     * @param engine the engine
     * @param cylinder the cylinder
     * @param angle crank degrees after number 1's compression TDC
     * @return degrees, from 0 to below 720
     */
    public static Ratio phase(EngineSpec engine, int cylinder, Ratio angle) {
        return withinCycle(angle.minus(engine.firingOrder().firingAngle(cylinder)));
    }

    private static Ratio withinCycle(Ratio angle) {
        Ratio cycles = Ratio.of(angle.dividedBy(CYCLE).floor(0));
        return angle.minus(cycles.times(CYCLE));
    }

    /** Every TDC of every cylinder, on both turns. */
    private static Set<Ratio> tdcs(EngineSpec engine) {
        TreeSet<Ratio> angles = new TreeSet<>();
        for (int cylinder : engine.firingOrder().order()) {
            Ratio angle = engine.firingOrder().firingAngle(cylinder);
            angles.add(angle);
            angles.add(withinCycle(angle.plus(TURN)));
        }
        return angles;
    }

    private Set<Ratio> candidates(EngineSpec engine) {
        return switch (offer) {
            case TDC_MARKS, OWN_COMPRESSION_TDC -> tdcs(engine);
            case MARKS -> {
                TreeSet<Ratio> angles = new TreeSet<>();
                marks.forEach(mark -> {
                    angles.add(mark);
                    angles.add(mark.plus(TURN));
                });
                yield angles;
            }
            case ANY_ANGLE -> ends(engine);
        };
    }

    /** Where a valve comes to rest or leaves its rest: a smallest set can always be moved onto these angles, and onto TDCs. */
    private static Set<Ratio> ends(EngineSpec engine) {
        CamTiming timing = engine.camTiming().orElse(CamTiming.GENERIC);
        TreeSet<Ratio> angles = new TreeSet<>(tdcs(engine));
        angles.add(Ratio.ZERO);
        for (ValveId valve : engine.valves()) {
            Ratio fires = engine.firingOrder().firingAngle(valve.cylinder());
            angles.add(withinCycle(fires.plus(timing.liftTo(valve.role()))));
            angles.add(withinCycle(fires.plus(timing.liftFrom(valve.role()))));
            engine.decompressor().filter(d -> d.valve().equals(valve)).ifPresent(d -> {
                // just clear of the decompressor, by a degree
                angles.add(withinCycle(fires.plus(d.after()).plus(Ratio.ONE)));
                angles.add(withinCycle(fires.minus(d.before()).minus(Ratio.ONE)));
            });
        }
        return angles;
    }

    private static Optional<Ratio> angleFor(EngineSpec engine, ValveId valve) {
        return ends(engine).stream()
                .filter(angle -> measurableAt(engine, angle).contains(valve))
                .findFirst();
    }

    private static List<CrankPlan.Stop> stops(
            EngineSpec engine, List<Ratio> chosen, Map<Ratio, List<ValveId>> reached) {
        List<CrankPlan.Stop> stops = new ArrayList<>();
        TreeSet<ValveId> measured = new TreeSet<>();
        Ratio before = Ratio.ZERO;
        for (Ratio angle : chosen) {
            List<ValveId> possible = requireNonNull(reached.get(angle), "angle");
            List<ValveId> here =
                    possible.stream().filter(v -> !measured.contains(v)).toList();
            measured.addAll(here);
            stops.add(new CrankPlan.Stop(angle, angle.minus(before), here, possible, sign(engine, angle)));
            before = angle;
        }
        return stops;
    }

    /** How to know a stop: which cylinder is at TDC, and whether its followers are slack (compression) or both move (overlap). */
    private static String sign(EngineSpec engine, Ratio angle) {
        String onCompression = cylindersAt(engine, angle, Ratio.ZERO);
        String onOverlap = cylindersAt(engine, angle, TURN);
        String slack = onCompression.isEmpty()
                ? ""
                : "TDC mark of " + onCompression + ", on compression: its followers are slack";
        String moving = onOverlap.isEmpty()
                ? ""
                : (slack.isEmpty() ? "TDC mark of " + onOverlap + ", on overlap: " : "; " + onOverlap + " on overlap: ")
                        + "its followers both move as the crank is rocked";
        return slack.isEmpty() && moving.isEmpty()
                ? angle + " degrees after number 1's compression TDC, by degree wheel or mark"
                : slack + moving;
    }

    private static String cylindersAt(EngineSpec engine, Ratio angle, Ratio phase) {
        return engine.firingOrder().order().stream()
                .filter(c -> phase(engine, c, angle).equals(phase))
                .sorted()
                .map(c -> "number " + c)
                .collect(Collectors.joining(" and "));
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof CrankPlanner planner && planner.offer == offer && planner.marks.equals(marks);
    }

    @Override
    public int hashCode() {
        return 31 * offer.name().hashCode() + marks.hashCode();
    }
}
