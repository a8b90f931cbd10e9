package dev.lash.engine;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Ratio;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;

/** An engine through its cycle of two turns: where each cylinder is at a crank angle, and which valves may be measured there. */
final class CrankCycle {
    static final Ratio TURN = Ratio.of(360, 1);
    private static final Ratio CYCLE = Ratio.of(720, 1);
    private static final Ratio HALF = Ratio.of(1, 2);

    private final EngineSpec engine;
    private final CamTiming timing;
    private final Map<Integer, Ratio> firingAngles = new HashMap<>();
    private final Map<ValveRole, CamTiming.Lift> lifts = new EnumMap<>(ValveRole.class);

    CrankCycle(EngineSpec engine) {
        this.engine = engine;
        this.timing = engine.camTiming().orElse(CamTiming.GENERIC);
        for (ValveRole role : ValveRole.values()) {
            lifts.put(role, timing.lift(role));
        }
        FiringOrder order = engine.firingOrder();
        order.order().forEach(cylinder -> firingAngles.put(cylinder, order.firingAngle(cylinder)));
    }

    /** The same crank angle from 0 to below 720. */
    static Ratio within(Ratio angle) {
        if (angle.signum() >= 0 && angle.compareTo(CYCLE) < 0) {
            return angle;
        }
        Ratio cycles = Ratio.of(angle.dividedBy(CYCLE).floor(0));
        return angle.minus(cycles.times(CYCLE));
    }

    EngineSpec engine() {
        return engine;
    }

    /** How far a cylinder is past its compression TDC, from 0 to below 720. */
    Ratio phase(int cylinder, Ratio angle) {
        return within(angle.minus(firingAngle(cylinder)));
    }

    /** The valves that may be measured at an angle, in the order of the spec. */
    List<ValveId> measurableAt(Ratio angle) {
        Map<Integer, Ratio> phases = new HashMap<>();
        Map<Integer, Set<ValveRole>> resting = new HashMap<>();
        List<ValveId> valves = new ArrayList<>();
        for (ValveId valve : engine.valves()) {
            Ratio phase = phases.computeIfAbsent(valve.cylinder(), cylinder -> phase(cylinder, angle));
            Set<ValveRole> roles = resting.computeIfAbsent(valve.cylinder(), cylinder -> rolesAtRest(phase));
            if (roles.contains(valve.role()) && !isHeld(valve, phase)) {
                valves.add(valve);
            }
        }
        return valves;
    }

    /** The roles whose followers are on the base circle. */
    Set<ValveRole> rolesAtRest(Ratio phase) {
        Set<ValveRole> roles = EnumSet.noneOf(ValveRole.class);
        lifts.forEach((role, lift) -> {
            if (lift.isAtRest(phase)) {
                roles.add(role);
            }
        });
        return roles;
    }

    private boolean isHeld(ValveId valve, Ratio phase) {
        return decompressorOf(valve).filter(device -> device.holdsAt(phase)).isPresent();
    }

    private Optional<Decompressor> decompressorOf(ValveId valve) {
        return engine.decompressor().filter(device -> device.valve().equals(valve));
    }

    /** Every TDC of every cylinder, on both turns. */
    SortedSet<Ratio> tdcs() {
        TreeSet<Ratio> angles = new TreeSet<>();
        for (Ratio angle : firingAngles.values()) {
            angles.add(angle);
            angles.add(within(angle.plus(TURN)));
        }
        return angles;
    }

    /**
     * The angles that matter when any may be chosen. A stop reaches the same valves when it is moved down to the nearest of these:
     * number 1's compression TDC, or where some valve comes to rest. So a smallest set with the least turning is found among them. The
     * TDCs are there for the tie-break, and the ends of rest since a decompressor may leave no first angle of its own.
     */
    SortedSet<Ratio> turningPoints() {
        TreeSet<Ratio> angles = new TreeSet<>(tdcs());
        angles.add(Ratio.ZERO);
        for (ValveId valve : engine.valves()) {
            Ratio fires = firingAngle(valve.cylinder());
            angles.add(within(fires.plus(timing.liftTo(valve.role()))));
            angles.add(within(fires.plus(timing.liftFrom(valve.role()))));
            decompressorOf(valve).ifPresent(device -> addClearOf(device, fires, angles));
        }
        return angles;
    }

    /** Clear of the decompressor by a degree, or in the middle where it lets go for less than two. */
    private static void addClearOf(Decompressor device, Ratio fires, Set<Ratio> angles) {
        if (!device.isKnown()) {
            return;
        }
        Ratio letsGo = device.findAfter().orElseThrow();
        Ratio holdsAgain = CYCLE.minus(device.findBefore().orElseThrow());
        angles.add(within(fires.plus(letsGo).plus(Ratio.ONE)));
        angles.add(within(fires.plus(holdsAgain).minus(Ratio.ONE)));
        angles.add(within(fires.plus(letsGo.plus(holdsAgain).times(HALF))));
    }

    private Ratio firingAngle(int cylinder) {
        // refuses a cylinder that the engine does not have
        return firingAngles.containsKey(cylinder)
                ? requireNonNull(firingAngles.get(cylinder))
                : engine.firingOrder().firingAngle(cylinder);
    }
}
