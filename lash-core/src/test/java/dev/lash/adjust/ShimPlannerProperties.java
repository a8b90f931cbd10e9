package dev.lash.adjust;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.ShimEngines.Engine;
import dev.lash.adjust.ShimExhaustion.Choice;
import dev.lash.adjust.ShimPlan.Move;
import dev.lash.adjust.ShimPlan.Origin;
import dev.lash.adjust.ShimPlan.Step;
import dev.lash.adjust.ShimPlan.Totals;
import dev.lash.engine.ClearanceWindow;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.function.Predicate;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.ShrinkingMode;

/** Laws of shim planning, on engines small enough to try every plan. */
class ShimPlannerProperties {
    private static final double MOST_PLANS = 50_000;
    private static final Ratio AIM = Ratio.of(3, 4);

    @Provide
    Arbitrary<Engine> engines() {
        return ShimEngines.small();
    }

    /** A score that has nothing to do with the aim, with many ties. */
    private static double arbitraryScore(ShimSlot slot, LengthInterval clearances) {
        return Math.floorMod((slot.place() + clearances).hashCode(), 7);
    }

    @Property(tries = 1500, shrinking = ShrinkingMode.OFF)
    void isTheBestOfAllPlans(@ForAll("engines") Engine engine, @ForAll boolean swaps) {
        ShimExhaustion all = new ShimExhaustion(engine.slots(), engine.box(), AIM, swaps, null);
        Assume.that(all.size() < MOST_PLANS);
        ShimPlan plan = ShimPlanner.withDefaults().withSwaps(swaps).plan(engine.slots(), engine.box());
        List<Choice> best = all.search();
        assertThat(all.key(all.read(plan))).as("%s", plan).isEqualTo(all.key(best));
        assertThat(all.read(plan)).isEqualTo(best);
        for (int i = 0; i < best.size(); i++) {
            assertThat(plan.moves().get(i).resulting()).isEqualTo(best.get(i).resulting());
            assertThat(plan.moves().get(i).certain()).isEqualTo(best.get(i).certain());
        }
        List<Comparable<?>> key = all.key(best);
        Totals totals = plan.totals();
        assertThat(List.of(totals.notCertain(), totals.camshaftsLifted(), totals.shimsBought(), totals.sizesChanged()))
                .isEqualTo(key.subList(0, 4));
        assertThat(Ratio.of(totals.halfNanometresOffAim(), 1)).isEqualTo(key.get(5));
    }

    /** The engines above are such that every rank has something to decide. */
    @Example
    void everyRankHasItsCases() {
        Random random = new Random(20310620);
        Map<String, Integer> counts = new TreeMap<>();
        for (int i = 0; i < 2000; i++) {
            Engine engine = ShimEngines.small(random);
            ShimPlan plan = ShimPlanner.withDefaults().plan(engine.slots(), engine.box());
            ShimPlan scored = ShimPlanner.withDefaults()
                    .withSurvival(ShimPlannerProperties::arbitraryScore)
                    .plan(engine.slots(), engine.box());
            count(counts, "not certain", plan.totals().notCertain() > 0);
            count(counts, "all certain", plan.totals().notCertain() == 0);
            count(counts, "camshaft lifted", plan.totals().camshaftsLifted() > 0);
            count(counts, "bought", plan.totals().shimsBought() > 0);
            count(counts, "from the box", !plan.fromBox().isEmpty());
            count(counts, "from another valve", any(plan, m -> m.source().origin() == Origin.VALVE));
            count(counts, "fitted though not certain", any(plan, m -> !m.stays() && !m.certain()));
            count(counts, "other plan when scored", !plan.moves().equals(scored.moves()));
        }
        assertThat(counts)
                .hasSize(8)
                .allSatisfy((what, number) ->
                        assertThat(number).as(what).isGreaterThan(what.startsWith("fitted though") ? 10 : 40));
    }

    private static void count(Map<String, Integer> counts, String what, boolean is) {
        counts.merge(what, is ? 1 : 0, Integer::sum);
    }

    private static boolean any(ShimPlan plan, Predicate<Move> test) {
        return plan.moves().stream().anyMatch(test);
    }

    @Property(tries = 600, shrinking = ShrinkingMode.OFF)
    void lastsLongestWhereAskedTo(@ForAll("engines") Engine engine) {
        ShimExhaustion all =
                new ShimExhaustion(engine.slots(), engine.box(), AIM, true, ShimPlannerProperties::arbitraryScore);
        Assume.that(all.size() < MOST_PLANS);
        ShimPlan plan = ShimPlanner.withDefaults()
                .withSurvival(ShimPlannerProperties::arbitraryScore)
                .plan(engine.slots(), engine.box());
        List<Choice> best = all.search();
        assertThat(all.key(all.read(plan))).as("%s", plan).isEqualTo(all.key(best));
        assertThat(all.read(plan)).isEqualTo(best);
        double smallest = -(Double) all.key(best).get(4);
        assertThat(plan.smallestScore().orElse(Double.POSITIVE_INFINITY)).isEqualTo(smallest);
    }

    @Property(tries = 1000)
    void makesNoValveWorse(@ForAll("engines") Engine engine) {
        ShimPlan plan = ShimPlanner.withDefaults().plan(engine.slots(), engine.box());
        for (int i = 0; i < plan.moves().size(); i++) {
            Move move = plan.moves().get(i);
            ShimSlot slot = engine.slots().get(i);
            if (move.stays()) {
                assertThat(move.resulting()).isEqualTo(slot.bracket());
                continue;
            }
            if (!move.certain()) {
                assertThat(move.resulting().lower().orElseThrow().signum()).isPositive();
            }
            for (ClearanceWindow window :
                    List.of(slot.clearance().check(), slot.clearance().setTo())) {
                assertThat(tooLow(move.resulting(), window)).isLessThanOrEqualTo(tooLow(slot.bracket(), window));
                assertThat(tooHigh(move.resulting(), window)).isLessThanOrEqualTo(tooHigh(slot.bracket(), window));
            }
            assertThat(slot.clearance().setTo().interval().encloses(move.resulting()))
                    .isEqualTo(move.certain());
        }
    }

    private static Length tooLow(LengthInterval clearances, ClearanceWindow window) {
        return Length.max(Length.ZERO, window.lower().minus(clearances.lower().orElse(Length.ofMillimetres("-900"))));
    }

    private static Length tooHigh(LengthInterval clearances, ClearanceWindow window) {
        return Length.max(
                Length.ZERO,
                clearances.upper().orElse(Length.ofMillimetres("900")).minus(window.upper()));
    }

    @Property(tries = 1000)
    void losesNoShim(@ForAll("engines") Engine engine) {
        ShimPlan plan = ShimPlanner.withDefaults().plan(engine.slots(), engine.box());
        Map<String, Integer> before = new TreeMap<>();
        engine.slots()
                .forEach(slot ->
                        count(before, slot.type(), slot.installed().size().orElse(Length.ZERO), 1));
        plan.fromBox().forEach(lot -> count(before, lot.type(), lot.size(), lot.count()));
        plan.buy().forEach(lot -> count(before, lot.type(), lot.size(), lot.count()));
        Map<String, Integer> after = new TreeMap<>();
        plan.moves().forEach(move -> count(after, move.type(), move.findShim().orElse(Length.ZERO), 1));
        plan.toBox().forEach(lot -> count(after, lot.type(), lot.size(), lot.count()));
        assertThat(after).isEqualTo(before);
        Map<String, Integer> box = new HashMap<>();
        engine.box().lots().forEach(lot -> count(box, lot.type(), lot.size(), lot.count()));
        plan.fromBox()
                .forEach(lot -> assertThat(lot.count()).isLessThanOrEqualTo(box.get(key(lot.type(), lot.size()))));
    }

    private static void count(Map<String, Integer> counts, String type, Length size, int number) {
        counts.merge(key(type, size), number, Integer::sum);
    }

    private static String key(String type, Length size) {
        return type + "/" + size;
    }

    @Property(tries = 1000)
    void neverSwapsTypes(@ForAll("engines") Engine engine) {
        ShimPlan plan = ShimPlanner.withDefaults().plan(engine.slots(), engine.box());
        Map<String, String> typeOf = new HashMap<>();
        engine.slots().forEach(slot -> typeOf.put(slot.place(), slot.type()));
        for (Move move : plan.moves()) {
            if (move.source().origin() == Origin.VALVE) {
                assertThat(typeOf.get(move.source().toString())).isEqualTo(move.type());
            }
        }
    }

    /** Follows the steps as a mechanic would, with two shims in the hand at most. */
    @Property(tries = 1000)
    void stepsLeadToThePlan(@ForAll("engines") Engine engine) {
        ShimPlan plan = ShimPlanner.withDefaults().plan(engine.slots(), engine.box());
        Map<String, Length> inside = new HashMap<>();
        Map<String, String> camshaftOf = new HashMap<>();
        for (ShimSlot slot : engine.slots()) {
            slot.installed().size().ifPresent(size -> inside.put(slot.place(), size));
            camshaftOf.put(slot.place(), slot.camshaft());
        }
        List<Length> bench = new ArrayList<>();
        plan.fromBox().forEach(lot -> bench.addAll(Collections.nCopies(lot.count(), lot.size())));
        plan.buy().forEach(lot -> bench.addAll(Collections.nCopies(lot.count(), lot.size())));
        List<String> lifted = new ArrayList<>();
        for (Step step : plan.steps()) {
            switch (step.action()) {
                case FETCH, BUY -> assertThat(bench).contains(step.findShim().orElseThrow());
                case LIFT -> lifted.add(step.place());
                case TAKE_OUT -> {
                    reached(camshaftOf.get(step.place()), lifted);
                    assertThat(inside.remove(step.place())).isEqualTo(step.shim());
                    bench.add(step.findShim().orElseThrow());
                }
                case PUT_IN -> {
                    reached(camshaftOf.get(step.place()), lifted);
                    assertThat(bench.remove(step.findShim().orElseThrow())).isTrue();
                    assertThat(inside.put(step.place(), step.findShim().orElseThrow()))
                            .isNull();
                }
                case REFIT -> assertThat(lifted.remove(step.place())).isTrue();
                case RECHECK -> assertThat(lifted).isEmpty();
            }
        }
        assertThat(lifted).isEmpty();
        for (int i = 0; i < plan.moves().size(); i++) {
            assertThat(inside.get(engine.slots().get(i).place()))
                    .isEqualTo(plan.moves().get(i).shim());
        }
        List<Length> left = new ArrayList<>();
        plan.toBox().forEach(lot -> left.addAll(Collections.nCopies(lot.count(), lot.size())));
        assertThat(bench).containsExactlyInAnyOrderElementsOf(left);
    }

    private static void reached(String camshaft, List<String> lifted) {
        assertThat(camshaft.isEmpty() || lifted.contains(camshaft)).isTrue();
    }

    @Property(tries = 500)
    void orderOfTheBoxDoesNotMatter(@ForAll("engines") Engine engine, @ForAll Random random) {
        List<ShimBox.Lot> shuffled = new ArrayList<>(engine.box().lots());
        Collections.shuffle(shuffled, random);
        ShimPlan plan = ShimPlanner.withDefaults().plan(engine.slots(), engine.box());
        assertThat(ShimPlanner.withDefaults().plan(engine.slots(), new ShimBox(shuffled)))
                .isEqualTo(plan)
                .hasToString(plan.toString());
    }

    /** No reading that the bracket allows does better than what a finding promises at best, and one does as well. */
    @Property(tries = 150, shrinking = ShrinkingMode.OFF)
    void findingsPromiseWhatMeasuringCouldBring(@ForAll("engines") Engine engine) {
        ShimPlan plan = ShimPlanner.withDefaults().plan(engine.slots(), engine.box());
        Map<String, Totals> promised = new HashMap<>();
        plan.findings().forEach(f -> f.findAtBest().ifPresent(t -> promised.put(place(f), t)));
        Totals now = withoutDistance(plan.totals());
        promised.values().forEach(t -> assertThat(t).isLessThan(now));
        for (int i = 0; i < engine.slots().size(); i++) {
            ShimSlot slot = engine.slots().get(i);
            boolean undecided = Verdict.of(slot.bracket(), slot.clearance().check()) == Verdict.UNDECIDED;
            if (plan.moves().get(i).certain() && !undecided) {
                continue;
            }
            Totals atBest = now;
            // half hundredths and their neighbours: where anything can change when sizes and limits are whole
            // hundredths
            for (long nm = 0; nm <= 500_000; nm += 5_000) {
                for (long step = -1; step <= 1; step++) {
                    Length clearance = Length.ofNanometres(Math.max(0, nm + step));
                    if (slot.bracket().contains(clearance)) {
                        List<ShimSlot> known = new ArrayList<>(engine.slots());
                        known.set(i, slot.withBracket(LengthInterval.point(clearance)));
                        Totals then = withoutDistance(ShimPlanner.withDefaults()
                                .plan(known, engine.box())
                                .totals());
                        atBest = then.compareTo(atBest) < 0 ? then : atBest;
                    }
                }
            }
            boolean fine = slot.ratio().equals(Ratio.ONE);
            Totals promise = promised.getOrDefault(slot.place(), now);
            if (fine) {
                assertThat(promise).as("%s of %s", slot.place(), engine).isEqualTo(atBest);
            } else {
                assertThat(promise).as("%s of %s", slot.place(), engine).isLessThanOrEqualTo(atBest);
            }
        }
    }

    private static String place(ShimPlan.Finding finding) {
        return finding.gap().isEmpty() ? finding.valve().toString() : finding.valve() + " " + finding.gap();
    }

    private static Totals withoutDistance(Totals t) {
        return new Totals(t.notCertain(), t.camshaftsLifted(), t.shimsBought(), t.sizesChanged(), 0);
    }
}
