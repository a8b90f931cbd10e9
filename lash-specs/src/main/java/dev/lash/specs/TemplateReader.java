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
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import dev.lash.specs.DocumentException.Fault;
import dev.lash.specs.JsonDocument.Part;
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
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.stream.Collectors;

/** Reads spec templates ({@code lash-template/1}), and holds each figure to name its source. */
final class TemplateReader {
    static final String FORMAT = "lash-template/1";
    private static final int MOST_REVISIONS = 100_000;
    private static final List<String> DETAILS = List.of("publisher", "edition", "locator", "reliability", "note");

    private static final List<String> TURNS = List.of(ExampleTurn.TURN, ExampleTurn.CERTAIN);

    private final JsonDocument document;

    TemplateReader(JsonDocument document) {
        this.document = document.linewise();
    }

    /**
     * Reads a template of which all is told that is wrong.
     *
     * @param findings where that is told
     * @return the template, or empty where anything is wrong
     */
    static Optional<Template> read(JsonDocument document, List<PackFinding> findings) {
        JsonDocument whole = document.linewise().tellingAll();
        Optional<Template> template = Optional.empty();
        try {
            template = Optional.of(new TemplateReader(whole).read());
        } catch (DocumentException broken) {
            whole.tell(broken);
        }
        whole.faults().stream().map(PackFinding::of).forEach(findings::add);
        if (whole.isOverfull()) {
            findings.add(PackFinding.of(whole.error(
                    whole.root(),
                    "has more than " + JsonDocument.MOST_FAULTS + " faults: the rest is left out here",
                    "a template",
                    "mend these and check it again; where they are all alike, it may be another kind of file")));
        }
        return whole.faults().isEmpty() ? template : Optional.empty();
    }

    Template read() {
        return read(true);
    }

    /** The rest of a template: that its figures name their sources was held to the whole, and is not asked again. */
    Template readLoosely() {
        return read(false);
    }

    private Template read(boolean whole) {
        JsonFields fields = document.fields(FORMAT, "template");
        Part<Integer> revision = document.part(() -> document.wholeNumber(fields.get("revision"), 1, MOST_REVISIONS));
        Part<LifeCycle> lifeCycle = document.part(() -> lifeCycle(fields));
        Part<Features> features =
                document.part(() -> fields.find("features").map(this::features).orElse(new Features("", List.of())));
        Part<List<TemplateExample>> examples =
                document.parts(document.part(() -> fields.items("examples")), this::example);
        Supplier<EngineSpec> engine = new EngineReader(document).parts(fields, Map.of(), "");
        Part<List<String>> notes = document.part(() -> fields.texts("notes"));
        Part<Map<String, Source>> sources = document.part(() -> sources(document.fields(fields.get("sources"))));
        Part<Json> given = document.part(() -> fields.get("provenance"));
        fields.finish();
        Part<EngineSpec> spec = document.part(engine);
        Part<Map<String, String>> provenance =
                document.part(() -> whole ? provenance(fields, given.get()) : written(document.fields(given.get())));

        String name = spec.get().id() + ", revision " + revision.get();
        Map<Figure, Origin> origins = new EnumMap<>(Figure.class);
        if (whole) {
            provenance
                    .get()
                    .forEach((pointer, source) -> FigureForms.at(pointer)
                            // one that says no more than what holds without it is none
                            .filter(figure -> spec.get()
                                    .findFigure(figure, LengthUnit.MILLIMETRE)
                                    .isPresent())
                            .ifPresent(
                                    figure -> Optional.ofNullable(sources.get().get(source))
                                            .ifPresent(s -> origins.put(figure, s.origin(name)))));
        }
        EngineSpec known =
                spec.get().toBuilder().template(name).origins(origins).build();
        return new Template(
                known,
                revision.get(),
                notes.get(),
                sources.get(),
                provenance.get(),
                lifeCycle.get(),
                features.get(),
                examples.get());
    }

    private LifeCycle lifeCycle(JsonFields fields) {
        Part<Status> status = document.part(() -> fields.get(
                "status",
                "active, deprecated or withdrawn",
                word -> choose("status", word, Arrays.asList(Status.values()), Status::word)));
        Part<String> addedIn = document.part(() -> fields.get("addedIn", "a version of the pack", Versions::checked));
        Part<String> deprecatedIn =
                document.part(() -> fields.find("deprecatedIn", "a version of the pack", Versions::checked)
                        .orElse(""));
        Part<String> replacedBy = document.part(() -> fields.text("replacedBy"));
        return new LifeCycle(status.get(), addedIn.get(), deprecatedIn.get(), replacedBy.get());
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
        Part<String> cooling = document.part(() -> fields.find(
                        "cooling",
                        "a kind of cooling",
                        word -> choose("kind of cooling", word, Features.COOLING, Function.identity()))
                .orElse(""));
        Part<List<String>> uses = document.parts(
                document.part(() -> fields.items("uses")),
                use -> document.read(use, "a use", word -> choose("use", word, Features.USES, Function.identity())));
        fields.finish();
        return new Features(cooling.get(), uses.get());
    }

    private TemplateExample example(Json value) {
        JsonFields fields = document.fields(value);
        Part<ValveId> valve = document.part(() -> fields.get("valve", "a valve such as \"1-in-1\"", ValveId::parse));
        Part<Gap> gap = document.part(
                () -> fields.find("gap", "opener or closer", Gap::parse).orElse(Gap.ONLY));
        Part<List<Trial>> trials = trials(fields, "trials");
        Part<List<Trial>> loadedTrials = trials(fields, "loadedTrials");
        Part<Optional<Length>> shim =
                document.part(() -> fields.find("shim", "a length such as \"2.45 mm\"", Length::parse));
        Part<Optional<Ratio>> angle = document.part(
                () -> fields.find("eccentricAngle", "degrees such as \"20 deg\"", CamTiming::parseDegrees));
        Part<List<Length>> leaves = document.parts(
                document.part(() -> fields.items("leaves")),
                leaf -> document.read(leaf, "a length such as \"0.10 mm\"", Length::parse));
        Part<LengthInterval> bracket = document.part(
                () -> fields.get("bracket", "a reading such as \"(0.12, 0.15) mm\"", LengthInterval::parse));
        Part<Verdict> verdict = document.part(() -> fields.get(
                "verdict",
                "a verdict",
                word -> choose("verdict", word, Arrays.asList(Verdict.values()), Verdict::word)));
        Part<Map<String, String>> adjustment = document.part(() -> adjustment(fields));
        Part<String> note = document.part(() -> fields.text("note"));
        fields.finish();
        return new TemplateExample(
                valve.get(),
                gap.get(),
                trials.get(),
                loadedTrials.get(),
                shim.get().orElse(null),
                angle.get().orElse(null),
                leaves.get(),
                bracket.get(),
                verdict.get(),
                adjustment.get(),
                note.get(),
                value.pointer());
    }

    private Part<List<Trial>> trials(JsonFields fields, String name) {
        return document.parts(
                document.part(() -> fields.items(name)),
                item -> document.read(item, "a trial such as \"0.10 mm goes\"", Trial::parse));
    }

    /** What the adjustment must be: its kind, and any of its figures. */
    private Map<String, String> adjustment(JsonFields fields) {
        JsonFields parts = document.fields(fields.get("adjustment"));
        document.part(() -> parts.get("kind"));
        Map<String, Part<String>> figures = new LinkedHashMap<>();
        parts.members()
                .forEach((name, part) -> figures.put(
                        name,
                        document.part(() -> TURNS.contains(name)
                                ? document.read(part, ExampleTurn.EXPECTED, ExampleTurn::parse)
                                        .toString()
                                : document.text(part, "a text"))));
        Map<String, String> expected = new LinkedHashMap<>();
        figures.forEach((name, figure) -> expected.put(name, figure.get()));
        return expected;
    }

    private Map<String, Source> sources(JsonFields fields) {
        Map<String, Part<Source>> read = new LinkedHashMap<>();
        fields.members()
                .forEach((name, value) -> read.put(name, document.part(() -> {
                    document.refuseBreaks(value, name);
                    return source(document.fields(value));
                })));
        Map<String, Source> sources = new LinkedHashMap<>();
        read.forEach((name, source) -> sources.put(name, source.get()));
        return sources;
    }

    private Source source(JsonFields fields) {
        Part<SourceKind> kind = document.part(() -> fields.get(
                "kind",
                "a kind of source",
                word -> choose("kind of source", word, Arrays.asList(SourceKind.values()), SourceKind::word)));
        Part<String> title = document.part(() -> fields.text("title"));
        Part<Integer> year = document.part(() -> fields.find("year")
                .map(value -> document.wholeNumber(value, 1800, 2200))
                .orElse(0));
        Map<String, Part<String>> details = new TreeMap<>();
        for (String name : DETAILS) {
            details.put(name, document.part(() -> fields.text(name)));
        }
        fields.finish();
        if (kind.get() == SourceKind.PUBLISHED
                && (title.get().isBlank() || year.get() == 0)
                && !document.isMisspelt(fields.object().pointer())) {
            throw document.error(
                    fields.object(),
                    "is published without title and year",
                    "a title and a year",
                    "name the publication");
        }
        Map<String, String> given = new TreeMap<>();
        details.forEach((name, text) -> {
            if (!text.get().isEmpty()) {
                given.put(name, text.get());
            }
        });
        return new Source(kind.get(), title.get(), year.get(), given);
    }

    private Map<String, String> written(JsonFields fields) {
        Map<String, Part<String>> read = new LinkedHashMap<>();
        fields.members()
                .forEach((pointer, value) ->
                        read.put(pointer, document.part(() -> document.text(value, "the short name of a source"))));
        Map<String, String> provenance = new LinkedHashMap<>();
        read.forEach((pointer, source) -> provenance.put(pointer, source.get()));
        return provenance;
    }

    /** The source of each figure. What is asked here is the document itself, so that no fault elsewhere makes another here. */
    private Map<String, String> provenance(JsonFields fields, Json object) {
        TreeSet<String> figures = new TreeSet<>(figures(fields));
        Set<String> sources = fields.object().members().containsKey("sources")
                ? fields.get("sources").members().keySet()
                : Set.of();
        Map<String, Part<String>> read = new LinkedHashMap<>();
        document.fields(object)
                .members()
                .forEach((pointer, value) ->
                        read.put(pointer, document.part(() -> source(pointer, value, figures, sources))));
        figures.removeAll(read.keySet());
        figures.removeIf(figure -> isTold(figure) || isOfUnknownKind(figure));
        if (!figures.isEmpty()) {
            document.tell(document.error(
                    object,
                    "leaves figures without a source: " + figures,
                    "a source for each figure",
                    "say where each comes from"));
        }
        Map<String, String> provenance = new LinkedHashMap<>();
        read.forEach((pointer, source) -> provenance.put(pointer, source.get()));
        return provenance;
    }

    private String source(String pointer, Json value, Set<String> figures, Set<String> sources) {
        String source = document.text(value, "the short name of a source");
        if (!figures.contains(pointer) && !isMisspelt(pointer)) {
            throw document.error(
                    value,
                    "is the source of " + pointer + ", which is no figure of this template",
                    "one of " + figures,
                    "correct the pointer");
        }
        if (!sources.contains(source) && !document.isMisspelt("") && !isTold("/sources")) {
            throw document.error(
                    value, "is not a source of this template", "one of " + sources, "add it to the sources");
        }
        return source;
    }

    /** Whether a figure at that pointer is likely to be there under a name that was refused. */
    private boolean isMisspelt(String pointer) {
        String holder = pointer.lastIndexOf('/') > 0 ? pointer.substring(0, pointer.lastIndexOf('/')) : "";
        return document.isMisspelt(document.find(holder).isPresent() ? holder : "")
                || isTold(holder)
                || isOfUnknownKind(pointer);
    }

    /** Whether a figure is of a train of which nobody knows what figures it has. */
    private boolean isOfUnknownKind(String pointer) {
        return pointer.startsWith("/train/") && isTold("/train/kind");
    }

    /** Whether something is wrong with the value at that pointer itself, or with its name. */
    private boolean isTold(String pointer) {
        return document.faults().stream()
                .anyMatch(fault ->
                        fault.fault() != Fault.MISSING_FIELD && fault.pointer().equals(pointer));
    }

    /** The pointers of all that must name its source: everything that a mechanic may act on. */
    private static List<String> figures(JsonFields fields) {
        return fields.object().members().entrySet().stream()
                .flatMap(field -> switch (field.getKey()) {
                    case "firingOrder",
                            "firingIntervals",
                            "checkInterval",
                            "camTiming",
                            "decompressor",
                            "camshafts",
                            "wearPrior" -> List.of("/" + field.getKey()).stream();
                    case "train", "clearances", "setTo", "closerClearances", "closerSetTo", "condition" ->
                        field.getValue().members().keySet().stream()
                                .filter(name -> !name.equals("kind"))
                                .map(name -> "/" + field.getKey() + "/" + name);
                    default -> List.<String>of().stream();
                })
                .toList();
    }
}
