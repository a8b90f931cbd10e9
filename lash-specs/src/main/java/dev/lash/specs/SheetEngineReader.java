package dev.lash.specs;

import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Figure;
import dev.lash.engine.Gap;
import dev.lash.engine.Origin;
import dev.lash.engine.ValveRole;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.RejectedValueException;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * Reads the engine of a sheet: whole in place, or a template with the shop's figures laid over it.
 *
 * <p>{@code confirmedFrom} as a text, and its {@code in} and {@code ex}, confirm the windows that the sheet itself gives; with a
 * template and no windows of its own they confirm the template's. Its other names confirm the figure of that name, and {@code all}
 * every figure that is not named beside it.
 */
final class SheetEngineReader {
    private static final String PLACE = "the manual and page where the shop read it";
    private static final String POINTER = "the place of a figure, such as \"/train/pitch\"";

    private final SpecPack pack;
    private final JsonDocument document;

    SheetEngineReader(SpecPack pack, JsonDocument document) {
        this.pack = pack;
        this.document = document;
    }

    EngineSpec read(JsonFields fields) {
        Confirmations confirmations = confirmations(fields);
        Map<ValveRole, String> confirmedFrom = confirmations.windows;
        EngineReader reader = new EngineReader(document);
        Optional<Json> inline = fields.find("inline");
        if (inline.isPresent()) {
            JsonFields inner = document.fields(inline.get());
            EngineSpec spec = reader.read(inner, confirmedFrom, inner.text("template"));
            inner.finish();
            EngineSpec known = origins(spec, fields.items("origins"));
            fields.finish();
            return confirmed(known, confirmations);
        }
        Json name = fields.get("template");
        String id = document.text(name, "the id of a template");
        Template template = pack.find(id)
                .orElseThrow(() -> document.error(
                        name,
                        "is not a template of the pack",
                        "one of " + String.join(", ", pack.ids()),
                        "write one of these"));
        EngineSpec spec = overlaid(template.spec(), fields, reader, confirmedFrom);
        fields.finish();
        return confirmed(spec, confirmations);
    }

    /** Where the shop read the windows, by role, and every other figure; {@code all} for those that are not named. */
    private record Confirmations(Map<ValveRole, String> windows, Map<Figure, Json> figures, String all) {}

    /** Where the shop read its figures: one place for all windows, or one for each figure. */
    private Confirmations confirmations(JsonFields fields) {
        Map<ValveRole, String> places = new EnumMap<>(ValveRole.class);
        Map<Figure, Json> figures = new EnumMap<>(Figure.class);
        Optional<Json> given = fields.find("confirmedFrom");
        if (given.filter(value -> value.kind() == Json.Kind.OBJECT).isPresent()) {
            JsonFields byName = document.fields(given.get());
            for (ValveRole role : ValveRole.values()) {
                byName.find(role.code(), PLACE, Function.identity()).ifPresent(place -> places.put(role, place));
            }
            FigureForms.confirmable()
                    .forEach(figure -> byName.find(FigureForms.name(figure)).ifPresent(v -> figures.put(figure, v)));
            String all = byName.text("all");
            byName.find(FigureForms.name(Figure.WEAR_PRIOR)).ifPresent(prior -> {
                throw document.error(
                        prior,
                        "cannot confirm a wear prior: no wear rate of valve clearances is published",
                        "the places of figures that a manual gives",
                        "remove it; give the shop's own wearPrior where it knows better");
            });
            byName.finish();
            return new Confirmations(places, figures, all);
        }
        given.ifPresent(value -> {
            String place = document.text(value, "the manual and page where the shop read the windows");
            for (ValveRole role : ValveRole.values()) {
                places.put(role, place);
            }
        });
        return new Confirmations(places, figures, "");
    }

    private EngineSpec confirmed(EngineSpec engine, Confirmations told) {
        EngineSpec.Builder builder = engine.toBuilder();
        told.figures.forEach((figure, value) -> {
            String place = document.text(value, PLACE);
            if (engine.findFigure(figure, LengthUnit.MILLIMETRE).isEmpty()) {
                throw document.error(
                        value,
                        "confirms a figure that the engine does not have",
                        "one of in, ex, all, "
                                + FigureForms.confirmable().stream()
                                        .filter(f -> engine.findFigure(f, LengthUnit.MILLIMETRE)
                                                .isPresent())
                                        .map(FigureForms::name)
                                        .collect(Collectors.joining(", ")),
                        "remove it, or give the figure");
            }
            builder.confirmed(figure, place);
        });
        if (!told.all.isBlank()) {
            for (Figure figure : Figure.values()) {
                boolean named = told.figures.containsKey(figure)
                        || told.windows.keySet().stream().anyMatch(figure::isWindowOf);
                if (!named
                        && figure != Figure.WEAR_PRIOR
                        && engine.findFigure(figure, LengthUnit.MILLIMETRE).isPresent()) {
                    builder.confirmed(figure, told.all);
                }
            }
        }
        return builder.build();
    }

    /** Where the figures of an inline engine came from, as a sheet remembers it that was begun with a template. */
    private EngineSpec origins(EngineSpec engine, List<Json> items) {
        Map<Figure, Origin> origins = new EnumMap<>(Figure.class);
        for (Json item : items) {
            JsonFields fields = document.fields(item);
            Origin origin = new Origin(
                    fields.get("kind", "a kind of source", SheetEngineReader::kind),
                    fields.text("title"),
                    fields.text("place"),
                    fields.text("template"));
            for (Json named : document.items(fields.get("figures"))) {
                Figure figure = FigureForms.at(document.text(named, POINTER))
                        .filter(f -> engine.findFigure(f, LengthUnit.MILLIMETRE).isPresent())
                        .orElseThrow(() -> document.error(
                                named,
                                "is not the place of a figure that the engine has",
                                "one of "
                                        + Arrays.stream(Figure.values())
                                                .filter(f -> engine.findFigure(f, LengthUnit.MILLIMETRE)
                                                        .isPresent())
                                                .map(FigureForms::pointer)
                                                .collect(Collectors.joining(", ")),
                                "remove it, or give the figure"));
                if (origins.put(figure, origin) != null) {
                    throw document.error(
                            named, "is given a second origin", "each figure once", "remove one of the two");
                }
            }
            fields.finish();
        }
        return engine.toBuilder().origins(origins).build();
    }

    private static Origin.Kind kind(String word) {
        return Arrays.stream(Origin.Kind.values())
                .filter(kind -> kind != Origin.Kind.STATED && kind.word().equals(word))
                .findFirst()
                .orElseThrow(() -> new RejectedValueException(
                        "kind",
                        word,
                        "is not a kind of source",
                        "common-practice, from-memory, published or shop",
                        "write one of these; leave the figure out where the shop stated it"));
    }

    private EngineSpec overlaid(
            EngineSpec base, JsonFields fields, EngineReader reader, Map<ValveRole, String> confirmedFrom) {
        EngineSpec.Builder builder = base.toBuilder();
        boolean ownWindows = List.of("clearances", "setTo", "closerClearances", "closerSetTo").stream()
                .anyMatch(name -> fields.find(name).isPresent());
        for (Gap gap : base.gaps()) {
            boolean closer = gap == Gap.CLOSER;
            String setName = closer ? "closerSetTo" : "setTo";
            Map<ValveRole, ClearanceWindow> check = reader.windows(fields, closer ? "closerClearances" : "clearances");
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
                String confirmed = check.containsKey(role) || !ownWindows ? confirmedFrom.getOrDefault(role, "") : "";
                if (confirmed.isBlank() && check.containsKey(role)) {
                    typical.map(ClearanceSpec::check)
                            .filter(window.get()::isUnlike)
                            .ifPresent(usual -> refuseUnlike(
                                    document.fields(fields.get(closer ? "closerClearances" : "clearances"))
                                            .get(role.code()),
                                    usual));
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
            }
        }
        reader.checkInterval(fields).ifPresent(builder::checkInterval);
        reader.wearPrior(fields).ifPresent(builder::wearPrior);
        return document.at(fields, Map.of("closer clearances", "closerClearances"), builder::build);
    }

    /** An unconfirmed window far from the template's is a slip more often than not; a confirmed one is the manual's. */
    private void refuseUnlike(Json window, ClearanceWindow usual) {
        throw document.error(
                window,
                "is five times or more off the window of the template",
                "a window of the size of " + usual,
                "check the decimal and the unit; if the manual gives this window, say where in \"confirmedFrom\"");
    }
}
