package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class CanonicalTest {
    static Stream<String> ids() {
        return SpecPack.bundled().ids().stream();
    }

    private static Template read(String json) {
        return new TemplateReader(JsonDocument.parse("template.json", json)).read();
    }

    @ParameterizedTest
    @MethodSource("ids")
    void goesRoundWithEveryBundledTemplate(String id) throws IOException {
        Path file = PackFiles.BUNDLED.resolve(id + ".json");
        String json = Files.readString(file);

        String written = Canonical.text(JsonDocument.parse(id, json).root());

        assertThat(BadInput.utf8(written)).isEqualTo(Files.readAllBytes(file));
        assertThat(read(written)).isEqualTo(SpecPack.bundled().get(id));
    }

    @ParameterizedTest
    @MethodSource("ids")
    void bringsAnyOtherFormBack(String id) {
        String json = PackFiles.template(id);

        assertThat(PackFiles.canonical(Trees.with(
                        json, "/cylinders", Trees.tree(json).get("cylinders").toString())))
                .as("on one line")
                .isEqualTo(json);
        assertThat(PackFiles.canonical(json.replace("\n", "\r\n\t"))).isEqualTo(json);
    }

    @Test
    void keepsTheOrderOfTheDictionary() {
        String json = PackFiles.template("screw-single");
        String title = "  \"title\": \"Small training single, screw rockers\",\n";
        String moved = json.replace(title, "").replace("  \"cylinders\"", title + "  \"cylinders\"");

        assertThat(moved).isNotEqualTo(json);
        assertThat(PackFiles.canonical(moved)).isEqualTo(json);
    }

    @Test
    void writesWhatItDoesNotKnowAtTheEnd() {
        assertThat(PackFiles.canonical(
                        "{ \"z\": true, \"b\": null, \"id\": \"a\", \"e\": {}, \"l\": [], \"n\": 1.50 }"))
                .isEqualTo("""
                        {
                          "id": "a",
                          "z": true,
                          "b": null,
                          "e": {},
                          "l": [],
                          "n": 1.50
                        }
                        """);
    }

    @Test
    void writesWhatTextNeeds() {
        String json = "{ \"id\": \"\\\" \\\\ \\n \\t \\u0007 ° \\u00b0 \\ud83d\\udd27 \\ud800 \\udc00x\" }";

        String written = PackFiles.canonical(json);

        assertThat(written)
                .isEqualTo("{\n  \"id\": \"\\\" \\\\ \\n \\t \\u0007 ° ° \ud83d\udd27 \\ud800 \\udc00x\"\n}\n");
        assertThat(JsonDocument.parse("a", BadInput.utf8(written))
                        .root()
                        .members()
                        .get("id")
                        .text())
                .isEqualTo(
                        JsonDocument.parse("a", json).root().members().get("id").text());
    }

    @Test
    void breaksLongListsAndListsOfSentences() {
        String numbers = "1000000000, ".repeat(20) + "1";
        assertThat(PackFiles.canonical("{ \"id\": [" + numbers + "] }").lines()).hasSize(25);
        assertThat(PackFiles.canonical("{ \"notes\": [\"A sentence of some length.\"] }"))
                .isEqualTo("{\n  \"notes\": [\n    \"A sentence of some length.\"\n  ]\n}\n");
    }

    @Property(tries = 300)
    void isIdempotentAndKeepsEveryText(@ForAll String text) {
        String json = "{ \"title\": " + Trees.quoted(text) + ", \"id\": [" + Trees.quoted(text) + "] }";

        String written = PackFiles.canonical(json);

        assertThat(PackFiles.canonical(written)).isEqualTo(written);
        assertThat(JsonDocument.parse("a", BadInput.utf8(written))
                        .root()
                        .members()
                        .get("title")
                        .text())
                .isEqualTo(JsonDocument.parse("a", json)
                        .root()
                        .members()
                        .get("title")
                        .text());
    }
}
