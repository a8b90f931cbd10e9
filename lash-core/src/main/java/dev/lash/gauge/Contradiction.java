package dev.lash.gauge;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.LengthInterval;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/**
 * Trials of one gap that cannot all be true. Two trials exclude each other when their claims have no clearance in common, or when the
 * same leaf is said to have fitted in two ways: whatever its true thickness, it has only one. Two leaves that both drag do not exclude
 * each other. Of all pairs that do, the one is named whose claims are furthest apart, 0.14 mm goes and 0.11 mm refuses, say: the pair to
 * repeat.
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

    /** The pair to repeat, or empty when no two trials exclude each other. */
    static Optional<Contradiction> find(List<Trial> trials, ReadingRule rule) {
        Contradiction worst = null;
        long furthest = Long.MIN_VALUE;
        for (int i = 0; i < trials.size(); i++) {
            for (int j = 0; j < trials.size(); j++) {
                Trial larger = trials.get(i);
                Trial smaller = trials.get(j);
                if (i == j || !exclude(larger, smaller, rule)) {
                    continue;
                }
                long apart = apart(rule.claim(larger), rule.claim(smaller));
                if (apart > furthest) {
                    furthest = apart;
                    worst = new Contradiction(larger, smaller, trials, rule);
                }
            }
        }
        return Optional.ofNullable(worst);
    }

    private static boolean exclude(Trial a, Trial b, ReadingRule rule) {
        if (a.fit() == Fit.DRAGS && b.fit() == Fit.DRAGS) {
            return false;
        }
        boolean sameLeafOtherwise =
                a.leaf().equals(b.leaf()) && a.fit().answer() != b.fit().answer();
        return sameLeafOtherwise || !rule.claim(a).intersects(rule.claim(b));
    }

    /** How far the lower end of one claim lies above the upper end of the other, in nanometres; the least where an end is missing. */
    private static long apart(LengthInterval larger, LengthInterval smaller) {
        return larger.lower()
                .flatMap(low -> smaller.upper().map(high -> low.nanometres() - high.nanometres()))
                .orElse(Long.MIN_VALUE + 1);
    }

    /** The loaded trial that claims least against the unloaded one that claims most: a load cannot make the gap smaller. */
    static Contradiction between(List<Trial> loaded, List<Trial> unloaded, ReadingRule rule) {
        List<Trial> all = new ArrayList<>(unloaded);
        all.addAll(loaded);
        Comparator<Trial> byLower = Comparator.comparing(rule::claim, LengthInterval::compareLower);
        Comparator<Trial> byUpper = Comparator.comparing(rule::claim, LengthInterval::compareUpper);
        return new Contradiction(
                unloaded.stream().max(byLower).orElseThrow(),
                loaded.stream().min(byUpper).orElseThrow(),
                all,
                rule);
    }

    @Override
    public <R> R match(Function<Bracket, R> onBracket, Function<Contradiction, R> onContradiction) {
        return onContradiction.apply(this);
    }
}
