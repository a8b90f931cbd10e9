package dev.lash.specs;

import com.networknt.schema.Error;
import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SchemaRegistryConfig;
import com.networknt.schema.SpecificationVersion;
import java.util.List;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** The schemas that are shipped, ready to validate with; {@code format} counts as a check. */
final class Schemas {
    /** The files of the schemas. */
    static final List<String> FILES = List.of(
            "lash-import-1.schema.json",
            "lash-mapping-1.schema.json",
            "lash-pack-1.schema.json",
            "lash-profile-1.schema.json",
            "lash-report-1.schema.json",
            "lash-sheet-1.schema.json",
            "lash-template-1.schema.json");

    static final Schemas IMPORT = new Schemas(FILES.get(0));
    static final Schemas MAPPING = new Schemas(FILES.get(1));
    static final Schemas PACK = new Schemas(FILES.get(2));
    static final Schemas PROFILE = new Schemas(FILES.get(3));
    static final Schemas REPORT = new Schemas(FILES.get(4));
    static final Schemas SHEET = new Schemas(FILES.get(5));
    static final Schemas TEMPLATE = new Schemas(FILES.get(6));

    private static final String DRAFT = "https://json-schema.org/draft/2020-12/schema";

    private final String text;
    private final Schema schema;

    private Schemas(String file) {
        this.text = Fixtures.resource("schema/" + file);
        this.schema = registry().getSchema(text, InputFormat.JSON);
    }

    private static SchemaRegistry registry() {
        SchemaRegistryConfig config = SchemaRegistryConfig.builder()
                .formatAssertionsEnabled(true)
                .preloadSchema(true)
                .build();
        return SchemaRegistry.withDefaultDialect(
                SpecificationVersion.DRAFT_2020_12, builder -> builder.schemaRegistryConfig(config));
    }

    /** What is wrong with a schema by the schema of schemas, of which the validator carries the published copy. */
    static List<String> errorsOfSchema(String schema) {
        return messages(registry().getSchema(SchemaLocation.of(DRAFT)).validate(schema, InputFormat.JSON));
    }

    /** The schema itself, as a tree. */
    JsonNode tree() {
        return Trees.tree(text);
    }

    /** What is wrong with a document; empty when it is valid. */
    List<String> errors(String json) {
        return messages(schema.validate(json, InputFormat.JSON));
    }

    /** The part of the schema under a name in {@code $defs}, on its own. */
    Part part(String name) {
        return part(name, "#/$defs/" + name);
    }

    /** The part of the schema at a reference, on its own. */
    Part part(String name, String reference) {
        ObjectNode root = (ObjectNode) Trees.tree("{\"$schema\":" + Trees.quoted(DRAFT) + "}");
        root.put("$ref", reference);
        root.set("$defs", tree().get("$defs"));
        return new Part(name, registry().getSchema(root.toString(), InputFormat.JSON));
    }

    private static List<String> messages(List<Error> errors) {
        return errors.stream().map(Error::toString).toList();
    }

    /** A part of a schema. */
    record Part(String name, Schema schema) {
        boolean accepts(String text) {
            return errors(Trees.quoted(text)).isEmpty();
        }

        List<String> errors(String json) {
            return messages(schema.validate(json, InputFormat.JSON));
        }
    }
}
