package dev.lash.check;

import static dev.lash.testing.Readings.mm;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.gauge.LeafStack;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import dev.lash.testing.Contracts;
import java.util.List;
import org.junit.jupiter.api.Test;

class DoneTest {
    private static final Done SET = new Done.SetWith(LeafStack.parse("0.1016 mm"));
    private static final Done TURNED = new Done.Turned(Ratio.parse("-22.5"));
    private static final Done FITTED = new Done.Fitted(mm("2.40"));

    @Test
    void textsForAPerson() {
        assertThat(SET.toString(LengthUnit.INCH)).isEqualTo("set with 0.004 in");
        assertThat(SET.toString(LengthUnit.MILLIMETRE)).isEqualTo("set with 0.1016 mm");
        assertThat(TURNED.toString(LengthUnit.MILLIMETRE)).isEqualTo("turned by -22.5 degrees");
        assertThat(FITTED.toString(LengthUnit.MILLIMETRE)).isEqualTo("fitted shim 2.40 mm");
    }

    @Test
    void equalityAndSerialisation() {
        Contracts.equality(FITTED, new Done.Fitted(mm("2.400")), List.of(SET, TURNED, new Done.Fitted(mm("2.45"))));
        List.of(SET, TURNED, FITTED).forEach(Contracts::serialises);
    }

    @Test
    void nullIsRefused() {
        Contracts.refuseNull(() -> new Done.SetWith(null), () -> new Done.Turned(null), () -> new Done.Fitted(null));
    }
}
