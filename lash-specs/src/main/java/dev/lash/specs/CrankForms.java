package dev.lash.specs;

import dev.lash.check.Unconfirmed;
import dev.lash.engine.CrankPlan;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.ValveId;
import dev.lash.measure.LengthUnit;
import dev.lash.specs.JsonText.Fields;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;

/** Writes crank plans as reports and the crank command give them. */
public final class CrankForms {
    private CrankForms() {}

    /**
     * A crank plan as a document: {@code {"crankStops": [...], "leftOver": [...], "unreachable": [...], "timingAssumed": true}},
     * {@code "overridden"} where the shop laid figures over a template, and {@code "unconfirmed"} where the plan leans on figures that the
     * shop has not confirmed.
     *
     * @param plan the plan
     * @param engine the engine that it is for
     * @param unit the unit of lengths
     * @return the document, without a line end
     */
    public static String write(CrankPlan plan, EngineSpec engine, LengthUnit unit) {
        List<Unconfirmed> unconfirmed = Unconfirmed.of(engine, unit, EnumSet.of(Unconfirmed.Use.CRANK_STOPS));
        return JsonText.write(
                new Fields()
                        .put("crankStops", stops(plan))
                        .put("leftOver", leftOver(plan))
                        .put("unreachable", names(plan.unreachable()))
                        .put("timingAssumed", plan.timingAssumed())
                        .putList("overridden", FigureForms.overridden(engine, unit))
                        .putList("unconfirmed", FigureForms.unconfirmed(unconfirmed))
                        .map(),
                true);
    }

    /** The fields of a report: those of {@link #write} without lists that are empty; no assumption where nothing is measured. */
    static void put(CrankPlan plan, Fields fields) {
        fields.put("crankStops", stops(plan))
                .putList("leftOver", leftOver(plan))
                .putList("unreachable", names(plan.unreachable()));
        if (!plan.stops().isEmpty() || !plan.isComplete()) {
            fields.put("timingAssumed", plan.timingAssumed());
        }
    }

    private static List<Map<String, Object>> stops(CrankPlan plan) {
        return plan.stops().stream()
                .map(stop -> new Fields()
                        .put("angle", stop.angle() + " deg")
                        .put("turn", stop.turn() + " deg")
                        .put("valves", names(stop.valves()))
                        .put("sign", stop.sign())
                        .map())
                .toList();
    }

    private static List<Map<String, Object>> leftOver(CrankPlan plan) {
        return plan.leftOver().entrySet().stream()
                .map(left -> new Fields()
                        .put("valve", left.getKey().toString())
                        .put("angle", left.getValue() + " deg")
                        .map())
                .toList();
    }

    private static List<String> names(List<ValveId> valves) {
        return valves.stream().map(ValveId::toString).toList();
    }
}
