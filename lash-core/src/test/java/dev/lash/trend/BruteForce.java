package dev.lash.trend;

import java.util.List;
import org.apache.commons.math3.distribution.NormalDistribution;

/**
 * The posterior of the wear model by sums over dense grids, written from the model alone: scatter, spread, drift of the family, drift
 * and level of each valve, each on a grid of its own over its whole prior. All valves are of one family. Slow and simple.
 */
final class BruteForce {
    private static final int HYPER = 17;
    private static final int DRIFTS = 361;
    private static final int FAMILY_STEP = 3;
    private static final int LEVELS = 541;
    private static final double REACH = 9;
    private static final NormalDistribution NORMAL = new NormalDistribution(null, 0, 1);

    /** A reading: usage in units of the prior, clearance in millimetres. */
    record Reading(double usage, double low, double high) {}

    /** A valve with the window it must stay in; the levels of its segments start about the middle of it. */
    record Valve(List<List<Reading>> segments, double low, double high) {}

    /** What is assumed; lengths in millimetres. */
    record Prior(double drift, double driftDeviation, double spread, double scatter, double factor) {}

    /** What comes out for each valve, and for all together. */
    static final class Answer {
        final double[] clearance;
        final double[] drift;
        final double[] driftSquared;
        final double[] stays;
        double scatter;
        double allStay;

        Answer(int valves) {
            clearance = new double[valves];
            drift = new double[valves];
            driftSquared = new double[valves];
            stays = new double[valves];
        }

        double deviation(int v) {
            return Math.sqrt(driftSquared[v] - drift[v] * drift[v]);
        }
    }

    private final List<Valve> valves;
    private final Prior prior;
    private final double now;
    private final double ahead;
    private final double lowest;
    private final double step;

    private BruteForce(List<Valve> valves, Prior prior, double now, double ahead) {
        this.valves = valves;
        this.prior = prior;
        this.now = now;
        this.ahead = ahead;
        double reach = 5 * Math.hypot(prior.driftDeviation, prior.spread * Math.pow(prior.factor, 2));
        this.lowest = prior.drift - reach;
        this.step = 2 * reach / (DRIFTS - 1);
    }

    static Answer of(List<Valve> valves, Prior prior, double now, double ahead) {
        return new BruteForce(valves, prior, now, ahead).answer();
    }

    /** Sums over the level, given drift and scatter: of the likelihood, of it where the line stays, and of it times the level now. */
    private static final class Sums {
        final double[] all = new double[DRIFTS];
        final double[] stays = new double[DRIFTS];
        final double[] level = new double[DRIFTS];
    }

    private Answer answer() {
        Answer answer = new Answer(valves.size());
        double total = 0;
        for (int i = 0; i < HYPER; i++) {
            double z = hyper(i);
            double s = prior.scatter * Math.pow(prior.factor, z);
            List<Sums> sums = valves.stream().map(v -> sums(v, s)).toList();
            for (int k = 0; k < HYPER; k++) {
                double y = hyper(k);
                double weight = share(i) * share(k);
                total += add(answer, sums, s, prior.spread * Math.pow(prior.factor, y), weight);
            }
        }
        for (int v = 0; v < valves.size(); v++) {
            answer.clearance[v] /= total;
            answer.drift[v] /= total;
            answer.driftSquared[v] /= total;
            answer.stays[v] /= total;
        }
        answer.scatter /= total;
        answer.allStay /= total;
        return answer;
    }

    /** In deviations of the prior; the model ends at three of them. */
    private static double hyper(int i) {
        return -3 + 6.0 * i / (HYPER - 1);
    }

    private static double share(int i) {
        return NORMAL.density(hyper(i)) * (i == 0 || i == HYPER - 1 ? 0.5 : 1);
    }

    private double drift(int j) {
        return lowest + j * step;
    }

    /** One scatter and one spread: over the drift of the family, then over that of each valve. */
    private double add(Answer answer, List<Sums> sums, double scatter, double spread, double weight) {
        double[] kernel = new double[DRIFTS];
        for (int i = 0; i < DRIFTS; i++) {
            kernel[i] = NORMAL.density(i * step / spread) / spread;
        }
        double sum = 0;
        for (int m = 0; m < DRIFTS; m += FAMILY_STEP) {
            double family = weight * NORMAL.density((drift(m) - prior.drift) / prior.driftDeviation);
            double[] all = new double[valves.size()];
            double[][] means = new double[valves.size()][4];
            for (int v = 0; v < valves.size(); v++) {
                for (int j = 0; j < DRIFTS; j++) {
                    double share = kernel[Math.abs(j - m)];
                    all[v] += share * sums.get(v).all[j];
                    means[v][0] += share * sums.get(v).stays[j];
                    means[v][1] += share * sums.get(v).level[j];
                    means[v][2] += share * sums.get(v).all[j] * drift(j);
                    means[v][3] += share * sums.get(v).all[j] * drift(j) * drift(j);
                }
            }
            double product = family;
            double stay = family;
            for (int v = 0; v < valves.size(); v++) {
                product *= all[v];
                stay *= means[v][0];
            }
            sum += product;
            answer.allStay += stay;
            answer.scatter += product * scatter;
            for (int v = 0; v < valves.size() && product > 0; v++) {
                answer.stays[v] += product * means[v][0] / all[v];
                answer.clearance[v] += product * means[v][1] / all[v];
                answer.drift[v] += product * means[v][2] / all[v];
                answer.driftSquared[v] += product * means[v][3] / all[v];
            }
        }
        return sum;
    }

    private Sums sums(Valve valve, double scatter) {
        Sums sums = new Sums();
        double middle = (valve.low + valve.high) / 2;
        double deviation = (valve.high - valve.low) / 2;
        for (int j = 0; j < DRIFTS; j++) {
            double before = 1;
            int last = valve.segments.size() - 1;
            for (int k = 0; k < last; k++) {
                before *= level(valve, valve.segments.get(k), drift(j), scatter, middle, deviation)[0];
            }
            List<Reading> open = last < 0 ? List.of() : valve.segments.get(last);
            double[] of = level(valve, open, drift(j), scatter, middle, deviation);
            sums.all[j] = before * of[0];
            sums.stays[j] = before * of[1];
            sums.level[j] = before * of[2];
        }
        return sums;
    }

    /** Over the level at the first reading of a segment. */
    private double[] level(
            Valve valve, List<Reading> segment, double drift, double scatter, double middle, double deviation) {
        double[] sums = new double[3];
        double start = segment.isEmpty() ? now : segment.get(0).usage;
        for (int k = 0; k < LEVELS; k++) {
            double z = -5 + 10.0 * k / (LEVELS - 1);
            double level = middle + z * deviation;
            double share = NORMAL.density(z);
            for (Reading reading : segment) {
                double mean = level + drift * (reading.usage - start);
                if (mean < reading.low - REACH * scatter || mean > reading.high + REACH * scatter) {
                    share = 0;
                    break;
                }
                share *= reading.low == reading.high
                        ? NORMAL.density((reading.low - mean) / scatter) / scatter
                        : between((reading.low - mean) / scatter, (reading.high - mean) / scatter);
            }
            double atNow = level + drift * (now - start);
            // how much of the cell about this node lies between where the line may be now
            double cell = 10 * deviation / (LEVELS - 1);
            double lowest = Math.max(valve.low, valve.low - drift * ahead);
            double highest = Math.min(valve.high, valve.high - drift * ahead);
            double inside = Math.min(highest, atNow + cell / 2) - Math.max(lowest, atNow - cell / 2);
            sums[0] += share;
            sums[1] += share * Math.max(0, inside) / cell;
            sums[2] += share * atNow;
        }
        return sums;
    }

    private static double between(double low, double high) {
        // on the left of the middle, where the difference keeps its digits
        return low > 0 ? between(-high, -low) : NORMAL.cumulativeProbability(high) - NORMAL.cumulativeProbability(low);
    }
}
