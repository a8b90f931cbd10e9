package dev.lash.specs;

import dev.lash.measure.RejectedValueException;
import java.util.Arrays;
import java.util.stream.Collectors;

/**
 * A rule that the templates of a pack are held to. A {@link PackFinding} names the rule that it breaks. What a rule is called stays as
 * it is from version to version, so that a script, or a person who looks one up, can rely on it.
 */
public enum PackRule {
    // the files of a folder

    /** What kind of file a template is. */
    PLAIN_FILE(
            "plain-file", "a template is a plain file of at most 1 MiB in the folder itself; its name ends in .json"),
    /** The text of a file. */
    JSON_TEXT("json-text", "a file holds one JSON document in UTF-8, with each key once"),
    /** A field that nobody knows. */
    FIELD_KNOWN("field-known", "each field is one of those that the schema names"),
    /** A field that is missing. */
    FIELD_THERE("field-there", "the fields that every template must have are there"),
    /** A value of another kind or form. */
    VALUE_FORM("value-form", "each value is of its kind, form and range"),
    /** The form of the whole file. */
    CANONICAL_FORM("canonical-form", "a file is in the canonical form, which the program writes"),
    /** The index and the files. */
    INDEX_CURRENT("index-current", "an index has each template, with its file, revision and checksum as they are now"),
    /** An entry of the index without a file. */
    INDEX_FILE("index-file", "each template of an index is in the folder"),
    /** Two templates of one id. */
    ID_ONCE("id-once", "no two templates have one id"),
    /** The name of a file. */
    ID_FILE("id-file", "a file is named after the id of its template"),
    /** Two templates of one engine. */
    NAME_ALONE("name-alone", "no two templates differ by id and title alone"),

    // windows

    /** A window that cannot be one. */
    WINDOW_FORM("window-form", "a window is two lengths with their unit, the lesser first, from 0 to 5 mm"),
    /** A window unlike any that makers give. */
    WINDOW_USUAL("window-usual", "a window is of a usual size: inches or hundredths were not taken for millimetres"),
    /** A window from zero. */
    WINDOW_ABOVE_ZERO("window-above-zero", "only the closer of a desmodromic valve may have no clearance"),
    /** The ends of one window. */
    WINDOW_ENDS("window-ends", "the ends of a window are not far apart: a decimal did not slip in one of them"),
    /** The windows of the two roles. */
    WINDOWS_ALIKE(
            "windows-alike",
            "the windows of intake and exhaust are of one size: a decimal did not slip in one of them"),
    /** An exhaust window below that of the intake. */
    EXHAUST_TIGHTER(
            "exhaust-tighter", "an exhaust window is not tighter than that of the intake, but where a note says why"),
    /** A window to set to. */
    SETTING_INSIDE("setting-inside", "a window to set to lies inside the one to check against"),

    // train

    /** The pitch of an adjuster. */
    PITCH_STANDARD("pitch-standard", "the pitch of an adjuster is that of a standard fine thread"),
    /** The ratio of a rocker. */
    RATIO_USUAL("ratio-usual", "the ratio of a rocker lies between 1/2 and 5/2"),
    /** Sizes that cannot be a range. */
    SHIM_STEP("shim-step", "sizes are given from the thinnest to the thickest, with a step that divides the range"),
    /** Sizes unlike any of a kit. */
    SHIM_USUAL("shim-usual", "shims, buckets and lash caps are 0.8 to 8 mm thick"),

    // layout

    /** A valve that is none of the engine. */
    VALVE_OF_ENGINE("valve-of-engine", "each valve is named once, and on a cylinder that the engine has"),
    /** Valves left out. */
    VALVES_NUMBERED("valves-numbered", "each cylinder has valves of both roles, numbered from 1 on"),
    /** The firing order. */
    FIRING_ORDER("firing-order", "a firing order names each cylinder once"),
    /** The intervals between firings. */
    FIRING_INTERVALS(
            "firing-intervals",
            "firing intervals are as many as cylinders, each above 0, and sum to 720 crank degrees"),
    /** Two firings at nearly one time. */
    FIRINGS_APART("firings-apart", "two firings are 30 crank degrees apart or more"),
    /** Cam timing. */
    LIFT_USUAL("lift-usual", "cam timing lifts a valve for 200 to 340 crank degrees"),

    // use

    /** No check interval. */
    INTERVAL_THERE("interval-there", "a train with a clearance has a check interval"),
    /** A check interval unlike those of the train. */
    INTERVAL_USUAL("interval-usual", "a check interval is usual for its kind of train"),
    /** No condition. */
    CONDITION_THERE("condition-there", "windows say whether they are for a cold or a hot engine"),
    /** A condition that no engine can be in. */
    TEMPERATURE_USUAL(
            "temperature-usual",
            "a cold engine is at most 60 degrees Celsius, any engine that is measured at most 150"),
    /** No wear prior. */
    WEAR_THERE("wear-there", "a train with a clearance has a wear prior"),
    /** What a wear prior counts. */
    WEAR_COUNTS("wear-counts", "a wear prior counts what the check interval counts: distance or running hours"),
    /** What a wear prior says of itself. */
    WEAR_ASSUMED("wear-assumed", "a wear prior says that it is an assumption"),
    /** A wear prior that claims to know. */
    WEAR_BROAD(
            "wear-broad",
            "a wear prior is broad: its drift deviates by no less than the drift itself, and from one check to the next by 0.003 mm or more"),

    // sources

    /** A figure without a source. */
    FIGURE_SOURCE("figure-source", "each figure, and nothing else, names one of the template's sources"),
    /** What is known of a publication. */
    SOURCE_PLACE("source-place", "a published source has title, year and the place in it"),
    /** How far a source can be trusted. */
    SOURCE_RELIABILITY("source-reliability", "a source says how far it can be trusted, low, fair or high, and why"),
    /** A source that nothing needs. */
    SOURCE_USED("source-used", "each source is that of a figure"),
    /** Figures that look as if they were read in the manual. */
    TYPICAL_SAID("typical-said", "where a figure is not published, a note says that the figures are typical"),

    // life

    /** The status. */
    STATUS_KNOWN("status-known", "a status is active, deprecated or withdrawn"),
    /** A version. */
    VERSION_FORM("version-form", "a version has three numbers, such as 0.2.0"),
    /** What an active template must not have. */
    ACTIVE_WHOLE("active-whole", "an active template is neither deprecated in a version nor replaced"),
    /** Since when a template is not to be used. */
    DEPRECATED_SINCE("deprecated-since", "a template that is not active says which version advised against it"),
    /** The order of versions. */
    DEPRECATED_LATER("deprecated-later", "a template is deprecated in a later version than the one that added it"),
    /** What to take instead. */
    REPLACED_KNOWN("replaced-known", "a template is replaced by one that is in the pack"),
    /** What to take instead that is gone too. */
    REPLACED_ACTIVE("replaced-active", "a template is replaced by another one that is active"),

    // worked examples

    /** How many. */
    EXAMPLES_ENOUGH("examples-enough", "a train with a clearance has two worked examples or more"),
    /** Not only what needs no work. */
    EXAMPLE_OUTSIDE("example-outside", "one of the worked examples does not come out within"),
    /** What comes of the trials. */
    EXAMPLE_HOLDS("example-holds", "each worked example comes out as it says"),

    // one version of the pack beside the one before

    /** A template that was deleted. */
    NEVER_DELETED("never-deleted", "every template of the old pack is in the new one"),
    /** When a template came. */
    ADDED_TRUE("added-true", "a template that came names the version of the pack that brings it"),
    /** A version that was written anew. */
    HISTORY_FIXED("history-fixed", "the versions that added and deprecated a template stay as they were"),
    /** When a template was deprecated. */
    DEPRECATED_TRUE(
            "deprecated-true", "a template was deprecated in a version that there is, and in which it was not active"),
    /** The steps of a life. */
    STATUS_STEPS("status-steps", "a template is deprecated before it is withdrawn, and what is withdrawn stays so"),
    /** The count of changes. */
    REVISION_RAISED("revision-raised", "a revision is raised where more than words changed, and never lowered"),
    /** What an id means. */
    SAME_ENGINE("same-engine", "an id means the same engine in every version");

    private final String id;
    private final String expectation;

    PackRule(String id, String expectation) {
        this.id = id;
        this.expectation = expectation;
    }

    /** {@return the name of the rule in messages and for scripts, such as {@code "exhaust-tighter"}} */
    public String id() {
        return id;
    }

    /** {@return what must hold, in one sentence without a full stop} */
    public String expectation() {
        return expectation;
    }

    /**
     * The rule of an id.
     *
     * @param id what {@link #id()} says
     * @return the rule
     * @throws RejectedValueException if there is no such rule
     */
    public static PackRule parse(String id) {
        return Arrays.stream(values())
                .filter(rule -> rule.id.equals(id))
                .findFirst()
                .orElseThrow(() -> new RejectedValueException(
                        "rule",
                        id,
                        "is no rule of the pack",
                        Arrays.stream(values()).map(PackRule::id).collect(Collectors.joining(", ")),
                        "write one of these"));
    }

    /** The rule that a document breaks which cannot be read: what is wrong with it, or else the place where it stands. */
    static PackRule of(DocumentException broken) {
        return switch (broken.fault()) {
            case TEXT -> JSON_TEXT;
            case UNKNOWN_FIELD -> FIELD_KNOWN;
            case MISSING_FIELD -> FIELD_THERE;
            case VALUE -> at(broken.pointer());
        };
    }

    private static PackRule at(String pointer) {
        String[] steps = pointer.split("/", -1);
        boolean inside = steps.length > 2;
        return switch (steps.length > 1 ? steps[1] : "") {
            case "clearances", "closerClearances" -> inside ? WINDOW_FORM : VALUE_FORM;
            case "setTo", "closerSetTo" -> inside ? SETTING_INSIDE : VALUE_FORM;
            case "train" -> inside && steps[2].matches("shims|openerShims|closerShims") ? SHIM_STEP : VALUE_FORM;
            case "valves" -> VALVE_OF_ENGINE;
            case "firingOrder" -> FIRING_ORDER;
            case "firingIntervals" -> FIRING_INTERVALS;
            case "sources" -> steps.length == 3 ? SOURCE_PLACE : VALUE_FORM;
            case "provenance" -> FIGURE_SOURCE;
            case "status" -> STATUS_KNOWN;
            case "addedIn", "deprecatedIn" -> VERSION_FORM;
            default -> VALUE_FORM;
        };
    }

    /** {@return the id} */
    @Override
    public String toString() {
        return id;
    }
}
