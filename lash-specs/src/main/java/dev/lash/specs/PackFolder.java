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
import java.util.Locale;
import java.util.Optional;
import java.util.TreeMap;

/**
 * The templates of a folder, read with care: only plain files that lie in the folder itself, no links, each of a bounded size, and
 * not too many of them.
 */
final class PackFolder {
    static final int MOST_FILES = 2_000;
    static final int MOST_BYTES = 1024 * 1024;
    static final int MOST_TOGETHER = 32 * 1024 * 1024;
    /** A value that was read takes some 150 bytes, however short its text is. */
    static final int MOST_VALUES = 1_000_000;

    static final String INDEX = "pack.json";
    private static final String ENDING = ".json";

    /** One file that was read, and what of it could not be. */
    record Entry(
            String name, JsonDocument document, String text, String sha256, Template template, TemplateDoubts doubts) {}

    private final List<Entry> entries;
    private final List<Entry> rests;
    private final List<PackFinding> findings;
    private final Optional<JsonDocument> index;

    private PackFolder(
            List<Entry> entries, List<Entry> rests, List<PackFinding> findings, Optional<JsonDocument> index) {
        this.entries = entries;
        this.rests = rests;
        this.findings = findings;
        this.index = index;
    }

    /** Reads all that can be read; what cannot is among the findings. */
    static PackFolder read(Path folder) throws IOException {
        List<Entry> entries = new ArrayList<>();
        List<Entry> rests = new ArrayList<>();
        List<PackFinding> findings = new ArrayList<>();
        JsonDocument index = null;
        int together = 0;
        int values = 0;
        for (Path file : files(folder, findings)) {
            if (values > MOST_VALUES) {
                throw refusal(folder, "holds too much", "at most " + MOST_VALUES + " values in all files together");
            }
            String name = file.getFileName().toString();
            byte[] content = content(file);
            together += Math.min(content.length, MOST_BYTES);
            if (together > MOST_TOGETHER) {
                throw refusal(folder, "holds too much", "at most " + MOST_TOGETHER + " bytes in all files together");
            }
            if (content.length > MOST_BYTES) {
                findings.add(refused(
                        name,
                        "is too large for a template",
                        "at most " + MOST_BYTES + " bytes",
                        "check that this is the right file"));
                continue;
            }
            try {
                JsonDocument document = JsonDocument.parse(name, content);
                values += values(document.root());
                if (name.equals(INDEX)) {
                    index = document;
                } else {
                    String text = new String(content, StandardCharsets.UTF_8);
                    entry(name, document, text, SpecPack.sha256(content), findings)
                            .ifPresent(entry -> (entry.doubts().isEmpty() ? entries : rests).add(entry));
                }
            } catch (DocumentException broken) {
                findings.add(PackFinding.of(broken));
            }
        }
        return new PackFolder(
                List.copyOf(entries), List.copyOf(rests), List.copyOf(findings), Optional.ofNullable(index));
    }

    /** A template, or what is left of one with parts that cannot be read; empty where nothing is. */
    static Optional<Entry> entry(
            String name, JsonDocument document, String text, String sha256, List<PackFinding> findings) {
        return TemplateReader.read(document, findings)
                .map(template -> new TemplateRest.Rest(template, TemplateDoubts.none(document)))
                .or(() -> TemplateRest.of(document, findings))
                .map(read -> new Entry(name, document, text, sha256, read.template(), read.doubts()));
    }

    /** The id that a file is named after. */
    static String id(String name) {
        return name.replace(ENDING, "");
    }

    /** How many files would be read as templates. */
    static int count(Path folder) throws IOException {
        return (int) files(folder, new ArrayList<>()).stream()
                .filter(file -> !file.endsWith(INDEX))
                .count();
    }

    private static int values(Json value) {
        int count = 1;
        for (Json item : value.items()) {
            count += values(item);
        }
        for (Json member : value.members().values()) {
            count += values(member);
        }
        return count;
    }

    private static List<Path> files(Path folder, List<PackFinding> findings) throws IOException {
        if (!Files.isDirectory(folder)) {
            throw refusal(folder, "is not a folder", "a folder of templates");
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
                } else if (name.toLowerCase(Locale.ROOT).contains(ENDING)) {
                    findings.add(refused(
                            name,
                            "is not read, for its name does not end in " + ENDING,
                            "names that end in " + ENDING,
                            "rename it, or move it elsewhere"));
                }
                if (files.size() > MOST_FILES || findings.size() > MOST_FILES) {
                    throw refusal(folder, "holds too many files", "at most " + MOST_FILES);
                }
            }
        }
        return List.copyOf(files.values());
    }

    /** The folder as a whole is refused, before it fills the memory. */
    private static DocumentException refusal(Path folder, String problem, String expected) {
        return new DocumentException(
                folder.toString(), 0, 0, "", "", problem, expected, "check that this is the right folder");
    }

    private static PackFinding refused(String name, String problem, String expected, String mend) {
        return new PackFinding(PackRule.PLAIN_FILE, name, 1, "", "", problem, expected, mend);
    }

    /** The content of a file, as far as it is needed to see that it is too large. */
    private static byte[] content(Path file) throws IOException {
        try (InputStream stream = Files.newInputStream(file, LinkOption.NOFOLLOW_LINKS)) {
            return stream.readNBytes(MOST_BYTES + 1);
        }
    }

    /** The templates that could be read whole. */
    List<Entry> entries() {
        return entries;
    }

    /** What is left of the others. */
    List<Entry> rests() {
        return rests;
    }

    List<PackFinding> findings() {
        return findings;
    }

    Optional<JsonDocument> index() {
        return index;
    }
}
