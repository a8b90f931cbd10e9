package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatNullPointerException;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.adjust.InstalledShim;
import dev.lash.adjust.ShimBox;
import dev.lash.check.CheckSheet;
import dev.lash.check.Done;
import dev.lash.check.PastVisit;
import dev.lash.check.PastVisit.PastReading;
import dev.lash.check.Symptom;
import dev.lash.check.ValveReading;
import dev.lash.engine.CamTiming;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.FiringOrder;
import dev.lash.engine.Pitch;
import dev.lash.engine.ScrewHead;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.ValveTrain.ScrewPlace;
import dev.lash.engine.ValveTrain.ShimPlace;
import dev.lash.engine.WearPrior;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.Trial;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import dev.lash.measure.Temperature;
import dev.lash.measure.Usage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class SheetReaderTest {
    private static final String OVERLAID = "screw-twin";

    private final SheetReader reader = new SheetReader(SpecPack.bundled());
    private final CheckSheet full = Fixtures.read(Fixtures.resource(Fixtures.FULL));

    private static Length mm(String number) {
        return Length.ofMillimetres(number);
    }

    private static ClearanceWindow window(String text) {
        return ClearanceWindow.parse(text);
    }

    private static ClearanceSpec clearance(EngineSpec engine, ValveRole role) {
        return engine.findClearance(role).orElseThrow();
    }

    private static ValveReading valve(String entry) {
        return Fixtures.read(Fixtures.sheet(entry)).valves().get(0);
    }

    private static ValveReading firstWith(String field, String value) {
        return valve("{ \"valve\": \"1-in-1\", \"" + field + "\": " + value + " }");
    }

    // From where: text, stream, file

    @Test
    void refusesNull() {
        assertThatNullPointerException().isThrownBy(() -> new SheetReader(null));
        assertThatNullPointerException().isThrownBy(() -> reader.read("a", (String) null));
        assertThatNullPointerException().isThrownBy(() -> reader.read("a", (InputStream) null));
        assertThatNullPointerException().isThrownBy(() -> reader.read(null));
        assertThatNullPointerException().isThrownBy(() -> reader.read(null, "{}"));
        assertThatNullPointerException()
                .isThrownBy(() -> reader.read(null, new ByteArrayInputStream(new byte[] {'{', '}'})));
    }

    @Test
    void readsTextStreamAndFileAlike(@TempDir Path folder) throws IOException {
        String json = Fixtures.resource(Fixtures.FULL);
        Path file = Files.writeString(folder.resolve("sheet.json"), json);

        assertThat(reader.read("text", json)).isEqualTo(full);
        assertThat(reader.read("stream", new ByteArrayInputStream(json.getBytes(StandardCharsets.UTF_8))))
                .isEqualTo(full);
        assertThat(reader.read(file)).isEqualTo(full);
    }

    @Test
    void acceptsAByteOrderMark(@TempDir Path folder) throws IOException {
        String json = "\uFEFF" + Fixtures.resource(Fixtures.FULL);

        assertThat(reader.read("text", json)).isEqualTo(full);
        assertThat(reader.read(Files.writeString(folder.resolve("sheet.json"), json)))
                .isEqualTo(full);
    }

    @Test
    void readsWhateverTheLineEndsAndSpaces() {
        String json = Fixtures.resource(Fixtures.FULL);

        assertThat(reader.read("text", json.replace("\n", "\r\n"))).isEqualTo(full);
        assertThat(reader.read("text", json.replace("\n", "\t "))).isEqualTo(full);
        assertThat(reader.read("text", Trees.tree(json).toString())).isEqualTo(full);
    }

    @Test
    void leavesAStreamOpen() throws IOException {
        byte[] utf8 = Fixtures.resource(Fixtures.FULL).getBytes(StandardCharsets.UTF_8);
        boolean[] closed = {false};
        InputStream stream = new ByteArrayInputStream(utf8) {
            @Override
            public void close() {
                closed[0] = true;
            }
        };
        reader.read("stream", stream);

        assertThat(closed[0]).isFalse();
    }

    @Test
    void namesTheFileInErrors(@TempDir Path folder) throws IOException {
        Path file = Files.writeString(folder.resolve("broken.json"), "{");

        assertThatThrownBy(() -> reader.read(file)).isInstanceOfSatisfying(DocumentException.class, e -> {
            assertThat(e.source()).isEqualTo(file.toString());
            assertThat(e).hasMessageStartingWith(file + ", line 1, column 2, at the top: ");
        });
    }

    @Test
    void passesOnThatAFileOrStreamCannotBeRead(@TempDir Path folder) {
        InputStream broken = new InputStream() {
            @Override
            public int read() throws IOException {
                throw new IOException("the card was pulled");
            }

            @Override
            public int read(byte[] buffer, int offset, int length) throws IOException {
                return read();
            }
        };

        assertThatThrownBy(() -> reader.read(folder.resolve("none.json"))).isInstanceOf(NoSuchFileException.class);
        assertThatThrownBy(() -> reader.read("card", broken))
                .isInstanceOf(IOException.class)
                .hasMessage("the card was pulled");
    }

    // The sheet itself

    @Test
    void readsTheFieldsOfASheet() {
        assertThat(full.machine()).isEqualTo("Hill riding school, ridge quad 3");
        assertThat(full.date()).contains(LocalDate.of(2031, 4, 2));
        assertThat(full.usage()).contains(Usage.parse("18450.5 km"));
        assertThat(full.engineTemperature()).contains(Temperature.parse("66 °F"));
        assertThat(full.rule()).isEqualTo(ReadingRule.guarded(mm("0.003"), mm("0.002")));
        assertThat(full.valves())
                .extracting(v -> v.valve().toString())
                .containsExactly("1-in-1", "1-in-2", "1-ex-1", "2-in-1", "2-in-2", "2-ex-1");
        assertThat(full.shimBox())
                .isEqualTo(new ShimBox(List.of(
                        new ShimBox.Lot(mm("2.40"), 2, "9.5 mm diameter"), new ShimBox.Lot(mm("2.35"), 0, ""))));
    }

    @Test
    void takesDefaultsForWhatIsAbsent() {
        CheckSheet sheet = Fixtures.read(Fixtures.sheet("{ \"valve\": \"1-in-1\" }"));

        assertThat(sheet.machine()).isEmpty();
        assertThat(sheet.date()).isEmpty();
        assertThat(sheet.usage()).isEmpty();
        assertThat(sheet.engineTemperature()).isEmpty();
        assertThat(sheet.rule()).isEqualTo(ReadingRule.simple());
        assertThat(sheet.gauges())
                .isEqualTo(GaugeSet.of(LengthUnit.MILLIMETRE, "0.05", "0.10", "0.15", "0.20"))
                .extracting(GaugeSet::mostStacked)
                .isEqualTo(1);
        assertThat(sheet.shimBox()).isEqualTo(ShimBox.empty());
        assertThat(sheet.history()).isEmpty();
        assertThat(sheet.valves()).containsExactly(ValveReading.of(ValveId.parse("1-in-1"), List.of()));
    }

    @Test
    void readsASheetWithoutValves() {
        assertThat(Fixtures.read(Fixtures.sheet("")).valves()).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({"simple, simple", "guarded, 'guarded, tolerance 0.003 mm, drag allowance 0.002 mm'"})
    void readsTheRule(String word, String rule) {
        String json = Trees.with(Fixtures.resource(Fixtures.FULL), "/rule", Trees.quoted(word));

        assertThat(Fixtures.read(json).rule()).isEqualTo(ReadingRule.parse(rule));
    }

    // Gauges

    @Test
    void readsTheGauges() {
        List<Leaf> leaves = Stream.of("0.05", "0.07", "0.10", "0.12", "0.15", "0.1524", "0.17", "0.20", "0.25", "0.30")
                .map(thickness -> new Leaf(mm(thickness)))
                .toList();

        assertThat(full.gauges()).isEqualTo(new GaugeSet(leaves, 2, mm("0.003"), mm("0.002"), LengthUnit.MILLIMETRE));
    }

    @Test
    void readsALeafThatIsOwnedTwice() {
        String json = Trees.with(Fixtures.sheet(""), "/gauges/leaves", "[\"0.10 mm\", \"0.10 mm\"]");

        assertThat(Fixtures.read(json).gauges().leaves()).containsExactly(Leaf.parse("0.10 mm"), Leaf.parse("0.10 mm"));
    }

    /** Reports come in inches when more than half of the leaves are marked so. */
    @ParameterizedTest
    @CsvSource({
        "0.002 in;0.003 in, INCH",
        "2 thou;3 thou;0.10 mm, INCH",
        ".002\";.003 inch;0.004″;0.10 mm;0.15 mm, INCH",
        "0.002 IN;3 Thou, INCH",
        "0.002 in;0.10 mm, MILLIMETRE",
        "0.002 in;0.10 mm;0.15 mm, MILLIMETRE",
        "100 um;10 hundredths, MILLIMETRE",
        "0.10 mm, MILLIMETRE",
    })
    void takesTheUnitOfMostLeaves(String leaves, LengthUnit unit) {
        String list =
                Stream.of(leaves.split(";", -1)).map(Trees::quoted).toList().toString();
        String json = Trees.with(Fixtures.sheet(""), "/gauges/leaves", list);

        assertThat(Fixtures.read(json).gauges().unit()).isEqualTo(unit);
    }

    @Test
    void readsAnInchSheet() {
        CheckSheet sheet = Fixtures.read(Fixtures.resource(Fixtures.INCH));

        assertThat(sheet.usage()).contains(Usage.parse("212.5 h"));
        assertThat(sheet.gauges())
                .isEqualTo(GaugeSet.of(LengthUnit.INCH, "0.002", "0.003", "0.004", "0.006", "0.20 mm"));
        assertThat(clearance(sheet.engine(), ValveRole.INTAKE).check())
                .isEqualTo(new ClearanceWindow(Length.ofInches("0.003"), Length.ofInches("0.005")));
        assertThat(clearance(sheet.engine(), ValveRole.EXHAUST).check())
                .isEqualTo(new ClearanceWindow(Length.ofInches("0.005"), Length.ofInches("0.007")));
        assertThat(sheet.engine().train())
                .isEqualTo(new ValveTrain.Screw(
                        ScrewPlace.ROCKER_TIP, Pitch.parse("26 tpi"), Ratio.ONE, ScrewHead.HEXAGON));
        assertThat(sheet.valves().get(0).trials())
                .containsExactly(Trial.parse("0.002 in goes"), Trial.parse("3 thou refuses"));
    }

    // Valves

    @Test
    void readsTheFieldsOfAValve() {
        assertThat(full.valves().get(0))
                .isEqualTo(ValveReading.of("1-in-1", "0.10 mm refuses", "0.07 mm goes")
                        .withShim(InstalledShim.marked(mm("2.45")))
                        .withStop("compression TDC of cylinder 1, mark T1")
                        .withDone(
                                new Done.Fitted(mm("2.40")),
                                List.of(Trial.parse("0.12 mm goes"), Trial.parse("0.15 mm refuses"))));
    }

    @ParameterizedTest
    @ValueSource(strings = {"goes", "drags", "forced", "refuses"})
    void readsEachFit(String fit) {
        assertThat(firstWith("trials", "[{ \"leaf\": \"0.10 mm\", \"fit\": \"" + fit + "\" }]")
                        .trials())
                .containsExactly(Trial.parse("0.10 mm " + fit));
    }

    @Test
    void readsAStackAsAList() {
        assertThat(full.valves().get(1).trials().get(0)).isEqualTo(Trial.parse("0.05 mm + 0.12 mm goes"));
        assertThat(firstWith("trials", "[{ \"leaf\": [\"0.10 mm\"], \"fit\": \"goes\" }]")
                        .trials())
                .containsExactly(Trial.parse("0.10 mm goes"));
        assertThat(firstWith("trials", "[{ \"leaf\": [\"0.10 mm\", \"0.05 mm\", \"2 thou\"], \"fit\": \"goes\" }]")
                        .trials())
                .containsExactly(Trial.parse("0.05 mm + 2 thou + 0.10 mm goes"));
    }

    static Stream<Arguments> shims() {
        return Stream.of(
                Arguments.of("\"2.45 mm\"", InstalledShim.marked(mm("2.45"))),
                Arguments.of("{ \"marked\": \"2.45 mm\" }", InstalledShim.marked(mm("2.45"))),
                Arguments.of("{ \"measured\": \"0.0965 in\" }", InstalledShim.measured(Length.ofInches("0.0965"))),
                Arguments.of(
                        "{ \"marked\": \"2.50 mm\", \"measured\": \"2.48 mm\", \"tolerance\": \"5 um\", \"type\": \"9.5 mm\" }",
                        new InstalledShim(mm("2.50"), mm("2.48"), mm("0.005"), "9.5 mm")),
                Arguments.of("{ \"type\": \"9.5 mm\" }", new InstalledShim(null, null, Length.ZERO, "9.5 mm")),
                Arguments.of("{}", new InstalledShim(null, null, Length.ZERO, "")));
    }

    @ParameterizedTest
    @MethodSource("shims")
    void readsAShimAsTextAndAsObject(String json, InstalledShim shim) {
        assertThat(firstWith("shim", json).findShim()).contains(shim);
    }

    static Stream<Arguments> done() {
        return Stream.of(
                Arguments.of("{ \"setWith\": \"0.12 mm\" }", new Done.SetWith(LeafStack.parse("0.12 mm"))),
                Arguments.of(
                        "{ \"setWith\": [\"0.07 mm\", \"0.05 mm\"] }",
                        new Done.SetWith(LeafStack.parse("0.05 mm + 0.07 mm"))),
                Arguments.of("{ \"turned\": -15 }", new Done.Turned(Ratio.of(-15, 1))),
                Arguments.of("{ \"turned\": 7.5 }", new Done.Turned(Ratio.of(15, 2))),
                Arguments.of("{ \"turned\": \"15 deg\" }", new Done.Turned(Ratio.of(15, 1))),
                Arguments.of("{ \"turned\": \"-40/3 deg\" }", new Done.Turned(Ratio.of(-40, 3))),
                Arguments.of("{ \"fitted\": \"2.40 mm\" }", new Done.Fitted(mm("2.40"))));
    }

    @ParameterizedTest
    @MethodSource("done")
    void readsWhatWasDoneInItsThreeForms(String json, Done done) {
        assertThat(firstWith("done", json).findDone()).contains(done);
    }

    @Test
    void readsTheStateOfThePad() {
        assertThat(full.valves().get(4).pad()).isEqualTo(Pad.DISHED);
        assertThat(firstWith("pad", "\"dished\"").pad()).isEqualTo(Pad.DISHED);
        assertThat(firstWith("pad", "\"sound\"").pad()).isEqualTo(Pad.SOUND);
    }

    // History

    @Test
    void readsTheHistory() {
        LengthInterval loose = LengthInterval.above(mm("0.17"));

        assertThat(full.history())
                .containsExactly(
                        new PastVisit(
                                LocalDate.of(2030, 5, 11),
                                Usage.parse("12010 km"),
                                List.of(
                                        new PastReading(
                                                ValveId.parse("1-in-1"),
                                                LengthInterval.open(mm("0.12"), mm("0.15")),
                                                LengthInterval.point(mm("0.15")),
                                                mm("2.45")),
                                        new PastReading(ValveId.parse("1-ex-1"), loose, loose, null)),
                                true),
                        new PastVisit(LocalDate.of(2029, 5, 9), null, List.of()));
    }

    /** A shim of an earlier check takes the forms that one of today takes; a text is a mark that is taken as exact. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "\"2.45 mm\" | 2.45 | | 0",
                "{ \"marked\": \"2.45 mm\", \"tolerance\": \"0.02 mm\" } | 2.45 | | 0.02",
                "{ \"marked\": \"2.45 mm\", \"measured\": \"2.43 mm\", \"tolerance\": \"0.005 mm\" } | 2.45 | 2.43 | 0.005",
                "{} | | | 0"
            })
    void readsEachFormOfAShimInTheHistory(
            String shim, @Nullable String marked, @Nullable String measured, String tolerance) {
        String history = "[{ \"date\": \"2030-05-11\", \"valves\": [{ \"valve\": \"1-in-1\", "
                + "\"found\": \"(0.12, 0.15) mm\", \"shim\": " + shim + " }] }]";
        CheckSheet sheet = Fixtures.read(Trees.with(Fixtures.sheet(""), "/history", history));

        assertThat(sheet.history().get(0).valves().get(0).findShim())
                .contains(new InstalledShim(
                        marked == null ? null : mm(marked), measured == null ? null : mm(measured), mm(tolerance), ""));
        assertThat(Fixtures.read(SheetWriter.write(sheet))).isEqualTo(sheet);
    }

    @Test
    void readsTheSymptoms() {
        assertThat(full.symptoms()).containsExactly(Symptom.HARD_TO_START_WARM, Symptom.TICKING);
        assertThat(Fixtures.read(Fixtures.sheet("")).symptoms()).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "(0.12, 0.15) mm",
                "(0.12, 0.15] mm",
                "[0.12, 0.15) mm",
                "[0.15, 0.15] mm",
                "(0.004, 0.006) in",
                "< 0.03 mm",
                "<= 0.03 mm",
                "> 0.50 mm",
                ">= 0.50 mm",
                "any"
            })
    void readsEachFormOfReading(String reading) {
        String history = "[{ \"date\": \"2030-05-11\", \"valves\": [{ \"valve\": \"1-in-1\", \"found\": \"" + reading
                + "\" }] }]";
        String json = Trees.with(Fixtures.sheet(""), "/history", history);
        PastReading read = Fixtures.read(json).history().get(0).valves().get(0);

        assertThat(read.found()).isEqualTo(LengthInterval.parse(reading));
        assertThat(read.left()).isEqualTo(read.found());
    }

    // The engine in place

    @Test
    void readsAnEngineInPlace() {
        String from = "workshop manual of the quad, page 2-14";
        EngineSpec expected = EngineSpec.builder("ridge-quad", "Ridge quad, parallel twin, shims under the buckets")
                .firingOrder(new FiringOrder(List.of(1, 2), List.of(Ratio.of(270, 1), Ratio.of(450, 1))))
                .valves("1-in-1", "1-in-2", "1-ex-1", "2-in-1", "2-in-2", "2-ex-1")
                .train(ValveTrain.Shim.bucket(ShimPlace.UNDER_BUCKET, ShimRange.parse("1.20..3.50 mm step 0.05 mm")))
                .clearance(ValveRole.INTAKE, new ClearanceSpec(window("0.11..0.16 mm"), window("0.11..0.15 mm"), from))
                .clearance(ValveRole.EXHAUST, new ClearanceSpec(window("0.16..0.21 mm"), window("0.16..0.21 mm"), from))
                .coldest(Temperature.ofCelsius(5))
                .warmest(Temperature.ofCelsius(35))
                .checkInterval(Usage.parse("6000 km"))
                .wearPrior(new WearPrior(
                        Usage.parse("10000 km"),
                        mm("-0.012"),
                        mm("0.015"),
                        mm("0.008"),
                        mm("0.005"),
                        Ratio.parse("1.5"),
                        "the shop's own quads, 2024 to 2029"))
                .camTiming(new CamTiming(
                        CamTiming.Event.parse("22.5 deg BTDC"),
                        CamTiming.Event.parse("55 deg ABDC"),
                        CamTiming.Event.parse("60 deg BBDC"),
                        CamTiming.Event.parse("20 deg ATDC"),
                        Ratio.of(18, 1)))
                .cautions(List.of(
                        "The front rack comes off first.", "The coolant hose lies over the cover: move it aside."))
                .template("under-bucket-twin, revision 1")
                .build();

        assertThat(full.engine()).isEqualTo(expected);
    }

    @Test
    void takesDefaultsForWhatAnEngineLeavesOut() {
        EngineSpec engine = Fixtures.read(Fixtures.sheet("")).engine();

        assertThat(engine.firingOrder()).isEqualTo(FiringOrder.even(1));
        assertThat(engine.findClearance(ValveRole.INTAKE)).contains(ClearanceSpec.typical(window("0.10..0.15 mm")));
        assertThat(engine.coldest()).isEmpty();
        assertThat(engine.warmest()).isEmpty();
        assertThat(engine.checkInterval()).isEmpty();
        assertThat(engine.camTiming()).isEmpty();
        assertThat(engine.cautions()).isEmpty();
        assertThat(engine.template()).isEmpty();
        assertThat(engine.train()).isEqualTo(ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm")));
    }

    @Test
    void takesTheGenericMarginWhenCamTimingHasNone() {
        String json = Trees.without(Fixtures.resource(Fixtures.FULL), "/engine/inline/camTiming/margin");

        assertThat(Fixtures.read(json).engine().camTiming().orElseThrow().margin())
                .isEqualTo(CamTiming.GENERIC.margin());
    }

    @Test
    void readsEvenAndUnevenFiringIntervals() {
        String pointer = "/engine/inline/firingIntervals";
        String json = Fixtures.resource(Fixtures.FULL);

        assertThat(Fixtures.read(Trees.without(json, pointer)).engine().firingOrder())
                .isEqualTo(FiringOrder.even(1, 2));
        assertThat(Fixtures.read(Trees.with(json, pointer, "[187.5, 532.5]"))
                        .engine()
                        .firingOrder())
                .isEqualTo(FiringOrder.parse("1-2 (187.5, 532.5)"));
        assertThat(Fixtures.read(Trees.with(json, "/engine/inline/firingOrder", "[2, 1]"))
                        .engine()
                        .firingOrder())
                .isEqualTo(FiringOrder.parse("2-1 (270, 450)"));
    }

    @Test
    void takesOneSideOfACondition() {
        String json = Trees.without(Fixtures.resource(Fixtures.FULL), "/engine/inline/condition/minTemperature");

        assertThat(Fixtures.read(json).engine().coldest()).isEmpty();
        assertThat(Fixtures.read(json).engine().warmest()).contains(Temperature.ofCelsius(35));
    }

    static Stream<Arguments> trains() {
        Pitch pitch = Pitch.parse("26 tpi");
        ShimRange range = ShimRange.parse("1.20..3.50 mm step 0.05 mm");
        Stream<Arguments> screws = Stream.of(ScrewPlace.values())
                .map(place -> Arguments.of(
                        "{\"kind\":\"" + place.kind() + "\",\"pitch\":\"26 tpi\",\"head\":\"slot\""
                                + (place.needsRatio() ? ",\"ratio\":\"1.5\"}" : "}"),
                        new ValveTrain.Screw(
                                place, pitch, place.needsRatio() ? Ratio.of(3, 2) : Ratio.ONE, ScrewHead.SLOT)));
        Stream<Arguments> shims = Stream.of(ShimPlace.values())
                .map(place -> Arguments.of(
                        "{\"kind\":\"" + place.kind() + "\",\"shims\":\"1.20..3.50 mm step 0.05 mm\""
                                + (place == ShimPlace.FOLLOWER ? ",\"ratio\":\"4/5\"}" : "}"),
                        new ValveTrain.Shim(place, range, place == ShimPlace.FOLLOWER ? Ratio.of(4, 5) : Ratio.ONE)));
        Stream<Arguments> others = Stream.of(
                Arguments.of(
                        "{\"kind\":\"eccentric\",\"eccentricity\":\"1.5 mm\",\"multiplier\":\"2.5\"}",
                        new ValveTrain.Eccentric(mm("1.5"), Ratio.of(5, 2))),
                Arguments.of(
                        "{\"kind\":\"desmodromic\",\"openerShims\":\"1.20..3.50 mm step 0.05 mm\","
                                + "\"closerShims\":\"2.00..4.00 mm step 0.10 mm\"}",
                        new ValveTrain.Desmodromic(range, ShimRange.parse("2.00..4.00 mm step 0.10 mm"))),
                Arguments.of("{\"kind\":\"fixed\"}", new ValveTrain.Fixed()),
                Arguments.of("{\"kind\":\"hydraulic\"}", new ValveTrain.Hydraulic()));
        return Stream.of(screws, shims, others).flatMap(s -> s);
    }

    @ParameterizedTest
    @MethodSource("trains")
    void readsEachKindOfTrain(String json, ValveTrain train) {
        assertThat(Fixtures.read(Trees.with(Fixtures.sheet(""), "/engine/inline/train", json))
                        .engine()
                        .train())
                .isEqualTo(train);
    }

    @ParameterizedTest
    @ValueSource(strings = {"hexagon", "square", "slot", "not-stated"})
    void readsEachHead(String head) {
        String json = Trees.with(Fixtures.sheet(""), "/engine/inline/train/head", Trees.quoted(head));

        assertThat(Fixtures.read(json).engine().train())
                .isEqualTo(new ValveTrain.Screw(
                        ScrewPlace.ROCKER_TIP, Pitch.parse("0.75 mm"), Ratio.ONE, ScrewHead.parse(head)));
    }

    @Test
    void needsNoWindowsForHydraulicLifters() {
        String json = Trees.without(
                Trees.with(Fixtures.sheet(""), "/engine/inline/train", "{\"kind\":\"hydraulic\"}"),
                "/engine/inline/clearances");

        assertThat(Fixtures.read(json).engine().findClearance(ValveRole.INTAKE)).isEmpty();
    }

    @Test
    void confirmsTheWindowsOfAnEngineInPlace() {
        String json = Fixtures.resource(Fixtures.FULL);
        EngineSpec silent =
                Fixtures.read(Trees.without(json, "/engine/confirmedFrom")).engine();
        EngineSpec blank = Fixtures.read(Trees.with(json, "/engine/confirmedFrom", "\" \""))
                .engine();

        for (ValveRole role : ValveRole.values()) {
            assertThat(clearance(full.engine(), role).isConfirmed()).isTrue();
            assertThat(clearance(silent, role).isConfirmed()).isFalse();
            assertThat(clearance(blank, role).isConfirmed()).isFalse();
        }
    }

    @Test
    void confirmsEachRoleFromItsOwnPlace() {
        String json = Fixtures.resource(Fixtures.FULL);
        EngineSpec both = Fixtures.read(
                        Trees.with(json, "/engine/confirmedFrom", "{ \"ex\": \"page 5\", \"in\": \"\" }"))
                .engine();
        EngineSpec one = Fixtures.read(Trees.with(json, "/engine/confirmedFrom", "{ \"in\": \"page 4\" }"))
                .engine();

        assertThat(clearance(both, ValveRole.INTAKE).isConfirmed()).isFalse();
        assertThat(clearance(both, ValveRole.EXHAUST).confirmedFrom()).isEqualTo("page 5");
        assertThat(clearance(one, ValveRole.INTAKE).confirmedFrom()).isEqualTo("page 4");
        assertThat(clearance(one, ValveRole.EXHAUST).isConfirmed()).isFalse();
    }

    // A template with the shop's figures laid over it

    private static EngineSpec template() {
        return SpecPack.bundled().get(OVERLAID).spec();
    }

    /** The engine of a sheet that names the template and has these fields beside it. */
    private static EngineSpec overlaid(String fields) {
        return Fixtures.read(Trees.with(
                        Fixtures.sheet(""),
                        "/engine",
                        "{ \"template\": \"" + OVERLAID + "\"" + (fields.isEmpty() ? "" : ", " + fields) + " }"))
                .engine();
    }

    @Test
    void takesATemplateAsItIs() {
        assertThat(overlaid("")).isEqualTo(template());
        assertThat(overlaid("").template())
                .contains(OVERLAID + ", revision "
                        + SpecPack.bundled().get(OVERLAID).revision());
        for (ValveRole role : ValveRole.values()) {
            assertThat(clearance(overlaid(""), role).isConfirmed()).isFalse();
        }
    }

    @Test
    void readsAnOverlaidSheet() {
        EngineSpec engine = Fixtures.read(Fixtures.resource(Fixtures.OVERLAY)).engine();
        EngineSpec expected = template().toBuilder()
                .clearance(
                        ValveRole.INTAKE,
                        new ClearanceSpec(
                                window("0.09..0.14 mm"),
                                window("0.10..0.12 mm"),
                                "the school's workshop manual, page 3-8"))
                .checkInterval(Usage.parse("5000 km"))
                .build();

        assertThat(engine).isEqualTo(expected).isNotEqualTo(template());
    }

    @Test
    void confirmsTheTemplatesWindowsWhenTheSheetHasNone() {
        EngineSpec engine = overlaid("\"confirmedFrom\": \"page 3-8\", \"checkInterval\": \"5000 km\"");

        for (ValveRole role : ValveRole.values()) {
            ClearanceSpec typical = clearance(template(), role);
            assertThat(clearance(engine, role))
                    .isEqualTo(new ClearanceSpec(typical.check(), typical.setTo(), "page 3-8"));
        }
    }

    @Test
    void confirmsNothingButTheSheetsOwnWindowsWhenItHasSome() {
        EngineSpec engine = overlaid("\"confirmedFrom\": \"page 3-8\", \"clearances\": { \"in\": \"0.09..0.14 mm\" }");

        assertThat(clearance(engine, ValveRole.INTAKE))
                .isEqualTo(new ClearanceSpec(window("0.09..0.14 mm"), window("0.09..0.14 mm"), "page 3-8"));
        assertThat(clearance(engine, ValveRole.EXHAUST)).isEqualTo(clearance(template(), ValveRole.EXHAUST));
    }

    @Test
    void doesNotConfirmAWindowThatTheSheetDoesNotGive() {
        Length aim = clearance(template(), ValveRole.INTAKE).check().upper();
        EngineSpec engine = overlaid(
                "\"confirmedFrom\": \"page 3-8\", \"setTo\": { \"in\": \"" + new ClearanceWindow(aim, aim) + "\" }");
        ClearanceSpec intake = clearance(engine, ValveRole.INTAKE);

        assertThat(intake.check())
                .isEqualTo(clearance(template(), ValveRole.INTAKE).check());
        assertThat(intake.setTo()).isEqualTo(new ClearanceWindow(aim, aim));
        assertThat(intake.isConfirmed())
                .as("the window to check against is the template's, typical still")
                .isFalse();
        assertThat(clearance(engine, ValveRole.EXHAUST).isConfirmed()).isFalse();
    }

    @Test
    void confirmsATemplateByRole() {
        String from = "\"confirmedFrom\": { \"in\": \"page 3-8\", \"ex\": \"page 3-9\" }";
        EngineSpec all = overlaid(from);
        EngineSpec one = overlaid(from + ", \"clearances\": { \"ex\": \"0.15..0.20 mm\" }");

        assertThat(clearance(all, ValveRole.INTAKE).confirmedFrom()).isEqualTo("page 3-8");
        assertThat(clearance(all, ValveRole.EXHAUST).confirmedFrom()).isEqualTo("page 3-9");
        assertThat(clearance(one, ValveRole.INTAKE).confirmedFrom())
                .as("the template's, but named")
                .isEqualTo("page 3-8");
        assertThat(clearance(one, ValveRole.EXHAUST).confirmedFrom()).isEqualTo("page 3-9");
        EngineSpec text = overlaid("\"confirmedFrom\": \"page 3\", \"clearances\": { \"ex\": \"0.15..0.20 mm\" }");
        assertThat(clearance(text, ValveRole.INTAKE).isConfirmed())
                .as("one place for all is that of the sheet's own windows")
                .isFalse();
    }

    @Test
    void ownWindowsStayUnconfirmedUntilTheSheetSaysFromWhere() {
        EngineSpec engine = overlaid("\"clearances\": { \"in\": \"0.09..0.14 mm\", \"ex\": \"0.15..0.20 mm\" }");

        assertThat(clearance(engine, ValveRole.INTAKE))
                .isEqualTo(new ClearanceSpec(window("0.09..0.14 mm"), window("0.09..0.14 mm"), ""));
        assertThat(clearance(engine, ValveRole.EXHAUST))
                .isEqualTo(new ClearanceSpec(window("0.15..0.20 mm"), window("0.15..0.20 mm"), ""));
    }
}
