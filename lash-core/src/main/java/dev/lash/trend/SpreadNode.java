package dev.lash.trend;

import java.util.List;

/** What readings and prior say of one spread, for one scatter: for each family of valves the drifts it may have. */
final class SpreadNode {
    /** A drift with a smaller share is left out. */
    static final double NEGLIGIBLE = 1e-5;

    final double logEvidence;
    double weight;
    private final DriftKernel kernel;
    private final FamilyDrifts[] families;

    /** A family of valves and its prior. */
    static final class Family {
        final int[] valves;
        final double centre;
        final double deviation;

        /** How far about the centre its drifts are looked for. */
        final double reach;

        Family(int[] valves, double centre, double deviation, double reach) {
            this.valves = valves;
            this.centre = centre;
            this.deviation = deviation;
            this.reach = reach;
        }
    }

    /** The drifts of one family. */
    private static final class FamilyDrifts {
        final int[] valves;

        /** Their places on the grid. */
        final int[] at;

        /** Their probabilities. */
        final double[] weight;

        /** For each valve of the family the likelihood of each. */
        final double[][] evidence;

        FamilyDrifts(int[] valves, int[] at, double[] weight, double[][] evidence) {
            this.valves = valves;
            this.at = at;
            this.weight = weight;
            this.evidence = evidence;
        }
    }

    private SpreadNode(double logEvidence, DriftKernel kernel, FamilyDrifts[] families) {
        this.logEvidence = logEvidence;
        this.kernel = kernel;
        this.families = families;
    }

    static SpreadNode of(LineGrid[] grids, List<Family> families, double step, double spread, double logPrior) {
        DriftKernel kernel = new DriftKernel(spread, step);
        FamilyDrifts[] drifts = new FamilyDrifts[families.size()];
        double logEvidence = logPrior;
        for (int f = 0; f < drifts.length; f++) {
            Family family = families.get(f);
            // the sum over valves is no sharper than the spread over the root of their number
            double sharp = spread / step / Math.sqrt(family.valves.length);
            int[] at = places(grids, family, kernel, step, Math.max(1, (int) Math.floor(0.7 * sharp)));
            int stride = at.length > 1 ? at[1] - at[0] : 1;
            double[] log = new double[at.length];
            double[][] evidence = new double[family.valves.length][at.length];
            for (int m = 0; m < at.length; m++) {
                double product = 1;
                for (int i = 0; i < evidence.length; i++) {
                    LineGrid grid = grids[family.valves[i]];
                    evidence[i][m] = kernel.smoothed(grid.likelihood, 0, grid.likelihood.length, at[m] - grid.first);
                    product *= evidence[i][m];
                }
                double z = (at[m] * step - family.centre) / family.deviation;
                log[m] = Math.log(product) - z * z / 2 + Math.log(stride * step / family.deviation);
            }
            double sum = logSum(log);
            logEvidence += sum;
            drifts[f] = normalised(family.valves, at, log, sum, evidence);
        }
        for (LineGrid grid : grids) {
            logEvidence += grid.logTop;
        }
        return new SpreadNode(logEvidence, kernel, drifts);
    }

    /** The drifts of a family that every valve can have. */
    private static int[] places(LineGrid[] grids, Family family, DriftKernel kernel, double step, int stride) {
        int low = (int) Math.floor((family.centre - family.reach) / step);
        int high = (int) Math.ceil((family.centre + family.reach) / step);
        for (int v : family.valves) {
            low = Math.max(low, grids[v].first - kernel.reach());
            high = Math.min(high, grids[v].first + grids[v].likelihood.length - 1 + kernel.reach());
        }
        int[] at = new int[Math.max(0, (high - low) / stride + 1)];
        for (int m = 0; m < at.length; m++) {
            at[m] = low + m * stride;
        }
        return at;
    }

    /** The drifts whose share counts. */
    private static FamilyDrifts normalised(int[] valves, int[] at, double[] log, double sum, double[][] evidence) {
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
        return new FamilyDrifts(valves, places, weight, keptEvidence);
    }

    static double logSum(double[] logs) {
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

    /** Adds to the drifts of each valve what this spread has for them, times its weight. */
    void addTo(LineGrid[] grids, double[][] shares) {
        for (FamilyDrifts drifts : families) {
            for (int i = 0; i < drifts.valves.length; i++) {
                int v = drifts.valves[i];
                for (int m = 0; m < drifts.at.length; m++) {
                    kernel.spread(grids[v], drifts.at[m], weight * drifts.weight[m] / drifts.evidence[i][m], shares[v]);
                }
            }
        }
    }

    /** For each drift of a valve the probability of staying times the likelihood, and which of them are not 0. */
    static final class Stays {
        final double[] values;
        final int from;
        final int to;

        Stays(double[] values, int from, int to) {
            this.values = values;
            this.from = from;
            this.to = to;
        }
    }

    /** The probability that every valve stays; given for each valve and drift that of staying times the likelihood. */
    double allStay(LineGrid[] grids, Stays[] stays) {
        double product = 1;
        for (FamilyDrifts drifts : families) {
            double sum = 0;
            for (int m = 0; m < drifts.at.length; m++) {
                double stay = drifts.weight[m];
                for (int i = 0; i < drifts.valves.length && stay > 0; i++) {
                    int v = drifts.valves[i];
                    Stays of = stays[v];
                    stay *= kernel.smoothed(of.values, of.from, of.to, drifts.at[m] - grids[v].first)
                            / drifts.evidence[i][m];
                }
                sum += stay;
            }
            product *= sum;
        }
        return product;
    }
}
