package dev.lash.examples;

import java.io.BufferedInputStream;
import java.io.BufferedOutputStream;
import java.io.Closeable;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.OutputStream;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Puts lines into the order of their rows. They mostly come in it: an import tells a row that it held back some visits later. So what is
 * in order goes to one scratch file and the rest to another, and of the rest only row and place are kept in memory.
 */
final class RowOrder implements Closeable {
    private final Path folder;
    private @Nullable Scratch inOrder;
    private @Nullable Scratch late;
    private final List<Late> lateLines = new ArrayList<>();
    private long last = Long.MIN_VALUE;

    /** Lines beside the files that are made of them, in a file that is gone when it is closed. */
    private static final class Scratch implements Closeable {
        private final Path file;
        private final DataOutputStream out;
        private long length;

        Scratch(Path folder) throws IOException {
            file = Files.createTempFile(folder, ".lash-", ".tmp");
            // an import that is broken off closes nothing
            file.toFile().deleteOnExit();
            out = new DataOutputStream(new BufferedOutputStream(Files.newOutputStream(file)));
        }

        /** Adds a line; where it begins. */
        long add(long row, String line) throws IOException {
            byte[] text = line.getBytes(StandardCharsets.UTF_8);
            long start = length;
            out.writeLong(row);
            out.writeInt(text.length);
            out.write(text);
            length += Long.BYTES + Integer.BYTES + text.length;
            return start;
        }

        @Override
        public void close() throws IOException {
            try {
                out.close();
            } finally {
                Files.deleteIfExists(file);
            }
        }
    }

    private record Late(long row, long start) {}

    RowOrder(Path folder) {
        this.folder = folder;
    }

    boolean isEmpty() {
        return inOrder == null;
    }

    void add(long row, String line) throws IOException {
        if (row >= last) {
            inOrder = inOrder == null ? new Scratch(folder) : inOrder;
            inOrder.add(row, line);
            last = row;
        } else {
            late = late == null ? new Scratch(folder) : late;
            lateLines.add(new Late(row, late.add(row, line)));
        }
    }

    /** Writes all lines in the order of their rows, those of one row in the order in which they came. */
    void writeTo(OutputStream out) throws IOException {
        Scratch first = inOrder;
        if (first == null) {
            return;
        }
        first.out.flush();
        byte[] end = System.lineSeparator().getBytes(StandardCharsets.UTF_8);
        if (late == null) {
            merge(first, null, out, end);
            return;
        }
        late.out.flush();
        lateLines.sort(Comparator.comparingLong(Late::row));
        try (RandomAccessFile lines = new RandomAccessFile(late.file.toFile(), "r")) {
            merge(first, lines, out, end);
        }
    }

    private void merge(Scratch first, @Nullable RandomAccessFile lines, OutputStream out, byte[] end)
            throws IOException {
        int next = 0;
        try (DataInputStream in = new DataInputStream(new BufferedInputStream(Files.newInputStream(first.file)))) {
            while (true) {
                long row = row(in);
                while (lines != null && next < lateLines.size() && lateLines.get(next).row < row) {
                    lines.seek(lateLines.get(next).start + Long.BYTES);
                    byte[] text = new byte[lines.readInt()];
                    lines.readFully(text);
                    out.write(text);
                    out.write(end);
                    next++;
                }
                if (row == Long.MAX_VALUE) {
                    return;
                }
                out.write(in.readNBytes(in.readInt()));
                out.write(end);
            }
        }
    }

    private static long row(DataInputStream in) throws IOException {
        try {
            return in.readLong();
        } catch (EOFException atEnd) {
            return Long.MAX_VALUE;
        }
    }

    @Override
    public void close() throws IOException {
        try {
            if (inOrder != null) {
                inOrder.close();
            }
        } finally {
            if (late != null) {
                late.close();
            }
        }
    }
}
