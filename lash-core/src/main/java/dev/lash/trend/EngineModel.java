package dev.lash.trend;

import dev.lash.engine.WearPrior;
import dev.lash.measure.Usage;
import java.util.List;

/** The gaps of an engine in numbers, and what is thought of them with priors. Used by one thread. */
final class EngineModel {
    private final List<LineData> data;
    private final EnginePosterior posterior;
    private final boolean complete;

    private EngineModel(List<LineData> data, WearPrior prior, boolean complete) {
        this.data = data;
        this.posterior = new EnginePosterior(data, prior);
        this.complete = complete;
    }

    /**
     * The model of all readings; where no line comes near those of a gap, however fast the wear and large the scatter, something
     * else happened than wear, and of that gap only the last reading counts. Where lines come near those of each gap, but so unlike
     * that no family of drifts has them all (two valves mixed up in the records), only the last readings of all count.
     */
    static EngineModel of(List<TrendTask> tasks, WearPrior prior, Usage now) {
        EngineModel all = new EngineModel(
                tasks.stream().map(task -> LineData.of(task, now, prior)).toList(), prior, true);
        if (all.posterior.isPossible()) {
            return all;
        }
        EngineModel agreeing = new EngineModel(
                tasks.stream().map(task -> agreeing(task, prior, now)).toList(), prior, false);
        return agreeing.posterior.isPossible()
                ? agreeing
                : new EngineModel(
                        tasks.stream()
                                .map(task -> LineData.of(lastOnly(task), now, prior))
                                .toList(),
                        prior,
                        false);
    }

    /** What a reader should know of the readings; empty where all count. */
    String note() {
        return complete ? "" : "; earlier readings that no wear explains are left out";
    }

    private static LineData agreeing(TrendTask task, WearPrior prior, Usage now) {
        LineData all = LineData.of(task, now, prior);
        return new EnginePosterior(List.of(all), prior).isPossible() ? all : LineData.of(lastOnly(task), now, prior);
    }

    private static TrendTask lastOnly(TrendTask task) {
        ClearanceHistory history = task.history();
        List<ClearanceHistory.Segment> last = history.last().map(r -> new ClearanceHistory.Segment(List.of(r))).stream()
                .toList();
        return new TrendTask(new ClearanceHistory(history.valve(), history.gap(), last), task.clearance());
    }

    LineData data(int v) {
        return data.get(v);
    }

    LineLaw law(int v) {
        return new PosteriorLaw(posterior, v, data.get(v));
    }

    /** The probability that no gap has left its window between now and so much use from now. */
    double allStay(double ahead) {
        return posterior.allStay(ahead);
    }
}
