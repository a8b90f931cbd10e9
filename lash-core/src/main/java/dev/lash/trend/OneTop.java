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

    private OneTop(double[] values, int first, double top) {
        this.values = values;
        this.first = first;
        this.last = first + values.length - 1;
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
        first = Math.max(0, first);
        return new OneTop(Arrays.copyOfRange(values, first, Math.min(nodes, last + 1)), first, top);
    }

    /**
     * The same function with a node more between each two, so that node j is now node 2 j; both sides end where the new top lets
     * them.
     *
     * @param nothing the share of the top at which a side ends
     * @param function the value at a new node
     */
    OneTop halved(double nothing, IntToDoubleFunction function) {
        double[] finer = new double[2 * values.length - 1];
        double most = top;
        for (int i = 0; i < finer.length; i++) {
            finer[i] = i % 2 == 0 ? values[i / 2] : function.applyAsDouble(2 * first + i);
            most = Math.max(most, finer[i]);
        }
        int from = 0;
        while (from + 1 < finer.length && finer[from + 1] < nothing * most) {
            from++;
        }
        int to = finer.length - 1;
        while (to > from && finer[to - 1] < nothing * most) {
            to--;
        }
        return new OneTop(Arrays.copyOfRange(finer, from, to + 1), 2 * first + from, most);
    }

    /** How many nodes were worked out. */
    int size() {
        return values.length;
    }

    /** The values worked out, and zeros after them up to a least number. */
    double[] values(int least) {
        return values.length < least ? Arrays.copyOf(values, least) : values.clone();
    }
}
