package dev.lash.specs;

import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Figure;
import dev.lash.engine.FiringOrder;
import dev.lash.engine.Gap;
import dev.lash.engine.Origin;
import dev.lash.engine.ValveRole;
import dev.lash.measure.Temperature;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * Lays the shop's figures over a template. What is given replaces the template's, figure by figure, and is the shop's own; all else
 * stays with its origin. What makes the template another engine is refused: its cylinders and valves, a train with other gaps.
 */
final class TemplateOverlay {
    private static final String CLEARANCES = "clearances";
    private static final String TRAIN = "train";
    private static final List<String> WITH_OTHER_GAPS = List.of("hydraulic", "desmodromic");
    private static final List<String> LAYOUT = List.of("id", "title", "cylinders", "valves");

    private final JsonDocument document;
    private final EngineSpec base;
    private final EngineReader reader;

    TemplateOverlay(JsonDocument document, EngineSpec base) {
        this.document = document;
        this.base = base;
        this.reader = new EngineReader(document);
    }

    /**
     * The template with the figures of the fields.
     *
     * @param confirmedFrom where the shop read its windows, by role
     * @param ownOnly whether that is for the windows of the fields alone, where there are any
     */
    EngineSpec lay(JsonFields fields, Map<ValveRole, String> confirmedFrom, boolean ownOnly) {
        refuseLayout(fields);
        EngineSpec.Builder builder = base.toBuilder();
        fields.find(TRAIN).ifPresent(value -> train(document.fields(value), builder));
        firing(fields, builder);
        windows(fields, confirmedFrom, ownOnly, builder);
        fields.find("condition").map(document::fields).ifPresent(condition -> {
            EngineReader.Condition given = reader.condition(condition);
            refuseHalfTurned(condition, given);
            given.coldest().ifPresent(builder::coldest);
            given.warmest().ifPresent(builder::warmest);
            stated(condition, "minTemperature", Figure.COLDEST, builder);
            stated(condition, "maxTemperature", Figure.WARMEST, builder);
        });
        reader.checkInterval(fields).ifPresent(builder::checkInterval);
        stated(fields, "checkInterval", Figure.CHECK_INTERVAL, builder);
        reader.wearPrior(fields).ifPresent(builder::wearPrior);
        stated(fields, "wearPrior", Figure.WEAR_PRIOR, builder);
        fields.find("camTiming").map(document::fields).map(reader::timing).ifPresent(builder::camTiming);
        stated(fields, "camTiming", Figure.CAM_TIMING, builder);
        fields.find("decompressor").ifPresent(value -> decompressor(value, builder));
        stated(fields, "decompressor", Figure.DECOMPRESSOR, builder);
        fields.find("camshafts").map(document::fields).map(reader::camshafts).ifPresent(builder::camshafts);
        stated(fields, "camshafts", Figure.CAMSHAFTS, builder);
        return document.at(
                fields,
                Map.of(
                        "closer clearances", "closerClearances",
                        "decompressor", "decompressor/valve",
                        "camshafts", "camshafts",
                        "condition", "condition"),
                builder::build);
    }

    /** A figure that the sheet gives is the shop's own, also where it is the same as the template's. */
    private static void stated(JsonFields fields, String name, Figure figure, EngineSpec.Builder builder) {
        if (fields.find(name).isPresent()) {
            builder.origin(figure, Origin.STATED);
        }
    }

    /** One end that lies beyond the template's other end: the sheet's figure may be right, and only the other one is missing. */
    private void refuseHalfTurned(JsonFields condition, EngineReader.Condition given) {
        if (given.warmest().isEmpty()) {
            given.coldest()
                    .ifPresent(coldest -> base.warmest()
                            .filter(coldest::isAbove)
                            .ifPresent(typical ->
                                    halfTurned(condition, "minTemperature", "above", "maxTemperature", typical)));
        } else if (given.coldest().isEmpty()) {
            base.coldest()
                    .filter(coldest -> coldest.isAbove(given.warmest().get()))
                    .ifPresent(typical -> halfTurned(condition, "maxTemperature", "below", "minTemperature", typical));
        }
    }

    private void halfTurned(JsonFields condition, String name, String where, String other, Temperature typical) {
        throw document.error(
                condition.get(name),
                "lies " + where + " the template's " + other + ", " + typical,
                "a " + name + " not " + where + " that, or a " + other + " of the sheet's own beside it",
                "give \"" + other + "\" too; without it that of the template holds");
    }

    private void refuseLayout(JsonFields fields) {
        for (String name : LAYOUT) {
            Json given = fields.object().members().get(name);
            if (given != null) {
                throw document.error(
                        given,
                        "is not laid over a template, which is for one layout alone",
                        "the figures of " + base.id() + ", with valves "
                                + base.valves().stream().map(Object::toString).collect(Collectors.joining(", ")),
                        "remove it; for an engine with others choose another template, or describe it whole in \"inline\"");
            }
        }
    }

    // ---- train ----------------------------------------------------------------------------------------------------

    /**
     * Single figures of the train, or a train of another kind with all its figures: of one kind another takes nothing over, since
     * the same name means another figure there.
     */
    private void train(JsonFields fields, EngineSpec.Builder builder) {
        Json kindValue = fields.object().members().get("kind");
        String own = base.train().kind();
        String kind = kindValue == null ? own : document.text(kindValue, "a kind of valve train");
        Optional<List<String>> known = EngineReader.figuresOf(kind);
        if (known.isPresent()) {
            refuseOthers(fields, kind, known.get());
        }
        Map<String, Json> members = new LinkedHashMap<>();
        if (kind.equals(own)) {
            SheetWriter.train(base.train()).forEach((name, text) -> members.put(name, inherited(fields, name, text)));
            // a screw of a tappet has a pitch, a wedge screw a step: one takes the place of the other
            if (fields.find("step").isPresent()) {
                members.keySet().removeAll(List.of("pitch", "head"));
            } else if (fields.find("pitch").isPresent()) {
                members.remove("step");
            }
        } else if (known.isPresent()) {
            refuseMissing(fields, kind, known.get());
            refuseOtherGaps(kindValue == null ? fields.object() : kindValue, kind);
        }
        members.putAll(fields.members());
        Json at = fields.object();
        Json merged = new Json(Json.Kind.OBJECT, "", List.of(), members, at.pointer(), at.line(), at.column());
        builder.train(reader.train(document.fields(merged)));
        for (Figure figure : Figure.values()) {
            if (figure.isOfTrain()) {
                stated(fields, FigureForms.name(figure), figure, builder);
            }
        }
    }

    private static Json inherited(JsonFields fields, String name, Object text) {
        Json at = fields.object();
        return new Json(
                Json.Kind.TEXT,
                text.toString(),
                List.of(),
                Map.of(),
                at.pointer() + JsonDocument.step(name),
                at.line(),
                at.column());
    }

    private void refuseOthers(JsonFields fields, String kind, List<String> known) {
        for (Map.Entry<String, Json> given : fields.object().members().entrySet()) {
            String name = given.getKey();
            boolean ofAnother = FigureForms.confirmable().stream()
                    .filter(Figure::isOfTrain)
                    .map(FigureForms::name)
                    .anyMatch(name::equals);
            if (ofAnother && !known.contains(name)) {
                throw document.error(
                        given.getValue(),
                        "is a figure that a train of the kind " + kind + " does not have",
                        known.isEmpty() ? "no figures" : "one of " + String.join(", ", known),
                        "remove it; for another train give its \"kind\" and all its figures");
            }
        }
    }

    private void refuseMissing(JsonFields fields, String kind, List<String> known) {
        boolean wedge = fields.find("step").isPresent();
        List<String> missing = known.stream()
                .filter(name -> !name.equals("head") && !name.equals("step") && !(wedge && name.equals("pitch")))
                .filter(name -> fields.find(name).isEmpty())
                .toList();
        if (!missing.isEmpty()) {
            throw document.error(
                    fields.object(),
                    "has no " + String.join(", ", missing) + ", and the template's train is of another kind, "
                            + base.train().kind(),
                    "every figure of a train of the kind " + kind + ": " + String.join(", ", known),
                    "add what is missing: of another kind of train nothing is taken over");
        }
    }

    /** The windows of a template are for its gaps. */
    private void refuseOtherGaps(Json place, String kind) {
        String own = base.train().kind();
        String withOtherGaps = WITH_OTHER_GAPS.stream()
                .filter(other -> other.equals(kind) || other.equals(own))
                .collect(Collectors.joining(" and "));
        if (!withOtherGaps.isEmpty()) {
            throw document.error(
                    place,
                    "has other gaps than the template's " + own + " train, so that its windows do not fit",
                    "a train with the gaps of " + own,
                    "choose a template of that train, or describe the engine whole in \"inline\"");
        }
    }

    // ---- firing ---------------------------------------------------------------------------------------------------

    private void firing(JsonFields fields, EngineSpec.Builder builder) {
        FiringOrder typical = base.firingOrder();
        Optional<Json> orderValue = fields.find("firingOrder");
        Optional<Json> intervals = fields.find("firingIntervals");
        List<Integer> order = orderValue.map(reader::cylinders).orElse(typical.order());
        orderValue.ifPresent(value -> {
            if (order.size() != typical.cylinders()) {
                throw document.error(
                        value,
                        "is of " + order.size() + (order.size() == 1 ? " cylinder" : " cylinders"),
                        "the " + typical.cylinders() + " of the template",
                        "correct it, or choose a template with as many cylinders");
            }
            FiringOrder even = reader.evenly(value, order);
            if (typical.isEven()) {
                builder.firingOrder(even);
            } else if (intervals.isEmpty() && !order.equals(typical.order())) {
                throw document.error(
                        value,
                        "is another order than the template's " + typical + ", whose intervals belong to its own",
                        "\"firingIntervals\" beside it",
                        "add the crank degrees from each firing to the next, in this order");
            }
        });
        intervals.ifPresent(value -> builder.firingOrder(reader.at(value, order, reader.intervals(value))));
        stated(fields, "firingOrder", Figure.FIRING_ORDER, builder);
        stated(fields, "firingIntervals", Figure.FIRING_INTERVALS, builder);
    }

    // ---- windows --------------------------------------------------------------------------------------------------

    private void windows(
            JsonFields fields, Map<ValveRole, String> confirmedFrom, boolean ownOnly, EngineSpec.Builder builder) {
        boolean ownWindows = List.of(CLEARANCES, "setTo", "closerClearances", "closerSetTo").stream()
                .anyMatch(name -> fields.find(name).isPresent());
        for (String name : List.of("closerClearances", "closerSetTo")) {
            if (!base.gaps().contains(Gap.CLOSER) && fields.find(name).isPresent()) {
                throw document.error(
                        fields.get(name),
                        "is given for a train without closers, " + base.train().kind(),
                        "the gaps of the template",
                        "remove it, or choose a desmodromic template");
            }
        }
        for (Gap gap : base.gaps()) {
            boolean closer = gap == Gap.CLOSER;
            String checkName = closer ? "closerClearances" : CLEARANCES;
            String setName = closer ? "closerSetTo" : "setTo";
            Map<ValveRole, ClearanceWindow> check = reader.windows(fields, checkName);
            Map<ValveRole, ClearanceWindow> setTo = reader.windows(fields, setName);
            for (ValveRole role : ValveRole.values()) {
                Optional<ClearanceSpec> typical = base.findClearance(role, gap);
                Optional<ClearanceWindow> window =
                        Optional.ofNullable(check.get(role)).or(() -> typical.map(ClearanceSpec::check));
                if (window.isEmpty()) {
                    reader.refuseSetToAlone(fields, setName, check, setTo);
                    continue;
                }
                ClearanceWindow setWindow = Optional.ofNullable(setTo.get(role))
                        .or(() -> check.containsKey(role) ? Optional.empty() : typical.map(ClearanceSpec::setTo))
                        .orElse(window.get());
                String confirmed =
                        check.containsKey(role) || !ownWindows || !ownOnly ? confirmedFrom.getOrDefault(role, "") : "";
                if (confirmed.isBlank() && check.containsKey(role)) {
                    typical.map(ClearanceSpec::check)
                            .filter(window.get()::isUnlike)
                            .ifPresent(usual -> refuseUnlike(
                                    document.fields(fields.get(checkName)).get(role.code()), usual));
                }
                ClearanceSpec spec = document.at(
                        fields,
                        Map.of("window to set to", setName + "/" + role.code()),
                        () -> new ClearanceSpec(window.get(), setWindow, confirmed));
                if (closer) {
                    builder.closerClearance(role, spec);
                } else {
                    builder.clearance(role, spec);
                }
                if (check.containsKey(role)) {
                    builder.origin(Figure.window(role, gap), Origin.STATED);
                }
                if (check.containsKey(role) || setTo.containsKey(role)) {
                    builder.origin(Figure.setting(role, gap), Origin.STATED);
                }
            }
        }
    }

    /** An unconfirmed window far from the template's is a slip more often than not; a confirmed one is the manual's. */
    private void refuseUnlike(Json window, ClearanceWindow usual) {
        throw document.error(
                window,
                "is five times or more off the window of the template",
                "a window of the size of " + usual,
                "check the decimal and the unit; if the manual gives this window, say where in \"confirmedFrom\"");
    }

    // ---- decompressor ---------------------------------------------------------------------------------------------

    private void decompressor(Json value, EngineSpec.Builder builder) {
        if (value.kind() == Json.Kind.OBJECT) {
            builder.decompressor(reader.decompressor(document.fields(value)));
        } else if (document.text(value, "a decompressor in braces, or \"none\"").equals("none")) {
            builder.withoutDecompressor();
        } else {
            throw document.error(
                    value,
                    "is no decompressor",
                    "a decompressor in braces, or \"none\"",
                    "write \"none\" for an engine without one");
        }
    }
}
