package dev.lash.examples.sim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.engine.WearPrior;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Usage;
import dev.lash.trend.ClearanceHistory;
import dev.lash.trend.TrendTask;
import java.util.List;
import org.apache.commons.math3.stat.regression.SimpleRegression;
import org.junit.jupiter.api.Test;

class MidpointLinesTest {
    private static TrendTask task(String... readings) {
        ClearanceHistory.Builder history = ClearanceHistory.builder(ValveId.parse("1-in-1"), Gap.ONLY);
        int check = 0;
        for (String reading : readings) {
            if (reading.equals("adjusted")) {
                history.adjusted();
                check--;
            } else {
                history.read(Usage.parse(check++ * 5000 + " km"), LengthInterval.parse(reading));
            }
        }
        return new TrendTask(history.build(), SimulatedEngine.CLEARANCE);
    }

    @Test
    void oneSegmentIsTheUsualRegression() {
        TrendTask task = task("(0.16, 0.18) mm", "(0.14, 0.16) mm", "(0.14, 0.16) mm", "(0.12, 0.14) mm");
        SimpleRegression usual = new SimpleRegression();
        usual.addData(new double[][] {{-1.5, 0.17}, {-1, 0.15}, {-0.5, 0.15}, {0, 0.13}});

        MidpointLines.Line line = MidpointLines.fit(task, WearPrior.BY_DISTANCE).orElseThrow();
        double wholeLevelError = Math.hypot(line.levelError(), line.levelPerDrift() * line.driftError());

        assertThat(line.level()).isCloseTo(usual.getIntercept(), within(1e-12));
        assertThat(line.drift()).isCloseTo(usual.getSlope(), within(1e-12));
        assertThat(line.driftError()).isCloseTo(usual.getSlopeStdErr(), within(1e-12));
        assertThat(wholeLevelError).isCloseTo(usual.getInterceptStdErr(), within(1e-12));
    }

    @Test
    void segmentsShareTheDrift() {
        TrendTask task = task("(0.12, 0.14) mm", "(0.10, 0.12) mm", "adjusted", "(0.16, 0.18) mm", "(0.14, 0.16) mm");

        MidpointLines.Line line = MidpointLines.fit(task, WearPrior.BY_DISTANCE).orElseThrow();

        // the middles fall 0.02 mm in 5000 km in both, so nothing is left to tell a scatter by
        assertThat(line.drift()).isCloseTo(-0.04, within(1e-12));
        assertThat(line.level()).isCloseTo(0.15, within(1e-12));
        assertThat(line.driftError()).isZero();
        assertThat(MidpointLines.ahead(List.of(line), 0.05).orElseThrow()).isCloseTo(1.25, within(0.003));
    }

    @Test
    void readingWithoutAnEndCountsAtTheOther() {
        TrendTask task = task("< 0.10 mm", "(0.12, 0.14) mm", "> 0.16 mm");

        assertThat(MidpointLines.fit(task, WearPrior.BY_DISTANCE).orElseThrow().level())
                .isCloseTo(0.16, within(1e-12));
    }

    @Test
    void noScatterFromTwoChecks() {
        assertThat(MidpointLines.fit(task("(0.16, 0.18) mm", "(0.14, 0.16) mm"), WearPrior.BY_DISTANCE))
                .isEmpty();
    }

    @Test
    void staysAgreesWithDraws() {
        MidpointLines.Line line = new MidpointLines.Line(0.15, -0.02, 0.015, 0.6, 0.01, 0.10, 0.20);
        Draws draws = new Draws(4);
        int stayed = 0;
        int many = 200_000;
        for (int i = 0; i < many; i++) {
            double move = 0.015 * draws.normal();
            double level = draws.normal(0.15 + 0.6 * move, 0.01);
            double then = level + 1.8 * (-0.02 + move);
            stayed += Math.min(level, then) > 0.10 && Math.max(level, then) < 0.20 ? 1 : 0;
        }

        assertThat(line.stays(1.8)).isCloseTo(stayed / (double) many, within(0.005));
    }

    @Test
    void aheadIsWhereTheRiskIsPassed() {
        MidpointLines.Line line = new MidpointLines.Line(0.15, -0.02, 0.015, 0.6, 0.01, 0.10, 0.20);
        double ahead = MidpointLines.ahead(List.of(line, line), 0.2).orElseThrow();

        assertThat(1 - Math.pow(line.stays(ahead), 2)).isBetween(0.19, 0.2);
        assertThat(MidpointLines.ahead(List.of(new MidpointLines.Line(0.15, 0, 0, 0, 0.01, 0.10, 0.20)), 0.05))
                .isEmpty();
        assertThat(MidpointLines.ahead(List.of(new MidpointLines.Line(0.11, 0, 0, 0, 0.01, 0.10, 0.20)), 0.05))
                .hasValue(0);
    }
}
