package dev.lash.check;

import dev.lash.check.RecordLayout.DateOrder;
import java.time.LocalDate;

/** Reads dates of digits without making objects. */
final class DateText {
    /** No date. */
    static final long NONE = Long.MIN_VALUE;

    private static final int LEAST_YEAR = 1900;
    private static final int MOST_YEAR = 9999;

    private DateText() {}

    /** The day, or {@link #NONE}. */
    static long epochDay(String text, DateOrder order) {
        int from = 0;
        int to = text.length();
        while (from < to && text.charAt(from) == ' ') {
            from++;
        }
        while (to > from && text.charAt(to - 1) == ' ') {
            to--;
        }
        boolean iso = order == DateOrder.YEAR_MONTH_DAY;
        int part = 0;
        int digits = 0;
        int value = 0;
        int first = 0;
        int second = 0;
        char separator = 0;
        for (int i = from; i < to; i++) {
            char c = text.charAt(i);
            if (c >= '0' && c <= '9') {
                value = value * 10 + (c - '0');
                digits++;
                if (digits > 4) {
                    return NONE;
                }
            } else if (part < 2 && digits > 0 && isSeparator(c, iso) && (separator == 0 || separator == c)) {
                if (iso && digits != (part == 0 ? 4 : 2)) {
                    return NONE;
                }
                if (part == 0) {
                    first = value;
                } else {
                    second = value;
                }
                separator = c;
                part++;
                value = 0;
                digits = 0;
            } else {
                return NONE;
            }
        }
        if (part != 2 || digits != (iso ? 2 : 4)) {
            return NONE;
        }
        return switch (order) {
            case YEAR_MONTH_DAY -> day(first, second, value);
            case DAY_MONTH_YEAR -> day(value, second, first);
            case MONTH_DAY_YEAR -> day(value, first, second);
        };
    }

    private static boolean isSeparator(char c, boolean iso) {
        return iso ? c == '-' : c == '.' || c == '/' || c == '-';
    }

    private static long day(int year, int month, int day) {
        if (year < LEAST_YEAR || year > MOST_YEAR || month < 1 || month > 12 || day < 1 || day > 31) {
            return NONE;
        }
        if (day > 28 && day > java.time.YearMonth.of(year, month).lengthOfMonth()) {
            return NONE;
        }
        return LocalDate.of(year, month, day).toEpochDay();
    }

    static String form(DateOrder order) {
        return switch (order) {
            case YEAR_MONTH_DAY -> "a date such as 2031-04-02";
            case DAY_MONTH_YEAR -> "day, month and year, such as 2.4.2031";
            case MONTH_DAY_YEAR -> "month, day and year, such as 4/2/2031";
        };
    }
}
