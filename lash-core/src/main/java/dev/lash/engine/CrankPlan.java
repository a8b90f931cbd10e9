package dev.lash.engine;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Ratio;
import java.io.Serializable;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * Where to stop the engine, and which valves to measure there. Made by {@link CrankPlanner}.
 *
 * @param stops the stops, in the order of the work
 * @param leftOver the valves that no stop on offer reaches, each with an angle at which it could be measured, in degrees after number
 *     1's compression TDC; the valve is missing here where there is no such angle
 * @param unreachable the valves that can be measured at no angle
 * @param timingAssumed whether the generic cam timing was assumed, since the engine's is not given
 */
public record CrankPlan(
        List<Stop> stops, Map<ValveId, Ratio> leftOver, List<ValveId> unreachable, boolean timingAssumed)
        implements Serializable {
    /**
     * Creates a plan.
     *
     * @param stops the stops, in the order of the work
     * @param leftOver the valves that no stop on offer reaches, each with an angle at which it could be measured
     * @param unreachable the valves that can be measured at no angle
     * @param timingAssumed whether the generic cam timing was assumed
     */
    public CrankPlan {
        stops = List.copyOf(stops);
        leftOver = Map.copyOf(new TreeMap<>(leftOver));
        unreachable = List.copyOf(unreachable);
    }

    /**
     * One stop.
     *
     * @param angle crank degrees after number 1's compression TDC in the maker's direction, from 0 to below 720
     * @param turn crank degrees on from the stop before, for the first from number 1's compression TDC
     * @param valves the valves to measure here, in the order of the spec; each valve is measured at the first stop that reaches it
     * @param possible every valve that could be measured here
     * @param sign how to know the stop
     */
    public record Stop(Ratio angle, Ratio turn, List<ValveId> valves, List<ValveId> possible, String sign)
            implements Serializable {
        /**
         * Creates a stop.
         *
         * @param angle crank degrees after number 1's compression TDC in the maker's direction, from 0 to below 720
         * @param turn crank degrees on from the stop before, for the first from number 1's compression TDC
         * @param valves the valves to measure here, in the order of the spec
         * @param possible every valve that could be measured here
         * @param sign how to know the stop
         */
        public Stop {
            requireNonNull(angle, "angle");
            requireNonNull(turn, "turn");
            valves = List.copyOf(valves);
            possible = List.copyOf(possible);
            requireNonNull(sign, "sign");
        }
    }

    /** {@return whether every valve is measured at some stop} */
    public boolean isComplete() {
        return leftOver.isEmpty() && unreachable.isEmpty();
    }

    /**
     * The stop at which a valve is measured.
     *
     * @param valve the valve
     * @return the stop, or empty when no stop reaches it
     */
    public Optional<Stop> stopFor(ValveId valve) {
        return stops.stream().filter(s -> s.valves.contains(valve)).findFirst();
    }
}
