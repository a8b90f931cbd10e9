package dev.lash.trend;

/**
 * The level of one segment for one drift: its density on evenly spaced nodes, not normalised. The nodes lie so close, by what the
 * readings tell together, that the sum over them is the integral to many digits (trapezoidal rule on analytic functions).
 */
final class LevelGrid {
    private static final double REACH = 6;
    /** Of the deviation of the level; half of what a sum needs, for the share below a level is interpolated. */
    private static final double STEP = 0.6;

    /** Of the scatter, which is how sharp the edge of a wide bracket is. */
    private static final double EDGE = 0.8;

    private static final int MOST = 400;
    private static final int LEAST = 8;

    /** Readings that hardly agree leave a spike narrower than each of them. */
    private static final int FEW = 14;

    private static final int MOST_FINER = 16;

    /** A density has one top; beyond a node with this share of it there is nothing to count. */
    private static final double NOTHING = 1e-8;

    final double first;
    final double step;
    final double[] density;
    private final double[] cumulative;
    private final double mass;

    private LevelGrid(double first, double step, double[] density) {
        this.first = first;
        this.step = step;
        this.density = density;
        this.cumulative = cumulative(step, density);
        this.mass = cumulative[density.length - 1];
    }

    /**
     * The level at the usage that the part counts from.
     *
     * @param part the readings
     * @param brackets the tables of their brackets for that scatter, which other drifts share
     * @param drift the drift per unit of usage
     * @param scatter the scatter of a reading
     * @param deviation of the level at the start of the part
     * @return the grid
     */
    static LevelGrid of(LineData.Part part, BracketTable[] brackets, double drift, double scatter, double deviation) {
        double low = Double.NEGATIVE_INFINITY;
        double high = Double.POSITIVE_INFINITY;
        for (int i = 0; i < part.size(); i++) {
            double moved = drift * part.at[i];
            low = Math.max(low, part.low[i] - moved - REACH * scatter);
            high = Math.min(high, part.high[i] - moved + REACH * scatter);
        }
        double centre = -drift * part.start;
        double from = Math.max(low, centre - REACH * deviation);
        double to = Math.min(high, centre + REACH * deviation);
        if (from >= to && low < high) {
            // the readings lie far out in the tail of the prior: only their near edge counts
            from = low > centre ? low : Math.max(low, high - 2 * REACH * scatter);
            to = low > centre ? Math.min(high, low + 2 * REACH * scatter) : high;
        }
        if (from >= to) {
            return new LevelGrid(centre, scatter, new double[LEAST]);
        }
        double widest = STEP * detail(part, scatter, deviation);
        if (part.size() > 0) {
            widest = Math.min(widest, EDGE * scatter);
        }
        int nodes = (int) Math.max(LEAST, Math.min(MOST, Math.ceil((to - from) / widest) + 1));
        return outward(new Density(part, brackets, drift, deviation), from, to, nodes);
    }

    /** The density of a level, from prior and readings. */
    private static final class Density {
        private final BracketTable[] brackets;
        private final double[] middles;
        private final double centre;
        private final double deviation;
        private final double tail;

        Density(LineData.Part part, BracketTable[] brackets, double drift, double deviation) {
            this.brackets = brackets;
            this.middles = new double[brackets.length];
            for (int i = 0; i < middles.length; i++) {
                middles[i] = brackets[i].middle - drift * part.at[i];
            }
            this.centre = -drift * part.start;
            this.deviation = deviation;
            this.tail = part.tail(deviation);
        }

        double at(double level) {
            double product = prior((level - centre) / deviation, tail) / deviation;
            for (int i = 0; i < middles.length && product > 0; i++) {
                product *= brackets[i].at(level - middles[i]);
            }
            return product;
        }
    }

    /** From the middle of a range both ways, as far as there is anything to count; finer where that was but a few nodes. */
    private static LevelGrid outward(Density density, double from, double to, int nodes) {
        double step = (to - from) / (nodes - 1);
        double coarse = step;
        OneTop found = OneTop.of(nodes, NOTHING, j -> density.at(from + j * coarse));
        for (int i = 0; i < MOST_FINER && found.top > 0 && found.size() <= FEW; i++) {
            step /= 2;
            double finer = step;
            found = found.halved(NOTHING, j -> density.at(from + j * finer));
        }
        return new LevelGrid(from + found.first * step, step, found.values(LEAST));
    }

    /** The deviation of a level if each bracket were a normal density about as wide: many readings together tell more than one. */
    private static double detail(LineData.Part part, double scatter, double deviation) {
        double information = 1 / (deviation * deviation);
        for (int i = 0; i < part.size(); i++) {
            double quarter = (part.high[i] - part.low[i]) / 4;
            information += 1 / (scatter * scatter + quarter * quarter);
        }
        return 1 / Math.sqrt(information);
    }

    /** The prior of a level, for one that lies far out relative to the density there, lest it vanish. */
    private static double prior(double z, double tail) {
        return tail == 0 ? NormalTable.SHARED.density(z) : Math.exp(-(z - tail) * (z + tail) / 2);
    }

    /** The integral up to each node, by Simpson's rule over three nodes. */
    private static double[] cumulative(double step, double[] f) {
        int n = f.length;
        double[] sum = new double[n];
        for (int j = 1; j < n; j++) {
            double before = j >= 2 ? f[j - 2] : 0;
            double after = j + 1 < n ? f[j + 1] : 0;
            // cubic through four nodes, integrated between the middle two
            sum[j] = sum[j - 1] + Math.max(0, step * (13 * (f[j - 1] + f[j]) - before - after) / 24);
        }
        return sum;
    }

    /** The whole integral. */
    double mass() {
        return mass;
    }

    /** The sum over the nodes. */
    double sum() {
        double sum = 0;
        for (double value : density) {
            sum += value;
        }
        return sum;
    }

    /** The highest node. */
    double last() {
        return first + step * (density.length - 1);
    }

    /** The integral up to a level: cubic Hermite between the nodes. */
    double massUpTo(double level) {
        double at = (level - first) / step;
        if (at <= 0) {
            return 0;
        }
        int last = density.length - 1;
        if (at >= last) {
            return cumulative[last];
        }
        int j = (int) at;
        // a cubic may dip below 0 where the density rises steeply
        return Math.max(
                0, NormalTable.hermite(at - j, step, cumulative[j], density[j], cumulative[j + 1], density[j + 1]));
    }

    /** The mean level: by one and the same sum above and below, so that it lies among the nodes whatever the density is like. */
    double mean() {
        double sum = 0;
        double moment = 0;
        for (int j = 0; j < density.length; j++) {
            sum += density[j];
            moment += j * density[j];
        }
        return sum == 0 ? first : first + step * moment / sum;
    }
}
