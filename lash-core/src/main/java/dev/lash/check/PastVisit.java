package dev.lash.check;

import static java.util.Objects.requireNonNull;

import dev.lash.adjust.InstalledShim;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Usage;
import java.io.Serializable;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * An earlier check of the same machine.
 *
 * @param date when
 * @param usage what the counter showed; {@code null} when not recorded
 * @param valves what was found and left
 * @param breakIn whether this ended the break-in of a new engine or of new seats, in which clearances often move more than later
 *     (common practice)
 */
public record PastVisit(LocalDate date, @Nullable Usage usage, List<PastReading> valves, boolean breakIn)
        implements Serializable {
    /**
     * Creates a visit that did not end a break-in.
     *
     * @param date when
     * @param usage what the counter showed; {@code null} when not recorded
     * @param valves what was found and left
     */
    public PastVisit(LocalDate date, @Nullable Usage usage, List<PastReading> valves) {
        this(date, usage, valves, false);
    }

    /**
     * Creates a visit.
     *
     * @param date when
     * @param usage what the counter showed; {@code null} when not recorded
     * @param valves what was found and left
     * @param breakIn whether this ended the break-in of a new engine or of new seats
     */
    public PastVisit {
        requireNonNull(date, "date");
        valves = List.copyOf(valves);
    }

    /** {@return what the counter showed, or empty when not recorded} */
    public Optional<Usage> findUsage() {
        return Optional.ofNullable(usage);
    }

    /**
     * One valve at an earlier check.
     *
     * @param valve the valve
     * @param gap which of its gaps
     * @param found the clearance as found
     * @param left the clearance as left; the same when nothing was done
     * @param shim the shim that was left in, by its mark or measured, with how far off that may be; {@code null} where there is none
     *     or it is not known
     */
    public record PastReading(
            ValveId valve,
            Gap gap,
            LengthInterval found,
            LengthInterval left,
            @Nullable InstalledShim shim) implements Serializable {
        /**
         * Creates a reading of a valve that has one gap.
         *
         * @param valve the valve
         * @param found the clearance as found
         * @param left the clearance as left; the same when nothing was done
         * @param shim the size of the shim that was left in, taken as exact; {@code null} where there is none or it is not known
         */
        public PastReading(ValveId valve, LengthInterval found, LengthInterval left, @Nullable Length shim) {
            this(valve, Gap.ONLY, found, left, shim == null ? null : InstalledShim.marked(shim));
        }

        /**
         * Creates a reading.
         *
         * @param valve the valve
         * @param gap which of its gaps
         * @param found the clearance as found
         * @param left the clearance as left; the same when nothing was done
         * @param shim the shim that was left in, by its mark or measured, with how far off that may be; {@code null} where there is
         *     none or it is not known
         */
        public PastReading {
            requireNonNull(valve, "valve");
            requireNonNull(gap, "gap");
            requireNonNull(found, "found");
            requireNonNull(left, "left");
        }

        /** {@return the shim that was left in, or empty where there is none or it is not known} */
        public Optional<InstalledShim> findShim() {
            return Optional.ofNullable(shim);
        }
    }
}
