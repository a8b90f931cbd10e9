package dev.lash.trend;

import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import dev.lash.measure.Usage;
import dev.lash.trend.FeasibleLines.Crossings;
import java.util.List;
import java.util.Optional;

/** All straight lines through the readings of one gap, and when they leave its window. */
record StraightLines(FeasibleLines lines, Crossing earliest, Crossing latest, boolean tightFirst, double clearance) {

    /** The lines, or empty where none goes through every reading or there is no reading. */
    static Optional<StraightLines> of(TrendTask task, Usage now, Usage per) {
        List<ClearanceHistory.Segment> segments = task.history().segments();
        if (segments.isEmpty()) {
            return Optional.empty();
        }
        FeasibleLines lines = FeasibleLines.through(segments.stream()
                .map(s -> s.readings().stream()
                        .map(r -> new FeasibleLines.Check(r.usage().dividedBy(per), r.level()))
                        .toList())
                .toList());
        LengthInterval offset =
                task.history().last().map(ClearanceHistory.Reading::offset).orElseThrow();
        Length least = offset.lower().orElseThrow();
        Length most = offset.upper().orElseThrow();
        Length low = task.clearance().check().lower();
        Length high = task.clearance().check().upper();
        Ratio at = now.dividedBy(per);
        // a shim whose size is not sure makes the window narrower for the earliest, wider for the latest
        Length lowMost = low.plus(most);
        Length highLeast = Length.max(lowMost, high.plus(least));
        Optional<Crossings> soon = lines.crossings(lowMost, highLeast, at);
        Optional<Crossings> late = lines.crossings(low.plus(least), high.plus(most), at);
        return soon.flatMap(s -> late.map(l -> new StraightLines(
                lines,
                s.earliest(),
                l.latest(),
                s.earliestBelow().compareTo(s.earliestAbove()) <= 0,
                middle(lines, at) - (LineData.millimetres(least) + LineData.millimetres(most)) / 2)));
    }

    /** The middle of the levels now; infinite where nothing bounds them on both sides. */
    private static double middle(FeasibleLines lines, Ratio now) {
        return lines.lowestAt(now)
                .flatMap(low -> lines.highestAt(now).map(high -> (LineData.value(low) + LineData.value(high)) / 2e6))
                .orElse(Double.POSITIVE_INFINITY);
    }
}
