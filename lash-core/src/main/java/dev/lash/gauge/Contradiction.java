package dev.lash.gauge;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.LengthInterval;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/**
 * Trials of one gap that no clearance agrees with. Of all pairs that exclude each other the one is named whose claims
 * overlap most, 0.14 mm goes and 0.11 mm refuses, say: the pair to repeat.
 *
 * @param first the trial that claims the largest clearance
 * @param second the trial that claims the smallest
 * @param trials all the trials, in the order they were made
 * @param rule how they were read
 */
public record Contradiction(Trial first, Trial second, List<Trial> trials, ReadingRule rule) implements Evidence {
    /**
     * Creates a contradiction.
     *
     * @param first the trial that claims the largest clearance
     * @param second the trial that claims the smallest
     * @param trials all the trials, in the order they were made
     * @param rule how they were read
     */
    public Contradiction {
        requireNonNull(first, "first");
        requireNonNull(second, "second");
        requireNonNull(rule, "rule");
        trials = List.copyOf(trials);
    }

    /** The strongest claim from below against the strongest from above. */
    static Contradiction among(List<Trial> trials, ReadingRule rule) {
        return new Contradiction(
                strongest(trials, rule, LengthInterval::compareLower),
                strongest(trials, rule, (a, b) -> LengthInterval.compareUpper(b, a)),
                trials,
                rule);
    }

    /** The drags count together, so of the drags only the weakest claim stands. */
    private static Trial strongest(List<Trial> trials, ReadingRule rule, Comparator<LengthInterval> strength) {
        Comparator<Trial> byClaim = Comparator.comparing(rule::claim, strength);
        Optional<Trial> weakestDrag =
                trials.stream().filter(t -> t.fit() == Fit.DRAGS).min(byClaim);
        return trials.stream()
                .filter(t -> t.fit() != Fit.DRAGS || t.equals(weakestDrag.orElseThrow()))
                .max(byClaim)
                .orElseThrow();
    }

    @Override
    public <R> R match(Function<Bracket, R> onBracket, Function<Contradiction, R> onContradiction) {
        return onContradiction.apply(this);
    }
}
