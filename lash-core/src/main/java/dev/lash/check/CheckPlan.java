package dev.lash.check;

import static java.util.Objects.requireNonNull;

import dev.lash.check.Unconfirmed.Use;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.CrankPlan;
import dev.lash.engine.CrankPlanner;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.ValveTrain.ShimPlace;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.ReadingRule;
import dev.lash.measure.Length;
import dev.lash.plan.LeafPlan;
import dev.lash.plan.LeafPlanner;
import dev.lash.plan.PlanGoal;
import dev.lash.plan.SetCheck;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/**
 * The pre-job card: what a mechanic wants to know before the covers come off.
 *
 * @param engine the engine
 * @param gauges the leaves that are owned
 * @param setCheck whether the leaves can decide every window, and what to add
 * @param layOut the leaves and stacks to lay out: those that a plan may offer, and those to set with
 * @param firstLeaves the leaf to begin with at each gap that leaves are planned for, in the order of the engine's valves
 * @param crank where to stop the engine, and which valves to measure there
 * @param tools what to have at hand
 * @param steps the work in its order
 * @param writeDown what to write down
 * @param cautions the cautions that every report carries, then the engine's own
 */
public record CheckPlan(
        EngineSpec engine,
        GaugeSet gauges,
        SetCheck setCheck,
        List<LeafStack> layOut,
        List<FirstLeaf> firstLeaves,
        CrankPlan crank,
        List<String> tools,
        List<String> steps,
        List<String> writeDown,
        List<String> cautions)
        implements Serializable {
    private static final List<String> ALWAYS_AT_HAND = List.of(
            "clean, lightly oiled leaves",
            "rags for the openings",
            "the maker's service manual",
            "torque wrench",
            "light");

    /**
     * Creates a card.
     *
     * @param engine the engine
     * @param gauges the leaves that are owned
     * @param setCheck whether the leaves can decide every window, and what to add
     * @param layOut the leaves and stacks to lay out
     * @param firstLeaves the leaf to begin with at each gap that leaves are planned for
     * @param crank where to stop the engine, and which valves to measure there
     * @param tools what to have at hand
     * @param steps the work in its order
     * @param writeDown what to write down
     * @param cautions the cautions that every report carries, then the engine's own
     */
    public CheckPlan {
        requireNonNull(engine, "engine");
        requireNonNull(gauges, "gauges");
        requireNonNull(setCheck, "setCheck");
        layOut = List.copyOf(layOut);
        firstLeaves = List.copyOf(firstLeaves);
        requireNonNull(crank, "crank");
        tools = List.copyOf(tools);
        steps = List.copyOf(steps);
        writeDown = List.copyOf(writeDown);
        cautions = List.copyOf(cautions);
    }

    /**
     * Plans a check.
     *
     * @param engine the engine
     * @param gauges the leaves that are owned
     * @param leaves how trials are planned
     * @param crank where the engine may be stopped
     * @return the card
     */
    public static CheckPlan of(EngineSpec engine, GaugeSet gauges, LeafPlanner leaves, CrankPlanner crank) {
        return of(engine, gauges, ReadingRule.simple(), ExpectedReadings.none(), leaves, crank);
    }

    /**
     * Plans a check of a machine that was checked before: each valve begins with the leaf that its forecast chooses.
     *
     * @param sheet the sheet, with engine, leaves, rule, what the counter shows now, and the earlier checks
     * @param leaves how trials are planned
     * @param crank where the engine may be stopped
     * @return the card
     */
    public static CheckPlan of(CheckSheet sheet, LeafPlanner leaves, CrankPlanner crank) {
        return of(sheet.engine(), sheet.gauges(), sheet.rule(), ExpectedReadings.of(sheet), leaves, crank);
    }

    private static CheckPlan of(
            EngineSpec engine,
            GaugeSet gauges,
            ReadingRule rule,
            ExpectedReadings expected,
            LeafPlanner leaves,
            CrankPlanner crank) {
        SetCheck setCheck = SetCheck.of(engine, gauges, leaves);
        CrankPlan stops = crank.plan(engine);
        Beginnings beginnings = Beginnings.of(engine, gauges, rule, expected, leaves);
        return new CheckPlan(
                engine,
                gauges,
                setCheck,
                layOut(engine, gauges, setCheck, beginnings.offers()),
                beginnings.first(),
                stops,
                tools(engine),
                steps(engine, stops),
                writeDown(engine),
                Cautions.of(engine));
    }

    /**
     * The leaf that a gap's trials begin with.
     *
     * @param valve the valve
     * @param gap the gap
     * @param leaf the leaf or stack
     * @param byForecast whether what the earlier checks let expect chose it; else it was planned as if nothing were known
     */
    public record FirstLeaf(ValveId valve, Gap gap, LeafStack leaf, boolean byForecast) implements Serializable {
        /**
         * Creates it.
         *
         * @param valve the valve
         * @param gap the gap
         * @param leaf the leaf or stack
         * @param byForecast whether what the earlier checks let expect chose it
         */
        public FirstLeaf {
            requireNonNull(valve, "valve");
            requireNonNull(gap, "gap");
            requireNonNull(leaf, "leaf");
        }
    }

    /** How the trials of every gap begin, and what their plans may offer by the rule that they are read by. */
    private record Beginnings(List<FirstLeaf> first, Set<LeafStack> offers) {
        static Beginnings of(
                EngineSpec engine, GaugeSet gauges, ReadingRule rule, ExpectedReadings expected, LeafPlanner leaves) {
            List<FirstLeaf> first = new ArrayList<>();
            Set<LeafStack> offers = new TreeSet<>();
            Map<ClearanceWindow, LeafPlan> unknown = new HashMap<>();
            boolean hydraulic = engine.train() instanceof ValveTrain.Hydraulic;
            for (ValveId valve : hydraulic ? List.<ValveId>of() : engine.valves()) {
                // a closer is a difference of two readings of its opener: no plan of its own
                Gap gap = engine.gaps().get(0);
                Optional<ClearanceWindow> window =
                        engine.findClearance(valve.role(), gap).map(ClearanceSpec::check);
                if (window.isEmpty()) {
                    continue;
                }
                PlanGoal goal = PlanGoal.verdict(window.get());
                Optional<LeafPlan> forecast = expected.find(valve, gap)
                        .map(prior -> leaves.withPrior(prior).plan(gauges, rule, goal));
                LeafPlan plan = forecast.orElseGet(
                        () -> unknown.computeIfAbsent(window.get(), w -> leaves.plan(gauges, rule, goal)));
                offers.addAll(plan.offers());
                plan.next().ifPresent(leaf -> first.add(new FirstLeaf(valve, gap, leaf, forecast.isPresent())));
            }
            return new Beginnings(first, offers);
        }
    }

    private static List<LeafStack> layOut(
            EngineSpec engine, GaugeSet gauges, SetCheck setCheck, Set<LeafStack> offers) {
        TreeSet<LeafStack> all = new TreeSet<>(offers);
        setCheck.windows().forEach(w -> all.addAll(w.plan().offers()));
        if (engine.train() instanceof ValveTrain.Screw || engine.train() instanceof ValveTrain.Eccentric) {
            for (ValveRole role : ValveRole.values()) {
                engine.findClearance(role)
                        .map(ClearanceSpec::setTo)
                        .ifPresent(window -> gauges.leaves().stream()
                                .filter(leaf -> window.interval().contains(leaf.thickness()))
                                .map(LeafStack::of)
                                .forEach(all::add));
            }
        }
        for (ValveRole role : ValveRole.values()) {
            engine.findClearance(role, Gap.CLOSER)
                    .filter(c -> engine.gaps().contains(Gap.CLOSER))
                    .flatMap(closer -> engine.findClearance(role)
                            .map(opener ->
                                    opener.check().upper().plus(closer.check().upper())))
                    .ifPresent(loaded -> all.addAll(upTo(loaded, gauges)));
        }
        return List.copyOf(all);
    }

    /** Both readings of which a closer is the difference want neighbouring leaves: all up to the largest that may be read. */
    private static List<LeafStack> upTo(Length most, GaugeSet gauges) {
        List<LeafStack> leaves = new ArrayList<>();
        for (Leaf leaf : new TreeSet<>(gauges.leaves())) {
            leaves.add(LeafStack.of(leaf));
            if (!leaf.thickness().isLessThan(most)) {
                break;
            }
        }
        return leaves;
    }

    private static List<String> tools(EngineSpec engine) {
        List<String> tools = new ArrayList<>(ALWAYS_AT_HAND);
        if (engine.train().shimRatio().isPresent()) {
            tools.add("micrometer for the shims, and the shim box");
        }
        tools.addAll(engine.tools());
        return tools;
    }

    private static List<String> steps(EngineSpec engine, CrankPlan stops) {
        if (engine.train() instanceof ValveTrain.Hydraulic) {
            return List.of("Hydraulic lifters: there is no clearance to measure or to set.");
        }
        List<String> steps = new ArrayList<>();
        steps.add("Let the engine reach the maker's condition" + condition(engine) + ". Write down its temperature.");
        steps.add("Isolate, support and clean the machine; take off the covers.");
        steps.add(CrankPlanner.findNumber1(engine));
        int number = 1;
        for (String stop : stops.steps()) {
            steps.add("Stop " + number + ". " + stop);
            number++;
        }
        steps.addAll(stops.notes());
        if (engine.gaps().contains(Gap.CLOSER)) {
            steps.add(
                    "At each valve read the opener gap unloaded, then again with the valve pushed down against its closer"
                            + " (loaded): loaded less unloaded is the closer gap. Feel whether the closer turns free by hand.");
        }
        steps.add("Measure every valve before anything is adjusted; judge, then adjust those that are tight or loose.");
        if (engine.train() instanceof ValveTrain.Shim shim && shim.place() != ShimPlace.OVER_BUCKET) {
            steps.add("Lift a camshaft only when all its valves are measured and the shims are planned.");
        }
        steps.add("Turn the engine over by hand twice and measure again what was adjusted.");
        steps.add(
                "Nothing left inside; gaskets, covers and torque by the manual; start outdoors, listen, look for leaks.");
        return steps;
    }

    private static String condition(EngineSpec engine) {
        String least = engine.coldest().map(t -> " at least " + t).orElse("");
        String most = engine.warmest().map(t -> " at most " + t).orElse("");
        return least.isEmpty() && most.isEmpty() ? " (cold, unless the manual says otherwise)" : ":" + least + most;
    }

    private static List<String> writeDown(EngineSpec engine) {
        if (engine.train() instanceof ValveTrain.Hydraulic) {
            return List.of("date, counter reading");
        }
        List<String> list = new ArrayList<>(List.of(
                "date, counter reading, engine temperature",
                "each valve: every leaf tried and how it fitted, as found"));
        if (engine.gaps().contains(Gap.CLOSER)) {
            list.add(
                    "each opener: the leaves tried unloaded and those tried loaded; each closer: whether it turns free");
        }
        if (engine.train().shimRatio().isPresent()) {
            list.add("each shim: its mark and its size by micrometer, out and in");
        }
        list.add("what was done, and the leaves tried after it");
        boolean unconfirmed = engine.gaps().stream()
                .flatMap(gap -> List.of(ValveRole.values()).stream().map(role -> engine.findClearance(role, gap)))
                .anyMatch(c -> c.filter(spec -> !spec.isConfirmed()).isPresent());
        if (unconfirmed) {
            list.add("where the manual gives the windows: those here are typical values, not confirmed");
        }
        return list;
    }

    /**
     * The figures that this card leans on and that the shop has not confirmed.
     *
     * @return the figures, none where all are confirmed
     */
    public List<Unconfirmed> unconfirmed() {
        return Unconfirmed.of(engine, gauges.unit(), EnumSet.of(Use.VERDICTS, Use.ADJUSTMENTS, Use.CRANK_STOPS));
    }
}
