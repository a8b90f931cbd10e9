package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;

/** Held against the platform's own decoder. */
class Utf8ReaderProperties {
    /** Hands on a few bytes at a time, as a slow disk or a pipe does. */
    private static final class Drip extends InputStream {
        private final InputStream source;
        private final int most;

        Drip(byte[] bytes, int most) {
            this.source = new ByteArrayInputStream(bytes);
            this.most = most;
        }

        @Override
        public int read() throws IOException {
            return source.read();
        }

        @Override
        public int read(byte[] out, int offset, int length) throws IOException {
            return source.read(out, offset, Math.min(length, most));
        }
    }

    private static String read(byte[] bytes, int drip, int ask) throws IOException {
        StringBuilder all = new StringBuilder();
        try (Utf8Reader reader = new Utf8Reader(new Drip(bytes, drip))) {
            char[] some = new char[ask + 2];
            for (int count = reader.read(some, 1, ask); count >= 0; count = reader.read(some, 1, ask)) {
                assertThat(count).isBetween(1, ask);
                all.append(some, 1, count);
            }
            assertThat(reader.read(some, 0, 0)).isZero();
        }
        return all.toString();
    }

    @Property
    void wellFormedTextIsReadAsItIs(
            @ForAll("texts") String text,
            @ForAll @IntRange(min = 1, max = 9) int drip,
            @ForAll @IntRange(min = 1, max = 9) int ask)
            throws IOException {
        assertThat(read(text.getBytes(StandardCharsets.UTF_8), drip, ask)).isEqualTo(text);
    }

    @Provide
    Arbitrary<String> texts() {
        return Arbitraries.of(
                        "a",
                        ";",
                        "\n",
                        "\u00B0",
                        "\u0800",
                        "\uFFFD",
                        "\uFFFF",
                        "\uD7FF",
                        "\uE000",
                        "\uD83D\uDD27",
                        "\uDBFF\uDFFF")
                .list()
                .ofMaxSize(60)
                .map(parts -> String.join("", parts));
    }

    /** Bytes that are no text show, wherever they stand, and cost no character that is one. */
    @Property
    void otherBytesShow(
            @ForAll("bytes") byte[] bytes,
            @ForAll @IntRange(min = 1, max = 9) int drip,
            @ForAll @IntRange(min = 1, max = 9) int ask)
            throws IOException {
        String read = read(bytes, drip, ask);
        String expected;
        try {
            expected = StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(bytes))
                    .toString();
            assertThat(read).isEqualTo(expected);
        } catch (CharacterCodingException malformed) {
            expected = new String(bytes, StandardCharsets.UTF_8);
            assertThat(read).contains("\uFFFD");
            // how many signs stand for one bad sequence is left open by RFC 3629
            assertThat(read.replaceAll("\uFFFD+", "?")).isEqualTo(expected.replaceAll("\uFFFD+", "?"));
        }
    }

    @Provide
    Arbitrary<byte[]> bytes() {
        List<Integer> telling = List.of(
                0x41, 0x7F, 0x80, 0x8F, 0x90, 0x9F, 0xA0, 0xBF, 0xC0, 0xC1, 0xC2, 0xDF, 0xE0, 0xE1, 0xED, 0xEF, 0xF0,
                0xF4, 0xF5, 0xFF);
        return Arbitraries.of(telling).list().ofMaxSize(12).map(list -> {
            byte[] bytes = new byte[list.size()];
            for (int i = 0; i < bytes.length; i++) {
                bytes[i] = list.get(i).byteValue();
            }
            return Arrays.copyOf(bytes, bytes.length);
        });
    }

    @Property(tries = 20)
    void blocksAreJoined(@ForAll @IntRange(min = 65_528, max = 65_540) int length) throws IOException {
        String text = "x".repeat(length) + "\u00B0\u0800\uD83D\uDD27" + "y".repeat(length);
        assertThat(read(text.getBytes(StandardCharsets.UTF_8), 1 << 20, 1000)).isEqualTo(text);
    }
}
