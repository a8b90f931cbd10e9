package dev.lash.gauge;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Collectors;

/**
 * What is offered to a gap in one stroke: one leaf, or up to three laid together. A stack adds the thicknesses of its
 * leaves, and their errors, and traps oil between them: prefer one leaf (common practice).
 *
 * <p>Text: {@code "0.10 mm"}, {@code "0.06 mm + 0.15 mm"}.
 *
 * @param leaves one to three leaves; kept thinnest first, whatever the order they were given in
 */
public record LeafStack(List<Leaf> leaves) implements Comparable<LeafStack>, Serializable {
    /** The most leaves that a stack may have. */
    public static final int MOST_LEAVES = 3;

    /**
     * Creates a stack.
     *
     * @param leaves one to three leaves; kept thinnest first, whatever the order they were given in
     * @throws RejectedValueException if there are none or more than three leaves
     */
    public LeafStack {
        leaves = List.copyOf(leaves).stream().sorted().toList();
        if (leaves.isEmpty() || leaves.size() > MOST_LEAVES) {
            throw new RejectedValueException(
                    "leaf stack",
                    leaves.size() + " leaves",
                    "is out of range",
                    "1 to " + MOST_LEAVES + " leaves",
                    "use fewer, thicker leaves");
        }
    }

    /**
     * One leaf alone.
     *
     * @param leaf the leaf
     * @return the stack of one
     */
    public static LeafStack of(Leaf leaf) {
        return new LeafStack(List.of(leaf));
    }

    /**
     * Reads what {@link #toString()} writes.
     *
     * @param text one thickness, or up to three joined by {@code +}
     * @return the stack
     * @throws RejectedValueException if the text is anything else
     */
    public static LeafStack parse(String text) {
        return new LeafStack(Arrays.stream(requireNonNull(text, "text").split("\\+", -1))
                .map(String::strip)
                .map(Leaf::parse)
                .toList());
    }

    /** {@return the sum of the marked thicknesses} */
    public Length thickness() {
        return leaves.stream().map(Leaf::thickness).reduce(Length.ZERO, Length::plus);
    }

    /** {@return how many leaves it has} */
    public int size() {
        return leaves.size();
    }

    /** Orders by thickness, then fewer leaves first, then leaf by leaf; agrees with {@link #equals}. */
    @Override
    public int compareTo(LeafStack other) {
        return Comparator.comparing(LeafStack::thickness)
                .thenComparingInt(LeafStack::size)
                .thenComparing(s -> s.leaves.get(0))
                .thenComparing(s -> s.leaves.get(s.size() / 2))
                .compare(this, other);
    }

    /** {@return the leaves joined by {@code +}, such as {@code "0.06 mm + 0.15 mm"}} */
    @Override
    public String toString() {
        return toString(LengthUnit.MILLIMETRE);
    }

    /**
     * The leaves in a unit, joined by {@code +}.
     *
     * @param unit the unit wished for
     * @return the text
     */
    public String toString(LengthUnit unit) {
        return leaves.stream().map(leaf -> leaf.toString(unit)).collect(Collectors.joining(" + "));
    }
}
