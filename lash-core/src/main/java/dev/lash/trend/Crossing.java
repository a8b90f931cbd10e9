package dev.lash.trend;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Ratio;
import java.io.Serializable;
import java.util.Optional;

/**
 * When a line leaves a window, seen from now on. A closed choice; {@link Cases} has one function per case. In order: already
 * left, at a usage, never.
 */
public sealed interface Crossing extends Comparable<Crossing>, Serializable {
    /**
     * Calls the function of this case.
     *
     * @param cases one function per case
     * @param <R> what the functions return
     * @return what the function of this case returned
     */
    <R> R match(Cases<R> cases);

    /**
     * One function per case.
     *
     * @param <R> what the functions return
     */
    interface Cases<R> {
        /**
         * For a line that is outside now.
         *
         * @return the result
         */
        R alreadyLeft();

        /**
         * For a line that leaves at a usage.
         *
         * @param usage the usage
         * @return the result
         */
        R at(Ratio usage);

        /**
         * For a line that stays inside for ever.
         *
         * @return the result
         */
        R never();
    }

    /** {@return the usage at which the line leaves; empty when it has left already or never will} */
    default Optional<Ratio> usage() {
        return this instanceof At at ? Optional.of(at.at()) : Optional.empty();
    }

    @Override
    default int compareTo(Crossing other) {
        if (this instanceof At a && other instanceof At b) {
            return a.at().compareTo(b.at());
        }
        return Integer.compare(rank(this), rank(other));
    }

    private static int rank(Crossing crossing) {
        return crossing.match(new Cases<Integer>() {
            @Override
            public Integer alreadyLeft() {
                return 0;
            }

            @Override
            public Integer at(Ratio usage) {
                return 1;
            }

            @Override
            public Integer never() {
                return 2;
            }
        });
    }

    /** The line is outside the window now. */
    record AlreadyLeft() implements Crossing {
        @Override
        public <R> R match(Cases<R> cases) {
            return cases.alreadyLeft();
        }

        @Override
        public String toString() {
            return "already left";
        }
    }

    /**
     * The line is on the edge of the window at a usage, not before now, and outside beyond it.
     *
     * @param at the usage, in the unit of the checks
     */
    record At(Ratio at) implements Crossing {
        /**
         * Checks the part.
         *
         * @param at the usage
         */
        public At {
            requireNonNull(at, "at");
        }

        @Override
        public <R> R match(Cases<R> cases) {
            return cases.at(at);
        }

        @Override
        public String toString() {
            return "at " + at;
        }
    }

    /** The line stays inside the window. */
    record Never() implements Crossing {
        @Override
        public <R> R match(Cases<R> cases) {
            return cases.never();
        }

        @Override
        public String toString() {
            return "never";
        }
    }
}
