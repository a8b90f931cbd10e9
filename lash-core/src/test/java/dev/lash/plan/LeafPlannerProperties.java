package dev.lash.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lash.engine.ClearanceWindow;
import dev.lash.gauge.Evidence;
import dev.lash.gauge.Fit;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.Trial;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.plan.LeafPlan.Figures;
import dev.lash.plan.LeafPlanner.Objective;
import dev.lash.plan.PlanCases.PlanCase;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.Combinators;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.LongRange;
import net.jqwik.api.statistics.Statistics;
import net.jqwik.api.statistics.StatisticsReport;
import net.jqwik.api.statistics.StatisticsReport.StatisticsReportMode;

/** The planner against an exhaustive search, against the hand it models, and against textbook search trees. */
class LeafPlannerProperties {
    private static final double ROUNDING = 1e-9;

    // Against every decision tree

    @Provide
    Arbitrary<PlanCase> verdicts() {
        return PlanCases.cases(PlanCases.gauges(7, 5, 4), PlanCases::verdicts);
    }

    @Provide
    Arbitrary<PlanCase> sizes() {
        return PlanCases.cases(PlanCases.gauges(7, 4, 4), (gauges, rule) -> Arbitraries.just(PlanGoal.size()));
    }

    @Provide
    Arbitrary<PlanCase> widths() {
        return PlanCases.cases(
                PlanCases.gauges(7, 4, 4),
                (gauges, rule) -> Arbitraries.integers()
                        .between(0, 40)
                        .map(PlanCases::micrometres)
                        .map(PlanGoal::width));
    }

    @StatisticsReport(label = "ends", value = StatisticsReportMode.OFF)
    @Property(tries = 1000, edgeCases = EdgeCasesMode.NONE)
    void aPlanForAVerdictIsTheBestOfAllTrees(@ForAll("verdicts") PlanCase c) {
        isTheBestOfAllTrees(c);
        // what is compared is not trivial
        Statistics.label("ends").collect(kind(c)).coverage(coverage -> {
            coverage.check("certain").percentage(p -> p > 4);
            coverage.check("may end outside").percentage(p -> p > 4);
        });
    }

    @StatisticsReport(label = "ends", value = StatisticsReportMode.OFF)
    @Property(tries = 600, edgeCases = EdgeCasesMode.NONE)
    void aPlanForTheSizeIsTheBestOfAllTrees(@ForAll("sizes") PlanCase c) {
        isTheBestOfAllTrees(c);
        Statistics.label("ends")
                .collect(kind(c))
                .coverage(coverage -> coverage.check("certain").percentage(p -> p > 35));
    }

    @StatisticsReport(label = "ends", value = StatisticsReportMode.OFF)
    @Property(tries = 600, edgeCases = EdgeCasesMode.NONE)
    void aPlanForAWidthIsTheBestOfAllTrees(@ForAll("widths") PlanCase c) {
        isTheBestOfAllTrees(c);
        Statistics.label("ends")
                .collect(kind(c))
                .coverage(coverage -> coverage.check("may end outside").percentage(p -> p > 4));
    }

    private static String kind(PlanCase c) {
        LeafPlan plan = c.plan();
        if (plan.next().isEmpty()) {
            return "no stroke";
        }
        return plan.figures().certain() ? "certain" : "may end outside";
    }

    private static void isTheBestOfAllTrees(PlanCase c) {
        ExhaustivePlan.Best best = c.exhaustive().from(c.present());
        LeafPlan plan = c.plan();
        Figures figures = plan.figures();
        assertThat(plan.isBestOfAll()).as("best of all").isTrue();
        assertThat(figures.probabilityOutside())
                .as("probability of ending outside")
                .isCloseTo(best.outside(), within(ROUNDING));
        boolean mean = c.objective() == Objective.EXPECTED;
        assertThat(mean ? figures.expectedCost() : figures.worstCost())
                .as("cost")
                .isCloseTo(mean ? best.cost() : best.worst(), within(ROUNDING));
    }

    @Property(tries = 300, edgeCases = EdgeCasesMode.NONE)
    void eachObjectiveIsBestByItsOwnMeasure(@ForAll("verdicts") PlanCase c) {
        LeafPlanner planner = LeafPlanner.withDefaults()
                .withPrior(c.prior())
                .withDragBand(c.band())
                .withCost(c.cost());
        Figures mean = planner.plan(c.gauges(), c.present(), c.rule(), c.goal()).figures();
        Figures worst = planner.withObjective(Objective.WORST_CASE)
                .plan(c.gauges(), c.present(), c.rule(), c.goal())
                .figures();
        assertThat(worst.probabilityOutside()).isCloseTo(mean.probabilityOutside(), within(ROUNDING));
        assertThat(mean.expectedCost()).isLessThanOrEqualTo(worst.expectedCost() + ROUNDING);
        assertThat(worst.worstCost()).isLessThanOrEqualTo(mean.worstCost() + ROUNDING);
    }

    // Against the hand

    /**
     * The figures are those of one clearance, drawn from the prior, under one hand: each clearance between two edges is walked
     * through the tree. Where the band is wider than the rule allows a drag to be, the rule denies what the hand feels.
     */
    @Property(tries = 500, edgeCases = EdgeCasesMode.NONE)
    void theFiguresAreThoseOfAHandThatFollowsThePlan(@ForAll("verdicts") PlanCase c) {
        Assume.that(c.band().signum() == 0
                || c.rule().equals(ReadingRule.simple())
                || !c.band().isMoreThan(reach(c.rule())));
        LeafPlan plan = c.plan();
        double all = 0;
        double outside = 0;
        double cost = 0;
        double strokes = 0;
        long[] edges = edges(c);
        for (int i = 1; i < edges.length; i++) {
            Length from = Length.ofNanometres(edges[i - 1]);
            Length to = Length.ofNanometres(edges[i]);
            double mass = c.prior().probabilityOf(LengthInterval.closed(from, to));
            Length clearance = Length.ofNanometres((edges[i - 1] + edges[i]) / 2);
            if (mass > 0 && c.present().contains(clearance)) {
                LeafPlan at = plan;
                while (at.next().isPresent()) {
                    LeafStack leaf = at.next().orElseThrow();
                    cost += mass * c.cost().of(leaf.size());
                    strokes += mass;
                    at = at.after(felt(leaf, clearance, c.band())).orElseThrow();
                }
                all += mass;
                outside += at.isReached() ? 0 : mass;
            }
        }
        Assume.that(all > 0);
        assertThat(plan.figures().probabilityOutside()).isCloseTo(outside / all, within(ROUNDING));
        assertThat(plan.figures().expectedCost()).isCloseTo(cost / all, within(ROUNDING));
        assertThat(plan.figures().expectedInsertions()).isCloseTo(strokes / all, within(ROUNDING));
    }

    private static Length reach(ReadingRule rule) {
        return rule instanceof ReadingRule.Guarded g ? g.tolerance().plus(g.dragAllowance()) : Length.ZERO;
    }

    /** Every clearance at which an answer, the prior's slope or what is possible changes, from 0 up. */
    private static long[] edges(PlanCase c) {
        LongStream leaves = c.gauges().stacks().stream()
                .map(LeafStack::thickness)
                .flatMapToLong(t -> LongStream.of(
                        t.minus(c.band()).nanometres(), t.plus(c.band()).nanometres()));
        LongStream present = Stream.of(c.present().lower(), c.present().upper())
                .flatMap(Optional::stream)
                .mapToLong(Length::nanometres);
        LongStream knots = LongStream.rangeClosed(0, 30).map(i -> 10_000 * i);
        return LongStream.concat(LongStream.concat(leaves, present), knots)
                .filter(edge -> edge >= 0)
                .sorted()
                .distinct()
                .toArray();
    }

    private static Fit felt(LeafStack leaf, Length clearance, Length band) {
        Length room = clearance.minus(leaf.thickness());
        if (!room.abs().isMoreThan(band)) {
            return Fit.DRAGS;
        }
        return room.signum() > 0 ? Fit.GOES : Fit.REFUSES;
    }

    @Property(tries = 500, edgeCases = EdgeCasesMode.NONE)
    void underTheSimpleRuleAWalkEndsWithTheTrueVerdict(
            @ForAll("verdicts") PlanCase c, @ForAll @LongRange(min = 0, max = 250) long half) {
        ClearanceWindow window = ((PlanGoal.OfVerdict) c.goal()).window();
        Length clearance = Length.ofNanometres(half * 1_000);
        LeafPlan plan = LeafPlanner.withDefaults()
                .withPrior(c.prior())
                .withDragBand(c.band())
                .withCost(c.cost())
                .withObjective(c.objective())
                .plan(c.gauges(), ReadingRule.simple(), c.goal());
        List<Trial> trials = new ArrayList<>();
        LeafPlan at = plan;
        while (at.next().isPresent()) {
            LeafStack leaf = at.next().orElseThrow();
            assertThat(c.gauges().owns(leaf)).as("%s is owned", leaf).isTrue();
            trials.add(new Trial(leaf, felt(leaf, clearance, Length.ZERO)));
            at = at.after(trials.get(trials.size() - 1).fit()).orElseThrow();
            assertThat(Evidence.of(trials, ReadingRule.simple()).bracket().map(b -> b.interval()))
                    .as("bracket of %s", trials)
                    .contains(at.clearances());
        }
        assertThat(trials).hasSizeLessThanOrEqualTo(plan.figures().worstInsertions());
        double cost =
                trials.stream().mapToDouble(t -> c.cost().of(t.leaf().size())).sum();
        assertThat(cost).isLessThanOrEqualTo(plan.figures().worstCost() + ROUNDING);
        assertThat(at.clearances().contains(clearance)).isTrue();
        assertThat(at.isReached()).isEqualTo(Verdict.of(at.clearances(), window) != Verdict.UNDECIDED);
        if (at.isReached()) {
            assertThat(Verdict.of(at.clearances(), window)).isEqualTo(Verdict.of(clearance, window));
        } else {
            assertThat(plan.figures().certain()).isFalse();
            assertThat(plan.outside()).contains(at.clearances());
        }
    }

    @Property(tries = 300, edgeCases = EdgeCasesMode.NONE)
    void worstFiguresFollowFromTheTree(@ForAll("widths") PlanCase c) {
        LeafPlan plan = c.plan();
        Figures figures = plan.figures();
        assertThat(figures.worstInsertions()).isEqualTo(depth(plan));
        assertThat(figures.worstCost()).isCloseTo(worstCost(plan, c.cost()), within(ROUNDING));
        assertThat(figures.certain()).isEqualTo(plan.outside().isEmpty());
        assertThat(figures.expectedCost()).isLessThanOrEqualTo(figures.worstCost() + ROUNDING);
        assertThat(figures.expectedInsertions()).isLessThanOrEqualTo(figures.worstInsertions() + ROUNDING);
        assertThat(figures.probabilityOutside()).isBetween(0.0, 1 + ROUNDING);
    }

    private static List<LeafPlan> answers(LeafPlan plan) {
        return Stream.of(Fit.GOES, Fit.DRAGS, Fit.REFUSES)
                .flatMap(fit -> plan.after(fit).stream())
                .toList();
    }

    private static int depth(LeafPlan plan) {
        return answers(plan).stream().mapToInt(p -> 1 + depth(p)).max().orElse(0);
    }

    private static double worstCost(LeafPlan plan, StrokeCost cost) {
        double stroke = plan.next().map(leaf -> cost.of(leaf.size())).orElse(0.0);
        return stroke
                + answers(plan).stream()
                        .mapToDouble(p -> worstCost(p, cost))
                        .max()
                        .orElse(0);
    }

    // Against the search without its reduction, on sets too large for every tree

    @Provide
    Arbitrary<GaugeSet> largeSets() {
        return Combinators.combine(Arbitraries.integers().between(1, 2), Arbitraries.of(2, 5, 10))
                .flatAs((stacked, step) -> Arbitraries.integers()
                        .between(2, 60)
                        .map(i -> new Leaf(PlanCases.micrometres(i * step)))
                        .list()
                        .uniqueElements()
                        .ofSize(stacked == 1 ? 40 : 9)
                        .map(leaves -> new GaugeSet(leaves, stacked, Length.ZERO, Length.ZERO, LengthUnit.MILLIMETRE)));
    }

    @Provide
    Arbitrary<PlanCase> largeVerdicts() {
        return PlanCases.cases(largeSets(), PlanCases::verdicts);
    }

    private static Figures search(PlanCase c, List<Strokes.Stroke> strokes) {
        return new PlanSearch(
                        c.gauges(),
                        new Strokes.Choice(strokes, Strokes.LeftOut.NONE),
                        c.present(),
                        c.goal(),
                        c.prior(),
                        c::uniform,
                        Length.ZERO,
                        c.objective())
                .plan()
                .figures();
    }

    /** The claim of the planner: without an allowance, one stroke of each kind suffices. */
    @Property(tries = 60, edgeCases = EdgeCasesMode.NONE)
    void withoutAllowanceTheNearestStrokesSuffice(@ForAll("largeVerdicts") PlanCase c) {
        ReadingRule rule = c.rule() instanceof ReadingRule.Guarded g
                        && (c.gauges().mostStacked() == 1 || c.cost().equals(StrokeCost.EQUAL))
                ? ReadingRule.guarded(g.tolerance(), Length.ZERO)
                : ReadingRule.simple();
        sameFigures(c, new Strokes(c.gauges(), rule, c.cost()), 1);
    }

    /** Not proved, so with a fixed seed: that the few nearest of each kind lose nothing. */
    @Property(tries = 60, edgeCases = EdgeCasesMode.NONE, seed = "20251125")
    void theFewNearestStrokesSuffice(@ForAll("largeVerdicts") PlanCase c) {
        sameFigures(c, new Strokes(c.gauges(), c.rule(), c.cost()), LeafPlanner.NEAREST_TRIALS);
    }

    private static void sameFigures(PlanCase c, Strokes strokes, int many) {
        ClearanceWindow window = ((PlanGoal.OfVerdict) c.goal()).window();
        Figures all = search(c, strokes.inside(c.present()));
        Figures few = search(c, strokes.nearest(c.present(), window, many));
        assertThat(few.probabilityOutside()).isCloseTo(all.probabilityOutside(), within(ROUNDING));
        boolean mean = c.objective() == Objective.EXPECTED;
        assertThat(mean ? few.expectedCost() : few.worstCost())
                .isCloseTo(mean ? all.expectedCost() : all.worstCost(), within(ROUNDING));
    }

    // Against textbook search trees

    @Provide
    Arbitrary<List<Integer>> weights() {
        return Arbitraries.integers()
                .between(0, 30)
                .list()
                .ofMinSize(3)
                .ofMaxSize(25)
                .filter(w -> w.stream().mapToInt(Integer::intValue).sum() > 0);
    }

    /** Knuth 1971: the cubic recurrence, over keys (leaves that drag) and the gaps between them. */
    @Property(tries = 300, edgeCases = EdgeCasesMode.NONE)
    void forTheSizeSingleLeavesAreAnOptimalSearchTree(@ForAll("weights") List<Integer> weights) {
        int n = (weights.size() - 1) / 2;
        int[] keys = IntStream.range(0, n).map(i -> weights.get(2 * i + 1)).toArray();
        int[] gaps = IntStream.rangeClosed(0, n).map(i -> weights.get(2 * i)).toArray();
        double all = IntStream.of(keys).sum() + IntStream.of(gaps).sum();
        Assume.that(all > 0);
        SearchTrees.Tree tree = new SearchTrees.Tree(keys, gaps);
        assertThat(tree.plan(Objective.EXPECTED).figures().expectedCost())
                .isCloseTo(SearchTrees.optimum(keys, gaps) / all, within(ROUNDING));
    }
}
