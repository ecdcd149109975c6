package org.kilnside.chart;

import java.util.Arrays;
import org.kilnside.firing.Trace;
import org.kilnside.tracking.FiringFigures;

/**
 * A curve ready to be drawn at any width: all its readings, and beside them a coarse copy with the lowest and the highest
 * of each few readings, so that a view of the whole looks at a sixteenth of them and still shows every peak. A gap in the
 * readings is a break, written as NaN. Made once when a firing is opened, off the Swing thread; immutable.
 */
public final class CurveLevels {
    /** How many readings one block of the coarse copy stands for. */
    private static final int BLOCK = 32;

    private final Trace curve;
    private final Level fine;
    private final Level coarse;

    /** Times in ms and °C, NaN at a break. */
    record Level(double[] timeMs, double[] temperatureC, int size) {
        /** The first point at or after a time. */
        int from(double ms) {
            int found = Arrays.binarySearch(timeMs, 0, size, ms);
            int at = found < 0 ? -found - 1 : found;
            while (at > 0 && timeMs[at - 1] >= ms) {
                at--;
            }
            return at;
        }
    }

    private CurveLevels(Trace curve) {
        this.curve = curve;
        Growing all = new Growing(curve.size() + 16);
        Growing some = new Growing(curve.size() / (BLOCK / 2) + 16);
        long gapMs = FiringFigures.gapLimitMs(curve);
        int first = 0;
        for (int i = 0; i < curve.size(); i++) {
            boolean gap = i > 0 && curve.elapsedMs(i) - curve.elapsedMs(i - 1) > gapMs;
            if (gap) {
                block(some, first, i - 1);
                some.add(curve.elapsedMs(i - 1), Double.NaN);
                all.add(curve.elapsedMs(i - 1), Double.NaN);
                first = i;
            }
            all.add(curve.elapsedMs(i), curve.temperatureC(i));
            if (i - first == BLOCK - 1) {
                block(some, first, i);
                first = i + 1;
            }
        }
        block(some, first, curve.size() - 1);
        fine = all.level();
        coarse = some.level();
    }

    public static CurveLevels of(Trace curve) {
        return new CurveLevels(curve);
    }

    /** The curve itself. */
    public Trace curve() {
        return curve;
    }

    /** The level that is fine enough for a width. */
    Level level(double fromMs, double toMs, int columns) {
        int visible = fine.from(toMs) - fine.from(fromMs);
        return visible > BLOCK * columns ? coarse : fine;
    }

    /** The first, the lowest, the highest and the last reading of a block, in order of time, each once. */
    private void block(Growing into, int from, int to) {
        if (to < from) {
            return;
        }
        int lowest = from;
        int highest = from;
        for (int i = from + 1; i <= to; i++) {
            lowest = curve.temperatureC(i) < curve.temperatureC(lowest) ? i : lowest;
            highest = curve.temperatureC(i) > curve.temperatureC(highest) ? i : highest;
        }
        int[] kept = {from, Math.min(lowest, highest), Math.max(lowest, highest), to};
        int before = -1;
        for (int index : kept) {
            if (index != before) {
                into.add(curve.elapsedMs(index), curve.temperatureC(index));
                before = index;
            }
        }
    }

    private static final class Growing {
        private double[] timeMs;
        private double[] temperatureC;
        private int size;

        Growing(int room) {
            timeMs = new double[room];
            temperatureC = new double[room];
        }

        void add(double ms, double celsius) {
            if (size == timeMs.length) {
                timeMs = Arrays.copyOf(timeMs, size * 2);
                temperatureC = Arrays.copyOf(temperatureC, size * 2);
            }
            timeMs[size] = ms;
            temperatureC[size] = celsius;
            size++;
        }

        Level level() {
            return new Level(timeMs, temperatureC, size);
        }
    }
}
