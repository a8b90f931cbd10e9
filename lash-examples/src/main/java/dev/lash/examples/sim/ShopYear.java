package dev.lash.examples.sim;

import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.engine.WearPrior;
import dev.lash.gauge.Bracket;
import dev.lash.gauge.Evidence;
import dev.lash.gauge.Fit;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.Trial;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthDistribution;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Usage;
import dev.lash.plan.LeafPlan;
import dev.lash.plan.LeafPlanner;
import dev.lash.plan.PlanGoal;
import dev.lash.trend.ClearanceHistory;
import dev.lash.trend.TrendTask;
import dev.lash.trend.WearTrendFitter;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.function.Function;
import org.apache.commons.numbers.gamma.Erfc;

/**
 * How many strokes a valve takes until its verdict is certain, over a simulated year at the riding school, by several ways to
 * choose the next leaf.
 *
 * <p>Truth: at the last visit a valve was left anywhere in its window; since then it has drifted by a normal amount, 0.015 mm
 * closer on average with a standard deviation of 0.015 mm (assumed: no wear rate is published). The hand reads by the simple rule.
 * The seed is fixed, so the table is the same each time.
 */
public final class ShopYear {
    private static final long SEED = 20310402L;
    private static final double DRIFT = -0.015;
    private static final double SPREAD = 0.015;
    private static final double PER_MILLIMETRE = 1e6;
    private static final int CHECKS_BEFORE = 3;
    private static final long INTERVAL = 6000;

    /** One kind of machine in the fleet. */
    private record Machines(String name, int valvesChecked, List<ClearanceWindow> windows, GaugeSet gauges) {}

    private static final GaugeSet SCHOOL_SET = GaugeSet.of(
            LengthUnit.MILLIMETRE,
            "0.03",
            "0.04",
            "0.05",
            "0.06",
            "0.07",
            "0.08",
            "0.09",
            "0.10",
            "0.11",
            "0.12",
            "0.13",
            "0.14",
            "0.15",
            "0.16",
            "0.17",
            "0.18",
            "0.19",
            "0.20",
            "0.22",
            "0.25",
            "0.28",
            "0.30",
            "0.31",
            "0.35",
            "0.40");

    private static final List<Machines> FLEET = List.of(
            new Machines(
                    "training singles and quads, screws", 240, windows("0.08..0.13 mm", "0.17..0.22 mm"), SCHOOL_SET),
            new Machines("road trainers, bucket fours", 480, windows("0.16..0.22 mm", "0.25..0.31 mm"), SCHOOL_SET),
            new Machines("generator and mower", 40, windows("0.05..0.09 mm", "0.12..0.18 mm"), SCHOOL_SET));

    private ShopYear() {}

    private static List<ClearanceWindow> windows(String... texts) {
        return List.of(texts).stream().map(ClearanceWindow::parse).toList();
    }

    /**
     * Prints the table as Markdown.
     *
     * @param args not used
     */
    public static void main(String[] args) {
        System.out.print(table());
    }

    /** The next leaf, given what is known, or empty to stop. */
    private interface Way {
        Optional<LeafStack> next(Bracket known, ClearanceWindow window, GaugeSet gauges, Length lastLeft);
    }

    /** {@return the table as Markdown, every line with its end} */
    public static String table() {
        StringBuilder out = new StringBuilder("| next leaf chosen by |");
        FLEET.forEach(m -> out.append(' ').append(m.name).append(" |"));
        out.append(" all |\n|---|").append("---|".repeat(FLEET.size() + 1)).append('\n');
        row(out, "from the thinnest up until one does not go", ShopYear::thinnestUp);
        row(out, "halving the leaves that are left", ShopYear::halving);
        row(
                out,
                "this plan, no prior",
                (known, window, gauges, left) -> plan(LeafPlanner.withDefaults(), known, window, gauges));
        row(
                out,
                "this plan, had one known what was left and how drift spreads",
                (known, window, gauges, left) -> plan(
                        LeafPlanner.withDefaults()
                                .withPrior(normal(left.nanometres() / PER_MILLIMETRE + DRIFT, SPREAD)),
                        known,
                        window,
                        gauges));
        row(
                out,
                "this plan at a fourth check, no prior",
                (window, gauges, random) -> strokesAtFourth(false, window, gauges, random));
        row(
                out,
                "this plan at a fourth check, expected from the three before",
                (window, gauges, random) -> strokesAtFourth(true, window, gauges, random));
        return out.toString();
    }

    private static void row(StringBuilder out, String name, Way way) {
        row(out, name, (window, gauges, random) -> strokes(way, window, gauges, random));
    }

    /** The strokes that one valve takes. */
    private interface Count {
        int strokes(ClearanceWindow window, GaugeSet gauges, SplittableRandom random);
    }

    private static void row(StringBuilder out, String name, Count count) {
        out.append("| ").append(name).append(" |");
        SplittableRandom random = new SplittableRandom(SEED);
        long allStrokes = 0;
        long allValves = 0;
        for (Machines machines : FLEET) {
            long strokes = 0;
            for (int i = 0; i < machines.valvesChecked; i++) {
                ClearanceWindow window = machines.windows.get(i % machines.windows.size());
                strokes += count.strokes(window, machines.gauges, random);
            }
            out.append(String.format(Locale.ROOT, " %.2f |", (double) strokes / machines.valvesChecked));
            allStrokes += strokes;
            allValves += machines.valvesChecked;
        }
        out.append(String.format(Locale.ROOT, " %.2f |%n", (double) allStrokes / allValves)
                .replace("\r\n", "\n"));
    }

    private static int strokes(Way way, ClearanceWindow window, GaugeSet gauges, SplittableRandom random) {
        Length left = anywhere(window, random);
        Length clearance = after(left, drift(random));
        return read(known -> way.next(known, window, gauges, left), window, clearance)
                .trials()
                .size();
    }

    /**
     * At a fourth check, with or without what a report lets expect by the readings of three checks, each to its verdict only, and the
     * broad prior of the library. The valve drifts as much from each check to the next; where it is outside it is set anew and read
     * again.
     */
    private static int strokesAtFourth(
            boolean byForecast, ClearanceWindow window, GaugeSet gauges, SplittableRandom random) {
        double drift = drift(random);
        Length clearance = anywhere(window, random);
        ClearanceHistory.Builder history = ClearanceHistory.builder(ValveId.parse("1-in-1"), Gap.ONLY);
        for (int check = 0; check < CHECKS_BEFORE; check++) {
            Usage usage = Usage.of(BigDecimal.valueOf(check * INTERVAL), Usage.Unit.KILOMETRE);
            Bracket found = read(known -> plan(LeafPlanner.withDefaults(), known, window, gauges), window, clearance);
            history.read(usage, found.interval());
            if (Verdict.of(found.interval(), window) != Verdict.WITHIN) {
                clearance = anywhere(window, random);
                history.adjusted()
                        .read(
                                usage,
                                read(
                                                known -> plan(LeafPlanner.withDefaults(), known, window, gauges),
                                                window,
                                                clearance)
                                        .interval());
            }
            clearance = after(clearance, drift);
        }
        LeafPlanner planner = LeafPlanner.withDefaults();
        if (byForecast) {
            planner = planner.withPrior(expected(history.build(), window));
        }
        LeafPlanner atFourth = planner;
        return read(known -> plan(atFourth, known, window, gauges), window, clearance)
                .trials()
                .size();
    }

    private static LengthDistribution expected(ClearanceHistory history, ClearanceWindow window) {
        Usage now = Usage.of(BigDecimal.valueOf(CHECKS_BEFORE * INTERVAL), Usage.Unit.KILOMETRE);
        return WearTrendFitter.withDefaults()
                .expectedReadings(
                        List.of(new TrendTask(history, ClearanceSpec.typical(window))),
                        WearPrior.broadFor(now.unit()),
                        now)
                .get(0);
    }

    private static Length anywhere(ClearanceWindow window, SplittableRandom random) {
        return Length.ofNanometres(window.lower().nanometres()
                + (long) (random.nextDouble() * window.width().nanometres()));
    }

    /** How much a valve drifts from one check to the next, in millimetres. */
    private static double drift(SplittableRandom random) {
        // a normal deviate from twelve uniform ones: coarse in the far tails, which do not matter here
        double deviate = -6;
        for (int i = 0; i < 12; i++) {
            deviate += random.nextDouble();
        }
        return DRIFT + SPREAD * deviate;
    }

    private static Length after(Length clearance, double drift) {
        return Length.ofNanometres(Math.max(1, clearance.nanometres() + Math.round(drift * PER_MILLIMETRE)));
    }

    /** Reads a valve until its verdict is certain or there is no next leaf. */
    private static Bracket read(Function<Bracket, Optional<LeafStack>> next, ClearanceWindow window, Length clearance) {
        List<Trial> trials = new ArrayList<>();
        while (true) {
            Bracket known = Evidence.of(trials, ReadingRule.simple()).bracket().orElseThrow();
            if (Verdict.of(known.interval(), window) != Verdict.UNDECIDED) {
                return known;
            }
            Optional<LeafStack> leaf = next.apply(known);
            if (leaf.isEmpty()) {
                return known;
            }
            trials.add(new Trial(leaf.get(), feel(leaf.get(), clearance)));
        }
    }

    private static Fit feel(LeafStack leaf, Length clearance) {
        int order = clearance.compareTo(leaf.thickness());
        return order > 0 ? Fit.GOES : order == 0 ? Fit.DRAGS : Fit.REFUSES;
    }

    private static Optional<LeafStack> plan(
            LeafPlanner planner, Bracket known, ClearanceWindow window, GaugeSet gauges) {
        LeafPlan plan = planner.plan(gauges, known, PlanGoal.verdict(window));
        return plan.next();
    }

    private static Optional<LeafStack> thinnestUp(Bracket known, ClearanceWindow window, GaugeSet gauges, Length left) {
        return inside(known, gauges).stream().findFirst();
    }

    private static Optional<LeafStack> halving(Bracket known, ClearanceWindow window, GaugeSet gauges, Length left) {
        List<LeafStack> candidates = inside(known, gauges);
        return candidates.isEmpty() ? Optional.empty() : Optional.of(candidates.get(candidates.size() / 2));
    }

    private static List<LeafStack> inside(Bracket known, GaugeSet gauges) {
        return gauges.leaves().stream()
                .filter(leaf -> known.interval().contains(leaf.thickness()))
                .map(LeafStack::of)
                .toList();
    }

    /** A normal distribution in millimetres. */
    private static LengthDistribution normal(double mean, double deviation) {
        return length -> 0.5 * Erfc.value((mean - length.nanometres() / PER_MILLIMETRE) / (deviation * Math.sqrt(2)));
    }
}
