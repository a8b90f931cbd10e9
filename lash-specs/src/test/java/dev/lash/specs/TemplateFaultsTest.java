package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

/** A template that cannot be read: all that is wrong with it is told, each thing once, and nothing that only follows from it. */
class TemplateFaultsTest {
    private static final String FULL = Fixtures.resource(Fixtures.TEMPLATE);

    /** Fields whose names are free, so that another name is no slip. */
    private static final List<String> FREE = List.of("/sources/", "/provenance/");

    private static final Pattern ID = Pattern.compile("\"id\" *: *\"([a-z0-9-]+)\"");

    /** What is wrong with the test's own template as it stands: it is made to be read, not to be sound. */
    private static final Set<String> OF_FULL = PackCheck.of("test-twin.json", FULL).stream()
            .map(TemplateFaultsTest::key)
            .collect(Collectors.toSet());

    private static String key(PackFinding finding) {
        return finding.rule() + " " + finding.pointer();
    }

    /** What is wrong, but for what was wrong with the template before it was spoilt. */
    private static List<PackFinding> found(String json) {
        Matcher id = ID.matcher(json);
        String name = id.find() ? id.group(1) : "test-twin";
        return PackCheck.of(name + ".json", json).stream()
                .filter(finding -> finding.rule() != PackRule.CANONICAL_FORM)
                .filter(finding -> !name.equals("test-twin") || !OF_FULL.contains(key(finding)))
                .toList();
    }

    private static List<String> places(String json) {
        return found(json).stream().map(PackFinding::pointer).sorted().collect(Collectors.toCollection(ArrayList::new));
    }

    /** Templates of every kind of train, each with fields that others do not have. */
    static Stream<String> templates() {
        return Stream.concat(
                Stream.of(FULL),
                Stream.of(
                                "screw-single",
                                "mower-ohv-single",
                                "vtwin-90-desmodromic",
                                "enduro-single-one-cam",
                                "vtwin-60-follower",
                                "inline-four-eccentric",
                                "wedge-twin")
                        .map(PackFiles::template));
    }

    /** Pointers of values whose loss cannot be read over: not of texts that may be left out. */
    private static List<String> values(String json) {
        return Trees.pointers(Trees.tree(json)).stream()
                .filter(pointer -> !pointer.isEmpty())
                .toList();
    }

    @ParameterizedTest
    @MethodSource("templates")
    void oneWrongValueIsOneFinding(String json) {
        for (String pointer : values(json)) {
            List<PackFinding> findings = found(Trees.with(json, pointer, "null"));

            assertThat(findings)
                    .as(pointer)
                    .singleElement()
                    .satisfies(finding -> assertThat(finding.pointer()).isEqualTo(pointer));
        }
    }

    @ParameterizedTest
    @MethodSource("templates")
    void twoWrongValuesAreTwoFindings(String json) {
        List<String> pointers =
                values(json).stream().filter(p -> !p.equals("/format")).toList();
        for (int i = 0; i < pointers.size(); i++) {
            String one = pointers.get(i);
            String spoilt = Trees.with(json, one, "null");
            // the neighbour, and one far away
            for (int j : List.of(i + 1, (i * 7 + pointers.size() / 2) % pointers.size())) {
                String other = pointers.get(j % pointers.size());
                boolean within = other.startsWith(one + "/") || one.startsWith(other + "/") || one.equals(other);
                // without its kind nobody knows what a train needs
                boolean kind = Stream.of(one, other).anyMatch(p -> p.equals("/train/kind"))
                        && Stream.of(one, other).allMatch(p -> p.startsWith("/train/"));
                if (within || kind) {
                    continue;
                }
                assertThat(places(Trees.with(spoilt, other, "null")))
                        .as("%s and %s", one, other)
                        .containsExactlyElementsOf(
                                Stream.of(one, other).sorted().toList());
            }
        }
    }

    @ParameterizedTest
    @MethodSource("templates")
    void aSlipInTheNameOfAFieldIsOneFindingThatNamesTheField(String json) {
        int slips = 0;
        for (String pointer : values(json)) {
            String name = pointer.substring(pointer.lastIndexOf('/') + 1);
            boolean free = FREE.stream().anyMatch(f -> pointer.startsWith(f) && pointer.indexOf('/', f.length()) < 0)
                    || pointer.contains("/adjustment/");
            if (name.length() < 5 || name.matches("[0-9]+") || free || pointer.startsWith("/format")) {
                continue;
            }
            String slip = Trees.parent(pointer) + "/" + name.substring(0, 2) + name.substring(3);
            String value = Trees.tree(json).at(pointer).toString();
            String json2 = Trees.with(Trees.without(json, pointer), slip, value);
            assertThat(found(json2))
                    .as("%s for %s", slip, pointer)
                    .singleElement()
                    .satisfies(finding -> {
                        assertThat(finding.pointer()).isEqualTo(slip);
                        assertThat(finding.rule()).isEqualTo(PackRule.FIELD_KNOWN);
                        assertThat(finding.mend()).startsWith("did you mean \"" + name + "\"?");
                    });
            slips++;
        }
        assertThat(slips).isGreaterThan(20);
    }

    /** Camshafts as they are taken to be without a word were refused with an exception, and all else with them. */
    @Test
    void camshaftsThatSayNothingAreNoFigure() {
        String json = PackFiles.template("vfour-90-bucket");

        assertThat(found(Trees.with(json, "/camshafts", "{}"))).isEmpty();
    }

    @Test
    void everyMissingFieldIsToldAndNothingThatFollows() {
        String json = FULL;
        for (String field : List.of("/id", "/cylinders", "/train/shims", "/camTiming/in/opens", "/sources/book/kind")) {
            json = Trees.without(json, field);
        }

        assertThat(found(json))
                .allSatisfy(finding -> assertThat(finding.rule()).isEqualTo(PackRule.FIELD_THERE))
                .extracting(finding -> finding.pointer() + ": " + finding.problem())
                .containsExactlyInAnyOrder(
                        ": has no field \"id\"",
                        ": has no field \"cylinders\"",
                        "/train: has no field \"shims\"",
                        "/camTiming/in: has no field \"opens\"",
                        "/sources/book: has no field \"kind\"");
    }

    @Test
    void findingsStandInTheOrderOfTheFile() {
        String json = Trees.with(Trees.with(FULL, "/addedIn", "\"soon\""), "/clearances/ex", "\"0.2 mm..\"");
        String canonical = PackFiles.canonical(Trees.with(json, "/revision", "0"));

        assertThat(found(canonical))
                .isSortedAccordingTo((a, b) -> Integer.compare(a.line(), b.line()))
                .extracting(PackFinding::pointer)
                .containsExactlyInAnyOrder("/addedIn", "/clearances/ex", "/revision");
    }

    @ParameterizedTest
    @ValueSource(strings = {"{", "", "[1,]", "{ \"id\": 1, \"id\": 2 }"})
    void whatIsNoJsonIsOneFinding(String json) {
        assertThat(found(json))
                .singleElement()
                .satisfies(finding -> assertThat(finding.rule()).isEqualTo(PackRule.JSON_TEXT));
    }

    /** Of a document of another kind, no field is missed. */
    @Test
    void anotherFormatIsOneFinding() {
        assertThat(found(Trees.with(FULL, "/format", "\"lash-sheet/1\"")))
                .extracting(PackFinding::pointer)
                .containsExactly("/format");
    }

    @Test
    void aFileFullOfFaultsIsToldInBounds() {
        String many = Stream.generate(() -> "1").limit(200_000).collect(Collectors.joining(","));

        assertThat(found(Trees.with(FULL, "/notes", "[" + many + "]")))
                .hasSize(1_001)
                .last()
                .satisfies(finding -> {
                    assertThat(finding.problem()).isEqualTo("has more than 1000 faults: the rest is left out here");
                    assertThat(finding.mend()).startsWith("mend these and check it again");
                });
    }

    /** As many as are told are told as all there are. */
    @Test
    void nothingIsSaidToBeLeftOutWhereNothingIs() {
        String many = Stream.generate(() -> "1").limit(1_000).collect(Collectors.joining(","));

        assertThat(found(Trees.with(FULL, "/notes", "[" + many + "]")))
                .hasSize(1_000)
                .allSatisfy(finding -> assertThat(finding.problem()).isEqualTo("is a bare number"));
    }

    /** A title with a tab would have another number of fields in the index, and one with an escape moves the cursor of a terminal. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "/title",
                "/notes/0",
                "/cautions/0",
                "/wearPrior/basis",
                "/sources/memory/title",
                "/sources/memory/reliability",
                "/sources/decompressor/note",
                "/examples/1/note"
            })
    void aTextIsOneLine(String pointer) {
        for (String sign : List.of("\\t", "\\n", "\\r", "\\u001b", "\\u007f", "\\u0085", "\\u2028")) {
            String json = Trees.with(PackFiles.template("screw-single"), pointer, "\"low: one" + sign + "two\"");

            assertThat(found(json)).as(sign).singleElement().satisfies(finding -> {
                assertThat(finding.pointer()).isEqualTo(pointer);
                assertThat(finding.problem()).isEqualTo("holds a tab, a line break or another control character");
                assertThat(finding.value()).matches("low: one\\\\u[0-9a-f]{4}two");
                assertThat(finding.mend()).startsWith("write a space in its place");
            });
            // the schema of a wear prior is that of sheets as well, which may break their lines
            assertThat(Schemas.TEMPLATE.errors(json).isEmpty()).as(sign).isEqualTo(pointer.startsWith("/wearPrior/"));
        }
        String plain =
                Trees.with(PackFiles.template("screw-single"), pointer, "\"low: assumption, typical, 1 ° – “a”\"");
        assertThat(Schemas.TEMPLATE.errors(plain)).isEmpty();
        assertThat(found(plain)).isEmpty();
    }

    @Test
    void theNameOfASourceIsOneLine() {
        String json = PackFiles.template("screw-single").replace("\"wear\"", "\"we\\tar\"");

        assertThat(found(json))
                .allSatisfy(finding -> assertThat(finding.value()).isEqualTo("we\\u0009ar"))
                .extracting(PackFinding::pointer)
                .containsExactly("/sources/we\tar", "/provenance/~1wearPrior");
        assertThat(Schemas.TEMPLATE.errors(json)).isNotEmpty();
    }

    /** A field that may be left out is never taken for the slip of one that must be there: no two of an object are that near. */
    @Test
    void noTwoFieldsOfAnObjectAreNear() {
        Set<String> near = new TreeSet<>();
        for (String schema : List.of("sheet", "template", "pack", "mapping", "profile", "import", "report")) {
            collect(Trees.tree(Fixtures.resource("schema/lash-" + schema + "-1.schema.json")), near);
        }

        assertThat(near).isEmpty();
    }

    private static void collect(JsonNode node, Set<String> near) {
        JsonNode properties = node.get("properties");
        if (properties != null && properties.isObject()) {
            List<String> names = new ArrayList<>(properties.propertyNames());
            node.path("required")
                    .forEach(needed -> names.stream()
                            .filter(name ->
                                    !name.equals(needed.stringValue()) && Spelling.isNear(name, needed.stringValue()))
                            .forEach(name -> near.add(name + " for " + needed)));
        }
        node.forEach(child -> collect(child, near));
    }

    @Test
    void slipsAreFewForTheLengthOfAName() {
        assertThat(Spelling.isNear("clearence", "clearances")).isTrue();
        assertThat(Spelling.isNear("titel", "title")).as("changed over").isTrue();
        assertThat(Spelling.isNear("Title", "title")).as("a capital").isTrue();
        assertThat(Spelling.isNear("pich", "pitch")).as("left out").isTrue();
        assertThat(Spelling.isNear("piitch", "pitch")).as("put in").isTrue();
        assertThat(Spelling.isNear("patch", "pitch")).as("wrong").isTrue();
        assertThat(Spelling.isNear("leaf", "left"))
                .as("two slips in a short name")
                .isFalse();
        assertThat(Spelling.isNear("in", "ex")).isFalse();
        assertThat(Spelling.isNear("in", "inn")).as("too short for one").isFalse();
        assertThat(Spelling.isNear("colour", "clearances")).isFalse();
        assertThat(Spelling.isNear("", "")).isTrue();
    }
}
