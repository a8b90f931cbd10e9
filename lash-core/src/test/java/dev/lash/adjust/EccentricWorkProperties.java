package dev.lash.adjust;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lash.adjust.Adjustment.Inspect;
import dev.lash.adjust.Adjustment.SetToLeaf;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.ValveTrain;
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
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
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

/** The turns of an eccentric, against every position round the circle. */
class EccentricWorkProperties {
    private static final double NANOMETRES = 1e6;
    /** Twentieths of a degree all round. */
    private static final int POSITIONS = 7200;

    /** Hundredths of a millimetre; the eccentricity in micrometres, multiplier and angle in hundredths. */
    record Case(
            int low, int width, boolean drags, boolean guarded, int leaf, int eccentricity, int multiplier, int angle) {
        ReadingRule rule() {
            return guarded
                    ? ReadingRule.guarded(Length.ofMillimetres("0.003"), Length.ofMillimetres("0.002"))
                    : ReadingRule.simple();
        }

        Bracket bracket() {
            return Evidence.of(
                            List.of(
                                    new Trial(stack(low), drags ? Fit.DRAGS : Fit.GOES),
                                    new Trial(stack(low + width), drags ? Fit.DRAGS : Fit.REFUSES)),
                            rule())
                    .bracket()
                    .orElseThrow();
        }

        private static LeafStack stack(int hundredths) {
            return LeafStack.of(new Leaf(Length.ofNanometres(hundredths * 10_000L)));
        }

        ClearanceWindow window() {
            Length middle = Length.ofNanometres(leaf * 10_000L);
            Length half = Length.ofMillimetres("0.006");
            return new ClearanceWindow(middle.minus(half), middle.plus(half));
        }

        Verdict verdict() {
            return Judgement.of(bracket(), window()).verdict();
        }

        AdjustmentTask task() {
            return AdjustmentTask.of(
                            new ValveTrain.Eccentric(
                                    Length.ofNanometres(eccentricity * 1_000L), Ratio.of(multiplier, 100)),
                            ClearanceSpec.typical(window()),
                            Judgement.of(bracket(), window()),
                            new GaugeSet(
                                    List.of(new Leaf(Length.ofNanometres(leaf * 10_000L))),
                                    1,
                                    Length.ZERO,
                                    Length.ZERO,
                                    LengthUnit.MILLIMETRE))
                    .withEccentricAngle(Ratio.of(angle, 100));
        }

        Adjustment advice() {
            return Adjuster.withDefaults().withFarTooLoose(Ratio.of(10_000, 1)).advise(task());
        }

        // the definition, in millimetres and degrees

        double amplitude() {
            return eccentricity / 1000.0 * multiplier / 100.0;
        }

        double change(double turn) {
            double start = angle / 100.0;
            return amplitude() * (Math.sin(Math.toRadians(start)) - Math.sin(Math.toRadians(start - turn)));
        }

        LengthInterval wanted() {
            LengthInterval drag = rule().claim(new Trial(stack(leaf), Fit.DRAGS));
            return LengthInterval.closed(
                    drag.lower()
                            .orElseThrow()
                            .minus(bracket().interval().upper().orElseThrow()),
                    drag.upper()
                            .orElseThrow()
                            .minus(bracket().interval().lower().orElseThrow()));
        }

        double least() {
            return wanted().lower().orElseThrow().nanometres() / NANOMETRES;
        }

        double most() {
            return wanted().upper().orElseThrow().nanometres() / NANOMETRES;
        }

        double largestChange() {
            return amplitude() * (Math.sin(Math.toRadians(angle / 100.0)) + 1);
        }

        double smallestChange() {
            return amplitude() * (Math.sin(Math.toRadians(angle / 100.0)) - 1);
        }
    }

    @Provide
    Arbitrary<Case> cases() {
        return Combinators.combine(
                        Arbitraries.integers().between(2, 80),
                        Arbitraries.integers().between(1, 12),
                        Arbitraries.of(true, false),
                        Arbitraries.of(true, false),
                        Arbitraries.integers().between(2, 80),
                        Arbitraries.integers().between(20, 1500),
                        Arbitraries.integers().between(10, 500),
                        Arbitraries.integers().between(-90_000, 90_000))
                .as(Case::new)
                .filter(c -> c.verdict() == Verdict.TIGHT || c.verdict() == Verdict.LOOSE);
    }

    private static Optional<SetToLeaf> set(Case c) {
        return c.advice() instanceof SetToLeaf set ? Optional.of(set) : Optional.empty();
    }

    private static Optional<EccentricTurn> near(Case c) {
        return set(c).map(SetToLeaf::eccentric)
                .filter(turns -> !turns.isEmpty())
                .map(turns -> turns.get(0));
    }

    private static EccentricTurn other(Case c) {
        return set(c).orElseThrow().eccentric().get(1);
    }

    /** With a sign, positive towards smaller angles as in the definition. */
    private static TurnRange signed(EccentricTurn turn) {
        return turn.sense() == EccentricTurn.Sense.SMALLER
                ? turn.degrees()
                : new TurnRange(
                        turn.degrees().to().negate(), turn.degrees().from().negate());
    }

    private static boolean isIn(TurnRange range, double turn, double inside) {
        for (int whole = -1; whole <= 1; whole++) {
            double d = turn + 360 * whole;
            if (d >= range.from().doubleValue() + inside && d <= range.to().doubleValue() - inside) {
                return true;
            }
        }
        return false;
    }

    /**
     * All round the circle: the two ranges hold every turn by which some clearance of the reading comes to the drag, and, but for the
     * rounding to tenths at their ends, no other turn.
     */
    @Property(tries = 1000, edgeCases = EdgeCasesMode.NONE)
    @StatisticsReport(StatisticsReport.StatisticsReportMode.OFF)
    void theTwoRangesAreTheTurnsThatBringTheReadingToTheDrag(@ForAll("cases") Case c) {
        Optional<TurnRange> near = near(c).map(EccentricWorkProperties::signed);
        Statistics.collect(near.isPresent());
        Statistics.coverage(coverage -> coverage.check(true).percentage(p -> p > 15));
        Assume.that(near.isPresent());
        TurnRange turn = near.orElseThrow();
        TurnRange other = signed(other(c));
        double least = c.least();
        double most = c.most();
        List<Double> missed = new ArrayList<>();
        List<Double> beside = new ArrayList<>();
        for (int i = 0; i < POSITIONS; i++) {
            double d = 360.0 * i / POSITIONS - 180;
            double change = c.change(d);
            boolean serves = change > least + 1e-9 && change < most - 1e-9;
            boolean doesNot = change < least - 1e-9 || change > most + 1e-9;
            if (serves && !isIn(turn, d, 0) && !isIn(other, d, 0)) {
                missed.add(d);
            }
            if (doesNot && (isIn(turn, d, 0.1001) || isIn(other, d, 0.1001))) {
                beside.add(d);
            }
        }
        assertThat(missed).as("turns that serve, in neither range").isEmpty();
        assertThat(beside).as("turns that do not serve, in a range").isEmpty();
    }

    /** Every clearance of the reading comes to the leaf by a turn of each range. */
    @Property(tries = 500, edgeCases = EdgeCasesMode.NONE)
    void eachRangeServesEveryClearanceOfTheReading(
            @ForAll("cases") Case c, @ForAll @IntRange(min = 0, max = 20) int twentieth) {
        Optional<TurnRange> near = near(c).map(EccentricWorkProperties::signed);
        Assume.that(near.isPresent());
        double wanted = c.least() + (c.most() - c.least()) * twentieth / 20;
        for (TurnRange range : List.of(near.orElseThrow(), signed(other(c)))) {
            double from = range.from().doubleValue();
            double to = range.to().doubleValue();
            double nearest = Double.POSITIVE_INFINITY;
            for (int i = 0; i <= 1000; i++) {
                nearest = Math.min(nearest, Math.abs(c.change(from + (to - from) * i / 1000) - wanted));
            }
            // no clearance changes faster than m e a radian
            assertThat(nearest).isLessThanOrEqualTo(c.amplitude() * Math.toRadians(to - from) / 1000 + 1e-9);
        }
    }

    /** m e (sin a0 - sin(a0 - d)) is the wanted change, within the rounding of d to tenths. */
    @Property(tries = 500, edgeCases = EdgeCasesMode.NONE)
    void theTurnOfAnExactReadingGivesTheWantedChange(@ForAll("cases") Case any) {
        Case c = new Case(any.low, 0, true, false, any.leaf, any.eccentricity, any.multiplier, any.angle);
        Assume.that(c.verdict() == Verdict.TIGHT || c.verdict() == Verdict.LOOSE);
        Optional<TurnRange> near = near(c).map(EccentricWorkProperties::signed);
        Assume.that(near.isPresent());
        double wanted = (c.leaf - c.low) / 100.0;
        double rounding = c.amplitude() * Math.toRadians(0.2001);
        for (TurnRange range : List.of(near.orElseThrow(), signed(other(c)))) {
            assertThat(range.to().subtract(range.from())).isLessThanOrEqualTo(new BigDecimal("0.2"));
            assertThat(c.change(range.from().doubleValue())).isCloseTo(wanted, within(rounding));
            assertThat(c.change(range.to().doubleValue())).isCloseTo(wanted, within(rounding));
        }
    }

    @Property(tries = 500, edgeCases = EdgeCasesMode.NONE)
    void theFirstTurnIsTheNearer(@ForAll("cases") Case c) {
        Optional<TurnRange> near = near(c).map(EccentricWorkProperties::signed);
        Assume.that(near.isPresent());
        TurnRange other = signed(other(c));
        assertThat(middle(near.orElseThrow())).isLessThanOrEqualTo(middle(other) + 0.11);
        assertThat(middle(other)).isLessThanOrEqualTo(180.11);
    }

    private static double middle(TurnRange range) {
        return Math.abs(range.from().doubleValue() + range.to().doubleValue()) / 2;
    }

    /** The clearance at the angles that are named, and nowhere on the way back, is the wanted one: the sense and the end agree. */
    @Property(tries = 500, edgeCases = EdgeCasesMode.NONE)
    void theNamedAnglesGiveTheWantedChange(@ForAll("cases") Case c) {
        Assume.that(near(c).isPresent());
        for (EccentricTurn turn : List.of(near(c).orElseThrow(), other(c))) {
            double start = c.angle / 100.0;
            double from = turn.to().from().doubleValue();
            double to = turn.to().to().doubleValue();
            assertThat(from).isBetween(0.0, 360.0);
            double nearest = Double.POSITIVE_INFINITY;
            double middle = (c.least() + c.most()) / 2;
            for (int i = 0; i <= 1000; i++) {
                nearest = Math.min(nearest, Math.abs(c.change(start - from - (to - from) * i / 1000) - middle));
            }
            assertThat(nearest).isLessThanOrEqualTo(c.amplitude() * Math.toRadians(to - from) / 1000 + 1e-9);
            double sense = turn.sense() == EccentricTurn.Sense.LARGER ? 1 : -1;
            double leastEnd = start
                    + sense
                            * (sense > 0
                                            ? turn.degrees().from()
                                            : turn.degrees().to())
                                    .doubleValue();
            assertThat(Math.abs(Math.IEEEremainder(leastEnd - from, 360))).isLessThan(0.21);
        }
    }

    /** There is a turn when the whole wanted change lies within reach, and the window is called out of reach when none of it does. */
    @Property(tries = 1000, edgeCases = EdgeCasesMode.NONE)
    @StatisticsReport(StatisticsReport.StatisticsReportMode.OFF)
    void outOfReachIsWhatNoPositionReaches(@ForAll("cases") Case c) {
        double room = 1e-9;
        boolean all = c.least() >= c.smallestChange() + room && c.most() <= c.largestChange() - room;
        boolean notAll = c.least() < c.smallestChange() - room || c.most() > c.largestChange() + room;
        // the reach is rounded outward to nanometres
        LengthInterval reading = c.bracket().interval();
        double highest = reading.upper().orElseThrow().nanometres() / NANOMETRES + c.largestChange();
        double lowest = reading.lower().orElseThrow().nanometres() / NANOMETRES + c.smallestChange();
        double windowLow = c.window().lower().nanometres() / NANOMETRES;
        double windowHigh = c.window().upper().nanometres() / NANOMETRES;
        boolean none = highest < windowLow - 2e-6 || lowest > windowHigh + 2e-6;
        boolean some = highest > windowLow + 2e-6 && lowest < windowHigh - 2e-6;
        Statistics.collect(all ? "all" : none ? "none" : "some");
        Statistics.coverage(coverage -> {
            coverage.check("all").percentage(p -> p > 15);
            coverage.check("none").percentage(p -> p > 10);
            coverage.check("some").percentage(p -> p > 2);
        });
        Optional<EccentricTurn> turn = near(c);
        if (all) {
            assertThat(turn).isPresent();
        }
        if (notAll) {
            assertThat(turn).isEmpty();
        }
        if (none) {
            assertThat(c.advice()).isInstanceOf(Inspect.class);
        }
        if (some) {
            assertThat(c.advice()).isInstanceOf(SetToLeaf.class);
        }
    }

    /** Whole turns of the shaft change nothing. */
    @Property(tries = 300, edgeCases = EdgeCasesMode.NONE)
    void wholeTurnsOfTheShaftSayNothing(@ForAll("cases") Case c, @ForAll @IntRange(min = -5, max = 5) int turns) {
        Ratio angle = Ratio.of(c.angle + 36_000L * turns, 100);
        assertThat(Adjuster.withDefaults()
                        .withFarTooLoose(Ratio.of(10_000, 1))
                        .advise(c.task().withEccentricAngle(angle)))
                .isEqualTo(c.advice());
    }
}
