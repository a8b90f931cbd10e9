package dev.lash.trend;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * All straight lines through every bracket, exactly: heights alpha + beta x usage, with one alpha for each segment and one
 * slope beta for all. Assumes that wear is straight and that no reading is wrong; under that assumption nothing else is.
 *
 * <p>Usages are numbers of any unit, heights are nanometres, slopes nanometres per unit of usage, all exact fractions. A
 * bracket counts with both its ends, also where an end is open: what comes out is the closure of the set, and an extreme
 * may belong to a line that only just touches. A bracket without ends excludes nothing.
 *
 * <p>For a given slope the alphas of a segment lie between the highest of its lower ends and the lowest of its upper ends,
 * each less slope x usage; so the slopes allowed are those that bring no lower end above an upper end: one inequality for
 * each pair. Where the set has no end, that is said with an empty {@link Optional}, not with a large number. One check alone
 * allows every slope: the window may be left at once, or never.
 *
 * <p>Time grows with the square of the number of checks in a segment. Immutable and thread-safe.
 */
public final class FeasibleLines implements Serializable {
    private static final long serialVersionUID = 1L;

    private static final Crossing ALREADY = new Crossing.AlreadyLeft();
    private static final Crossing NEVER = new Crossing.Never();

    private final List<List<Check>> segments;
    private final boolean exist;
    private final boolean room;
    private final @Nullable Ratio least;
    private final @Nullable Ratio greatest;

    /**
     * A bracket at a usage.
     *
     * @param usage the usage, a number of any unit, the same for all checks
     * @param bracket what is known of the clearance there
     */
    public record Check(Ratio usage, LengthInterval bracket) implements Serializable {
        /**
         * Checks the parts.
         *
         * @param usage the usage
         * @param bracket the bracket
         */
        public Check {
            requireNonNull(usage, "usage");
            requireNonNull(bracket, "bracket");
        }

        Optional<Ratio> lower() {
            return bracket.lower().map(Ratio::nanometresOf);
        }

        Optional<Ratio> upper() {
            return bracket.upper().map(Ratio::nanometresOf);
        }
    }

    /**
     * When lines leave a window, over all feasible lines. A line has left when it is outside anywhere between now and a
     * usage. "Earliest" is the first usage by which some line may have left, "latest" the last by which some line may still
     * be inside; each is a bound that a line of the closed set reaches, or comes as near to as one likes.
     *
     * @param earliestBelow when a line may first be below the window
     * @param latestBelow when all lines are below it
     * @param earliestAbove when a line may first be above the window
     * @param latestAbove when all lines are above it
     * @param earliest when a line may first have left on either side
     * @param latest when all lines have left, whichever the side of each
     */
    public record Crossings(
            Crossing earliestBelow,
            Crossing latestBelow,
            Crossing earliestAbove,
            Crossing latestAbove,
            Crossing earliest,
            Crossing latest)
            implements Serializable {
        /**
         * Checks the parts.
         *
         * @param earliestBelow when a line may first be below the window
         * @param latestBelow when all lines are below it
         * @param earliestAbove when a line may first be above the window
         * @param latestAbove when all lines are above it
         * @param earliest when a line may first have left on either side
         * @param latest when all lines have left
         */
        public Crossings {
            requireNonNull(earliestBelow, "earliestBelow");
            requireNonNull(latestBelow, "latestBelow");
            requireNonNull(earliestAbove, "earliestAbove");
            requireNonNull(latestAbove, "latestAbove");
            requireNonNull(earliest, "earliest");
            requireNonNull(latest, "latest");
        }
    }

    private FeasibleLines(List<List<Check>> segments) {
        this.segments = segments;
        Ratio low = null;
        Ratio high = null;
        boolean contradiction = false;
        for (List<Check> segment : segments) {
            for (Check a : segment) {
                Optional<Ratio> lower = a.lower();
                if (lower.isEmpty()) {
                    continue;
                }
                for (Check b : segment) {
                    Optional<Ratio> upper = b.upper();
                    if (upper.isEmpty()) {
                        continue;
                    }
                    // lower - upper <= beta (usage of lower - usage of upper)
                    Ratio rise = lower.get().minus(upper.get());
                    Ratio run = a.usage().minus(b.usage());
                    if (run.signum() == 0) {
                        contradiction |= rise.signum() > 0;
                    } else if (run.signum() > 0) {
                        low = larger(low, rise.dividedBy(run));
                    } else {
                        high = smaller(high, rise.dividedBy(run));
                    }
                }
            }
        }
        exist = !contradiction && (low == null || high == null || low.compareTo(high) <= 0);
        least = exist ? low : null;
        greatest = exist ? high : null;
        room = exist && innerLineHasRoom();
    }

    /**
     * All lines through the brackets of the segments.
     *
     * @param segments the checks of each segment, oldest segment first; at least one segment, each may be without checks
     * @return the lines
     * @throws RejectedValueException if there is no segment
     */
    public static FeasibleLines through(List<? extends List<Check>> segments) {
        List<List<Check>> copy = new ArrayList<>();
        for (List<Check> segment : segments) {
            copy.add(List.copyOf(segment));
        }
        if (copy.isEmpty()) {
            throw new RejectedValueException(
                    "segments",
                    "none",
                    "hold no line",
                    "at least one segment",
                    "give the checks since the last adjustment");
        }
        return new FeasibleLines(List.copyOf(copy));
    }

    private static Ratio larger(@Nullable Ratio a, Ratio b) {
        return a == null || b.compareTo(a) > 0 ? b : a;
    }

    private static Ratio smaller(@Nullable Ratio a, Ratio b) {
        return a == null || b.compareTo(a) < 0 ? b : a;
    }

    /**
     * A line from the relative interior of the set: its slope amid the slopes, its alphas amid the alphas for that slope. It
     * lies strictly inside every bracket that any feasible line lies strictly inside.
     */
    private boolean innerLineHasRoom() {
        Ratio slope = amid(least, greatest);
        for (List<Check> segment : segments) {
            Ratio alpha = amid(lowestAlpha(segment, slope), highestAlpha(segment, slope));
            for (Check check : segment) {
                if (check.bracket().isPoint()) {
                    continue;
                }
                Ratio height = alpha.plus(slope.times(check.usage()));
                if (check.lower().filter(low -> low.compareTo(height) >= 0).isPresent()
                        || check.upper()
                                .filter(high -> high.compareTo(height) <= 0)
                                .isPresent()) {
                    return false;
                }
            }
        }
        return true;
    }

    private static Ratio amid(@Nullable Ratio low, @Nullable Ratio high) {
        if (low != null && high != null) {
            return low.plus(high).dividedBy(Ratio.of(2, 1));
        }
        if (low != null) {
            return low.plus(Ratio.ONE);
        }
        return high == null ? Ratio.ZERO : high.minus(Ratio.ONE);
    }

    private static @Nullable Ratio lowestAlpha(List<Check> segment, Ratio slope) {
        Ratio most = null;
        for (Check check : segment) {
            Optional<Ratio> lower = check.lower();
            if (lower.isPresent()) {
                most = larger(most, lower.get().minus(slope.times(check.usage())));
            }
        }
        return most;
    }

    private static @Nullable Ratio highestAlpha(List<Check> segment, Ratio slope) {
        Ratio most = null;
        for (Check check : segment) {
            Optional<Ratio> upper = check.upper();
            if (upper.isPresent()) {
                most = smaller(most, upper.get().minus(slope.times(check.usage())));
            }
        }
        return most;
    }

    /** {@return whether any line passes through every bracket, ends included} */
    public boolean exist() {
        return exist;
    }

    /** {@return whether a line passes strictly between the ends of every bracket, and through every bracket that is a point} */
    public boolean haveRoom() {
        return room;
    }

    /** {@return the least slope, in nanometres per unit of usage; empty when slopes have no lower end, or no line exists} */
    public Optional<Ratio> leastSlope() {
        return Optional.ofNullable(least);
    }

    /** {@return the greatest slope; empty when slopes have no upper end, or no line exists} */
    public Optional<Ratio> greatestSlope() {
        return Optional.ofNullable(greatest);
    }

    /**
     * The lowest height of any line at a usage, in the last segment.
     *
     * @param usage the usage, before or after now
     * @return the height in nanometres; empty when heights have no lower end there, or no line exists
     */
    public Optional<Ratio> lowestAt(Ratio usage) {
        requireNonNull(usage, "usage");
        return exist ? Optional.ofNullable(Side.below(last(), least, greatest).lowestAt(usage)) : Optional.empty();
    }

    /**
     * The highest height of any line at a usage, in the last segment.
     *
     * @param usage the usage, before or after now
     * @return the height in nanometres; empty when heights have no upper end there, or no line exists
     */
    public Optional<Ratio> highestAt(Ratio usage) {
        requireNonNull(usage, "usage");
        return exist
                ? Optional.ofNullable(Side.above(last(), least, greatest).lowestAt(usage))
                        .map(FeasibleLines::negated)
                : Optional.empty();
    }

    private List<Check> last() {
        return segments.get(segments.size() - 1);
    }

    private static Ratio negated(Ratio ratio) {
        return Ratio.ZERO.minus(ratio);
    }

    private static @Nullable Ratio negatedOrNone(@Nullable Ratio ratio) {
        return ratio == null ? null : negated(ratio);
    }

    /**
     * When the lines of the last segment leave a window.
     *
     * @param low the low edge of the window, which still belongs to it
     * @param high its high edge, which still belongs to it
     * @param now the usage now, not before the last check
     * @return the crossings, or empty when no line exists
     * @throws RejectedValueException if low is above high, or now is before a check of the last segment
     */
    public Optional<Crossings> crossings(Length low, Length high, Ratio now) {
        requireNonNull(now, "now");
        if (low.isMoreThan(high)) {
            throw new RejectedValueException(
                    "window", low + " to " + high, "is upside down", "a low edge not above the high edge", "swap them");
        }
        for (Check check : last()) {
            if (check.usage().compareTo(now) > 0) {
                throw new RejectedValueException(
                        "usage now",
                        now.toString(),
                        "is before a check",
                        check.usage() + " or more",
                        "give the usage of the last check, or a later one");
            }
        }
        if (!exist) {
            return Optional.empty();
        }
        Ratio floor = Ratio.nanometresOf(low);
        Ratio ceiling = Ratio.nanometresOf(high);
        Side below = Side.below(last(), least, greatest);
        Side above = Side.above(last(), least, greatest);
        Crossing earliestBelow = below.earliest(floor, now);
        Crossing earliestAbove = above.earliest(negated(ceiling), now);
        return Optional.of(new Crossings(
                earliestBelow,
                below.latest(above, floor, now),
                earliestAbove,
                above.latest(below, negated(ceiling), now),
                earliestBelow.compareTo(earliestAbove) <= 0 ? earliestBelow : earliestAbove,
                latest(below, above, floor, ceiling, now)));
    }

    /**
     * Of the lines inside the window now, those of slope 0 stay for ever. If all fall, the one that stays longest is highest
     * now and falls slowest, and both go together: the highest height now never falls as the slope grows, for no check is
     * after now. If all rise, likewise upside down.
     */
    private static Crossing latest(Side below, Side above, Ratio floor, Ratio ceiling, Ratio now) {
        Limit greatest = below.greatestSlopeNotAbove(ceiling, now);
        Limit least = above.greatestSlopeNotAbove(negated(floor), now).negated();
        if (!greatest.exists()
                || !least.exists()
                || (greatest.end() != null && least.end() != null && least.end().compareTo(greatest.end()) > 0)) {
            return ALREADY;
        }
        if (greatest.end() != null && greatest.end().signum() < 0) {
            Ratio height = negatedOrNone(above.heightAt(negated(greatest.end()), now));
            return leaves(smaller(height, ceiling).minus(floor), negated(greatest.end()), now);
        }
        if (least.end() != null && least.end().signum() > 0) {
            Ratio height = below.heightAt(least.end(), now);
            return leaves(ceiling.minus(larger(height, floor)), least.end(), now);
        }
        return NEVER;
    }

    private static Crossing leaves(Ratio distance, Ratio rate, Ratio now) {
        return new Crossing.At(now.plus(distance.dividedBy(rate)));
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof FeasibleLines lines && lines.segments.equals(segments);
    }

    @Override
    public int hashCode() {
        return segments.hashCode();
    }

    /** {@return the slopes, for a log} */
    @Override
    public String toString() {
        if (!exist) {
            return "no line";
        }
        return "slopes from " + (least == null ? "any" : least) + " to " + (greatest == null ? "any" : greatest)
                + (room ? "" : ", no room");
    }

    /** An end of a set of slopes; {@code null} for no end. */
    private record Limit(boolean exists, @Nullable Ratio end) {
        Limit negated() {
            return new Limit(exists, negatedOrNone(end));
        }
    }

    /** A line height = end + slope x (usage - at) at a fixed usage, as a function of the slope. */
    private record Ray(Ratio at, Ratio end) {
        Ratio height(Ratio slope, Ratio usage) {
            return end.plus(slope.times(usage.minus(at)));
        }
    }

    /**
     * The set from below: at each slope the lowest line hangs on the highest of the lower ends. Seen from above, everything
     * is negated, so that lowest stands for highest.
     *
     * @param rays the lower ends that carry the lowest line for some slope, by falling usage, that is in the order in which
     *     they take over as the slope grows
     * @param least the least slope, null for no end
     * @param greatest the greatest slope, null for no end
     */
    private record Side(
            List<Ray> rays, @Nullable Ratio least, @Nullable Ratio greatest) {
        static Side below(List<Check> checks, @Nullable Ratio least, @Nullable Ratio greatest) {
            List<Ray> lower = new ArrayList<>();
            for (Check check : checks) {
                check.lower().ifPresent(end -> lower.add(new Ray(check.usage(), end)));
            }
            return new Side(envelope(lower), least, greatest);
        }

        static Side above(List<Check> checks, @Nullable Ratio least, @Nullable Ratio greatest) {
            List<Ray> upper = new ArrayList<>();
            for (Check check : checks) {
                check.upper().ifPresent(end -> upper.add(new Ray(check.usage(), FeasibleLines.negated(end))));
            }
            return new Side(envelope(upper), negatedOrNone(greatest), negatedOrNone(least));
        }

        /** The upper envelope of end - slope x at over the slope: the upper hull of the points (at, end). */
        private static List<Ray> envelope(List<Ray> all) {
            List<Ray> sorted = new ArrayList<>(all);
            sorted.sort(Comparator.comparing(Ray::at).reversed().thenComparing(Ray::end, Comparator.reverseOrder()));
            List<Ray> hull = new ArrayList<>();
            for (Ray ray : sorted) {
                if (!hull.isEmpty() && hull.get(hull.size() - 1).at().equals(ray.at())) {
                    continue;
                }
                while (hull.size() > 1
                        && takeover(hull.get(hull.size() - 2), hull.get(hull.size() - 1))
                                        .compareTo(takeover(hull.get(hull.size() - 1), ray))
                                >= 0) {
                    hull.remove(hull.size() - 1);
                }
                hull.add(ray);
            }
            return hull;
        }

        /** The slope from which on the earlier end is the higher one. */
        private static Ratio takeover(Ray later, Ray earlier) {
            return later.end().minus(earlier.end()).dividedBy(later.at().minus(earlier.at()));
        }

        /** The slopes at which an extreme may be: where the envelope bends, and the ends of the set of slopes. */
        private List<Ratio> corners() {
            List<Ratio> corners = new ArrayList<>();
            for (int i = 1; i < rays.size(); i++) {
                Ratio slope = takeover(rays.get(i - 1), rays.get(i));
                if ((least == null || slope.compareTo(least) > 0)
                        && (greatest == null || slope.compareTo(greatest) < 0)) {
                    corners.add(slope);
                }
            }
            if (least != null) {
                corners.add(least);
            }
            if (greatest != null) {
                corners.add(greatest);
            }
            return corners;
        }

        /** The height of the lowest line of a slope; null when there is no lower end. */
        @Nullable
        Ratio heightAt(Ratio slope, Ratio usage) {
            Ratio most = null;
            for (Ray ray : rays) {
                most = larger(most, ray.height(slope, usage));
            }
            return most;
        }

        @Nullable
        Ratio lowestAt(Ratio usage) {
            if (rays.isEmpty()
                    || (least == null && usage.compareTo(rays.get(0).at()) > 0)
                    || (greatest == null
                            && usage.compareTo(rays.get(rays.size() - 1).at()) < 0)) {
                return null;
            }
            List<Ratio> corners = corners();
            if (corners.isEmpty()) {
                // one ray and every slope: the usage is the ray's own
                return rays.get(0).end();
            }
            Ratio lowest = null;
            for (Ratio slope : corners) {
                Ratio height = heightAt(slope, usage);
                lowest = height == null ? lowest : smaller(lowest, height);
            }
            return lowest;
        }

        /** When a line may first be below the floor. */
        Crossing earliest(Ratio floor, Ratio now) {
            Ratio lowest = lowestAt(now);
            if (lowest == null || lowest.compareTo(floor) < 0) {
                return ALREADY;
            }
            if (least == null) {
                // steeper and steeper lines from where they are now
                return new Crossing.At(now);
            }
            Ratio soonest = null;
            for (Ratio slope : corners()) {
                Ratio height = heightAt(slope, now);
                if (slope.signum() < 0 && height != null) {
                    soonest = smaller(soonest, height.minus(floor).dividedBy(FeasibleLines.negated(slope)));
                }
            }
            return soonest == null ? NEVER : new Crossing.At(now.plus(soonest));
        }

        /**
         * When all lines are below the floor. The line that stays longest is highest now and falls slowest, and both go
         * together; see {@link FeasibleLines#latest}.
         *
         * @param opposite this set seen from the other side
         */
        Crossing latest(Side opposite, Ratio floor, Ratio now) {
            Ratio highest = negatedOrNone(opposite.lowestAt(now));
            if (highest == null) {
                return NEVER;
            }
            if (highest.compareTo(floor) < 0) {
                return ALREADY;
            }
            return greatest == null || greatest.signum() >= 0
                    ? NEVER
                    : leaves(highest.minus(floor), FeasibleLines.negated(greatest), now);
        }

        /** The greatest slope of which a line is not above a ceiling now. */
        Limit greatestSlopeNotAbove(Ratio ceiling, Ratio now) {
            Ratio most = greatest;
            for (Ray ray : rays) {
                Ratio space = ceiling.minus(ray.end());
                if (ray.at().compareTo(now) < 0) {
                    most = smaller(most, space.dividedBy(now.minus(ray.at())));
                } else if (space.signum() < 0) {
                    return new Limit(false, null);
                }
            }
            return new Limit(true, most);
        }
    }
}
