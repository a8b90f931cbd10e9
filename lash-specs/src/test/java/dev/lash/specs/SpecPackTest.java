package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatNullPointerException;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowable;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import dev.lash.check.CheckReport;
import dev.lash.check.CheckSheet;
import dev.lash.engine.Camshafts;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.Decompressor;
import dev.lash.engine.Figure;
import dev.lash.engine.Origin;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.GaugeSet;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.RejectedValueException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
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
        assertThat(Files.readString(FOLDER.resolve("index.txt")))
                .as("index.txt, which is not the index of its folder: write it anew with  %s", PackIndex.COMMAND)
                .isEqualTo(PackIndex.lines(FOLDER));
    }

    /** Nobody notices a wrong index of what a template is found by, unless it is held against the templates themselves. */
    @Test
    void theIndexTellsWhatTheTemplatesAre() {
        assertThat(PACK.listed())
                .containsExactlyElementsOf(ids().map(PACK::get)
                        .map(t -> new SpecPack.Listed(
                                t.id(),
                                t.spec().title(),
                                t.lifeCycle().status(),
                                t.spec().train().kind(),
                                t.spec().firingOrder().cylinders(),
                                t.features()))
                        .toList())
                .isUnmodifiable();
        assertThat(PACK.version()).isEqualTo(Trees.tree(index()).get("version").stringValue());
    }

    @Test
    void theIndexListsEveryFileAndNoOther() throws IOException {
        try (Stream<Path> files = Files.list(FOLDER)) {
            assertThat(files.map(file -> file.getFileName().toString()))
                    .as("the files of the pack; write pack.json anew with  %s", PackIndex.COMMAND)
                    .containsExactlyInAnyOrderElementsOf(
                            Stream.concat(Stream.of("pack.json", "index.txt"), ids().map(id -> id + ".json"))
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
        assertThat(PackIndex.lines(folder)).isEqualTo(Files.readString(FOLDER.resolve("index.txt")));

        Path first = folder.resolve(FIRST + ".json");
        String changed = Files.readString(first) + " ";
        Files.writeString(first, changed);
        assertThat(PackIndex.text(folder))
                .contains(SpecPack.sha256(BadInput.utf8(changed)))
                .isNotEqualTo(Files.readString(FOLDER.resolve("pack.json")));
        assertThat(PackIndex.lines(folder)).contains(SpecPack.sha256(BadInput.utf8(changed)));
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
    void saysWhichTemplatesAreLikeAnUnknownOne() {
        RejectedValueException refused =
                catchThrowableOfType(RejectedValueException.class, () -> PACK.get("screw-triple"));

        assertThat(PACK.find("screw-triple")).isEmpty();
        assertThat(refused.what()).isEqualTo("template");
        assertThat(refused.value()).isEqualTo("screw-triple");
        assertThat(refused.problem()).isEqualTo("is not in the pack");
        assertThat(refused.expected()).endsWith(" templates; most like it: screw-single, screw-twin, diesel-two-screw");
        assertThat(refused.mend()).contains("lash pack list", "SpecPack.withFolder");
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

    private static String lines() {
        return Fixtures.resource("pack/index.txt");
    }

    /** The index, with the first template's checksum made to fit its content. */
    private static String indexFor(String template) {
        return lines().replace(SpecPack.sha256(BadInput.utf8(template())), SpecPack.sha256(BadInput.utf8(template)));
    }

    private static String refusal(OverlaidLoader loader) {
        Throwable thrown = catchThrowable(loader::firstTemplate);
        assertThat(thrown).isNotNull();
        assertThat(thrown.getClass().getName()).isEqualTo(DocumentException.class.getName());
        return thrown.getMessage();
    }

    private static String refusal(String index) {
        return refusal(new OverlaidLoader().with("pack/index.txt", index));
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
                            .with("pack/index.txt", indexFor(changed))))
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
                        .with("pack/index.txt", indexFor(changed))))
                .contains("pack/" + FIRST + ".json, line 1", "at /provenance: ", "without a source: [/firingOrder]");
    }

    @Test
    void refusesAnIndexThatIsMissingOrWrong() {
        assertThat(refusal(new OverlaidLoader().without("pack/index.txt")))
                .contains("\"index.txt\" is not in the library", "use an unbroken jar");
        assertThat(refusal("{"))
                .startsWith("pack/index.txt, line 1, column 1, at the top: \"{\" ends too early")
                .endsWith("use an unbroken jar of one version");
        assertThat(refusal("")).contains("line 1", "lists no template");
        assertThat(refusal("lash-index/1\t0.2.0\n")).contains("line 2", "lists no template");
        assertThat(refusal(lines().replace("lash-index/1", "lash-index/2")))
                .contains(
                        "line 1", "\"lash-index/2\" is not a format that this version reads", "expected lash-index/1");
        assertThat(refusal(lines().replaceFirst("\t", "\tx\t"))).contains("line 1", "2 fields between tabs");
        assertThat(refusal(lines().replaceFirst("\tactive", ""))).contains("line 2", "10 fields between tabs");
        assertThat(refusal(lines().replaceFirst("\tactive", "\tactive\t"))).contains("10 fields between tabs");
        for (String revision : List.of("0", "-1", "one", "99999999999")) {
            assertThat(refusal(lines().replaceFirst("json\t[0-9]+", "json\t" + revision)))
                    .contains("line 2", "\"" + revision + "\" is no whole number", "a whole number from 1");
        }
        String second = lines().lines().skip(1).findFirst().orElseThrow();
        assertThat(refusal(lines() + second + "\n"))
                .contains("line " + (PACK.ids().size() + 2), "\"" + FIRST + "\" is given twice");
        assertThat(refusal(lines().substring(0, lines().length() - 1))).contains("ends too early");
    }

    @Test
    void refusesAnIndexThatListsWhatNoTemplateIs() throws Throwable {
        for (String wrong : List.of("\tactive\t", "\tliquid\t")) {
            String broken = wrong.equals("\tactive\t")
                    ? lines().replaceFirst(wrong, "\tnew\t")
                    : lines().replaceFirst("\t[0-9]+\tliquid\t", "\tfour\tliquid\t");
            Class<?> type = new OverlaidLoader().with("pack/index.txt", broken).loadClass(SpecPack.class.getName());
            Object pack = type.getMethod("bundled").invoke(null);
            assertThatThrownBy(() -> type.getMethod("listed").invoke(pack))
                    .cause()
                    .hasMessageContaining("pack/index.txt, line ");
        }
    }

    /** What the index is read without: the first use of a JSON parser costs a fresh virtual machine most of the time to open a pack. */
    @Test
    void theIndexIsReadWithoutJson() throws Throwable {
        OverlaidLoader loader = new OverlaidLoader().refusing(JsonDocument.class.getName());
        Class<?> type = loader.loadClass(SpecPack.class.getName());
        Object pack = type.getMethod("bundled").invoke(null);

        assertThat(type.getMethod("ids").invoke(pack)).isEqualTo(PACK.ids());
        assertThat(type.getMethod("listed").invoke(pack).toString())
                .isEqualTo(PACK.listed().toString());
        assertThatThrownBy(() -> type.getMethod("get", String.class).invoke(pack, FIRST))
                .hasRootCauseInstanceOf(ClassNotFoundException.class);
    }

    /** A camshaft that is lifted for one valve must not count twice, nor one of another bank as the same. */
    @Test
    void templatesNameTheirCamshafts() {
        SpecPack pack = SpecPack.bundled();
        assertThat(pack.get("vfour-90-bucket").provenance()).containsEntry("/camshafts", "memory");
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

    /** What is known of a publication goes with each of its figures into the reports. */
    @Test
    void aFigureSaysWhoPublishedItInWhichEdition() {
        Origin shims = SpecPack.bundled().get("inline-four-car-graded").spec().origin(Figure.SHIMS);
        Origin order = SpecPack.bundled().get("flat-four-screw").spec().origin(Figure.FIRING_ORDER);

        assertThat(shims.place()).isEqualTo("the one kept under the year 2009, section M111100150122000");
        assertThat(order.place()).startsWith("the maker of the car, the one kept under the year 2009, page S103083A10");
    }

    /** A source that was published says so, and no two templates tell different things of one publication. */
    @Test
    void publicationsAreCitedAlike() {
        Map<String, Map<String, String>> cited = new HashMap<>();
        for (String id : SpecPack.bundled().ids()) {
            SpecPack.bundled().get(id).sources().values().stream()
                    .filter(source -> source.kind() == Template.SourceKind.PUBLISHED)
                    .forEach(source -> {
                        assertThat(source.details()).as(id).containsKeys("edition", "locator", "reliability");
                        Map<String, String> before = cited.putIfAbsent(source.title(), source.details());
                        assertThat(source.details()).as(id).isEqualTo(before == null ? source.details() : before);
                    });
        }
        assertThat(cited).hasSize(5);
    }
}
