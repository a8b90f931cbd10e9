package dev.lash.examples;

import dev.lash.check.CheckSheet;
import dev.lash.specs.SheetWriter;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.CopyOption;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.Optional;

/**
 * Saves a sheet so that its file is whole at every moment: the new text is written beside it, forced to the disk, and then takes
 * the file's place in one step.
 */
final class SheetStore {
    private final Path file;
    private final Move move;
    private boolean warned;

    /** How a file takes another's place; a parameter so that a file system without that step can be tried. */
    interface Move {
        void move(Path from, Path to, CopyOption how) throws IOException;
    }

    SheetStore(Path file) {
        this(file, (from, to, how) -> Files.move(from, to, how));
    }

    SheetStore(Path file, Move move) {
        this.file = file;
        this.move = move;
    }

    /**
     * Saves the sheet.
     *
     * @return what the mechanic should know, once; mostly nothing
     * @throws IOException if it cannot be saved; the file is then as it was
     */
    Optional<String> save(CheckSheet sheet) throws IOException {
        Path target = Files.isSymbolicLink(file) ? file.toRealPath() : file;
        Path part = target.resolveSibling("." + target.getFileName() + ".lash-part");
        try {
            write(part, SheetWriter.write(sheet) + "\n");
            return replace(part, target);
        } finally {
            Files.deleteIfExists(part);
        }
    }

    private static void write(Path part, String text) throws IOException {
        try (FileChannel channel = FileChannel.open(
                part, StandardOpenOption.CREATE, StandardOpenOption.WRITE, StandardOpenOption.TRUNCATE_EXISTING)) {
            ByteBuffer bytes = ByteBuffer.wrap(text.getBytes(StandardCharsets.UTF_8));
            while (bytes.hasRemaining()) {
                channel.write(bytes);
            }
            channel.force(true);
        }
    }

    private Optional<String> replace(Path part, Path target) throws IOException {
        try {
            move.move(part, target, StandardCopyOption.ATOMIC_MOVE);
            return Optional.empty();
        } catch (AtomicMoveNotSupportedException notHere) {
            move.move(part, target, StandardCopyOption.REPLACE_EXISTING);
            boolean first = !warned;
            warned = true;
            return first
                    ? Optional.of(
                            "This disk cannot replace a file in one step. The sheet is saved all the same, but a power "
                                    + "cut at the very moment of saving could lose it: keep a copy.")
                    : Optional.empty();
        }
    }

    /** Why a file cannot be saved, and what to do, for a person. */
    static String reason(IOException failure) {
        if (failure instanceof NoSuchFileException) {
            return "the folder is not there; make it, or name another file";
        }
        if (failure instanceof AccessDeniedException) {
            return "the folder may not be written; name a file in a folder of your own";
        }
        String text = failure instanceof FileSystemException f && f.getReason() != null
                ? f.getReason()
                : String.valueOf(failure.getMessage());
        return text + "; make room on the disk, or name another file";
    }
}
