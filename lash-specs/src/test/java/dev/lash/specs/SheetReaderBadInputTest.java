package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.ValveRole;
import dev.lash.specs.BadInput.Change;
import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What a sheet reader refuses, and how it says so. */
class SheetReaderBadInputTest {
    static final String SOUND = """
            {
              "format": "lash-sheet/1",
              "engine": {
                "inline": {
                  "id": "paddock-twin",
                  "title": "Paddock twin",
                  "cylinders": 2,
                  "firingOrder": [1, 2],
                  "firingIntervals": [180, 540],
                  "valves": ["1-in-1", "1-ex-1", "2-in-1", "2-ex-1"],
                  "train": { "kind": "follower-shim", "shims": "1.20..2.90 mm step 0.025 mm", "ratio": "0.8" },
                  "clearances": { "in": "0.11..0.16 mm", "ex": "0.17..0.22 mm" },
                  "setTo": { "ex": "0.18..0.21 mm" },
                  "condition": { "minTemperature": "5 °C", "maxTemperature": "35 °C" },
                  "checkInterval": "6000 km",
                  "camTiming": {
                    "in": { "opens": "15 deg BTDC", "closes": "50 deg ABDC" },
                    "ex": { "opens": "51 deg BBDC", "closes": "16 deg ATDC" },
                    "margin": "20 deg"
                  },
                  "cautions": ["The saddle comes off first."]
                },
                "confirmedFrom": "workshop manual, page 9"
              },
              "machine": "Hill riding school, paddock bike 4",
              "date": "2031-04-02",
              "usage": "18450 km",
              "engineTemperature": "19 °C",
              "rule": "simple",
              "gauges": { "leaves": ["0.07 mm", "0.12 mm", "0.19 mm"], "tolerance": "0.003 mm", "dragAllowance": "0.002 mm", "stack": 2 },
              "valves": [
                {
                  "valve": "1-in-1",
                  "trials": [{ "leaf": "0.14 mm", "fit": "refuses" }, { "leaf": ["0.06 mm", "0.05 mm"], "fit": "goes" }],
                  "shim": "2.45 mm",
                  "stop": "mark T",
                  "pad": "sound",
                  "done": { "fitted": "2.40 mm" },
                  "recheck": [{ "leaf": "0.13 mm", "fit": "drags" }]
                },
                { "valve": "2-ex-1", "shim": { "marked": "2.60 mm", "measured": "2.59 mm", "tolerance": "0.01 mm", "type": "small" } }
              ],
              "shimBox": [{ "size": "2.40 mm", "count": 7, "type": "small" }],
              "history": [
                {
                  "date": "2030-05-11",
                  "usage": "12010 km",
                  "valves": [{ "valve": "2-in-1", "found": "(0.12, 0.15) mm", "left": "[0.15, 0.15] mm", "shim": "2.55 mm" }]
                }
              ]
            }
            """;

    private static final String INLINE = "/engine/inline";
    private static final String LENGTH = "a plain number and a unit, such as \"0.10 mm\"";
    private static final String TRAIN =
            "{ \"kind\": \"follower-shim\", \"shims\": \"1.20..2.90 mm step 0.025 mm\", \"ratio\": \"0.8\" }";

    private static final SheetReader READER = new SheetReader(SpecPack.bundled());

    private static BadInput bad(
            String name,
            String from,
            String to,
            String pointer,
            String value,
            String problem,
            String expected,
            String mend) {
        return bad(name, List.of(new Change(from, to)), pointer, value, problem, expected, mend);
    }

    private static BadInput bad(
            String name,
            List<Change> changes,
            String pointer,
            String value,
            String problem,
            String expected,
            String mend) {
        return new BadInput(name, changes, pointer, value, problem, expected, mend);
    }

    /** A change in an engine that is wrong as a whole: the error stands at its brace. */
    private static List<Change> whole(String from, String to) {
        return List.of(new Change("\"inline\": {", "\"inline\": ¦{"), new Change(from, to));
    }

    /** A field that is not known at some level; the error stands at its value and lists what is known there. */
    private static BadInput unknown(String level, String from, String to, String pointer, String known) {
        return bad(
                "unknown field in " + level,
                from,
                to,
                pointer,
                pointer.substring(pointer.lastIndexOf('/') + 1),
                "is an unknown field",
                "one of " + known,
                "correct its spelling, or remove it");
    }

    static Stream<BadInput> unknownFields() {
        return Stream.of(
                unknown(
                        "the sheet",
                        "\"machine\": ",
                        "\"Machine\": ¦",
                        "/Machine",
                        "format, engine, gauges, machine, date, usage, engineTemperature, rule, valves, shimBox, symptoms, history"),
                unknown(
                        "the engine",
                        "\"confirmedFrom\": ",
                        "\"confirmed\": ¦",
                        "/engine/confirmed",
                        "confirmedFrom, inline"),
                unknown(
                        "where the windows were read",
                        "\"confirmedFrom\": \"workshop manual, page 9\"",
                        "\"confirmedFrom\": { \"in\": \"page 9\", \"out\": ¦\"page 9\" }",
                        "/engine/confirmedFrom/out",
                        "in, ex"),
                unknown(
                        "the engine, a template beside one in place",
                        "\"confirmedFrom\": \"workshop manual, page 9\"",
                        "\"template\": ¦\"screw-single\"",
                        "/engine/template",
                        "confirmedFrom, inline"),
                unknown(
                        "the engine in place",
                        "\"checkInterval\": ",
                        "\"interval\": ¦",
                        INLINE + "/interval",
                        "template, id, title, cylinders, firingOrder, firingIntervals, valves, train, clearances, setTo, "
                                + "closerClearances, closerSetTo, condition, checkInterval, wearPrior, camTiming, decompressor, camshafts, "
                                + "cautions, tools"),
                unknown(
                        "the train",
                        "\"ratio\": \"0.8\"",
                        "\"ratio\": \"0.8\", \"pitch\": ¦\"0.75 mm\"",
                        INLINE + "/train/pitch",
                        "kind, shims, ratio"),
                unknown(
                        "the train, a ratio where none applies",
                        "\"follower-shim\", \"shims\": \"1.20..2.90 mm step 0.025 mm\", \"ratio\": ",
                        "\"bucket-shim-over\", \"shims\": \"1.20..2.90 mm step 0.025 mm\", \"ratio\": ¦",
                        INLINE + "/train/ratio",
                        "kind, shims"),
                unknown(
                        "the clearances",
                        "\"ex\": \"0.17..0.22 mm\"",
                        "\"ex\": \"0.17..0.22 mm\", \"exhaust\": ¦\"0.17..0.22 mm\"",
                        INLINE + "/clearances/exhaust",
                        "in, ex"),
                unknown(
                        "the windows to set to",
                        "{ \"ex\": \"0.18..0.21 mm\" }",
                        "{ \"EX\": ¦\"0.18..0.21 mm\" }",
                        INLINE + "/setTo/EX",
                        "in, ex"),
                unknown(
                        "the condition",
                        "\"maxTemperature\": ",
                        "\"max\": ¦",
                        INLINE + "/condition/max",
                        "minTemperature, maxTemperature"),
                unknown("the cam timing", "\"margin\": ", "\"ramp\": ¦", INLINE + "/camTiming/ramp", "in, ex, margin"),
                unknown(
                        "the events of a role",
                        "\"closes\": \"16 deg ATDC\"",
                        "\"closes\": \"16 deg ATDC\", \"lift\": ¦\"9 mm\"",
                        INLINE + "/camTiming/ex/lift",
                        "opens, closes"),
                unknown(
                        "the gauges",
                        "\"stack\": ",
                        "\"stacks\": ¦",
                        "/gauges/stacks",
                        "leaves, tolerance, dragAllowance, stack"),
                unknown(
                        "a valve",
                        "\"stop\": ",
                        "\"mark\": ¦",
                        "/valves/0/mark",
                        "valve, gap, trials, loadedTrials, turnsFree, shim, pad, eccentricAngle, stop, done, recheck"),
                unknown(
                        "a trial",
                        "\"fit\": \"refuses\"",
                        "\"fit\": \"refuses\", \"by\": ¦\"A. Rider\"",
                        "/valves/0/trials/0/by",
                        "leaf, fit"),
                unknown(
                        "a trial of the recheck",
                        "\"fit\": \"drags\"",
                        "\"fit\": \"drags\", \"by\": ¦\"A. Rider\"",
                        "/valves/0/recheck/0/by",
                        "leaf, fit"),
                unknown(
                        "a shim",
                        "\"type\": \"small\" } }",
                        "\"diameter\": ¦\"9.5 mm\" } }",
                        "/valves/1/shim/diameter",
                        "marked, measured, tolerance, type"),
                unknown(
                        "what was done",
                        "\"fitted\": \"2.40 mm\" }",
                        "\"fitted\": \"2.40 mm\", \"by\": ¦\"A. Rider\" }",
                        "/valves/0/done/by",
                        "setWith, turned, fitted"),
                unknown(
                        "a lot of the shim box",
                        "\"type\": \"small\" }]",
                        "\"diameter\": ¦\"9.5 mm\" }]",
                        "/shimBox/0/diameter",
                        "size, count, type"),
                unknown(
                        "an earlier check",
                        "\"usage\": \"12010 km\"",
                        "\"reading\": ¦\"12010 km\"",
                        "/history/0/reading",
                        "date, usage, valves"),
                bad(
                        "a valve of an earlier check that the engine does not have",
                        List.of(
                                new Change("\"history\": [\n    {", "\"history\": [\n    ¦{"),
                                new Change("\"2-in-1\", \"found\"", "\"3-in-1\", \"found\"")),
                        "/history/0",
                        "3-in-1",
                        "is not a valve of this engine",
                        "one of [1-in-1",
                        "correct the name"),
                unknown(
                        "a reading of an earlier check",
                        "\"left\": ",
                        "\"after\": ¦",
                        "/history/0/valves/0/after",
                        "valve, found, left, shim"),
                bad(
                        "unknown field with characters that a pointer escapes",
                        "\"machine\": ",
                        "\"a/b~c\": ¦",
                        "/a~1b~0c",
                        "a/b~c",
                        "is an unknown field",
                        "one of format, engine",
                        "correct its spelling"),
                bad(
                        "unknown field with a line break in its name",
                        "\"machine\": ",
                        "\"a\\nb\": ¦",
                        "/a\nb",
                        "a\nb",
                        "is an unknown field",
                        "one of format, engine",
                        "correct its spelling"));
    }

    /** A field that must be there; the error stands at the object that lacks it. */
    private static BadInput missing(String field, String pointer, String from, String to) {
        return missing(field, pointer, List.of(new Change(from, to)));
    }

    private static BadInput missing(String field, String pointer, List<Change> changes) {
        return bad(
                "no " + field + " at " + (pointer.isEmpty() ? "the top" : pointer),
                changes,
                pointer,
                "",
                "has no field \"" + field + "\"",
                "the field \"" + field + "\"",
                "add it");
    }

    /** A top field that was misspelt. */
    private static BadInput misspelt(String field, String as) {
        return missing(
                field,
                "",
                List.of(
                        new Change("{\n  \"format\"", "¦{\n  \"format\""),
                        new Change("\n  \"" + field + "\":", "\n  \"" + as + "\":")));
    }

    private static BadInput missingFromTrain(String field, String train) {
        return missing(field, INLINE + "/train", TRAIN, "¦" + train);
    }

    /** A field of the engine in place that was misspelt. */
    private static BadInput missingFromEngine(String field) {
        return missing(field, INLINE, whole("      \"" + field + "\": ", "      \"x\": "));
    }

    /** A slip in the name of a field that must be there: the error stands at the slip. */
    private static BadInput meant(String field, String slip) {
        return bad(
                "\"" + slip + "\" in place of \"" + field + "\"",
                "\n  \"" + field + "\": ",
                "\n  \"" + slip + "\": ¦",
                "/" + slip,
                slip,
                "is an unknown field",
                "the field \"" + field + "\"",
                "did you mean \"" + field + "\"? correct its spelling, or remove it");
    }

    static Stream<BadInput> missingFields() {
        return Stream.of(
                missing("format", "", "{\n  \"format\": \"lash-sheet/1\",", "¦{"),
                misspelt("engine", "motor"),
                meant("gauges", "gages"),
                meant("valves", "valve"),
                missing("template", "/engine", "\"engine\": {\n    \"inline\": {", "\"engine\": ¦{\n    \"x\": {"),
                missingFromEngine("id"),
                missingFromEngine("title"),
                missingFromEngine("cylinders"),
                missing("valves", INLINE, whole("\"valves\": [\"1-in-1\"", "\"x\": [\"1-in-1\"")),
                missingFromEngine("train"),
                missingFromTrain("kind", "{ \"pitch\": \"0.75 mm\" }"),
                missingFromTrain("pitch", "{ \"kind\": \"rocker-screw\" }"),
                missingFromTrain("ratio", "{ \"kind\": \"stud-nut\", \"pitch\": \"1.0 mm\" }"),
                missingFromTrain("shims", "{ \"kind\": \"follower-shim\", \"ratio\": \"0.8\" }"),
                missingFromTrain("multiplier", "{ \"kind\": \"eccentric\", \"eccentricity\": \"1 mm\" }"),
                missingFromTrain(
                        "closerShims", "{ \"kind\": \"desmodromic\", \"openerShims\": \"1.20..2.90 mm step 0.1 mm\" }"),
                missing(
                        "closes",
                        INLINE + "/camTiming/ex",
                        "\"ex\": { \"opens\": \"51 deg BBDC\", \"closes\": \"16 deg ATDC\" }",
                        "\"ex\": ¦{ \"opens\": \"51 deg BBDC\" }"),
                missing("leaves", "/gauges", "{ \"leaves\": [\"0.07 mm\", \"0.12 mm\", \"0.19 mm\"], ", "¦{ "),
                missing("leaf", "/valves/0/recheck/0", "{ \"leaf\": \"0.13 mm\", ", "¦{ "),
                missing(
                        "fit",
                        "/valves/0/recheck/0",
                        "{ \"leaf\": \"0.13 mm\", \"fit\": \"drags\" }",
                        "¦{ \"leaf\": \"0.13 mm\" }"),
                missing("valve", "/valves/1", "{ \"valve\": \"2-ex-1\", ", "¦{ "),
                missing("size", "/shimBox/0", "{ \"size\": \"2.40 mm\", ", "¦{ "),
                missing("count", "/shimBox/0", "{ \"size\": \"2.40 mm\", \"count\": 7, ", "¦{ \"size\": \"2.40 mm\", "),
                missing("date", "/history/0", "{\n      \"date\": \"2030-05-11\",", "¦{"),
                missing("valve", "/history/0/valves/0", "{ \"valve\": \"2-in-1\", ", "¦{ "),
                missing(
                        "found",
                        "/history/0/valves/0",
                        "{ \"valve\": \"2-in-1\", \"found\": \"(0.12, 0.15) mm\", ",
                        "¦{ \"valve\": \"2-in-1\", "));
    }

    private static BadInput notJson(String name, String from, String to, String pointer, String problem) {
        return bad(name, from, to, pointer, "", "is not JSON" + problem, "a JSON document", "correct the place");
    }

    private static BadInput tooLarge(String name, String from, String to, String pointer, String expected) {
        return bad(name, from, to, pointer, "", "larger than is ever needed", expected, "right file");
    }

    static Stream<BadInput> brokenDocuments() {
        String twice = "is given twice in one object";
        return Stream.of(
                bad(
                        "duplicate key",
                        "\"usage\": \"18450 km\",",
                        "\"usage\": \"18450 km\", ¦\"usage\": \"18451 km\",",
                        "/usage",
                        "usage",
                        twice,
                        "each key once",
                        "remove one of the two"),
                bad(
                        "duplicate key, the same value",
                        "{ \"in\": \"0.11..0.16 mm\",",
                        "{ \"in\": \"0.11..0.16 mm\",\n ¦\"in\": \"0.11..0.16 mm\",",
                        INLINE + "/clearances/in",
                        "in",
                        twice,
                        "each key once",
                        "remove one of the two"),
                bad(
                        "a document after the end",
                        "\n  ]\n}\n",
                        "\n  ]\n}\n¦{}\n",
                        "",
                        "",
                        "something stands after the end",
                        "one document",
                        "remove what follows"),
                notJson("a word after the end", "\n  ]\n}\n", "\n  ]\n} ¦end\n", "", ": Unrecognized token 'end'"),
                notJson(
                        "comma before the end of an object",
                        "\"type\": \"small\" }]",
                        "\"type\": \"small\", ¦}]",
                        "/shimBox/0/type",
                        ": Unexpected character ('}'"),
                notJson(
                        "comma missing",
                        "\"rule\": \"simple\",\n  \"",
                        "\"rule\": \"simple\"\n  ¦\"",
                        "/rule",
                        ": Unexpected character ('\"'"),
                notJson(
                        "brackets that do not match",
                        "\"firingOrder\": [1, 2]",
                        "\"firingOrder\": [1, 2¦}",
                        INLINE + "/firingOrder/1",
                        ": Unexpected close marker '}': expected ']'"),
                notJson(
                        "no quotation marks",
                        "\"rule\": \"simple\"",
                        "\"rule\": ¦simple",
                        "/rule",
                        ": Unrecognized token 'simple'"),
                notJson(
                        "single quotation marks",
                        "\"rule\": \"simple\"",
                        "\"rule\": ¦'simple'",
                        "/rule",
                        ": Unexpected character ('''"),
                notJson(
                        "a comment",
                        "\"rule\": \"simple\",",
                        "\"rule\": \"simple\", ¦// as ever",
                        "/rule",
                        ": Unexpected character ('/'"),
                notJson(
                        "a number that is none",
                        "\"count\": 7",
                        "\"count\": NaN¦",
                        "/shimBox/0/count",
                        ": Non-standard token 'NaN'"),
                notJson(
                        "a number with a leading zero",
                        "\"count\": 7",
                        "\"count\": 0¦7",
                        "/shimBox/0/count",
                        ": Invalid numeric value"),
                notJson(
                        "a line break in a text",
                        "\"stop\": \"mark T\"",
                        "\"stop\": \"mark¦\nT\"",
                        "/valves/0/stop",
                        ": Illegal unquoted character"),
                tooLarge(
                        "a text too long",
                        "\"stop\": \"mark T\"",
                        "\"stop\": \"" + "T".repeat(10_001) + "\"¦",
                        "/valves/0/stop",
                        "texts of at most 10000 characters"),
                tooLarge(
                        "a number too long",
                        "\"count\": 7",
                        "\"count\": 7" + "0".repeat(60) + "¦",
                        "/shimBox/0/count",
                        "numbers of at most 60 digits"),
                tooLarge(
                        "a name too long",
                        "\"machine\": ",
                        "\"" + "m".repeat(201) + "\"¦: ",
                        "/engine",
                        "texts of at most 10000 characters"),
                tooLarge(
                        "too many levels",
                        "\"count\": 7",
                        "\"count\": " + "[".repeat(38) + "¦" + "]".repeat(38),
                        "/shimBox/0/count" + "/0".repeat(37),
                        "at most 40 levels"));
    }

    private static final String LEAF = "\"leaf\": \"0.14 mm\"";
    private static final String LEAF_AT = "/valves/0/trials/0/leaf";

    static Stream<BadInput> badQuantities() {
        return Stream.of(
                bad(
                        "number without unit",
                        LEAF,
                        "\"leaf\": ¦\"0.14\"",
                        LEAF_AT,
                        "0.14",
                        "has no unit",
                        "a number with its unit, such as \"0.10 mm\"",
                        "add the unit: 0.14 mm, 0.14 in or 0.14 thou"),
                bad(
                        "bare number",
                        LEAF,
                        "\"leaf\": ¦0.14",
                        LEAF_AT,
                        "0.14",
                        "is a bare number",
                        "a length with its unit, such as \"0.10 mm\"",
                        "write it in quotation marks with what it needs, such as a unit"),
                bad(
                        "unknown unit",
                        LEAF,
                        "\"leaf\": ¦\"0.14 cm\"",
                        LEAF_AT,
                        "0.14 cm",
                        "\"cm\" is not a unit of length",
                        "mm, um, hundredths, in or thou",
                        "write the value as \"0.10 mm\""),
                bad(
                        "exponent",
                        LEAF,
                        "\"leaf\": ¦\"1.4e-1 mm\"",
                        LEAF_AT,
                        "1.4e-1 mm",
                        "the number has an exponent",
                        LENGTH,
                        "write the number out"),
                bad(
                        "decimal comma",
                        LEAF,
                        "\"leaf\": ¦\"0,14 mm\"",
                        LEAF_AT,
                        "0,14 mm",
                        "a comma stands in the number",
                        LENGTH,
                        "write a decimal point"),
                bad(
                        "empty text",
                        "\"shim\": \"2.45 mm\"",
                        "\"shim\": ¦\"\"",
                        "/valves/0/shim",
                        "",
                        "nothing is written here",
                        LENGTH,
                        "write the value"),
                bad(
                        "too fine",
                        LEAF,
                        "\"leaf\": ¦\"0.1400001 mm\"",
                        LEAF_AT,
                        "0.1400001 mm",
                        "is not a whole number of nanometres",
                        "at most 6 decimals of a millimetre",
                        "write fewer digits"),
                bad(
                        "temperature without scale",
                        "\"engineTemperature\": \"19 °C\"",
                        "\"engineTemperature\": ¦\"19\"",
                        "/engineTemperature",
                        "19",
                        "has no scale",
                        "a number with °C or °F",
                        "add the scale of the thermometer"),
                bad(
                        "temperature with half a scale",
                        "\"engineTemperature\": \"19 °C\"",
                        "\"engineTemperature\": ¦\"19 °\"",
                        "/engineTemperature",
                        "19 °",
                        "\"°\" is not a scale of temperature",
                        "a number with °C or °F",
                        "add the scale of the thermometer"),
                bad(
                        "temperature out of range",
                        "\"engineTemperature\": \"19 °C\"",
                        "\"engineTemperature\": ¦\"1900 °C\"",
                        "/engineTemperature",
                        "1900 °C",
                        "is out of range",
                        "-100 °C to 1000 °C",
                        "check the number and its scale"),
                bad(
                        "negative usage",
                        "\"usage\": \"18450 km\"",
                        "\"usage\": ¦\"-18450 km\"",
                        "/usage",
                        "-18450 km",
                        "is out of range",
                        "0 to 100000000 km",
                        "write what the counter shows"),
                bad(
                        "usage in no known unit",
                        "\"usage\": \"12010 km\"",
                        "\"usage\": ¦\"12010 furlongs\"",
                        "/history/0/usage",
                        "12010 furlongs",
                        "\"furlongs\" is not a unit of usage",
                        "a number with km, mi or h",
                        "add the unit that the counter counts"),
                bad(
                        "date that does not exist",
                        "\"date\": \"2031-04-02\"",
                        "\"date\": ¦\"2031-02-29\"",
                        "/date",
                        "2031-02-29",
                        "is not a date",
                        "a date such as \"2031-04-02\"",
                        "of a day that exists"),
                bad(
                        "date in another order",
                        "\"date\": \"2030-05-11\"",
                        "\"date\": ¦\"11.05.2030\"",
                        "/history/0/date",
                        "11.05.2030",
                        "is not a date",
                        "a date such as \"2031-04-02\"",
                        "write year, month and day"));
    }

    static Stream<BadInput> badValues() {
        return Stream.of(
                // format and rule
                bad(
                        "wrong format",
                        "\"lash-sheet/1\"",
                        "¦\"lash-sheet/2\"",
                        "/format",
                        "lash-sheet/2",
                        "is not a format that this version reads",
                        "\"lash-sheet/1\"",
                        "check that this is a check sheet"),
                bad(
                        "a report instead of a sheet",
                        "\"lash-sheet/1\"",
                        "¦\"lash-report/1\"",
                        "/format",
                        "lash-report/1",
                        "is not a format that this version reads",
                        "\"lash-sheet/1\"",
                        "check that this is a check sheet"),
                bad(
                        "unknown rule",
                        "\"rule\": \"simple\"",
                        "\"rule\": ¦\"Simple\"",
                        "/rule",
                        "Simple",
                        "is not a rule",
                        "simple or guarded",
                        "write one of these"),
                // gauges and trials
                bad(
                        "leaf out of range",
                        "[\"0.07 mm\", \"0.12 mm\", \"0.19 mm\"]",
                        "[\"0.07 mm\", ¦\"12 mm\", \"0.19 mm\"]",
                        "/gauges/leaves/1",
                        "12 mm",
                        "is out of range",
                        "a thickness above 0 mm and at most 5.00 mm",
                        "check the number and its unit"),
                bad(
                        "leaf of no thickness",
                        "\"leaf\": \"0.13 mm\"",
                        "\"leaf\": ¦\"0.00 mm\"",
                        "/valves/0/recheck/0/leaf",
                        "0.00 mm",
                        "is out of range",
                        "a thickness above 0 mm",
                        "check the number and its unit"),
                bad(
                        "empty list of leaves",
                        "{ \"leaves\": [\"0.07 mm\", \"0.12 mm\", \"0.19 mm\"],",
                        "¦{ \"leaves\": [],",
                        "/gauges",
                        "0 leaves",
                        "is out of range",
                        "1 to 200 leaves",
                        "list the leaves"),
                bad(
                        "drag allowance out of range",
                        List.of(
                                new Change("\"gauges\": {", "\"gauges\": ¦{"),
                                new Change("\"dragAllowance\": \"0.002 mm\"", "\"dragAllowance\": \"1 mm\"")),
                        "/gauges",
                        "1.00 mm",
                        "is out of range",
                        "0 mm to 0.10 mm",
                        "give the figure of your own leaves"),
                bad(
                        "four leaves in the set's stacks",
                        "\"stack\": 2",
                        "\"stack\": ¦4",
                        "/gauges/stack",
                        "4",
                        "is out of range",
                        "a whole number from 1 to 3",
                        "check the number"),
                bad(
                        "half a leaf in the set's stacks",
                        "\"stack\": 2",
                        "\"stack\": ¦1.5",
                        "/gauges/stack",
                        "1.5",
                        "is not a whole number",
                        "a whole number from 1 to 3",
                        "without quotation marks"),
                bad(
                        "a whole number as a text",
                        "\"stack\": 2",
                        "\"stack\": ¦\"2\"",
                        "/gauges/stack",
                        "2",
                        "is not a whole number",
                        "a whole number from 1 to 3",
                        "without quotation marks"),
                bad(
                        "four leaves stacked",
                        "[\"0.06 mm\", \"0.05 mm\"]",
                        "¦[\"0.06 mm\", \"0.05 mm\", \"0.05 mm\", \"0.05 mm\"]",
                        "/valves/0/trials/1/leaf",
                        "4 leaves",
                        "is out of range",
                        "1 to 3 leaves",
                        "use fewer, thicker leaves"),
                bad(
                        "no leaf stacked",
                        "[\"0.06 mm\", \"0.05 mm\"]",
                        "¦[]",
                        "/valves/0/trials/1/leaf",
                        "0 leaves",
                        "is out of range",
                        "1 to 3 leaves",
                        "use fewer, thicker leaves"),
                bad(
                        "unknown fit",
                        "\"fit\": \"drags\"",
                        "\"fit\": ¦\"tight\"",
                        "/valves/0/recheck/0/fit",
                        "tight",
                        "is not a fit",
                        "goes, drags, forced or refuses",
                        "write what the hand felt"),
                // valves
                bad(
                        "a valve that the engine does not have",
                        "\"valve\": \"2-ex-1\"",
                        "\"valve\": ¦\"2-ex-2\"",
                        "/valves/1/valve",
                        "2-ex-2",
                        "is not a valve of this engine",
                        "one of [1-in-1, 1-ex-1, 2-in-1, 2-ex-1]",
                        "correct the name"),
                bad(
                        "not the name of a valve",
                        "\"valve\": \"2-ex-1\"",
                        "\"valve\": ¦\"2-exhaust-1\"",
                        "/valves/1/valve",
                        "2-exhaust-1",
                        "is not the name of a valve",
                        "cylinder, role and place",
                        "write cylinder-in-place or cylinder-ex-place"),
                bad(
                        "valve twice",
                        "\"valve\": \"2-ex-1\"",
                        "\"valve\": ¦\"1-in-1\"",
                        "/valves/1/valve",
                        "1-in-1",
                        "is on the sheet twice",
                        "each valve once",
                        "put its trials together"),
                bad(
                        "unknown state of the pad",
                        "\"pad\": \"sound\"",
                        "\"pad\": ¦\"worn\"",
                        "/valves/0/pad",
                        "worn",
                        "is not a state of the pad",
                        "sound or dished",
                        "write one of these"),
                bad(
                        "shim out of range",
                        "\"shim\": \"2.45 mm\"",
                        "\"shim\": ¦\"2.45 in\"",
                        "/valves/0/shim",
                        "2.45 in",
                        "is out of range",
                        "above 0 mm and at most 20.00 mm",
                        "check the size and its unit"),
                bad(
                        "tolerance of a shim out of range",
                        List.of(
                                new Change("\"shim\": {", "\"shim\": ¦{"),
                                new Change("\"tolerance\": \"0.01 mm\"", "\"tolerance\": \"1 mm\"")),
                        "/valves/1/shim",
                        "1.00 mm",
                        "is out of range",
                        "0 mm to 0.10 mm",
                        "check the figure and its unit"),
                bad(
                        "done with two things",
                        "\"done\": { \"fitted\": \"2.40 mm\" }",
                        "\"done\": ¦{ \"fitted\": \"2.40 mm\", \"turned\": 15 }",
                        "/valves/0/done",
                        "{…}",
                        "says 2 things that were done",
                        "one of setWith, turned, fitted",
                        "write what was done last"),
                bad(
                        "done with nothing",
                        "\"done\": { \"fitted\": \"2.40 mm\" }",
                        "\"done\": ¦{}",
                        "/valves/0/done",
                        "{…}",
                        "says 0 things that were done",
                        "one of setWith, turned, fitted",
                        "write what was done last"),
                bad(
                        "turned by no number",
                        "\"done\": { \"fitted\": \"2.40 mm\" }",
                        "\"done\": { \"turned\": ¦\"a quarter\" }",
                        "/valves/0/done/turned",
                        "a quarter",
                        "is not in degrees",
                        "a number and deg",
                        "add deg"),
                bad(
                        "a shim of no thickness fitted",
                        "\"done\": { \"fitted\": \"2.40 mm\" }",
                        "\"done\": { \"fitted\": ¦\"0 mm\" }",
                        "/valves/0/done/fitted",
                        "0 mm",
                        "is out of range",
                        "above 0 mm and at most 20.00 mm",
                        "check the size and its unit"),
                // shim box and history
                bad(
                        "fewer than no shims",
                        "\"count\": 7",
                        "\"count\": ¦-1",
                        "/shimBox/0/count",
                        "-1",
                        "is out of range",
                        "a whole number from 0 to 100000",
                        "check the number"),
                bad(
                        "a spare shim of negative thickness",
                        "[{ \"size\": \"2.40 mm\",",
                        "[¦{ \"size\": \"-2.40 mm\",",
                        "/shimBox/0",
                        "-2.40 mm",
                        "is out of range",
                        "above 0 mm and at most 20.00 mm",
                        "check the size and its unit"),
                bad(
                        "an interval that holds nothing",
                        "\"found\": \"(0.12, 0.15) mm\"",
                        "\"found\": ¦\"(0.15, 0.12) mm\"",
                        "/history/0/valves/0/found",
                        "(0.15, 0.12) mm",
                        "holds no length",
                        "a lower end below the upper end",
                        "swap the ends"),
                bad(
                        "a window instead of an interval",
                        "\"left\": \"[0.15, 0.15] mm\"",
                        "\"left\": ¦\"0.12..0.15 mm\"",
                        "/history/0/valves/0/left",
                        "0.12..0.15 mm",
                        "is not an interval",
                        "\"(0.12, 0.15] mm\"",
                        "write it in one of these forms"),
                bad(
                        "a shim of negative thickness left in",
                        "\"shim\": \"2.55 mm\"",
                        "\"shim\": ¦\"-2.55 mm\"",
                        "/history/0/valves/0/shim",
                        "-2.55 mm",
                        "is out of range",
                        "above 0 mm and at most 20.00 mm",
                        "check the size and its unit"));
    }

    static Stream<BadInput> badEngines() {
        return Stream.of(
                bad(
                        "reversed window",
                        "\"in\": \"0.11..0.16 mm\"",
                        "\"in\": ¦\"0.16..0.11 mm\"",
                        INLINE + "/clearances/in",
                        "0.16..0.11 mm",
                        "is reversed",
                        "such as \"0.11..0.16 mm\"",
                        "swap the two figures"),
                bad(
                        "window out of range",
                        "\"in\": \"0.11..0.16 mm\"",
                        "\"in\": ¦\"0.11..0.26 in\"",
                        INLINE + "/clearances/in",
                        "0.11..0.26 in",
                        "is out of range",
                        "clearances from 0 mm to 5.00 mm",
                        "check the figures and their unit"),
                bad(
                        "window with one figure",
                        "\"in\": \"0.11..0.16 mm\"",
                        "\"in\": ¦\"0.16 mm\"",
                        INLINE + "/clearances/in",
                        "0.16 mm",
                        "has no \"..\" between two figures",
                        "such as \"0.11..0.16 mm\"",
                        "write both figures and the unit"),
                bad(
                        "no window for a role",
                        "\"clearances\": { \"in\": \"0.11..0.16 mm\", ",
                        "\"clearances\": ¦{ ",
                        INLINE + "/clearances",
                        "(no window for in)",
                        "are missing for intake valves",
                        "a window for each role",
                        "complete the engine paddock-twin"),
                bad(
                        "window to set to outside the check window",
                        "\"setTo\": { \"ex\": \"0.18..0.21 mm\" }",
                        "\"setTo\": { \"ex\": ¦\"0.18..0.23 mm\" }",
                        INLINE + "/setTo/ex",
                        "0.18..0.23 mm",
                        "is not inside the window to check against",
                        "a window inside 0.17..0.22 mm",
                        "check both windows in the manual"),
                bad(
                        "unknown kind of train",
                        "\"kind\": \"follower-shim\"",
                        "\"kind\": ¦\"follower\"",
                        INLINE + "/train/kind",
                        "follower",
                        "is not a kind of valve train",
                        "one of bridge, bucket-graded, bucket-shim-over, bucket-shim-under, desmodromic, eccentric, fixed, "
                                + "follower-shim, hydraulic, pushrod-screw, pushrod-threaded, rocker-forked, rocker-screw, "
                                + "stud-nut, tappet-screw",
                        "write one of these kinds"),
                bad(
                        "step that does not divide the range",
                        "\"shims\": \"1.20..2.90 mm step 0.025 mm\"",
                        "\"shims\": ¦\"1.20..2.90 mm step 0.04 mm\"",
                        INLINE + "/train/shims",
                        "1.20..2.90 mm step 0.04 mm",
                        "has a step that does not fit",
                        "a step that divides the range",
                        "check the step against the kit"),
                bad(
                        "ratio out of range",
                        "\"ratio\": \"0.8\"",
                        "\"ratio\": ¦\"80\"",
                        INLINE + "/train/ratio",
                        "80",
                        "is out of range",
                        "0.1 to 10",
                        "check the two lever arms"),
                bad(
                        "no cylinders",
                        "\"cylinders\": 2",
                        "\"cylinders\": ¦0",
                        INLINE + "/cylinders",
                        "0",
                        "is out of range",
                        "a whole number from 1 to 18",
                        "check the number"),
                bad(
                        "cylinders against firing order",
                        "\"cylinders\": 2",
                        "\"cylinders\": ¦3",
                        INLINE + "/cylinders",
                        "3",
                        "does not agree with a firing order of 2 cylinders",
                        "2 cylinders",
                        "correct one of the two"),
                bad(
                        "firing order that is no permutation",
                        "\"firingOrder\": [1, 2],\n      \"firingIntervals\": [180, 540]",
                        "\"firingOrder\": ¦[1, 1]",
                        INLINE + "/firingOrder",
                        "1-1",
                        "does not name each cylinder once",
                        "each of the numbers 1 to the count of cylinders once",
                        "copy the firing order from the manual"),
                bad(
                        "intervals that do not add up to 720",
                        "\"firingIntervals\": [180, 540]",
                        "\"firingIntervals\": ¦[180, 180]",
                        INLINE + "/firingIntervals",
                        "[180, 180]",
                        "do not fit the firing order",
                        "2 positive numbers of crank degrees that add up to 720",
                        "give the degrees from each firing to the next"),
                bad(
                        "fewer intervals than cylinders",
                        "\"firingIntervals\": [180, 540]",
                        "\"firingIntervals\": ¦[720]",
                        INLINE + "/firingIntervals",
                        "[720]",
                        "do not fit the firing order",
                        "2 positive numbers",
                        "give the degrees"),
                bad(
                        "an interval as a text",
                        "\"firingIntervals\": [180, 540]",
                        "\"firingIntervals\": [180, ¦\"540 deg\"]",
                        INLINE + "/firingIntervals/1",
                        "540 deg",
                        "is not a number",
                        "crank degrees as a number",
                        "without quotation marks"),
                bad(
                        "a valve of a cylinder that the engine does not have",
                        "\"2-in-1\", \"2-ex-1\"]",
                        "¦\"3-ex-1\", \"2-ex-1\"]",
                        INLINE + "/valves/2",
                        "3-ex-1",
                        "is on a cylinder that the engine does not have",
                        "cylinders 1 to 2",
                        "correct the valve, or the number of cylinders"),
                bad(
                        "valve named twice",
                        "[\"1-in-1\", \"1-ex-1\", \"2-in-1\", \"2-ex-1\"]",
                        "¦[\"1-in-1\", \"1-ex-1\", \"2-in-1\", \"1-in-1\"]",
                        INLINE + "/valves",
                        "[1-in-1, 1-ex-1, 2-in-1, 1-in-1]",
                        "are missing or named twice",
                        "each valve once",
                        "complete the engine"),
                bad(
                        "id that is no short name",
                        "\"paddock-twin\"",
                        "¦\"Paddock Twin\"",
                        INLINE + "/id",
                        "Paddock Twin",
                        "is not a short name",
                        "lower-case letters, digits and hyphens, at most 64",
                        "complete the engine"),
                bad(
                        "reversed condition",
                        "{ \"minTemperature\": \"5 °C\"",
                        "¦{ \"minTemperature\": \"50 °C\"",
                        INLINE + "/condition",
                        "50 °C to 35 °C",
                        "is reversed",
                        "a lowest temperature that is not above the highest",
                        "complete the engine"),
                bad(
                        "event without a mark",
                        "\"opens\": \"15 deg BTDC\"",
                        "\"opens\": ¦\"15 deg\"",
                        INLINE + "/camTiming/in/opens",
                        "15 deg",
                        "is not the opening or closing of a valve",
                        "BTDC, ATDC, BBDC or ABDC",
                        "write it in this form"),
                bad(
                        "event out of range",
                        "\"opens\": \"15 deg BTDC\"",
                        "\"opens\": ¦\"181 deg BTDC\"",
                        INLINE + "/camTiming/in/opens",
                        "181 deg BTDC",
                        "is out of range",
                        "0 to 180 deg",
                        "check the timing figure"),
                bad(
                        "margin without deg",
                        "\"margin\": \"20 deg\"",
                        "\"margin\": ¦\"20\"",
                        INLINE + "/camTiming/margin",
                        "20",
                        "is not in degrees",
                        "a number and deg",
                        "add deg"),
                bad(
                        "margin out of range",
                        "\"20 deg\"",
                        "¦\"200 deg\"",
                        INLINE + "/camTiming/margin",
                        "200 deg",
                        "is out of range",
                        "0 to 90 deg",
                        "length of the ramps"),
                bad(
                        "check interval without a unit",
                        "\"checkInterval\": \"6000 km\"",
                        "\"checkInterval\": ¦\"6000\"",
                        INLINE + "/checkInterval",
                        "6000",
                        "has no unit",
                        "a number with km, mi or h",
                        "add the unit that the counter counts"));
    }

    @Test
    void readsTheSoundDocument() {
        assertThat(READER.read("sound.json", SOUND).valves()).hasSize(2);
    }

    @ParameterizedTest
    @MethodSource({"unknownFields", "missingFields", "brokenDocuments", "badQuantities", "badValues", "badEngines"})
    void refuses(BadInput bad) {
        bad.isRefused(SOUND, () -> READER.read("bad.json", bad.in(SOUND)));
        bad.isRefused(SOUND, () -> READER.read("bad.json", new ByteArrayInputStream(BadInput.utf8(bad.in(SOUND)))));
    }

    private static DocumentException refused(String json) {
        return BadInput.refuses(() -> READER.read("bad.json", json), json);
    }

    private static DocumentException refused(byte[] bytes) {
        return BadInput.refuses(
                () -> READER.read("bad.json", new ByteArrayInputStream(bytes)),
                new String(bytes, StandardCharsets.ISO_8859_1));
    }

    // Whole documents

    @ParameterizedTest
    @ValueSource(strings = {"", " ", "\n\n", "\uFEFF"})
    void refusesAnEmptyFile(String json) {
        DocumentException refused = refused(json);

        assertThat(refused.problem()).isEqualTo("the file is empty");
        assertThat(refused.pointer()).isEmpty();
        assertThat(refused.line()).isEqualTo(1);
        assertThat(refused.column()).isEqualTo(1);
        assertThat(refused.expected()).isEqualTo("a JSON document");
        assertThat(refused.mend()).isEqualTo("check the file name");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "format: lash-sheet/1",
                "<sheet/>",
                "valve,leaf,fit\n1-in-1,0.10 mm,goes\n",
                "{'format': 'lash-sheet/1'}",
                "{format: 1}",
                "{\"format\" \"lash-sheet/1\"}",
                "{\"a\": 1 \"b\": 2}",
                "{\"a\": 1; \"b\": 2}",
                "{\"a\": +1}",
                "{\"a\": .5}",
                "{\"a\": 5.}",
                "{\"a\": 0x10}",
                "{\"a\": 1.2.3}",
                "{\"a\": --1}",
                "{\"a\": 1e}",
                "{\"a\": Infinity}",
                "{\"a\": -Infinity}",
                "{\"a\": True}",
                "{\"a\": nul}",
                "{\"a\": \"\\x\"}",
                "{\"a\": \"\\u12zz\"}",
                "{\"a\": \"a\tb\"}",
                "{\"a\": b\u0001c}",
                "{\"a\": \u0000}",
                "{\"a\":\u00a01}",
                "/* sheet */ {}",
                "# sheet\n{}",
                "\uFEFF\uFEFF{}",
                "[1,]",
                "[}",
                "{]",
                "}",
                "{}}",
            })
    void refusesWhatIsNotJson(String text) {
        DocumentException refused = refused(text);

        assertThat(refused.problem()).startsWith("is not JSON: ");
        assertThat(refused.problem().substring("is not JSON: ".length())).isNotBlank();
        assertThat(refused.expected()).isEqualTo("a JSON document");
        assertThat(refused.value()).isEmpty();
        assertThat(refused.line()).isLessThanOrEqualTo(2);
    }

    @ParameterizedTest
    @ValueSource(strings = {"null", "1", "\"lash-sheet/1\"", "true", "[]", "[{}]"})
    void refusesADocumentThatIsNoObject(String json) {
        DocumentException refused = refused(json);

        assertThat(refused.problem()).isEqualTo("is not an object");
        assertThat(refused.expected()).isEqualTo("an object in braces");
        assertThat(refused.mend()).isEqualTo("write the fields in braces");
        assertThat(refused.pointer()).isEmpty();
    }

    @Test
    void refusesWhatIsNotUtf8() {
        byte[] latin = SOUND.getBytes(StandardCharsets.ISO_8859_1);

        for (byte[] bytes : List.of(latin, SOUND.getBytes(StandardCharsets.UTF_16), new byte[] {'{', (byte) 0xC3})) {
            DocumentException refused = refused(bytes);
            assertThat(refused.problem()).isEqualTo("is not UTF-8");
            assertThat(refused.expected()).isEqualTo("a text file in UTF-8");
            assertThat(refused.mend()).isEqualTo("save the file as UTF-8");
        }
    }

    @Test
    void refusesADocumentTooLarge() {
        String padded = SOUND + " ".repeat(8 * 1024 * 1024 - BadInput.utf8(SOUND).length);

        assertThat(READER.read("large.json", padded).valves()).hasSize(2);
        for (DocumentException refused : List.of(
                refused(padded + " ".repeat(BadInput.utf8(SOUND).length)), refused(BadInput.utf8(padded + " ")))) {
            assertThat(refused.problem()).startsWith("is too large: 8").matches(".*[0-9]+ (bytes|characters)");
            assertThat(refused.expected()).isEqualTo("at most 8388608 bytes");
            assertThat(refused.mend()).isEqualTo("split the document, one per check");
        }
    }

    @Test
    void takesValuesAsLargeAsTheLimits() {
        assertThat(READER.read("text.json", new Change("\"mark T\"", "\"" + "T".repeat(10_000) + "\"").in(SOUND))
                        .valves()
                        .get(0)
                        .stop())
                .hasSize(10_000);
        assertThat(refused(new Change("\"count\": 7", "\"count\": 1" + "0".repeat(59)).in(SOUND))
                        .problem())
                .isEqualTo("is out of range");
        assertThat(refused(new Change("\"count\": 7", "\"count\": " + "[".repeat(36) + "]".repeat(36)).in(SOUND))
                        .problem())
                .isEqualTo("is not a whole number");
    }

    // Templates

    private static String overlaid(String engine) {
        return Trees.with(SOUND, "/engine", engine);
    }

    @Test
    void namesTheTemplatesThatAreMostLikeAnUnknownOne() {
        DocumentException refused = refused(overlaid("{ \"template\": \"screw-triple\" }"));

        assertThat(refused.pointer()).isEqualTo("/engine/template");
        assertThat(refused.value()).isEqualTo("screw-triple");
        assertThat(refused.problem()).isEqualTo("is not a template of the pack");
        assertThat(refused.expected())
                .isEqualTo("the id of one of its "
                        + SpecPack.bundled().ids().size()
                        + " templates; most like it: screw-single, screw-twin, diesel-two-screw");
        assertThat(refused.mend()).contains("lash pack list", "--folder DIR");
        assertThat(refused(overlaid("{ \"template\": \"generator-ohv-single-hot\" }"))
                        .expected())
                .contains("most like it: generator-ohv-single, ");
        assertThat(refused(overlaid("{ \"template\": \"sceww-twin\" }")).expected())
                .contains("most like it: screw-twin, ");
        assertThat(refused(overlaid("{ \"template\": \"zzz\" }")).expected()).endsWith(" templates");
        assertThat(refused(overlaid("{ \"template\": \"" + "screw-".repeat(20) + "\" }"))
                        .expected())
                .endsWith(" templates");
    }

    @Test
    void refusesAnEndOfTheConditionBeyondTheTemplatesOtherEnd() {
        DocumentException least =
                refused(overlaid("{ \"template\": \"screw-twin\", \"condition\": { \"minTemperature\": \"60 °C\" } }"));

        assertThat(least.pointer()).isEqualTo("/engine/condition/minTemperature");
        assertThat(least.problem()).matches("lies above the template's maxTemperature, \\d+ °C");
        assertThat(least.mend()).startsWith("give \"maxTemperature\" too");
        assertThat(refused(overlaid("{ \"template\": \"screw-twin\", \"condition\": { \"minTemperature\": \"60 °C\","
                                + " \"maxTemperature\": \"50 °C\" } }"))
                        .problem())
                .contains("is reversed");
    }

    @Test
    void refusesAWindowToSetToOutsideTheTemplatesWindow() {
        DocumentException refused =
                refused(overlaid("{ \"template\": \"screw-twin\", \"setTo\": { \"in\": \"0.01..0.90 mm\" } }"));

        assertThat(refused.pointer()).isEqualTo("/engine/setTo/in");
        assertThat(refused.value()).isEqualTo("0.01..0.90 mm");
        assertThat(refused.problem()).isEqualTo("is not inside the window to check against");
    }

    /** A decimal or a unit that slipped; the template's windows are a little over and under a tenth of a millimetre. */
    @ParameterizedTest
    @ValueSource(strings = {"0.8..1.2 mm", "0.008..0.012 mm", "0.08..0.12 in"})
    void refusesAWindowFarFromTheTemplatesUnlessItIsConfirmed(String window) {
        String engine = "{ \"template\": \"screw-twin\", \"clearances\": { \"in\": \"" + window + "\" }";
        DocumentException refused = refused(overlaid(engine + " }"));

        assertThat(refused.pointer()).isEqualTo("/engine/clearances/in");
        assertThat(refused.value()).isEqualTo(window);
        assertThat(refused.problem()).isEqualTo("is five times or more off the window of the template");
        assertThat(refused.mend()).contains("confirmedFrom");
        assertThat(READER.read("sheet", overlaid(engine + ", \"confirmedFrom\": \"workshop manual, p. 41\" }"))
                        .engine()
                        .findClearance(ValveRole.INTAKE)
                        .orElseThrow()
                        .check())
                .isEqualTo(ClearanceWindow.parse(window));
    }

    @Test
    void refusesAWindowToSetToWithoutOneToCheckAgainst() {
        String hydraulic = Trees.with(
                Trees.without(SOUND, INLINE + "/clearances"), INLINE + "/train", "{ \"kind\": \"hydraulic\" }");
        DocumentException refused = refused(hydraulic);

        assertThat(refused.pointer()).isEqualTo(INLINE + "/setTo/ex");
        assertThat(refused.problem()).isEqualTo("sets exhaust valves to a window without one to check against");
        assertThat(refused.expected()).isEqualTo("clearances for ex");
        assertThat(refused.mend()).isEqualTo("add the window to check against");
    }

    @ParameterizedTest
    @ValueSource(strings = {"cautions", "tools", "pitch", "notes"})
    void refusesWhatIsNoFigureOverATemplate(String field) {
        DocumentException refused = refused(overlaid("{ \"template\": \"screw-twin\", \"" + field + "\": \"x\" }"));

        assertThat(refused.pointer()).isEqualTo("/engine/" + field);
        assertThat(refused.problem()).isEqualTo("is an unknown field");
        assertThat(refused.expected())
                .isEqualTo(
                        "one of confirmedFrom, inline, template, train, firingOrder, firingIntervals, clearances, setTo, "
                                + "closerClearances, closerSetTo, condition, checkInterval, wearPrior, camTiming, decompressor, camshafts");
    }

    // Every value of a sheet in turn

    static Stream<String> pointers() {
        return Trees.pointers(Trees.tree(SOUND)).stream();
    }

    @ParameterizedTest
    @MethodSource("pointers")
    void refusesNullInPlaceOfAnyValue(String pointer) {
        DocumentException refused = refused(Trees.with(SOUND, pointer, "null"));

        assertThat(refused.pointer()).isEqualTo(pointer);
        assertThat(refused.value()).isEqualTo("null");
        assertThat(refused.problem())
                .isIn("is not a text", "is not an object", "is not a list", "is not a number", "is not a whole number");
    }

    @ParameterizedTest
    @MethodSource("pointers")
    void refusesAnotherKindInPlaceOfAnyValue(String pointer) {
        for (String other : List.of("true", "[[]]", "{ \"x\": \"y\" }", "-0.5", "\"\u20ac\"")) {
            String json = Trees.with(SOUND, pointer, other);
            boolean sameKind = Trees.tree(SOUND).at(pointer).getNodeType()
                    == Trees.tree(other).getNodeType();
            boolean freeText = sameKind && pointer.matches(".*/(title|confirmedFrom|machine|stop|type|cautions/0)");
            if (!freeText) {
                String place = refused(json).pointer();
                assertThat(place.startsWith(pointer) || place.equals(Trees.parent(pointer)))
                        .as("%s in place of %s, refused at %s", other, pointer, place)
                        .isTrue();
            } else {
                assertThat(READER.read("odd.json", json)).isNotNull();
            }
        }
    }

    @ParameterizedTest
    @MethodSource("pointers")
    void refusesAnUnknownFieldInAnyObject(String pointer) {
        if (Trees.tree(SOUND).at(pointer).isObject()) {
            DocumentException refused = refused(Trees.with(SOUND, pointer + "/madeUp", "\"x\""));

            assertThat(refused.pointer()).isEqualTo(pointer + "/madeUp");
            assertThat(refused.value()).isEqualTo("madeUp");
            assertThat(refused.problem()).isEqualTo("is an unknown field");
        }
    }

    private static final List<String> OPTIONAL = List.of(
            "firingIntervals",
            "firingOrder",
            "setTo",
            "condition",
            "minTemperature",
            "maxTemperature",
            "checkInterval",
            "camTiming",
            "margin",
            "cautions",
            "confirmedFrom",
            "machine",
            "date",
            "usage",
            "engineTemperature",
            "rule",
            "tolerance",
            "dragAllowance",
            "stack",
            "trials",
            "shim",
            "stop",
            "pad",
            "done",
            "recheck",
            "marked",
            "measured",
            "type",
            "shimBox",
            "history",
            "left");

    /** A field that is left out is either optional or missed in the object that lacks it. */
    @ParameterizedTest
    @MethodSource("pointers")
    void missesAnyFieldThatMustBeThere(String pointer) {
        if (pointer.isEmpty() || !Trees.tree(SOUND).at(Trees.parent(pointer)).isObject()) {
            return;
        }
        String json = Trees.without(SOUND, pointer);
        String name = pointer.substring(pointer.lastIndexOf('/') + 1);
        boolean optional =
                (OPTIONAL.contains(name) && !pointer.equals("/history/0/date")) || pointer.equals(INLINE + "/setTo/ex");
        if (optional) {
            assertThat(READER.read("shorter.json", json).valves()).hasSize(2);
        } else {
            // The windows of a role are missed by the engine, or by the window to set to.
            assertThat(refused(json).pointer())
                    .isIn(
                            pointer.startsWith(INLINE + "/clearances")
                                    ? List.of(INLINE, INLINE + "/clearances", INLINE + "/setTo/ex")
                                    : List.of(Trees.parent(pointer)));
        }
    }

    // Cut off

    /** A word that is cut short is no JSON, wherever the document ends. */
    private static final Pattern CUT_TRUE = Pattern.compile(": tr?u?$");

    @Test
    void refusesEveryProperPrefix() {
        for (String resource : List.of(Fixtures.FULL, Fixtures.OVERLAY, Fixtures.INCH)) {
            String whole = Fixtures.resource(resource).strip();
            for (int end = 1; end < whole.length(); end++) {
                DocumentException refused = refused(whole.substring(0, end));
                if (CUT_TRUE.matcher(whole.substring(0, end)).find()) {
                    assertThat(refused.problem()).startsWith("is not JSON: Unrecognized token 't");
                    continue;
                }
                assertThat(refused.problem())
                        .as("%s cut off after %d characters", resource, end)
                        .isEqualTo("the document ends too early");
                assertThat(refused.expected()).isEqualTo("closing quotation marks, brackets and braces");
                assertThat(refused.mend()).contains("the file was cut short");
            }
        }
    }

    @Test
    void refusesEveryProperPrefixOfTheBytes() {
        byte[] whole = BadInput.utf8(Fixtures.resource(Fixtures.FULL).strip());
        for (int end = 1; end < whole.length; end++) {
            if (CUT_TRUE.matcher(new String(whole, 0, end, StandardCharsets.UTF_8))
                    .find()) {
                continue;
            }
            assertThat(refused(Arrays.copyOf(whole, end)).problem())
                    .isIn("the document ends too early", "is not UTF-8");
        }
    }
}
