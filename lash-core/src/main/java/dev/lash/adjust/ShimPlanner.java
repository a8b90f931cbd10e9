package dev.lash.adjust;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import java.util.List;
import java.util.function.ToDoubleBiFunction;
import org.jspecify.annotations.Nullable;

/**
 * Plans the shims of a whole engine: those installed, those in the box and those to buy are all candidates for every slot of
 * their type. Immutable and thread-safe; every setting has a default.
 *
 * <table>
 * <caption>Settings</caption>
 * <tr><th>setting</th><th>default</th><th>meaning</th></tr>
 * <tr><td>aim</td><td>0.75</td><td>where in the window to set, for slots without an aim of their own; as {@link Adjuster}'s</td></tr>
 * <tr><td>swaps</td><td>allowed</td><td>whether a shim may go from one slot to another. Turn it off where the maker wants new
 * shims only, or wants buckets kept in their bores</td></tr>
 * <tr><td>survival</td><td>none</td><td>a score for each slot and clearance in it, such as the usage until it leaves its window:
 * the plan then makes the smallest score as large as it can, before it looks at the aim</td></tr>
 * <tr><td>unit</td><td>mm</td><td>the unit in texts for a person</td></tr>
 * </table>
 *
 * <p><b>Clearance after.</b> Bracket + ratio x (old size - new size), for every size that either shim may have within its
 * tolerance; worked out in fractions, its ends rounded outward to nanometres. Bought shims and those of the box are taken as
 * exact. Where the very shim that is installed stays, the reading stands as it is.
 *
 * <p><b>Certain.</b> A shim that is fitted is certain when every clearance then possible lies in the window to set to. A shim that
 * stays is certain when the reading lies in the window to check against: what is in order is left alone.
 *
 * <p><b>What may be fitted.</b> No plan makes a valve worse. In a slot only these are allowed:
 * <ol>
 * <li>the shim that is installed there;
 * <li>a shim that is certain there;
 * <li>a shim that leaves the lower end of the clearance above 0 and neither end further outside the window to set to than before:
 *     the lower end then not below both what it was and the window, the upper end not above both what it was and the window.
 *     Neither end is then further outside the window to check against either, since that holds the other.
 * </ol>
 * Without a lower end nothing is known to be above 0, so only the installed shim is allowed; so too where its size is not known,
 * and where there is no reading. Without an upper end no shim is certain, and one is allowed only if it leaves the clearance no
 * larger. Shims of different types are never exchanged.
 *
 * <p><b>Objective.</b> In this order: (1) fewest valves not certain; (2) fewest camshafts lifted, one being lifted when any of its
 * slots gets another shim, be it of the same size; (3) fewest shims to buy; (4) fewest valves whose shim size changes; (5) with a
 * survival, the largest smallest score; the least sum of the distances between the middle of the clearance and the aim, 0 where an
 * end is missing, the aim taken to half a nanometre; (6) fewest shims moved. Of plans that are equal in all that, the first slot
 * where they differ decides: the thinner shim, then the installed one, that of an earlier slot, of a later one, of the box, a
 * bought one. The ranks are exact, so the plan is the one best plan, the same each time.
 *
 * <p><b>Method.</b> An {@link Assignment} for each set of camshafts, the smallest sets first; the survival by a threshold search.
 * At most {@value #MOST_CAMSHAFTS} camshafts and {@value #MOST_SLOTS} slots.
 */
public final class ShimPlanner {
    /** The most slots in a plan. */
    static final int MOST_SLOTS = 128;

    /** The most camshafts in a plan. */
    static final int MOST_CAMSHAFTS = 8;

    private static final ShimPlanner DEFAULTS = new ShimPlanner(Ratio.of(3, 4), true, null, LengthUnit.MILLIMETRE);

    private final Ratio aim;
    private final boolean swaps;
    private final @Nullable ToDoubleBiFunction<ShimSlot, LengthInterval> survival;
    private final LengthUnit unit;

    private ShimPlanner(
            Ratio aim,
            boolean swaps,
            @Nullable ToDoubleBiFunction<ShimSlot, LengthInterval> survival,
            LengthUnit unit) {
        this.aim = aim;
        this.swaps = swaps;
        this.survival = survival;
        this.unit = unit;
    }

    /** {@return the planner with the defaults above} */
    public static ShimPlanner withDefaults() {
        return DEFAULTS;
    }

    /**
     * The same with another aim.
     *
     * @param fraction where in the window to set, 0 (lower end) to 1 (upper end)
     * @return the planner
     * @throws RejectedValueException if the fraction is outside 0 to 1
     */
    public ShimPlanner withAim(Ratio fraction) {
        return new ShimPlanner(ShimSlot.checkAim(fraction), swaps, survival, unit);
    }

    /**
     * The same with or without shims going from slot to slot.
     *
     * @param allowed whether they may
     * @return the planner
     */
    public ShimPlanner withSwaps(boolean allowed) {
        return new ShimPlanner(aim, allowed, survival, unit);
    }

    /**
     * The same with a score for each slot and clearance, of which the plan makes the smallest as large as it can. Slots count in
     * which some shim is certain and which have a choice; the others cannot be helped, and would hide those that can. The function
     * is called once for each slot and clearance in question, and must give the same for the same.
     *
     * @param score the score, the more the better, infinite for never; not a number is refused
     * @return the planner
     */
    public ShimPlanner withSurvival(ToDoubleBiFunction<ShimSlot, LengthInterval> score) {
        return new ShimPlanner(aim, swaps, requireNonNull(score, "score"), unit);
    }

    /**
     * The same with another unit in texts.
     *
     * @param inTexts the unit
     * @return the planner
     */
    public ShimPlanner withUnit(LengthUnit inTexts) {
        return new ShimPlanner(aim, swaps, survival, requireNonNull(inTexts, "inTexts"));
    }

    /** {@return where in the window to set, 0 its lower end, 1 its upper end} */
    public Ratio aim() {
        return aim;
    }

    /**
     * Plans.
     *
     * @param slots the slots of the engine, in the order in which it is worked
     * @param box the spare shims
     * @return the plan
     * @throws RejectedValueException if there are too many slots or camshafts, a slot is given twice, or a score is no number
     */
    public ShimPlan plan(List<ShimSlot> slots, ShimBox box) {
        requireNonNull(box, "box");
        return new ShimPlanning(List.copyOf(slots), box, aim, swaps, survival, unit).plan();
    }
}
