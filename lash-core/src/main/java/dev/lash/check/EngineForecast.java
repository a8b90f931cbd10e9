package dev.lash.check;

import dev.lash.adjust.ShimSlot;
import dev.lash.engine.Gap;
import dev.lash.engine.WearPrior;
import dev.lash.judge.Verdict;
import dev.lash.judge.VerdictProbabilities;
import dev.lash.measure.LengthDistribution;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import dev.lash.measure.Usage;
import dev.lash.trend.EngineTrend;
import dev.lash.trend.LastingAim;
import dev.lash.trend.TrendTask;
import dev.lash.trend.ValveTrend;
import dev.lash.trend.WearTrendFitter;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * The trends of a sheet's engine, and what the readings of today were expected to be.
 *
 * @param trend the trends, today's readings included
 * @param before the gaps, without today's readings
 * @param expected what was expected of each
 */
record EngineForecast(EngineTrend trend, List<TrendTask> before, List<LengthDistribution> expected) {
    private static final int FEW = 3;

    static EngineForecast of(CheckSheet sheet, Histories histories, WearTrendFitter fitter) {
        List<TrendTask> before = histories.tasks(false);
        return new EngineForecast(trend(sheet, histories, fitter), before, expected(sheet, before, fitter));
    }

    /** What the next readings are expected to be, alone. */
    static ExpectedReadings expectedReadings(CheckSheet sheet, Histories histories, WearTrendFitter fitter) {
        List<TrendTask> before = histories.tasks(false);
        return ExpectedReadings.of(before, expected(sheet, before, fitter));
    }

    private static List<LengthDistribution> expected(CheckSheet sheet, List<TrendTask> before, WearTrendFitter fitter) {
        Usage now = sheet.usage().orElseThrow();
        return fitter.expectedReadings(before, prior(sheet, now), now);
    }

    /** What was expected of the readings of today, where the earlier checks are enough to tell. */
    ExpectedReadings expectedReadings() {
        return ExpectedReadings.of(before, expected);
    }

    /** The trends alone. */
    static EngineTrend trend(CheckSheet sheet, Histories histories, WearTrendFitter fitter) {
        Usage now = sheet.usage().orElseThrow();
        return fitter.withInterval(interval(sheet, now)).fit(histories.tasks(true), prior(sheet, now), now);
    }

    /** The engine's own prior where it counts what the counter does, else the broad one. */
    static WearPrior prior(CheckSheet sheet, Usage now) {
        return sheet.engine()
                .wearPrior()
                .filter(p -> p.per().isSameKind(now))
                .orElseGet(() -> WearPrior.broadFor(now.unit()));
    }

    /** The maker's interval where it counts what the counter does. */
    static @Nullable Usage interval(CheckSheet sheet, Usage now) {
        return sheet.engine().checkInterval().filter(i -> i.isSameKind(now)).orElse(null);
    }

    /** What the reading of a gap was expected to be. */
    Optional<LengthDistribution> expected(ValveReading reading) {
        return at(before, reading).map(expected::get);
    }

    /** How likely each verdict is where the reading leaves it undecided. */
    Optional<VerdictProbabilities> odds(ValveCheck check) {
        return check.judgement()
                .filter(judged -> judged.verdict() == Verdict.UNDECIDED)
                .flatMap(judged -> expected(check.reading()).flatMap(judged::probabilities));
    }

    private static Optional<Integer> at(List<TrendTask> tasks, ValveReading reading) {
        for (int i = 0; i < tasks.size(); i++) {
            if (tasks.get(i).history().valve().equals(reading.valve())
                    && tasks.get(i).history().gap() == reading.gap()) {
                return Optional.of(i);
            }
        }
        return Optional.empty();
    }

    /** Where to set a gap so that it lasts, once its own checks say something. */
    Optional<Ratio> lastingAim(ValveCheck check) {
        return trend.find(check.reading().valve(), check.reading().gap())
                .filter(v -> v.task().history().checks() >= FEW)
                // an adjuster counts the aim of a closer from the other end
                .map(v -> check.reading().gap() == Gap.CLOSER
                        ? Ratio.ONE.minus(LastingAim.of(v.trend()))
                        : LastingAim.of(v.trend()));
    }

    static double survival(EngineTrend trend, ShimSlot slot, LengthInterval clearance) {
        for (ValveTrend valve : trend.valves()) {
            Gap gap = valve.task().history().gap();
            if (valve.task().history().valve().equals(slot.valve())
                    && slot.gap().equals(gap == Gap.ONLY ? "" : gap.word())) {
                return LastingAim.survival(
                        valve.trend(), clearance, valve.task().clearance().check());
            }
        }
        return 0;
    }
}
