package dev.lash.specs;

import static java.util.Objects.requireNonNull;

import dev.lash.engine.EngineSpec;
import dev.lash.engine.Overridden;
import dev.lash.measure.RejectedValueException;
import java.io.IOException;
import java.io.InputStream;
import java.io.Serializable;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;

/**
 * A pack of generic templates: the bundled one, or that with a shop's own folders laid over it. The index is read at once, a bundled
 * template when it is asked for; each bundled file is held against the checksum in the index. A broken pack is refused, never
 * skipped.
 *
 * <pre>{@code
 * SpecPack pack = SpecPack.bundled().withFolder(Path.of("our-templates"));
 * pack.overlays();                     // which templates the folder added or replaced, and which figures
 * EngineSpec engine = pack.get("screw-single").spec();
 * }</pre>
 */
public final class SpecPack {
    static final String FORMAT = "lash-pack/1";
    static final String INDEX = "index.txt";
    private static final String INDEX_FORMAT = "lash-index/1";
    private static final int FIELDS = 10;
    private static final String FOLDER = "pack/";
    private static final int LONGEST_ID = 64;
    private static final int MOST_PROPOSED = 3;

    /** How to mend an id that no template has. */
    static final String MEND_UNKNOWN =
            "correct it (\"lash pack list\" names them all), or name the folder that the template lies in: "
                    + "--folder DIR, SpecPack.withFolder";

    private final String version;
    private final Map<String, Entry> entries;
    private final Map<String, Template> own;
    private final List<Overlay> overlays;

    /** A line of the index: id, file, revision, checksum, status, kind of train, cylinders, cooling, uses, title. */
    private static final class Entry {
        private final String[] fields;
        private final int line;
        private final int revision;

        Entry(String[] fields, int line) {
            this.fields = fields;
            this.line = line;
            this.revision = wholeNumber(fields[2], line);
        }

        String file() {
            return fields[1];
        }

        int revision() {
            return revision;
        }

        String sha256() {
            return fields[3];
        }

        Listed listed() {
            for (Template.Status status : Template.Status.values()) {
                if (status.word().equals(fields[4])) {
                    List<String> uses = fields[8].isEmpty() ? List.of() : List.of(fields[8].split(",", -1));
                    return new Listed(
                            fields[0],
                            fields[9],
                            status,
                            fields[5],
                            wholeNumber(fields[6], line),
                            new Template.Features(fields[7], uses));
                }
            }
            throw broken(line, fields[4], "is no status", "active, deprecated or withdrawn");
        }
    }

    /**
     * What the index tells of a template, without opening it.
     *
     * @param id the id
     * @param title the title
     * @param status whether it should still be used
     * @param train the kind of valve train, such as {@code rocker-screw}
     * @param cylinders how many cylinders the engine has
     * @param features what kind of machine it is for
     */
    public record Listed(
            String id, String title, Template.Status status, String train, int cylinders, Template.Features features)
            implements Serializable {
        /**
         * Creates an entry.
         *
         * @param id the id
         * @param title the title
         * @param status whether it should still be used
         * @param train the kind of valve train, such as {@code rocker-screw}
         * @param cylinders how many cylinders the engine has
         * @param features what kind of machine it is for
         */
        public Listed {
            requireNonNull(id, "id");
            requireNonNull(title, "title");
            requireNonNull(status, "status");
            requireNonNull(train, "train");
            requireNonNull(features, "features");
        }

        private static Listed of(Template template) {
            return new Listed(
                    template.id(),
                    template.spec().title(),
                    template.lifeCycle().status(),
                    template.spec().train().kind(),
                    template.spec().firingOrder().cylinders(),
                    template.features());
        }
    }

    /**
     * What a folder did to a template.
     *
     * @param id the id of the template
     * @param folder the folder
     * @param file the file in it
     * @param replaced whether there was a template of that id before; otherwise it was added
     * @param figures the figures that are not as they were, each with what it was; none where the template was added
     * @param otherEngine what makes it another engine than that of the template before, such as {@code "cylinders 2, were 1"}; sheets
     *     that name the id mean the engine before. None where it is the same, or was added
     */
    public record Overlay(
            String id, String folder, String file, boolean replaced, List<Overridden> figures, List<String> otherEngine)
            implements Serializable {
        /**
         * Creates an entry of the merge report.
         *
         * @param id the id of the template
         * @param folder the folder
         * @param file the file in it
         * @param replaced whether there was a template of that id before; otherwise it was added
         * @param figures the figures that are not as they were, each with what it was; none where the template was added
         * @param otherEngine what makes it another engine than that of the template before; none where it is the same, or was added
         */
        public Overlay {
            requireNonNull(id, "id");
            requireNonNull(folder, "folder");
            requireNonNull(file, "file");
            figures = List.copyOf(figures);
            otherEngine = List.copyOf(otherEngine);
        }

        /** {@return the entry in words, with a warning of another engine and what the figures that changed were before} */
        @Override
        public String toString() {
            StringBuilder text = new StringBuilder(id)
                    .append(replaced ? " replaced by " : " added by ")
                    .append(folder)
                    .append('/')
                    .append(file);
            if (!otherEngine.isEmpty()) {
                text.append(": warning, this is another engine (")
                        .append(String.join(", ", otherEngine))
                        .append("); give it an id of its own, since sheets that name ")
                        .append(id)
                        .append(" mean the one before");
            }
            String separator = otherEngine.isEmpty() ? ": " : "; ";
            for (Overridden figure : figures) {
                text.append(separator)
                        .append(figure.figure().words())
                        .append(figure.was().isEmpty() ? " was not given" : " was " + figure.was());
                separator = ", ";
            }
            return text.toString();
        }
    }

    private SpecPack(String version, Map<String, Entry> entries, Map<String, Template> own, List<Overlay> overlays) {
        this.version = version;
        this.entries = entries;
        this.own = own;
        this.overlays = overlays;
    }

    /**
     * Opens the pack that comes with the library.
     *
     * @return the pack
     * @throws DocumentException if its index is broken
     */
    public static SpecPack bundled() {
        // by hand, line by line: a JSON library costs a fresh virtual machine more than all the rest, and so does a
        // first lambda
        String text = new String(bytes(INDEX), StandardCharsets.UTF_8);
        String version = "";
        Map<String, Entry> entries = new LinkedHashMap<>();
        int line = 1;
        for (int start = 0; start < text.length(); line++) {
            int end = text.indexOf('\n', start);
            if (end < 0) {
                throw broken(line, text.substring(start), "ends too early", "a line end after each line");
            }
            String[] fields = fields(text.substring(start, end), line == 1 ? 2 : FIELDS, line);
            if (line == 1) {
                if (!fields[0].equals(INDEX_FORMAT)) {
                    throw broken(line, fields[0], "is not a format that this version reads", INDEX_FORMAT);
                }
                version = fields[1];
            } else if (entries.put(fields[0], new Entry(fields, line)) != null) {
                throw broken(line, fields[0], "is given twice", "each id once");
            }
            start = end + 1;
        }
        if (entries.isEmpty()) {
            throw broken(line, "", "lists no template", "the whole pack");
        }
        return new SpecPack(version, entries, Map.of(), List.of());
    }

    private static String[] fields(String line, int count, int number) {
        String[] fields = new String[count];
        int start = 0;
        for (int i = 0; i < count; i++) {
            int end = line.indexOf('\t', start);
            if ((end < 0) != (i == count - 1)) {
                throw broken(number, line, "has not the right number of fields", count + " fields between tabs");
            }
            fields[i] = end < 0 ? line.substring(start) : line.substring(start, end);
            start = end + 1;
        }
        return fields;
    }

    private static int wholeNumber(String text, int line) {
        try {
            int number = Integer.parseInt(text);
            if (number > 0) {
                return number;
            }
        } catch (NumberFormatException noNumber) {
            // said below
        }
        throw broken(line, text, "is no whole number", "a whole number from 1");
    }

    private static DocumentException broken(int line, String value, String problem, String expected) {
        return new DocumentException(
                FOLDER + INDEX, line, 1, "", value, problem, expected, "use an unbroken jar of one version");
    }

    /**
     * This pack with the templates of a folder laid over it. They win over those of the same id, and are held to the same rules; only
     * plain files in the folder itself are read. An index in the folder is not needed.
     *
     * @param folder the folder
     * @return the pack
     * @throws IOException if the folder cannot be read
     * @throws DocumentException for the first thing that is wrong with a template of the folder; {@link PackCheck} lists all
     */
    public SpecPack withFolder(Path folder) throws IOException {
        PackFolder read = PackFolder.read(folder);
        List<PackFinding> findings = new ArrayList<>(read.findings());
        if (findings.isEmpty()) {
            findings.addAll(TemplateRules.check(read.entries(), Set.copyOf(ids()), false));
        }
        if (!findings.isEmpty()) {
            throw findings.get(0).inFolder(folder);
        }
        Map<String, Template> laidOver = new LinkedHashMap<>(own);
        List<Overlay> told = new ArrayList<>(overlays);
        for (PackFolder.Entry entry : read.entries()) {
            Template template = entry.template().asShops(folder + "/" + entry.name());
            Optional<Template> before = find(template.id());
            told.add(new Overlay(
                    template.id(),
                    folder.toString(),
                    entry.name(),
                    before.isPresent(),
                    before.map(beneath -> Overridden.between(beneath.spec(), template.spec()))
                            .orElse(List.of()),
                    before.map(beneath -> otherEngine(beneath.spec(), template.spec()))
                            .orElse(List.of())));
            laidOver.put(template.id(), template);
        }
        return new SpecPack(version, entries, Collections.unmodifiableMap(laidOver), List.copyOf(told));
    }

    /** What the rule {@link PackRule#SAME_ENGINE} holds versions of a pack to: cylinders, kind of train, number of valves. */
    private static List<String> otherEngine(EngineSpec was, EngineSpec is) {
        List<String> told = new ArrayList<>();
        if (was.firingOrder().cylinders() != is.firingOrder().cylinders()) {
            told.add("cylinders " + is.firingOrder().cylinders() + ", were "
                    + was.firingOrder().cylinders());
        }
        if (!was.train().kind().equals(is.train().kind())) {
            told.add("train " + is.train().kind() + ", was " + was.train().kind());
        }
        if (was.valves().size() != is.valves().size()) {
            told.add("valves " + is.valves().size() + ", were " + was.valves().size());
        }
        return told;
    }

    /** {@return what folders added and replaced, in the order in which they were laid over} */
    public List<Overlay> overlays() {
        return overlays;
    }

    /**
     * What the pack holds, for a list to choose from; no template is opened for it.
     *
     * @return an entry for each template, in the order of {@link #ids}, those that should no longer be used included
     */
    public List<Listed> listed() {
        List<Listed> all = new ArrayList<>();
        for (String id : ids()) {
            Template ours = own.get(id);
            all.add(ours == null ? requireNonNull(entries.get(id)).listed() : Listed.of(ours));
        }
        return List.copyOf(all);
    }

    /**
     * Finds templates by what they are for. It opens every template; where the index tells enough, {@link #listed} is quicker.
     *
     * @param wanted what a template must be
     * @return those that are and that should still be used, in the order of {@link #ids}
     */
    public List<Template> search(Predicate<Template> wanted) {
        return ids().stream()
                .map(this::get)
                .filter(t -> t.lifeCycle().status() == Template.Status.ACTIVE)
                .filter(wanted)
                .toList();
    }

    /** {@return the version of the data, which is not the version of the library} */
    public String version() {
        return version;
    }

    /** {@return the ids of the templates, in the order of the index} */
    public List<String> ids() {
        Set<String> ids = new LinkedHashSet<>(entries.keySet());
        ids.addAll(own.keySet());
        return List.copyOf(ids);
    }

    /**
     * Finds a template.
     *
     * @param id its id
     * @return the template, or empty when the pack has none of that id
     * @throws DocumentException if its file is broken or not the one that the index names
     */
    public Optional<Template> find(String id) {
        return Optional.ofNullable(own.get(requireNonNull(id, "id")))
                .or(() -> Optional.ofNullable(entries.get(id)).map(entry -> load(id, entry)));
    }

    /**
     * Gets a template.
     *
     * @param id its id
     * @return the template
     * @throws IllegalArgumentException if the pack has none of that id
     * @throws DocumentException if its file is broken or not the one that the index names
     */
    public Template get(String id) {
        return find(id).orElseThrow(() ->
                new RejectedValueException("template", id, "is not in the pack", expectedFor(id), MEND_UNKNOWN));
    }

    /** What was expected in place of an id that no template has: a few that are like it, for all are too many to read. */
    String expectedFor(String unknown) {
        // an id has 64 letters at most; comparing a longer text would only take time
        List<String> near =
                unknown.length() > LONGEST_ID ? List.of() : Spelling.likeliest(unknown, ids(), MOST_PROPOSED);
        String all = "the id of one of its " + ids().size() + " templates";
        return near.isEmpty() ? all : all + "; most like it: " + String.join(", ", near);
    }

    /**
     * A template with the shop's figures laid over it, as a sheet that names the template lays them.
     *
     * <pre>{@code
     * TemplateOverrides manual = TemplateOverrides.parse("hill bike 5", """
     *         { "clearances": { "in": "0.09..0.12 mm" }, "train": { "pitch": "1 mm" },
     *           "confirmedFrom": { "in": "workshop manual, page 3-8", "pitch": "page 3-2" } }
     *         """);
     * EngineSpec engine = SpecPack.bundled().resolve("screw-single", manual);
     * engine.overridden();                        // pitch was 0.75 mm, from memory (...); and the intake window
     * engine.origin(Figure.EXHAUST_WINDOW);       // still the template's source
     * engine.isConfirmed(Figure.EXHAUST_WINDOW);  // false: reports say so
     * }</pre>
     *
     * @param id the id of the template
     * @param overrides the shop's figures
     * @return the engine, which remembers where each figure came from, where the shop read it, and what it was in the template
     * @throws IllegalArgumentException if the pack has no template of that id
     * @throws DocumentException if a figure cannot be read, contradicts another, or makes the template another engine
     */
    public EngineSpec resolve(String id, TemplateOverrides overrides) {
        requireNonNull(overrides, "overrides");
        return get(id).resolve(overrides);
    }

    private static Template load(String id, Entry entry) {
        byte[] utf8 = bytes(entry.file());
        JsonDocument document = JsonDocument.parse(FOLDER + entry.file(), utf8);
        if (!sha256(utf8).equals(entry.sha256())) {
            throw new DocumentException(
                    FOLDER + entry.file(),
                    1,
                    1,
                    "",
                    "",
                    "is not the file that the index names: its checksum differs",
                    entry.sha256(),
                    "take the whole pack of one version");
        }
        Template template = new TemplateReader(document).read();
        if (!template.id().equals(id) || template.revision() != entry.revision()) {
            throw new DocumentException(
                    FOLDER + entry.file(),
                    1,
                    1,
                    "/id",
                    template.spec().template().orElse(""),
                    "is not what the index names",
                    id + ", revision " + entry.revision(),
                    "take the whole pack of one version");
        }
        return template;
    }

    /** The checksum of a file, as the index writes it. */
    static String sha256(byte[] content) {
        try {
            return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(content));
        } catch (NoSuchAlgorithmException impossible) {
            throw new IllegalStateException("every Java platform has SHA-256", impossible);
        }
    }

    static byte[] bytes(String file) {
        try (InputStream stream = SpecPack.class.getResourceAsStream(FOLDER + file)) {
            if (stream == null) {
                throw new DocumentException(
                        FOLDER + file,
                        1,
                        1,
                        "",
                        file,
                        "is not in the library",
                        "the whole pack",
                        "use an unbroken jar");
            }
            return stream.readAllBytes();
        } catch (IOException unreadable) {
            throw new UncheckedIOException(unreadable);
        }
    }
}
