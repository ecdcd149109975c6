package org.kilnside.tracking;

import java.util.OptionalDouble;

/**
 * Where the temperature is going, from the readings of the last two hours: a lightly smoothed value, and means over
 * half a minute from which slopes over minutes are taken. A reading costs a few operations; only when half a minute is
 * full is there more to do, so that a firing at ten lines a second costs no more than one at a line a minute.
 *
 * <p>°C, K/h and ms of the recording.
 */
final class TemperatureTrend {
    private static final long BUCKET_MS = 30_000;
    private static final int BUCKETS = 256;
    private static final double SMOOTHING_MS = 15_000;
    /** After a pause this long the smoothed value starts afresh. */
    private static final long PAUSE_MS = 120_000;

    private static final double MS_PER_HOUR = 3_600_000;

    private final long[] bucketMs = new long[BUCKETS];
    private final double[] bucketC = new double[BUCKETS];
    private int buckets;
    private long firstMs;
    private long lastMs;
    private double smoothC;
    private long openUntilMs = Long.MIN_VALUE;
    private long openSumMs;
    private double openSumC;
    private int openCount;

    /** Takes a temperature; true when half a minute has become full by it. */
    boolean add(long elapsedMs, double celsius) {
        boolean closed = false;
        if (isEmpty()) {
            firstMs = elapsedMs;
            smoothC = celsius;
        } else if (elapsedMs - lastMs > PAUSE_MS) {
            smoothC = celsius;
        } else {
            double step = elapsedMs - lastMs;
            smoothC += (celsius - smoothC) * (step / (step + SMOOTHING_MS));
        }
        lastMs = elapsedMs;
        if (elapsedMs >= openUntilMs) {
            if (openCount > 0) {
                int at = buckets++ % BUCKETS;
                bucketMs[at] = openSumMs / openCount;
                bucketC[at] = openSumC / openCount;
                closed = true;
            }
            openUntilMs = elapsedMs + BUCKET_MS;
            openSumMs = 0;
            openSumC = 0;
            openCount = 0;
        }
        openSumMs += elapsedMs;
        openSumC += celsius;
        openCount++;
        return closed;
    }

    /** The smoothed temperature now; lags by a quarter of a minute. */
    double smoothC() {
        return smoothC;
    }

    long lastMs() {
        return lastMs;
    }

    boolean isEmpty() {
        return buckets == 0 && openCount == 0;
    }

    /** How long there have been readings. */
    long spanMs() {
        return lastMs - firstMs;
    }

    int size() {
        return Math.min(buckets, BUCKETS);
    }

    /** Time of the n-th last full half minute, 0 = the newest. */
    long ms(int back) {
        return bucketMs[(buckets - 1 - back) % BUCKETS];
    }

    /** Mean temperature of the n-th last full half minute. */
    double celsius(int back) {
        return bucketC[(buckets - 1 - back) % BUCKETS];
    }

    /**
     * K/h between the newest full half minute and one that lies a time before it, or up to half as long again; empty
     * when there is none.
     */
    OptionalDouble slope(long windowMs) {
        for (int back = 1; back < size(); back++) {
            long span = ms(0) - ms(back);
            if (span >= windowMs) {
                return span <= windowMs + windowMs / 2 + BUCKET_MS
                        ? OptionalDouble.of((celsius(0) - celsius(back)) / span * MS_PER_HOUR)
                        : OptionalDouble.empty();
            }
        }
        return OptionalDouble.empty();
    }

    /** Mean temperature of the half minute that lies a time before the newest, °C; empty when there is none near it. */
    OptionalDouble celsiusAgo(long agoMs) {
        for (int back = 1; back < size(); back++) {
            long span = ms(0) - ms(back);
            if (span >= agoMs) {
                return span <= agoMs + agoMs / 5 + BUCKET_MS
                        ? OptionalDouble.of(celsius(back))
                        : OptionalDouble.empty();
            }
        }
        return OptionalDouble.empty();
    }

    /** The lowest half minute within a time before the newest, as its number back; the latest of equals. */
    int lowest(long windowMs) {
        int lowest = 0;
        for (int back = 1; back < size() && ms(0) - ms(back) <= windowMs; back++) {
            if (celsius(back) < celsius(lowest)) {
                lowest = back;
            }
        }
        return lowest;
    }
}
