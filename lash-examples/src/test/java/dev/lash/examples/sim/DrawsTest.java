package dev.lash.examples.sim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class DrawsTest {
    private static final int MANY = 200_000;

    @Test
    void normalHasTheSharesOfTheNormalDistribution() {
        Draws draws = new Draws(1);
        int below = 0;
        int far = 0;
        for (int i = 0; i < MANY; i++) {
            double z = draws.normal(3, 2);
            below += z < 5 ? 1 : 0;
            far += Math.abs(z - 3) > 4 ? 1 : 0;
        }

        // within 1 and beyond 2 standard deviations, from tables of the normal distribution
        assertThat(below / (double) MANY).isCloseTo(0.8413, within(0.004));
        assertThat(far / (double) MANY).isCloseTo(0.0455, within(0.002));
    }

    @Test
    void logNormalLiesWithinTheFactorTwoTimesInThree() {
        Draws draws = new Draws(2);
        int within = 0;
        int below = 0;
        for (int i = 0; i < MANY; i++) {
            double x = draws.logNormal(0.006, 1.5);
            within += x > 0.004 && x < 0.009 ? 1 : 0;
            below += x < 0.006 ? 1 : 0;
        }

        assertThat(within / (double) MANY).isCloseTo(0.6827, within(0.005));
        assertThat(below / (double) MANY).isCloseTo(0.5, within(0.005));
    }

    @Test
    void sameSeedGivesTheSameDraws() {
        Draws one = new Draws(7);
        Draws other = new Draws(7);
        for (int i = 0; i < 5; i++) {
            assertThat(one.normal()).isEqualTo(other.normal());
        }
        assertThat(one.normal()).isNotEqualTo(new Draws(8).normal());
    }
}
