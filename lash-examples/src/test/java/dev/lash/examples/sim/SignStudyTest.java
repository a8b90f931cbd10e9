package dev.lash.examples.sim;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.check.FindingCode;
import org.junit.jupiter.api.Test;

/** The draws are the same each time. */
class SignStudyTest {
    private static final SignStudy.Count THREE_CHECKS = SignStudy.count(50, 3, "0.02");
    private static final SignStudy.Count FIVE_CHECKS = SignStudy.count(50, 5, "0.01");

    @Test
    void ordinaryWearIsInDoubtAtMostOnceInAHundredValves() {
        assertThat(THREE_CHECKS.valves() + FIVE_CHECKS.valves()).isEqualTo(400);
        assertThat(THREE_CHECKS.doubtful() + FIVE_CHECKS.doubtful()).isLessThanOrEqualTo(4);
    }

    /** A third of the valves that the broad prior draws opens up; over five checks that is certain of some, and noted. */
    @Test
    void valvesThatOpenUpAreNoted() {
        assertThat(FIVE_CHECKS.byCode().getOrDefault(FindingCode.AGAINST_WEAR, 0))
                .isBetween(5, 40);
    }
}
