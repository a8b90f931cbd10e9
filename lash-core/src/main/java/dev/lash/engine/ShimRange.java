package dev.lash.engine;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.TextParseException;
import dev.lash.measure.TextParseException.Reason;
import java.io.Serializable;
import java.util.List;
import java.util.stream.LongStream;

/**
 * The sizes in which a shim, or a graded bucket, is made: from the thinnest to the thickest by a step.
 *
 * <p>Text: {@code "1.20..3.50 mm step 0.05 mm"}.
 *
 * @param thinnest the thinnest size, above 0
 * @param thickest the thickest size, at most 20 mm
 * @param step the step, which divides the difference
 */
public record ShimRange(Length thinnest, Length thickest, Length step) implements Serializable {
    private static final Length LARGEST = Length.ofMillimetres("20");
    private static final int MOST_SIZES = 1000;
    private static final String STEP = " step ";
    private static final String FORM = "two sizes and a step, such as \"1.20..3.50 mm step 0.05 mm\"";

    /**
     * Creates a range of sizes.
     *
     * @param thinnest the thinnest size, above 0
     * @param thickest the thickest size, at most 20 mm
     * @param step the step, which divides the difference
     * @throws RejectedValueException if the sizes are out of order or out of range, or the step does not divide the range
     */
    public ShimRange {
        requireNonNull(thinnest, "thinnest");
        requireNonNull(thickest, "thickest");
        requireNonNull(step, "step");
        String text = thinnest + " to " + thickest + " step " + step;
        if (thinnest.signum() <= 0 || thickest.isLessThan(thinnest) || thickest.isMoreThan(LARGEST)) {
            throw new RejectedValueException(
                    "shim range",
                    text,
                    "is out of range or out of order",
                    "a thinnest size above 0 mm, and a thickest from there to " + LARGEST,
                    "check the sizes and their unit");
        }
        long spread = thickest.minus(thinnest).nanometres();
        if (step.signum() <= 0 || spread % step.nanometres() != 0 || spread / step.nanometres() >= MOST_SIZES) {
            throw new RejectedValueException(
                    "shim range",
                    text,
                    "has a step that does not fit",
                    "a step that divides the range into at most " + MOST_SIZES + " sizes",
                    "check the step against the kit");
        }
    }

    /**
     * Reads a range of sizes.
     *
     * @param text the range, such as {@code "1.20..3.50 mm step 0.05 mm"}
     * @return the range
     * @throws RejectedValueException if the text is anything else
     */
    public static ShimRange parse(String text) {
        int step = requireNonNull(text, "text").indexOf(STEP);
        if (step < 0) {
            throw new TextParseException(
                    Reason.WRONG_FORM, "shim range", text, 0, "names no step", FORM, "write it in this form");
        }
        LengthPair ends = LengthPair.parse("shim range", text.substring(0, step), FORM);
        return new ShimRange(
                ends.low(),
                ends.high(),
                Length.parse(text.substring(step + STEP.length()).strip()));
    }

    /** {@return how many sizes there are} */
    public int count() {
        return (int) (thickest.minus(thinnest).nanometres() / step.nanometres()) + 1;
    }

    /** {@return the sizes, thinnest first} */
    public List<Length> sizes() {
        return LongStream.range(0, count())
                .mapToObj(i -> Length.ofNanometres(thinnest.nanometres() + i * step.nanometres()))
                .toList();
    }

    /**
     * Whether a size is made.
     *
     * @param size the size
     * @return whether it is one of {@link #sizes()}
     */
    public boolean contains(Length size) {
        return !size.isLessThan(thinnest)
                && !size.isMoreThan(thickest)
                && size.minus(thinnest).nanometres() % step.nanometres() == 0;
    }

    /** {@return the range, such as {@code "1.20..3.50 mm step 0.05 mm"}} */
    @Override
    public String toString() {
        return new LengthPair(thinnest, thickest).toString(LengthUnit.MILLIMETRE) + STEP + step;
    }
}
