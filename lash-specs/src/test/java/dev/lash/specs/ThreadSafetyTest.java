package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.check.CheckReport;
import dev.lash.check.CheckSheet;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;

/** Many threads with one reader, one pack and one writer get what one thread gets. */
class ThreadSafetyTest {
    private static final int THREADS = 8;
    private static final int ROUNDS = 10;
    private static final List<String> SHEETS = List.of(
            Fixtures.resource(Fixtures.FULL), Fixtures.resource(Fixtures.OVERLAY), Fixtures.resource(Fixtures.INCH));

    private static String all(SheetReader reader, SpecPack pack, ReportWriter writer) {
        StringBuilder out = new StringBuilder();
        for (String json : SHEETS) {
            CheckSheet sheet = reader.read("sheet.json", json);
            out.append(writer.write(CheckReport.of(sheet))).append('\n');
            try {
                reader.read("cut.json", json.substring(0, json.length() / 2));
            } catch (DocumentException cut) {
                out.append(cut.getMessage()).append('\n');
            }
        }
        pack.ids().forEach(id -> out.append(pack.get(id)).append('\n'));
        return out.toString();
    }

    @Test
    void manyThreadsGetTheSame() throws InterruptedException, ExecutionException {
        SpecPack pack = SpecPack.bundled();
        SheetReader reader = new SheetReader(pack);
        ReportWriter writer = ReportWriter.oneLine();
        String expected = all(reader, pack, writer);
        CyclicBarrier start = new CyclicBarrier(THREADS);
        ExecutorService executor = Executors.newFixedThreadPool(THREADS);
        try {
            List<Future<List<String>>> results = new ArrayList<>();
            for (int i = 0; i < THREADS; i++) {
                results.add(executor.submit(() -> {
                    start.await();
                    List<String> got = new ArrayList<>();
                    for (int round = 0; round < ROUNDS; round++) {
                        got.add(all(reader, pack, writer));
                    }
                    return got;
                }));
            }
            for (Future<List<String>> result : results) {
                assertThat(result.get()).hasSize(ROUNDS).containsOnly(expected);
            }
        } finally {
            executor.shutdownNow();
        }
        assertThat(expected.lines().filter(line -> line.contains("the document ends too early")))
                .hasSize(SHEETS.size());
    }
}
