package dev.lash.engine;

import dev.lash.measure.Ratio;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;

/** Crank angles and positions in words. */
final class CrankWords {
    private CrankWords() {}

    /** Degrees as a degree wheel shows them: a number without a finite decimal form to the nearest tenth. */
    static String degrees(Ratio angle) {
        String exact = angle.toString();
        if (exact.indexOf('/') < 0) {
            return exact;
        }
        return new BigDecimal(angle.numerator())
                .divide(new BigDecimal(angle.denominator()), 1, RoundingMode.HALF_UP)
                .stripTrailingZeros()
                .toPlainString();
    }

    /** Where an angle is, counted on the turn that it is on, as a degree wheel shows no more than one turn. */
    static String position(Ratio angle) {
        return angle.compareTo(CrankCycle.TURN) < 0
                ? degrees(angle) + " degrees after number 1's compression TDC"
                : degrees(angle.minus(CrankCycle.TURN)) + " degrees after number 1's overlap TDC";
    }

    /** Where a cylinder is, counted from its own TDC. */
    static String place(Ratio phase) {
        boolean firstTurn = phase.compareTo(CrankCycle.TURN) < 0;
        Ratio past = firstTurn ? phase : phase.minus(CrankCycle.TURN);
        return (past.signum() == 0 ? "" : degrees(past) + " degrees after ")
                + (firstTurn ? "compression TDC" : "overlap TDC");
    }

    /** How to know a stop: which cylinder is at TDC, and whether its followers are slack (compression) or both move (overlap). */
    static String sign(CrankCycle cycle, Ratio angle) {
        List<Integer> onCompression = cylindersAt(cycle, angle, Ratio.ZERO);
        List<Integer> onOverlap = cylindersAt(cycle, angle, CrankCycle.TURN);
        List<String> parts = new ArrayList<>();
        if (!onCompression.isEmpty()) {
            parts.add(names(onCompression) + ", on compression: " + slack(cycle, angle, onCompression));
        }
        if (!onOverlap.isEmpty()) {
            parts.add(names(onOverlap) + ", on overlap: " + moving(cycle, onOverlap));
        }
        return parts.isEmpty() ? betweenTdcs(cycle, angle) : "TDC mark of " + String.join("; ", parts);
    }

    private static List<Integer> cylindersAt(CrankCycle cycle, Ratio angle, Ratio phase) {
        return cycle.engine().firingOrder().order().stream()
                .filter(cylinder -> cycle.phase(cylinder, angle).equals(phase))
                .sorted()
                .toList();
    }

    /** How the two TDCs of number 1 are told from each other. */
    static String findNumber1(CrankCycle cycle) {
        List<Integer> number1 = List.of(1);
        return "Find number 1's compression TDC: TDC comes round twice, on compression "
                + slack(cycle, Ratio.ZERO, number1) + ", on overlap " + moving(cycle, number1) + ".";
    }

    /** A long cam or long ramps may keep a follower off the base circle even at compression TDC. */
    private static String slack(CrankCycle cycle, Ratio angle, List<Integer> cylinders) {
        String held = cycle.engine()
                .decompressor()
                .filter(device -> cylinders.contains(device.valve().cylinder()))
                .filter(device -> !device.isKnown()
                        || device.holdsAt(cycle.phase(device.valve().cylinder(), angle)))
                .map(device -> device.isKnown()
                        ? ", but the decompressor holds " + device.valve()
                        : ", but a decompressor may hold " + device.valve()
                                + " (its angles are not known: see the manual)")
                .orElse("");
        return slackAtCompression(its(cylinders), cycle.rolesAtRest(Ratio.ZERO)) + held;
    }

    private static String slackAtCompression(String its, Set<ValveRole> atRest) {
        if (atRest.size() == ValveRole.values().length) {
            return its + " followers are slack";
        }
        return atRest.isEmpty()
                ? "by this cam timing " + its + " followers are not slack"
                : "by this cam timing only " + its + " "
                        + atRest.iterator().next().word() + " followers are slack";
    }

    /** A cam without overlap moves one follower or none at TDC itself. */
    private static String moving(CrankCycle cycle, List<Integer> cylinders) {
        boolean overlaps = cycle.rolesAtRest(CrankCycle.TURN).isEmpty();
        return its(cylinders)
                + (overlaps
                        ? " followers both move as the crank is turned on through TDC"
                        : " exhaust valve closes and " + its(cylinders) + " intake valve opens about here");
    }

    private static String betweenTdcs(CrankCycle cycle, Ratio angle) {
        Set<ValveId> slack = Set.copyOf(cycle.measurableAt(angle));
        List<Integer> cylinders = cycle.engine().firingOrder().order().stream()
                .filter(cylinder -> isSlack(cycle, cylinder, slack))
                .sorted()
                .toList();
        return position(angle) + ", by degree wheel or mark"
                + (cylinders.isEmpty() ? "" : "; the followers of " + names(cylinders) + " are slack");
    }

    private static boolean isSlack(CrankCycle cycle, int cylinder, Set<ValveId> slack) {
        List<ValveId> own = cycle.engine().valves().stream()
                .filter(valve -> valve.cylinder() == cylinder)
                .toList();
        return !own.isEmpty() && slack.containsAll(own);
    }

    private static String its(List<Integer> cylinders) {
        return cylinders.size() == 1 ? "its" : "their";
    }

    private static String names(List<Integer> cylinders) {
        return cylinders.stream().map(c -> "number " + c).collect(Collectors.joining(" and "));
    }
}
