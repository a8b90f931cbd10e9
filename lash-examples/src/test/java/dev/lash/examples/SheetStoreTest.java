package dev.lash.examples;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lash.check.CheckSheet;
import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SheetStoreTest {
    private static final CheckSheet QUAD = WalkRun.quad(WalkRun.LEAVES);
    private static final CheckSheet TWIN = WalkRun.twin(WalkRun.LEAVES);

    @TempDir
    Path folder;

    @Test
    void savesWhatTheReaderReadsAndLeavesNothingBehind() throws IOException {
        Path file = folder.resolve("bike.json");
        SheetStore store = new SheetStore(file);
        assertThat(store.save(QUAD)).isEmpty();
        assertThat(WalkRun.read(file)).isEqualTo(QUAD);
        assertThat(store.save(TWIN)).isEmpty();
        assertThat(WalkRun.read(file)).isEqualTo(TWIN);
        assertThat(folder).isDirectoryContaining(f -> f.equals(file));
        assertThat(folder.toFile().list()).hasSize(1);
    }

    @Test
    void newTextIsCompleteOnTheDiskBeforeItTakesThePlace() throws IOException {
        Path file = folder.resolve("bike.json");
        new SheetStore(file).save(QUAD);
        List<String> moves = new ArrayList<>();
        new SheetStore(file, (from, to, how) -> {
                    assertThat(from).hasParent(folder);
                    assertThat(WalkRun.read(from)).isEqualTo(TWIN);
                    assertThat(WalkRun.read(to)).isEqualTo(QUAD);
                    moves.add(how.toString());
                    Files.move(from, to, how);
                })
                .save(TWIN);
        assertThat(moves).containsExactly("ATOMIC_MOVE");
    }

    @Test
    void diskWithoutAtomicReplaceIsSaidOnce() throws IOException {
        Path file = folder.resolve("bike.json");
        SheetStore store = new SheetStore(file, (from, to, how) -> {
            if (how == StandardCopyOption.ATOMIC_MOVE) {
                throw new AtomicMoveNotSupportedException(from.toString(), to.toString(), "other disk");
            }
            Files.move(from, to, how);
        });
        assertThat(store.save(QUAD)).hasValueSatisfying(word -> assertThat(word).contains("keep a copy"));
        assertThat(store.save(TWIN)).isEmpty();
        assertThat(WalkRun.read(file)).isEqualTo(TWIN);
    }

    @Test
    void sheetStaysAsItWasWhenTheNewOneCannotBeSaved() throws IOException {
        Path file = folder.resolve("bike.json");
        new SheetStore(file).save(QUAD);
        SheetStore full = new SheetStore(file, (from, to, how) -> {
            throw new FileSystemException(to.toString(), null, "No space left on device");
        });
        assertThatThrownBy(() -> full.save(TWIN)).isInstanceOf(FileSystemException.class);
        assertThat(WalkRun.read(file)).isEqualTo(QUAD);
        assertThat(folder.toFile().list()).containsExactly("bike.json");
    }

    @Test
    void linkStaysALink() throws IOException {
        Path real = Files.createDirectory(folder.resolve("sheets")).resolve("bike.json");
        new SheetStore(real).save(QUAD);
        Path link = Files.createSymbolicLink(folder.resolve("bike.json"), real);
        new SheetStore(link).save(TWIN);
        assertThat(link).isSymbolicLink();
        assertThat(WalkRun.read(real)).isEqualTo(TWIN);
    }

    @Test
    void reasonsSayWhatToDo() {
        assertThat(SheetStore.reason(new NoSuchFileException("x"))).contains("the folder is not there");
        assertThat(SheetStore.reason(new AccessDeniedException("x"))).contains("may not be written");
        assertThat(SheetStore.reason(new FileSystemException("x", null, "No space left on device")))
                .isEqualTo("No space left on device; make room on the disk, or name another file");
        assertThat(SheetStore.reason(new IOException("No space left on device")))
                .startsWith("No space left on device; make room");
    }
}
