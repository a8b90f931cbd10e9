package dev.lash.check;

import static java.util.Objects.requireNonNull;

import dev.lash.adjust.Adjuster;
import dev.lash.adjust.ShimPlan;
import dev.lash.adjust.ShimPlanner;
import dev.lash.adjust.ShimSlot;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Everything said about a check sheet.
 *
 * @param sheet the sheet
 * @param valves what is said of each valve, in the order of the sheet
 * @param findings what the mechanic should know: of the engine first, then valve by valve
 * @param cautions what every report carries, then the engine's own
 */
public record CheckReport(CheckSheet sheet, List<ValveCheck> valves, List<Finding> findings, List<String> cautions)
        implements Serializable {
    /**
     * Creates a report.
     *
     * @param sheet the sheet
     * @param valves what is said of each valve, in the order of the sheet
     * @param findings what the mechanic should know: of the engine first, then valve by valve
     * @param cautions what every report carries, then the engine's own
     */
    public CheckReport {
        requireNonNull(sheet, "sheet");
        valves = List.copyOf(valves);
        findings = List.copyOf(findings);
        cautions = List.copyOf(cautions);
    }

    /**
     * Works out a sheet with the default adjuster.
     *
     * @param sheet the sheet
     * @return the report
     */
    public static CheckReport of(CheckSheet sheet) {
        return of(sheet, Adjuster.withDefaults());
    }

    /**
     * Works out a sheet.
     *
     * @param sheet the sheet
     * @param adjuster how adjustments are worked out
     * @return the report
     */
    public static CheckReport of(CheckSheet sheet, Adjuster adjuster) {
        List<ValveCheck> valves = sheet.valves().stream()
                .map(reading -> ValveCheck.of(sheet, reading, adjuster))
                .toList();
        List<Finding> findings = new ArrayList<>(EngineFindings.of(sheet, valves));
        valves.forEach(valve -> findings.addAll(valve.findings()));
        return new CheckReport(sheet, valves, findings, Cautions.of(sheet.engine()));
    }

    /**
     * The best use of the shims in the engine, in the box and to buy, over all valves of the sheet.
     *
     * @return the plan, worked out anew at each call; empty where the train has no shims or the sheet no valves
     */
    public Optional<ShimPlan> shimPlan() {
        List<ShimSlot> slots = ShimSlots.of(sheet, valves);
        return slots.isEmpty()
                ? Optional.empty()
                : Optional.of(ShimPlanner.withDefaults()
                        .withUnit(sheet.gauges().unit())
                        .plan(slots, sheet.shimBox()));
    }

    /** {@return whether a finding is of error severity} */
    public boolean hasErrors() {
        return findings.stream().anyMatch(f -> f.severity() == Severity.ERROR);
    }
}
