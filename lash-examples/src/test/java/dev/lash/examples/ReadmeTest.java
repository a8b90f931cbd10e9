package dev.lash.examples;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.examples.embed.CheckOneValve;
import dev.lash.examples.sim.ShopYear;
import dev.lash.specs.SheetReader;
import dev.lash.specs.SpecPack;
import dev.lash.specs.Versions;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** The README says what the code does. */
class ReadmeTest {
    private static final Path ROOT = Path.of("..");
    private static final Path EXAMPLE = Path.of("src/main/java/dev/lash/examples/embed/CheckOneValve.java");

    private static String readme() throws IOException {
        return Files.readString(ROOT.resolve("README.md"));
    }

    private static List<String> blocks(String language) throws IOException {
        Matcher matcher =
                Pattern.compile("```" + language + "\n(.*?)```", Pattern.DOTALL).matcher(readme());
        return matcher.results().map(r -> r.group(1)).toList();
    }

    @Test
    void codeBlockIsTheExample() throws IOException {
        assertThat(blocks("java")).containsExactly(Files.readString(EXAMPLE));
        assertThat(Files.readAllLines(EXAMPLE)).hasSizeLessThanOrEqualTo(25);
    }

    @Test
    void examplePrintsWhatTheReadmeSays() throws IOException {
        PrintStream standard = System.out;
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (PrintStream captured = new PrintStream(out, true, StandardCharsets.UTF_8)) {
            System.setOut(captured);
            CheckOneValve.main(new String[0]);
        } finally {
            System.setOut(standard);
        }
        assertThat(out.toString(StandardCharsets.UTF_8).strip()).isEqualTo("1-ex-1 tight: set-to-leaf");
        assertThat(readme()).contains("It prints `1-ex-1 tight: set-to-leaf`");
    }

    @Test
    void thereAreTwoCommands() throws IOException {
        assertThat(blocks("sh"))
                .containsExactly(
                        "mvn -q compile exec:java -Dexec.args=\"check lash-examples/sheets/practice-bike.json\"\n",
                        "mvn -B -ntp verify\n");
        assertThat(Files.readString(ROOT.resolve(".ci/run")))
                .contains(blocks("sh").get(1).strip());
    }

    @Test
    void outputShownIsTheOutput() throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        PrintStream stream = new PrintStream(out, true, StandardCharsets.UTF_8);
        Main.run(
                new String[] {"check", "sheets/practice-bike.json"},
                new Main.Bench(InputStream.nullInputStream(), stream, stream, false));
        assertThat(out.toString(StandardCharsets.UTF_8)).contains(blocks("text").get(0));
    }

    @Test
    void tableOfStrokesIsTheSimulations() throws IOException {
        assertThat(readme()).contains(ShopYear.table());
    }

    @Test
    void sheetShownCanBeRead() throws IOException {
        assertThat(new SheetReader(SpecPack.bundled())
                        .read("README", blocks("json").get(0))
                        .valves())
                .hasSize(2);
    }

    @Test
    void versionIsThisVersion() throws IOException {
        assertThat(readme())
                .contains("dev.lash:lash-core:" + Versions.library())
                .contains("dev.lash:lash-specs:" + Versions.library());
    }
}
