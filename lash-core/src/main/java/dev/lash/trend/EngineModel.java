package dev.lash.trend;

import dev.lash.engine.WearPrior;
import dev.lash.measure.Length;
import dev.lash.measure.Usage;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * The gaps of an engine in numbers, and what is thought of them with priors. Used by one thread.
 *
 * <p>A gap may not be what the prior expects of any: one that wears many times as fast, or that was far from its window at first. Held
 * to the prior, its fall would pass for scatter, its own forecast would be late, and its neighbours would share the scatter. So where
 * the readings of a gap are a thousand times as likely under a far wider prior, they are reckoned with that one: a level far off stays
 * with its family; a drift far off counts alone. By Markov's inequality that befalls less than one in a thousand of the gaps that
 * are what the prior says.
 */
final class EngineModel {
    private static final double LOG_ODDS = Math.log(1000);
    private static final int WIDER = 50;
    private static final Length WIDEST = Length.ofMillimetres("1");

    /** A gap is looked at more closely where its drift is so many deviations off, or the scatter by the square of the factor. */
    private static final double OFF = 2.5;

    private final List<Line> lines;
    private final @Nullable EnginePosterior common;

    /** What is thought of one gap. */
    private record Line(LineData data, EnginePosterior posterior, int place, boolean alone, String note) {}

    /** Readings with the prior that fits them. */
    private record Reading(LineData data, WearPrior prior, boolean alone, String note) {}

    private EngineModel(List<Reading> readings, WearPrior prior) {
        List<LineData> shared =
                readings.stream().filter(r -> !r.alone).map(Reading::data).toList();
        this.common = shared.isEmpty() ? null : new EnginePosterior(shared, prior);
        List<Line> made = new ArrayList<>();
        int place = 0;
        for (Reading reading : readings) {
            if (reading.alone || common == null) {
                made.add(new Line(
                        reading.data,
                        new EnginePosterior(List.of(reading.data), reading.prior),
                        0,
                        true,
                        reading.note));
            } else {
                made.add(new Line(reading.data, common, place, false, reading.note));
                place++;
            }
        }
        this.lines = List.copyOf(made);
    }

    static EngineModel of(List<TrendTask> tasks, WearPrior prior, Usage now) {
        EngineModel plain = new EngineModel(
                tasks.stream()
                        .map(task -> new Reading(LineData.of(task, now, prior), prior, false, ""))
                        .toList(),
                prior);
        boolean odd = false;
        List<Reading> fitting = new ArrayList<>();
        for (int v = 0; v < tasks.size(); v++) {
            boolean isOdd = plain.isOdd(v, prior);
            fitting.add(
                    isOdd
                            ? fitting(tasks.get(v), plain.data(v), prior, now)
                            : new Reading(plain.data(v), prior, false, ""));
            odd |= isOdd;
        }
        if (!odd) {
            return plain;
        }
        EngineModel mended = new EngineModel(fitting, prior);
        return mended.common == null || mended.common.isPossible()
                ? mended
                // each for itself, since no family of drifts has them all: two valves mixed up in the records, perhaps
                : new EngineModel(
                        fitting.stream()
                                .map(r -> r.alone
                                        ? r
                                        : new Reading(
                                                r.data,
                                                r.prior,
                                                true,
                                                "; the valves are too unlike each other to learn from each other"))
                                .toList(),
                        prior);
    }

    private boolean isOdd(int v, WearPrior prior) {
        EnginePosterior all = lines.get(v).posterior;
        if (!all.isPossible() || data(v).isFar()) {
            return true;
        }
        double factor = LineData.value(prior.factor());
        double deviation =
                Math.hypot(LineData.millimetres(prior.driftDeviation()), LineData.millimetres(prior.spread()) * factor);
        return all.scatter() > LineData.millimetres(prior.scatter()) * factor * factor
                || Math.abs(law(v).drift() - all.centre(data(v).family)) > OFF * deviation;
    }

    /** The readings of one gap with the narrowest prior that they do not contradict. */
    private static Reading fitting(TrendTask task, LineData data, WearPrior prior, Usage now) {
        WearPrior wide = wide(prior);
        String valve = "; " + task.name();
        List<Reading> ways = List.of(
                new Reading(data, prior, false, ""),
                new Reading(
                        data.withWideLevels(),
                        prior,
                        false,
                        valve + " was far from the window to set to when first read"),
                new Reading(
                        data, wide, true, valve + " wears so unlike what is assumed that only its own readings count"),
                new Reading(
                        data.withWideLevels(),
                        wide,
                        true,
                        valve + " wears, and was set, so unlike what is assumed that only its own readings count"));
        Optional<Reading> best = Optional.empty();
        double most = Double.NEGATIVE_INFINITY;
        for (Reading way : ways) {
            double evidence = new EnginePosterior(List.of(way.data), way.prior).logEvidence;
            if (evidence > most + LOG_ODDS) {
                best = Optional.of(way);
                most = evidence;
            }
        }
        return best.orElseGet(() -> lastOnly(task, wide, now));
    }

    private static WearPrior wide(WearPrior prior) {
        Length wide = prior.driftDeviation().times(WIDER);
        return new WearPrior(
                prior.per(),
                prior.drift(),
                wide.isMoreThan(WIDEST) ? WIDEST : wide,
                prior.spread(),
                prior.scatter(),
                prior.factor(),
                prior.basis());
    }

    /**
     * No line comes near the readings, however fast the wear and large the scatter: something else happened than wear. Only the last
     * reading counts, and the drift is next to unknown.
     */
    private static Reading lastOnly(TrendTask task, WearPrior wide, Usage now) {
        ClearanceHistory history = task.history();
        List<ClearanceHistory.Segment> last = history.last().map(r -> new ClearanceHistory.Segment(List.of(r))).stream()
                .toList();
        TrendTask left = new TrendTask(new ClearanceHistory(history.valve(), history.gap(), last), task.clearance());
        return new Reading(
                LineData.of(left, now, wide).withWideLevels(),
                wide,
                true,
                "; earlier readings of " + task.name()
                        + " that no steady wear explains are left out, so next to nothing is known of its wear");
    }

    /** What a reader should know of how the readings of a gap were taken; empty where there is nothing to know. */
    String note(int v) {
        return lines.get(v).note;
    }

    /** Whether only the gap's own readings count. */
    boolean isAlone(int v) {
        return lines.get(v).alone;
    }

    LineData data(int v) {
        return lines.get(v).data;
    }

    LineLaw law(int v) {
        Line line = lines.get(v);
        return new PosteriorLaw(line.posterior, line.place, line.data);
    }

    /** The probability that no gap has left its window between now and so much use from now. */
    double allStay(double ahead) {
        double product = common == null ? 1 : common.allStay(ahead);
        for (Line line : lines) {
            product *= line.alone ? line.posterior.stays(0, ahead) : 1;
        }
        return product;
    }
}
