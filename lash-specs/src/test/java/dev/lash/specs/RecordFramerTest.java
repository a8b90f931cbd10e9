package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.specs.RecordFramer.Broken;
import java.io.IOException;
import java.io.StringReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What is kept of a record that is broken, wherever a block of text ends. */
class RecordFramerTest {
    private static final int BLOCK = 4 * RecordFramer.LONGEST;
    private static final String ROW = "\"Bike\"7,2031-04-02,1-in-1,0.13 mm,what stands after it must not be lost";

    private static Broken broken(String text) throws IOException {
        RecordFramer framer = new RecordFramer(new StringReader(text), ',');
        while (framer.advance()) {
            Broken found = framer.broken();
            if (found != null) {
                return found;
            }
        }
        throw new AssertionError("nothing was broken");
    }

    private static String sound(int characters) {
        String line = "x".repeat(99) + "\n";
        return line.repeat(characters / line.length()) + "y".repeat(characters % line.length() - 1) + "\n";
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 6, 7, 8, 20, 60, 73, 74, 75, 90})
    void theWholeLineIsKeptAlsoWhereABlockEndsInIt(int before) throws IOException {
        Broken found = broken(sound(BLOCK - before) + ROW + "\nnext,row\n");

        assertThat(found.text()).isEqualTo(ROW);
        assertThat(found.problem()).isEqualTo("has text after a closing quotation mark");
        assertThat(found.mend()).doesNotEndWith(RecordFramer.CUT);
    }

    @Test
    void theLastLineIsKeptWithoutALineEnd() throws IOException {
        assertThat(broken(sound(BLOCK - 30) + ROW).text()).isEqualTo(ROW);
    }

    @Test
    void aLineThatIsCutSaysSo() throws IOException {
        Broken found = broken("\"Bike\"7" + "z".repeat(2 * RecordFramer.LONGEST) + "\nnext,row\n");

        assertThat(found.text()).hasSize(RecordFramer.LONGEST);
        assertThat(found.mend()).endsWith(RecordFramer.CUT);
    }

    @Test
    void readingGoesOnAfterALineThatIsLongerThanABlock() throws IOException {
        RecordFramer framer =
                new RecordFramer(new StringReader("\"Bike\"7" + "z".repeat(3 * BLOCK) + "\nnext,row\n"), ',');

        assertThat(framer.advance()).isTrue();
        assertThat(framer.broken()).isNotNull();
        assertThat(framer.advance()).isTrue();
        assertThat(framer.broken()).isNull();
        assertThat(framer.cells()).isEqualTo(2);
        assertThat(framer.advance()).isFalse();
    }

    @ParameterizedTest
    @ValueSource(strings = {"\n", "\r\n", ""})
    void aRowOfTheLongestLengthIsRead(String lineEnd) throws IOException {
        String cell = "x".repeat(RecordFramer.LONGEST - 2);
        RecordFramer framer = new RecordFramer(new StringReader("a," + cell + lineEnd), ',');

        assertThat(framer.advance()).isTrue();
        assertThat(framer.broken()).isNull();
        assertThat(framer.cell(1)).isEqualTo(cell);
        assertThat(framer.advance()).isFalse();
        assertThat(broken("ab," + cell + lineEnd).problem()).isEqualTo("is too long");
    }

    @ParameterizedTest
    @ValueSource(strings = {"\n", "\r", "\r\n"})
    void aQuotationMarkThatIsNotClosedIsLookedForInAHundredLinesOnly(String lineEnd) throws IOException {
        String sound = "a,\"" + ("note" + lineEnd).repeat(99) + "\"\n";
        RecordFramer framer = new RecordFramer(new StringReader(sound + ("x\",,\"z" + lineEnd).repeat(300)), ',');

        assertThat(framer.advance()).isTrue();
        assertThat(framer.broken()).isNull();
        assertThat(framer.stretch().transferTo(java.io.Writer.nullWriter())).isEqualTo(sound.length());
        for (int line = 0; line < 200; line++) {
            assertThat(framer.advance()).isTrue();
            Broken found = framer.broken();
            assertThat(found).isNotNull();
            assertThat(found.text()).isEqualTo("x\",,\"z");
            assertThat(found.problem()).isEqualTo("has a quotation mark that is not closed within 100 lines");
        }
    }

    /** A text that is kept is not given for another one of the same number. */
    @Test
    void cellsAreWhatIsWritten() throws IOException {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < 20_000; i++) {
            text.append(i % 997)
                    .append(",Trainer ")
                    .append(i % 7919)
                    .append(",\u20AC")
                    .append(i)
                    .append('\n');
        }
        RecordFramer framer = new RecordFramer(new StringReader(text.toString()), ',');
        for (int i = 0; i < 20_000; i++) {
            assertThat(framer.advance()).isTrue();
            assertThat(framer.cells()).isEqualTo(3);
            assertThat(framer.cell(0)).isEqualTo(String.valueOf(i % 997));
            assertThat(framer.cell(1)).isEqualTo("Trainer " + i % 7919);
            assertThat(framer.cell(2)).isEqualTo("\u20AC" + i);
        }
    }
}
