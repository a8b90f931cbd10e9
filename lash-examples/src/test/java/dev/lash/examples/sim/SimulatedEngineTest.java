package dev.lash.examples.sim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Usage;
import dev.lash.trend.ClearanceHistory;
import dev.lash.trend.TrendTask;
import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.stat.correlation.PearsonsCorrelation;
import org.apache.commons.math3.stat.descriptive.DescriptiveStatistics;
import org.junit.jupiter.api.Test;

class SimulatedEngineTest {
    private static final LeafSteps LEAVES = LeafSteps.of(Length.ofMillimetres("0.02"));

    private static SimulatedEngine.Valve valve(double level, double drift) {
        return new SimulatedEngine.Valve(ValveId.parse("1-in-1"), List.of(), level, drift);
    }

    @Test
    void hasLeftWhenOutsideNowOrThen() {
        assertThat(valve(0.15, -0.02).hasLeft(2.4)).isFalse();
        assertThat(valve(0.15, -0.02).hasLeft(2.6)).isTrue();
        assertThat(valve(0.15, 0.02).hasLeft(2.4)).isFalse();
        assertThat(valve(0.15, 0.02).hasLeft(2.6)).isTrue();
        // outside now, back inside later
        assertThat(valve(0.21, -0.02).hasLeft(2)).isTrue();
        assertThat(valve(0.09, 0.02).hasLeft(2)).isTrue();
    }

    @Test
    void oneValveOutIsEnough() {
        SimulatedEngine engine = SimulatedEngine.draw(new Draws(5), 4, 3, LEAVES, 1);
        Usage then = Usage.parse("22000 km");

        assertThat(engine.now()).isEqualTo(Usage.parse("12000 km"));
        assertThat(engine.hasLeft(then)).isEqualTo(engine.valves().stream().anyMatch(valve -> valve.hasLeft(1)));
        assertThat(engine.hasLeft(Usage.parse("900000 km"))).isTrue();
    }

    @Test
    void adjustedWhereAReadingIsNotWithinUnlessItIsTheLast() {
        Draws draws = new Draws(6);
        int adjusted = 0;
        for (int i = 0; i < 200; i++) {
            for (TrendTask task : SimulatedEngine.draw(draws, 4, 4, LEAVES, 1).tasks()) {
                List<ClearanceHistory.Segment> segments = task.history().segments();
                adjusted += segments.size() - 1;
                for (int k = 0; k < segments.size(); k++) {
                    List<ClearanceHistory.Reading> readings = segments.get(k).readings();
                    ClearanceHistory.Reading last = readings.get(readings.size() - 1);
                    if (k < segments.size() - 1) {
                        assertThat(isWithin(last.clearance())).isFalse();
                        assertThat(segments.get(k + 1).readings().get(0).usage())
                                .isEqualTo(last.usage());
                    } else {
                        assertThat(last.usage()).isEqualTo(Usage.parse("18000 km"));
                    }
                    // found outside and left so: only at the first reading after an adjustment
                    for (int r = k == 0 ? 0 : 1; r < readings.size() - 1; r++) {
                        assertThat(isWithin(readings.get(r).clearance())).isTrue();
                    }
                }
                assertThat(task.history().readings()).hasSize(4 + segments.size() - 1);
            }
        }
        assertThat(adjusted).isGreaterThan(50);
    }

    private static boolean isWithin(LengthInterval reading) {
        return SimulatedEngine.CLEARANCE.check().interval().encloses(reading);
    }

    @Test
    void leftAsItIsWhenEveryLastReadingIsWithin() {
        Draws draws = new Draws(9);
        int left = 0;
        for (int i = 0; i < 300; i++) {
            SimulatedEngine engine = SimulatedEngine.draw(draws, 2, 2, LEAVES, 1);
            boolean all = engine.tasks().stream()
                    .allMatch(
                            task -> isWithin(task.history().last().orElseThrow().clearance()));
            assertThat(engine.isLeftAsItIs()).isEqualTo(all);
            left += all ? 1 : 0;
        }
        assertThat(left).isBetween(100, 299);
    }

    @Test
    void driftsAreThoseOfThePrior() {
        checkDrifts(1);
        checkDrifts(2);
    }

    /** Mean, deviation, and what two valves of a role have in common, against the figures of the prior by distance. */
    private static void checkDrifts(double wider) {
        Draws draws = new Draws(11);
        DescriptiveStatistics all = new DescriptiveStatistics();
        List<Double> one = new ArrayList<>();
        List<Double> other = new ArrayList<>();
        for (int i = 0; i < 40_000; i++) {
            List<SimulatedEngine.Valve> valves =
                    SimulatedEngine.draw(draws, 4, 1, LEAVES, wider).valves();
            assertThat(valves.get(2).id().role()).isEqualTo(ValveRole.INTAKE);
            all.addValue(valves.get(1).drift());
            one.add(valves.get(0).drift());
            other.add(valves.get(2).drift());
        }
        // the mean of the square of a log-normal spread: median squared x exp(2 sigma squared)
        double spread = 0.01 * 0.01 * Math.exp(2 * Math.pow(Math.log(1.5), 2));
        double role = 0.02 * 0.02;

        assertThat(all.getMean()).isCloseTo(-0.01, within(0.0005 * wider));
        assertThat(all.getStandardDeviation()).isCloseTo(wider * Math.sqrt(role + spread), within(0.0003 * wider));
        assertThat(new PearsonsCorrelation()
                        .correlation(
                                one.stream().mapToDouble(d -> d).toArray(),
                                other.stream().mapToDouble(d -> d).toArray()))
                .isCloseTo(role / (role + spread), within(0.01));
    }

    @Test
    void levelsAndScatterAreThoseOfThePrior() {
        Draws draws = new Draws(12);
        DescriptiveStatistics levels = new DescriptiveStatistics();
        DescriptiveStatistics readings = new DescriptiveStatistics();
        LeafSteps fine = new LeafSteps(Length.ofMillimetres("0.0001"), 4000);
        for (int i = 0; i < 40_000; i++) {
            SimulatedEngine.Valve valve =
                    SimulatedEngine.draw(draws, 1, 1, fine, 1).valves().get(0);
            levels.addValue(valve.level());
            readings.addValue(valve.readings().get(0).going() * 1e-4 + 0.5e-4 - valve.level());
        }
        double scatter = 0.006 * Math.exp(Math.pow(Math.log(1.5), 2));

        assertThat(levels.getMean()).isCloseTo(0.15, within(0.0004));
        assertThat(levels.getStandardDeviation()).isCloseTo(0.02, within(0.0003));
        assertThat(readings.getMean()).isCloseTo(0, within(0.0002));
        assertThat(readings.getStandardDeviation()).isCloseTo(scatter, within(0.0002));
    }
}
