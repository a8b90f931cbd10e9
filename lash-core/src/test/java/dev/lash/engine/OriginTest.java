package dev.lash.engine;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.engine.Origin.Kind;
import dev.lash.testing.Contracts;
import java.util.List;
import org.junit.jupiter.api.Test;

class OriginTest {
    private static final Origin MANUAL =
            new Origin(Kind.PUBLISHED, "Gauge standard (2008)", "clause 1", "screw-single, revision 2");

    @Test
    void saysWhereAFigureCameFrom() {
        assertThat(MANUAL)
                .hasToString("published: \"Gauge standard (2008)\", clause 1 (template screw-single, revision 2)");
        assertThat(new Origin(Kind.FROM_MEMORY, "", "", "")).hasToString("from memory");
        assertThat(new Origin(Kind.COMMON_PRACTICE, "Small singles", "", ""))
                .hasToString("common practice: \"Small singles\"");
        assertThat(Origin.STATED).hasToString("stated");
        assertThat(Kind.COMMON_PRACTICE.word()).isEqualTo("common-practice");
    }

    @Test
    void isAValue() {
        Contracts.equality(
                MANUAL,
                new Origin(MANUAL.kind(), MANUAL.title(), MANUAL.place(), MANUAL.template()),
                List.of(Origin.STATED, new Origin(Kind.SHOP, MANUAL.title(), MANUAL.place(), MANUAL.template())));
        Contracts.serialises(MANUAL);
        Contracts.refuseNull(
                () -> new Origin(null, "", "", ""),
                () -> new Origin(Kind.SHOP, null, "", ""),
                () -> new Origin(Kind.SHOP, "", null, ""),
                () -> new Origin(Kind.SHOP, "", "", null));
    }
}
