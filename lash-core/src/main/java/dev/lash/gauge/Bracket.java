package dev.lash.gauge;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;

/**
 * The interval in which a clearance lies, with the trials and the rule behind it, so that every later figure can be traced
 * to the trials. Made by {@link Evidence#of} and {@link Evidence#closer}.
 *
 * @param interval where the clearance lies
 * @param trials the trials, in the order they were made
 * @param rule how they were read
 * @param unloaded for the closer of a desmodromic valve the trials with the valve not loaded, which are taken off; else empty
 */
public record Bracket(LengthInterval interval, List<Trial> trials, ReadingRule rule, List<Trial> unloaded)
        implements Evidence {
    /**
     * Creates a bracket.
     *
     * @param interval where the clearance lies
     * @param trials the trials, in the order they were made
     * @param rule how they were read
     * @param unloaded for the closer of a desmodromic valve the trials with the valve not loaded, which are taken off; else empty
     * @throws RejectedValueException if the interval is not what the trials give by the rule
     */
    public Bracket {
        requireNonNull(interval, "interval");
        requireNonNull(rule, "rule");
        trials = List.copyOf(trials);
        unloaded = List.copyOf(unloaded);
        Optional<LengthInterval> allowed =
                unloaded.isEmpty() ? allowedBy(trials, rule) : difference(trials, unloaded, rule);
        Optional<LengthInterval> free = unloaded.isEmpty() ? Optional.empty() : allowed.flatMap(Bracket::turnsFree);
        if (!allowed.equals(Optional.of(interval)) && !free.equals(Optional.of(interval))) {
            throw new RejectedValueException(
                    "bracket",
                    interval.toString(),
                    "does not follow from its trials",
                    allowed.map(LengthInterval::toString).orElse("a contradiction"),
                    "make brackets with Evidence.of");
        }
    }

    /** Loaded minus unloaded: [a2 - b1, b2 - a1] for a loaded reading of [a2, b2] and an unloaded one of [a1, b1]. */
    static Optional<LengthInterval> difference(List<Trial> loaded, List<Trial> unloaded, ReadingRule rule) {
        return allowedBy(loaded, rule).flatMap(l -> allowedBy(unloaded, rule).map(u -> l.plus(u.negated())));
    }

    /** What is left of the gap of a closer once it is known to turn free by hand. */
    static Optional<LengthInterval> turnsFree(LengthInterval gap) {
        return gap.intersection(LengthInterval.atLeast(Length.ZERO));
    }

    /**
     * The lengths that agree with every trial; the drags count together, as the hull of their claims. Empty where two trials exclude
     * each other: then there is no such length.
     */
    static Optional<LengthInterval> allowedBy(List<Trial> trials, ReadingRule rule) {
        if (Contradiction.find(trials, rule).isPresent()) {
            return Optional.empty();
        }
        LengthInterval allowed = trials.stream()
                .filter(t -> t.fit() == Fit.DRAGS)
                .map(rule::claim)
                .reduce(LengthInterval::hull)
                .orElse(LengthInterval.any());
        for (Trial trial : trials) {
            if (trial.fit() != Fit.DRAGS) {
                // claims that meet in pairs all meet in one place, as intervals do
                allowed = allowed.intersection(rule.claim(trial)).orElseThrow();
            }
        }
        return Optional.of(allowed);
    }

    /**
     * The evidence after one more trial. Any trial but a second drag only narrows the bracket, or contradicts it.
     *
     * @param trial the trial
     * @return the evidence of all trials together
     */
    public Evidence with(Trial trial) {
        List<Trial> more = new ArrayList<>(trials);
        more.add(trial);
        if (unloaded.isEmpty()) {
            return Evidence.of(more, rule);
        }
        // cut off at 0 only by what the hand felt
        boolean turnsFree = !difference(trials, unloaded, rule).equals(Optional.of(interval));
        return Evidence.closer(more, unloaded, rule, turnsFree);
    }

    /**
     * Several leaves that drag at once, which is everyday work where they are neighbours: the thinnest and the thickest of them.
     *
     * @return the two trials; none when at most one leaf drags or all that do claim the same; for a closer those of each of its two
     *     readings
     */
    public List<SeveralDrags> severalDrags() {
        return Stream.of(unloaded, trials).flatMap(this::severalDrags).toList();
    }

    private Stream<SeveralDrags> severalDrags(List<Trial> reading) {
        List<Trial> drags = reading.stream()
                .filter(t -> t.fit() == Fit.DRAGS)
                .sorted((a, b) -> a.leaf().compareTo(b.leaf()))
                .toList();
        if (drags.isEmpty()) {
            return Stream.empty();
        }
        Trial first = drags.get(0);
        Trial last = drags.get(drags.size() - 1);
        return rule.claim(first).equals(rule.claim(last)) ? Stream.empty() : Stream.of(new SeveralDrags(first, last));
    }

    /**
     * The outermost of several leaves that drag in one gap.
     *
     * @param thinnest the thinnest
     * @param thickest the thickest
     */
    public record SeveralDrags(Trial thinnest, Trial thickest) implements Serializable {
        /**
         * Creates the pair.
         *
         * @param thinnest the thinnest
         * @param thickest the thickest
         */
        public SeveralDrags {
            requireNonNull(thinnest, "thinnest");
            requireNonNull(thickest, "thickest");
        }
    }

    @Override
    public <R> R match(Function<Bracket, R> onBracket, Function<Contradiction, R> onContradiction) {
        return onBracket.apply(this);
    }
}
