package org.kilnside.chart;

import java.awt.geom.AffineTransform;

/**
 * From a point of a curve to a point of the drawing.
 *
 * @param fromMs the time at the left edge
 * @param pixelsPerMs how fast time goes to the right
 * @param left where the left edge lies, pixels
 * @param zeroY where 0 °C lies, pixels
 * @param pixelsPerC how much higher a degree Celsius is
 */
record ChartScale(double fromMs, double pixelsPerMs, double left, double zeroY, double pixelsPerC) {
    double x(double ms) {
        return left + (ms - fromMs) * pixelsPerMs;
    }

    double y(double celsius) {
        return zeroY - celsius * pixelsPerC;
    }

    /** The same in the dots of the device, counted from a dot. */
    ChartScale onDevice(AffineTransform toDevice, int leftDot, int topDot) {
        return new ChartScale(
                fromMs,
                pixelsPerMs * toDevice.getScaleX(),
                left * toDevice.getScaleX() + toDevice.getTranslateX() - leftDot,
                zeroY * toDevice.getScaleY() + toDevice.getTranslateY() - topDot,
                pixelsPerC * toDevice.getScaleY());
    }
}
