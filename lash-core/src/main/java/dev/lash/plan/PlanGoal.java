package dev.lash.plan;

import static java.util.Objects.requireNonNull;

import dev.lash.engine.ClearanceWindow;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.RejectedValueException;
import java.io.Serializable;

/** When to stop offering leaves. A closed choice. */
public sealed interface PlanGoal extends Serializable {
    /**
     * Stop as soon as the verdict is certain.
     *
     * @param window the window to judge against
     * @return the goal
     */
    static PlanGoal verdict(ClearanceWindow window) {
        return new OfVerdict(window);
    }

    /** {@return the goal to stop when no leaf can narrow the bracket further} */
    static PlanGoal size() {
        return new OfSize();
    }

    /**
     * Stop when the bracket is no wider than a length.
     *
     * @param most the length, 0 or more
     * @return the goal
     * @throws RejectedValueException if the length is negative
     */
    static PlanGoal width(Length most) {
        return new OfWidth(most);
    }

    /**
     * Whether an interval of clearances reaches the goal by itself, whatever leaves there are.
     *
     * @param clearances the interval
     * @return whether it does; never for the goal of size, which depends on the leaves
     */
    boolean isReachedBy(LengthInterval clearances);

    /**
     * What reaching the goal, or not, means for an interval, in a few words.
     *
     * @param clearances the interval
     * @param unit the unit of lengths
     * @return the words
     */
    String describe(LengthInterval clearances, LengthUnit unit);

    /**
     * The verdict is certain.
     *
     * @param window the window to judge against
     */
    record OfVerdict(ClearanceWindow window) implements PlanGoal {
        /**
         * Creates the goal.
         *
         * @param window the window to judge against
         */
        public OfVerdict {
            requireNonNull(window, "window");
        }

        @Override
        public boolean isReachedBy(LengthInterval clearances) {
            return Verdict.of(clearances, window) != Verdict.UNDECIDED;
        }

        @Override
        public String describe(LengthInterval clearances, LengthUnit unit) {
            return Verdict.of(clearances, window) + ", " + clearances.toString(unit);
        }
    }

    /** No leaf can narrow the bracket further. */
    record OfSize() implements PlanGoal {
        @Override
        public boolean isReachedBy(LengthInterval clearances) {
            return clearances.isPoint();
        }

        @Override
        public String describe(LengthInterval clearances, LengthUnit unit) {
            return clearances.toString(unit);
        }
    }

    /**
     * The bracket is no wider than a length.
     *
     * @param most the length
     */
    record OfWidth(Length most) implements PlanGoal {
        /**
         * Creates the goal.
         *
         * @param most the length, 0 or more
         * @throws RejectedValueException if the length is negative
         */
        public OfWidth {
            if (requireNonNull(most, "most").signum() < 0) {
                throw new RejectedValueException(
                        "width",
                        most.toString(),
                        "is negative",
                        "0 mm or more",
                        "give the widest bracket that will do");
            }
        }

        @Override
        public boolean isReachedBy(LengthInterval clearances) {
            return clearances.width().filter(w -> !w.isMoreThan(most)).isPresent();
        }

        @Override
        public String describe(LengthInterval clearances, LengthUnit unit) {
            return clearances.toString(unit);
        }
    }
}
