package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.check.CheckReport;
import dev.lash.check.CheckSheet;
import dev.lash.check.ValveCheck;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.Bracket;
import dev.lash.gauge.Evidence;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import java.util.List;
import java.util.Optional;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.domains.Domain;
import net.jqwik.api.statistics.Statistics;
import net.jqwik.api.statistics.StatisticsReport;
import tools.jackson.databind.JsonNode;

/** Reports of sheets of every kind. */
@Domain(Sheets.Trade.class)
class ReportWriterProperties {
    private static JsonNode report(CheckSheet sheet) {
        return Trees.tree(ReportWriter.oneLine().write(CheckReport.of(sheet)));
    }

    private static Optional<String> text(JsonNode object, String name) {
        return Optional.ofNullable(object.get(name)).map(JsonNode::stringValue);
    }

    @Property(tries = 200)
    void writesValidReports(@ForAll CheckSheet sheet) {
        String json = ReportWriter.pretty().write(CheckReport.of(sheet));

        assertThat(Schemas.REPORT.errors(json)).as(json).isEmpty();
    }

    @Property(tries = 100)
    void writesTheSameOnOneLine(@ForAll CheckSheet sheet) {
        CheckReport report = CheckReport.of(sheet);
        String line = ReportWriter.oneLine().write(report);

        assertThat(line).doesNotContain("\n", "\r");
        assertThat(Trees.tree(line)).isEqualTo(Trees.tree(ReportWriter.pretty().write(report)));
        assertThat(ReportWriter.oneLine().write(CheckReport.of(sheet))).isEqualTo(line);
    }

    @Property(tries = 100)
    void saysOfTheSheetWhatItHas(@ForAll CheckSheet sheet) {
        JsonNode report = report(sheet);

        assertThat(text(report, "machine"))
                .isEqualTo(Optional.of(sheet.machine()).filter(machine -> !machine.isEmpty()));
        assertThat(text(report, "date")).isEqualTo(sheet.date().map(Object::toString));
        assertThat(text(report, "usage")).isEqualTo(sheet.usage().map(Object::toString));
        assertThat(text(report, "engineTemperature"))
                .isEqualTo(sheet.engineTemperature().map(Object::toString));
        assertThat(text(report, "rule")).contains(sheet.rule().name());
        assertThat(text(report.get("engine"), "template"))
                .isEqualTo(sheet.engine().template());
        assertThat(report.has("packVersion"))
                .isEqualTo(sheet.engine().template().isPresent());
        assertThat(report.has("tolerance"))
                .isEqualTo(report.has("dragAllowance"))
                .isEqualTo(sheet.rule().name().equals("guarded"));
        assertThat(report.get("valves")
                        .valueStream()
                        .map(valve -> valve.get("valve").stringValue()))
                .containsExactlyElementsOf(
                        sheet.valves().stream().map(v -> v.valve().toString()).toList());
        assertThat(report.get("findings"))
                .hasSize(CheckReport.of(sheet).findings().size());
    }

    @Property(tries = 250)
    void saysOfAValveWhatIsKnownAndNoMore(@ForAll CheckSheet sheet) {
        JsonNode valves = report(sheet).get("valves");
        List<ValveCheck> checks = CheckReport.of(sheet).valves();
        for (int i = 0; i < checks.size(); i++) {
            valve(valves.get(i), checks.get(i), sheet);
        }
    }

    private static void valve(JsonNode json, ValveCheck check, CheckSheet sheet) {
        LengthUnit unit = sheet.gauges().unit();
        ValveTrain train = sheet.engine().train();
        boolean hydraulic = train instanceof ValveTrain.Hydraulic;
        evidence(json, check.evidence(), unit);
        verdict(json, check.verdict(), check.possible());
        assertThat(json.has("window")).isEqualTo(!hydraulic);
        if (json.has("contradiction")) {
            assertThat(json.has("verdict")).isFalse();
            assertThat(json.has("nextLeaf")).isFalse();
            assertThat(json.has("adjustment")).isFalse();
        } else {
            assertThat(json.has("verdict")).isEqualTo(!hydraulic);
            assertThat(json.has("adjustment")).isTrue();
        }
        assertThat(json.has("nextLeaf")).isEqualTo(check.nextLeaf().isPresent());
        if (json.has("nextLeaf")) {
            assertThat(json.get("verdict").stringValue()).isEqualTo("undecided");
            json.at("/nextLeaf/leaves").forEach(leaf -> length(leaf, unit));
        }

        boolean shims = train instanceof ValveTrain.Shim || train instanceof ValveTrain.Desmodromic;
        boolean bounded = check.bracket().filter(b -> b.interval().isBounded()).isPresent();
        boolean sized = check.reading().findShim().flatMap(shim -> shim.size()).isPresent();
        boolean sound = check.reading().pad() == Pad.SOUND;
        Optional<JsonNode> certain = Optional.ofNullable(json.at("/adjustment").get("certain"));
        assertThat(certain.isPresent()).as("certain in %s", json).isEqualTo(shims && bounded && sized && sound);
        certain.ifPresent(sizes -> {
            assertThat(sizes.valueStream().map(size -> Length.parse(size.stringValue())))
                    .isSorted()
                    .doesNotHaveDuplicates();
            sizes.forEach(size -> length(size, unit));
        });

        assertThat(json.has("recheck")).isEqualTo(!check.reading().recheck().isEmpty());
        check.recheck().ifPresent(evidence -> {
            evidence(json.get("recheck"), evidence, unit);
            verdict(json.get("recheck"), check.recheckVerdict(), check.recheckPossible());
        });
    }

    /** The generator reaches every adjustment that is worked out; always the same sheets, so that none is missing by chance. */
    @Property(tries = 250, seed = "20310402")
    @StatisticsReport(onFailureOnly = true)
    void theReportsHaveEveryKindOfAdjustment(@ForAll CheckSheet sheet) {
        for (JsonNode valve : report(sheet).get("valves")) {
            Statistics.label("adjustment")
                    .collect(valve.at("/adjustment/kind").asString("none"))
                    .coverage(kinds -> {
                        for (String kind : List.of(
                                "leave",
                                "set-to-leaf",
                                "turn",
                                "fit-shim",
                                "measure-further",
                                "inspect",
                                "not-applicable",
                                "machine",
                                "none")) {
                            kinds.check(kind).count(count -> count > 0);
                        }
                    });
        }
    }

    /** A bracket or a contradiction, never both; the ends that are missing are absent. */
    private static void evidence(JsonNode json, Evidence evidence, LengthUnit unit) {
        Optional<LengthInterval> interval = evidence.bracket().map(Bracket::interval);
        assertThat(json.has("bracket")).isEqualTo(interval.isPresent()).isNotEqualTo(json.has("contradiction"));
        interval.ifPresent(i -> {
            JsonNode bracket = json.get("bracket");
            end(bracket, "lower", i.lower(), i.lowerIncluded(), unit);
            end(bracket, "upper", i.upper(), i.upperIncluded(), unit);
            assertThat(bracket)
                    .hasSize((i.lower().isPresent() ? 2 : 0) + (i.upper().isPresent() ? 2 : 0));
        });
        if (json.has("contradiction")) {
            assertThat(json.get("contradiction")).hasSize(2);
            json.get("contradiction")
                    .forEach(trial -> assertThat(json.get("trials")).contains(trial));
        }
    }

    private static void end(JsonNode bracket, String name, Optional<Length> end, boolean included, LengthUnit unit) {
        assertThat(bracket.has(name)).isEqualTo(end.isPresent());
        assertThat(bracket.has(name + "Included")).isEqualTo(end.isPresent());
        end.ifPresent(length -> {
            assertThat(Length.parse(bracket.get(name).stringValue())).isEqualTo(length);
            assertThat(bracket.get(name + "Included").booleanValue()).isEqualTo(included);
            length(bracket.get(name), unit);
        });
    }

    /** In the unit of the gauges, unless the length has no finite decimal form there. */
    private static void length(JsonNode text, LengthUnit unit) {
        Length length = Length.parse(text.stringValue());
        String symbol = length.numberIn(unit).isPresent() ? unit.symbol() : "mm";
        assertThat(text.stringValue()).endsWith(" " + symbol);
    }

    private static void verdict(JsonNode json, Optional<Verdict> verdict, List<Verdict> possible) {
        assertThat(text(json, "verdict")).isEqualTo(verdict.map(Verdict::word));
        boolean undecided = verdict.filter(v -> v == Verdict.UNDECIDED).isPresent();
        assertThat(json.has("possible")).isEqualTo(undecided);
        if (undecided) {
            assertThat(json.get("possible").valueStream().map(JsonNode::stringValue))
                    .containsExactlyElementsOf(
                            possible.stream().map(Verdict::word).toList());
        }
    }
}
