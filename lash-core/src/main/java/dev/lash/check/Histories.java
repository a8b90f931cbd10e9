package dev.lash.check;

import dev.lash.adjust.InstalledShim;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.WearPrior;
import dev.lash.gauge.Bracket;
import dev.lash.gauge.Evidence;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import dev.lash.measure.Usage;
import dev.lash.trend.ClearanceHistory;
import dev.lash.trend.ClearanceHistory.Reading;
import dev.lash.trend.TrendTask;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** Turns the earlier checks of a sheet, and the sheet itself, into one history for each gap. */
final class Histories {
    /**
     * How many deviations of the drift, and how many of the scatter, wear may explain. The library's own choice: beyond both lies less
     * than one ordinary valve in a few hundred.
     */
    private static final int FAR = 3;

    private static final int SCATTERS = 5;

    private final CheckSheet sheet;
    private final List<ValveCheck> checks;
    private final List<PastVisit> visits;

    Histories(CheckSheet sheet, List<ValveCheck> checks) {
        this.sheet = sheet;
        this.checks = checks;
        this.visits = counted(sheet);
    }

    /** Earlier checks whose usage is known and counts what the sheet's counter counts, up to what it shows, in order of use. */
    private static List<PastVisit> counted(CheckSheet sheet) {
        Optional<Usage> now = sheet.usage();
        return sheet.history().stream()
                .filter(v -> v.findUsage()
                        .filter(u -> now.isPresent() && u.isSameKind(now.get()) && u.compareAmount(now.get()) <= 0)
                        .isPresent())
                .sorted(Comparator.<PastVisit, Usage>comparing(
                                v -> v.findUsage().orElseThrow(), Usage::compareAmount)
                        .thenComparing(PastVisit::date, Comparator.<LocalDate>naturalOrder()))
                .toList();
    }

    /** Whether there is anything to draw a trend from. */
    boolean isWorthwhile() {
        return sheet.usage().isPresent()
                && !visits.isEmpty()
                && tasks(false).stream().anyMatch(task -> task.history().checks() > 0);
    }

    /**
     * Two readings of a segment, one after the other.
     *
     * @param of whose they are
     * @param before the earlier one
     * @param after the later one
     */
    record Step(ClearanceHistory of, Reading before, Reading after) {
        /** How far the clearance moved for certain, positive as it grew; empty where it may have stayed. */
        Optional<Length> moved() {
            // while the same shim is in, its size does not come in
            boolean sameShim = !isAtOnce() && before.offset().equals(after.offset());
            LengthInterval was = sameShim ? before.clearance() : before.level();
            LengthInterval is = sameShim ? after.clearance() : after.level();
            LengthInterval change = is.plus(was.negated());
            return change.lower()
                    .filter(low -> low.signum() > 0)
                    .or(() -> change.upper().filter(high -> high.signum() < 0));
        }

        /** Whether both are of one check, before and after a swap of shims of known size. */
        boolean isAtOnce() {
            return before.usage().compareAmount(after.usage()) == 0;
        }

        /** Whether it moved the way that wear of valve and seat does not move it: an opener's gap opened, a closer's closed up. */
        boolean isAgainstWear() {
            return moved().filter(by -> (by.signum() > 0) != (of.gap() == Gap.CLOSER))
                    .isPresent();
        }

        boolean ends(Usage usage) {
            return after.usage().compareAmount(usage) == 0;
        }
    }

    /** Every step of a gap between two readings, today's included. */
    List<Step> steps(ValveId valve, Gap gap) {
        ClearanceHistory whole = story(valve, gap, visits, true);
        List<Step> steps = new ArrayList<>();
        for (ClearanceHistory.Segment segment : whole.segments()) {
            for (int i = 1; i < segment.readings().size(); i++) {
                steps.add(new Step(
                        whole, segment.readings().get(i - 1), segment.readings().get(i)));
            }
        }
        return steps;
    }

    /** Whether a step is more than wear and scatter explain, by what is thought of them beforehand. */
    boolean isBeyondWear(Step step) {
        WearPrior prior = prior();
        Ratio use = step.after()
                .usage()
                .dividedBy(prior.per())
                .minus(step.before().usage().dividedBy(prior.per()));
        Length wear = use.times(Ratio.nanometresOf(
                        prior.drift().abs().plus(prior.driftDeviation().times(FAR))))
                .ceilingNanometres();
        return step.moved()
                .filter(by -> by.abs().isMoreThan(wear.plus(leastSure())))
                .isPresent();
    }

    /** Less than this is no sign whatever was expected: it may be the scatter of two readings. */
    Length leastSure() {
        return prior().scatter().times(SCATTERS);
    }

    WearPrior prior() {
        return EngineForecast.prior(sheet, sheet.usage().orElseThrow());
    }

    /** A jump that no wear explains, with no adjustment recorded; a fast fall, which may be wear, is none. */
    boolean isJump(Step step) {
        return (step.isAtOnce() || step.isAgainstWear()) && isBeyondWear(step);
    }

    /** The shim that the last check left in. */
    Optional<InstalledShim> lastShim(ValveId valve, Gap gap) {
        InstalledShim last = null;
        for (PastVisit visit : visits) {
            for (PastVisit.PastReading reading : visit.valves()) {
                if (reading.valve().equals(valve) && reading.gap() == gap) {
                    last = reading.shim();
                }
            }
        }
        return Optional.ofNullable(last);
    }

    List<PastVisit> visits() {
        return visits;
    }

    /** A task for each gap of the engine that has a window, with or without today's reading. */
    List<TrendTask> tasks(boolean today) {
        return tasks(visits, today);
    }

    /** A task for each gap from the checks before the counter showed so much. */
    List<TrendTask> tasksBefore(Usage usage) {
        return tasks(
                visits.stream()
                        .filter(v -> v.findUsage().orElseThrow().compareAmount(usage) < 0)
                        .toList(),
                false);
    }

    private List<TrendTask> tasks(List<PastVisit> of, boolean today) {
        return sheet.engine().valves().stream()
                .flatMap(valve -> sheet.engine().gaps().stream()
                        .flatMap(gap ->
                                clearance(valve, gap)
                                        .map(c -> new TrendTask(history(valve, gap, of, today), c))
                                        .stream()))
                .toList();
    }

    private Optional<ClearanceSpec> clearance(ValveId valve, Gap gap) {
        return sheet.engine().train() instanceof ValveTrain.Hydraulic
                ? Optional.empty()
                : sheet.engine().findClearance(valve.role(), gap);
    }

    /** What was read of a gap; a jump that no wear explains starts a new segment as an adjustment does. */
    private ClearanceHistory history(ValveId valve, Gap gap, List<PastVisit> of, boolean today) {
        ClearanceHistory whole = story(valve, gap, of, today);
        List<ClearanceHistory.Segment> cut = new ArrayList<>();
        for (ClearanceHistory.Segment segment : whole.segments()) {
            List<Reading> open = new ArrayList<>();
            for (Reading reading : segment.readings()) {
                if (!open.isEmpty() && isJump(new Step(whole, open.get(open.size() - 1), reading))) {
                    cut.add(new ClearanceHistory.Segment(open));
                    open.clear();
                }
                open.add(reading);
            }
            cut.add(new ClearanceHistory.Segment(open));
        }
        return new ClearanceHistory(valve, gap, cut);
    }

    private ClearanceHistory story(ValveId valve, Gap gap, List<PastVisit> of, boolean today) {
        Story story = new Story(
                ClearanceHistory.builder(valve, gap),
                sheet.engine().train().shimRatio().orElse(null));
        for (PastVisit visit : of) {
            Usage usage = visit.findUsage().orElseThrow();
            visit.valves().stream()
                    .filter(r -> r.valve().equals(valve) && r.gap() == gap)
                    .forEach(r -> {
                        boolean touched = !r.left().equals(r.found());
                        InstalledShim before = touched ? null : r.shim();
                        if (visit.breakIn()) {
                            // what moved until now says nothing of the drift from here on
                            story.brokenIn();
                        }
                        story.read(usage, r.found(), before);
                        if (touched) {
                            story.adjusted(usage, r.left(), r.shim());
                        }
                    });
        }
        if (today) {
            sheet.find(valve, gap).ifPresent(reading -> today(reading, story));
        }
        return story.builder.build();
    }

    private void today(ValveReading reading, Story story) {
        Usage usage = sheet.usage().orElseThrow();
        ValveCheck check = checks.stream()
                .filter(c -> c.reading().equals(reading))
                .findFirst()
                .orElseThrow();
        LengthInterval found = check.judgement()
                .flatMap(j -> check.bracket())
                .map(Bracket::interval)
                .orElse(LengthInterval.any());
        story.read(usage, found, reading.findShim().orElse(null));
        reading.findDone().ifPresent(done -> {
            LengthInterval left = check.recheck()
                    .flatMap(Evidence::bracket)
                    .map(Bracket::interval)
                    .orElse(LengthInterval.any());
            story.adjusted(
                    usage, left, done instanceof Done.Fitted fitted ? InstalledShim.measured(fitted.shim()) : null);
        });
    }

    /** A history as it is told. */
    private static final class Story {
        final ClearanceHistory.Builder builder;
        final @Nullable Ratio ratio;

        /** The sizes that the shim in place may have; {@code null} where none is known. */
        private @Nullable LengthInterval shim;

        Story(ClearanceHistory.Builder builder, @Nullable Ratio ratio) {
            this.builder = builder;
            this.ratio = ratio;
        }

        /** A reading, with the shim that was seen in place; {@code null} where nobody looked. */
        void read(Usage usage, LengthInterval found, @Nullable InstalledShim seen) {
            LengthInterval sizes = sizes(seen);
            if (sizes != null) {
                shim = sizes;
            }
            tellShim();
            builder.read(usage, found);
        }

        private void tellShim() {
            if (ratio != null && shim != null) {
                builder.shim(shim, ratio);
            }
        }

        void adjusted(Usage usage, LengthInterval left, @Nullable InstalledShim fitted) {
            LengthInterval sizes = sizes(fitted);
            if (ratio != null && sizes != null && shim != null) {
                builder.fitted(sizes, ratio);
            } else {
                builder.adjusted();
            }
            shim = sizes;
            read(usage, left, fitted);
        }

        private static @Nullable LengthInterval sizes(@Nullable InstalledShim shim) {
            return Optional.ofNullable(shim)
                    .flatMap(InstalledShim::possibleSizes)
                    .orElse(null);
        }

        void brokenIn() {
            builder.adjusted();
        }
    }
}
