package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.specs.Template.Status;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;

/** The files of the previous version of the pack, kept as they were: they are still read, and no id of theirs is lost. */
class PreviousPackTest {
    static final Path FOLDER = Path.of("src", "test", "resources", "dev", "lash", "specs", "pack-0.1.0");

    private static final SpecPack PACK = SpecPack.bundled();

    static List<String> files() throws IOException {
        try (Stream<Path> files = Files.list(FOLDER)) {
            return files.map(file -> file.getFileName().toString())
                    .filter(name -> !name.equals("pack.json"))
                    .sorted()
                    .toList();
        }
    }

    private static Template read(String file) throws IOException {
        return new TemplateReader(JsonDocument.parse(file, Files.readAllBytes(FOLDER.resolve(file)))).read();
    }

    /** The files are held to the checksums of their own index, so that nobody mends them to please this test. */
    @Test
    void theFilesAreAsTheyWere() throws IOException {
        JsonNode index = Trees.tree(Files.readString(FOLDER.resolve("pack.json")));

        assertThat(index.get("version").stringValue()).isEqualTo("0.1.0");
        assertThat(index.get("templates")).hasSameSizeAs(files()).hasSize(6);
        for (JsonNode entry : index.get("templates")) {
            assertThat(SpecPack.sha256(
                            Files.readAllBytes(FOLDER.resolve(entry.get("file").stringValue()))))
                    .isEqualTo(entry.get("sha256").stringValue());
        }
        assertThat(PackVersion.parse(PACK.version())).isGreaterThan(PackVersion.parse("0.1.0"));
    }

    @ParameterizedTest
    @MethodSource("files")
    void areStillReadAndStillValid(String file) throws IOException {
        Template template = read(file);

        assertThat(file).isEqualTo(template.id() + ".json");
        assertThat(template.revision()).isPositive();
        assertThat(template.features()).isEqualTo(new Template.Features("", List.of()));
        assertThat(template.examples()).isEmpty();
        assertThat(Schemas.TEMPLATE.errors(Files.readString(FOLDER.resolve(file))))
                .isEmpty();
    }

    @ParameterizedTest
    @MethodSource("files")
    void noneIsDeletedAndNoIdIsTakenForAnother(String file) throws IOException {
        Template before = read(file);
        Template now = PACK.get(before.id());

        assertThat(now.revision()).isGreaterThanOrEqualTo(before.revision());
        assertThat(now.lifeCycle().addedIn()).isEqualTo(before.lifeCycle().addedIn());
        assertThat(now.spec().train().kind()).isEqualTo(before.spec().train().kind());
        assertThat(now.spec().firingOrder().cylinders())
                .isEqualTo(before.spec().firingOrder().cylinders());
        if (!now.spec().equals(before.spec())) {
            assertThat(now.revision())
                    .as("a changed figure raises the revision")
                    .isGreaterThan(before.revision());
        }
    }

    /** What a template says of its life fits the versions of the pack. */
    @Test
    void theLifeCyclesFitTheVersion() {
        PackVersion version = PackVersion.parse(PACK.version());
        for (String id : PACK.ids()) {
            Template template = PACK.get(id);
            PackVersion added = PackVersion.parse(template.lifeCycle().addedIn());
            assertThat(added).as(id).isLessThanOrEqualTo(version);
            if (template.lifeCycle().status() != Status.ACTIVE) {
                assertThat(PackVersion.parse(template.lifeCycle().deprecatedIn()))
                        .as(id)
                        .isBetween(added, version);
            }
        }
    }
}
