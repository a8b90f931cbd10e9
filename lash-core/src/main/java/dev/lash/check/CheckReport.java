package dev.lash.check;

import static java.util.Objects.requireNonNull;

import dev.lash.adjust.Adjuster;
import dev.lash.adjust.ShimPlan;
import dev.lash.adjust.ShimPlanner;
import dev.lash.adjust.ShimSlot;
import dev.lash.check.Unconfirmed.Use;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.judge.VerdictProbabilities;
import dev.lash.measure.Ratio;
import dev.lash.plan.LeafPlanner;
import dev.lash.trend.CheckBy;
import dev.lash.trend.EngineTrend;
import dev.lash.trend.Forecast;
import dev.lash.trend.TrendMethod;
import dev.lash.trend.ValveTrend;
import dev.lash.trend.WearTrendFitter;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * Everything said about a check sheet.
 *
 * @param sheet the sheet
 * @param valves what is said of each valve, in the order of the sheet
 * @param findings what the mechanic should know: of the engine first, then valve by valve
 * @param cautions what every report carries, then the engine's own
 * @param trend wear, forecasts and the time to check; {@code null} where the sheet has no usage or no earlier check with one
 * @param odds for readings that leave the verdict undecided, by valve and gap, how likely each verdict is by what the earlier checks
 *     of all valves let expect; empty where there is no trend
 */
public record CheckReport(
        CheckSheet sheet,
        List<ValveCheck> valves,
        List<Finding> findings,
        List<String> cautions,
        @Nullable EngineTrend trend,
        Map<String, VerdictProbabilities> odds)
        implements Serializable {
    /** Findings about a gap that put its trend in doubt. */
    private static final Set<FindingCode> DOUBTFUL = Set.of(
            FindingCode.CLOSED_UP_FAST,
            FindingCode.OPENED_UP,
            FindingCode.RECORD_MISSING,
            FindingCode.SHIM_NOT_AS_RECORDED,
            FindingCode.DECOMPRESSOR_HOLDS,
            FindingCode.MAY_HAVE_NO_CLEARANCE);

    /**
     * Creates a report.
     *
     * @param sheet the sheet
     * @param valves what is said of each valve, in the order of the sheet
     * @param findings what the mechanic should know: of the engine first, then valve by valve
     * @param cautions what every report carries, then the engine's own
     * @param trend wear, forecasts and the time to check; {@code null} where the sheet has no usage or no earlier check with one
     * @param odds for readings that leave the verdict undecided, by valve and gap, how likely each verdict is
     */
    public CheckReport {
        requireNonNull(sheet, "sheet");
        valves = List.copyOf(valves);
        findings = List.copyOf(findings);
        cautions = List.copyOf(cautions);
        odds = Map.copyOf(odds);
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
        Histories histories = new Histories(sheet, valves);
        EngineTrend trend = null;
        Map<String, VerdictProbabilities> odds = new HashMap<>();
        WarningSigns signs = new WarningSigns(sheet, valves, histories);
        if (histories.isWorthwhile()) {
            EngineForecast forecast = EngineForecast.of(sheet, histories, WearTrendFitter.withDefaults());
            trend = forecast.trend();
            valves.forEach(check ->
                    forecast.odds(check).ifPresent(o -> odds.put(check.reading().name(), o)));
            ExpectedReadings expected = forecast.expectedReadings();
            signs.wear(forecast);
            valves = valves.stream()
                    .map(check -> withForecast(
                            sheet,
                            check,
                            adjuster,
                            forecast.lastingAim(check).filter(aim -> !isInDoubt(check, signs.findings())),
                            expected))
                    .toList();
        }
        signs.symptoms();
        List<Finding> findings = new ArrayList<>(EngineFindings.of(sheet, valves));
        findings.addAll(signs.findings());
        valves.forEach(valve -> findings.addAll(valve.findings()));
        return new CheckReport(sheet, valves, findings, Cautions.of(sheet.engine()), trend, odds);
    }

    /** Whether the readings that a trend rests on are in doubt, so that it must not choose where to set. */
    private static boolean isInDoubt(ValveCheck check, List<Finding> signs) {
        return Stream.concat(signs.stream(), check.findings().stream())
                .anyMatch(f -> f.place().equals(check.reading().name()) && DOUBTFUL.contains(f.code()));
    }

    /** A valve whose aim and next leaf follow the forecast. */
    private static ValveCheck withForecast(
            CheckSheet sheet, ValveCheck check, Adjuster adjuster, Optional<Ratio> aim, ExpectedReadings expected) {
        ValveReading reading = check.reading();
        LeafPlanner leaves = expected.planner(LeafPlanner.withDefaults(), reading.valve(), reading.gap());
        return aim.isEmpty() && (leaves.prior().isEmpty() || check.nextLeaf().isEmpty())
                ? check
                : ValveCheck.of(
                        sheet, reading, aim.map(adjuster::withLastingAim).orElse(adjuster), leaves, aim.isPresent());
    }

    /** {@return wear, forecasts and the time to check, or empty where the sheet has no usage or no earlier check with one} */
    public Optional<EngineTrend> findTrend() {
        return Optional.ofNullable(trend);
    }

    /**
     * Trends by other settings than the report's own, and also where no earlier check is known. The maker's interval is that of the
     * engine.
     *
     * @param fitter the settings
     * @return the trends, worked out anew at each call; empty where the sheet has no usage or no gap has a window
     */
    public Optional<EngineTrend> trend(WearTrendFitter fitter) {
        Histories histories = new Histories(sheet, valves);
        return sheet.usage().isEmpty() || histories.tasks(true).isEmpty()
                ? Optional.empty()
                : Optional.of(EngineForecast.trend(sheet, histories, fitter));
    }

    /**
     * What to do at once where the time to check is now: with every gap that may be outside its window by more than the risk, or that
     * was read outside it; where none is so by itself, with the one most likely outside.
     *
     * @param trends trends of this report's sheet
     * @return the gaps and what each calls for, in the order of the trends; none where the time to check is not now
     */
    public List<CheckNow> checkNow(EngineTrend trends) {
        if (trends.checkBy().reason() != CheckBy.Reason.NOW) {
            return List.of();
        }
        List<CheckNow> all = trends.valves().stream().map(this::checkNow).toList();
        List<CheckNow> due = IntStream.range(0, all.size())
                .filter(i -> all.get(i).work() == CheckNow.Work.SET
                        || mayBeOut(trends.valves().get(i).forecast()))
                .mapToObj(all::get)
                .toList();
        return due.isEmpty() ? trends.limiting().map(this::checkNow).stream().toList() : due;
    }

    private static boolean mayBeOut(Forecast forecast) {
        return forecast.findEarliest()
                .filter(out -> out.compareAmount(forecast.now()) <= 0)
                .isPresent();
    }

    private CheckNow checkNow(ValveTrend trend) {
        ValveId valve = trend.task().history().valve();
        Gap gap = trend.task().history().gap();
        return new CheckNow(
                valve,
                gap,
                valves.stream()
                        .filter(check -> check.reading().valve().equals(valve)
                                && check.reading().gap() == gap)
                        .findFirst()
                        .map(CheckNow::work)
                        .orElse(CheckNow.Work.READ));
    }

    /**
     * How likely each verdict is for a reading that leaves it undecided, by what the earlier checks of all valves let expect.
     *
     * @param check a valve of this report
     * @return the probabilities; empty where the verdict is not undecided or there is no trend
     */
    public Optional<VerdictProbabilities> probabilities(ValveCheck check) {
        return Optional.ofNullable(odds.get(check.reading().name()));
    }

    /**
     * The best use of the shims in the engine, in the box and to buy, over all valves of the sheet, each as it stands now: with the
     * shim that was fitted, the clearance of the recheck, and the box as {@link CheckSheet#shimBoxNow} has it.
     *
     * @return the plan, worked out anew at each call; empty where the train has no shims or the sheet no valves
     */
    public Optional<ShimPlan> shimPlan() {
        List<ShimSlot> slots = ShimSlots.of(sheet, valves);
        return slots.isEmpty()
                ? Optional.empty()
                : Optional.of(ShimPlanner.withDefaults()
                        .withUnit(sheet.gauges().unit())
                        .plan(slots, sheet.shimBoxNow()));
    }

    /**
     * The same, but so that the first valve to leave its window does so as late as can be, by the trends: how long a clearance lasts is
     * {@link dev.lash.trend.LastingAim#survival}. That decides only between plans with as few valves not certain, camshafts lifted,
     * shims bought and sizes changed.
     *
     * @return the plan, worked out anew at each call; empty as {@link #shimPlan} or where there is no trend
     */
    public Optional<ShimPlan> longestLastingShimPlan() {
        List<ShimSlot> slots = ShimSlots.of(sheet, valves);
        EngineTrend known = trend;
        return slots.isEmpty() || known == null
                ? Optional.empty()
                : Optional.of(ShimPlanner.withDefaults()
                        .withUnit(sheet.gauges().unit())
                        .withSurvival((slot, clearance) -> EngineForecast.survival(known, slot, clearance))
                        .plan(slots, sheet.shimBoxNow()));
    }

    /**
     * The figures that this report leans on and that the shop has not confirmed: those of windows, adjustments and crank stops, and
     * where there is a trend those of the time to check.
     *
     * @return the figures, none where all are confirmed
     */
    public List<Unconfirmed> unconfirmed() {
        Set<Use> uses = EnumSet.of(Use.VERDICTS, Use.ADJUSTMENTS, Use.CRANK_STOPS);
        if (trend != null) {
            uses.addAll(forecasting(true));
        }
        return Unconfirmed.of(sheet.engine(), sheet.gauges().unit(), uses);
    }

    /**
     * The figures that the {@linkplain #shimPlan shim plan} leans on and that the shop has not confirmed.
     *
     * @return the figures, none where all are confirmed
     */
    public List<Unconfirmed> unconfirmedOfShims() {
        return Unconfirmed.of(sheet.engine(), sheet.gauges().unit(), EnumSet.of(Use.ADJUSTMENTS));
    }

    /**
     * The figures that the {@linkplain #longestLastingShimPlan longest-lasting shim plan} leans on and that the shop has not confirmed:
     * those of the shim plan, and the wear prior.
     *
     * @return the figures, none where all are confirmed
     */
    public List<Unconfirmed> unconfirmedOfLastingShims() {
        Set<Use> uses = EnumSet.of(Use.ADJUSTMENTS);
        if (leansOnWearPrior()) {
            uses.add(Use.WEAR_PRIOR);
        }
        return Unconfirmed.of(sheet.engine(), sheet.gauges().unit(), uses);
    }

    private boolean leansOnWearPrior() {
        return sheet.usage()
                .flatMap(now -> sheet.engine().wearPrior().filter(p -> p.per().isSameKind(now)))
                .isPresent();
    }

    /**
     * The figures that {@linkplain #trend(WearTrendFitter) trends} lean on and that the shop has not confirmed.
     *
     * @param trend the trends; those with priors, or with the prior alone, lean on the wear prior
     * @return the figures, none where all are confirmed
     */
    public List<Unconfirmed> unconfirmedOfTrend(EngineTrend trend) {
        boolean withPriors = trend.valves().stream()
                .map(v -> v.trend().method())
                .anyMatch(m -> m == TrendMethod.WITH_PRIORS || m == TrendMethod.PRIOR_ONLY);
        return Unconfirmed.of(sheet.engine(), sheet.gauges().unit(), forecasting(withPriors));
    }

    /** What a forecast uses: interval and prior only where they count what the counter does. */
    private Set<Use> forecasting(boolean withPriors) {
        Set<Use> uses = EnumSet.of(Use.FORECAST_WINDOWS);
        sheet.usage().ifPresent(now -> {
            if (EngineForecast.interval(sheet, now) != null) {
                uses.add(Use.CHECK_INTERVAL);
            }
            if (withPriors && leansOnWearPrior()) {
                uses.add(Use.WEAR_PRIOR);
            }
        });
        return uses;
    }

    /** {@return whether a finding is of error severity} */
    public boolean hasErrors() {
        return findings.stream().anyMatch(f -> f.severity() == Severity.ERROR);
    }
}
