package dev.lash.examples;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.ShimBox;
import dev.lash.check.CheckSheet;
import dev.lash.check.FindingCode;
import dev.lash.check.ValveReading;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.StandardGaugeSet;
import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Temperature;
import dev.lash.measure.Usage;
import dev.lash.specs.SpecPack;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import picocli.CommandLine;

/** Begins and resumes walks: the command line, the questions before the first valve, and files that cannot be used. */
class WalkCommandTest {
    @TempDir
    Path folder;

    private Path file;

    @BeforeEach
    void name() {
        file = folder.resolve("bike.json");
    }

    private WalkRun walk(String script, String... options) {
        List<String> args = new ArrayList<>(List.of(file.toString()));
        args.addAll(Arrays.asList(options));
        return WalkRun.of(script, args.toArray(new String[0]));
    }

    /** All that can be given, but for what the options give otherwise. */
    private WalkRun walkGiven(String script, String... options) {
        List<String> all = new ArrayList<>(List.of(
                "--template=screw-twin",
                "--leaves=0.05 0.08 0.10 0.13 0.15 0.17 0.20 0.22",
                "--unit=mm",
                "--stack=1",
                "--rule=simple",
                "--intake=0.08..0.13",
                "--exhaust=0.17..0.22 mm",
                "--confirmed-from=the school's workshop manual, page 3-8",
                "--machine=Hill riding school, practice bike 2",
                "--date=2031-04-02",
                "--usage=18450 km",
                "--temperature=19 C"));
        for (String option : options) {
            String key = option.substring(0, option.indexOf('=') + 1);
            all.removeIf(a -> a.startsWith(key));
            all.add(option);
        }
        return walk(script, all.toArray(new String[0]));
    }

    private CheckSheet sheet() {
        return WalkRun.read(file);
    }

    @Test
    void whatIsGivenIsNotAsked() {
        WalkRun run = walkGiven("");
        assertThat(run.err()).isEmpty();
        assertThat(run.code()).isZero();
        assertThat(run.out()).startsWith("Before a leaf goes in");
        CheckSheet sheet = sheet();
        assertThat(sheet.machine()).isEqualTo("Hill riding school, practice bike 2");
        assertThat(sheet.date()).contains(LocalDate.of(2031, 4, 2));
        assertThat(sheet.usage()).contains(Usage.parse("18450 km"));
        assertThat(sheet.engineTemperature()).contains(Temperature.parse("19 C"));
        assertThat(sheet.gauges().leaves()).hasSize(8);
        assertThat(sheet.engine().findClearance(ValveRole.EXHAUST))
                .contains(new ClearanceSpec(
                        ClearanceWindow.parse("0.17..0.22 mm"),
                        ClearanceWindow.parse("0.17..0.22 mm"),
                        "the school's workshop manual, page 3-8"));
        assertThat(sheet.engine().template()).contains("screw-twin, revision 2");
        assertThat(sheet.valves()).isEmpty();
    }

    @Test
    void whatIsNotGivenIsAskedAndMistakesAreExplained() {
        WalkRun run = walk("""
                99
                screw-twin
                cm
                mm
                0.05 0,08

                0.05 0.08 0.10 mm 0.13 0.15 0.17 0.20 0.22 0.008 in
                4
                two
                2
                strict
                simple
                0.13..0.08
                0.8..1.3
                0.08..0.13
                0.17..0.22 mm
                the school's workshop manual, page 3-8
                Hill riding school, practice bike 2
                yesterday
                2031-04-02
                18450
                18450 km
                19
                19 C
                f g q
                """);
        assertThat(run.code()).isZero();
        assertThat(run.out())
                .contains("  screw-twin: Parallel twin at 360 degrees, screw rockers")
                .contains("Not usable: template \"99\": is not in the pack")
                .contains("Not usable: unit \"cm\"")
                .contains("a comma stands in the number")
                .contains("This is needed.")
                .contains("Not usable: stack \"4\": is out of range")
                .contains("Not usable: stack \"two\": is not a whole number")
                .contains("Not usable: rule \"strict\"")
                .contains("Intake window in the manual (Enter keeps the typical 0.08..0.12 mm)?")
                .contains("is reversed")
                .contains("Not usable: window \"0.8..1.3\": is five times")
                .contains("Not usable: date \"yesterday\"")
                .contains("Not usable: usage \"18450\": has no unit")
                .contains("the maker wants at most 35 \u00b0C")
                .contains("Not usable: temperature \"19\": has no scale");
        assertThat(run.out().lines()).allMatch(line -> line.length() <= 80);
        CheckSheet sheet = sheet();
        assertThat(sheet.gauges().leaves()).hasSize(9);
        assertThat(sheet.gauges().mostStacked()).isEqualTo(2);
        assertThat(sheet.engine().findClearance(ValveRole.INTAKE).orElseThrow().check())
                .isEqualTo(ClearanceWindow.parse("0.08..0.13 mm"));
        assertThat(sheet.valves()).hasSize(1);
    }

    @Test
    void enterTakesTheDefaultsAndTypicalWindowsStayUnconfirmed() {
        // the template by its number; the date by the clock
        String script = "1\nmm\nmetric-20\n\n\n\n\n\n\n\n\n\n";
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        PrintStream print = new PrintStream(out, true, StandardCharsets.UTF_8);
        Clock clock = Clock.fixed(Instant.parse("2031-04-02T23:30:00Z"), ZoneOffset.ofHours(2));
        int code = new CommandLine(new WalkCommand(
                        new Main.Bench(
                                new ByteArrayInputStream(script.getBytes(StandardCharsets.UTF_8)), print, print, false),
                        clock))
                .execute(file.toString());
        assertThat(code).isZero();
        assertThat(out.toString(StandardCharsets.UTF_8)).contains("Date (Enter: 2031-04-03)?");
        CheckSheet sheet = sheet();
        assertThat(sheet.engine().id()).isEqualTo(SpecPack.bundled().ids().get(0));
        assertThat(sheet.date()).contains(LocalDate.of(2031, 4, 3));
        assertThat(sheet.gauges()).isEqualTo(StandardGaugeSet.METRIC_20.gauges());
        assertThat(sheet.rule()).isEqualTo(ReadingRule.simple());
        assertThat(sheet.machine()).isEmpty();
        assertThat(sheet.usage()).isEmpty();
        assertThat(sheet.engineTemperature()).isEmpty();
        for (ValveRole role : ValveRole.values()) {
            assertThat(sheet.engine().findClearance(role).orElseThrow().isConfirmed())
                    .isFalse();
        }
        assertThat(out.toString(StandardCharsets.UTF_8).replaceAll("\\s+", " "))
                .contains("is a typical value, not confirmed by the shop");
    }

    @Test
    void emptyTextOnTheCommandLineMeansNotRecorded() {
        walkGiven("", "--usage=", "--temperature=", "--machine=", "--intake=", "--exhaust=", "--confirmed-from=");
        assertThat(sheet().usage()).isEmpty();
        assertThat(sheet().engineTemperature()).isEmpty();
        assertThat(sheet().machine()).isEmpty();
        assertThat(sheet().engine()
                        .findClearance(ValveRole.INTAKE)
                        .orElseThrow()
                        .check())
                .isEqualTo(ClearanceWindow.parse("0.08..0.12 mm"));
    }

    @Test
    void guardedRuleAsksForItsFigures() {
        WalkRun run = walk(
                "guarded\n0.2\n0.003\n0.005\n",
                "--template=screw-single",
                "--leaves=0.05 mm 0.10 mm",
                "--stack=1",
                "--intake=",
                "--exhaust=",
                "--confirmed-from=",
                "--machine=",
                "--date=",
                "--usage=",
                "--temperature=");
        assertThat(run.code()).isZero();
        assertThat(run.out()).contains("Not usable: leaf tolerance \"0.20 mm\": is out of range");
        assertThat(sheet().rule()).isEqualTo(ReadingRule.guarded(Length.parse("0.003 mm"), Length.parse("0.005 mm")));
        assertThat(sheet().gauges().tolerance()).isEqualTo(Length.parse("0.003 mm"));
    }

    @Test
    void guardedRuleFromTheCommandLine() {
        walkGiven("", "--rule=guarded", "--tolerance=0.003", "--drag-allowance=0.2 thou");
        assertThat(sheet().rule()).isEqualTo(ReadingRule.guarded(Length.parse("0.003 mm"), Length.parse("0.2 thou")));
    }

    @Test
    void inchLeavesByUnitOrByTheirMarks() {
        walkGiven("", "--leaves=0.003 0.004 0.006", "--unit=in");
        assertThat(sheet().gauges()).isEqualTo(GaugeSet.of(LengthUnit.INCH, "0.003", "0.004", "0.006"));
        file = folder.resolve("other.json");
        walk(
                "q",
                "--template=screw-single",
                "--leaves=3 thou 4 thou",
                "--stack=",
                "--rule=",
                "--intake=",
                "--exhaust=",
                "--confirmed-from=",
                "--machine=",
                "--date=2031-04-02",
                "--usage=",
                "--temperature=");
        assertThat(sheet().gauges()).isEqualTo(GaugeSet.of(LengthUnit.INCH, "0.003", "0.004"));
    }

    @ParameterizedTest
    @CsvSource({
        "--template=no-such, is not in the pack",
        "--leaves=0.05 ten, does not begin with a number",
        "--unit=cm, is not a unit of leaves",
        "--stack=4, is out of range",
        "--rule=strict, is not a rule",
        "--tolerance=0.2, is out of range",
        "--intake=0.13..0.08 mm, is reversed",
        "--date=2031-02-30, is not a date",
        "--usage=18450, has no unit",
        "--temperature=19, has no scale",
    })
    void whatTheCommandLineGetsWrongEndsTheProgram(String option, String problem) {
        WalkRun run = walkGiven("", option);
        assertThat(run.code()).isEqualTo(Main.UNUSABLE);
        assertThat(run.err()).startsWith("lash: ").contains(problem).doesNotContain("Exception");
        assertThat(file).doesNotExist();
    }

    @Test
    void fromAnotherSheetTakesEngineLeavesRuleBoxAndHistory() {
        Path other = folder.resolve("last-year.json");
        GaugeSet guarded = WalkRun.LEAVES.withStacksOf(2).withTolerance(Length.parse("0.003 mm"), Length.ZERO);
        CheckSheet last = CheckSheet.builder(WalkRun.four(guarded).engine(), guarded)
                .rule(guarded.guardedRule())
                .machine("Hill riding school, instructor's bike")
                .date(LocalDate.of(2030, 4, 2))
                .usage(Usage.parse("12010 km"))
                .shimBox(new ShimBox(List.of(new ShimBox.Lot(Length.parse("2.40 mm"), 2, ""))))
                .valve(ValveReading.of("1-in-1", "0.10 mm goes"))
                .build();
        WalkRun.write(other, last);
        WalkRun run = walk("\n\n18450 km\n\n q", "--from=" + other);
        assertThat(run.out())
                .contains("Which machine (Enter: Hill riding school, instructor's bike)?")
                .doesNotContain("window in the manual")
                .doesNotContain("Your leaves");
        CheckSheet begun = sheet();
        assertThat(begun.engine()).isEqualTo(last.engine());
        assertThat(begun.gauges()).isEqualTo(guarded);
        assertThat(begun.rule()).isEqualTo(last.rule());
        assertThat(begun.shimBox()).isEqualTo(last.shimBox());
        assertThat(begun.machine()).isEqualTo(last.machine());
        assertThat(begun.usage()).contains(Usage.parse("18450 km"));
        assertThat(begun.valves()).isEmpty();
        assertThat(begun.date()).isNotEqualTo(last.date());
    }

    @Test
    void fromAnotherSheetWithOtherLeavesAndWindow() {
        Path other = folder.resolve("last-year.json");
        WalkRun.write(other, WalkRun.quad(WalkRun.LEAVES));
        walk(
                "q",
                "--from=" + other,
                "--leaves=0.05 mm 0.10 mm",
                "--intake=0.09..0.12",
                "--confirmed-from=page 9",
                "--machine=quad 2",
                "--date=2031-04-02",
                "--usage=",
                "--temperature=");
        assertThat(sheet().gauges().leaves()).hasSize(2);
        ClearanceSpec intake = sheet().engine().findClearance(ValveRole.INTAKE).orElseThrow();
        assertThat(intake.check()).isEqualTo(ClearanceWindow.parse("0.09..0.12 mm"));
        assertThat(intake.confirmedFrom()).isEqualTo("page 9");
        assertThat(sheet().engine()
                        .findClearance(ValveRole.EXHAUST)
                        .orElseThrow()
                        .confirmedFrom())
                .isEqualTo("the school's workshop manual, page 3-8");
        assertThat(sheet().machine()).isEqualTo("quad 2");
    }

    @Test
    void windowsOfAnotherSheetThatNobodyConfirmedAreAsked() {
        Path other = folder.resolve("last-year.json");
        WalkRun.write(
                other,
                CheckSheet.builder(SpecPack.bundled().get("screw-single").spec(), WalkRun.LEAVES)
                        .build());
        WalkRun run = walk("\n0.17..0.22\npage 3\n\n\n\n\n q", "--from=" + other);
        assertThat(run.out()).contains("Intake window in the manual (Enter keeps the typical 0.08..0.13 mm)?");
        assertThat(sheet().engine()
                        .findClearance(ValveRole.INTAKE)
                        .orElseThrow()
                        .confirmedFrom())
                .isEqualTo("page 3");
    }

    @Test
    void aWindowFarFromTheTypicalOneIsTakenWhenEnteredTwice() throws IOException {
        WalkRun run = WalkRun.of("screw-twin\nmm\nmetric-20\n\n\n0.8..1.3\n0.8..1.3\n\n\n\n\n\n\n q", file.toString());
        assertThat(run.out()).contains("enter it once more");
        assertThat(sheet().engine()
                        .findClearance(ValveRole.INTAKE)
                        .orElseThrow()
                        .check())
                .isEqualTo(ClearanceWindow.parse("0.8..1.3 mm"));
    }

    @Test
    void fileThatIsThereIsNotOverwritten() throws IOException {
        Files.writeString(file, "my notes");
        WalkRun run = walkGiven("f g q");
        assertThat(run.code()).isEqualTo(Main.UNUSABLE);
        assertThat(run.err())
                .isEqualTo("lash: " + file + " is there already and is not overwritten: go on with it (lash walk "
                        + file + " --resume), or name another file\n");
        assertThat(run.out()).isEmpty();
        assertThat(file).hasContent("my notes");
    }

    @Test
    void fileThatComesUpDuringTheQuestionsIsNotOverwrittenEither() {
        WalkRun run = WalkRun.of(
                WalkRun.oneByOne("screw-twin\n", i -> {
                    try {
                        Files.writeString(file, "my notes");
                    } catch (IOException unwritable) {
                        throw new AssertionError(unwritable);
                    }
                }),
                file.toString(),
                "--leaves=0.05 mm",
                "--stack=1",
                "--rule=simple",
                "--intake=",
                "--exhaust=",
                "--confirmed-from=",
                "--machine=",
                "--date=2031-04-02",
                "--usage=",
                "--temperature=");
        assertThat(run.code()).isEqualTo(Main.UNUSABLE);
        assertThat(run.err()).contains("is there already");
        assertThat(file).hasContent("my notes");
    }

    @Test
    void endOfInputInTheQuestionsWritesNothing() {
        WalkRun run = walk("screw-twin\nmm\n0.05 0.10");
        assertThat(run.code()).isEqualTo(Main.UNUSABLE);
        assertThat(run.err())
                .isEqualTo("lash: the input ended before all questions were answered: nothing was written\n");
        assertThat(folder).isEmptyDirectory();
    }

    @Test
    void placesThatCannotBeWrittenAreNamedBeforeAnyQuestion() throws IOException {
        Path notes = Files.writeString(folder.resolve("notes"), "x");
        for (String place : List.of(
                folder.resolve("no-such/bike.json").toString(),
                notes.resolve("bike.json").toString(),
                folder.toString(),
                "-",
                "/",
                "",
                "a\0b")) {
            WalkRun run = WalkRun.of("", place);
            assertThat(run.code()).as(place).isEqualTo(Main.UNUSABLE);
            assertThat(run.err()).as(place).startsWith("lash: cannot write ").doesNotContain("Exception");
            assertThat(run.out()).as(place).isEmpty();
        }
    }

    @Test
    void resumeNeedsASheetAndNothingElse() throws IOException {
        assertThat(walk("", "--resume").err()).contains("there is no sheet").contains("leave --resume out");
        WalkRun.write(file, WalkRun.quad(WalkRun.LEAVES));
        assertThat(walk("", "--resume", "--machine=other").code()).isEqualTo(Main.UNUSABLE);
        assertThat(walk("", "--resume", "--machine=other").err()).contains("leave the other options out");
        Files.writeString(file, "{");
        WalkRun broken = walk("", "--resume");
        assertThat(broken.code()).isEqualTo(Main.UNUSABLE);
        assertThat(broken.err()).contains("cannot read").contains("line 1");
        assertThat(file).hasContent("{");
    }

    @Test
    void bothSourcesOfAnEngineAreOneTooMany() {
        assertThat(walk("", "--from=x.json", "--template=screw-twin").err()).contains("leave one out");
        assertThat(walk("", "--from=" + folder.resolve("none.json")).err()).contains("no such file");
        assertThat(file).doesNotExist();
    }

    /** What cannot be walked is not offered, and said; named all the same it is explained and asked again. */
    @Test
    void enginesWithoutClearanceAreNotOffered() {
        String out = walk("vtwin-45-hydraulic\nscrew-single\n").out();

        assertThat(out).doesNotContain("  vtwin-45-hydraulic: ", "  industrial-vtwin-hydraulic: ");
        assertThat(out.replaceAll("\\s+", " "))
                .contains("Hydraulic lifters have no clearance to measure, so these cannot be walked: "
                        + "industrial-vtwin-hydraulic, vtwin-45-hydraulic.")
                .contains(
                        "side-valve-fixed-single: Side-valve single, not adjustable (to be measured only: what is out of its "
                                + "window is machine work)")
                .contains("has hydraulic lifters and no clearance to measure");
    }

    @Test
    void hydraulicLiftersHaveNothingToWalk() {
        EngineSpec hydraulic = EngineSpec.builder("hydraulic-single", "Single with hydraulic lifters")
                .valves(List.of(ValveId.parse("1-in-1"), ValveId.parse("1-ex-1")))
                .train(new ValveTrain.Hydraulic())
                .build();
        Path other = folder.resolve("other.json");
        WalkRun.write(other, CheckSheet.builder(hydraulic, WalkRun.LEAVES).build());
        WalkRun begun = walk("", "--from=" + other);
        assertThat(begun.code()).isEqualTo(Main.UNUSABLE);
        assertThat(begun.err()).contains("has hydraulic lifters and no clearance to measure");
        WalkRun resumed = WalkRun.resume(other, "g");
        assertThat(resumed.code()).isEqualTo(Main.UNUSABLE);
        assertThat(resumed.err()).contains("hydraulic lifters");
    }

    @Test
    void helpSaysWhatTheOptionsAre() {
        WalkRun run = WalkRun.of("", "--help");
        assertThat(run.code()).isZero();
        assertThat(run.out())
                .contains("--resume")
                .contains("--from")
                .contains("Exit code")
                .contains("--drag-allowance");
        assertThat(WalkRun.of("").code()).isEqualTo(Main.UNUSABLE);
    }

    @Test
    void sheetOfAWalkIsReadByCheck() {
        walkGiven("r g q");
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        PrintStream print = new PrintStream(out, true, StandardCharsets.UTF_8);
        int code = Main.run(
                new String[] {"check", file.toString()},
                new Main.Bench(new ByteArrayInputStream(new byte[0]), print, print, false));
        assertThat(code).isZero();
        assertThat(out.toString(StandardCharsets.UTF_8))
                .contains("1 within (1-in-1)")
                .contains("not on the sheet: 1-ex-1, 2-in-1, 2-ex-1");
        assertThat(dev.lash.check.CheckReport.of(sheet()).findings())
                .noneMatch(f -> f.code() == FindingCode.WINDOW_NOT_CONFIRMED);
    }
}
