package dev.lash.examples;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.Optional;

/**
 * A talk over plain streams: a pipe, or a terminal that hands over whole lines. Every character that is not white space is a key
 * where a key is asked for; a line is the rest of the line. The line end right after a key belongs to the key.
 */
final class StreamTalk implements Talk {
    private final BufferedReader in;
    private final PrintStream out;
    private boolean afterKey;

    StreamTalk(InputStream in, PrintStream out) {
        this.in = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8));
        this.out = out;
    }

    @Override
    public void print(String text) {
        out.print(text);
        out.flush();
    }

    @Override
    public Optional<Character> key(String prompt) {
        print(Talk.forKey(prompt));
        try {
            int c = in.read();
            while (c >= 0 && Character.isWhitespace(c)) {
                c = in.read();
            }
            if (c < 0) {
                print("\n");
                return Optional.empty();
            }
            afterKey = true;
            print((char) c + "\n");
            return Optional.of(Character.toLowerCase((char) c));
        } catch (IOException broken) {
            return Optional.empty();
        }
    }

    @Override
    public Optional<String> line(String prompt) {
        print(Talk.forLine(prompt));
        try {
            String line = in.readLine();
            if (afterKey && line != null && line.isBlank()) {
                line = in.readLine();
            }
            afterKey = false;
            print(line == null ? "\n" : line.strip() + "\n");
            return Optional.ofNullable(line).map(String::strip);
        } catch (IOException broken) {
            return Optional.empty();
        }
    }

    @Override
    public void close() {
        // the streams are the caller's
    }
}
