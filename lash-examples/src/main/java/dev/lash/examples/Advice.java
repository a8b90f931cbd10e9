package dev.lash.examples;

import dev.lash.adjust.Adjustment;
import dev.lash.adjust.EccentricTurn;
import dev.lash.adjust.HabitShim;
import dev.lash.adjust.InstalledShim;
import dev.lash.adjust.LockShift;
import dev.lash.adjust.ShimBox;
import dev.lash.adjust.TurnRange;
import dev.lash.check.CheckReport;
import dev.lash.check.CheckSheet;
import dev.lash.check.ValveCheck;
import dev.lash.engine.ValveTrain;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.plan.NextLeaf;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** What to do, in the few words that a table cell holds. */
final class Advice {
    private static final int MOST_SIZES = 5;
    private static final int FULL_TURN = 360;
    private static final int THOUSANDTHS = 3;

    private Advice() {}

    static String line(ValveCheck check, LengthUnit unit, Bench bench) {
        if (check.contradiction().isPresent()) {
            return "repeat the trials named below";
        }
        String text = check.adjustment().map(a -> words(a, unit, bench)).orElse("-");
        boolean undecided = check.verdict().filter(v -> v == Verdict.UNDECIDED).isPresent();
        return undecided
                ? check.possible().stream().map(Verdict::word).collect(Collectors.joining(" or ")) + ": " + text
                        + (check.isLeafByForecast() ? ", by the forecast" : "")
                : text + byTrend(check);
    }

    /**
     * What an adjustment is worked with.
     *
     * @param train what moves the valve
     * @param box the spare shims
     * @param installed the shim that is in, or empty where none is known
     * @param wanted how many valves are advised to take a size out of the box; empty where only one is looked at
     */
    record Bench(ValveTrain train, ShimBox box, Optional<InstalledShim> installed, Map<Length, Long> wanted) {
        /** For one valve by itself, as it stands now. */
        static Bench of(CheckSheet sheet, ValveCheck check) {
            return new Bench(
                    sheet.engine().train(), sheet.shimBoxNow(), check.reading().findShimNow(), Map.of());
        }

        /** For one valve among all of a report. */
        static Bench of(CheckReport report, ValveCheck check) {
            Map<Length, Long> wanted = report.valves().stream()
                    .filter(v -> type(v).isBlank() || type(check).isBlank() || type(v).equals(type(check)))
                    .flatMap(v -> v.reading().findDone().isEmpty() ? v.adjustment().stream() : v.again().stream())
                    .flatMap(a ->
                            a instanceof Adjustment.FitShim fit && fit.inBox() ? Stream.of(fit.shim()) : Stream.empty())
                    .collect(Collectors.groupingBy(size -> size, Collectors.counting()));
            Bench now = of(report.sheet(), check);
            return new Bench(now.train, now.box, now.installed, wanted);
        }

        private static String type(ValveCheck check) {
            return check.reading().findShimNow().map(InstalledShim::type).orElse("");
        }

        /** For a valve that was worked on: as it was found, with the box of the start. */
        Bench asFound(CheckSheet sheet, ValveCheck check) {
            return check.reading().findDone().isEmpty()
                    ? this
                    : new Bench(train, sheet.shimBox(), check.reading().findShim(), Map.of());
        }

        private String stock(Length size) {
            long count = installed.map(shim -> box.count(size, shim)).orElse(0L);
            long others = wanted.getOrDefault(size, 0L);
            return "box has " + count
                    + (others > count ? ", " + others + " valves want one: \"lash shims\" says which gets it" : "");
        }
    }

    /** Why a setting is not the usual one. */
    private static String byTrend(ValveCheck check) {
        return check.isAimByForecast()
                        && check.adjustment().filter(Adjustment::isAimed).isPresent()
                ? " (where it lasts, by its trend)"
                : "";
    }

    /** Why something is looked at first; empty for other adjustments. */
    static String why(Adjustment adjustment) {
        return adjustment instanceof Adjustment.Inspect inspect ? inspect.why() : "";
    }

    private static String first(String first) {
        return first.isEmpty() ? "" : first + "; then ";
    }

    /** A turn in the words of the bench: which way the adjuster goes as the clearance grows, or as it shrinks. */
    private static String way(TurnRange turn, ValveTrain train) {
        return way(turn, Optional.empty(), train);
    }

    /** The same with the flats that the hand counts: they go the way of the degrees, so they take their sign from them. */
    private static String way(TurnRange turn, Optional<TurnRange.FlatRange> flats, ValveTrain train) {
        String[] ways = ways(train);
        if (turn.to().signum() <= 0) {
            return ways[1] + " " + turn.reversed() + inFlats(flats.map(TurnRange.FlatRange::reversed));
        }
        return (turn.from().signum() >= 0 ? ways[0] + " " : ways[0] + " (+) or " + ways[1] + " (-) ")
                + turn
                + inFlats(flats);
    }

    private static String inFlats(Optional<TurnRange.FlatRange> flats) {
        return flats.map(f -> " (" + f + ")").orElse("");
    }

    /** For a clearance that grows, and for one that shrinks. */
    private static String[] ways(ValveTrain train) {
        ValveTrain.ScrewPlace place =
                train instanceof ValveTrain.Screw screw ? screw.place() : ValveTrain.ScrewPlace.ROCKER_TIP;
        return switch (place) {
            case ROCKER_TIP, PUSHROD_END, FORKED_ROCKER, BRIDGE -> new String[] {"screw out", "screw in"};
            case FULCRUM_NUT -> new String[] {"nut up the stud", "nut down the stud"};
            case THREADED_PUSHROD -> new String[] {"pushrod shorter", "pushrod longer"};
            case TAPPET -> new String[] {"tappet screw in", "tappet screw out"};
        };
    }

    /** Whole turns of a wedge screw. */
    private static String wedge(Adjustment.Turn a) {
        BigDecimal turns = turns(a.degrees().from());
        return first(a.first()) + "wedge screw " + count(a.degrees().from().abs())
                + (turns.abs().compareTo(BigDecimal.ONE) == 0 ? " whole turn" : " whole turns")
                + " so that the clearance " + (turns.signum() < 0 ? "shrinks" : "grows")
                + a.findCertain()
                        .filter(c -> c.from().compareTo(c.to()) != 0)
                        .map(c -> " (certain: "
                                + (turns.signum() < 0
                                        ? count(c.to().negate()) + " to "
                                                + count(c.from().negate())
                                        : count(c.from()) + " to " + count(c.to()))
                                + ")")
                        .orElse("")
                + "; whole turns only; recheck";
    }

    private static String count(BigDecimal degrees) {
        return turns(degrees).toPlainString();
    }

    private static BigDecimal turns(BigDecimal degrees) {
        return degrees.divide(BigDecimal.valueOf(FULL_TURN)).stripTrailingZeros();
    }

    private static String eccentric(List<EccentricTurn> turns) {
        return turns.isEmpty()
                ? ""
                : ": turn the eccentric "
                        + turns.stream().map(EccentricTurn::toString).collect(Collectors.joining("; or "));
    }

    /** What the nut does, to a thousandth of a millimetre: more would say more than is known. */
    private static String shift(Optional<LockShift> shift) {
        return shift.map(s -> BigDecimal.valueOf(s.mean()).setScale(THOUSANDTHS, RoundingMode.HALF_EVEN))
                .filter(mean -> mean.signum() != 0)
                .map(mean -> " (the nut is likely to " + (mean.signum() < 0 ? "take " : "add ")
                        + mean.abs().toPlainString() + " mm)")
                .orElse("");
    }

    private static String byHabit(HabitShim habit, LengthUnit unit) {
        return "; by the shop's rounding (" + habit.rounding().habit() + ") "
                + habit.findSize()
                        .map(size -> size + " from " + habit.ideal()
                                + habit.findResulting()
                                        .map(i -> ", gives " + TextReport.interval(i, unit))
                                        .orElse("")
                                + (habit.certain() ? "" : ", not certain"))
                        .orElse("no size from " + habit.ideal());
    }

    /** What to do, in words. */
    static String words(Adjustment adjustment, LengthUnit unit, Bench bench) {
        return adjustment.match(new Adjustment.Cases<>() {
            @Override
            public String leave(Adjustment.Leave a) {
                return "leave";
            }

            @Override
            public String setToLeaf(Adjustment.SetToLeaf a) {
                boolean likely = a.findLockShift().isPresent();
                return first(a.first()) + "set to leaf " + TextReport.leaf(a.leaf(), unit)
                        + a.findTurn()
                                .map(turn -> ", " + way(turn, bench.train))
                                .orElse("")
                        + eccentric(a.eccentric())
                        + shift(a.findLockShift())
                        + (likely ? "; lock; the recheck decides" : "; lock, recheck");
            }

            @Override
            public String turn(Adjustment.Turn a) {
                if (bench.train instanceof ValveTrain.Wedge) {
                    return wedge(a);
                }
                boolean likely = a.findLockShift().isPresent();
                String from = a.from() == Adjustment.TurnFrom.NO_PLAY
                        ? ways(bench.train)[1] + " to no play, then "
                        : likely ? "no owned leaf is likely to end in the window: " : "no owned leaf fits the window: ";
                return first(a.first())
                        + from
                        + way(a.degrees(), a.findFlats(), bench.train)
                        + a.findCertain()
                                .map(c -> "; certain: " + way(c, bench.train))
                                .orElse(likely ? "" : "; none is certain: narrow the reading first if a leaf can")
                        + shift(a.findLockShift())
                        + (likely ? "; lock; the recheck decides" : "; lock, recheck");
            }

            @Override
            public String fitShim(Adjustment.FitShim a) {
                String inBox = a.inBox() ? " (" + bench.stock(a.shim()) + ")" : " (not in the box)";
                String others = a.certain().size() == 1 ? "" : "; certain: " + sizes(a.certain());
                return "fit shim " + a.shim() + inBox + ", gives " + TextReport.interval(a.resulting(), unit) + others
                        + a.findByHabit().map(habit -> byHabit(habit, unit)).orElse("");
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
                                .map(then -> "; then " + words(then, unit, bench))
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
