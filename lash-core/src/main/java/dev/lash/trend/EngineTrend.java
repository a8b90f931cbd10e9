package dev.lash.trend;

import static java.util.Objects.requireNonNull;

import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import java.io.Serializable;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * Trends and forecasts of all gaps of an engine.
 *
 * @param valves the gaps, in the order they were given
 * @param checkBy when the engine must come back
 */
public record EngineTrend(List<ValveTrend> valves, CheckBy checkBy) implements Serializable {
    private static final Comparator<ValveTrend> FEWEST =
            Comparator.comparingInt(valve -> valve.trend().checks());

    /**
     * Creates the trend of an engine.
     *
     * @param valves the gaps, in the order they were given
     * @param checkBy when the engine must come back
     */
    public EngineTrend {
        valves = List.copyOf(valves);
        requireNonNull(checkBy, "checkBy");
    }

    /**
     * Finds one gap.
     *
     * @param valve the valve
     * @param gap the gap
     * @return its trend, or empty where it was not given
     */
    public Optional<ValveTrend> find(ValveId valve, Gap gap) {
        return valves.stream()
                .filter(v -> v.task().history().valve().equals(valve)
                        && v.task().history().gap() == gap)
                .findFirst();
    }

    /** {@return the gap that sets the time to check, or empty where none does} */
    public Optional<ValveTrend> limiting() {
        return checkBy.findValve().flatMap(valve -> checkBy.findGap().flatMap(gap -> find(valve, gap)));
    }

    /**
     * How many checks the time to check rests on.
     *
     * @return those of the gap that sets it; where none does, those of the gap that has the fewest
     */
    public int checks() {
        return limiting()
                .or(() -> valves.stream().min(FEWEST))
                .map(valve -> valve.trend().checks())
                .orElse(0);
    }

    /**
     * What the time to check lacks: where the gap that sets it has few checks that of this gap, else that of the gap with the fewest.
     *
     * @return a clause for a person, or empty where every gap has checks enough
     * @see ValveTrend#caveat
     */
    public Optional<String> caveat() {
        return limiting()
                .flatMap(ValveTrend::caveat)
                .or(() -> valves.stream()
                        .filter(valve -> valve.caveat().isPresent())
                        .min(FEWEST)
                        .flatMap(ValveTrend::caveat));
    }
}
