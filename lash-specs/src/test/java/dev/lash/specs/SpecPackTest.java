package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatNullPointerException;
import static org.assertj.core.api.Assertions.catchThrowable;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import dev.lash.check.CheckReport;
import dev.lash.check.CheckSheet;
import dev.lash.engine.Camshafts;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.Decompressor;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.GaugeSet;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.RejectedValueException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** The pack that is shipped, and what a broken one gives. */
class SpecPackTest {
    private static final Path FOLDER = Path.of("src", "main", "resources", "dev", "lash", "specs", "pack");
    private static final SpecPack PACK = SpecPack.bundled();
    private static final String FIRST = PACK.ids().get(0);

    static Stream<String> ids() {
        return PACK.ids().stream();
    }

    // The index

    @Test
    void theIndexFitsTheFiles() throws IOException {
        assertThat(Files.readString(FOLDER.resolve("pack.json")))
                .as("pack.json, which is not the index of its folder: write it anew with  %s", PackIndex.COMMAND)
                .isEqualTo(PackIndex.text(FOLDER));
    }

    @Test
    void theIndexListsEveryFileAndNoOther() throws IOException {
        try (Stream<Path> files = Files.list(FOLDER)) {
            assertThat(files.map(file -> file.getFileName().toString()))
                    .as("the files of the pack; write pack.json anew with  %s", PackIndex.COMMAND)
                    .containsExactlyInAnyOrderElementsOf(
                            Stream.concat(Stream.of("pack.json"), ids().map(id -> id + ".json"))
                                    .toList());
        }
    }

    @Test
    void theIndexIsWrittenByAProgram(@TempDir Path folder) throws IOException {
        for (String id : PACK.ids()) {
            Files.copy(FOLDER.resolve(id + ".json"), folder.resolve(id + ".json"));
        }
        Files.writeString(folder.resolve("pack.json"), "{ \"version\": \"" + PACK.version() + "\" }");

        assertThat(PackIndex.text(folder)).isEqualTo(Files.readString(FOLDER.resolve("pack.json")));

        Path first = folder.resolve(FIRST + ".json");
        String changed = Files.readString(first) + " ";
        Files.writeString(first, changed);
        assertThat(PackIndex.text(folder))
                .contains(SpecPack.sha256(BadInput.utf8(changed)))
                .isNotEqualTo(Files.readString(FOLDER.resolve("pack.json")));
    }

    @Test
    void theProgramStandsWhereItsCommandSays() {
        assertThat(Path.of("..").resolve(PackIndex.COMMAND.replace("java ", "")))
                .exists();
    }

    @Test
    void theIdsAreUniqueAndInOrder() {
        assertThat(PACK.ids()).isNotEmpty().isSorted().doesNotHaveDuplicates();
        assertThat(PACK.version()).matches("[0-9]+\\.[0-9]+\\.[0-9]+");
    }

    /** The message of one block from NIST's examples for FIPS 180-4, "abc"; the sum of nothing is from memory. */
    @ParameterizedTest
    @CsvSource({
        "abc, ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
        "'', e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"
    })
    void takesChecksumsAsTheStandardDoes(String content, String sum) {
        assertThat(SpecPack.sha256(BadInput.utf8(content))).isEqualTo(sum);
    }

    // The templates

    @ParameterizedTest
    @MethodSource("ids")
    void loadsEveryTemplate(String id) {
        Template template = PACK.get(id);

        assertThat(template.id()).isEqualTo(id);
        assertThat(template.spec().template()).contains(id + ", revision " + template.revision());
        assertThat(PACK.find(id)).contains(template);
        assertThat(template.notes()).isNotEmpty();
        boolean hydraulic = template.spec().train() instanceof ValveTrain.Hydraulic;
        for (ValveRole role : ValveRole.values()) {
            assertThat(template.spec().findClearance(role).map(ClearanceSpec::isConfirmed))
                    .as("a window of a template is typical, never confirmed; hydraulic lifters have none")
                    .isEqualTo(hydraulic ? Optional.empty() : Optional.of(false));
        }
    }

    @ParameterizedTest
    @MethodSource("ids")
    void everyFigureHasASourceAndEverySourceAFigure(String id) {
        Template template = PACK.get(id);

        assertThat(template.provenance().values())
                .containsAll(template.sources().keySet())
                .isSubsetOf(template.sources().keySet());
        assertThat(template.provenance().keySet()).contains("/firingOrder");
        if (!(template.spec().train() instanceof ValveTrain.Hydraulic)) {
            assertThat(template.provenance().keySet()).contains("/clearances/in", "/clearances/ex", "/wearPrior");
        }
        assertThat(template.sources().values())
                .allSatisfy(source -> assertThat(source.details()).containsKey("reliability"));
    }

    @ParameterizedTest
    @MethodSource("ids")
    void aTemplateMakesASheetAndAReport(String id) {
        CheckSheet sheet = CheckSheet.builder(
                        PACK.get(id).spec(), GaugeSet.of(LengthUnit.MILLIMETRE, "0.05", "0.10", "0.15", "0.20"))
                .build();

        assertThat(Schemas.SHEET.errors(SheetWriter.write(sheet))).isEmpty();
        assertThat(Schemas.REPORT.errors(ReportWriter.pretty().write(CheckReport.of(sheet))))
                .isEmpty();
    }

    @Test
    void saysWhichTemplatesThereAre() {
        RejectedValueException refused =
                catchThrowableOfType(RejectedValueException.class, () -> PACK.get("screw-triple"));

        assertThat(PACK.find("screw-triple")).isEmpty();
        assertThat(refused.what()).isEqualTo("template");
        assertThat(refused.value()).isEqualTo("screw-triple");
        assertThat(refused.problem()).isEqualTo("is not in the pack");
        assertThat(refused.expected()).isEqualTo("one of " + PACK.ids());
        assertThat(refused.mend()).isEqualTo("choose one of these");
    }

    @Test
    void refusesNull() {
        assertThatNullPointerException().isThrownBy(() -> PACK.get(null)).withMessage("id");
        assertThatNullPointerException().isThrownBy(() -> PACK.find(null)).withMessage("id");
    }

    @Test
    void cannotBeChanged() {
        assertThat(PACK.ids()).isUnmodifiable();
        assertThat(PACK.get(FIRST).notes()).isUnmodifiable();
    }

    // A broken pack is refused, never skipped

    private static String index() {
        return Fixtures.resource("pack/pack.json");
    }

    private static String template() {
        return Fixtures.resource("pack/" + FIRST + ".json");
    }

    /** The index, with the first template's checksum made to fit its content. */
    private static String indexFor(String template) {
        return Trees.with(index(), "/templates/0/sha256", "\"" + SpecPack.sha256(BadInput.utf8(template)) + "\"");
    }

    private static String refusal(OverlaidLoader loader) {
        Throwable thrown = catchThrowable(loader::firstTemplate);
        assertThat(thrown).isNotNull();
        assertThat(thrown.getClass().getName()).isEqualTo(DocumentException.class.getName());
        return thrown.getMessage();
    }

    private static String refusal(String index) {
        return refusal(new OverlaidLoader().with("pack/pack.json", index));
    }

    @Test
    void opensThroughTheLoaderOfTheseTests() throws Throwable {
        assertThat(new OverlaidLoader().firstTemplate().toString())
                .isEqualTo(PACK.get(FIRST).toString());
    }

    @Test
    void refusesATemplateWithAnotherChecksum() {
        String changed = template().replace("mm", "in");

        assertThat(refusal(new OverlaidLoader().with("pack/" + FIRST + ".json", changed)))
                .startsWith("pack/" + FIRST + ".json, line 1, column 1, at the top: ")
                .contains("is not the file that the index names: its checksum differs")
                .contains("expected " + SpecPack.sha256(BadInput.utf8(template())))
                .endsWith("take the whole pack of one version");
    }

    @Test
    void refusesATemplateThatIsMissing() {
        assertThat(refusal(new OverlaidLoader().without("pack/" + FIRST + ".json")))
                .contains("\"" + FIRST + ".json\" is not in the library", "use an unbroken jar");
    }

    @Test
    void refusesATemplateOfAnotherIdOrRevision() {
        for (String changed :
                List.of(Trees.with(template(), "/id", "\"other\""), Trees.with(template(), "/revision", "7"))) {
            assertThat(refusal(new OverlaidLoader()
                            .with("pack/" + FIRST + ".json", changed)
                            .with("pack/pack.json", indexFor(changed))))
                    .contains(
                            "is not what the index names",
                            "expected " + FIRST + ", revision "
                                    + PACK.get(FIRST).revision());
        }
    }

    @Test
    void refusesATemplateThatIsWrong() {
        String changed = Trees.without(template(), "/provenance/~1firingOrder");

        assertThat(refusal(new OverlaidLoader()
                        .with("pack/" + FIRST + ".json", changed)
                        .with("pack/pack.json", indexFor(changed))))
                .contains("pack/" + FIRST + ".json, line 1", "at /provenance: ", "without a source: [/firingOrder]");
    }

    @Test
    void refusesAnIndexThatIsMissingOrWrong() {
        assertThat(refusal(new OverlaidLoader().without("pack/pack.json")))
                .contains("\"pack.json\" is not in the library");
        assertThat(refusal("{"))
                .startsWith("pack/pack.json, line 1, column 2, at the top: the document ends too early");
        assertThat(refusal(Trees.with(index(), "/format", "\"lash-pack/2\"")))
                .contains("at /format: ", "check that this is a pack index");
        assertThat(refusal(Trees.with(index(), "/made", "\"today\""))).contains("at /made: ", "is an unknown field");
        assertThat(refusal(Trees.with(index(), "/templates/0/size", "\"1\"")))
                .contains("at /templates/0/size: ", "is an unknown field");
        assertThat(refusal(Trees.with(index(), "/templates/0/revision", "0")))
                .contains("at /templates/0/revision: ", "a whole number from 1");
        assertThat(refusal(Trees.with(index(), "/templates/1/id", "\"" + FIRST + "\"")))
                .contains("at /templates/1: ", "repeats the id " + FIRST);
    }

    /** A camshaft that is lifted for one valve must not count twice, nor one of another bank as the same. */
    @Test
    void templatesNameTheirCamshafts() {
        SpecPack pack = SpecPack.bundled();
        assertThat(pack.get("enduro-single-one-cam").spec().camshafts().perBank())
                .isEqualTo(Camshafts.PerBank.ONE);
        for (String id : List.of("vtwin-90-bucket", "vtwin-60-follower", "flat-twin-four-valve-follower")) {
            assertThat(pack.get(id).spec().camshafts().banks()).as(id).containsExactly(List.of(1), List.of(2));
        }
        assertThat(pack.get("vfour-90-bucket").spec().camshafts().banks())
                .containsExactly(List.of(1, 3), List.of(2, 4));
        assertThat(pack.get("inline-four-under-bucket").spec().camshafts()).isEqualTo(Camshafts.ONE_PER_ROLE);
    }

    /** Which singles have one, and from where to where it holds, is the maker's: the pack only says which valve it would be. */
    @Test
    void singlesNameTheValveThatADecompressorMayHold() {
        for (String id : List.of(
                "screw-single",
                "generator-ohv-single",
                "industrial-ohv-single",
                "mower-ohv-single",
                "quad-single-hours")) {
            assertThat(SpecPack.bundled().get(id).spec().decompressor())
                    .as(id)
                    .contains(Decompressor.ofUnknownAngles(ValveId.parse("1-ex-1")));
        }
    }
}
