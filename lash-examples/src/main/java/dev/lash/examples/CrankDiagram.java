package dev.lash.examples;

import dev.lash.engine.CrankPlan;
import dev.lash.engine.CrankPlanner;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.ValveId;
import dev.lash.measure.Ratio;
import java.util.List;

/** A line of text for each valve over the two turns of a cycle: where it may be measured, where it is, and where the stops are. */
final class CrankDiagram {
    private static final int CYCLE = 720;
    private static final int DEGREES_PER_COLUMN = 12;
    private static final int DEGREES_PER_LABEL = 180;
    private static final String LEGEND = "Degrees after number 1's compression TDC; a column is " + DEGREES_PER_COLUMN
            + " degrees.\n" + ". may be measured   # may not   | stop   M measured at this stop\n";

    private final EngineSpec engine;
    private final CrankPlan plan;

    private CrankDiagram(EngineSpec engine, CrankPlan plan) {
        this.engine = engine;
        this.plan = plan;
    }

    /** The diagram, every line with its end. */
    static String of(EngineSpec engine, CrankPlan plan) {
        CrankDiagram diagram = new CrankDiagram(engine, plan);
        StringBuilder out = new StringBuilder(LEGEND).append(scale());
        engine.valves().forEach(valve -> out.append(diagram.line(valve)));
        return out.toString();
    }

    private static String scale() {
        StringBuilder out = new StringBuilder(name(""));
        for (int degrees = 0; degrees < CYCLE; degrees += DEGREES_PER_LABEL) {
            String label = String.valueOf(degrees);
            out.append(label).append(" ".repeat(DEGREES_PER_LABEL / DEGREES_PER_COLUMN - label.length()));
        }
        return out.append(CYCLE).append('\n').toString();
    }

    private static String name(String valve) {
        return valve + " ".repeat("12-in-1 ".length() - valve.length());
    }

    private String line(ValveId valve) {
        StringBuilder out = new StringBuilder(name(valve.toString()));
        for (int degrees = 0; degrees < CYCLE; degrees += DEGREES_PER_COLUMN) {
            out.append(sign(valve, Ratio.of(degrees, 1), Ratio.of(degrees + DEGREES_PER_COLUMN, 1)));
        }
        return out.append('\n').toString();
    }

    /** The sign of a column; without a stop it tells of the column's first angle. */
    private char sign(ValveId valve, Ratio from, Ratio to) {
        List<CrankPlan.Stop> stops = plan.stops().stream()
                .filter(stop ->
                        stop.angle().compareTo(from) >= 0 && stop.angle().compareTo(to) < 0)
                .toList();
        if (!stops.isEmpty()) {
            return stops.stream().anyMatch(stop -> stop.valves().contains(valve)) ? 'M' : '|';
        }
        return CrankPlanner.measurableAt(engine, from).contains(valve) ? '.' : '#';
    }
}
