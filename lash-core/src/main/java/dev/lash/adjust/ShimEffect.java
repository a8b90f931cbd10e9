package dev.lash.adjust;

import dev.lash.engine.ClearanceWindow;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import java.util.Optional;

/**
 * What a shim does to the clearance of one slot: clearance after = bracket + ratio x (old size - new size), for every size that
 * either shim may have, worked out exactly and rounded outward to nanometres. A shim that stays is not touched by its size error.
 */
final class ShimEffect implements ShimOptions.Effects {
    /** The shim must not be fitted. */
    static final int NONE = 0;
    /** The shim may be fitted, but is not certain. */
    static final int ALLOWED = 1;
    /** The shim is certain. */
    static final int CERTAIN = 2;

    private static final int SMALL = 31;

    private final ShimSlot slot;
    private final boolean known;
    private final boolean hasLower;
    private final boolean hasUpper;
    private final long lower;
    private final long upper;
    private final long least;
    private final long most;
    private final long twiceAim;
    private final long oldThinnest;
    private final long oldThickest;
    /** The ratio as a fraction of small numbers, or both 0 when it has larger ones. */
    private final long above;

    private final long below;

    ShimEffect(ShimSlot slot, Ratio usualAim) {
        this.slot = slot;
        LengthInterval bracket = slot.bracket();
        this.hasLower = bracket.lower().isPresent();
        this.hasUpper = bracket.upper().isPresent();
        this.lower = nanometres(bracket.lower());
        this.upper = nanometres(bracket.upper());
        ClearanceWindow window = slot.clearance().setTo();
        this.least = window.lower().nanometres();
        this.most = window.upper().nanometres();
        this.twiceAim = twiceAim(window, slot.findAim().orElse(usualAim));
        Optional<LengthInterval> old = slot.installed().possibleSizes();
        this.known = old.isPresent();
        this.oldThinnest = nanometres(old.flatMap(LengthInterval::lower));
        this.oldThickest = nanometres(old.flatMap(LengthInterval::upper));
        Ratio ratio = slot.ratio();
        boolean small =
                ratio.numerator().bitLength() <= SMALL && ratio.denominator().bitLength() <= SMALL;
        this.above = small ? ratio.numerator().longValueExact() : 0;
        this.below = small ? ratio.denominator().longValueExact() : 0;
    }

    private static long nanometres(Optional<Length> length) {
        return length.map(Length::nanometres).orElse(0L);
    }

    /** Twice the clearance to aim at, to the nearest nanometre, of two the lower: so that a middle of two whole ends compares. */
    private static long twiceAim(ClearanceWindow window, Ratio fraction) {
        Ratio aim = Ratio.nanometresOf(window.lower())
                .plus(Ratio.nanometresOf(window.width()).times(fraction));
        return aim.times(Ratio.of(2, 1)).minus(Ratio.of(1, 2)).ceiling(0).longValueExact();
    }

    /** How far the lower end moves, rounded down, when a shim of at most this size is fitted. */
    private long lowerMoves(long thickest) {
        long change = oldThinnest - thickest;
        return below != 0
                ? Math.floorDiv(above * change, below)
                : scaled(change).floor(0).longValueExact();
    }

    /** How far the upper end moves, rounded up, when a shim of at least this size is fitted. */
    private long upperMoves(long thinnest) {
        long change = oldThickest - thinnest;
        return below != 0
                ? -Math.floorDiv(-above * change, below)
                : scaled(change).ceiling(0).longValueExact();
    }

    private Ratio scaled(long change) {
        return slot.ratio().times(Ratio.of(change, 1));
    }

    /**
     * Whether a shim from elsewhere may be fitted. Certain: the clearance then lies in the window to set to. Allowed: the lower end
     * then lies above 0, and neither end lies further outside the window to set to than before, hence neither further outside
     * the window to check against; an upper end that is missing must not move up. Without a lower end, or without a size to
     * reckon from, none may be fitted.
     */
    @Override
    public int status(long thinnest, long thickest) {
        if (!known || !hasLower) {
            return NONE;
        }
        long from = lower + lowerMoves(thickest);
        long moved = upperMoves(thinnest);
        long to = upper + moved;
        if (hasUpper && from >= least && to <= most) {
            return CERTAIN;
        }
        boolean upperNoWorse = hasUpper ? to <= Math.max(upper, most) : moved <= 0;
        return from > 0 && from >= Math.min(lower, least) && upperNoWorse ? ALLOWED : NONE;
    }

    /** The installed shim may always stay; it is certain when the reading lies in the window to check against. */
    @Override
    public int statusOfStaying() {
        return Verdict.of(slot.bracket(), slot.clearance().check()) == Verdict.WITHIN ? CERTAIN : ALLOWED;
    }

    /** Twice the distance, in nanometres, between the middle of the clearance then and the aim; 0 where an end is missing. */
    @Override
    public long twiceOffAim(long thinnest, long thickest) {
        return hasLower && hasUpper
                ? Math.abs(lower + lowerMoves(thickest) + upper + upperMoves(thinnest) - twiceAim)
                : 0;
    }

    /** The same when the installed shim stays. */
    @Override
    public long twiceOffAimOfStaying() {
        return hasLower && hasUpper ? Math.abs(lower + upper - twiceAim) : 0;
    }

    /** The clearance once a shim from elsewhere is fitted. */
    LengthInterval after(long thinnest, long thickest) {
        LengthInterval now = slot.bracket();
        Length from = Length.ofNanometres(lower + lowerMoves(thickest));
        return hasUpper
                ? LengthInterval.of(
                        from,
                        now.lowerIncluded(),
                        Length.ofNanometres(upper + upperMoves(thinnest)),
                        now.upperIncluded())
                : now.lowerIncluded() ? LengthInterval.atLeast(from) : LengthInterval.above(from);
    }

    /**
     * The best that could come of knowing the clearance exactly: the best status that each shim has for any one clearance of the
     * bracket. A plan fits one shim here, so the best plan over all clearances is the best plan with these.
     */
    ShimOptions.Effects atBest() {
        return new AtBest();
    }

    private final class AtBest implements ShimOptions.Effects {
        @Override
        public int status(long thinnest, long thickest) {
            Optional<LengthInterval> clearances = notNegative();
            if (!known || clearances.isEmpty()) {
                return NONE;
            }
            LengthInterval now = clearances.get();
            long from = lowerMoves(thickest);
            long to = upperMoves(thinnest);
            Length highest = Length.ofNanometres(most - to);
            Length lowest = Length.ofNanometres(least - from);
            if (meets(now, LengthInterval.atLeast(lowest), LengthInterval.atMost(highest))) {
                return CERTAIN;
            }
            LengthInterval leavesSome = LengthInterval.above(Length.ofNanometres(-from));
            LengthInterval tight = LengthInterval.below(Length.ofNanometres(least));
            LengthInterval loose = LengthInterval.above(Length.ofNanometres(most));
            boolean noWorse = (from >= 0 && meets(now, leavesSome, tight, LengthInterval.atMost(highest)))
                    || (to <= 0 && meets(now, leavesSome, loose, LengthInterval.atLeast(lowest)));
            return noWorse ? ALLOWED : NONE;
        }

        @Override
        public int statusOfStaying() {
            return notNegative()
                            .filter(now ->
                                    now.intersects(slot.clearance().check().interval()))
                            .isPresent()
                    ? CERTAIN
                    : ALLOWED;
        }

        /** Where the clearance would lie is not known, so distances do not count. */
        @Override
        public long twiceOffAim(long thinnest, long thickest) {
            return 0;
        }

        @Override
        public long twiceOffAimOfStaying() {
            return 0;
        }
    }

    private Optional<LengthInterval> notNegative() {
        return slot.bracket().intersection(LengthInterval.atLeast(Length.ZERO));
    }

    private static boolean meets(LengthInterval first, LengthInterval... others) {
        Optional<LengthInterval> common = Optional.of(first);
        for (LengthInterval other : others) {
            common = common.flatMap(c -> c.intersection(other));
        }
        return common.isPresent();
    }
}
