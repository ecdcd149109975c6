package org.kilnside.review;

import java.util.Arrays;

/**
 * Where a curve's top is: the level it came to, when it came there and when it left it for good.
 *
 * @param levelC the temperature held, or the highest where nothing was held, °C
 * @param reachedS when the curve first came within {@link #NEAR_K} of it, s
 * @param leftS when it began to fall for the last time; the log's end where it does not fall, s
 * @param highestC the highest half minute, °C
 * @param falls whether the fall was seen
 */
record TopPhase(double levelC, double reachedS, double leftS, double highestC, boolean falls) {
    /** The last few degrees of a ramp belong to the top: there the controller eases off. */
    static final double NEAR_K = 3;

    private static final double WINDOW_S = 120;
    /** 30 °C/h: slower than any kiln cools from its top by itself. */
    private static final double FALLING_K = 1;
    /** A top shorter than this, or still rising, was not held. */
    private static final double SHORTEST_HOLD_S = 480;

    private static final double STILL_RISING_K = 2.5;
    private static final double BAND_K = 6;

    /** @param nearK so far below the highest it still counts as the top, K */
    static TopPhase of(Bins bins, double nearK) {
        double highest = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < bins.size; i++) {
            int from = Math.max(0, i - 1);
            int to = Math.min(bins.size - 1, i + 1);
            double mean = 0;
            for (int j = from; j <= to; j++) {
                mean += bins.celsius[j] / (to - from + 1);
            }
            highest = Math.max(highest, mean);
        }
        int end = bins.last();
        while (end > 0 && bins.celsius[end] < highest - nearK) {
            end--;
        }
        boolean falls = end < bins.last();
        int left = end;
        while (left > 0 && falling(bins, bins.timeS[left])) {
            left--;
        }
        double leftS = bins.timeS[left];
        double endC = bins.meanC(leftS - 300, leftS + 1);
        int band = left;
        while (band > 0 && bins.celsius[band - 1] >= endC - BAND_K) {
            band--;
        }
        double level = level(bins, band, left);
        int reached = 0;
        while (reached < left && bins.celsius[reached] < level - NEAR_K) {
            reached++;
        }
        return new TopPhase(level, bins.timeS[reached], leftS, highest, falls || left < bins.last());
    }

    private static boolean falling(Bins bins, double atS) {
        return bins.meanC(atS - 2 * WINDOW_S, atS - WINDOW_S) - bins.meanC(atS - WINDOW_S, atS + 1) > FALLING_K;
    }

    private static double level(Bins bins, int from, int to) {
        double[] held = Arrays.copyOfRange(bins.celsius, from, to + 1);
        double third = (bins.timeS[to] - bins.timeS[from]) / 3;
        double first = bins.meanC(bins.timeS[from], bins.timeS[from] + third);
        double last = bins.meanC(bins.timeS[to] - third, bins.timeS[to] + 1);
        Arrays.sort(held);
        boolean notHeld = bins.timeS[to] - bins.timeS[from] < SHORTEST_HOLD_S || last - first > STILL_RISING_K;
        return notHeld ? held[held.length - 1 - (held.length > 8 ? 1 : 0)] : held[held.length / 2];
    }

    double minutes() {
        return (leftS - reachedS) / 60;
    }
}
