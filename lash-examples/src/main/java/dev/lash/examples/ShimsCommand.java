package dev.lash.examples;

import dev.lash.adjust.ShimBox;
import dev.lash.adjust.ShimPlan;
import dev.lash.check.CheckReport;
import dev.lash.check.Unconfirmed;
import dev.lash.examples.CheckCommand.Format;
import dev.lash.examples.Main.Bench;
import dev.lash.measure.LengthUnit;
import dev.lash.specs.ShimPlanForms;
import dev.lash.trend.EngineTrend;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code lash shims}: the best use of the shims in the engine, in the box and to buy. */
@Command(
        name = "shims",
        description = {
            "Plans the shims of a sheet's engine: which goes where, what to buy, what is left over.",
            "Exit code: 0 done, 1 a finding is an error, 2 the sheet or a folder cannot be read."
        },
        mixinStandardHelpOptions = true)
final class ShimsCommand implements Callable<Integer> {
    private final Bench bench;

    @Parameters(paramLabel = "SHEET", description = "a check sheet; - reads standard input")
    private String sheet = "";

    @Option(names = "--format", paramLabel = "FORMAT", defaultValue = "text", description = "text (default) or json")
    private Format format = Format.TEXT;

    @Option(
            names = "--lasting",
            description = {
                "of the plans that are as good (as few valves not certain, camshafts lifted, shims to buy, sizes changed) the one",
                "whose first valve leaves its window latest, by the trends of the sheet's earlier checks"
            })
    private boolean lasting;

    @Mixin
    private final Folders folders = new Folders();

    ShimsCommand(Bench bench) {
        this.bench = bench;
    }

    @Override
    public Integer call() {
        return SheetFiles.read(sheet, folders, bench)
                .map(CheckReport::of)
                .map(this::report)
                .orElse(Main.UNUSABLE);
    }

    private int report(CheckReport report) {
        LengthUnit unit = report.sheet().gauges().unit();
        if (lasting && report.shimPlan().isPresent() && report.findTrend().isEmpty()) {
            bench.err()
                    .println(sheet
                            + ": --lasting has no trend to go by: it takes an earlier check (\"history\") with its "
                            + "\"usage\", and what the counter shows now (\"usage\"); leave --lasting out");
            return Main.UNUSABLE;
        }
        Optional<ShimPlan> plan = lasting ? report.longestLastingShimPlan() : report.shimPlan();
        if (format == Format.JSON) {
            bench.out()
                    .println(plan.map(p -> ShimPlanForms.write(p, unit, unconfirmed(report)))
                            .orElse("{}"));
        } else {
            bench.out()
                    .print(plan.map(p -> text(report, p, unit))
                            .orElse("There are no shims to plan: the train has none, or the sheet has no valves.\n"));
        }
        return report.hasErrors() ? Main.FINDINGS : Main.DONE;
    }

    private List<Unconfirmed> unconfirmed(CheckReport report) {
        return lasting ? report.unconfirmedOfLastingShims() : report.unconfirmedOfShims();
    }

    /** What the plan calls longest, and on how much that rests. */
    private static void lasting(EngineTrend trend, StringBuilder out) {
        int fewest =
                trend.valves().stream().mapToInt(v -> v.trend().checks()).min().orElse(0);
        int most =
                trend.valves().stream().mapToInt(v -> v.trend().checks()).max().orElse(0);
        TextTable.paragraph(
                "Longest lasting: of the plans that are as good by the counts above, the one whose first valve leaves its window "
                        + "latest, each valve taken to drift as fast as nineteen in twenty would at most. It rests on "
                        + (fewest == most ? fewest : fewest + " to " + most) + (most == 1 ? " check" : " checks")
                        + " of each valve.",
                "",
                out);
        trend.caveat().ifPresent(caveat -> TextTable.paragraph("But " + caveat + ".", "", out));
    }

    private String text(CheckReport report, ShimPlan plan, LengthUnit unit) {
        StringBuilder out = new StringBuilder();
        String machine = report.sheet().machine();
        TextTable.paragraph(
                "Shim plan: " + (machine.isEmpty() ? report.sheet().engine().title() : machine), "", out);
        ShimPlan.Totals totals = plan.totals();
        TextTable.paragraph(
                totals.notCertain() + " of " + plan.moves().size() + " not certain, "
                        + TextReport.counted(totals.camshaftsLifted(), "camshaft") + " lifted, "
                        + TextReport.counted(totals.shimsBought(), "shim") + " to buy, "
                        + TextReport.counted(totals.sizesChanged(), "size") + " changed",
                "",
                out);
        if (lasting) {
            report.findTrend().ifPresent(trend -> lasting(trend, out));
        }
        out.append('\n');
        TextTable table = new TextTable(TextReport.WIDTH);
        table.row(List.of("Valve", "Shim", "From", "Then", "Verdict", "Why").stream()
                .map(List::of)
                .toList());
        for (ShimPlan.Move move : plan.moves()) {
            table.row(List.of(
                            (move.valve() + " " + move.gap()).strip(),
                            move.findShim().map(s -> TextReport.number(s, unit)).orElse("?"),
                            move.source().toString(),
                            TextReport.interval(move.resulting(), unit),
                            move.verdict().word(),
                            move.why())
                    .stream()
                    .map(List::of)
                    .toList());
        }
        out.append(table.write());
        section(
                "Before the work",
                plan.findings().stream().map(ShimPlan.Finding::text).toList(),
                out);
        section("To buy", lots(plan.buy(), unit), out);
        section("Left over, to the box", lots(plan.toBox(), unit), out);
        if (!plan.steps().isEmpty()) {
            out.append("\nSteps\n");
        }
        int number = 1;
        for (ShimPlan.Step step : plan.steps()) {
            TextTable.paragraph(step.text(), number + ". ", out);
            number++;
        }
        TextReport.unconfirmed(unconfirmed(report), out);
        section("Cautions", report.cautions(), out);
        return out.toString();
    }

    private static List<String> lots(List<ShimBox.Lot> lots, LengthUnit unit) {
        String all = lots.stream()
                .map(lot -> lot.count() + " x " + TextReport.number(lot.size(), unit)
                        + (lot.type().isEmpty() ? "" : " (" + lot.type() + ")"))
                .collect(Collectors.joining(", "));
        return all.isEmpty() ? List.of() : List.of(all);
    }

    private static void section(String title, List<String> lines, StringBuilder out) {
        if (!lines.isEmpty()) {
            out.append('\n').append(title).append('\n');
            lines.forEach(line -> TextTable.paragraph(line, "- ", out));
        }
    }
}
