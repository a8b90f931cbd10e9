package dev.lash.gauge;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.RejectedValueException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.LongStream;

/**
 * Generic leaf sets as they are sold, without maker. Each says where its list of leaves comes from.
 *
 * <p>No standard's tolerance table could be read, so these sets carry no tolerance: it is the shop's own figure. As guidance, the
 * tolerance of a leaf is between {@link #LEAST_PUBLISHED_TOLERANCE} and {@link #LARGEST_PUBLISHED_TOLERANCE} by thickness class
 * (JIS B 7524:2008).
 */
public enum StandardGaugeSet {
    /** 13 leaves: 0.05 to 0.30 mm by 0.05, then to 1.00 mm by 0.10. */
    METRIC_13(
            "metric-13",
            "from memory",
            LengthUnit.MILLIMETRE,
            List.of(range(50, 300, 50), range(400, 1000, 100)),
            1000),
    /** 20 leaves: 0.05 to 1.00 mm by 0.05. */
    METRIC_20("metric-20", "from memory", LengthUnit.MILLIMETRE, List.of(range(50, 1000, 50)), 1000),
    /** The leaf grid of JIS B 7524:2008: 0.01 to 0.15 mm by 0.01, to 1.00 mm by 0.05, to 3.0 mm by 0.1; 52 leaves. */
    METRIC_GRID(
            "metric-grid",
            "JIS B 7524:2008, leaf grid",
            LengthUnit.MILLIMETRE,
            List.of(range(10, 150, 10), range(200, 1000, 50), range(1100, 3000, 100)),
            1000),
    /** 25 leaves: 0.0015 in, then 0.002 to 0.025 in by 0.001. */
    INCH_25("inch-25", "from memory", LengthUnit.INCH, List.of(new long[] {15}, range(20, 250, 10)), 2540);

    /** The smallest tolerance of a leaf in JIS B 7524:2008, 0.003 mm. */
    public static final Length LEAST_PUBLISHED_TOLERANCE = Length.ofMillimetres("0.003");

    /** The largest tolerance of a leaf in JIS B 7524:2008, 0.010 mm. */
    public static final Length LARGEST_PUBLISHED_TOLERANCE = Length.ofMillimetres("0.010");

    private static final int LOOSE_METRIC = 100;
    private static final int LOOSE_INCH = 40;

    private final String id;
    private final String source;

    @SuppressWarnings("ImmutableEnumChecker") // a gauge set is immutable, which the checker cannot know
    private final GaugeSet gauges;

    StandardGaugeSet(String id, String source, LengthUnit unit, List<long[]> marks, long nanometresPerMark) {
        this.id = id;
        this.source = source;
        List<Leaf> leaves = new ArrayList<>();
        for (long[] run : marks) {
            for (long mark : run) {
                leaves.add(new Leaf(Length.ofNanometres(mark * nanometresPerMark)));
            }
        }
        this.gauges = new GaugeSet(leaves, 1, Length.ZERO, Length.ZERO, unit);
    }

    private static long[] range(long from, long to, long step) {
        return LongStream.rangeClosed(0, (to - from) / step)
                .map(i -> from + i * step)
                .toArray();
    }

    /** {@return the short name, such as {@code "metric-13"}} */
    public String id() {
        return id;
    }

    /** {@return where the list of leaves comes from} */
    public String source() {
        return source;
    }

    /** {@return the set, for single leaves and without tolerance} */
    public GaugeSet gauges() {
        return gauges;
    }

    /**
     * Reads a short name.
     *
     * @param text the short name
     * @return the set
     * @throws RejectedValueException if there is no such set
     */
    public static StandardGaugeSet parse(String text) {
        requireNonNull(text, "text");
        return Arrays.stream(values())
                .filter(s -> s.id.equals(text))
                .findFirst()
                .orElseThrow(() -> new RejectedValueException(
                        "gauge set",
                        text,
                        "is not a standard set",
                        Arrays.stream(values()).map(StandardGaugeSet::id).collect(Collectors.joining(", ")),
                        "write one of these"));
    }

    /**
     * The leaves that can be had one by one: those of the standard sets of a system, and every hundredth of a millimetre to 1 mm,
     * or every thousandth of an inch to 0.040 in (common practice).
     *
     * @param unit a unit of the system
     * @return the leaves, thinnest first, each once
     */
    public static List<Leaf> looseLeaves(LengthUnit unit) {
        TreeSet<Leaf> all = new TreeSet<>();
        for (StandardGaugeSet set : values()) {
            if (set.gauges.unit().isInch() == unit.isInch()) {
                all.addAll(set.gauges.leaves());
            }
        }
        Length step = unit.isInch() ? Length.ofInches("0.001") : Length.ofMillimetres("0.01");
        for (int i = 1; i <= (unit.isInch() ? LOOSE_INCH : LOOSE_METRIC); i++) {
            all.add(new Leaf(step.times(i)));
        }
        return List.copyOf(all);
    }

    /** {@return {@link #id()}} */
    @Override
    public String toString() {
        return id;
    }
}
