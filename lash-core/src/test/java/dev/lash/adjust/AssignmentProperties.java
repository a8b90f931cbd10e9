package dev.lash.adjust;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.ShrinkingMode;

/** Laws of the assignment solver. */
class AssignmentProperties {
    @Provide
    Arbitrary<long[][]> small() {
        return Arbitraries.randomValue(random -> matrix(random, 6));
    }

    @Provide
    Arbitrary<long[][]> large() {
        return Arbitraries.randomValue(random -> matrix(random, 60));
    }

    private static long[][] matrix(Random random, int most) {
        int rows = random.nextInt(most + 1);
        int columns = 1 + random.nextInt(most);
        // few values make ties, many forbidden cells make detours and dead ends
        int values = new int[] {2, 10, 1_000_000}[random.nextInt(3)];
        int forbidden = random.nextInt(3) * 30;
        long scale = random.nextInt(4) == 0 ? Assignment.largestCost(Math.min(rows, columns)) / Math.max(1, values) : 1;
        long shift = random.nextBoolean() ? -values / 2 : 0;
        long[][] costs = new long[rows][columns];
        for (long[] row : costs) {
            for (int j = 0; j < columns; j++) {
                row[j] = random.nextInt(100) < forbidden
                        ? Assignment.FORBIDDEN
                        : (random.nextInt(values) + shift) * scale;
            }
        }
        return costs;
    }

    @Property(tries = 3000, shrinking = ShrinkingMode.OFF)
    void isTheCheapestOfAll(@ForAll("small") long[][] costs) {
        Optional<Assignment> solved = Assignment.solve(costs);
        long[][] wide = costs.length == 0 || costs.length <= costs[0].length ? costs : transposed(costs);
        long best = cheapest(wide, 0, 0);
        assertThat(solved.map(Assignment::cost))
                .isEqualTo(best == Assignment.FORBIDDEN ? Optional.empty() : Optional.of(best));
    }

    private static long cheapest(long[][] costs, int row, int used) {
        if (row == costs.length) {
            return 0;
        }
        long best = Assignment.FORBIDDEN;
        for (int j = 0; j < costs[row].length; j++) {
            if ((used >> j & 1) == 0 && costs[row][j] != Assignment.FORBIDDEN) {
                long rest = cheapest(costs, row + 1, used | 1 << j);
                if (rest != Assignment.FORBIDDEN) {
                    best = Math.min(best, costs[row][j] + rest);
                }
            }
        }
        return best;
    }

    private static long[][] transposed(long[][] costs) {
        long[][] turned = new long[costs[0].length][costs.length];
        for (int i = 0; i < costs.length; i++) {
            for (int j = 0; j < turned.length; j++) {
                turned[j][i] = costs[i][j];
            }
        }
        return turned;
    }

    /** Weak duality: potentials as promised prove that no assignment is cheaper. */
    @Property(tries = 1000, shrinking = ShrinkingMode.OFF)
    void bringsItsProof(@ForAll("large") long[][] costs) {
        Assignment.solve(costs).ifPresent(a -> {
            int rows = costs.length;
            int columns = rows == 0 ? 0 : costs[0].length;
            long sum = 0;
            int used = 0;
            for (int i = 0; i < rows; i++) {
                OptionalInt column = a.columnOf(i);
                if (column.isPresent()) {
                    used++;
                    sum += costs[i][column.getAsInt()];
                    assertThat(costs[i][column.getAsInt()]).isNotEqualTo(Assignment.FORBIDDEN);
                    assertThat(a.rowOf(column.getAsInt())).hasValue(i);
                    assertThat(a.rowPotential(i) + a.columnPotential(column.getAsInt()))
                            .isEqualTo(costs[i][column.getAsInt()]);
                } else {
                    assertThat(a.rowPotential(i)).isZero();
                }
                for (int j = 0; j < columns; j++) {
                    assertThat(a.rowPotential(i) + a.columnPotential(j)).isLessThanOrEqualTo(costs[i][j]);
                }
                assertThat(rows <= columns || a.rowPotential(i) <= 0).isTrue();
            }
            for (int j = 0; j < columns; j++) {
                assertThat(rows > columns || a.columnPotential(j) <= 0).isTrue();
                assertThat(a.rowOf(j).isPresent() || a.columnPotential(j) == 0).isTrue();
            }
            assertThat(used).isEqualTo(Math.min(rows, columns));
            assertThat(a.cost()).isEqualTo(sum);
        });
    }

    /** Koenig: where there is no assignment, some rows share too few columns; here told by a plain matching. */
    @Property(tries = 1000, shrinking = ShrinkingMode.OFF)
    void findsOneWhereThereIsOne(@ForAll("large") long[][] costs) {
        long[][] wide = costs.length == 0 || costs.length <= costs[0].length ? costs : transposed(costs);
        int[] rowOf = new int[wide.length == 0 ? 0 : wide[0].length];
        Arrays.fill(rowOf, -1);
        boolean all = true;
        for (int i = 0; i < wide.length; i++) {
            all &= matched(wide, i, rowOf, new boolean[rowOf.length]);
        }
        assertThat(Assignment.solve(costs).isPresent()).isEqualTo(all);
    }

    private static boolean matched(long[][] costs, int row, int[] rowOf, boolean[] seen) {
        for (int j = 0; j < rowOf.length; j++) {
            if (!seen[j] && costs[row][j] != Assignment.FORBIDDEN) {
                seen[j] = true;
                if (rowOf[j] < 0 || matched(costs, rowOf[j], rowOf, seen)) {
                    rowOf[j] = row;
                    return true;
                }
            }
        }
        return false;
    }

    @Property(tries = 300, shrinking = ShrinkingMode.OFF)
    void dependsOnTheMatrixAlone(@ForAll("large") long[][] costs) {
        long[][] before = Arrays.stream(costs).map(long[]::clone).toArray(long[][]::new);
        Optional<Assignment> once = Assignment.solve(costs);
        Optional<Assignment> again = Assignment.solve(costs);
        assertThat(costs).isDeepEqualTo(before);
        for (int i = 0; once.isPresent() && i < costs.length; i++) {
            assertThat(again.orElseThrow().columnOf(i)).isEqualTo(once.get().columnOf(i));
        }
    }
}
