package dev.lash.check;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.check.Unconfirmed.Use;
import dev.lash.engine.Camshafts;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.CrankPlanner;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Figure;
import dev.lash.engine.Origin;
import dev.lash.engine.Pitch;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.WearPrior;
import dev.lash.gauge.GaugeSet;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import dev.lash.measure.Temperature;
import dev.lash.measure.Usage;
import dev.lash.plan.LeafPlanner;
import dev.lash.testing.Contracts;
import dev.lash.trend.EngineTrend;
import dev.lash.trend.TrendMethod;
import dev.lash.trend.ValveTrend;
import dev.lash.trend.WearTrend;
import dev.lash.trend.WearTrendFitter;
import java.time.LocalDate;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

class UnconfirmedTest {
    private static final Origin MEMORY =
            new Origin(Origin.Kind.FROM_MEMORY, "Small twins", "", "screw-twin, revision 2");
    private static final Origin PRACTICE =
            new Origin(Origin.Kind.COMMON_PRACTICE, "Crank layouts", "", "screw-twin, revision 2");
    private static final ClearanceWindow INTAKE = ClearanceWindow.parse("0.08..0.13 mm");

    private static EngineSpec.Builder stated(String... valves) {
        return EngineSpec.builder("hill-bike", "Hill bike")
                .valves(valves)
                .train(ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm")))
                .clearance(ValveRole.INTAKE, new ClearanceSpec(INTAKE, ClearanceWindow.parse("0.10..0.12 mm"), ""))
                .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.17..0.22 mm"))
                .warmest(Temperature.ofCelsius(35))
                .checkInterval(Usage.parse("6000 km"))
                .wearPrior(WearPrior.BY_DISTANCE);
    }

    private static EngineSpec typical(String... valves) {
        return stated(valves)
                .origin(Figure.FIRING_ORDER, PRACTICE)
                .origin(Figure.PITCH, MEMORY)
                .origin(Figure.INTAKE_WINDOW, MEMORY)
                .origin(Figure.INTAKE_SETTING, MEMORY)
                .origin(Figure.EXHAUST_WINDOW, MEMORY)
                .origin(Figure.EXHAUST_SETTING, MEMORY)
                .origin(Figure.WARMEST, MEMORY)
                .origin(Figure.CHECK_INTERVAL, MEMORY)
                .origin(Figure.WEAR_PRIOR, MEMORY)
                .build();
    }

    private static final EngineSpec TWIN = typical("1-in-1", "1-ex-1", "2-in-1", "2-ex-1");

    private static List<Figure> figures(EngineSpec engine, Use... uses) {
        return Unconfirmed.of(engine, LengthUnit.MILLIMETRE, Set.of(uses)).stream()
                .map(Unconfirmed::figure)
                .toList();
    }

    @Test
    void eachUseLeansOnItsOwnFigures() {
        assertThat(figures(TWIN, Use.VERDICTS))
                .containsExactly(Figure.INTAKE_WINDOW, Figure.EXHAUST_WINDOW, Figure.WARMEST);
        assertThat(figures(TWIN, Use.ADJUSTMENTS))
                .as("a window to set to only where it is another")
                .containsExactly(Figure.PITCH, Figure.INTAKE_WINDOW, Figure.EXHAUST_WINDOW, Figure.INTAKE_SETTING);
        assertThat(figures(TWIN, Use.CRANK_STOPS)).containsExactly(Figure.FIRING_ORDER);
        assertThat(figures(TWIN, Use.FORECAST_WINDOWS)).containsExactly(Figure.INTAKE_WINDOW, Figure.EXHAUST_WINDOW);
        assertThat(figures(TWIN, Use.CHECK_INTERVAL)).containsExactly(Figure.CHECK_INTERVAL);
        assertThat(figures(TWIN, Use.WEAR_PRIOR)).containsExactly(Figure.WEAR_PRIOR);
        assertThat(figures(TWIN)).isEmpty();
        assertThat(figures(TWIN, Use.values())).doesNotHaveDuplicates().hasSize(8);
    }

    @Test
    void aSingleCannotFireInAnotherOrder() {
        assertThat(figures(typical("1-in-1", "1-ex-1"), Use.CRANK_STOPS)).isEmpty();
    }

    @Test
    void aRoleThatTheEngineDoesNotHaveIsNotLeanedOn() {
        assertThat(figures(typical("1-ex-1"), Use.VERDICTS)).containsExactly(Figure.EXHAUST_WINDOW, Figure.WARMEST);
    }

    @Test
    void theRatioOfAFollowerCountsForAForecast() {
        EngineSpec engine = stated("1-in-1", "1-ex-1")
                .train(new ValveTrain.Shim(
                        ValveTrain.ShimPlace.FOLLOWER, ShimRange.parse("1.20..3.50 mm step 0.05 mm"), Ratio.of(3, 2)))
                .origin(Figure.RATIO, MEMORY)
                .build();
        assertThat(figures(engine, Use.FORECAST_WINDOWS)).contains(Figure.RATIO);
        assertThat(figures(engine, Use.FORECAST_WINDOWS)).doesNotContain(Figure.SHIMS);
    }

    /** What must be lifted to reach a shim decides which shims are changed. */
    @Test
    void theCamshaftsCountWhereShimsAreSwapped() {
        ValveTrain shims = new ValveTrain.Shim(
                ValveTrain.ShimPlace.UNDER_BUCKET, ShimRange.parse("1.20..3.50 mm step 0.05 mm"), Ratio.ONE);
        EngineSpec engine = typical("1-in-1", "1-ex-1").toBuilder()
                .camshafts(new Camshafts(Camshafts.PerBank.ONE, List.of()))
                .origin(Figure.CAMSHAFTS, MEMORY)
                .build();

        assertThat(figures(engine.toBuilder().train(shims).build(), Use.ADJUSTMENTS))
                .contains(Figure.CAMSHAFTS);
        assertThat(figures(engine, Use.ADJUSTMENTS)).as("screws").doesNotContain(Figure.CAMSHAFTS);
    }

    @Test
    void whatIsStatedOrConfirmedIsNotListed() {
        EngineSpec engine = TWIN.toBuilder()
                .checkInterval(Usage.parse("5000 km"))
                .confirmed(Figure.PITCH, "manual, page 9")
                .confirmed(Figure.INTAKE_WINDOW, "manual, page 7")
                .build();
        assertThat(figures(engine, Use.values()))
                .containsExactly(Figure.FIRING_ORDER, Figure.EXHAUST_WINDOW, Figure.WARMEST, Figure.WEAR_PRIOR);
    }

    @Test
    void hydraulicLiftersLeanOnNothing() {
        EngineSpec engine = stated("1-in-1", "1-ex-1")
                .train(new ValveTrain.Hydraulic())
                .origin(Figure.CHECK_INTERVAL, MEMORY)
                .build();
        assertThat(figures(engine, Use.values())).isEmpty();
    }

    @Test
    void textsPutFiguresOfOneOriginTogether() {
        assertThat(Unconfirmed.texts(
                        Unconfirmed.of(TWIN, LengthUnit.MILLIMETRE, EnumSet.of(Use.ADJUSTMENTS, Use.CRANK_STOPS))))
                .containsExactly(
                        "firing order 1-2: common practice: \"Crank layouts\" (template screw-twin, revision 2)",
                        "pitch 0.75 mm, intake window 0.08..0.13 mm, exhaust window 0.17..0.22 mm, intake window to set to "
                                + "0.10..0.12 mm: from memory: \"Small twins\" (template screw-twin, revision 2)");
        assertThat(Unconfirmed.texts(
                        Unconfirmed.of(stated("1-in-1").build(), LengthUnit.MILLIMETRE, EnumSet.of(Use.VERDICTS))))
                .containsExactly("intake window 0.08..0.13 mm: given without where the shop read it");
        assertThat(new Unconfirmed(Figure.CHECK_INTERVAL, "6000 km", PRACTICE))
                .hasToString(
                        "check interval 6000 km: common practice: \"Crank layouts\" (template screw-twin, revision 2)");
        assertThat(Unconfirmed.texts(List.of())).isEmpty();
    }

    // Reports

    private static CheckSheet.Builder sheet() {
        return CheckSheet.builder(TWIN, GaugeSet.of(LengthUnit.MILLIMETRE, "0.08", "0.10", "0.13", "0.17", "0.20"))
                .valve(ValveReading.of("1-in-1", "0.10 mm goes", "0.13 mm refuses"));
    }

    private static List<Figure> figures(List<Unconfirmed> unconfirmed) {
        return unconfirmed.stream().map(Unconfirmed::figure).toList();
    }

    @Test
    void aReportWithoutATrendDoesNotLeanOnTheIntervalOrThePrior() {
        CheckReport report = CheckReport.of(sheet().build());
        assertThat(figures(report.unconfirmed()))
                .containsExactly(
                        Figure.FIRING_ORDER,
                        Figure.PITCH,
                        Figure.INTAKE_WINDOW,
                        Figure.EXHAUST_WINDOW,
                        Figure.INTAKE_SETTING,
                        Figure.WARMEST);
        assertThat(figures(report.unconfirmedOfShims()))
                .containsExactly(Figure.PITCH, Figure.INTAKE_WINDOW, Figure.EXHAUST_WINDOW, Figure.INTAKE_SETTING);
    }

    @Test
    void aReportWithATrendDoes() {
        PastVisit visit = new PastVisit(
                LocalDate.of(2030, 5, 11),
                Usage.parse("4000 km"),
                List.of(new PastVisit.PastReading(
                        ValveId.parse("1-in-1"),
                        LengthInterval.parse("(0.10, 0.13) mm"),
                        LengthInterval.parse("(0.10, 0.13) mm"),
                        null)));
        CheckReport report = CheckReport.of(
                sheet().usage(Usage.parse("9120 km")).history(List.of(visit)).build());
        assertThat(report.findTrend()).isPresent();
        assertThat(figures(report.unconfirmed())).contains(Figure.CHECK_INTERVAL, Figure.WEAR_PRIOR);
    }

    @Test
    void aForecastLeansOnWhatItsMethodAndItsCounterUse() {
        WearTrendFitter priors = WearTrendFitter.withDefaults();
        WearTrendFitter lines = priors.withMethod(TrendMethod.FEASIBLE_LINES);
        CheckReport byDistance =
                CheckReport.of(sheet().usage(Usage.parse("9120 km")).build());
        EngineTrend unread = byDistance.trend(lines).orElseThrow();
        assertThat(figures(
                        byDistance.unconfirmedOfTrend(byDistance.trend(priors).orElseThrow())))
                .containsExactly(Figure.INTAKE_WINDOW, Figure.EXHAUST_WINDOW, Figure.CHECK_INTERVAL, Figure.WEAR_PRIOR);
        assertThat(figures(byDistance.unconfirmedOfTrend(unread)))
                .as("no lines without a reading, so the prior")
                .contains(Figure.WEAR_PRIOR);
        ValveTrend one = unread.valves().get(0);
        WearTrend straight = new WearTrend(
                TrendMethod.FEASIBLE_LINES,
                2,
                one.trend().per(),
                0.12,
                0,
                0,
                null,
                null,
                false,
                "assumes straight wear");
        EngineTrend byLines =
                new EngineTrend(List.of(new ValveTrend(one.task(), straight, one.forecast())), unread.checkBy());
        assertThat(figures(byDistance.unconfirmedOfTrend(byLines)))
                .containsExactly(Figure.INTAKE_WINDOW, Figure.EXHAUST_WINDOW, Figure.CHECK_INTERVAL);
        CheckReport byHours = CheckReport.of(sheet().usage(Usage.parse("120 h")).build());
        assertThat(figures(byHours.unconfirmedOfTrend(byHours.trend(priors).orElseThrow())))
                .containsExactly(Figure.INTAKE_WINDOW, Figure.EXHAUST_WINDOW);
        Contracts.refuseNull(() -> byHours.unconfirmedOfTrend(null));
    }

    @Test
    void aCardListsThemToo() {
        CheckPlan card =
                CheckPlan.of(TWIN, sheet().build().gauges(), LeafPlanner.withDefaults(), CrankPlanner.atTdcMarks());
        assertThat(figures(card.unconfirmed())).contains(Figure.FIRING_ORDER, Figure.PITCH, Figure.WARMEST);
    }

    @Test
    void isAValue() {
        Unconfirmed one = new Unconfirmed(Figure.PITCH, "0.75 mm", MEMORY);
        Contracts.equality(
                one,
                new Unconfirmed(Figure.PITCH, "0.75 mm", MEMORY),
                List.of(new Unconfirmed(Figure.STEP, "0.75 mm", MEMORY)));
        Contracts.serialises(one);
        Contracts.refuseNull(
                () -> new Unconfirmed(null, "", MEMORY),
                () -> new Unconfirmed(Figure.PITCH, null, MEMORY),
                () -> new Unconfirmed(Figure.PITCH, "", null),
                () -> Unconfirmed.of(null, LengthUnit.INCH, Set.of()),
                () -> Unconfirmed.of(TWIN, null, Set.of()),
                () -> Unconfirmed.of(TWIN, LengthUnit.INCH, null),
                () -> Unconfirmed.texts(null));
    }
}
