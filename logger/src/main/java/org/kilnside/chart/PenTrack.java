package org.kilnside.chart;

import java.util.Arrays;
import org.kilnside.firing.Trace;

/**
 * What a round pen covers that follows a curve from left to right: for each quarter of a column of dots the highest and
 * the lowest place it comes to. Every reading counts, so that no peak is lost, and a hundred readings in one column cost
 * no more than being looked at: there is no path to be stroked, which is what makes the noise of a real thermocouple
 * dear. Confined to the thread that draws; its buffers are used again.
 *
 * <p>Dots are counted from the layer's left and top edge, y downwards.
 */
final class PenTrack {
    /** How many upright strips a column of dots is looked at in: the smoothness of steep edges. */
    static final int STRIPS = 4;

    private float[] curveTop = new float[0];
    private float[] curveBottom = new float[0];
    private float[] penTop = new float[0];
    private float[] penBottom = new float[0];
    private float[] pen = new float[1];
    private int strips;

    /** How many strips the pen reaches to each side; as many more are kept before the first and after the last. */
    private int reach;

    private int room;
    private boolean down;
    private int beforeIndex;
    private double beforeX;
    private double beforeY;

    /** The track of a whole firing's stretch. */
    void follow(Trace curve, TimeSpan span, long gapMs, ChartScale scale, int columns, double radius) {
        begin(columns, radius);
        int from = Math.max(0, curve.indexAt(span.fromMs()));
        int to = Math.min(curve.size() - 1, curve.indexAt(span.toMs()) + 1);
        long before = Long.MAX_VALUE;
        for (int i = from; i <= to; i++) {
            long at = curve.elapsedMs(i);
            if (at - before > gapMs) {
                lift();
            }
            to(scale.x(at), scale.y(curve.temperatureC(i)));
            before = at;
        }
        end();
    }

    /**
     * The track of a stretch of a curve made ready.
     *
     * @param shiftMs added to the curve's own time
     */
    void follow(CurveLevels.Level level, TimeSpan span, long shiftMs, ChartScale scale, int columns, double radius) {
        begin(columns, radius);
        double toMs = (double) span.toMs() - shiftMs;
        for (int i = Math.max(0, level.from((double) span.fromMs() - shiftMs) - 1); i < level.size(); i++) {
            double ms = level.timeMs()[i];
            double celsius = level.temperatureC()[i];
            if (Double.isNaN(celsius)) {
                lift();
            } else {
                to(scale.x(ms + shiftMs), scale.y(celsius));
                if (ms > toMs) {
                    break;
                }
            }
        }
        end();
    }

    /** How many strips there are, from the left edge on. */
    int strips() {
        return strips;
    }

    /** The highest place the pen comes to in a strip; below {@link #bottom} where it was never down. */
    float top(int strip) {
        return penTop[strip];
    }

    float bottom(int strip) {
        return penBottom[strip];
    }

    private void begin(int columns, double radius) {
        strips = columns * STRIPS;
        reach = (int) Math.ceil(radius * STRIPS);
        room = strips + 2 * reach;
        if (curveTop.length < room) {
            curveTop = new float[room];
            curveBottom = new float[room];
            penTop = new float[room];
            penBottom = new float[room];
        }
        Arrays.fill(curveTop, 0, room, Float.POSITIVE_INFINITY);
        Arrays.fill(curveBottom, 0, room, Float.NEGATIVE_INFINITY);
        if (pen.length != reach) {
            pen = new float[reach];
        }
        for (int k = 0; k < reach; k++) {
            double away = (double) k / STRIPS;
            pen[k] = (float) Math.sqrt(radius * radius - away * away);
        }
        down = false;
    }

    private void to(double x, double y) {
        int index = index(x);
        if (down && index != beforeIndex) {
            double slope = (y - beforeY) / (x - beforeX);
            for (int k = beforeIndex; k < index; k++) {
                double edge = beforeY + slope * ((k + 1.0 - reach) / STRIPS - beforeX);
                touch(k, (float) edge);
                touch(k + 1, (float) edge);
            }
        }
        touch(index, (float) y);
        down = true;
        beforeIndex = index;
        beforeX = x;
        beforeY = y;
    }

    /** Where a place's strip is in the buffers; what lies outside goes to the first or the last, which nobody reads. */
    private int index(double x) {
        double strip = x * STRIPS + reach;
        if (strip < 0) {
            return 0;
        }
        return strip < room - 1 ? (int) strip : room - 1;
    }

    private void touch(int index, float y) {
        if (y < curveTop[index]) {
            curveTop[index] = y;
        }
        if (y > curveBottom[index]) {
            curveBottom[index] = y;
        }
    }

    private void lift() {
        down = false;
    }

    /** From where the curve is to where the pen, which is round, comes to. */
    private void end() {
        Arrays.fill(penTop, 0, strips, Float.POSITIVE_INFINITY);
        Arrays.fill(penBottom, 0, strips, Float.NEGATIVE_INFINITY);
        for (int k = -reach + 1; k < reach; k++) {
            float half = pen[Math.abs(k)];
            int shift = reach + k;
            // Compared, not Math.min and max: without the server compiler those cost as much as all the rest.
            for (int strip = 0; strip < strips; strip++) {
                float top = curveTop[strip + shift] - half;
                if (top < penTop[strip]) {
                    penTop[strip] = top;
                }
                float bottom = curveBottom[strip + shift] + half;
                if (bottom > penBottom[strip]) {
                    penBottom[strip] = bottom;
                }
            }
        }
    }
}
