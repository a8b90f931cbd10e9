package dev.lash.examples;

import dev.lash.check.CheckSheet;
import dev.lash.examples.Main.Bench;
import dev.lash.specs.DocumentException;
import dev.lash.specs.SheetReader;
import dev.lash.specs.SpecPack;
import java.io.IOException;
import java.nio.file.InvalidPathException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Optional;

/** Reads the sheets that a command line names, and says on standard error what cannot be read. */
final class SheetFiles {
    private SheetFiles() {}

    /** A sheet from a file, or from standard input for {@code -}; empty when it was not readable, which was then said. */
    static Optional<CheckSheet> read(String sheet, Folders folders, Bench bench) {
        return folders.pack(bench).flatMap(pack -> read(sheet, pack, bench));
    }

    private static Optional<CheckSheet> read(String sheet, SpecPack pack, Bench bench) {
        SheetReader reader = new SheetReader(pack);
        try {
            return Optional.of(
                    sheet.equals("-") ? reader.read("standard input", bench.in()) : reader.read(Path.of(sheet)));
        } catch (DocumentException broken) {
            Problems.print(broken, bench.err());
        } catch (NoSuchFileException | InvalidPathException missing) {
            Problems.print(
                    "cannot read " + sheet + ": there is no such file; check the name and the folder", bench.err());
        } catch (IOException unreadable) {
            Problems.print(
                    "cannot read " + sheet + ": it is a folder or may not be read; name a readable file", bench.err());
        }
        return Optional.empty();
    }
}
