package dev.lash.adjust;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.Adjustment.FitShim;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.ValveTrain.ShimPlace;
import dev.lash.gauge.Bracket;
import dev.lash.gauge.Evidence;
import dev.lash.gauge.Fit;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.Trial;
import dev.lash.judge.Judgement;
import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import java.util.List;
import java.util.TreeSet;
import java.util.stream.IntStream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.statistics.Statistics;
import net.jqwik.api.statistics.StatisticsReport;

/**
 * Certain sizes under a finger follower. Where the ratio comes out whole they are counted point by point; where it does not, the
 * exact fractions say what is never to be called certain.
 */
class ShimChoiceProperties {
    private static final long STEP = 10_000;

    private static Length steps(int steps) {
        return Length.ofNanometres(STEP * steps);
    }

    /** Whole hundredths of a millimetre; the ratio is above / below. */
    record Case(
            int low,
            int width,
            boolean drags,
            int windowLow,
            int windowWidth,
            int thinnest,
            int count,
            int installed,
            int tolerance,
            int above,
            int below) {
        Bracket bracket() {
            return Evidence.of(
                            List.of(
                                    Trial.of(new Leaf(steps(low)), drags ? Fit.DRAGS : Fit.GOES),
                                    Trial.of(new Leaf(steps(low + width)), drags ? Fit.DRAGS : Fit.REFUSES)),
                            ReadingRule.simple())
                    .bracket()
                    .orElseThrow();
        }

        ClearanceWindow window() {
            return new ClearanceWindow(steps(windowLow), steps(windowLow + windowWidth));
        }

        AdjustmentTask task() {
            ShimRange sizes = new ShimRange(steps(thinnest), steps(thinnest + 2 * (count - 1)), steps(2));
            return AdjustmentTask.of(
                            new ValveTrain.Shim(ShimPlace.FOLLOWER, sizes, Ratio.of(above, below)),
                            ClearanceSpec.typical(window()),
                            Judgement.of(bracket(), window()),
                            GaugeSet.of(LengthUnit.MILLIMETRE, "0.01"))
                    .withShims(new InstalledShim(null, steps(installed), steps(tolerance), ""), ShimBox.empty());
        }

        List<Length> certain() {
            return Adjuster.withDefaults().certainShims(task()).orElseThrow();
        }

        TreeSet<Integer> candidates() {
            TreeSet<Integer> all = new TreeSet<>();
            IntStream.range(0, count).forEach(i -> all.add(thinnest + 2 * i));
            all.add(installed);
            return all;
        }

        /**
         * Every point of the reading on a grid of half a step over the ratio's denominator, with every such size that the installed
         * shim may have. All ends lie on whole steps over the denominator, so no open end is missed.
         */
        boolean keepsEveryPointInTheWindow(int size) {
            int grain = 2 * below;
            int off = size == installed ? 0 : grain * tolerance;
            IntStream points = drags
                    ? IntStream.rangeClosed(grain * low, grain * (low + width))
                    : IntStream.range(grain * low + 1, grain * (low + width));
            return points.allMatch(c -> IntStream.rangeClosed(-off, off)
                    // c + above / below x (installed + e - size), all times the denominator once more
                    .map(e -> below * c + above * (grain * (installed - size) + e))
                    .allMatch(after ->
                            after >= below * grain * windowLow && after <= below * grain * (windowLow + windowWidth)));
        }

        /** By how many nanometres, at least, the exact clearances lie inside the window; negative when some lie outside. */
        Ratio roomFor(Length size) {
            int off = size.equals(steps(installed)) ? 0 : tolerance;
            Ratio ratio = Ratio.of(above, below);
            Ratio least = Ratio.nanometresOf(steps(low))
                    .plus(ratio.times(Ratio.nanometresOf(steps(installed - off).minus(size))));
            Ratio most = Ratio.nanometresOf(steps(low + width))
                    .plus(ratio.times(Ratio.nanometresOf(steps(installed + off).minus(size))));
            Ratio below = least.minus(Ratio.nanometresOf(window().lower()));
            Ratio above = Ratio.nanometresOf(window().upper()).minus(most);
            return below.compareTo(above) < 0 ? below : above;
        }
    }

    private static Arbitrary<Case> cases(Arbitrary<int[]> ratios) {
        Arbitrary<int[]> reading = Combinators.combine(
                        Arbitraries.integers().between(1, 24),
                        Arbitraries.integers().between(1, 5),
                        Arbitraries.integers().between(0, 20),
                        Arbitraries.integers().between(2, 14))
                .as((low, width, windowLow, windowWidth) -> new int[] {low, width, windowLow, windowWidth});
        Arbitrary<int[]> shims = Combinators.combine(
                        Arbitraries.integers().between(100, 130),
                        Arbitraries.integers().between(1, 20),
                        Arbitraries.integers().between(110, 150),
                        Arbitraries.integers().between(0, 2))
                .as((thinnest, count, installed, tolerance) -> new int[] {thinnest, count, installed, tolerance});
        return Combinators.combine(reading, Arbitraries.of(true, false), shims, ratios)
                .as((r, drags, s, ratio) ->
                        new Case(r[0], r[1], drags, r[2], r[3], s[0], s[1], s[2], s[3], ratio[0], ratio[1]));
    }

    private static Arbitrary<int[]> ratios(Integer... below) {
        return Combinators.combine(Arbitraries.of(below), Arbitraries.integers().between(1, 20))
                .as((b, a) -> new int[] {Math.max(a, (b + 9) / 10), b});
    }

    @Provide
    Arbitrary<Case> whole() {
        return cases(ratios(1, 2, 4, 5).filter(r -> r[0] <= 3 * r[1]));
    }

    @Provide
    Arbitrary<Case> broken() {
        return cases(ratios(3, 7, 9, 11).filter(r -> r[0] <= 3 * r[1]));
    }

    @Property(tries = 1000, edgeCases = EdgeCasesMode.NONE)
    @StatisticsReport(StatisticsReport.StatisticsReportMode.OFF)
    void certainSizesAreThoseThatKeepEveryPointInTheWindow(@ForAll("whole") Case c) {
        List<Length> expected = c.candidates().stream()
                .filter(c::keepsEveryPointInTheWindow)
                .map(ShimChoiceProperties::steps)
                .toList();
        assertThat(c.certain()).isEqualTo(expected);
        Statistics.collect(expected.isEmpty());
        Statistics.coverage(coverage -> coverage.check(false).percentage(p -> p > 20));
    }

    /** Rounding only ever takes a size away, and only one whose clearance lies within a nanometre of the limit. */
    @Property(tries = 1000, edgeCases = EdgeCasesMode.NONE)
    @StatisticsReport(StatisticsReport.StatisticsReportMode.OFF)
    void roundingNeverMakesASizeCertain(@ForAll("broken") Case c) {
        List<Length> certain = c.certain();
        for (int candidate : c.candidates()) {
            Ratio room = c.roomFor(steps(candidate));
            if (certain.contains(steps(candidate))) {
                assertThat(room).as("room for %s", steps(candidate)).isGreaterThanOrEqualTo(Ratio.ZERO);
            } else {
                assertThat(room).as("room for %s", steps(candidate)).isLessThan(Ratio.ONE);
            }
        }
        Statistics.collect(certain.isEmpty());
        Statistics.coverage(coverage -> coverage.check(false).percentage(p -> p > 20));
    }

    private static Adjustment advice(Case c) {
        return Adjuster.withDefaults().withFarTooLoose(Ratio.of(1000, 1)).advise(c.task());
    }

    @Provide
    Arbitrary<Case> fitted() {
        return broken().filter(c -> advice(c) instanceof FitShim);
    }

    /** What is promised after fitting holds every exact clearance, and is no wider than two nanometres more. */
    @Property(tries = 500, edgeCases = EdgeCasesMode.NONE)
    void theResultHoldsEveryExactClearance(@ForAll("fitted") Case c) {
        FitShim fit = (FitShim) advice(c);
        Ratio ratio = Ratio.of(c.above, c.below);
        Length installed = steps(c.installed);
        for (int off : new int[] {-c.tolerance, 0, c.tolerance}) {
            Ratio change =
                    ratio.times(Ratio.nanometresOf(installed.plus(steps(off)).minus(fit.shim())));
            for (int point : new int[] {c.low, c.low + c.width}) {
                Ratio exact = Ratio.nanometresOf(steps(point)).plus(change);
                assertThat(exact)
                        .isBetween(
                                Ratio.nanometresOf(fit.resulting().lower().orElseThrow()),
                                Ratio.nanometresOf(fit.resulting().upper().orElseThrow()));
            }
        }
        Ratio width = Ratio.nanometresOf(steps(c.width)).plus(ratio.times(Ratio.nanometresOf(steps(2 * c.tolerance))));
        assertThat(Ratio.nanometresOf(fit.resulting().width().orElseThrow()).minus(width))
                .isLessThan(Ratio.of(2, 1));
    }
}
