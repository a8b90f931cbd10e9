package dev.lash.check;

import dev.lash.measure.LengthUnit;
import org.jspecify.annotations.Nullable;

/**
 * How likely a length is for a slot: half about the middle of the window, half about what was left last where that is known, and a
 * small share anywhere. Values are compared by their density on a logarithmic scale, since a slip of the unit moves every value by a
 * factor.
 */
final class Plausibility {
    private final ValidationProfile profile;
    private final double margin;
    private final double scatter;
    private final double widest;

    Plausibility(ValidationProfile profile) {
        this.profile = profile;
        this.margin = profile.windowMargin().nanometres();
        this.scatter = profile.historyScatter().nanometres();
        this.widest = profile.largestClearance().nanometres();
    }

    private double deviation(EngineView view, int slot) {
        return (view.high(slot) - view.low(slot)) / 2.0 + margin;
    }

    private static double middle(EngineView view, int slot) {
        return (view.low(slot) + view.high(slot)) / 2.0;
    }

    /** Whether a length is so near the window that no other reading of it can win. */
    boolean isUsual(EngineView view, int slot, long nanometres) {
        return Math.abs(nanometres - middle(view, slot)) <= 2 * deviation(view, slot);
    }

    /** The density of a length for a slot, per nanometre. */
    double density(RowReading row, long nanometres) {
        EngineView view = row.machine.view;
        double common = normal(nanometres - middle(view, row.slot), deviation(view, row.slot));
        Left left = known(row);
        if (left != null) {
            double last = (left.low() + left.high()) / 2.0;
            double wide = (left.high() - left.low()) / 2.0 + scatter;
            common = (common + normal(nanometres - last, wide)) / 2;
        }
        boolean possible = nanometres >= 0 && nanometres <= widest;
        return (1 - profile.strayShare()) * common + (possible ? profile.strayShare() / widest : 0);
    }

    private static double normal(double distance, double deviation) {
        double z = distance / deviation;
        return Math.exp(-z * z / 2) / (deviation * Math.sqrt(2 * Math.PI));
    }

    /** What a number fits better than in its own unit. */
    record Slip(LengthUnit unit, long nanometres, double odds) {}

    /** The unit in which a number is likelier than in its own, slips being as rare as they are; {@code null} where there is none. */
    @Nullable
    Slip slip(RowReading row, NumberText number, LengthUnit own, long nanometres) {
        double asWritten = likelihood(row, nanometres);
        Slip best = null;
        double likeliest = 0;
        for (LengthUnit unit : LengthUnit.values()) {
            long other = unit == own ? NumberText.NONE : number.nanometres(unit);
            if (other > 0 && isSensible(unit, number) && density(row, other) > profile.strayShare() / widest * 2) {
                double likely = likelihood(row, other);
                double odds = asWritten == 0 ? Double.POSITIVE_INFINITY : profile.slipShare() * likely / asWritten;
                if (odds > 1 && likely > likeliest) {
                    likeliest = likely;
                    best = new Slip(unit, other, odds);
                }
            }
        }
        return best;
    }

    /** The unit in which a bare number fits a slot, where it is far likelier than in every other; {@code null} where there is none. */
    @Nullable
    Slip unit(RowReading row, NumberText number) {
        Slip best = null;
        double likeliest = 0;
        double next = 0;
        for (LengthUnit unit : LengthUnit.values()) {
            long size = isSensible(unit, number) ? number.nanometres(unit) : NumberText.NONE;
            if (size <= 0) {
                continue;
            }
            double likely = likelihood(row, size);
            if (likely > likeliest) {
                next = likeliest;
                likeliest = likely;
                best = new Slip(unit, size, 0);
            } else {
                next = Math.max(next, likely);
            }
        }
        double odds = next == 0 ? Double.POSITIVE_INFINITY : likeliest / next;
        return best == null
                        || odds * profile.strayShare() < 1
                        || !strays(row, best.nanometres).isEmpty()
                ? null
                : new Slip(best.unit, best.nanometres, odds);
    }

    /** How likely a length is for a slot, on a scale on which lengths in different units compare. */
    private double likelihood(RowReading row, long nanometres) {
        return density(row, nanometres) * Math.abs(nanometres) * leafShare(row.machine, nanometres);
    }

    /** Whole numbers of small units only: nobody writes 0.12 hundredths. */
    private static boolean isSensible(LengthUnit unit, NumberText number) {
        return unit == LengthUnit.MILLIMETRE || unit == LengthUnit.INCH || number.decimals == 0;
    }

    /** What speaks against a size: neither near the window nor near what was left last, or no leaf that is owned; empty where nothing does. */
    String strays(RowReading row, long nanometres) {
        EngineView view = row.machine.view;
        boolean near = nanometres >= view.low(row.slot) - margin && nanometres <= view.high(row.slot) + margin;
        Left left = known(row);
        boolean asLast =
                left != null && nanometres >= left.low() - 2 * scatter && nanometres <= left.high() + 2 * scatter;
        boolean owned = !view.knowsLeaves() || view.ownsLeaf(nanometres);
        String away = near || asLast
                ? ""
                : "it is not near the window" + (left != null ? ", nor near what the visit before left" : "");
        return away + (owned ? "" : (away.isEmpty() ? "it is" : " and") + " no leaf of the set");
    }

    /** What a likelihood goes by. */
    String grounds(RowReading row) {
        return "the window" + (known(row) != null ? " and what the visit before left" : "");
    }

    /** What the visit before left, where both its ends are known. */
    private static @Nullable Left known(RowReading row) {
        Left left = row.leftBefore();
        return left != null && left.isBetween() ? left : null;
    }

    /** How much less likely a size is for being no leaf that is owned, or thinner than leaves are made. */
    private double leafShare(MachineState machine, long nanometres) {
        boolean owned = !machine.view.knowsLeaves() || machine.view.ownsLeaf(nanometres);
        boolean made = nanometres >= profile.thinnestLeaf().nanometres();
        return (owned ? 1 : profile.strayShare()) * (made ? 1 : profile.strayShare());
    }

    /** How many times better two readings fit the other way round. */
    double swapOdds(RowReading a, RowReading b) {
        long ofA = a.found.middle();
        long ofB = b.found.middle();
        double straight = density(a, ofA) * density(b, ofB);
        double swapped = density(a, ofB) * density(b, ofA);
        return straight == 0 ? (swapped == 0 ? 1 : Double.POSITIVE_INFINITY) : swapped / straight;
    }
}
