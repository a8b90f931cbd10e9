package dev.lash.trend;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.ShrinkingMode;
import org.apache.commons.math3.distribution.NormalDistribution;

/** The level of one segment against a sum over ten thousand levels, with the normal distribution of Commons Math. */
class LevelGridTest {
    private static final NormalDistribution NORMAL = new NormalDistribution(null, 0, 1);

    private static double density(LineData.Part part, double drift, double scatter, double deviation, double level) {
        double product = NORMAL.density((level + drift * part.start) / deviation) / deviation;
        for (int i = 0; i < part.size(); i++) {
            double mean = level + drift * part.at[i];
            product *= part.low[i] == part.high[i]
                    ? NORMAL.density((part.low[i] - mean) / scatter) / scatter
                    : NORMAL.cumulativeProbability((part.high[i] - mean) / scatter)
                            - NORMAL.cumulativeProbability((part.low[i] - mean) / scatter);
        }
        return product;
    }

    @Property(tries = 200, shrinking = ShrinkingMode.OFF)
    void hasTheMassOfAFineSum(@ForAll Random random) {
        double scatter = 0.002 + 0.01 * random.nextDouble();
        double drift = -0.02 + 0.03 * random.nextDouble();
        double deviation = 0.02 + 0.03 * random.nextDouble();
        int readings = random.nextInt(6);
        double[] at = new double[readings];
        double[] low = new double[readings];
        double[] high = new double[readings];
        double truth = deviation * Math.max(-2, Math.min(2, random.nextGaussian()));
        for (int i = 0; i < readings; i++) {
            at[i] = i - readings + 1;
            double read = truth + drift * at[i] + scatter * Math.max(-2, Math.min(2, random.nextGaussian()));
            double width = 0.1 * random.nextInt(4) * random.nextDouble();
            double below = width * random.nextDouble();
            int kind = random.nextInt(8);
            low[i] = kind == 0 ? Double.NEGATIVE_INFINITY : read - below;
            high[i] = kind == 1 ? Double.POSITIVE_INFINITY : kind == 0 ? read + below : read - below + width;
        }
        LineData.Part part = new LineData.Part(readings == 0 ? 0 : at[0], at, low, high);
        LevelGrid grid = LevelGrid.of(part, new BracketTable.Tables(scatter).of(part), drift, scatter, deviation);

        double sum = 0;
        double upTo = 0;
        double from = -8 * deviation - Math.abs(drift) * 6;
        double step = -2 * from / 10_000;
        double half = truth + scatter * random.nextGaussian();
        for (int j = 0; j < 10_000; j++) {
            double level = from + (j + 0.5) * step;
            double value = density(part, drift, scatter, deviation, level) * step;
            sum += value;
            upTo += value * Math.max(0, Math.min(1, (half - level) / step + 0.5));
        }
        double tail = part.tail(deviation);
        if (tail > 0) {
            // counted relative to the prior out there, lest it vanish
            double unit = Math.exp(tail * tail / 2) * Math.sqrt(2 * Math.PI);
            sum *= unit;
            upTo *= unit;
        }
        assertThat(grid.mass()).isCloseTo(sum, within(2e-3 * sum));
        assertThat(grid.massUpTo(half)).isCloseTo(upTo, within(2e-2 * sum));
    }
}
