package dev.lash.check;

import static dev.lash.testing.Readings.guarded;
import static dev.lash.testing.Readings.interval;
import static dev.lash.testing.Readings.leaves;
import static dev.lash.testing.Readings.mm;
import static dev.lash.testing.Readings.mms;
import static dev.lash.testing.Readings.trials;
import static dev.lash.testing.Readings.window;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.Adjuster;
import dev.lash.adjust.Adjustment;
import dev.lash.adjust.Adjustment.FitShim;
import dev.lash.adjust.Adjustment.Inspect;
import dev.lash.adjust.Adjustment.Leave;
import dev.lash.adjust.Adjustment.Machine;
import dev.lash.adjust.Adjustment.MeasureFurther;
import dev.lash.adjust.Adjustment.NotApplicable;
import dev.lash.adjust.Adjustment.SetToLeaf;
import dev.lash.adjust.Adjustment.Turn;
import dev.lash.adjust.Adjustment.TurnFrom;
import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.adjust.EccentricTurn;
import dev.lash.adjust.InstalledShim;
import dev.lash.adjust.ShimBox;
import dev.lash.adjust.TurnRange;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.Decompressor;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.Pitch;
import dev.lash.engine.ScrewHead;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.ValveTrain.ScrewPlace;
import dev.lash.gauge.Bracket;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.Trial;
import dev.lash.judge.Judgement;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import dev.lash.plan.NextLeaf;
import dev.lash.testing.Contracts;
import java.math.BigDecimal;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class ValveCheckTest {
    private static ValveCheck only(CheckSheet sheet) {
        assertThat(sheet.valves()).hasSize(1);
        return ValveCheck.of(sheet, sheet.valves().get(0), Adjuster.withDefaults());
    }

    /** A reading of the generator: intake 0.05 to 0.09, exhaust 0.12 to 0.18. */
    private static ValveCheck generator(ValveReading reading) {
        return only(School.generatorSheet().valve(reading).build());
    }

    /** A reading of the road trainer: intake 0.16 to 0.22, exhaust 0.25 to 0.31, shims 1.20 to 3.50 by 0.05. */
    private static ValveCheck roadTrainer(ValveReading reading) {
        return only(School.roadTrainerSheet().valve(reading).build());
    }

    private static List<FindingCode> codes(ValveCheck check) {
        return check.findings().stream().map(Finding::code).toList();
    }

    private static Finding finding(ValveCheck check, FindingCode code) {
        assertThat(codes(check)).contains(code);
        Finding found = check.findings().stream()
                .filter(f -> f.code() == code)
                .findFirst()
                .orElseThrow();
        assertThat(found.place()).isEqualTo(check.reading().name());
        assertThat(List.of(found.problem(), found.expected(), found.mend())).noneMatch(String::isBlank);
        return found;
    }

    private static <T extends Adjustment> T adjustment(ValveCheck check, Class<T> kind) {
        assertThat(check.adjustment()).hasValueSatisfying(a -> assertThat(a).isInstanceOf(kind));
        return kind.cast(check.adjustment().orElseThrow());
    }

    @Nested
    class Story {
        @Test
        void trialsBecomeABracketAVerdictAndAnAdjustment() {
            ValveReading reading = ValveReading.of("1-in-1", "0.03 mm goes", "0.05 mm refuses");
            ValveCheck check = generator(reading);
            assertThat(check.reading()).isEqualTo(reading);
            assertThat(check.clearance().map(ClearanceSpec::check)).contains(window("0.05..0.09 mm"));
            assertThat(check.evidence().trials()).isEqualTo(reading.trials());
            assertThat(check.bracket().map(Bracket::interval)).contains(interval("(0.03, 0.05) mm"));
            assertThat(check.judgement().map(Judgement::window)).contains(window("0.05..0.09 mm"));
            assertThat(check.verdict()).contains(Verdict.TIGHT);
            assertThat(check.possible()).containsExactly(Verdict.TIGHT);
            assertThat(adjustment(check, SetToLeaf.class).leaf()).isEqualTo(LeafStack.parse("0.09 mm"));
            assertThat(check.nextLeaf()).isEmpty();
            assertThat(check.certainShims()).isEmpty();
            assertThat(check.contradiction()).isEmpty();
            assertThat(check.recheck()).isEmpty();
            assertThat(check.recheckVerdict()).isEmpty();
            assertThat(check.findings()).isEmpty();
        }

        @Test
        void theRoleChoosesTheWindow() {
            assertThat(generator(ValveReading.of("1-in-1", "0.09 mm drags")).verdict())
                    .contains(Verdict.WITHIN);
            assertThat(generator(ValveReading.of("1-ex-1", "0.09 mm drags")).verdict())
                    .contains(Verdict.TIGHT);
        }

        @Test
        void theSheetsRuleIsUsed() {
            ValveReading reading = ValveReading.of("1-in-1", "0.05 mm goes", "0.09 mm refuses");
            assertThat(generator(reading).verdict()).contains(Verdict.WITHIN);
            ValveCheck check = only(School.generatorSheet()
                    .rule(guarded("0.003", "0.00"))
                    .valve(reading)
                    .build());
            assertThat(check.verdict()).contains(Verdict.UNDECIDED);
            assertThat(check.possible()).containsExactly(Verdict.TIGHT, Verdict.WITHIN, Verdict.LOOSE);
        }

        @Test
        void theAdjusterIsTheCallers() {
            CheckSheet sheet = School.generatorSheet()
                    .valve(ValveReading.of("1-in-1", "0.03 mm goes", "0.05 mm refuses"))
                    .build();
            ValveCheck check = ValveCheck.of(
                    sheet, sheet.valves().get(0), Adjuster.withDefaults().withAim(Ratio.ZERO));
            assertThat(adjustment(check, SetToLeaf.class).leaf()).isEqualTo(LeafStack.parse("0.05 mm"));
        }

        @Test
        void certainShimsAreNamedAlsoWhenTheShimStays() {
            ValveCheck check = roadTrainer(
                    ValveReading.of("1-in-1", "0.20 mm goes", "0.22 mm refuses").withShim(School.marked("2.50")));
            assertThat(check.adjustment()).contains(new Leave());
            assertThat(check.certainShims()).contains(mms("2.50"));
        }

        @Test
        void theBoxOnTheSheetIsUsed() {
            ValveCheck check = roadTrainer(
                    ValveReading.of("1-in-1", "0.15 mm goes", "0.16 mm refuses").withShim(School.marked("2.45")));
            FitShim fit = adjustment(check, FitShim.class);
            assertThat(fit.shim()).isEqualTo(mm("2.40"));
            assertThat(fit.inBox()).isTrue();
        }
    }

    @Nested
    class Doubtful {
        @Test
        void noTrialsLeaveAllOpen() {
            ValveCheck check = generator(ValveReading.of("1-in-1"));
            assertThat(check.verdict()).contains(Verdict.UNDECIDED);
            assertThat(check.possible()).containsExactly(Verdict.TIGHT, Verdict.WITHIN, Verdict.LOOSE);
            assertThat(check.nextLeaf()).contains(new NextLeaf(LeafStack.parse("0.09 mm"), true));
            assertThat(finding(check, FindingCode.NOT_MEASURED).severity()).isEqualTo(Severity.NOTE);
        }

        @Test
        void aContradictionEndsThatValve() {
            ValveCheck check = generator(ValveReading.of("1-in-1", "0.07 mm goes", "0.05 mm refuses", "0.03 mm goes"));
            assertThat(check.contradiction()).hasValueSatisfying(c -> {
                assertThat(c.first()).isEqualTo(Trial.parse("0.07 mm goes"));
                assertThat(c.second()).isEqualTo(Trial.parse("0.05 mm refuses"));
                assertThat(c.trials()).hasSize(3);
            });
            assertThat(check.bracket()).isEmpty();
            assertThat(check.judgement()).isEmpty();
            assertThat(check.verdict()).isEmpty();
            assertThat(check.possible()).isEmpty();
            assertThat(check.adjustment()).isEmpty();
            assertThat(check.nextLeaf()).isEmpty();
            assertThat(check.certainShims()).isEmpty();
            Finding found = finding(check, FindingCode.CONTRADICTION);
            assertThat(found.severity()).isEqualTo(Severity.ERROR);
            assertThat(found.value())
                    .contains("0.07 mm goes", "0.05 mm refuses")
                    .doesNotContain("0.03 mm");
        }

        @Test
        void twoNeighboursThatDragAreADoubtNotAnError() {
            ValveCheck check = generator(ValveReading.of("1-in-1", "0.06 mm drags", "0.07 mm drags"));
            assertThat(check.bracket().map(Bracket::interval)).contains(interval("[0.06, 0.07] mm"));
            assertThat(check.verdict()).contains(Verdict.WITHIN);
            Finding found = finding(check, FindingCode.SEVERAL_DRAGS);
            assertThat(found.severity()).isEqualTo(Severity.DOUBT);
            assertThat(found.problem()).contains("0.06 mm drags", "0.07 mm drags");
        }

        @Test
        void aDragThatAnotherTrialExcludesIsAContradiction() {
            ValveCheck check = generator(ValveReading.of("1-in-1", "0.05 mm drags", "0.07 mm drags", "0.06 mm goes"));
            assertThat(check.bracket()).isEmpty();
            assertThat(check.verdict()).isEmpty();
            assertThat(finding(check, FindingCode.CONTRADICTION).problem()).contains("0.05 mm drags", "0.06 mm goes");
        }

        /** 0.08 goes and 0.10 refuses against 0.12 to 0.18: tight, unless the device held the valve. */
        private static Finding heldFinding(Decompressor device, String stop) {
            return finding(held(device, stop), FindingCode.DECOMPRESSOR_HOLDS);
        }

        private static ValveCheck held(Decompressor device, String stop) {
            return ValveCheck.of(
                    CheckSheet.builder(
                                    School.generatorEngine()
                                            .decompressor(device)
                                            .build(),
                                    School.GENERATOR_LEAVES)
                            .build(),
                    ValveReading.of("1-ex-1", "0.07 mm goes", "0.09 mm refuses").withStop(stop),
                    Adjuster.withDefaults());
        }

        private static final Decompressor KNOWN =
                new Decompressor(ValveId.parse("1-ex-1"), Ratio.of(60, 1), Ratio.of(30, 1));

        @Test
        void readingOfAHeldValveIsInDoubt() {
            assertThat(held(KNOWN, "number 1 compression TDC").verdict()).contains(Verdict.TIGHT);
            Finding found = heldFinding(KNOWN, "number 1 compression TDC");
            assertThat(found.severity()).isEqualTo(Severity.DOUBT);
            assertThat(found.place()).isEqualTo("1-ex-1");
            assertThat(found.problem())
                    .isEqualTo(
                            "the decompressor holds this valve from 60 degrees before compression TDC to 30 after, so the gap"
                                    + " may read too small; the stop is \"number 1 compression TDC\"");
            assertThat(found.expected())
                    .isEqualTo("a stop clear of the decompressor: 31 degrees after compression TDC of cylinder 1");
            assertThat(found.mend()).contains("measure again 31 degrees after compression TDC of cylinder 1");
            assertThat(heldFinding(KNOWN, "").problem()).endsWith("no stop is recorded");
            assertThat(heldFinding(KNOWN, "mark T").problem()).endsWith("the stop is \"mark T\"");
        }

        @Test
        void stopClearOfTheDeviceLeavesNoDoubt() {
            for (String stop : List.of(
                    "31 degrees after compression TDC of cylinder 1",
                    "31 degrees after number 1's compression TDC",
                    "clear of the decompressor")) {
                assertThat(codes(held(KNOWN, stop))).as(stop).doesNotContain(FindingCode.DECOMPRESSOR_HOLDS);
            }
            // the device holds another valve
            Decompressor other = new Decompressor(ValveId.parse("2-ex-1"), Ratio.of(60, 1), Ratio.of(30, 1));
            assertThat(codes(held(other, ""))).doesNotContain(FindingCode.DECOMPRESSOR_HOLDS);
        }

        @Test
        void deviceOfUnknownAnglesIsNamedWhereTheValveReadsTight() {
            Decompressor unknown = Decompressor.ofUnknownAngles(ValveId.parse("1-ex-1"));
            assertThat(heldFinding(unknown, "compression TDC").problem())
                    .contains("may hold this valve", "angles are not known");
            assertThat(heldFinding(unknown, "compression TDC").mend()).contains("clear of the decompressor");
            assertThat(codes(held(unknown, "clear of the decompressor")))
                    .doesNotContain(FindingCode.DECOMPRESSOR_HOLDS);
        }

        @Test
        void noClearanceMayBeTheDevicesDoing() {
            ValveCheck check = ValveCheck.of(
                    CheckSheet.builder(
                                    School.generatorEngine().decompressor(KNOWN).build(), School.GENERATOR_LEAVES)
                            .build(),
                    ValveReading.of("1-ex-1", "0.03 mm refuses"),
                    Adjuster.withDefaults());
            assertThat(codes(check)).contains(FindingCode.DECOMPRESSOR_HOLDS, FindingCode.MAY_HAVE_NO_CLEARANCE);
            assertThat(finding(check, FindingCode.MAY_HAVE_NO_CLEARANCE).mend())
                    .contains("decompressor does not hold")
                    .doesNotContain("TDC");
            assertThat(adjustment(check, Inspect.class).why())
                    .contains("no decompressor holds the valve")
                    .doesNotContain("make sure that the piston is at compression TDC");
        }

        @Test
        void noClearanceIsNeverTakenForZero() {
            for (String rule : List.of("0.00", "0.003")) {
                ValveCheck check = only(School.generatorSheet()
                        .rule(guarded(rule, "0.00"))
                        .valve(ValveReading.of("1-in-1", "0.05 mm refuses", "0.03 mm refuses"))
                        .build());
                assertThat(check.bracket().orElseThrow().interval().lower()).isEmpty();
                assertThat(check.verdict()).contains(Verdict.TIGHT);
                Finding found = finding(check, FindingCode.MAY_HAVE_NO_CLEARANCE);
                assertThat(found.severity()).isEqualTo(Severity.DOUBT);
                assertThat(found.problem()).contains("may have no clearance");
                assertThat(found.mend()).contains("compression TDC", "inspect");
                assertThat(adjustment(check, Inspect.class).why()).contains("may have no clearance");
            }
        }

        @Test
        void withAThinnerLeafAtHandNothingIsSupposedYet() {
            ValveCheck check = generator(ValveReading.of("1-in-1", "0.05 mm refuses"));
            assertThat(codes(check)).isEmpty();
            assertThat(adjustment(check, MeasureFurther.class).findLeaf())
                    .contains(new NextLeaf(LeafStack.parse("0.03 mm"), true));
            assertThat(check.verdict()).contains(Verdict.TIGHT);
            assertThat(check.nextLeaf()).as("for undecided verdicts only").isEmpty();
        }

        @Test
        void farTooLooseIsInspected() {
            ValveCheck check = generator(ValveReading.of("1-in-1", "0.20 mm goes", "0.25 mm refuses"));
            assertThat(check.verdict()).contains(Verdict.LOOSE);
            Finding found = finding(check, FindingCode.FAR_TOO_LOOSE);
            assertThat(found.problem()).contains("(0.20, 0.25) mm", "0.05..0.09 mm");
            assertThat(found.mend()).contains("rocker pad");
            assertThat(adjustment(check, Inspect.class).findThen()).isPresent();
            ValveCheck shim = roadTrainer(ValveReading.of("1-in-1", "0.28 mm + 0.33 mm goes"));
            assertThat(finding(shim, FindingCode.FAR_TOO_LOOSE).mend()).contains("cam lobe");
        }

        @Test
        void aDishedPadMakesTheReadingUseless() {
            ValveCheck check =
                    generator(ValveReading.of("1-ex-1", "0.15 mm drags").withPad(Pad.DISHED));
            assertThat(check.verdict()).contains(Verdict.UNDECIDED);
            assertThat(check.possible()).containsExactly(Verdict.TIGHT, Verdict.WITHIN, Verdict.LOOSE);
            assertThat(check.nextLeaf()).isEmpty();
            Turn turn = (Turn) adjustment(check, Inspect.class).findThen().orElseThrow();
            assertThat(turn.from()).isEqualTo(TurnFrom.NO_PLAY);
            // 0.12 / 0.75 and 0.18 / 0.75 of a turn.
            assertThat(turn.degrees()).isEqualTo(new TurnRange(new BigDecimal("57.6"), new BigDecimal("86.4")));
            assertThat(finding(check, FindingCode.DISHED_PAD).problem()).contains("too small", "not used");
            assertThat(generator(ValveReading.of("1-ex-1", "0.15 mm goes", "0.20 mm forced")
                                    .withPad(Pad.DISHED))
                            .nextLeaf())
                    .as("no leaf settles what no leaf can read")
                    .isEmpty();
        }

        @Test
        void aDishedReadingOfAShimTrainIsNotUsedEither() {
            ValveCheck check = roadTrainer(ValveReading.of("1-in-1", "0.15 mm goes", "0.16 mm refuses")
                    .withShim(School.marked("2.45"))
                    .withPad(Pad.DISHED));
            assertThat(check.verdict()).contains(Verdict.UNDECIDED);
            assertThat(adjustment(check, Inspect.class).findThen()).isEmpty();
            assertThat(check.certainShims()).isEmpty();
            assertThat(finding(check, FindingCode.DISHED_PAD).mend()).doesNotContain("turns");
        }

        @Test
        void aLeafThatIsNotOwnedIsSaid() {
            ValveCheck check = generator(ValveReading.of("1-ex-1", "0.15 mm goes", "0.18 mm refuses"));
            assertThat(check.verdict()).contains(Verdict.WITHIN);
            Finding found = finding(check, FindingCode.LEAF_NOT_OWNED);
            assertThat(found.value()).isEqualTo("0.18 mm");
            assertThat(codes(check)).hasSize(1);
        }

        @Test
        void aStackHigherThanTheSetAllowsIsSaid() {
            ValveCheck single = generator(ValveReading.of("1-ex-1", "0.06 mm + 0.09 mm drags"));
            Finding found = finding(single, FindingCode.STACK_TOO_HIGH);
            assertThat(found.problem()).contains("0.06 mm + 0.09 mm", "2 leaves");
            assertThat(found.expected()).isEqualTo("at most 1");
            assertThat(codes(roadTrainer(ValveReading.of("1-ex-1", "0.12 mm + 0.15 mm drags"))))
                    .isEmpty();
            // One leaf of each thickness is owned, so no two of one.
            assertThat(codes(roadTrainer(ValveReading.of("1-ex-1", "0.15 mm + 0.15 mm drags"))))
                    .containsExactly(FindingCode.LEAF_NOT_OWNED);
        }

        @Test
        void aShimThatIsNotAsMarkedIsSaidAndReckonedAsMeasured() {
            ValveReading reading = ValveReading.of("1-in-1", "0.15 mm goes", "0.16 mm refuses");
            ValveCheck check = roadTrainer(reading.withShim(new InstalledShim(mm("2.50"), mm("2.45"), mm("0.01"), "")));
            Finding found = finding(check, FindingCode.SHIM_NOT_AS_MARKED);
            assertThat(found.problem()).contains("marked 2.50 mm", "measures 2.45 mm");
            // 2.44 to 2.46 installed: s from 2.40 to 2.43.
            assertThat(check.certainShims()).contains(mms("2.40"));
            assertThat(codes(roadTrainer(reading.withShim(new InstalledShim(mm("2.45"), mm("2.44"), mm("0.01"), "")))))
                    .isEmpty();
            assertThat(codes(roadTrainer(reading.withShim(new InstalledShim(mm("2.45"), mm("2.439"), mm("0.01"), "")))))
                    .containsExactly(FindingCode.SHIM_NOT_AS_MARKED);
        }

        @Test
        void anUnreadableShimIsMeasured() {
            ValveCheck check = roadTrainer(ValveReading.of("1-in-1", "0.15 mm goes", "0.16 mm refuses")
                    .withShim(new InstalledShim(null, null, Length.ZERO, "")));
            assertThat(finding(check, FindingCode.SHIM_UNREADABLE).mend()).contains("measure");
            assertThat(adjustment(check, MeasureFurther.class).why()).contains("micrometer");
        }

        @ParameterizedTest
        @ValueSource(strings = {"2.43", "1.15", "3.55"})
        void aMarkThatIsNotMadeIsSaid(String size) {
            ValveCheck check = roadTrainer(
                    ValveReading.of("1-in-1", "0.15 mm goes", "0.16 mm refuses").withShim(School.marked(size)));
            Finding found = finding(check, FindingCode.SHIM_NOT_IN_RANGE);
            assertThat(found.value()).isEqualTo(mm(size).toString());
            assertThat(found.expected()).isEqualTo("1.20..3.50 mm step 0.05 mm");
        }

        @Test
        void aMeasuredSizeNeedNotBeOneThatIsMade() {
            assertThat(codes(roadTrainer(ValveReading.of("1-in-1", "0.15 mm goes", "0.16 mm refuses")
                            .withShim(InstalledShim.measured(mm("2.437"))))))
                    .isEmpty();
        }
    }

    @Nested
    class Recheck {
        private static final ValveReading TIGHT = ValveReading.of("1-in-1", "0.03 mm goes", "0.05 mm refuses");
        private static final Done SET = new Done.SetWith(LeafStack.parse("0.07 mm"));

        @Test
        void aGoodOneIsJudgedAndLeavesNothingToFind() {
            ValveCheck check = generator(TIGHT.withDone(SET, trials("0.07 mm drags")));
            assertThat(check.verdict()).as("as found").contains(Verdict.TIGHT);
            assertThat(check.recheck()).isPresent();
            assertThat(check.recheckVerdict()).contains(Verdict.WITHIN);
            assertThat(check.findings()).isEmpty();
        }

        @Test
        void missing() {
            ValveCheck check = generator(TIGHT.withDone(SET, List.of()));
            Finding found = finding(check, FindingCode.RECHECK_MISSING);
            assertThat(found.problem()).contains("set with 0.07 mm", "not checked again");
            assertThat(found.severity()).isEqualTo(Severity.DOUBT);
            assertThat(check.recheckVerdict()).isEmpty();
        }

        @Test
        void contradicting() {
            ValveCheck check = generator(TIGHT.withDone(SET, trials("0.09 mm goes", "0.07 mm refuses")));
            Finding found = finding(check, FindingCode.RECHECK_CONTRADICTION);
            assertThat(found.severity()).isEqualTo(Severity.ERROR);
            assertThat(found.problem()).contains("0.09 mm goes", "0.07 mm refuses");
            assertThat(check.recheckVerdict()).isEmpty();
            assertThat(check.verdict()).as("what was found stands").contains(Verdict.TIGHT);
        }

        @Test
        void severalDragsAreADoubtHereToo() {
            ValveCheck check = generator(TIGHT.withDone(SET, trials("0.06 mm drags", "0.07 mm drags")));
            assertThat(codes(check)).containsExactly(FindingCode.SEVERAL_DRAGS);
        }

        @Test
        void notWithin() {
            ValveCheck check = generator(TIGHT.withDone(
                    new Done.SetWith(LeafStack.parse("0.09 mm")), trials("0.09 mm goes", "0.12 mm refuses")));
            Finding found = finding(check, FindingCode.RECHECK_NOT_WITHIN);
            assertThat(found.problem()).contains("loose", "(0.09, 0.12) mm", "0.05..0.09 mm");
            assertThat(found.mend()).isEqualTo("adjust again");
        }

        @Test
        void undecidedIsNotWithinEither() {
            ValveCheck check = generator(TIGHT.withDone(SET, trials("0.06 mm goes", "0.12 mm refuses")));
            Finding found = finding(check, FindingCode.RECHECK_NOT_WITHIN);
            assertThat(found.problem()).contains("undecided");
            assertThat(found.mend()).isEqualTo("try further leaves");
        }

        @Test
        void unexpectedAfterASetting() {
            ValveCheck check = generator(TIGHT.withDone(SET, trials("0.07 mm goes", "0.09 mm refuses")));
            assertThat(codes(check)).containsExactly(FindingCode.RECHECK_UNEXPECTED);
            Finding found = finding(check, FindingCode.RECHECK_UNEXPECTED);
            assertThat(found.problem()).contains("set with 0.07 mm", "[0.07, 0.07] mm", "(0.07, 0.09) mm");
            assertThat(found.mend()).contains("locking");
        }

        @Test
        void unexpectedAfterAShim() {
            // (0.12, 0.15) with 2.65 for 2.60 should leave (0.17, 0.20).
            ValveReading found =
                    ValveReading.of("2-in-2", "0.12 mm goes", "0.15 mm refuses").withShim(School.marked("2.65"));
            Done fitted = new Done.Fitted(mm("2.60"));
            assertThat(codes(roadTrainer(found.withDone(fitted, trials("0.18 mm goes", "0.20 mm refuses")))))
                    .isEmpty();
            ValveCheck check = roadTrainer(found.withDone(fitted, trials("0.20 mm goes", "0.22 mm refuses")));
            assertThat(codes(check)).containsExactly(FindingCode.RECHECK_UNEXPECTED);
            assertThat(finding(check, FindingCode.RECHECK_UNEXPECTED).problem())
                    .contains("fitted shim 2.60 mm", "(0.17, 0.20) mm", "(0.20, 0.22) mm");
            assertThat(finding(check, FindingCode.RECHECK_UNEXPECTED).mend()).contains("micrometer");
        }

        @Test
        void theToleranceOfTheShimIsAllowedFor() {
            ValveReading found = ValveReading.of("2-in-2", "0.12 mm goes", "0.15 mm refuses")
                    .withShim(new InstalledShim(mm("2.65"), null, mm("0.01"), ""));
            assertThat(codes(roadTrainer(
                            found.withDone(new Done.Fitted(mm("2.60")), trials("0.20 mm goes", "0.22 mm refuses")))))
                    .isEmpty();
        }

        @Test
        void nothingIsExpectedWhereNothingCanBeTold() {
            // A turn, a shim of unknown size, and a reading at odds with itself.
            assertThat(codes(generator(TIGHT.withDone(
                            new Done.Turned(Ratio.parse("20")), trials("0.07 mm goes", "0.09 mm refuses")))))
                    .isEmpty();
            assertThat(codes(roadTrainer(ValveReading.of("2-in-2", "0.12 mm goes", "0.15 mm refuses")
                            .withDone(new Done.Fitted(mm("2.60")), trials("0.20 mm goes", "0.22 mm refuses")))))
                    .isEmpty();
            assertThat(codes(roadTrainer(ValveReading.of("2-in-2", "0.15 mm goes", "0.12 mm refuses")
                            .withShim(School.marked("2.65"))
                            .withDone(new Done.Fitted(mm("2.60")), trials("0.20 mm goes", "0.22 mm refuses")))))
                    .containsExactly(FindingCode.CONTRADICTION);
        }

        @Test
        void theRatioOfAFollowerIsCounted() {
            EngineSpec follower = engine(new ValveTrain.Shim(
                            ValveTrain.ShimPlace.FOLLOWER,
                            ShimRange.parse("1.20..3.50 mm step 0.05 mm"),
                            Ratio.parse("1.5")))
                    .clearance(
                            ValveRole.INTAKE,
                            new ClearanceSpec(window("0.16..0.22 mm"), window("0.16..0.22 mm"), "manual"))
                    .window(ValveRole.EXHAUST, window("0.16..0.22 mm"))
                    .build();
            GaugeSet gauges = leaves("0.12", "0.15", "0.19", "0.20", "0.21");
            ValveReading found =
                    ValveReading.of("1-in-1", "0.12 mm goes", "0.15 mm refuses").withShim(School.marked("2.65"));
            Done fitted = new Done.Fitted(mm("2.60"));
            // 1.5 x 0.05 leaves (0.195, 0.225); one to one it would be (0.17, 0.20).
            assertThat(codes(only(CheckSheet.builder(follower, gauges)
                            .valve(found.withDone(fitted, trials("0.21 mm drags")))
                            .build())))
                    .isEmpty();
            ValveCheck check = only(CheckSheet.builder(follower, gauges)
                    .valve(found.withDone(fitted, trials("0.19 mm drags")))
                    .build());
            assertThat(codes(check)).containsExactly(FindingCode.RECHECK_UNEXPECTED);
            assertThat(finding(check, FindingCode.RECHECK_UNEXPECTED).problem()).contains("(0.195, 0.225) mm");
        }

        @Test
        void outsideTheWindowToSetTo() {
            EngineSpec engine = School.generatorEngine()
                    .clearance(
                            ValveRole.INTAKE,
                            new ClearanceSpec(window("0.05..0.09 mm"), window("0.07..0.09 mm"), "manual"))
                    .build();
            CheckSheet sheet = CheckSheet.builder(engine, School.GENERATOR_LEAVES)
                    .valve(ValveReading.of("1-in-1", "0.03 mm goes", "0.05 mm refuses")
                            .withDone(SET, trials("0.06 mm goes", "0.07 mm drags", "0.09 mm refuses")))
                    .valve(ValveReading.of("2-in-1", "0.03 mm goes", "0.05 mm refuses")
                            .withDone(SET, trials("0.06 mm goes", "0.09 mm refuses")))
                    .build();
            List<ValveCheck> checks = CheckReport.of(sheet).valves();
            assertThat(codes(checks.get(0))).isEmpty();
            assertThat(codes(checks.get(1))).containsExactly(FindingCode.RECHECK_OUTSIDE_SETTING);
            Finding found = finding(checks.get(1), FindingCode.RECHECK_OUTSIDE_SETTING);
            assertThat(found.severity()).isEqualTo(Severity.NOTE);
            assertThat(found.problem()).contains("(0.06, 0.09) mm", "0.07..0.09 mm");
        }

        @Test
        void trialsAfterwardsCountWithoutAWordOnWhatWasDone() {
            ValveReading reading = new ValveReading(
                    TIGHT.valve(),
                    Gap.ONLY,
                    TIGHT.trials(),
                    List.of(),
                    false,
                    null,
                    Pad.SOUND,
                    null,
                    "",
                    null,
                    0,
                    trials("0.07 mm drags"));
            ValveCheck check = generator(reading);
            assertThat(check.recheckVerdict()).contains(Verdict.WITHIN);
            assertThat(check.findings()).isEmpty();
        }

        @Test
        void leavesUsedAfterwardsAreLookedAtToo() {
            ValveCheck check = generator(TIGHT.withDone(SET, trials("0.07 mm drags", "0.08 mm refuses")));
            assertThat(finding(check, FindingCode.LEAF_NOT_OWNED).value()).isEqualTo("0.08 mm");
        }
    }

    // ---- trains

    private static EngineSpec.Builder engine(ValveTrain train) {
        return EngineSpec.builder("school-quad", "Quad")
                .valves("1-in-1", "1-ex-1")
                .train(train);
    }

    static Stream<Arguments> otherTrains() {
        ShimRange sizes = ShimRange.parse("1.20..3.50 mm step 0.05 mm");
        LengthInterval leaf = interval("[0.09, 0.09] mm");
        return Stream.of(
                // Aim 0.08, so 0.09. 0.04 and 0.06 mm over 25.4 / 24 x 2.5 mm a turn: 5.44... and 8.16... degrees.
                Arguments.of(
                        new ValveTrain.Screw(
                                ScrewPlace.FULCRUM_NUT, Pitch.parse("24 tpi"), Ratio.parse("1.5"), ScrewHead.HEXAGON),
                        new SetToLeaf(
                                LeafStack.parse("0.09 mm"),
                                new TurnRange(new BigDecimal("5.4"), new BigDecimal("8.2")),
                                List.of(),
                                leaf,
                                null,
                                "")),
                Arguments.of(
                        new ValveTrain.Eccentric(mm("1"), Ratio.ONE),
                        new SetToLeaf(LeafStack.parse("0.09 mm"), null, List.of(), leaf, null, "")),
                Arguments.of(
                        new ValveTrain.Shim(ValveTrain.ShimPlace.FOLLOWER, sizes, Ratio.parse("1.5")),
                        new MeasureFurther(null, null, "read or measure the installed shim with a micrometer")),
                // One turn of 0.03: from (0.03, 0.05) to (0.06, 0.08); two are too many.
                Arguments.of(
                        new ValveTrain.Wedge(mm("0.03")),
                        new Turn(
                                TurnFrom.PRESENT_SETTING,
                                new TurnRange(new BigDecimal("360"), new BigDecimal("360")),
                                new TurnRange(new BigDecimal("360"), new BigDecimal("360")),
                                null,
                                "whole turns only; positive: the clearance grows",
                                null,
                                "")),
                // 0.05 - 0.03 to 0.09 - 0.05.
                Arguments.of(
                        new ValveTrain.Fixed(),
                        new Machine(
                                "seat and face first if they need work, as cutting them tightens; then grind the stem tip "
                                        + "so that the clearance grows by 0.02 mm to 0.04 mm; take off little at a time "
                                        + "and measure",
                                interval("[0.02, 0.04] mm"))));
    }

    @ParameterizedTest
    @MethodSource("otherTrains")
    void everyTrainIsJudgedAlikeAndAdjustedInItsOwnWay(ValveTrain train, Adjustment expected) {
        EngineSpec quad = engine(train)
                .window(ValveRole.INTAKE, window("0.05..0.09 mm"))
                .window(ValveRole.EXHAUST, window("0.12..0.18 mm"))
                .build();
        CheckSheet sheet = CheckSheet.builder(quad, School.GENERATOR_LEAVES)
                .valve(ValveReading.of("1-in-1", "0.03 mm goes", "0.05 mm refuses"))
                .valve(ValveReading.of("1-ex-1", "0.15 mm goes", "0.20 mm forced"))
                .build();
        List<ValveCheck> checks = CheckReport.of(sheet).valves();
        assertThat(checks.get(0).verdict()).contains(Verdict.TIGHT);
        assertThat(checks.get(0).adjustment()).contains(expected);
        assertThat(checks.get(1).verdict()).contains(Verdict.UNDECIDED);
        NextLeaf borrowed = new NextLeaf(LeafStack.parse("0.18 mm"), false);
        assertThat(adjustment(checks.get(1), MeasureFurther.class).findLeaf()).contains(borrowed);
        assertThat(checks.get(1).nextLeaf())
                .as("the leaf that settles the verdict does not depend on the train")
                .contains(borrowed);
    }

    @Test
    void whereTheEccentricStandsIsOnTheSheet() {
        // 0.04 to 0.06 of 1 mm: arcsin 2.292... and 3.439...
        EngineSpec quad = engine(new ValveTrain.Eccentric(mm("1"), Ratio.ONE))
                .window(ValveRole.INTAKE, window("0.05..0.09 mm"))
                .window(ValveRole.EXHAUST, window("0.12..0.18 mm"))
                .build();
        ValveCheck check = only(CheckSheet.builder(quad, School.GENERATOR_LEAVES)
                .valve(ValveReading.of("1-in-1", "0.03 mm goes", "0.05 mm refuses")
                        .withEccentricAngle(Ratio.ZERO))
                .build());
        assertThat(adjustment(check, SetToLeaf.class).eccentric())
                .first()
                .isEqualTo(new EccentricTurn(
                        EccentricTurn.Sense.SMALLER,
                        new TurnRange(new BigDecimal("2.2"), new BigDecimal("3.5")),
                        new TurnRange(new BigDecimal("356.5"), new BigDecimal("357.8"))));
    }

    // ---- after a recheck that is not within

    @Nested
    class Again {
        private static final ValveReading TIGHT = ValveReading.of("1-in-1", "0.03 mm goes", "0.05 mm refuses");
        private static final Done SET = new Done.SetWith(LeafStack.parse("0.07 mm"));
        private static final List<Trial> LOOSE = trials("0.09 mm goes", "0.12 mm refuses");

        @Test
        void isSaidOnlyOfARecheckThatIsNotWithin() {
            assertThat(generator(TIGHT).again()).isEmpty();
            assertThat(generator(TIGHT.withDone(SET, List.of())).again()).isEmpty();
            assertThat(generator(TIGHT.withDone(SET, trials("0.07 mm drags"))).again())
                    .isEmpty();
            assertThat(generator(TIGHT.withDone(SET, trials("0.09 mm goes", "0.07 mm refuses")))
                            .again())
                    .as("trials at odds")
                    .isEmpty();
            assertThat(generator(TIGHT.withDone(SET, trials("0.06 mm goes", "0.12 mm refuses")))
                            .again())
                    .hasValueSatisfying(a -> assertThat(a).isInstanceOf(MeasureFurther.class));
        }

        @Test
        void theScrewIsSetFromWhereItStandsNowWithTheShiftMadeUpFor() {
            // Set with 0.07, read (0.09, 0.12): 0.035 more, variance 0.0001 + 0.03 squared / 12, precision 40000 / 7.
            // 40000 / 7 x 0.035 / (2500 + 40000 / 7) = 0.024348, standard error 0.011034. Aim 0.08: 0.06 would be
            // nearest, but
            // a standard error more would leave the window at 0.09; 0.05 stays in it.
            ValveCheck check = generator(TIGHT.withDone(SET, LOOSE));
            SetToLeaf again = (SetToLeaf) check.again().orElseThrow();
            assertThat(again.leaf()).isEqualTo(LeafStack.parse("0.05 mm"));
            assertThat(again.resulting())
                    .as("twice the standard error either way")
                    .isEqualTo(interval("[0.05228, 0.096416] mm"));
            assertThat(again.findLockShift().orElseThrow().count()).isOne();
            // 0.05 - 0.12 and 0.05 - 0.09 at 0.75 mm a turn
            assertThat(again.findTurn()).contains(new TurnRange(new BigDecimal("-33.6"), new BigDecimal("-19.2")));
            assertThat(adjustment(check, SetToLeaf.class).leaf())
                    .as("what was advised on what was found")
                    .isEqualTo(LeafStack.parse("0.09 mm"));
            assertThat(adjustment(check, SetToLeaf.class).findLockShift()).isEmpty();
        }

        @Test
        void theOtherValvesProfitFromWhatOneHasShown() {
            CheckSheet sheet = School.generatorSheet()
                    .valve(TIGHT.withDone(SET, LOOSE))
                    .valve(ValveReading.of("2-in-1", "0.03 mm goes", "0.05 mm refuses"))
                    .build();
            SetToLeaf other = adjustment(CheckReport.of(sheet).valves().get(1), SetToLeaf.class);
            assertThat(other.leaf()).isEqualTo(LeafStack.parse("0.05 mm"));
            assertThat(other.findLockShift()).isPresent();
        }

        @Test
        void onlySettingsWithALeafThatWereReadAgainShowAShift() {
            ValveReading untouched = ValveReading.of("2-in-1", "0.03 mm goes", "0.05 mm refuses");
            for (ValveReading other : List.of(
                    TIGHT.withDone(SET, List.of()),
                    TIGHT.withDone(SET, trials("0.09 mm goes")),
                    TIGHT.withDone(SET, trials("0.09 mm goes", "0.07 mm refuses")),
                    // the leaf bridges the hollow: what it reads too small is no shift
                    TIGHT.withDone(SET, trials("0.03 mm drags")).withPad(Pad.DISHED),
                    TIGHT.withDone(new Done.Turned(Ratio.parse("20")), LOOSE))) {
                CheckSheet sheet =
                        School.generatorSheet().valve(other).valve(untouched).build();
                SetToLeaf set = adjustment(CheckReport.of(sheet).valves().get(1), SetToLeaf.class);
                assertThat(set.findLockShift()).isEmpty();
                assertThat(set.leaf()).isEqualTo(LeafStack.parse("0.09 mm"));
            }
        }

        @Test
        void afterTheThirdTrySomethingIsLookedAt() {
            ValveReading reading = TIGHT;
            for (int tries = 1; tries <= 4; tries++) {
                reading = reading.withDone(SET, LOOSE);
                Adjustment again = generator(reading).again().orElseThrow();
                assertThat(again.kind()).as("after %d", tries).isEqualTo(tries < 3 ? "set-to-leaf" : "inspect");
            }
            CheckSheet sheet =
                    School.generatorSheet().valve(TIGHT.withDone(SET, LOOSE)).build();
            assertThat(ValveCheck.of(
                                    sheet,
                                    sheet.valves().get(0),
                                    Adjuster.withDefaults().withMostTries(1))
                            .again())
                    .hasValueSatisfying(a -> assertThat(a).isInstanceOf(Inspect.class));
        }

        @Test
        void theFittedShimIsTheOneInstalledNow() {
            // 2.60 fitted for 2.65, and (0.12, 0.15) read: s from 2.53 to 2.56. Reckoned from 2.65 it would be 2.60.
            ValveCheck check = roadTrainer(ValveReading.of("2-in-2", "0.12 mm goes", "0.15 mm refuses")
                    .withShim(School.marked("2.65"))
                    .withDone(new Done.Fitted(mm("2.60")), trials("0.12 mm goes", "0.15 mm refuses")));
            assertThat(adjustment(check, FitShim.class).shim()).isEqualTo(mm("2.60"));
            assertThat(check.again())
                    .contains(new FitShim(mm("2.55"), mms("2.55"), interval("(0.17, 0.20) mm"), false, null));
        }

        @Test
        void theFittedShimIsOfTheTypeThatWasThere() {
            ShimBox mixed = new ShimBox(
                    List.of(new ShimBox.Lot(mm("2.54"), 1, "9.48"), new ShimBox.Lot(mm("2.53"), 1, "7.48")));
            ValveCheck check = only(School.roadTrainerSheet()
                    .shimBox(mixed)
                    .valve(ValveReading.of("2-in-2", "0.12 mm goes", "0.15 mm refuses")
                            .withShim(new InstalledShim(mm("2.65"), null, Length.ZERO, "7.48"))
                            .withDone(new Done.Fitted(mm("2.60")), trials("0.12 mm goes", "0.15 mm refuses")))
                    .build());
            assertThat(((FitShim) check.again().orElseThrow()).certain()).isEqualTo(mms("2.53", "2.55"));
        }

        @Test
        void aTurnedEccentricNoLongerStandsWhereItStood() {
            EngineSpec quad = engine(new ValveTrain.Eccentric(mm("1"), Ratio.ONE))
                    .window(ValveRole.INTAKE, window("0.05..0.09 mm"))
                    .window(ValveRole.EXHAUST, window("0.12..0.18 mm"))
                    .build();
            ValveCheck check = only(CheckSheet.builder(quad, School.GENERATOR_LEAVES)
                    .valve(TIGHT.withEccentricAngle(Ratio.ZERO).withDone(SET, LOOSE))
                    .build());
            assertThat(adjustment(check, SetToLeaf.class).eccentric()).hasSize(2);
            assertThat(((SetToLeaf) check.again().orElseThrow()).eccentric()).isEmpty();
        }

        @Test
        void belongsToTheCheck() {
            // The same reading, but another valve has shown another shift.
            ValveReading reading = TIGHT.withDone(SET, LOOSE);
            CheckSheet alone = School.generatorSheet().valve(reading).build();
            CheckSheet both = School.generatorSheet()
                    .valve(reading)
                    .valve(ValveReading.of("2-in-1", "0.03 mm goes", "0.05 mm refuses")
                            .withDone(SET, trials("0.04 mm drags")))
                    .build();
            ValveCheck a = ValveCheck.of(alone, reading, Adjuster.withDefaults());
            ValveCheck b = ValveCheck.of(both, reading, Adjuster.withDefaults());
            assertThat(a.again()).isNotEqualTo(b.again());
            assertThat(a).isNotEqualTo(b);
            Contracts.serialises(a);
        }
    }

    // ---- a valve that is opened and closed

    @Nested
    class Desmodromic {
        private static final ShimRange OPENERS = ShimRange.parse("2.40..2.60 mm step 0.01 mm");
        private static final ShimRange CLOSERS = ShimRange.parse("5.40..5.60 mm step 0.01 mm");

        private EngineSpec.Builder twoGaps() {
            return engine(new ValveTrain.Desmodromic(OPENERS, CLOSERS))
                    .window(ValveRole.INTAKE, window("0.05..0.12 mm"))
                    .window(ValveRole.EXHAUST, window("0.05..0.15 mm"));
        }

        private EngineSpec hillBike() {
            return twoGaps()
                    .closerClearance(ValveRole.INTAKE, ClearanceSpec.typical(window("0.00..0.05 mm")))
                    .closerClearance(ValveRole.EXHAUST, ClearanceSpec.typical(window("0.00..0.05 mm")))
                    .build();
        }

        private List<ValveCheck> checks(ValveReading... readings) {
            CheckSheet.Builder sheet = CheckSheet.builder(
                    hillBike(), leaves("0.05", "0.06", "0.08", "0.09", "0.10", "0.11", "0.12", "0.14", "0.15", "0.16"));
            for (ValveReading reading : readings) {
                sheet.valve(reading);
            }
            return CheckReport.of(sheet.build()).valves();
        }

        private ValveReading opener(List<Trial> unloaded, List<Trial> loaded) {
            return ValveReading.of("1-in-1").withTrials(unloaded).asOpener(loaded);
        }

        private String gap(ValveCheck check) {
            return check.bracket().map(Bracket::interval).orElseThrow().toString();
        }

        @Test
        void theCloserIsReadFromTheOpenersEntry() {
            List<ValveCheck> checks = checks(
                    opener(trials("0.10 mm drags"), trials("0.14 mm drags")),
                    ValveReading.of("1-in-1").asCloser(List.of(), false));
            assertThat(gap(checks.get(0))).as("unloaded").isEqualTo("[0.10, 0.10] mm");
            assertThat(gap(checks.get(1))).as("loaded minus unloaded").isEqualTo("[0.04, 0.04] mm");
            assertThat(checks).extracting(c -> c.verdict().orElseThrow()).containsOnly(Verdict.WITHIN);
            assertThat(checks).allSatisfy(c -> assertThat(c.adjustment()).contains(new Leave()));
            assertThat(checks).allSatisfy(c -> assertThat(codes(c)).isEmpty());
            assertThat(checks.get(1)).hasToString("1-in-1 closer within");
            assertThat(checks.get(1).bracket().orElseThrow().unloaded()).isEqualTo(trials("0.10 mm drags"));
        }

        @Test
        void theOrderOnTheSheetDoesNotMatter() {
            assertThat(gap(checks(
                                    ValveReading.of("1-in-1").asCloser(List.of(), false),
                                    opener(trials("0.10 mm drags"), trials("0.14 mm drags")))
                            .get(0)))
                    .isEqualTo("[0.04, 0.04] mm");
        }

        @Test
        void trialsOfItsOwnComeFirst() {
            ValveReading opener = opener(trials("0.10 mm drags"), trials("0.14 mm drags"));
            assertThat(gap(checks(
                                    opener,
                                    ValveReading.of("1-in-1", "0.11 mm drags").asCloser(trials("0.16 mm drags"), false))
                            .get(1)))
                    .isEqualTo("[0.05, 0.05] mm");
            assertThat(gap(checks(opener, ValveReading.of("1-in-1").asCloser(trials("0.11 mm drags"), false))
                            .get(1)))
                    .as("loaded of its own, unloaded from the opener")
                    .isEqualTo("[0.01, 0.01] mm");
            assertThat(gap(checks(
                                    opener,
                                    ValveReading.of("1-in-1", "0.12 mm drags").asCloser(List.of(), false))
                            .get(1)))
                    .as("unloaded of its own, loaded from the opener")
                    .isEqualTo("[0.02, 0.02] mm");
        }

        @Test
        void theOpenerOfAnotherValveIsNotItsOpener() {
            ValveCheck check = checks(
                            ValveReading.of("1-ex-1", "0.10 mm drags").asOpener(trials("0.14 mm drags")),
                            ValveReading.of("1-in-1").asCloser(List.of(), false))
                    .get(1);
            assertThat(gap(check)).isEqualTo("any");
            assertThat(check.verdict()).contains(Verdict.UNDECIDED);
            assertThat(finding(check, FindingCode.NOT_MEASURED).severity()).isEqualTo(Severity.NOTE);
        }

        @Test
        void turnsFreeByHandSettlesAWindowFromZero() {
            // Both between 0.09 and 0.12: (-0.03, 0.03).
            ValveReading opener =
                    opener(trials("0.09 mm goes", "0.12 mm refuses"), trials("0.09 mm goes", "0.12 mm refuses"));
            ValveCheck unknown = checks(opener, ValveReading.of("1-in-1").asCloser(List.of(), false))
                    .get(1);
            assertThat(unknown.possible()).containsExactly(Verdict.TIGHT, Verdict.WITHIN);
            assertThat(adjustment(unknown, MeasureFurther.class).why()).contains("by hand");
            assertThat(unknown.nextLeaf())
                    .as("one leaf does not settle a difference")
                    .isEmpty();
            ValveCheck free = checks(opener, ValveReading.of("1-in-1").asCloser(List.of(), true))
                    .get(1);
            assertThat(gap(free)).isEqualTo("[0.00, 0.03) mm");
            assertThat(free.verdict()).contains(Verdict.WITHIN);
        }

        @Test
        void aCloserThatMayHoldTheValveIsNeverWithin() {
            // Loaded only known to be below 0.12, unloaded (0.09, 0.10): below 0.03, maybe below 0.
            ValveReading opener = opener(trials("0.09 mm goes", "0.10 mm refuses"), trials("0.12 mm refuses"));
            ValveCheck check = checks(opener, ValveReading.of("1-in-1").asCloser(List.of(), false))
                    .get(1);
            assertThat(check.verdict()).contains(Verdict.UNDECIDED);
            assertThat(check.possible()).containsExactly(Verdict.TIGHT, Verdict.WITHIN);
            assertThat(codes(check)).as("no sign of damage in this").doesNotContain(FindingCode.MAY_HAVE_NO_CLEARANCE);
        }

        @Test
        void loadedSmallerThanUnloadedEndsTheCloserOnly() {
            List<ValveCheck> checks = checks(
                    opener(trials("0.10 mm goes", "0.11 mm drags"), trials("0.09 mm drags", "0.12 mm refuses")),
                    ValveReading.of("1-in-1").asCloser(List.of(), true));
            assertThat(checks.get(0).verdict()).contains(Verdict.WITHIN);
            assertThat(checks.get(1).verdict()).isEmpty();
            assertThat(checks.get(1).adjustment()).isEmpty();
            Finding found = finding(checks.get(1), FindingCode.CONTRADICTION);
            assertThat(found.place()).isEqualTo("1-in-1 closer");
            assertThat(found.severity()).isEqualTo(Severity.ERROR);
            assertThat(found.value()).isEqualTo("0.11 mm drags and 0.09 mm drags");
        }

        @Test
        void trialsAtOddsUnderLoadAreNotPassedOverForWantOfTheOthers() {
            ValveCheck check = checks(
                            ValveReading.of("1-in-1").asCloser(trials("0.14 mm goes", "0.12 mm refuses"), false))
                    .get(0);
            assertThat(finding(check, FindingCode.CONTRADICTION).value()).isEqualTo("0.14 mm goes and 0.12 mm refuses");
        }

        @Test
        void eachGapIsAdjustedWithItsOwnShims() {
            // Closer [0.06] into 0 to 0.05, aim 0.0125: 0.05 thicker leaves 0.01. Opener [0.14] into 0.05 to 0.12,
            // aim 0.1025: 0.04 thicker leaves 0.10.
            List<ValveCheck> checks = checks(
                    opener(trials("0.14 mm drags"), trials("0.20 mm drags")).withShim(School.marked("2.50")),
                    ValveReading.of("1-in-1").asCloser(List.of(), true).withShim(School.marked("5.50")));
            FitShim opener = adjustment(checks.get(0), FitShim.class);
            assertThat(opener.shim()).isEqualTo(mm("2.54"));
            assertThat(opener.resulting()).isEqualTo(interval("[0.10, 0.10] mm"));
            FitShim closer = adjustment(checks.get(1), FitShim.class);
            assertThat(closer.shim()).isEqualTo(mm("5.55"));
            assertThat(closer.certain()).isEqualTo(mms("5.51", "5.52", "5.53", "5.54", "5.55", "5.56"));
            assertThat(checks.get(1).certainShims()).contains(closer.certain());
        }

        @Test
        void aShimOfTheOtherGapIsNotOneThatIsMade() {
            List<ValveCheck> checks = checks(
                    opener(trials("0.10 mm drags"), trials("0.14 mm drags")).withShim(School.marked("5.50")),
                    ValveReading.of("1-in-1").asCloser(List.of(), true).withShim(School.marked("5.50")));
            assertThat(finding(checks.get(0), FindingCode.SHIM_NOT_IN_RANGE).expected())
                    .isEqualTo(OPENERS.toString());
            assertThat(codes(checks.get(1))).isEmpty();
        }

        @Test
        void farTooLooseIsAboutCamsAndShims() {
            List<ValveCheck> checks = checks(
                    opener(trials("0.05 mm drags"), trials("0.16 mm drags")).withShim(School.marked("2.50")),
                    ValveReading.of("1-in-1").asCloser(List.of(), true).withShim(School.marked("5.50")));
            Finding found = finding(checks.get(1), FindingCode.FAR_TOO_LOOSE);
            assertThat(found.problem()).contains("[0.11, 0.11] mm", "0.00..0.05 mm");
            assertThat(found.mend()).contains("cam lobe").doesNotContain("rocker pad");
            assertThat(adjustment(checks.get(1), Inspect.class).findThen())
                    .hasValueSatisfying(then -> assertThat(then).isInstanceOf(FitShim.class));
        }

        @Test
        void anOpenerIsCheckedAgainLikeAnyShim() {
            ValveReading found = opener(trials("0.14 mm drags"), List.of()).withShim(School.marked("2.50"));
            Done fitted = new Done.Fitted(mm("2.54"));
            assertThat(codes(checks(found.withDone(fitted, trials("0.10 mm drags")))
                            .get(0)))
                    .isEmpty();
            ValveCheck check =
                    checks(found.withDone(fitted, trials("0.15 mm drags"))).get(0);
            assertThat(finding(check, FindingCode.RECHECK_UNEXPECTED).problem()).contains("[0.10, 0.10] mm");
            // From 2.54 on: [0.15] to 0.10 is 0.05 thicker.
            assertThat(((FitShim) check.again().orElseThrow()).shim()).isEqualTo(mm("2.59"));
        }

        @Test
        void withoutAWindowForTheCloserThereIsNoVerdictAndNoTolerance() {
            CheckSheet sheet = CheckSheet.builder(twoGaps().build(), leaves("0.10", "0.14"))
                    .valve(opener(trials("0.10 mm drags"), trials("0.14 mm drags")))
                    .valve(ValveReading.of("1-in-1").asCloser(List.of(), true))
                    .build();
            ValveCheck check = CheckReport.of(sheet).valves().get(1);
            assertThat(gap(check)).isEqualTo("[0.04, 0.04] mm");
            assertThat(check.clearance()).isEmpty();
            assertThat(check.verdict()).isEmpty();
            assertThat(adjustment(check, Inspect.class).why())
                    .contains("no window is given for the closer", "service manual")
                    .doesNotContain("hydraulic");
        }
    }

    @ParameterizedTest
    @CsvSource({"false", "true"})
    void hydraulicLiftersAreNotJudged(boolean withWindows) {
        EngineSpec.Builder builder = engine(new ValveTrain.Hydraulic());
        if (withWindows) {
            builder.window(ValveRole.INTAKE, window("0.05..0.09 mm"));
        }
        GaugeSet gauges = leaves("0.05");
        ValveCheck offered = only(CheckSheet.builder(builder.build(), gauges)
                .valve(ValveReading.of("1-in-1", "0.05 mm refuses"))
                .build());
        assertThat(offered.clearance()).isEmpty();
        assertThat(offered.verdict()).isEmpty();
        assertThat(offered.possible()).isEmpty();
        assertThat(offered.nextLeaf()).isEmpty();
        assertThat(adjustment(offered, NotApplicable.class).why()).contains("hydraulic");
        ValveCheck untouched = only(CheckSheet.builder(builder.build(), gauges)
                .valve(ValveReading.of("1-in-1"))
                .build());
        assertThat(untouched.findings()).as("no trials is what there should be").isEmpty();
    }

    // ---- serialisation, nulls

    @Test
    void survivesSerialisation() {
        ValveCheck check = roadTrainer(ValveReading.of("1-in-1", "0.15 mm goes", "0.16 mm refuses")
                .withShim(School.marked("2.45"))
                .withDone(new Done.Fitted(mm("2.40")), trials("0.20 mm drags")));
        Contracts.serialises(check);
        assertThat(Contracts.copied(check).recheckVerdict()).isEqualTo(check.recheckVerdict());
    }

    @Test
    void equalityAndText() {
        ValveReading reading = ValveReading.of("1-in-1", "0.03 mm goes", "0.05 mm refuses");
        Contracts.equality(
                generator(reading),
                generator(reading),
                List.of(
                        generator(ValveReading.of("2-in-1", "0.03 mm goes", "0.05 mm refuses")),
                        generator(reading.withPad(Pad.DISHED)),
                        only(School.generatorSheet()
                                .rule(guarded("0.003", "0.00"))
                                .valve(reading)
                                .build())));
        assertThat(generator(reading)).hasToString("1-in-1 tight");
        assertThat(generator(ValveReading.of("1-in-1", "0.05 mm goes", "0.03 mm refuses")))
                .hasToString("1-in-1 without verdict");
    }

    @Test
    void nullIsRefused() {
        CheckSheet sheet = School.generator();
        ValveReading reading = sheet.valves().get(0);
        Contracts.refuseNull(
                () -> ValveCheck.of(null, reading, Adjuster.withDefaults()),
                () -> ValveCheck.of(sheet, null, Adjuster.withDefaults()),
                () -> ValveCheck.of(sheet, reading, null));
    }
}
