package dev.lash.specs;

import dev.lash.adjust.Adjustment;
import dev.lash.adjust.EccentricTurn;
import dev.lash.adjust.HabitShim;
import dev.lash.adjust.LockShift;
import dev.lash.adjust.TurnRange;
import dev.lash.check.CheckReport;
import dev.lash.check.CheckSheet;
import dev.lash.check.Finding;
import dev.lash.check.ValveCheck;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.CrankPlanner;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.Contradiction;
import dev.lash.gauge.Evidence;
import dev.lash.gauge.ReadingRule;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.plan.NextLeaf;
import dev.lash.specs.JsonText.Fields;
import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Writes reports ({@code lash-report/1}) as JSON. Lengths come in the unit of the sheet's gauges, exact; one that has no finite
 * decimal form there comes in millimetres.
 */
public final class ReportWriter {
    static final String FORMAT = "lash-report/1";

    private final boolean pretty;

    private ReportWriter(boolean pretty) {
        this.pretty = pretty;
    }

    /** {@return a writer that breaks and indents lines} */
    public static ReportWriter pretty() {
        return new ReportWriter(true);
    }

    /** {@return a writer that puts a report on one line} */
    public static ReportWriter oneLine() {
        return new ReportWriter(false);
    }

    /**
     * Writes a report.
     *
     * @param report the report
     * @return the document, without a line end
     */
    public String write(CheckReport report) {
        CheckSheet sheet = report.sheet();
        LengthUnit unit = sheet.gauges().unit();
        EngineSpec engine = sheet.engine();
        Fields fields = new Fields()
                .put("format", FORMAT)
                .put("libraryVersion", Versions.library())
                .put(
                        "packVersion",
                        engine.template()
                                .filter(template -> !Template.isOfFolder(template))
                                .map(template -> SpecPack.bundled().version()))
                .putText("machine", sheet.machine())
                .put("date", sheet.date().map(Object::toString))
                .put("usage", sheet.usage().map(Object::toString))
                .put("engineTemperature", sheet.engineTemperature().map(Object::toString))
                .put(
                        "engine",
                        new Fields()
                                .put("id", engine.id())
                                .put("title", engine.title())
                                .put("train", engine.train().kind())
                                .put("template", engine.template())
                                .map())
                .put("rule", sheet.rule().name());
        if (sheet.rule() instanceof ReadingRule.Guarded guarded) {
            fields.put("tolerance", guarded.tolerance().toString(unit))
                    .put("dragAllowance", guarded.dragAllowance().toString(unit));
        }
        fields.put(
                        "valves",
                        report.valves().stream()
                                .map(valve -> valve(report, valve, unit))
                                .toList())
                .put("checkBy", report.findTrend().map(t -> TrendForms.checkBy(report, t)));
        CrankForms.put(CrankPlanner.atTdcMarks().plan(engine), fields);
        fields.put("shimPlan", report.shimPlan().map(plan -> ShimPlanForms.fields(plan, unit)))
                .put(
                        "findings",
                        report.findings().stream().map(ReportWriter::finding).toList())
                .putList("overridden", FigureForms.overridden(engine, unit))
                .putList("unconfirmed", FigureForms.unconfirmed(report.unconfirmed()))
                .put("cautions", report.cautions());
        return JsonText.write(fields.map(), pretty);
    }

    private static Map<String, Object> valve(CheckReport report, ValveCheck check, LengthUnit unit) {
        ValveTrain train = report.sheet().engine().train();
        Fields fields = new Fields()
                .put("valve", check.reading().valve().toString())
                .put(
                        "gap",
                        Optional.of(check.reading().gap())
                                .filter(g -> g != Gap.ONLY)
                                .map(Gap::word))
                .put("trials", SharedForms.trials(check.reading().trials(), unit));
        evidence(fields, check.evidence(), unit);
        check.clearance().ifPresent(clearance -> window(fields, clearance, unit));
        check.verdict().ifPresent(verdict -> verdict(fields, verdict, check.possible()));
        fields.put(
                "nextLeaf",
                check.nextLeaf()
                        .map(next -> new Fields()
                                .put("leaves", SharedForms.leaves(next.leaf(), unit))
                                .put("owned", next.owned())
                                .put("byForecast", Optional.of(true).filter(yes -> check.isLeafByForecast()))
                                .map()));
        check.adjustment().ifPresent(adjustment -> {
            Fields form = adjustment(adjustment, unit);
            form.put(
                    "certain",
                    check.certainShims()
                            .map(sizes -> sizes.stream()
                                    .map(size -> size.toString(unit))
                                    .toList()));
            form.put("reachable", check.reachable().map(i -> SharedForms.interval(i, unit)));
            form.put("aimByForecast", Optional.of(true).filter(yes -> check.isAimByForecast() && adjustment.isAimed()));
            flats(adjustment, train).ifPresent(f -> form.put("flats", List.of(f.from(), f.to())));
            fields.put("adjustment", form.map());
        });
        fields.put("done", check.reading().findDone().map(done -> done.toString(unit)));
        check.recheck().ifPresent(evidence -> {
            Fields recheck = new Fields().put("trials", SharedForms.trials(evidence.trials(), unit));
            evidence(recheck, evidence, unit);
            check.recheckVerdict().ifPresent(verdict -> verdict(recheck, verdict, check.recheckPossible()));
            recheck.put("adjustment", check.again().map(a -> adjustment(a, unit).map()));
            fields.put("recheck", recheck.map());
        });
        report.findTrend()
                .flatMap(t -> t.find(check.reading().valve(), check.reading().gap()))
                .ifPresent(t -> TrendForms.put(fields, t, unit));
        fields.put("probabilities", report.probabilities(check).map(TrendForms::probabilities));
        return fields.map();
    }

    private static Optional<TurnRange.FlatRange> flats(Adjustment adjustment, ValveTrain train) {
        return adjustment instanceof Adjustment.SetToLeaf set && train instanceof ValveTrain.Screw screw
                ? set.findTurn().flatMap(turn -> turn.flats(screw.head()))
                : Optional.empty();
    }

    private static void window(Fields fields, ClearanceSpec clearance, LengthUnit unit) {
        fields.put("window", clearance.check().toString(unit));
        if (!clearance.setTo().equals(clearance.check())) {
            fields.put("setTo", clearance.setTo().toString(unit));
        }
        fields.put("confirmed", clearance.isConfirmed());
    }

    private static void evidence(Fields fields, Evidence evidence, LengthUnit unit) {
        evidence.match(
                bracket -> fields.put("bracket", SharedForms.interval(bracket.interval(), unit)),
                contradiction -> fields.put("contradiction", pair(contradiction, unit)));
    }

    private static List<Map<String, Object>> pair(Contradiction contradiction, LengthUnit unit) {
        return SharedForms.trials(List.of(contradiction.first(), contradiction.second()), unit);
    }

    private static void verdict(Fields fields, Verdict verdict, List<Verdict> possible) {
        fields.put("verdict", verdict.word());
        if (verdict == Verdict.UNDECIDED) {
            fields.put("possible", possible.stream().map(Verdict::word).toList());
        }
    }

    private static Map<String, Object> finding(Finding finding) {
        return new Fields()
                .put("code", finding.code().code())
                .put("severity", finding.severity().word())
                .put("place", finding.place())
                .put("problem", finding.problem())
                .put("value", finding.value())
                .put("expected", finding.expected())
                .put("mend", finding.mend())
                .map();
    }

    private static List<BigDecimal> degrees(TurnRange range) {
        return List.of(range.from(), range.to());
    }

    /** An adjustment as a report writes it. */
    static Map<String, Object> adjustmentForm(Adjustment adjustment, LengthUnit unit) {
        return adjustment(adjustment, unit).map();
    }

    private static Fields adjustment(Adjustment adjustment, LengthUnit unit) {
        Fields fields = new Fields().put("kind", adjustment.kind());
        return adjustment.match(new Adjustment.Cases<>() {
            @Override
            public Fields leave(Adjustment.Leave a) {
                return fields;
            }

            @Override
            public Fields setToLeaf(Adjustment.SetToLeaf a) {
                return fields.put("leaf", SharedForms.leaf(a.leaf(), unit))
                        .put("degrees", a.findTurn().map(ReportWriter::degrees))
                        .put(
                                "eccentric",
                                Optional.of(a.eccentric().stream()
                                                .map(ReportWriter::eccentric)
                                                .toList())
                                        .filter(turns -> !turns.isEmpty()))
                        .put("lockShift", a.findLockShift().map(ReportWriter::lockShift))
                        .putText("first", a.first())
                        .put("resulting", SharedForms.interval(a.resulting(), unit));
            }

            @Override
            public Fields turn(Adjustment.Turn a) {
                return fields.put("from", a.from().word())
                        .put("degrees", degrees(a.degrees()))
                        .put("certainDegrees", a.findCertain().map(ReportWriter::degrees))
                        .put("flats", a.findFlats().map(f -> List.of(f.from(), f.to())))
                        .put("direction", a.direction())
                        .put("lockShift", a.findLockShift().map(ReportWriter::lockShift))
                        .putText("first", a.first());
            }

            @Override
            public Fields fitShim(Adjustment.FitShim a) {
                return fields.put("shim", a.shim().toString(unit))
                        .put("resulting", SharedForms.interval(a.resulting(), unit))
                        .put("inBox", a.inBox())
                        .put("byHabit", a.findByHabit().map(habit -> byHabit(habit, unit)));
            }

            @Override
            public Fields machine(Adjustment.Machine a) {
                return fields.put("work", a.work())
                        .put(
                                "amount",
                                a.findAmount()
                                        .map(i -> List.of(
                                                text(i.lower().orElseThrow(), unit),
                                                text(i.upper().orElseThrow(), unit))));
            }

            @Override
            public Fields measureFurther(Adjustment.MeasureFurther a) {
                a.findLeaf().ifPresent(next -> nextLeaf(fields, next, unit));
                return fields.put(
                                "measuringShim",
                                a.findMeasuringShim()
                                        .map(sizes -> List.of(
                                                text(sizes.lower().orElseThrow(), unit),
                                                text(sizes.upper().orElseThrow(), unit))))
                        .put("why", a.why());
            }

            @Override
            public Fields inspect(Adjustment.Inspect a) {
                return fields.put("why", a.why())
                        .put(
                                "then",
                                a.findThen().map(then -> adjustment(then, unit).map()));
            }

            @Override
            public Fields notApplicable(Adjustment.NotApplicable a) {
                return fields.put("why", a.why());
            }
        });
    }

    private static Map<String, Object> eccentric(EccentricTurn turn) {
        return new Fields()
                .put("towards", turn.sense().word())
                .put("degrees", degrees(turn.degrees()))
                .put("toAngle", degrees(turn.to()))
                .map();
    }

    private static Map<String, Object> byHabit(HabitShim habit, LengthUnit unit) {
        return new Fields()
                .put("rounding", habit.rounding().habit().code())
                .put("specified", habit.rounding().specified().toString())
                .put("ideal", habit.ideal().toString(unit))
                .put("shim", habit.findSize().map(size -> size.toString(unit)))
                .put("resulting", habit.findResulting().map(i -> SharedForms.interval(i, unit)))
                .put("certain", habit.certain())
                .map();
    }

    private static Map<String, Object> lockShift(LockShift shift) {
        return new Fields()
                .put("estimate", shift.estimate().toString())
                .put(
                        "standardError",
                        Length.ofNanometres(Math.round(shift.standardError() * 1e6))
                                .toString())
                .put("readings", shift.count())
                .map();
    }

    private static void nextLeaf(Fields fields, NextLeaf next, LengthUnit unit) {
        fields.put("leaf", SharedForms.leaf(next.leaf(), unit)).put("owned", next.owned());
    }

    private static String text(Length length, LengthUnit unit) {
        return length.toString(unit);
    }
}
