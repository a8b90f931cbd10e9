package dev.lash.examples;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Runs the program as the shell would. */
class MainTest {
    private static final String DEMO = "sheets/practice-bike.json";

    @TempDir
    Path folder;

    private static ProgramRun run(String input, boolean colour, String... args) {
        return ProgramRun.of(input, colour, args);
    }

    private static ProgramRun run(String... args) {
        return run("", false, args);
    }

    private static String demo() throws IOException {
        return Files.readString(Path.of(DEMO));
    }

    private static String contradicting() throws IOException {
        return demo().replace("\"leaf\": \"0.10 mm\", \"fit\": \"goes\"", "\"leaf\": \"0.15 mm\", \"fit\": \"goes\"");
    }

    @Test
    void demoHasOneValveOfEachVerdictAndEndsWithZero() {
        ProgramRun outcome = run("check", DEMO);
        assertThat(outcome.code()).isZero();
        assertThat(outcome.err()).isEmpty();
        assertThat(outcome.out())
                .contains("1 within (1-in-1), 1 tight (1-ex-1), 1 loose (2-in-1), 1 undecided")
                .contains("1-ex-1 0.17 refuses (0.13, 0.17) 0.17..0.22 tight     set to leaf 0.20, screw")
                .contains(" after 0.20 drags   = 0.20                  within    done: set with 0.20 mm")
                .contains("within or loose: offer")
                .contains("Findings\nnone")
                .contains("qualified technician");
    }

    @Test
    void textFitsEightyColumnsAndIsPlain() {
        ProgramRun outcome = run("check", DEMO);
        assertThat(outcome.out().lines()).allMatch(line -> line.length() <= 80).noneMatch(line -> line.endsWith(" "));
        assertThat(outcome.out()).doesNotContain("\u001b").doesNotContain("\r").endsWith("\n");
    }

    @Test
    void colourOnlyAddsEscapes() {
        String plain = run("check", DEMO).out();
        String colour = run("", true, "check", DEMO).out();
        assertThat(colour).contains("\u001b[31mtight\u001b[0m").contains("\u001b[36mundecided\u001b[0m");
        assertThat(colour.replaceAll("\u001b\\[[0-9]+m", "")).isEqualTo(plain);
    }

    @Test
    void jsonIsOneReport() {
        ProgramRun outcome = run("check", "--format", "json", DEMO);
        assertThat(outcome.code()).isZero();
        assertThat(outcome.out())
                .startsWith("{")
                .contains("\"format\" : \"lash-report/1\"")
                .contains("\"verdict\" : \"undecided\"")
                .contains("\"template\" : \"screw-twin, revision 2\"")
                .contains("\"packVersion\"");
    }

    @Test
    void severalSheetsGiveOneJsonReportALine() {
        ProgramRun outcome = run("check", "--format=json", DEMO, DEMO, DEMO);
        assertThat(outcome.out().lines()).hasSize(3).allMatch(line -> line.startsWith("{") && line.endsWith("}"));
    }

    @Test
    void severalSheetsAsTextFollowEachOther() {
        assertThat(run("check", DEMO, DEMO).out().split("Valve-clearance check: ", -1))
                .hasSize(3);
    }

    @Test
    void dashReadsStandardInput() throws IOException {
        assertThat(run(demo(), false, "check", "-")).isEqualTo(run("check", DEMO));
    }

    @Test
    void contradictionEndsWithOneAndIsStillReported() throws IOException {
        ProgramRun outcome = run(contradicting(), false, "check", "-");
        assertThat(outcome.code()).isEqualTo(1);
        assertThat(outcome.out())
                .contains("ERROR 1-in-1: 0.15 mm goes and 0.13 mm forced cannot both be true")
                .contains("contradicts")
                .contains("1 tight (1-ex-1)");
    }

    @Test
    void brokenSheetIsExplainedOnStandardErrorAndEndsWithTwo() throws IOException {
        ProgramRun outcome = run(demo().replace("\"0.10 mm\", \"fit\"", "\"0.10\", \"fit\""), false, "check", "-");
        assertThat(outcome.code()).isEqualTo(2);
        assertThat(outcome.out()).isEmpty();
        assertThat(outcome.err()).isEqualTo("""
                        lash: cannot read standard input
                          where     line 18, column 87 (/valves/0/trials/1/leaf)
                          problem   "0.10" has no unit
                          expected  a number with its unit, such as "0.10 mm"
                          mend      add the unit: 0.10 mm, 0.10 in or 0.10 thou
                        """);
    }

    @Test
    void exitCodeIsTheHighestAndReadableSheetsAreStillReported() throws IOException {
        Path bad = Files.writeString(folder.resolve("bad.json"), "{");
        Path doubtful = Files.writeString(folder.resolve("doubtful.json"), contradicting());
        ProgramRun outcome = run("check", "--format=json", bad.toString(), doubtful.toString(), DEMO);
        assertThat(outcome.code()).isEqualTo(2);
        assertThat(outcome.out().lines()).hasSize(2);
        assertThat(outcome.err()).contains("bad.json");
        assertThat(run("check", doubtful.toString(), DEMO).code()).isEqualTo(1);
    }

    @Test
    void missingFileAndFolderAreNamed() {
        assertThat(run("check", "no-such.json").err()).contains("no-such.json").contains("no such file");
        assertThat(run("check", folder.toString()).code()).isEqualTo(2);
        assertThat(run("check", "\0").code()).isEqualTo(2);
    }

    @Test
    void wrongUsageEndsWithTwo() {
        assertThat(run().code()).isEqualTo(2);
        assertThat(run("check").code()).isEqualTo(2);
        assertThat(run("check", "--format=xml", DEMO).code()).isEqualTo(2);
        assertThat(run("polish", DEMO).code()).isEqualTo(2);
        assertThat(run("check", "--format=xml", DEMO).err()).contains("xml").doesNotContain("Exception");
    }

    @Test
    void setCheckNamesTheLeafToAdd() {
        ProgramRun outcome = run("set-check", DEMO);
        assertThat(outcome.code()).isZero();
        assertThat(outcome.out())
                .contains("intake  0.08..0.13 simple yes     1.5, 2  -")
                .contains("exhaust 0.17..0.22 simple not all")
                .contains("(0.20, 0.25); add 0.22");
        assertThat(outcome.out().lines()).allMatch(line -> line.length() <= 80);
    }

    @Test
    void setCheckTakesAStandardSetAndShowsTheTrials() {
        ProgramRun outcome = run("set-check", "--set", "metric-13", "--trials", DEMO);
        assertThat(outcome.out()).contains("metric-13 (from memory)").contains("offer 0.15 mm\n  goes: ");
        assertThat(run("set-check", "--set", "metric-99", DEMO))
                .satisfies(o -> assertThat(o.code()).isEqualTo(2))
                .satisfies(o -> assertThat(o.err()).contains("metric-99").contains("metric-13"));
        assertThat(run("set-check", "no-such.json").code()).isEqualTo(2);
    }

    @Test
    void helpAndVersionEndWithZero() {
        assertThat(run("--help").code()).isZero();
        assertThat(run("check", "--help").out()).contains("SHEET").contains("Exit code");
        assertThat(run("--version").out()).matches("lash [0-9]+\\.[0-9]+\\.[0-9]+(-SNAPSHOT)?\\R");
    }
}
