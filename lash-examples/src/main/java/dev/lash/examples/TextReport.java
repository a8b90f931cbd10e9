package dev.lash.examples;

import dev.lash.check.CheckReport;
import dev.lash.check.CheckSheet;
import dev.lash.check.Finding;
import dev.lash.check.FindingCode;
import dev.lash.check.Severity;
import dev.lash.check.Unconfirmed;
import dev.lash.check.ValveCheck;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.CrankPlanner;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.Overridden;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.Evidence;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.Trial;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/** A report as text for a person, 80 columns wide. */
final class TextReport {
    static final int WIDTH = 80;
    private static final String NEWLINE = "\n";
    private static final Map<Verdict, String> COLOURS = new EnumMap<>(Map.of(
            Verdict.WITHIN,
            "\u001b[32m",
            Verdict.TIGHT,
            "\u001b[31m",
            Verdict.LOOSE,
            "\u001b[33m",
            Verdict.UNDECIDED,
            "\u001b[36m"));
    private static final String PLAIN = "\u001b[0m";

    private final boolean colour;

    TextReport(boolean colour) {
        this.colour = colour;
    }

    String write(CheckReport report) {
        StringBuilder out = new StringBuilder();
        CheckSheet sheet = report.sheet();
        LengthUnit unit = sheet.gauges().unit();
        head(report, out);
        inspectFirst(report, out);
        if (!report.valves().isEmpty()) {
            out.append(NEWLINE).append(table(report, unit));
        }
        out.append(NEWLINE);
        TextTable.paragraph(
                "Lengths in " + (unit.isInch() ? "inches" : "mm")
                        + ". (a, b): more than a and less than b; [ or ]: that end "
                        + "too; = exactly." + turning(sheet.engine().train()),
                "",
                out);
        findings(report, out);
        List<String> notReached = CrankPlanner.atTdcMarks().plan(sheet.engine()).notReached();
        if (!notReached.isEmpty()) {
            out.append(NEWLINE).append("Not reached at the TDC marks").append(NEWLINE);
            notReached.forEach(text -> TextTable.paragraph(text, "- ", out));
        }
        overridden(sheet.engine(), unit, out);
        unconfirmed(report.unconfirmed(), out);
        out.append(NEWLINE).append("Cautions").append(NEWLINE);
        report.cautions().forEach(caution -> TextTable.paragraph(caution, "- ", out));
        return out.toString();
    }

    /** Which way the adjuster goes, in a line below the table; empty where nothing is turned. */
    private static String turning(ValveTrain train) {
        if (train instanceof ValveTrain.Screw screw) {
            return " The clearance grows: " + screw.place().growing() + ".";
        }
        return train instanceof ValveTrain.Eccentric
                ? " Angles of an eccentric are those of the sheet: the clearance is largest at 270 degrees."
                : "";
    }

    private void head(CheckReport report, StringBuilder out) {
        CheckSheet sheet = report.sheet();
        EngineSpec engine = sheet.engine();
        TextTable.paragraph(
                "Valve-clearance check: " + (sheet.machine().isEmpty() ? engine.title() : sheet.machine()), "", out);
        TextTable.paragraph(
                engine.title() + " (" + engine.train().kind() + ")"
                        + engine.template().map(t -> ", from template " + t).orElse(""),
                "",
                out);
        List<String> facts = new ArrayList<>();
        sheet.date().ifPresent(date -> facts.add("date " + date));
        sheet.usage().ifPresent(usage -> facts.add("usage " + usage));
        sheet.engineTemperature().ifPresent(t -> facts.add("engine at " + t));
        facts.add("rule: " + sheet.rule().toString(sheet.gauges().unit()));
        TextTable.paragraph(String.join(", ", facts), "", out);
        for (ValveRole role : ValveRole.values()) {
            for (Gap gap : engine.gaps()) {
                engine.findClearance(role, gap)
                        .ifPresent(c -> TextTable.paragraph(
                                window(role, gap, c, sheet.gauges().unit()), "", out));
            }
        }
        out.append(NEWLINE);
        TextTable.paragraph(summary(report), "", out);
        report.findTrend().ifPresent(trend -> CheckByText.write(report, trend, out));
    }

    /** So many things, with the s that more or less than one of them has. */
    static String counted(int count, String thing) {
        return count + " " + thing + (count == 1 ? "" : "s");
    }

    /** A window in words. */
    static String window(ValveRole role, Gap gap, ClearanceSpec c, LengthUnit unit) {
        String setTo =
                c.setTo().equals(c.check()) ? "" : ", set to " + c.setTo().toString(unit);
        return gap.behind(role.word()) + " window "
                + c.check().toString(unit) + setTo
                + (c.isConfirmed() ? ", from " + c.confirmedFrom() : ", typical value: NOT CONFIRMED from the manual");
    }

    private static String summary(CheckReport report) {
        List<String> parts = new ArrayList<>();
        for (Verdict verdict : List.of(Verdict.WITHIN, Verdict.TIGHT, Verdict.LOOSE, Verdict.UNDECIDED)) {
            List<String> valves = report.valves().stream()
                    .filter(v -> v.verdict().equals(Optional.of(verdict)))
                    .map(v -> v.reading().name())
                    .toList();
            if (!valves.isEmpty()) {
                parts.add(valves.size() + " " + verdict + " (" + String.join(", ", valves) + ")");
            }
        }
        long without =
                report.valves().stream().filter(v -> v.verdict().isEmpty()).count();
        if (without > 0) {
            parts.add(without + " without a verdict");
        }
        return "Result: " + (parts.isEmpty() ? "no valve was read" : String.join(", ", parts));
    }

    private static void inspectFirst(CheckReport report, StringBuilder out) {
        List<ValveCheck> inspect = report.valves().stream()
                .filter(v ->
                        v.adjustment().filter(a -> a.kind().equals("inspect")).isPresent())
                .toList();
        if (!inspect.isEmpty()) {
            out.append(NEWLINE).append("Inspect first, before any adjustment").append(NEWLINE);
            inspect.forEach(v -> TextTable.paragraph(
                    v.reading().name() + ": " + Advice.why(v.adjustment().orElseThrow()), "- ", out));
        }
    }

    private String table(CheckReport report, LengthUnit unit) {
        TextTable table = new TextTable(WIDTH);
        table.row(List.of(
                List.of("Valve"),
                List.of("Trials"),
                List.of("Clearance"),
                List.of("Window"),
                List.of("Verdict"),
                List.of("What to do")));
        for (ValveCheck check : report.valves()) {
            table.row(List.of(
                    gapLines(check.reading().name()),
                    trials(check.reading().trials(), unit),
                    List.of(clearance(check.evidence(), unit)),
                    List.of(check.clearance()
                            .map(c -> number(c.check().lower(), unit) + ".."
                                    + number(c.check().upper(), unit))
                            .orElse("-")),
                    List.of(check.verdict().map(Verdict::word).orElse("-")),
                    List.of(doubt(check)
                            + Advice.line(
                                    check, unit, Advice.Bench.of(report, check).asFound(report.sheet(), check)))));
            check.recheck()
                    .ifPresent(evidence -> table.row(List.of(
                            List.of(" after"),
                            trials(evidence.trials(), unit),
                            List.of(clearance(evidence, unit)),
                            List.of(""),
                            List.of(check.recheckVerdict().map(Verdict::word).orElse("-")),
                            List.of("done: "
                                    + check.reading()
                                            .findDone()
                                            .map(d -> d.toString(unit))
                                            .orElse("not recorded")
                                    + check.again()
                                            .map(a -> "; now " + Advice.words(a, unit, Advice.Bench.of(report, check)))
                                            .orElse("")))));
        }
        return coloured(table.write());
    }

    /** What is said beside an adjustment that rests on a reading in doubt. */
    private static String doubt(ValveCheck check) {
        return check.findings().stream().anyMatch(f -> f.code() == FindingCode.DECOMPRESSOR_HOLDS)
                ? "IN DOUBT, decompressor: read again first; by this reading "
                : "";
    }

    private String coloured(String table) {
        if (!colour) {
            return table;
        }
        String out = table;
        for (Map.Entry<Verdict, String> entry : COLOURS.entrySet()) {
            String word = entry.getKey().word();
            out = out.replaceAll("(?m)^(.{30,60}?) " + word + "(?= |$)", "$1 " + entry.getValue() + word + PLAIN);
        }
        return out;
    }

    /** A valve, and under it its gap where it has more than one. */
    private static List<String> gapLines(String name) {
        return List.of(name.split(" ", -1));
    }

    private static List<String> trials(List<Trial> trials, LengthUnit unit) {
        return trials.isEmpty()
                ? List.of("none")
                : trials.stream().map(t -> leaf(t.leaf(), unit) + " " + t.fit()).toList();
    }

    /** A leaf or stack without its unit. */
    static String leaf(LeafStack stack, LengthUnit unit) {
        return stack.leaves().stream().map(l -> number(l.thickness(), unit)).collect(Collectors.joining("+"));
    }

    /** A length without its unit where it is the report's, with it where it is not. */
    static String number(Length length, LengthUnit unit) {
        return length.numberIn(unit).orElseGet(length::toString);
    }

    private static String clearance(Evidence evidence, LengthUnit unit) {
        return evidence.match(bracket -> interval(bracket.interval(), unit), contradiction -> "contradicts");
    }

    /** An interval without its unit. */
    static String interval(LengthInterval interval, LengthUnit unit) {
        if (interval.equals(LengthInterval.any())) {
            return "unknown";
        }
        if (interval.isPoint()) {
            return "= " + number(interval.lower().orElseThrow(), unit);
        }
        return interval.toString(unit).replace(" " + unit.symbol(), "");
    }

    /** What the shop laid over the template. */
    static void overridden(EngineSpec engine, LengthUnit unit, StringBuilder out) {
        if (!engine.overridden().isEmpty()) {
            out.append(NEWLINE)
                    .append("Figures of the shop in place of the template's")
                    .append(NEWLINE);
            Overridden.texts(engine, unit).forEach(text -> TextTable.paragraph(text, "- ", out));
        }
    }

    /** The figures that a result leans on and that the shop has not confirmed, those of one origin on one line. */
    static void unconfirmed(List<Unconfirmed> figures, StringBuilder out) {
        if (!figures.isEmpty()) {
            out.append(NEWLINE)
                    .append("Leans on typical figures, not confirmed from the manual")
                    .append(NEWLINE);
            Unconfirmed.texts(figures).forEach(text -> TextTable.paragraph(text, "- ", out));
        }
    }

    private static void findings(CheckReport report, StringBuilder out) {
        out.append(NEWLINE).append("Findings").append(NEWLINE);
        if (report.findings().isEmpty()) {
            out.append("none").append(NEWLINE);
        }
        for (Severity severity : Severity.values()) {
            report.findings().stream()
                    .filter(f -> f.severity() == severity)
                    .map(Finding::toString)
                    .forEach(text ->
                            TextTable.paragraph(severity.word().toUpperCase(Locale.ROOT) + " " + text, "- ", out));
        }
    }
}
