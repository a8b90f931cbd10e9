package dev.lash.examples.bench;

import dev.lash.check.ImportFinding;
import dev.lash.check.RowOutcome.Fate;
import dev.lash.examples.sim.ImportCorpus;
import dev.lash.specs.ImportSession;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.infra.Blackhole;

/** The corpus of imports from memory: merely parsed with the CSV library, and parsed and validated. One call reads it all. */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
public class ImportBenchmark {
    private static final int MACHINES = 4000;

    private byte[] file = new byte[0];

    /** Makes the corpus and says how many rows it has. */
    @Setup
    public void make() {
        ImportCorpus corpus = new ImportCorpus(1, MACHINES, 0.01);
        file = corpus.text().getBytes(StandardCharsets.UTF_8);
        System.out.println(corpus.size() + " rows");
    }

    /**
     * Parses into texts and nothing else.
     *
     * @return how many cells hold something
     * @throws IOException never
     */
    @Benchmark
    public long parse() throws IOException {
        return ImportSpeed.cells(new ByteArrayInputStream(file));
    }

    /**
     * Parses and validates.
     *
     * @param sink takes what comes out
     * @return how many rows were accepted
     * @throws IOException never
     */
    @Benchmark
    public long parseAndValidate(Blackhole sink) throws IOException {
        ImportSession session = new ImportSession(ImportCorpus.validator(), sink::consume, rows -> {});
        session.csv("corpus", new ByteArrayInputStream(file), ImportCorpus.mapping(), new ImportSession.Output() {
            @Override
            public void header(String text) {
                sink.consume(text);
            }

            @Override
            public void rejected(long row, String text) {
                sink.consume(text);
            }

            @Override
            public void finding(ImportFinding finding, Fate fate) {
                sink.consume(finding);
            }
        });
        return session.summary().accepted();
    }
}
