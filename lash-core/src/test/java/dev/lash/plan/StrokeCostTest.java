package dev.lash.plan;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.testing.Contracts;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class StrokeCostTest {
    @Test
    void constants() {
        assertThat(StrokeCost.EQUAL).isEqualTo(new StrokeCost(1, 1, 1));
        assertThat(StrokeCost.USUAL).isEqualTo(new StrokeCost(1, 1.5, 2));
    }

    @Test
    void costByNumberOfLeaves() {
        StrokeCost cost = new StrokeCost(2, 3, 5);
        assertThat(cost.of(1)).isEqualTo(2);
        assertThat(cost.of(2)).isEqualTo(3);
        assertThat(cost.of(3)).isEqualTo(5);
    }

    @ParameterizedTest
    @CsvSource({
        "0, 1, 1",
        "-1, 1, 1",
        "2, 1, 3",
        "1, 3, 2",
        "NaN, 1, 1",
        "1, NaN, 1",
        "1, 1, NaN",
        "1, 1, Infinity",
        "1, Infinity, Infinity"
    })
    void refusesCostsThatAreNotInOrder(double one, double two, double three) {
        Contracts.refuses(
                () -> new StrokeCost(one, two, three),
                "stroke cost",
                one + ", " + two + ", " + three,
                "positive costs that do not fall with more leaves",
                "give the cost with one, two and three leaves");
    }

    @Test
    void equality() {
        Contracts.equality(
                new StrokeCost(1, 2, 3),
                new StrokeCost(1, 2, 3),
                List.of(new StrokeCost(0.5, 2, 3), new StrokeCost(1, 2.5, 3), new StrokeCost(1, 2, 4)));
    }

    @Test
    void serialises() {
        Contracts.serialises(StrokeCost.USUAL);
    }
}
