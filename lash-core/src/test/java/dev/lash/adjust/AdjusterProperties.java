package dev.lash.adjust;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.Adjustment.FitShim;
import dev.lash.adjust.Adjustment.Inspect;
import dev.lash.adjust.Adjustment.Leave;
import dev.lash.adjust.Adjustment.MeasureFurther;
import dev.lash.adjust.Adjustment.SetToLeaf;
import dev.lash.adjust.Adjustment.Turn;
import dev.lash.adjust.Adjustment.TurnFrom;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.ScrewHead;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.ValveTrain.Screw;
import dev.lash.engine.ValveTrain.ScrewPlace;
import dev.lash.engine.ValveTrain.ShimPlace;
import dev.lash.gauge.Bracket;
import dev.lash.gauge.Evidence;
import dev.lash.gauge.Fit;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.Trial;
import dev.lash.judge.Judgement;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import dev.lash.testing.Generators;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.Combinators;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.statistics.Statistics;
import net.jqwik.api.statistics.StatisticsReport;

/**
 * What is called certain, against a count of points. All ends lie on whole steps of a hundredth of a millimetre, so that
 * points at half steps see open ends too.
 */
class AdjusterProperties {
    private static final long HALF_STEP = 5_000;

    private static Length steps(int steps) {
        return Length.ofNanometres(2 * HALF_STEP * steps);
    }

    /** Whole numbers of steps: a reading from low to high, with or without its ends. */
    record Reading(int low, int high, boolean drags) {
        Bracket bracket() {
            List<Trial> trials = List.of(
                    Trial.of(new Leaf(steps(low)), drags ? Fit.DRAGS : Fit.GOES),
                    Trial.of(new Leaf(steps(high)), drags ? Fit.DRAGS : Fit.REFUSES));
            return Evidence.of(trials, ReadingRule.simple()).bracket().orElseThrow();
        }

        /** The half steps that belong to it. */
        IntStream halfSteps() {
            return drags ? IntStream.rangeClosed(2 * low, 2 * high) : IntStream.range(2 * low + 1, 2 * high);
        }
    }

    record Windows(int low, int high, int setLow, int setHigh) {
        ClearanceSpec spec() {
            return new ClearanceSpec(
                    new ClearanceWindow(steps(low), steps(high)),
                    new ClearanceWindow(steps(setLow), steps(setHigh)),
                    "");
        }
    }

    record Shims(int thinnest, int step, int count, int installed, int tolerance, List<Integer> box) {
        ValveTrain train() {
            ShimRange range = new ShimRange(steps(thinnest), steps(thinnest + step * (count - 1)), steps(step));
            return ValveTrain.Shim.bucket(ShimPlace.OVER_BUCKET, range);
        }

        TreeSet<Integer> candidates() {
            TreeSet<Integer> all = new TreeSet<>(box);
            IntStream.range(0, count).forEach(i -> all.add(thinnest + i * step));
            all.add(installed);
            return all;
        }

        /** Whether the clearance ends in the window for every point of the reading and every size of the installed shim. */
        boolean isCertain(int size, Reading reading, Windows windows) {
            int off = size == installed ? 0 : 2 * tolerance;
            return reading.halfSteps()
                    .allMatch(c -> IntStream.rangeClosed(-off, off)
                            .map(e -> c + 2 * installed + e - 2 * size)
                            .allMatch(after -> after >= 2 * windows.setLow && after <= 2 * windows.setHigh));
        }

        List<Length> certain(Reading reading, Windows windows) {
            return candidates().stream()
                    .filter(size -> isCertain(size, reading, windows))
                    .map(AdjusterProperties::steps)
                    .toList();
        }

        AdjustmentTask with(AdjustmentTask task) {
            ShimBox spares = new ShimBox(
                    box.stream().map(s -> new ShimBox.Lot(steps(s), 1, "")).toList());
            return task.withShims(new InstalledShim(null, steps(installed), steps(tolerance), ""), spares);
        }
    }

    @Provide
    Arbitrary<Reading> readings() {
        return Combinators.combine(
                        Arbitraries.integers().between(1, 24),
                        Arbitraries.integers().between(0, 8),
                        Arbitraries.of(true, false))
                .as((low, width, drags) -> new Reading(low, low + (drags ? width : width + 1), drags));
    }

    @Provide
    Arbitrary<Windows> windows() {
        return Combinators.combine(
                        Arbitraries.integers().between(0, 14),
                        Arbitraries.integers().between(0, 14),
                        Arbitraries.integers().between(0, 3),
                        Arbitraries.integers().between(0, 3))
                .as((low, width, up, down) -> {
                    int setLow = Math.min(low + up, low + width);
                    return new Windows(low, low + width, setLow, Math.max(setLow, low + width - down));
                });
    }

    @Provide
    Arbitrary<Shims> shims() {
        return Combinators.combine(
                        Arbitraries.integers().between(100, 140),
                        Arbitraries.of(1, 2, 5),
                        Arbitraries.integers().between(1, 30),
                        Arbitraries.integers().between(110, 150),
                        Arbitraries.integers().between(0, 2),
                        Arbitraries.integers().between(90, 170).list().ofMaxSize(3))
                .as(Shims::new);
    }

    @Provide
    Arbitrary<GaugeSet> gauges() {
        return Arbitraries.integers()
                .between(1, 34)
                .map(i -> new Leaf(steps(i)))
                .list()
                .ofMinSize(1)
                .ofMaxSize(6)
                .map(leaves -> new GaugeSet(leaves, 1, Length.ZERO, Length.ZERO, LengthUnit.MILLIMETRE));
    }

    private static AdjustmentTask task(ValveTrain train, Windows windows, Reading reading, GaugeSet gauges) {
        ClearanceSpec spec = windows.spec();
        return AdjustmentTask.of(train, spec, Judgement.of(reading.bracket(), spec.check()), gauges);
    }

    // ---- shims

    @Property(tries = 1000, edgeCases = EdgeCasesMode.NONE)
    @StatisticsReport(StatisticsReport.StatisticsReportMode.OFF)
    void certainSizesAreThoseThatKeepEveryPointInTheWindow(
            @ForAll("readings") Reading reading,
            @ForAll("windows") Windows windows,
            @ForAll("shims") Shims shims,
            @ForAll("gauges") GaugeSet gauges) {
        AdjustmentTask task = shims.with(task(shims.train(), windows, reading, gauges));
        List<Length> expected = shims.certain(reading, windows);
        assertThat(Adjuster.withDefaults().certainShims(task)).contains(expected);
        Statistics.collect(expected.isEmpty());
        Statistics.coverage(coverage -> coverage.check(false).percentage(p -> p > 5));
    }

    @Property(tries = 1000, edgeCases = EdgeCasesMode.NONE)
    @StatisticsReport(StatisticsReport.StatisticsReportMode.OFF)
    void theAdviceIsTheNearestCertainSizeOrSaysWhatIsMissing(
            @ForAll("readings") Reading reading,
            @ForAll("windows") Windows windows,
            @ForAll("shims") Shims shims,
            @ForAll("gauges") GaugeSet gauges) {
        AdjustmentTask task = shims.with(task(shims.train(), windows, reading, gauges));
        Verdict verdict = task.judgement().verdict();
        Assume.that(verdict == Verdict.TIGHT || verdict == Verdict.LOOSE);
        List<Length> expected = shims.certain(reading, windows);
        Adjustment advice = Adjuster.withDefaults().advise(task);
        if (advice instanceof Inspect inspect && inspect.why().startsWith("far too loose")) {
            advice = inspect.findThen().orElseThrow();
        }
        Statistics.collect(advice.kind());
        Statistics.coverage(coverage -> Stream.of("fit-shim", "measure-further", "inspect")
                .forEach(kind -> coverage.check(kind).percentage(p -> p > 3)));
        if (advice instanceof FitShim fit) {
            isNearest(fit, expected, reading, windows, shims);
        } else {
            assertThat(expected).isEmpty();
            Stream<LeafStack> helpful = Stream.concat(
                            gauges.stacks().stream(),
                            IntStream.rangeClosed(reading.low, reading.high)
                                    .mapToObj(i -> LeafStack.of(new Leaf(steps(i)))))
                    .filter(leaf -> mayMakeOneCertain(leaf, task));
            if (advice instanceof MeasureFurther further) {
                assertThat(helpful).contains(further.findLeaf().orElseThrow().leaf());
            } else {
                assertThat(advice).isInstanceOf(Inspect.class);
                assertThat(helpful).isEmpty();
            }
        }
    }

    private static void isNearest(FitShim fit, List<Length> certain, Reading reading, Windows windows, Shims shims) {
        assertThat(fit.certain()).isEqualTo(certain).contains(fit.shim());
        assertThat(windows.spec().setTo().interval().encloses(fit.resulting())).isTrue();
        assertThat(fit.inBox()).isEqualTo(shims.box.stream().anyMatch(s -> steps(s).equals(fit.shim())));
        // Four times the distance of the middle from three quarters of the window, in whole steps.
        Length nearest = certain.stream()
                .min((a, b) -> Long.compare(distance(a, reading, windows, shims), distance(b, reading, windows, shims)))
                .orElseThrow();
        assertThat(fit.shim()).isEqualTo(nearest);
    }

    private static long distance(Length size, Reading reading, Windows windows, Shims shims) {
        long s = size.nanometres() / (2 * HALF_STEP);
        long middle = 2L * (reading.low + reading.high) + 4 * (shims.installed - s);
        return Math.abs(middle - (windows.setLow + 3L * windows.setHigh));
    }

    /** Whether the leaf is new, narrows the reading, and on some outcome leaves a size certain. */
    private static boolean mayMakeOneCertain(LeafStack leaf, AdjustmentTask task) {
        Bracket bracket = task.judgement().bracket();
        if (bracket.trials().stream().anyMatch(t -> t.leaf().equals(leaf))) {
            return false;
        }
        return Stream.of(Fit.values())
                .map(fit -> bracket.with(new Trial(leaf, fit)))
                .flatMap(evidence -> evidence.bracket().stream())
                .filter(after -> bracket.interval().encloses(after.interval())
                        && !bracket.interval().equals(after.interval()))
                .anyMatch(after -> !Adjuster.withDefaults()
                        .certainShims(AdjustmentTask.of(
                                        task.train(),
                                        task.clearance(),
                                        Judgement.of(after, task.clearance().check()),
                                        task.gauges())
                                .withShims(task.shim(), task.box())
                                .withPad(task.pad()))
                        .orElseThrow()
                        .isEmpty());
    }

    // ---- screws

    @Provide
    Arbitrary<Screw> screws() {
        return Combinators.combine(Arbitraries.of(ScrewPlace.class), Generators.pitches(), Generators.ratios(1, 3))
                .as((place, pitch, ratio) ->
                        new Screw(place, pitch, place.needsRatio() ? ratio : Ratio.ONE, ScrewHead.NOT_STATED));
    }

    /** A lever with the pushrod at 0, the fulcrum at 1 and the valve at 1 + ratio, one of whose points the thread moves. */
    private static Ratio turned(BigDecimal degrees, Screw screw) {
        Ratio thread =
                Ratio.of(degrees).times(screw.pitch().nanometresPerTurn()).dividedBy(Ratio.of(360, 1));
        Ratio valve = Ratio.ONE.plus(screw.ratio());
        return switch (screw.place()) {
            case ROCKER_TIP, TAPPET, FORKED_ROCKER, BRIDGE -> thread;
            // about the fulcrum
            case PUSHROD_END, THREADED_PUSHROD -> thread.times(valve.minus(Ratio.ONE));
            // about the pushrod
            case FULCRUM_NUT -> thread.times(valve);
        };
    }

    private static boolean isIn(LengthInterval closed, Ratio nanometres) {
        return Ratio.nanometresOf(closed.lower().orElseThrow()).compareTo(nanometres) <= 0
                && Ratio.nanometresOf(closed.upper().orElseThrow()).compareTo(nanometres) >= 0;
    }

    @Property(tries = 500, edgeCases = EdgeCasesMode.NONE)
    @StatisticsReport(StatisticsReport.StatisticsReportMode.OFF)
    void turnsHoldForEveryPointOfTheReading(
            @ForAll("readings") Reading reading,
            @ForAll("windows") Windows windows,
            @ForAll("screws") Screw screw,
            @ForAll("gauges") GaugeSet gauges) {
        AdjustmentTask task = task(screw, windows, reading, gauges);
        Adjustment advice = Adjuster.withDefaults().advise(task);
        if (advice instanceof Inspect inspect) {
            advice = inspect.findThen().orElseThrow();
        }
        Statistics.collect(advice.kind());
        Statistics.coverage(coverage -> Stream.of("leave", "measure-further", "set-to-leaf", "turn")
                .forEach(kind -> coverage.check(kind).percentage(p -> p > 3)));
        List<Ratio> points =
                reading.halfSteps().mapToObj(i -> Ratio.of(HALF_STEP * i, 1)).toList();
        LengthInterval allowed = task.clearance().setTo().interval();
        if (advice instanceof SetToLeaf set) {
            assertThat(allowed.encloses(set.resulting())).isTrue();
            assertThat(gauges.stacks()).contains(set.leaf());
            TurnRange turn = set.findTurn().orElseThrow();
            Ratio target = Ratio.nanometresOf(set.leaf().thickness());
            assertThat(points).allMatch(c -> holds(turn, target.minus(c), screw));
        } else if (advice instanceof Turn turn) {
            assertThat(turn.from()).isEqualTo(TurnFrom.PRESENT_SETTING);
            assertThat(gauges.leaves()).noneMatch(leaf -> allowed.contains(leaf.thickness()));
            Ratio aim = Ratio.of(HALF_STEP * (windows.setLow + 3L * windows.setHigh), 2);
            assertThat(points).allMatch(c -> holds(turn.degrees(), aim.minus(c), screw));
            turn.findCertain()
                    .ifPresent(certain -> assertThat(points)
                            .allMatch(c -> isIn(allowed, c.plus(turned(certain.from(), screw))))
                            .allMatch(c -> isIn(allowed, c.plus(turned(certain.to(), screw)))));
        } else {
            assertThat(advice).isInstanceOfAny(Leave.class, MeasureFurther.class);
        }
    }

    /** Whether the exact turn for a change of clearance lies in the range. */
    private static boolean holds(TurnRange range, Ratio change, Screw screw) {
        return turned(range.from(), screw).compareTo(change) <= 0
                && turned(range.to(), screw).compareTo(change) >= 0;
    }

    /** A tenth of a degree more at either end would leave the window for some point of the reading, or for its very end. */
    @Property(tries = 300, edgeCases = EdgeCasesMode.NONE)
    void certainTurnsReachAsFarAsTheyCan(
            @ForAll("readings") Reading reading, @ForAll("windows") Windows windows, @ForAll("screws") Screw screw) {
        GaugeSet useless = new GaugeSet(
                List.of(new Leaf(Length.ofMillimetres("5"))), 1, Length.ZERO, Length.ZERO, LengthUnit.MILLIMETRE);
        AdjustmentTask task = task(screw, windows, reading, useless);
        Adjustment advice =
                Adjuster.withDefaults().withFarTooLoose(Ratio.of(1000, 1)).advise(task);
        Assume.that(advice instanceof Turn);
        Ratio low = Ratio.nanometresOf(steps(reading.low));
        Ratio high = Ratio.nanometresOf(steps(reading.high));
        Ratio least = Ratio.nanometresOf(steps(windows.setLow)).minus(low);
        Ratio most = Ratio.nanometresOf(steps(windows.setHigh)).minus(high);
        BigDecimal tenth = new BigDecimal("0.1");
        ((Turn) advice)
                .findCertain()
                .ifPresentOrElse(
                        certain -> {
                            assertThat(turned(certain.from().subtract(tenth), screw))
                                    .isLessThan(least);
                            assertThat(turned(certain.to().add(tenth), screw)).isGreaterThan(most);
                        },
                        () -> assertThat(most.minus(least)).isLessThan(turned(tenth, screw)));
    }

    /** Counted from no play, every turn of the range ends in the window to set to, where it is wide enough for a tenth. */
    @Property(tries = 300, edgeCases = EdgeCasesMode.NONE)
    void turnsFromNoPlayEndInTheWindow(@ForAll("windows") Windows windows, @ForAll("screws") Screw screw) {
        Assume.that(windows.setHigh > windows.setLow);
        AdjustmentTask task = AdjustmentTask.of(
                        screw,
                        windows.spec(),
                        Judgement.of(
                                new Reading(1, 2, false).bracket(),
                                windows.spec().check()),
                        GaugeSet.of(LengthUnit.MILLIMETRE, "0.05"))
                .withPad(AdjustmentTask.Pad.DISHED);
        Inspect inspect = (Inspect) Adjuster.withDefaults().advise(task);
        TurnRange range = ((Turn) inspect.findThen().orElseThrow()).degrees();
        List<Ratio> ends = new ArrayList<>(List.of(turned(range.from(), screw), turned(range.to(), screw)));
        assertThat(ends).allMatch(c -> isIn(windows.spec().setTo().interval(), c));
    }
}
