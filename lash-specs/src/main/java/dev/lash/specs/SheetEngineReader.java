package dev.lash.specs;

import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Figure;
import dev.lash.engine.Origin;
import dev.lash.engine.Overridden;
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
    private static final String WINDOW = "a window such as \"0.11..0.16 mm\"";
    private static final String POINTER = "the place of a figure, such as \"/train/pitch\"";

    private final JsonDocument document;

    SheetEngineReader(JsonDocument document) {
        this.document = document;
    }

    /** The engine of a sheet, which may name a template of the pack. */
    EngineSpec read(JsonFields fields, SpecPack pack) {
        Confirmations confirmations = confirmations(fields);
        Map<ValveRole, String> confirmedFrom = confirmations.windows;
        EngineReader reader = new EngineReader(document);
        Optional<Json> inline = fields.find("inline");
        if (inline.isPresent()) {
            JsonFields inner = document.fields(inline.get());
            EngineSpec spec = reader.read(inner, confirmedFrom, inner.text("template"));
            inner.finish();
            EngineSpec known = origins(spec, fields.items("origins"), fields.items("overridden"));
            fields.finish();
            return confirmed(known, confirmations);
        }
        Json name = fields.get("template");
        String id = document.text(name, "the id of a template");
        Template template = pack.find(id)
                .orElseThrow(() -> document.error(
                        name, "is not a template of the pack", pack.expectedFor(id), SpecPack.MEND_UNKNOWN));
        return overlaid(template.spec(), fields, confirmations);
    }

    /** A template with the figures of a document laid over it. */
    static EngineSpec overlaid(JsonDocument document, EngineSpec template) {
        SheetEngineReader reader = new SheetEngineReader(document);
        JsonFields fields = document.fields(document.root());
        return reader.overlaid(template, fields, reader.confirmations(fields));
    }

    private EngineSpec overlaid(EngineSpec template, JsonFields fields, Confirmations told) {
        EngineSpec spec = new TemplateOverlay(document, template).lay(fields, told.windows, told.isOneForAll);
        fields.finish();
        return confirmed(spec, told);
    }

    /**
     * Where the shop read the windows, by role, and every other figure; {@code all} for those that are not named. One place for all
     * windows is that of those on the sheet alone, where there are any.
     */
    private record Confirmations(
            Map<ValveRole, String> windows, Map<Figure, Json> figures, String all, boolean isOneForAll) {}

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
            return new Confirmations(places, figures, all, false);
        }
        given.ifPresent(value -> {
            String place = document.text(value, "the manual and page where the shop read the windows");
            for (ValveRole role : ValveRole.values()) {
                places.put(role, place);
            }
        });
        return new Confirmations(places, figures, "", true);
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
    private EngineSpec origins(EngineSpec engine, List<Json> items, List<Json> laidOver) {
        Map<Figure, Origin> origins = new EnumMap<>(Figure.class);
        for (Json item : items) {
            JsonFields fields = document.fields(item);
            Origin origin = origin(fields);
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
        EngineSpec.Builder builder = engine.toBuilder().origins(origins);
        for (Json item : laidOver) {
            JsonFields fields = document.fields(item);
            Figure figure = fields.get("figure", POINTER, SheetEngineReader::figure);
            Optional<String> was = figure.isWindow()
                    ? fields.find(
                            "was", WINDOW, text -> ClearanceWindow.parse(text).toString())
                    : fields.find("was", "a text", Function.identity());
            builder.overridden(new Overridden(
                    figure, was.orElse(""), fields.find("kind").isPresent() ? origin(fields) : Origin.STATED));
            fields.finish();
        }
        return builder.build();
    }

    private static Origin origin(JsonFields fields) {
        return new Origin(
                fields.get("kind", "a kind of source", SheetEngineReader::kind),
                fields.text("title"),
                fields.text("place"),
                fields.text("template"));
    }

    private static Figure figure(String pointer) {
        return FigureForms.at(pointer)
                .orElseThrow(() -> new RejectedValueException(
                        "figure",
                        pointer,
                        "is not the place of a figure",
                        Arrays.stream(Figure.values()).map(FigureForms::pointer).collect(Collectors.joining(", ")),
                        "write one of these"));
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
}
