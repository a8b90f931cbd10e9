package dev.lash.gauge;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.LengthInterval;
import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/**
 * The interval in which a clearance lies, with the trials and the rule behind it, so that every later figure can be traced
 * to the trials. Made by {@link Evidence#of}.
 *
 * @param interval where the clearance lies
 * @param trials the trials, in the order they were made
 * @param rule how they were read
 */
public record Bracket(LengthInterval interval, List<Trial> trials, ReadingRule rule) implements Evidence {
    /**
     * Creates a bracket.
     *
     * @param interval where the clearance lies
     * @param trials the trials, in the order they were made
     * @param rule how they were read
     * @throws RejectedValueException if the interval is not what the trials give by the rule
     */
    public Bracket {
        requireNonNull(interval, "interval");
        requireNonNull(rule, "rule");
        trials = List.copyOf(trials);
        Optional<LengthInterval> allowed = allowedBy(trials, rule);
        if (!allowed.equals(Optional.of(interval))) {
            throw new RejectedValueException(
                    "bracket",
                    interval.toString(),
                    "does not follow from its trials",
                    allowed.map(LengthInterval::toString).orElse("a contradiction"),
                    "make brackets with Evidence.of");
        }
    }

    /** The lengths that agree with every trial; the drags count together, as the hull of their claims. */
    static Optional<LengthInterval> allowedBy(List<Trial> trials, ReadingRule rule) {
        LengthInterval drags = trials.stream()
                .filter(t -> t.fit() == Fit.DRAGS)
                .map(rule::claim)
                .reduce(LengthInterval::hull)
                .orElse(LengthInterval.any());
        Optional<LengthInterval> allowed = Optional.of(drags);
        for (Trial trial : trials) {
            if (trial.fit() != Fit.DRAGS) {
                allowed = allowed.flatMap(interval -> interval.intersection(rule.claim(trial)));
            }
        }
        return allowed;
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
        return Evidence.of(more, rule);
    }

    /**
     * Trials that had to be reconciled: several leaves that drag at once, and a drag that another trial excludes.
     *
     * @return the doubts, empty when the trials agree without any
     */
    public List<Doubt> doubts() {
        List<Doubt> found = new ArrayList<>();
        List<Trial> drags = trials.stream()
                .filter(t -> t.fit() == Fit.DRAGS)
                .sorted((a, b) -> a.leaf().compareTo(b.leaf()))
                .distinct()
                .toList();
        Trial last = drags.isEmpty() ? null : drags.get(drags.size() - 1);
        if (last != null && !rule.claim(drags.get(0)).equals(rule.claim(last))) {
            found.add(new Doubt(drags.get(0), last));
        }
        for (Trial drag : drags) {
            trials.stream()
                    .filter(t -> t.fit() != Fit.DRAGS)
                    .filter(t -> !rule.claim(t).intersects(rule.claim(drag)))
                    .findFirst()
                    .ifPresent(other -> found.add(new Doubt(drag, other)));
        }
        return List.copyOf(found);
    }

    /**
     * Two trials that had to be reconciled.
     *
     * @param first a trial
     * @param second another
     */
    public record Doubt(Trial first, Trial second) implements Serializable {
        /**
         * Creates a doubt.
         *
         * @param first a trial
         * @param second another
         */
        public Doubt {
            requireNonNull(first, "first");
            requireNonNull(second, "second");
        }

        /** {@return whether both drag, so that they count together} */
        public boolean isSeveralDrags() {
            return first.fit() == Fit.DRAGS && second.fit() == Fit.DRAGS;
        }
    }

    @Override
    public <R> R match(Function<Bracket, R> onBracket, Function<Contradiction, R> onContradiction) {
        return onBracket.apply(this);
    }
}
