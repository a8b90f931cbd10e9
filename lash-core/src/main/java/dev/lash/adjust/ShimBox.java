package dev.lash.adjust;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Length;
import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
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

    /**
     * The box with one more shim.
     *
     * @param shim a shim that came out of the engine; nothing is put in where its size is not known
     * @return the box
     */
    public ShimBox with(InstalledShim shim) {
        return requireNonNull(shim, "shim")
                .size()
                .map(size -> changed(lot -> lot.size.equals(size) && lot.type.equals(shim.type()), 1)
                        .orElseGet(() -> {
                            List<Lot> more = new ArrayList<>(lots);
                            more.add(new Lot(size, 1, shim.type()));
                            return new ShimBox(more);
                        }))
                .orElse(this);
    }

    /**
     * The box without a shim that was fitted: one of its own type first, else one whose type is not stated, or any where its own is not.
     * A shim that is not in the box came from elsewhere.
     *
     * @param shim the shim that was fitted
     * @return the box; the same where it holds no such shim
     */
    public ShimBox without(InstalledShim shim) {
        return requireNonNull(shim, "shim")
                .size()
                .flatMap(size -> changed(lot -> isSpare(lot, size) && lot.type.equals(shim.type()), -1)
                        .or(() -> changed(lot -> isSpare(lot, size) && fits(lot, shim), -1)))
                .orElse(this);
    }

    private static boolean isSpare(Lot lot, Length size) {
        return lot.count > 0 && lot.size.equals(size);
    }

    /** The box with another count in the first lot that is meant, or empty where there is none or it is full. */
    private Optional<ShimBox> changed(Predicate<Lot> meant, int by) {
        for (int i = 0; i < lots.size(); i++) {
            Lot lot = lots.get(i);
            if (meant.test(lot) && lot.count + by <= MOST) {
                List<Lot> changed = new ArrayList<>(lots);
                changed.set(i, new Lot(lot.size, lot.count + by, lot.type));
                return Optional.of(new ShimBox(changed));
            }
        }
        return Optional.empty();
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
