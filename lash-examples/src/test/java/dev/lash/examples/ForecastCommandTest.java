package dev.lash.examples;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.offset;

import dev.lash.adjust.InstalledShim;
import dev.lash.check.CheckSheet;
import dev.lash.check.Done;
import dev.lash.check.PastVisit;
import dev.lash.check.PastVisit.PastReading;
import dev.lash.check.ValveReading;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Pitch;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.WearPrior;
import dev.lash.gauge.LeafStack;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import dev.lash.measure.Usage;
import dev.lash.specs.SpecPack;
import dev.lash.specs.TemplateOverrides;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Runs {@code lash forecast} as the shell would. */
class ForecastCommandTest {
    private static final EngineSpec ENGINE = EngineSpec.builder("hill-mower", "Hill mower, single")
            .valves("1-in-1", "1-ex-1")
            .train(ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm")))
            .window(ValveRole.INTAKE, ClearanceWindow.parse("0.08..0.13 mm"))
            .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.17..0.22 mm"))
            .checkInterval(Usage.parse("100 h"))
            .build();

    private static PastVisit visit(String usage, String found) {
        return new PastVisit(
                LocalDate.of(2030, 5, 11),
                Usage.parse(usage),
                List.of(new PastReading(
                        ValveId.parse("1-in-1"), LengthInterval.parse(found), LengthInterval.parse(found), null)));
    }

    private static CheckSheet.Builder sheet() {
        return CheckSheet.builder(ENGINE, WalkRun.LEAVES)
                .machine("Paddock mower")
                .usage(Usage.parse("300 h"))
                .valve(ValveReading.of("1-in-1", "0.10 mm goes", "0.12 mm refuses"))
                .history(List.of(visit("100 h", "(0.11, 0.13) mm"), visit("200 h", "(0.10, 0.12) mm")));
    }

    private static ProgramRun forecast(CheckSheet sheet, String... options) {
        List<String> args = new ArrayList<>(List.of("forecast", "-"));
        args.addAll(List.of(options));
        return ProgramRun.of(sheet, args.toArray(String[]::new));
    }

    private static String flowing(ProgramRun run) {
        return run.out().replaceAll("\\s+", " ");
    }

    /** The crossings rest on the windows: what the sheet laid over the template is told as in the report. */
    @Test
    void tellsWhichFiguresTheSheetReplaced() {
        EngineSpec engine = SpecPack.bundled()
                .resolve(
                        "screw-single",
                        TemplateOverrides.parse("manual", "{ \"clearances\": { \"in\": \"0.09..0.13 mm\" } }"));
        CheckSheet sheet = CheckSheet.builder(engine, WalkRun.LEAVES)
                .usage(Usage.parse("9000 km"))
                .valve(ValveReading.of("1-in-1", "0.10 mm goes", "0.12 mm refuses"))
                .build();

        assertThat(forecast(sheet).out())
                .contains(
                        "\nFigures of the shop in place of the template's\n- intake window 0.09..0.13 mm in place of");
        assertThat(forecast(sheet, "--format=json").out()).contains("\"overridden\"", "\"/clearances/in\"");
    }

    @Test
    void saysWhenToComeBackAndWhatThatAssumes() {
        ProgramRun run = forecast(sheet().build());

        assertThat(run.code()).isZero();
        assertThat(run.err()).isEmpty();
        assertThat(run.out()).startsWith("Forecast: Paddock mower\nat 300 h, method with-priors\n");
        assertThat(flowing(run))
                .containsPattern("Check (by [0-9.]+ h|now)")
                .contains("Drift in mm per 250 h, negative as the clearance closes up.")
                .contains("no wear rate of valve clearances is published")
                .contains("No check of 1-ex-1 yet: with fewer than 5 much rests on what is assumed")
                .contains("Cautions");
    }

    @ParameterizedTest
    @ValueSource(strings = {"with-priors", "maximum-likelihood", "feasible-lines"})
    void fitsTheScreenWithEachMethodAndDrawsEachValveThatWasRead(String method) {
        ProgramRun run = forecast(sheet().build(), "--method", method);

        assertThat(run.code()).isZero();
        assertThat(run.out().lines()).allMatch(line -> line.length() <= TextReport.WIDTH);
        assertThat(run.out().lines().filter(line -> line.equals("1-in-1"))).hasSize(1);
        assertThat(run.out().lines().filter(line -> line.equals("1-ex-1"))).isEmpty();
        assertThat(run.out()).contains("    0.13 ", "    0.08 ", TrendPlot.LEGEND.substring(0, 40));
    }

    @Test
    void aRiskOfItsOwnIsStated() {
        assertThat(flowing(forecast(sheet().build(), "--risk", "0.2"))).contains("20 %, 50 %, 80 %:");
    }

    @Test
    void aRiskMayBeAPercentage() {
        assertThat(forecast(sheet().build(), "--risk", "2%").out())
                .isEqualTo(forecast(sheet().build(), "--risk", "0.02").out());
        assertThat(forecast(sheet().build(), "--risk", "5 %").out())
                .isEqualTo(forecast(sheet().build()).out());
    }

    @Test
    void writesJson() {
        ProgramRun run = forecast(sheet().build(), "--format", "json");

        assertThat(run.code()).isZero();
        assertThat(run.out())
                .startsWith("{")
                .contains(
                        "\"valve\" : \"1-in-1\"", "\"method\" : \"with-priors\"", "\"checks\" : 3", "\"checkBy\" : {");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "--risk; 2; 0.0001 to 0.5",
                "--risk; NaN; 0.0001 to 0.5",
                "--risk; much; give a share, such as 0.05, or 5%",
                "--risk; %; give a share, such as 0.05, or 5%",
                "--risk; 60%; 0.0001 to 0.5",
                "--method; guess; with-priors, maximum-likelihood, feasible-lines",
                "--format; xml; xml"
            })
    void refusesABadValue(String option, String value, String says) {
        ProgramRun run = forecast(sheet().build(), option, value);

        assertThat(run.code()).isEqualTo(2);
        assertThat(run.out()).isEmpty();
        assertThat(run.err()).contains(says).doesNotContain("Exception", "\tat ");
    }

    @Test
    void saysWhatIsMissing() {
        ProgramRun run = forecast(CheckSheet.builder(ENGINE, WalkRun.LEAVES).build());

        assertThat(run.code()).isEqualTo(2);
        assertThat(run.err()).contains("nothing to forecast", "\"usage\"");
    }

    @Test
    void worksWithoutAnyEarlierCheck() {
        ProgramRun run = forecast(sheet().history(List.of()).build());

        assertThat(run.code()).isZero();
        assertThat(flowing(run)).contains("1-in-1 1 ", "1-ex-1 0 ");
    }

    private static final EngineSpec BIKE = EngineSpec.builder("hill-bike", "Hill bike, single")
            .valves("1-in-1", "1-ex-1")
            .train(ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm")))
            .window(ValveRole.INTAKE, ClearanceWindow.parse("0.10..0.20 mm"))
            .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.10..0.20 mm"))
            .build();

    private static final EngineSpec SHIMS = EngineSpec.builder("road-trainer", "Road trainer, single")
            .valves("1-in-1", "1-ex-1")
            .train(ValveTrain.Shim.bucket(
                    ValveTrain.ShimPlace.UNDER_BUCKET, ShimRange.parse("1.20..3.00 mm step 0.01 mm")))
            .window(ValveRole.INTAKE, ClearanceWindow.parse("0.10..0.20 mm"))
            .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.10..0.20 mm"))
            .build();

    private static CheckSheet.Builder bike(EngineSpec engine, String now, PastVisit... before) {
        return CheckSheet.builder(engine, WalkRun.LEAVES)
                .machine("Hill bike")
                .usage(Usage.parse(now))
                .history(List.of(before));
    }

    @Test
    void theReportOfACheckSaysWhatItsTimeRestsOn() {
        CheckSheet sheet = bike(BIKE, "3000 mi", visit("0 mi", "(0.19, 0.20) mm"), visit("1000 mi", "(0.17, 0.18) mm"))
                .valve(ValveReading.of("1-in-1", "0.13 mm goes", "0.15 mm refuses"))
                .valve(ValveReading.of("1-ex-1", "0.13 mm goes", "0.15 mm refuses"))
                .build();

        assertThat(flowing(ProgramRun.of(sheet, "check", "-")))
                .containsPattern(
                        "Check by [0-9.]+ mi \\(risk 5 %\\): 1-in-1 may leave its window first, from 3 checks of it\\.")
                .contains("Only 3 checks of 1-in-1: with fewer than 5 much rests on what is assumed");
        assertThat(ProgramRun.of(sheet, "check", "--format", "json", "-").out())
                .contains("\"checks\" : 3,", "\"caveat\" : \"only 3 checks of 1-in-1");
    }

    @Test
    void nowSaysOfEachValveWhatItCallsFor() {
        CheckSheet set = bike(BIKE, "12000 km", visit("0 km", "(0.14, 0.16) mm"), visit("6000 km", "(0.12, 0.14) mm"))
                .valve(ValveReading.of("1-in-1", "0.08 mm goes", "0.10 mm refuses")
                        .withDone(new Done.SetWith(LeafStack.parse("0.15 mm")), List.of()))
                .build();
        CheckSheet tight = bike(BIKE, "12000 km", visit("0 km", "(0.14, 0.16) mm"), visit("6000 km", "(0.12, 0.14) mm"))
                .valve(ValveReading.of("1-in-1", "0.08 mm goes", "0.10 mm refuses"))
                .build();

        assertThat(flowing(forecast(set)))
                .contains("may be outside the window already: 1-in-1 (set and not read since: recheck), "
                        + "1-ex-1 (not read at this check: read).")
                .doesNotContain("narrow");
        assertThat(flowing(forecast(tight)))
                .contains(
                        "outside the window, must be set: 1-in-1; may be outside the window already: 1-ex-1 (not read")
                .doesNotContain("narrow");
        assertThat(forecast(set, "--format", "json").out()).contains("\"do\" : \"recheck\"", "\"do\" : \"read\"");
    }

    /** The first column of the line and of the marks of a plot, from its rows without the labels. */
    private static List<String> plot(ProgramRun run) {
        List<String> lines = run.out().lines().toList();
        int start = lines.indexOf("1-in-1") + 1;
        return lines.subList(start, start + 13).stream()
                .map(line -> line.length() > 9 ? line.substring(9) : "")
                .toList();
    }

    private static CheckSheet.Builder counted(String now, String... visits) {
        return bike(
                        BIKE,
                        now,
                        visit(visits[0], "(0.19, 0.20) mm"),
                        visit(visits[1], "(0.17, 0.18) mm"),
                        visit(visits[2], "(0.15, 0.16) mm"))
                .valve(ValveReading.of("1-in-1", "0.13 mm goes", "0.15 mm refuses"));
    }

    /** The prior counts kilometres, the counter miles: where the line leaves the window is where the X stands. */
    @Test
    void aPlotInMilesCrossesTheLimitWhereItSays() {
        ProgramRun run =
                forecast(counted("3000 mi", "0 mi", "1000 mi", "2000 mi").build());
        List<String> rows = plot(run);
        String limit = rows.stream()
                .filter(row -> row.contains("---"))
                .reduce((a, b) -> b)
                .orElseThrow();

        assertThat(limit).contains("X");
    }

    @Test
    void earlierChecksInKilometresStandLeftOfNowInMiles() {
        List<String> rows =
                plot(forecast(counted("3000 mi", "0 km", "1609 km", "3218 km").build()));
        int now = rows.get(0).indexOf(':');

        assertThat(rows).allSatisfy(row -> assertThat(row.lastIndexOf('|')).isLessThanOrEqualTo(now));
        assertThat(rows)
                .isEqualTo(plot(forecast(
                        counted("3000 mi", "0 mi", "1000 mi", "2000 mi").build())));
    }

    @Test
    void aShimThatWasSwappedMovesTheLine() {
        CheckSheet sheet = bike(
                        SHIMS,
                        "16000 km",
                        shim("0 km", "(0.14, 0.16) mm", "(0.14, 0.16) mm", "2.50 mm"),
                        shim("6000 km", "(0.09, 0.11) mm", "(0.18, 0.20) mm", "2.41 mm"),
                        shim("12000 km", "(0.14, 0.16) mm", "(0.14, 0.16) mm", "2.41 mm"))
                .valve(ValveReading.of("1-in-1", "0.11 mm goes", "0.13 mm refuses")
                        .withShim(InstalledShim.measured(Length.ofMillimetres("2.41"))))
                .build();

        List<String> rows = plot(forecast(sheet));
        int first = rows.stream()
                .mapToInt(row -> row.indexOf('|'))
                .filter(i -> i >= 0)
                .min()
                .orElseThrow();
        String before = rows.stream()
                .filter(row -> row.startsWith("|.") || row.startsWith("."))
                .findFirst()
                .orElseThrow();

        assertThat(first).isZero();
        // the line begins at the first reading, not at what it would have been with the shim of today
        assertThat(before).startsWith("|");
    }

    private static PastVisit shim(String usage, String found, String left, String shim) {
        return new PastVisit(
                LocalDate.of(2030, 5, 11),
                Usage.parse(usage),
                List.of(new PastReading(
                        ValveId.parse("1-in-1"),
                        LengthInterval.parse(found),
                        LengthInterval.parse(left),
                        Length.parse(shim))));
    }

    @Test
    void aPriorForFewKilometresHasDigitsThatSaySomething() {
        EngineSpec fine = EngineSpec.builder("hill-bike", "Hill bike, single")
                .valves("1-in-1", "1-ex-1")
                .train(ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm")))
                .window(ValveRole.INTAKE, ClearanceWindow.parse("0.10..0.20 mm"))
                .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.10..0.20 mm"))
                .wearPrior(new WearPrior(
                        Usage.parse("100 km"),
                        Length.ofMillimetres("-0.0001"),
                        Length.ofMillimetres("0.0002"),
                        Length.ofMillimetres("0.0001"),
                        Length.ofMillimetres("0.006"),
                        Ratio.parse("1.5"),
                        "school fleet"))
                .build();
        ProgramRun run =
                forecast(bike(fine, "3000 km", visit("1000 km", "(0.15, 0.17) mm"), visit("2000 km", "(0.13, 0.15) mm"))
                        .valve(ValveReading.of("1-in-1", "0.11 mm goes", "0.13 mm refuses"))
                        .build());

        assertThat(run.out()).containsPattern("1-in-1 +3 +[0-9.]+ -0\\.000[0-9]*[1-9][0-9]* \\+- 0\\.000[1-9][0-9]");
        assertThat(run.out()).doesNotContain("-0.000 ");
    }

    @Test
    void allStraightLinesHaveARangeAndNoClearanceThatNothingBounds() {
        CheckSheet set = bike(BIKE, "12000 km", visit("0 km", "(0.14, 0.16) mm"), visit("6000 km", "(0.12, 0.14) mm"))
                .valve(ValveReading.of("1-in-1", "0.08 mm goes", "0.11 mm refuses")
                        .withDone(new Done.SetWith(LeafStack.parse("0.15 mm")), List.of()))
                .build();
        ProgramRun run = forecast(set, "--method", "feasible-lines");

        assertThat(run.out()).containsPattern("1-in-1 3 +- +from -0\\.[0-9]+ to -0\\.[0-9]+ ");
        assertThat(forecast(set, "--method", "feasible-lines", "--format", "json")
                        .out())
                .containsPattern(
                        "\"slopeRange\" : \\[ \"-0\\.[0-9]+ mm / 10000 km\", \"-0\\.[0-9]+ mm / 10000 km\" \\]");
    }

    /** Columns of straight lines and of probabilities do not say the same, so they do not stand in one table. */
    @Test
    void valvesThatAnotherMethodAnswersForHaveATableOfTheirOwn() {
        ProgramRun run =
                forecast(counted("3000 mi", "0 mi", "1000 mi", "2000 mi").build(), "--method", "feasible-lines");
        List<String> rows = run.out().lines().map(String::strip).toList();
        int lines = rows.indexOf("Valve  Checks Now   Drift                 Earliest Latest Side");
        int priors = rows.indexOf("By the method with-priors, as feasible-lines has no answer there:");

        assertThat(lines).isPositive();
        assertThat(rows.get(lines + 1)).startsWith("1-in-1 4 ").doesNotContain(" - ");
        assertThat(priors).isGreaterThan(lines);
        assertThat(rows.get(priors + 1)).contains("5 %", "50 %", "95 %");
        assertThat(rows.get(priors + 2)).startsWith("1-ex-1 0 ").contains(" +- ");
        assertThat(flowing(run))
                .contains("Earliest, Latest: when the first and the last of all straight lines")
                .contains("Note: 1-in-1: assumes straight wear.")
                .contains("Note: 1-ex-1: no lines without a reading, so the prior.");
    }

    @Test
    void maximumLikelihoodHeadsNoFiguresOfThePrior() {
        ProgramRun run =
                forecast(counted("3000 mi", "0 mi", "1000 mi", "2000 mi").build(), "--method", "maximum-likelihood");

        assertThat(run.out())
                .contains("By the method with-priors, as maximum-likelihood has no answer there:\n" + "Valve  Checks");
        // of both valves, each for its own reason
        assertThat(flowing(run))
                .contains("Note: 1-in-1: no maximum of the likelihood (a straight line goes through every reading), "
                        + "so with priors.")
                .contains("Note: 1-ex-1: no maximum of the likelihood (the readings do not span a line), "
                        + "so with priors.")
                .containsPattern("Note: prior: a broad assumption[^.]*\\. Note: 1-in-1");
    }

    /** A prior counts kilometres, the counter miles: the drift is told as the counter counts. */
    @Test
    void driftIsToldInTheUnitOfTheCounter() {
        double mile =
                drift(forecast(counted("3000 mi", "0 mi", "1000 mi", "2000 mi").build()));
        double kilometre = drift(forecast(
                counted("4828.032 km", "0 km", "1609.344 km", "3218.688 km").build()));

        assertThat(mile).isCloseTo(1.609344 * kilometre, offset(0.0014));
    }

    private static double drift(ProgramRun run) {
        Matcher row = Pattern.compile("1-in-1 +4 +[0-9.]+ +(-0\\.[0-9]+) \\+-").matcher(run.out());
        assertThat(row.find()).isTrue();
        assertThat(flowing(run)).containsPattern("Drift in mm per 10000 (mi|km), negative as the clearance closes up");
        return Double.parseDouble(row.group(1));
    }

    /** "Leave" in the table of a check and what its head line says must not contradict each other. */
    @Test
    void aValveReadWithinMayStayThoughNoTimeIsLeft() {
        CheckSheet sheet = bike(BIKE, "12000 km", visit("0 km", "(0.14, 0.16) mm"), visit("6000 km", "(0.12, 0.13) mm"))
                .valve(ValveReading.of("1-in-1", "0.10 mm goes", "0.11 mm refuses"))
                .valve(ValveReading.of("1-ex-1", "0.13 mm goes", "0.15 mm refuses"))
                .build();

        assertThat(flowing(ProgramRun.of(sheet, "check", "-")))
                .contains("Check now (risk 5 %): read within, but no time is left by the forecast: 1-in-1; a reading "
                        + "scatters about the trend, and this one lies near a limit: set now, or leave and check again well "
                        + "before the maker's interval.")
                .containsPattern("1-in-1 0.10 goes \\(0.10, 0.11\\) 0.10..0.20 within leave");
        assertThat(forecast(sheet).out()).containsPattern("1-in-1 3 .* now +[0-9]+ +[0-9]+ +tight");
        assertThat(flowing(forecast(sheet, "--method", "feasible-lines")))
                .contains("Check now: read within, but no time is left by the forecast: 1-in-1")
                .doesNotContain("may be outside");
    }

    /** A shim whose size is known lets the trend go on, so nothing but this says that the valve was not read again. */
    @Test
    void aShimThatWasFittedAndNotReadSinceIsToldWhateverTheTimeIs() {
        String unread = "Not read since it was adjusted, so not certain: recheck 1-in-1 first.";
        PastVisit before = shim("12000 km", "(0.14, 0.16) mm", "(0.14, 0.16) mm", "2.50 mm");
        ValveReading fitted = ValveReading.of("1-in-1", "0.08 mm goes", "0.10 mm refuses")
                .withShim(InstalledShim.measured(Length.ofMillimetres("2.50")))
                .withDone(new Done.Fitted(Length.ofMillimetres("2.44")), List.of());
        CheckSheet later = bike(SHIMS, "13000 km", before)
                .valve(fitted)
                .valve(ValveReading.of("1-ex-1", "0.13 mm goes", "0.15 mm refuses"))
                .build();
        CheckSheet now = bike(SHIMS, "13000 km", before)
                .valve(fitted)
                .valve(ValveReading.of("1-ex-1", "0.05 mm goes", "0.08 mm refuses"))
                .build();

        assertThat(flowing(forecast(later))).contains("Check by ", unread);
        assertThat(flowing(forecast(now)))
                .contains("Check now (risk 5 %): outside the window, must be set: 1-ex-1", unread);
    }

    @Test
    void saysWhyTheEngineComesBackBeforeAnyOfItsValves() {
        String shared = "before any of its valves alone reaches 5 %";
        CheckSheet both = bike(BIKE, "12000 km")
                .valve(ValveReading.of("1-in-1", "0.13 mm goes", "0.15 mm refuses"))
                .valve(ValveReading.of("1-ex-1", "0.13 mm goes", "0.15 mm refuses"))
                .build();

        assertThat(flowing(forecast(both))).contains(shared);
        // a single valve explains the time by itself, and the maker's interval explains it otherwise
        assertThat(flowing(forecast(sheet().build()))).doesNotContain(shared);
        assertThat(flowing(forecast(both, "--method", "feasible-lines"))).doesNotContain(shared);
    }

    /** Another shim is found than was left: when it was changed nobody knows, so no line is drawn there. */
    @Test
    void noLineIsDrawnWhereAShimChangedBetweenChecks() {
        List<String> same = plot(forecast(readTwiceWith250("2.50")));
        List<String> swapped = plot(forecast(readTwiceWith250("2.54")));

        assertThat(dotsBetweenTheLastReadings(same)).isPositive();
        assertThat(dotsBetweenTheLastReadings(swapped)).isZero();
        assertThat(swapped).anyMatch(row -> row.contains("."));
    }

    /** Read twice with a shim of 2.50 mm, and now with one that is measured. */
    private static CheckSheet readTwiceWith250(String now) {
        return bike(
                        SHIMS,
                        "16000 km",
                        shim("0 km", "(0.14, 0.16) mm", "(0.14, 0.16) mm", "2.50 mm"),
                        shim("8000 km", "(0.14, 0.16) mm", "(0.14, 0.16) mm", "2.50 mm"))
                .valve(ValveReading.of("1-in-1", "0.11 mm goes", "0.13 mm refuses")
                        .withShim(InstalledShim.measured(Length.ofMillimetres(now))))
                .build();
    }

    private static long dotsBetweenTheLastReadings(List<String> rows) {
        int now = rows.get(0).indexOf(':');
        int middle = rows.stream()
                .flatMapToInt(
                        row -> IntStream.range(1, Math.min(now, row.length())).filter(i -> row.charAt(i) == '|'))
                .max()
                .orElseThrow();
        return rows.stream()
                .filter(row -> row.length() > middle)
                .flatMapToInt(row ->
                        row.substring(middle + 1, Math.min(now, row.length())).chars())
                .filter(mark -> mark == '.')
                .count();
    }
}
