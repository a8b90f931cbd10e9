package dev.lash.engine;

import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.TextParseException;
import dev.lash.measure.TextParseException.Reason;
import java.util.Optional;

/** Two lengths written with one unit, {@code "0.11..0.16 mm"}: the text form of windows and shim ranges. */
record LengthPair(Length low, Length high) {
    private static final String DOTS = "..";

    static LengthPair parse(String what, String text, String form) {
        int dots = text.indexOf(DOTS);
        if (dots < 0) {
            throw new TextParseException(
                    Reason.WRONG_FORM,
                    what,
                    text,
                    0,
                    "has no \"..\" between two figures",
                    form,
                    "write both figures and the unit");
        }
        String low = text.substring(0, dots).strip();
        String high = text.substring(dots + DOTS.length()).strip();
        String unit = high.replaceFirst("^[-+0-9.]+", "");
        boolean bare = !low.isEmpty() && Character.isDigit(low.charAt(low.length() - 1));
        // the upper end first: its unit is the lower one's too, and a wrong one is then quoted as it was written
        Length upper = Length.parse(high);
        return new LengthPair(bare ? withUnit(low, unit) : Length.parse(low), upper);
    }

    /** A figure whose unit stands with the other one; what is wrong with it is told of the text that was written. */
    private static Length withUnit(String figure, String unit) {
        try {
            return Length.parse(figure + unit);
        } catch (TextParseException broken) {
            throw new TextParseException(
                    broken.reason(),
                    broken.what(),
                    figure,
                    Math.min(broken.position(), figure.length()),
                    broken.problem(),
                    broken.expected(),
                    broken.mend());
        }
    }

    String toString(LengthUnit unit) {
        Optional<String> lowNumber = low.numberIn(unit);
        Optional<String> highNumber = high.numberIn(unit);
        return lowNumber.isPresent() && highNumber.isPresent()
                ? lowNumber.get() + DOTS + highNumber.get() + " " + unit.symbol()
                : toString(LengthUnit.MILLIMETRE);
    }
}
