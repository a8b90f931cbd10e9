package dev.lash.specs;

import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.adjust.InstalledShim;
import dev.lash.adjust.ShimBox;
import dev.lash.check.CheckSheet;
import dev.lash.check.Done;
import dev.lash.check.PastVisit;
import dev.lash.check.Symptom;
import dev.lash.check.ValveReading;
import dev.lash.engine.CamTiming;
import dev.lash.engine.Camshafts;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.FiringOrder;
import dev.lash.engine.Gap;
import dev.lash.engine.ScrewHead;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.WearPrior;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.ReadingRule;
import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import dev.lash.specs.JsonText.Fields;
import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * Writes check sheets ({@code lash-sheet/1}) as JSON that {@link SheetReader} reads back as an equal sheet. The engine is always
 * written whole, in place.
 */
public final class SheetWriter {
    private SheetWriter() {}

    /**
     * Writes a sheet.
     *
     * @param sheet the sheet
     * @return the document, without a line end
     * @throws DocumentException if the sheet cannot be written in this format: a guarded rule with other figures than the gauges
     *     have, or firing intervals without a finite decimal form
     */
    public static String write(CheckSheet sheet) {
        LengthUnit unit = sheet.gauges().unit();
        Fields fields = new Fields()
                .put("format", SheetReader.FORMAT)
                .put("engine", engine(sheet.engine(), unit))
                .putText("machine", sheet.machine())
                .put("date", sheet.date().map(Object::toString))
                .put("usage", sheet.usage().map(Object::toString))
                .put("engineTemperature", sheet.engineTemperature().map(Object::toString))
                .put("rule", rule(sheet))
                .put("gauges", gauges(sheet.gauges()))
                .put("valves", sheet.valves().stream().map(v -> valve(v, unit)).toList())
                .putList(
                        "shimBox",
                        sheet.shimBox().lots().stream().map(SheetWriter::lot).toList())
                .putList(
                        "symptoms", sheet.symptoms().stream().map(Symptom::word).toList())
                .putList(
                        "history",
                        sheet.history().stream().map(v -> visit(v, unit)).toList());
        return JsonText.write(fields.map(), true);
    }

    private static String rule(CheckSheet sheet) {
        ReadingRule rule = sheet.rule();
        if (rule instanceof ReadingRule.Guarded && !rule.equals(sheet.gauges().guardedRule())) {
            throw notWritable(
                    "/rule",
                    rule.toString(),
                    "has other figures than the gauges",
                    sheet.gauges().guardedRule().toString(),
                    "give the gauges the figures of the rule");
        }
        return rule.name();
    }

    private static DocumentException notWritable(
            String pointer, String value, String problem, String expected, String mend) {
        return new DocumentException("sheet", 1, 1, pointer, value, problem, expected, mend);
    }

    private static Map<String, Object> engine(EngineSpec engine, LengthUnit unit) {
        Fields spec = new Fields()
                .put("id", engine.id())
                .put("title", engine.title())
                .put("cylinders", engine.firingOrder().cylinders())
                .put("firingOrder", engine.firingOrder().order());
        FiringOrder order = engine.firingOrder();
        if (!order.isEven()) {
            spec.put(
                    "firingIntervals",
                    order.intervals().stream().map(SheetWriter::decimal).toList());
        }
        spec.put("valves", engine.valves().stream().map(ValveId::toString).toList())
                .put("train", train(engine.train()))
                .put("clearances", windows(engine, Gap.ONLY, unit, false))
                .put("setTo", windows(engine, Gap.ONLY, unit, true))
                .put("closerClearances", windows(engine, Gap.CLOSER, unit, false))
                .put("closerSetTo", windows(engine, Gap.CLOSER, unit, true))
                .put("condition", condition(engine))
                .put("checkInterval", engine.checkInterval().map(Object::toString))
                .put("wearPrior", engine.wearPrior().map(SheetWriter::wearPrior))
                .put("camTiming", engine.camTiming().map(SheetWriter::timing))
                .put(
                        "decompressor",
                        engine.decompressor()
                                .map(d -> new Fields()
                                        .put("valve", d.valve().toString())
                                        .put("before", d.findBefore().map(angle -> angle + " deg"))
                                        .put("after", d.findAfter().map(angle -> angle + " deg"))
                                        .map()))
                .put("camshafts", camshafts(engine.camshafts()))
                .putList("cautions", engine.cautions())
                .putList("tools", engine.tools());
        spec.put("template", engine.template());
        return new Fields()
                .put("inline", spec.map())
                .putList("origins", FigureForms.origins(engine))
                .putList("overridden", FigureForms.overridden(engine))
                .put("confirmedFrom", confirmations(engine))
                .map();
    }

    /** One place for all windows as a text, else one for each role and figure. */
    private static Optional<Object> confirmations(EngineSpec engine) {
        Fields byName = new Fields();
        for (ValveRole role : ValveRole.values()) {
            engine.findClearance(role).ifPresent(c -> byName.put(role.code(), c.confirmedFrom()));
        }
        List<Object> places = byName.map().values().stream().distinct().toList();
        if (places.equals(List.of(""))) {
            byName.map().clear();
        }
        boolean windowsAlike = places.size() == 1 && !byName.map().isEmpty();
        int windows = byName.map().size();
        FigureForms.confirmable()
                .forEach(figure -> byName.put(FigureForms.name(figure), engine.findConfirmation(figure)));
        if (byName.map().isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(windowsAlike && byName.map().size() == windows ? places.get(0) : byName.map());
    }

    private static Optional<Map<String, Object>> condition(EngineSpec engine) {
        return Optional.of(new Fields()
                        .put("minTemperature", engine.coldest().map(Object::toString))
                        .put("maxTemperature", engine.warmest().map(Object::toString))
                        .map())
                .filter(condition -> !condition.isEmpty());
    }

    private static Optional<Map<String, Object>> windows(EngineSpec engine, Gap gap, LengthUnit unit, boolean setTo) {
        Fields fields = new Fields();
        for (ValveRole role : ValveRole.values()) {
            engine.findClearance(role, gap)
                    .filter(c -> !setTo || !c.setTo().equals(c.check()))
                    .ifPresent(c -> fields.put(role.code(), (setTo ? c.setTo() : c.check()).toString(unit)));
        }
        return Optional.of(fields.map()).filter(windows -> !windows.isEmpty());
    }

    private static Map<String, Object> wearPrior(WearPrior prior) {
        return new Fields()
                .put("per", prior.per().toString())
                .put("drift", prior.drift().toString())
                .put("driftDeviation", prior.driftDeviation().toString())
                .put("spread", prior.spread().toString())
                .put("scatter", prior.scatter().toString())
                .put("factor", prior.factor().toString())
                .put("basis", prior.basis())
                .map();
    }

    private static Map<String, Object> timing(CamTiming timing) {
        return new Fields()
                .put("in", events(timing.intakeOpens(), timing.intakeCloses()))
                .put("ex", events(timing.exhaustOpens(), timing.exhaustCloses()))
                .put("margin", timing.margin() + " deg")
                .map();
    }

    private static Optional<Map<String, Object>> camshafts(Camshafts camshafts) {
        return Optional.of(camshafts)
                .filter(which -> !which.equals(Camshafts.ONE_PER_ROLE))
                .map(which -> new Fields()
                        .put("perBank", which.perBank().word())
                        .putList("banks", which.banks())
                        .map());
    }

    private static Map<String, Object> events(CamTiming.Event opens, CamTiming.Event closes) {
        return new Fields()
                .put("opens", opens.toString())
                .put("closes", closes.toString())
                .map();
    }

    /** A valve train as documents have it. */
    static Map<String, Object> train(ValveTrain train) {
        Fields fields = new Fields().put("kind", train.kind());
        return train.match(new ValveTrain.Cases<>() {
            @Override
            public Map<String, Object> screw(ValveTrain.Screw t) {
                fields.put("pitch", t.pitch().toString());
                if (t.place().needsRatio()) {
                    fields.put("ratio", t.ratio().toString());
                }
                if (t.head() != ScrewHead.NOT_STATED) {
                    fields.put("head", t.head().word());
                }
                return fields.map();
            }

            @Override
            public Map<String, Object> wedge(ValveTrain.Wedge t) {
                return fields.put("step", t.step().toString()).map();
            }

            @Override
            public Map<String, Object> eccentric(ValveTrain.Eccentric t) {
                return fields.put("eccentricity", t.eccentricity().toString())
                        .put("multiplier", t.multiplier().toString())
                        .map();
            }

            @Override
            public Map<String, Object> shim(ValveTrain.Shim t) {
                fields.put("shims", t.sizes().toString());
                if (t.place() == ValveTrain.ShimPlace.FOLLOWER) {
                    fields.put("ratio", t.ratio().toString());
                }
                return fields.map();
            }

            @Override
            public Map<String, Object> desmodromic(ValveTrain.Desmodromic t) {
                return fields.put("openerShims", t.opener().toString())
                        .put("closerShims", t.closer().toString())
                        .map();
            }

            @Override
            public Map<String, Object> fixed(ValveTrain.Fixed t) {
                return fields.map();
            }

            @Override
            public Map<String, Object> hydraulic(ValveTrain.Hydraulic t) {
                return fields.map();
            }
        });
    }

    private static Map<String, Object> gauges(GaugeSet gauges) {
        LengthUnit unit = gauges.unit();
        Fields fields = new Fields()
                .put(
                        "leaves",
                        gauges.leaves().stream()
                                .map((Leaf leaf) -> leaf.toString(unit))
                                .toList());
        if (gauges.tolerance().signum() > 0) {
            fields.put("tolerance", gauges.tolerance().toString(unit));
        }
        if (gauges.dragAllowance().signum() > 0) {
            fields.put("dragAllowance", gauges.dragAllowance().toString(unit));
        }
        return fields.put("stack", gauges.mostStacked()).map();
    }

    private static Map<String, Object> valve(ValveReading reading, LengthUnit unit) {
        Fields fields = new Fields()
                .put("valve", reading.valve().toString())
                .put(
                        "gap",
                        Optional.of(reading.gap()).filter(g -> g != Gap.ONLY).map(Gap::word))
                .put("trials", SharedForms.trials(reading.trials(), unit))
                .putList("loadedTrials", SharedForms.trials(reading.loadedTrials(), unit))
                .put("turnsFree", Optional.of(true).filter(free -> reading.turnsFree()))
                .put("shim", reading.findShim().map(SheetWriter::shim))
                .put("eccentricAngle", reading.findEccentricAngle().map(angle -> angle + " deg"))
                .putText("stop", reading.stop());
        if (reading.pad() == Pad.DISHED) {
            fields.put("pad", "dished");
        }
        return fields.put("done", reading.findDone().map(done -> done(done, reading.tries(), unit)))
                .putList("recheck", SharedForms.trials(reading.recheck(), unit))
                .map();
    }

    private static Object shim(InstalledShim shim) {
        boolean markOnly = shim.findMarked().isPresent()
                && shim.findMeasured().isEmpty()
                && shim.tolerance().signum() == 0
                && shim.type().isEmpty();
        if (markOnly) {
            return shim.findMarked().orElseThrow().toString();
        }
        Fields fields = new Fields()
                .put("marked", shim.findMarked().map(Length::toString))
                .put("measured", shim.findMeasured().map(Length::toString));
        if (shim.tolerance().signum() > 0) {
            fields.put("tolerance", shim.tolerance().toString());
        }
        return fields.putText("type", shim.type()).map();
    }

    private static Map<String, Object> done(Done done, int tries, LengthUnit unit) {
        Fields fields = new Fields();
        if (done instanceof Done.SetWith set) {
            fields.put("setWith", SharedForms.leaf(set.leaf(), unit));
        } else if (done instanceof Done.Turned turned) {
            fields.put("turned", turned.degrees() + " deg");
        } else if (done instanceof Done.Fitted fitted) {
            fields.put("fitted", fitted.shim().toString());
        }
        return fields.put("tries", Optional.of(tries).filter(count -> count > 1))
                .map();
    }

    private static Map<String, Object> lot(ShimBox.Lot lot) {
        return new Fields()
                .put("size", lot.size().toString())
                .put("count", lot.count())
                .putText("type", lot.type())
                .map();
    }

    private static Map<String, Object> visit(PastVisit visit, LengthUnit unit) {
        return new Fields()
                .put("date", visit.date().toString())
                .put("usage", visit.findUsage().map(Object::toString))
                .put(
                        "valves",
                        visit.valves().stream()
                                .map(v -> new Fields()
                                        .put("valve", v.valve().toString())
                                        .put(
                                                "gap",
                                                Optional.of(v.gap())
                                                        .filter(g -> g != Gap.ONLY)
                                                        .map(Gap::word))
                                        .put("found", v.found().toString(unit))
                                        .put("left", v.left().toString(unit))
                                        .put("shim", v.findShim().map(SheetWriter::shim))
                                        .map())
                                .collect(Collectors.<Map<String, Object>>toList()))
                .put("breakIn", Optional.of(visit.breakIn()).filter(b -> b))
                .map();
    }

    private static BigDecimal decimal(Ratio ratio) {
        String text = ratio.toString();
        if (text.indexOf('/') >= 0) {
            throw notWritable(
                    "/engine/inline/firingIntervals",
                    text,
                    "has no finite decimal form",
                    "crank degrees as a decimal number",
                    "round the firing intervals so that they still add up to 720");
        }
        return new BigDecimal(text);
    }
}
