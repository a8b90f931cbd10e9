package dev.lash;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.Adjuster;
import dev.lash.adjust.Adjustment;
import dev.lash.adjust.AdjustmentTask;
import dev.lash.check.CheckReport;
import dev.lash.check.CheckSheet;
import dev.lash.check.ValveReading;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.Pitch;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.WearPrior;
import dev.lash.gauge.Bracket;
import dev.lash.gauge.Evidence;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.Trial;
import dev.lash.judge.Judgement;
import dev.lash.judge.Verdict;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Usage;
import dev.lash.plan.NextLeaf;
import dev.lash.trend.CheckBy;
import dev.lash.trend.ClearanceHistory;
import dev.lash.trend.EngineTrend;
import dev.lash.trend.TrendTask;
import dev.lash.trend.WearTrendFitter;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** The examples in the descriptions of the packages from judge to check, with what they are said to give. */
class PackageExamplesTest {
    private static final GaugeSet GAUGES = GaugeSet.of(LengthUnit.MILLIMETRE, "0.05", "0.08", "0.10", "0.13");
    private static final EngineSpec SPEC = EngineSpec.builder("training-single", "Training single")
            .valves("1-in-1", "1-ex-1")
            .train(ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm")))
            .window(ValveRole.INTAKE, ClearanceWindow.parse("0.08..0.13 mm"))
            .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.17..0.22 mm"))
            .build();

    private static Bracket read(String... trials) {
        return Evidence.of(List.of(trials).stream().map(Trial::parse).toList(), ReadingRule.simple())
                .bracket()
                .orElseThrow();
    }

    @Test
    void judge() {
        Judgement judgement =
                Judgement.of(read("0.10 mm goes", "0.13 mm forced"), ClearanceWindow.parse("0.08..0.13 mm"));
        assertThat(judgement.verdict()).isEqualTo(Verdict.WITHIN);
        assertThat(judgement.possible()).containsExactly(Verdict.WITHIN);
    }

    @Test
    void plan() {
        Optional<NextLeaf> next = NextLeaf.towardsVerdict(
                read("0.10 mm goes", "0.15 mm refuses"), ClearanceWindow.parse("0.08..0.12 mm"), GAUGES);
        assertThat(next.map(NextLeaf::leaf)).contains(LeafStack.parse("0.13 mm"));
        assertThat(next.map(NextLeaf::owned)).contains(true);
    }

    @Test
    void adjust() {
        ClearanceSpec clearance = SPEC.findClearance(ValveRole.INTAKE).orElseThrow();
        Judgement judgement = Judgement.of(read("0.05 mm goes", "0.08 mm refuses"), clearance.check());
        Adjustment adjustment =
                Adjuster.withDefaults().advise(AdjustmentTask.of(SPEC.train(), clearance, judgement, GAUGES));
        assertThat(adjustment.kind()).isEqualTo("set-to-leaf");
    }

    @Test
    void trend() {
        ClearanceSpec clearance = ClearanceSpec.typical(ClearanceWindow.parse("0.08..0.22 mm"));
        ClearanceHistory history = ClearanceHistory.builder(ValveId.parse("1-in-1"), Gap.ONLY)
                .read(Usage.parse("0 km"), LengthInterval.parse("(0.15, 0.17) mm"))
                .read(Usage.parse("12000 km"), LengthInterval.parse("(0.13, 0.15) mm"))
                .build();
        EngineTrend trend = WearTrendFitter.withDefaults()
                .withInterval(Usage.parse("6000 km"))
                .fit(List.of(new TrendTask(history, clearance)), WearPrior.BY_DISTANCE, Usage.parse("12000 km"));
        assertThat(trend.checkBy().usage()).isEqualTo(Usage.parse("18000 km"));
        assertThat(trend.checkBy().reason()).isEqualTo(CheckBy.Reason.MAKERS_INTERVAL);
    }

    @Test
    void check() {
        CheckSheet sheet = CheckSheet.builder(SPEC, GAUGES)
                .valve(ValveReading.of("1-in-1", "0.13 mm forced", "0.10 mm goes"))
                .build();
        CheckReport report = CheckReport.of(sheet);
        assertThat(report.valves().get(0).verdict()).contains(Verdict.WITHIN);
        assertThat(report.valves().get(0).verdict()).hasToString("Optional[within]");
    }
}
