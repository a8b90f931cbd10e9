package dev.lash.examples;

import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.FiringOrder;
import dev.lash.engine.Gap;
import dev.lash.engine.Pitch;
import dev.lash.engine.ScrewHead;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.ValveTrain.ScrewPlace;
import dev.lash.engine.ValveTrain.ShimPlace;
import dev.lash.engine.WearPrior;
import dev.lash.examples.WalkSetup.Ended;
import dev.lash.gauge.Trial;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.Temperature;
import dev.lash.measure.Usage;
import dev.lash.specs.PackCheck;
import dev.lash.specs.PackFinding;
import dev.lash.specs.SheetReader;
import dev.lash.specs.SpecPack;
import dev.lash.specs.Template.Features;
import dev.lash.specs.Template.SourceKind;
import dev.lash.specs.TemplateExample;
import dev.lash.specs.TemplateExample.Difference;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * The questions from which a template is begun. The draft is a sound template at every moment, at first with figures that only stand
 * in for those to come, so that each answer can be held to the rules of the pack as soon as it is given.
 */
final class PackNew {
    private static final int MOST_CYLINDERS = 18;
    private static final int MOST_VALVES = 9;
    private static final Length STROKE = Length.ofMillimetres("0.01");
    private static final String FIGURES = "figures";
    private static final String ASSUMPTION = "assumption";
    private static final String TYPICAL =
            "Every figure is a typical value until the shop confirms it from the maker's manual.";
    private static final String NOTHING = "none";
    private static final List<String> VERDICTS =
            Arrays.stream(Verdict.values()).map(Verdict::word).toList();

    /** What a report calls what is to be done. */
    private static final List<String> ADJUSTMENTS = List.of(
            "leave",
            "set-to-leaf",
            "turn",
            "fit-shim",
            "machine",
            "measure-further",
            "inspect",
            "not-applicable",
            "later");

    /** So many check intervals a wear prior counts at most, or it would leave the drift no room from one to the next. */
    private static final BigDecimal MOST_INTERVALS = BigDecimal.valueOf(5);

    private final Talk talk;
    private final String id;
    private final Map<String, String> fields = new LinkedHashMap<>();
    private final List<String> notes = new ArrayList<>(List.of(TYPICAL));
    private final List<String> examples = new ArrayList<>();

    /** Firing order and, where it is not even, intervals. */
    private final Map<String, String> firing = ordered("firingOrder", "[1]");

    private int cylinders = 1;
    private int intakes = 1;
    private int exhausts = 1;
    private Map<String, String> train = ordered("kind", "rocker-screw", "pitch", "0.75 mm");
    private Map<String, String> clearances = ordered("in", "0.10..0.15 mm", "ex", "0.15..0.20 mm");
    private Map<String, String> closers = ordered("in", "0.00..0.05 mm", "ex", "0.00..0.05 mm");
    private Map<String, String> condition = ordered("maxTemperature", "35 °C");
    private String interval = "6000 km";
    private Map<String, String> source = ordered("kind", "from-memory", "reliability", "low: not said yet");

    PackNew(Talk talk, String id, String addedIn) {
        this.talk = new QuestionTalk(talk, PackWords.HELP, PackWords.OTHERWISE);
        this.id = id;
        fields.put("format", quoted("lash-template/1"));
        fields.put("id", quoted(id));
        fields.put("title", quoted(id));
        fields.put("revision", "1");
        fields.put("status", quoted("active"));
        fields.put("addedIn", quoted(addedIn));
    }

    /** Names and values in turn, in this order. */
    private static Map<String, String> ordered(String... parts) {
        Map<String, String> map = new LinkedHashMap<>();
        for (int i = 0; i < parts.length; i += 2) {
            map.put(parts[i], parts[i + 1]);
        }
        return map;
    }

    /**
     * Asks for all that a template needs.
     *
     * @return the template in the canonical form
     * @throws Ended if the input ends too soon
     */
    String ask() throws Ended {
        talk.say("A template of a generic engine: no brand, no model. Lengths need their unit. "
                + "A ? explains a question, a q leaves.");
        fields.put("title", quoted(need("Title, such as Parallel twin, screw rockers?", WalkSetup::shortText)));
        layout();
        train();
        if (hasClearance()) {
            windows();
            condition();
            need("Check after how much use, a number with km, mi or h?", text -> {
                String before = interval;
                interval = Usage.parse(text).toString();
                return held("/checkInterval", "interval", text, () -> interval = before);
            });
        }
        features();
        askSource();
        if (hasClearance()) {
            talk.say(
                    "The wear prior is the broad assumption of the pack's other templates: no wear rate is published.");
            examples();
        }
        return draft();
    }

    private String file() {
        return id + ".json";
    }

    private boolean hasClearance() {
        return !"hydraulic".equals(train.get("kind"));
    }

    private boolean isDesmodromic() {
        return "desmodromic".equals(train.get("kind"));
    }

    // ---- layout ---------------------------------------------------------------------------------------------------

    private void layout() throws Ended {
        cylinders = need("How many cylinders, 1 to 18?", text -> count(text, MOST_CYLINDERS));
        firing.put(
                "firingOrder",
                IntStream.rangeClosed(1, cylinders)
                        .mapToObj(String::valueOf)
                        .collect(Collectors.joining(", ", "[", "]")));
        if (cylinders > 1) {
            need(
                    "Firing order, the cylinders with hyphens between; where it is not even, with the crank degrees from "
                            + "each firing to the next in brackets, with commas between?",
                    this::firing);
        }
        intakes = need("How many intake valves has a cylinder, 1 to 9?", text -> count(text, MOST_VALVES));
        exhausts = need("How many exhaust valves has a cylinder, 1 to 9?", text -> count(text, MOST_VALVES));
    }

    private static int count(String text, int most) {
        if (!text.matches("[0-9]{1,3}") || Integer.parseInt(text) < 1 || Integer.parseInt(text) > most) {
            throw new RejectedValueException(
                    "number", text, "is not such a number", "a whole number from 1 to " + most, "count again");
        }
        return Integer.parseInt(text);
    }

    private FiringOrder firing(String text) {
        FiringOrder order = FiringOrder.parse(text);
        if (order.cylinders() != cylinders) {
            throw new RejectedValueException(
                    "firing order",
                    text,
                    "is for " + order.cylinders() + " cylinders",
                    cylinders + " cylinders",
                    "copy it from the manual");
        }
        Map<String, String> made = new LinkedHashMap<>();
        made.put("firingOrder", order.order().toString());
        int open = text.indexOf('(');
        if (open >= 0) {
            String degrees = text.substring(open + 1, text.indexOf(')'));
            if (!degrees.matches("[0-9., ]+")) {
                throw new RejectedValueException(
                        "firing order", text, "has fractions", "decimal numbers", "write 262.5 for 525/2");
            }
            made.put(
                    "firingIntervals",
                    Stream.of(degrees.split(",", -1)).map(String::strip).collect(Collectors.joining(", ", "[", "]")));
        }
        firing.clear();
        firing.putAll(made);
        return order;
    }

    // ---- train ----------------------------------------------------------------------------------------------------

    private void train() throws Ended {
        List<String> kinds = Stream.of(
                        Arrays.stream(ScrewPlace.values()).map(ScrewPlace::kind),
                        Arrays.stream(ShimPlace.values()).map(ShimPlace::kind),
                        Stream.of("eccentric", "desmodromic", "fixed", "hydraulic"))
                .flatMap(kind -> kind)
                .toList();
        String kind = need(
                "Valve train: " + String.join(", ", kinds) + "?", text -> oneOf("kind of valve train", text, kinds));
        Map<String, String> figures = new LinkedHashMap<>();
        figures.put("kind", kind);
        Optional<ScrewPlace> screw = Arrays.stream(ScrewPlace.values())
                .filter(p -> p.kind().equals(kind))
                .findFirst();
        boolean shims = Arrays.stream(ShimPlace.values()).anyMatch(p -> p.kind().equals(kind));
        boolean ratio = screw.map(ScrewPlace::needsRatio).orElse(kind.equals(ShimPlace.FOLLOWER.kind()));
        if (ratio) {
            // stands in until it is asked for, so that the ratio can be held to its range
            figures.put(
                    screw.isPresent() ? "pitch" : "shims",
                    screw.isPresent() ? "0.75 mm" : "1.20..3.50 mm step 0.05 mm");
            figure(
                    figures,
                    "ratio",
                    screw.isPresent()
                            ? "Rocker ratio, valve arm over pushrod arm?"
                            : "Follower ratio, what the clearance changes by for a unit of shim?",
                    text -> Ratio.parse(text).toString());
        }
        if (screw.isPresent()) {
            screw(kind, figures);
        } else if (shims) {
            figure(figures, "shims", "Sizes, THINNEST..THICKEST mm step STEP mm?", PackNew::sizes);
        } else if (kind.equals("eccentric")) {
            figures.put("multiplier", "1");
            figure(
                    figures,
                    "eccentricity",
                    "Eccentricity, with its unit?",
                    t -> Length.parse(t).toString());
            figure(
                    figures,
                    "multiplier",
                    "What the clearance changes by for a unit that the centre moves?",
                    text -> Ratio.parse(text).toString());
        } else if (kind.equals("desmodromic")) {
            figures.put("closerShims", "4.50..8.00 mm step 0.05 mm");
            figure(figures, "openerShims", "Opener shims, THINNEST..THICKEST mm step STEP mm?", PackNew::sizes);
            figure(figures, "closerShims", "Closer shims, THINNEST..THICKEST mm step STEP mm?", PackNew::sizes);
        }
        train = new LinkedHashMap<>(figures);
    }

    private void screw(String kind, Map<String, String> figures) throws Ended {
        boolean wedge = kind.equals(ScrewPlace.TAPPET.kind())
                && yes("Is it a wedge screw that stands in whole turns only (y or n)?");
        if (wedge) {
            figure(
                    figures,
                    "step",
                    "What does one turn change, with its unit?",
                    text -> Length.parse(text).toString());
            return;
        }
        figure(figures, "pitch", "Pitch of the thread, in mm or tpi?", text -> {
            Pitch.parse(text);
            return text;
        });
        Optional<ScrewHead> head = WalkSetup.answer(
                talk, "Head of the screw: hexagon, square or slot (Enter: not stated)?", ScrewHead::parse);
        head.ifPresent(shape -> figures.put("head", shape.toString()));
    }

    private static String sizes(String text) {
        ShimRange.parse(text);
        return text;
    }

    /** Asks for a figure of the train; the others that its kind needs stand in already. */
    private void figure(Map<String, String> figures, String name, String prompt, UnaryOperator<String> read)
            throws Ended {
        Map<String, String> before = train;
        need(prompt, text -> {
            figures.put(name, read.apply(text));
            train = new LinkedHashMap<>(figures);
            return held("/train", name, text, () -> train = before);
        });
    }

    // ---- windows, condition ---------------------------------------------------------------------------------------

    private void windows() throws Ended {
        boolean desmodromic = isDesmodromic();
        String which = desmodromic ? "opener window" : "window";
        String intake;
        String exhaust;
        while (true) {
            // until the exhaust is asked for, it stands in with the same window
            intake = window(
                    "/clearances/in",
                    "Intake " + which + ", LEAST..MOST with its unit?",
                    t -> clearances = ordered("in", t, "ex", t));
            String in = intake;
            exhaust = window(
                    "/clearances/ex",
                    "Exhaust " + which + ", LEAST..MOST with its unit?",
                    t -> clearances = ordered("in", in, "ex", t));
            ClearanceWindow ex = ClearanceWindow.parse(exhaust);
            ClearanceWindow inner = ClearanceWindow.parse(intake);
            if (!ex.lower().isLessThan(inner.lower()) && !ex.upper().isLessThan(inner.upper())) {
                break;
            }
            Optional<String> why = WalkSetup.answer(
                    talk,
                    "The exhaust window is tighter than that of the intake. Why (Enter: a slip, ask again)?",
                    WalkSetup::shortText);
            if (why.isPresent()) {
                notes.add("The exhaust window is tighter than that of the intake: " + why.get());
                break;
            }
        }
        if (desmodromic) {
            String in = window(
                    "/closerClearances/in",
                    "Intake closer window, LEAST..MOST with its unit?",
                    t -> closers = ordered("in", t, "ex", t));
            window(
                    "/closerClearances/ex",
                    "Exhaust closer window, LEAST..MOST with its unit?",
                    t -> closers = ordered("in", in, "ex", t));
        }
    }

    private String window(String pointer, String prompt, Consumer<String> put) throws Ended {
        return need(prompt, text -> {
            String window = ClearanceWindow.parse(text).toString();
            put.accept(window);
            holdWindow(pointer, window);
            return window;
        });
    }

    /** A tighter exhaust is asked about later, all else is refused at once. */
    private void holdWindow(String pointer, String window) {
        List<String> before = List.copyOf(notes);
        notes.add("exhaust tighter than intake");
        try {
            held(pointer, "window", window, () -> {});
        } finally {
            notes.clear();
            notes.addAll(before);
        }
    }

    private void condition() throws Ended {
        Optional<String> warmest = WalkSetup.answer(
                talk,
                "How warm may the engine be at most, in C or F (Enter: no such limit)?",
                text -> Temperature.parse(text).toString());
        Map<String, String> made = new LinkedHashMap<>();
        warmest.ifPresent(t -> made.put("maxTemperature", t));
        String prompt = "How warm must it be at least, where clearances are read hot";
        Function<String, String> read = text -> {
            made.put("minTemperature", Temperature.parse(text).toString());
            condition = new LinkedHashMap<>(made);
            return held("/condition", "temperature", text, () -> made.remove("minTemperature"));
        };
        if (warmest.isPresent()) {
            WalkSetup.answer(talk, prompt + " (Enter: no such limit)?", read);
        } else {
            need(prompt + "? One of the two is needed.", read);
        }
        condition = new LinkedHashMap<>(made);
    }

    // ---- features and source --------------------------------------------------------------------------------------

    private void features() throws Ended {
        Optional<String> cooling = WalkSetup.answer(
                talk,
                "Cooling: " + String.join(", ", Features.COOLING) + " (Enter: does not matter)?",
                text -> oneOf("kind of cooling", text, Features.COOLING));
        Optional<List<String>> uses = WalkSetup.answer(
                talk,
                "Used in, one or more with spaces between: " + String.join(" ", Features.USES)
                        + " (Enter: does not matter)?",
                text -> Stream.of(text.split("[ ,]+", -1))
                        .map(use -> oneOf("use", use, Features.USES))
                        .distinct()
                        .toList());
        Map<String, String> features = new LinkedHashMap<>();
        cooling.ifPresent(c -> features.put("cooling", quoted(c)));
        uses.ifPresent(
                u -> features.put("uses", u.stream().map(PackNew::quoted).collect(Collectors.joining(", ", "[", "]"))));
        if (!features.isEmpty()) {
            fields.put("features", object(features));
        }
    }

    private void askSource() throws Ended {
        List<String> kinds =
                Arrays.stream(SourceKind.values()).map(SourceKind::word).toList();
        talk.say("All figures get one source now; name others in the file.");
        String kind = need(
                "Where are the figures from: " + String.join(", ", kinds) + "?",
                text -> oneOf("kind of source", text, kinds));
        Map<String, String> made = new LinkedHashMap<>();
        made.put("kind", kind);
        boolean published = kind.equals(SourceKind.PUBLISHED.word());
        made.put(
                "title",
                need(
                        published
                                ? "Title of the publication?"
                                : "What are they figures of, such as Air-cooled singles?",
                        WalkSetup::shortText));
        if (published) {
            made.put("year", need("Year?", PackNew::year));
            made.put("locator", need("Page or section?", WalkSetup::shortText));
            WalkSetup.answer(talk, "Publisher (Enter: not known)?", WalkSetup::shortText)
                    .ifPresent(publisher -> made.put("publisher", publisher));
            WalkSetup.answer(talk, "Edition (Enter: not known)?", WalkSetup::shortText)
                    .ifPresent(edition -> made.put("edition", edition));
        }
        need("How far can it be trusted: low, fair or high, a colon, and why?", text -> {
            made.put("reliability", WalkSetup.shortText(text));
            Map<String, String> before = source;
            source = new LinkedHashMap<>(made);
            return held("/sources/" + FIGURES, "reliability", text, () -> source = before);
        });
        source = made;
    }

    private static String year(String text) {
        if (!text.matches("1[89][0-9]{2}|2[01][0-9]{2}")) {
            throw new RejectedValueException(
                    "year", text, "is no year", "a year from 1800 to 2199", "write four digits");
        }
        return text;
    }

    // ---- worked examples ------------------------------------------------------------------------------------------

    /**
     * Asks what must come of some trials. What the library makes of them is not shown, for it would be copied; only what a person
     * worked out to be the same is written.
     */
    private void examples() throws Ended {
        talk.say(
                "Worked examples: work out by hand what must come of the trials. What lash makes of them is not shown.");
        EngineSpec engine = engine();
        ClearanceWindow in = ClearanceWindow.parse(clearances.getOrDefault("in", ""));
        ClearanceWindow ex = ClearanceWindow.parse(clearances.getOrDefault("ex", ""));
        Length above = in.lower().plus(STROKE);
        propose(engine, ValveRole.INTAKE, in, in.lower(), above.isMoreThan(in.upper()) ? in.upper() : above);
        propose(engine, ValveRole.INTAKE, in, in.lower().minus(STROKE), in.lower());
        propose(engine, ValveRole.EXHAUST, ex, ex.upper(), ex.upper().plus(STROKE));
    }

    /** The engine of the draft, read as a sheet's inline engine is. */
    private EngineSpec engine() {
        Map<String, String> inline = new LinkedHashMap<>();
        inline.put("id", quoted(id));
        inline.put("title", String.valueOf(fields.get("title")));
        inline.putAll(figures());
        String sheet = "{ \"format\": \"lash-sheet/1\", \"engine\": { \"inline\": " + object(inline)
                + " }, \"gauges\": { \"leaves\": [\"0.10 mm\"] }, \"valves\": [] }";
        return new SheetReader(SpecPack.bundled()).read(file(), sheet).engine();
    }

    private void propose(EngineSpec engine, ValveRole role, ClearanceWindow window, Length goes, Length refuses)
            throws Ended {
        if (!goes.isLessThan(refuses)) {
            return;
        }
        List<Trial> trials = (goes.signum() > 0
                        ? Stream.of(goes + " goes", refuses + " refuses")
                        : Stream.of(refuses + " refuses"))
                .map(Trial::parse)
                .toList();
        Length shim = WalkWords.sizes(engine.train()).map(PackNew::middle).orElse(null);
        List<Length> leaves = shim == null ? List.of(middle(window)) : List.of();
        boolean desmodromic = engine.train() instanceof ValveTrain.Desmodromic;
        Map<String, String> expected = ordered("kind", NOTHING, "leaf", NOTHING, "shim", NOTHING);
        ValveId valve = ValveId.parse("1-" + role.code() + "-1");
        // with nothing expected, what differs is what comes out
        Map<String, String> found = new TemplateExample(
                        valve,
                        desmodromic ? Gap.OPENER : Gap.ONLY,
                        trials,
                        List.of(),
                        shim,
                        leaves,
                        LengthInterval.parse("any"),
                        Verdict.UNDECIDED,
                        expected,
                        "")
                .run(engine).stream().collect(Collectors.toMap(Difference::field, Difference::actual, (a, b) -> a));
        String bracket = found.getOrDefault("bracket", "any");
        String verdict = found.getOrDefault("verdict", Verdict.UNDECIDED.word());
        Map<String, String> adjustment = new LinkedHashMap<>();
        for (String field : List.of("kind", "leaf", "shim")) {
            String actual = found.getOrDefault("adjustment/" + field, NOTHING);
            if (!actual.equals(NOTHING)) {
                adjustment.put(field, actual);
            }
        }
        talk.say(valve + ": " + trials.stream().map(Trial::toString).collect(Collectors.joining(", "))
                + (shim == null ? ". At hand besides: the leaf " + leaves.get(0) : ". The shim that is in: " + shim)
                + ".");
        boolean same = worked(
                        "What do the trials leave, in round or square brackets with its unit",
                        text -> LengthInterval.parse(text).equals(LengthInterval.parse(bracket)))
                && worked(
                        "Verdict: " + String.join(", ", VERDICTS),
                        text -> oneOf("verdict", text, VERDICTS).equals(verdict))
                && worked(
                        "What is to be done: " + String.join(", ", ADJUSTMENTS),
                        text -> oneOf("adjustment", text, ADJUSTMENTS).equals(adjustment.get("kind")))
                && (!adjustment.containsKey("leaf")
                        || worked("Which leaf", text -> isLength(text, adjustment.getOrDefault("leaf", ""))))
                && (!adjustment.containsKey("shim")
                        || worked("Which shim", text -> isLength(text, adjustment.getOrDefault("shim", ""))));
        if (!same) {
            return;
        }
        Map<String, String> example = new LinkedHashMap<>();
        example.put("valve", quoted(valve.toString()));
        if (desmodromic) {
            example.put("gap", quoted(Gap.OPENER.word()));
        }
        example.put("trials", list(trials));
        example.put("bracket", quoted(bracket));
        example.put("verdict", quoted(verdict));
        example.put("adjustment", texts(adjustment));
        if (shim == null) {
            example.put("leaves", list(leaves));
        } else {
            example.put("shim", quoted(shim.toString()));
        }
        examples.add(object(example));
    }

    /** Whether a person worked out the same; asked until it is, or the example is left out. */
    private boolean worked(String prompt, Predicate<String> same) throws Ended {
        return WalkSetup.answer(talk, prompt + " (Enter: leave this example out)?", text -> {
                    if (!same.test(text)) {
                        throw new RejectedValueException(
                                "answer",
                                text,
                                "is not what lash makes of these trials",
                                "the same by hand",
                                "work it out again; if you are sure of it, leave the example out and look for the fault");
                    }
                    return text;
                })
                .isPresent();
    }

    private static boolean isLength(String text, String length) {
        return Length.parse(text).equals(Length.parse(length));
    }

    private static Length middle(ShimRange sizes) {
        List<Length> all = sizes.sizes();
        return all.get(all.size() / 2);
    }

    private static Length middle(ClearanceWindow window) {
        long stroke = STROKE.nanometres();
        long middle = (window.lower().nanometres() + window.upper().nanometres()) / 2 / stroke * stroke;
        return Length.ofNanometres(Math.max(middle, window.lower().nanometres()));
    }

    // ---- the draft ------------------------------------------------------------------------------------------------

    /** The template as far as it is answered, in the canonical form. */
    private String draft() {
        Map<String, String> all = new LinkedHashMap<>(fields);
        Map<String, String> figures = figures();
        all.putAll(figures);
        Map<String, String> provenance = new LinkedHashMap<>();
        for (String field : figures.keySet()) {
            switch (field) {
                case "firingOrder", "firingIntervals", "checkInterval" -> provenance.put("/" + field, FIGURES);
                case "train" -> under(field, train, provenance);
                case "clearances" -> under(field, clearances, provenance);
                case "closerClearances" -> under(field, closers, provenance);
                case "condition" -> under(field, condition, provenance);
                default -> {
                    // no figure
                }
            }
        }
        Map<String, String> sources = new LinkedHashMap<>();
        sources.put(FIGURES, source());
        if (hasClearance()) {
            all.put(
                    "wearPrior",
                    texts(ordered(
                            "per",
                            usageOfWear(Usage.parse(interval)).toString(),
                            "drift",
                            "-0.010 mm",
                            "driftDeviation",
                            "0.020 mm",
                            "spread",
                            "0.010 mm",
                            "scatter",
                            "0.006 mm",
                            "factor",
                            "1.5",
                            "basis",
                            "a broad assumption: no wear rate of valve clearances is published")));
            provenance.put("/wearPrior", ASSUMPTION);
            sources.put(
                    ASSUMPTION,
                    texts(ordered(
                            "kind",
                            "from-memory",
                            "title",
                            "Wear of valve clearances",
                            "reliability",
                            "low: an assumption, no wear rate is published")));
        }
        all.put("notes", list(notes));
        all.put("sources", object(sources));
        all.put("provenance", texts(provenance));
        if (!examples.isEmpty()) {
            all.put("examples", "[" + String.join(", ", examples) + "]");
        }
        return PackCheck.canonical(file(), object(all));
    }

    /** What the usual prior counts, or less where checks are close together: they are so because such valves move fast. */
    private static Usage usageOfWear(Usage interval) {
        Usage usual = interval.unit().isDistance() ? WearPrior.BY_DISTANCE.per() : WearPrior.BY_HOURS.per();
        Usage most = Usage.of(interval.amount().multiply(MOST_INTERVALS), interval.unit());
        return usual.compareAmount(most) > 0 ? most : usual;
    }

    private static void under(String field, Map<String, String> figures, Map<String, String> provenance) {
        figures.keySet().stream()
                .filter(name -> !name.equals("kind"))
                .forEach(name -> provenance.put("/" + field + "/" + name, FIGURES));
    }

    /** The fields of the engine, as a template and a sheet both have them. */
    private Map<String, String> figures() {
        Map<String, String> figures = new LinkedHashMap<>();
        figures.put("cylinders", String.valueOf(cylinders));
        figures.putAll(firing);
        figures.put("valves", valves());
        figures.put("train", texts(train));
        if (hasClearance()) {
            figures.put("clearances", texts(clearances));
            if (isDesmodromic()) {
                figures.put("closerClearances", texts(closers));
            }
            figures.put("condition", texts(condition));
            figures.put("checkInterval", quoted(interval));
        }
        return figures;
    }

    private String valves() {
        List<String> names = new ArrayList<>();
        for (int cylinder = 1; cylinder <= cylinders; cylinder++) {
            for (ValveRole role : ValveRole.values()) {
                for (int place = 1; place <= (role == ValveRole.INTAKE ? intakes : exhausts); place++) {
                    names.add(cylinder + "-" + role.code() + "-" + place);
                }
            }
        }
        return list(names);
    }

    /** The year of a source is a number, all else text. */
    private String source() {
        return object(source.entrySet().stream()
                .collect(Collectors.toMap(
                        Map.Entry::getKey,
                        e -> e.getKey().equals("year") ? e.getValue() : quoted(e.getValue()),
                        (a, b) -> a,
                        LinkedHashMap::new)));
    }

    private static String object(Map<String, String> members) {
        return members.entrySet().stream()
                .map(m -> quoted(m.getKey()) + ": " + m.getValue())
                .collect(Collectors.joining(", ", "{ ", " }"));
    }

    private static String texts(Map<String, String> members) {
        Map<String, String> quoted = new LinkedHashMap<>();
        members.forEach((name, text) -> quoted.put(name, quoted(text)));
        return object(quoted);
    }

    private static String list(List<?> items) {
        return items.stream().map(item -> quoted(item.toString())).collect(Collectors.joining(", ", "[", "]"));
    }

    /** A text as JSON; control characters were refused when it was asked for. */
    private static String quoted(String text) {
        return "\"" + text.replace("\\", "\\\\").replace("\"", "\\\"") + "\"";
    }

    // ---- asking ---------------------------------------------------------------------------------------------------

    private <T> T need(String prompt, Function<String, T> read) throws Ended {
        return WalkSetup.neededAnswer(talk, prompt, read);
    }

    private boolean yes(String prompt) throws Ended {
        return need(prompt, text -> oneOf("answer", text, List.of("y", "n"))).equals("y");
    }

    private static String oneOf(String what, String text, List<String> known) {
        if (!known.contains(text)) {
            throw new RejectedValueException(
                    what, text, "is not known", String.join(", ", known), "write one of these");
        }
        return text;
    }

    /** Holds what was just put into the draft to the rules; what they refuse is taken out again and thrown. */
    private String held(String pointer, String what, String text, Runnable undo) {
        Optional<PackFinding> wrong = PackCheck.of(file(), draft()).stream()
                .filter(f -> f.pointer().isEmpty() || f.pointer().startsWith(pointer))
                .findFirst();
        if (wrong.isPresent()) {
            undo.run();
            PackFinding f = wrong.get();
            throw new RejectedValueException(what, text, f.problem(), f.expected(), f.mend());
        }
        return pointer;
    }
}
