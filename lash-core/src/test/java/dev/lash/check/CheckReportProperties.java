package dev.lash.check;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.Adjustment;
import dev.lash.adjust.Adjustment.FitShim;
import dev.lash.adjust.Adjustment.Leave;
import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.adjust.InstalledShim;
import dev.lash.adjust.ShimBox;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.Pitch;
import dev.lash.engine.ScrewHead;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.ValveTrain.ScrewPlace;
import dev.lash.engine.ValveTrain.ShimPlace;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.Trial;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.Ratio;
import dev.lash.testing.Generators;
import java.util.List;
import java.util.Optional;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.Tuple;

/** Whatever is on a sheet, there is a report, and its parts agree with each other. */
class CheckReportProperties {
    @Provide
    Arbitrary<ValveTrain> trains() {
        Arbitrary<ShimRange> sizes = Generators.shimRanges();
        Arbitrary<Pitch> pitches = Generators.pitches();
        Arbitrary<Ratio> ratios = Generators.ratios(1, 3);
        return Arbitraries.frequencyOf(
                Tuple.of(
                        3,
                        Combinators.combine(
                                        Arbitraries.of(ScrewPlace.class),
                                        pitches,
                                        ratios,
                                        Arbitraries.of(ScrewHead.class))
                                .as((place, pitch, ratio, head) -> new ValveTrain.Screw(
                                        place, pitch, place.needsRatio() ? ratio : Ratio.ONE, head))),
                Tuple.of(3, sizes.map(s -> ValveTrain.Shim.bucket(ShimPlace.UNDER_BUCKET, s))),
                Tuple.of(
                        1,
                        Combinators.combine(sizes, ratios).as((s, r) -> new ValveTrain.Shim(ShimPlace.FOLLOWER, s, r))),
                Tuple.of(2, Combinators.combine(sizes, sizes).as(ValveTrain.Desmodromic::new)),
                Tuple.of(1, Generators.nanometres(1, 1_000_000).map(ValveTrain.Wedge::new)),
                Tuple.of(
                        1,
                        Combinators.combine(Generators.nanometres(1, 10_000_000), ratios)
                                .as(ValveTrain.Eccentric::new)),
                Tuple.of(1, Arbitraries.of(new ValveTrain.Fixed(), new ValveTrain.Hydraulic())));
    }

    /** What a reading may hold besides its trials. */
    record Beside(boolean closer, List<Trial> loaded, boolean turnsFree, Optional<Ratio> angle, int tries) {}

    @Provide
    Arbitrary<Beside> beside() {
        return Combinators.combine(
                        Arbitraries.of(true, false),
                        trials(),
                        Arbitraries.of(true, false),
                        Generators.ratios(-720, 720).optional(0.5),
                        Arbitraries.integers().between(1, 5))
                .as(Beside::new);
    }

    @Provide
    Arbitrary<List<Trial>> trials() {
        return Arbitraries.frequencyOf(
                Tuple.of(2, Generators.honestTrials()),
                Tuple.of(1, Generators.trials().list().ofMaxSize(4)));
    }

    @Provide
    Arbitrary<ClearanceWindow> windows() {
        return Generators.windows();
    }

    @Provide
    Arbitrary<ReadingRule> rules() {
        return Generators.rules();
    }

    /** Small sets and at most two in a stack: large ones only take longer. */
    @Provide
    Arbitrary<GaugeSet> gauges() {
        return Generators.gaugeSets().map(g -> g.withStacksOf(Math.min(g.mostStacked(), 2)));
    }

    @Provide
    Arbitrary<Optional<InstalledShim>> shims() {
        Arbitrary<Length> sizes = Generators.nanometres(1, 20_000_000);
        Arbitrary<Optional<Length>> known = Arbitraries.oneOf(
                        sizes, Arbitraries.of("1.20", "2.45", "3.50").map(Length::ofMillimetres))
                .optional(0.7);
        return Combinators.combine(known, known, Generators.nanometres(0, 100_000))
                .as((marked, measured, tolerance) ->
                        new InstalledShim(marked.orElse(null), measured.orElse(null), tolerance, ""))
                .optional(0.8);
    }

    @Provide
    Arbitrary<Optional<Done>> done() {
        return Arbitraries.<Done>oneOf(
                        Generators.stacks().map(Done.SetWith::new),
                        Generators.ratios(-720, 720).map(Done.Turned::new),
                        Generators.nanometres(1, 20_000_000).map(Done.Fitted::new))
                .optional(0.5);
    }

    private static CheckSheet sheet(
            ValveTrain train, ClearanceWindow window, GaugeSet gauges, ReadingRule rule, ValveReading reading) {
        EngineSpec.Builder engine = EngineSpec.builder("school-any", "Any engine of the school")
                .valves("1-in-1")
                .train(train)
                .window(ValveRole.INTAKE, window);
        if (train instanceof ValveTrain.Desmodromic) {
            engine.closerClearance(ValveRole.INTAKE, ClearanceSpec.typical(window));
        }
        ShimBox box = new ShimBox(List.of(new ShimBox.Lot(Length.ofMillimetres("2.40"), 1, "")));
        return CheckSheet.builder(engine.build(), gauges)
                .rule(rule)
                .shimBox(box)
                .valve(reading)
                .build();
    }

    private static ValveReading reading(
            ValveTrain train,
            List<Trial> trials,
            Beside beside,
            Optional<InstalledShim> shim,
            Optional<Done> done,
            List<Trial> recheck) {
        Gap gap = train instanceof ValveTrain.Desmodromic ? (beside.closer ? Gap.CLOSER : Gap.OPENER) : Gap.ONLY;
        return new ValveReading(
                ValveId.parse("1-in-1"),
                gap,
                trials,
                gap == Gap.ONLY ? List.of() : beside.loaded,
                gap == Gap.CLOSER && beside.turnsFree,
                shim.orElse(null),
                Pad.SOUND,
                beside.angle.orElse(null),
                "",
                done.orElse(null),
                done.isPresent() ? beside.tries : 0,
                gap == Gap.CLOSER ? List.of() : recheck);
    }

    @Property(tries = 1000, edgeCases = EdgeCasesMode.NONE)
    void aReportAgreesWithItself(
            @ForAll("trains") ValveTrain train,
            @ForAll("windows") ClearanceWindow window,
            @ForAll("gauges") GaugeSet gauges,
            @ForAll("rules") ReadingRule rule,
            @ForAll("trials") List<Trial> trials,
            @ForAll("shims") Optional<InstalledShim> shim,
            @ForAll("beside") Beside beside,
            @ForAll Pad pad) {
        ValveReading reading = reading(train, trials, beside, shim, Optional.empty(), List.of())
                .withPad(pad);
        CheckReport report = CheckReport.of(sheet(train, window, gauges, rule, reading));
        ValveCheck check = report.valves().get(0);
        assertThat(report.hasErrors()).isEqualTo(check.contradiction().isPresent());
        assertThat(check.contradiction().isPresent())
                .isNotEqualTo(check.bracket().isPresent());
        assertThat(check.verdict().isPresent())
                .isEqualTo(check.bracket().isPresent() && !(train instanceof ValveTrain.Hydraulic));
        assertThat(check.verdict().filter(v -> v == Verdict.UNDECIDED).isPresent())
                .isEqualTo(check.possible().size() > 1);
        check.verdict()
                .filter(v -> v != Verdict.UNDECIDED)
                .ifPresent(v -> assertThat(check.possible()).containsExactly(v));
        check.nextLeaf().ifPresent(next -> assertThat(check.verdict()).contains(Verdict.UNDECIDED));
        assertThat(check.adjustment().isPresent()).isEqualTo(check.bracket().isPresent());
        check.adjustment().ifPresent(adjustment -> agrees(adjustment, check));
        assertThat(report.findings()).allSatisfy(f -> assertThat(f.problem()).isNotBlank());
    }

    private static void agrees(Adjustment adjustment, ValveCheck check) {
        if (adjustment instanceof Leave) {
            assertThat(check.verdict()).contains(Verdict.WITHIN);
        }
        if (adjustment instanceof FitShim fit) {
            assertThat(check.verdict().orElseThrow()).isIn(Verdict.TIGHT, Verdict.LOOSE);
            assertThat(check.certainShims()).contains(fit.certain());
            ClearanceWindow allowed = check.clearance().orElseThrow().setTo();
            assertThat(Verdict.of(fit.resulting(), allowed)).isEqualTo(Verdict.WITHIN);
        }
    }

    @Property(tries = 500, edgeCases = EdgeCasesMode.NONE)
    void whateverWasDoneThereIsAReport(
            @ForAll("trains") ValveTrain train,
            @ForAll("windows") ClearanceWindow window,
            @ForAll("rules") ReadingRule rule,
            @ForAll("trials") List<Trial> trials,
            @ForAll("shims") Optional<InstalledShim> shim,
            @ForAll("beside") Beside beside,
            @ForAll("done") Optional<Done> done,
            @ForAll("trials") List<Trial> recheck) {
        ValveReading reading = reading(train, trials, beside, shim, done, recheck);
        CheckReport report = CheckReport.of(sheet(train, window, School.GENERATOR_LEAVES, rule, reading));
        ValveCheck check = report.valves().get(0);
        boolean checkedAgain = !reading.recheck().isEmpty();
        assertThat(check.recheck().isPresent()).isEqualTo(checkedAgain);
        assertThat(check.findings().stream().anyMatch(f -> f.code() == FindingCode.RECHECK_MISSING))
                .isEqualTo(done.isPresent() && !checkedAgain && reading.gap() != Gap.CLOSER);
        assertThat(check.again().isPresent())
                .isEqualTo(check.recheckVerdict()
                        .filter(after -> after != Verdict.WITHIN)
                        .isPresent());
        check.again().ifPresent(again -> assertThat(again).isNotInstanceOf(Leave.class));
        check.recheckVerdict()
                .filter(after -> after == Verdict.WITHIN)
                .ifPresent(after ->
                        assertThat(check.findings()).noneMatch(f -> f.code() == FindingCode.RECHECK_NOT_WITHIN));
    }
}
