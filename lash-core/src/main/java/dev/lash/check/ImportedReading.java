package dev.lash.check;

import static java.util.Objects.requireNonNull;

import dev.lash.engine.EngineSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.Usage;
import dev.lash.trend.ClearanceHistory;
import java.io.Serializable;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** An accepted row: one gap of one valve at one visit. Made by a {@link ValidationRun}; immutable. */
public final class ImportedReading implements Serializable {
    private static final long serialVersionUID = 1L;

    private final String machine;
    private final int day;
    private final Counter counter;
    private final ValveId valve;
    private final Gap gap;
    private final Span found;
    private final boolean adjusted;
    private final Span left;
    private final long shim;
    private final long fitted;

    ImportedReading(RowReading row) {
        this.machine = row.machine.name;
        this.day = row.day;
        this.counter = requireNonNull(row.counter);
        this.valve = row.machine.view.valve(row.slot);
        this.gap = row.machine.view.gap(row.slot);
        this.found = row.found;
        this.adjusted = row.adjusted;
        this.left = row.left;
        this.shim = row.shim;
        this.fitted = row.fitted;
    }

    /** {@return which machine} */
    public String machine() {
        return machine;
    }

    /** {@return when} */
    public LocalDate date() {
        return LocalDate.ofEpochDay(day);
    }

    /** {@return what the counter showed} */
    public Usage usage() {
        return counter.usage();
    }

    /** {@return the valve} */
    public ValveId valve() {
        return valve;
    }

    /** {@return which of its gaps} */
    public Gap gap() {
        return gap;
    }

    /** {@return the clearance as found} */
    public LengthInterval found() {
        return found.interval();
    }

    /** {@return whether the clearance was adjusted} */
    public boolean isAdjusted() {
        return adjusted;
    }

    /** {@return the clearance as left: as found where nothing was done, without ends where that is not recorded} */
    public LengthInterval left() {
        return (adjusted ? left : found).interval();
    }

    /** {@return the shim found in place, where recorded} */
    public Optional<Length> shim() {
        return shim > 0 ? Optional.of(Length.ofNanometres(shim)) : Optional.empty();
    }

    /** {@return the shim fitted instead, where recorded} */
    public Optional<Length> fitted() {
        return fitted > 0 ? Optional.of(Length.ofNanometres(fitted)) : Optional.empty();
    }

    /**
     * The histories of one machine, for a wear trend: one for each gap with readings, in the order of the engine's valves. Readings
     * are put in the order of date and usage; an adjustment starts a new segment, unless the shims before and after it are known.
     *
     * @param engine the engine of the machine
     * @param readings its readings, in any order
     * @return the histories
     * @throws RejectedValueException if the readings are not all of one machine, or their usages fall with time
     */
    public static List<ClearanceHistory> histories(EngineSpec engine, List<ImportedReading> readings) {
        requireNonNull(engine, "engine");
        List<ImportedReading> sorted = readings.stream()
                .sorted(Comparator.<ImportedReading>comparingInt(r -> r.day).thenComparingLong(r -> r.counter.key()))
                .toList();
        if (sorted.stream().map(r -> r.machine).distinct().count() > 1) {
            throw new RejectedValueException(
                    "readings",
                    sorted.size() + " readings",
                    "are of more than one machine",
                    "readings of one machine",
                    "sort them by machine first");
        }
        List<ClearanceHistory> histories = new ArrayList<>();
        for (ValveId valve : engine.valves()) {
            for (Gap gap : engine.gaps()) {
                List<ImportedReading> own = sorted.stream()
                        .filter(r -> r.valve.equals(valve) && r.gap == gap)
                        .toList();
                if (!own.isEmpty()) {
                    histories.add(history(engine, valve, gap, own));
                }
            }
        }
        return List.copyOf(histories);
    }

    private static ClearanceHistory history(EngineSpec engine, ValveId valve, Gap gap, List<ImportedReading> own) {
        boolean shims = engine.train().shimRatio().isPresent();
        Ratio ratio = engine.train().shimRatio().orElse(Ratio.ONE);
        ClearanceHistory.Builder builder = ClearanceHistory.builder(valve, gap);
        Optional<Length> in = Optional.empty();
        for (ImportedReading reading : own) {
            Optional<Length> before = in;
            in = shims ? reading.shim().or(() -> before) : Optional.empty();
            in.ifPresent(size -> builder.shim(size, Length.ZERO, ratio));
            builder.read(reading.usage(), reading.found());
            if (reading.adjusted) {
                Optional<Length> now = shims ? reading.fitted() : Optional.empty();
                if (in.isEmpty() || now.isEmpty()) {
                    builder.adjusted();
                }
                now.ifPresent(size -> builder.shim(size, Length.ZERO, ratio));
                builder.read(reading.usage(), reading.left());
                in = now;
            }
        }
        return builder.build();
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof ImportedReading r && r.parts().equals(parts());
    }

    @Override
    public int hashCode() {
        return Objects.hash(machine, day, valve);
    }

    private List<Object> parts() {
        return List.of(machine, day, counter, valve, gap, found, adjusted, left, shim, fitted);
    }

    /** {@return machine, day, valve and what was found, for a log} */
    @Override
    public String toString() {
        return machine + ", " + date() + ", " + usage() + ", " + valve + ": " + found();
    }
}
