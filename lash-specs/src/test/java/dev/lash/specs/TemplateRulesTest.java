package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;

/** Sound templates, each spoilt in one way: every rule must see it, in the right place and with a word on how to mend it. */
class TemplateRulesTest {
    private static final String NONE = "(none)";
    private static final String SCREW = "screw-single";
    private static final String BUCKET = "vtwin-90-bucket";
    private static final String DESMO = "vtwin-90-desmodromic";
    private static final String MOWER = "mower-ohv-single";
    private static final String CITED = "inline-four-car-graded";

    @TempDir
    Path folder;

    /** One spoilt template: which one, what is changed (by pointer; {@link #NONE} removes it), and the finding that must come. */
    private record Spoilt(
            String rule, String id, Map<String, String> changes, String pointer, String problem, String mend) {
        String json() {
            String json = PackFiles.template(id);
            for (Map.Entry<String, String> change : changes.entrySet()) {
                json = change.getValue().equals(NONE)
                        ? Trees.without(json, change.getKey())
                        : Trees.with(json, change.getKey(), change.getValue());
            }
            return json;
        }

        /** The same, to be found in another place than where the change was made. */
        Spoilt at(String place) {
            return new Spoilt(rule, id, changes, place, problem, mend);
        }

        @Override
        public String toString() {
            return rule + ", " + id + " " + changes;
        }
    }

    private static Spoilt spoilt(
            String rule, String id, String pointer, String problem, String mend, String... changes) {
        Map<String, String> made = new LinkedHashMap<>();
        for (int i = 0; i < changes.length; i += 2) {
            made.put(changes[i], changes[i + 1]);
        }
        return new Spoilt(rule, id, made, pointer, problem, mend);
    }

    /** The finding stands where the change was made. */
    private static Spoilt there(String rule, String id, String problem, String mend, String pointer, String value) {
        return spoilt(rule, id, pointer, problem, mend, pointer, value);
    }

    private static List<Spoilt> windows() {
        String usual = "is no usual clearance; inches or hundredths";
        String zero = "begins at zero: a valve without clearance does not close";
        String tighter = "is tighter than the intake window";
        String unit = "check the figure and its unit";
        return List.of(
                there("usual window", SCREW, usual, unit, "/clearances/in", "\"0.004..0.006 mm\""),
                there("usual window", SCREW, usual, unit, "/clearances/ex", "\"1.5..2.2 mm\""),
                there("usual window", SCREW, usual, unit, "/clearances/ex", "\"0.7..0.9 mm\""),
                there("usual window", BUCKET, usual, unit, "/clearances/in", "\"13..19 um\""),
                there("usual window", DESMO, usual, unit, "/closerClearances/ex", "\"0.00..2.00 mm\""),
                there("window above zero", SCREW, zero, "check the figure", "/clearances/in", "\"0.00..0.13 mm\""),
                there("window above zero", BUCKET, zero, "check the figure", "/clearances/ex", "\"0..0.28 mm\""),
                there("window above zero", DESMO, zero, "check the figure", "/clearances/in", "\"0.00..0.12 mm\""),
                there("ends of a window", SCREW, "has ends more than", "both", "/clearances/ex", "\"0.02..0.18 mm\""),
                there("ends of a window", BUCKET, "has ends more than", "both", "/clearances/in", "\"0.02..0.19 mm\""),
                there("ends of a window", DESMO, "has ends more than", "both", "/clearances/in", "\"0.01..0.12 mm\""),
                there(
                        "like windows",
                        SCREW,
                        "is five times or more off",
                        "both",
                        "/clearances/ex",
                        "\"0.60..0.75 mm\""),
                there(
                                "like windows",
                                BUCKET,
                                "is five times or more off",
                                "both",
                                "/clearances/in",
                                "\"0.03..0.05 mm\"")
                        .at("/clearances/ex"),
                there(
                        "like windows",
                        DESMO,
                        "is five times or more off",
                        "both",
                        "/clearances/ex",
                        "\"0.50..0.60 mm\""),
                there("exhaust not tighter", SCREW, tighter, "swap them", "/clearances/ex", "\"0.05..0.20 mm\""),
                there("exhaust not tighter", SCREW, tighter, "swap them", "/clearances/ex", "\"0.05..0.10 mm\""),
                there("exhaust not tighter", BUCKET, tighter, "write a note", "/clearances/ex", "\"0.10..0.16 mm\""),
                there("exhaust not tighter", DESMO, tighter, "swap them", "/clearances/ex", "\"0.05..0.10 mm\""),
                there(
                        "window the right way round",
                        SCREW,
                        "is reversed",
                        "swap the two figures",
                        "/clearances/in",
                        "\"0.13..0.08 mm\""),
                there(
                        "window the right way round",
                        DESMO,
                        "is reversed",
                        "swap the two figures",
                        "/closerClearances/in",
                        "\"0.05..0.01 mm\""),
                there("window the right way round", BUCKET, "has no unit", "unit", "/clearances/in", "\"0.13..0.19\""),
                spoilt(
                        "window to set to",
                        SCREW,
                        "/setTo/in",
                        "is not inside the window to check against",
                        "check both windows in the manual",
                        "/setTo",
                        "{ \"in\": \"0.10..0.14 mm\" }",
                        "/provenance/~1setTo~1in",
                        "\"memory\""),
                spoilt(
                        "window to set to",
                        BUCKET,
                        "/setTo/ex",
                        "is not inside the window to check against",
                        "check both windows in the manual",
                        "/setTo",
                        "{ \"ex\": \"0.10..0.14 mm\" }",
                        "/provenance/~1setTo~1ex",
                        "\"memory\""),
                there(
                        "window to set to",
                        DESMO,
                        "is not inside the window to check against",
                        "check both windows in the manual",
                        "/closerSetTo/in",
                        "\"0.03..0.21 mm\""));
    }

    private static List<Spoilt> trains() {
        String pitch = "is not the pitch of a standard thread";
        String sizes = "are no usual sizes";
        String divides = "has a step that does not fit";
        String unit = "check the sizes and their unit";
        return List.of(
                there("pitch", SCREW, pitch, "check the thread", "/train/pitch", "\"0.55 mm\""),
                there("pitch", MOWER, pitch, "check the thread", "/train/pitch", "\"22 tpi\""),
                there("pitch", "screw-twin", pitch, "check the thread", "/train/pitch", "\"2 mm\""),
                there("rocker ratio", MOWER, "is no usual ratio", "divide", "/train/ratio", "\"10\""),
                there("rocker ratio", MOWER, "is no usual ratio", "divide", "/train/ratio", "\"0.13\""),
                there("rocker ratio", "vtwin-45-pushrod", "is no usual ratio", "divide", "/train/ratio", "\"9\""),
                there("shim sizes", BUCKET, sizes, unit, "/train/shims", "\"0.20..3.50 mm step 0.05 mm\""),
                there("shim sizes", BUCKET, sizes, unit, "/train/shims", "\"12.0..19.5 mm step 0.5 mm\""),
                there("shim sizes", DESMO, sizes, unit, "/train/openerShims", "\"0.50..4.50 mm step 0.05 mm\""),
                there("shim sizes", DESMO, sizes, unit, "/train/closerShims", "\"4.50..8.05 mm step 0.05 mm\""),
                there(
                        "shim step",
                        BUCKET,
                        divides,
                        "check the step against the kit",
                        "/train/shims",
                        "\"1.20..3.50 mm step 0.04 mm\""),
                there(
                        "shim step",
                        DESMO,
                        divides,
                        "check the step against the kit",
                        "/train/openerShims",
                        "\"1.80..4.50 mm step 0.04 mm\""),
                there(
                        "shim step",
                        DESMO,
                        divides,
                        "check the step against the kit",
                        "/train/closerShims",
                        "\"4.50..8.00 mm step 0.15 mm\""));
    }

    private static List<Spoilt> layouts() {
        String mend = "add or renumber valves";
        String order = "does not name each cylinder once";
        return List.of(
                there("valves", SCREW, "does not number the in valves of cylinder 1", mend, "/valves", "[\"1-ex-1\"]"),
                there(
                        "valves",
                        SCREW,
                        "does not number the ex valves of cylinder 1",
                        mend,
                        "/valves",
                        "[\"1-in-1\", \"1-ex-1\", \"1-ex-3\"]"),
                there(
                        "valves",
                        BUCKET,
                        "does not number the in valves of cylinder 2",
                        mend,
                        "/valves",
                        "[\"1-in-1\", \"1-in-2\", \"1-ex-1\", \"1-ex-2\", \"2-in-3\", \"2-ex-1\", \"2-ex-2\"]"),
                spoilt(
                        "valves",
                        SCREW,
                        "/valves/1",
                        "is on a cylinder that the engine does not have",
                        "correct the valve",
                        "/valves",
                        "[\"1-in-1\", \"2-ex-1\"]"),
                there("firing order", BUCKET, order, "copy the firing order", "/firingOrder", "[1, 1]"),
                there(
                        "firing order",
                        "over-bucket-four",
                        order,
                        "copy the firing order",
                        "/firingOrder",
                        "[1, 3, 4, 3]"),
                there(
                        "firing order",
                        "inline-four-under-bucket",
                        order,
                        "copy the firing order",
                        "/firingOrder",
                        "[1, 3, 4, 5]"),
                there("firing intervals", BUCKET, "do not fit the firing order", "", "/firingIntervals", "[270, 270]"),
                there("firing intervals", BUCKET, "do not fit the firing order", "", "/firingIntervals", "[720]"),
                there("firing intervals", DESMO, "do not fit the firing order", "", "/firingIntervals", "[720, 0]"),
                there("firings apart", BUCKET, "is no usual interval", "sum to 720", "/firingIntervals", "[1, 719]")
                        .at("/firingIntervals/0"),
                there("firings apart", DESMO, "is no usual interval", "sum to 720", "/firingIntervals", "[700, 20]")
                        .at("/firingIntervals/1"),
                there(
                                "firings apart",
                                BUCKET,
                                "is no usual interval",
                                "sum to 720",
                                "/firingIntervals",
                                "[29.5, 690.5]")
                        .at("/firingIntervals/0"),
                timed(
                        "/camTiming/in/opens",
                        "\"25 deg ATDC\"",
                        "/camTiming/in/closes",
                        "\"5 deg BBDC\"",
                        "/camTiming/in"),
                timed(
                        "/camTiming/ex/opens",
                        "\"5 deg BBDC\"",
                        "/camTiming/ex/closes",
                        "\"2 deg ATDC\"",
                        "/camTiming/ex"),
                timed(
                        "/camTiming/ex/opens",
                        "\"95 deg BBDC\"",
                        "/camTiming/ex/closes",
                        "\"90 deg ATDC\"",
                        "/camTiming/ex"));
    }

    private static Spoilt timed(String one, String first, String other, String second, String pointer) {
        return spoilt(
                "cam timing",
                "follower-single",
                pointer,
                "which no usual cam does",
                "the marks",
                one,
                first,
                other,
                second);
    }

    private static List<Spoilt> conditions() {
        String interval = "is no usual interval of a ";
        String unit = "check the figure and its unit";
        String cold = "nobody knows whether the windows are for a cold or a hot engine";
        return List.of(
                there("interval", SCREW, interval + "rocker-screw train", unit, "/checkInterval", "\"50 km\""),
                there("interval", SCREW, interval, unit, "/checkInterval", "\"50000 km\""),
                there("interval", BUCKET, interval + "bucket-shim-under", unit, "/checkInterval", "\"240000 km\""),
                there("interval", MOWER, interval, unit, "/checkInterval", "\"2 h\""),
                there("interval", MOWER, interval, unit, "/checkInterval", "\"15 h\""),
                there("interval", MOWER, interval, unit, "/checkInterval", "\"4000 h\""),
                there("temperature", SCREW, "cold engine", "scale", "/condition/maxTemperature", "\"350 \u00b0C\""),
                there("temperature", BUCKET, "cold engine", "scale", "/condition/maxTemperature", "\"95 \u00b0C\""),
                spoilt(
                        "temperature",
                        DESMO,
                        "/condition/minTemperature",
                        "is warmer than any engine",
                        "scale",
                        "/condition/maxTemperature",
                        "\"190 \u00b0C\"",
                        "/condition/minTemperature",
                        "\"180 \u00b0C\"",
                        "/provenance/~1condition~1minTemperature",
                        "\"memory\""),
                spoilt(
                        "interval there",
                        SCREW,
                        "/checkInterval",
                        "is missing",
                        "no forecast goes beyond it",
                        "/checkInterval",
                        NONE,
                        "/provenance/~1checkInterval",
                        NONE),
                spoilt(
                        "interval there",
                        DESMO,
                        "/checkInterval",
                        "is missing",
                        "add it",
                        "/checkInterval",
                        NONE,
                        "/provenance/~1checkInterval",
                        NONE),
                spoilt(
                        "interval there",
                        MOWER,
                        "/checkInterval",
                        "is missing",
                        "add it",
                        "/checkInterval",
                        NONE,
                        "/provenance/~1checkInterval",
                        NONE),
                without("condition", SCREW, "/condition", "~1condition~1maxTemperature", cold),
                without("condition", BUCKET, "/condition", "~1condition~1maxTemperature", cold),
                without("condition", DESMO, "/condition", "~1condition~1maxTemperature", cold));
    }

    private static Spoilt without(String rule, String id, String field, String provenance, String problem) {
        return spoilt(rule, id, field, problem, "add it", field, NONE, "/provenance/" + provenance, NONE);
    }

    private static List<Spoilt> wear() {
        String counts = "counts something else than the check interval";
        String basis = "does not say that the prior is an assumption";
        return List.of(
                without("wear there", SCREW, "/wearPrior", "~1wearPrior", "is missing"),
                without("wear there", BUCKET, "/wearPrior", "~1wearPrior", "is missing"),
                without("wear there", MOWER, "/wearPrior", "~1wearPrior", "is missing"),
                there("wear counts", SCREW, counts, "correct one of the two", "/wearPrior/per", "\"250 h\""),
                there("wear counts", BUCKET, counts, "correct one of the two", "/wearPrior/per", "\"100 h\""),
                there("wear counts", MOWER, counts, "correct one of the two", "/wearPrior/per", "\"10000 km\""),
                there("wear assumed", SCREW, basis, "say so", "/wearPrior/basis", "\"measured\""),
                there("wear assumed", BUCKET, basis, "say so", "/wearPrior/basis", "\"the maker's own figure\""),
                there("wear assumed", MOWER, basis, "say so", "/wearPrior/basis", "\"a published rate\""));
    }

    private static List<Spoilt> sources() {
        String reliable = "does not say how reliable it is, and why";
        String place = "is published without a place in it";
        String typical = "do not say that the figures are typical values";
        String spare = "{ \"kind\": \"from-memory\", \"reliability\": \"low: recalled\" }";
        String book =
                "{ \"kind\": \"published\", \"title\": \"A book\", \"year\": 1999, \"reliability\": \"fair: old\" }";
        return List.of(
                spoilt(
                        "reliability",
                        SCREW,
                        "/sources/memory",
                        reliable,
                        "add it",
                        "/sources/memory/reliability",
                        NONE),
                spoilt(
                        "reliability",
                        SCREW,
                        "/sources/memory",
                        reliable,
                        "add it",
                        "/sources/memory/reliability",
                        "\"low\""),
                spoilt(
                        "reliability",
                        BUCKET,
                        "/sources/layout",
                        reliable,
                        "add it",
                        "/sources/layout/reliability",
                        "\"good: it is known\""),
                spoilt("place in a book", CITED, "/sources/" + cited(), place, "add it", locator(CITED), NONE),
                spoilt("place in a book", SCREW, "/sources/memory", place, "add it", "/sources/memory", book),
                spoilt("place in a book", BUCKET, "/sources/layout", place, "add it", "/sources/layout", book),
                there("source used", SCREW, "is the source of no figure", "remove it", "/sources/spare", spare),
                there("source used", BUCKET, "is the source of no figure", "remove it", "/sources/a~1b~0c", spare),
                there("source used", DESMO, "is the source of no figure", "remove it", "/sources/spare", spare),
                there("typical", SCREW, typical, "must not look as if it was", "/notes", "[\"A fact.\"]"),
                there("typical", BUCKET, typical, "must not look as if it was", "/notes", NONE),
                there("typical", DESMO, typical, "must not look as if it was", "/notes", "[]"),
                spoilt(
                        "figure with a source",
                        SCREW,
                        "/provenance",
                        "leaves figures without a source: [/wearPrior]",
                        "say where each comes from",
                        "/provenance/~1wearPrior",
                        NONE),
                there(
                        "figure with a source",
                        SCREW,
                        "is not a source of this template",
                        "add it to the sources",
                        "/provenance/~1clearances~1in",
                        "\"hearsay\""),
                there(
                        "figure with a source",
                        BUCKET,
                        "which is no figure of this template",
                        "correct the pointer",
                        "/provenance/~1train~1pitch",
                        "\"memory\""));
    }

    /** The short name of the published source of a template. */
    private static String cited() {
        JsonNode sources = Trees.tree(PackFiles.template(CITED)).get("sources");
        return sources.propertyNames().stream()
                .filter(name -> sources.get(name).get("kind").stringValue().equals("published"))
                .findFirst()
                .orElseThrow();
    }

    private static String locator(String id) {
        assertThat(id).isEqualTo(CITED);
        return "/sources/" + cited() + "/locator";
    }

    private static List<Spoilt> lifeCycles() {
        String contradicts = "contradicts the status active";
        String mend = "correct one of the two";
        String missing = "is missing";
        return List.of(
                there("active", SCREW, contradicts, mend, "/deprecatedIn", "\"0.2.0\""),
                there("active", BUCKET, contradicts, mend, "/deprecatedIn", "\"1.0.0\""),
                there("active", DESMO, contradicts, mend, "/replacedBy", "\"screw-single\""),
                spoilt("deprecated in", SCREW, "/deprecatedIn", missing, "add it", "/status", "\"deprecated\""),
                spoilt("deprecated in", BUCKET, "/deprecatedIn", missing, "add it", "/status", "\"withdrawn\""),
                spoilt(
                        "deprecated in",
                        DESMO,
                        "/deprecatedIn",
                        missing,
                        "add it",
                        "/status",
                        "\"deprecated\"",
                        "/replacedBy",
                        "\"vtwin-90-desmodromic\""),
                replaced(SCREW, "screw-singel"),
                replaced(BUCKET, "vtwin-90"),
                replaced(DESMO, "desmodromic"),
                itself(SCREW),
                itself(BUCKET),
                itself(DESMO),
                early(SCREW, "0.0.1"),
                early(BUCKET, "0.1.0"),
                early(DESMO, "0.0.9"),
                there("status", SCREW, "is not a status", "write one of these", "/status", "\"old\""),
                there("status", BUCKET, "is not a status", "write one of these", "/status", "\"Active\""),
                there("status", DESMO, "is not a status", "write one of these", "/status", "\"\""),
                there("version", SCREW, "is not a version", "correct it", "/addedIn", "\"0.2\""),
                there("version", BUCKET, "is not a version", "correct it", "/addedIn", "\"0.2.0-beta\""),
                there("version", DESMO, "is not a version", "correct it", "/addedIn", "\"next\""));
    }

    private static Spoilt itself(String id) {
        return spoilt(
                "replaced by another",
                id,
                "/replacedBy",
                "is the template itself",
                "the one to take instead",
                "/status",
                "\"deprecated\"",
                "/deprecatedIn",
                "\"9.0.0\"",
                "/replacedBy",
                "\"" + id + "\"");
    }

    private static Spoilt early(String id, String version) {
        return spoilt(
                "deprecated after it was added",
                id,
                "/deprecatedIn",
                "is not after the version that added",
                "the version of the pack",
                "/status",
                "\"deprecated\"",
                "/deprecatedIn",
                "\"" + version + "\"");
    }

    private static Spoilt replaced(String id, String by) {
        return spoilt(
                "replaced by",
                id,
                "/replacedBy",
                "is not in the pack",
                "correct it",
                "/status",
                "\"deprecated\"",
                "/deprecatedIn",
                "\"0.3.0\"",
                "/replacedBy",
                "\"" + by + "\"");
    }

    private static List<Spoilt> examples() {
        String few = "are too few: ";
        String within = "all come out within";
        String other = "is not what comes of the trials: ";
        String again = "work the example out again, or correct the template";
        return List.of(
                spoilt("enough examples", SCREW, "/examples", few + "0", "by hand", "/examples", NONE),
                spoilt(
                        "enough examples",
                        SCREW,
                        "/examples",
                        few + "1",
                        "by hand",
                        "/examples/2",
                        NONE,
                        "/examples/1",
                        NONE),
                spoilt("enough examples", BUCKET, "/examples", few + "0", "by hand", "/examples", "[]"),
                spoilt(
                        "one not within",
                        SCREW,
                        "/examples",
                        within,
                        "tight, loose or undecided",
                        "/examples",
                        twice(SCREW)),
                spoilt(
                        "one not within",
                        BUCKET,
                        "/examples",
                        within,
                        "tight, loose or undecided",
                        "/examples",
                        twice(BUCKET)),
                spoilt(
                        "one not within",
                        DESMO,
                        "/examples",
                        within,
                        "tight, loose or undecided",
                        "/examples",
                        twice(DESMO)),
                there("example", SCREW, other + "(0.08, 0.09) mm", again, "/examples/0/bracket", "\"(0.08, 0.1) mm\""),
                there("example", SCREW, other + "tight", again, "/examples/1/verdict", "\"loose\""),
                there("example", SCREW, other + "0.12 mm", again, "/examples/1/adjustment/leaf", "\"0.11 mm\""),
                there("example", SCREW, other + "28.8..36 deg", again, "/examples/1/adjustment/turn", "\"75 deg\""),
                there("example", BUCKET, other + "leave", again, "/examples/0/adjustment/kind", "\"fit-shim\""),
                there("example", BUCKET, other + "2.30 mm", again, "/examples/1/adjustment/shim", "\"2.35 mm\""),
                spoilt(
                        "example",
                        BUCKET,
                        "/examples/2/verdict",
                        other + "within",
                        again,
                        "/clearances/ex",
                        "\"0.22..0.30 mm\""),
                spoilt(
                        "example",
                        SCREW,
                        "/examples/0/valve",
                        other + "is not a valve",
                        again,
                        "/examples/0/valve",
                        "\"2-in-1\""));
    }

    /** Its first example, which comes out within, twice. */
    private static String twice(String id) {
        String first = Trees.tree(PackFiles.template(id)).at("/examples/0").toString();
        return "[" + first + ", " + first + "]";
    }

    static Stream<Spoilt> spoilt() {
        return Stream.of(windows(), trains(), layouts(), conditions(), wear(), sources(), lifeCycles(), examples())
                .flatMap(List::stream);
    }

    @ParameterizedTest
    @MethodSource("spoilt")
    void everySpoiltTemplateIsFound(Spoilt spoilt) throws IOException {
        Path file = PackFiles.write(folder, spoilt.json());

        List<PackFinding> findings = PackCheck.of(folder);

        assertThat(findings).as("%s", spoilt).anySatisfy(finding -> {
            assertThat(finding.pointer()).isEqualTo(spoilt.pointer());
            assertThat(finding.problem()).contains(spoilt.problem());
            assertThat(finding.mend()).contains(spoilt.mend());
        });
        List<String> lines = Files.readAllLines(file);
        JsonDocument document = JsonDocument.parse("template", Files.readString(file));
        assertThat(findings).allSatisfy(finding -> {
            assertThat(finding.file()).isEqualTo(spoilt.id() + ".json");
            assertThat(List.of(finding.problem(), finding.expected(), finding.mend()))
                    .noneMatch(String::isBlank);
            assertThat(finding.line()).isBetween(1, lines.size());
            document.find(finding.pointer())
                    .ifPresent(value ->
                            assertThat(finding.line()).as("line of %s", finding).isEqualTo(value.line()));
        });
    }

    @Test
    void everyRuleIsTriedAtLeastThreeTimes() {
        Map<String, Long> tried = spoilt().collect(Collectors.groupingBy(Spoilt::rule, Collectors.counting()));

        assertThat(tried).hasSizeGreaterThan(20);
        assertThat(tried.entrySet().stream().filter(e -> e.getValue() < 3).map(Map.Entry::getKey))
                .isEmpty();
    }

    @ParameterizedTest
    @MethodSource("soundIds")
    void theTemplatesAreSoundBeforeTheyAreSpoilt(String id) throws IOException {
        PackFiles.write(folder, PackFiles.template(id));

        assertThat(PackCheck.of(folder)).isEmpty();
    }

    static Stream<String> soundIds() {
        return spoilt().map(Spoilt::id).distinct();
    }

    @Test
    void aNoteExplainsATighterExhaust() throws IOException {
        String json = Trees.with(PackFiles.template(SCREW), "/clearances/ex", "\"0.05..0.10 mm\"");
        String said =
                Trees.with(json, "/notes/0", "\"Typical: the exhaust is tighter than the intake, for its stem.\"");
        PackFiles.write(folder, Trees.without(said, "/examples/2"));

        assertThat(PackCheck.of(folder)).isEmpty();
    }

    @Test
    void hydraulicLiftersNeedNoClearance() {
        assertThat(SpecPack.bundled().search(t -> t.spec().train().kind().equals("hydraulic")))
                .isNotEmpty()
                .allSatisfy(t -> assertThat(t.examples()).isEmpty());
    }

    @Test
    void allThatIsWrongIsToldAtOnce() throws IOException {
        String one = Trees.with(PackFiles.template(SCREW), "/train/pitch", "\"0.55 mm\"");
        String two = Trees.with(one, "/checkInterval", "\"50 km\"");
        PackFiles.write(folder, Trees.with(two, "/wearPrior/basis", "\"measured\""));
        PackFiles.write(folder, Trees.with(PackFiles.template(BUCKET), "/clearances/in", "\"13..19 um\""));
        Files.writeString(folder.resolve("broken.json"), "{");

        assertThat(PackCheck.of(folder))
                .extracting(f -> f.file() + f.pointer())
                .contains(
                        "broken.json",
                        "screw-single.json/train/pitch",
                        "screw-single.json/checkInterval",
                        "screw-single.json/wearPrior/basis",
                        "vtwin-90-bucket.json/clearances/in");
    }

    // What only several templates show

    /** The one to take instead must be one that is still advised. */
    @ParameterizedTest
    @MethodSource("names")
    void aTemplateIsNotReplacedByOneThatIsNoLongerActive(String id) throws IOException {
        String other = id.equals(MOWER) ? SCREW : MOWER;
        for (Map.Entry<String, String> each : Map.of(id, other, other, CITED).entrySet()) {
            String json = Trees.with(PackFiles.template(each.getKey()), "/status", "\"deprecated\"");
            json = Trees.with(json, "/deprecatedIn", "\"9.0.0\"");
            PackFiles.write(folder, Trees.with(json, "/replacedBy", "\"" + each.getValue() + "\""));
        }

        // the other is replaced by one of the bundled pack, which is active
        assertThat(PackCheck.of(folder)).singleElement().satisfies(finding -> {
            assertThat(finding.file()).isEqualTo(id + ".json");
            assertThat(finding.pointer()).isEqualTo("/replacedBy");
            assertThat(finding.problem()).isEqualTo("is no longer active itself");
        });
    }

    static Stream<String> names() {
        return Stream.of(SCREW, BUCKET, DESMO);
    }

    @ParameterizedTest
    @MethodSource("names")
    void findsAnIdThatIsTakenTwice(String id) throws IOException {
        PackFiles.write(folder, PackFiles.template(id));
        Files.writeString(folder.resolve("z.json"), PackFiles.template(id));

        assertThat(PackCheck.of(folder))
                .anySatisfy(f -> assertThat(f.toString())
                        .startsWith("z.json, line 3, at /id: \"" + id + "\" is taken already, in " + id + ".json; ")
                        .endsWith("choose another id"))
                .anySatisfy(f -> assertThat(f.toString())
                        .startsWith("z.json, line 3, at /id: ")
                        .contains("is not the name of the file; expected z")
                        .endsWith("name the file after the id"));
    }

    @ParameterizedTest
    @MethodSource("names")
    void findsTemplatesThatDifferByNameAlone(String id) throws IOException {
        PackFiles.write(folder, PackFiles.template(id));
        PackFiles.write(folder, Trees.with(PackFiles.renamed(id, "zz"), "/title", "\"Another title\""));

        assertThat(PackCheck.of(folder))
                .singleElement()
                .satisfies(f -> assertThat(f.toString())
                        .startsWith("zz.json, line 4, at /title: \"Another title\" differs from " + id
                                + ".json by its name")
                        .endsWith("remove one of the two"));
    }

    // The form of the file

    static Stream<String> forms() {
        String sound = PackFiles.template(SCREW);
        return Stream.of(
                sound.replace("[1]", "[ 1 ]"),
                sound.replace("\n", "\r\n"),
                sound.stripTrailing(),
                sound.replace(
                        "\"cylinders\": 1,\n  \"firingOrder\": [1],", "\"firingOrder\": [1],\n  \"cylinders\": 1,"),
                "\uFEFF" + sound,
                Trees.with(sound, "/cylinders", "1"));
    }

    @ParameterizedTest
    @MethodSource("forms")
    void findsAnotherForm(String json) throws IOException {
        Path file = Files.writeString(folder.resolve("screw-single.json"), json);

        assertThat(PackCheck.of(folder)).singleElement().satisfies(f -> {
            assertThat(f.problem()).containsAnyOf("is not written in the canonical form", "has other line ends");
            assertThat(f.mend()).contains("lash pack check --write");
            assertThat(f.line()).isBetween(1, 1 + (int) json.lines().count());
        });

        assertThat(PackCheck.write(folder)).containsExactly("screw-single.json");
        assertThat(Files.readString(file)).isEqualTo(PackFiles.template(SCREW));
        assertThat(PackCheck.of(folder)).isEmpty();
        assertThat(PackCheck.write(folder)).isEmpty();
        try (Stream<Path> left = Files.list(folder)) {
            assertThat(left).as("nothing else is left behind").containsExactly(file);
        }
    }

    // The index of a folder

    @Test
    void findsAnIndexThatIsNotOfTheFiles() throws IOException {
        PackFiles.write(folder, PackFiles.template(SCREW));
        Path index = folder.resolve("pack.json");
        Files.writeString(index, "{ \"version\": \"1.0.0\" }");
        String sound = PackIndex.text(folder);

        Files.writeString(index, sound);
        assertThat(PackCheck.of(folder)).isEmpty();

        for (String changed : List.of(
                Trees.with(sound, "/templates/0/sha256", "\"0000\""),
                Trees.with(sound, "/templates/0/revision", "7"),
                Trees.with(sound, "/templates/0/file", "\"other.json\""),
                Trees.with(sound, "/templates", "[]"),
                Trees.without(sound, "/templates"))) {
            Files.writeString(index, changed);
            assertThat(PackCheck.of(folder))
                    .singleElement()
                    .satisfies(f -> assertThat(f.toString())
                            .startsWith("pack.json, line 1, at /templates: \"screw-single.json\" is not in the index")
                            .endsWith("write the index anew; never type a checksum"));
        }
    }

    @Test
    void findsATemplateThatWasDeleted() throws IOException {
        PackFiles.write(folder, PackFiles.template(SCREW));
        Path gone = PackFiles.write(folder, PackFiles.template(BUCKET));
        Files.writeString(folder.resolve("pack.json"), "{ \"version\": \"1.0.0\" }");
        Files.writeString(folder.resolve("pack.json"), PackIndex.text(folder));
        Files.delete(gone);

        assertThat(PackCheck.of(folder)).singleElement().satisfies(f -> {
            assertThat(f.pointer()).isEqualTo("/templates/1");
            assertThat(f.value()).isEqualTo(BUCKET);
            assertThat(f.problem()).isEqualTo("is in the index but not in the folder");
            assertThat(f.mend()).contains("none is ever deleted");
        });
    }

    // The bundled pack

    @Test
    void nothingIsWrongWithTheBundledPack() throws IOException {
        assertThat(PackCheck.of(PackFiles.BUNDLED)).isEmpty();
    }

    @ParameterizedTest
    @MethodSource("bundledIds")
    void everyBundledTemplateIsValidAndCanonical(String id) {
        String json = PackFiles.template(id);

        assertThat(Schemas.TEMPLATE.errors(json)).isEmpty();
        assertThat(PackFiles.canonical(json)).isEqualTo(json);
    }

    static Stream<String> bundledIds() {
        return SpecPack.bundled().ids().stream();
    }

    /** Every kind of train that the schema knows, and every count of cylinders up to six but five, has a template. */
    @Test
    void thePackCoversEveryTrainAndLayout() {
        List<Template> all = SpecPack.bundled().search(t -> true);
        Set<String> kinds = all.stream().map(t -> t.spec().train().kind()).collect(Collectors.toSet());
        List<String> known = new ArrayList<>();
        Schemas.TEMPLATE.tree().at("/$defs/train/properties/kind/enum").forEach(kind -> known.add(kind.stringValue()));

        assertThat(all).hasSizeGreaterThanOrEqualTo(40);
        assertThat(kinds).containsAll(known);
        assertThat(all.stream()
                        .map(t -> t.spec().firingOrder().cylinders())
                        .distinct()
                        .sorted(Comparator.naturalOrder()))
                .containsExactly(1, 2, 3, 4, 6);
        assertThat(all.stream().flatMap(t -> t.features().uses().stream()).distinct())
                .containsExactlyInAnyOrderElementsOf(Template.Features.USES);
    }
}
