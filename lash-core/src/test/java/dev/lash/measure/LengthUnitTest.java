package dev.lash.measure;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.testing.Contracts;
import java.util.EnumSet;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class LengthUnitTest {
    @ParameterizedTest
    @CsvSource({
        "MILLIMETRE, 1000000, mm",
        "MICROMETRE, 1000, um",
        "HUNDREDTH, 10000, hundredths",
        "INCH, 25400000, in",
        "THOU, 25400, thou"
    })
    void hasASizeAndASymbol(LengthUnit unit, long nanometres, String symbol) {
        assertThat(unit.nanometres()).isEqualTo(nanometres);
        assertThat(unit.symbol()).isEqualTo(symbol);
    }

    @Test
    void knowsItsSystem() {
        assertThat(EnumSet.allOf(LengthUnit.class))
                .filteredOn(LengthUnit::isInch)
                .containsExactly(LengthUnit.INCH, LengthUnit.THOU);
    }

    @ParameterizedTest
    @EnumSource
    void findsAUnitByItsSymbolInAnyCase(LengthUnit unit) {
        assertThat(LengthUnit.find(unit.symbol())).contains(unit);
        assertThat(LengthUnit.find(unit.symbol().toUpperCase(Locale.ROOT))).contains(unit);
    }

    @ParameterizedTest
    @CsvSource(
            quoteCharacter = '\'',
            value = {"µm, MICROMETRE", "μm, MICROMETRE", "hundredth, HUNDREDTH", "inch, INCH", "'\"', INCH", "″, INCH"})
    void findsOtherSpellings(String symbol, LengthUnit unit) {
        assertThat(LengthUnit.find(symbol)).contains(unit);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", " ", "cm", "m", "mm ", "mil", "''", "millimetre", "m m"})
    void findsNothingElse(String symbol) {
        assertThat(LengthUnit.find(symbol)).isEmpty();
    }

    @Test
    void refusesNull() {
        Contracts.refuseNull(() -> LengthUnit.find(null));
    }
}
