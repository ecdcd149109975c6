package org.kilnside.files;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** The known word that a mistyped one most resembles. */
final class NearMatch {
    private NearMatch() {}

    /** The nearest of the known words, if it is at most two slips away and at most half its length. */
    static Optional<String> of(String word, List<String> known) {
        String typed = word.toLowerCase(Locale.ROOT).strip().replace('-', '_').replace(' ', '_');
        return known.stream()
                .filter(candidate -> slips(typed, candidate) <= Math.min(2, (candidate.length() + 1) / 2))
                .min(Comparator.comparingInt(candidate -> slips(typed, candidate)));
    }

    /** Letters to add, drop, change or swap to get from one word to the other (optimal string alignment). */
    static int slips(String from, String to) {
        if (Math.abs(from.length() - to.length()) > 4) {
            return Integer.MAX_VALUE;
        }
        int[][] cost = new int[from.length() + 1][to.length() + 1];
        for (int i = 0; i <= from.length(); i++) {
            for (int j = 0; j <= to.length(); j++) {
                if (i == 0 || j == 0) {
                    cost[i][j] = i + j;
                    continue;
                }
                boolean same = from.charAt(i - 1) == to.charAt(j - 1);
                int best = Math.min(cost[i - 1][j - 1] + (same ? 0 : 1), Math.min(cost[i - 1][j], cost[i][j - 1]) + 1);
                if (i > 1
                        && j > 1
                        && from.charAt(i - 1) == to.charAt(j - 2)
                        && from.charAt(i - 2) == to.charAt(j - 1)) {
                    best = Math.min(best, cost[i - 2][j - 2] + 1);
                }
                cost[i][j] = best;
            }
        }
        return cost[from.length()][to.length()];
    }
}
