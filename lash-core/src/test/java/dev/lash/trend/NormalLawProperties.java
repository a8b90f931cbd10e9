package dev.lash.trend;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.function.DoubleUnaryOperator;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.DoubleRange;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;

/** Probabilities of brackets against quadrature of the density, derivatives against moments and differences. */
class NormalLawProperties {
    private static final GaussIntegratorFactory GAUSS = new GaussIntegratorFactory();

    @Provide
    Arbitrary<Double> widths() {
        return Arbitraries.randomValue(random -> Math.pow(10, -14 + 16 * random.nextDouble()));
    }

    /** The moments of the law between two ends, by Gauss and Legendre in panels: log of the probability, mean, variance. */
    private static double[] moments(double m, double w) {
        double start = Math.abs(m) <= w / 2 ? -m : (m > 0 ? -w / 2 : w / 2);
        double nearest = m + start;
        // t is measured from the middle; beyond this reach the density is below 1e-22 of its peak
        double reach = Math.min(10.5, 51 / Math.max(Math.abs(nearest), 1e-9));
        double from = Math.max(-w / 2, start - reach);
        double to = Math.min(w / 2, start + reach);
        DoubleUnaryOperator density = t -> Math.exp(-(t - start) * (0.5 * (t + start) + m));
        double total = integral(density, from, to);
        double mean = integral(t -> (t - start) * density.applyAsDouble(t), from, to) / total;
        double square = integral(t -> Math.pow(t - start - mean, 2) * density.applyAsDouble(t), from, to) / total;
        return new double[] {
            Math.log(total) - 0.5 * nearest * nearest - 0.5 * Math.log(2 * Math.PI), nearest + mean, square
        };
    }

    private static double integral(DoubleUnaryOperator f, double from, double to) {
        int panels = 24;
        double sum = 0;
        for (int i = 0; i < panels; i++) {
            double a = from + (to - from) * i / panels;
            double b = from + (to - from) * (i + 1) / panels;
            GaussIntegrator rule = GAUSS.legendre(12, a, b);
            sum += rule.integrate(f::applyAsDouble);
        }
        return sum;
    }

    @Property(tries = 3000)
    void probabilityMeanAndVarianceAreThoseOfTheTruncatedLaw(
            @ForAll @DoubleRange(min = -60, max = 60) double m, @ForAll("widths") double w) {
        double[] expected = moments(m, w);
        NormalLaw law = new NormalLaw();
        law.between(m, w);
        assertThat(law.log).isCloseTo(expected[0], within(3e-13 * (1 + Math.abs(expected[0]))));
        // the derivative by the middle is minus the mean, the second one the variance less 1
        assertThat(law.dm).isCloseTo(-expected[1], within(1e-11 * (1 + Math.abs(expected[1]))));
        assertThat(law.dmm).isCloseTo(expected[2] - 1, within(1e-9)).isLessThanOrEqualTo(0);
    }

    @Property(tries = 3000)
    void derivativesByWidthAreThoseOfDifferences(
            @ForAll @DoubleRange(min = -30, max = 30) double m, @ForAll("widths") double w) {
        double h = 1e-5;
        NormalLaw law = new NormalLaw();
        NormalLaw less = new NormalLaw();
        NormalLaw more = new NormalLaw();
        law.between(m, w);
        less.between(m, w * Math.exp(-h));
        more.between(m, w * Math.exp(h));
        double size = 1 + m * m + Math.abs(law.wdw) + Math.abs(law.wdmw) + Math.abs(law.wwdww);
        assertThat((more.log - less.log) / (2 * h)).isCloseTo(law.wdw, within(1e-8 * size));
        assertThat((more.dm - less.dm) / (2 * h)).isCloseTo(law.wdmw, within(1e-8 * size));
        // d/dlog w of wdw is wdw + w^2 d2/dw2
        assertThat((more.wdw - less.wdw) / (2 * h)).isCloseTo(law.wdw + law.wwdww, within(1e-8 * size));
    }

    @Property(tries = 2000)
    void tailsAreThoseOfABracketWithoutEnd(@ForAll @DoubleRange(min = -37, max = 60) double a) {
        double far = Math.max(a, 0) + 60;
        NormalLaw bracket = new NormalLaw();
        NormalLaw tail = new NormalLaw();
        bracket.between(0.5 * (a + far), far - a);
        tail.above(a);
        assertThat(tail.log).isCloseTo(bracket.log, within(1e-14 + 1e-13 * Math.abs(bracket.log)));
        assertThat(tail.dm).isCloseTo(bracket.dm, within(1e-12 * (1 + Math.abs(a))));
        NormalLaw below = new NormalLaw();
        below.below(-a);
        assertThat(below.log).isEqualTo(tail.log);
        assertThat(below.dm).isEqualTo(-tail.dm);
        assertThat(below.dmm).isEqualTo(tail.dmm);
    }

    @Property
    void aPointIsTheLimitOfNarrowBrackets(@ForAll @DoubleRange(min = -30, max = 30) double m) {
        NormalLaw point = new NormalLaw();
        NormalLaw bracket = new NormalLaw();
        double w = 1e-12;
        point.point(m);
        bracket.between(m, w);
        assertThat(bracket.log - Math.log(w)).isCloseTo(point.log, within(1e-10));
        assertThat(bracket.dm).isCloseTo(point.dm, within(1e-12));
        assertThat(bracket.dmm).isCloseTo(point.dmm, within(1e-12));
        assertThat(bracket.wdw).isCloseTo(point.wdw, within(1e-12));
        assertThat(bracket.wdmw).isCloseTo(point.wdmw, within(1e-12));
        assertThat(bracket.wwdww).isCloseTo(point.wwdww, within(1e-12));
    }
}
