package dev.lash.adjust;

import static dev.lash.testing.Readings.interval;
import static dev.lash.testing.Readings.mm;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.Length;
import dev.lash.testing.Contracts;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class InstalledShimTest {
    private static InstalledShim both(String marked, String measured, String tolerance) {
        return new InstalledShim(mm(marked), mm(measured), mm(tolerance), "9.48");
    }

    // ---- factories

    @Test
    void aMarkOrAMeasuredSizeIsTakenAsExact() {
        assertThat(InstalledShim.marked(mm("2.45")).possibleSizes()).contains(interval("[2.45, 2.45] mm"));
        assertThat(InstalledShim.measured(mm("2.437")).possibleSizes()).contains(interval("[2.437, 2.437] mm"));
        assertThat(InstalledShim.marked(mm("2.45")).findMeasured()).isEmpty();
        assertThat(InstalledShim.measured(mm("2.437")).findMarked()).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(strings = {"0", "-0.05", "20.000001", "245"})
    void aSizeOutOfRangeIsRefused(String size) {
        Contracts.refuses(() -> InstalledShim.marked(mm(size)), mm(size).toString(), "above 0 mm", "20.00 mm", "unit");
        Contracts.refuses(
                () -> InstalledShim.measured(mm(size)), mm(size).toString(), "above 0 mm", "20.00 mm", "unit");
    }

    @ParameterizedTest
    @ValueSource(strings = {"-0.001", "0.100001", "2"})
    void aToleranceOutOfRangeIsRefused(String tolerance) {
        Contracts.refuses(() -> both("2.45", "2.44", tolerance), mm(tolerance).toString(), "0 mm to 0.10 mm", "unit");
    }

    // ---- sizes

    @Test
    void measuredWinsOverMarked() {
        assertThat(both("2.45", "2.44", "0.005").size()).contains(mm("2.44"));
        assertThat(both("2.45", "2.44", "0.005").possibleSizes()).contains(interval("[2.435, 2.445] mm"));
    }

    @Test
    void anUnreadableShimHasNoSize() {
        InstalledShim worn = new InstalledShim(null, null, Length.ZERO, "");
        assertThat(worn.size()).isEmpty();
        assertThat(worn.possibleSizes()).isEmpty();
    }

    // ---- equality, serialisation, nulls

    @Test
    void equality() {
        Contracts.equality(
                both("2.45", "2.44", "0.005"),
                both("2.450", "2.440", "0.005"),
                List.of(
                        both("2.40", "2.44", "0.005"),
                        both("2.45", "2.45", "0.005"),
                        both("2.45", "2.44", "0"),
                        InstalledShim.marked(mm("2.45")),
                        new InstalledShim(mm("2.45"), mm("2.44"), mm("0.005"), "7.48")));
    }

    @Test
    void survivesSerialisation() {
        Contracts.serialises(both("2.45", "2.44", "0.005"));
        Contracts.serialises(new InstalledShim(null, null, Length.ZERO, ""));
    }

    @Test
    void nullIsRefusedWhereASizeIsNamed() {
        Contracts.refuseNull(
                () -> InstalledShim.marked(null),
                () -> InstalledShim.measured(null),
                () -> new InstalledShim(mm("2.45"), null, null, ""),
                () -> new InstalledShim(mm("2.45"), null, Length.ZERO, null));
    }
}
