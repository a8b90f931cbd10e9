package dev.lash.examples.sim;

import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.WearPrior;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Usage;
import dev.lash.trend.ClearanceHistory;
import dev.lash.trend.TrendTask;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;

/**
 * An engine whose wear is known, and what a mechanic read of it. Drawn from the law that {@link WearPrior} states: one scatter and
 * one spread for the engine, a drift for each role, drifts of valves about that of their role, and for each segment a level about
 * the middle of the window to set to.
 */
final class SimulatedEngine {
    static final ClearanceSpec CLEARANCE =
            new ClearanceSpec(ClearanceWindow.parse("0.10..0.20 mm"), ClearanceWindow.parse("0.13..0.17 mm"), "");
    static final WearPrior PRIOR = WearPrior.BY_DISTANCE;
    static final int USE_BETWEEN_CHECKS = 6000;

    private static final double LOW = millimetres(CLEARANCE.check().lower());
    private static final double HIGH = millimetres(CLEARANCE.check().upper());
    private static final double SET_LOW = millimetres(CLEARANCE.setTo().lower());
    private static final double SET_HIGH = millimetres(CLEARANCE.setTo().upper());
    private static final double PER = PRIOR.per().amount().doubleValue();

    private final LeafSteps leaves;
    private final int checks;
    private final List<Valve> valves;

    /**
     * One valve.
     *
     * @param id its name
     * @param readings what was read, oldest first, as {@link LeafSteps#going}
     * @param level its clearance now, without scatter, in millimetres
     * @param drift how much that changes per unit of the prior, in millimetres
     */
    record Valve(ValveId id, List<Read> readings, double level, double drift) {
        /** Whether the line lies outside the window anywhere between now and so much use later; it is straight, so two ends do. */
        boolean hasLeft(double ahead) {
            double then = level + drift * ahead;
            return Math.min(level, then) < LOW || Math.max(level, then) > HIGH;
        }
    }

    /**
     * One reading.
     *
     * @param check which check, from 0
     * @param adjusted whether it is the one after an adjustment
     * @param going how many leaves went
     */
    record Read(int check, boolean adjusted, int going) {}

    private SimulatedEngine(LeafSteps leaves, int checks, List<Valve> valves) {
        this.leaves = leaves;
        this.checks = checks;
        this.valves = valves;
    }

    /**
     * Draws an engine.
     *
     * @param draws where from
     * @param valveCount how many valves, every other one an exhaust valve
     * @param checks how many checks
     * @param leaves the leaves
     * @param wider how many times as far drifts lie from what is expected of them than the prior says; 1 for the law itself
     */
    static SimulatedEngine draw(Draws draws, int valveCount, int checks, LeafSteps leaves, double wider) {
        double factor = PRIOR.factor().numerator().doubleValue()
                / PRIOR.factor().denominator().doubleValue();
        double scatter = draws.logNormal(millimetres(PRIOR.scatter()), factor);
        double spread = wider * draws.logNormal(millimetres(PRIOR.spread()), factor);
        double[] roles = new double[2];
        for (int role = 0; role < roles.length; role++) {
            roles[role] = draws.normal(millimetres(PRIOR.drift()), wider * millimetres(PRIOR.driftDeviation()));
        }
        List<Valve> valves = new ArrayList<>(valveCount);
        for (int v = 0; v < valveCount; v++) {
            ValveId id = new ValveId(v / 4 + 1, v % 2 == 0 ? ValveRole.INTAKE : ValveRole.EXHAUST, v % 4 / 2 + 1);
            valves.add(valve(draws, id, checks, leaves, draws.normal(roles[v % 2], spread), scatter));
        }
        return new SimulatedEngine(leaves, checks, valves);
    }

    private static Valve valve(Draws draws, ValveId id, int checks, LeafSteps leaves, double drift, double scatter) {
        List<Read> readings = new ArrayList<>();
        double level = level(draws);
        double perCheck = drift * USE_BETWEEN_CHECKS / PER;
        for (int check = 0; check < checks; check++) {
            level += check == 0 ? 0 : perCheck;
            int going = leaves.going(draws.normal(level, scatter));
            readings.add(new Read(check, false, going));
            if (check < checks - 1 && !isWithin(leaves.reading(going))) {
                level = level(draws);
                readings.add(new Read(check, true, leaves.going(draws.normal(level, scatter))));
            }
        }
        return new Valve(id, readings, level, drift);
    }

    private static double level(Draws draws) {
        return draws.normal((SET_LOW + SET_HIGH) / 2, (SET_HIGH - SET_LOW) / 2);
    }

    private static boolean isWithin(LengthInterval reading) {
        return CLEARANCE.check().interval().encloses(reading);
    }

    private static double millimetres(Length length) {
        return length.nanometres() / 1e6;
    }

    List<Valve> valves() {
        return valves;
    }

    /** Whether the last reading of every valve lies wholly within the window, so that the mechanic leaves the engine as it is. */
    boolean isLeftAsItIs() {
        return valves.stream()
                .map(valve -> valve.readings.get(valve.readings.size() - 1))
                .allMatch(last -> isWithin(leaves.reading(last.going)));
    }

    /** Whether any valve is outside the window anywhere between now and then. */
    boolean hasLeft(Usage then) {
        double ahead = then.amount().subtract(now().amount()).doubleValue() / PER;
        return valves.stream().anyMatch(valve -> valve.hasLeft(ahead));
    }

    /** The usage at the last check. */
    Usage now() {
        return usage(checks - 1);
    }

    static Usage usage(int check) {
        return Usage.of(
                BigDecimal.valueOf((long) check * USE_BETWEEN_CHECKS),
                PRIOR.per().unit());
    }

    /** What the fit gets to see. */
    List<TrendTask> tasks() {
        return valves.stream().map(this::task).toList();
    }

    private TrendTask task(Valve valve) {
        ClearanceHistory.Builder history = ClearanceHistory.builder(valve.id, Gap.ONLY);
        for (Read read : valve.readings) {
            if (read.adjusted) {
                history.adjusted();
            }
            history.read(usage(read.check), leaves.reading(read.going));
        }
        return new TrendTask(history.build(), CLEARANCE);
    }
}
