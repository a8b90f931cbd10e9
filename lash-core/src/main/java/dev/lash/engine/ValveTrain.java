package dev.lash.engine;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Length;
import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.util.Optional;

/**
 * What moves the valve, and how its clearance is adjusted. A closed choice; {@link Cases} has one function per case.
 *
 * <p>One sign everywhere: a positive movement of an adjuster means that the clearance grows.
 */
public sealed interface ValveTrain extends Serializable {
    /**
     * The name of this kind in documents, such as {@code "rocker-screw"}.
     *
     * @return the name
     */
    String kind();

    /**
     * The sizes of shim, or of graded bucket, that are made for a gap.
     *
     * @param gap which gap
     * @return the sizes, or empty where no shim is swapped
     */
    default Optional<ShimRange> shims(Gap gap) {
        requireNonNull(gap, "gap");
        return Optional.empty();
    }

    /** {@return how much the clearance falls per unit of shim, or empty where no shim is swapped} */
    default Optional<Ratio> shimRatio() {
        return Optional.empty();
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
     * One function per case of valve train.
     *
     * @param <R> what the functions return
     */
    interface Cases<R> {
        /**
         * For a screw or nut.
         *
         * @param train the train
         * @return the result
         */
        R screw(Screw train);

        /**
         * For a wedge screw in a tappet.
         *
         * @param train the train
         * @return the result
         */
        R wedge(Wedge train);

        /**
         * For an eccentric rocker shaft or bush.
         *
         * @param train the train
         * @return the result
         */
        R eccentric(Eccentric train);

        /**
         * For shims and graded buckets.
         *
         * @param train the train
         * @return the result
         */
        R shim(Shim train);

        /**
         * For a valve that is opened and closed by the train.
         *
         * @param train the train
         * @return the result
         */
        R desmodromic(Desmodromic train);

        /**
         * For a valve that only machine work adjusts.
         *
         * @param train the train
         * @return the result
         */
        R fixed(Fixed train);

        /**
         * For hydraulic lifters.
         *
         * @param train the train
         * @return the result
         */
        R hydraulic(Hydraulic train);
    }

    /** Where a screw or nut sits; this decides how much the clearance changes for its movement. */
    enum ScrewPlace {
        /** A screw with a lock nut in the rocker, at the valve tip. */
        ROCKER_TIP("rocker-screw"),
        /** A screw with a lock nut in the rocker, at the pushrod end. */
        PUSHROD_END("pushrod-screw"),
        /** A threaded pushrod. */
        THREADED_PUSHROD("pushrod-threaded"),
        /** A nut on the stud that is the rocker's fulcrum. */
        FULCRUM_NUT("stud-nut"),
        /** A screw with a lock nut in the tappet (side valve). */
        TAPPET("tappet-screw"),
        /** Two screws on a forked rocker, one arm over two valves. */
        FORKED_ROCKER("rocker-forked"),
        /** A valve bridge (crosshead) over two valves, set before the rocker. */
        BRIDGE("bridge");

        private final String kind;

        ScrewPlace(String kind) {
            this.kind = kind;
        }

        /** {@return the name in documents} */
        public String kind() {
            return kind;
        }

        /** {@return which way the turn goes that makes the clearance grow, for a right-handed thread} */
        public String growing() {
            return switch (this) {
                case ROCKER_TIP, PUSHROD_END, FORKED_ROCKER ->
                    "screw out (anticlockwise where the thread is right-handed)";
                case FULCRUM_NUT -> "nut up the stud (anticlockwise where the thread is right-handed)";
                case THREADED_PUSHROD -> "make the pushrod shorter";
                case TAPPET -> "make the tappet shorter: its screw in";
                case BRIDGE -> "rocker screw out (anticlockwise where the thread is right-handed)";
            };
        }

        /** {@return which way the turn goes that makes the clearance shrink, for a right-handed thread} */
        public String shrinking() {
            return switch (this) {
                case ROCKER_TIP, PUSHROD_END, FORKED_ROCKER -> "screw in (clockwise where the thread is right-handed)";
                case FULCRUM_NUT -> "nut down the stud (clockwise where the thread is right-handed)";
                case THREADED_PUSHROD -> "make the pushrod longer";
                case TAPPET -> "make the tappet longer: its screw out";
                case BRIDGE -> "rocker screw in (clockwise where the thread is right-handed)";
            };
        }

        /** {@return whether a rocker ratio is needed to know what a turn does} */
        public boolean needsRatio() {
            return this == PUSHROD_END || this == THREADED_PUSHROD || this == FULCRUM_NUT;
        }
    }

    /** Where a shim sits. */
    enum ShimPlace {
        /** A shim on top of the bucket: swapped with the camshaft in place. */
        OVER_BUCKET("bucket-shim-over"),
        /** A shim under the bucket: the camshaft comes out. */
        UNDER_BUCKET("bucket-shim-under"),
        /** A bucket made in sizes: the camshaft comes out. */
        GRADED_BUCKET("bucket-graded"),
        /** A shim under a finger follower: swapped with the camshaft in place, unless the engine names its {@link Camshafts}. */
        FOLLOWER("follower-shim");

        private final String kind;

        ShimPlace(String kind) {
            this.kind = kind;
        }

        /** {@return the name in documents} */
        public String kind() {
            return kind;
        }
    }

    /**
     * A screw or nut.
     *
     * @param place where it sits
     * @param pitch its pitch
     * @param ratio valve arm over pushrod arm; 1 where {@link ScrewPlace#needsRatio} is false
     * @param head the shape by which it is turned
     */
    record Screw(ScrewPlace place, Pitch pitch, Ratio ratio, ScrewHead head) implements ValveTrain {
        /**
         * Creates a screw train.
         *
         * @param place where it sits
         * @param pitch its pitch
         * @param ratio valve arm over pushrod arm; 1 where {@link ScrewPlace#needsRatio} is false
         * @param head the shape by which it is turned
         * @throws RejectedValueException if the ratio is outside 0.1 to 10, or not 1 where none applies
         */
        public Screw {
            requireNonNull(place, "place");
            requireNonNull(pitch, "pitch");
            requireNonNull(head, "head");
            checkRatio("rocker ratio", ratio);
            if (!place.needsRatio() && !ratio.equals(Ratio.ONE)) {
                throw new RejectedValueException(
                        "rocker ratio",
                        ratio.toString(),
                        "does not apply to " + place.kind(),
                        "no ratio",
                        "leave it out");
            }
        }

        /**
         * The commonest: a screw with a lock nut at the valve tip.
         *
         * @param pitch its pitch
         * @return the train
         */
        public static Screw atValveTip(Pitch pitch) {
            return new Screw(ScrewPlace.ROCKER_TIP, pitch, Ratio.ONE, ScrewHead.NOT_STATED);
        }

        /**
         * What the clearance, where the leaf goes, changes by for a unit of thread: 1 at the valve tip, in a tappet, on a forked
         * rocker and above a bridge; the ratio at the pushrod; 1 + ratio for a nut that moves the fulcrum (geometry of the lever).
         *
         * @return the change of clearance over the movement of the thread
         */
        public Ratio gain() {
            return switch (place) {
                case ROCKER_TIP, TAPPET, FORKED_ROCKER, BRIDGE -> Ratio.ONE;
                case PUSHROD_END, THREADED_PUSHROD -> ratio;
                case FULCRUM_NUT -> Ratio.ONE.plus(ratio);
            };
        }

        /** {@return the change of clearance in one turn, in nanometres} */
        public Ratio nanometresPerTurn() {
            return pitch.nanometresPerTurn().times(gain());
        }

        @Override
        public String kind() {
            return place.kind();
        }

        @Override
        public <R> R match(Cases<R> cases) {
            return cases.screw(this);
        }
    }

    /**
     * A wedge screw in a tappet, which may stand in whole turns only; each turn changes the clearance by one step.
     *
     * @param step what the clearance changes by in one turn, above 0 and at most 1 mm
     */
    record Wedge(Length step) implements ValveTrain {
        private static final Length LARGEST = Length.ofMillimetres("1");

        /**
         * Creates a wedge-screw train.
         *
         * @param step what the clearance changes by in one turn, above 0 and at most 1 mm
         * @throws RejectedValueException if the step is outside its range
         */
        public Wedge {
            requireNonNull(step, "step");
            if (step.signum() <= 0 || step.isMoreThan(LARGEST)) {
                throw new RejectedValueException(
                        "step of a wedge screw",
                        step.toString(),
                        "is out of range",
                        "above 0 mm and at most " + LARGEST,
                        "check the figure and its unit");
            }
        }

        @Override
        public String kind() {
            return ScrewPlace.TAPPET.kind();
        }

        @Override
        public <R> R match(Cases<R> cases) {
            return cases.wedge(this);
        }
    }

    /**
     * An eccentric rocker shaft or bush. Where it stands is given as an angle a, so that turning it from a0 to a changes the
     * clearance by dc = m e (sin a0 - sin a); at 0 degrees the clearance changes fastest.
     *
     * @param eccentricity the distance between the two centres, above 0 and at most 10 mm
     * @param multiplier what the clearance changes by for a unit that the eccentric's centre moves: 1 at the tip, 1 + rocker
     *     ratio at a fulcrum in the middle
     */
    record Eccentric(Length eccentricity, Ratio multiplier) implements ValveTrain {
        private static final Length LARGEST = Length.ofMillimetres("10");

        /**
         * Creates an eccentric train.
         *
         * @param eccentricity the distance between the two centres, above 0 and at most 10 mm
         * @param multiplier what the clearance changes by for a unit that the eccentric's centre moves: 1 at the tip, 1 + rocker ratio at a fulcrum in the middle
         * @throws RejectedValueException if a figure is outside its range
         */
        public Eccentric {
            requireNonNull(eccentricity, "eccentricity");
            checkRatio("multiplier", multiplier);
            if (eccentricity.signum() <= 0 || eccentricity.isMoreThan(LARGEST)) {
                throw new RejectedValueException(
                        "eccentricity",
                        eccentricity.toString(),
                        "is out of range",
                        "above 0 mm and at most " + LARGEST,
                        "check the figure and its unit");
            }
        }

        @Override
        public String kind() {
            return "eccentric";
        }

        @Override
        public <R> R match(Cases<R> cases) {
            return cases.eccentric(this);
        }
    }

    /**
     * Shims, or buckets made in sizes.
     *
     * @param place where the shim sits
     * @param sizes the sizes that are made
     * @param ratio what the clearance, where the leaf goes, changes by for a unit of shim: 1 under and over a bucket; from the
     *     geometry of a finger follower
     */
    record Shim(ShimPlace place, ShimRange sizes, Ratio ratio) implements ValveTrain {
        /**
         * Creates a shim train.
         *
         * @param place where the shim sits
         * @param sizes the sizes that are made
         * @param ratio what the clearance, where the leaf goes, changes by for a unit of shim: 1 under and over a bucket; from the geometry of a finger follower
         * @throws RejectedValueException if the ratio is outside 0.1 to 10, or not 1 for a bucket
         */
        public Shim {
            requireNonNull(place, "place");
            requireNonNull(sizes, "sizes");
            checkRatio("follower ratio", ratio);
            if (place != ShimPlace.FOLLOWER && !ratio.equals(Ratio.ONE)) {
                throw new RejectedValueException(
                        "follower ratio",
                        ratio.toString(),
                        "does not apply to " + place.kind(),
                        "no ratio",
                        "leave it out");
            }
        }

        /**
         * A bucket with shims.
         *
         * @param place where the shim sits, not under a follower
         * @param sizes the sizes that are made
         * @return the train
         */
        public static Shim bucket(ShimPlace place, ShimRange sizes) {
            return new Shim(place, sizes, Ratio.ONE);
        }

        @Override
        public String kind() {
            return place.kind();
        }

        @Override
        public Optional<ShimRange> shims(Gap gap) {
            requireNonNull(gap, "gap");
            return Optional.of(sizes);
        }

        @Override
        public Optional<Ratio> shimRatio() {
            return Optional.of(ratio);
        }

        @Override
        public <R> R match(Cases<R> cases) {
            return cases.shim(this);
        }
    }

    /**
     * A valve that the train both opens and closes, each side with its own gap and shims.
     *
     * @param opener the sizes of the opener shims
     * @param closer the sizes of the closer shims
     */
    record Desmodromic(ShimRange opener, ShimRange closer) implements ValveTrain {
        /**
         * Creates a desmodromic train.
         *
         * @param opener the sizes of the opener shims
         * @param closer the sizes of the closer shims
         */
        public Desmodromic {
            requireNonNull(opener, "opener");
            requireNonNull(closer, "closer");
        }

        @Override
        public String kind() {
            return "desmodromic";
        }

        @Override
        public Optional<ShimRange> shims(Gap gap) {
            return Optional.of(requireNonNull(gap, "gap") == Gap.CLOSER ? closer : opener);
        }

        @Override
        public Optional<Ratio> shimRatio() {
            return Optional.of(Ratio.ONE);
        }

        @Override
        public <R> R match(Cases<R> cases) {
            return cases.desmodromic(this);
        }
    }

    /** A valve whose clearance only machine work changes: grinding the stem tip, cutting seat or face. */
    record Fixed() implements ValveTrain {
        @Override
        public String kind() {
            return "fixed";
        }

        @Override
        public <R> R match(Cases<R> cases) {
            return cases.fixed(this);
        }
    }

    /** Hydraulic lifters: there is no clearance to measure. */
    record Hydraulic() implements ValveTrain {
        @Override
        public String kind() {
            return "hydraulic";
        }

        @Override
        public <R> R match(Cases<R> cases) {
            return cases.hydraulic(this);
        }
    }

    private static void checkRatio(String what, Ratio ratio) {
        if (ratio.compareTo(Ratio.of(1, 10)) < 0 || ratio.compareTo(Ratio.of(10, 1)) > 0) {
            throw new RejectedValueException(
                    what, ratio.toString(), "is out of range", "0.1 to 10", "check the two lever arms");
        }
    }
}
