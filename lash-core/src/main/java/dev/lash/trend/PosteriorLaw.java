package dev.lash.trend;

import java.util.function.DoubleUnaryOperator;

/** One gap's share of the posterior of an engine. */
final class PosteriorLaw implements LineLaw {
    private static final double REACH = 6;

    private final EnginePosterior posterior;
    private final int valve;
    private final LineData data;

    PosteriorLaw(EnginePosterior posterior, int valve, LineData data) {
        this.posterior = posterior;
        this.valve = valve;
        this.data = data;
    }

    @Override
    public double stays(double ahead) {
        return posterior.stays(valve, ahead);
    }

    @Override
    public double isBelow(double ahead) {
        return posterior.mean(valve, (grid, j, s) -> grid.isBelow(j, ahead));
    }

    @Override
    public DoubleUnaryOperator readingUpTo() {
        ReadingLaw law = new ReadingLaw(range());
        posterior.each(valve, law::add);
        return clearance -> law.upTo(data.levelOf(clearance));
    }

    @Override
    public double[] readingRange() {
        double[] ends = range();
        return new double[] {ends[0] + data.middle, ends[1] + data.middle};
    }

    private double[] range() {
        double[] ends = {Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY};
        posterior.each(valve, (grid, j, s, share) -> {
            LevelGrid level = grid.level(j);
            ends[0] = Math.min(ends[0], level.first - REACH * s);
            ends[1] = Math.max(ends[1], level.last() + REACH * s);
        });
        return ends;
    }

    @Override
    public double clearance() {
        return data.middle + posterior.mean(valve, (grid, j, s) -> grid.level(j).mean());
    }

    @Override
    public double drift() {
        return posterior.mean(valve, (grid, j, s) -> grid.drift(j));
    }

    @Override
    public double driftError() {
        double mean = drift();
        return Math.sqrt(posterior.mean(valve, (grid, j, s) -> (grid.drift(j) - mean) * (grid.drift(j) - mean)));
    }

    @Override
    public double scatter() {
        return posterior.mean(valve, (grid, j, s) -> s);
    }
}
