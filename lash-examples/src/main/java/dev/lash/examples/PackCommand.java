package dev.lash.examples;

import dev.lash.engine.EngineSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.WearPrior;
import dev.lash.examples.Main.Bench;
import dev.lash.gauge.Trial;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.RejectedValueException;
import dev.lash.specs.DocumentException;
import dev.lash.specs.PackCheck;
import dev.lash.specs.PackComparison;
import dev.lash.specs.PackFinding;
import dev.lash.specs.SpecPack;
import dev.lash.specs.Template;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code lash pack}: for those who keep templates. */
@Command(
        name = "pack",
        description = {
            "Checks, compares, shows and starts templates of engines.",
            "Exit code: 0 done, 1 something is wrong with a template, 2 a file or folder cannot be used."
        },
        mixinStandardHelpOptions = true)
final class PackCommand {
    private final Bench bench;

    PackCommand(Bench bench) {
        this.bench = bench;
    }

    /** Runs what reads files; what cannot be read is said in one line. */
    private int reading(Callable<Integer> work) {
        try {
            return work.call();
        } catch (DocumentException | RejectedValueException refused) {
            bench.err().println(refused.getMessage());
        } catch (IOException | UncheckedIOException unreadable) {
            bench.err().println("cannot be read: " + unreadable.getMessage());
        } catch (Exception other) {
            throw new IllegalStateException(other);
        }
        return Main.UNUSABLE;
    }

    @Command(
            name = "check",
            description = "Checks a folder of templates; lists everything that is wrong.",
            mixinStandardHelpOptions = true)
    int check(
            @Parameters(paramLabel = "DIR", description = "the folder") Path folder,
            @Option(names = "--write", description = "write the templates in the canonical form first") boolean write) {
        return reading(() -> {
            if (write) {
                PackCheck.write(folder).forEach(name -> bench.out().println("written: " + name));
            }
            List<PackFinding> findings = PackCheck.of(folder);
            findings.forEach(bench.out()::println);
            bench.out()
                    .println(
                            findings.isEmpty()
                                    ? "Nothing is wrong."
                                    : findings.size() + (findings.size() == 1 ? " thing is" : " things are")
                                            + " wrong.");
            return findings.isEmpty() ? Main.DONE : Main.FINDINGS;
        });
    }

    @Command(
            name = "compare",
            description = "Says what changed from one folder of templates to another, and whether the version says so.",
            mixinStandardHelpOptions = true)
    int compare(
            @Parameters(paramLabel = "OLD", description = "the old folder") Path before,
            @Parameters(paramLabel = "NEW", description = "the new folder") Path after) {
        return reading(() -> {
            PackComparison comparison = PackComparison.of(before, after);
            comparison
                    .changes()
                    .forEach(change ->
                            bench.out().println(change.step().name().toLowerCase(Locale.ROOT) + "  " + change));
            String versions = Optional.ofNullable(comparison.oldVersion())
                            .map(Object::toString)
                            .orElse("no version")
                    + " -> "
                    + Optional.ofNullable(comparison.newVersion())
                            .map(Object::toString)
                            .orElse("no version");
            bench.out()
                    .println("Needs a step: "
                            + comparison.needed().name().toLowerCase(Locale.ROOT) + ". Declared: " + versions
                            + (comparison.isHonest() ? ", which is honest." : ", which is NOT enough."));
            return comparison.isHonest() ? Main.DONE : Main.FINDINGS;
        });
    }

    @Command(
            name = "list",
            description = "Lists the templates, all or those that fit.",
            mixinStandardHelpOptions = true)
    int list(
            @Option(names = "--train", paramLabel = "KIND", description = "such as rocker-screw") @Nullable
                    String train,
            @Option(names = "--cylinders", paramLabel = "N", description = "how many cylinders") @Nullable
                    Integer cylinders,
            @Option(names = "--cooling", paramLabel = "KIND", description = "air, oil or liquid") @Nullable
                    String cooling,
            @Option(names = "--use", paramLabel = "USE", description = "such as motorcycle or generator") @Nullable
                    String use,
            @Option(names = "--folder", paramLabel = "DIR", description = "a folder laid over the bundled pack")
                    @Nullable
                    Path folder) {
        return reading(() -> {
            SpecPack pack = pack(folder);
            pack.overlays().forEach(bench.err()::println);
            List<Template> found =
                    pack.search(t -> (train == null || t.spec().train().kind().equals(train))
                            && (cylinders == null || t.spec().firingOrder().cylinders() == cylinders)
                            && (cooling == null || t.features().cooling().equals(cooling))
                            && (use == null || t.features().uses().contains(use)));
            StringBuilder out = new StringBuilder();
            found.forEach(t -> TextTable.paragraph(t.id() + ": " + t.spec().title(), "- ", out));
            bench.out().print(out);
            bench.out().println(found.size() + (found.size() == 1 ? " template" : " templates"));
            return Main.DONE;
        });
    }

    private static SpecPack pack(@Nullable Path folder) throws IOException {
        return folder == null ? SpecPack.bundled() : SpecPack.bundled().withFolder(folder);
    }

    @Command(name = "show", description = "Shows a template as a data sheet.", mixinStandardHelpOptions = true)
    int show(
            @Parameters(paramLabel = "ID", description = "the id of a template") String id,
            @Option(names = "--folder", paramLabel = "DIR", description = "a folder laid over the bundled pack")
                    @Nullable
                    Path folder) {
        return reading(() -> {
            bench.out().print(sheet(pack(folder).get(id)));
            return Main.DONE;
        });
    }

    private static String sheet(Template template) {
        StringBuilder out = new StringBuilder();
        EngineSpec engine = template.spec();
        TextTable.paragraph(engine.title(), "", out);
        TextTable.paragraph(
                template.id() + ", revision " + template.revision() + ", "
                        + template.lifeCycle().status().word() + ", in the pack since "
                        + template.lifeCycle().addedIn(),
                "",
                out);
        out.append('\n');
        TextTable table = new TextTable(TextReport.WIDTH);
        row(table, "Figure", "Value", "Source");
        row(
                table,
                "Cylinders",
                engine.firingOrder().cylinders() + ", firing "
                        + engine.firingOrder().order(),
                source(template, "/firingOrder"));
        row(
                table,
                "Valves",
                String.valueOf(engine.valves().size()),
                engine.valves().stream().map(ValveId::toString).collect(Collectors.joining(" ")));
        row(table, "Train", engine.train().kind(), source(template, "/train"));
        for (ValveRole role : ValveRole.values()) {
            for (Gap gap : engine.gaps()) {
                String field = gap == Gap.CLOSER ? "/closerClearances/" : "/clearances/";
                engine.findClearance(role, gap)
                        .ifPresent(c -> row(
                                table,
                                role.word() + (gap == Gap.ONLY ? "" : " " + gap),
                                c.check().toString(LengthUnit.MILLIMETRE)
                                        + (c.setTo().equals(c.check())
                                                ? ""
                                                : ", set to " + c.setTo().toString(LengthUnit.MILLIMETRE)),
                                source(template, field + role.code())));
            }
        }
        engine.warmest()
                .ifPresent(
                        t -> row(table, "Engine at most", t.toString(), source(template, "/condition/maxTemperature")));
        engine.coldest()
                .ifPresent(t ->
                        row(table, "Engine at least", t.toString(), source(template, "/condition/minTemperature")));
        engine.checkInterval()
                .ifPresent(u -> row(table, "Check every", u.toString(), source(template, "/checkInterval")));
        engine.wearPrior().ifPresent(p -> row(table, "Wear", wear(p), p.basis()));
        out.append(table.write()).append('\n');
        engine.cautions().forEach(c -> TextTable.paragraph(c, "! ", out));
        template.notes().forEach(n -> TextTable.paragraph(n, "- ", out));
        template.sources()
                .forEach((name, s) -> TextTable.paragraph(
                        "Source " + name + ": " + s.kind().word() + ", " + s.title()
                                + (s.year() > 0 ? " (" + s.year() + ")" : "")
                                + s.details().values().stream()
                                        .map(v -> "; " + v)
                                        .collect(Collectors.joining()),
                        "- ",
                        out));
        template.examples()
                .forEach(e -> TextTable.paragraph(
                        "Example " + e.valve() + ": "
                                + e.trials().stream().map(Trial::toString).collect(Collectors.joining(", "))
                                + " leaves " + e.bracket() + ", " + e.verdict() + ", "
                                + e.adjustment().get("kind"),
                        "- ",
                        out));
        if (engine.train() instanceof ValveTrain.Hydraulic) {
            TextTable.paragraph("Clearance work does not apply to hydraulic lifters.", "", out);
        }
        return out.toString();
    }

    private static void row(TextTable table, String... cells) {
        table.row(Arrays.stream(cells).map(List::of).toList());
    }

    private static String wear(WearPrior prior) {
        return prior.drift() + " +- " + prior.driftDeviation() + " in " + prior.per();
    }

    private static String source(Template template, String pointer) {
        return template.provenance().entrySet().stream()
                .filter(p -> p.getKey().equals(pointer) || p.getKey().startsWith(pointer + "/"))
                .map(p -> Optional.ofNullable(template.sources().get(p.getValue()))
                        .map(s -> s.kind().word())
                        .orElse(""))
                .distinct()
                .collect(Collectors.joining(", "));
    }
}
