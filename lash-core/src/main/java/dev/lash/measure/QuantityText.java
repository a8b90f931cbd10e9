package dev.lash.measure;

import dev.lash.measure.TextParseException.Reason;
import java.math.BigDecimal;

/** A text split into a plain decimal number and what follows it; one reader for every quantity of the library. */
record QuantityText(BigDecimal number, String unit, int unitPosition) {
    /** No quantity of the trade needs more characters; longer text is refused before it is looked at. */
    static final int LONGEST = 80;

    private static final int MOST_DIGITS = 25;

    /**
     * Splits {@code text}. The number is a plain decimal: an optional sign, digits, an optional point; no exponent, no
     * grouping.
     */
    static QuantityText split(String what, String text, String example) {
        String expected = "a plain number and a unit, such as \"" + example + "\"";
        if (text.isBlank()) {
            throw new TextParseException(
                    Reason.EMPTY, what, text, 0, "nothing is written here", expected, "write the value");
        }
        if (text.length() > LONGEST) {
            throw new TextParseException(
                    Reason.TOO_LONG,
                    what,
                    text,
                    LONGEST,
                    "has " + text.length() + " characters",
                    expected + " of at most " + LONGEST + " characters",
                    "write the value alone");
        }
        int start = 0;
        while (text.charAt(start) == ' ') {
            start++;
        }
        int end = start;
        if (text.charAt(end) == '+' || text.charAt(end) == '-') {
            end++;
        }
        int digits = 0;
        boolean point = false;
        while (end < text.length()) {
            char c = text.charAt(end);
            if (c >= '0' && c <= '9') {
                digits++;
            } else if (c == '.' && !point) {
                point = true;
            } else {
                break;
            }
            end++;
        }
        if (end < text.length() && text.charAt(end) == ',') {
            throw new TextParseException(
                    Reason.DECIMAL_COMMA,
                    what,
                    text,
                    end,
                    "a comma stands in the number",
                    expected,
                    "write a decimal point and no grouping");
        }
        boolean exponent = digits > 0
                && end + 1 < text.length()
                && (text.charAt(end) == 'e' || text.charAt(end) == 'E')
                && "+-0123456789".indexOf(text.charAt(end + 1)) >= 0;
        if (digits == 0 || exponent) {
            throw new TextParseException(
                    Reason.NOT_A_NUMBER,
                    what,
                    text,
                    exponent ? end : start,
                    exponent ? "the number has an exponent" : "does not begin with a number",
                    expected,
                    exponent ? "write the number out" : "write the number first");
        }
        if (digits > MOST_DIGITS) {
            throw new TextParseException(
                    Reason.TOO_LONG,
                    what,
                    text,
                    start,
                    "the number has " + digits + " digits",
                    expected + " with at most " + MOST_DIGITS + " digits",
                    "write the value with the digits that it has");
        }
        BigDecimal number = new BigDecimal(text.substring(start, end));
        int unitStart = end;
        while (unitStart < text.length() && text.charAt(unitStart) == ' ') {
            unitStart++;
        }
        return new QuantityText(number, text.substring(unitStart).stripTrailing(), unitStart);
    }

    /** A number in plain digits with no zeros at its end, for {@code toString} methods. */
    static String plain(BigDecimal number) {
        return number.signum() == 0 ? "0" : number.stripTrailingZeros().toPlainString();
    }
}
