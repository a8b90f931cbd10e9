package dev.lash.engine;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * Finds the fewest crank stops at which every valve can be measured. Immutable and thread-safe.
 *
 * <p>A valve may be measured where its follower is on the base circle ({@link CamTiming#isOnBaseCircle}) and no decompressor holds it.
 * A cylinder's phase at crank angle a is a minus its firing angle, within 720 degrees; angle 0 is number 1's compression TDC and angles
 * run in the maker's direction. The stops are an exact smallest set cover over the angles on offer; of several smallest sets the one that
 * needs least turning from number 1's compression TDC, then the one with most stops at a TDC, then the one with the smaller angles.
 *
 * <p>Where the engine's timing is not given the generic cam is assumed, and the plan says so.
 *
 * <p>At a stop the model often allows more valves than a published table names, and it never needs more stops. There are three
 * reasons. A table names each valve once, at one of the stops that would do. A table holds for every engine of its family, so for the
 * longest cam among them: no table that we know measures an intake valve before 90 degrees before compression TDC or after 270
 * degrees past it, or an exhaust valve outside 270 before to 90 past, while the generic cam rests from 115 before to 330 past, and
 * from 330 before to 115 past. And some tables keep to one cylinder at a stop, so that a mechanic cannot mix valves up. Give the engine's own timing where the cam is a long one; and whatever a plan says, the follower must be seen slack.
 */
public final class CrankPlanner {
    private static final Ratio TURN = Ratio.of(360, 1);
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
        return new CrankPlanner(Offer.MARKS, List.copyOf(new TreeSet<>(degrees)));
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
        CrankCycle cycle = new CrankCycle(engine);
        SortedMap<Ratio, List<ValveId>> reached = reached(cycle);
        List<Ratio> chosen = new StopCover(reached, cycle.tdcs()).smallest();

        Set<ValveId> reachable = new HashSet<>();
        reached.values().forEach(reachable::addAll);
        Map<ValveId, Ratio> leftOver = new LinkedHashMap<>();
        List<ValveId> unreachable = new ArrayList<>();
        for (ValveId valve : engine.valves()) {
            if (!reachable.contains(valve)) {
                angleFor(cycle, valve).ifPresentOrElse(a -> leftOver.put(valve, a), () -> unreachable.add(valve));
            }
        }
        return new CrankPlan(stops(cycle, chosen, reached), leftOver, unreachable, assumed);
    }

    /**
     * Every valve that can be measured at an angle.
     *
     * @param engine the engine
     * @param angle crank degrees after number 1's compression TDC
     * @return the valves, in the order of the spec
     */
    public static List<ValveId> measurableAt(EngineSpec engine, Ratio angle) {
        requireNonNull(angle, "angle");
        return List.copyOf(new CrankCycle(engine).measurableAt(angle));
    }

    /**
     * How to find the place that angles are counted from, number 1's compression TDC: whether its followers are slack there, as far as
     * the cam timing and a decompressor let them, and how the other TDC is told from it.
     *
     * @param engine the engine
     * @return a sentence for a mechanic
     */
    public static String findNumber1(EngineSpec engine) {
        return CrankWords.findNumber1(new CrankCycle(engine));
    }

    /**
     * Where a valve is measured when it is taken by itself: its cylinder's compression TDC, or where the cam or a decompressor forbids
     * that, the first place after it that they allow.
     *
     * @param engine the engine
     * @param valve one of its valves
     * @return such as {@code "compression TDC"} or {@code "31 degrees after compression TDC"}, of the valve's own cylinder; empty where
     *     it can be measured at no angle
     */
    public static Optional<String> placeToMeasure(EngineSpec engine, ValveId valve) {
        requireNonNull(valve, "valve");
        CrankCycle cycle = new CrankCycle(engine);
        return cycle.turningPoints().stream()
                .filter(angle -> cycle.measurableAt(angle).contains(valve))
                .map(angle -> cycle.phase(valve.cylinder(), angle))
                .min(Comparator.naturalOrder())
                .map(CrankWords::place);
    }

    /**
     * The phase of a cylinder: crank degrees after its compression TDC.
     *
     * @param engine the engine
     * @param cylinder the cylinder
     * @param angle crank degrees after number 1's compression TDC
     * @return degrees, from 0 to below 720
     * @throws RejectedValueException if the engine has no such cylinder
     */
    public static Ratio phase(EngineSpec engine, int cylinder, Ratio angle) {
        return new CrankCycle(engine).phase(cylinder, angle);
    }

    /** The valves that each angle on offer reaches, without the angles that reach none. */
    private SortedMap<Ratio, List<ValveId>> reached(CrankCycle cycle) {
        TreeMap<Ratio, List<ValveId>> reached = new TreeMap<>();
        for (Ratio angle : candidates(cycle)) {
            List<ValveId> here = cycle.measurableAt(angle).stream()
                    .filter(valve -> isOffered(cycle, valve, angle))
                    .toList();
            if (!here.isEmpty()) {
                reached.put(angle, here);
            }
        }
        return reached;
    }

    private boolean isOffered(CrankCycle cycle, ValveId valve, Ratio angle) {
        return offer != Offer.OWN_COMPRESSION_TDC
                || cycle.phase(valve.cylinder(), angle).signum() == 0;
    }

    private Set<Ratio> candidates(CrankCycle cycle) {
        return switch (offer) {
            case TDC_MARKS, OWN_COMPRESSION_TDC -> cycle.tdcs();
            case MARKS -> onBothTurns(marks);
            case ANY_ANGLE -> cycle.turningPoints();
        };
    }

    private static Set<Ratio> onBothTurns(List<Ratio> marks) {
        TreeSet<Ratio> angles = new TreeSet<>(marks);
        marks.forEach(mark -> angles.add(mark.plus(TURN)));
        return angles;
    }

    /** The first angle at which a valve could be measured, whatever is on offer. */
    private static Optional<Ratio> angleFor(CrankCycle cycle, ValveId valve) {
        return cycle.turningPoints().stream()
                .filter(angle -> cycle.measurableAt(angle).contains(valve))
                .findFirst();
    }

    private static List<CrankPlan.Stop> stops(CrankCycle cycle, List<Ratio> chosen, Map<Ratio, List<ValveId>> reached) {
        List<CrankPlan.Stop> stops = new ArrayList<>();
        Set<ValveId> measured = new HashSet<>();
        Ratio before = Ratio.ZERO;
        for (Ratio angle : chosen) {
            List<ValveId> possible = requireNonNull(reached.get(angle), "angle");
            // each valve at the first stop that reaches it
            List<ValveId> here = possible.stream().filter(measured::add).toList();
            stops.add(new CrankPlan.Stop(angle, angle.minus(before), here, possible, CrankWords.sign(cycle, angle)));
            before = angle;
        }
        return stops;
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
