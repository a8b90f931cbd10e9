package dev.lash.check;

import static dev.lash.testing.Readings.interval;
import static dev.lash.testing.Readings.mm;
import static dev.lash.testing.Readings.mms;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.entry;

import dev.lash.adjust.Adjustment;
import dev.lash.adjust.Adjustment.FitShim;
import dev.lash.adjust.Adjustment.Inspect;
import dev.lash.adjust.Adjustment.Leave;
import dev.lash.adjust.Adjustment.MeasureFurther;
import dev.lash.adjust.Adjustment.SetToLeaf;
import dev.lash.adjust.TurnRange;
import dev.lash.engine.ValveId;
import dev.lash.gauge.Bracket;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.Trial;
import dev.lash.judge.Verdict;
import dev.lash.plan.NextLeaf;
import java.math.BigDecimal;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Four check sheets of a riding school's fleet, each worked out by hand first. */
class RidingSchoolTest {
    private static ValveCheck valve(CheckReport report, String id) {
        return report.valves().stream()
                .filter(v -> v.reading().valve().equals(ValveId.parse(id)))
                .findFirst()
                .orElseThrow();
    }

    private static String bracket(CheckReport report, String id) {
        return valve(report, id).bracket().map(Bracket::interval).orElseThrow().toString();
    }

    private static TurnRange degrees(String from, String to) {
        return new TurnRange(new BigDecimal(from), new BigDecimal(to));
    }

    private static SetToLeaf setToLeaf(CheckReport report, String id) {
        Adjustment adjustment = valve(report, id).adjustment().orElseThrow();
        assertThat(adjustment).isInstanceOf(SetToLeaf.class);
        return (SetToLeaf) adjustment;
    }

    // ---- the yard generator: tight, undecided, within, loose

    @Test
    void theGeneratorsFirstIntakeIsTight() {
        CheckReport report = CheckReport.of(School.generator());
        assertThat(bracket(report, "1-in-1")).isEqualTo("(0.03, 0.05) mm");
        assertThat(valve(report, "1-in-1").verdict()).contains(Verdict.TIGHT);
        // Aim 0.08; 0.09 and 0.07 are as near. 0.09 - 0.05 and 0.09 - 0.03 at 0.75 mm a turn.
        SetToLeaf set = setToLeaf(report, "1-in-1");
        assertThat(set.leaf()).isEqualTo(LeafStack.parse("0.09 mm"));
        assertThat(set.findTurn()).contains(degrees("19.2", "28.8"));
    }

    @Test
    void theGeneratorsFirstExhaustIsUndecidedAndNeedsALeafToBorrow() {
        ValveCheck exhaust = valve(CheckReport.of(School.generator()), "1-ex-1");
        assertThat(exhaust.verdict()).contains(Verdict.UNDECIDED);
        assertThat(exhaust.possible()).containsExactly(Verdict.WITHIN, Verdict.LOOSE);
        NextLeaf borrowed = new NextLeaf(LeafStack.parse("0.18 mm"), false);
        assertThat(exhaust.nextLeaf()).contains(borrowed);
        assertThat(exhaust.adjustment())
                .hasValueSatisfying(adjustment ->
                        assertThat(((MeasureFurther) adjustment).findLeaf()).contains(borrowed));
    }

    @ParameterizedTest
    @CsvSource({"0.18 mm goes, LOOSE", "0.18 mm drags, WITHIN", "0.18 mm forced, WITHIN", "0.18 mm refuses, WITHIN"})
    void theBorrowedLeafSettlesIt(String trial, Verdict verdict) {
        CheckReport report = CheckReport.of(School.generatorSheet()
                .valve(ValveReading.of("1-ex-1", "0.15 mm goes", "0.20 mm forced", trial))
                .build());
        assertThat(valve(report, "1-ex-1").verdict()).contains(verdict);
        assertThat(valve(report, "1-ex-1").nextLeaf()).isEmpty();
    }

    @Test
    void theGeneratorsSecondIntakeIsExactlySevenHundredths() {
        CheckReport report = CheckReport.of(School.generator());
        assertThat(bracket(report, "2-in-1")).isEqualTo("[0.07, 0.07] mm");
        assertThat(valve(report, "2-in-1").verdict()).contains(Verdict.WITHIN);
        assertThat(valve(report, "2-in-1").adjustment()).contains(new Leave());
    }

    @Test
    void theGeneratorsSecondExhaustIsLoose() {
        CheckReport report = CheckReport.of(School.generator());
        assertThat(valve(report, "2-ex-1").verdict()).contains(Verdict.LOOSE);
        // Aim 0.165; 0.15 is nearest. 0.15 - 0.25 and 0.15 - 0.20 at 0.75 mm a turn.
        SetToLeaf set = setToLeaf(report, "2-ex-1");
        assertThat(set.leaf()).isEqualTo(LeafStack.parse("0.15 mm"));
        assertThat(set.findTurn()).contains(degrees("-48", "-24"));
    }

    @Test
    void theGeneratorLeavesNothingToFind() {
        CheckReport report = CheckReport.of(School.generator());
        assertThat(report.findings()).isEmpty();
        assertThat(report.hasErrors()).isFalse();
        assertThat(report.valves())
                .extracting(v -> v.reading().valve().toString())
                .containsExactly("1-in-1", "1-ex-1", "2-in-1", "2-ex-1");
    }

    // ---- the road trainer: shims

    /**
     * By hand: a size s is certain when lower end + installed - s is at least the window's lower end and upper end + installed -
     * s at most its upper end; all sizes are multiples of 0.05, and windows of 0.06 take one or none of them.
     */
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            1-in-1 | tight  | 2.40 | (0.20, 0.21) mm
            1-in-2 | tight  | 2.30 | (0.20, 0.21) mm
            1-ex-1 | tight  | 2.35 | (0.25, 0.27) mm
            1-ex-2 | tight  | 2.30 | (0.27, 0.30) mm
            2-in-1 | within | 2.50 | (0.20, 0.22) mm
            2-in-2 | tight  | 2.60 | (0.17, 0.20) mm
            2-ex-2 | tight  | 2.60 | (0.25, 0.27) mm
            3-in-1 | tight  | 2.35 | (0.17, 0.20) mm
            3-in-2 | within | 2.35 | (0.20, 0.22) mm
            3-ex-1 | within | 2.65 | (0.25, 0.28) mm
            3-ex-2 | tight  | 2.45 | (0.25, 0.27) mm
            4-in-1 | tight  | 2.40 | (0.17, 0.20) mm
            4-in-2 | tight  | 2.40 | (0.17, 0.20) mm
            4-ex-1 | within | 2.55 | (0.25, 0.28) mm
            4-ex-2 | within | 2.45 | (0.25, 0.28) mm
            """)
    void theRoadTrainersCertainShims(String id, String verdict, String size, String resulting) {
        ValveCheck check = valve(CheckReport.of(School.roadTrainer()), id);
        assertThat(check.verdict()).hasValueSatisfying(v -> assertThat(v).hasToString(verdict));
        assertThat(check.certainShims()).contains(mms(size));
        if (verdict.equals("within")) {
            assertThat(check.adjustment()).contains(new Leave());
            assertThat(check.bracket().orElseThrow().interval()).isEqualTo(interval(resulting));
        } else {
            assertThat(check.adjustment())
                    .contains(new FitShim(mm(size), mms(size), interval(resulting), size.equals("2.40"), null));
        }
    }

    @Test
    void theRoadTrainersValveWithoutALowerEndIsInspected() {
        CheckReport report = CheckReport.of(School.roadTrainer());
        ValveCheck check = valve(report, "2-ex-1");
        assertThat(bracket(report, "2-ex-1")).isEqualTo("< 0.04 mm");
        assertThat(check.verdict()).contains(Verdict.TIGHT);
        assertThat(check.certainShims()).isEmpty();
        Inspect inspect = (Inspect) check.adjustment().orElseThrow();
        MeasureFurther then = (MeasureFurther) inspect.findThen().orElseThrow();
        assertThat(then.findMeasuringShim()).contains(interval("[2.20, 2.30] mm"));
        assertThat(report.findings()).extracting(Finding::code).containsExactly(FindingCode.MAY_HAVE_NO_CLEARANCE);
        assertThat(report.findings()).extracting(Finding::place).containsExactly("2-ex-1");
        assertThat(report.hasErrors()).isFalse();
    }

    // ---- the meadow mower: inches

    @Test
    void bothValvesOfTheMowerAreWithin() {
        CheckReport report = CheckReport.of(School.mower());
        assertThat(report.valves()).allSatisfy(v -> {
            assertThat(v.verdict()).contains(Verdict.WITHIN);
            assertThat(v.adjustment()).contains(new Leave());
        });
        assertThat(bracket(report, "1-in-1")).isEqualTo("[0.1016, 0.1016] mm");
        assertThat(report.findings())
                .extracting(Finding::code)
                .containsExactly(FindingCode.WINDOW_NOT_CONFIRMED, FindingCode.WINDOW_NOT_CONFIRMED);
        assertThat(report.findings()).extracting(Finding::value).containsExactly("0.003..0.005 in", "0.005..0.007 in");
    }

    // ---- hill bike 5: a contradiction, and a warm engine

    @Test
    void theHillBikesTrialsAtOddsAreNamed() {
        CheckReport report = CheckReport.of(School.hillBike());
        ValveCheck intake = valve(report, "1-in-1");
        assertThat(intake.bracket()).isEmpty();
        assertThat(intake.verdict()).isEmpty();
        assertThat(intake.adjustment()).isEmpty();
        assertThat(intake.contradiction())
                .hasValueSatisfying(c -> assertThat(List.of(c.first(), c.second()))
                        .containsExactly(Trial.parse("0.11 mm goes"), Trial.parse("0.09 mm refuses")));
        assertThat(report.hasErrors()).isTrue();
        assertThat(report.findings())
                .filteredOn(f -> f.severity() == Severity.ERROR)
                .singleElement()
                .satisfies(f -> {
                    assertThat(f.code()).isEqualTo(FindingCode.CONTRADICTION);
                    assertThat(f.place()).isEqualTo("1-in-1");
                    assertThat(f.toString()).contains("0.11 mm goes", "0.09 mm refuses", "repeat both");
                });
    }

    @Test
    void theHillBikesOtherValveIsJudgedWithTheDoubtOfAWarmEngine() {
        CheckReport report = CheckReport.of(School.hillBike());
        assertThat(valve(report, "1-ex-1").verdict()).contains(Verdict.WITHIN);
        assertThat(report.findings())
                .filteredOn(f -> f.code() == FindingCode.ENGINE_TOO_WARM)
                .singleElement()
                .satisfies(f -> {
                    assertThat(f.severity()).isEqualTo(Severity.DOUBT);
                    assertThat(f.value()).isEqualTo("41 °C");
                    assertThat(f.expected()).isEqualTo("at most 35 °C");
                    assertThat(f.problem()).contains("41 °C", "warmer");
                });
    }

    // ---- the whole fleet

    @Test
    void everyReportCarriesCautions() {
        for (CheckSheet sheet : List.of(School.generator(), School.roadTrainer(), School.mower(), School.hillBike())) {
            assertThat(String.join(" ", CheckReport.of(sheet).cautions()))
                    .contains("service manual", "technician", "key out", "upright", "no flame", "by hand", "TDC")
                    .contains("rags", "twice and check again", "outdoors");
        }
    }

    @Test
    void verdictsCounted() {
        assertThat(CheckReport.of(School.roadTrainer()).valves().stream()
                        .map(v -> v.verdict().orElseThrow())
                        .collect(
                                java.util.stream.Collectors.groupingBy(v -> v, java.util.stream.Collectors.counting())))
                .containsOnly(entry(Verdict.TIGHT, 11L), entry(Verdict.WITHIN, 5L));
    }
}
