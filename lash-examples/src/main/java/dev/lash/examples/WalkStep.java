package dev.lash.examples;

import dev.lash.adjust.Adjustment;
import dev.lash.gauge.Contradiction;
import dev.lash.gauge.LeafStack;

/** What is asked next at a valve. A closed choice. */
sealed interface WalkStep {
    /**
     * A leaf is offered.
     *
     * @param leaf the leaf or stack
     * @param owned whether it is in the set; if not, it is what to borrow
     */
    record Offer(LeafStack leaf, boolean owned) implements WalkStep {}

    /**
     * A leaf is offered again, since its trial and another cannot both be true.
     *
     * @param leaf the leaf or stack
     * @param pair the two trials
     */
    record Repeat(LeafStack leaf, Contradiction pair) implements WalkStep {}

    /**
     * The verdict is open, and no leaf would settle it.
     *
     * @param why why not
     */
    record Stuck(String why) implements WalkStep {}

    /** The size of the installed shim is asked. */
    record AskShim() implements WalkStep {}

    /**
     * It is asked whether the valve was adjusted.
     *
     * @param advice what to do
     */
    record AskDone(Adjustment advice) implements WalkStep {}

    /** The clearance is within its window, as found or after the adjustment. */
    record Finished() implements WalkStep {}
}
