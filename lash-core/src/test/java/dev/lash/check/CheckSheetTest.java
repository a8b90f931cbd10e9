package dev.lash.check;

import static dev.lash.testing.Readings.guarded;
import static dev.lash.testing.Readings.interval;
import static dev.lash.testing.Readings.leaves;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.ShimBox;
import dev.lash.check.PastVisit.PastReading;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.ReadingRule;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Temperature;
import dev.lash.measure.Usage;
import dev.lash.testing.Contracts;
import dev.lash.testing.Tasks;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class CheckSheetTest {
    private static final EngineSpec ENGINE = School.generatorEngine().build();
    private static final GaugeSet GAUGES = leaves("0.05", "0.07");

    private static CheckSheet.Builder builder() {
        return CheckSheet.builder(ENGINE, GAUGES);
    }

    @Test
    void whatIsNotRecordedIsEmpty() {
        CheckSheet sheet = builder().build();
        assertThat(sheet.engine()).isEqualTo(ENGINE);
        assertThat(sheet.gauges()).isEqualTo(GAUGES);
        assertThat(sheet.rule()).isEqualTo(ReadingRule.simple());
        assertThat(sheet.machine()).isEmpty();
        assertThat(sheet.date()).isEmpty();
        assertThat(sheet.usage()).isEmpty();
        assertThat(sheet.engineTemperature()).isEmpty();
        assertThat(sheet.valves()).isEmpty();
        assertThat(sheet.shimBox()).isEqualTo(ShimBox.empty());
        assertThat(sheet.history()).isEmpty();
    }

    @Test
    void everyPartIsKept() {
        PastVisit visit = new PastVisit(
                LocalDate.of(2030, 4, 1),
                Usage.parse("520 h"),
                List.of(new PastReading(
                        ValveId.parse("1-in-1"), interval("(0.05, 0.07) mm"), interval("(0.05, 0.07) mm"), null)));
        ValveReading reading = ValveReading.of("1-in-1", "0.05 mm goes");
        CheckSheet sheet = builder()
                .rule(guarded("0.003", "0.002"))
                .machine("Yard generator")
                .date(LocalDate.of(2031, 4, 2))
                .usage(Usage.parse("640 h"))
                .engineTemperature(Temperature.ofCelsius(14))
                .valve(reading)
                .shimBox(Tasks.box("2.40"))
                .history(List.of(visit))
                .build();
        assertThat(sheet.rule()).isEqualTo(guarded("0.003", "0.002"));
        assertThat(sheet.machine()).isEqualTo("Yard generator");
        assertThat(sheet.date()).contains(LocalDate.of(2031, 4, 2));
        assertThat(sheet.usage()).contains(Usage.parse("640 h"));
        assertThat(sheet.engineTemperature()).contains(Temperature.ofCelsius(14));
        assertThat(sheet.valves()).containsExactly(reading);
        assertThat(sheet.shimBox()).isEqualTo(Tasks.box("2.40"));
        assertThat(sheet.history()).containsExactly(visit);
    }

    @Test
    void theOrderOfTheValvesIsKept() {
        CheckSheet sheet = builder()
                .valve(ValveReading.of("2-ex-1", "0.05 mm goes"))
                .valve(ValveReading.of("1-in-1", "0.05 mm goes"))
                .build();
        assertThat(sheet.valves()).extracting(r -> r.valve().toString()).containsExactly("2-ex-1", "1-in-1");
    }

    @Test
    void aValveThatTheEngineDoesNotHaveIsRefused() {
        Contracts.refuses(
                () -> builder().valve(ValveReading.of("3-in-1", "0.05 mm goes")),
                "3-in-1",
                "is not a valve of this engine",
                "2-ex-1",
                "correct the name");
    }

    @Test
    void aValveTwiceIsRefused() {
        CheckSheet.Builder twice = builder().valve(ValveReading.of("1-in-1", "0.05 mm goes"));
        Contracts.refuses(
                () -> twice.valve(ValveReading.of("1-in-1", "0.07 mm refuses")),
                "1-in-1",
                "twice",
                "each valve once",
                "put its trials together");
    }

    // ---- gaps

    private static CheckSheet.Builder twoGaps() {
        ShimRange sizes = ShimRange.parse("2.40..2.60 mm step 0.01 mm");
        return CheckSheet.builder(
                ENGINE.toBuilder()
                        .train(new ValveTrain.Desmodromic(sizes, sizes))
                        .build(),
                GAUGES);
    }

    @Test
    void theGapOfADesmodromicValveIsNamed() {
        Contracts.refuses(
                () -> twoGaps().valve(ValveReading.of("1-in-1", "0.05 mm goes")),
                "gap \"only\"",
                "is not a gap of a desmodromic train",
                "opener or closer",
                "name the gap");
    }

    @Test
    void noOtherValveHasAnOpenerOrACloser() {
        for (ValveReading reading : List.of(
                ValveReading.of("1-in-1", "0.05 mm goes").asOpener(List.of()),
                ValveReading.of("1-in-1", "0.05 mm goes").asCloser(List.of(), false))) {
            Contracts.refuses(
                    () -> builder().valve(reading),
                    "gap \"" + reading.gap() + "\"",
                    "is not a gap of a rocker-screw train",
                    "expected only",
                    "for no other");
        }
    }

    @Test
    void bothGapsOfAValveStandOnASheetEachOnce() {
        ValveReading opener = ValveReading.of("1-in-1", "0.05 mm goes").asOpener(List.of());
        ValveReading closer = ValveReading.of("1-in-1").asCloser(List.of(), true);
        CheckSheet.Builder both = twoGaps().valve(closer).valve(opener);
        CheckSheet sheet = both.build();
        assertThat(sheet.valves()).containsExactly(closer, opener);
        assertThat(sheet.find(ValveId.parse("1-in-1"), Gap.OPENER)).contains(opener);
        assertThat(sheet.find(ValveId.parse("1-in-1"), Gap.CLOSER)).contains(closer);
        assertThat(sheet.find(ValveId.parse("1-in-1"), Gap.ONLY)).isEmpty();
        assertThat(sheet.find(ValveId.parse("2-in-1"), Gap.OPENER)).isEmpty();
        Contracts.refuses(() -> both.valve(closer), "1-in-1 closer", "twice", "each valve once");
        Contracts.serialises(sheet);
    }

    @Test
    void anEarlierCheckNamesValvesOfTheEngineOnceEach() {
        PastVisit.PastReading in = past("1-in-1", Gap.ONLY);
        LocalDate day = LocalDate.of(2030, 4, 1);

        Contracts.refuses(
                () -> builder().pastVisit(new PastVisit(day, null, List.of(past("9-in-1", Gap.ONLY)))),
                "9-in-1",
                "is not a valve of this engine",
                "correct the name");
        Contracts.refuses(
                () -> builder().history(List.of(new PastVisit(day, null, List.of(past("1-in-1", Gap.CLOSER))))),
                "closer",
                "is not a gap",
                "desmodromic");
        Contracts.refuses(
                () -> builder().pastVisit(new PastVisit(day, null, List.of(in, in))),
                "1-in-1",
                "is twice in the check of 2030-04-01",
                "put what was found and left together");
        assertThat(builder()
                        .pastVisit(new PastVisit(day, null, List.of(in)))
                        .history(List.of())
                        .build()
                        .history())
                .isEmpty();
    }

    private static PastVisit.PastReading past(String valve, Gap gap) {
        LengthInterval found = LengthInterval.parse("(0.10, 0.12) mm");
        return new PastVisit.PastReading(ValveId.parse(valve), gap, found, found, null);
    }

    @Test
    void aSheetDoesNotChangeWithItsBuilder() {
        List<PastVisit> visits = new ArrayList<>();
        CheckSheet.Builder builder =
                builder().valve(ValveReading.of("1-in-1", "0.05 mm goes")).history(visits);
        CheckSheet sheet = builder.build();
        builder.valve(ValveReading.of("2-in-1", "0.05 mm goes")).machine("another");
        visits.add(new PastVisit(LocalDate.of(2030, 4, 1), null, List.of()));
        assertThat(sheet.valves()).hasSize(1).isUnmodifiable();
        assertThat(sheet.machine()).isEmpty();
        assertThat(sheet.history()).isEmpty();
        assertThat(builder.build().valves()).hasSize(2);
    }

    @Test
    void equality() {
        Contracts.equality(
                School.generator(),
                School.generator(),
                List.of(
                        School.generatorSheet().build(),
                        School.generatorSheet().machine("another").build(),
                        School.generatorSheet().rule(guarded("0.003", "0.00")).build(),
                        School.generatorSheet()
                                .engineTemperature(Temperature.ofCelsius(15))
                                .build(),
                        School.generatorSheet().date(LocalDate.of(2031, 4, 3)).build(),
                        School.generatorSheet().usage(Usage.parse("641 h")).build(),
                        School.generatorSheet().shimBox(Tasks.box("2.40")).build(),
                        School.roadTrainer()));
    }

    @Test
    void textForALog() {
        assertThat(School.generator().toString()).contains("Yard generator", "2031-04-02", "school-generator");
        assertThat(builder().build().toString()).contains("unrecorded date");
    }

    @Test
    void survivesSerialisation() {
        Contracts.serialises(School.roadTrainer());
        Contracts.serialises(builder().build());
    }

    @Test
    void nullIsRefused() {
        Contracts.refuseNull(
                () -> CheckSheet.builder(null, GAUGES),
                () -> CheckSheet.builder(ENGINE, null),
                () -> builder().rule(null),
                () -> builder().machine(null),
                () -> builder().date(null),
                () -> builder().usage(null),
                () -> builder().engineTemperature(null),
                () -> builder().valve(null),
                () -> builder().build().find(null, Gap.ONLY),
                () -> builder().build().find(ValveId.parse("1-in-1"), null),
                () -> builder().shimBox(null),
                () -> builder().history(null));
    }
}
