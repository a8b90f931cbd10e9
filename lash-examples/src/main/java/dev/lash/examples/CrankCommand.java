package dev.lash.examples;

import dev.lash.check.CheckSheet;
import dev.lash.check.Unconfirmed;
import dev.lash.engine.CrankPlan;
import dev.lash.engine.CrankPlanner;
import dev.lash.engine.EngineSpec;
import dev.lash.examples.CheckCommand.Format;
import dev.lash.examples.Main.Bench;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.TextParseException;
import dev.lash.specs.CrankForms;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code lash crank}: where to stop the engine, and which valves to measure there. */
@Command(
        name = "crank",
        description = {
            "Says where to stop a sheet's engine and which valves to measure there.",
            "Exit code: 0 done, 2 the sheet, a folder or --at cannot be used."
        },
        mixinStandardHelpOptions = true)
final class CrankCommand implements Callable<Integer> {
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

    @Mixin
    private final Folders folders = new Folders();

    CrankCommand(Bench bench) {
        this.bench = bench;
    }

    @Override
    public Integer call() {
        Optional<CrankPlanner> planner = planner(at, bench);
        Optional<CheckSheet> read = planner.isEmpty() ? Optional.empty() : SheetFiles.read(sheet, folders, bench);
        if (read.isEmpty()) {
            return Main.UNUSABLE;
        }
        EngineSpec engine = read.get().engine();
        CrankPlan plan = planner.get().plan(engine);
        LengthUnit unit = read.get().gauges().unit();
        bench.out()
                .print(format == Format.JSON ? CrankForms.write(plan, engine, unit) + "\n" : text(engine, plan, unit));
        return Main.DONE;
    }

    /** The planner that {@code --at} names; empty when it names none, which was then said. */
    static Optional<CrankPlanner> planner(@Nullable String at, Bench bench) {
        try {
            return Optional.of(planner(at == null ? "tdc" : at));
        } catch (RejectedValueException refused) {
            Problems.print(String.valueOf(refused.getMessage()), bench.err());
            return Optional.empty();
        }
    }

    private static CrankPlanner planner(String at) {
        return switch (at) {
            case "tdc" -> CrankPlanner.atTdcMarks();
            case "own" -> CrankPlanner.atOwnCompressionTdc();
            case "any" -> CrankPlanner.atAnyAngle();
            default -> CrankPlanner.atMarks(marks(at));
        };
    }

    private static List<Ratio> marks(String at) {
        try {
            return Arrays.stream(at.split(",", -1))
                    .map(String::strip)
                    .map(Ratio::parse)
                    .toList();
        } catch (TextParseException noNumbers) {
            throw new RejectedValueException(
                    "--at",
                    at,
                    "does not say where the engine may be stopped",
                    "tdc, own, any, or degrees after number 1's TDC such as 0,120,240",
                    "name one of them");
        }
    }

    private static String text(EngineSpec engine, CrankPlan plan, LengthUnit unit) {
        StringBuilder out = new StringBuilder();
        TextTable.paragraph("Crank stops of " + engine.title() + ", firing order " + engine.firingOrder(), "", out);
        out.append('\n');
        if (plan.stops().isEmpty() && plan.isComplete()) {
            return out.append("This engine has no clearance to measure.\n").toString();
        }
        TextTable.paragraph(CrankPlanner.findNumber1(engine), "", out);
        int number = 1;
        for (String step : plan.steps()) {
            TextTable.paragraph(step, number + ". ", out);
            number++;
        }
        out.append('\n');
        plan.notes().forEach(note -> TextTable.paragraph(note, "- ", out));
        TextReport.overridden(engine, unit, out);
        TextReport.unconfirmed(Unconfirmed.of(engine, unit, EnumSet.of(Unconfirmed.Use.CRANK_STOPS)), out);
        return out.append('\n').append(CrankDiagram.of(engine, plan)).toString();
    }
}
