package org.kilnside.chart;

import java.util.Arrays;
import org.kilnside.firing.Trace;

/**
 * The few points of a curve a drawing needs: for each column of pixels the first, the lowest, the highest and the last
 * reading, so that no peak is lost however many readings a column holds. Where the curve stays within half a pixel in
 * a column its last reading stands for all. A gap in the readings is a break, written as NaN.
 *
 * <p>Built anew for each frame, in buffers that are used again: confined to the thread that draws.
 */
final class CurvePoints {
    private double[] timeMs = new double[4096];
    private double[] temperatureC = new double[4096];
    private int size;
    private double lowestC;
    private double highestC;

    int size() {
        return size;
    }

    double timeMs(int index) {
        return timeMs[index];
    }

    /** °C, or NaN at a break. */
    double temperatureC(int index) {
        return temperatureC[index];
    }

    /** The lowest temperature in the span, °C; above {@link #highestC()} when there is none. */
    double lowestC() {
        return lowestC;
    }

    double highestC() {
        return highestC;
    }

    /**
     * Takes the points of a stretch of the curve.
     *
     * @param columns how many pixels wide the drawing is
     * @param toleranceC what half a pixel of height is worth, °C
     * @param gapMs a pause longer than this is a break
     */
    void take(Trace curve, TimeSpan span, int columns, double toleranceC, long gapMs) {
        size = 0;
        lowestC = Double.POSITIVE_INFINITY;
        highestC = Double.NEGATIVE_INFINITY;
        if (curve.isEmpty() || columns < 1) {
            return;
        }
        int from = Math.max(0, curve.indexAt(span.fromMs()));
        int to = Math.min(curve.size() - 1, curve.indexAt(span.toMs()) + 1);
        double columnsPerMs = (double) columns / span.lengthMs();
        long column = Long.MIN_VALUE;
        int first = -1;
        int last = -1;
        int lowest = -1;
        int highest = -1;
        double low = 0;
        double high = 0;
        long before = curve.elapsedMs(from);
        for (int i = from; i <= to; i++) {
            long at = curve.elapsedMs(i);
            double celsius = curve.temperatureC(i);
            long its = (long) Math.floor((at - span.fromMs()) * columnsPerMs);
            boolean gap = at - before > gapMs;
            if (its != column || gap) {
                put(curve, first, lowest, highest, last, high - low <= toleranceC && !gap);
                if (gap) {
                    add(before, Double.NaN);
                }
                column = its;
                first = i;
                lowest = i;
                highest = i;
                low = celsius;
                high = celsius;
            } else if (celsius < low) {
                lowest = i;
                low = celsius;
            } else if (celsius > high) {
                highest = i;
                high = celsius;
            }
            last = i;
            before = at;
        }
        put(curve, first, lowest, highest, last, false);
    }

    private void put(Trace curve, int first, int lowest, int highest, int last, boolean flat) {
        if (first < 0) {
            return;
        }
        lowestC = Math.min(lowestC, curve.temperatureC(lowest));
        highestC = Math.max(highestC, curve.temperatureC(highest));
        if (flat) {
            add(curve.elapsedMs(last), curve.temperatureC(last));
            return;
        }
        int earlier = Math.min(lowest, highest);
        int later = Math.max(lowest, highest);
        add(curve.elapsedMs(first), curve.temperatureC(first));
        if (earlier != first) {
            add(curve.elapsedMs(earlier), curve.temperatureC(earlier));
        }
        if (later != earlier && later != first) {
            add(curve.elapsedMs(later), curve.temperatureC(later));
        }
        if (last != later && last != first) {
            add(curve.elapsedMs(last), curve.temperatureC(last));
        }
    }

    private void add(double time, double celsius) {
        if (size == timeMs.length) {
            timeMs = Arrays.copyOf(timeMs, size * 2);
            temperatureC = Arrays.copyOf(temperatureC, size * 2);
        }
        timeMs[size] = time;
        temperatureC[size] = celsius;
        size++;
    }
}
