package dev.lash.trend;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;

/**
 * A line by maximum likelihood, with the normal uncertainty that the observed information gives its level and drift (Wald limits).
 * Too certain with few readings, which is why it is not the default.
 */
final class WaldLaw implements LineLaw {
    private static final int NODES = 48;
    private static final double REACH = 6;

    private final LineData data;
    private final double level;
    private final double levelGivenDrift;
    private final double levelPerDrift;
    private final double drift;
    private final double driftError;
    private final double scatter;
    private final double logLikelihood;
    private final NormalTable table = NormalTable.SHARED;

    private WaldLaw(LineData data, IntervalFit.Maximum fit, int levelColumn, int driftColumn) {
        this.data = data;
        this.level = fit.coefficient(levelColumn);
        this.drift = fit.coefficient(driftColumn);
        double[][] covariance = fit.covariance();
        this.driftError = Math.sqrt(covariance[driftColumn][driftColumn]);
        this.levelPerDrift = covariance[levelColumn][driftColumn] / covariance[driftColumn][driftColumn];
        this.levelGivenDrift = Math.sqrt(Math.max(
                1e-24, covariance[levelColumn][levelColumn] - levelPerDrift * covariance[levelColumn][driftColumn]));
        this.scatter = fit.scale();
        this.logLikelihood = fit.logLikelihood();
    }

    /** A fit with one level for each segment and one drift. */
    static IntervalFit fit(LineData data) {
        List<LineData.Part> parts = telling(data);
        int columns = parts.size() + 1;
        int rows = data.readings();
        if (rows == 0) {
            return new IntervalFit.NoMaximum(IntervalFit.Reason.RANK, false);
        }
        double[][] design = new double[rows][columns];
        double[] low = new double[rows];
        double[] high = new double[rows];
        int row = 0;
        for (int k = 0; k < parts.size(); k++) {
            LineData.Part part = parts.get(k);
            for (int i = 0; i < part.size(); i++) {
                design[row][k] = 1;
                design[row][columns - 1] = part.at[i];
                low[row] = part.low[i];
                high[row++] = part.high[i];
            }
        }
        return IntervalRegression.of(design, low, high).fit();
    }

    /** The law of a maximum; empty where the last segment has no reading, so that its level is not known. */
    static Optional<WaldLaw> of(LineData data, IntervalFit.Maximum fit) {
        int levels = telling(data).size();
        return data.last().size() == 0 ? Optional.empty() : Optional.of(new WaldLaw(data, fit, levels - 1, levels));
    }

    private static List<LineData.Part> telling(LineData data) {
        List<LineData.Part> parts = new ArrayList<>();
        for (LineData.Part part : data.parts) {
            if (part.size() > 0) {
                parts.add(part);
            }
        }
        return parts;
    }

    double logLikelihood() {
        return logLikelihood;
    }

    /** A share of the lines of one drift, given the mean and deviation of their level now. */
    private interface OfDrift {
        double share(double at, double mean);
    }

    private double mean(OfDrift function) {
        double sum = 0;
        double weights = 0;
        for (int i = -NODES; i <= NODES; i++) {
            double z = REACH * i / NODES;
            double weight = table.density(z);
            double at = drift + z * driftError;
            sum += weight * function.share(at, level + levelPerDrift * (at - drift));
            weights += weight;
        }
        return sum / weights;
    }

    @Override
    public double stays(double ahead) {
        return mean((at, mean) -> {
            double moved = at * ahead;
            double low = Math.max(data.windowLow, data.windowLow - moved);
            double high = Math.min(data.windowHigh, data.windowHigh - moved);
            return low >= high ? 0 : table.between((low - mean) / levelGivenDrift, (high - mean) / levelGivenDrift);
        });
    }

    @Override
    public double isBelow(double ahead) {
        return mean((at, mean) ->
                table.upTo((Math.max(data.windowLow, data.windowLow - at * ahead) - mean) / levelGivenDrift));
    }

    @Override
    public DoubleUnaryOperator readingUpTo() {
        double wide = Math.hypot(levelGivenDrift, scatter);
        return clearance -> mean((at, mean) -> table.upTo((data.levelOf(clearance) - mean) / wide));
    }

    @Override
    public double[] readingRange() {
        double wide = REACH * (Math.hypot(levelGivenDrift, scatter) + Math.abs(levelPerDrift) * driftError);
        return new double[] {data.middle + level - wide, data.middle + level + wide};
    }

    @Override
    public double clearance() {
        return data.middle + level;
    }

    @Override
    public double drift() {
        return drift;
    }

    @Override
    public double driftError() {
        return driftError;
    }

    @Override
    public double scatter() {
        return scatter;
    }
}
