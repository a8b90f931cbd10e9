package dev.lash.trend;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lash.trend.IntervalFit.Maximum;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Iterator;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Agreement with {@code survreg} of the R package survival on generated data. The values, with the versions of R and of the
 * package, are in interval-regression.txt; src/test/r/interval-regression.R made them.
 */
class SurvregTest {
    /** A data set and what R makes of it. */
    record Case(
            String name,
            IntervalRegression model,
            List<Double> coefficients,
            double scale,
            List<Double> standardErrors,
            double logLikelihood) {
        @Override
        public String toString() {
            return name;
        }
    }

    static Stream<Case> cases() {
        return read().stream();
    }

    static List<Case> read() {
        List<Case> cases = new ArrayList<>();
        Iterator<String> lines = lines();
        while (lines.hasNext()) {
            String[] head = lines.next().split(" ", -1);
            int rows = Integer.parseInt(head[2]);
            double[] lower = new double[rows];
            double[] upper = new double[rows];
            double[] weights = new double[rows];
            double[][] design = new double[rows][];
            for (int i = 0; i < rows; i++) {
                double[] row = numbers(lines.next());
                lower[i] = row[0];
                upper[i] = row[1];
                weights[i] = row[2];
                design[i] = Arrays.copyOfRange(row, 3, row.length);
            }
            IntervalRegression model =
                    IntervalRegression.of(design, lower, upper).withWeights(weights);
            String name = (cases.size() + 1) + " " + head[1] + ", " + model;
            cases.add(new Case(
                    name,
                    model,
                    list(lines.next()),
                    numbers(lines.next())[0],
                    list(lines.next()),
                    numbers(lines.next())[0]));
        }
        return cases;
    }

    private static Iterator<String> lines() {
        try (InputStream in = SurvregTest.class.getResourceAsStream("interval-regression.txt")) {
            return new String(in.readAllBytes(), StandardCharsets.US_ASCII)
                    .lines()
                    .filter(line -> !line.startsWith("#"))
                    .iterator();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static List<Double> list(String line) {
        return Arrays.stream(numbers(line)).boxed().toList();
    }

    private static double[] numbers(String line) {
        return Arrays.stream(line.split(" ", -1))
                .mapToDouble(text -> Double.parseDouble(text.replace("Inf", "Infinity")))
                .toArray();
    }

    @Test
    void coversEveryKind() {
        List<Case> cases = read();
        assertThat(cases).hasSizeGreaterThanOrEqualTo(200);
        assertThat(cases.stream().map(c -> c.name().split("[ ,]+", -1)[1]).distinct())
                .containsExactlyInAnyOrder("point", "interval", "left", "right", "mixed", "coarse", "status");
    }

    @ParameterizedTest
    @MethodSource("cases")
    void agrees(Case expected) {
        Maximum fit = expected.model().fit().maximum().orElseThrow();
        List<Double> errors = expected.standardErrors();
        int columns = expected.model().columns();
        for (int j = 0; j < columns; j++) {
            // a coefficient may be near 0 by chance: then in proportion to its standard error
            double size = Math.max(Math.abs(expected.coefficients().get(j)), 0.01 * errors.get(j));
            assertThat(fit.coefficient(j))
                    .as("coefficient %d", j)
                    .isCloseTo(expected.coefficients().get(j), within(1e-6 * size));
            isClose(fit.standardError(j), errors.get(j));
        }
        isClose(fit.scale(), expected.scale());
        isClose(fit.standardErrorOfLogScale(), errors.get(columns));
        isClose(fit.logLikelihood(), expected.logLikelihood());
        assertThat(expected.model().logLikelihood(fit.coefficients(), fit.scale()))
                .isCloseTo(fit.logLikelihood(), within(1e-10 * Math.abs(fit.logLikelihood())));
    }

    private static void isClose(double actual, double expected) {
        assertThat(actual).isCloseTo(expected, within(1e-6 * Math.abs(expected)));
    }
}
