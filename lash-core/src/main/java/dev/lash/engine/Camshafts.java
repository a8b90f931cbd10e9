package dev.lash.engine;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * Which camshaft lies over which valves: what must be lifted to reach a shim. Without banks all cylinders are in one. For shims under
 * followers none is lifted with {@link #ONE_PER_ROLE}, which is what an engine has that does not say: name the banks where one comes out.
 *
 * @param perBank how many camshafts a bank has
 * @param banks the cylinders of each bank, by number; empty for an engine with one bank
 */
public record Camshafts(PerBank perBank, List<List<Integer>> banks) implements Serializable {
    /** One camshaft for each role in a single bank: an in-line engine with two camshafts, or one that does not say. */
    public static final Camshafts ONE_PER_ROLE = new Camshafts(PerBank.ONE_PER_ROLE, List.of());

    /** How many camshafts a bank has. */
    public enum PerBank {
        /** One camshaft over all valves of the bank. */
        ONE("one"),
        /** One over the intake valves and one over the exhaust valves. */
        ONE_PER_ROLE("one-per-role");

        private final String word;

        PerBank(String word) {
            this.word = word;
        }

        /** {@return the word in documents, such as {@code "one-per-role"}} */
        public String word() {
            return word;
        }

        /**
         * Reads a word.
         *
         * @param text the word
         * @return how many camshafts
         * @throws RejectedValueException if it is none of the words
         */
        public static PerBank parse(String text) {
            for (PerBank value : values()) {
                if (value.word.equals(requireNonNull(text, "text"))) {
                    return value;
                }
            }
            throw new RejectedValueException(
                    "camshafts of a bank", text, "is not known", "one, one-per-role", "write one of these");
        }

        /** {@return {@link #word()}} */
        @Override
        public String toString() {
            return word;
        }
    }

    /**
     * Creates camshafts.
     *
     * @param perBank how many camshafts a bank has
     * @param banks the cylinders of each bank, by number; empty for an engine with one bank
     * @throws RejectedValueException if a bank is empty or a cylinder is in two places
     */
    public Camshafts {
        requireNonNull(perBank, "perBank");
        banks = banks.stream().map(List::copyOf).toList();
        Set<Integer> seen = new HashSet<>();
        if (banks.stream().anyMatch(bank -> bank.isEmpty() || !bank.stream().allMatch(seen::add))) {
            throw new RejectedValueException(
                    "banks",
                    banks.toString(),
                    "have an empty bank or a cylinder twice",
                    "each cylinder in one bank",
                    "list the cylinders of each bank once");
        }
    }

    /**
     * The camshaft over a valve.
     *
     * @param valve the valve
     * @return a name that goes before the word camshaft, such as {@code "intake"}, {@code "bank 2 exhaust"}, {@code "bank 1"} or {@code
     *     "only"}
     * @throws RejectedValueException if there are banks and none has the valve's cylinder
     */
    public String over(ValveId valve) {
        requireNonNull(valve, "valve");
        String role = perBank == PerBank.ONE ? "" : valve.role().word();
        if (banks.size() < 2) {
            return role.isEmpty() ? "only" : role;
        }
        for (int i = 0; i < banks.size(); i++) {
            if (banks.get(i).contains(valve.cylinder())) {
                return ("bank " + (i + 1) + " " + role).strip();
            }
        }
        throw new RejectedValueException(
                "banks",
                banks.toString(),
                "leave out cylinder " + valve.cylinder(),
                "every cylinder in a bank",
                "add it to its bank");
    }
}
