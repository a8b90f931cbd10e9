package dev.lash.examples;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** {@code --folder}: the shop's own templates with every command that reads a sheet or a template, and folders that hold anything. */
class FolderOptionTest {
    private static final String ID = "screw-single";
    private static final String SHEET = """
            {
              "format": "lash-sheet/1", "engine": { "template": "yard-pump" }, "machine": "Yard pump",
              "date": "2031-04-02", "usage": "18450 km",
              "gauges": { "leaves": ["0.05 mm", "0.08 mm", "0.10 mm", "0.13 mm"] },
              "valves": [{ "valve": "1-in-1", "trials": [{ "leaf": "0.05 mm", "fit": "goes" }, { "leaf": "0.08 mm", "fit": "refuses" }] }]
            }
            """;

    @TempDir
    Path outer;

    private Path folder;
    private Path sheet;

    @BeforeEach
    void makeFolder() throws IOException {
        folder = Files.createDirectory(outer.resolve("shop"));
        sheet = Files.writeString(outer.resolve("sheet.json"), SHEET);
    }

    private static String template() throws IOException {
        try (InputStream stream = FolderOptionTest.class.getResourceAsStream("/dev/lash/specs/pack/" + ID + ".json")) {
            return new String(stream.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    private static String pump(String interval) throws IOException {
        return template()
                .replace("\"id\": \"" + ID + "\"", "\"id\": \"yard-pump\"")
                .replace("\"5000 km\"", "\"" + interval + "\"");
    }

    private void shops(Path where, String interval) throws IOException {
        Files.writeString(where.resolve("yard-pump.json"), pump(interval));
    }

    private ProgramRun run(String... args) {
        List<String> all = new ArrayList<>(Arrays.asList(args));
        all.addAll(List.of("--folder", folder.toString()));
        return ProgramRun.of(SHEET, all.toArray(String[]::new));
    }

    static Stream<Arguments> commands() {
        return Stream.of("check", "plan", "set-check", "crank", "shims", "forecast")
                .map(command -> Arguments.of((Object) new String[] {command, "SHEET"}));
    }

    private String[] named(String[] args) {
        return Arrays.stream(args)
                .map(a -> a.replace("SHEET", sheet.toString()))
                .toArray(String[]::new);
    }

    @ParameterizedTest
    @MethodSource("commands")
    void everyCommandThatReadsASheetFindsItsTemplateThere(String[] args) throws IOException {
        shops(folder, "4000 km");

        ProgramRun with = run(named(args));
        ProgramRun without = ProgramRun.of(SHEET, named(args));

        assertThat(with.code()).as(with.err()).isZero();
        assertThat(with.err()).isEmpty();
        assertThat(without.code()).isEqualTo(2);
        assertThat(without.err()).contains("is not a template of the pack").doesNotContain("yard-pump, ");
    }

    @ParameterizedTest
    @MethodSource("commands")
    void everyHelpTellsOfIt(String[] args) {
        assertThat(ProgramRun.of("", args[0], "--help").out())
                .contains("--folder=DIR", "folder of the shop's own templates");
    }

    @Test
    void walkBeginsWithATemplateOfTheFolderAndGoesOnWithout() throws IOException {
        shops(folder, "4000 km");
        Path walked = outer.resolve("walked.json");

        ProgramRun walk = ProgramRun.of(
                "q\n",
                "walk",
                walked.toString(),
                "--template=yard-pump",
                "--folder=" + folder,
                "--leaves=0.05 0.08 0.10",
                "--unit=mm",
                "--stack=1",
                "--rule=simple",
                "--intake=",
                "--exhaust=",
                "--confirmed-from=",
                "--machine=Yard pump",
                "--date=2031-04-02",
                "--usage=",
                "--temperature=");

        assertThat(walk.err()).isEmpty();
        assertThat(Files.readString(walked)).contains("yard-pump", folder + "/yard-pump.json");
        assertThat(ProgramRun.of("", "check", walked.toString()).code())
                .as("a sheet that was written holds its engine")
                .isZero();
    }

    @Test
    void importTakesEngineFromASheetWithATemplateOfTheFolder() throws IOException {
        shops(folder, "4000 km");
        Path rows = Files.writeString(
                outer.resolve("rows.csv"),
                "machine,date,usage,valve,trials\nYard pump,2031-04-02,18450 km,1-in-1,0.05 mm goes; 0.08 mm refuses\n");

        ProgramRun with = run("import", "--sheet", sheet.toString(), "--today=2031-04-03", rows.toString());

        assertThat(with.code()).as(with.out() + with.err()).isZero();
        assertThat(with.out()).contains("1 accepted");
        assertThat(ProgramRun.of("", "import", "--sheet", sheet.toString(), rows.toString())
                        .code())
                .isEqualTo(2);
        assertThat(run("import", "--today=2031-04-03", sheet.toString()).code())
                .as("a sheet as input")
                .isZero();
    }

    @Test
    void theLastFolderWinsAndTheReportNamesItsFile() throws IOException {
        Path bench = Files.createDirectory(outer.resolve("bench"));
        shops(folder, "4000 km");
        shops(bench, "2000 km");

        String text = ProgramRun.of(
                        "", "check", sheet.toString(), "--folder=" + folder, "--folder=" + bench, "--format=json")
                .out();

        assertThat(text)
                .contains("yard-pump, revision 2, the shop's own, " + bench + "/yard-pump.json")
                .doesNotContain("packVersion", folder.toString());
        assertThat(ProgramRun.of("", "check", sheet.toString(), "--folder=" + bench, "--folder=" + folder)
                        .out()
                        .replaceAll("\\s+", " "))
                .contains("from template yard-pump, revision 2, the shop's own,");
    }

    /** What may lie in a folder, and the error that it must give: never an answer, never a fault of the program. */
    static Stream<Arguments> hostile() {
        return Stream.of(
                hostile(
                        "a link",
                        "is a link or a folder",
                        f -> Files.createSymbolicLink(
                                f.resolve("yard-pump.json"),
                                Files.writeString(f.resolveSibling("outside.json"), pump("4000 km")))),
                hostile("a way out", "is a link or a folder", f -> {
                    Files.writeString(f.resolveSibling("outside.json"), pump("4000 km"));
                    Files.createSymbolicLink(f.resolve("yard-pump.json"), Path.of("..", "outside.json"));
                }),
                hostile("10 000 files", "holds too many files", f -> {
                    for (int i = 0; i < 10_000; i++) {
                        Files.createFile(f.resolve(i + ".json"));
                    }
                }),
                hostile("a file of 100 MB", "is too large for a template", f -> {
                    try (RandomAccessFile huge =
                            new RandomAccessFile(f.resolve("yard-pump.json").toFile(), "rw")) {
                        huge.setLength(100L * 1024 * 1024);
                    }
                }),
                hostile(
                        "deep nesting",
                        "a value here is larger than is ever needed",
                        f -> Files.writeString(f.resolve("yard-pump.json"), "[".repeat(100_000))),
                hostile(
                        "duplicate keys",
                        "is given twice in one object",
                        f -> Files.writeString(
                                f.resolve("yard-pump.json"),
                                pump("4000 km")
                                        .replace(
                                                "  \"cylinders\": 1,\n",
                                                "  \"cylinders\": 1,\n  \"cylinders\": 2,\n"))),
                hostile("an id taken twice", "", f -> {
                    Files.writeString(f.resolve("yard-pump.json"), pump("4000 km"));
                    Files.writeString(f.resolve("another.json"), pump("4000 km"));
                }),
                hostile(
                        "no UTF-8",
                        "is not UTF-8",
                        f -> Files.write(
                                f.resolve("yard-pump.json"), pump("4000 km").getBytes(StandardCharsets.ISO_8859_1))),
                hostile("no folder", "is not a folder", Files::delete));
    }

    /** Fills a folder. */
    @FunctionalInterface
    interface Filling {
        void in(Path folder) throws IOException;
    }

    private static Arguments hostile(String name, String problem, Filling filling) {
        return Arguments.of(name, problem, filling);
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("hostile")
    void aFolderThatCannotBeUsedIsSaid(String name, String problem, Filling filling) throws IOException {
        filling.in(folder);
        for (String[] args : List.of(
                new String[] {"check", sheet.toString()},
                new String[] {"walk", outer.resolve("new.json").toString(), "--template=yard-pump"},
                new String[] {
                    "import",
                    "--sheet",
                    sheet.toString(),
                    outer.resolve("none.csv").toString()
                },
                new String[] {"pack", "list"},
                new String[] {"pack", "show", "yard-pump"})) {
            ProgramRun run = run(args);
            assertThat(run.code()).as(String.join(" ", args)).isEqualTo(2);
            assertThat(run.out()).isEmpty();
            assertThat(run.err())
                    .startsWith("lash: cannot read " + folder)
                    .contains("  problem   ", problem, "  mend      ")
                    .doesNotContain("fault in the program", "Exception");
        }
        assertThat(outer.resolve("new.json")).doesNotExist();
    }
}
