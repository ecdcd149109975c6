package org.kilnside.chart;

import java.awt.geom.Path2D;

/**
 * A curve as the few corners a screen can show: no point of it lies further than a quarter of a pixel from the line drawn,
 * so that every peak is there, and a straight ramp of ten thousand readings is one stroke. Confined to the thread that
 * draws; its path is used again for each drawing.
 */
final class CurvePath {
    private static final double TOLERANCE_PIXELS = 0.25;

    private final Path2D.Double path = new Path2D.Double();
    private boolean open;
    private double anchorX;
    private double anchorY;
    private double beforeX;
    private double beforeY;
    private boolean pending;
    private double leastSlope;
    private double mostSlope;
    private int corners;

    /** From a point of the curve to a point of the drawing. */
    record Scale(double fromMs, double pixelsPerMs, double left, double zeroY, double pixelsPerC) {
        double x(double ms) {
            return left + (ms - fromMs) * pixelsPerMs;
        }

        double y(double celsius) {
            return zeroY - celsius * pixelsPerC;
        }
    }

    /** How many corners the newest path has. */
    int corners() {
        return corners;
    }

    /**
     * The path of what lies within a stretch of time, and a little beyond at both ends.
     *
     * @param shiftMs added to the curve's own time
     */
    Path2D of(CurveLevels.Level level, double fromMs, double toMs, double shiftMs, Scale scale) {
        path.reset();
        open = false;
        pending = false;
        corners = 0;
        int first = Math.max(0, level.from(fromMs - shiftMs) - 1);
        for (int i = first; i < level.size(); i++) {
            double ms = level.timeMs()[i] + shiftMs;
            double celsius = level.temperatureC()[i];
            if (Double.isNaN(celsius)) {
                end();
            } else {
                point(scale.x(ms), scale.y(celsius));
                if (ms > toMs) {
                    break;
                }
            }
        }
        end();
        return path;
    }

    /** Straight on as long as one line passes all points by less than the tolerance. */
    private void point(double x, double y) {
        if (!open) {
            path.moveTo(x, y);
            open = true;
            anchor(x, y);
            return;
        }
        double run = x - anchorX;
        if (run < 1e-9) {
            // Several readings in one instant: each is drawn.
            corner(x, y);
            return;
        }
        double least = (y - TOLERANCE_PIXELS - anchorY) / run;
        double most = (y + TOLERANCE_PIXELS - anchorY) / run;
        double slope = (y - anchorY) / run;
        if (pending && (slope < leastSlope || slope > mostSlope)) {
            corner(beforeX, beforeY);
            point(x, y);
            return;
        }
        leastSlope = pending ? Math.max(leastSlope, least) : least;
        mostSlope = pending ? Math.min(mostSlope, most) : most;
        beforeX = x;
        beforeY = y;
        pending = true;
    }

    private void corner(double x, double y) {
        path.lineTo(x, y);
        anchor(x, y);
    }

    private void anchor(double x, double y) {
        anchorX = x;
        anchorY = y;
        pending = false;
        corners++;
    }

    private void end() {
        if (pending) {
            corner(beforeX, beforeY);
        }
        open = false;
        pending = false;
    }
}
