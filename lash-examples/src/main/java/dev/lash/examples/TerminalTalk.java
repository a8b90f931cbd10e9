package dev.lash.examples;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.jline.terminal.Attributes;
import org.jline.terminal.Attributes.LocalFlag;
import org.jline.terminal.Terminal;
import org.jline.terminal.TerminalBuilder;
import org.jline.utils.NonBlockingReader;

/**
 * A talk at a terminal, by single keys. JLine only puts the terminal into raw mode and reads from it; no cursor is moved, so that
 * any terminal will do, a dumb one too.
 */
final class TerminalTalk implements Talk {
    private static final int INTERRUPT = 3;
    private static final int END_OF_INPUT = 4;
    private static final int BACKSPACE = 8;
    private static final int CLEAR_LINE = 21;
    private static final int ESCAPE = 27;
    private static final int DELETE = 127;
    private static final int LONGEST_LINE = 2000;
    private static final long ESCAPE_MILLIS = 20;

    private final Terminal terminal;
    private final Attributes before;
    private final PrintStream out;

    /** Takes over a terminal; closing this gives it back as it was. */
    TerminalTalk(Terminal terminal, PrintStream out) {
        this.terminal = terminal;
        this.out = out;
        this.before = terminal.enterRawMode();
        // Ctrl-C comes as a key: then leaving goes the usual way, and the terminal is put back in order.
        Attributes raw = terminal.getAttributes();
        raw.setLocalFlag(LocalFlag.ISIG, false);
        terminal.setAttributes(raw);
    }

    /** The terminal that standard input is, or empty when it is none. No native code is loaded: "stty" does the work. */
    static Optional<Talk> open(PrintStream out) {
        // JLine logs what it cannot do; the plain stream that is used then needs no warning. The logger is held, or it
        // could be
        // collected together with its level.
        Logger logger = Logger.getLogger("org.jline");
        Level level = logger.getLevel();
        logger.setLevel(Level.OFF);
        try {
            Terminal terminal = TerminalBuilder.builder()
                    .system(true)
                    .jni(false)
                    .ffm(false)
                    .exec(true)
                    .dumb(false)
                    .graphemeCluster(false)
                    .nativeSignals(false)
                    // nothing but letters is written, so the name in TERM does not matter
                    .type("ansi")
                    .encoding(StandardCharsets.UTF_8)
                    .build();
            return Optional.of(new TerminalTalk(terminal, out));
        } catch (IOException | IllegalStateException none) {
            return Optional.empty();
        } finally {
            logger.setLevel(level);
        }
    }

    @Override
    public void print(String text) {
        out.print(text);
        out.flush();
    }

    @Override
    public Optional<Character> key(String prompt) {
        print(Talk.forKey(prompt));
        int c = read();
        while (c >= 0 && Character.isWhitespace(c)) {
            c = read();
        }
        if (c < 0) {
            print("\n");
            return Optional.empty();
        }
        char key = Character.toLowerCase((char) c);
        print((Character.isISOControl(key) ? "?" : String.valueOf((char) c)) + "\n");
        return Optional.of(key);
    }

    @Override
    public Optional<String> line(String prompt) {
        print(Talk.forLine(prompt));
        StringBuilder line = new StringBuilder();
        while (true) {
            int c = read();
            if (c < 0) {
                print("\n");
                return Optional.empty();
            }
            if (c == '\r' || c == '\n') {
                print("\n");
                return Optional.of(line.toString().strip());
            }
            if (c == BACKSPACE || c == DELETE) {
                rubOut(line, 1);
            } else if (c == CLEAR_LINE) {
                rubOut(line, line.length());
            } else if (!Character.isISOControl(c) && line.length() < LONGEST_LINE) {
                line.append((char) c);
                print(String.valueOf((char) c));
            }
        }
    }

    private void rubOut(StringBuilder line, int characters) {
        int gone = Math.min(characters, line.length());
        line.setLength(line.length() - gone);
        print("\b \b".repeat(gone));
    }

    /** The next character; below 0 at the end, which Ctrl-C and Ctrl-D mean too. A cursor key is one escape character. */
    private int read() {
        try {
            NonBlockingReader reader = terminal.reader();
            int c = reader.read();
            if (c == ESCAPE) {
                while (reader.peek(ESCAPE_MILLIS) >= 0) {
                    reader.read();
                }
            }
            return c == INTERRUPT || c == END_OF_INPUT ? -1 : c;
        } catch (IOException | IllegalStateException closed) {
            return -1;
        }
    }

    @Override
    public void close() {
        try {
            terminal.setAttributes(before);
            terminal.close();
        } catch (IOException | IllegalStateException closed) {
            // it is closed already
        }
    }
}
