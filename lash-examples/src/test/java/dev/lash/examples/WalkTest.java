package dev.lash.examples;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.adjust.InstalledShim;
import dev.lash.adjust.ShimBox;
import dev.lash.check.CheckReport;
import dev.lash.check.CheckSheet;
import dev.lash.check.Done;
import dev.lash.check.FindingCode;
import dev.lash.check.PastVisit;
import dev.lash.check.ValveReading;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.Decompressor;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.Trial;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import dev.lash.measure.Temperature;
import dev.lash.measure.Usage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Walks with scripted answers, from a sheet without readings to the report. */
class WalkTest {
    @TempDir
    Path folder;

    private Path file;

    @BeforeEach
    void name() {
        file = folder.resolve("bike.json");
    }

    private WalkRun walk(CheckSheet sheet, String script) {
        WalkRun.write(file, sheet);
        return WalkRun.resume(file, script);
    }

    private ValveReading valve(String name) {
        return WalkRun.valve(file, name);
    }

    private static List<Trial> trials(String... texts) {
        return Arrays.stream(texts).map(Trial::parse).toList();
    }

    /** What was said, as if no line had been broken. */
    private static String said(WalkRun run) {
        return run.out().replaceAll("\\s*\n\\s*", " ");
    }

    private static GaugeSet mm(String... leaves) {
        return GaugeSet.of(LengthUnit.MILLIMETRE, leaves);
    }

    @Test
    void singleWithAllWithin() {
        WalkRun run = walk(WalkRun.quad(WalkRun.LEAVES), "f g  f g  e");
        assertThat(run.code()).isZero();
        assertThat(run.err()).isEmpty();
        assertThat(valve("1-in-1").trials()).isEqualTo(trials("0.13 mm forced", "0.08 mm goes"));
        assertThat(valve("1-ex-1").trials()).isEqualTo(trials("0.22 mm forced", "0.17 mm goes"));
        assertThat(run.out())
                .contains("Valve 1 of 2: 1-in-1, intake, window 0.08..0.13 mm")
                .contains("Known: nothing yet. It may be tight, within or loose.")
                .contains("""
                          Offer 0.13 mm: g goes, d drags, f forced, r refuses, ? help > f
                          Known: less than 0.13 mm. It may be tight or within.
                          Offer 0.08 mm: g goes, d drags, f forced, r refuses, ? help > g
                          Known: more than 0.08 mm, less than 0.13 mm. WITHIN.
                          1-in-1 is finished: leave it as it is.
                        """)
                .contains("Every valve is finished.")
                .contains("Result: 2 within (1-in-1, 1-ex-1)")
                .doesNotContain("Done?");
    }

    @Test
    void cautionsComeBeforeTheFirstLeaf() {
        String out = walk(WalkRun.quad(WalkRun.LEAVES), "q").out();
        assertThat(out.indexOf("Ignition off")).isNotNegative().isLessThan(out.indexOf("Valve 1"));
        assertThat(out).contains("DOUBT engine: the engine's temperature was not recorded");
    }

    @Test
    void screenFitsEightyColumnsAndIsPlain() {
        WalkRun run = walk(
                WalkRun.twin(WalkRun.LEAVES.withStacksOf(3)),
                "f f ? l0.05+0.07+0.10\nf g y ? g d  g f f g  l0.40\nn0.11\ny?g s r r ?s bs e");
        assertThat(run.out()
                        .substring(0, run.out().indexOf("Valve-clearance check"))
                        .lines())
                .allMatch(line -> line.length() <= 80);
        assertThat(run.out()).doesNotContain("\u001b").doesNotContain("\r").endsWith("\n");
    }

    /** A single with four valves and shims under the buckets, and one shim of 2.40 mm in the box. */
    private static CheckSheet underBuckets() {
        EngineSpec engine = EngineSpec.builder("trainer", "Hill trainer, shims under the buckets")
                .valves("1-in-1", "1-in-2", "1-ex-1", "1-ex-2")
                .train(ValveTrain.Shim.bucket(
                        ValveTrain.ShimPlace.UNDER_BUCKET, ShimRange.parse("1.20..3.50 mm step 0.05 mm")))
                .window(ValveRole.INTAKE, ClearanceWindow.parse("0.10..0.15 mm"))
                .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.15..0.20 mm"))
                .build();
        return CheckSheet.builder(engine, mm("0.05", "0.08", "0.10", "0.15", "0.20"))
                .shimBox(new ShimBox(List.of(new ShimBox.Lot(Length.ofMillimetres("2.40"), 1, ""))))
                .build();
    }

    private static final String READ_ALL = "r r g 2.45\n  r g  r r g 2.50\nr  r g ";

    /** No shim is offered before the last valve is read: the camshaft comes out once, and not between two valves. */
    @Test
    void camshaftComesOutOnlyWhenEveryValveIsRead() {
        WalkRun run = walk(underBuckets(), READ_ALL + "y y q");
        assertThat(said(run))
                .containsSubsequence(
                        "1-in-1 is read; it waits until every valve is read",
                        "Valve 2 of 4: 1-in-2",
                        "1-ex-1 is read; it waits until every valve is read",
                        "Valve 4 of 4: 1-ex-2",
                        "1-ex-2 is finished",
                        "Valve 1 of 4: 1-in-1",
                        "Every valve is read. The shim plan for the whole engine: 1. ",
                        "What to do: by the plan, fit 2.40 mm (box)",
                        "Done? y yes, fitted shim 2.40 mm",
                        "It is checked again when all are done",
                        "Valve 3 of 4: 1-ex-1",
                        "Done? y yes",
                        "Valve 1 of 4: 1-in-1");
        assertThat(said(run).split("Done\\?", -1)[0]).contains("Valve 4 of 4");
        assertThat(valve("1-in-1").done()).isEqualTo(new Done.Fitted(Length.ofMillimetres("2.40")));
        assertThat(valve("1-ex-1").findDone()).isPresent();
    }

    @Test
    void walkInRoundsGoesOnAndGoesBackFromTheSheet() {
        WalkRun begun = walk(underBuckets(), "r r g 2.45\n q");
        assertThat(said(begun)).contains("Valve 2 of 4").doesNotContain("Done?");
        // the shim of the valve that waits is the last answer on the sheet
        WalkRun back = WalkRun.resume(file, "u q");
        assertThat(said(back)).contains("The last answer is taken back.", "Size of the shim that is in");
        assertThat(valve("1-in-1").findShim()).isEmpty();
        WalkRun on = WalkRun.resume(file, "2.45\n r g  r r g 2.50\nr  r g y u q");
        assertThat(said(on)).contains("The shim plan for the whole engine");
        assertThat(valve("1-in-1").findDone()).as("taken back").isEmpty();
        WalkRun last = WalkRun.resume(file, "n n e");
        assertThat(said(last))
                .contains("1-in-1 is left as it stands", "1-ex-1 is left as it stands", "Left unfinished");
    }

    private static CheckSheet held(Decompressor device) {
        return CheckSheet.builder(
                        WalkRun.quad(WalkRun.LEAVES).engine().toBuilder()
                                .decompressor(device)
                                .build(),
                        WalkRun.LEAVES)
                .build();
    }

    /** The exhaust valve is read where the device has let go, after the adjustment too, and the sheet says so. */
    @Test
    void heldValveIsReadClearOfTheDecompressor() {
        WalkRun run = walk(
                held(new Decompressor(ValveId.parse("1-ex-1"), Ratio.of(60, 1), Ratio.of(30, 1))), "f g  r r g y d  e");
        assertThat(said(run))
                .contains("Cylinder 1 at compression TDC, the follower slack.")
                .contains(
                        "Cylinder 1 at 31 degrees after compression TDC, the follower slack and clear of the decompressor.")
                .contains("back to 31 degrees after compression TDC of cylinder 1.")
                .doesNotContain("the decompressor holds this valve");
        assertThat(valve("1-ex-1").stop()).isEqualTo("31 degrees after compression TDC of cylinder 1");
        assertThat(valve("1-in-1").stop()).isEmpty();
    }

    @Test
    void readingAtTheForbiddenSpotIsInDoubtBesideWhatToDo() {
        CheckSheet sheet = held(new Decompressor(ValveId.parse("1-ex-1"), Ratio.of(60, 1), Ratio.of(30, 1)));
        CheckSheet begun = CheckSheet.builder(sheet.engine(), sheet.gauges())
                .valve(new ValveReading(
                        ValveId.parse("1-ex-1"),
                        Gap.ONLY,
                        trials("0.15 mm refuses", "0.12 mm goes"),
                        List.of(),
                        false,
                        null,
                        Pad.SOUND,
                        null,
                        "compression TDC",
                        null,
                        0,
                        List.of()))
                .build();
        assertThat(said(walk(begun, "q")))
                .containsSubsequence("IN DOUBT: the decompressor holds this valve", "What to do: set to leaf");
        ProgramRun report = ProgramRun.of(begun, "check", "-");
        assertThat(report.out()).contains("tight   IN DOUBT, decompressor:");
    }

    @Test
    void decompressorOfUnknownAnglesIsNamed() {
        WalkRun run = walk(held(Decompressor.ofUnknownAngles(ValveId.parse("1-ex-1"))), "f g  r r g y d  e");
        assertThat(said(run))
                .contains("the follower slack. A decompressor may hold this valve there (its angles are not known)")
                .contains("IN DOUBT: a decompressor may hold this valve near compression TDC");
        assertThat(valve("1-ex-1").stop()).isEmpty();
    }

    @Test
    void tightValveIsSetAndTheRecheckDrags() {
        WalkRun run = walk(WalkRun.quad(WalkRun.LEAVES), "f g  r r g y d  e");
        ValveReading exhaust = valve("1-ex-1");
        assertThat(exhaust.trials()).isEqualTo(trials("0.22 mm refuses", "0.17 mm refuses", "0.05 mm goes"));
        assertThat(exhaust.done()).isEqualTo(new Done.SetWith(LeafStack.parse("0.20 mm")));
        assertThat(exhaust.recheck()).isEqualTo(trials("0.20 mm drags"));
        assertThat(run.code()).isZero();
        assertThat(run.out())
                .contains("Known: more than 0.05 mm, less than 0.17 mm. TIGHT.")
                .contains("What to do: set to leaf 0.20, screw out 21.6 to 108 degrees; lock, recheck")
                .contains("Done? y yes, set with 0.20 mm; o otherwise; n not done; ? help > y")
                .contains("Now check it again: turn the engine over by hand twice")
                .contains("After the adjustment: exactly 0.20 mm. WITHIN.\n  1-ex-1 is finished.\n")
                .contains(" after 0.20 drags");
    }

    @Test
    void settingLeafIsTheFirstOfTheRecheckAndOthersFollow() {
        WalkRun run = walk(WalkRun.quad(WalkRun.LEAVES), "f g  g y g f e");
        assertThat(valve("1-ex-1").recheck()).isEqualTo(trials("0.20 mm goes", "0.22 mm forced"));
        assertThat(run.out()).contains("DOUBT 1-ex-1: set with 0.20 mm should have given");
    }

    @Test
    void adjustmentDoneOtherwise() {
        walk(WalkRun.quad(WalkRun.LEAVES), "f g  g o0.17\nd e");
        assertThat(valve("1-ex-1").done()).isEqualTo(new Done.SetWith(LeafStack.parse("0.17 mm")));
        assertThat(valve("1-ex-1").recheck()).isEqualTo(trials("0.17 mm drags"));

        walk(WalkRun.quad(WalkRun.LEAVES), "f g  g o4000 deg\n-12.5 deg\ng f g e");
        assertThat(valve("1-ex-1").done()).isEqualTo(new Done.Turned(Ratio.parse("-12.5")));

        walk(WalkRun.quad(WalkRun.LEAVES), "f g  g o\n\nd e");
        assertThat(valve("1-ex-1").done()).isEqualTo(new Done.SetWith(LeafStack.parse("0.20 mm")));
    }

    @Test
    void notDoneGoesOnAndComesBackOnWish() {
        WalkRun run = walk(WalkRun.quad(WalkRun.LEAVES), "g n f g b y d e");
        assertThat(run.out()).contains("Left unfinished: 1-in-1 (loose).").contains("Every valve is finished.");
        assertThat(valve("1-in-1").recheck()).isEqualTo(trials("0.12 mm drags"));
        assertThat(run.out()).contains("Result: 1 within (1-ex-1), 1 loose (1-in-1)");
    }

    @Test
    void turnIsTakenFromTheMiddleOfTheAdviceWhereNoLeafFitsTheWindow() {
        // no leaf between 0.17 and 0.22: the screw is turned by degrees
        CheckSheet sheet = WalkRun.quad(mm("0.05", "0.10", "0.13", "0.15", "0.25"));
        WalkRun run = walk(sheet, "s rd y q");
        assertThat(valve("1-ex-1").trials()).isEqualTo(trials("0.25 mm refuses", "0.15 mm drags"));
        // from 0.15 to the aim at 0.2075: 0.0575 / 0.5 x 360 = 41.4 degrees
        assertThat(valve("1-ex-1").done()).isEqualTo(new Done.Turned(Ratio.parse("41.4")));
        assertThat(said(run))
                .contains("no owned leaf fits the window: screw out 41.4 degrees")
                .contains("y yes, turned by 41.4 degrees");
    }

    @Test
    void turnsOfSeveralRoundsAddUp() {
        walk(WalkRun.quad(mm("0.05", "0.10", "0.13", "0.15", "0.25")), "s rd y  rd o-5\n q");
        assertThat(valve("1-ex-1").done()).isEqualTo(new Done.Turned(Ratio.parse("36.4")));
        assertThat(valve("1-ex-1").recheck()).isEmpty();
    }

    @Test
    void contradictionIsCaughtAtOnceAndBothTrialsAreRepeated() {
        WalkRun run = walk(WalkRun.quad(WalkRun.LEAVES), "l0.15\nf l0.08\nr l0.10\ng");
        assertThat(run.out())
                .contains("CONTRADICTION: 0.10 mm goes and 0.08 mm refuses cannot both be true.")
                .contains("Again 0.08 mm: g goes");
        // nothing is dropped before it has been repeated
        assertThat(valve("1-in-1").trials()).isEqualTo(trials("0.15 mm forced", "0.08 mm refuses", "0.10 mm goes"));
        assertThat(CheckReport.of(WalkRun.read(file)).hasErrors()).isTrue();

        run = WalkRun.resume(file, "g");
        assertThat(run.out()).contains("Again 0.10 mm: g goes");
        run = WalkRun.resume(file, "g");
        assertThat(run.out()).contains("Both are answered again. Taken out: 0.08 mm refuses, 0.10 mm goes.");
        assertThat(valve("1-in-1").trials()).isEqualTo(trials("0.15 mm forced", "0.08 mm goes", "0.10 mm goes"));
        run = WalkRun.resume(file, "f fg e");
        assertThat(run.code()).isZero();
        assertThat(run.out()).contains("Result: 2 within");
    }

    @Test
    void contradictionThatIsRepeatedComesUpAgain() {
        WalkRun run = walk(WalkRun.quad(WalkRun.LEAVES), "f l0.15\ng  f g  q");
        assertThat(run.out())
                .containsSubsequence(
                        "CONTRADICTION",
                        "Again 0.13 mm",
                        "Now the other of the two.",
                        "Again 0.15 mm",
                        "CONTRADICTION",
                        "Again 0.13 mm");
        assertThat(run.out().split("CONTRADICTION", -1)).hasSize(3);
        assertThat(valve("1-in-1").trials()).isEqualTo(trials("0.13 mm forced", "0.15 mm goes"));
    }

    @Test
    void leftContradictionIsAnErrorOfTheReport() {
        WalkRun run = walk(WalkRun.quad(WalkRun.LEAVES), "f l0.15\ng s f g e");
        assertThat(run.code()).isEqualTo(Main.FINDINGS);
        assertThat(run.out())
                .contains("Left unfinished: 1-in-1 (contradicting trials).")
                .contains("ERROR 1-in-1: 0.15 mm goes and 0.13 mm forced cannot both be true");
    }

    @Test
    void contradictionInTheRecheckIsRepeatedToo() {
        walk(WalkRun.quad(WalkRun.LEAVES), "s g y l0.25\ng l0.20\nr");
        assertThat(valve("1-ex-1").trials()).isEqualTo(trials("0.22 mm goes"));
        assertThat(valve("1-ex-1").recheck()).isEqualTo(trials("0.25 mm goes", "0.20 mm refuses"));
        WalkRun run = WalkRun.resume(file, "r d e");
        assertThat(valve("1-ex-1").recheck()).isEqualTo(trials("0.25 mm refuses", "0.20 mm drags"));
        assertThat(run.out()).contains("After the adjustment: exactly 0.20 mm. WITHIN.");
    }

    @Test
    void twoResultsOfOneLeafAreSettledByOneMore() {
        walk(WalkRun.quad(WalkRun.LEAVES), "f l0.13\ng  f  q");
        assertThat(valve("1-in-1").trials()).isEqualTo(trials("0.13 mm forced"));
    }

    @Test
    void undoTakesBackTheSlipOfAContradiction() {
        walk(WalkRun.quad(WalkRun.LEAVES), "f l0.15\ng u q");
        assertThat(valve("1-in-1").trials()).isEqualTo(trials("0.13 mm forced"));
    }

    @Test
    void undoGoesBackAcrossValves() {
        WalkRun run = walk(WalkRun.twin(WalkRun.LEAVES), "fg f uu uu u q");
        assertThat(run.out())
                .contains("The last answer is taken back.")
                .contains("There is no answer to take back.")
                .containsSubsequence("Valve 1 of 4", "Valve 2 of 4", "Valve 1 of 4");
        assertThat(WalkRun.read(file)).isEqualTo(WalkRun.twin(WalkRun.LEAVES));
    }

    @Test
    void undoReachesAnswersFromBeforeTheResume() {
        walk(WalkRun.twin(WalkRun.LEAVES), "fg  g y g d");
        WalkRun.resume(file, "uu q");
        assertThat(valve("1-ex-1").recheck()).isEmpty();
        assertThat(valve("1-ex-1").done()).isEqualTo(new Done.SetWith(LeafStack.parse("0.20 mm")));
        WalkRun.resume(file, "u q");
        assertThat(valve("1-ex-1").done()).isNull();
        assertThat(valve("1-ex-1").trials()).hasSize(1);
        WalkRun.resume(file, "u q");
        assertThat(WalkRun.read(file).valves()).hasSize(1);
        WalkRun.resume(file, "uuuuu q");
        assertThat(WalkRun.read(file)).isEqualTo(WalkRun.twin(WalkRun.LEAVES));
    }

    @Test
    void undoTakesBackASkip() {
        walk(WalkRun.twin(WalkRun.LEAVES), "f s u g q");
        assertThat(WalkRun.read(file).valves()).hasSize(1);
        assertThat(valve("1-in-1").trials()).isEqualTo(trials("0.13 mm forced", "0.08 mm goes"));
        walk(WalkRun.twin(WalkRun.LEAVES), "f s");
        assertThat(WalkRun.read(file).valves()).hasSize(2);
        WalkRun.resume(file, "u g q");
        assertThat(WalkRun.read(file).valves()).hasSize(1);
        assertThat(valve("1-in-1").trials()).isEqualTo(trials("0.13 mm forced", "0.08 mm goes"));
    }

    @Test
    void undoOfALaterRoundBringsTheEarlierOneBack() {
        walk(WalkRun.quad(WalkRun.LEAVES), "s g y g g y u q");
        assertThat(valve("1-ex-1").done()).isEqualTo(new Done.SetWith(LeafStack.parse("0.20 mm")));
        assertThat(valve("1-ex-1").recheck()).isEqualTo(trials("0.20 mm goes", "0.22 mm goes"));
    }

    @Test
    void undoAtTheEndBeforeTheReport() {
        WalkRun run = walk(WalkRun.quad(WalkRun.LEAVES), "fg fg u d e");
        assertThat(valve("1-ex-1").trials()).isEqualTo(trials("0.22 mm forced", "0.17 mm drags"));
        assertThat(run.out()).contains("Result: 2 within");
    }

    @Test
    void skippedValveIsNamedAndComesBackAfterAResume() {
        WalkRun run = walk(WalkRun.twin(WalkRun.LEAVES), "s fg s fg e");
        assertThat(run.code()).isZero();
        assertThat(run.out()).contains("Left unfinished: 1-in-1 (not read), 2-in-1 (not read).");
        assertThat(run.out()).contains("NOTE 1-in-1: no trials");
        run = WalkRun.resume(file, "fg s x e");
        assertThat(run.out())
                .contains("On the sheet: 2 of 4 valves finished.")
                .containsSubsequence("Valve 1 of 4", "Valve 3 of 4")
                .contains("Left unfinished: 2-in-1 (not read).");
        run = WalkRun.resume(file, "fg e");
        assertThat(run.out()).contains("Every valve is finished.").contains("Result: 4 within (1-in-1, 1-ex-1, 2-in-1");
    }

    @Test
    void walkGoesOnWhereItWasLeftThoughAValveBeforeWasSkipped() {
        walk(WalkRun.twin(WalkRun.LEAVES), "f s g");
        assertThat(WalkRun.resume(file, "").out()).contains("Valve 2 of 4").doesNotContain("Valve 1 of 4");
    }

    @Test
    void unknownKeyIsSaidAndChangesNothing() {
        WalkRun run = walk(WalkRun.quad(WalkRun.LEAVES), "x 7 \u00e9 q");
        assertThat(run.out().split("That is no key here; \\? shows the keys\\.", -1))
                .hasSize(4);
        assertThat(WalkRun.read(file).valves()).isEmpty();
    }

    @Test
    void capitalsAreKeysToo() {
        walk(WalkRun.quad(WalkRun.LEAVES), "F G q");
        assertThat(valve("1-in-1").trials()).isEqualTo(trials("0.13 mm forced", "0.08 mm goes"));
    }

    @Test
    void anotherLeafThanTheProposedOne() {
        WalkRun run = walk(
                WalkRun.quad(WalkRun.LEAVES.withStacksOf(2)),
                "l 0.10\ng  l\n0.05 + 0.07\nf  l0,1\nten\n0.05+0.07+0.08\n\nr q");
        assertThat(valve("1-in-1").trials()).isEqualTo(trials("0.10 mm goes", "0.05 mm + 0.07 mm forced"));
        assertThat(run.out()).contains("Offer 0.10 mm: g goes").contains("Offer 0.05 mm + 0.07 mm: g goes");
        // the valve was finished by then: the rest went to the next one
        assertThat(run.out()).contains("a comma stands in the number").contains("does not begin with a number");
        assertThat(run.out()).contains("At most 2 of these leaves may be stacked.");
        assertThat(valve("1-ex-1").trials()).isEqualTo(trials("0.22 mm refuses"));
    }

    @Test
    void undoOfAChosenLeafGoesBackToTheProposedOne() {
        WalkRun run = walk(WalkRun.quad(WalkRun.LEAVES), "r l0.10\nu g q");
        assertThat(valve("1-in-1").trials()).isEqualTo(trials("0.13 mm refuses", "0.08 mm goes"));
        assertThat(run.out()).contains("Back to what was asked before.");
    }

    @Test
    void anotherLeafMayBeTriedThoughTheVerdictIsKnown() {
        WalkRun run = walk(WalkRun.quad(WalkRun.LEAVES), "g l0.30\ng y d q");
        assertThat(valve("1-in-1").trials()).isEqualTo(trials("0.13 mm goes", "0.30 mm goes"));
        assertThat(said(run)).contains("INSPECT FIRST: far too loose").contains("1-in-1 is finished.");
    }

    @Test
    void fileNameWithBlanksIsQuotedInWhatIsSaid() {
        file = folder.resolve("practice bike.json");
        WalkRun run = walk(WalkRun.quad(WalkRun.LEAVES), "q");
        assertThat(run.out()).contains("lash walk \"" + file + "\" --resume");
    }

    @Test
    void leafThatIsNotInTheSetIsAskedForAndThenCountsAsOwned() {
        WalkRun run = walk(WalkRun.quad(WalkRun.LEAVES), "l0.11\nn0.09\nyg q");
        assertThat(run.out()).contains("0.11 mm is not in the set. Is it at hand?");
        assertThat(valve("1-in-1").trials()).isEqualTo(trials("0.09 mm goes"));
        assertThat(WalkRun.read(file).gauges())
                .isEqualTo(WalkRun.LEAVES.withLeaf(
                        LeafStack.parse("0.09 mm").leaves().get(0)));
        assertThat(CheckReport.of(WalkRun.read(file)).findings())
                .noneMatch(f -> f.code() == FindingCode.LEAF_NOT_OWNED);
    }

    @Test
    void leafThinnerThanTheToleranceIsRefused() {
        GaugeSet set = WalkRun.LEAVES.withTolerance(Length.parse("0.01 mm"), Length.ZERO);
        WalkRun run = walk(WalkRun.quad(set), "l0.005\n\nq");
        assertThat(run.out()).contains("Not usable: leaf tolerance");
        assertThat(WalkRun.read(file).gauges()).isEqualTo(set);
    }

    @Test
    void leafToBorrowIsNamedAndTheValveMayStayUndecided() {
        CheckSheet sheet = WalkRun.quad(mm("0.05", "0.08", "0.10", "0.13", "0.15", "0.17", "0.20"));
        WalkRun run = walk(sheet, "s  g s e");
        assertThat(said(run))
                .contains("No leaf of the set settles it. Borrow 0.22 mm and answer with it")
                .contains("Left unfinished: 1-in-1 (not read), 1-ex-1 (undecided).")
                .contains("(not owned: borrow one)");
        assertThat(run.code()).isZero();
        run = WalkRun.resume(file, "f q");
        assertThat(valve("1-ex-1").trials()).isEqualTo(trials("0.20 mm goes", "0.22 mm forced"));
        assertThat(run.out()).contains("0.22 mm now counts among the leaves of this sheet.");
        assertThat(WalkRun.read(file).gauges().owns(LeafStack.parse("0.22 mm"))).isTrue();
    }

    @Test
    void guardedRuleMayLeaveAValveToALeafThatIsNotOwned() {
        GaugeSet set = mm("0.05", "0.13", "0.20").withTolerance(Length.parse("0.01 mm"), Length.parse("0.01 mm"));
        CheckSheet sheet = CheckSheet.builder(WalkRun.engine("screw-single", "0.08..0.13 mm", "0.17..0.22 mm"), set)
                .rule(set.guardedRule())
                .build();
        // both limits of the window lie inside what the drags of 0.13 allow, whatever leaf comes after
        WalkRun run = walk(sheet, "l0.13\nd l0.12\nyg l0.14\nyf gsssss e");
        assertThat(valve("1-in-1").trials())
                .isEqualTo(trials("0.13 mm drags", "0.12 mm goes", "0.14 mm forced", "0.11 mm goes"));
        assertThat(run.out())
                .contains("1-in-1 0.13 drags  (0.11, 0.15) 0.08..0.13 undecided within or loose: offer 0.15")
                .contains("(not owned: borrow one)");
        assertThat(run.code()).isZero();
    }

    @Test
    void shimIsAskedForFittedAndCheckedAgain() {
        CheckSheet sheet = WalkRun.four(WalkRun.LEAVES);
        WalkRun run = walk(sheet, "r r g 2.45\n y f g q");
        ValveReading first = valve("1-in-1");
        assertThat(run.out())
                .contains("Size of the shim that is in, in mm (Enter: not known; ? help):")
                .contains("What to do: fit shim")
                .contains("y yes, fitted shim");
        assertThat(first.shim()).isEqualTo(InstalledShim.marked(Length.parse("2.45 mm")));
        assertThat(first.done()).isInstanceOf(Done.Fitted.class);
        assertThat(first.recheck()).isEqualTo(trials("0.17 mm forced", "0.10 mm goes"));
        assertThat(run.out()).contains("1-in-1 is finished.");
    }

    @Test
    void looseShimNeedsAnUpperEndFirst() {
        WalkRun run = walk(WalkRun.four(WalkRun.LEAVES), "g m 2.43\n r y q");
        assertThat(valve("1-in-1").trials()).isEqualTo(trials("0.17 mm goes", "0.20 mm refuses"));
        assertThat(valve("1-in-1").shim()).isEqualTo(InstalledShim.measured(Length.parse("2.43 mm")));
        assertThat(valve("1-in-1").findDone()).isPresent();
        assertThat(said(run))
                .contains("ry thicker leaves until one does not go")
                .doesNotContain("none of the sizes that are made");
    }

    @Test
    void undoTellsAShimFromTheTrialAfterIt() {
        walk(WalkRun.four(WalkRun.LEAVES), "g 2.45\n r");
        WalkRun.resume(file, "u q");
        assertThat(valve("1-in-1").trials()).hasSize(1);
        assertThat(valve("1-in-1").findShim()).isPresent();
        WalkRun.resume(file, "u q");
        assertThat(valve("1-in-1").trials()).hasSize(1);
        assertThat(valve("1-in-1").findShim()).isEmpty();
        WalkRun.resume(file, "u\nq");
        assertThat(WalkRun.read(file).valves()).isEmpty();
    }

    @Test
    void unknownShimLeavesTheVerdictAndIsNotAskedTwice() {
        WalkRun run = walk(WalkRun.four(WalkRun.LEAVES), "r r g\n\n n");
        assertThat(valve("1-in-1").findShim().orElseThrow().size()).isEmpty();
        assertThat(run.out())
                .contains("What to do: read or measure the installed shim with a micrometer")
                .contains("Valve 2 of 8");
        assertThat(CheckReport.of(WalkRun.read(file)).findings())
                .anyMatch(f -> f.code() == FindingCode.SHIM_UNREADABLE);
        // the mechanic fitted one all the same
        run = walk(WalkRun.four(WalkRun.LEAVES), "r r g\n\n y\n2.37\nf g q");
        assertThat(valve("1-in-1").done()).isEqualTo(new Done.Fitted(Length.parse("2.37 mm")));
        assertThat(said(run)).contains("Note: 2.37 mm is none of the sizes that are made (2.00..3.20 mm step 0.05 mm)");
    }

    @Test
    void shimQuestionTakesTheOtherKeysAsWords() {
        WalkRun run = walk(WalkRun.four(WalkRun.LEAVES), "r r g ?\nthick\n30\nu\ng s\nq");
        assertThat(run.out()).contains("the size measured with a micrometer").contains("is out of range");
        assertThat(run.out()).contains("Not usable: length \"thick\"");
        assertThat(valve("1-in-1").findShim()).isEmpty();
        walk(WalkRun.four(WalkRun.LEAVES), "r r g s\nq");
        assertThat(WalkRun.read(file).valves()).hasSize(2);
        assertThat(walk(WalkRun.four(WalkRun.LEAVES), "r r g Q\n").out()).contains("--resume");
    }

    @Test
    void secondRoundReckonsFromTheShimThatWasFitted() {
        // found 0.05 to 0.10 with 2.45; 2.40 was fitted, and 0.25 goes then: 2.40 must give way to a thicker one
        WalkRun run = walk(WalkRun.four(WalkRun.LEAVES), "r r g 2.45\n o2.40\n g l0.25\ng l0.30\nr y q");
        Done.Fitted fitted = (Done.Fitted) valve("1-in-1").done();
        assertThat(run.out()).contains("Another round, 2 of at most 3?");
        assertThat(fitted.shim()).isEqualTo(Length.parse("2.55 mm"));
        assertThat(valve("1-in-1").recheck()).isEmpty();
        assertThat(valve("1-in-1").shim()).isEqualTo(InstalledShim.marked(Length.parse("2.45 mm")));
    }

    @Test
    void afterThreeRoundsItIsSaidWhatToLookAt() {
        WalkRun run = walk(WalkRun.quad(WalkRun.LEAVES), "s  g y gg y gg y gg y n e");
        assertThat(said(run))
                .contains("Another round, 2 of at most 3?")
                .contains("Another round, 3 of at most 3?")
                .doesNotContain("4 of at most")
                .contains("Adjusted 3 times and still not within. Look at: worn or dished pad and valve tip, stretched")
                .contains("Left unfinished: 1-in-1 (not read), 1-ex-1 (loose).");
        assertThat(run.out()).contains("DOUBT 1-ex-1: after the adjustment loose");
        assertThat(valve("1-ex-1").recheck()).hasSize(2);
    }

    @Test
    void roundsAreCountedOnTheSheet() {
        walk(WalkRun.quad(WalkRun.LEAVES), "s  g y gg y gg");
        assertThat(valve("1-ex-1").tries()).isEqualTo(2);
        assertThat(WalkRun.resume(file, "y gg").out()).contains("Another round, 3 of at most 3?");
        assertThat(valve("1-ex-1").tries()).isEqualTo(3);
        WalkRun run = WalkRun.resume(file, "y o n e");
        assertThat(run.out()).contains("Adjusted 3 times").doesNotContain("Done?");
        assertThat(valve("1-ex-1").tries()).isEqualTo(3);
    }

    @Test
    void laterRoundMakesUpForWhatTheLockNutDoes() {
        // set with 0.20, and 0.25 drags after locking: the nut adds; a thinner leaf is the next one to set with
        WalkRun run = walk(WalkRun.quad(WalkRun.LEAVES), "s  g y g g l0.25\nd q");
        assertThat(said(run))
                .contains("set to leaf 0.15")
                .contains("(the nut is likely to add 0.040 mm); lock; the recheck decides");
    }

    @Test
    void wedgeScrewIsTurnedByWholeTurns() {
        CheckSheet quad = WalkRun.quad(WalkRun.LEAVES);
        CheckSheet sheet = CheckSheet.builder(
                        quad.engine().toBuilder()
                                .train(new ValveTrain.Wedge(Length.parse("0.03 mm")))
                                .build(),
                        WalkRun.LEAVES)
                .build();
        WalkRun run = walk(sheet, "s g r r y q");
        assertThat(said(run)).contains("What to do: wedge screw").contains("so that the clearance shrinks");
        assertThat(valve("1-ex-1").trials()).hasSizeGreaterThan(1);
        Done.Turned turned = (Done.Turned) valve("1-ex-1").done();
        assertThat(turned.degrees().dividedBy(Ratio.of(360, 1)).toString()).matches("-[0-9]+");
        assertThat(run.out()).contains("Done? y yes, turned by -");
        walk(sheet, "s g r r o0.20 mm\n-360\nq");
        assertThat(valve("1-ex-1").done()).isEqualTo(new Done.Turned(Ratio.of(-360, 1)));
    }

    @Test
    void openersOfADesmodromicEngineAreWalkedAndClosersStay() {
        CheckSheet quad = WalkRun.quad(WalkRun.LEAVES);
        ShimRange shims = ShimRange.parse("2.00..3.20 mm step 0.05 mm");
        EngineSpec engine = quad.engine().toBuilder()
                .train(new ValveTrain.Desmodromic(shims, shims))
                .build();
        ValveReading closer = ValveReading.of("1-in-1", "0.10 mm goes", "0.15 mm refuses")
                .asCloser(trials("0.15 mm goes", "0.20 mm refuses"), true);
        CheckSheet sheet =
                CheckSheet.builder(engine, WalkRun.LEAVES).valve(closer).build();
        WalkRun run = walk(sheet, "g 2.45\n r r y f g  f g e");
        assertThat(said(run)).contains("Only the opener gaps are walked.").contains("1-in-1 is finished.");
        assertThat(WalkRun.read(file).valves().get(0)).isEqualTo(closer);
        ValveReading opener = valve("1-in-1");
        assertThat(opener.gap()).isEqualTo(Gap.OPENER);
        assertThat(opener.done()).isInstanceOf(Done.Fitted.class);
        assertThat(run.out()).contains("Every valve is finished.");
        // seven answers back stands the question for the shim, which takes a line
        WalkRun.resume(file, "u".repeat(7) + "u\n" + "u q");
        assertThat(WalkRun.read(file)).isEqualTo(sheet);
    }

    @Test
    void noClearanceAtAllIsInspectedFirst() {
        WalkRun run = walk(WalkRun.quad(WalkRun.LEAVES), "r r r q");
        assertThat(run.out())
                .contains("Offer 0.05 mm")
                .containsSubsequence(
                        "INSPECT FIRST: may have no clearance at all", "What to do: INSPECT FIRST; then", "Done?");
    }

    @Test
    void farTooLooseIsInspectedFirst() {
        WalkRun run = walk(WalkRun.quad(WalkRun.LEAVES), "l0.30\ng q");
        assertThat(run.out())
                .containsSubsequence(
                        "INSPECT FIRST: far too loose: look at rocker pad, valve tip and adjuster", "Done?");
    }

    @Test
    void everyTrainIsInspectedFirst() {
        CheckSheet sheet = CheckSheet.builder(
                        WalkRun.engine("industrial-ohv-single", "0.08..0.13 mm", "0.17..0.22 mm"), WalkRun.LEAVES)
                .machine("Hill riding school, generator")
                .build();
        assertThat(walk(sheet, "l0.05\nr q").out()).containsSubsequence("INSPECT FIRST: ", "What to do:", "Done?");
    }

    @Test
    void adviceWithoutAFigureAsksForWhatWasDone() {
        CheckSheet four = WalkRun.four(WalkRun.LEAVES);
        CheckSheet sheet = CheckSheet.builder(four.engine(), four.gauges())
                .valve(ValveReading.of("1-in-1", "0.05 mm refuses").withPad(Pad.DISHED))
                .build();
        WalkRun run = walk(sheet, "o\n\n y\n2.40\n");
        assertThat(run.out()).contains("Done? y yes; n not done").contains("(Enter: not done)");
        assertThat(valve("1-in-1").done()).isEqualTo(new Done.Fitted(Length.parse("2.40 mm")));
    }

    @Test
    void inchSetIsWalkedInInches() {
        GaugeSet inches = GaugeSet.of(LengthUnit.INCH, "0.003", "0.004", "0.005", "0.006", "0.008");
        CheckSheet sheet = CheckSheet.builder(
                        WalkRun.engine("screw-single", "0.004..0.006 in", "0.005..0.007 in"), inches)
                .machine("Hill riding school, mower")
                .build();
        WalkRun run = walk(sheet, "r g q");
        assertThat(run.out()).contains("Offer 0.006 in").contains("Known: more than 0.004 in, less than 0.006 in.");
        assertThat(valve("1-in-1").trials()).isEqualTo(trials("0.006 in refuses", "0.004 in goes"));
        assertThat(WalkRun.text(file)).contains("\"0.006 in\"");
    }

    @Test
    void dishedPadIsNotWalked() {
        CheckSheet quad = WalkRun.quad(WalkRun.LEAVES);
        CheckSheet sheet = CheckSheet.builder(quad.engine(), quad.gauges())
                .valve(ValveReading.of("1-in-1", "0.05 mm refuses").withPad(Pad.DISHED))
                .build();
        WalkRun run = walk(sheet, "y q");
        assertThat(run.out()).containsSubsequence("INSPECT FIRST: the pad or valve tip is dished", "no play", "Done?");
        assertThat(valve("1-in-1").findDone()).isPresent();
        assertThat(run.out()).contains("No leaf tells anything of a dished pad").contains("Valve 2 of 2");
    }

    @Test
    void endOfInputLeavesAtAnyQuestion() {
        for (String script : List.of("", "f", "l", "l0.09\n", "f l0.15\ng", "g", "g o", "g y")) {
            WalkRun run = walk(WalkRun.quad(WalkRun.LEAVES), script);
            assertThat(run.code()).as(script).isZero();
            assertThat(run.out()).as(script).contains("Saved. To go on:\n  lash walk " + file + " --resume\n");
            assertThat(WalkRun.read(file).machine()).isEqualTo("Hill riding school, quad 1");
        }
        assertThat(walk(WalkRun.four(WalkRun.LEAVES), "rrg").code()).isZero();
        // at the end there is nothing to go on with: the report comes
        assertThat(walk(WalkRun.quad(WalkRun.LEAVES), "fgfg").out()).contains("Result: 2 within");
    }

    @Test
    void finishedSheetOnlyGivesItsReportAgain() {
        walk(WalkRun.quad(WalkRun.LEAVES), "fgfge");
        String before = WalkRun.text(file);
        WalkRun run = WalkRun.resume(file, "e");
        assertThat(run.out()).contains("Every valve is finished.").contains("Result: 2 within");
        assertThat(WalkRun.text(file)).isEqualTo(before);
    }

    @Test
    void sheetIsWholeAndHoldsTheLastAnswerAtEveryMoment() {
        String script = "fg rrg y d  l0.15\ng u f g s f s u g e";
        WalkRun.write(file, WalkRun.twin(WalkRun.LEAVES));
        AtomicInteger most = new AtomicInteger();
        WalkRun run = WalkRun.of(
                WalkRun.oneByOne(script, i -> {
                    CheckSheet sheet = WalkRun.read(file);
                    int trials = sheet.valves().stream()
                            .mapToInt(v -> v.trials().size() + v.recheck().size())
                            .sum();
                    if (i == 1) {
                        assertThat(trials).isEqualTo(1);
                    }
                    if (i == 2) {
                        assertThat(trials).isEqualTo(2);
                    }
                    most.accumulateAndGet(trials, Math::max);
                    assertThat(folder).isDirectoryContaining(p -> p.equals(file));
                    try (Stream<Path> files = Files.list(folder)) {
                        assertThat(files).containsExactly(file);
                    } catch (IOException unreadable) {
                        throw new AssertionError(unreadable);
                    }
                }),
                file.toString(),
                "--resume");
        assertThat(run.code()).isZero();
        assertThat(most.get()).isGreaterThan(7);
    }

    @Test
    void folderThatGoesAwayEndsWithAClearError() {
        Path gone = folder.resolve("shed");
        Path sheet = gone.resolve("bike.json");
        gone.toFile().mkdir();
        WalkRun.write(sheet, WalkRun.quad(WalkRun.LEAVES));
        WalkRun run = WalkRun.of(
                WalkRun.oneByOne("fgfg", i -> {
                    if (i == 1) {
                        sheet.toFile().delete();
                        gone.toFile().delete();
                    }
                }),
                sheet.toString(),
                "--resume");
        assertThat(run.code()).isEqualTo(Main.UNUSABLE);
        assertThat(run.err())
                .isEqualTo("lash: cannot save " + sheet + ": the folder is not there; make it, or name another file\n");
    }

    @Test
    void allElseOnTheSheetStays() {
        CheckSheet quad = WalkRun.quad(WalkRun.LEAVES);
        GaugeSet guarded = WalkRun.LEAVES.withTolerance(Length.parse("0.003 mm"), Length.parse("0.001 mm"));
        CheckSheet.Builder full = CheckSheet.builder(quad.engine(), guarded)
                .rule(guarded.guardedRule())
                .machine(quad.machine())
                .date(LocalDate.of(2031, 4, 2))
                .usage(Usage.parse("120 h"))
                .engineTemperature(Temperature.parse("19 \u00b0C"))
                .shimBox(new ShimBox(List.of(new ShimBox.Lot(Length.parse("2.40 mm"), 2, ""))))
                .history(List.of(new PastVisit(
                        LocalDate.of(2030, 4, 2),
                        Usage.parse("80 h"),
                        List.of(new PastVisit.PastReading(
                                ValveId.parse("1-in-1"),
                                LengthInterval.parse("(0.12, 0.15) mm"),
                                LengthInterval.parse("(0.12, 0.15) mm"),
                                null)))));
        walk(full.build(), "g u r q");
        CheckSheet expected = full.valve(
                        ValveReading.of(ValveId.parse("1-in-1"), valve("1-in-1").trials()))
                .build();
        assertThat(valve("1-in-1").trials()).hasSize(1);
        assertThat(WalkRun.read(file)).isEqualTo(expected);
        assertThat(WalkRun.read(file).rule())
                .isEqualTo(ReadingRule.guarded(Length.parse("0.003 mm"), Length.parse("0.001 mm")));
    }
}
