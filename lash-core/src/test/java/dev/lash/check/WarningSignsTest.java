package dev.lash.check;

import static dev.lash.testing.Readings.leaves;
import static dev.lash.testing.Readings.mm;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lash.adjust.Adjustment;
import dev.lash.adjust.InstalledShim;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.Pitch;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.ValveTrain.ShimPlace;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.Usage;
import dev.lash.trend.ClearanceHistory;
import dev.lash.trend.TrendMethod;
import dev.lash.trend.WearTrendFitter;
import java.time.LocalDate;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** What earlier checks and symptoms add to a report: histories, trends, warning signs. */
class WarningSignsTest {
    private static EngineSpec.Builder engine(ValveTrain train) {
        ClearanceSpec window = ClearanceSpec.typical(ClearanceWindow.parse("0.10..0.20 mm"));
        return EngineSpec.builder("hill-bike", "Hill bike, twin")
                .valves("1-in-1", "1-ex-1", "2-in-1", "2-ex-1")
                .train(train)
                .clearance(ValveRole.INTAKE, window)
                .clearance(ValveRole.EXHAUST, window);
    }

    private static final EngineSpec SCREWS =
            engine(ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm"))).build();
    private static final EngineSpec SHIMS = engine(
                    ValveTrain.Shim.bucket(ShimPlace.UNDER_BUCKET, ShimRange.parse("1.20..3.00 mm step 0.05 mm")))
            .build();

    private static CheckSheet.Builder sheet(EngineSpec engine) {
        return CheckSheet.builder(
                        engine,
                        leaves(
                                "0.05", "0.08", "0.10", "0.12", "0.14", "0.16", "0.17", "0.18", "0.20", "0.22", "0.23",
                                "0.25", "0.30"))
                .usage(Usage.parse("24000 km"));
    }

    private static PastVisit visit(String usage, PastVisit.PastReading... readings) {
        return new PastVisit(LocalDate.of(2030, 5, 11), Usage.parse(usage), List.of(readings));
    }

    private static PastVisit.PastReading found(String valve, String found) {
        return left(valve, found, found, null);
    }

    private static PastVisit.PastReading left(String valve, String found, String left, @Nullable String shim) {
        return new PastVisit.PastReading(
                ValveId.parse(valve),
                LengthInterval.parse(found),
                LengthInterval.parse(left),
                shim == null ? null : mm(shim));
    }

    private static List<FindingCode> codes(CheckSheet sheet) {
        return CheckReport.of(sheet).findings().stream().map(Finding::code).toList();
    }

    private static Finding only(CheckSheet sheet, FindingCode code) {
        List<Finding> found = CheckReport.of(sheet).findings().stream()
                .filter(f -> f.code() == code)
                .toList();
        assertThat(found).as("%s", CheckReport.of(sheet).findings()).hasSize(1);
        return found.get(0);
    }

    private static ClearanceHistory history(CheckSheet sheet, String valve) {
        return history(sheet, valve, Gap.ONLY);
    }

    private static ClearanceHistory history(CheckSheet sheet, String valve, Gap gap) {
        List<ValveCheck> checks = CheckReport.of(sheet).valves();
        return new Histories(sheet, checks)
                .tasks(true).stream()
                        .map(t -> t.history())
                        .filter(h -> h.valve().equals(ValveId.parse(valve)) && h.gap() == gap)
                        .findFirst()
                        .orElseThrow();
    }

    private static List<Integer> sizes(ClearanceHistory history) {
        return history.segments().stream().map(s -> s.readings().size()).toList();
    }

    private static final PastVisit STEADY = visit(
            "12000 km",
            found("1-in-1", "(0.14, 0.16) mm"),
            found("2-in-1", "(0.14, 0.16) mm"),
            found("1-ex-1", "(0.14, 0.16) mm"));

    // ---- histories

    @Test
    void anAdjustmentStartsASegment() {
        CheckSheet sheet = sheet(SCREWS)
                .history(List.of(
                        visit("6000 km", left("1-in-1", "(0.08, 0.10) mm", "(0.14, 0.16) mm", null)),
                        visit("12000 km", found("1-in-1", "(0.14, 0.16) mm"))))
                .valve(ValveReading.of("1-in-1", "0.12 mm goes", "0.14 mm refuses"))
                .build();

        assertThat(sizes(history(sheet, "1-in-1"))).containsExactly(1, 3);
    }

    @Test
    void visitsAreTakenInTheOrderOfUse() {
        CheckSheet sheet = sheet(SCREWS)
                .history(List.of(
                        visit("12000 km", found("1-in-1", "(0.14, 0.16) mm")),
                        visit("6000 km", found("1-in-1", "(0.16, 0.18) mm"))))
                .valve(ValveReading.of("1-in-1", "0.12 mm goes", "0.14 mm refuses"))
                .build();

        assertThat(history(sheet, "1-in-1").readings())
                .extracting(r -> r.usage().toString())
                .containsExactly("6000 km", "12000 km", "24000 km");
    }

    @Test
    void shimsOfKnownSizeMakeOneSegmentOverASwap() {
        CheckSheet sheet = sheet(SHIMS)
                .history(List.of(
                        visit("6000 km", left("1-in-1", "(0.14, 0.16) mm", "(0.14, 0.16) mm", "2.50")),
                        visit("12000 km", left("1-in-1", "(0.08, 0.10) mm", "(0.13, 0.15) mm", "2.45"))))
                .valve(ValveReading.of("1-in-1", "0.12 mm goes", "0.14 mm refuses")
                        .withShim(InstalledShim.measured(mm("2.45"))))
                .build();
        ClearanceHistory history = history(sheet, "1-in-1");

        assertThat(sizes(history)).containsExactly(4);
        assertThat(history.readings().get(1).level()).isEqualTo(LengthInterval.parse("(2.58, 2.60) mm"));
        assertThat(history.readings().get(2).level()).isEqualTo(LengthInterval.parse("(2.58, 2.60) mm"));
    }

    private static InstalledShim marked(String size, String tolerance) {
        return new InstalledShim(mm(size), null, mm(tolerance), "");
    }

    private static PastVisit.PastReading marked(String found, String left, InstalledShim shim) {
        return new PastVisit.PastReading(
                ValveId.parse("1-in-1"), Gap.ONLY, LengthInterval.parse(found), LengthInterval.parse(left), shim);
    }

    /** Both shims may be 0.02 mm off: the level before the swap is known no better than 0.04 mm, that since it as well as it was read. */
    @Test
    void aMarkedShimOfAnEarlierCheckIsAsUnsureAsItSays() {
        CheckSheet sheet = sheet(SHIMS)
                .history(List.of(
                        visit("6000 km", marked("(0.14, 0.16) mm", "(0.14, 0.16) mm", marked("2.50", "0.02"))),
                        visit("12000 km", marked("(0.08, 0.10) mm", "(0.13, 0.15) mm", marked("2.45", "0.02")))))
                .valve(ValveReading.of("1-in-1", "0.12 mm goes", "0.14 mm refuses")
                        .withShim(marked("2.45", "0.02")))
                .build();
        ClearanceHistory history = history(sheet, "1-in-1");

        assertThat(sizes(history)).containsExactly(4);
        assertThat(history.readings())
                .extracting(r -> r.level().toString())
                .containsExactly("(2.60, 2.70) mm", "(2.54, 2.64) mm", "(2.58, 2.60) mm", "(2.57, 2.59) mm");
        assertThat(history.wear().orElseThrow().fall()).isEqualTo(LengthInterval.parse("(0.01, 0.13) mm"));
    }

    @Test
    void theShimStaysKnownAfterABreakIn() {
        CheckSheet sheet = sheet(SHIMS)
                .history(List.of(
                        visit("0 km", marked("(0.14, 0.16) mm", "(0.14, 0.16) mm", marked("2.50", "0"))),
                        new PastVisit(
                                LocalDate.of(2030, 1, 1),
                                Usage.parse("1000 km"),
                                List.of(marked("(0.08, 0.10) mm", "(0.13, 0.15) mm", marked("2.45", "0"))),
                                true)))
                .valve(ValveReading.of("1-in-1", "0.12 mm goes", "0.14 mm refuses"))
                .build();

        assertThat(sizes(history(sheet, "1-in-1"))).containsExactly(1, 3);
    }

    @Test
    void theMoveOfABreakInIsNotInASegment() {
        CheckSheet sheet = sheet(SCREWS)
                .history(List.of(
                        visit("0 km", found("1-in-1", "(0.18, 0.20) mm")),
                        new PastVisit(
                                LocalDate.of(2030, 1, 1),
                                Usage.parse("1000 km"),
                                List.of(found("1-in-1", "(0.14, 0.16) mm")),
                                true)))
                .valve(ValveReading.of("1-in-1", "0.14 mm goes", "0.16 mm refuses"))
                .build();

        assertThat(sizes(history(sheet, "1-in-1"))).containsExactly(1, 2);
        assertThat(CheckReport.of(sheet)
                        .findTrend()
                        .orElseThrow()
                        .valves()
                        .get(0)
                        .trend()
                        .drift())
                .as("the fall of 0.04 mm in 1000 km is left out")
                .isGreaterThan(-0.015);
    }

    @Test
    void aRiseStartsASegmentAndIsReported() {
        CheckSheet sheet = sheet(SCREWS)
                .history(List.of(
                        visit("12000 km", found("1-in-1", "(0.08, 0.10) mm")),
                        visit("13000 km", found("1-in-1", "(0.18, 0.20) mm"))))
                .valve(ValveReading.of("1-in-1", "0.16 mm goes", "0.18 mm refuses"))
                .build();

        assertThat(sizes(history(sheet, "1-in-1"))).containsExactly(1, 2);
        Finding finding = only(sheet, FindingCode.RECORD_MISSING);
        assertThat(finding.place()).isEqualTo("1-in-1");
        assertThat(finding.problem()).contains("0.08 mm", "12000 km", "13000 km");
    }

    // ---- the report

    @Test
    void aReportWithEarlierChecksHasATrendAndOneWithoutHasNone() {
        CheckSheet.Builder sheet = sheet(SCREWS).valve(ValveReading.of("1-in-1", "0.12 mm goes", "0.14 mm refuses"));

        assertThat(CheckReport.of(sheet.build()).findTrend()).isEmpty();
        assertThat(CheckReport.of(sheet.build()).trend(WearTrendFitter.withDefaults()))
                .as("asked for")
                .isPresent();
        assertThat(CheckReport.of(sheet.history(List.of(STEADY)).build())
                        .findTrend()
                        .orElseThrow()
                        .valves())
                .hasSize(4)
                .extracting(v -> v.trend().method())
                .containsExactly(
                        TrendMethod.WITH_PRIORS,
                        TrendMethod.WITH_PRIORS,
                        TrendMethod.WITH_PRIORS,
                        TrendMethod.PRIOR_ONLY);
    }

    @Test
    void steadyWearGivesNoSign() {
        CheckSheet sheet = sheet(SCREWS)
                .history(List.of(STEADY))
                .valve(ValveReading.of("1-in-1", "0.12 mm goes", "0.14 mm refuses"))
                .valve(ValveReading.of("2-in-1", "0.14 mm goes", "0.16 mm refuses"))
                .build();

        assertThat(codes(sheet))
                .doesNotContain(
                        FindingCode.CLOSED_UP_FAST,
                        FindingCode.OPENED_UP,
                        FindingCode.RECORD_MISSING,
                        FindingCode.VISIT_NOT_USED,
                        FindingCode.SYMPTOM);
    }

    // ---- signs

    @Test
    void saysThatAValveClosedUpFast() {
        CheckSheet sheet = sheet(SCREWS)
                .history(List.of(visit("22000 km", STEADY.valves().toArray(PastVisit.PastReading[]::new))))
                .valve(ValveReading.of("1-in-1", "0.05 mm refuses"))
                .valve(ValveReading.of("2-in-1", "0.14 mm goes", "0.16 mm refuses"))
                .build();
        Finding finding = only(sheet, FindingCode.CLOSED_UP_FAST);

        assertThat(finding.place()).isEqualTo("1-in-1");
        assertThat(finding.problem()).contains("98 times in 100");
        assertThat(finding.mend()).contains("seat recession", "air filter");
    }

    /** Its own earlier checks let today's reading expect; it is the valve beside it that shows how fast it goes. */
    @Test
    void saysThatAValveClosesUpFasterThanItsNeighbours() {
        CheckSheet sheet = sheet(SCREWS)
                .history(List.of(
                        visit("6000 km", found("1-in-1", "(0.29, 0.30) mm"), found("2-in-1", "(0.15, 0.16) mm")),
                        visit("12000 km", found("1-in-1", "(0.23, 0.24) mm"), found("2-in-1", "(0.15, 0.16) mm")),
                        visit("18000 km", found("1-in-1", "(0.17, 0.18) mm"), found("2-in-1", "(0.15, 0.16) mm"))))
                .valve(ValveReading.of("1-in-1", "0.10 mm goes", "0.12 mm refuses"))
                .valve(ValveReading.of("2-in-1", "0.14 mm goes", "0.16 mm refuses"))
                .build();
        Finding finding = only(sheet, FindingCode.CLOSED_UP_FAST);

        assertThat(finding.place()).isEqualTo("1-in-1");
        assertThat(finding.problem()).contains("its neighbours by").contains("per 10000 km");
        assertThat(finding.mend()).contains("seat recession");
    }

    /** Four checks of 6000 km, the last today; a fall of 0.08 mm between the first two, and none before or after. */
    @Test
    void judgesAStepLongPast() {
        CheckSheet sheet =
                fourChecks("(0.20, 0.21)", "(0.12, 0.13)", "(0.12, 0.13)", "0.12 mm goes", "0.14 mm refuses");
        Finding finding = only(sheet, FindingCode.CLOSED_UP_FAST);

        assertThat(finding.place()).isEqualTo("1-in-1");
        assertThat(finding.problem()).contains("fell by more than 0.07 mm from 6000 km to 12000 km", "cannot tell");
        assertThat(finding.value()).isEqualTo("0.07 mm");
        assertThat(finding.mend()).contains("enter the adjustment", "seat recession");
        assertThat(codes(sheet))
                .doesNotContain(FindingCode.OPENED_UP, FindingCode.RECORD_MISSING, FindingCode.AGAINST_WEAR);
    }

    private static CheckSheet fourChecks(String first, String second, String third, String... trials) {
        return sheet(SCREWS)
                .history(List.of(
                        visit("6000 km", found("1-in-1", first + " mm")),
                        visit("12000 km", found("1-in-1", second + " mm")),
                        visit("18000 km", found("1-in-1", third + " mm"))))
                .valve(ValveReading.of("1-in-1", trials))
                .build();
    }

    /** Set anew each time, so that today's reading says nothing. */
    @Test
    void tellsOnceOfAValveThatClosedUpFastAgainAndAgain() {
        CheckSheet sheet = sheet(SCREWS)
                .history(List.of(
                        visit("22000 km", found("1-ex-1", "(0.16, 0.18) mm")),
                        visit("23000 km", left("1-ex-1", "(0.07, 0.09) mm", "(0.16, 0.18) mm", null)),
                        visit("24000 km", left("1-ex-1", "(0.07, 0.09) mm", "(0.16, 0.18) mm", null))))
                .valve(ValveReading.of("1-ex-1", "0.16 mm goes", "0.18 mm refuses"))
                .build();

        assertThat(only(sheet, FindingCode.CLOSED_UP_FAST).problem())
                .contains("from 22000 km to 23000 km", "from 23000 km to 24000 km");
    }

    @Test
    void aValveThatOpensSteadilyIsNoted() {
        CheckSheet sheet =
                fourChecks("(0.11, 0.12)", "(0.13, 0.14)", "(0.15, 0.16)", "0.17 mm goes", "0.18 mm refuses");
        Finding finding = only(sheet, FindingCode.AGAINST_WEAR);

        assertThat(finding.severity()).isEqualTo(Severity.NOTE);
        assertThat(finding.problem()).contains("opens up by more than 0.05 mm from 6000 km to 24000 km");
        assertThat(finding.mend()).contains("cam, rocker or adjuster");
        assertThat(codes(sheet)).doesNotContain(FindingCode.OPENED_UP);
    }

    @Test
    void aValveThatOpensFasterThanIsAssumedOfAnyIsADoubt() {
        CheckSheet sheet =
                fourChecks("(0.10, 0.11)", "(0.14, 0.15)", "(0.18, 0.19)", "0.22 mm goes", "0.23 mm refuses");

        assertThat(only(sheet, FindingCode.OPENED_UP).problem())
                .contains("opens up by more than 0.11 mm from 6000 km to 24000 km");
        assertThat(codes(sheet)).doesNotContain(FindingCode.AGAINST_WEAR);
    }

    /** Within five times the scatter of a reading, 0.03 mm, it may be chance. */
    @Test
    void aValveThatMayOnlySeemToOpenIsNotNoted() {
        assertThat(codes(fourChecks("(0.11, 0.12)", "(0.12, 0.13)", "(0.13, 0.14)", "0.14 mm goes", "0.16 mm refuses")))
                .doesNotContain(FindingCode.AGAINST_WEAR, FindingCode.OPENED_UP);
    }

    @Test
    void saysThatAValveOpensFasterThanItsNeighbours() {
        CheckSheet sheet = sheet(SCREWS)
                .history(List.of(
                        visit("6000 km", found("1-in-1", "(0.10, 0.11) mm"), found("2-in-1", "(0.15, 0.16) mm")),
                        visit("12000 km", found("1-in-1", "(0.14, 0.15) mm"), found("2-in-1", "(0.15, 0.16) mm")),
                        visit("18000 km", found("1-in-1", "(0.18, 0.19) mm"), found("2-in-1", "(0.15, 0.16) mm"))))
                .valve(ValveReading.of("1-in-1", "0.22 mm goes", "0.23 mm refuses"))
                .valve(ValveReading.of("2-in-1", "0.14 mm goes", "0.16 mm refuses"))
                .build();
        Finding finding = only(sheet, FindingCode.OPENED_UP);

        assertThat(finding.place()).isEqualTo("1-in-1");
        assertThat(finding.problem()).contains("its neighbours by");
        assertThat(finding.mend()).contains("cam, rocker or adjuster");
        assertThat(codes(sheet)).doesNotContain(FindingCode.CLOSED_UP_FAST);
    }

    // ---- closers, which open up as valve and seat wear

    private static CheckSheet closer(String then, String thenLater, String... trials) {
        ClearanceSpec window = ClearanceSpec.typical(ClearanceWindow.parse("0.00..0.10 mm"));
        ShimRange sizes = ShimRange.parse("2.00..5.00 mm step 0.05 mm");
        EngineSpec engine = EngineSpec.builder("ridge-twin", "Ridge bike, desmodromic")
                .valves("1-in-1")
                .train(new ValveTrain.Desmodromic(sizes, sizes))
                .clearance(ValveRole.INTAKE, window)
                .closerClearance(ValveRole.INTAKE, window)
                .build();
        return sheet(engine)
                .history(List.of(visit("22000 km", closed(then)), visit("23000 km", closed(thenLater))))
                .valve(ValveReading.of("1-in-1", trials).asOpener(List.of()))
                .build();
    }

    private static PastVisit.PastReading closed(String found) {
        LengthInterval read = LengthInterval.parse(found);
        return new PastVisit.PastReading(ValveId.parse("1-in-1"), Gap.CLOSER, read, read, null);
    }

    @Test
    void aCloserThatOpensFastPointsAtTheSeat() {
        CheckSheet sheet = closer("(0.00, 0.02) mm", "(0.10, 0.12) mm", "0.05 mm goes", "0.08 mm refuses");
        Finding finding = only(sheet, FindingCode.OPENED_UP);

        assertThat(finding.place()).isEqualTo("1-in-1 closer");
        assertThat(finding.problem()).contains("grew by more than 0.08 mm from 22000 km to 23000 km");
        assertThat(finding.mend()).contains("seat recession");
        assertThat(sizes(history(sheet, "1-in-1", Gap.CLOSER))).containsExactly(2);
    }

    @Test
    void aCloserThatClosesUpAtOnceLacksARecord() {
        CheckSheet sheet = closer("(0.10, 0.12) mm", "(0.00, 0.02) mm", "0.05 mm goes", "0.08 mm refuses");
        Finding finding = only(sheet, FindingCode.RECORD_MISSING);

        assertThat(finding.problem()).contains("fell by more than 0.08 mm from 22000 km to 23000 km");
        assertThat(finding.mend()).contains("cam, rocker or shim");
        assertThat(sizes(history(sheet, "1-in-1", Gap.CLOSER))).containsExactly(1, 1);
    }

    /** A shim 0.10 mm thinner leaves 0.10 mm more; here it left what was found. */
    @Test
    void aClearanceThatDoesNotFollowItsShimLacksARecord() {
        CheckSheet sheet = sheet(SHIMS)
                .history(List.of(
                        visit("6000 km", marked("(0.08, 0.10) mm", "(0.08, 0.10) mm", marked("2.50", "0"))),
                        visit("12000 km", marked("(0.08, 0.10) mm", "(0.09, 0.11) mm", marked("2.40", "0")))))
                .valve(ValveReading.of("1-in-1", "0.08 mm goes", "0.10 mm refuses")
                        .withShim(InstalledShim.measured(mm("2.40"))))
                .build();

        assertThat(only(sheet, FindingCode.RECORD_MISSING).problem())
                .contains("at 12000 km", "fell by more than 0.07 mm");
        assertThat(sizes(history(sheet, "1-in-1"))).containsExactly(2, 2);
    }

    /** A valve that opens up is set tighter than the middle, where it lasts. */
    @Test
    void shimsCanBeChosenToLast() {
        PastVisit[] visits = {
            visit("6000 km", left("1-in-1", "(0.11, 0.12) mm", "(0.11, 0.12) mm", "2.50")),
            visit("12000 km", left("1-in-1", "(0.13, 0.14) mm", "(0.13, 0.14) mm", "2.50")),
            visit("18000 km", left("1-in-1", "(0.15, 0.16) mm", "(0.15, 0.16) mm", "2.50"))
        };
        CheckSheet.Builder fresh = sheet(SHIMS)
                .valve(ValveReading.of("1-in-1", "0.20 mm goes", "0.22 mm refuses")
                        .withShim(InstalledShim.measured(mm("2.50"))));

        assertThat(CheckReport.of(fresh.build()).longestLastingShimPlan()).isEmpty();
        CheckReport report = CheckReport.of(fresh.history(List.of(visits)).build());
        assertThat(report.shimPlan().orElseThrow().moves().get(0).findShim()).contains(mm("2.55"));
        assertThat(report.longestLastingShimPlan().orElseThrow().moves().get(0).findShim())
                .contains(mm("2.60"));
    }

    @Test
    void saysThatAValveOpenedUp() {
        CheckSheet sheet = sheet(SCREWS)
                .history(List.of(visit("22000 km", STEADY.valves().toArray(PastVisit.PastReading[]::new))))
                .valve(ValveReading.of("1-in-1", "0.25 mm goes", "0.30 mm refuses"))
                .valve(ValveReading.of("2-in-1", "0.14 mm goes", "0.16 mm refuses"))
                .build();

        assertThat(only(sheet, FindingCode.OPENED_UP).place()).isEqualTo("1-in-1");
        assertThat(codes(sheet)).doesNotContain(FindingCode.CLOSED_UP_FAST);
    }

    @Test
    void saysWhichVisitsAreLeftOut() {
        CheckSheet sheet = sheet(SCREWS)
                .history(List.of(
                        STEADY,
                        new PastVisit(LocalDate.of(2028, 1, 1), null, List.of()),
                        new PastVisit(LocalDate.of(2028, 1, 2), Usage.parse("30000 km"), List.of()),
                        new PastVisit(LocalDate.of(2028, 1, 3), Usage.parse("300 h"), List.of())))
                .valve(ValveReading.of("1-in-1", "0.12 mm goes", "0.14 mm refuses"))
                .build();

        assertThat(CheckReport.of(sheet).findings().stream()
                        .filter(f -> f.code() == FindingCode.VISIT_NOT_USED)
                        .map(Finding::problem))
                .hasSize(3)
                .anyMatch(p -> p.contains("not recorded"))
                .anyMatch(p -> p.contains("30000 km is more than"))
                .anyMatch(p -> p.contains("300 h counts something else"));
    }

    private static PastVisit on(String date, String usage) {
        return new PastVisit(LocalDate.parse(date), Usage.parse(usage), List.of(found("1-in-1", "(0.14, 0.16) mm")));
    }

    /** One slip in a date or a usage moves every trend, so it is said with both checks. */
    @Test
    void saysWhichChecksAreOutOfOrder() {
        ValveReading now = ValveReading.of("1-in-1", "0.12 mm goes", "0.14 mm refuses");
        CheckSheet slipped = sheet(SCREWS)
                .history(List.of(on("2030-06-01", "8000 km"), on("2030-11-02", "7000 km"), on("2031-02-03", "9000 km")))
                .valve(now)
                .build();
        CheckSheet early = sheet(SCREWS)
                .date(LocalDate.of(2030, 1, 1))
                .history(List.of(on("2030-06-01", "8000 km")))
                .valve(now)
                .build();
        CheckSheet anyOrder = sheet(SCREWS)
                .date(LocalDate.of(2031, 1, 1))
                .history(List.of(on("2030-11-02", "9000 km"), on("2030-06-01", "8000 km"), on("2030-11-02", "8500 km")))
                .valve(now)
                .build();

        Finding finding = only(slipped, FindingCode.CHECKS_OUT_OF_ORDER);
        assertThat(finding.problem()).contains("2030-06-01 at 8000 km", "2030-11-02 at 7000 km");
        assertThat(finding.mend()).contains("correct the date or the usage");
        assertThat(only(early, FindingCode.CHECKS_OUT_OF_ORDER).problem())
                .contains("2030-06-01 at 8000 km", "2030-01-01 at 24000 km, this sheet's");
        assertThat(codes(anyOrder)).doesNotContain(FindingCode.CHECKS_OUT_OF_ORDER);
    }

    @Test
    void saysThatAnIntervalCountsSomethingElse() {
        ValveReading now = ValveReading.of("1-in-1", "0.12 mm goes", "0.14 mm refuses");
        EngineSpec byHours = engine(ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm")))
                .checkInterval(Usage.parse("200 h"))
                .build();
        EngineSpec byMiles = engine(ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm")))
                .checkInterval(Usage.parse("4000 mi"))
                .build();

        assertThat(only(sheet(byHours).valve(now).build(), FindingCode.INTERVAL_NOT_COUNTED)
                        .problem())
                .contains("200 h", "24000 km");
        assertThat(codes(sheet(byMiles).valve(now).build())).doesNotContain(FindingCode.INTERVAL_NOT_COUNTED);
        assertThat(codes(CheckSheet.builder(byHours, leaves("0.12")).valve(now).build()))
                .doesNotContain(FindingCode.INTERVAL_NOT_COUNTED);
    }

    /** The clearance grew by just what the thinner shim gives: the shim is told, the growth is no second sign. */
    @Test
    void aGapThatFollowsAnotherShimHasNotOpenedUp() {
        CheckSheet sheet = sheet(SHIMS)
                .history(List.of(
                        visit("6000 km", left("1-in-1", "(0.12, 0.14) mm", "(0.12, 0.14) mm", "2.50")),
                        visit("12000 km", left("1-in-1", "(0.12, 0.14) mm", "(0.12, 0.14) mm", "2.50")),
                        visit("18000 km", left("1-in-1", "(0.12, 0.14) mm", "(0.12, 0.14) mm", "2.50"))))
                .valve(ValveReading.of("1-in-1", "0.22 mm goes", "0.25 mm refuses")
                        .withShim(InstalledShim.measured(mm("2.40"))))
                .build();

        assertThat(codes(sheet))
                .contains(FindingCode.SHIM_NOT_AS_RECORDED)
                .doesNotContain(FindingCode.OPENED_UP, FindingCode.RECORD_MISSING);
    }

    @Test
    void namesWhatWearsInThisTrain() {
        PastVisit[] before = {
            visit("6000 km", left("1-in-1", "(0.12, 0.14) mm", "(0.12, 0.14) mm", "2.50")),
            visit("12000 km", left("1-in-1", "(0.12, 0.14) mm", "(0.12, 0.14) mm", "2.50"))
        };
        ValveReading grown = ValveReading.of("1-in-1", "0.25 mm goes", "0.30 mm refuses");
        String shims = mends(sheet(SHIMS)
                .history(List.of(before))
                .valve(grown.withShim(InstalledShim.measured(mm("2.50"))))
                .build());
        String screws = mends(sheet(SCREWS)
                .history(List.of(
                        visit("6000 km", found("1-in-1", "(0.12, 0.14) mm")),
                        visit("12000 km", found("1-in-1", "(0.12, 0.14) mm"))))
                .valve(grown)
                .build());

        assertThat(shims).contains("cam, bucket or shim").doesNotContain("rocker", "lock nut", "adjuster");
        assertThat(screws).contains("cam, rocker or adjuster", "lock nut");
    }

    private static String mends(CheckSheet sheet) {
        return CheckReport.of(sheet).findings().stream()
                .filter(f -> f.code() == FindingCode.OPENED_UP || f.code() == FindingCode.RECORD_MISSING)
                .map(Finding::mend)
                .collect(Collectors.joining("; "));
    }

    /** A reading that is in doubt itself must not move the leaf to set to; the usual aim does. */
    @Test
    void aTrendInDoubtDoesNotChooseWhereToSet() {
        PastVisit[] steady = {
            visit("6000 km", found("1-in-1", "(0.14, 0.16) mm")),
            visit("12000 km", found("1-in-1", "(0.14, 0.16) mm")),
            visit("18000 km", found("1-in-1", "(0.14, 0.16) mm"))
        };
        ValveReading odd = ValveReading.of("1-in-1", "0.25 mm goes", "0.30 mm refuses");
        ValveReading ordinary = ValveReading.of("1-in-1", "0.20 mm goes", "0.22 mm refuses");
        ValveCheck doubted = CheckReport.of(
                        sheet(SCREWS).history(List.of(steady)).valve(odd).build())
                .valves()
                .get(0);
        ValveCheck alone =
                CheckReport.of(sheet(SCREWS).valve(odd).build()).valves().get(0);
        ValveCheck followed = CheckReport.of(sheet(SCREWS)
                        .history(List.of(
                                visit("6000 km", found("1-in-1", "(0.16, 0.18) mm")),
                                visit("12000 km", found("1-in-1", "(0.17, 0.20) mm")),
                                visit("18000 km", found("1-in-1", "(0.18, 0.20) mm"))))
                        .valve(ordinary)
                        .build())
                .valves()
                .get(0);

        assertThat(doubted.isAimByForecast()).isFalse();
        assertThat(doubted.adjustment()).isEqualTo(alone.adjustment());
        assertThat(followed.isAimByForecast()).isTrue();
        // 0.20 mm is the limit of 0.10..0.20 mm, and inner leaves are owned
        assertThat(((Adjustment.SetToLeaf) followed.adjustment().orElseThrow())
                        .leaf()
                        .thickness())
                .isBetween(mm("0.12"), mm("0.18"));
    }

    @Test
    void holdsTheShimAgainstTheRecordAndTheRange() {
        PastVisit visit = visit("12000 km", left("1-in-1", "(0.14, 0.16) mm", "(0.14, 0.16) mm", "2.50"));
        CheckSheet.Builder sheet = sheet(SHIMS).history(List.of(visit));

        CheckSheet other = sheet.valve(ValveReading.of("1-in-1", "0.14 mm goes", "0.16 mm refuses")
                        .withShim(InstalledShim.measured(mm("1.25"))))
                .build();
        assertThat(only(other, FindingCode.SHIM_NOT_AS_RECORDED).expected()).isEqualTo("2.50 mm");
        assertThat(only(other, FindingCode.SHIM_NEAR_THIN_END).mend()).contains("nearly used up");

        CheckSheet worn = sheet(SHIMS)
                .history(List.of(
                        visit("12000 km", marked("(0.14, 0.16) mm", "(0.14, 0.16) mm", marked("2.50", "0.02")))))
                .valve(ValveReading.of("1-in-1", "0.14 mm goes", "0.16 mm refuses")
                        .withShim(InstalledShim.measured(mm("2.47"))))
                .build();
        assertThat(only(worn, FindingCode.SHIM_NOT_AS_RECORDED).expected()).isEqualTo("2.50 mm ± 0.02 mm");
        CheckSheet within = sheet(SHIMS)
                .history(worn.history())
                .valve(ValveReading.of("1-in-1", "0.14 mm goes", "0.16 mm refuses")
                        .withShim(InstalledShim.measured(mm("2.48"))))
                .build();
        assertThat(codes(within)).doesNotContain(FindingCode.SHIM_NOT_AS_RECORDED);

        CheckSheet same = sheet(SHIMS)
                .history(List.of(visit))
                .valve(ValveReading.of("1-in-1", "0.14 mm goes", "0.16 mm refuses")
                        .withShim(InstalledShim.measured(mm("2.50"))))
                .build();
        assertThat(codes(same)).doesNotContain(FindingCode.SHIM_NOT_AS_RECORDED, FindingCode.SHIM_NEAR_THIN_END);
    }

    // ---- symptoms

    @ParameterizedTest
    @EnumSource(Symptom.class)
    void setsASymptomAgainstWhatWasFound(Symptom symptom) {
        String tight = "0.08 mm refuses";
        String loose = "0.30 mm goes";
        boolean goesWithTight = symptom.goesWith().word().equals("tight");
        CheckSheet agrees = sheet(SCREWS)
                .symptoms(List.of(symptom))
                .valve(ValveReading.of("1-in-1", goesWithTight ? tight : loose))
                .valve(ValveReading.of("1-ex-1", goesWithTight ? tight : loose))
                .build();
        CheckSheet differs = sheet(SCREWS)
                .symptoms(List.of(symptom))
                .valve(ValveReading.of("1-in-1", goesWithTight ? loose : tight))
                .build();

        assertThat(only(agrees, FindingCode.SYMPTOM).problem())
                .contains("common practice", "found " + symptom.goesWith());
        assertThat(only(agrees, FindingCode.SYMPTOM).mend()).startsWith("if it stays");
        assertThat(only(differs, FindingCode.SYMPTOM).problem()).contains("no ");
        assertThat(Symptom.parse(symptom.word())).isEqualTo(symptom);
    }

    @Test
    void refusesAnUnknownSymptom() {
        assertThatThrownBy(() -> Symptom.parse("rattles"))
                .isInstanceOf(RejectedValueException.class)
                .hasMessageContaining("rattles")
                .hasMessageContaining("ticking");
    }
}
