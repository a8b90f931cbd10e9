package dev.lash.plan;

import static dev.lash.testing.Readings.guarded;
import static dev.lash.testing.Readings.interval;
import static dev.lash.testing.Readings.leaves;
import static dev.lash.testing.Readings.mm;
import static dev.lash.testing.Readings.read;
import static dev.lash.testing.Readings.window;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.engine.ClearanceWindow;
import dev.lash.gauge.Bracket;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.LeafStack;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.testing.Contracts;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class NextLeafTest {
    private static final GaugeSet SCHOOL =
            leaves("0.03", "0.04", "0.05", "0.06", "0.07", "0.09", "0.12", "0.15", "0.20", "0.25", "0.30");

    private static NextLeaf owned(String leaf) {
        return new NextLeaf(LeafStack.parse(leaf), true);
    }

    private static NextLeaf toBorrow(String leaf) {
        return new NextLeaf(LeafStack.parse(leaf), false);
    }

    private static Optional<NextLeaf> towards(String windowText, GaugeSet gauges, String... trials) {
        return NextLeaf.towardsVerdict(read(trials), window(windowText), gauges);
    }

    // ---- towards a verdict

    @Test
    void aDecidedReadingNeedsNoLeaf() {
        assertThat(towards("0.08..0.13 mm", SCHOOL, "0.13 mm forced", "0.10 mm goes"))
                .isEmpty();
    }

    @Test
    void noOwnedLeafBetweenTheEndsMeansBorrowingTheLimit() {
        assertThat(towards("0.12..0.18 mm", SCHOOL, "0.15 mm goes", "0.20 mm forced"))
                .contains(toBorrow("0.18 mm"));
    }

    @Test
    void anOwnedLeafAtTheLimitIsTaken() {
        GaugeSet more = leaves("0.15", "0.16", "0.17", "0.18", "0.19", "0.20");
        assertThat(towards("0.12..0.18 mm", more, "0.15 mm goes", "0.20 mm forced"))
                .contains(owned("0.18 mm"));
    }

    @Test
    void ofLeavesThatMaySettleItTheOneNearestToALimitIsTaken() {
        // 0.17: refuses settles, goes and drags leave no doubt or (0.17, 0.20); 0.19 likewise from above.
        assertThat(towards("0.12..0.175 mm", leaves("0.15", "0.17", "0.19", "0.20"), "0.15 mm goes", "0.20 mm forced"))
                .contains(owned("0.17 mm"));
    }

    @Test
    void withNoTrialsALimitIsWhereToBegin() {
        // As likely below 0.09 as above, from 0 to twice that: 0.09 first.
        assertThat(towards("0.05..0.09 mm", SCHOOL)).contains(owned("0.09 mm"));
    }

    @Test
    void aStackIsOfferedOnlyWhereStacksAreAllowed() {
        GaugeSet three = leaves("0.06", "0.12", "0.20");
        String[] trials = {"0.12 mm goes", "0.20 mm refuses"};
        assertThat(towards("0.12..0.18 mm", three, trials)).contains(toBorrow("0.18 mm"));
        assertThat(towards("0.12..0.18 mm", three.withStacksOf(2), trials)).contains(owned("0.06 mm + 0.12 mm"));
    }

    @Test
    void aStackMayNarrowWhereALeafAsThickCannot() {
        // A drag at 0.06 and one at 0.10. Whether 0.08 goes or not, it contradicts one of them; of 0.02 + 0.06, with
        // twice the
        // tolerance, either answer may be true.
        GaugeSet three = leaves("0.02", "0.06", "0.08").withStacksOf(2);
        Bracket bracket = read(guarded("0.005", "0.01"), "0.06 mm drags", "0.10 mm drags");
        assertThat(NextLeaf.towards(bracket, i -> !i.width().orElseThrow().isMoreThan(mm("0.05")), three))
                .contains(owned("0.02 mm + 0.06 mm"));
    }

    @Test
    void aSingleLeafComesBeforeAStackThatIsAsGood() {
        GaugeSet set = leaves("0.06", "0.12", "0.18", "0.20").withStacksOf(2);
        assertThat(towards("0.12..0.18 mm", set, "0.12 mm goes", "0.20 mm refuses"))
                .contains(owned("0.18 mm"));
    }

    /** With 0.03 mm of drag allowance the drags count together as [0.12, 0.23]. */
    private static Optional<NextLeaf> afterTwoDrags(String... owned) {
        Bracket bracket = read(guarded("0.00", "0.03"), "0.15 mm drags", "0.20 mm drags");
        assertThat(bracket.interval()).isEqualTo(interval("[0.12, 0.23] mm"));
        return NextLeaf.towardsVerdict(bracket, window("0.12..0.18 mm"), leaves(owned));
    }

    @Test
    void aLeafThatWasTriedIsNotOfferedAgain() {
        // 0.18 refused leaves [0.12, 0.18): within. 0.19 refused and 0.17 gone leave both open, 0.17 refused denies
        // 0.20.
        assertThat(afterTwoDrags("0.15", "0.20")).contains(toBorrow("0.18 mm"));
    }

    @Test
    void aLeafThatCouldOnlyWidenTheReadingIsNotOffered() {
        // 0.25 goes would contradict the drags, 0.25 refuses says nothing new, and 0.25 drags would widen the reading.
        assertThat(afterTwoDrags("0.15", "0.20", "0.25")).contains(toBorrow("0.18 mm"));
    }

    @Test
    void betweenTwoDragsNoLeafTellsAnythingUnderTheSimpleRule() {
        // 0.18 goes denies that 0.15 drags, 0.18 refuses denies that 0.20 does, and 0.18 drags leaves [0.15, 0.20] as
        // it is.
        String[] trials = {"0.15 mm drags", "0.20 mm drags"};
        assertThat(towards("0.12..0.18 mm", leaves("0.15", "0.20"), trials)).isEmpty();
        assertThat(towards("0.12..0.18 mm", leaves("0.15", "0.18", "0.20"), trials))
                .isEmpty();
    }

    @Test
    void underTheGuardedRuleTheLeafToBorrowAllowsForItsTolerance() {
        // Of the hundredths: 0.17 refused proves less than 0.173, within, and 0.19 gone more than 0.187, loose; 0.18
        // proves nothing.
        Bracket bracket = read(guarded("0.003", "0.00"), "0.15 mm goes", "0.20 mm refuses");
        assertThat(bracket.interval()).isEqualTo(interval("(0.147, 0.203) mm"));
        assertThat(NextLeaf.towardsVerdict(bracket, window("0.12..0.18 mm"), SCHOOL))
                .contains(toBorrow("0.17 mm"));
    }

    @Test
    void theLimitItselfIsNamedOnlyWhereNoLeafThatCanBeHadHelps() {
        // Between 0.15 and 0.16 there is no hundredth; between 0.15 and 0.17 there is.
        assertThat(towards("0.12..0.155 mm", SCHOOL, "0.15 mm goes", "0.16 mm refuses"))
                .contains(toBorrow("0.155 mm"));
        assertThat(towards("0.12..0.155 mm", SCHOOL, "0.15 mm goes", "0.17 mm refuses"))
                .contains(toBorrow("0.16 mm"));
    }

    @Test
    void aWindowUpToTheLargestClearanceNeedsNoLeafThickerThanThereIs() {
        Bracket bracket = read(guarded("0.003", "0.00"), "0.05 mm goes", "0.20 mm refuses");
        assertThat(NextLeaf.towardsVerdict(bracket, window("0.10..5.00 mm"), leaves("0.05", "0.20")))
                .hasValueSatisfying(next -> assertThat(next.owned()).isFalse());
    }

    @Test
    void noLeafIsNamedWhereTheLimitItselfWasTried() {
        // Both drag, so between them; 0.13 is the limit itself.
        assertThat(towards("0.13..0.20 mm", leaves("0.10", "0.13"), "0.10 mm drags", "0.13 mm drags"))
                .isEmpty();
        // The thinnest that can be had tells a little from more; none is thin enough to tell nothing from a little.
        assertThat(towards("0.00..0.00 mm", leaves("0.03"), "0.03 mm refuses")).contains(toBorrow("0.01 mm"));
        assertThat(towards("0.00..0.00 mm", leaves("0.03"), "0.03 mm refuses", "0.01 mm refuses"))
                .isEmpty();
    }

    // ---- towards another goal

    private static boolean isAtMostThreeWide(LengthInterval interval) {
        return interval.width().orElseThrow().compareTo(mm("0.03")) <= 0;
    }

    @Test
    void aReadingWithoutBothEndsHasNoSuchPlan() {
        assertThat(NextLeaf.towards(read("0.10 mm goes"), i -> true, SCHOOL)).isEmpty();
        assertThat(NextLeaf.towards(read("0.10 mm refuses"), i -> true, SCHOOL)).isEmpty();
    }

    @Test
    void theOwnedLeafNearestToTheMiddleIsTaken() {
        Bracket bracket = read("0.10 mm goes", "0.16 mm refuses");
        assertThat(NextLeaf.towards(bracket, NextLeafTest::isAtMostThreeWide, leaves("0.11", "0.13", "0.15")))
                .contains(owned("0.13 mm"));
    }

    @Test
    void ofLeavesThatReachTheGoalAlikeTheMiddleOneIsTaken() {
        Bracket bracket = read("0.10 mm goes", "0.16 mm refuses");
        assertThat(NextLeaf.towards(
                        bracket,
                        i -> i.width().orElseThrow().compareTo(mm("0.05")) <= 0,
                        leaves("0.11", "0.12", "0.13", "0.14", "0.15")))
                .contains(owned("0.13 mm"));
    }

    @Test
    void withoutAnOwnedLeafTheOneToBorrowIsOnTheStepsOfTheSet() {
        Bracket bracket = read("0.10 mm goes", "0.16 mm refuses");
        assertThat(NextLeaf.towards(bracket, NextLeafTest::isAtMostThreeWide, leaves("0.10", "0.16")))
                .contains(toBorrow("0.13 mm"));
        Bracket inch = read("0.004 in goes", "0.007 in refuses");
        assertThat(NextLeaf.towards(
                        inch,
                        i -> i.width().orElseThrow().compareTo(Length.ofInches("0.002")) <= 0,
                        GaugeSet.of(LengthUnit.INCH, "0.004", "0.007")))
                .hasValueSatisfying(next -> {
                    assertThat(next.owned()).isFalse();
                    assertThat(next.leaf().toString(LengthUnit.INCH)).isIn("0.005 in", "0.006 in");
                });
    }

    @Test
    void anOwnedLeafThatCannotReachTheGoalGivesWayToOneThatCan() {
        // No outcome of 0.11 is as asked. 0.12 and 0.13 are when refused. So is that 0.07 drags, as (0.10, 0.12], but
        // then
        // hardly
        // any clearance of the bracket would.
        Bracket bracket = read(guarded("0.00", "0.05"), "0.10 mm goes", "0.16 mm refuses");
        assertThat(NextLeaf.towards(
                        bracket,
                        i -> i.encloses(interval("(0.10, 0.12) mm"))
                                && interval("(0.10, 0.13) mm").encloses(i),
                        leaves("0.10", "0.11", "0.16")))
                .contains(toBorrow("0.13 mm"));
    }

    @Test
    void aLeafAtAnEndThatHardlyTellsAnythingGivesWay() {
        // 0.107 may prove tight when refused, with one answer open, but of 0.100 to 0.200 only the first 0.007 would
        // refuse it;
        // 0.147 refused settles half, with two answers open.
        Bracket bracket = read(guarded("0.005", "0.04"), "0.105 mm goes", "0.195 mm refuses");
        assertThat(bracket.interval()).isEqualTo(interval("(0.10, 0.20) mm"));
        assertThat(NextLeaf.towards(
                        bracket,
                        i -> i.upper().orElseThrow().compareTo(mm("0.155")) <= 0,
                        leaves("0.107", "0.147", "0.105", "0.195")))
                .contains(owned("0.147 mm"));
    }

    @Test
    void aGoalOutOfReachHasNoLeaf() {
        assertThat(NextLeaf.towards(read("0.10 mm goes", "0.16 mm refuses"), i -> false, SCHOOL))
                .isEmpty();
    }

    // ---- equality, serialisation, nulls

    @Test
    void equality() {
        Contracts.equality(owned("0.18 mm"), owned("0.18 mm"), List.of(toBorrow("0.18 mm"), owned("0.17 mm")));
    }

    @Test
    void survivesSerialisation() {
        Contracts.serialises(owned("0.06 mm + 0.15 mm"));
    }

    @Test
    void nullIsRefused() {
        Bracket undecided = read("0.15 mm goes", "0.20 mm forced");
        ClearanceWindow window = window("0.12..0.18 mm");
        Contracts.refuseNull(
                () -> new NextLeaf(null, true),
                () -> NextLeaf.towardsVerdict(null, window, SCHOOL),
                () -> NextLeaf.towardsVerdict(undecided, null, SCHOOL),
                () -> NextLeaf.towardsVerdict(undecided, window, null),
                () -> NextLeaf.towards(null, i -> true, SCHOOL),
                () -> NextLeaf.towards(undecided, null, SCHOOL),
                () -> NextLeaf.towards(undecided, i -> true, null));
    }
}
