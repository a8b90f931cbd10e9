package dev.lash.adjust;

import static java.util.Objects.requireNonNull;

import dev.lash.engine.ValveId;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/**
 * Which shim goes where across an engine. Made by {@link ShimPlanner}; immutable.
 *
 * <p>No shim is lost: what was installed, what is taken from the box and what is bought is together what is installed then and
 * what goes to the box.
 */
public final class ShimPlan implements Serializable {
    private static final long serialVersionUID = 1L;

    private final List<Move> moves;
    private final List<String> camshafts;
    private final List<ShimBox.Lot> fromBox;
    private final List<ShimBox.Lot> buy;
    private final List<ShimBox.Lot> toBox;
    private final Totals totals;
    private final List<Finding> findings;
    private final List<Step> steps;
    private final @Nullable Double smallestScore;

    ShimPlan(
            List<Move> moves,
            List<String> camshafts,
            List<ShimBox.Lot> fromBox,
            List<ShimBox.Lot> buy,
            List<ShimBox.Lot> toBox,
            Totals totals,
            List<Finding> findings,
            List<Step> steps,
            @Nullable Double smallestScore) {
        this.moves = List.copyOf(moves);
        this.camshafts = List.copyOf(camshafts);
        this.fromBox = List.copyOf(fromBox);
        this.buy = List.copyOf(buy);
        this.toBox = List.copyOf(toBox);
        this.totals = totals;
        this.findings = List.copyOf(findings);
        this.steps = List.copyOf(steps);
        this.smallestScore = smallestScore;
    }

    /** {@return what goes into each slot, every slot once, in the order in which they were given} */
    public List<Move> moves() {
        return moves;
    }

    /** {@return the camshafts to lift, in the order of the slots} */
    public List<String> camshafts() {
        return camshafts;
    }

    /** {@return the shims to take from the box, by type, then thinnest first} */
    public List<ShimBox.Lot> fromBox() {
        return fromBox;
    }

    /** {@return the shims to buy, by type, then thinnest first} */
    public List<ShimBox.Lot> buy() {
        return buy;
    }

    /** {@return the shims that are left over from the engine, by type, then thinnest first} */
    public List<ShimBox.Lot> toBox() {
        return toBox;
    }

    /** {@return what the plan comes to} */
    public Totals totals() {
        return totals;
    }

    /** {@return what the mechanic should know before the work, in the order of the slots} */
    public List<Finding> findings() {
        return findings;
    }

    /** {@return the work, one thing after the other; nothing when every shim stays} */
    public List<Step> steps() {
        return steps;
    }

    /** {@return the smallest of the scores that were asked for, or empty when none were or none counts} */
    public OptionalDouble smallestScore() {
        return smallestScore == null ? OptionalDouble.empty() : OptionalDouble.of(smallestScore);
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof ShimPlan plan
                && plan.moves.equals(moves)
                && plan.totals.equals(totals)
                && plan.findings.equals(findings)
                && plan.toBox.equals(toBox)
                && plan.steps.equals(steps)
                && plan.smallestScore().equals(smallestScore());
    }

    @Override
    public int hashCode() {
        return moves.hashCode();
    }

    /** {@return the moves and what they come to, in one line} */
    @Override
    public String toString() {
        return moves + ", " + totals;
    }

    /** Where a shim comes from. */
    public enum Origin {
        /** It is in the slot already. */
        STAYS("stays"),
        /** From another slot of the engine. */
        VALVE("valve"),
        /** From the box. */
        BOX("box"),
        /** It must be bought. */
        BUY("buy");

        private final String code;

        Origin(String code) {
            this.code = code;
        }

        /** {@return the word for it, such as {@code "box"}} */
        public String code() {
            return code;
        }

        /** {@return {@link #code()}} */
        @Override
        public String toString() {
            return code;
        }
    }

    /**
     * Where a shim comes from, and from which slot if from one.
     *
     * @param origin where from
     * @param valve the valve that it comes from; {@code null} unless the origin is {@link Origin#VALVE}
     * @param gap which gap of that valve; empty where it has only one
     */
    public record Source(Origin origin, @Nullable ValveId valve, String gap) implements Serializable {
        /**
         * Creates a source.
         *
         * @param origin where from
         * @param valve the valve that it comes from; {@code null} unless the origin is {@link Origin#VALVE}
         * @param gap which gap of that valve; empty where it has only one
         * @throws RejectedValueException if there is a valve where there must be none, or none where there must be one
         */
        public Source {
            requireNonNull(origin, "origin");
            requireNonNull(gap, "gap");
            if ((valve != null) != (origin == Origin.VALVE)) {
                throw new RejectedValueException(
                        "source",
                        origin + (valve == null ? " without a valve" : " with valve " + valve),
                        "does not fit together",
                        "a valve with the origin valve, and with no other",
                        "give the valve that the shim comes from, or leave it out");
            }
        }

        static Source of(Origin origin) {
            return new Source(origin, null, "");
        }

        static Source of(ShimSlot slot) {
            return new Source(Origin.VALVE, slot.valve(), slot.gap());
        }

        /** {@return the valve that it comes from, or empty when it comes from none} */
        public Optional<ValveId> findValve() {
            return Optional.ofNullable(valve);
        }

        /** {@return {@code "stays"}, {@code "box"}, {@code "buy"}, or the valve with its gap, such as {@code "1-in-2"}} */
        @Override
        public String toString() {
            return valve == null ? origin.code() : gap.isEmpty() ? valve.toString() : valve + " " + gap;
        }
    }

    /**
     * What goes into one slot.
     *
     * @param valve the valve
     * @param gap which gap of the valve; empty where it has only one
     * @param shim the size that is in it then; {@code null} when it stays and is not known
     * @param type the type of shim
     * @param source where it comes from
     * @param resulting the clearances that are possible then
     * @param verdict what they mean, against the window to check against
     * @param certain whether the clearance is certain: in the window to set to with a shim that is fitted, in the window to check
     *     against with one that stays
     * @param why why this shim, in one line for a person
     */
    public record Move(
            ValveId valve,
            String gap,
            @Nullable Length shim,
            String type,
            Source source,
            LengthInterval resulting,
            Verdict verdict,
            boolean certain,
            String why)
            implements Serializable {
        /**
         * Creates a move.
         *
         * @param valve the valve
         * @param gap which gap of the valve; empty where it has only one
         * @param shim the size that is in it then; {@code null} when it stays and is not known
         * @param type the type of shim
         * @param source where it comes from
         * @param resulting the clearances that are possible then
         * @param verdict what they mean, against the window to check against
         * @param certain whether the clearance is certain
         * @param why why this shim, in one line for a person
         */
        public Move {
            requireNonNull(valve, "valve");
            requireNonNull(gap, "gap");
            requireNonNull(type, "type");
            requireNonNull(source, "source");
            requireNonNull(resulting, "resulting");
            requireNonNull(verdict, "verdict");
            requireNonNull(why, "why");
        }

        /** {@return the size that is in it then, or empty when it stays and is not known} */
        public Optional<Length> findShim() {
            return Optional.ofNullable(shim);
        }

        /** {@return whether the installed shim stays} */
        public boolean stays() {
            return source.origin() == Origin.STAYS;
        }

        /** {@return the move in one line for a person} */
        @Override
        public String toString() {
            return (gap.isEmpty() ? valve.toString() : valve + " " + gap) + ": " + (shim == null ? "shim" : shim) + " ("
                    + source + "), then " + resulting + ", " + verdict;
        }
    }

    /**
     * What a plan comes to, in the order in which plans are compared: fewer first, rank by rank.
     *
     * @param notCertain how many valves are not certain
     * @param camshaftsLifted how many camshafts are lifted
     * @param shimsBought how many shims are bought
     * @param sizesChanged how many valves get a shim of another size
     * @param halfNanometresOffAim the sum of the distances between the middle of each clearance and its aim, in half nanometres
     */
    public record Totals(
            int notCertain, int camshaftsLifted, int shimsBought, int sizesChanged, long halfNanometresOffAim)
            implements Comparable<Totals>, Serializable {
        private static final Comparator<Totals> ORDER = Comparator.comparingInt(Totals::notCertain)
                .thenComparingInt(Totals::camshaftsLifted)
                .thenComparingInt(Totals::shimsBought)
                .thenComparingInt(Totals::sizesChanged)
                .thenComparingLong(Totals::halfNanometresOffAim);

        /**
         * Creates totals.
         *
         * @param notCertain how many valves are not certain
         * @param camshaftsLifted how many camshafts are lifted
         * @param shimsBought how many shims are bought
         * @param sizesChanged how many valves get a shim of another size
         * @param halfNanometresOffAim the sum of the distances between the middle of each clearance and its aim, in half
         *     nanometres
         * @throws RejectedValueException if a figure is below 0
         */
        public Totals {
            if (Math.min(Math.min(notCertain, camshaftsLifted), Math.min(shimsBought, sizesChanged)) < 0
                    || halfNanometresOffAim < 0) {
                throw new RejectedValueException(
                        "totals",
                        notCertain + ", " + camshaftsLifted + ", " + shimsBought + ", " + sizesChanged + ", "
                                + halfNanometresOffAim,
                        "hold a negative number",
                        "numbers from 0 up",
                        "count again");
            }
        }

        @Override
        public int compareTo(Totals other) {
            return ORDER.compare(this, other);
        }
    }

    /** Kinds of finding. */
    public enum FindingKind {
        /** A leaf more before the work could make a better plan possible. */
        MEASURE_FURTHER,
        /** The size of the installed shim is not known: read or measure it. */
        READ_SHIM,
        /** No shim at hand or made is certain, and a narrower reading would not change that. */
        NO_SHIM_FITS
    }

    /**
     * Something that the mechanic should know before the work.
     *
     * @param kind the kind
     * @param valve the valve
     * @param gap which gap of the valve; empty where it has only one
     * @param text what, in one line for a person
     * @param atBest what the plan could come to at best if this valve's clearance were known exactly, distances left out (0);
     *     {@code null} where that is not worked out
     */
    public record Finding(
            FindingKind kind,
            ValveId valve,
            String gap,
            String text,
            @Nullable Totals atBest) implements Serializable {
        /**
         * Creates a finding.
         *
         * @param kind the kind
         * @param valve the valve
         * @param gap which gap of the valve; empty where it has only one
         * @param text what, in one line for a person
         * @param atBest what the plan could come to at best; {@code null} where that is not worked out
         */
        public Finding {
            requireNonNull(kind, "kind");
            requireNonNull(valve, "valve");
            requireNonNull(gap, "gap");
            requireNonNull(text, "text");
        }

        /** {@return what the plan could come to at best, or empty where that is not worked out} */
        public Optional<Totals> findAtBest() {
            return Optional.ofNullable(atBest);
        }

        /** {@return the text} */
        @Override
        public String toString() {
            return text;
        }
    }

    /** Kinds of step. */
    public enum Action {
        /** Take shims from the box. */
        FETCH,
        /** Buy shims. */
        BUY,
        /** Lift a camshaft. */
        LIFT,
        /** Take a shim out of a slot. */
        TAKE_OUT,
        /** Put a shim into a slot. */
        PUT_IN,
        /** Put a camshaft back. */
        REFIT,
        /** Measure what was changed. */
        RECHECK
    }

    /**
     * One step of the work.
     *
     * @param action what to do
     * @param place the slot, the camshaft or the box that it is done to; empty for {@link Action#RECHECK}
     * @param shim the size of the shim in question; {@code null} where there is none
     * @param text the step in one line for a person
     */
    public record Step(
            Action action, String place, @Nullable Length shim, String text) implements Serializable {
        /**
         * Creates a step.
         *
         * @param action what to do
         * @param place the slot, the camshaft or the box that it is done to; empty for {@link Action#RECHECK}
         * @param shim the size of the shim in question; {@code null} where there is none
         * @param text the step in one line for a person
         */
        public Step {
            requireNonNull(action, "action");
            requireNonNull(place, "place");
            requireNonNull(text, "text");
        }

        /** {@return the size of the shim in question, or empty where there is none} */
        public Optional<Length> findShim() {
            return Optional.ofNullable(shim);
        }

        /** {@return the text} */
        @Override
        public String toString() {
            return text;
        }
    }
}
