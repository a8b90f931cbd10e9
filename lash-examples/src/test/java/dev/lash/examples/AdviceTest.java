package dev.lash.examples;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What the text report says of each train: in its own words, and no more than is known. */
class AdviceTest {
    private static final String LEAVES = "0.05 0.08 0.10 0.13 0.15 0.20";

    private static String sheet(String train, String leaves, String more, String... valves) {
        String owned = "\"" + String.join(" mm\", \"", leaves.split(" ", -1)) + " mm\"";
        return """
                { "format": "lash-sheet/1",
                  "engine": { "inline": { "id": "yard-pump", "title": "Yard pump", "cylinders": 1,
                    "valves": ["1-in-1", "1-in-2", "1-in-3", "1-ex-1"], "train": %s,
                    "clearances": { "in": "0.10..0.15 mm", "ex": "0.10..0.15 mm" } } },
                  "gauges": { "leaves": [%s] }, %s
                  "valves": [ %s ] }
                """.formatted(train, owned, more, String.join(",", valves)).replace('\'', '"');
    }

    private static String valve(String name, String trials, String more) {
        StringBuilder out = new StringBuilder("{ 'valve': '" + name + "', 'trials': [");
        String mark = "";
        for (String trial : trials.split(", ", -1)) {
            String[] words = trial.split(" ", -1);
            out.append(mark + "{ 'leaf': '" + words[0] + " mm', 'fit': '" + words[1] + "' }");
            mark = ", ";
        }
        return out + "]" + more + " }";
    }

    /** The last column of the report and what stands below the table, with all white space as one blank. */
    private static String advice(String sheet, String... options) {
        String[] args = new String[options.length + 2];
        args[0] = "check";
        System.arraycopy(options, 0, args, 1, options.length);
        args[args.length - 1] = "-";
        ProgramRun run = ProgramRun.of(sheet, args);
        assertThat(run.err()).isEmpty();
        String head = run.out()
                .lines()
                .filter(line -> line.startsWith("Valve "))
                .findFirst()
                .orElseThrow();
        int at = head.indexOf("What to do");
        StringBuilder column = new StringBuilder();
        run.out()
                .lines()
                .dropWhile(line -> !line.equals(head))
                .skip(1)
                .takeWhile(line -> !line.isEmpty())
                .map(line -> line.length() > at ? line.substring(at) : "")
                .forEach(line -> column.append(' ').append(line));
        String legend =
                run.out().substring(run.out().indexOf("Lengths in"), run.out().indexOf("Findings"));
        return (column + " | " + legend).replaceAll("\\s+", " ");
    }

    @Test
    void anEccentricIsTurnedToAnAngleAndHasNoScrew() {
        String train = "{ 'kind': 'eccentric', 'eccentricity': '0.5 mm', 'multiplier': '2.5' }";
        String text = advice(sheet(
                train,
                LEAVES,
                "",
                valve("1-in-1", "0.08 drags", ", 'eccentricAngle': '180 deg'"),
                valve("1-in-2", "0.08 drags", "")));
        // 0.05 of 1.25 mm: arcsin 0.04 = 2.292...
        assertThat(text)
                .contains("towards larger angles, to 182.2 to 182.3", "; or 177.7 to 177.8 degrees towards")
                .contains("the clearance is largest at 270 degrees")
                .doesNotContain("screw", "anticlockwise", "-2.");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            {'kind':'rocker-screw','pitch':'1 mm'}                   | screw out 18 degrees         | screw in 43.2 degrees
            {'kind':'tappet-screw','pitch':'1 mm'}                   | tappet screw in 18 degrees   | tappet screw out 43.2 degrees
            {'kind':'stud-nut','pitch':'1 mm','ratio':'1'}           | nut up the stud 9 degrees    | nut down the stud 21.6 degrees
            {'kind':'pushrod-threaded','pitch':'1 mm','ratio':'1'}   | pushrod shorter 18 degrees   | pushrod longer 43.2 degrees
            """, quoteCharacter = '`')
    void eachAdjusterGoesItsOwnWay(String train, String grows, String shrinks) {
        // 0.08 and 0.25 to the leaf of 0.13
        String text = advice(sheet(
                train, "0.08 0.13 0.25", "", valve("1-in-1", "0.08 drags", ""), valve("1-in-2", "0.25 drags", "")));
        assertThat(text).contains("set to leaf 0.13, " + grows).contains("set to leaf 0.13, " + shrinks);
        assertThat(text).contains("The clearance grows: ");
    }

    /** The flats go the way of the degrees beside them: a hand counts forwards, whichever way the screw goes. */
    @Test
    void flatsAreCountedTheWayTheScrewGoes() {
        String text = advice(sheet(
                "{ 'kind': 'rocker-screw', 'pitch': '0.5 mm', 'head': 'square' }",
                "0.05 0.08 0.17 0.20",
                "",
                valve("1-in-1", "0.05 goes, 0.08 refuses", ""),
                valve("1-in-2", "0.17 goes, 0.20 refuses", "")));

        // to 0.1375 mm: 0.0575 to 0.0875 mm up, 0.0325 to 0.0625 mm down; 0.5 mm a turn, 90 degrees a flat
        assertThat(text)
                .contains("screw out 41.4 to 63 degrees (0.46 to 0.7 flats)")
                .contains("screw in 23.4 to 45 degrees (0.26 to 0.5 flats)")
                .doesNotContain("(-");
    }

    @Test
    void aWedgeScrewGoesByWholeTurns() {
        String text = advice(sheet(
                "{ 'kind': 'tappet-screw', 'step': '0.02 mm' }",
                LEAVES,
                "",
                valve("1-in-1", "0.05 goes, 0.08 refuses", ""),
                valve("1-in-2", "0.20 drags", ""),
                valve("1-in-3", "0.08 drags", "")));
        // (0.05, 0.08): 3 turns only; 0.20: 3 to 5 back; 0.08: 1 to 3
        assertThat(text)
                .contains("wedge screw 3 whole turns so that the clearance grows; whole turns only; recheck")
                .contains("so that the clearance shrinks (certain: 3 to 5); whole turns only")
                .contains("so that the clearance grows (certain: 1 to 3); whole turns only")
                .doesNotContain("no owned leaf", "degrees", "lock");
    }

    @Test
    void theLockNutsShiftIsSaidToAThousandth() {
        String reading = ", 'done': { 'setWith': '0.10 mm' }, 'recheck': [{ 'leaf': '0.12 mm', 'fit': 'drags' }]";
        String text = advice(sheet(
                "{ 'kind': 'rocker-screw', 'pitch': '0.75 mm' }",
                "0.05 0.07 0.08 0.09 0.10 0.11 0.12",
                "",
                valve("1-in-1", "0.05 drags", reading),
                valve("1-in-2", "0.05 drags", reading),
                valve("1-ex-1", "0.05 drags", reading.replace("0.12", "0.11")),
                valve("1-in-3", "0.05 goes, 0.07 refuses", "")));
        // 0.05 in all over 3 + 0.25
        assertThat(text).contains("(the nut is likely to add 0.015 mm); lock; the recheck decides");
        assertThat(text).doesNotContain("0.0153");
    }

    @Test
    void oneShimForSeveralValvesIsSaid() {
        String train = "{ 'kind': 'bucket-shim-over', 'shims': '2.00..3.00 mm step 0.05 mm' }";
        String box = "'shimBox': [{ 'size': '2.40 mm', 'count': 1 }],";
        String shim = ", 'shim': '2.45 mm'";
        String want = "0.05 goes, 0.10 refuses";
        assertThat(advice(sheet(train, LEAVES, box, valve("1-in-1", want, shim))))
                .contains("fit shim 2.40 mm (box has 1), gives");
        assertThat(advice(sheet(
                        train,
                        LEAVES,
                        box,
                        valve("1-in-1", want, shim),
                        valve("1-in-2", want, shim),
                        valve("1-ex-1", want, shim))))
                .contains("fit shim 2.40 mm (box has 1, 3 valves want one: \"lash shims\" says which gets it), gives");
        String fitted = shim + ", 'done': { 'fitted': '2.40 mm' }, 'recheck': [{ 'leaf': '0.13 mm', 'fit': 'drags' }]";
        assertThat(advice(sheet(train, LEAVES, box, valve("1-in-1", want, fitted), valve("1-in-2", want, shim))))
                .as("as found it was there, now it is not")
                .containsSubsequence("fit shim 2.40 mm (box has 1), gives", "fit shim 2.40 mm (not in the box), gives");
    }

    @Test
    void theShopsRoundingIsShownBeside() {
        String sheet = sheet(
                "{ 'kind': 'bucket-shim-over', 'shims': '2.00..3.00 mm step 0.05 mm' }",
                LEAVES,
                "",
                valve("1-in-1", "0.05 goes, 0.10 refuses", ", 'shim': '2.45 mm'"));
        assertThat(advice(sheet)).doesNotContain("rounding");
        // 2.45 + 0.075 - 0.125 = 2.40; - 0.15 = 2.375, which the habit takes to 2.35
        assertThat(advice(sheet, "--rounding=nearest"))
                .contains(
                        "fit shim 2.40 mm",
                        "by the shop's rounding (nearest) 2.40 mm from 2.40 mm, gives (0.10, 0.15)");
        assertThat(advice(sheet, "--rounding=next-below", "--specified=1"))
                .contains("fit shim 2.40 mm", "(next-below) 2.35 mm from 2.375 mm, gives (0.15, 0.20), not certain");
    }

    @ParameterizedTest
    @CsvSource({"--rounding=nearer, nearest", "--specified=1.5, 0 to 1", "--specified=half, 0 to 1"})
    void anOptionThatIsNoneIsExplained(String option, String expected) {
        ProgramRun run = ProgramRun.of("", "check", option, "-");
        assertThat(run.code()).isEqualTo(Main.UNUSABLE);
        assertThat(run.err()).contains(expected).doesNotContain("Exception");
    }
}
