package dev.lash.check;

import static java.util.Objects.requireNonNull;

import dev.lash.adjust.ShimBox;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.ReadingRule;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.Temperature;
import dev.lash.measure.Usage;
import java.io.Serializable;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** What was done at the bench: one check of one engine. Made by {@link #builder}; immutable. */
public final class CheckSheet implements Serializable {
    private static final long serialVersionUID = 1L;

    private final EngineSpec engine;
    private final GaugeSet gauges;
    private final ReadingRule rule;
    private final String machine;
    private final @Nullable LocalDate date;
    private final @Nullable Usage usage;
    private final @Nullable Temperature engineTemperature;
    private final List<ValveReading> valves;
    private final ShimBox shimBox;
    private final List<PastVisit> history;
    private final List<Symptom> symptoms;

    private CheckSheet(Builder b) {
        this.engine = b.engine;
        this.gauges = b.gauges;
        this.rule = b.rule;
        this.machine = b.machine;
        this.date = b.date;
        this.usage = b.usage;
        this.engineTemperature = b.engineTemperature;
        this.valves = List.copyOf(b.valves);
        this.shimBox = b.shimBox;
        this.history = List.copyOf(b.history);
        this.symptoms = b.symptoms;
    }

    /**
     * Starts a sheet.
     *
     * @param engine the engine
     * @param gauges the leaves that are owned
     * @return a builder, with the simple rule until told otherwise
     */
    public static Builder builder(EngineSpec engine, GaugeSet gauges) {
        return new Builder(engine, gauges);
    }

    /** {@return the engine} */
    public EngineSpec engine() {
        return engine;
    }

    /** {@return the leaves that are owned} */
    public GaugeSet gauges() {
        return gauges;
    }

    /** {@return how trials are read} */
    public ReadingRule rule() {
        return rule;
    }

    /** {@return which machine, free text; empty when not recorded} */
    public String machine() {
        return machine;
    }

    /** {@return when, or empty when not recorded} */
    public Optional<LocalDate> date() {
        return Optional.ofNullable(date);
    }

    /** {@return what the counter showed, or empty when not recorded} */
    public Optional<Usage> usage() {
        return Optional.ofNullable(usage);
    }

    /** {@return how warm the engine was, or empty when not recorded} */
    public Optional<Temperature> engineTemperature() {
        return Optional.ofNullable(engineTemperature);
    }

    /** {@return the readings, in the order of the sheet} */
    public List<ValveReading> valves() {
        return valves;
    }

    /**
     * Finds the reading of a gap.
     *
     * @param valve the valve
     * @param gap the gap
     * @return the reading, or empty when the sheet has none
     */
    public Optional<ValveReading> find(ValveId valve, Gap gap) {
        requireNonNull(valve, "valve");
        requireNonNull(gap, "gap");
        return valves.stream()
                .filter(v -> v.valve().equals(valve) && v.gap() == gap)
                .findFirst();
    }

    /** {@return the spare shims at the start of the check, before any was fitted} */
    public ShimBox shimBox() {
        return shimBox;
    }

    /**
     * The spare shims as they are now: with those that were taken out of the engine, without those that were fitted. A shim that was
     * in for one try only is taken to be back where it came from.
     *
     * @return the box
     */
    public ShimBox shimBoxNow() {
        ShimBox now = shimBox;
        List<ValveReading> changed = valves.stream()
                .filter(reading -> reading.findDone().orElse(null) instanceof Done.Fitted)
                .toList();
        // all that came out first: a shim may have gone from one valve to another
        for (ValveReading reading : changed) {
            now = reading.findShim().map(now::with).orElse(now);
        }
        for (ValveReading reading : changed) {
            now = reading.findShimNow().map(now::without).orElse(now);
        }
        return now;
    }

    /** {@return earlier checks, in the order of the sheet} */
    public List<PastVisit> history() {
        return history;
    }

    /** {@return what the rider noticed} */
    public List<Symptom> symptoms() {
        return symptoms;
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof CheckSheet sheet && sheet.parts().equals(parts());
    }

    @Override
    public int hashCode() {
        return parts().hashCode();
    }

    private List<Object> parts() {
        return List.of(
                engine,
                gauges,
                rule,
                machine,
                date(),
                usage(),
                engineTemperature(),
                valves,
                shimBox,
                history,
                symptoms);
    }

    /** {@return machine, date and engine, for a log} */
    @Override
    public String toString() {
        return "check of " + machine + " on " + date().map(Object::toString).orElse("an unrecorded date") + ", "
                + engine;
    }

    /** Collects the parts of a sheet. Used by one thread. */
    public static final class Builder {
        private final EngineSpec engine;
        private final GaugeSet gauges;
        private ReadingRule rule = ReadingRule.simple();
        private String machine = "";
        private @Nullable LocalDate date;
        private @Nullable Usage usage;
        private @Nullable Temperature engineTemperature;
        private final List<ValveReading> valves = new ArrayList<>();
        private final Set<String> seen = new HashSet<>();
        private ShimBox shimBox = ShimBox.empty();
        private final List<PastVisit> history = new ArrayList<>();
        private List<Symptom> symptoms = List.of();

        private Builder(EngineSpec engine, GaugeSet gauges) {
            this.engine = requireNonNull(engine, "engine");
            this.gauges = requireNonNull(gauges, "gauges");
        }

        /**
         * Sets how trials are read.
         *
         * @param readingRule the rule
         * @return this
         */
        public Builder rule(ReadingRule readingRule) {
            this.rule = requireNonNull(readingRule, "readingRule");
            return this;
        }

        /**
         * Says which machine.
         *
         * @param text free text
         * @return this
         */
        public Builder machine(String text) {
            this.machine = requireNonNull(text, "text");
            return this;
        }

        /**
         * Sets the date.
         *
         * @param day when
         * @return this
         */
        public Builder date(LocalDate day) {
            this.date = requireNonNull(day, "day");
            return this;
        }

        /**
         * Sets the usage.
         *
         * @param counter what the counter showed
         * @return this
         */
        public Builder usage(Usage counter) {
            this.usage = requireNonNull(counter, "counter");
            return this;
        }

        /**
         * Sets the engine temperature.
         *
         * @param temperature how warm the engine was
         * @return this
         */
        public Builder engineTemperature(Temperature temperature) {
            this.engineTemperature = requireNonNull(temperature, "temperature");
            return this;
        }

        /**
         * Adds a reading.
         *
         * @param reading the reading
         * @return this
         * @throws RejectedValueException if the engine does not have the valve, or the sheet already has it
         */
        public Builder valve(ValveReading reading) {
            requireGap(reading.valve(), reading.gap());
            if (!seen.add(reading.name())) {
                throw new RejectedValueException(
                        "valve", reading.name(), "is on the sheet twice", "each valve once", "put its trials together");
            }
            valves.add(reading);
            return this;
        }

        private void requireGap(ValveId valve, Gap gap) {
            if (!engine.valves().contains(valve)) {
                throw new RejectedValueException(
                        "valve",
                        valve.toString(),
                        "is not a valve of this engine",
                        "one of " + engine.valves(),
                        "correct the name, or add the valve to the engine");
            }
            if (!engine.gaps().contains(gap)) {
                throw new RejectedValueException(
                        "gap",
                        gap.word(),
                        "is not a gap of a " + engine.train().kind() + " train",
                        engine.gaps().stream().map(Gap::word).collect(Collectors.joining(" or ")),
                        "name the gap (\"gap\") for a desmodromic valve, and for no other");
            }
        }

        /**
         * Adds an earlier check.
         *
         * @param visit the check
         * @return this
         * @throws RejectedValueException if it names a valve or gap that the engine does not have, or one twice
         */
        public Builder pastVisit(PastVisit visit) {
            Set<String> named = new HashSet<>();
            for (PastVisit.PastReading reading : visit.valves()) {
                requireGap(reading.valve(), reading.gap());
                String name = ValveReading.name(reading.valve(), reading.gap());
                if (!named.add(name)) {
                    throw new RejectedValueException(
                            "valve",
                            name,
                            "is twice in the check of " + visit.date(),
                            "each valve once",
                            "put what was found and left together");
                }
            }
            history.add(visit);
            return this;
        }

        /**
         * Sets the spare shims, as they are before any is fitted.
         *
         * @param box the box
         * @return this
         */
        public Builder shimBox(ShimBox box) {
            this.shimBox = requireNonNull(box, "box");
            return this;
        }

        /**
         * Sets the earlier checks, in place of those there are.
         *
         * @param visits the checks
         * @return this
         * @throws RejectedValueException if one names a valve or gap that the engine does not have, or one twice
         */
        public Builder history(List<PastVisit> visits) {
            history.clear();
            visits.forEach(this::pastVisit);
            return this;
        }

        /**
         * Sets what the rider noticed.
         *
         * @param noticed the symptoms
         * @return this
         */
        public Builder symptoms(List<Symptom> noticed) {
            this.symptoms = List.copyOf(noticed);
            return this;
        }

        /** {@return the sheet} */
        public CheckSheet build() {
            return new CheckSheet(this);
        }
    }
}
