package dev.lash.trend;

import java.util.List;

/** What is thought of all lines of an engine, given one scatter. */
final class ScatterSlice {
    final double scatter;
    final double logEvidence;
    double weight;
    private final LineGrid[] grids;
    private final List<SpreadNode> nodes;

    /** For each valve the probability of each drift of its grid. */
    private double[][] drifts = {};

    /** For each valve the first drift with a share, and one beyond the last. */
    private int[] from = {};

    private int[] to = {};

    ScatterSlice(double scatter, double logPrior, LineGrid[] grids, List<SpreadNode> nodes) {
        this.scatter = scatter;
        this.grids = grids;
        this.nodes = nodes;
        this.logEvidence = logPrior + logSum();
    }

    private double logSum() {
        return SpreadNode.logSum(nodes.stream().mapToDouble(n -> n.logEvidence).toArray());
    }

    /** Weighs spreads and drifts; called once, for a slice that counts. */
    void settle() {
        double sum = logSum();
        nodes.forEach(n -> n.weight = Math.exp(n.logEvidence - sum));
        nodes.removeIf(n -> n.weight < SpreadNode.NEGLIGIBLE);
        double total = nodes.stream().mapToDouble(n -> n.weight).sum();
        nodes.forEach(n -> n.weight /= total);
        drifts = new double[grids.length][];
        for (int v = 0; v < grids.length; v++) {
            drifts[v] = new double[grids[v].likelihood.length];
        }
        nodes.forEach(node -> node.addTo(grids, drifts));
        from = new int[drifts.length];
        to = new int[drifts.length];
        for (int v = 0; v < drifts.length; v++) {
            prune(drifts[v]);
            to[v] = drifts[v].length;
            while (from[v] < to[v] && drifts[v][from[v]] == 0) {
                from[v]++;
            }
            while (to[v] > from[v] && drifts[v][to[v] - 1] == 0) {
                to[v]--;
            }
        }
    }

    /** Leaves out drifts with next to no share. */
    private static void prune(double[] shares) {
        double kept = 0;
        for (int j = 0; j < shares.length; j++) {
            shares[j] = shares[j] < SpreadNode.NEGLIGIBLE ? 0 : shares[j];
            kept += shares[j];
        }
        for (int j = 0; j < shares.length; j++) {
            shares[j] /= kept;
        }
    }

    LineGrid grid(int v) {
        return grids[v];
    }

    double[] drifts(int v) {
        return drifts[v];
    }

    /** The probability that no valve has left its window between now and so much use from now. */
    double allStay(double ahead) {
        SpreadNode.Stays[] stays = new SpreadNode.Stays[grids.length];
        for (int v = 0; v < grids.length; v++) {
            double[] values = new double[to[v]];
            for (int j = from[v]; j < to[v]; j++) {
                values[j] = grids[v].likelihood[j] * grids[v].stays(j, ahead);
            }
            stays[v] = new SpreadNode.Stays(values, from[v], to[v]);
        }
        double sum = 0;
        for (SpreadNode node : nodes) {
            sum += node.weight * node.allStay(grids, stays);
        }
        return sum;
    }
}
