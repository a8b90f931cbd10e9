package dev.lash.specs;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * What is left of a template of which parts could not be read, so that its other figures are held to the rules in the same run. What
 * could not be read is taken out, or something stands in for it where an engine needs it, and {@link TemplateDoubts} keeps the rules
 * off it. Where that is not enough, more of the same field is taken out.
 */
final class TemplateRest {
    private static final String WINDOW = "0.10..0.15 mm";
    private static final String SIZES = "2.00..3.00 mm step 0.05 mm";
    private static final Map<String, String> OF_TRAIN = Map.of(
            "pitch", "1 mm",
            "ratio", "1",
            "eccentricity", "1 mm",
            "multiplier", "1",
            "shims", SIZES,
            "openerShims", SIZES,
            "closerShims", SIZES);

    /** Once for each way to take a field out, and each field. */
    private static final int MOST_ROUNDS = 60;

    private final JsonDocument document;
    private final Map<String, Json> members;
    private final Set<String> places = new LinkedHashSet<>();
    private final Set<String> open = new LinkedHashSet<>();
    private final Map<String, Integer> attempts = new HashMap<>();

    /** The rest, and what of it is in doubt. */
    record Rest(Template template, TemplateDoubts doubts) {}

    private TemplateRest(JsonDocument document) {
        this.document = document;
        this.members = new LinkedHashMap<>(document.root().members());
    }

    /**
     * Reads what can be read.
     *
     * @param document a template that cannot be read whole
     * @param findings where it is told what does not fit together in the rest
     * @return the rest; empty where nothing sensible is left
     */
    static Optional<Rest> of(JsonDocument document, List<PackFinding> findings) {
        return document.root().kind() == Json.Kind.OBJECT
                ? new TemplateRest(document).read(findings)
                : Optional.empty();
    }

    private Optional<Rest> read(List<PackFinding> findings) {
        for (int round = 0; round < MOST_ROUNDS; round++) {
            JsonDocument rest = document.with(object("", members)).tellingAll();
            Optional<Template> template = Optional.empty();
            try {
                template = Optional.of(new TemplateReader(rest).readLoosely());
            } catch (DocumentException broken) {
                rest.tell(broken);
            }
            TemplateDoubts doubts = new TemplateDoubts(document, places, open);
            List<DocumentException> faults = rest.faults();
            if (template.isPresent() && faults.isEmpty()) {
                return template.map(t -> new Rest(t, doubts));
            }
            for (DocumentException fault : faults) {
                // what the first round finds is told already, and so is what is wrong with its fields
                if (round > 0
                        && !attempts.containsKey(field(fault))
                        && !doubts.concernStructure()
                        && !doubts.touch(fault.pointer())) {
                    findings.add(PackFinding.of(fault));
                }
            }
            if (!takeOut(faults)) {
                return Optional.empty();
            }
        }
        return Optional.empty();
    }

    /** Takes out what faults were found with; each field that is found fault with again loses more. */
    private boolean takeOut(List<DocumentException> faults) {
        Set<String> fields = new LinkedHashSet<>();
        for (DocumentException fault : faults) {
            String[] steps = fault.pointer().split("/", -1);
            String field = field(fault);
            fields.add(field);
            int attempt = attempts.getOrDefault(field, 0);
            if (field.equals("format") || attempt > 2) {
                return false;
            }
            switch (fault.fault()) {
                case UNKNOWN_FIELD -> {
                    open.add(parent(fault.pointer()));
                    if (steps.length == 2) {
                        members.remove(field);
                        complete();
                        continue;
                    }
                }
                case MISSING_FIELD -> open.add(fault.pointer());
                default -> {
                    if (!field.isEmpty()) {
                        places.add(fault.pointer());
                    }
                }
            }
            if (field.isEmpty()) {
                open.add("");
                complete();
            } else if (attempt == 0) {
                finely(field, steps);
            } else {
                places.add("/" + field);
                whole(field, attempt > 1);
            }
        }
        fields.forEach(field -> attempts.merge(field, 1, Integer::sum));
        return !faults.isEmpty();
    }

    /** Takes one value out of a field. */
    private void finely(String field, String[] steps) {
        Json value = members.get(field);
        String inner = steps.length > 2 ? plain(steps[2]) : "";
        if (value == null) {
            return;
        }
        switch (field) {
            case "train" -> {
                String kind = Optional.ofNullable(value.members().get("kind"))
                        .map(Json::text)
                        .orElse("");
                Optional<List<String>> figures = EngineReader.figuresOf(kind);
                if (figures.isEmpty() || inner.equals("kind")) {
                    whole(field, false);
                    places.add("/train");
                    return;
                }
                Map<String, Json> train = new LinkedHashMap<>(value.members());
                train.remove(inner);
                if (inner.equals("step")) {
                    train.put(inner, text("/train/step", "0.05 mm"));
                }
                for (String figure : figures.get()) {
                    String standIn = OF_TRAIN.get(figure);
                    if (standIn != null && !(figure.equals("pitch") && train.containsKey("step"))) {
                        train.computeIfAbsent(figure, name -> text("/train/" + name, standIn));
                    }
                }
                members.put(field, object("/train", train));
            }
            case "clearances", "closerClearances" -> {
                drop(field.equals("clearances") ? "setTo" : "closerSetTo");
                Map<String, Json> windows = new LinkedHashMap<>(value.members());
                windows.keySet().retainAll(List.of("in", "ex"));
                windows.remove(inner);
                windows.putIfAbsent("in", text("/" + field + "/in", WINDOW));
                windows.putIfAbsent("ex", text("/" + field + "/ex", WINDOW));
                members.put(field, object("/" + field, windows));
            }
            case "notes", "cautions", "tools", "examples", "sources", "provenance", "condition" -> {
                if (value.kind() == Json.Kind.OBJECT && !inner.isEmpty()) {
                    Map<String, Json> left = new LinkedHashMap<>(value.members());
                    left.remove(inner);
                    places.add("/" + field + JsonDocument.step(inner));
                    members.put(field, object("/" + field, left));
                } else if (value.kind() == Json.Kind.ARRAY && !inner.isEmpty()) {
                    String gone = "/" + field + "/" + inner;
                    places.add(gone);
                    members.put(
                            field,
                            list(
                                    "/" + field,
                                    value.items().stream()
                                            .filter(item -> !item.pointer().equals(gone))
                                            .toList()));
                } else {
                    whole(field, false);
                }
            }
            default -> {
                places.add("/" + field);
                whole(field, false);
            }
        }
    }

    /** Takes a field out, and puts something in its place where it cannot be missing, unless it is gone for good. */
    private void whole(String field, boolean forGood) {
        switch (field) {
            case "firingOrder", "firingIntervals" -> {
                drop("firingOrder");
                drop("firingIntervals");
            }
            case "cylinders" -> {
                for (String name : List.of("firingOrder", "firingIntervals", "valves", "decompressor", "camshafts")) {
                    drop(name);
                }
            }
            case "valves" -> drop("decompressor");
            case "clearances" -> drop("setTo");
            case "closerClearances" -> drop("closerSetTo");
            default -> {
                // nothing else hangs on it
            }
        }
        members.remove(field);
        if (!forGood) {
            complete();
            if (field.equals("closerClearances")) {
                members.put(field, windows(field));
            }
        }
    }

    private void drop(String field) {
        places.add("/" + field);
        members.remove(field);
    }

    /** Puts something in for each field that every template must have. */
    private void complete() {
        members.computeIfAbsent("id", name -> text("/id", "nameless"));
        members.computeIfAbsent("title", name -> text("/title", "nameless"));
        members.computeIfAbsent("revision", name -> number("/revision"));
        members.computeIfAbsent("status", name -> text("/status", "active"));
        members.computeIfAbsent("addedIn", name -> text("/addedIn", "0.0.1"));
        members.computeIfAbsent("cylinders", name -> number("/cylinders"));
        members.computeIfAbsent("valves", name -> valves());
        members.computeIfAbsent(
                "train", name -> object("/train", new LinkedHashMap<>(Map.of("kind", text("/train/kind", "fixed")))));
        members.computeIfAbsent("clearances", this::windows);
        members.computeIfAbsent("sources", name -> object("/sources", new LinkedHashMap<>()));
        members.computeIfAbsent("provenance", name -> object("/provenance", new LinkedHashMap<>()));
    }

    private Json windows(String field) {
        Map<String, Json> windows = new LinkedHashMap<>();
        for (String role : List.of("in", "ex")) {
            windows.put(role, text("/" + field + "/" + role, WINDOW));
        }
        return object("/" + field, windows);
    }

    /** One valve of each role on each cylinder. */
    private Json valves() {
        String given =
                Optional.ofNullable(members.get("cylinders")).map(Json::text).orElse("");
        int cylinders =
                given.matches("[1-9][0-9]?") ? Math.min(Integer.parseInt(given), EngineReader.MOST_CYLINDERS) : 1;
        List<Json> valves = new ArrayList<>();
        for (int cylinder = 1; cylinder <= cylinders; cylinder++) {
            for (String role : List.of("in", "ex")) {
                valves.add(text("/valves/" + valves.size(), cylinder + "-" + role + "-1"));
            }
        }
        return list("/valves", valves);
    }

    private Json object(String pointer, Map<String, Json> fields) {
        Json at = document.find(pointer).orElseGet(document::root);
        return new Json(Json.Kind.OBJECT, "", List.of(), fields, pointer, at.line(), at.column());
    }

    private Json list(String pointer, List<Json> items) {
        Json at = document.find(pointer).orElseGet(document::root);
        return new Json(Json.Kind.ARRAY, "", List.copyOf(items), Map.of(), pointer, at.line(), at.column());
    }

    private Json text(String pointer, String text) {
        return value(Json.Kind.TEXT, pointer, text);
    }

    private Json number(String pointer) {
        return value(Json.Kind.NUMBER, pointer, "1");
    }

    private Json value(Json.Kind kind, String pointer, String text) {
        Json root = document.root();
        return new Json(kind, text, List.of(), Map.of(), pointer, root.line(), root.column());
    }

    /** The field of the template that a fault is in; empty for the template itself. */
    private static String field(DocumentException fault) {
        String[] steps = fault.pointer().split("/", -1);
        return steps.length > 1 ? plain(steps[1]) : "";
    }

    private static String plain(String step) {
        return step.replace("~1", "/").replace("~0", "~");
    }

    private static String parent(String pointer) {
        return pointer.substring(0, Math.max(0, pointer.lastIndexOf('/')));
    }
}
