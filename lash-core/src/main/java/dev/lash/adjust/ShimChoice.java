package dev.lash.adjust;

import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.ShimRange;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import java.util.stream.Stream;

/**
 * Shim arithmetic for one gap: dc = -r (new - old), with r = 1 for a bucket and from the geometry of a finger follower.
 *
 * <p>A size is certain when the clearance lies in the window for every clearance of the bracket and every size that the
 * installed shim may have. Leaving the installed shim in is not touched by its size error.
 */
final class ShimChoice {
    private final List<Length> candidates;
    private final LengthInterval installed;
    private final Length nominal;
    private final Ratio ratio;
    private final ClearanceWindow window;

    /** Candidates are the union of range, box and installed, as sizes of one type; the size of the installed shim is known. */
    ShimChoice(ShimRange range, Ratio ratio, ShimBox box, InstalledShim shim, ClearanceWindow window) {
        this.nominal = shim.size().orElseThrow();
        this.installed = shim.possibleSizes().orElseThrow();
        TreeSet<Length> sizes = new TreeSet<>(range.sizes());
        sizes.addAll(box.sizesFor(shim));
        sizes.add(nominal);
        this.candidates = List.copyOf(sizes);
        this.ratio = ratio;
        this.window = window;
    }

    /** The clearance after fitting a size. */
    LengthInterval resulting(LengthInterval bracket, Length size) {
        return size.equals(nominal)
                ? bracket
                : bracket.plus(installed.plus(size.negated()).times(ratio));
    }

    /** The certain sizes, thinnest first. */
    List<Length> certain(LengthInterval bracket) {
        LengthInterval allowed = window.interval();
        return candidates.stream()
                .filter(s -> allowed.encloses(resulting(bracket, s)))
                .toList();
    }

    /** The certain size that brings the middle of the bracket nearest to the aim; of two the thinner. */
    Optional<Length> nearest(LengthInterval bracket, Ratio aimInNanometres) {
        Comparator<Length> byDistance = Comparator.comparing(size -> {
            LengthInterval after = resulting(bracket, size);
            long twiceMiddle = Stream.concat(after.lower().stream(), after.upper().stream())
                    .mapToLong(Length::nanometres)
                    .sum();
            Ratio distance = Ratio.of(twiceMiddle, 2).minus(aimInNanometres);
            return distance.signum() < 0 ? Ratio.ZERO.minus(distance) : distance;
        });
        return certain(bracket).stream().min(byDistance.thenComparing(Comparator.naturalOrder()));
    }

    /** The clearances that can be reached with the sizes at hand, from the thickest to the thinnest. */
    LengthInterval reachable(LengthInterval bracket) {
        return resulting(bracket, candidates.get(candidates.size() - 1)).hull(resulting(bracket, candidates.get(0)));
    }

    /** Whether even the thinnest size leaves the clearance below the window. */
    boolean needsThinner(LengthInterval bracket) {
        return resulting(bracket, candidates.get(0)).liesBelow(window.interval());
    }

    /** Whether even the thickest size leaves the clearance above the window. */
    boolean needsThicker(LengthInterval bracket) {
        return resulting(bracket, candidates.get(candidates.size() - 1)).liesAbove(window.interval());
    }
}
