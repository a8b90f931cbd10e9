package dev.lash.check;

import dev.lash.adjust.InstalledShim;
import dev.lash.engine.Gap;
import dev.lash.engine.ShimRange;
import dev.lash.gauge.Bracket;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthDistribution;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Usage;
import dev.lash.trend.EngineTrend;
import dev.lash.trend.ValveTrend;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** What earlier checks and the rider's words say beside the verdicts. What they point to is common practice. */
final class WarningSigns {
    /** How unlikely a reading is before it is a sign. */
    private static final double UNLIKELY = 0.005;

    /** How many standard errors a valve's drift lies below its neighbours' before it is a sign. */
    private static final double FAR = 2.6;

    private static final double LEAST_DIFFERENCE = 0.01;
    private static final int THIN_STEPS = 2;
    private static final String FAST_CAUSES =
            "look for seat recession, dirt past the air filter and a stretched stem before the machine is ridden";

    private final CheckSheet sheet;
    private final List<ValveCheck> checks;
    private final Histories histories;
    private final LengthUnit unit;
    private final List<Finding> findings = new ArrayList<>();

    WarningSigns(CheckSheet sheet, List<ValveCheck> checks, Histories histories) {
        this.sheet = sheet;
        this.checks = checks;
        this.histories = histories;
        this.unit = sheet.gauges().unit();
        visits();
        checks.forEach(this::shim);
    }

    List<Finding> findings() {
        return List.copyOf(findings);
    }

    private void add(FindingCode code, String place, String problem, String value, String expected, String mend) {
        findings.add(new Finding(code, place, problem, value, expected, mend));
    }

    /** Earlier checks that the trend leaves out. */
    private void visits() {
        Optional<Usage> now = sheet.usage();
        for (PastVisit visit : sheet.history()) {
            if (!histories.visits().contains(visit)) {
                String value = visit.findUsage().map(Usage::toString).orElse("");
                add(
                        FindingCode.VISIT_NOT_USED,
                        "history " + visit.date(),
                        "the check of " + visit.date() + " is left out of the trend: "
                                + whyNot(visit.findUsage().orElse(null), now.orElse(null)),
                        value,
                        now.map(u -> "a usage up to " + u).orElse("a usage on the sheet"),
                        "enter what the counter showed; count on where it was replaced");
            }
        }
    }

    private static String whyNot(@Nullable Usage then, @Nullable Usage now) {
        if (now == null) {
            return "the sheet does not say what the counter shows now";
        }
        if (then == null) {
            return "its usage is not recorded";
        }
        return then.isSameKind(now)
                ? "its usage of " + then + " is more than the counter shows now"
                : "its usage of " + then + " counts something else than " + now;
    }

    private void shim(ValveCheck check) {
        Optional<Length> size = check.reading().findShim().flatMap(InstalledShim::size);
        Gap gap = check.reading().gap();
        if (size.isEmpty()) {
            return;
        }
        Length installed = size.get();
        String place = check.reading().name();
        histories
                .lastShim(check.reading().valve(), gap)
                .filter(recorded -> recorded.possibleSizes()
                        .flatMap(then -> check.reading()
                                .findShim()
                                .flatMap(InstalledShim::possibleSizes)
                                .filter(now -> now.intersection(then).isEmpty()))
                        .isPresent())
                .map(this::size)
                .ifPresent(recorded -> add(
                        FindingCode.SHIM_NOT_AS_RECORDED,
                        place,
                        "a shim of " + installed.toString(unit) + " is in, but the last check left one of " + recorded,
                        installed.toString(unit),
                        recorded,
                        "measure it; a swap may be missing from the records"));
        sheet.engine()
                .train()
                .shims(gap)
                .filter(range -> gap != Gap.CLOSER && isNearThinEnd(range, installed))
                .ifPresent(range -> add(
                        FindingCode.SHIM_NEAR_THIN_END,
                        place,
                        "the shim of " + installed.toString(unit) + " is near the thin end of the sizes that are made, "
                                + range,
                        installed.toString(unit),
                        "more than " + THIN_STEPS + " steps above "
                                + range.thinnest().toString(unit),
                        "valve or seat is nearly used up: have them looked at before a thinner shim is sought"));
    }

    /** A shim of known size in words. */
    private String size(InstalledShim shim) {
        String size = shim.size().orElseThrow().toString(unit);
        return shim.tolerance().signum() == 0 ? size : size + " ± " + shim.tolerance().toString(unit);
    }

    private static boolean isNearThinEnd(ShimRange range, Length installed) {
        return !installed.isLessThan(range.thinnest())
                && !installed.isMoreThan(range.thinnest().plus(range.step().times(THIN_STEPS)))
                && range.thinnest().isLessThan(range.thickest());
    }

    /** Signs in the course of the clearances. */
    void wear(EngineForecast forecast) {
        histories.rises().forEach(this::rise);
        for (ValveCheck check : checks) {
            boolean told = check.judgement()
                    .flatMap(j -> check.bracket())
                    .map(Bracket::interval)
                    .flatMap(read -> forecast.expected(check.reading()).map(e -> reading(check, read, e)))
                    .orElse(false);
            if (!told) {
                neighbours(check, forecast.trend());
            }
        }
    }

    private void rise(Histories.Rise rise) {
        add(
                FindingCode.RECORD_MISSING,
                ValveReading.name(rise.valve(), rise.gap()),
                "the clearance grew by more than " + rise.least().toString(unit) + " from " + rise.from() + " to "
                        + rise.to() + ", and no adjustment is recorded",
                rise.least().toString(unit),
                "a clearance that closes up slowly, or a recorded adjustment",
                "ask who worked on it and enter the adjustment; if nobody did, look for wear of cam, rocker or adjuster");
    }

    /** Whether the reading is unlikely by all that was read before. */
    private boolean reading(ValveCheck check, LengthInterval read, LengthDistribution expected) {
        double thisLow = read.upper().map(expected::probabilityUpTo).orElse(1.0);
        double thisHigh = 1 - read.lower().map(expected::probabilityUpTo).orElse(0.0);
        if (thisLow >= UNLIKELY && thisHigh >= UNLIKELY) {
            return false;
        }
        String usual = quantile(expected, 0.01) + " to " + quantile(expected, 0.99);
        String text = "reads " + read.toString(unit) + "; by the earlier checks of this engine " + usual
                + " was to be expected (98 times in 100)";
        boolean closes = (thisLow < UNLIKELY) != (check.reading().gap() == Gap.CLOSER);
        add(
                thisLow < UNLIKELY ? FindingCode.CLOSED_UP_FAST : FindingCode.OPENED_UP,
                check.reading().name(),
                text,
                read.toString(unit),
                usual,
                closes
                        ? FAST_CAUSES
                        : "look for wear of cam, rocker or adjuster, a loose lock nut, or a missing record");
        return true;
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

    /** Whether the valve closes up much faster than the others of its role. */
    private void neighbours(ValveCheck check, EngineTrend trend) {
        Optional<ValveTrend> own =
                trend.find(check.reading().valve(), check.reading().gap());
        List<ValveTrend> others = trend.valves().stream()
                .filter(v -> v.task().history().gap() == check.reading().gap()
                        && v.task().history().valve().role()
                                == check.reading().valve().role()
                        && !v.task().history().valve().equals(check.reading().valve())
                        && v.task().history().checks() >= 2)
                .toList();
        if (own.isEmpty() || own.get().task().history().checks() < 2 || others.isEmpty()) {
            return;
        }
        double mean =
                others.stream().mapToDouble(v -> v.trend().drift()).average().orElseThrow();
        double error = Math.sqrt(others.stream()
                        .mapToDouble(v -> v.trend().driftError() * v.trend().driftError())
                        .sum())
                / others.size();
        double sign = check.reading().gap() == Gap.CLOSER ? -1 : 1;
        double slower = sign * (mean - own.get().trend().drift());
        if (slower > LEAST_DIFFERENCE
                && slower > FAR * Math.hypot(error, own.get().trend().driftError())) {
            String per = " per " + own.get().trend().per();
            add(
                    FindingCode.CLOSED_UP_FAST,
                    check.reading().name(),
                    "moves by " + millimetres(own.get().trend().drift()) + per + ", its neighbours by "
                            + millimetres(mean) + per,
                    millimetres(own.get().trend().drift()) + per,
                    "about " + millimetres(mean) + per,
                    FAST_CAUSES);
        }
    }

    private static String millimetres(double value) {
        return String.format(Locale.ROOT, "%.3f mm", BigDecimal.valueOf(value));
    }

    /** What the rider noticed, against what was found. */
    void symptoms() {
        for (Symptom symptom : sheet.symptoms()) {
            List<String> agree = checks.stream()
                    .filter(c -> c.verdict().equals(Optional.of(symptom.goesWith())))
                    .filter(c -> symptom.role()
                            .map(role -> c.reading().valve().role() == role)
                            .orElse(true))
                    .map(c -> c.reading().name())
                    .toList();
            String which = symptom.role().map(r -> r.word() + " ").orElse("") + "valve";
            String wanted = "a " + symptom.goesWith() + " " + which;
            boolean open = checks.stream().anyMatch(c -> c.verdict().equals(Optional.of(Verdict.UNDECIDED)));
            String found = agree.isEmpty()
                    ? "no " + which + " was found " + symptom.goesWith() + (open ? " so far" : "")
                    : String.join(", ", agree) + (agree.size() == 1 ? " was" : " were") + " found "
                            + symptom.goesWith();
            add(
                    FindingCode.SYMPTOM,
                    "engine",
                    symptom + " goes with " + wanted + " (common practice); " + found,
                    symptom.word(),
                    wanted,
                    (agree.isEmpty() ? "look at " : "if it stays after the adjustment, look at ")
                            + symptom.otherCauses());
        }
    }
}
