package dev.lash.check;

import static java.util.Objects.requireNonNull;

import dev.lash.engine.EngineSpec;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.ReadingRule;
import java.io.Serializable;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What is known of a machine whose readings are imported.
 *
 * @param engine its engine
 * @param gauges the leaves it was read with; {@code null} where they are not known
 * @param rule how its trials are read
 */
public record ImportedMachine(EngineSpec engine, @Nullable GaugeSet gauges, ReadingRule rule) implements Serializable {
    /**
     * Creates it.
     *
     * @param engine its engine
     * @param gauges the leaves it was read with; {@code null} where they are not known
     * @param rule how its trials are read
     */
    public ImportedMachine {
        requireNonNull(engine, "engine");
        requireNonNull(rule, "rule");
    }

    /**
     * A machine read by the simple rule with leaves that are not known.
     *
     * @param engine its engine
     * @return the machine
     */
    public static ImportedMachine of(EngineSpec engine) {
        return new ImportedMachine(engine, null, ReadingRule.simple());
    }

    /** {@return the leaves it was read with, or empty where they are not known} */
    public Optional<GaugeSet> findGauges() {
        return Optional.ofNullable(gauges);
    }
}
