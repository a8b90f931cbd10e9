package dev.lash.examples;

import dev.lash.engine.CrankPlan;
import dev.lash.engine.CrankPlanner;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.ValveId;
import dev.lash.examples.CheckCommand.Format;
import dev.lash.examples.Main.Bench;
import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import dev.lash.specs.CrankForms;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code lash crank}: where to stop the engine, and which valves to measure there. */
@Command(
        name = "crank",
        description = {
            "Says where to stop a sheet's engine and which valves to measure there.",
            "Exit code: 0 done, 2 the sheet cannot be read."
        },
        mixinStandardHelpOptions = true)
final class CrankCommand implements Callable<Integer> {
    private static final int DEGREES_PER_COLUMN = 12;

    private final Bench bench;

    @Parameters(paramLabel = "SHEET", description = "a check sheet; - reads standard input")
    private String sheet = "";

    @Option(
            names = "--at",
            paramLabel = "MARKS",
            description =
                    "tdc: the TDC marks (default); own: each cylinder's own compression TDC; any: any angle, by degree wheel; "
                            + "or marks as degrees after number 1's TDC, such as 0,120,240")
    private @Nullable String at;

    @Option(names = "--format", paramLabel = "FORMAT", defaultValue = "text", description = "text (default) or json")
    private Format format = Format.TEXT;

    CrankCommand(Bench bench) {
        this.bench = bench;
    }

    @Override
    public Integer call() {
        CrankPlanner planner;
        try {
            planner = planner(at);
        } catch (RejectedValueException refused) {
            Problems.print(String.valueOf(refused.getMessage()), bench.err());
            return Main.UNUSABLE;
        }
        return SheetFiles.read(sheet, bench)
                .map(read -> {
                    CrankPlan plan = planner.plan(read.engine());
                    bench.out()
                            .print(format == Format.JSON ? CrankForms.write(plan) + "\n" : text(read.engine(), plan));
                    return Main.DONE;
                })
                .orElse(Main.UNUSABLE);
    }

    /** The planner that {@code --at} names. */
    static CrankPlanner planner(@Nullable String at) {
        if (at == null || at.equals("tdc")) {
            return CrankPlanner.atTdcMarks();
        }
        return switch (at) {
            case "own" -> CrankPlanner.atOwnCompressionTdc();
            case "any" -> CrankPlanner.atAnyAngle();
            default ->
                CrankPlanner.atMarks(Arrays.stream(at.split(",", -1))
                        .map(String::strip)
                        .map(Ratio::parse)
                        .toList());
        };
    }

    private static String text(EngineSpec engine, CrankPlan plan) {
        StringBuilder out = new StringBuilder();
        TextTable.paragraph("Crank stops of " + engine.title() + ", firing order " + engine.firingOrder(), "", out);
        out.append('\n');
        stops(plan, out);
        out.append('\n').append(diagram(engine, plan));
        return out.toString();
    }

    /** The stops as sentences. */
    static void stops(CrankPlan plan, StringBuilder out) {
        if (plan.stops().isEmpty() && plan.isComplete()) {
            out.append("This engine has no clearance to measure.\n");
            return;
        }
        TextTable.paragraph(
                "Find number 1's compression TDC: TDC comes round twice, on compression its followers are slack, on overlap both move.",
                "",
                out);
        int number = 1;
        for (CrankPlan.Stop stop : plan.stops()) {
            String turn = stop.turn().signum() == 0
                    ? "From number 1 on compression, do not turn."
                    : number == 1
                            ? "From number 1 on compression, turn on " + stop.turn() + " degrees."
                            : "Turn on " + stop.turn() + " degrees.";
            TextTable.paragraph(
                    turn + " " + upper(stop.sign()) + ". Measure " + names(stop.valves()) + ".", number + ". ", out);
            number++;
        }
        plan.leftOver()
                .forEach((valve, angle) -> TextTable.paragraph(
                        "No stop on offer reaches " + valve + ": it could be measured at " + angle
                                + " degrees after number 1's compression TDC.",
                        "- ",
                        out));
        plan.unreachable()
                .forEach(valve ->
                        TextTable.paragraph(valve + " can be measured at no angle: see the manual.", "- ", out));
        out.append('\n');
        TextTable.paragraph(
                (plan.timingAssumed() ? "The engine's cam timing is not given: a mild road cam is assumed. " : "")
                        + "At each stop see the follower slack, the lobe pointing away, before a leaf goes in. Turn by hand, in the "
                        + "maker's direction; past a stop, go round again, never back: a decompressor or chain tensioner may object.",
                "",
                out);
    }

    private static String upper(String text) {
        return Character.toUpperCase(text.charAt(0)) + text.substring(1);
    }

    private static String names(List<ValveId> valves) {
        return valves.stream().map(ValveId::toString).collect(Collectors.joining(", "));
    }

    /** A line for each valve over two turns: dots where it may be measured, hashes where it may not, a bar at each stop. */
    private static String diagram(EngineSpec engine, CrankPlan plan) {
        StringBuilder out = new StringBuilder("Two turns from number 1's compression TDC; a column is ")
                .append(DEGREES_PER_COLUMN)
                .append(" degrees. . may be measured, # not, | stop\n");
        for (ValveId valve : engine.valves()) {
            out.append(String.format("%-7s ", valve));
            for (int degrees = 0; degrees < 720; degrees += DEGREES_PER_COLUMN) {
                Ratio from = Ratio.of(degrees, 1);
                Ratio to = Ratio.of(degrees + DEGREES_PER_COLUMN, 1);
                boolean stop = plan.stops().stream()
                        .anyMatch(
                                s -> s.angle().compareTo(from) >= 0 && s.angle().compareTo(to) < 0);
                boolean rests = CrankPlanner.measurableAt(engine, from).contains(valve);
                out.append(stop ? '|' : rests ? '.' : '#');
            }
            out.append('\n');
        }
        return out.toString();
    }
}
