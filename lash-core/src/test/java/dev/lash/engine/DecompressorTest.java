package dev.lash.engine;

import static dev.lash.engine.CrankEngines.deg;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.Ratio;
import dev.lash.testing.Contracts;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class DecompressorTest {
    private static final ValveId EXHAUST = ValveId.parse("1-ex-1");
    private static final Decompressor DEVICE = new Decompressor(EXHAUST, deg(60), deg(20));

    @Test
    void keepsItsParts() {
        assertThat(DEVICE.valve()).isEqualTo(EXHAUST);
        assertThat(DEVICE.before()).isEqualTo(deg(60));
        assertThat(DEVICE.after()).isEqualTo(deg(20));
    }

    @ParameterizedTest
    @CsvSource({
        "0, true",
        "20, true",
        "20.1, false",
        "360, false",
        "659.9, false",
        "660, true",
        "719.9, true",
    })
    void holdsAroundCompressionTdc(String phase, boolean holds) {
        assertThat(DEVICE.holdsAt(Ratio.parse(phase))).isEqualTo(holds);
    }

    @ParameterizedTest
    @ValueSource(strings = {"-0.1", "360.1", "-60"})
    void refusesAnglesOutOfRange(String degrees) {
        Ratio wrong = Ratio.parse(degrees);
        String[] parts = {"decompressor \"" + degrees + " deg\"", "0 to 360 deg", "before and after TDC"};
        Contracts.refuses(() -> new Decompressor(EXHAUST, wrong, deg(0)), parts);
        Contracts.refuses(() -> new Decompressor(EXHAUST, deg(0), wrong), parts);
    }

    @Test
    void takesTheEndsOfTheRange() {
        Decompressor always = new Decompressor(EXHAUST, deg(360), deg(360));
        assertThat(always.holdsAt(deg(360))).isTrue();
        Decompressor atTdc = new Decompressor(EXHAUST, deg(0), deg(0));
        assertThat(atTdc.holdsAt(deg(0))).isTrue();
        assertThat(atTdc.holdsAt(deg(1))).isFalse();
    }

    @Test
    void anglesMayBeUnknownTogether() {
        Decompressor unknown = Decompressor.ofUnknownAngles(EXHAUST);
        assertThat(unknown.isKnown()).isFalse();
        assertThat(unknown.findBefore()).isEmpty();
        assertThat(unknown.findAfter()).isEmpty();
        assertThat(unknown.holdsAt(deg(0))).as("known to hold").isFalse();
        assertThat(DEVICE.isKnown()).isTrue();
        assertThat(DEVICE.findBefore()).contains(deg(60));
        assertThat(DEVICE.findAfter()).contains(deg(20));
        Contracts.serialises(unknown);
        Contracts.refuses(() -> new Decompressor(EXHAUST, null, deg(20)), "20 deg", "or neither", "leave both out");
        Contracts.refuses(() -> new Decompressor(EXHAUST, deg(60), null), "60 deg", "or neither", "leave both out");
    }

    @Test
    void isEqualByItsParts() {
        Contracts.equality(
                DEVICE,
                new Decompressor(ValveId.parse("1-ex-1"), Ratio.parse("60.0"), deg(20)),
                List.of(
                        Decompressor.ofUnknownAngles(EXHAUST),
                        new Decompressor(ValveId.parse("1-in-1"), deg(60), deg(20)),
                        new Decompressor(EXHAUST, deg(61), deg(20)),
                        new Decompressor(EXHAUST, deg(60), deg(21))));
    }

    @Test
    void serialises() {
        Contracts.serialises(DEVICE);
    }

    @Test
    void refusesNull() {
        Contracts.refuseNull(
                () -> new Decompressor(null, deg(0), deg(0)),
                () -> Decompressor.ofUnknownAngles(null),
                () -> DEVICE.holdsAt(null));
    }
}
