package dev.lash.adjust;

import static dev.lash.adjust.ShimEffect.CERTAIN;
import static dev.lash.adjust.ShimEffect.NONE;

import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What may go into one slot: for each supply whether it may, and twice how far off the aim the clearance is then; and the sizes
 * that may be bought, thinnest first.
 */
final class ShimOptions {
    final int[] status;
    final long[] twiceOffAim;
    final List<Purchase> purchases;
    /** Nothing but the installed shim may be fitted. */
    final boolean stuck;
    /** Some shim is certain, the installed one included. */
    final boolean canBeCertain;

    /**
     * Like shims that can be had: supply i is the shim that is installed in slot i, those after are the box's.
     *
     * @param type diameter or pattern
     * @param size the size to reckon with; {@code null} when it is not known
     * @param thinnest the least that it may be, in nanometres
     * @param thickest the most that it may be, in nanometres
     * @param count how many
     */
    record Supply(String type, @Nullable Length size, long thinnest, long thickest, int count) {
        private static Supply installed(InstalledShim shim) {
            Optional<LengthInterval> sizes = shim.possibleSizes();
            return new Supply(
                    shim.type(),
                    shim.size().orElse(null),
                    sizes.flatMap(LengthInterval::lower).map(Length::nanometres).orElse(0L),
                    sizes.flatMap(LengthInterval::upper).map(Length::nanometres).orElse(0L),
                    1);
        }

        private static Supply spare(Kind kind, int count) {
            long exact = kind.size.nanometres();
            return new Supply(kind.type, kind.size, exact, exact, count);
        }
    }

    private record Kind(String type, Length size) {}

    /**
     * A size that may be bought for a slot.
     *
     * @param size the size
     * @param status whether it may be fitted, or is certain
     * @param twiceOffAim twice how far off the aim the clearance is then
     */
    record Purchase(Length size, int status, long twiceOffAim) {}

    /** The shims of the slots, in their order, then those of the box, each type and size once. */
    static List<Supply> supplies(List<ShimSlot> slots, ShimBox box) {
        List<Supply> supplies = new ArrayList<>();
        slots.forEach(slot -> supplies.add(Supply.installed(slot.installed())));
        Map<Kind, Integer> spares = new LinkedHashMap<>();
        box.lots().stream()
                .filter(lot -> lot.count() > 0)
                .forEach(lot -> spares.merge(new Kind(lot.type(), lot.size()), lot.count(), (a, b) ->
                        (int) Math.min((long) a + b, Integer.MAX_VALUE)));
        spares.forEach((kind, count) -> supplies.add(Supply.spare(kind, count)));
        return supplies;
    }

    /**
     * Works out what may go into a slot.
     *
     * @param index the number of the slot
     * @param slot the slot
     * @param effect what shims do there
     * @param supplies the shims that can be had
     * @param slots how many slots there are
     * @param swaps whether shims may go from slot to slot
     */
    ShimOptions(int index, ShimSlot slot, Effects effect, List<Supply> supplies, int slots, boolean swaps) {
        this.status = new int[supplies.size()];
        this.twiceOffAim = new long[supplies.size()];
        boolean mayChange = false;
        boolean certain = false;
        for (int s = 0; s < status.length; s++) {
            Supply supply = supplies.get(s);
            if (s == index) {
                status[s] = effect.statusOfStaying();
                twiceOffAim[s] = effect.twiceOffAimOfStaying();
            } else if (supply.size != null && supply.type.equals(slot.type()) && (swaps || s >= slots)) {
                status[s] = effect.status(supply.thinnest, supply.thickest);
                twiceOffAim[s] = status[s] == NONE ? 0 : effect.twiceOffAim(supply.thinnest, supply.thickest);
                mayChange |= status[s] != NONE;
            }
            certain |= status[s] == CERTAIN;
        }
        List<Purchase> purchases = new ArrayList<>();
        for (Length size : slot.sizes().sizes()) {
            long exact = size.nanometres();
            int there = effect.status(exact, exact);
            if (there != NONE) {
                purchases.add(new Purchase(size, there, effect.twiceOffAim(exact, exact)));
                certain |= there == CERTAIN;
            }
        }
        this.purchases = List.copyOf(purchases);
        this.stuck = !mayChange && purchases.isEmpty();
        this.canBeCertain = certain;
    }

    /** What shims do to the clearance of a slot. */
    interface Effects {
        /** Whether a shim of any size from thinnest to thickest may be fitted. */
        int status(long thinnest, long thickest);

        /** Whether the clearance is certain when the installed shim stays. */
        int statusOfStaying();

        /** Twice how far off the aim the clearance is with a shim of any size from thinnest to thickest. */
        long twiceOffAim(long thinnest, long thickest);

        /** The same when the installed shim stays. */
        long twiceOffAimOfStaying();
    }

    /** The largest of the distances. */
    long mostTwiceOffAim() {
        long most = 0;
        for (long distance : twiceOffAim) {
            most = Math.max(most, distance);
        }
        for (Purchase purchase : purchases) {
            most = Math.max(most, purchase.twiceOffAim);
        }
        return most;
    }
}
