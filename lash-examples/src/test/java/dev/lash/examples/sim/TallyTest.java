package dev.lash.examples.sim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.measure.Length;
import dev.lash.measure.Usage;
import dev.lash.trend.CheckBy;
import org.apache.commons.math3.distribution.BinomialDistribution;
import org.junit.jupiter.api.Test;

class TallyTest {
    private static final SimulatedEngine ENGINE =
            SimulatedEngine.draw(new Draws(3), 2, 2, LeafSteps.of(Length.ofMillimetres("0.02")), 1);
    /** So far ahead that any drift has left. */
    private static final Usage LATE = Usage.parse("9000000 km");

    private static CheckBy answer(CheckBy.Reason reason, Usage usage) {
        return new CheckBy(usage, 0.05, reason, ValveId.parse("1-in-1"), Gap.ONLY);
    }

    private static Tally tally(int left, int stayed) {
        SimulatedEngine inside = ENGINE;
        assertThat(inside.hasLeft(inside.now())).isFalse();
        Tally tally = new Tally();
        for (int i = 0; i < left; i++) {
            tally.add(answer(CheckBy.Reason.VALVE, LATE), inside);
        }
        for (int i = 0; i < stayed; i++) {
            tally.add(answer(CheckBy.Reason.VALVE, inside.now()), inside);
        }
        return tally;
    }

    @Test
    void onlyAnswersAheadCount() {
        Tally tally = tally(1, 3);
        tally.add(answer(CheckBy.Reason.NOW, LATE), ENGINE);
        tally.add(answer(CheckBy.Reason.NO_LIMIT, LATE), ENGINE);
        tally.add(answer(CheckBy.Reason.NO_LIMIT, LATE), ENGINE);
        tally.addUnanswered();

        assertThat(tally.used()).isEqualTo(4);
        assertThat(tally.left()).isEqualTo(1);
        assertThat(tally.share()).isEqualTo(0.25);
        assertThat(tally.now()).isEqualTo(1);
        assertThat(tally.unlimited()).isEqualTo(2);
        assertThat(tally.unanswered()).isEqualTo(1);
    }

    @Test
    void talliesAddUp() {
        Tally tally = tally(1, 3);
        tally.add(tally(2, 1));

        assertThat(tally.used()).isEqualTo(7);
        assertThat(tally.left()).isEqualTo(3);
    }

    /** What makes the interval: at each end the count is just one of the 0.5 % of counts that are the least likely. */
    @Test
    void intervalIsThatOfClopperAndPearson() {
        for (int left : new int[] {1, 4, 11}) {
            double[] interval = tally(left, 12 - left).interval();

            assertThat(1 - new BinomialDistribution(12, interval[0]).cumulativeProbability(left - 1))
                    .isCloseTo(0.005, within(1e-6));
            assertThat(new BinomialDistribution(12, interval[1]).cumulativeProbability(left))
                    .isCloseTo(0.005, within(1e-6));
        }
    }

    @Test
    void intervalOfNoneAndAll() {
        assertThat(new Tally().interval()).containsExactly(0, 1);
        assertThat(tally(0, 10).interval()).containsExactly(new double[] {0, 1 - Math.pow(0.005, 0.1)}, within(1e-6));
        assertThat(tally(10, 0).interval()).containsExactly(new double[] {Math.pow(0.005, 0.1), 1}, within(1e-6));
    }
}
