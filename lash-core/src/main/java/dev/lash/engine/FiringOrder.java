package dev.lash.engine;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/**
 * The order in which the cylinders of a four-stroke engine fire, and the crank degrees from each firing to the next.
 *
 * <p>Text: {@code "1-3-4-2"} when the firings are even, {@code "1-2 (180, 540)"} when they are not.
 *
 * @param order the cylinder numbers in the order in which they fire, each from 1 to the count exactly once; 1 to 18 of them
 * @param intervals crank degrees from each firing to the next, in firing order; together 720
 */
public record FiringOrder(List<Integer> order, List<Ratio> intervals) implements Serializable {
    private static final int MOST_CYLINDERS = 18;
    private static final Ratio CYCLE = Ratio.of(720, 1);

    /**
     * Creates a firing order.
     *
     * @param order the cylinder numbers in the order in which they fire, each from 1 to the count exactly once; 1 to 18 of them
     * @param intervals crank degrees from each firing to the next, in firing order; together 720
     * @throws RejectedValueException if the order is no permutation of the cylinders, or the intervals do not fit
     */
    public FiringOrder {
        order = List.copyOf(order);
        intervals = List.copyOf(intervals);
        List<Integer> sorted = order.stream().sorted().toList();
        if (order.isEmpty()
                || order.size() > MOST_CYLINDERS
                || !sorted.equals(IntStream.rangeClosed(1, order.size()).boxed().toList())) {
            throw new RejectedValueException(
                    "firing order",
                    text(order),
                    "does not name each cylinder once",
                    "each of the numbers 1 to the count of cylinders once, at most " + MOST_CYLINDERS,
                    "copy the firing order from the manual");
        }
        Ratio sum = intervals.stream().reduce(Ratio.ZERO, Ratio::plus);
        if (intervals.size() != order.size()
                || !sum.equals(CYCLE)
                || intervals.stream().anyMatch(i -> i.signum() <= 0)) {
            throw new RejectedValueException(
                    "firing intervals",
                    intervals.toString(),
                    "do not fit the firing order",
                    order.size() + " positive numbers of crank degrees that add up to 720",
                    "give the degrees from each firing to the next, in firing order");
        }
    }

    /**
     * A firing order with even intervals.
     *
     * @param order the cylinder numbers in the order in which they fire
     * @return the firing order
     * @throws RejectedValueException if the order is no permutation of the cylinders
     */
    public static FiringOrder even(Integer... order) {
        return even(Arrays.asList(order));
    }

    /**
     * A firing order with even intervals.
     *
     * @param order the cylinder numbers in the order in which they fire
     * @return the firing order
     * @throws RejectedValueException if the order is no permutation of the cylinders
     */
    public static FiringOrder even(List<Integer> order) {
        Ratio each = order.isEmpty() ? CYCLE : CYCLE.dividedBy(Ratio.of(order.size(), 1));
        return new FiringOrder(order, Collections.nCopies(order.size(), each));
    }

    /**
     * Reads what {@link #toString()} writes.
     *
     * @param text the text, such as {@code "1-3-4-2"} or {@code "1-2 (180, 540)"}
     * @return the firing order
     * @throws RejectedValueException if the text is anything else
     */
    public static FiringOrder parse(String text) {
        String s = requireNonNull(text, "text").strip();
        int open = s.indexOf('(');
        String cylinders = (open < 0 ? s : s.substring(0, open)).strip();
        // Possessive, or the matcher's stack overflows on a very long text.
        if (!cylinders.matches("[0-9]{1,2}(-[0-9]{1,2})*+") || (open >= 0 && !s.endsWith(")"))) {
            throw new RejectedValueException(
                    "firing order",
                    text,
                    "is not a firing order",
                    "cylinder numbers joined by hyphens, such as \"1-3-4-2\" or \"1-2 (180, 540)\"",
                    "write it in this form");
        }
        List<Integer> order =
                Arrays.stream(cylinders.split("-", -1)).map(Integer::valueOf).toList();
        return open < 0
                ? even(order)
                : new FiringOrder(
                        order,
                        Arrays.stream(s.substring(open + 1, s.length() - 1).split(",", -1))
                                .map(String::strip)
                                .map(Ratio::parse)
                                .toList());
    }

    /** {@return how many cylinders the engine has} */
    public int cylinders() {
        return order.size();
    }

    /**
     * Where a cylinder fires: the crank degrees from number 1's compression TDC to this cylinder's.
     *
     * @param cylinder the cylinder
     * @return degrees, from 0 to below 720
     * @throws RejectedValueException if the engine has no such cylinder
     */
    public Ratio firingAngle(int cylinder) {
        int place = order.indexOf(cylinder);
        if (place < 0) {
            throw new RejectedValueException(
                    "cylinder",
                    String.valueOf(cylinder),
                    "is not in the firing order",
                    text(order),
                    "use the maker's numbers");
        }
        Ratio angle = Ratio.ZERO;
        for (int i = order.indexOf(1); i != place; i = (i + 1) % order.size()) {
            angle = angle.plus(intervals.get(i));
        }
        return angle;
    }

    /** {@return whether all intervals are the same} */
    public boolean isEven() {
        return intervals.stream().distinct().count() == 1;
    }

    /** {@return the order, with the intervals in brackets where they are not even} */
    @Override
    public String toString() {
        return isEven()
                ? text(order)
                : text(order) + intervals.stream().map(Ratio::toString).collect(Collectors.joining(", ", " (", ")"));
    }

    private static String text(List<Integer> order) {
        return order.stream().map(String::valueOf).collect(Collectors.joining("-"));
    }
}
