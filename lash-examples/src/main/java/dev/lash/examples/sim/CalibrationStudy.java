package dev.lash.examples.sim;

import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Usage;
import dev.lash.trend.CheckBy;
import dev.lash.trend.ClearanceHistory;
import dev.lash.trend.IntervalRegression;
import dev.lash.trend.TrendMethod;
import dev.lash.trend.TrendTask;
import dev.lash.trend.WearTrendFitter;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;

/**
 * Whether the stated risk is the observed one: engines whose wear is known are drawn, read with feeler leaves, and told when to come
 * back; then it is counted how many had a valve outside its window by then.
 *
 * <p>Part (a) draws them from the law that the fit assumes, part (b) with drifts twice as far from what that law expects. The same
 * readings are given to two other methods: least squares through the middles, and maximum likelihood with normal limits. The
 * maker's interval does not come in. The seed is fixed, so the output is the same each time but for rounding.
 */
public final class CalibrationStudy {
    static final long SEED = 20310917L;

    private static final int ENGINES = 60;
    private static final int MOST_DRAWS = 2000;
    private static final int FEW = 100;
    private static final double[] RISKS = {0.01, 0.05, 0.2};
    private static final List<Integer> CHECKS = List.of(2, 3, 5, 8);
    private static final List<Integer> VALVES = List.of(2, 4, 16);
    private static final List<String> STEPS = List.of("0.02", "0.05", "0.10");
    private static final double LEAST_RATIO = 0.5;
    private static final double MOST_RATIO = 1.2;
    private static final double MOST_RATIO_WIDER = 2;
    private static final int CHECKS_WIDER = 5;

    private final int engines;
    private final int threads;

    /**
     * A study.
     *
     * @param engines how many engines of 16 valves in each cell; the smaller engines are more, so that all cells take about as long
     * @param threads how many cells to work on at a time
     */
    CalibrationStudy(int engines, int threads) {
        this.engines = engines;
        this.threads = threads;
    }

    /** What the truth is drawn from. */
    enum Part {
        /** The law that the fit assumes. */
        AS_ASSUMED(1),
        /** Drifts twice as far from what is expected. */
        WIDER(2);

        private final double wider;

        Part(double wider) {
            this.wider = wider;
        }
    }

    /**
     * One kind of engine and check.
     *
     * @param part what the truth is drawn from
     * @param checks how many checks
     * @param valves how many valves
     * @param step how far the leaves are apart, in millimetres
     */
    record Cell(Part part, int checks, int valves, String step) {
        private long seed() {
            long seed = SEED;
            for (long each : new long[] {
                Math.round(part.wider),
                checks,
                valves,
                Length.ofMillimetres(step).nanometres()
            }) {
                seed = seed * 1_000_003 + each;
            }
            return seed;
        }
    }

    /** What was counted in a cell, or in several together. */
    static final class Counts {
        /** Engines drawn. */
        private long drawn;

        /** Those of them whose last readings all lay within the window: they were told when to come back. */
        private int asked;

        private final Tally[] withPriors = tallies();
        private final Tally[] middles = tallies();
        private final Tally[] likelihood = tallies();

        private static Tally[] tallies() {
            Tally[] tallies = new Tally[RISKS.length];
            for (int k = 0; k < tallies.length; k++) {
                tallies[k] = new Tally();
            }
            return tallies;
        }

        void add(Counts other) {
            drawn += other.drawn;
            asked += other.asked;
            for (int k = 0; k < RISKS.length; k++) {
                withPriors[k].add(other.withPriors[k]);
                middles[k].add(other.middles[k]);
                likelihood[k].add(other.likelihood[k]);
            }
        }

        Tally withPriors(int risk) {
            return withPriors[risk];
        }

        Tally middles(int risk) {
            return middles[risk];
        }

        Tally likelihood(int risk) {
            return likelihood[risk];
        }

        int asked() {
            return asked;
        }

        long drawn() {
            return drawn;
        }
    }

    /**
     * Prints the tables as Markdown.
     *
     * @param args engines of 16 valves per cell, and threads; 60 and 1 where not given
     * @throws InterruptedException if it is stopped
     */
    public static void main(String[] args) throws InterruptedException {
        int engines;
        int threads;
        try {
            engines = args.length > 0 ? Integer.parseInt(args[0]) : ENGINES;
            threads = args.length > 1 ? Integer.parseInt(args[1]) : 1;
        } catch (NumberFormatException e) {
            engines = 0;
            threads = 0;
        }
        if (args.length > 2 || engines < 1 || engines > 1_000_000 || threads < 1 || threads > 256) {
            System.err.println("CalibrationStudy [engines of 16 valves per cell, 1 to 1000000] [threads, 1 to 256]");
            return;
        }
        System.out.print(new CalibrationStudy(engines, threads).report());
    }

    /** How many engines a cell asks about. */
    int engines(Cell cell) {
        return engines * (cell.valves == 16 ? 1 : cell.valves == 4 ? 3 : 5);
    }

    static List<Cell> cells(Part part) {
        List<Cell> cells = new ArrayList<>();
        for (int checks : CHECKS) {
            for (int valves : VALVES) {
                for (String step : STEPS) {
                    cells.add(new Cell(part, checks, valves, step));
                }
            }
        }
        return cells;
    }

    /** Draws the engines of a cell and counts. */
    Counts count(Cell cell) {
        Counts counts = new Counts();
        Draws draws = new Draws(cell.seed());
        LeafSteps leaves = LeafSteps.of(Length.ofMillimetres(cell.step));
        int wanted = engines(cell);
        while (counts.asked < wanted && counts.drawn < (long) MOST_DRAWS * wanted) {
            SimulatedEngine engine = SimulatedEngine.draw(draws, cell.valves, cell.checks, leaves, cell.part.wider);
            counts.drawn++;
            if (engine.isLeftAsItIs()) {
                counts.asked++;
                ask(engine, counts);
            }
        }
        return counts;
    }

    private static void ask(SimulatedEngine engine, Counts counts) {
        List<TrendTask> tasks = engine.tasks();
        Usage now = engine.now();
        WearTrendFitter fitter = WearTrendFitter.withDefaults();
        add(fitter.checkBy(tasks, SimulatedEngine.PRIOR, now, RISKS), engine, counts.withPriors);
        if (tasks.stream().allMatch(CalibrationStudy::hasMaximum)) {
            List<CheckBy> answers =
                    fitter.withMethod(TrendMethod.MAXIMUM_LIKELIHOOD).checkBy(tasks, SimulatedEngine.PRIOR, now, RISKS);
            add(answers, engine, counts.likelihood);
        } else {
            addUnanswered(counts.likelihood);
        }
        List<MidpointLines.Line> lines = tasks.stream()
                .map(task -> MidpointLines.fit(task, SimulatedEngine.PRIOR))
                .flatMap(Optional::stream)
                .toList();
        if (lines.size() == tasks.size()) {
            add(byMiddles(lines, tasks, now), engine, counts.middles);
        } else {
            addUnanswered(counts.middles);
        }
    }

    private static void add(List<CheckBy> answers, SimulatedEngine engine, Tally[] tallies) {
        for (int k = 0; k < tallies.length; k++) {
            tallies[k].add(answers.get(k), engine);
        }
    }

    private static void addUnanswered(Tally[] tallies) {
        for (Tally tally : tallies) {
            tally.addUnanswered();
        }
    }

    /** Whether the likelihood of one gap, with a level for each segment and one drift, has a maximum. */
    private static boolean hasMaximum(TrendTask task) {
        double[][] design = MidpointLines.design(task.history(), SimulatedEngine.PRIOR);
        List<LengthInterval> readings = task.history().readings().stream()
                .map(ClearanceHistory.Reading::clearance)
                .toList();
        double[] low = readings.stream()
                .mapToDouble(r -> r.lower().map(MidpointLines::millimetres).orElse(Double.NEGATIVE_INFINITY))
                .toArray();
        double[] high = readings.stream()
                .mapToDouble(r -> r.upper().map(MidpointLines::millimetres).orElse(Double.POSITIVE_INFINITY))
                .toArray();
        return IntervalRegression.of(design, low, high).fit().maximum().isPresent();
    }

    private static List<CheckBy> byMiddles(List<MidpointLines.Line> lines, List<TrendTask> tasks, Usage now) {
        List<CheckBy> answers = new ArrayList<>();
        for (double risk : RISKS) {
            OptionalDouble ahead = MidpointLines.ahead(lines, risk);
            BigDecimal more = SimulatedEngine.PRIOR
                    .per()
                    .amount()
                    .multiply(BigDecimal.valueOf(ahead.orElse(0)))
                    .setScale(0, RoundingMode.FLOOR);
            CheckBy.Reason reason = ahead.isEmpty()
                    ? CheckBy.Reason.NO_LIMIT
                    : ahead.getAsDouble() == 0 ? CheckBy.Reason.NOW : CheckBy.Reason.VALVE;
            ClearanceHistory first = soonest(lines, tasks, risk).history();
            answers.add(new CheckBy(now.plus(Usage.of(more, now.unit())), risk, reason, first.valve(), first.gap()));
        }
        return answers;
    }

    private static TrendTask soonest(List<MidpointLines.Line> lines, List<TrendTask> tasks, double risk) {
        int first = 0;
        double least = Double.POSITIVE_INFINITY;
        for (int i = 0; i < lines.size(); i++) {
            double ahead = MidpointLines.ahead(List.of(lines.get(i)), risk).orElse(Double.POSITIVE_INFINITY);
            if (ahead < least) {
                first = i;
                least = ahead;
            }
        }
        return tasks.get(first);
    }

    /** Everything that is printed. */
    String report() throws InterruptedException {
        StringBuilder out = new StringBuilder();
        out.append(head(engines));
        for (Part part : Part.values()) {
            List<Cell> cells = cells(part);
            List<Counts> counts = countAll(cells);
            out.append('\n').append(title(part)).append("\n\n");
            pooled(out, part, cells, counts);
            out.append('\n').append(columns(part));
            for (int i = 0; i < cells.size(); i++) {
                out.append(rows(cells.get(i), counts.get(i)));
            }
            out.append('\n');
            judge(out, part, cells, counts);
        }
        return out.toString();
    }

    private List<Counts> countAll(List<Cell> cells) throws InterruptedException {
        ExecutorService service = Executors.newFixedThreadPool(threads);
        try {
            List<Future<Counts>> futures = new ArrayList<>();
            for (Cell cell : cells) {
                futures.add(service.submit(() -> count(cell)));
            }
            List<Counts> counts = new ArrayList<>();
            for (Future<Counts> future : futures) {
                counts.add(future.get());
                System.err.println(counts.size() + " of " + cells.size() + " cells");
            }
            return counts;
        } catch (ExecutionException e) {
            throw new IllegalStateException("a cell failed", e.getCause());
        } finally {
            service.shutdownNow();
        }
    }

    /** The first lines of the output. */
    static String head(int engines) {
        return "Seed " + SEED + "; engines asked about in each cell: " + engines + " of 16 valves, " + 3 * engines
                + " of 4, " + 5 * engines + " of 2.\n";
    }

    static String title(Part part) {
        return switch (part) {
            case AS_ASSUMED -> "### (a) Truth as the fit assumes";
            case WIDER -> "### (b) Truth with twice the spread of drift";
        };
    }

    /** The head of the large table of a part. */
    static String columns(Part part) {
        String shown = shown(part);
        return "| checks | valves | leaves, mm | risk | asked of drawn | now | no limit | ahead | with priors, " + shown
                + " | 99 % interval | least squares, " + shown + " | ahead | none | likelihood, " + shown
                + " | ahead | none |\n|" + "---|".repeat(16) + "\n";
    }

    private static String shown(Part part) {
        return part == Part.AS_ASSUMED ? "observed / stated" : "observed";
    }

    /** The rows of a cell, one for each risk. */
    static String rows(Cell cell, Counts counts) {
        StringBuilder out = new StringBuilder();
        for (int k = 0; k < RISKS.length; k++) {
            Tally priors = counts.withPriors[k];
            Tally middles = counts.middles[k];
            Tally likelihood = counts.likelihood[k];
            out.append("| ")
                    .append(String.join(
                            " | ",
                            String.valueOf(cell.checks),
                            String.valueOf(cell.valves),
                            cell.step,
                            risk(k),
                            counts.asked + " of " + counts.drawn,
                            percent(priors.now(), counts.asked),
                            percent(priors.unlimited(), counts.asked),
                            String.valueOf(priors.used()),
                            share(cell.part, k, priors),
                            interval(cell.part, k, priors),
                            share(cell.part, k, middles),
                            String.valueOf(middles.used()),
                            percent(middles.unanswered(), counts.asked),
                            share(cell.part, k, likelihood),
                            String.valueOf(likelihood.used()),
                            percent(likelihood.unanswered(), counts.asked)))
                    .append(" |\n");
        }
        return out.toString();
    }

    private static String risk(int k) {
        return Math.round(100 * RISKS[k]) + " %";
    }

    private static String percent(long part, long whole) {
        return whole == 0 ? "-" : String.format(Locale.ROOT, "%.0f %%", 100.0 * part / whole);
    }

    private static String share(Part part, int k, Tally tally) {
        return tally.used() == 0 ? "-" : figure(part, k, tally.share());
    }

    private static String interval(Part part, int k, Tally tally) {
        double[] ends = tally.interval();
        return tally.used() == 0 ? "-" : figure(part, k, ends[0]) + " to " + figure(part, k, ends[1]);
    }

    private static String figure(Part part, int k, double share) {
        return part == Part.AS_ASSUMED
                ? String.format(Locale.ROOT, "%.2f", share / RISKS[k])
                : String.format(Locale.ROOT, "%.1f %%", 100 * share);
    }

    /** All cells of as many checks together. */
    private static void pooled(StringBuilder out, Part part, List<Cell> cells, List<Counts> counts) {
        String shown = shown(part);
        out.append("| checks | risk | ahead | with priors, ")
                .append(shown)
                .append(" | 99 % interval | least squares, ")
                .append(shown)
                .append(" | ahead | none | likelihood, ")
                .append(shown)
                .append(" | ahead | none |\n|")
                .append("---|".repeat(11))
                .append('\n');
        for (int checks : CHECKS) {
            Counts sum = new Counts();
            for (int i = 0; i < cells.size(); i++) {
                if (cells.get(i).checks == checks) {
                    sum.add(counts.get(i));
                }
            }
            for (int k = 0; k < RISKS.length; k++) {
                Tally priors = sum.withPriors[k];
                out.append("| ")
                        .append(String.join(
                                " | ",
                                String.valueOf(checks),
                                risk(k),
                                String.valueOf(priors.used()),
                                share(part, k, priors),
                                interval(part, k, priors),
                                share(part, k, sum.middles[k]),
                                String.valueOf(sum.middles[k].used()),
                                percent(sum.middles[k].unanswered(), sum.asked),
                                share(part, k, sum.likelihood[k]),
                                String.valueOf(sum.likelihood[k].used()),
                                percent(sum.likelihood[k].unanswered(), sum.asked)))
                        .append(" |\n");
            }
        }
    }

    /** Says which rows do not meet what is asked of the method with priors. */
    private static void judge(StringBuilder out, Part part, List<Cell> cells, List<Counts> counts) {
        int few = 0;
        int rows = 0;
        List<String> outside = new ArrayList<>();
        List<String> above = new ArrayList<>();
        for (int i = 0; i < cells.size(); i++) {
            Cell cell = cells.get(i);
            for (int k = 0; k < RISKS.length; k++) {
                Tally tally = counts.get(i).withPriors[k];
                String name = cell.checks + " checks, " + cell.valves + " valves, " + cell.step + " mm, " + risk(k);
                rows++;
                few += tally.used() < FEW ? 1 : 0;
                if (!meets(part, cell, RISKS[k], tally.interval())) {
                    outside.add(name);
                }
                if (part == Part.WIDER && cell.checks >= CHECKS_WIDER && tally.share() > MOST_RATIO_WIDER * RISKS[k]) {
                    above.add(name + " (" + share(part, k, tally) + " of " + tally.used() + ")");
                }
            }
        }
        out.append("Rows with fewer than " + FEW + " engines ahead, which tell little: ")
                .append(few)
                .append(" of ")
                .append(rows)
                .append(".\n")
                .append(
                        part == Part.AS_ASSUMED
                                ? "Rows whose 99 % interval does not meet 0.5 to 1.2 times the stated risk: "
                                : "Rows from 5 checks on whose 99 % interval lies above twice the stated risk: ")
                .append(outside.isEmpty() ? "none" : String.join("; ", outside))
                .append(".\n");
        if (part == Part.WIDER) {
            out.append("Rows from 5 checks on with a share above twice the stated risk: ")
                    .append(above.isEmpty() ? "none" : String.join("; ", above))
                    .append(".\n");
        }
    }

    /** Whether an interval of the observed share meets what is asked of a cell. */
    static boolean meets(Part part, Cell cell, double risk, double[] interval) {
        return part == Part.AS_ASSUMED
                ? interval[1] >= LEAST_RATIO * risk && interval[0] <= MOST_RATIO * risk
                : cell.checks < CHECKS_WIDER || interval[0] <= MOST_RATIO_WIDER * risk;
    }
}
