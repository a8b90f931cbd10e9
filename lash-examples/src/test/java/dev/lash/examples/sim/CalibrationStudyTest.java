package dev.lash.examples.sim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lash.examples.sim.CalibrationStudy.Cell;
import dev.lash.examples.sim.CalibrationStudy.Counts;
import dev.lash.examples.sim.CalibrationStudy.Part;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

class CalibrationStudyTest {
    private static final int AT_20_PERCENT = 2;
    private static final Path DOCUMENT = Path.of("CALIBRATION.md");

    /** A small piece of the study; at a true 20 % of some 200 engines the count misses the band once in a few hundred seeds. */
    @Test
    void aFifthIsAFifth() {
        Tally all = new Tally();
        for (Cell cell : List.of(new Cell(Part.AS_ASSUMED, 5, 2, "0.02"), new Cell(Part.AS_ASSUMED, 8, 2, "0.02"))) {
            all.add(new CalibrationStudy(20, 1).count(cell).withPriors(AT_20_PERCENT));
        }

        assertThat(all.used()).isGreaterThan(150);
        assertThat(all.share()).isBetween(0.12, 0.28);
    }

    @Test
    void everyEngineAskedAboutIsCountedOnce() {
        Counts counts = new CalibrationStudy(6, 1).count(new Cell(Part.WIDER, 5, 4, "0.02"));

        assertThat(counts.asked()).isEqualTo(18);
        assertThat(counts.drawn()).isGreaterThan(18);
        for (int k = 0; k <= AT_20_PERCENT; k++) {
            for (Tally tally : List.of(counts.withPriors(k), counts.middles(k), counts.likelihood(k))) {
                assertThat(tally.used() + tally.now() + tally.unlimited() + tally.unanswered())
                        .isEqualTo(18);
            }
            assertThat(counts.withPriors(k).unanswered()).isZero();
        }
        assertThat(counts.likelihood(0).unanswered()).isPositive();
    }

    @Test
    void moreRiskMeansFewerPastItNow() {
        Counts counts = new CalibrationStudy(5, 1).count(new Cell(Part.AS_ASSUMED, 3, 4, "0.02"));

        assertThat(counts.withPriors(0).now())
                .isGreaterThan(counts.withPriors(1).now());
        assertThat(counts.withPriors(1).now())
                .isGreaterThan(counts.withPriors(2).now());
    }

    @Test
    void aCellIsTheSameEachTime() {
        Cell cell = new Cell(Part.AS_ASSUMED, 3, 2, "0.05");

        assertThat(CalibrationStudy.rows(cell, new CalibrationStudy(2, 1).count(cell)))
                .isEqualTo(CalibrationStudy.rows(cell, new CalibrationStudy(2, 2).count(cell)));
    }

    @Test
    void intervalsMeetTheBand() {
        Cell few = new Cell(Part.WIDER, 3, 2, "0.05");
        Cell many = new Cell(Part.WIDER, 5, 2, "0.05");

        assertThat(CalibrationStudy.meets(Part.AS_ASSUMED, few, 0.05, new double[] {0.01, 0.03}))
                .isTrue();
        assertThat(CalibrationStudy.meets(Part.AS_ASSUMED, few, 0.05, new double[] {0.01, 0.02}))
                .isFalse();
        assertThat(CalibrationStudy.meets(Part.AS_ASSUMED, few, 0.05, new double[] {0.061, 0.1}))
                .isFalse();
        assertThat(CalibrationStudy.meets(Part.WIDER, few, 0.05, new double[] {0.11, 0.2}))
                .isTrue();
        assertThat(CalibrationStudy.meets(Part.WIDER, many, 0.05, new double[] {0.11, 0.2}))
                .isFalse();
        assertThat(CalibrationStudy.meets(Part.WIDER, many, 0.05, new double[] {0.09, 0.2}))
                .isTrue();
    }

    /** The figures of the document are the program's: its form throughout, and one cell counted again. */
    @Test
    void documentIsTheProgramsOutput() throws IOException {
        String document = Files.readString(DOCUMENT);
        Matcher engines = Pattern.compile("CalibrationStudy (\\d+) 1\"").matcher(document);
        assertThat(engines.find()).isTrue();
        int base = Integer.parseInt(engines.group(1));
        assertThat(document).contains(CalibrationStudy.head(base));
        int from = 0;
        for (Part part : Part.values()) {
            from = document.indexOf(CalibrationStudy.title(part), from);
            assertThat(from).isPositive();
            int table = document.indexOf(CalibrationStudy.columns(part), from);
            assertThat(table).isGreaterThan(from);
            List<String> rows = document.substring(
                            table + CalibrationStudy.columns(part).length())
                    .lines()
                    .takeWhile(line -> !line.isEmpty())
                    .toList();
            List<String> expected = new ArrayList<>();
            for (Cell cell : CalibrationStudy.cells(part)) {
                for (String risk : List.of("1 %", "5 %", "20 %")) {
                    expected.add(
                            "| " + cell.checks() + " | " + cell.valves() + " | " + cell.step() + " | " + risk + " | ");
                }
            }
            assertThat(rows).hasSameSizeAs(expected);
            for (int i = 0; i < rows.size(); i++) {
                assertThat(rows.get(i)).startsWith(expected.get(i));
            }
            if (part == Part.AS_ASSUMED) {
                Cell again = new Cell(part, 8, 2, "0.02");
                List<String> counted = CalibrationStudy.rows(again, new CalibrationStudy(base, 1).count(again))
                        .lines()
                        .toList();
                int first = CalibrationStudy.cells(part).indexOf(again) * counted.size();
                for (int k = 0; k < counted.size(); k++) {
                    assertSame(rows.get(first + k), counted.get(k));
                }
            }
        }
    }

    /** The same words, and figures that may differ in their rounding: a time to check that moves by 1 km may move a count by one. */
    private static void assertSame(String row, String counted) {
        String number = "-?\\d+(\\.\\d+)?";
        assertThat(row.replaceAll(number, "0")).isEqualTo(counted.replaceAll(number, "0"));
        double[] told = numbers(row, number);
        double[] now = numbers(counted, number);
        for (int i = 0; i < told.length; i++) {
            assertThat(told[i]).as("%s and %s", row, counted).isCloseTo(now[i], within(Math.max(0.4, 0.05 * now[i])));
        }
    }

    private static double[] numbers(String row, String number) {
        return Arrays.stream(row.split("[| ]+"))
                .filter(word -> word.matches(number))
                .mapToDouble(Double::parseDouble)
                .toArray();
    }
}
