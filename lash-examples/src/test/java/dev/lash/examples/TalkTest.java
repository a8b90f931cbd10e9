package dev.lash.examples;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.InterruptedIOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.CountDownLatch;
import org.jline.terminal.impl.ExternalTerminal;
import org.junit.jupiter.api.Test;

/** The two ways to talk: over plain streams, and at a terminal by single keys. */
class TalkTest {
    private final ByteArrayOutputStream out = new ByteArrayOutputStream();
    private final PrintStream print = new PrintStream(out, true, StandardCharsets.UTF_8);

    private static InputStream in(String text) {
        return new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8));
    }

    private Talk stream(String text) {
        return new StreamTalk(in(text), print);
    }

    /**
     * A terminal on which the text is typed once it is taken over, and then nothing more: what is typed before that is cooked still,
     * and a Ctrl-C no key.
     */
    private Talk terminal(String text) throws IOException {
        CountDownLatch takenOver = new CountDownLatch(1);
        InputStream keyboard = new FilterInputStream(in(text)) {
            @Override
            public int read() throws IOException {
                await(takenOver);
                return super.read();
            }

            @Override
            public int read(byte[] into, int off, int len) throws IOException {
                await(takenOver);
                return super.read(into, off, len);
            }
        };
        Talk talk = new TerminalTalk(
                new ExternalTerminal("test", "dumb", keyboard, new ByteArrayOutputStream(), StandardCharsets.UTF_8),
                print);
        takenOver.countDown();
        return talk;
    }

    private static void await(CountDownLatch latch) throws IOException {
        try {
            latch.await();
        } catch (InterruptedException interrupted) {
            throw new InterruptedIOException();
        }
    }

    private String said() {
        return out.toString(StandardCharsets.UTF_8);
    }

    @Test
    void everyCharacterOfAStreamIsAKeyButWhiteSpace() {
        Talk talk = stream(" g\n\n\tR\r\n");
        assertThat(talk.key("?")).contains('g');
        assertThat(talk.key("?")).contains('r');
        assertThat(talk.key("?")).isEmpty();
        assertThat(said()).isEqualTo("? g\n? R\n? \n");
    }

    @Test
    void lineOfAStreamIsTheRestOfTheLine() {
        Talk talk = stream("l 0.10 mm \ng19 \u00b0C\n");
        assertThat(talk.key("?")).contains('l');
        assertThat(talk.line("Which leaf?")).contains("0.10 mm");
        assertThat(talk.key("?")).contains('g');
        assertThat(talk.line("  How warm?")).contains("19 \u00b0C");
        assertThat(talk.line("?")).isEmpty();
        assertThat(said()).contains("Which leaf?\n> 0.10 mm\n").contains("  How warm?\n  > 19 \u00b0C\n");
    }

    @Test
    void lineEndRightAfterAKeyBelongsToTheKey() {
        Talk talk = stream("l \r\n0.10\ny\n\n\n");
        assertThat(talk.key("?")).contains('l');
        assertThat(talk.line("?")).contains("0.10");
        assertThat(talk.key("?")).contains('y');
        assertThat(talk.line("?")).contains("");
        assertThat(talk.line("?")).contains("");
        assertThat(talk.line("?")).isEmpty();
    }

    @Test
    void brokenStreamIsTheEnd() {
        InputStream broken = new InputStream() {
            @Override
            public int read() throws IOException {
                throw new IOException("gone");
            }

            @Override
            public int read(byte[] into, int off, int len) throws IOException {
                throw new IOException("gone");
            }
        };
        assertThat(new StreamTalk(broken, print).key("?")).isEmpty();
        assertThat(new StreamTalk(broken, print).line("?")).isEmpty();
    }

    @Test
    void terminalKeyNeedsNoEnterAndIsShown() throws IOException {
        try (Talk talk = terminal("gR")) {
            assertThat(talk.key("Offer >")).contains('g');
            assertThat(talk.key("Offer >")).contains('r');
        }
        assertThat(said()).isEqualTo("Offer > g\nOffer > R\n");
    }

    @Test
    void cursorKeyIsOneUnknownKey() throws IOException {
        try (Talk talk = terminal("\u001b[Ag")) {
            assertThat(talk.key(">")).contains('\u001b');
        }
        assertThat(said()).isEqualTo("> ?\n");
    }

    @Test
    void controlCAndControlDBreakOff() throws IOException {
        for (String stop : new String[] {"\u0003", "\u0004"}) {
            try (Talk talk = terminal(stop + "g")) {
                assertThat(talk.key(">")).isEmpty();
            }
            try (Talk talk = terminal("0.1" + stop)) {
                assertThat(talk.line(">")).isEmpty();
            }
        }
    }

    @Test
    void terminalLineIsEchoedAndCanBeRubbedOut() throws IOException {
        try (Talk talk = terminal("0.1x\u007f5\u0008\u0008\u007f\u007f\u007f\u007f19 \u00b0C\rabc\u0015d\u0007\n")) {
            assertThat(talk.line("How warm?")).contains("19 \u00b0C");
            assertThat(talk.line("?")).contains("d");
        }
        assertThat(said()).startsWith("How warm?\n> 0.1x\b \b5").contains("19 \u00b0C\n");
    }

    @Test
    void closedTerminalIsTheEnd() throws IOException {
        Talk talk = terminal("g");
        talk.close();
        talk.close();
        assertThat(talk.key(">")).isEmpty();
    }

    @Test
    void longPromptsAreBrokenAndKeepTheirIndent() {
        String prompt = "  Offer 0.05 mm + 0.07 mm + 0.10 mm: g goes, d drags, f forced, r refuses, ? help >";
        assertThat(Talk.forKey(prompt).lines())
                .hasSize(2)
                .allMatch(line -> line.length() < 80 && line.startsWith("  "));
        assertThat(Talk.forKey(prompt)).endsWith("> ");
    }
}
