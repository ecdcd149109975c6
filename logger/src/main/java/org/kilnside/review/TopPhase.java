package org.kilnside.review;

import java.util.ArrayList;
import java.util.List;

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

    /** Further below the level, the fall has begun. */
    private static final double LEFT_K = 1.5;

    /** Within so many degrees of each other readings are of one level. */
    private static final double BAND_K = 5;

    /** A level stood for so much longer than the highest degrees did is the level, and what is above it overshoot. */
    private static final double TIMES_LONGER = 1.5;

    private static final double LEAST_LONGER_S = 180;

    /** A top shorter than this was not held. */
    private static final double SHORTEST_HOLD_S = 480;

    private static final double BIN_LONGEST_S = 600;

    /** @param nearK so far below the highest it still counts as the top, K */
    static TopPhase of(Bins bins, double nearK) {
        double highest = highest(bins);
        int last = bins.last();
        while (last > 0 && bins.celsius[last] < highest - nearK) {
            last--;
        }
        int first = 0;
        while (first < last && bins.celsius[first] < highest - nearK) {
            first++;
        }
        double level = level(bins, first, last, highest, nearK);
        int left = last;
        while (left > first && bins.celsius[left] < level - LEFT_K) {
            left--;
        }
        int reached = first;
        while (reached < left && bins.celsius[reached] < level - NEAR_K) {
            reached++;
        }
        // A log that ends within the top may have its last bins a little lower by noise.
        boolean falls = bins.celsius[bins.last()] < level - 2 * NEAR_K;
        return new TopPhase(level, bins.timeS[reached], bins.timeS[left], highest, falls);
    }

    /** The highest mean of three bins. */
    private static double highest(Bins bins) {
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
        return highest;
    }

    private static double level(Bins bins, int first, int last, double highest, double nearK) {
        double topS = timeIn(bins, first, last, highest - BAND_K, highest + BAND_K);
        double mostS = 0;
        double mostC = highest;
        int peak = first;
        for (int i = first; i <= last; i++) {
            peak = bins.celsius[i] > bins.celsius[peak] ? i : peak;
        }
        // Only what comes after the highest is a hold after an overshoot; before it, the kiln was still creeping up.
        for (double lower = highest - nearK; lower < highest - BAND_K; lower++) {
            double seconds = timeIn(bins, peak, last, lower, lower + BAND_K);
            if (seconds > mostS) {
                mostS = seconds;
                mostC = lower;
            }
        }
        if (mostS > TIMES_LONGER * topS + LEAST_LONGER_S) {
            return usualIn(bins, peak, last, mostC, mostC + BAND_K);
        }
        return topS > SHORTEST_HOLD_S ? usualIn(bins, first, last, highest - BAND_K, highest + BAND_K) : highest;
    }

    private static double timeIn(Bins bins, int first, int last, double fromC, double toC) {
        double seconds = 0;
        for (int i = first; i <= last; i++) {
            if (bins.celsius[i] >= fromC && bins.celsius[i] < toC) {
                seconds += weightS(bins, i);
            }
        }
        return seconds;
    }

    /** The temperature below which the curve stood for three fifths of its time in a band: a ramp's end weighs little. */
    private static double usualIn(Bins bins, int first, int last, double fromC, double toC) {
        List<double[]> inside = new ArrayList<>();
        double all = 0;
        for (int i = first; i <= last; i++) {
            if (bins.celsius[i] >= fromC && bins.celsius[i] < toC) {
                inside.add(new double[] {bins.celsius[i], weightS(bins, i)});
                all += weightS(bins, i);
            }
        }
        inside.sort((one, other) -> Double.compare(one[0], other[0]));
        double passed = 0;
        for (double[] each : inside) {
            passed += each[1];
            if (passed >= 0.6 * all) {
                return each[0];
            }
        }
        return (fromC + toC) / 2;
    }

    /** How long a bin stands for. */
    private static double weightS(Bins bins, int i) {
        double from = i == 0 ? bins.timeS[0] : (bins.timeS[i - 1] + bins.timeS[i]) / 2;
        double to = i == bins.last() ? bins.timeS[i] : (bins.timeS[i] + bins.timeS[i + 1]) / 2;
        return Math.min(BIN_LONGEST_S, to - from);
    }
}
