package dev.lash.engine;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.testing.Contracts;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

class FigureTest {
    @Test
    void eachHasWordsOfItsOwn() {
        assertThat(Figure.values()).extracting(Figure::words).doesNotHaveDuplicates();
        assertThat(Figure.INTAKE_WINDOW).hasToString("intake window");
        assertThat(Figure.EXHAUST_CLOSER_SETTING).hasToString("exhaust closer window to set to");
    }

    @Test
    void findsTheWindowsOfEveryGap() {
        assertThat(Figure.window(ValveRole.INTAKE, Gap.ONLY)).isEqualTo(Figure.INTAKE_WINDOW);
        assertThat(Figure.window(ValveRole.EXHAUST, Gap.OPENER)).isEqualTo(Figure.EXHAUST_WINDOW);
        assertThat(Figure.window(ValveRole.EXHAUST, Gap.CLOSER)).isEqualTo(Figure.EXHAUST_CLOSER_WINDOW);
        assertThat(Figure.setting(ValveRole.INTAKE, Gap.OPENER)).isEqualTo(Figure.INTAKE_SETTING);
        assertThat(Figure.setting(ValveRole.INTAKE, Gap.CLOSER)).isEqualTo(Figure.INTAKE_CLOSER_SETTING);
        Contracts.refuseNull(() -> Figure.window(null, Gap.ONLY), () -> Figure.setting(ValveRole.INTAKE, null));
    }

    @Test
    void knowsWindowsAndFiguresOfTheTrain() {
        assertThat(Arrays.stream(Figure.values()).filter(Figure::isWindow)).hasSize(8);
        assertThat(Arrays.stream(Figure.values()).filter(Figure::isSetting))
                .hasSize(4)
                .allMatch(Figure::isWindow);
        assertThat(Arrays.stream(Figure.values()).filter(f -> f.isWindowOf(ValveRole.EXHAUST)))
                .hasSize(4)
                .allMatch(f -> f.words().startsWith("exhaust"));
        assertThat(Arrays.stream(Figure.values()).filter(Figure::isOfTrain))
                .isEqualTo(List.of(
                        Figure.PITCH,
                        Figure.RATIO,
                        Figure.HEAD,
                        Figure.STEP,
                        Figure.ECCENTRICITY,
                        Figure.MULTIPLIER,
                        Figure.SHIMS,
                        Figure.OPENER_SHIMS,
                        Figure.CLOSER_SHIMS));
    }
}
