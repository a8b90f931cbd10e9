package dev.lash.examples.sim;

import dev.lash.trend.CheckBy;
import org.apache.commons.math3.distribution.BetaDistribution;

/** How often an engine had left its windows by the time it was told to come back. Used by one thread. */
final class Tally {
    private static final double CONFIDENCE = 0.99;

    private int used;
    private int left;
    private int now;
    private int unlimited;
    private int unanswered;

    /** Counts an answer; whether it came true counts only where the answer is a time ahead. */
    void add(CheckBy answer, SimulatedEngine engine) {
        switch (answer.reason()) {
            case NOW -> now++;
            case NO_LIMIT, MAKERS_INTERVAL -> unlimited++;
            case VALVE -> {
                used++;
                if (engine.hasLeft(answer.usage())) {
                    left++;
                }
            }
        }
    }

    /** Counts an engine for which the method has no answer. */
    void addUnanswered() {
        unanswered++;
    }

    /** Engines told to come back at some time ahead. */
    int used() {
        return used;
    }

    /** Those that had left by then. */
    int left() {
        return left;
    }

    /** Engines past the risk now. */
    int now() {
        return now;
    }

    /** Engines for which nothing sets a limit. */
    int unlimited() {
        return unlimited;
    }

    /** Engines without an answer. */
    int unanswered() {
        return unanswered;
    }

    /** Adds what another counted. */
    void add(Tally other) {
        used += other.used;
        left += other.left;
        now += other.now;
        unlimited += other.unlimited;
        unanswered += other.unanswered;
    }

    double share() {
        return (double) left / used;
    }

    /** The exact 99 % interval of the share, by Clopper and Pearson (1934): lower and upper end. */
    double[] interval() {
        if (used == 0) {
            return new double[] {0, 1};
        }
        double tail = (1 - CONFIDENCE) / 2;
        return new double[] {
            left == 0 ? 0 : new BetaDistribution(left, used - left + 1.0).inverseCumulativeProbability(tail),
            left == used ? 1 : new BetaDistribution(left + 1.0, used - left).inverseCumulativeProbability(1 - tail)
        };
    }
}
