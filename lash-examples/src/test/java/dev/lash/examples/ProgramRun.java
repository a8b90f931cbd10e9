package dev.lash.examples;

import dev.lash.check.CheckSheet;
import dev.lash.specs.SheetWriter;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;

/** A run of the program as the shell would make it, with a sheet on standard input. */
record ProgramRun(int code, String out, String err) {
    static ProgramRun of(String input, String... args) {
        return of(input, false, args);
    }

    static ProgramRun of(String input, boolean colour, String... args) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ByteArrayOutputStream err = new ByteArrayOutputStream();
        int code = Main.run(
                args,
                new Main.Bench(
                        new ByteArrayInputStream(input.getBytes(StandardCharsets.UTF_8)),
                        new PrintStream(out, true, StandardCharsets.UTF_8),
                        new PrintStream(err, true, StandardCharsets.UTF_8),
                        colour));
        return new ProgramRun(code, out.toString(StandardCharsets.UTF_8), err.toString(StandardCharsets.UTF_8));
    }

    static ProgramRun of(CheckSheet sheet, String... args) {
        return of(SheetWriter.write(sheet), args);
    }
}
