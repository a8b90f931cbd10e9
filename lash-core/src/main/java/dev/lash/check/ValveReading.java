package dev.lash.check;

import static java.util.Objects.requireNonNull;

import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.adjust.InstalledShim;
import dev.lash.engine.ValveId;
import dev.lash.gauge.Trial;
import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What was read and done at one valve.
 *
 * @param valve the valve
 * @param trials the trials as found, in the order they were made
 * @param shim the installed shim; {@code null} where there is none or it is not known
 * @param pad the state of rocker pad and valve tip
 * @param stop the crank position in which it was read, free text; empty when not recorded
 * @param done what was done; {@code null} when nothing was
 * @param recheck the trials after what was done, in the order they were made
 */
public record ValveReading(
        ValveId valve,
        List<Trial> trials,
        @Nullable InstalledShim shim,
        Pad pad,
        String stop,
        @Nullable Done done,
        List<Trial> recheck)
        implements Serializable {
    /**
     * Creates a reading.
     *
     * @param valve the valve
     * @param trials the trials as found, in the order they were made
     * @param shim the installed shim; {@code null} where there is none or it is not known
     * @param pad the state of rocker pad and valve tip
     * @param stop the crank position in which it was read, free text; empty when not recorded
     * @param done what was done; {@code null} when nothing was
     * @param recheck the trials after what was done, in the order they were made
     */
    public ValveReading {
        requireNonNull(valve, "valve");
        requireNonNull(pad, "pad");
        requireNonNull(stop, "stop");
        trials = List.copyOf(trials);
        recheck = List.copyOf(recheck);
    }

    /**
     * A reading of a valve with a sound pad, nothing done.
     *
     * @param valve the valve
     * @param trials the trials, in the order they were made
     * @return the reading
     */
    public static ValveReading of(ValveId valve, List<Trial> trials) {
        return new ValveReading(valve, trials, null, Pad.SOUND, "", null, List.of());
    }

    /**
     * A reading from text.
     *
     * @param valve the valve, such as {@code "1-in-1"}
     * @param trials the trials, such as {@code "0.10 mm goes"}
     * @return the reading
     * @throws RejectedValueException if a text cannot be read
     */
    public static ValveReading of(String valve, String... trials) {
        return of(ValveId.parse(valve), Arrays.stream(trials).map(Trial::parse).toList());
    }

    /**
     * The same with the installed shim.
     *
     * @param installed the shim
     * @return the reading
     */
    public ValveReading withShim(InstalledShim installed) {
        return new ValveReading(valve, trials, requireNonNull(installed, "installed"), pad, stop, done, recheck);
    }

    /**
     * The same with another state of pad and tip.
     *
     * @param state the state
     * @return the reading
     */
    public ValveReading withPad(Pad state) {
        return new ValveReading(valve, trials, shim, state, stop, done, recheck);
    }

    /**
     * The same with what was done, and the trials after it.
     *
     * @param what what was done
     * @param after the trials after it; empty when it was not checked again
     * @return the reading
     */
    public ValveReading withDone(Done what, List<Trial> after) {
        return new ValveReading(valve, trials, shim, pad, stop, requireNonNull(what, "what"), after);
    }

    /** {@return the installed shim, or empty where there is none or it is not known} */
    public Optional<InstalledShim> findShim() {
        return Optional.ofNullable(shim);
    }

    /** {@return what was done, or empty when nothing was} */
    public Optional<Done> findDone() {
        return Optional.ofNullable(done);
    }
}
