package dev.lash.adjust;

import dev.lash.adjust.ShimPlan.Move;
import dev.lash.adjust.ShimPlan.Origin;
import dev.lash.engine.ClearanceWindow;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.ToDoubleBiFunction;
import org.jspecify.annotations.Nullable;

/**
 * The rules and the objective of shim planning once more, in fractions of nanometres and by trying everything. Shares no code
 * with the planner.
 */
final class ShimExhaustion {
    private static final Ratio TWO = Ratio.of(2, 1);

    private final List<ShimSlot> slots;
    private final Ratio aim;
    private final @Nullable ToDoubleBiFunction<ShimSlot, LengthInterval> survival;
    private final List<List<Choice>> choices = new ArrayList<>();
    private final List<Boolean> counts = new ArrayList<>();
    private final Map<String, Integer> stock = new HashMap<>();
    private final List<Choice> picked = new ArrayList<>();
    private List<Comparable<?>> bestKey = List.of();
    private List<Choice> best = List.of();

    /** One shim in one slot. */
    record Choice(
            Origin origin,
            int place,
            String stockKey,
            @Nullable Length size,
            boolean certain,
            LengthInterval resulting,
            Ratio twiceOffAim,
            double score) {}

    ShimExhaustion(
            List<ShimSlot> slots,
            ShimBox box,
            Ratio aim,
            boolean swaps,
            @Nullable ToDoubleBiFunction<ShimSlot, LengthInterval> survival) {
        this.slots = slots;
        this.aim = aim;
        this.survival = survival;
        for (ShimBox.Lot lot : box.lots()) {
            stock.merge("box " + lot.type() + lot.size(), lot.count(), Integer::sum);
        }
        for (int i = 0; i < slots.size(); i++) {
            stock.put("slot " + i, 1);
        }
        for (int i = 0; i < slots.size(); i++) {
            choices.add(choices(i, box, swaps));
            counts.add(choices.get(i).size() > 1 && choices.get(i).stream().anyMatch(Choice::certain));
        }
    }

    private List<Choice> choices(int i, ShimBox box, boolean swaps) {
        ShimSlot slot = slots.get(i);
        List<Choice> found = new ArrayList<>();
        boolean within = Verdict.of(slot.bracket(), slot.clearance().check()) == Verdict.WITHIN;
        found.add(new Choice(
                Origin.STAYS,
                -1,
                "slot " + i,
                slot.installed().size().orElse(null),
                within,
                slot.bracket(),
                twiceOffAim(slot, slot.bracket()),
                score(slot, slot.bracket())));
        for (int k = 0; k < slots.size(); k++) {
            InstalledShim other = slots.get(k).installed();
            if (k != i
                    && swaps
                    && other.size().isPresent()
                    && slots.get(k).type().equals(slot.type())) {
                LengthInterval sizes = other.possibleSizes().orElseThrow();
                add(found, slot, Origin.VALVE, k, "slot " + k, other.size().get(), sizes);
            }
        }
        for (Length size : new TreeSet<>(box.sizes())) {
            String key = "box " + slot.type() + size;
            if (stock.getOrDefault(key, 0) > 0) {
                add(found, slot, Origin.BOX, 1000, key, size, LengthInterval.point(size));
            }
        }
        for (Length size : slot.sizes().sizes()) {
            add(found, slot, Origin.BUY, 2000, "", size, LengthInterval.point(size));
        }
        return found;
    }

    private void add(
            List<Choice> found,
            ShimSlot slot,
            Origin origin,
            int place,
            String key,
            Length size,
            LengthInterval sizes) {
        if (slot.installed().size().isEmpty() || slot.bracket().lower().isEmpty()) {
            return;
        }
        LengthInterval now = slot.bracket();
        LengthInterval old = slot.installed().possibleSizes().orElseThrow();
        Length low = end(
                        now.lower().orElseThrow(),
                        slot.ratio(),
                        old.lower().orElseThrow(),
                        sizes.upper().orElseThrow())
                .floorNanometres();
        ClearanceWindow window = slot.clearance().setTo();
        if (now.upper().isEmpty()) {
            boolean noLarger =
                    !sizes.lower().orElseThrow().isLessThan(old.upper().orElseThrow());
            if (noLarger && low.signum() > 0 && !below(low, now.lower().orElseThrow(), window)) {
                LengthInterval then = now.lowerIncluded() ? LengthInterval.atLeast(low) : LengthInterval.above(low);
                found.add(new Choice(origin, place, key, size, false, then, Ratio.ZERO, score(slot, then)));
            }
            return;
        }
        Length high = end(
                        now.upper().orElseThrow(),
                        slot.ratio(),
                        old.upper().orElseThrow(),
                        sizes.lower().orElseThrow())
                .ceilingNanometres();
        LengthInterval then = LengthInterval.of(low, now.lowerIncluded(), high, now.upperIncluded());
        boolean certain = !low.isLessThan(window.lower()) && !high.isMoreThan(window.upper());
        boolean noWorse = low.signum() > 0
                && !below(low, now.lower().orElseThrow(), window)
                && !high.isMoreThan(Length.max(now.upper().orElseThrow(), window.upper()));
        if (certain || noWorse) {
            found.add(new Choice(origin, place, key, size, certain, then, twiceOffAim(slot, then), score(slot, then)));
        }
    }

    private static boolean below(Length low, Length before, ClearanceWindow window) {
        return low.isLessThan(before) && low.isLessThan(window.lower());
    }

    private static Ratio end(Length clearance, Ratio ratio, Length old, Length fitted) {
        return Ratio.nanometresOf(clearance)
                .plus(ratio.times(Ratio.nanometresOf(old).minus(Ratio.nanometresOf(fitted))));
    }

    private Ratio twiceOffAim(ShimSlot slot, LengthInterval clearances) {
        if (!clearances.isBounded()) {
            return Ratio.ZERO;
        }
        ClearanceWindow window = slot.clearance().setTo();
        Ratio target = Ratio.nanometresOf(window.lower())
                .times(TWO)
                .plus(Ratio.nanometresOf(window.width())
                        .times(slot.findAim().orElse(aim))
                        .times(TWO));
        // to the nearest half nanometre, of two the lower
        BigDecimal down = target.floor(0);
        BigDecimal up = target.ceiling(0);
        Ratio twiceAim =
                target.minus(Ratio.of(down)).compareTo(Ratio.of(up).minus(target)) <= 0 ? Ratio.of(down) : Ratio.of(up);
        Ratio sum = Ratio.nanometresOf(clearances.lower().orElseThrow())
                .plus(Ratio.nanometresOf(clearances.upper().orElseThrow()));
        Ratio off = sum.minus(twiceAim);
        return off.signum() < 0 ? Ratio.ZERO.minus(off) : off;
    }

    private double score(ShimSlot slot, LengthInterval clearances) {
        return survival == null ? Double.POSITIVE_INFINITY : survival.applyAsDouble(slot, clearances);
    }

    /** How many choices there are to try at most. */
    double size() {
        return choices.stream().mapToDouble(List::size).reduce(1, (a, b) -> a * b);
    }

    /** The best choice for each slot. */
    List<Choice> search() {
        bestKey = List.of();
        picked.clear();
        search(0, 0);
        return best;
    }

    private void search(int i, int uncertain) {
        if (!bestKey.isEmpty() && uncertain > (Integer) bestKey.get(0)) {
            return;
        }
        if (i == slots.size()) {
            List<Comparable<?>> key = key(picked);
            if (bestKey.isEmpty() || compare(key, bestKey) < 0) {
                bestKey = key;
                best = List.copyOf(picked);
            }
            return;
        }
        for (Choice choice : choices.get(i)) {
            int left = choice.stockKey.isEmpty() ? 1 : stock.get(choice.stockKey);
            if (left > 0) {
                stock.computeIfPresent(choice.stockKey, (k, n) -> n - 1);
                picked.add(choice);
                search(i + 1, uncertain + (choice.certain ? 0 : 1));
                picked.remove(picked.size() - 1);
                stock.computeIfPresent(choice.stockKey, (k, n) -> n + 1);
            }
        }
    }

    /** The ranks of a plan, ties included, smaller is better. */
    List<Comparable<?>> key(List<Choice> plan) {
        int uncertain = 0;
        int buys = 0;
        int changes = 0;
        int moved = 0;
        double smallest = Double.POSITIVE_INFINITY;
        Ratio off = Ratio.ZERO;
        Set<String> lifted = new TreeSet<>();
        List<Comparable<?>> ties = new ArrayList<>();
        for (int i = 0; i < plan.size(); i++) {
            Choice choice = plan.get(i);
            ShimSlot slot = slots.get(i);
            uncertain += choice.certain ? 0 : 1;
            buys += choice.origin == Origin.BUY ? 1 : 0;
            changes += Objects.equals(choice.size, slot.installed().size().orElse(null)) ? 0 : 1;
            if (choice.origin != Origin.STAYS) {
                moved++;
                if (!slot.camshaft().isEmpty()) {
                    lifted.add(slot.camshaft());
                }
            }
            if (counts.get(i)) {
                smallest = Math.min(smallest, choice.score);
            }
            off = off.plus(choice.twiceOffAim);
            ties.add(choice.size == null ? 0 : choice.size.nanometres());
            ties.add(choice.place);
        }
        List<Comparable<?>> key =
                new ArrayList<>(List.of(uncertain, lifted.size(), buys, changes, -smallest, off, moved));
        key.addAll(ties);
        return key;
    }

    @SuppressWarnings("unchecked")
    private static int compare(List<Comparable<?>> a, List<Comparable<?>> b) {
        for (int i = 0; i < a.size(); i++) {
            int order = ((Comparable<Object>) a.get(i)).compareTo(b.get(i));
            if (order != 0) {
                return order;
            }
        }
        return 0;
    }

    /** The planner's moves as choices; fails when one is not among what is allowed. */
    List<Choice> read(ShimPlan plan) {
        List<Choice> read = new ArrayList<>();
        for (int i = 0; i < slots.size(); i++) {
            Move move = plan.moves().get(i);
            read.add(choices.get(i).stream()
                    .filter(c -> c.origin == move.source().origin()
                            && Objects.equals(c.size, move.shim())
                            && (c.origin != Origin.VALVE || isSlot(c.place, move)))
                    .findFirst()
                    .orElseThrow(() -> new AssertionError(move + " is not allowed")));
        }
        return read;
    }

    private boolean isSlot(int place, Move move) {
        return slots.get(place).valve().equals(move.source().valve())
                && slots.get(place).gap().equals(move.source().gap());
    }
}
