package dev.lash.specs;

import dev.lash.specs.DocumentException.Fault;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;

/** The fields of one object: asked for by name, and refused when left over. */
final class JsonFields {
    private final JsonDocument document;
    private final Json object;
    private final Set<String> known = new LinkedHashSet<>();
    private final Set<String> refused = new HashSet<>();

    JsonFields(JsonDocument document, Json object) {
        this.document = document;
        this.object = object;
    }

    /** The object itself. */
    Json object() {
        return object;
    }

    /** The document it stands in. */
    JsonDocument document() {
        return document;
    }

    /** A field that may be left out. */
    Optional<Json> find(String name) {
        known.add(name);
        return Optional.ofNullable(object.members().get(name));
    }

    /** A field that must be there. Without a lambda: the first one of a virtual machine takes as long as reading the pack's index. */
    Json get(String name) {
        known.add(name);
        Json value = object.members().get(name);
        if (value == null) {
            for (Map.Entry<String, Json> member : object.members().entrySet()) {
                if (!known.contains(member.getKey()) && Spelling.isNear(member.getKey(), name)) {
                    throw unknown(member.getKey(), member.getValue(), "the field \"" + name + "\"", name);
                }
            }
            throw new DocumentException(
                    Fault.MISSING_FIELD,
                    document.source(),
                    object.line(),
                    object.column(),
                    object.pointer(),
                    "",
                    "has no field \"" + name + "\"",
                    "the field \"" + name + "\"",
                    "add it");
        }
        return value;
    }

    /** A text that may be left out, read by a {@code parse} method. */
    <T> Optional<T> find(String name, String expected, Function<String, T> parse) {
        return find(name).map(value -> document.read(value, expected, parse));
    }

    /** A text that must be there, read by a {@code parse} method. */
    <T> T get(String name, String expected, Function<String, T> parse) {
        return document.read(get(name), expected, parse);
    }

    /** Free text that may be left out. */
    String text(String name) {
        return find(name, "a text", Function.identity()).orElse("");
    }

    /** A list that may be left out. */
    List<Json> items(String name) {
        return find(name).map(document::items).orElse(List.of());
    }

    /** A list of texts that may be left out. */
    List<String> texts(String name) {
        return document.each(items(name), item -> document.text(item, "a text"));
    }

    /** Fields with free names, each of which is a text. */
    Map<String, Json> members() {
        known.addAll(object.members().keySet());
        return object.members();
    }

    /** Refuses each field that nobody asked for. */
    void finish() {
        for (Map.Entry<String, Json> member : object.members().entrySet()) {
            String name = member.getKey();
            if (!known.contains(name) && !refused.contains(name)) {
                Set<String> open = new LinkedHashSet<>(known);
                open.removeAll(object.members().keySet());
                document.tell(unknown(
                        name, member.getValue(), "one of " + String.join(", ", known), Spelling.nearest(name, open)));
            }
        }
    }

    private DocumentException unknown(String name, Json value, String expected, String near) {
        refused.add(name);
        return new DocumentException(
                Fault.UNKNOWN_FIELD,
                document.source(),
                value.line(),
                value.column(),
                value.pointer(),
                name,
                "is an unknown field",
                expected,
                Spelling.hint(near) + "correct its spelling, or remove it");
    }
}
