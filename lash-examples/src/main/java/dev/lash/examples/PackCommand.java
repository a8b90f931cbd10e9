package dev.lash.examples;

import dev.lash.engine.EngineSpec;
import dev.lash.engine.Figure;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveTrain;
import dev.lash.examples.Main.Bench;
import dev.lash.gauge.Trial;
import dev.lash.measure.Length;
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
import dev.lash.specs.TemplateExample;
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
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
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
    private static final int LONGEST_VALUE = 60;

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
            int templates = PackCheck.count(folder);
            if (templates == 0 && findings.isEmpty()) {
                return refuse("there is no template in " + RejectedValueException.quote(folder.toString())
                        + ": name the folder that the files lie in, or begin one with \"lash pack new\"");
            }
            String wrong = findings.isEmpty()
                    ? "nothing is"
                    : TextReport.counted(findings.size(), "thing") + (findings.size() == 1 ? " is" : " are");
            bench.out().println(TextReport.counted(templates, "template") + ": " + wrong + " wrong.");
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
        TextTable.paragraph(finding.rule().id(), "  rule      ", out);
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
            comparison.changes().forEach(change -> bench.out().println(line(change)));
            bench.out().println(version(comparison));
            comparison.findings().forEach(this::print);
            return comparison.isSound() ? Main.DONE : Main.FINDINGS;
        });
    }

    /** A change on one line; what is too long for it is cut. */
    private static String line(PackComparison.Change change) {
        return change.step().name().toLowerCase(Locale.ROOT) + "  "
                + new PackComparison.Change(
                        change.template(), change.pointer(), cut(change.before()), cut(change.after()), change.step());
    }

    private static String cut(String value) {
        return value.length() <= LONGEST_VALUE ? value : value.substring(0, LONGEST_VALUE) + " …";
    }

    /** Whether the declared version is far enough from the old one. */
    private static String version(PackComparison comparison) {
        PackVersion from = comparison.oldVersion();
        PackVersion to = comparison.newVersion();
        PackVersion.Step needed = comparison.needed();
        String changed = needed == PackVersion.Step.NONE
                ? "Nothing changed."
                : "The changes need a " + needed.name().toLowerCase(Locale.ROOT) + " step of the version.";
        if (from == null || to == null) {
            return changed + " Which version is " + (from == null ? "the old" : "the new")
                    + " one? Its pack.json does not say, or is missing.";
        }
        return changed + " Declared: " + from + " -> " + to
                + (comparison.isHonest() ? ", which is honest." : ", which is NOT enough.");
    }

    @Command(
            name = "list",
            description = "Lists the templates, all or those that fit.",
            mixinStandardHelpOptions = true)
    int list(
            @Option(names = "--train", paramLabel = "KIND", description = "such as rocker-screw") @Nullable
                    String train,
            @Option(names = "--cylinders", paramLabel = "N", description = "how many cylinders") @Nullable
                    String cylinders,
            @Option(names = "--cooling", paramLabel = "KIND", description = "air, oil or liquid") @Nullable
                    String cooling,
            @Option(names = "--use", paramLabel = "USE", description = "such as motorcycle or generator") @Nullable
                    String use,
            @Mixin Folders folders) {
        return reading(() -> {
            Integer wanted = cylinders == null ? null : cylinders(cylinders);
            known("kind of cooling", cooling, Features.COOLING);
            known("use", use, Features.USES);
            Optional<SpecPack> laidOver = folders.pack(bench);
            if (laidOver.isEmpty()) {
                return Main.UNUSABLE;
            }
            SpecPack pack = laidOver.get();
            known(
                    "kind of valve train",
                    train,
                    pack.listed().stream()
                            .map(SpecPack.Listed::train)
                            .distinct()
                            .sorted()
                            .toList());
            pack.overlays().forEach(bench.err()::println);
            List<SpecPack.Listed> found = pack.listed().stream()
                    .filter(t -> t.status() == Template.Status.ACTIVE)
                    .filter(t -> train == null || t.train().equals(train))
                    .filter(t -> wanted == null || t.cylinders() == wanted)
                    .filter(t -> cooling == null || t.features().cooling().equals(cooling))
                    .filter(t -> use == null || t.features().uses().contains(use))
                    .toList();
            StringBuilder out = new StringBuilder();
            found.forEach(t -> TextTable.paragraph(t.id() + ": " + t.title(), "- ", out));
            bench.out().print(out);
            bench.out().println(TextReport.counted(found.size(), "template"));
            return Main.DONE;
        });
    }

    private static int cylinders(String text) {
        if (!text.matches("[1-9][0-9]?")) {
            throw new RejectedValueException(
                    "number of cylinders",
                    text,
                    "is no number of cylinders",
                    "a whole number from 1, such as 2",
                    "write it in digits, or leave it out");
        }
        return Integer.parseInt(text);
    }

    private static void known(String what, @Nullable String text, List<String> words) {
        if (text != null && !words.contains(text)) {
            throw new RejectedValueException(
                    what, text, "is not known", String.join(", ", words), "write one of these");
        }
    }

    @Command(name = "show", description = "Shows a template as a data sheet.", mixinStandardHelpOptions = true)
    int show(@Parameters(paramLabel = "ID", description = "the id of a template") String id, @Mixin Folders folders) {
        return reading(() -> {
            Optional<SpecPack> pack = folders.pack(bench);
            if (pack.isEmpty()) {
                return Main.UNUSABLE;
            }
            Optional<Template> found = pack.get().find(id);
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
                return refuse("left before all questions were answered: nothing was written");
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
        Template.LifeCycle life = template.lifeCycle();
        TextTable.paragraph(
                origin + ", " + life.status().word()
                        // a shop's own names its file in place of a version of the pack, to which it does not belong
                        + (template.isShopsOwn() ? "" : ", in the pack since " + life.addedIn())
                        + (life.deprecatedIn().isEmpty() ? "" : ", advised against since " + life.deprecatedIn())
                        + (life.replacedBy().isEmpty() ? "" : ", take " + life.replacedBy() + " instead"),
                "",
                out);
        out.append('\n');
        TextTable table = new TextTable(TextReport.WIDTH);
        row(table, "Figure", "Source", "Value");
        row(table, "Cylinders", "", String.valueOf(engine.firingOrder().cylinders()));
        row(table, "Valves", "", engine.valves().stream().map(ValveId::toString).collect(Collectors.joining(" ")));
        row(table, "Train", "", engine.train().kind());
        Features features = template.features();
        if (!features.cooling().isEmpty()) {
            row(table, "Cooling", "", features.cooling());
        }
        if (!features.uses().isEmpty()) {
            row(table, "Used in", "", String.join(", ", features.uses()));
        }
        for (Figure figure : Figure.values()) {
            boolean shown = (!figure.isSetting() && figure != Figure.FIRING_INTERVALS)
                    || engine.origins().containsKey(figure);
            engine.findFigure(figure, LengthUnit.MILLIMETRE)
                    .filter(value -> shown)
                    .ifPresent(value -> row(
                            table,
                            capital(figure.words()),
                            engine.origin(figure).kind().toString(),
                            value));
        }
        out.append(table.write()).append('\n');
        engine.wearPrior()
                .ifPresent(prior -> TextTable.paragraph(
                        "Assumed wear: the valves of a role differ by " + prior.spread() + ", readings scatter by "
                                + prior.scatter() + ", each of these known to a factor of " + prior.factor() + "; "
                                + prior.basis() + ".",
                        "- ",
                        out));
        if (!engine.tools().isEmpty()) {
            TextTable.paragraph("Tools: " + String.join(", ", engine.tools()) + ".", "- ", out);
        }
        engine.cautions().forEach(c -> TextTable.paragraph(c, "! ", out));
        template.notes().forEach(n -> TextTable.paragraph(n, "- ", out));
        template.sources().forEach((name, source) -> TextTable.paragraph(source(template, name, source), "- ", out));
        template.examples().forEach(example -> TextTable.paragraph(example(example), "- ", out));
        if (engine.train() instanceof ValveTrain.Hydraulic) {
            TextTable.paragraph("Clearance work does not apply to hydraulic lifters.", "", out);
        }
        return out.toString();
    }

    private static void row(TextTable table, String... cells) {
        table.row(Arrays.stream(cells).map(List::of).toList());
    }

    private static String capital(String words) {
        return Character.toUpperCase(words.charAt(0)) + words.substring(1);
    }

    /** A source: what it is, how far to trust it, and which figures have it. */
    private static String source(Template template, String name, Template.Source source) {
        StringBuilder text = new StringBuilder("Source ");
        text.append(source.kind().word().replace('-', ' ')).append(": ").append(source.title());
        if (source.year() > 0) {
            text.append(" (").append(source.year()).append(')');
        }
        boolean published = source.kind() == Template.SourceKind.PUBLISHED;
        for (String detail : List.of("publisher", "edition", "locator")) {
            Optional.ofNullable(source.details().get(detail))
                    .or(() -> Optional.of(detail + " not known").filter(words -> published))
                    .ifPresent(words -> text.append(", ").append(words));
        }
        Optional.ofNullable(source.details().get("reliability"))
                .ifPresent(words -> text.append(". Reliability ").append(words));
        Optional.ofNullable(source.details().get("note"))
                .ifPresent(words -> text.append(". ").append(words.replaceAll("\\.$", "")));
        String figures = template.provenance().entrySet().stream()
                .filter(figure -> figure.getValue().equals(name))
                .map(figure -> figure.getKey().substring(1))
                .sorted()
                .collect(Collectors.joining(", "));
        return text.append(". For: ").append(figures).append('.').toString();
    }

    private static String example(TemplateExample example) {
        Map<String, String> adjustment = example.adjustment();
        String note = example.note().isEmpty() ? "" : ". " + example.note().replaceAll("\\.$", "") + ".";
        return "Example " + example.gap().behind(example.valve().toString()) + ": "
                + trials(example.trials())
                + (example.loadedTrials().isEmpty() ? "" : "; loaded " + trials(example.loadedTrials()))
                + Optional.ofNullable(example.shim())
                        .map(shim -> "; shim " + shim)
                        .orElse("")
                + Optional.ofNullable(example.eccentricAngle())
                        .map(angle -> "; eccentric at " + angle + " deg")
                        .orElse("")
                + (example.leaves().isEmpty()
                        ? ""
                        : "; leaves besides "
                                + example.leaves().stream()
                                        .map(Length::toString)
                                        .collect(Collectors.joining(", ")))
                + "; so " + example.bracket() + ": " + example.verdict() + "; "
                + adjustment.get("kind")
                + adjustment.entrySet().stream()
                        .filter(figure -> !figure.getKey().equals("kind"))
                        .map(figure -> ", " + figure.getKey() + " " + figure.getValue())
                        .collect(Collectors.joining())
                + note;
    }

    private static String trials(List<Trial> trials) {
        return trials.stream().map(Trial::toString).collect(Collectors.joining(", "));
    }
}
