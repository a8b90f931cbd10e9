package dev.lash.trend;

import dev.lash.engine.Gap;
import dev.lash.engine.WearPrior;
import dev.lash.trend.LineData.Family;
import dev.lash.trend.LineGrid.Range;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.analysis.interpolation.SplineInterpolator;
import org.apache.commons.math3.analysis.polynomials.PolynomialSplineFunction;

/**
 * What is thought of all lines of an engine after its readings, by quadrature throughout; nothing is drawn at random.
 *
 * <p>The model. A reading of valve v at usage u lies in its bracket when {@code level + drift u + e} does, with e normal of standard
 * deviation s, one s for the engine. Levels of segments are normal about the middle of the window to set to. The drift of a valve is
 * normal about that of its family (role and gap) with standard deviation d; the drift of a family is normal; log s and log d are
 * normal; see {@link WearPrior}. Given s, the likelihood of a valve's drift does not depend on d nor on the family, so it is tabled
 * once for each s; family drifts and d are then summed over on the same grid of drifts.
 */
final class EnginePosterior {
    /** Nodes of log s and log d, in standard deviations of the prior. */
    private static final double ENDS = 3;

    private static final int SCATTERS = 13;
    private static final int SPREADS = 13;
    private static final double PRIOR_REACH = 4.5;
    private static final double TELLING_REACH = 5;
    private static final int MOST_DRIFTS = 600;
    private static final double LOST = 12;

    private final LineData[] lines;
    private final List<SpreadNode.Family> families = new ArrayList<>();
    private final double drift;
    private final double driftDeviation;
    private final double spread;
    private final double scatter;
    private final double logFactor;
    private final List<ScatterSlice> slices = new ArrayList<>();

    /** The logarithm of the evidence, but for terms that depend on nothing but the number of gaps. */
    final double logEvidence;

    EnginePosterior(List<LineData> data, WearPrior prior) {
        this.lines = data.toArray(LineData[]::new);
        this.drift = LineData.millimetres(prior.drift());
        this.driftDeviation = LineData.millimetres(prior.driftDeviation());
        this.spread = LineData.millimetres(prior.spread());
        this.scatter = LineData.millimetres(prior.scatter());
        this.logFactor = Math.log(LineData.value(prior.factor()));
        Map<Family, List<Integer>> valves = new LinkedHashMap<>();
        for (int v = 0; v < lines.length; v++) {
            valves.computeIfAbsent(lines[v].family, f -> new ArrayList<>()).add(v);
        }
        valves.forEach((family, members) -> families.add(new SpreadNode.Family(
                members.stream().mapToInt(v -> v).toArray(), centre(family), driftDeviation, widest())));
        ScatterSlice[] found = new ScatterSlice[SCATTERS];
        outward(found, SCATTERS / 2, 1);
        outward(found, SCATTERS / 2 - 1, -1);
        for (ScatterSlice slice : found) {
            if (slice != null && slice.logEvidence > Double.NEGATIVE_INFINITY) {
                slices.add(slice);
            }
        }
        logEvidence = SpreadNode.logSum(
                slices.stream().mapToDouble(slice -> slice.logEvidence).toArray());
        weighSlices();
        slices.removeIf(slice -> slice.weight < SpreadNode.NEGLIGIBLE);
        double kept = slices.stream().mapToDouble(slice -> slice.weight).sum();
        slices.forEach(slice -> slice.weight /= kept);
        slices.forEach(ScatterSlice::settle);
    }

    /** Slices from the middle of the prior to one end, until one has no share left beside the best: the evidence has one top. */
    private void outward(ScatterSlice[] found, int from, int by) {
        double best = by < 0 ? found[from + 1].logEvidence : Double.NEGATIVE_INFINITY;
        for (int i = from; i >= 0 && i < found.length; i += by) {
            found[i] = slice(node(i, SCATTERS));
            best = Math.max(best, found[i].logEvidence);
            if (found[i].logEvidence < best - LOST) {
                return;
            }
        }
    }

    private static double node(int i, int of) {
        return -ENDS + 2 * ENDS * i / (of - 1);
    }

    private ScatterSlice slice(double z) {
        double s = scatter * Math.exp(z * logFactor);
        double[] spreads = new double[SPREADS];
        for (int i = 0; i < SPREADS; i++) {
            spreads[i] = spread * Math.exp(node(i, SPREADS) * logFactor);
        }
        Range[] ranges = ranges(s);
        double step = step(s, spreads[0], ranges);
        LineGrid[] grids = new LineGrid[lines.length];
        BracketTable.Tables tables = new BracketTable.Tables(s);
        for (int v = 0; v < lines.length; v++) {
            grids[v] = LineGrid.of(lines[v], tables, ranges[v], step);
        }
        List<SpreadNode> nodes = new ArrayList<>();
        for (int i = 0; i < SPREADS; i++) {
            boolean end = i == 0 || i == SPREADS - 1;
            double prior = -node(i, SPREADS) * node(i, SPREADS) / 2 - (end ? Math.log(2) : 0);
            SpreadNode node = SpreadNode.of(grids, families, step, spreads[i], prior);
            if (node.logEvidence > Double.NEGATIVE_INFINITY) {
                nodes.add(node);
            }
        }
        return new ScatterSlice(s, -z * z / 2, grids, nodes);
    }

    /** The drift that the prior expects of a family. */
    double centre(Family family) {
        return family.gap() == Gap.CLOSER ? -drift : drift;
    }

    private double widest() {
        double large = spread * Math.exp(2 * logFactor);
        return PRIOR_REACH * Math.hypot(driftDeviation, large);
    }

    /** For each valve the drifts that readings and prior leave; where they disagree, those of the readings next to the prior. */
    private Range[] ranges(double s) {
        Range[] ranges = new Range[lines.length];
        for (int v = 0; v < lines.length; v++) {
            double centre = centre(lines[v].family);
            Range told = LineGrid.told(lines[v], s, TELLING_REACH);
            for (double reach = 2 * TELLING_REACH; told.width() < 0; reach *= 2) {
                told = LineGrid.told(lines[v], s, reach);
            }
            double low = Math.max(told.low(), centre - widest());
            double high = Math.min(told.high(), centre + widest());
            if (low >= high) {
                double near = told.low() > centre ? told.low() : told.high();
                double far = near + Math.copySign(Math.min(told.width(), widest()), near - centre);
                low = Math.min(near, far);
                high = Math.max(near, far);
            }
            ranges[v] = new Range(low, high);
        }
        return ranges;
    }

    private double step(double s, double narrowest, Range[] ranges) {
        double step = 0.8 * narrowest;
        double most = 0;
        for (int v = 0; v < lines.length; v++) {
            step = Math.min(step, LineGrid.detail(lines[v], s));
            most = Math.max(most, ranges[v].width());
        }
        return Math.max(step, most / MOST_DRIFTS);
    }

    /**
     * The probability of each scatter. The evidence may be sharper than its nodes are apart, so its logarithm, which is smooth, is
     * interpolated and summed finely; what is asked of a slice later is interpolated linearly, which gives each slice its weight.
     */
    private void weighSlices() {
        int n = slices.size();
        if (n == 0) {
            return;
        }
        double[] x = new double[n];
        double[] log = new double[n];
        for (int i = 0; i < n; i++) {
            x[i] = i;
            log[i] = slices.get(i).logEvidence;
        }
        double most = Arrays.stream(log).max().orElseThrow();
        if (n < 3) {
            for (int i = 0; i < n; i++) {
                slices.get(i).weight = Math.exp(log[i] - most);
            }
        } else {
            PolynomialSplineFunction smooth = new SplineInterpolator().interpolate(x, log);
            int fine = 16;
            for (int i = 0; i <= (n - 1) * fine; i++) {
                double at = (double) i / fine;
                double share = Math.exp(smooth.value(at) - most);
                int j = Math.min(n - 2, (int) at);
                slices.get(j).weight += share * (1 - (at - j));
                slices.get(j + 1).weight += share * (at - j);
            }
        }
        double total = slices.stream().mapToDouble(s -> s.weight).sum();
        slices.forEach(s -> s.weight /= total);
    }

    /** The mean of the scatter. */
    double scatter() {
        return slices.stream()
                .mapToDouble(slice -> slice.weight * slice.scatter)
                .sum();
    }

    /** Whether the readings agree with the model at all; only readings far off any line do not. */
    boolean isPossible() {
        return !slices.isEmpty();
    }

    /** The probability that no valve has left its window between now and so much use from now. */
    double allStay(double ahead) {
        double sum = 0;
        for (ScatterSlice slice : slices) {
            sum += slice.weight * slice.allStay(ahead);
        }
        return Math.min(1, sum);
    }

    /** What a function of one line has on average over what is thought of a valve. */
    interface OfLine {
        double mean(LineGrid grid, int drift, double scatter);
    }

    double mean(int v, OfLine function) {
        double[] sum = {0};
        each(v, (grid, j, s, share) -> sum[0] += share * function.mean(grid, j, s));
        return sum[0];
    }

    /** Takes the lines of one drift and scatter with their probability. */
    interface EachLine {
        void take(LineGrid grid, int drift, double scatter, double share);
    }

    /** Goes through all lines of a valve that have any probability, scatter by scatter. */
    void each(int v, EachLine taker) {
        for (ScatterSlice slice : slices) {
            double[] share = slice.drifts(v);
            for (int j = 0; j < share.length; j++) {
                if (share[j] > 0) {
                    taker.take(slice.grid(v), j, slice.scatter, slice.weight * share[j]);
                }
            }
        }
    }

    /** The probability that a valve stays. */
    double stays(int v, double ahead) {
        return Math.min(1, mean(v, (grid, j, s) -> grid.stays(j, ahead)));
    }
}
