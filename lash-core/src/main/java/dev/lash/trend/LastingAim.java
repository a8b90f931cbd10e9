package dev.lash.trend;

import dev.lash.engine.ClearanceWindow;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;

/**
 * Where in a window to set a gap so that it stays there longest, and how long a clearance lasts. A gap may close up as fast as the
 * drift less {@value #SURE} of its standard errors, and open up as fast as the drift plus as many: nineteen in twenty drifts of a
 * normal distribution lie below, or above, such a bound. The best place divides the window as those two speeds. Where the drift is not
 * bounded, its error infinite, that is the middle, and no clearance is sure to last.
 */
public final class LastingAim {
    static final double SURE = 1.645;
    private static final double LEAST = 0.1;
    private static final double MOST = 0.9;

    private LastingAim() {}

    /**
     * The place in the window.
     *
     * @param trend the trend
     * @return a fraction, 0 the lower end of the window, 1 the upper; 0.1 to 0.9, since no setting is exact
     */
    public static Ratio of(WearTrend trend) {
        double closing = closing(trend);
        double opening = opening(trend);
        // a drift that is not bounded says nothing of the place: the middle
        double fraction =
                closing + opening == 0 || Double.isInfinite(closing + opening) ? 0.5 : closing / (closing + opening);
        return Ratio.of(Math.round(100 * Math.max(LEAST, Math.min(MOST, fraction))), 100);
    }

    /**
     * How long every clearance of an interval stays in the window.
     *
     * @param trend the trend
     * @param clearance the clearance
     * @param window the window
     * @return the usage, in units of the trend's; 0 where it may be outside now or lacks an end; infinite where nothing moves
     */
    public static double survival(WearTrend trend, LengthInterval clearance, ClearanceWindow window) {
        if (!clearance.isBounded()) {
            return 0;
        }
        Length low = clearance.lower().orElseThrow();
        Length high = clearance.upper().orElseThrow();
        double below = LineData.millimetres(low.minus(window.lower()));
        double above = LineData.millimetres(window.upper().minus(high));
        if (below < 0 || above < 0) {
            return 0;
        }
        return Math.min(time(below, closing(trend)), time(above, opening(trend)));
    }

    private static double time(double margin, double speed) {
        return speed == 0 ? Double.POSITIVE_INFINITY : margin / speed;
    }

    private static double closing(WearTrend trend) {
        return Math.max(0, SURE * trend.driftError() - trend.drift());
    }

    private static double opening(WearTrend trend) {
        return Math.max(0, SURE * trend.driftError() + trend.drift());
    }
}
