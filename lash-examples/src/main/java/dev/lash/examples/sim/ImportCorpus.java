package dev.lash.examples.sim;

import dev.lash.check.ImportCode;
import dev.lash.check.ImportFinding;
import dev.lash.check.ImportedMachine;
import dev.lash.check.ReadingValidator;
import dev.lash.check.RowOutcome.Fate;
import dev.lash.check.Severity;
import dev.lash.check.ValidationProfile;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.ReadingRule;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Temperature;
import dev.lash.specs.ImportMapping;
import dev.lash.specs.ImportSession;
import dev.lash.specs.ImportSummary;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;

/**
 * Years of readings of the riding school's fleet as another system might hand them over, with known faults planted, and how many of
 * them an import finds. The seed is fixed, so the corpus and its table are the same each time.
 *
 * <p>Truth: a valve closes up by a normal amount between visits, 0.008 mm on average with a standard deviation of 0.008 mm (assumed:
 * no wear rate is published), and a shim is swapped where it is within 0.01 mm of its lower limit. At most one fault is planted in a
 * visit.
 */
public final class ImportCorpus {
    private static final long SEED = 20310601L;
    private static final LocalDate TODAY = LocalDate.of(2033, 1, 1);
    private static final int[] LEAVES = {4, 5, 6, 7, 8, 9, 10, 12, 13, 15, 16, 17, 18, 20, 22, 25, 28, 30, 35, 40};
    private static final String HEADER = "machine;date;usage;temperature;valve;goes;refuses;left;shim;fitted";
    private static final ImportMapping MAPPING = ImportMapping.read("corpus", """
            { "format": "lash-mapping/1", "delimiter": ";", "unit": "mm", "usageUnit": "km",
              "columns": { "machine": "machine", "date": "date", "usage": "usage", "temperature": "temperature",
                "valve": "valve", "goes": "goes", "refuses": "refuses", "left": "left", "shim": "shim",
                "fitted": "fitted" } }
            """);
    private static final EngineSpec ENGINE = EngineSpec.builder("road-twin", "Road trainer, bucket twin")
            .valves("1-in-1", "1-ex-1", "2-in-1", "2-ex-1")
            .train(ValveTrain.Shim.bucket(
                    ValveTrain.ShimPlace.UNDER_BUCKET, ShimRange.parse("1.20..3.50 mm step 0.05 mm")))
            .window(ValveRole.INTAKE, ClearanceWindow.parse("0.08..0.13 mm"))
            .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.17..0.22 mm"))
            .warmest(Temperature.ofCelsius(35))
            .build();

    private static final int MACHINE = 0;
    private static final int DATE = 1;
    private static final int USAGE = 2;
    private static final int WARMTH = 3;
    private static final int VALVE = 4;
    private static final int GOES = 5;
    private static final int REFUSES = 6;
    private static final int LEFT = 7;
    private static final int SHIM = 8;
    private static final int FITTED = 9;

    private final SplittableRandom random;
    private final double faultShare;
    private final List<String[]> rows = new ArrayList<>();
    private final Map<Integer, ImportCode> planted = new HashMap<>();
    private final List<ImportCode> kinds = List.of(
            ImportCode.MISSING_VALUE,
            ImportCode.UNPARSABLE,
            ImportCode.NO_UNIT,
            ImportCode.DECIMAL_COMMA,
            ImportCode.OTHER_UNIT,
            ImportCode.WHOLE_HUNDREDTHS,
            ImportCode.CONTRADICTION,
            ImportCode.UNKNOWN_MACHINE,
            ImportCode.UNKNOWN_VALVE,
            ImportCode.DUPLICATE,
            ImportCode.DUPLICATE_DIFFERS,
            ImportCode.ROLES_SWAPPED,
            ImportCode.USAGE_BACKWARDS,
            ImportCode.USAGE_JUMP,
            ImportCode.DATE_IN_FUTURE,
            ImportCode.DATE_OUT_OF_ORDER,
            ImportCode.IMPOSSIBLE_CLEARANCE,
            ImportCode.LEAF_NOT_OWNED,
            ImportCode.ENGINE_TOO_WARM,
            ImportCode.SHIM_NOT_IN_RANGE,
            ImportCode.SHIM_NOT_AS_RECORDED,
            ImportCode.SHIM_ARITHMETIC,
            ImportCode.LOOSENED);

    /**
     * Makes a corpus.
     *
     * @param seed the seed
     * @param machines how many machines
     * @param faultShare the share of visits with a fault
     */
    public ImportCorpus(long seed, int machines, double faultShare) {
        this.random = new SplittableRandom(seed);
        this.faultShare = faultShare;
        for (int i = 0; i < machines; i++) {
            machine("Trainer " + i);
        }
    }

    /** {@return the corpus as delimited text} */
    public String text() {
        StringBuilder out = new StringBuilder(HEADER).append('\n');
        rows.forEach(row -> out.append(String.join(";", row)).append('\n'));
        return out.toString();
    }

    /** {@return how many rows it has, without the header} */
    public int size() {
        return rows.size();
    }

    /** {@return what to check it with} */
    public static ReadingValidator validator() {
        GaugeSet gauges = GaugeSet.of(
                LengthUnit.MILLIMETRE,
                Arrays.stream(LEAVES).mapToObj(ImportCorpus::millimetres).toArray(String[]::new));
        ImportedMachine machine = new ImportedMachine(ENGINE, gauges, ReadingRule.simple());
        return ReadingValidator.of(
                name -> name.startsWith("Trainer") ? Optional.of(machine) : Optional.empty(),
                ValidationProfile.defaults(),
                TODAY);
    }

    /** {@return what its columns hold} */
    public static ImportMapping mapping() {
        return MAPPING;
    }

    private static String millimetres(long hundredths) {
        return BigDecimal.valueOf(hundredths, 2).toPlainString();
    }

    private double normal() {
        double deviate = -6;
        for (int i = 0; i < 12; i++) {
            deviate += random.nextDouble();
        }
        return deviate;
    }

    private void machine(String name) {
        int valves = ENGINE.valves().size();
        double[] clearance = new double[valves];
        int[] shim = new int[valves];
        for (int v = 0; v < valves; v++) {
            clearance[v] = low(v) + 2 + 2.5 * random.nextDouble();
            shim[v] = 200 + 5 * random.nextInt(12);
        }
        LocalDate date = LocalDate.of(2022, 1, 1).plusDays(random.nextInt(400));
        double usage = 500 + random.nextInt(2000);
        double perDay = 10 + 15 * random.nextDouble();
        int visits = 8 + random.nextInt(7);
        LocalDate before = date;
        double usageBefore = usage;
        for (int i = 0; i < visits; i++) {
            ImportCode fault = random.nextDouble() < faultShare ? kinds.get(random.nextInt(kinds.size())) : null;
            int at = random.nextInt(valves);
            if (i == 0
                    && fault != null
                    && (fault == ImportCode.USAGE_BACKWARDS
                            || fault == ImportCode.USAGE_JUMP
                            || fault == ImportCode.DATE_OUT_OF_ORDER
                            || fault == ImportCode.LOOSENED
                            || fault == ImportCode.SHIM_NOT_AS_RECORDED)) {
                fault = null;
            }
            List<String[]> visit = new ArrayList<>();
            for (int v = 0; v < valves; v++) {
                clearance[v] = Math.max(4.6, clearance[v] - 0.8 + 0.8 * normal());
                if (v == at && fault == ImportCode.LOOSENED) {
                    clearance[v] += 9;
                }
                if (v == at && fault == ImportCode.SHIM_NOT_AS_RECORDED) {
                    shim[v] -= 5;
                    clearance[v] += 5;
                }
                String[] row = new String[FITTED + 1];
                row[MACHINE] = name;
                row[DATE] = date.toString();
                row[USAGE] = Long.toString(Math.round(usage));
                row[WARMTH] = 12 + random.nextInt(15) + " °C";
                row[VALVE] = ENGINE.valves().get(v).toString();
                feel(row, clearance[v]);
                row[LEFT] = "";
                row[SHIM] = millimetres(shim[v]);
                row[FITTED] = "";
                boolean arithmetic = v == at && fault == ImportCode.SHIM_ARITHMETIC;
                if (clearance[v] < low(v) + 1 || clearance[v] > low(v) + 6 || arithmetic) {
                    int step = (int) Math.round((low(v) + 3.5 - clearance[v]) / 5) * 5;
                    step = step == 0 ? 5 : step;
                    shim[v] -= step;
                    clearance[v] += step;
                    row[FITTED] = millimetres(shim[v]);
                    String[] after = new String[FITTED + 1];
                    // a size written down wrongly
                    feel(after, clearance[v]);
                    row[LEFT] = "(" + after[GOES] + ", " + after[REFUSES] + ") mm";
                    if (arithmetic) {
                        shim[v] += 20 + 5 * random.nextInt(3);
                        row[FITTED] = millimetres(shim[v]);
                    }
                }
                visit.add(row);
            }
            int start = rows.size();
            rows.addAll(visit);
            if (fault != null) {
                plant(fault, start, at, before, usageBefore);
            }
            before = date;
            usageBefore = usage;
            int days = 90 + random.nextInt(160);
            date = date.plusDays(days);
            usage += Math.max(50, days * perDay * (0.5 + 1.3 * random.nextDouble()));
        }
    }

    private static double low(int valve) {
        return ENGINE.valves().get(valve).role() == ValveRole.INTAKE ? 8 : 17;
    }

    /** The thickest leaf that goes and the thinnest that does not. */
    private static void feel(String[] row, double clearance) {
        int i = 0;
        while (i + 1 < LEAVES.length && LEAVES[i + 1] < clearance) {
            i++;
        }
        row[GOES] = millimetres(LEAVES[i]);
        row[REFUSES] = millimetres(LEAVES[i + 1]);
    }

    private void plant(ImportCode fault, int start, int at, LocalDate before, double usageBefore) {
        int index = start + at;
        String[] row = rows.get(index);
        switch (fault) {
            case MISSING_VALUE -> row[random.nextInt(2) == 0 ? DATE : USAGE] = "";
            case UNPARSABLE ->
                row[GOES] = List.of("O.10", "0.1O", "n/a", "0.10 mn", "1/10").get(random.nextInt(5));
            case NO_UNIT -> row[WARMTH] = row[WARMTH].replace(" °C", "");
            case DECIMAL_COMMA -> row[REFUSES] = row[REFUSES].replace('.', ',');
            case OTHER_UNIT -> {
                row[GOES] = inches(row[GOES]);
                row[REFUSES] = inches(row[REFUSES]);
            }
            case WHOLE_HUNDREDTHS -> {
                row[GOES] = hundredths(row[GOES]);
                row[REFUSES] = hundredths(row[REFUSES]);
            }
            case CONTRADICTION -> {
                String goes = row[GOES];
                row[GOES] = row[REFUSES];
                row[REFUSES] = goes;
            }
            case UNKNOWN_MACHINE -> row[MACHINE] = "Trailer " + index;
            case UNKNOWN_VALVE -> row[VALVE] = "3-in-1";
            case DUPLICATE -> {
                rows.add(row.clone());
                index = rows.size() - 1;
            }
            case DUPLICATE_DIFFERS -> {
                String[] other = row.clone();
                other[SHIM] = "";
                other[FITTED] = "";
                other[LEFT] = "";
                rows.add(other);
                index = rows.size() - 1;
            }
            case ROLES_SWAPPED -> {
                int pair = start + at / 2 * 2;
                String name = rows.get(pair)[VALVE];
                rows.get(pair)[VALVE] = rows.get(pair + 1)[VALVE];
                rows.get(pair + 1)[VALVE] = name;
                planted.put(pair, fault);
                index = pair + 1;
            }
            case USAGE_BACKWARDS -> row[USAGE] = Long.toString(Math.round(usageBefore * 0.9 - 1));
            case USAGE_JUMP -> row[USAGE] = row[USAGE] + random.nextInt(10) + "0";
            case DATE_IN_FUTURE -> row[DATE] = "21" + row[DATE].substring(2);
            case DATE_OUT_OF_ORDER ->
                row[DATE] = before.minusDays(1 + random.nextInt(20)).toString();
            case IMPOSSIBLE_CLEARANCE -> {
                row[GOES] = "2.75";
                row[REFUSES] = "3.00";
            }
            case LEAF_NOT_OWNED -> row[REFUSES] = row[REFUSES] + "5";
            case ENGINE_TOO_WARM -> row[WARMTH] = 45 + random.nextInt(40) + " °C";
            case SHIM_NOT_IN_RANGE -> {
                row[SHIM] = "";
                row[FITTED] = "2.43";
                row[LEFT] = "(" + row[GOES] + ", " + row[REFUSES] + ") mm";
            }
            default -> {
                // the clearance or the shim is that way already
            }
        }
        planted.put(index, fault);
    }

    private static String inches(String millimetres) {
        return new BigDecimal(millimetres)
                .divide(new BigDecimal("25.4"), 3, RoundingMode.HALF_UP)
                .toPlainString();
    }

    private static String hundredths(String millimetres) {
        return new BigDecimal(millimetres)
                .movePointRight(2)
                .stripTrailingZeros()
                .toPlainString();
    }

    /** How the import did on one code. */
    private static final class Score {
        int planted;
        int found;
        int elsewhere;
    }

    /**
     * What an import found of what was planted.
     *
     * @param rows rows of the clean and of the faulty corpus together
     * @param cleanRows rows of the corpus without faults
     * @param falseErrors its rows with a finding that is an error
     * @param recall by code, the share of the planted faults that was found
     * @param precision by code, the share of the rows with the finding in which it was planted
     * @param table the table as Markdown
     */
    public record Result(
            int rows,
            int cleanRows,
            int falseErrors,
            Map<ImportCode, Double> recall,
            Map<ImportCode, Double> precision,
            String table) {
        /**
         * Creates a result.
         *
         * @param rows rows of the clean and of the faulty corpus together
         * @param cleanRows rows of the corpus without faults
         * @param falseErrors its rows with a finding that is an error
         * @param recall by code, the share of the planted faults that was found
         * @param precision by code, the share of the rows with the finding in which it was planted
         * @param table the table as Markdown
         */
        public Result {
            recall = Map.copyOf(recall);
            precision = Map.copyOf(precision);
        }
    }

    /**
     * Imports a corpus with faults and one without, and counts.
     *
     * @param machines how many machines each has
     * @return what was found
     */
    public static Result measure(int machines) {
        ImportCorpus faulty = new ImportCorpus(SEED, machines, 0.25);
        ImportCorpus clean = new ImportCorpus(SEED + 1, machines, 0);
        Map<ImportCode, Score> scores = new EnumMap<>(ImportCode.class);
        faulty.kinds.forEach(code -> scores.put(code, new Score()));
        Map<Integer, Set<ImportCode>> found = faulty.findings();
        faulty.planted.forEach((row, code) -> {
            Score score = scores.computeIfAbsent(code, c -> new Score());
            score.planted++;
            score.found += found.getOrDefault(row, Set.of()).contains(code) ? 1 : 0;
        });
        found.forEach((row, codes) -> codes.forEach(code -> {
            Score score = scores.get(code);
            if (score != null && faulty.planted.get(row) != code) {
                score.elsewhere++;
            }
        }));
        int falseErrors = 0;
        for (Set<ImportCode> codes : clean.findings().values()) {
            falseErrors += codes.stream().anyMatch(c -> c.severity() == Severity.ERROR) ? 1 : 0;
        }
        Map<ImportCode, Double> recall = new EnumMap<>(ImportCode.class);
        Map<ImportCode, Double> precision = new EnumMap<>(ImportCode.class);
        StringBuilder table = new StringBuilder("| code | severity | planted | found | recall | precision |\n");
        table.append("|---|---|---|---|---|---|\n");
        scores.forEach((code, score) -> {
            double r = score.planted == 0 ? 0 : (double) score.found / score.planted;
            double p = score.found == 0 ? 0 : (double) score.found / (score.found + score.elsewhere);
            recall.put(code, r);
            precision.put(code, p);
            table.append(String.format(
                    Locale.ROOT,
                    "| %s | %s | %d | %d | %.1f %% | %.1f %% |\n",
                    code,
                    code.severity(),
                    score.planted,
                    score.found,
                    100 * r,
                    100 * p));
        });
        table.append(String.format(
                Locale.ROOT,
                "\nIn %d rows without a fault, %d had a finding of severity error.\n",
                clean.size(),
                falseErrors));
        return new Result(faulty.size() + clean.size(), clean.size(), falseErrors, recall, precision, table.toString());
    }

    /**
     * What one wrong digit in a date or a usage costs the rows after it.
     *
     * @param planted rows in which a digit was changed
     * @param rejected how many of them were rejected
     * @param goodRows all other rows
     * @param goodRejected how many of those were rejected
     */
    public record Strays(int planted, int rejected, int goodRows, int goodRejected) {
        /**
         * Creates the counts.
         *
         * @param planted rows in which a digit was changed
         * @param rejected how many of them were rejected
         * @param goodRows all other rows
         * @param goodRejected how many of those were rejected
         */
        public Strays {
            if (rejected > planted || goodRejected > goodRows) {
                throw new IllegalArgumentException("more rows rejected than there are");
            }
        }
    }

    /**
     * Imports a corpus in which each machine has one visit with a wrong digit, and counts.
     *
     * @param machines how many machines it has
     * @param date whether a digit of the date is wrong, or else one of the usage
     * @param wholeVisit whether all rows of the visit have it, or else one of them
     * @return what was rejected
     */
    public static Strays strays(int machines, boolean date, boolean wholeVisit) {
        ImportCorpus corpus = new ImportCorpus(SEED + 2, machines, 0);
        Set<Integer> planted = new HashSet<>();
        int valves = ENGINE.valves().size();
        int start = 0;
        while (start < corpus.size()) {
            int end = start;
            while (end < corpus.size()
                    && corpus.rows.get(end)[MACHINE].equals(corpus.rows.get(start)[MACHINE])) {
                end++;
            }
            int visit = start + corpus.random.nextInt((end - start) / valves) * valves;
            int first = visit + (wholeVisit ? 0 : corpus.random.nextInt(valves));
            int column = date ? DATE : USAGE;
            String wrong = corpus.wrongDigit(corpus.rows.get(visit)[column], date);
            for (int i = first; i < (wholeVisit ? visit + valves : first + 1); i++) {
                corpus.rows.get(i)[column] = wrong;
                planted.add(i);
            }
            start = end;
        }
        int rejected = 0;
        int goodRejected = 0;
        for (Map.Entry<Integer, Set<ImportCode>> found : corpus.findings().entrySet()) {
            if (found.getValue().stream().anyMatch(c -> c.severity() == Severity.ERROR)) {
                rejected += planted.contains(found.getKey()) ? 1 : 0;
                goodRejected += planted.contains(found.getKey()) ? 0 : 1;
            }
        }
        return new Strays(planted.size(), rejected, corpus.size() - planted.size(), goodRejected);
    }

    /** The text with one digit changed; of a date so that it is one, and past. */
    private String wrongDigit(String text, boolean date) {
        while (true) {
            int at = random.nextInt(text.length());
            char digit = (char) ('0' + random.nextInt(10));
            char old = text.charAt(at);
            if (old < '0' || old > '9' || digit == old || (at == 0 && digit == '0')) {
                continue;
            }
            String wrong = text.substring(0, at) + digit + text.substring(at + 1);
            if (!date) {
                return wrong;
            }
            try {
                if (!LocalDate.parse(wrong).isAfter(TODAY)) {
                    return wrong;
                }
            } catch (DateTimeException noDate) {
                // another digit
            }
        }
    }

    private static String straysTable() {
        StringBuilder table = new StringBuilder("| one wrong digit in | rows | rejected | good rows | rejected |\n");
        table.append("|---|---|---|---|---|\n");
        for (int i = 0; i < 4; i++) {
            Strays strays = strays(MACHINES, i < 2, i % 2 == 1);
            table.append(String.format(
                    Locale.ROOT,
                    "| %s of %s | %d | %d | %d | %d |\n",
                    i < 2 ? "the date" : "the usage",
                    i % 2 == 1 ? "a whole visit" : "one row",
                    strays.planted(),
                    strays.rejected(),
                    strays.goodRows(),
                    strays.goodRejected()));
        }
        return table.toString();
    }

    /** The codes found, by index of the row. */
    private Map<Integer, Set<ImportCode>> findings() {
        Map<Integer, Set<ImportCode>> found = new HashMap<>();
        ImportSession session = new ImportSession(validator(), reading -> {}, count -> {});
        try {
            session.csv(
                    "corpus",
                    new ByteArrayInputStream(text().getBytes(StandardCharsets.UTF_8)),
                    MAPPING,
                    new ImportSession.Output() {
                        @Override
                        public void header(String text) {
                            // only the findings count here
                        }

                        @Override
                        public void rejected(long row, String text) {
                            // only the findings count here
                        }

                        @Override
                        public void finding(ImportFinding finding, Fate fate) {
                            found.computeIfAbsent((int) finding.row() - 2, r -> EnumSet.noneOf(ImportCode.class))
                                    .add(finding.code());
                        }
                    });
        } catch (IOException impossible) {
            throw new UncheckedIOException(impossible);
        }
        ImportSummary summary = session.summary();
        if (summary.read() != rows.size()) {
            throw new IllegalStateException(summary.read() + " rows read of " + rows.size());
        }
        return found;
    }

    /** {@return the document about the measurement, every line with its end} */
    public static String document() {
        return """
                # How well an import finds faults

                Made by `dev.lash.examples.sim.ImportCorpus`; a test holds this page to what the program writes. The corpus is generated
                with a fixed seed: years of readings of an invented fleet of road trainers with two cylinders and shims, windows of 0.08 to
                0.13 mm and 0.17 to 0.22 mm, read with a set of twenty leaves. A quarter of the visits has one fault, planted at random among
                the codes below. Recall is the share of planted faults that was found with their own code; precision is the share of the rows
                with a code in which it was planted. The wear that the generator assumes is an assumption: no wear rate is published.

                A shim that is not the recorded one shows up beyond the rows in which it was planted where a row with a shim swap was rejected
                because nobody can tell its machine or valve: the visit after it then finds a shim that the accepted records do not know, and
                is right to say so. Where the rejected row names machine and valve, the swap that it tells of explains the shim, and nothing
                is said. A reading that is far too loose, as a planted loosening is, may look like a role swap, and the other way round.

                What the table does not show: a date or a usage that is wrong, and that nothing stands against when it is read, shuts out
                the good rows after it. The second table is about that. One visit of each machine has a digit wrong, either all its rows or
                one of them; the date is a date, and past. A row whose wrong value still fits between its neighbours is not noticed. A good
                row is rejected where but one visit stands against the wrong one, as nobody can tell then which of the two is wrong; the
                finding names the other by its date and row.

                The thresholds are those of `ValidationProfile.defaults()`.

                """ + measure(MACHINES).table() + "\n" + straysTable() + """

                Open data goes through the same door: weights and heights of 200 people, of whom one has the two in each other's place (data set
                Davis of the R package carData 3.0-5; C. Davis (1990), Appetite 15, 13-21), as readings of intake and exhaust valves whose
                windows do not overlap. The swap is named for that one, with the right names as the correction, and nothing for the others
                (`OpenDataImportTest` in lash-specs). A reading outside its window is a verdict, not a finding: it is accepted;
                one that lies wholly beyond five times its ends is accepted with a doubt (`far-from-window`).
                """;
    }

    /** How many machines the document is about. */
    static final int MACHINES = 1500;

    /**
     * Prints the document.
     *
     * @param args not used
     */
    public static void main(String[] args) {
        System.out.print(document());
    }
}
