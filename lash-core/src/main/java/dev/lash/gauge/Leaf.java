package dev.lash.gauge;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.RejectedValueException;
import java.io.Serializable;

/**
 * One feeler leaf, known by the thickness marked on it.
 *
 * @param thickness the marked thickness, above 0 and at most 5 mm (the thickest leaf of JIS B 7524:2008 is 3 mm)
 */
public record Leaf(Length thickness) implements Comparable<Leaf>, Serializable {
    private static final Length THICKEST = Length.ofMillimetres("5");

    /**
     * Creates a leaf.
     *
     * @param thickness the marked thickness, above 0 and at most 5 mm (the thickest leaf of JIS B 7524:2008 is 3 mm)
     * @throws RejectedValueException if the thickness is outside its range
     */
    public Leaf {
        requireNonNull(thickness, "thickness");
        if (thickness.signum() <= 0 || thickness.isMoreThan(THICKEST)) {
            throw new RejectedValueException(
                    "leaf",
                    thickness.toString(),
                    "is out of range",
                    "a thickness above 0 mm and at most " + THICKEST,
                    "check the number and its unit");
        }
    }

    /**
     * Reads a leaf from its marked thickness.
     *
     * @param text the thickness with its unit, such as {@code "0.10 mm"} or {@code "4 thou"}
     * @return the leaf
     * @throws RejectedValueException if the text is no length or out of range
     */
    public static Leaf parse(String text) {
        return new Leaf(Length.parse(text));
    }

    @Override
    public int compareTo(Leaf other) {
        return thickness.compareTo(other.thickness);
    }

    /** {@return the marked thickness, such as {@code "0.10 mm"}} */
    @Override
    public String toString() {
        return thickness.toString();
    }

    /**
     * The marked thickness in a unit.
     *
     * @param unit the unit wished for
     * @return the thickness with its unit
     */
    public String toString(LengthUnit unit) {
        return thickness.toString(unit);
    }
}
