package dev.lash.gauge;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.testing.Generators;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.statistics.Statistics;
import net.jqwik.api.statistics.StatisticsReport;

/**
 * The gap of a closer against the set of all differences of a loaded and an unloaded clearance, counted out in nanometres. Leaves
 * and allowances are multiples of four, so a difference that is a multiple of two is never missed beside an open end.
 */
class CloserProperties {
    private static final int UNIT = 4;
    private static final int FAR = 400;
    private static final int NEAR = 60;

    @Provide
    Arbitrary<List<Trial>> trials() {
        Arbitrary<LeafStack> leaves = Arbitraries.integers()
                .between(1, 10)
                .map(i -> LeafStack.of(new Leaf(Length.ofNanometres((long) UNIT * i))));
        return Generators.trials(leaves).list().ofMaxSize(3);
    }

    @Provide
    Arbitrary<ReadingRule> rules() {
        Arbitrary<Length> figures = Arbitraries.integers().between(0, 2).map(i -> Length.ofNanometres((long) UNIT * i));
        return Arbitraries.oneOf(
                Arbitraries.just(ReadingRule.simple()),
                Combinators.combine(figures, figures).as(ReadingRule::guarded));
    }

    // The definition, written out apart from the code under test

    private static boolean agrees(long c, Trial trial, ReadingRule rule) {
        long t = trial.leaf().thickness().nanometres();
        long d = rule instanceof ReadingRule.Guarded g ? g.tolerance().nanometres() : 0;
        long f = rule instanceof ReadingRule.Guarded g ? g.dragAllowance().nanometres() : 0;
        return switch (trial.fit()) {
            case GOES -> c > t - d;
            case DRAGS -> t - d - f <= c && c <= t + d + f;
            case FORCED, REFUSES -> c < t + d;
        };
    }

    /** The clearances that agree with a reading; drags count together from the lowest to the highest that agrees with any. */
    private static Set<Integer> clearances(List<Trial> trials, ReadingRule rule) {
        if (anyExclude(trials, rule)) {
            return Set.of();
        }
        TreeSet<Integer> dragged = IntStream.rangeClosed(-FAR, FAR)
                .filter(c -> trials.stream().anyMatch(t -> t.fit() == Fit.DRAGS && agrees(c, t, rule)))
                .boxed()
                .collect(Collectors.toCollection(TreeSet::new));
        return IntStream.rangeClosed(-FAR, FAR)
                .filter(c -> trials.stream().allMatch(t -> t.fit() == Fit.DRAGS || agrees(c, t, rule)))
                .filter(c -> dragged.isEmpty() || (c >= dragged.first() && c <= dragged.last()))
                .boxed()
                .collect(Collectors.toCollection(TreeSet::new));
    }

    /** Both claims are denied together, or one leaf is said to fit in two ways; two drags never exclude each other. */
    private static boolean exclude(Trial a, Trial b, ReadingRule rule) {
        if (a.fit() == Fit.DRAGS && b.fit() == Fit.DRAGS) {
            return false;
        }
        boolean sameLeaf = thicknesses(a).equals(thicknesses(b));
        return (sameLeaf && kind(a) != kind(b))
                || IntStream.rangeClosed(-FAR, FAR).noneMatch(c -> agrees(c, a, rule) && agrees(c, b, rule));
    }

    private static List<Length> thicknesses(Trial trial) {
        return trial.leaf().leaves().stream().map(Leaf::thickness).sorted().toList();
    }

    /** A leaf that is forced is a no-go, as one that refuses. */
    private static Fit kind(Trial trial) {
        return trial.fit() == Fit.FORCED ? Fit.REFUSES : trial.fit();
    }

    private static boolean anyExclude(List<Trial> trials, ReadingRule rule) {
        return trials.stream().anyMatch(a -> trials.stream().anyMatch(b -> exclude(a, b, rule)));
    }

    /** The even differences between close clearances, which the cut-off far away does not touch. */
    private static Set<Integer> differences(Set<Integer> loaded, Set<Integer> unloaded, boolean turnsFree) {
        Set<Integer> found = new TreeSet<>();
        for (int l : loaded) {
            for (int u : unloaded) {
                int gap = l - u;
                if (gap % 2 == 0 && Math.abs(gap) <= NEAR && (gap >= 0 || !turnsFree)) {
                    found.add(gap);
                }
            }
        }
        return found;
    }

    private static Set<Integer> pointsOf(LengthInterval interval) {
        return IntStream.rangeClosed(-NEAR, NEAR)
                .filter(gap -> gap % 2 == 0 && interval.contains(Length.ofNanometres(gap)))
                .boxed()
                .collect(Collectors.toCollection(TreeSet::new));
    }

    @Property
    @StatisticsReport(StatisticsReport.StatisticsReportMode.OFF)
    void theGapHoldsEveryDifferenceAndNoOther(
            @ForAll("trials") List<Trial> loaded,
            @ForAll("trials") List<Trial> unloaded,
            @ForAll("rules") ReadingRule rule,
            @ForAll boolean turnsFree) {
        Assume.that(!loaded.isEmpty() && !unloaded.isEmpty());
        Set<Integer> with = clearances(loaded, rule);
        Set<Integer> without = clearances(unloaded, rule);
        Optional<LengthInterval> gap =
                Evidence.closer(loaded, unloaded, rule, turnsFree).bracket().map(Bracket::interval);
        Set<Integer> expected = differences(with, without, turnsFree);
        assertThat(gap.map(CloserProperties::pointsOf).orElse(Set.of())).isEqualTo(expected);
        Statistics.collect(gap.isPresent());
        Statistics.coverage(coverage -> {
            coverage.check(true).percentage(p -> p > 20);
            coverage.check(false).percentage(p -> p > 5);
        });
    }

    /** Two readings, each sound by itself. */
    record Readings(List<Trial> loaded, List<Trial> unloaded, ReadingRule rule) {
        Evidence closer() {
            return Evidence.closer(loaded, unloaded, rule, true);
        }
    }

    @Provide
    Arbitrary<Readings> atOdds() {
        return Combinators.combine(trials(), trials(), rules())
                .as(Readings::new)
                .filter(r -> Evidence.of(r.loaded, r.rule) instanceof Bracket
                        && Evidence.of(r.unloaded, r.rule) instanceof Bracket
                        && r.closer() instanceof Contradiction);
    }

    @Property(tries = 300)
    void oneTrialOfEachReadingIsNamedThoseThatAreFurthestApart(@ForAll("atOdds") Readings readings) {
        Contradiction named = (Contradiction) readings.closer();
        assertThat(readings.unloaded).contains(named.first());
        assertThat(readings.loaded).contains(named.second());
        ReadingRule rule = readings.rule;
        long furthest = readings.unloaded.stream()
                .flatMap(u -> readings.loaded.stream().flatMap(l -> apart(u, l, rule).stream()))
                .mapToLong(Long::longValue)
                .max()
                .orElseThrow();
        assertThat(apart(named.first(), named.second(), rule)).contains(furthest);
        assertThat(Evidence.closer(List.of(named.second()), List.of(named.first()), rule, true))
                .as("the pair alone")
                .isInstanceOf(Contradiction.class);
    }

    /** How far the unloaded claim lies above the loaded one, where both have the end in question. */
    private static Optional<Long> apart(Trial unloaded, Trial loaded, ReadingRule rule) {
        return rule.claim(unloaded)
                .lower()
                .flatMap(low -> rule.claim(loaded).upper().map(high -> low.nanometres() - high.nanometres()));
    }

    @Property
    void whatTheHandSaysOnlyNarrows(
            @ForAll("trials") List<Trial> loaded,
            @ForAll("trials") List<Trial> unloaded,
            @ForAll("rules") ReadingRule rule) {
        Evidence.closer(loaded, unloaded, rule, true)
                .bracket()
                .ifPresent(free -> assertThat(Evidence.closer(loaded, unloaded, rule, false)
                                .bracket()
                                .orElseThrow()
                                .interval()
                                .encloses(free.interval()))
                        .isTrue());
    }
}
