package dev.lash.specs;

import static java.util.Objects.requireNonNull;

import dev.lash.adjust.Adjustment;
import dev.lash.adjust.InstalledShim;
import dev.lash.check.CheckReport;
import dev.lash.check.CheckSheet;
import dev.lash.check.ValveCheck;
import dev.lash.check.ValveReading;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.gauge.Bracket;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.Trial;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * A worked example of a template: some trials, and what must come of them. By the simple rule.
 *
 * @param valve the valve
 * @param gap which of its gaps
 * @param trials the trials
 * @param loadedTrials those with the follower loaded, for a desmodromic valve
 * @param shim the shim that is in; {@code null} where there is none or it is not known
 * @param eccentricAngle where the eccentric stands, in degrees; {@code null} where there is none or it is not known
 * @param leaves the leaves that are owned besides those of the trials
 * @param bracket the clearance that the trials leave
 * @param verdict the verdict
 * @param adjustment the kind of adjustment under {@code kind}, and any of its other fields as a report writes them; besides, {@code
 *     turn}, how far the adjuster is turned ({@code "28.8..36 deg"}, positive as the clearance grows; for an eccentric the shorter way,
 *     {@code "7.4..9.2 deg towards smaller angles"}), and {@code certainTurn}, the turns of a counted turn that are certain to end in
 *     the window
 * @param note how it was worked out, free text; empty where it does not say
 * @param pointer where it stands in its template
 */
public record TemplateExample(
        ValveId valve,
        Gap gap,
        List<Trial> trials,
        List<Trial> loadedTrials,
        @Nullable Length shim,
        @Nullable Ratio eccentricAngle,
        List<Length> leaves,
        LengthInterval bracket,
        Verdict verdict,
        Map<String, String> adjustment,
        String note,
        String pointer)
        implements Serializable {
    /**
     * Creates an example.
     *
     * @param valve the valve
     * @param gap which of its gaps
     * @param trials the trials
     * @param loadedTrials those with the follower loaded, for a desmodromic valve
     * @param shim the shim that is in; {@code null} where there is none or it is not known
     * @param eccentricAngle where the eccentric stands, in degrees; {@code null} where there is none or it is not known
     * @param leaves the leaves that are owned besides those of the trials
     * @param bracket the clearance that the trials leave
     * @param verdict the verdict
     * @param adjustment the kind of adjustment under {@code kind}, and any of its other fields as a report writes them; besides, {@code
     *     turn} and {@code certainTurn}, as above
     * @param note how it was worked out, free text; empty where it does not say
     * @param pointer where it stands in its template
     */
    public TemplateExample {
        requireNonNull(valve, "valve");
        requireNonNull(gap, "gap");
        trials = List.copyOf(trials);
        loadedTrials = List.copyOf(loadedTrials);
        leaves = List.copyOf(leaves);
        requireNonNull(bracket, "bracket");
        requireNonNull(verdict, "verdict");
        adjustment = Collections.unmodifiableMap(new LinkedHashMap<>(adjustment));
        requireNonNull(note, "note");
        requireNonNull(pointer, "pointer");
    }

    /**
     * Creates an example of a train other than an eccentric, without a note.
     *
     * @param valve the valve
     * @param gap which of its gaps
     * @param trials the trials
     * @param loadedTrials those with the follower loaded, for a desmodromic valve
     * @param shim the shim that is in; {@code null} where there is none or it is not known
     * @param leaves the leaves that are owned besides those of the trials
     * @param bracket the clearance that the trials leave
     * @param verdict the verdict
     * @param adjustment the kind of adjustment under {@code kind}, and any of its other fields as a report writes them
     * @param pointer where it stands in its template
     */
    public TemplateExample(
            ValveId valve,
            Gap gap,
            List<Trial> trials,
            List<Trial> loadedTrials,
            @Nullable Length shim,
            List<Length> leaves,
            LengthInterval bracket,
            Verdict verdict,
            Map<String, String> adjustment,
            String pointer) {
        this(valve, gap, trials, loadedTrials, shim, null, leaves, bracket, verdict, adjustment, "", pointer);
    }

    /**
     * One thing that came out otherwise.
     *
     * @param field the field of the example
     * @param expected what it says
     * @param actual what came of the trials
     */
    public record Difference(String field, String expected, String actual) implements Serializable {
        /**
         * Creates a difference.
         *
         * @param field the field of the example
         * @param expected what it says
         * @param actual what came of the trials
         */
        public Difference {
            requireNonNull(field, "field");
            requireNonNull(expected, "expected");
            requireNonNull(actual, "actual");
        }
    }

    /**
     * Runs the example.
     *
     * @param engine the engine of the template
     * @return what came out otherwise; none where all agrees
     */
    public List<Difference> run(EngineSpec engine) {
        try {
            return differences(CheckReport.of(sheet(engine)).valves().get(0));
        } catch (RejectedValueException refused) {
            return List.of(new Difference("valve", "a reading of this engine", refused.problem()));
        }
    }

    private CheckSheet sheet(EngineSpec engine) {
        ValveReading reading = ValveReading.of(valve, trials);
        if (gap == Gap.OPENER) {
            reading = reading.asOpener(loadedTrials);
        } else if (gap == Gap.CLOSER) {
            reading = reading.asCloser(loadedTrials, true);
        }
        if (shim != null) {
            reading = reading.withShim(InstalledShim.marked(shim));
        }
        if (eccentricAngle != null) {
            reading = reading.withEccentricAngle(eccentricAngle);
        }
        return CheckSheet.builder(engine, gauges()).valve(reading).build();
    }

    private GaugeSet gauges() {
        TreeSet<Length> owned = new TreeSet<>(leaves);
        Stream.concat(trials.stream(), loadedTrials.stream())
                .flatMap(t -> t.leaf().leaves().stream())
                .map(Leaf::thickness)
                .forEach(owned::add);
        return new GaugeSet(owned.stream().map(Leaf::new).toList(), 1, Length.ZERO, Length.ZERO, LengthUnit.MILLIMETRE);
    }

    private List<Difference> differences(ValveCheck check) {
        List<Difference> found = new ArrayList<>();
        String read = check.bracket()
                .map(Bracket::interval)
                .map(LengthInterval::toString)
                .orElse("none");
        compare("bracket", bracket.toString(), read, found);
        compare("verdict", verdict.word(), check.verdict().map(Verdict::word).orElse("none"), found);
        Map<String, Object> form = check.adjustment().map(this::form).orElse(Map.of());
        adjustment.forEach((name, expected) -> compare(
                "adjustment/" + name,
                expected,
                Optional.ofNullable(form.get(name)).map(Object::toString).orElse("none"),
                found));
        return found;
    }

    /** An adjustment as a report writes it, with its turns as an example states them. */
    private Map<String, Object> form(Adjustment advised) {
        Map<String, Object> form = new LinkedHashMap<>(ReportWriter.adjustmentForm(advised, gauges().unit()));
        ExampleTurn.of(advised).ifPresent(turn -> form.put(ExampleTurn.TURN, turn));
        ExampleTurn.certainOf(advised).ifPresent(turn -> form.put(ExampleTurn.CERTAIN, turn));
        return form;
    }

    private static void compare(String field, String expected, String actual, List<Difference> found) {
        if (!expected.equals(actual)
                && !isSame(expected, actual, Length::parse)
                && !isSame(expected, actual, ExampleTurn::parse)) {
            found.add(new Difference(field, expected, actual));
        }
    }

    /** Whether two texts that a method reads mean the same, such as 120 um and 0.12 mm. */
    static boolean isSame(String a, String b, Function<String, Object> parse) {
        try {
            return parse.apply(a).equals(parse.apply(b));
        } catch (RejectedValueException unreadable) {
            return false;
        }
    }
}
