package dev.lash.trend;

import dev.lash.engine.WearPrior;
import dev.lash.measure.Usage;
import java.util.List;

/** The gaps of an engine in numbers, and what is thought of them with priors. Used by one thread. */
final class EngineModel {
    private final List<LineData> data;
    private final EnginePosterior posterior;

    private EngineModel(List<LineData> data, WearPrior prior) {
        this.data = data;
        this.posterior = new EnginePosterior(data, prior);
    }

    /**
     * The model of all readings; where no line comes near those of a gap, however fast the wear and large the scatter, something
     * else happened than wear, and of that gap only the last reading counts.
     */
    static EngineModel of(List<TrendTask> tasks, WearPrior prior, Usage now) {
        EngineModel all = new EngineModel(
                tasks.stream().map(task -> LineData.of(task, now, prior)).toList(), prior);
        return all.posterior.isPossible()
                ? all
                : new EngineModel(
                        tasks.stream().map(task -> agreeing(task, prior, now)).toList(), prior);
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
