package dev.lash.check;

import static java.util.Objects.requireNonNull;

import dev.lash.adjust.Adjuster;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.StandardGaugeSet;
import dev.lash.measure.Length;
import dev.lash.measure.Temperature;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;

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
        List<Finding> findings = new ArrayList<>(engineFindings(sheet));
        valves.forEach(valve -> findings.addAll(valve.findings()));
        return new CheckReport(sheet, valves, findings, Cautions.of(sheet.engine()));
    }

    /** {@return whether a finding is of error severity} */
    public boolean hasErrors() {
        return findings.stream().anyMatch(f -> f.severity() == Severity.ERROR);
    }

    private static List<Finding> engineFindings(CheckSheet sheet) {
        List<Finding> findings = new ArrayList<>();
        EngineSpec engine = sheet.engine();
        temperature(sheet, findings);
        if (sheet.rule() instanceof ReadingRule.Guarded guarded
                && guarded.tolerance().signum() == 0
                && guarded.dragAllowance().signum() == 0) {
            findings.add(new Finding(
                    FindingCode.NOTHING_GUARDED,
                    "gauges",
                    "the guarded rule was asked for, but tolerance and drag allowance are both 0",
                    guarded.toString(sheet.gauges().unit()),
                    "a tolerance of the leaves, or a drag allowance",
                    "give the figures of your own leaves, or take the simple rule"));
        }
        tolerance(sheet.gauges(), findings);
        if (engine.train() instanceof ValveTrain.Hydraulic) {
            if (sheet.valves().stream().anyMatch(v -> !v.trials().isEmpty())) {
                findings.add(new Finding(
                        FindingCode.NO_CLEARANCE_IN_THIS_TRAIN,
                        "engine",
                        "leaves were offered, but hydraulic lifters have no clearance",
                        engine.train().kind(),
                        "no trials",
                        "check the engine's valve train in the manual"));
            }
            return findings;
        }
        confirmation(sheet, findings);
        Set<ValveId> missing = new LinkedHashSet<>(engine.valves());
        sheet.valves().forEach(v -> missing.remove(v.valve()));
        if (!missing.isEmpty() && !sheet.valves().isEmpty()) {
            String names = missing.stream().map(ValveId::toString).collect(Collectors.joining(", "));
            findings.add(new Finding(
                    FindingCode.NOT_MEASURED,
                    "engine",
                    "not on the sheet: " + names,
                    names,
                    "every valve of the engine",
                    "measure them too"));
        }
        return findings;
    }

    private static void tolerance(GaugeSet gauges, List<Finding> findings) {
        Length tolerance = gauges.tolerance();
        String band =
                StandardGaugeSet.LEAST_PUBLISHED_TOLERANCE + " to " + StandardGaugeSet.LARGEST_PUBLISHED_TOLERANCE;
        if (tolerance.signum() > 0
                && (tolerance.isLessThan(StandardGaugeSet.LEAST_PUBLISHED_TOLERANCE)
                        || tolerance.isMoreThan(StandardGaugeSet.LARGEST_PUBLISHED_TOLERANCE))) {
            findings.add(new Finding(
                    FindingCode.TOLERANCE_UNUSUAL,
                    "gauges",
                    "a leaf tolerance of " + tolerance.toString(gauges.unit()) + " lies outside the published " + band
                            + " (JIS B 7524:2008)",
                    tolerance.toString(gauges.unit()),
                    band,
                    "check the figure and its unit"));
        }
    }

    private static void temperature(CheckSheet sheet, List<Finding> findings) {
        EngineSpec engine = sheet.engine();
        String mend = "let the engine reach the maker's condition and read again; until then the verdicts are in doubt";
        if (sheet.engineTemperature().isEmpty()) {
            engine.warmest()
                    .or(engine::coldest)
                    .ifPresent(limit -> findings.add(new Finding(
                            FindingCode.TEMPERATURE_NOT_RECORDED,
                            "engine",
                            "the engine's temperature was not recorded; the maker's condition is " + condition(engine),
                            "",
                            condition(engine),
                            "measure it, or let the engine stand overnight")));
            return;
        }
        Temperature now = sheet.engineTemperature().orElseThrow();
        engine.warmest()
                .filter(now::isAbove)
                .ifPresent(limit -> findings.add(new Finding(
                        FindingCode.ENGINE_TOO_WARM,
                        "engine",
                        "at " + now + " the engine is warmer than the maker's condition, " + condition(engine),
                        now.toString(),
                        condition(engine),
                        mend)));
        engine.coldest()
                .filter(limit -> limit.isAbove(now))
                .ifPresent(limit -> findings.add(new Finding(
                        FindingCode.ENGINE_TOO_COLD,
                        "engine",
                        "at " + now + " the engine is colder than the maker's condition, " + condition(engine),
                        now.toString(),
                        condition(engine),
                        mend)));
    }

    private static String condition(EngineSpec engine) {
        String least = engine.coldest().map(t -> "at least " + t).orElse("");
        String most = engine.warmest().map(t -> "at most " + t).orElse("");
        return least.isEmpty() || most.isEmpty() ? least + most : least + ", " + most;
    }

    private static void confirmation(CheckSheet sheet, List<Finding> findings) {
        for (ValveRole role : ValveRole.values()) {
            boolean used = sheet.engine().valves().stream().anyMatch(v -> v.role() == role);
            sheet.engine()
                    .findClearance(role)
                    .filter(c -> used && !c.isConfirmed())
                    .map(ClearanceSpec::check)
                    .ifPresent(window -> findings.add(new Finding(
                            FindingCode.WINDOW_NOT_CONFIRMED,
                            "engine",
                            role.word() + " window "
                                    + window.toString(sheet.gauges().unit())
                                    + " is a typical value, not confirmed by the shop",
                            window.toString(sheet.gauges().unit()),
                            "the figure of the maker's manual",
                            "read it in the manual and enter where it stands")));
        }
    }
}
