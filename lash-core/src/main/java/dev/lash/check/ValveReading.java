package dev.lash.check;

import static java.util.Objects.requireNonNull;

import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.adjust.InstalledShim;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.gauge.Trial;
import dev.lash.measure.Length;
import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What was read and done at one valve, or at one gap of a desmodromic valve.
 *
 * @param valve the valve
 * @param gap which gap of the valve
 * @param trials the trials as found, in the order they were made; for a closer those without load, and where there are none the
 *     opener's
 * @param loadedTrials for a desmodromic valve the trials of the opener gap with the valve loaded against the closer; else empty
 * @param turnsFree for a closer: whether it turns free by hand, which is evidence that its gap is not below 0
 * @param shim the installed shim; {@code null} where there is none or it is not known
 * @param pad the state of rocker pad and valve tip
 * @param eccentricAngle where the eccentric stands, in degrees; {@code null} where there is none or it is not known
 * @param stop the crank position in which it was read, free text; empty when not recorded
 * @param done what was done; {@code null} when nothing was
 * @param tries how often the valve was adjusted at this visit, up to what was done last; 0 when nothing was done
 * @param recheck the trials after what was done, in the order they were made
 */
public record ValveReading(
        ValveId valve,
        Gap gap,
        List<Trial> trials,
        List<Trial> loadedTrials,
        boolean turnsFree,
        @Nullable InstalledShim shim,
        Pad pad,
        @Nullable Ratio eccentricAngle,
        String stop,
        @Nullable Done done,
        int tries,
        List<Trial> recheck)
        implements Serializable {
    private static final int MOST_TRIES = 1000;

    /**
     * Creates a reading.
     *
     * @param valve the valve
     * @param gap which gap of the valve
     * @param trials the trials as found, in the order they were made; for a closer those without load, and where there are none the
     *     opener's
     * @param loadedTrials for a desmodromic valve the trials of the opener gap with the valve loaded against the closer; else empty
     * @param turnsFree for a closer: whether it turns free by hand, which is evidence that its gap is not below 0
     * @param shim the installed shim; {@code null} where there is none or it is not known
     * @param pad the state of rocker pad and valve tip
     * @param eccentricAngle where the eccentric stands, in degrees; {@code null} where there is none or it is not known
     * @param stop the crank position in which it was read, free text; empty when not recorded
     * @param done what was done; {@code null} when nothing was
     * @param tries how often the valve was adjusted at this visit, up to what was done last; 0 when nothing was done
     * @param recheck the trials after what was done, in the order they were made
     * @throws RejectedValueException if the tries are out of range, or do not agree with what was done
     */
    public ValveReading {
        requireNonNull(valve, "valve");
        requireNonNull(gap, "gap");
        requireNonNull(pad, "pad");
        requireNonNull(stop, "stop");
        trials = List.copyOf(trials);
        loadedTrials = List.copyOf(loadedTrials);
        recheck = List.copyOf(recheck);
        if (tries < 0 || tries > MOST_TRIES || (tries == 0) != (done == null)) {
            throw new RejectedValueException(
                    "tries",
                    String.valueOf(tries),
                    done == null ? "are given, but nothing was done" : "are out of range",
                    done == null ? "no tries" : "1 to " + MOST_TRIES,
                    "say what was done last and how often");
        }
        if (gap == Gap.CLOSER && !recheck.isEmpty()) {
            throw new RejectedValueException(
                    "recheck",
                    recheck.toString(),
                    "cannot be read for a closer",
                    "no recheck",
                    "write a new sheet with the opener read loaded and unloaded");
        }
    }

    /**
     * A reading of a valve with a sound pad, nothing done.
     *
     * @param valve the valve
     * @param trials the trials, in the order they were made
     * @return the reading
     */
    public static ValveReading of(ValveId valve, List<Trial> trials) {
        return new ValveReading(
                valve, Gap.ONLY, trials, List.of(), false, null, Pad.SOUND, null, "", null, 0, List.of());
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
        return new ValveReading(
                valve,
                gap,
                trials,
                loadedTrials,
                turnsFree,
                requireNonNull(installed, "installed"),
                pad,
                eccentricAngle,
                stop,
                done,
                tries,
                recheck);
    }

    /**
     * The same with another state of pad and tip.
     *
     * @param state the state
     * @return the reading
     */
    public ValveReading withPad(Pad state) {
        return new ValveReading(
                valve, gap, trials, loadedTrials, turnsFree, shim, state, eccentricAngle, stop, done, tries, recheck);
    }

    /**
     * The same with other trials.
     *
     * @param found the trials as found, in the order they were made
     * @return the reading
     */
    public ValveReading withTrials(List<Trial> found) {
        return new ValveReading(
                valve, gap, found, loadedTrials, turnsFree, shim, pad, eccentricAngle, stop, done, tries, recheck);
    }

    /**
     * The same as the reading of an opener of a desmodromic valve.
     *
     * @param loaded the trials with the valve loaded against the closer; may be empty
     * @return the reading
     */
    public ValveReading asOpener(List<Trial> loaded) {
        return new ValveReading(
                valve, Gap.OPENER, trials, loaded, turnsFree, shim, pad, eccentricAngle, stop, done, tries, recheck);
    }

    /**
     * The same as the reading of a closer of a desmodromic valve.
     *
     * @param loaded the trials of the opener gap with the valve loaded against the closer
     * @param free whether the closer turns free by hand
     * @return the reading
     */
    public ValveReading asCloser(List<Trial> loaded, boolean free) {
        return new ValveReading(
                valve, Gap.CLOSER, trials, loaded, free, shim, pad, eccentricAngle, stop, done, tries, recheck);
    }

    /**
     * The same with an eccentric whose position is known.
     *
     * @param degrees where the eccentric stands, in degrees
     * @return the reading
     */
    public ValveReading withEccentricAngle(Ratio degrees) {
        return new ValveReading(
                valve,
                gap,
                trials,
                loadedTrials,
                turnsFree,
                shim,
                pad,
                requireNonNull(degrees, "degrees"),
                stop,
                done,
                tries,
                recheck);
    }

    /**
     * The same with the crank position in which it was read.
     *
     * @param position free text
     * @return the reading
     */
    public ValveReading withStop(String position) {
        return new ValveReading(
                valve, gap, trials, loadedTrials, turnsFree, shim, pad, eccentricAngle, position, done, tries, recheck);
    }

    /**
     * The same with what was done, and the trials after it; one try more than before.
     *
     * @param what what was done
     * @param after the trials after it; empty when it was not checked again
     * @return the reading
     */
    public ValveReading withDone(Done what, List<Trial> after) {
        return new ValveReading(
                valve,
                gap,
                trials,
                loadedTrials,
                turnsFree,
                shim,
                pad,
                eccentricAngle,
                stop,
                requireNonNull(what, "what"),
                tries + 1,
                after);
    }

    /** {@return where the eccentric stands in degrees, or empty where there is none or it is not known} */
    public Optional<Ratio> findEccentricAngle() {
        return Optional.ofNullable(eccentricAngle);
    }

    /** {@return the valve, with its gap where it has more than one} */
    public String name() {
        return name(valve, gap);
    }

    static String name(ValveId valve, Gap gap) {
        return gap.behind(valve.toString());
    }

    /** {@return the shim that is in now: the one that was fitted, of the type of the one before; else {@link #findShim}} */
    public Optional<InstalledShim> findShimNow() {
        return done instanceof Done.Fitted fitted
                ? Optional.of(new InstalledShim(
                        fitted.shim(),
                        null,
                        Length.ZERO,
                        findShim().map(InstalledShim::type).orElse("")))
                : findShim();
    }

    /** {@return the installed shim as found, or empty where there is none or it is not known} */
    public Optional<InstalledShim> findShim() {
        return Optional.ofNullable(shim);
    }

    /** {@return what was done, or empty when nothing was} */
    public Optional<Done> findDone() {
        return Optional.ofNullable(done);
    }
}
