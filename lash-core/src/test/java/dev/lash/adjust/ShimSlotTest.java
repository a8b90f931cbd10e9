package dev.lash.adjust;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveId;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import java.util.List;
import org.junit.jupiter.api.Test;

class ShimSlotTest {
    private static final ShimSlot SLOT = ShimSlot.of(
            ValveId.parse("1-in-1"),
            LengthInterval.parse("(0.15, 0.16) mm"),
            ClearanceSpec.typical(ClearanceWindow.parse("0.16..0.22 mm")),
            new InstalledShim(Length.ofMillimetres("2.45"), null, Length.ZERO, "9.5"),
            ShimRange.parse("1.20..3.50 mm step 0.05 mm"));

    @Test
    void plainSlotIsABucketWithTheCamInPlace() {
        assertThat(SLOT.ratio()).isEqualTo(Ratio.ONE);
        assertThat(SLOT.camshaft()).isEmpty();
        assertThat(SLOT.findAim()).isEmpty();
        assertThat(SLOT.type()).isEqualTo("9.5");
        assertThat(SLOT.place()).isEqualTo("1-in-1");
    }

    @Test
    void withersChangeOneThing() {
        assertThat(SLOT.withGap("closer").place()).isEqualTo("1-in-1 closer");
        assertThat(SLOT.withCamshaft("intake").camshaft()).isEqualTo("intake");
        assertThat(SLOT.withRatio(Ratio.parse("1.5")).ratio()).isEqualTo(Ratio.of(3, 2));
        assertThat(SLOT.withAim(Ratio.ONE).findAim()).contains(Ratio.ONE);
        assertThat(SLOT.withBracket(LengthInterval.any()).bracket()).isEqualTo(LengthInterval.any());
        ShimSlot unread = SLOT.withoutReading("dished: mend it, then measure");
        assertThat(unread.bracket()).isEqualTo(LengthInterval.any());
        assertThat(unread.unread()).isEqualTo("dished: mend it, then measure");
        assertThat(unread.withGap("opener")
                        .withCamshaft("intake")
                        .withAim(Ratio.ONE)
                        .withRatio(Ratio.ONE)
                        .unread())
                .isEqualTo("dished: mend it, then measure");
        assertThat(unread.withBracket(SLOT.bracket())).as("read at last").isEqualTo(SLOT);
        for (ShimSlot changed : List.of(
                SLOT.withGap("closer"),
                SLOT.withCamshaft("intake"),
                SLOT.withRatio(Ratio.parse("1.5")),
                SLOT.withAim(Ratio.ONE),
                SLOT.withBracket(LengthInterval.any()))) {
            assertThat(changed).isNotEqualTo(SLOT);
        }
        assertThat(SLOT.withGap("")).isEqualTo(SLOT).hasSameHashCodeAs(SLOT);
    }

    @Test
    void whatCannotBeIsRefused() {
        assertThatThrownBy(() -> SLOT.withRatio(Ratio.parse("10.1")))
                .isInstanceOf(RejectedValueException.class)
                .hasMessageContainingAll("10.1", "0.1 to 10", "lever arms");
        assertThatThrownBy(() -> SLOT.withRatio(Ratio.ZERO)).isInstanceOf(RejectedValueException.class);
        assertThatThrownBy(() -> SLOT.withAim(Ratio.parse("-0.1")))
                .isInstanceOf(RejectedValueException.class)
                .hasMessageContainingAll("-0.1", "0 to 1", "fraction of the window");
        assertThatThrownBy(() -> SLOT.withBracket(LengthInterval.parse("(0.15, 25.1) mm")))
                .isInstanceOf(RejectedValueException.class)
                .hasMessageContainingAll("1-in-1", "25.10", "within 25.00 mm", "unit");
        assertThatThrownBy(() -> SLOT.withBracket(LengthInterval.parse("> -25.1 mm")))
                .isInstanceOf(RejectedValueException.class);
        assertThat(SLOT.withBracket(LengthInterval.parse("(-25, 25) mm"))
                        .bracket()
                        .isBounded())
                .isTrue();
    }

    @Test
    void nullsAreRefused() {
        assertThatThrownBy(() -> SLOT.withAim(null)).isInstanceOf(NullPointerException.class);
        assertThatThrownBy(() -> SLOT.withGap(null)).isInstanceOf(NullPointerException.class);
        assertThatThrownBy(() -> SLOT.withCamshaft(null)).isInstanceOf(NullPointerException.class);
        assertThatThrownBy(() -> SLOT.withBracket(null)).isInstanceOf(NullPointerException.class);
    }

    @Test
    void survivesSerialisation() {
        assertThat(ShimPlanTest.copied(SLOT.withAim(Ratio.of(1, 3)))).isEqualTo(SLOT.withAim(Ratio.of(1, 3)));
    }
}
