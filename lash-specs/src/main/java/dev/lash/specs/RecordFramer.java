package dev.lash.specs;

import java.io.IOException;
import java.io.Reader;
import java.util.ArrayDeque;
import java.util.Deque;
import org.jspecify.annotations.Nullable;

/**
 * Hands a CSV parser only whole, well-formed records of bounded length, so that hostile input can neither fill the memory nor swallow
 * the rest of the file. A record that is broken is handed on as an empty line, and kept here with its number and text; reading goes
 * on at the line after the one on which it began.
 */
final class RecordFramer extends Reader {
    /** The longest record, in characters. */
    static final int LONGEST = 64 * 1024;

    private static final int MOST_TEXT = LONGEST;
    /** What becomes of a line that is longer than a row may be. */
    static final String CUT = "; the side file holds the first " + LONGEST
            + " characters of a longer line, the rest stays where it is in the file that was read";

    private static final int BLOCK = 4 * LONGEST;

    /** A record that is not handed on. */
    record Broken(long number, String text, String problem, String expected, String mend) {}

    private final Reader source;
    private final char delimiter;
    private final char[] buffer = new char[BLOCK];
    private final Deque<Broken> broken = new ArrayDeque<>();

    /** The part that is ready to be handed on, and the end of what was read. */
    private int ready;

    private int readyEnd;
    private int limit;
    private boolean atEnd;
    private long records;

    /** A broken record stands after the ready part: so many characters to skip, an empty line to hand on. */
    private int skip = -1;

    private boolean skippingLine;

    RecordFramer(Reader source, char delimiter) {
        this.source = source;
        this.delimiter = delimiter;
    }

    /** The broken record of a number, or {@code null} where that one is not broken. Numbers are asked for in order. */
    @Nullable
    Broken takeBroken(long number) {
        Broken first = broken.peek();
        return first != null && first.number == number ? broken.poll() : null;
    }

    @Override
    public int read(char[] out, int offset, int length) throws IOException {
        while (ready == readyEnd) {
            if (skip >= 0) {
                ready += skip;
                readyEnd = ready;
                skip = -1;
                out[offset] = '\n';
                return 1;
            }
            if (!advance()) {
                return -1;
            }
        }
        int count = Math.min(length, readyEnd - ready);
        System.arraycopy(buffer, ready, out, offset, count);
        ready += count;
        return count;
    }

    /** Reads on until something is ready or a record is broken; false at the end. */
    private boolean advance() throws IOException {
        fill();
        if (skippingLine) {
            return skipLine();
        }
        if (ready == limit) {
            return false;
        }
        int start = ready;
        while (skip < 0) {
            int end = recordEnd(start);
            if (end < 0) {
                break;
            }
            if (skip < 0) {
                start = end;
                records++;
            }
        }
        readyEnd = start;
        if (skip < 0 && readyEnd == ready) {
            throw new IOException("no record ends, and none is too long");
        }
        return true;
    }

    private void fill() throws IOException {
        if (ready > 0) {
            System.arraycopy(buffer, ready, buffer, 0, limit - ready);
            limit -= ready;
            ready = 0;
            readyEnd = 0;
        }
        while (!atEnd && limit < buffer.length) {
            int count = source.read(buffer, limit, buffer.length - limit);
            if (count < 0) {
                atEnd = true;
            } else {
                limit += count;
            }
        }
    }

    /** Drops the rest of a line that is longer than the buffer. */
    private boolean skipLine() throws IOException {
        while (true) {
            for (int i = ready; i < limit; i++) {
                if (buffer[i] == '\n' || buffer[i] == '\r') {
                    int end = i + 1;
                    if (buffer[i] == '\r' && end < limit && buffer[end] == '\n') {
                        end++;
                    }
                    ready = end;
                    readyEnd = end;
                    skippingLine = false;
                    return true;
                }
            }
            ready = limit;
            readyEnd = limit;
            if (atEnd) {
                skippingLine = false;
                return false;
            }
            fill();
        }
    }

    /** Where the record ends that starts here; -1 where it does not end in the buffer, or is broken: then skip is set. */
    private int recordEnd(int start) {
        char[] b = buffer;
        int i = start;
        if (i == limit) {
            return -1;
        }
        int most = Math.min(limit, start + LONGEST);
        boolean fieldStart = true;
        boolean quoted = false;
        boolean afterQuote = false;
        boolean odd = false;
        for (; i < most; i++) {
            if (!quoted && !afterQuote) {
                // most of a record: nothing that could end a cell, begin a quoted one or be no text
                int ordinary = i;
                while (i < most && b[i] > '"' && b[i] != delimiter && b[i] != '\uFFFD') {
                    i++;
                }
                fieldStart &= i == ordinary;
                if (i == most) {
                    break;
                }
            }
            char c = b[i];
            odd |= c == 0 || c == '\uFFFD';
            if (quoted) {
                if (c == '"') {
                    if (i + 1 < limit && b[i + 1] == '"') {
                        i++;
                    } else {
                        quoted = false;
                        afterQuote = true;
                    }
                }
            } else if (c == '\n' || c == '\r') {
                if (odd) {
                    return fail(start, "holds characters that are no text", "text in UTF-8", "save the file as UTF-8");
                }
                if (c == '\r' && i + 1 == limit && !atEnd) {
                    return -1;
                }
                return c == '\r' && i + 1 < limit && b[i + 1] == '\n' ? i + 2 : i + 1;
            } else if (c == delimiter) {
                fieldStart = true;
                afterQuote = false;
            } else if (c == '"' && fieldStart) {
                quoted = true;
                fieldStart = false;
            } else if (afterQuote) {
                return fail(
                        start,
                        "has text after a closing quotation mark",
                        "the delimiter after a closing quotation mark",
                        "close the quotation mark at the end of its column, and double those inside");
            } else {
                fieldStart = false;
            }
        }
        if (i - start >= LONGEST) {
            return fail(
                    start,
                    quoted ? "has a quotation mark that is not closed" : "is too long",
                    "a row of at most " + LONGEST + " characters",
                    (quoted ? "close the quotation mark" : "check that this is the right file") + CUT);
        }
        if (!atEnd) {
            return -1;
        }
        if (quoted) {
            return fail(
                    start,
                    "has a quotation mark that is not closed",
                    "a closing quotation mark",
                    "close the quotation mark");
        }
        return odd
                ? fail(start, "holds characters that are no text", "text in UTF-8", "save the file as UTF-8")
                : limit;
    }

    /** Keeps a broken record: the line on which it begins. */
    private int fail(int start, String problem, String expected, String mend) {
        int end = start;
        while (end < limit && buffer[end] != '\n' && buffer[end] != '\r') {
            end++;
        }
        String text = new String(buffer, start, Math.min(end - start, MOST_TEXT));
        if (end == limit && !atEnd) {
            skippingLine = true;
        } else if (end < limit) {
            end += buffer[end] == '\r' && end + 1 < limit && buffer[end + 1] == '\n' ? 2 : 1;
        }
        skip = end - start;
        records++;
        broken.add(new Broken(records, text, problem, expected, mend));
        return -1;
    }

    @Override
    public void close() throws IOException {
        source.close();
    }
}
