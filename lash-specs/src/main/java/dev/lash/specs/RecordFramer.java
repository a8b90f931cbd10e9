package dev.lash.specs;

import java.io.IOException;
import java.io.Reader;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * Parts delimited text into whole, well-formed records of bounded length, so that hostile input can neither fill the memory nor swallow
 * the rest of the file. A record without quotation marks is parted into its cells on the way; those with them are handed to the CSV
 * library as {@linkplain #stretch stretches}. Of a record that is broken the text is kept; reading goes on at the line after the one on which it began.
 */
final class RecordFramer {
    /** The longest record, in characters. */
    static final int LONGEST = 64 * 1024;

    private static final int MOST_TEXT = LONGEST;

    /** What becomes of a line that is longer than a row may be. */
    static final String CUT = "; the side file holds the first " + LONGEST
            + " characters of a longer line, the rest stays where it is in the file that was read";

    private static final int BLOCK = 4 * LONGEST;

    /** How many line ends a row may have in quotation marks: one that is not closed makes each line after it be read as often. */
    private static final int MOST_LINES = 100;

    /** What the reader gives for bytes that are no text. */
    private static final char NO_TEXT = '\uFFFD';

    private static final byte ORDINARY = 0;
    private static final byte PART = 1;
    private static final byte LINE_END = 2;
    private static final byte ODD = 3;

    /** Cells of at most so many characters are kept, so many of them: a file has few different machines, leaves, valves and shims. */
    private static final int KEPT_LENGTH = 40;

    private static final int KEPT_BITS = 11;
    private static final int KEPT_SHIFT = Long.SIZE - KEPT_BITS;

    /** A record that is not handed on. */
    record Broken(String text, String problem, String expected, String mend) {}

    private final Reader source;
    private final char delimiter;

    /** What the first characters mean in a record without quotation marks. */
    private final byte[] kinds = new byte[0x180];

    private final char[] buffer = new char[BLOCK];
    private final String[] kept = new String[1 << KEPT_BITS];
    private final char[][] keptChars = new char[1 << KEPT_BITS][];

    /** The record: its first character, the end of its text, and where what follows it begins. */
    private int start;

    private int end;
    private int next;
    private int limit;
    private boolean atEnd;
    private boolean quotes;

    /** Where the cells of a record without quotation marks end. */
    private int[] ends = new int[64];

    /** Numbers that are the same for cells that are. */
    private long[] hashes = new long[64];

    private int cells;

    private @Nullable Broken broken;

    /** Whether the stretch has gone on to the next record already, and whether there is one. */
    private boolean ahead;

    private boolean any;
    private boolean skippingLine;

    RecordFramer(Reader source, char delimiter) {
        this.source = source;
        this.delimiter = delimiter;
        Arrays.fill(kept, "");
        Arrays.fill(keptChars, new char[0]);
        kinds[0] = ODD;
        kinds['"'] = ODD;
        kinds['\n'] = LINE_END;
        kinds['\r'] = LINE_END;
        if (delimiter < kinds.length) {
            kinds[delimiter] = PART;
        }
    }

    /** Goes on to the next record; false at the end. */
    boolean advance() throws IOException {
        if (!ahead) {
            any = step();
        }
        ahead = false;
        return any;
    }

    private boolean step() throws IOException {
        if (skippingLine && !skipLine()) {
            return false;
        }
        start = next;
        broken = null;
        if (!frame()) {
            fill();
            if (start == limit) {
                return false;
            }
            if (!frame()) {
                throw new IOException("no record ends, and none is too long");
            }
        }
        return true;
    }

    /** What is wrong with the record, or {@code null}; then it has no cells. */
    @Nullable
    Broken broken() {
        return broken;
    }

    /** Whether the record has quotation marks, so that the CSV library has to part it. */
    boolean hasQuotes() {
        return quotes;
    }

    /** How many cells a record without quotation marks has; at least one. */
    int cells() {
        return cells;
    }

    /** Whether a record without quotation marks is an empty line. */
    boolean isEmpty() {
        return start == end;
    }

    /** A cell of a record without quotation marks; mostly a text that was there already. */
    String cell(int column) {
        int from = column == 0 ? start : ends[column - 1] + 1;
        int length = ends[column] - from;
        if (length == 0) {
            return "";
        }
        if (length > KEPT_LENGTH) {
            return new String(buffer, from, length);
        }
        long hash = hashes[column];
        int place = (int) ((hash * 0x9E3779B97F4A7C15L) >>> KEPT_SHIFT);
        char[] there = keptChars[place];
        if (Arrays.equals(there, 0, there.length, buffer, from, from + length)) {
            return kept[place];
        }
        kept[place] = new String(buffer, from, length);
        keptChars[place] = Arrays.copyOfRange(buffer, from, from + length);
        return kept[place];
    }

    /**
     * This record and those after it that have quotation marks too, for the CSV library, which looks ahead to the next record when one
     * ends. It is over at the first record that is broken or has none; that one is then the next.
     */
    Reader stretch() {
        return new Stretch();
    }

    /** Whether the library has not been handed the next record yet. */
    boolean isStretchOver() {
        return !ahead || !any || broken != null || !quotes;
    }

    private final class Stretch extends Reader {
        private int taken = start;
        private boolean over;

        @Override
        public int read(char[] out, int offset, int length) throws IOException {
            if (taken > end && !over) {
                if (ahead) {
                    throw new IOException("more than one record was looked ahead");
                }
                any = step();
                ahead = true;
                taken = start;
                over = isStretchOver();
            }
            if (over) {
                return -1;
            }
            if (taken == end) {
                taken++;
                out[offset] = '\n';
                return 1;
            }
            int count = Math.min(length, end - taken);
            System.arraycopy(buffer, taken, out, offset, count);
            taken += count;
            return count;
        }

        @Override
        public void close() {
            // the text is closed by whoever opened it
        }
    }

    private void fill() throws IOException {
        System.arraycopy(buffer, start, buffer, 0, limit - start);
        limit -= start;
        start = 0;
        next = 0;
        while (!atEnd && limit < buffer.length) {
            int count = source.read(buffer, limit, buffer.length - limit);
            if (count < 0) {
                atEnd = true;
            } else {
                limit += count;
            }
        }
    }

    /** Drops the rest of a line that is longer than the buffer; false at the end. */
    private boolean skipLine() throws IOException {
        while (true) {
            for (int i = next; i < limit; i++) {
                if (buffer[i] == '\n' || buffer[i] == '\r') {
                    if (buffer[i] == '\r' && i + 1 == limit && !atEnd) {
                        // a line feed may follow
                        start = i;
                        fill();
                        i = 0;
                    }
                    next = afterLine(i);
                    skippingLine = false;
                    return true;
                }
            }
            start = limit;
            next = limit;
            if (atEnd) {
                skippingLine = false;
                return false;
            }
            fill();
        }
    }

    /** Where the line after the one begins that ends here. */
    private int afterLine(int at) {
        return buffer[at] == '\r' && at + 1 < limit && buffer[at + 1] == '\n' ? at + 2 : at + 1;
    }

    /** Finds the end of the record that starts here and of its cells; false where it does not end in the buffer. */
    private boolean frame() {
        char[] b = buffer;
        byte[] kindOf = kinds;
        quotes = false;
        int count = 0;
        int cellStart = start;
        long hash = 0;
        int most = Math.min(limit, start + LONGEST + 1);
        for (int i = start; i < most; i++) {
            char c = b[i];
            int kind = c < kindOf.length ? kindOf[c] : ODD;
            if (kind == PART) {
                endCell(count, i, hash);
                count++;
                cellStart = i + 1;
                hash = 0;
                continue;
            }
            if (kind == LINE_END) {
                return isSplit(i) ? false : end(count, i, hash, afterLine(i), false);
            }
            hash = Long.rotateLeft(hash, 7) ^ c;
            if (kind == ORDINARY) {
                continue;
            }
            if (c == '"' ? i == cellStart : c == 0 || c == delimiter || c == NO_TEXT) {
                return frameQuoted();
            }
        }
        return frameQuoted();
    }

    /** Whether a line ends at the end of the buffer with a character that another one may belong to. */
    private boolean isSplit(int at) {
        return buffer[at] == '\r' && at + 1 == limit && !atEnd;
    }

    private void endCell(int count, int at, long hash) {
        if (count == ends.length - 1) {
            ends = Arrays.copyOf(ends, 2 * ends.length);
            hashes = Arrays.copyOf(hashes, ends.length);
        }
        ends[count] = at;
        hashes[count] = hash;
    }

    /** As {@link #frame}, for any record. */
    private boolean frameQuoted() {
        char[] b = buffer;
        char part = delimiter;
        int i = start;
        if (i == limit) {
            return false;
        }
        int most = Math.min(limit, i + LONGEST + 1);
        int count = 0;
        int lines = 0;
        boolean fieldStart = true;
        boolean quoted = false;
        boolean afterQuote = false;
        boolean odd = false;
        for (; i < most && lines < MOST_LINES; i++) {
            char c = b[i];
            if (c == part && !quoted) {
                fieldStart = true;
                afterQuote = false;
                endCell(count, i, 0);
                count++;
                continue;
            }
            odd |= c == 0 || c == NO_TEXT;
            if (quoted) {
                if (c == '\n' || (c == '\r' && !(i + 1 < limit && b[i + 1] == '\n'))) {
                    lines++;
                } else if (c == '"') {
                    if (i + 1 < limit && b[i + 1] == '"') {
                        i++;
                    } else {
                        quoted = false;
                        afterQuote = true;
                    }
                }
            } else if (c == '\n' || c == '\r') {
                return isSplit(i) ? false : end(count, i, 0, afterLine(i), odd);
            } else if (c == '"' && fieldStart) {
                quoted = true;
                quotes = true;
                fieldStart = false;
            } else if (afterQuote) {
                return fail(
                        "has text after a closing quotation mark",
                        "the delimiter after a closing quotation mark",
                        "close the quotation mark at the end of its column, and double those inside");
            } else {
                fieldStart = false;
            }
        }
        if (lines == MOST_LINES) {
            return fail(
                    "has a quotation mark that is not closed within " + MOST_LINES + " lines",
                    "a row of at most " + MOST_LINES + " lines",
                    "close the quotation mark, or put the text of the column on fewer lines");
        }
        if (i - start > LONGEST) {
            return fail(
                    quoted ? "has a quotation mark that is not closed" : "is too long",
                    "a row of at most " + LONGEST + " characters",
                    (quoted ? "close the quotation mark" : "check that this is the right file") + CUT);
        }
        if (!atEnd) {
            return false;
        }
        return quoted
                ? fail(
                        "has a quotation mark that is not closed",
                        "a closing quotation mark",
                        "close the quotation mark")
                : end(count, limit, 0, limit, odd);
    }

    private boolean end(int count, int endOfText, long hash, int after, boolean odd) {
        if (odd) {
            return fail("holds characters that are no text", "text in UTF-8", "save the file as UTF-8");
        }
        ends[count] = endOfText;
        hashes[count] = hash;
        cells = count + 1;
        end = endOfText;
        next = after;
        return true;
    }

    /** Keeps a broken record: the line on which it begins. False where that goes on beyond the buffer and may yet be read. */
    private boolean fail(String problem, String expected, String mend) {
        int stop = start;
        while (stop < limit && buffer[stop] != '\n' && buffer[stop] != '\r') {
            stop++;
        }
        if (stop == limit && !atEnd && stop - start <= MOST_TEXT) {
            return false;
        }
        String text = new String(buffer, start, Math.min(stop - start, MOST_TEXT));
        skippingLine = (stop == limit || (buffer[stop] == '\r' && stop + 1 == limit)) && !atEnd;
        next = stop == limit || skippingLine ? stop : afterLine(stop);
        boolean isCut = stop - start > MOST_TEXT && !mend.endsWith(CUT);
        broken = new Broken(text, problem, expected, isCut ? mend + CUT : mend);
        return true;
    }
}
