package dev.lash.check;

import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.ReadingRule;
import dev.lash.measure.Length;
import dev.lash.measure.Ratio;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** What an import asks of an engine, laid out for quick answers. A slot is one gap of one valve. */
final class EngineView {
    final ImportedMachine machine;
    final List<ValveId> valves;
    final List<Gap> gaps;
    final boolean hasClearance;
    final double warmest;
    final long leafTolerance;
    final long dragAllowance;
    final double shimRatio;
    final boolean hasShims;

    private final Map<String, Integer> names = new HashMap<>();
    private final String[] valveNames;
    private final ValveId[] valveOf;
    private final Gap[] gapOf;
    private final long[] low;
    private final long[] high;
    private final int[] opposite;
    private final long[] leaves;
    private final int mostStacked;
    private final @Nullable ShimRange shims;
    private final @Nullable ShimRange closerShims;

    EngineView(ImportedMachine machine) {
        this.machine = machine;
        EngineSpec engine = machine.engine();
        this.valves = engine.valves();
        this.gaps = engine.gaps();
        this.hasClearance = !(engine.train() instanceof ValveTrain.Hydraulic);
        this.warmest = engine.warmest().map(t -> number(t.celsius())).orElse(Double.POSITIVE_INFINITY);
        ReadingRule rule = machine.rule();
        this.leafTolerance =
                rule instanceof ReadingRule.Guarded g ? g.tolerance().nanometres() : 0;
        this.dragAllowance =
                rule instanceof ReadingRule.Guarded g ? g.dragAllowance().nanometres() : 0;
        ValveTrain train = engine.train();
        this.hasShims = train.shimRatio().isPresent();
        this.shimRatio = number(train.shimRatio().orElse(Ratio.ONE));
        this.shims = train.shims(Gap.OPENER).orElse(null);
        this.closerShims = train.shims(Gap.CLOSER).orElse(null);
        this.leaves = machine.findGauges()
                .map(set -> set.leaves().stream()
                        .mapToLong(leaf -> leaf.thickness().nanometres())
                        .sorted()
                        .toArray())
                .orElseGet(() -> new long[0]);
        this.mostStacked = machine.findGauges().map(GaugeSet::mostStacked).orElse(3);
        this.valveOf = new ValveId[valves.size() * gaps.size()];
        this.gapOf = new Gap[valveOf.length];
        this.low = new long[slots()];
        this.high = new long[slots()];
        this.opposite = new int[slots()];
        this.valveNames = valves.stream().map(ValveId::toString).toArray(String[]::new);
        for (int v = 0; v < valves.size(); v++) {
            ValveId valve = valves.get(v);
            names.put(valve.toString(), v);
            ValveRole other = valve.role() == ValveRole.INTAKE ? ValveRole.EXHAUST : ValveRole.INTAKE;
            int partner = valves.indexOf(new ValveId(valve.cylinder(), other, valve.place()));
            for (int g = 0; g < gaps.size(); g++) {
                int slot = v * gaps.size() + g;
                valveOf[slot] = valve;
                gapOf[slot] = gaps.get(g);
                Optional<ClearanceSpec> spec = engine.findClearance(valve.role(), gaps.get(g));
                low[slot] = spec.map(s -> s.check().lower().nanometres()).orElse(Span.NO_LOW);
                high[slot] = spec.map(s -> s.check().upper().nanometres()).orElse(Span.NO_HIGH);
                opposite[slot] = partner < 0 ? -1 : partner * gaps.size() + g;
            }
        }
    }

    private static double number(Ratio ratio) {
        return ratio.numerator().doubleValue() / ratio.denominator().doubleValue();
    }

    int slots() {
        return valveOf.length;
    }

    /** As {@link #find(String)}, with a guess that is tried first: rows of a visit mostly come in the engine's order. */
    int find(String name, int guess) {
        return guess < valveNames.length && valveNames[guess].equals(name) ? guess : find(name);
    }

    /** The index of a valve among the engine's, or -1. */
    int find(String name) {
        Integer index = names.get(name);
        return index == null ? -1 : index;
    }

    ValveId valve(int slot) {
        return valveOf[slot];
    }

    Gap gap(int slot) {
        return gapOf[slot];
    }

    boolean hasWindow(int slot) {
        return low[slot] != Span.NO_LOW;
    }

    long low(int slot) {
        return low[slot];
    }

    long high(int slot) {
        return high[slot];
    }

    /** The slot of the other role with the same cylinder and place, or -1. */
    int opposite(int slot) {
        return opposite[slot];
    }

    /** The sizes of the slot's shims, or {@code null}. */
    @Nullable
    ShimRange shims(int slot) {
        return gap(slot) == Gap.CLOSER ? closerShims : shims;
    }

    /** Whether a size is one of the slot's shims. */
    boolean isShimMade(int slot, long nanometres) {
        ShimRange sizes = shims(slot);
        if (sizes == null) {
            return false;
        }
        long above = nanometres - sizes.thinnest().nanometres();
        return above >= 0
                && nanometres <= sizes.thickest().nanometres()
                && above % sizes.step().nanometres() == 0;
    }

    boolean knowsLeaves() {
        return leaves.length > 0;
    }

    boolean ownsLeaf(long nanometres) {
        return Arrays.binarySearch(leaves, nanometres) >= 0;
    }

    int mostStacked() {
        return mostStacked;
    }

    String leavesText() {
        return machine.findGauges()
                .map(set -> set.leaves().stream()
                        .map(leaf -> leaf.toString(set.unit()))
                        .toList()
                        .toString())
                .orElse("");
    }

    static String text(long nanometres) {
        return Length.ofNanometres(nanometres).toString();
    }
}
