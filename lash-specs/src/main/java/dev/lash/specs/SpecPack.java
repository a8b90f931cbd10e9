package dev.lash.specs;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.RejectedValueException;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;

/**
 * The bundled pack of generic templates. Its index is read at once, a template when it is asked for; each file is held
 * against the checksum in the index. A broken pack is refused, never skipped.
 */
public final class SpecPack {
    static final String FORMAT = "lash-pack/1";
    private static final String FOLDER = "pack/";

    private final String version;
    private final Map<String, Entry> entries;

    private record Entry(String file, int revision, String sha256) {}

    private SpecPack(String version, Map<String, Entry> entries) {
        this.version = version;
        this.entries = entries;
    }

    /**
     * Opens the pack that comes with the library.
     *
     * @return the pack
     * @throws DocumentException if its index is broken
     */
    public static SpecPack bundled() {
        JsonDocument document = JsonDocument.parse(FOLDER + "pack.json", bytes("pack.json"));
        JsonFields fields = document.fields(FORMAT, "pack index");
        String version = document.text(fields.get("version"), "a version");
        Map<String, Entry> entries = new LinkedHashMap<>();
        for (Json value : document.items(fields.get("templates"))) {
            JsonFields entry = document.fields(value);
            String id = entry.get("id", "the id of a template", Function.identity());
            Entry made = new Entry(
                    entry.get("file", "a file name", Function.identity()),
                    document.wholeNumber(entry.get("revision"), 1, Integer.MAX_VALUE),
                    entry.get("sha256", "a SHA-256 checksum", Function.identity()));
            entry.finish();
            if (entries.put(id, made) != null) {
                throw document.error(value, "repeats the id " + id, "each id once", "remove one of the two");
            }
        }
        fields.finish();
        return new SpecPack(version, entries);
    }

    /** {@return the version of the data, which is not the version of the library} */
    public String version() {
        return version;
    }

    /** {@return the ids of the templates, in the order of the index} */
    public List<String> ids() {
        return List.copyOf(entries.keySet());
    }

    /**
     * Finds a template.
     *
     * @param id its id
     * @return the template, or empty when the pack has none of that id
     * @throws DocumentException if its file is broken or not the one that the index names
     */
    public Optional<Template> find(String id) {
        return Optional.ofNullable(entries.get(requireNonNull(id, "id"))).map(entry -> load(id, entry));
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
        return find(id).orElseThrow(() -> new RejectedValueException(
                "template", id, "is not in the pack", "one of " + ids(), "choose one of these"));
    }

    private static Template load(String id, Entry entry) {
        byte[] utf8 = bytes(entry.file);
        JsonDocument document = JsonDocument.parse(FOLDER + entry.file, utf8);
        if (!sha256(utf8).equals(entry.sha256)) {
            throw new DocumentException(
                    FOLDER + entry.file,
                    1,
                    1,
                    "",
                    "",
                    "is not the file that the index names: its checksum differs",
                    entry.sha256,
                    "take the whole pack of one version");
        }
        Template template = new TemplateReader(document).read();
        if (!template.id().equals(id) || template.revision() != entry.revision) {
            throw new DocumentException(
                    FOLDER + entry.file,
                    1,
                    1,
                    "/id",
                    template.spec().template().orElse(""),
                    "is not what the index names",
                    id + ", revision " + entry.revision,
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
