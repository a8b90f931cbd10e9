package dev.lash.specs;

import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.adjust.InstalledShim;
import dev.lash.adjust.ShimBox;
import dev.lash.check.CheckSheet;
import dev.lash.check.Done;
import dev.lash.check.PastVisit;
import dev.lash.check.PastVisit.PastReading;
import dev.lash.check.ValveReading;
import dev.lash.engine.CamTiming;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Figure;
import dev.lash.engine.FiringOrder;
import dev.lash.engine.Gap;
import dev.lash.engine.Origin;
import dev.lash.engine.Pitch;
import dev.lash.engine.ScrewHead;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.ValveTrain.ScrewPlace;
import dev.lash.engine.ValveTrain.ShimPlace;
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
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.Provide;
import net.jqwik.api.Tuple;
import net.jqwik.api.domains.DomainContextBase;

/** Random check sheets that the sheet format can hold, and their parts. */
final class Sheets {
    private static final long UM = 1_000;
    private static final long THOU = 25_400;

    private Sheets() {}

    /** For {@code @Domain}: sheets of every kind. */
    static final class Trade extends DomainContextBase {
        @Provide
        Arbitrary<CheckSheet> sheet() {
            return sheets();
        }
    }

    // Measures

    private static Arbitrary<Length> steps(long least, long most, long step) {
        return Arbitraries.longs().between(least, most).map(i -> Length.ofNanometres(i * step));
    }

    /** Lengths of up to 0.60 mm in steps of either system, and some odd ones. */
    static Arbitrary<Length> clearances() {
        return Arbitraries.frequencyOf(
                Tuple.of(6, steps(1, 60, 10 * UM)), Tuple.of(3, steps(1, 24, THOU)), Tuple.of(1, steps(1, 600_000, 1)));
    }

    /** Sizes of shims. */
    static Arbitrary<Length> sizes() {
        return Arbitraries.frequencyOf(
                Tuple.of(6, steps(24, 70, 50 * UM)),
                Tuple.of(2, steps(48, 130, THOU)),
                Tuple.of(1, steps(1, 20_000, UM)));
    }

    private static Arbitrary<Length> allowances() {
        return Arbitraries.of(0L, 1L, 3L, 5L, 7L).map(um -> Length.ofNanometres(um * UM));
    }

    static Arbitrary<LengthInterval> intervals() {
        return Combinators.combine(
                        clearances(),
                        clearances(),
                        Arbitraries.of(true, false),
                        Arbitraries.of(true, false),
                        Arbitraries.integers().between(0, 8))
                .as((a, b, lower, upper, kind) -> switch (kind) {
                    case 0 -> LengthInterval.any();
                    case 1 -> LengthInterval.above(a);
                    case 2 -> LengthInterval.atLeast(a);
                    case 3 -> LengthInterval.below(a);
                    case 4 -> LengthInterval.atMost(a);
                    default ->
                        a.equals(b)
                                ? LengthInterval.point(a)
                                : LengthInterval.of(Length.min(a, b), lower, Length.max(a, b), upper);
                });
    }

    static Arbitrary<Usage> usages() {
        return Combinators.combine(Arbitraries.integers().between(0, 1_000_000), Arbitraries.of(Usage.Unit.class))
                .as((tenths, unit) -> Usage.of(BigDecimal.valueOf(tenths, 1), unit));
    }

    static Arbitrary<Temperature> temperatures() {
        return Combinators.combine(Arbitraries.integers().between(-300, 1200), Arbitraries.of("°C", "°F"))
                .as((tenths, scale) ->
                        Temperature.parse(BigDecimal.valueOf(tenths, 1).toPlainString() + " " + scale));
    }

    static Arbitrary<LocalDate> dates() {
        return Combinators.combine(
                        Arbitraries.integers().between(1970, 2099),
                        Arbitraries.integers().between(1, 365))
                .as(LocalDate::ofYearDay);
    }

    /** Free text: words, and anything that JSON must escape. */
    static Arbitrary<String> texts() {
        return Arbitraries.frequencyOf(
                Tuple.of(3, Arbitraries.of("", "hill bike 4", "9.5 mm \"small\"", "page 3-8, Übersicht")),
                Tuple.of(
                        1,
                        Arbitraries.strings()
                                .withChars("aZ09 \"\\/\b\f\n\r\t\u0000\u001f\u007f\u0085\u2028°µ€")
                                .ofMaxLength(12)),
                Tuple.of(
                        1,
                        Arbitraries.strings()
                                .all()
                                .ofMaxLength(8)
                                .filter(text -> text.codePoints().noneMatch(c -> c >= 0xD800 && c <= 0xDFFF))));
    }

    // Gauges

    private static Arbitrary<LeafStack> stacks() {
        return Arbitraries.frequencyOf(Tuple.of(5, Arbitraries.just(1)), Tuple.of(1, Arbitraries.of(2, 3)))
                .flatMap(size -> clearances().map(Leaf::new).list().ofSize(size))
                .map(LeafStack::new);
    }

    /** Trials of one gap: mostly as an honest hand makes them, so that brackets of every kind come out. */
    static Arbitrary<List<Trial>> trials() {
        Arbitrary<List<Trial>> any = Combinators.combine(stacks(), Arbitraries.of(Fit.class))
                .as(Trial::new)
                .list()
                .ofMaxSize(3);
        Arbitrary<List<Trial>> honest = Combinators.combine(
                        clearances(),
                        stacks().list().ofMaxSize(5),
                        Arbitraries.of(Fit.FORCED, Fit.REFUSES),
                        Arbitraries.of(true, false))
                .as(Sheets::honest);
        return Arbitraries.frequencyOf(Tuple.of(1, any), Tuple.of(4, honest));
    }

    private static List<Trial> honest(Length clearance, List<LeafStack> offered, Fit noGo, boolean dragged) {
        List<Trial> trials = new ArrayList<>();
        for (LeafStack stack : offered) {
            int order = clearance.compareTo(stack.thickness());
            trials.add(new Trial(stack, order == 0 ? Fit.DRAGS : order > 0 ? Fit.GOES : noGo));
        }
        if (dragged) {
            trials.add(Trial.of(new Leaf(clearance), Fit.DRAGS));
        }
        return trials;
    }

    /** Sets marked in millimetres or inches: most leaves of a set carry its unit. */
    static Arbitrary<GaugeSet> gauges() {
        return Arbitraries.oneOf(
                gauges(steps(1, 60, 10 * UM), LengthUnit.MILLIMETRE), gauges(steps(1, 24, THOU), LengthUnit.INCH));
    }

    private static Arbitrary<GaugeSet> gauges(Arbitrary<Length> marks, LengthUnit unit) {
        return Combinators.combine(
                        marks.map(Leaf::new).list().ofMinSize(1).ofMaxSize(7),
                        Arbitraries.integers().between(1, 2),
                        allowances(),
                        allowances())
                .as((leaves, stack, tolerance, drag) -> new GaugeSet(leaves, stack, tolerance, drag, unit));
    }

    // Engines

    static Arbitrary<ClearanceWindow> windows() {
        return Combinators.combine(clearances(), steps(0, 15, 10 * UM))
                .as((low, width) -> new ClearanceWindow(low, low.plus(width)));
    }

    /** Two windows, the second inside the first or the same. */
    private static Arbitrary<ClearanceSpec> clearanceSpecs(String confirmedFrom) {
        return Combinators.combine(windows(), clearances(), clearances(), Arbitraries.of(true, false))
                .as((check, a, b, same) -> {
                    Length low = Length.max(check.lower(), Length.min(check.upper(), Length.min(a, b)));
                    Length high = Length.max(check.lower(), Length.min(check.upper(), Length.max(a, b)));
                    return new ClearanceSpec(check, same ? check : new ClearanceWindow(low, high), confirmedFrom);
                });
    }

    static Arbitrary<Ratio> ratios() {
        return Combinators.combine(
                        Arbitraries.longs().between(10, 99), Arbitraries.longs().between(10, 99))
                .as(Ratio::of);
    }

    static Arbitrary<Pitch> pitches() {
        return Arbitraries.of("0.50 mm", "0.75 mm", "1 mm", "26 tpi", "40 tpi", "27/2 tpi", "0.05 in", "750.123 um")
                .map(Pitch::parse);
    }

    static Arbitrary<ShimRange> shimRanges() {
        Arbitrary<ShimRange> kits = Arbitraries.of("1.20..3.50 mm step 0.05 mm", "1.20..2.90 mm step 0.025 mm")
                .map(ShimRange::parse);
        Arbitrary<ShimRange> others = Combinators.combine(
                        sizes().filter(size -> size.isLessThan(Length.ofMillimetres("8"))),
                        Arbitraries.integers().between(0, 60),
                        Arbitraries.of("0.025 mm", "0.05 mm", "0.10 mm", "1 thou", "0.000001 mm"))
                .as((thinnest, count, step) -> {
                    Length by = Length.parse(step);
                    return new ShimRange(thinnest, thinnest.plus(by.times(count)), by);
                });
        return Arbitraries.oneOf(kits, others);
    }

    /** Trains of every kind. */
    static Arbitrary<ValveTrain> trains() {
        Arbitrary<ValveTrain> screws = Combinators.combine(
                        Arbitraries.of(ScrewPlace.class), pitches(), ratios(), Arbitraries.of(ScrewHead.class))
                .as((place, pitch, ratio, head) ->
                        new ValveTrain.Screw(place, pitch, place.needsRatio() ? ratio : Ratio.ONE, head));
        Arbitrary<ValveTrain> atTip = Combinators.combine(pitches(), Arbitraries.of(ScrewHead.class))
                .as((pitch, head) -> new ValveTrain.Screw(ScrewPlace.ROCKER_TIP, pitch, Ratio.ONE, head));
        Arbitrary<ValveTrain> shims = Combinators.combine(Arbitraries.of(ShimPlace.class), shimRanges(), ratios())
                .as((place, range, ratio) ->
                        new ValveTrain.Shim(place, range, place == ShimPlace.FOLLOWER ? ratio : Ratio.ONE));
        Arbitrary<ValveTrain> eccentric =
                Combinators.combine(steps(1, 100, 100 * UM), ratios()).as(ValveTrain.Eccentric::new);
        Arbitrary<ValveTrain> desmodromic =
                Combinators.combine(shimRanges(), shimRanges()).as(ValveTrain.Desmodromic::new);
        return Arbitraries.frequencyOf(
                Tuple.of(7, screws),
                Tuple.of(4, atTip),
                Tuple.of(8, shims),
                Tuple.of(2, eccentric),
                Tuple.of(2, desmodromic),
                Tuple.of(2, Arbitraries.of(new ValveTrain.Fixed(), new ValveTrain.Hydraulic())));
    }

    /** Orders whose intervals are even, or are decimal numbers of degrees. */
    static Arbitrary<FiringOrder> firingOrders() {
        return Arbitraries.frequencyOf(
                        Tuple.of(4, Arbitraries.integers().between(1, 4)),
                        Tuple.of(1, Arbitraries.integers().between(5, 18)))
                .flatMap(count -> {
                    List<Integer> numbers =
                            IntStream.rangeClosed(1, count).boxed().toList();
                    Arbitrary<List<Long>> cuts = Arbitraries.longs()
                            .between(1, 1439)
                            .list()
                            .uniqueElements()
                            .ofSize(count - 1);
                    return Combinators.combine(Arbitraries.shuffle(numbers), cuts, Arbitraries.of(true, false))
                            .as((order, places, even) ->
                                    even ? FiringOrder.even(order) : new FiringOrder(order, intervals(places)));
                });
    }

    /** The lengths of the pieces between cuts, which count half degrees of 720. */
    private static List<Ratio> intervals(List<Long> cuts) {
        List<Long> ends =
                Stream.concat(cuts.stream(), Stream.of(1440L)).sorted().toList();
        List<Ratio> intervals = new ArrayList<>();
        long from = 0;
        for (long end : ends) {
            intervals.add(Ratio.of(end - from, 2));
            from = end;
        }
        return intervals;
    }

    static Arbitrary<CamTiming.Event> events() {
        return Combinators.combine(Arbitraries.longs().between(0, 540), Arbitraries.of(CamTiming.Mark.class))
                .as((thirds, mark) -> new CamTiming.Event(Ratio.of(thirds, 3), mark));
    }

    /** Timings of cams that open, close and rest, as the core wants them. */
    private static Arbitrary<CamTiming> timings() {
        return Combinators.combine(
                        near(CamTiming.Mark.BTDC, CamTiming.Mark.ATDC),
                        near(CamTiming.Mark.ABDC),
                        near(CamTiming.Mark.BBDC),
                        near(CamTiming.Mark.BTDC, CamTiming.Mark.ATDC),
                        Arbitraries.longs().between(0, 80).map(halves -> Ratio.of(halves, 2)))
                .as(CamTiming::new);
    }

    private static Arbitrary<CamTiming.Event> near(CamTiming.Mark... marks) {
        return Combinators.combine(Arbitraries.longs().between(0, 240), Arbitraries.of(marks))
                .as((thirds, mark) -> new CamTiming.Event(Ratio.of(thirds, 3), mark));
    }

    /** What goes with the train: order, valves, windows. */
    private record Body(FiringOrder order, List<ValveId> valves, ClearanceSpec intake, ClearanceSpec exhaust) {}

    private static Arbitrary<Body> bodies() {
        Arbitrary<List<String>> perCylinder = Arbitraries.of(
                List.of("in-1", "ex-1"),
                List.of("in-1", "in-2", "ex-1", "ex-2"),
                List.of("ex-1", "in-2", "in-1"),
                List.of("in-1"));
        return Combinators.combine(firingOrders(), perCylinder, texts(), texts(), Arbitraries.of(true, false))
                .flatAs((order, names, from, other, oneSource) -> {
                    List<ValveId> valves = IntStream.rangeClosed(1, order.cylinders())
                            .boxed()
                            .flatMap(cylinder -> names.stream().map(name -> ValveId.parse(cylinder + "-" + name)))
                            .toList();
                    return Combinators.combine(clearanceSpecs(from), clearanceSpecs(oneSource ? from : other))
                            .as((intake, exhaust) -> new Body(order, valves, intake, exhaust));
                });
    }

    private static Arbitrary<Origin> origins() {
        return Combinators.combine(
                        Arbitraries.of(Origin.Kind.class).filter(kind -> kind != Origin.Kind.STATED),
                        texts(),
                        Arbitraries.of("", "page 4-10"),
                        Arbitraries.of("", "screw-single, revision 2"))
                .as(Origin::new);
    }

    /** Engines of which some figures came from somewhere, and of which the shop has read some. */
    static Arbitrary<EngineSpec> engines() {
        return Combinators.combine(
                        statedEngines(),
                        origins().list().ofMinSize(1).ofMaxSize(3),
                        Arbitraries.of(Figure.class).set().ofMaxSize(8),
                        Arbitraries.of(Figure.class).set().ofMaxSize(4),
                        texts())
                .as((engine, origins, told, read, place) -> {
                    EngineSpec.Builder builder = engine.toBuilder();
                    int turn = 0;
                    for (Figure figure : Figure.values()) {
                        if (engine.findFigure(figure, LengthUnit.MILLIMETRE).isEmpty()) {
                            continue;
                        }
                        if (told.contains(figure)) {
                            builder.origin(figure, origins.get(turn++ % origins.size()));
                        }
                        if (read.contains(figure) && !figure.isWindow() && figure != Figure.WEAR_PRIOR) {
                            builder.confirmed(figure, place);
                        }
                    }
                    return builder.build();
                });
    }

    private static Arbitrary<EngineSpec> statedEngines() {
        return Combinators.combine(
                        Arbitraries.of("x", "ridge-quad-3", "0-generator"),
                        texts().map(text -> "T" + text),
                        bodies(),
                        trains(),
                        temperatures().optional(),
                        temperatures().optional(),
                        Combinators.combine(usages(), timings().optional(0.5), texts())
                                .as((usage, timing, template) -> Tuple.of(usage, timing, template)),
                        texts().map(text -> "C" + text).list().ofMaxSize(2))
                .as((id, title, body, train, cold, warm, others, cautions) -> {
                    EngineSpec.Builder builder = EngineSpec.builder(id, title)
                            .firingOrder(body.order)
                            .valves(body.valves)
                            .train(train)
                            .template(others.get3())
                            .cautions(cautions);
                    if (!(train instanceof ValveTrain.Hydraulic)) {
                        builder.clearance(ValveRole.INTAKE, body.intake);
                        builder.clearance(ValveRole.EXHAUST, body.exhaust);
                    }
                    boolean reversed =
                            cold.isPresent() && warm.isPresent() && cold.get().isAbove(warm.get());
                    cold.filter(c -> !reversed).ifPresent(builder::coldest);
                    warm.ifPresent(builder::warmest);
                    Optional.of(others.get1())
                            .filter(usage -> usage.amount().signum() > 0)
                            .ifPresent(builder::checkInterval);
                    others.get2().ifPresent(builder::camTiming);
                    return builder.build();
                });
    }

    // Readings

    private static Arbitrary<InstalledShim> installedShims() {
        return Combinators.combine(sizes().optional(), sizes().optional(), allowances(), texts())
                .as((marked, measured, tolerance, type) ->
                        new InstalledShim(marked.orElse(null), measured.orElse(null), tolerance, type));
    }

    private static Arbitrary<Done> done() {
        return Arbitraries.oneOf(
                stacks().map(Done.SetWith::new),
                Combinators.combine(Arbitraries.longs().between(-1000, 1000), Arbitraries.of(1L, 2L, 3L, 10L))
                        .as((above, below) -> new Done.Turned(Ratio.of(above, below))),
                sizes().map(Done.Fitted::new));
    }

    private static Arbitrary<ValveReading> readings(ValveId valve) {
        return Combinators.combine(
                        trials(),
                        Arbitraries.oneOf(sizes().map(InstalledShim::marked), installedShims())
                                .optional(0.7),
                        Arbitraries.frequency(Tuple.of(6, Pad.SOUND), Tuple.of(1, Pad.DISHED)),
                        texts(),
                        done().optional(0.3),
                        Arbitraries.frequencyOf(Tuple.of(2, Arbitraries.just(List.<Trial>of())), Tuple.of(1, trials())))
                .as((trials, shim, pad, stop, done, recheck) -> new ValveReading(
                        valve,
                        Gap.ONLY,
                        trials,
                        List.of(),
                        false,
                        shim.orElse(null),
                        pad,
                        null,
                        stop,
                        done.orElse(null),
                        done.isPresent() ? 1 : 0,
                        recheck));
    }

    private static Arbitrary<ShimBox> boxes() {
        return Combinators.combine(sizes(), Arbitraries.integers().between(0, 20), texts())
                .as(ShimBox.Lot::new)
                .list()
                .ofMaxSize(3)
                .map(ShimBox::new);
    }

    private static Arbitrary<InstalledShim> historyShims() {
        return Arbitraries.oneOf(sizes().map(InstalledShim::marked), installedShims());
    }

    private static Arbitrary<List<PastVisit>> histories() {
        Arbitrary<ValveId> valves = Combinators.combine(
                        Arbitraries.integers().between(1, 99),
                        Arbitraries.of(ValveRole.class),
                        Arbitraries.integers().between(1, 9))
                .as(ValveId::new);
        Arbitrary<PastReading> readings = Combinators.combine(
                        valves, intervals(), intervals(), historyShims().optional())
                .as((valve, found, left, shim) -> new PastReading(valve, Gap.ONLY, found, left, shim.orElse(null)));
        return Combinators.combine(dates(), usages().optional(), readings.list().ofMaxSize(2))
                .as((date, usage, past) -> new PastVisit(date, usage.orElse(null), past))
                .list()
                .ofMaxSize(2);
    }

    private static final int MOST_WITH_TRENDS = 2;

    /** Visits that name valves and gaps of an engine, each once; where one is named depends on what was drawn. */
    private static List<PastVisit> of(EngineSpec engine, List<PastVisit> drawn) {
        return drawn.stream()
                .map(visit -> {
                    Map<String, PastReading> named = new LinkedHashMap<>();
                    // trends of many valves that fit no wear at all take long, and say nothing of how they are written
                    List<PastReading> past = engine.valves().size() <= MOST_WITH_TRENDS ? visit.valves() : List.of();
                    for (PastReading any : past) {
                        int number = any.valve().cylinder() * 9 + any.valve().place();
                        ValveId valve =
                                engine.valves().get(number % engine.valves().size());
                        Gap gap = engine.gaps().get(number % engine.gaps().size());
                        named.put(valve + " " + gap, new PastReading(valve, gap, any.found(), any.left(), any.shim()));
                    }
                    return new PastVisit(visit.date(), visit.usage(), List.copyOf(named.values()), visit.breakIn());
                })
                .toList();
    }

    /** A sheet without readings. */
    private static Arbitrary<CheckSheet> blankSheets() {
        return Combinators.combine(
                        engines(),
                        gauges(),
                        Arbitraries.of(true, false),
                        texts(),
                        dates().optional(),
                        usages().optional(),
                        temperatures().optional(),
                        Combinators.combine(boxes(), histories()).as((box, history) -> Tuple.of(box, history)))
                .as((engine, gauges, guarded, machine, date, usage, temperature, more) -> {
                    CheckSheet.Builder builder = CheckSheet.builder(engine, gauges)
                            .rule(guarded ? gauges.guardedRule() : ReadingRule.simple())
                            .machine(machine)
                            .shimBox(more.get1())
                            .history(of(engine, more.get2()));
                    date.ifPresent(builder::date);
                    usage.ifPresent(builder::usage);
                    temperature.ifPresent(builder::engineTemperature);
                    return builder.build();
                });
    }

    /** Check sheets of every kind of train, metric and inch, simple and guarded, that the format can hold. */
    static Arbitrary<CheckSheet> sheets() {
        // Of so many parts together the edge cases are too many to list.
        return blankSheets()
                .flatMap(sheet -> Arbitraries.shuffle(sheet.engine().valves())
                        .flatMap(valves -> Arbitraries.integers()
                                .between(0, Math.min(4, valves.size()))
                                .map(count -> valves.subList(0, count)))
                        .flatMap(valves -> Combinators.combine(
                                        valves.stream().map(Sheets::readings).toList())
                                .as(readings -> with(sheet, readings))))
                .withoutEdgeCases();
    }

    /** A desmodromic valve is read at its opener. */
    private static ValveReading atGap(EngineSpec engine, ValveReading reading) {
        return engine.gaps().contains(reading.gap()) ? reading : reading.asOpener(List.of());
    }

    private static CheckSheet with(CheckSheet sheet, List<ValveReading> readings) {
        CheckSheet.Builder builder = CheckSheet.builder(sheet.engine(), sheet.gauges())
                .rule(sheet.rule())
                .machine(sheet.machine())
                .shimBox(sheet.shimBox())
                .history(sheet.history());
        sheet.date().ifPresent(builder::date);
        sheet.usage().ifPresent(builder::usage);
        sheet.engineTemperature().ifPresent(builder::engineTemperature);
        readings.forEach(reading -> builder.valve(atGap(sheet.engine(), reading)));
        return builder.build();
    }
}
