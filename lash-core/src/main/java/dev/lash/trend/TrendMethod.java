package dev.lash.trend;

/** How a trend is drawn from readings that are intervals. */
public enum TrendMethod {
    /** The line, scatter and uncertainty that make the readings most likely; needs many readings that no line threads exactly. */
    MAXIMUM_LIKELIHOOD("maximum-likelihood"),
    /** All straight lines through every reading; assumes straight wear without any scatter. */
    FEASIBLE_LINES("feasible-lines"),
    /** Readings and a prior together, valves of a role learning from each other. */
    WITH_PRIORS("with-priors"),
    /**
     * The prior alone. In a trend: nothing was read of this valve, though its neighbours may say something. Asked for: no reading
     * counts, whatever was read.
     */
    PRIOR_ONLY("prior-only");

    private final String word;

    TrendMethod(String word) {
        this.word = word;
    }

    /** {@return the name in documents, such as {@code "with-priors"}} */
    public String word() {
        return word;
    }
}
