package dev.lash.check;

import static dev.lash.testing.Readings.leaves;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.InstalledShim;
import dev.lash.adjust.ShimPlan;
import dev.lash.engine.Camshafts;
import dev.lash.engine.Camshafts.PerBank;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.FiringOrder;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.measure.Length;
import dev.lash.measure.Ratio;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Which camshafts a plan lifts, by the layout of the engine. */
class ShimSlotsCamshaftTest {
    private static ValveReading reading(String valve, String drags, String shim) {
        return ValveReading.of(valve, drags + " mm drags").withShim(InstalledShim.marked(Length.ofMillimetres(shim)));
    }

    private static ShimPlan plan(EngineSpec engine, ValveReading... readings) {
        CheckSheet.Builder sheet =
                CheckSheet.builder(engine, leaves("0.05", "0.06", "0.10", "0.14", "0.16", "0.20", "0.22", "0.28"));
        for (ValveReading reading : readings) {
            sheet.valve(reading);
        }
        return CheckReport.of(sheet.build()).shimPlan().orElseThrow();
    }

    private static EngineSpec.Builder engine(String order, String... valves) {
        return EngineSpec.builder("school-engine", "Hill machine, shims under the buckets")
                .valves(valves)
                .firingOrder(FiringOrder.parse(order))
                .train(ValveTrain.Shim.bucket(
                        ValveTrain.ShimPlace.UNDER_BUCKET, ShimRange.parse("2.00..3.00 mm step 0.05 mm")))
                .window(ValveRole.INTAKE, ClearanceWindow.parse("0.10..0.20 mm"))
                .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.20..0.30 mm"));
    }

    /** Both valves are tight, and both lie under the same camshaft. */
    @Test
    void singleCamshaftIsLiftedOnce() {
        ValveReading[] tight = {reading("1-in-1", "0.05", "2.50"), reading("1-ex-1", "0.14", "2.40")};
        ShimPlan one = plan(
                engine("1", "1-in-1", "1-ex-1")
                        .camshafts(new Camshafts(PerBank.ONE, List.of()))
                        .build(),
                tight);
        assertThat(one.camshafts()).containsExactly("only");
        assertThat(one.totals().camshaftsLifted()).isEqualTo(1);
        ShimPlan two = plan(engine("1", "1-in-1", "1-ex-1").build(), tight);
        assertThat(two.camshafts()).containsExactlyInAnyOrder("intake", "exhaust");
    }

    /**
     * The tight intake valve of cylinder 1 could have the shim of cylinder 2 (2.40 for 2.50, so 0.16; the other then 0.10). In line
     * that saves buying one; in a V it means a second camshaft, which counts more.
     */
    @Test
    void swapBetweenBanksLiftsTwoCamshafts() {
        String[] valves = {"1-in-1", "1-ex-1", "2-in-1", "2-ex-1", "3-in-1", "3-ex-1", "4-in-1", "4-ex-1"};
        ValveReading[] readings = {
            reading("1-in-1", "0.06", "2.50"),
            reading("2-in-1", "0.20", "2.40"),
            reading("1-ex-1", "0.22", "2.40"),
            reading("2-ex-1", "0.28", "2.45")
        };
        ShimPlan inLine = plan(engine("1-3-2-4", valves).build(), readings);
        assertThat(inLine.camshafts()).containsExactly("intake");
        assertThat(inLine.totals().shimsBought()).isZero();
        ShimPlan vee = plan(
                engine("1-3-2-4", valves)
                        .camshafts(new Camshafts(PerBank.ONE_PER_ROLE, List.of(List.of(1, 3), List.of(2, 4))))
                        .build(),
                readings);
        assertThat(vee.camshafts()).containsExactly("bank 1 intake");
        assertThat(vee.totals().camshaftsLifted()).isEqualTo(1);
        assertThat(vee.totals().shimsBought()).isEqualTo(1);
        assertThat(vee.totals().notCertain()).isZero();
    }

    /** A follower may slide aside with the camshaft in place: one is lifted only where the engine names its camshafts. */
    @Test
    void camshaftOverFollowersIsLiftedWhereTheEngineNamesIt() {
        ValveReading[] tight = {reading("1-in-1", "0.05", "2.50"), reading("2-in-1", "0.06", "2.40")};
        EngineSpec slides = engine("1-2", "1-in-1", "1-ex-1", "2-in-1", "2-ex-1")
                .train(new ValveTrain.Shim(
                        ValveTrain.ShimPlace.FOLLOWER, ShimRange.parse("2.00..3.00 mm step 0.05 mm"), Ratio.ONE))
                .build();
        EngineSpec under = slides.toBuilder()
                .camshafts(new Camshafts(PerBank.ONE_PER_ROLE, List.of(List.of(1), List.of(2))))
                .build();

        assertThat(plan(slides, tight).camshafts()).isEmpty();
        assertThat(plan(slides, tight).totals().camshaftsLifted()).isZero();
        assertThat(plan(under, tight).camshafts()).containsExactlyInAnyOrder("bank 1 intake", "bank 2 intake");
        assertThat(plan(under, tight).totals().camshaftsLifted()).isEqualTo(2);
    }
}
