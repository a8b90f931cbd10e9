package dev.lash.examples;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.check.CheckReport;
import dev.lash.check.CheckSheet;
import dev.lash.check.ValveCheck;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveTrain;
import dev.lash.examples.Mechanic.Whim;
import dev.lash.gauge.Fit;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.Trial;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.specs.SheetReader;
import dev.lash.specs.SheetWriter;
import dev.lash.specs.SpecPack;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.atomic.AtomicReference;
import java.util.stream.Collectors;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.Tuple;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.lifecycle.AfterProperty;
import net.jqwik.api.lifecycle.BeforeProperty;

/** What holds of every walk. */
class WalkProperties {
    private static final GaugeSet FEW =
            GaugeSet.of(LengthUnit.MILLIMETRE, "0.05", "0.08", "0.10", "0.15", "0.20", "0.25");

    private Path folder = Path.of("");
    private Path file = Path.of("");

    @BeforeProperty
    void makeFolder() throws IOException {
        folder = Files.createTempDirectory("walk");
        file = folder.resolve("bike.json");
    }

    @AfterProperty
    void removeFolder() throws IOException {
        Files.deleteIfExists(file);
        Files.delete(folder);
    }

    // ---- a walk that broke off -------------------------------------------------------------------------------------

    /** Answers of any kind, slips, contradictions and keys that do not exist included. */
    @Provide
    Arbitrary<List<String>> scripts() {
        Arbitrary<String> any = Arbitraries.frequencyOf(
                Tuple.of(12, Arbitraries.of("g", "d", "f", "r")),
                Tuple.of(2, Arbitraries.of("l0.05\ng", "l0.15\nf", "l0.10\nd", "l0.20\nr")),
                Tuple.of(3, Arbitraries.of("y", "o0.10\n", "o-15 deg\n")),
                Tuple.of(2, Arbitraries.of("s", "n")),
                Tuple.of(1, Arbitraries.of("x", "?", "7")));
        return any.list().ofMinSize(1).ofMaxSize(14);
    }

    @Property(tries = 12)
    void walkThatIsKilledAfterAnyAnswerEndsWithTheSameSheet(@ForAll("scripts") List<String> answers) {
        CheckSheet start = WalkRun.quad(FEW);
        WalkRun.write(file, start);
        String script = String.join("", answers);
        Map<Integer, String> onDisk = new HashMap<>();
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        int[] end = {script.length()};
        WalkRun.of(
                WalkRun.oneByOne(script, i -> {
                    onDisk.put(i, WalkRun.text(file));
                    // the script is over where the walk is
                    if (i < end[0] && out.toString(StandardCharsets.UTF_8).contains("e end with the report")) {
                        end[0] = i;
                    }
                }),
                out,
                file.toString(),
                "--resume");
        String unbroken = valves(sheet(onDisk.get(end[0])));
        int killed = 0;
        for (String answer : answers) {
            if (killed > end[0]) {
                break;
            }
            assertThat(rest(onDisk.get(killed), script.substring(killed, end[0])))
                    .as("killed before answer %d of %s", killed, script)
                    .isEqualTo(unbroken);
            killed += answer.length();
        }
    }

    private CheckSheet sheet(String json) {
        try {
            Files.writeString(file, json);
        } catch (IOException unwritable) {
            throw new AssertionError(unwritable);
        }
        return WalkRun.read(file);
    }

    /** The sheet after going on from what was on the disk. */
    private String rest(String json, String script) {
        sheet(json);
        assertThat(WalkRun.resume(file, script).err()).isEmpty();
        return valves(WalkRun.read(file));
    }

    /** What a failure can show: the readings. Nothing else of the sheet changes but the leaves. */
    private static String valves(CheckSheet sheet) {
        return sheet.gauges().leaves() + "\n"
                + sheet.valves().stream().map(Object::toString).collect(Collectors.joining("\n"));
    }

    @Property(tries = 5)
    void undoAndSkipGoOnAfterAKillAsWithoutIt(@ForAll long seed) {
        for (CheckSheet start : List.of(WalkRun.twin(WalkRun.LEAVES), WalkRun.four(WalkRun.LEAVES))) {
            AtomicReference<String> disk = new AtomicReference<>("");
            Mechanic mechanic = mechanic(start, seed, disk)
                    .with(Whim.UNDO, 6)
                    .with(Whim.SKIP, 9)
                    .with(Whim.SHIM_NOT_KNOWN, 4);
            String unbroken = valves(walk(start, mechanic, disk));
            List<String> answers = mechanic.answers();
            int step = Math.max(1, answers.size() / 12);
            for (int killed = 0; killed < answers.size(); killed += step) {
                String script = String.join("", answers.subList(killed, answers.size()));
                Talk rest = new StreamTalk(
                        new ByteArrayInputStream(script.getBytes(StandardCharsets.UTF_8)),
                        new PrintStream(OutputStream.nullOutputStream(), false, StandardCharsets.UTF_8));
                assertThat(valves(walk(parsed(mechanic.sheets().get(killed)), rest, disk)))
                        .as("killed before answer %d of %s", killed, answers)
                        .isEqualTo(unbroken);
            }
        }
    }

    /** Walks with the sheet kept in memory as its text. */
    private static CheckSheet walk(CheckSheet start, Talk talk, AtomicReference<String> disk) {
        disk.set(SheetWriter.write(start));
        Walk.Saving saving = sheet -> {
            disk.set(SheetWriter.write(sheet));
            return Optional.empty();
        };
        try {
            assertThat(new Walk(talk, saving, "bike.json", start, false).run()).isZero();
        } catch (IOException unsaved) {
            throw new AssertionError(unsaved);
        }
        return parsed(disk.get());
    }

    private static CheckSheet parsed(String json) {
        return new SheetReader(SpecPack.bundled()).read("bike.json", json);
    }

    /** A mechanic at an engine with clearances from 0.01 to 0.40 mm. */
    private static Mechanic mechanic(CheckSheet sheet, long seed, AtomicReference<String> disk) {
        Random random = new Random(seed);
        Map<ValveId, Length> clearances = new HashMap<>();
        Map<ValveId, Length> shims = new HashMap<>();
        for (ValveId valve : sheet.engine().valves()) {
            clearances.put(valve, Length.ofNanometres(10_000L * (1 + random.nextInt(40))));
            shims.put(valve, Length.ofNanometres(50_000L * (46 + random.nextInt(8))));
        }
        return new Mechanic(clearances, shims, seed, disk::get);
    }

    // ---- the truth
    // ---------------------------------------------------------------------------------------------------

    @Property(tries = 10)
    void trueAnswersGiveTheTrueVerdictAndTheAdviceBringsTheValveWithin(@ForAll long seed) {
        for (CheckSheet start :
                List.of(WalkRun.twin(WalkRun.LEAVES), WalkRun.four(WalkRun.LEAVES), WalkRun.twin(FEW))) {
            AtomicReference<String> disk = new AtomicReference<>("");
            Mechanic mechanic = mechanic(start, seed, disk);
            Map<ValveId, Length> truth = truth(start, seed);
            CheckReport report = CheckReport.of(walk(start, mechanic, disk));
            assertThat(report.valves()).hasSameSizeAs(start.engine().valves());
            for (ValveCheck check : report.valves()) {
                ValveId valve = check.reading().valve();
                Verdict verdict = check.verdict().orElseThrow();
                Verdict isTrue = Verdict.of(
                        truth.get(valve), check.clearance().orElseThrow().check());
                assertThat(check.bracket().orElseThrow().interval().contains(truth.get(valve)))
                        .isTrue();
                assertThat(verdict).isIn(isTrue, Verdict.UNDECIDED);
                if (verdict == Verdict.UNDECIDED
                        || (verdict != Verdict.WITHIN && check.recheck().isEmpty())) {
                    // the mechanic was told to borrow a leaf, or to have something looked at
                    assertThat(mechanic.skipped()).contains(valve);
                } else if (verdict != Verdict.WITHIN && !mechanic.skipped().contains(valve)) {
                    assertThat(check.recheckVerdict()).contains(Verdict.WITHIN);
                }
                assertThat(check.reading().trials())
                        .hasSizeLessThan(start.gauges().leaves().size());
            }
            if (start.engine().train() instanceof ValveTrain.Screw
                    && start.gauges().equals(WalkRun.LEAVES)) {
                assertThat(mechanic.skipped()).isEmpty();
            }
        }
    }

    private static Map<ValveId, Length> truth(CheckSheet sheet, long seed) {
        Random random = new Random(seed);
        Map<ValveId, Length> clearances = new HashMap<>();
        for (ValveId valve : sheet.engine().valves()) {
            clearances.put(valve, Length.ofNanometres(10_000L * (1 + random.nextInt(40))));
            random.nextInt(8);
        }
        return clearances;
    }

    // ---- contradictions
    // ----------------------------------------------------------------------------------------------

    @Provide
    Arbitrary<List<Trial>> trials() {
        Arbitrary<Trial> trial = Arbitraries.of("0.05", "0.10", "0.15", "0.20")
                .flatMap(leaf -> Arbitraries.of("goes", "drags", "forced", "refuses")
                        .map(fit -> Trial.parse(leaf + " mm " + fit)));
        return trial.list().ofMinSize(1).ofMaxSize(10);
    }

    /** However the answers run, only repeated pairs are taken out, and what is asked again is a leaf of the pair. */
    @Property
    void onlyPairsThatWereRepeatedAreTakenOut(@ForAll("trials") List<Trial> answers) {
        ReadingRule rule = ReadingRule.simple();
        List<Trial> kept = List.of();
        for (Trial answer : answers) {
            List<Trial> before = kept;
            Optional<LeafStack> again = Clash.in(before, rule).flatMap(clash -> clash.toRepeat(before));
            Trial given = again.map(leaf -> new Trial(leaf, answer.fit())).orElse(answer);
            List<Trial> more = new ArrayList<>(kept);
            more.add(given);
            kept = Clash.settled(more, rule);
            assertThat(more).containsSubsequence(kept);
            assertThat(kept.get(kept.size() - 1)).isEqualTo(given);
            List<Trial> gone = Clash.takenOut(more, rule);
            assertThat(gone).hasSize(more.size() - kept.size());
            boolean due = Clash.in(more, rule)
                    .filter(clash -> clash.toRepeat(more).isEmpty())
                    .isPresent();
            assertThat(!gone.isEmpty()).isEqualTo(due);
            assertThat(kept)
                    .extracting(Trial::leaf)
                    .containsAll(gone.stream().map(Trial::leaf).toList());
            // an unsettled contradiction names a leaf to repeat
            List<Trial> now = kept;
            Clash.in(now, rule)
                    .ifPresent(clash -> assertThat(clash.toRepeat(now)).isPresent());
        }
    }

    /** A slip does not matter once the mechanic answers truly: the contradiction that it made is settled. */
    @Property
    void truthSettlesEveryContradiction(
            @ForAll("trials") List<Trial> slips, @ForAll @IntRange(min = 1, max = 30) int clearance) {
        ReadingRule rule = ReadingRule.simple();
        Length c = Length.ofNanometres(clearance * 10_000L);
        List<Trial> kept = List.of();
        for (Trial slip : slips) {
            kept = answered(kept, slip, rule);
        }
        int asked = 0;
        while (Clash.in(kept, rule).isPresent()) {
            List<Trial> now = kept;
            LeafStack leaf =
                    Clash.in(now, rule).flatMap(clash -> clash.toRepeat(now)).orElseThrow();
            int order = c.compareTo(leaf.thickness());
            kept = answered(now, new Trial(leaf, order > 0 ? Fit.GOES : order == 0 ? Fit.DRAGS : Fit.REFUSES), rule);
            assertThat(++asked).isLessThanOrEqualTo(2 * slips.size());
        }
    }

    private static List<Trial> answered(List<Trial> trials, Trial answer, ReadingRule rule) {
        List<Trial> more = new ArrayList<>(trials);
        more.add(answer);
        return Clash.settled(more, rule);
    }
}
