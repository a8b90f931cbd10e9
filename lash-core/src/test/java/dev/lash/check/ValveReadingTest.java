package dev.lash.check;

import static dev.lash.testing.Readings.mm;
import static dev.lash.testing.Readings.trials;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.adjust.InstalledShim;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.gauge.Trial;
import dev.lash.measure.RejectedValueException;
import dev.lash.testing.Contracts;
import java.util.ArrayList;
import java.util.List;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ValveReadingTest {
    private static final InstalledShim SHIM = InstalledShim.marked(mm("2.45"));
    private static final Done FITTED = new Done.Fitted(mm("2.40"));

    private static ValveReading reading() {
        return ValveReading.of("1-in-2", "0.12 mm goes", "0.15 mm refuses");
    }

    @Test
    void textsAndValuesGiveTheSame() {
        assertThat(reading())
                .isEqualTo(ValveReading.of(ValveId.parse("1-in-2"), trials("0.12 mm goes", "0.15 mm refuses")));
        assertThat(reading().pad()).isEqualTo(Pad.SOUND);
        assertThat(reading().stop()).isEmpty();
        assertThat(reading().findShim()).isEmpty();
        assertThat(reading().findDone()).isEmpty();
        assertThat(reading().recheck()).isEmpty();
    }

    @Test
    void theOrderOfTheTrialsIsKept() {
        assertThat(ValveReading.of("1-in-1", "0.15 mm refuses", "0.12 mm goes").trials())
                .containsExactly(Trial.parse("0.15 mm refuses"), Trial.parse("0.12 mm goes"));
    }

    @ParameterizedTest
    @CsvSource({
        "1-in-0, 0.12 mm goes, 1-in-0",
        "inlet, 0.12 mm goes, inlet",
        "1-in-1, 0.12 goes, 0.12",
        "1-in-1, 0.12 mm slides, slides"
    })
    void badTextIsRefused(String valve, String trial, String named) {
        RejectedValueException refused = Contracts.refuses(() -> ValveReading.of(valve, trial), named);
        assertThat(refused.value()).contains(named);
    }

    @Test
    void eachWitherChangesItsOwnPart() {
        ValveReading all = reading().withShim(SHIM).withPad(Pad.DISHED).withDone(FITTED, trials("0.18 mm drags"));
        assertThat(all.findShim()).contains(SHIM);
        assertThat(all.pad()).isEqualTo(Pad.DISHED);
        assertThat(all.findDone()).contains(FITTED);
        assertThat(all.recheck()).isEqualTo(trials("0.18 mm drags"));
        assertThat(all.valve()).isEqualTo(reading().valve());
        assertThat(all.trials()).isEqualTo(reading().trials());
        ValveReading otherOrder = reading()
                .withDone(FITTED, trials("0.18 mm drags"))
                .withPad(Pad.DISHED)
                .withShim(SHIM);
        assertThat(otherOrder).isEqualTo(all);
    }

    @Test
    void theListsCannotBeChanged() {
        List<Trial> trials = new ArrayList<>(trials("0.12 mm goes"));
        ValveReading reading = ValveReading.of(ValveId.parse("1-in-1"), trials).withDone(FITTED, trials);
        trials.clear();
        assertThat(reading.trials()).hasSize(1).isUnmodifiable();
        assertThat(reading.recheck()).hasSize(1).isUnmodifiable();
    }

    @Test
    void equalityAndSerialisation() {
        Contracts.equality(
                reading(),
                reading(),
                List.of(
                        reading().withShim(SHIM),
                        reading().withPad(Pad.DISHED),
                        reading().withDone(FITTED, List.of()),
                        ValveReading.of("1-in-1", "0.12 mm goes", "0.15 mm refuses")));
        Contracts.serialises(reading().withShim(SHIM).withDone(FITTED, trials("0.18 mm drags")));
    }

    @Test
    void nullIsRefused() {
        ValveId valve = ValveId.parse("1-in-1");
        Contracts.refuseNull(
                () -> ValveReading.of((ValveId) null, List.of()),
                () -> ValveReading.of(valve, null),
                () -> ValveReading.of((String) null, "0.12 mm goes"),
                () -> reading().withShim(null),
                () -> reading().withPad(null),
                () -> reading().withDone(null, List.of()),
                () -> reading().withDone(FITTED, null),
                () -> new ValveReading(
                        valve, Gap.ONLY, List.of(), List.of(), false, null, Pad.SOUND, null, null, null, 0, List.of()));
        Assertions.assertThatNullPointerException()
                .isThrownBy(() -> reading().withDone(null, List.of()))
                .withMessage("what");
    }
}
