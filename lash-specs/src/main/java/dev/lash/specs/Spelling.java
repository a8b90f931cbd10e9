package dev.lash.specs;

import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/** Whether a name is likely to be another one, misspelt. */
final class Spelling {
    private static final int LETTERS_FOR_ONE_SLIP = 4;
    private static final int LETTERS_FOR_TWO_SLIPS = 8;

    private Spelling() {}

    /**
     * Whether one name becomes the other by few slips: a letter left out, put in, wrong, or changed over with its neighbour (the
     * distance of Damerau 1964). Capitals do not count. A long name may have two slips, a short one none, for the names of fields that
     * belong together are often short and alike.
     */
    static boolean isNear(String written, String meant) {
        int length = Math.max(written.length(), meant.length());
        int most = length >= LETTERS_FOR_TWO_SLIPS ? 2 : length >= LETTERS_FOR_ONE_SLIP ? 1 : 0;
        return Math.abs(written.length() - meant.length()) <= most && slips(written, meant) <= most;
    }

    /** That of some names which is near with the fewest slips, or nothing where none is near. */
    static String nearest(String written, Set<String> names) {
        String nearest = "";
        for (String name : names) {
            if (isNear(written, name) && (nearest.isEmpty() || slips(written, name) < slips(written, nearest))) {
                nearest = name;
            }
        }
        return nearest;
    }

    /** A question for one who may have meant a name, to stand before the mend; nothing where none is near. */
    static String hint(String near) {
        return near.isEmpty() ? "" : "did you mean \"" + near + "\"? ";
    }

    /**
     * The few names that are most like a written one: those that are near, then those that share the most words between hyphens.
     *
     * @param most how many at most
     */
    static List<String> likeliest(String written, Collection<String> names, int most) {
        Set<String> words = words(written);
        Comparator<String> order = Comparator.comparing((String name) -> !isNear(written, name))
                .thenComparing(name -> -shared(words, name))
                .thenComparing(name -> slips(written, name));
        return names.stream()
                .filter(name -> isNear(written, name) || shared(words, name) > 0)
                .sorted(order)
                .limit(most)
                .toList();
    }

    private static Set<String> words(String name) {
        return Set.copyOf(List.of(name.toLowerCase(Locale.ROOT).split("[-_ ]+", -1)));
    }

    private static int shared(Set<String> words, String name) {
        Set<String> both = new HashSet<>(words(name));
        both.retainAll(words);
        return both.size();
    }

    private static int slips(String written, String meant) {
        String a = written.toLowerCase(Locale.ROOT);
        String b = meant.toLowerCase(Locale.ROOT);
        int[][] slips = new int[a.length() + 1][b.length() + 1];
        for (int i = 0; i <= a.length(); i++) {
            for (int j = 0; j <= b.length(); j++) {
                if (i == 0 || j == 0) {
                    slips[i][j] = i + j;
                    continue;
                }
                int wrong = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
                slips[i][j] = Math.min(slips[i - 1][j - 1] + wrong, 1 + Math.min(slips[i - 1][j], slips[i][j - 1]));
                boolean over =
                        i > 1 && j > 1 && a.charAt(i - 1) == b.charAt(j - 2) && a.charAt(i - 2) == b.charAt(j - 1);
                if (over) {
                    slips[i][j] = Math.min(slips[i][j], slips[i - 2][j - 2] + 1);
                }
            }
        }
        return slips[a.length()][b.length()];
    }
}
