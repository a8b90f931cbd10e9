package dev.lash.examples;

import dev.lash.adjust.RoundingHabit;
import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import dev.lash.specs.DocumentException;
import dev.lash.specs.Versions;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.InputStream;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.stream.Collectors;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.IVersionProvider;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;
import picocli.CommandLine.TypeConversionException;

/** The program: {@code lash check SHEET...}. */
@Command(
        name = "lash",
        description =
                "Valve-clearance work on four-stroke engines, from feeler-leaf trials to verdicts and adjustments.",
        mixinStandardHelpOptions = true,
        versionProvider = Main.Version.class,
        subcommands = {
            CheckCommand.class,
            SetCheckCommand.class,
            CrankCommand.class,
            PlanCommand.class,
            ShimsCommand.class,
            ForecastCommand.class,
            PackCommand.class,
            WalkCommand.class,
            ImportCommand.class
        })
public final class Main implements Runnable {
    /** Everything went through. */
    static final int DONE = 0;

    /** A finding is of error severity. */
    static final int FINDINGS = 1;

    /** The command line or an input could not be used. */
    static final int UNUSABLE = 2;

    @Spec
    @SuppressWarnings("NullAway.Init") // picocli sets it
    private CommandSpec spec;

    /**
     * Runs the program and ends the virtual machine with its exit code.
     *
     * @param args the command line
     */
    public static void main(String[] args) {
        PrintStream out = utf8(FileDescriptor.out);
        PrintStream err = utf8(FileDescriptor.err);
        boolean colour = CommandLine.Help.Ansi.AUTO.enabled();
        int code = run(args, new Bench(System.in, out, err, colour));
        out.flush();
        err.flush();
        System.exit(code);
    }

    private static PrintStream utf8(FileDescriptor descriptor) {
        return new PrintStream(new FileOutputStream(descriptor), true, StandardCharsets.UTF_8);
    }

    /** Runs the program with the given streams; returns the exit code. */
    static int run(String[] args, Bench bench) {
        CommandLine line = new CommandLine(new Main(), new BenchFactory(bench));
        line.setOut(bench.writer(bench.out()));
        line.setErr(bench.writer(bench.err()));
        line.setUsageHelpAutoWidth(false);
        line.registerConverter(Path.class, Main::path);
        line.registerConverter(RoundingHabit.class, Main::habit);
        line.registerConverter(Ratio.class, Main::fraction);
        line.setExecutionExceptionHandler((failure, command, parsed) -> {
            if (failure instanceof DocumentException broken) {
                Problems.print(broken, bench.err());
            } else {
                Problems.print("this is a fault in the program, please report it: " + failure, bench.err());
            }
            return UNUSABLE;
        });
        return line.execute(args);
    }

    private static Path path(String text) {
        try {
            return Path.of(text);
        } catch (InvalidPathException noName) {
            throw new TypeConversionException(RejectedValueException.quote(text) + " is no file name");
        }
    }

    private static RoundingHabit habit(String text) {
        return Arrays.stream(RoundingHabit.values())
                .filter(habit -> habit.code().equals(text))
                .findFirst()
                .orElseThrow(() -> new TypeConversionException(RejectedValueException.quote(text)
                        + " is no habit of rounding; expected one of "
                        + Arrays.stream(RoundingHabit.values())
                                .map(RoundingHabit::code)
                                .collect(Collectors.joining(", "))));
    }

    /** A fraction of a window, which is all that the commands take as a ratio. */
    private static Ratio fraction(String text) {
        try {
            Ratio fraction = Ratio.parse(text);
            if (fraction.signum() >= 0 && fraction.compareTo(Ratio.ONE) <= 0) {
                return fraction;
            }
        } catch (RejectedValueException noNumber) {
            // said below, as for a number out of range
        }
        throw new TypeConversionException(
                RejectedValueException.quote(text) + " is no fraction of a window; expected 0 to 1, such as 0.5");
    }

    @Override
    public void run() {
        throw new ParameterException(
                spec.commandLine(),
                "Name a command: " + String.join(", ", spec.subcommands().keySet()));
    }

    /**
     * Where the program reads and writes.
     *
     * @param in standard input
     * @param out standard output
     * @param err standard error
     * @param colour whether the output is a terminal that shows colours
     */
    record Bench(InputStream in, PrintStream out, PrintStream err, boolean colour) {
        PrintWriter writer(PrintStream stream) {
            return new PrintWriter(stream, true, StandardCharsets.UTF_8);
        }
    }

    /** Hands the streams to the commands. */
    private record BenchFactory(Bench bench) implements CommandLine.IFactory {
        @Override
        public <K> K create(Class<K> type) throws Exception {
            if (type == CheckCommand.class) {
                return type.cast(new CheckCommand(bench));
            }
            if (type == WalkCommand.class) {
                return type.cast(new WalkCommand(bench, Clock.system(ZoneId.systemDefault())));
            }
            if (type == PackCommand.class) {
                return type.cast(new PackCommand(bench));
            }
            if (type == ImportCommand.class) {
                return type.cast(new ImportCommand(bench, Clock.system(ZoneId.systemDefault())));
            }
            if (type == ForecastCommand.class) {
                return type.cast(new ForecastCommand(bench));
            }
            if (type == ShimsCommand.class) {
                return type.cast(new ShimsCommand(bench));
            }
            if (type == CrankCommand.class) {
                return type.cast(new CrankCommand(bench));
            }
            if (type == PlanCommand.class) {
                return type.cast(new PlanCommand(bench));
            }
            if (type == SetCheckCommand.class) {
                return type.cast(new SetCheckCommand(bench));
            }
            return CommandLine.defaultFactory().create(type);
        }
    }

    /** Tells the version. */
    static final class Version implements IVersionProvider {
        @Override
        public String[] getVersion() {
            return new String[] {"lash " + Versions.library()};
        }
    }
}
