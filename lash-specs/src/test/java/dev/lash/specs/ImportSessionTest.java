package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatNullPointerException;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lash.check.CheckSheet;
import dev.lash.check.ImportCode;
import dev.lash.check.ImportedReading;
import dev.lash.measure.RejectedValueException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ImportSessionTest {
    private static final String GOOD = "Hill bike 5;2.4.2031;9120;IN;0,10;0,13;cold";
    private static final String GOOD_EX = "Hill bike 5;02.04.2031;9120,5;EX;0,17;0,20;\"cold; \"\"very\"\"\"";

    @Test
    void delimitedTextIsReadAsDeclared() {
        Imports in = new Imports().csv(GOOD, "", GOOD_EX);
        assertThat(in.findings).isEmpty();
        assertThat(in.accepted.stream().map(r -> r.usage() + " " + r.valve() + " " + r.found()))
                .containsExactly("9120 km 1-in-1 (0.10, 0.13) mm", "9120.5 km 1-ex-1 (0.17, 0.20) mm");
        assertThat(in.rejected).containsExactly(Imports.HEADER);
    }

    @Test
    void byteOrderMarkIsSkipped() {
        Imports in =
                new Imports().csv(("\uFEFF" + Imports.HEADER + "\n" + GOOD + "\n").getBytes(StandardCharsets.UTF_8));
        assertThat(in.accepted).hasSize(1);
    }

    @Test
    void rowsAreNumberedAsASpreadsheetDoes() {
        Imports in = new Imports().csv(GOOD, "", "Hill bike 5;2.4.2031;9120;EX;0,17;wide;");
        assertThat(in.findings.get(0).row()).isEqualTo(4);
        assertThat(in.findings.get(0).column()).isEqualTo("No go");
        assertThat(in.rejected.get(1)).isEqualTo("Hill bike 5;2.4.2031;9120;EX;0,17;wide;");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "Hill bike 5;2.4.2031;9120",
                "Hill bike 5;2.4.2031;9120;IN;0,10;0,13;cold;more",
                "Hill bike 5;2.4.2031;9120;IN;0,10;0,13;\"open",
                "Hill bike 5;2.4.2031;9120;IN;0,10;0,13;\"cold\" day",
                "Hill bike 5;2.4.2031;9120;IN;0,10;0,13;\0",
            })
    void brokenRowStopsNothing(String broken) {
        Imports in = new Imports().csv(GOOD, broken, GOOD_EX);
        assertThat(in.codes()).containsExactly("broken-row");
        assertThat(in.findings.get(0).row()).isEqualTo(3);
        assertThat(in.accepted).hasSize(2);
        assertThat(in.rejected).containsExactly(Imports.HEADER, broken);
    }

    @Test
    void bytesThatAreNoUtf8BreakTheirRowOnly() {
        byte[] file = (Imports.HEADER + "\n" + GOOD + "\n" + GOOD_EX + "\n").getBytes(StandardCharsets.UTF_8);
        file[Imports.HEADER.length() + 3] = (byte) 0xC3;
        Imports in = new Imports().csv(file);
        assertThat(in.codes()).containsExactly("broken-row");
        assertThat(in.accepted).hasSize(1);
    }

    @Test
    void longRowIsSkippedAndTheRestIsRead() {
        for (int length : new int[] {70_000, 300_000, 2_000_000}) {
            Imports in = new Imports().csv(GOOD, "x".repeat(length), GOOD_EX);
            assertThat(in.codes()).containsExactly("broken-row");
            assertThat(in.accepted).hasSize(2);
            assertThat(in.rejected.get(1)).isEqualTo("x".repeat(RecordFramer.LONGEST));
            assertThat(in.findings.get(0).mend()).contains("the first 65536 characters");
        }
    }

    @Test
    void manyRowsCrossTheBlocksOfTheFramer() {
        StringBuilder file = new StringBuilder(Imports.HEADER).append("\r\n");
        int rows = 30_000;
        for (int i = 0; i < rows; i++) {
            file.append("Hill bike ").append(i).append(";2.4.2031;9120;IN;0,10;0,13;\"a\r\nb\"\r\n");
        }
        Imports in = new Imports().csv(file.toString().getBytes(StandardCharsets.UTF_8));
        assertThat(in.accepted).hasSize(rows);
        assertThat(in.session.summary().read()).isEqualTo(rows);
    }

    @Test
    void totalsAddUpAndMendedSideFileCompletesTheImport() {
        String bad = "Hill bike 5;2.4.2031;9120;EX;0,20;0,17;";
        Imports in = new Imports().csv(GOOD, bad, GOOD);
        assertThat(in.session.summary()).satisfies(s -> {
            assertThat(s.read()).isEqualTo(3);
            assertThat(s.accepted()).isEqualTo(1);
            assertThat(s.rejected()).isEqualTo(1);
            assertThat(s.duplicates()).isEqualTo(1);
            assertThat(s.counts()).containsEntry(ImportCode.CONTRADICTION, 1L);
            assertThat(s.json()).contains("\"format\" : \"lash-import/1\"").contains("\"contradiction\"");
        });
        String mended = in.rejected.stream().collect(Collectors.joining("\n")).replace("0,20;0,17", "0,17;0,20");
        in.csv(mended.getBytes(StandardCharsets.UTF_8));
        assertThat(in.accepted).hasSize(2);
        assertThat(in.session.summary().rejected()).isEqualTo(1);
    }

    @Test
    void aSecondSessionKnowsWhatTheFirstAccepted() throws Exception {
        Imports first = new Imports().csv(GOOD, GOOD_EX);
        String stored = first.accepted.stream().map(ImportSession::line).collect(Collectors.joining("\n"));
        Imports second = new Imports();
        second.session.known("stored", Imports.utf8(stored));
        assertThat(second.session.summary().read()).isZero();
        second.csv(GOOD, GOOD_EX);
        assertThat(second.accepted).isEmpty();
        assertThat(second.session.summary().duplicates()).isEqualTo(2);
        assertThatThrownBy(() -> new Imports().session.known("stored", Imports.utf8("{}")))
                .isInstanceOf(DocumentException.class)
                .hasMessageContaining("stored");
    }

    @Test
    void aSummaryIsAValue() throws Exception {
        ImportSummary summary = new Imports().csv(GOOD, "").session.summary();
        assertThat(summary)
                .isEqualTo(new Imports().csv(GOOD).session.summary())
                .hasSameHashCodeAs(new Imports().csv(GOOD).session.summary())
                .isNotEqualTo(new Imports().csv(GOOD, GOOD).session.summary());
        assertThat(TemplateTest.copied(summary)).isEqualTo(summary);
        assertThatThrownBy(() -> summary.counts().clear()).isInstanceOf(UnsupportedOperationException.class);
        assertThatThrownBy(() -> new ImportSummary(3, 1, 1, 0, Map.of(), Map.of()))
                .isInstanceOf(RejectedValueException.class)
                .hasMessageContaining("\"3\"");
    }

    @Test
    void refusesNull() {
        List<ThrowingCallable> calls = List.of(
                () -> new ImportSummary(0, 0, 0, 0, null, Map.of()),
                () -> new ImportSummary(0, 0, 0, 0, Map.of(), null),
                () -> ImportMapping.read((Path) null),
                () -> ImportMapping.read(null, "{}"),
                () -> ImportMapping.read("mapping", null),
                () -> ProfileReader.read((Path) null),
                () -> ProfileReader.read(null, "{}"),
                () -> ProfileReader.read("profile", null),
                () -> ImportSession.line(null),
                () -> new ImportSession(null, r -> {}, n -> {}));
        for (ThrowingCallable call : calls) {
            assertThatNullPointerException().isThrownBy(call);
        }
    }

    @Test
    void jsonLinesGoRound() {
        Imports first = new Imports().csv(GOOD, GOOD_EX);
        String lines = first.accepted.stream().map(ImportSession::line).collect(Collectors.joining("\n"));
        Imports second = new Imports().jsonLines(lines.getBytes(StandardCharsets.UTF_8));
        assertThat(second.accepted).isEqualTo(first.accepted);
    }

    @Test
    void jsonLinesTakeTrialsAsASheetHasThem() {
        Imports in = new Imports().jsonLines("""
                {"machine":"Hill bike 5","date":"2031-04-02","usage":"9120 km","valve":"1-in-1","adjusted":false,"trials":[{"leaf":["0.04 mm","0.06 mm"],"fit":"goes"},"0.13 mm refuses"]}
                {"machine":"Hill bike 5","date":"2031-04-02","usage":9120,"valve":"1-ex-1","goes":"0.17 mm"}
                [1]
                {"machine":"Hill bike 5","machine":"x"}
                {"machine":"Hill bike 5",
                {"machine":["Hill bike 5"]}
                """.getBytes(StandardCharsets.UTF_8));
        assertThat(in.accepted.stream().map(ImportedReading::found))
                .map(Object::toString)
                .containsExactly("(0.10, 0.13) mm");
        assertThat(in.codes())
                .containsExactlyInAnyOrder("no-unit", "broken-row", "broken-row", "broken-row", "broken-row");
        assertThat(in.rejected).contains("[1]");
    }

    @Test
    void aSheetIsReadValveByValveAndItsSideFileIsASheet() throws Exception {
        CheckSheet sheet = new SheetReader(SpecPack.bundled()).read("sheet", """
                { "format": "lash-sheet/1", "engine": { "template": "screw-single",
                    "clearances": { "in": "0.08..0.13 mm", "ex": "0.17..0.22 mm" } },
                  "machine": "Hill bike 5", "date": "2031-04-02", "usage": "9120 km",
                  "gauges": { "leaves": ["0.10 mm", "0.13 mm", "0.17 mm", "0.20 mm"] },
                  "valves": [
                    { "valve": "1-in-1", "trials": [ { "leaf": "0.10 mm", "fit": "goes" }, { "leaf": "0.13 mm", "fit": "refuses" } ],
                      "done": { "setWith": "0.10 mm" }, "recheck": [ { "leaf": "0.10 mm", "fit": "drags" } ] },
                    { "valve": "1-ex-1", "trials": [ { "leaf": "0.20 mm", "fit": "goes" }, { "leaf": "0.17 mm", "fit": "refuses" } ] } ],
                  "history": [ { "date": "2030-05-11", "usage": "6010 km", "valves": [ { "valve": "1-in-1", "found": "(0.10, 0.13) mm" } ] } ] }
                """);
        Imports in = new Imports();
        in.session.sheet(sheet, in);
        assertThat(in.accepted).hasSize(2);
        assertThat(in.accepted.get(1).left()).hasToString("[0.10, 0.10] mm");
        assertThat(in.codes()).containsExactly("contradiction");
        CheckSheet side = new SheetReader(SpecPack.bundled()).read("side", in.rejected.get(0));
        assertThat(side.valves()).hasSize(1);
        assertThat(side.history()).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "\n\n", "Bike,Day\n", "Bike;Day;km;Valve;Go;No go;Go\n", "\"Bike\n", "Bike;Day;km\n"})
    void fileWithoutTheColumnsIsRefused(String file) {
        assertThatThrownBy(() -> new Imports().csv(file.getBytes(StandardCharsets.UTF_8)))
                .isInstanceOf(DocumentException.class)
                .hasMessageContaining("file.csv, line 1");
    }

    @Test
    void aMappingGivesEachFieldAColumnOfItsOwn() {
        assertThatThrownBy(() -> ImportMapping.read("mapping", """
                        { "format": "lash-mapping/1", "columns": { "goes": "Go", "refuses": "No go", "drags": "Go" } }
                        """))
                .isInstanceOfSatisfying(
                        DocumentException.class, e -> assertThat(e.pointer()).isEqualTo("/columns/drags"))
                .hasMessageContaining("\"Go\" is given for drags, and for goes already")
                .hasMessageContaining("leave drags out");
    }

    /** A misspelt name would lose half of each reading, and nobody would know. */
    @Test
    void anUnknownColumnIsRefusedWhereNoMappingDeclaresTheKnownOnes() {
        String header = "machine,date,usage,valve,gose,refuses\n";
        String row = "Hill bike 5,2031-04-02,9120 km,1-in-1,0.10 mm,0.13 mm\n";
        Imports in = new Imports();
        assertThatThrownBy(() -> in.session.csv("own.csv", Imports.utf8(header + row), ImportMapping.own(), in))
                .isInstanceOf(DocumentException.class)
                .hasMessageContaining("own.csv, line 1")
                .hasMessageContaining("\"gose\" is not the name of a column")
                .hasMessageContaining("one of machine, date,")
                .hasMessageContaining("did you mean \"goes\"?");
        assertThat(in.accepted).isEmpty();
        assertThat(in.rejected).isEmpty();
        assertThatThrownBy(() -> in.session.csv(
                        "own.csv", Imports.utf8(header.replace("gose", "") + row), ImportMapping.own(), in))
                .isInstanceOf(DocumentException.class)
                .hasMessageContaining("is a column without a name");
    }

    @Test
    void anUnknownKeyIsRefusedWhereNoMappingDeclaresTheKnownOnes() throws Exception {
        String start = "{\"machine\":\"Hill bike 5\",\"date\":\"2031-04-02\",\"usage\":\"9120 km\",";
        String odd = start + "\"valve\":\"1-in-1\",\"gose\":\"0.10 mm\",\"refuses\":\"0.13 mm\"}";
        String good = start + "\"valve\":\"1-ex-1\",\"goes\":\"0.17 mm\",\"refuses\":\"0.20 mm\"}";
        Imports in = new Imports().jsonLines((odd + "\n" + good + "\n").getBytes(StandardCharsets.UTF_8));
        assertThat(in.codes()).containsExactly("broken-row");
        assertThat(in.accepted).hasSize(1);
        assertThat(in.rejected).containsExactly(odd);
        assertThat(in.findings.get(0)).satisfies(f -> {
            assertThat(f.row()).isEqualTo(1);
            assertThat(f.column()).isEqualTo("gose");
            assertThat(f.expected()).startsWith("one of machine, date,");
            assertThat(f.mend()).startsWith("did you mean \"goes\"?");
        });
        // what a mapping does not name is left alone
        Imports mapped = new Imports();
        mapped.session.jsonLines("file.jsonl", Imports.utf8("""
                        {"Bike":"Hill bike 5","Day":"2031-04-02","km":"9120 km","Valve":"1-in-1","Go":"0.10 mm","gose":{"a":[1]}}
                        """), ImportMapping.read("mapping", """
                        { "format": "lash-mapping/1", "columns":
                          { "machine": "Bike", "date": "Day", "usage": "km", "valve": "Valve", "goes": "Go" } }
                        """), mapped);
        assertThat(mapped.codes()).isEmpty();
        assertThat(mapped.accepted).hasSize(1);
    }

    @Test
    void utf16IsRefused() {
        assertThatThrownBy(() -> new Imports().csv(Imports.HEADER.getBytes(StandardCharsets.UTF_16)))
                .isInstanceOf(DocumentException.class)
                .hasMessageContaining("UTF-8");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "{}",
                "{ \"format\": \"lash-mapping/1\" }",
                "{ \"format\": \"lash-mapping/1\", \"columns\": { \"bike\": \"Bike\" } }",
                "{ \"format\": \"lash-mapping/1\", \"columns\": {}, \"delimiter\": \"\\\"\" }",
                "{ \"format\": \"lash-mapping/1\", \"columns\": {}, \"unit\": \"cm\" }",
                "{ \"format\": \"lash-mapping/1\", \"columns\": {}, \"units\": { \"date\": \"mm\" } }",
                "{ \"format\": \"lash-mapping/1\", \"columns\": {}, \"usageUnit\": \"m\" }",
                "{ \"format\": \"lash-mapping/1\", \"columns\": {}, \"dateOrder\": \"iso\" }",
                "{ \"format\": \"lash-mapping/1\", \"columns\": {}, \"decimalComma\": \"yes\" }",
                "{ \"format\": \"lash-mapping/1\", \"columns\": {}, \"temperatureScale\": \"K\" }",
                "{ \"format\": \"lash-mapping/1\", \"columns\": {}, \"guess\": true }"
            })
    void mappingIsStrict(String json) {
        assertThatThrownBy(() -> ImportMapping.read("mapping", json))
                .isInstanceOf(DocumentException.class)
                .hasMessageContaining("mapping, line 1");
    }
}
