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
 * <caption>Defaults</caption>
 * <tr><th>threshold</th><th>default</th></tr>
 * <tr><td>largestClearance</td><td>2 mm</td></tr>
 * <tr><td>thinnestLeaf</td><td>0.02 mm</td></tr>
 * <tr><td>windowMargin</td><td>0.01 mm</td></tr>
 * <tr><td>historyScatter</td><td>0.015 mm</td></tr>
 * <tr><td>strayShare</td><td>0.01</td></tr>
 * <tr><td>slipShare</td><td>0.001</td></tr>
 * <tr><td>swapOdds</td><td>20</td></tr>
 * <tr><td>loosening</td><td>0.03 mm</td></tr>
 * <tr><td>shimTolerance</td><td>0.02 mm</td></tr>
 * <tr><td>kilometresPerDay, hoursPerDay</td><td>1000 and 24</td></tr>
 * <tr><td>jumpFactor</td><td>10</td></tr>
 * <tr><td>mostVisits</td><td>1000</td></tr>
 * <tr><td>mostOpenVisits</td><td>1000</td></tr>
 * <tr><td>corrections</td><td>none</td></tr>
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
 * @param mostVisits how many visits of a machine are remembered; the oldest are forgotten first; 1 to 100 000
 * @param mostOpenVisits how many visits may be open at once where the rows of machines come mixed; 1 to 1 000 000
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
        int mostVisits,
        int mostOpenVisits,
        Set<ImportCode> corrections)
        implements Serializable {
    private static final String CHECK = "check the figure";

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
     * @param mostVisits how many visits of a machine are remembered; 1 to 100 000
     * @param mostOpenVisits how many visits may be open at once; 1 to 1 000 000
     * @param corrections the codes whose likely corrections are applied
     * @throws RejectedValueException if a threshold is out of its range
     */
    public ValidationProfile {
        require(
                "largestClearance",
                requireNonNull(largestClearance, "largestClearance").signum() > 0,
                largestClearance);
        require("thinnestLeaf", requireNonNull(thinnestLeaf, "thinnestLeaf").signum() > 0, thinnestLeaf);
        require("windowMargin", requireNonNull(windowMargin, "windowMargin").signum() > 0, windowMargin);
        require(
                "historyScatter",
                requireNonNull(historyScatter, "historyScatter").signum() > 0,
                historyScatter);
        require("strayShare", strayShare > 0 && strayShare < 1, strayShare);
        require("slipShare", slipShare > 0 && slipShare < 1, slipShare);
        require("swapOdds", swapOdds > 1 && swapOdds < Double.POSITIVE_INFINITY, swapOdds);
        require("loosening", requireNonNull(loosening, "loosening").signum() >= 0, loosening);
        require("shimTolerance", requireNonNull(shimTolerance, "shimTolerance").signum() >= 0, shimTolerance);
        require("kilometresPerDay", kilometresPerDay > 0 && kilometresPerDay <= 1_000_000, kilometresPerDay);
        require("hoursPerDay", hoursPerDay > 0 && hoursPerDay <= 1_000_000, hoursPerDay);
        require("jumpFactor", jumpFactor > 1 && jumpFactor < Double.POSITIVE_INFINITY, jumpFactor);
        require("mostVisits", mostVisits >= 1 && mostVisits <= 100_000, mostVisits);
        require("mostOpenVisits", mostOpenVisits >= 1 && mostOpenVisits <= 1_000_000, mostOpenVisits);
        corrections = Set.copyOf(corrections);
    }

    private static void require(String what, boolean fits, Object value) {
        if (!fits) {
            throw new RejectedValueException(
                    what, value.toString(), "is out of range", "a value as its documentation says", CHECK);
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
                1000,
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
                mostVisits,
                mostOpenVisits,
                codes);
    }

    /** The corrections as a set that is quick to ask. */
    Set<ImportCode> correctionSet() {
        return corrections.isEmpty() ? Set.of() : Collections.unmodifiableSet(EnumSet.copyOf(corrections));
    }
}
