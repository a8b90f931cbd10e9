package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import org.junit.jupiter.api.Test;

class DocumentExceptionTest {
    private static DocumentException error(String pointer, String value) {
        return new DocumentException("sheet.json", 12, 34, pointer, value, "is no fit", "a fit", "write one");
    }

    @Test
    void hasAllPartsAndShowsThem() {
        DocumentException error = error("/valves/0", "tight");

        assertThat(error.source()).isEqualTo("sheet.json");
        assertThat(error.line()).isEqualTo(12);
        assertThat(error.column()).isEqualTo(34);
        assertThat(error.pointer()).isEqualTo("/valves/0");
        assertThat(error.value()).isEqualTo("tight");
        assertThat(error.problem()).isEqualTo("is no fit");
        assertThat(error.expected()).isEqualTo("a fit");
        assertThat(error.mend()).isEqualTo("write one");
        assertThat(error)
                .hasMessage(
                        "sheet.json, line 12, column 34, at /valves/0: \"tight\" is no fit; expected a fit; write one")
                .hasNoCause();
    }

    @Test
    void leavesOutAValueThatIsNotThereAndNamesTheTop() {
        assertThat(error("", ""))
                .hasMessage("sheet.json, line 12, column 34, at the top: is no fit; expected a fit; write one");
    }

    @Test
    void cutsALongValueShortInTheMessageOnly() {
        DocumentException error = error("/machine", "x".repeat(1000));

        assertThat(error.value()).hasSize(1000);
        assertThat(error.getMessage()).hasSizeLessThan(250).contains("x…\" is no fit");
    }

    @Test
    void keepsControlCharactersOutOfTheMessageOnly() {
        DocumentException error = error("/a\nb\u0085c\u0000", "d\te");

        assertThat(error.pointer()).isEqualTo("/a\nb\u0085c\u0000");
        assertThat(error.value()).isEqualTo("d\te");
        assertThat(error)
                .hasMessage("sheet.json, line 12, column 34, at /a?b?c?: \"d?e\" is no fit; expected a fit; write one");
    }

    @Test
    void serialises() throws IOException, ClassNotFoundException {
        DocumentException error = error("/valves/0", "tight");

        assertThat(TemplateTest.copied(error))
                .usingRecursiveComparison()
                .comparingOnlyFields("source", "line", "column", "pointer", "value", "problem", "expected", "mend")
                .isEqualTo(error);
        assertThat((DocumentException) TemplateTest.copied(error)).hasMessage(error.getMessage());
    }
}
