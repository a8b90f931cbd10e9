package dev.lash.examples.sim;

import dev.lash.check.CheckReport;
import dev.lash.check.CheckSheet;
import dev.lash.check.Finding;
import dev.lash.check.FindingCode;
import dev.lash.check.PastVisit;
import dev.lash.check.PastVisit.PastReading;
import dev.lash.check.Severity;
import dev.lash.check.ValveReading;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.Pitch;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.GaugeSet;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;

/**
 * How often ordinary wear gives a warning sign. Engines are drawn from the law that the broad prior states, so that every sign is a
 * false one, and counted are the valves that got any. The seed is fixed.
 */
public final class SignStudy {
    static final Set<FindingCode> SIGNS = Set.of(
            FindingCode.CLOSED_UP_FAST, FindingCode.OPENED_UP, FindingCode.RECORD_MISSING, FindingCode.AGAINST_WEAR);

    private static final int VALVES = 4;
    private static final int[] CHECKS = {2, 3, 5, 8};
    private static final String[] STEPS = {"0.01", "0.02", "0.05"};
    private static final int ENGINES = 250;

    private SignStudy() {}

    /** What was counted: valves, those with a doubt among their signs, and findings by their code. */
    record Count(int valves, int doubtful, Map<FindingCode, Integer> byCode) {
        double share() {
            return (double) doubtful / valves;
        }
    }

    /**
     * Prints the table as Markdown.
     *
     * @param args engines of four valves per row, 250 where not given
     */
    public static void main(String[] args) {
        int engines = args.length > 0 ? Integer.parseInt(args[0]) : ENGINES;
        System.out.println(
                "| checks | leaves, mm | valves | with a doubt | closed up fast | opened up | record missing "
                        + "| against wear (note) |\n|" + "---|".repeat(8));
        for (int checks : CHECKS) {
            for (String step : STEPS) {
                Count count = count(engines, checks, step);
                System.out.println(String.format(
                        Locale.ROOT,
                        "| %d | %s | %d | %d (%.2f %%) | %d | %d | %d | %d |",
                        checks,
                        step,
                        count.valves,
                        count.doubtful,
                        100 * count.share(),
                        of(count, FindingCode.CLOSED_UP_FAST),
                        of(count, FindingCode.OPENED_UP),
                        of(count, FindingCode.RECORD_MISSING),
                        of(count, FindingCode.AGAINST_WEAR)));
            }
        }
    }

    private static int of(Count count, FindingCode code) {
        return count.byCode.getOrDefault(code, 0);
    }

    /** Draws engines and counts the valves with a sign. */
    static Count count(int engines, int checks, String step) {
        Draws draws = new Draws(CalibrationStudy.SEED
                + 1009L * checks
                + Length.ofMillimetres(step).nanometres());
        LeafSteps leaves = LeafSteps.of(Length.ofMillimetres(step));
        Map<FindingCode, Integer> byCode = new EnumMap<>(FindingCode.class);
        int doubtful = 0;
        for (int i = 0; i < engines; i++) {
            SimulatedEngine engine = SimulatedEngine.draw(draws, VALVES, checks, leaves, 1);
            List<Finding> signs = CheckReport.of(sheet(engine, leaves, checks)).findings().stream()
                    .filter(f -> SIGNS.contains(f.code()))
                    .toList();
            signs.forEach(f -> byCode.merge(f.code(), 1, Integer::sum));
            doubtful += (int) signs.stream()
                    .filter(f -> f.code().severity() == Severity.DOUBT)
                    .map(Finding::place)
                    .distinct()
                    .count();
        }
        return new Count(engines * VALVES, doubtful, byCode);
    }

    /** The engine as a mechanic writes it down. */
    static CheckSheet sheet(SimulatedEngine engine, LeafSteps leaves, int checks) {
        EngineSpec spec = EngineSpec.builder("hill-bike", "Hill bike, twin")
                .valves(engine.valves().stream().map(v -> v.id().toString()).toArray(String[]::new))
                .train(ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm")))
                .clearance(ValveRole.INTAKE, SimulatedEngine.CLEARANCE)
                .clearance(ValveRole.EXHAUST, SimulatedEngine.CLEARANCE)
                .build();
        List<PastVisit> history = new ArrayList<>();
        for (int check = 0; check < checks - 1; check++) {
            int at = check;
            history.add(new PastVisit(
                    LocalDate.of(2024, 5, 11).plusYears(check),
                    SimulatedEngine.usage(check),
                    engine.valves().stream().map(v -> past(v, at, leaves)).toList()));
        }
        CheckSheet.Builder sheet =
                CheckSheet.builder(spec, gauges(leaves)).usage(engine.now()).history(history);
        for (SimulatedEngine.Valve valve : engine.valves()) {
            sheet.valve(today(valve, leaves));
        }
        return sheet.build();
    }

    private static PastReading past(SimulatedEngine.Valve valve, int check, LeafSteps leaves) {
        LengthInterval found = LengthInterval.any();
        LengthInterval left = found;
        for (SimulatedEngine.Read read : valve.readings()) {
            if (read.check() == check) {
                left = leaves.reading(read.going());
                found = read.adjusted() ? found : left;
            }
        }
        return new PastReading(valve.id(), Gap.ONLY, found, left, null);
    }

    private static ValveReading today(SimulatedEngine.Valve valve, LeafSteps leaves) {
        int going = valve.readings().get(valve.readings().size() - 1).going();
        List<String> trials = new ArrayList<>();
        if (going > 0) {
            trials.add(leaves.step().times(going) + " goes");
        }
        if (going < leaves.count()) {
            trials.add(leaves.step().times(going + 1) + " refuses");
        }
        return ValveReading.of(valve.id().toString(), trials.toArray(String[]::new));
    }

    private static GaugeSet gauges(LeafSteps leaves) {
        return GaugeSet.of(
                LengthUnit.MILLIMETRE,
                IntStream.rangeClosed(1, leaves.count())
                        .mapToObj(i -> leaves.step().times(i).toString())
                        .toArray(String[]::new));
    }
}
