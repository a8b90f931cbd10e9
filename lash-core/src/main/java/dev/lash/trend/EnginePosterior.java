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
    private static final double NEGLIGIBLE = 1e-5;
    private static final double LOST = 14;

    private final LineData[] lines;
    private final Map<Family, List<Integer>> families = new LinkedHashMap<>();
    private final double drift;
    private final double driftDeviation;
    private final double spread;
    private final double scatter;
    private final double logFactor;
    private final List<Slice> slices = new ArrayList<>();

    /** Everything for one scatter. */
    private static final class Slice {
        final double scatter;
        final LineGrid[] grids;
        final List<Node> nodes = new ArrayList<>();
        double logEvidence = Double.NEGATIVE_INFINITY;
        double weight;
        /** For each valve the probability of each drift of its grid. */
        final double[][] drifts;

        Slice(double scatter, LineGrid[] grids) {
            this.scatter = scatter;
            this.grids = grids;
            this.drifts = new double[grids.length][];
        }
    }

    /** One spread: for each family the drifts it may have, with their probabilities. */
    private static final class Node {
        final double logEvidence;
        final Kernel kernel;
        final FamilyDrifts[] families;
        double weight;

        Node(double logEvidence, Kernel kernel, FamilyDrifts[] families) {
            this.logEvidence = logEvidence;
            this.kernel = kernel;
            this.families = families;
        }
    }

    /** The drifts of one family for one scatter and spread. */
    private static final class FamilyDrifts {
        /** Their places on the grid. */
        final int[] at;

        /** Their probabilities. */
        final double[] weight;

        /** For each valve of the family the likelihood of each. */
        final double[][] evidence;

        FamilyDrifts(int[] at, double[] weight, double[][] evidence) {
            this.at = at;
            this.weight = weight;
            this.evidence = evidence;
        }
    }

    /** The normal density of a drift about that of its family, at whole multiples of the step, times the step. */
    private static final class Kernel {
        final double[] half;

        Kernel(double spread, double step) {
            int reach = (int) Math.ceil(6 * spread / step);
            half = new double[reach + 1];
            double sum = 0;
            for (int i = 0; i <= reach; i++) {
                double z = i * step / spread;
                half[i] = Math.exp(-z * z / 2);
                sum += i == 0 ? half[i] : 2 * half[i];
            }
            for (int i = 0; i <= reach; i++) {
                half[i] /= sum;
            }
        }

        double at(int distance) {
            int size = Math.abs(distance);
            return size < half.length ? half[size] : 0;
        }
    }

    EnginePosterior(List<LineData> data, WearPrior prior) {
        this.lines = data.toArray(LineData[]::new);
        for (int v = 0; v < lines.length; v++) {
            families.computeIfAbsent(lines[v].family, f -> new ArrayList<>()).add(v);
        }
        this.drift = LineData.millimetres(prior.drift());
        this.driftDeviation = LineData.millimetres(prior.driftDeviation());
        this.spread = LineData.millimetres(prior.spread());
        this.scatter = LineData.millimetres(prior.scatter());
        this.logFactor = Math.log(LineData.value(prior.factor()));
        NormalTable table = NormalTable.SHARED;
        Slice[] found = new Slice[SCATTERS];
        outward(found, SCATTERS / 2, 1, table);
        outward(found, SCATTERS / 2 - 1, -1, table);
        for (Slice slice : found) {
            if (slice != null && slice.logEvidence > Double.NEGATIVE_INFINITY) {
                slices.add(slice);
            }
        }
        weighSlices();
        slices.removeIf(slice -> slice.weight < NEGLIGIBLE);
        double kept = slices.stream().mapToDouble(slice -> slice.weight).sum();
        slices.forEach(slice -> slice.weight /= kept);
        slices.forEach(this::weighNodes);
        slices.forEach(this::marginals);
    }

    /** Slices from the middle of the prior to one end, until one has no share left beside the best: the evidence has one top. */
    private void outward(Slice[] found, int from, int by, NormalTable table) {
        double best = by < 0 ? found[from + 1].logEvidence : Double.NEGATIVE_INFINITY;
        for (int i = from; i >= 0 && i < found.length; i += by) {
            found[i] = slice(node(i, SCATTERS), table);
            best = Math.max(best, found[i].logEvidence);
            if (found[i].logEvidence < best - LOST) {
                return;
            }
        }
    }

    private static double node(int i, int of) {
        return -ENDS + 2 * ENDS * i / (of - 1);
    }

    private Slice slice(double z, NormalTable table) {
        double s = scatter * Math.exp(z * logFactor);
        double[] spreads = new double[SPREADS];
        for (int i = 0; i < SPREADS; i++) {
            spreads[i] = spread * Math.exp(node(i, SPREADS) * logFactor);
        }
        Range[] ranges = ranges(s);
        double step = step(s, spreads[0], ranges);
        LineGrid[] grids = new LineGrid[lines.length];
        for (int v = 0; v < lines.length; v++) {
            grids[v] = LineGrid.of(lines[v], s, ranges[v], step, table);
        }
        Slice slice = new Slice(s, grids);
        for (int i = 0; i < SPREADS; i++) {
            boolean end = i == 0 || i == SPREADS - 1;
            double prior = -node(i, SPREADS) * node(i, SPREADS) / 2 - (end ? Math.log(2) : 0);
            Node node = node(slice, step, spreads[i], prior);
            if (node.logEvidence > Double.NEGATIVE_INFINITY) {
                slice.nodes.add(node);
            }
        }
        slice.logEvidence = -z * z / 2
                + logSum(slice.nodes.stream().mapToDouble(n -> n.logEvidence).toArray());
        return slice;
    }

    private double centre(Family family) {
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

    /** What readings and prior say of one spread: for each family, each of its drifts. */
    private Node node(Slice slice, double step, double spreadHere, double logPrior) {
        Kernel kernel = new Kernel(spreadHere, step);
        FamilyDrifts[] drifts = new FamilyDrifts[families.size()];
        double logEvidence = logPrior;
        int f = 0;
        for (Map.Entry<Family, List<Integer>> family : families.entrySet()) {
            List<Integer> valves = family.getValue();
            // the drift of the family must be within reach of every valve
            int low = (int) Math.floor((centre(family.getKey()) - widest()) / step);
            int high = (int) Math.ceil((centre(family.getKey()) + widest()) / step);
            for (int v : valves) {
                low = Math.max(low, slice.grids[v].first - kernel.half.length + 1);
                high = Math.min(high, slice.grids[v].first + slice.grids[v].likelihood.length + kernel.half.length - 2);
            }
            // the sum over valves is no sharper than the spread over the root of their number
            double sharp = spreadHere / step / Math.sqrt(valves.size());
            int stride = Math.max(1, (int) Math.floor(0.7 * sharp));
            int n = Math.max(0, (high - low) / stride + 1);
            int[] at = new int[n];
            double[] log = new double[n];
            double[][] evidence = new double[valves.size()][n];
            for (int m = 0; m < n; m++) {
                at[m] = low + m * stride;
                double z = (at[m] * step - centre(family.getKey())) / driftDeviation;
                log[m] = -z * z / 2 + Math.log(stride * step / driftDeviation);
                for (int i = 0; i < valves.size(); i++) {
                    evidence[i][m] =
                            smoothed(slice.grids[valves.get(i)], slice.grids[valves.get(i)].likelihood, kernel, at[m]);
                    log[m] += Math.log(evidence[i][m]);
                }
            }
            double sum = logSum(log);
            logEvidence += sum;
            drifts[f++] = normalised(at, log, sum, evidence);
        }
        return new Node(logEvidence, kernel, drifts);
    }

    /** The drifts whose share counts. */
    private static FamilyDrifts normalised(int[] at, double[] log, double sum, double[][] evidence) {
        int[] kept = new int[at.length];
        int n = 0;
        for (int m = 0; m < at.length; m++) {
            if (log[m] - sum > Math.log(NEGLIGIBLE)) {
                kept[n++] = m;
            }
        }
        int[] places = new int[n];
        double[] weight = new double[n];
        double[][] keptEvidence = new double[evidence.length][n];
        double total = 0;
        for (int i = 0; i < n; i++) {
            places[i] = at[kept[i]];
            weight[i] = Math.exp(log[kept[i]] - sum);
            total += weight[i];
            for (int v = 0; v < evidence.length; v++) {
                keptEvidence[v][i] = evidence[v][kept[i]];
            }
        }
        for (int i = 0; i < n; i++) {
            weight[i] /= total;
        }
        return new FamilyDrifts(places, weight, keptEvidence);
    }

    /** The likelihood of a family's drift: over the drifts of a valve, times a share of each. */
    private static double smoothed(LineGrid grid, double[] values, Kernel kernel, int at) {
        double[] half = kernel.half;
        int middle = at - grid.first;
        int from = Math.max(0, middle - half.length + 1);
        int to = Math.min(values.length, middle + half.length);
        double sum = 0;
        int j = from;
        for (; j < Math.min(to, middle); j++) {
            sum += values[j] * half[middle - j];
        }
        for (; j < to; j++) {
            sum += values[j] * half[j - middle];
        }
        return sum;
    }

    private static double logSum(double[] logs) {
        double most = Double.NEGATIVE_INFINITY;
        for (double log : logs) {
            most = Math.max(most, log);
        }
        if (most == Double.NEGATIVE_INFINITY) {
            return most;
        }
        double sum = 0;
        for (double log : logs) {
            sum += Math.exp(log - most);
        }
        return most + Math.log(sum);
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

    private void weighNodes(Slice slice) {
        double sum = logSum(slice.nodes.stream().mapToDouble(n -> n.logEvidence).toArray());
        slice.nodes.forEach(n -> n.weight = Math.exp(n.logEvidence - sum));
        slice.nodes.removeIf(n -> n.weight < NEGLIGIBLE);
        double total = slice.nodes.stream().mapToDouble(n -> n.weight).sum();
        slice.nodes.forEach(n -> n.weight /= total);
    }

    /** The probability of each drift of each valve, whatever the family and the spread. */
    private void marginals(Slice slice) {
        for (int v = 0; v < lines.length; v++) {
            slice.drifts[v] = new double[slice.grids[v].likelihood.length];
        }
        for (Node node : slice.nodes) {
            int f = 0;
            for (List<Integer> valves : families.values()) {
                FamilyDrifts drifts = node.families[f++];
                for (int i = 0; i < valves.size(); i++) {
                    spreadOver(slice, node, drifts, i, valves.get(i));
                }
            }
        }
        for (double[] shares : slice.drifts) {
            prune(shares);
        }
    }

    /** Leaves out drifts with next to no share. */
    private static void prune(double[] shares) {
        double kept = 0;
        for (int j = 0; j < shares.length; j++) {
            shares[j] = shares[j] < NEGLIGIBLE ? 0 : shares[j];
            kept += shares[j];
        }
        for (int j = 0; j < shares.length; j++) {
            shares[j] /= kept;
        }
    }

    private static void spreadOver(Slice slice, Node node, FamilyDrifts drifts, int i, int v) {
        LineGrid grid = slice.grids[v];
        double[] share = slice.drifts[v];
        for (int m = 0; m < drifts.at.length; m++) {
            double weight = node.weight * drifts.weight[m] / drifts.evidence[i][m];
            int at = drifts.at[m];
            int from = Math.max(0, at - grid.first - node.kernel.half.length + 1);
            int to = Math.min(share.length, at - grid.first + node.kernel.half.length);
            for (int j = from; j < to; j++) {
                share[j] += weight * grid.likelihood[j] * node.kernel.at(grid.first + j - at);
            }
        }
    }

    /** Whether the readings agree with the model at all; only readings far off any line do not. */
    boolean isPossible() {
        return !slices.isEmpty();
    }

    /** The probability that no valve has left its window between now and so much use from now. */
    double allStay(double ahead) {
        double result = 0;
        for (Slice slice : slices) {
            double[][] stays = new double[lines.length][];
            for (int v = 0; v < lines.length; v++) {
                stays[v] = new double[slice.grids[v].likelihood.length];
                for (int j = 0; j < stays[v].length; j++) {
                    stays[v][j] =
                            slice.drifts[v][j] > 0 ? slice.grids[v].likelihood[j] * slice.grids[v].stays(j, ahead) : 0;
                }
            }
            for (Node node : slice.nodes) {
                result += slice.weight * node.weight * allStay(slice, node, stays);
            }
        }
        return result;
    }

    private double allStay(Slice slice, Node node, double[][] stays) {
        double product = 1;
        int f = 0;
        for (List<Integer> valves : families.values()) {
            FamilyDrifts drifts = node.families[f++];
            double sum = 0;
            for (int m = 0; m < drifts.at.length; m++) {
                double stay = drifts.weight[m];
                for (int i = 0; i < valves.size() && stay > 0; i++) {
                    int v = valves.get(i);
                    stay *= smoothed(slice.grids[v], stays[v], node.kernel, drifts.at[m]) / drifts.evidence[i][m];
                }
                sum += stay;
            }
            product *= sum;
        }
        return product;
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
        for (Slice slice : slices) {
            double[] share = slice.drifts[v];
            for (int j = 0; j < share.length; j++) {
                if (share[j] > 0) {
                    taker.take(slice.grids[v], j, slice.scatter, slice.weight * share[j]);
                }
            }
        }
    }

    /** The probability that a valve stays. */
    double stays(int v, double ahead) {
        return mean(v, (grid, j, s) -> grid.stays(j, ahead));
    }
}
