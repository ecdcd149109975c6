package org.kilnside.chart;

import java.awt.geom.Rectangle2D;

/**
 * Where things stand in a drawing.
 *
 * @param area the plot within the axes, in the drawing's pixels
 * @param span the time it shows
 */
public record ChartGeometry(Rectangle2D area, TimeSpan span) {
    /** The share of the width at a pixel, 0 … 1 inside. */
    public double share(double x) {
        return (x - area.getX()) / area.getWidth();
    }

    public long timeMs(double x) {
        return span.at(share(x));
    }
}
