package dev.lash.gauge;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.testing.Generators;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Random;
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
import net.jqwik.api.Tuple;
import net.jqwik.api.domains.Domain;
import net.jqwik.api.domains.DomainContext;
import net.jqwik.api.statistics.Statistics;
import net.jqwik.api.statistics.StatisticsReport;

/** What trials say together, against the definition point by point on a small grid of nanometres. */
@Domain(Generators.Trade.class)
@Domain(DomainContext.Global.class)
class EvidenceProperties {
    // Leaves of a few even nanometres, so that the odd ones stand for the clearances between; the outermost points
    // stand for
    // those beyond every claim.
    private static final int THINNEST = 2;
    private static final int THICKEST = 12;
    private static final int BELOW = -20;
    private static final int ABOVE = 60;

    @Provide
    Arbitrary<List<Trial>> fewTrials() {
        Arbitrary<LeafStack> singles = smallLeaves().map(LeafStack::of);
        Arbitrary<LeafStack> stacks = Generators.stacks(smallLeaves());
        return Generators.trials(Arbitraries.frequencyOf(Tuple.of(5, singles), Tuple.of(1, stacks)))
                .list()
                .ofMaxSize(5);
    }

    private static Arbitrary<Leaf> smallLeaves() {
        return Arbitraries.integers()
                .between(THINNEST / 2, THICKEST / 2)
                .map(half -> new Leaf(Length.ofNanometres(2L * half)));
    }

    @Provide
    Arbitrary<ReadingRule> smallRules() {
        Arbitrary<Length> figures = Arbitraries.of(0L, 2L, 4L).map(Length::ofNanometres);
        return Arbitraries.oneOf(
                Arbitraries.just(ReadingRule.simple()),
                Combinators.combine(figures, figures).as(ReadingRule::guarded));
    }

    @Provide
    Arbitrary<List<Trial>> trialLists() {
        return Arbitraries.oneOf(fewTrials(), Generators.trials().list().ofMaxSize(6), Generators.honestTrials());
    }

    // The definition, written out apart from the code under test

    private static long figure(ReadingRule rule, boolean tolerance) {
        return rule instanceof ReadingRule.Guarded guarded
                ? (tolerance ? guarded.tolerance() : guarded.dragAllowance()).nanometres()
                : 0;
    }

    private static Set<Integer> allowedBy(Trial trial, ReadingRule rule) {
        long t = trial.leaf().leaves().stream()
                .mapToLong(leaf -> leaf.thickness().nanometres())
                .sum();
        long d = trial.leaf().size() * figure(rule, true);
        long f = figure(rule, false);
        return IntStream.rangeClosed(BELOW, ABOVE)
                .filter(c -> switch (trial.fit()) {
                    case GOES -> c > t - d;
                    case DRAGS -> t - d - f <= c && c <= t + d + f;
                    case FORCED, REFUSES -> c < t + d;
                })
                .boxed()
                .collect(Collectors.toCollection(TreeSet::new));
    }

    private static Set<Integer> allowedByAll(List<Trial> trials, ReadingRule rule) {
        Set<Integer> allowed =
                IntStream.rangeClosed(BELOW, ABOVE).boxed().collect(Collectors.toCollection(TreeSet::new));
        if (anyExclude(trials, rule)) {
            return Set.of();
        }
        TreeSet<Integer> dragged = new TreeSet<>();
        for (Trial trial : trials) {
            if (trial.fit() == Fit.DRAGS) {
                dragged.addAll(allowedBy(trial, rule));
            } else {
                allowed.retainAll(allowedBy(trial, rule));
            }
        }
        if (!dragged.isEmpty()) {
            allowed.removeIf(c -> c < dragged.first() || c > dragged.last());
        }
        return allowed;
    }

    /** Both claims are denied together, or one leaf is said to fit in two ways; two drags never exclude each other. */
    private static boolean exclude(Trial a, Trial b, ReadingRule rule) {
        if (a.fit() == Fit.DRAGS && b.fit() == Fit.DRAGS) {
            return false;
        }
        boolean sameLeaf = thicknesses(a).equals(thicknesses(b));
        return (sameLeaf && kind(a) != kind(b)) || Collections.disjoint(allowedBy(a, rule), allowedBy(b, rule));
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

    private static Set<Integer> pointsOf(LengthInterval interval) {
        return IntStream.rangeClosed(BELOW, ABOVE)
                .filter(c -> interval.contains(Length.ofNanometres(c)))
                .boxed()
                .collect(Collectors.toCollection(TreeSet::new));
    }

    @Property
    @StatisticsReport(StatisticsReport.StatisticsReportMode.OFF)
    void theBracketHoldsThePointsThatAgreeWithAllTrials(
            @ForAll("fewTrials") List<Trial> trials, @ForAll("smallRules") ReadingRule rule) {
        Set<Integer> allowed = allowedByAll(trials, rule);
        Optional<LengthInterval> interval = Evidence.of(trials, rule).bracket().map(Bracket::interval);
        assertThat(interval.map(EvidenceProperties::pointsOf).orElse(Set.of())).isEqualTo(allowed);
        assertThat(interval.isPresent()).isEqualTo(!allowed.isEmpty());
        Statistics.collect(interval.isPresent());
        Statistics.coverage(coverage -> {
            coverage.check(true).percentage(p -> p > 20);
            coverage.check(false).percentage(p -> p > 5);
        });
    }

    // Order and repetition

    @Property
    void theOrderOfTrialsDoesNotMatter(
            @ForAll("trialLists") List<Trial> trials, @ForAll ReadingRule rule, @ForAll Random random) {
        List<Trial> shuffled = new ArrayList<>(trials);
        Collections.shuffle(shuffled, random);
        Evidence one = Evidence.of(trials, rule);
        Evidence other = Evidence.of(shuffled, rule);
        assertThat(interval(other)).isEqualTo(interval(one));
        assertThat(overlap(other)).isEqualTo(overlap(one));
    }

    @Property
    void aTrialRepeatedSaysNothingNew(@ForAll("trialLists") List<Trial> trials, @ForAll ReadingRule rule) {
        Assume.that(!trials.isEmpty());
        List<Trial> more = new ArrayList<>(trials);
        more.addAll(trials);
        assertThat(interval(Evidence.of(more, rule))).isEqualTo(interval(Evidence.of(trials, rule)));
    }

    private static Optional<LengthInterval> interval(Evidence evidence) {
        return evidence.bracket().map(Bracket::interval);
    }

    private static OptionalLong overlap(Evidence evidence) {
        return evidence.match(
                bracket -> OptionalLong.empty(),
                c -> OptionalLong.of(overlap(c.rule().claim(c.first()), c.rule().claim(c.second()))));
    }

    // One more trial

    @Property
    void anyTrialButASecondDragOnlyNarrowsOrContradicts(
            @ForAll("trialLists") List<Trial> trials, @ForAll Trial more, @ForAll ReadingRule rule) {
        boolean dragBefore = trials.stream().anyMatch(t -> t.fit() == Fit.DRAGS);
        Assume.that(more.fit() != Fit.DRAGS || !dragBefore);
        Evidence.of(trials, rule)
                .bracket()
                .ifPresent(before -> before.with(more)
                        .bracket()
                        .ifPresent(after -> assertThat(before.interval().encloses(after.interval()))
                                .isTrue()));
    }

    @Property
    void noTrialMendsAContradiction(@ForAll("contradictions") Contradiction before, @ForAll Trial more) {
        List<Trial> all = new ArrayList<>(before.trials());
        all.add(more);
        assertThat(Evidence.of(all, before.rule())).isInstanceOf(Contradiction.class);
    }

    @Property
    void withIsEvidenceOfAllTrials(
            @ForAll("trialLists") List<Trial> trials, @ForAll Trial more, @ForAll ReadingRule rule) {
        List<Trial> all = new ArrayList<>(trials);
        all.add(more);
        Evidence.of(trials, rule)
                .bracket()
                .ifPresent(bracket -> assertThat(bracket.with(more)).isEqualTo(Evidence.of(all, rule)));
    }

    // Contradictions

    private static long overlap(LengthInterval claimsMost, LengthInterval claimsLeast) {
        return claimsMost.lower().orElseThrow().nanometres()
                - claimsLeast.upper().orElseThrow().nanometres();
    }

    @Provide
    Arbitrary<Contradiction> contradictions() {
        return Combinators.combine(fewTrials(), smallRules())
                .as(Evidence::of)
                .filter(evidence -> evidence instanceof Contradiction)
                .map(evidence -> (Contradiction) evidence);
    }

    /** Of all pairs that exclude each other the named one is furthest apart: the larger clearance first. */
    @Property
    void theNamedTrialsExcludeEachOtherAndAreFurthestApart(@ForAll("contradictions") Contradiction named) {
        List<Trial> trials = named.trials();
        ReadingRule rule = named.rule();
        assertThat(trials).contains(named.first(), named.second());
        assertThat(exclude(named.first(), named.second(), rule))
                .as("the named pair excludes each other")
                .isTrue();
        long largest = trials.stream()
                .flatMap(a -> trials.stream()
                        .filter(b -> exclude(a, b, rule))
                        .filter(b -> rule.claim(a).lower().isPresent()
                                && rule.claim(b).upper().isPresent())
                        .map(b -> overlap(rule.claim(a), rule.claim(b))))
                .mapToLong(Long::longValue)
                .max()
                .orElseThrow();
        assertThat(overlap(rule.claim(named.first()), rule.claim(named.second())))
                .isEqualTo(largest);
        assertThat(Evidence.of(List.of(named.first(), named.second()), rule).bracket())
                .as("the pair alone")
                .isEmpty();
    }

    /** A leaf has one true thickness, so it cannot fit in two ways, whatever the rule allows. */
    @Property
    void oneLeafFitsInOneWay(@ForAll Trial trial, @ForAll Fit other, @ForAll ReadingRule rule) {
        Trial again = new Trial(trial.leaf(), other);
        assertThat(Evidence.of(List.of(trial, again), rule) instanceof Contradiction)
                .isEqualTo(kind(trial) != kind(again));
    }

    @Property
    void dragsNeverContradictEachOther(@ForAll("trialLists") List<Trial> trials, @ForAll ReadingRule rule) {
        List<Trial> drags =
                trials.stream().map(t -> new Trial(t.leaf(), Fit.DRAGS)).toList();
        assertThat(Evidence.of(drags, rule)).isInstanceOf(Bracket.class);
    }

    // Several drags

    @Property
    void oneDragIsNotSeveral(@ForAll("trialLists") List<Trial> trials, @ForAll ReadingRule rule) {
        Assume.that(trials.stream().filter(t -> t.fit() == Fit.DRAGS).count() <= 1);
        assertThat(Evidence.of(trials, rule)
                        .bracket()
                        .map(Bracket::severalDrags)
                        .orElse(List.of()))
                .isEmpty();
    }

    @Property
    void differentDragsAreSeveral(@ForAll("trialLists") List<Trial> trials, @ForAll ReadingRule rule) {
        Optional<Bracket> bracket = Evidence.of(trials, rule).bracket();
        Assume.that(bracket.isPresent());
        // a leaf and a stack of the same thickness may say the same
        boolean several = trials.stream()
                        .filter(t -> t.fit() == Fit.DRAGS)
                        .map(rule::claim)
                        .distinct()
                        .count()
                > 1;
        assertThat(!bracket.orElseThrow().severalDrags().isEmpty()).isEqualTo(several);
    }

    // The two rules

    @Property
    void guardedByNothingIsSimple(@ForAll("trialLists") List<Trial> trials) {
        ReadingRule guardedByNothing = ReadingRule.guarded(Length.ZERO, Length.ZERO);
        assertThat(interval(Evidence.of(trials, guardedByNothing)))
                .isEqualTo(interval(Evidence.of(trials, ReadingRule.simple())));
        for (Trial trial : trials) {
            assertThat(guardedByNothing.claim(trial))
                    .isEqualTo(ReadingRule.simple().claim(trial));
        }
    }

    /** For one drag, and for several as well: the hull of wider claims is wider. */
    @Property
    void theGuardedBracketEnclosesTheSimpleOne(
            @ForAll("trialLists") List<Trial> trials, @ForAll("guarded") ReadingRule guarded) {
        interval(Evidence.of(trials, ReadingRule.simple()))
                .ifPresent(simple -> assertThat(interval(Evidence.of(trials, guarded)))
                        .hasValueSatisfying(
                                wide -> assertThat(wide.encloses(simple)).isTrue()));
    }

    @Property
    void aLargerAllowanceWidens(
            @ForAll("trialLists") List<Trial> trials,
            @ForAll("guarded") ReadingRule a,
            @ForAll("guarded") ReadingRule b) {
        ReadingRule both = ReadingRule.guarded(
                Length.max(((ReadingRule.Guarded) a).tolerance(), ((ReadingRule.Guarded) b).tolerance()),
                Length.max(((ReadingRule.Guarded) a).dragAllowance(), ((ReadingRule.Guarded) b).dragAllowance()));
        interval(Evidence.of(trials, a))
                .ifPresent(narrow -> assertThat(interval(Evidence.of(trials, both)))
                        .hasValueSatisfying(
                                wide -> assertThat(wide.encloses(narrow)).isTrue()));
    }

    @Provide
    Arbitrary<ReadingRule> guarded() {
        return Generators.guardedRules();
    }
}
