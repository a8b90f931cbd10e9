package dev.lash.check;

import static java.util.Objects.requireNonNull;

import dev.lash.gauge.LeafStack;
import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import java.io.Serializable;

/** What was done to a valve at the bench. A closed choice. */
public sealed interface Done extends Serializable {
    /**
     * What was done, for a person.
     *
     * @param unit the unit of lengths
     * @return the text
     */
    String toString(LengthUnit unit);

    /**
     * The screw was set so that a leaf drags.
     *
     * @param leaf the setting leaf
     */
    record SetWith(LeafStack leaf) implements Done {
        /**
         * Creates the record.
         *
         * @param leaf the setting leaf
         */
        public SetWith {
            requireNonNull(leaf, "leaf");
        }

        @Override
        public String toString(LengthUnit unit) {
            return "set with " + leaf.toString(unit);
        }
    }

    /**
     * The screw was turned by a counted angle.
     *
     * @param degrees degrees, positive as the clearance grows
     */
    record Turned(Ratio degrees) implements Done {
        /**
         * Creates the record.
         *
         * @param degrees degrees, positive as the clearance grows
         */
        public Turned {
            requireNonNull(degrees, "degrees");
        }

        @Override
        public String toString(LengthUnit unit) {
            return "turned by " + degrees + " degrees";
        }
    }

    /**
     * A shim was fitted.
     *
     * @param shim its size
     */
    record Fitted(Length shim) implements Done {
        /**
         * Creates the record.
         *
         * @param shim its size
         */
        public Fitted {
            requireNonNull(shim, "shim");
        }

        @Override
        public String toString(LengthUnit unit) {
            return "fitted shim " + shim;
        }
    }
}
