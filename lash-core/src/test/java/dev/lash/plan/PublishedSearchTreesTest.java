package dev.lash.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.ReadingRule;
import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.plan.LeafPlanner.Objective;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Optimal search trees from the literature, set up as leaves: single leaves, the simple rule, equal costs and the goal size.
 *
 * <p>The puzzle of two tokens and a hundred levels limits the no-go answers, as no leaf does: another problem, not checked here.
 */
class PublishedSearchTreesTest {
    private static final double ROUNDING = 1e-9;

    private static double weighted(int[] keys, int[] gaps) {
        double all = IntStream.of(keys).sum() + IntStream.of(gaps).sum();
        return all
                * new SearchTrees.Tree(keys, gaps)
                        .plan(Objective.EXPECTED)
                        .figures()
                        .expectedCost();
    }

    /**
     * Cormen, Leiserson, Rivest and Stein, "Introduction to Algorithms", optimal binary search trees: the worked example, expected
     * cost 2.75. They count a gap as one level more: ours and the sum of the gaps. Weights in hundredths.
     */
    @Test
    void workedExampleOfATextbook() {
        int[] gaps = {5, 10, 5, 5, 5, 10};
        double ours = weighted(new int[] {15, 10, 5, 10, 20}, gaps);
        assertThat(ours + IntStream.of(gaps).sum()).isCloseTo(275, within(1e-7));
    }

    /** The same book: the exercise with seven keys, 3.12 by its recurrence (run apart from this library). */
    @Test
    void exerciseOfATextbook() {
        int[] gaps = {6, 6, 6, 6, 5, 5, 5, 5};
        double ours = weighted(new int[] {4, 6, 8, 2, 10, 12, 14}, gaps);
        assertThat(ours + IntStream.of(gaps).sum()).isCloseTo(312, within(1e-7));
    }

    /** Keys alone, by how often each is looked up: the tests of "optimalBinarySearchTree" in the repository surenderthakran/codes. */
    @Test
    void keysAlone() {
        assertThat(weighted(new int[] {34, 8, 50}, new int[4])).isCloseTo(142, within(1e-7));
        assertThat(weighted(new int[] {4, 2, 6, 3}, new int[5])).isCloseTo(26, within(1e-7));
    }

    /**
     * Gaps alone, an alphabetic tree: how often the blank and the letters A to Z occur in English, Knuth, "The Art of Computer
     * Programming" 6.2.2 (weights from memory); 4.200 comparisons by the cubic recurrence (run apart from this library).
     */
    @Test
    void englishLetters() {
        int[] gaps = {
            186, 64, 13, 22, 32, 103, 21, 15, 47, 57, 1, 5, 32, 20, 57, 63, 15, 1, 48, 51, 80, 23, 8, 18, 1, 16, 1
        };
        assertThat(IntStream.of(gaps).sum()).isEqualTo(1000);
        assertThat(weighted(new int[26], gaps)).isCloseTo(4200, within(1e-6));
    }

    /** Halving attains the bound of information: n leaves part the clearances into n + 1, so ceil(log2(n + 1)) strokes. */
    @ParameterizedTest
    @CsvSource({"1, 1", "3, 2", "4, 3", "13, 4", "20, 5", "25, 5", "31, 5", "32, 6"})
    void halvingIsTheBestWorstCase(int leaves, int strokes) {
        GaugeSet gauges = new GaugeSet(
                IntStream.rangeClosed(1, leaves)
                        .mapToObj(i -> new Leaf(Length.ofNanometres(30_000L * i)))
                        .toList(),
                1,
                Length.ZERO,
                Length.ZERO,
                LengthUnit.MILLIMETRE);
        LeafPlan plan = LeafPlanner.withDefaults()
                .withObjective(Objective.WORST_CASE)
                .plan(gauges, ReadingRule.simple(), PlanGoal.size());
        assertThat(plan.figures().worstInsertions()).isEqualTo(strokes);
        assertThat(plan.figures().worstCost()).isCloseTo(strokes, within(ROUNDING));
    }

    /** The recurrence that the properties compare with gives the published figures too. */
    @Test
    void theRecurrenceOfTheTestsIsRight() {
        assertThat(SearchTrees.optimum(new int[] {34, 8, 50}, new int[4])).isEqualTo(142);
        assertThat(SearchTrees.optimum(new int[] {4, 2, 6, 3}, new int[5])).isEqualTo(26);
        assertThat(List.of(
                        SearchTrees.optimum(new int[] {15, 10, 5, 10, 20}, new int[] {5, 10, 5, 5, 5, 10}) + 40,
                        SearchTrees.optimum(new int[] {4, 6, 8, 2, 10, 12, 14}, new int[] {6, 6, 6, 6, 5, 5, 5, 5})
                                + 44))
                .containsExactly(275.0, 312.0);
    }
}
