package dev.lash.adjust;

import dev.lash.adjust.ShimPlan.Action;
import dev.lash.adjust.ShimPlan.Move;
import dev.lash.adjust.ShimPlan.Step;
import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The work of a plan, one thing after the other: have the shims ready, lift the camshafts, change the shims, put the camshafts
 * back, measure.
 *
 * <p>A shim goes straight from slot to slot, so that at most two are in the hand: a chain begins with the slot whose shim is left
 * over and ends with a shim from the box or a new one; a ring begins with taking one shim out and ends with putting that one in.
 */
final class ShimSteps {
    private static final String BOX = "box";

    private final List<ShimSlot> slots;
    private final int[] chosen;
    private final int[] goesTo;
    private final List<Move> moves;
    private final LengthUnit unit;
    private final List<Step> steps = new ArrayList<>();

    ShimSteps(
            List<ShimSlot> slots,
            int[] chosen,
            int[] goesTo,
            List<Move> moves,
            List<String> camshafts,
            List<ShimBox.Lot> fromBox,
            List<ShimBox.Lot> buy,
            LengthUnit unit) {
        this.slots = slots;
        this.chosen = chosen;
        this.goesTo = goesTo;
        this.moves = moves;
        this.unit = unit;
        for (ShimBox.Lot lot : buy) {
            add(Action.BUY, BOX, lot.size(), "buy " + text(lot));
        }
        for (ShimBox.Lot lot : fromBox) {
            add(Action.FETCH, BOX, lot.size(), "take from the box: " + text(lot));
        }
        for (String camshaft : camshafts) {
            add(Action.LIFT, camshaft, null, "lift the camshaft: " + camshaft);
        }
        changeShims();
        for (String camshaft : camshafts) {
            add(
                    Action.REFIT,
                    camshaft,
                    null,
                    "put the camshaft back by the service manual, with its timing, cap order and torque: " + camshaft);
        }
        List<String> changed = new ArrayList<>();
        for (int i = 0; i < chosen.length; i++) {
            if (chosen[i] != i) {
                changed.add(slots.get(i).place());
            }
        }
        if (!changed.isEmpty()) {
            add(
                    Action.RECHECK,
                    "",
                    null,
                    "turn the engine over twice by hand, then measure again: " + String.join(", ", changed));
        }
    }

    List<Step> list() {
        return steps;
    }

    private void add(Action action, String place, @Nullable Length shim, String text) {
        steps.add(new Step(action, place, shim, text));
    }

    private void changeShims() {
        boolean[] done = new boolean[chosen.length];
        for (int i = 0; i < chosen.length; i++) {
            if (chosen[i] != i && goesTo[i] < 0) {
                chain(i, done);
            }
        }
        for (int i = 0; i < chosen.length; i++) {
            if (chosen[i] != i && !done[i]) {
                chain(i, done);
            }
        }
    }

    /** Changes the shims of a chain, which begins with the slot whose shim is left over, or of a ring, which begins anywhere. */
    private void chain(int first, boolean[] done) {
        done[first] = true;
        takeOut(first, goesTo[first] < 0 ? "for the box" : "keep it for " + place(goesTo[first]), done);
        int slot = first;
        while (mustBeTakenOut(chosen[slot], done)) {
            int next = chosen[slot];
            done[next] = true;
            takeOut(next, "for " + place(slot), done);
            putIn(slot);
            slot = next;
        }
        putIn(slot);
    }

    private boolean mustBeTakenOut(int supply, boolean[] done) {
        return supply < chosen.length && !done[supply];
    }

    private void takeOut(int slot, String whereTo, boolean[] done) {
        // a bucket or follower without its shim would be hit by the cam (common practice)
        String caution = slots.get(slot).camshaft().isEmpty() && mustBeTakenOut(chosen[slot], done)
                ? "; put another in meanwhile before the engine is turned"
                : "";
        Length size = slots.get(slot).installed().size().orElseThrow();
        add(
                Action.TAKE_OUT,
                place(slot),
                size,
                "take out of " + place(slot) + ": " + text(size, slots.get(slot).type()) + ", " + whereTo + caution);
    }

    private void putIn(int slot) {
        Move move = moves.get(slot);
        Length size = move.findShim().orElseThrow();
        String from = switch (move.source().origin()) {
            case STAYS, VALVE -> "from " + move.source();
            case BOX -> "from the box";
            case BUY -> "new";
        };
        add(Action.PUT_IN, place(slot), size, "put into " + place(slot) + ": " + text(size, move.type()) + ", " + from);
    }

    private String place(int slot) {
        return slots.get(slot).place();
    }

    private String text(ShimBox.Lot lot) {
        return lot.count() + " x " + text(lot.size(), lot.type());
    }

    private String text(Length size, String type) {
        return size.toString(unit) + (type.isEmpty() ? "" : " (" + type + ")");
    }
}
