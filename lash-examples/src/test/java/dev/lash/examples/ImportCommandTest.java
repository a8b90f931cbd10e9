package dev.lash.examples;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.check.ImportCode;
import dev.lash.examples.embed.ImportIntoDatabase;
import dev.lash.examples.sim.ImportCorpus;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ImportCommandTest {
    private static final String ENGINE = """
            { "format": "lash-sheet/1", "engine": { "template": "screw-single",
                "clearances": { "in": "0.08..0.13 mm", "ex": "0.17..0.22 mm" } },
              "gauges": { "leaves": ["0.10 mm", "0.13 mm", "0.17 mm", "0.20 mm"] }, "valves": [] }
            """;
    private static final String MAPPING = """
            { "format": "lash-mapping/1", "unit": "mm", "usageUnit": "km",
              "columns": { "machine": "Bike", "date": "Day", "usage": "km", "valve": "Valve", "goes": "Go", "refuses": "No go" } }
            """;
    private static final String ROWS = """
            Bike,Day,km,Valve,Go,No go
            Hill bike 5,2031-04-02,9120,1-in-1,0.10,0.13
            Hill bike 5,2031-04-02,9120,1-ex-1,0.20,0.17
            """;

    @TempDir
    Path folder;

    private String file(String name, String text) throws IOException {
        return Files.writeString(folder.resolve(name), text).toString();
    }

    private ProgramRun run(String... more) throws IOException {
        String[] args = new String[more.length + 9];
        args[0] = "import";
        args[1] = "--sheet";
        args[2] = file("engine.json", ENGINE);
        args[3] = "--mapping";
        args[4] = file("mapping.json", MAPPING);
        args[5] = "--today";
        args[6] = "2031-06-01";
        args[7] = "--into";
        args[8] = folder.resolve("store.jsonl").toString();
        System.arraycopy(more, 0, args, 9, more.length);
        return ProgramRun.of("", args);
    }

    @Test
    void rejectedRowIsMendedBesideTheFileAndImportedThen() throws IOException {
        ProgramRun first = run(file("rows.csv", ROWS));
        assertThat(first.err()).isEmpty();
        assertThat(first.code()).isEqualTo(1);
        assertThat(first.out())
                .startsWith("2 rows read: 1 accepted, 1 rejected, 0 there already\n")
                .contains("ERROR contradiction: 1")
                .contains("Rejected rows: " + folder.resolve("rows.rejected.csv"))
                .endsWith("All findings: " + folder.resolve("rows.findings.jsonl") + "\n");
        Path side = folder.resolve("rows.rejected.csv");
        assertThat(side).content().isEqualToIgnoringNewLines("""
                Bike,Day,km,Valve,Go,No go
                Hill bike 5,2031-04-02,9120,1-ex-1,0.20,0.17
                """);
        assertThat(Files.readString(folder.resolve("rows.findings.jsonl"))).contains("\"code\":\"contradiction\"");
        Files.writeString(side, Files.readString(side).replace("0.20,0.17", "0.17,0.20"));
        assertThat(run(side.toString()).code()).isZero();
        ProgramRun again = run("--format=json", folder.resolve("rows.csv").toString());
        assertThat(again.code()).isEqualTo(1);
        assertThat(again.out()).contains("\"accepted\" : 0").contains("\"duplicates\" : 1");
        assertThat(Files.readAllLines(folder.resolve("store.jsonl"))).hasSize(2);
        assertThat(folder.resolve("rows.rejected-2.csv"))
                .as("what was mended by hand stays as it is")
                .exists();
        assertThat(Files.readString(side)).contains("0.17,0.20");
    }

    private Path side(String name) {
        return folder.resolve(name);
    }

    private List<String> names() throws IOException {
        try (Stream<Path> all = Files.list(folder)) {
            return all.map(p -> p.getFileName().toString())
                    .filter(n -> n.startsWith("rows.") || n.startsWith("."))
                    .sorted()
                    .toList();
        }
    }

    /** Importing a file again and again leaves one side file, whose findings are those of the last time. */
    @Test
    void theSameRejectedRowsKeepTheirFile() throws IOException {
        String rows = file("rows.csv", ROWS);
        run(rows);
        byte[] first = Files.readAllBytes(side("rows.rejected.csv"));
        for (int i = 0; i < 3; i++) {
            assertThat(run(rows).out())
                    .contains("Rejected rows: " + side("rows.rejected.csv")
                            + "\n  They are the same as before. Mend them there, and import that file.\n")
                    .endsWith("All findings: " + side("rows.findings.jsonl") + "\n");
        }
        assertThat(names()).containsExactly("rows.csv", "rows.findings.jsonl", "rows.rejected.csv");
        assertThat(side("rows.rejected.csv")).hasBinaryContent(first);
        assertThat(side("rows.findings.jsonl")).content().contains("\"code\":\"duplicate\"");
        // the side file itself, with nothing mended in it
        assertThat(run(side("rows.rejected.csv").toString()).out()).contains("the same as before");
        assertThat(names()).containsExactly("rows.csv", "rows.findings.jsonl", "rows.rejected.csv");
    }

    /** A file that grew: the side file grows with it. */
    @Test
    void aSideFileIsWrittenAnewWhereNothingOfItIsLost() throws IOException {
        run(file("rows.csv", ROWS));
        run(file("rows.csv", ROWS + "Hill bike 5,2031-05-02,9220,1-in-1,0.13,0.10\n"));
        assertThat(names()).containsExactly("rows.csv", "rows.findings.jsonl", "rows.rejected.csv");
        assertThat(side("rows.rejected.csv")).content().isEqualToIgnoringNewLines("""
                Bike,Day,km,Valve,Go,No go
                Hill bike 5,2031-04-02,9120,1-ex-1,0.20,0.17
                Hill bike 5,2031-05-02,9220,1-in-1,0.13,0.10
                """);
    }

    @Test
    void aMendedSideFileIsNeverWrittenOver() throws IOException {
        String rows = file("rows.csv", ROWS);
        run(rows);
        Path first = side("rows.rejected.csv");
        List<String> mended = List.of(
                Files.readString(first).replace("0.20,0.17", "0.17,0.20"),
                Files.readString(first) + "\n",
                Files.readString(first) + "asked Jo about this one\n",
                "not saved anywhere else",
                "");
        for (String text : mended) {
            Files.deleteIfExists(side("rows.rejected-2.csv"));
            Files.deleteIfExists(side("rows.findings-2.jsonl"));
            Files.writeString(first, text);
            run(rows);
            run(rows);
            if (!text.isEmpty()) {
                assertThat(first).content().isEqualTo(text);
                assertThat(side("rows.rejected-2.csv")).content().contains("0.20,0.17");
            }
            assertThat(side("rows.rejected-3.csv")).doesNotExist();
        }
    }

    @Test
    void sideFilesOfSideFilesAreCountedOn() throws IOException {
        run(file("rows.csv", ROWS + "Hill bike 5,2031-05-02,9220,1-in-1,0.13,0.10\n"));
        Path first = side("rows.rejected.csv");
        Files.writeString(first, Files.readString(first).replace("0.13,0.10", "0.10,0.13"));
        assertThat(run(first.toString()).out())
                .contains("Rejected rows: " + side("rows.rejected-2.csv") + "\n")
                .endsWith("All findings: " + side("rows.findings-2.jsonl") + "\n");
        Path later = side("rows.rejected-2.csv");
        Path kept = side("rows.rejected-4.csv");
        Files.writeString(kept, "not saved anywhere else");
        Files.writeString(later, Files.readString(later).replace("0.20,0.17", "0.30,0.17"));
        assertThat(run(later.toString()).out()).contains("the same as before");
        Files.writeString(later, Files.readString(later) + "Hill bike 5,2031-05-02,9220,1-ex-1,0.17,0.20\n");
        assertThat(run(later.toString()).out()).contains(side("rows.rejected-5.csv") + "\n");
        assertThat(kept).content().isEqualTo("not saved anywhere else");
        Files.delete(first);
        assertThat(run(later.toString()).out()).contains(side("rows.rejected-5.csv") + "\n");
        assertThat(folder).isDirectoryNotContaining("glob:**.rejected.rejected*");
        assertThat(folder).isDirectoryNotContaining("glob:**/.*");
    }

    /** A row that was held is told after later ones, and stands where it stood all the same. */
    /** Rows of one name and two endings keep their findings apart. */
    @Test
    void findingsOfRejectedRowsAreNotThoseOfAnotherFile() throws IOException {
        run(file("rows.csv", ROWS));
        String before = Files.readString(side("rows.findings.jsonl"));
        run(file(
                "rows.jsonl",
                "{\"machine\":\"Hill bike 6\",\"date\":\"2031-04-02\",\"usage\":\"9120 km\",\"valve\":\"1-in-1\","
                        + "\"clearance\":\"(0.10, 0.13) mm\"}\n"));

        assertThat(side("rows.findings.jsonl")).content().isEqualTo(before);
        assertThat(side("rows.findings-2.jsonl")).exists();
    }

    /** An editor that leaves out the last line end must not make one line of two. */
    @Test
    void aStoreWithoutItsLastLineEndIsGoneOnWith() throws IOException {
        run(file("rows.csv", ROWS));
        Path store = side("store.jsonl");
        Files.writeString(store, Files.readString(store).stripTrailing());
        run(file("more.csv", ROWS.replace("2031-04-02", "2031-05-02").replace("9120", "9500")));

        assertThat(Files.readAllLines(store)).hasSize(2).allMatch(line -> line.endsWith("}"));
        assertThat(run(side("rows.csv").toString()).out()).contains("0 accepted, 1 rejected, 1 there already");
    }

    @Test
    void halfALineOfAnImportThatWasBrokenOffComesInAgain() throws IOException {
        run(file("rows.csv", ROWS));
        Path store = side("store.jsonl");
        String whole = Files.readString(store);
        for (int left : new int[] {4, 12, 40}) {
            Files.writeString(store, whole + whole.substring(0, left));

            ProgramRun again = run(side("rows.csv").toString());

            assertThat(again.err()).contains("was cut off").contains(whole.substring(0, left));
            assertThat(store).content().isEqualTo(whole);
        }
        Files.writeString(store, whole.substring(0, 40));
        assertThat(run(side("rows.csv").toString()).out()).contains("1 accepted");
        assertThat(store).content().isEqualTo(whole);
    }

    /** What is no store must not lose its last line. */
    @Test
    void aFileThatIsNoStoreKeepsAllItHas() throws IOException {
        Path notes = Files.writeString(side("store.jsonl"), "bought two shims");

        assertThat(run(file("rows.csv", ROWS)).code()).isEqualTo(2);
        assertThat(notes).hasContent("bought two shims");
    }

    @Test
    void sideFilesAreInTheOrderOfTheInput() throws IOException {
        run(file("rows.csv", """
                Bike,Day,km,Valve,Go,No go
                Hill bike 5,2029-04-02,7120,1-in-1,0.10,0.13
                Hill bike 5,2031-04-22,8120,1-in-1,0.10,0.13
                Hill bike 6,2031-04-02,9120,1-ex-1,0.30,0.17
                Hill bike 5,2030-06-02,9120,1-in-1,0.10,0.13
                Hill bike 6,2031-04-02,9120,1-in-1,0.20,0.17
                Hill bike 5,2030-08-02,9320,1-in-1,0.10,0.13
                Hill bike 6,2031-04-02,9120,1-ex-1,0.20,0.17
                """));
        assertThat(Files.readAllLines(side("rows.rejected.csv")).stream()
                        .skip(1)
                        .map(l -> l.substring(0, 22)))
                .containsExactly(
                        "Hill bike 5,2031-04-22",
                        "Hill bike 6,2031-04-02",
                        "Hill bike 6,2031-04-02",
                        "Hill bike 6,2031-04-02");
        List<Integer> rows = Files.readAllLines(side("rows.findings.jsonl")).stream()
                .map(line -> Integer.valueOf(line.replaceAll(".*?\"row\":(\\d+).*", "$1")))
                .toList();
        assertThat(rows).isSorted().contains(3, 4, 6, 8);
    }

    @Test
    void aFileThatCannotBeReadLeavesNothingBesideIt() throws IOException {
        assertThat(run(file("rows.csv", "a,b\n1,2\n")).code()).isEqualTo(2);
        assertThat(names()).containsExactly("rows.csv");
    }

    @Test
    void likelyCorrectionsAreAppliedOnRequest() throws IOException {
        String rows = file("inch.csv", ROWS.replace("0.20,0.17", "0.007,0.008"));
        assertThat(run(rows).code()).isEqualTo(1);
        assertThat(run("--correct", "other-unit", rows).code()).isZero();
        assertThat(run("--correct", "guess", rows).err()).contains("guess").contains("other-unit");
    }

    @Test
    void thresholdsComeFromAFile() throws IOException {
        String rows = file("rows.csv", """
                Bike,Day,km,Valve,Go,No go
                Hill bike 5,2031-04-02,9120,1-in-1,0.10,0.13
                Hill bike 5,2031-04-12,9920,1-in-1,0.10,0.13
                """);
        assertThat(run(rows).code()).isZero();
        Files.delete(folder.resolve("store.jsonl"));
        String profile = file("profile.json", "{ \"format\": \"lash-profile/1\", \"kilometresPerDay\": 40 }");
        ProgramRun strict = run("--profile", profile, rows);
        assertThat(strict.out()).contains("ERROR usage-jump: 1");
        assertThat(strict.code()).isEqualTo(1);
        String broken = file("broken.json", "{ \"format\": \"lash-profile/1\",\n  \"swapOdds\": 1 }");
        assertThat(run("--profile", broken, rows).err())
                .contains("broken.json")
                .contains("line 2")
                .contains("/swapOdds")
                .contains("a number above 1");
    }

    @Test
    void checkSheetBringsItsEngine() throws IOException {
        ProgramRun run = ProgramRun.of("", "import", "--today", "2032-01-01", copy("sheets/practice-bike.json"));
        assertThat(run.err()).isEmpty();
        assertThat(run.out()).startsWith("4 rows read: 4 accepted");
        ProgramRun broken = ProgramRun.of("", "import", file("broken.json", "{"));
        assertThat(broken.code()).isEqualTo(1);
        assertThat(broken.out()).contains("broken-row: 1");
        assertThat(folder.resolve("broken.rejected.json")).content().startsWith("{");

        Path odd = folder.resolve("odd.json");
        Files.write(odd, new byte[] {'{', (byte) 0xE9, '}', '\r', '\n'});
        assertThat(ProgramRun.of("", "import", odd.toString()).code()).isEqualTo(1);
        assertThat(folder.resolve("odd.rejected.json")).hasSameBinaryContentAs(odd);
    }

    private String copy(String sheet) throws IOException {
        return file("sheet.json", Files.readString(Path.of(sheet)));
    }

    @Test
    void whatCannotBeReadEndsWithTwoAndNoTrace() throws IOException {
        for (ProgramRun run : new ProgramRun[] {
            run(folder.resolve("none.csv").toString()),
            run(folder.toString()),
            run(file("other.csv", "a,b\n1,2\n")),
            run(file("empty.csv", "")),
            ProgramRun.of("", "import"),
            ProgramRun.of("", "import", "--mapping", file("m.json", "{}"), file("x.csv", ROWS)),
            ProgramRun.of("", "import", "--today", "soon", file("y.csv", ROWS)),
        }) {
            assertThat(run.code()).isEqualTo(2);
            assertThat(run.err()).isNotBlank().doesNotContain("Exception").doesNotContain("fault in the program");
        }
    }

    /** A file that is missing is told before another one is imported; one that is broken, after what was done. */
    @Test
    void whatWasDoneBeforeABrokenFileIsSaid() throws IOException {
        String rows = file("rows.csv", ROWS);
        Path store = folder.resolve("store.jsonl");
        ProgramRun missing = run(rows, folder.resolve("none.csv").toString());
        assertThat(missing.code()).isEqualTo(2);
        assertThat(missing.err()).contains("none.csv");
        assertThat(store).doesNotExist();

        ProgramRun broken = run(rows, file("odd.csv", "a,b\n1,2\n"));
        assertThat(broken.code()).isEqualTo(2);
        assertThat(broken.err()).contains("odd.csv");
        assertThat(broken.out()).contains(" rows read: ");
        assertThat(store).isNotEmptyFile();
    }

    /** A side file that is to be imported too is read as it was. */
    @Test
    void aSideFileOfTheSameCallIsLeftAlone() throws IOException {
        String rows = file("rows.csv", ROWS.replace("0.10,0.13", "0.13,0.10"));
        run(rows);
        Path side = folder.resolve("rows.rejected.csv");
        List<String> lines = Files.readAllLines(side);
        assertThat(lines).hasSizeGreaterThan(2);
        Path second = folder.resolve("rows.rejected-2.csv");
        Files.write(second, lines.subList(0, 2));

        run(rows, second.toString());

        assertThat(second).content().isEqualToIgnoringNewLines(String.join("\n", lines.subList(0, 2)) + "\n");
    }

    @Test
    void databaseHoldsWholeMachinesOnly() throws Exception {
        PrintStream standard = System.out;
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (PrintStream captured = new PrintStream(out, true, StandardCharsets.UTF_8)) {
            System.setOut(captured);
            ImportIntoDatabase.main(new String[0]);
        } finally {
            System.setOut(standard);
        }
        assertThat(out.toString(StandardCharsets.UTF_8))
                .startsWith("2 readings added")
                .contains("Hill bike 6, row 3")
                .contains("0.004 in");
    }

    @Test
    void documentIsWhatTheProgramWritesAndKeepsItsPromises() throws IOException {
        assertThat(Files.readString(Path.of("IMPORT.md"))).isEqualTo(ImportCorpus.document());
        ImportCorpus.Result result = ImportCorpus.measure(600);
        Set<ImportCode> hard = EnumSet.of(
                ImportCode.MISSING_VALUE,
                ImportCode.UNPARSABLE,
                ImportCode.NO_UNIT,
                ImportCode.DECIMAL_COMMA,
                ImportCode.CONTRADICTION,
                ImportCode.UNKNOWN_MACHINE,
                ImportCode.UNKNOWN_VALVE,
                ImportCode.DUPLICATE,
                ImportCode.DUPLICATE_DIFFERS,
                ImportCode.USAGE_BACKWARDS,
                ImportCode.DATE_IN_FUTURE,
                ImportCode.DATE_OUT_OF_ORDER);
        assertThat(result.recall()).allSatisfy((code, share) -> {
            double least = hard.contains(code)
                    ? 0.99
                    : code == ImportCode.OTHER_UNIT || code == ImportCode.WHOLE_HUNDREDTHS ? 0.95 : 0.9;
            assertThat(share).as(code.code()).isGreaterThanOrEqualTo(least);
        });
        assertThat(result.falseErrors() * 10_000L).isLessThan(result.cleanRows());
    }

    /** Without a second opinion one wrong date shut out 8 % of the good rows. */
    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    void oneWrongDigitCostsHardlyAnyOtherRow(boolean date) {
        ImportCorpus.Strays row = ImportCorpus.strays(300, date, false);
        assertThat(row.goodRejected() * 1000L).isLessThan(row.goodRows());
        ImportCorpus.Strays visit = ImportCorpus.strays(300, date, true);
        assertThat(visit.goodRejected() * 100L).isLessThan(visit.goodRows());
        assertThat(row.rejected()).isPositive();
    }
}
