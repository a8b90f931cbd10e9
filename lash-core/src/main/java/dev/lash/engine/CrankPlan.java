package dev.lash.engine;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Ratio;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

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
        // in the order given: that of Map.copyOf changes from run to run
        leftOver = Collections.unmodifiableMap(new LinkedHashMap<>(leftOver));
        leftOver.forEach((valve, angle) -> {
            requireNonNull(valve, "valve");
            requireNonNull(angle, "angle");
        });
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
        requireNonNull(valve, "valve");
        return stops.stream().filter(s -> s.valves.contains(valve)).findFirst();
    }

    /** {@return the stops as a mechanic reads them, one text for each, in the order of the work} */
    public List<String> steps() {
        List<String> steps = new ArrayList<>();
        Ratio before = Ratio.ZERO;
        for (Stop stop : stops) {
            steps.add(turning(stop, steps.isEmpty() || before.signum() == 0) + " " + upper(stop.sign)
                    + ". See each follower slack, the lobe pointing away, then measure " + names(stop.valves) + ".");
            before = stop.angle;
        }
        return steps;
    }

    private static String turning(Stop stop, boolean fromNumber1) {
        if (stop.turn.signum() == 0) {
            return "Stay with number 1 on compression.";
        }
        return (fromNumber1 ? "From number 1 on compression" : "From there") + ", turn on "
                + CrankWords.degrees(stop.turn) + " degrees.";
    }

    private static String upper(String text) {
        return text.isEmpty() ? text : Character.toUpperCase(text.charAt(0)) + text.substring(1);
    }

    private static String names(List<ValveId> valves) {
        return valves.stream().map(ValveId::toString).collect(Collectors.joining(", "));
    }

    /** {@return a sentence for each valve that no stop reaches, with an angle at which it could be measured where there is one} */
    public List<String> notReached() {
        List<String> texts = new ArrayList<>();
        leftOver.forEach((valve, angle) -> texts.add(
                "No stop on offer reaches " + valve + ": it could be measured " + CrankWords.position(angle) + "."));
        unreachable.forEach(valve -> texts.add(valve + " can be measured at no angle: see the manual."));
        return texts;
    }

    /**
     * What a mechanic must know beside the stops: the valves that no stop reaches, what was assumed, and how to turn the engine.
     *
     * @return the notes; none for an engine without clearance
     */
    public List<String> notes() {
        List<String> notes = new ArrayList<>(notReached());
        if (stops.isEmpty() && notes.isEmpty()) {
            return List.of();
        }
        if (timingAssumed) {
            notes.add(
                    "The engine's cam timing is not given: a mild road cam is assumed. The follower decides, not the plan.");
        }
        notes.add(
                "Turn by hand, in the maker's direction. Past a stop go round again, never back: a decompressor or chain "
                        + "tensioner may object.");
        return notes;
    }
}
