package dev.lash.trend;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.engine.WearPrior;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Usage;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.LongUnaryOperator;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.ShrinkingMode;

/** Laws of trends with priors, over engines of one to three valves read one to five times with leaves of any step. */
class WearTrendFitterProperties {
    private static final WearTrendFitter FITTER = WearTrendFitter.withDefaults();
    private static final WearPrior PRIOR = WearPrior.BY_DISTANCE;
    private static final int NOW = 30_000;

    /** One reading: usage in kilometres, ends in nanometres; of an end that is missing the other is far off. */
    private record Read(int valve, int usage, long low, long high, boolean adjusted) {}

    private static List<Read> engine(Random random) {
        List<Read> reads = new ArrayList<>();
        int valves = 1 + random.nextInt(3);
        for (int v = 0; v < valves; v++) {
            double level = 150_000 + 20_000 * random.nextGaussian();
            double drift = -10_000 + 8_000 * random.nextGaussian();
            long step = 10_000L * (1 + random.nextInt(10));
            int checks = random.nextInt(6);
            for (int i = 0; i < checks; i++) {
                int usage = NOW * i / Math.max(1, checks - 1);
                double read = level + drift * usage / 10_000 + 6_000 * random.nextGaussian();
                long low = step * (long) Math.floor(read / step);
                boolean adjusted = i > 0 && random.nextInt(6) == 0;
                reads.add(new Read(v, usage, low, low + step, adjusted));
            }
        }
        return reads;
    }

    private static List<TrendTask> tasks(
            List<Read> reads,
            LongUnaryOperator low,
            LongUnaryOperator high,
            long perKilometre,
            ClearanceWindow window) {
        int valves = 1 + reads.stream().mapToInt(Read::valve).max().orElse(0);
        List<TrendTask> tasks = new ArrayList<>();
        for (int v = 0; v < valves; v++) {
            ClearanceHistory.Builder history =
                    ClearanceHistory.builder(ValveId.parse((v + 1) + (v == 2 ? "-ex-1" : "-in-1")), Gap.ONLY);
            for (Read read : reads) {
                if (read.valve == v) {
                    if (read.adjusted) {
                        history.adjusted();
                    }
                    history.read(
                            kilometres(read.usage * perKilometre),
                            LengthInterval.open(
                                    Length.ofNanometres(low.applyAsLong(read.low)),
                                    Length.ofNanometres(high.applyAsLong(read.high))));
                }
            }
            tasks.add(new TrendTask(history.build(), ClearanceSpec.typical(window)));
        }
        return tasks;
    }

    private static final ClearanceWindow WINDOW = ClearanceWindow.parse("0.10..0.20 mm");

    private static List<TrendTask> tasks(List<Read> reads) {
        return tasks(reads, x -> x, x -> x, 1, WINDOW);
    }

    private static Usage kilometres(long amount) {
        return Usage.of(BigDecimal.valueOf(amount), Usage.Unit.KILOMETRE);
    }

    private static double left(Forecast forecast, int point) {
        Forecast.Point at = forecast.curve().get(point);
        return at.tight() + at.loose();
    }

    @Property(tries = 60, shrinking = ShrinkingMode.OFF)
    void probabilitiesAreSoundAndNeverFall(@ForAll Random random) {
        EngineTrend trend = FITTER.fit(tasks(engine(random)), PRIOR, kilometres(NOW));
        for (ValveTrend valve : trend.valves()) {
            Forecast forecast = valve.forecast();
            double before = 0;
            for (int i = 0; i < forecast.curve().size(); i++) {
                Forecast.Point at = forecast.curve().get(i);
                assertThat(at.tight()).isBetween(0.0, 1.0);
                assertThat(at.loose()).isBetween(0.0, 1.0);
                assertThat(left(forecast, i)).isBetween(before - 1e-9, 1.0);
                before = left(forecast, i);
            }
            assertThat(left(forecast, 0)).isCloseTo(forecast.leftNow(), within(1e-12));
            forecast.findEarliest()
                    .ifPresent(earliest -> assertThat(trend.checkBy().usage().compareAmount(earliest))
                            .as("the engine is due no later than a valve")
                            .isLessThanOrEqualTo(0));
        }
    }

    @Property(tries = 40, shrinking = ShrinkingMode.OFF)
    void aHigherRiskIsNeverSooner(@ForAll Random random) {
        List<CheckBy> due =
                FITTER.checkBy(tasks(engine(random)), PRIOR, kilometres(NOW), 0.001, 0.01, 0.05, 0.1, 0.2, 0.35, 0.5);
        for (int i = 1; i < due.size(); i++) {
            // each is found a fifth of a percent short of its place
            Usage sooner = due.get(i - 1).usage();
            assertThat(due.get(i).usage().amount().doubleValue())
                    .isGreaterThanOrEqualTo(NOW + 0.997 * (sooner.amount().doubleValue() - NOW) - 1);
        }
    }

    /** The same figures with every length and every usage counted in another unit. */
    @Property(tries = 30, shrinking = ShrinkingMode.OFF)
    void doesNotDependOnUnits(@ForAll Random random) {
        List<Read> reads = engine(random);
        EngineTrend plain = FITTER.fit(tasks(reads), PRIOR, kilometres(NOW));
        WearPrior larger = new WearPrior(
                kilometres(7 * 10_000),
                PRIOR.drift().times(2),
                PRIOR.driftDeviation().times(2),
                PRIOR.spread().times(2),
                PRIOR.scatter().times(2),
                PRIOR.factor(),
                "lengths doubled, usages times seven");
        EngineTrend other = FITTER.fit(
                tasks(reads, x -> 2 * x, x -> 2 * x, 7, ClearanceWindow.parse("0.20..0.40 mm")),
                larger,
                kilometres(7 * NOW));

        assertThat(other.checkBy().reason()).isEqualTo(plain.checkBy().reason());
        assertThat(other.checkBy().usage().amount().doubleValue() / 7)
                .isCloseTo(plain.checkBy().usage().amount().doubleValue(), within(2.0));
        for (int v = 0; v < plain.valves().size(); v++) {
            WearTrend a = plain.valves().get(v).trend();
            WearTrend b = other.valves().get(v).trend();
            assertThat(b.clearance() / 2).isCloseTo(a.clearance(), within(1e-6));
            assertThat(b.drift() / 2).isCloseTo(a.drift(), within(1e-6));
            assertThat(b.driftError() / 2).isCloseTo(a.driftError(), within(1e-6));
        }
    }

    /** Turned over about the middle of the window: what closed up opens up, and tight becomes loose. */
    @Property(tries = 30, shrinking = ShrinkingMode.OFF)
    void whatHoldsForClosingUpHoldsForOpeningUp(@ForAll Random random) {
        List<Read> reads = engine(random);
        List<Read> turned = reads.stream()
                .map(r -> new Read(r.valve, r.usage, 300_000 - r.high, 300_000 - r.low, r.adjusted))
                .toList();
        EngineTrend plain = FITTER.fit(tasks(reads), PRIOR, kilometres(NOW));
        WearPrior opening = new WearPrior(
                PRIOR.per(),
                PRIOR.drift().negated(),
                PRIOR.driftDeviation(),
                PRIOR.spread(),
                PRIOR.scatter(),
                PRIOR.factor(),
                "turned over");
        EngineTrend other = FITTER.fit(tasks(turned), opening, kilometres(NOW));

        double ahead = plain.checkBy().usage().amount().doubleValue() - NOW;
        assertThat(other.checkBy().usage().amount().doubleValue()).isCloseTo(NOW + ahead, within(1 + 0.005 * ahead));
        for (int v = 0; v < plain.valves().size(); v++) {
            ValveTrend a = plain.valves().get(v);
            ValveTrend b = other.valves().get(v);
            assertThat(b.trend().clearance()).isCloseTo(0.3 - a.trend().clearance(), within(1e-4));
            assertThat(b.trend().drift()).isCloseTo(-a.trend().drift(), within(1e-4));
            assertThat(b.forecast().leftNow()).isCloseTo(a.forecast().leftNow(), within(1e-3));
            assertThat(b.forecast().curve().get(0).loose())
                    .isCloseTo(a.forecast().curve().get(0).tight(), within(1e-3));
        }
    }

    @Property(tries = 30, shrinking = ShrinkingMode.OFF)
    void aReadingWithoutEndsSaysNothing(@ForAll Random random) {
        List<Read> reads = engine(random);
        List<TrendTask> plain = tasks(reads);
        List<TrendTask> more = plain.stream()
                .map(task -> {
                    List<ClearanceHistory.Segment> segments =
                            new ArrayList<>(task.history().segments());
                    ClearanceHistory.Reading blank = new ClearanceHistory.Reading(
                            kilometres(NOW), LengthInterval.any(), LengthInterval.point(Length.ZERO));
                    if (!segments.isEmpty()) {
                        List<ClearanceHistory.Reading> last = new ArrayList<>(
                                segments.remove(segments.size() - 1).readings());
                        last.add(blank);
                        segments.add(new ClearanceHistory.Segment(last));
                    }
                    return new TrendTask(
                            new ClearanceHistory(
                                    task.history().valve(), task.history().gap(), segments),
                            task.clearance());
                })
                .toList();

        assertThat(FITTER.fit(more, PRIOR, kilometres(NOW)).checkBy())
                .isEqualTo(FITTER.fit(plain, PRIOR, kilometres(NOW)).checkBy());
    }
}
