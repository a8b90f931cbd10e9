package dev.lash.examples;

import dev.lash.check.CheckSheet;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveRole;
import dev.lash.examples.Main.Bench;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.StandardGaugeSet;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.RejectedValueException;
import dev.lash.plan.LeafPlan;
import dev.lash.plan.LeafPlanner;
import dev.lash.plan.SetCheck;
import dev.lash.plan.SetCheck.CloserCheck;
import dev.lash.plan.SetCheck.Use;
import dev.lash.plan.SetCheck.WindowCheck;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code lash set-check}: whether the leaves can decide the windows, before the covers come off. */
@Command(
        name = "set-check",
        description = {
            "Says which windows of a sheet's engine its leaves can decide, and which leaf to add.",
            "The sheet may have no valves yet. Exit code: 0 done, 2 the sheet or a folder cannot be read."
        },
        mixinStandardHelpOptions = true)
final class SetCheckCommand implements Callable<Integer> {
    private final Bench bench;

    @Parameters(paramLabel = "SHEET", description = "a check sheet; - reads standard input")
    private String sheet = "";

    @Option(
            names = "--set",
            paramLabel = "NAME",
            description =
                    "check a standard set in place of the sheet's leaves: metric-13, metric-20, metric-grid, inch-25")
    private @Nullable String standard;

    @Option(names = "--trials", description = "also show which leaf to offer after each answer")
    private boolean trials;

    @Mixin
    private final Folders folders = new Folders();

    SetCheckCommand(Bench bench) {
        this.bench = bench;
    }

    @Override
    public Integer call() {
        return SheetFiles.read(sheet, folders, bench).map(this::report).orElse(Main.UNUSABLE);
    }

    private int report(CheckSheet read) {
        GaugeSet gauges = read.gauges();
        String name = "the sheet's set";
        if (standard != null) {
            try {
                StandardGaugeSet set = StandardGaugeSet.parse(standard);
                gauges = set.gauges()
                        .withStacksOf(gauges.mostStacked())
                        .withTolerance(gauges.tolerance(), gauges.dragAllowance());
                name = set.id() + " (" + set.source() + ")";
            } catch (RejectedValueException unknown) {
                Problems.print(String.valueOf(unknown.getMessage()), bench.err());
                return Main.UNUSABLE;
            }
        }
        bench.out().print(text(read, gauges, name, SetCheck.of(read.engine(), gauges, LeafPlanner.withDefaults())));
        return Main.DONE;
    }

    private String text(CheckSheet read, GaugeSet gauges, String name, SetCheck check) {
        StringBuilder out = new StringBuilder();
        LengthUnit unit = gauges.unit();
        List<Leaf> leaves = gauges.leaves();
        TextTable.paragraph("Gauge set against the windows of " + read.engine().title(), "", out);
        TextTable.paragraph(
                "Leaves: " + name + ", " + leaves.size() + " from "
                        + leaves.get(0).toString(unit) + " to "
                        + leaves.get(leaves.size() - 1).toString(unit) + ", at most " + gauges.mostStacked()
                        + " in a stack",
                "",
                out);
        out.append('\n');
        if (check.windows().isEmpty()) {
            out.append("Hydraulic lifters: there is no clearance to measure or to set.\n");
            return out.toString();
        }
        TextTable table = new TextTable(TextReport.WIDTH);
        table.row(row("Role", "Window", "Rule", "Decides", "Strokes", "Left undecided, and what to add"));
        for (WindowCheck w : check.windows()) {
            table.row(row(
                    what(w.role(), w.gap(), w.use()),
                    window(w.window(), unit),
                    w.rule().name(),
                    w.decides() ? "yes" : "not all",
                    strokes(w.plan()),
                    advice(w, unit)));
        }
        for (CloserCheck closer : check.closers()) {
            table.row(row(
                    what(closer.role(), Gap.CLOSER, closer.use()),
                    window(closer.window(), unit),
                    "simple",
                    "not planned",
                    "-",
                    byDifference(closer, unit)));
        }
        out.append(table.write()).append('\n');
        TextTable.paragraph(
                "Lengths in " + (unit.isInch() ? "inches" : "mm")
                        + ". Strokes: on average and at most, for a clearance that may be "
                        + "anywhere from 0 to twice the upper limit. Under the guarded rule some bracket around each limit stays "
                        + "undecided with any set.",
                "",
                out);
        if (trials) {
            for (WindowCheck w : check.windows()) {
                out.append('\n');
                TextTable.paragraph(
                        what(w.role(), w.gap(), w.use()) + " window, "
                                + w.rule().name() + " rule",
                        "",
                        out);
                out.append(w.plan().text(unit));
            }
        }
        return out.toString();
    }

    /** Which window: the role, the gap where there are two, and "set to" for a window to set to. */
    static String what(ValveRole role, Gap gap, Use use) {
        return gap.behind(role.word()) + (use == Use.SET ? " " + use.word() : "");
    }

    private static String window(ClearanceWindow window, LengthUnit unit) {
        return TextReport.number(window.lower(), unit) + ".." + TextReport.number(window.upper(), unit);
    }

    /** What the leaves can do for a closer gap. */
    static String byDifference(CloserCheck closer, LengthUnit unit) {
        return "difference of two opener readings, loaded and unloaded: "
                + closer.findWidest()
                        .map(widest -> "with neighbouring leaves known to within " + TextReport.number(widest, unit))
                        .orElse("the leaves end too early for the loaded reading");
    }

    private static List<List<String>> row(String... cells) {
        return List.of(cells).stream().map(List::of).toList();
    }

    private static String strokes(LeafPlan plan) {
        return String.format(
                Locale.ROOT,
                "%.1f, %d",
                plan.figures().expectedInsertions(),
                plan.figures().worstInsertions());
    }

    /** What stays undecided, and what to add. */
    static String advice(WindowCheck w, LengthUnit unit) {
        if (w.decides()) {
            return "-";
        }
        String left = intervals(w.undecided(), unit);
        Optional<String> stackAlone = w.findStack()
                .filter(stack -> stack.plan().equals(w.plan()))
                .map(stack -> left + "; " + stack.remedy(unit));
        if (stackAlone.isPresent()) {
            return stackAlone.get();
        }
        if (w.toAdd().isEmpty()) {
            return left + "; no loose leaf in mm or inches would help";
        }
        String add = w.toAdd().stream()
                .map(l -> TextReport.number(l.thickness(), unit))
                .collect(Collectors.joining(", "));
        String then = w.withAdded().figures().certain()
                ? "then it decides all"
                : "then left: " + intervals(w.withAdded().outside(), unit);
        return left + "; add " + add + ", "
                + w.findStack().map(stack -> "and " + stack.remedy(unit)).orElse(then);
    }

    private static String intervals(List<LengthInterval> intervals, LengthUnit unit) {
        return intervals.stream().map(i -> TextReport.interval(i, unit)).collect(Collectors.joining(" and "));
    }
}
