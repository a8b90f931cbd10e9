package dev.lash.check;

import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.UnusualFigure;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.ValveTrain.ScrewPlace;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.StandardGaugeSet;
import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Temperature;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/** Looks for what the mechanic should know about a sheet as a whole. */
final class EngineFindings {
    private EngineFindings() {}

    static List<Finding> of(CheckSheet sheet, List<ValveCheck> checks) {
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
        windows(sheet, findings);
        figures(sheet, findings);
        confirmation(sheet, findings);
        forkedRockers(sheet, checks, findings);
        Set<String> missing = new LinkedHashSet<>();
        engine.valves()
                .forEach(v -> engine.gaps().forEach(g -> missing.add(g == Gap.ONLY ? v.toString() : v + " " + g)));
        sheet.valves().forEach(v -> missing.remove(v.name()));
        if (!missing.isEmpty() && !sheet.valves().isEmpty()) {
            String names = String.join(", ", missing);
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

    /**
     * Windows in which a unit or a decimal may have slipped: the upper end beyond what makers give, the ends far apart, or intake and
     * exhaust far apart. The limits are common practice, with room.
     */
    private static void windows(CheckSheet sheet, List<Finding> findings) {
        EngineSpec engine = sheet.engine();
        for (Gap gap : engine.gaps()) {
            for (ValveRole role : ValveRole.values()) {
                engine.findClearance(role, gap).map(ClearanceSpec::check).ifPresent(window -> {
                    Length upper = window.upper();
                    boolean small = gap != Gap.CLOSER && upper.isLessThan(ClearanceWindow.LEAST_USUAL);
                    boolean wide = window.hasEndsApart();
                    if (small || upper.isMoreThan(ClearanceWindow.MOST_USUAL) || wide) {
                        findings.add(unusual(
                                sheet,
                                role,
                                gap,
                                wide
                                        ? "has ends more than " + ClearanceWindow.MOST_ENDS_APART + " times apart"
                                        : "is no usual clearance",
                                ClearanceWindow.LEAST_USUAL.toString(
                                                sheet.gauges().unit()) + " to "
                                        + ClearanceWindow.MOST_USUAL.toString(
                                                sheet.gauges().unit())));
                    }
                });
            }
            Optional<ClearanceWindow> intake =
                    engine.findClearance(ValveRole.INTAKE, gap).map(ClearanceSpec::check);
            Optional<ClearanceWindow> exhaust =
                    engine.findClearance(ValveRole.EXHAUST, gap).map(ClearanceSpec::check);
            if (gap != Gap.CLOSER && intake.isPresent() && exhaust.isPresent()) {
                sides(sheet, gap, intake.get(), exhaust.get(), findings);
            }
        }
    }

    /** The windows of the two roles beside each other. */
    private static void sides(
            CheckSheet sheet, Gap gap, ClearanceWindow intake, ClearanceWindow exhaust, List<Finding> findings) {
        String than = " the intake's, " + intake.toString(sheet.gauges().unit());
        if (intake.isUnlike(exhaust)) {
            findings.add(unusual(
                    sheet, ValveRole.EXHAUST, gap, "is five times or more off" + than, "two windows of one size"));
        }
        if (exhaust.isTighterThan(intake) && !isVouchedFor(sheet.engine(), gap)) {
            findings.add(windowUnusual(
                    sheet,
                    ValveRole.EXHAUST,
                    gap,
                    "is tighter than" + than + ": the sides may be swapped",
                    "an exhaust window that is not tighter, as most makers give it (common practice)",
                    "hold both against the maker's manual before a valve is left or set by them"));
        }
    }

    /** Whether the shop read both windows in the manual and no template says otherwise. */
    private static boolean isVouchedFor(EngineSpec engine, Gap gap) {
        return engine.overridden().stream().noneMatch(was -> was.figure().isWindow())
                && Stream.of(ValveRole.values())
                        .allMatch(role -> engine.findClearance(role, gap)
                                .filter(ClearanceSpec::isConfirmed)
                                .isPresent());
    }

    /** Figures other than windows that makers do not give: turns, stops and forecasts that rest on them are likely wrong. */
    private static void figures(CheckSheet sheet, List<Finding> findings) {
        for (UnusualFigure odd : UnusualFigure.of(sheet.engine())) {
            findings.add(new Finding(
                    FindingCode.FIGURE_UNUSUAL,
                    "engine",
                    odd + ": a decimal or the unit may have slipped",
                    odd.value(),
                    odd.expected(),
                    odd.mend() + ", and hold it against the maker's manual before work rests on it"));
        }
    }

    private static Finding unusual(CheckSheet sheet, ValveRole role, Gap gap, String why, String expected) {
        return windowUnusual(
                sheet,
                role,
                gap,
                why + ": a decimal or the unit may have slipped",
                expected,
                "hold it against the maker's manual before a valve is set to it");
    }

    private static Finding windowUnusual(
            CheckSheet sheet, ValveRole role, Gap gap, String why, String expected, String mend) {
        String window = sheet.engine()
                .findClearance(role, gap)
                .map(c -> c.check().toString(sheet.gauges().unit()))
                .orElseThrow();
        return new Finding(
                FindingCode.WINDOW_UNUSUAL,
                "engine",
                gap.behind(role.word()) + " window " + window + " " + why,
                window,
                expected,
                mend);
    }

    private static void confirmation(CheckSheet sheet, List<Finding> findings) {
        LengthUnit unit = sheet.gauges().unit();
        for (ValveRole role : ValveRole.values()) {
            if (sheet.engine().valves().stream().noneMatch(v -> v.role() == role)) {
                continue;
            }
            for (Gap gap : sheet.engine().gaps()) {
                sheet.engine()
                        .findClearance(role, gap)
                        .filter(c -> !c.isConfirmed())
                        .map(ClearanceSpec::check)
                        .ifPresent(window -> findings.add(new Finding(
                                FindingCode.WINDOW_NOT_CONFIRMED,
                                "engine",
                                gap.behind(role.word()) + " window " + window.toString(unit)
                                        + " is a typical value, not confirmed by the shop",
                                window.toString(unit),
                                "the figure of the maker's manual",
                                "read it in the manual and enter where it stands")));
            }
        }
    }

    /** One arm over two valves: the tighter side carries the arm, so the other side reads too loose. */
    private static void forkedRockers(CheckSheet sheet, List<ValveCheck> checks, List<Finding> findings) {
        if (!(sheet.engine().train() instanceof ValveTrain.Screw screw) || screw.place() != ScrewPlace.FORKED_ROCKER) {
            return;
        }
        for (ValveCheck check : checks) {
            ValveId valve = check.reading().valve();
            boolean carried = checks.stream()
                    .filter(other -> other.reading().valve().cylinder() == valve.cylinder()
                            && other.reading().valve().role() == valve.role()
                            && !other.reading().valve().equals(valve))
                    .anyMatch(other -> other.bracket().isPresent()
                            && check.bracket().isPresent()
                            && other.bracket()
                                    .orElseThrow()
                                    .interval()
                                    .liesBelow(check.bracket().orElseThrow().interval()));
            if (carried) {
                String text = check.bracket()
                        .orElseThrow()
                        .interval()
                        .toString(sheet.gauges().unit());
                findings.add(new Finding(
                        FindingCode.FORKED_ROCKER,
                        valve.toString(),
                        "the other valve on this arm is tighter and carries the arm: " + text + " may read too loose",
                        text,
                        "both valves of an arm alike",
                        "set the tighter valve first, then read and set this one, then read both again"));
            }
        }
    }
}
