package dev.lash.trend;

import java.util.Arrays;

/**
 * The lines of one gap for one scatter: what each drift on a grid has for it by the readings, and the levels that go with it.
 * Drifts are whole multiples of the step, so that the grids of all valves lie on each other. Levels exist only where the likelihood
 * is not 0. Used by one thread.
 */
final class LineGrid {
    /** The likelihood of a drift has one top; beyond a node with this share of it no prior makes up for the rest. */
    private static final double NOTHING = 1e-14;

    final int first;
    /** Of each drift, relative to the best. */
    final double[] likelihood;

    /** The logarithm of the likelihood of the best drift, whatever scale its levels were reckoned in. */
    final double logTop;

    private final LevelGrid[] levels;

    /** For each drift the mass of the levels that are below either end of the window now; NaN where nobody asked. */
    private final double[] upToLow;

    private final double[] upToHigh;
    private final double step;
    private final LineData data;

    private LineGrid(LineData data, int first, double step, double[] likelihood, double logTop, LevelGrid[] levels) {
        this.data = data;
        this.first = first;
        this.step = step;
        this.likelihood = likelihood;
        this.logTop = logTop;
        this.levels = levels;
        this.upToLow = new double[levels.length];
        this.upToHigh = new double[levels.length];
        Arrays.fill(upToLow, Double.NaN);
        Arrays.fill(upToHigh, Double.NaN);
    }

    static LineGrid of(LineData data, BracketTable.Tables tables, Range drifts, double step) {
        int first = (int) Math.floor(drifts.low() / step);
        int last = (int) Math.ceil(drifts.high() / step);
        LevelGrid[] levels = new LevelGrid[last - first + 1];
        BracketTable[][] brackets = new BracketTable[data.parts.length][];
        for (int k = 0; k < brackets.length; k++) {
            brackets[k] = tables.of(data.parts[k]);
        }
        OneTop found = OneTop.of(
                levels.length, NOTHING, j -> likelihood(data, brackets, tables.scatter, (first + j) * step, levels, j));
        double[] likelihood = found.values(0);
        for (int j = 0; j < likelihood.length && found.top > 0; j++) {
            likelihood[j] /= found.top;
        }
        return new LineGrid(
                data,
                first + found.first,
                step,
                likelihood,
                Math.log(found.top) + data.logScale(),
                Arrays.copyOfRange(levels, found.first, found.last + 1));
    }

    private static double likelihood(
            LineData data, BracketTable[][] brackets, double scatter, double drift, LevelGrid[] levels, int j) {
        double product = 1;
        for (int k = 0; k < data.parts.length && product > 0; k++) {
            LevelGrid grid = LevelGrid.of(data.parts[k], brackets[k], drift, scatter, data.deviation);
            product *= grid.mass();
            levels[j] = grid;
        }
        return product;
    }

    double drift(int j) {
        return (first + j) * step;
    }

    LevelGrid level(int j) {
        return levels[j];
    }

    /** The share of the lines of a drift that are in the window now and still are after so much use. */
    double stays(int j, double ahead) {
        double moved = drift(j) * ahead;
        LevelGrid level = levels[j];
        double low = moved < 0 ? level.massUpTo(data.windowLow - moved) : upToLow(j);
        double high = moved > 0 ? level.massUpTo(data.windowHigh - moved) : upToHigh(j);
        return Math.max(0, Math.min(1, (high - low) / level.mass()));
    }

    /** The share of the lines of a drift that are below the window now or after so much use. */
    double isBelow(int j, double ahead) {
        double moved = drift(j) * ahead;
        LevelGrid level = levels[j];
        return (moved < 0 ? level.massUpTo(data.windowLow - moved) : upToLow(j)) / level.mass();
    }

    private double upToLow(int j) {
        if (Double.isNaN(upToLow[j])) {
            upToLow[j] = levels[j].massUpTo(data.windowLow);
        }
        return upToLow[j];
    }

    private double upToHigh(int j) {
        if (Double.isNaN(upToHigh[j])) {
            upToHigh[j] = levels[j].massUpTo(data.windowHigh);
        }
        return upToHigh[j];
    }

    /** Drifts from a lowest to a highest. */
    record Range(double low, double high) {
        double width() {
            return high - low;
        }
    }

    /**
     * The drifts that pairs of readings of one segment leave any likelihood worth counting, as far as that reaches.
     *
     * @param data the readings
     * @param scatter the scatter
     * @param reach how many standard deviations count
     * @return the range, which may be reversed where the readings agree with no drift
     */
    static Range told(LineData data, double scatter, double reach) {
        double low = Double.NEGATIVE_INFINITY;
        double high = Double.POSITIVE_INFINITY;
        double slack = reach * Math.sqrt(2) * scatter;
        for (LineData.Part part : data.parts) {
            for (int i = 0; i < part.size(); i++) {
                for (int j = i + 1; j < part.size(); j++) {
                    double use = part.at[j] - part.at[i];
                    if (use > 0) {
                        low = Math.max(low, (part.low[j] - part.high[i] - slack) / use);
                        high = Math.min(high, (part.high[j] - part.low[i] + slack) / use);
                    }
                }
            }
        }
        return new Range(low, high);
    }

    /** How finely drifts must be told apart: the scatter over the spread of usages within segments. */
    static double detail(LineData data, double scatter) {
        double squares = 0;
        for (LineData.Part part : data.parts) {
            double mean = 0;
            for (double at : part.at) {
                mean += at / part.size();
            }
            for (double at : part.at) {
                squares += (at - mean) * (at - mean);
            }
        }
        return scatter / Math.sqrt(squares);
    }
}
