package dev.lash.examples;

import dev.lash.adjust.Adjustment;
import dev.lash.adjust.InstalledShim;
import dev.lash.adjust.ShimBox;
import dev.lash.adjust.TurnRange;
import dev.lash.check.ValveCheck;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.plan.NextLeaf;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/** What to do, in the few words that a table cell holds. */
final class Advice {
    private static final int MOST_SIZES = 5;

    private Advice() {}

    static String line(ValveCheck check, LengthUnit unit, ShimBox box) {
        if (check.contradiction().isPresent()) {
            return "repeat the trials named below";
        }
        String text = check.adjustment()
                .map(a -> words(a, unit, Stock.of(box, check)))
                .orElse("-");
        boolean undecided = check.verdict().filter(v -> v == Verdict.UNDECIDED).isPresent();
        return undecided
                ? check.possible().stream().map(Verdict::word).collect(Collectors.joining(" or ")) + ": " + text
                : text;
    }

    /** The spare shims that fit one valve. */
    record Stock(ShimBox box, Optional<InstalledShim> installed) {
        static Stock of(ShimBox box, ValveCheck check) {
            return new Stock(box, check.reading().findShim());
        }

        long count(Length size) {
            return installed.map(shim -> box.count(size, shim)).orElse(0L);
        }
    }

    /** Why something is looked at first; empty for other adjustments. */
    static String why(Adjustment adjustment) {
        return adjustment instanceof Adjustment.Inspect inspect ? inspect.why() : "";
    }

    private static String first(String first) {
        return first.isEmpty() ? "" : first + "; then ";
    }

    /** A turn in the words of the bench: out as the clearance grows, in as it shrinks. */
    private static String screw(TurnRange turn) {
        if (turn.to().signum() <= 0) {
            return "in " + new TurnRange(turn.to().negate(), turn.from().negate());
        }
        return (turn.from().signum() >= 0 ? "out " : "in (-) or out (+) ") + turn;
    }

    /** What to do, in words. */
    static String words(Adjustment adjustment, LengthUnit unit, Stock stock) {
        return adjustment.match(new Adjustment.Cases<>() {
            @Override
            public String leave(Adjustment.Leave a) {
                return "leave";
            }

            @Override
            public String setToLeaf(Adjustment.SetToLeaf a) {
                return first(a.first()) + "set to leaf " + TextReport.leaf(a.leaf(), unit)
                        + a.findTurn().map(turn -> ", screw " + screw(turn)).orElse("")
                        + a.findOtherTurn().map(turn -> ", or " + screw(turn)).orElse("")
                        + a.findLockShift()
                                .filter(shift -> shift.estimate().signum() != 0)
                                .map(shift -> " (the nut is likely to add "
                                        + TextReport.number(shift.estimate(), LengthUnit.MILLIMETRE) + " mm)")
                                .orElse("")
                        + "; lock, recheck";
            }

            @Override
            public String turn(Adjustment.Turn a) {
                String from = a.from() == Adjustment.TurnFrom.NO_PLAY
                        ? "screw in to no play, then "
                        : "no owned leaf fits the window: screw ";
                return first(a.first()) + from + screw(a.degrees())
                        + a.findFlats().map(f -> " (" + f + ")").orElse("")
                        + a.findCertain().map(c -> "; certain: " + screw(c)).orElse("")
                        + "; lock, recheck";
            }

            @Override
            public String fitShim(Adjustment.FitShim a) {
                String inBox = a.inBox() ? " (box has " + stock.count(a.shim()) + ")" : " (not in the box)";
                String others = a.certain().size() == 1 ? "" : "; certain: " + sizes(a.certain());
                return "fit shim " + a.shim() + inBox + ", gives " + TextReport.interval(a.resulting(), unit) + others;
            }

            @Override
            public String machine(Adjustment.Machine a) {
                return a.work();
            }

            @Override
            public String measureFurther(Adjustment.MeasureFurther a) {
                return a.findLeaf().map(next -> offer(next, unit)).orElseGet(a::why);
            }

            @Override
            public String inspect(Adjustment.Inspect a) {
                return "INSPECT FIRST"
                        + a.findThen()
                                .map(then -> "; then " + words(then, unit, stock))
                                .orElse("");
            }

            @Override
            public String notApplicable(Adjustment.NotApplicable a) {
                return a.why();
            }
        });
    }

    private static String offer(NextLeaf next, LengthUnit unit) {
        return "offer " + TextReport.leaf(next.leaf(), unit) + (next.owned() ? "" : " (not owned: borrow one)");
    }

    private static String sizes(List<Length> sizes) {
        String shown = sizes.stream().limit(MOST_SIZES).map(Length::toString).collect(Collectors.joining(", "));
        return sizes.size() > MOST_SIZES ? shown + " …" : shown;
    }
}
