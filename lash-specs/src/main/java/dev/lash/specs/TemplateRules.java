package dev.lash.specs;

import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Figure;
import dev.lash.engine.Gap;
import dev.lash.engine.UnusualFigure;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.WearPrior;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.Usage;
import dev.lash.specs.PackFolder.Entry;
import dev.lash.specs.Template.Source;
import dev.lash.specs.Template.SourceKind;
import dev.lash.specs.Template.Status;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/** What a schema cannot hold a template to: whether its figures make sense, alone and beside each other. */
final class TemplateRules {
    private static final int LEAST_EXAMPLES = 2;

    /** How much the drift of a broad prior may differ at least from one check to the next, in nanometres: an assumption. */
    private static final Ratio LEAST_ROOM = Ratio.of(3_000, 1);

    private final List<Entry> entries;
    private final List<PackFinding> findings = new ArrayList<>();

    private final Set<String> others;
    private final boolean canonical;

    private TemplateRules(List<Entry> entries, Set<String> others, boolean canonical) {
        this.entries = entries;
        this.others = others;
        this.canonical = canonical;
    }

    /**
     * All findings about all templates.
     *
     * @param others ids of templates beneath these
     * @param canonical whether the files must be in the canonical form
     */
    static List<PackFinding> check(List<Entry> entries, Set<String> others, boolean canonical) {
        TemplateRules rules = new TemplateRules(entries, others, canonical);
        entries.forEach(rules::check);
        rules.together();
        return List.copyOf(rules.findings);
    }

    private void check(Entry entry) {
        List<UnusualFigure> odd = UnusualFigure.of(entry.template().spec());
        windows(entry);
        unusual(entry, odd);
        valves(entry);
        interval(entry);
        condition(entry);
        wearPrior(entry, odd);
        sources(entry);
        lifeCycle(entry);
        examples(entry);
        // one that cannot be read is not written either
        if (canonical && entry.doubts().isEmpty()) {
            form(entry);
        }
    }

    private void add(PackRule rule, Entry entry, String pointer, String problem, String expected, String mend) {
        if (entry.doubts().concern(rule, pointer)) {
            return;
        }
        Optional<Json> at = entry.document().find(pointer);
        Json shown = at.orElseGet(entry.document()::root);
        findings.add(new PackFinding(
                rule, entry.name(), shown.line(), pointer, at.map(Json::shown).orElse(""), problem, expected, mend));
    }

    private void windows(Entry entry) {
        EngineSpec engine = entry.template().spec();
        for (Gap gap : engine.gaps()) {
            for (ValveRole role : ValveRole.values()) {
                String window = FigureForms.pointer(Figure.window(role, gap));
                engine.findClearance(role, gap)
                        .map(ClearanceSpec::check)
                        .filter(w -> w.upper().isLessThan(ClearanceWindow.LEAST_USUAL)
                                || w.upper().isMoreThan(ClearanceWindow.MOST_USUAL))
                        .ifPresent(w -> add(
                                PackRule.WINDOW_USUAL,
                                entry,
                                window,
                                "is no usual clearance; inches or hundredths may have been taken for millimetres",
                                ClearanceWindow.LEAST_USUAL + " to " + ClearanceWindow.MOST_USUAL,
                                "check the figure and its unit"));
                engine.findClearance(role, gap)
                        .map(ClearanceSpec::check)
                        .filter(w -> gap != Gap.CLOSER && w.lower().equals(Length.ZERO))
                        .ifPresent(w -> add(
                                PackRule.WINDOW_ABOVE_ZERO,
                                entry,
                                window,
                                "begins at zero: a valve without clearance does not close",
                                "a least clearance above 0 mm",
                                "check the figure; only the closer of a desmodromic valve may have none"));
            }
        }
        for (Gap gap : engine.gaps()) {
            for (ValveRole role : ValveRole.values()) {
                engine.findClearance(role, gap)
                        .map(ClearanceSpec::check)
                        .filter(ClearanceWindow::hasEndsApart)
                        .ifPresent(w -> add(
                                PackRule.WINDOW_ENDS,
                                entry,
                                FigureForms.pointer(Figure.window(role, gap)),
                                "has ends more than " + ClearanceWindow.MOST_ENDS_APART
                                        + " times apart: a decimal may have slipped in one",
                                "two ends of one size",
                                "check both figures"));
            }
        }
        sides(entry);
    }

    /** The windows of the two roles beside each other. */
    private void sides(Entry entry) {
        EngineSpec engine = entry.template().spec();
        Optional<ClearanceWindow> intake =
                engine.findClearance(ValveRole.INTAKE).map(ClearanceSpec::check);
        Optional<ClearanceWindow> exhaust =
                engine.findClearance(ValveRole.EXHAUST).map(ClearanceSpec::check);
        if (intake.isEmpty() || exhaust.isEmpty()) {
            return;
        }
        ClearanceWindow in = intake.get();
        ClearanceWindow ex = exhaust.get();
        boolean noted = notes(entry)
                .anyMatch(note -> note.contains("exhaust") && note.contains("intake") && note.contains("tighter"));
        if (ex.isTighterThan(in) && !noted) {
            add(
                    PackRule.EXHAUST_TIGHTER,
                    entry,
                    "/clearances/ex",
                    "is tighter than the intake window: the sides may be swapped",
                    "an exhaust window of which neither end lies below that of the intake",
                    "swap them, or write a note that says why the exhaust is tighter than the intake");
        }
        if (in.isUnlike(ex)) {
            add(
                    PackRule.WINDOWS_ALIKE,
                    entry,
                    "/clearances/ex",
                    "is five times or more off the intake window: a decimal may have slipped",
                    "two windows of one size",
                    "check both figures");
        }
    }

    /** The notes in lower case: a word may begin a sentence. */
    private static Stream<String> notes(Entry entry) {
        return entry.template().notes().stream().map(note -> note.toLowerCase(Locale.ROOT));
    }

    /** Figures unlike any that makers give; sheets are held to the same limits. */
    private void unusual(Entry entry, List<UnusualFigure> unusual) {
        for (UnusualFigure odd : unusual) {
            PackRule rule = switch (odd.figure()) {
                case PITCH -> PackRule.PITCH_STANDARD;
                case RATIO -> PackRule.RATIO_USUAL;
                case FIRING_INTERVALS -> PackRule.FIRINGS_APART;
                case COLDEST, WARMEST -> PackRule.TEMPERATURE_USUAL;
                case CHECK_INTERVAL -> PackRule.INTERVAL_USUAL;
                case CAM_TIMING -> PackRule.LIFT_USUAL;
                default -> PackRule.SHIM_USUAL;
            };
            String part = odd.part().isEmpty() ? "" : "/" + odd.part();
            add(rule, entry, FigureForms.pointer(odd.figure()) + part, odd.problem(), odd.expected(), odd.mend());
        }
    }

    /** Each cylinder has valves, and of each role they are numbered from 1 on. */
    private void valves(Entry entry) {
        EngineSpec engine = entry.template().spec();
        for (int cylinder = 1; cylinder <= engine.firingOrder().cylinders(); cylinder++) {
            for (ValveRole role : ValveRole.values()) {
                int here = cylinder;
                List<Integer> positions = engine.valves().stream()
                        .filter(v -> v.cylinder() == here && v.role() == role)
                        .map(ValveId::place)
                        .sorted()
                        .toList();
                if (positions.isEmpty() || positions.get(positions.size() - 1) != positions.size()) {
                    add(
                            PackRule.VALVES_NUMBERED,
                            entry,
                            "/valves",
                            "does not number the " + role + " valves of cylinder " + cylinder + " from 1 on",
                            "one or more, such as " + cylinder + "-" + role.code() + "-1",
                            "add or renumber valves");
                }
            }
        }
    }

    private void interval(Entry entry) {
        Optional<Usage> interval = entry.template().spec().checkInterval();
        if (interval.isEmpty() && hasClearance(entry)) {
            add(
                    PackRule.INTERVAL_THERE,
                    entry,
                    "/checkInterval",
                    "is missing",
                    "the usage from one check to the next",
                    "add it; no forecast goes beyond it");
        }
    }

    private static boolean hasClearance(Entry entry) {
        return !(entry.template().spec().train() instanceof ValveTrain.Hydraulic);
    }

    private void condition(Entry entry) {
        EngineSpec engine = entry.template().spec();
        if (hasClearance(entry)
                && engine.warmest().isEmpty()
                && engine.coldest().isEmpty()) {
            add(
                    PackRule.CONDITION_THERE,
                    entry,
                    "/condition",
                    "is missing: nobody knows whether the windows are for a cold or a hot engine",
                    "a temperature, such as { \"maxTemperature\": \"35 °C\" }",
                    "add it");
        }
    }

    private void wearPrior(Entry entry, List<UnusualFigure> odd) {
        EngineSpec engine = entry.template().spec();
        boolean counts = engine.wearPrior()
                .flatMap(prior -> engine.checkInterval().map(i -> i.isSameKind(prior.per())))
                .orElse(true);
        if (hasClearance(entry) && engine.wearPrior().isEmpty()) {
            add(
                    PackRule.WEAR_THERE,
                    entry,
                    "/wearPrior",
                    "is missing",
                    "a broad prior that says it is an assumption",
                    "add it");
        } else if (!counts) {
            add(
                    PackRule.WEAR_COUNTS,
                    entry,
                    "/wearPrior/per",
                    "counts something else than the check interval",
                    "a distance for both, or running hours for both",
                    "correct one of the two");
        } else if (engine.wearPrior()
                .filter(prior -> !prior.basis().contains("assumption"))
                .isPresent()) {
            add(
                    PackRule.WEAR_ASSUMED,
                    entry,
                    "/wearPrior/basis",
                    "does not say that the prior is an assumption",
                    "the word assumption: no wear rate of valve clearances is published",
                    "say so");
        }
        if (counts) {
            engine.wearPrior()
                    .ifPresent(
                            prior -> engine.checkInterval().ifPresent(interval -> broad(entry, prior, interval, odd)));
        }
    }

    /** No wear rate is published, so a prior that leaves little room claims to know what nobody does. */
    private void broad(Entry entry, WearPrior prior, Usage interval, List<UnusualFigure> unusual) {
        long deviation = prior.driftDeviation().nanometres();
        Ratio toNextCheck = Ratio.of(deviation, 1).times(interval.dividedBy(prior.per()));
        if (deviation < Math.abs(prior.drift().nanometres())) {
            add(
                    PackRule.WEAR_BROAD,
                    entry,
                    "/wearPrior/driftDeviation",
                    "is less than the drift itself: the prior claims to know the drift",
                    "at least " + Length.ofNanometres(Math.abs(prior.drift().nanometres())),
                    "give the drift more room");
        } else if (toNextCheck.compareTo(LEAST_ROOM) < 0
                // an interval that is itself at fault says nothing of the prior
                && unusual.stream().noneMatch(odd -> odd.figure() == Figure.CHECK_INTERVAL)) {
            add(
                    PackRule.WEAR_BROAD,
                    entry,
                    "/wearPrior/per",
                    "leaves the drift next to no room from one check to the next, " + interval,
                    "a usage in which the interval goes fewer times, or a larger deviation of the drift",
                    "shorten it: a short interval is there because such valves move fast");
        }
    }

    private void sources(Entry entry) {
        Map<String, Source> sources = entry.template().sources();
        sources.forEach((name, source) -> {
            String pointer = "/sources" + JsonDocument.step(name);
            String reliability = source.details().getOrDefault("reliability", "");
            if (!reliability.matches("(low|fair|high): .+")) {
                add(
                        PackRule.SOURCE_RELIABILITY,
                        entry,
                        pointer,
                        "does not say how reliable it is, and why",
                        "a reliability that begins with low, fair or high, a colon and the reason",
                        "add it");
            }
            if (source.kind() == SourceKind.PUBLISHED && !source.details().containsKey("locator")) {
                add(
                        PackRule.SOURCE_PLACE,
                        entry,
                        pointer,
                        "is published without a place in it",
                        "a page or section as locator",
                        "add it");
            }
            if (!entry.template().provenance().containsValue(name)) {
                add(
                        PackRule.SOURCE_USED,
                        entry,
                        pointer,
                        "is the source of no figure",
                        "sources that figures name",
                        "remove it");
            }
        });
        boolean remembered = sources.values().stream().anyMatch(s -> s.kind() != SourceKind.PUBLISHED);
        boolean said = notes(entry).anyMatch(note -> note.contains("typical"));
        if (remembered && !said) {
            add(
                    PackRule.TYPICAL_SAID,
                    entry,
                    "/notes",
                    "do not say that the figures are typical values",
                    "a note with the word typical",
                    "add it: a figure that was not read in the manual must not look as if it was");
        }
    }

    private void lifeCycle(Entry entry) {
        Template.LifeCycle life = entry.template().lifeCycle();
        boolean active = life.status() == Status.ACTIVE;
        if (active && !(life.deprecatedIn() + life.replacedBy()).isEmpty()) {
            add(
                    PackRule.ACTIVE_WHOLE,
                    entry,
                    life.deprecatedIn().isEmpty() ? "/replacedBy" : "/deprecatedIn",
                    "contradicts the status active",
                    "the status deprecated or withdrawn",
                    "correct one of the two");
        }
        if (!active && life.deprecatedIn().isEmpty()) {
            add(
                    PackRule.DEPRECATED_SINCE,
                    entry,
                    "/deprecatedIn",
                    "is missing",
                    "the version of the pack that advised against it",
                    "add it");
        }
        boolean known = life.replacedBy().isEmpty()
                || others.contains(life.replacedBy())
                || entries.stream().anyMatch(e -> e.template().id().equals(life.replacedBy()));
        if (!known) {
            add(
                    PackRule.REPLACED_KNOWN,
                    entry,
                    "/replacedBy",
                    "is not in the pack",
                    "the id of a template",
                    "correct it");
        }
        boolean toItself = life.replacedBy().equals(entry.template().id());
        boolean toAnother = entries.stream()
                .map(Entry::template)
                .anyMatch(t -> t.id().equals(life.replacedBy()) && t.lifeCycle().status() != Status.ACTIVE);
        if (toItself || toAnother) {
            add(
                    PackRule.REPLACED_ACTIVE,
                    entry,
                    "/replacedBy",
                    toItself ? "is the template itself" : "is no longer active itself",
                    "the id of another template that is active",
                    "name the one to take instead, or none");
        }
        if (!life.deprecatedIn().isEmpty()
                && PackVersion.parse(life.deprecatedIn()).compareTo(PackVersion.parse(life.addedIn())) <= 0) {
            add(
                    PackRule.DEPRECATED_LATER,
                    entry,
                    "/deprecatedIn",
                    "is not after the version that added the template",
                    "a version after " + life.addedIn(),
                    "write the version of the pack that advised against it");
        }
        if (!entry.name().equals(entry.template().id() + ".json")) {
            add(
                    PackRule.ID_FILE,
                    entry,
                    "/id",
                    "is not the name of the file",
                    PackFolder.id(entry.name()),
                    "name the file after the id");
        }
    }

    private void examples(Entry entry) {
        List<TemplateExample> examples = entry.template().examples();
        EngineSpec engine = entry.template().spec();
        if (!hasClearance(entry)) {
            return;
        }
        if (examples.size() < LEAST_EXAMPLES) {
            add(
                    PackRule.EXAMPLES_ENOUGH,
                    entry,
                    "/examples",
                    "are too few: " + examples.size(),
                    "at least " + LEAST_EXAMPLES,
                    "work out some trials by hand and write down what must come of them");
        } else if (examples.stream().allMatch(e -> e.verdict() == Verdict.WITHIN)) {
            add(
                    PackRule.EXAMPLE_OUTSIDE,
                    entry,
                    "/examples",
                    "all come out within",
                    "at least one that does not",
                    "add one that is tight, loose or undecided");
        }
        examples.forEach(example -> example.run(engine)
                .forEach(difference -> add(
                        PackRule.EXAMPLE_HOLDS,
                        entry,
                        example.pointer() + "/" + difference.field(),
                        "is not what comes of the trials: " + difference.actual(),
                        difference.expected(),
                        "work the example out again, or correct the template")));
    }

    private void form(Entry entry) {
        String written = entry.text();
        String form = Canonical.text(entry.document().root());
        if (!written.equals(form)) {
            List<String> a = written.lines().toList();
            List<String> b = form.lines().toList();
            int line = 0;
            while (line < Math.min(a.size(), b.size()) && a.get(line).equals(b.get(line))) {
                line++;
            }
            boolean lineEnds = a.equals(b);
            findings.add(new PackFinding(
                    PackRule.CANONICAL_FORM,
                    entry.name(),
                    lineEnds ? 1 : line + 1,
                    "",
                    "",
                    lineEnds
                            ? "has other line ends than the canonical form"
                            : "is not written in the canonical form"
                                    + (line < a.size() ? ", from this line on: " + shortened(a.get(line)) : ""),
                    lineEnds
                            ? "a line feed after each line"
                            : line < b.size() ? b.get(line).strip() : "the end of the file",
                    "let \"lash pack check --write\" write it"));
        }
    }

    /** A line of JSON as it stands: in quotation marks of a message its own would be doubled. */
    private static String shortened(String line) {
        String quoted = RejectedValueException.quote(line.strip());
        return quoted.substring(1, quoted.length() - 1);
    }

    /** Ids once, and no two templates that differ by their names alone. */
    private void together() {
        Map<String, Entry> ids = new HashMap<>();
        Map<EngineSpec, Entry> engines = new HashMap<>();
        for (Entry entry : entries) {
            Template template = entry.template();
            if (entry.doubts().touch("/id")) {
                continue;
            }
            Entry same = ids.putIfAbsent(template.id(), entry);
            if (same != null) {
                // of the two the one whose file has another name is likely a copy
                boolean copied = entry.name().equals(template.id() + ".json");
                add(
                        PackRule.ID_ONCE,
                        copied ? same : entry,
                        "/id",
                        "is taken already, in " + (copied ? entry : same).name(),
                        "each id once",
                        "choose another id");
                continue;
            }
            if (!entry.doubts().isEmpty()) {
                continue;
            }
            EngineSpec nameless = template.spec().toBuilder("nameless", "nameless")
                    .template("")
                    .origins(Map.of())
                    .build();
            Entry alike = engines.putIfAbsent(nameless, entry);
            if (alike != null) {
                add(
                        PackRule.NAME_ALONE,
                        entry,
                        "/title",
                        "differs from " + alike.name() + " by its name alone",
                        "another figure, layout or caution",
                        "remove one of the two");
            }
        }
    }
}
