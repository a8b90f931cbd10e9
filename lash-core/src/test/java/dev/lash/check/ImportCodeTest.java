package dev.lash.check;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lash.measure.TextParseException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

class ImportCodeTest {
    /** What other programs keep and people write into files: none of it may ever change. */
    @Test
    void codesAreStable() {
        assertThat(Arrays.stream(ImportCode.values())
                        .map(c -> c + " " + c.severity() + (c.isConfirmable() ? " confirmable" : "")))
                .containsExactly(
                        "broken-row error",
                        "missing-value error",
                        "unparsable error",
                        "no-unit error",
                        "decimal-comma error",
                        "other-unit error confirmable",
                        "whole-hundredths error confirmable",
                        "contradiction error",
                        "unknown-machine error",
                        "unknown-valve error",
                        "duplicate note",
                        "duplicate-differs error",
                        "roles-swapped error confirmable",
                        "usage-backwards error",
                        "usage-jump error confirmable",
                        "usage-differs doubt confirmable",
                        "other-counter error",
                        "date-in-future error",
                        "date-out-of-order error",
                        "impossible-clearance error confirmable",
                        "no-clearance-in-this-train error",
                        "far-from-window doubt confirmable",
                        "leaf-not-owned doubt confirmable",
                        "engine-too-warm doubt confirmable",
                        "shim-not-in-range doubt confirmable",
                        "shim-not-as-recorded doubt confirmable",
                        "shim-arithmetic doubt confirmable",
                        "loosened doubt confirmable",
                        "valves-not-read note",
                        "before-memory error confirmable",
                        "earlier-visit note");
    }

    @Test
    void codesGoRound() {
        for (ImportCode code : ImportCode.values()) {
            assertThat(ImportCode.parse(code.toString())).isEqualTo(code);
        }
        assertThatThrownBy(() -> ImportCode.parse("OTHER_UNIT"))
                .isInstanceOf(TextParseException.class)
                .hasMessageContaining("other-unit");
    }

    /** Each kind is explained in full where an integrator looks for it. */
    @Test
    void eachIsExplained() throws IOException {
        String source = Files.readString(Path.of("src/main/java/dev/lash/check/ImportCode.java"));
        for (ImportCode code : ImportCode.values()) {
            Matcher words = Pattern.compile("/\\*\\*((?:(?!\\*/).)*)\\*/\\s+" + code.name() + "\\(", Pattern.DOTALL)
                    .matcher(source);
            assertThat(words.find()).as(code.code()).isTrue();
            String text = words.group(1)
                    .lines()
                    .map(line -> line.strip().replaceFirst("^\\* ?", ""))
                    .collect(Collectors.joining(" "));
            assertThat(text)
                    .as(code.code())
                    .containsPattern("Seen from: .{8,}Example: .{8,}Mend: .{7,}False alarms: .{4,}");
        }
    }
}
