package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;

import com.code_intelligence.jazzer.junit.FuzzTest;
import dev.lash.check.CheckSheet;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;

/** Whatever the bytes, a reader ends, says only what is documented, and its totals add up. */
class ImportFuzzTest {
    private static byte[] withHeader(byte[] rows) {
        byte[] header = (Imports.HEADER + "\n").getBytes(StandardCharsets.UTF_8);
        byte[] file = Arrays.copyOf(header, header.length + rows.length);
        System.arraycopy(rows, 0, file, header.length, rows.length);
        return file;
    }

    @FuzzTest
    void delimitedText(byte[] data) {
        for (byte[] file : List.of(data, withHeader(data))) {
            Imports in = new Imports();
            try {
                in.csv(file);
            } catch (DocumentException documented) {
                assertThat(documented.source()).isEqualTo("file.csv");
                continue;
            }
            addsUp(in);
        }
    }

    @FuzzTest
    void jsonLines(byte[] data) {
        Imports in = new Imports();
        try {
            in.jsonLines(data);
        } catch (DocumentException documented) {
            assertThat(documented.source()).isEqualTo("file.jsonl");
            return;
        }
        addsUp(in);
    }

    @FuzzTest
    void sheets(byte[] data) throws IOException {
        Imports in = new Imports();
        try {
            CheckSheet sheet =
                    new SheetReader(SpecPack.bundled()).read("sheet", new java.io.ByteArrayInputStream(data));
            in.session.sheet(sheet, in);
        } catch (DocumentException documented) {
            in.session.brokenSheet(data, documented, in);
        }
        addsUp(in);
    }

    @FuzzTest
    void mappings(byte[] data) {
        try {
            ImportMapping.read("mapping", new String(data, StandardCharsets.UTF_8));
        } catch (DocumentException documented) {
            assertThat(documented.source()).isEqualTo("mapping");
        }
    }

    @FuzzTest
    void profiles(byte[] data) {
        try {
            ProfileReader.read("profile", new String(data, StandardCharsets.UTF_8));
        } catch (DocumentException documented) {
            assertThat(documented.source()).isEqualTo("profile");
        }
    }

    private static void addsUp(Imports in) {
        ImportSummary summary = in.session.summary();
        assertThat(summary.accepted()).isEqualTo(in.accepted.size());
        assertThat(summary.json()).isNotEmpty();
        in.accepted.forEach(reading -> assertThat(ImportSession.line(reading)).startsWith("{"));
    }
}
