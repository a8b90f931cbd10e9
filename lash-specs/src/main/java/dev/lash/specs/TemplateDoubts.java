package dev.lash.specs;

import java.util.List;
import java.util.Set;
import java.util.stream.Stream;

/**
 * What of a template could not be read, so that no rule is held to it.
 *
 * @param document the template as it was written
 * @param places pointers of values that could not be read, or that stand in for such
 * @param open pointers of objects with a field that nobody knows or that is missing: what they lack may only be misspelt
 */
record TemplateDoubts(JsonDocument document, Set<String> places, Set<String> open) {
    /** What the layout and the windows of an engine, held together, come from. */
    private static final List<String> STRUCTURE = List.of(
            "/cylinders",
            "/firingOrder",
            "/firingIntervals",
            "/valves",
            "/train/kind",
            "/clearances",
            "/setTo",
            "/closerClearances",
            "/closerSetTo",
            "/condition",
            "/camTiming",
            "/decompressor",
            "/camshafts");

    private static final String KIND = "/train/kind";

    TemplateDoubts {
        places = Set.copyOf(places);
        open = Set.copyOf(open);
    }

    /** Of a template that could be read whole. */
    static TemplateDoubts none(JsonDocument document) {
        return new TemplateDoubts(document, Set.of(), Set.of());
    }

    /** Whether there is nothing in doubt. */
    boolean isEmpty() {
        return places.isEmpty() && open.isEmpty();
    }

    /** Whether a finding may only follow from what could not be read. */
    boolean concern(PackRule rule, String pointer) {
        return !isEmpty()
                && Stream.concat(Stream.of(pointer), inputs(rule, pointer)).anyMatch(this::touch);
    }

    /** Whether what an engine is made of is in doubt, so that it cannot be said whether its parts fit together. */
    boolean concernStructure() {
        return STRUCTURE.stream().anyMatch(this::touch);
    }

    /** Whether the value at a pointer, something in it, or something that it is a part of, is in doubt. */
    boolean touch(String input) {
        return places.stream().anyMatch(place -> isWithin(place, input) || isWithin(input, place))
                || open.stream().anyMatch(object -> isLacking(object, input));
    }

    private boolean isLacking(String object, String input) {
        if (!input.startsWith(object + "/")) {
            return isWithin(object, input);
        }
        int end = input.indexOf('/', object.length() + 1);
        return document.find(end < 0 ? input : input.substring(0, end)).isEmpty();
    }

    private static boolean isWithin(String inner, String outer) {
        return inner.equals(outer) || inner.startsWith(outer + "/");
    }

    /** What a rule looks at besides the value that it finds fault with. */
    private Stream<String> inputs(PackRule rule, String pointer) {
        return switch (rule) {
            case WINDOW_USUAL, WINDOW_ABOVE_ZERO, WINDOW_ENDS, PITCH_STANDARD, RATIO_USUAL, SHIM_USUAL ->
                Stream.of(KIND);
            case WINDOWS_ALIKE -> Stream.of(KIND, "/clearances");
            case EXHAUST_TIGHTER -> Stream.of(KIND, "/clearances", "/notes");
            case VALVES_NUMBERED -> Stream.of("/cylinders", "/firingOrder");
            case FIRINGS_APART -> Stream.of("/cylinders", "/firingOrder", "/firingIntervals");
            case INTERVAL_THERE, CONDITION_THERE, WEAR_THERE, EXAMPLES_ENOUGH, EXAMPLE_OUTSIDE -> Stream.of(KIND);
            case INTERVAL_USUAL -> Stream.of("/train");
            case TEMPERATURE_USUAL -> Stream.of("/condition");
            case WEAR_COUNTS, WEAR_BROAD -> Stream.of("/train", "/checkInterval", "/wearPrior");
            case SOURCE_USED -> Stream.of("/provenance");
            case TYPICAL_SAID -> Stream.of("/sources");
            case ACTIVE_WHOLE -> Stream.of("/status", "/deprecatedIn", "/replacedBy");
            case DEPRECATED_SINCE -> Stream.of("/status");
            case DEPRECATED_LATER -> Stream.of("/addedIn");
            case REPLACED_ACTIVE -> Stream.of("/id");
            case EXAMPLE_HOLDS -> example(pointer);
            default -> Stream.empty();
        };
    }

    /** An example hangs on the windows of its own valve, and what is to be done on the figures of the train besides. */
    private Stream<String> example(String pointer) {
        String[] steps = pointer.split("/", -1);
        String example = "/" + steps[1] + "/" + steps[2];
        String valve = document.find(example + "/valve").map(Json::text).orElse("");
        Stream<String> windows = Stream.of("/clearances", "/setTo", "/closerClearances", "/closerSetTo")
                .map(gap -> gap + (valve.contains("-in-") ? "/in" : valve.contains("-ex-") ? "/ex" : ""));
        return Stream.concat(
                Stream.of(example, "/valves", "/cylinders", steps[3].equals("adjustment") ? "/train" : KIND), windows);
    }
}
