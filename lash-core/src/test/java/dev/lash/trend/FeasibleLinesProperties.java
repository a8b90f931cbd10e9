package dev.lash.trend;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import dev.lash.trend.FeasibleLines.Check;
import dev.lash.trend.FeasibleLines.Crossings;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.function.DoublePredicate;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.ShrinkingMode;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.statistics.Statistics;
import org.apache.commons.math3.optim.MaxIter;
import org.apache.commons.math3.optim.linear.LinearConstraint;
import org.apache.commons.math3.optim.linear.LinearConstraintSet;
import org.apache.commons.math3.optim.linear.LinearObjectiveFunction;
import org.apache.commons.math3.optim.linear.NoFeasibleSolutionException;
import org.apache.commons.math3.optim.linear.NonNegativeConstraint;
import org.apache.commons.math3.optim.linear.Relationship;
import org.apache.commons.math3.optim.linear.SimplexSolver;
import org.apache.commons.math3.optim.linear.UnboundedSolutionException;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;

/** The exact answers against linear programmes, solved by the simplex method of Commons Math. */
class FeasibleLinesProperties {
    private static final double EPS = 1e-7;
    private static final double FAR = 1e4;

    /** Small whole numbers, so that edges coincide often; ends near a line, so that lines exist often. */
    @Provide
    Arbitrary<List<List<Check>>> histories() {
        return Arbitraries.randomValue(FeasibleLinesProperties::history);
    }

    private static List<List<Check>> history(Random random) {
        int slope = random.nextInt(7) - 3;
        int missing = random.nextInt(4);
        int loose = 1 + random.nextInt(12);
        List<List<Check>> segments = new ArrayList<>();
        for (int s = 1 + random.nextInt(3); s > 0; s--) {
            List<Check> segment = new ArrayList<>();
            int alpha = random.nextInt(40);
            for (int i = random.nextInt(7) - (s > 1 ? 0 : random.nextInt(2)); i > 0; i--) {
                int usage = random.nextInt(11);
                int low = alpha + slope * usage - random.nextInt(loose);
                int high =
                        Math.max(low, alpha + slope * usage + random.nextInt(loose) - (random.nextInt(8) == 0 ? 1 : 0));
                segment.add(new Check(Ratio.of(usage, 1), bracket(low, high, random, missing)));
            }
            segments.add(segment);
        }
        return segments;
    }

    private static LengthInterval bracket(int low, int high, Random random, int missing) {
        Length from = Length.ofNanometres(low);
        Length to = Length.ofNanometres(high);
        if (random.nextInt(5) < missing) {
            return switch (random.nextInt(5)) {
                case 0, 1 -> LengthInterval.atMost(to);
                case 2, 3 -> LengthInterval.above(from);
                default -> LengthInterval.any();
            };
        }
        return low == high
                ? LengthInterval.point(from)
                : LengthInterval.of(from, random.nextBoolean(), to, random.nextBoolean());
    }

    /** The programme: the slope, then one variable per alpha, then the margin. */
    private record Programme(List<List<Check>> segments) {
        int variables() {
            return segments.size() + 2;
        }

        List<LinearConstraint> constraints(boolean margin) {
            List<LinearConstraint> all = new ArrayList<>();
            if (margin) {
                all.add(new LinearConstraint(unit(variables() - 1), Relationship.LEQ, 1));
            }
            for (int s = 0; s < segments.size(); s++) {
                for (Check check : segments.get(s)) {
                    double share = margin && !check.bracket().isPoint() ? 1 : 0;
                    if (check.bracket().lower().isPresent()) {
                        double end = check.bracket().lower().get().nanometres();
                        all.add(new LinearConstraint(height(s, check.usage(), -share), Relationship.GEQ, end));
                    }
                    if (check.bracket().upper().isPresent()) {
                        double end = check.bracket().upper().get().nanometres();
                        all.add(new LinearConstraint(height(s, check.usage(), share), Relationship.LEQ, end));
                    }
                }
            }
            return all;
        }

        private double[] height(int segment, Ratio usage, double margin) {
            double[] row = new double[variables()];
            row[0] = value(usage);
            row[1 + segment] = 1;
            row[variables() - 1] = margin;
            return row;
        }

        double[] lastHeight(double usage) {
            double[] row = new double[variables()];
            row[0] = usage;
            row[segments.size()] = 1;
            return row;
        }

        double[] unit(int variable) {
            double[] row = new double[variables()];
            row[variable] = 1;
            return row;
        }
    }

    private static double value(Ratio ratio) {
        return ratio.numerator().doubleValue() / ratio.denominator().doubleValue();
    }

    /** The extreme; an infinity when unbounded, NaN when nothing is feasible. */
    private static double extreme(double[] objective, List<LinearConstraint> constraints, GoalType goal) {
        try {
            return new SimplexSolver()
                    .optimize(
                            new MaxIter(10_000),
                            new LinearObjectiveFunction(objective, 0),
                            new LinearConstraintSet(constraints.stream()
                                    .map(FeasibleLinesProperties::tripled)
                                    .toList()),
                            goal,
                            new NonNegativeConstraint(false))
                    .getValue();
        } catch (UnboundedSolutionException e) {
            return goal == GoalType.MAXIMIZE ? Double.POSITIVE_INFINITY : Double.NEGATIVE_INFINITY;
        } catch (NoFeasibleSolutionException e) {
            return Double.NaN;
        }
    }

    /**
     * The same inequality times 3: the solver of Commons Math 3.6.1 takes a variable with a single coefficient of 1 for a
     * slack, and then mixes up two variables in what it returns.
     */
    private static LinearConstraint tripled(LinearConstraint c) {
        return new LinearConstraint(c.getCoefficients().mapMultiply(3), c.getRelationship(), 3 * c.getValue());
    }

    private static double orElse(Optional<Ratio> ratio, double missing) {
        return ratio.map(FeasibleLinesProperties::value).orElse(missing);
    }

    private static void same(double actual, double expected) {
        if (Double.isInfinite(expected)) {
            assertThat(actual).isEqualTo(expected);
        } else {
            assertThat(actual).isCloseTo(expected, within(EPS * (1 + Math.abs(expected))));
        }
    }

    @Property(tries = 2000, shrinking = ShrinkingMode.OFF)
    void slopesAndRoom(@ForAll("histories") List<List<Check>> segments) {
        Programme programme = new Programme(segments);
        FeasibleLines lines = FeasibleLines.through(segments);
        List<LinearConstraint> constraints = programme.constraints(false);
        double least = extreme(programme.unit(0), constraints, GoalType.MINIMIZE);
        Statistics.collect(!lines.exist() ? "no line" : lines.haveRoom() ? "room" : "edge");
        assertThat(lines.exist()).isEqualTo(!Double.isNaN(least));
        if (lines.exist()) {
            same(orElse(lines.leastSlope(), Double.NEGATIVE_INFINITY), least);
            same(
                    orElse(lines.greatestSlope(), Double.POSITIVE_INFINITY),
                    extreme(programme.unit(0), constraints, GoalType.MAXIMIZE));
            double margin =
                    extreme(programme.unit(programme.variables() - 1), programme.constraints(true), GoalType.MAXIMIZE);
            assertThat(lines.haveRoom()).isEqualTo(margin > EPS);
        } else {
            assertThat(lines.haveRoom()).isFalse();
            assertThat(lines.leastSlope()).isEmpty();
            assertThat(lines.greatestSlope()).isEmpty();
        }
    }

    @Property(tries = 2000, shrinking = ShrinkingMode.OFF)
    void heights(@ForAll("histories") List<List<Check>> segments, @ForAll @IntRange(min = -5, max = 30) int usage) {
        Programme programme = new Programme(segments);
        FeasibleLines lines = FeasibleLines.through(segments);
        Ratio at = Ratio.of(usage, 2);
        if (!lines.exist()) {
            assertThat(lines.lowestAt(at)).isEmpty();
            assertThat(lines.highestAt(at)).isEmpty();
            return;
        }
        double[] height = programme.lastHeight(usage / 2.0);
        List<LinearConstraint> constraints = programme.constraints(false);
        same(orElse(lines.lowestAt(at), Double.NEGATIVE_INFINITY), extreme(height, constraints, GoalType.MINIMIZE));
        same(orElse(lines.highestAt(at), Double.POSITIVE_INFINITY), extreme(height, constraints, GoalType.MAXIMIZE));
    }

    /**
     * Some line is inside at a usage before the latest crossing and none after it; none has left before the earliest and
     * some have after it. Whether, is asked of linear programmes a little before and a little after.
     */
    @Property(tries = 3000, shrinking = ShrinkingMode.OFF)
    void crossings(
            @ForAll("histories") List<List<Check>> segments,
            @ForAll @IntRange(min = 10, max = 13) int now,
            @ForAll @IntRange(min = -50, max = 50) int low,
            @ForAll @IntRange(min = 0, max = 60) int width) {
        int high = low + width;
        Optional<Crossings> found = FeasibleLines.through(segments)
                .crossings(Length.ofNanometres(low), Length.ofNanometres(high), Ratio.of(now, 1));
        Programme programme = new Programme(segments);
        List<LinearConstraint> all = programme.constraints(false);
        if (found.isEmpty()) {
            assertThat(extreme(programme.lastHeight(now), all, GoalType.MINIMIZE))
                    .isNaN();
            return;
        }
        Crossings crossings = found.get();
        LinearConstraint nowAbove = new LinearConstraint(programme.lastHeight(now), Relationship.GEQ, low);
        LinearConstraint nowBelow = new LinearConstraint(programme.lastHeight(now), Relationship.LEQ, high);

        DoublePredicate noneBelow = u -> extreme(programme.lastHeight(u), all, GoalType.MINIMIZE) >= low - EPS;
        DoublePredicate noneAbove = u -> extreme(programme.lastHeight(u), all, GoalType.MAXIMIZE) <= high + EPS;
        DoublePredicate someNotBelow =
                u -> extreme(programme.lastHeight(u), with(all, nowAbove), GoalType.MAXIMIZE) >= low - EPS;
        DoublePredicate someNotAbove =
                u -> extreme(programme.lastHeight(u), with(all, nowBelow), GoalType.MINIMIZE) <= high + EPS;
        DoublePredicate someInside = u -> !Double.isNaN(extreme(
                programme.lastHeight(u),
                with(
                        all,
                        nowAbove,
                        nowBelow,
                        new LinearConstraint(programme.lastHeight(u), Relationship.GEQ, low - EPS),
                        new LinearConstraint(programme.lastHeight(u), Relationship.LEQ, high + EPS)),
                GoalType.MINIMIZE));

        holdsUntil(crossings.earliestBelow(), now, noneBelow);
        holdsUntil(crossings.earliestAbove(), now, noneAbove);
        holdsUntil(crossings.earliest(), now, u -> noneBelow.test(u) && noneAbove.test(u));
        holdsUntil(crossings.latestBelow(), now, someNotBelow);
        holdsUntil(crossings.latestAbove(), now, someNotAbove);
        holdsUntil(crossings.latest(), now, someInside);
        Statistics.label("latest").collect(kind(crossings.latest()));
        Statistics.label("earliest").collect(kind(crossings.earliest()));
    }

    private static String kind(Crossing crossing) {
        return crossing.usage().isPresent() ? "at" : crossing.toString();
    }

    private static List<LinearConstraint> with(List<LinearConstraint> all, LinearConstraint... more) {
        List<LinearConstraint> list = new ArrayList<>(all);
        list.addAll(List.of(more));
        return list;
    }

    private static void holdsUntil(Crossing crossing, int now, DoublePredicate holds) {
        if (crossing instanceof Crossing.AlreadyLeft) {
            assertThat(holds.test(now)).as("now, already left").isFalse();
        } else if (crossing instanceof Crossing.Never) {
            assertThat(holds.test(now)).as("now, never").isTrue();
            assertThat(holds.test(now + FAR)).as("far off, never").isTrue();
        } else {
            double usage = value(crossing.usage().orElseThrow());
            assertThat(usage).isGreaterThanOrEqualTo(now);
            assertThat(holds.test(now)).as("now, before %s", usage).isTrue();
            assertThat(holds.test(usage)).as("at %s", usage).isTrue();
            assertThat(holds.test(usage + 0.01)).as("after %s", usage).isFalse();
        }
    }
}
