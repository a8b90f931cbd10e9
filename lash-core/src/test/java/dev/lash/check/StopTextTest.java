package dev.lash.check;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.engine.EngineSpec;
import dev.lash.engine.FiringOrder;
import dev.lash.measure.Ratio;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class StopTextTest {
    private static final EngineSpec FOUR =
            School.generatorEngine().firingOrder(FiringOrder.parse("1-3-4-2")).build();

    /** Number 3 fires 180 degrees after number 1, number 4 at 360, number 2 at 540. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "number 1 compression TDC | 1 | 0",
                "Number 1's compression TDC | 1 | 0",
                "cylinder 1 at compression TDC | 1 | 0",
                "compression TDC | 3 | 0",
                "compression TDC of cylinder 1, mark T1 | 1 | 0",
                "compression TDC of cylinder 1, mark T1 | 3 | 540",
                "number 1 overlap TDC | 1 | 360",
                "number 4 compression TDC | 1 | 360",
                "31 degrees after number 1's compression TDC | 1 | 31",
                "31 deg past compression TDC of cylinder 3 | 3 | 31",
                "31° before compression TDC | 2 | 689",
                "22.5 degrees after overlap TDC of no. 1 (by wheel) | 1 | 382.5",
            })
    void readsWhereTheEngineStood(String text, int cylinder, String phase) {
        assertThat(StopText.phase(FOUR, cylinder, text)).contains(Ratio.parse(phase));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "mark T",
                "TDC",
                "about number 1 compression TDC",
                "not compression TDC",
                "number 9 compression TDC",
                "31 degrees",
                "-31 degrees after compression TDC",
                "number 1 compression TDC or so",
            })
    void guessesNothing(String text) {
        assertThat(StopText.phase(FOUR, 1, text)).isEmpty();
    }

    @Test
    void understandsThatTheDeviceWasMinded() {
        assertThat(StopText.saysClear("Clear of the decompressor, by the manual"))
                .isTrue();
        assertThat(StopText.saysClear("compression TDC")).isFalse();
    }
}
