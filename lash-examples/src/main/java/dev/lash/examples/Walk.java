package dev.lash.examples;

import dev.lash.adjust.Adjuster;
import dev.lash.adjust.Adjustment;
import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.adjust.InstalledShim;
import dev.lash.adjust.ShimPlan;
import dev.lash.check.CheckReport;
import dev.lash.check.CheckSheet;
import dev.lash.check.Done;
import dev.lash.check.ExpectedReadings;
import dev.lash.check.Finding;
import dev.lash.check.FindingCode;
import dev.lash.check.ValveCheck;
import dev.lash.check.ValveReading;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.Bracket;
import dev.lash.gauge.Contradiction;
import dev.lash.gauge.Fit;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.Trial;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.RejectedValueException;
import java.io.IOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * The dialogue of a walk: valve by valve, one answer at a time, the sheet saved after each. What is asked next follows from the
 * sheet; only the way back (undo) and which valves were left are this walk's own.
 */
final class Walk {
    private static final int MOST_ROUNDS = 3;
    private static final String INDENT = "  ";
    private static final String FIT_KEYS = "g goes, d drags, f forced, r refuses, ? help >";

    /** What is looked at before any adjustment. */
    private static final Set<FindingCode> INSPECT =
            EnumSet.of(FindingCode.MAY_HAVE_NO_CLEARANCE, FindingCode.FAR_TOO_LOOSE);

    private final Talk talk;
    private final Saving store;
    private final String file;
    private final boolean colour;
    private final Deque<Moment> past = new ArrayDeque<>();
    /** By the earlier checks, which a walk does not change. */
    private final ExpectedReadings expected;

    private CheckSheet sheet;
    private Set<ValveId> left = Set.of();
    private @Nullable ValveId announced;
    private WalkStep.@Nullable Repeat told;
    private @Nullable LeafStack chosen;
    private boolean planTold;

    /** Keeps the sheet, so that it outlives the program. */
    interface Saving {
        /** Saves the sheet; returns what the mechanic should know, mostly nothing. */
        Optional<String> save(CheckSheet sheet) throws IOException;
    }

    /** What an undo brings back. */
    private record Moment(CheckSheet sheet, Set<ValveId> left) {}

    /** How the talk goes on. */
    private enum Next {
        ON,
        SAME_QUESTION,
        LEAVE
    }

    /**
     * Prepares a walk.
     *
     * @param file the name of the sheet's file, for what is said
     * @param sheet the sheet to go on from; it is saved already
     */
    Walk(Talk talk, Saving store, String file, CheckSheet sheet, boolean colour) {
        this.talk = talk;
        this.store = store;
        this.file = file.indexOf(' ') < 0 ? file : "\"" + file + "\"";
        this.sheet = sheet;
        this.expected = ExpectedReadings.of(sheet);
        this.colour = colour;
    }

    /**
     * Walks until all valves are done or the mechanic leaves.
     *
     * @return the exit code of the program
     * @throws IOException if the sheet cannot be saved
     */
    int run() throws IOException {
        before();
        while (true) {
            Optional<ValveId> valve = WalkSheet.current(sheet, left);
            Next next = valve.isPresent() ? at(valve.get()) : atEnd();
            if (next == Next.LEAVE) {
                return valve.isPresent() ? leave() : report();
            }
        }
    }

    private LengthUnit unit() {
        return sheet.gauges().unit();
    }

    // ---- before and after -----------------------------------------------------------------------------------------

    private void before() {
        CheckReport report = CheckReport.of(sheet);
        talk.say("Before a leaf goes in");
        report.cautions().forEach(caution -> paragraph("- ", caution));
        report.findings().stream()
                .filter(f -> f.place().equals("engine") || f.place().equals("gauges"))
                .filter(f -> f.code() != FindingCode.NOT_MEASURED)
                .forEach(this::finding);
        talk.say("");
        if (sheet.engine().gaps().size() > 1) {
            talk.say(
                    "Only the opener gaps are walked. A closer is read from its opener, loaded and unloaded: write those "
                            + "trials into the sheet, then see \"lash check\".");
        }
        List<ValveReading> begun = WalkSheet.walked(sheet);
        if (!begun.isEmpty()) {
            long finished = begun.stream()
                    .filter(r -> new ValveWalk(sheet, r).isFinished())
                    .count();
            talk.say("On the sheet: " + finished + " of "
                    + sheet.engine().valves().size() + " valves finished.");
        }
        talk.say("The sheet " + file + " is saved after every answer.");
    }

    private void paragraph(String mark, String text) {
        StringBuilder out = new StringBuilder();
        TextTable.paragraph(text, mark, out);
        talk.print(out.toString());
    }

    private void finding(Finding finding) {
        paragraph(INDENT, finding.severity().word().toUpperCase(Locale.ROOT) + " " + finding);
    }

    private int leave() {
        talk.say("");
        // commands are not wrapped, so that they can be copied
        talk.print(
                "Saved. To go on:\n  lash walk " + file + " --resume\nThe report so far:\n  lash check " + file + "\n");
        return Main.DONE;
    }

    private Next atEnd() throws IOException {
        announced = null;
        List<String> open = sheet.engine().valves().stream()
                .map(v -> new ValveWalk(sheet, WalkSheet.reading(sheet, v)))
                .filter(v -> !v.isFinished())
                .map(Walk::openState)
                .toList();
        talk.say("");
        if (open.isEmpty()) {
            talk.say("Every valve is finished.");
        } else {
            talk.say("Left unfinished: " + String.join(", ", open) + ".");
        }
        while (true) {
            Optional<Character> key = talk.key((open.isEmpty() ? "" : "b back to them, ")
                    + "u take back the last answer, e end with the report >");
            switch (key.orElse('e')) {
                case 'e', 'q' -> {
                    return Next.LEAVE;
                }
                case 'u' -> {
                    return undo();
                }
                case 'b' -> {
                    left = Set.of();
                    return Next.ON;
                }
                default -> noKey();
            }
        }
    }

    private static String openState(ValveWalk v) {
        String verdict = v.check().verdict().map(Verdict::word).orElse("contradicting trials");
        String state =
                v.check().reading().trials().isEmpty() ? (v.isRecheck() ? "not checked again" : "not read") : verdict;
        return v.reading().valve() + " (" + state + ")";
    }

    private int report() {
        CheckReport report = CheckReport.of(WalkSheet.inEngineOrder(sheet));
        talk.print("\n" + new TextReport(colour).write(report));
        talk.say("");
        talk.say("The sheet is in " + file + ".");
        return report.hasErrors() ? Main.FINDINGS : Main.DONE;
    }

    // ---- one question ---------------------------------------------------------------------------------------------

    private Next at(ValveId valve) throws IOException {
        ValveWalk v = new ValveWalk(sheet, WalkSheet.reading(sheet, valve), expected);
        if (!valve.equals(announced)) {
            announce(v);
            announced = valve;
        }
        Next next = Next.SAME_QUESTION;
        WalkStep step = v.step();
        String prompt = describe(v);
        while (next == Next.SAME_QUESTION) {
            if (step instanceof WalkStep.AskShim) {
                next = shim(v, prompt);
                continue;
            }
            Optional<Character> key = talk.key(prompt);
            if (key.isEmpty()) {
                return Next.LEAVE;
            }
            next = switch (key.get()) {
                case 'q' -> Next.LEAVE;
                case 'u' -> undo();
                case 's' -> skip(valve);
                case '?' -> help(step);
                default -> answer(v, key.get());
            };
        }
        return next;
    }

    private Next answer(ValveWalk v, char key) throws IOException {
        WalkStep step = v.step();
        if (step instanceof WalkStep.Repeat repeat) {
            return trial(v, repeat.leaf(), key);
        }
        if (key == 'l') {
            return another(v);
        }
        if (chosen != null) {
            return trial(v, chosen, key);
        }
        if (step instanceof WalkStep.Offer offer) {
            return trial(v, offer.leaf(), key);
        }
        if (step instanceof WalkStep.Stuck) {
            return noKey();
        }
        return done(v, ((WalkStep.AskDone) step).advice(), key);
    }

    private Next noKey() {
        talk.say(INDENT, "That is no key here; ? shows the keys.");
        return Next.SAME_QUESTION;
    }

    private void announce(ValveWalk v) {
        ValveId valve = v.reading().valve();
        ClearanceSpec clearance = v.check().clearance().orElseThrow();
        List<ValveId> all = sheet.engine().valves();
        talk.say("");
        talk.say("Valve " + (all.indexOf(valve) + 1) + " of " + all.size() + ": " + valve + ", "
                + valve.role().word() + ", window "
                + clearance.check().toString(unit())
                + (clearance.setTo().equals(clearance.check())
                        ? ""
                        : ", set to " + clearance.setTo().toString(unit())));
        talk.say(INDENT, WalkWords.where(sheet.engine(), valve));
        if (!v.trials().isEmpty()) {
            talk.say(
                    INDENT,
                    "On the sheet" + (v.isRecheck() ? ", after the adjustment: " : ": ")
                            + v.trials().stream().map(t -> t.toString(unit())).collect(Collectors.joining(", ")));
        }
    }

    /** Says how the valve stands, and gives the prompt of the question. */
    private String describe(ValveWalk v) {
        WalkStep step = v.step();
        if (step instanceof WalkStep.Repeat repeat) {
            contradiction(repeat);
            return INDENT + "Again " + repeat.leaf().toString(unit()) + ": " + FIT_KEYS;
        }
        standing(v);
        if (chosen != null) {
            return INDENT + "Offer " + chosen.toString(unit()) + ": " + FIT_KEYS;
        }
        if (step instanceof WalkStep.Offer offer) {
            whyFurther(v).ifPresent(why -> talk.say(INDENT, why + "."));
            String leaf = offer.leaf().toString(unit());
            if (offer.owned()) {
                return INDENT + "Offer " + leaf + (v.check().isLeafByForecast() ? " (by the forecast)" : "") + ": "
                        + FIT_KEYS;
            }
            talk.say(
                    INDENT,
                    "No leaf of the set settles it. Borrow " + leaf
                            + " and answer with it, or press s: the valve then stays " + "undecided ("
                            + WalkWords.or(v.check().possible()) + ").");
            return INDENT + "Offer " + leaf + ": " + FIT_KEYS;
        }
        if (step instanceof WalkStep.Stuck stuck) {
            talk.say(INDENT, stuck.why());
            return INDENT + "l another leaf, s leave it so, ? help >";
        }
        if (step instanceof WalkStep.AskShim) {
            return INDENT + "Size of the shim that is in, in mm (Enter: not known; ? help):";
        }
        return advice(v, ((WalkStep.AskDone) step).advice());
    }

    private void standing(ValveWalk v) {
        Optional<Bracket> bracket = v.check().bracket();
        if (bracket.isEmpty()) {
            return;
        }
        LengthInterval interval = bracket.get().interval();
        Verdict verdict = v.check().verdict().orElse(Verdict.UNDECIDED);
        String known = (v.isRecheck() ? "After the adjustment: " : "Known: ") + WalkWords.known(interval, unit());
        talk.say(
                INDENT,
                verdict == Verdict.UNDECIDED
                        ? known + ". It may be " + WalkWords.or(v.check().possible()) + "."
                        : known + ". " + verdict.word().toUpperCase(Locale.ROOT) + ".");
    }

    /** Why a leaf is offered though the verdict is known. */
    private static Optional<String> whyFurther(ValveWalk v) {
        return v.check()
                .adjustment()
                .filter(a ->
                        v.check().verdict().filter(d -> d != Verdict.UNDECIDED).isPresent())
                .filter(a -> a instanceof Adjustment.MeasureFurther)
                .map(a -> ((Adjustment.MeasureFurther) a).why())
                .map(why -> Character.toUpperCase(why.charAt(0)) + why.substring(1));
    }

    /** The whole of it is said before the first of the two leaves is asked again, not once more before the other. */
    private void contradiction(WalkStep.Repeat repeat) {
        Contradiction pair = repeat.pair();
        if (told != null && told.pair().equals(pair) && !told.leaf().equals(repeat.leaf())) {
            talk.say(INDENT, "Now the other of the two.");
            return;
        }
        told = repeat;
        talk.say(
                INDENT,
                "CONTRADICTION: " + pair.first().toString(unit()) + " and "
                        + pair.second().toString(unit())
                        + " cannot both be true. Both are asked again; only the new answers count. (If the last key was "
                        + "a slip: u takes it back.)");
    }

    private String advice(ValveWalk v, Adjustment advice) {
        if (liftsCamshaft() && !v.isRecheck()) {
            planned();
        }
        v.check().findings().stream()
                .filter(f -> f.code() == FindingCode.DECOMPRESSOR_HOLDS)
                .forEach(f -> talk.say(INDENT, "IN DOUBT: " + f.problem() + "; " + f.mend() + "."));
        String why = Advice.why(advice);
        if (!why.isEmpty() && v.reading().tries() < MOST_ROUNDS) {
            talk.say(INDENT, "INSPECT FIRST: " + why + ".");
        } else {
            v.check().findings().stream()
                    .filter(f -> INSPECT.contains(f.code()))
                    .forEach(f -> talk.say(INDENT, "INSPECT FIRST: " + f.problem() + "; " + f.mend() + "."));
        }
        if (v.reading().tries() < MOST_ROUNDS) {
            talk.say(
                    INDENT,
                    "What to do: "
                            + planMove(v)
                                    .map(this::byThePlan)
                                    .orElseGet(() -> Advice.words(advice, unit(), Advice.Bench.of(sheet, v.check()))));
        }
        int round = v.reading().tries();
        if (round >= MOST_ROUNDS) {
            talk.say(
                    INDENT,
                    "Adjusted " + round + " times and still not within. Look at: "
                            + WalkWords.lookAt(sheet.engine().train())
                            + ". Inspect before another try.");
            return INDENT + "n leave it so, ? help >";
        }
        if (round > 0) {
            talk.say(
                    INDENT,
                    "Another round, " + (round + 1) + " of at most " + MOST_ROUNDS + "?"
                            + (sheet.engine().train() instanceof ValveTrain.Screw
                                    ? " Locking may have moved the screw: hold it fast, or allow for it."
                                    : ""));
        }
        if (WalkWords.doneQuestion(sheet.engine().train(), unit(), false).isEmpty()) {
            talk.say(INDENT, "Machine work has no place on the sheet yet: begin a new sheet after it.");
            return INDENT + "n go on, ? help >";
        }
        Optional<Done> advised = advised(v, advice);
        return INDENT + "Done? "
                + advised.map(d -> "y yes, " + d.toString(unit()) + "; o otherwise; ")
                        .orElse("y yes; ")
                + "n not done; ? help >";
    }

    private Next help(WalkStep step) {
        if (step instanceof WalkStep.AskDone && chosen == null) {
            talk.print("""
                      y  done as said; the valve is then checked again
                      o  done otherwise: another leaf, shim or turn is asked for
                      n  not done: leave the valve so and go on
                      l  offer another leaf first
                    """);
        } else if (step instanceof WalkStep.AskShim) {
            talk.print("""
                      2.45    the size as marked, in mm
                      m 2.43  the size measured with a micrometer
                      Enter   not known: no shim can be worked out, the verdict stands
                      u, s and q as everywhere, each with Enter
                    """);
        } else {
            talk.print("""
                      g  goes: slides with no drag
                      d  drags: slides with a light, even drag
                      f  forced: enters only when pushed hard
                      r  refuses: will not enter
                    """);
            if (!(step instanceof WalkStep.Repeat)) {
                talk.print("""
                          l  another leaf, or a stack, than the one proposed
                        """);
            }
        }
        talk.print("""
                  u  take back the last answer, at the valve before too
                  s  leave this valve as it stands and go to the next
                  q  leave the walk; everything is saved, --resume goes on
                """);
        return Next.SAME_QUESTION;
    }

    // ---- answers --------------------------------------------------------------------------------------------------

    private Next trial(ValveWalk v, LeafStack leaf, char key) throws IOException {
        Fit fit;
        switch (key) {
            case 'g' -> fit = Fit.GOES;
            case 'd' -> fit = Fit.DRAGS;
            case 'f' -> fit = Fit.FORCED;
            case 'r' -> fit = Fit.REFUSES;
            default -> {
                return noKey();
            }
        }
        ValveId valve = v.reading().valve();
        CheckSheet with;
        try {
            with = WalkSheet.withTrial(sheet, valve, new Trial(leaf, fit));
        } catch (RejectedValueException notForThisSet) {
            unusable(notForThisSet);
            return Next.SAME_QUESTION;
        }
        if (!with.gauges().equals(sheet.gauges())) {
            talk.say(INDENT, leaf.toString(unit()) + " now counts among the leaves of this sheet.");
        }
        commit(with);
        ValveWalk after = new ValveWalk(sheet, WalkSheet.reading(sheet, valve));
        List<Trial> asked = new ArrayList<>(v.trials());
        asked.add(new Trial(leaf, fit));
        List<Trial> gone = Clash.takenOut(asked, sheet.rule());
        if (!gone.isEmpty()) {
            talk.say(
                    INDENT,
                    "Both are answered again. Taken out: "
                            + gone.stream().map(t -> t.toString(unit())).collect(Collectors.joining(", ")) + ".");
        }
        if (after.isFinished()) {
            finished(after);
        }
        readNow(after);
        return Next.ON;
    }

    /** Where a camshaft comes out, a valve that is read waits for the others. */
    private void readNow(ValveWalk v) {
        if (liftsCamshaft()
                && !v.isRecheck()
                && v.step() instanceof WalkStep.AskDone
                && WalkSheet.current(sheet, left)
                        .filter(next -> !next.equals(v.reading().valve()))
                        .isPresent()) {
            standing(v);
            talk.say(
                    INDENT,
                    v.reading().valve() + " is read; it waits until every valve is read, since a camshaft comes out.");
        }
    }

    private boolean liftsCamshaft() {
        return WalkWords.liftsCamshaft(sheet.engine().train());
    }

    /** The plan for all valves, said once before the first shim. */
    private void planned() {
        if (planTold) {
            return;
        }
        List<String> steps = CheckReport.of(WalkSheet.inEngineOrder(sheet))
                .shimPlan()
                .map(plan -> plan.steps().stream().map(ShimPlan.Step::text).toList())
                .orElse(List.of());
        planTold = true;
        boolean open = CheckReport.of(sheet).valves().stream()
                .anyMatch(check -> check.verdict().isEmpty() || check.verdict().equals(Optional.of(Verdict.UNDECIDED)));
        talk.say(
                INDENT,
                (open
                                ? "Not every valve is decided: go back and read the rest before a camshaft comes out. "
                                : "Every valve is read. ")
                        + "The shim plan for the whole engine:");
        int number = 1;
        for (String step : steps) {
            paragraph(INDENT + number + ". ", step);
            number++;
        }
    }

    private String byThePlan(ShimPlan.Move move) {
        return move.stays()
                ? "by the plan its shim stays: " + move.why()
                : "by the plan, fit " + move.findShim().orElseThrow().toString(unit()) + " ("
                        + move.source()
                                .findValve()
                                .map(v -> "from " + v)
                                .orElseGet(() -> move.source().toString())
                        + ")";
    }

    /** What is advised: where a camshaft comes out, the plan's shim, or nothing where that lets the shim stay. */
    private Optional<Done> advised(ValveWalk v, Adjustment advice) {
        Optional<ShimPlan.Move> move = planMove(v);
        return move.isPresent()
                ? move.filter(m -> !m.stays()).flatMap(ShimPlan.Move::findShim).map(Done.Fitted::new)
                : WalkWords.advised(advice);
    }

    private Optional<ShimPlan.Move> planMove(ValveWalk v) {
        if (!liftsCamshaft() || v.isRecheck()) {
            return Optional.empty();
        }
        return CheckReport.of(WalkSheet.inEngineOrder(sheet)).shimPlan().stream()
                .flatMap(plan -> plan.moves().stream())
                .filter(move -> move.valve().equals(v.reading().valve()))
                .findFirst();
    }

    private void finished(ValveWalk v) {
        if (v.reading().pad() == Pad.DISHED) {
            talk.say(INDENT, "No leaf tells anything of a dished pad or tip: it is not checked again with leaves.");
            return;
        }
        standing(v);
        talk.say(INDENT, v.reading().valve() + " is finished" + (v.isRecheck() ? "." : ": leave it as it is."));
        ValveCheck.of(sheet, v.reading(), Adjuster.withDefaults()).findings().stream()
                .filter(f -> !INSPECT.contains(f.code()))
                .forEach(this::finding);
    }

    private Next another(ValveWalk v) {
        while (true) {
            Optional<String> text = talk.line(INDENT + "Which leaf, in " + unit().symbol()
                    + " (a + between the leaves of a stack; Enter: none)?");
            if (text.isEmpty()) {
                return Next.LEAVE;
            }
            if (text.get().isEmpty()) {
                chosen = null;
                return Next.ON;
            }
            try {
                LeafStack stack = WalkWords.stack(text.get(), unit());
                if (stack.size() > sheet.gauges().mostStacked()) {
                    talk.say(INDENT, "At most " + sheet.gauges().mostStacked() + " of these leaves may be stacked.");
                    continue;
                }
                if (!sheet.gauges().owns(stack)) {
                    // refused here where the set would refuse it
                    WalkSheet.withTrial(sheet, v.reading().valve(), new Trial(stack, Fit.GOES));
                    Optional<Character> sure = yesOrNo(
                            INDENT + stack.toString(unit()) + " is not in the set. Is it at hand? y yes, n no >");
                    if (sure.isEmpty()) {
                        return Next.LEAVE;
                    }
                    if (sure.get() == 'n') {
                        continue;
                    }
                }
                chosen = stack;
                return Next.ON;
            } catch (RejectedValueException rejected) {
                unusable(rejected);
            }
        }
    }

    private void unusable(RejectedValueException rejected) {
        talk.say(INDENT, "Not usable: " + rejected.getMessage());
    }

    private Optional<Character> yesOrNo(String prompt) {
        while (true) {
            Optional<Character> key = talk.key(prompt);
            if (key.isEmpty() || key.get() == 'y' || key.get() == 'n') {
                return key;
            }
            talk.say(INDENT, "Press y or n.");
        }
    }

    private Next shim(ValveWalk v, String prompt) throws IOException {
        Optional<String> text = talk.line(prompt);
        if (text.isEmpty()) {
            return Next.LEAVE;
        }
        ValveId valve = v.reading().valve();
        switch (text.get().toLowerCase(Locale.ROOT)) {
            case "q" -> {
                return Next.LEAVE;
            }
            case "u" -> {
                return undo();
            }
            case "s" -> {
                return skip(valve);
            }
            case "?" -> {
                return help(v.step());
            }
            default -> {
                try {
                    InstalledShim shim = WalkWords.shim(text.get());
                    shim.findMarked().ifPresent(this::noteSize);
                    commit(WalkSheet.withShim(sheet, valve, shim));
                    readNow(new ValveWalk(sheet, WalkSheet.reading(sheet, valve)));
                    return Next.ON;
                } catch (RejectedValueException rejected) {
                    unusable(rejected);
                    return Next.SAME_QUESTION;
                }
            }
        }
    }

    private void noteSize(Length size) {
        WalkWords.sizes(sheet.engine().train())
                .filter(made -> !made.contains(size) && !sheet.shimBox().sizes().contains(size))
                .ifPresent(made -> talk.say(
                        INDENT,
                        "Note: " + size + " is none of the sizes that are made (" + made
                                + "). If that was a slip: u takes it back."));
    }

    private Next done(ValveWalk v, Adjustment advice, char key) throws IOException {
        ValveId valve = v.reading().valve();
        if (key == 'n') {
            return skip(valve);
        }
        boolean turn = WalkWords.isTurn(advice);
        Optional<String> question = WalkWords.doneQuestion(sheet.engine().train(), unit(), turn);
        if (v.reading().tries() >= MOST_ROUNDS || question.isEmpty() || (key != 'y' && key != 'o')) {
            return noKey();
        }
        Optional<Done> done = advised(v, advice);
        if (key == 'o' || done.isEmpty()) {
            String enter = done.map(d -> " (Enter: " + d.toString(unit()) + ")").orElse(" (Enter: not done)");
            while (true) {
                Optional<String> text = talk.line(INDENT + question.get() + enter);
                if (text.isEmpty()) {
                    return Next.LEAVE;
                }
                try {
                    done = text.get().isEmpty()
                            ? done
                            : Optional.of(
                                    WalkWords.done(text.get(), sheet.engine().train(), unit(), turn));
                    break;
                } catch (RejectedValueException rejected) {
                    unusable(rejected);
                }
            }
        }
        if (done.isEmpty()) {
            return Next.ON;
        }
        if (done.get() instanceof Done.Fitted fitted) {
            noteSize(fitted.shim());
        }
        commit(WalkSheet.withDone(sheet, valve, done.get()));
        talk.say(
                INDENT,
                liftsCamshaft()
                        ? "It is checked again when all are done and the camshafts are in: turn the engine over by hand twice."
                        : "Now check it again: turn the engine over by hand twice, back to "
                                + WalkWords.place(sheet.engine(), valve) + ".");
        ValveWalk after = new ValveWalk(sheet, WalkSheet.reading(sheet, valve));
        if (after.isFinished()) {
            finished(after);
        }
        return Next.ON;
    }

    private Next skip(ValveId valve) throws IOException {
        Set<ValveId> more = new HashSet<>(left);
        more.add(valve);
        commit(WalkSheet.leaving(sheet, valve, more));
        left = Set.copyOf(more);
        talk.say(INDENT, valve + " is left as it stands.");
        return Next.ON;
    }

    private Next undo() throws IOException {
        if (chosen != null) {
            chosen = null;
            talk.say(INDENT, "Back to what was asked before.");
            return Next.ON;
        }
        if (!past.isEmpty()) {
            Moment moment = past.pop();
            store.save(moment.sheet()).ifPresent(talk::say);
            sheet = moment.sheet();
            left = moment.left();
            talk.say(INDENT, "The last answer is taken back.");
            return Next.ON;
        }
        Optional<CheckSheet> before = WalkSheet.withoutLast(sheet);
        if (before.isEmpty()) {
            talk.say(INDENT, "There is no answer to take back.");
            return Next.SAME_QUESTION;
        }
        store.save(before.get()).ifPresent(talk::say);
        sheet = before.get();
        talk.say(INDENT, "The last answer is taken back.");
        return Next.ON;
    }

    private void commit(CheckSheet with) throws IOException {
        store.save(with).ifPresent(talk::say);
        past.push(new Moment(sheet, left));
        sheet = with;
        chosen = null;
    }
}
