package dev.lash.trend;

/** What is thought of the line of one gap; usages ahead are counted from now in units of the prior, lengths in millimetres. */
interface LineLaw {
    /** The probability that the line lies in the window now and still does after so much use. */
    double stays(double ahead);

    /** The probability that the line lies below the window now or after so much use. */
    double isBelow(double ahead);

    /** The probability that a reading made now is at most a clearance. */
    double readingUpTo(double clearance);

    /** The clearance on the line now. */
    double clearance();

    double drift();

    double driftError();

    double scatter();
}
