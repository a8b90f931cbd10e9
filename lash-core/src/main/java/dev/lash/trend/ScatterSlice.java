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
        for (double[] shares : drifts) {
            prune(shares);
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
        double[][] stays = new double[grids.length][];
        for (int v = 0; v < grids.length; v++) {
            stays[v] = new double[grids[v].likelihood.length];
            for (int j = 0; j < stays[v].length; j++) {
                stays[v][j] = drifts[v][j] > 0 ? grids[v].likelihood[j] * grids[v].stays(j, ahead) : 0;
            }
        }
        double sum = 0;
        for (SpreadNode node : nodes) {
            sum += node.weight * node.allStay(grids, stays);
        }
        return sum;
    }
}
