package dev.lash.trend;

import org.apache.commons.numbers.gamma.Erf;
import org.apache.commons.numbers.gamma.Erfc;
import org.apache.commons.numbers.gamma.Erfcx;

/**
 * Logarithms of probabilities of the standard normal law, with their first and second derivatives, stable in both tails
 * and for brackets of any width. A scratch pad: each call overwrites the fields. Not thread-safe; one per fit.
 *
 * <p>A bracket is given by its middle m and width w, not by its ends: the difference of two close ends would lose the
 * very digits that count. Derivatives by w come multiplied by w (and by its square), so that the limit w = 0 is the
 * density itself. {@code Erf}, {@code Erfc} and {@code Erfcx} are those of Commons Numbers.
 */
final class NormalLaw {
    /** log(sqrt(2 pi)). */
    static final double LOG_ROOT_TWO_PI = 0.9189385332046728;

    private static final double ROOT_TWO = 1.4142135623730951;
    private static final double ROOT_TWO_OVER_PI = 0.7978845608028654;

    /** Below this value of w max(1, |m|) the series in w is exact to rounding; above it, differences lose one digit at most. */
    private static final double NARROW = 0.1;

    /** From here on the second derivative of the tail is -1 to 8 digits, and its formula loses more. */
    private static final double FAR = 1e4;

    /** From here on the logarithm is taken of what lies outside, which keeps its digits. */
    private static final double LIKELY = 0.9;

    /** The logarithm itself. */
    double log;

    /** Its derivative by m. */
    double dm;

    /** Its second derivative by m. */
    double dmm;

    /** w times its derivative by w. */
    double wdw;

    /** w times its derivative by m and w. */
    double wdmw;

    /** w squared times its second derivative by w. */
    double wwdww;

    /** log of the density at m; the derivatives by w are those of log(density x w). */
    void point(double m) {
        log = -0.5 * m * m - LOG_ROOT_TWO_PI;
        dm = -m;
        dmm = -1;
        wdw = 1;
        wdmw = 0;
        wwdww = -1;
    }

    /** log of the probability above m. */
    void above(double m) {
        wdw = 0;
        wdmw = 0;
        wwdww = 0;
        double hazard;
        if (m > 0) {
            double scaled = Erfcx.value(m / ROOT_TWO);
            log = -0.5 * m * m + Math.log(0.5 * scaled);
            hazard = ROOT_TWO_OVER_PI / scaled;
        } else {
            double below = 0.5 * Erfc.value(-m / ROOT_TWO);
            log = Math.log1p(-below);
            hazard = density(m) / (1 - below);
        }
        dm = -hazard;
        dmm = m > FAR ? -1 : Math.min(0, hazard * (m - hazard));
    }

    /** log of the probability below m. */
    void below(double m) {
        above(-m);
        dm = -dm;
    }

    /** log of the probability between m - w/2 and m + w/2, w positive. */
    void between(double m, double w) {
        double distance = Math.abs(m);
        if (w * Math.max(1, distance) < NARROW) {
            narrow(m, w);
            return;
        }
        wide(distance, w);
        if (m < 0) {
            dm = -dm;
            wdmw = -wdmw;
        }
    }

    /**
     * The mean of exp(-m t - t^2/2) over |t| < w/2 is the sum of He_k(m) (w/2)^k / (k+1)! over even k, by the generating
     * function of the Hermite polynomials He_k.
     */
    private void narrow(double m, double w) {
        double s = 0.25 * w * w;
        double mm = m * m;
        double t2 = (mm - 1) * s / 6;
        double t4 = (mm * (mm - 6) + 3) * s * s / 120;
        double t6 = (mm * (mm * (mm - 15) + 45) - 15) * s * s * s / 5040;
        double t2m = 2 * m * s / 6;
        double t4m = 4 * m * (mm - 3) * s * s / 120;
        double t6m = 6 * m * (mm * (mm - 10) + 15) * s * s * s / 5040;
        double q = t2 + t4 + t6;
        double size = 1 + q;
        double qm = (t2m + t4m + t6m) / size;
        double qmm = (2 * s / 6 + 12 * (mm - 1) * s * s / 120 + 30 * (mm * (mm - 6) + 3) * s * s * s / 5040) / size;
        double qw = (2 * t2 + 4 * t4 + 6 * t6) / size;
        double qmw = (2 * t2m + 4 * t4m + 6 * t6m) / size;
        double qww = (2 * t2 + 12 * t4 + 30 * t6) / size;
        log = -0.5 * mm - LOG_ROOT_TWO_PI + Math.log(w) + Math.log1p(q);
        dm = -m + qm;
        dmm = -1 + qmm - qm * qm;
        wdw = 1 + qw;
        wdmw = qmw - qm * qw;
        wwdww = -1 + qww - qw * qw;
    }

    /** For m at least 0. */
    private void wide(double m, double w) {
        double a = m - 0.5 * w;
        double b = m + 0.5 * w;
        // density at each end over the probability between
        double atA;
        double atB;
        if (a > 0) {
            double ratio = Math.exp(-m * w);
            double scaled = Erfcx.value(a / ROOT_TWO) - ratio * Erfcx.value(b / ROOT_TWO);
            log = -0.5 * a * a + Math.log(0.5 * scaled);
            atA = ROOT_TWO_OVER_PI / scaled;
            atB = atA * ratio;
        } else {
            double inside = 0.5 * (Erf.value(-a / ROOT_TWO) + Erf.value(b / ROOT_TWO));
            log = inside < LIKELY
                    ? Math.log(inside)
                    : Math.log1p(-0.5 * (Erfc.value(-a / ROOT_TWO) + Erfc.value(b / ROOT_TWO)));
            atA = density(a) / inside;
            atB = density(b) / inside;
        }
        double daa = atA * (a - atA);
        double dbb = -atB * (b + atB);
        double dab = atA * atB;
        dm = atB - atA;
        dmm = a > FAR && dab == 0 ? -1 : Math.min(0, daa + dbb + 2 * dab);
        wdw = 0.5 * w * (atA + atB);
        wdmw = 0.5 * w * (dbb - daa);
        wwdww = 0.25 * w * w * (daa + dbb - 2 * dab);
    }

    private static double density(double z) {
        return Math.exp(-0.5 * z * z - LOG_ROOT_TWO_PI);
    }
}
