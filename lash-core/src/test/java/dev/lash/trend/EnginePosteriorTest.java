package dev.lash.trend;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.engine.WearPrior;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Usage;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The quadrature against {@link BruteForce}, to 1 % of what a figure ranges over, and what must hold without it. */
class EnginePosteriorTest {
    private static final double KM = 10_000;
    private static final BruteForce.Prior PRIOR = new BruteForce.Prior(-0.01, 0.02, 0.01, 0.006, 1.5);
    private static final double LOW = 0.10;
    private static final double HIGH = 0.20;
    private static final int NOW = 24_000;

    /** One valve's readings of whole kilometres and micrometres: {@code "0 120 150, 6000 100 130 | 6000 140 160"}. */
    private record Story(ClearanceHistory history, BruteForce.Valve valve) {
        static Story parse(String valve, String text) {
            ClearanceHistory.Builder history = ClearanceHistory.builder(ValveId.parse(valve), Gap.ONLY);
            List<List<BruteForce.Reading>> segments = new ArrayList<>();
            for (String segment : text.isEmpty() ? new String[0] : text.split("\\|", -1)) {
                List<BruteForce.Reading> readings = new ArrayList<>();
                for (String reading : segment.split(",", -1)) {
                    String[] part = reading.strip().split(" ", -1);
                    history.read(Usage.parse(part[0] + " km"), interval(part[1], part[2]));
                    readings.add(new BruteForce.Reading(
                            Integer.parseInt(part[0]) / KM,
                            part[1].equals("-") ? Double.NEGATIVE_INFINITY : Integer.parseInt(part[1]) / 1e3,
                            part[2].equals("-") ? Double.POSITIVE_INFINITY : Integer.parseInt(part[2]) / 1e3));
                }
                history.adjusted();
                segments.add(readings);
            }
            return new Story(history.build(), new BruteForce.Valve(segments, LOW, HIGH));
        }

        private static LengthInterval interval(String low, String high) {
            if (low.equals("-")) {
                return LengthInterval.below(micrometres(high));
            }
            return high.equals("-")
                    ? LengthInterval.above(micrometres(low))
                    : low.equals(high)
                            ? LengthInterval.point(micrometres(low))
                            : LengthInterval.open(micrometres(low), micrometres(high));
        }

        private static Length micrometres(String number) {
            return Length.ofNanometres(1_000L * Integer.parseInt(number));
        }
    }

    private static List<Story> stories(String... texts) {
        List<Story> stories = new ArrayList<>();
        for (int v = 0; v < texts.length; v++) {
            stories.add(Story.parse((v + 1) + "-in-1", texts[v]));
        }
        return stories;
    }

    private static void agrees(List<Story> stories, double ahead) {
        BruteForce.Answer brute =
                BruteForce.of(stories.stream().map(Story::valve).toList(), PRIOR, NOW / KM, ahead);
        List<LineData> data = stories.stream()
                .map(s -> new TrendTask(s.history, ClearanceSpec.typical(ClearanceWindow.parse("0.10..0.20 mm"))))
                .map(t -> LineData.of(t, Usage.parse(NOW + " km"), WearPrior.BY_DISTANCE))
                .toList();
        EnginePosterior posterior = new EnginePosterior(data, WearPrior.BY_DISTANCE);
        for (int v = 0; v < data.size(); v++) {
            PosteriorLaw law = new PosteriorLaw(posterior, v, data.get(v));
            double deviation = brute.deviation(v);
            // of a mean, 1 % or a fiftieth of its deviation: the nodes of the scatter do not tell it finer
            double fine = Math.max(0.01 * Math.abs(brute.drift[v]), 0.02 * deviation);
            assertThat(law.drift()).as("drift").isCloseTo(brute.drift[v], within(fine));
            assertThat(law.driftError()).as("its deviation").isCloseTo(deviation, within(0.01 * deviation));
            assertThat(law.clearance()).as("clearance").isCloseTo(brute.clearance[v], within(0.0002));
            assertThat(law.scatter()).as("scatter").isCloseTo(brute.scatter, within(0.01 * brute.scatter));
            assertThat(law.stays(ahead)).as("stays").isCloseTo(brute.stays[v], within(fine(1 - brute.stays[v])));
        }
        assertThat(posterior.allStay(ahead)).as("all stay").isCloseTo(brute.allStay, within(fine(1 - brute.allStay)));
    }

    /** 1 %, and of a small risk a thirtieth. */
    private static double fine(double left) {
        return Math.max(0.0003, Math.min(0.01, left / 30));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "24000 120 150",
                "0 150 170, 12000 140 160, 24000 120 150",
                "0 150 170, 24000 - 130",
                "0 150 -, 24000 120 140",
                "0 160 160, 8000 152 152, 16000 149 149, 24000 141 141",
                "0 150 170, 6000 140 150 | 6000 160 180, 12000 155 170, 18000 150 170",
                "0 120 140 | 0 140 170",
                "0 100 200, 24000 100 200"
            })
    void oneValveAsByBruteForce(String readings) {
        agrees(stories(readings), 1.5);
    }

    @Test
    void whatHasLeftAlreadyAsByBruteForce() {
        agrees(stories(""), 0);
        agrees(stories("0 150 170, 24000 - 130"), 0);
    }

    /** A risk of 1 % and less, and readings that wear faster than the prior likes. */
    @Test
    void smallRisksAndFastWearAsByBruteForce() {
        agrees(stories("0 150 170, 12000 145 160, 24000 140 155"), 0.3);
        agrees(stories("0 150 160, 24000 150 160"), 1);
        agrees(stories("0 170 190, 12000 120 140, 24000 100 110"), 0.2);
    }

    @Test
    void twoValvesLearnFromEachOtherAsByBruteForce() {
        agrees(stories("0 150 170, 12000 140 160, 24000 120 150", "24000 140 160"), 1.5);
        agrees(stories("0 150 170, 12000 140 150, 24000 110 130", ""), 0.8);
        agrees(stories("0 150 160, 24000 140 160", "0 150 160, 24000 100 120"), 0.5);
    }

    @Test
    void randomReadingsAsByBruteForce() {
        Random random = new Random(20_310_402);
        for (int i = 0; i < 4; i++) {
            agrees(stories(random(random), random(random)), 1);
        }
    }

    /** Readings about a line, of every kind, in one segment or two. */
    private static String random(Random random) {
        StringBuilder text = new StringBuilder();
        double level = 150 + 20 * random.nextGaussian();
        double drift = -10 + 15 * random.nextGaussian();
        int checks = 2 + random.nextInt(3);
        for (int i = 0; i < checks; i++) {
            int usage = i * NOW / (checks - 1);
            double read = level + drift * usage / KM + 6 * random.nextGaussian();
            int width = List.of(0, 20, 30, 50).get(random.nextInt(4));
            int low = (int) Math.floor(read / Math.max(1, width)) * Math.max(1, width);
            boolean openBelow = random.nextInt(8) == 0;
            boolean openAbove = !openBelow && random.nextInt(8) == 0 && width > 0;
            text.append(i == 0 ? "" : random.nextInt(4) == 0 ? " | " : ", ")
                    .append(usage)
                    .append(openBelow && width > 0 ? " -" : " " + low)
                    .append(openAbove ? " -" : " " + (low + width));
        }
        return text.toString();
    }
}
