package dev.lash.check;

import static java.util.stream.Collectors.joining;

import dev.lash.check.Histories.Step;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.WearPrior;
import dev.lash.gauge.Bracket;
import dev.lash.measure.Length;
import dev.lash.measure.LengthDistribution;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Usage;
import dev.lash.trend.ClearanceHistory;
import dev.lash.trend.EngineTrend;
import dev.lash.trend.TrendTask;
import dev.lash.trend.ValveTrend;
import dev.lash.trend.WearTrendFitter;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * Signs in the course of the clearances: each step from one reading to the next, today's and those long past, against what was read
 * before it; each valve against its neighbours; and what moves the wrong way. What they point to is common practice, the figures
 * that part a sign from ordinary wear are the library's own choice.
 */
final class WearSigns {
    /** How unlikely a reading is before it is a sign, shared among all the steps of a gap. The library's own choice. */
    private static final double UNLIKELY = 0.003;

    /** How many deviations of what is assumed of wear a drift lies off before it is a doubt. The library's own choice. */
    private static final double FAR = 3;

    /**
     * How many deviations a drift lies off its neighbours', of the error of both and of how much valves of a role differ anyway. More
     * than {@link #FAR}, since how much they differ is itself not known well. The library's own choice.
     */
    private static final double FAR_APART = 3.5;

    /** How many millimetres per unit of the prior a drift lies off its neighbours' at the least. The library's own choice. */
    private static final double LEAST_DIFFERENCE = 0.01;

    private static final String FAST_CAUSES =
            "look for seat recession, dirt past the air filter and a stretched stem before the machine is ridden";

    private final Histories histories;
    private final EngineForecast forecast;
    private final LengthUnit unit;
    private final Usage now;
    private final String otherCauses;
    private final boolean hasLockNut;
    private final Map<String, List<LengthDistribution>> expected = new HashMap<>();
    private final List<Finding> findings = new ArrayList<>();

    WearSigns(CheckSheet sheet, List<ValveCheck> checks, Histories histories, EngineForecast forecast) {
        this.histories = histories;
        this.forecast = forecast;
        this.unit = sheet.gauges().unit();
        this.now = sheet.usage().orElseThrow();
        this.otherCauses = "look for wear of " + worn(sheet.engine().train());
        this.hasLockNut = sheet.engine().train() instanceof ValveTrain.Screw;
        forecast.trend().valves().forEach(trend -> gap(trend, checks));
    }

    List<Finding> findings() {
        return List.copyOf(findings);
    }

    private void gap(ValveTrend trend, List<ValveCheck> checks) {
        ClearanceHistory history = trend.task().history();
        List<Step> steps = histories.steps(history.valve(), history.gap());
        steps.stream().filter(histories::isJump).forEach(this::jump);
        boolean today = checks.stream()
                .filter(c -> c.reading().valve().equals(history.valve())
                        && c.reading().gap() == history.gap())
                .anyMatch(c -> today(c, steps));
        List<Step> unusual = steps.stream()
                .filter(step -> !(today && step.ends(now)))
                .filter(step -> !histories.isJump(step) && isUnusual(step, steps))
                .toList();
        moved(history, unusual.stream().filter(s -> grown(s) > 0).toList());
        moved(history, unusual.stream().filter(s -> grown(s) < 0).toList());
        if (!today && unusual.isEmpty() && !neighbours(trend)) {
            against(trend);
        }
    }

    private void add(FindingCode code, ClearanceHistory of, String problem, String value, String usual, String mend) {
        findings.add(new Finding(code, ValveReading.name(of.valve(), of.gap()), problem, value, usual, mend));
    }

    private static int grown(Step step) {
        return step.moved().map(Length::signum).orElse(0);
    }

    /** What between cam and valve wears so that the clearance grows. */
    private static String worn(ValveTrain train) {
        if (train instanceof ValveTrain.Shim shim) {
            return shim.place() == ValveTrain.ShimPlace.FOLLOWER ? "cam, follower or shim" : "cam, bucket or shim";
        }
        if (train instanceof ValveTrain.Desmodromic) {
            return "cam, rocker or shim";
        }
        return train instanceof ValveTrain.Screw screw && screw.place() == ValveTrain.ScrewPlace.TAPPET
                ? "cam, tappet or adjuster"
                : "cam, rocker or adjuster";
    }

    /** What to look for where a gap grew, or fell: an opener closes up as valve and seat wear, a closer opens up. */
    private String causes(Gap gap, boolean grew) {
        return grew == (gap == Gap.CLOSER) ? FAST_CAUSES : otherCauses;
    }

    private void jump(Step step) {
        String least = step.moved().orElseThrow().abs().toString(unit);
        String verb = grown(step) > 0 ? "grew" : "fell";
        if (step.isAtOnce()) {
            add(
                    FindingCode.RECORD_MISSING,
                    step.of(),
                    "at " + step.after().usage() + " clearance and shim together " + verb + " by more than " + least
                            + " while only the shim was swapped",
                    least,
                    "a clearance that follows the shim",
                    "compare the recorded shim sizes with the shims");
        } else {
            add(
                    FindingCode.RECORD_MISSING,
                    step.of(),
                    "the clearance " + verb + " by more than " + least + " from "
                            + step.before().usage() + " to " + step.after().usage()
                            + ", and no adjustment is recorded",
                    least,
                    "a clearance that " + (grown(step) > 0 ? "closes" : "opens")
                            + " up slowly, or a recorded adjustment",
                    "ask who worked on it and enter the adjustment; if nobody did, " + otherCauses);
        }
    }

    /** Whether today's reading is unlikely by all that was read before. */
    private boolean today(ValveCheck check, List<Step> steps) {
        Optional<LengthInterval> read =
                check.judgement().flatMap(j -> check.bracket()).map(Bracket::interval);
        Optional<LengthDistribution> law = forecast.expected(check.reading());
        return read.isPresent() && law.isPresent() && today(check.reading(), read.get(), law.get(), steps);
    }

    private boolean today(ValveReading reading, LengthInterval read, LengthDistribution law, List<Step> steps) {
        // what was expected is a clearance with the shim before: with another one in, the shim explains it, or the step
        // tells
        if (steps.stream().anyMatch(step -> step.ends(now) && isOtherShim(step))) {
            return false;
        }
        boolean low = isLow(read, law, share(steps));
        if (!low && !isHigh(read, law, share(steps))) {
            return false;
        }
        String usual = quantile(law, 0.01) + " to " + quantile(law, 0.99);
        findings.add(new Finding(
                low ? FindingCode.CLOSED_UP_FAST : FindingCode.OPENED_UP,
                reading.name(),
                "reads " + read.toString(unit) + "; by the earlier checks of this engine " + usual
                        + " was to be expected (98 times in 100)",
                read.toString(unit),
                usual,
                causes(reading.gap(), !low)
                        + (low == (reading.gap() == Gap.CLOSER)
                                ? (hasLockNut ? ", a loose lock nut," : ",") + " or a missing record"
                                : "")));
        return true;
    }

    /** The steps of a gap that took use share what is let pass, so that a long history gives no more false signs. */
    private static double share(List<Step> steps) {
        long told = steps.stream()
                .filter(s -> !s.isAtOnce() && s.after().isInformative())
                .count();
        return UNLIKELY / Math.max(1, told);
    }

    private static boolean isLow(LengthInterval read, LengthDistribution law, double share) {
        return read.upper().map(law::probabilityUpTo).orElse(1.0) < share;
    }

    private static boolean isHigh(LengthInterval read, LengthDistribution law, double share) {
        return 1 - read.lower().map(law::probabilityUpTo).orElse(0.0) < share;
    }

    private String quantile(LengthDistribution of, double share) {
        long low = Length.ofMillimetres("-20").nanometres();
        long high = Length.ofMillimetres("20").nanometres();
        while (high - low > 1) {
            long middle = (low + high) / 2;
            if (of.probabilityUpTo(Length.ofNanometres(middle)) < share) {
                low = middle;
            } else {
                high = middle;
            }
        }
        // to a hundredth of a millimetre, or a thousandth of an inch: no reading is finer
        long grain = unit.isInch() ? 25_400 : 10_000;
        return Length.ofNanometres(Math.round((double) high / grain) * grain).toString(unit);
    }

    /** Whether a gap moved for certain further than readings scatter, and more than wear does or than was read before lets expect. */
    private boolean isUnusual(Step step, List<Step> steps) {
        boolean sure = step.moved()
                .filter(by -> by.abs().isMoreThan(histories.leastSure()))
                .isPresent();
        return sure && !step.isAtOnce() && (histories.isBeyondWear(step) || isUnlikely(step, share(steps)));
    }

    private static boolean isOtherShim(Step step) {
        return !step.before().offset().equals(step.after().offset());
    }

    /** Whether a past reading was unlikely by all that had been read before it, of this valve and the others. */
    private boolean isUnlikely(Step step, double share) {
        if (step.ends(now) || isOtherShim(step)) {
            // today's has been judged; an expected clearance is one with the shim before
            return false;
        }
        Usage then = step.after().usage();
        List<TrendTask> before = histories.tasksBefore(then);
        List<LengthDistribution> laws = expected.computeIfAbsent(
                then.toString(), u -> WearTrendFitter.withDefaults().expectedReadings(before, histories.prior(), then));
        for (int i = 0; i < before.size(); i++) {
            ClearanceHistory history = before.get(i).history();
            if (history.valve().equals(step.of().valve())
                    && history.gap() == step.of().gap()) {
                LengthInterval read = step.after().clearance();
                return grown(step) > 0 ? isHigh(read, laws.get(i), share) : isLow(read, laws.get(i), share);
            }
        }
        return false;
    }

    private String amounts(List<Step> steps) {
        return steps.stream()
                .map(s -> "by more than " + s.moved().orElseThrow().abs().toString(unit) + " from "
                        + s.before().usage() + " to " + s.after().usage())
                .collect(joining(", "));
    }

    /** One finding for all steps of a gap that moved it the same way. */
    private void moved(ClearanceHistory of, List<Step> steps) {
        if (steps.isEmpty()) {
            return;
        }
        boolean grew = grown(steps.get(0)) > 0;
        Length most = steps.stream().map(s -> s.moved().orElseThrow().abs()).reduce(Length.ZERO, Length::max);
        add(
                grew ? FindingCode.OPENED_UP : FindingCode.CLOSED_UP_FAST,
                of,
                "the clearance " + (grew ? "grew " : "fell ") + amounts(steps)
                        + ", and no adjustment is recorded between; whether a record is missing or it "
                        + (grew ? "opened up" : "closed up") + " so fast, the readings cannot tell",
                most.toString(unit),
                "no more than wear explains, or a recorded adjustment",
                "ask who worked on it and enter the adjustment; if nobody did, " + causes(of.gap(), grew));
    }

    /** Whether the gap moves much faster, either way, than those of the other valves of its role. */
    private boolean neighbours(ValveTrend own) {
        ClearanceHistory history = own.task().history();
        List<ValveTrend> others = others(history, forecast.trend());
        if (history.checks() < 2 || others.isEmpty()) {
            return false;
        }
        double drift = own.trend().drift();
        double mean =
                others.stream().mapToDouble(v -> v.trend().drift()).average().orElseThrow();
        double error = Math.sqrt(others.stream()
                        .mapToDouble(v -> v.trend().driftError() * v.trend().driftError())
                        .sum())
                / others.size();
        double off = Math.abs(drift - mean);
        double apart = inMillimetres(histories.prior().spread()) * Math.sqrt(1 + 1.0 / others.size());
        // of two that differ it is the faster one that is looked at
        if (Math.abs(drift) <= Math.abs(mean)
                || off <= LEAST_DIFFERENCE
                || off
                        <= FAR_APART
                                * Math.hypot(
                                        apart, Math.hypot(error, own.trend().driftError()))) {
            return false;
        }
        String per = " per " + own.trend().per();
        add(
                drift > 0 ? FindingCode.OPENED_UP : FindingCode.CLOSED_UP_FAST,
                history,
                "moves by " + millimetres(drift) + per + ", its neighbours by " + millimetres(mean) + per,
                millimetres(drift) + per,
                "about " + millimetres(mean) + per,
                causes(history.gap(), drift > 0));
        return true;
    }

    private static List<ValveTrend> others(ClearanceHistory history, EngineTrend trend) {
        return trend.valves().stream()
                .filter(v -> v.task().history().gap() == history.gap()
                        && v.task().history().valve().role() == history.valve().role()
                        && !v.task().history().valve().equals(history.valve())
                        && v.task().history().checks() >= 2)
                .toList();
    }

    /**
     * A gap that moves against wear from the first to the last reading of a segment, for certain and further than readings scatter.
     * It is a doubt where the drift is beyond what is assumed of wear, else a note: some valves do so.
     */
    private void against(ValveTrend trend) {
        ClearanceHistory history = trend.task().history();
        List<Step> whole = history.segments().stream()
                .map(s -> new Step(
                        history,
                        s.readings().get(0),
                        s.readings().get(s.readings().size() - 1)))
                .filter(s -> s.isAgainstWear() && !s.isAtOnce())
                .filter(s -> s.moved().orElseThrow().abs().isMoreThan(histories.leastSure()))
                .toList();
        if (whole.isEmpty()) {
            return;
        }
        boolean grew = grown(whole.get(0)) > 0;
        double drift = trend.trend().drift();
        WearPrior prior = histories.prior();
        double reach = FAR * Math.hypot(inMillimetres(prior.driftDeviation()), inMillimetres(prior.spread()));
        double usual = inMillimetres(prior.drift()) + (grew ? reach : -reach);
        boolean far = grew ? drift > usual : drift < usual;
        String per = " per " + prior.per();
        add(
                !far ? FindingCode.AGAINST_WEAR : grew ? FindingCode.OPENED_UP : FindingCode.CLOSED_UP_FAST,
                history,
                (grew ? "opens up " : "closes up ") + amounts(whole)
                        + ", with no adjustment between; wear of valve and seat "
                        + (grew ? "closes it up" : "opens it up"),
                millimetres(drift) + per,
                (grew ? "at most " : "at least ") + millimetres(usual) + per,
                otherCauses + (far ? "" : "; watch it at the next check"));
    }

    private static double inMillimetres(Length length) {
        return length.nanometres() / 1e6;
    }

    private static String millimetres(double value) {
        return String.format(Locale.ROOT, "%.3f mm", BigDecimal.valueOf(value));
    }
}
