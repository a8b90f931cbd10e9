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
import dev.lash.specs.PackVersion;
import dev.lash.specs.SpecPack;
import dev.lash.specs.Template;
import dev.lash.specs.Template.Features;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code lash pack}: for those who keep templates. */
@Command(
        name = "pack",
        description = {
            "Checks, compares, shows and starts templates of engines.",
            "Exit code: 0 done, 1 something is wrong with a template, 2 a file or folder cannot be used."
        },
        mixinStandardHelpOptions = true)
final class PackCommand implements Runnable {
    private final Bench bench;

    @Spec
    @SuppressWarnings("NullAway.Init") // picocli sets it
    private CommandSpec spec;

    PackCommand(Bench bench) {
        this.bench = bench;
    }

    @Override
    public void run() {
        throw new ParameterException(
                spec.commandLine(),
                "Name a command: " + String.join(", ", spec.subcommands().keySet()));
    }

    /** Runs what reads files; what cannot be read is said in one line. */
    private int reading(Callable<Integer> work) {
        try {
            return work.call();
        } catch (DocumentException broken) {
            Problems.print(broken, bench.err());
        } catch (RejectedValueException refused) {
            Problems.print(String.valueOf(refused.getMessage()), bench.err());
        } catch (IOException | UncheckedIOException unreadable) {
            Problems.print("cannot be read: " + unreadable.getMessage(), bench.err());
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
                PackCheck.write(folder).forEach(name -> bench.out().println("Written: " + name));
            }
            List<PackFinding> findings = PackCheck.of(folder);
            findings.forEach(this::print);
            bench.out()
                    .println(
                            findings.isEmpty()
                                    ? "Nothing is wrong."
                                    : findings.size() + (findings.size() == 1 ? " thing is" : " things are")
                                            + " wrong.");
            return findings.isEmpty() ? Main.DONE : Main.FINDINGS;
        });
    }

    private void print(PackFinding finding) {
        StringBuilder out = new StringBuilder();
        TextTable.paragraph(
                finding.file() + ", line " + finding.line()
                        + (finding.pointer().isEmpty() ? "" : ", at " + finding.pointer()),
                "",
                out);
        String value = finding.value().isEmpty() ? "" : RejectedValueException.quote(finding.value()) + " ";
        TextTable.paragraph(value + finding.problem(), "  problem   ", out);
        TextTable.paragraph(finding.expected(), "  expected  ", out);
        TextTable.paragraph(finding.mend(), "  mend      ", out);
        bench.out().print(out);
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
            List<String> gone = comparison.gone();
            if (!gone.isEmpty()) {
                bench.out()
                        .println("Gone: " + String.join(", ", gone)
                                + ". A template is never deleted: put it back as withdrawn.");
            }
            return comparison.isHonest() && gone.isEmpty() ? Main.DONE : Main.FINDINGS;
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
            known("kind of cooling", cooling, Features.COOLING);
            known("use", use, Features.USES);
            SpecPack pack = pack(folder);
            known(
                    "kind of valve train",
                    train,
                    pack.search(t -> true).stream()
                            .map(t -> t.spec().train().kind())
                            .distinct()
                            .sorted()
                            .toList());
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

    private static void known(String what, @Nullable String text, List<String> words) {
        if (text != null && !words.contains(text)) {
            throw new RejectedValueException(
                    what, text, "is not known", String.join(", ", words), "write one of these");
        }
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
            Optional<Template> found = pack(folder).find(id);
            if (found.isEmpty()) {
                return refuse("template " + RejectedValueException.quote(id)
                        + " is not in the pack: \"lash pack list\" names those that are");
            }
            bench.out().print(sheet(found.get()));
            return Main.DONE;
        });
    }

    @Command(
            name = "new",
            description = {
                "Asks for what a template needs and writes it to a file, which must not be there yet.",
                "Exit code: 0 all is there, 1 worked examples are still missing, 2 nothing was written."
            },
            mixinStandardHelpOptions = true)
    int begin(
            @Parameters(paramLabel = "FILE", description = "the file, named after the id: our-templates/yard-pump.json")
                    Path file,
            @Option(
                            names = "--added-in",
                            paramLabel = "VERSION",
                            description =
                                    "the version of the pack that it comes in (default: that of the bundled pack)")
                    @Nullable
                    String addedIn) {
        return reading(() -> {
            String name = String.valueOf(file.getFileName());
            if (!name.matches("[a-z0-9][a-z0-9-]{0,63}\\.json") || name.equals("pack.json")) {
                return refuse("cannot write " + RejectedValueException.quote(file.toString())
                        + ": name the file after the id, in lower-case letters, digits and hyphens, such as "
                        + "yard-pump.json");
            }
            Path folder = file.toAbsolutePath().getParent();
            if (folder == null || !Files.isDirectory(folder)) {
                return refuse("cannot write " + file + ": the folder is not there; make it, or name another file");
            }
            if (Files.exists(file, LinkOption.NOFOLLOW_LINKS)) {
                return alreadyThere(file);
            }
            String version = (addedIn == null
                            ? PackVersion.parse(SpecPack.bundled().version())
                            : PackVersion.parse(addedIn))
                    .toString();
            try (Talk talk = WalkCommand.talk(bench)) {
                return write(file, new PackNew(talk, name.replace(".json", ""), version).ask(), talk);
            } catch (WalkSetup.Ended ended) {
                return refuse("the input ended before all questions were answered: nothing was written");
            }
        });
    }

    private int write(Path file, String json, Talk talk) {
        try {
            Files.writeString(file, json, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
        } catch (FileAlreadyExistsException meanwhile) {
            return alreadyThere(file);
        } catch (IOException failure) {
            return refuse("cannot write " + file + ": " + SheetStore.reason(failure));
        }
        talk.say("Written: " + file);
        List<PackFinding> left = PackCheck.of(String.valueOf(file.getFileName()), json);
        left.forEach(finding -> talk.say("Still to do: " + finding));
        return left.isEmpty() ? Main.DONE : Main.FINDINGS;
    }

    private int alreadyThere(Path file) {
        return refuse(file + " is there already and is not overwritten: name another file");
    }

    private int refuse(String message) {
        Problems.print(message, bench.err());
        return Main.UNUSABLE;
    }

    private static String sheet(Template template) {
        StringBuilder out = new StringBuilder();
        EngineSpec engine = template.spec();
        TextTable.paragraph(engine.title(), "", out);
        String origin = engine.template().orElse(template.id() + ", revision " + template.revision());
        TextTable.paragraph(
                origin + ", " + template.lifeCycle().status().word() + ", in the pack since "
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
