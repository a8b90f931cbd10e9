package dev.lash.check;

import static java.util.Objects.requireNonNull;

import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.measure.LengthDistribution;
import dev.lash.plan.LeafPlanner;
import dev.lash.trend.ClearanceHistory;
import dev.lash.trend.TrendTask;
import dev.lash.trend.WearTrendFitter;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What the next reading of each gap is expected to be, by the earlier checks of a sheet; today's readings do not come in. A gap that
 * was not read at {@value #FEWEST} checks or more has no expectation: it would be that of the prior alone. Immutable and thread-safe.
 */
public final class ExpectedReadings {
    static final int FEWEST = 2;
    private static final ExpectedReadings NONE = new ExpectedReadings(Map.of());

    private final Map<Place, LengthDistribution> readings;

    private record Place(ValveId valve, Gap gap) {}

    private ExpectedReadings(Map<Place, LengthDistribution> readings) {
        this.readings = Map.copyOf(readings);
    }

    /** {@return no expectation of any gap} */
    public static ExpectedReadings none() {
        return NONE;
    }

    /**
     * Works them out, which takes as long as a forecast of the engine.
     *
     * @param sheet the sheet; its earlier checks count, and what the counter shows now
     * @return the expectations, none where the sheet has no usage or no earlier check with one
     */
    public static ExpectedReadings of(CheckSheet sheet) {
        Histories histories = new Histories(sheet, List.of());
        return histories.isWorthwhile()
                ? EngineForecast.expectedReadings(sheet, histories, WearTrendFitter.withDefaults())
                : NONE;
    }

    static ExpectedReadings of(List<TrendTask> before, List<LengthDistribution> expected) {
        Map<Place, LengthDistribution> readings = new HashMap<>();
        for (int i = 0; i < before.size(); i++) {
            ClearanceHistory history = before.get(i).history();
            if (history.checks() >= FEWEST) {
                readings.put(new Place(history.valve(), history.gap()), expected.get(i));
            }
        }
        return new ExpectedReadings(readings);
    }

    /**
     * What is expected of one gap.
     *
     * @param valve the valve
     * @param gap the gap
     * @return the distribution of the clearance read, or empty where too few checks tell
     */
    public Optional<LengthDistribution> find(ValveId valve, Gap gap) {
        requireNonNull(gap, "gap");
        return Optional.ofNullable(readings.get(new Place(requireNonNull(valve, "valve"), gap)));
    }

    /**
     * A planner of one gap's leaves.
     *
     * @param leaves how leaves are planned where nothing is expected
     * @param valve the valve
     * @param gap the gap
     * @return the same with what is expected as its prior, or as it was where nothing is
     */
    public LeafPlanner planner(LeafPlanner leaves, ValveId valve, Gap gap) {
        requireNonNull(leaves, "leaves");
        return find(valve, gap).map(leaves::withPrior).orElse(leaves);
    }
}
