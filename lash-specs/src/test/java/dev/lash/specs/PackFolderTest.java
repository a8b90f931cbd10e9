package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Folders that a shop lays over the pack may hold anything: what is refused, and that nothing outside them is read. */
class PackFolderTest {
    private static final String SOUND = PackFiles.template("screw-single");

    @TempDir
    Path outer;

    private Path folder;

    @BeforeEach
    void makeFolder() throws IOException {
        folder = Files.createDirectory(outer.resolve("shop"));
    }

    /** The only finding, which also makes the pack refuse the folder. */
    private PackFinding only() throws IOException {
        PackFolder read = PackFolder.read(folder);
        assertThat(read.findings()).hasSize(1);
        PackFinding finding = read.findings().get(0);
        assertThatThrownBy(() -> SpecPack.bundled().withFolder(folder))
                .isInstanceOf(DocumentException.class)
                .hasMessageStartingWith(folder + "/" + finding.file() + ", line " + finding.line())
                .hasMessageContaining(finding.problem())
                .hasMessageEndingWith(finding.mend());
        assertThat(PackCheck.of(folder)).contains(finding);
        return finding;
    }

    private static DocumentException refused(Path folder) {
        DocumentException refused = catchThrowableOfType(DocumentException.class, () -> PackCheck.of(folder));
        assertThatThrownBy(() -> SpecPack.bundled().withFolder(folder)).hasMessage(refused.getMessage());
        assertThatThrownBy(() -> PackCheck.write(folder)).hasMessage(refused.getMessage());
        return refused;
    }

    @Test
    void readsPlainFilesOfTheFolder() throws IOException {
        PackFiles.write(folder, SOUND);
        Files.writeString(folder.resolve("read-me.txt"), "not JSON");

        PackFolder read = PackFolder.read(folder);

        assertThat(read.findings()).isEmpty();
        assertThat(read.entries()).extracting(PackFolder.Entry::name).containsExactly("screw-single.json");
        assertThat(read.index()).isEmpty();
    }

    @Test
    void anEmptyFolderChangesNothing() throws IOException {
        assertThat(PackCheck.of(folder)).isEmpty();
        assertThat(SpecPack.bundled().withFolder(folder).ids())
                .isEqualTo(SpecPack.bundled().ids());
    }

    @Test
    void saysWhichFilesAreNotRead() throws IOException {
        for (String name : List.of("Screw-Single.JSON", "screw-twin.json.txt", "screw-four.json~")) {
            Files.writeString(folder.resolve(name), PackFiles.template("screw-single"));

            PackFinding finding = only();

            assertThat(finding.file()).isEqualTo(name);
            assertThat(finding.problem()).contains("is not read");
            Files.delete(folder.resolve(name));
        }
        Files.writeString(folder.resolve("README.md"), "Our templates.");
        assertThat(PackCheck.of(folder)).isEmpty();
    }

    /** What another run left half written may be somebody's only copy. */
    @Test
    void neitherWritesNorRemovesAPartThatIsThere() throws IOException {
        Files.writeString(
                folder.resolve("screw-single.json"),
                PackFiles.template("screw-single").replace(" ", "  "));
        Path part = Files.writeString(folder.resolve(".screw-single.json.lash-part"), "half");

        assertThatThrownBy(() -> PackCheck.write(folder)).isInstanceOf(FileAlreadyExistsException.class);
        assertThat(part).hasContent("half");
    }

    @Test
    void readsNoLinks() throws IOException {
        Path outside = Files.writeString(outer.resolve("outside.json"), "{ \"secret\": \"word\" }");
        Files.createSymbolicLink(folder.resolve("screw-single.json"), outside);

        PackFinding finding = only();

        assertThat(finding.file()).isEqualTo("screw-single.json");
        assertThat(finding.problem()).isEqualTo("is a link or a folder");
        assertThat(finding.toString()).doesNotContain("secret", "word");
        assertThat(PackFolder.read(folder).entries()).isEmpty();
    }

    @Test
    void readsNoLinksWithATwistInTheirWay() throws IOException {
        Files.writeString(outer.resolve("outside.json"), SOUND);
        Files.createSymbolicLink(folder.resolve("screw-single.json"), Path.of("..", "outside.json"));

        assertThat(only().problem()).isEqualTo("is a link or a folder");
        assertThat(PackFolder.read(folder).entries()).isEmpty();
    }

    @Test
    void readsNoLinksToNothingAndNoLinksToFolders() throws IOException {
        Files.createSymbolicLink(folder.resolve("a.json"), folder.resolve("missing.json"));
        Files.createSymbolicLink(folder.resolve("b"), outer);

        assertThat(PackFolder.read(folder).findings())
                .extracting(PackFinding::file)
                .containsExactlyInAnyOrder("a.json", "b");
    }

    @Test
    void readsNoFoldersInTheFolder() throws IOException {
        Path inner = Files.createDirectory(folder.resolve("inner.json"));
        Files.writeString(inner.resolve("screw-single.json"), SOUND);

        PackFinding finding = only();

        assertThat(finding.toString())
                .isEqualTo(
                        "inner.json, line 1, at the top, rule plain-file: is a link or a folder; expected plain files only; "
                                + "put the template itself in the folder");
        assertThat(PackFolder.read(folder).entries()).isEmpty();
    }

    /** The index of a folder names files, but is never a way to reach them. */
    @Test
    void anIndexLeadsNowhere() throws IOException {
        Files.writeString(outer.resolve("outside.json"), SOUND);
        Files.writeString(
                folder.resolve("pack.json"),
                "{ \"format\": \"lash-pack/1\", \"version\": \"1.0.0\", \"templates\": [ { \"id\": \"screw-single\","
                        + " \"file\": \"../outside.json\", \"revision\": 1, \"sha256\": \""
                        + SpecPack.sha256(BadInput.utf8(SOUND)) + "\" } ] }");

        assertThat(PackFolder.read(folder).entries()).isEmpty();
        assertThat(PackCheck.of(folder))
                .singleElement()
                .satisfies(f -> assertThat(f.problem()).isEqualTo("is in the index but not in the folder"));
        assertThat(SpecPack.bundled().withFolder(folder).overlays()).isEmpty();
    }

    @Test
    void readsAtMostTwoThousandFiles() throws IOException {
        for (int i = 0; i < PackFolder.MOST_FILES; i++) {
            Files.writeString(folder.resolve(i + ".json"), "{");
        }
        assertThat(PackFolder.read(folder).findings()).hasSize(PackFolder.MOST_FILES);

        Files.writeString(folder.resolve("more.json"), "{");

        assertThat(refused(folder).getMessage())
                .isEqualTo(folder + ": holds too many files; expected at most 2000; "
                        + "check that this is the right folder");
    }

    @Test
    void refusesTenThousandFilesAndTenThousandLinks() throws IOException {
        Path links = Files.createDirectory(outer.resolve("links"));
        for (int i = 0; i < 10_000; i++) {
            Files.createFile(folder.resolve(i + ".json"));
            Files.createSymbolicLink(links.resolve(i + ".json"), Path.of("nowhere"));
        }

        assertThat(refused(folder).problem()).isEqualTo("holds too many files");
        assertThat(refused(links).problem()).isEqualTo("holds too many files");
    }

    @Test
    void readsNoFileAboveOneMebibyte() throws IOException {
        String padded = SOUND + " ".repeat(PackFolder.MOST_BYTES - BadInput.utf8(SOUND).length);
        Path file = Files.writeString(folder.resolve("screw-single.json"), padded);
        assertThat(Files.size(file)).isEqualTo(PackFolder.MOST_BYTES);
        assertThat(PackFolder.read(folder).findings()).isEmpty();

        Files.writeString(file, padded + " ");

        PackFinding finding = only();
        assertThat(finding.file()).isEqualTo("screw-single.json");
        assertThat(finding.problem()).isEqualTo("is too large for a template");
        assertThat(finding.expected()).isEqualTo("at most 1048576 bytes");
        assertThat(finding.mend()).isEqualTo("check that this is the right file");
    }

    /** Files of a fair size, too many of them to hold at once. */
    @Test
    void readsNoMoreThanFitsInMemory() throws IOException {
        byte[] full = " ".repeat(PackFolder.MOST_BYTES).getBytes(StandardCharsets.UTF_8);
        int most = PackFolder.MOST_TOGETHER / PackFolder.MOST_BYTES;
        for (int i = 0; i < most; i++) {
            Files.write(folder.resolve(i + ".json"), full);
        }
        assertThat(PackFolder.read(folder).findings()).hasSize(most);

        Files.writeString(folder.resolve("more.json"), "{");

        assertThat(refused(folder).problem()).isEqualTo("holds too much");
    }

    /** Short values by the hundred thousand take far more room read than in their files. */
    @Test
    void readsNoMoreValuesThanFitInMemory() throws IOException {
        String notes = "\"\",".repeat(340_000) + "\"\"";
        String full = "{ \"notes\": [" + notes + "] }";
        assertThat(full.length()).isLessThan(PackFolder.MOST_BYTES);
        for (String name : List.of("a.json", "b.json", "c.json")) {
            Files.writeString(folder.resolve(name), full);
        }
        assertThat(PackFolder.read(folder).entries())
                .as("no template, and no more is read")
                .isEmpty();

        Files.writeString(folder.resolve("d.json"), SOUND);

        assertThat(refused(folder).expected()).isEqualTo("at most 1000000 values in all files together");
    }

    /** A file as large as the one that is feared, with a sound template in front. */
    @Test
    void refusesAFileOfAHundredMegabytes() throws IOException {
        try (RandomAccessFile huge =
                new RandomAccessFile(folder.resolve("huge.json").toFile(), "rw")) {
            huge.write(SOUND.getBytes(StandardCharsets.UTF_8));
            huge.setLength(100L * 1024 * 1024);
        }

        assertThat(only().problem()).isEqualTo("is too large for a template");
    }

    /** A sparse file: far too large, yet only as much of it is read as shows that. */
    @Test
    void doesNotReadAHugeFileToItsEnd() throws IOException {
        try (RandomAccessFile huge =
                new RandomAccessFile(folder.resolve("huge.json").toFile(), "rw")) {
            huge.setLength(8L * 1024 * 1024 * 1024);
        }

        assertThat(only().problem()).isEqualTo("is too large for a template");
    }

    @Test
    void refusesDeepNesting() throws IOException {
        Files.writeString(folder.resolve("deep.json"), "[".repeat(100_000));

        PackFinding finding = only();

        assertThat(finding.problem()).isEqualTo("a value here is larger than is ever needed");
        assertThat(finding.expected()).contains("at most 40 levels");
    }

    @Test
    void refusesDuplicateKeys() throws IOException {
        Files.writeString(
                folder.resolve("screw-single.json"),
                SOUND.replace("  \"cylinders\": 1,\n", "  \"cylinders\": 1,\n  \"cylinders\": 2,\n"));

        PackFinding finding = only();

        assertThat(finding.pointer()).isEqualTo("/cylinders");
        assertThat(finding.line()).isEqualTo(13);
        assertThat(finding.problem()).isEqualTo("is given twice in one object");
        assertThat(finding.mend()).isEqualTo("remove one of the two");
    }

    @Test
    void refusesAnIdThatIsTakenTwice() throws IOException {
        PackFiles.write(folder, SOUND);
        Files.writeString(folder.resolve("another.json"), SOUND);

        assertThatThrownBy(() -> SpecPack.bundled().withFolder(folder))
                .isInstanceOf(DocumentException.class)
                .hasMessageContaining("at /id: ");
        assertThat(PackCheck.of(folder))
                .anySatisfy(f -> assertThat(f.problem()).isEqualTo("is taken already, in screw-single.json"));
    }

    @Test
    void refusesWhatIsNotUtf8() throws IOException {
        Files.write(
                folder.resolve("screw-single.json"),
                SOUND.replace("35 °C", "35 \u00b0C").getBytes(StandardCharsets.ISO_8859_1));

        PackFinding finding = only();

        assertThat(finding.problem()).isEqualTo("is not UTF-8");
        assertThat(finding.mend()).isEqualTo("save the file as UTF-8");
    }

    @Test
    void refusesWhatIsNoFolder() throws IOException {
        Path file = Files.writeString(outer.resolve("screw-single.json"), SOUND);

        assertThat(refused(file).problem()).isEqualTo("is not a folder");
        assertThat(refused(outer.resolve("missing")).problem()).isEqualTo("is not a folder");
    }

    @Test
    void aMessageIsOneLineWhateverTheFileIsCalled() throws IOException {
        Files.writeString(folder.resolve("a\nb\u001b[31m.json"), "{");

        assertThat(PackFolder.read(folder).findings().get(0).toString().chars()).noneMatch(Character::isISOControl);
        assertThatThrownBy(() -> SpecPack.bundled().withFolder(folder))
                .satisfies(thrown -> assertThat(thrown.getMessage().chars()).noneMatch(Character::isISOControl));
    }
}
