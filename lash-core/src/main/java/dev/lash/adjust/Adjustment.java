package dev.lash.adjust;

import static java.util.Objects.requireNonNull;

import dev.lash.gauge.LeafStack;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.plan.NextLeaf;
import java.io.Serializable;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** What to do about one valve. A closed choice; {@link Cases} has one function per case. */
public sealed interface Adjustment extends Serializable {
    /**
     * The name of this kind in documents, such as {@code "set-to-leaf"}.
     *
     * @return the name
     */
    String kind();

    /** {@return whether it puts the clearance at a place in the window that was aimed at: a leaf to set with, a turn, a shim} */
    default boolean isAimed() {
        return this instanceof SetToLeaf || this instanceof Turn || this instanceof FitShim;
    }

    /**
     * Calls the function of this case.
     *
     * @param cases one function per case
     * @param <R> what the functions return
     * @return what the function of this case returned
     */
    <R> R match(Cases<R> cases);

    /**
     * One function per case of adjustment.
     *
     * @param <R> what the functions return
     */
    interface Cases<R> {
        /**
         * For nothing to adjust.
         *
         * @param adjustment the adjustment
         * @return the result
         */
        R leave(Leave adjustment);

        /**
         * For setting to a leaf.
         *
         * @param adjustment the adjustment
         * @return the result
         */
        R setToLeaf(SetToLeaf adjustment);

        /**
         * For a counted turn.
         *
         * @param adjustment the adjustment
         * @return the result
         */
        R turn(Turn adjustment);

        /**
         * For fitting a shim.
         *
         * @param adjustment the adjustment
         * @return the result
         */
        R fitShim(FitShim adjustment);

        /**
         * For machine work.
         *
         * @param adjustment the adjustment
         * @return the result
         */
        R machine(Machine adjustment);

        /**
         * For measuring further.
         *
         * @param adjustment the adjustment
         * @return the result
         */
        R measureFurther(MeasureFurther adjustment);

        /**
         * For inspecting first.
         *
         * @param adjustment the adjustment
         * @return the result
         */
        R inspect(Inspect adjustment);

        /**
         * For a train that has no clearance.
         *
         * @param adjustment the adjustment
         * @return the result
         */
        R notApplicable(NotApplicable adjustment);
    }

    /** The clearance is within its window: nothing to adjust. */
    record Leave() implements Adjustment {
        @Override
        public String kind() {
            return "leave";
        }

        @Override
        public <R> R match(Cases<R> cases) {
            return cases.leave(this);
        }
    }

    /**
     * Loosen the nut, hold the screw so that the leaf drags lightly, lock, and check again.
     *
     * @param leaf the setting leaf
     * @param turn how far the screw will turn, positive as the clearance grows; {@code null} for an eccentric, and when the reading
     *     lacks an end
     * @param eccentric the two ways of turning an eccentric to that clearance, the shorter first; empty where there is none, when the
     *     reading lacks an end, when it is not known where the eccentric stands, or when it does not reach the leaf from every
     *     clearance of the reading
     * @param resulting the clearance once the leaf drags; with a learnt lock shift, what is likely once the nut is tight, which may
     *     reach out of the window: the recheck decides
     * @param lockShift the shift that the leaf makes up for; {@code null} where none was learnt
     * @param first what is done before; empty where nothing is
     */
    record SetToLeaf(
            LeafStack leaf,
            @Nullable TurnRange turn,
            List<EccentricTurn> eccentric,
            LengthInterval resulting,
            @Nullable LockShift lockShift,
            String first)
            implements Adjustment {
        /**
         * Creates the adjustment.
         *
         * @param leaf the setting leaf
         * @param turn how far the screw will turn, positive as the clearance grows; {@code null} for an eccentric, and when the reading
         *     lacks an end
         * @param eccentric the two ways of turning an eccentric to that clearance, the shorter first; empty where there is none, when the
         *     reading lacks an end, when it is not known where the eccentric stands, or when it does not reach the leaf from every
         *     clearance of the reading
         * @param resulting the clearance once the leaf drags; with a learnt lock shift, what is likely once the nut is tight, which may
         *     reach out of the window: the recheck decides
         * @param lockShift the shift that the leaf makes up for; {@code null} where none was learnt
         * @param first what is done before; empty where nothing is
         */
        public SetToLeaf {
            requireNonNull(leaf, "leaf");
            requireNonNull(resulting, "resulting");
            requireNonNull(first, "first");
            eccentric = List.copyOf(eccentric);
        }

        /** {@return how far the screw will turn, or empty when that cannot be told} */
        public Optional<TurnRange> findTurn() {
            return Optional.ofNullable(turn);
        }

        /** {@return the lock shift that the leaf makes up for, or empty where none was learnt} */
        public Optional<LockShift> findLockShift() {
            return Optional.ofNullable(lockShift);
        }

        @Override
        public String kind() {
            return "set-to-leaf";
        }

        @Override
        public <R> R match(Cases<R> cases) {
            return cases.setToLeaf(this);
        }
    }

    /** From where a counted turn is counted. */
    enum TurnFrom {
        /** From where the screw stands now. */
        PRESENT_SETTING("present-setting"),
        /** From where the play is just taken up. */
        NO_PLAY("no-play");

        private final String word;

        TurnFrom(String word) {
            this.word = word;
        }

        /** {@return the word in documents, such as {@code "no-play"}} */
        public String word() {
            return word;
        }
    }

    /**
     * A counted turn of the screw, where no leaf can be trusted or none that is owned lies in the window.
     *
     * @param from from where the turn is counted
     * @param degrees from the present setting: to the aim, from the two ends of the reading; from no play: to the lower and the
     *     upper end of the window
     * @param certain the turns that end in the window for every clearance of the reading; {@code null} when there are none, as where
     *     they rest on a learnt lock shift
     * @param flats {@code degrees} in flats of the screw head; {@code null} where it has none to count
     * @param direction which way the spanner goes
     * @param lockShift the shift that the turn makes up for; {@code null} where none was learnt, or it is not counted
     * @param first what is done before; empty where nothing is
     */
    record Turn(
            TurnFrom from,
            TurnRange degrees,
            @Nullable TurnRange certain,
            TurnRange.@Nullable FlatRange flats,
            String direction,
            @Nullable LockShift lockShift,
            String first)
            implements Adjustment {
        /**
         * Creates the adjustment.
         *
         * @param from from where the turn is counted
         * @param degrees from the present setting: to the aim, from the two ends of the reading; from no play: to the lower and the upper end of the window
         * @param certain the turns that end in the window for every clearance of the reading; {@code null} when there are none, as where
         *     they rest on a learnt lock shift
         * @param flats {@code degrees} in flats of the screw head; {@code null} where it has none to count
         * @param direction which way the spanner goes
         * @param lockShift the shift that the turn makes up for; {@code null} where none was learnt, or it is not counted
         * @param first what is done before; empty where nothing is
         */
        public Turn {
            requireNonNull(from, "from");
            requireNonNull(degrees, "degrees");
            requireNonNull(direction, "direction");
            requireNonNull(first, "first");
        }

        /** {@return the turns that are certain to end in the window, or empty when there are none} */
        public Optional<TurnRange> findCertain() {
            return Optional.ofNullable(certain);
        }

        /** {@return the lock shift that the turn makes up for, or empty where none is} */
        public Optional<LockShift> findLockShift() {
            return Optional.ofNullable(lockShift);
        }

        /** {@return the turn in flats, or empty where the head has none to count} */
        public Optional<TurnRange.FlatRange> findFlats() {
            return Optional.ofNullable(flats);
        }

        @Override
        public String kind() {
            return "turn";
        }

        @Override
        public <R> R match(Cases<R> cases) {
            return cases.turn(this);
        }
    }

    /**
     * Swap the shim.
     *
     * @param shim the size to fit
     * @param certain every size that is certain to end in the window, of the range, the box and the installed one, thinnest first
     * @param resulting the clearance with the size to fit
     * @param inBox whether the size to fit is in the box
     * @param byHabit what the shop's way of rounding fits, shown beside; {@code null} where the shop states none
     */
    record FitShim(
            Length shim,
            List<Length> certain,
            LengthInterval resulting,
            boolean inBox,
            @Nullable HabitShim byHabit) implements Adjustment {
        /**
         * Creates the adjustment.
         *
         * @param shim the size to fit
         * @param certain every size that is certain to end in the window, of the range, the box and the installed one, thinnest first
         * @param resulting the clearance with the size to fit
         * @param inBox whether the size to fit is in the box
         * @param byHabit what the shop's way of rounding fits, shown beside; {@code null} where the shop states none
         */
        public FitShim {
            requireNonNull(shim, "shim");
            requireNonNull(resulting, "resulting");
            certain = List.copyOf(certain);
        }

        /** {@return what the shop's way of rounding fits, or empty where the shop states none} */
        public Optional<HabitShim> findByHabit() {
            return Optional.ofNullable(byHabit);
        }

        @Override
        public String kind() {
            return "fit-shim";
        }

        @Override
        public <R> R match(Cases<R> cases) {
            return cases.fitShim(this);
        }
    }

    /**
     * Machine work on valve or seat.
     *
     * @param work which work, in which order
     * @param amount how much the clearance must grow (tip ground off) or, negative, shrink (seat or face cut), from the least to the
     *     most that ends in the window for every clearance of the reading; {@code null} when no amount does, or it is not known
     */
    record Machine(String work, @Nullable LengthInterval amount) implements Adjustment {
        /**
         * Creates the adjustment.
         *
         * @param work which work, in which order
         * @param amount how much the clearance must grow (tip ground off) or, negative, shrink (seat or face cut), from the least to
         *     the most that ends in the window for every clearance of the reading; {@code null} when no amount does, or it is not known
         */
        public Machine {
            requireNonNull(work, "work");
        }

        /** {@return how much the clearance must grow, or empty when no amount is certain or it is not known} */
        public Optional<LengthInterval> findAmount() {
            return Optional.ofNullable(amount);
        }

        @Override
        public String kind() {
            return "machine";
        }

        @Override
        public <R> R match(Cases<R> cases) {
            return cases.machine(this);
        }
    }

    /**
     * The reading is too wide to act on.
     *
     * @param leaf the leaf to offer next; {@code null} when it is not a leaf that is missing
     * @param measuringShim sizes of shim to fit only to measure, never to run the engine; {@code null} when none is needed
     * @param why what is missing, for a person
     */
    record MeasureFurther(@Nullable NextLeaf leaf, @Nullable LengthInterval measuringShim, String why)
            implements Adjustment {
        /**
         * Creates the adjustment.
         *
         * @param leaf the leaf to offer next; {@code null} when it is not a leaf that is missing
         * @param measuringShim sizes of shim to fit only to measure, never to run the engine; {@code null} when none is needed
         * @param why what is missing, for a person
         */
        public MeasureFurther {
            requireNonNull(why, "why");
        }

        /** {@return the leaf to offer next, or empty when it is not a leaf that is missing} */
        public Optional<NextLeaf> findLeaf() {
            return Optional.ofNullable(leaf);
        }

        /** {@return sizes of shim to fit only to measure, or empty when none is needed} */
        public Optional<LengthInterval> findMeasuringShim() {
            return Optional.ofNullable(measuringShim);
        }

        @Override
        public String kind() {
            return "measure-further";
        }

        @Override
        public <R> R match(Cases<R> cases) {
            return cases.measureFurther(this);
        }
    }

    /**
     * Something must be looked at before any adjustment.
     *
     * @param why what, and why
     * @param then the adjustment once nothing is found wrong; {@code null} when it depends on what is found
     */
    record Inspect(String why, @Nullable Adjustment then) implements Adjustment {
        /**
         * Creates the adjustment.
         *
         * @param why what, and why
         * @param then the adjustment once nothing is found wrong; {@code null} when it depends on what is found
         */
        public Inspect {
            requireNonNull(why, "why");
        }

        /** {@return the adjustment once nothing is found wrong, or empty when it depends on what is found} */
        public Optional<Adjustment> findThen() {
            return Optional.ofNullable(then);
        }

        @Override
        public String kind() {
            return "inspect";
        }

        @Override
        public <R> R match(Cases<R> cases) {
            return cases.inspect(this);
        }
    }

    /**
     * Clearance work does not apply.
     *
     * @param why why not
     */
    record NotApplicable(String why) implements Adjustment {
        /**
         * Creates the adjustment.
         *
         * @param why why not
         */
        public NotApplicable {
            requireNonNull(why, "why");
        }

        @Override
        public String kind() {
            return "not-applicable";
        }

        @Override
        public <R> R match(Cases<R> cases) {
            return cases.notApplicable(this);
        }
    }
}
