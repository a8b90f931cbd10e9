package dev.lash.examples;

import dev.lash.check.CheckSheet;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.ReadingRule;
import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.Temperature;
import dev.lash.measure.Usage;
import dev.lash.specs.SpecPack;
import dev.lash.specs.Template;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * The questions before a walk: engine, leaves and what else stands at the head of a sheet. What the command line gives is not
 * asked; a mistake there ends the program, a mistake in an answer is explained and asked again.
 */
final class WalkSetup {
    private static final int LONGEST_TEXT = 200;

    private final Talk talk;
    private final SpecPack pack;
    private final LocalDate today;
    private final Given given;

    /**
     * What the command line gives; {@code null} is asked, blank is "not recorded".
     *
     * @param from another sheet, whose engine, gauges, rule, shim box and history are taken over
     */
    record Given(
            @Nullable CheckSheet from,
            @Nullable String template,
            @Nullable String unit,
            @Nullable String leaves,
            @Nullable String stack,
            @Nullable String rule,
            @Nullable String tolerance,
            @Nullable String dragAllowance,
            @Nullable String intake,
            @Nullable String exhaust,
            @Nullable String confirmedFrom,
            @Nullable String machine,
            @Nullable String date,
            @Nullable String usage,
            @Nullable String temperature) {}

    /** The input ended before all was known. */
    static final class Ended extends Exception {
        private static final long serialVersionUID = 1L;
    }

    WalkSetup(Talk talk, SpecPack pack, LocalDate today, Given given) {
        this.talk = talk;
        this.pack = pack;
        this.today = today;
        this.given = given;
    }

    /**
     * Asks what is not given.
     *
     * @return a sheet without readings
     * @throws Ended if the input ends too soon
     * @throws RejectedValueException if the command line gives what cannot be used
     */
    CheckSheet sheet() throws Ended {
        CheckSheet from = given.from;
        EngineSpec typical = from == null ? template() : measurable(from.engine());
        GaugeSet gauges = gauges(from);
        ReadingRule rule = rule(from, gauges);
        if (rule instanceof ReadingRule.Guarded) {
            gauges = guarded(from, gauges);
            rule = gauges.guardedRule();
        }
        EngineSpec engine = windows(typical, gauges.unit());
        CheckSheet.Builder sheet = CheckSheet.builder(engine, gauges).rule(rule);
        if (from != null) {
            sheet.shimBox(from.shimBox()).history(from.history());
        }
        String known = from == null ? "" : from.machine();
        sheet.machine(ask(given.machine, "Which machine" + orEnter(known) + "?", WalkSetup::shortText)
                .orElse(known));
        sheet.date(
                ask(given.date, "Date (Enter: " + today + ")?", WalkSetup::date).orElse(today));
        ask(given.usage, "What does the counter show, such as 18450 km or 120 h (Enter: not recorded)?", Usage::parse)
                .ifPresent(sheet::usage);
        ask(
                        given.temperature,
                        "How warm is the engine, such as 19 C" + condition(engine) + " (Enter: not recorded)?",
                        Temperature::parse)
                .ifPresent(sheet::engineTemperature);
        return sheet.build();
    }

    private static String orEnter(String known) {
        return known.isEmpty() ? " (free text; Enter: not recorded)" : " (Enter: " + known + ")";
    }

    private static String condition(EngineSpec engine) {
        return engine.warmest().map(t -> "; the maker wants at most " + t).orElse("")
                + engine.coldest().map(t -> "; the maker wants at least " + t).orElse("");
    }

    // ---- engine ---------------------------------------------------------------------------------------------------

    private EngineSpec template() throws Ended {
        List<String> offered = List.of();
        if (given.template == null) {
            List<EngineSpec> engines =
                    pack.search(t -> true).stream().map(Template::spec).toList();
            offered = engines.stream()
                    .filter(WalkSetup::hasClearance)
                    .map(EngineSpec::id)
                    .toList();
            talk.say("Which engine is most like it? The figures are typical ones; the windows are asked next.");
            int number = 1;
            for (EngineSpec engine : engines) {
                if (hasClearance(engine)) {
                    String fixed = engine.train() instanceof ValveTrain.Fixed
                            ? " (to be measured only: what is out of its window is machine work)"
                            : "";
                    talk.say("  ", number + "  " + engine.id() + ": " + engine.title() + fixed);
                    number++;
                }
            }
            String without = engines.stream()
                    .filter(engine -> !hasClearance(engine))
                    .map(EngineSpec::id)
                    .collect(Collectors.joining(", "));
            if (!without.isEmpty()) {
                talk.say("Hydraulic lifters have no clearance to measure, so these cannot be walked: " + without + ".");
            }
        }
        List<String> ids = offered;
        return need(
                given.template,
                "Number or name?",
                text -> measurable(pack.get(
                                text.matches("[1-9][0-9]?") && Integer.parseInt(text) <= ids.size()
                                        ? ids.get(Integer.parseInt(text) - 1)
                                        : text)
                        .spec()));
    }

    private static boolean hasClearance(EngineSpec engine) {
        return !(engine.train() instanceof ValveTrain.Hydraulic);
    }

    /** The engine, which must have a clearance. */
    private static EngineSpec measurable(EngineSpec engine) {
        if (!hasClearance(engine)) {
            throw new RejectedValueException(
                    "engine",
                    engine.title(),
                    "has hydraulic lifters and no clearance to measure",
                    "an engine with clearances",
                    "check the engine's valve train in the manual");
        }
        return engine;
    }

    /** The windows of the manual in place of typical ones, and where they stand. */
    private EngineSpec windows(EngineSpec typical, LengthUnit unit) throws Ended {
        EngineSpec.Builder engine = typical.toBuilder();
        boolean allConfirmed = true;
        List<ValveRole> changed = new ArrayList<>();
        for (ValveRole role : ValveRole.values()) {
            Optional<ClearanceSpec> known = typical.findClearance(role);
            String text = role == ValveRole.INTAKE ? given.intake : given.exhaust;
            boolean used = typical.valves().stream().anyMatch(v -> v.role() == role);
            if (known.isEmpty() || !used) {
                continue;
            }
            ClearanceSpec clearance = known.get();
            if (clearance.isConfirmed() && text == null) {
                continue;
            }
            String shown = clearance.check().toString(unit);
            Optional<ClearanceWindow> window = ask(
                    text,
                    capital(role.word()) + " window in the manual (Enter keeps the "
                            + (clearance.isConfirmed() ? "" : "typical ") + shown + ")?",
                    new ManualWindow(clearance.check(), unit, given.confirmedFrom != null)::read);
            if (window.isPresent()) {
                changed.add(role);
                engine.clearance(role, new ClearanceSpec(window.get(), window.get(), ""));
            }
            allConfirmed &= clearance.isConfirmed() && window.isEmpty();
        }
        if (allConfirmed && given.confirmedFrom == null) {
            return typical;
        }
        String place = ask(
                        given.confirmedFrom,
                        "Where did the shop read the windows, manual and page (Enter: not confirmed)?",
                        WalkSetup::shortText)
                .orElse("");
        EngineSpec asked = engine.build();
        for (ValveRole role : ValveRole.values()) {
            asked.findClearance(role)
                    .filter(c -> !c.isConfirmed() || changed.contains(role))
                    .ifPresent(c -> engine.clearance(role, new ClearanceSpec(c.check(), c.setTo(), place)));
        }
        return engine.build();
    }

    /** Takes a window far from the typical one only when it is entered twice, or where it is said where it stands. */
    private static final class ManualWindow {
        private final ClearanceWindow typical;
        private final LengthUnit unit;
        private final boolean confirmed;
        private @Nullable ClearanceWindow before;

        ManualWindow(ClearanceWindow typical, LengthUnit unit, boolean confirmed) {
            this.typical = typical;
            this.unit = unit;
            this.confirmed = confirmed;
        }

        ClearanceWindow read(String text) {
            ClearanceWindow window = ClearanceWindow.parse(WalkWords.withUnit(text, unit));
            if (!confirmed && window.isUnlike(typical) && !window.equals(before)) {
                before = window;
                throw new RejectedValueException(
                        "window",
                        text,
                        "is five times or more off the typical one",
                        "a window of the size of " + typical.toString(unit),
                        "check the decimal and the unit; if the manual does give it, enter it once more");
            }
            return window;
        }
    }

    private static String capital(String word) {
        return Character.toUpperCase(word.charAt(0)) + word.substring(1);
    }

    // ---- gauges and rule ------------------------------------------------------------------------------------------

    private GaugeSet gauges(@Nullable CheckSheet from) throws Ended {
        GaugeSet set = from != null && given.leaves == null ? from.gauges() : leaves(from);
        GaugeSet stacked = given.stack == null && from != null
                ? set
                : ask(given.stack, "How many may be laid together, 1 to 3 (Enter: 1)?", t -> stacked(set, t))
                        .orElse(set);
        return withFigures(stacked);
    }

    private GaugeSet leaves(@Nullable CheckSheet from) throws Ended {
        LengthUnit unit = given.unit == null && given.leaves != null && WalkWords.namesUnits(given.leaves)
                ? WalkWords.unitOf(given.leaves)
                : need(given.unit, "Are the leaves marked in mm or in inches (mm or in)?", WalkSetup::unit);
        GaugeSet set = need(
                given.leaves,
                "Your leaves in " + unit.symbol() + ", with spaces between, such as "
                        + (unit.isInch() ? "0.003 0.004 0.005" : "0.05 0.10 0.15") + "; or a set: "
                        + WalkWords.setNames() + "?",
                text -> WalkWords.set(text, unit));
        return from == null
                ? set
                : set.withStacksOf(from.gauges().mostStacked())
                        .withTolerance(from.gauges().tolerance(), from.gauges().dragAllowance());
    }

    /** The set with the figures for the guarded rule that the command line gives. */
    private GaugeSet withFigures(GaugeSet set) {
        LengthUnit unit = set.unit();
        Length tolerance = given.tolerance == null || given.tolerance.isBlank()
                ? set.tolerance()
                : Length.parse(given.tolerance, unit);
        Length allowance = given.dragAllowance == null || given.dragAllowance.isBlank()
                ? set.dragAllowance()
                : Length.parse(given.dragAllowance, unit);
        return set.withTolerance(tolerance, allowance);
    }

    private static GaugeSet stacked(GaugeSet set, String text) {
        if (!text.matches("[0-9]{1,3}")) {
            throw new RejectedValueException("stack", text, "is not a whole number", "1 to 3", "write 1, 2 or 3");
        }
        return set.withStacksOf(Integer.parseInt(text));
    }

    private static LengthUnit unit(String text) {
        return LengthUnit.find(text)
                .filter(u -> u == LengthUnit.MILLIMETRE || u == LengthUnit.INCH)
                .orElseThrow(() -> new RejectedValueException(
                        "unit", text, "is not a unit of leaves", "mm or in", "write one of these"));
    }

    private ReadingRule rule(@Nullable CheckSheet from, GaugeSet gauges) throws Ended {
        if (from != null && given.rule == null) {
            return from.rule();
        }
        return ask(
                        given.rule,
                        "Rule: simple takes a leaf for its mark, guarded counts its tolerance (Enter: simple)?",
                        text -> switch (text) {
                            case "simple" -> ReadingRule.simple();
                            case "guarded" -> gauges.guardedRule();
                            default ->
                                throw new RejectedValueException(
                                        "rule", text, "is not a rule", "simple or guarded", "write one of these");
                        })
                .orElse(ReadingRule.simple());
    }

    private GaugeSet guarded(@Nullable CheckSheet from, GaugeSet gauges) throws Ended {
        LengthUnit unit = gauges.unit();
        GaugeSet set = gauges;
        if (from == null && given.tolerance == null) {
            GaugeSet before = set;
            set = ask(
                            null,
                            "Tolerance of a leaf, either way, in " + unit.symbol() + " (Enter: 0)?",
                            text -> before.withTolerance(Length.parse(text, unit), before.dragAllowance()))
                    .orElse(before);
        }
        if (from == null && given.dragAllowance == null) {
            GaugeSet before = set;
            set = ask(
                            null,
                            "How far may a drag be off, either way, in " + unit.symbol() + " (Enter: 0)?",
                            text -> before.withTolerance(before.tolerance(), Length.parse(text, unit)))
                    .orElse(before);
        }
        return set;
    }

    // ---- asking ---------------------------------------------------------------------------------------------------

    static String shortText(String text) {
        if (text.length() > LONGEST_TEXT || text.chars().anyMatch(Character::isISOControl)) {
            throw new RejectedValueException(
                    "text", text, "is too long or holds control characters", "at most 200 letters", "write less");
        }
        return text;
    }

    private static LocalDate date(String text) {
        try {
            return LocalDate.parse(text);
        } catch (DateTimeException noDate) {
            throw new RejectedValueException(
                    "date", text, "is not a date", "a date such as 2031-04-02", "write year, month and day");
        }
    }

    /** An answer that may be blank: then it is empty. */
    private <T> Optional<T> ask(@Nullable String giventext, String prompt, Function<String, T> read) throws Ended {
        if (giventext != null) {
            return giventext.isBlank() ? Optional.empty() : Optional.of(read.apply(giventext.strip()));
        }
        return answer(talk, prompt, read);
    }

    /** An answer that may be blank: then it is empty. What cannot be used is explained and asked again. */
    static <T> Optional<T> answer(Talk talk, String prompt, Function<String, T> read) throws Ended {
        while (true) {
            String text = talk.line(prompt).orElseThrow(Ended::new);
            if (text.isEmpty()) {
                return Optional.empty();
            }
            try {
                return Optional.of(read.apply(text));
            } catch (RejectedValueException rejected) {
                talk.say("Not usable: " + rejected.getMessage());
            }
        }
    }

    /** An answer that must be there. */
    private <T> T need(@Nullable String giventext, String prompt, Function<String, T> read) throws Ended {
        if (giventext != null) {
            return read.apply(giventext.strip());
        }
        return neededAnswer(talk, prompt, read);
    }

    /** An answer that must be there. */
    static <T> T neededAnswer(Talk talk, String prompt, Function<String, T> read) throws Ended {
        while (true) {
            Optional<T> answer = answer(talk, prompt, read);
            if (answer.isPresent()) {
                return answer.get();
            }
            talk.say("This is needed.");
        }
    }
}
