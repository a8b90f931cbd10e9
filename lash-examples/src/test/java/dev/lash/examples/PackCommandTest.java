package dev.lash.examples;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.engine.ValveTrain.ScrewPlace;
import dev.lash.engine.ValveTrain.ShimPlace;
import dev.lash.measure.LengthUnit;
import dev.lash.specs.PackCheck;
import dev.lash.specs.PackFinding;
import dev.lash.specs.SpecPack;
import dev.lash.specs.Template;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The commands for those who keep templates, run as the shell would. */
class PackCommandTest {
    private static final Path BUNDLED =
            Path.of("..", "lash-specs", "src", "main", "resources", "dev", "lash", "specs", "pack");
    private static final Path PREVIOUS =
            Path.of("..", "lash-specs", "src", "test", "resources", "dev", "lash", "specs", "pack-0.1.0");
    private static final String ID = "screw-single";

    @TempDir
    Path folder;

    private static ProgramRun pack(String... args) {
        return answered("", args);
    }

    private static ProgramRun answered(String input, String... args) {
        List<String> all = new ArrayList<>(List.of("pack"));
        all.addAll(Arrays.asList(args));
        ProgramRun run = ProgramRun.of(input, all.toArray(new String[0]));
        assertThat(run.out() + run.err())
                .doesNotContain("Exception", "\tat ", "fault in the program", "\u001b", "dev.lash");
        return run;
    }

    private static String template() throws IOException {
        return Files.readString(BUNDLED.resolve(ID + ".json"));
    }

    private Path written(String json) throws IOException {
        return Files.writeString(folder.resolve(ID + ".json"), json);
    }

    private static void isEightyWide(String text) {
        assertThat(text.lines())
                .allSatisfy(line -> assertThat(line.length()).as(line).isLessThanOrEqualTo(80))
                .noneMatch(line -> line.endsWith(" ") && !line.strip().equals(">"));
    }

    private static void isUnusable(ProgramRun run, String... said) {
        assertThat(run.code()).isEqualTo(2);
        assertThat(run.out()).isEmpty();
        assertThat(run.err()).startsWith("lash: ").contains(said);
    }

    // check

    @Test
    void nothingIsWrongWithTheBundledPack() {
        ProgramRun run = pack("check", BUNDLED.toString());

        assertThat(run)
                .isEqualTo(new ProgramRun(0, SpecPack.bundled().ids().size() + " templates: nothing is wrong.\n", ""));
    }

    @Test
    void aFolderWithoutTemplatesIsNotCalledRight() throws IOException {
        isUnusable(pack("check", folder.toString()), "there is no template in", folder.toString(), "lash pack new");
        Files.writeString(folder.resolve("pack.json"), "{ \"version\": \"1.0.0\" }");
        isUnusable(pack("check", folder.toString()), "there is no template in");
        Files.writeString(folder.resolve("broken.json"), "{");
        assertThat(pack("check", folder.toString()).out()).endsWith("\n1 template: 1 thing is wrong.\n");
    }

    @Test
    void checkListsAllThatIsWrong() throws IOException {
        written(template()
                .replace("\"pitch\": \"0.50 mm\"", "\"pitch\": \"0.55 mm\"")
                .replace("\"5000 km\"", "\"50 km\""));

        ProgramRun run = pack("check", folder.toString());

        assertThat(run.code()).isEqualTo(1);
        assertThat(run.err()).isEmpty();
        assertThat(run.out())
                .contains(ID + ".json, line 17, at /train/pitch\n  rule      pitch-standard\n")
                .contains("  problem   \"0.55 mm\" is not the pitch of a standard thread\n")
                .contains("  mend      check the thread\n")
                .contains("at /checkInterval\n")
                .contains("at /examples/1/adjustment/turn\n", "at /examples/2/adjustment/turn\n")
                .contains("  problem   \"28.8..36 deg\" is not what comes of the trials: 26.1..32.8 deg\n")
                .endsWith("\n1 template: 4 things are wrong.\n");
        isEightyWide(run.out());
    }

    @Test
    void checkListsAllThatKeepsAFileFromBeingRead() throws IOException {
        written(template()
                .replace("\"clearances\"", "\"clearence\"")
                .replace("\"0.50 mm\"", "0.50")
                .replace("\"5000 km\"", "\"5000\""));

        ProgramRun run = pack("check", folder.toString());

        assertThat(run.code()).isEqualTo(1);
        assertThat(run.out())
                .contains("at /train/pitch\n  rule      value-form\n  problem   \"0.50\" is a bare number\n")
                .contains("at /clearence\n  rule      field-known\n")
                .contains("did you mean \"clearances\"?")
                .contains("at /checkInterval\n")
                .endsWith("\n1 template: 3 things are wrong.\n");
        isEightyWide(run.out());
    }

    @Test
    void checkWritesTheCanonicalForm() throws IOException {
        Path file = written(template().replace("[1]", "[ 1 ]"));

        ProgramRun found = pack("check", folder.toString());
        assertThat(found.code()).isEqualTo(1);
        assertThat(found.out()).contains("lash pack check --write").endsWith("\n1 template: 1 thing is wrong.\n");

        ProgramRun mended = pack("check", "--write", folder.toString());
        assertThat(mended)
                .isEqualTo(new ProgramRun(0, "Written: " + ID + ".json\n1 template: nothing is wrong.\n", ""));
        assertThat(Files.readString(file)).isEqualTo(template());
    }

    @Test
    void whatIsNoFolderEndsWithTwo() throws IOException {
        Path file = written(template());
        for (String command : List.of("check", "compare")) {
            for (String name :
                    List.of(file.toString(), folder.resolve("missing").toString())) {
                ProgramRun run = command.equals("check") ? pack(command, name) : pack(command, name, name);
                isUnusable(run, name, "is not a folder", "check that this is the right folder");
                assertThat(run.err()).doesNotContain("line 1");
            }
        }
        assertThat(pack("check", "\0").code()).isEqualTo(2);
        assertThat(pack("check").code()).isEqualTo(2);
        assertThat(pack("compare", folder.toString()).code()).isEqualTo(2);
        assertThat(pack("polish").code()).isEqualTo(2);
    }

    @Test
    void namesItsCommands() {
        ProgramRun run = pack();

        assertThat(run.code()).isEqualTo(2);
        assertThat(run.err()).contains("check", "compare", "list", "show", "new");
        assertThat(pack("--help").code()).isZero();
        assertThat(pack("--help").out()).contains("check", "compare", "list", "show", "new", "Exit code");
        for (String command : List.of("check", "compare", "list", "show", "new")) {
            assertThat(pack(command, "--help").code()).isZero();
            isEightyWide(pack(command, "--help").out());
        }
    }

    // compare

    @Test
    void theBundledVersionIsHonest() {
        ProgramRun run = pack("compare", PREVIOUS.toString(), BUNDLED.toString());

        assertThat(run.code()).isZero();
        assertThat(run.err()).isEmpty();
        assertThat(run.out())
                .contains("minor  vtwin-90-bucket: (none) -> a template\n")
                .contains("Declared: 0.1.0 -> 0.2.0, which is honest.\n");
    }

    private Path version(String name, String version, String json) throws IOException {
        Path made = Files.createDirectory(folder.resolve(name));
        Files.writeString(made.resolve("pack.json"), "{ \"version\": \"" + version + "\" }");
        Files.writeString(made.resolve(ID + ".json"), json);
        return made;
    }

    /** The template as it would be in its second revision, whichever it has come to. */
    private static String secondRevision() throws IOException {
        return template().replaceFirst("\"revision\": \\d+", "\"revision\": 2");
    }

    @Test
    void compareTellsEachValueAndHoldsTheVersionToIt() throws IOException {
        String changed = secondRevision()
                .replace("\"0.08..0.13 mm\"", "\"0.08..0.12 mm\"")
                .replace("\"5000 km\"", "\"4000 km\"")
                .replace("\"revision\": 2", "\"revision\": 3");
        String old = version("old", "1.0.0", secondRevision()).toString();

        ProgramRun lies = pack("compare", old, version("lies", "1.1.0", changed).toString());
        ProgramRun honest =
                pack("compare", old, version("honest", "2.0.0", changed).toString());

        assertThat(lies.code()).isEqualTo(1);
        assertThat(lies.out()).isEqualTo("""
                minor  screw-single/checkInterval: 5000 km -> 4000 km
                major  screw-single/clearances/in: 0.08..0.13 mm -> 0.08..0.12 mm
                patch  screw-single/revision: 2 -> 3
                The changes need a major step of the version. Declared: 1.0.0 -> 1.1.0, which is NOT enough.
                """);
        assertThat(honest.code()).isZero();
        assertThat(honest.out()).endsWith(" major step of the version. Declared: 1.0.0 -> 2.0.0, which is honest.\n");
    }

    @Test
    void compareRefusesADeletedTemplateWhateverTheVersion() throws IOException {
        Path old = version("old", "1.0.0", template());
        Path now = version("new", "2.0.0", template());
        Files.delete(now.resolve(ID + ".json"));

        ProgramRun run = pack("compare", old.toString(), now.toString());

        assertThat(run.code()).isEqualTo(1);
        assertThat(run.out())
                .contains("major  screw-single: a template -> (gone)\n")
                .endsWith("""
                        screw-single.json, line 1
                          rule      never-deleted
                          problem   "screw-single" is gone
                          expected  every template of the old pack, for old sheets name it
                          mend      put it back; set its status to deprecated, or later to withdrawn
                        """);
    }

    @Test
    void compareWantsTheRevisionRaised() throws IOException {
        String changed = secondRevision().replace("\"0.08..0.13 mm\"", "\"0.08..0.12 mm\"");
        ProgramRun run = pack(
                "compare",
                version("old", "1.0.0", secondRevision()).toString(),
                version("new", "2.0.0", changed).toString());

        assertThat(run.code()).isEqualTo(1);
        assertThat(run.out()).contains("which is honest.\n").endsWith("""
                screw-single.json, line 5, at /revision
                  rule      revision-raised
                  problem   "2" was not raised, though more than words changed
                  expected  at least 3
                  mend      raise it, so that an old sheet shows which figures it was made with
                """);
    }

    @Test
    void compareWantsVersionsAndTemplatesThatCanBeRead() throws IOException {
        Path bare = Files.createDirectory(folder.resolve("bare"));
        ProgramRun none = pack("compare", bare.toString(), bare.toString());
        assertThat(none.code()).isEqualTo(1);
        assertThat(none.out())
                .isEqualTo(
                        "Nothing changed. Which version is the old one? Its pack.json does not say, or is missing.\n");

        Files.writeString(bare.resolve("broken.json"), "{");
        isUnusable(pack("compare", bare.toString(), bare.toString()), "broken.json", "where     line 1", "mend");
    }

    // list

    @Test
    void listFindsByFeatures() {
        ProgramRun all = pack("list");
        ProgramRun some =
                pack("list", "--train=bucket-shim-under", "--cylinders=2", "--cooling=liquid", "--use=motorcycle");

        assertThat(all.code()).isZero();
        assertThat(all.out())
                .contains("- " + ID + ": ")
                .endsWith("\n" + SpecPack.bundled().ids().size() + " templates\n");
        isEightyWide(all.out());
        assertThat(some.out()).contains("- vtwin-90-bucket: ").doesNotContain(ID);
        assertThat(pack("list", "--cylinders=17").out()).isEqualTo("0 templates\n");
    }

    @Test
    void listRefusesWhatThereIsNone() {
        isUnusable(pack("list", "--cooling=water"), "\"water\"", "air, oil, liquid");
        isUnusable(pack("list", "--use=boat"), "\"boat\"", "motorcycle, scooter");
        isUnusable(pack("list", "--train=screw"), "\"screw\"", "rocker-screw");
        for (String number : List.of("two", "0", "-1", "1.5", "100", "99999999999")) {
            isUnusable(
                    pack("list", "--cylinders=" + number),
                    "\"" + number + "\": is no number of cylinders; expected a whole number from 1, such as 2");
        }
    }

    @Test
    void aFolderIsLaidOverThePack() throws IOException {
        written(template().replace("\"5000 km\"", "\"4000 km\""));

        ProgramRun list = pack("list", "--folder", folder.toString());
        ProgramRun show = pack("show", ID, "--folder", folder.toString());

        assertThat(list.code()).isZero();
        assertThat(list.err())
                .isEqualTo(ID + " replaced by " + folder + "/" + ID + ".json: check interval was 5000 km\n");
        assertThat(show.out())
                .contains("4000 km", "the shop's own")
                .containsPattern("the shop's own,\\s+\\S*/" + ID + "\\.json")
                .doesNotContain("in the pack since");
        assertThat(pack("show", ID).out()).contains("in the pack since");
        assertThat(pack("show", ID).out()).contains("5000 km").doesNotContain("the shop's own");

        written("{");
        isUnusable(pack("list", "--folder", folder.toString()), ID + ".json", "the document ends too early");
        isUnusable(pack("show", ID, "--folder", folder.toString()), ID + ".json");
    }

    @Test
    void listWarnsOfAnotherEngineUnderAnIdOfThePack() throws IOException {
        written(template().replace("\"rocker-screw\"", "\"rocker-forked\""));

        assertThat(pack("list", "--folder", folder.toString()).err())
                .contains("warning, this is another engine (train rocker-forked, was rocker-screw)");
    }

    // show

    static Stream<String> ids() {
        return SpecPack.bundled().ids().stream();
    }

    @ParameterizedTest
    @MethodSource("ids")
    void showsADataSheetOfEveryTemplate(String id) {
        Template template = SpecPack.bundled().get(id);

        ProgramRun run = pack("show", id);

        assertThat(run.code()).isZero();
        assertThat(run.err()).isEmpty();
        isEightyWide(run.out());
        assertThat(run.out().replaceAll("\\s+", " "))
                .contains(template.spec().title(), id + ", revision " + template.revision() + ", active")
                .contains(template.spec().train().kind())
                .contains("typical value");
        String flowing = run.out().replaceAll("\\s+", " ");
        template.spec()
                .origins()
                .forEach((figure, origin) -> assertThat(flowing)
                        .as("every figure with the kind of its source")
                        .containsIgnoringCase(figure.words() + " " + origin.kind() + " "
                                + template.spec()
                                        .findFigure(figure, LengthUnit.MILLIMETRE)
                                        .orElseThrow()));
        assertThat(flowing).contains(template.features().uses());
        template.notes().forEach(note -> assertThat(flowing).contains(note));
        template.examples()
                .forEach(example -> assertThat(flowing).contains(example.note().replaceAll("\\.$", "")));
        template.sources().forEach((name, source) -> {
            assertThat(flowing)
                    .contains(source.title())
                    .contains(source.details().getOrDefault("edition", ""));
            template.provenance().forEach((figure, of) -> {
                if (of.equals(name)) {
                    assertThat(flowing).containsPattern("For: [^.]*" + figure.substring(1) + "[,.]");
                }
            });
        });
        if (template.examples().isEmpty()) {
            assertThat(run.out()).contains("Clearance work does not apply to hydraulic lifters.");
        } else {
            assertThat(run.out()).contains("Example 1-in-1", "an assumption");
        }
    }

    @Test
    void showTellsOfAPublicationWhatIsKnownAndWhatIsNot() {
        assertThat(pack("show", "flat-four-screw").out().replaceAll("\\s+", " "))
                .contains("(2009), the maker of the car, the one kept under the year 2009, page S103083A10");
        assertThat(pack("show", "follower-single").out().replaceAll("\\s+", " "))
                .contains("(2006), publisher not known, the one kept under the year 2006, page 4-10");
        assertThat(pack("show", "screw-single").out()).doesNotContain("not known,");
        assertThat(pack("show", "inline-four-eccentric").out().replaceAll("\\s+", " "))
                .contains("eccentric at ");
        assertThat(pack("show", "vtwin-90-bucket").out().replaceAll("\\s+", " "))
                .contains("Camshafts from memory one for each role in each bank: cylinders 1, 2")
                .contains("; shim ");
    }

    @Test
    void showSaysWhichTemplatesThereAre() {
        isUnusable(pack("show", "screw-singel"), "\"screw-singel\"", "is not in the pack", "lash pack list");
        assertThat(pack("show").code()).isEqualTo(2);
    }

    // new

    private static final String TWIN = """
            Parallel twin of the yard pump
            2
            1-2 (180, 540)
            1
            1
            rocker-screw
            0.75 mm
            square
            0.10..0.15 mm
            0.15..0.20 mm
            35 C

            6000 km
            air
            pump generator
            from-memory
            Air-cooled twins
            low: recalled, not checked
            (0.10, 0.11) mm
            within
            leave
            (0.09, 0.10) mm
            tight
            set-to-leaf
            0.12 mm
            (0.20, 0.21) mm
            loose
            set-to-leaf
            0.20 mm
            """;

    /** What was worked out of the trials that are offered, and that nothing was. */
    private static final String WORKED = TWIN.substring(TWIN.indexOf("(0.10, 0.11)"));

    private static final String NOTHING_WORKED = "\n\n\n";

    private static String unworked(String answers) {
        return answers.replace(WORKED, NOTHING_WORKED);
    }

    private Path file() {
        return folder.resolve("yard-pump.json");
    }

    private static String replaced(String line, String by) {
        assertThat("\n" + TWIN).contains("\n" + line + "\n");
        return ("\n" + TWIN).replace("\n" + line + "\n", "\n" + by + "\n").substring(1);
    }

    /** What the program said, without the answers. */
    private static String said(ProgramRun run) {
        return run.out().lines().filter(line -> !line.startsWith("> ")).collect(Collectors.joining("\n"));
    }

    private ProgramRun begun(String answers) {
        return answered(answers, "new", file().toString());
    }

    @Test
    void newWritesATemplateThatPassesTheCheck() throws IOException {
        ProgramRun run = begun(TWIN);

        assertThat(run.code()).isZero();
        assertThat(run.err()).isEmpty();
        assertThat(run.out()).contains("Written:").endsWith(file() + "\n");
        assertThat(PackCheck.of(folder)).isEmpty();
        Template template = SpecPack.bundled().withFolder(folder).get("yard-pump");
        assertThat(template.spec().title()).isEqualTo("Parallel twin of the yard pump");
        assertThat(template.spec().firingOrder()).hasToString("1-2 (180, 540)");
        assertThat(template.spec().valves()).hasToString("[1-in-1, 1-ex-1, 2-in-1, 2-ex-1]");
        assertThat(template.spec().checkInterval()).hasToString("Optional[6000 km]");
        assertThat(template.features()).isEqualTo(new Template.Features("air", List.of("pump", "generator")));
        assertThat(template.lifeCycle().addedIn()).isEqualTo(SpecPack.bundled().version());
        assertThat(template.examples()).hasSize(3);
        assertThat(template.sources().get("figures").title()).isEqualTo("Air-cooled twins");
        assertThat(pack("show", "yard-pump", "--folder", folder.toString()).code())
                .isZero();
    }

    @Test
    void newKeepsToEightyColumns() {
        isEightyWide(begun(TWIN).out().replace(file().toString(), "FILE"));
    }

    @Test
    void newWritesTheSameEachTime() throws IOException {
        begun(TWIN);
        String first = Files.readString(file());
        Files.delete(file());
        begun(TWIN);

        assertThat(Files.readString(file())).isEqualTo(first).contains("\"in\": \"0.10..0.15 mm\",\n    \"ex\"");
    }

    @Test
    void newLeavesOutExamplesThatNobodyConfirmed() throws IOException {
        ProgramRun run = begun(unworked(TWIN));

        assertThat(run.code()).isEqualTo(1);
        assertThat(run.out().replaceAll("\\s+", " "))
                .contains("Still to do: yard-pump.json, ")
                .contains("rule examples-enough: ")
                .contains("are too few: 0");
        assertThat(PackCheck.of(folder))
                .singleElement()
                .satisfies(f -> assertThat(f.pointer()).isEqualTo("/examples"));
    }

    static Stream<List<String>> badAnswers() {
        return Stream.of(
                List.of("2", "two", "expected a whole number from 1 to 18"),
                List.of("2", "19", "expected a whole number from 1 to 18"),
                List.of("1-2 (180, 540)", "1-1", "does not name each cylinder once"),
                List.of("1-2 (180, 540)", "1-2-3", "is for 3 cylinders"),
                List.of("1-2 (180, 540)", "1-2 (180, 180)", "do not fit the firing order"),
                List.of("rocker-screw", "screw", "expected rocker-screw, pushrod-screw"),
                List.of("0.75 mm", "0.75", "has no unit"),
                List.of("0.75 mm", "0.55 mm", "is not the pitch of a standard thread"),
                List.of("square", "round", "round"),
                List.of("0.10..0.15 mm", "0.15..0.10 mm", "is reversed"),
                List.of("0.10..0.15 mm", "0.004..0.006 mm", "inches or hundredths may have been taken"),
                List.of("0.10..0.15 mm", "0..0.10 mm", "begins at zero"),
                List.of("0.15..0.20 mm", "1.5..2.0 mm", "is no usual clearance"),
                List.of("35 C", "35", "35"),
                List.of("6000 km", "60 km", "is no usual interval of a rocker-screw train"),
                List.of("6000 km", "6000", "6000"),
                List.of("air", "water", "expected air, oil, liquid"),
                List.of("pump generator", "pump boat", "\"boat\""),
                List.of("from-memory", "hearsay", "expected common-practice, from-memory"),
                List.of("low: recalled, not checked", "low", "begins with low, fair or high"),
                List.of("low: recalled, not checked", "good: so", "begins with low, fair or high"));
    }

    @ParameterizedTest
    @MethodSource("badAnswers")
    void newExplainsABadAnswerAndAsksAgain(List<String> bad) throws IOException {
        begun(TWIN);
        String sound = Files.readString(file());
        Files.delete(file());

        ProgramRun run = begun(replaced(bad.get(0), bad.get(1) + "\n" + bad.get(0)));

        assertThat(run.code()).isZero();
        assertThat(run.out().replaceAll("\\s+", " ")).contains("Not usable: ").contains(bad.get(2));
        assertThat(Files.readString(file()))
                .as("the bad answer leaves no trace")
                .isEqualTo(sound);
    }

    @Test
    void newAsksAgainForWhatIsNeeded() {
        assertThat(begun("\n" + TWIN).out()).contains("This is needed.");
    }

    @Test
    void newAsksWhyAnExhaustIsTighter() throws IOException {
        ProgramRun run = begun(replaced("0.15..0.20 mm", "0.05..0.10 mm\nshort stem")
                .replace("(0.20, 0.21)", "(0.10, 0.11)")
                .replace("set-to-leaf\n0.20 mm", "set-to-leaf\n0.10 mm"));

        assertThat(run.code()).isZero();
        assertThat(run.out()).contains("The exhaust window is tighter than that of the intake.");
        assertThat(PackCheck.of(folder)).isEmpty();
        assertThat(SpecPack.bundled().withFolder(folder).get("yard-pump").notes())
                .contains("The exhaust window is tighter than that of the intake: short stem");

        Files.delete(file());
        begun(replaced("0.15..0.20 mm", "0.05..0.10 mm\n\n0.10..0.15 mm\n0.15..0.20 mm"));
        assertThat(SpecPack.bundled().withFolder(folder).get("yard-pump").notes())
                .hasSize(1);
    }

    static Stream<String> trains() {
        return Stream.of(
                "pushrod-screw\n1.4\n0.75 mm\n",
                "pushrod-threaded\n3/2\n1 mm\nhexagon",
                "stud-nut\n12\n1.5\n24 tpi\n",
                "tappet-screw\nn\n1 mm\n",
                "tappet-screw\ny\n0.05 mm",
                "rocker-forked\n0.75 mm\n",
                "bridge\n1 mm\nslot",
                "bucket-shim-over\n2.00..3.20 mm step 0.05 mm",
                "bucket-shim-under\n0.20..3.50 mm step 0.05 mm\n1.20..3.50 mm step 0.05 mm",
                "bucket-graded\n3.00..3.69 mm step 0.03 mm",
                "follower-shim\n20\n0.8\n1.20..2.90 mm step 0.025 mm",
                "eccentric\n1.5 mm\n2.3",
                "fixed");
    }

    @ParameterizedTest
    @MethodSource("trains")
    void newKnowsEveryTrain(String train) throws IOException {
        String answers = unworked(TWIN).replace("rocker-screw\n0.75 mm\nsquare\n", train + "\n");
        answers = answers.replace("6000 km", "12000 km");
        ProgramRun run = begun(answers);

        assertThat(run.code()).as(run.out()).isEqualTo(1);
        assertThat(PackCheck.of(folder))
                .as("all but the examples")
                .extracting(PackFinding::pointer)
                .containsExactly("/examples");
        assertThat(Files.readString(file()))
                .contains("\"train\": {\n    \"kind\": \"" + train.split("\n", -1)[0] + "\"");
        isEightyWide(run.out().replace(file().toString(), "FILE"));

        // a figure that must be looked up is not proposed, and each question has words of its own
        if (!said(run).contains("Not usable")) {
            assertThat(said(run).substring(0, said(run).indexOf("Worked examples")))
                    .doesNotContainPattern("[0-9] ?(mm|tpi|km|h|C|deg)\\b");
        }
        Files.delete(file());
        run = begun(answers.lines().map(line -> "?\n" + line + "\n").collect(Collectors.joining()));
        assertThat(run.code()).isEqualTo(1);
        assertThat(run.out()).doesNotContain("Enter what the source says.");
    }

    @Test
    void newShowsNobodyWhatComesOfTheTrials() throws IOException {
        ProgramRun run = begun(
                TWIN.replace("(0.10, 0.11) mm\nwithin\n", "0.10\n(0.10, 0.12) mm\n(0.10, 0.11) mm\ntight\nwithin\n")
                        .replace("set-to-leaf\n0.20 mm\n", "set-to-leaf\n0.17 mm\n0.20 mm\n"));

        assertThat(run.code()).isZero();
        assertThat(said(run).replaceAll("\\s+", " "))
                .contains("1-in-1: 0.10 mm goes, 0.11 mm refuses. At hand besides: the leaf 0.12 mm.")
                .contains("\"(0.10, 0.12) mm\": is not what lash makes of these trials")
                .contains("\"tight\": is not what lash makes of these trials")
                .contains("\"0.17 mm\": is not what lash makes of these trials")
                .doesNotContain("(0.10, 0.11)", "(0.09, 0.10)", "(0.20, 0.21)");
    }

    /** Where valves are checked often, the assumed wear is not spread over a usage that no check waits for. */
    @Test
    void newKeepsTheAssumedWearBroadWhereChecksAreCloseTogether() throws IOException {
        ProgramRun run = begun(replaced("6000 km", "30 h"));

        assertThat(run.code()).as(run.out()).isZero();
        assertThat(Files.readString(file())).contains("\"per\": \"150 h\"");
        Files.delete(file());
        begun(TWIN);
        assertThat(Files.readString(file())).contains("\"per\": \"10000 km\"");
    }

    @Test
    void newKnowsDesmodromicAndHydraulicTrains() throws IOException {
        String desmodromic = TWIN.replace(
                        "rocker-screw\n0.75 mm\nsquare\n",
                        "desmodromic\n1.80..4.50 mm step 0.05 mm\n4.50..8.00 mm step 0.05 mm\n")
                .replace("0.15..0.20 mm\n", "0.15..0.20 mm\n0.00..0.05 mm\n0.01..0.06 mm\n")
                .replace("set-to-leaf\n0.12 mm", "fit-shim\n3.10 mm")
                .replace("set-to-leaf\n0.20 mm", "fit-shim\n3.20 mm");
        assertThat(begun(desmodromic).code()).isZero();
        assertThat(answered(
                                "Lifters\n1\n1\n1\nhydraulic\nair\nmower\nshop\nOurs\nlow: one engine\n",
                                "new",
                                folder.resolve("lifters.json").toString())
                        .code())
                .isZero();

        assertThat(PackCheck.of(folder)).isEmpty();
        assertThat(Files.readString(file())).contains("\"closerClearances\": {\n    \"in\": \"0.00..0.05 mm\",");
    }

    @Test
    void newTakesAPublishedSource() throws IOException {
        ProgramRun run = begun(replaced("from-memory", "published")
                .replace("Air-cooled twins\n", "A \"book\" of \\ twins\n99\n1999\npage 3\nA press\n\n"));

        assertThat(run.code()).isZero();
        assertThat(run.out()).contains("is no year");
        assertThat(SpecPack.bundled()
                        .withFolder(folder)
                        .get("yard-pump")
                        .sources()
                        .get("figures"))
                .satisfies(source -> {
                    assertThat(source.title()).isEqualTo("A \"book\" of \\ twins");
                    assertThat(source.year()).isEqualTo(1999);
                    assertThat(source.details())
                            .containsEntry("locator", "page 3")
                            .containsEntry("publisher", "A press")
                            .doesNotContainKey("edition");
                });
    }

    /** A question mark at each question, and the template is the same; a q at each question, and there is none. */
    @Test
    void newExplainsItsQuestionsAndCanBeLeft() throws IOException {
        assertThat(begun(TWIN).code()).isZero();
        String plain = Files.readString(file());
        Files.delete(file());
        ProgramRun run = begun(TWIN.lines().map(line -> "?\n" + line + "\n").collect(Collectors.joining()));
        assertThat(run.code()).isZero();
        assertThat(Files.readString(file())).isEqualTo(plain);
        assertThat(run.out())
                .contains("stud-nut: a nut on the stud")
                .contains("They sum to 720.")
                .contains("from-memory: somebody remembers it")
                .contains("Nothing is proposed")
                .doesNotContain("Enter what the source says.");
        assertThat(run.out().lines()).allMatch(line -> line.length() <= 80);
        Files.delete(file());
        List<String> lines = TWIN.lines().toList();
        for (int answered = 0; answered < lines.size(); answered++) {
            run = begun(Stream.concat(lines.stream().limit(answered), Stream.of("q", "y", "y", "y"))
                            .collect(Collectors.joining("\n"))
                    + "\n");
            assertThat(run.code()).as("q after %s answers", answered).isEqualTo(2);
            assertThat(file()).doesNotExist();
        }
    }

    /** Every kind of train that can be asked for is explained. */
    @Test
    void newExplainsEveryTrain() {
        String told = String.join(" ", PackWords.HELP.get("Valve train"));
        assertThat(Stream.concat(
                        Arrays.stream(ScrewPlace.values()).map(ScrewPlace::kind),
                        Arrays.stream(ShimPlace.values()).map(ShimPlace::kind)))
                .allMatch(told::contains);
    }

    @Test
    void newWritesNothingWhenTheInputEnds() throws IOException {
        List<String> lines = TWIN.lines().toList();
        for (int answered = 0; answered < lines.size(); answered++) {
            ProgramRun run = begun(String.join("\n", lines.subList(0, answered)) + (answered == 0 ? "" : "\n"));

            assertThat(run.code()).as("after %s answers", answered).isEqualTo(2);
            assertThat(run.err()).isEqualTo("lash: left before all questions were answered: nothing was written\n");
            assertThat(file()).doesNotExist();
        }
        try (Stream<Path> left = Files.list(folder)) {
            assertThat(left).isEmpty();
        }
    }

    @Test
    void newOverwritesNothing() throws IOException {
        Files.writeString(file(), "mine");
        isUnusable(begun(TWIN), "is there already and is not overwritten");
        assertThat(Files.readString(file())).isEqualTo("mine");

        Path link = Files.createSymbolicLink(folder.resolve("link.json"), folder.resolve("nowhere.json"));
        isUnusable(answered(TWIN, "new", link.toString()), "is there already");
        assertThat(folder.resolve("nowhere.json")).doesNotExist();
    }

    @ParameterizedTest
    @ValueSource(strings = {"Yard.json", "yard pump.json", "yard.txt", "-a.json", "pack.json", "yard", ".json"})
    void newWantsAFileNamedAfterTheId(String name) {
        isUnusable(answered(TWIN, "new", "--", folder.resolve(name).toString()), "name the file after the id");
        assertThat(folder.resolve(name)).doesNotExist();
    }

    @Test
    void newWantsAFolderThatIsThere() {
        isUnusable(answered(TWIN, "new", folder.resolve("no").resolve("a.json").toString()), "the folder is not there");
        isUnusable(answered(TWIN, "new", "--added-in=1", file().toString()), "\"1\"", "is not a version");
        assertThat(answered(TWIN, "new", "--added-in=1.2.0", file().toString()).code())
                .isZero();
    }
}
