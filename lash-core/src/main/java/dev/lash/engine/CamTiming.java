package dev.lash.engine;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.TextParseException;
import dev.lash.measure.TextParseException.Reason;
import java.io.Serializable;
import java.util.Locale;

/**
 * When the valves of a cylinder open and close, seat to seat, and how far from there the ramps reach.
 *
 * @param intakeOpens where the intake valve opens
 * @param intakeCloses where it closes
 * @param exhaustOpens where the exhaust valve opens
 * @param exhaustCloses where it closes
 * @param margin crank degrees before opening and after closing in which the follower may be on a ramp, 0 to 90
 */
public record CamTiming(Event intakeOpens, Event intakeCloses, Event exhaustOpens, Event exhaustCloses, Ratio margin)
        implements Serializable {
    private static final Ratio WIDEST = Ratio.of(90, 1);

    private static final Ratio CYCLE = Ratio.of(720, 1);
    private static final Ratio EXHAUST_BDC = Ratio.of(180, 1);
    private static final Ratio OVERLAP_TDC = Ratio.of(360, 1);
    private static final Ratio INTAKE_BDC = Ratio.of(540, 1);

    /** A mild road cam: the timing assumed where none is given (from memory). */
    public static final CamTiming GENERIC = new CamTiming(
            Event.parse("15 deg BTDC"),
            Event.parse("50 deg ABDC"),
            Event.parse("50 deg BBDC"),
            Event.parse("15 deg ATDC"),
            Ratio.of(15, 1));

    /**
     * Creates a timing.
     *
     * @param intakeOpens where the intake valve opens
     * @param intakeCloses where it closes
     * @param exhaustOpens where the exhaust valve opens
     * @param exhaustCloses where it closes
     * @param margin crank degrees before opening and after closing in which the follower may be on a ramp, 0 to 90
     * @throws RejectedValueException if the margin is outside 0 to 90 degrees, or a valve would not close or never rest
     */
    public CamTiming {
        requireNonNull(intakeOpens, "intakeOpens");
        requireNonNull(intakeCloses, "intakeCloses");
        requireNonNull(exhaustOpens, "exhaustOpens");
        requireNonNull(exhaustCloses, "exhaustCloses");
        if (margin.signum() < 0 || margin.compareTo(WIDEST) > 0) {
            throw new RejectedValueException(
                    "ramp margin",
                    margin + " deg",
                    "is out of range",
                    "0 to 90 deg",
                    "give the length of the ramps in crank degrees");
        }
        checkLift("intake", intakeOpens, intakeCloses, OVERLAP_TDC, INTAKE_BDC, CYCLE, INTAKE_BDC, margin);
        checkLift(
                "exhaust",
                exhaustOpens,
                exhaustCloses,
                Ratio.ZERO,
                EXHAUST_BDC,
                OVERLAP_TDC,
                EXHAUST_BDC.plus(CYCLE),
                margin);
    }

    private static void checkLift(
            String role,
            Event opens,
            Event closes,
            Ratio opensTdc,
            Ratio opensBdc,
            Ratio closesTdc,
            Ratio closesBdc,
            Ratio margin) {
        Ratio lift = phase(closes, closesTdc, closesBdc).minus(phase(opens, opensTdc, opensBdc));
        Ratio withRamps = lift.plus(margin).plus(margin);
        if (lift.signum() <= 0 || withRamps.compareTo(CYCLE) >= 0) {
            throw new RejectedValueException(
                    role + " timing",
                    opens + " to " + closes + ", margin " + margin + " deg",
                    "leaves the valve open for " + lift + " crank degrees",
                    "a lift above 0 deg that with its ramps takes less than 720 deg",
                    "check the marks: BTDC, ATDC, BBDC, ABDC");
        }
    }

    /**
     * Whether a valve may be measured: its follower is on the base circle, clear of the ramps. That is so outside the open interval
     * from opening minus margin to closing plus margin.
     *
     * @param role the role of the valve
     * @param phase crank degrees after the cylinder's compression TDC, from 0 to below 720
     * @return whether the follower is on the base circle
     */
    public boolean isOnBaseCircle(ValveRole role, Ratio phase) {
        return lift(role).isAtRest(phase);
    }

    /** The lift of a role, ramps included. */
    Lift lift(ValveRole role) {
        return new Lift(liftFrom(role), liftTo(role));
    }

    /**
     * A lift with its ramps.
     *
     * @param from where the ramp before it begins, maybe before compression TDC: below 0
     * @param to where the ramp after it ends, maybe in the next cycle: above 720
     */
    record Lift(Ratio from, Ratio to) {
        /** Whether a phase from 0 to below 720 is outside this lift, the one of the cycle before and the one of the cycle after. */
        boolean isAtRest(Ratio phase) {
            return !(isBetween(phase, from, to)
                    || isBetween(phase.plus(CYCLE), from, to)
                    || isBetween(phase.minus(CYCLE), from, to));
        }

        private static boolean isBetween(Ratio phase, Ratio from, Ratio to) {
            return phase.compareTo(from) > 0 && phase.compareTo(to) < 0;
        }
    }

    /**
     * Where the ramp before the lift begins.
     *
     * @param role the role of the valve
     * @return crank degrees after the cylinder's compression TDC, maybe below 0
     */
    public Ratio liftFrom(ValveRole role) {
        Ratio opens = role == ValveRole.INTAKE
                ? phase(intakeOpens, OVERLAP_TDC, INTAKE_BDC)
                : phase(exhaustOpens, Ratio.ZERO, EXHAUST_BDC);
        return opens.minus(margin);
    }

    /**
     * Where the ramp after the lift ends; more than {@link #liftFrom}, and at most 720 degrees more.
     *
     * @param role the role of the valve
     * @return crank degrees after the cylinder's compression TDC, maybe above 720
     */
    public Ratio liftTo(ValveRole role) {
        Ratio closes = role == ValveRole.INTAKE
                ? phase(intakeCloses, CYCLE, INTAKE_BDC)
                : phase(exhaustCloses, OVERLAP_TDC, EXHAUST_BDC.plus(CYCLE));
        return closes.plus(margin);
    }

    private static Ratio phase(Event event, Ratio topDeadCentre, Ratio bottomDeadCentre) {
        return switch (event.mark) {
            case BTDC -> topDeadCentre.minus(event.degrees);
            case ATDC -> topDeadCentre.plus(event.degrees);
            case BBDC -> bottomDeadCentre.minus(event.degrees);
            case ABDC -> bottomDeadCentre.plus(event.degrees);
        };
    }

    /** The mark from which an event is counted. */
    public enum Mark {
        /** Before top dead centre. */
        BTDC,
        /** After top dead centre. */
        ATDC,
        /** Before bottom dead centre. */
        BBDC,
        /** After bottom dead centre. */
        ABDC
    }

    /**
     * The opening or closing of a valve. Text: {@code "15 deg BTDC"}.
     *
     * @param degrees crank degrees from the mark, 0 to 180
     * @param mark the mark
     */
    public record Event(Ratio degrees, Mark mark) implements Serializable {
        /**
         * Creates an event.
         *
         * @param degrees crank degrees from the mark, 0 to 180
         * @param mark the mark
         * @throws RejectedValueException if the degrees are outside 0 to 180
         */
        public Event {
            requireNonNull(mark, "mark");
            if (degrees.signum() < 0 || degrees.compareTo(Ratio.of(180, 1)) > 0) {
                throw new RejectedValueException(
                        "valve event",
                        degrees + " deg " + mark,
                        "is out of range",
                        "0 to 180 deg",
                        "check the timing figure");
            }
        }

        /**
         * Reads an event.
         *
         * @param text degrees, {@code deg} and one of BTDC, ATDC, BBDC, ABDC
         * @return the event
         * @throws RejectedValueException if the text is anything else
         */
        public static Event parse(String text) {
            String[] words = requireNonNull(text, "text").strip().split(" +", -1);
            if (words.length != 3 || !words[1].equals("deg") || !words[2].matches("(?i)[AB][TB]DC")) {
                throw new TextParseException(
                        Reason.WRONG_FORM,
                        "valve event",
                        text,
                        0,
                        "is not the opening or closing of a valve",
                        "crank degrees and BTDC, ATDC, BBDC or ABDC, such as \"15 deg BTDC\"",
                        "write it in this form");
            }
            return new Event(Ratio.parse(words[0]), Mark.valueOf(words[2].toUpperCase(Locale.ROOT)));
        }

        /** {@return the event, such as {@code "15 deg BTDC"}} */
        @Override
        public String toString() {
            return degrees + " deg " + mark;
        }
    }

    /**
     * Reads an angle.
     *
     * @param text a number and {@code deg}, such as {@code "15 deg"}
     * @return the number of degrees
     * @throws RejectedValueException if the text is anything else
     */
    public static Ratio parseDegrees(String text) {
        String s = requireNonNull(text, "text").strip();
        if (!s.endsWith("deg")) {
            throw new TextParseException(
                    Reason.NO_UNIT,
                    "angle",
                    text,
                    s.length(),
                    "is not in degrees",
                    "a number and deg, such as \"15 deg\"",
                    "add deg");
        }
        return Ratio.parse(s.substring(0, s.length() - "deg".length()).strip());
    }
}
