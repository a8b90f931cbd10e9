package dev.lash.measure;

import dev.lash.measure.TextParseException.Reason;
import java.math.BigDecimal;

/** A text split into a plain decimal number and what follows it; one reader for every quantity of the library. */
record QuantityText(BigDecimal number, String unit, int unitPosition) {
    private static final int MOST_DIGITS = 25;

    /** Room for sign, point, unit and blanks beside the digits. */
    private static final int MOST_OTHERS = 55;

    /**
     * Splits {@code text}. The number is a plain decimal: an optional sign, digits, an optional point; no exponent, no
     * grouping. No quantity of the trade needs more than 25 digits or 80 characters.
     */
    static QuantityText split(String what, String text, String example) {
        return split(what, text, example, MOST_DIGITS);
    }

    /** Splits a text that may have more digits; one that is too long is refused before it is looked at. */
    static QuantityText split(String what, String text, String example, int mostDigits) {
        int longest = mostDigits + MOST_OTHERS;
        String expected = "a plain number and a unit, such as \"" + example + "\"";
        if (text.isBlank()) {
            throw new TextParseException(
                    Reason.EMPTY, what, text, 0, "nothing is written here", expected, "write the value");
        }
        if (text.length() > longest) {
            throw new TextParseException(
                    Reason.TOO_LONG,
                    what,
                    text,
                    longest,
                    "has " + text.length() + " characters",
                    expected + " of at most " + longest + " characters",
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
        int leadingZeros = 0;
        boolean point = false;
        while (end < text.length()) {
            char c = text.charAt(end);
            if (c >= '0' && c <= '9') {
                digits++;
                if (c == '0' && !point && leadingZeros == digits - 1) {
                    leadingZeros++;
                }
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
        // Zeros in front do not count: ".5" is written back as "0.5" and must not become too long by that.
        if (digits - leadingZeros > mostDigits) {
            throw new TextParseException(
                    Reason.TOO_LONG,
                    what,
                    text,
                    start,
                    "the number has " + (digits - leadingZeros) + " digits",
                    expected + " with at most " + mostDigits + " digits",
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
        if (number.signum() == 0) {
            return "0";
        }
        BigDecimal stripped = number.stripTrailingZeros();
        // Written out, an extreme exponent would fill the memory with zeros.
        return Math.abs((long) stripped.scale()) > 1000 ? stripped.toString() : stripped.toPlainString();
    }

    /** Whether {@link #split(String, String, String)} reads back what {@link #plain} writes of the number. */
    static boolean isReadable(BigDecimal number) {
        BigDecimal stripped = number.stripTrailingZeros();
        long whole = (long) stripped.precision() - stripped.scale();
        return Math.max(whole, 0) + Math.max(stripped.scale(), 0) <= MOST_DIGITS;
    }
}
