package dev.lash.check;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Length;
import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.util.Collections;
import java.util.EnumSet;
import java.util.Set;

/**
 * The thresholds of an import, as data. The defaults are assumptions of this library, tried on its own generated corpus; a shop that
 * knows better changes them.
 *
 * <table>
 * <caption>Defaults and ranges</caption>
 * <tr><th>threshold</th><th>default</th><th>range</th></tr>
 * <tr><td>largestClearance</td><td>2 mm</td><td>above 0 mm, at most 1000 mm</td></tr>
 * <tr><td>thinnestLeaf</td><td>0.02 mm</td><td>above 0 mm, at most 1000 mm</td></tr>
 * <tr><td>windowMargin</td><td>0.01 mm</td><td>above 0 mm, at most 1000 mm</td></tr>
 * <tr><td>historyScatter</td><td>0.015 mm</td><td>above 0 mm, at most 1000 mm</td></tr>
 * <tr><td>strayShare</td><td>0.01</td><td>above 0, below 1</td></tr>
 * <tr><td>slipShare</td><td>0.001</td><td>above 0, below 1</td></tr>
 * <tr><td>swapOdds</td><td>20</td><td>above 1, at most 1 000 000 000</td></tr>
 * <tr><td>loosening</td><td>0.03 mm</td><td>0 mm to 1000 mm</td></tr>
 * <tr><td>shimTolerance</td><td>0.02 mm</td><td>0 mm to 1000 mm</td></tr>
 * <tr><td>kilometresPerDay</td><td>1000</td><td>1 to 1 000 000</td></tr>
 * <tr><td>hoursPerDay</td><td>24</td><td>1 to 1 000 000</td></tr>
 * <tr><td>jumpFactor</td><td>10</td><td>above 1, at most 1 000 000 000</td></tr>
 * <tr><td>windowFactor</td><td>5</td><td>above 1, at most 1 000 000 000</td></tr>
 * <tr><td>mostVisits</td><td>10 000</td><td>1 to 100 000</td></tr>
 * <tr><td>mostOpenVisits</td><td>1000</td><td>1 to 1 000 000</td></tr>
 * <tr><td>corrections</td><td>none</td><td>codes; one whose findings offer no correction changes nothing</td></tr>
 * </table>
 *
 * @param largestClearance a clearance above this is none; above 0
 * @param thinnestLeaf leaves thinner than this are rare; above 0
 * @param windowMargin how far from half the window's width readings commonly stray: half the width and this make the standard
 *     deviation about the middle of the window; above 0
 * @param historyScatter the standard deviation about what the visit before left, wear included; above 0
 * @param strayShare the share of readings that lie anywhere, above 0 and below 1
 * @param slipShare the share of values with a slip of the unit, above 0 and below 1; it is reported where it is likelier than not
 * @param swapOdds how many times better two readings must fit the other way round; more than 1
 * @param loosening how far a clearance may grow between visits without an adjustment; 0 or more
 * @param shimTolerance how far sizes of shims and readings may be off in the arithmetic; 0 or more
 * @param kilometresPerDay the most that a machine does in a day; above 0
 * @param hoursPerDay the most that a machine runs in a day; above 0
 * @param jumpFactor how many times its own average a machine may do between two visits; more than 1
 * @param windowFactor how many times above the upper end of the window, or below the lower one, a whole reading is in doubt; more than 1
 * @param mostVisits how many visits of a machine are remembered; the oldest are forgotten first; 1 to 100 000
 * @param mostOpenVisits of how many machines a visit may be open at once, and of how many rows may be held, where the rows of machines
 *     come mixed; 1 to 1 000 000
 * @param corrections the codes whose likely corrections are applied
 */
public record ValidationProfile(
        Length largestClearance,
        Length thinnestLeaf,
        Length windowMargin,
        Length historyScatter,
        double strayShare,
        double slipShare,
        double swapOdds,
        Length loosening,
        Length shimTolerance,
        int kilometresPerDay,
        int hoursPerDay,
        double jumpFactor,
        double windowFactor,
        int mostVisits,
        int mostOpenVisits,
        Set<ImportCode> corrections)
        implements Serializable {
    private static final long WIDEST = 1_000_000_000L;
    private static final double LARGEST_FACTOR = 1e9;

    /**
     * Creates a profile.
     *
     * @param largestClearance a clearance above this is none; above 0
     * @param thinnestLeaf leaves thinner than this are rare; above 0
     * @param windowMargin what is added to half the window's width for the standard deviation about its middle; above 0
     * @param historyScatter the standard deviation about what the visit before left, wear included; above 0
     * @param strayShare the share of readings that lie anywhere, above 0 and below 1
     * @param slipShare the share of values with a slip of the unit, above 0 and below 1
     * @param swapOdds how many times better two readings must fit the other way round; more than 1
     * @param loosening how far a clearance may grow between visits without an adjustment; 0 or more
     * @param shimTolerance how far sizes of shims and readings may be off in the arithmetic; 0 or more
     * @param kilometresPerDay the most that a machine does in a day; above 0
     * @param hoursPerDay the most that a machine runs in a day; above 0
     * @param jumpFactor how many times its own average a machine may do between two visits; more than 1
     * @param windowFactor how many times above or below the window a whole reading is in doubt; more than 1
     * @param mostVisits how many visits of a machine are remembered; 1 to 100 000
     * @param mostOpenVisits of how many machines a visit may be open, and rows may be held; 1 to 1 000 000
     * @param corrections the codes whose likely corrections are applied
     * @throws RejectedValueException if a threshold is out of its range
     */
    public ValidationProfile {
        requireThickness("largestClearance", largestClearance, 1);
        requireThickness("thinnestLeaf", thinnestLeaf, 1);
        requireThickness("windowMargin", windowMargin, 1);
        requireThickness("historyScatter", historyScatter, 1);
        requireShare("strayShare", strayShare);
        requireShare("slipShare", slipShare);
        requireFactor("swapOdds", swapOdds);
        requireThickness("loosening", loosening, 0);
        requireThickness("shimTolerance", shimTolerance, 0);
        requireCount("kilometresPerDay", kilometresPerDay, 1_000_000);
        requireCount("hoursPerDay", hoursPerDay, 1_000_000);
        requireFactor("jumpFactor", jumpFactor);
        requireFactor("windowFactor", windowFactor);
        requireCount("mostVisits", mostVisits, 100_000);
        requireCount("mostOpenVisits", mostOpenVisits, 1_000_000);
        corrections = Set.copyOf(corrections);
    }

    private static void requireThickness(String what, Length value, int least) {
        long nanometres = requireNonNull(value, what).nanometres();
        require(
                what,
                nanometres >= least && nanometres <= WIDEST,
                value,
                (least > 0 ? "above 0 mm, at most " : "0 mm to ") + "1000 mm");
    }

    private static void requireShare(String what, double value) {
        require(what, value > 0 && value < 1, value, "a number above 0 and below 1");
    }

    private static void requireFactor(String what, double value) {
        require(what, value > 1 && value <= LARGEST_FACTOR, value, "a number above 1, at most 1000000000");
    }

    private static void requireCount(String what, int value, int most) {
        require(what, value >= 1 && value <= most, value, "a whole number, 1 to " + most);
    }

    private static void require(String what, boolean fits, Object value, String range) {
        if (!fits) {
            throw new RejectedValueException(
                    what, value.toString(), "is out of range", range, "correct it, or leave the default");
        }
    }

    /** {@return the profile with the documented defaults} */
    public static ValidationProfile defaults() {
        return new ValidationProfile(
                Length.ofMillimetres("2"),
                Length.ofMillimetres("0.02"),
                Length.ofMillimetres("0.01"),
                Length.ofMillimetres("0.015"),
                0.01,
                0.001,
                20,
                Length.ofMillimetres("0.03"),
                Length.ofMillimetres("0.02"),
                1000,
                24,
                10,
                5,
                10_000,
                1000,
                Set.of());
    }

    /**
     * The same thresholds with corrections applied.
     *
     * @param codes the codes whose likely corrections are applied
     * @return the profile
     */
    public ValidationProfile withCorrections(Set<ImportCode> codes) {
        return new ValidationProfile(
                largestClearance,
                thinnestLeaf,
                windowMargin,
                historyScatter,
                strayShare,
                slipShare,
                swapOdds,
                loosening,
                shimTolerance,
                kilometresPerDay,
                hoursPerDay,
                jumpFactor,
                windowFactor,
                mostVisits,
                mostOpenVisits,
                codes);
    }

    /** The corrections as a set that is quick to ask. */
    Set<ImportCode> correctionSet() {
        return corrections.isEmpty() ? Set.of() : Collections.unmodifiableSet(EnumSet.copyOf(corrections));
    }
}
