package dev.lash.trend;

import java.util.function.DoubleUnaryOperator;

/** What is thought of the line of one gap; usages ahead are counted from now in units of the prior, lengths in millimetres. */
interface LineLaw {
    /** The probability that the line lies in the window now and still does after so much use. */
    double stays(double ahead);

    /** The probability that the line lies below the window now or after so much use. */
    double isBelow(double ahead);

    /** For a clearance the probability that a reading made now is at most that. */
    DoubleUnaryOperator readingUpTo();

    /** A clearance below which a reading made now has next to no probability, and one above which it has none. */
    double[] readingRange();

    /** The clearance on the line now. */
    double clearance();

    double drift();

    double driftError();

    double scatter();
}
