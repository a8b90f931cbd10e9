package dev.lash.specs;

import java.io.IOException;
import java.io.Reader;

/** Reads lines of bounded length; what is beyond the bound is dropped. */
final class LineFramer {
    /** The longest line, in characters. */
    static final int LONGEST = 64 * 1024;

    private final Reader source;
    private final char[] buffer = new char[8192];
    private final StringBuilder line = new StringBuilder();
    private int at;
    private int limit;
    private boolean tooLong;
    private boolean afterReturn;
    private long number;

    LineFramer(Reader source) {
        this.source = source;
    }

    /** Reads the next line; false at the end. */
    boolean next() throws IOException {
        line.setLength(0);
        tooLong = false;
        boolean any = false;
        while (true) {
            if (at == limit) {
                limit = source.read(buffer, 0, buffer.length);
                at = 0;
                if (limit <= 0) {
                    limit = 0;
                    number++;
                    return any;
                }
            }
            char c = buffer[at];
            at++;
            boolean second = c == '\n' && afterReturn;
            afterReturn = c == '\r';
            if (second) {
                continue;
            }
            any = true;
            if (c == '\n' || c == '\r') {
                number++;
                return true;
            }
            if (line.length() < LONGEST) {
                line.append(c);
            } else {
                tooLong = true;
            }
        }
    }

    String line() {
        return line.toString();
    }

    boolean isTooLong() {
        return tooLong;
    }

    long number() {
        return number;
    }
}
