package dev.lash.specs;

import dev.lash.adjust.ShimBox;
import dev.lash.adjust.ShimPlan;
import dev.lash.check.Unconfirmed;
import dev.lash.measure.LengthUnit;
import dev.lash.specs.JsonText.Fields;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Writes shim plans as reports and the shims command give them. */
public final class ShimPlanForms {
    private ShimPlanForms() {}

    /**
     * A shim plan as a document: {@code {"shimPlan": {...}}}, and {@code "unconfirmed"} where it leans on figures that the shop has not
     * confirmed.
     *
     * @param plan the plan
     * @param unit the unit of lengths
     * @param unconfirmed the figures that it leans on and that the shop has not confirmed
     * @return the document, without a line end
     */
    public static String write(ShimPlan plan, LengthUnit unit, List<Unconfirmed> unconfirmed) {
        return JsonText.write(
                new Fields()
                        .put("shimPlan", fields(plan, unit))
                        .putList("unconfirmed", FigureForms.unconfirmed(unconfirmed))
                        .map(),
                true);
    }

    static Map<String, Object> fields(ShimPlan plan, LengthUnit unit) {
        return new Fields()
                .put("moves", plan.moves().stream().map(m -> move(m, unit)).toList())
                .put("camshafts", plan.camshafts())
                .put("buy", sizes(plan.buy(), unit))
                .put("toBox", sizes(plan.toBox(), unit))
                .put("steps", plan.steps().stream().map(ShimPlan.Step::text).toList())
                .map();
    }

    private static Map<String, Object> move(ShimPlan.Move move, LengthUnit unit) {
        return new Fields()
                .put("valve", move.valve().toString())
                .put("gap", Optional.of(move.gap()).filter(gap -> !gap.isEmpty()))
                .put("shim", move.findShim().map(size -> size.toString(unit)))
                .put("from", move.source().toString())
                .put("resulting", SharedForms.interval(move.resulting(), unit))
                .put("verdict", move.verdict().word())
                .put("certain", move.certain())
                .put("why", move.why())
                .map();
    }

    private static List<String> sizes(List<ShimBox.Lot> lots, LengthUnit unit) {
        return lots.stream()
                .flatMap(lot -> Collections.nCopies(lot.count(), lot.size().toString(unit)).stream())
                .toList();
    }
}
