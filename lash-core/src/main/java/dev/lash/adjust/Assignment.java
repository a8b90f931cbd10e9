package dev.lash.adjust;

import dev.lash.measure.RejectedValueException;
import java.util.Arrays;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * The cheapest assignment of rows to columns, exact: each row gets a column of its own so that the sum of the costs is least.
 * Where there are more rows than columns, each column gets a row of its own instead. Immutable.
 *
 * <table>
 * <caption>Input</caption>
 * <tr><th>input</th><th>range</th></tr>
 * <tr><td>matrix</td><td>any rectangle, no rows included; row lengths equal</td></tr>
 * <tr><td>cost</td><td>a whole number, also negative; with n the lesser of rows and columns, its size and the spread of all costs
 * at most {@link #largestCost} of n, so that no sum inside overflows</td></tr>
 * <tr><td>forbidden cell</td><td>{@link #FORBIDDEN}</td></tr>
 * </table>
 *
 * <p><b>Method.</b> Shortest augmenting paths with row and column potentials after a bounded number of augmenting row reductions
 * (R. Jonker and A. Volgenant, "A shortest augmenting path algorithm for dense and sparse linear assignment problems",
 * Computing 38, 1987), without their column reduction, so that rectangular matrices need no padding: potentials of columns
 * that are not used stay 0. At most of order n squared times the greater side.
 *
 * <p><b>Proof of optimality.</b> The potentials are a certificate that a caller can check without trusting this class: for every
 * allowed cell, {@code rowPotential(i) + columnPotential(j) <= cost(i, j)}, with equality where row i has column j; and the
 * potential of each line of the greater side is at most 0, and 0 where the line is not used (a square matrix has none such).
 *
 * <p><b>Ties.</b> The answer depends on the matrix alone. Which of several cheapest assignments it is, is not promised.
 */
public final class Assignment {
    /** The cost of a cell that must not be used. */
    public static final long FORBIDDEN = Long.MAX_VALUE;

    private static final int MOST_CELLS = Integer.MAX_VALUE - 8;

    private final int[] columnOfRow;
    private final int[] rowOfColumn;
    private final long[] rowPotential;
    private final long[] columnPotential;
    private final long cost;

    private Assignment(
            int[] columnOfRow, int[] rowOfColumn, long[] rowPotential, long[] columnPotential, long[][] costs) {
        this.columnOfRow = columnOfRow;
        this.rowOfColumn = rowOfColumn;
        this.rowPotential = rowPotential;
        this.columnPotential = columnPotential;
        long sum = 0;
        for (int i = 0; i < columnOfRow.length; i++) {
            sum += columnOfRow[i] < 0 ? 0 : costs[i][columnOfRow[i]];
        }
        this.cost = sum;
    }

    /**
     * The largest cost, and the largest difference between two costs, that a matrix may hold.
     *
     * @param assigned the lesser of its rows and columns
     * @return the largest
     */
    public static long largestCost(int assigned) {
        return Long.MAX_VALUE / (4L * assigned + 4);
    }

    /**
     * Finds the cheapest assignment.
     *
     * @param costs the costs, {@code costs[row][column]}; not changed
     * @return the assignment, or empty when the forbidden cells leave none
     * @throws RejectedValueException if row lengths differ or a cost is out of range
     */
    public static Optional<Assignment> solve(long[][] costs) {
        int rows = costs.length;
        int columns = rows == 0 ? 0 : costs[0].length;
        long least = checked(costs, columns);
        if ((long) rows * columns > MOST_CELLS) {
            throw new RejectedValueException(
                    "cost matrix",
                    rows + " x " + columns,
                    "is too large",
                    "at most " + MOST_CELLS + " cells",
                    "leave out columns that no row can use, or split the problem");
        }
        boolean turned = rows > columns;
        int n = turned ? columns : rows;
        int m = turned ? rows : columns;
        long[] cells = new long[n * m];
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < m; j++) {
                long cost = turned ? costs[j][i] : costs[i][j];
                cells[i * m + j] = cost == FORBIDDEN ? FORBIDDEN : cost - least;
            }
        }
        Search search = new Search(cells, n, m);
        if (!search.run()) {
            return Optional.empty();
        }
        long[] potential = search.shortSidePotential(least);
        return Optional.of(
                turned
                        ? new Assignment(search.rowOf, search.columnOf, search.v, potential, costs)
                        : new Assignment(search.columnOf, search.rowOf, potential, search.v, costs));
    }

    /** Refuses what is no matrix or could overflow; returns the least cost, 0 when no cell is allowed. */
    private static long checked(long[][] costs, int columns) {
        long limit = largestCost(Math.min(costs.length, columns));
        long least = Long.MAX_VALUE;
        long most = Long.MIN_VALUE;
        for (int i = 0; i < costs.length; i++) {
            if (costs[i].length != columns) {
                throw new RejectedValueException(
                        "cost matrix",
                        "row " + i + " of " + costs[i].length + " cells",
                        "is not as long as the first row",
                        columns + " cells in each row",
                        "fill the row up with forbidden cells");
            }
            for (long cost : costs[i]) {
                if (cost != FORBIDDEN) {
                    least = Math.min(least, cost);
                    most = Math.max(most, cost);
                }
            }
        }
        if (least > most) {
            return 0;
        }
        if (least < -limit || most > limit || most - least > limit) {
            throw new RejectedValueException(
                    "cost",
                    least + " to " + most,
                    "is out of range",
                    "costs, and differences between costs, of at most " + limit + " for a matrix of this size",
                    "use a coarser unit of cost, or FORBIDDEN for a cell that must not be used");
        }
        return least;
    }

    /** {@return the sum of the costs of the cells that are used} */
    public long cost() {
        return cost;
    }

    /**
     * The column of a row.
     *
     * @param row the row, from 0
     * @return the column, or empty when there are more rows than columns and this row has none
     */
    public OptionalInt columnOf(int row) {
        return columnOfRow[row] < 0 ? OptionalInt.empty() : OptionalInt.of(columnOfRow[row]);
    }

    /**
     * The row of a column.
     *
     * @param column the column, from 0
     * @return the row, or empty when there are more columns than rows and this column has none
     */
    public OptionalInt rowOf(int column) {
        return rowOfColumn[column] < 0 ? OptionalInt.empty() : OptionalInt.of(rowOfColumn[column]);
    }

    /**
     * The potential of a row, see above.
     *
     * @param row the row, from 0
     * @return its potential
     */
    public long rowPotential(int row) {
        return rowPotential[row];
    }

    /**
     * The potential of a column, see above.
     *
     * @param column the column, from 0
     * @return its potential
     */
    public long columnPotential(int column) {
        return columnPotential[column];
    }

    /**
     * The search itself, on n rows and m columns with n at most m and costs from 0 to R; mutable, used once.
     *
     * <p><b>No overflow.</b> Potentials v are never above 0. A row reduction sets v of one column to the difference of two costs plus
     * v of another, so 2n of them leave v at -2nR or above. An augmentation ends at a column with v = 0, so the length of its
     * path is a sum of at most n costs less a sum of at most n - 1: from -(n - 1)R to nR; the v of a column that it changes
     * becomes the difference of two such lengths, at least -(2n - 1)R. Hence cost - v is at most (2n + 1)R, and the largest
     * intermediate value, that plus one path length, at most (3n + 1)R, which {@link #largestCost} keeps below 2^63.
     */
    private static final class Search {
        private static final int FREE = -1;

        final int[] columnOf;
        final int[] rowOf;
        final long[] v;
        private final long[] cells;
        private final int n;
        private final int m;
        private final int[] waiting;
        private final long[] length;
        private final int[] before;
        private final int[] order;

        Search(long[] cells, int n, int m) {
            this.cells = cells;
            this.n = n;
            this.m = m;
            this.columnOf = new int[n];
            this.rowOf = new int[m];
            this.v = new long[m];
            this.waiting = new int[n];
            this.length = new long[m];
            this.before = new int[m];
            this.order = new int[m];
        }

        boolean run() {
            Arrays.fill(rowOf, FREE);
            int left = reduceRows();
            for (int k = 0; k < left; k++) {
                if (!augment(waiting[k])) {
                    return false;
                }
            }
            return true;
        }

        long[] shortSidePotential(long shift) {
            long[] u = new long[n];
            for (int i = 0; i < n; i++) {
                u[i] = cells[i * m + columnOf[i]] - v[columnOf[i]] + shift;
            }
            return u;
        }

        /**
         * Gives each row its best column, lowering that column's potential to the row's second best, which may send the row that
         * held it off to look again. Bounded, since rows that compete for too few columns would go on for ever. Returns how many
         * rows are left without a column, in {@link #waiting}.
         */
        private int reduceRows() {
            int left = n;
            for (int i = 0; i < n; i++) {
                waiting[i] = i;
            }
            int steps = 2 * n;
            for (int pass = 0; pass < 2; pass++) {
                int todo = left;
                int k = 0;
                left = 0;
                while (k < todo) {
                    if (steps-- == 0) {
                        // what has not been looked at waits too; never more than what it overwrites
                        System.arraycopy(waiting, k, waiting, left, todo - k);
                        return left + todo - k;
                    }
                    int i = waiting[k++];
                    int row = i * m;
                    long best = FORBIDDEN;
                    long second = FORBIDDEN;
                    int bestAt = -1;
                    int secondAt = -1;
                    for (int j = 0; j < m; j++) {
                        long cell = cells[row + j];
                        if (cell == FORBIDDEN) {
                            continue;
                        }
                        long reduced = cell - v[j];
                        if (reduced < second) {
                            if (reduced < best) {
                                second = best;
                                secondAt = bestAt;
                                best = reduced;
                                bestAt = j;
                            } else {
                                second = reduced;
                                secondAt = j;
                            }
                        }
                    }
                    if (bestAt < 0 || (secondAt < 0 && rowOf[bestAt] >= 0)) {
                        // nothing to choose between: leave it to the paths
                        waiting[left++] = i;
                        continue;
                    }
                    int holder = rowOf[bestAt];
                    boolean lowered = secondAt >= 0 && best < second;
                    if (lowered) {
                        v[bestAt] -= second - best;
                    } else if (holder >= 0) {
                        bestAt = secondAt;
                        holder = rowOf[bestAt];
                    }
                    rowOf[bestAt] = i;
                    columnOf[i] = bestAt;
                    if (holder >= 0) {
                        if (lowered) {
                            waiting[--k] = holder;
                        } else {
                            waiting[left++] = holder;
                        }
                    }
                }
            }
            return left;
        }

        /**
         * Finds the shortest alternating path from a free row to a free column, by Dijkstra's algorithm on reduced costs, and turns
         * it over. {@link #order} holds the columns: those settled below {@code low}, those at the present length up to {@code
         * up}, then the rest.
         */
        private boolean augment(int start) {
            int row = start * m;
            for (int j = 0; j < m; j++) {
                long cell = cells[row + j];
                length[j] = cell == FORBIDDEN ? FORBIDDEN : cell - v[j];
                before[j] = start;
                order[j] = j;
            }
            int low = 0;
            int up = 0;
            int settled = 0;
            long least = 0;
            int end = -1;
            while (end < 0) {
                if (low == up) {
                    settled = low;
                    if (up == m) {
                        return false;
                    }
                    least = length[order[up++]];
                    for (int k = up; k < m; k++) {
                        int j = order[k];
                        long h = length[j];
                        if (h <= least) {
                            if (h < least) {
                                up = low;
                                least = h;
                            }
                            order[k] = order[up];
                            order[up++] = j;
                        }
                    }
                    if (least == FORBIDDEN) {
                        return false;
                    }
                    for (int k = low; k < up && end < 0; k++) {
                        if (rowOf[order[k]] < 0) {
                            end = order[k];
                        }
                    }
                }
                if (end < 0) {
                    int column = order[low++];
                    int i = rowOf[column];
                    int from = i * m;
                    long offset = cells[from + column] - v[column] - least;
                    for (int k = up; k < m && end < 0; k++) {
                        int j = order[k];
                        long cell = cells[from + j];
                        if (cell == FORBIDDEN) {
                            continue;
                        }
                        long reduced = cell - v[j] - offset;
                        if (reduced < length[j]) {
                            length[j] = reduced;
                            before[j] = i;
                            if (reduced == least) {
                                if (rowOf[j] < 0) {
                                    end = j;
                                } else {
                                    order[k] = order[up];
                                    order[up++] = j;
                                }
                            }
                        }
                    }
                }
            }
            for (int k = 0; k < settled; k++) {
                int j = order[k];
                v[j] += length[j] - least;
            }
            turnOver(start, end);
            return true;
        }

        private void turnOver(int start, int end) {
            int column = end;
            int i;
            do {
                i = before[column];
                rowOf[column] = i;
                int next = columnOf[i];
                columnOf[i] = column;
                column = next;
            } while (i != start);
        }
    }
}
