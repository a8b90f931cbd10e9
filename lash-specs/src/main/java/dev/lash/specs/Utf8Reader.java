package dev.lash.specs;

import java.io.IOException;
import java.io.InputStream;
import java.io.Reader;

/**
 * Decodes UTF-8 (RFC 3629) in one pass over large blocks, quicker than the platform's reader for text that is mostly ASCII with a
 * degree sign here and there. A byte that begins no well-formed sequence becomes U+FFFD, which the framers refuse row by row.
 */
final class Utf8Reader extends Reader {
    private static final int BLOCK = 64 * 1024;
    private static final char NO_TEXT = '\uFFFD';

    private final InputStream source;
    private final byte[] bytes = new byte[BLOCK];
    private int at;
    private int limit;
    private boolean atEnd;

    /** The second half of a character beyond the basic plane, where only the first had room; else 0. */
    private char half;

    Utf8Reader(InputStream source) {
        this.source = source;
    }

    @Override
    public int read(char[] out, int offset, int length) throws IOException {
        if (length == 0) {
            return 0;
        }
        int to = offset;
        int end = offset + length;
        if (half != 0) {
            out[to] = half;
            to++;
            half = 0;
        }
        while (to < end) {
            if (limit - at < 4 && !atEnd) {
                fill();
            }
            if (at == limit) {
                break;
            }
            int run = Math.min(limit - at, end - to);
            byte[] in = bytes;
            int from = at;
            int stop = from + run;
            while (from < stop && in[from] >= 0) {
                out[to] = (char) in[from];
                to++;
                from++;
            }
            at = from;
            if (from < stop) {
                if (limit - at < 4 && !atEnd) {
                    // the sequence may go on in the next block
                    continue;
                }
                int point = sequence();
                if (point < 0x10000) {
                    out[to] = (char) point;
                    to++;
                } else {
                    out[to] = Character.highSurrogate(point);
                    to++;
                    if (to < end) {
                        out[to] = Character.lowSurrogate(point);
                        to++;
                    } else {
                        half = Character.lowSurrogate(point);
                    }
                }
            }
        }
        return to == offset ? -1 : to - offset;
    }

    private void fill() throws IOException {
        System.arraycopy(bytes, at, bytes, 0, limit - at);
        limit -= at;
        at = 0;
        while (limit < 4 && !atEnd) {
            int count = source.read(bytes, limit, bytes.length - limit);
            if (count < 0) {
                atEnd = true;
            } else {
                limit += count;
            }
        }
    }

    /** The character of the sequence that begins here, which is then passed; U+FFFD for a byte that begins none. */
    private int sequence() {
        int first = bytes[at] & 0xFF;
        int length = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
        int point = first & (0xFF >> (length + 1));
        boolean well = first >= 0xC2 && first <= 0xF4 && at + length <= limit;
        for (int i = 1; well && i < length; i++) {
            int next = bytes[at + i];
            well = (next & 0xC0) == 0x80;
            point = point << 6 | (next & 0x3F);
        }
        // no longer form than needed, no halves of pairs, nothing beyond the last character
        well = well
                && (length == 2 || point >= (length == 3 ? 0x800 : 0x10000))
                && point <= 0x10FFFF
                && !(point >= 0xD800 && point <= 0xDFFF);
        at += well ? length : 1;
        return well ? point : NO_TEXT;
    }

    @Override
    public void close() throws IOException {
        source.close();
    }
}
