package dev.lash.judge;

import dev.lash.engine.ClearanceWindow;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import java.util.ArrayList;
import java.util.List;

/** What a reading says of a clearance against its window. */
public enum Verdict {
    /** Every clearance that the reading allows lies in the window. */
    WITHIN("within"),
    /** Every clearance that the reading allows lies below the window. */
    TIGHT("tight"),
    /** Every clearance that the reading allows lies above the window. */
    LOOSE("loose"),
    /** The reading allows clearances of more than one verdict. */
    UNDECIDED("undecided");

    private final String word;

    Verdict(String word) {
        this.word = word;
    }

    /** {@return the word for this verdict, such as {@code "within"}} */
    public String word() {
        return word;
    }

    /**
     * The verdicts that an interval of clearances leaves open.
     *
     * @param clearances the clearances that are possible; without a lower end the valve may be held off its seat, so that tight is
     *     open even where the window begins at 0
     * @param window the window
     * @return one, two or three of tight, within and loose, in this order
     */
    public static List<Verdict> possible(LengthInterval clearances, ClearanceWindow window) {
        List<Verdict> open = new ArrayList<>(3);
        if (clearances.intersects(LengthInterval.below(window.lower()))) {
            open.add(TIGHT);
        }
        if (clearances.intersects(window.interval())) {
            open.add(WITHIN);
        }
        if (clearances.intersects(LengthInterval.above(window.upper()))) {
            open.add(LOOSE);
        }
        return List.copyOf(open);
    }

    /**
     * The verdict on an interval of clearances.
     *
     * @param clearances the clearances that are possible
     * @param window the window
     * @return the only possible verdict, or undecided
     */
    public static Verdict of(LengthInterval clearances, ClearanceWindow window) {
        List<Verdict> open = possible(clearances, window);
        return open.size() == 1 ? open.get(0) : UNDECIDED;
    }

    /**
     * The verdict on a clearance that is known exactly.
     *
     * @param clearance the clearance
     * @param window the window
     * @return tight, within or loose
     */
    public static Verdict of(Length clearance, ClearanceWindow window) {
        return of(LengthInterval.point(clearance), window);
    }

    /** {@return {@link #word()}} */
    @Override
    public String toString() {
        return word;
    }
}
