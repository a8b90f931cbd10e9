package dev.lash.examples;

import dev.lash.gauge.Contradiction;
import dev.lash.gauge.Evidence;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.Trial;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Two trials of a list that cannot both be true. Both stay on the sheet until both have been repeated, after them; then the two
 * are taken out and the repeated ones count. So the sheet alone tells what is still to repeat, and no trial gets lost on the way.
 *
 * @param pair the two trials
 * @param first the place in the list of the earlier one
 * @param second the place of the later one, with which the contradiction came up
 */
record Clash(Contradiction pair, int first, int second) {
    /** The first contradiction in the order in which the trials were made; empty when all agree. */
    static Optional<Clash> in(List<Trial> trials, ReadingRule rule) {
        if (Evidence.of(trials, rule).bracket().isPresent()) {
            return Optional.empty();
        }
        for (int i = 1; i < trials.size(); i++) {
            List<Trial> sofar = trials.subList(0, i + 1);
            Optional<Contradiction> pair = Evidence.of(sofar, rule).match(bracket -> Optional.empty(), Optional::of);
            if (pair.isPresent()) {
                int a = sofar.lastIndexOf(pair.get().first());
                int b = sofar.lastIndexOf(pair.get().second());
                return Optional.of(new Clash(pair.get(), Math.min(a, b), Math.max(a, b)));
            }
        }
        return Optional.empty();
    }

    /** The leaf to offer again next, or empty when both trials have been repeated. */
    Optional<LeafStack> toRepeat(List<Trial> trials) {
        LeafStack one = trials.get(first).leaf();
        LeafStack other = trials.get(second).leaf();
        int repeated = placeOf(one, trials, second + 1);
        if (repeated < 0) {
            return Optional.of(one);
        }
        boolean both = one.equals(other) || placeOf(other, trials, repeated + 1) >= 0;
        return both ? Optional.empty() : Optional.of(other);
    }

    private static int placeOf(LeafStack leaf, List<Trial> trials, int from) {
        for (int i = from; i < trials.size(); i++) {
            if (trials.get(i).leaf().equals(leaf)) {
                return i;
            }
        }
        return -1;
    }

    /** The trials without pairs of which both leaves have been offered again since. */
    static List<Trial> settled(List<Trial> trials, ReadingRule rule) {
        List<Trial> kept = new ArrayList<>(trials);
        takeOut(kept, rule);
        return List.copyOf(kept);
    }

    /** The trials that {@link #settled} leaves out. */
    static List<Trial> takenOut(List<Trial> trials, ReadingRule rule) {
        return takeOut(new ArrayList<>(trials), rule);
    }

    private static List<Trial> takeOut(List<Trial> kept, ReadingRule rule) {
        List<Trial> gone = new ArrayList<>();
        Optional<Clash> clash = in(kept, rule);
        while (clash.isPresent() && clash.get().toRepeat(kept).isEmpty()) {
            Trial later = kept.remove(clash.get().second);
            gone.add(kept.remove(clash.get().first));
            gone.add(later);
            clash = in(kept, rule);
        }
        return List.copyOf(gone);
    }
}
