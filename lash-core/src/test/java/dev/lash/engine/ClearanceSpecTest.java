package dev.lash.engine;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.testing.Contracts;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ClearanceSpecTest {
    private static final ClearanceWindow CHECK = ClearanceWindow.parse("0.30..0.40 mm");
    private static final ClearanceWindow SET_TO = ClearanceWindow.parse("0.35..0.40 mm");

    /** A window to check against and a narrower one to set to, as printed (service manual, 940 (1995), adjustments). */
    @Test
    void mayHaveANarrowerWindowToSetTo() {
        ClearanceSpec spec = new ClearanceSpec(CHECK, SET_TO, "shop manual, p. 12");
        assertThat(spec.check()).isEqualTo(CHECK);
        assertThat(spec.setTo()).isEqualTo(SET_TO);
        assertThat(spec.confirmedFrom()).isEqualTo("shop manual, p. 12");
        assertThat(spec.isConfirmed()).isTrue();
    }

    @Test
    void aTypicalWindowIsNotConfirmed() {
        ClearanceSpec spec = ClearanceSpec.typical(CHECK);
        assertThat(spec.check()).isEqualTo(CHECK);
        assertThat(spec.setTo()).isEqualTo(CHECK);
        assertThat(spec.confirmedFrom()).isEmpty();
        assertThat(spec.isConfirmed()).isFalse();
        assertThat(new ClearanceSpec(CHECK, CHECK, "  ").isConfirmed()).isFalse();
    }

    @ParameterizedTest
    @CsvSource({"0.29..0.35 mm", "0.35..0.41 mm", "0.29..0.41 mm", "0.10..0.15 mm"})
    void refusesAWindowToSetToThatReachesOutside(String setTo) {
        Contracts.refuses(
                () -> new ClearanceSpec(CHECK, ClearanceWindow.parse(setTo), ""),
                "window to set to \"" + setTo + "\"",
                "a window inside 0.30..0.40 mm",
                "check both windows in the manual");
    }

    @Test
    void isEqualByItsParts() {
        Contracts.equality(
                ClearanceSpec.typical(CHECK),
                new ClearanceSpec(CHECK, CHECK, ""),
                List.of(
                        new ClearanceSpec(CHECK, SET_TO, ""),
                        new ClearanceSpec(CHECK, CHECK, "manual"),
                        ClearanceSpec.typical(SET_TO)));
    }

    @Test
    void serialises() {
        Contracts.serialises(new ClearanceSpec(CHECK, SET_TO, "manual"));
    }

    @Test
    void refusesNull() {
        Contracts.refuseNull(
                () -> new ClearanceSpec(null, SET_TO, ""),
                () -> new ClearanceSpec(CHECK, null, ""),
                () -> new ClearanceSpec(CHECK, SET_TO, null),
                () -> ClearanceSpec.typical(null));
    }
}
