package dev.lash.specs;

import dev.lash.specs.Json.Kind;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The one form in which a template stands in the pack: fields in a fixed order, two spaces of indent, lists of plain values on one
 * line where they fit. So a change of a figure is a change of one line.
 */
final class Canonical {
    private static final int WIDTH = 120;
    private static final List<String> ORDER = List.of(
            "format",
            "id",
            "title",
            "revision",
            "status",
            "addedIn",
            "deprecatedIn",
            "replacedBy",
            "features",
            "cylinders",
            "firingOrder",
            "firingIntervals",
            "valves",
            "train",
            "clearances",
            "setTo",
            "closerClearances",
            "closerSetTo",
            "condition",
            "checkInterval",
            "camTiming",
            "decompressor",
            "camshafts",
            "wearPrior",
            "tools",
            "cautions",
            "notes",
            "sources",
            "provenance",
            "examples");

    private final StringBuilder out = new StringBuilder();

    private Canonical() {}

    /** The canonical text of a document, with a line end. */
    static String text(Json root) {
        Canonical writer = new Canonical();
        Map<String, Json> ordered = new LinkedHashMap<>();
        for (String name : ORDER) {
            if (root.members().containsKey(name)) {
                ordered.put(name, root.members().get(name));
            }
        }
        root.members().forEach(ordered::putIfAbsent);
        writer.object(ordered, "");
        return writer.out.append('\n').toString();
    }

    private void value(Json value, String indent) {
        switch (value.kind()) {
            case OBJECT -> object(value.members(), indent);
            case ARRAY -> list(value.items(), indent);
            case TEXT, NUMBER, TRUTH, NULL -> out.append(plain(value));
        }
    }

    private static String plain(Json value) {
        return switch (value.kind()) {
            case TEXT -> quoted(value.text());
            case NUMBER, TRUTH -> value.text();
            default -> "null";
        };
    }

    private static String quoted(String text) {
        StringBuilder quoted = new StringBuilder("\"");
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            switch (c) {
                case '"' -> quoted.append("\\\"");
                case '\\' -> quoted.append("\\\\");
                case '\n' -> quoted.append("\\n");
                case '\t' -> quoted.append("\\t");
                default -> {
                    boolean pair = Character.isHighSurrogate(c)
                            && i + 1 < text.length()
                            && Character.isLowSurrogate(text.charAt(i + 1));
                    if (pair) {
                        quoted.append(c).append(text.charAt(++i));
                    } else if (c < ' ' || Character.isSurrogate(c)) { // half a pair cannot be written in UTF-8
                        quoted.append(String.format("\\u%04x", (int) c));
                    } else {
                        quoted.append(c);
                    }
                }
            }
        }
        return quoted.append('"').toString();
    }

    private void object(Map<String, Json> members, String indent) {
        if (members.isEmpty()) {
            out.append("{}");
            return;
        }
        String inner = indent + "  ";
        String separator = "{\n";
        for (Map.Entry<String, Json> member : members.entrySet()) {
            out.append(separator).append(inner).append(quoted(member.getKey())).append(": ");
            value(member.getValue(), inner);
            separator = ",\n";
        }
        out.append('\n').append(indent).append('}');
    }

    private void list(List<Json> items, String indent) {
        boolean plain = items.stream().noneMatch(i -> i.kind() == Kind.OBJECT || i.kind() == Kind.ARRAY);
        boolean texts = items.stream()
                .anyMatch(i -> i.kind() == Kind.TEXT
                        && i.text().indexOf(' ') > 0
                        && i.text().length() > 20);
        if (plain && !texts) {
            List<String> words = new ArrayList<>();
            items.forEach(item -> words.add(plain(item)));
            String line = "[" + String.join(", ", words) + "]";
            if (indent.length() + line.length() <= WIDTH) {
                out.append(line);
                return;
            }
        }
        String inner = indent + "  ";
        String separator = "[\n";
        for (Json item : items) {
            out.append(separator).append(inner);
            value(item, inner);
            separator = ",\n";
        }
        out.append('\n').append(indent).append(']');
    }
}
