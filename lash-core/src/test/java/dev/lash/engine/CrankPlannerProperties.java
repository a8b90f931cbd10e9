package dev.lash.engine;

import static dev.lash.engine.CrankEngines.angles;
import static dev.lash.engine.CrankEngines.deg;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.engine.CrankEngines.Cam;
import dev.lash.engine.ExhaustiveStops.Engine;
import dev.lash.engine.ExhaustiveStops.Held;
import dev.lash.measure.Ratio;
import dev.lash.testing.Generators;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import net.jqwik.api.domains.Domain;
import net.jqwik.api.domains.DomainContext;

@Domain(Generators.Trade.class)
@Domain(DomainContext.Global.class)
class CrankPlannerProperties {
    private static final Ratio HALF = Ratio.of(1, 2);

    // The smallest set of stops, against trying every set

    @Property(tries = 400)
    void tdcMarks(@ForAll("engines") Engine engine) {
        agrees(CrankPlanner.atTdcMarks(), engine, engine.tdcs(), false);
    }

    @Property(tries = 200)
    void ownCompressionTdc(@ForAll("engines") Engine engine) {
        agrees(CrankPlanner.atOwnCompressionTdc(), engine, engine.tdcs(), true);
    }

    @Property(tries = 300)
    void listedMarks(
            @ForAll("engines") Engine engine,
            @ForAll @Size(min = 1, max = 8) List<@IntRange(max = 359) Integer> marks) {
        Set<Integer> angles = new TreeSet<>(marks);
        marks.forEach(mark -> angles.add(mark + 360));
        CrankPlanner planner =
                CrankPlanner.atMarks(marks.stream().map(CrankEngines::deg).toList());
        agrees(planner, engine, angles, false);
    }

    @Property(tries = 300)
    void anyAngle(@ForAll("engines") Engine engine) {
        agrees(CrankPlanner.atAnyAngle(), engine, wholeDegrees(), false);
    }

    private static List<Integer> wholeDegrees() {
        return IntStream.range(0, 720).boxed().toList();
    }

    private static void agrees(CrankPlanner planner, Engine engine, Iterable<Integer> offered, boolean ownTdcOnly) {
        EngineSpec spec = engine.spec();
        CrankPlan plan = planner.plan(spec);
        assertThat(angles(plan))
                .isEqualTo(ExhaustiveStops.best(engine, offered, ownTdcOnly).stream()
                        .map(CrankEngines::deg)
                        .toList());
        reachesWhatItSays(engine, spec, plan, ownTdcOnly);
        for (ValveId valve : spec.valves()) {
            boolean somewhere = wholeDegrees().stream().anyMatch(angle -> engine.mayMeasure(valve, angle));
            assertThat(plan.unreachable().contains(valve))
                    .as("%s unreachable", valve)
                    .isEqualTo(!somewhere);
        }
        plan.leftOver()
                .forEach((valve, angle) -> assertThat(
                                engine.mayMeasure(valve, angle.numerator().intValueExact()))
                        .as("%s at %s", valve, angle)
                        .isTrue());
    }

    /** Each valve is measured at the first stop that reaches it, left over or unreachable, and nowhere else. */
    private static void reachesWhatItSays(Engine engine, EngineSpec spec, CrankPlan plan, boolean ownTdcOnly) {
        Set<ValveId> told = new HashSet<>();
        Ratio before = Ratio.ZERO;
        for (CrankPlan.Stop stop : plan.stops()) {
            int angle = stop.angle().numerator().intValueExact();
            assertThat(stop.turn()).isEqualTo(stop.angle().minus(before));
            assertThat(stop.possible())
                    .isEqualTo(spec.valves().stream()
                            .filter(valve -> engine.mayMeasure(valve, angle))
                            .filter(valve -> !ownTdcOnly || engine.fires().get(valve.cylinder() - 1) == angle)
                            .toList());
            assertThat(stop.valves())
                    .isNotEmpty()
                    .isEqualTo(stop.possible().stream().filter(told::add).toList());
            before = stop.angle();
        }
        assertThat(plan.leftOver().keySet()).allMatch(told::add);
        assertThat(plan.unreachable()).allMatch(told::add);
        assertThat(told).hasSameSizeAs(spec.valves());
    }

    @Provide
    Arbitrary<Engine> engines() {
        return Arbitraries.integers()
                .between(1, 6)
                .flatMap(cylinders -> Combinators.combine(
                                firingAngles(cylinders),
                                cams().optional(0.8),
                                held(cylinders).optional(0.3))
                        .as(Engine::new));
    }

    private static Arbitrary<List<Integer>> firingAngles(int cylinders) {
        Arbitrary<List<Integer>> even = Arbitraries.just(
                IntStream.range(0, cylinders).mapToObj(i -> i * 720 / cylinders).toList());
        Arbitrary<List<Integer>> uneven = Arbitraries.integers()
                .between(1, 719)
                .list()
                .ofSize(cylinders - 1)
                .uniqueElements()
                .map(others -> Stream.concat(Stream.of(0), others.stream()).toList());
        return Arbitraries.oneOf(even, uneven).flatMap(CrankPlannerProperties::number1First);
    }

    private static Arbitrary<List<Integer>> number1First(List<Integer> angles) {
        return Arbitraries.shuffle(angles.subList(1, angles.size()))
                .map(others -> Stream.concat(Stream.of(0), others.stream()).toList());
    }

    /** From a lift of 120 degrees to one that with its ramps takes 600. */
    private static Arbitrary<Cam> cams() {
        Arbitrary<Integer> event = Arbitraries.integers().between(-30, 120);
        return Combinators.combine(
                        event, event, event, event, Arbitraries.integers().between(0, 90))
                .as(Cam::new);
    }

    /** Never so long that it lets go for less than a whole degree. */
    private static Arbitrary<Held> held(int cylinders) {
        return Combinators.combine(
                        Arbitraries.integers().between(1, cylinders),
                        Arbitraries.of(ValveRole.class),
                        Arbitraries.integers().between(0, 360),
                        Arbitraries.integers().between(0, 350))
                .as((cylinder, role, before, after) -> new Held(new ValveId(cylinder, role, 1), before, after));
    }

    @Property(tries = 200)
    void moreAnglesOnOfferNeedNoMoreStops(@ForAll("engines") Engine engine) {
        EngineSpec spec = engine.spec();
        CrankPlan any = CrankPlanner.atAnyAngle().plan(spec);
        CrankPlan tdc = CrankPlanner.atTdcMarks().plan(spec);
        CrankPlan own = CrankPlanner.atOwnCompressionTdc().plan(spec);
        assertThat(any.leftOver()).isEmpty();
        if (tdc.isComplete()) {
            assertThat(any.stops()).hasSizeLessThanOrEqualTo(tdc.stops().size());
        }
        if (own.isComplete()) {
            assertThat(tdc.stops()).hasSizeLessThanOrEqualTo(own.stops().size());
        }
    }

    // Rules of the trade that fall out of the model

    /**
     * M015700/06E page 74: the grid at number 1's overlap TDC is the complement of that at its firing TDC. So it is for every firing
     * order and every cam that with its ramps is open for no more than a turn: two stops a turn apart reach every valve, and what is
     * left at the first is what is measured at the second.
     */
    @Property(tries = 300)
    void twoStopsATurnApartAreComplements(@ForAll FiringOrder order, @ForAll("roadCams") Cam cam) {
        EngineSpec engine = CrankEngines.engine(order).camTiming(cam.timing()).build();
        Set<ValveId> left = new HashSet<>(engine.valves());
        CrankPlanner.measurableAt(engine, deg(0)).forEach(left::remove);
        assertThat(CrankPlanner.measurableAt(engine, deg(360))).containsAll(left);
        CrankPlan plan = CrankPlanner.atMarks(List.of(Ratio.ZERO)).plan(engine);
        assertThat(plan.isComplete()).isTrue();
        if (plan.stops().size() == 2) {
            assertThat(plan.stops().get(1).valves()).containsExactlyInAnyOrderElementsOf(left);
        }
    }

    /**
     * When a cylinder's exhaust starts to open its intake may be measured, and when its intake is closing its exhaust (common
     * practice): from the ramp's first degree to 20 degrees of lift, and the same on the way down.
     */
    @Property
    void exhaustOpeningAndIntakeClosing(
            @ForAll("roadCams") Cam cam, @ForAll FiringOrder order, @ForAll @IntRange(max = 20) int lifted) {
        CamTiming timing = cam.timing();
        EngineSpec engine = CrankEngines.engine(order).camTiming(timing).build();
        for (int cylinder : order.order()) {
            Ratio fires = order.firingAngle(cylinder);
            ValveId intake = new ValveId(cylinder, ValveRole.INTAKE, 1);
            ValveId exhaust = new ValveId(cylinder, ValveRole.EXHAUST, 1);
            Ratio opening = fires.plus(timing.liftFrom(ValveRole.EXHAUST)).plus(deg(lifted));
            assertThat(CrankPlanner.measurableAt(engine, opening)).contains(intake);
            Ratio closing = fires.plus(timing.liftTo(ValveRole.INTAKE)).minus(deg(lifted));
            assertThat(CrankPlanner.measurableAt(engine, closing)).contains(exhaust);
        }
    }

    @Provide
    Arbitrary<Cam> roadCams() {
        Arbitrary<Integer> atTdc = Arbitraries.integers().between(-10, 60);
        Arbitrary<Integer> atBdc = Arbitraries.integers().between(20, 80);
        return Combinators.combine(
                        atTdc, atBdc, atBdc, atTdc, Arbitraries.integers().between(0, 20))
                .as(Cam::new);
    }

    /**
     * "Sum is nine" on eight valves in line (common practice): with valve n fully open, measure valve 9 - n; thirteen on six cylinders
     * with a valve of each role. It holds for every cam where the head is the same from both ends and the firing order pairs the
     * cylinders from both ends.
     */
    @Property
    void sumIsNineOnHeadsThatAreMirrorSymmetric(
            @ForAll("cams") Cam cam,
            @ForAll @Size(min = 2, max = 4) List<ValveRole> fromOneEnd,
            @ForAll Random random) {
        List<ValveId> head = head(mirrored(fromOneEnd));
        EngineSpec engine = inLine(head, cam, random);
        assertThat(sumRuleHolds(engine, head)).isTrue();
    }

    /**
     * On any other head some valve n and its partner are an intake and an exhaust valve, and the partner is not in the middle of its
     * rest. With lobe centres c degrees to each side of overlap TDC they are 360 - 2c from the partner's own lobe centre: a lift that
     * reaches further, ramps included, refuses the rule. The generic cam just passes, so it is no rule to trust.
     */
    @Property
    void sumIsNineIsRefusedOnOtherHeads(
            @ForAll @Size(min = 4, max = 8) List<Boolean> intakeFirst,
            @ForAll @IntRange(min = 100, max = 115) int centre,
            @ForAll @IntRange(min = -20, max = 30) int further,
            @ForAll Random random) {
        List<ValveRole> roles = new ArrayList<>();
        intakeFirst.subList(0, intakeFirst.size() / 2 * 2).forEach(first -> {
            roles.add(first ? ValveRole.INTAKE : ValveRole.EXHAUST);
            roles.add(first ? ValveRole.EXHAUST : ValveRole.INTAKE);
        });
        boolean symmetric =
                IntStream.range(0, roles.size()).allMatch(i -> roles.get(i) == roles.get(roles.size() - 1 - i));
        List<ValveId> head = head(roles);
        int halfLift = 360 - 2 * centre + further;
        EngineSpec engine = inLine(head, lobes(centre, halfLift), random);
        assertThat(sumRuleHolds(engine, head)).isEqualTo(symmetric || further <= 0);
    }

    @Provide("cams")
    Arbitrary<Cam> allCams() {
        return cams();
    }

    /** Lobes that reach a number of degrees to each side of their centres, 15 of them ramp. */
    private static Cam lobes(int centre, int halfLift) {
        int atTdc = halfLift - centre - 15;
        int atBdc = centre + halfLift - 15 - 180;
        return new Cam(atTdc, atBdc, atBdc, atTdc, 15);
    }

    /** Two valves a cylinder, one of each role, the same from both ends. */
    private static List<ValveRole> mirrored(List<ValveRole> firstOfEachCylinder) {
        List<ValveRole> roles = new ArrayList<>();
        for (ValveRole first : firstOfEachCylinder) {
            roles.add(first);
            roles.add(first == ValveRole.INTAKE ? ValveRole.EXHAUST : ValveRole.INTAKE);
        }
        List<ValveRole> otherEnd = new ArrayList<>(roles);
        Collections.reverse(otherEnd);
        roles.addAll(otherEnd);
        return roles;
    }

    private static List<ValveId> head(List<ValveRole> roles) {
        return IntStream.range(0, roles.size())
                .mapToObj(i -> new ValveId(i / 2 + 1, roles.get(i), 1))
                .toList();
    }

    /** An even firing order in which each cylinder fires a turn after the one as far from the other end. */
    private static EngineSpec inLine(List<ValveId> head, Cam cam, Random random) {
        int cylinders = head.size() / 2;
        List<Integer> order = new ArrayList<>();
        for (int cylinder = 1; cylinder <= cylinders / 2; cylinder++) {
            order.add(random.nextBoolean() ? cylinder : cylinders + 1 - cylinder);
        }
        Collections.shuffle(order, random);
        List.copyOf(order).forEach(cylinder -> order.add(cylinders + 1 - cylinder));
        return CrankEngines.engine(FiringOrder.even(order))
                .valves(head)
                .camTiming(cam.timing())
                .build();
    }

    /** With each valve fully open in turn, whether the valve as far from the other end may be measured. */
    private static boolean sumRuleHolds(EngineSpec engine, List<ValveId> head) {
        CamTiming timing = engine.camTiming().orElseThrow();
        return IntStream.range(0, head.size()).allMatch(i -> {
            ValveId open = head.get(i);
            Ratio lobeCentre = timing.liftFrom(open.role())
                    .plus(timing.liftTo(open.role()))
                    .times(HALF);
            Ratio angle = engine.firingOrder().firingAngle(open.cylinder()).plus(lobeCentre);
            return CrankPlanner.measurableAt(engine, angle).contains(head.get(head.size() - 1 - i));
        });
    }
}
