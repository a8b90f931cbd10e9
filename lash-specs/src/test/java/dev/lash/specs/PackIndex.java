package dev.lash.specs;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * Writes the index of the pack anew: the templates in the folder by name, with revision and checksum. The version of the pack
 * stays as it is; change it by hand. Beside {@code pack.json} it writes {@code index.txt}, the same with what a template is found by, in
 * lines that the library reads without a JSON parser.
 *
 * <p>It needs nothing but the JDK. From the root of the repository:
 *
 * <pre>java lash-specs/src/test/java/dev/lash/specs/PackIndex.java</pre>
 */
final class PackIndex {
    /** What a developer enters to run this. */
    static final String COMMAND = "java lash-specs/src/test/java/dev/lash/specs/PackIndex.java";

    private static final Path FOLDER = Path.of("src", "main", "resources", "dev", "lash", "specs", "pack");
    private static final String INDEX = "pack.json";
    private static final String LINES = "index.txt";
    private static final Pattern TITLE = Pattern.compile("(?m)^ {2}\"title\": \"([^\"\\\\\\p{Cntrl}]*)\",$");
    private static final Pattern STATUS = Pattern.compile("(?m)^ {2}\"status\": \"([a-z]+)\"");
    private static final Pattern KIND = Pattern.compile("(?m)^ {2}\"train\": \\{\\s*\"kind\": \"([a-z-]+)\"");
    private static final Pattern CYLINDERS = Pattern.compile("(?m)^ {2}\"cylinders\": ([0-9]+)");
    private static final Pattern COOLING = Pattern.compile("(?m)^ {4}\"cooling\": \"([a-z]*)\"");
    private static final Pattern USES = Pattern.compile("(?m)^ {4}\"uses\": \\[([^\\]]*)\\]");
    private static final Pattern VERSION = Pattern.compile("\"version\": \"([^\"]*)\"");
    private static final Pattern REVISION = Pattern.compile("(?m)^ {2}\"revision\": ([0-9]+)");

    private PackIndex() {}

    /** Writes the index, in the repository or the module in whose folder it is run. */
    public static void main(String[] arguments) throws IOException {
        Path folder = Files.isDirectory(FOLDER) ? FOLDER : Path.of("lash-specs").resolve(FOLDER);
        String text = text(folder);
        Path index = folder.resolve(INDEX);
        boolean same = Files.readString(index).equals(text);
        Files.writeString(index, text);
        Path beside = folder.resolve(LINES);
        String lines = lines(folder);
        boolean sameLines = Files.exists(beside) && Files.readString(beside).equals(lines);
        Files.writeString(beside, lines);
        PrintStream out = System.out;
        out.println(index + (same ? " was right already" : " written"));
        out.println(beside + (sameLines ? " was right already" : " written"));
    }

    /** The index that fits the folder. */
    static String text(Path folder) throws IOException {
        StringBuilder out = new StringBuilder("{\n  \"format\": \"lash-pack/1\",\n  \"version\": \"")
                .append(first(VERSION, folder.resolve(INDEX)))
                .append("\",\n  \"templates\": [\n");
        String separator = "";
        for (Path file : templates(folder)) {
            String name = file.getFileName().toString();
            out.append(separator)
                    .append("    {\n      \"id\": \"")
                    .append(id(file))
                    .append("\",\n      \"file\": \"")
                    .append(name)
                    .append("\",\n      \"revision\": ")
                    .append(first(REVISION, file))
                    .append(",\n      \"sha256\": \"")
                    .append(sha256(Files.readAllBytes(file)))
                    .append("\"\n    }");
            separator = ",\n";
        }
        return out.append("\n  ]\n}\n").toString();
    }

    /** The index in lines that fits the folder; fields between tabs. */
    static String lines(Path folder) throws IOException {
        StringBuilder out = new StringBuilder("lash-index/1\t")
                .append(first(VERSION, folder.resolve(INDEX)))
                .append('\n');
        for (Path file : templates(folder)) {
            out.append(String.join(
                            "\t",
                            id(file),
                            file.getFileName().toString(),
                            first(REVISION, file),
                            sha256(Files.readAllBytes(file)),
                            first(STATUS, file),
                            first(KIND, file),
                            first(CYLINDERS, file),
                            found(COOLING, file),
                            found(USES, file).replaceAll("[\"\\s]", ""),
                            first(TITLE, file)))
                    .append('\n');
        }
        return out.toString();
    }

    private static List<Path> templates(Path folder) throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            return files.filter(file -> file.toString().endsWith(".json") && !file.endsWith(INDEX))
                    .sorted(Comparator.comparing(PackIndex::id))
                    .toList();
        }
    }

    private static String id(Path file) {
        return file.getFileName().toString().replace(".json", "");
    }

    /** What may be left out. */
    private static String found(Pattern pattern, Path file) throws IOException {
        Matcher matcher = pattern.matcher(Files.readString(file));
        return matcher.find() ? matcher.group(1) : "";
    }

    private static String first(Pattern pattern, Path file) throws IOException {
        Matcher matcher = pattern.matcher(Files.readString(file));
        if (!matcher.find()) {
            throw new IllegalStateException(file + " has no " + pattern + ": write it as the other files are written");
        }
        return matcher.group(1);
    }

    private static String sha256(byte[] content) {
        try {
            return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(content));
        } catch (NoSuchAlgorithmException impossible) {
            throw new IllegalStateException("every Java platform has SHA-256", impossible);
        }
    }
}
