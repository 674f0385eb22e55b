package dev.lapwing.source;

import java.util.Collection;
import java.util.Comparator;
import java.util.Optional;

/** Finds the name that somebody probably meant. */
public final class NearestName {
    private NearestName() {}

    /** {@code did you mean 'x'?}, or an empty text where no known name is near. */
    public static String hint(String written, Collection<String> known) {
        return of(written, known).map(name -> "did you mean '" + name + "'?").orElse("");
    }

    /** The known name with the fewest edits from {@code written}, if these are few for its length. */
    public static Optional<String> of(String written, Collection<String> known) {
        int most = Math.max(1, written.length() / 3);
        return known.stream()
                .filter(name -> edits(written, name) <= most)
                .min(Comparator.comparingInt((String name) -> edits(written, name))
                        .thenComparing(Comparator.naturalOrder()));
    }

    /** Edit distance with neighbouring letters swapped counted as one edit (restricted Damerau–Levenshtein). */
    static int edits(String left, String right) {
        int[][] cost = new int[left.length() + 1][right.length() + 1];
        for (int i = 0; i <= left.length(); i++) {
            for (int j = 0; j <= right.length(); j++) {
                cost[i][j] = i == 0 || j == 0 ? i + j : cheapest(cost, left, right, i, j);
            }
        }
        return cost[left.length()][right.length()];
    }

    private static int cheapest(int[][] cost, String left, String right, int i, int j) {
        boolean same = left.charAt(i - 1) == right.charAt(j - 1);
        int least = Math.min(cost[i - 1][j - 1] + (same ? 0 : 1), 1 + Math.min(cost[i - 1][j], cost[i][j - 1]));
        boolean swapped = i > 1
                && j > 1
                && left.charAt(i - 1) == right.charAt(j - 2)
                && left.charAt(i - 2) == right.charAt(j - 1);
        return swapped ? Math.min(least, cost[i - 2][j - 2] + 1) : least;
    }
}
