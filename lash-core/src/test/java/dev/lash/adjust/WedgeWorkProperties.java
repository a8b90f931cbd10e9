package dev.lash.adjust;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.Adjustment.Inspect;
import dev.lash.adjust.Adjustment.MeasureFurther;
import dev.lash.adjust.Adjustment.Turn;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.Bracket;
import dev.lash.gauge.Evidence;
import dev.lash.gauge.Fit;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.Trial;
import dev.lash.judge.Judgement;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import java.math.BigDecimal;
import java.util.List;
import java.util.stream.IntStream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.Combinators;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.statistics.Statistics;
import net.jqwik.api.statistics.StatisticsReport;

/** Whole turns of a wedge screw, tried one by one on every half hundredth of the reading. */
class WedgeWorkProperties {
    private static final long HALF_STEP = 5_000;
    private static final int MOST = 80;

    private static Length steps(int steps) {
        return Length.ofNanometres(2 * HALF_STEP * steps);
    }

    record Case(int low, int high, boolean drags, int windowLow, int windowHigh, int step) {
        Bracket bracket() {
            return Evidence.of(
                            List.of(
                                    Trial.of(new Leaf(steps(low)), drags ? Fit.DRAGS : Fit.GOES),
                                    Trial.of(new Leaf(steps(high)), drags ? Fit.DRAGS : Fit.REFUSES)),
                            ReadingRule.simple())
                    .bracket()
                    .orElseThrow();
        }

        /** Whether so many turns bring every clearance of the reading into the window. */
        boolean isCertain(int turns) {
            IntStream points =
                    drags ? IntStream.rangeClosed(2 * low, 2 * high) : IntStream.range(2 * low + 1, 2 * high);
            return points.map(c -> c + 2 * turns * step)
                    .allMatch(after -> after >= 2 * windowLow && after <= 2 * windowHigh);
        }

        List<Integer> certain() {
            return IntStream.rangeClosed(-MOST, MOST)
                    .filter(this::isCertain)
                    .boxed()
                    .toList();
        }

        /** Four times the distance of the middle of the reading from three quarters of the window, in steps. */
        int distance(int turns) {
            return Math.abs(2 * (low + high) + 4 * turns * step - (windowLow + 3 * windowHigh));
        }

        Adjustment advice() {
            ClearanceWindow window = new ClearanceWindow(steps(windowLow), steps(windowHigh));
            AdjustmentTask task = AdjustmentTask.of(
                    new ValveTrain.Wedge(steps(step)),
                    ClearanceSpec.typical(window),
                    Judgement.of(bracket(), window),
                    GaugeSet.of(LengthUnit.MILLIMETRE, "0.01"));
            return Adjuster.withDefaults().withFarTooLoose(Ratio.of(1000, 1)).advise(task);
        }

        Verdict verdict() {
            return Verdict.of(bracket().interval(), new ClearanceWindow(steps(windowLow), steps(windowHigh)));
        }
    }

    @Provide
    Arbitrary<Case> cases() {
        return Combinators.combine(
                        Arbitraries.integers().between(1, 60),
                        Arbitraries.integers().between(0, 8),
                        Arbitraries.of(true, false),
                        Arbitraries.integers().between(1, 40),
                        Arbitraries.integers().between(0, 15),
                        Arbitraries.integers().between(1, 12))
                .as((low, width, drags, windowLow, windowWidth, step) -> new Case(
                        low, low + (drags ? width : width + 1), drags, windowLow, windowLow + windowWidth, step));
    }

    @Property(tries = 1000, edgeCases = EdgeCasesMode.NONE)
    @StatisticsReport(StatisticsReport.StatisticsReportMode.OFF)
    void theCertainTurnsAreThoseThatKeepEveryPointInTheWindow(@ForAll("cases") Case c) {
        Assume.that(c.verdict() == Verdict.TIGHT || c.verdict() == Verdict.LOOSE);
        List<Integer> certain = c.certain();
        Adjustment advice = c.advice();
        Statistics.collect(advice.kind());
        Statistics.coverage(coverage -> {
            coverage.check("turn").percentage(p -> p > 30);
            coverage.check("measure-further").percentage(p -> p > 3);
            coverage.check("inspect").percentage(p -> p > 3);
        });
        if (certain.isEmpty()) {
            assertThat(advice).isInstanceOfAny(MeasureFurther.class, Inspect.class);
            boolean someLeafMayHelp = IntStream.rangeClosed(c.low, c.high)
                    .mapToObj(i -> new Leaf(steps(i)))
                    .filter(leaf -> c.bracket().trials().stream()
                            .noneMatch(t -> t.leaf().thickness().equals(leaf.thickness())))
                    .anyMatch(leaf -> mayHelp(c, (int) (leaf.thickness().nanometres() / (2 * HALF_STEP))));
            assertThat(advice instanceof MeasureFurther).isEqualTo(someLeafMayHelp);
            return;
        }
        assertThat(advice).isInstanceOf(Turn.class);
        Turn turn = (Turn) advice;
        assertThat(turn.findCertain())
                .contains(new TurnRange(degrees(certain.get(0)), degrees(certain.get(certain.size() - 1))));
        assertThat(certain).as("in one piece").hasSize(certain.get(certain.size() - 1) - certain.get(0) + 1);
        // the nearest to the aim, of two the looser
        int nearest = certain.stream()
                .reduce((a, b) -> c.distance(b) <= c.distance(a) ? b : a)
                .orElseThrow();
        assertThat(turn.degrees()).isEqualTo(new TurnRange(degrees(nearest), degrees(nearest)));
    }

    private static BigDecimal degrees(int turns) {
        return BigDecimal.valueOf(360L * turns);
    }

    /** Whether a leaf of so many steps, in one of its three outcomes, leaves a reading for which some turn is certain. */
    private static boolean mayHelp(Case c, int leaf) {
        if (c.drags) {
            // a further drag between the two says nothing new; the other answers contradict one of them
            return false;
        }
        return outcome(c, leaf, Fit.GOES) || outcome(c, leaf, Fit.DRAGS) || outcome(c, leaf, Fit.REFUSES);
    }

    private static boolean outcome(Case c, int leaf, Fit fit) {
        IntStream points =
                c.drags ? IntStream.rangeClosed(2 * c.low, 2 * c.high) : IntStream.range(2 * c.low + 1, 2 * c.high);
        List<Integer> left = points.filter(p -> switch (fit) {
                    case GOES -> p > 2 * leaf;
                    case DRAGS -> p == 2 * leaf;
                    case FORCED, REFUSES -> p < 2 * leaf;
                })
                .boxed()
                .toList();
        return !left.isEmpty()
                && IntStream.rangeClosed(-MOST, MOST)
                        .anyMatch(turns -> left.stream()
                                .map(p -> p + 2 * turns * c.step)
                                .allMatch(after -> after >= 2 * c.windowLow && after <= 2 * c.windowHigh));
    }

    /** A finer step never makes a certain reading uncertain when it divides the coarser one. */
    @Property(tries = 300, edgeCases = EdgeCasesMode.NONE)
    void halfTheStepIsAtLeastAsGood(@ForAll("cases") Case c, @ForAll @IntRange(min = 2, max = 4) int parts) {
        Case coarse = new Case(c.low, c.high, c.drags, c.windowLow, c.windowHigh, c.step * parts);
        Assume.that(coarse.advice() instanceof Turn);
        assertThat(c.advice()).isInstanceOf(Turn.class);
    }
}
