package dev.lash.adjust;

import static dev.lash.adjust.ShimEffect.CERTAIN;
import static dev.lash.adjust.ShimEffect.NONE;

import dev.lash.adjust.ShimOptions.Purchase;
import dev.lash.adjust.ShimOptions.Supply;
import dev.lash.adjust.ShimPlan.Finding;
import dev.lash.adjust.ShimPlan.FindingKind;
import dev.lash.adjust.ShimPlan.Move;
import dev.lash.adjust.ShimPlan.Origin;
import dev.lash.adjust.ShimPlan.Source;
import dev.lash.adjust.ShimPlan.Totals;
import dev.lash.adjust.ShimProblem.Digits;
import dev.lash.adjust.ShimProblem.Scores;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.ToDoubleBiFunction;
import org.jspecify.annotations.Nullable;

/** The planning of one engine: from slots to a problem in numbers, and from its solution to a plan for a person. */
final class ShimPlanning {
    private static final int BOUGHT = ShimMatching.BOUGHT;

    private final List<ShimSlot> slots;
    private final LengthUnit unit;
    private final boolean swaps;
    private final List<String> camshafts;
    private final List<ShimEffect> effects;
    private final List<Supply> supplies;
    private final ShimOptions[] options;
    private final @Nullable Scores scores;
    private final ShimProblem problem;

    ShimPlanning(
            List<ShimSlot> slots,
            ShimBox box,
            Ratio aim,
            boolean swaps,
            @Nullable ToDoubleBiFunction<ShimSlot, LengthInterval> survival,
            LengthUnit unit) {
        this.slots = slots;
        this.unit = unit;
        this.swaps = swaps;
        this.camshafts = slots.stream()
                .map(ShimSlot::camshaft)
                .filter(name -> !name.isEmpty())
                .distinct()
                .toList();
        check();
        this.effects = slots.stream().map(slot -> new ShimEffect(slot, aim)).toList();
        this.supplies = ShimOptions.supplies(slots, box);
        this.options = new ShimOptions[slots.size()];
        for (int i = 0; i < options.length; i++) {
            options[i] = options(i, effects.get(i));
        }
        this.scores = survival == null ? null : scores(survival);
        int[] camshaftOf = slots.stream()
                .mapToInt(slot -> camshafts.indexOf(slot.camshaft()))
                .toArray();
        this.problem = new ShimProblem(supplies, options, camshaftOf, camshafts.size(), scores);
    }

    private void check() {
        if (slots.size() > ShimPlanner.MOST_SLOTS) {
            throw tooMany("shim slots", slots.size(), ShimPlanner.MOST_SLOTS);
        }
        if (camshafts.size() > ShimPlanner.MOST_CAMSHAFTS) {
            throw tooMany("camshafts", camshafts.size(), ShimPlanner.MOST_CAMSHAFTS);
        }
        Set<Source> places = new HashSet<>();
        for (ShimSlot slot : slots) {
            if (!places.add(Source.of(slot))) {
                throw new RejectedValueException(
                        "shim slot",
                        slot.place(),
                        "is given twice",
                        "each gap of each valve once",
                        "leave one out, or name the gaps of the valve apart");
            }
        }
    }

    private static RejectedValueException tooMany(String what, int number, int most) {
        return new RejectedValueException(
                what,
                String.valueOf(number),
                "are too many for one plan",
                "at most " + most,
                "plan the cylinder banks, or shims of different types, one by one");
    }

    private ShimOptions options(int slot, ShimOptions.Effects effect) {
        return new ShimOptions(slot, slots.get(slot), effect, supplies, slots.size(), swaps);
    }

    // ---- scores -----------------------------------------------------------------------------------------------------

    private Scores scores(ToDoubleBiFunction<ShimSlot, LengthInterval> survival) {
        double[][] supply = new double[options.length][supplies.size()];
        double[][] purchase = new double[options.length][];
        for (int i = 0; i < options.length; i++) {
            ShimOptions o = options[i];
            purchase[i] = new double[o.purchases.size()];
            Arrays.fill(supply[i], Double.POSITIVE_INFINITY);
            Arrays.fill(purchase[i], Double.POSITIVE_INFINITY);
            if (!counts(i)) {
                continue;
            }
            int slot = i;
            Map<LengthInterval, Double> known = new HashMap<>();
            for (int s = 0; s < supply[i].length; s++) {
                if (o.status[s] != NONE) {
                    supply[i][s] = known.computeIfAbsent(after(i, s, -1), c -> score(survival, slot, c));
                }
            }
            for (int p = 0; p < purchase[i].length; p++) {
                purchase[i][p] = known.computeIfAbsent(after(i, BOUGHT, p), c -> score(survival, slot, c));
            }
        }
        return new Scores(supply, purchase);
    }

    /** Whether a slot has a choice, a certain shim among it. */
    private boolean counts(int slot) {
        return !options[slot].stuck && options[slot].canBeCertain;
    }

    private double score(ToDoubleBiFunction<ShimSlot, LengthInterval> survival, int slot, LengthInterval clearances) {
        double score = survival.applyAsDouble(slots.get(slot), clearances);
        if (Double.isNaN(score)) {
            throw new RejectedValueException(
                    "survival of " + slots.get(slot).place() + " at " + clearances,
                    "NaN",
                    "is not a number",
                    "a number, the more the better, or infinity for never",
                    "mend the function that was given to withSurvival");
        }
        // one zero only
        return score + 0.0;
    }

    private @Nullable Double smallestScore(int[] chosen, int[] purchases) {
        Double smallest = null;
        for (int i = 0; scores != null && i < chosen.length; i++) {
            if (counts(i)) {
                double score = chosen[i] == BOUGHT ? scores.purchase[i][purchases[i]] : scores.supply[i][chosen[i]];
                smallest = smallest == null ? score : Math.min(smallest, score);
            }
        }
        return smallest;
    }

    private LengthInterval after(int slot, int supply, int purchase) {
        if (supply == slot) {
            return slots.get(slot).bracket();
        }
        if (supply == BOUGHT) {
            long exact = options[slot].purchases.get(purchase).size().nanometres();
            return effects.get(slot).after(exact, exact);
        }
        Supply from = supplies.get(supply);
        return effects.get(slot).after(from.thinnest(), from.thickest());
    }

    // ---- the plan ---------------------------------------------------------------------------------------------------

    ShimPlan plan() {
        ShimMatching best = problem.best();
        int[] chosen = best.supplies();
        int[] purchases = best.purchases();
        int[] goesTo = goesTo(chosen);
        List<Move> moves = new ArrayList<>();
        Lots bought = new Lots();
        Lots fromBox = new Lots();
        Lots toBox = new Lots();
        List<String> lifted = new ArrayList<>();
        for (int i = 0; i < chosen.length; i++) {
            Move move = move(i, chosen[i], purchases[i], goesTo);
            moves.add(move);
            if (move.stays()) {
                continue;
            }
            String camshaft = slots.get(i).camshaft();
            if (!camshaft.isEmpty() && !lifted.contains(camshaft)) {
                lifted.add(camshaft);
            }
            Length size = move.findShim().orElseThrow();
            if (move.source().origin() == Origin.BUY) {
                bought.add(move.type(), size);
            } else if (move.source().origin() == Origin.BOX) {
                fromBox.add(move.type(), size);
            }
            if (goesTo[i] < 0) {
                toBox.add(move.type(), installedSize(i));
            }
        }
        Digits digits = problem.digits(best.total());
        Totals totals =
                new Totals(digits.uncertain(), lifted.size(), digits.bought(), digits.changed(), digits.twiceOffAim());
        return new ShimPlan(
                moves,
                lifted,
                fromBox.list(),
                bought.list(),
                toBox.list(),
                totals,
                findings(moves, totals),
                new ShimSteps(slots, chosen, goesTo, moves, lifted, fromBox.list(), bought.list(), unit).list(),
                smallestScore(chosen, purchases));
    }

    private Length installedSize(int slot) {
        return slots.get(slot).installed().size().orElseThrow();
    }

    /** By slot: the slot that its shim goes to, -1 when it goes to none. */
    private static int[] goesTo(int[] chosen) {
        int[] goesTo = new int[chosen.length];
        Arrays.fill(goesTo, -1);
        for (int i = 0; i < chosen.length; i++) {
            if (chosen[i] < chosen.length) {
                goesTo[chosen[i]] = i;
            }
        }
        return goesTo;
    }

    private Move move(int i, int supply, int purchase, int[] goesTo) {
        ShimSlot slot = slots.get(i);
        Purchase buy = supply == BOUGHT ? options[i].purchases.get(purchase) : null;
        Length size = buy != null ? buy.size() : supplies.get(supply).size();
        boolean certain = (buy != null ? buy.status() : options[i].status[supply]) == CERTAIN;
        Source source = buy != null
                ? Source.of(Origin.BUY)
                : supply == i
                        ? Source.of(Origin.STAYS)
                        : supply < slots.size() ? Source.of(slots.get(supply)) : Source.of(Origin.BOX);
        LengthInterval resulting = after(i, supply, purchase);
        return new Move(
                slot.valve(),
                slot.gap(),
                size,
                slot.type(),
                source,
                resulting,
                Verdict.of(resulting, slot.clearance().check()),
                certain,
                supply == i ? whyStays(i, certain) : whyFitted(i, resulting, certain, goesTo[i]));
    }

    private String whyStays(int i, boolean certain) {
        ShimSlot slot = slots.get(i);
        if (certain) {
            return "in its window of " + slot.clearance().check().toString(unit) + ": the shim stays";
        }
        if (slot.installed().size().isEmpty()) {
            return "the size of its shim is not known, so the shim stays: read or measure it";
        }
        if (slot.bracket().lower().isEmpty()) {
            return slot.bracket().upper().isEmpty()
                    ? (slot.unread().isEmpty() ? "not measured, so" : slot.unread() + ";") + " the shim stays"
                    : "the reading has no lower end, so no shim is safe to fit: the shim stays";
        }
        if (slot.bracket().upper().isEmpty()) {
            return "the reading has no upper end, so no shim is certain: the shim stays";
        }
        return options[i].canBeCertain
                ? "the shims that would be certain here are needed elsewhere: the shim stays"
                : "no shim at hand or made is certain for a reading of "
                        + slot.bracket().toString(unit) + ": the shim stays";
    }

    private String whyFitted(int i, LengthInterval resulting, boolean certain, int neededAt) {
        ShimSlot slot = slots.get(i);
        String needed = neededAt >= 0 && (!certain || options[i].status[i] == CERTAIN)
                ? "; its own is needed at " + slots.get(neededAt).place()
                : "";
        String window = slot.clearance().setTo().toString(unit);
        return "brings " + slot.bracket().toString(unit) + " to " + resulting.toString(unit)
                + (certain
                        ? ", in the window of " + window
                        : ", not certain, but with no end further outside the window of " + window)
                + needed;
    }

    /** Shims counted by type and size. */
    private static final class Lots {
        private final Map<String, Map<Length, Integer>> counts = new TreeMap<>();

        void add(String type, Length size) {
            counts.computeIfAbsent(type, t -> new TreeMap<>()).merge(size, 1, Integer::sum);
        }

        List<ShimBox.Lot> list() {
            List<ShimBox.Lot> lots = new ArrayList<>();
            counts.forEach(
                    (type, sizes) -> sizes.forEach((size, count) -> lots.add(new ShimBox.Lot(size, count, type))));
            return lots;
        }
    }

    // ---- what to look at before the work ----------------------------------------------------------------------------

    private List<Finding> findings(List<Move> moves, Totals totals) {
        List<Finding> findings = new ArrayList<>();
        for (int i = 0; i < moves.size(); i++) {
            Move move = moves.get(i);
            ShimSlot slot = slots.get(i);
            if (!move.certain() && slot.installed().size().isEmpty()) {
                findings.add(finding(
                        FindingKind.READ_SHIM,
                        slot,
                        slot.place()
                                + ": read the mark of its shim, or measure it, before the work: without its size no shim "
                                + "can be chosen",
                        null));
            }
            if (!slot.bracket().isPoint()
                    && (!move.certain()
                            || Verdict.of(slot.bracket(), slot.clearance().check()) == Verdict.UNDECIDED)) {
                Totals atBest = atBest(i);
                if (atBest.compareTo(withoutDistance(totals)) < 0) {
                    findings.add(finding(
                            FindingKind.MEASURE_FURTHER,
                            slot,
                            slot.place() + ": " + toMeasure(slot) + ", at best " + gain(totals, atBest),
                            atBest));
                    continue;
                }
            }
            if (!move.certain() && slot.installed().size().isPresent()) {
                findings.add(finding(FindingKind.NO_SHIM_FITS, slot, slot.place() + ": " + whyNone(i), null));
            }
        }
        return findings;
    }

    private String toMeasure(ShimSlot slot) {
        if (!slot.bracket().equals(LengthInterval.any())) {
            return "measure further before the work; with the clearance known better than "
                    + slot.bracket().toString(unit);
        }
        return (slot.unread().isEmpty() ? "measure before the work" : slot.unread() + ", before the work")
                + "; with the clearance known";
    }

    private static Finding finding(FindingKind kind, ShimSlot slot, String text, @Nullable Totals atBest) {
        return new Finding(kind, slot.valve(), slot.gap(), text, atBest);
    }

    private Totals atBest(int slot) {
        ShimMatching best = problem.with(slot, options(slot, effects.get(slot).atBest())).withFewestLifted().stream()
                .min(Comparator.comparingLong(ShimMatching::total))
                .orElseThrow();
        Digits digits = problem.digits(best.total());
        return new Totals(digits.uncertain(), Integer.bitCount(best.lifted()), digits.bought(), digits.changed(), 0);
    }

    private static Totals withoutDistance(Totals totals) {
        return new Totals(
                totals.notCertain(), totals.camshaftsLifted(), totals.shimsBought(), totals.sizesChanged(), 0);
    }

    private static String gain(Totals now, Totals then) {
        List<String> parts = new ArrayList<>();
        addGain(parts, "valves not certain", now.notCertain(), then.notCertain());
        addGain(parts, "camshafts lifted", now.camshaftsLifted(), then.camshaftsLifted());
        addGain(parts, "shims bought", now.shimsBought(), then.shimsBought());
        addGain(parts, "sizes changed", now.sizesChanged(), then.sizesChanged());
        return String.join(", ", parts);
    }

    private static void addGain(List<String> parts, String what, int now, int then) {
        if (now != then) {
            parts.add(what + " " + then + " in place of " + now);
        }
    }

    private String whyNone(int i) {
        ShimSlot slot = slots.get(i);
        String window = slot.clearance().setTo().toString(unit);
        if (options[i].canBeCertain) {
            return "the shims that would be certain here are needed elsewhere, and none can be bought";
        }
        if (slot.bracket().isBounded()) {
            long thinnest = slot.sizes().thinnest().nanometres();
            long thickest = slot.sizes().thickest().nanometres();
            if (effects.get(i)
                    .after(thinnest, thinnest)
                    .liesBelow(slot.clearance().setTo().interval())) {
                return "even the thinnest shim that is made, "
                        + slot.sizes().thinnest().toString(unit) + ", leaves less than the window of " + window
                        + ": valve or seat may be finished; have them looked at before a thinner shim is sought";
            }
            if (effects.get(i)
                    .after(thickest, thickest)
                    .liesAbove(slot.clearance().setTo().interval())) {
                return "even the thickest shim that is made, "
                        + slot.sizes().thickest().toString(unit) + ", leaves more than the window of " + window
                        + ": cam, bucket or shim seat may be worn; have them looked at before a thicker shim is sought";
            }
        }
        return "no size is certain, however well the clearance were known: sizes that step by "
                + slot.sizes().step().toString(unit) + " are coarse for a window of " + window
                + "; look for sizes in between";
    }
}
