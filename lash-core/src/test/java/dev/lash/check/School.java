package dev.lash.check;

import static dev.lash.testing.Readings.leaves;
import static dev.lash.testing.Readings.window;

import dev.lash.adjust.InstalledShim;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.FiringOrder;
import dev.lash.engine.Pitch;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.ValveTrain.ShimPlace;
import dev.lash.gauge.GaugeSet;
import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Temperature;
import dev.lash.measure.Usage;
import dev.lash.testing.Tasks;
import java.time.LocalDate;
import java.util.List;

/** The fleet of a hill-country riding school: its engines and a check sheet of each. */
final class School {
    static final GaugeSet GENERATOR_LEAVES =
            leaves("0.03", "0.04", "0.05", "0.06", "0.07", "0.09", "0.12", "0.15", "0.20", "0.25", "0.30");

    private School() {}

    private static ClearanceSpec confirmed(String text, String where) {
        ClearanceWindow window = window(text);
        return new ClearanceSpec(window, window, where);
    }

    // ---- the yard generator, a twin with screw rockers

    /** A single with two valves and windows alike, typical values. */
    static EngineSpec hillSingle() {
        return EngineSpec.builder("hill-bike", "Hill bike, single")
                .valves("1-in-1", "1-ex-1")
                .train(ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm")))
                .window(ValveRole.INTAKE, ClearanceWindow.parse("0.10..0.20 mm"))
                .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.10..0.20 mm"))
                .build();
    }

    static EngineSpec.Builder generatorEngine() {
        return EngineSpec.builder("school-generator", "Yard generator, twin with side-by-side screw rockers")
                .valves("1-in-1", "1-ex-1", "2-in-1", "2-ex-1")
                .firingOrder(FiringOrder.even(List.of(1, 2)))
                .train(ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm")))
                .clearance(ValveRole.INTAKE, confirmed("0.05..0.09 mm", "school's manual, section 4"))
                .clearance(ValveRole.EXHAUST, confirmed("0.12..0.18 mm", "school's manual, section 4"))
                .warmest(Temperature.ofCelsius(30));
    }

    /** The generator's sheet without readings, cold. */
    static CheckSheet.Builder generatorSheet() {
        return CheckSheet.builder(generatorEngine().build(), GENERATOR_LEAVES)
                .machine("Yard generator")
                .date(LocalDate.of(2031, 4, 2))
                .usage(Usage.parse("640 h"))
                .engineTemperature(Temperature.ofCelsius(14));
    }

    static CheckSheet generator() {
        return generatorSheet()
                .valve(ValveReading.of("1-in-1", "0.03 mm goes", "0.05 mm refuses"))
                .valve(ValveReading.of("1-ex-1", "0.15 mm goes", "0.20 mm forced"))
                .valve(ValveReading.of("2-in-1", "0.06 mm goes", "0.07 mm drags", "0.09 mm forced"))
                .valve(ValveReading.of("2-ex-1", "0.20 mm goes", "0.25 mm refuses"))
                .build();
    }

    // ---- the road trainer, a four with shims under buckets

    static EngineSpec roadTrainerEngine() {
        return EngineSpec.builder("school-four", "Road trainer, bucket four")
                .valves(
                        "1-in-1", "1-in-2", "1-ex-1", "1-ex-2", "2-in-1", "2-in-2", "2-ex-1", "2-ex-2", "3-in-1",
                        "3-in-2", "3-ex-1", "3-ex-2", "4-in-1", "4-in-2", "4-ex-1", "4-ex-2")
                .firingOrder(FiringOrder.even(List.of(1, 2, 4, 3)))
                .train(ValveTrain.Shim.bucket(ShimPlace.UNDER_BUCKET, ShimRange.parse("1.20..3.50 mm step 0.05 mm")))
                .clearance(ValveRole.INTAKE, confirmed("0.16..0.22 mm", "school's manual, section 7"))
                .clearance(ValveRole.EXHAUST, confirmed("0.25..0.31 mm", "school's manual, section 7"))
                .warmest(Temperature.ofCelsius(35))
                .build();
    }

    static CheckSheet.Builder roadTrainerSheet() {
        GaugeSet gauges = leaves(
                        "0.04", "0.05", "0.06", "0.07", "0.08", "0.10", "0.12", "0.15", "0.16", "0.18", "0.20", "0.22",
                        "0.25", "0.28", "0.30", "0.31", "0.33")
                .withStacksOf(2);
        return CheckSheet.builder(roadTrainerEngine(), gauges)
                .machine("Road trainer 1")
                .date(LocalDate.of(2031, 6, 20))
                .usage(Usage.parse("24110 km"))
                .engineTemperature(Temperature.ofCelsius(21))
                .shimBox(Tasks.box("2.25", "2.20", "2.20", "2.40"));
    }

    static CheckSheet roadTrainer() {
        CheckSheet.Builder sheet = roadTrainerSheet();
        between(sheet, "1-in-1", "0.15", "0.16", "2.45");
        between(sheet, "1-in-2", "0.15", "0.16", "2.35");
        between(sheet, "1-ex-1", "0.20", "0.22", "2.40");
        between(sheet, "1-ex-2", "0.22", "0.25", "2.35");
        between(sheet, "2-in-1", "0.20", "0.22", "2.50");
        between(sheet, "2-in-2", "0.12", "0.15", "2.65");
        sheet.valve(ValveReading.of("2-ex-1", "0.04 mm refuses").withShim(marked("2.50")));
        between(sheet, "2-ex-2", "0.20", "0.22", "2.65");
        between(sheet, "3-in-1", "0.12", "0.15", "2.40");
        between(sheet, "3-in-2", "0.20", "0.22", "2.35");
        between(sheet, "3-ex-1", "0.25", "0.28", "2.65");
        between(sheet, "3-ex-2", "0.20", "0.22", "2.50");
        between(sheet, "4-in-1", "0.12", "0.15", "2.45");
        between(sheet, "4-in-2", "0.12", "0.15", "2.45");
        between(sheet, "4-ex-1", "0.25", "0.28", "2.55");
        between(sheet, "4-ex-2", "0.25", "0.28", "2.45");
        return sheet.build();
    }

    static InstalledShim marked(String size) {
        return InstalledShim.marked(Length.ofMillimetres(size));
    }

    private static void between(CheckSheet.Builder sheet, String valve, String goes, String refuses, String shim) {
        sheet.valve(ValveReading.of(valve, goes + " mm goes", refuses + " mm refuses")
                .withShim(marked(shim)));
    }

    // ---- the meadow mower, a single in inches

    static CheckSheet mower() {
        EngineSpec engine = EngineSpec.builder("school-mower", "Meadow mower, small overhead-valve single")
                .valves("1-in-1", "1-ex-1")
                .train(ValveTrain.Screw.atValveTip(Pitch.parse("0.05 in")))
                .window(ValveRole.INTAKE, window("0.003..0.005 in"))
                .window(ValveRole.EXHAUST, window("0.005..0.007 in"))
                .warmest(Temperature.ofCelsius(30))
                .build();
        return CheckSheet.builder(
                        engine,
                        GaugeSet.of(LengthUnit.INCH, "0.002", "0.003", "0.004", "0.005", "0.006", "0.007", "0.008"))
                .machine("Meadow mower")
                .date(LocalDate.of(2031, 5, 11))
                .usage(Usage.parse("212 h"))
                .engineTemperature(Temperature.ofCelsius(16))
                .valve(ValveReading.of("1-in-1", "0.004 in drags"))
                .valve(ValveReading.of("1-ex-1", "0.005 in goes", "0.007 in refuses"))
                .build();
    }

    // ---- hill bike 5, a single with trials at odds, read warm

    static CheckSheet hillBike() {
        EngineSpec engine = EngineSpec.builder("school-single", "Training single, screw rockers")
                .valves("1-in-1", "1-ex-1")
                .train(ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm")))
                .window(ValveRole.INTAKE, window("0.06..0.11 mm"))
                .window(ValveRole.EXHAUST, window("0.14..0.20 mm"))
                .warmest(Temperature.ofCelsius(35))
                .build();
        return CheckSheet.builder(engine, leaves("0.06", "0.09", "0.11", "0.14", "0.18"))
                .machine("Hill bike 5")
                .date(LocalDate.of(2031, 4, 3))
                .usage(Usage.parse("9120 km"))
                .engineTemperature(Temperature.ofCelsius(41))
                .valve(ValveReading.of("1-in-1", "0.11 mm goes", "0.09 mm refuses", "0.06 mm goes"))
                .valve(ValveReading.of("1-ex-1", "0.18 mm drags"))
                .build();
    }
}
