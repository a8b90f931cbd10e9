package dev.lash.specs;

import dev.lash.engine.CrankPlan;
import dev.lash.engine.ValveId;
import dev.lash.specs.JsonText.Fields;
import java.util.List;
import java.util.Map;

/** Writes crank plans as reports and the crank command give them. */
public final class CrankForms {
    private CrankForms() {}

    /**
     * A crank plan as a document: {@code {"crankStops": [...]}}.
     *
     * @param plan the plan
     * @return the document, without a line end
     */
    public static String write(CrankPlan plan) {
        return JsonText.write(new Fields().put("crankStops", stops(plan)).map(), true);
    }

    static List<Map<String, Object>> stops(CrankPlan plan) {
        return plan.stops().stream()
                .map(stop -> new Fields()
                        .put("angle", stop.angle() + " deg")
                        .put("turn", stop.turn() + " deg")
                        .put(
                                "valves",
                                stop.valves().stream().map(ValveId::toString).toList())
                        .put("sign", stop.sign())
                        .map())
                .toList();
    }
}
