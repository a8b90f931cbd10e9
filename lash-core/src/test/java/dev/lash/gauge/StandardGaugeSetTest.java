package dev.lash.gauge;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.RejectedValueException;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class StandardGaugeSetTest {
    private static List<String> marks(StandardGaugeSet set) {
        LengthUnit unit = set.gauges().unit();
        return set.gauges().leaves().stream()
                .map(l -> l.thickness().numberIn(unit).orElseThrow())
                .toList();
    }

    @Test
    void thirteenLeaves() {
        // from memory, as sold
        assertThat(marks(StandardGaugeSet.METRIC_13))
                .containsExactly(
                        "0.05", "0.10", "0.15", "0.20", "0.25", "0.30", "0.40", "0.50", "0.60", "0.70", "0.80", "0.90",
                        "1.00");
    }

    @Test
    void twentyLeaves() {
        // from memory; the count follows from 1.00 / 0.05
        assertThat(marks(StandardGaugeSet.METRIC_20))
                .hasSize(20)
                .startsWith("0.05", "0.10")
                .endsWith("1.00");
    }

    @Test
    void gridOfTheStandard() {
        // JIS B 7524:2008: 0.01 to 0.15 by 0.01, 0.15 to 1.00 by 0.05, then to 3.0 by 0.1
        assertThat(marks(StandardGaugeSet.METRIC_GRID))
                .hasSize(15 + 17 + 20)
                .startsWith("0.01", "0.02")
                .contains("0.14", "0.15", "0.20", "0.95", "1.00", "1.10")
                .doesNotContain("0.16", "1.05")
                .endsWith("2.90", "3.00");
    }

    @Test
    void inchLeaves() {
        // from memory: 0.0015, then 0.002 to 0.025 by 0.001
        assertThat(marks(StandardGaugeSet.INCH_25))
                .hasSize(25)
                .startsWith("0.0015", "0.002", "0.003")
                .endsWith("0.025");
    }

    @ParameterizedTest
    @EnumSource
    void eachReadsBackAndNamesItsSource(StandardGaugeSet set) {
        assertThat(StandardGaugeSet.parse(set.toString())).isSameAs(set);
        assertThat(set.source()).isNotBlank();
        assertThat(set.gauges().tolerance()).isEqualTo(Length.ZERO);
        assertThat(set.gauges().mostStacked()).isEqualTo(1);
    }

    @Test
    void unknownNameListsTheKnown() {
        assertThatThrownBy(() -> StandardGaugeSet.parse("metric-99"))
                .isInstanceOf(RejectedValueException.class)
                .hasMessageContainingAll("metric-99", "metric-13, metric-20, metric-grid, inch-25");
        assertThatThrownBy(() -> StandardGaugeSet.parse(null)).isInstanceOf(NullPointerException.class);
    }

    @Test
    void looseLeavesAreOfOneSystem() {
        assertThat(StandardGaugeSet.looseLeaves(LengthUnit.MILLIMETRE))
                .contains(Leaf.parse("0.18 mm"), Leaf.parse("1.00 mm"), Leaf.parse("3.00 mm"))
                .doesNotContain(Leaf.parse("0.0015 in"))
                .isSorted()
                .doesNotHaveDuplicates();
        assertThat(StandardGaugeSet.looseLeaves(LengthUnit.THOU))
                .contains(Leaf.parse("0.0015 in"), Leaf.parse("0.040 in"))
                .doesNotContain(Leaf.parse("0.10 mm"));
    }
}
