package dev.lash.check;

import static java.util.Objects.requireNonNull;

import dev.lash.engine.EngineSpec;
import dev.lash.engine.Figure;
import dev.lash.engine.Origin;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.measure.LengthUnit;
import java.io.Serializable;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * A figure that a result leans on and that the shop has not confirmed: what comes out of it is no better than the figure.
 *
 * @param figure the figure
 * @param value the figure as a text
 * @param origin where it came from
 */
public record Unconfirmed(Figure figure, String value, Origin origin) implements Serializable {
    /**
     * Creates an entry.
     *
     * @param figure the figure
     * @param value the figure as a text
     * @param origin where it came from
     */
    public Unconfirmed {
        requireNonNull(figure, "figure");
        requireNonNull(value, "value");
        requireNonNull(origin, "origin");
    }

    /** What a figure is used for. */
    public enum Use {
        /** To judge a reading: windows, and the engine's temperature. */
        VERDICTS,
        /** To say what to do about a valve: windows to set to, and the figures of the train. */
        ADJUSTMENTS,
        /** To say where to stop the engine: firing, cam timing and decompressor. */
        CRANK_STOPS,
        /** To say when a valve leaves its window: windows, and the ratio that turns a shim into clearance. */
        FORECAST_WINDOWS,
        /** To say when to check again at the latest. */
        CHECK_INTERVAL,
        /** To reckon with a trend before there are many readings. */
        WEAR_PRIOR
    }

    /**
     * The figures of an engine that results lean on and that the shop has not confirmed.
     *
     * @param engine the engine
     * @param unit the unit of clearances
     * @param uses what the figures are used for
     * @return the figures, in the order of {@link Figure}; none for hydraulic lifters, of which nothing is reckoned
     */
    public static List<Unconfirmed> of(EngineSpec engine, LengthUnit unit, Set<Use> uses) {
        requireNonNull(unit, "unit");
        Set<Figure> leanedOn =
                uses.stream().flatMap(use -> figures(engine, use)).collect(Collectors.toCollection(() -> none()));
        return engine.train() instanceof ValveTrain.Hydraulic
                ? List.of()
                : leanedOn.stream()
                        .filter(figure -> !engine.isConfirmed(figure))
                        .flatMap(figure -> engine
                                .findFigure(figure, unit)
                                .map(value -> new Unconfirmed(figure, value, engine.origin(figure)))
                                .stream())
                        .toList();
    }

    private static EnumSet<Figure> none() {
        return EnumSet.noneOf(Figure.class);
    }

    private static Stream<Figure> figures(EngineSpec engine, Use use) {
        return switch (use) {
            case VERDICTS -> Stream.concat(windows(engine), Stream.of(Figure.COLDEST, Figure.WARMEST));
            case ADJUSTMENTS ->
                Stream.of(
                                windows(engine),
                                settings(engine),
                                Arrays.stream(Figure.values()).filter(Figure::isOfTrain),
                                // what must be lifted to reach a shim
                                Stream.of(Figure.CAMSHAFTS).filter(f -> engine.train() instanceof ValveTrain.Shim))
                        .flatMap(figures -> figures);
            case CRANK_STOPS ->
                engine.firingOrder().cylinders() == 1
                        ? Stream.of(Figure.CAM_TIMING, Figure.DECOMPRESSOR)
                        : Stream.of(
                                Figure.FIRING_ORDER, Figure.FIRING_INTERVALS, Figure.CAM_TIMING, Figure.DECOMPRESSOR);
            case FORECAST_WINDOWS ->
                Stream.concat(
                        windows(engine),
                        Stream.of(Figure.RATIO).filter(ratio -> engine.train() instanceof ValveTrain.Shim));
            case CHECK_INTERVAL -> Stream.of(Figure.CHECK_INTERVAL);
            case WEAR_PRIOR -> Stream.of(Figure.WEAR_PRIOR);
        };
    }

    /** The windows to check against, of the roles that the engine has. */
    private static Stream<Figure> windows(EngineSpec engine) {
        return roles(engine).flatMap(role -> engine.gaps().stream().map(gap -> Figure.window(role, gap)));
    }

    /** The windows to set to, where they are others. */
    private static Stream<Figure> settings(EngineSpec engine) {
        return roles(engine)
                .flatMap(role -> engine.gaps().stream()
                        .filter(gap -> engine.findClearance(role, gap)
                                .filter(c -> !c.setTo().equals(c.check()))
                                .isPresent())
                        .map(gap -> Figure.setting(role, gap)));
    }

    private static Stream<ValveRole> roles(EngineSpec engine) {
        return Arrays.stream(ValveRole.values())
                .filter(role -> engine.valves().stream().anyMatch(v -> v.role() == role));
    }

    /**
     * Figures in words, those of one origin together.
     *
     * @param figures the figures
     * @return a text for each origin, such as {@code pitch 0.75 mm, ratio 1.4: from memory}
     */
    public static List<String> texts(List<Unconfirmed> figures) {
        return figures.stream()
                .map(Unconfirmed::origin)
                .distinct()
                .map(origin -> figures.stream()
                                .filter(f -> f.origin.equals(origin))
                                .map(f -> f.figure.words() + " " + f.value)
                                .collect(Collectors.joining(", "))
                        + ": "
                        + Optional.of(origin)
                                .filter(o -> !o.equals(Origin.STATED))
                                .map(Origin::toString)
                                .orElse("given without where the shop read it"))
                .toList();
    }

    /** {@return figure, value and origin in one line} */
    @Override
    public String toString() {
        return texts(List.of(this)).get(0);
    }
}
