package dev.lash.adjust;

import dev.lash.measure.Length;
import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Comparator;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * The cheapest choice of shims for one set of lifted camshafts. Of several that cost the same, {@link #settleTies} picks the one
 * that is first at the first slot where they differ: the thinner shim, then the installed one, that of an earlier slot, of a later
 * slot, of the box, a bought one.
 *
 * <p>Every cheapest assignment uses cells without reduced cost only, and every column whose potential is below 0, and each such
 * assignment is cheapest. So ties are settled slot by slot: an exchange that is wanted there is made when a chain of others, over
 * such cells, makes it good.
 */
final class ShimMatching {
    /** The supply number of a bought shim. */
    static final int BOUGHT = Integer.MAX_VALUE;

    private static final int UNUSED = -1;

    private final ShimProblem problem;
    private final int lifted;
    private final int[] slotOf;
    private final int[] purchaseOf;
    private final int[] supplyOf;
    private final long[][] cells;
    private final Assignment assignment;
    private final long total;
    private final int[] columnOf;
    private final int[] rowOf;
    private final boolean[] fixed;

    private ShimMatching(
            ShimProblem problem,
            int lifted,
            int[] slotOf,
            int[] purchaseOf,
            int[] supplyOf,
            long[][] cells,
            Assignment assignment,
            long total) {
        this.problem = problem;
        this.lifted = lifted;
        this.slotOf = slotOf;
        this.purchaseOf = purchaseOf;
        this.supplyOf = supplyOf;
        this.cells = cells;
        this.assignment = assignment;
        this.total = total;
        this.columnOf = IntStream.range(0, slotOf.length)
                .map(row -> assignment.columnOf(row).orElseThrow())
                .toArray();
        this.rowOf = IntStream.range(0, supplyOf.length)
                .map(column -> assignment.rowOf(column).orElse(UNUSED))
                .toArray();
        this.fixed = new boolean[supplyOf.length];
    }

    /** Finds it, or nothing when some slot cannot score enough. */
    static Optional<ShimMatching> solve(ShimProblem problem, int lifted, double least) {
        int slots = problem.options.length;
        long total = 0;
        for (int i = 0; i < slots; i++) {
            if (problem.isFrozen(i, lifted)) {
                if (!problem.scoresEnough(i, i, least)) {
                    return Optional.empty();
                }
                total += problem.cost[i][i];
            }
        }
        int[] rows = IntStream.range(0, slots)
                .filter(i -> !problem.isFrozen(i, lifted))
                .toArray();
        int[] purchases =
                Arrays.stream(rows).map(i -> problem.purchase(i, least)).toArray();
        int[] supplied = supplied(problem, rows, lifted);
        int[] supplyOf = Arrays.copyOf(supplied, supplied.length + rows.length);
        Arrays.fill(supplyOf, supplied.length, supplyOf.length, BOUGHT);
        long[][] cells = new long[rows.length][supplyOf.length];
        for (int r = 0; r < rows.length; r++) {
            int slot = rows[r];
            Arrays.fill(cells[r], supplied.length, supplyOf.length, Assignment.FORBIDDEN);
            for (int c = 0; c < supplied.length; c++) {
                cells[r][c] = problem.scoresEnough(slot, supplied[c], least)
                        ? problem.cost[slot][supplied[c]]
                        : Assignment.FORBIDDEN;
            }
            if (purchases[r] >= 0) {
                cells[r][supplied.length + r] = problem.purchaseCost[slot][purchases[r]];
            }
        }
        long frozen = total;
        return Assignment.solve(cells)
                .map(a -> new ShimMatching(problem, lifted, rows, purchases, supplyOf, cells, a, frozen + a.cost()));
    }

    /** The supplies that the rows may draw on, each as often as it is there and could be used. */
    private static int[] supplied(ShimProblem problem, int[] rows, int lifted) {
        int slots = problem.options.length;
        int[] found = new int[16];
        int size = 0;
        for (int s = 0; s < problem.supplies.size(); s++) {
            if (s < slots && problem.isFrozen(s, lifted)) {
                continue;
            }
            int wanted = 0;
            for (int row : rows) {
                wanted += problem.cost[row][s] == Assignment.FORBIDDEN ? 0 : 1;
            }
            int end = size + Math.min(wanted, problem.supplies.get(s).count());
            if (end > found.length) {
                found = Arrays.copyOf(found, Math.max(end, 2 * found.length));
            }
            Arrays.fill(found, size, end, s);
            size = end;
        }
        return Arrays.copyOf(found, size);
    }

    /** The sum of the costs, of the slots that keep their shim too. */
    long total() {
        return total;
    }

    /** The camshafts that may be lifted, one bit each. */
    int lifted() {
        return lifted;
    }

    /** By slot: the supply that goes in, or {@link #BOUGHT}. */
    int[] supplies() {
        int[] chosen = IntStream.range(0, problem.options.length).toArray();
        for (int r = 0; r < slotOf.length; r++) {
            chosen[slotOf[r]] = supplyOf[columnOf[r]];
        }
        return chosen;
    }

    /** By slot: the number of the purchase that is best there, -1 where none is. */
    int[] purchases() {
        int[] chosen = new int[problem.options.length];
        Arrays.fill(chosen, -1);
        for (int r = 0; r < slotOf.length; r++) {
            chosen[slotOf[r]] = purchaseOf[r];
        }
        return chosen;
    }

    /** Slot by slot: the thinner shim first, then the installed one, then by number. */
    static Comparator<ShimMatching> byChoice() {
        return (one, other) -> {
            int[] supplies = one.supplies();
            int[] others = other.supplies();
            int[] purchases = one.purchases();
            int[] otherPurchases = other.purchases();
            int order = 0;
            for (int i = 0; i < supplies.length && order == 0; i++) {
                order = one.compare(i, supplies[i], purchases[i], others[i], otherPurchases[i]);
            }
            return order;
        };
    }

    private int compare(int slot, int supply, int purchase, int otherSupply, int otherPurchase) {
        int order = Long.compare(size(slot, supply, purchase), size(slot, otherSupply, otherPurchase));
        return order != 0 ? order : Integer.compare(place(slot, supply), place(slot, otherSupply));
    }

    private long size(int slot, int supply, int purchase) {
        Length size = supply == BOUGHT
                ? problem.options[slot].purchases.get(purchase).size()
                : problem.supplies.get(supply).size();
        return size == null ? 0 : size.nanometres();
    }

    private static int place(int slot, int supply) {
        return supply == slot ? -1 : supply;
    }

    /** Goes over to the first, by {@link #byChoice}, of the choices that cost as little as this one. */
    void settleTies() {
        for (int r = 0; r < slotOf.length; r++) {
            int row = r;
            int slot = slotOf[r];
            int[] wanted = IntStream.range(0, supplyOf.length)
                    .filter(c -> !fixed[c] && isTight(row, c))
                    .boxed()
                    .sorted((c, d) -> compare(slot, supplyOf[c], purchaseOf[row], supplyOf[d], purchaseOf[row]))
                    .mapToInt(Integer::intValue)
                    .toArray();
            int refused = UNUSED;
            for (int c : wanted) {
                if (supplyOf[c] == supplyOf[columnOf[r]]) {
                    break;
                }
                // columns of one supply are alike: where one cannot be had, the next cannot either
                if (supplyOf[c] != refused && exchange(r, c)) {
                    break;
                }
                refused = supplyOf[c];
            }
            fixed[columnOf[r]] = true;
        }
    }

    private boolean isTight(int row, int column) {
        return cells[row][column] != Assignment.FORBIDDEN
                && cells[row][column] - assignment.rowPotential(row) - assignment.columnPotential(column) == 0;
    }

    private boolean mayStayUnused(int column) {
        return assignment.columnPotential(column) == 0;
    }

    /**
     * Gives a row another column, if the row that held it can go to a third, and so on, until one takes the column that was given
     * up. A column may also be left unused, and an unused one be taken: all unused columns act as if held by one more row, which
     * can hold any column of potential 0.
     */
    private boolean exchange(int row, int wanted) {
        int given = columnOf[row];
        int[] cameFrom = new int[supplyOf.length];
        Arrays.fill(cameFrom, UNUSED);
        cameFrom[wanted] = wanted;
        boolean unusedSeen = false;
        ArrayDeque<Integer> queue = new ArrayDeque<>();
        queue.add(wanted);
        while (!queue.isEmpty() && cameFrom[given] == UNUSED) {
            int left = queue.remove();
            int mover = rowOf[left];
            if (mover == UNUSED) {
                if (unusedSeen) {
                    continue;
                }
                unusedSeen = true;
            }
            for (int c = 0; c < supplyOf.length; c++) {
                if (cameFrom[c] == UNUSED && !fixed[c] && (mover == UNUSED ? mayStayUnused(c) : isTight(mover, c))) {
                    cameFrom[c] = left;
                    queue.add(c);
                }
            }
        }
        if (cameFrom[given] == UNUSED) {
            return false;
        }
        for (int c = given; c != wanted; c = cameFrom[c]) {
            int mover = rowOf[cameFrom[c]];
            rowOf[c] = mover;
            if (mover != UNUSED) {
                columnOf[mover] = c;
            }
        }
        rowOf[wanted] = row;
        columnOf[row] = wanted;
        return true;
    }
}
