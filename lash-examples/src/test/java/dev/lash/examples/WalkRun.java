package dev.lash.examples;

import dev.lash.check.CheckSheet;
import dev.lash.check.ValveReading;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.gauge.GaugeSet;
import dev.lash.measure.LengthUnit;
import dev.lash.specs.SheetReader;
import dev.lash.specs.SheetWriter;
import dev.lash.specs.SpecPack;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.IntConsumer;

/** Runs {@code lash walk} as the shell would, with scripted answers. The machines are those of a hill-country riding school. */
record WalkRun(int code, String out, String err) {
    static final GaugeSet LEAVES = GaugeSet.of(
            LengthUnit.MILLIMETRE,
            "0.05",
            "0.07",
            "0.08",
            "0.10",
            "0.12",
            "0.13",
            "0.15",
            "0.17",
            "0.20",
            "0.22",
            "0.25",
            "0.30",
            "0.35");

    static WalkRun of(InputStream in, String... args) {
        return of(in, new ByteArrayOutputStream(), args);
    }

    static WalkRun of(InputStream in, ByteArrayOutputStream out, String... args) {
        ByteArrayOutputStream err = new ByteArrayOutputStream();
        List<String> all = new ArrayList<>(List.of("walk"));
        all.addAll(List.of(args));
        int code = Main.run(
                all.toArray(new String[0]),
                new Main.Bench(
                        in,
                        new PrintStream(out, true, StandardCharsets.UTF_8),
                        new PrintStream(err, true, StandardCharsets.UTF_8),
                        false));
        return new WalkRun(code, out.toString(StandardCharsets.UTF_8), err.toString(StandardCharsets.UTF_8));
    }

    static WalkRun of(String script, String... args) {
        return of(new ByteArrayInputStream(script.getBytes(StandardCharsets.UTF_8)), args);
    }

    /** Goes on with the sheet. */
    static WalkRun resume(Path file, String script) {
        return of(script, file.toString(), "--resume");
    }

    /** A stream that hands over one character at a time, and says before each the how-manieth it is. */
    static InputStream oneByOne(String script, IntConsumer before) {
        byte[] bytes = script.getBytes(StandardCharsets.UTF_8);
        return new InputStream() {
            private int next;

            @Override
            public int read() {
                before.accept(next);
                return next < bytes.length ? bytes[next++] & 0xff : -1;
            }

            @Override
            public int read(byte[] into, int off, int len) {
                int b = read();
                if (b < 0) {
                    return -1;
                }
                into[off] = (byte) b;
                return 1;
            }
        };
    }

    static CheckSheet read(Path file) {
        try {
            return new SheetReader(SpecPack.bundled()).read(file);
        } catch (IOException unreadable) {
            throw new UncheckedIOException(unreadable);
        }
    }

    static String text(Path file) {
        try {
            return Files.readString(file);
        } catch (IOException unreadable) {
            throw new UncheckedIOException(unreadable);
        }
    }

    static void write(Path file, CheckSheet sheet) {
        try {
            Files.writeString(file, SheetWriter.write(sheet));
        } catch (IOException unwritable) {
            throw new UncheckedIOException(unwritable);
        }
    }

    static ValveReading valve(Path file, String valve) {
        return WalkSheet.reading(read(file), ValveId.parse(valve));
    }

    /** An engine of the pack with windows that the school has confirmed. */
    static EngineSpec engine(String template, String intake, String exhaust) {
        return SpecPack.bundled().get(template).spec().toBuilder()
                .clearance(ValveRole.INTAKE, confirmed(intake))
                .clearance(ValveRole.EXHAUST, confirmed(exhaust))
                .build();
    }

    private static ClearanceSpec confirmed(String window) {
        return new ClearanceSpec(
                ClearanceWindow.parse(window), ClearanceWindow.parse(window), "the school's workshop manual, page 3-8");
    }

    /** Practice bike 2, a parallel twin with screw rockers. */
    static CheckSheet twin(GaugeSet gauges) {
        return CheckSheet.builder(engine("screw-twin", "0.08..0.13 mm", "0.17..0.22 mm"), gauges)
                .machine("Hill riding school, practice bike 2")
                .build();
    }

    /** The school's quad, a single with screw rockers. */
    static CheckSheet quad(GaugeSet gauges) {
        return CheckSheet.builder(engine("screw-single", "0.08..0.13 mm", "0.17..0.22 mm"), gauges)
                .machine("Hill riding school, quad 1")
                .build();
    }

    /** The instructor's bike, a four with shims over the buckets. */
    static CheckSheet four(GaugeSet gauges) {
        return CheckSheet.builder(engine("over-bucket-four", "0.10..0.17 mm", "0.15..0.22 mm"), gauges)
                .machine("Hill riding school, instructor's bike")
                .build();
    }
}
