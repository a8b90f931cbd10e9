package dev.lash.trend;

import static java.util.Objects.requireNonNull;

import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.Usage;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What was read of one gap over the life of an engine, cut into segments: an adjustment starts a new one, since it moves the line.
 *
 * <p>In a shim train clearance plus shim times its ratio does not change when a shim is swapped, so where the shims are known one
 * segment runs on through every swap. Readings are then kept with that {@code offset}; their sum is the level. What is not known of a
 * shim's size is one error that its readings share, so it matters only between readings with different shims: offsets count from the
 * last shim of a segment as if its size were sure, and those of the shims before it are as wide as both sizes are unsure.
 *
 * <pre>{@code
 * ClearanceHistory history = ClearanceHistory.builder(ValveId.parse("1-in-1"), Gap.ONLY)
 *         .read(Usage.parse("6000 km"), LengthInterval.parse("(0.12, 0.15) mm"))
 *         .adjusted()
 *         .read(Usage.parse("6000 km"), LengthInterval.parse("(0.15, 0.18) mm"))
 *         .read(Usage.parse("12000 km"), LengthInterval.parse("(0.12, 0.15) mm"))
 *         .build();
 * }</pre>
 *
 * @param valve the valve
 * @param gap which of its gaps
 * @param segments the segments, oldest first; none where nothing was read
 */
public record ClearanceHistory(ValveId valve, Gap gap, List<Segment> segments) implements Serializable {
    /**
     * Creates a history.
     *
     * @param valve the valve
     * @param gap which of its gaps
     * @param segments the segments, oldest first; none where nothing was read
     * @throws RejectedValueException if usages fall, or are of different kinds
     */
    public ClearanceHistory {
        requireNonNull(valve, "valve");
        requireNonNull(gap, "gap");
        segments = List.copyOf(segments);
        Usage last = null;
        for (Segment segment : segments) {
            for (Reading reading : segment.readings) {
                if (last != null && last.compareAmount(reading.usage) > 0) {
                    throw new RejectedValueException(
                            "usage",
                            reading.usage.toString(),
                            "is less than that of the reading before it, " + last,
                            "usages that do not fall",
                            "put the readings in the order of use; count on where a counter was replaced");
                }
                last = reading.usage;
            }
        }
    }

    /**
     * Readings between which the clearance was not adjusted, or only by shims of known size.
     *
     * @param readings the readings, oldest first; at least one
     */
    public record Segment(List<Reading> readings) implements Serializable {
        /**
         * Creates a segment.
         *
         * @param readings the readings, oldest first; at least one
         * @throws RejectedValueException if there is none
         */
        public Segment {
            readings = List.copyOf(readings);
            if (readings.isEmpty()) {
                throw new RejectedValueException(
                        "segment", "no readings", "is empty", "at least one reading", "leave the segment out");
            }
        }
    }

    /**
     * One reading.
     *
     * @param usage what the counter showed
     * @param clearance the clearance read
     * @param offset what the shim in place adds to the level; 0 where shims do not come in
     */
    public record Reading(Usage usage, LengthInterval clearance, LengthInterval offset) implements Serializable {
        /**
         * Creates a reading.
         *
         * @param usage what the counter showed
         * @param clearance the clearance read
         * @param offset what the shim in place adds to the level, with both ends; 0 where shims do not come in
         * @throws RejectedValueException if the offset lacks an end
         */
        public Reading {
            requireNonNull(usage, "usage");
            requireNonNull(clearance, "clearance");
            if (!offset.isBounded()) {
                throw new RejectedValueException(
                        "offset", offset.toString(), "lacks an end", "an interval with both ends", "measure the shim");
            }
        }

        /** {@return clearance and offset together: what wear alone changes} */
        public LengthInterval level() {
            return clearance.plus(offset);
        }

        /** {@return whether it says anything: whether it has an end} */
        public boolean isInformative() {
            return clearance.lower().isPresent() || clearance.upper().isPresent();
        }
    }

    /**
     * Starts a history.
     *
     * @param valve the valve
     * @param gap which of its gaps
     * @return a builder without readings
     */
    public static Builder builder(ValveId valve, Gap gap) {
        return new Builder(valve, gap);
    }

    /** {@return all readings, oldest first} */
    public List<Reading> readings() {
        return segments.stream().flatMap(s -> s.readings.stream()).toList();
    }

    /** {@return the last reading, or empty where nothing was read} */
    public Optional<Reading> last() {
        List<Reading> all = readings();
        return all.isEmpty() ? Optional.empty() : Optional.of(all.get(all.size() - 1));
    }

    /** {@return how many checks say something: usages with an informative reading} */
    public int checks() {
        int checks = 0;
        Usage last = null;
        for (Reading reading : readings()) {
            if (reading.isInformative() && (last == null || last.compareAmount(reading.usage) != 0)) {
                checks++;
                last = reading.usage;
            }
        }
        return checks;
    }

    /**
     * What wear took off the clearance in all.
     *
     * @param since what the counter showed at the first reading; where the engine was new then, the fall is that since new
     * @param fall how far the clearance fell; negative where it grew. In a shim train, divided by the ratio, that much shim was used
     *     up by valve and seat
     */
    public record Wear(Usage since, LengthInterval fall) implements Serializable {
        /**
         * Creates it.
         *
         * @param since what the counter showed at the first reading
         * @param fall how far the clearance fell; negative where it grew
         */
        public Wear {
            requireNonNull(since, "since");
            requireNonNull(fall, "fall");
        }
    }

    /**
     * How far the clearance fell by wear from the first reading to the last, whatever was adjusted between: the falls of the level
     * within the segments, added up. Certain, so wide: each segment adds the width of two readings.
     *
     * @return the fall; empty where there are not two usages, an end of a reading that counts is missing on both sides, or use went by
     *     between an adjustment and the reading after it, of which nothing is known
     */
    public Optional<Wear> wear() {
        Optional<Reading> last = last();
        if (last.isEmpty()) {
            return Optional.empty();
        }
        Usage since = segments.get(0).readings.get(0).usage;
        Usage until = since;
        LengthInterval fall = LengthInterval.point(Length.ZERO);
        for (Segment segment : segments) {
            Reading from = segment.readings.get(0);
            Reading to = segment.readings.get(segment.readings.size() - 1);
            if (until.compareAmount(from.usage) != 0) {
                return Optional.empty();
            }
            if (segment.readings.size() > 1) {
                fall = fall.plus(from.level().plus(to.level().negated()));
            }
            until = to.usage;
        }
        boolean told = fall.lower().isPresent() || fall.upper().isPresent();
        return told && since.compareAmount(until) != 0 ? Optional.of(new Wear(since, fall)) : Optional.empty();
    }

    /** Collects readings in the order of use. Used by one thread. */
    public static final class Builder {
        private static final LengthInterval NO_OFFSET = LengthInterval.point(Length.ZERO);

        private final ValveId valve;
        private final Gap gap;
        private final List<Segment> closed = new ArrayList<>();
        private List<Told> open = new ArrayList<>();
        private @Nullable Shim shim;

        /** A reading, with the shim that was in; {@code null} where shims do not come in. */
        private record Told(
                Usage usage,
                LengthInterval clearance,
                @Nullable Shim shim) {}

        /** One shim: what it adds to the level. */
        private static final class Shim {
            private LengthInterval part;

            Shim(LengthInterval part) {
                this.part = part;
            }
        }

        private Builder(ValveId valve, Gap gap) {
            this.valve = requireNonNull(valve, "valve");
            this.gap = requireNonNull(gap, "gap");
        }

        /**
         * Adds a reading.
         *
         * @param usage what the counter showed
         * @param clearance the clearance read
         * @return this
         */
        public Builder read(Usage usage, LengthInterval clearance) {
            open.add(new Told(requireNonNull(usage, "usage"), requireNonNull(clearance, "clearance"), shim));
            return this;
        }

        /**
         * The clearance was set anew, or a shim was swapped and one of the two sizes is not known: the next reading starts a segment.
         * So too after the first use of a new engine or new seats, which often moves more than what follows (common practice).
         *
         * @return this
         */
        public Builder adjusted() {
            close();
            shim = null;
            return this;
        }

        /**
         * Tells which shim is in from here on. Where the one before it was told too, the segment runs on.
         *
         * @param size its size
         * @param tolerance how far off that may be, 0 where it was measured
         * @param ratio how much the clearance falls per unit of shim
         * @return this
         */
        public Builder shim(Length size, Length tolerance, Ratio ratio) {
            return shim(LengthInterval.closed(size.minus(tolerance), size.plus(tolerance)), ratio);
        }

        /**
         * Tells which shim is seen in place from here on. Where the one before it was told too, the segment runs on: it is the same
         * shim if the sizes have one in common, and then of a size in both, else another that was swapped in.
         *
         * @param sizes the sizes that it may have, with both ends
         * @param ratio how much the clearance falls per unit of shim
         * @return this
         * @throws RejectedValueException if an end is missing
         */
        public Builder shim(LengthInterval sizes, Ratio ratio) {
            LengthInterval part = part(sizes, ratio);
            Optional<LengthInterval> both = Optional.ofNullable(shim).flatMap(before -> before.part.intersection(part));
            if (shim != null && both.isPresent()) {
                shim.part = both.get();
                return this;
            }
            return put(part);
        }

        /**
         * Another shim was fitted in place of the last, be it marked the same. Where that was told, the segment runs on.
         *
         * @param sizes the sizes that it may have, with both ends
         * @param ratio how much the clearance falls per unit of shim
         * @return this
         * @throws RejectedValueException if an end is missing
         */
        public Builder fitted(LengthInterval sizes, Ratio ratio) {
            return put(part(sizes, ratio));
        }

        private static LengthInterval part(LengthInterval sizes, Ratio ratio) {
            if (!sizes.isBounded()) {
                throw new RejectedValueException(
                        "shim sizes",
                        sizes.toString(),
                        "lack an end",
                        "an interval with both ends",
                        "measure the shim");
            }
            return sizes.times(ratio);
        }

        private Builder put(LengthInterval part) {
            if (shim == null) {
                close();
            }
            shim = new Shim(part);
            return this;
        }

        private void close() {
            if (!open.isEmpty()) {
                closed.add(segment(open));
                open = new ArrayList<>();
            }
        }

        private static Segment segment(List<Told> readings) {
            Shim last = readings.get(readings.size() - 1).shim;
            return new Segment(readings.stream()
                    .map(r -> new Reading(r.usage, r.clearance, offset(r.shim, last)))
                    .toList());
        }

        /** What a shim adds to the level, counted from the last one. */
        private static LengthInterval offset(@Nullable Shim shim, @Nullable Shim last) {
            if (shim == null || last == null) {
                return NO_OFFSET;
            }
            Length low = last.part.lower().orElseThrow();
            Length high = last.part.upper().orElseThrow();
            LengthInterval sure = LengthInterval.point(
                    Length.ofNanometres(low.nanometres() + (high.nanometres() - low.nanometres()) / 2));
            return shim == last ? sure : shim.part.plus(last.part.negated()).plus(sure);
        }

        /**
         * Makes the history.
         *
         * @return the history
         * @throws RejectedValueException if usages fall, or are of different kinds
         */
        public ClearanceHistory build() {
            List<Segment> all = new ArrayList<>(closed);
            if (!open.isEmpty()) {
                all.add(segment(open));
            }
            return new ClearanceHistory(valve, gap, all);
        }
    }
}
