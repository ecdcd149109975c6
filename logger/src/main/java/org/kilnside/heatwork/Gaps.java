package org.kilnside.heatwork;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Where readings are missing, and whether the top of the firing can have been there. Judged reading by reading from
 * the readings alone, so the same live and replayed.
 */
final class Gaps {
    private static final int USUAL_OF = 15;
    private static final int TIMES_USUAL = 5;
    private static final long SHORTEST_MS = 30_000;
    private static final long ALWAYS_MS = 1_800_000;

    private static final int SLOPE_OVER = 10;
    private static final long SLOPE_EVERY_MS = 30_000;

    /** A kiln that falls faster than this into a gap, in K/h, has its top behind it; noise over five minutes does not. */
    private static final double FALLING_K_PER_H = 36;

    /** Over less than this no rate is worth its name. */
    private static final long SLOPE_LEAST_MS = 120_000;

    /** So long after a gap it shows whether the curve came out of it falling. */
    private static final long SETTLED_MS = 300_000;

    private static final double NOISE_K = 3;

    private final long[] intervalsMs = new long[USUAL_OF];
    private int intervals;
    private final long[] sampleMs = new long[SLOPE_OVER];
    private final double[] sampleC = new double[SLOPE_OVER];
    private int samples;
    private long totalMs;
    private final List<Gap> gaps = new ArrayList<>();

    Gaps() {}

    private Gaps(Gaps other) {
        System.arraycopy(other.intervalsMs, 0, intervalsMs, 0, USUAL_OF);
        intervals = other.intervals;
        System.arraycopy(other.sampleMs, 0, sampleMs, 0, SLOPE_OVER);
        System.arraycopy(other.sampleC, 0, sampleC, 0, SLOPE_OVER);
        samples = other.samples;
        totalMs = other.totalMs;
        other.gaps.forEach(gap -> gaps.add(gap.copy()));
    }

    Gaps copy() {
        return new Gaps(this);
    }

    /** One stretch without readings. */
    private static final class Gap {
        private final double fromC;
        private final long endMs;
        private final double toC;
        private final double highestPossibleC;
        private final boolean begunFalling;
        private double highestAfterC;
        private boolean settled;
        private double settledC;

        Gap(double fromC, long endMs, double toC, double highestPossibleC, boolean begunFalling) {
            this.fromC = fromC;
            this.endMs = endMs;
            this.toC = toC;
            this.highestPossibleC = highestPossibleC;
            this.begunFalling = begunFalling;
            this.highestAfterC = toC;
        }

        Gap copy() {
            Gap copy = new Gap(fromC, endMs, toC, highestPossibleC, begunFalling);
            copy.highestAfterC = highestAfterC;
            copy.settled = settled;
            copy.settledC = settledC;
            return copy;
        }

        void goOn(long atMs, double celsius) {
            highestAfterC = Math.max(highestAfterC, celsius);
            if (!settled && atMs - endMs >= SETTLED_MS) {
                settled = true;
                settledC = celsius;
            }
        }

        /** Whether the curve turned from rising or holding to falling inside the gap. */
        boolean hidesATurn(double lastC) {
            if (begunFalling) {
                return false;
            }
            boolean cameOutLower = toC < fromC - NOISE_K;
            boolean fellAfter = (settled ? settledC : lastC) < toC - NOISE_K;
            return cameOutLower || fellAfter;
        }
    }

    /**
     * Takes the step from one good reading to the next, and says whether the stretch between them may be counted: false
     * where the curve turned down unseen, so that a straight line across would be a guess.
     */
    boolean mayBridge(long fromMs, double fromC, long toMs, double toC) {
        long apartMs = toMs - fromMs;
        boolean bridge = true;
        if (isGap(apartMs)) {
            totalMs += apartMs;
            double slope = slopeKPerH(fromMs, fromC);
            boolean falling = slope < -FALLING_K_PER_H;
            double possibleC = fromC + Math.max(0, slope) * apartMs / 3_600_000.0;
            gaps.add(new Gap(fromC, toMs, toC, possibleC, falling));
            bridge = falling || toC >= fromC - NOISE_K;
            samples = 0;
        } else {
            intervalsMs[intervals % USUAL_OF] = apartMs;
            intervals = intervals == 2 * USUAL_OF - 1 ? USUAL_OF : intervals + 1;
        }
        if (!gaps.isEmpty()) {
            gaps.get(gaps.size() - 1).goOn(toMs, toC);
        }
        sample(toMs, toC);
        return bridge;
    }

    /** The sum of all gaps, ms. */
    long totalMs() {
        return totalMs;
    }

    /**
     * Whether a gap may hide the top: the curve turned down inside it, and could have been as high there as the highest
     * reading seen.
     */
    boolean mayHideTop(double peakC, double lastC, double nearTopK) {
        for (Gap gap : gaps) {
            if (gap.hidesATurn(lastC) && gap.highestPossibleC >= peakC - nearTopK && gap.highestAfterC <= peakC) {
                return true;
            }
        }
        return false;
    }

    private boolean isGap(long apartMs) {
        if (apartMs >= ALWAYS_MS && (intervals == 0 || apartMs > TIMES_USUAL * usualMs())) {
            return true;
        }
        return intervals > 0 && apartMs >= SHORTEST_MS && apartMs > TIMES_USUAL * usualMs();
    }

    private long usualMs() {
        int count = Math.min(intervals, USUAL_OF);
        long[] sorted = Arrays.copyOf(intervalsMs, count);
        Arrays.sort(sorted);
        return sorted[count / 2];
    }

    private void sample(long atMs, double celsius) {
        if (samples > 0 && atMs - sampleMs[(samples - 1) % SLOPE_OVER] < SLOPE_EVERY_MS) {
            return;
        }
        sampleMs[samples % SLOPE_OVER] = atMs;
        sampleC[samples % SLOPE_OVER] = celsius;
        samples = samples == 2 * SLOPE_OVER - 1 ? SLOPE_OVER : samples + 1;
    }

    /** The mean rate over the last five minutes, K/h; a single reading is taken to hold. */
    private double slopeKPerH(long atMs, double celsius) {
        if (samples == 0) {
            return 0;
        }
        int oldest = samples <= SLOPE_OVER ? 0 : samples % SLOPE_OVER;
        long apartMs = atMs - sampleMs[oldest];
        return apartMs < SLOPE_LEAST_MS ? 0 : (celsius - sampleC[oldest]) / (apartMs / 3_600_000.0);
    }
}
