package dev.lash.check;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.testing.Contracts;
import java.util.List;
import org.junit.jupiter.api.Test;

class FindingTest {
    private static Finding finding(String place) {
        return new Finding(
                FindingCode.LEAF_NOT_OWNED,
                place,
                "0.18 mm is not in the gauge set",
                "0.18 mm",
                "leaves of the set",
                "correct the leaf");
    }

    @Test
    void aFindingMattersAsItsKindDoes() {
        assertThat(finding("1-in-1").severity()).isEqualTo(Severity.DOUBT);
    }

    @Test
    void oneLineForAPerson() {
        assertThat(finding("1-in-1")).hasToString("1-in-1: 0.18 mm is not in the gauge set; correct the leaf");
    }

    @Test
    void equalityAndSerialisation() {
        Contracts.equality(finding("1-in-1"), finding("1-in-1"), List.of(finding("2-in-1")));
        Contracts.serialises(finding("1-in-1"));
    }

    @Test
    void nullIsRefused() {
        Contracts.refuseNull(
                () -> new Finding(null, "a", "b", "c", "d", "e"),
                () -> new Finding(FindingCode.DISHED_PAD, null, "b", "c", "d", "e"),
                () -> new Finding(FindingCode.DISHED_PAD, "a", null, "c", "d", "e"),
                () -> new Finding(FindingCode.DISHED_PAD, "a", "b", null, "d", "e"),
                () -> new Finding(FindingCode.DISHED_PAD, "a", "b", "c", null, "e"),
                () -> new Finding(FindingCode.DISHED_PAD, "a", "b", "c", "d", null));
    }
}
