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
        return new LengthPair(Length.parse(bare ? low + unit : low), Length.parse(high));
    }

    String toString(LengthUnit unit) {
        Optional<String> lowNumber = low.numberIn(unit);
        Optional<String> highNumber = high.numberIn(unit);
        return lowNumber.isPresent() && highNumber.isPresent()
                ? lowNumber.get() + DOTS + highNumber.get() + " " + unit.symbol()
                : toString(LengthUnit.MILLIMETRE);
    }
}
