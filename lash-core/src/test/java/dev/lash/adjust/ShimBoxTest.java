package dev.lash.adjust;

import static dev.lash.testing.Readings.mm;
import static dev.lash.testing.Readings.mms;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatNullPointerException;

import dev.lash.adjust.ShimBox.Lot;
import dev.lash.measure.Length;
import dev.lash.testing.Contracts;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ShimBoxTest {
    private static Lot lot(String size, int count) {
        return new Lot(mm(size), count, "");
    }

    @Test
    void sizesAreListedOnceThinnestFirst() {
        ShimBox box = new ShimBox(List.of(lot("2.40", 1), lot("2.20", 2), lot("2.40", 3), lot("2.25", 1)));
        assertThat(box.sizes()).isEqualTo(mms("2.20", "2.25", "2.40"));
        assertThat(box.lots()).hasSize(4);
    }

    @Test
    void shimsOfOneSizeAreCountedTogether() {
        ShimBox box =
                new ShimBox(List.of(lot("2.40", 1), lot("2.20", 2), new Lot(mm("2.40"), 3, "9.48"), lot("2.25", 0)));
        InstalledShim untyped = InstalledShim.marked(mm("2.50"));
        InstalledShim typed = new InstalledShim(mm("2.50"), null, Length.ZERO, "9.48");
        InstalledShim other = new InstalledShim(mm("2.50"), null, Length.ZERO, "7.48");
        assertThat(box.count(mm("2.40"), untyped)).isEqualTo(4);
        assertThat(box.count(mm("2.40"), typed)).isEqualTo(4);
        assertThat(box.count(mm("2.40"), other))
                .as("never the shims of another type")
                .isEqualTo(1);
        assertThat(box.count(mm("2.25"), untyped)).isZero();
        assertThat(box.count(mm("2.30"), untyped)).isZero();
    }

    @Test
    void anEmptyLotIsNotAtHand() {
        assertThat(new ShimBox(List.of(lot("2.40", 0), lot("2.45", 1))).sizes()).isEqualTo(mms("2.45"));
        assertThat(ShimBox.empty().sizes()).isEmpty();
    }

    @Test
    void theBoxDoesNotChangeWithTheListItWasMadeOf() {
        List<Lot> lots = new ArrayList<>(List.of(lot("2.40", 1)));
        ShimBox box = new ShimBox(lots);
        lots.add(lot("2.45", 1));
        assertThat(box.sizes()).isEqualTo(mms("2.40"));
        assertThat(box.lots()).isUnmodifiable();
    }

    @ParameterizedTest
    @ValueSource(ints = {-1, 100_001})
    void aCountOutOfRangeIsRefused(int count) {
        Contracts.refuses(() -> lot("2.40", count), String.valueOf(count), "0 to 100000", "count");
        assertThat(List.of(lot("2.40", 0).count(), lot("2.40", 100_000).count()))
                .containsExactly(0, 100_000);
    }

    private static InstalledShim shim(String size, String type) {
        return new InstalledShim(mm(size), null, Length.ZERO, type);
    }

    @Test
    void aShimThatComesOutGoesIn() {
        ShimBox box = new ShimBox(List.of(lot("2.40", 1), new Lot(mm("2.40"), 2, "9.48")));
        assertThat(box.with(shim("2.40", "9.48")).lots())
                .containsExactly(lot("2.40", 1), new Lot(mm("2.40"), 3, "9.48"));
        assertThat(box.with(shim("2.45", "9.48")).lots())
                .containsExactly(lot("2.40", 1), new Lot(mm("2.40"), 2, "9.48"), new Lot(mm("2.45"), 1, "9.48"));
        assertThat(box.with(new InstalledShim(mm("2.40"), mm("2.38"), Length.ZERO, ""))
                        .lots())
                .as("measured wins over marked")
                .contains(lot("2.38", 1));
        assertThat(box.with(new InstalledShim(null, null, Length.ZERO, "")))
                .as("of unknown size")
                .isEqualTo(box);
    }

    @Test
    void aShimThatIsFittedComesOut() {
        ShimBox box = new ShimBox(List.of(
                lot("2.40", 1), new Lot(mm("2.40"), 1, "9.48"), lot("2.30", 0), new Lot(mm("2.50"), 1, "7.48")));
        ShimBox first = box.without(shim("2.40", "9.48"));
        assertThat(first.lots()).element(1).as("its own type first").isEqualTo(new Lot(mm("2.40"), 0, "9.48"));
        ShimBox second = first.without(shim("2.40", "9.48"));
        assertThat(second.lots()).element(0).as("then one of no stated type").isEqualTo(lot("2.40", 0));
        assertThat(second.without(shim("2.40", "9.48"))).as("from elsewhere").isEqualTo(second);
        assertThat(box.without(shim("2.50", "9.48"))).as("never another type").isEqualTo(box);
        assertThat(box.without(shim("2.30", ""))).isEqualTo(box);
        assertThat(box.without(new InstalledShim(null, null, Length.ZERO, ""))).isEqualTo(box);
    }

    @ParameterizedTest
    @ValueSource(strings = {"0", "-1", "20.01"})
    void aSizeOutOfRangeIsRefused(String size) {
        Contracts.refuses(() -> lot(size, 1), mm(size).toString(), "20.00 mm", "unit");
    }

    @Test
    void equalityAndSerialisation() {
        ShimBox box = new ShimBox(List.of(lot("2.40", 1)));
        Contracts.equality(
                box,
                new ShimBox(List.of(lot("2.400", 1))),
                List.of(ShimBox.empty(), new ShimBox(List.of(lot("2.40", 2)))));
        Contracts.serialises(box);
        Contracts.serialises(ShimBox.empty());
    }

    @Test
    void nullIsRefused() {
        Contracts.refuseNull(() -> new ShimBox(null), () -> new Lot(null, 1, ""), () -> new Lot(mm("2.40"), 1, null));
        Contracts.refuseNull(
                () -> ShimBox.empty().with(null), () -> ShimBox.empty().without(null));
        assertThatNullPointerException().isThrownBy(() -> new Lot(null, 1, "")).withMessage("size");
    }
}
