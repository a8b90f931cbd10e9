package dev.lash.adjust;

import static java.util.Objects.requireNonNull;

import dev.lash.engine.ShimRange;
import dev.lash.measure.Length;
import java.util.Collection;
import java.util.Comparator;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * How a manual turns the ideal thickness of a shim, old + measured - specified, into a size that is made. Manuals differ, and
 * none of these habits looks at how wide the reading is: a size that is {@linkplain ShimPlanner certain} may be another one. {@link
 * Adjuster#withRounding} shows it beside the certain size, not instead of it.
 *
 * <p>The digit tables read the last digit of the ideal in hundredths of a millimetre. An ideal that is finer is first taken to
 * the nearest hundredth, of two to the thinner, which leaves more clearance (the tables do not say; this library's choice).
 */
public enum RoundingHabit {
    /**
     * The size nearest to the ideal; of two the thinner, which leaves more clearance. Published with worked figures in: repair
     * manual RM1046E, page 14-19 (17 sizes by 0.05 mm).
     */
    NEAREST("nearest", ""),
    /**
     * The largest size that is not above the ideal. Published with a worked figure in: Groundsmaster 455-D service manual, page
     * 3-58 (ideal 2.525 mm, fitted 2.50 mm).
     */
    NEXT_BELOW("next-below", ""),
    /**
     * For kits by 0.05 mm: last digit 0, 1, 2 to 0; 3 to 6 to 5; 7, 8, 9 to 10. Published in: instruction sheet of kit 5919140,
     * page 10 (1.63 mm to 1.65 mm).
     */
    LAST_DIGIT_3_TO_6("last-digit-3-to-6", "0005555aaa"),
    /**
     * For kits by 0.05 mm: last digit 0, 1, 2 to 0; 3 to 7 to 5; 8, 9 to 10. Published in: service manual LIT-11616-12-01, page
     * 197.
     */
    LAST_DIGIT_3_TO_7("last-digit-3-to-7", "00055555aa"),
    /**
     * For kits whose sizes end in 0, 3, 5 and 8: last digit 0, 1 to 0; 2, 3 to 3; 4, 5, 6 to 5; 7, 8 to 8; 9 to 10. Published in:
     * service manual LIT-11616-12-01, page 200.
     */
    LAST_DIGIT_0_3_5_8("last-digit-0-3-5-8", "003355588a");

    private static final long HUNDREDTH = 10_000;

    private final String code;
    /** What each last digit, 0 to 9, becomes, in hexadecimal. */
    private final String table;

    RoundingHabit(String code, String table) {
        this.code = code;
        this.table = table;
    }

    /**
     * The ideal thickness: old + measured - specified.
     *
     * @param old the size that is in
     * @param measured the clearance that was measured
     * @param specified the clearance to reach; manuals take the middle of their window, another point in it or one of its limits
     * @return the thickness that would give the specified clearance
     */
    public static Length ideal(Length old, Length measured, Length specified) {
        return old.plus(measured).minus(specified);
    }

    /**
     * The size that the habit fits, of those that are made.
     *
     * @param ideal the ideal thickness
     * @param made the sizes that are made, in any order
     * @return the size, or empty when none that is made follows from the habit: the ideal lies beyond the sizes, or the digit
     *     table leads to a size that is not made
     */
    public Optional<Length> fit(Length ideal, Collection<Length> made) {
        requireNonNull(ideal, "ideal");
        return switch (this) {
            case NEAREST ->
                within(ideal, made)
                        .min(Comparator.comparing(
                                        (Length size) -> size.minus(ideal).abs())
                                .thenComparing(Comparator.naturalOrder()));
            case NEXT_BELOW ->
                within(ideal, made).filter(size -> !size.isMoreThan(ideal)).max(Comparator.naturalOrder());
            case LAST_DIGIT_3_TO_6, LAST_DIGIT_3_TO_7, LAST_DIGIT_0_3_5_8 -> {
                Length size = byLastDigit(ideal);
                yield made.contains(size) ? Optional.of(size) : Optional.empty();
            }
        };
    }

    /**
     * The size that the habit fits, of a range.
     *
     * @param ideal the ideal thickness
     * @param made the sizes that are made
     * @return the size, or empty when none that is made follows from the habit
     */
    public Optional<Length> fit(Length ideal, ShimRange made) {
        return fit(ideal, made.sizes());
    }

    /** The sizes, none when the ideal lies above the thickest or below the thinnest: then another shim is not the mend. */
    private static Stream<Length> within(Length ideal, Collection<Length> made) {
        boolean reached = made.stream().anyMatch(size -> !size.isLessThan(ideal))
                && made.stream().anyMatch(size -> !size.isMoreThan(ideal));
        return reached ? made.stream() : Stream.empty();
    }

    private Length byLastDigit(Length ideal) {
        // half a hundredth less 1 nm: the middle goes down
        long hundredths = Math.floorDiv(ideal.nanometres() + HUNDREDTH / 2 - 1, HUNDREDTH);
        int digit = (int) Math.floorMod(hundredths, 10L);
        return Length.ofNanometres((hundredths - digit + Character.digit(table.charAt(digit), 16)) * HUNDREDTH);
    }

    /** {@return the name in documents, such as {@code "next-below"}} */
    public String code() {
        return code;
    }

    /** {@return {@link #code()}} */
    @Override
    public String toString() {
        return code;
    }
}
