package dev.lash.trend;

/** One gap's share of the posterior of an engine. */
final class PosteriorLaw implements LineLaw {
    private static final double REACH = 6;

    private final EnginePosterior posterior;
    private final int valve;
    private final LineData data;
    private final NormalTable table = new NormalTable();

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
        return posterior.mean(valve, (grid, j, s) -> {
            LevelGrid level = grid.level(j);
            double moved = grid.drift(j) * ahead;
            double mass = level.mass();
            return mass == 0 ? 0 : level.massUpTo(Math.max(data.windowLow, data.windowLow - moved)) / mass;
        });
    }

    @Override
    public double readingUpTo(double clearance) {
        double at = data.levelOf(clearance);
        return posterior.mean(valve, (grid, j, s) -> {
            LevelGrid level = grid.level(j);
            double mass = level.mass();
            return mass == 0 ? 0 : Math.min(1, level.integral(a -> table.upTo((at - a) / s)) / mass);
        });
    }

    @Override
    public double clearance() {
        return data.middle
                + posterior.mean(valve, (grid, j, s) -> {
                    LevelGrid level = grid.level(j);
                    double mass = level.mass();
                    return mass == 0 ? 0 : level.integral(a -> a) / mass;
                });
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
