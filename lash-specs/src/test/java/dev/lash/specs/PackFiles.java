package dev.lash.specs;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** Folders of templates for the tests, made from those of the bundled pack. */
final class PackFiles {
    /** The bundled pack, in the module's own folder. */
    static final Path BUNDLED = Path.of("src", "main", "resources", "dev", "lash", "specs", "pack");

    private PackFiles() {}

    /** A bundled template as it stands. */
    static String template(String id) {
        return Fixtures.resource("pack/" + id + ".json");
    }

    /** A document in the canonical form, so that no test finds its form wrong by the way. */
    static String canonical(String json) {
        return Canonical.text(JsonDocument.parse("template.json", json).root());
    }

    /** Writes a template under its id. */
    static Path write(Path folder, String json) throws IOException {
        String id = Trees.tree(json).get("id").stringValue();
        return Files.writeString(folder.resolve(id + ".json"), canonical(json));
    }

    /** A bundled template under another id, otherwise the same. */
    static String renamed(String id, String name) {
        return Trees.with(template(id), "/id", "\"" + name + "\"");
    }

    /** Writes an index that says nothing but the version. */
    static void version(Path folder, String version) throws IOException {
        Files.writeString(
                folder.resolve("pack.json"),
                "{ \"format\": \"lash-pack/1\", \"version\": \"" + version + "\", \"templates\": [] }\n");
    }
}
