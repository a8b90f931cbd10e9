package dev.lash.check;

import dev.lash.measure.LengthUnit;
import org.jspecify.annotations.Nullable;

/**
 * Reads a plain decimal number and what follows it, without making objects: an import reads millions of them. Used by one thread,
 * one text at a time.
 */
final class NumberText {
    /** No number, or none that can be held. */
    static final long NONE = Long.MIN_VALUE;

    private static final int MOST_DIGITS = 11;
    private static final long LARGEST = 1_000_000_000L;

    /** What a text turned out to be. */
    enum State {
        NUMBER,
        NOT_A_NUMBER,
        OTHER_DECIMAL_SIGN
    }

    /** The digits without their decimal sign, and how many of them stand after it. */
    long mantissa;

    int decimals;

    /** Where what follows the number begins and ends. */
    int unitStart;

    int unitEnd;

    /** Reads the part of a text; blanks around it do not count. */
    State read(String text, int from, int to, boolean decimalComma) {
        int i = from;
        int end = to;
        while (i < end && text.charAt(i) == ' ') {
            i++;
        }
        while (end > i && text.charAt(end - 1) == ' ') {
            end--;
        }
        boolean negative = i < end && text.charAt(i) == '-';
        if (i < end && (negative || text.charAt(i) == '+')) {
            i++;
        }
        char sign = decimalComma ? ',' : '.';
        char other = decimalComma ? '.' : ',';
        long digits = 0;
        int count = 0;
        int significant = 0;
        int after = -1;
        for (; i < end; i++) {
            char c = text.charAt(i);
            if (c >= '0' && c <= '9') {
                digits = digits * 10 + (c - '0');
                count++;
                significant += digits == 0 ? 0 : 1;
                if (significant > MOST_DIGITS) {
                    return State.NOT_A_NUMBER;
                }
                if (after >= 0) {
                    after++;
                }
            } else if (c == sign && after < 0) {
                after = 0;
            } else if (c == other) {
                return State.OTHER_DECIMAL_SIGN;
            } else {
                break;
            }
        }
        if (count == 0 || after > MOST_DIGITS || (i < end && (text.charAt(i) == sign || isExponent(text, i, end)))) {
            return State.NOT_A_NUMBER;
        }
        mantissa = negative ? -digits : digits;
        decimals = Math.max(after, 0);
        while (i < end && text.charAt(i) == ' ') {
            i++;
        }
        unitStart = i;
        unitEnd = end;
        return State.NUMBER;
    }

    /** Reads digits, a point and digits that fill the whole part of a text; false where it is in any other form. */
    boolean plain(String text, int from, int to) {
        if (to - from < 3 || to - from > MOST_DIGITS + 1) {
            return false;
        }
        long digits = 0;
        int point = -1;
        for (int i = from; i < to; i++) {
            char c = text.charAt(i);
            if (c >= '0' && c <= '9') {
                digits = digits * 10 + (c - '0');
            } else if (c == '.' && point < 0 && i > from && i < to - 1) {
                point = i;
            } else {
                return false;
            }
        }
        if (point < 0) {
            return false;
        }
        mantissa = digits;
        decimals = to - point - 1;
        return true;
    }

    private static boolean isExponent(String text, int at, int end) {
        char c = text.charAt(at);
        if ((c != 'e' && c != 'E') || at + 1 >= end) {
            return false;
        }
        char next = text.charAt(at + 1);
        return next == '+' || next == '-' || (next >= '0' && next <= '9');
    }

    boolean hasUnit() {
        return unitStart < unitEnd;
    }

    /** Whether what follows is exactly this. */
    boolean isUnit(String text, String unit) {
        return unitEnd - unitStart == unit.length() && text.startsWith(unit, unitStart);
    }

    /** The unit of length that follows, or {@code null} where what follows is none. */
    @Nullable
    LengthUnit lengthUnit(String text) {
        if (unitEnd - unitStart == 2 && text.charAt(unitStart) == 'm' && text.charAt(unitStart + 1) == 'm') {
            return LengthUnit.MILLIMETRE;
        }
        return LengthUnit.find(text.substring(unitStart, unitEnd)).orElse(null);
    }

    /** The number of a unit in nanometres, or {@link #NONE} where that is too large or no whole number. */
    long nanometres(LengthUnit unit) {
        return scaled(unit.nanometres());
    }

    /** The number times a size, or {@link #NONE} where that is too large or no whole number. */
    long scaled(long size) {
        // 11 digits and at most 25 400 000 stay within a long
        long product = mantissa * size;
        for (int i = 0; i < decimals; i++) {
            if (product % 10 != 0) {
                return NONE;
            }
            product /= 10;
        }
        return product > LARGEST || product < -LARGEST ? NONE : product;
    }

    /** The number in millionths, or {@link #NONE} where it is finer than that, or more than {@code most}. */
    long millionths(long most) {
        if (decimals > 6 || mantissa > most * 1_000_000L) {
            return NONE;
        }
        long value = mantissa;
        for (int i = decimals; i < 6; i++) {
            value *= 10;
        }
        return Math.abs(value) > most * 1_000_000L || Math.abs(mantissa) > 100_000_000_000L ? NONE : value;
    }

    /** The number for statistics. */
    double value() {
        double value = mantissa;
        for (int i = 0; i < decimals; i++) {
            value /= 10;
        }
        return value;
    }
}
