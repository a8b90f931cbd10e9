package dev.lash.check;

import static java.util.Objects.requireNonNull;

import dev.lash.gauge.Fit;
import java.util.HashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** What the trials of one row claim together, as {@link dev.lash.gauge.Evidence} would say it. Begun anew for each row, by one thread. */
final class Claims {
    private @Nullable EngineView view;
    private long goesAbove;
    private long goesLeaf;
    private long stopsBelow;
    private long stopsLeaf;
    private long dragLow;
    private long dragHigh;
    private long lowestDragTop;
    private long highestDragBottom;
    private boolean sameLeaf;
    private int count;

    /** What each stack was said to do, once there are several under a rule with tolerances; else not needed. */
    private @Nullable Map<String, Fit> fits;

    private ReadingField field = ReadingField.TRIALS;
    private String text = "";

    /** Forgets the row before. */
    Claims begin(EngineView of) {
        view = of;
        goesAbove = Span.NO_LOW;
        goesLeaf = Span.NO_LOW;
        stopsBelow = Span.NO_HIGH;
        stopsLeaf = Span.NO_HIGH;
        dragLow = Span.NO_HIGH;
        dragHigh = Span.NO_LOW;
        lowestDragTop = Span.NO_HIGH;
        highestDragBottom = Span.NO_LOW;
        sameLeaf = false;
        count = 0;
        fits = null;
        field = ReadingField.TRIALS;
        text = "";
        return this;
    }

    void add(ReadingField in, String written, String leaves, long thickness, int size, Fit fit) {
        field = in;
        text = written;
        count++;
        EngineView engine = requireNonNull(view, "begin comes first");
        long tolerance = engine.leafTolerance * size;
        if (engine.leafTolerance + engine.dragAllowance > 0) {
            if (fits == null) {
                fits = new HashMap<>();
            }
            Fit before = fits.put(leaves, fit.answer());
            sameLeaf |= before != null && before != fit.answer();
        }
        switch (fit) {
            case GOES -> {
                goesAbove = Math.max(goesAbove, thickness - tolerance);
                goesLeaf = Math.max(goesLeaf, thickness);
            }
            case DRAGS -> {
                long reach = tolerance + engine.dragAllowance;
                dragLow = Math.min(dragLow, thickness - reach);
                dragHigh = Math.max(dragHigh, thickness + reach);
                lowestDragTop = Math.min(lowestDragTop, thickness + reach);
                highestDragBottom = Math.max(highestDragBottom, thickness - reach);
            }
            case FORCED, REFUSES -> {
                stopsBelow = Math.min(stopsBelow, thickness + tolerance);
                stopsLeaf = Math.min(stopsLeaf, thickness);
            }
        }
    }

    boolean isEmpty() {
        return count == 0;
    }

    ReadingField field() {
        return field;
    }

    /** What contradicts, for a finding. */
    String text() {
        boolean both = goesLeaf != Span.NO_LOW && stopsLeaf != Span.NO_HIGH;
        return both ? EngineView.text(goesLeaf) + " goes, " + EngineView.text(stopsLeaf) + " refuses" : text;
    }

    /** Whether two trials exclude each other, or one leaf is said to have fitted in two ways. */
    boolean contradicts() {
        boolean goes = goesLeaf != Span.NO_LOW;
        boolean stops = stopsLeaf != Span.NO_HIGH;
        boolean drags = dragHigh != Span.NO_LOW;
        return sameLeaf
                || (goes && stops && goesAbove >= stopsBelow)
                || (goes && drags && goesAbove >= lowestDragTop)
                || (stops && drags && stopsBelow <= highestDragBottom);
    }

    Span span() {
        if (dragHigh == Span.NO_LOW) {
            return count == 0 ? Span.ANY : new Span(goesAbove, false, stopsBelow, false);
        }
        boolean openLow = goesAbove >= dragLow;
        boolean openHigh = stopsBelow <= dragHigh;
        return new Span(openLow ? goesAbove : dragLow, !openLow, openHigh ? stopsBelow : dragHigh, !openHigh);
    }
}
