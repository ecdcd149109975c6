package org.kilnside.heatwork;

/**
 * Whether one and the same number lasted at the highest: a sensor at its end gives it again and again; a kiln held at
 * its top does not for so long. A function of the readings alone.
 */
final class StoodStill {
    private static final double SAME_NUMBER_K = 0.05;
    private static final long LASTS_MS = 120_000;
    private static final int LEAST = 3;

    private long sinceMs;
    private int count;
    private double atC;
    private double stoodAtC = Double.NEGATIVE_INFINITY;

    StoodStill() {}

    private StoodStill(StoodStill other) {
        sinceMs = other.sinceMs;
        count = other.count;
        atC = other.atC;
        stoodAtC = other.stoodAtC;
    }

    StoodStill copy() {
        return new StoodStill(this);
    }

    /**
     * Takes the next reading.
     *
     * @param peakC the highest so far, this one included
     */
    void add(long elapsedMs, double celsius, double peakC) {
        if (celsius < peakC - SAME_NUMBER_K) {
            count = 0;
            return;
        }
        if (count == 0 || celsius > atC + SAME_NUMBER_K) {
            count = 0;
            sinceMs = elapsedMs;
            atC = celsius;
        }
        count++;
        if (count >= LEAST && elapsedMs - sinceMs >= LASTS_MS) {
            stoodAtC = atC;
        }
    }

    /** Whether a number lasted that is the highest of all. */
    boolean isHighest(double peakC) {
        return stoodAtC >= peakC - SAME_NUMBER_K;
    }
}
