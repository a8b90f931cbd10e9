package dev.lash.engine;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.LengthUnit;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A figure that stands in place of another: what a template, or one beneath it, gave before the shop laid its own over it. What it is
 * now tells the engine, {@link EngineSpec#findFigure}, and where that came from {@link EngineSpec#origin}.
 *
 * @param figure the figure
 * @param was what it was, as a text with its unit; empty where there was no such figure
 * @param origin where that came from
 */
public record Overridden(Figure figure, String was, Origin origin) implements Serializable {
    /**
     * Creates an entry.
     *
     * @param figure the figure
     * @param was what it was, as a text with its unit; empty where there was no such figure
     * @param origin where that came from
     * @throws dev.lash.measure.RejectedValueException if the figure is a window and the text is none
     */
    public Overridden {
        requireNonNull(figure, "figure");
        requireNonNull(was, "was");
        requireNonNull(origin, "origin");
        if (figure.isWindow() && !was.isEmpty()) {
            ClearanceWindow.parse(was);
        }
    }

    /**
     * What differs between the figures of two engines.
     *
     * @param before the engine that was
     * @param now the engine that takes its place
     * @return the figures that are not the same, in the order of {@link Figure}, each with what it was
     */
    public static List<Overridden> between(EngineSpec before, EngineSpec now) {
        List<Overridden> changed = new ArrayList<>();
        for (Figure figure : Figure.values()) {
            Optional<String> was = before.findFigure(figure, LengthUnit.MILLIMETRE);
            if (!was.equals(now.findFigure(figure, LengthUnit.MILLIMETRE)) && !followsWindow(figure, before, now)) {
                changed.add(new Overridden(figure, was.orElse(""), before.origin(figure)));
            }
        }
        return List.copyOf(changed);
    }

    /** A window to set to that is the one to check against, before and now, is no figure of its own. */
    private static boolean followsWindow(Figure figure, EngineSpec before, EngineSpec now) {
        return figure.isSetting() && isWindowToCheck(figure, before) && isWindowToCheck(figure, now);
    }

    private static boolean isWindowToCheck(Figure figure, EngineSpec engine) {
        return FigureValues.clearance(engine, figure)
                .map(c -> c.setTo().equals(c.check()))
                .orElse(true);
    }

    /**
     * What an engine has in place of what its template gave.
     *
     * @param engine the engine
     * @param unit the unit of clearances
     * @return a text for each figure, such as {@code pitch 1 mm in place of 0.75 mm (from memory)}
     */
    public static List<String> texts(EngineSpec engine, LengthUnit unit) {
        return engine.overridden().stream().map(o -> o.text(engine, unit)).toList();
    }

    /**
     * The figure of an engine and what stood there before.
     *
     * @param engine the engine that has the figure now
     * @param unit the unit of clearances
     * @return the text, such as {@code pitch 1 mm in place of 0.75 mm (from memory)}
     */
    public String text(EngineSpec engine, LengthUnit unit) {
        String now = figure.words() + " "
                + engine.findFigure(figure, requireNonNull(unit, "unit")).orElse("none");
        return was.isEmpty()
                ? now + ", where none was given"
                : now + " in place of " + was(unit) + (origin.equals(Origin.STATED) ? "" : " (" + origin.kind() + ")");
    }

    /**
     * What the figure was.
     *
     * @param unit the unit of clearances
     * @return the text; empty where there was no such figure
     */
    public String was(LengthUnit unit) {
        requireNonNull(unit, "unit");
        return figure.isWindow() && !was.isEmpty() ? ClearanceWindow.parse(was).toString(unit) : was;
    }

    /** {@return figure, what it was, and where that came from} */
    @Override
    public String toString() {
        return figure.words() + " was " + (was.isEmpty() ? "not given" : was + ", " + origin);
    }
}
