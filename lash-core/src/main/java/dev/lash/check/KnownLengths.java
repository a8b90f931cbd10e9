package dev.lash.check;

import dev.lash.measure.LengthUnit;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/** What texts were read as lately: a file has few different leaves and shims. Used by one thread. */
final class KnownLengths {
    /** The longest text that is kept. */
    static final int LONGEST = 24;

    private static final int MOST = 256;

    private final @Nullable String[] texts = new String[MOST];
    private final @Nullable LengthUnit[] units = new LengthUnit[MOST];
    private final long[] nanometres = new long[MOST];
    private @Nullable RecordLayout layout;

    /** The length that a text was read as with this declared unit, or {@link NumberText#NONE} where it is not known. */
    @SuppressWarnings("ReferenceEquality") // rows of one file have the same layout; with another one all is read anew
    long find(String text, RecordLayout of, @Nullable LengthUnit declared) {
        if (of != layout) {
            layout = of;
            Arrays.fill(texts, null);
        }
        int place = place(text);
        return text.equals(texts[place]) && declared == units[place] ? nanometres[place] : NumberText.NONE;
    }

    /** Keeps what a text was read as, which was asked for just now. */
    void keep(String text, @Nullable LengthUnit declared, long size) {
        int place = place(text);
        texts[place] = text;
        units[place] = declared;
        nanometres[place] = size;
    }

    private static int place(String text) {
        int hash = text.hashCode();
        return (hash ^ hash >>> 8 ^ hash >>> 16) & (MOST - 1);
    }
}
