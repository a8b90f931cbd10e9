package dev.lash.specs;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;

/**
 * The templates of a folder, read with care: only plain files that lie in the folder itself, no links, each of a bounded size, and
 * not too many of them.
 */
final class PackFolder {
    static final int MOST_FILES = 2_000;
    static final int MOST_BYTES = 1024 * 1024;
    static final String INDEX = "pack.json";
    private static final String ENDING = ".json";

    /** One file that was read. */
    record Entry(String name, JsonDocument document, String text, String sha256, Template template) {}

    private final List<Entry> entries;
    private final List<PackFinding> findings;
    private final Optional<JsonDocument> index;

    private PackFolder(List<Entry> entries, List<PackFinding> findings, Optional<JsonDocument> index) {
        this.entries = entries;
        this.findings = findings;
        this.index = index;
    }

    /** Reads all that can be read; what cannot is among the findings. */
    static PackFolder read(Path folder) throws IOException {
        List<Entry> entries = new ArrayList<>();
        List<PackFinding> findings = new ArrayList<>();
        JsonDocument index = null;
        for (Path file : files(folder, findings)) {
            String name = file.getFileName().toString();
            try {
                byte[] content = content(file);
                JsonDocument document = JsonDocument.parse(name, content);
                if (name.equals(INDEX)) {
                    index = document;
                } else {
                    entries.add(new Entry(
                            name,
                            document,
                            new String(content, StandardCharsets.UTF_8),
                            SpecPack.sha256(content),
                            new TemplateReader(document).read()));
                }
            } catch (DocumentException broken) {
                findings.add(PackFinding.of(broken));
            }
        }
        return new PackFolder(List.copyOf(entries), List.copyOf(findings), Optional.ofNullable(index));
    }

    private static List<Path> files(Path folder, List<PackFinding> findings) throws IOException {
        if (!Files.isDirectory(folder)) {
            throw new DocumentException(
                    folder.toString(), 1, 1, "", "", "is not a folder", "a folder of templates", "check its name");
        }
        TreeMap<String, Path> files = new TreeMap<>();
        try (DirectoryStream<Path> all = Files.newDirectoryStream(folder)) {
            for (Path file : all) {
                String name = file.getFileName().toString();
                if (Files.isSymbolicLink(file) || !Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)) {
                    findings.add(refused(
                            name,
                            "is a link or a folder",
                            "plain files only",
                            "put the template itself in the folder"));
                } else if (name.endsWith(ENDING)) {
                    files.put(name, file);
                }
                if (files.size() > MOST_FILES || findings.size() > MOST_FILES) {
                    throw new DocumentException(
                            folder.toString(),
                            1,
                            1,
                            "",
                            "",
                            "holds too many files",
                            "at most " + MOST_FILES,
                            "check that this is the right folder");
                }
            }
        }
        return List.copyOf(files.values());
    }

    private static PackFinding refused(String name, String problem, String expected, String mend) {
        return new PackFinding(name, 1, "", "", problem, expected, mend);
    }

    private static byte[] content(Path file) throws IOException {
        try (InputStream stream = Files.newInputStream(file, LinkOption.NOFOLLOW_LINKS)) {
            byte[] content = stream.readNBytes(MOST_BYTES + 1);
            if (content.length > MOST_BYTES) {
                throw new DocumentException(
                        file.getFileName().toString(),
                        1,
                        1,
                        "",
                        "",
                        "is too large for a template",
                        "at most " + MOST_BYTES + " bytes",
                        "check that this is the right file");
            }
            return content;
        }
    }

    List<Entry> entries() {
        return entries;
    }

    List<PackFinding> findings() {
        return findings;
    }

    Optional<JsonDocument> index() {
        return index;
    }
}
