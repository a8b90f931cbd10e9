package dev.lash.specs;

import dev.lash.engine.CamTiming;
import dev.lash.engine.Camshafts;
import dev.lash.engine.Camshafts.PerBank;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.Decompressor;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.FiringOrder;
import dev.lash.engine.Pitch;
import dev.lash.engine.ScrewHead;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.ValveTrain.ScrewPlace;
import dev.lash.engine.ValveTrain.ShimPlace;
import dev.lash.engine.WearPrior;
import dev.lash.measure.Length;
import dev.lash.measure.Ratio;
import dev.lash.measure.Temperature;
import dev.lash.measure.Usage;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/** Reads the fields of an engine, as a template and a sheet's inline engine have them. */
final class EngineReader {
    private static final String LENGTH = "a length with its unit, such as \"-0.010 mm\"";
    private static final int MOST_CYLINDERS = 18;
    private static final String VALVE = "a valve such as \"1-in-1\"";

    /** Where what the core refuses stands in a document. */
    private static final Map<String, String> OF_ENGINE = Map.of(
            "id", "id",
            "title", "title",
            "valves", "valves",
            "clearances", "clearances",
            "closer clearances", "closerClearances",
            "decompressor", "decompressor/valve",
            "camshafts", "camshafts",
            "condition", "condition");

    private static final Map<String, String> OF_TRAIN = Map.of(
            "rocker ratio", "ratio",
            "follower ratio", "ratio",
            "multiplier", "multiplier",
            "eccentricity", "eccentricity",
            "step of a wedge screw", "step");
    private static final Map<String, String> OF_TIMING =
            Map.of("ramp margin", "margin", "intake timing", "in", "exhaust timing", "ex");
    private static final Map<String, String> OF_WEAR_PRIOR = Map.of(
            "usage of a wear prior", "per",
            "drift of a wear prior", "drift",
            "deviation of the drift of a wear prior", "driftDeviation",
            "spread of a wear prior", "spread",
            "scatter of a wear prior", "scatter",
            "factor of a wear prior", "factor");

    private static final String WINDOW = "a window such as \"0.11..0.16 mm\"";

    private final JsonDocument document;

    EngineReader(JsonDocument document) {
        this.document = document;
    }

    /** Reads an engine; {@code confirmedFrom} is where the shop read its windows, by role. */
    EngineSpec read(JsonFields fields, Map<ValveRole, String> confirmedFrom, String template) {
        EngineSpec.Builder builder = EngineSpec.builder(
                fields.get("id", "a short name", Function.identity()),
                fields.get("title", "a title", Function.identity()));
        Json cylinders = fields.get("cylinders");
        int count = document.wholeNumber(cylinders, 1, MOST_CYLINDERS);
        builder.firingOrder(firingOrder(fields, cylinders, count));
        Json valves = fields.get("valves");
        builder.valves(document.items(valves).stream()
                .map(v -> document.read(v, VALVE, ValveId::parse))
                .toList());
        builder.train(train(document.fields(fields.get("train"))));
        clearances(fields, "clearances", "setTo", confirmedFrom).forEach(builder::clearance);
        clearances(fields, "closerClearances", "closerSetTo", confirmedFrom).forEach(builder::closerClearance);
        fields.find("condition").map(document::fields).ifPresent(condition -> condition(condition, builder));
        checkInterval(fields).ifPresent(builder::checkInterval);
        wearPrior(fields).ifPresent(builder::wearPrior);
        fields.find("camTiming").map(document::fields).map(this::timing).ifPresent(builder::camTiming);
        fields.find("decompressor")
                .map(document::fields)
                .map(this::decompressor)
                .ifPresent(builder::decompressor);
        fields.find("camshafts").map(document::fields).map(this::camshafts).ifPresent(builder::camshafts);
        builder.cautions(fields.texts("cautions")).tools(fields.texts("tools")).template(template);
        return built(fields, builder, count);
    }

    /** The engine; what does not fit together is shown at the figure that is at fault. */
    private EngineSpec built(JsonFields fields, EngineSpec.Builder builder, int cylinders) {
        for (Json valve : fields.items("valves")) {
            ValveId id = document.read(valve, VALVE, ValveId::parse);
            if (id.cylinder() > cylinders) {
                throw document.error(
                        valve,
                        "is on a cylinder that the engine does not have",
                        "cylinders 1 to " + cylinders,
                        "correct the valve, or the number of cylinders");
            }
        }
        return document.at(fields, OF_ENGINE, builder::build);
    }

    private Map<ValveRole, ClearanceSpec> clearances(
            JsonFields fields, String checkName, String setName, Map<ValveRole, String> confirmedFrom) {
        Map<ValveRole, ClearanceWindow> check = windows(fields, checkName);
        Map<ValveRole, ClearanceWindow> setTo = windows(fields, setName);
        Map<ValveRole, ClearanceSpec> clearances = new EnumMap<>(ValveRole.class);
        check.forEach((role, window) -> clearances.put(
                role,
                document.at(
                        fields,
                        Map.of("window to set to", setName + "/" + role.code()),
                        () -> new ClearanceSpec(
                                window, setTo.getOrDefault(role, window), confirmedFrom.getOrDefault(role, "")))));
        refuseSetToAlone(fields, setName, check, setTo);
        return clearances;
    }

    /** Windows by role, from a field with the keys in and ex. */
    Map<ValveRole, ClearanceWindow> windows(JsonFields fields, String name) {
        Map<ValveRole, ClearanceWindow> windows = new EnumMap<>(ValveRole.class);
        fields.find(name).map(document::fields).ifPresent(byRole -> {
            for (ValveRole role : ValveRole.values()) {
                byRole.find(role.code(), WINDOW, ClearanceWindow::parse).ifPresent(w -> windows.put(role, w));
            }
            byRole.finish();
        });
        return windows;
    }

    /** A window to set to needs a window to check against. */
    void refuseSetToAlone(
            JsonFields fields,
            String setName,
            Map<ValveRole, ClearanceWindow> check,
            Map<ValveRole, ClearanceWindow> setTo) {
        for (ValveRole role : setTo.keySet()) {
            if (!check.containsKey(role)) {
                throw document.error(
                        document.fields(fields.get(setName)).get(role.code()),
                        "sets " + role.word() + " valves to a window without one to check against",
                        "clearances for " + role,
                        "add the window to check against");
            }
        }
    }

    /** The usage after which the maker wants a check. */
    Optional<Usage> checkInterval(JsonFields fields) {
        String expected = "a usage above 0, such as \"6000 km\"";
        Optional<Usage> interval = fields.find("checkInterval", expected, Usage::parse);
        if (interval.filter(usage -> usage.amount().signum() == 0).isPresent()) {
            throw document.error(
                    fields.get("checkInterval"), "is no interval", expected, "leave it out where there is none");
        }
        return interval;
    }

    /** What is thought of the wear before readings are looked at. */
    Optional<WearPrior> wearPrior(JsonFields fields) {
        return fields.find("wearPrior").map(value -> {
            JsonFields parts = document.fields(value);
            Usage per = parts.get("per", "a usage above 0, such as \"10000 km\"", Usage::parse);
            Length drift = parts.get("drift", LENGTH, Length::parse);
            Length driftDeviation = parts.get("driftDeviation", LENGTH, Length::parse);
            Length spread = parts.get("spread", LENGTH, Length::parse);
            Length scatter = parts.get("scatter", LENGTH, Length::parse);
            Ratio factor = parts.get("factor", "a factor from 1.1 to 5, such as \"1.5\"", Ratio::parse);
            String basis = parts.get("basis", "where the figures come from", Function.identity());
            parts.finish();
            return document.at(
                    parts,
                    OF_WEAR_PRIOR,
                    () -> new WearPrior(per, drift, driftDeviation, spread, scatter, factor, basis));
        });
    }

    private FiringOrder firingOrder(JsonFields fields, Json cylinders, int count) {
        List<Integer> order = fields.find("firingOrder")
                .map(this::order)
                .orElseGet(() -> IntStream.rangeClosed(1, count).boxed().toList());
        if (order.size() != count) {
            throw document.error(
                    cylinders,
                    "does not agree with a firing order of " + order.size() + " cylinders",
                    order.size() + " cylinders",
                    "correct one of the two");
        }
        // alone first, so that a wrong order is not taken for wrong intervals
        FiringOrder even = evenly(fields.find("firingOrder").orElse(cylinders), order);
        return fields.find("firingIntervals").map(value -> at(value, order)).orElse(even);
    }

    /** The cylinders in the order in which they fire. */
    List<Integer> order(Json value) {
        return document.items(value).stream()
                .map(item -> document.wholeNumber(item, 1, MOST_CYLINDERS))
                .toList();
    }

    /** Cylinders that fire evenly; {@code place} gives their order. */
    FiringOrder evenly(Json place, List<Integer> order) {
        return document.at(place, () -> FiringOrder.even(order));
    }

    /** Cylinders that fire at given intervals. */
    FiringOrder at(Json intervals, List<Integer> order) {
        return document.at(
                intervals,
                () -> new FiringOrder(
                        order,
                        document.items(intervals).stream().map(this::degrees).toList()));
    }

    private Ratio degrees(Json value) {
        return Ratio.of(document.number(value, "crank degrees as a number"));
    }

    void condition(JsonFields fields, EngineSpec.Builder builder) {
        String expected = "a temperature such as \"30 °C\"";
        fields.find("minTemperature", expected, Temperature::parse).ifPresent(builder::coldest);
        fields.find("maxTemperature", expected, Temperature::parse).ifPresent(builder::warmest);
        fields.finish();
    }

    CamTiming timing(JsonFields fields) {
        JsonFields intake = document.fields(fields.get("in"));
        JsonFields exhaust = document.fields(fields.get("ex"));
        Ratio margin = fields.find("margin", "an angle such as \"15 deg\"", CamTiming::parseDegrees)
                .orElse(CamTiming.GENERIC.margin());
        CamTiming timing = document.at(
                fields,
                OF_TIMING,
                () -> new CamTiming(
                        event(intake, "opens"),
                        event(intake, "closes"),
                        event(exhaust, "opens"),
                        event(exhaust, "closes"),
                        margin));
        intake.finish();
        exhaust.finish();
        fields.finish();
        return timing;
    }

    Decompressor decompressor(JsonFields fields) {
        ValveId valve = fields.get("valve", "a valve such as \"1-ex-1\"", ValveId::parse);
        Optional<Ratio> before = fields.find("before", "an angle such as \"60 deg\"", CamTiming::parseDegrees);
        Optional<Ratio> after = fields.find("after", "an angle such as \"20 deg\"", CamTiming::parseDegrees);
        fields.finish();
        boolean inRange = before.map(b -> b.signum() >= 0 && b.compareTo(Ratio.of(360, 1)) <= 0)
                .orElse(true);
        return document.at(
                fields,
                Map.of("decompressor", inRange ? "after" : "before"),
                () -> new Decompressor(valve, before.orElse(null), after.orElse(null)));
    }

    Camshafts camshafts(JsonFields fields) {
        PerBank perBank =
                fields.find("perBank", "one or one-per-role", PerBank::parse).orElse(PerBank.ONE_PER_ROLE);
        List<List<Integer>> banks = fields.items("banks").stream()
                .map(bank -> document.items(bank).stream()
                        .map(cylinder -> document.wholeNumber(cylinder, 1, MOST_CYLINDERS))
                        .toList())
                .toList();
        fields.finish();
        return document.at(fields.object(), () -> new Camshafts(perBank, banks));
    }

    private static CamTiming.Event event(JsonFields fields, String name) {
        return fields.get(name, "an event such as \"15 deg BTDC\"", CamTiming.Event::parse);
    }

    /** What moves the valves. */
    ValveTrain train(JsonFields fields) {
        Json kindValue = fields.get("kind");
        String kind = document.text(kindValue, "a kind of valve train");
        ValveTrain train = document.at(fields, OF_TRAIN, () -> train(kindValue, kind, fields));
        fields.finish();
        return train;
    }

    private ValveTrain train(Json kindValue, String kind, JsonFields fields) {
        Optional<Length> step = kind.equals(ScrewPlace.TAPPET.kind())
                ? fields.find("step", "what one turn changes, such as \"0.05 mm\"", Length::parse)
                : Optional.empty();
        if (step.isPresent()) {
            return new ValveTrain.Wedge(step.get());
        }
        for (ScrewPlace place : ScrewPlace.values()) {
            if (place.kind().equals(kind)) {
                return new ValveTrain.Screw(
                        place,
                        fields.get("pitch", "a pitch such as \"0.75 mm\" or \"26 tpi\"", Pitch::parse),
                        place.needsRatio() ? ratio(fields, "ratio") : Ratio.ONE,
                        fields.find("head", "hexagon, square, slot or not-stated", ScrewHead::parse)
                                .orElse(ScrewHead.NOT_STATED));
            }
        }
        for (ShimPlace place : ShimPlace.values()) {
            if (place.kind().equals(kind)) {
                return new ValveTrain.Shim(
                        place,
                        shims(fields, "shims"),
                        place == ShimPlace.FOLLOWER ? ratio(fields, "ratio") : Ratio.ONE);
            }
        }
        return switch (kind) {
            case "eccentric" ->
                new ValveTrain.Eccentric(
                        fields.get("eccentricity", "a length such as \"1.5 mm\"", Length::parse),
                        ratio(fields, "multiplier"));
            case "desmodromic" ->
                new ValveTrain.Desmodromic(shims(fields, "openerShims"), shims(fields, "closerShims"));
            case "fixed" -> new ValveTrain.Fixed();
            case "hydraulic" -> new ValveTrain.Hydraulic();
            default ->
                throw document.error(
                        kindValue, "is not a kind of valve train", "one of " + kinds(), "write one of these kinds");
        };
    }

    private static Ratio ratio(JsonFields fields, String name) {
        return fields.get(name, "a ratio such as \"1.5\"", Ratio::parse);
    }

    private static ShimRange shims(JsonFields fields, String name) {
        return fields.get(name, "sizes such as \"1.20..3.50 mm step 0.05 mm\"", ShimRange::parse);
    }

    /** The figures that a kind of valve train has, in the order of documents; empty where the kind is not known. */
    static Optional<List<String>> figuresOf(String kind) {
        for (ScrewPlace place : ScrewPlace.values()) {
            if (place.kind().equals(kind)) {
                return Optional.of(
                        place.needsRatio()
                                ? List.of("pitch", "ratio", "head")
                                : place == ScrewPlace.TAPPET
                                        ? List.of("pitch", "head", "step")
                                        : List.of("pitch", "head"));
            }
        }
        for (ShimPlace place : ShimPlace.values()) {
            if (place.kind().equals(kind)) {
                return Optional.of(place == ShimPlace.FOLLOWER ? List.of("shims", "ratio") : List.of("shims"));
            }
        }
        return Optional.ofNullable(
                switch (kind) {
                    case "eccentric" -> List.of("eccentricity", "multiplier");
                    case "desmodromic" -> List.of("openerShims", "closerShims");
                    case "fixed", "hydraulic" -> List.<String>of();
                    default -> null;
                });
    }

    private static String kinds() {
        Stream<String> screws = Arrays.stream(ScrewPlace.values()).map(ScrewPlace::kind);
        Stream<String> shims = Arrays.stream(ShimPlace.values()).map(ShimPlace::kind);
        List<String> all = new ArrayList<>(Stream.concat(screws, shims).toList());
        all.addAll(List.of("eccentric", "desmodromic", "fixed", "hydraulic"));
        return all.stream().sorted().collect(Collectors.joining(", "));
    }
}
