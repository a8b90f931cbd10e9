package dev.lash.examples;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.check.CheckSheet;
import dev.lash.check.PastVisit;
import dev.lash.check.ValveReading;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Pitch;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Usage;
import java.time.LocalDate;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** What the programs make of a forecast: the leaf to begin with, and the shims that last longest. */
class ForecastLeafTest {
    private static CheckSheet.Builder sheet(ValveTrain train, String... found) {
        EngineSpec engine = EngineSpec.builder("hill-bike", "Hill bike, single")
                .valves("1-in-1", "1-ex-1")
                .train(train)
                .window(ValveRole.INTAKE, ClearanceWindow.parse("0.10..0.20 mm"))
                .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.10..0.20 mm"))
                .build();
        return CheckSheet.builder(engine, WalkRun.LEAVES)
                .usage(Usage.parse(6000 * found.length + " km"))
                .history(IntStream.range(0, found.length)
                        .mapToObj(i -> new PastVisit(
                                LocalDate.of(2030, i + 1, 11),
                                Usage.parse(6000 * i + " km"),
                                List.of(new PastVisit.PastReading(
                                        ValveId.parse("1-in-1"),
                                        LengthInterval.parse(found[i]),
                                        LengthInterval.parse(found[i]),
                                        null))))
                        .toList());
    }

    private static final ValveTrain SCREW = ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm"));
    private static final ValveTrain SHIMS =
            ValveTrain.Shim.bucket(ValveTrain.ShimPlace.UNDER_BUCKET, ShimRange.parse("1.20..3.00 mm step 0.05 mm"));

    private static String flowing(ProgramRun run) {
        return run.out().replaceAll("\\s+", " ");
    }

    @Test
    void checkAndPlanBeginWithTheLeafOfTheForecast() {
        CheckSheet sheet = sheet(SCREW, "(0.16, 0.18) mm", "(0.14, 0.16) mm", "(0.12, 0.14) mm")
                .valve(ValveReading.of("1-in-1"))
                .valve(ValveReading.of("1-ex-1"))
                .build();

        assertThat(flowing(ProgramRun.of(sheet, "plan", "-")))
                .contains("Leaf to begin with - 1-in-1: 0.10, by the forecast - 1-ex-1: 0.20 ");
        assertThat(ProgramRun.of(sheet, "check", "--format", "json", "-").out()).contains("\"byForecast\" : true");
    }

    @Test
    void theShimsThatLastLongestSayWhatTheyRestOn() {
        CheckSheet sheet = sheet(SHIMS, "(0.16, 0.18) mm", "(0.14, 0.16) mm")
                .valve(ValveReading.of("1-in-1", "0.12 mm goes", "0.13 mm refuses"))
                .valve(ValveReading.of("1-ex-1", "0.12 mm goes", "0.13 mm refuses"))
                .build();
        ProgramRun run = ProgramRun.of(sheet, "shims", "--lasting", "-");

        assertThat(run.code()).isZero();
        assertThat(flowing(run))
                .contains("Longest lasting: of the plans that are as good by the counts above")
                .contains("It rests on 1 to 3 checks of each valve.");
        assertThat(flowing(ProgramRun.of(sheet, "shims", "-"))).doesNotContain("Longest lasting");
    }

    @Test
    void withoutATrendNoShimPlanLasts() {
        CheckSheet sheet = sheet(SHIMS)
                .valve(ValveReading.of("1-in-1", "0.12 mm goes", "0.13 mm refuses"))
                .build();
        ProgramRun run = ProgramRun.of(sheet, "shims", "--lasting", "-");

        assertThat(run.code()).isEqualTo(2);
        assertThat(run.out()).isEmpty();
        assertThat(run.err()).contains("--lasting has no trend to go by", "leave --lasting out");
    }
}
