package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatNullPointerException;

import dev.lash.adjust.Adjuster;
import dev.lash.adjust.RoundingHabit;
import dev.lash.adjust.ShimRounding;
import dev.lash.check.CheckReport;
import dev.lash.measure.Ratio;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

class ReportWriterTest {
    private static final String GOLDEN = "full-sheet.report.json";

    private static JsonNode report(String sheet) {
        String json = ReportWriter.oneLine().write(CheckReport.of(Fixtures.read(sheet)));
        assertThat(Schemas.REPORT.errors(json)).as(json).isEmpty();
        return Trees.tree(json);
    }

    /** The report of a valve with screws and a window of 0.10 to 0.15 mm; the shop has leaves of 0.05, 0.10, 0.15 and 0.20 mm. */
    private static JsonNode valve(String trials) {
        return report(Fixtures.sheet("{ \"valve\": \"1-in-1\", \"trials\": [" + trials + "] }"))
                .at("/valves/0");
    }

    private static String trial(String leaf, String fit) {
        return "{ \"leaf\": \"" + leaf + "\", \"fit\": \"" + fit + "\" }";
    }

    private static List<String> names(JsonNode object) {
        return List.copyOf(object.propertyNames());
    }

    private static JsonNode json(String text) {
        return Trees.tree(text.replace('\'', '"'));
    }

    @Test
    void refusesNull() {
        assertThatNullPointerException().isThrownBy(() -> ReportWriter.pretty().write(null));
    }

    // The whole report

    @Test
    void writesTheGoldenReport() throws IOException {
        String report = ReportWriter.pretty()
                        .write(CheckReport.of(Fixtures.read(Fixtures.resource(Fixtures.FULL))))
                        .replace(
                                "\"libraryVersion\" : \"" + Versions.library() + "\"",
                                "\"libraryVersion\" : \"VERSION\"")
                        .replace(
                                "\"packVersion\" : \"" + SpecPack.bundled().version() + "\"",
                                "\"packVersion\" : \"0.0.0\"")
                + "\n";
        Path written = Path.of("target", "golden", GOLDEN);
        Files.createDirectories(written.getParent());
        Files.writeString(written, report);

        assertThat(report)
                .as(
                        "the report of %s; if the change is meant, look through it and copy lash-specs/%s over"
                                + " lash-specs/src/test/resources/dev/lash/specs/%s",
                        Fixtures.FULL, written, GOLDEN)
                .isEqualTo(Fixtures.resource(GOLDEN));
    }

    @Test
    void saysWhatTheReportIsOf() {
        JsonNode report = report(Fixtures.resource(Fixtures.FULL));

        assertThat(names(report))
                .containsExactly(
                        "format",
                        "libraryVersion",
                        "packVersion",
                        "machine",
                        "date",
                        "usage",
                        "engineTemperature",
                        "engine",
                        "rule",
                        "tolerance",
                        "dragAllowance",
                        "valves",
                        "checkBy",
                        "crankStops",
                        "timingAssumed",
                        "shimPlan",
                        "findings",
                        "cautions");
        assertThat(report.get("format").stringValue()).isEqualTo("lash-report/1");
        assertThat(report.get("libraryVersion").stringValue()).isEqualTo(Versions.library());
        assertThat(report.get("engine"))
                .isEqualTo(json("{'id': 'ridge-quad', 'title': 'Ridge quad, parallel twin, shims under the buckets', "
                        + "'train': 'bucket-shim-under', 'template': 'under-bucket-twin, revision 1'}"));
        assertThat(report.get("tolerance").stringValue()).isEqualTo("0.003 mm");
        assertThat(report.get("dragAllowance").stringValue()).isEqualTo("0.002 mm");
    }

    @Test
    void leavesOutWhatTheSheetDoesNotSay() {
        JsonNode report = report(Fixtures.sheet(""));

        assertThat(names(report))
                .containsExactly(
                        "format",
                        "libraryVersion",
                        "engine",
                        "rule",
                        "valves",
                        "crankStops",
                        "timingAssumed",
                        "findings",
                        "unconfirmed",
                        "cautions");
        assertThat(report.get("unconfirmed"))
                .as("windows without a page")
                .isEqualTo(json("[{'figure': '/clearances/in', 'words': 'intake window', 'value': '0.10..0.15 mm', "
                        + "'kind': 'stated'}, {'figure': '/clearances/ex', 'words': 'exhaust window', "
                        + "'value': '0.15..0.20 mm', 'kind': 'stated'}]"));
        assertThat(names(report.get("engine"))).containsExactly("id", "title", "train");
    }

    /** On a single the exhaust is open at the other TDC, so a valve that is held at compression TDC is reached at neither. */
    @Test
    void namesValvesThatNoStopReaches() {
        JsonNode held = report(Trees.with(
                Fixtures.sheet(""),
                "/engine/inline/decompressor",
                "{\"valve\": \"1-ex-1\", \"before\": \"60 deg\", \"after\": \"30 deg\"}"));
        assertThat(held.get("leftOver")).isEqualTo(json("[{'valve': '1-ex-1', 'angle': '31 deg'}]"));
        assertThat(held.has("unreachable")).isFalse();
        assertThat(held.get("timingAssumed").booleanValue()).isTrue();
        JsonNode always = report(Trees.with(
                Fixtures.sheet(""),
                "/engine/inline/decompressor",
                "{\"valve\": \"1-ex-1\", \"before\": \"360 deg\", \"after\": \"360 deg\"}"));
        assertThat(always.get("unreachable")).isEqualTo(json("['1-ex-1']"));
        assertThat(always.has("leftOver")).isFalse();
    }

    @Test
    void namesPackAndTemplate() {
        JsonNode report = report(Fixtures.resource(Fixtures.OVERLAY));

        assertThat(report.get("packVersion").stringValue())
                .isEqualTo(SpecPack.bundled().version());
        assertThat(report.at("/engine/template").stringValue())
                .isEqualTo("screw-twin, revision "
                        + SpecPack.bundled().get("screw-twin").revision());
    }

    @Test
    void writesFindingsAndCautions() {
        JsonNode report = report(Fixtures.resource(Fixtures.FULL));

        assertThat(report.get("findings").get(0).propertyNames())
                .containsExactly("code", "severity", "place", "problem", "value", "expected", "mend");
        assertThat(report.get("findings")
                        .valueStream()
                        .filter(finding -> finding.get("code").stringValue().equals("contradiction"))
                        .map(finding -> finding.get("severity").stringValue() + " at "
                                + finding.get("place").stringValue()))
                .containsExactly("error at 1-ex-1");
        assertThat(report.get("cautions").valueStream().map(JsonNode::stringValue))
                .endsWith("The front rack comes off first.", "The coolant hose lies over the cover: move it aside.")
                .hasSizeGreaterThan(2);
    }

    // One valve

    @Test
    void writesABracketWithBothEnds() {
        JsonNode valve = valve(trial("0.15 mm", "refuses") + "," + trial("0.10 mm", "goes"));

        assertThat(names(valve))
                .containsExactly("valve", "trials", "bracket", "window", "confirmed", "verdict", "adjustment");
        assertThat(valve.get("trials"))
                .isEqualTo(json("[{'leaf': '0.15 mm', 'fit': 'refuses'}, {'leaf': '0.10 mm', 'fit': 'goes'}]"));
        assertThat(valve.get("bracket"))
                .isEqualTo(json("{'lower': '0.10 mm', 'lowerIncluded': false, "
                        + "'upper': '0.15 mm', 'upperIncluded': false}"));
        assertThat(valve.get("window").stringValue()).isEqualTo("0.10..0.15 mm");
        assertThat(valve.get("confirmed").booleanValue()).isFalse();
        assertThat(valve.get("verdict").stringValue()).isEqualTo("within");
        assertThat(valve.get("adjustment")).isEqualTo(json("{'kind': 'leave'}"));
    }

    @Test
    void writesADragAsOneLength() {
        assertThat(valve(trial("0.10 mm", "drags")).get("bracket"))
                .isEqualTo(
                        json("{'lower': '0.10 mm', 'lowerIncluded': true, 'upper': '0.10 mm', 'upperIncluded': true}"));
    }

    @Test
    void leavesOutTheEndsThatAreMissing() {
        assertThat(valve(trial("0.05 mm", "refuses")).get("bracket"))
                .isEqualTo(json("{'upper': '0.05 mm', 'upperIncluded': false}"));
        assertThat(valve(trial("0.20 mm", "goes")).get("bracket"))
                .isEqualTo(json("{'lower': '0.20 mm', 'lowerIncluded': false}"));
        assertThat(valve("").get("bracket")).isEqualTo(json("{}"));
    }

    @Test
    void saysWhatIsStillPossibleAndWhatToOfferNext() {
        JsonNode valve = valve(trial("0.20 mm", "refuses") + "," + trial("0.10 mm", "goes"));

        assertThat(valve.get("verdict").stringValue()).isEqualTo("undecided");
        assertThat(valve.get("possible")).isEqualTo(json("['within', 'loose']"));
        assertThat(valve.get("nextLeaf")).isEqualTo(json("{'leaves': ['0.15 mm'], 'owned': true}"));
        assertThat(valve.get("adjustment"))
                .isEqualTo(
                        json("{'kind': 'measure-further', 'leaf': '0.15 mm', 'owned': true, 'why': 'offer 0.15 mm'}"));
    }

    /** A reading of 0.10 to 0.20 mm with these leaves and stacks in the set. */
    private static JsonNode undecided(String leaves, int stack) {
        String sheet = Fixtures.sheet("{ \"valve\": \"1-in-1\", \"trials\": [" + trial("0.20 mm", "refuses") + ","
                + trial("0.10 mm", "goes") + "] }");
        return report(Trees.with(Trees.with(sheet, "/gauges/leaves", leaves), "/gauges/stack", "" + stack))
                .at("/valves/0");
    }

    @Test
    void namesTheLeafToBorrow() {
        assertThat(undecided("[\"0.10 mm\", \"0.20 mm\"]", 1).get("nextLeaf"))
                .isEqualTo(json("{'leaves': ['0.15 mm'], 'owned': false}"));
    }

    @Test
    void listsTheLeavesOfAStackToOfferNext() {
        JsonNode valve = undecided("[\"0.10 mm\", \"0.05 mm\", \"0.20 mm\"]", 2);

        assertThat(valve.get("nextLeaf")).isEqualTo(json("{'leaves': ['0.05 mm', '0.10 mm'], 'owned': true}"));
        assertThat(valve.at("/adjustment/leaf")).isEqualTo(json("['0.05 mm', '0.10 mm']"));
    }

    @Test
    void replacesWhatFollowsByAContradiction() {
        JsonNode valve =
                valve(trial("0.05 mm", "goes") + "," + trial("0.15 mm", "goes") + "," + trial("0.10 mm", "refuses"));

        assertThat(names(valve)).containsExactly("valve", "trials", "contradiction", "window", "confirmed");
        assertThat(valve.get("contradiction"))
                .isEqualTo(json("[{'leaf': '0.15 mm', 'fit': 'goes'}, {'leaf': '0.10 mm', 'fit': 'refuses'}]"));
    }

    @Test
    void writesTheNarrowerWindowToSetTo() {
        JsonNode valves = report(Fixtures.resource(Fixtures.FULL)).get("valves");

        assertThat(valves.get(0).get("setTo").stringValue()).isEqualTo("0.11..0.15 mm");
        assertThat(valves.get(2).has("setTo")).isFalse();
        assertThat(valves.get(0).get("confirmed").booleanValue()).isTrue();
    }

    @Test
    void writesWhatWasDoneAndTheRecheckJudged() {
        JsonNode valves = report(Fixtures.resource(Fixtures.OVERLAY)).get("valves");

        assertThat(valves.at("/0/done").stringValue()).isEqualTo("set with 0.10 mm");
        assertThat(valves.at("/0/recheck"))
                .isEqualTo(json("{'trials': [{'leaf': '0.10 mm', 'fit': 'drags'}], 'bracket': {'lower': '0.10 mm', "
                        + "'lowerIncluded': true, 'upper': '0.10 mm', 'upperIncluded': true}, 'verdict': 'within'}"));
        assertThat(valves.at("/1/done").stringValue()).isEqualTo("turned by -15 degrees");
    }

    @Test
    void writesARecheckThatIsUndecidedOrContradictsItself() {
        String reading = "{ \"valve\": \"1-in-1\", \"trials\": [" + trial("0.10 mm", "goes")
                + "], \"done\": { \"turned\": -15 }, \"recheck\": [RECHECK] }";
        JsonNode undecided = report(Fixtures.sheet(reading.replace("RECHECK", trial("0.10 mm", "goes"))))
                .at("/valves/0/recheck");
        JsonNode contradiction = report(Fixtures.sheet(
                        reading.replace("RECHECK", trial("0.10 mm", "goes") + "," + trial("0.05 mm", "refuses"))))
                .at("/valves/0/recheck");

        assertThat(names(undecided)).containsExactly("trials", "bracket", "verdict", "possible", "adjustment");
        assertThat(undecided.get("possible")).isEqualTo(json("['within', 'loose']"));
        assertThat(names(contradiction)).containsExactly("trials", "contradiction");
    }

    // Adjustments

    @Test
    void writesTheLeafToSetTo() {
        JsonNode valve = valve(trial("0.10 mm", "refuses") + "," + trial("0.05 mm", "goes"));

        // 0.05 to 0.10 mm more on a pitch of 0.75 mm: 24 to 48 degrees
        assertThat(valve.get("adjustment"))
                .isEqualTo(json("{'kind': 'set-to-leaf', 'leaf': '0.15 mm', 'degrees': [24, 48], 'resulting': {"
                        + "'lower': '0.15 mm', 'lowerIncluded': true, 'upper': '0.15 mm', 'upperIncluded': true}}"));
    }

    @Test
    void leavesOutTheTurnWhenTheReadingLacksAnEnd() {
        JsonNode adjustment = valve(trial("0.20 mm", "goes")).get("adjustment");

        assertThat(names(adjustment)).containsExactly("kind", "leaf", "resulting");
        assertThat(adjustment.get("kind").stringValue()).isEqualTo("set-to-leaf");
    }

    @Test
    void writesACountedTurn() {
        String sheet = Trees.with(
                Fixtures.sheet("{ \"valve\": \"1-in-1\", \"trials\": [" + trial("0.09 mm", "refuses") + ","
                        + trial("0.05 mm", "goes") + "] }"),
                "/gauges/leaves",
                "[\"0.05 mm\", \"0.09 mm\"]");
        JsonNode turn = report(Trees.with(sheet, "/engine/inline/train/head", "\"square\""))
                .at("/valves/0/adjustment");

        // From 0.05 and 0.09 mm to three quarters of the window, 0.1375 mm: 22.8 to 42 degrees of a pitch of 0.75 mm;
        // certain from 0.05 to 0.10 mm and from 0.09 to 0.15 mm: 24 to 28.8 degrees; a flat is 90 degrees.
        assertThat(names(turn)).containsExactly("kind", "from", "degrees", "certainDegrees", "flats", "direction");
        assertThat(turn.get("from").stringValue()).isEqualTo("present-setting");
        assertThat(turn.get("degrees")).isEqualTo(json("[22.8, 42]"));
        assertThat(turn.get("certainDegrees")).isEqualTo(json("[24, 28.8]"));
        assertThat(turn.get("flats")).isEqualTo(json("[0.25, 0.47]"));
        assertThat(turn.get("direction").stringValue()).startsWith("screw out");
    }

    @Test
    void writesAnInspectionAndWhatFollows() {
        JsonNode inspect = valve(trial("0.50 mm", "refuses") + "," + trial("0.40 mm", "goes"))
                .get("adjustment");

        assertThat(names(inspect)).containsExactly("kind", "why", "then");
        assertThat(inspect.get("kind").stringValue()).isEqualTo("inspect");
        assertThat(inspect.at("/then/kind").stringValue()).isEqualTo("set-to-leaf");
    }

    @Test
    void writesATurnFromNoPlayForADishedPad() {
        JsonNode valve = report(Fixtures.sheet("{ \"valve\": \"1-in-1\", \"pad\": \"dished\", \"trials\": ["
                        + trial("0.10 mm", "drags") + "] }"))
                .at("/valves/0");
        JsonNode then = valve.at("/adjustment/then");

        assertThat(valve.get("possible")).isEqualTo(json("['tight', 'within', 'loose']"));
        assertThat(valve.has("nextLeaf")).isFalse();
        // 0.10 and 0.15 mm are 48 and 72 degrees of a pitch of 0.75 mm
        assertThat(names(then)).containsExactly("kind", "from", "degrees", "direction");
        assertThat(then.get("from").stringValue()).isEqualTo("no-play");
        assertThat(then.get("degrees")).isEqualTo(json("[48, 72]"));
    }

    private static JsonNode shims(String clearance, String reading) {
        return report(Fixtures.sheet("{ \"valve\": \"1-in-1\", " + reading + " }")
                        .replace(
                                "\"kind\": \"rocker-screw\", \"pitch\": \"0.75 mm\"",
                                "\"kind\": \"bucket-shim-over\", \"shims\": \"2.00..3.00 mm step 0.05 mm\"")
                        .replace("0.10..0.15 mm", clearance))
                .at("/valves/0/adjustment");
    }

    @Test
    void writesTheShimToFitWithEveryCertainSize() {
        String trials = "\"trials\": [" + trial("0.05 mm", "goes") + "," + trial("0.07 mm", "refuses") + "]";
        JsonNode fit = shims("0.10..0.20 mm", trials + ", \"shim\": \"2.50 mm\"");

        // 0.05 mm thinner: 0.10 to 0.12 mm; 0.10 mm thinner: 0.15 to 0.17 mm, nearest to the aim of 0.175 mm
        assertThat(fit)
                .isEqualTo(json("{'kind': 'fit-shim', 'shim': '2.40 mm', 'resulting': {'lower': '0.15 mm', "
                        + "'lowerIncluded': false, 'upper': '0.17 mm', 'upperIncluded': false}, 'inBox': false, "
                        + "'certain': ['2.40 mm', '2.45 mm'], 'reachable': {'lower': '-0.45 mm', 'lowerIncluded': false, "
                        + "'upper': '0.57 mm', 'upperIncluded': false}}"));
    }

    @Test
    void writesTheCertainSizesWithOtherAdjustmentsToo() {
        String within = "\"trials\": [" + trial("0.15 mm", "goes") + "," + trial("0.20 mm", "refuses") + "]";
        String undecided = "\"trials\": [" + trial("0.15 mm", "goes") + "," + trial("0.25 mm", "refuses") + "]";
        String open = "\"trials\": [" + trial("0.25 mm", "goes") + "]";

        assertThat(shims("0.10..0.20 mm", within + ", \"shim\": \"2.50 mm\""))
                .isEqualTo(json("{'kind': 'leave', 'certain': ['2.50 mm', '2.55 mm'], "
                        + "'reachable': {'lower': '-0.35 mm', 'lowerIncluded': false, 'upper': '0.70 mm', "
                        + "'upperIncluded': false}}"));
        assertThat(names(shims("0.10..0.20 mm", undecided + ", \"shim\": \"2.50 mm\"")))
                .containsExactly("kind", "leaf", "owned", "why", "certain", "reachable");
        assertThat(shims("0.10..0.12 mm", within + ", \"shim\": \"2.50 mm\"").get("certain"))
                .as("none is certain")
                .isEqualTo(json("[]"));
        assertThat(shims("0.10..0.20 mm", open + ", \"shim\": \"2.50 mm\"").has("certain"))
                .as("the reading lacks an end")
                .isFalse();
        assertThat(shims("0.10..0.20 mm", within).has("certain"))
                .as("no shim is known")
                .isFalse();
    }

    @Test
    void writesTheShimToMeasureWith() {
        JsonNode then = shims(
                        "0.10..0.20 mm", "\"trials\": [" + trial("0.05 mm", "refuses") + "], \"shim\": \"2.50 mm\"")
                .get("then");

        assertThat(names(then)).containsExactly("kind", "measuringShim", "why");
        assertThat(then.get("measuringShim")).isEqualTo(json("['2.20 mm', '2.30 mm']"));
    }

    /** From (0.05, 0.10) to the leaf that drags, where the eccentric stands at 180 degrees: its angle grows with the clearance. */
    @Test
    void writesBothWaysOfTurningAnEccentric() {
        String sheet = Fixtures.sheet("{ \"valve\": \"1-in-1\", \"eccentricAngle\": 180, \"trials\": ["
                + trial("0.05 mm", "goes") + "," + trial("0.10 mm", "refuses") + "] }");
        JsonNode adjustment = report(Trees.with(
                        sheet,
                        "/engine/inline/train",
                        "{\"kind\":\"eccentric\",\"eccentricity\":\"0.5 mm\",\"multiplier\":\"1\"}"))
                .at("/valves/0/adjustment");
        assertThat(names(adjustment)).containsExactly("kind", "leaf", "eccentric", "resulting");
        assertThat(adjustment.get("leaf").stringValue()).isEqualTo("0.15 mm");
        // 0.05 to 0.10 of 0.5 mm: arcsin 0.1 = 5.739..., 0.2 = 11.536...
        assertThat(adjustment.get("eccentric"))
                .isEqualTo(json("[{'towards': 'larger', 'degrees': [5.7, 11.6], 'toAngle': [185.7, 191.6]},"
                        + "{'towards': 'larger', 'degrees': [168.4, 174.3], 'toAngle': [348.4, 354.3]}]"));
    }

    @Test
    void writesWhatTheShopsRoundingFits() {
        String sheet = Trees.with(
                Fixtures.sheet("{ \"valve\": \"1-in-1\", \"shim\": \"2.50 mm\", \"trials\": ["
                        + trial("0.05 mm", "goes") + "," + trial("0.10 mm", "refuses") + "] }"),
                "/engine/inline/train",
                "{\"kind\":\"bucket-shim-under\",\"shims\":\"2.00..3.00 mm step 0.05 mm\"}");
        Adjuster adjuster = Adjuster.withDefaults().withRounding(new ShimRounding(RoundingHabit.NEXT_BELOW, Ratio.ONE));
        String json = ReportWriter.oneLine().write(CheckReport.of(Fixtures.read(sheet), adjuster));
        assertThat(Schemas.REPORT.errors(json)).as(json).isEmpty();
        // 2.50 + 0.075 - 0.15 = 2.425
        assertThat(Trees.tree(json).at("/valves/0/adjustment/byHabit"))
                .isEqualTo(json("{'rounding': 'next-below', 'specified': '1', 'ideal': '2.425 mm', 'shim': '2.40 mm', "
                        + "'resulting': {'lower': '0.15 mm', 'lowerIncluded': false, 'upper': '0.20 mm', "
                        + "'upperIncluded': false}, 'certain': false}"));
    }

    /** Set with 0.05, 0.20 drags after it: with 0.12 more no leaf of the set ends in 0.10 to 0.15, so a turn is counted. */
    @Test
    void writesTheShiftThatATurnMakesUpFor() {
        JsonNode again = report(Fixtures.sheet("{ \"valve\": \"1-in-1\", \"trials\": [" + trial("0.05 mm", "drags")
                        + "], \"done\": {\"setWith\": \"0.05 mm\"}, \"recheck\": [" + trial("0.20 mm", "drags")
                        + "] }"))
                .at("/valves/0/recheck/adjustment");
        assertThat(names(again)).containsExactly("kind", "from", "degrees", "direction", "lockShift");
        assertThat(again.at("/lockShift/estimate").stringValue()).isEqualTo("0.12 mm");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "{'kind':'fixed'}; machine; kind, work, amount",
                "{'kind':'eccentric','eccentricity':'1 mm','multiplier':'1'}; set-to-leaf; kind, leaf, resulting",
                "{'kind':'stud-nut','pitch':'1 mm','ratio':'1.5'}; set-to-leaf; kind, leaf, degrees, resulting",
                "{'kind':'hydraulic'}; not-applicable; kind, why"
            },
            quoteCharacter = '|')
    void writesTheAdjustmentOfEachTrain(String train, String kind, String fields) {
        String sheet = Fixtures.sheet("{ \"valve\": \"1-in-1\", \"trials\": [" + trial("0.05 mm", "goes") + ","
                + trial("0.10 mm", "refuses") + "] }");
        String json = Trees.with(sheet, "/engine/inline/train", train.replace('\'', '"'));
        if (kind.equals("not-applicable")) {
            json = Trees.without(json, "/engine/inline/clearances");
        }
        JsonNode valve = report(json).at("/valves/0");

        assertThat(names(valve.get("adjustment"))).containsExactly(fields.split(", ", -1));
        assertThat(valve.at("/adjustment/kind").stringValue()).isEqualTo(kind);
        assertThat(valve.has("verdict")).isEqualTo(!kind.equals("not-applicable"));
    }

    // Units and lines

    @Test
    void writesLengthsInTheUnitOfTheGauges() {
        JsonNode valves = report(Fixtures.resource(Fixtures.INCH)).get("valves");

        assertThat(valves.get(0).get("bracket"))
                .isEqualTo(json("{'lower': '0.002 in', 'lowerIncluded': false, "
                        + "'upper': '0.003 in', 'upperIncluded': false}"));
        assertThat(valves.get(0).get("window").stringValue()).isEqualTo("0.003..0.005 in");
        assertThat(valves.get(0).at("/adjustment/leaf").stringValue()).isEqualTo("0.004 in");
        assertThat(valves.get(1).at("/bracket/upper").stringValue())
                .as("0.20 mm has no finite decimal form in inches")
                .isEqualTo("0.20 mm");
    }

    @ParameterizedTest
    @ValueSource(strings = {Fixtures.FULL, Fixtures.OVERLAY, Fixtures.INCH})
    void breaksLinesOrDoesNot(String resource) {
        CheckReport report = CheckReport.of(Fixtures.read(Fixtures.resource(resource)));

        assertThat(ReportWriter.oneLine().write(report)).doesNotContain("\n", "\r");
        assertThat(ReportWriter.pretty().write(report).lines()).hasSizeGreaterThan(20);
        assertThat(ReportWriter.pretty().write(report)).doesNotContain("\r").endsWith("}");
    }

    @Test
    void keepsALineBreakOfAFreeTextOutOfTheLine() {
        String json = Trees.with(Fixtures.sheet(""), "/machine", "\"hill\\nbike\\r4\"");

        assertThat(ReportWriter.oneLine().write(CheckReport.of(Fixtures.read(json))))
                .doesNotContain("\n", "\r")
                .contains("\"machine\":\"hill\\nbike\\r4\"");
    }
}
