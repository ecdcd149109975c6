package org.kilnside.heatwork;

import java.util.Arrays;

/**
 * The mean of the readings of the last moments, with the time it stands for: where a firing's top lies, and when it is
 * left, is judged by it, as the highest and the lowest of thousands of noisy readings are several degrees off. A mean
 * over a straight stretch is the stretch's own temperature at the mean of the times, so a ramp is not bent.
 *
 * <p>Judged reading by reading from the readings alone, so the same live and replayed.
 */
final class SmoothedLevel {
    /** Over so long the readings are averaged; the corner of a fast top is rounded by less than a degree. */
    private static final long SPAN_MS = 60_000;

    /** And over so many at least, where they come seldom … */
    private static final int LEAST = 3;

    /** … unless they are so far apart that their mean says nothing of the moment. */
    private static final long LONGEST_MS = 300_000;

    private long[] timesMs = new long[64];
    private double[] celsius = new double[64];
    private int before;
    private int oldest;
    private int end;
    private boolean whole;
    private double sumC;
    private double sumMs;
    private long beganMs;

    SmoothedLevel() {}

    private SmoothedLevel(SmoothedLevel other) {
        timesMs = other.timesMs.clone();
        celsius = other.celsius.clone();
        before = other.before;
        oldest = other.oldest;
        end = other.end;
        whole = other.whole;
        sumC = other.sumC;
        sumMs = other.sumMs;
        beganMs = other.beganMs;
    }

    SmoothedLevel copy() {
        return new SmoothedLevel(this);
    }

    /** Begins anew: what came before says nothing of what follows. */
    void startAt(long elapsedMs, double atC) {
        before = 0;
        oldest = 0;
        end = 0;
        sumC = 0;
        sumMs = 0;
        beganMs = elapsedMs;
        whole = false;
        append(elapsedMs, atC);
    }

    void add(long elapsedMs, double atC) {
        before = oldest;
        append(elapsedMs, atC);
        while (end - oldest > 1 && isTooOld(elapsedMs - timesMs[oldest])) {
            sumC -= celsius[oldest];
            sumMs -= timesMs[oldest] - beganMs;
            oldest++;
            whole = true;
        }
    }

    private boolean isTooOld(long ageMs) {
        return ageMs > LONGEST_MS || ageMs > SPAN_MS && end - oldest > LEAST;
    }

    private void append(long elapsedMs, double atC) {
        if (end == timesMs.length) {
            makeRoom();
        }
        timesMs[end] = elapsedMs;
        celsius[end] = atC;
        end++;
        sumC += atC;
        sumMs += elapsedMs - beganMs;
    }

    private void makeRoom() {
        int kept = end - before;
        if (2 * kept > timesMs.length) {
            timesMs = Arrays.copyOf(timesMs, 2 * timesMs.length);
            celsius = Arrays.copyOf(celsius, 2 * celsius.length);
        }
        System.arraycopy(timesMs, before, timesMs, 0, kept);
        System.arraycopy(celsius, before, celsius, 0, kept);
        oldest -= before;
        before = 0;
        end = kept;
    }

    /** Whether as many readings as wanted have come since it began. */
    boolean isWhole() {
        return whole;
    }

    double celsius() {
        return sumC / (end - oldest);
    }

    /** The moment the mean stands for, ms on the recording's clock. */
    double atMs() {
        return beganMs + sumMs / (end - oldest);
    }

    /** Adds to an integral what the curve has given it since a moment; not before the mean that stood before the last reading. */
    void addSince(double sinceMs, Bending to) {
        int next = before;
        while (next < end && timesMs[next] <= sinceMs) {
            next++;
        }
        if (next == end) {
            return;
        }
        double fromMs = timesMs[next];
        double fromC = celsius[next];
        if (next > before) {
            double share = (sinceMs - timesMs[next - 1]) / (timesMs[next] - timesMs[next - 1]);
            fromMs = sinceMs;
            fromC = celsius[next - 1] + share * (celsius[next] - celsius[next - 1]);
        }
        to.startAt(fromC);
        for (int i = next; i < end; i++) {
            to.add(fromC, celsius[i], (timesMs[i] - fromMs) / 1000.0);
            fromMs = timesMs[i];
            fromC = celsius[i];
        }
    }
}
