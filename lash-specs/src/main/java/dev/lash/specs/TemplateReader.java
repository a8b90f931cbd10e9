package dev.lash.specs;

import dev.lash.engine.CamTiming;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Figure;
import dev.lash.engine.Gap;
import dev.lash.engine.Origin;
import dev.lash.engine.ValveId;
import dev.lash.gauge.Trial;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.RejectedValueException;
import dev.lash.specs.Template.Features;
import dev.lash.specs.Template.LifeCycle;
import dev.lash.specs.Template.Source;
import dev.lash.specs.Template.SourceKind;
import dev.lash.specs.Template.Status;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;

/** Reads spec templates ({@code lash-template/1}), and holds each figure to name its source. */
final class TemplateReader {
    static final String FORMAT = "lash-template/1";
    private static final int MOST_REVISIONS = 100_000;
    private static final List<String> DETAILS = List.of("publisher", "edition", "locator", "reliability", "note");

    private static final List<String> TURNS = List.of(ExampleTurn.TURN, ExampleTurn.CERTAIN);

    private final JsonDocument document;

    TemplateReader(JsonDocument document) {
        this.document = document;
    }

    Template read() {
        JsonFields fields = document.fields(FORMAT, "template");
        int revision = document.wholeNumber(fields.get("revision"), 1, MOST_REVISIONS);
        LifeCycle lifeCycle = lifeCycle(fields);
        Features features = fields.find("features").map(this::features).orElse(new Features("", List.of()));
        List<TemplateExample> examples =
                fields.items("examples").stream().map(this::example).toList();
        String id = document.text(fields.get("id"), "a short name");
        EngineSpec spec = new EngineReader(document).read(fields, Map.of(), id + ", revision " + revision);
        List<String> notes = fields.texts("notes");
        Map<String, Source> sources = sources(document.fields(fields.get("sources")));
        Map<String, String> provenance = provenance(fields, sources);
        fields.finish();
        Map<Figure, Origin> origins = new EnumMap<>(Figure.class);
        provenance.forEach((pointer, source) -> FigureForms.at(pointer)
                .ifPresent(figure -> Optional.ofNullable(sources.get(source))
                        .ifPresent(s -> origins.put(figure, s.origin(id + ", revision " + revision)))));
        EngineSpec known = spec.toBuilder().origins(origins).build();
        return new Template(known, revision, notes, sources, provenance, lifeCycle, features, examples);
    }

    private LifeCycle lifeCycle(JsonFields fields) {
        Status status = fields.get(
                "status",
                "active, deprecated or withdrawn",
                word -> choose("status", word, Arrays.asList(Status.values()), Status::word));
        return new LifeCycle(
                status,
                fields.get("addedIn", "a version of the pack", Versions::checked),
                fields.find("deprecatedIn", "a version of the pack", Versions::checked)
                        .orElse(""),
                fields.text("replacedBy"));
    }

    private static <T> T choose(String what, String word, List<T> of, Function<T, String> named) {
        return of.stream()
                .filter(choice -> named.apply(choice).equals(word))
                .findFirst()
                .orElseThrow(() -> new RejectedValueException(
                        what,
                        word,
                        "is not a " + what,
                        of.stream().map(named).collect(Collectors.joining(", ")),
                        "write one of these"));
    }

    private Features features(Json value) {
        JsonFields fields = document.fields(value);
        String cooling = fields.find(
                        "cooling",
                        "a kind of cooling",
                        word -> choose("kind of cooling", word, Features.COOLING, Function.identity()))
                .orElse("");
        List<String> uses = fields.items("uses").stream()
                .map(use ->
                        document.read(use, "a use", word -> choose("use", word, Features.USES, Function.identity())))
                .toList();
        fields.finish();
        return new Features(cooling, uses);
    }

    private TemplateExample example(Json value) {
        JsonFields fields = document.fields(value);
        String trial = "a trial such as \"0.10 mm goes\"";
        TemplateExample example = new TemplateExample(
                fields.get("valve", "a valve such as \"1-in-1\"", ValveId::parse),
                fields.find("gap", "opener or closer", Gap::parse).orElse(Gap.ONLY),
                trials(fields, "trials", trial),
                trials(fields, "loadedTrials", trial),
                fields.find("shim", "a length such as \"2.45 mm\"", Length::parse)
                        .orElse(null),
                fields.find("eccentricAngle", "degrees such as \"20 deg\"", CamTiming::parseDegrees)
                        .orElse(null),
                fields.items("leaves").stream()
                        .map(leaf -> document.read(leaf, "a length such as \"0.10 mm\"", Length::parse))
                        .toList(),
                fields.get("bracket", "a reading such as \"(0.12, 0.15) mm\"", LengthInterval::parse),
                fields.get(
                        "verdict",
                        "a verdict",
                        word -> choose("verdict", word, Arrays.asList(Verdict.values()), Verdict::word)),
                adjustment(fields),
                fields.text("note"),
                value.pointer());
        fields.finish();
        return example;
    }

    private List<Trial> trials(JsonFields fields, String name, String expected) {
        return fields.items(name).stream()
                .map(item -> document.read(item, expected, Trial::parse))
                .toList();
    }

    /** What the adjustment must be: its kind, and any of its figures. */
    private Map<String, String> adjustment(JsonFields fields) {
        Map<String, String> expected = new LinkedHashMap<>();
        JsonFields parts = document.fields(fields.get("adjustment"));
        parts.get("kind");
        parts.members()
                .forEach((name, part) -> expected.put(
                        name,
                        TURNS.contains(name)
                                ? document.read(part, ExampleTurn.EXPECTED, ExampleTurn::parse)
                                        .toString()
                                : document.text(part, "a text")));
        return expected;
    }

    private Map<String, Source> sources(JsonFields fields) {
        Map<String, Source> sources = new LinkedHashMap<>();
        fields.members().forEach((name, value) -> sources.put(name, source(document.fields(value))));
        return sources;
    }

    private Source source(JsonFields fields) {
        Json kindValue = fields.get("kind");
        String kindText = document.text(kindValue, "a kind of source");
        SourceKind kind = Arrays.stream(SourceKind.values())
                .filter(k -> k.word().equals(kindText))
                .findFirst()
                .orElseThrow(() -> document.error(
                        kindValue,
                        "is not a kind of source",
                        Arrays.stream(SourceKind.values()).map(SourceKind::word).collect(Collectors.joining(", ")),
                        "write one of these"));
        String title = fields.text("title");
        int year = fields.find("year")
                .map(value -> document.wholeNumber(value, 1800, 2200))
                .orElse(0);
        if (kind == SourceKind.PUBLISHED && (title.isBlank() || year == 0)) {
            throw document.error(
                    fields.object(),
                    "is published without title and year",
                    "a title and a year",
                    "name the publication");
        }
        Map<String, String> details = new TreeMap<>();
        for (String name : DETAILS) {
            String text = fields.text(name);
            if (!text.isEmpty()) {
                details.put(name, text);
            }
        }
        fields.finish();
        return new Source(kind, title, year, details);
    }

    private Map<String, String> provenance(JsonFields fields, Map<String, Source> sources) {
        Json object = fields.get("provenance");
        TreeSet<String> figures = new TreeSet<>(figures(fields));
        Map<String, String> provenance = new LinkedHashMap<>();
        document.fields(object).members().forEach((pointer, value) -> {
            String source = document.text(value, "the short name of a source");
            if (!figures.contains(pointer)) {
                throw document.error(
                        value,
                        "is the source of " + pointer + ", which is no figure of this template",
                        "one of " + figures,
                        "correct the pointer");
            }
            if (!sources.containsKey(source)) {
                throw document.error(
                        value,
                        "is not a source of this template",
                        "one of " + sources.keySet(),
                        "add it to the sources");
            }
            provenance.put(pointer, source);
        });
        figures.removeAll(provenance.keySet());
        if (!figures.isEmpty()) {
            throw document.error(
                    object,
                    "leaves figures without a source: " + figures,
                    "a source for each figure",
                    "say where each comes from");
        }
        return provenance;
    }

    /** The pointers of all that must name its source: everything that a mechanic may act on. */
    private static List<String> figures(JsonFields fields) {
        return fields.object().members().entrySet().stream()
                .flatMap(field -> switch (field.getKey()) {
                    case "firingOrder", "firingIntervals", "checkInterval", "camTiming", "decompressor", "wearPrior" ->
                        List.of("/" + field.getKey()).stream();
                    case "train", "clearances", "setTo", "closerClearances", "closerSetTo", "condition" ->
                        field.getValue().members().keySet().stream()
                                .filter(name -> !name.equals("kind"))
                                .map(name -> "/" + field.getKey() + "/" + name);
                    default -> List.<String>of().stream();
                })
                .toList();
    }
}
