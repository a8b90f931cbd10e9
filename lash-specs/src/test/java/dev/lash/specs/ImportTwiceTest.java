package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A file that is imported again over what was accepted of it adds nothing. */
class ImportTwiceTest {
    private static final int FILES = 300;

    /** The lines that a store holds after a file was imported over it. */
    private static List<String> imported(List<String> store, String... rows) throws IOException {
        Imports in = new Imports();
        in.session.known("store.jsonl", Imports.utf8(String.join("\n", store)));
        in.csv(rows);
        List<String> after = new ArrayList<>(store);
        in.accepted.forEach(reading -> after.add(ImportSession.line(reading)));
        return after;
    }

    @Test
    void aSwapThatTheVisitBeforeShowsIsSeenAlsoBesideALaterVisit() throws IOException {
        String[] rows = {
            "Hill bike 1;11.10.2024;1313;IN;0,13;0,15;", "Hill bike 1;11.10.2024;1313;EX;0,18;0,20;",
            "Hill bike 1;11.2.2025;4099;IN;0,18;0,20;", "Hill bike 1;11.2.2025;4099;EX;0,13;0,15;",
            "Hill bike 1;11.6.2025;6099;IN;0,18;0,20;", "Hill bike 1;11.6.2025;6099;EX;0,18;0,20;",
        };

        List<String> first = imported(List.of(), rows);

        assertThat(first).hasSize(4).noneMatch(line -> line.contains("2025-02-11"));
        assertThat(imported(first, rows)).isEqualTo(first);
    }

    @Test
    void whatStoodAgainstAVisitThatIsRejectedLaterComesIn() throws IOException {
        String[] rows = {
            "Hill bike 1;26.6.2026;8588;EX;0,18;0,20;",
            "Hill bike 1;19.10.2025;18256;IN;0,10;0,13;",
            "Hill bike 1;10.12.2024;8588;IN;0,10;0,13;",
            "Hill bike 1;30.3.2025;10011;IN;0,10;0,13;",
        };

        List<String> first = imported(List.of(), rows);

        assertThat(first).hasSize(3).anyMatch(line -> line.contains("2025-10-19"));
        assertThat(imported(first, rows)).isEqualTo(first);
    }

    /** A note on a row is not why a store does not fit. */
    @Test
    void aStoreThatDoesNotFitSaysTheError() {
        String line = """
                {"machine":"Hill bike 1","date":"%s","usage":"%s km","valve":"1-in-1","clearance":"(0.10, 0.13) mm"}
                """;
        String store = String.format(line, "2026-06-26", "8588")
                + String.format(line, "2024-12-10", "8600")
                + String.format(line, "2025-03-30", "10011");

        assertThatThrownBy(() -> new Imports().session.known("store.jsonl", Imports.utf8(store)))
                .isInstanceOf(DocumentException.class)
                .hasMessageContaining("store.jsonl, line 1, column 1, at /date")
                .hasMessageContaining("when the counter showed more");
    }

    /** Files of one machine, a twentieth of whose rows is wrong: day, counter, valve, clearance or a digit too many. */
    @ParameterizedTest
    @CsvSource({"in order, false", "in any order, true"})
    void filesWithFaultsAddNothingTheSecondTime(String order, boolean shuffled) throws IOException {
        int rejected = 0;
        for (int seed = 0; seed < FILES; seed++) {
            Random random = new Random(seed);
            List<String> rows = rows(random);
            if (shuffled) {
                Collections.shuffle(rows, random);
            }
            String[] file = rows.toArray(new String[0]);
            List<String> first = imported(List.of(), file);
            rejected += file.length - first.size();

            assertThat(imported(first, file)).as("seed %s, %s", seed, order).isEqualTo(first);
        }
        assertThat(rejected).isGreaterThan(FILES / 20);
    }

    private static List<String> rows(Random random) {
        List<String> rows = new ArrayList<>();
        LocalDate date = LocalDate.of(2024, 1, 1);
        int usage = 1000;
        int visits = 3 + random.nextInt(8);
        for (int i = 0; i < visits; i++) {
            date = date.plusDays(20 + random.nextInt(150));
            usage += 100 + random.nextInt(3000);
            boolean both = random.nextInt(5) > 0;
            if (both) {
                rows.add(row(random, date, usage, true));
            }
            rows.add(row(random, date, usage, false));
        }
        return rows;
    }

    private static String row(Random random, LocalDate date, int usage, boolean intake) {
        int fault = random.nextInt(20) == 0 ? random.nextInt(5) : -1;
        LocalDate day = fault == 0 ? date.plusDays(random.nextInt(1200) - 600) : date;
        int shown = fault == 1 ? Math.max(0, usage + random.nextInt(12_000) - 6000) : fault == 2 ? 10 * usage : usage;
        int goes = (intake != (fault == 3) ? 10 : 19) + random.nextInt(3) - 1 + (fault == 4 ? random.nextInt(20) : 0);
        return "Hill bike 1;" + day.getDayOfMonth() + "." + day.getMonthValue() + "." + day.getYear() + ";" + shown
                + ";" + (intake ? "IN" : "EX") + ";" + hundredths(goes) + ";" + hundredths(goes + 1) + ";";
    }

    private static String hundredths(int count) {
        return BigDecimal.valueOf(count, 2).toPlainString().replace('.', ',');
    }
}
