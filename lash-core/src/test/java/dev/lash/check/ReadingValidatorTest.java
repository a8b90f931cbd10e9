package dev.lash.check;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lash.check.ImportFinding.Standing;
import dev.lash.check.RowOutcome.Fate;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.ReadingRule;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.Usage;
import dev.lash.testing.Contracts;
import dev.lash.trend.ClearanceHistory;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ReadingValidatorTest {
    private static final LocalDate TODAY = LocalDate.of(2033, 1, 1);
    private static final List<String> COLUMNS = List.of(
            "bike", "day", "km", "temp", "valve", "trials", "goes", "stops", "reading", "done", "left", "shim", "new",
            "ok");

    private static final RecordLayout LAYOUT = layout(true);

    private static RecordLayout layout(boolean unit) {
        RecordLayout.Builder b = RecordLayout.builder(COLUMNS)
                .column(ReadingField.MACHINE, "bike")
                .column(ReadingField.DATE, "day")
                .column(ReadingField.USAGE, "km")
                .column(ReadingField.TEMPERATURE, "temp")
                .column(ReadingField.VALVE, "valve")
                .column(ReadingField.TRIALS, "trials")
                .column(ReadingField.GOES, "goes")
                .column(ReadingField.REFUSES, "stops")
                .column(ReadingField.CLEARANCE, "reading")
                .column(ReadingField.ADJUSTED, "done")
                .column(ReadingField.LEFT, "left")
                .column(ReadingField.SHIM, "shim")
                .column(ReadingField.FITTED, "new")
                .column(ReadingField.CONFIRMED, "ok")
                .valveName("EX-RIGHT", "2-ex-1");
        return (unit ? b.unit(LengthUnit.MILLIMETRE) : b)
                .usageUnit(Usage.Unit.HOUR)
                .build();
    }

    /** A row of the yard generator: intake 0.05..0.09 mm, exhaust 0.12..0.18 mm. */
    private static ReadingRecord row(long number, String day, String hours, String valve, String goes, String stops) {
        return ReadingRecord.of(
                LAYOUT, number, "Generator", day, hours, "", valve, "", goes, stops, "", "", "", "", "", "");
    }

    private static ReadingRecord good() {
        return row(1, "2031-04-02", "640", "1-in-1", "0.06", "0.07");
    }

    private static ReadingValidator validator(EngineSpec engine, ValidationProfile profile) {
        ImportedMachine machine = new ImportedMachine(engine, School.GENERATOR_LEAVES, ReadingRule.simple());
        return ReadingValidator.of(
                name -> name.equals("Generator") ? Optional.of(machine) : Optional.empty(), profile, TODAY);
    }

    /** An import in which every machine has the same engine. */
    private static ValidationRun begin(EngineSpec engine, Consumer<RowOutcome> outcomes) {
        ImportedMachine machine = ImportedMachine.of(engine);
        return ReadingValidator.of(name -> Optional.of(machine), ValidationProfile.defaults(), TODAY)
                .begin(outcomes);
    }

    private static List<RowOutcome> run(ValidationProfile profile, ReadingRecord... rows) {
        List<RowOutcome> outcomes = new ArrayList<>();
        ValidationRun run = validator(School.generatorEngine().build(), profile).begin(outcomes::add);
        for (ReadingRecord row : rows) {
            run.accept(row);
        }
        run.finish();
        return outcomes;
    }

    private static List<RowOutcome> run(ReadingRecord... rows) {
        return run(ValidationProfile.defaults(), rows);
    }

    private static List<ImportCode> codes(List<RowOutcome> outcomes) {
        return outcomes.stream()
                .flatMap(o -> o.findings().stream())
                .map(ImportFinding::code)
                .filter(c -> c != ImportCode.VALVES_NOT_READ)
                .toList();
    }

    @Test
    void goodRowBecomesAReading() {
        RowOutcome outcome = run(good()).get(0);
        assertThat(outcome.fate()).isEqualTo(Fate.ACCEPTED);
        ImportedReading reading = outcome.findReading().orElseThrow();
        assertThat(reading.found()).hasToString("(0.06, 0.07) mm");
        assertThat(reading.usage()).isEqualTo(Usage.parse("640 h"));
        assertThat(reading.date()).isEqualTo("2031-04-02");
        assertThat(reading.valve()).hasToString("1-in-1");
        Contracts.serialises(reading);
        Contracts.serialises(outcome);
    }

    @ParameterizedTest
    @CsvSource(
            nullValues = "-",
            delimiter = '|',
            value = {
                "MACHINE | '' | missing-value",
                "MACHINE | Mower | unknown-machine",
                "DATE | '' | missing-value",
                "DATE | 2031-02-29 | unparsable",
                "DATE | 2.4.2031 | unparsable",
                "DATE | 2034-01-01 | date-in-future",
                "USAGE | '' | missing-value",
                "USAGE | many | unparsable",
                "USAGE | -3 | unparsable",
                "USAGE | 1e3 | unparsable",
                "USAGE | 640 miles | unparsable",
                "USAGE | 640,5 | decimal-comma",
                "TEMPERATURE | 20 | no-unit",
                "TEMPERATURE | 20 K | unparsable",
                "TEMPERATURE | 45 °C | engine-too-warm",
                "TEMPERATURE | 113 °F | engine-too-warm",
                "VALVE | '' | missing-value",
                "VALVE | 3-in-1 | unknown-valve",
                "VALVE | 1 IN 1 | unknown-valve",
                "GOES | O.06 | unparsable",
                "GOES | 0.06 cm | unparsable",
                "GOES | 0,06 | decimal-comma",
                "GOES | 0.09 | contradiction",
                "GOES | 0.055 | leaf-not-owned",
                "GOES | -0.05 | unparsable",
                "GOES | 0.0024 | other-unit",
                "GOES | 6 | whole-hundredths",
                "GOES | 0.06 mm + | unparsable",
                "TRIALS | 0.06 mm slides | unparsable",
                "TRIALS | 0.09 mm goes | contradiction",
                "TRIALS | ; | unparsable",
                "CLEARANCE | (0.07, 0.06) mm | unparsable",
                "CLEARANCE | 0.09 | contradiction",
                "ADJUSTED | maybe | unparsable",
                "SHIM | 2.40 | shim-not-in-range",
                "SHIM | 240 | unparsable"
            })
    void oneFaultGivesOneFinding(ReadingField field, String text, String code) {
        List<RowOutcome> outcomes = run(good().with(field, text));
        assertThat(outcomes).hasSize(1);
        assertThat(codes(outcomes)).containsExactly(ImportCode.parse(code));
        ImportFinding finding = outcomes.get(0).findings().get(0);
        assertThat(finding.row()).isEqualTo(1);
        assertThat(finding.expected()).isNotBlank();
        assertThat(finding.mend()).isNotBlank();
        assertThat(outcomes.get(0).fate() == Fate.REJECTED).isEqualTo(finding.severity() == Severity.ERROR);
    }

    @ParameterizedTest
    @CsvSource({
        "GOES, 0.0024, 0.0024 in",
        "GOES, 6, 0.06 mm",
        "GOES, '0,06', 0.06",
        "GOES, 0.0024 mm, 0.0024 in",
        "VALVE, 1 IN 1, 1-in-1"
    })
    void correctionIsOfferedAndAppliedOnlyWhenAskedFor(ReadingField field, String text, String meant) {
        ReadingRecord bad = good().with(field, text);
        ImportFinding finding = run(bad).get(0).findings().get(0);
        Correction correction = finding.findCorrection().orElseThrow();
        assertThat(correction.text()).isEqualTo(meant);
        assertThat(correction.odds()).isGreaterThan(1);
        RowOutcome mended = run(
                        ValidationProfile.defaults().withCorrections(Set.of(finding.code(), ImportCode.LEAF_NOT_OWNED)),
                        bad)
                .get(0);
        assertThat(mended.fate()).isEqualTo(Fate.ACCEPTED);
        assertThat(mended.record()).isEqualTo(bad);
        assertThat(mended.findings().get(0).standing()).isEqualTo(Standing.CORRECTED);
    }

    /** 9,120 hours are nine or nine thousand: nothing is likely, and nothing is applied. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "9,120 h | it may mean 9.120 h or 9120 h",
                "640,123 | it may mean 640.123 or 640123",
                "64,5 h | -",
                "0,250 h | -",
                "1234,567 h | -"
            })
    void aSignBetweenThousandsIsNotCorrected(String usage, String readings) {
        ValidationProfile correcting = ValidationProfile.defaults().withCorrections(Set.of(ImportCode.DECIMAL_COMMA));
        RowOutcome outcome = run(correcting, row(1, "2031-04-02", usage, "1-in-1", "0.06", "0.07"))
                .get(0);
        ImportFinding finding = outcome.findings().get(0);
        assertThat(finding.code()).isEqualTo(ImportCode.DECIMAL_COMMA);
        if (readings.equals("-")) {
            assertThat(outcome.fate()).isEqualTo(Fate.ACCEPTED);
            assertThat(finding.findCorrection()).isPresent();
        } else {
            assertThat(outcome.fate()).isEqualTo(Fate.REJECTED);
            assertThat(finding.findCorrection()).isEmpty();
            assertThat(finding.problem()).contains(readings);
        }
    }

    @Test
    void aConfirmedFindingIsANote() {
        ReadingRecord odd = good().with(ReadingField.GOES, "")
                .with(ReadingField.REFUSES, "")
                .with(ReadingField.CLEARANCE, "3.00 mm");
        assertThat(run(odd).get(0).fate()).isEqualTo(Fate.REJECTED);
        RowOutcome outcome =
                run(odd.with(ReadingField.CONFIRMED, "impossible-clearance")).get(0);
        assertThat(outcome.fate()).isEqualTo(Fate.ACCEPTED);
        assertThat(outcome.findings().get(0).standing()).isEqualTo(Standing.CONFIRMED);
    }

    /** Ten times too much or too little is a slip of the decimal sign more often than a reading; which it is, nobody can tell from here. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "(0.6, 0.7) mm | is more than 5 times the window's 0.09 mm",
                "[0.451, 0.451] mm | is more than 5 times the window's 0.09 mm",
                "> 0.46 mm | is more than 5 times the window's 0.09 mm",
                "(0.008, 0.009) mm | is less than the window's 0.05 mm divided by 5",
                "(0.45, 0.50) mm | -",
                "[0.45, 0.50] mm | -",
                "(0.4, 0.7) mm | -",
                "(0.008, 0.01) mm | -",
                "< 0.009 mm | -",
                "[0, 0.009] mm | -"
            })
    void whatIsFarFromTheWindowIsInDoubt(String reading, String problem) {
        ReadingRecord row = row(1, "2031-04-02", "640", "1-in-1", "", "").with(ReadingField.CLEARANCE, reading);
        List<RowOutcome> outcomes = run(row);
        assertThat(outcomes.get(0).fate()).isEqualTo(Fate.ACCEPTED);
        if (problem.equals("-")) {
            assertThat(codes(outcomes)).isEmpty();
        } else {
            assertThat(codes(outcomes)).containsExactly(ImportCode.FAR_FROM_WINDOW);
            assertThat(outcomes.get(0).findings().get(0)).satisfies(f -> {
                assertThat(f.severity()).isEqualTo(Severity.DOUBT);
                assertThat(f.problem()).startsWith(problem);
                assertThat(f.expected()).isEqualTo("a clearance near 0.05 mm to 0.09 mm");
            });
            assertThat(run(row.with(ReadingField.CONFIRMED, "far-from-window"))
                            .get(0)
                            .findings()
                            .get(0)
                            .severity())
                    .isEqualTo(Severity.NOTE);
        }
    }

    @Test
    void bareNumberWithoutDeclaredUnitIsNotGuessed() {
        ReadingRecord bare = ReadingRecord.of(
                layout(false),
                1,
                "Generator",
                "2031-04-02",
                "640",
                "",
                "1-in-1",
                "",
                "",
                "",
                "0.07",
                "",
                "",
                "",
                "",
                "");
        RowOutcome outcome = run(bare).get(0);
        assertThat(codes(List.of(outcome))).containsExactly(ImportCode.NO_UNIT);
        assertThat(outcome.findings().get(0).findCorrection().orElseThrow().text())
                .isEqualTo("0.07 mm");
    }

    /** What is offered claims no more than the likelihood says. */
    @Test
    void aLikelierUnitFitsOnlyWhereItDoes() {
        assertThat(run(good().with(ReadingField.GOES, "6")).get(0).findings().get(0))
                .satisfies(f -> {
                    assertThat(f.problem()).endsWith("it is 0.06 mm, which fits");
                    assertThat(f.findCorrection().orElseThrow().reason())
                            .endsWith("times likelier in hundredths of a millimetre, by the window");
                });
        assertThat(run(good().with(ReadingField.GOES, "3")).get(0).findings().get(0))
                .satisfies(f -> {
                    assertThat(f.problem()).contains("which is likelier, though it is not near the window");
                    assertThat(f.findCorrection().orElseThrow().reason()).contains("; but it is not near the window");
                });
        assertThat(run(good().with(ReadingField.GOES, "8")).get(0).findings().get(0))
                .satisfies(f -> {
                    assertThat(f.problem())
                            .endsWith("it is 0.08 mm, which is likelier, though it is no leaf of the set");
                    assertThat(f.findCorrection().orElseThrow().reason()).endsWith("; but it is no leaf of the set");
                });
    }

    @ParameterizedTest
    @CsvSource(
            nullValues = "-",
            value = {"0.07, 0.07 mm", "0.002, -", "1, -", "8, -", "70, 0.07 mm", "0.5, -"})
    void aUnitIsOfferedForABareNumberOnlyWhereItFits(String text, String meant) {
        ReadingRecord bare = ReadingRecord.of(
                layout(false), 1, "Generator", "2031-04-02", "640", "", "1-in-1", "", "", "", text, "", "", "", "", "");
        assertThat(run(bare).get(0).findings().get(0)).satisfies(f -> {
            assertThat(f.code()).isEqualTo(ImportCode.NO_UNIT);
            assertThat(f.findCorrection().map(Correction::text)).isEqualTo(Optional.ofNullable(meant));
        });
    }

    @Test
    void aSecondTimeAddsNothing() {
        List<RowOutcome> outcomes = run(
                good(),
                row(2, "2031-08-02", "700", "1-in-1", "0.06", "0.07"),
                good(),
                row(4, "2031-08-02", "700", "1-in-1", "0.06", "0.07"),
                row(5, "2031-08-02", "700", "1-in-1", "0.05", "0.06"));
        assertThat(outcomes.stream().map(RowOutcome::fate).toList())
                .containsExactlyInAnyOrder(Fate.ACCEPTED, Fate.ACCEPTED, Fate.DUPLICATE, Fate.DUPLICATE, Fate.REJECTED);
        assertThat(codes(outcomes))
                .containsExactlyInAnyOrder(ImportCode.DUPLICATE, ImportCode.DUPLICATE, ImportCode.DUPLICATE_DIFFERS);
    }

    @Test
    void orderIsThatOfDateAndUsageTogether() {
        ReadingRecord first = good();
        ReadingRecord second = row(2, "2031-08-02", "700", "1-in-1", "0.06", "0.07");
        assertThat(codes(run(first, row(2, "2031-08-02", "600", "1-in-1", "0.06", "0.07"))))
                .containsExactly(ImportCode.USAGE_BACKWARDS);
        assertThat(codes(run(
                        second,
                        row(2, "2031-07-02", "760", "2-in-1", "0.06", "0.07"),
                        row(3, "2031-09-02", "780", "1-in-1", "0.06", "0.07"))))
                .contains(ImportCode.DATE_OUT_OF_ORDER);
        assertThat(codes(run(second, row(3, "2031-09-02", "780", "1-in-1", "0.06", "0.07"), first)))
                .containsExactly(ImportCode.EARLIER_VISIT);
        assertThat(codes(run(first, row(2, "2031-04-12", "7000", "1-in-1", "0.06", "0.07"))))
                .containsExactly(ImportCode.USAGE_JUMP);
    }

    @Test
    void aRepeatedReadingSaysWhatDiffers() {
        ReadingRecord later = good().with(ReadingField.USAGE, "641");
        String differs = "was read on that day already, with the same result, but at 640 h and not 641 h";
        assertThat(run(good(), later).get(0).findings().get(0)).satisfies(f -> {
            assertThat(f.code()).isEqualTo(ImportCode.DUPLICATE_DIFFERS);
            assertThat(f.problem()).isEqualTo(differs);
        });
        // of a visit that is closed already
        List<RowOutcome> closed = run(good(), row(2, "2031-05-02", "650", "1-in-1", "0.06", "0.07"), later);
        assertThat(closed.stream()
                        .flatMap(o -> o.findings().stream())
                        .filter(f -> f.code() == ImportCode.DUPLICATE_DIFFERS)
                        .map(ImportFinding::problem))
                .containsExactly(differs);
        assertThat(run(good(), later.with(ReadingField.REFUSES, "0.09"))
                        .get(0)
                        .findings()
                        .get(0)
                        .problem())
                .endsWith("with another result");
    }

    /** A counter that runs backwards has no place in a trend, whoever stands by it. */
    @Test
    void whatCannotBeConfirmedIsSaid() {
        ReadingRecord less = row(2, "2031-05-02", "620", "1-in-1", "0.06", "0.07");
        List<String> mends = new ArrayList<>();
        for (String ok : List.of("", "usage-backwards", "other-unit")) {
            mends.add(run(good(), less.with(ReadingField.CONFIRMED, ok)).stream()
                    .flatMap(o -> o.findings().stream())
                    .filter(f -> f.code() == ImportCode.USAGE_BACKWARDS)
                    .findFirst()
                    .orElseThrow()
                    .mend());
        }
        assertThat(mends.get(1))
                .isEqualTo(mends.get(0) + "; usage-backwards cannot be confirmed, as the row cannot be used as it is");
        assertThat(mends.get(2)).isEqualTo(mends.get(0));
    }

    /** Nobody sees a blank behind a name: it makes no other machine. */
    @Test
    void blanksAroundANameDoNotCount() {
        List<RowOutcome> outcomes = run(
                good(),
                good().with(ReadingField.MACHINE, "Generator "),
                row(2, "2031-04-02", "640", "1-ex-1", "0.12", "0.15").with(ReadingField.MACHINE, " Generator"));
        assertThat(outcomes.stream().map(RowOutcome::fate))
                .containsExactlyInAnyOrder(Fate.ACCEPTED, Fate.DUPLICATE, Fate.ACCEPTED);
        assertThat(outcomes.stream().flatMap(o -> o.findReading().stream()).map(ImportedReading::machine))
                .containsOnly("Generator");
    }

    /** A distance is neither more nor less than a time. */
    @Test
    void aMachineHasOneKindOfCounter() {
        List<RowOutcome> outcomes = run(
                row(1, "2031-03-01", "100 h", "1-in-1", "0.06", "0.07"),
                row(2, "2031-04-01", "120 km", "1-in-1", "0.06", "0.07"),
                row(3, "2031-05-01", "150 h", "1-in-1", "0.06", "0.07"));
        assertThat(outcomes.stream()
                        .filter(o -> o.fate() == Fate.ACCEPTED)
                        .map(o -> o.record().row()))
                .containsExactlyInAnyOrder(1L, 3L);
        RowOutcome odd =
                outcomes.stream().filter(o -> o.record().row() == 2).findFirst().orElseThrow();
        assertThat(odd.findings()).singleElement().satisfies(f -> {
            assertThat(f.code()).isEqualTo(ImportCode.OTHER_COUNTER);
            assertThat(f.column()).isEqualTo("km");
            assertThat(f.problem())
                    .isEqualTo("counts km, but this machine is counted in h: the visit of 2031-03-01 (row 1) shows"
                            + " 100 h");
            assertThat(f.expected()).isEqualTo("a usage in h");
            assertThat(f.mend()).contains("hour counter");
        });
        // miles first, and one kind within one visit
        assertThat(codes(run(
                        row(1, "2031-03-01", "6500 mi", "1-in-1", "0.06", "0.07"),
                        row(2, "2031-03-01", "200 h", "1-ex-1", "0.12", "0.15"),
                        row(3, "2031-04-01", "200", "1-in-1", "0.06", "0.07"),
                        row(4, "2031-05-01", "10600 km", "1-in-1", "0.06", "0.07"))))
                .containsExactly(ImportCode.OTHER_COUNTER, ImportCode.OTHER_COUNTER);
    }

    /** What is forgotten is not added twice. */
    @Test
    void aVisitBeforeAllThatAreRememberedIsNotAcceptedBlindly() {
        List<RowOutcome> outcomes = new ArrayList<>();
        ValidationRun run = begin(School.generatorEngine().build(), outcomes::add);
        ReadingRecord[] rows = new ReadingRecord[10_050];
        for (int i = 0; i < rows.length; i++) {
            String day = LocalDate.of(2000, 1, 1).plusDays(i).toString();
            rows[i] = row(i + 1, day, i + " h", "1-in-1", "0.06", "0.07");
            run.accept(rows[i]);
        }
        run.finish();
        assertThat(outcomes).allMatch(o -> o.fate() == Fate.ACCEPTED).hasSize(rows.length);
        outcomes.clear();
        for (ReadingRecord row : rows) {
            run.accept(row);
        }
        run.accept(rows[0].with(ReadingField.CONFIRMED, "before-memory"));
        run.finish();
        assertThat(outcomes.stream().filter(o -> o.fate() == Fate.DUPLICATE)).hasSize(10_000);
        assertThat(outcomes.stream().filter(o -> o.fate() == Fate.REJECTED))
                .hasSize(50)
                .allMatch(o -> o.findings().get(0).code() == ImportCode.BEFORE_MEMORY);
        assertThat(outcomes.stream().filter(o -> o.fate() == Fate.ACCEPTED)).hasSize(1);
    }

    /** So many machines that each makes the quietest be told: one by one, not one within the other. */
    @Test
    void manyMachinesAreTakenOneByOne() {
        List<RowOutcome> outcomes = new ArrayList<>();
        ValidationRun run = begin(School.generatorEngine().build(), outcomes::add);
        for (int visit = 0; visit < 2; visit++) {
            for (int i = 0; i < 1000; i++) {
                run.accept(row(
                                1 + i + 1000 * visit,
                                "2031-0" + (3 + visit) + "-01",
                                100 + visit + " h",
                                "1-in-1",
                                "0.06",
                                "0.07")
                        .with(ReadingField.MACHINE, "Generator " + i));
            }
        }
        assertThat(outcomes).isEmpty();
        run.accept(row(2001, "2031-03-01", "100 h", "1-in-1", "0.06", "0.07")
                .with(ReadingField.MACHINE, "Generator 1000"));
        run.accept(row(2002, "2031-04-01", "101 h", "1-in-1", "0.06", "0.07")
                .with(ReadingField.MACHINE, "Generator 1000"));
        assertThat(outcomes).hasSizeLessThan(4);
        run.finish();
        assertThat(outcomes).hasSize(2002).allMatch(o -> o.fate() == Fate.ACCEPTED);
    }

    /** What is judged anew is told before the machine is forgotten, and by what is known of it. */
    @Test
    void aForgottenMachineHasNoRowLeft() {
        List<RowOutcome> outcomes = new ArrayList<>();
        ValidationRun run = begin(School.generatorEngine().build(), outcomes::add);
        run.accept(row(1, "2032-06-26", "8588 h", "1-ex-1", "0.12", "0.15"));
        run.accept(row(2, "2031-10-19", "8600 h", "1-in-1", "0.06", "0.07"));
        run.accept(row(3, "2030-12-10", "8588 h", "1-in-1", "0.06", "0.07"));
        run.accept(row(4, "2031-03-30", "8595 h", "1-in-1", "0.06", "0.07"));
        run.forget("Generator");
        assertThat(outcomes.stream()
                        .filter(o -> o.fate() == Fate.ACCEPTED)
                        .map(o -> o.record().row()))
                .containsExactlyInAnyOrder(2L, 3L, 4L);
        assertThat(outcomes).hasSize(4);
        run.finish();
        assertThat(outcomes).hasSize(4);
    }

    /** Rows on hold are bounded by their text too, and each is told once. */
    @Test
    void longRemarksAreNotHeldForLong() {
        String remark = "x".repeat(60_000);
        List<Long> told = new ArrayList<>();
        ValidationRun run = begin(
                School.generatorEngine().build(),
                outcome -> told.add(outcome.record().row()));
        for (int i = 1; i <= 600; i++) {
            run.accept(row(i, "2031-03-01", "100 h", "1-in-1", "0.06", "0.07")
                    .with(ReadingField.MACHINE, "Generator " + i)
                    .with(ReadingField.CONFIRMED, remark));
            assertThat(i - told.size()).isLessThanOrEqualTo((1 << 24) / remark.length());
        }
        run.finish();
        assertThat(told).hasSize(600).doesNotHaveDuplicates();
    }

    /** Which of two is wrong, a third row of the day tells; without it both are doubted. */
    @Test
    void countersOfOneDayAreHeldAgainstEachOther() {
        List<RowOutcome> two = run(
                row(1, "2031-03-01", "100 h", "1-in-1", "0.06", "0.07"),
                row(2, "2031-03-01", "130 h", "1-ex-1", "0.12", "0.15"));
        assertThat(codes(two)).containsExactly(ImportCode.USAGE_DIFFERS, ImportCode.USAGE_DIFFERS);
        assertThat(two).allMatch(outcome -> outcome.fate() == Fate.ACCEPTED);
        assertThat(two.get(0).findings()).singleElement().satisfies(f -> {
            assertThat(f.value()).isEqualTo("100 h");
            assertThat(f.problem()).isEqualTo("is more than a day's use away from 130 h on the same day (row 2)");
            assertThat(f.expected()).isEqualTo("counters of one day within 24 h of each other");
        });
        assertThat(codes(run(
                        row(1, "2031-03-01", "100 h", "1-in-1", "0.06", "0.07"),
                        row(2, "2031-03-01", "124 h", "1-ex-1", "0.12", "0.15"))))
                .isEmpty();

        List<RowOutcome> four = run(
                row(1, "2031-03-01", "500 h", "1-in-1", "0.06", "0.07"),
                row(2, "2031-03-01", "500 h", "1-ex-1", "0.12", "0.15"),
                row(3, "2031-03-01", "9999 h", "2-in-1", "0.06", "0.07"),
                row(4, "2031-03-01", "500 h", "2-ex-1", "0.12", "0.15"));
        assertThat(codes(four)).containsExactly(ImportCode.USAGE_DIFFERS);
        assertThat(four.stream()
                        .flatMap(o -> o.findings().stream())
                        .filter(f -> f.code() == ImportCode.USAGE_DIFFERS)
                        .map(ImportFinding::row))
                .containsExactly(3L);
    }

    /** The rows of a visit may come apart, and its counter is remembered. */
    @Test
    void aCounterIsHeldAgainstTheRestOfItsDayLater() {
        List<RowOutcome> outcomes = run(
                row(1, "2031-03-01", "100 h", "1-in-1", "0.06", "0.07"),
                row(2, "2031-05-01", "140 h", "1-in-1", "0.06", "0.07"),
                row(3, "2031-03-01", "139 h", "1-ex-1", "0.12", "0.15"));
        RowOutcome late =
                outcomes.stream().filter(o -> o.record().row() == 3).findFirst().orElseThrow();
        assertThat(late.findings().stream().map(ImportFinding::code))
                .containsExactly(ImportCode.USAGE_DIFFERS, ImportCode.EARLIER_VISIT, ImportCode.VALVES_NOT_READ);
    }

    @Test
    void swappedRolesAreSeenByBothReadings() {
        ReadingRecord in = row(1, "2031-04-02", "640", "1-in-1", "0.15", "0.20");
        ReadingRecord ex = row(2, "2031-04-02", "640", "1-ex-1", "0.06", "0.07");
        List<RowOutcome> outcomes = run(in, ex);
        assertThat(codes(outcomes)).containsExactly(ImportCode.ROLES_SWAPPED, ImportCode.ROLES_SWAPPED);
        assertThat(outcomes).allMatch(o -> o.fate() == Fate.REJECTED);
        List<RowOutcome> mended =
                run(ValidationProfile.defaults().withCorrections(Set.of(ImportCode.ROLES_SWAPPED)), in, ex);
        assertThat(mended).allMatch(o -> o.fate() == Fate.ACCEPTED);
        assertThat(mended.get(0).findReading().orElseThrow().valve()).hasToString("1-ex-1");
    }

    @Test
    void looseningWithoutAnAdjustmentIsADoubt() {
        ReadingRecord later = row(2, "2031-08-02", "700", "1-in-1", "0.12", "0.15");
        assertThat(codes(run(good(), later))).containsExactly(ImportCode.LOOSENED);
        assertThat(codes(run(good().with(ReadingField.LEFT, "(0.12, 0.15) mm"), later)))
                .isEmpty();
        assertThat(codes(run(good().with(ReadingField.ADJUSTED, "yes"), later))).isEmpty();
    }

    @Test
    void anotherNameOfAValveIsDeclared() {
        assertThat(run(row(1, "2031-04-02", "640", "EX-RIGHT", "0.12", "0.15"))
                        .get(0)
                        .findReading()
                        .orElseThrow()
                        .valve())
                .hasToString("2-ex-1");
    }

    @Test
    void hydraulicTrainHasNothingToRead() {
        EngineSpec engine =
                School.generatorEngine().train(new ValveTrain.Hydraulic()).build();
        List<RowOutcome> outcomes = new ArrayList<>();
        ValidationRun run = validator(engine, ValidationProfile.defaults()).begin(outcomes::add);
        run.accept(good());
        run.finish();
        assertThat(codes(outcomes)).containsExactly(ImportCode.NO_CLEARANCE_IN_THIS_TRAIN);
    }

    @Test
    void shimsAreHeldAgainstTheVisitBefore() {
        ImportedMachine trainer = ImportedMachine.of(School.roadTrainerEngine());
        List<RowOutcome> outcomes = new ArrayList<>();
        ValidationRun run = ReadingValidator.of(name -> Optional.of(trainer), ValidationProfile.defaults(), TODAY)
                .begin(outcomes::add);
        ReadingRecord first = ReadingRecord.of(
                LAYOUT,
                1,
                "T",
                "2031-04-02",
                "9000 km",
                "",
                "1-in-1",
                "",
                "0.10",
                "0.12",
                "",
                "yes",
                "(0.16, 0.18) mm",
                "2.45",
                "2.40",
                "");
        run.accept(first);
        run.accept(first.with(ReadingField.DATE, "2031-08-02")
                .with(ReadingField.USAGE, "12000 km")
                .with(ReadingField.GOES, "0.15")
                .with(ReadingField.REFUSES, "0.16")
                .with(ReadingField.LEFT, "(0.30, 0.31) mm"));
        run.finish();
        assertThat(codes(outcomes)).containsExactly(ImportCode.SHIM_ARITHMETIC, ImportCode.SHIM_NOT_AS_RECORDED);
        List<ClearanceHistory> histories = ImportedReading.histories(
                trainer.engine(),
                outcomes.stream().flatMap(o -> o.findReading().stream()).toList());
        assertThat(histories).hasSize(1);
        assertThat(histories.get(0).readings()).hasSize(4);
    }

    @Test
    void missingValvesAreANote() {
        List<ImportFinding> findings = run(good()).get(0).findings();
        assertThat(findings).hasSize(1);
        assertThat(findings.get(0).value()).isEqualTo("1-ex-1, 2-in-1, 2-ex-1");
    }

    // ---- what a rejected row explains

    private static ReadingRecord shimmed(
            long number, String day, String km, String goes, String stops, String left, String shim, String fitted) {
        return ReadingRecord.of(
                LAYOUT, number, "Four", day, km + " km", "", "1-in-1", "", goes, stops, "", "", left, shim, fitted, "");
    }

    private static List<RowOutcome> runFour(ReadingRecord... rows) {
        List<RowOutcome> outcomes = new ArrayList<>();
        ValidationRun run = begin(School.roadTrainerEngine(), outcomes::add);
        for (ReadingRecord row : rows) {
            run.accept(row);
        }
        run.finish();
        return outcomes;
    }

    @Test
    void aShimThatARejectedRowFittedIsNoSurprise() {
        ReadingRecord first = shimmed(1, "2030-04-02", "1000", "0.15", "0.18", "", "2.40", "");
        ReadingRecord contradicting =
                shimmed(2, "2031-04-02", "2000", "0.18", "0.15", "(0.18, 0.20) mm", "2.40", "2.35");
        ReadingRecord next = shimmed(3, "2032-04-02", "3000", "0.18", "0.20", "", "2.35", "");
        assertThat(codes(runFour(first, next))).containsExactly(ImportCode.SHIM_NOT_AS_RECORDED);
        assertThat(codes(runFour(first, contradicting, next))).containsExactly(ImportCode.CONTRADICTION);
        ReadingRecord other = shimmed(3, "2032-04-02", "3000", "0.18", "0.20", "", "2.30", "");
        assertThat(codes(runFour(first, contradicting, other)))
                .containsExactly(ImportCode.CONTRADICTION, ImportCode.SHIM_NOT_AS_RECORDED);
        ReadingRecord much = shimmed(4, "2032-08-02", "3500", "0.18", "0.20", "", "2.40", "");
        assertThat(codes(runFour(first, contradicting, next, much)))
                .as("explained once")
                .containsExactly(ImportCode.CONTRADICTION, ImportCode.SHIM_NOT_AS_RECORDED);
    }

    @Test
    void whatARejectedRowAdjustedHasNotLoosened() {
        ReadingRecord first = shimmed(1, "2030-04-02", "1000", "0.10", "0.12", "", "", "");
        ReadingRecord adjusted = shimmed(2, "2031-04-02", "2000", "0.12", "0.10", "(0.18, 0.20) mm", "", "");
        ReadingRecord next = shimmed(3, "2032-04-02", "3000", "0.18", "0.20", "", "", "");
        assertThat(codes(runFour(first, next))).containsExactly(ImportCode.LOOSENED);
        assertThat(codes(runFour(first, adjusted, next))).containsExactly(ImportCode.CONTRADICTION);
    }

    @Test
    void anImpossibleClearanceIsSaidOnce() {
        assertThat(codes(run(row(1, "2031-04-02", "640", "1-in-1", "2.75", "3.00"))))
                .containsExactly(ImportCode.IMPOSSIBLE_CLEARANCE);
        assertThat(codes(run(row(1, "2031-04-02", "640", "1-in-1", "0.06", "3.00"))))
                .containsExactly(ImportCode.LEAF_NOT_OWNED);
    }

    // ---- one wrong date or usage, and the rows after it

    /** Eight visits of two rows, half a year and 100 h apart, the first row with the number 1. */
    private static List<ReadingRecord> visits() {
        List<ReadingRecord> rows = new ArrayList<>();
        for (int i = 0; i < 8; i++) {
            String day = LocalDate.of(2028, 1, 10).plusMonths(6L * i).toString();
            String hours = Integer.toString(500 + 100 * i);
            rows.add(row(2 * i + 1, day, hours, "1-in-1", "0.06", "0.07"));
            rows.add(row(2 * i + 2, day, hours, "1-ex-1", "0.15", "0.20"));
        }
        return rows;
    }

    private static List<Long> rejected(List<RowOutcome> outcomes) {
        return outcomes.stream()
                .filter(o -> o.fate() == Fate.REJECTED)
                .map(o -> o.record().row())
                .sorted()
                .toList();
    }

    private static ImportFinding error(List<RowOutcome> outcomes, long row) {
        return outcomes.stream()
                .filter(o -> o.record().row() == row)
                .flatMap(o -> o.findings().stream())
                .filter(f -> f.severity() == Severity.ERROR)
                .findFirst()
                .orElseThrow();
    }

    @ParameterizedTest
    @CsvSource({
        "5, DATE, 2030-03-10, date-out-of-order",
        "6, DATE, 2030-03-10, date-out-of-order",
        "5, DATE, 2032-12-31, date-out-of-order",
        "1, DATE, 2032-12-31, date-out-of-order",
        "5, USAGE, 1150, usage-backwards",
        "6, USAGE, 1150, usage-backwards",
        "1, USAGE, 5000, usage-backwards",
        "2, USAGE, 5000, usage-backwards",
        "5, DATE, 2028-05-01, date-out-of-order",
        "5, USAGE, 100, usage-backwards",
    })
    void oneWrongDateOrUsageCostsNoOtherRow(int bad, ReadingField field, String text, String code) {
        List<ReadingRecord> rows = visits();
        rows.set(bad - 1, rows.get(bad - 1).with(field, text));
        List<RowOutcome> outcomes = run(rows.toArray(ReadingRecord[]::new));
        assertThat(outcomes).hasSize(16);
        assertThat(rejected(outcomes)).containsExactly((long) bad);
        ImportFinding finding = error(outcomes, bad);
        assertThat(finding.code()).isEqualTo(ImportCode.parse(code));
        assertThat(finding.value()).isEqualTo(text);
        assertThat(codes(outcomes)).doesNotContain(ImportCode.LOOSENED);
    }

    @ParameterizedTest
    @CsvSource({"DATE, 2030-03-10", "USAGE, 1150"})
    void aWrongVisitCostsNoOther(ReadingField field, String text) {
        List<ReadingRecord> rows = visits();
        rows.set(4, rows.get(4).with(field, text));
        rows.set(5, rows.get(5).with(field, text));
        List<RowOutcome> outcomes = run(rows.toArray(ReadingRecord[]::new));
        assertThat(rejected(outcomes)).containsExactly(5L, 6L);
        assertThat(error(outcomes, 5).problem()).contains("2029-07-10 (row 7)").contains("2030-01-10 (row 9)");
    }

    @Test
    void newestVisitFirstIsAsGood() {
        List<ReadingRecord> rows = visits();
        rows.set(8, rows.get(8).with(ReadingField.DATE, "2028-05-01"));
        rows.set(9, rows.get(9).with(ReadingField.DATE, "2028-05-01"));
        java.util.Collections.reverse(rows);
        assertThat(rejected(run(rows.toArray(ReadingRecord[]::new)))).containsExactly(9L, 10L);
    }

    @Test
    void aFirstDateFarTooEarlyMakesNoJumps() {
        List<ReadingRecord> rows = visits();
        rows.replaceAll(r -> r.with(ReadingField.USAGE, Integer.parseInt(r.text(ReadingField.USAGE)) * 10 - 5000 + ""));
        rows.set(0, rows.get(0).with(ReadingField.DATE, "1931-01-10"));
        assertThat(rejected(run(rows.toArray(ReadingRecord[]::new)))).isEmpty();
    }

    /** One against one: the later row is rejected, and the other is named with its place. */
    @Test
    void ofTwoVisitsTheLaterIsRejectedAndTheOtherNamed() {
        List<RowOutcome> outcomes = run(
                good(),
                row(2, "2032-05-02", "650", "1-in-1", "0.06", "0.07"),
                row(3, "2031-06-02", "660", "1-in-1", "0.06", "0.07"));
        assertThat(rejected(outcomes)).containsExactly(3L);
        assertThat(error(outcomes, 3)).satisfies(f -> {
            assertThat(f.code()).isEqualTo(ImportCode.DATE_OUT_OF_ORDER);
            assertThat(f.problem()).contains("2032-05-02 (row 2)");
            assertThat(f.mend())
                    .startsWith("one of the two is wrong, and nothing tells which")
                    .contains("where it is the visit of 2032-05-02, correct it in row 2 and where it is stored")
                    .contains("a date from 2031-04-02 to 2031-06-02, or a usage from 660 h");
        });
    }

    /** What was told as accepted stands; the rows that it blocks say that it is the suspect. */
    @Test
    void aVisitThatWasToldAlreadyIsNamedAsTheSuspect() {
        List<RowOutcome> outcomes = new ArrayList<>();
        ValidationRun run = validator(School.generatorEngine().build(), ValidationProfile.defaults())
                .begin(outcomes::add);
        List<ReadingRecord> rows = visits();
        rows.set(4, rows.get(4).with(ReadingField.DATE, "2031-03-10"));
        rows.set(5, rows.get(5).with(ReadingField.DATE, "2031-03-10"));
        rows.subList(0, 6).forEach(run::accept);
        run.finish();
        assertThat(outcomes).hasSize(6).allMatch(o -> o.fate() == Fate.ACCEPTED);
        rows.subList(6, 14).forEach(run::accept);
        run.finish();
        assertThat(rejected(outcomes)).containsExactly(7L, 8L, 9L, 10L, 11L, 12L, 13L, 14L);
        for (long row : List.of(7L, 9L, 14L)) {
            assertThat(error(outcomes, row).problem()).contains("2031-03-10").doesNotContain("(row");
            assertThat(error(outcomes, row).mend()).contains("the visit of 2031-03-10 is likely wrong, not this row");
        }
    }

    /** What a visit of an earlier file says is found by file and line, with the dates and usages that would fit. */
    @ParameterizedTest
    @CsvSource({
        "DATE, 2031-03-10, date-out-of-order, 'is before 2031-03-10 (store.jsonl, line 5), when the counter showed less, 700 h',"
                + " 'a date from 2028-07-10 to 2029-07-10, or a usage from 800 h'",
        "USAGE, 5000, usage-backwards, 'is less than at the visit of 2029-01-10 (store.jsonl, line 5), 5000 h',"
                + " 'a date from 2029-07-10, or a usage of 600 h to 800 h'",
    })
    void aWrongVisitInTheStoreIsNamedWithItsPlaceAndMend(
            ReadingField field, String text, String code, String problem, String ranges) {
        List<RowOutcome> outcomes = new ArrayList<>();
        ValidationRun run = validator(School.generatorEngine().build(), ValidationProfile.defaults())
                .begin(outcomes::add);
        List<ReadingRecord> rows = visits();
        rows.set(4, rows.get(4).with(field, text));
        rows.set(5, rows.get(5).with(field, text));
        run.from("store.jsonl, line");
        rows.subList(0, 6).forEach(run::accept);
        run.finish();
        rows.subList(6, 8).forEach(run::accept);
        run.finish();
        assertThat(error(outcomes, 7)).satisfies(f -> {
            assertThat(f.code()).isEqualTo(ImportCode.parse(code));
            assertThat(f.problem()).isEqualTo(problem);
            assertThat(f.mend())
                    .startsWith("one of the two is wrong")
                    .contains("correct it in store.jsonl, line 5, every row of that visit: " + ranges);
        });
        outcomes.clear();
        rows.subList(6, 10).forEach(run::accept);
        run.finish();
        assertThat(rejected(outcomes)).containsExactly(7L, 8L, 9L, 10L);
        assertThat(error(outcomes, 7).mend())
                .contains("is likely wrong, not this row")
                .contains("store.jsonl, line 5, every row of that visit: " + ranges);
        // mended as the finding says, everything fits
        String mended = field == ReadingField.DATE ? "2029-01-10" : "700";
        rows.set(4, rows.get(4).with(field, mended));
        rows.set(5, rows.get(5).with(field, mended));
        assertThat(rejected(run(rows.toArray(ReadingRecord[]::new)))).isEmpty();
    }

    @Test
    void aRowThatOtherVisitsExcludeTooIsTheLikelyFault() {
        List<ReadingRecord> rows = visits();
        rows.add(row(17, "2028-02-10", "1150", "2-in-1", "0.06", "0.07"));
        assertThat(error(run(rows.toArray(ReadingRecord[]::new)), 17).mend())
                .isEqualTo("this row is likely wrong, as other visits exclude it too: correct its date or usage");
    }

    /** Rows that stand against two stored visits in turn were judged anew for ever. */
    @Test
    void twoSuspectsAtOnceAreJudgedToAnEnd() {
        List<RowOutcome> outcomes = new ArrayList<>();
        ValidationRun run = validator(School.generatorEngine().build(), ValidationProfile.defaults())
                .begin(outcomes::add);
        run.accept(row(1, "2030-01-01", "1000", "1-in-1", "0.06", "0.07"));
        run.accept(row(2, "2031-01-01", "2000", "1-in-1", "0.06", "0.07"));
        run.finish();
        outcomes.clear();
        run.accept(row(1, "2030-03-01", "500", "1-in-1", "0.06", "0.07"));
        run.accept(row(2, "2030-03-01", "2200", "1-ex-1", "0.15", "0.20"));
        run.accept(row(3, "2030-05-01", "600", "1-in-1", "0.06", "0.07"));
        run.accept(row(4, "2030-05-01", "2300", "1-ex-1", "0.15", "0.20"));
        run.finish();
        assertThat(rejected(outcomes)).containsExactly(1L, 2L, 3L, 4L);
        assertThat(error(outcomes, 3).mend()).contains("the visit of 2030-01-01 is likely wrong");
        assertThat(error(outcomes, 4).mend())
                .contains("the visit of 2031-01-01 is likely wrong")
                .contains("correct it where it is stored, every row of that visit: a date from 2030-01-01");
    }

    @Test
    void anEarlierVisitSaysWhereTheLaterOneStands() {
        List<RowOutcome> outcomes = new ArrayList<>();
        ValidationRun run = validator(School.generatorEngine().build(), ValidationProfile.defaults())
                .begin(outcomes::add);
        run.from("old.csv, row");
        run.accept(row(7, "2031-04-02", "640", "1-in-1", "0.06", "0.07"));
        run.accept(row(8, "2031-02-02", "600", "1-in-1", "0.06", "0.07"));
        run.finish();
        run.accept(row(2, "2031-01-02", "590", "1-in-1", "0.06", "0.07"));
        run.finish();
        assertThat(outcomes.stream()
                        .flatMap(o -> o.findings().stream())
                        .filter(f -> f.code() == ImportCode.EARLIER_VISIT)
                        .map(ImportFinding::problem))
                .containsExactly(
                        "is before the visit of 2031-04-02, which stands earlier in this file, row 7; it fits in",
                        "is before the visit of 2031-02-02, which was imported earlier, old.csv, row 8; it fits in");
    }

    @Test
    void twoWrongVisitsBlameNoGoodOneThatOthersAgreeWith() {
        List<ReadingRecord> rows = visits();
        for (int i = 8; i < 12; i++) {
            // two visits with a year too early by two: three good ones stand against them
            String day = rows.get(i).text(ReadingField.DATE);
            rows.set(
                    i,
                    rows.get(i)
                            .with(
                                    ReadingField.DATE,
                                    Integer.parseInt(day.substring(0, 4))
                                            - 2
                                            + day.substring(4).replace("10", "11")));
        }
        assertThat(rejected(run(rows.toArray(ReadingRecord[]::new)))).containsExactly(9L, 10L, 11L, 12L);
    }

    // ---- what an old or a confirmed row says

    @Test
    void anOldRejectedAdjustmentExplainsNothingNew() {
        ReadingRecord first = shimmed(1, "2030-04-02", "1000", "0.10", "0.12", "", "", "");
        ReadingRecord old = shimmed(2, "2029-04-02", "500", "0.12", "0.10", "(0.18, 0.20) mm", "", "");
        ReadingRecord later = shimmed(2, "2033-04-02", "3500", "0.12", "0.10", "(0.18, 0.20) mm", "", "");
        ReadingRecord next = shimmed(3, "2032-04-02", "3000", "0.18", "0.20", "", "", "");
        assertThat(codes(runFour(first, old, next))).contains(ImportCode.CONTRADICTION, ImportCode.LOOSENED);
        assertThat(codes(runFour(first, later.with(ReadingField.DATE, "2032-06-02"), next)))
                .contains(ImportCode.CONTRADICTION, ImportCode.LOOSENED);
        ReadingRecord oldShim = shimmed(2, "2029-04-02", "500", "0.18", "0.15", "(0.18, 0.20) mm", "2.40", "2.35");
        assertThat(codes(runFour(
                        shimmed(1, "2030-04-02", "1000", "0.15", "0.18", "", "2.40", ""),
                        oldShim,
                        shimmed(3, "2032-04-02", "3000", "0.18", "0.20", "", "2.35", ""))))
                .contains(ImportCode.CONTRADICTION, ImportCode.SHIM_NOT_AS_RECORDED);
    }

    @Test
    void aRejectedAdjustmentStaysKnownUntilItsDay() {
        ReadingRecord first = shimmed(1, "2030-04-02", "1000", "0.10", "0.12", "", "", "");
        ReadingRecord adjusted = shimmed(2, "2031-04-02", "2000", "0.12", "0.10", "(0.18, 0.20) mm", "", "");
        ReadingRecord between = shimmed(3, "2030-10-02", "1500", "0.10", "0.12", "", "", "");
        ReadingRecord next = shimmed(4, "2032-04-02", "3000", "0.18", "0.20", "", "", "");
        assertThat(codes(runFour(first, adjusted, between, next))).containsExactly(ImportCode.CONTRADICTION);
    }

    @Test
    void aConfirmedClearanceKeepsTheDoubtAboutItsLeaf() {
        ReadingRecord large = row(1, "2031-04-02", "640", "1-in-1", "2.75", "3.00")
                .with(ReadingField.CONFIRMED, "impossible-clearance");
        List<RowOutcome> outcomes = run(large);
        assertThat(outcomes.get(0).fate()).isEqualTo(Fate.ACCEPTED);
        assertThat(codes(outcomes))
                .contains(ImportCode.LEAF_NOT_OWNED)
                .containsOnlyOnce(ImportCode.IMPOSSIBLE_CLEARANCE);
    }

    private static ValidationProfile remembering(int visits) {
        ValidationProfile d = ValidationProfile.defaults();
        return new ValidationProfile(
                d.largestClearance(),
                d.thinnestLeaf(),
                d.windowMargin(),
                d.historyScatter(),
                d.strayShare(),
                d.slipShare(),
                d.swapOdds(),
                d.loosening(),
                d.shimTolerance(),
                d.kilometresPerDay(),
                d.hoursPerDay(),
                d.jumpFactor(),
                d.windowFactor(),
                visits,
                1,
                Set.of());
    }

    @Test
    void memoryIsBounded() {
        List<RowOutcome> outcomes = run(
                remembering(2),
                good(),
                row(2, "2031-05-02", "650", "1-in-1", "0.06", "0.07"),
                row(3, "2031-06-02", "660", "1-in-1", "0.06", "0.07"),
                row(4, "2031-06-02", "660", "1-in-1", "0.06", "0.07"));
        assertThat(outcomes).hasSize(4);
        assertThat(codes(outcomes)).containsExactly(ImportCode.DUPLICATE);
    }

    /** The visits on hold are not lost where fewer are remembered: the wrong one is told from them. */
    @Test
    void theWrongVisitIsToldWhereOneIsRemembered() {
        List<RowOutcome> outcomes = run(
                remembering(1),
                row(1, "2031-01-01", "400", "1-in-1", "0.06", "0.07"),
                row(2, "2031-06-01", "9000", "1-in-1", "0.06", "0.07"),
                row(3, "2031-07-01", "600", "1-in-1", "0.06", "0.07"),
                row(4, "2031-08-01", "700", "1-in-1", "0.06", "0.07"));
        assertThat(rejected(outcomes)).containsExactly(2L);
    }

    @Test
    void valuesAreRefusedWithWordsOfTheirOwn() {
        assertThatThrownBy(() -> ReadingRecord.of(LAYOUT, 1, "a"))
                .isInstanceOf(RejectedValueException.class)
                .hasMessageContaining("1 columns")
                .hasMessageContaining("14 columns");
        assertThatThrownBy(() -> RecordLayout.builder(List.of("a")).column(ReadingField.DATE, "b"))
                .hasMessageContaining("\"b\": is not in the header");
        assertThatThrownBy(() -> ImportCode.parse("odd")).hasMessageContaining("other-unit");
        Contracts.refuseNull(
                () -> ReadingValidator.of(null, ValidationProfile.defaults(), TODAY),
                () -> ReadingValidator.of(n -> Optional.empty(), null, TODAY),
                () -> ReadingValidator.of(n -> Optional.empty(), ValidationProfile.defaults(), null));
        Contracts.serialises(LAYOUT);
        Contracts.serialises(good());
        Contracts.serialises(new Correction(ReadingField.GOES, "0.10 mm", "reason", Double.POSITIVE_INFINITY));
        assertThat(good())
                .isEqualTo(good())
                .hasSameHashCodeAs(good())
                .isNotEqualTo(good().with(ReadingField.DATE, "x"));
        assertThat(LAYOUT)
                .isEqualTo(layout(true))
                .hasSameHashCodeAs(layout(true))
                .isNotEqualTo(layout(false));
        assertThat(run(good()).get(0))
                .isEqualTo(run(good()).get(0))
                .hasSameHashCodeAs(run(good()).get(0));
        assertThat(run(good()).get(0).findReading())
                .isNotEqualTo(run(row(1, "2031-04-02", "640", "1-in-1", "0.05", "0.07"))
                        .get(0)
                        .findReading());
        ImportFinding finding = run(good()).get(0).findings().get(0);
        Contracts.refuseNull(
                () -> ReadingRecord.of(null, 1),
                () -> RecordLayout.builder(null),
                () -> RecordLayout.builder(List.of("a")).column(null, "a"),
                () -> RecordLayout.builder(List.of("a")).unit(null),
                () -> RecordLayout.builder(List.of("a")).usageUnit(null),
                () -> RecordLayout.builder(List.of("a")).dateOrder(null),
                () -> good().with(ReadingField.DATE, null),
                () -> ImportCode.parse(null),
                () -> ReadingField.parse(null),
                () -> new Correction(null, "", "", 1),
                () -> new ImportedMachine(null, null, ReadingRule.simple()),
                () -> new ImportFinding(null, 1, "", "", "p", "e", "m", null, Standing.OPEN),
                () -> new RowOutcome(null, Fate.DUPLICATE, null, List.of(finding)),
                () -> ImportedReading.histories(null, List.of()),
                () -> ValidationProfile.defaults().withCorrections(null));
        assertThatThrownBy(() -> new Correction(ReadingField.GOES, "", "", 0))
                .isInstanceOf(RejectedValueException.class);
        Contracts.serialises(ValidationProfile.defaults());
        Contracts.serialises(ImportedMachine.of(School.generatorEngine().build()));
    }
}
