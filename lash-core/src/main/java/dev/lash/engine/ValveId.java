package dev.lash.engine;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.RejectedValueException;
import dev.lash.measure.TextParseException;
import dev.lash.measure.TextParseException.Reason;
import java.io.Serializable;
import java.util.Comparator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The name of a valve: cylinder, role and place among the valves of that role on that cylinder, such as {@code 1-in-2}.
 * Ordered by cylinder, intake before exhaust, then place.
 *
 * @param cylinder the maker's number of the cylinder, 1 to 99
 * @param role what the valve lets pass
 * @param place the place among the valves of that role on the cylinder, 1 to 9
 */
public record ValveId(int cylinder, ValveRole role, int place) implements Comparable<ValveId>, Serializable {
    private static final Pattern FORM = Pattern.compile("([1-9][0-9]?)-(in|ex)-([1-9])");
    private static final Comparator<ValveId> ORDER = Comparator.comparingInt(ValveId::cylinder)
            .thenComparing(ValveId::role)
            .thenComparingInt(ValveId::place);

    /**
     * Creates a valve name.
     *
     * @param cylinder the maker's number of the cylinder, 1 to 99
     * @param role what the valve lets pass
     * @param place the place among the valves of that role on the cylinder, 1 to 9
     * @throws RejectedValueException if a number is outside its range
     */
    public ValveId {
        requireNonNull(role, "role");
        if (cylinder < 1 || cylinder > 99 || place < 1 || place > 9) {
            throw new RejectedValueException(
                    "valve",
                    cylinder + "-" + role + "-" + place,
                    "is out of range",
                    "cylinder 1 to 99 and place 1 to 9",
                    "use the maker's cylinder number, and count the valves of one role from 1");
        }
    }

    /**
     * Reads a valve name.
     *
     * @param text the name, such as {@code "1-in-2"}
     * @return the valve
     * @throws TextParseException if the text is anything else
     */
    public static ValveId parse(String text) {
        Matcher matcher = FORM.matcher(requireNonNull(text, "text"));
        if (!matcher.matches()) {
            throw new TextParseException(
                    Reason.WRONG_FORM,
                    "valve",
                    text,
                    0,
                    "is not the name of a valve",
                    "cylinder, role and place, such as \"1-in-1\" or \"2-ex-1\"",
                    "write cylinder-in-place or cylinder-ex-place");
        }
        return new ValveId(
                Integer.parseInt(matcher.group(1)),
                ValveRole.parse(matcher.group(2)),
                Integer.parseInt(matcher.group(3)));
    }

    @Override
    public int compareTo(ValveId other) {
        return ORDER.compare(this, other);
    }

    /** {@return the name, such as {@code "1-in-2"}} */
    @Override
    public String toString() {
        return cylinder + "-" + role + "-" + place;
    }
}
