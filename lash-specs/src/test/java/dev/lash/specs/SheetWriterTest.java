package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.assertThatNullPointerException;

import dev.lash.check.CheckSheet;
import dev.lash.check.ValveReading;
import dev.lash.engine.Camshafts;
import dev.lash.engine.Camshafts.PerBank;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.Decompressor;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.FiringOrder;
import dev.lash.engine.Pitch;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.ReadingRule;
import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

class SheetWriterTest {
    private static final GaugeSet GAUGES = GaugeSet.of(LengthUnit.MILLIMETRE, "0.10", "0.15");

    private static EngineSpec.Builder generator() {
        return EngineSpec.builder("yard-generator", "Yard generator")
                .valves("1-in-1", "1-ex-1")
                .train(ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm")))
                .window(ValveRole.INTAKE, ClearanceWindow.parse("0.10..0.15 mm"))
                .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.15..0.20 mm"));
    }

    private static DocumentException refuses(CheckSheet sheet) {
        return BadInput.refuses(() -> SheetWriter.write(sheet), "");
    }

    @Test
    void refusesNull() {
        assertThatNullPointerException().isThrownBy(() -> SheetWriter.write(null));
    }

    @Test
    void decompressorGoesRoundWithAndWithoutItsAngles() {
        ValveId held = ValveId.parse("1-ex-1");
        for (Decompressor device :
                List.of(new Decompressor(held, Ratio.of(60, 1), Ratio.of(30, 1)), Decompressor.ofUnknownAngles(held))) {
            CheckSheet sheet = CheckSheet.builder(
                            generator().decompressor(device).build(), GAUGES)
                    .build();
            assertThat(Fixtures.read(SheetWriter.write(sheet)).engine().decompressor())
                    .contains(device);
        }
        String alone = SheetWriter.write(CheckSheet.builder(
                                generator()
                                        .decompressor(Decompressor.ofUnknownAngles(held))
                                        .build(),
                                GAUGES)
                        .build())
                .replace("\"valve\" : \"1-ex-1\"", "\"valve\" : \"1-ex-1\", \"after\" : \"30 deg\"");
        assertThatExceptionOfType(DocumentException.class)
                .isThrownBy(() -> Fixtures.read(alone))
                .withMessageContaining("/engine/inline/decompressor")
                .withMessageContaining("leave both out");
    }

    @Test
    void camshaftsGoRound() {
        for (Camshafts camshafts : List.of(
                Camshafts.ONE_PER_ROLE,
                new Camshafts(PerBank.ONE, List.of()),
                new Camshafts(PerBank.ONE_PER_ROLE, List.of(List.of(1), List.of(2))))) {
            CheckSheet sheet = CheckSheet.builder(
                            generator()
                                    .firingOrder(FiringOrder.even(1, 2))
                                    .camshafts(camshafts)
                                    .build(),
                            GAUGES)
                    .build();
            assertThat(Fixtures.read(SheetWriter.write(sheet)).engine().camshafts())
                    .isEqualTo(camshafts);
        }
    }

    @Test
    void writesTheShortestSheetInAFixedForm() {
        CheckSheet sheet = CheckSheet.builder(generator().build(), GAUGES)
                .valve(ValveReading.of("1-in-1", "0.15 mm refuses", "0.10 mm goes"))
                .build();

        assertThat(SheetWriter.write(sheet)).isEqualTo("""
                {
                  "format" : "lash-sheet/1",
                  "engine" : {
                    "inline" : {
                      "id" : "yard-generator",
                      "title" : "Yard generator",
                      "cylinders" : 1,
                      "firingOrder" : [ 1 ],
                      "valves" : [ "1-in-1", "1-ex-1" ],
                      "train" : {
                        "kind" : "rocker-screw",
                        "pitch" : "0.75 mm"
                      },
                      "clearances" : {
                        "in" : "0.10..0.15 mm",
                        "ex" : "0.15..0.20 mm"
                      }
                    }
                  },
                  "rule" : "simple",
                  "gauges" : {
                    "leaves" : [ "0.10 mm", "0.15 mm" ],
                    "stack" : 1
                  },
                  "valves" : [ {
                    "valve" : "1-in-1",
                    "trials" : [ {
                      "leaf" : "0.15 mm",
                      "fit" : "refuses"
                    }, {
                      "leaf" : "0.10 mm",
                      "fit" : "goes"
                    } ]
                  } ]
                }""");
    }

    @ParameterizedTest
    @ValueSource(strings = {Fixtures.FULL, Fixtures.OVERLAY, Fixtures.INCH})
    void writesWhatWasRead(String resource) {
        CheckSheet sheet = Fixtures.read(Fixtures.resource(resource));
        String written = SheetWriter.write(sheet);

        assertThat(Fixtures.read(written)).isEqualTo(sheet);
        assertThat(written).doesNotContain("\r").endsWith("}");
    }

    /** Every field of the format is used by the full sheet and written again, none is lost. */
    @Test
    void writesEveryFieldOfTheFullSheet() {
        String read = Fixtures.resource(Fixtures.FULL);
        JsonNode written = Trees.tree(SheetWriter.write(Fixtures.read(read)));

        assertThat(Trees.pointers(written))
                .containsAll(Trees.pointers(Trees.tree(read)).stream()
                        .filter(pointer -> !pointer.equals("/valves/2/shim/marked"))
                        .toList())
                .contains("/history/0/valves/1/left", "/valves/3/shim/measured");
        assertThat(written.at("/valves/2/shim").stringValue())
                .as("a mark alone is written as a text")
                .isEqualTo("2.30 mm");
        assertThat(written.at("/engine/inline/camTiming").toString())
                .isEqualTo("{\"in\":{\"opens\":\"22.5 deg BTDC\",\"closes\":\"55 deg ABDC\"},"
                        + "\"ex\":{\"opens\":\"60 deg BBDC\",\"closes\":\"20 deg ATDC\"},\"margin\":\"18 deg\"}");
        assertThat(written.at("/engine/inline/firingIntervals").toString()).isEqualTo("[270,450]");
        assertThat(written.at("/valves/1/trials/0/leaf").toString()).isEqualTo("[\"0.05 mm\",\"0.12 mm\"]");
    }

    @Test
    void writesLengthsInTheUnitOfTheGauges() {
        JsonNode written = Trees.tree(SheetWriter.write(Fixtures.read(Fixtures.resource(Fixtures.INCH))));

        assertThat(written.at("/gauges/leaves").toString())
                .isEqualTo("[\"0.002 in\",\"0.003 in\",\"0.004 in\",\"0.006 in\",\"0.20 mm\"]");
        assertThat(written.at("/engine/inline/clearances").toString())
                .isEqualTo("{\"in\":\"0.003..0.005 in\",\"ex\":\"0.005..0.007 in\"}");
        assertThat(written.at("/engine/inline/train/pitch").stringValue()).isEqualTo("26 tpi");
    }

    /** The format has two units of gauges; a set in another one is read back in that of its system. */
    @ParameterizedTest
    @EnumSource(LengthUnit.class)
    void keepsTheSystemOfTheGauges(LengthUnit unit) {
        CheckSheet sheet = CheckSheet.builder(
                        generator().build(), GaugeSet.of(unit, unit.isInch() ? "0.004 in" : "0.10 mm"))
                .build();
        CheckSheet read = Fixtures.read(SheetWriter.write(sheet));

        assertThat(read.gauges().leaves()).isEqualTo(sheet.gauges().leaves());
        assertThat(read.gauges().unit()).isEqualTo(unit.isInch() ? LengthUnit.INCH : LengthUnit.MILLIMETRE);
        assertThat(read.engine()).isEqualTo(sheet.engine());
    }

    @Test
    void writesATemplatesEngineWholeAndNamesTheTemplate() {
        CheckSheet sheet = CheckSheet.builder(
                        SpecPack.bundled().get("screw-twin").spec(), GAUGES)
                .build();
        String written = SheetWriter.write(sheet);

        assertThat(Trees.tree(written).at("/engine/inline/template").stringValue())
                .startsWith("screw-twin, revision ");
        assertThat(Fixtures.read(written)).isEqualTo(sheet);
    }

    @Test
    void writesFromWhereAllWindowsAreConfirmed() {
        CheckSheet sheet = Fixtures.read(Fixtures.resource(Fixtures.FULL));

        assertThat(Trees.tree(SheetWriter.write(sheet))
                        .at("/engine/confirmedFrom")
                        .stringValue())
                .isEqualTo("workshop manual of the quad, page 2-14");
    }

    @Test
    void writesFromWhereEachWindowIsConfirmed() {
        ClearanceWindow window = ClearanceWindow.parse("0.10..0.15 mm");
        EngineSpec engine = generator()
                .clearance(ValveRole.INTAKE, new ClearanceSpec(window, window, "page 9"))
                .build();
        CheckSheet sheet = CheckSheet.builder(engine, GAUGES).build();
        String written = SheetWriter.write(sheet);

        assertThat(Trees.tree(written).at("/engine/confirmedFrom").toString())
                .isEqualTo("{\"in\":\"page 9\",\"ex\":\"\"}");
        assertThat(Fixtures.read(written)).isEqualTo(sheet);
    }

    // What the format cannot hold is refused, not changed

    @Test
    void refusesAGuardedRuleWithOtherFiguresThanTheGauges() {
        Length tolerance = Length.ofMillimetres("0.003");
        CheckSheet.Builder builder =
                CheckSheet.builder(generator().build(), GAUGES.withTolerance(tolerance, Length.ZERO));
        DocumentException refused = refuses(
                builder.rule(ReadingRule.guarded(Length.ZERO, tolerance)).build());

        assertThat(refused.pointer()).isEqualTo("/rule");
        assertThat(refused.value()).isEqualTo("guarded, tolerance 0.00 mm, drag allowance 0.003 mm");
        assertThat(refused.expected()).isEqualTo("guarded, tolerance 0.003 mm, drag allowance 0.00 mm");
        assertThat(Fixtures.read(SheetWriter.write(builder.rule(ReadingRule.guarded(tolerance, Length.ZERO))
                                .build()))
                        .rule())
                .isEqualTo(ReadingRule.guarded(tolerance, Length.ZERO));
    }

    @Test
    void refusesFiringIntervalsThatAreNoDecimalNumbers() {
        EngineSpec engine = generator()
                .valves("1-in-1", "2-in-1")
                .firingOrder(new FiringOrder(List.of(1, 2), List.of(Ratio.of(720, 7), Ratio.of(4320, 7))))
                .build();
        DocumentException refused = refuses(CheckSheet.builder(engine, GAUGES).build());

        assertThat(refused.pointer()).isEqualTo("/engine/inline/firingIntervals");
        assertThat(refused.value()).isEqualTo("720/7");
        assertThat(refused.problem()).isEqualTo("has no finite decimal form");
    }
}
