package org.kilnside.files;

import java.util.Arrays;

/**
 * The most rows of a log whose times rise. One row with a false time, too early or too late, is thereby the row left
 * out, and never the thousand good ones after it.
 */
final class TimeOrder {
    private final long[] times;
    private final int size;

    TimeOrder(long[] times, int size) {
        this.times = times;
        this.size = size;
    }

    /** Indices of the rows to keep, rising: of rows with the same time the first. */
    int[] rising() {
        int disorder = 1;
        while (disorder < size && times[disorder] > times[disorder - 1]) {
            disorder++;
        }
        if (disorder >= size) {
            int[] all = new int[size];
            Arrays.setAll(all, i -> i);
            return all;
        }
        return longestRising();
    }

    /** Longest strictly increasing subsequence by patience sorting, O(n log n). */
    private int[] longestRising() {
        int[] endOf = new int[size];
        int[] before = new int[size];
        int longest = 0;
        for (int row = 0; row < size; row++) {
            int low = 0;
            int high = longest;
            while (low < high) {
                int middle = (low + high) >>> 1;
                if (times[endOf[middle]] < times[row]) {
                    low = middle + 1;
                } else {
                    high = middle;
                }
            }
            before[row] = low == 0 ? -1 : endOf[low - 1];
            if (low == longest) {
                endOf[longest++] = row;
            } else if (times[endOf[low]] > times[row]) {
                // On a tie the earlier row stays.
                endOf[low] = row;
            }
        }
        int[] kept = new int[longest];
        int row = longest == 0 ? -1 : endOf[longest - 1];
        for (int i = longest - 1; i >= 0; i--) {
            kept[i] = row;
            row = before[row];
        }
        return kept;
    }
}
