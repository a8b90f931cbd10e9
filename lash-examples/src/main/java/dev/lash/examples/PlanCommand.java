package dev.lash.examples;

import dev.lash.check.CheckPlan;
import dev.lash.check.CheckSheet;
import dev.lash.engine.CrankPlanner;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.examples.Main.Bench;
import dev.lash.measure.LengthUnit;
import dev.lash.plan.LeafPlanner;
import dev.lash.plan.SetCheck.CloserCheck;
import dev.lash.plan.SetCheck.WindowCheck;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code lash plan}: the pre-job card, one page to tape to the bench. */
@Command(
        name = "plan",
        description = {
            "Prints the pre-job card for a sheet's engine and leaves: what to have at hand, where to stop, in which order to work.",
            "The sheet may have no valves yet. Exit code: 0 done, 2 the sheet, a folder or --at cannot be used."
        },
        mixinStandardHelpOptions = true)
final class PlanCommand implements Callable<Integer> {
    private final Bench bench;

    @Parameters(paramLabel = "SHEET", description = "a check sheet; - reads standard input")
    private String sheet = "";

    @Option(names = "--at", paramLabel = "MARKS", description = "where the engine may be stopped, as for crank")
    private @Nullable String at;

    @Mixin
    private final Folders folders = new Folders();

    PlanCommand(Bench bench) {
        this.bench = bench;
    }

    @Override
    public Integer call() {
        Optional<CrankPlanner> planner = CrankCommand.planner(at, bench);
        Optional<CheckSheet> read = planner.isEmpty() ? Optional.empty() : SheetFiles.read(sheet, folders, bench);
        if (read.isEmpty()) {
            return Main.UNUSABLE;
        }
        CheckSheet job = read.get();
        CheckPlan card = CheckPlan.of(job, LeafPlanner.withDefaults(), planner.get());
        bench.out().print(text(job, card));
        return Main.DONE;
    }

    private static String text(CheckSheet read, CheckPlan plan) {
        StringBuilder out = new StringBuilder();
        EngineSpec engine = plan.engine();
        LengthUnit unit = plan.gauges().unit();
        TextTable.paragraph(
                "Pre-job card: " + (read.machine().isEmpty() ? engine.title() : read.machine() + ", " + engine.title()),
                "",
                out);
        boolean hydraulic = engine.train() instanceof ValveTrain.Hydraulic;
        for (ValveRole role : hydraulic ? new ValveRole[0] : ValveRole.values()) {
            for (Gap gap : engine.gaps()) {
                engine.findClearance(role, gap)
                        .ifPresent(c -> TextTable.paragraph(TextReport.window(role, gap, c, unit), "", out));
            }
        }
        section("Cautions", plan.cautions(), out);
        section("At hand", List.of(String.join("; ", plan.tools())), out);
        String leaves =
                plan.layOut().stream().map(leaf -> TextReport.leaf(leaf, unit)).collect(Collectors.joining(", "));
        if (!hydraulic) {
            section(
                    "Leaves to lay out",
                    List.of(leaves.isEmpty() ? "none of this set helps" : leaves + " (" + unit.symbol() + ")"),
                    out);
        }
        section("Leaf to begin with", firstLeaves(plan, unit), out);
        section(
                "What the leaves can decide",
                Stream.concat(
                                plan.setCheck().windows().stream().map(w -> decides(w, unit)),
                                plan.setCheck().closers().stream().map(c -> decides(c, unit)))
                        .toList(),
                out);
        out.append("\nOrder of work\n");
        int number = 1;
        for (String step : plan.steps()) {
            TextTable.paragraph(step, number + ". ", out);
            number++;
        }
        section("Write down", plan.writeDown(), out);
        TextReport.overridden(engine, unit, out);
        TextReport.unconfirmed(plan.unconfirmed(), out);
        return out.toString();
    }

    /** Valves that begin with the same leaf for the same reason stand together. */
    private static List<String> firstLeaves(CheckPlan plan, LengthUnit unit) {
        return plan.firstLeaves().stream()
                .collect(Collectors.groupingBy(
                        f -> TextReport.leaf(f.leaf(), unit) + (f.byForecast() ? ", by the forecast" : ""),
                        LinkedHashMap::new,
                        Collectors.mapping(f -> f.gap().behind(f.valve().toString()), Collectors.joining(", "))))
                .entrySet()
                .stream()
                .map(leaf -> leaf.getValue() + ": " + leaf.getKey())
                .toList();
    }

    private static void section(String title, List<String> lines, StringBuilder out) {
        if (!lines.isEmpty()) {
            out.append('\n').append(title).append('\n');
            lines.forEach(line -> TextTable.paragraph(line, "- ", out));
        }
    }

    private static String decides(WindowCheck check, LengthUnit unit) {
        return SetCheckCommand.what(check.role(), check.gap(), check.use()) + ", "
                + check.rule().name() + " rule: "
                + (check.decides() ? "every clearance" : "not all; " + SetCheckCommand.advice(check, unit));
    }

    private static String decides(CloserCheck closer, LengthUnit unit) {
        return SetCheckCommand.what(closer.role(), Gap.CLOSER, closer.use()) + ": "
                + SetCheckCommand.byDifference(closer, unit) + "; not planned leaf by leaf";
    }
}
