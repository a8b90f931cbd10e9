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
    record Spoilt(PackRule rule, String id, Map<String, String> changes, String pointer, String problem, String mend) {
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

        /** The same, in place of the field that was meant. */
        Spoilt renamed(String field) {
            Map<String, String> both = new LinkedHashMap<>(changes);
            both.put(field, NONE);
            return new Spoilt(rule, id, both, pointer, problem, mend);
        }

        @Override
        public String toString() {
            return rule + ", " + id + " " + changes;
        }
    }

    private static Spoilt spoilt(
            PackRule rule, String id, String pointer, String problem, String mend, String... changes) {
        Map<String, String> made = new LinkedHashMap<>();
        for (int i = 0; i < changes.length; i += 2) {
            made.put(changes[i], changes[i + 1]);
        }
        return new Spoilt(rule, id, made, pointer, problem, mend);
    }

    /** The finding stands where the change was made. */
    private static Spoilt there(PackRule rule, String id, String problem, String mend, String pointer, String value) {
        return spoilt(rule, id, pointer, problem, mend, pointer, value);
    }

    private static List<Spoilt> fields() {
        String unknown = "is an unknown field";
        String meant = "did you mean \"";
        return List.of(
                there(PackRule.FIELD_KNOWN, SCREW, unknown, meant + "notes\"?", "/note", "[]")
                        .renamed("/notes"),
                there(PackRule.FIELD_KNOWN, BUCKET, unknown, meant + "clearances\"?", "/clearence", "{}")
                        .renamed("/clearances"),
                there(PackRule.FIELD_KNOWN, MOWER, unknown, meant + "pitch\"?", "/train/pich", "\"1 mm\"")
                        .renamed("/train/pitch"),
                there(PackRule.FIELD_KNOWN, DESMO, unknown, "correct its spelling", "/colour", "\"red\""),
                missing(SCREW, "/train/pitch", "pitch"),
                missing(BUCKET, "/revision", "revision"),
                missing(DESMO, "/examples/0/bracket", "bracket"),
                missing(MOWER, "/wearPrior/per", "per"),
                there(PackRule.VALUE_FORM, SCREW, "is a bare number", "in quotation marks", "/checkInterval", "6000"),
                there(PackRule.VALUE_FORM, BUCKET, "is not a list", "in square brackets", "/notes", "\"Typical.\""),
                there(PackRule.VALUE_FORM, DESMO, "is out of range", "check the number", "/revision", "0"),
                there(PackRule.VALUE_FORM, MOWER, "is not a use", "write one of these", "/features/uses/0", "\"lawn\""),
                there(PackRule.VALUE_FORM, MOWER, "is not a kind of valve train", "", "/train/kind", "\"nut\""));
    }

    private static Spoilt missing(String id, String pointer, String field) {
        return spoilt(
                PackRule.FIELD_THERE,
                id,
                Trees.parent(pointer),
                "has no field \"" + field + "\"",
                "add it",
                pointer,
                NONE);
    }

    private static List<Spoilt> windows() {
        String usual = "is no usual clearance; inches or hundredths";
        String zero = "begins at zero: a valve without clearance does not close";
        String tighter = "is tighter than the intake window";
        String unit = "check the figure and its unit";
        return List.of(
                there(PackRule.WINDOW_USUAL, SCREW, usual, unit, "/clearances/in", "\"0.004..0.006 mm\""),
                there(PackRule.WINDOW_USUAL, SCREW, usual, unit, "/clearances/ex", "\"1.5..2.2 mm\""),
                there(PackRule.WINDOW_USUAL, SCREW, usual, unit, "/clearances/ex", "\"0.7..0.9 mm\""),
                there(PackRule.WINDOW_USUAL, BUCKET, usual, unit, "/clearances/in", "\"13..19 um\""),
                there(PackRule.WINDOW_USUAL, DESMO, usual, unit, "/closerClearances/ex", "\"0.00..2.00 mm\""),
                there(
                        PackRule.WINDOW_ABOVE_ZERO,
                        SCREW,
                        zero,
                        "check the figure",
                        "/clearances/in",
                        "\"0.00..0.13 mm\""),
                there(PackRule.WINDOW_ABOVE_ZERO, BUCKET, zero, "check the figure", "/clearances/ex", "\"0..0.28 mm\""),
                there(
                        PackRule.WINDOW_ABOVE_ZERO,
                        DESMO,
                        zero,
                        "check the figure",
                        "/clearances/in",
                        "\"0.00..0.12 mm\""),
                there(PackRule.WINDOW_ENDS, SCREW, "has ends more than", "both", "/clearances/ex", "\"0.02..0.18 mm\""),
                there(
                        PackRule.WINDOW_ENDS,
                        BUCKET,
                        "has ends more than",
                        "both",
                        "/clearances/in",
                        "\"0.02..0.19 mm\""),
                there(PackRule.WINDOW_ENDS, DESMO, "has ends more than", "both", "/clearances/in", "\"0.01..0.12 mm\""),
                there(
                        PackRule.WINDOWS_ALIKE,
                        SCREW,
                        "is five times or more off",
                        "both",
                        "/clearances/ex",
                        "\"0.60..0.75 mm\""),
                there(
                                PackRule.WINDOWS_ALIKE,
                                BUCKET,
                                "is five times or more off",
                                "both",
                                "/clearances/in",
                                "\"0.03..0.05 mm\"")
                        .at("/clearances/ex"),
                there(
                        PackRule.WINDOWS_ALIKE,
                        DESMO,
                        "is five times or more off",
                        "both",
                        "/clearances/ex",
                        "\"0.50..0.60 mm\""),
                there(PackRule.EXHAUST_TIGHTER, SCREW, tighter, "swap them", "/clearances/ex", "\"0.05..0.20 mm\""),
                there(PackRule.EXHAUST_TIGHTER, SCREW, tighter, "swap them", "/clearances/ex", "\"0.05..0.10 mm\""),
                there(PackRule.EXHAUST_TIGHTER, BUCKET, tighter, "write a note", "/clearances/ex", "\"0.10..0.16 mm\""),
                there(PackRule.EXHAUST_TIGHTER, DESMO, tighter, "swap them", "/clearances/ex", "\"0.05..0.10 mm\""),
                there(
                        PackRule.WINDOW_FORM,
                        SCREW,
                        "is reversed",
                        "swap the two figures",
                        "/clearances/in",
                        "\"0.13..0.08 mm\""),
                there(
                        PackRule.WINDOW_FORM,
                        DESMO,
                        "is reversed",
                        "swap the two figures",
                        "/closerClearances/in",
                        "\"0.05..0.01 mm\""),
                there(PackRule.WINDOW_FORM, BUCKET, "has no unit", "unit", "/clearances/in", "\"0.13..0.19\""),
                spoilt(
                        PackRule.SETTING_INSIDE,
                        SCREW,
                        "/setTo/in",
                        "is not inside the window to check against",
                        "check both windows in the manual",
                        "/setTo",
                        "{ \"in\": \"0.10..0.14 mm\" }",
                        "/provenance/~1setTo~1in",
                        "\"memory\""),
                spoilt(
                        PackRule.SETTING_INSIDE,
                        BUCKET,
                        "/setTo/ex",
                        "is not inside the window to check against",
                        "check both windows in the manual",
                        "/setTo",
                        "{ \"ex\": \"0.10..0.14 mm\" }",
                        "/provenance/~1setTo~1ex",
                        "\"memory\""),
                there(
                        PackRule.SETTING_INSIDE,
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
                there(PackRule.PITCH_STANDARD, SCREW, pitch, "check the thread", "/train/pitch", "\"0.55 mm\""),
                there(PackRule.PITCH_STANDARD, MOWER, pitch, "check the thread", "/train/pitch", "\"22 tpi\""),
                there(PackRule.PITCH_STANDARD, "screw-twin", pitch, "check the thread", "/train/pitch", "\"2 mm\""),
                there(PackRule.RATIO_USUAL, MOWER, "is no usual ratio", "divide", "/train/ratio", "\"10\""),
                there(PackRule.RATIO_USUAL, MOWER, "is no usual ratio", "divide", "/train/ratio", "\"0.13\""),
                there(PackRule.RATIO_USUAL, "vtwin-45-pushrod", "is no usual ratio", "divide", "/train/ratio", "\"9\""),
                there(PackRule.SHIM_USUAL, BUCKET, sizes, unit, "/train/shims", "\"0.20..3.50 mm step 0.05 mm\""),
                there(PackRule.SHIM_USUAL, BUCKET, sizes, unit, "/train/shims", "\"12.0..19.5 mm step 0.5 mm\""),
                there(PackRule.SHIM_USUAL, DESMO, sizes, unit, "/train/openerShims", "\"0.50..4.50 mm step 0.05 mm\""),
                there(PackRule.SHIM_USUAL, DESMO, sizes, unit, "/train/closerShims", "\"4.50..8.05 mm step 0.05 mm\""),
                there(
                        PackRule.SHIM_STEP,
                        BUCKET,
                        divides,
                        "check the step against the kit",
                        "/train/shims",
                        "\"1.20..3.50 mm step 0.04 mm\""),
                there(
                        PackRule.SHIM_STEP,
                        DESMO,
                        divides,
                        "check the step against the kit",
                        "/train/openerShims",
                        "\"1.80..4.50 mm step 0.04 mm\""),
                there(
                        PackRule.SHIM_STEP,
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
                there(
                        PackRule.VALVES_NUMBERED,
                        SCREW,
                        "does not number the in valves of cylinder 1",
                        mend,
                        "/valves",
                        "[\"1-ex-1\"]"),
                there(
                        PackRule.VALVES_NUMBERED,
                        SCREW,
                        "does not number the ex valves of cylinder 1",
                        mend,
                        "/valves",
                        "[\"1-in-1\", \"1-ex-1\", \"1-ex-3\"]"),
                there(
                        PackRule.VALVES_NUMBERED,
                        BUCKET,
                        "does not number the in valves of cylinder 2",
                        mend,
                        "/valves",
                        "[\"1-in-1\", \"1-in-2\", \"1-ex-1\", \"1-ex-2\", \"2-in-3\", \"2-ex-1\", \"2-ex-2\"]"),
                spoilt(
                        PackRule.VALVE_OF_ENGINE,
                        SCREW,
                        "/valves/1",
                        "is on a cylinder that the engine does not have",
                        "correct the valve",
                        "/valves",
                        "[\"1-in-1\", \"2-ex-1\"]"),
                spoilt(
                        PackRule.VALVE_OF_ENGINE,
                        BUCKET,
                        "/valves/6",
                        "is on a cylinder that the engine does not have",
                        "correct the valve, or the number",
                        "/valves/6",
                        "\"3-ex-1\""),
                there(PackRule.VALVE_OF_ENGINE, DESMO, "is not the name of a valve", "", "/valves/0", "\"first\""),
                there(
                        PackRule.VALVE_OF_ENGINE,
                        SCREW,
                        "are missing or named twice",
                        "",
                        "/valves",
                        "[\"1-in-1\", \"1-in-1\"]"),
                there(PackRule.FIRING_ORDER, BUCKET, order, "copy the firing order", "/firingOrder", "[1, 1]"),
                there(
                        PackRule.FIRING_ORDER,
                        "over-bucket-four",
                        order,
                        "copy the firing order",
                        "/firingOrder",
                        "[1, 3, 4, 3]"),
                there(
                        PackRule.FIRING_ORDER,
                        "inline-four-under-bucket",
                        order,
                        "copy the firing order",
                        "/firingOrder",
                        "[1, 3, 4, 5]"),
                there(
                        PackRule.FIRING_INTERVALS,
                        BUCKET,
                        "do not fit the firing order",
                        "",
                        "/firingIntervals",
                        "[270, 270]"),
                there(
                        PackRule.FIRING_INTERVALS,
                        BUCKET,
                        "do not fit the firing order",
                        "",
                        "/firingIntervals",
                        "[720]"),
                there(
                        PackRule.FIRING_INTERVALS,
                        DESMO,
                        "do not fit the firing order",
                        "",
                        "/firingIntervals",
                        "[720, 0]"),
                there(
                                PackRule.FIRINGS_APART,
                                BUCKET,
                                "is no usual interval",
                                "sum to 720",
                                "/firingIntervals",
                                "[1, 719]")
                        .at("/firingIntervals/0"),
                there(
                                PackRule.FIRINGS_APART,
                                DESMO,
                                "is no usual interval",
                                "sum to 720",
                                "/firingIntervals",
                                "[700, 20]")
                        .at("/firingIntervals/1"),
                there(
                                PackRule.FIRINGS_APART,
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
                PackRule.LIFT_USUAL,
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
                there(
                        PackRule.INTERVAL_USUAL,
                        SCREW,
                        interval + "rocker-screw train",
                        unit,
                        "/checkInterval",
                        "\"50 km\""),
                there(PackRule.INTERVAL_USUAL, SCREW, interval, unit, "/checkInterval", "\"50000 km\""),
                there(
                        PackRule.INTERVAL_USUAL,
                        BUCKET,
                        interval + "bucket-shim-under",
                        unit,
                        "/checkInterval",
                        "\"240000 km\""),
                there(PackRule.INTERVAL_USUAL, MOWER, interval, unit, "/checkInterval", "\"2 h\""),
                there(PackRule.INTERVAL_USUAL, MOWER, interval, unit, "/checkInterval", "\"15 h\""),
                there(PackRule.INTERVAL_USUAL, MOWER, interval, unit, "/checkInterval", "\"4000 h\""),
                there(
                        PackRule.TEMPERATURE_USUAL,
                        SCREW,
                        "cold engine",
                        "scale",
                        "/condition/maxTemperature",
                        "\"350 \u00b0C\""),
                there(
                        PackRule.TEMPERATURE_USUAL,
                        BUCKET,
                        "cold engine",
                        "scale",
                        "/condition/maxTemperature",
                        "\"95 \u00b0C\""),
                spoilt(
                        PackRule.TEMPERATURE_USUAL,
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
                        PackRule.INTERVAL_THERE,
                        SCREW,
                        "/checkInterval",
                        "is missing",
                        "no forecast goes beyond it",
                        "/checkInterval",
                        NONE,
                        "/provenance/~1checkInterval",
                        NONE),
                spoilt(
                        PackRule.INTERVAL_THERE,
                        DESMO,
                        "/checkInterval",
                        "is missing",
                        "add it",
                        "/checkInterval",
                        NONE,
                        "/provenance/~1checkInterval",
                        NONE),
                spoilt(
                        PackRule.INTERVAL_THERE,
                        MOWER,
                        "/checkInterval",
                        "is missing",
                        "add it",
                        "/checkInterval",
                        NONE,
                        "/provenance/~1checkInterval",
                        NONE),
                without(PackRule.CONDITION_THERE, SCREW, "/condition", "~1condition~1maxTemperature", cold),
                without(PackRule.CONDITION_THERE, BUCKET, "/condition", "~1condition~1maxTemperature", cold),
                without(PackRule.CONDITION_THERE, DESMO, "/condition", "~1condition~1maxTemperature", cold));
    }

    /** What is usual for one kind of train is not for another. */
    private static List<Spoilt> intervals() {
        return Stream.of(
                        Map.entry("screw-single", "45000 km"),
                        Map.entry("forked-single-four-valve", "900 km"),
                        Map.entry("generator-diesel-single", "40 h"),
                        Map.entry("vtwin-45-pushrod", "50000 km"),
                        Map.entry("mower-ohv-single", "40 h"),
                        Map.entry("side-valve-single", "1200 h"),
                        Map.entry("wedge-twin", "25000 km"),
                        Map.entry("diesel-four-bridge", "200 h"),
                        Map.entry("inline-four-eccentric", "4000 km"),
                        Map.entry("over-bucket-four", "900 km"),
                        Map.entry("vtwin-90-bucket", "61000 km"),
                        Map.entry("follower-single", "40000 mi"),
                        Map.entry("inline-four-car-graded", "8000 km"),
                        Map.entry("vtwin-90-desmodromic", "45000 km"),
                        Map.entry("side-valve-fixed-single", "90 h"))
                .map(e -> there(
                        PackRule.INTERVAL_USUAL,
                        e.getKey(),
                        "is no usual interval of a ",
                        "check the figure and its unit",
                        "/checkInterval",
                        "\"" + e.getValue() + "\""))
                .toList();
    }

    private static Spoilt without(PackRule rule, String id, String field, String provenance, String problem) {
        return spoilt(rule, id, field, problem, "add it", field, NONE, "/provenance/" + provenance, NONE);
    }

    private static List<Spoilt> wear() {
        String counts = "counts something else than the check interval";
        String basis = "does not say that the prior is an assumption";
        String knows = "is less than the drift itself";
        String room = "leaves the drift next to no room";
        return List.of(
                without(PackRule.WEAR_THERE, SCREW, "/wearPrior", "~1wearPrior", "is missing"),
                without(PackRule.WEAR_THERE, BUCKET, "/wearPrior", "~1wearPrior", "is missing"),
                without(PackRule.WEAR_THERE, MOWER, "/wearPrior", "~1wearPrior", "is missing"),
                there(PackRule.WEAR_COUNTS, SCREW, counts, "correct one of the two", "/wearPrior/per", "\"250 h\""),
                there(PackRule.WEAR_COUNTS, BUCKET, counts, "correct one of the two", "/wearPrior/per", "\"100 h\""),
                there(PackRule.WEAR_COUNTS, MOWER, counts, "correct one of the two", "/wearPrior/per", "\"10000 km\""),
                there(PackRule.WEAR_BROAD, SCREW, knows, "more room", "/wearPrior/driftDeviation", "\"0.009 mm\""),
                there(PackRule.WEAR_BROAD, BUCKET, knows, "more room", "/wearPrior/drift", "\"-0.03 mm\"")
                        .at("/wearPrior/driftDeviation"),
                there(PackRule.WEAR_BROAD, SCREW, room, "shorten it", "/wearPrior/per", "\"40000 km\""),
                there(PackRule.WEAR_BROAD, MOWER, room, "shorten it", "/wearPrior/per", "\"1000 h\""),
                there(PackRule.WEAR_ASSUMED, SCREW, basis, "say so", "/wearPrior/basis", "\"measured\""),
                there(PackRule.WEAR_ASSUMED, BUCKET, basis, "say so", "/wearPrior/basis", "\"the maker's own figure\""),
                there(PackRule.WEAR_ASSUMED, MOWER, basis, "say so", "/wearPrior/basis", "\"a published rate\""));
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
                        PackRule.SOURCE_RELIABILITY,
                        SCREW,
                        "/sources/memory",
                        reliable,
                        "add it",
                        "/sources/memory/reliability",
                        NONE),
                spoilt(
                        PackRule.SOURCE_RELIABILITY,
                        SCREW,
                        "/sources/memory",
                        reliable,
                        "add it",
                        "/sources/memory/reliability",
                        "\"low\""),
                spoilt(
                        PackRule.SOURCE_RELIABILITY,
                        BUCKET,
                        "/sources/layout",
                        reliable,
                        "add it",
                        "/sources/layout/reliability",
                        "\"good: it is known\""),
                spoilt(PackRule.SOURCE_PLACE, CITED, "/sources/" + cited(), place, "add it", locator(CITED), NONE),
                spoilt(PackRule.SOURCE_PLACE, SCREW, "/sources/memory", place, "add it", "/sources/memory", book),
                spoilt(PackRule.SOURCE_PLACE, BUCKET, "/sources/layout", place, "add it", "/sources/layout", book),
                there(PackRule.SOURCE_USED, SCREW, "is the source of no figure", "remove it", "/sources/spare", spare),
                there(
                        PackRule.SOURCE_USED,
                        BUCKET,
                        "is the source of no figure",
                        "remove it",
                        "/sources/a~1b~0c",
                        spare),
                there(PackRule.SOURCE_USED, DESMO, "is the source of no figure", "remove it", "/sources/spare", spare),
                there(PackRule.TYPICAL_SAID, SCREW, typical, "must not look as if it was", "/notes", "[\"A fact.\"]"),
                there(PackRule.TYPICAL_SAID, BUCKET, typical, "must not look as if it was", "/notes", NONE),
                there(PackRule.TYPICAL_SAID, DESMO, typical, "must not look as if it was", "/notes", "[]"),
                spoilt(
                        PackRule.FIGURE_SOURCE,
                        SCREW,
                        "/provenance",
                        "leaves figures without a source: [/wearPrior]",
                        "say where each comes from",
                        "/provenance/~1wearPrior",
                        NONE),
                there(
                        PackRule.FIGURE_SOURCE,
                        SCREW,
                        "is not a source of this template",
                        "add it to the sources",
                        "/provenance/~1clearances~1in",
                        "\"hearsay\""),
                there(
                        PackRule.FIGURE_SOURCE,
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
                there(PackRule.ACTIVE_WHOLE, SCREW, contradicts, mend, "/deprecatedIn", "\"0.2.0\""),
                there(PackRule.ACTIVE_WHOLE, BUCKET, contradicts, mend, "/deprecatedIn", "\"1.0.0\""),
                there(PackRule.ACTIVE_WHOLE, DESMO, contradicts, mend, "/replacedBy", "\"screw-single\""),
                spoilt(
                        PackRule.DEPRECATED_SINCE,
                        SCREW,
                        "/deprecatedIn",
                        missing,
                        "add it",
                        "/status",
                        "\"deprecated\""),
                spoilt(
                        PackRule.DEPRECATED_SINCE,
                        BUCKET,
                        "/deprecatedIn",
                        missing,
                        "add it",
                        "/status",
                        "\"withdrawn\""),
                spoilt(
                        PackRule.DEPRECATED_SINCE,
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
                there(PackRule.STATUS_KNOWN, SCREW, "is not a status", "write one of these", "/status", "\"old\""),
                there(PackRule.STATUS_KNOWN, BUCKET, "is not a status", "write one of these", "/status", "\"Active\""),
                there(PackRule.STATUS_KNOWN, DESMO, "is not a status", "write one of these", "/status", "\"\""),
                there(PackRule.VERSION_FORM, SCREW, "is not a version", "correct it", "/addedIn", "\"0.2\""),
                there(PackRule.VERSION_FORM, BUCKET, "is not a version", "correct it", "/addedIn", "\"0.2.0-beta\""),
                there(PackRule.VERSION_FORM, DESMO, "is not a version", "correct it", "/addedIn", "\"next\""));
    }

    private static Spoilt itself(String id) {
        return spoilt(
                PackRule.REPLACED_ACTIVE,
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
                PackRule.DEPRECATED_LATER,
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
                PackRule.REPLACED_KNOWN,
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
                spoilt(PackRule.EXAMPLES_ENOUGH, SCREW, "/examples", few + "0", "by hand", "/examples", NONE),
                spoilt(
                        PackRule.EXAMPLES_ENOUGH,
                        SCREW,
                        "/examples",
                        few + "1",
                        "by hand",
                        "/examples/2",
                        NONE,
                        "/examples/1",
                        NONE),
                spoilt(PackRule.EXAMPLES_ENOUGH, BUCKET, "/examples", few + "0", "by hand", "/examples", "[]"),
                spoilt(
                        PackRule.EXAMPLE_OUTSIDE,
                        SCREW,
                        "/examples",
                        within,
                        "tight, loose or undecided",
                        "/examples",
                        twice(SCREW)),
                spoilt(
                        PackRule.EXAMPLE_OUTSIDE,
                        BUCKET,
                        "/examples",
                        within,
                        "tight, loose or undecided",
                        "/examples",
                        twice(BUCKET)),
                spoilt(
                        PackRule.EXAMPLE_OUTSIDE,
                        DESMO,
                        "/examples",
                        within,
                        "tight, loose or undecided",
                        "/examples",
                        twice(DESMO)),
                there(
                        PackRule.EXAMPLE_HOLDS,
                        SCREW,
                        other + "(0.08, 0.09) mm",
                        again,
                        "/examples/0/bracket",
                        "\"(0.08, 0.1) mm\""),
                there(PackRule.EXAMPLE_HOLDS, SCREW, other + "tight", again, "/examples/1/verdict", "\"loose\""),
                there(
                        PackRule.EXAMPLE_HOLDS,
                        SCREW,
                        other + "0.12 mm",
                        again,
                        "/examples/1/adjustment/leaf",
                        "\"0.11 mm\""),
                there(
                        PackRule.EXAMPLE_HOLDS,
                        SCREW,
                        other + "28.8..36 deg",
                        again,
                        "/examples/1/adjustment/turn",
                        "\"75 deg\""),
                there(
                        PackRule.EXAMPLE_HOLDS,
                        BUCKET,
                        other + "leave",
                        again,
                        "/examples/0/adjustment/kind",
                        "\"fit-shim\""),
                there(
                        PackRule.EXAMPLE_HOLDS,
                        BUCKET,
                        other + "2.30 mm",
                        again,
                        "/examples/1/adjustment/shim",
                        "\"2.35 mm\""),
                spoilt(
                        PackRule.EXAMPLE_HOLDS,
                        BUCKET,
                        "/examples/2/verdict",
                        other + "within",
                        again,
                        "/clearances/ex",
                        "\"0.22..0.30 mm\""),
                spoilt(
                        PackRule.EXAMPLE_HOLDS,
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
        return Stream.of(
                        fields(),
                        windows(),
                        trains(),
                        layouts(),
                        conditions(),
                        intervals(),
                        wear(),
                        sources(),
                        lifeCycles(),
                        examples())
                .flatMap(List::stream);
    }

    @ParameterizedTest
    @MethodSource("spoilt")
    void everySpoiltTemplateIsFound(Spoilt spoilt) throws IOException {
        Path file = PackFiles.write(folder, spoilt.json());

        List<PackFinding> findings = PackCheck.of(folder);

        assertThat(findings).as("%s", spoilt).anySatisfy(finding -> {
            assertThat(finding.rule()).isEqualTo(spoilt.rule());
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

    /** Nothing hangs on the revision: what was told of a template is told also where that cannot be read. */
    @ParameterizedTest
    @MethodSource("spoilt")
    void anUnreadableFieldHidesNoRuleOfAnother(Spoilt spoilt) {
        if (!spoilt.json().contains("\"revision\":") || spoilt.pointer().equals("/revision")) {
            return;
        }
        List<String> before = keys(spoilt.id(), spoilt.json());

        List<String> after = keys(spoilt.id(), Trees.with(spoilt.json(), "/revision", "null"));

        assertThat(after).contains("value-form /revision");
        assertThat(after.stream().filter(key -> !key.equals("value-form /revision")))
                .containsExactlyInAnyOrderElementsOf(before);
    }

    /** What hangs on a part that cannot be read is not told: nothing that was not there before. */
    @ParameterizedTest
    @MethodSource("spoilt")
    void anUnreadableFieldMakesNoOtherFinding(Spoilt spoilt) {
        Set<String> before = Set.copyOf(keys(spoilt.id(), spoilt.json()));
        for (String broken : List.of(
                "/checkInterval",
                "/wearPrior",
                "/wearPrior/per",
                "/notes",
                "/train",
                "/train/kind",
                "/cylinders",
                "/valves",
                "/clearances",
                "/clearances/in",
                "/clearances/ex",
                "/condition",
                "/status",
                "/addedIn",
                "/id",
                "/sources",
                "/provenance",
                "/examples/0",
                "/examples/1/trials",
                "/examples")) {
            if (Trees.tree(spoilt.json()).at(broken).isMissingNode()) {
                continue;
            }
            assertThat(keys(spoilt.id(), Trees.with(spoilt.json(), broken, "null")))
                    .as(broken)
                    .allSatisfy(key -> assertThat(before.contains(key) || key.contains(" " + broken))
                            .as(key)
                            .isTrue());
        }
    }

    private static List<String> keys(String id, String json) {
        return PackCheck.of(id + ".json", json).stream()
                .filter(finding -> finding.rule() != PackRule.CANONICAL_FORM)
                .map(finding -> finding.rule() + " " + finding.pointer())
                .toList();
    }

    /** A figure that cannot be read hides none of the others; what hangs on it waits until it can be. */
    @Test
    void rulesAreHeldToWhatCanBeRead() {
        String json = PackFiles.template(SCREW);
        for (Map.Entry<String, String> change : Map.of(
                        "/train/pitch", "\"0.5\"",
                        "/clearances/in", "\"0.18..0.23 mm\"",
                        "/clearances/ex", "\"0.08..0.13 mm\"",
                        "/checkInterval", "\"50 km\"",
                        "/condition/maxTemperature", "\"35 X\"",
                        "/sources/wear/reliability", "\"good\"")
                .entrySet()) {
            json = Trees.with(json, change.getKey(), change.getValue());
        }

        assertThat(keys(SCREW, json))
                .containsExactlyInAnyOrder(
                        "value-form /train/pitch",
                        "value-form /condition/maxTemperature",
                        "exhaust-tighter /clearances/ex",
                        "source-reliability /sources/wear",
                        // whether the screw is turned right waits for the pitch
                        "example-holds /examples/0/verdict");
    }

    /** What does not fit together is told as well, where all that it is made of could be read. */
    @Test
    void theRestIsHeldTogether() {
        String json = Trees.with(PackFiles.template(SCREW), "/decompressor/valve", "\"1-ex-2\"");

        assertThat(keys(SCREW, Trees.with(json, "/checkInterval", "\"often\"")))
                .containsExactlyInAnyOrder("value-form /checkInterval", "value-form /decompressor/valve");
        assertThat(keys(SCREW, Trees.with(json, "/valves/1", "\"1-ex-two\"")))
                .as("which valves there are is not known")
                .containsExactly("valve-of-engine /valves/1");
    }

    /** A template that cannot be read is there all the same: others may name it, and its id is taken. */
    @Test
    void othersSeeATemplateThatCannotBeRead() throws IOException {
        PackFiles.write(folder, Trees.with(PackFiles.renamed(MOWER, "yard-mower"), "/checkInterval", "25"));
        Files.writeString(folder.resolve("yard-pump.json"), "{");
        String old = Trees.with(PackFiles.template(SCREW), "/status", "\"deprecated\"");
        PackFiles.write(
                folder, Trees.with(Trees.with(old, "/deprecatedIn", "\"9.0.0\""), "/replacedBy", "\"yard-mower\""));
        String bucket = Trees.with(PackFiles.template(BUCKET), "/status", "\"deprecated\"");
        PackFiles.write(
                folder, Trees.with(Trees.with(bucket, "/deprecatedIn", "\"9.0.0\""), "/replacedBy", "\"yard-pump\""));
        Files.writeString(folder.resolve("z.json"), PackFiles.renamed(CITED, "yard-mower"));

        assertThat(PackCheck.of(folder))
                .filteredOn(finding -> finding.rule() != PackRule.CANONICAL_FORM)
                .extracting(finding -> finding.file() + " " + finding.rule() + " " + finding.pointer())
                .containsExactlyInAnyOrder(
                        "yard-mower.json value-form /checkInterval",
                        "yard-pump.json json-text ",
                        "z.json id-file /id",
                        "z.json id-once /id");
    }

    /** Of two files with one id the one that is not named after it is the copy, whichever comes first. */
    @Test
    void theFileWithAnotherNameHasTheIdOfTheOther() throws IOException {
        PackFiles.write(folder, PackFiles.template(SCREW));
        Files.writeString(folder.resolve("a.json"), PackFiles.template(SCREW));

        assertThat(PackCheck.of(folder))
                .filteredOn(finding -> finding.rule() == PackRule.ID_ONCE)
                .singleElement()
                .satisfies(finding -> {
                    assertThat(finding.file()).isEqualTo("a.json");
                    assertThat(finding.problem()).isEqualTo("is taken already, in screw-single.json");
                });
    }

    /** What a maintainer mends file by file stands together, the index last. */
    @Test
    void findingsStandFileByFile() throws IOException {
        for (String id : List.of(SCREW, MOWER, BUCKET)) {
            PackFiles.write(folder, Trees.with(PackFiles.template(id), "/revision", id.equals(MOWER) ? "0" : "77"));
        }
        for (String id : List.of(SCREW, MOWER)) {
            String json = Files.readString(folder.resolve(id + ".json"));
            PackFiles.write(folder, Trees.with(json, "/wearPrior/basis", "\"measured\""));
        }
        Files.writeString(folder.resolve("pack.json"), "{ \"version\": \"1.0.0\", \"templates\": [] }");

        assertThat(PackCheck.of(folder))
                .extracting(finding -> finding.file() + " " + finding.rule())
                .containsExactly(
                        "mower-ohv-single.json value-form",
                        "mower-ohv-single.json wear-assumed",
                        "screw-single.json wear-assumed",
                        "pack.json index-current",
                        "pack.json index-current");
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
                        .startsWith("z.json, line 3, at /id, rule id-once: \"" + id + "\" is taken already, in " + id
                                + ".json; ")
                        .endsWith("choose another id"))
                .anySatisfy(f -> assertThat(f.toString())
                        .startsWith("z.json, line 3, at /id, rule id-file: ")
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
                        .startsWith("zz.json, line 4, at /title, rule name-alone: \"Another title\" differs from " + id
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

    /** The line has quotation marks of its own. */
    @Test
    void aLineInAnotherFormIsShownAsItStands() {
        String json = PackFiles.template(SCREW).replace("[\"motorcycle\"]", "[ \"motorcycle\" ]");

        assertThat(PackCheck.of(SCREW + ".json", json))
                .singleElement()
                .satisfies(
                        finding -> assertThat(finding.toString())
                                .startsWith(
                                        "screw-single.json, line 10, at the top, rule canonical-form: is not written in the"
                                                + " canonical form, from this line on: \"uses\": [ \"motorcycle\" ]; expected \"uses\": [\"moto"));
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
                            .startsWith(
                                    "pack.json, line 1, at /templates, rule index-current: \"screw-single.json\" is not in the index")
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
