package dev.lash.examples;

import dev.lash.examples.Main.Bench;
import dev.lash.specs.DocumentException;
import dev.lash.specs.SpecPack;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** The option {@code --folder}, which every command has that reads a sheet or a template. */
final class Folders {
    @Option(
            names = "--folder",
            paramLabel = "DIR",
            description =
                    "a folder of the shop's own templates, laid over the bundled pack; may be repeated, the last one wins")
    private List<Path> folders = List.of();

    private @Nullable SpecPack pack;

    /** The pack with the folders over it; empty where one cannot be used, which was then said. */
    Optional<SpecPack> pack(Bench bench) {
        if (pack == null) {
            SpecPack laidOver = SpecPack.bundled();
            for (Path folder : folders) {
                try {
                    laidOver = laidOver.withFolder(folder);
                } catch (DocumentException broken) {
                    Problems.print(broken, bench.err());
                    return Optional.empty();
                } catch (IOException unreadable) {
                    Problems.print(
                            "cannot read the folder " + folder + ": " + SheetStore.reason(unreadable)
                                    + "; name a folder of templates that may be read",
                            bench.err());
                    return Optional.empty();
                }
            }
            pack = laidOver;
        }
        return Optional.of(pack);
    }
}
