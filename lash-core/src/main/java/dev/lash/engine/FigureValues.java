package dev.lash.engine;

import dev.lash.measure.LengthUnit;
import java.util.Optional;
import java.util.stream.Collectors;

/** What the figures of an engine are, as texts. */
final class FigureValues {
    private FigureValues() {}

    /** A figure of an engine, or empty where the engine has no such figure. */
    static Optional<String> of(EngineSpec engine, Figure figure, LengthUnit unit) {
        return switch (figure) {
            case FIRING_ORDER ->
                Optional.of(engine.firingOrder().order().stream()
                        .map(String::valueOf)
                        .collect(Collectors.joining("-")));
            case FIRING_INTERVALS ->
                Optional.of(engine.firingOrder().intervals().stream()
                                .map(CrankWords::degrees)
                                .collect(Collectors.joining(", "))
                        + " deg");
            case PITCH, RATIO, HEAD, STEP, ECCENTRICITY, MULTIPLIER, SHIMS, OPENER_SHIMS, CLOSER_SHIMS ->
                ofTrain(engine.train(), figure);
            case INTAKE_WINDOW, EXHAUST_WINDOW, INTAKE_CLOSER_WINDOW, EXHAUST_CLOSER_WINDOW ->
                clearance(engine, figure).map(c -> c.check().toString(unit));
            case INTAKE_SETTING, EXHAUST_SETTING, INTAKE_CLOSER_SETTING, EXHAUST_CLOSER_SETTING ->
                clearance(engine, figure).map(c -> c.setTo().toString(unit));
            case COLDEST -> engine.coldest().map(Object::toString);
            case WARMEST -> engine.warmest().map(Object::toString);
            case CHECK_INTERVAL -> engine.checkInterval().map(Object::toString);
            case WEAR_PRIOR -> engine.wearPrior().map(p -> p.drift() + " +- " + p.driftDeviation() + " in " + p.per());
            case CAM_TIMING ->
                engine.camTiming()
                        .map(t -> "intake " + t.intakeOpens() + " to " + t.intakeCloses() + ", exhaust "
                                + t.exhaustOpens() + " to " + t.exhaustCloses());
            case DECOMPRESSOR ->
                engine.decompressor()
                        .map(d -> d.isKnown()
                                ? d.valve() + " from " + d.before() + " deg before to " + d.after()
                                        + " deg after compression TDC"
                                : d.valve() + ", angles not known");
            case CAMSHAFTS ->
                Optional.of(engine.camshafts())
                        .filter(camshafts -> !camshafts.equals(Camshafts.ONE_PER_ROLE))
                        .map(FigureValues::camshafts);
        };
    }

    private static String camshafts(Camshafts camshafts) {
        String perBank = camshafts.perBank() == Camshafts.PerBank.ONE ? "one" : "one for each role";
        return camshafts.banks().size() < 2
                ? perBank
                : perBank + " in each bank: cylinders "
                        + camshafts.banks().stream()
                                .map(bank -> bank.stream().map(String::valueOf).collect(Collectors.joining("-")))
                                .collect(Collectors.joining(", "));
    }

    /** The clearance that a window belongs to. */
    static Optional<ClearanceSpec> clearance(EngineSpec engine, Figure figure) {
        ValveRole role = figure.role();
        return role == null
                ? Optional.empty()
                : engine.findClearance(role, figure.isOfCloser() ? Gap.CLOSER : Gap.ONLY);
    }

    static Optional<String> ofTrain(ValveTrain train, Figure figure) {
        Optional<?> value = train.match(new ValveTrain.Cases<Optional<?>>() {
            @Override
            public Optional<?> screw(ValveTrain.Screw t) {
                return switch (figure) {
                    case PITCH -> Optional.of(t.pitch());
                    case RATIO -> Optional.of(t.ratio()).filter(r -> t.place().needsRatio());
                    case HEAD -> Optional.of(t.head()).filter(h -> h != ScrewHead.NOT_STATED);
                    default -> Optional.empty();
                };
            }

            @Override
            public Optional<?> wedge(ValveTrain.Wedge t) {
                return only(Figure.STEP, t.step());
            }

            @Override
            public Optional<?> eccentric(ValveTrain.Eccentric t) {
                return figure == Figure.MULTIPLIER
                        ? Optional.of(t.multiplier())
                        : only(Figure.ECCENTRICITY, t.eccentricity());
            }

            @Override
            public Optional<?> shim(ValveTrain.Shim t) {
                return figure == Figure.RATIO
                        ? Optional.of(t.ratio()).filter(r -> t.place() == ValveTrain.ShimPlace.FOLLOWER)
                        : only(Figure.SHIMS, t.sizes());
            }

            @Override
            public Optional<?> desmodromic(ValveTrain.Desmodromic t) {
                return figure == Figure.CLOSER_SHIMS ? Optional.of(t.closer()) : only(Figure.OPENER_SHIMS, t.opener());
            }

            @Override
            public Optional<?> fixed(ValveTrain.Fixed t) {
                return Optional.empty();
            }

            @Override
            public Optional<?> hydraulic(ValveTrain.Hydraulic t) {
                return Optional.empty();
            }

            private Optional<?> only(Figure one, Object itsValue) {
                return figure == one ? Optional.of(itsValue) : Optional.empty();
            }
        });
        return value.map(Object::toString);
    }
}
