package dev.lash.trend;

/**
 * The lines of one gap for one scatter: what each drift on a grid has for it by the readings, and the levels that go with it.
 * Drifts are whole multiples of the step, so that the grids of all valves lie on each other.
 */
final class LineGrid {
    final int first;
    final double[] likelihood;
    private final LevelGrid[] levels;
    private final double step;
    private final LineData data;

    private LineGrid(LineData data, int first, double step, double[] likelihood, LevelGrid[] levels) {
        this.data = data;
        this.first = first;
        this.step = step;
        this.likelihood = likelihood;
        this.levels = levels;
    }

    static LineGrid of(LineData data, double scatter, Range drifts, double step, NormalTable table) {
        int first = (int) Math.floor(drifts.low() / step);
        int last = (int) Math.ceil(drifts.high() / step);
        double[] likelihood = new double[last - first + 1];
        LevelGrid[] levels = new LevelGrid[likelihood.length];
        for (int j = 0; j < likelihood.length; j++) {
            double drift = (first + j) * step;
            double product = 1;
            for (int k = 0; k < data.parts.length && product > 0; k++) {
                LevelGrid grid = LevelGrid.of(data.parts[k], drift, scatter, data.deviation, table);
                product *= grid.mass();
                levels[j] = grid;
            }
            likelihood[j] = product;
        }
        return new LineGrid(data, first, step, likelihood, levels);
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
        double mass = level.mass();
        return mass == 0
                ? 0
                : Math.min(
                        1,
                        level.massBetween(
                                        Math.max(data.windowLow, data.windowLow - moved),
                                        Math.min(data.windowHigh, data.windowHigh - moved))
                                / mass);
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
