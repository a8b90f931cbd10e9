package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatNullPointerException;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lash.measure.RejectedValueException;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Every rule of the pack is broken three times at least, here where a folder or two versions break it, else in its template. */
class PackRuleTest {
    private static final String SCREW = "screw-single";
    private static final String BUCKET = "vtwin-90-bucket";
    private static final String DESMO = "vtwin-90-desmodromic";

    /** How the file of a folder comes to be wrong. */
    private interface Making {
        void in(Path folder) throws IOException;
    }

    /** A folder that breaks a rule: what is in it, and the finding that must come. */
    private record BrokenFolder(PackRule rule, String what, Making making, String file, String pointer) {
        @Override
        public String toString() {
            return rule + ", " + what;
        }
    }

    @TempDir
    Path folder;

    private static BrokenFolder folder(PackRule rule, String what, String file, String pointer, Making making) {
        return new BrokenFolder(rule, what, making, file, pointer);
    }

    private static BrokenFolder text(PackRule rule, String what, String text) {
        return folder(rule, what, "a.json", "", in -> Files.writeString(in.resolve("a.json"), text));
    }

    private static Stream<BrokenFolder> files() {
        return Stream.of(
                folder(
                        PackRule.PLAIN_FILE,
                        "a folder",
                        "a.json",
                        "",
                        in -> Files.createDirectory(in.resolve("a.json"))),
                folder(PackRule.PLAIN_FILE, "a link", "a.json", "", in -> {
                    Path there = PackFiles.write(in, PackFiles.template(SCREW));
                    Files.createSymbolicLink(in.resolve("a.json"), there);
                }),
                folder(
                        PackRule.PLAIN_FILE,
                        "another ending",
                        "a.json.old",
                        "",
                        in -> Files.writeString(in.resolve("a.json.old"), PackFiles.template(SCREW))),
                folder(
                        PackRule.PLAIN_FILE,
                        "too large a file",
                        "a.json",
                        "",
                        in -> Files.write(in.resolve("a.json"), new byte[PackFolder.MOST_BYTES + 1])),
                text(PackRule.JSON_TEXT, "half a document", "{"),
                text(PackRule.JSON_TEXT, "nothing", ""),
                text(PackRule.JSON_TEXT, "two documents", "{} {}"),
                folder(
                        PackRule.JSON_TEXT,
                        "a key twice",
                        "a.json",
                        "/id",
                        in -> Files.writeString(in.resolve("a.json"), "{ \"id\": \"a\", \"id\": \"b\" }")),
                folder(
                        PackRule.JSON_TEXT,
                        "another encoding",
                        "a.json",
                        "",
                        in -> Files.write(
                                in.resolve("a.json"), "{ \"\u00e4\": 1 }".getBytes(StandardCharsets.ISO_8859_1))));
    }

    private static BrokenFolder form(String id, String what, String from, String to) {
        return folder(PackRule.CANONICAL_FORM, what + " in " + id, id + ".json", "", in -> {
            String sound = PackFiles.template(id);
            assertThat(sound).contains(from);
            Files.writeString(in.resolve(id + ".json"), sound.replace(from, to));
        });
    }

    private static Stream<BrokenFolder> together() {
        return Stream.concat(
                Stream.of(
                        form(SCREW, "a blank", "\"valves\": [", "\"valves\":  ["),
                        form(BUCKET, "other line ends", "\n", "\r\n"),
                        form(DESMO, "a byte-order mark", "{\n  \"format\"", "\uFEFF{\n  \"format\"")),
                Stream.of(SCREW, BUCKET, DESMO)
                        .flatMap(id -> Stream.of(
                                folder(PackRule.ID_ONCE, id + " in two files", "z.json", "/id", in -> {
                                    PackFiles.write(in, PackFiles.template(id));
                                    Files.writeString(in.resolve("z.json"), PackFiles.template(id));
                                }),
                                folder(
                                        PackRule.ID_FILE,
                                        id + " under another name",
                                        "a.json",
                                        "/id",
                                        in -> Files.writeString(in.resolve("a.json"), PackFiles.template(id))),
                                folder(PackRule.NAME_ALONE, id + " under two ids", "zz.json", "/title", in -> {
                                    PackFiles.write(in, PackFiles.template(id));
                                    PackFiles.write(
                                            in, Trees.with(PackFiles.renamed(id, "zz"), "/title", "\"Another title\""));
                                }),
                                folder(
                                        PackRule.REPLACED_ACTIVE,
                                        id + " by one that is deprecated too",
                                        id + ".json",
                                        "/replacedBy",
                                        in -> {
                                            PackFiles.write(in, deprecated(id, "mower-ohv-single"));
                                            PackFiles.write(in, deprecated("mower-ohv-single", "quad-single-hours"));
                                        }))));
    }

    private static String deprecated(String id, String by) {
        String json = Trees.with(PackFiles.template(id), "/status", "\"deprecated\"");
        json = Trees.with(json, "/deprecatedIn", "\"9.0.0\"");
        return Trees.with(json, "/replacedBy", "\"" + by + "\"");
    }

    private static BrokenFolder index(PackRule rule, String what, String pointer, String at, String value) {
        return folder(rule, what, "pack.json", pointer, in -> {
            PackFiles.write(in, PackFiles.template(SCREW));
            PackFiles.version(in, "1.0.0");
            Files.writeString(in.resolve("pack.json"), Trees.with(PackIndex.text(in), at, value));
        });
    }

    private static BrokenFolder gone(String id) {
        return folder(PackRule.INDEX_FILE, id + " is gone", "pack.json", "/templates/0", in -> {
            Path file = PackFiles.write(in, PackFiles.template(id));
            PackFiles.version(in, "1.0.0");
            Files.writeString(in.resolve("pack.json"), PackIndex.text(in));
            Files.delete(file);
        });
    }

    private static Stream<BrokenFolder> indexes() {
        return Stream.of(
                index(PackRule.INDEX_CURRENT, "another checksum", "/templates", "/templates/0/sha256", "\"00\""),
                index(PackRule.INDEX_CURRENT, "another revision", "/templates", "/templates/0/revision", "77"),
                index(PackRule.INDEX_CURRENT, "another file", "/templates", "/templates/0/file", "\"b.json\""),
                index(PackRule.INDEX_CURRENT, "no template", "/templates", "/templates", "[]"),
                gone(SCREW),
                gone(BUCKET),
                gone(DESMO));
    }

    static Stream<BrokenFolder> folders() {
        return Stream.of(files(), together(), indexes()).flatMap(broken -> broken);
    }

    @ParameterizedTest
    @MethodSource("folders")
    void everyBrokenFolderIsFound(BrokenFolder broken) throws IOException {
        broken.making().in(folder);

        assertThat(PackCheck.of(folder)).anySatisfy(finding -> {
            assertThat(finding.rule()).isEqualTo(broken.rule());
            assertThat(finding.file()).isEqualTo(broken.file());
            assertThat(finding.pointer()).isEqualTo(broken.pointer());
            assertThat(List.of(finding.problem(), finding.expected(), finding.mend()))
                    .noneMatch(String::isBlank);
        });
    }

    // One version of the pack beside the one before

    /** A template as it was in version 1.0.0, and as it is in 1.1.0; {@code null} where it is not there. */
    private record BrokenLife(PackRule rule, String id, String before, String after, String pointer) {
        @Override
        public String toString() {
            return rule + ", " + id + " at " + pointer + ": " + changes(before) + " -> " + changes(after);
        }

        private static String changes(String json) {
            return json == null ? "none" : Integer.toHexString(json.hashCode());
        }
    }

    private static String template(String id, String... changes) {
        String json = PackFiles.template(id);
        for (int i = 0; i < changes.length; i += 2) {
            json = Trees.with(json, changes[i], changes[i + 1]);
        }
        return json;
    }

    private static Stream<BrokenLife> lives(String id) {
        String then = template(id, "/revision", "3");
        String old = template(id, "/revision", "3", "/status", "\"deprecated\"", "/deprecatedIn", "\"0.9.0\"");
        String withdrawn = Trees.with(old, "/status", "\"withdrawn\"");
        return Stream.of(
                new BrokenLife(PackRule.NEVER_DELETED, id, then, null, ""),
                new BrokenLife(PackRule.ADDED_TRUE, id, null, template(id, "/addedIn", "\"1.0.0\""), "/addedIn"),
                new BrokenLife(PackRule.ADDED_TRUE, id, null, template(id, "/addedIn", "\"1.2.0\""), "/addedIn"),
                new BrokenLife(PackRule.HISTORY_FIXED, id, then, Trees.with(then, "/addedIn", "\"0.0.1\""), "/addedIn"),
                new BrokenLife(
                        PackRule.HISTORY_FIXED,
                        id,
                        old,
                        Trees.with(old, "/deprecatedIn", "\"0.8.0\""),
                        "/deprecatedIn"),
                new BrokenLife(
                        PackRule.DEPRECATED_TRUE,
                        id,
                        then,
                        Trees.with(old, "/deprecatedIn", "\"1.0.0\""),
                        "/deprecatedIn"),
                new BrokenLife(
                        PackRule.DEPRECATED_TRUE,
                        id,
                        then,
                        Trees.with(old, "/deprecatedIn", "\"1.2.0\""),
                        "/deprecatedIn"),
                new BrokenLife(
                        PackRule.DEPRECATED_SINCE,
                        id,
                        then,
                        Trees.with(then, "/status", "\"deprecated\""),
                        "/deprecatedIn"),
                new BrokenLife(PackRule.STATUS_STEPS, id, then, withdrawn, "/status"),
                new BrokenLife(PackRule.STATUS_STEPS, id, withdrawn, then, "/status"),
                new BrokenLife(
                        PackRule.REVISION_RAISED, id, then, Trees.with(then, "/cautions", "[\"Less.\"]"), "/revision"),
                new BrokenLife(PackRule.REVISION_RAISED, id, then, Trees.with(then, "/revision", "2"), "/revision"));
    }

    private static Stream<BrokenLife> anotherEngine() {
        String bucket = template(BUCKET, "/title", "\"V-twin at 60 degrees\"", "/firingIntervals", "[300, 420]");
        return Stream.of(
                new BrokenLife(PackRule.SAME_ENGINE, BUCKET, PackFiles.template(BUCKET), bucket, "/title"),
                new BrokenLife(
                        PackRule.SAME_ENGINE,
                        BUCKET,
                        PackFiles.template(BUCKET),
                        template(BUCKET, "/train/kind", "\"bucket-shim-over\""),
                        "/train/kind"),
                new BrokenLife(
                        PackRule.SAME_ENGINE,
                        SCREW,
                        PackFiles.template(SCREW),
                        template(SCREW, "/valves", "[\"1-in-1\", \"1-in-2\", \"1-ex-1\"]"),
                        "/valves"),
                new BrokenLife(
                        PackRule.SAME_ENGINE,
                        SCREW,
                        PackFiles.template(SCREW),
                        Trees.with(PackFiles.template("screw-twin"), "/id", "\"" + SCREW + "\""),
                        "/cylinders"));
    }

    static Stream<BrokenLife> lives() {
        return Stream.concat(Stream.of(SCREW, BUCKET, DESMO).flatMap(PackRuleTest::lives), anotherEngine());
    }

    @ParameterizedTest
    @MethodSource("lives")
    void everyBrokenLifeIsFound(BrokenLife broken) throws IOException {
        Path old = Files.createDirectory(folder.resolve("old"));
        Path now = Files.createDirectory(folder.resolve("now"));
        PackFiles.version(old, "1.0.0");
        PackFiles.version(now, "1.1.0");
        if (broken.before() != null) {
            PackFiles.write(old, broken.before());
        }
        if (broken.after() != null) {
            PackFiles.write(now, broken.after());
        }

        assertThat(PackComparison.of(old, now).findings()).anySatisfy(finding -> {
            assertThat(finding.rule()).isEqualTo(broken.rule());
            assertThat(finding.file()).isEqualTo(broken.id() + ".json");
            assertThat(finding.pointer()).isEqualTo(broken.pointer());
            assertThat(List.of(finding.problem(), finding.expected(), finding.mend()))
                    .noneMatch(String::isBlank);
        });
    }

    // All of them

    /** Whoever adds a rule breaks three templates by it: each of these is run, here or in {@link TemplateRulesTest}. */
    @Test
    void everyRuleIsBrokenByThreeTemplates() {
        Map<PackRule, Set<String>> broken = new EnumMap<>(PackRule.class);
        for (PackRule rule : PackRule.values()) {
            broken.put(rule, new TreeSet<>());
        }
        TemplateRulesTest.spoilt().forEach(spoilt -> broken.get(spoilt.rule()).add(spoilt.json()));
        folders().forEach(each -> broken.get(each.rule()).add(each.what()));
        lives().forEach(life -> broken.get(life.rule()).add(life.before() + " -> " + life.after()));

        assertThat(broken.entrySet().stream()
                        .filter(e -> e.getValue().size() < 3)
                        .map(e -> e.getKey() + ": " + e.getValue().size()))
                .isEmpty();
    }

    @Test
    void everyRuleHasANameOfItsOwnThatIsRead() {
        assertThat(PackRule.values()).extracting(PackRule::id).doesNotHaveDuplicates();
        for (PackRule rule : PackRule.values()) {
            assertThat(rule.id())
                    .matches("[a-z]+(-[a-z]+)+")
                    .isEqualTo(rule.toString())
                    .isEqualTo(rule.name().toLowerCase(java.util.Locale.ROOT).replace('_', '-'));
            assertThat(rule.expectation()).isNotBlank().doesNotEndWith(".");
            assertThat(PackRule.parse(rule.id())).isEqualTo(rule);
        }
        assertThatThrownBy(() -> PackRule.parse("exhaust-tight"))
                .isInstanceOf(RejectedValueException.class)
                .hasMessageContaining("exhaust-tighter");
        assertThatNullPointerException().isThrownBy(() -> PackRule.parse(null));
    }

    /** The table in the paper for contributors is that of the code, in its order. */
    @Test
    void thePaperForContributorsListsTheRules() throws IOException {
        String paper = Files.readString(Path.of("..", "DEVELOPERS.md"));
        String section = paper.substring(paper.indexOf("### A rule of the pack"));
        List<String> rows =
                section.lines().filter(line -> line.startsWith("| `")).collect(Collectors.toCollection(ArrayList::new));

        assertThat(rows)
                .containsExactlyElementsOf(Arrays.stream(PackRule.values())
                        .map(rule -> "| `" + rule.id() + "` | " + rule.expectation() + " |")
                        .toList());
    }
}
