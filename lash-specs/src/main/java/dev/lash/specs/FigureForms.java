package dev.lash.specs;

import dev.lash.check.Unconfirmed;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Figure;
import dev.lash.engine.Origin;
import dev.lash.measure.LengthUnit;
import dev.lash.specs.JsonText.Fields;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/** How documents name the figures of an engine: by the JSON pointer that a template's provenance uses. */
final class FigureForms {
    private static final Map<Figure, String> POINTERS = new EnumMap<>(Map.ofEntries(
            Map.entry(Figure.FIRING_ORDER, "/firingOrder"),
            Map.entry(Figure.FIRING_INTERVALS, "/firingIntervals"),
            Map.entry(Figure.PITCH, "/train/pitch"),
            Map.entry(Figure.RATIO, "/train/ratio"),
            Map.entry(Figure.HEAD, "/train/head"),
            Map.entry(Figure.STEP, "/train/step"),
            Map.entry(Figure.ECCENTRICITY, "/train/eccentricity"),
            Map.entry(Figure.MULTIPLIER, "/train/multiplier"),
            Map.entry(Figure.SHIMS, "/train/shims"),
            Map.entry(Figure.OPENER_SHIMS, "/train/openerShims"),
            Map.entry(Figure.CLOSER_SHIMS, "/train/closerShims"),
            Map.entry(Figure.INTAKE_WINDOW, "/clearances/in"),
            Map.entry(Figure.EXHAUST_WINDOW, "/clearances/ex"),
            Map.entry(Figure.INTAKE_SETTING, "/setTo/in"),
            Map.entry(Figure.EXHAUST_SETTING, "/setTo/ex"),
            Map.entry(Figure.INTAKE_CLOSER_WINDOW, "/closerClearances/in"),
            Map.entry(Figure.EXHAUST_CLOSER_WINDOW, "/closerClearances/ex"),
            Map.entry(Figure.INTAKE_CLOSER_SETTING, "/closerSetTo/in"),
            Map.entry(Figure.EXHAUST_CLOSER_SETTING, "/closerSetTo/ex"),
            Map.entry(Figure.COLDEST, "/condition/minTemperature"),
            Map.entry(Figure.WARMEST, "/condition/maxTemperature"),
            Map.entry(Figure.CHECK_INTERVAL, "/checkInterval"),
            Map.entry(Figure.WEAR_PRIOR, "/wearPrior"),
            Map.entry(Figure.CAM_TIMING, "/camTiming"),
            Map.entry(Figure.DECOMPRESSOR, "/decompressor"),
            Map.entry(Figure.CAMSHAFTS, "/camshafts")));

    private FigureForms() {}

    /** The pointer of a figure in a template or an inline engine. */
    static String pointer(Figure figure) {
        return Optional.ofNullable(POINTERS.get(figure)).orElseThrow();
    }

    /** The figure at a pointer. */
    static Optional<Figure> at(String pointer) {
        return Arrays.stream(Figure.values())
                .filter(f -> pointer(f).equals(pointer))
                .findFirst();
    }

    /** The name of a figure that is no window, as {@code confirmedFrom} uses it: that of its field. */
    static String name(Figure figure) {
        String pointer = pointer(figure);
        return pointer.substring(pointer.lastIndexOf('/') + 1);
    }

    /** The figures that {@code confirmedFrom} can name one by one. */
    static List<Figure> confirmable() {
        return Arrays.stream(Figure.values())
                .filter(f -> !f.isWindow() && f != Figure.WEAR_PRIOR)
                .toList();
    }

    /** Which figures of an engine came from where, those of one origin together. */
    static List<Map<String, Object>> origins(EngineSpec engine) {
        Map<Origin, List<String>> byOrigin = new LinkedHashMap<>();
        engine.origins()
                .forEach((figure, origin) ->
                        byOrigin.computeIfAbsent(origin, o -> new ArrayList<>()).add(pointer(figure)));
        return byOrigin.entrySet().stream()
                .map(e -> origin(new Fields().put("figures", e.getValue()), e.getKey()))
                .collect(Collectors.toList());
    }

    /** Figures that stand in place of a template's, as a sheet keeps them. */
    static List<Map<String, Object>> overridden(EngineSpec engine) {
        return engine.overridden().stream()
                .map(o -> toldOrigin(
                        new Fields().put("figure", pointer(o.figure())).putText("was", o.was()), o.origin()))
                .collect(Collectors.toList());
    }

    /** The same as a report tells it, with what they are now. */
    static List<Map<String, Object>> overridden(EngineSpec engine, LengthUnit unit) {
        return engine.overridden().stream()
                .map(o -> toldOrigin(
                        new Fields()
                                .put("figure", pointer(o.figure()))
                                .put("words", o.figure().words())
                                .put("value", engine.findFigure(o.figure(), unit))
                                .putText("was", o.was(unit)),
                        o.origin()))
                .collect(Collectors.toList());
    }

    /** Figures that a result leans on and that the shop has not confirmed. */
    static List<Map<String, Object>> unconfirmed(List<Unconfirmed> figures) {
        return figures.stream()
                .map(f -> origin(
                        new Fields()
                                .put("figure", pointer(f.figure()))
                                .put("words", f.figure().words())
                                .put("value", f.value()),
                        f.origin()))
                .collect(Collectors.toList());
    }

    /** Nothing is said of the origin of a figure that was not there, or that no source gave. */
    private static Map<String, Object> toldOrigin(Fields fields, Origin origin) {
        return origin.equals(Origin.STATED) ? fields.map() : origin(fields, origin);
    }

    private static Map<String, Object> origin(Fields fields, Origin origin) {
        return fields.put("kind", origin.kind().word())
                .putText("title", origin.title())
                .putText("place", origin.place())
                .putText("template", origin.template())
                .map();
    }
}
