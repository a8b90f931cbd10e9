package dev.lash.adjust;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lash.adjust.LockShift.Sample;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.domains.Domain;
import net.jqwik.api.domains.DomainContext;

/** The estimate against the same normal model worked out on a grid, without the formulas of the conjugate prior. */
@Domain(DomainContext.Global.class)
class LockShiftProperties {
    private static final double HALF_WIDTH = 0.3;
    private static final int CELLS = 12_000;

    @Provide
    Arbitrary<List<Sample>> samples() {
        Arbitrary<Sample> sample = Combinators.combine(
                        Arbitraries.integers().between(5, 60),
                        Arbitraries.integers().between(-100, 100),
                        Arbitraries.integers().between(0, 100))
                .as((hundredths, shift, width) -> {
                    long set = hundredths * 10_000L;
                    long low = set + shift * 1_000L;
                    return new Sample(
                            Length.ofNanometres(set),
                            LengthInterval.closed(Length.ofNanometres(low), Length.ofNanometres(low + width * 1_000L)));
                });
        return sample.list().ofMaxSize(8);
    }

    private static double logDensity(double shift, List<Sample> samples) {
        double sum = -shift * shift / (2 * 0.02 * 0.02);
        for (Sample sample : samples) {
            double low = sample.read().lower().orElseThrow().millimetres().doubleValue();
            double high = sample.read().upper().orElseThrow().millimetres().doubleValue();
            double seen = (low + high) / 2 - sample.set().millimetres().doubleValue();
            double variance = 0.01 * 0.01 + (high - low) * (high - low) / 12;
            sum -= (seen - shift) * (seen - shift) / (2 * variance);
        }
        return sum;
    }

    @Property(tries = 300)
    void isTheMeanAndDeviationOfThePosterior(@ForAll("samples") List<Sample> samples) {
        LockShift learnt = LockShift.learn(samples);
        double top = logDensity(learnt.mean(), samples);
        double mass = 0;
        double first = 0;
        double second = 0;
        for (int i = 0; i <= CELLS; i++) {
            double shift = HALF_WIDTH * (2.0 * i / CELLS - 1);
            double density = Math.exp(logDensity(shift, samples) - top);
            mass += density;
            first += density * shift;
            second += density * shift * shift;
        }
        double mean = first / mass;
        assertThat(learnt.mean()).isCloseTo(mean, within(1e-9));
        assertThat(learnt.standardError()).isCloseTo(Math.sqrt(second / mass - mean * mean), within(1e-9));
        assertThat(learnt.count()).isEqualTo(samples.size());
    }

    @Property(tries = 300)
    void liesBetweenNothingAndWhatWasSeen(@ForAll("samples") List<Sample> samples) {
        double least = 0;
        double most = 0;
        for (Sample sample : samples) {
            double seen = (sample.read().lower().orElseThrow().nanometres()
                                    + sample.read().upper().orElseThrow().nanometres())
                            / 2e6
                    - sample.set().nanometres() / 1e6;
            least = Math.min(least, seen);
            most = Math.max(most, seen);
        }
        LockShift learnt = LockShift.learn(samples);
        assertThat(learnt.mean()).isBetween(least - 1e-12, most + 1e-12);
        assertThat(learnt.standardError()).isLessThanOrEqualTo(0.02 + 1e-12);
    }

    @Property(tries = 200)
    void theOrderOfTheReadingsDoesNotMatter(@ForAll("samples") List<Sample> samples, @ForAll Random random) {
        List<Sample> shuffled = new ArrayList<>(samples);
        Collections.shuffle(shuffled, random);
        assertThat(LockShift.learn(shuffled).mean())
                .isCloseTo(LockShift.learn(samples).mean(), within(1e-12));
        assertThat(LockShift.learn(shuffled)
                        .estimate()
                        .minus(LockShift.learn(samples).estimate())
                        .abs())
                .isLessThanOrEqualTo(Length.ofNanometres(1));
    }
}
