package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Random;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import tools.jackson.databind.JsonNode;

/** Whatever is read, a sheet comes out or an error that a mechanic can read; nothing else is ever thrown. */
class SheetReaderProperties {
    private static final SheetReader READER = new SheetReader(SpecPack.bundled());

    @Provide
    Arbitrary<byte[]> sheets() {
        return Arbitraries.of(Fixtures.FULL, Fixtures.OVERLAY, Fixtures.INCH)
                .map(name -> BadInput.utf8(Fixtures.resource(name)));
    }

    /** Bytes that mean something in JSON or UTF-8, and any others. */
    @Provide
    Arbitrary<Byte> damage() {
        Byte[] telling = new Byte[] {
            '{', '}', '[', ']', ',', ':', '"', '\\', '-', '+', '.', '0', '9', 'e', 'n', 't', ' ', '\n', '/', 0, -1, -128
        };
        return Arbitraries.oneOf(Arbitraries.of(telling), Arbitraries.bytes());
    }

    private static void isReadOrRefused(byte[] document) throws IOException {
        String shown = new String(document, StandardCharsets.UTF_8);
        try {
            assertThat(READER.read("some.json", new ByteArrayInputStream(document)))
                    .as("read from %s", shown)
                    .isNotNull();
        } catch (DocumentException refused) {
            BadInput.isReadable(refused, shown);
        }
    }

    @Property(tries = 2000)
    void survivesOneChangedByte(@ForAll("sheets") byte[] sheet, @ForAll Random place, @ForAll("damage") byte with)
            throws IOException {
        sheet[place.nextInt(sheet.length)] = with;
        isReadOrRefused(sheet);
    }

    @Property(tries = 500)
    void survivesAMissingByte(@ForAll("sheets") byte[] sheet, @ForAll Random place) throws IOException {
        int at = place.nextInt(sheet.length);
        byte[] shorter = Arrays.copyOf(sheet, sheet.length - 1);
        System.arraycopy(sheet, at + 1, shorter, at, shorter.length - at);
        isReadOrRefused(shorter);
    }

    @Property(tries = 500)
    void survivesAnAddedByte(@ForAll("sheets") byte[] sheet, @ForAll Random place, @ForAll("damage") byte added)
            throws IOException {
        int at = place.nextInt(sheet.length + 1);
        byte[] longer = Arrays.copyOf(sheet, sheet.length + 1);
        System.arraycopy(sheet, at, longer, at + 1, sheet.length - at);
        longer[at] = added;
        isReadOrRefused(longer);
    }

    @Property(tries = 500)
    void survivesALostPiece(
            @ForAll("sheets") byte[] sheet, @ForAll Random place, @ForAll @IntRange(min = 1, max = 80) int size)
            throws IOException {
        int from = place.nextInt(sheet.length - size);
        byte[] rest = Arrays.copyOf(sheet, sheet.length - size);
        System.arraycopy(sheet, from + size, rest, from, rest.length - from);
        isReadOrRefused(rest);
    }

    @Property(tries = 300)
    void survivesAnyBytes(@ForAll @Size(max = 200) byte[] bytes) throws IOException {
        isReadOrRefused(bytes);
    }

    /** Any text in the place of any text of a sheet. */
    @Property(tries = 1000)
    void survivesAnyText(@ForAll("textPointers") String pointer, @ForAll("texts") String text) throws IOException {
        String json = Fixtures.resource(Fixtures.FULL);
        isReadOrRefused(BadInput.utf8(Trees.with(json, pointer, Trees.quoted(text))));
    }

    @Provide
    Arbitrary<String> textPointers() {
        JsonNode full = Trees.tree(Fixtures.resource(Fixtures.FULL));
        return Arbitraries.of(Trees.pointers(full).stream()
                .filter(pointer -> full.at(pointer).isString())
                .toList());
    }

    @Provide
    Arbitrary<String> texts() {
        return Arbitraries.oneOf(
                Arbitraries.strings().all().ofMaxLength(100),
                Arbitraries.strings()
                        .withChars("0123456789.,+-/()[]<>= mµinchtoukxesdgrfABTDCep°\"″\t\u00a0")
                        .ofMaxLength(40));
    }
}
