package dev.lash.testing;

import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.FiringOrder;
import dev.lash.engine.Pitch;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.gauge.Fit;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.Trial;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import dev.lash.measure.Temperature;
import dev.lash.measure.Usage;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.Provide;
import net.jqwik.api.Tuple;
import net.jqwik.api.domains.DomainContextBase;

/**
 * Random values for properties, one place for all of them, with the edges of each range forced.
 *
 * <p>Annotate a class of properties with {@code @Domain(Generators.Trade.class)} (and {@code
 * @Domain(DomainContext.Global.class)} where it also wants numbers and strings) to write {@code @ForAll Length x}; call the
 * methods here where a property needs a narrower range.
 */
public final class Generators {
    private static final long LARGEST = 1_000_000_000L;

    private Generators() {}

    /** One generator for each type. */
    public static final class Trade extends DomainContextBase {
        @Provide
        Arbitrary<Length> length() {
            return lengths();
        }

        @Provide
        Arbitrary<LengthUnit> lengthUnit() {
            return Arbitraries.of(LengthUnit.class);
        }

        @Provide
        Arbitrary<LengthInterval> interval() {
            return intervals();
        }

        @Provide
        Arbitrary<Ratio> ratio() {
            return ratios();
        }

        @Provide
        Arbitrary<Usage> usage() {
            return usages();
        }

        @Provide
        Arbitrary<Temperature> temperature() {
            return temperatures();
        }

        @Provide
        Arbitrary<Leaf> leaf() {
            return leaves();
        }

        @Provide
        Arbitrary<LeafStack> stack() {
            return stacks();
        }

        @Provide
        Arbitrary<Fit> fit() {
            return Arbitraries.of(Fit.class);
        }

        @Provide
        Arbitrary<Trial> trial() {
            return trials();
        }

        @Provide
        Arbitrary<ReadingRule> rule() {
            return rules();
        }

        @Provide
        Arbitrary<GaugeSet> gauges() {
            return gaugeSets();
        }

        @Provide
        Arbitrary<ValveId> valve() {
            return valveIds();
        }

        @Provide
        Arbitrary<ClearanceWindow> window() {
            return windows();
        }

        @Provide
        Arbitrary<Pitch> pitch() {
            return pitches();
        }

        @Provide
        Arbitrary<ShimRange> shimRange() {
            return shimRanges();
        }

        @Provide
        Arbitrary<FiringOrder> firingOrder() {
            return firingOrders();
        }
    }

    /** The same generator with these edges and no others: those of combined generators soon are too many. */
    @SafeVarargs
    @SuppressWarnings("varargs") // only handed on, never written to
    private static <T> Arbitrary<T> edges(Arbitrary<T> arbitrary, T... edges) {
        return arbitrary.edgeCases(config -> {
            config.filter(combined -> false);
            config.add(edges);
        });
    }

    // Lengths

    /** Lengths of the whole range, with its ends, zero and their neighbours. */
    public static Arbitrary<Length> lengths() {
        return nanometres(-LARGEST, LARGEST);
    }

    /** Lengths from {@code low} to {@code high} nanometres, with the ends, zero and their neighbours. */
    public static Arbitrary<Length> nanometres(long low, long high) {
        Length[] edges = LongStream.of(low, low + 1, -1, 0, 1, high - 1, high)
                .filter(edge -> edge >= low && edge <= high)
                .distinct()
                .mapToObj(Length::ofNanometres)
                .toArray(Length[]::new);
        return edges(Arbitraries.longs().between(low, high).map(Length::ofNanometres), edges);
    }

    /** Lengths that a shop writes: whole hundredths of a millimetre or thousandths of an inch, 0 to 1 mm. */
    public static Arbitrary<Length> marks() {
        Arbitrary<Length> metric =
                Arbitraries.integers().between(0, 100).map(hundredths -> Length.ofNanometres(hundredths * 10_000L));
        Arbitrary<Length> inch = Arbitraries.integers().between(0, 40).map(thou -> Length.ofNanometres(thou * 25_400L));
        return edges(
                Arbitraries.frequencyOf(Tuple.of(3, metric), Tuple.of(1, inch)),
                Length.ofMillimetres("0.01"),
                Length.ofInches("0.001"),
                Length.ofMillimetres("1"));
    }

    /** Intervals of every kind of ends, of the whole range and of a few close lengths, so that ends often meet. */
    public static Arbitrary<LengthInterval> intervals() {
        return edges(
                Arbitraries.frequencyOf(
                        Tuple.of(1, intervals(lengths())),
                        Tuple.of(2, intervals(marks())),
                        Tuple.of(2, intervals(few()))),
                LengthInterval.any(),
                LengthInterval.point(Length.ZERO),
                LengthInterval.above(Length.ZERO),
                LengthInterval.atLeast(Length.ZERO),
                LengthInterval.below(Length.ZERO),
                LengthInterval.atMost(Length.ZERO),
                LengthInterval.closed(Length.ofNanometres(-LARGEST), Length.ofNanometres(LARGEST)));
    }

    private static Arbitrary<Length> few() {
        return Arbitraries.longs().between(-3, 3).map(i -> Length.ofNanometres(2 * i));
    }

    /** Intervals of every kind of ends: open, closed, missing, and points. */
    public static Arbitrary<LengthInterval> intervals(Arbitrary<Length> ends) {
        Arbitrary<LengthInterval> bounded = Combinators.combine(
                        ends, ends, Arbitraries.of(true, false), Arbitraries.of(true, false))
                .as((a, b, lowerIncluded, upperIncluded) -> a.equals(b)
                        ? LengthInterval.point(a)
                        : LengthInterval.of(Length.min(a, b), lowerIncluded, Length.max(a, b), upperIncluded));
        return edges(
                Arbitraries.frequencyOf(
                        Tuple.of(5, bounded),
                        Tuple.of(1, ends.map(LengthInterval::point)),
                        Tuple.of(1, ends.map(LengthInterval::above)),
                        Tuple.of(1, ends.map(LengthInterval::atLeast)),
                        Tuple.of(1, ends.map(LengthInterval::below)),
                        Tuple.of(1, ends.map(LengthInterval::atMost)),
                        Tuple.of(1, Arbitraries.just(LengthInterval.any()))),
                LengthInterval.any());
    }

    // Other measures

    /** Fractions, small and large, some without a finite decimal form. */
    public static Arbitrary<Ratio> ratios() {
        Arbitrary<Ratio> small = Combinators.combine(
                        Arbitraries.longs().between(-1000, 1000),
                        Arbitraries.longs().between(1, 200))
                .as(Ratio::of);
        Arbitrary<Ratio> large = Combinators.combine(
                        Arbitraries.longs(), Arbitraries.longs().filter(below -> below != 0))
                .as(Ratio::of);
        Arbitrary<Ratio> decimal = decimals(-1_000_000, 1_000_000, 6).map(Ratio::of);
        return edges(
                Arbitraries.frequencyOf(Tuple.of(3, small), Tuple.of(1, large), Tuple.of(1, decimal)),
                Ratio.ZERO,
                Ratio.ONE,
                Ratio.of(-1, 3),
                Ratio.of(Long.MIN_VALUE, Long.MAX_VALUE),
                Ratio.of(1, Long.MIN_VALUE));
    }

    /** Fractions from {@code low} to {@code high}, both whole numbers, ends forced. */
    public static Arbitrary<Ratio> ratios(int low, int high) {
        return Arbitraries.integers()
                .between(1, 120)
                .flatMap(below -> Arbitraries.longs()
                        .between((long) low * below, (long) high * below)
                        .map(above -> Ratio.of(above, below)));
    }

    private static Arbitrary<BigDecimal> decimals(long low, long high, int decimals) {
        return Arbitraries.bigDecimals()
                .between(BigDecimal.valueOf(low), BigDecimal.valueOf(high))
                .ofScale(decimals);
    }

    /** Usages in all units, with the ends of the range. */
    public static Arbitrary<Usage> usages() {
        return Combinators.combine(
                        Arbitraries.oneOf(
                                decimals(0, 100_000_000, 1),
                                decimals(0, 10, 6),
                                Arbitraries.integers().between(0, 100_000).map(BigDecimal::valueOf)),
                        Arbitraries.of(Usage.Unit.class))
                .as(Usage::of);
    }

    /** Temperatures on both scales, with the ends of the range. */
    public static Arbitrary<Temperature> temperatures() {
        return Arbitraries.oneOf(
                Arbitraries.integers().between(-100, 1000).map(Temperature::ofCelsius),
                decimals(-100, 1000, 2).map(d -> Temperature.parse(d.toPlainString() + " °C")),
                decimals(-148, 1832, 2).map(d -> Temperature.parse(d.toPlainString() + " °F")));
    }

    // Gauges

    /** Leaves: whole hundredths or thousandths of an inch mostly, and anything up to 5 mm. */
    public static Arbitrary<Leaf> leaves() {
        return Arbitraries.frequencyOf(
                        Tuple.of(4, marks().filter(mark -> mark.signum() > 0)), Tuple.of(1, nanometres(1, 5_000_000)))
                .map(Leaf::new);
    }

    /** Stacks of one to three leaves. */
    public static Arbitrary<LeafStack> stacks() {
        return stacks(leaves());
    }

    /** Stacks of one to three of the given leaves. */
    public static Arbitrary<LeafStack> stacks(Arbitrary<Leaf> leaves) {
        return leaves.list().ofMinSize(1).ofMaxSize(LeafStack.MOST_LEAVES).map(LeafStack::new);
    }

    /** Trials of leaves and stacks. */
    public static Arbitrary<Trial> trials() {
        return trials(Arbitraries.frequencyOf(Tuple.of(3, leaves().map(LeafStack::of)), Tuple.of(1, stacks())));
    }

    /** Trials of the given stacks. */
    public static Arbitrary<Trial> trials(Arbitrary<LeafStack> stacks) {
        return edges(Combinators.combine(stacks, Arbitraries.of(Fit.class)).as(Trial::new));
    }

    /**
     * Trials of one gap as a hand would make them: each leaf goes when it is thinner than the clearance and does not when it
     * is thicker, and drags when it is within a hundredth of a millimetre of it.
     */
    public static Arbitrary<List<Trial>> honestTrials() {
        Arbitrary<Length> clearance = nanometres(0, 600_000);
        Arbitrary<List<Leaf>> leaves =
                marks().filter(mark -> mark.signum() > 0).map(Leaf::new).list().ofMaxSize(6);
        return Combinators.combine(clearance, leaves, Arbitraries.of(Fit.FORCED, Fit.REFUSES))
                .as((c, tried, noGo) ->
                        tried.stream().map(leaf -> honest(leaf, c, noGo)).toList());
    }

    private static Trial honest(Leaf leaf, Length clearance, Fit noGo) {
        Length room = clearance.minus(leaf.thickness());
        if (room.abs().isLessThan(Length.ofMillimetres("0.01"))) {
            return Trial.of(leaf, Fit.DRAGS);
        }
        return Trial.of(leaf, room.signum() > 0 ? Fit.GOES : noGo);
    }

    /** Simple and guarded rules, zero and the largest figures among the latter. */
    public static Arbitrary<ReadingRule> rules() {
        return Arbitraries.frequencyOf(
                Tuple.of(1, Arbitraries.just(ReadingRule.simple())), Tuple.of(2, guardedRules()));
    }

    /** Guarded rules, zero and the largest figures among them. */
    public static Arbitrary<ReadingRule> guardedRules() {
        Arbitrary<Length> figures = Arbitraries.oneOf(
                Arbitraries.integers().between(0, 10).map(i -> Length.ofNanometres(i * 1_000L)),
                nanometres(0, 100_000));
        Length most = Length.ofNanometres(100_000);
        return edges(
                Combinators.combine(figures, figures).as(ReadingRule::guarded),
                ReadingRule.guarded(Length.ZERO, Length.ZERO),
                ReadingRule.guarded(most, Length.ZERO),
                ReadingRule.guarded(Length.ZERO, most),
                ReadingRule.guarded(most, most));
    }

    /** Sets of one to eight leaves, with and without stacks, tolerance and drag allowance. */
    public static Arbitrary<GaugeSet> gaugeSets() {
        Arbitrary<List<Leaf>> leaves = Arbitraries.integers()
                .between(3, 60)
                .map(hundredths -> new Leaf(Length.ofNanometres(hundredths * 10_000L)))
                .list()
                .uniqueElements()
                .ofMinSize(1)
                .ofMaxSize(8);
        Arbitrary<Length> tolerances = Arbitraries.integers().between(0, 10).map(i -> Length.ofNanometres(i * 1_000L));
        return edges(Combinators.combine(
                        leaves,
                        Arbitraries.integers().between(1, LeafStack.MOST_LEAVES),
                        tolerances,
                        tolerances,
                        Arbitraries.of(LengthUnit.class))
                .as(GaugeSet::new));
    }

    // Engines

    /** Valve names with the ends of both ranges. */
    public static Arbitrary<ValveId> valveIds() {
        return edges(
                Combinators.combine(
                                Arbitraries.integers().between(1, 99),
                                Arbitraries.of(ValveRole.class),
                                Arbitraries.integers().between(1, 9))
                        .as(ValveId::new),
                ValveId.parse("1-in-1"),
                ValveId.parse("1-ex-9"),
                ValveId.parse("99-ex-9"));
    }

    /** Windows that makers print, and any from 0 to 5 mm, single figures among them. */
    public static Arbitrary<ClearanceWindow> windows() {
        Arbitrary<Length> ends = Arbitraries.frequencyOf(Tuple.of(3, marks()), Tuple.of(1, nanometres(0, 5_000_000)));
        return edges(
                Combinators.combine(ends, ends).as((a, b) -> new ClearanceWindow(Length.min(a, b), Length.max(a, b))),
                new ClearanceWindow(Length.ZERO, Length.ZERO),
                ClearanceWindow.parse("0..5 mm"),
                ClearanceWindow.parse("5..5 mm"),
                ClearanceWindow.parse("0.15..0.15 mm"));
    }

    /** Metric and inch pitches, and any fraction of a nanometre between the ends of the range. */
    public static Arbitrary<Pitch> pitches() {
        return Arbitraries.oneOf(
                        nanometres(100_000, 5_000_000).map(Ratio::nanometresOf),
                        Arbitraries.integers().between(6, 254).map(tpi -> Ratio.of(25_400_000, tpi)),
                        ratios(100_000, 5_000_000))
                .map(Pitch::new);
    }

    /** Shim ranges of one to a hundred sizes. */
    public static Arbitrary<ShimRange> shimRanges() {
        return Combinators.combine(
                        Arbitraries.integers().between(1, 5_000),
                        Arbitraries.integers().between(1, 100),
                        Arbitraries.of("0.01", "0.02", "0.025", "0.05", "0.10", "0.0254"))
                .as((thousandths, count, step) -> {
                    Length thinnest = Length.ofNanometres(thousandths * 1_000L);
                    Length by = Length.ofMillimetres(step);
                    return new ShimRange(thinnest, thinnest.plus(by.times(count - 1)), by);
                });
    }

    /** Firing orders of one to eighteen cylinders, even and uneven. */
    public static Arbitrary<FiringOrder> firingOrders() {
        return Arbitraries.integers().between(1, 18).flatMap(cylinders -> {
            Arbitrary<List<Integer>> orders = Arbitraries.shuffle(
                    IntStream.rangeClosed(1, cylinders).boxed().toList());
            Arbitrary<FiringOrder> even = orders.map(FiringOrder::even);
            Arbitrary<FiringOrder> uneven = Combinators.combine(
                            orders, Arbitraries.integers().between(1, 40).list().ofSize(cylinders))
                    .as((order, weights) -> new FiringOrder(order, shares(weights)));
            return Arbitraries.oneOf(even, uneven);
        });
    }

    private static List<Ratio> shares(List<Integer> weights) {
        int sum = weights.stream().mapToInt(Integer::intValue).sum();
        return weights.stream().map(weight -> Ratio.of(720L * weight, sum)).toList();
    }

    // Texts

    /** Any text at all: all of Unicode, and texts made of the characters that the parsers know. */
    public static Arbitrary<String> texts() {
        return Arbitraries.oneOf(
                Arbitraries.strings().all().ofMaxLength(100),
                Arbitraries.strings()
                        .withChars("0123456789.,+-/()[]<>= mµinchtoukxesdgrfABTDC°\"″\t\u00a0")
                        .ofMaxLength(40));
    }

    /** Texts that are almost right: one to three characters taken out, put in or replaced. */
    public static Arbitrary<String> almost(Arbitrary<String> valid) {
        Arbitrary<Mutation> mutations = Combinators.combine(
                        Arbitraries.integers().between(0, 2),
                        Arbitraries.doubles().between(0, 1),
                        Arbitraries.oneOf(
                                Arbitraries.chars().with("0123456789.,+-/()[]<>= mine\t\"\u00a0"),
                                Arbitraries.chars().all()))
                .as(Mutation::new);
        return edges(Combinators.combine(valid, mutations.list().ofMinSize(1).ofMaxSize(3))
                .as((text, changes) -> {
                    String changed = text;
                    for (Mutation change : changes) {
                        changed = change.of(changed);
                    }
                    return changed;
                }));
    }

    private record Mutation(int kind, double place, char with) {
        String of(String text) {
            List<Character> characters =
                    new ArrayList<>(text.chars().mapToObj(c -> (char) c).toList());
            int at = (int) (place * characters.size());
            boolean inside = at < characters.size();
            if (kind == 0 || !inside) {
                characters.add(at, with);
            } else if (kind == 1) {
                characters.set(at, with);
            } else {
                characters.remove(at);
            }
            StringBuilder out = new StringBuilder();
            characters.forEach(out::append);
            return out.toString();
        }
    }
}
