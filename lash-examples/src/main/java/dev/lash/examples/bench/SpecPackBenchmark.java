package dev.lash.examples.bench;

import dev.lash.specs.SpecPack;
import dev.lash.specs.Template;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Warmup;

/**
 * How long the first call takes in a fresh virtual machine, loading of classes included; "Speed" in DEVELOPERS.md says how to run it,
 * and what came out.
 */
@BenchmarkMode(Mode.SingleShotTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(20)
@Warmup(iterations = 0)
@Measurement(iterations = 1)
public class SpecPackBenchmark {
    /** Opens the bundled pack: reads its index. */
    @Benchmark
    public SpecPack index() {
        return SpecPack.bundled();
    }

    /** Opens it and reads one template. */
    @Benchmark
    public Template oneTemplate() {
        return SpecPack.bundled().get("screw-single");
    }

    /** Opens it and reads all templates, as a search does. */
    @Benchmark
    public List<Template> allTemplates() {
        return SpecPack.bundled().search(template -> true);
    }
}
