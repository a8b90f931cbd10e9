package dev.lash.trend;

import java.util.ArrayList;
import java.util.List;

/**
 * What a reading of one gap will be: the levels of all its lines, gathered on a fine grid for each scatter, and that scatter about
 * them.
 */
final class ReadingLaw {
    /** Cells for one scatter: so fine that a level moved to a node beside it is not seen under the scatter. */
    private static final int CELLS = 6;

    private static final int MOST = 4096;
    private static final double REACH = 6;

    private final double low;
    private final double high;
    private final List<Levels> all = new ArrayList<>();
    private final NormalTable table = NormalTable.SHARED;
    private double total;

    /** The levels that go with one scatter. */
    private static final class Levels {
        final double scatter;
        final double step;
        final double[] share;

        Levels(double scatter, double width) {
            int cells = (int) Math.max(1, Math.min(MOST, Math.ceil(CELLS * width / scatter)));
            this.scatter = scatter;
            this.step = width / cells;
            this.share = new double[cells + 2];
        }

        /** Divides a share between the nodes beside its place. */
        void add(double at, double part) {
            int i = (int) (at / step);
            double right = at / step - i;
            share[i] += part * (1 - right);
            share[i + 1] += part * right;
        }
    }

    /** For levels within a range. */
    ReadingLaw(double[] range) {
        this.low = range[0];
        this.high = range[1];
    }

    /** Adds the lines of one drift; those of a scatter come one after the other. */
    void add(LineGrid grid, int drift, double scatter, double share) {
        if (all.isEmpty() || all.get(all.size() - 1).scatter != scatter) {
            all.add(new Levels(scatter, high - low));
        }
        Levels levels = all.get(all.size() - 1);
        LevelGrid level = grid.level(drift);
        double scale = share / level.sum();
        for (int k = 0; k < level.density.length; k++) {
            double part = scale * level.density[k];
            if (part > 0) {
                levels.add(level.first + k * level.step - low, part);
                total += part;
            }
        }
    }

    /** The probability of a reading up to a level. */
    double upTo(double level) {
        double sum = 0;
        for (Levels levels : all) {
            double reach = REACH * levels.scatter;
            int all = levels.share.length;
            int from = (int) Math.max(0, Math.min(all, Math.floor((level - low - reach) / levels.step)));
            int to = (int) Math.max(0, Math.min(all, Math.ceil((level - low + reach) / levels.step)));
            for (int i = 0; i < from; i++) {
                sum += levels.share[i];
            }
            for (int i = from; i < to; i++) {
                sum += levels.share[i] * table.upTo((level - low - i * levels.step) / levels.scatter);
            }
        }
        return Math.min(1, sum / total);
    }
}
