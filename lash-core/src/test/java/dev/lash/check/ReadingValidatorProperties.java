package dev.lash.check;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.gauge.Evidence;
import dev.lash.gauge.Fit;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.Trial;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.Usage;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.LongRange;
import net.jqwik.api.constraints.Size;

class ReadingValidatorProperties {
    private static final RecordLayout ALL = RecordLayout.ofAllFields();
    private static final LocalDate TODAY = LocalDate.of(2033, 1, 1);

    @Provide
    Arbitrary<List<Trial>> trials() {
        Arbitrary<Leaf> leaf =
                Arbitraries.integers().between(4, 12).map(i -> new Leaf(Length.ofNanometres(i * 10_000L)));
        Arbitrary<LeafStack> stack = leaf.list().ofMinSize(1).ofMaxSize(2).map(LeafStack::new);
        return Combinators.combine(stack, Arbitraries.of(Fit.class))
                .as(Trial::new)
                .list()
                .ofMinSize(1)
                .ofMaxSize(5);
    }

    /** The quick path says what the evidence of the same trials says. */
    @Property
    void trialsAreReadAsEvidenceReadsThem(@ForAll("trials") List<Trial> trials, @ForAll boolean guarded) {
        ReadingRule rule = guarded
                ? ReadingRule.guarded(Length.ofMillimetres("0.006"), Length.ofMillimetres("0.003"))
                : ReadingRule.simple();
        Claims claims = new Claims()
                .begin(new EngineView(
                        new ImportedMachine(School.generatorEngine().build(), null, rule)));
        for (Trial trial : trials) {
            claims.add(
                    ReadingField.TRIALS,
                    "",
                    trial.leaf().toString(),
                    trial.leaf().thickness().nanometres(),
                    trial.leaf().size(),
                    trial.fit());
        }
        Evidence evidence = Evidence.of(trials, rule);
        assertThat(claims.contradicts()).isEqualTo(evidence.bracket().isEmpty());
        evidence.bracket().ifPresent(b -> assertThat(claims.span().interval()).isEqualTo(b.interval()));
    }

    @Property
    void numbersAreReadAsLengthsAre(
            @ForAll @LongRange(min = -99_999, max = 99_999) long digits, @ForAll @IntRange(max = 6) int decimals) {
        String text = java.math.BigDecimal.valueOf(digits, decimals).toPlainString();
        NumberText number = new NumberText();
        assertThat(number.read(text, 0, text.length(), false)).isEqualTo(NumberText.State.NUMBER);
        for (LengthUnit unit : LengthUnit.values()) {
            long expected;
            try {
                expected = Length.parse(text, unit).nanometres();
            } catch (RejectedValueException refused) {
                expected = NumberText.NONE;
            }
            assertThat(number.nanometres(unit)).isEqualTo(expected);
        }
    }

    @Provide
    Arbitrary<String> intervals() {
        Arbitrary<String> number = Arbitraries.of(
                "0.1",
                "0.10",
                "0.13",
                "0",
                "00.1",
                ".1",
                "1.",
                "-0.1",
                "+0.1",
                "0.1000005",
                "12345678901.2",
                "0.1 mm",
                "1e1",
                "");
        return Combinators.combine(
                        Arbitraries.of("(", "[", "", "<"),
                        number,
                        Arbitraries.of(", ", ",", " , ", ",  "),
                        number,
                        Arbitraries.of(")", "]", "", "))"),
                        Arbitraries.of(" mm", "", "mm", " in", " m", " mm "))
                .as((open, low, comma, high, shut, unit) -> open + low + comma + high + shut + unit);
    }

    /** The quick path is only ever quicker. */
    @Property
    void intervalsAreReadAsIntervalsAre(@ForAll("intervals") String text, @ForAll boolean declared) {
        LengthUnit unit = declared ? LengthUnit.THOU : null;
        Span quick = new RowJudge(ValidationProfile.defaults(), TODAY).quickInterval(text, unit);
        if (quick != null) {
            boolean bare = text.endsWith(")") || text.endsWith("]");
            assertThat(quick.interval()).isEqualTo(LengthInterval.parse(bare ? text + " thou" : text));
        }
    }

    @Property
    void usagesCompareAsUsagesDo(
            @ForAll @LongRange(max = 100_000_000) long a, @ForAll @LongRange(max = 100_000_000) long b) {
        Counter miles = new Counter(a * 1_000_000, Usage.Unit.MILE);
        Counter kilometres = new Counter(b * 1_000_000, Usage.Unit.KILOMETRE);
        assertThat(Integer.signum(Long.compare(miles.key(), kilometres.key())))
                .isEqualTo(Integer.signum(miles.usage().compareAmount(kilometres.usage())));
    }

    @Provide
    Arbitrary<String> cells() {
        Arbitrary<String> likely = Arbitraries.of(
                "",
                "Generator",
                "2031-04-02",
                "2031-05-02",
                "640 h",
                "650 h",
                "1-in-1",
                "1-ex-1",
                "0.06 mm",
                "0.15 mm",
                "0.06 mm goes; 0.07 mm refuses",
                "(0.06, 0.07) mm",
                "yes",
                "0.004",
                "4",
                "0,06 mm",
                "2.40 mm",
                "20 °C",
                "other-unit",
                "< 0.03 mm",
                "; + goes",
                "-",
                ".",
                ",",
                "+");
        return Arbitraries.frequencyOf(
                net.jqwik.api.Tuple.of(4, likely),
                net.jqwik.api.Tuple.of(1, Arbitraries.strings().ofMaxLength(30)));
    }

    /** Whatever the rows say, each has one outcome, nothing is thrown, and every finding is complete. */
    @Property
    void everyRowHasOneOutcome(@ForAll @Size(max = 12) List<@Size(16) List<@net.jqwik.api.From("cells") String>> rows) {
        List<RowOutcome> outcomes = new ArrayList<>();
        ImportedMachine machine = ImportedMachine.of(School.generatorEngine().build());
        ValidationRun run = ReadingValidator.of(
                        name -> name.startsWith("G") ? Optional.of(machine) : Optional.empty(),
                        ValidationProfile.defaults().withCorrections(java.util.Set.of(ImportCode.values())),
                        TODAY)
                .begin(outcomes::add);
        long number = 0;
        for (List<String> row : rows) {
            String[] cells = row.toArray(new String[0]);
            if (number % 2 == 0) {
                cells[0] = "Generator";
                cells[1] = "2031-04-02";
                cells[2] = "640 h";
                cells[4] = "1-in-1";
            }
            run.accept(ReadingRecord.of(ALL, ++number, cells));
        }
        run.finish();
        assertThat(outcomes.stream().map(o -> o.record().row()).collect(Collectors.toSet()))
                .hasSize(rows.size());
        assertThat(outcomes).hasSize(rows.size());
        outcomes.forEach(o -> o.findings().forEach(f -> {
            assertThat(f.problem()).isNotBlank();
            assertThat(f.expected()).isNotBlank();
            assertThat(f.mend()).isNotBlank();
        }));
    }

    /** A visit as an index of its day, hours and valve. */
    private static ReadingRecord visit(long number, int day, int hours, int valve) {
        String[] cells = new String[ALL.columns().size()];
        java.util.Arrays.fill(cells, "");
        cells[0] = "Generator";
        cells[1] = LocalDate.of(2031, 1, 1).plusDays(10L * day).toString();
        cells[2] = 600 + hours + " h";
        cells[4] = valve == 0 ? "1-in-1" : "1-ex-1";
        ReadingRecord record = ReadingRecord.of(ALL, number, cells);
        return record.with(ReadingField.CLEARANCE, valve == 0 ? "(0.06, 0.07) mm" : "(0.15, 0.16) mm");
    }

    private static List<RowOutcome> outcomes(List<ReadingRecord> rows) {
        List<RowOutcome> outcomes = new ArrayList<>();
        ImportedMachine machine = ImportedMachine.of(School.generatorEngine().build());
        ValidationRun run = ReadingValidator.of(name -> Optional.of(machine), ValidationProfile.defaults(), TODAY)
                .begin(outcomes::add);
        rows.forEach(run::accept);
        run.finish();
        return outcomes;
    }

    private static List<ReadingRecord> accepted(List<RowOutcome> outcomes) {
        return outcomes.stream()
                .filter(o -> o.fate() == RowOutcome.Fate.ACCEPTED)
                .map(RowOutcome::record)
                .toList();
    }

    @Provide
    Arbitrary<List<ReadingRecord>> mixedUp() {
        return Combinators.combine(
                        Arbitraries.integers().between(0, 12),
                        Arbitraries.integers().between(0, 12),
                        Arbitraries.integers().between(0, 1))
                .as((day, hours, valve) -> visit(1, day, hours, valve))
                .list()
                .ofMaxSize(16);
    }

    /** Whoever is blamed: what is accepted has an order, it is accepted a second time, and then nothing of it is added. */
    @Property
    void whatIsAcceptedFitsTogether(@ForAll("mixedUp") List<ReadingRecord> rows) {
        List<RowOutcome> first = outcomes(rows);
        assertThat(first).hasSize(rows.size());
        List<ReadingRecord> accepted = accepted(first);
        for (ReadingRecord a : accepted) {
            for (ReadingRecord b : accepted) {
                int day = a.text(ReadingField.DATE).compareTo(b.text(ReadingField.DATE));
                int usage = a.text(ReadingField.USAGE).compareTo(b.text(ReadingField.USAGE));
                assertThat(day < 0 && usage > 0).as(a + " and " + b).isFalse();
            }
        }
        assertThat(accepted(outcomes(accepted))).hasSameSizeAs(accepted);
        List<ReadingRecord> twice = new ArrayList<>(accepted);
        twice.addAll(accepted);
        assertThat(accepted(outcomes(twice))).hasSameSizeAs(accepted);
    }

    /** Whatever the order, no machine ends with readings of two kinds of counter. */
    @Property
    void whatIsAcceptedIsOfOneCounter(
            @ForAll("mixedUp") List<ReadingRecord> rows, @ForAll @Size(16) List<Boolean> distances) {
        List<ReadingRecord> mixed = new ArrayList<>();
        for (int i = 0; i < rows.size(); i++) {
            ReadingRecord row = rows.get(i);
            String usage = row.text(ReadingField.USAGE);
            mixed.add(distances.get(i) ? row.with(ReadingField.USAGE, usage.replace("h", "km")) : row);
        }
        List<ReadingRecord> accepted = accepted(outcomes(mixed));
        assertThat(accepted.stream()
                        .map(row -> row.text(ReadingField.USAGE).endsWith("h"))
                        .distinct())
                .hasSizeLessThanOrEqualTo(1);
        assertThat(accepted.isEmpty()).isEqualTo(rows.isEmpty());
        assertThat(accepted(outcomes(accepted))).hasSameSizeAs(accepted);
    }

    /** One wrong date or usage among many visits in their order costs itself at most, unless but one visit stands against it. */
    @Property
    void oneWrongRowCostsNoOther(
            @ForAll @IntRange(max = 23) int at,
            @ForAll boolean date,
            @ForAll @IntRange(min = 1, max = 12) int wrong,
            @ForAll boolean newestFirst) {
        List<ReadingRecord> rows = new ArrayList<>();
        for (int i = 0; i < 24; i++) {
            rows.add(visit(i + 1, 2 * (i / 2), 2 * (i / 2), i % 2));
        }
        int visit = at / 2;
        // odd days and hours: no other visit has them
        int odd = 2 * wrong - 1;
        ReadingRecord bad = visit(at + 1, date ? odd : 2 * visit, date ? 2 * visit : odd, at % 2);
        rows.set(at, bad);
        if (newestFirst) {
            java.util.Collections.reverse(rows);
        }
        List<Long> rejected = outcomes(rows).stream()
                .filter(o -> o.fate() == RowOutcome.Fate.REJECTED)
                .map(o -> o.record().row())
                .toList();
        // visits that lie between where the row is and where it says that it is
        int between = odd > 2 * visit ? (odd - 1) / 2 - visit : visit - (odd + 1) / 2;
        if (between == 0) {
            assertThat(rejected).isEmpty();
        } else if (between > 1) {
            assertThat(rejected).containsExactly(at + 1L);
        } else {
            assertThat(rejected.size()).isBetween(1, 2);
        }
    }
}
