package dev.lash.engine;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Length;
import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.Usage;
import java.io.Serializable;
import java.math.BigDecimal;

/**
 * What is thought of the wear of an engine before its own readings are looked at. An assumption, broad on purpose: no table of
 * clearance against distance is published.
 *
 * <p>The drift of a role is normal about {@code drift} with standard deviation {@code driftDeviation}; the drifts of its valves are
 * normal about that with a standard deviation that is log-normal about {@code spread}; a reading differs from the straight line by
 * a normal error whose standard deviation is log-normal about {@code scatter}. One log-normal standard deviation is the factor.
 *
 * @param per the usage that the drifts are counted for; more than 0
 * @param drift how much the clearance changes in that usage, negative as it closes up; within 1 mm
 * @param driftDeviation how sure the drift of a role is; more than 0, at most 1 mm
 * @param spread how much the valves of a role differ; more than 0, at most 1 mm
 * @param scatter how much a reading differs from the line; 0.0001 to 1 mm
 * @param factor how sure spread and scatter are: two times in three within this factor; 1.1 to 5
 * @param basis where the figures come from, for a report
 */
public record WearPrior(
        Usage per, Length drift, Length driftDeviation, Length spread, Length scatter, Ratio factor, String basis)
        implements Serializable {
    private static final Length MOST = Length.ofMillimetres("1");
    private static final Length LEAST_SCATTER = Length.ofMillimetres("0.0001");
    private static final String ASSUMED =
            "a broad assumption of this library: no wear rate of valve clearances is published";

    /** For a machine whose counter shows a distance. */
    public static final WearPrior BY_DISTANCE = broad(Usage.of(BigDecimal.valueOf(10_000), Usage.Unit.KILOMETRE));

    /** For a machine whose counter shows running hours. */
    public static final WearPrior BY_HOURS = broad(Usage.of(BigDecimal.valueOf(250), Usage.Unit.HOUR));

    /**
     * Creates a prior.
     *
     * @param per the usage that the drifts are counted for; more than 0
     * @param drift how much the clearance changes in that usage, negative as it closes up; within 1 mm
     * @param driftDeviation how sure the drift of a role is; more than 0, at most 1 mm
     * @param spread how much the valves of a role differ; more than 0, at most 1 mm
     * @param scatter how much a reading differs from the line; 0.0001 to 1 mm
     * @param factor how sure spread and scatter are: two times in three within this factor; 1.1 to 5
     * @param basis where the figures come from, for a report
     * @throws RejectedValueException if a figure is out of its range
     */
    public WearPrior {
        requireNonNull(basis, "basis");
        if (per.amount().signum() == 0) {
            throw rejected("usage", per.toString(), "more than 0");
        }
        if (drift.abs().isMoreThan(MOST)) {
            throw rejected("drift", drift.toString(), "within 1 mm");
        }
        positive("deviation of the drift", driftDeviation);
        positive("spread", spread);
        positive("scatter", scatter);
        if (scatter.isLessThan(LEAST_SCATTER)) {
            throw rejected("scatter", scatter.toString(), "at least " + LEAST_SCATTER);
        }
        if (factor.compareTo(Ratio.of(11, 10)) < 0 || factor.compareTo(Ratio.of(5, 1)) > 0) {
            throw rejected("factor", factor.toString(), "1.1 to 5");
        }
    }

    private static WearPrior broad(Usage per) {
        return new WearPrior(
                per,
                Length.ofMillimetres("-0.01"),
                Length.ofMillimetres("0.02"),
                Length.ofMillimetres("0.01"),
                Length.ofMillimetres("0.006"),
                Ratio.of(3, 2),
                ASSUMED);
    }

    /**
     * The broad prior for a kind of counter.
     *
     * @param unit what the counter counts
     * @return the prior
     */
    public static WearPrior broadFor(Usage.Unit unit) {
        return unit.isDistance() ? BY_DISTANCE : BY_HOURS;
    }

    private static void positive(String what, Length length) {
        if (length.signum() <= 0 || length.isMoreThan(MOST)) {
            throw rejected(what, length.toString(), "more than 0, at most " + MOST);
        }
    }

    private static RejectedValueException rejected(String what, String value, String expected) {
        return new RejectedValueException(
                what + " of a wear prior", value, "is out of range", expected, "check the figure and its unit");
    }
}
