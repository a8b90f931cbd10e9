package dev.lash.gauge;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;

/**
 * The leaves that a shop owns, how many may be stacked, and how far they and the hand may be off.
 *
 * <p>The tolerance is the shop's own figure: no standard's tolerance table ships with the library. As guidance, JIS B 7524
 * is quoted with 0.003 to 0.010 mm by thickness.
 *
 * @param leaves the leaves, 1 to 200; kept thinnest first; a leaf owned twice is listed twice
 * @param mostStacked how many leaves may be laid together, 1 to 3
 * @param tolerance how far a leaf may be from its mark, either way; used by the guarded rule
 * @param dragAllowance how far a drag may be from the leaf, either way; used by the guarded rule
 * @param unit the unit in which reports give lengths: inches for a set in the inch system, else millimetres
 */
public record GaugeSet(List<Leaf> leaves, int mostStacked, Length tolerance, Length dragAllowance, LengthUnit unit)
        implements Serializable {
    /** The most leaves of a set. */
    public static final int MOST_LEAVES = 200;

    /**
     * Creates a gauge set.
     *
     * @param leaves the leaves, 1 to 200; kept thinnest first; a leaf owned twice is listed twice
     * @param mostStacked how many leaves may be laid together, 1 to 3
     * @param tolerance how far a leaf may be from its mark, either way; used by the guarded rule
     * @param dragAllowance how far a drag may be from the leaf, either way; used by the guarded rule
     * @param unit the unit in which reports give lengths: inches for a set in the inch system, else millimetres
     * @throws RejectedValueException if a value is outside its range, or the tolerance is not smaller than the thinnest leaf
     */
    public GaugeSet {
        leaves = leaves.stream().sorted().toList();
        unit = requireNonNull(unit, "unit").isInch() ? LengthUnit.INCH : LengthUnit.MILLIMETRE;
        if (leaves.isEmpty() || leaves.size() > MOST_LEAVES) {
            throw new RejectedValueException(
                    "gauge set",
                    leaves.size() + " leaves",
                    "is out of range",
                    "1 to " + MOST_LEAVES + " leaves",
                    "list the leaves");
        }
        if (mostStacked < 1 || mostStacked > LeafStack.MOST_LEAVES) {
            throw new RejectedValueException(
                    "stack",
                    String.valueOf(mostStacked),
                    "is out of range",
                    "1 to " + LeafStack.MOST_LEAVES,
                    "a stack traps oil and adds errors: allow two or three leaves at most");
        }
        new ReadingRule.Guarded(tolerance, dragAllowance);
        Length thinnest = leaves.get(0).thickness();
        if (!tolerance.isLessThan(thinnest)) {
            throw new RejectedValueException(
                    "leaf tolerance",
                    tolerance.toString(),
                    "is not smaller than the thinnest leaf",
                    "less than " + thinnest,
                    "check the tolerance and its unit");
        }
    }

    /**
     * A set of single leaves taken for their marks, in the unit in which most sets of that mark are made.
     *
     * @param unit the unit in which the set is marked
     * @param thicknesses the marks as bare numbers of that unit, or with their own unit
     * @return the set, without stacks, tolerance or drag allowance
     * @throws RejectedValueException if a mark cannot be read or is out of range
     */
    public static GaugeSet of(LengthUnit unit, String... thicknesses) {
        List<Leaf> leaves = new ArrayList<>();
        for (String thickness : thicknesses) {
            leaves.add(new Leaf(Length.parse(thickness, unit)));
        }
        return new GaugeSet(leaves, 1, Length.ZERO, Length.ZERO, unit);
    }

    /**
     * The same set with stacks allowed.
     *
     * @param mostStacked how many leaves may be laid together, 1 to 3
     * @return the set
     */
    public GaugeSet withStacksOf(int mostStacked) {
        return new GaugeSet(leaves, mostStacked, tolerance, dragAllowance, unit);
    }

    /**
     * The same set with the shop's figures for the guarded rule.
     *
     * @param tolerance how far a leaf may be from its mark, either way
     * @param dragAllowance how far a drag may be from the leaf, either way
     * @return the set
     */
    public GaugeSet withTolerance(Length tolerance, Length dragAllowance) {
        return new GaugeSet(leaves, mostStacked, tolerance, dragAllowance, unit);
    }

    /**
     * The same set with one leaf more.
     *
     * @param leaf the leaf
     * @return the set
     * @throws RejectedValueException if the set would be too large
     */
    public GaugeSet withLeaf(Leaf leaf) {
        List<Leaf> more = new ArrayList<>(leaves);
        more.add(leaf);
        return new GaugeSet(more, mostStacked, tolerance, dragAllowance, unit);
    }

    /** {@return the guarded rule with this set's figures} */
    public ReadingRule guardedRule() {
        return ReadingRule.guarded(tolerance, dragAllowance);
    }

    /** {@return the thinnest leaf} */
    public Leaf thinnest() {
        return leaves.get(0);
    }

    /**
     * Whether the stack can be laid together from this set, whatever number of leaves {@link #mostStacked} allows.
     *
     * @param stack the stack
     * @return whether every leaf of it is there, as often as the stack has it
     */
    public boolean owns(LeafStack stack) {
        List<Leaf> left = new ArrayList<>(leaves);
        return stack.leaves().stream().allMatch(left::remove);
    }

    /**
     * Everything that can be offered in one stroke: each leaf, and each stack of up to {@link #mostStacked} leaves.
     *
     * @return the stacks without repetition, thinnest first and of one thickness those of fewer leaves first
     */
    public List<LeafStack> stacks() {
        return stacks(LengthInterval.any());
    }

    /**
     * What can be offered in one stroke, as {@link #stacks()}, as far as its thickness lies in an interval.
     *
     * @param thickness the interval
     * @return the stacks without repetition, thinnest first and of one thickness those of fewer leaves first
     */
    public List<LeafStack> stacks(LengthInterval thickness) {
        TreeSet<LeafStack> all = new TreeSet<>();
        addStacks(List.of(), Length.ZERO, 0, thickness, all);
        return List.copyOf(all);
    }

    private void addStacks(List<Leaf> held, Length sum, int from, LengthInterval wanted, TreeSet<LeafStack> all) {
        for (int i = from; i < leaves.size() && held.size() < mostStacked; i++) {
            Length thicker = sum.plus(leaves.get(i).thickness());
            if (wanted.upper().filter(thicker::isMoreThan).isPresent()) {
                return;
            }
            List<Leaf> more = new ArrayList<>(held);
            more.add(leaves.get(i));
            if (wanted.contains(thicker)) {
                all.add(new LeafStack(more));
            }
            addStacks(more, thicker, i + 1, wanted, all);
        }
    }
}
