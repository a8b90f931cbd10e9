package dev.lash.trend;

import java.util.Arrays;
import java.util.function.IntToDoubleFunction;

/**
 * A function of nodes that rises to one top and falls from there, worked out from the middle node both ways, on each side until a
 * node has next to nothing of the top.
 */
final class OneTop {
    /** The first and the last node worked out. */
    final int first;

    final int last;

    /** The largest value. */
    final double top;

    private final double[] values;

    private OneTop(double[] values, int first, int last, double top) {
        this.values = values;
        this.first = first;
        this.last = last;
        this.top = top;
    }

    /**
     * Works it out.
     *
     * @param nodes how many nodes there are
     * @param nothing the share of the top at which a side ends
     * @param function the value at a node, not negative
     */
    static OneTop of(int nodes, double nothing, IntToDoubleFunction function) {
        double[] values = new double[nodes];
        double top = 0;
        int start = nodes / 2;
        int last = start;
        for (; last < nodes; last++) {
            values[last] = function.applyAsDouble(last);
            top = Math.max(top, values[last]);
            if (values[last] < nothing * top) {
                break;
            }
        }
        int first = start - 1;
        for (; first >= 0; first--) {
            values[first] = function.applyAsDouble(first);
            top = Math.max(top, values[first]);
            if (values[first] < nothing * top) {
                break;
            }
        }
        return new OneTop(values, Math.max(0, first), Math.min(nodes - 1, last), top);
    }

    /** How many nodes were worked out. */
    int size() {
        return last - first + 1;
    }

    /** The values worked out, and zeros after them up to a least number. */
    double[] values(int least) {
        return Arrays.copyOfRange(values, first, first + Math.max(size(), least));
    }
}
