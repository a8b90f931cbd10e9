package dev.lash.check;

import static dev.lash.testing.Readings.mm;
import static dev.lash.testing.Readings.trials;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.adjust.InstalledShim;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.gauge.Trial;
import dev.lash.measure.Ratio;
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
    void aReadingIsOfTheOnlyGapUntilToldOtherwise() {
        assertThat(reading().gap()).isEqualTo(Gap.ONLY);
        assertThat(reading().name()).isEqualTo("1-in-2");
        assertThat(reading().loadedTrials()).isEmpty();
        assertThat(reading().turnsFree()).isFalse();
        assertThat(reading().findEccentricAngle()).isEmpty();
        assertThat(reading().tries()).isZero();
    }

    @Test
    void anOpenerAndACloserAreNamedWithTheirGap() {
        List<Trial> loaded = trials("0.20 mm drags");
        ValveReading opener = reading().asOpener(loaded);
        assertThat(opener.gap()).isEqualTo(Gap.OPENER);
        assertThat(opener.name()).isEqualTo("1-in-2 opener");
        assertThat(opener.loadedTrials()).isEqualTo(loaded).isUnmodifiable();
        assertThat(opener.trials()).isEqualTo(reading().trials());
        ValveReading closer = reading().withShim(SHIM).asCloser(loaded, true);
        assertThat(closer.gap()).isEqualTo(Gap.CLOSER);
        assertThat(closer.name()).isEqualTo("1-in-2 closer");
        assertThat(closer.loadedTrials()).isEqualTo(loaded);
        assertThat(closer.turnsFree()).isTrue();
        assertThat(closer.findShim()).contains(SHIM);
    }

    @Test
    void theEccentricMayBeKnown() {
        ValveReading known = reading().withPad(Pad.DISHED).withEccentricAngle(Ratio.parse("12.5"));
        assertThat(known.findEccentricAngle()).contains(Ratio.parse("12.5"));
        assertThat(known.pad()).isEqualTo(Pad.DISHED);
    }

    @Test
    void positionAndTrialsAreReplaced() {
        assertThat(reading().withStop("number 1 at compression TDC").stop()).isEqualTo("number 1 at compression TDC");
        assertThat(reading().withTrials(trials("0.18 mm drags")).trials()).isEqualTo(trials("0.18 mm drags"));
    }

    @Test
    void eachAdjustmentIsATryMore() {
        ValveReading once = reading().withDone(FITTED, trials("0.10 mm drags"));
        assertThat(once.tries()).isOne();
        ValveReading twice = once.withDone(new Done.Fitted(mm("2.35")), trials("0.18 mm drags"));
        assertThat(twice.tries()).isEqualTo(2);
        assertThat(twice.recheck()).as("of the last").isEqualTo(trials("0.18 mm drags"));
        assertThat(twice.findDone()).contains(new Done.Fitted(mm("2.35")));
        assertThat(twice.withPad(Pad.DISHED).tries()).isEqualTo(2);
    }

    private static ValveReading with(Done done, int tries) {
        return new ValveReading(
                ValveId.parse("1-in-1"),
                Gap.ONLY,
                List.of(),
                List.of(),
                false,
                null,
                Pad.SOUND,
                null,
                "",
                done,
                tries,
                List.of());
    }

    @Test
    void triesAndWhatWasDoneAgree() {
        assertThat(with(null, 0).tries()).isZero();
        assertThat(with(FITTED, 1).tries()).isOne();
        assertThat(with(FITTED, 1000).tries()).isEqualTo(1000);
        Contracts.refuses(() -> with(null, 1), "tries \"1\"", "nothing was done", "no tries");
        for (int tries : new int[] {0, -1, 1001}) {
            Contracts.refuses(() -> with(FITTED, tries), "tries \"" + tries + "\"", "out of range", "1 to 1000");
        }
        Contracts.refuses(() -> with(null, -1), "tries \"-1\"", "no tries");
        ValveReading most = with(FITTED, 1000);
        Contracts.refuses(() -> most.withDone(FITTED, List.of()), "tries \"1001\"", "1 to 1000");
    }

    @Test
    void aCloserIsNotCheckedAgainByLeavesAlone() {
        List<Trial> recheck = trials("0.18 mm drags");
        ValveReading closer = reading().asCloser(List.of(), true);
        Contracts.refuses(
                () -> closer.withDone(FITTED, recheck),
                "recheck",
                "0.18 mm drags",
                "cannot be read for a closer",
                "loaded and unloaded");
        assertThat(closer.withDone(FITTED, List.of()).tries()).isOne();
        ValveReading checked = reading().withDone(FITTED, recheck);
        Contracts.refuses(() -> checked.asCloser(List.of(), true), "recheck", "closer");
        assertThat(checked.asOpener(List.of()).recheck()).isEqualTo(recheck);
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
                        reading().withDone(FITTED, List.of()).withDone(FITTED, List.of()),
                        reading().asOpener(List.of()),
                        reading().asOpener(trials("0.20 mm drags")),
                        reading().asCloser(List.of(), false),
                        reading().asCloser(List.of(), true),
                        reading().withEccentricAngle(Ratio.ZERO),
                        reading().withStop("TDC"),
                        ValveReading.of("1-in-1", "0.12 mm goes", "0.15 mm refuses")));
        Contracts.serialises(reading().withShim(SHIM).withDone(FITTED, trials("0.18 mm drags")));
        Contracts.serialises(reading().asCloser(trials("0.20 mm drags"), true).withEccentricAngle(Ratio.ONE));
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
                () -> reading().withTrials(null),
                () -> reading().withStop(null),
                () -> reading().withEccentricAngle(null),
                () -> reading().asOpener(null),
                () -> reading().asCloser(null, true),
                () -> reading().withDone(null, List.of()),
                () -> reading().withDone(FITTED, null),
                () -> new ValveReading(
                        valve, Gap.ONLY, List.of(), List.of(), false, null, Pad.SOUND, null, null, null, 0, List.of()));
        Assertions.assertThatNullPointerException()
                .isThrownBy(() -> reading().withDone(null, List.of()))
                .withMessage("what");
    }
}
