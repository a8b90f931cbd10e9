package dev.lash.adjust;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lash.measure.RejectedValueException;
import java.util.Arrays;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class AssignmentTest {
    private static final long X = Assignment.FORBIDDEN;

    private static int[] columns(Assignment a, int rows) {
        return IntStream.range(0, rows).map(i -> a.columnOf(i).orElse(-1)).toArray();
    }

    // ---- published instances ----------------------------------------------------------------------------------------

    private static Stream<Arguments> published() {
        return Stream.of(
                // SciPy reference manual, scipy.optimize.linear_sum_assignment, example
                Arguments.of(new long[][] {{4, 1, 3}, {2, 0, 5}, {3, 2, 2}}, 5, new int[] {1, 0, 2}),
                // from memory: documentation of the Python package munkres
                Arguments.of(new long[][] {{5, 9, 1}, {10, 3, 2}, {8, 7, 4}}, 12, new int[] {2, 1, 0}),
                // from memory: a well-known four by four exercise on the Hungarian method
                Arguments.of(
                        new long[][] {{82, 83, 69, 92}, {77, 37, 49, 92}, {11, 69, 5, 86}, {8, 9, 98, 23}},
                        140,
                        new int[] {2, 1, 0, 3}),
                // from memory: test data that several libraries share
                Arguments.of(new long[][] {{400, 150, 400}, {400, 450, 600}, {300, 225, 300}}, 850, null),
                Arguments.of(new long[][] {{10, 10, 8}, {9, 8, 1}, {9, 7, 4}}, 18, null),
                // from memory: an operations research course, five workers for four jobs
                Arguments.of(
                        new long[][] {
                            {90, 80, 75, 70},
                            {35, 85, 55, 65},
                            {125, 95, 90, 95},
                            {45, 110, 95, 115},
                            {50, 100, 90, 100}
                        },
                        265,
                        null),
                // the product of row and column number, for which the numbers must run against each other
                Arguments.of(new long[][] {{1, 2, 3}, {2, 4, 6}, {3, 6, 9}}, 10, new int[] {2, 1, 0}));
    }

    @ParameterizedTest
    @MethodSource("published")
    void agreesWithPublishedInstances(long[][] costs, long optimum, int[] columns) {
        Assignment a = Assignment.solve(costs).orElseThrow();
        assertThat(a.cost()).isEqualTo(optimum);
        if (columns != null) {
            assertThat(columns(a, costs.length)).isEqualTo(columns);
        }
    }

    /**
     * F. S. Hillier and G. J. Lieberman, Introduction to Operations Research: the transportation problem of the P &amp; T Company,
     * each truckload a row and each truckload of demand a column. Optimum 152,535, with the flows of the book.
     */
    @Test
    void solvesTransportationOneUnitAtATime() {
        int[] supply = {75, 125, 100};
        int[] demand = {80, 65, 70, 85};
        long[][] unit = {{464, 513, 654, 867}, {352, 416, 690, 791}, {995, 682, 388, 685}};
        int[] from = replicated(supply);
        int[] to = replicated(demand);
        long[][] costs = new long[300][300];
        for (int i = 0; i < 300; i++) {
            for (int j = 0; j < 300; j++) {
                costs[i][j] = unit[from[i]][to[j]];
            }
        }
        Assignment a = Assignment.solve(costs).orElseThrow();
        assertThat(a.cost()).isEqualTo(152_535);
        int[][] flows = new int[3][4];
        for (int i = 0; i < 300; i++) {
            flows[from[i]][to[a.columnOf(i).orElseThrow()]]++;
        }
        assertThat(flows).isDeepEqualTo(new int[][] {{0, 20, 0, 55}, {80, 45, 0, 0}, {0, 0, 70, 30}});
    }

    private static int[] replicated(int[] counts) {
        return IntStream.range(0, counts.length)
                .flatMap(k -> IntStream.generate(() -> k).limit(counts[k]))
                .toArray();
    }

    // ---- shapes -----------------------------------------------------------------------------------------------------

    @Test
    void leavesOneRowOutWhereThereAreMoreRows() {
        long[][] costs = {{90, 80, 75, 70}, {35, 85, 55, 65}, {125, 95, 90, 95}, {45, 110, 95, 115}, {50, 100, 90, 100}
        };
        Assignment a = Assignment.solve(costs).orElseThrow();
        assertThat(IntStream.range(0, 5).filter(i -> a.columnOf(i).isEmpty())).hasSize(1);
        assertThat(IntStream.range(0, 4).allMatch(j -> a.rowOf(j).isPresent())).isTrue();
    }

    @Test
    void leavesColumnsOutWhereThereAreMoreColumns() {
        Assignment a = Assignment.solve(new long[][] {{7, 3, 9}, {5, 4, 9}}).orElseThrow();
        assertThat(a.cost()).isEqualTo(8);
        assertThat(columns(a, 2)).containsExactly(1, 0);
        assertThat(a.rowOf(2)).isEmpty();
        assertThat(a.rowOf(0)).hasValue(1);
    }

    @Test
    void emptyMatricesAreSolved() {
        assertThat(Assignment.solve(new long[0][0]).orElseThrow().cost()).isZero();
        Assignment noColumns = Assignment.solve(new long[2][0]).orElseThrow();
        assertThat(noColumns.cost()).isZero();
        assertThat(noColumns.columnOf(1)).isEmpty();
    }

    @Test
    void negativeCostsAreCosts() {
        Assignment a = Assignment.solve(new long[][] {{-5, 0}, {-4, 3}}).orElseThrow();
        assertThat(a.cost()).isEqualTo(-4);
        assertThat(columns(a, 2)).containsExactly(1, 0);
    }

    // ---- forbidden cells --------------------------------------------------------------------------------------------

    @Test
    void forbiddenCellsAreAvoidedAtAnyPrice() {
        Assignment a = Assignment.solve(new long[][] {{1, X}, {2, 1_000_000}}).orElseThrow();
        assertThat(a.cost()).isEqualTo(1_000_001);
        Assignment b = Assignment.solve(new long[][] {{1, 1_000_000}, {2, X}}).orElseThrow();
        assertThat(b.cost()).isEqualTo(1_000_002);
    }

    @Test
    void nothingIsFoundWhereRowsShareTooFewColumns() {
        assertThat(Assignment.solve(new long[][] {{1, X, X}, {2, X, X}, {3, 4, 5}}))
                .isEmpty();
        assertThat(Assignment.solve(new long[][] {{X, X}})).isEmpty();
        assertThat(Assignment.solve(new long[][] {{1, 2, X, X}, {1, 2, X, X}, {1, 2, X, X}}))
                .isEmpty();
    }

    /** Rows that outbid each other for one column less than they are many must still come to an end. */
    @Test
    void priceWarEnds() {
        int n = 40;
        long most = Assignment.largestCost(n);
        long[][] costs = new long[n][n];
        for (int i = 0; i < n; i++) {
            Arrays.fill(costs[i], i < n - 1 ? X : most);
            for (int j = 0; j < n - 2; j++) {
                costs[i][j] = j;
            }
            costs[i][n - 1] = most;
        }
        assertThat(Assignment.solve(costs))
                .hasValueSatisfying(a -> assertThat(a.cost()).isEqualTo(most + most + (n - 2) * (n - 3) / 2));
    }

    // ---- range ------------------------------------------------------------------------------------------------------

    @Test
    void largestCostsDoNotOverflow() {
        int n = 30;
        long most = Assignment.largestCost(n);
        long[][] costs = new long[n][n];
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < n; j++) {
                // a cheap diagonal with one hole, so that a path must go through all rows
                costs[i][j] = j == i + 1 ? 0 : j == i ? 1 : most;
            }
        }
        Assignment a = Assignment.solve(costs).orElseThrow();
        assertThat(a.cost()).isEqualTo(n);
    }

    @Test
    void tooLargeCostsAreRefused() {
        long limit = Assignment.largestCost(1);
        assertThat(Assignment.solve(new long[][] {{limit}}).orElseThrow().cost())
                .isEqualTo(limit);
        assertThatThrownBy(() -> Assignment.solve(new long[][] {{limit + 1}}))
                .isInstanceOf(RejectedValueException.class)
                .hasMessageContaining(String.valueOf(limit + 1))
                .hasMessageContaining("at most " + limit)
                .hasMessageContaining("FORBIDDEN");
        assertThatThrownBy(() -> Assignment.solve(new long[][] {{limit, -1}}))
                .isInstanceOf(RejectedValueException.class)
                .hasMessageContaining("-1 to " + limit);
        assertThatThrownBy(() -> Assignment.solve(new long[][] {{Long.MIN_VALUE, 0}}))
                .isInstanceOf(RejectedValueException.class);
    }

    @Test
    void raggedMatricesAreRefused() {
        assertThatThrownBy(() -> Assignment.solve(new long[][] {{1, 2}, {3}}))
                .isInstanceOf(RejectedValueException.class)
                .hasMessageContaining("row 1 of 1 cells")
                .hasMessageContaining("2 cells in each row");
        assertThatThrownBy(() -> Assignment.solve(null)).isInstanceOf(NullPointerException.class);
    }
}
