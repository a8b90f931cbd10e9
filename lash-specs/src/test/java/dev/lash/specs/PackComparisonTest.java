package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatNullPointerException;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.tuple;

import dev.lash.specs.PackComparison.Change;
import dev.lash.specs.PackVersion.Step;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class PackComparisonTest {
    private static final String BEFORE = PackFiles.template("vtwin-90-bucket");

    @TempDir
    Path folder;

    private Path old;
    private Path now;

    @BeforeEach
    void makeFolders() throws IOException {
        old = Files.createDirectory(folder.resolve("old"));
        now = Files.createDirectory(folder.resolve("new"));
    }

    private PackComparison compared(String after) throws IOException {
        PackFiles.write(old, BEFORE);
        PackFiles.write(now, after);
        return PackComparison.of(old, now);
    }

    static Stream<Arguments> changes() {
        return Stream.of(
                // a window or a train, and all else that advice hangs on
                with("/clearances/in", "\"0.14..0.19 mm\"", "0.13..0.19 mm", "0.14..0.19 mm", Step.MAJOR),
                with(
                        "/train/shims",
                        "\"1.20..3.50 mm step 0.05 mm\"",
                        "1.20..3.50 mm step 0.025 mm",
                        "1.20..3.50 mm step 0.05 mm",
                        Step.MAJOR),
                with("/train/kind", "\"bucket-shim-over\"", "bucket-shim-under", "bucket-shim-over", Step.MAJOR),
                with("/condition/maxTemperature", "\"30 °C\"", "35 °C", "30 °C", Step.MAJOR),
                with("/firingIntervals", "[300, 420]", "[270, 450]", "[300, 420]", Step.MAJOR),
                with("/firingOrder", "[2, 1]", "[1, 2]", "[2, 1]", Step.MAJOR),
                // another figure
                with("/checkInterval", "\"20000 km\"", "24000 km", "20000 km", Step.MINOR),
                with("/wearPrior/drift", "\"-0.020 mm\"", "-0.010 mm", "-0.020 mm", Step.MINOR),
                with("/features/cooling", "\"air\"", "liquid", "air", Step.MINOR),
                with("/cautions", "[\"Less.\"]", null, "[Less.]", Step.MINOR),
                // a figure written in another way
                with("/clearances/in", "\"0.130..0.190 mm\"", "0.13..0.19 mm", "0.130..0.190 mm", Step.PATCH),
                with(
                        "/train/shims",
                        "\"1.2..3.5 mm step 0.025 mm\"",
                        "1.20..3.50 mm step 0.025 mm",
                        "1.2..3.5 mm step 0.025 mm",
                        Step.PATCH),
                // words
                with("/title", "\"Another title\"", null, "Another title", Step.PATCH),
                with("/notes", "[\"Typical.\"]", null, "[Typical.]", Step.PATCH),
                with("/revision", "2", "1", "2", Step.PATCH),
                with("/sources/memory/title", "\"V-twins\"", null, "V-twins", Step.PATCH),
                with("/provenance/~1clearances~1in", "\"layout\"", "memory", "layout", Step.PATCH));
    }

    private static Arguments with(String pointer, String json, String before, String after, Step step) {
        return Arguments.of(pointer, json, before, after, step);
    }

    @ParameterizedTest
    @MethodSource("changes")
    void tellsEachChange(String pointer, String json, String before, String after, Step step) throws IOException {
        PackComparison comparison = compared(Trees.with(BEFORE, pointer, json));

        assertThat(comparison.changes()).singleElement().satisfies(change -> {
            assertThat(change.template()).isEqualTo("vtwin-90-bucket");
            assertThat(change.pointer()).isEqualTo(pointer);
            assertThat(change.after()).isEqualTo(after);
            assertThat(change.step()).isEqualTo(step);
            if (before != null) {
                assertThat(change.before()).isEqualTo(before);
            }
            assertThat(change.toString())
                    .isEqualTo("vtwin-90-bucket" + pointer + ": " + change.before() + " -> " + after);
        });
        assertThat(comparison.needed()).isEqualTo(step);
    }

    @Test
    void tellsWhatWasAddedAndWhatIsGoneInATemplate() throws IOException {
        String timing = "{ \"in\": { \"opens\": \"15 deg BTDC\", \"closes\": \"50 deg ABDC\" },"
                + " \"ex\": { \"opens\": \"50 deg BBDC\", \"closes\": \"15 deg ATDC\" } }";
        String after = Trees.with(BEFORE, "/camTiming", timing);
        PackComparison added = compared(Trees.with(after, "/provenance/~1camTiming", "\"memory\""));

        assertThat(added.changes())
                .extracting(Change::pointer, Change::before, Change::step)
                .containsExactly(tuple("/camTiming", "", Step.MAJOR), tuple("/provenance/~1camTiming", "", Step.PATCH));
        assertThat(added.changes().get(0).toString())
                .startsWith("vtwin-90-bucket/camTiming: (none) -> {in: {opens: 15");

        PackComparison gone = PackComparison.of(now, old);
        assertThat(gone.needed())
                .as("timing that is gone moves the crank stops")
                .isEqualTo(Step.MAJOR);
        assertThat(gone.changes().get(0).toString()).endsWith(" -> (gone)");
    }

    @Test
    void tellsEveryChangedValueByTemplateAndPlace() throws IOException {
        PackFiles.write(old, PackFiles.template("screw-single"));
        PackFiles.write(now, Trees.with(PackFiles.template("screw-single"), "/checkInterval", "\"4000 km\""));
        PackComparison comparison =
                compared(Trees.with(Trees.with(BEFORE, "/title", "\"T\""), "/clearances/ex", "\"0.20..0.28 mm\""));

        assertThat(comparison.changes())
                .extracting(c -> c.template() + c.pointer())
                .containsExactly(
                        "screw-single/checkInterval", "vtwin-90-bucket/clearances/ex", "vtwin-90-bucket/title");
        assertThat(comparison.needed()).isEqualTo(Step.MAJOR);
    }

    @Test
    void tellsATemplateThatCameOrIsGone() throws IOException {
        PackFiles.write(now, PackFiles.template("screw-single"));
        PackComparison came = compared(BEFORE);
        PackComparison gone = PackComparison.of(now, old);

        assertThat(came.changes()).containsExactly(new Change("screw-single", "", "", "a template", Step.MINOR));
        assertThat(came.findings()).isEmpty();
        assertThat(gone.changes()).containsExactly(new Change("screw-single", "", "a template", "", Step.MAJOR));
        assertThat(gone.findings()).extracting(PackFinding::value).containsExactly("screw-single");
    }

    @Test
    void seesNoChangeInTheForm() throws IOException {
        PackFiles.write(old, BEFORE);
        Files.writeString(now.resolve("vtwin-90-bucket.json"), Trees.with(BEFORE, "/cylinders", "2"));

        PackComparison comparison = PackComparison.of(old, now);

        assertThat(comparison.changes()).isEmpty();
        assertThat(comparison.needed()).isEqualTo(Step.NONE);
    }

    @ParameterizedTest
    @CsvSource({
        // a window changed: major; below 1.0.0 the minor number is enough
        "/clearances/in, '\"0.14..0.19 mm\"', 1.0.0, 2.0.0, true",
        "/clearances/in, '\"0.14..0.19 mm\"', 1.0.0, 1.1.0, false",
        "/clearances/in, '\"0.14..0.19 mm\"', 1.0.0, 1.0.1, false",
        "/clearances/in, '\"0.14..0.19 mm\"', 1.0.0, 1.0.0, false",
        "/clearances/in, '\"0.14..0.19 mm\"', 0.1.0, 0.2.0, true",
        "/clearances/in, '\"0.14..0.19 mm\"', 0.1.0, 0.1.1, false",
        "/clearances/in, '\"0.14..0.19 mm\"', 0.9.0, 1.0.0, true",
        // another figure: minor
        "/checkInterval, '\"20000 km\"', 1.0.0, 1.1.0, true",
        "/checkInterval, '\"20000 km\"', 1.0.0, 2.0.0, true",
        "/checkInterval, '\"20000 km\"', 1.0.0, 1.0.1, false",
        "/checkInterval, '\"20000 km\"', 0.1.0, 0.1.1, false",
        // words: patch
        "/title, '\"Another\"', 1.0.0, 1.0.1, true",
        "/title, '\"Another\"', 1.0.0, 1.0.0, false",
        "/title, '\"Another\"', 1.1.0, 1.0.9, false",
        // nothing: any version that is not a step back
        "/title, '\"V-twin at 90 degrees, four valves a cylinder, shims under the buckets\"', 1.0.0, 1.0.0, true",
        "/title, '\"V-twin at 90 degrees, four valves a cylinder, shims under the buckets\"', 1.0.0, 0.9.0, false"
    })
    void holdsTheVersionToTheChanges(String pointer, String json, String before, String after, boolean honest)
            throws IOException {
        PackFiles.version(old, before);
        PackFiles.version(now, after);
        PackComparison comparison = compared(Trees.with(BEFORE, pointer, json));

        assertThat(comparison.oldVersion()).isEqualTo(PackVersion.parse(before));
        assertThat(comparison.newVersion()).isEqualTo(PackVersion.parse(after));
        assertThat(comparison.isHonest()).isEqualTo(honest);
    }

    // The life of a template

    private static Arguments life(String problem, String pointer, String expected, String... changes) {
        return Arguments.of(List.of(changes), pointer, problem, expected);
    }

    static Stream<Arguments> lives() {
        return Stream.of(
                life("was not raised", "/revision", "at least 2", "/clearances/in", "\"0.14..0.19 mm\""),
                life("was not raised", "/revision", "at least 2", "/checkInterval", "\"20000 km\""),
                life("was not raised", "/revision", "at least 2", "/cautions", "[\"Less.\"]"),
                life("is not what it was", "/addedIn", "0.2.0", "/addedIn", "\"0.1.0\""),
                life("is missing: the template is deprecated", "/deprecatedIn", "1.1.0", "/status", "\"deprecated\""),
                life(
                        "is a version that is still to come",
                        "/deprecatedIn",
                        "at most 1.1.0",
                        "/status",
                        "\"deprecated\"",
                        "/deprecatedIn",
                        "\"9.9.9\""),
                life(
                        "is a version in which the template was active",
                        "/deprecatedIn",
                        "1.1.0",
                        "/status",
                        "\"deprecated\"",
                        "/deprecatedIn",
                        "\"0.9.0\""),
                life(
                        "another engine, since the firing intervals changed too",
                        "/title",
                        "V-twin at 90 degrees",
                        "/title",
                        "\"V-twin at 60 degrees\"",
                        "/firingIntervals",
                        "[300, 420]",
                        "/revision",
                        "2"),
                life(
                        "skips a step",
                        "/status",
                        "deprecated for one version at least",
                        "/status",
                        "\"withdrawn\"",
                        "/deprecatedIn",
                        "\"1.1.0\""),
                life(
                        "makes it another engine",
                        "/train/kind",
                        "bucket-shim-under",
                        "/train/kind",
                        "\"bucket-shim-over\"",
                        "/revision",
                        "2"),
                life(
                        "makes it another engine",
                        "/valves",
                        "8 valves",
                        "/valves",
                        "[\"1-in-1\", \"1-ex-1\", \"2-in-1\", \"2-ex-1\"]",
                        "/revision",
                        "2"));
    }

    private PackComparison versions(String before, String after) throws IOException {
        PackFiles.version(old, "1.0.0");
        PackFiles.version(now, "1.1.0");
        PackFiles.write(old, before);
        PackFiles.write(now, after);
        return PackComparison.of(old, now);
    }

    private static String changed(String json, List<String> changes) {
        String made = json;
        for (int i = 0; i < changes.size(); i += 2) {
            made = Trees.with(made, changes.get(i), changes.get(i + 1));
        }
        return made;
    }

    @ParameterizedTest
    @MethodSource("lives")
    void holdsATemplateToItsLife(List<String> changes, String pointer, String problem, String expected)
            throws IOException {
        String before = Trees.with(BEFORE, "/revision", "1");
        PackComparison comparison = versions(before, changed(before, changes));

        assertThat(comparison.findings()).singleElement().satisfies(finding -> {
            assertThat(finding.file()).isEqualTo("vtwin-90-bucket.json");
            assertThat(finding.pointer()).isEqualTo(pointer);
            assertThat(finding.problem()).contains(problem);
            assertThat(finding.expected()).contains(expected);
            assertThat(finding.mend()).isNotBlank();
        });
        assertThat(comparison.isSound()).isFalse();
    }

    @Test
    void aRevisionIsNeverLowered() throws IOException {
        PackComparison comparison = versions(
                Trees.with(BEFORE, "/revision", "3"),
                Trees.with(Trees.with(BEFORE, "/revision", "2"), "/title", "\"Another\""));

        assertThat(comparison.findings()).singleElement().satisfies(finding -> {
            assertThat(finding.pointer()).isEqualTo("/revision");
            assertThat(finding.problem()).isEqualTo("is lower than it was");
            assertThat(finding.expected()).isEqualTo("at least 3");
        });
    }

    @Test
    void wordsNeedNoNewRevisionAndADeprecationNoneEither() throws IOException {
        PackComparison comparison = versions(
                BEFORE,
                changed(
                        BEFORE,
                        List.of("/title", "\"Another\"", "/status", "\"deprecated\"", "/deprecatedIn", "\"1.1.0\"")));

        assertThat(comparison.findings()).isEmpty();
        assertThat(comparison.isSound()).isTrue();
    }

    @Test
    void whatIsWithdrawnStaysSoAndItsVersionsStand() throws IOException {
        String withdrawn = changed(BEFORE, List.of("/status", "\"withdrawn\"", "/deprecatedIn", "\"0.3.0\""));

        assertThat(versions(withdrawn, BEFORE).findings())
                .extracting(PackFinding::problem)
                .containsExactly("brings back a template that was withdrawn");
        assertThat(versions(withdrawn, Trees.with(withdrawn, "/deprecatedIn", "\"0.4.0\""))
                        .findings())
                .extracting(PackFinding::pointer, PackFinding::expected)
                .containsExactly(tuple("/deprecatedIn", "0.3.0"));
    }

    @Test
    void aTemplateComesInTheVersionThatItNames() throws IOException {
        PackFiles.write(now, BEFORE);
        PackComparison early = versions(PackFiles.template("screw-single"), PackFiles.template("screw-single"));
        assertThat(early.findings()).singleElement().satisfies(finding -> {
            assertThat(finding.pointer()).isEqualTo("/addedIn");
            assertThat(finding.problem()).isEqualTo("is a version that did not have this template");
            assertThat(finding.expected()).isEqualTo("1.1.0");
        });

        PackFiles.write(now, Trees.with(BEFORE, "/addedIn", "\"1.2.0\""));
        assertThat(PackComparison.of(old, now).findings())
                .extracting(PackFinding::problem)
                .containsExactly("is a version that is still to come");

        PackFiles.write(now, Trees.with(BEFORE, "/addedIn", "\"1.1.0\""));
        assertThat(PackComparison.of(old, now).isSound()).isTrue();
    }

    @Test
    void aTemplateDoesNotComeInAVersionThatWasNotRaised() throws IOException {
        PackFiles.version(old, "1.0.0");
        PackFiles.version(now, "1.0.0");
        PackFiles.write(now, Trees.with(BEFORE, "/addedIn", "\"1.0.0\""));

        assertThat(PackComparison.of(old, now).findings()).singleElement().satisfies(finding -> {
            assertThat(finding.pointer()).isEqualTo("/addedIn");
            assertThat(finding.problem()).isEqualTo("is told of a pack whose version was not raised");
            assertThat(finding.mend()).contains("raise the version in pack.json");
        });
    }

    /** Intervals that are even need not be written: without them the engine is the same. */
    @Test
    void evenIntervalsThatAreLeftOutChangeNothing() throws IOException {
        String written = PackFiles.template("over-bucket-four");
        PackFiles.write(old, written);
        PackFiles.write(
                now, Trees.without(Trees.without(written, "/firingIntervals"), "/provenance/~1firingIntervals"));

        assertThat(PackComparison.of(old, now).changes())
                .isNotEmpty()
                .allSatisfy(change -> assertThat(change.step()).isEqualTo(Step.PATCH));
    }

    @Test
    void isNotHonestWithoutAVersion() throws IOException {
        PackFiles.version(old, "1.0.0");
        PackComparison comparison = compared(BEFORE);

        assertThat(comparison.newVersion()).isNull();
        assertThat(comparison.isHonest()).isFalse();
        assertThat(PackComparison.of(now, now).isHonest()).isFalse();
    }

    /** Step 9 of a new template forgotten: its version is right, that of the index is not. */
    @Test
    void aVersionThatWasNotRaisedIsToBeRaisedInTheIndex() throws IOException {
        PackFiles.version(old, "0.2.0");
        PackFiles.version(now, "0.2.0");
        PackFiles.write(now, Trees.with(BEFORE, "/addedIn", "\"0.3.0\""));

        PackFinding finding = PackComparison.of(old, now).findings().get(0);

        assertThat(finding.rule()).isEqualTo(PackRule.ADDED_TRUE);
        assertThat(finding.problem())
                .isEqualTo("is a version that the pack does not have yet: pack.json still says 0.2.0");
        assertThat(finding.expected()).isEqualTo("0.3.0 as the version in pack.json");
        assertThat(finding.mend()).startsWith("raise \"version\" in pack.json to 0.3.0");

        PackFiles.version(now, "0.3.0");
        assertThat(PackComparison.of(old, now).findings()).isEmpty();
    }

    @Test
    void aDeprecationInAVersionThatWasNotRaisedIsToBeRaisedInTheIndex() throws IOException {
        PackFiles.version(old, "0.2.0");
        PackFiles.version(now, "0.2.0");
        String deprecated = Trees.with(Trees.with(BEFORE, "/status", "\"deprecated\""), "/deprecatedIn", "\"0.3.0\"");

        PackFinding finding = compared(deprecated).findings().get(0);

        assertThat(finding.rule()).isEqualTo(PackRule.DEPRECATED_TRUE);
        assertThat(finding.mend()).startsWith("raise \"version\" in pack.json to 0.3.0");
    }

    @Test
    void refusesAVersionThatIsNone() throws IOException {
        PackFiles.version(old, "1.0");

        assertThatThrownBy(() -> PackComparison.of(old, now))
                .isInstanceOf(DocumentException.class)
                .hasMessageContaining("pack.json, line 1, ", "at /version: \"1.0\" is not a version");
    }

    @Test
    void refusesAFolderThatCannotBeReadWhole() throws IOException {
        Files.writeString(now.resolve("broken.json"), "{");

        assertThatThrownBy(() -> PackComparison.of(old, now))
                .isInstanceOf(DocumentException.class)
                .hasMessageStartingWith(now + "/broken.json, line 1, ");
        assertThatThrownBy(() -> PackComparison.of(old.resolve("missing"), now))
                .isInstanceOf(DocumentException.class)
                .hasMessageContaining("is not a folder");
    }

    /** The previous version of the pack against this one: what came is declared honestly, and nothing is gone. */
    @Test
    void theBundledVersionIsHonest() throws IOException {
        PackComparison comparison = PackComparison.of(PreviousPackTest.FOLDER, PackFiles.BUNDLED);

        assertThat(comparison.changes()).isNotEmpty();
        assertThat(comparison.findings()).isEmpty();
        assertThat(comparison.isHonest())
                .as("from %s to %s, needs %s", comparison.oldVersion(), comparison.newVersion(), comparison.needed())
                .isTrue();
    }

    @Test
    void refusesNull() {
        assertThatNullPointerException().isThrownBy(() -> new PackComparison(null, List.of(), null, null));
        assertThatNullPointerException().isThrownBy(() -> new Change(null, "", "", "", Step.NONE));
        assertThatNullPointerException().isThrownBy(() -> new Change("", "", "", "", null));
    }

    @Test
    void serialises() throws IOException, ClassNotFoundException {
        PackComparison comparison = new PackComparison(
                List.of(new Change("a", "/b", "c", "d", Step.MINOR)), List.of(), PackVersion.parse("1.0.0"), null);

        assertThat(TemplateTest.copied(comparison)).isEqualTo(comparison);
    }
}
