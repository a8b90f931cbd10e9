package dev.lash.examples;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.check.CheckSheet;
import dev.lash.check.PastVisit;
import dev.lash.check.PastVisit.PastReading;
import dev.lash.check.ValveReading;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Pitch;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Usage;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Runs {@code lash forecast} as the shell would. */
class ForecastCommandTest {
    private static final EngineSpec ENGINE = EngineSpec.builder("hill-mower", "Hill mower, single")
            .valves("1-in-1", "1-ex-1")
            .train(ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm")))
            .window(ValveRole.INTAKE, ClearanceWindow.parse("0.08..0.13 mm"))
            .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.17..0.22 mm"))
            .checkInterval(Usage.parse("100 h"))
            .build();

    private static PastVisit visit(String usage, String found) {
        return new PastVisit(
                LocalDate.of(2030, 5, 11),
                Usage.parse(usage),
                List.of(new PastReading(
                        ValveId.parse("1-in-1"), LengthInterval.parse(found), LengthInterval.parse(found), null)));
    }

    private static CheckSheet.Builder sheet() {
        return CheckSheet.builder(ENGINE, WalkRun.LEAVES)
                .machine("Paddock mower")
                .usage(Usage.parse("300 h"))
                .valve(ValveReading.of("1-in-1", "0.10 mm goes", "0.12 mm refuses"))
                .history(List.of(visit("100 h", "(0.11, 0.13) mm"), visit("200 h", "(0.10, 0.12) mm")));
    }

    private static ProgramRun forecast(CheckSheet sheet, String... options) {
        List<String> args = new ArrayList<>(List.of("forecast", "-"));
        args.addAll(List.of(options));
        return ProgramRun.of(sheet, args.toArray(String[]::new));
    }

    private static String flowing(ProgramRun run) {
        return run.out().replaceAll("\\s+", " ");
    }

    @Test
    void saysWhenToComeBackAndWhatThatAssumes() {
        ProgramRun run = forecast(sheet().build());

        assertThat(run.code()).isZero();
        assertThat(run.err()).isEmpty();
        assertThat(run.out()).startsWith("Forecast: Paddock mower\nat 300 h, method with-priors\n");
        assertThat(flowing(run))
                .containsPattern("Check (by [0-9.]+ h|now)")
                .contains("Drift in mm per 250 h.")
                .contains("no wear rate of valve clearances is published")
                .contains("A valve was never read: the forecast leans on the prior.")
                .contains("Cautions");
    }

    @ParameterizedTest
    @ValueSource(strings = {"with-priors", "maximum-likelihood", "feasible-lines"})
    void fitsTheScreenWithEachMethodAndDrawsEachValveThatWasRead(String method) {
        ProgramRun run = forecast(sheet().build(), "--method", method);

        assertThat(run.code()).isZero();
        assertThat(run.out().lines()).allMatch(line -> line.length() <= TextReport.WIDTH);
        assertThat(run.out().lines().filter(line -> line.equals("1-in-1"))).hasSize(1);
        assertThat(run.out().lines().filter(line -> line.equals("1-ex-1"))).isEmpty();
        assertThat(run.out()).contains("    0.13 ", "    0.08 ", TrendPlot.LEGEND.substring(0, 40));
    }

    @Test
    void aRiskOfItsOwnIsStated() {
        assertThat(flowing(forecast(sheet().build(), "--risk", "0.2"))).contains("20 %, 50 %, 80 %:");
    }

    @Test
    void writesJson() {
        ProgramRun run = forecast(sheet().build(), "--format", "json");

        assertThat(run.code()).isZero();
        assertThat(run.out())
                .startsWith("{")
                .contains(
                        "\"valve\" : \"1-in-1\"", "\"method\" : \"with-priors\"", "\"checks\" : 3", "\"checkBy\" : {");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "--risk; 2; 0.0001 to 0.5",
                "--risk; NaN; 0.0001 to 0.5",
                "--risk; much; much",
                "--method; guess; with-priors, maximum-likelihood, feasible-lines",
                "--format; xml; xml"
            })
    void refusesABadValue(String option, String value, String says) {
        ProgramRun run = forecast(sheet().build(), option, value);

        assertThat(run.code()).isEqualTo(2);
        assertThat(run.out()).isEmpty();
        assertThat(run.err()).contains(says).doesNotContain("Exception", "\tat ");
    }

    @Test
    void saysWhatIsMissing() {
        ProgramRun run = forecast(CheckSheet.builder(ENGINE, WalkRun.LEAVES).build());

        assertThat(run.code()).isEqualTo(2);
        assertThat(run.err()).contains("nothing to forecast", "\"usage\"");
    }

    @Test
    void worksWithoutAnyEarlierCheck() {
        ProgramRun run = forecast(sheet().history(List.of()).build());

        assertThat(run.code()).isZero();
        assertThat(flowing(run)).contains("1-in-1 1 ", "1-ex-1 0 ");
    }
}
