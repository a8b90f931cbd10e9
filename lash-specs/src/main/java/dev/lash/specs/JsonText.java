package dev.lash.specs;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tools.jackson.core.StreamWriteFeature;
import tools.jackson.databind.SerializationFeature;
import tools.jackson.databind.json.JsonMapper;

/** Writes trees of maps, lists, texts, numbers and truth values as JSON. */
final class JsonText {
    private static final JsonMapper COMPACT = JsonMapper.builder()
            .enable(StreamWriteFeature.WRITE_BIGDECIMAL_AS_PLAIN)
            .build();
    private static final JsonMapper PRETTY =
            COMPACT.rebuild().enable(SerializationFeature.INDENT_OUTPUT).build();

    private JsonText() {}

    static String write(Map<String, Object> tree, boolean pretty) {
        return (pretty ? PRETTY : COMPACT).writeValueAsString(tree).replace("\r\n", "\n");
    }

    /** An object under construction, in the order in which fields are put. */
    static final class Fields {
        private final Map<String, Object> map = new LinkedHashMap<>();

        Fields put(String name, Object value) {
            map.put(name, value);
            return this;
        }

        /** Puts what is there. */
        Fields put(String name, Optional<?> value) {
            value.ifPresent(v -> map.put(name, v));
            return this;
        }

        /** Puts a text unless it is empty. */
        Fields putText(String name, String text) {
            if (!text.isEmpty()) {
                map.put(name, text);
            }
            return this;
        }

        /** Puts a list unless it is empty. */
        Fields putList(String name, List<?> list) {
            if (!list.isEmpty()) {
                map.put(name, new ArrayList<>(list));
            }
            return this;
        }

        Map<String, Object> map() {
            return map;
        }
    }
}
