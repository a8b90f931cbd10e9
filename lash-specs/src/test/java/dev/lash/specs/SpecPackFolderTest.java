package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatNullPointerException;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lash.check.CheckReport;
import dev.lash.check.CheckSheet;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Figure;
import dev.lash.engine.Overridden;
import dev.lash.engine.ValveRole;
import dev.lash.specs.SpecPack.Overlay;
import dev.lash.specs.Template.Status;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A shop's folder over the bundled pack, finding by features, and what is read when. */
class SpecPackFolderTest {
    private static final SpecPack BUNDLED = SpecPack.bundled();
    private static final String ID = "screw-single";

    @TempDir
    Path outer;

    private Path folder;

    @BeforeEach
    void makeFolder() throws IOException {
        folder = Files.createDirectory(outer.resolve("shop"));
    }

    /** The bundled template with another interval, which no example hangs on. */
    private static String shops(String interval) {
        return Trees.with(PackFiles.template(ID), "/checkInterval", "\"" + interval + "\"");
    }

    private static String interval(SpecPack pack) {
        return pack.get(ID).spec().checkInterval().orElseThrow().toString();
    }

    @Test
    void theShopsTemplateWinsAndSaysThatItIsTheShops() throws IOException {
        PackFiles.write(folder, shops("4000 km"));
        SpecPack pack = BUNDLED.withFolder(folder);

        assertThat(interval(pack)).isEqualTo("4000 km");
        assertThat(interval(BUNDLED)).as("the bundled pack stays as it is").isEqualTo("5000 km");
        assertThat(pack.get(ID).spec().template())
                .contains(ID + ", revision 2, the shop's own, " + folder + "/" + ID + ".json");
        assertThat(BUNDLED.get(ID).spec().template()).contains(ID + ", revision 2");
        assertThat(pack.ids()).isEqualTo(BUNDLED.ids());
        assertThat(pack.version()).isEqualTo(BUNDLED.version());
        assertThat(pack.get("vtwin-90-bucket")).isEqualTo(BUNDLED.get("vtwin-90-bucket"));
    }

    @Test
    void addsTemplatesOfItsOwn() throws IOException {
        PackFiles.write(folder, Trees.with(shops("4000 km"), "/id", "\"yard-pump\""));
        SpecPack pack = BUNDLED.withFolder(folder);

        assertThat(pack.ids()).hasSize(BUNDLED.ids().size() + 1).endsWith("yard-pump");
        assertThat(pack.get("yard-pump").spec().template())
                .contains("yard-pump, revision 2, the shop's own, " + folder + "/yard-pump.json");
        assertThat(BUNDLED.find("yard-pump")).isEmpty();
        assertThat(pack.listed()).extracting(SpecPack.Listed::id).isEqualTo(pack.ids());
        assertThat(pack.listed().get(pack.ids().size() - 1).train()).isEqualTo("rocker-screw");
    }

    @Test
    void tellsWhatWasReplacedByWhom() throws IOException {
        Path second = Files.createDirectory(outer.resolve("bench"));
        PackFiles.write(folder, shops("4000 km"));
        PackFiles.write(folder, Trees.with(shops("3000 km"), "/id", "\"yard-pump\""));
        PackFiles.write(second, shops("2000 km"));

        SpecPack pack = BUNDLED.withFolder(folder).withFolder(second);

        assertThat(BUNDLED.overlays()).isEmpty();
        assertThat(interval(pack)).as("the later folder wins").isEqualTo("2000 km");
        assertThat(pack.overlays())
                .containsExactly(
                        new Overlay(ID, folder.toString(), ID + ".json", true, List.of(was(BUNDLED)), List.of()),
                        new Overlay("yard-pump", folder.toString(), "yard-pump.json", false, List.of(), List.of()),
                        new Overlay(
                                ID,
                                second.toString(),
                                ID + ".json",
                                true,
                                List.of(was(BUNDLED.withFolder(folder))),
                                List.of()))
                .isUnmodifiable();
        assertThat(pack.overlays().get(0))
                .hasToString(ID + " replaced by " + folder + "/" + ID + ".json: check interval was 5000 km");
        assertThat(pack.overlays().get(1)).hasToString("yard-pump added by " + folder + "/yard-pump.json");
    }

    /** An id of the pack given to another engine: sheets that name it would be judged by windows that are not theirs. */
    @Test
    void warnsOfAnotherEngineUnderTheSameId() throws IOException {
        String twin = PackFiles.template("vtwin-90-bucket");
        PackFiles.write(folder, Trees.with(twin, "/id", "\"" + ID + "\""));

        Overlay overlay = BUNDLED.withFolder(folder).overlays().get(0);

        assertThat(overlay.otherEngine())
                .containsExactly(
                        "cylinders 2, were 1", "train bucket-shim-under, was rocker-screw", "valves 8, were 2");
        assertThat(overlay.toString())
                .contains("warning, this is another engine (cylinders 2, were 1, train bucket-shim-under")
                .contains("give it an id of its own, since sheets that name " + ID + " mean the one before; ");
    }

    private static Overridden was(SpecPack pack) {
        EngineSpec engine = pack.get(ID).spec();
        return new Overridden(
                Figure.CHECK_INTERVAL,
                engine.checkInterval().orElseThrow().toString(),
                engine.origin(Figure.CHECK_INTERVAL));
    }

    @Test
    void holdsAFolderToTheSameRules() throws IOException {
        PackFiles.write(folder, Trees.with(PackFiles.template(ID), "/train/pitch", "\"0.55 mm\""));

        assertThatThrownBy(() -> BUNDLED.withFolder(folder))
                .isInstanceOf(DocumentException.class)
                .hasMessage(folder + "/screw-single.json, line 17, column 1, at /train/pitch: \"0.55 mm\" "
                        + "is not the pitch of a standard thread; expected one of 0.5 mm, 0.6 mm, 0.7 mm, 0.75 mm, "
                        + "0.8 mm, 1 mm, 1.25 mm, 1.5 mm, 18 tpi, 20 tpi, 24 tpi, 26 tpi, 28 tpi, 32 tpi, 36 tpi, 40 tpi; "
                        + "check the thread");
    }

    @Test
    void asksForNoFormButForAPlaceToGoOn() throws IOException {
        Files.writeString(folder.resolve(ID + ".json"), Trees.with(shops("4000 km"), "/cylinders", "1"));
        assertThat(interval(BUNDLED.withFolder(folder))).isEqualTo("4000 km");

        String old = Trees.with(shops("4000 km"), "/status", "\"deprecated\"");
        old = Trees.with(Trees.with(old, "/deprecatedIn", "\"0.2.0\""), "/replacedBy", "\"vtwin-90-bucket\"");
        PackFiles.write(folder, old);
        assertThat(BUNDLED.withFolder(folder).get(ID).lifeCycle())
                .as("replaced by one of the pack beneath")
                .isEqualTo(new Template.LifeCycle(Status.DEPRECATED, "0.1.0", "0.2.0", "vtwin-90-bucket"));
    }

    /** Typical figures show in the report until the shop says where it read them, also those of its own folder. */
    @Test
    void theReportSaysWhoseTheFiguresAre() throws IOException {
        PackFiles.write(folder, shops("4000 km"));
        SheetReader reader = new SheetReader(BUNDLED.withFolder(folder));
        String sheet = """
                { "format": "lash-sheet/1", "engine": { "template": "screw-single" },
                  "gauges": { "leaves": ["0.10 mm"] }, "valves": [] }
                """;

        CheckSheet read = reader.read("sheet.json", sheet);
        String report = ReportWriter.pretty().write(CheckReport.of(read));

        String name = ID + ", revision 2, the shop's own, " + folder + "/" + ID + ".json";
        assertThat(read.engine().template()).contains(name);
        assertThat(Trees.tree(report).at("/engine/template").stringValue()).isEqualTo(name);
        assertThat(Trees.tree(report).has("packVersion"))
                .as("no version of the pack has this template")
                .isFalse();
        assertThat(report).contains("not confirmed");
        assertThat(Schemas.REPORT.errors(report)).isEmpty();
    }

    @Test
    void aTemplateWithFiguresOfTheManualIsConfirmedWhereTheShopSaysSo() {
        String sheet = """
                { "format": "lash-sheet/1",
                  "engine": { "template": "screw-single", "clearances": { "in": "0.09..0.12 mm" },
                              "confirmedFrom": { "in": "manual, page 3" } },
                  "gauges": { "leaves": ["0.10 mm"] }, "valves": [] }
                """;

        EngineSpec engine = Fixtures.read(sheet).engine();

        assertThat(engine.findClearance(ValveRole.INTAKE))
                .contains(new ClearanceSpec(
                        ClearanceWindow.parse("0.09..0.12 mm"),
                        ClearanceWindow.parse("0.09..0.12 mm"),
                        "manual, page 3"));
        assertThat(engine.findClearance(ValveRole.EXHAUST).map(ClearanceSpec::isConfirmed))
                .contains(false);
    }

    // Finding by features

    @Test
    void findsByTrainCylindersCoolingAndUse() {
        List<Template> found = BUNDLED.search(t -> t.spec().train().kind().equals("bucket-shim-under")
                && t.spec().firingOrder().cylinders() == 2
                && t.features().cooling().equals("liquid")
                && t.features().uses().contains("motorcycle"));

        assertThat(found).extracting(Template::id).contains("vtwin-90-bucket").isSorted();
        assertThat(found).allSatisfy(t -> assertThat(t.spec().valves()).allMatch(v -> v.cylinder() <= 2));
        assertThat(BUNDLED.search(t -> true)).hasSize(BUNDLED.ids().size());
        assertThat(BUNDLED.search(t -> t.spec().firingOrder().cylinders() == 18))
                .isEmpty();
    }

    @Test
    void findsWhatAShopAddedAndNothingThatIsDeprecated() throws IOException {
        PackFiles.write(folder, Trees.with(shops("4000 km"), "/id", "\"yard-pump\""));
        String old = Trees.with(shops("3000 km"), "/status", "\"withdrawn\"");
        PackFiles.write(folder, Trees.with(old, "/deprecatedIn", "\"0.2.0\""));
        SpecPack pack = BUNDLED.withFolder(folder);

        assertThat(pack.search(t -> true))
                .extracting(Template::id)
                .contains("yard-pump")
                .doesNotContain(ID);
        assertThat(pack.get(ID).lifeCycle().status())
                .as("old sheets still name it")
                .isEqualTo(Status.WITHDRAWN);
    }

    // What is read when

    @Test
    void onlyTheIndexIsReadToOpenThePack() throws Throwable {
        OverlaidLoader loader = new OverlaidLoader();
        BUNDLED.ids().forEach(id -> loader.without("pack/" + id + ".json"));

        Class<?> type = loader.loadClass(SpecPack.class.getName());
        Object pack = type.getMethod("bundled").invoke(null);

        assertThat(type.getMethod("ids").invoke(pack)).isEqualTo(BUNDLED.ids());
        assertThat(type.getMethod("version").invoke(pack)).isEqualTo(BUNDLED.version());
        assertThatThrownBy(() -> type.getMethod("get", String.class).invoke(pack, ID))
                .hasRootCauseMessage(
                        "pack/screw-single.json, line 1, column 1, at the top: \"screw-single.json\" is not in "
                                + "the library; expected the whole pack; use an unbroken jar");
    }

    @Test
    void oneTemplateThatIsBrokenLeavesTheOthers() throws Throwable {
        OverlaidLoader loader = new OverlaidLoader().with("pack/" + ID + ".json", "{");
        Class<?> type = loader.loadClass(SpecPack.class.getName());
        Object pack = type.getMethod("bundled").invoke(null);

        assertThat(type.getMethod("get", String.class).invoke(pack, "vtwin-90-bucket"))
                .hasToString(BUNDLED.get("vtwin-90-bucket").toString());
        assertThatThrownBy(() -> type.getMethod("get", String.class).invoke(pack, ID))
                .hasRootCauseInstanceOf(RuntimeException.class);
    }

    @Test
    void refusesNull() {
        assertThatNullPointerException().isThrownBy(() -> BUNDLED.withFolder(null));
        assertThatNullPointerException().isThrownBy(() -> BUNDLED.search(null));
        assertThatNullPointerException().isThrownBy(() -> new Overlay(null, "", "", true, List.of(), List.of()));
        assertThatNullPointerException().isThrownBy(() -> new Overlay("", null, "", true, List.of(), List.of()));
        assertThatNullPointerException().isThrownBy(() -> new Overlay("", "", null, true, List.of(), List.of()));
        assertThatNullPointerException().isThrownBy(() -> new Overlay("", "", "", true, null, List.of()));
        assertThatNullPointerException().isThrownBy(() -> new Overlay("", "", "", true, List.of(), null));
        assertThatNullPointerException().isThrownBy(() -> PackCheck.of(null));
        assertThatNullPointerException().isThrownBy(() -> PackCheck.write(null));
    }
}
