package dev.lash.trend;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.RejectedValueException;
import dev.lash.measure.Usage;
import java.io.Serializable;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * How the clearance of one gap moves with use.
 *
 * @param method how it was drawn
 * @param checks from how many checks
 * @param per the usage that the drift is counted for
 * @param clearance the clearance on the line now, in millimetres; for all feasible lines the middle of the range, infinite where they
 *     have none
 * @param drift the drift in millimetres, negative as the clearance closes up; for all feasible lines the middle of the range
 * @param driftError its standard error or posterior standard deviation in millimetres; for all feasible lines half the range, infinite
 *     where the readings do not bound the drift on both sides
 * @param scatter the standard deviation of a reading about the line in millimetres; {@code null} for feasible lines
 * @param logLikelihood the largest log-likelihood; {@code null} unless the method is maximum likelihood
 * @param alone whether it wears so unlike what is assumed that only its own readings count
 * @param note what a reader should know, such as why another method was used than asked for; may be empty
 */
public record WearTrend(
        TrendMethod method,
        int checks,
        Usage per,
        double clearance,
        double drift,
        double driftError,
        @Nullable Double scatter,
        @Nullable Double logLikelihood,
        boolean alone,
        String note)
        implements Serializable {
    /**
     * Creates a trend.
     *
     * @param method how it was drawn
     * @param checks from how many checks
     * @param per the usage that the drift is counted for
     * @param clearance the clearance on the line now, in millimetres; for all feasible lines the middle of the range, infinite where
     *     they have none
     * @param drift the drift in millimetres, negative as the clearance closes up; for all feasible lines the middle of the range
     * @param driftError its standard error or posterior standard deviation in millimetres; for all feasible lines half the range,
     *     infinite where the readings do not bound the drift on both sides
     * @param scatter the standard deviation of a reading about the line in millimetres; {@code null} for feasible lines
     * @param logLikelihood the largest log-likelihood; {@code null} unless the method is maximum likelihood
     * @param alone whether it wears so unlike what is assumed that only its own readings count
     * @param note what a reader should know, such as why another method was used than asked for; may be empty
     * @throws RejectedValueException if clearance, drift, scatter or log-likelihood is not finite, the error or the scatter is negative,
     *     or there are fewer than 0 checks
     */
    public WearTrend {
        requireNonNull(method, "method");
        requireNonNull(per, "per");
        requireNonNull(note, "note");
        boolean open = method == TrendMethod.FEASIBLE_LINES && clearance == Double.POSITIVE_INFINITY;
        if (!open) {
            Figures.finite("clearance", clearance);
        }
        Figures.finite("drift", drift);
        Figures.notNegative("error of the drift", driftError);
        if (scatter != null) {
            Figures.notNegative("scatter", Figures.finite("scatter", scatter));
        }
        if (logLikelihood != null) {
            Figures.finite("log-likelihood", logLikelihood);
        }
        if (checks < 0) {
            throw new RejectedValueException(
                    "checks",
                    String.valueOf(checks),
                    "is negative",
                    "0 or more",
                    "count the checks that say something");
        }
    }

    /** {@return the scatter in millimetres, or empty for feasible lines} */
    public Optional<Double> findScatter() {
        return Optional.ofNullable(scatter);
    }

    /** {@return the largest log-likelihood, or empty unless the method is maximum likelihood} */
    public Optional<Double> findLogLikelihood() {
        return Optional.ofNullable(logLikelihood);
    }
}
