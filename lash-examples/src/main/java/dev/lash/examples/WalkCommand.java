package dev.lash.examples;

import dev.lash.check.CheckSheet;
import dev.lash.engine.ValveTrain;
import dev.lash.examples.Main.Bench;
import dev.lash.measure.RejectedValueException;
import dev.lash.specs.SpecPack;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code lash walk}: a check at the bench, one leaf at a time. */
@Command(
        name = "walk",
        description = {
            "Walks through a check at the bench: says which leaf to offer, takes each answer by one key, and writes the "
                    + "sheet after every answer.",
            "What is not given here is asked. Lengths without a unit are in the unit of the leaves. An empty text (\"\") "
                    + "means: not recorded.",
            "Exit code: 0 done or left, 1 a finding of the report is an error, 2 the command line or the sheet cannot be "
                    + "used, or the sheet cannot be saved."
        },
        mixinStandardHelpOptions = true)
final class WalkCommand implements Callable<Integer> {
    private final Bench bench;
    private final Clock clock;

    @Parameters(paramLabel = "SHEET", description = "the sheet to write; it must not be there yet")
    private String sheet = "";

    @Option(names = "--resume", description = "go on with the sheet that is there")
    private boolean resume;

    @Option(
            names = "--from",
            paramLabel = "OTHER-SHEET",
            description = "take engine, leaves, rule, shim box and history from another sheet")
    private @Nullable String from;

    @Option(names = "--template", paramLabel = "ID", description = "take the engine from a template of the pack")
    private @Nullable String template;

    @Option(names = "--leaves", paramLabel = "LIST", description = "the leaves owned, or a set such as metric-20")
    private @Nullable String leaves;

    @Option(names = "--unit", paramLabel = "UNIT", description = "mm or in, for the leaves")
    private @Nullable String unit;

    @Option(names = "--stack", paramLabel = "N", description = "how many leaves may be laid together, 1 to 3")
    private @Nullable String stack;

    @Option(names = "--rule", paramLabel = "RULE", description = "simple or guarded")
    private @Nullable String rule;

    @Option(names = "--tolerance", paramLabel = "LENGTH", description = "tolerance of a leaf, for the guarded rule")
    private @Nullable String tolerance;

    @Option(
            names = "--drag-allowance",
            paramLabel = "LENGTH",
            description = "how far a drag may be off, for the guarded rule")
    private @Nullable String dragAllowance;

    @Option(names = "--intake", paramLabel = "WINDOW", description = "the intake window, such as 0.08..0.13 mm")
    private @Nullable String intake;

    @Option(names = "--exhaust", paramLabel = "WINDOW", description = "the exhaust window")
    private @Nullable String exhaust;

    @Option(names = "--confirmed-from", paramLabel = "TEXT", description = "where the shop read the windows")
    private @Nullable String confirmedFrom;

    @Option(names = "--machine", paramLabel = "TEXT", description = "which machine")
    private @Nullable String machine;

    @Option(names = "--date", paramLabel = "DATE", description = "the date, such as 2031-04-02")
    private @Nullable String date;

    @Option(names = "--usage", paramLabel = "USAGE", description = "what the counter shows, such as \"18450 km\"")
    private @Nullable String usage;

    @Option(names = "--temperature", paramLabel = "T", description = "how warm the engine is, such as \"19 C\"")
    private @Nullable String temperature;

    @Mixin
    private final Folders folders = new Folders();

    WalkCommand(Bench bench, Clock clock) {
        this.bench = bench;
        this.clock = clock;
    }

    @Override
    public Integer call() {
        Path file;
        try {
            file = Path.of(sheet);
        } catch (InvalidPathException noName) {
            return refuse("cannot write " + RejectedValueException.quote(sheet) + ": it is no file name");
        }
        try {
            return resume ? resume(file) : begin(file);
        } catch (RejectedValueException rejected) {
            return refuse(String.valueOf(rejected.getMessage()));
        } catch (IOException failure) {
            return refuse("cannot save " + file + ": " + SheetStore.reason(failure)
                    + (Files.exists(file) ? ". The file holds every answer but the last; --resume goes on" : ""));
        }
    }

    private int refuse(String message) {
        Problems.print(message, bench.err());
        return Main.UNUSABLE;
    }

    private int resume(Path file) throws IOException {
        if (Stream.of(
                        from,
                        template,
                        leaves,
                        unit,
                        stack,
                        rule,
                        tolerance,
                        dragAllowance,
                        intake,
                        exhaust,
                        confirmedFrom,
                        machine,
                        date,
                        usage,
                        temperature)
                .anyMatch(Objects::nonNull)) {
            return refuse("--resume takes all from the sheet: leave the other options out");
        }
        if (!Files.exists(file)) {
            return refuse(
                    "there is no sheet " + file + " to go on with: leave --resume out to begin it, or check the name");
        }
        Optional<CheckSheet> read = SheetFiles.read(sheet, folders, bench);
        if (read.isEmpty()) {
            return Main.UNUSABLE;
        }
        if (read.get().engine().train() instanceof ValveTrain.Hydraulic) {
            return refuse("the engine of " + file + " has hydraulic lifters and no clearance to measure");
        }
        try (Talk talk = talk(bench)) {
            return new Walk(talk, new SheetStore(file)::save, sheet, read.get(), bench.colour()).run();
        }
    }

    private int begin(Path file) throws IOException {
        if (sheet.equals("-") || Files.isDirectory(file) || file.getFileName() == null) {
            return refuse("cannot write " + sheet + ": name a file for the sheet, such as bike.json");
        }
        if (isThere(file)) {
            return alreadyThere(file);
        }
        Path folder = Objects.requireNonNullElse(file.toAbsolutePath().getParent(), file);
        if (!Files.isDirectory(folder)) {
            return refuse("cannot write " + file + ": the folder is not there; make it, or name another file");
        }
        if (!Files.isWritable(folder)) {
            return refuse(
                    "cannot write " + file + ": the folder may not be written; name a file in a folder of your own");
        }
        if (from != null && template != null) {
            return refuse("--from and --template both give the engine: leave one out");
        }
        CheckSheet other = null;
        if (from != null) {
            Optional<CheckSheet> read = SheetFiles.read(from, folders, bench);
            if (read.isEmpty()) {
                return Main.UNUSABLE;
            }
            other = read.get();
        }
        Optional<SpecPack> pack = folders.pack(bench);
        if (pack.isEmpty()) {
            return Main.UNUSABLE;
        }
        try (Talk talk = talk(bench)) {
            CheckSheet begun = new WalkSetup(talk, pack.get(), LocalDate.now(clock), given(other)).sheet();
            if (isThere(file)) {
                return alreadyThere(file);
            }
            SheetStore store = new SheetStore(file);
            store.save(begun).ifPresent(talk::say);
            return new Walk(talk, store::save, sheet, begun, bench.colour()).run();
        } catch (WalkSetup.Ended ended) {
            return refuse("the input ended before all questions were answered: nothing was written");
        }
    }

    private WalkSetup.Given given(@Nullable CheckSheet other) {
        return new WalkSetup.Given(
                other,
                template,
                unit,
                leaves,
                stack,
                rule,
                tolerance,
                dragAllowance,
                intake,
                exhaust,
                confirmedFrom,
                machine,
                date,
                usage,
                temperature);
    }

    private static boolean isThere(Path file) {
        return Files.exists(file, LinkOption.NOFOLLOW_LINKS);
    }

    private int alreadyThere(Path file) {
        return refuse(file + " is there already and is not overwritten: go on with it (lash walk " + file
                + " --resume), or name another file");
    }

    /** Single keys where standard input is a terminal, else whatever comes in. */
    static Talk talk(Bench bench) {
        Optional<Talk> terminal = bench.in() == System.in ? TerminalTalk.open(bench.out()) : Optional.empty();
        return terminal.orElseGet(() -> new StreamTalk(bench.in(), bench.out()));
    }
}
