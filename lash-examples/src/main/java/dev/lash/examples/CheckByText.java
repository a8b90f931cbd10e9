package dev.lash.examples;

import dev.lash.check.CheckNow;
import dev.lash.check.CheckReport;
import dev.lash.specs.TrendForms;
import dev.lash.trend.CheckBy;
import dev.lash.trend.EngineTrend;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/** The time to check as every report gives it: how many checks it rests on, and what it lacks where they are few. */
final class CheckByText {
    private CheckByText() {}

    static void write(CheckReport report, EngineTrend trend, StringBuilder out) {
        CheckBy by = trend.checkBy();
        List<CheckNow> now = report.checkNow(trend);
        String at = "Check by " + by.usage();
        String risk = by.risk() == 0 ? "" : " (risk " + ForecastTable.percent(by.risk()) + ")";
        TextTable.paragraph(
                switch (by.reason()) {
                    case NOW -> "Check now" + risk + ": " + now(now) + ".";
                    case VALVE ->
                        at + risk + ": " + TrendForms.because(by) + " may leave its window first, from "
                                + checks(trend.checks()) + " of it.";
                    case MAKERS_INTERVAL -> at + ": the maker's interval" + risk + ", from " + ofEach(trend) + ".";
                    case NO_LIMIT ->
                        "No valve is likely to leave its window up to " + by.usage() + risk + ", from " + ofEach(trend)
                                + "; keep to the maker's interval.";
                },
                "",
                out);
        Set<String> told = now.stream().map(CheckNow::name).collect(Collectors.toSet());
        String unread = report.valves().stream()
                .filter(check -> check.reading().findDone().isPresent()
                        && check.recheck().isEmpty())
                .map(check -> check.reading().name())
                .filter(name -> !told.contains(name))
                .collect(Collectors.joining(", "));
        if (!unread.isEmpty()) {
            TextTable.paragraph(
                    "Not read since it was adjusted, so not certain: recheck " + unread + " first.", "", out);
        }
        trend.caveat()
                .ifPresent(caveat -> TextTable.paragraph(
                        caveat.substring(0, 1).toUpperCase(Locale.ROOT) + caveat.substring(1) + ".", "", out));
    }

    private static String ofEach(EngineTrend trend) {
        return checks(trend.checks()) + " of the valve that has the fewest";
    }

    private static String checks(int checks) {
        return checks == 0 ? "no check" : TextReport.counted(checks, "check");
    }

    /** First what is outside, then what may be, last what was read within: that may stay as it is. */
    private static String now(List<CheckNow> all) {
        Map<CheckNow.Work, String> valves = new EnumMap<>(all.stream()
                .collect(Collectors.groupingBy(
                        CheckNow::work, Collectors.mapping(CheckNow::name, Collectors.joining(", ")))));
        List<String> clauses = new ArrayList<>();
        Optional.ofNullable(valves.remove(CheckNow.Work.SET))
                .ifPresent(names -> clauses.add("outside the window, must be set: " + names));
        Optional<String> within = Optional.ofNullable(valves.remove(CheckNow.Work.WITHIN));
        if (!valves.isEmpty()) {
            clauses.add("may be outside the window already: "
                    + valves.entrySet().stream()
                            .map(e -> e.getValue() + " (" + doing(e.getKey()) + ")")
                            .collect(Collectors.joining(", ")));
        }
        within.ifPresent(
                names -> clauses.add(
                        "read within, but no time is left by the forecast: " + names
                                + "; a reading scatters about the trend, and this one lies near a limit: set now, or leave and check again well before the maker's interval"));
        return String.join("; ", clauses);
    }

    private static String doing(CheckNow.Work work) {
        return switch (work) {
            case SET -> "set it";
            case RECHECK -> "set and not read since: recheck";
            case READ -> "not read at this check: read";
            case IN_DOUBT -> "reading in doubt, decompressor: read again first";
            case REPEAT -> "trials contradict each other: repeat";
            case NARROW -> "undecided: narrow the reading, or set and recheck";
            case DISHED -> "pad or tip dished: no leaf tells";
            case WITHIN -> "read within";
        };
    }
}
