package dev.lash.examples.sim;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.gauge.Evidence;
import dev.lash.gauge.Fit;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.Trial;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class LeafStepsTest {
    @ParameterizedTest
    @ValueSource(strings = {"0.02", "0.05", "0.10"})
    void readingIsTheBracketOfAllLeavesOffered(String step) {
        LeafSteps leaves = LeafSteps.of(Length.ofMillimetres(step));
        for (int hundredths = -3; hundredths < 47; hundredths++) {
            long clearance = hundredths * 10_000L + 3_000;
            List<Trial> trials = new ArrayList<>();
            for (int i = 1; i <= leaves.count(); i++) {
                Length leaf = leaves.step().times(i);
                trials.add(Trial.of(new Leaf(leaf), clearance > leaf.nanometres() ? Fit.GOES : Fit.REFUSES));
            }
            LengthInterval bracket = Evidence.of(trials, ReadingRule.simple())
                    .bracket()
                    .orElseThrow()
                    .interval();

            assertThat(leaves.reading(leaves.going(clearance / 1e6))).isEqualTo(bracket);
        }
    }

    @Test
    void leavesGoUpToFourTenths() {
        LeafSteps leaves = LeafSteps.of(Length.ofMillimetres("0.05"));

        assertThat(leaves.count()).isEqualTo(8);
        assertThat(leaves.reading(leaves.going(-0.02))).isEqualTo(LengthInterval.below(Length.ofMillimetres("0.05")));
        assertThat(leaves.reading(leaves.going(0.73))).isEqualTo(LengthInterval.above(Length.ofMillimetres("0.40")));
    }
}
