package dev.lash.trend;

import static java.util.Objects.requireNonNull;

import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import java.io.Serializable;
import java.util.List;
import java.util.Optional;

/**
 * Trends and forecasts of all gaps of an engine.
 *
 * @param valves the gaps, in the order they were given
 * @param checkBy when the engine must come back
 */
public record EngineTrend(List<ValveTrend> valves, CheckBy checkBy) implements Serializable {
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
}
