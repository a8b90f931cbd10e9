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
import dev.lash.specs.JsonDocument.Part;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/** Reads the fields of an engine, as a template and a sheet's inline engine have them. */
final class EngineReader {
    private static final String LENGTH = "a length with its unit, such as \"-0.010 mm\"";
    static final int MOST_CYLINDERS = 18;
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
        return parts(fields, confirmedFrom, template).get();
    }

    /** Reads all parts of an engine, so that each is told that is wrong; what comes of them is made, and held together, when asked for. */
    Supplier<EngineSpec> parts(JsonFields fields, Map<ValveRole, String> confirmedFrom, String template) {
        int before = document.faults().size();
        Part<String> id = document.part(() -> fields.get("id", "a short name", Function.identity()));
        Part<String> title = document.part(() -> fields.get("title", "a title", Function.identity()));
        Part<Integer> cylinders = document.part(() -> document.wholeNumber(fields.get("cylinders"), 1, MOST_CYLINDERS));
        Part<FiringOrder> firingOrder = document.part(() -> firingOrder(fields, cylinders));
        Part<List<ValveId>> valves =
                document.parts(document.part(() -> document.items(fields.get("valves"))), v -> valve(v, cylinders));
        Part<ValveTrain> train = document.part(() -> train(document.fields(fields.get("train"))));
        Part<Map<ValveRole, ClearanceSpec>> clearances =
                document.part(() -> clearances(fields, "clearances", "setTo", confirmedFrom));
        Part<Map<ValveRole, ClearanceSpec>> closerClearances =
                document.part(() -> clearances(fields, "closerClearances", "closerSetTo", confirmedFrom));
        Part<Optional<Condition>> condition = optional(fields, "condition", this::condition);
        Part<Optional<Usage>> interval = document.part(() -> checkInterval(fields));
        Part<Optional<WearPrior>> wearPrior = document.part(() -> wearPrior(fields));
        Part<Optional<CamTiming>> timing = optional(fields, "camTiming", this::timing);
        Part<Optional<Decompressor>> decompressor = optional(fields, "decompressor", this::decompressor);
        Part<Optional<Camshafts>> camshafts = optional(fields, "camshafts", this::camshafts);
        Part<List<String>> cautions = document.part(() -> fields.texts("cautions"));
        Part<List<String>> tools = document.part(() -> fields.texts("tools"));

        boolean broken = document.faults().size() > before;
        return () -> {
            if (broken || document.isMisspelt(fields.object().pointer())) {
                // what is missing may be what could not be read
                throw document.faults().get(0);
            }
            int sound = document.faults().size();
            refuseSetToAlone(fields, "setTo", windows(fields, "clearances"), windows(fields, "setTo"));
            refuseSetToAlone(
                    fields, "closerSetTo", windows(fields, "closerClearances"), windows(fields, "closerSetTo"));
            if (document.faults().size() > sound) {
                throw document.faults().get(sound);
            }
            EngineSpec.Builder builder = EngineSpec.builder(id.get(), title.get())
                    .firingOrder(firingOrder.get())
                    .valves(valves.get())
                    .train(train.get());
            clearances.get().forEach(builder::clearance);
            closerClearances.get().forEach(builder::closerClearance);
            condition.get().flatMap(Condition::coldest).ifPresent(builder::coldest);
            condition.get().flatMap(Condition::warmest).ifPresent(builder::warmest);
            interval.get().ifPresent(builder::checkInterval);
            wearPrior.get().ifPresent(builder::wearPrior);
            timing.get().ifPresent(builder::camTiming);
            decompressor.get().ifPresent(builder::decompressor);
            camshafts.get().ifPresent(builder::camshafts);
            builder.cautions(cautions.get()).tools(tools.get()).template(template);
            // what does not fit together is shown at the figure that is at fault
            return document.at(fields, OF_ENGINE, builder::build);
        };
    }

    private <T> Part<Optional<T>> optional(JsonFields fields, String name, Function<JsonFields, T> read) {
        return document.part(() -> fields.find(name).map(document::fields).map(read));
    }

    private ValveId valve(Json value, Part<Integer> cylinders) {
        ValveId id = document.read(value, VALVE, ValveId::parse);
        if (id.cylinder() > cylinders.get()) {
            throw document.error(
                    value,
                    "is on a cylinder that the engine does not have",
                    "cylinders 1 to " + cylinders.get(),
                    "correct the valve, or the number of cylinders");
        }
        return id;
    }

    private Map<ValveRole, ClearanceSpec> clearances(
            JsonFields fields, String checkName, String setName, Map<ValveRole, String> confirmedFrom) {
        Part<Map<ValveRole, ClearanceWindow>> toCheck = document.part(() -> windows(fields, checkName));
        Part<Map<ValveRole, ClearanceWindow>> toSet = document.part(() -> windows(fields, setName));
        Map<ValveRole, ClearanceWindow> check = toCheck.get();
        Map<ValveRole, ClearanceWindow> setTo = toSet.get();
        Map<ValveRole, Part<ClearanceSpec>> parts = new EnumMap<>(ValveRole.class);
        check.forEach((role, window) -> parts.put(
                role,
                document.part(() -> document.at(
                        fields,
                        Map.of("window to set to", setName + "/" + role.code()),
                        () -> new ClearanceSpec(
                                window, setTo.getOrDefault(role, window), confirmedFrom.getOrDefault(role, ""))))));
        Map<ValveRole, ClearanceSpec> clearances = new EnumMap<>(ValveRole.class);
        parts.forEach((role, part) -> clearances.put(role, part.get()));
        return clearances;
    }

    /** Windows by role, from a field with the keys in and ex. */
    Map<ValveRole, ClearanceWindow> windows(JsonFields fields, String name) {
        Map<ValveRole, ClearanceWindow> windows = new EnumMap<>(ValveRole.class);
        fields.find(name).map(document::fields).ifPresent(byRole -> {
            Map<ValveRole, Part<Optional<ClearanceWindow>>> parts = new EnumMap<>(ValveRole.class);
            for (ValveRole role : ValveRole.values()) {
                parts.put(role, document.part(() -> byRole.find(role.code(), WINDOW, ClearanceWindow::parse)));
            }
            byRole.finish();
            parts.forEach((role, part) -> part.get().ifPresent(w -> windows.put(role, w)));
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
                document.tell(document.error(
                        document.fields(fields.get(setName)).get(role.code()),
                        "sets " + role.word() + " valves to a window without one to check against",
                        "clearances for " + role,
                        "add the window to check against"));
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
            Part<Usage> per =
                    document.part(() -> parts.get("per", "a usage above 0, such as \"10000 km\"", Usage::parse));
            Part<Length> drift = length(parts, "drift");
            Part<Length> driftDeviation = length(parts, "driftDeviation");
            Part<Length> spread = length(parts, "spread");
            Part<Length> scatter = length(parts, "scatter");
            Part<Ratio> factor =
                    document.part(() -> parts.get("factor", "a factor from 1.1 to 5, such as \"1.5\"", Ratio::parse));
            Part<String> basis =
                    document.part(() -> parts.get("basis", "where the figures come from", Function.identity()));
            parts.finish();
            return document.at(
                    parts,
                    OF_WEAR_PRIOR,
                    () -> new WearPrior(
                            per.get(),
                            drift.get(),
                            driftDeviation.get(),
                            spread.get(),
                            scatter.get(),
                            factor.get(),
                            basis.get()));
        });
    }

    private Part<Length> length(JsonFields fields, String name) {
        return document.part(() -> fields.get(name, LENGTH, Length::parse));
    }

    private FiringOrder firingOrder(JsonFields fields, Part<Integer> cylinders) {
        Part<Optional<List<Integer>>> written =
                document.part(() -> fields.find("firingOrder").map(this::cylinders));
        Part<Optional<List<Ratio>>> intervals =
                document.part(() -> fields.find("firingIntervals").map(this::intervals));
        List<Integer> order = written.get()
                .orElseGet(
                        () -> IntStream.rangeClosed(1, cylinders.get()).boxed().toList());
        if (order.size() != cylinders.get()) {
            throw document.error(
                    fields.get("cylinders"),
                    "does not agree with a firing order of " + order.size() + " cylinders",
                    order.size() + " cylinders",
                    "correct one of the two");
        }
        // alone first, so that a wrong order is not taken for wrong intervals
        Json place = fields.find("firingOrder").orElseGet(() -> fields.get("cylinders"));
        FiringOrder even = evenly(place, order);
        return intervals
                .get()
                .map(degrees -> at(fields.get("firingIntervals"), order, degrees))
                .orElse(even);
    }

    /** Cylinders that fire evenly; {@code place} gives their order. */
    FiringOrder evenly(Json place, List<Integer> order) {
        return document.at(place, () -> FiringOrder.even(order));
    }

    /** The crank degrees from each firing to the next. */
    List<Ratio> intervals(Json value) {
        return document.each(document.items(value), this::degrees);
    }

    /** Cylinders that fire at given intervals; {@code place} gives these. */
    FiringOrder at(Json place, List<Integer> order, List<Ratio> intervals) {
        return document.at(place, () -> new FiringOrder(order, intervals));
    }

    private Ratio degrees(Json value) {
        return Ratio.of(document.number(value, "crank degrees as a number"));
    }

    /** Between which temperatures the windows hold. */
    record Condition(Optional<Temperature> coldest, Optional<Temperature> warmest) {}

    Condition condition(JsonFields fields) {
        String expected = "a temperature such as \"30 °C\"";
        Part<Optional<Temperature>> coldest =
                document.part(() -> fields.find("minTemperature", expected, Temperature::parse));
        Part<Optional<Temperature>> warmest =
                document.part(() -> fields.find("maxTemperature", expected, Temperature::parse));
        fields.finish();
        return new Condition(coldest.get(), warmest.get());
    }

    private Part<Optional<Ratio>> angle(JsonFields fields, String name, String example) {
        return document.part(() -> fields.find(name, "an angle such as \"" + example + "\"", CamTiming::parseDegrees));
    }

    CamTiming timing(JsonFields fields) {
        Part<Events> intake = document.part(() -> events(document.fields(fields.get("in"))));
        Part<Events> exhaust = document.part(() -> events(document.fields(fields.get("ex"))));
        Part<Optional<Ratio>> margin = angle(fields, "margin", "15 deg");
        fields.finish();
        return document.at(
                fields,
                OF_TIMING,
                () -> new CamTiming(
                        intake.get().opens(),
                        intake.get().closes(),
                        exhaust.get().opens(),
                        exhaust.get().closes(),
                        margin.get().orElse(CamTiming.GENERIC.margin())));
    }

    private record Events(CamTiming.Event opens, CamTiming.Event closes) {}

    private Events events(JsonFields fields) {
        Part<CamTiming.Event> opens = document.part(() -> event(fields, "opens"));
        Part<CamTiming.Event> closes = document.part(() -> event(fields, "closes"));
        fields.finish();
        return new Events(opens.get(), closes.get());
    }

    Decompressor decompressor(JsonFields fields) {
        Part<ValveId> valve = document.part(() -> fields.get("valve", VALVE, ValveId::parse));
        Part<Optional<Ratio>> before = angle(fields, "before", "60 deg");
        Part<Optional<Ratio>> after = angle(fields, "after", "20 deg");
        fields.finish();
        boolean inRange = before.get()
                .map(b -> b.signum() >= 0 && b.compareTo(Ratio.of(360, 1)) <= 0)
                .orElse(true);
        return document.at(
                fields,
                Map.of("decompressor", inRange ? "after" : "before"),
                () -> new Decompressor(
                        valve.get(), before.get().orElse(null), after.get().orElse(null)));
    }

    Camshafts camshafts(JsonFields fields) {
        Part<PerBank> perBank = document.part(() ->
                fields.find("perBank", "one or one-per-role", PerBank::parse).orElse(PerBank.ONE_PER_ROLE));
        Part<List<List<Integer>>> banks = document.parts(document.part(() -> fields.items("banks")), this::cylinders);
        fields.finish();
        return document.at(fields.object(), () -> new Camshafts(perBank.get(), banks.get()));
    }

    /** Cylinders in the order in which they are listed. */
    List<Integer> cylinders(Json list) {
        return document.each(document.items(list), cylinder -> document.wholeNumber(cylinder, 1, MOST_CYLINDERS));
    }

    private static CamTiming.Event event(JsonFields fields, String name) {
        return fields.get(name, "an event such as \"15 deg BTDC\"", CamTiming.Event::parse);
    }

    /** What moves the valves. */
    ValveTrain train(JsonFields fields) {
        Json kindValue = fields.get("kind");
        String kind = document.text(kindValue, "a kind of valve train");
        Supplier<ValveTrain> made = parts(kindValue, kind, fields);
        fields.finish();
        return document.at(fields, OF_TRAIN, made);
    }

    /** Reads all parts of a train, so that each is told that is wrong, and then makes it. */
    private Supplier<ValveTrain> parts(Json kindValue, String kind, JsonFields fields) {
        Part<Optional<Length>> step = document.part(() -> kind.equals(ScrewPlace.TAPPET.kind())
                ? fields.find("step", "what one turn changes, such as \"0.05 mm\"", Length::parse)
                : Optional.empty());
        if (kind.equals(ScrewPlace.TAPPET.kind()) && fields.object().members().containsKey("step")) {
            return () -> new ValveTrain.Wedge(step.get().orElseThrow());
        }
        for (ScrewPlace place : ScrewPlace.values()) {
            if (place.kind().equals(kind)) {
                Part<Pitch> pitch = document.part(
                        () -> fields.get("pitch", "a pitch such as \"0.75 mm\" or \"26 tpi\"", Pitch::parse));
                Part<Ratio> ratio = place.needsRatio() ? ratio(fields, "ratio") : document.part(() -> Ratio.ONE);
                Part<ScrewHead> head =
                        document.part(() -> fields.find("head", "hexagon, square, slot or not-stated", ScrewHead::parse)
                                .orElse(ScrewHead.NOT_STATED));
                return () -> new ValveTrain.Screw(place, pitch.get(), ratio.get(), head.get());
            }
        }
        for (ShimPlace place : ShimPlace.values()) {
            if (place.kind().equals(kind)) {
                Part<ShimRange> shims = shims(fields, "shims");
                Part<Ratio> ratio =
                        place == ShimPlace.FOLLOWER ? ratio(fields, "ratio") : document.part(() -> Ratio.ONE);
                return () -> new ValveTrain.Shim(place, shims.get(), ratio.get());
            }
        }
        switch (kind) {
            case "eccentric" -> {
                Part<Length> eccentricity =
                        document.part(() -> fields.get("eccentricity", "a length such as \"1.5 mm\"", Length::parse));
                Part<Ratio> multiplier = ratio(fields, "multiplier");
                return () -> new ValveTrain.Eccentric(eccentricity.get(), multiplier.get());
            }
            case "desmodromic" -> {
                Part<ShimRange> opener = shims(fields, "openerShims");
                Part<ShimRange> closer = shims(fields, "closerShims");
                return () -> new ValveTrain.Desmodromic(opener.get(), closer.get());
            }
            case "fixed" -> {
                return ValveTrain.Fixed::new;
            }
            case "hydraulic" -> {
                return ValveTrain.Hydraulic::new;
            }
            default ->
                throw document.error(
                        kindValue, "is not a kind of valve train", "one of " + kinds(), "write one of these kinds");
        }
    }

    private Part<Ratio> ratio(JsonFields fields, String name) {
        return document.part(() -> fields.get(name, "a ratio such as \"1.5\"", Ratio::parse));
    }

    private Part<ShimRange> shims(JsonFields fields, String name) {
        return document.part(() -> fields.get(name, "sizes such as \"1.20..3.50 mm step 0.05 mm\"", ShimRange::parse));
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
