package dev.lash.adjust;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * The shim that is in the engine: its mark, its measured size, or both. Measured wins over marked.
 *
 * @param marked the size marked on it; {@code null} when it cannot be read
 * @param measured the size by micrometer; {@code null} when it was not measured
 * @param tolerance how far the size may be off, either way; 0 to 0.1 mm
 * @param type diameter or pattern, free text; shims of different types are never swapped
 */
public record InstalledShim(
        @Nullable Length marked, @Nullable Length measured, Length tolerance, String type) implements Serializable {
    private static final Length LARGEST = Length.ofMillimetres("20");
    private static final Length WIDEST = Length.ofMillimetres("0.1");

    /**
     * Creates the shim.
     *
     * @param marked the size marked on it; {@code null} when it cannot be read
     * @param measured the size by micrometer; {@code null} when it was not measured
     * @param tolerance how far the size may be off, either way; 0 to 0.1 mm
     * @param type diameter or pattern, free text; shims of different types are never swapped
     * @throws RejectedValueException if a size or the tolerance is outside its range
     */
    public InstalledShim {
        check("marked shim size", marked);
        check("measured shim size", measured);
        requireNonNull(type, "type");
        if (requireNonNull(tolerance, "tolerance").signum() < 0 || tolerance.isMoreThan(WIDEST)) {
            throw new RejectedValueException(
                    "shim tolerance",
                    tolerance.toString(),
                    "is out of range",
                    "0 mm to " + WIDEST,
                    "check the figure and its unit");
        }
    }

    private static void check(String what, @Nullable Length size) {
        if (size != null) {
            checkSize(what, size);
        }
    }

    /** Refuses what is no size of a shim or bucket. */
    static Length checkSize(String what, Length size) {
        if (size.signum() <= 0 || size.isMoreThan(LARGEST)) {
            throw new RejectedValueException(
                    what,
                    size.toString(),
                    "is out of range",
                    "above 0 mm and at most " + LARGEST,
                    "check the size and its unit");
        }
        return size;
    }

    /**
     * A shim known by its mark, taken as exact.
     *
     * @param size the size
     * @return the shim
     */
    public static InstalledShim marked(Length size) {
        return new InstalledShim(requireNonNull(size, "size"), null, Length.ZERO, "");
    }

    /**
     * A shim measured with a micrometer, taken as exact.
     *
     * @param size the size
     * @return the shim
     */
    public static InstalledShim measured(Length size) {
        return new InstalledShim(null, requireNonNull(size, "size"), Length.ZERO, "");
    }

    /** {@return the size marked on it, or empty when it cannot be read} */
    public Optional<Length> findMarked() {
        return Optional.ofNullable(marked);
    }

    /** {@return the size by micrometer, or empty when it was not measured} */
    public Optional<Length> findMeasured() {
        return Optional.ofNullable(measured);
    }

    /** {@return the size to reckon with: measured, else marked, or empty when neither is known} */
    public Optional<Length> size() {
        return findMeasured().or(this::findMarked);
    }

    /** {@return every size that the shim may have, or empty when none is known} */
    public Optional<LengthInterval> possibleSizes() {
        return size().map(s -> LengthInterval.closed(s.minus(tolerance), s.plus(tolerance)));
    }
}
