package dev.lash.specs;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Reads and changes documents as trees, by JSON pointer. */
final class Trees {
    private static final JsonMapper MAPPER = JsonMapper.builder().build();

    private Trees() {}

    static JsonNode tree(String json) {
        return MAPPER.readTree(json);
    }

    /** The pointers of all values, the whole document first. */
    static List<String> pointers(JsonNode node) {
        List<String> all = new ArrayList<>();
        collect(node, "", all);
        return all;
    }

    private static void collect(JsonNode node, String pointer, List<String> all) {
        all.add(pointer);
        for (int i = 0; node.isArray() && i < node.size(); i++) {
            collect(node.get(i), pointer + "/" + i, all);
        }
        for (Map.Entry<String, JsonNode> member : node.properties()) {
            collect(
                    member.getValue(),
                    pointer + "/" + member.getKey().replace("~", "~0").replace("/", "~1"),
                    all);
        }
    }

    /** The pointer of the object or list that holds a value. */
    static String parent(String pointer) {
        return pointer.substring(0, pointer.lastIndexOf('/'));
    }

    private static String name(String pointer) {
        return pointer.substring(pointer.lastIndexOf('/') + 1)
                .replace("~1", "/")
                .replace("~0", "~");
    }

    /** The document with the value at a pointer replaced by another, or added, which is given as JSON. */
    static String with(String json, String pointer, String value) {
        JsonNode root = tree(json);
        JsonNode made = tree(value);
        if (pointer.isEmpty()) {
            return made.toString();
        }
        JsonNode holder = root.at(parent(pointer));
        if (holder instanceof ArrayNode list) {
            list.set(Integer.parseInt(name(pointer)), made);
        } else {
            ((ObjectNode) holder).set(name(pointer), made);
        }
        return root.toString();
    }

    /** The document without the value at a pointer. */
    static String without(String json, String pointer) {
        JsonNode root = tree(json);
        JsonNode holder = root.at(parent(pointer));
        if (holder instanceof ArrayNode list) {
            list.remove(Integer.parseInt(name(pointer)));
        } else {
            ((ObjectNode) holder).remove(name(pointer));
        }
        return root.toString();
    }

    /** A text as JSON. */
    static String quoted(String text) {
        return MAPPER.writeValueAsString(text);
    }
}
