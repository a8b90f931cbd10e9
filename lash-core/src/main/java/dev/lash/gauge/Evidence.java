package dev.lash.gauge;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.LengthInterval;
import java.io.Serializable;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/**
 * What the trials of one gap say together: a {@link Bracket}, or a {@link Contradiction}.
 *
 * <p>The bracket is the intersection of the intervals that the trials claim, starting from no ends at all. Two leaves that
 * both drag are everyday work, not a contradiction: the drags count together as the hull of their intervals, and {@link
 * Bracket#severalDrags()} says so.
 */
public sealed interface Evidence extends Serializable permits Bracket, Contradiction {
    /**
     * Reads trials by a rule. The order of the trials does not change the outcome's interval.
     *
     * @param trials the trials of one gap, in the order they were made; may be empty
     * @param rule how each is read
     * @return the bracket, or the contradiction when no clearance agrees with them all
     */
    static Evidence of(List<Trial> trials, ReadingRule rule) {
        requireNonNull(rule, "rule");
        List<Trial> kept = List.copyOf(trials);
        return Bracket.allowedBy(kept, rule)
                .<Evidence>map(interval -> new Bracket(interval, kept, rule, List.of()))
                .orElseGet(() -> Contradiction.find(kept, rule).orElseThrow());
    }

    /**
     * Reads the closer gap of a desmodromic valve: the opener reading with the valve loaded against the closer, minus the opener
     * reading without load. Before the closer is known to turn free by hand, its gap may also be below 0: it then holds the valve
     * with force.
     *
     * @param loaded the trials with the valve loaded, in the order they were made
     * @param unloaded the trials without load, in the order they were made
     * @param rule how each is read
     * @param turnsFree whether the closer turns free by hand, which is evidence that the gap is not below 0
     * @return the bracket of the closer gap, or the contradiction when no gap agrees with them all
     */
    static Evidence closer(List<Trial> loaded, List<Trial> unloaded, ReadingRule rule, boolean turnsFree) {
        Evidence with = of(loaded, rule);
        Evidence without = of(unloaded, rule);
        if (with instanceof Contradiction) {
            return with;
        }
        if (without instanceof Contradiction) {
            return without;
        }
        if (loaded.isEmpty() || unloaded.isEmpty()) {
            return of(List.of(), rule);
        }
        LengthInterval difference = Bracket.difference(loaded, unloaded, rule).orElseThrow();
        Optional<LengthInterval> gap = turnsFree ? Bracket.turnsFree(difference) : Optional.of(difference);
        return gap.<Evidence>map(g -> new Bracket(g, List.copyOf(loaded), rule, List.copyOf(unloaded)))
                .orElseGet(() -> Contradiction.between(loaded, unloaded, rule));
    }

    /** {@return the trials, in the order they were made} */
    List<Trial> trials();

    /** {@return the rule by which they were read} */
    ReadingRule rule();

    /**
     * One function per outcome.
     *
     * @param onBracket for a bracket
     * @param onContradiction for a contradiction
     * @param <R> what the functions return
     * @return what the function of this outcome returned
     */
    <R> R match(Function<Bracket, R> onBracket, Function<Contradiction, R> onContradiction);

    /** {@return the bracket, or empty when the trials contradict each other} */
    default Optional<Bracket> bracket() {
        return match(Optional::of, contradiction -> Optional.empty());
    }
}
