package dev.lash.adjust;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Length;
import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.util.List;
import java.util.function.Predicate;

/**
 * The spare shims of the shop.
 *
 * @param lots the lots, in any order
 */
public record ShimBox(List<Lot> lots) implements Serializable {
    private static final ShimBox EMPTY = new ShimBox(List.of());
    private static final int MOST = 100_000;

    /**
     * Creates a box.
     *
     * @param lots the lots, in any order
     */
    public ShimBox {
        lots = List.copyOf(lots);
    }

    /** {@return a box with nothing in it} */
    public static ShimBox empty() {
        return EMPTY;
    }

    /** {@return the sizes in it, thinnest first, each once} */
    public List<Length> sizes() {
        return sizes(lot -> true);
    }

    /** The sizes that fit where this shim is; where either type is not stated they are taken to be the same. */
    List<Length> sizesFor(InstalledShim shim) {
        return sizes(lot -> fits(lot, shim));
    }

    private List<Length> sizes(Predicate<Lot> fits) {
        return lots.stream()
                .filter(lot -> lot.count > 0)
                .filter(fits)
                .map(Lot::size)
                .distinct()
                .sorted()
                .toList();
    }

    /**
     * How many shims of a size are in it that fit where another is: those of its type; where either type is not stated they are taken
     * to be the same.
     *
     * @param size the size
     * @param installed the shim in whose place they would go
     * @return how many
     */
    public long count(Length size, InstalledShim installed) {
        return lots.stream()
                .filter(lot -> lot.size.equals(size) && fits(lot, installed))
                .mapToLong(Lot::count)
                .sum();
    }

    private static boolean fits(Lot lot, InstalledShim shim) {
        return lot.type.equals(shim.type()) || lot.type.isBlank() || shim.type().isBlank();
    }

    /**
     * Shims of one size.
     *
     * @param size the size
     * @param count how many, 0 to 100&nbsp;000
     * @param type diameter or pattern, free text
     */
    public record Lot(Length size, int count, String type) implements Serializable {
        /**
         * Creates a lot.
         *
         * @param size the size
         * @param count how many, 0 to 100&nbsp;000
         * @param type diameter or pattern, free text
         * @throws RejectedValueException if size or count is outside its range
         */
        public Lot {
            InstalledShim.checkSize("shim size", requireNonNull(size, "size"));
            requireNonNull(type, "type");
            if (count < 0 || count > MOST) {
                throw new RejectedValueException(
                        "shim count", String.valueOf(count), "is out of range", "0 to " + MOST, "count the shims");
            }
        }
    }
}
