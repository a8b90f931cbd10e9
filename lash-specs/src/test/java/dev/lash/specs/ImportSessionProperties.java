package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.From;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;

class ImportSessionProperties {
    @Provide
    Arbitrary<String> text() {
        return Arbitraries.of(
                        "Hill bike 5",
                        "2.4.2031",
                        "9120",
                        "IN",
                        "EX",
                        "0,10",
                        "0,13",
                        ";",
                        ";",
                        ";",
                        "\n",
                        "\r\n",
                        "\"",
                        "\"\"",
                        " ",
                        "\0",
                        "\uFFFD",
                        "é",
                        "x")
                .list()
                .ofMaxSize(60)
                .map(parts -> String.join("", parts));
    }

    /** Rows that are written are read back, whatever their cells hold. */
    @Property
    void writtenRowsAreReadBack(@ForAll @Size(min = 1, max = 6) List<@Size(7) List<@From("cell") String>> rows) {
        List<String> lines = new ArrayList<>();
        rows.forEach(row -> lines.add(CsvText.line(row, ';')));
        Imports in = new Imports();
        in.csv((Imports.HEADER + "\n" + String.join("\n", lines)).getBytes(StandardCharsets.UTF_8));
        assertThat(in.codes()).doesNotContain("broken-row");
        assertThat(in.session.summary().read()).isEqualTo(rows.size());
        List<String> rejected = in.rejected.subList(1, in.rejected.size());
        assertThat(lines).containsAll(rejected);
    }

    @Provide
    Arbitrary<String> cell() {
        return Arbitraries.of("a", "b;c", "say \"so\"", "two\nlines", "two\r\nlines", " x ", "\r", "\"", "0,10");
    }

    /** Any text at all: every row is accounted for. */
    @Property
    void totalsAddUp(@ForAll("text") String rows) {
        Imports in = new Imports();
        in.csv((Imports.HEADER + "\n" + rows).getBytes(StandardCharsets.UTF_8));
        assertThat(in.session.summary().rejected()).isEqualTo(in.rejected.size() - 1L);
        assertThat(in.session.summary().accepted()).isEqualTo(in.accepted.size());
    }

    /** A broken row, wherever it stands, costs no other row. */
    @Property
    void aBrokenRowCostsNoOther(@ForAll @IntRange(max = 20) int at, @ForAll @IntRange(max = 3) int kind) {
        List<String> rows = new ArrayList<>();
        for (int i = 0; i < 20; i++) {
            rows.add("Hill bike " + i + ";2.4.2031;9120;IN;0,10;0,13;");
        }
        rows.add(at, List.of("\"", ";;\"open", "\"a\" b;", "\0").get(kind));
        Imports in = new Imports().csv(rows.toArray(new String[0]));
        assertThat(in.accepted).hasSize(20);
        assertThat(in.codes()).containsExactly("broken-row");
        assertThat(in.findings.stream()
                        .filter(f -> f.code().code().equals("broken-row"))
                        .findFirst()
                        .orElseThrow()
                        .row())
                .isEqualTo(at + 2L);
    }
}
