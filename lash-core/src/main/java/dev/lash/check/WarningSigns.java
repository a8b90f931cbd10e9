package dev.lash.check;

import dev.lash.adjust.InstalledShim;
import dev.lash.engine.Gap;
import dev.lash.engine.ShimRange;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Usage;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** What earlier checks and the rider's words say beside the verdicts. What they point to is common practice. */
final class WarningSigns {
    private static final int THIN_STEPS = 2;
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
        order();
        interval();
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
                        now.flatMap(u -> visit.findUsage().filter(then -> then.isSameKind(u)))
                                        .isPresent()
                                ? "one of the two is wrong: correct the usage of this sheet, or that of the check; where the "
                                        + "counter was replaced, add what the old one had counted"
                                : "give the usage of the check, in what the counter counts now");
            }
        }
    }

    /** Checks of which one is later by its date and earlier by its usage: a slip in one of the four moves every trend. */
    private void order() {
        List<PastVisit> byDate = histories.visits().stream()
                .sorted(Comparator.comparing(PastVisit::date)
                        .thenComparing(visit -> visit.findUsage().orElseThrow(), Usage::compareAmount))
                .toList();
        for (int i = 1; i < byDate.size(); i++) {
            PastVisit before = byDate.get(i - 1);
            PastVisit after = byDate.get(i);
            Usage less = after.findUsage().orElseThrow();
            Usage more = before.findUsage().orElseThrow();
            if (less.compareAmount(more) < 0) {
                outOfOrder(before.date() + " at " + more, after.date() + " at " + less, after.date());
            }
        }
        if (sheet.date().isPresent() && !byDate.isEmpty()) {
            LocalDate today = sheet.date().get();
            PastVisit last = byDate.get(byDate.size() - 1);
            if (last.date().isAfter(today)) {
                outOfOrder(
                        last.date() + " at " + last.findUsage().orElseThrow(),
                        today + " at " + sheet.usage().orElseThrow() + ", this sheet's",
                        last.date());
            }
        }
    }

    private void outOfOrder(String one, String other, LocalDate date) {
        add(
                FindingCode.CHECKS_OUT_OF_ORDER,
                "history " + date,
                "the checks of " + one + " and of " + other + " are not in one order by date and by usage",
                other,
                "the later check at the higher usage",
                "correct the date or the usage of one of the two: the trend goes by the usages");
    }

    private void interval() {
        sheet.engine()
                .checkInterval()
                .filter(every ->
                        sheet.usage().filter(now -> !every.isSameKind(now)).isPresent())
                .ifPresent(every -> add(
                        FindingCode.INTERVAL_NOT_COUNTED,
                        "engine",
                        "the maker's interval of " + every + " counts something else than the counter of "
                                + sheet.usage().orElseThrow() + ", so the time to check leaves it out",
                        every.toString(),
                        "an interval in what the counter counts",
                        "keep to the maker's interval beside it"));
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
        return shim.tolerance().signum() == 0
                ? size
                : size + " ± " + shim.tolerance().toString(unit);
    }

    private static boolean isNearThinEnd(ShimRange range, Length installed) {
        return !installed.isLessThan(range.thinnest())
                && !installed.isMoreThan(range.thinnest().plus(range.step().times(THIN_STEPS)))
                && range.thinnest().isLessThan(range.thickest());
    }

    /** Signs in the course of the clearances. */
    void wear(EngineForecast forecast) {
        findings.addAll(new WearSigns(sheet, checks, histories, forecast).findings());
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
