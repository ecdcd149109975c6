package org.kilnside.chart;

import java.util.Arrays;
import org.kilnside.firing.Trace;
import org.kilnside.tracking.FiringFigures;

/**
 * A curve ready to be drawn at any width: all its readings, and beside them coarser copies with the lowest and the highest
 * of each few readings, so that a view of the whole looks at a sixteenth of them or fewer and still shows every peak. A gap
 * in the readings is a break, written as NaN. Made once when a firing is opened, off the Swing thread; immutable.
 */
public final class CurveLevels {
    /** How many readings one block of each coarser copy stands for, finest first. */
    private static final int[] BLOCKS = {32, 64, 128};

    private final Trace curve;
    private final Level fine;
    private final Level[] coarser = new Level[BLOCKS.length];

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
        long gapMs = FiringFigures.gapLimitMs(curve);
        fine = every(gapMs);
        for (int i = 0; i < BLOCKS.length; i++) {
            coarser[i] = blocks(BLOCKS[i], gapMs);
        }
    }

    private boolean isGap(int before, long gapMs) {
        return curve.elapsedMs(before + 1) - curve.elapsedMs(before) > gapMs;
    }

    private Level every(long gapMs) {
        Growing all = new Growing(curve.size() + 16);
        for (int i = 0; i < curve.size(); i++) {
            if (i > 0 && isGap(i - 1, gapMs)) {
                all.add(curve.elapsedMs(i - 1), Double.NaN);
            }
            all.add(curve.elapsedMs(i), curve.temperatureC(i));
        }
        return all.level();
    }

    private Level blocks(int length, long gapMs) {
        Growing some = new Growing(curve.size() * 4 / length + 16);
        int first = 0;
        for (int i = 0; i < curve.size(); i++) {
            boolean isLast = i == curve.size() - 1;
            boolean gap = !isLast && isGap(i, gapMs);
            if (isLast || gap || i - first == length - 1) {
                block(some, first, i);
                first = i + 1;
            }
            if (gap) {
                some.add(curve.elapsedMs(i), Double.NaN);
            }
        }
        return some.level();
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
        Level enough = fine;
        for (int i = 0; i < BLOCKS.length && visible > (long) BLOCKS[i] * columns; i++) {
            enough = coarser[i];
        }
        return enough;
    }

    /** The first, the lowest, the highest and the last reading of a block, in order of time, each once. */
    private void block(Growing into, int from, int to) {
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
